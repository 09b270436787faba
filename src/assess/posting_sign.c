/* posting_sign.c - the limits of a sign: the smallest safe loads of each group, and whether the bridge can
 * stay open. */
#include <math.h>

#include "assess/posting_parts.h"
#include "base/numeric.h"

/* A bridge that cannot carry 3 tons (6000 lbf) of gross weight is to be closed (MBE 6A.8.1 and 23 CFR
 * 650.313, from memory). */
#define LEAST (6000.0 * 4.4482216152605 * (1.0 - 1e-9))

/* Whether it was rated alone. */
static bool has_alone(const ss_posting_builder *b, int vehicle) {
    for (int i = 0; i < b->made.row_count; i++) {
        const ss_posting_row *const row = &b->made.rows[i];
        if (row->vehicle == vehicle && row->counts && !row->meeting) {
            return true;
        }
    }
    return false;
}

bool ss_posting_in_sign(const ss_posting_builder *b, const ss_posting_row *row, bool one) {
    return row->counts && !(one && row->meeting && has_alone(b, row->vehicle));
}

static void take_row(const ss_posting_builder *b, const ss_posting_row *row, ss_posting_sign *sign) {
    const ss_vehicle_class kind = b->bridge->vehicles[row->vehicle].kind;
    const bool legal = kind == SS_VEHICLE_LEGAL || kind == SS_VEHICLE_DESIGN;
    if (sign->state == SS_POSTING_UNKNOWN) {
        sign->state = SS_POSTING_OPEN;
    }
    if (row->group != SS_POSTING_EMERGENCY) {
        sign->rated[row->group] = true;
    }
    if (!(row->safe_N < SS_INFINITY)) {
        return;
    }
    if (legal && row->safe_N < LEAST) {
        sign->state = SS_POSTING_CLOSED;
    } else if (sign->state == SS_POSTING_OPEN) {
        sign->state = SS_POSTING_LIMITED;
    }
    if (row->group == SS_POSTING_EMERGENCY) {
        double *const axle = row->tandem ? &sign->tandem_N : &sign->axle_N;
        *axle = ss_min(*axle, row->safe_axle_N);
        sign->emergency_N = ss_min(sign->emergency_N, row->safe_N);
    } else if (legal || row->safe_N > 0.0) { /* others that may not cross are named, not posted for */
        sign->group_N[row->group] = ss_min(sign->group_N[row->group], row->safe_N);
    }
}

/* Each limit may come from another vehicle, but no axle of a vehicle weighs more than all of it. */
static void cap_axles(ss_posting_sign *sign) {
    if (sign->axle_N < SS_INFINITY) {
        sign->axle_N = ss_min(sign->axle_N, sign->emergency_N);
    }
    if (sign->tandem_N < SS_INFINITY) {
        sign->tandem_N = ss_min(sign->tandem_N, sign->emergency_N);
    }
}

static ss_posting_sign make_sign(const ss_posting_builder *b, bool one) {
    ss_posting_sign sign = {.state = SS_POSTING_UNKNOWN,
                            .axle_N = SS_INFINITY,
                            .tandem_N = SS_INFINITY,
                            .emergency_N = SS_INFINITY};
    for (int g = 0; g < SS_POSTING_GROUPS; g++) sign.group_N[g] = SS_INFINITY;
    for (int i = 0; i < b->made.row_count; i++) {
        const ss_posting_row *const row = &b->made.rows[i];
        if (ss_posting_in_sign(b, row, one)) {
            take_row(b, row, &sign);
        }
    }
    for (int g = 0; g < SS_POSTING_GROUPS; g++) {
        sign.group_N[g] = ss_posting_round(sign.group_N[g], b->made.units);
    }
    sign.axle_N = ss_posting_round(sign.axle_N, b->made.units);
    sign.tandem_N = ss_posting_round(sign.tandem_N, b->made.units);
    sign.emergency_N = ss_posting_round(sign.emergency_N, b->made.units);
    cap_axles(&sign);
    const bool truck = sign.rated[SS_POSTING_SINGLE] || sign.rated[SS_POSTING_COMBINATION];
    if (!truck && sign.state == SS_POSTING_OPEN) {
        sign.state = SS_POSTING_UNKNOWN;
    }
    if (!sign.rated[SS_POSTING_COMBINATION]) { /* of the same weight the shorter truck is the worse one */
        sign.group_N[SS_POSTING_COMBINATION] = sign.group_N[SS_POSTING_SINGLE];
    }
    return sign;
}

static bool same_sign(const ss_posting_sign *a, const ss_posting_sign *b) {
    bool same = a->state == b->state && a->axle_N == b->axle_N && a->tandem_N == b->tandem_N &&
                a->emergency_N == b->emergency_N;
    for (int g = 0; g < SS_POSTING_GROUPS; g++) same = same && a->group_N[g] == b->group_N[g];
    return same;
}

void ss_posting_set_signs(ss_posting_builder *b) {
    b->made.free = make_sign(b, false);
    b->made.one = make_sign(b, true);
    b->made.lanes_matter = !same_sign(&b->made.free, &b->made.one);
}
