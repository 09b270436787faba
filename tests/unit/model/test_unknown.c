/* test_unknown.c - unknowns as read, their draws and boxes, and the texts that put a draw into a description.
 */
#include "base/distribution.h"
#include "base/numeric.h"
#include "base/statistics.h"
#include "resolve_samples.h"
#include "sillspan/memory.h"
#include "support/suite.h"

static const char all[] =
    "unknowns = (\n"
    "  { name = \"seam\"; path = \"bridge.joints.seam.shear\"; low = \"0.01 kip/in/in\"; high = \"1 "
    "kip/in/in\"; "
    "scale = \"log\"; },\n"
    "  { name = \"steel\"; paths = [ \"steels.car steel.fy\", \"steels.plate.fy\" ]; distribution = "
    "\"lognormal\"; mean = \"42 ksi\"; cov = 0.1; },\n"
    "  { name = \"box\"; path = \"sections.sill.torsion\"; values = \"open, closed\"; weights = [ 1, 3 ]; "
    "},\n"
    "  { name = \"daylight\"; path = \"bridge.bearings.ends.gap\"; values = \"0, 1/4, 1 in\"; },\n"
    "  { name = \"traffic\"; path = \"rating.adtt\"; low = 38; high = 41; },\n"
    "  { name = \"factor\"; path = \"rating.system\"; distribution = \"triangular\"; low = 0.85; mode = 0.9; "
    "high "
    "= 1; },\n"
    "  { name = \"gravel\"; path = \"bridge.surfacing.thickness\"; distribution = \"normal\"; mean = \"4 "
    "in\"; sd "
    "= \"1 in\"; low = \"2 in\"; high = \"9 in\"; },\n"
    "  { name = \"held\"; path = \"bridge.bearings.ends.in_use\"; values = [ true, false ]; },\n"
    "  { name = \"stiff\"; path = \"bridge.bearings.ends.spring\"; values = \"rigid, 200 kip/in\"; } );\n"
    "correlations = ( { between = [ \"steel\", \"gravel\" ]; rho = -0.6; } );\n"
    "rating = {";

static ss_bridge resolve_all(void) {
    ss_bridge bridge;
    ss_diag_list diags = {0};
    char *const text = sample_changed("rating = {", all);
    const ss_status status = sample_resolve(text, &bridge, &diags);
    for (int i = 0; i < diags.count && status != SS_OK; i++) {
        printf("\n  %s: %s", diags.items[i].path, diags.items[i].message);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    ss_diag_destroy(&diags);
    free(text);
    return bridge;
}

static void test_read(void) {
    ss_bridge bridge = resolve_all();
    const ss_unknown *const u = bridge.unknowns.items;
    const double stiffness = 4448.2216152605 / (0.0254 * 0.0254);
    CU_ASSERT_EQUAL_FATAL(bridge.unknowns.count, 9);
    CU_ASSERT_STRING_EQUAL(u[0].name, "seam");
    CU_ASSERT(u[0].log && u[0].box_log && !u[0].stated && u[0].kind == SS_UNKNOWN_UNIFORM);
    CHECK_CLOSE(u[0].low, 0.01 * stiffness, 1e-15);
    CHECK_CLOSE(u[0].described, 0.3 * stiffness, 1e-15);
    CU_ASSERT_EQUAL(u[1].path_count, 2);
    CU_ASSERT_STRING_EQUAL(u[1].paths[1], "steels.plate.fy");
    CHECK_CLOSE(u[1].mean, 42.0 * KSI, 1e-15);
    CHECK_CLOSE(u[1].sd, 4.2 * KSI, 1e-14);
    CU_ASSERT(u[1].stated && u[1].box_log && isinf(u[1].high) && isnan(u[1].described));
    CHECK_CLOSE(u[1].box_low, ss_unknown_draw(&u[1], 0.005), 1e-15);
    CU_ASSERT_EQUAL(u[2].text_count, 2);
    CU_ASSERT_EQUAL(u[2].described, 1.0);
    CU_ASSERT_EQUAL(u[2].weights[1], 0.75);
    CU_ASSERT_EQUAL(u[3].text_count, 3);
    CU_ASSERT_EQUAL(u[3].described, 1.0);
    CU_ASSERT_STRING_EQUAL(u[3].words[1], "0.25 in");
    CU_ASSERT(u[4].whole && u[4].described == 40.0);
    CU_ASSERT_EQUAL(u[5].mode, 0.9);
    CU_ASSERT_STRING_EQUAL(u[7].texts[1], "false");
    CU_ASSERT_EQUAL(u[7].described, 0.0);
    CU_ASSERT_STRING_EQUAL(u[8].texts[0], "rigid");
    CU_ASSERT_EQUAL(u[8].described, 1.0);
    CU_ASSERT_PTR_NOT_NULL_FATAL(bridge.unknowns.lower);
    CHECK_CLOSE(bridge.unknowns.lower[6 * 9 + 1], -0.6, 1e-15);
    CHECK_CLOSE(bridge.unknowns.lower[6 * 9 + 6], 0.8, 1e-15);
    ss_bridge_destroy(&bridge);
}

static void test_draws(void) {
    enum { COUNT = 4000, SET = 9 };
    ss_bridge bridge = resolve_all();
    const ss_unknown *const u = bridge.unknowns.items;
    static double drawn[SET][COUNT];
    int trucks[4] = {0};
    int closed = 0;
    for (int i = COUNT - 1; i >= 0; i--) {
        double point[SET];
        double work[2 * SET];
        ss_unknowns_draw(&bridge.unknowns, 7, COUNT, i, point, work);
        for (int j = 0; j < SET; j++) {
            CU_ASSERT_FATAL(point[j] >= u[j].low && point[j] <= u[j].high);
            drawn[j][i] = point[j];
        }
        trucks[(int)point[4] - 38]++;
        closed += point[2] == 1.0;
    }
    /* A quarter each, to one: the parts of a Latin hypercube are that even. */
    for (int i = 0; i < 4; i++) {
        CU_ASSERT(abs(trucks[i] - COUNT / 4) <= 1);
    }
    CU_ASSERT(abs(closed - 3 * COUNT / 4) <= 1);
    double rho = 0.0;
    CU_ASSERT_EQUAL_FATAL(ss_rank_correlation(COUNT, drawn[1], drawn[6], &rho), SS_OK);
    check_near("correlated", rho, 6.0 / SS_PI * asin(-0.3), 0.03, 1.0);
    CU_ASSERT_EQUAL_FATAL(ss_rank_correlation(COUNT, drawn[0], drawn[6], &rho), SS_OK);
    check_near("apart", rho, 0.0, 4.0 / sqrt(COUNT), 1.0);
    /* Half of a range in ratios lies below its geometric middle, half of a lognormal below exp of its log's
     * mean. */
    ss_sort(COUNT, drawn[0]);
    CHECK_CLOSE(ss_quantile(COUNT, drawn[0], 0.5), sqrt(u[0].low * u[0].high), 2e-3);
    ss_sort(COUNT, drawn[1]);
    CHECK_CLOSE(ss_quantile(COUNT, drawn[1], 0.5), 42.0 * KSI / sqrt(1.01), 2e-3);
    ss_sort(COUNT, drawn[5]);
    CHECK_CLOSE(ss_quantile(COUNT, drawn[5], 1.0 / 3.0), 0.9, 1e-3);
    ss_bridge_destroy(&bridge);
}

static void test_box(void) {
    ss_bridge bridge = resolve_all();
    for (int j = 0; j < bridge.unknowns.count; j++) {
        const ss_unknown *const u = &bridge.unknowns.items[j];
        CU_ASSERT_EQUAL(ss_unknown_at(u, 0.0), u->box_low);
        CU_ASSERT_EQUAL(ss_unknown_at(u, 1.0), u->box_high);
        CU_ASSERT_EQUAL(ss_unknown_place(u, u->box_low), 0.0);
        CU_ASSERT_EQUAL(ss_unknown_place(u, u->box_high), 1.0);
        const double value = ss_unknown_at(u, 0.37);
        check_near(u->name, ss_unknown_at(u, ss_unknown_place(u, value)), value, 1e-14, value + 1.0);
    }
    const ss_unknown *const seam = &bridge.unknowns.items[0];
    CHECK_CLOSE(ss_unknown_at(seam, 0.5), sqrt(seam->low * seam->high), 1e-14);
    CHECK_CLOSE(ss_unknown_at(&bridge.unknowns.items[5], 0.5), 0.925, 1e-14);
    ss_bridge_destroy(&bridge);
}

/* What is put into a description comes back to the last bit, in both keys of the pair. */
static void test_apply(void) {
    enum { SET = 9 };
    const long live = ss_memory_live();
    ss_bridge bridge = resolve_all();
    const ss_unknown *const u = bridge.unknowns.items;
    for (int i = 0; i < 5; i++) {
        ss_diag_list diags = {0};
        ss_description d = {0};
        ss_error error = {0};
        double point[SET];
        double work[2 * SET];
        CHECK_OK(
            ss_description_read_text("mill.cfg", sample_text(), strlen(sample_text()), &d, &diags, &error),
            &error);
        ss_unknowns_draw(&bridge.unknowns, 3, 5, i, point, work);
        CU_ASSERT_EQUAL_FATAL(ss_unknowns_apply(&bridge.unknowns, point, &d, &diags), SS_OK);
        CU_ASSERT_EQUAL_FATAL(ss_description_check(&d, &diags), SS_OK);
        ss_reading r = {&d, &diags, NULL, SS_OK};
        const ss_node *const steels = ss_node_child(d.root, "steels");
        const ss_node *const parts = ss_node_child(d.root, "bridge");
        double got = 0.0;
        CU_ASSERT_TRUE(ss_read_quantity(&r, ss_node_item(steels, 0), "steels[].fy", &got));
        CU_ASSERT_EQUAL(got, point[1]);
        CU_ASSERT_TRUE(ss_read_quantity(&r, ss_node_item(steels, 1), "steels[].fy", &got));
        CU_ASSERT_EQUAL(got, point[1]);
        CU_ASSERT_TRUE(ss_read_quantity(&r, ss_node_named(ss_node_child(parts, "joints"), "seam"),
                                        "bridge.joints[].shear", &got));
        CU_ASSERT_EQUAL(got, point[0]);
        CU_ASSERT_TRUE(ss_read_quantity(&r, ss_node_child(d.root, "rating"), "rating.system", &got));
        CU_ASSERT_EQUAL(got, point[5]);
        /* The yield stress takes the place of the grade that was described. */
        CU_ASSERT_PTR_NULL(ss_node_child(ss_node_item(steels, 1), "grade"));
        CU_ASSERT_EQUAL(ss_node_item(steels, 1)->count, 2);
        const ss_node *const ends = ss_node_named(ss_node_child(parts, "bearings"), "ends");
        CU_ASSERT_TRUE(ss_read_quantity(&r, ends, "bridge.bearings[].gap", &got));
        check_near("gap", got, (point[3] == 0.0 ? 0.0 : point[3] == 1.0 ? 0.25 : 1.0) * 0.0254, 1e-17, 1.0);
        CU_ASSERT_EQUAL(ss_node_child(ends, "in_use")->flag, point[7] == 0.0);
        CU_ASSERT_STRING_EQUAL(
            ss_node_child(ss_node_named(ss_node_child(d.root, "sections"), "sill"), "torsion")->text,
            point[2] == 0.0 ? "open" : "closed");
        ss_description_destroy(&d);
        ss_diag_destroy(&diags);
    }
    char buffer[64];
    CU_ASSERT_STRING_EQUAL(ss_unknown_words(&u[1], 42.0 * KSI, SS_UNITS_US, 3, buffer, sizeof buffer),
                           "42 ksi");
    CU_ASSERT_STRING_EQUAL(ss_unknown_words(&u[4], 39.0, SS_UNITS_US, 3, buffer, sizeof buffer), "39");
    CU_ASSERT_STRING_EQUAL(ss_unknown_words(&u[8], 1.0, SS_UNITS_US, 3, buffer, sizeof buffer), "200 kip/in");
    ss_bridge_destroy(&bridge);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

/* ---- from a command line -------------------------------------------------------------------------- */

static ss_status add_to(ss_description *d, const char *const *texts, int count, ss_diag_list *diags) {
    ss_status status =
        ss_description_read_text("mill.cfg", sample_text(), strlen(sample_text()), d, diags, NULL);
    for (int i = 0; i < count && status == SS_OK; i++) {
        status = ss_unknown_add(d, texts[i], diags);
    }
    return status;
}

static void test_add(void) {
    static const char *const texts[] = {
        "bridge.joints.seam.shear=0.01 kip/in/in..1 kip/in/in log",
        "steels.car steel.fy , steels.plate.fy = lognormal(42 ksi, 4.2 ksi)",
        "sections.sill.torsion=closed, open",
        "rating.system = 0.85..1",
        "bridge.surfacing.thickness=triangular(2 in, 3 in, 8 in)",
        "bridge.bearings.ends.gap=0, 1/2 in",
    };
    ss_description d = {0};
    ss_diag_list diags = {0};
    ss_bridge bridge;
    CU_ASSERT_EQUAL_FATAL(add_to(&d, texts, ENTRIES(texts), &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&d, &bridge, &diags), SS_OK);
    const ss_unknown *const u = bridge.unknowns.items;
    CU_ASSERT_EQUAL_FATAL(bridge.unknowns.count, 6);
    CU_ASSERT_STRING_EQUAL(u[0].name, "bridge joints seam shear");
    CU_ASSERT(u[0].log && u[0].kind == SS_UNKNOWN_UNIFORM && !u[0].stated);
    CHECK_CLOSE(u[0].high, KSI, 1e-15);
    CU_ASSERT(u[1].path_count == 2 && u[1].kind == SS_UNKNOWN_LOGNORMAL);
    CU_ASSERT_STRING_EQUAL(u[1].paths[1], "steels.plate.fy");
    CU_ASSERT(u[2].kind == SS_UNKNOWN_DISCRETE && u[2].text_count == 2);
    CU_ASSERT(u[3].low == 0.85 && u[3].high == 1.0 && !u[3].log);
    CHECK_CLOSE(u[4].mode, 3.0 * 0.0254, 1e-15);
    CU_ASSERT_STRING_EQUAL(u[5].words[1], "0.5 in");
    ss_bridge_destroy(&bridge);
    ss_description_destroy(&d);
    ss_diag_destroy(&diags);
}

static void test_add_faults(void) {
    static const char *const rows[][2] = {
        {"rating.system", "an unknown is PATH=LOW..HIGH, such as \"steels.car steel.fy=30 ksi..50 ksi\""},
        {"rating.system=", "something is missing beside =; PATH=LOW..HIGH is due, such as \"steels.car "
                           "steel.fy=30 ksi..50 ksi\""},
        {"rating.system=0.9", "after = is due what it can be: \"24 ksi .. 50 ksi\", \"closed, open\" or "
                              "\"normal(42 ksi, 3 ksi)\""},
        {"rating.system=0.9..", "a range has a value on both sides of \"..\", such as 24 ksi .. 50 ksi"},
        {"rating.system,=0.9..1", "a path is missing before = or beside a comma"},
        {"rating.system=nromal(0.9, 0.1)",
         "before ( stands one of uniform, normal, lognormal and triangular; did "
         "you mean normal?"},
        {"rating.system=normal(0.9)", "normal( ) takes 2 values with commas between: mean, sd"},
        {"rating.system=normal(0.9, 0.1, 3)", "normal( ) takes 2 values with commas between: mean, sd"},
        {"rating.system=triangular(0.9,,1)",
         "triangular( ) takes 3 values with commas between: low, mode, high"},
    };
    for (int i = 0; i < ENTRIES(rows); i++) {
        ss_description d = {0};
        ss_diag_list diags = {0};
        CU_ASSERT_EQUAL(add_to(&d, &rows[i][0], 1, &diags), SS_ERROR_DESCRIPTION);
        CU_ASSERT_EQUAL_FATAL(diags.count, 1);
        CHECK_ROW(strcmp(diags.items[0].message, rows[i][1]) == 0, diags.items[0].message);
        CU_ASSERT_STRING_EQUAL(diags.items[0].path, rows[i][0]);
        ss_description_destroy(&d);
        ss_diag_destroy(&diags);
    }
    /* What is wrong with the values is found with the rest of the description. */
    static const char *const wrong[] = {"rating.sistem=0.85..1", "rating.system=0.85 ksi..1"};
    static const char *const said[] = {
        "0: unknowns.rating sistem.paths: \"rating.sistem\": \"sistem\": unknown key; did you mean system?",
        "0: unknowns.rating system.low: found \"0.85 ksi\"; a number without quotes is due, such as 0.85"};
    for (int i = 0; i < 2; i++) {
        ss_description d = {0};
        ss_diag_list diags = {0};
        ss_bridge bridge;
        CU_ASSERT_EQUAL_FATAL(add_to(&d, &wrong[i], 1, &diags), SS_OK);
        CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_OK);
        CU_ASSERT_EQUAL(ss_bridge_resolve(&d, &bridge, &diags), SS_ERROR_DESCRIPTION);
        ss_text remarks = sample_remarks(&diags, SS_FAULT);
        CU_ASSERT_STRING_EQUAL(remarks.data, said[i]);
        if (strcmp(remarks.data, said[i]) != 0) {
            printf("\n  %s\n", remarks.data);
        }
        ss_text_destroy(&remarks);
        ss_description_destroy(&d);
        ss_diag_destroy(&diags);
    }
}

static void test_no_memory(void) {
    static const char text[] = "steels.car steel.fy,steels.plate.fy=triangular(30 ksi, 40 ksi, 50 ksi)";
    const long live = ss_memory_live();
    long n = 0;
    for (; n < 200; n++) {
        ss_description d = {0};
        ss_diag_list diags = {0};
        CU_ASSERT_EQUAL_FATAL(add_to(&d, NULL, 0, &diags), SS_OK);
        ss_memory_fail_from(n);
        const ss_status status = ss_unknown_add(&d, text, &diags);
        ss_memory_fail_from(-1);
        ss_description_destroy(&d);
        ss_diag_destroy(&diags);
        if (status == SS_OK) {
            break;
        }
        CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
    }
    /* The arena gives many small pieces from few blocks. */
    CU_ASSERT(n < 200);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

int main(void) {
    static const test_case cases[] = {
        {"read", test_read},           {"draws", test_draws}, {"box", test_box},
        {"apply", test_apply},         {"add", test_add},     {"faults of adding", test_add_faults},
        {"no memory", test_no_memory},
    };
    return RUN_SUITE("unknowns", cases);
}
