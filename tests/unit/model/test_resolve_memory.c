/* test_resolve_memory.c - resolving with every allocation failing in turn, and descriptions that were never
 * checked. */
#include "resolve_rows.h"

static bool read_sample(const char *text, ss_description *description, ss_diag_list *diags) {
    return ss_description_read_text("mill.cfg", text, strlen(text), description, diags, NULL) == SS_OK;
}

static void fail_each(const char *text, ss_status expected) {
    const long live = ss_memory_live();
    ss_description description;
    memset(&description, 0, sizeof description);
    ss_diag_list read = {0};
    CU_ASSERT_FATAL(read_sample(text, &description, &read));
    long n = 0;
    for (; n < 20000; n++) {
        const long before = ss_memory_live();
        ss_bridge bridge;
        memset(&bridge, 0, sizeof bridge);
        ss_diag_list diags = {0};
        ss_memory_fail_from(n);
        const ss_status status = ss_bridge_resolve(&description, &bridge, &diags);
        ss_memory_fail_from(-1);
        ss_diag_destroy(&diags);
        if (status != SS_ERROR_MEMORY) {
            CU_ASSERT_EQUAL(status, expected);
            if (status == SS_OK) {
                ss_bridge_destroy(&bridge);
            }
            break;
        }
        if (bridge.cars != NULL || ss_memory_live() != before) {
            CU_FAIL("something was left behind");
            break;
        }
    }
    CU_ASSERT(n > 30 && n < 20000);
    ss_description_destroy(&description);
    ss_diag_destroy(&read);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

static void test_each_allocation_fails(void) {
    fail_each(sample_text(), SS_OK);
}

static void test_each_allocation_fails_with_details(void) {
    char *const text = sample_changed(
        "rating = {",
        "fatigue = { years = 9; details = ( { name = \"d\"; note = \"seen\"; category = \"E\"; car = "
        "\"north\"; line = \"sill\"; x = \"30 ft\"; }, { name = \"w\"; category = \"E\"; joint = "
        "\"seam\"; x = \"20 ft\"; throat = \"1/4 in\"; } ); };\nrating = {");
    fail_each(text, SS_OK);
    free(text);
}

static void test_each_allocation_fails_with_unknowns(void) {
    char *const text = sample_changed(
        "rating = {",
        "unknowns = ( { name = \"a\"; paths = [ \"steels.car steel.fy\", \"steels.plate.fy\" ]; distribution "
        "= "
        "\"normal\"; mean = \"42 ksi\"; cov = 0.1; }, { name = \"b\"; path = \"sections.sill.torsion\"; "
        "distribution = \"discrete\"; values = \"closed, open\"; } );\n"
        "correlations = ( { between = [ \"a\", \"b\" ]; rho = 0.4; } );\nrating = {");
    fail_each(text, SS_OK);
    free(text);
}

static void test_each_allocation_fails_with_joint_parts(void) {
    char *const text = sample_changed(
        "kind = \"springs\"; shear = \"0.3 kip/in/in\"; from = \"13 ft\"; shear_capacity = \"4 kip/ft\";",
        "kind = \"plate\"; scale = 0.3; plate = { thickness = \"3/8 in\"; reach = \"6 in\"; steel = "
        "\"plate\"; weld = \"1/4 in\"; };");
    fail_each(text, SS_OK);
    free(text);
}

static void test_each_allocation_fails_with_faults(void) {
    char *const text =
        sample_changed("under = [ \"sill\", \"edges 2\" ]", "under = [ \"sill\", \"edges 3\" ]");
    fail_each(text, SS_ERROR_DESCRIPTION);
    free(text);
}

/* What the check would have said is said all the same, once. */
static void test_unchecked_descriptions(void) {
    static const struct {
        const char *from, *to, *said;
    } row[] = {
        {"length = \"60 ft\"; ", "",
         "16: cars.flat 60.length: not given; a length is due, such as \"7 ft 6 in\""},
        {"length = \"60 ft\"", "length = 60",
         "16: cars.flat 60.length: 60 has no unit; a length is due, such as \"7 ft 6 in\""},
        {"roadway = { from = \"2 ft\"; to = \"26 ft\"; };", "",
         "38: bridge.roadway: not given; a group is due, { key = value; ... }"},
        {"kind = \"hinged\"", "kind = \"hinge\"",
         "47: bridge.joints.bolts.kind: found \"hinge\"; one of \"none\", \"hinged\", \"rigid\", "
         "\"springs\", "
         "\"plate\", \"bolts\", \"concrete\", \"planks\" is due; did you mean \"hinged\"?"},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        char *const text = sample_changed(row[i].from, row[i].to);
        ss_description description;
        memset(&description, 0, sizeof description);
        ss_diag_list diags = {0};
        ss_bridge bridge;
        memset(&bridge, 0, sizeof bridge);
        CU_ASSERT_FATAL(read_sample(text, &description, &diags));
        CU_ASSERT_EQUAL(ss_bridge_resolve(&description, &bridge, &diags), SS_ERROR_DESCRIPTION);
        ss_diag_sort(&diags);
        ss_text said = sample_remarks(&diags, SS_FAULT);
        if (strcmp(said.data, row[i].said) != 0) {
            fprintf(stderr, "was said: %s\nis due:   %s\n", said.data, row[i].said);
        }
        CU_ASSERT_STRING_EQUAL(said.data, row[i].said);
        ss_text_destroy(&said);
        ss_description_destroy(&description);
        ss_diag_destroy(&diags);
        free(text);
    }
}

static void test_empty_description(void) {
    ss_description description;
    memset(&description, 0, sizeof description);
    ss_diag_list diags = {0};
    ss_bridge bridge;
    memset(&bridge, 0, sizeof bridge);
    CU_ASSERT_EQUAL(ss_bridge_resolve(&description, &bridge, &diags), SS_ERROR_INTERNAL);
    CU_ASSERT_EQUAL_FATAL(ss_description_init(&description), SS_OK);
    CU_ASSERT_EQUAL(ss_bridge_resolve(&description, &bridge, &diags), SS_ERROR_DESCRIPTION);
    CU_ASSERT_EQUAL(diags.faults, 5);
    ss_description_destroy(&description);
    ss_diag_destroy(&diags);
}

int main(void) {
    const test_case cases[] = {
        {"each allocation fails", test_each_allocation_fails},
        {"each allocation fails, with details", test_each_allocation_fails_with_details},
        {"each allocation fails, with unknowns", test_each_allocation_fails_with_unknowns},
        {"each allocation fails, with joint parts", test_each_allocation_fails_with_joint_parts},
        {"each allocation fails, with faults", test_each_allocation_fails_with_faults},
        {"unchecked descriptions", test_unchecked_descriptions},
        {"empty description", test_empty_description}};
    return RUN_SUITE("resolve memory", cases);
}
