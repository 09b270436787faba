/* vehicle_table.h - the built-in vehicles as data. */
#ifndef SS_MODEL_VEHICLE_TABLE_H
#define SS_MODEL_VEHICLE_TABLE_H

#include "sillspan/vehicle.h"

/** The table in the order of the documentation. */
const ss_vehicle *ss_vehicle_table(int *count);

#endif
