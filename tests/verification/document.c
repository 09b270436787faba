/* document.c - one block of the page for each check. */
#include "verification/document.h"

#include <math.h>

void document_begin(ss_text *out) {
    ss_text_add(
        out, "# Outside checks\n\n"
             "Each check below puts a number that does not come from sillspan beside the one that sillspan "
             "gives for the same thing: from a\n"
             "publication, from a closed form, or from a method written for the purpose in "
             "`tests/verification/` that shares no code with\n"
             "the library. What is quoted from memory of a publication says so and should be looked up "
             "before it is relied on. The bridges\n"
             "are the descriptions in `models/verification/`, and the obtained values went the whole way "
             "from that text.\n\n"
             "This page is written by the test program (`cmake --build build --target verification-docs`); a "
             "test compares it with what\n"
             "the program finds, and every check is a test that fails when a value leaves its tolerance.\n");
}

void document_chapter(ss_text *out, const char *title) {
    ss_text_printf(out, "\n## %s\n", title);
}

/* Values at the level of rounding are noise that no two builds share: shown as 0. */
static void value(ss_text *out, const check *c, int i, double x) {
    char buffer[40];
    const double noise = fmin(check_allowed(c, i), pow(10.0, -c->digits));
    ss_text_add(out, ss_text_significant(buffer, sizeof buffer, fabs(x) < noise ? 0.0 : x, c->digits));
}

static void values(ss_text *out, const check *c, const char *title, const double *x) {
    ss_text_printf(out, "| %s | ", title);
    for (int i = 0; i < c->count; i++) {
        ss_text_add(out, i == 0 ? "" : ", ");
        value(out, c, i, x[i]);
    }
    ss_text_add(out, " |\n");
}

void document_check(ss_text *out, const check *c, int number) {
    char buffer[40];
    ss_text_printf(out, "\n### %d. %s\n\n| | |\n|---|---|\n", number, c->title);
    ss_text_printf(out, "| source | %s |\n", c->source);
    ss_text_printf(out, "| inputs | %s |\n", c->inputs);
    ss_text_printf(out, "| values | %s |\n", c->values);
    values(out, c, "expected", c->expected);
    values(out, c, "obtained", c->obtained);
    ss_text_printf(out, "| tolerance | %s%s: %s |\n",
                   ss_text_significant(buffer, sizeof buffer, c->tolerance, 3),
                   c->relative ? " of each value" : "", c->why);
}
