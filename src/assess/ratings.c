/* ratings.c - rating factors of every member, for every crossing, by every check. */
#include "sillspan/ratings.h"

#include <math.h>
#include <string.h>

#include "assess/rating_notes.h"
#include "assess/ratings_demands.h"
#include "assess/ratings_proof.h"
#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"

/* A US ton of force, 2000 lbf, in N (the pound and standard gravity are exact). */
#define TON (2000.0 * 4.4482216152605)

/* How far, of capacity and dead effect together, the effect under the rated load may be beyond the capacity.
 */
#define BEYOND 1e-6

/* Factors that agree within this, relative, are one: the first is kept. */
#define TIE 1e-9

typedef struct rating_run {
    const ss_permanent *permanent;
    const ss_placements *placements;
    const ss_bridge *bridge;
    const ss_reacher *reach;
    const ss_rated_list *rated;
    const ss_check_list *checks;
    const ss_rated_member *members;
    double *work; /* contact springs */
    int *group;   /* of each item */
} rating_run;

/* ---- one rating --------------------------------------------------------------------------------- */

static void take_tip(const ss_reach_tip *tip, double scale, int tip_dead, ss_rating_item *item, int *dead) {
    const double factor = tip->multiple / scale;
    if (factor < item->rf * (1.0 - TIE)) {
        item->rf = factor;
        item->tips = true;
        item->truck_count = tip->truck_count;
        item->local = tip->truck_count > 1;
        memcpy(item->position, tip->position, (size_t)tip->truck_count * sizeof *tip->position);
        *dead = tip_dead;
    }
}

/* Where the bridge tips before the section is full, that is the factor. `followed`: two of the demand. */
static void apply_tipping(const rating_run *run, const ss_demand *demand, const ss_reach_tip *followed,
                          double scale, ss_rating_item *item, int *dead) {
    for (int i = 0; i < demand->dead_count && !demand->over_dead; i++) {
        const int d = demand->dead[i];
        take_tip(&run->reach->tips[d * run->placements->traffic_count + item->traffic], scale, d, item, dead);
        take_tip(&followed[i], scale, d, item, dead);
    }
}

/* What is uniform load of a lane in the live effect. */
static void fill_lane(const rating_run *run, const ss_reached *found, const ss_reached_lane *lane,
                      ss_rating_item *item) {
    item->lane_share = 1.0;
    if (lane == NULL || found->effect < 0 || lane->count == 0 || item->tips) {
        return;
    }
    const ss_track *const track = &run->placements->tracks[found->position[0].track];
    if (!run->placements->trains[track->train].lane_allowance) {
        item->lane_share = 1.0 / (1.0 + item->factors.allowance);
    }
    item->lane_live = lane->effect / item->lane_share;
    item->lane_count = lane->count;
    item->lane = lane->stretch;
}

static double first_scale(const ss_demand *demand, int traffic, int count) {
    for (int e = 0; e < count; e++) {
        const double scale = demand->scale[(size_t)traffic * (size_t)count + (size_t)e];
        if (scale > 0.0) {
            return scale;
        }
    }
    return SS_NAN;
}

static void fill_item(const rating_run *run, const ss_rated_member *member, int check, int traffic,
                      ss_rating_item *out) {
    const int at = check * run->placements->traffic_count + traffic;
    const int q = member->demand[at];
    const double ratio = member->ratio[at];
    const ss_demand *const demand = &member->member.demands[q];
    const ss_reached *const found = &member->member.reached[q * run->placements->traffic_count + traffic];
    const ss_reached_lane *const lane =
        member->member.lane == NULL ? NULL
                                    : &member->member.lane[q * run->placements->traffic_count + traffic];
    const ss_check *const c = &run->checks->items[check];
    const ss_traffic *const own = &run->placements->traffic[traffic];
    const ss_vehicle *const vehicle = &run->bridge->vehicles[own->vehicle];
    const ss_crossing_facts facts = ss_traffic_facts(run->bridge, own);
    const int effect = found->effect < 0 ? 0 : found->effect;
    const ss_rated *const rated = &run->rated->items[member->first_rated + effect];
    int dead = found->effect < 0 ? demand->dead[0] : found->dead;
    ss_rating_item item = {.check = check,
                           .traffic = traffic,
                           .effect = rated->effect,
                           .most = found->effect < 0 || found->most,
                           .rf = found->factor * ratio,
                           .rf_linear = found->linear * ratio,
                           .local = found->local,
                           .proved = found->proved > 0.0 ? found->proved * ratio : SS_NAN,
                           .arrangements = found->arrangements,
                           .truck_count = found->effect < 0 ? 1 : found->truck_count};
    item.nominal = *ss_rated_nominal(rated, c, item.most);
    for (int i = 0; i < SS_LANES_MAX; i++) item.position[i] = (ss_position){.track = -1};
    if (found->effect >= 0) {
        memcpy(item.position, found->position, sizeof item.position);
    }
    const double scale = first_scale(demand, traffic, member->member.count);
    apply_tipping(run, demand, &member->member.tip[2 * (q * run->placements->traffic_count + traffic)],
                  scale / ratio, &item, &dead);
    item.minimum_dead = demand->dead_count == 2 && dead == demand->dead[1];
    ss_check_factors(run->bridge, c, vehicle, &facts, &item.effect, &item.factors);
    item.factors.dc = run->checks->factors[dead].dc;
    item.factors.dw = run->checks->factors[dead].dw;
    if (demand->over_dead) {
        item.nominal.value = SS_NAN;
    } else {
        item.dead = ss_reach_dead(run->reach, dead, &item.effect, run->work);
    }
    const double capacity =
        ss_check_capacity(run->bridge, c, &item.factors, &item.effect, ss_rated_nominal(rated, c, item.most));
    item.capacity = item.most ? capacity : -capacity;
    if (found->effect >= 0) {
        const bool filled = item.rf > 0.0 && isfinite(item.rf) && !item.tips;
        item.live =
            filled ? (item.capacity - item.dead) / (item.rf * ss_method_scale(&item.factors)) : found->live;
    }
    item.proved = isnan(item.proved) ? SS_NAN : ss_min(item.proved, item.rf);
    fill_lane(run, found, lane, &item);
    item.tons = item.rf * ss_vehicle_rated_weight(vehicle) / TON;
    *out = item;
}

static bool fits(const ss_traffic *traffic) {
    return traffic->track_count > 0 || traffic->lane_count[0] > 0;
}

static ss_status collect(rating_run *run, ss_arena *arena, ss_ratings *out) {
    const int groups = run->rated->group_count, traffics = run->placements->traffic_count;
    int count = 0;
    for (int pass = 0; pass < 2; pass++) {
        count = 0;
        for (int c = 0; c < run->checks->count; c++) {
            for (int t = 0; t < traffics; t++) {
                for (int g = 0; g < groups; g++) {
                    if (!fits(&run->placements->traffic[t]) || run->members[g].demand[c * traffics + t] < 0) {
                        continue;
                    }
                    if (pass == 1) {
                        run->group[count] = g;
                        fill_item(run, &run->members[g], c, t, &out->items[count]);
                    }
                    count++;
                }
            }
        }
        if (pass == 0) {
            out->items = ss_arena_alloc(&out->arena, (size_t)count + 1, sizeof *out->items);
            run->group = ss_arena_alloc(arena, (size_t)count + 1, sizeof *run->group);
            if (out->items == NULL || run->group == NULL) {
                return SS_ERROR_MEMORY;
            }
        }
    }
    out->count = count;
    return SS_OK;
}

/* Where lane loads lie, and vehicles of their own, into the memory of the result. */
static ss_status copy_parts(ss_ratings *out) {
    for (int i = 0; i < out->count; i++) {
        ss_rating_item *const item = &out->items[i];
        if (item->position[0].train != NULL) {
            ss_vehicle *const train = ss_arena_alloc(&out->arena, 1, sizeof *train);
            if (train == NULL) {
                return SS_ERROR_MEMORY;
            }
            *train = *item->position[0].train;
            item->position[0].train = train;
        }
        if (item->lane_count == 0) {
            continue;
        }
        ss_lane_stretch *const copy = ss_arena_alloc(&out->arena, (size_t)item->lane_count, sizeof *copy);
        if (copy == NULL) {
            return SS_ERROR_MEMORY;
        }
        memcpy(copy, item->lane, (size_t)item->lane_count * sizeof *copy);
        item->lane = copy;
    }
    return SS_OK;
}

/* ---- proofs -------------------------------------------------------------------------------------- */

/* What governs under two trucks abreast is proven, or a worse arrangement found; then what comes next. */
static ss_status prove(const rating_run *run, ss_arena *arena, ss_ratings *out, ss_error *error) {
    ss_status status = SS_OK;
    for (int next = 0; next < 2 && status == SS_OK; next++) {
        status = ss_ratings_prove(run->reach, run->members, run->group, out, next == 1, arena, error);
        for (int i = 0; status == SS_OK && i < out->count; i++) {
            ss_rating_item *const item = &out->items[i];
            fill_item(run, &run->members[run->group[i]], item->check, item->traffic, item);
        }
        if (status == SS_OK) {
            status = ss_ratings_govern(run->bridge, run->placements, out);
        }
    }
    return status;
}

/* ---- checks of the result ----------------------------------------------------------------------- */

/* A truck that acts within the effect's own element away from its ends: a state does not tell the effect
 * there. */
static bool hidden(const ss_effect *effect, const ss_load *load) {
    if (effect->element < 0 || effect->s == 0.0 || effect->s == 1.0) {
        return false;
    }
    for (int i = 0; i < 6; i++) {
        if (load->clamped[6 * (size_t)effect->element + (size_t)i] != 0.0) {
            return true;
        }
    }
    return false;
}

/* Solves the state under the rated load directly: the effect must be at its capacity. */
static ss_status verify(const rating_run *run, const ss_rating_item *item, ss_error *error) {
    if (item->tips || !(item->rf > 0.0) || !isfinite(item->rf) || item->position[0].track < 0) {
        return SS_OK;
    }
    const ss_mesh *const mesh = ss_grillage_mesh(run->permanent->grillage);
    const ss_dead_factors factors = {item->factors.dc, item->factors.dw};
    ss_load load = {0}, other = {0};
    ss_state total = {0};
    ss_status status = SS_OK;
    SS_TRY(ss_placements_load(mesh, run->placements, &item->position[0], &load, error));
    for (int i = 1; i < item->truck_count; i++) {
        SS_TRY(ss_placements_load(mesh, run->placements, &item->position[i], &other, error));
        ss_load_add(&load, 1.0, &other);
        ss_load_destroy(&other);
    }
    for (int i = 0; i < item->lane_count; i++) {
        const ss_position *const truck = &item->position[item->lane[i].truck];
        const ss_vehicle *const train = &run->placements->trains[run->placements->tracks[truck->track].train];
        const double share = train->lane_allowance ? 1.0 : 1.0 / (1.0 + item->factors.allowance);
        SS_TRY(ss_placements_load_lane(run->placements, truck->track, &item->lane[i], share, &load, error));
    }
    if (hidden(&item->effect, &load)) {
        goto done;
    }
    const double multiple = item->rf * ss_method_scale(&item->factors);
    SS_TRY(ss_permanent_state(run->permanent, true, factors, &load, multiple, &total, error));
    double effect = ss_state_effect(mesh, &total, &item->effect);
    if (run->checks->items[item->check].over_dead) {
        const int dead = run->checks->dead[item->check][0];
        effect -= ss_reach_dead(run->reach, dead, &item->effect, run->work);
    }
    const double beyond = item->most ? effect - item->capacity : item->capacity - effect;
    if (beyond > BEYOND * (fabs(item->capacity) + fabs(item->dead))) {
        status = ss_error_set(error, SS_ERROR_CHECK,
                              "a rated section is beyond its capacity under the load that it was rated for");
    }
done:
    ss_state_destroy(&total);
    ss_load_destroy(&other);
    ss_load_destroy(&load);
    return status;
}

/* ---- notes -------------------------------------------------------------------------------------- */

static ss_status write_notes(const rating_run *run, const ss_rating_notes *notes, ss_ratings *out) {
    const char **sections = NULL;
    int count = 0;
    const ss_status status = ss_rating_notes_text(notes, run->bridge, &sections, &count);
    if (status != SS_OK) {
        return status;
    }
    const char **const all =
        ss_arena_alloc(&out->arena, (size_t)(count + out->traffic_count) + 1, sizeof *all);
    if (all == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (int i = 0; i < count; i++) {
        all[i] = ss_arena_text(&out->arena, sections[i], strlen(sections[i]));
        if (all[i] == NULL) {
            return SS_ERROR_MEMORY;
        }
    }
    for (int t = 0; t < out->traffic_count; t++) {
        if (!fits(&run->placements->traffic[t])) {
            all[count] = ss_arena_printf(&out->arena, "%s is not rated: the roadway has no room for it",
                                         run->bridge->vehicles[run->placements->traffic[t].vehicle].name);
            if (all[count++] == NULL) {
                return SS_ERROR_MEMORY;
            }
        }
    }
    out->notes = all;
    out->note_count = count;
    return SS_OK;
}

/* ---- public ------------------------------------------------------------------------------------- */

static ss_status check_settings(const ss_bridge *bridge, ss_error *error) {
    const bool condition = !isnan(bridge->rating.condition);
    const bool system = !isnan(bridge->rating.system);
    if ((condition && system) || !ss_method_asked(bridge, SS_METHOD_LRFR)) {
        return SS_OK;
    }
    return ss_error_set(error, SS_ERROR_DESCRIPTION, "%s not given, and %s never guessed: a rating needs %s",
                        condition ? "rating.system is"
                        : system  ? "rating.condition is"
                                  : "rating.condition and rating.system are",
                        condition || system ? "it is" : "they are", condition || system ? "it" : "both");
}

static ss_status search(rating_run *run, ss_rated_member *members, ss_arena *arena,
                        void (*progress)(void *context, double done), void *context, ss_error *error) {
    const int groups = run->rated->group_count;
    ss_reach_member *const all = ss_arena_alloc(arena, (size_t)groups + 1, sizeof *all);
    if (all == NULL) {
        return ss_no_memory(error);
    }
    for (int g = 0; g < groups; g++) all[g] = members[g].member;
    return ss_reach_members(run->reach, all, groups, progress, context, error);
}

/* Of places one by one nothing is proven: what governs is. */
static ss_status finish(rating_run *run, bool places, const ss_rating_notes *notes, ss_arena *arena,
                        ss_ratings *out, ss_error *error) {
    ss_status status = SS_OK;
    out->check_count = run->checks->count;
    out->traffic_count = run->placements->traffic_count;
    memcpy(out->checks, run->checks->items, sizeof out->checks);
    SS_TRY(collect(run, arena, out));
    SS_TRY(ss_ratings_govern(run->bridge, run->placements, out) == SS_OK ? SS_OK : ss_no_memory(error));
    SS_TRY(places ? SS_OK : prove(run, arena, out, error));
    SS_TRY(copy_parts(out));
    ss_ratings_decide(run->bridge, run->placements, out);
    for (int c = 0; c < out->check_count; c++) {
        if (out->worst[c] >= 0) {
            SS_TRY(verify(run, &out->items[out->worst[c]], error));
        }
    }
    SS_TRY(write_notes(run, notes, out));
done:
    return status;
}

/* What is rated, and how. */
typedef struct rating_task {
    const ss_permanent *permanent;
    const ss_placements *placements;
    const ss_effect *effects;
    int effect_count;
    const int *traffics; /* of each effect: the only one that it is rated under, and one rating is kept for
                            each place; NULL: all, and one for each member */
    void (*progress)(void *context, double done);
    void *context;
} rating_task;

static ss_status compute(const rating_task *task, ss_ratings *out, ss_error *error) {
    const ss_permanent *const permanent = task->permanent;
    const ss_placements *const placements = task->placements;
    ss_status status = SS_OK;
    const ss_mesh *const mesh = ss_grillage_mesh(permanent->grillage);
    ss_ratings ratings = {0};
    ss_arena passing = {0};
    ss_rated_list rated = {0};
    ss_rating_notes notes = {.arena = &passing};
    ss_check_list checks = {0};
    ss_reacher reach = {0};
    ss_rated_member *members = NULL;
    rating_run run = {permanent, placements, mesh->bridge, &reach, &rated, &checks, NULL, NULL, NULL};
    if (error != NULL) {
        *error = (ss_error){0};
    }
    SS_TRY(check_settings(mesh->bridge, error));
    SS_TRY(ss_check_list_build(mesh->bridge, &checks, error));
    SS_TRY(ss_rated_list_build(permanent, task->effects, task->effect_count, task->traffics == NULL, &notes,
                               &rated, error));
    if (task->traffics != NULL) {
        ss_rated_list_split(&rated, task->traffics);
    }
    SS_TRY(ss_rated_members_build(permanent, placements, &rated, &checks, &passing, &members, error));
    run.members = members;
    SS_TRY(ss_reach_create(permanent, placements, checks.factors, checks.factor_count, &reach, error));
    run.work = ss_arena_alloc(&passing, (size_t)reach.n + 1, sizeof *run.work);
    SS_TRY(run.work == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(search(&run, members, &passing, task->progress, task->context, error));
    SS_TRY(finish(&run, task->traffics != NULL, &notes, &passing, &ratings, error));
    *out = ratings;
    ratings = (ss_ratings){0};
done:
    ss_reach_destroy(&reach);
    ss_arena_destroy(&passing);
    ss_ratings_destroy(&ratings);
    if (status != SS_OK && error != NULL && error->message[0] == '\0') {
        ss_error_set(error, status, "the rating: %s", ss_status_text(status));
    }
    return status;
}

ss_status ss_ratings_compute(const ss_permanent *permanent, const ss_placements *placements,
                             const ss_effect *effects, int effect_count,
                             void (*progress)(void *context, double done), void *context, ss_ratings *out,
                             ss_error *error) {
    const rating_task task = {permanent, placements, effects, effect_count, NULL, progress, context};
    return compute(&task, out, error);
}

ss_status ss_ratings_along(const ss_permanent *permanent, const ss_placements *placements,
                           const ss_effect *effects, const int *traffics, int effect_count, ss_ratings *out,
                           ss_error *error) {
    const rating_task task = {permanent, placements, effects, effect_count, traffics, NULL, NULL};
    return compute(&task, out, error);
}

void ss_ratings_destroy(ss_ratings *ratings) {
    if (ratings == NULL) {
        return;
    }
    ss_arena_destroy(&ratings->arena);
    *ratings = (ss_ratings){0};
}
