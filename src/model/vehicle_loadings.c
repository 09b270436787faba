/* vehicle_loadings.c - the lane loads, tandem and pairs of trucks that count under the names of design and
 * legal loads besides the trucks themselves (figures from memory of the standards named). */
#include <stddef.h>

#include "model/vehicle_table.h"

/*
 * Two loads apart by a distance that varies: 100 ft is longer than any car, so that beyond it one of them has
 * left the bridge. A lane load's two concentrated loads belong into different spans; they are kept 14 ft
 * apart at least, so that a short overhang never carries both.
 */
#define PAIR_MOST SS_FT(100.0)
#define LANE_PAIR_LEAST SS_FT(14.0)

#define LANE_SOURCE "AASHTO Standard Specifications for Highway Bridges, 17th ed., 3.7 and 3.11.3"

#define H15_W SS_KIP_PER_FT(0.48)
#define H20_W SS_KIP_PER_FT(0.64)

static const ss_vehicle h15_lane_hogging = {
    .name = "H15 lane load over supports, two concentrated loads",
    .source = LANE_SOURCE,
    .kind = SS_VEHICLE_DESIGN,
    .axle_count = 2,
    .axle_N = {SS_KIP(13.5), SS_KIP(13.5)},
    .spacing_m = {LANE_PAIR_LEAST},
    .spacing_most_m = {PAIR_MOST},
    .gauge_m = SS_AASHTO_GAUGE,
    .dropped = 2U,
    .lane_N_m = H15_W,
    .lane_allowance = true,
    .use = SS_USE_HOGGING,
};

static const ss_vehicle h15_lane_shear = {
    .name = "H15 lane load in shear",
    .source = LANE_SOURCE,
    .kind = SS_VEHICLE_DESIGN,
    .axle_count = 1,
    .axle_N = {SS_KIP(19.5)},
    .gauge_m = SS_AASHTO_GAUGE,
    .lane_N_m = H15_W,
    .lane_allowance = true,
    .use = SS_USE_SHEAR,
    .also = &h15_lane_hogging,
};

const ss_vehicle ss_loading_h15_lane = {
    .name = "H15 lane load in bending",
    .source = LANE_SOURCE,
    .kind = SS_VEHICLE_DESIGN,
    .axle_count = 1,
    .axle_N = {SS_KIP(13.5)},
    .gauge_m = SS_AASHTO_GAUGE,
    .lane_N_m = H15_W,
    .lane_allowance = true,
    .use = SS_USE_BENDING,
    .also = &h15_lane_shear,
};

static const ss_vehicle h20_lane_hogging = {
    .name = "H20 lane load over supports, two concentrated loads",
    .source = LANE_SOURCE,
    .kind = SS_VEHICLE_DESIGN,
    .axle_count = 2,
    .axle_N = {SS_KIP(18.0), SS_KIP(18.0)},
    .spacing_m = {LANE_PAIR_LEAST},
    .spacing_most_m = {PAIR_MOST},
    .gauge_m = SS_AASHTO_GAUGE,
    .dropped = 2U,
    .lane_N_m = H20_W,
    .lane_allowance = true,
    .use = SS_USE_HOGGING,
};

static const ss_vehicle h20_lane_shear = {
    .name = "H20 lane load in shear",
    .source = LANE_SOURCE,
    .kind = SS_VEHICLE_DESIGN,
    .axle_count = 1,
    .axle_N = {SS_KIP(26.0)},
    .gauge_m = SS_AASHTO_GAUGE,
    .lane_N_m = H20_W,
    .lane_allowance = true,
    .use = SS_USE_SHEAR,
    .also = &h20_lane_hogging,
};

const ss_vehicle ss_loading_h20_lane = {
    .name = "H20 lane load in bending",
    .source = LANE_SOURCE,
    .kind = SS_VEHICLE_DESIGN,
    .axle_count = 1,
    .axle_N = {SS_KIP(18.0)},
    .gauge_m = SS_AASHTO_GAUGE,
    .lane_N_m = H20_W,
    .lane_allowance = true,
    .use = SS_USE_BENDING,
    .also = &h20_lane_shear,
};

static const ss_vehicle hl93_two_trucks = {
    .name = "HL-93 over supports, 90 % of two trucks and lane load",
    .source = "AASHTO LRFD Bridge Design Specifications, 3.6.1.3.1",
    .kind = SS_VEHICLE_DESIGN,
    .axle_count = 6,
    .axle_N = {SS_KIP(0.9 * 8.0), SS_KIP(0.9 * 32.0), SS_KIP(0.9 * 32.0), SS_KIP(0.9 * 8.0),
               SS_KIP(0.9 * 32.0), SS_KIP(0.9 * 32.0)},
    .spacing_m = {SS_FT(14.0), SS_FT(14.0), SS_FT(50.0), SS_FT(14.0), SS_FT(14.0)},
    .spacing_most_m = {0.0, 0.0, PAIR_MOST},
    .gauge_m = SS_AASHTO_GAUGE,
    .dropped = 0x3FU,
    .lane_N_m = SS_KIP_PER_FT(0.9 * 0.64),
    .use = SS_USE_HOGGING,
};

const ss_vehicle ss_loading_tandem = {
    .name = "HL-93 tandem and lane load",
    .source = "AASHTO LRFD Bridge Design Specifications, 3.6.1.2.3 and 3.6.1.2.4",
    .kind = SS_VEHICLE_DESIGN,
    .axle_count = 2,
    .axle_N = {SS_KIP(25.0), SS_KIP(25.0)},
    .spacing_m = {SS_FT(4.0)},
    .gauge_m = SS_AASHTO_GAUGE,
    .dropped = 3U,
    .lane_N_m = SS_KIP_PER_FT(0.64),
    .also = &hl93_two_trucks,
};

const ss_vehicle ss_loading_type33_two = {
    .name = "Lane-type legal load over supports, two Type 3-3",
    .source = "AASHTO Manual for Bridge Evaluation, 6A.4.4.2.1a and appendix D6A",
    .kind = SS_VEHICLE_LEGAL,
    .axle_count = 12,
    .axle_N = {SS_KIP(9.0), SS_KIP(9.0), SS_KIP(9.0), SS_KIP(12.0), SS_KIP(10.5), SS_KIP(10.5), SS_KIP(9.0),
               SS_KIP(9.0), SS_KIP(9.0), SS_KIP(12.0), SS_KIP(10.5), SS_KIP(10.5)},
    .spacing_m = {SS_FT(15.0), SS_FT(4.0), SS_FT(15.0), SS_FT(16.0), SS_FT(4.0), SS_FT(30.0), SS_FT(15.0),
                  SS_FT(4.0), SS_FT(15.0), SS_FT(16.0), SS_FT(4.0)},
    .gauge_m = SS_AASHTO_GAUGE,
    .lane_N_m = SS_KIP_PER_FT(0.2),
    .rated_N = SS_KIP(80.0),
    .use = SS_USE_HOGGING,
};
