/* size_inspect.c - what is kept of a bridge with a deck or another repair: factors, checks, quantities. */
#include <stdio.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/slab_across.h"
#include "sillspan/slab_casting.h"
#include "sillspan/slab_connectors.h"
#include "studies/changes.h"
#include "studies/size_parts.h"
#include "studies/trial_parts.h"

/* ---- targets ---------------------------------------------------------------------------------------- */

/* Of one truck. Without a level, by the levels that matter most to it. */
static double factor_of_truck(const ss_variant *v, const ss_sizing_target *target, int vehicle, int *item) {
    const ss_ratings *const r = &v->ratings;
    double least = SS_INFINITY;
    int importance = -1;
    for (int at = 0; at < r->check_count * r->traffic_count; at++) {
        const ss_check *const check = &r->checks[at / r->traffic_count];
        const int traffic = at % r->traffic_count;
        const ss_method method = target->method < 0 ? r->checks[0].method : (ss_method)target->method;
        if (v->placements.traffic[traffic].vehicle != vehicle || check->method != method ||
            check->limit == SS_LIMIT_DEFLECTION || ss_trial_alternative(v, traffic) || r->governing[at] < 0 ||
            (target->level >= 0 && check->level != (ss_level)target->level)) {
            continue;
        }
        const int here = ss_trial_importance(check->level);
        const double rf = r->items[r->governing[at]].rf;
        if (here > importance || (here == importance && rf < least)) {
            importance = here;
            least = rf;
            *item = r->governing[at];
        }
    }
    return least;
}

double ss_size_factor(const ss_variant *variant, const ss_sizing_target *target, int *item) {
    double least = SS_INFINITY;
    *item = -1;
    for (int v = 0; v < variant->bridge.rated_vehicle_count; v++) {
        int found = -1;
        if (target->vehicle >= 0 && target->vehicle != v) {
            continue;
        }
        const double rf = factor_of_truck(variant, target, v, &found);
        if (found >= 0 && (*item < 0 || rf < least)) {
            least = rf;
            *item = found;
        }
    }
    return least;
}

static ss_status see_targets(const ss_sizing *sizing, const ss_variant *v, ss_size_seen *out) {
    int item = -1;
    out->margin = SS_INFINITY;
    for (int t = 0; t < sizing->target_count; t++) {
        int found = -1;
        out->factor[t] = ss_size_factor(v, &sizing->targets[t], &found);
        if (t == 0 || out->factor[t] / sizing->targets[t].factor < out->margin) {
            out->margin = out->factor[t] / sizing->targets[t].factor;
            out->target = t;
            item = found;
        }
    }
    if (item < 0) {
        snprintf(out->governs, sizeof out->governs, "nothing that is rated");
        return SS_OK;
    }
    const ss_rating_item *const r = &v->ratings.items[item];
    ss_arena words = {0};
    const char *const member = ss_change_member_name(&words, &v->bridge, r->effect.member, r->effect.index);
    if (member != NULL) {
        snprintf(out->governs, sizeof out->governs, "%s in %s under %s by %s", member, ss_trial_failure(r),
                 v->bridge.vehicles[v->placements.traffic[r->traffic].vehicle].name,
                 v->ratings.checks[r->check].name);
    }
    ss_arena_destroy(&words);
    return member == NULL ? SS_ERROR_MEMORY : SS_OK;
}

/* ---- quantities ------------------------------------------------------------------------------------- */

/* Unit weight of bars, N/m3: 490 lb/ft3. */
#define BARS_WEIGHT 76972.86

static void see_quantities(const ss_variant *v, ss_size_seen *out) {
    const ss_slab *const slab = &v->bridge.slab;
    out->weight = v->permanent.present.load.total;
    if (!slab->given) {
        return;
    }
    out->area = (slab->x1 - slab->x0) * (slab->y1 - slab->y0);
    out->concrete = out->area * slab->thickness;
    for (int i = 0; i < v->bridge.line_count; i++) {
        const ss_line *const line = &v->bridge.lines[i];
        const double length = ss_min(line->x1, slab->x1) - ss_max(line->x0, slab->x0);
        const bool haunched = slab->lines[i].composite && length > 0.0 && slab->haunch > 0.0;
        out->concrete += haunched ? slab->haunch * slab->haunch_width * length : 0.0;
    }
    out->bars = BARS_WEIGHT * out->area *
                (ss_bars_area(&slab->top_across) + ss_bars_area(&slab->bottom_across) +
                 ss_bars_area(&slab->top_along) + ss_bars_area(&slab->bottom_along));
    out->shores = slab->shore_count;
}

/* ---- checks ----------------------------------------------------------------------------------------- */

static ss_status see_checks(const ss_variant *v, ss_size_seen *out, ss_error *error) {
    ss_arena arena = {0};
    ss_slab_checks checks = {.arena = &arena};
    ss_status status = SS_OK;
    if (!v->bridge.slab.given) {
        return SS_OK;
    }
    ss_slab_casting casting;
    ss_slab_across across;
    ss_slab_connectors connectors;
    SS_TRY(ss_slab_casting_compute(&v->permanent, &arena, &checks, &casting, error));
    SS_TRY(ss_slab_across_compute(&v->permanent, &v->ratings, &arena, &checks, &across, error));
    SS_TRY(ss_slab_connectors_compute(&v->permanent, &arena, &checks, &connectors, error));
    out->connectors = connectors.total;
    out->missed = ss_slab_checks_missed(&checks);
    out->unknown = ss_slab_checks_unknown(&checks);
    const ss_slab_check *const worst = ss_slab_checks_worst(&checks, SS_SLAB_PART_COUNT);
    if (worst != NULL) {
        out->use = ss_slab_check_use(worst);
        snprintf(out->check, sizeof out->check, "%s: %s, %s", ss_slab_part_name(worst->part),
                 worst->requirement.name, worst->where);
    }
done:
    ss_arena_destroy(&arena);
    return status;
}

ss_status ss_size_inspect(const ss_sizing *sizing, const ss_variant *variant, ss_text *out, ss_error *error) {
    ss_size_seen seen;
    ss_status status = SS_OK;
    memset(&seen, 0, sizeof seen);
    SS_TRY(see_targets(sizing, variant, &seen) == SS_OK ? SS_OK : ss_no_memory(error));
    see_quantities(variant, &seen);
    SS_TRY(see_checks(variant, &seen, error));
    ss_text_add_bytes(out, (const char *)&seen, sizeof seen);
done:
    return status;
}
