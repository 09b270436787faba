/* report_vehicles.h - vehicles by themselves, without a bridge: listed, or drawn one by one. */
#ifndef SS_REPORT_VEHICLES_H
#define SS_REPORT_VEHICLES_H

#include "report/report_builder.h"

/** What is shown. */
typedef struct ss_vehicle_choice {
    const ss_vehicle *const *vehicles; /**< in this order */
    int count;
    bool drawn; /**< each with a drawing, source and remark; else a table for each class */
} ss_vehicle_choice;

/** Builds the report; it points into the vehicles, which must outlive it. Programs see the same tables either
 * way. */
ss_status ss_report_vehicles(const ss_vehicle_choice *choice, ss_unit_system units, ss_report *out,
                             ss_error *error);

/** How many loadings count under a vehicle's name. */
int ss_vehicle_loadings(const ss_vehicle *v);

/** The tables for programs: "vehicles", "loadings" and "axles". */
void ss_part_vehicle_records(ss_builder *b, const ss_vehicle_choice *choice);

/** The side view of one loading, front at the left. */
void ss_part_vehicle_drawing(ss_builder *b, const ss_vehicle *vehicle, const char *title);

#endif
