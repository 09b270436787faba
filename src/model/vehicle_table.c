/* vehicle_table.c - axle loads and spacings of the built-in vehicles, as the standards print them (from
 * memory of them). */
#include "model/vehicle_table.h"

#include <stddef.h>

/* International pound and foot with standard gravity, exact. */
#define KIP(value) ((value)*4448.2216152605)
#define FT(value) ((value)*0.3048)

/* Wheel lines of every AASHTO truck stand 6 ft apart. */
#define GAUGE FT(6.0)

static const ss_vehicle table[] = {
    {.name = "H15-44",
     .source = "AASHTO Standard Specifications for Highway Bridges, 17th ed., 3.7.5",
     .kind = SS_VEHICLE_DESIGN,
     .axle_count = 2,
     .axle_N = {KIP(6.0), KIP(24.0)},
     .spacing_m = {FT(14.0)},
     .gauge_m = GAUGE,
     .remark = "the truck only, not the lane load"},
    {.name = "HS20-44",
     .source = "AASHTO Standard Specifications for Highway Bridges, 17th ed., 3.7.6",
     .kind = SS_VEHICLE_DESIGN,
     .axle_count = 3,
     .axle_N = {KIP(8.0), KIP(32.0), KIP(32.0)},
     .spacing_m = {FT(14.0), FT(14.0)},
     .gauge_m = GAUGE,
     .remark =
         "the truck only, not the lane load; rear spacing held at 14 ft, the range up to 30 ft is not tried"},
    {.name = "Type 3",
     .source = "AASHTO Manual for Bridge Evaluation, appendix D6A",
     .kind = SS_VEHICLE_LEGAL,
     .axle_count = 3,
     .axle_N = {KIP(16.0), KIP(17.0), KIP(17.0)},
     .spacing_m = {FT(15.0), FT(4.0)},
     .gauge_m = GAUGE,
     .remark = NULL},
    {.name = "EV2",
     .source = "FAST Act emergency vehicle, single rear axle (FHWA memorandum of November 2016)",
     .kind = SS_VEHICLE_EMERGENCY,
     .axle_count = 2,
     .axle_N = {KIP(24.0), KIP(33.5)},
     .spacing_m = {FT(15.0)},
     .gauge_m = GAUGE,
     .remark = NULL},
    {.name = "EV3",
     .source = "FAST Act emergency vehicle, tandem rear axle (FHWA memorandum of November 2016)",
     .kind = SS_VEHICLE_EMERGENCY,
     .axle_count = 3,
     .axle_N = {KIP(24.0), KIP(31.0), KIP(31.0)},
     .spacing_m = {FT(15.0), FT(4.0)},
     .gauge_m = GAUGE,
     .remark = NULL},
};

const ss_vehicle *ss_vehicle_table(int *count) {
    *count = (int)(sizeof table / sizeof table[0]);
    return table;
}
