/* test_description_tree.c - nodes, their paths, setting by path. */
#include "model/description_path.h"
#include "support/suite.h"
#include "unit/model/description_samples.h"

/* steels, two bearing sets (one without a name), a rating group. */
static void begin(ss_description *d) {
    CU_ASSERT_EQUAL_FATAL(ss_description_init(d), SS_OK);
    put_text(d, put(d, put(d, d->root, SS_NODE_LIST, "steels", 2), SS_NODE_GROUP, NULL, 2), "name",
             "car steel", 2);
    ss_node *bridge = put(d, d->root, SS_NODE_GROUP, "bridge", 3);
    ss_node *bearings = put(d, bridge, SS_NODE_LIST, "bearings", 4);
    put_text(d, put(d, bearings, SS_NODE_GROUP, NULL, 5), "name", "ends", 5);
    put_text(d, put(d, bearings, SS_NODE_GROUP, NULL, 6), "gap", "3/8 in", 6);
    put_text(d, d->root, "decks", "planks", 7);
}

static const ss_node *bearing(const ss_description *d, int i) {
    return ss_node_item(ss_node_child(ss_node_child(d->root, "bridge"), "bearings"), i);
}

static void test_children_are_found(void) {
    ss_description d;
    begin(&d);
    const ss_node *list = ss_node_child(ss_node_child(d.root, "bridge"), "bearings");
    CU_ASSERT_PTR_NOT_NULL_FATAL(list);
    CU_ASSERT_EQUAL(list->count, 2);
    CU_ASSERT_PTR_EQUAL(ss_node_named(list, "ends"), ss_node_item(list, 0));
    CU_ASSERT_PTR_NULL(ss_node_named(list, "Ends"));
    CU_ASSERT_PTR_NULL(ss_node_item(list, 2));
    CU_ASSERT_PTR_NULL(ss_node_item(list, -1));
    CU_ASSERT_PTR_NULL(ss_node_child(list, "name"));
    CU_ASSERT_PTR_NULL(ss_node_child(NULL, "name"));
    CU_ASSERT_PTR_EQUAL(list->parent, ss_node_child(d.root, "bridge"));
    ss_description_destroy(&d);
    ss_description_destroy(&d);
    ss_description_destroy(NULL);
}

static void test_paths_have_names_or_counts(void) {
    ss_description d;
    begin(&d);
    ss_text path = {0};
    ss_node_path(ss_node_child(bearing(&d, 0), "name"), &path);
    CU_ASSERT_STRING_EQUAL(path.data, "bridge.bearings.ends.name");
    ss_text_clear(&path);
    ss_node_key_path(bearing(&d, 1), "gap", &path);
    CU_ASSERT_STRING_EQUAL(path.data, "bridge.bearings.2.gap");
    ss_text_clear(&path);
    ss_node_key_path(d.root, "title", &path);
    CU_ASSERT_STRING_EQUAL(path.data, "title");
    ss_text_clear(&path);
    ss_node_path(d.root, &path);
    CU_ASSERT_EQUAL(path.length, 0);
    ss_text_destroy(&path);
    ss_description_destroy(&d);
}

static void test_set_changes_and_adds(void) {
    ss_description d;
    ss_diag_list diags = {0};
    begin(&d);
    CU_ASSERT_EQUAL(ss_description_set(&d, "bridge.bearings.2.gap", " 7/16 in ", &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_description_set(&d, "bridge.bearings.ends.under", "sill, left edge", &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_description_set(&d, "bridge.bearings.ends.in_use", "False", &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_description_set(&d, "rating.adtt", "45", &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_description_set(&d, "rating.system", "0.87", &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_description_set(&d, "rating.condition", "poor", &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_description_set(&d, "steels.car steel.grade", "50", &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_description_set(&d, "title", "true", &diags), SS_OK);
    CU_ASSERT_EQUAL(diags.count, 0);
    const ss_node *gap = ss_node_child(bearing(&d, 1), "gap");
    CU_ASSERT_STRING_EQUAL(gap->text, "7/16 in");
    CU_ASSERT_PTR_NULL(gap->where.file);
    CU_ASSERT_EQUAL(gap->where.line, 0);
    const ss_node *under = ss_node_child(bearing(&d, 0), "under");
    CU_ASSERT_EQUAL(under->count, 2);
    CU_ASSERT_STRING_EQUAL(ss_node_item(under, 1)->text, "left edge");
    CU_ASSERT_EQUAL(ss_node_child(bearing(&d, 0), "in_use")->kind, SS_NODE_FLAG);
    const ss_node *rating = ss_node_child(d.root, "rating");
    CU_ASSERT_PTR_NOT_NULL_FATAL(rating);
    CU_ASSERT_EQUAL(ss_node_child(rating, "adtt")->kind, SS_NODE_INTEGER);
    CU_ASSERT_EQUAL(ss_node_child(rating, "adtt")->number, 45.0);
    CU_ASSERT_EQUAL(ss_node_child(rating, "system")->kind, SS_NODE_REAL);
    CU_ASSERT_EQUAL(ss_node_child(rating, "system")->number, 0.87);
    CU_ASSERT_EQUAL(ss_node_child(rating, "condition")->kind, SS_NODE_TEXT);
    const ss_node *steel = ss_node_item(ss_node_child(d.root, "steels"), 0);
    CU_ASSERT_EQUAL(ss_node_child(steel, "grade")->kind, SS_NODE_TEXT);
    CU_ASSERT_STRING_EQUAL(ss_node_child(d.root, "title")->text, "true");
    /* Again: the value is replaced, not added to. */
    CU_ASSERT_EQUAL(ss_description_set(&d, "bridge.bearings.ends.under", "sill", &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_node_child(bearing(&d, 0), "under")->count, 1);
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

static void test_set_refuses_wrong_paths(void) {
    static const struct {
        const char *path, *said;
    } cases[] = {
        {"bridge.bearing.ends.gap", "\"bearing\": unknown key; did you mean bearings?"},
        {"bridge.bearings.end.gap", "no item is called \"end\"; did you mean \"ends\"?"},
        {"bridge.bearings.abutment.gap", "no item is called \"abutment\"; the list has \"ends\""},
        {"bridge.bearings.3.gap", "no item is called \"3\"; the list has \"ends\""},
        {"bridge.bearings.0.gap", "no item is called \"0\"; the list has \"ends\""},
        {"bridge.joints.seam.shear", "no item is called \"seam\"; the list is empty"},
        {"bridge.bearings", "the path ends at a list; the name of an item and a key are due"},
        {"bridge.bearings.ends", "the path ends at a group; one of its keys is due"},
        {"bridge", "the path ends at a group; one of its keys is due"},
        {"title.short", "the path goes on after title, which holds no keys"},
        {"decks.planks.weight", "decks is \"planks\"; a list of groups is due, ( { ... }, { ... } )"},
        {"analysis.finenes", "\"finenes\": unknown key; allowed here are station_spacing"},
        {"", "\"\": unknown key; allowed here are title, notes, units, steels, sections, cars, decks, "
             "bridge, slab, sizing, findings, trucks, "
             "cases, runs, probes, analysis, rating, fatigue, unknowns, correlations, variants"},
        {"rating..adtt", "\"\": unknown key; allowed here are methods, levels, edition, sequence, service, "
                         "deflection_limit, single_lane_presence, speed, permits, trucks, crossings, beside, "
                         "permits_escorted, signed_line, condition, system, primary_by, primary_share, "
                         "release_secondary, adtt, approach, "
                         "dynamic_allowance, live_factor, dc_factor, dw_factor, phi_flexure, phi_shear"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ss_description d;
        ss_diag_list diags = {0};
        begin(&d);
        CU_ASSERT_EQUAL(ss_description_set(&d, cases[i].path, "1/2 in", &diags), SS_ERROR_DESCRIPTION);
        char words[512];
        snprintf(words, sizeof words, "%s: %s", cases[i].path, cases[i].said);
        CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, 0, words));
        ss_diag_destroy(&diags);
        ss_description_destroy(&d);
    }
}

static ss_status set_some(ss_diag_list *diags) {
    ss_description d = {0};
    ss_status status = ss_description_init(&d);
    if (status == SS_OK) {
        status = ss_description_set(&d, "rating.trucks", "EV2, EV3", diags);
    }
    if (status == SS_OK) {
        status = ss_description_set(&d, "rating.adt", "12", diags);
    }
    ss_description_destroy(&d);
    return status;
}

static void test_memory_may_fail_anywhere(void) {
    const long live = ss_memory_live();
    ss_status status = SS_ERROR_MEMORY;
    for (long n = 0; n < 200 && status == SS_ERROR_MEMORY; n++) {
        ss_diag_list diags = {0};
        ss_memory_fail_from(n);
        status = set_some(&diags);
        ss_memory_fail_from(-1);
        ss_diag_destroy(&diags);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT_EQUAL(status, SS_ERROR_DESCRIPTION);
}

int main(void) {
    const test_case cases[] = {
        {"children", test_children_are_found},     {"paths", test_paths_have_names_or_counts},
        {"set", test_set_changes_and_adds},        {"set refuses", test_set_refuses_wrong_paths},
        {"memory", test_memory_may_fail_anywhere},
    };
    return RUN_SUITE("model/description tree", cases);
}
