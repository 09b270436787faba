/* axle_plan.c - the shares of a unit axle on the members for every lateral position that trucks are tried at.
 */
#include "response/axle_plan.h"

#include "base/try.h"
#include "mechanics/deck.h"
#include "mechanics/mesh_parts.h"
#include "response/state.h"

enum { SHARES_MOST = 16 };

/* ---- shares within one interval ----------------------------------------------------------------- */

/* Two wheels with the shares of both ends of the interval; within it they are linear, so two points inside
 * give them. */
static int collect_shares(const ss_mesh *mesh, int interval, const ss_axle_plan *plan,
                          ss_axle_share out[SHARES_MOST]) {
    double wheel[2];
    const int wheels = ss_axle_wheels(plan->gauge, plan->y, wheel);
    const double x0 = mesh->station[interval];
    const double length = mesh->station[interval + 1] - x0;
    const double part = 1.0 / wheels;
    int count = 0;
    for (int w = 0; w < wheels; w++) {
        ss_deck_shares near, far;
        ss_deck_shares_at(mesh, interval, x0 + 0.25 * length, wheel[w], &near);
        ss_deck_shares_at(mesh, interval, x0 + 0.75 * length, wheel[w], &far);
        for (int i = 0; i < near.carrier_count && count < SHARES_MOST; i++) {
            const ss_carrier *c = &near.carrier[i];
            const double weight = part * c->weight, arm = part * c->arm;
            out[count++] = (ss_axle_share){.element = ss_mesh_line_element(mesh, interval, c->line),
                                           .weight0 = weight,
                                           .weight1 = weight,
                                           .arm0 = arm,
                                           .arm1 = arm};
        }
        for (int i = 0; i < near.beam_count && i < far.beam_count && count < SHARES_MOST; i++) {
            const ss_beam_share *a = &near.beam[i], *b = &far.beam[i];
            out[count++] = (ss_axle_share){.element = a->element,
                                           .across = true,
                                           .at = a->s,
                                           .weight0 = part * (1.5 * a->weight - 0.5 * b->weight),
                                           .weight1 = part * (1.5 * b->weight - 0.5 * a->weight),
                                           .arm0 = part * (1.5 * a->arm - 0.5 * b->arm),
                                           .arm1 = part * (1.5 * b->arm - 0.5 * a->arm)};
        }
    }
    return count;
}

static ss_status plan_shares(ss_axle_plans *plans, ss_axle_plan *plan, ss_error *error) {
    const ss_mesh *mesh = plans->mesh;
    ss_axle_share found[SHARES_MOST];
    int total = 0;
    for (int i = 0; i < plans->interval_count; i++) total += collect_shares(mesh, i, plan, found);
    plan->first = ss_arena_alloc(&plans->arena, (size_t)plans->interval_count + 1, sizeof *plan->first);
    plan->share = ss_arena_alloc(&plans->arena, (size_t)total, sizeof *plan->share);
    if (plan->first == NULL || plan->share == NULL) {
        return ss_no_memory(error);
    }
    total = 0;
    for (int i = 0; i < plans->interval_count; i++) {
        plan->first[i] = total;
        total += collect_shares(mesh, i, plan, &plan->share[total]);
    }
    plan->first[plans->interval_count] = total;
    return SS_OK;
}

/* ---- on floor beams ----------------------------------------------------------------------------- */

/* A wheel through the lines at a station: the deck just after it, else just before. */
static int points_of_lines(const ss_mesh *mesh, int station, double y, double part, ss_axle_point *out) {
    for (int k = 0; k < 2; k++) {
        const int interval = station - k;
        ss_deck_shares shares = {0};
        if (interval >= 0 && interval + 1 < mesh->station_count) {
            ss_deck_shares_at(mesh, interval, mesh->station[station], y, &shares);
        }
        for (int i = 0; i < shares.carrier_count; i++) {
            const ss_carrier *c = &shares.carrier[i];
            out[i] = (ss_axle_point){.element = ss_mesh_line_element(mesh, interval, c->line),
                                     .at = (double)k,
                                     .weight = part * c->weight,
                                     .arm = part * c->arm};
        }
        if (shares.carrier_count > 0) {
            return shares.carrier_count;
        }
    }
    return 0;
}

static int collect_points(const ss_mesh *mesh, int station, const ss_axle_plan *plan, bool *on_beam,
                          ss_axle_point out[SHARES_MOST]) {
    double wheel[2];
    const int wheels = ss_axle_wheels(plan->gauge, plan->y, wheel);
    int count = 0;
    *on_beam = false;
    for (int w = 0; w < wheels; w++) {
        int element;
        double s;
        if (ss_wheel_on_beam(mesh, station, wheel[w], &element, &s)) {
            out[count++] =
                (ss_axle_point){.element = element, .across = true, .at = s, .weight = 1.0 / wheels};
            *on_beam = true;
        } else {
            count += points_of_lines(mesh, station, wheel[w], 1.0 / wheels, &out[count]);
        }
    }
    return count;
}

static ss_status plan_points(ss_axle_plans *plans, ss_axle_plan *plan, ss_error *error) {
    const size_t stations = (size_t)plans->beam_station_count;
    ss_axle_point found[SHARES_MOST];
    plan->point_first = ss_arena_alloc(&plans->arena, stations + 1, sizeof *plan->point_first);
    plan->point = ss_arena_alloc(&plans->arena, stations * 8, sizeof *plan->point);
    plan->on_beam = ss_arena_alloc(&plans->arena, stations, sizeof *plan->on_beam);
    if (plan->point_first == NULL || plan->point == NULL || plan->on_beam == NULL) {
        return ss_no_memory(error);
    }
    int total = 0;
    for (int k = 0; k < plans->beam_station_count; k++) {
        const int count = collect_points(plans->mesh, plans->beam_station[k], plan, &plan->on_beam[k], found);
        plan->point_first[k] = total;
        for (int i = 0; i < count; i++) plan->point[total++] = found[i];
    }
    plan->point_first[plans->beam_station_count] = total;
    return SS_OK;
}

/* ---- the list ----------------------------------------------------------------------------------- */

static ss_status list_beam_stations(ss_axle_plans *plans, ss_error *error) {
    const ss_mesh *mesh = plans->mesh;
    plans->beam_station =
        ss_arena_alloc(&plans->arena, (size_t)mesh->station_count, sizeof *plans->beam_station);
    if (plans->beam_station == NULL) {
        return ss_no_memory(error);
    }
    for (int k = 0; k < mesh->station_count && !mesh->bridge->deck.along; k++) {
        bool found = false;
        for (int i = 0; i < mesh->bridge->floor_beam_count; i++) {
            found = found || (mesh->beam_station[i] == k && !(mesh->bridge->floor_beams[i].strip > 0.0) &&
                              mesh->beam_first[i + 1] > mesh->beam_first[i]);
        }
        if (found) {
            plans->beam_station[plans->beam_station_count++] = k;
        }
    }
    return SS_OK;
}

/* At most so many plans: one for every change of gauge along every train, and for every line of a load over
 * the carriageway. */
static size_t count_gauges(const ss_placements *placements) {
    size_t count = 0;
    for (int t = 0; t < placements->track_count; t++) {
        const ss_vehicle *train = &placements->trains[placements->tracks[t].train];
        count++;
        for (int a = 1; a < train->axle_count; a++)
            count += ss_vehicle_gauge(train, a) != ss_vehicle_gauge(train, a - 1);
    }
    return count + (size_t)placements->area_line_count;
}

static int plan_at(ss_axle_plans *plans, double y, double gauge) {
    int p = 0;
    while (p < plans->count && !(plans->plan[p].y == y && plans->plan[p].gauge == gauge)) p++;
    if (p == plans->count) {
        plans->plan[plans->count++] = (ss_axle_plan){.y = y, .gauge = gauge, .fine = true};
    }
    return p;
}

/* One plan for each distinct pair of gauge and y, in the order of the tracks and their axles, then of the
 * lines of a load over the carriageway. */
static ss_status list_plans(ss_axle_plans *plans, const ss_placements *placements, ss_error *error) {
    plans->plan = ss_arena_alloc(&plans->arena, count_gauges(placements), sizeof *plans->plan);
    plans->of_axle =
        ss_arena_alloc(&plans->arena, (size_t)placements->track_count * SS_AXLES_MAX, sizeof *plans->of_axle);
    plans->of_area =
        ss_arena_alloc(&plans->arena, (size_t)placements->area_line_count + 1, sizeof *plans->of_area);
    if (plans->plan == NULL || plans->of_axle == NULL || plans->of_area == NULL) {
        return ss_no_memory(error);
    }
    for (int t = 0; t < placements->track_count; t++) {
        const ss_track *track = &placements->tracks[t];
        const ss_vehicle *train = &placements->trains[track->train];
        int *const of_axle = plans->of_axle + (size_t)t * SS_AXLES_MAX;
        for (int a = 0; a < train->axle_count; a++) {
            const double gauge = ss_vehicle_gauge(train, a);
            const bool same = a > 0 && gauge == ss_vehicle_gauge(train, a - 1);
            of_axle[a] = same ? of_axle[a - 1] : plan_at(plans, track->y, gauge);
            plans->plan[of_axle[a]].fine = plans->plan[of_axle[a]].fine && track->fine;
        }
    }
    for (int i = 0; i < placements->area_line_count; i++) {
        plans->of_area[i] = plan_at(plans, placements->area_lines[i].y, 0.0);
        plans->plan[plans->of_area[i]].fine = false;
    }
    return SS_OK;
}

/* A fine track beside another one only differs from it where wheels stand on floor beams. */
static int twin_of(const ss_axle_plans *plans, int p) {
    if (!plans->plan[p].fine || plans->mesh->bridge->deck.along) {
        return p;
    }
    for (int q = 0; q < plans->count; q++) {
        if (!plans->plan[q].fine && plans->plan[q].gauge == plans->plan[p].gauge &&
            fabs(plans->plan[q].y - plans->plan[p].y) < 1.5 * SS_BESIDE) {
            return q;
        }
    }
    return p;
}

void ss_axle_plans_destroy(ss_axle_plans *plans) {
    ss_arena_destroy(&plans->arena);
    *plans = (ss_axle_plans){0};
}

ss_status ss_axle_plans_build(const ss_mesh *mesh, const ss_placements *placements, ss_axle_plans *out,
                              ss_error *error) {
    ss_status status = SS_OK;
    ss_axle_plans plans = {.mesh = mesh, .interval_count = mesh->station_count - 1};
    SS_TRY(list_beam_stations(&plans, error));
    SS_TRY(list_plans(&plans, placements, error));
    for (int p = 0; p < plans.count; p++) {
        plans.plan[p].lines_of = twin_of(&plans, p);
        SS_TRY(plan_shares(&plans, &plans.plan[p], error));
        SS_TRY(plan_points(&plans, &plans.plan[p], error));
    }
    plans.shape = ss_arena_alloc(&plans.arena, (size_t)mesh->element_count * 24, sizeof *plans.shape);
    if (plans.shape == NULL) {
        status = ss_no_memory(error);
        goto done;
    }
    for (int i = 0; i < mesh->element_count; i++) {
        double c[6][4];
        ss_element_shape(&mesh->element[i], c);
        for (size_t k = 0; k < 24; k++) plans.shape[24 * (size_t)i + k] = c[k / 4][k % 4];
    }
    *out = plans;
    plans = (ss_axle_plans){0};
done:
    ss_axle_plans_destroy(&plans);
    return status;
}
