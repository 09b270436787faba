/* trial_joints_out.c - which bridges without joints were searched in full.
 *
 * Where joints are full before the members, the bridge without them is rated, and its trucks govern at places
 * of their own. Without the same joints it is much the same whatever varies: one search of it will do.
 */
#include "studies/trial_parts.h"

uint64_t ss_trial_out_bits(const bool *taken, int joint_count) {
    uint64_t bits = 0;
    for (int j = 0; j < joint_count && joint_count <= 64; j++) bits |= taken[j] ? UINT64_C(1) << j : 0;
    return bits;
}

bool ss_trial_out_searched(const ss_trials *trials, uint64_t without) {
    for (int i = 0; i < trials->joints_out_count && without != 0; i++) {
        if (trials->joints_out[i] == without) {
            return true;
        }
    }
    return false;
}

void ss_trial_out_note(ss_trials *trials, uint64_t without) {
    if (without != 0 && trials->joints_out_count < SS_TRIAL_JOINTS_OUT) {
        trials->joints_out[trials->joints_out_count++] = without;
    }
}
