/* test_report_compare.c - variants side by side: what is compared with what, who is best, sentences, lack of
 * memory. */
#include <math.h>
#include <string.h>

#include "report/report_compare.h"
#include "sillspan/memory.h"
#include "support/suite.h"
#include "unit/studies/compare_samples.h"

/* The beam on its wheel trucks, on its ends, and twice with another name for the same. */
static const char text[] =
    ONE_BEAM "bridge = { cars = ( { name = \"only\"; car = \"long\"; } );\n"
             "  bearings = ( { name = \"trucks\"; at = \"wheel trucks\"; under = [ \"spine\" ]; pad_width = "
             "\"60 in\"; "
             "action = \"two-way\"; } );\n"
             "  roadway = { from = \"1 ft\"; to = \"8 ft\"; }; };\n"
             "rating = { trucks = [ \"axle\" ]; condition = \"good\"; system = 1.0; };\n"
             "variants = (\n"
             "  { name = \"ends\"; bridge = { bearings = ( { name = \"trucks\"; at = \"ends\"; } ); }; },\n"
             "  { name = \"again\"; title = \"Another name\"; }\n"
             ");\n";

static const ss_compare_options everything = {.response = true, .rating = true};

typedef struct compared_beams {
    ss_description base;
    ss_compared own[3];
    ss_comparison all;
} compared_beams;

static void add_all(compared_beams *c) {
    static const char *const names[] = {"as described", "ends", "again"};
    c->all = (ss_comparison){.response = true, .rating = true};
    for (int i = 0; i < 3; i++) {
        ss_comparison_add(&c->all, names[i], i == 1 ? "bearings" : NULL, &c->own[i],
                          i == 0 ? NULL : &c->own[0].whole.bridge);
        if (i == 0) {
            ss_comparison_add_failed(&c->all, "nowhere", "all", SS_COMPARE_FAILED, "it falls");
        }
    }
}

static void start(compared_beams *c) {
    static const char *const variants[] = {NULL, "ends", "again"};
    *c = (compared_beams){.base = compare_read(text)};
    for (int i = 0; i < 3; i++) {
        CU_ASSERT_EQUAL_FATAL(compare_variant(&c->base, variants[i], &everything, &c->own[i]), SS_OK);
    }
}

static void stop(compared_beams *c) {
    ss_comparison_destroy(&c->all);
    for (int i = 0; i < 3; i++) {
        ss_compared_destroy(&c->own[i]);
    }
    ss_description_destroy(&c->base);
}

static double of(const ss_comparison *all, int variant, ss_compare_question question) {
    const ss_compare_value like = {.truck = "axle"};
    const ss_compare_value *const one = ss_comparison_governing(all, variant, question, &like, SS_BY_TRUCK);
    CU_ASSERT_PTR_NOT_NULL_FATAL(one);
    return one->value;
}

/* P (L - 2a) / 4 or, at an overhang, P a on the wheel trucks; P L / 4 on the ends. */
static void test_numbers_in_closed_form(void) {
    compared_beams c;
    start(&c);
    add_all(&c);
    CU_ASSERT_FALSE(c.all.failed);
    CU_ASSERT_EQUAL(c.all.variant_count, 4);
    CU_ASSERT_EQUAL(ss_comparison_base(&c.all), 0);
    const double on_trucks = of(&c.all, 0, SS_ASKED_MOMENT);
    const double on_ends = of(&c.all, 2, SS_ASKED_MOMENT);
    check_near("trucks", on_trucks, AXLE * MIDDLE / 4.0 * KIP * FOOT, 1e-9, on_trucks);
    check_near("ends", on_ends, AXLE * LENGTH / 4.0 * KIP * FOOT, 1e-9, on_ends);
    check_near("change", ss_comparison_change(on_ends, on_trucks), 2.0 * BACK / (double)MIDDLE, 1e-9, 1.0);
    check_near("none", ss_comparison_change(of(&c.all, 3, SS_ASKED_MOMENT), on_trucks), 0.0, 1e-12, 1.0);
    const double total = WEIGHT * (MIDDLE * MIDDLE / 8.0 - BACK * BACK / 2.0) + AXLE * MIDDLE / 4.0;
    check_near("with dead load", of(&c.all, 0, SS_ASKED_TOTAL), total * KIP * FOOT, 1e-9, on_trucks);
    /* P l^3 / 48 E I downwards at midspan; an end rises by a times the slope at the support, at most P l^2 /
     * (9 sqrt(3) E I) with the axle l / sqrt(3) from the other one. */
    const double EI = 29000.0 * 9000.0 / 144.0 * KIP * FOOT * FOOT;
    const double l = MIDDLE * FOOT;
    check_near("sag", of(&c.all, 0, SS_ASKED_DEFLECTION), AXLE * KIP * l * l * l / (48.0 * EI), 1e-9,
               AXLE * KIP * l * l * l / (48.0 * EI));
    check_near("rise", of(&c.all, 0, SS_ASKED_RISE),
               BACK * FOOT * AXLE * KIP * l * l / (9.0 * sqrt(3.0) * EI), 1e-9,
               AXLE * KIP * l * l * l / (48.0 * EI));
    CU_ASSERT_TRUE(of(&c.all, 0, SS_ASKED_FACTOR) > of(&c.all, 2, SS_ASKED_FACTOR));
    /* An axle at the end of the overhang: P (1 + a / l) on the near truck. */
    double most = 0.0;
    bool pulled = false;
    for (int i = 0; i < c.all.reaction_count; i++) {
        if (c.all.reactions[i].variant == 0) {
            most = fmax(most, c.all.reactions[i].dead);
            pulled = pulled || c.all.reactions[i].pulled;
        }
    }
    check_near("dead load on a truck", most, WEIGHT * LENGTH / 2.0 * KIP, 1e-9, most);
    CU_ASSERT_FALSE(pulled);
    CU_ASSERT_EQUAL(c.all.joint_count, 0);
    stop(&c);
}

static void test_marks(void) {
    const double nan_ = (double)NAN;
    const double inf = (double)INFINITY;
    const double sizes[5] = {3.0, 1.0, nan_, 1.0005, 4.0};
    static const ss_compare_mark least_is_best[5] = {SS_MARK_NONE, SS_MARK_BEST, SS_MARK_NONE, SS_MARK_BEST,
                                                     SS_MARK_WORST};
    static const ss_compare_mark most_is_best[5] = {SS_MARK_NONE, SS_MARK_WORST, SS_MARK_NONE, SS_MARK_WORST,
                                                    SS_MARK_BEST};
    for (int i = 0; i < 5; i++) {
        CU_ASSERT_EQUAL(ss_comparison_mark(sizes, 5, i, false), least_is_best[i]);
        CU_ASSERT_EQUAL(ss_comparison_mark(sizes, 5, i, true), most_is_best[i]);
    }
    const double same[3] = {2.0, 2.0005, nan_};
    const double one[1] = {2.0};
    const double open[3] = {inf, 0.7, inf};
    CU_ASSERT_EQUAL(ss_comparison_mark(same, 3, 0, false), SS_MARK_NONE);
    CU_ASSERT_EQUAL(ss_comparison_mark(one, 1, 0, false), SS_MARK_NONE);
    CU_ASSERT_EQUAL(ss_comparison_mark(open, 3, 0, true), SS_MARK_BEST);
    CU_ASSERT_EQUAL(ss_comparison_mark(open, 3, 1, true), SS_MARK_WORST);
    CU_ASSERT_EQUAL(ss_comparison_mark(open, 3, 2, true), SS_MARK_BEST);
    CU_ASSERT_TRUE(isnan(ss_comparison_change(1.0, 0.0)));
    CU_ASSERT_TRUE(isnan(ss_comparison_change(inf, 2.0)));
    CU_ASSERT_EQUAL(ss_comparison_change(-3.0, 2.0), 0.5);
}

/* The first sentence of a list or of its own that has these words, or NULL. */
static const char *find_sentence(const ss_report *report, const char *words) {
    for (int i = 0; i < report->count; i++) {
        const ss_block *const block = &report->blocks[i];
        for (int k = 0; k < block->item_count; k++) {
            if (strstr(block->items[k], words) != NULL) {
                return block->items[k];
            }
        }
        if (block->text != NULL && strstr(block->text, words) != NULL) {
            return block->text;
        }
    }
    printf("\n  not said: %s\n", words);
    return NULL;
}

static bool says(const ss_report *report, const char *words) {
    return find_sentence(report, words) != NULL;
}

static const char *sentence(const ss_report *report, const char *words) {
    const char *const found = find_sentence(report, words);
    CU_ASSERT_PTR_NOT_NULL_FATAL(found);
    return found;
}

static const ss_table *table_of(const ss_report *report, const char *key) {
    for (int i = 0; i < report->count; i++) {
        if (report->blocks[i].kind == SS_BLOCK_TABLE && strcmp(report->blocks[i].table->key, key) == 0) {
            return report->blocks[i].table;
        }
    }
    return NULL;
}

static void test_sentences(void) {
    compared_beams c;
    ss_report report = {0};
    start(&c);
    add_all(&c);
    const ss_comparison_head head = {.title = "Beams", .bridge = &c.own[0].whole.bridge};
    CU_ASSERT_EQUAL_FATAL(ss_comparison_report(&c.all, &head, &report, NULL), SS_OK);
    CU_ASSERT_TRUE(says(&report, "3 of 4 variants side by side."));
    CU_ASSERT_TRUE(says(&report, "are against \"as described\""));
    /* EV3 governs; 66 against 86 ft between supports. */
    CU_ASSERT_TRUE(says(&report, "Bending of the main girders under a truck is least in \"as described\" and "
                                 "\"again\" ("));
    CU_ASSERT_TRUE(says(&report, "it is most in \"ends\" ("));
    CU_ASSERT_TRUE(says(&report, "\"nowhere\" came to nothing: it falls"));
    CU_ASSERT_TRUE(says(&report, "Bearings: in none of them"));
    CU_ASSERT_PTR_NOT_NULL(table_of(&report, "moments"));
    CU_ASSERT_PTR_NOT_NULL(table_of(&report, "factors"));
    CU_ASSERT_PTR_NULL(table_of(&report, "car_shares_people")); /* one car carries all */
    const ss_table *const variants = table_of(&report, "variants");
    CU_ASSERT_PTR_NOT_NULL_FATAL(variants);
    CU_ASSERT_EQUAL(variants->row_count, 4);
    const ss_table *const people = table_of(&report, "moments_people");
    CU_ASSERT_PTR_NOT_NULL_FATAL(people);
    CU_ASSERT_EQUAL(people->row_count, 3);
    CU_ASSERT_EQUAL(people->cells[2].kind, SS_CELL_NONE); /* the base has no change */
    CU_ASSERT_STRING_EQUAL(people->cells[3].text, "best");
    CU_ASSERT_STRING_EQUAL(people->cells[people->column_count + 3].text, "worst");
    ss_report_destroy(&report);
    stop(&c);
}

/* The cell of a row under the first column with this key. */
static const ss_cell *cell_of(const ss_table *table, int row, const char *key) {
    for (int c = 0; c < table->column_count; c++) {
        if (strcmp(table->columns[c].key, key) == 0) {
            return &table->cells[row * table->column_count + c];
        }
    }
    CU_FAIL_FATAL("no such column");
    return NULL;
}

static void check_mark(const ss_report *report, const char *key, int row, const char *mark, bool change) {
    const ss_table *const table = table_of(report, key);
    CU_ASSERT_PTR_NOT_NULL_FATAL(table);
    const ss_cell *const cell = cell_of(table, row, "mark");
    if (mark == NULL) {
        CU_ASSERT_NOT_EQUAL(cell->kind, SS_CELL_TEXT);
    } else {
        CU_ASSERT_EQUAL_FATAL(cell->kind, SS_CELL_TEXT);
        CU_ASSERT_STRING_EQUAL(cell->text, mark);
    }
    CU_ASSERT_EQUAL(cell_of(table, row, "change")->kind != SS_CELL_NONE, change);
}

/* The first sentence of the first list. */
static const char *first_point(const ss_report *report) {
    for (int i = 0; i < report->count; i++) {
        if (report->blocks[i].item_count > 0) {
            return report->blocks[i].items[0];
        }
    }
    return "";
}

/* The one with the most bending tips: nobody is worst for what it does, and its factor is the worst still. */
static void test_one_that_tips_is_no_candidate(void) {
    static const char *const responses[] = {"moments_people", "totals_people", "deflections_people"};
    compared_beams c;
    ss_report report = {0};
    start(&c);
    add_all(&c);
    c.all.variants[2].tips = true;
    const ss_comparison_head head = {.title = "Beams", .bridge = &c.own[0].whole.bridge};
    CU_ASSERT_FALSE(ss_comparison_counts(&c.all, 2, SS_ASKED_MOMENT));
    CU_ASSERT_TRUE(ss_comparison_counts(&c.all, 2, SS_ASKED_FACTOR));
    CU_ASSERT_TRUE(ss_comparison_counts(&c.all, 0, SS_ASKED_MOMENT));
    CU_ASSERT_EQUAL_FATAL(ss_comparison_report(&c.all, &head, &report, NULL), SS_OK);
    CU_ASSERT_PTR_NOT_NULL(strstr(first_point(&report), "TIPS THE BRIDGE off its bearings in \"ends\"."));
    CU_ASSERT_TRUE(
        says(&report, "Bending of the main girders under a truck is the same in both that do not tip ("));
    CU_ASSERT_TRUE(says(&report, "it is smallest in \"ends\" ("));
    for (size_t i = 0; i < sizeof responses / sizeof responses[0]; i++) {
        check_mark(&report, responses[i], 0, NULL, false);
        check_mark(&report, responses[i], 1, "tips", false);
        check_mark(&report, responses[i], 2, NULL, true);
    }
    check_mark(&report, "bearings_people", 1, "tips", false);
    check_mark(&report, "factors_people", 1, "worst", true);
    const ss_table *const rises = table_of(&report, "rises_people"); /* no change: the mark stands last */
    CU_ASSERT_PTR_NOT_NULL_FATAL(rises);
    CU_ASSERT_STRING_EQUAL(cell_of(rises, 1, "mark")->text, "tips");
    ss_report_destroy(&report);
    stop(&c);
}

/* The base tips: the others are ranked, and nothing is set against it. */
static void test_a_base_that_tips(void) {
    compared_beams c;
    ss_report report = {0};
    start(&c);
    add_all(&c);
    c.all.variants[0].tips = true;
    const ss_comparison_head head = {.title = "Beams", .bridge = &c.own[0].whole.bridge};
    CU_ASSERT_EQUAL_FATAL(ss_comparison_report(&c.all, &head, &report, NULL), SS_OK);
    CU_ASSERT_TRUE(says(&report, "nor have the others, against this base"));
    const char *const bending = sentence(&report, "Bending of the main girders under a truck is least in ");
    CU_ASSERT_PTR_NOT_NULL(strstr(bending, "least in \"again\" ("));
    CU_ASSERT_PTR_NOT_NULL(strstr(bending, "most in \"ends\" ("));
    CU_ASSERT_PTR_NULL(strchr(bending, '%'));
    check_mark(&report, "moments_people", 0, "tips", false);
    check_mark(&report, "moments_people", 1, "worst", false);
    check_mark(&report, "moments_people", 2, "best", false);
    check_mark(&report, "bearings_people", 1, "best", false);
    check_mark(&report, "factors_people", 0, "best", false);
    check_mark(&report, "factors_people", 1, "worst", true);
    const ss_table *const moments = table_of(&report, "moments");
    CU_ASSERT_PTR_NOT_NULL_FATAL(moments);
    for (int row = 0; row < moments->row_count; row++) {
        CU_ASSERT_EQUAL(cell_of(moments, row, "change")->kind, SS_CELL_NONE);
    }
    ss_report_destroy(&report);
    stop(&c);
}

/* With nothing computed there still is a page that says why. */
static void test_nothing_computed(void) {
    ss_comparison all = {.response = true, .rating = true};
    ss_report report = {0};
    ss_comparison_add_failed(&all, "a", NULL, SS_COMPARE_FAULTS, "a fault");
    ss_comparison_add_failed(&all, "b", NULL, SS_COMPARE_FAILED, "it tips");
    const ss_comparison_head head = {.title = "Beams"};
    CU_ASSERT_EQUAL(ss_comparison_base(&all), -1);
    CU_ASSERT_EQUAL_FATAL(ss_comparison_report(&all, &head, &report, NULL), SS_OK);
    CU_ASSERT_TRUE(says(&report, "Nothing can be compared"));
    CU_ASSERT_TRUE(says(&report, "\"b\" came to nothing: it tips"));
    ss_report_destroy(&report);
    ss_comparison_destroy(&all);
}

static void test_memory_may_fail_anywhere(void) {
    compared_beams c;
    start(&c);
    const ss_comparison_head head = {.title = "Beams", .bridge = &c.own[0].whole.bridge};
    const ss_diag warning = {
        .severity = SS_WARNING, .where = {"a.cfg", 3}, .path = "title", .message = "odd"};
    const long live = ss_memory_live();
    long n = 0;
    ss_status status = SS_ERROR_MEMORY;
    for (; status == SS_ERROR_MEMORY && n < 20000; n++) {
        ss_report report = {0};
        ss_memory_fail_from(n);
        add_all(&c);
        ss_comparison_warn(&c.all, 0, &warning);
        status = ss_comparison_report(&c.all, &head, &report, NULL);
        ss_memory_fail_from(-1);
        ss_report_destroy(&report);
        ss_comparison_destroy(&c.all);
        if (ss_memory_live() != live) {
            CU_FAIL("something was left behind");
            break;
        }
    }
    CU_ASSERT_EQUAL(status, SS_OK);

    CU_ASSERT_TRUE(n > 10 && n < 20000);
    stop(&c);
}

int main(void) {
    static const test_case cases[] = {
        {"numbers in closed form", test_numbers_in_closed_form},
        {"marks", test_marks},
        {"sentences", test_sentences},
        {"one that tips", test_one_that_tips_is_no_candidate},
        {"a base that tips", test_a_base_that_tips},
        {"nothing computed", test_nothing_computed},
        {"memory", test_memory_may_fail_anywhere},
    };
    return RUN_SUITE("report/compare", cases);
}
