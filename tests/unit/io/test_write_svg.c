/* test_write_svg.c - figures as SVG: escaped, balanced, the same bytes each time. */
#include <string.h>

#include "sillspan/memory.h"
#include "sillspan/write.h"
#include "support/suite.h"

static void fill(ss_figure *figure) {
    const ss_spot path[] = {{1.0, 2.0}, {3.456, -0.001}, {1e-9, 100.0}};
    *figure =
        (ss_figure){.key = "plan", .title = "a < b & \"c\"", .text = "it's", .width = 180.0, .height = 90.5};
    ss_figure_path(figure, SS_FIGURE_AXIS, path, 3);
    ss_figure_area(figure, SS_FIGURE_FINDING, path, 3);
    ss_figure_text(figure, (ss_lettering){SS_FIGURE_LABEL, 0, 2.5, false}, (ss_spot){10.0, 20.125},
                   "</text><script>alert('x')</script> \x1B[31m \xC3\xA4 \xFF");
    ss_figure_text(figure, (ss_lettering){SS_FIGURE_CAPTION, -1, 3.0, true}, (ss_spot){5.0, 6.0}, "up");
}

static char *written(void) {
    static ss_text text;
    ss_figure figure;
    ss_error error = {0};
    ss_text_destroy(&text);
    text = (ss_text){0};
    fill(&figure);
    CHECK_OK(ss_write_svg(&figure, &text, &error), &error);
    ss_figure_destroy(&figure);
    return text.data;
}

static void test_elements(void) {
    const char *const svg = written();
    CU_ASSERT_PTR_NOT_NULL(strstr(svg, "width=\"180mm\" height=\"90.5mm\" viewBox=\"0 0 180 90.5\""));
    CU_ASSERT_PTR_NOT_NULL(strstr(svg, "<polyline class=\"m axis\" points=\"1,2 3.46,0 0,100\"/>"));
    CU_ASSERT_PTR_NOT_NULL(
        strstr(svg, "<polygon class=\"m finding\" style=\"fill:url(#plan-seen)\" points=\""));
    CU_ASSERT_PTR_NOT_NULL(strstr(svg, "<text class=\"caption\" x=\"5\" y=\"6\" font-size=\"3\" "
                                       "text-anchor=\"end\" transform=\"rotate(-90 5 6)\">up</text>"));
    CU_ASSERT_PTR_NOT_NULL(strstr(svg, "<title id=\"plan-title\">a &lt; b &amp; &quot;c&quot;</title>"));
    CU_ASSERT_PTR_NOT_NULL(strstr(svg, "<desc id=\"plan-text\">it&#39;s</desc>"));
}

static void test_escaping(void) {
    const char *const svg = written();
    CU_ASSERT_PTR_NULL(strstr(svg, "<script"));
    CU_ASSERT_PTR_NULL(strchr(svg, '\x1B'));
    CU_ASSERT_PTR_NULL(strchr(svg, '\xFF'));
    CU_ASSERT_PTR_NOT_NULL(strstr(svg, "&lt;/text&gt;&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;"));
    CU_ASSERT_PTR_NOT_NULL(strstr(svg, "\xC3\xA4"));
}

/* Every tag that opens closes in its turn, attributes are quoted, and no bare & stands anywhere. */
static void test_balance(void) {
    const char *open[16];
    int depth = 0;
    int elements = 0;
    for (const char *at = written(); *at != '\0'; at++) {
        if (*at == '&') {
            CU_ASSERT_PTR_NOT_NULL(strchr(at, ';'));
        }
        if (*at != '<') {
            continue;
        }
        const char *const end = strchr(at, '>');
        CU_ASSERT_PTR_NOT_NULL_FATAL(end);
        int quotes = 0;
        for (const char *c = at; c < end; c++) {
            quotes += *c == '"';
        }
        CU_ASSERT_EQUAL(quotes % 2, 0);
        if (at[1] == '/') {
            CU_ASSERT_TRUE_FATAL(depth > 0);
            const char *const name = open[--depth];
            const size_t length = (size_t)(end - at) - 2;
            CU_ASSERT_TRUE(strncmp(name, at + 2, length) == 0 && strchr(" >", name[length]) != NULL);
        } else if (end[-1] != '/') {
            CU_ASSERT_TRUE_FATAL(depth < 16);
            open[depth++] = at + 1;
            elements++;
        } else {
            elements++;
        }
        at = end;
    }
    CU_ASSERT_EQUAL(depth, 0);
    CU_ASSERT_TRUE(elements > 10);
}

static void test_same_bytes(void) {
    char first[16384];
    const char *const svg = written();
    CU_ASSERT_TRUE_FATAL(strlen(svg) < sizeof first);
    strcpy(first, svg);
    CU_ASSERT_STRING_EQUAL(written(), first);
}

/* Every role has a class of its own. */
static void test_roles(void) {
    char seen[SS_FIGURE_ROLES][32];
    for (int role = 0; role < SS_FIGURE_ROLES; role++) {
        ss_figure figure = {.key = "plan", .width = 10.0, .height = 10.0};
        ss_text text = {0};
        ss_figure_line(&figure, (ss_figure_role)role, (ss_spot){0.0, 0.0}, (ss_spot){1.0, 1.0});
        CU_ASSERT_EQUAL_FATAL(ss_write_svg(&figure, &text, NULL), SS_OK);
        const char *const at = strstr(text.data, "<polyline class=\"m ");
        CU_ASSERT_PTR_NOT_NULL_FATAL(at);
        CU_ASSERT_EQUAL(sscanf(at, "<polyline class=\"m %31[^\"]", seen[role]), 1);
        for (int k = 0; k < role; k++) {
            CHECK_ROW(strcmp(seen[k], seen[role]) != 0, seen[role]);
        }
        ss_text_destroy(&text);
        ss_figure_destroy(&figure);
    }
}

static void test_memory(void) {
    (void)written();
    const long live = ss_memory_live();
    ss_figure figure;
    ss_status status = SS_ERROR_MEMORY;
    fill(&figure);
    for (int n = 0; status != SS_OK && n < 100; n++) {
        ss_text text = {0};
        ss_memory_fail_from(n);
        status = ss_write_svg(&figure, &text, NULL);
        ss_memory_fail_from(-1);
        CU_ASSERT_TRUE(status == SS_OK || status == SS_ERROR_MEMORY);
        ss_text_destroy(&text);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    ss_figure_destroy(&figure);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
    ss_figure broken = {.key = "plan", .failed = true};
    ss_text text = {0};
    CU_ASSERT_EQUAL(ss_write_svg(&broken, &text, NULL), SS_ERROR_MEMORY);
    CU_ASSERT_PTR_NULL(text.data);
}

static const test_case cases[] = {
    {"elements and numbers", test_elements},    {"whatever a text holds", test_escaping},
    {"tags close in their turn", test_balance}, {"the same bytes", test_same_bytes},
    {"a class for each role", test_roles},      {"every allocation fails in turn", test_memory},
};

int main(void) {
    return RUN_SUITE("write svg", cases);
}
