/* lane_choice.c - trucks in several lanes whose values add up: the largest sum, going through the lanes. */
#include "response/lane_choice.h"

#include <stddef.h>

#include "base/numeric.h"

/* Places this near are as far apart as they have to be (m). */
#define HAIR 1e-9

/* The lanes of a pick in the making. */
typedef struct lanes {
    int which[SS_LANES_MAX]; /* vehicle */
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

/* The best with the crossing's own vehicle in lane `own`. */
static ss_lane_pick pick_with(const ss_lane_choice *c, const double *const best[2], int own) {
    const int count = c->crossing->lanes;
    ss_lane_pick pick = {.own = own, .value = -SS_INFINITY};
    lanes l = {.slots = (size_t)(c->slot_count[0] > c->slot_count[1] ? c->slot_count[0] : c->slot_count[1])};
    for (int i = 0; i < count; i++) {
        l.which[i] = ss_lane_pick_vehicle(c, &pick, i);
        l.gauge[i] =
            c->bridge->vehicles[l.which[i] == 0 ? c->crossing->vehicle : c->crossing->beside].gauge_m;
    }
    if (!ss_crossing_ranges(c->bridge, c->crossing, l.gauge, l.low, l.high)) {
        return pick;
    }
    for (int i = 0; i < count; i++) add_lane(c, &l, i, best[l.which[i]]);
    int slot = -1;
    for (int s = 0; s < c->slot_count[l.which[count - 1]]; s++) {
        const double sum = c->sum[(size_t)(count - 1) * l.slots + (size_t)s];
        if (sum > pick.value) {
            pick.value = sum;
            slot = s;
        }
    }
    for (int i = count - 1; slot >= 0 && i >= 0; i--) {
        pick.slot[i] = slot;
        slot = c->through[(size_t)i * l.slots + (size_t)slot];
    }
    return pick;
}

ss_lane_pick ss_lane_choose(const ss_lane_choice *choice, const double *const best[2]) {
    ss_lane_pick worst = {.own = -1, .value = -SS_INFINITY};
    for (int own = 0; own < (choice->same ? 1 : choice->crossing->lanes); own++) {
        const ss_lane_pick here = pick_with(choice, best, own);
        if (here.value > worst.value) {
            worst = here;
        }
    }
    return worst;
}
