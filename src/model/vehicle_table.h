/* vehicle_table.h - the built-in vehicles as data. */
#ifndef SS_MODEL_VEHICLE_TABLE_H
#define SS_MODEL_VEHICLE_TABLE_H

#include "sillspan/vehicle.h"

/* International pound and foot with standard gravity, exact. */
#define SS_KIP(value) ((value)*4448.2216152605)
#define SS_FT(value) ((value)*0.3048)
#define SS_KIP_PER_FT(value) (SS_KIP(value) / 0.3048)

/* Wheel lines of every AASHTO truck stand 6 ft apart. */
#define SS_AASHTO_GAUGE SS_FT(6.0)

/** The table in the order of the documentation. */
const ss_vehicle *ss_vehicle_table(int *count);

/* First of the other loadings that count under a name; each leads to the next (vehicle_loadings.c). */
extern const ss_vehicle ss_loading_h15_lane;   /**< of H15-44 and HS15-44 */
extern const ss_vehicle ss_loading_h20_lane;   /**< of H20-44 and HS20-44 */
extern const ss_vehicle ss_loading_tandem;     /**< of HL-93 */
extern const ss_vehicle ss_loading_type33_two; /**< of the lane-type legal load */

#endif
