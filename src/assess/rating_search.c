/* rating_search.c - the smallest multiple of each truck for each rated effect, from envelopes and contact
 * paths. */
#include "assess/rating_search.h"

#include <math.h>

#include "assess/rating_absorb.h"
#include "base/numeric.h"
#include "base/try.h"

static bool allocate(ss_rating_search *search, ss_arena *arena) {
    const size_t traffic = (size_t)search->placements->traffic_count;
    const size_t rated = (size_t)search->rated->count;
    const size_t groups = (size_t)search->rated->group_count;
    const size_t springs = (size_t)search->contact_count;
    search->capacity = ss_arena_alloc(arena, rated * traffic + 1, sizeof *search->capacity);
    search->multiplier = ss_arena_alloc(arena, rated * traffic + 1, sizeof *search->multiplier);
    search->dead = ss_arena_alloc(arena, 2 * rated + 1, sizeof *search->dead);
    search->dead_closed = ss_arena_alloc(arena, 2 * rated + 1, sizeof *search->dead_closed);
    search->opening = ss_arena_alloc(arena, rated * springs + 1, sizeof *search->opening);
    search->r_dead = ss_arena_alloc(arena, 2 * springs + 1, sizeof *search->r_dead);
    search->cases = ss_arena_alloc(arena, 2 * rated * traffic + 1, sizeof *search->cases);
    search->lowest = ss_arena_alloc(arena, groups * traffic + 1, sizeof *search->lowest);
    search->tips = ss_arena_alloc(arena, traffic + 1, sizeof *search->tips);
    search->work = ss_arena_alloc(arena, ss_contact_work(search->contact_count) + 1, sizeof *search->work);
    return search->capacity != NULL && search->multiplier != NULL && search->dead != NULL &&
           search->dead_closed != NULL && search->opening != NULL && search->r_dead != NULL &&
           search->cases != NULL && search->lowest != NULL && search->tips != NULL && search->work != NULL;
}

static void fill_factors(ss_rating_search *search, const ss_rating_rule *rule, const ss_bridge *bridge) {
    rule->dead(bridge, search->factors);
    const bool same =
        search->factors[0].dc == search->factors[1].dc && search->factors[0].dw == search->factors[1].dw;
    search->dead_count = same ? 1 : 2;
    for (int i = 0; i < search->rated->count; i++) {
        for (int t = 0; t < search->placements->traffic_count; t++) {
            const ss_vehicle *const vehicle = &bridge->vehicles[search->placements->traffic[t].vehicle];
            const ss_rated *const rated = &search->rated->items[i];
            ss_rating_factors factors;
            rule->factors(bridge, vehicle, &rated->effect, &factors);
            search->capacity[ss_rating_at(search, i, t)] = ss_rating_capacity(&factors, rated->nominal.value);
            search->multiplier[ss_rating_at(search, i, t)] = factors.live * (1.0 + factors.allowance);
        }
    }
}

ss_status ss_rating_search_init(ss_rating_search *search, const ss_rating_rule *rule, ss_arena *arena) {
    const int *springs = NULL;
    search->contact_count = ss_grillage_contact(search->permanent->grillage, &springs, &search->S);
    if (!allocate(search, arena)) {
        return SS_ERROR_MEMORY;
    }
    const int traffic = search->placements->traffic_count;
    const double none = (double)INFINITY;
    for (int i = 0; i < 2 * search->rated->count * traffic; i++) {
        search->cases[i] = (ss_rating_case){none, none, none, false, 0, {.track = -1}};
    }
    for (int i = 0; i < search->rated->group_count * traffic; i++) search->lowest[i] = none;
    for (int t = 0; t < traffic; t++) search->tips[t] = (ss_rating_tip){none, 0, {.track = -1}};
    fill_factors(search, rule, ss_grillage_mesh(search->permanent->grillage)->bridge);
    search->reactions = (ss_rating_reactions){
        .permanent = search->permanent, .placements = search->placements, .n = search->contact_count};
    return SS_OK;
}

void ss_rating_search_destroy(ss_rating_search *search) {
    ss_rating_reactions_destroy(&search->reactions);
}

double ss_rating_search_lowest(const ss_rating_search *search, int traffic) {
    double lowest = (double)INFINITY;
    for (int g = 0; g < search->rated->group_count; g++) {
        lowest = ss_min(lowest, search->lowest[ss_rating_at(search, g, traffic)]);
    }
    for (int i = 0; i < search->rated->count && isfinite(search->tips[traffic].multiple); i++) {
        lowest = ss_min(lowest, search->tips[traffic].multiple /
                                    search->multiplier[ss_rating_at(search, i, traffic)]);
    }
    return lowest;
}

const ss_rating_case *ss_rating_search_governing(const ss_rating_search *search, int group, int traffic,
                                                 int *rated, bool *most) {
    const ss_rating_case *best = NULL;
    for (int i = search->rated->group_first[group]; i < search->rated->group_first[group + 1]; i++) {
        for (int side = 1; side >= 0; side--) {
            const ss_rating_case *const one = ss_rating_case_at(search, i, traffic, side == 1);
            if (best == NULL || one->rf < best->rf * (1.0 - SS_RATING_TIE)) {
                best = one;
                *rated = i;
                *most = side == 1;
            }
        }
    }
    return best;
}

const ss_rating_case *ss_rating_search_sought(const ss_rating_search *search, int group, int traffic,
                                              int *rated, bool *most) {
    const ss_rating_case *const best = ss_rating_search_governing(search, group, traffic, rated, most);
    const double multiple = best->rf * search->multiplier[ss_rating_at(search, *rated, traffic)];
    const bool sought =
        best->rf > 0.0 && best->rf <= SS_RATING_SOUGHT && !best->tips && multiple > search->linear_up_to;
    return sought ? best : NULL;
}

ss_contact_path ss_rating_search_path(const ss_rating_search *search, int rated, int dead) {
    const size_t n = (size_t)search->contact_count;
    return (ss_contact_path){
        .n = search->contact_count,
        .S = search->S,
        .r_dead = search->r_dead + (size_t)dead * n,
        .opening = search->opening + (size_t)rated * n,
        .e_dead = search->dead_closed[(size_t)dead * (size_t)search->rated->count + (size_t)rated]};
}

/* ---- one envelope ------------------------------------------------------------------------------- */

static void forward_progress(void *context, double done) {
    const ss_rating_search *const search = context;
    search->progress(search->context,
                     search->progress_from + done * (search->progress_to - search->progress_from));
}

/* Without contact springs the other dead load moves nothing but the dead effects. */
static ss_status absorb_other_dead(ss_rating_search *search, const ss_rating_request *request,
                                   ss_envelope *envelope, ss_error *error) {
    ss_status status = SS_OK;
    ss_state state = {0};
    ss_rating_request other = *request;
    other.dead = 1;
    SS_TRY(ss_permanent_state(search->permanent, true, search->factors[1], NULL, 0.0, &state, error));
    const ss_mesh *const mesh = ss_grillage_mesh(search->permanent->grillage);
    for (int e = 0; e < request->count; e++) {
        envelope->dead[e] = ss_state_effect(mesh, &state, &envelope->effects[e]);
        envelope->dead_closed[e] = envelope->dead[e];
    }
    SS_TRY(ss_rating_absorb(&(ss_rating_look){search, &other, envelope, error}));
done:
    ss_state_destroy(&state);
    return status;
}

/* The placements of one traffic (-1: all), whose own track numbers then begin at 0. `one` is where its only
 * entry lives. */
static ss_placements part_of(const ss_placements *all, int traffic, ss_traffic *one) {
    if (traffic < 0) {
        return *all;
    }
    *one = all->traffic[traffic];
    const ss_placements part = {.trains = all->trains,
                                .train_count = all->train_count,
                                .traffic = one,
                                .traffic_count = 1,
                                .tracks = all->tracks + one->first_track,
                                .track_count = one->track_count};
    one->first_track = 0;
    return part;
}

static void move_track(ss_position *position, int by) {
    position->track += position->track >= 0 ? by : 0;
}

/* Gives the positions of a part the track numbers of the whole. */
static void count_tracks_from(ss_envelope *envelope, int first) {
    const size_t extremes = (size_t)envelope->effect_count * (size_t)envelope->traffic_count * 2;
    for (size_t i = 0; i < extremes; i++) move_track(&envelope->extremes[i].position, first);
    for (size_t i = 0; i < extremes * SS_CANDIDATES; i++) move_track(&envelope->candidates[i], first);
    move_track(&envelope->tip, first);
    for (int t = 0; t < envelope->traffic_count; t++) move_track(&envelope->traffic_tip[t], first);
}

/* Dead load that tips the bridge by itself: it matters which factors were on. */
static ss_status with_factors(int dead, ss_status status, const ss_error *inner, ss_error *error) {
    if (status == SS_OK) {
        return SS_OK;
    }
    const char *const when = status != SS_ERROR_TIPPING ? ""
                             : dead == 0                ? "with the largest dead load factors: "
                                                        : "with the smallest dead load factors: ";
    return ss_error_set(error, status, "%s%s", when, inner->message);
}

ss_status ss_rating_search_run(ss_rating_search *search, const ss_rating_request *request, ss_error *error) {
    ss_status status = SS_OK;
    ss_envelope envelope = {0};
    ss_error inner = {0};
    ss_effect *const effects = ss_alloc((size_t)request->count, sizeof *effects);
    ss_traffic one;
    const ss_placements placements = part_of(search->placements, request->traffic, &one);
    const ss_envelope_options options = {.factors = search->factors[request->dead],
                                         .live_factor = request->multiple,
                                         .progress = search->progress == NULL ? NULL : forward_progress,
                                         .context = search};
    SS_TRY(effects == NULL ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the rated effects") : SS_OK);
    for (int e = 0; e < request->count; e++) effects[e] = search->rated->items[request->which[e]].effect;
    SS_TRY(with_factors(request->dead,
                        ss_envelope_compute(search->permanent, &placements, effects, request->count, &options,
                                            &envelope, &inner),
                        &inner, error));
    if (request->traffic >= 0) {
        count_tracks_from(&envelope, search->placements->traffic[request->traffic].first_track);
    }
    if ((envelope.contact_matters || envelope.tips) && request->multiple <= search->linear_up_to) {
        search->linear_up_to = 0.0;
    }
    SS_TRY(ss_rating_absorb(&(ss_rating_look){search, request, &envelope, error}));
    if (search->contact_count == 0 && search->dead_count > 1) {
        SS_TRY(absorb_other_dead(search, request, &envelope, error));
    }
done:
    ss_envelope_destroy(&envelope);
    ss_free(effects);
    return status;
}

static double largest_multiplier(const ss_rating_search *search) {
    double largest = 0.0;
    const size_t all = (size_t)search->rated->count * (size_t)search->placements->traffic_count;
    for (size_t i = 0; i < all; i++) largest = ss_max(largest, search->multiplier[i]);
    return largest;
}

/* Dead load with its smallest factors keeps at least this share of what the largest make of it (0.65 / 1.50,
 * rounded down). */
#define DEAD_KEPT 0.4

/* Sections are worth the second dead load where their factor comes this near to their group's smallest. */
#define WORTH_SECOND 1.5

/*
 * Could the smallest dead load factors govern at this section? Where dead load adds to the truck they could
 * only through the bearings; where it relieves, the factor falls at most by what DEAD_KEPT leaves of the
 * relief.
 */
static bool worth_second(const ss_rating_search *search, int rated) {
    const int group = search->rated->items[rated].group;
    for (int t = 0; t < search->placements->traffic_count; t++) {
        const double capacity = search->capacity[ss_rating_at(search, rated, t)];
        for (int side = 0; side < 2; side++) {
            const ss_rating_case *const one = ss_rating_case_at(search, rated, t, side == 1);
            const double relief = ss_max(0.0, side == 1 ? -search->dead[rated] : search->dead[rated]);
            const double fall = (capacity + DEAD_KEPT * relief) / (capacity + relief);
            if (ss_min(one->rf, one->guess) * fall <=
                WORTH_SECOND * search->lowest[ss_rating_at(search, group, t)]) {
                return true;
            }
        }
    }
    return false;
}

/* Effects of the dead load with its smallest factors, also of sections that are then not searched under it.
 */
static ss_status fill_other_dead(ss_rating_search *search, ss_error *error) {
    const ss_mesh *const mesh = ss_grillage_mesh(search->permanent->grillage);
    const int count = search->rated->count;
    ss_state state = {0};
    if (search->dead_count < 2) {
        return SS_OK;
    }
    const ss_status status =
        ss_permanent_state(search->permanent, true, search->factors[1], NULL, 0.0, &state, error);
    for (int i = 0; status == SS_OK && i < count; i++) {
        search->dead[count + i] = ss_state_effect(mesh, &state, &search->rated->items[i].effect);
    }
    ss_state_destroy(&state);
    return status;
}

ss_status ss_rating_search_all(ss_rating_search *search, ss_error *error) {
    ss_status status = SS_OK;
    const double from = search->progress_from;
    const double to = search->progress_to;
    const int runs = search->contact_count == 0 ? 1 : search->dead_count;
    ss_rating_request request = {
        .count = search->rated->count, .traffic = -1, .multiple = largest_multiplier(search)};
    int *const which = ss_alloc((size_t)request.count, sizeof *which);
    SS_TRY(which == NULL ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the rated effects") : SS_OK);
    for (int i = 0; i < request.count; i++) which[i] = i;
    request.which = which;
    search->linear_up_to = request.multiple;
    SS_TRY(fill_other_dead(search, error));
    for (request.dead = 0; request.dead < runs && request.count > 0; request.dead++) {
        search->progress_from = from + (to - from) * request.dead / runs;
        search->progress_to = from + (to - from) * (request.dead + 1) / runs;
        SS_TRY(ss_rating_search_run(search, &request, error));
        int kept = 0;
        for (int i = 0; i < request.count; i++) {
            if (worth_second(search, which[i])) which[kept++] = which[i];
        }
        request.count = kept;
    }
    if (search->contact_count == 0) {
        search->linear_up_to = (double)INFINITY;
    }
done:
    ss_free(which);
    return status;
}
