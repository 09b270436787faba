/* load_model_1.h - load model 1 of EN 1991-2 on a bridge made by hand. */
#ifndef TEST_LOAD_MODEL_1_H
#define TEST_LOAD_MODEL_1_H

#include "base/numeric.h"
#include "model/lanes.h"
#include "support/make_bridge.h"
#include "support/suite.h"

/* EN 1991-2, table 4.2, adjustment factors 1 (from memory): axles of 300, 200 and 100 kN, two each 1.2 m
 * apart with wheels 2.0 m apart; 9 kN/m2 on the 3 m of lane 1, 2.5 on all else. */
static const double axle_kN[3] = {300.0, 200.0, 100.0};
#define AREA 2.5e3
#define LANE_1 (6.5e3 * 3.0)

/* The lanes of the model as vehicles, and one crossing: `lanes` of them. */
static inline void put_model(made_bridge *m, ss_crossing *crossing, int lanes) {
    ss_bridge *const b = &m->bridge;
    for (int i = 0; i < 3; i++) {
        const double axle[2] = {axle_kN[i] * 1e3, axle_kN[i] * 1e3}, spacing = 1.2;
        ss_vehicle *const v = &b->vehicles[made_vehicle(m, 2, axle, &spacing, 2.0)];
        v->kind = SS_VEHICLE_EUROPEAN;
        v->lane_N_m = i == 0 ? LANE_1 : 0.0;
        v->area_N_m2 = AREA;
    }
    ss_lanes_notional(b->roadway_right - b->roadway_left, &b->notional_lanes);
    b->lanes = b->notional_lanes;
    b->wheel_to_curb = 0.5;
    *crossing = (ss_crossing){.kind = lanes > 1 ? SS_CROSSING_BESIDE : SS_CROSSING_ALONE,
                              .vehicle = 0,
                              .beside = lanes > 1 ? 1 : -1,
                              .lanes = lanes,
                              .has_third = lanes == 3,
                              .third = 2};
    b->crossings = crossing;
    b->crossing_count = 1;
}

#endif
