/* rating_sections.c - the effects that are rated, each with its nominal resistance, and notes on those that
 * cannot be. */
#include "assess/rating_sections.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/try.h"

/* Limit states in the order of the result. */
typedef enum limit_state {
    LIMIT_MOMENT,
    LIMIT_WEB,
    LIMIT_JOINT,
    LIMIT_JOINT_MOMENT,
    LIMIT_DEFLECTION,
    LIMIT_NONE
} limit_state;

static limit_state limit_of(const ss_bridge *bridge, const ss_effect *effect, bool deflections) {
    if (effect->member == SS_MEMBER_JOINT) {
        const ss_joint *const joint = &bridge->joints[effect->index];
        if (effect->kind == SS_EFFECT_MOMENT) {
            return isnan(joint->moment_capacity) ? LIMIT_NONE : LIMIT_JOINT_MOMENT;
        }
        return effect->kind == SS_EFFECT_SHEAR && !isnan(joint->shear_capacity) ? LIMIT_JOINT : LIMIT_NONE;
    }
    if (effect->member != SS_MEMBER_LINE && effect->member != SS_MEMBER_BEAM) {
        return LIMIT_NONE;
    }
    switch (effect->kind) {
    case SS_EFFECT_MOMENT: return LIMIT_MOMENT;
    case SS_EFFECT_WEB_PLUS: return LIMIT_WEB;
    /* Without torsion in the web both signs of it are the same effect. */
    case SS_EFFECT_WEB_MINUS: return effect->torsion_shear == 0.0 ? LIMIT_NONE : LIMIT_WEB;
    case SS_EFFECT_DEFLECTION:
        /* Both sides of a section move alike. */
        return deflections && effect->member == SS_MEMBER_LINE && !effect->before &&
                       bridge->lines[effect->index].role == SS_ROLE_MAIN
                   ? LIMIT_DEFLECTION
                   : LIMIT_NONE;
    default: return LIMIT_NONE;
    }
}

static ss_status section_at(const ss_bridge *bridge, const ss_effect *effect, ss_section_properties *section,
                            const ss_steel **steel) {
    if (effect->member == SS_MEMBER_LINE) {
        *steel = &bridge->steels[bridge->lines[effect->index].steel];
        return ss_bridge_line_section(bridge, effect->index, effect->at, effect->before, section);
    }
    *steel = &bridge->steels[bridge->floor_beams[effect->index].steel];
    return ss_bridge_beam_section(bridge, effect->index, effect->at, effect->before, section);
}

static ss_status resistance_of(const ss_bridge *bridge, const ss_effect *effect, limit_state limit,
                               ss_resistance *out) {
    if (limit == LIMIT_DEFLECTION) {
        *out = (ss_resistance){.value = 0.0, .rule = "share of the span"};
        return SS_OK;
    }
    if (limit == LIMIT_JOINT_MOMENT) {
        *out = (ss_resistance){.value = bridge->joints[effect->index].moment_capacity,
                               .rule = "bending capacity of the joint as given, factored"};
        return SS_OK;
    }
    if (limit == LIMIT_JOINT) {
        *out = (ss_resistance){.value = bridge->joints[effect->index].shear_capacity,
                               .rule = "shear capacity of the joint as given, factored"};
        return SS_OK;
    }
    ss_section_properties section;
    const ss_steel *steel = NULL;
    const ss_status status = section_at(bridge, effect, &section, &steel);
    if (status == SS_OK) {
        *out = limit == LIMIT_MOMENT ? ss_resistance_yield_moment(&section, steel->fy)
                                     : ss_resistance_web_shear(&section, steel->fy, steel->E);
        out->lost = section.strength_loss;
        out->value *= 1.0 - out->lost;
    }
    return status;
}

/* What is to be said of a resistance, or NULL. */
static const char *remark_on(const ss_resistance *resistance, limit_state limit) {
    if (resistance->why != NULL) {
        return limit == LIMIT_MOMENT ? "is not rated in bending: its elastic section moduli are not known"
                                     : "is not rated in web shear: its web area is not known";
    }
    if (strcmp(resistance->rule, SS_RESISTANCE_SHEAR_UNCHECKED) == 0) {
        return "is rated in web shear without a check of web buckling: the web's slenderness is not known";
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

ss_status ss_rated_list_build(const ss_mesh *mesh, const ss_effect *effects, int count, bool deflections,
                              ss_rating_notes *notes, ss_rated_list *out, ss_error *error) {
    const ss_bridge *const bridge = mesh->bridge;
    ss_status status = SS_OK;
    ss_rated_list list = {0};
    list.items = ss_arena_alloc(notes->arena, (size_t)count + 1, sizeof *list.items);
    list.group_first = ss_arena_alloc(notes->arena, (size_t)count + 1, sizeof *list.group_first);
    SS_TRY(list.items == NULL || list.group_first == NULL ? SS_ERROR_MEMORY : SS_OK);
    for (int i = 0; i < count; i++) {
        const limit_state limit = limit_of(bridge, &effects[i], deflections);
        if (limit == LIMIT_NONE) {
            continue;
        }
        ss_resistance nominal = {0};
        SS_TRY(resistance_of(bridge, &effects[i], limit, &nominal));
        const char *const remark =
            limit == LIMIT_MOMENT || limit == LIMIT_WEB ? remark_on(&nominal, limit) : NULL;
        if (remark != NULL) {
            SS_TRY(ss_rating_notes_section(notes, bridge, &effects[i], remark));
        }
        if (!isnan(nominal.value)) {
            list.items[list.count++] = (ss_rated){.effect = effects[i],
                                                  .nominal = nominal,
                                                  .order = i,
                                                  .group = sparse_rank(bridge, &effects[i], limit)};
        }
    }
    rank_groups(&list);
    *out = list;
done:
    return status == SS_OK ? SS_OK
                           : ss_error_set(error, status, "the rated sections: %s", ss_status_text(status));
}
