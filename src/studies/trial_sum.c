/* trial_sum.c - what is kept of a variant: factors, posting, followed results. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "studies/changes.h"
#include "studies/trial_parts.h"

static bool make_room(const ss_trials *trials, ss_arena *arena, ss_trial *out) {
    *out = (ss_trial){.rf = SS_NAN, .vehicle = -1, .governs = "", .joint = SS_NAN, .emergency = SS_NAN};
    for (int i = 0; i < SS_POSTING_GROUPS; i++) out->sign[i] = SS_NAN;
    out->truck = ss_arena_alloc(arena, (size_t)trials->truck_count + 1, sizeof *out->truck);
    out->followed = ss_arena_alloc(arena, (size_t)trials->follow.count + 1, sizeof *out->followed);
    if (out->truck == NULL || out->followed == NULL) {
        return false;
    }
    for (int i = 0; i < trials->truck_count; i++) out->truck[i] = SS_NAN;
    for (int i = 0; i < trials->follow.count; i++) out->followed[i] = SS_NAN;
    return true;
}

ss_status ss_trial_fail(const ss_trials *trials, ss_status status, const ss_error *why,
                        const ss_diag_list *diags, ss_arena *arena, ss_trial *out) {
    const char *text = why->message[0] != '\0' ? why->message : ss_status_text(status);
    if (!make_room(trials, arena, out)) {
        return SS_ERROR_MEMORY;
    }
    for (int i = 0; i < diags->count; i++) {
        if (diags->items[i].severity == SS_FAULT) {
            text = diags->items[i].message;
            break;
        }
    }
    out->failure = ss_arena_text(arena, text, strlen(text));
    return out->failure == NULL ? SS_ERROR_MEMORY : SS_OK;
}

/* ---- factors ---------------------------------------------------------------------------------------- */

int ss_trial_importance(ss_level level) {
    switch (level) {
    case SS_LEVEL_LEGAL:
    case SS_LEVEL_EMERGENCY:
    case SS_LEVEL_PERMIT: return 2;
    case SS_LEVEL_OPERATING: return 1;
    case SS_LEVEL_INVENTORY: return 0;
    }
    return 0;
}

bool ss_trial_alternative(const ss_variant *variant, int traffic) {
    const ss_traffic *const t = &variant->placements.traffic[traffic];
    return t->crossing >= 0 && variant->bridge.crossings[t->crossing].alternative;
}

static bool decides(const ss_variant *v, int check, int traffic) {
    const ss_ratings *const r = &v->ratings;
    return r->checks[check].limit != SS_LIMIT_DEFLECTION && r->checks[check].method == r->checks[0].method &&
           !ss_trial_alternative(v, traffic) && ss_ratings_governing(r, check, traffic) >= 0;
}

/* Of each truck by the levels that matter most to it. */
static void sum_trucks(const ss_trials *trials, const ss_variant *v, ss_trial *out) {
    const ss_ratings *const r = &v->ratings;
    for (int vehicle = 0; vehicle < trials->truck_count; vehicle++) {
        int level = -1;
        for (int at = 0; at < r->check_count * r->traffic_count; at++) {
            const int check = at / r->traffic_count, traffic = at % r->traffic_count;
            if (v->placements.traffic[traffic].vehicle != vehicle || !decides(v, check, traffic)) {
                continue;
            }
            const int here = ss_trial_importance(r->checks[check].level);
            const double rf = r->items[r->governing[at]].rf;
            if (here > level || (here == level && rf < out->truck[vehicle])) {
                out->truck[vehicle] = rf;
                level = here;
            }
        }
    }
}

/* Joints as they are rated themselves, not what governs without them. */
static void sum_joints(const ss_variant *v, ss_trial *out) {
    for (int i = 0; i < v->ratings.count; i++) {
        const ss_rating_item *const item = &v->ratings.items[i];
        if (item->effect.member == SS_MEMBER_JOINT && !item->joint_out &&
            decides(v, item->check, item->traffic) && !(item->rf >= out->joint)) {
            out->joint = item->rf;
        }
    }
    bool given = false;
    for (int i = 0; i < v->bridge.joint_count; i++) {
        const ss_joint *const joint = &v->bridge.joints[i];
        given = given || !isnan(joint->shear_capacity) || !isnan(joint->moment_capacity) ||
                joint->detail.kind != SS_DETAIL_NONE;
    }
    out->joint = isnan(out->joint) && given ? SS_INFINITY : out->joint;
}

const char *ss_trial_failure(const ss_rating_item *item) {
    if (item->tips) {
        return "tipping";
    }
    return item->effect.kind == SS_EFFECT_MOMENT ? "bending" : "shear";
}

static ss_status sum_governing(const ss_variant *v, ss_arena *arena, ss_trial *out) {
    if (v->ratings.controlling < 0) {
        return SS_OK;
    }
    const ss_rating_item *const item = &v->ratings.items[v->ratings.controlling];
    const char *const member =
        ss_change_member_name(arena, &v->bridge, item->effect.member, item->effect.index);
    out->rf = item->rf;
    out->joint_out = item->joint_out;
    out->vehicle = v->placements.traffic[item->traffic].vehicle;
    out->governs = member == NULL ? NULL : ss_arena_printf(arena, "%s, %s", member, ss_trial_failure(item));
    return out->governs == NULL ? SS_ERROR_MEMORY : SS_OK;
}

/* ---- posting ---------------------------------------------------------------------------------------- */

static ss_status sum_posting(const ss_variant *v, ss_trial *out, ss_error *error) {
    ss_method method;
    ss_posting posting;
    if (!ss_posting_method(&v->ratings, &method)) {
        return SS_OK;
    }
    const ss_status status =
        ss_posting_compute(&v->bridge, &v->placements, &v->ratings, method, v->bridge.units, &posting, error);
    if (status != SS_OK) {
        return status;
    }
    out->posting = posting.free.state;
    for (int i = 0; i < SS_POSTING_GROUPS; i++) {
        out->sign[i] = posting.free.rated[i] ? posting.free.group_N[i] : SS_NAN;
    }
    out->emergency = posting.free.emergency_N;
    /* A truck that may not cross at any weight is named beside a sign; here it is the limit of its group. */
    for (int i = 0; i < posting.row_count; i++) {
        const ss_posting_row *const row = &posting.rows[i];
        if (row->counts && !row->alternative && row->safe_N == 0.0 &&
            (int)row->group < (int)SS_POSTING_GROUPS) {
            out->sign[row->group] = 0.0;
        }
    }
    ss_posting_destroy(&posting);
    return SS_OK;
}

static ss_status inspect(const ss_trials *trials, const ss_variant *variant, ss_arena *arena, ss_trial *out,
                         ss_error *error) {
    ss_text seen = {0};
    ss_status status = SS_OK;
    if (trials->options.inspect == NULL) {
        return SS_OK;
    }
    SS_TRY(trials->options.inspect(trials->options.context, variant, &seen, error));
    out->seen = seen.length > 0 ? ss_arena_text(arena, seen.data, seen.length) : NULL;
    out->seen_length = seen.length;
    status = seen.failed || (seen.length > 0 && out->seen == NULL) ? ss_no_memory(error) : SS_OK;
done:
    ss_text_destroy(&seen);
    return status;
}

ss_status ss_trial_sum_up(const ss_trials *trials, const ss_variant *variant, const ss_watch_value *values,
                          ss_arena *arena, ss_trial *out, ss_error *error) {
    ss_status status = SS_OK;
    SS_TRY(make_room(trials, arena, out) ? SS_OK : ss_no_memory(error));
    SS_TRY(sum_governing(variant, arena, out) == SS_OK ? SS_OK : ss_no_memory(error));
    sum_trucks(trials, variant, out);
    sum_joints(variant, out);
    SS_TRY(sum_posting(variant, out, error));
    SS_TRY(inspect(trials, variant, arena, out, error));
    if (values != NULL) {
        ss_follow_values(&trials->follow, values, out->followed);
    }
done:
    return status;
}
