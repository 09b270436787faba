/* sweep_axis.c - the values that a sweep goes through, and how they are set. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "sillspan/spring_sweep.h"
#include "studies/sweep_parts.h"

enum { POINTS_JOINT = 8, DECADES_BELOW = 2, DECADES_ABOVE = 6, POINTS = 11, POINTS_LOG = 5 };

/* ---- which joints ----------------------------------------------------------------------------------- */

/* The joint that a path is a stiffness of, or -1. */
static int joint_of(const ss_bridge *bridge, const char *path, bool *vertical, bool *fold) {
    static const char under[] = "bridge.joints.";
    if (strncmp(path, under, sizeof under - 1) != 0) {
        return -1;
    }
    const char *const name = path + sizeof under - 1;
    const char *const key = strrchr(name, '.');
    if (key == NULL) {
        return -1;
    }
    const bool scale = strcmp(key, ".scale") == 0;
    *vertical = scale || strcmp(key, ".shear") == 0 || strcmp(key, ".shear_each") == 0;
    *fold = scale || strcmp(key, ".rotation") == 0 || strcmp(key, ".rotation_each") == 0;
    for (int i = 0; i < bridge->joint_count && (*vertical || *fold); i++) {
        const size_t length = strlen(bridge->joints[i].name);
        if (length == (size_t)(key - name) && strncmp(bridge->joints[i].name, name, length) == 0 &&
            bridge->joints[i].kind == SS_JOINT_SPRINGS) {
            return i;
        }
    }
    return -1;
}

bool ss_sweep_joints_of(const ss_bridge *bridge, const ss_unknown *unknown, ss_sweep_joints *out) {
    for (int i = 0; i < unknown->path_count; i++) {
        bool vertical = false;
        bool fold = false;
        const int joint = joint_of(bridge, unknown->paths[i], &vertical, &fold);
        if (joint < 0 || (i > 0 && (vertical != out->vertical || fold != out->fold))) {
            return false;
        }
        out->joint[joint] = true;
        out->vertical = vertical;
        out->fold = fold;
    }
    return unknown->path_count > 0 && unknown->kind != SS_UNKNOWN_DISCRETE;
}

int ss_sweep_springs(const ss_mesh *mesh, const ss_sweep_joints *joints, int *springs) {
    int count = 0;
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *const s = &mesh->spring[i];
        if (s->owner == SS_MEMBER_JOINT && joints->joint[s->index] &&
            (s->kind == SS_SPRING_FOLD ? joints->fold : joints->vertical)) {
            springs[count++] = i;
        }
    }
    return count;
}

/* ---- the whole range of a joint --------------------------------------------------------------------- */

/* The softest mode of the joints as described: the scale at which it is half way to rigid. */
static ss_status softest(const ss_sweep_plan *plan, const ss_sweep_joints *joints, double *out,
                         ss_error *error) {
    const ss_mesh_options options = {.joints = true, .refine = 1};
    ss_mesh mesh = {0};
    ss_grillage *grillage = NULL;
    ss_spring_sweep *sweep = NULL;
    int *springs = NULL;
    double *stiffness = NULL;
    const double *poles = NULL;
    ss_status status = SS_OK;
    SS_TRY(ss_mesh_build(plan->bridge, options, &mesh, error));
    SS_TRY(ss_grillage_create(&mesh, &grillage, error));
    springs = ss_alloc((size_t)mesh.spring_count + 1, sizeof *springs);
    stiffness = ss_alloc((size_t)mesh.spring_count + 1, sizeof *stiffness);
    SS_TRY(springs == NULL || stiffness == NULL ? ss_no_memory(error) : SS_OK);
    const int count = ss_sweep_springs(&mesh, joints, springs);
    SS_TRY(count > 0 ? SS_OK
                     : ss_error_set(error, SS_ERROR_DESCRIPTION,
                                    "the joint has no stiffness as described, so that no multiple of it is "
                                    "any; give it a stiffness, or say what it is made of"));
    for (int i = 0; i < count; i++) stiffness[i] = 1.0 / mesh.spring[springs[i]].flexibility;
    /* Modes do not depend on what is read of them. */
    const ss_sweep_load none = {NULL, NULL};
    const ss_sweep_reading any = {.spring = springs[0]};
    const ss_sweep_task modes = {.swept_count = count,
                                 .swept = springs,
                                 .stiffness = stiffness,
                                 .load_count = 1,
                                 .loads = &none,
                                 .reading_count = 1,
                                 .readings = &any};
    SS_TRY(ss_spring_sweep_create(grillage, &modes, &sweep, error));
    *out = SS_NAN;
    for (int i = 0, all = ss_spring_sweep_poles(sweep, &poles); i < all && isnan(*out); i++) {
        if (poles[i] > 0.0 && isfinite(poles[i])) {
            *out = poles[i];
        }
    }
    *out = isnan(*out) ? 1.0 : *out;
done:
    ss_spring_sweep_destroy(sweep);
    ss_grillage_destroy(grillage);
    ss_mesh_destroy(&mesh);
    ss_free(springs);
    ss_free(stiffness);
    return status;
}

/* None, eight decades around where the joint begins to tie, rigid. */
static ss_status fill_whole(const ss_sweep_plan *plan, ss_arena *arena, ss_sweep_axis *axis,
                            ss_error *error) {
    ss_sweep_joints joints = {
        .joint = ss_arena_alloc(arena, (size_t)plan->bridge->joint_count + 1, sizeof *joints.joint)};
    double pole = 0.0;
    if (joints.joint == NULL) {
        return ss_no_memory(error);
    }
    if (!ss_sweep_joints_of(plan->bridge, axis->unknown, &joints)) {
        return ss_error_set(
            error, SS_ERROR_DESCRIPTION,
            "only joints that are springs, or whose stiffness is estimated from their parts, "
            "can be swept from none to rigid; give the joint a kind such as \"springs\" and a "
            "stiffness");
    }
    const ss_status status = softest(plan, &joints, &pole, error);
    if (status != SS_OK) {
        return status;
    }
    const int decades = DECADES_BELOW + DECADES_ABOVE;
    const int steps = plan->points[0] > 3 ? plan->points[0] - 3 : decades * POINTS_JOINT;
    const double low = floor(log10(pole)) - DECADES_BELOW;
    axis->value = ss_arena_alloc(arena, (size_t)steps + 4, sizeof *axis->value);
    if (axis->value == NULL) {
        return ss_no_memory(error);
    }
    axis->value[axis->count++] = 0.0;
    for (int i = 0; i <= steps; i++) {
        axis->value[axis->count++] = pow(10.0, low + (double)decades * i / steps);
    }
    axis->value[axis->count++] = SS_INFINITY;
    return SS_OK;
}

/* ---- any other -------------------------------------------------------------------------------------- */

static int points_of(const ss_unknown *unknown, int asked) {
    if (unknown->kind == SS_UNKNOWN_DISCRETE) {
        return unknown->text_count;
    }
    const double wide = unknown->box_high - unknown->box_low;
    if (unknown->whole && (asked == 0 || asked > wide)) {
        return (int)(wide < 100.0 ? wide : 100.0) + 1;
    }
    if (asked > 0) {
        return asked;
    }
    return unknown->box_log ? (int)ceil(POINTS_LOG * log10(unknown->box_high / unknown->box_low)) + 1
                            : POINTS;
}

static ss_status fill_range(const ss_sweep_plan *plan, int which, ss_arena *arena, ss_sweep_axis *axis,
                            ss_error *error) {
    const ss_unknown *const unknown = axis->unknown;
    const int count = points_of(unknown, plan->points[which]);
    axis->value = ss_arena_alloc(arena, (size_t)count + 1, sizeof *axis->value);
    if (axis->value == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < count; i++) {
        const double value = ss_unknown_at(unknown, count == 1 ? 0.5 : (double)i / (count - 1));
        if (axis->count == 0 || value != axis->value[axis->count - 1]) {
            axis->value[axis->count++] = value;
        }
    }
    return SS_OK;
}

static int ascending(const void *a, const void *b) {
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* A scale that is not written is 1. */
static double described(const ss_bridge *bridge, const ss_sweep_axis *axis, const ss_sweep_joints *joints) {
    double scale = SS_NAN;
    if (!axis->joint || !joints->vertical || !joints->fold) {
        return axis->unknown->described;
    }
    for (int i = 0; i < bridge->joint_count; i++) {
        if (joints->joint[i] && !isnan(scale) && bridge->joints[i].scale != scale) {
            return SS_NAN;
        }
        scale = joints->joint[i] ? bridge->joints[i].scale : scale;
    }
    return scale;
}

/* The value described, in its place, if it is within the range. */
static void add_described(ss_sweep_axis *axis) {
    const double value = axis->described;
    if (axis->value == NULL || isnan(value) || axis->unknown->kind == SS_UNKNOWN_DISCRETE ||
        value < axis->value[0] || value > axis->value[axis->count - 1]) {
        return;
    }
    for (int i = 0; i < axis->count; i++) {
        if (isfinite(axis->value[i]) && ss_close(axis->value[i], value, 1e-12)) {
            axis->value[i] = value;
            return;
        }
    }
    axis->value[axis->count++] = value;
    qsort(axis->value, (size_t)axis->count, sizeof *axis->value, ascending);
}

ss_status ss_sweep_axis_make(const ss_sweep_plan *plan, int which, ss_arena *arena, ss_sweep_axis *out,
                             ss_error *error) {
    ss_sweep_axis axis = {.unknown = plan->unknown[which], .whole = plan->whole};
    ss_sweep_joints joints = {
        .joint = ss_arena_alloc(arena, (size_t)plan->bridge->joint_count + 1, sizeof *joints.joint)};
    if (joints.joint == NULL) {
        return ss_no_memory(error);
    }
    axis.joint = ss_sweep_joints_of(plan->bridge, axis.unknown, &joints);
    const ss_status status =
        plan->whole ? fill_whole(plan, arena, &axis, error) : fill_range(plan, which, arena, &axis, error);
    if (status == SS_OK) {
        axis.described = described(plan->bridge, &axis, &joints);
        add_described(&axis);
        *out = axis;
    }
    return status;
}

/* ---- setting ---------------------------------------------------------------------------------------- */

/* Stiffness beyond which an analysis of its own would only lose digits: far beyond where anything changes. */
static double settable(const ss_sweep_axis *axis, int i) {
    return isinf(axis->value[i]) ? axis->value[i - 1] : axis->value[i];
}

ss_status ss_sweep_change(void *context, int index, ss_description *description, ss_diag_list *diags) {
    const ss_sweep *const sweep = context;
    int at[2] = {index, 0};
    if (sweep->axis_count == 2) {
        at[0] = index / sweep->axis[1].count;
        at[1] = index % sweep->axis[1].count;
    }
    for (int a = 0; a < sweep->axis_count && a < 2; a++) {
        const ss_sweep_axis *const axis = &sweep->axis[a];
        const double value = settable(axis, at[a]);
        const ss_unknown_set one = {.items = (ss_unknown *)axis->unknown, .count = 1};
        const ss_status status = ss_unknowns_apply(&one, &value, description, diags);
        if (status != SS_OK) {
            return status;
        }
    }
    return SS_OK;
}

const char *ss_sweep_value_words(const ss_sweep_axis *axis, int i, ss_unit_system units, char *buffer,
                                 size_t size) {
    if (axis->whole && axis->value[i] == 0.0) {
        return "none";
    }
    if (isinf(axis->value[i])) {
        return "rigid";
    }
    return ss_unknown_words(axis->unknown, axis->value[i], units, 3, buffer, size);
}
