/* lanes.h - the number, the width and the kind of the lanes that a clear roadway has. */
#ifndef SS_MODEL_LANES_H
#define SS_MODEL_LANES_H

#include "sillspan/bridge.h"

/** What a description says about lanes instead of the rule. */
typedef struct ss_lane_wish {
    int count;    /**< 0: by the rule */
    double width; /**< m; NaN: by the rule */
} ss_lane_wish;

/**
 * Lanes of a clear roadway (m) by the American rule: under 18 ft one; from 18 to 20 ft two, each half the
 * roadway; wider as many as whole lanes of 12 ft, at least two (AASHTO Manual for Bridge Evaluation,
 * 6A.2.3.2; Standard Specifications, 3.6; from memory). Fills all but wheel_to_curb; `basis` is a constant.
 * False: that many lanes of that width are wider than the roadway.
 */
bool ss_lanes_usual(double roadway, ss_lane_wish wish, ss_lane_rule *out);

/** Notional lanes of EN 1991-2, table 4.1 (from memory): under 5.4 m one of 3 m; to 6 m two, each half the
 * carriageway; wider as many as whole lanes of 3 m. Wheels half a metre from a lane's edge. */
void ss_lanes_notional(double roadway, ss_lane_rule *out);

#endif
