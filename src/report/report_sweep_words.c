/* report_sweep_words.c - values, joints and followed results of a sweep in words. */
#include <math.h>
#include <string.h>

#include "report/report_ratings.h"
#include "report/report_sweep.h"
#include "report/report_words.h"

/* ---- values ------------------------------------------------------------------------------------------- */

/* The joint whose scale or shear stiffness is swept, if it is one; *scale tells which. */
static const ss_joint *only_joint(const ss_builder *b, bool *scale) {
    const ss_sweep_axis *const axis = &b->results->sweep->axis[0];
    static const char under[] = "bridge.joints.";
    if (!axis->joint || axis->unknown->path_count != 1) {
        return NULL;
    }
    const char *const name = axis->unknown->paths[0] + sizeof under - 1;
    const char *const key = strrchr(name, '.');
    *scale = strcmp(key, ".scale") == 0;
    for (int i = 0; i < b->results->bridge->joint_count; i++) {
        const ss_joint *const joint = &b->results->bridge->joints[i];
        const bool named = strlen(joint->name) == (size_t)(key - name) &&
                           strncmp(joint->name, name, (size_t)(key - name)) == 0;
        if (named && (*scale || strncmp(key, ".shear", 6) == 0)) {
            return joint;
        }
    }
    return NULL;
}

double ss_swept_stiffness(const ss_builder *b, double value) {
    bool scale = false;
    const ss_joint *const joint = only_joint(b, &scale);
    if (joint == NULL || (scale && !(joint->scale > 0.0))) {
        return (double)NAN;
    }
    return scale ? (value == 0.0 ? 0.0 : joint->shear / joint->scale * value) : value;
}

ss_dimension ss_swept_stiffness_dimension(const ss_builder *b) {
    bool scale = false;
    const ss_joint *const joint = only_joint(b, &scale);
    return joint != NULL && joint->connector_count > 0 ? SS_DIM_SPRING : SS_DIM_SPRING_PER_LENGTH;
}

const char *ss_swept_value_said(ss_builder *b, double value) {
    char buffer[80];
    const ss_sweep_axis *const axis = &b->results->sweep->axis[0];
    const double stiffness = ss_swept_stiffness(b, value);
    if (axis->whole && value == 0.0) {
        return "no joint";
    }
    if (isinf(value)) {
        return "a rigid joint";
    }
    if (axis->whole && !isnan(stiffness)) {
        return ss_words_quantity(b, stiffness, ss_swept_stiffness_dimension(b), 2);
    }
    const char *const words =
        ss_unknown_words(axis->unknown, value, b->report->units, 3, buffer, sizeof buffer);
    return axis->whole ? ss_build_text(b, "scale %s", words) : ss_build_text(b, "%s", words);
}

const char *ss_swept_said(ss_builder *b, int axis, int i) {
    char buffer[80];
    return ss_build_text(
        b, "%s",
        ss_sweep_value_words(&b->results->sweep->axis[axis], i, b->report->units, buffer, sizeof buffer));
}

const char *ss_swept_what(ss_builder *b, int axis) {
    const ss_unknown *const unknown = b->results->sweep->axis[axis].unknown;
    if (b->results->sweep->axis[axis].whole) {
        bool scale = false;
        const ss_joint *const joint = only_joint(b, &scale);
        return joint != NULL ? ss_build_text(b, "the stiffness of joint %s", joint->name)
                             : "the stiffness of all joints together";
    }
    return unknown->path_count == 1
               ? unknown->paths[0]
               : ss_build_text(b, "%s and %d more", unknown->paths[0], unknown->path_count - 1);
}

const char *ss_swept_rating(ss_builder *b, double rf) {
    return isinf(rf) ? "no limit" : ss_words_decimals(b, ss_rated_cut(rf, 2), 2);
}

bool ss_swept_in_order(const ss_builder *b) {
    return b->results->sweep->axis[0].unknown->kind != SS_UNKNOWN_DISCRETE;
}

bool ss_swept_all_along(const ss_builder *b, const ss_sweep_band *band) {
    const ss_sweep_axis *const axis = &b->results->sweep->axis[0];
    return band->from == axis->value[0] && band->to == axis->value[axis->count - 1];
}

bool ss_swept_has_joint(const ss_builder *b, const char *name) {
    static const char under[] = "bridge.joints.";
    const ss_sweep_axis *const axis = &b->results->sweep->axis[0];
    for (int i = 0; i < axis->unknown->path_count && axis->joint; i++) {
        const char *const path = axis->unknown->paths[i] + sizeof under - 1;
        const size_t length = strlen(name);
        if (strncmp(path, name, length) == 0 && path[length] == '.') {
            return true;
        }
    }
    return false;
}

/* ---- what is followed --------------------------------------------------------------------------------- */

int ss_swept_traffic(const ss_builder *b) {
    const ss_sweep *const sweep = b->results->sweep;
    const int vehicle = sweep->worst < 0 ? -1 : sweep->points[sweep->worst].vehicle;
    for (int i = 0; i < sweep->trials.follow.count; i++) {
        const int traffic = sweep->trials.follow.items[i].traffic;
        if (sweep->trials.watch.placements.traffic[traffic].vehicle == vehicle) {
            return traffic;
        }
    }
    return sweep->trials.follow.count > 0 ? sweep->trials.follow.items[0].traffic : -1;
}

const char *ss_followed_said(ss_builder *b, const ss_followed *f) {
    switch (f->kind) {
    case SS_FOLLOW_SHARE: return ss_build_text(b, "share of car %s", f->car);
    case SS_FOLLOW_MOMENT: return ss_build_text(b, "bending of %s of car %s", f->member, f->car);
    case SS_FOLLOW_DEFLECTION: return ss_build_text(b, "deflection of %s of car %s", f->member, f->car);
    case SS_FOLLOW_JOINT_SHEAR: return ss_build_text(b, "shear of joint %s", f->member);
    case SS_FOLLOW_JOINT_MOMENT: return ss_build_text(b, "bending of joint %s", f->member);
    case SS_FOLLOW_REACTION:
        return ss_build_text(b, "largest reaction of %s under %s of car %s at %s", f->member, f->line, f->car,
                             ss_words_length(b, f->at));
    case SS_FOLLOW_LEAST:
        return ss_build_text(b, "least reaction of %s under %s of car %s at %s", f->member, f->line, f->car,
                             ss_words_length(b, f->at));
    }
    return "";
}

ss_dimension ss_followed_dimension(const ss_builder *b, const ss_followed *f) {
    bool connectors = false;
    for (int i = 0; f->member != NULL && i < b->results->bridge->joint_count; i++) {
        const ss_joint *const joint = &b->results->bridge->joints[i];
        connectors = connectors || (strcmp(joint->name, f->member) == 0 && joint->connector_count > 0);
    }
    return ss_follow_dimension(f->kind, connectors);
}

/* ---- points that are shown ---------------------------------------------------------------------------- */

static int add(int *out, int count, int capacity, int point) {
    int at = 0;
    while (at < count && out[at] < point) at++;
    if (point < 0 || count == capacity || (at < count && out[at] == point)) {
        return count;
    }
    memmove(&out[at + 1], &out[at], (size_t)(count - at) * sizeof *out);
    out[at] = point;
    return count + 1;
}

int ss_swept_shown(const ss_sweep *sweep, int *out, int capacity) {
    const ss_sweep_axis *const axis = &sweep->axis[0];
    int count = 0;
    const int must[] = {0, sweep->done - 1, sweep->worst, sweep->best, sweep->described, sweep->joint_full};
    for (size_t i = 0; i < sizeof must / sizeof must[0]; i++) count = add(out, count, capacity, must[i]);
    for (int i = 0; i < sweep->done && axis->whole; i++) {
        /* One a decade. */
        const double decade = log10(axis->value[i]);
        if (isfinite(decade) && fabs(decade - round(decade)) < 1e-9) {
            count = add(out, count, capacity, i);
        }
    }
    const int rest = capacity - count > 2 ? capacity - count : 1;
    for (int k = 0; k < rest && !axis->whole; k++) {
        count = add(out, count, capacity, (int)((long)k * (sweep->done - 1) / (rest > 1 ? rest - 1 : 1)));
    }
    return count;
}
