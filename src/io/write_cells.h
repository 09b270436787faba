/* write_cells.h - what a cell of a table shows to people, the same in every form of writing. */
#ifndef SS_WRITE_CELLS_H
#define SS_WRITE_CELLS_H

#include "sillspan/report.h"
#include "sillspan/text.h"

/** Whether a column has no number, and so is aligned left. */
bool ss_cells_words(const ss_table *table, int column);

/** Whether it is empty in every row. */
bool ss_cells_empty(const ss_table *table, int column);

/** Decimals that every row of a column has, or -1 where each row has its own. */
int ss_cells_decimals(const ss_table *table, int column, ss_unit_system units);

/** Appends a cell, made harmless, with `decimals` of its column; "yes" or "no" for a flag, words for what is
 * no finite number, and a unit of its own where the column has none. */
void ss_cells_add(ss_text *out, const ss_cell *cell, const ss_column *column, int decimals,
                  ss_unit_system units);

/** Whether what a cell shows begins with a number, which is then aligned on its point. */
bool ss_cells_number(const char *shown);

#endif
