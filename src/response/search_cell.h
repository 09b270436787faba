/* search_cell.h - the inside of the search: all values of one block of positions. */
#ifndef SS_RESPONSE_SEARCH_CELL_H
#define SS_RESPONSE_SEARCH_CELL_H

#include "response/search.h"

/** Tries every stand, cell and point of a block that may beat what has been found. */
ss_status ss_search_block(ss_searcher *s, const ss_roll *roll, int index, ss_error *error);

/** values += effect of openings `change` (n). */
void ss_search_add_openings(const ss_searcher *searcher, const double *change, double values[SS_TILE]);

#endif
