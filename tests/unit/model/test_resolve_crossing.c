/* test_resolve_crossing.c - lanes and crossings of the sample bridge: its roadway is 24 ft wide. */
#include <math.h>

#include "resolve_rows.h"

#define NEAR(value, expected, unit) CU_ASSERT_DOUBLE_EQUAL((value) / (unit), (expected), 1e-6)

static ss_bridge resolve(const char *text, const char *warnings) {
    ss_bridge bridge;
    ss_diag_list diags = {0};
    memset(&bridge, 0, sizeof bridge);
    const ss_status status = sample_resolve(text, &bridge, &diags);
    ss_text faults = sample_remarks(&diags, SS_FAULT);
    ss_text warned = sample_remarks(&diags, SS_WARNING);
    if (status != SS_OK) {
        fprintf(stderr, "%s\n", faults.data);
    }
    if (warnings != NULL) {
        if (strstr(warned.data, warnings) == NULL) {
            fprintf(stderr, "%s\n", warned.data);
        }
        CU_ASSERT_PTR_NOT_NULL(strstr(warned.data, warnings));
    }
    ss_text_destroy(&faults);
    ss_text_destroy(&warned);
    ss_diag_destroy(&diags);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    return bridge;
}

static ss_bridge resolve_changed(const char *from, const char *to, const char *warnings) {
    char *const text = sample_changed(from, to);
    const ss_bridge bridge = resolve(text, warnings);
    free(text);
    return bridge;
}

/* "milk hauler alone, milk hauler beside milk hauler 2, ...": every crossing in words. */
static void said(const ss_bridge *b, const char *expected) {
    ss_text text = {0};
    for (int i = 0; i < b->crossing_count; i++) {
        const ss_crossing *const k = &b->crossings[i];
        ss_text_printf(&text, "%s%s %s", i == 0 ? "" : ", ", b->vehicles[k->vehicle].name,
                       ss_crossing_name(k->kind));
        if (k->kind == SS_CROSSING_BESIDE) {
            ss_text_printf(&text, " %s %d", b->vehicles[k->beside].name, k->lanes);
        } else {
            CU_ASSERT_EQUAL(k->beside, -1);
            CU_ASSERT_EQUAL(k->lanes, 1);
        }
        if (k->alternative) {
            ss_text_add(&text, " (alternative)");
        }
    }
    ss_text_add(&text, "");
    CHECK_ROW(strcmp(text.data, expected) == 0, text.data);
    ss_text_destroy(&text);
}

static bool assumed(const ss_bridge *b, const char *path, const char *value, const char *why) {
    for (int i = 0; i < b->assumptions.count; i++) {
        const ss_assumption *const a = &b->assumptions.items[i];
        if (strcmp(a->path, path) == 0 && strcmp(a->value, value) == 0 && strcmp(a->why, why) == 0) {
            return true;
        }
    }
    return false;
}

static void test_two_lanes_by_default(void) {
    ss_bridge b = resolve(sample_text(), NULL);
    CU_ASSERT_EQUAL(b.lanes.count, 2);
    CU_ASSERT_FALSE(b.lanes.fixed);
    NEAR(b.lanes.width, 12.0, FOOT);
    NEAR(b.lanes.between_wheels, 4.0, FOOT);
    NEAR(b.lanes.wheel_to_curb, 2.0, FOOT);
    CU_ASSERT_STRING_EQUAL(b.lanes.basis, "clear roadway of 24 ft: over 20 ft (6.10 m), two lanes");
    CU_ASSERT(assumed(&b, "bridge.roadway.lanes", "2",
                      "By the clear roadway of 24 ft: over 20 ft (6.10 m), two lanes."));
    CU_ASSERT(assumed(&b, "rating.crossings", "alone, beside",
                      "Each truck alone, and with others in two lanes and more."));
    CU_ASSERT(assumed(&b, "rating.beside", "Type 3",
                      "The ordinary truck in the other lanes when an emergency vehicle is not alone."));
    said(&b, "milk hauler alone, milk hauler beside milk hauler 2, HS20-44 alone, HS20-44 beside HS20-44 2, "
             "EV2 alone, EV2 beside Type 3 2, EV3 alone, EV3 beside Type 3 2");
    /* the ordinary truck is there without being rated */
    CU_ASSERT_EQUAL(b.rated_vehicle_count, 4);
    CU_ASSERT_STRING_EQUAL(b.vehicles[4].name, "Type 3");
    ss_bridge_destroy(&b);
}

static void test_one_lane(void) {
    ss_bridge b = resolve_changed("roadway = { from = \"2 ft\"; to = \"26 ft\"; }",
                                  "roadway = { from = \"2 ft\"; to = \"19.5 ft\"; }", NULL);
    CU_ASSERT_EQUAL(b.lanes.count, 1);
    CU_ASSERT_STRING_EQUAL(b.lanes.basis, "clear roadway of 17.5 ft: under 18 ft (5.49 m), one lane");
    said(&b, "milk hauler alone, HS20-44 alone, EV2 alone, EV3 alone");
    for (int i = 0; i < b.assumptions.count; i++) {
        CU_ASSERT_STRING_NOT_EQUAL(b.assumptions.items[i].path, "rating.beside");
        CU_ASSERT_STRING_NOT_EQUAL(b.assumptions.items[i].path, "bridge.roadway.between_wheels");
    }
    ss_bridge_destroy(&b);
}

static void test_given_lanes(void) {
    ss_bridge b = resolve_changed("to = \"26 ft\"; }",
                                  "to = \"26 ft\"; lanes = 1; between_wheels = \"3.5 ft\"; }", NULL);
    CU_ASSERT_EQUAL(b.lanes.count, 1);
    NEAR(b.lanes.between_wheels, 3.5, FOOT);
    said(&b, "milk hauler alone, HS20-44 alone, EV2 alone, EV3 alone");
    ss_bridge_destroy(&b);
    b = resolve_changed("to = \"26 ft\"; }", "to = \"26 ft\"; lane_width = \"7.9 ft\"; }", NULL);
    CU_ASSERT_EQUAL(b.lanes.count, 3);
    said(&b, "milk hauler alone, milk hauler beside milk hauler 2, milk hauler beside milk hauler 3, "
             "HS20-44 alone, HS20-44 beside HS20-44 2, HS20-44 beside HS20-44 3, EV2 alone, EV2 beside "
             "Type 3 2, EV2 beside Type 3 3, EV3 alone, EV3 beside Type 3 2, EV3 beside Type 3 3");
    ss_bridge_destroy(&b);
}

static void test_chosen_crossings(void) {
    ss_bridge b = resolve_changed("adtt = 40;",
                                  "adtt = 40; crossings = [ \"alone\", \"centred\", \"signed line\" ]; "
                                  "signed_line = \"9 ft\";",
                                  NULL);
    said(&b, "milk hauler alone, milk hauler centred (alternative), milk hauler signed line (alternative), "
             "HS20-44 alone, HS20-44 centred (alternative), HS20-44 signed line (alternative), "
             "EV2 alone, EV2 centred (alternative), EV2 signed line (alternative), "
             "EV3 alone, EV3 centred (alternative), EV3 signed line (alternative)");
    NEAR(b.crossings[2].y, 9.0, FOOT);
    ss_bridge_destroy(&b);
    b = resolve_changed("adtt = 40;", "adtt = 40; crossings = [ \"centred\" ];", NULL);
    said(&b, "milk hauler centred, HS20-44 centred, EV2 centred, EV3 centred");
    ss_bridge_destroy(&b);
    b = resolve_changed("adtt = 40;", "adtt = 40; beside = \"milk hauler\";", NULL);
    CU_ASSERT_EQUAL(b.vehicles[b.crossings[7].beside].kind, SS_VEHICLE_USER);
    CU_ASSERT_EQUAL(b.crossings[7].beside, 0);
    ss_bridge_destroy(&b);
}

static void test_permits(void) {
    const char *const from = "name = \"milk hauler\";";
    ss_bridge b = resolve_changed(from, "name = \"milk hauler\"; kind = \"permit\";", NULL);
    CU_ASSERT_EQUAL(b.vehicles[0].kind, SS_VEHICLE_PERMIT);
    CU_ASSERT_EQUAL(b.crossings[1].kind, SS_CROSSING_BESIDE);
    CU_ASSERT_EQUAL(b.crossings[1].beside, 0);
    CU_ASSERT(assumed(&b, "rating.permits_escorted", "false",
                      "Whether permit vehicles cross alone, with other traffic held back."));
    ss_bridge_destroy(&b);
    char *const text = sample_changed(from, "name = \"milk hauler\"; kind = \"permit\";");
    char *const at = strstr(text, "adtt = 40;");
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    char *const escorted = malloc(strlen(text) + 64);
    CU_ASSERT_PTR_NOT_NULL_FATAL(escorted);
    sprintf(escorted, "%.*spermits_escorted = true; %s", (int)(at - text), text, at);
    b = resolve(escorted, NULL);
    CU_ASSERT_EQUAL(b.crossings[0].kind, SS_CROSSING_ALONE);
    CU_ASSERT_EQUAL(b.crossings[1].vehicle, 1); /* the next truck: no crossing of it beside others */
    ss_bridge_destroy(&b);
    free(escorted);
    free(text);
}

/* 24 ft = 7.3152 m: two notional lanes of 3 m; the load of the second lane comes beside that of the first. */
static void test_european_models(void) {
    ss_bridge b = resolve_changed("\"milk hauler\", \"HS20\"", "\"LM1 lane 1\", \"LM1 lane 2\"", NULL);
    said(&b, "LM1 lane 1 alone, LM1 lane 1 beside LM1 lane 2 2, EV2 alone, EV2 beside Type 3 2, EV3 alone, "
             "EV3 beside Type 3 2");
    CU_ASSERT(
        assumed(&b, "bridge.roadway.lanes", "2",
                "For European load models, by the clear roadway of 24 ft: as many as whole notional lanes of "
                "3 m (9.84 ft)."));
    NEAR(b.notional_lanes.wheel_to_curb, 0.5, 1.0);
    ss_bridge_destroy(&b);
    b = resolve_changed("\"milk hauler\", \"HS20\"", "\"LM1 lane 2\"", NULL);
    said(&b, "LM1 lane 2 alone, EV2 alone, EV2 beside Type 3 2, EV3 alone, EV3 beside Type 3 2");
    ss_bridge_destroy(&b);
}

/* The sample with one part of its text changed after the other. */
static char *changed(char *text, const char *from, const char *to) {
    ss_text out = {0};
    const char *const at = strstr(text, from);
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    ss_text_printf(&out, "%.*s%s%s", (int)(at - text), text, to, at + strlen(from));
    char *const copy = malloc(strlen(out.data) + 1);
    CU_ASSERT_PTR_NOT_NULL_FATAL(copy);
    strcpy(copy, out.data);
    ss_text_destroy(&out);
    free(text);
    return copy;
}

#define OTHERS ", EV2 alone, EV2 beside Type 3 2, EV3 alone, EV3 beside Type 3 2"

/* 29.6 ft = 9.022 m: three notional lanes. The loads of the second and the third come beside that of the
 * first, as one crossing; without the second, the third crosses alone. */
static void test_three_notional_lanes(void) {
    static const struct {
        const char *trucks, *crossings;
    } table[] = {
        {"\"LM1 lane 3\", \"LM1 lane 1\", \"LM1 lane 2\"",
         "LM1 lane 1 alone, LM1 lane 1 beside LM1 lane 2 3" OTHERS},
        {"\"LM1 lane 1\", \"LM1 lane 2\"", "LM1 lane 1 alone, LM1 lane 1 beside LM1 lane 2 2" OTHERS},
        {"\"LM1 lane 1\", \"LM1 lane 3\"", "LM1 lane 1 alone, LM1 lane 3 alone" OTHERS},
    };
    for (int i = 0; i < ENTRIES(table); i++) {
        char *text = sample_changed("gap = \"4 in\"", "gap = \"18 in\"");
        text = changed(text, "gap = \"3 in\"", "gap = \"15 in\"");
        text = changed(text, "from = \"2 ft\"; to = \"26 ft\"", "from = \"0.5 ft\"; to = \"30.1 ft\"");
        text = changed(text, "\"milk hauler\", \"HS20\"", table[i].trucks);
        ss_bridge b = resolve(text, NULL);
        CU_ASSERT_EQUAL(b.notional_lanes.count, 3);
        said(&b, table[i].crossings);
        CU_ASSERT_EQUAL(b.crossings[1].has_third, i == 0);
        if (i == 0) {
            CU_ASSERT_STRING_EQUAL(b.vehicles[b.crossings[1].third].name, "LM1 lane 3");
            CU_ASSERT_EQUAL(ss_crossing_truck_count(&b.crossings[1]), 3);
        }
        ss_bridge_destroy(&b);
        free(text);
    }
}

/* Every truck has every lane in some way, and no way comes twice. */
static void test_orders(void) {
    const ss_crossing three = {
        .kind = SS_CROSSING_BESIDE, .vehicle = 4, .beside = 2, .lanes = 3, .has_third = true, .third = 0};
    const ss_crossing two = {.kind = SS_CROSSING_BESIDE, .vehicle = 1, .beside = 0, .lanes = 4};
    const ss_crossing same = {.kind = SS_CROSSING_BESIDE, .vehicle = 1, .beside = 1, .lanes = 3};
    int which[SS_LANES_MAX] = {0}, ways = 0;
    unsigned seen = 0U;
    for (; ss_crossing_order(&three, ways, which); ways++) {
        CU_ASSERT_EQUAL(which[0] + which[1] + which[2], 3);
        CU_ASSERT(which[0] != which[1] && which[1] != which[2] && which[0] != which[2]);
        seen |= 1U << (3 * which[0] + which[1]);
    }
    CU_ASSERT_EQUAL(ways, 6);
    CU_ASSERT_EQUAL(seen, 1U << 1 | 1U << 2 | 1U << 3 | 1U << 5 | 1U << 6 | 1U << 7);
    CU_ASSERT_EQUAL(ss_crossing_truck(&three, 0), 4);
    CU_ASSERT_EQUAL(ss_crossing_truck(&three, 1), 2);
    CU_ASSERT_EQUAL(ss_crossing_truck(&three, 2), 0);
    for (ways = 0; ss_crossing_order(&two, ways, which); ways++) {
        for (int lane = 0; lane < 4; lane++) CU_ASSERT_EQUAL(which[lane], lane == ways ? 0 : 1);
    }
    CU_ASSERT_EQUAL(ways, 4);
    CU_ASSERT_TRUE(ss_crossing_order(&same, 0, which));
    CU_ASSERT_FALSE(ss_crossing_order(&same, 1, which));
}

static void test_warnings(void) {
    ss_bridge b = resolve_changed("adtt = 40;", "adtt = 40; signed_line = \"9 ft\";",
                                  "rating.signed_line: not used; \"signed line\" is not among the crossings");
    ss_bridge_destroy(&b);
    b = resolve_changed("adtt = 40;", "adtt = 40; crossings = [ \"alone\" ]; beside = \"Type 3\";",
                        "rating.beside: not used; no emergency vehicle crosses beside another truck");
    ss_bridge_destroy(&b);
    b = resolve_changed("adtt = 40;", "adtt = 40; permits_escorted = true;",
                        "rating.permits_escorted: not used; no permit vehicle is rated");
    ss_bridge_destroy(&b);
}

static const fault_row rows[] = {
    {"to = \"26 ft\"; }", "to = \"26 ft\"; lanes = 3; lane_width = \"9 ft\"; }",
     "59: bridge.roadway.lanes: 3 lanes of 9 ft do not go between the curbs, which are 24 ft apart"},
    {"adtt = 40;", "adtt = 40; crossings = [ \"alone\", \"center\" ];",
     "78: rating.crossings: no crossing is called \"center\"; did you mean \"centred\"?"},
    {"adtt = 40;", "adtt = 40; crossings = [ \"signed line\" ];",
     "77: rating.signed_line: not given; the crossing \"signed line\" needs its place"},
    {"adtt = 40;", "adtt = 40; beside = \"Tipe 3\";",
     "78: rating.beside: no truck is called \"Tipe 3\"; did you mean \"Type 3\"?"},
    {"to = \"26 ft\"; }", "to = \"26 ft\"; lanes = 0; }",
     "59: bridge.roadway.lanes: 0 is below the least allowed, 1"},
};

static void test_faults(void) {
    check_rows(rows, ENTRIES(rows), SS_FAULT);
}

int main(void) {
    static const test_case cases[] = {
        {"two lanes by default", test_two_lanes_by_default},
        {"one lane", test_one_lane},
        {"given lanes", test_given_lanes},
        {"chosen crossings", test_chosen_crossings},
        {"permits", test_permits},
        {"European models", test_european_models},
        {"three notional lanes", test_three_notional_lanes},
        {"orders", test_orders},
        {"warnings", test_warnings},
        {"faults", test_faults},
    };
    return RUN_SUITE("resolve_crossing", cases);
}
