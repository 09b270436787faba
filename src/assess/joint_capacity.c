/* joint_capacity.c - what a joint of the bridge can carry: as given, or by what it is made of. */
#include "assess/joint_capacity.h"

#include <math.h>

#include "base/numeric.h"

enum { BOLTS_MOST = 50 };

static ss_joint_strength of_plate(const ss_joint_detail *d, ss_working *working) {
    const ss_joint_plate plate = {.thickness = d->thickness,
                                  .reach = d->reach,
                                  .fy = d->fy,
                                  .fu = d->fu,
                                  .leg = d->leg,
                                  .electrode = d->electrode,
                                  .faces = d->faces,
                                  .left = d->left,
                                  .right = d->right,
                                  .lap = d->lap};
    return ss_joint_plate_strength(&plate, working);
}

static ss_joint_strength of_bolts(const ss_joint_detail *d, ss_working *working) {
    ss_bolt_place places[BOLTS_MOST];
    const int count = d->count < BOLTS_MOST ? d->count : BOLTS_MOST;
    for (int i = 0; i < count; i++) places[i] = (ss_bolt_place){0.0, i * d->spacing};
    const ss_bolt_group group = {.places = places,
                                 .count = count,
                                 .bolt = {.diameter = d->diameter,
                                          .tensile = d->tensile,
                                          .threads_in_plane = true,
                                          .planes = d->planes,
                                          .ply = d->thickness,
                                          .ply_fu = d->fu,
                                          .clear = d->clear},
                                 .arm = d->arm};
    return ss_bolt_group_strength(&group, working);
}

static ss_joint_strength of_concrete(const ss_joint_detail *d, ss_working *working) {
    static const double quarter_circle = 0.78539816339744831;
    const ss_joint_beam beam = {.interface = SS_INTERFACE_STEEL,
                                .depth = d->depth,
                                .fc = d->fc,
                                .rods = quarter_circle * d->diameter * d->diameter / d->spacing,
                                .rods_fy = d->fy,
                                .rods_depth = d->cover};
    return ss_joint_beam_strength(&beam, working);
}

static ss_resistance known(const ss_joint_capacity *capacity, const char *why) {
    /* A plate that is hinged at its welds carries nothing: that is no capacity to rate by. */
    const bool some = capacity->factored > 0.0 && isfinite(capacity->factored);
    return (ss_resistance){.value = some ? capacity->factored : SS_NAN, .rule = capacity->mode, .why = why};
}

void ss_joint_capacity_of(const ss_joint *joint, ss_resistance *shear, ss_resistance *moment,
                          ss_working *working) {
    const bool discrete = joint->connector_count > 0;
    ss_joint_strength strength;
    *shear = (ss_resistance){.value = joint->shear_capacity,
                             .rule = "shear capacity of the joint as given, factored"};
    *moment = (ss_resistance){.value = joint->moment_capacity,
                              .rule = "bending capacity of the joint as given, factored"};
    if (joint->slab) {
        shear->rule = "shear of the slab over the gap, 2 sqrt(f'c), factored";
        moment->rule = "bending of the slab over the gap by its bars across, factored";
        return;
    }
    const ss_joint_detail_kind kind = joint->detail.kind;
    const bool given = !isnan(joint->shear_capacity) || !isnan(joint->moment_capacity);
    if (given || kind == SS_DETAIL_NONE || kind == SS_DETAIL_PLANKS ||
        (!discrete && joint->kind != SS_JOINT_SPRINGS)) {
        return;
    }
    switch (kind) {
    case SS_DETAIL_PLATE: strength = of_plate(&joint->detail, working); break;
    case SS_DETAIL_BOLTS: strength = of_bolts(&joint->detail, working); break;
    default: strength = of_concrete(&joint->detail, working);
    }
    *shear = known(&strength.shear, strength.why);
    *moment = known(&strength.moment, strength.why);
}
