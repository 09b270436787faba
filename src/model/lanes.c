/* lanes.c - how many lanes a roadway has, and where trucks abreast may stand in them. */
#include "model/lanes.h"

#include <math.h>

#include "base/numeric.h"
#include "model/resolve.h"

#define FT(value) ((value)*0.3048)

/* One of two lanes no wider than this has no room to spare for a truck of 6 ft between wheels that keeps 2 ft
 * from either edge. */
#define TIGHT FT(10.0)

static int whole_lanes(double roadway, double width) {
    const double lanes = floor((roadway + SS_SAME_PLACE) / width);
    return (int)ss_clamp(lanes, 1.0, SS_LANES_MAX);
}

/* ---- how many --------------------------------------------------------------------------------------- */

static const char *count_usual(double roadway, int *count) {
    if (roadway < FT(18.0) - SS_SAME_PLACE) {
        *count = 1;
        return "under 18 ft (5.49 m), one lane";
    }
    *count = (int)ss_max(2.0, whole_lanes(roadway, FT(12.0)));
    if (roadway <= FT(20.0) + SS_SAME_PLACE) {
        return "18 to 20 ft (5.49 to 6.10 m), two lanes, each half the roadway";
    }
    return *count == 2 ? "over 20 ft (6.10 m), two lanes" : "as many as whole lanes of 12 ft (3.66 m)";
}

bool ss_lanes_usual(double roadway, ss_lane_wish wish, ss_lane_rule *out) {
    const bool own_width = !isnan(wish.width);
    int count = wish.count;
    const char *basis = "number of lanes given";
    if (count == 0 && own_width) {
        count = whole_lanes(roadway, wish.width);
        basis = "as many as whole lanes of the given width";
    } else if (count == 0) {
        basis = count_usual(roadway, &count);
    }
    const double share = roadway / count;
    const double width = own_width ? wish.width : ss_min(FT(12.0), share);
    if (wish.count > 0 && own_width && count * width > roadway + SS_SAME_PLACE) {
        return false;
    }
    *out = (ss_lane_rule){.count = count,
                          .fixed = count == 2 && share <= TIGHT + SS_SAME_PLACE,
                          .width = width,
                          .between_wheels = FT(4.0),
                          .loaded_width = ss_min(FT(10.0), width),
                          .basis = basis};
    return true;
}

void ss_lanes_notional(double roadway, ss_lane_rule *out) {
    *out = (ss_lane_rule){.between_wheels = 1.0, .wheel_to_curb = 0.5};
    if (roadway < 5.4 - SS_SAME_PLACE) {
        out->count = 1;
        out->width = ss_min(3.0, roadway);
        out->basis = "under 5.4 m (17.7 ft), one notional lane of 3 m";
    } else if (roadway < 6.0 - SS_SAME_PLACE) {
        out->count = 2;
        out->fixed = true;
        out->width = 0.5 * roadway;
        out->basis = "5.4 to 6 m (17.7 to 19.7 ft), two notional lanes, each half the carriageway";
    } else {
        out->count = whole_lanes(roadway, 3.0);
        out->width = 3.0;
        out->basis = "as many as whole notional lanes of 3 m (9.84 ft)";
    }
    out->loaded_width = out->width;
}

/* ---- where ------------------------------------------------------------------------------------------ */

/* One truck: the whole roadway; in its middle where its wheels cannot keep away from both curbs. */
static bool place_one(const ss_bridge *bridge, double to_curb, double gauge, double *low, double *high) {
    const double left = bridge->roadway_left;
    const double right = bridge->roadway_right;
    if (right - left < gauge) {
        return false;
    }
    *low = left + to_curb + 0.5 * gauge;
    *high = right - to_curb - 0.5 * gauge;
    if (*low > *high) {
        *low = *high = 0.5 * (left + right);
    }
    return true;
}

/* Each in its own half of the roadway. */
static bool place_fixed(const ss_bridge *bridge, const ss_lane_rule *rule, double to_curb, int count,
                        const double *gauge, double *low, double *high) {
    const double share = (bridge->roadway_right - bridge->roadway_left) / count;
    const double to_line = 0.5 * rule->between_wheels;
    for (int i = 0; i < count; i++) {
        const double left = bridge->roadway_left + i * share;
        if (gauge[i] > share + SS_SAME_PLACE) {
            return false;
        }
        low[i] = left + (i == 0 ? to_curb : to_line) + 0.5 * gauge[i];
        high[i] = left + share - (i == count - 1 ? to_curb : to_line) - 0.5 * gauge[i];
        if (low[i] > high[i]) {
            low[i] = high[i] = left + 0.5 * share;
        }
    }
    return true;
}

/* Side by side as close as they may, pushed to the left curb and to the right one. */
static bool place_shifting(const ss_bridge *bridge, const ss_lane_rule *rule, double to_curb, int count,
                           const double *gauge, double *low, double *high) {
    low[0] = bridge->roadway_left + to_curb + 0.5 * gauge[0];
    high[count - 1] = bridge->roadway_right - to_curb - 0.5 * gauge[count - 1];
    for (int i = 1; i < count; i++) {
        low[i] = low[i - 1] + 0.5 * (gauge[i - 1] + gauge[i]) + rule->between_wheels;
        const int k = count - 1 - i;
        high[k] = high[k + 1] - 0.5 * (gauge[k] + gauge[k + 1]) - rule->between_wheels;
    }
    if (low[0] > high[0] + SS_SAME_PLACE) {
        return false;
    }
    for (int i = 0; i < count; i++) { /* rounding where they just fit */
        high[i] = ss_max(low[i], high[i]);
    }
    return true;
}

static bool place(const ss_bridge *bridge, const ss_lane_rule *rule, double to_curb, int count,
                  const double *gauge, double *low, double *high) {
    if (count < 1 || count > SS_LANES_MAX) {
        return false;
    }
    if (count == 1) {
        return place_one(bridge, to_curb, gauge[0], low, high);
    }
    double least[SS_LANES_MAX];
    double most[SS_LANES_MAX];
    const bool room = rule->fixed ? place_fixed(bridge, rule, to_curb, count, gauge, least, most)
                                  : place_shifting(bridge, rule, to_curb, count, gauge, least, most);
    for (int i = 0; room && i < count; i++) {
        low[i] = least[i];
        high[i] = most[i];
    }
    return room;
}

bool ss_lane_ranges(const ss_bridge *bridge, int count, const double *gauge, double *low, double *high) {
    return place(bridge, &bridge->lanes, bridge->wheel_to_curb, count, gauge, low, high);
}

const ss_lane_rule *ss_lane_rule_of(const ss_bridge *bridge, int vehicle) {
    return bridge->vehicles[vehicle].kind == SS_VEHICLE_EUROPEAN ? &bridge->notional_lanes : &bridge->lanes;
}

bool ss_crossing_ranges(const ss_bridge *bridge, const ss_crossing *crossing, const double *gauge,
                        double *low, double *high) {
    const int count = crossing->kind == SS_CROSSING_BESIDE ? crossing->lanes : 1;
    const ss_lane_rule *const rule = ss_lane_rule_of(bridge, crossing->vehicle);
    const bool notional = rule == &bridge->notional_lanes && rule->count > 0;
    return place(bridge, rule, notional ? rule->wheel_to_curb : bridge->wheel_to_curb, count, gauge, low,
                 high);
}

/* ---- which truck is where --------------------------------------------------------------------------- */

int ss_crossing_truck_count(const ss_crossing *crossing) {
    if (crossing->kind != SS_CROSSING_BESIDE || crossing->beside < 0) {
        return 1;
    }
    return crossing->has_third ? 3 : crossing->beside == crossing->vehicle ? 1 : 2;
}

int ss_crossing_truck(const ss_crossing *crossing, int which) {
    const int vehicle[SS_ABREAST_MAX] = {crossing->vehicle, crossing->beside, crossing->third};
    return vehicle[which];
}

bool ss_crossing_order(const ss_crossing *crossing, int number, int which[SS_LANES_MAX]) {
    static const int orders[6][3] = {{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}};
    const int trucks = ss_crossing_truck_count(crossing);
    const int ways = trucks == 1 ? 1 : trucks == 2 ? crossing->lanes : 6;
    for (int lane = 0; number < ways && lane < crossing->lanes; lane++) {
        which[lane] = trucks == 3 ? orders[number][lane % 3] : trucks == 2 && lane != number ? 1 : 0;
    }
    return number < ways;
}

const char *ss_crossing_name(ss_crossing_kind kind) {
    switch (kind) {
    case SS_CROSSING_ALONE: return "alone";
    case SS_CROSSING_BESIDE: return "beside";
    case SS_CROSSING_CENTRED: return "centred";
    case SS_CROSSING_LINE: return "signed line";
    }
    return "";
}
