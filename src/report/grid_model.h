/* grid_model.h - the parts of a grid of a whole bridge. Cells are the elements of the mesh, then the springs
 * of joints that pass shear, then the bearings; points are the nodes, then those springs. */
#ifndef SS_REPORT_GRID_MODEL_H
#define SS_REPORT_GRID_MODEL_H

#include "report/grid_parts.h"

/** How many springs of joints are cells. */
int ss_model_joint_points(const ss_mesh *mesh);
/** The cell of a joint's spring of either kind, or -1. */
int ss_model_joint_cell(const ss_mesh *mesh, int spring);

/** Begins the grid with all points and cells. */
void ss_model_shape(ss_lattice *lattice, const ss_results *results, ss_grid *out);
/** Arrays that say what each cell is; its sizes. */
void ss_model_labels(ss_lattice *lattice);
void ss_model_sizes(ss_lattice *lattice);

#endif
