/* report_sweep.h - what the parts of the report of a sweep share. */
#ifndef SS_REPORT_SWEEP_H
#define SS_REPORT_SWEEP_H

#include "report/report_builder.h"
#include "sillspan/sweep.h"

/** Value i of an axis for people: "none", "0.3 kip/in per in", "0.01 times, 0.0005 kip/in per in". */
const char *ss_swept_said(ss_builder *b, int axis, int i);

/** Any value of the first axis, that need not be one of its points. */
const char *ss_swept_value_said(ss_builder *b, double value);

/** What is swept, within a sentence: "the stiffness of joint seam", "steels.car steel.fy". */
const char *ss_swept_what(ss_builder *b, int axis);

/** Stiffness against a step (N/m per m, or N/m of a connector) of the one joint that is swept at value i of
 * the first axis; NaN: several are, or none. */
double ss_swept_stiffness(const ss_builder *b, double value);
ss_dimension ss_swept_stiffness_dimension(const ss_builder *b);

/** Whether the values of the first axis have an order, so that something can lie between two. */
bool ss_swept_in_order(const ss_builder *b);

/** Whether a result changes from the first point to the last, so that no part of the range is without change.
 */
bool ss_swept_all_along(const ss_builder *b, const ss_sweep_band *band);

/** Whether a joint is among those swept along the first axis. */
bool ss_swept_has_joint(const ss_builder *b, const char *name);

/** The truck that the tables for people are of: that of the worst point; -1: none. */
int ss_swept_traffic(const ss_builder *b);

/** A followed result in words, without its truck: "share of car north", "reaction of shims, ...". */
const char *ss_followed_said(ss_builder *b, const ss_followed *followed);
ss_dimension ss_followed_dimension(const ss_builder *b, const ss_followed *followed);

/** The points that people see (at most `capacity`, ascending); their number. */
int ss_swept_shown(const ss_sweep *sweep, int *out, int capacity);

/** "0.38": a rating as ratings are cut off; "no limit". */
const char *ss_swept_rating(ss_builder *b, double rf);

void ss_part_sweep(ss_builder *b);
void ss_part_sweep_tables(ss_builder *b);
void ss_part_sweep_changes(ss_builder *b);
void ss_part_sweep_map(ss_builder *b);
void ss_part_sweep_programs(ss_builder *b);

#endif
