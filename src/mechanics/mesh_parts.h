/* mesh_parts.h - the steps of ss_mesh_build, in their order, and looking things up on a mesh. */
#ifndef SS_MECHANICS_MESH_PARTS_H
#define SS_MECHANICS_MESH_PARTS_H

#include "sillspan/mesh.h"

/** Stations closer than this are one (m). */
#define SS_STATION_TOLERANCE 1e-3

/** A place this near to a station is at it: rounding of a sum of spacings, and less than what tells "just
 * before" from "just after" (m). */
#define SS_AT_STATION 5e-10

/** Fills station, marked, merged_count. */
ss_status ss_stations_build(ss_mesh *mesh, int refine, ss_error *error);

/** Index of the station nearest to x. */
int ss_station_nearest(const ss_mesh *mesh, double x);

/** The interval in which something at x may be: that of x and, exactly at a station, the other one beside it.
 * Returns the count, the one after the station first. */
int ss_station_intervals(const ss_mesh *mesh, double x, int interval[2]);

/** The station that the place of a load was merged with, or x itself where there is none. */
double ss_station_of_load(const ss_mesh *mesh, double x);

/** Fills spring; mesh->slab is known. */
ss_status ss_springs_build(ss_mesh *mesh, const ss_mesh_options *options, ss_error *error);

/** "line sill of car north": what messages call a line. Returns buffer. */
const char *ss_mesh_line_words(const ss_bridge *bridge, int line, char *buffer, size_t size);

static inline int ss_mesh_node(const ss_mesh *mesh, int station, int line) {
    return mesh->node_at[(size_t)station * (size_t)mesh->bridge->line_count + (size_t)line];
}

static inline int ss_mesh_line_element(const ss_mesh *mesh, int interval, int line) {
    return mesh->line_element[(size_t)interval * (size_t)mesh->bridge->line_count + (size_t)line];
}

/** Where messages give a place: feet or metres with two decimals. Returns buffer. */
const char *ss_mesh_x_words(ss_unit_system units, double x, char *buffer, size_t size);

#endif
