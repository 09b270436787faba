/* test_resolve_joint.c - joints whose stiffness is estimated from their parts, in a description: values,
 * place, scale, assumptions, changing one measured value, faults and warnings. */
#include <math.h>

#include "resolve_rows.h"
#include "sillspan/joint_stiffness.h"

#define SEAM "kind = \"springs\"; shear = \"0.3 kip/in/in\"; from = \"13 ft\"; shear_capacity = \"4 kip/ft\";"
#define BOLTS "kind = \"hinged\"; connectors = \"41, 17, 29 ft\"; shear_capacity_each = \"9 kip\";"
#define PLATE                                                                                                \
    "plate = { thickness = \"3/8 in\"; reach = \"6 in\"; steel = \"plate\"; weld = \"1/4 in\"; faces = 2; "
#define IN_BOLTS "diameter = \"3/4 in\"; count = 3; arm = \"4 in\"; ply = \"1/2 in\"; "
#define IN_CONCRETE "depth = \"12 in\"; fc = \"4 ksi\"; rod = \"1 in\"; rod_spacing = \"24 in\"; "
#define IN_PLANKS "thickness = \"3-1/2 in\"; modulus = \"1400 ksi\"; reach = \"16 in\"; "

/* The sample's cell counts as closed, which is warned of in any case. */
#define TORSION                                                                                              \
    "5: sections.sill.torsion: the cell counts as closed, J = 2171 in4; the load share between cars "        \
    "hangs on it, and a cell that is open below or only battened shares less"

static ss_bridge resolve(const char *from, const char *to) {
    ss_bridge bridge;
    ss_diag_list diags = {0};
    memset(&bridge, 0, sizeof bridge);
    char *const text = sample_changed(from, to);
    const ss_status status = sample_resolve(text, &bridge, &diags);
    ss_text said = sample_remarks(&diags, SS_FAULT);
    if (status != SS_OK) {
        fprintf(stderr, "%s\n", said.data);
    }
    ss_text_destroy(&said);
    ss_diag_destroy(&diags);
    free(text);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    return bridge;
}

/* "value: why" of the assumption about that key; NULL when there is none. */
static const ss_assumption *assumed(const ss_bridge *b, const char *path) {
    for (int i = 0; i < b->assumptions.count; i++) {
        if (strcmp(b->assumptions.items[i].path, path) == 0) {
            return &b->assumptions.items[i];
        }
    }
    return NULL;
}

/* 3/8 in over 6 in: 12 x 29000 x 0.0043945 / 216 = 7.080 kip/in per in but for shear deformation. */
static void test_plate(void) {
    ss_bridge b = resolve(SEAM, "kind = \"plate\"; " PLATE "};");
    const ss_joint *const seam = &b.joints[0];
    const double f = 2.6 * 1.2 / 256.0;
    CU_ASSERT(seam->kind == SS_JOINT_SPRINGS && seam->estimated == SS_DETAIL_PLATE);
    CU_ASSERT_STRING_EQUAL(ss_joint_kind_name(seam), "plate");
    CHECK_CLOSE(seam->shear, 29000.0 * 0.052734375 / 216.0 / (1.0 + f) * KIP / INCH2, 1e-12);
    CHECK_CLOSE(seam->rotation, 29000.0 * 0.052734375 / 72.0 * KIP, 1e-12);
    CHECK_CLOSE(seam->y, 9.0 * FOOT + 6.0 * INCH, 1e-12);
    CU_ASSERT_EQUAL(seam->scale, 1.0);
    CU_ASSERT_STRING_EQUAL(ss_joint_kind_name(&b.joints[1]), "hinged");
    const ss_assumption *const shear = assumed(&b, "bridge.joints.seam.shear");
    CU_ASSERT_PTR_NOT_NULL_FATAL(shear);
    CU_ASSERT_STRING_EQUAL(shear->value, "6.995 kip/in per in");
    CU_ASSERT_STRING_EQUAL(shear->why,
                           "Estimated from parts (plate): welds and seats give too, real joints are softer.");
    CU_ASSERT_PTR_NOT_NULL(assumed(&b, "bridge.joints.seam.rotation"));
    CU_ASSERT_PTR_NOT_NULL(assumed(&b, "bridge.joints.seam.plate.left"));
    ss_bridge_destroy(&b);
}

/* The spring stands at the hinge, 3 in left or right of the middle of the gap. */
static void test_hinge(void) {
    ss_bridge b = resolve(SEAM, "kind = \"plate\"; " PLATE "right = \"hinged\"; };");
    CHECK_CLOSE(b.joints[0].y, 9.0 * FOOT + 9.0 * INCH, 1e-12);
    CU_ASSERT_EQUAL(b.joints[0].rotation, 0.0);
    ss_bridge_destroy(&b);
    b = resolve(SEAM, "kind = \"plate\"; " PLATE "left = \"hinged\"; };");
    CHECK_CLOSE(b.joints[0].y, 9.0 * FOOT + 3.0 * INCH, 1e-12);
    ss_bridge_destroy(&b);
}

static void test_scale(void) {
    ss_bridge b = resolve(SEAM, SEAM " rotation = \"2 kip-in/rad/in\"; scale = 0.25;");
    CHECK_CLOSE(b.joints[0].shear, 0.075 * KIP / INCH2, 1e-12);
    CHECK_CLOSE(b.joints[0].rotation, 0.5 * KIP, 1e-12);
    CU_ASSERT_EQUAL(b.joints[0].scale, 0.25);
    CU_ASSERT_PTR_NULL(assumed(&b, "bridge.joints.seam.shear"));
    ss_bridge_destroy(&b);
    b = resolve(SEAM, SEAM " scale = 0;");
    CU_ASSERT_EQUAL(b.joints[0].shear, 0.0);
    ss_bridge_destroy(&b);
    b = resolve(SEAM, "kind = \"plate\"; scale = 1e9; " PLATE "};");
    const ss_joint_stiffness estimate = ss_joint_estimate(&b.joints[0].detail, NULL);
    CHECK_CLOSE(b.joints[0].shear, 1e9 * estimate.shear, 1e-12);
    CHECK_CLOSE(b.joints[0].rotation, 1e9 * estimate.rotation, 1e-12);
    CU_ASSERT_PTR_NOT_NULL(strstr(assumed(&b, "bridge.joints.seam.shear")->why, "(plate, times scale 1e9)"));
    ss_bridge_destroy(&b);
}

/* Each kind comes to the estimate of its detail, and planks leave a stated capacity be. */
static void test_other_kinds(void) {
    static const struct {
        const char *from, *to;
        int joint;
        ss_joint_detail_kind kind;
    } rows[] = {{SEAM, "kind = \"plate\"; shear_capacity = \"4 kip/ft\"; " PLATE "};", 0, SS_DETAIL_PLATE},
                {BOLTS,
                 "kind = \"bolts\"; connectors = \"41, 17, 29 ft\"; bolts = { " IN_BOLTS
                 "slip = \"1/16 in\"; slip_force = \"5 kip\"; };",
                 1, SS_DETAIL_BOLTS},
                {SEAM,
                 "kind = \"concrete\"; concrete = { " IN_CONCRETE
                 "rod_depth = \"8 in\"; rod_length = \"18 in\"; width = \"4 in\"; contact = \"tight\"; };",
                 0, SS_DETAIL_BEAM},
                {SEAM,
                 "kind = \"planks\"; shear_capacity = \"4 kip/ft\"; planks = { " IN_PLANKS
                 "back = \"20 in\"; left = \"spiked\"; right = \"hinged\"; };",
                 0, SS_DETAIL_PLANKS}};
    for (int i = 0; i < ENTRIES(rows); i++) {
        ss_bridge b = resolve(rows[i].from, rows[i].to);
        const ss_joint *const joint = &b.joints[rows[i].joint];
        const ss_joint_stiffness k = ss_joint_estimate(&joint->detail, NULL);
        CU_ASSERT(joint->kind == SS_JOINT_SPRINGS && joint->estimated == rows[i].kind);
        CU_ASSERT(joint->shear == k.shear && joint->rotation == k.rotation && k.shear > 0.0);
        CU_ASSERT_STRING_EQUAL(ss_joint_kind_name(joint), ss_joint_detail_name(rows[i].kind));
        CU_ASSERT(joint->detail.kind != SS_DETAIL_BEAM || joint->detail.whole);
        CU_ASSERT(joint->detail.kind != SS_DETAIL_PLANKS || joint->shear_capacity > 0.0);
        ss_bridge_destroy(&b);
    }
}

/* What a sweep does: one measured value, or the scale, changed through the description. */
static void test_changed_by_path(void) {
    static const struct {
        const char *path, *value;
        double shear, rotation; /* over those before */
    } rows[] = {{"bridge.joints.seam.plate.thickness", "0.75 in", 8.0, 8.0},
                {"bridge.joints.seam.plate.reach", "12 in", 1.0 / 8.0, 1.0 / 2.0},
                {"bridge.joints.seam.scale", "0.01", 0.01, 0.01},
                {"bridge.joints.seam.scale", "0", 0.0, 0.0}};
    char *const text = sample_changed(SEAM, "kind = \"plate\"; " PLATE "};");
    double before[2] = {0.0};
    for (int i = -1; i < ENTRIES(rows); i++) {
        ss_description d;
        ss_bridge b;
        ss_diag_list diags = {0};
        memset(&d, 0, sizeof d);
        memset(&b, 0, sizeof b);
        CU_ASSERT_EQUAL_FATAL(ss_description_read_text("mill.cfg", text, strlen(text), &d, &diags, NULL),
                              SS_OK);
        if (i >= 0) {
            CU_ASSERT_EQUAL(ss_description_set(&d, rows[i].path, rows[i].value, &diags), SS_OK);
        }
        CU_ASSERT_EQUAL(ss_description_check(&d, &diags), SS_OK);
        CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&d, &b, &diags), SS_OK);
        if (i < 0) {
            before[0] = b.joints[0].shear;
            before[1] = b.joints[0].rotation;
        } else {
            /* Shear deformation is 1.2 % of the step at most. */
            CU_ASSERT(fabs(b.joints[0].shear - rows[i].shear * before[0]) <=
                      0.04 * rows[i].shear * before[0]);
            check_near(rows[i].path, b.joints[0].rotation, rows[i].rotation * before[1], 1e-12, before[1]);
        }
        ss_bridge_destroy(&b);
        ss_description_destroy(&d);
        ss_diag_destroy(&diags);
    }
    free(text);
}

static const fault_row faults[] = {
    {SEAM, "kind = \"plate\"; bolts = { " IN_BOLTS "};",
     "46: bridge.joints.seam.kind: found \"plate\", which takes the stiffness from the group plate, and that "
     "is not given"},
    {SEAM, "kind = \"planks\";",
     "46: bridge.joints.seam.kind: found \"planks\", which takes the stiffness from the group planks, and "
     "that is not given"},
    {SEAM, "kind = \"plate\"; " PLATE "}; concrete = { " IN_CONCRETE "};",
     "46: bridge.joints.seam: one of plate, bolts, concrete and planks says what the joint is made of"},
    {SEAM, "kind = \"bolts\"; bolts = { " IN_BOLTS "};",
     "46: bridge.joints.seam.bolts: belong to connectors, and the joint has none"},
    {BOLTS, "kind = \"plate\"; connectors = \"41, 17, 29 ft\"; " PLATE "};",
     "47: bridge.joints.bolts.plate: goes all along, but the joint has connectors; bolts are due"},
    {BOLTS, "kind = \"bolts\"; connectors = \"41, 17, 29 ft\"; bolts = { " IN_BOLTS "slip = \"1/8 in\"; };",
     "47: bridge.joints.bolts.bolts.slip_force: not given; slip makes a stiffness together with the force at "
     "which it is taken"},
    {SEAM, "kind = \"concrete\"; concrete = { " IN_CONCRETE "};",
     "46: bridge.joints.seam.concrete.rod_depth: not given; rods hold the beam against turning between the "
     "cars\n"
     "46: bridge.joints.seam.concrete.rod_length: not given; the rods stretch between their nuts\n"
     "46: bridge.joints.seam.concrete.width: not given; the concrete gives from car to car"},
    {SEAM, "kind = \"planks\"; planks = { " IN_PLANKS "left = \"spiked\"; right = \"hinged\"; };",
     "46: bridge.joints.seam.planks.back: not given; spiked planks are held against turning by the next line "
     "of the car"},
    {SEAM,
     "kind = \"plate\"; plate = { thickness = \"1e150 in\"; reach = \"6 in\"; steel = \"plate\"; weld = "
     "\"1/4 in\"; faces = 2; };",
     "46: bridge.joints.seam.plate: no stiffness comes of it: the stiffness or the reach of what spans the "
     "gap is not known"},
    {SEAM, "kind = \"springs\"; shear = \"1e295 kip/in/in\"; scale = 1e9;",
     "46: bridge.joints.seam.scale: makes a stiffness that is out of range"},
    {SEAM, "kind = \"springs\"; shear = \"1 kip/in/in\"; scale = -1;",
     "46: bridge.joints.seam.scale: -1 is below the least allowed, 0"}};

static void test_faults(void) {
    check_rows(faults, ENTRIES(faults), SS_FAULT);
}

static const fault_row warnings[] = {
    {SEAM, "kind = \"plate\"; shear = \"0.3 kip/in/in\"; " PLATE "};",
     TORSION "\n46: bridge.joints.seam.shear: not used: a joint of the kind \"plate\" has its stiffness from "
             "the group plate; a stiffness that is given belongs to the kind \"springs\""},
    {SEAM, "kind = \"plate\"; " PLATE "left = \"hinged\"; right = \"hinged\"; };",
     TORSION "\n46: bridge.joints.seam.plate: the joint ties nothing against a step: hinged at both edges: "
             "no stiffness"
             "\n74: probes.p3.joint: left out: \"seam\" has no stiffness, so that it passes no force"},
    {SEAM,
     "kind = \"plate\"; plate = { thickness = \"3/8 in\"; reach = \"6 in\"; steel = \"plate\"; weld = \"1/4 "
     "in\"; };",
     TORSION "\n46: bridge.joints.seam.plate: the joint ties nothing against a step: hinged at both edges, "
             "where a fillet on one face without a lap counts as a hinge: no stiffness"
             "\n74: probes.p3.joint: left out: \"seam\" has no stiffness, so that it passes no force"},
    {BOLTS, "kind = \"bolts\"; connectors = \"41, 17, 29 ft\"; bolts = { " IN_BOLTS "};",
     TORSION "\n47: bridge.joints.bolts.bolts: slip in the holes is not counted: until its bolts bear a "
             "joint has no stiffness; give slip and slip_force, or try scale = 0.0"},
    {SEAM, SEAM " scale = 0;",
     TORSION "\n74: probes.p3.joint: left out: \"seam\" has no stiffness, so that it passes no force"},
    {BOLTS, BOLTS " scale = 0.5;",
     TORSION "\n47: bridge.joints.bolts.scale: not used: hinged and rigid joints do not give; stiffness "
             "belongs to the kind \"springs\""},
    {SEAM,
     "kind = \"springs\"; shear = \"0.3 kip/in/in\"; planks = { " IN_PLANKS
     "left = \"hinged\"; right = \"hinged\"; };",
     TORSION "\n46: bridge.joints.seam.planks: not used: planks give stiffness, and only to a joint of the "
             "kind \"planks\""},
    {SEAM, "kind = \"springs\"; shear = \"0.3 kip/in/in\"; concrete = { " IN_CONCRETE "width = \"4 in\"; };",
     TORSION "\n46: bridge.joints.seam.concrete.width: not used: it tells of stiffness, which only a joint "
             "of the kind \"concrete\" has from its parts"}};

static void test_warnings(void) {
    check_rows(warnings, ENTRIES(warnings), SS_WARNING);
}

/* The sample's deck runs over the gaps; one that does not is at odds with planks that do. */
static void test_planks_and_deck(void) {
    static const char *const decks[] = {"planks", "sheet"};
    for (int i = 0; i < 2; i++) {
        char *const text =
            sample_changed(SEAM, "kind = \"planks\"; planks = { " IN_PLANKS
                                 "left = \"spiked\"; right = \"spiked\"; back = \"20 in\"; };");
        char *const deck = strstr(text, "deck = \"planks\"");
        CU_ASSERT_PTR_NOT_NULL_FATAL(deck);
        memcpy(deck, i == 0 ? "deck = \"planks\"" : "deck =  \"sheet\"", strlen("deck = \"planks\""));
        ss_bridge b;
        ss_diag_list diags = {0};
        memset(&b, 0, sizeof b);
        CU_ASSERT_EQUAL_FATAL(sample_resolve(text, &b, &diags), SS_OK);
        CU_ASSERT_STRING_EQUAL(b.deck.name, decks[i]);
        ss_text said = sample_remarks(&diags, SS_WARNING);
        const bool warned = strstr(said.data, "bridge.joints.seam.planks: they run over the gap") != NULL;
        CU_ASSERT_EQUAL(warned, !b.deck.over_joints);
        CU_ASSERT_EQUAL(b.deck.over_joints, i == 0);
        ss_text_destroy(&said);
        ss_bridge_destroy(&b);
        ss_diag_destroy(&diags);
        free(text);
    }
}

int main(void) {
    static const test_case cases[] = {{"plate", test_plate},
                                      {"hinge", test_hinge},
                                      {"scale", test_scale},
                                      {"other kinds", test_other_kinds},
                                      {"changed by path", test_changed_by_path},
                                      {"faults", test_faults},
                                      {"warnings", test_warnings},
                                      {"planks and deck", test_planks_and_deck}};
    return RUN_SUITE("resolve joint", cases);
}
