/* test_resolve_slab.c - a slab in a description: sizes, bars, lines that act with it, strips, joint, and what
 * its defaults are called. */
#include <math.h>

#include "slab_samples.h"

#define SLAB                                                                                                 \
    "thickness = \"8 in\"; left = \"-6 in\"; right = \"19 ft\"; haunch = \"1 in\"; joint = \"whole\";"
#define STUDS "connectors = { diameter = \"3/4 in\"; height = \"4 in\"; };"

/* 33000 x 0.145^1.5 x sqrt(4) ksi, AASHTO LRFD 5.4.2.4 (from memory). */
#define E_CONCRETE (33000.0 * 0.145 * sqrt(0.145) * 2.0)

static void test_concrete(void) {
    ss_bridge b = resolve_slab("title", "title");
    const ss_slab *const s = &b.slab;
    CU_ASSERT_TRUE(s->given && !s->first_yield && s->joints_hold_wet);
    CHECK_CLOSE(s->thickness, 8.0 * INCH, 1e-12);
    CHECK_CLOSE(s->y0, -0.5 * FOOT, 1e-12);
    CHECK_CLOSE(s->y1, 19.0 * FOOT, 1e-12);
    CHECK_CLOSE(s->x1, 40.0 * FOOT, 1e-12);
    CU_ASSERT_EQUAL(s->x0, 0.0);
    CHECK_CLOSE(s->fc, 4.0 * KSI, 1e-12);
    CHECK_CLOSE(s->density, 150.0 * LBF / (FOOT * FOOT * FOOT), 1e-12);
    CHECK_CLOSE(s->E, E_CONCRETE * KSI, 1e-12);
    CHECK_CLOSE(s->construction, 50.0 * LBF / (FOOT * FOOT), 1e-12);
    CHECK_CLOSE(s->bar_fy, 60.0 * KSI, 1e-12);
    CU_ASSERT_EQUAL(s->long_factor, 3.0);
    CU_ASSERT_TRUE(isnan(s->n) && isnan(s->joint_left));
    CU_ASSERT_EQUAL(s->connectors.kind, SS_CONNECTOR_STUDS);
    CU_ASSERT_EQUAL(s->connectors.per_row, 1);
    CU_ASSERT_EQUAL(s->connectors.pitch, 0.0);
    CHECK_CLOSE(s->connectors.tensile, 60.0 * KSI, 1e-12);
    CU_ASSERT_EQUAL(s->shore_count, 0);
    ss_bridge_destroy(&b);
    b = resolve_slab("strength = \"4 ksi\";",
                     "strength = \"4 ksi\"; density = \"120 lb/ft3\"; creep = 1.5; n = 10.0;");
    CHECK_CLOSE(b.slab.E, 33000.0 * pow(0.115, 1.5) * 2.0 * KSI, 1e-12);
    CU_ASSERT_EQUAL(b.slab.long_factor, 2.5);
    CU_ASSERT_EQUAL(b.slab.n, 10.0);
    CU_ASSERT_PTR_NULL(assumed(&b, "slab.concrete.n"));
    CU_ASSERT_PTR_NULL(assumed(&b, "slab.concrete.long_term"));
    ss_bridge_destroy(&b);
}

/* Across bars lie outside, those along inside of them: 2 + 5/16, 2 + 5/8 + 1/4 from the top; 1 + 3/8, 1 + 3/4
 * + 1/4 from below. */
static void test_bars(void) {
    ss_bridge b = resolve_slab("title", "title");
    const ss_slab *const s = &b.slab;
    CHECK_CLOSE(s->top_across.depth, 2.3125 * INCH, 1e-12);
    CHECK_CLOSE(s->top_along.depth, 2.875 * INCH, 1e-12);
    CHECK_CLOSE(s->bottom_across.depth, 6.625 * INCH, 1e-12);
    CHECK_CLOSE(s->bottom_along.depth, 6.0 * INCH, 1e-12);
    const double pi = acos(-1.0);
    CHECK_CLOSE(ss_bars_area(&s->bottom_across), pi / 4.0 * 0.5625 / 8.0 * INCH, 1e-12);
    ss_bridge_destroy(&b);
}

/* ---- lines ------------------------------------------------------------------------------------------ */

/* Edges and sill of each car act, stringers do not; over the gap of 6 in to its middle at 9.25 ft. */
static void test_lines(void) {
    ss_bridge b = resolve_slab("title", "title");
    const double y[2][3][2] = {{{-0.5, 2.5}, {2.5, 6.5}, {6.5, 9.25}},
                               {{9.25, 12.0}, {12.0, 16.0}, {16.0, 19.0}}};
    const char *const names[] = {"edges 1", "sill", "edges 2"};
    for (int car = 0; car < 2; car++) {
        for (int i = 0; i < 3; i++) {
            const ss_slab_line *const line = &b.slab.lines[line_named(&b, car, names[i])];
            CU_ASSERT_TRUE(line->composite && line->why == NULL);
            check_near("left", line->y0, y[car][i][0] * FOOT, 1e-12, FOOT);
            check_near("right", line->y1, y[car][i][1] * FOOT, 1e-12, FOOT);
            CHECK_CLOSE(line->width, line->y1 - line->y0, 1e-12);
            CHECK_CLOSE(line->plate, (i == 1 ? 0.5 : 0.65) * INCH, 1e-12);
            CU_ASSERT_EQUAL(line->over_web, i != 1);
        }
        const ss_slab_line *const stringer = &b.slab.lines[line_named(&b, car, "stringers 1")];
        CU_ASSERT_FALSE(stringer->composite);
        CU_ASSERT_STRING_EQUAL(stringer->why, "not asked for");
    }
    ss_bridge_destroy(&b);
    b = resolve_slab(SLAB, "thickness = \"8 in\"; joint = \"open\"; lines = [ \"sill\", \"edges 2\" ];");
    CU_ASSERT_FALSE(b.slab.lines[line_named(&b, 0, "edges 1")].composite);
    CHECK_CLOSE(b.slab.lines[line_named(&b, 0, "sill")].width, 6.5 * FOOT, 1e-12);
    CHECK_CLOSE(b.slab.lines[line_named(&b, 0, "edges 2")].width, 2.5 * FOOT, 1e-12);
    CHECK_CLOSE(b.slab.lines[line_named(&b, 1, "sill")].y0, 9.5 * FOOT, 1e-12);
    CU_ASSERT_FALSE(b.deck.over_joints);
    CU_ASSERT_EQUAL(b.joint_count, 1);
    ss_bridge_destroy(&b);
}

/* Studs of 3/4 in need 0.3 in: 0.296 in of the stringers carries them in one row, over the web, and is too
 * narrow for two; pairs 13-3/16 in apart stand over the webs of the sill, and 6 in apart on its plate. */
static void test_studs(void) {
    static const char *const why =
        "studs of 1.5 in need a plate of 0.6 in or a web under them; the plate has 0.5 in";
    ss_bridge b = resolve_slab(SLAB, SLAB "lines = [ \"stringers\" ];");
    CU_ASSERT_TRUE(b.slab.lines[line_named(&b, 0, "stringers 2")].composite);
    CU_ASSERT_TRUE(b.slab.lines[line_named(&b, 0, "stringers 2")].over_web);
    ss_bridge_destroy(&b);
    b = resolve_slab(STUDS "\n",
                     "lines = [ \"stringers\", \"sill\" ]; connectors = { diameter = \"3/4 in\"; height = "
                     "\"4 in\"; per_row = 2; across = \"13-3/16 in\"; };\n");
    const ss_slab_line *const narrow = &b.slab.lines[line_named(&b, 1, "stringers 1")];
    CU_ASSERT(narrow->composite && narrow->over_web);
    CU_ASSERT_EQUAL(narrow->connectors.per_row, 1);
    CU_ASSERT_EQUAL(ss_slab_connectors_on(&b.slab, line_named(&b, 1, "sill"))->per_row, 2);
    CU_ASSERT_TRUE(b.slab.lines[line_named(&b, 1, "sill")].over_web);
    ss_bridge_destroy(&b);
    b = resolve_slab(STUDS "\n",
                     "lines = [ \"stringers\", \"sill\" ]; connectors = { diameter = \"1-1/2 in\"; height = "
                     "\"6 in\"; per_row = 2; across = \"6 in\"; };\n");
    const ss_slab_line *const thin = &b.slab.lines[line_named(&b, 1, "sill")];
    CU_ASSERT_FALSE(thin->composite);
    CU_ASSERT_PTR_NOT_NULL_FATAL(thin->why);
    CU_ASSERT_STRING_EQUAL(thin->why, why);
    CU_ASSERT_EQUAL(thin->width, 0.0);
    ss_bridge_destroy(&b);
    b = resolve_slab(
        STUDS,
        "connectors = { kind = \"channels\"; flange = \"1/4 in\"; web = \"3/16 in\"; length = \"3 in\"; "
        "pitch = \"9 in\"; }; lines = [ \"stringers\" ];");
    CU_ASSERT_TRUE(b.slab.lines[line_named(&b, 0, "stringers 1")].composite);
    CU_ASSERT_EQUAL(b.slab.connectors.kind, SS_CONNECTOR_CHANNELS);
    CHECK_CLOSE(b.slab.connectors.pitch, 9.0 * INCH, 1e-12);
    ss_bridge_destroy(&b);
    b = resolve_slab(STUDS, "");
    CU_ASSERT_STRING_EQUAL(b.slab.lines[line_named(&b, 0, "sill")].why, "no connectors");
    CU_ASSERT_FALSE(b.slab.lines[line_named(&b, 0, "sill")].composite);
    ss_bridge_destroy(&b);
}

/* A slab of 2 in: 12 t and half of the sill's 20 in are 34 in, the edge's 1.7 in more than the web's 0.4 in
 * make 25.7 in; the span of the sill is 38 ft, the edges have no bearing and 40 ft. */
static void test_widths(void) {
    static const char bars[] = "bars = {";
    ss_bridge b = resolve_slab(SLAB, "thickness = \"8 in\"; joint = \"whole\"; effective_width = \"least\";");
    CHECK_CLOSE(b.slab.lines[line_named(&b, 0, "sill")].width, 4.0 * FOOT, 1e-12);
    ss_bridge_destroy(&b);
    char *const text =
        sample_changed(SLAB, "thickness = \"2 in\"; joint = \"hinged\"; effective_width = \"least\"; "
                             "widths = ( { line = \"edges\"; car = \"south\"; width = \"20 in\"; } );");
    char *const at = strstr(text, bars);
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    /* The group of bars, which has no room in 2 in, becomes one that is not in use. */
    memset(at, ' ', (size_t)(strstr(at, "connectors") - at));
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL_FATAL(sample_resolve(text, &b, &diags), SS_OK);
    const ss_slab_line *const sill = &b.slab.lines[line_named(&b, 0, "sill")];
    CHECK_CLOSE(sill->width, 34.0 * INCH, 1e-12);
    CHECK_CLOSE(sill->y0, 4.5 * FOOT - 17.0 * INCH, 1e-12);
    const ss_slab_line *const edge = &b.slab.lines[line_named(&b, 0, "edges 1")];
    CHECK_CLOSE(edge->width, 25.7 * INCH, 1e-12);
    CHECK_CLOSE(b.slab.lines[line_named(&b, 1, "edges 1")].width, 20.0 * INCH, 1e-12);
    CU_ASSERT_STRING_EQUAL(assumed(&b, "slab.bars")->value, "none");
    ss_bridge_destroy(&b);
    ss_diag_destroy(&diags);
    free(text);
    b = resolve_slab(SLAB, SLAB
                     "effective_width = \"least\"; widths = ( { line = \"sill\"; width = \"3 ft\"; } );");
    CHECK_CLOSE(b.slab.lines[line_named(&b, 1, "sill")].width, 3.0 * FOOT, 1e-12);
    ss_bridge_destroy(&b);
}

/* ---- strips ----------------------------------------------------------------------------------------- */

/* In the middle of each of ten panels of 4 ft, among bearers at 10, 20 and 31 ft; b t^3 / 12 n each. */
static void test_strips(void) {
    ss_bridge b = resolve_slab("title", "title");
    const double n = 29000.0 / E_CONCRETE;
    CU_ASSERT_EQUAL(b.floor_beam_count, 26);
    for (int car = 0; car < 2; car++) {
        const ss_car *const c = &b.cars[car];
        CU_ASSERT_EQUAL_FATAL(c->beam_count, 13);
        CU_ASSERT_EQUAL(c->first_beam, 13 * car);
        int strips = 0;
        for (int i = c->first_beam; i < c->first_beam + c->beam_count; i++) {
            const ss_floor_beam *const f = &b.floor_beams[i];
            CU_ASSERT_TRUE(i == c->first_beam || f->x >= b.floor_beams[i - 1].x);
            CU_ASSERT_EQUAL(f->car, car);
            if (!(f->strip > 0.0)) {
                CU_ASSERT_STRING_EQUAL(f->set, "bearers");
                continue;
            }
            check_near("x", f->x, (4.0 * strips + 2.0) * FOOT, 1e-12, FOOT);
            CHECK_CLOSE(f->strip, 4.0 * FOOT, 1e-12);
            ss_section_properties p;
            CU_ASSERT_EQUAL_FATAL(ss_bridge_beam_section(&b, i, c->y_left + FOOT, false, &p), SS_OK);
            CHECK_CLOSE(p.I, f->strip * 512.0 * INCH3 / (12.0 * n), 1e-12);
            CHECK_CLOSE(p.J, f->strip * 512.0 * INCH3 / (6.0 * n), 1e-12);
            CU_ASSERT_EQUAL(p.weight, 0.0);
            strips++;
        }
        CU_ASSERT_EQUAL(strips, 10);
    }
    CU_ASSERT_STRING_EQUAL(b.floor_beams[0].name, "slab strip 1");
    CU_ASSERT_STRING_EQUAL(b.floor_beams[2].name, "bearers 1");
    CU_ASSERT_STRING_EQUAL(b.floor_beams[3].name, "slab strip 3");
    ss_bridge_destroy(&b);
    b = resolve_slab(SLAB, SLAB "strip_spacing = \"7 ft\"; from = \"6 ft\"; to = \"26 ft\";");
    CU_ASSERT_EQUAL_FATAL(b.cars[0].beam_count, 3 + 3);
    CHECK_CLOSE(b.floor_beams[0].x, (6.0 + 10.0 / 3.0) * FOOT, 1e-12);
    CHECK_CLOSE(b.floor_beams[0].strip, 20.0 / 3.0 * FOOT, 1e-12);
    ss_bridge_destroy(&b);
    b = resolve_slab(SLAB, "thickness = \"0 in\"; joint = \"whole\";");
    CU_ASSERT_EQUAL(b.floor_beam_count, 6);
    CU_ASSERT_EQUAL(b.joint_count, 1);
    ss_bridge_destroy(&b);
}

/* ---- joint ------------------------------------------------------------------------------------------ */

/* A tie in the middle of each of ten panels of 48 in, from the edge at 8.5 ft to that at 10 ft, 18 in: 12 EI
 * / s^3 / (1 + f) and EI / s with EI = E 512/12 in3, f = 2.88 (t/s)^2 by G = E/2.4 and 5/6 of the depth. */
#define PANEL (48.0 * INCH)

static void test_joint(void) {
    const double EI = E_CONCRETE * 512.0 / 12.0;
    const double shear = PANEL * 12.0 * EI / (18.0 * 18.0 * 18.0) / (1.0 + 2.88 * 64.0 / 324.0) * KIP / INCH2;
    const double rotation = PANEL * EI / 18.0 * KIP;
    ss_bridge b = resolve_slab("title", "title");
    CU_ASSERT_EQUAL_FATAL(b.joint_count, 2);
    const ss_joint *j = &b.joints[1];
    CU_ASSERT_TRUE(j->slab && !b.joints[0].slab);
    CU_ASSERT_EQUAL(j->kind, SS_JOINT_SPRINGS);
    CU_ASSERT_STRING_EQUAL(j->name, "slab");
    CHECK_CLOSE(j->y, 9.25 * FOOT, 1e-12);
    CHECK_CLOSE(j->x1, 40.0 * FOOT, 1e-12);
    CU_ASSERT_EQUAL_FATAL(j->connector_count, 10);
    for (int i = 0; i < 10; i++) {
        CHECK_CLOSE(b.connectors[j->first_connector + i], (4.0 * i + 2.0) * FOOT, 1e-12);
    }
    CHECK_CLOSE(j->shear, shear, 1e-12);
    CHECK_CLOSE(j->rotation, rotation, 1e-12);
    ss_bridge_destroy(&b);
    b = resolve_slab("joint = \"whole\"", "joint = \"hinged\"");
    CHECK_CLOSE(b.joints[1].shear, shear, 1e-12);
    CU_ASSERT_EQUAL(b.joints[1].rotation, 0.0);
    CU_ASSERT_TRUE(isnan(b.joints[1].moment_capacity));
    ss_bridge_destroy(&b);
    b = resolve_slab("joint = \"whole\"", "joint = \"cracked\"; joint_left = 0.0");
    CHECK_CLOSE(b.joints[1].shear, shear, 1e-12);
    CU_ASSERT_EQUAL(b.joints[1].rotation, 0.0);
    ss_bridge_destroy(&b);
    b = resolve_slab("joint = \"whole\"", "joint = \"cracked\"; joint_left = 0.25");
    CHECK_CLOSE(b.joints[1].rotation, 0.25 * rotation, 1e-12);
    ss_bridge_destroy(&b);
}

/* Second moment of the cracked slab per in: the axis by halving, where the first moments balance. */
static double cracked(const double area[2], const double depth[2], double n) {
    double low = 0.0;
    double high = 8.0;
    for (int i = 0; i < 200; i++) {
        const double x = 0.5 * (low + high);
        double moment = 0.5 * x * x;
        for (int k = 0; k < 2; k++) {
            moment -= n * area[k] * (depth[k] - x);
        }
        *(moment > 0.0 ? &high : &low) = x;
    }
    double I = low * low * low / 3.0;
    for (int k = 0; k < 2; k++) {
        I += n * area[k] * (depth[k] - low) * (depth[k] - low);
    }
    return I;
}

static void test_cracked_by_bars(void) {
    const double pi = acos(-1.0);
    const double area[2] = {pi / 4.0 * 0.5625 / 8.0, pi / 4.0 * 0.390625 / 6.0};
    const double sag = cracked(area, (double[2]){6.625, 2.3125}, 29000.0 / E_CONCRETE);
    const double hog = cracked(area, (double[2]){8.0 - 6.625, 8.0 - 2.3125}, 29000.0 / E_CONCRETE);
    ss_bridge b = resolve_slab("joint = \"whole\"", "joint = \"cracked\"");
    CHECK_CLOSE(b.joints[1].rotation, PANEL * E_CONCRETE / 18.0 * fmin(sag, hog) * KIP, 1e-9);
    CU_ASSERT_TRUE(sag != hog && fmin(sag, hog) < 512.0 / 12.0);
    ss_bridge_destroy(&b);
}

/* As fy (d - a/2), a = As fy / (0.85 f'c 12 in), of the upper bars, which give less; where it is a
 * hinge 2 sqrt(4000) psi on their depth. Of a panel, times 0.90. */
static void test_joint_strength(void) {
    const double pi = acos(-1.0);
    const double force = 60.0 * pi / 4.0 * 0.390625 / 6.0;
    const double moment = force * (8.0 - 2.3125 - 0.5 * force / (0.85 * 4.0));
    ss_bridge b = resolve_slab("title", "title");
    const double shear = 2.0 * sqrt(4000.0) / 1000.0 * (8.0 - 2.3125) * KIP / INCH;
    CHECK_CLOSE(b.joints[1].moment_capacity, 0.90 * PANEL * moment * KIP, 1e-12);
    CU_ASSERT_TRUE(isnan(b.joints[1].shear_capacity));
    ss_bridge_destroy(&b);
    b = resolve_slab("joint = \"whole\"", "joint = \"hinged\"");
    CHECK_CLOSE(b.joints[1].shear_capacity, 0.90 * PANEL * shear, 1e-12);
    ss_bridge_destroy(&b);
}

/* ---- all at once ------------------------------------------------------------------------------------ */

static void test_defaults_are_told(void) {
    static const char *const rows[][2] = {
        {"slab.concrete.density", "150 lb/ft3"},
        {"slab.concrete.E", "3644.15 ksi"},
        {"slab.concrete.n", "E of the steel / E of the concrete"},
        {"slab.concrete.long_term", "3"},
        {"slab.bars.fy", "60 ksi"},
        {"slab.bars.cover_top", "2 in"},
        {"slab.cars_joints_while_wet", "hold"},
        {"slab.old_deck", "removed"},
        {"slab.old_surfacing", "removed"},
        {"slab.old_rails", "stays"},
        {"bridge.dead_loads", "stay"},
        {"slab.construction_load", "50 psf"},
        {"slab.lines", "main girders, exterior girders"},
        {"slab.effective_width", "tributary"},
        {"slab.connectors.tensile", "60 ksi"},
        {"slab.strength", "plastic"},
        {"slab.strip_spacing", "4 ft"},
        {"slab.pours", "one"},
    };
    ss_bridge b = resolve_slab("title", "title");
    for (int i = 0; i < ENTRIES(rows); i++) {
        const ss_assumption *const a = assumed(&b, rows[i][0]);
        CHECK_ROW(a != NULL && strcmp(a->value, rows[i][1]) == 0, rows[i][0]);
    }
    bool shrinkage = false;
    for (int i = 0; i < b.ignored_count; i++) {
        shrinkage = shrinkage || strstr(b.ignored[i], "Shrinkage of the slab") != NULL;
    }
    CU_ASSERT_TRUE(shrinkage);
    ss_bridge_destroy(&b);
}

/* Put aside, the bridge is that without the group, but for the digest of its text. */
static void test_not_in_use(void) {
    ss_bridge b = resolve_slab("slab = {", "slab = { in_use = false;");
    CU_ASSERT_FALSE(b.slab.given);
    CU_ASSERT_EQUAL(b.floor_beam_count, 6);
    CU_ASSERT_EQUAL(b.joint_count, 1);
    CU_ASSERT_EQUAL(b.dead_load_count, 6);
    CU_ASSERT_STRING_EQUAL(b.deck.name, "planks");
    CU_ASSERT_PTR_NULL(assumed(&b, "slab.pours"));
    for (int i = 0; i < b.dead_load_count; i++) {
        CU_ASSERT_EQUAL(b.dead_loads[i].when, SS_DEAD_STAYS);
    }
    ss_bridge_destroy(&b);
}

/* A steel plate stays as formwork, planks do not. */
static void test_formwork(void) {
    ss_bridge b = resolve_slab("title", "title");
    CU_ASSERT_PTR_NULL(b.slab.form.name);
    ss_bridge_destroy(&b);
    b = resolve_slab("deck = \"planks\"", "deck = \"sheet\"");
    CU_ASSERT_STRING_EQUAL(b.slab.form.name, "sheet");
    CU_ASSERT_TRUE(b.slab.form.along && b.slab.form.steel < 0);
    CU_ASSERT_EQUAL(b.slab.form.thickness, 0.0);
    CHECK_CLOSE(b.slab.form.weight, 10.0 * LBF / (FOOT * FOOT), 1e-12);
    ss_bridge_destroy(&b);
}

static void test_changed_by_path(void) {
    static const char *const changes[][2] = {{"slab.thickness", "9 in"},
                                             {"slab.bars.top_across.spacing", "4 in"},
                                             {"slab.concrete.strength", "5 ksi"},
                                             {"slab.barriers.in_use", "false"}};
    ss_description description;
    ss_diag_list diags = {0};
    memset(&description, 0, sizeof description);
    CU_ASSERT_EQUAL_FATAL(ss_description_read_text("weir.cfg", sample_text(), strlen(sample_text()),
                                                   &description, &diags, NULL),
                          SS_OK);
    for (int i = 0; i < ENTRIES(changes); i++) {
        CU_ASSERT_EQUAL(ss_description_set(&description, changes[i][0], changes[i][1], &diags), SS_OK);
    }
    ss_bridge b;
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&description, &b, &diags), SS_OK);
    CHECK_CLOSE(b.slab.thickness, 9.0 * INCH, 1e-12);
    CHECK_CLOSE(b.slab.top_across.spacing, 4.0 * INCH, 1e-12);
    CHECK_CLOSE(b.slab.fc, 5.0 * KSI, 1e-12);
    for (int i = 0; i < b.dead_load_count; i++) {
        CU_ASSERT_STRING_NOT_EQUAL(b.dead_loads[i].name, "barriers");
    }
    ss_bridge_destroy(&b);
    ss_description_destroy(&description);
    ss_diag_destroy(&diags);
}

/* Weight of a named load that goes or stays, N. */
static double weight_of(const ss_bridge *b, const char *name, ss_dead_when when, double x0, double x1) {
    double sum = 0.0;
    for (int i = 0; i < b->dead_load_count; i++) {
        const ss_dead_load *const load = &b->dead_loads[i];
        if (strcmp(load->name, name) == 0 && load->when == when) {
            CU_ASSERT(load->x0 >= x0 - 1e-9 && load->x1 <= x1 + 1e-9);
            sum += load->w * (load->x1 - load->x0) * (load->area ? load->y1 - load->y0 : 1.0);
        }
    }
    return sum;
}

/* Beyond the ends of a slab what lies there today stays: of 40 ft, 24 ft are cast. */
static void test_short_slab(void) {
    ss_bridge b =
        resolve_slab("thickness = \"8 in\";", "thickness = \"8 in\"; from = \"6 ft\"; to = \"30 ft\";");
    static const char *const names[] = {"planks", "gravel"};
    for (int i = 0; i < 2; i++) {
        const double off = weight_of(&b, names[i], SS_DEAD_REMOVED, 6.0 * FOOT, 30.0 * FOOT);
        const double left = weight_of(&b, names[i], SS_DEAD_STAYS, 0.0, 40.0 * FOOT);
        CU_ASSERT(off > 0.0);
        CHECK_CLOSE(off / (off + left), 24.0 / 40.0, 1e-12);
    }
    ss_bridge_destroy(&b);
}

int main(void) {
    static const test_case cases[] = {{"concrete", test_concrete},
                                      {"bars", test_bars},
                                      {"lines", test_lines},
                                      {"studs", test_studs},
                                      {"widths", test_widths},
                                      {"strips", test_strips},
                                      {"joint", test_joint},
                                      {"cracked by its bars", test_cracked_by_bars},
                                      {"strength of the joint", test_joint_strength},
                                      {"defaults are told", test_defaults_are_told},
                                      {"not in use", test_not_in_use},
                                      {"formwork", test_formwork},
                                      {"changed by path", test_changed_by_path},
                                      {"short slab", test_short_slab}};
    return RUN_SUITE("resolve slab", cases);
}
