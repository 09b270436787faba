/* resolve_remark.c - what the analysis leaves out, and a warning where the answer hangs on torsion. */
#include "model/resolve_joint_detail.h"
#include "model/resolve_slab.h"

static bool ignore(ss_resolve *c, const char *sentence) {
    ss_bridge *const bridge = c->bridge;
    const char **const grown =
        ss_resolve_grow(c, (void *)bridge->ignored, bridge->ignored_count, sizeof *grown);
    if (grown == NULL) {
        return false;
    }
    bridge->ignored = grown;
    grown[bridge->ignored_count++] = sentence;
    return true;
}

static bool has_torsion(const ss_bridge *bridge, bool box) {
    for (int i = 0; i < bridge->piece_count; i++) {
        const ss_section *const s = &bridge->sections[bridge->pieces[i].section];
        if (box ? s->shape != SS_SHAPE_GIVEN && s->torsion != SS_TORSION_OPEN
                : s->shape == SS_SHAPE_CHANNEL) {
            return true;
        }
    }
    return false;
}

static bool several_abreast(const ss_bridge *bridge) {
    for (int i = 0; i < bridge->crossing_count; i++) {
        if (bridge->crossings[i].lanes > 1) {
            return true;
        }
    }
    return false;
}

static void list_ignored(ss_resolve *c) {
    const char *const always[] = {
        "Wheels press at points; a tyre's contact area and the spread through deck and surfacing would lower "
        "local bending.",
        c->bridge->slab.given ? "Of the deck that is there today nothing acts with the cars, and it is not "
                                "looked at under a wheel."
        : c->bridge->deck.wheel.given
            ? "The deck counts as neither composite nor stiffening; under a wheel it is looked at between "
              "its supports alone: overhangs, fastenings and holes are left out."
            : "The deck itself is not rated under a wheel, and it counts as neither composite nor "
              "stiffening.",
        "Members lie in one plane: axial force in stringers and deck plate that share the bending of the car "
        "is left out.",
        "The eccentricity between the axes of members that cross at different heights is left out.",
        "Bending, web shear and twist are checked each by itself; buckling of plates under all of them "
        "together is "
        "left out.",
    };
    if (!ignore(c, several_abreast(c->bridge)
                       ? "Each lane has one truck at most: no other vehicle before or behind it."
                       : "One truck alone is on the bridge: no second lane, no other vehicle before or "
                         "behind it.")) {
        return;
    }
    for (size_t i = 0; i < sizeof always / sizeof always[0]; i++) {
        if (!ignore(c, always[i])) {
            return;
        }
    }
    for (int i = 0; c->bridge->slab.given && ss_resolve_slab_ignored(i) != NULL; i++) {
        if (!ignore(c, ss_resolve_slab_ignored(i))) {
            return;
        }
    }
    if (has_torsion(c->bridge, true) &&
        !ignore(c, "Closed and battened sections keep their shape: distortion between diaphragms, and of the "
                   "chords between battens, is left out.")) {
        return;
    }
    if (has_torsion(c->bridge, false) &&
        !ignore(c, "Channels are loaded through their shear centre; its offset from the web, and warping "
                   "torsion, are left out.")) {
        return;
    }
    for (int i = 0; i < c->bridge->vehicle_count; i++) {
        const ss_vehicle *const vehicle = &c->bridge->vehicles[i];
        if (vehicle->remark == NULL) {
            continue;
        }
        const char *const sentence =
            ss_arena_printf(&c->bridge->arena, "%s: %s.", vehicle->name, vehicle->remark);
        if (sentence == NULL) {
            c->reading.status = SS_ERROR_MEMORY;
        }
        if (sentence == NULL || !ignore(c, sentence)) {
            return;
        }
    }
}

/* Once for each closed section of a main girder: the twist that the joints can use hangs on a cell that may
 * not be one. */
static void warn_of_torsion(ss_resolve *c) {
    const ss_bridge *const bridge = c->bridge;
    const ss_node *const list = ss_resolve_list(c->root, "sections");
    /* Sections as found come after those described, and say nothing new. */
    for (int s = 0; s < bridge->section_count && s < list->count; s++) {
        const ss_section *const section = &bridge->sections[s];
        bool main_girder = false;
        for (int i = 0; i < bridge->line_count && !main_girder; i++) {
            const ss_line *const line = &bridge->lines[i];
            for (int k = 0; k < line->piece_count && line->role == SS_ROLE_MAIN; k++) {
                main_girder = main_girder || bridge->pieces[line->first_piece + k].section == s;
            }
        }
        if (!main_girder || bridge->joint_count == 0 || section->shape == SS_SHAPE_GIVEN ||
            section->torsion != SS_TORSION_CLOSED) {
            continue;
        }
        ss_section_properties p;
        char J[SS_WORDS];
        if (ss_section_at(section, section->depth, 0.0, &p, NULL) != SS_OK) {
            continue;
        }
        ss_read_complain(&c->reading, SS_WARNING, ss_node_item(list, s), "torsion",
                         "the cell counts as closed, J = %s; the load share between cars hangs on it, and a "
                         "cell that is open below or "
                         "only battened shares less",
                         ss_units_format(J, sizeof J, p.J, SS_DIM_SECOND_MOMENT, bridge->units, 4));
    }
}

void ss_resolve_remarks(ss_resolve *c) {
    list_ignored(c);
    if (!ss_resolve_out_of_memory(c)) {
        warn_of_torsion(c);
        ss_resolve_joint_planks(c);
        ss_resolve_slab_remarks(c);
    }
}
