/* grid_parts.h - how a grid is put together. */
#ifndef SS_REPORT_GRID_PARTS_H
#define SS_REPORT_GRID_PARTS_H

#include "report/report_builder.h"
#include "sillspan/grid.h"

/** A grid that is being filled; its words are made in a report of no blocks, and kept in the grid. After a
 * failed allocation `failed` stays set. */
typedef struct ss_lattice {
    ss_grid *grid;
    ss_report report;
    ss_builder words;
    int array_capacity;
    bool failed;
} ss_lattice;

/** Begins an empty grid with room for what is counted. `lattice` must stay where it is. */
void ss_lattice_begin(ss_lattice *lattice, const ss_results *results, int points, int cells, int corners,
                      ss_grid *out);

/** Adds a point, and gives its index; a cell with `shape` corners. */
int ss_lattice_point(ss_lattice *lattice, double x, double y);
void ss_lattice_cell(ss_lattice *lattice, ss_grid_shape shape, const int *corners);

/** Adds an array of all points or cells, all NaN or "". All are there already. NULL after a failure. */
double *ss_lattice_numbers(ss_lattice *lattice, const char *name, bool of_cells, int components,
                           ss_grid_unit unit);
double *ss_lattice_whole(ss_lattice *lattice, const char *name);
const char **ss_lattice_texts(ss_lattice *lattice, const char *name);

/** A copy of a text in the grid; "" after a failure, and of NULL. */
const char *ss_lattice_keep(ss_lattice *lattice, const char *text);

/** What every grid says of itself, and in the end whether all went well; on failure the grid is empty. */
void ss_lattice_notes(ss_lattice *lattice, const char *what);
ss_status ss_lattice_end(ss_lattice *lattice, ss_error *error);

#endif
