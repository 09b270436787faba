/* lane_choice.c - trucks in several lanes whose values add up: the largest sum, going through the lanes. */
#include "response/lane_choice.h"

#include <stddef.h>

#include "base/numeric.h"

/* Places this near are as far apart as they have to be (m). */
#define HAIR 1e-9

/* The lanes of a pick in the making. */
typedef struct lanes {
    int which[SS_LANES_MAX];
    double gauge[SS_LANES_MAX], low[SS_LANES_MAX], high[SS_LANES_MAX];
    size_t slots;
} lanes;

/* Sums up to lane i over all its places, by those of the lane before it. */
static void add_lane(const ss_lane_choice *c, const lanes *l, int i, const double *best) {
    const ss_lane_rule *const rule = ss_lane_rule_of(c->bridge, c->crossing->vehicle);
    const int which = l->which[i], before = i > 0 ? l->which[i - 1] : -1;
    const double apart =
        i == 0 || rule->fixed ? 0.0 : 0.5 * (l->gauge[i - 1] + l->gauge[i]) + rule->between_wheels;
    double most = -SS_INFINITY;
    int most_slot = -1, next = 0;
    for (int s = 0; s < c->slot_count[which]; s++) {
        const double y = c->y[which][s];
        for (; before >= 0 && next < c->slot_count[before] && c->y[before][next] <= y - apart + HAIR;
             next++) {
            const double there = c->sum[(size_t)(i - 1) * l->slots + (size_t)next];
            if (there > most) {
                most = there;
                most_slot = next;
            }
        }
        const bool within = y >= l->low[i] - HAIR && y <= l->high[i] + HAIR;
        c->sum[(size_t)i * l->slots + (size_t)s] = within ? best[s] + (i > 0 ? most : 0.0) : -SS_INFINITY;
        c->through[(size_t)i * l->slots + (size_t)s] = most_slot;
    }
}

/* The best with the trucks in the lanes as they are. */
static ss_lane_pick pick_in_order(const ss_lane_choice *c, const double *const best[SS_ABREAST_MAX],
                                  lanes *l) {
    const int count = c->crossing->lanes;
    ss_lane_pick pick = {.value = -SS_INFINITY};
    for (int i = 0; i < count; i++) {
        pick.which[i] = l->which[i];
        l->gauge[i] = c->bridge->vehicles[ss_crossing_truck(c->crossing, l->which[i])].gauge_m;
    }
    if (!ss_crossing_ranges(c->bridge, c->crossing, l->gauge, l->low, l->high)) {
        return pick;
    }
    pick.room = true;
    for (int i = 0; i < count; i++) add_lane(c, l, i, best[l->which[i]]);
    int slot = -1;
    for (int s = 0; s < c->slot_count[l->which[count - 1]]; s++) {
        const double sum = c->sum[(size_t)(count - 1) * l->slots + (size_t)s];
        if (sum > pick.value) {
            pick.value = sum;
            slot = s;
        }
    }
    for (int i = count - 1; slot >= 0 && i >= 0; i--) {
        pick.slot[i] = slot;
        slot = c->through[(size_t)i * l->slots + (size_t)slot];
    }
    return pick;
}

ss_lane_pick ss_lane_choose(const ss_lane_choice *choice, const double *const best[SS_ABREAST_MAX]) {
    ss_lane_pick worst = {.value = -SS_INFINITY};
    lanes l = {.slots = 0};
    for (int i = 0; i < SS_ABREAST_MAX; i++) {
        l.slots = (size_t)choice->slot_count[i] > l.slots ? (size_t)choice->slot_count[i] : l.slots;
    }
    for (int number = 0; ss_crossing_order(choice->crossing, number, l.which); number++) {
        const ss_lane_pick here = pick_in_order(choice, best, &l);
        if (here.value > worst.value) {
            worst = here;
        }
    }
    return worst;
}
