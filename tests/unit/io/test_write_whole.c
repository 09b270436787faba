/* test_write_whole.c - a small bridge through the whole pipe: its cases balance, its report has every
 * promised key, and every allocation of the report may fail. */
#include <jansson.h>
#include <stdlib.h>

#include "sillspan/reader.h"
#include "support/html_page.h"
#include "written_report.h"

typedef struct whole {
    ss_diag_list diags;
    ss_description description;
    ss_bridge bridge;
    ss_mesh mesh;
    ss_grillage *grillage;
    ss_permanent permanent;
    ss_placements placements;
    ss_effect *effects;
    int effect_count;
    ss_envelope envelope;
    ss_share_list shares;
    ss_case_list cases;
    ss_ratings rated;
    ss_results results;
} whole;

static whole all;

static int start_all(void) {
    ss_error error = {0};
    const ss_mesh_options mesh = {.joints = true, .refine = 1};
    const ss_envelope_options options = {.factors = {1.0, 1.0}, .live_factor = 1.0};
    whole *w = &all;
    const bool made =
        ss_description_read(SS_SOURCE_DIR "/tests/golden/models/two-spines.cfg", &w->description, &w->diags,
                            &error) == SS_OK &&
        ss_description_check(&w->description, &w->diags) == SS_OK &&
        ss_bridge_resolve(&w->description, &w->bridge, &w->diags) == SS_OK &&
        ss_mesh_build(&w->bridge, mesh, &w->mesh, &error) == SS_OK &&
        ss_grillage_create(&w->mesh, &w->grillage, &error) == SS_OK &&
        ss_permanent_compute(&w->bridge, w->grillage, &w->permanent, &error) == SS_OK &&
        ss_cases_compute(&w->permanent, &w->cases, &error) == SS_OK &&
        ss_placements_build(&w->mesh, &w->placements, &error) == SS_OK &&
        ss_envelope_effects(&w->mesh, &w->effects, &w->effect_count, &error) == SS_OK &&
        ss_envelope_compute(&w->permanent, &w->placements, w->effects, w->effect_count, &options,
                            &w->envelope, &error) == SS_OK &&
        ss_share_compute(&w->permanent, &w->placements, &w->envelope, &w->shares, &error) == SS_OK &&
        ss_ratings_compute(&w->permanent, &w->placements, w->effects, w->effect_count, NULL, NULL, &w->rated,
                           &error) == SS_OK;
    w->results = (ss_results){.command = "rate",
                              .bridge = &w->bridge,
                              .mesh = &w->mesh,
                              .grillage = w->grillage,
                              .permanent = &w->permanent,
                              .placements = &w->placements,
                              .envelope = &w->envelope,
                              .shares = &w->shares,
                              .cases = &w->cases,
                              .rated = &w->rated,
                              .diags = &w->diags,
                              .require = (double)NAN};
    return made ? 0 : 1;
}

static void end_all(void) {
    ss_ratings_destroy(&all.rated);
    ss_cases_destroy(&all.cases);
    ss_share_destroy(&all.shares);
    ss_envelope_destroy(&all.envelope);
    ss_free(all.effects);
    ss_placements_destroy(&all.placements);
    ss_permanent_destroy(&all.permanent);
    ss_grillage_destroy(all.grillage);
    ss_mesh_destroy(&all.mesh);
    ss_bridge_destroy(&all.bridge);
    ss_description_destroy(&all.description);
    ss_diag_destroy(&all.diags);
}

/* The winch pulls 6.1 kip on one car of two that weigh 41 ft x 311 lb/ft x 1.13 each. */
static void test_case_balances(void) {
    CU_ASSERT_EQUAL_FATAL(all.cases.count, 1);
    const ss_case_result *one = &all.cases.items[0];
    double sum = 0.0;
    for (int i = 0; i < all.bridge.bearing_count; i++) {
        sum += one->reaction[i];
    }
    CU_ASSERT_DOUBLE_EQUAL(sum / KIP, 6.1 + 2.0 * 41.0 * 0.311 * 1.13, 1e-7);
    CU_ASSERT_DOUBLE_EQUAL(one->load / KIP, 6.1, 1e-12);
    CU_ASSERT_EQUAL(one->outside, 0.0);
    CU_ASSERT_TRUE(one->equilibrium < 1e-8);
    /* The car with the winch is bent more than by its own weight, 0.311 x 1.13 kip/ft: over 38 ft, less the
     * ends' 1.5 ft. */
    const double w = 0.311 * 1.13;
    const double own = w * (38.0 * 38.0 / 8.0 - 1.5 * 1.5 / 2.0);
    CU_ASSERT_TRUE(one->probe[0] > own * KIP_FOOT);
}

/* A truck parked on one line: all of its axles, and those beyond the line's end on the ground. */
static void test_parked_truck(void) {
    const ss_vehicle *truck = &all.bridge.vehicles[0];
    ss_error error = {0};
    for (int backward = 0; backward < 2; backward++) {
        ss_load load = {0};
        CU_ASSERT_EQUAL_FATAL(ss_load_create(&all.mesh, &load, &error), SS_OK);
        const ss_placed_load parked = {.kind = SS_LOAD_TRUCK,
                                       .vehicle = 0,
                                       .backward = backward == 1,
                                       .x0 = 5.0 * FOOT,
                                       .y0 = 4.2 * FOOT,
                                       .line = backward == 1 ? -1 : 0};
        CU_ASSERT_EQUAL(ss_cases_add(&all.bridge, &parked, &load, &error), SS_OK);
        /* Going forward the rear axle, 13.4 ft behind, is off the bridge. */
        const double front = truck->axle_N[0];
        const double expected = backward == 1 ? front + truck->axle_N[1] : front;
        CU_ASSERT_DOUBLE_EQUAL(load.total, expected, 1e-6);
        const double moment =
            front * 5.0 * FOOT + (backward == 1 ? truck->axle_N[1] * (5.0 + 13.4) * FOOT : 0.0);
        CU_ASSERT_DOUBLE_EQUAL(load.moment_y, moment, 1e-6 * moment);
        ss_load_destroy(&load);
    }
}

static void test_promised_keys(void) {
    static const char *const keys[] = {
        "program",  "version",   "units",     "title",  "digest",     "assumptions", "warnings",    "ignored",
        "accuracy", "envelopes", "reactions", "joints", "load_share", "ratings",     "controlling", "caution",
    };
    ss_report report;
    CU_ASSERT_EQUAL_FATAL(ss_report_build(&all.results, SS_UNITS_SI, &report, NULL), SS_OK);
    ss_text out = {0};
    CU_ASSERT_EQUAL_FATAL(ss_write_json(&report, &out, NULL), SS_OK);
    json_t *root = json_loads(out.data, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(root);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        CU_ASSERT_PTR_NOT_NULL(json_object_get(root, keys[i]));
    }
    /* What was asked for by name is read in an analysis, not in a rating. */
    CU_ASSERT_PTR_NULL(json_object_get(root, "probes"));
    CU_ASSERT_PTR_NULL(strstr(out.data, "nan"));
    CU_ASSERT_PTR_NULL(strstr(out.data, "inf"));
    const json_t *controlling = json_object_get(root, "controlling");
    const double rf = json_number_value(json_object_get(controlling, "rf"));
    const json_t *ratings = json_object_get(root, "ratings");
    CU_ASSERT_EQUAL((int)json_array_size(ratings), all.rated.count);
    int of_strength = 0;
    for (size_t i = 0; i < json_array_size(ratings); i++) {
        const json_t *rating = json_array_get(ratings, i);
        const json_t *one = json_object_get(rating, "rf");
        const char *limit = json_string_value(json_object_get(rating, "limit"));
        CU_ASSERT_PTR_NOT_NULL_FATAL(limit);
        if (strcmp(limit, "deflection") != 0) { /* a matter of comfort, which never controls */
            CU_ASSERT_TRUE(json_is_null(one) || json_number_value(one) >= rf);
            of_strength++;
        }
    }
    CU_ASSERT_TRUE(of_strength > 8);
    json_decref(root);
    ss_text_destroy(&out);
    ss_report_destroy(&report);
}

/* The same bridge in other units: the same numbers after conversion, the same factors. */
static void test_units(void) {
    double moment[2];
    double factor[2];
    for (int system = 0; system < 2; system++) {
        ss_report report;
        CU_ASSERT_EQUAL_FATAL(ss_report_build(&all.results, (ss_unit_system)system, &report, NULL), SS_OK);
        ss_text out = {0};
        CU_ASSERT_EQUAL_FATAL(ss_write_json(&report, &out, NULL), SS_OK);
        json_t *root = json_loads(out.data, 0, NULL);
        const json_t *controlling = json_object_get(root, "controlling");
        factor[system] = json_number_value(json_object_get(controlling, "rf"));
        moment[system] =
            json_number_value(json_object_get(json_object_get(controlling, "terms"), "capacity"));
        json_decref(root);
        ss_text_destroy(&out);
        ss_report_destroy(&report);
    }
    CU_ASSERT_DOUBLE_EQUAL(moment[1] / moment[0], KIP_FOOT / 1000.0, 1e-8);
    CU_ASSERT_EQUAL(factor[0], factor[1]);
}

/* The page that is filed; the caller destroys it. */
static ss_text filed_page(html_page *page) {
    ss_report report;
    ss_text out = {0};
    all.results.command = "report";
    CU_ASSERT_EQUAL_FATAL(ss_report_build(&all.results, SS_UNITS_US, &report, NULL), SS_OK);
    all.results.command = "rate";
    CU_ASSERT_EQUAL_FATAL(ss_write_html(&report, &out, NULL), SS_OK);
    ss_report_destroy(&report);
    html_walk(page, out.data);
    CHECK_ROW(page->fault[0] == '\0', page->fault);
    CU_ASSERT_EQUAL(page->tables, page->captions);
    return out;
}

/* Each part once, in the order in which an engineer files them. */
static void test_page(void) {
    static const char *const parts[] = {
        "<h2 id=\"h1\">The answer</h2>",
        "In short</caption>",
        "Rating</th>",
        "Posting</th>",
        "What governs</th>",
        "How sure</th>",
        "Measure next</th>",
        "Contents</h2>",
        "What to measure next</h2>",
        "How sure</h2>",
        "What the description says</h2>",
        "Plan, from above</title>",
        "Taken for granted</h2>",
        "Left out</h2>",
        "Member by member</h2>",
        "Worked by hand</h2>",
        "Bearings and joints</h2>",
        "Accuracy</h2>",
        "Caution</h2>",
        "Engineer of record</h2>",
        "<dt>Seal</dt>",
    };
    static html_page page;
    ss_text out = filed_page(&page);
    const char *at = out.data;
    for (int i = 0; i < ENTRIES(parts); i++) {
        const char *found = strstr(at, parts[i]);
        CHECK_ROW(found != NULL, parts[i]);
        at = found == NULL ? at : found;
    }
    /* A heading and a link for each section, besides the title, the contents and the way to the answer. */
    CU_ASSERT_EQUAL(page.headings, page.sections + 2);
    CU_ASSERT_EQUAL(page.links, page.sections + 1);
    /* Plan, section, side; moment, shear, deflection, influence; shares. Neither posting nor places are here.
     */
    CU_ASSERT_EQUAL(page.drawings, 8);
    ss_text_destroy(&out);
}

/* The factor of the first page is the least of all that count, cut off. */
static void test_page_factor(void) {
    static const char row[] = "<th scope=\"row\">Rating</th><td>";
    static html_page page;
    double least = (double)INFINITY;
    for (int i = 0; i < all.rated.count; i++) {
        const ss_rating_item *item = &all.rated.items[i];
        if (all.rated.checks[item->check].limit != SS_LIMIT_DEFLECTION) {
            least = fmin(least, item->rf);
        }
    }
    ss_text out = filed_page(&page);
    const char *at = strstr(out.data, row);
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    const double told = ss_text_number(at + sizeof row - 1, NULL);
    CU_ASSERT_TRUE(told <= least && told > least - 0.01);
    ss_text_destroy(&out);
}

/* A bridge of which nothing could be rated has a page as well, without what there is not. */
static void test_page_of_nothing_rated(void) {
    static html_page page;
    const ss_ratings rated = all.rated;
    all.rated.count = 0;
    all.rated.check_count = 0;
    all.rated.traffic_count = 0;
    all.rated.controlling = -1;
    ss_text out = filed_page(&page);
    all.rated = rated;
    CU_ASSERT_PTR_NOT_NULL(strstr(out.data, "Nothing could be rated"));
    CU_ASSERT_PTR_NULL(strstr(out.data, "In short"));
    CU_ASSERT_PTR_NULL(strstr(out.data, "Truck by truck"));
    CU_ASSERT_PTR_NOT_NULL(strstr(out.data, "Engineer of record"));
    ss_text_destroy(&out);
}

static void test_page_of_hostile_names(void) {
    static const char hostile[] = "</td><script>alert(1)</script>\"'&<b>";
    static html_page page;
    ss_bridge *b = &all.bridge;
    const char *const title = b->title;
    const char *const notes = b->notes;
    const char *const car = b->cars[0].name;
    const char *const line = b->lines[0].name;
    const char *const joint = b->joints[0].name;
    const char *const steel = b->steels[0].name;
    ss_text plain = filed_page(&page);
    const int rows = page.rows;
    b->title = b->notes = b->cars[0].name = b->lines[0].name = b->joints[0].name = b->steels[0].name =
        hostile;
    ss_text out = filed_page(&page);
    b->title = title;
    b->notes = notes;
    b->cars[0].name = car;
    b->lines[0].name = line;
    b->joints[0].name = joint;
    b->steels[0].name = steel;
    CU_ASSERT_EQUAL(page.rows, rows);
    CU_ASSERT_PTR_NULL(strstr(out.data, "<script"));
    CU_ASSERT_PTR_NULL(strstr(out.data, "<b>"));
    CU_ASSERT_PTR_NOT_NULL(
        strstr(out.data, "&lt;/td&gt;&lt;script&gt;alert(1)&lt;/script&gt;&quot;&#39;&amp;&lt;b&gt;"));
    ss_text_destroy(&out);
    ss_text_destroy(&plain);
}

static void fail_each_allocation(const char *command) {
    const long before = ss_memory_live();
    bool passed = false;
    all.results.command = command;
    for (long n = 0; n < 6000 && !passed; n++) {
        ss_report report;
        ss_error error = {0};
        ss_memory_fail_from(n);
        const ss_status status = ss_report_build(&all.results, SS_UNITS_US, &report, &error);
        ss_memory_fail_from(-1);
        CU_ASSERT_TRUE(status == SS_OK || status == SS_ERROR_MEMORY);
        passed = status == SS_OK;
        ss_report_destroy(&report);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
    all.results.command = "rate";
    CU_ASSERT_TRUE(passed);
}

static void test_every_allocation_may_fail(void) {
    fail_each_allocation("rate");
    fail_each_allocation("report");
}

static void test_cases_may_fail(void) {
    const long before = ss_memory_live();
    bool passed = false;
    for (long n = 0; n < 3000 && !passed; n++) {
        ss_case_list cases = {0};
        ss_error error = {0};
        ss_memory_fail_from(n);
        const ss_status status = ss_cases_compute(&all.permanent, &cases, &error);
        ss_memory_fail_from(-1);
        CU_ASSERT_TRUE(status == SS_OK || status == SS_ERROR_MEMORY);
        passed = status == SS_OK;
        ss_cases_destroy(&cases);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
    CU_ASSERT_TRUE(passed);
}

int main(void) {
    static const test_case cases[] = {
        {"a case balances", test_case_balances},
        {"a parked truck", test_parked_truck},
        {"promised keys", test_promised_keys},
        {"units", test_units},
        {"page", test_page},
        {"factor of the page", test_page_factor},
        {"page of nothing rated", test_page_of_nothing_rated},
        {"page of hostile names", test_page_of_hostile_names},
        {"every allocation may fail", test_every_allocation_may_fail},
        {"cases may fail", test_cases_may_fail},
    };
    if (start_all() != 0) {
        end_all();
        return 1;
    }
    const int failed = RUN_SUITE("a whole bridge", cases);
    end_all();
    return failed == 0 && ss_memory_live() == 0 ? 0 : 1;
}
