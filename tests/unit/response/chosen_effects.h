/* chosen_effects.h - a dozen effects of all sorts on the bridge of made_two_cars. */
#ifndef TEST_CHOSEN_EFFECTS_H
#define TEST_CHOSEN_EFFECTS_H

#include "support/make_bridge.h"
#include "support/suite.h"

enum { EFFECTS = 12 };

static inline ss_effect effect_of(const made_bridge *m, ss_member_kind member, int index, double at,
                                  bool before, ss_effect_kind kind) {
    ss_effect e = {0};
    ss_error error = {0};
    CHECK_OK(ss_mesh_effect(&m->mesh, member, index, at, before, kind, &e, &error), &error);
    return e;
}

static inline void choose_effects(const made_bridge *m, ss_effect e[EFFECTS]) {
    e[0] = effect_of(m, SS_MEMBER_LINE, 3, 6.4, false, SS_EFFECT_MOMENT);
    e[1] = effect_of(m, SS_MEMBER_LINE, 3, 6.4, true, SS_EFFECT_SHEAR);
    e[2] = effect_of(m, SS_MEMBER_LINE, 3, 6.4, false, SS_EFFECT_DEFLECTION);
    e[3] = effect_of(m, SS_MEMBER_LINE, 3, 1.7, false, SS_EFFECT_TORSION);
    e[4] = effect_of(m, SS_MEMBER_LINE, 9, 6.4, false, SS_EFFECT_MOMENT);
    e[5] = effect_of(m, SS_MEMBER_LINE, 6, 9.1, true, SS_EFFECT_SHEAR);
    e[6] = effect_of(m, SS_MEMBER_LINE, 10, 1.7, false, SS_EFFECT_MOMENT);
    e[7] = effect_of(m, SS_MEMBER_BEAM, 2, m->bridge.lines[3].y, true, SS_EFFECT_MOMENT);
    e[8] = effect_of(m, SS_MEMBER_BEAM, 7, m->bridge.lines[9].y, false, SS_EFFECT_SHEAR);
    e[9] = effect_of(m, SS_MEMBER_JOINT, 0, 6.4, false, SS_EFFECT_SHEAR);
    e[10] = effect_of(m, SS_MEMBER_BEARING, 0, 1.7, false, SS_EFFECT_REACTION);
    e[11] = effect_of(m, SS_MEMBER_BEARING, 1, 0.0, false, SS_EFFECT_REACTION);
}

#endif
