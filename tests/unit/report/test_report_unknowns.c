/* test_report_unknowns.c - what the reports of bounds and samples say and hold, with a plain function for a
 * rating. */
#include <string.h>

#include "../model/resolve_samples.h"
#include "base/numeric.h"
#include "sillspan/memory.h"
#include "sillspan/report.h"
#include "sillspan/write.h"
#include "support/json_schema.h"
#include "support/suite.h"

static const char listed[] =
    "unknowns = (\n"
    "  { name = \"seam\"; path = \"bridge.joints.seam.shear\"; low = \"0.01 kip/in/in\"; high = \"1 "
    "kip/in/in\"; "
    "scale = \"log\"; },\n"
    "  { name = \"steel\"; paths = [ \"steels.car steel.fy\", \"steels.plate.fy\" ]; distribution = "
    "\"lognormal\"; mean = \"42 ksi\"; cov = 0.1; },\n"
    "  { name = \"box\"; path = \"sections.sill.torsion\"; values = \"open, closed\"; },\n"
    "  { name = \"rail\"; path = \"bridge.rails.weight\"; low = \"20 lb/ft\"; high = \"60 lb/ft\"; } );\n"
    "rating = {";

static const ss_answer answers[] = {{"rf", "controlling rating", SS_DIM_NUMBER},
                                    {"limit", "limit for single trucks", SS_DIM_FORCE}};

/* Where the stand-in puts the bridge, and where it has no rating. */
typedef struct stand_in {
    const ss_unknown_set *set;
    double level, fails_above;
} stand_in;

static ss_status evaluate(void *context, int count, const double *points, double *values, ss_error *error) {
    const stand_in *const s = context;
    (void)error;
    for (int i = 0; i < count; i++) {
        const double *const x = points + 4 * i;
        const double seam = ss_unknown_place(&s->set->items[0], x[0]);
        const double steel = ss_unknown_place(&s->set->items[1], x[1]);
        values[2 * i] = s->level - 0.3 * fabs(seam - 0.6) + 0.2 * steel + 0.1 * x[2];
        values[2 * i + 1] = 200e3 * values[2 * i];
        if (seam > s->fails_above) {
            values[2 * i] = values[2 * i + 1] = SS_NAN;
        }
    }
    return SS_OK;
}

static const char *failure(void *context, int i) {
    (void)context;
    (void)i;
    return "the bridge is free to move";
}

typedef struct studied {
    ss_bridge bridge;
    stand_in context;
    ss_evaluator evaluator;
    ss_results results;
} studied;

static void begin(studied *s, double level, double fails_above) {
    ss_diag_list diags = {0};
    char *const text = sample_changed("rating = {", listed);
    memset(s, 0, sizeof *s);
    CU_ASSERT_EQUAL_FATAL(sample_resolve(text, &s->bridge, &diags), SS_OK);
    s->context = (stand_in){&s->bridge.unknowns, level, fails_above};
    s->evaluator = (ss_evaluator){answers, 2, evaluate, failure, &s->context};
    s->results = (ss_results){.command = "bounds",
                              .bridge = &s->bridge,
                              .answers = answers,
                              .answer_count = 2,
                              .described = 0.987,
                              .require = SS_NAN};
    ss_diag_destroy(&diags);
    free(text);
}

/* Whether docs/results.schema.json takes it, and every number of it is finite. */
static void check_schema(const char *text) {
    schema_fault fault = {"", ""};
    json_t *const schema =
        json_load_file(SS_SOURCE_DIR "/docs/results.schema.json", JSON_REJECT_DUPLICATES, NULL);
    json_t *const document = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(schema);
    CU_ASSERT_PTR_NOT_NULL_FATAL(document);
    const bool accepted = schema_accepts(schema, document, &fault);
    if (!accepted) {
        printf("\n  at %s: %s", fault.place, fault.rule);
    }
    CU_ASSERT_TRUE(accepted);
    json_decref(schema);
    json_decref(document);
}

/* The report as text and as JSON, one after the other (to be destroyed). */
static ss_text written(const studied *s) {
    ss_report report = {0};
    ss_error error = {0};
    ss_text json = {0};
    ss_text text = {0};
    CHECK_OK(ss_report_build(&s->results, SS_UNITS_US, &report, &error), &error);
    CHECK_OK(ss_write_text(&report, (ss_text_style){.width = 100000}, &text, &error), &error);
    CHECK_OK(ss_write_json(&report, &json, &error), &error);
    check_schema(json.data);
    ss_text_add(&text, json.data);
    CU_ASSERT_FALSE_FATAL(text.failed);
    ss_text_destroy(&json);
    ss_report_destroy(&report);
    return text;
}

/* Every one of the phrases is said, or with a minus before it is not. */
static void check_says(const ss_text *text, const char *const *phrases, int count) {
    bool all = true;
    for (int i = 0; i < count; i++) {
        const bool due = phrases[i][0] != '-';
        const char *const phrase = due ? phrases[i] : phrases[i] + 1;
        if ((strstr(text->data, phrase) != NULL) != due) {
            printf("\n  %s: %s", due ? "not said" : "wrongly said", phrase);
            all = false;
        }
    }
    CU_ASSERT_TRUE(all);
}

static ss_text bounds_text(double level, double fails_above, int runs) {
    studied s;
    ss_bounds bounds;
    ss_error error = {0};
    begin(&s, level, fails_above);
    CHECK_OK(ss_bounds_compute(&s.bridge.unknowns, &s.evaluator, &(ss_bounds_options){.runs = runs}, &bounds,
                               &error),
             &error);
    s.results.bounds = &bounds;
    ss_text text = written(&s);
    ss_bounds_destroy(&bounds);
    ss_bridge_destroy(&s.bridge);
    return text;
}

static void test_bounds(void) {
    static const char *const phrases[] = {
        "With 4 unknowns anywhere in what they can be, the controlling rating was found between 0.67 and "
        "1.14; "
        "as described it is 0.98.",
        "Whether the controlling rating reaches 1 hangs on what is unknown: measuring can settle it.",
        "Worst found in 189 runs: 0.67, with \"seam\" 0.01 kip/in per in, \"steel\" 32.3 ksi, \"box\" open. "
        "Nothing proves that there is no worse.",
        "-the worst case",
        "Measure first: \"steel\" (by itself 0.92 to 1.12); then \"seam\" (by itself 0.87 to 1.03); then "
        "\"box\" (by itself 0.92 to 1.02).",
        "An estimate will do for \"rail\": less than 0.01 in the rating.",
        "More is not always better or worse of \"seam\": between its ends the rating turns.",
        "-have no rating",
        "-runs were used up",
        /* What is tried is not taken for granted; the steel's modulus is. */
        "-\"path\": \"steels.car steel.fy\"",
        "\"path\": \"steels.car steel.E\"",
        "{\"name\": \"seam\", \"worst\": 0.01, \"worst_end\": \"its low end\", \"best\": 0.16",
        "\"keys\": \"steels.car steel.fy and steels.plate.fy\", \"can_be\": \"32.3 ksi to 54 ksi\"",
        "\"low\": 32.32212612, \"high\": 54.03526509, \"unit\": \"ksi\"",
        "Nothing printed here is a permit to cross.",
    };
    const long live = ss_memory_live();
    ss_text text = bounds_text(0.85, 9.0, 0);
    check_says(&text, phrases, ENTRIES(phrases));
    ss_text_destroy(&text);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

static void test_bounds_verdicts(void) {
    static const char *const high[] = {"Nothing that was tried brings the controlling rating below 1.",
                                       "-measuring can settle it", "-Measure first",
                                       "What moves it most: \"steel\" (by itself "};
    static const char *const low[] = {"Nothing that was tried brings the controlling rating up to 1. Knowing "
                                      "these values better will not do "
                                      "it; something else has to change."};
    static const char *const failing[] = {
        " runs have no rating and are left out; the first of them: the bridge is free to move.",
        "\"failure\": \"the bridge is free to move\""};
    static const char *const none[] = {"None of ", " runs has a rating: the bridge is free to move.",
                                       "-Measure first"};
    static const char *const few[] = {
        "The runs were used up before the search around it came to rest: with more than 20 it may turn out "
        "worse."};
    ss_text text = bounds_text(1.5, 9.0, 0);
    check_says(&text, high, ENTRIES(high));
    ss_text_destroy(&text);
    text = bounds_text(0.4, 9.0, 0);
    check_says(&text, low, ENTRIES(low));
    ss_text_destroy(&text);
    text = bounds_text(0.85, 0.9, 0);
    check_says(&text, failing, ENTRIES(failing));
    ss_text_destroy(&text);
    text = bounds_text(0.85, -1.0, 0);
    check_says(&text, none, ENTRIES(none));
    ss_text_destroy(&text);
    text = bounds_text(0.85, 9.0, 20);
    check_says(&text, few, ENTRIES(few));
    ss_text_destroy(&text);
}

static ss_text drawn_text(double level, double fails_above, ss_sample *sample) {
    studied s;
    ss_error error = {0};
    begin(&s, level, fails_above);
    const ss_sample_options options = {.draws = 300, .seed = 1, .limit = SS_NAN};
    CHECK_OK(ss_sample_compute(&s.bridge.unknowns, &s.evaluator, &options, sample, &error), &error);
    s.results.command = "sample";
    s.results.sample = sample;
    ss_text text = written(&s);
    ss_bridge_destroy(&s.bridge);
    return text;
}

static void test_sample(void) {
    static const char *const phrases[] = {
        "Of 300 draws of 4 unknowns 270 could be rated.",
        "nine in ten between ",
        "That share is not a failure probability: the factors of the rating already hold margin",
        "The rating does not go up or down with \"rail\" in a way that these draws show.",
        "\"box\" (rank correlation ",
        "\"steel\" (the rating rises as it rises, rank correlation ",
        "30 draws could not be rated and are in no share; why is in the table below.",
        "Assumed: \"seam\", \"box\" and \"rail\" have no distribution and are drawn evenly from what they "
        "can "
        "be. The shares hang on that.",
        "{\"reason\": \"the bridge is free to move\", \"count\": 30}",
        "{\"draw\": 300, ",
        "\"at\": {\"seam\": ",
    };
    static const char *const none[] = {"None of 300 draws could be rated: the bridge is free to move.",
                                       "-failure probability"};
    const long live = ss_memory_live();
    ss_sample sample;
    ss_text text = drawn_text(0.85, 0.9, &sample);
    check_says(&text, phrases, ENTRIES(phrases));
    /* The share that is said is the one that was counted. */
    char share[64];
    snprintf(share, sizeof share, "%.0f %% of those that could be rated lie below 1.00",
             100.0 * sample.below / sample.answered);
    CU_ASSERT_PTR_NOT_NULL(strstr(text.data, share));
    ss_text_destroy(&text);
    ss_sample_destroy(&sample);
    text = drawn_text(0.85, -1.0, &sample);
    check_says(&text, none, ENTRIES(none));
    ss_text_destroy(&text);
    ss_sample_destroy(&sample);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

static void test_no_memory(void) {
    studied s;
    ss_bounds bounds;
    ss_sample sample;
    begin(&s, 0.85, 0.9);
    const ss_sample_options options = {.draws = 40, .seed = 1, .limit = SS_NAN};
    CU_ASSERT_EQUAL_FATAL(
        ss_bounds_compute(&s.bridge.unknowns, &s.evaluator, &(ss_bounds_options){0}, &bounds, NULL), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_sample_compute(&s.bridge.unknowns, &s.evaluator, &options, &sample, NULL),
                          SS_OK);
    s.results.bounds = &bounds;
    s.results.sample = &sample;
    const long live = ss_memory_live();
    long n = 0;
    for (; n < 2000; n++) {
        ss_report report = {0};
        ss_memory_fail_from(n);
        const ss_status status = ss_report_build(&s.results, SS_UNITS_SI, &report, NULL);
        ss_memory_fail_from(-1);
        ss_report_destroy(&report);
        if (status == SS_OK) {
            break;
        }
        CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT(n > 5 && n < 2000);
    ss_bounds_destroy(&bounds);
    ss_sample_destroy(&sample);
    ss_bridge_destroy(&s.bridge);
}

int main(void) {
    static const test_case cases[] = {
        {"bounds", test_bounds},
        {"verdicts of bounds", test_bounds_verdicts},
        {"sample", test_sample},
        {"no memory", test_no_memory},
    };
    return RUN_SUITE("report of unknowns", cases);
}
