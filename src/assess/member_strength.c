/* member_strength.c - a place of a line or floor beam as the rules of bending strength see it. */
#include "assess/member_strength.h"

#include "assess/bracing.h"

ss_status ss_member_place_at(const ss_bridge *bridge, const ss_effect *effect, ss_member_place *out) {
    if (effect->member == SS_MEMBER_LINE) {
        const ss_line *const line = &bridge->lines[effect->index];
        int section = -1;
        out->steel = &bridge->steels[line->steel];
        out->depth = ss_bridge_line_piece(bridge, effect->index, effect->at, effect->before, &section);
        out->section = &bridge->sections[section];
        return SS_OK;
    }
    const ss_floor_beam *const beam = &bridge->floor_beams[effect->index];
    const int section = ss_bridge_beam_part(bridge, effect->index, effect->at, effect->before);
    out->steel = &bridge->steels[beam->steel];
    out->section = &bridge->sections[section];
    out->depth = out->section->depth;
    return SS_OK;
}

ss_flexure_case ss_member_flexure(const ss_bridge *bridge, const ss_effect *effect,
                                  const ss_member_place *place, bool sagging) {
    const ss_bracing_stretch held = ss_bracing_at(bridge, effect, sagging);
    return (ss_flexure_case){.section = place->section,
                             .depth = place->depth,
                             .fy = place->steel->fy,
                             .E = place->steel->E,
                             .G = place->steel->G,
                             .top_compressed = sagging,
                             .unbraced = held.length,
                             .Cb = held.Cb,
                             .upright = effect->member == SS_MEMBER_LINE && bridge->deck.holds_lines &&
                                        !bridge->deck.along};
}

ss_status ss_member_strength(const ss_flexure_case *given, ss_strength strength, double share,
                             ss_resistance *out, ss_working *working) {
    switch (strength) {
    case SS_STRENGTH_SERVICE: return ss_flexure_service(given, share, out, working);
    case SS_STRENGTH_LFR: return ss_flexure_lfr(given, out, working);
    case SS_STRENGTH_ASR_INVENTORY:
    case SS_STRENGTH_ASR_OPERATING: {
        const ss_status status = ss_flexure_asr(given, share, out, working);
        out->value /= share;
        return status;
    }
    default: return ss_flexure_lrfd(given, out, working);
    }
}
