/* effects.c - the list of effects that a bridge is to be known by. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/mesh_parts.h"
#include "response/state.h"
#include "sillspan/envelope.h"
#include "sillspan/memory.h"

typedef struct effect_list {
    const ss_mesh *mesh;
    ss_effect *items;
    int count, capacity;
    ss_error *error;
} effect_list;

static ss_status add(effect_list *list, ss_member_kind member, int index, double at, bool before,
                     ss_effect_kind kind) {
    if (list->count == list->capacity) {
        const int capacity = 2 * list->capacity + 256;
        ss_effect *const grown = ss_realloc(list->items, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return ss_no_memory(list->error);
        }
        list->items = grown;
        list->capacity = capacity;
    }
    const ss_status status =
        ss_mesh_effect(list->mesh, member, index, at, before, kind, &list->items[list->count], list->error);
    list->count += status == SS_OK;
    return status;
}

/* The web effect that was added last again, with what inclined flanges carry. Both count, so that relief by
 * the flanges is not relied on. */
static ss_status add_tapered(effect_list *list) {
    ss_effect tapered = list->items[list->count - 1];
    if (!ss_mesh_effect_taper(list->mesh, &tapered)) {
        return SS_OK;
    }
    const ss_status status =
        add(list, tapered.member, tapered.index, tapered.at, tapered.before, tapered.kind);
    if (status == SS_OK) {
        list->items[list->count - 1] = tapered;
    }
    return status;
}

/* All effects of one side of one section. */
static ss_status add_section(effect_list *list, ss_member_kind member, int index, double at, bool before) {
    static const ss_effect_kind kinds[] = {SS_EFFECT_MOMENT,     SS_EFFECT_SHEAR,    SS_EFFECT_TORSION,
                                           SS_EFFECT_DEFLECTION, SS_EFFECT_WEB_PLUS, SS_EFFECT_WEB_MINUS};
    ss_status status = SS_OK;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds && status == SS_OK; i++) {
        status = add(list, member, index, at, before, kinds[i]);
        const bool web = kinds[i] == SS_EFFECT_WEB_PLUS || kinds[i] == SS_EFFECT_WEB_MINUS;
        if (status == SS_OK && web && member == SS_MEMBER_LINE) {
            status = add_tapered(list);
        }
    }
    return status;
}

/* Where nothing changes, both sides of a section have the same extremes. */
static ss_status add_line(effect_list *list, int line) {
    const ss_mesh *mesh = list->mesh;
    ss_status status = SS_OK;
    for (int k = 0; k < mesh->station_count; k++) {
        const bool left = k > 0 && ss_mesh_line_element(mesh, k - 1, line) >= 0;
        const bool right = k + 1 < mesh->station_count && ss_mesh_line_element(mesh, k, line) >= 0;
        if (left && (mesh->marked[k] || !right)) {
            SS_TRY(add_section(list, SS_MEMBER_LINE, line, mesh->station[k], true));
        }
        if (right) {
            SS_TRY(add_section(list, SS_MEMBER_LINE, line, mesh->station[k], false));
        }
    }
done:
    return status;
}

static ss_status add_beam(effect_list *list, int beam) {
    const ss_mesh *mesh = list->mesh;
    const bool strip = mesh->bridge->floor_beams[beam].strip > 0.0;
    ss_status status = SS_OK;
    for (int i = mesh->beam_first[beam]; i < mesh->beam_first[beam + 1]; i++) {
        const ss_element *e = &mesh->element[mesh->beam_element[i]];
        const double a = mesh->bridge->lines[mesh->node_line[e->a]].y;
        const double b = mesh->bridge->lines[mesh->node_line[e->b]].y;
        SS_TRY(add_section(list, SS_MEMBER_BEAM, beam, a, false));
        /* Nothing comes to a strip of slab between its lines. */
        for (int quarter = 1; quarter < 4 && !strip; quarter++) {
            SS_TRY(add_section(list, SS_MEMBER_BEAM, beam, a + 0.25 * quarter * (b - a), false));
        }
        SS_TRY(add_section(list, SS_MEMBER_BEAM, beam, b, true));
    }
done:
    return status;
}

/* Every spring of a joint, the two kinds at one place side by side. */
static ss_status add_joints(effect_list *list) {
    const ss_mesh *mesh = list->mesh;
    ss_status status = SS_OK;
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *s = &mesh->spring[i];
        if (s->owner == SS_MEMBER_JOINT && s->kind != SS_SPRING_SLOPE) {
            const ss_effect_kind kind = s->kind == SS_SPRING_FOLD ? SS_EFFECT_MOMENT : SS_EFFECT_SHEAR;
            SS_TRY(add(list, SS_MEMBER_JOINT, s->index, s->x, false, kind));
        }
    }
done:
    return status;
}

static bool has_vertical(const ss_mesh *mesh, int bearing) {
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *s = &mesh->spring[i];
        if (s->owner == SS_MEMBER_BEARING && s->index == bearing && s->kind == SS_SPRING_VERTICAL) {
            return true;
        }
    }
    return false;
}

static ss_status add_probes(effect_list *list) {
    const ss_bridge *bridge = list->mesh->bridge;
    ss_status status = SS_OK;
    for (int i = 0; i < bridge->probe_count; i++) {
        const ss_probe *p = &bridge->probes[i];
        SS_TRY(add(list, p->member, p->index, p->at, p->before, p->effect));
    }
done:
    return status;
}

ss_status ss_envelope_effects(const ss_mesh *mesh, ss_effect **effects, int *count, ss_error *error) {
    const ss_bridge *bridge = mesh->bridge;
    ss_status status = SS_OK;
    effect_list list = {.mesh = mesh, .error = error};
    for (int i = 0; i < bridge->line_count; i++) SS_TRY(add_line(&list, i));
    for (int i = 0; i < bridge->floor_beam_count; i++) SS_TRY(add_beam(&list, i));
    SS_TRY(add_joints(&list));
    for (int i = 0; i < bridge->bearing_count; i++) {
        if (has_vertical(mesh, i)) {
            SS_TRY(add(&list, SS_MEMBER_BEARING, i, bridge->bearings[i].x, false, SS_EFFECT_REACTION));
        }
    }
    SS_TRY(add_probes(&list));
    *effects = list.items;
    *count = list.count;
    list.items = NULL;
done:
    ss_free(list.items);
    return status;
}
