/* method_capacity.c - how far an effect may go by a check: a factored resistance, a share of the yield
 * stress, or a part of the span. */
#include <math.h>

#include "assess/method_parts.h"
#include "base/numeric.h"

/* Least product of the factors of condition and system (MBE 6A.4.2.1, from memory). */
#define PRODUCT_LEAST 0.85

/* AASHTO LRFD 2.5.2.6.2 (from memory) holds overhangs to a 300th where spans are held to an 800th, and to a
 * 375th where to a 1000th: the same ratio. */
#define OVERHANG_RATIO (300.0 / 800.0)

/* A bearing that does not touch leaves an overhang or one longer span; if none touches, all count. */
static double deflection_limit(const ss_bridge *bridge, const ss_effect *effect) {
    ss_stretch reach;
    if (!ss_stretch_of(bridge, effect->index, effect->at, effect->before, true, &reach) &&
        !ss_stretch_of(bridge, effect->index, effect->at, effect->before, false, &reach)) {
        return SS_NAN;
    }
    const double limit = bridge->rating.deflection_limit;
    const bool overhang = reach.free0 || reach.free1;
    const double capacity = (reach.x1 - reach.x0) / (overhang ? OVERHANG_RATIO * limit : limit);
    return capacity > 0.0 && isfinite(capacity) ? capacity : SS_NAN;
}

/* Share of the nominal resistance by the row; NaN: not looked at. */
static double share_of(const ss_check_row *row, const ss_effect *effect) {
    if (effect->member == SS_MEMBER_JOINT) {
        return effect->kind == SS_EFFECT_SHEAR || effect->kind == SS_EFFECT_MOMENT ? row->joint : SS_NAN;
    }
    if (effect->member != SS_MEMBER_LINE && effect->member != SS_MEMBER_BEAM) {
        return SS_NAN;
    }
    switch (effect->kind) {
    case SS_EFFECT_MOMENT: return row->bending;
    case SS_EFFECT_WEB_PLUS: return row->shear;
    /* Without torsion in the web both signs of it are the same effect. */
    case SS_EFFECT_WEB_MINUS: return effect->torsion_shear == 0.0 ? SS_NAN : row->shear;
    default: return SS_NAN;
    }
}

ss_strength ss_check_strength(const ss_check *check, double *share) {
    const ss_check_row *const row = ss_check_row_of(check);
    *share = row == NULL || isnan(row->bending) ? 0.0 : row->bending;
    if (check->limit == SS_LIMIT_SERVICE) {
        return SS_STRENGTH_SERVICE;
    }
    switch (check->method) {
    case SS_METHOD_LRFR: return SS_STRENGTH_LRFD;
    case SS_METHOD_LFR: return SS_STRENGTH_LFR;
    case SS_METHOD_ASR: break;
    }
    return check->level == SS_LEVEL_INVENTORY ? SS_STRENGTH_ASR_INVENTORY : SS_STRENGTH_ASR_OPERATING;
}

double ss_check_capacity(const ss_bridge *bridge, const ss_check *check, const ss_method_factors *factors,
                         const ss_effect *effect, const ss_resistance *nominal) {
    const ss_check_row *const row = ss_check_row_of(check);
    if (row == NULL) {
        return SS_NAN;
    }
    if (check->limit == SS_LIMIT_DEFLECTION) {
        const bool girder = effect->member == SS_MEMBER_LINE && effect->kind == SS_EFFECT_DEFLECTION &&
                            bridge->lines[effect->index].role != SS_ROLE_STRINGER;
        return girder ? deflection_limit(bridge, effect) : SS_NAN;
    }
    double share = share_of(row, effect);
    if (isnan(share) || nominal == NULL) {
        return SS_NAN;
    }
    share = nominal->share > 0.0 ? nominal->share : share;
    return share * ss_max(PRODUCT_LEAST, factors->condition * factors->system) * factors->phi *
           nominal->value;
}
