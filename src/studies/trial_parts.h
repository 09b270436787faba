/* trial_parts.h - one variant rated, summed up, and as bytes between processes. */
#ifndef SS_STUDIES_TRIAL_PARTS_H
#define SS_STUDIES_TRIAL_PARTS_H

#include "sillspan/trial.h"

/** Sums up a variant whose ratings and, for `values` not NULL, watched values are there. */
ss_status ss_trial_sum_up(const ss_trials *trials, const ss_variant *variant, const ss_watch_value *values,
                          ss_arena *arena, ss_trial *out, ss_error *error);

/** Levels that decide who may cross come first; larger matters more. */
int ss_trial_importance(ss_level level);

/** Whether a crossing is an alternative, such as one with a lower speed. */
bool ss_trial_alternative(const ss_variant *variant, int traffic);

/** "bending", "shear", "tipping". */
const char *ss_trial_failure(const ss_rating_item *item);

/** The traffic of the watch for a variant without placements, so that its ratings can be read like any
 * others.
 */
ss_status ss_trial_traffic(const ss_watch *watch, ss_variant *variant, ss_error *error);

/** Joints as bits; 0: none, or more than there are bits for. */
uint64_t ss_trial_out_bits(const bool *taken, int joint_count);

/** Whether the bridge without those joints was searched in full, and to note that it was. */
bool ss_trial_out_searched(const ss_trials *trials, uint64_t without);
void ss_trial_out_note(ss_trials *trials, uint64_t without);

/** A failed variant: by the error, or by the first fault. */
ss_status ss_trial_fail(const ss_trials *trials, ss_status status, const ss_error *why,
                        const ss_diag_list *diags, ss_arena *arena, ss_trial *out);

/** As bytes, and back. False: no memory, or not such bytes. */
bool ss_trial_pack(const ss_trials *trials, const ss_trial *trial, ss_text *out);
bool ss_trial_unpack(const ss_trials *trials, const ss_text *bytes, ss_arena *arena, ss_trial *out);

#endif
