/* report_compare_take_supports.c - what bearings and joints of one variant carry, for a comparison. */
#include "report/report_compare.h"

#include <math.h>

#include "assess/joint_capacity.h"
#include "report/report_parts.h"
#include "report/report_words.h"

static void put_reaction(ss_comparison *all, const ss_bridge *bridge, int bearing, const ss_range *range,
                         double noise) {
    ss_compare_reaction *const grown =
        ss_comparison_grow(all, all->reactions, all->reaction_count, sizeof *all->reactions);
    if (grown == NULL) {
        return;
    }
    const ss_bearing *const one = &bridge->bearings[bearing];
    const double least = range->dead + range->value[0];
    all->reactions = grown;
    ss_compare_reaction *const r = &grown[all->reaction_count++];
    *r = (ss_compare_reaction){.variant = all->variant_count,
                               .bearing = ss_comparison_keep(all, one->name),
                               .car = ss_comparison_keep(all, bridge->cars[one->car].name),
                               .line = ss_comparison_keep(all, bridge->lines[one->line].name),
                               .x = one->x,
                               .dead = range->dead,
                               .least = fabs(least) <= noise ? 0.0 : least,
                               .most = range->dead + range->value[1],
                               .contact = one->contact};
    r->clear = r->contact && r->dead <= noise;
    r->lifts = r->contact && !r->clear && r->least <= 0.0;
    r->pulled = !r->contact && r->least < 0.0;
}

static void take_reactions(ss_comparison *all, ss_builder *b, const ss_range *ranges) {
    const ss_envelope *const envelope = b->results->envelope;
    double largest = 0.0;
    for (int i = 0; i < envelope->effect_count; i++) {
        if (envelope->effects[i].kind == SS_EFFECT_REACTION) {
            largest = fmax(largest, fabs(ranges[i].dead) + fabs(ranges[i].value[1]));
        }
    }
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *const e = &envelope->effects[i];
        if (e->kind == SS_EFFECT_REACTION && ss_ranges_find(envelope, e) == i) {
            put_reaction(all, b->results->bridge, e->index, &ranges[i], 1e-9 * largest);
        }
    }
}

/* The place where a joint has most to carry; -1: nothing is carried. */
static int hardest(const ss_envelope *envelope, const ss_range *ranges, int joint, ss_effect_kind kind,
                   int *most) {
    int worst = -1;
    double size = 0.0;
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *const e = &envelope->effects[i];
        if (e->member != SS_MEMBER_JOINT || e->index != joint || e->kind != kind) {
            continue;
        }
        for (int m = 0; m < 2; m++) {
            if (fabs(ranges[i].dead + ranges[i].value[m]) > size * (1.0 + 1e-9)) {
                size = fabs(ranges[i].dead + ranges[i].value[m]);
                worst = i;
                *most = m;
            }
        }
    }
    return worst;
}

static void put_joint(ss_comparison *all, ss_builder *b, const ss_range *ranges, int joint,
                      ss_effect_kind kind) {
    const ss_bridge *const bridge = b->results->bridge;
    ss_resistance shear = {0};
    ss_resistance moment = {0};
    int most = 1;
    const int i = hardest(b->results->envelope, ranges, joint, kind, &most);
    ss_compare_joint *const grown =
        i < 0 ? NULL : ss_comparison_grow(all, all->joints, all->joint_count, sizeof *all->joints);
    if (grown == NULL) {
        return;
    }
    const ss_effect *const e = &b->results->envelope->effects[i];
    const int traffic = ranges[i].traffic[most];
    ss_joint_capacity_of(&bridge->joints[joint], &shear, &moment, NULL);
    all->joints = grown;
    grown[all->joint_count++] = (ss_compare_joint){
        .variant = all->variant_count,
        .joint = ss_comparison_keep(all, bridge->joints[joint].name),
        .effect = ss_words_failure(kind),
        .truck = traffic < 0 ? NULL : ss_comparison_keep(all, ss_words_traffic(b, traffic)),
        .x = e->at,
        .demand = fabs(ranges[i].dead + ranges[i].value[most]),
        .capacity = kind == SS_EFFECT_SHEAR ? shear.value : moment.value,
        .by_bending = bridge->joints[joint].slab && !isnan(moment.value),
        .dimension = ss_words_dimension(bridge, e)};
}

void ss_comparison_take_supports(ss_comparison *all, ss_builder *b) {
    const ss_range *const ranges = ss_ranges(b);
    if (ranges == NULL) {
        return;
    }
    take_reactions(all, b, ranges);
    for (int joint = 0; joint < b->results->bridge->joint_count; joint++) {
        put_joint(all, b, ranges, joint, SS_EFFECT_SHEAR);
        put_joint(all, b, ranges, joint, SS_EFFECT_MOMENT);
    }
}
