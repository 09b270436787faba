/* report_size.h - what the parts of a search for a deck share. */
#ifndef SS_REPORT_SIZE_H
#define SS_REPORT_SIZE_H

#include "report/report_builder.h"

/** "53517", or "not known". */
const char *ss_size_money(ss_builder *b, double cost);
/** What keeps an option from passing: the target it misses, or the check; "" for one that passes. */
const char *ss_size_stopped_by(ss_builder *b, const ss_size_option *option);
/** "passes", "falls short", "no rating", "not tried". */
const char *ss_size_verdict(const ss_size_option *option);

/** The option of the frontier that follows `last` (-1: the first), from light to heavy, of those of one
 * weight from low factor to high; -1: none. Those that are alike stay in their order. */
int ss_size_next_of_frontier(const ss_size *size, int last);

/** Targets, frontier, and everything that was tried. */
void ss_size_tables(ss_builder *b);

#endif
