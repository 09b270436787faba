/* grid.h - the model and its results, or an influence surface, as points and cells with named arrays of
 * values: what a general viewer of fields reads. */
#ifndef SILLSPAN_GRID_H
#define SILLSPAN_GRID_H

#include "sillspan/influence.h"
#include "sillspan/report.h"

typedef enum ss_grid_shape { SS_GRID_POINT = 1, SS_GRID_SEGMENT = 2, SS_GRID_QUAD = 4 } ss_grid_shape;

/** One cell: its corners are points, in grid->corners from `first` on, as many as its shape says. */
typedef struct ss_grid_cell {
    ss_grid_shape shape;
    int first;
} ss_grid_cell;

/** dimension x times / per; what is SS_DIM_NUMBER does not count. */
typedef struct ss_grid_unit {
    ss_dimension dimension, times, per;
} ss_grid_unit;

typedef enum ss_grid_kind { SS_GRID_NUMBERS, SS_GRID_WHOLE, SS_GRID_TEXTS } ss_grid_kind;

/** One value, or a few, for each point or each cell. */
typedef struct ss_grid_array {
    const char *name; /**< without its unit, which the writer adds: "moment, EV3, most" */
    ss_grid_kind kind;
    bool of_cells;
    int components; /**< 1; 2: at the first and at the second corner of a segment; 3: along x, y and z */
    ss_grid_unit unit;
    double *numbers;    /**< SI; NaN where there is none. Also of whole numbers */
    const char **texts; /**< instead, where `kind` says so; "" where there is none */
} ss_grid_array;

/** A remark that goes with the grid. */
typedef struct ss_grid_note {
    const char *name, *text;
} ss_grid_note;

/** x and y as everywhere, z down; m. */
typedef struct ss_grid {
    double *points; /**< 3 x point_count */
    int point_count;
    ss_grid_cell *cells;
    int cell_count;
    int *corners;
    int corner_count;
    ss_grid_array *arrays;
    int array_count;
    ss_grid_note *notes;
    int note_count;
    ss_arena arena;
} ss_grid;

/**
 * Nodes, members, springs of joints and bearings, and what an analysis found: the dead load's displacements
 * and forces, and the least and the most that each truck adds (docs/export.md). `results` need bridge, mesh,
 * permanent, placements and envelope. The grid has a memory of its own. On failure (SS_ERROR_MEMORY) *out is
 * empty.
 */
ss_status ss_grid_of_model(const ss_results *results, ss_grid *out, ss_error *error);

/** The same of an influence surface; of `results` only the bridge is looked at. */
ss_status ss_grid_of_influence(const ss_results *results, const ss_influence *influence, ss_grid *out,
                               ss_error *error);

void ss_grid_destroy(ss_grid *grid);

#endif
