/* starter.c - asking, and the head of the description that `sillspan new` writes. */
#include "cli/starter.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define METRES_IN_FOOT 0.3048

/* ---- asking ----------------------------------------------------------------------------------------- */

static void say(const ss_asker *asker, const char *format, const char *first, const char *second) {
    ss_text line = {0};
    ss_text plain[2] = {{0}, {0}};
    ss_text_add_plain(&plain[0], first);
    ss_text_add_plain(&plain[1], second);
    ss_text_add(&line, format);
    ss_text_add(&line, plain[0].data == NULL ? "" : plain[0].data);
    ss_text_add(&line, plain[1].data == NULL ? "" : plain[1].data);
    asker->say(asker->context, line.failed ? "no memory for a question" : line.data);
    ss_text_destroy(&plain[0]);
    ss_text_destroy(&plain[1]);
    ss_text_destroy(&line);
}

/* Without the blanks around it, in place. */
static char *trimmed(char *line) {
    line += strspn(line, " \t\r");
    size_t length = strlen(line);
    while (length > 0 && strchr(" \t\r", line[length - 1]) != NULL) {
        length--;
    }
    line[length] = '\0';
    return line;
}

static bool ask(ss_starter *starter, int question, const ss_asker *asker, char *why, size_t size) {
    const ss_question *row = &ss_questions()[question];
    char line[2 * SS_ANSWER_BYTES];
    char assumed[SS_ANSWER_BYTES];
    char offer[SS_ANSWER_BYTES + 16] = "? ";
    (void)ss_starter_assumption(starter, question, assumed, sizeof assumed);
    if (!row->open) {
        snprintf(offer, sizeof offer, " [%s]? ", assumed);
    }
    for (;;) {
        say(asker, row->ask, offer, "");
        if (!asker->read_line(asker->context, line, sizeof line)) {
            snprintf(why, size, "the answers ended before the last question; nothing was written");
            return false;
        }
        const char *answer = trimmed(line);
        if (answer[0] == '\0') {
            return ss_starter_assume(starter, question, why, size);
        }
        if (ss_starter_take(starter, question, answer, why, size)) {
            return true;
        }
        say(asker, "  ", why, "\n");
    }
}

bool ss_starter_fill(ss_starter *starter, const char *const *given, const ss_asker *asker, char *why,
                     size_t size) {
    if (asker != NULL) {
        say(asker, "An empty answer takes the value in brackets, which is then marked ASSUMED.\n", "", "");
    }
    for (int i = 0; i < SS_ASK_COUNT; i++) {
        const char *option = ss_questions()[i].option;
        char reason[300];
        bool good = true;
        if (!ss_starter_arises(starter, i)) {
            if (given[i] != NULL) {
                snprintf(why, size, "--%s goes with %s only", option,
                         i == SS_ASK_WHEEL_TRUCKS ? "--bearings \"wheel trucks\" or both"
                                                  : "two cars or more");
                return false;
            }
            continue;
        }
        if (given[i] != NULL) {
            good = ss_starter_take(starter, i, given[i], reason, sizeof reason);
        } else if (asker != NULL) {
            if (!ask(starter, i, asker, why, size)) {
                return false;
            }
        } else {
            good = ss_starter_assume(starter, i, reason, sizeof reason);
        }
        if (!good) {
            snprintf(why, size, "--%s: %s", option, reason);
            return false;
        }
    }
    return true;
}

/* ---- writing ---------------------------------------------------------------------------------------- */

const char *ss_starter_pick(const ss_starter *starter, const char *us, const char *si) {
    return ss_starter_units(starter) == SS_UNITS_SI ? si : us;
}

const char *ss_starter_mark(const ss_starter *starter, int question) {
    return starter->assumed[question] ? "    # ASSUMED" : "";
}

void ss_starter_quote(ss_text *out, const char *text) {
    ss_text_add(out, "\"");
    for (const char *at = text; *at != '\0'; at++) {
        if (*at == '"' || *at == '\\') {
            ss_text_add(out, "\\");
        }
        ss_text_add_bytes(out, at, 1);
    }
    ss_text_add(out, "\"");
}

static double step_of(const ss_starter *starter) {
    return ss_starter_units(starter) == SS_UNITS_SI ? 0.01 : 0.01 * METRES_IN_FOOT;
}

double ss_starter_rounded(const ss_starter *starter, double metres) {
    const double step = step_of(starter);
    return round(metres / step) * step;
}

void ss_starter_lengths(const ss_starter *starter, ss_text *out, const double *metres, int count) {
    const bool si = ss_starter_units(starter) == SS_UNITS_SI;
    bool inches = false;
    for (int i = 0; i < count && !si; i++) {
        inches = inches || fabs(metres[i] - ss_starter_rounded(starter, metres[i])) > 1e-9;
    }
    const double unit = si ? 1.0 : inches ? METRES_IN_FOOT / 12.0 : METRES_IN_FOOT;
    ss_text_add(out, "\"");
    for (int i = 0; i < count; i++) {
        char number[40];
        ss_text_add(out, i == 0 ? "" : ", ");
        ss_text_add(out, ss_text_significant(number, sizeof number, metres[i] / unit, 9));
    }
    ss_text_printf(out, " %s\"", si ? "m" : inches ? "in" : "ft");
}

static void write_head(const ss_starter *s, ss_text *out) {
    ss_text_add(
        out, "# A description to begin with, made by `sillspan new`.\n"
             "#\n"
             "# What stands behind a # is for people. Values marked ASSUMED were not known when this was "
             "written: measure\n"
             "# each of them, put in what the tape shows, and delete the mark. While one is left, no number "
             "computed from\n"
             "# this file says anything about a real bridge.\n"
             "#\n"
             "# A value stands in quotes with its unit, as the tape gives it: \"7 ft 6 in\", \"5/16 in\", "
             "\"2.286 m\", \"36 ksi\".\n"
             "# Several share one unit: \"0, 7, 14 ft\". Every key is explained in docs/description.md.\n\n"
             "title = ");
    ss_starter_quote(out, s->text[SS_ASK_TITLE]);
    ss_text_printf(out, ";%s\n", ss_starter_mark(s, SS_ASK_TITLE));
    ss_text_add(out, "# notes = \"Who measured, when, with what; what could not be reached.\";\n");
    ss_text_printf(out, "units = \"%s\";    # of the output; below, every value has its own\n",
                   s->text[SS_ASK_UNITS]);
    ss_text_add(out, "\n\n# ---- Steel ----\n"
                     "# Best is a yield stress from coupons, fy = \"36 ksi\"; next the grade on a "
                     "certificate, grade = \"A36\"; else\n"
                     "# the year in which the car was built, which gives a low yield stress of that time.\n\n"
                     "steels = (\n");
    ss_text_printf(out, "  { name = \"car steel\"; year_built = %s; }%s\n);\n", s->text[SS_ASK_YEAR],
                   ss_starter_mark(s, SS_ASK_YEAR));
}

/* Plates of no car in particular, of the size that many have. */
static const char *const plates[2] = {
    [SS_UNITS_US] =
        "    top    = { width = \"20 in\"; thickness = \"1/2 in\"; };          # ASSUMED\n"
        "    bottom = { width = \"18 in\"; thickness = \"3/4 in\"; };          # ASSUMED\n"
        "    webs   = { thickness = \"5/16 in\"; clear_between = \"13 in\"; };  # ASSUMED\n"
        "    torsion = \"open\"; },                                          # ASSUMED\n"
        "  { name = \"edge channel\"; shape = \"channel\"; depth = \"15 in\";    # ASSUMED\n"
        "    flange = { width = \"3.4 in\"; thickness = \"0.65 in\"; };        # ASSUMED\n"
        "    web = \"0.40 in\"; },                                           # ASSUMED\n"
        "  { name = \"floor channel\"; shape = \"channel\"; depth = \"8 in\";    # ASSUMED\n"
        "    flange = { width = \"2.26 in\"; thickness = \"0.39 in\"; };       # ASSUMED\n"
        "    web = \"0.22 in\"; },                                           # ASSUMED\n"
        "  { name = \"cross beam\"; shape = \"plates\"; plates = (             # ASSUMED, all three\n"
        "      { name = \"lower flange\"; width = \"8 in\";   height = \"3/8 in\";    z = \"0 in\"; },\n"
        "      { name = \"web\";          width = \"3/8 in\"; height = \"11-1/4 in\"; z = \"3/8 in\"; },\n"
        "      { name = \"upper flange\"; width = \"8 in\";   height = \"3/8 in\";    z = \"11-5/8 in\"; } "
        "); }\n",
    [SS_UNITS_SI] =
        "    top    = { width = \"500 mm\"; thickness = \"12 mm\"; };          # ASSUMED\n"
        "    bottom = { width = \"450 mm\"; thickness = \"18 mm\"; };          # ASSUMED\n"
        "    webs   = { thickness = \"8 mm\"; clear_between = \"325 mm\"; };   # ASSUMED\n"
        "    torsion = \"open\"; },                                          # ASSUMED\n"
        "  { name = \"edge channel\"; shape = \"channel\"; depth = \"380 mm\";   # ASSUMED\n"
        "    flange = { width = \"86 mm\"; thickness = \"16.5 mm\"; };         # ASSUMED\n"
        "    web = \"10 mm\"; },                                             # ASSUMED\n"
        "  { name = \"floor channel\"; shape = \"channel\"; depth = \"200 mm\";  # ASSUMED\n"
        "    flange = { width = \"58 mm\"; thickness = \"10 mm\"; };           # ASSUMED\n"
        "    web = \"6 mm\"; },                                              # ASSUMED\n"
        "  { name = \"cross beam\"; shape = \"plates\"; plates = (             # ASSUMED, all three\n"
        "      { name = \"lower flange\"; width = \"200 mm\"; height = \"10 mm\";  z = \"0 mm\"; },\n"
        "      { name = \"web\";          width = \"10 mm\";  height = \"280 mm\"; z = \"10 mm\"; },\n"
        "      { name = \"upper flange\"; width = \"200 mm\"; height = \"10 mm\";  z = \"290 mm\"; } ); }\n",
};

static void write_sections(const ss_starter *s, ss_text *out) {
    ss_text_add(out, "\n\n# ---- Sections ----\n"
                     "# Plate by plate, paint and rust taken off before the gauge is set on. `torsion` of "
                     "the box: \"closed\" only\n"
                     "# if its bottom plate runs all along; \"open\" or \"battened\" if not. It decides how "
                     "much cars share a truck.\n\n"
                     "sections = (\n"
                     "  { name = \"main box\"; shape = \"box\"; depth = ");
    ss_starter_quote(out, s->text[SS_ASK_DEPTH]);
    ss_text_printf(out, ";%s\n", ss_starter_mark(s, SS_ASK_DEPTH));
    ss_text_add(out, plates[ss_starter_units(s)]);
    ss_text_add(out, ");\n");
}

void ss_starter_write(const ss_starter *starter, ss_text *out) {
    write_head(starter, out);
    write_sections(starter, out);
    ss_starter_write_car(starter, out);
    ss_starter_write_bridge(starter, out);
    ss_starter_write_rating(starter, out);
}
