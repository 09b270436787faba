/* rating_sections.c - the effects that are rated, each with its nominal resistance, and notes on those that
 * cannot be. */
#include "assess/rating_sections.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "assess/composite_member.h"
#include "assess/joint_capacity.h"
#include "base/numeric.h"
#include "base/try.h"
#include "sillspan/web_shear.h"

/* Limit states in the order of the result. */
typedef enum limit_state {
    LIMIT_MOMENT,
    LIMIT_WEB,
    LIMIT_JOINT,
    LIMIT_JOINT_MOMENT,
    LIMIT_DEFLECTION,
    LIMIT_NONE
} limit_state;

static bool is_strip(const ss_bridge *bridge, const ss_effect *effect) {
    return effect->member == SS_MEMBER_BEAM && bridge->floor_beams[effect->index].strip > 0.0;
}

static limit_state limit_of(const ss_bridge *bridge, const ss_effect *effect, bool deflections) {
    if (effect->member == SS_MEMBER_JOINT) {
        ss_resistance shear;
        ss_resistance moment;
        ss_joint_capacity_of(&bridge->joints[effect->index], &shear, &moment, NULL);
        if (effect->kind == SS_EFFECT_MOMENT) {
            return isnan(moment.value) ? LIMIT_NONE : LIMIT_JOINT_MOMENT;
        }
        return effect->kind == SS_EFFECT_SHEAR && !isnan(shear.value) ? LIMIT_JOINT : LIMIT_NONE;
    }
    if (effect->member != SS_MEMBER_LINE && effect->member != SS_MEMBER_BEAM) {
        return LIMIT_NONE;
    }
    switch (effect->kind) {
    case SS_EFFECT_MOMENT: return LIMIT_MOMENT;
    /* Slabs whose bending is looked at count as satisfactory in shear (AASHTO Standard Specifications 3.24.4,
     * from memory). */
    case SS_EFFECT_WEB_PLUS: return is_strip(bridge, effect) ? LIMIT_NONE : LIMIT_WEB;
    /* Without torsion in the web both signs of it are the same effect. */
    case SS_EFFECT_WEB_MINUS:
        return effect->torsion_shear == 0.0 || is_strip(bridge, effect) ? LIMIT_NONE : LIMIT_WEB;
    case SS_EFFECT_DEFLECTION:
        /* Both sides of a section move alike. */
        return deflections && effect->member == SS_MEMBER_LINE && !effect->before &&
                       bridge->lines[effect->index].role == SS_ROLE_MAIN
                   ? LIMIT_DEFLECTION
                   : LIMIT_NONE;
    default: return LIMIT_NONE;
    }
}

/* What resistances are found from. */
typedef struct resisting {
    const ss_bridge *bridge;
    const ss_permanent *permanent;
    ss_strength_use use[SS_STRENGTH_COUNT];
} resisting;

/* ---- what resists ----------------------------------------------------------------------------------- */

static void all_alike(ss_rated *rated, ss_resistance resistance) {
    for (int s = 0; s < SS_STRENGTH_COUNT; s++) rated->nominal[s][0] = rated->nominal[s][1] = resistance;
}

/* What a bent member has lost is off every strength of it. */
static ss_resistance less_lost(ss_resistance resistance, double lost) {
    resistance.lost = lost;
    resistance.value *= 1.0 - lost;
    return resistance;
}

static ss_status bending_strength(const resisting *r, const ss_member_place *place, int strength, bool most,
                                  ss_rated *rated) {
    const ss_bridge *const bridge = r->bridge;
    const ss_strength_use *const use = &r->use[strength];
    ss_resistance *const out = &rated->nominal[strength][most ? 1 : 0];
    ss_composite_member member;
    ss_status status = SS_OK;
    if (!(use->share > 0.0)) {
        *out = (ss_resistance){.value = SS_NAN};
    } else if (ss_composite_member_at(bridge, &rated->effect, place, most, &member)) {
        status = ss_composite_member_strength(r->permanent, &rated->effect, (ss_strength)strength, use,
                                              &member, out, NULL);
    } else {
        const ss_flexure_case given = ss_member_flexure(bridge, &rated->effect, place, most);
        status = ss_member_strength(&given, (ss_strength)strength, use->share, out, NULL);
    }
    *out = less_lost(*out, place->section->strength_loss);
    return status;
}

static ss_status resist_bending(const resisting *r, ss_rated *rated) {
    ss_member_place place;
    ss_status status = ss_member_place_at(r->bridge, &rated->effect, &place);
    for (int s = 0; s < SS_STRENGTH_COUNT; s++) {
        for (int most = 0; most < 2 && status == SS_OK; most++) {
            status = bending_strength(r, &place, s, most == 1, rated);
        }
    }
    return status;
}

/* Service checks of steel do not ask about concrete. */
static ss_status resist_strip(const resisting *r, ss_rated *rated) {
    for (int most = 0; most < 2; most++) {
        const ss_resistance one = ss_strip_resistance(r->bridge, &rated->effect, most == 1, NULL);
        for (int s = 0; s < SS_STRENGTH_COUNT; s++) rated->nominal[s][most] = one;
        rated->nominal[SS_STRENGTH_SERVICE][most] = (ss_resistance){.value = SS_NAN};
    }
    return SS_OK;
}

static ss_status resist_web(const ss_bridge *bridge, ss_rated *rated) {
    ss_member_place place;
    ss_section_properties section;
    ss_status status = ss_member_place_at(bridge, &rated->effect, &place);
    if (status == SS_OK) {
        status = ss_section_at(place.section, place.depth, 0.0, &section, NULL);
    }
    if (status == SS_OK) {
        /* Every panel counts as an end panel: no tension field is relied on. */
        const ss_web_panel panel = {.spacing = rated->effect.member == SS_MEMBER_LINE
                                                   ? bridge->lines[rated->effect.index].stiffeners
                                                   : 0.0};
        const ss_resistance web =
            panel.spacing > 0.0 ? ss_web_shear_panel(&section, place.steel->fy, place.steel->E, &panel, NULL)
                                : ss_resistance_web_shear(&section, place.steel->fy, place.steel->E);
        all_alike(rated, less_lost(web, section.strength_loss));
    }
    return status;
}

static ss_status resist(const resisting *r, limit_state limit, ss_rated *rated) {
    const ss_bridge *const bridge = r->bridge;
    ss_resistance shear;
    ss_resistance moment;
    switch (limit) {
    case LIMIT_MOMENT:
        return is_strip(bridge, &rated->effect) ? resist_strip(r, rated) : resist_bending(r, rated);
    case LIMIT_WEB: return resist_web(bridge, rated);
    case LIMIT_JOINT:
    case LIMIT_JOINT_MOMENT:
        ss_joint_capacity_of(&bridge->joints[rated->effect.index], &shear, &moment, NULL);
        all_alike(rated, limit == LIMIT_JOINT ? shear : moment);
        return SS_OK;
    default: all_alike(rated, (ss_resistance){.value = 0.0, .rule = "share of the span"}); return SS_OK;
    }
}

/* One that the checks look at, for what is to be said: NaN if there is none. */
static const ss_resistance *spoken_of(const ss_strength_use *use, const ss_rated *rated) {
    for (int s = 0; s < SS_STRENGTH_COUNT; s++) {
        for (int most = 0; most < 2 && use[s].share > 0.0; most++) {
            if (rated->nominal[s][most].why != NULL) {
                return &rated->nominal[s][most];
            }
        }
    }
    int first = 0;
    while (first + 1 < SS_STRENGTH_COUNT && !(use[first].share > 0.0)) first++;
    return &rated->nominal[first][1];
}

/* What is to be said of a resistance, or NULL. */
static const char *remark_on(const ss_resistance *resistance, limit_state limit) {
    if (resistance->why != NULL) {
        return limit == LIMIT_MOMENT ? "is not rated in bending: its elastic section moduli are not known"
                                     : "is not rated in web shear: its web area is not known";
    }
    if (resistance->rule != NULL && strcmp(resistance->rule, SS_RESISTANCE_SHEAR_UNCHECKED) == 0) {
        return "is rated in web shear without a check of web buckling: the web's slenderness is not known";
    }
    if (resistance->rule != NULL && strcmp(resistance->rule, SS_FLEXURE_UNCHECKED) == 0) {
        return "is rated in bending by first yield without a check of buckling: its plates are not known";
    }
    return NULL;
}

static int compare_rated(const void *a, const void *b) {
    const ss_rated *const left = a;
    const ss_rated *const right = b;
    return left->group != right->group ? (left->group < right->group ? -1 : 1)
                                       : (left->order > right->order) - (left->order < right->order);
}

/* Lines, then floor beams, then joints, each with its limit states in order: a sparse rank. */
static int sparse_rank(const ss_bridge *bridge, const ss_effect *effect, limit_state limit) {
    const int before = effect->member == SS_MEMBER_LINE   ? 0
                       : effect->member == SS_MEMBER_BEAM ? bridge->line_count
                                                          : bridge->line_count + bridge->floor_beam_count;
    return (int)LIMIT_NONE * (before + effect->index) + (int)limit;
}

static void rank_groups(ss_rated_list *list) {
    if (list->count > 1) {
        qsort(list->items, (size_t)list->count, sizeof *list->items, compare_rated);
    }
    int sparse = -1;
    for (int i = 0; i < list->count; i++) {
        if (list->items[i].group != sparse) {
            sparse = list->items[i].group;
            list->group_count++;
        }
        list->items[i].group = list->group_count - 1;
        list->group_first[list->group_count] = i + 1;
    }
}

ss_status ss_rated_list_build(const ss_permanent *permanent, const ss_effect *effects, int count,
                              bool deflections, ss_rating_notes *notes, ss_rated_list *out, ss_error *error) {
    const ss_bridge *const bridge = ss_grillage_mesh(permanent->grillage)->bridge;
    ss_status status = SS_OK;
    ss_rated_list list = {0};
    resisting r = {.bridge = bridge, .permanent = permanent};
    ss_strength_uses(bridge, r.use);
    list.items = ss_arena_alloc(notes->arena, (size_t)count + 1, sizeof *list.items);
    list.group_first = ss_arena_alloc(notes->arena, (size_t)count + 1, sizeof *list.group_first);
    SS_TRY(list.items == NULL || list.group_first == NULL ? SS_ERROR_MEMORY : SS_OK);
    for (int i = 0; i < count; i++) {
        const limit_state limit = limit_of(bridge, &effects[i], deflections);
        if (limit == LIMIT_NONE) {
            continue;
        }
        ss_rated rated = {.effect = effects[i], .order = i, .group = sparse_rank(bridge, &effects[i], limit)};
        SS_TRY(resist(&r, limit, &rated));
        const ss_resistance *const one = spoken_of(r.use, &rated);
        const char *const remark = limit == LIMIT_MOMENT || limit == LIMIT_WEB ? remark_on(one, limit) : NULL;
        if (remark != NULL) {
            SS_TRY(ss_rating_notes_section(notes, bridge, &effects[i], remark));
        }
        if (!isnan(one->value)) {
            list.items[list.count++] = rated;
        }
    }
    rank_groups(&list);
    *out = list;
done:
    return status == SS_OK ? SS_OK
                           : ss_error_set(error, status, "the rated sections: %s", ss_status_text(status));
}

void ss_rated_list_split(ss_rated_list *list, const int *only) {
    int before = -1;
    list->only = only;
    list->group_count = 0;
    for (int i = 0; i < list->count; i++) {
        const int group = list->items[i].group;
        if (group != before || fabs(list->items[i].effect.at - list->items[i - 1].effect.at) > 1e-9) {
            list->group_count++;
        }
        before = group;
        list->items[i].group = list->group_count - 1;
        list->group_first[list->group_count] = i + 1;
    }
}
