/* bridge.c - the resolved bridge: names of its enumerations, sections along its members, its end. */
#include "sillspan/bridge.h"

#include <string.h>

#include "base/numeric.h"
#include "model/resolve.h"

const char *ss_role_name(ss_role role) {
    switch (role) {
    case SS_ROLE_MAIN: return "main girder";
    case SS_ROLE_EXTERIOR: return "exterior girder";
    case SS_ROLE_STRINGER: return "stringer";
    }
    return "";
}

const char *ss_effect_name(ss_effect_kind kind) {
    switch (kind) {
    case SS_EFFECT_MOMENT: return "moment";
    case SS_EFFECT_SHEAR: return "shear";
    case SS_EFFECT_TORSION: return "torsion";
    case SS_EFFECT_DEFLECTION: return "deflection";
    case SS_EFFECT_REACTION: return "reaction";
    case SS_EFFECT_WEB_PLUS: return "web shear, torsion added";
    case SS_EFFECT_WEB_MINUS: return "web shear, torsion deducted";
    }
    return "";
}

void ss_bridge_destroy(ss_bridge *bridge) {
    if (bridge == NULL) {
        return;
    }
    ss_assumption_destroy(&bridge->assumptions);
    ss_arena_destroy(&bridge->arena);
    memset(bridge, 0, sizeof *bridge);
}

double ss_bridge_line_piece(const ss_bridge *bridge, int line, double x, bool before, int *section) {
    const ss_line *const l = &bridge->lines[line];
    const ss_line_piece *piece = &bridge->pieces[l->first_piece];
    for (int i = 1; i < l->piece_count; i++) {
        const ss_line_piece *const next = &bridge->pieces[l->first_piece + i];
        if (before ? next->x0 >= x - SS_SAME_PLACE : next->x0 > x + SS_SAME_PLACE) {
            break;
        }
        piece = next;
    }
    const double at = ss_clamp((x - piece->x0) / (piece->x1 - piece->x0), 0.0, 1.0);
    *section = piece->section;
    return piece->depth0 + at * (piece->depth1 - piece->depth0);
}

ss_status ss_bridge_line_section(const ss_bridge *bridge, int line, double x, bool before,
                                 ss_section_properties *out) {
    int section = 0;
    const double depth = ss_bridge_line_piece(bridge, line, x, before, &section);
    return ss_section_at(&bridge->sections[section], depth, bridge->steels[bridge->lines[line].steel].density,
                         out, NULL);
}

int ss_bridge_beam_part(const ss_bridge *bridge, int beam, double y, bool before) {
    const ss_floor_beam *const b = &bridge->floor_beams[beam];
    const ss_beam_part *part = &bridge->parts[b->first_part];
    for (int i = 1; i < b->part_count; i++) {
        const ss_beam_part *const next = &bridge->parts[b->first_part + i];
        if (before ? next->y0 >= y - SS_SAME_PLACE : next->y0 > y + SS_SAME_PLACE) {
            break;
        }
        part = next;
    }
    return part->section;
}

ss_status ss_bridge_beam_section(const ss_bridge *bridge, int beam, double y, bool before,
                                 ss_section_properties *out) {
    const ss_section *const section = &bridge->sections[ss_bridge_beam_part(bridge, beam, y, before)];
    return ss_section_at(section, section->depth, bridge->steels[bridge->floor_beams[beam].steel].density,
                         out, NULL);
}
