/* axle_lines.c - influence fields merged into lines of a rolling axle: the two wheels, and all members under
 * each. */
#include "response/axle_lines.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/row.h"
#include "response/clones.h"
#include "response/state.h"
#include "sillspan/memory.h"

ss_status ss_axle_lines_create(const ss_axle_plans *plans, ss_axle_lines *out, ss_error *error) {
    const size_t count = (size_t)plans->count, intervals = (size_t)plans->interval_count;
    ss_axle_lines lines = {.plans = plans, .group_count = (plans->interval_count + SS_GROUP - 1) / SS_GROUP};
    const size_t groups = (size_t)lines.group_count;
    lines.cubic = ss_alloc(count * intervals * 4 * SS_TILE, sizeof *lines.cubic);
    lines.beam = ss_alloc(count * (size_t)plans->beam_station_count * SS_TILE, sizeof *lines.beam);
    lines.curve = ss_alloc(count * intervals * SS_TILE, sizeof *lines.curve);
    lines.high = ss_alloc(count * groups * SS_TILE, sizeof *lines.high);
    lines.low = ss_alloc(count * groups * SS_TILE, sizeof *lines.low);
    lines.jump = ss_alloc(count * (intervals + 1), sizeof *lines.jump);
    lines.line = ss_alloc((size_t)plans->mesh->element_count * 4 * SS_TILE, sizeof *lines.line);
    if (lines.cubic == NULL || lines.beam == NULL || lines.curve == NULL || lines.high == NULL ||
        lines.low == NULL || lines.jump == NULL || lines.line == NULL) {
        ss_axle_lines_destroy(&lines);
        return ss_no_memory(error);
    }
    *out = lines;
    return SS_OK;
}

void ss_axle_lines_destroy(ss_axle_lines *lines) {
    ss_free(lines->cubic);
    ss_free(lines->beam);
    ss_free(lines->curve);
    ss_free(lines->high);
    ss_free(lines->low);
    ss_free(lines->jump);
    ss_free(lines->line);
    *lines = (ss_axle_lines){0};
}

/* out += factor x, a row of the tile. */
static inline void add_row(double *restrict out, double factor, const double *restrict x) {
    for (int lane = 0; lane < SS_TILE; lane++) out[lane] += factor * x[lane];
}

/* ---- members ------------------------------------------------------------------------------------ */

/* A unit force along every line element, as cubics. */
SS_CLONES
static void fill_members(ss_axle_lines *lines, const double *z) {
    const ss_mesh *mesh = lines->plans->mesh;
    for (int i = 0; i < mesh->element_count; i++) {
        const ss_element *e = &mesh->element[i];
        if (e->across) {
            continue;
        }
        double *const out = lines->line + (size_t)i * 4 * SS_TILE;
        const double *const shape = lines->plans->shape + (size_t)i * 24;
        memset(out, 0, 4 * SS_TILE * sizeof *out);
        for (int k = 0; k < 6; k++) {
            if (k == 1 || k == 4) {
                continue; /* a force on the line does not twist it */
            }
            const double *const row = z + (size_t)ss_element_dof(e, k) * SS_TILE;
            for (int j = 0; j < 4; j++) add_row(out + j * SS_TILE, shape[4 * k + j], row);
        }
    }
}

static void add_own_members(ss_axle_lines *lines, const ss_effect *effects, int count) {
    const ss_mesh *mesh = lines->plans->mesh;
    for (int lane = 0; lane < count; lane++) {
        if (effects[lane].member != SS_MEMBER_LINE) {
            continue;
        }
        double c[4];
        ss_mesh_effect_local_cubic(mesh, &effects[lane], c);
        double *const out = lines->line + (size_t)effects[lane].element * 4 * SS_TILE;
        for (int j = 0; j < 4; j++) out[j * SS_TILE + lane] += c[j];
    }
}

/* What the lines are filled from. */
typedef struct fill_task {
    ss_axle_lines *lines;
    const double *z;
    const ss_effect *effects;
    int count; /* of effects with loads within their own member */
} fill_task;

/* Value of a unit force at s of a floor beam's bay, and of what it does in the effect's own bay. */
static void bay_value(const fill_task *task, int element, double s, double out[SS_TILE]) {
    const ss_mesh *mesh = task->lines->plans->mesh;
    const double *const shape = task->lines->plans->shape + (size_t)element * 24;
    memset(out, 0, SS_TILE * sizeof *out);
    for (int k = 0; k < 6; k++) {
        const double value =
            shape[4 * k] + s * (shape[4 * k + 1] + s * (shape[4 * k + 2] + s * shape[4 * k + 3]));
        if (value != 0.0) {
            add_row(out, value, task->z + (size_t)ss_element_dof(&mesh->element[element], k) * SS_TILE);
        }
    }
    for (int lane = 0; lane < task->count; lane++) {
        if (task->effects[lane].member == SS_MEMBER_BEAM && task->effects[lane].element == element) {
            out[lane] += ss_mesh_effect_local(mesh, &task->effects[lane], s);
        }
    }
}

/* ---- an axle within one interval ---------------------------------------------------------------- */

SS_CLONES
static void add_line_share(const fill_task *task, const ss_axle_share *share, double *out) {
    const ss_mesh *mesh = task->lines->plans->mesh;
    const double *const line = task->lines->line + (size_t)share->element * 4 * SS_TILE;
    for (int j = 0; j < 4; j++) add_row(out + j * SS_TILE, share->weight0, line + j * SS_TILE);
    if (share->arm0 == 0.0) {
        return;
    }
    const ss_element *e = &mesh->element[share->element];
    const double *const twist_a = task->z + (size_t)ss_element_dof(e, 1) * SS_TILE;
    const double *const twist_b = task->z + (size_t)ss_element_dof(e, 4) * SS_TILE;
    add_row(out, share->arm0, twist_a);
    add_row(out + SS_TILE, share->arm0, twist_b);
    add_row(out + SS_TILE, -share->arm0, twist_a);
    for (int lane = 0; lane < task->count; lane++) {
        if (task->effects[lane].member == SS_MEMBER_LINE && task->effects[lane].element == share->element) {
            const double near = ss_mesh_effect_local_torque(mesh, &task->effects[lane], 0.25);
            const double far = ss_mesh_effect_local_torque(mesh, &task->effects[lane], 0.75);
            out[lane] += share->arm0 * (1.5 * near - 0.5 * far);
            out[SS_TILE + lane] += share->arm0 * 2.0 * (far - near);
        }
    }
}

static void add_beam_share(const fill_task *task, const ss_axle_share *share, double *out) {
    const ss_element *e = &task->lines->plans->mesh->element[share->element];
    double value[SS_TILE];
    bay_value(task, share->element, share->at, value);
    add_row(out, share->weight0, value);
    add_row(out + SS_TILE, share->weight1 - share->weight0, value);
    if (share->arm0 != 0.0 || share->arm1 != 0.0) {
        const double *const twist = task->z + (size_t)(3 * (share->at < 0.5 ? e->a : e->b) + 1) * SS_TILE;
        add_row(out, share->arm0, twist);
        add_row(out + SS_TILE, share->arm1 - share->arm0, twist);
    }
}

static void fill_interval(const fill_task *task, int p, int interval) {
    const ss_axle_plan *plan = &task->lines->plans->plan[p];
    const size_t at = (size_t)p * (size_t)task->lines->plans->interval_count + (size_t)interval;
    double *const out = task->lines->cubic + at * 4 * SS_TILE;
    memset(out, 0, 4 * SS_TILE * sizeof *out);
    for (int i = plan->first[interval]; i < plan->first[interval + 1]; i++) {
        if (plan->share[i].across) {
            add_beam_share(task, &plan->share[i], out);
        } else {
            add_line_share(task, &plan->share[i], out);
        }
    }
    double *const curve = task->lines->curve + at * SS_TILE;
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double start = 2.0 * out[2 * SS_TILE + lane];
        curve[lane] = ss_max(fabs(start), fabs(start + 6.0 * out[3 * SS_TILE + lane]));
    }
}

/* ---- points, jumps, bounds ---------------------------------------------------------------------- */

static void fill_points(const fill_task *task, int p) {
    const ss_axle_plan *plan = &task->lines->plans->plan[p];
    const ss_mesh *mesh = task->lines->plans->mesh;
    double value[SS_TILE];
    for (int k = 0; k < task->lines->plans->beam_station_count; k++) {
        double *const out =
            task->lines->beam +
            ((size_t)p * (size_t)task->lines->plans->beam_station_count + (size_t)k) * SS_TILE;
        memset(out, 0, SS_TILE * sizeof *out);
        for (int i = plan->point_first[k]; i < plan->point_first[k + 1]; i++) {
            const ss_axle_point *point = &plan->point[i];
            if (point->across) {
                bay_value(task, point->element, point->at, value);
                add_row(out, point->weight, value);
                continue;
            }
            const double *const line = task->lines->line + (size_t)point->element * 4 * SS_TILE;
            double power = 1.0;
            for (int j = 0; j < 4; j++, power *= point->at)
                add_row(out, point->weight * power, line + j * SS_TILE);
            if (point->arm != 0.0) {
                const ss_element *e = &mesh->element[point->element];
                add_row(out, point->arm,
                        task->z + (size_t)(3 * (point->at < 0.5 ? e->a : e->b) + 1) * SS_TILE);
                for (int lane = 0; lane < task->count; lane++) {
                    if (task->effects[lane].member == SS_MEMBER_LINE &&
                        task->effects[lane].element == point->element) {
                        const double inside = point->at < 0.5 ? 1e-12 : 1.0 - 1e-12;
                        out[lane] +=
                            point->arm * ss_mesh_effect_local_torque(mesh, &task->effects[lane], inside);
                    }
                }
            }
        }
    }
}

static void fill_jumps(ss_axle_lines *lines, int p) {
    const ss_axle_plans *plans = lines->plans;
    const int intervals = plans->interval_count;
    bool *const jump = lines->jump + (size_t)p * (size_t)(intervals + 1);
    double scale[SS_TILE] = {0};
    for (int i = 0; i < intervals; i++) {
        const double *const c = ss_axle_lines_cubic(lines, p, i);
        for (int lane = 0; lane < SS_TILE; lane++) scale[lane] = ss_max(scale[lane], fabs(c[lane]));
    }
    for (int k = 0; k <= intervals; k++) {
        const double *const left = k > 0 ? ss_axle_lines_cubic(lines, p, k - 1) : NULL;
        const double *const right = k < intervals ? ss_axle_lines_cubic(lines, p, k) : NULL;
        jump[k] = false;
        for (int lane = 0; lane < SS_TILE; lane++) {
            double change = right == NULL ? 0.0 : right[lane];
            for (int j = 0; j < 4 && left != NULL; j++) change -= left[j * SS_TILE + lane];
            jump[k] = jump[k] || fabs(change) > 1e-9 * scale[lane];
        }
    }
}

SS_CLONES
static void fill_bounds(ss_axle_lines *lines, int p) {
    const ss_axle_plans *plans = lines->plans;
    const int own = plans->plan[p].lines_of;
    for (int g = 0; g < lines->group_count; g++) {
        const size_t at = ((size_t)p * (size_t)lines->group_count + (size_t)g) * SS_TILE;
        double *const high = lines->high + at, *const low = lines->low + at;
        const int end =
            g * SS_GROUP + SS_GROUP < plans->interval_count ? g * SS_GROUP + SS_GROUP : plans->interval_count;
        for (int lane = 0; lane < SS_TILE; lane++) {
            high[lane] = -(double)INFINITY;
            low[lane] = (double)INFINITY;
        }
        for (int i = g * SS_GROUP; i < end; i++) {
            const double *const c = ss_axle_lines_cubic(lines, own, i);
            const double *const curve = ss_axle_lines_curve(lines, own, i);
            for (int lane = 0; lane < SS_TILE; lane++) {
                const double a = c[lane];
                const double b = a + c[SS_TILE + lane] + c[2 * SS_TILE + lane] + c[3 * SS_TILE + lane];
                high[lane] = ss_max(high[lane], ss_max(a, b) + 0.125 * curve[lane]);
                low[lane] = ss_min(low[lane], ss_min(a, b) - 0.125 * curve[lane]);
            }
        }
        for (int k = 0; k < plans->beam_station_count; k++) {
            const double *const beam = ss_axle_lines_beam(lines, p, k);
            const bool within = plans->beam_station[k] >= g * SS_GROUP && plans->beam_station[k] <= end;
            for (int lane = 0; within && lane < SS_TILE; lane++) {
                high[lane] = ss_max(high[lane], beam[lane]);
                low[lane] = ss_min(low[lane], beam[lane]);
            }
        }
    }
}

void ss_axle_lines_fill(ss_axle_lines *lines, const double *const *z, int reference_count,
                        const ss_effect *effects, int count) {
    const ss_axle_plans *plans = lines->plans;
    const int own_count = effects == NULL ? 0 : count;
    for (int r = 0; r < reference_count; r++) {
        const fill_task task = {lines, z[r], effects, own_count};
        fill_members(lines, z[r]);
        add_own_members(lines, effects, own_count);
        for (int p = 0; p < plans->count; p++) {
            if (reference_count > 1 && plans->plan[p].reference != r) {
                continue;
            }
            fill_points(&task, p);
            if (plans->plan[p].lines_of != p) {
                continue;
            }
            for (int i = 0; i < plans->interval_count; i++) fill_interval(&task, p, i);
            fill_jumps(lines, p);
        }
    }
    for (int p = 0; p < plans->count; p++) fill_bounds(lines, p);
}
