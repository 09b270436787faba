/* fatigue_member.c - what the cycles of one truck are counted by, which detail is worst, and the steps of a
 * life. */
#include <math.h>

#include "base/numeric.h"
#include "sillspan/fatigue.h"

/* Places closer than this are one station of the grillage (m). */
#define SAME_STATION 1e-3

/* An interior support reaches this share of the span. */
#define NEAR_SUPPORT 0.1

/* ---- cycles ----------------------------------------------------------------------------------------- */

/* Supports around a place: the nearest on both sides, and the outermost. */
typedef struct supports {
    double x;
    bool before;
    double low, high, least, most;
} supports;

static void take(supports *s, double at) {
    const bool behind = s->before ? at < s->x - SAME_STATION : at <= s->x + SAME_STATION;
    if (behind) {
        s->low = ss_max(s->low, at);
    } else {
        s->high = ss_min(s->high, at);
    }
    s->least = ss_min(s->least, at);
    s->most = ss_max(s->most, at);
}

/* Strips of a slab are none, and no support of a line. */
static int beams_of(const ss_bridge *bridge, const ss_car *car) {
    int count = 0;
    for (int i = 0; i < car->beam_count; i++) {
        count += !(bridge->floor_beams[car->first_beam + i].strip > 0.0);
    }
    return count;
}

/* Floor beams carry a stringer, bearings all else. */
static supports find_supports(const ss_bridge *bridge, const ss_probe *at) {
    const ss_line *const line = &bridge->lines[at->index];
    const ss_car *const car = &bridge->cars[line->car];
    supports s = {.x = at->at,
                  .before = at->before,
                  .low = -SS_INFINITY,
                  .high = SS_INFINITY,
                  .least = SS_INFINITY,
                  .most = -SS_INFINITY};
    if (line->role == SS_ROLE_STRINGER && beams_of(bridge, car) > 1) {
        for (int i = 0; i < car->beam_count; i++) {
            const ss_floor_beam *const beam = &bridge->floor_beams[car->first_beam + i];
            if (!(beam->strip > 0.0)) {
                take(&s, beam->x);
            }
        }
        return s;
    }
    for (int i = 0; i < bridge->bearing_count; i++) {
        if (bridge->bearings[i].car == line->car) {
            take(&s, bridge->bearings[i].x);
        }
    }
    return s;
}

static ss_fatigue_member line_member(const ss_bridge *bridge, const ss_probe *at, double *length) {
    const ss_line *const line = &bridge->lines[at->index];
    const supports s = find_supports(bridge, at);
    *length = SS_NAN;
    if (s.least > s.most) {
        return SS_FATIGUE_CANTILEVER;
    }
    /* Beyond the outermost supports, and at one of them that the line goes on beyond. */
    if (s.x <= s.least + SAME_STATION && line->x0 < s.least - SAME_STATION) {
        *length = s.least - line->x0;
        return SS_FATIGUE_CANTILEVER;
    }
    if (s.x >= s.most - SAME_STATION && line->x1 > s.most + SAME_STATION) {
        *length = line->x1 - s.most;
        return SS_FATIGUE_CANTILEVER;
    }
    const double low = ss_max(s.low, s.least);
    const double high = ss_min(s.high, s.most);
    *length = high - low > SAME_STATION ? high - low : SS_NAN;
    const double reach = NEAR_SUPPORT * (high - low) + SAME_STATION;
    if ((low > s.least + SAME_STATION && s.x - low <= reach) ||
        (high < s.most - SAME_STATION && high - s.x <= reach)) {
        return SS_FATIGUE_CONTINUOUS_PIER;
    }
    const bool simple = low <= s.least + SAME_STATION && high >= s.most - SAME_STATION;
    return simple ? SS_FATIGUE_SIMPLE_SPAN : SS_FATIGUE_CONTINUOUS_ELSEWHERE;
}

/* The nearest floor beam on either side. */
static double beam_spacing(const ss_bridge *bridge, int beam) {
    const ss_car *const car = &bridge->cars[bridge->floor_beams[beam].car];
    double nearest = SS_INFINITY;
    for (int i = 0; i < car->beam_count; i++) {
        const ss_floor_beam *const other = &bridge->floor_beams[car->first_beam + i];
        const double apart = fabs(other->x - bridge->floor_beams[beam].x);
        nearest = car->first_beam + i == beam || other->strip > 0.0 ? nearest : ss_min(nearest, apart);
    }
    return nearest > SAME_STATION && isfinite(nearest) ? nearest : SAME_STATION;
}

ss_fatigue_member ss_fatigue_member_of(const ss_bridge *bridge, const ss_fatigue_spot *spot, double *length) {
    switch (spot->at.member) {
    case SS_MEMBER_LINE: return line_member(bridge, &spot->at, length);
    case SS_MEMBER_BEAM: *length = beam_spacing(bridge, spot->at.index); return SS_FATIGUE_TRANSVERSE;
    case SS_MEMBER_JOINT:
    case SS_MEMBER_BEARING: break;
    }
    *length = SAME_STATION;
    return SS_FATIGUE_TRANSVERSE;
}

/* ---- the worst -------------------------------------------------------------------------------------- */

static double use(const ss_fatigue_result *r) {
    return r->compressed ? 0.0 : r->life.largest / ss_fatigue_threshold(r->detail.category);
}

static bool worse(const ss_fatigue_result *a, const ss_fatigue_result *b) {
    if (a->life.remaining != b->life.remaining) {
        return a->life.remaining < b->life.remaining;
    }
    return use(a) > use(b) * (1.0 + 1e-9);
}

int ss_fatigue_worst(const ss_fatigue_results *results) {
    int worst = -1;
    for (int i = 0; i < results->count; i++) {
        const ss_fatigue_result *const r = &results->items[i];
        if (r->life.why == NULL && (worst < 0 || worse(r, &results->items[worst]))) {
            worst = i;
        }
    }
    return worst;
}

/* ---- the steps -------------------------------------------------------------------------------------- */

static const char *of_member(ss_fatigue_member member) {
    switch (member) {
    case SS_FATIGUE_SIMPLE_SPAN: return "simple span";
    case SS_FATIGUE_CONTINUOUS_PIER: return "span, near an interior support";
    case SS_FATIGUE_CONTINUOUS_ELSEWHERE: return "span of several, away from interior supports";
    case SS_FATIGUE_CANTILEVER: return "overhang";
    case SS_FATIGUE_TRANSVERSE: break;
    }
    return "to the next floor beam";
}

void ss_fatigue_work(const ss_bridge *bridge, const ss_fatigue_result *r, ss_working *working) {
    const ss_fatigue_spot *const spot = &bridge->fatigue.spots[r->spot];
    const bool joint = spot->at.member == SS_MEMBER_JOINT;
    const bool each = joint && !isnan(spot->weld_length);
    const ss_dimension effect = each ? SS_DIM_FORCE : joint ? SS_DIM_LINE_LOAD : SS_DIM_MOMENT;
    const char *const symbol = joint ? "V" : "M";
    const char *const allowance = "AASHTO LRFD Table 3.6.2.1-1 (from memory)";
    ss_working_add(working, symbol, "most of the passage, with 15 % allowance", r->live[1], effect,
                   allowance);
    ss_working_add(working, symbol, "least of the passage, with 15 % allowance", r->live[0], effect,
                   allowance);
    if (joint) {
        ss_working_add(working, "t", "throat of the weld", spot->throat, SS_DIM_SMALL_LENGTH, NULL);
    } else {
        ss_working_add(working, "S", spot->top ? "of the top face" : "of the bottom face", r->divisor,
                       SS_DIM_SECTION_MODULUS, NULL);
    }
    if (each) {
        ss_working_add(working, "l", "length of the weld", spot->weld_length, SS_DIM_SMALL_LENGTH, NULL);
    }
    ss_working_add(working, "f", "range of stress, most less least", r->detail.range, SS_DIM_STRESS, NULL);
    if (!joint) {
        ss_working_add(working, "f_DL", "stress of the dead load there, tension positive", r->dead_stress,
                       SS_DIM_STRESS, NULL);
        ss_working_add(working, "f_t", "most live tension of any passage", r->tension, SS_DIM_STRESS, NULL);
    }
    if (r->compressed) {
        ss_working_add(working, "",
                       "the dead load's compression exceeds the tension of Fatigue I: not checked", SS_NAN,
                       SS_DIM_NUMBER, "AASHTO LRFD 6.6.1.2.1 (from memory)");
        return;
    }
    if (!joint && !isnan(r->length)) {
        ss_working_add(working, "L", of_member(r->member), r->length, SS_DIM_LENGTH, NULL);
    }
    ss_working_add(working, "n", "cycles of one truck", r->detail.cycles_per_truck, SS_DIM_NUMBER,
                   joint ? "no row in the book: as a floor beam"
                         : "AASHTO LRFD Table 6.6.1.2.5-2 (from memory)");
    ss_working_add(working, "ADTT", "trucks a day in a single lane", r->detail.adtt, SS_DIM_NUMBER, NULL);
    (void)ss_fatigue_life_of(&r->detail, working);
}
