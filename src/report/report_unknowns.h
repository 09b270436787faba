/* report_unknowns.h - what the reports of the studies of unknowns share. */
#ifndef SS_REPORT_UNKNOWNS_H
#define SS_REPORT_UNKNOWNS_H

#include "report/report_builder.h"

/** Less than this in a rating does not matter in the field. */
#define SS_UNKNOWN_SMALL 0.01

/** The i-th unknown of the bridge. */
const ss_unknown *ss_unknown_of(const ss_builder *b, int i);

/** A value of it for people: "0.3 kip/in per in", "closed". */
const char *ss_unknown_said(ss_builder *b, const ss_unknown *unknown, double value);

/** An answer for people: "0.87" cut off as ratings are, "14.2 kip", "no limit". */
const char *ss_answer_said(ss_builder *b, const ss_answer *answer, double value);

/** Fills two cells, for people in words and for programs as a quantity or a text; NaN leaves both empty. */
void ss_unknown_cells(ss_sheet *sheet, const ss_unknown *unknown, double value);
/** The same of a rating, `cut` off for people or rounded; of any answer. */
void ss_rating_cells(ss_sheet *sheet, double value, bool cut);
void ss_answer_cells(ss_sheet *sheet, const ss_answer *answer, double value);

/** "a", "a and b": names of some unknowns, `chosen` one flag each; *count how many. */
const char *ss_unknown_names(ss_builder *b, const bool *chosen, int *count);

/** What is unknown and what it can be, in a table; nothing where nothing is. */
void ss_part_unknowns(ss_builder *b);
void ss_part_bounds(ss_builder *b);
void ss_part_sample(ss_builder *b);

#endif
