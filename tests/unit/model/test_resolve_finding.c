/* test_resolve_finding.c - what findings make of the sample bridge. */
#include <math.h>

#include "resolve_rows.h"

static ss_bridge with(const char *findings) {
    ss_bridge bridge;
    ss_diag_list diags = {0};
    ss_text text = {0};
    memset(&bridge, 0, sizeof bridge);
    /* Loads and probes on what goes missing would be faults of their own. */
    const char *const loads = strstr(sample_text(), "cases = (");
    const char *const rating = strstr(sample_text(), "rating = {");
    CU_ASSERT_FATAL(loads != NULL && rating != NULL);
    ss_text_add_bytes(&text, sample_text(), (size_t)(loads - sample_text()));
    ss_text_printf(&text, "%s\nfindings = ( %s );\n", rating, findings);
    const ss_status status = sample_resolve(text.data, &bridge, &diags);
    ss_text faults = sample_remarks(&diags, SS_FAULT);
    if (status != SS_OK) {
        fprintf(stderr, "%s\n", faults.data);
    }
    ss_text_destroy(&faults);
    ss_text_destroy(&text);
    ss_diag_destroy(&diags);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    return bridge;
}

static int find_line(const ss_bridge *b, int car, const char *name) {
    for (int i = 0; i < b->cars[car].line_count; i++) {
        if (strcmp(b->lines[b->cars[car].first_line + i].name, name) == 0) {
            return b->cars[car].first_line + i;
        }
    }
    return -1;
}

static ss_section_properties line_at(const ss_bridge *b, int line, double x_ft, bool before) {
    ss_section_properties p;
    memset(&p, 0, sizeof p);
    CU_ASSERT_EQUAL(ss_bridge_line_section(b, line, x_ft * FOOT, before, &p), SS_OK);
    return p;
}

/* Over the stretch alone, on a taper too; outside it nothing changes. */
static void test_thinned_stretch(void) {
    ss_bridge sound = with("");
    ss_bridge found =
        with("{ name = \"pitting\"; seen = \"thinned\"; car = \"north\"; line = \"sill\"; part = "
             "\"bottom\"; from = \"16 ft\"; to = \"23 ft\"; thickness_left = \"3/8 in\"; }");
    const int a = find_line(&sound, 0, "sill"), b = find_line(&found, 0, "sill");
    for (double x = 1.0; x < 60.0; x += 1.7) {
        const ss_section_properties p = line_at(&sound, a, x, false), q = line_at(&found, b, x, false);
        if (x > 16.0 && x < 23.0) {
            CU_ASSERT(q.S_bottom < 0.8 * p.S_bottom && q.I < p.I && q.depth > 0.0);
        } else {
            CHECK_CLOSE(q.S_bottom, p.S_bottom, 1e-15);
            CHECK_CLOSE(q.I, p.I, 1e-15);
        }
    }
    CHECK_CLOSE(line_at(&found, b, 16.0, true).I, line_at(&sound, a, 16.0, true).I, 1e-12);
    CU_ASSERT(line_at(&found, b, 16.0, false).I < 0.9 * line_at(&sound, a, 16.0, false).I);
    CU_ASSERT_EQUAL(found.finding_count, 1);
    CU_ASSERT_STRING_EQUAL(found.findings[0].where, "sill of car north, 16 ft to 23 ft");
    CU_ASSERT_STRING_EQUAL(found.findings[0].effect, "bottom 0.375 in thick");
    CU_ASSERT_EQUAL(found.findings[0].y0, found.lines[find_line(&found, 0, "sill")].y);
    CU_ASSERT_EQUAL(found.findings[0].y1, found.findings[0].y0);
    ss_bridge_destroy(&sound);
    ss_bridge_destroy(&found);
}

/* Two findings on one stretch add up: the second starts from what the first left. */
static void test_findings_add_up(void) {
    ss_bridge one =
        with("{ name = \"a\"; seen = \"thinned\"; car = \"north\"; line = \"sill\"; part = \"bottom\"; "
             "loss = 0.4; }");
    ss_bridge both =
        with("{ name = \"a\"; seen = \"thinned\"; car = \"north\"; line = \"sill\"; part = \"bottom\"; "
             "loss = 0.4; }, { name = \"b\"; seen = \"section loss\"; car = \"north\"; line = \"sill\"; "
             "from = \"30 ft\"; loss = 0.25; }, { name = \"c\"; seen = \"bent\"; car = \"north\"; line "
             "= \"sill\"; from = \"30 ft\"; to = \"40 ft\"; strength_left = 0.6; stiffness_left = 0.9; "
             "}");
    const ss_section_properties p = line_at(&one, find_line(&one, 0, "sill"), 35.0, false);
    const ss_section_properties q = line_at(&both, find_line(&both, 0, "sill"), 35.0, false);
    CHECK_CLOSE(q.I, 0.75 * 0.9 * p.I, 1e-12);
    CHECK_CLOSE(q.S_top, 0.75 * p.S_top, 1e-12);
    CHECK_CLOSE(q.strength_loss, 0.4, 1e-12);
    CU_ASSERT_EQUAL(line_at(&both, find_line(&both, 0, "sill"), 45.0, false).strength_loss, 0.0);
    ss_bridge_destroy(&one);
    ss_bridge_destroy(&both);
}

/* A stringer that is missing over a length leaves two parts; what lies elsewhere keeps its number. */
static void test_missing_stretch(void) {
    ss_bridge b =
        with("{ name = \"gone\"; seen = \"missing\"; car = \"north\"; line = \"stringers 3\"; from = \"7 "
             "ft\"; to = \"30 ft\"; }");
    const int near = find_line(&b, 0, "stringers 3, near part"),
              far = find_line(&b, 0, "stringers 3, far part");
    CU_ASSERT_FATAL(near >= 0 && far == near + 1);
    CU_ASSERT_DOUBLE_EQUAL(b.lines[near].x0 / FOOT, 2.0, 1e-9);
    CU_ASSERT_DOUBLE_EQUAL(b.lines[near].x1 / FOOT, 7.0, 1e-9);
    CU_ASSERT_DOUBLE_EQUAL(b.lines[far].x0 / FOOT, 30.0, 1e-9);
    CU_ASSERT_DOUBLE_EQUAL(b.lines[far].x1 / FOOT, 57.0, 1e-9);
    CU_ASSERT_EQUAL(b.cars[0].line_count, 8);
    CU_ASSERT_EQUAL(b.cars[1].first_line, 8);
    for (int i = 0; i < b.line_count; i++) {
        const ss_line *const line = &b.lines[i];
        CU_ASSERT_DOUBLE_EQUAL(b.pieces[line->first_piece].x0, line->x0, 1e-9);
        CU_ASSERT_DOUBLE_EQUAL(b.pieces[line->first_piece + line->piece_count - 1].x1, line->x1, 1e-9);
    }
    ss_bridge_destroy(&b);
}

/* One wholly missing, a floor beam missing, and one whose end passes no bending. */
static void test_missing_members(void) {
    ss_bridge sound = with("");
    ss_bridge b =
        with("{ name = \"a\"; seen = \"missing\"; car = \"north\"; line = \"stringers 2\"; }, { name = "
             "\"b\"; seen = \"cracked\"; car = \"north\"; floor_beam = \"bearers 2\"; consequence = "
             "\"member out\"; }, { name = \"c\"; seen = \"cracked\"; car = \"north\"; floor_beam = "
             "\"bearers 3\"; line = \"edges 2\"; consequence = \"hinge\"; }");
    CU_ASSERT_EQUAL(b.line_count, sound.line_count - 1);
    CU_ASSERT_EQUAL(find_line(&b, 0, "stringers 2"), -1);
    CU_ASSERT_EQUAL(b.floor_beam_count, sound.floor_beam_count - 1);
    CU_ASSERT_EQUAL(b.cars[0].beam_count, sound.cars[0].beam_count - 1);
    const ss_floor_beam *beam = NULL;
    for (int i = 0; i < b.cars[0].beam_count; i++) {
        beam = strcmp(b.floor_beams[b.cars[0].first_beam + i].name, "bearers 3") == 0
                   ? &b.floor_beams[b.cars[0].first_beam + i]
                   : beam;
    }
    CU_ASSERT_PTR_NOT_NULL_FATAL(beam);
    CU_ASSERT_EQUAL(beam->hinge_count, 3);
    CU_ASSERT_STRING_EQUAL(b.lines[b.hinges[beam->first_hinge + 2]].name, "edges 2");
    ss_bridge_destroy(&sound);
    ss_bridge_destroy(&b);
}

static void test_cracked_line(void) {
    ss_bridge b =
        with("{ name = \"a\"; seen = \"cracked\"; car = \"north\"; line = \"edges 1\"; x = \"22 ft\"; "
             "consequence = \"hinge\"; }, { name = \"b\"; seen = \"cracked\"; car = \"south\"; line = "
             "\"stringers 1\"; x = \"31 ft\"; consequence = \"hinge\"; }");
    const ss_line *const one = &b.lines[find_line(&b, 0, "edges 1")];
    const ss_line *const two = &b.lines[find_line(&b, 2, "stringers 1")];
    CU_ASSERT_EQUAL(b.crack_count, 2);
    CU_ASSERT_EQUAL(one->crack_count, 1);
    CU_ASSERT_DOUBLE_EQUAL(b.cracks[one->first_crack] / FOOT, 22.0, 1e-9);
    CU_ASSERT_EQUAL(two->crack_count, 1);
    CU_ASSERT_DOUBLE_EQUAL(b.cracks[two->first_crack] / FOOT, 31.0, 1e-9);
    ss_bridge_destroy(&b);
}

static void test_joints(void) {
    ss_bridge b = with(
        "{ name = \"a\"; seen = \"loose\"; joint = \"seam\"; from = \"20 ft\"; to = \"25 ft\"; }, { name "
        "= \"b\"; seen = \"cracked\"; joint = \"seam\"; from = \"40 ft\"; }, { name = \"c\"; seen = "
        "\"loose\"; joint = \"bolts\"; from = \"28 ft\"; to = \"30 ft\"; }");
    CU_ASSERT_EQUAL(b.joints[0].loose_count, 2);
    CU_ASSERT_DOUBLE_EQUAL(b.loose[b.joints[0].first_loose].x1 / FOOT, 25.0, 1e-9);
    CU_ASSERT_DOUBLE_EQUAL(b.loose[b.joints[0].first_loose + 1].x1 / FOOT, 51.0, 1e-9);
    CU_ASSERT_EQUAL(b.joints[1].connector_count, 2);
    CU_ASSERT_DOUBLE_EQUAL(b.connectors[b.joints[1].first_connector + 1] / FOOT, 41.0, 1e-9);
    CU_ASSERT_EQUAL(b.findings[0].y0, b.joints[0].y);
    CU_ASSERT_EQUAL(b.findings[2].y1, b.joints[1].y);
    ss_bridge_destroy(&b);
    b = with("{ name = \"a\"; seen = \"missing\"; joint = \"seam\"; }");
    CU_ASSERT_EQUAL(b.joints[0].kind, SS_JOINT_NONE);
    ss_bridge_destroy(&b);
}

static const ss_bearing *bearing_at(const ss_bridge *b, const char *set, int car, double x_ft) {
    for (int i = 0; i < b->bearing_count; i++) {
        const ss_bearing *const p = &b->bearings[i];
        if (strcmp(p->name, set) == 0 && p->car == car && fabs(p->x - x_ft * FOOT) < 1e-6) {
            return p;
        }
    }
    return NULL;
}

static void test_bearings(void) {
    ss_bridge b = with(
        "{ name = \"a\"; seen = \"gap\"; bearing = \"trucks\"; car = \"north\"; x = \"7 ft\"; gap = \"1/2 "
        "in\"; }, { name = \"b\"; seen = \"settled\"; bearing = \"trucks\"; car = \"south\"; settlement "
        "= \"0.7 in\"; }, { name = \"c\"; seen = \"soft\"; bearing = \"blocks\"; spring = \"40 kip/in\"; "
        "}, { name = \"d\"; seen = \"missing\"; bearing = \"ends\"; car = \"north\"; line = \"edges 2\"; "
        "x = \"60 ft\"; }");
    CU_ASSERT_DOUBLE_EQUAL(bearing_at(&b, "trucks", 0, 7.0)->gap / INCH, 0.5, 1e-9);
    CU_ASSERT_EQUAL(bearing_at(&b, "trucks", 0, 52.0)->gap, 0.0);
    CU_ASSERT_DOUBLE_EQUAL(bearing_at(&b, "trucks", 2, 9.0)->settlement / INCH, 0.7, 1e-9);
    CU_ASSERT_DOUBLE_EQUAL(bearing_at(&b, "blocks", 1, 12.0)->spring, 40.0 * KIP / INCH, 1.0);
    ss_bridge sound = with("");
    CU_ASSERT_EQUAL(b.bearing_count, sound.bearing_count - 1);
    CU_ASSERT_STRING_EQUAL(b.findings[3].where, "bearing ends, one point at 60 ft");
    CU_ASSERT_EQUAL(b.findings[3].y0, sound.lines[find_line(&sound, 0, "edges 2")].y);
    CU_ASSERT_EQUAL(b.findings[3].y1, b.findings[3].y0);
    CU_ASSERT_EQUAL(b.findings[1].y0, sound.lines[find_line(&sound, 2, "sill")].y);
    ss_bridge_destroy(&sound);
    ss_bridge_destroy(&b);
}

static void test_deck(void) {
    ss_bridge sound = with("");
    ss_bridge b = with(
        "{ name = \"mud\"; seen = \"gravel\"; thickness = \"2 in\"; density = \"100 lb/ft3\"; from = \"3 "
        "ft\"; to = \"10 ft\"; }, { name = \"rot\"; seen = \"hole\"; from = \"20 ft\"; to = \"21 ft\"; y = "
        "\"4 ft\"; y_to = \"5 ft\"; }");
    CU_ASSERT_EQUAL(b.dead_load_count, sound.dead_load_count + 1);
    const ss_dead_load *const mud = &b.dead_loads[b.dead_load_count - 1];
    CU_ASSERT_EQUAL(mud->component, SS_COMPONENT_DW);
    CHECK_CLOSE(mud->w, 100.0 / 6.0 * KIP / 1e3 / (FOOT * FOOT), 1e-9);
    CU_ASSERT_DOUBLE_EQUAL(mud->x1 / FOOT, 10.0, 1e-9);
    CU_ASSERT_DOUBLE_EQUAL(mud->y0 / FOOT, 2.0, 1e-9);
    CU_ASSERT_EQUAL(b.findings[0].y0, mud->y0);
    CU_ASSERT_EQUAL(b.findings[0].y1, mud->y1);
    CU_ASSERT_DOUBLE_EQUAL(b.findings[1].y0 / FOOT, 4.0, 1e-9);
    ss_bridge_destroy(&sound);
    ss_bridge_destroy(&b);
}

/* One that is put aside leaves no trace. */
static void test_not_in_use(void) {
    ss_bridge b = with(
        "{ name = \"gone\"; seen = \"missing\"; car = \"north\"; line = \"stringers 3\"; in_use = false; "
        "}");
    CU_ASSERT_EQUAL(b.finding_count, 0);
    CU_ASSERT(find_line(&b, 0, "stringers 3") >= 0);
    ss_bridge_destroy(&b);
}

int main(void) {
    static const test_case cases[] = {
        {"a thinned stretch", test_thinned_stretch},
        {"findings add up", test_findings_add_up},
        {"a missing stretch", test_missing_stretch},
        {"missing members", test_missing_members},
        {"a cracked line", test_cracked_line},
        {"joints", test_joints},
        {"bearings", test_bearings},
        {"deck", test_deck},
        {"not in use", test_not_in_use},
    };
    return RUN_SUITE("findings", cases);
}
