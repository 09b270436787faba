/* report_joint_stiffness.c - the stiffness of a joint that is estimated from its parts, step by step. */
#include "report/report_ratings.h"
#include "sillspan/joint_stiffness.h"

bool ss_part_joint_estimate(ss_builder *b, const ss_joint *joint) {
    ss_working working = {.count = 0};
    if (joint->kind != SS_JOINT_SPRINGS || joint->estimated == SS_DETAIL_NONE) {
        return false;
    }
    (void)ss_joint_estimate(&joint->detail, &working);
    if (joint->scale != 1.0) {
        const bool each = joint->connector_count > 0;
        ss_working_add(&working, "scale", "share of it that counts", joint->scale, SS_DIM_NUMBER, NULL);
        ss_working_add(&working, "k_s", "against a step, times scale", joint->shear,
                       each ? SS_DIM_SPRING : SS_DIM_SPRING_PER_LENGTH, NULL);
        ss_working_add(&working, "k_f", "against a fold, times scale", joint->rotation,
                       each ? SS_DIM_ROTATION_SPRING : SS_DIM_ROTATION_SPRING_PER_LENGTH, NULL);
    }
    ss_rated_steps(b, ss_build_text(b, "Stiffness of joint %s, step by step", joint->name),
                   "Estimated from parts: welds and seats give too, real joints are softer.", &working);
    return true;
}
