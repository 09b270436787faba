/* test_watch_places.c - what watched places are computed from: forces within bays of floor beams, fields of
 * settlements, forces out of displacements, and what governs among ratings. */
#include <string.h>

#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"
#include "response/placements.h"
#include "sillspan/watch.h"
#include "unit/studies/watched_samples.h"

#define LENGTH (24.0 * 12.0 * 0.0254) /* of the cars */

/* ---- forces within bays ----------------------------------------------------------------------------- */

/* Whether a wheel at y is over the floor beams of a car, not beyond its outermost lines. */
static bool between_lines(const ss_bridge *bridge, double y) {
    for (int c = 0; c < bridge->car_count; c++) {
        const ss_car *const car = &bridge->cars[c];
        if (y >= bridge->lines[car->first_line].y &&
            y <= bridge->lines[car->first_line + car->line_count - 1].y) {
            return true;
        }
    }
    return false;
}

/* Under a deck that spans along, floor beams carry all of a truck, by the lever rule along and at its y. */
static void test_bays(void) {
    ss_description d = sample_read(MILL_POND, NULL);
    ss_variant v;
    sample_load(&d, &v);
    int tried = 0, within = 0;
    for (int t = 0; t < v.placements.track_count; t++) {
        const ss_track *const track = &v.placements.tracks[t];
        if (v.placements.trains[track->train].gauge_m == 0.0) {
            continue;
        }
        const ss_vehicle *const train = &v.placements.trains[track->train];
        double length = 0.0;
        for (int i = 0; i < train->axle_count; i++) length += train->spacing_m[i];
        /* All axles between the ends, the front one nearer to the far end than to the near one or back. */
        const double room = LENGTH - length;
        const double front = track->backward ? 0.37 * room : LENGTH - 0.41 * room;
        const ss_position position = {.track = t, .x = front};
        ss_bay_force bays[SS_BAY_FORCES_MOST];
        ss_load load;
        ss_error error = {0};
        const int count = ss_placements_bays(&v.mesh, &v.placements, &position, bays);
        CHECK_OK(ss_placements_load(&v.mesh, &v.placements, &position, &load, &error), &error);
        double total = 0.0, across = 0.0, along = 0.0;
        for (int i = 0; i < count; i++) {
            const ss_element *const e = &v.mesh.element[bays[i].element];
            const double a = v.bridge.lines[v.mesh.node_line[e->a]].y;
            const double b = v.bridge.lines[v.mesh.node_line[e->b]].y;
            CU_ASSERT(bays[i].s >= 0.0 && bays[i].s <= 1.0);
            total += bays[i].P;
            across += bays[i].P * (a + bays[i].s * (b - a));
            along += bays[i].P * v.mesh.station[v.mesh.node_station[e->a]];
        }
        /* Beside floor beams the deck reaches to members by other ways. */
        if (fabs(total - load.total) < 1e-9 * load.total) {
            double expected = 0.0;
            for (int i = 0; i < train->axle_count; i++) {
                expected += train->axle_N[i] * ss_axle_x(train, track->backward, front, i);
            }
            check_near("along", along, expected, 1e-11, total * LENGTH);
            tried++;
            if (between_lines(&v.bridge, track->y - 0.5 * train->gauge_m) &&
                between_lines(&v.bridge, track->y + 0.5 * train->gauge_m)) {
                check_near("across", across, load.moment_x, 1e-11, total * LENGTH);
                within++;
            }
        }
        ss_load_destroy(&load);
    }
    CU_ASSERT(tried > 10 && within > 2);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

/* Forces to the left of a section within a bay take their part off its shear, and off its moment by their
 * arm; at the ends of a bay they are the nodes'. */
static void test_passed(void) {
    ss_description d = sample_read(MILL_POND, NULL);
    ss_variant v;
    sample_load(&d, &v);
    int tried = 0;
    for (int i = 0; i < v.effect_count; i++) {
        ss_effect effect = v.effects[i];
        if (effect.member != SS_MEMBER_BEAM || !(effect.s > 0.2 && effect.s < 0.8)) {
            continue;
        }
        const double length = v.mesh.element[effect.element].length;
        const ss_bay_force forces[] = {{effect.element, 0.5 * effect.s, 300.0},
                                       {effect.element, effect.s, 7000.0},
                                       {effect.element, 0.5 + 0.5 * effect.s, 50000.0},
                                       {effect.element, 0.0, 9e6},
                                       {effect.element + 1, 0.5 * effect.s, 9e6}};
        const double passed = ss_bay_forces_passed(&v.mesh, &effect, forces, ENTRIES(forces));
        const bool shear = effect.kind == SS_EFFECT_SHEAR || effect.kind == SS_EFFECT_WEB_PLUS ||
                           effect.kind == SS_EFFECT_WEB_MINUS;
        const double expected = effect.kind == SS_EFFECT_MOMENT ? -300.0 * 0.5 * effect.s * length
                                : shear                         ? -300.0 - (effect.before ? 0.0 : 7000.0)
                                                                : 0.0;
        check_near("passed", passed, expected, 1e-12, 300.0);
        effect.before = !effect.before;
        const double other = ss_bay_forces_passed(&v.mesh, &effect, forces, ENTRIES(forces));
        check_near("jump", fabs(other - passed), shear ? 7000.0 : 0.0, 1e-12, 7000.0);
        tried++;
    }
    CU_ASSERT(tried > 20);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

/* ---- fields and forces ------------------------------------------------------------------------------ */

/* A tile of settlements is each of them alone, to the last digits; lanes beyond are nothing. */
static void test_settlements(void) {
    ss_description d = sample_read(MILL_POND, NULL);
    ss_variant v;
    ss_error error = {0};
    sample_stand(&d, &v);
    const int *springs = NULL;
    const double *S = NULL;
    const int n = ss_grillage_contact(v.grillage, &springs, &S), count = n < SS_TILE ? n : SS_TILE - 3;
    const size_t order = (size_t)v.mesh.order;
    double *const tile = ss_alloc(order * SS_TILE, sizeof *tile);
    double *const u = ss_alloc(order, sizeof *u);
    double *const force = ss_alloc((size_t)v.mesh.spring_count, sizeof *force);
    double *const offset = ss_alloc((size_t)v.mesh.spring_count, sizeof *offset);
    CU_ASSERT_FATAL(count > 3 && tile != NULL && u != NULL && force != NULL && offset != NULL);
    CHECK_OK(ss_grillage_settle_refined(v.grillage, count, springs, tile, &error), &error);
    for (int lane = 0; lane < count; lane++) {
        double most = 0.0, off = 0.0;
        offset[springs[lane]] = 1.0;
        CHECK_OK(ss_grillage_respond(v.grillage, NULL, NULL, offset, u, force, &error), &error);
        offset[springs[lane]] = 0.0;
        for (size_t i = 0; i < order; i++) {
            most = fmax(most, fabs(u[i]));
            off = fmax(off, fabs(u[i] - tile[i * SS_TILE + (size_t)lane]));
        }
        CU_ASSERT(most > 0.0 && off <= 1e-11 * most);
        /* S is what the springs answer: symmetric, and minus the forces. */
        for (int k = 0; k < n; k++) {
            check_near("S", -force[springs[k]], S[lane * n + k], 1e-9, S[lane * n + lane]);
        }
    }
    for (size_t i = 0; i < order; i++) CU_ASSERT_EQUAL(tile[i * SS_TILE + (size_t)count], 0.0);
    ss_free(tile);
    ss_free(u);
    ss_free(force);
    ss_free(offset);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

/* Springs of joints are soft as long as a difference of displacements tells their force; rigid ones never. */
static void test_soft(void) {
    static const struct {
        const char *path, *value;
        bool soft;
    } rows[] = {{"bridge.joints.seam.shear", "0.1 kip/in/in", true},
                {"bridge.joints.seam.shear", "1 kip/in/in", true},
                {"bridge.joints.seam.kind", "rigid", false}};
    for (int r = 0; r < ENTRIES(rows); r++) {
        ss_description d = sample_read(STONE_RUN, NULL);
        ss_variant v;
        sample_set(&d, rows[r].path, rows[r].value);
        sample_stand(&d, &v);
        const ss_state *const state = &v.permanent.present;
        double most = 0.0;
        int joints = 0;
        for (int i = 0; i < v.mesh.spring_count; i++) most = fmax(most, fabs(state->force[i]));
        for (int i = 0; i < v.mesh.spring_count; i++) {
            const ss_spring *const spring = &v.mesh.spring[i];
            if (spring->owner != SS_MEMBER_JOINT) {
                continue;
            }
            CHECK_ROW(ss_grillage_soft(v.grillage, i) == rows[r].soft, rows[r].value);
            joints++;
            if (rows[r].soft) {
                double moved = -state->offset[i];
                for (int k = 0; k < spring->row.count; k++) {
                    moved += spring->row.value[k] * state->u[spring->row.dof[k]];
                }
                check_near(rows[r].value, moved / spring->flexibility, state->force[i], 1e-9, most);
            }
        }
        CU_ASSERT(joints > 5);

        ss_variant_destroy(&v);
        ss_description_destroy(&d);
    }
}

/* ---- what governs ----------------------------------------------------------------------------------- */

/* The smallest of each check and crossing, of each check, of all but deflection; alternatives and released
 * members do not count there. */
static void test_govern(void) {
    const sample_setting asked[] = {{"rating.methods", "LRFR, ASR"},
                                    {"rating.crossings", "alone, centred"},
                                    {"rating.release_secondary", "true"},
                                    {"rating.deflection_limit", "800"},
                                    {NULL, NULL}};
    ss_description d = sample_read(STONE_RUN, asked);
    ss_variant v;
    sample_rate(&d, &v);
    ss_ratings again = v.ratings;
    again.arena = (ss_arena){0};
    again.governing = again.worst = NULL;
    again.controlling = -7;
    CU_ASSERT_EQUAL_FATAL(ss_ratings_govern(&v.bridge, &v.placements, &again), SS_OK);
    const ss_ratings *const r = &v.ratings;
    double controlling = (double)INFINITY;
    for (int c = 0; c < r->check_count; c++) {
        for (int t = 0; t < r->traffic_count; t++) {
            double least = (double)INFINITY;
            for (int i = 0; i < r->count; i++) {
                const ss_rating_item *const item = &r->items[i];
                if (item->check == c && item->traffic == t && !ss_rating_released(&v.bridge, &item->effect)) {
                    least = fmin(least, item->rf);
                }
            }
            const int governing = ss_ratings_governing(&again, c, t);
            CU_ASSERT_EQUAL(governing, ss_ratings_governing(r, c, t));
            /* Of equals, mirror images among them, the first governs: they differ by rounding. */
            CU_ASSERT(governing < 0 ? isinf(least) : fabs(again.items[governing].rf - least) <= 1e-9 * least);
            const ss_traffic *const traffic = &v.placements.traffic[t];
            if (r->checks[c].limit != SS_LIMIT_DEFLECTION &&
                !v.bridge.crossings[traffic->crossing].alternative) {
                controlling = fmin(controlling, least);
            }
        }
        CU_ASSERT_EQUAL(again.worst[c], r->worst[c]);
    }
    CU_ASSERT_EQUAL(again.controlling, r->controlling);
    CU_ASSERT(fabs(again.items[again.controlling].rf - controlling) <= 1e-9 * controlling);
    ss_arena_destroy(&again.arena);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

int main(void) {
    static const test_case cases[] = {
        {"forces within bays", test_bays}, {"forces passed", test_passed}, {"settlements", test_settlements},
        {"soft springs", test_soft},       {"what governs", test_govern},
    };
    return RUN_SUITE("watched places, computed from", cases);
}
