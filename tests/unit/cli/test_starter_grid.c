/* test_starter_grid.c - whatever is answered, the file that `new` writes is a bridge without a fault. */
#include <string.h>

#include "cli/run.h"
#include "cli/starter.h"
#include "sillspan/reader.h"
#include "support/suite.h"

/* Reads the text back into `pipe`; true when it has no fault. */
static bool reads(const ss_text *text, ss_pipe *pipe) {
    ss_error error = {0};
    ss_status status = ss_description_read_text("new.cfg", text->data, text->length, &pipe->description,
                                                &pipe->diags, &error);
    if (status == SS_OK) {
        status = ss_description_check(&pipe->description, &pipe->diags);
    }
    if (status == SS_OK) {
        status = ss_bridge_resolve(&pipe->description, &pipe->whole.bridge, &pipe->diags);
    }
    for (int i = 0; i < pipe->diags.count && status != SS_OK; i++) {
        printf("\n  line %d: %s: %s", pipe->diags.items[i].where.line, pipe->diags.items[i].path,
               pipe->diags.items[i].message);
    }
    return status == SS_OK;
}

static bool stands(ss_pipe *pipe) {
    ss_error error = {0};
    const bool good = ss_pipe_compute(pipe, SS_RUN_GRILLAGE, &error) == SS_OK;
    if (!good) {
        printf("\n  %s", error.message);
    }
    return good;
}

/* The file for these answers, through everything that `check` does. */
static void try_answers(const char *const *given, const char *row, bool build) {
    ss_starter starter = {.value = {0.0}};
    char why[300] = "";
    ss_text text = {0};
    ss_pipe pipe = {.progress = ss_progress_begin(true)};
    const bool filled = ss_starter_fill(&starter, given, NULL, why, sizeof why);
    CHECK_ROW(filled, filled ? row : why);
    ss_starter_write(&starter, &text);
    CU_ASSERT_FALSE_FATAL(text.failed);
    const bool good = filled && reads(&text, &pipe);
    CHECK_ROW(good, row);
    if (good) {
        CHECK_ROW(pipe.whole.bridge.car_count == (int)starter.value[SS_ASK_CARS], row);
        CHECK_ROW(fabs(pipe.whole.bridge.x1 - pipe.whole.bridge.x0 - starter.value[SS_ASK_LENGTH]) < 1e-9,
                  row);
        CHECK_ROW(fabs(pipe.whole.bridge.roadway_right - pipe.whole.bridge.roadway_left -
                       starter.value[SS_ASK_ROADWAY]) < 0.002,
                  row);
        /* Built-in trucks have wheel lines 6 ft apart: one finds room. */
        const double gauge = 6.0 * 0.3048;
        double low = 0.0;
        double high = 0.0;
        CHECK_ROW(ss_lane_ranges(&pipe.whole.bridge, 1, &gauge, &low, &high), row);
        CHECK_ROW(!build || stands(&pipe), row);
    }
    ss_pipe_destroy(&pipe);
    ss_text_destroy(&text);
}

static void test_grid(void) {
    static const char *const units[] = {"us", "si"};
    static const char *const cars[] = {"1", "2", "3", "6"};
    static const char *const lengths[] = {"10 ft", "60 ft 5-1/4 in", "18.37 m", "100 ft"};
    static const char *const widths[] = {"7 ft", "2.743 m", "14 ft"};
    static const char *const joints[] = {"none", "hinged", "rigid", "springs"};
    static const char *const bearings[] = {"ends", "wheel trucks", "both"};
    int tried = 0;
    for (int n = 0; n < 2 * 4 * 4 * 3 * 4 * 3; n++) {
        int rest = n;
        const char *given[SS_ASK_COUNT] = {NULL};
        char row[200];
        given[SS_ASK_UNITS] = units[rest % 2];
        rest /= 2;
        given[SS_ASK_CARS] = cars[rest % 4];
        rest /= 4;
        given[SS_ASK_LENGTH] = lengths[rest % 4];
        rest /= 4;
        given[SS_ASK_WIDTH] = widths[rest % 3];
        rest /= 3;
        given[SS_ASK_JOINT] = strcmp(given[SS_ASK_CARS], "1") == 0 ? NULL : joints[rest % 4];
        rest /= 4;
        given[SS_ASK_BEARINGS] = bearings[rest];
        snprintf(row, sizeof row, "%s, %s cars of %s by %s, %s, %s", given[SS_ASK_UNITS], given[SS_ASK_CARS],
                 given[SS_ASK_LENGTH], given[SS_ASK_WIDTH],
                 given[SS_ASK_JOINT] == NULL ? "one" : given[SS_ASK_JOINT], given[SS_ASK_BEARINGS]);
        const bool large = strcmp(given[SS_ASK_CARS], "6") == 0;
        try_answers(given, row, large ? n % 257 == 6 : n % 23 == 0);
        tried++;
    }
    CU_ASSERT_EQUAL(tried, 1152);
}

static void test_edges(void) {
    static const struct {
        const char *name;
        int question;
        const char *answer;
        const char *bearings;
    } rows[] = {
        {"shallow", SS_ASK_DEPTH, "8 in", "ends"},
        {"deep", SS_ASK_DEPTH, "60 in", "ends"},
        {"touching", SS_ASK_GAP, "0 in", "ends"},
        {"far apart", SS_ASK_GAP, "24 in", "ends"},
        {"narrow road", SS_ASK_ROADWAY, "6 ft 3 in", "ends"},
        {"no curbs", SS_ASK_ROADWAY, "19 ft", "ends"},
        {"10 ft road", SS_ASK_ROADWAY, "10 ft", "ends"},
        {"near the end", SS_ASK_WHEEL_TRUCKS, "1 ft", "both"},
        {"near the middle", SS_ASK_WHEEL_TRUCKS, "29 ft", "both"},
        {"old", SS_ASK_YEAR, "1850", "ends"},
        {"good", SS_ASK_CONDITION, "good", "ends"},
        {"whole", SS_ASK_SYSTEM, "1", "ends"},
        {"factor", SS_ASK_CONDITION, "1", "ends"},
        {"low", SS_ASK_SYSTEM, "0.5", "ends"},
    };
    for (int i = 0; i < ENTRIES(rows); i++) {
        const char *given[SS_ASK_COUNT] = {[SS_ASK_BEARINGS] = rows[i].bearings};
        given[rows[i].question] = rows[i].answer;
        try_answers(given, rows[i].name, true);
    }
}

/* A title is the only free text: whatever it holds comes back as it was. */
static void test_titles_come_back(void) {
    static const char *const titles[] = {
        "Say \"hi\" \\ there",
        "\\",
        "\"",
        "; rating = { system = 0.1; };",
        "# no remark",
        "/* nor this",
        "@include \"other.cfg\"",
        "na\xc3\xafve \xe2\x80\x94 \xe6\xa9\x8b",
        "%s %n %d",
        "\\x41\\n",
    };
    for (int i = 0; i < ENTRIES(titles); i++) {
        const char *given[SS_ASK_COUNT] = {[SS_ASK_TITLE] = titles[i]};
        ss_starter starter = {.value = {0.0}};
        char why[300] = "";
        ss_text text = {0};
        ss_pipe pipe = {.progress = ss_progress_begin(true)};
        CHECK_ROW(ss_starter_fill(&starter, given, NULL, why, sizeof why), titles[i]);
        ss_starter_write(&starter, &text);
        CU_ASSERT_FALSE_FATAL(text.failed);
        CHECK_ROW(reads(&text, &pipe), titles[i]);
        CHECK_ROW(pipe.whole.bridge.title != NULL && strcmp(pipe.whole.bridge.title, titles[i]) == 0,
                  titles[i]);
        ss_pipe_destroy(&pipe);
        ss_text_destroy(&text);
    }
}

/* Judgement that was given arrives; what was assumed is marked. */
static void test_judgement_and_marks(void) {
    const char *given[SS_ASK_COUNT] = {
        [SS_ASK_CONDITION] = "fair", [SS_ASK_SYSTEM] = "0.925", [SS_ASK_LENGTH] = "53 ft"};
    ss_starter starter = {.value = {0.0}};
    char why[300] = "";
    ss_text text = {0};
    ss_pipe pipe = {.progress = ss_progress_begin(true)};
    CU_ASSERT_TRUE_FATAL(ss_starter_fill(&starter, given, NULL, why, sizeof why));
    ss_starter_write(&starter, &text);
    CU_ASSERT_FALSE_FATAL(text.failed);
    CU_ASSERT_TRUE(reads(&text, &pipe));
    CHECK_CLOSE(pipe.whole.bridge.rating.system, 0.925, 1e-12);
    CU_ASSERT_STRING_EQUAL(pipe.whole.bridge.rating.condition_word, "fair");
    CU_ASSERT_PTR_NOT_NULL(strstr(text.data, "length = \"53 ft\";\n"));
    CU_ASSERT_PTR_NOT_NULL(strstr(text.data, "width = \"9 ft 4 in\";    # ASSUMED\n"));
    ss_pipe_destroy(&pipe);
    ss_text_destroy(&text);
}

int main(void) {
    static const test_case cases[] = {
        {"grid", test_grid},
        {"edges", test_edges},
        {"titles come back", test_titles_come_back},
        {"judgement and marks", test_judgement_and_marks},
    };
    return RUN_SUITE("starter_grid", cases);
}
