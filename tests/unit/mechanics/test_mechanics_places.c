/* test_mechanics_places.c - forces exactly at, just before and just after where members end, on lines, beyond
 * the ends of hinged floor beams, and fields where springs are redundant. */
#include "mechanics/mesh_parts.h"
#include "samples.h"

/* Two cars of two lines; the second begins and ends later. Floor beams hinged at the outer lines when asked.
 */
static void cars_apart_by(sample *s, double offset, bool along, bool hinged) {
    sample_start(s, 2e11, 8e10, 2.3);
    s->bridge.deck.along = along;
    const int girder = hand_section(&s->bridge, 3.1e-4, 1.3e-5, 0.0, 800.0);
    const int cross = hand_section(&s->bridge, 1.1e-4, 1.7e-6, 0.003, 300.0);
    for (int car = 0; car < 2; car++) {
        const double x0 = offset * car, y = 2.9 * car;
        hand_car(&s->bridge, car == 0 ? "north" : "south", x0, x0 + 9.1, y, y + 2.7);
        hand_line(&s->bridge, SS_ROLE_MAIN, "left", y + 0.4, girder);
        hand_line(&s->bridge, SS_ROLE_MAIN, "right", y + 2.3, girder);
        for (int k = 0; k < 3; k++) {
            const int beam = hand_beam(&s->bridge, x0 + 4.55 * k, cross);
            s->bridge.floor_beams[beam].first_hinge = s->bridge.hinge_count;
            for (int l = 0; l < 2 && hinged; l++) {
                s->bridge.hinges[s->bridge.hinge_count++] = s->bridge.cars[car].first_line + l;
                s->bridge.floor_beams[beam].hinge_count++;
            }
        }
        for (int l = 0; l < 2; l++) {
            hand_bearing(&s->bridge, s->bridge.cars[car].first_line + l, x0);
            hand_bearing(&s->bridge, s->bridge.cars[car].first_line + l, x0 + 9.1);
        }
    }
}

static void offset_cars(sample *s, bool along, bool hinged) {
    cars_apart_by(s, 0.37, along, hinged);
}

static double carried(const ss_mesh *mesh, double x, double y) {
    ss_load load;
    ss_error error = {0};
    CHECK_OK(ss_load_create(mesh, &load, &error), &error);
    CHECK_OK(ss_load_force(&load, x, y, 3.7, &error), &error);
    const double total = load.total;
    CU_ASSERT_EQUAL(load.total + load.outside, 3.7);
    ss_row row;
    CHECK_OK(ss_mesh_wheel(mesh, x, y, &row), &error);
    CU_ASSERT_EQUAL(row.count > 0, total > 0.0);
    ss_load_destroy(&load);
    return total / 3.7;
}

/* A wheel a hair past the end of a car is off it, as "just after" means; one there within rounding is on it.
 */
static void test_ends_of_cars(void) {
    sample s;
    ss_mesh mesh;
    offset_cars(&s, false, false);
    sample_mesh(&s, &mesh);
    static const struct {
        double x, y, share;
    } table[] = {{9.1, 1.1, 1.0},          {9.1 + 3e-14, 1.1, 1.0}, {9.1 + 1e-9, 1.1, 0.0},
                 {9.1 + 4e-4, 1.1, 0.0},   {0.37, 4.0, 1.0},        {0.37 - 3e-14, 4.0, 1.0},
                 {0.37 - 1e-9, 4.0, 0.0},  {0.0, 1.1, 1.0},         {-3e-14, 1.1, 1.0},
                 {9.47 + 3e-14, 4.0, 1.0}, {9.47 + 1e-9, 4.0, 0.0}, {-1e-9, 1.1, 0.0}};
    for (size_t i = 0; i < ENTRIES(table); i++) {
        check_near("share that is carried", carried(&mesh, table[i].x, table[i].y), table[i].share, 0.0, 1.0);
    }
    ss_load load;
    ss_error error = {0};
    CHECK_OK(ss_load_create(&mesh, &load, &error), &error);
    CHECK_OK(ss_load_force_on_line(&load, 1, 9.1 + 3e-14, 2.9, &error), &error);
    CHECK_OK(ss_load_force_on_line(&load, 1, 9.1 + 1e-9, 5.3, &error), &error);
    CHECK_CLOSE(load.total, 2.9, 0.0);
    CHECK_CLOSE(load.outside, 5.3, 0.0);
    ss_load_destroy(&load);
    ss_mesh_destroy(&mesh);
}

/* What is placed where a station was merged with another one goes to that station. */
static void test_place_of_a_merged_load(void) {
    sample s;
    ss_mesh mesh;
    offset_cars(&s, false, false);
    hand_probe(&s.bridge, 0, 9.1004);
    sample_mesh(&s, &mesh);
    CU_ASSERT_EQUAL(mesh.merged_count, 1);
    CU_ASSERT_EQUAL(ss_station_of_load(&mesh, 9.1004), 9.1);
    CU_ASSERT_EQUAL(ss_station_of_load(&mesh, 9.0993), 9.1);
    CU_ASSERT_EQUAL(ss_station_of_load(&mesh, 9.2093), 9.2093);
    ss_mesh_destroy(&mesh);
}

/* On a deck that spans along, a wheel on a line is on its node, whatever its y was summed from. */
static void test_wheel_on_a_line(void) {
    sample s;
    ss_mesh mesh;
    offset_cars(&s, true, false);
    sample_mesh(&s, &mesh);
    static const double off[] = {0.0, 5e-16, -5e-16, 4e-13, -4e-13, 9e-11, -9e-11};
    for (size_t i = 0; i < ENTRIES(off); i++) {
        ss_beam_share share[4];
        const int left = ss_mesh_deck_along(&mesh, 2.83, 0.4 + off[i], share);
        CU_ASSERT_EQUAL_FATAL(left, 2);
        CU_ASSERT(share[0].s == 0.0 && share[1].s == 0.0);
        const int right = ss_mesh_deck_along(&mesh, 2.83, 2.3 + off[i], share);
        CU_ASSERT_EQUAL_FATAL(right, 2);
        CU_ASSERT(share[0].s == 1.0 && share[1].s == 1.0);
    }
    ss_beam_share share[4];
    CU_ASSERT_EQUAL_FATAL(ss_mesh_deck_along(&mesh, 2.83, 2.3 - 3e-9, share), 2);
    CU_ASSERT(share[0].s < 1.0 && share[0].s > 1.0 - 1e-8);
    ss_mesh_destroy(&mesh);
}

/* A floor beam is where its station is, so that what it is given keeps its moment about y. */
static void test_floor_beam_at_a_merged_station(void) {
    sample s;
    analysis a;
    cars_apart_by(&s, 4e-4, true, false);
    analysis_start(&a, &s);
    CU_ASSERT_EQUAL(a.mesh.station[a.mesh.beam_station[4]], 4.55);
    ss_error error = {0};
    CHECK_OK(ss_load_force(&a.load, 2.71, 4.3, 7.1e4, &error), &error);
    analysis_solve(&a, NULL, NULL);
    analysis_end(&a);
}

/* ---- overhangs of hinged floor beams ------------------------------------------------------------ */

/* A force 0.31 m beyond the outer line, right over a floor beam that is hinged at both lines: a bar on two
 * pins. Its moment over the line is -P 0.31, the lines carry by the lever, and no line is twisted. */
static void test_overhang_of_a_hinged_beam(void) {
    sample s;
    analysis a;
    offset_cars(&s, true, true);
    analysis_start(&a, &s);
    ss_error error = {0};
    const double P = 61.0e3, arm = 0.31, bay = 1.9;
    CHECK_OK(ss_load_force(&a.load, 4.55, 2.3 + arm, P, &error), &error);
    analysis_solve(&a, NULL, NULL);
    CHECK_CLOSE(effect_at(&a, SS_MEMBER_BEAM, 1, 2.3, true, SS_EFFECT_MOMENT), -P * arm, 1e-12);
    CHECK_CLOSE(effect_at(&a, SS_MEMBER_BEAM, 1, 1.35, false, SS_EFFECT_MOMENT), -0.5 * P * arm, 1e-9);
    CHECK_CLOSE(effect_at(&a, SS_MEMBER_BEAM, 1, 0.4, false, SS_EFFECT_SHEAR), -P * arm / bay, 1e-9);
    check_near("moment at the other pin", effect_at(&a, SS_MEMBER_BEAM, 1, 0.4, false, SS_EFFECT_MOMENT), 0.0,
               1e-12, P * arm);
    CHECK_CLOSE(a.force[2] + a.force[3], P * (1.0 + arm / bay), 1e-9);
    CHECK_CLOSE(a.force[0] + a.force[1], -P * arm / bay, 1e-9);
    for (int line = 0; line < 2; line++)
        check_near("torsion of a line", effect_at(&a, SS_MEMBER_LINE, line, 4.55, true, SS_EFFECT_TORSION),
                   0.0, 1e-12, P * arm);
    analysis_end(&a);
}

/* The effect of a unit force beyond the end, by the row of the effect and what acts within its bay. */
static double by_influence(const analysis *a, const ss_effect *effect, double x, double y) {
    ss_row row;
    ss_mesh_effect_row(&a->mesh, effect, &row);
    double *const tile = calloc((size_t)a->mesh.order * SS_TILE, sizeof *tile);
    double *const work = calloc(ss_grillage_work(a->grillage, NULL), sizeof *work);
    CU_ASSERT_FATAL(tile != NULL && work != NULL);
    for (int i = 0; i < row.count; i++) tile[(size_t)row.dof[i] * SS_TILE] += row.value[i];
    ss_grillage_solve(a->grillage, NULL, tile, work);
    ss_row wheel;
    ss_error error = {0};
    CHECK_OK(ss_mesh_wheel(&a->mesh, x, y, &wheel), &error);
    double sum = 0.0;
    for (int i = 0; i < wheel.count; i++) sum += wheel.value[i] * tile[(size_t)wheel.dof[i] * SS_TILE];
    ss_beam_share share[4];
    const int count = ss_mesh_deck_along(&a->mesh, x, y, share);
    for (int i = 0; i < count; i++) {
        if (share[i].element == effect->element) {
            sum += share[i].weight * ss_mesh_effect_local(&a->mesh, effect, share[i].s) +
                   share[i].arm * ss_mesh_effect_local_overhang(&a->mesh, effect, share[i].s > 0.5);
        }
    }
    free(tile);
    free(work);
    return sum;
}

/* One hinge, two or none, to the left and to the right, with shear deformation: loads, rows and effects say
 * the same. */
static void test_overhang_by_influence(void) {
    static const ss_effect_kind kinds[] = {SS_EFFECT_MOMENT, SS_EFFECT_SHEAR, SS_EFFECT_DEFLECTION};
    static const double at[] = {0.4, 0.93, 2.3};
    for (int hinges = 0; hinges < 4; hinges++) {
        sample s;
        analysis a;
        offset_cars(&s, true, false);
        ss_floor_beam *const beam = &s.bridge.floor_beams[1];
        beam->first_hinge = 0;
        for (int l = 0; l < 2; l++) {
            if ((hinges >> l & 1) != 0) {
                s.bridge.hinges[beam->hinge_count++] = l;
            }
        }
        s.bridge.hinge_count = beam->hinge_count;
        for (int side = 0; side < 2; side++) {
            const double x = 4.1, y = side == 0 ? 0.13 : 2.58;
            ss_error error = {0};
            analysis_start(&a, &s);
            CHECK_OK(ss_load_force(&a.load, x, y, 1.0, &error), &error);
            analysis_solve(&a, NULL, NULL);
            for (size_t k = 0; k < ENTRIES(at) * ENTRIES(kinds); k++) {
                ss_effect effect;
                CHECK_OK(ss_mesh_effect(&a.mesh, SS_MEMBER_BEAM, 1, at[k % 3], k % 3 == 2, kinds[k / 3],
                                        &effect, &error),
                         &error);
                const double direct = ss_mesh_effect_value(&a.mesh, &effect, a.u, &a.load);
                const double scale = kinds[k / 3] == SS_EFFECT_DEFLECTION ? 1e-6 : 1.0;
                check_near("effect by influence", by_influence(&a, &effect, x, y), direct, 1e-9, scale);
            }
            analysis_end(&a);
        }
    }
}

/* ---- redundant rigid springs -------------------------------------------------------------------- */

/* Four single lines on rigid pads with hinged joints from end to end: over the pads each joint is redundant.
 */
static void hinged_lines(sample *s, double spacing) {
    sample_start(s, 2e11, 7.7e10, spacing);
    const int spine = hand_section(&s->bridge, 1.9e-3, 3.3e-4, 0.0, 0.0);
    for (int car = 0; car < 4; car++) {
        hand_car(&s->bridge, "car", 0.0, 16.3, 2.7 * car, 2.7 * car + 2.7);
        const int line = hand_line(&s->bridge, SS_ROLE_MAIN, "spine", 2.7 * car + 1.35, spine);
        hand_pad(&s->bridge, line, 0.0, 0.31);
        hand_pad(&s->bridge, line, 16.3, 0.31);
    }
    for (int car = 0; car < 3; car++) hand_joint(&s->bridge, SS_JOINT_HINGED, car, 0.0, 16.3);
}

/* Influence fields and the refined response to the same row: apart by `least` digits at most. */
static void check_fields(double spacing, double least) {
    sample s;
    analysis a;
    hinged_lines(&s, spacing);
    analysis_start(&a, &s);
    const size_t order = (size_t)a.mesh.order;
    double *const tile = calloc(order * SS_TILE, sizeof *tile);
    double *const work = calloc(ss_grillage_work(a.grillage, NULL), sizeof *work);
    CU_ASSERT_FATAL(tile != NULL && work != NULL);
    static const double at[] = {0.0, 4.1, 8.15, 15.2};
    static const ss_effect_kind kinds[] = {SS_EFFECT_SHEAR, SS_EFFECT_TORSION, SS_EFFECT_DEFLECTION};
    for (int k = 0; k < 12; k++) {
        ss_error error = {0};
        ss_effect effect;
        ss_row row;
        const double x = a.mesh.station[ss_station_nearest(&a.mesh, at[k % 4])];
        CHECK_OK(ss_mesh_effect(&a.mesh, SS_MEMBER_LINE, k % 3, x, false, kinds[k / 4], &effect, &error),
                 &error);
        ss_mesh_effect_row(&a.mesh, &effect, &row);
        memset(tile, 0, order * SS_TILE * sizeof *tile);
        memset(a.load.nodal, 0, order * sizeof *a.load.nodal);
        for (int i = 0; i < row.count; i++) {
            tile[(size_t)row.dof[i] * SS_TILE + 7] += row.value[i];
            a.load.nodal[row.dof[i]] += row.value[i];
        }
        ss_grillage_solve(a.grillage, NULL, tile, work);
        CHECK_OK(ss_grillage_respond(a.grillage, NULL, a.load.nodal, NULL, a.u, a.force, &error), &error);
        double largest = 1e-9, apart = 0.0;
        for (size_t i = 0; i < order; i += 3) {
            largest = fmax(largest, fabs(a.u[i]));
            apart = fmax(apart, fabs(a.u[i] - tile[i * SS_TILE + 7]));
        }
        check_near("fields apart", apart, 0.0, least, largest);
    }
    free(tile);
    free(work);
    analysis_end(&a);
}

/* A redundant spring within the small systems would leave 1e-8 at any stations; the mesh's own condition 1e-7
 * at close ones. */
static void test_fields_with_redundant_springs(void) {
    check_fields(1.1, 3e-11);
    check_fields(0.075, 1e-9);
}

/* By Betti's theorem the field of a settlement gives the force of that spring under any load. */
static void test_settlement_fields_with_redundant_springs(void) {
    sample s;
    analysis a;
    hinged_lines(&s, 0.9);
    analysis_start(&a, &s);
    const size_t order = (size_t)a.mesh.order;
    double *const tile = calloc(order * SS_TILE, sizeof *tile);
    double *const work = calloc(ss_grillage_work(a.grillage, NULL), sizeof *work);
    CU_ASSERT_FATAL(tile != NULL && work != NULL);
    ss_error error = {0};
    const double P = 8.3e4;
    CHECK_OK(ss_load_force(&a.load, 5.77, 3.1, P, &error), &error);
    analysis_solve(&a, NULL, NULL);
    static const int springs[] = {0, 3, 5, 11, 16, 31, 40};
    ss_grillage_settle(a.grillage, NULL, ENTRIES(springs), springs, tile, work);
    for (int j = 0; j < ENTRIES(springs); j++) {
        double force = 0.0;
        for (size_t i = 0; i < order; i++) force += tile[i * SS_TILE + (size_t)j] * a.load.nodal[i];
        check_near("force by its field", force, a.force[springs[j]], 1e-10, P);
    }
    free(tile);
    free(work);
    analysis_end(&a);
}

/* A support that is moved against a rigid joint over it is resisted at that place alone: both supports take
 * it, and nothing else moves. */
static void test_redundant_joint_resists_settlement(void) {
    sample s;
    analysis a;
    hinged_lines(&s, 1.9);
    analysis_start(&a, &s);
    double *const offset = calloc((size_t)a.mesh.spring_count, sizeof *offset);
    CU_ASSERT_FATAL(offset != NULL);
    offset[0] = offset[1] = 0.0031; /* the first line's pad at the first end goes down */
    analysis_solve(&a, NULL, offset);
    double sum = 0.0, most = 0.0;
    for (int i = 0; i < 16; i++) {
        sum += a.force[i];
        most = fmax(most, fabs(a.force[i]));
    }
    CU_ASSERT(most > 1e6 && fabs(sum) < 1e-9 * most);
    const double step = a.u[3 * a.mesh.node_at[0]];
    CHECK_CLOSE(step, 0.0031, 1e-12);
    free(offset);
    analysis_end(&a);
}

int main(void) {
    static const test_case cases[] = {
        {"ends of cars", test_ends_of_cars},
        {"the place of a merged load", test_place_of_a_merged_load},
        {"a wheel on a line", test_wheel_on_a_line},
        {"a floor beam at a merged station", test_floor_beam_at_a_merged_station},
        {"overhang of a hinged beam", test_overhang_of_a_hinged_beam},
        {"overhang by influence", test_overhang_by_influence},
        {"fields with redundant springs", test_fields_with_redundant_springs},
        {"settlement fields with redundant springs", test_settlement_fields_with_redundant_springs},
        {"a redundant joint resists settlement", test_redundant_joint_resists_settlement},
    };
    return RUN_SUITE("places", cases);
}
