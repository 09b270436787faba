/* joint_out.c - ratings that rely on a joint beyond what it can carry, replaced by those with the joint out.
 */
#include "sillspan/joint_out.h"

#include <string.h>

#include "assess/ratings_demands.h"
#include "base/numeric.h"
#include "base/try.h"
#include "sillspan/memory.h"
#include "studies/changes.h"

/* ---- who relies on a joint -------------------------------------------------------------------------- */

/* The plain trucks in an item's factor. */
static double multiple_of(const ss_variant *v, const ss_rating_item *item) {
    const ss_traffic *const traffic = &v->placements.traffic[item->traffic];
    const ss_crossing_facts facts = ss_traffic_facts(&v->bridge, traffic);
    ss_method_factors factors;
    ss_check_factors(&v->bridge, &v->ratings.checks[item->check], &v->bridge.vehicles[traffic->vehicle],
                     &facts, &item->effect, &factors);
    return item->rf * ss_method_scale(&factors);
}

/* The member with the smallest factor of a crossing by a check, of those that count; -1: none. */
static int weakest_member(const ss_variant *v, int check, int traffic) {
    int best = -1;
    for (int i = 0; i < v->ratings.count; i++) {
        const ss_rating_item *const item = &v->ratings.items[i];
        if (item->check == check && item->traffic == traffic && item->effect.member != SS_MEMBER_JOINT &&
            !ss_rating_released(&v->bridge, &item->effect) &&
            (best < 0 || item->rf < v->ratings.items[best].rf)) {
            best = i;
        }
    }
    return best;
}

/* The joint that is full under the fewest trucks: by the check itself or, where that does not look at joints,
 * by any other of its method. */
static int weakest_joint(const ss_variant *v, int check, int traffic, double *multiple) {
    const ss_ratings *const r = &v->ratings;
    int best = -1;
    for (int own = 1; own >= 0 && best < 0; own--) {
        for (int i = 0; i < r->count; i++) {
            const ss_rating_item *const item = &r->items[i];
            if (item->effect.member != SS_MEMBER_JOINT || item->traffic != traffic ||
                (own == 1 ? item->check != check
                          : r->checks[item->check].method != r->checks[check].method)) {
                continue;
            }
            const double here = multiple_of(v, item);
            if (best < 0 || here < *multiple) {
                best = i;
                *multiple = here;
            }
        }
    }
    return best;
}

static ss_status find_reliance(const ss_variant *v, ss_joint_out *out) {
    const ss_ratings *const r = &v->ratings;
    out->items =
        ss_arena_alloc(&out->arena, (size_t)(r->check_count * r->traffic_count) + 1, sizeof *out->items);
    if (out->items == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (int c = 0; c < r->check_count; c++) {
        for (int t = 0; t < r->traffic_count && r->checks[c].limit != SS_LIMIT_DEFLECTION; t++) {
            double full = 0.0;
            const int member = weakest_member(v, c, t);
            const int joint = member < 0 ? -1 : weakest_joint(v, c, t, &full);
            const double held = member < 0 ? 0.0 : multiple_of(v, &r->items[member]);
            if (joint >= 0 && full < held * (1.0 - 1e-9)) {
                const double members = r->items[member].rf;
                out->items[out->count++] = (ss_joint_reliance){.check = c,
                                                               .traffic = t,
                                                               .joint = joint,
                                                               .full = members * full / held,
                                                               .members = members,
                                                               .without = SS_NAN};
            }
        }
    }
    return SS_OK;
}

/* ---- the bridge without them ------------------------------------------------------------------------ */

/* Marks them in `taken` (joint_count) too. */
static bool take_joints(const ss_variant *v, const ss_joint_out *out, ss_description *changed, bool *taken) {
    for (int i = 0; i < out->count; i++) {
        taken[v->ratings.items[out->items[i].joint].effect.index] = true;
    }
    for (int j = 0; j < v->bridge.joint_count; j++) {
        if (taken[j] && !ss_change_take_joint(changed, &v->bridge, j)) {
            return false;
        }
    }
    return true;
}

static ss_status rate_without(const ss_joint_out_rater *rater, const ss_description *description,
                              const ss_variant *base, ss_joint_out *out, ss_variant *without,
                              ss_error *error) {
    ss_description changed;
    ss_diag_list diags = {0};
    ss_error why = {0};
    ss_status status = ss_change_copy(description, &changed);
    if (status != SS_OK) {
        return status;
    }
    bool *const taken = ss_arena_alloc(&out->arena, (size_t)base->bridge.joint_count + 1, sizeof *taken);
    status = taken != NULL && take_joints(base, out, &changed, taken)
                 ? rater->rate(rater->context, &changed, taken, without, &diags, &why)
                 : SS_ERROR_MEMORY;
    ss_diag_destroy(&diags);
    ss_description_destroy(&changed);
    if (status == SS_OK) {
        return SS_OK;
    }
    if (status == SS_ERROR_MEMORY) {
        ss_error_set(error, status, "%s", ss_status_text(status));
        return SS_ERROR_MEMORY;
    }
    out->failure =
        ss_arena_printf(&out->arena, "%s", why.message[0] != '\0' ? why.message : ss_status_text(status));
    return out->failure == NULL ? SS_ERROR_MEMORY : SS_OK;
}

/* ---- into the ratings of the bridge ----------------------------------------------------------------- */

/* Room for some more items behind those that are there. */
static ss_status make_room(ss_ratings *ratings, int more) {
    ss_rating_item *const items =
        ss_arena_alloc(&ratings->arena, (size_t)(ratings->count + more) + 1, sizeof *items);
    if (items == NULL) {
        return SS_ERROR_MEMORY;
    }
    memcpy(items, ratings->items, (size_t)ratings->count * sizeof *items);
    ratings->items = items;
    return SS_OK;
}

/* The tracks of the other placements, behind the bridge's own: trains are the same. */
static ss_status add_tracks(ss_placements *placements, const ss_placements *other, int *first) {
    const size_t count = (size_t)placements->track_count + (size_t)other->track_count;
    ss_track *const tracks = ss_realloc(placements->tracks, count + 1, sizeof *tracks);
    if (tracks == NULL) {
        return SS_ERROR_MEMORY;
    }
    placements->tracks = tracks;
    *first = placements->track_count;
    for (int i = 0; i < other->track_count; i++) tracks[*first + i] = other->tracks[i];
    placements->track_count = (int)count;
    return SS_OK;
}

static ss_status adopt(ss_variant *base, const ss_variant *without, ss_joint_reliance *one, int first_track) {
    ss_ratings *const r = &base->ratings;
    const int from = ss_ratings_governing(&without->ratings, one->check, one->traffic);
    if (from < 0) {
        return SS_OK;
    }
    ss_rating_item item = without->ratings.items[from];
    item.joint_out = true;
    for (int i = 0; i < SS_LANES_MAX; i++) {
        ss_position *const position = &item.position[i];
        position->track += position->track < 0 ? 0 : first_track;
        if (position->train != NULL) {
            ss_vehicle *const train = ss_arena_alloc(&r->arena, 1, sizeof *train);
            if (train == NULL) {
                return SS_ERROR_MEMORY;
            }
            *train = *position->train;
            position->train = train;
        }
    }
    if (item.lane_count > 0) {
        ss_lane_stretch *const lanes = ss_arena_alloc(&r->arena, (size_t)item.lane_count, sizeof *lanes);
        if (lanes == NULL) {
            return SS_ERROR_MEMORY;
        }
        memcpy(lanes, item.lane, (size_t)item.lane_count * sizeof *lanes);
        item.lane = lanes;
    }
    one->without = item.rf;
    r->governing[one->check * r->traffic_count + one->traffic] = r->count;
    r->items[r->count++] = item;
    return SS_OK;
}

static ss_status rate_all(void *context, const ss_description *description, const bool *taken,
                          ss_variant *out, ss_diag_list *diags, ss_error *error) {
    const ss_variant_asks all = {.vehicle = -1};
    (void)context;
    (void)taken;
    return ss_variant_of(description, &all, out, diags, error);
}

ss_status ss_joint_out_compute(const ss_description *description, ss_variant *base, ss_joint_out *out,
                               ss_error *error) {
    return ss_joint_out_compute_by(&(ss_joint_out_rater){rate_all, NULL}, description, base, out, error);
}

ss_status ss_joint_out_compute_by(const ss_joint_out_rater *rater, const ss_description *description,
                                  ss_variant *base, ss_joint_out *out, ss_error *error) {
    ss_joint_out made = {0};
    ss_status status = SS_OK;
    int first_track = 0;
    ss_variant without = {0};
    *out = (ss_joint_out){0};
    SS_TRY(find_reliance(base, &made));
    if (made.count == 0) {
        ss_joint_out_destroy(&made);
        return SS_OK;
    }
    SS_TRY(rate_without(rater, description, base, &made, &without, error));
    if (made.failure == NULL) {
        SS_TRY(make_room(&base->ratings, made.count));
        SS_TRY(add_tracks(&base->placements, &without.placements, &first_track));
        for (int i = 0; i < made.count; i++) {
            SS_TRY(adopt(base, &without, &made.items[i], first_track));
        }
        ss_ratings_decide(&base->bridge, &base->placements, &base->ratings);
    }
    *out = made;
    made = (ss_joint_out){0};
done:
    ss_variant_destroy(&without);
    ss_joint_out_destroy(&made);
    return status;
}

void ss_joint_out_destroy(ss_joint_out *out) {
    if (out == NULL) {
        return;
    }
    ss_arena_destroy(&out->arena);
    *out = (ss_joint_out){0};
}
