/* reruns.c - the rating of the governing truck again, on the bridge changed in one respect: what a finding
 * costs, what is left without a weak member, what a cut girder would mean. */
#include "sillspan/reruns.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "studies/changes.h"

/* Half the length of a cut through a girder (m). */
#define CUT 0.03

/* What the reruns share. */
typedef struct study {
    const ss_description *description;
    const ss_variant *base;
    ss_reruns *out;
    ss_error *error;
    ss_variant_asks asks;
} study;

/* ---- smallest factors ------------------------------------------------------------------------------- */

static bool decides(const ss_ratings *r, const ss_check *check, ss_level level) {
    return check->method == r->checks[0].method && check->limit != SS_LIMIT_DEFLECTION &&
           check->level == level;
}

/* The member that a finding is about, in any of its parts. */
static bool is_about(const ss_bridge *bridge, const ss_effect *effect, const ss_finding *finding) {
    if (effect->member == SS_MEMBER_LINE) {
        const ss_line *const line = &bridge->lines[effect->index];
        return line->car == finding->car && strcmp(line->whole, finding->member) == 0;
    }
    return effect->member == SS_MEMBER_BEAM && bridge->floor_beams[effect->index].car == finding->car &&
           strcmp(bridge->floor_beams[effect->index].name, finding->member) == 0;
}

/* The level that the controlling factor is of decides: those of one truck are alike. */
static int weakest(const ss_variant *v, const ss_variant_asks *asks, bool primary_only,
                   const ss_finding *about) {
    const ss_ratings *const r = &v->ratings;
    int best = -1;
    if (r->controlling < 0) {
        return -1;
    }
    const ss_level level = r->checks[r->items[r->controlling].check].level;
    for (int i = 0; i < r->count; i++) {
        const ss_rating_item *const item = &r->items[i];
        const ss_traffic *const traffic = &v->placements.traffic[item->traffic];
        const bool alternative =
            traffic->run < 0 && traffic->crossing >= 0 && v->bridge.crossings[traffic->crossing].alternative;
        if (!decides(r, &r->checks[item->check], level) || alternative || traffic->vehicle != asks->vehicle ||
            (about != NULL ? !is_about(&v->bridge, &item->effect, about)
                           : ss_rating_released(&v->bridge, &item->effect)) ||
            (primary_only && !ss_member_primary(&v->bridge, item->effect.member, item->effect.index))) {
            continue;
        }
        if (best < 0 || item->rf < r->items[best].rf * (1.0 - 1e-9)) {
            best = i;
        }
    }
    return best;
}

static double factor_of(const ss_variant *v, int item) {
    return item < 0 ? SS_INFINITY : v->ratings.items[item].rf;
}

static const char *name_of(ss_arena *arena, const ss_variant *v, int item) {
    const ss_effect *const effect = &v->ratings.items[item].effect;
    return ss_change_member_name(arena, &v->bridge, effect->member, effect->index);
}

/* ---- one rerun -------------------------------------------------------------------------------------- */

static const char *first_fault(const ss_diag_list *diags) {
    for (int i = 0; i < diags->count; i++) {
        if (diags->items[i].severity == SS_FAULT) {
            return diags->items[i].message;
        }
    }
    return NULL;
}

/* Rates a changed description into the item. Only lack of memory ends the study. */
static ss_status rerun(study *s, const ss_description *changed, ss_rerun *item) {
    ss_variant variant;
    ss_diag_list diags = {0};
    ss_error why = {0};
    ss_arena *const arena = &s->out->arena;
    ss_status status = ss_variant_of(changed, &s->asks, &variant, &diags, &why);
    item->rf = item->primary = item->own = item->own_found = SS_NAN;
    if (status == SS_OK) {
        const int worst = weakest(&variant, &s->asks, false, NULL),
                  primary = weakest(&variant, &s->asks, true, NULL);
        item->rf = factor_of(&variant, worst);
        item->primary = factor_of(&variant, primary);
        item->governs = worst < 0 ? "" : name_of(arena, &variant, worst);
        item->primary_governs = primary < 0 ? "" : name_of(arena, &variant, primary);
        if (item->finding >= 0 && s->base->bridge.findings[item->finding].member != NULL) {
            const ss_finding *const about = &s->base->bridge.findings[item->finding];
            item->own = factor_of(&variant, weakest(&variant, &s->asks, false, about));
            item->own_found = factor_of(s->base, weakest(s->base, &s->asks, false, about));
        }
        status = item->governs == NULL || item->primary_governs == NULL ? SS_ERROR_MEMORY : SS_OK;
        ss_variant_destroy(&variant);
    } else if (status != SS_ERROR_MEMORY) {
        const char *const text = why.message[0] != '\0' ? why.message : first_fault(&diags);
        item->failure = ss_arena_printf(arena, "%s", text != NULL ? text : ss_status_text(status));
        status = item->failure == NULL ? SS_ERROR_MEMORY : SS_OK;
    }
    ss_diag_destroy(&diags);
    return status;
}

/* ---- the kinds -------------------------------------------------------------------------------------- */

static ss_rerun *next_item(study *s, ss_rerun_kind kind, const char *what) {
    ss_rerun *const item = &s->out->items[s->out->count++];
    *item = (ss_rerun){.kind = kind, .finding = -1, .what = what};
    return item;
}

/* `finding` -1: all of them. */
static ss_status repair(study *s, int finding) {
    const ss_bridge *const bridge = &s->base->bridge;
    ss_description changed;
    ss_status status = ss_change_copy(s->description, &changed);
    if (status != SS_OK) {
        return status;
    }
    for (int i = 0; i < bridge->finding_count && status == SS_OK; i++) {
        if (finding < 0 || i == finding) {
            status = ss_change_put_aside(&changed, bridge->findings[i].name);
        }
    }
    if (status == SS_OK) {
        ss_rerun *const item = next_item(s, finding < 0 ? SS_RERUN_ALL_REPAIRED : SS_RERUN_REPAIRED,
                                         finding < 0 ? "all of them" : bridge->findings[finding].name);
        item->finding = finding;
        status = rerun(s, &changed, item);
    }
    ss_description_destroy(&changed);
    return status;
}

/* The weakest secondary member that falls short, or -1. */
static int weakest_secondary(const study *s) {
    const ss_variant *const v = s->base;
    const int all = weakest(v, &s->asks, false, NULL);
    if (all < 0 || !(v->ratings.items[all].rf < 1.0)) {
        return -1;
    }
    const ss_effect *const effect = &v->ratings.items[all].effect;
    const bool local =
        effect->member == SS_MEMBER_LINE ||
        (effect->member == SS_MEMBER_BEAM && !(v->bridge.floor_beams[effect->index].strip > 0.0));
    return local && !ss_member_primary(&v->bridge, effect->member, effect->index) ? all : -1;
}

static ss_status release(study *s) {
    const ss_bridge *const bridge = &s->base->bridge;
    const int weak = weakest_secondary(s);
    ss_description changed;
    if (weak < 0) {
        return SS_OK;
    }
    ss_status status = ss_change_copy(s->description, &changed);
    if (status != SS_OK) {
        return status;
    }
    const ss_effect *const effect = &s->base->ratings.items[weak].effect;
    const bool line = effect->member == SS_MEMBER_LINE;
    const bool good = line ? ss_change_take_line(&changed, bridge, effect->index) &&
                                 ss_change_take_seats(&changed, bridge, effect->index)
                           : ss_change_take_beam(&changed, bridge, effect->index);
    const char *const what = name_of(&s->out->arena, s->base, weak);
    status =
        good && what != NULL ? rerun(s, &changed, next_item(s, SS_RERUN_RELEASED, what)) : SS_ERROR_MEMORY;
    ss_description_destroy(&changed);
    return status;
}

static int find_car(const ss_bridge *bridge, const char *name) {
    for (int i = 0; i < bridge->car_count; i++) {
        if (strcmp(bridge->cars[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

/* Where the largest main girder of a car rates least in bending; at its middle if it is not rated. */
static double worst_place(const study *s, int girder) {
    const ss_variant *const v = s->base;
    const ss_line *const line = &v->bridge.lines[girder];
    double x = 0.5 * (line->x0 + line->x1);
    double least = SS_INFINITY;
    for (int i = 0; i < v->ratings.count; i++) {
        const ss_rating_item *const item = &v->ratings.items[i];
        if (item->effect.member == SS_MEMBER_LINE && item->effect.index == girder &&
            item->effect.kind == SS_EFFECT_MOMENT && item->most && item->rf < least) {
            least = item->rf;
            x = item->effect.at;
        }
    }
    return ss_clamp(x, line->x0 + 10.0 * CUT, line->x1 - 10.0 * CUT);
}

static ss_status cut(study *s, const char *name) {
    const ss_bridge *const bridge = &s->base->bridge;
    const int car = find_car(bridge, name);
    ss_description changed;
    if (car < 0) {
        return ss_error_set(s->error, SS_ERROR_DESCRIPTION, "no car of the bridge is called \"%s\"", name);
    }
    int girder = bridge->cars[car].first_line;
    const int largest = ss_primary_girder(bridge, girder, SS_SIZE_I);
    girder = largest < 0 ? girder : largest;
    const double x = worst_place(s, girder);
    ss_status status = ss_change_copy(s->description, &changed);
    if (status != SS_OK) {
        return status;
    }
    const bool good = ss_change_cut_line(&changed, bridge, girder, x - CUT, x + CUT);
    char words[64];
    const char *const what =
        ss_arena_printf(&s->out->arena, "the %s of car %s at %s", bridge->lines[girder].name, name,
                        ss_units_format(words, sizeof words, x, SS_DIM_LENGTH, bridge->units, 4));
    status =
        good && what != NULL ? rerun(s, &changed, next_item(s, SS_RERUN_GIRDER_CUT, what)) : SS_ERROR_MEMORY;
    ss_description_destroy(&changed);
    return status;
}

/* ---- all of them ------------------------------------------------------------------------------------ */

ss_status ss_reruns_compute(const ss_description *description, const ss_variant *base,
                            const ss_rerun_options *options, ss_reruns *out, ss_error *error) {
    const ss_ratings *const r = &base->ratings;
    const int findings = base->bridge.finding_count;
    ss_status status = SS_OK;
    ss_reruns reruns = {.vehicle = -1, .rf = SS_NAN, .primary = SS_NAN};
    study s = {description, base, &reruns, error, {-1, SS_METHOD_LRFR}};
    if (r->controlling < 0) {
        *out = reruns;
        return SS_OK;
    }
    const ss_rating_item *const worst = &r->items[r->controlling];
    reruns.vehicle = s.asks.vehicle = base->placements.traffic[worst->traffic].vehicle;
    reruns.method = s.asks.method = r->checks[worst->check].method;
    reruns.rf = factor_of(base, weakest(base, &s.asks, false, NULL));
    reruns.primary = factor_of(base, weakest(base, &s.asks, true, NULL));
    reruns.items = ss_arena_alloc(&reruns.arena, (size_t)findings + 3, sizeof *reruns.items);
    SS_TRY(reruns.items == NULL ? SS_ERROR_MEMORY : SS_OK);
    for (int i = 0; i < findings; i++) {
        if (options->progress != NULL) {
            options->progress(options->context, (double)i / (findings + 2));
        }
        SS_TRY(repair(&s, i));
    }
    if (findings > 1) {
        SS_TRY(repair(&s, -1));
    }
    SS_TRY(release(&s));
    if (options->cut_car != NULL) {
        SS_TRY(cut(&s, options->cut_car));
    }
    *out = reruns;
    return SS_OK;
done:
    ss_reruns_destroy(&reruns);
    return status != SS_ERROR_MEMORY ? status
                                     : ss_error_set(error, status, "the reruns: %s", ss_status_text(status));
}

void ss_reruns_destroy(ss_reruns *reruns) {
    if (reruns == NULL) {
        return;
    }
    ss_arena_destroy(&reruns->arena);
    *reruns = (ss_reruns){0};
}
