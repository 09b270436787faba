/* watch_ratings.c - factors at watched places as the ratings of a bridge. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "studies/watch_parts.h"

/* A US ton of force, 2000 lbf, in N (the pound and standard gravity are exact). */
#define TON (2000.0 * 4.4482216152605)

/* False: the bridge has no such place, or no factor was found there. */
static bool make_item(const ss_watch *watch, const ss_variant *variant, int number,
                      const ss_watch_value *value, ss_rating_item *out) {
    const ss_watched_item *const item = &watch->items[number];
    const ss_watched_stand *const stand = &watch->stands[item->stand];
    const ss_traffic *const traffic = &watch->placements.traffic[stand->traffic];
    ss_rating_item made = {.check = item->check,
                           .traffic = stand->traffic,
                           .most = item->most,
                           .rf = value->value,
                           .rf_linear = SS_NAN,
                           .proved = SS_NAN,
                           .tips = value->tips,
                           .truck_count = stand->truck_count,
                           .lane_count = stand->lane_count,
                           .lane = stand->lane,
                           .lane_share = stand->lane_share};
    if (item->check == SS_WATCH_LIVE || isnan(value->value) ||
        !ss_watch_locate(&variant->mesh, &watch->effects[item->effect], &made.effect)) {
        return false;
    }
    memcpy(made.position, stand->position, sizeof made.position);
    made.tons = value->value * ss_vehicle_rated_weight(&variant->bridge.vehicles[traffic->vehicle]) / TON;
    *out = made;
    return true;
}

ss_status ss_watch_ratings(const ss_watch *watch, const ss_variant *variant, const ss_watch_value *values,
                           ss_ratings *out, ss_error *error) {
    ss_ratings made = {.traffic_count = watch->placements.traffic_count};
    ss_status status = SS_OK;
    made.check_count = ss_checks(&variant->bridge, made.checks);
    made.items = ss_arena_alloc(&made.arena, (size_t)watch->item_count + 1, sizeof *made.items);
    SS_TRY(made.items == NULL ? ss_no_memory(error) : SS_OK);
    for (int i = 0; i < watch->item_count; i++) {
        made.count += make_item(watch, variant, i, &values[i], &made.items[made.count]);
    }
    SS_TRY(ss_ratings_govern(&variant->bridge, &watch->placements, &made) == SS_OK ? SS_OK
                                                                                   : ss_no_memory(error));
    *out = made;
    made = (ss_ratings){0};
done:
    ss_ratings_destroy(&made);
    return status;
}
