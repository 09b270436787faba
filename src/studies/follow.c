/* follow.c - where trucks have their largest effects, and what those come to on a changed bridge. */
#include "sillspan/follow.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/envelope_tile.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/growing.h"
#include "studies/names.h"

/* What is being gathered of one variant. */
typedef struct gathering {
    ss_follow *follow;
    ss_watch *watch;
    const ss_variant *variant;
    ss_envelope envelope;
    ss_error *error;
} gathering;

/* ---- what is followed ------------------------------------------------------------------------------- */

static ss_status find_followed(ss_follow *follow, ss_followed wanted, int *out) {
    for (*out = 0; *out < follow->count; (*out)++) {
        const ss_followed *const f = &follow->items[*out];
        if (f->kind == wanted.kind && f->traffic == wanted.traffic && ss_same_name(f->car, wanted.car) &&
            ss_same_name(f->member, wanted.member) && ss_same_name(f->line, wanted.line) &&
            (f->at == wanted.at || isnan(wanted.at))) {
            return SS_OK;
        }
    }
    if (!SS_GROW(follow->items, follow->count, follow->capacity) ||
        !ss_keep_name(&follow->arena, &wanted.car) || !ss_keep_name(&follow->arena, &wanted.member) ||
        !ss_keep_name(&follow->arena, &wanted.line)) {
        return SS_ERROR_MEMORY;
    }
    follow->items[follow->count++] = wanted;
    return SS_OK;
}

static ss_status pair(ss_follow *follow, int followed, int item) {
    for (int i = 0; i < follow->pair_count; i++) {
        if (follow->item_of[i] == item && follow->followed_of[i] == followed) {
            return SS_OK;
        }
    }
    int capacity = follow->pair_capacity;
    if (!SS_GROW(follow->item_of, follow->pair_count, capacity) ||
        !SS_GROW(follow->followed_of, follow->pair_count, follow->pair_capacity)) {
        return SS_ERROR_MEMORY;
    }
    follow->item_of[follow->pair_count] = item;
    follow->followed_of[follow->pair_count++] = followed;
    return SS_OK;
}

/* ---- extremes --------------------------------------------------------------------------------------- */

/* What an effect is followed as, its largest or its least value; false: it is not. */
static bool followed_as(const ss_bridge *bridge, const ss_effect *effect, bool most, ss_followed *out) {
    const bool joint = effect->member == SS_MEMBER_JOINT;
    ss_followed f = {.at = SS_NAN};
    if (effect->member == SS_MEMBER_BEARING && effect->kind == SS_EFFECT_REACTION) {
        const ss_bearing *const bearing = &bridge->bearings[effect->index];
        f.kind = most ? SS_FOLLOW_REACTION : SS_FOLLOW_LEAST;
        f.car = bridge->cars[bearing->car].name;
        f.member = bearing->name;
        f.line = bridge->lines[bearing->line].whole;
        f.at = bearing->x;
    } else if (joint && (effect->kind == SS_EFFECT_SHEAR || effect->kind == SS_EFFECT_MOMENT)) {
        f.kind = effect->kind == SS_EFFECT_SHEAR ? SS_FOLLOW_JOINT_SHEAR : SS_FOLLOW_JOINT_MOMENT;
        f.member = bridge->joints[effect->index].name;
    } else if (effect->member == SS_MEMBER_LINE && most) {
        const ss_line *const line = &bridge->lines[effect->index];
        if (effect->kind != SS_EFFECT_MOMENT &&
            (effect->kind != SS_EFFECT_DEFLECTION || line->role != SS_ROLE_MAIN)) {
            return false;
        }
        f.kind = effect->kind == SS_EFFECT_MOMENT ? SS_FOLLOW_MOMENT : SS_FOLLOW_DEFLECTION;
        f.car = bridge->cars[line->car].name;
        f.member = line->whole;
    } else {
        return false;
    }
    *out = f;
    return true;
}

/* The extreme of each followed result that goes farthest. */
typedef struct farthest {
    int effect, sign; /* effect -1: none */
    double value;
} farthest;

static ss_status watch_extreme(gathering *g, int traffic, const farthest *at, int followed) {
    const ss_effect *const effect = &g->envelope.effects[at->effect];
    const ss_extreme *const extreme =
        &g->envelope.extremes[ss_envelope_at(&g->envelope, at->effect, traffic, at->sign)];
    int item = 0;
    const ss_status status =
        ss_watch_add_live(g->watch, g->variant, effect, at->sign == 1, traffic, extreme, &item, g->error);
    return status == SS_OK ? pair(g->follow, followed, item) : status;
}

static ss_status add_extremes(gathering *g, int traffic) {
    const ss_bridge *const bridge = &g->variant->bridge;
    const int effects = g->envelope.effect_count;
    ss_status status = SS_OK;
    /* Joints have two signs, bearings a kind for each: twice as many as effects is room enough. */
    farthest *const far = ss_alloc(2 * (size_t)(effects + g->follow->count) + 1, sizeof *far);
    SS_TRY(far == NULL ? SS_ERROR_MEMORY : SS_OK);
    for (int i = 0; i < 2 * (effects + g->follow->count); i++) far[i].effect = -1;
    for (int i = 0; i < effects; i++) {
        for (int sign = 0; sign < 2; sign++) {
            ss_followed as;
            int number = 0;
            const double value = g->envelope.extremes[ss_envelope_at(&g->envelope, i, traffic, sign)].value;
            if (value == 0.0 || !followed_as(bridge, &g->envelope.effects[i], sign == 1, &as)) {
                continue;
            }
            as.traffic = traffic;
            SS_TRY(find_followed(g->follow, as, &number));
            if (far[number].effect < 0 || fabs(value) > fabs(far[number].value) * (1.0 + 1e-9)) {
                far[number] = (farthest){i, sign, value};
            }
        }
    }
    for (int i = 0; i < g->follow->count; i++) {
        if (far[i].effect >= 0) {
            SS_TRY(watch_extreme(g, traffic, &far[i], i));
        }
    }
done:
    ss_free(far);
    return status;
}

/* ---- shares ----------------------------------------------------------------------------------------- */

static bool find_moment(const ss_mesh *mesh, int line, double x, ss_effect *out) {
    return ss_mesh_effect(mesh, SS_MEMBER_LINE, line, x, false, SS_EFFECT_MOMENT, out, NULL) == SS_OK ||
           ss_mesh_effect(mesh, SS_MEMBER_LINE, line, x, true, SS_EFFECT_MOMENT, out, NULL) == SS_OK;
}

static ss_status add_share_stand(gathering *g, int traffic, int car, double x, const ss_extreme *extreme) {
    const ss_bridge *const bridge = &g->variant->bridge;
    const ss_followed as = {
        .kind = SS_FOLLOW_SHARE, .traffic = traffic, .car = bridge->cars[car].name, .at = SS_NAN};
    const size_t lines = (size_t)bridge->line_count + 1;
    ss_arena *const arena = &g->follow->arena;
    ss_follow_stand stand = {.item = ss_arena_alloc(arena, lines, sizeof *stand.item),
                             .own = ss_arena_alloc(arena, lines, sizeof *stand.own),
                             .girder = ss_arena_alloc(arena, lines, sizeof *stand.girder)};
    ss_status status =
        stand.item == NULL || stand.own == NULL || stand.girder == NULL ? SS_ERROR_MEMORY : SS_OK;
    SS_TRY(status);
    SS_TRY(find_followed(g->follow, as, &stand.followed));
    for (int i = 0; i < bridge->line_count; i++) {
        ss_effect effect;
        if (find_moment(&g->variant->mesh, i, x, &effect)) {
            const int at = stand.item_count++;
            stand.own[at] = bridge->lines[i].car == car;
            stand.girder[at] = stand.own[at] && bridge->lines[i].role == SS_ROLE_MAIN;
            SS_TRY(ss_watch_add_live(g->watch, g->variant, &effect, true, traffic, extreme, &stand.item[at],
                                     g->error));
        }
    }
    SS_TRY(SS_GROW(g->follow->stands, g->follow->stand_count, g->follow->stand_capacity) ? SS_OK
                                                                                         : SS_ERROR_MEMORY);
    g->follow->stands[g->follow->stand_count++] = stand;
done:
    return status;
}

/* Where the main girder of each car has its largest moment. */
static ss_status add_shares(gathering *g, int traffic) {
    const ss_bridge *const bridge = &g->variant->bridge;
    const ss_envelope *const envelope = &g->envelope;
    ss_status status = SS_OK;
    for (int car = 0; car < bridge->car_count && status == SS_OK; car++) {
        int best = -1;
        double most = 0.0;
        for (int i = 0; i < envelope->effect_count; i++) {
            const ss_effect *const e = &envelope->effects[i];
            const double value = envelope->extremes[ss_envelope_at(envelope, i, traffic, 1)].value;
            if (e->member == SS_MEMBER_LINE && e->kind == SS_EFFECT_MOMENT &&
                bridge->lines[e->index].car == car && bridge->lines[e->index].role == SS_ROLE_MAIN &&
                value > most * (1.0 + 1e-9)) {
                most = value;
                best = i;
            }
        }
        if (best >= 0) {
            status = add_share_stand(g, traffic, car, envelope->effects[best].at,
                                     &envelope->extremes[ss_envelope_at(envelope, best, traffic, 1)]);
        }
    }
    return status;
}

/* ---- public ----------------------------------------------------------------------------------------- */

/* Effects that may be followed. */
static int choose(const ss_variant *variant, ss_effect *out) {
    int kept = 0;
    for (int i = 0; i < variant->effect_count; i++) {
        ss_followed as;
        if (followed_as(&variant->bridge, &variant->effects[i], true, &as)) {
            out[kept++] = variant->effects[i];
        }
    }
    return kept;
}

/* One truck by itself, wherever the roadway lets it. */
static bool is_followed(const ss_variant *variant, int traffic) {
    const ss_traffic *const t = &variant->placements.traffic[traffic];
    return t->track_count > 0 && t->run < 0 &&
           (t->crossing < 0 || !variant->bridge.crossings[t->crossing].alternative);
}

ss_status ss_follow_add(ss_follow *follow, ss_watch *watch, const ss_variant *variant,
                        void (*progress)(void *context, double done), void *context, ss_error *error) {
    const ss_envelope_options options = {.factors = {1.0, 1.0},
                                         .live_factor = 1.0,
                                         .extent = SS_EXTENT_AXLES,
                                         .progress = progress,
                                         .context = context};
    gathering g = {.follow = follow, .watch = watch, .variant = variant, .error = error};
    ss_status status = SS_OK;
    ss_effect *const effects = ss_alloc((size_t)variant->effect_count + 1, sizeof *effects);
    SS_TRY(effects == NULL ? SS_ERROR_MEMORY : SS_OK);
    const int count = choose(variant, effects);
    SS_TRY(ss_envelope_compute(&variant->permanent, &variant->placements, effects, count, &options,
                               &g.envelope, error));
    for (int t = 0; t < variant->placements.traffic_count; t++) {
        if (is_followed(variant, t)) {
            SS_TRY(add_shares(&g, t));
            SS_TRY(add_extremes(&g, t));
        }
    }
done:
    ss_envelope_destroy(&g.envelope);
    ss_free(effects);
    return status == SS_ERROR_MEMORY ? ss_no_memory(error) : status;
}

void ss_follow_destroy(ss_follow *follow) {
    ss_free(follow->items);
    ss_free(follow->item_of);
    ss_free(follow->followed_of);
    ss_free(follow->stands);
    ss_arena_destroy(&follow->arena);
    *follow = (ss_follow){0};
}

/* What a value of an item counts as. */
static double counted(ss_follow_kind kind, const ss_watch_value *v) {
    switch (kind) {
    case SS_FOLLOW_JOINT_SHEAR:
    case SS_FOLLOW_JOINT_MOMENT: return fabs(v->value);
    case SS_FOLLOW_REACTION:
    case SS_FOLLOW_LEAST: return v->dead + v->value;
    default: return v->value;
    }
}

/* Where the girders of the car carry most, that stand tells the share. */
static void take_shares(const ss_follow *follow, const ss_watch_value *values, double *out) {
    for (int f = 0; f < follow->count; f++) {
        double most = -SS_INFINITY;
        for (int i = 0; i < follow->stand_count; i++) {
            const ss_follow_stand *const stand = &follow->stands[i];
            double all = 0.0, own = 0.0, girders = 0.0;
            for (int k = 0; stand->followed == f && k < stand->item_count; k++) {
                const double value = values[stand->item[k]].value;
                const bool there = !isnan(value);
                all += there ? value : 0.0;
                own += there && stand->own[k] ? value : 0.0;
                girders += there && stand->girder[k] ? value : 0.0;
            }
            if (stand->followed == f && all > 0.0 && girders > most) {
                most = girders;
                out[f] = own / all;
            }
        }
    }
}

void ss_follow_values(const ss_follow *follow, const ss_watch_value *values, double *out) {
    for (int i = 0; i < follow->count; i++) out[i] = SS_NAN;
    for (int i = 0; i < follow->pair_count; i++) {
        const ss_follow_kind kind = follow->items[follow->followed_of[i]].kind;
        const double value = counted(kind, &values[follow->item_of[i]]);
        double *const at = &out[follow->followed_of[i]];
        const bool beyond = kind == SS_FOLLOW_LEAST ? value < *at : value > *at;
        *at = !isnan(value) && (isnan(*at) || beyond) ? value : *at;
    }
    take_shares(follow, values, out);
}

ss_dimension ss_follow_dimension(ss_follow_kind kind, bool connector) {
    switch (kind) {
    case SS_FOLLOW_SHARE: return SS_DIM_NUMBER;
    case SS_FOLLOW_MOMENT: return SS_DIM_MOMENT;
    case SS_FOLLOW_DEFLECTION: return SS_DIM_SMALL_LENGTH;
    case SS_FOLLOW_JOINT_SHEAR: return connector ? SS_DIM_FORCE : SS_DIM_LINE_LOAD;
    case SS_FOLLOW_JOINT_MOMENT: return connector ? SS_DIM_MOMENT : SS_DIM_MOMENT_PER_LENGTH;
    case SS_FOLLOW_REACTION:
    case SS_FOLLOW_LEAST: return SS_DIM_FORCE;
    }
    return SS_DIM_NUMBER;
}
