/* test_description_check.c - what is said about faults that a file of the reader's tests does not hold. */
#include <math.h>

#include "support/suite.h"
#include "unit/model/description_samples.h"

/* A description with all that is due at the top, so that only what a test adds can be wrong. */
static ss_node *begin(ss_description *d) {
    CU_ASSERT_EQUAL_FATAL(ss_description_init(d), SS_OK);
    put_text(d, d->root, "title", "Harrow County, Quarry Road", 1);
    ss_node *steels = put(d, d->root, SS_NODE_LIST, "steels", 2);
    ss_node *steel = put(d, steels, SS_NODE_GROUP, NULL, 3);
    put_text(d, steel, "name", "car steel", 3);
    put_number(d, steel, "year_built", 1957.0, 3)->kind = SS_NODE_INTEGER;
    return steel;
}

static void add_sections_cars_bridge(ss_description *d) {
    ss_node *section = put(d, put(d, d->root, SS_NODE_LIST, "sections", 5), SS_NODE_GROUP, NULL, 5);
    put_text(d, section, "name", "sill", 5);
    put_text(d, section, "shape", "given", 5);
    ss_node *car = put(d, put(d, d->root, SS_NODE_LIST, "cars", 6), SS_NODE_GROUP, NULL, 6);
    put_text(d, car, "name", "flat 53", 6);
    put_text(d, car, "length", "53 ft 6 in", 6);
    put_text(d, car, "width", "9 ft 2 in", 6);
    put_text(d, car, "steel", "car steel", 6);
    ss_node *line = put(d, put(d, car, SS_NODE_LIST, "lines", 7), SS_NODE_GROUP, NULL, 7);
    put_text(d, line, "name", "sill", 7);
    put_text(d, line, "role", "main girder", 7);
    put_text(d, line, "y", "0 ft", 7);
    put_text(d, line, "section", "sill", 7);
    ss_node *bridge = put(d, d->root, SS_NODE_GROUP, "bridge", 8);
    ss_node *only = put(d, put(d, bridge, SS_NODE_LIST, "cars", 8), SS_NODE_GROUP, NULL, 8);
    put_text(d, only, "name", "only", 8);
    put_text(d, only, "car", "flat 53", 8);
    ss_node *bearing = put(d, put(d, bridge, SS_NODE_LIST, "bearings", 9), SS_NODE_GROUP, NULL, 9);
    put_text(d, bearing, "name", "pads", 9);
    put_text(d, put(d, bearing, SS_NODE_LIST, "under", 9), NULL, "sill", 9);
    ss_node *roadway = put(d, bridge, SS_NODE_GROUP, "roadway", 10);
    put_text(d, roadway, "from", "1 ft", 10);
    put_text(d, roadway, "to", "8 ft", 10);
}

static void test_sound_description_passes(void) {
    ss_description d;
    ss_diag_list diags = {0};
    begin(&d);
    add_sections_cars_bridge(&d);
    CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_OK);
    CU_ASSERT_EQUAL(diags.count, 0);
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

static void test_unlikely_is_no_fault(void) {
    ss_description d;
    ss_diag_list diags = {0};
    put_text(&d, begin(&d), "fy", "36 psi", 4);
    add_sections_cars_bridge(&d);
    CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_OK);
    CU_ASSERT_EQUAL(diags.faults, 0);
    CU_ASSERT_EQUAL(diags.warnings, 1);
    CU_ASSERT_TRUE(was_said(&diags, SS_WARNING, 4,
                            "steels.car steel.fy: \"36 psi\" is unlikely; usual are 24 ksi to 110 ksi"));
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

static void test_limits_are_met_exactly(void) {
    static const struct {
        const char *key, *text;
        int faults, warnings;
    } cases[] = {
        {"fy", "24 ksi", 0, 0},         {"fy", "165.474 MPa", 0, 1}, {"fy", "24000 psi", 0, 0},
        {"fy", "0 ksi", 1, 0},          {"fy", "1e-9 ksi", 0, 1},    {"density", "0 lb/ft3", 0, 1},
        {"density", "-1 lb/ft3", 1, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ss_description d;
        ss_diag_list diags = {0};
        put_text(&d, begin(&d), cases[i].key, cases[i].text, 4);
        add_sections_cars_bridge(&d);
        (void)ss_description_check(&d, &diags);
        CU_ASSERT_EQUAL(diags.faults, cases[i].faults);
        CU_ASSERT_EQUAL(diags.warnings, cases[i].warnings);
        ss_diag_destroy(&diags);
        ss_description_destroy(&d);
    }
}

static void test_texts_are_clean(void) {
    static const char words[] =
        "notes: the text holds a control character or is not UTF-8; letters, digits and signs are allowed";
    static const struct {
        const char *text;
        bool clean;
    } cases[] = {
        {"Bj\xC3\xB8rn's crossing, 9\xE2\x80\xB2 4\xE2\x80\xB3", true},
        {"bell\a", false},
        {"line\nfeed", false},
        {"\x1B[31m", false},
        {"\xC0\xAF", false},
        {"\xED\xA0\x80", false},
        {"\xF0\x9F\x9A\x83", true},
        {"\xF0\x80\x80\x80", false},
        {"\xF5\x80\x80\x80", false},
        {"cut \xE2\x80", false},
        {"\xC2\x9B", false},
        {"stray \xBF", false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ss_description d;
        ss_diag_list diags = {0};
        begin(&d);
        add_sections_cars_bridge(&d);
        put_text(&d, d.root, "notes", cases[i].text, 12);
        CU_ASSERT_EQUAL(ss_description_check(&d, &diags), cases[i].clean ? SS_OK : SS_ERROR_DESCRIPTION);
        if (!cases[i].clean) {
            CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, 12, words));
        }
        ss_diag_destroy(&diags);
        ss_description_destroy(&d);
    }
}

static void test_numbers_are_finite(void) {
    ss_description d;
    ss_diag_list diags = {0};
    begin(&d);
    add_sections_cars_bridge(&d);
    ss_node *rating = put(&d, d.root, SS_NODE_GROUP, "rating", 20);
    put_number(&d, rating, "system", (double)NAN, 21);
    put_number(&d, rating, "live_factor", (double)-INFINITY, 22);
    put_number(&d, rating, "adtt", (double)NAN, 23)->kind = SS_NODE_INTEGER;
    put_number(&d, rating, "condition", 0.949, 24);
    CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_ERROR_DESCRIPTION);
    CU_ASSERT_TRUE(was_said(
        &diags, SS_FAULT, 21,
        "rating.system: found a number that is not finite; a number without quotes is due, such as 0.85"));
    CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, 22,
                            "rating.live_factor: found a number that is not finite; a number without quotes "
                            "is due, such as 0.85"));
    CU_ASSERT_TRUE(was_said(
        &diags, SS_FAULT, 23,
        "rating.adtt: not a number is out of range; whole numbers go from -2147483648 to 2147483647"));
    CU_ASSERT_EQUAL(diags.faults, 3);
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

static void test_choice_or_quantity(void) {
    static const struct {
        const char *text, *said;
    } cases[] = {
        {"fixed", NULL},
        {"1.9e6 kip-in/rad", NULL},
        {"fixde", "bridge.bearings.pads.rotation: found \"fixde\"; \"free\", \"fixed\" or a rotational "
                  "stiffness is due, "
                  "such as \"4000 kip-in/rad\"; did you mean \"fixed\"?"},
        {"-4 kip-in/rad",
         "bridge.bearings.pads.rotation: \"-4 kip-in/rad\" is below the least allowed, 0 kip-in/rad"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ss_description d;
        ss_diag_list diags = {0};
        begin(&d);
        add_sections_cars_bridge(&d);
        const ss_node *bearings = ss_node_child(ss_node_child(d.root, "bridge"), "bearings");
        put_text(&d, (ss_node *)ss_node_named(bearings, "pads"), "rotation", cases[i].text, 30);
        const ss_status status = ss_description_check(&d, &diags);
        CU_ASSERT_EQUAL(status, cases[i].said == NULL ? SS_OK : SS_ERROR_DESCRIPTION);
        if (cases[i].said != NULL) {
            CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, 30, cases[i].said));
        }
        ss_diag_destroy(&diags);
        ss_description_destroy(&d);
    }
}

static void test_lists_are_bounded(void) {
    ss_description d;
    ss_diag_list diags = {0};
    begin(&d);
    add_sections_cars_bridge(&d);
    ss_node *decks = put(&d, d.root, SS_NODE_LIST, "decks", 40);
    for (int i = 0; i <= SS_DESCRIPTION_ITEMS; i++) {
        put(&d, decks, SS_NODE_GROUP, NULL, 41);
    }
    CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_ERROR_DESCRIPTION);
    CU_ASSERT_EQUAL(diags.count, 1);
    CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, 40, "decks: found 10001 items; at most 10000 are allowed"));
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

static void test_faults_are_bounded(void) {
    ss_description d;
    ss_diag_list diags = {0};
    begin(&d);
    add_sections_cars_bridge(&d);
    ss_node *decks = put(&d, d.root, SS_NODE_LIST, "decks", 40);
    for (int i = 0; i < 700; i++) {
        put(&d, decks, SS_NODE_GROUP, NULL, 41);
    }
    CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_ERROR_DESCRIPTION);
    CU_ASSERT_EQUAL(diags.count, SS_DESCRIPTION_FAULTS + 1);
    CU_ASSERT_TRUE(
        was_said(&diags, SS_FAULT, 41, ": found more than 1000 faults; the others are not listed"));
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

static void test_too_long_texts(void) {
    char text[SS_DESCRIPTION_TEXT + 2];
    memset(text, 'm', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    ss_description d;
    ss_diag_list diags = {0};
    begin(&d);
    add_sections_cars_bridge(&d);
    put_text(&d, d.root, "notes", text, 12);
    CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_ERROR_DESCRIPTION);
    CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, 12,
                            "notes: \"mmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmm...\" is "
                            "too long; a text has at "
                            "most 2000 bytes"));
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
}

int main(void) {
    const test_case cases[] = {
        {"sound", test_sound_description_passes},    {"unlikely", test_unlikely_is_no_fault},
        {"limits", test_limits_are_met_exactly},     {"clean texts", test_texts_are_clean},
        {"finite numbers", test_numbers_are_finite}, {"choice or quantity", test_choice_or_quantity},
        {"long list", test_lists_are_bounded},       {"many faults", test_faults_are_bounded},
        {"long text", test_too_long_texts},
    };
    return RUN_SUITE("model/description check", cases);
}
