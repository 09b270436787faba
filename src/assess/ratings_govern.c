/* ratings_govern.c - which of the rating factors govern: of each check and crossing, of each check, of all.
 */
#include "sillspan/ratings.h"

/* Factors that agree within this, relative, are one: the first is kept. */
#define TIE 1e-9

static bool is_alternative(const ss_bridge *bridge, const ss_placements *placements, int traffic) {
    const int crossing = placements->traffic[traffic].crossing;
    return crossing >= 0 && bridge->crossings[crossing].alternative;
}

static void take_smaller(const ss_ratings *ratings, int item, int *best) {
    if (item >= 0 && (*best < 0 || ratings->items[item].rf < ratings->items[*best].rf * (1.0 - TIE))) {
        *best = item;
    }
}

bool ss_rating_released(const ss_bridge *bridge, const ss_effect *effect) {
    const bool local = effect->member == SS_MEMBER_LINE || effect->member == SS_MEMBER_BEAM;
    return bridge->rating.release_secondary && local &&
           !ss_member_primary(bridge, effect->member, effect->index);
}

/* Levels that decide who may cross come first. */
static int importance(const ss_check *check) {
    switch (check->level) {
    case SS_LEVEL_LEGAL:
    case SS_LEVEL_EMERGENCY:
    case SS_LEVEL_PERMIT: return 2;
    case SS_LEVEL_OPERATING: return 1;
    case SS_LEVEL_INVENTORY: return 0;
    }
    return 0;
}

static void fill_governing(const ss_bridge *bridge, ss_ratings *out) {
    const int traffics = out->traffic_count;
    for (int i = 0; i < out->check_count * traffics; i++) out->governing[i] = -1;
    for (int i = 0; i < out->count; i++) {
        const ss_rating_item *const item = &out->items[i];
        if (!ss_rating_released(bridge, &item->effect)) {
            take_smaller(out, i, &out->governing[item->check * traffics + item->traffic]);
        }
    }
}

void ss_ratings_decide(const ss_bridge *bridge, const ss_placements *placements, ss_ratings *out) {
    const int traffics = out->traffic_count;
    out->controlling = -1;
    int level = -1;
    for (int c = 0; c < out->check_count; c++) {
        out->worst[c] = -1;
        for (int t = 0; t < traffics; t++) {
            if (!is_alternative(bridge, placements, t)) {
                take_smaller(out, out->governing[c * traffics + t], &out->worst[c]);
            }
        }
        /* The first method asked for decides; deflection is a matter of comfort. */
        const bool counts = out->checks[c].limit != SS_LIMIT_DEFLECTION &&
                            out->checks[c].method == out->checks[0].method && out->worst[c] >= 0;
        if (counts && importance(&out->checks[c]) > level) {
            level = importance(&out->checks[c]);
            out->controlling = out->worst[c];
        } else if (counts && importance(&out->checks[c]) == level) {
            take_smaller(out, out->worst[c], &out->controlling);
        }
    }
}

ss_status ss_ratings_govern(const ss_bridge *bridge, const ss_placements *placements, ss_ratings *out) {
    const size_t pairs = (size_t)out->check_count * (size_t)out->traffic_count;
    out->governing = ss_arena_alloc(&out->arena, pairs + 1, sizeof *out->governing);
    out->worst = ss_arena_alloc(&out->arena, SS_CHECKS_MAX, sizeof *out->worst);
    if (out->governing == NULL || out->worst == NULL) {
        return SS_ERROR_MEMORY;
    }
    fill_governing(bridge, out);
    ss_ratings_decide(bridge, placements, out);
    return SS_OK;
}
