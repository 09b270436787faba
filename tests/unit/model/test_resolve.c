/* test_resolve.c - the sample bridge resolved: names, axes, reversal, pieces, weights, bearings, loads,
 * assumptions. */
#include <math.h>

#include "resolve_rows.h"

#define NEAR(value, expected, unit) CU_ASSERT_DOUBLE_EQUAL((value) / (unit), (expected), 1e-6)

static ss_bridge resolve(const char *text) {
    ss_bridge bridge;
    ss_diag_list diags = {0};
    memset(&bridge, 0, sizeof bridge);
    const ss_status status = sample_resolve(text, &bridge, &diags);
    if (status != SS_OK) {
        ss_text said = sample_remarks(&diags, SS_FAULT);
        fprintf(stderr, "%s\n", said.data);
        ss_text_destroy(&said);
    }
    ss_diag_destroy(&diags);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    return bridge;
}

static int find_line(const ss_bridge *b, int car, const char *name) {
    for (int i = b->cars[car].first_line; i < b->cars[car].first_line + b->cars[car].line_count; i++) {
        if (strcmp(b->lines[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

static void test_head_and_cars(void) {
    ss_bridge b = resolve(sample_text());
    CU_ASSERT_STRING_EQUAL(b.title, "Mill Race Road, Bellweather Township");
    CU_ASSERT_PTR_NULL(b.notes);
    CU_ASSERT_EQUAL(b.units, SS_UNITS_US);
    CU_ASSERT(b.digest != 0);
    CU_ASSERT(b.cars_first && b.self_weight);
    NEAR(b.station_spacing, 1.0, FOOT);
    NEAR(b.x0, 0.0, FOOT);
    NEAR(b.x1, 61.0, FOOT);
    CU_ASSERT_EQUAL_FATAL(b.car_count, 3);
    NEAR(b.cars[1].y_left, 9.0 + 8.0 / 12.0, FOOT);
    NEAR(b.cars[2].y_left, 18.0 + 11.0 / 12.0, FOOT);
    NEAR(b.cars[2].y_right, 28.25, FOOT);
    CU_ASSERT_STRING_EQUAL(b.cars[2].type, "flat 60");
    CU_ASSERT(b.cars[2].reversed && !b.cars[0].reversed);
    /* 7 and 52 ft from the near end of a car that lies from 61 to 1 ft */
    NEAR(b.cars[2].wheel_truck[0], 9.0, FOOT);
    NEAR(b.cars[2].wheel_truck[1], 54.0, FOOT);
    CU_ASSERT(isnan(b.cars[1].wheel_truck[0]));
    ss_bridge_destroy(&b);
    CU_ASSERT_PTR_NULL(b.cars);
    ss_bridge_destroy(&b);
    ss_bridge_destroy(NULL);
}

static void test_steels(void) {
    ss_bridge b = resolve(sample_text());
    NEAR(b.steels[0].fy, 33.0, KSI);
    NEAR(b.steels[1].fy, 50.0, KSI);
    NEAR(b.steels[0].E, 29000.0, KSI);
    NEAR(b.steels[0].G, 29000.0 / 2.6, KSI);
    CU_ASSERT_STRING_EQUAL(b.steels[0].basis, "rolled 1958, unknown steel");
    CU_ASSERT_STRING_EQUAL(b.steels[1].basis, "grade A572 Gr 50");
    /* the line's own steel, the type's, the car's, in this order of precedence */
    CU_ASSERT_EQUAL(b.lines[find_line(&b, 0, "sill")].steel, 0);
    CU_ASSERT_EQUAL(b.lines[find_line(&b, 0, "stringers 2")].steel, 1);
    CU_ASSERT_EQUAL(b.lines[find_line(&b, 2, "sill")].steel, 1);
    CU_ASSERT_EQUAL(b.floor_beams[b.cars[0].first_beam].steel, 0);
    CU_ASSERT_EQUAL(b.floor_beams[b.cars[2].first_beam].steel, 1);
    ss_bridge_destroy(&b);
}

/* Names from the left of each car as it lies; y turned about its middle, x about its length. */
static void test_lines_of_a_reversed_car(void) {
    static const struct {
        int car;
        const char *name;
        double y, x0, x1;
    } row[] = {{0, "edges 1", 1.0 / 6.0, 0.0, 60.0},
               {0, "stringers 1", 5.0 / 3.0, 2.0, 57.0},
               {0, "sill", 4.0 + 11.0 / 12.0, 0.0, 60.0},
               {0, "stringers 4", 23.0 / 3.0, 2.0, 57.0},
               {1, "spine", 9.0 + 8.0 / 12.0 + 4.5, 11.0, 51.0},
               {2, "edges 1", 19.0 + 1.0 / 12.0, 1.0, 61.0},
               {2, "stringers 1", 20.0 + 7.0 / 12.0, 4.0, 59.0},
               {2, "sill", 23.0 + 4.0 / 12.0, 1.0, 61.0},
               {2, "stringers 3", 25.0 + 1.0 / 12.0, 4.0, 59.0}};
    ss_bridge b = resolve(sample_text());
    CU_ASSERT_EQUAL(b.line_count, 15);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const int line = find_line(&b, row[i].car, row[i].name);
        CU_ASSERT_FATAL(line >= 0);
        NEAR(b.lines[line].y, row[i].y, FOOT);
        NEAR(b.lines[line].x0, row[i].x0, FOOT);
        NEAR(b.lines[line].x1, row[i].x1, FOOT);
        CU_ASSERT_EQUAL(b.lines[line].car, row[i].car);
    }
    for (int i = 1; i < b.line_count; i++) {
        CU_ASSERT(b.lines[i].car > b.lines[i - 1].car || b.lines[i].y >= b.lines[i - 1].y);
    }
    CU_ASSERT_EQUAL(b.lines[find_line(&b, 0, "edges 2")].role, SS_ROLE_EXTERIOR);
    CU_ASSERT_STRING_EQUAL(b.lines[find_line(&b, 0, "edges 2")].set, "edges");
    ss_bridge_destroy(&b);
}

static void test_tapers(void) {
    /* depth in inches at x in feet from the near end: level, straight between, level */
    static const double x[] = {0.0, 4.0, 9.0, 11.5, 19.0, 31.0, 43.0, 48.7, 52.0, 60.0};
    static const double depth[] = {13.0, 13.0, 13.0, 16.25, 26.0, 26.0, 26.0, 18.4, 14.0, 14.0};
    ss_bridge b = resolve(sample_text());
    const int near_line = find_line(&b, 0, "sill");
    const int far_line = find_line(&b, 2, "sill");
    CU_ASSERT_EQUAL(b.lines[near_line].piece_count, 5);
    CU_ASSERT_EQUAL(b.lines[far_line].piece_count, 5);
    for (size_t i = 0; i < sizeof x / sizeof x[0]; i++) {
        ss_section_properties p;
        for (int side = 0; side < 2; side++) {
            CU_ASSERT_EQUAL(ss_bridge_line_section(&b, near_line, x[i] * FOOT, side == 0, &p), SS_OK);
            NEAR(p.depth, depth[i], INCH);
            CU_ASSERT_EQUAL(ss_bridge_line_section(&b, far_line, (61.0 - x[i]) * FOOT, side == 0, &p), SS_OK);
            NEAR(p.depth, depth[i], INCH);
        }
    }
    for (int line = 0; line < b.line_count; line++) {
        const ss_line *const l = &b.lines[line];
        const ss_line_piece *const piece = &b.pieces[l->first_piece];
        CU_ASSERT_EQUAL(piece[0].x0, l->x0);
        CU_ASSERT_EQUAL(piece[l->piece_count - 1].x1, l->x1);
        for (int k = 1; k < l->piece_count; k++) {
            CU_ASSERT_EQUAL(piece[k].x0, piece[k - 1].x1);
        }
    }
    /* what differs in the south car */
    CU_ASSERT_EQUAL(b.pieces[b.lines[find_line(&b, 2, "edges 1")].first_piece].section, 4);
    CU_ASSERT_EQUAL(b.pieces[b.lines[find_line(&b, 0, "edges 1")].first_piece].section, 1);
    ss_bridge_destroy(&b);
}

static void test_floor_beams(void) {
    ss_bridge b = resolve(sample_text());
    CU_ASSERT_EQUAL_FATAL(b.floor_beam_count, 10);
    const ss_floor_beam *const near_beam = &b.floor_beams[1];
    const ss_floor_beam *const far_beam = &b.floor_beams[5 + 3];
    CU_ASSERT_STRING_EQUAL(near_beam->name, "bearers 1");
    CU_ASSERT_STRING_EQUAL(far_beam->name, "bearers 3");
    NEAR(near_beam->x, 7.0, FOOT);
    NEAR(far_beam->x, 54.0, FOOT);
    CU_ASSERT_EQUAL(near_beam->part_count, 3);
    NEAR(b.parts[near_beam->first_part + 1].y0, 8.0 / 12.0, FOOT);
    NEAR(b.parts[near_beam->first_part + 1].y1, 3.0 + 8.0 / 12.0, FOOT);
    NEAR(b.parts[far_beam->first_part + 1].y0, 24.0 + 7.0 / 12.0, FOOT);
    NEAR(b.parts[far_beam->first_part + 1].y1, 27.0 + 7.0 / 12.0, FOOT);
    NEAR(b.parts[far_beam->first_part + 2].y1, 28.25, FOOT);
    ss_section_properties p;
    CU_ASSERT_EQUAL(ss_bridge_beam_section(&b, 1, 8.0 / 12.0 * FOOT, true, &p), SS_OK);
    NEAR(p.depth, 12.0, INCH);
    CU_ASSERT_EQUAL(ss_bridge_beam_section(&b, 1, 8.0 / 12.0 * FOOT, false, &p), SS_OK);
    NEAR(p.I, 1177.0, INCH * INCH * INCH * INCH);
    /* "stringers 1" of the type is the fourth from the left once the car is turned */
    CU_ASSERT_EQUAL(near_beam->hinge_count, 2);
    CU_ASSERT_STRING_EQUAL(b.lines[b.hinges[near_beam->first_hinge]].name, "stringers 1");
    CU_ASSERT_STRING_EQUAL(b.lines[b.hinges[far_beam->first_hinge]].name, "stringers 4");
    CU_ASSERT_STRING_EQUAL(b.lines[b.hinges[far_beam->first_hinge + 1]].name, "sill");
    CU_ASSERT_EQUAL(b.floor_beams[0].hinge_count, 0);
    ss_bridge_destroy(&b);
}

/* Weight by hand: areas in in2 times 490/144 lb/ft, lengths in ft. */
static void test_weights(void) {
    const double lb = 490.0 / 144.0;
    const double flanges = 20.0 * 0.5 + 18.0 * 0.75;
    const double web = 2.0 * 0.3125;
    const double sill_ft = 60.0 * (flanges - 1.25 * web) +
                           web * (9.0 * 13.0 + 10.0 * 19.5 + 24.0 * 26.0 + 9.0 * 20.0 + 8.0 * 14.0);
    const double edge = 15.0 * 0.4 + 2.0 * 3.0 * 0.65;
    const double stringer = 4.0 * 0.184 + 2.0 * (1.58 - 0.184) * 0.296;
    const double bearer = 2.0 * 8.0 * 0.375 + 11.25 * 0.375;
    /* bearers reach from edge girder to edge girder, 9 ft, 3 ft of it with the given section */
    const double beams = 3.0 * (6.0 * bearer + 3.0 * 21.3) + 2.0 * 9.0 * edge;
    const double north = 1.10 * lb * (sill_ft + 2.0 * 60.0 * edge + 4.0 * 55.0 * stringer + beams);
    const double south = 1.10 * lb * (sill_ft + 2.0 * 60.0 * 21.3 + 4.0 * 55.0 * stringer + beams);
    ss_bridge b = resolve(sample_text());
    CU_ASSERT_DOUBLE_EQUAL(b.cars[0].weight / LBF, north, 1e-6 * north);
    CU_ASSERT_DOUBLE_EQUAL(b.cars[2].weight / LBF, south, 1e-6 * south);
    NEAR(b.cars[0].weight_factor, 1.10, 1.0);
    NEAR(b.cars[1].weight, 29.0, KIP);
    NEAR(b.cars[1].weight_factor, 29000.0 / (40.0 * lb * 21.3), 1.0);
    ss_bridge_destroy(&b);
}

static void test_joints(void) {
    ss_bridge b = resolve(sample_text());
    CU_ASSERT_EQUAL_FATAL(b.joint_count, 2);
    const ss_joint *const seam = &b.joints[0];
    CU_ASSERT_EQUAL(seam->left, 0);
    NEAR(seam->y, 9.5, FOOT);
    NEAR(seam->x0, 13.0, FOOT);
    NEAR(seam->x1, 51.0, FOOT);
    NEAR(seam->shear, 0.3, KIP / INCH / INCH);
    CU_ASSERT_EQUAL(seam->rotation, 0.0);
    NEAR(seam->shear_capacity, 4.0, KIP / FOOT);
    const ss_joint *const bolts = &b.joints[1];
    CU_ASSERT_EQUAL(bolts->kind, SS_JOINT_HINGED);
    CU_ASSERT(isinf(bolts->shear) && bolts->rotation == 0.0);
    CU_ASSERT_EQUAL_FATAL(bolts->connector_count, 3);
    NEAR(b.connectors[bolts->first_connector], 17.0, FOOT);
    NEAR(b.connectors[bolts->first_connector + 2], 41.0, FOOT);
    NEAR(bolts->shear_capacity, 9.0, KIP);
    ss_bridge_destroy(&b);
}

static void test_bearings(void) {
    ss_bridge b = resolve(sample_text());
    CU_ASSERT_EQUAL_FATAL(b.bearing_count, 4 + 8 + 2);
    NEAR(b.bearings[3].x, 54.0, FOOT);
    NEAR(b.bearings[3].pad_width, 14.0, INCH);
    CU_ASSERT(isinf(b.bearings[3].spring) && b.bearings[3].contact && !b.bearings[3].after);
    CU_ASSERT_STRING_EQUAL(b.bearings[4].name, "ends");
    NEAR(b.bearings[4].gap, 0.25, INCH);
    NEAR(b.bearings[4].spring, 200.0, KIP / INCH);
    NEAR(b.bearings[8].x, 1.0, FOOT);
    CU_ASSERT_STRING_EQUAL(b.lines[b.bearings[9].line].name, "edges 2");
    CU_ASSERT_EQUAL(b.bearings[9].car, 2);
    const ss_bearing *const block = &b.bearings[13];
    CU_ASSERT(!block->contact && isinf(block->rotation));
    NEAR(block->settlement, 0.3, INCH);
    NEAR(block->x, 50.0, FOOT);
    ss_bridge_destroy(&b);
    char *const text = sample_changed("placed = \"after dead load\"; in_use = false;",
                                      "placed = \"after dead load\"; rotation = \"31 kip-in/rad\";");
    b = resolve(text);
    CU_ASSERT_EQUAL(b.bearing_count, 4 + 8 + 2 + 2);
    CU_ASSERT(b.bearings[14].after);
    NEAR(b.bearings[14].rotation, 31.0, KIP * INCH);
    ss_bridge_destroy(&b);
    free(text);
}

static void test_dead_loads(void) {
    static const struct {
        const char *name;
        ss_component component;
        bool area;
        double w, x0, x1, y0, y1;
    } row[] = {{"planks", SS_COMPONENT_DC, true, 175.0 / 12.0, 0.0, 60.0, 0.0, 28.0 / 3.0},
               {"planks", SS_COMPONENT_DC, true, 175.0 / 12.0, 11.0, 51.0, 28.0 / 3.0, 29.0 / 3.0},
               {"planks", SS_COMPONENT_DC, true, 175.0 / 12.0, 11.0, 51.0, 29.0 / 3.0, 56.0 / 3.0},
               {"planks", SS_COMPONENT_DC, true, 175.0 / 12.0, 11.0, 51.0, 56.0 / 3.0, 227.0 / 12.0},
               {"planks", SS_COMPONENT_DC, true, 175.0 / 12.0, 1.0, 61.0, 227.0 / 12.0, 28.25},
               {"gravel", SS_COMPONENT_DW, true, 30.0, 0.0, 61.0, 2.0, 26.0},
               {"rails", SS_COMPONENT_DC, false, 35.0, 0.0, 61.0, 0.5, 0.5},
               {"rails", SS_COMPONENT_DC, false, 35.0, 0.0, 61.0, 27.0, 27.0},
               {"pipe", SS_COMPONENT_DW, false, 22.0, 5.0, 61.0, 9.0, 9.0},
               {"soil", SS_COMPONENT_DC, true, 31.0, 0.0, 8.0, 1.0, 3.0}};
    ss_bridge b = resolve(sample_text());
    CU_ASSERT_EQUAL_FATAL(b.dead_load_count, 10);
    for (int i = 0; i < b.dead_load_count; i++) {
        const ss_dead_load *const d = &b.dead_loads[i];
        CU_ASSERT_STRING_EQUAL(d->name, row[i].name);
        CU_ASSERT_EQUAL(d->component, row[i].component);
        CU_ASSERT_EQUAL(d->area, row[i].area);
        NEAR(d->w, row[i].w, row[i].area ? LBF / FOOT / FOOT : LBF / FOOT);
        NEAR(d->x0, row[i].x0, FOOT);
        NEAR(d->x1, row[i].x1, FOOT);
        NEAR(d->y0, row[i].y0, FOOT);
        NEAR(d->y1, row[i].y1, FOOT);
    }
    CU_ASSERT_STRING_EQUAL(b.deck.kind, "timber");
    CU_ASSERT(b.deck.over_joints && !b.deck.along);
    NEAR(b.roadway_right, 26.0, FOOT);
    NEAR(b.wheel_to_curb, 2.0, FOOT);
    ss_bridge_destroy(&b);
}

static void test_vehicles_cases_runs(void) {
    ss_bridge b = resolve(sample_text());
    CU_ASSERT_EQUAL_FATAL(b.vehicle_count, 5); /* Type 3 besides: in the other lane */
    CU_ASSERT_EQUAL(b.rated_vehicle_count, 4);
    CU_ASSERT_STRING_EQUAL(b.vehicles[0].name, "milk hauler");
    CU_ASSERT_STRING_EQUAL(b.vehicles[1].name, "HS20-44");
    CU_ASSERT_STRING_EQUAL(b.vehicles[3].name, "EV3");
    NEAR(ss_vehicle_gross(&b.vehicles[0]), 46.0, KIP);
    NEAR(b.vehicles[0].gauge_m, 6.5, FOOT);
    CU_ASSERT_EQUAL(b.vehicles[0].kind, SS_VEHICLE_USER);
    CU_ASSERT_EQUAL_FATAL(b.placed_count, 4);
    CU_ASSERT_EQUAL(b.cases[0].load_count, 4);
    CU_ASSERT_FALSE(b.cases[0].dead);
    CU_ASSERT(b.placed[0].kind == SS_LOAD_TRUCK && b.placed[0].vehicle == 0 && b.placed[0].backward &&
              b.placed[0].line == -1);
    CU_ASSERT_STRING_EQUAL(b.lines[b.placed[1].line].name, "stringers 3");
    NEAR(b.placed[1].value, 7.0, KIP);
    NEAR(b.placed[1].y0, 37.0 / 6.0, FOOT);
    NEAR(b.placed[2].x1, 33.0, FOOT);
    NEAR(b.placed[2].value, 1.3, KIP / FOOT);
    CU_ASSERT_EQUAL(b.placed[2].line, -1);
    NEAR(b.placed[3].y1, 7.0, FOOT);
    CU_ASSERT_EQUAL(b.runs[0].vehicle, 3);
    CU_ASSERT(b.runs[0].forward && !b.runs[0].backward);
    NEAR(b.runs[0].y, 4.0 + 11.0 / 12.0, FOOT);
    ss_bridge_destroy(&b);
}

static void test_probes_and_rating(void) {
    ss_bridge b = resolve(sample_text());
    CU_ASSERT_EQUAL_FATAL(b.probe_count, 5);
    CU_ASSERT_EQUAL(b.probes[0].index, find_line(&b, 2, "sill"));
    CU_ASSERT(b.probes[0].before && b.probes[0].effect == SS_EFFECT_MOMENT);
    CU_ASSERT_STRING_EQUAL(b.floor_beams[b.probes[1].index].name, "bearers 2");
    NEAR(b.probes[1].at, 5.0, FOOT);
    CU_ASSERT(!b.probes[1].before);
    CU_ASSERT(b.probes[2].member == SS_MEMBER_JOINT && b.probes[2].index == 0);
    CU_ASSERT_EQUAL(b.probes[3].index, 11);
    NEAR(b.probes[3].at, 61.0, FOOT);
    CU_ASSERT_EQUAL(b.probes[4].index, 1);
    NEAR(b.rating.condition, 0.95, 1.0);
    CU_ASSERT_STRING_EQUAL(b.rating.condition_word, "fair");
    NEAR(b.rating.system, 0.9, 1.0);
    CU_ASSERT_EQUAL(b.rating.adtt, 40);
    NEAR(b.rating.approach_allowance, 0.33, 1.0);
    CU_ASSERT(isnan(b.rating.live_factor) && isnan(b.rating.dw_factor) && isnan(b.rating.dynamic_allowance));
    NEAR(b.rating.dc_factor, 1.25, 1.0);
    CU_ASSERT(b.rating.surfacing_measured);
    ss_bridge_destroy(&b);
}

static bool assumed(const ss_bridge *b, const char *path, const char *value) {
    for (int i = 0; i < b->assumptions.count; i++) {
        if (strcmp(b->assumptions.items[i].path, path) == 0 &&
            strcmp(b->assumptions.items[i].value, value) == 0) {
            return true;
        }
    }
    return false;
}

static void test_assumptions_and_ignored(void) {
    ss_bridge b = resolve(sample_text());
    CU_ASSERT(assumed(&b, "steels.car steel.fy", "33 ksi"));
    CU_ASSERT(assumed(&b, "steels.plate.G", "11153.8 ksi"));
    CU_ASSERT(assumed(&b, "bridge.bearings.trucks.gap", "0 in"));
    CU_ASSERT(assumed(&b, "cars.flat 60.detail_weight", "0.10"));
    CU_ASSERT_FALSE(assumed(&b, "cars.flat 40.detail_weight", "0.06"));
    CU_ASSERT(assumed(&b, "rating.trucks", "EV2 as well"));
    CU_ASSERT(assumed(&b, "rating.approach", "rough"));
    CU_ASSERT_FALSE(assumed(&b, "rating.adtt", "unknown"));
    CU_ASSERT_EQUAL(b.ignored_count, 9);
    CU_ASSERT_STRING_EQUAL(b.ignored[0],
                           "Each lane has one truck at most: no other vehicle before or behind it.");
    CU_ASSERT_STRING_EQUAL(b.ignored[8],
                           "HS20-44: the concentrated load of its lane load stands on two points "
                           "6 ft apart instead of 10 ft of width.");
    ss_bridge_destroy(&b);
}

/* Hardly anything given: one line a car, all trucks, no deck. */
static void test_shortest_description(void) {
    ss_bridge b = resolve(
        "title = \"Cold Creek Bridge 14, Harrow County\"; units = \"si\";\n"
        "steels = ( { name = \"s\"; fy = \"248 MPa\"; G = \"77 GPa\"; } );\n"
        "sections = ( { name = \"spine\"; shape = \"given\"; I = \"1.9e-3 m4\"; J = \"0 m4\"; weight = \"5.1 "
        "kN/m\"; } );\n"
        "cars = ( { name = \"c\"; length = \"16.4 m\"; width = \"2.7 m\"; steel = \"s\"; lines = (\n"
        "  { name = \"spine\"; role = \"main girder\"; y = \"0 m\"; section = \"spine\"; } ); } );\n"
        "bridge = { cars = ( { name = \"one\"; car = \"c\"; } ); self_weight = false; stages = "
        "\"together\";\n"
        "  bearings = ( { name = \"ends\"; at = \"ends\"; under = [ \"spine\" ]; action = \"two-way\"; } );\n"
        "  roadway = { from = \"0.1 m\"; to = \"2.6 m\"; }; };\n");
    CU_ASSERT_EQUAL(b.units, SS_UNITS_SI);
    CU_ASSERT(!b.cars_first && !b.self_weight);
    CU_ASSERT_DOUBLE_EQUAL(b.steels[0].fy, 248.0e6, 1.0);
    CU_ASSERT_DOUBLE_EQUAL(b.steels[0].G, 77.0e9, 1.0);
    CU_ASSERT_STRING_EQUAL(b.steels[0].basis, "yield stress given");
    CU_ASSERT_DOUBLE_EQUAL(b.cars[0].weight, 1.1 * 5100.0 * 16.4, 1e-6);
    CU_ASSERT_EQUAL(b.rated_vehicle_count, 6);
    CU_ASSERT_EQUAL(b.dead_load_count, 0);
    CU_ASSERT_PTR_NULL(b.deck.name);
    CU_ASSERT_EQUAL(b.joint_count + b.case_count + b.run_count + b.probe_count + b.floor_beam_count, 0);
    CU_ASSERT(isnan(b.rating.condition) && isnan(b.rating.system));
    CU_ASSERT_PTR_NULL(b.rating.condition_word);
    CU_ASSERT_EQUAL(b.rating.adtt, -1);
    CU_ASSERT(assumed(&b, "rating.trucks", "HL-93, H15-44, HS20-44, Type 3, EV2, EV3"));
    CU_ASSERT(assumed(&b, "rating.adtt", "unknown"));
    CU_ASSERT(assumed(&b, "bridge.deck", "none"));
    CU_ASSERT(assumed(&b, "sections.spine.shear_area", "none"));
    CU_ASSERT(assumed(&b, "sections.spine.S", "none"));
    CU_ASSERT_EQUAL(b.pieces[0].depth0, 0.0);
    ss_section_properties p;
    CU_ASSERT_EQUAL(ss_bridge_line_section(&b, 0, 3.1, true, &p), SS_OK);
    CU_ASSERT_EQUAL(p.I, 1.9e-3);
    CU_ASSERT_EQUAL(p.shear_area, 0.0);
    ss_bridge_destroy(&b);
}

static void test_warnings(void) {
#define TORSION                                                                                              \
    "5: sections.sill.torsion: the cell counts as closed, J = 2171 in4; the load share between cars hangs "  \
    "on it, "                                                                                                \
    "and a cell that is open below or only battened shares less"
    static const fault_row rows[] = {
        {"title", "title", TORSION},
        {"torsion = \"closed\"", "torsion = \"open\"", ""},
        {"z = \"11-5/8 in\"", "z = \"11-3/4 in\"",
         TORSION "\n13: sections.bearer.plates.top: touches no other plate; it counts as part of the section "
                 "all the same"},
        {"weight = \"29 kip\"", "weight = \"1.9 kip\"",
         TORSION "\n41: bridge.cars.middle.weight: \"1.9 kip\" is unlikely; usual are 8 kip to 80 kip"
                 "\n41: bridge.cars.middle.weight: 1.9 kip is less than the lines and floor beams of "
                 "\"middle\" come to, 2.9 kip"},
        {"x = \"11 ft\"; weight = \"29 kip\"", "x = \"11 ft\"",
         TORSION
         "\n41: bridge.cars.middle: the car comes to 3.07 kip, which is unlikely; usual are 8 kip to 80 kip"},
        {"kind = \"springs\"; shear = \"0.3 kip/in/in\"", "kind = \"none\"; shear = \"0.3 kip/in/in\"",
         TORSION "\n74: probes.p3.joint: left out: \"seam\" is of the kind none, which passes no force"},
        {"kind = \"hinged\"; connectors", "kind = \"hinged\"; shear_each = \"4 kip/in\"; connectors",
         TORSION
         "\n47: bridge.joints.bolts.shear_each: not used: hinged and rigid joints do not give; stiffness "
         "belongs to the kind \"springs\""},
        {"kind = \"springs\"; shear = \"0.3 kip/in/in\"", "kind = \"rigid\"; shear = \"0.3 kip/in/in\"",
         TORSION
         "\n46: bridge.joints.seam.shear: not used: hinged and rigid joints do not give; stiffness "
         "belongs to the kind \"springs\""
         "\n46: bridge.joints.seam.shear_capacity: not rated: a joint that does not give has no force "
         "per length at its ends; give connectors, or springs"},
        {"from = \"2 ft\"; to = \"26 ft\"; }", "from = \"2 ft\"; to = \"5 ft\"; }",
         TORSION "\n59: bridge.roadway.wheel_to_curb: the roadway of 3 ft leaves no place for a wheel that "
                 "keeps 2 ft from both curbs"},
    };
    check_rows(rows, (int)(sizeof rows / sizeof rows[0]), SS_WARNING);
}

static void test_names_of_enumerations(void) {
    CU_ASSERT_STRING_EQUAL(ss_role_name(SS_ROLE_MAIN), "main girder");
    CU_ASSERT_STRING_EQUAL(ss_role_name(SS_ROLE_EXTERIOR), "exterior girder");
    CU_ASSERT_STRING_EQUAL(ss_role_name(SS_ROLE_STRINGER), "stringer");
    CU_ASSERT_STRING_EQUAL(ss_effect_name(SS_EFFECT_MOMENT), "moment");
    CU_ASSERT_STRING_EQUAL(ss_effect_name(SS_EFFECT_REACTION), "reaction");
    CU_ASSERT_STRING_EQUAL(ss_effect_name(SS_EFFECT_WEB_MINUS), "web shear, torsion deducted");
}

int main(void) {
    const test_case cases[] = {{"head and cars", test_head_and_cars},
                               {"steels", test_steels},
                               {"lines of a reversed car", test_lines_of_a_reversed_car},
                               {"tapers", test_tapers},
                               {"floor beams", test_floor_beams},
                               {"weights", test_weights},
                               {"joints", test_joints},
                               {"bearings", test_bearings},
                               {"dead loads", test_dead_loads},
                               {"vehicles, cases, runs", test_vehicles_cases_runs},
                               {"probes and rating", test_probes_and_rating},
                               {"assumptions and ignored effects", test_assumptions_and_ignored},
                               {"shortest description", test_shortest_description},
                               {"warnings", test_warnings},
                               {"names of enumerations", test_names_of_enumerations}};
    return RUN_SUITE("resolve", cases);
}
