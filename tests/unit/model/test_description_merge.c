/* test_description_merge.c - variants put over a description, against the same description edited by hand. */
#include "resolve_samples.h"
#include "sillspan/memory.h"
#include "support/suite.h"
#include "unit/model/description_samples.h"

static ss_description read(const char *text) {
    ss_description d = {0};
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL_FATAL(ss_description_read_text("mill.cfg", text, strlen(text), &d, &diags, NULL), SS_OK);
    ss_diag_destroy(&diags);
    return d;
}

/* The sample with `variant` as the body of its only variant, which stands in one line behind the last. */
static ss_description read_with(const char *variant) {
    ss_text text = {0};
    ss_text_printf(&text, "%svariants = ( { name = \"other\"; %s } );\n", sample_text(), variant);
    ss_description d = read(text.data);
    ss_text_destroy(&text);
    return d;
}

static int last_line(void) {
    int line = 1;
    for (const char *at = sample_text(); *at != '\0'; at++) {
        line += *at == '\n';
    }
    return line;
}

static const ss_node *only(const ss_description *d) {
    const ss_node *const list = ss_description_variants(d);
    CU_ASSERT_PTR_NOT_NULL_FATAL(list);
    return list->first;
}

/* All that a tree holds but where it was written. */
static void dump(const ss_node *node, ss_text *out) {
    char number[40];
    ss_text_printf(out, "%s:%d:", node->name == NULL ? "-" : node->name, (int)node->kind);
    if (node->kind == SS_NODE_TEXT) {
        ss_text_add(out, node->text);
    } else if (node->kind == SS_NODE_INTEGER || node->kind == SS_NODE_REAL) {
        ss_text_add(out, ss_text_significant(number, sizeof number, node->number, 15));
    } else if (node->kind == SS_NODE_FLAG) {
        ss_text_add(out, node->flag ? "true" : "false");
    }
    int count = 0;
    ss_text_add(out, "(");
    for (const ss_node *child = node->first; child != NULL; child = child->next, count++) {
        CU_ASSERT_PTR_EQUAL(child->parent, node);
        dump(child, out);
    }
    CU_ASSERT_EQUAL(count, node->count);
    CU_ASSERT_TRUE(node->last == NULL || node->last->next == NULL);
    ss_text_add(out, ")\n");
}

static bool same_trees(const ss_description *a, const ss_description *b) {
    ss_text one = {0};
    ss_text other = {0};
    dump(a->root, &one);
    dump(b->root, &other);
    const bool same = !one.failed && !other.failed && strcmp(one.data, other.data) == 0;
    if (!same) {
        printf("\n%s\n---\n%s\n", one.data, other.data);
    }
    ss_text_destroy(&one);
    ss_text_destroy(&other);
    return same;
}

static void test_merged_is_what_one_would_have_written(void) {
    static const struct {
        const char *variant, *from, *to;
    } rows[] = {
        /* a value, a value that was not given, a group that was not there */
        {"title = \"Other\";", "title = \"Mill Race Road, Bellweather Township\";", "title = \"Other\";"},
        {"rating = { system = 0.85; approach = \"smooth\"; };",
         "system = 0.9; adtt = 40;\n  trucks = "
         "[ \"milk hauler\", \"HS20\" ];",
         "system = 0.85; adtt = 40;\n  trucks = [ \"milk hauler\", \"HS20\" ]; approach = \"smooth\";"},
        {"analysis = { station_spacing = \"2 ft\"; };",
         "adtt = 40;\n  trucks = [ \"milk hauler\", "
         "\"HS20\" ];\n};",
         "adtt = 40;\n  trucks = [ \"milk hauler\", \"HS20\" ];\n};\nanalysis = { station_spacing = \"2 "
         "ft\"; "
         "};"},
        /* an item by its name, in a list within an item */
        {"cars = ( { name = \"flat 40\"; lines = ( { name = \"spine\"; y = \"1 in\"; } ); } );",
         "{ name = \"spine\"; role = \"main girder\"; y = \"0 ft\";",
         "{ name = \"spine\"; role = \"main girder\"; y = \"1 in\";"},
        /* an item more */
        {"decks = ( { name = \"sheet\"; weight = \"14 psf\"; }, { name = \"bare\"; kind = \"steel plate\"; "
         "spans = \"along\"; weight = \"9 psf\"; } );",
         "weight = \"12.5 psf\"; spans = \"along\"; }",
         "weight = \"14 psf\"; spans = \"along\"; }, { name = \"bare\"; kind = \"steel plate\"; spans = "
         "\"along\"; weight = \"9 psf\"; }"},
        /* a list of names, and one of groups without names, are replaced */
        {"rating = { trucks = [ \"EV2\" ]; };", "[ \"milk hauler\", \"HS20\" ]", "[ \"EV2\" ]"},
        {"cars = ( { name = \"flat 60\"; floor_beams = ( { name = \"bearers\"; across = ( { from = \"-3 "
         "ft\"; "
         "to = \"0 ft\"; section = \"edge\"; } ); } ); } );",
         "{ from = \"-4 ft\"; to = \"-1 ft\"; section = \"known\"; }",
         "{ from = \"-3 ft\"; to = \"0 ft\"; section = \"edge\"; }"},
        /* a set put aside, and one taken into use */
        {"bridge = { bearings = ( { name = \"spare\"; in_use = true; } ); };",
         "placed = \"after dead load\"; in_use = false;", "placed = \"after dead load\"; in_use = true;"},
        {"", "", ""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ss_description base = read_with(rows[i].variant);
        char *const text = sample_changed(rows[i].from, rows[i].to);
        ss_description expected = read(text);
        ss_description merged = {0};
        ss_diag_list diags = {0};
        CU_ASSERT_EQUAL(ss_description_check(&base, &diags), SS_OK);
        CU_ASSERT_EQUAL_FATAL(ss_description_merge(&base, only(&base), &merged, &diags), SS_OK);
        CHECK_ROW(same_trees(&merged, &expected), rows[i].variant);
        CU_ASSERT_EQUAL(diags.faults, 0);
        CU_ASSERT_EQUAL(merged.digest, base.digest);
        CU_ASSERT_PTR_NOT_NULL(ss_description_variants(&base));
        CU_ASSERT_PTR_NULL(ss_description_variants(&merged));
        ss_description_destroy(&merged);
        ss_description_destroy(&expected);
        ss_description_destroy(&base);
        ss_diag_destroy(&diags);
        free(text);
    }
}

/* Counts what is left of everything that can be put aside. */
static void test_what_is_put_aside_is_not_there(void) {
    ss_description base = read_with(
        "cars = ( { name = \"flat 60\"; lines = ( { name = \"stringers\"; in_use = false; } ); "
        "floor_beams = ( { name = \"bearers\"; in_use = false; } ); } ); "
        "cases = ( { name = \"load test\"; in_use = false; } ); runs = ( { name = \"along sill\"; in_use = "
        "false; } ); probes = ( { name = \"p2\"; in_use = false; }, { name = \"p5\"; in_use = false; } ); "
        "bridge = { joints = ( { name = \"bolts\"; in_use = false; } ); bearings = ( { name = \"trucks\"; "
        "in_use = false; } ); dead_loads = ( { name = \"soil\"; in_use = false; } ); surfacing = { in_use = "
        "false; }; rails = { in_use = false; }; };");
    ss_description merged = {0};
    ss_diag_list diags = {0};
    ss_bridge whole = {0};
    ss_bridge b = {0};
    CU_ASSERT_EQUAL_FATAL(ss_description_vary(&base, only(&base), &merged, &diags), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&base, &whole, &diags), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&merged, &b, &diags), SS_OK);
    CU_ASSERT_EQUAL(whole.line_count, 7 + 1 + 7);
    CU_ASSERT_EQUAL(b.line_count, 3 + 1 + 3);
    CU_ASSERT_EQUAL(whole.floor_beam_count, 10);
    CU_ASSERT_EQUAL(b.floor_beam_count, 4);
    CU_ASSERT_EQUAL(whole.joint_count, 2);
    CU_ASSERT_EQUAL(b.joint_count, 1);
    CU_ASSERT_EQUAL(whole.bearing_count - b.bearing_count, 4);
    CU_ASSERT_EQUAL(whole.dead_load_count, 10);
    CU_ASSERT_EQUAL(b.dead_load_count, 10 - 1 - 1 - 2);
    CU_ASSERT_EQUAL(b.case_count, 0);
    CU_ASSERT_EQUAL(b.run_count, 0);
    CU_ASSERT_EQUAL(whole.probe_count - b.probe_count, 2);
    ss_bridge_destroy(&whole);
    ss_bridge_destroy(&b);
    ss_description_destroy(&merged);
    ss_description_destroy(&base);
    ss_diag_destroy(&diags);
}

static void test_cars_can_be_put_aside(void) {
    ss_description base =
        read_with("bridge = { cars = ( { name = \"south\"; in_use = false; } ); joints = ( "
                  "{ name = \"bolts\"; in_use = false; } ); bearings = ( { name = "
                  "\"trucks\"; cars = [ \"north\" ]; } ); roadway = { to = \"17 ft\"; }; "
                  "rails = { y = \"0.5, 18 ft\"; }; }; "
                  "probes = ( { name = \"p1\"; in_use = false; }, { name = \"p4\"; in_use = "
                  "false; }, { name = \"p5\"; in_use = false; } );");
    ss_description merged = {0};
    ss_diag_list diags = {0};
    ss_bridge b = {0};
    CU_ASSERT_EQUAL_FATAL(ss_description_vary(&base, only(&base), &merged, &diags), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&merged, &b, &diags), SS_OK);
    CU_ASSERT_EQUAL(b.car_count, 2);
    ss_bridge_destroy(&b);
    ss_description_destroy(&merged);
    ss_description_destroy(&base);
    ss_diag_destroy(&diags);
}

/* ---- faults --------------------------------------------------------------------------------------- */

static void test_faults_of_spelling(void) {
    static const struct {
        const char *variant, *said;
    } rows[] = {
        {"brigde = { };", "variants.other.brigde: unknown key; did you mean bridge?"},
        {"nam = 3;", "variants.other.nam: unknown key; did you mean name?"},
        {"variants = ( );", "variants.other.variants: a variant cannot have variants of its own"},
        {"bridge = { bearings = ( { name = \"ends\"; gab = \"0 in\"; } ); };",
         "variants.other.bridge.bearings.ends.gab: unknown key; did you mean gap?"},
        {"bridge = { bearings = ( { name = \"ends\"; gap = \"3 kip\"; } ); };",
         "variants.other.bridge.bearings.ends.gap: 3 kip is a force; a length is due, such as 5-1/2 in"},
        {"bridge = { bearings = ( { gap = \"0 in\"; } ); };",
         "variants.other.bridge.bearings.1.name: not given; a name in quotes is due"},
        {"bridge = { cars = ( { name = \"south\"; lines = ( { section = \"known\"; } ); } ); };",
         "variants.other.bridge.cars.south.lines.1.name: not given; one text is due, a line of the car type"},
        {"rating = 3;", "variants.other.rating: found 3; a group is due, { key = value; ... }"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ss_description base = read_with(rows[i].variant);
        ss_diag_list diags = {0};
        CU_ASSERT_EQUAL(ss_description_check(&base, &diags), SS_ERROR_DESCRIPTION);
        CHECK_ROW(was_said(&diags, SS_FAULT, last_line(), rows[i].said), rows[i].variant);
        CU_ASSERT_EQUAL(diags.count, 1);
        ss_description_destroy(&base);
        ss_diag_destroy(&diags);
    }
}

static void test_faults_of_names(void) {
    static const struct {
        const char *variant, *said;
    } rows[] = {
        {"bridge = { bearings = ( { name = \"truck\"; in_use = false; } ); };",
         "variants.other.bridge.bearings.truck: no item that is described is called \"truck\"; did you mean "
         "\"trucks\"?"},
        {"bridge = { bearings = ( { name = \"end\"; gap = \"0 in\"; } ); };",
         "variants.other.bridge.bearings.end: no item that is described is called \"end\", so that it is "
         "added, which needs under; did you mean \"ends\"?"},
        {"findings = ( { name = \"rust\"; in_use = false; } );",
         "variants.other.findings.rust: no item that is described is called \"rust\"; the list there is "
         "empty"},
        {"runs = ( { name = \"middle\"; y = \"9 ft\"; } );",
         "variants.other.runs.middle: no item that is described is called \"middle\", so that it is added, "
         "which needs truck; the list there has \"along sill\""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ss_description base = read_with(rows[i].variant);
        ss_description merged = {0};
        ss_diag_list diags = {0};
        CU_ASSERT_EQUAL(ss_description_check(&base, &diags), SS_OK);
        CU_ASSERT_EQUAL(ss_description_vary(&base, only(&base), &merged, &diags), SS_ERROR_DESCRIPTION);
        CHECK_ROW(was_said(&diags, SS_FAULT, last_line(), rows[i].said), rows[i].variant);
        CU_ASSERT_EQUAL(diags.count, 1);
        CU_ASSERT_PTR_NULL(merged.root);
        ss_description_destroy(&base);
        ss_diag_destroy(&diags);
    }
}

/* What is wrong only once it is merged is said with the variant's path where the variant has it. */
static void test_faults_of_the_merged_bridge_are_located(void) {
    ss_description base = read_with("bridge = { bearings = ( { name = \"spare\"; in_use = true; gap = \"1 "
                                    "in\"; }, { name = \"new\"; under = [ \"sill\" ]; } ); joints = ( { name "
                                    "= \"seam\"; to = \"90 ft\"; } ); };");
    ss_description merged = {0};
    ss_diag_list diags = {0};
    ss_diag_list said = {0};
    ss_bridge b = {0};
    CU_ASSERT_EQUAL_FATAL(ss_description_vary(&base, only(&base), &merged, &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_bridge_resolve(&merged, &b, &said), SS_ERROR_DESCRIPTION);
    CU_ASSERT_EQUAL(ss_description_locate(only(&base), &said, &diags), SS_OK);
    CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, last_line(),
                            "variants.other.bridge.bearings.spare.gap: a bearing placed after the dead load "
                            "touches; leave out the gap or \"placed\""));
    CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, last_line(),
                            "variants.other.bridge.bearings.new: it is not said where the bearings stand; "
                            "give a named place in \"at\", or stations in \"x\""));
    CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, last_line(),
                            "variants.other.bridge.joints.seam.to: 90 ft lies outside what the two cars have "
                            "in common, 11 ft to 51 ft"));
    ss_description_destroy(&merged);
    ss_description_destroy(&base);
    ss_diag_destroy(&said);
    ss_diag_destroy(&diags);
}

static void test_a_required_list_keeps_one_item(void) {
    char *const text = sample_changed("{ name = \"spine\"; role", "{ name = \"spine\"; in_use = false; role");
    ss_description d = read(text);
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_ERROR_DESCRIPTION);
    CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, 33,
                            "cars.flat 40.lines: no item of this list is in use; one at least is due"));
    ss_bridge b = {0};
    ss_diag_list more = {0};
    CU_ASSERT_EQUAL(ss_bridge_resolve(&d, &b, &more), SS_ERROR_DESCRIPTION);
    ss_diag_destroy(&more);
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
    free(text);
}

static void test_variants_are_bounded(void) {
    for (int extra = 0; extra < 2; extra++) {
        ss_text words = {0};
        ss_diag_list diags = {0};
        ss_text_printf(&words, "%svariants = (\n", sample_text());
        for (int i = 0; i < SS_DESCRIPTION_VARIANTS + extra; i++) {
            ss_text_printf(&words, "%s{ name = \"v%d\"; }", i == 0 ? "" : ", ", i);
        }
        ss_text_add(&words, ");\n");
        ss_description d = read(words.data);
        CU_ASSERT_EQUAL(ss_description_check(&d, &diags), extra == 0 ? SS_OK : SS_ERROR_DESCRIPTION);
        CU_ASSERT_TRUE(extra == 0 || was_said(&diags, SS_FAULT, last_line(),
                                              "variants: found 101 variants; at most 100 are allowed"));
        ss_description_destroy(&d);
        ss_diag_destroy(&diags);
        ss_text_destroy(&words);
    }
}

/* A variant is not read by those who resolve the description itself. */
static void test_variants_do_not_touch_the_bridge(void) {
    ss_description base = read_with("title = \"Other\"; bridge = { self_weight = false; };");
    ss_description plain = read(sample_text());
    ss_bridge a = {0};
    ss_bridge b = {0};
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL(ss_description_check(&base, &diags), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&base, &a, &diags), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&plain, &b, &diags), SS_OK);
    CU_ASSERT_STRING_EQUAL(a.title, b.title);
    CU_ASSERT_TRUE(a.self_weight);
    CU_ASSERT_EQUAL(a.assumptions.count, b.assumptions.count);
    CU_ASSERT_PTR_NULL(ss_description_variants(&plain));
    ss_bridge_destroy(&a);
    ss_bridge_destroy(&b);
    ss_description_destroy(&base);
    ss_description_destroy(&plain);
    ss_diag_destroy(&diags);
}

/* Values of a variant can be set by their path, too. */
static void test_values_are_set_by_path(void) {
    ss_description base = read_with("bridge = { bearings = ( { name = \"ends\"; gap = \"0 in\"; } ); };");
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL(ss_description_set(&base, "variants.other.bridge.bearings.ends.gap", "1/2 in", &diags),
                    SS_OK);
    CU_ASSERT_EQUAL(ss_description_set(&base, "variants.othr.title", "x", &diags), SS_ERROR_DESCRIPTION);
    CU_ASSERT_TRUE(was_said(&diags, SS_FAULT, 0,
                            "variants.othr.title: no item is called \"othr\"; did you mean \"other\"?"));
    ss_description merged = {0};
    CU_ASSERT_EQUAL_FATAL(ss_description_merge(&base, only(&base), &merged, &(ss_diag_list){0}), SS_OK);
    const ss_node *const bearings = ss_node_child(ss_node_child(merged.root, "bridge"), "bearings");
    CU_ASSERT_STRING_EQUAL(ss_node_child(ss_node_named(bearings, "ends"), "gap")->text, "1/2 in");
    ss_description_destroy(&merged);
    ss_description_destroy(&base);
    ss_diag_destroy(&diags);
}

/* ---- memory --------------------------------------------------------------------------------------- */

static void fail_each(const char *variant, ss_status expected) {
    ss_description base = read_with(variant);
    const long live = ss_memory_live();
    long n = 0;
    for (; n < 20000; n++) {
        ss_description merged = {0};
        ss_diag_list diags = {0};
        ss_memory_fail_from(n);
        const ss_status status = ss_description_vary(&base, only(&base), &merged, &diags);
        ss_memory_fail_from(-1);
        ss_diag_destroy(&diags);
        if (status != SS_ERROR_MEMORY) {
            CU_ASSERT_EQUAL(status, expected);
            ss_description_destroy(&merged);
            break;
        }
        if (merged.root != NULL || ss_memory_live() != live) {
            CU_FAIL("something was left behind");
            break;
        }
    }
    CU_ASSERT(n > 5 && n < 20000);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
    ss_description_destroy(&base);
}

static void test_each_allocation_fails(void) {
    fail_each("bridge = { bearings = ( { name = \"ends\"; gap = \"1/2 in\"; }, { name = \"more\"; at = "
              "\"ends\"; under = [ \"edges 1\" ]; } ); }; findings = ( );",
              SS_OK);
    fail_each("bridge = { bearings = ( { name = \"end\"; gap = \"1/2 in\"; } ); };", SS_ERROR_DESCRIPTION);
    fail_each("bridge = { surfacing = { in_use = false; }; bearings = ( { name = \"ends\"; gap = \"50 in\"; "
              "} ); };",
              SS_OK);
}

int main(void) {
    static const test_case cases[] = {
        {"merged is what one would have written", test_merged_is_what_one_would_have_written},
        {"put aside", test_what_is_put_aside_is_not_there},
        {"cars put aside", test_cars_can_be_put_aside},
        {"faults of spelling", test_faults_of_spelling},
        {"faults of names", test_faults_of_names},
        {"faults of the merged bridge", test_faults_of_the_merged_bridge_are_located},
        {"a required list keeps one item", test_a_required_list_keeps_one_item},
        {"variants are bounded", test_variants_are_bounded},
        {"variants do not touch the bridge", test_variants_do_not_touch_the_bridge},
        {"set by path", test_values_are_set_by_path},
        {"each allocation fails", test_each_allocation_fails},
    };
    return RUN_SUITE("model/description merge", cases);
}
