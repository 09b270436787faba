/* axle_lines.c - influence fields merged into lines of a rolling axle: the two wheels, and all members under
 * each. */
#include "response/axle_lines.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/element.h"
#include "mechanics/row.h"
#include "response/clones.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* A difference of a line at a station that is no more than this share of its largest value is rounding. */
#define JUMP 1e-9

ss_status ss_axle_lines_create(const ss_axle_plans *plans, ss_axle_lines *out, ss_error *error) {
    const size_t count = (size_t)plans->count, intervals = (size_t)plans->interval_count;
    const size_t elements = (size_t)plans->mesh->element_count;
    ss_axle_lines lines = {.plans = plans, .kernel = ss_tile_kernel_best()};
    const size_t rows = count * (4 * intervals + (size_t)plans->beam_station_count);
    lines.cubic = ss_alloc(rows * SS_TILE, sizeof *lines.cubic);
    lines.curve = ss_alloc(count * intervals * SS_TILE, sizeof *lines.curve);
    lines.jump = ss_alloc(count * (intervals + 1), sizeof *lines.jump);
    lines.line = ss_alloc(elements * 4 * SS_TILE, sizeof *lines.line);
    lines.filled = ss_alloc(count * intervals, sizeof *lines.filled);
    lines.lined = ss_alloc(elements, sizeof *lines.lined);
    lines.own = ss_alloc(elements, sizeof *lines.own);
    if (lines.cubic == NULL || lines.curve == NULL || lines.jump == NULL || lines.line == NULL ||
        lines.filled == NULL || lines.lined == NULL || lines.own == NULL) {
        ss_axle_lines_destroy(&lines);
        return ss_no_memory(error);
    }
    lines.beam = lines.cubic + count * intervals * 4 * SS_TILE;
    *out = lines;
    return SS_OK;
}

void ss_axle_lines_destroy(ss_axle_lines *lines) {
    ss_free(lines->cubic);
    ss_free(lines->curve);
    ss_free(lines->jump);
    ss_free(lines->line);
    ss_free(lines->filled);
    ss_free(lines->lined);
    ss_free(lines->own);
    *lines = (ss_axle_lines){0};
}

void ss_axle_lines_begin(ss_axle_lines *lines, const double *z, const ss_effect *effects, int count) {
    const ss_axle_plans *plans = lines->plans;
    const size_t elements = (size_t)plans->mesh->element_count;
    lines->z = z;
    lines->effects = effects;
    lines->count = effects == NULL ? 0 : count;
    memset(lines->filled, 0, (size_t)plans->count * (size_t)plans->interval_count * sizeof *lines->filled);
    memset(lines->lined, 0, elements * sizeof *lines->lined);
    memset(lines->own, 0, elements * sizeof *lines->own);
    for (int lane = 0; lane < lines->count; lane++) lines->own[effects[lane].element] = true;
}

static const double *row_of(const ss_axle_lines *lines, int dof) {
    return lines->z + (size_t)dof * SS_TILE;
}

/* ---- members ------------------------------------------------------------------------------------ */

/* A unit force along a line's element, as cubics. A force on the line does not twist it. */
static const double *line_of(ss_axle_lines *lines, int element) {
    const ss_mesh *mesh = lines->plans->mesh;
    double *const out = lines->line + (size_t)element * 4 * SS_TILE;
    if (lines->lined[element]) {
        return out;
    }
    const ss_element *e = &mesh->element[element];
    const double *const shape = lines->plans->shape + (size_t)element * 24;
    static const int moving[] = {0, 2, 3, 5};
    for (int j = 0; j < 4; j++) {
        ss_term terms[4];
        for (int k = 0; k < 4; k++) {
            terms[k] = (ss_term){shape[4 * moving[k] + j], row_of(lines, ss_element_dof(e, moving[k]))};
        }
        lines->kernel->sum(terms, 4, out + j * SS_TILE);
    }
    for (int lane = 0; lines->own[element] && lane < lines->count; lane++) {
        if (lines->effects[lane].member == SS_MEMBER_LINE && lines->effects[lane].element == element) {
            double c[4];
            ss_mesh_effect_local_cubic(mesh, &lines->effects[lane], c);
            for (int j = 0; j < 4; j++) out[j * SS_TILE + lane] += c[j];
        }
    }
    lines->lined[element] = true;
    return out;
}

/* Value of a unit force at s of a floor beam's bay, and of what it does in the effect's own bay. */
static void bay_value(const ss_axle_lines *lines, int element, double s, double out[SS_TILE]) {
    const ss_mesh *mesh = lines->plans->mesh;
    const double *const shape = lines->plans->shape + (size_t)element * 24;
    ss_term terms[6];
    int count = 0;
    for (int k = 0; k < 6; k++) {
        const double value =
            shape[4 * k] + s * (shape[4 * k + 1] + s * (shape[4 * k + 2] + s * shape[4 * k + 3]));
        if (value != 0.0) {
            terms[count++] = (ss_term){value, row_of(lines, ss_element_dof(&mesh->element[element], k))};
        }
    }
    lines->kernel->sum(terms, count, out);
    for (int lane = 0; lines->own[element] && lane < lines->count; lane++) {
        if (lines->effects[lane].member == SS_MEMBER_BEAM && lines->effects[lane].element == element) {
            out[lane] += ss_mesh_effect_local(mesh, &lines->effects[lane], s);
        }
    }
}

/* Value of a unit moment on an end of a floor beam's bay, from beyond it. */
static void overhang_value(const ss_axle_lines *lines, int element, bool at_b, double out[SS_TILE]) {
    const ss_mesh *mesh = lines->plans->mesh;
    double moment[6];
    ss_term terms[6];
    int count = 0;
    ss_element_overhang(&mesh->element[element], at_b, moment);
    for (int k = 0; k < 6; k++) {
        if (moment[k] != 0.0) {
            terms[count++] = (ss_term){moment[k], row_of(lines, ss_element_dof(&mesh->element[element], k))};
        }
    }
    lines->kernel->sum(terms, count, out);
    for (int lane = 0; lines->own[element] && lane < lines->count; lane++) {
        if (lines->effects[lane].member == SS_MEMBER_BEAM && lines->effects[lane].element == element) {
            out[lane] += ss_mesh_effect_local_overhang(mesh, &lines->effects[lane], at_b);
        }
    }
}

/* Adds what a unit torque on a line's element does in it: linear along it. */
static void add_own_torque(const ss_axle_lines *lines, int element, double arm, double *at0, double *slope) {
    const ss_mesh *mesh = lines->plans->mesh;
    for (int lane = 0; lines->own[element] && lane < lines->count; lane++) {
        if (lines->effects[lane].member == SS_MEMBER_LINE && lines->effects[lane].element == element) {
            const double near = ss_mesh_effect_local_torque(mesh, &lines->effects[lane], 0.25);
            const double far = ss_mesh_effect_local_torque(mesh, &lines->effects[lane], 0.75);
            at0[lane] += arm * (1.5 * near - 0.5 * far);
            if (slope != NULL) {
                slope[lane] += arm * 2.0 * (far - near);
            }
        }
    }
}

/* ---- an axle within one interval ---------------------------------------------------------------- */

enum { TERMS_MOST = 64, VALUES_MOST = 16 };

/* Terms of one coefficient. */
typedef struct term_list {
    int count;
    ss_term terms[TERMS_MOST];
} term_list;

static void add_term(term_list *list, double weight, const double *row) {
    if (weight != 0.0 && list->count < TERMS_MOST) {
        list->terms[list->count++] = (ss_term){weight, row};
    }
}

static void line_terms(ss_axle_lines *lines, const ss_axle_share *share, term_list c[4]) {
    const ss_element *e = &lines->plans->mesh->element[share->element];
    const double *const line = line_of(lines, share->element);
    for (int j = 0; j < 4; j++) add_term(&c[j], share->weight0, line + j * SS_TILE);
    add_term(&c[0], share->arm0, row_of(lines, ss_element_dof(e, 1)));
    add_term(&c[1], share->arm0, row_of(lines, ss_element_dof(e, 4)));
    add_term(&c[1], -share->arm0, row_of(lines, ss_element_dof(e, 1)));
}

/* value: 2 x SS_TILE, which the terms refer to. */
static void beam_terms(const ss_axle_lines *lines, const ss_axle_share *share, double *value,
                       term_list c[4]) {
    bay_value(lines, share->element, share->at, value);
    add_term(&c[0], share->weight0, value);
    add_term(&c[1], share->weight1 - share->weight0, value);
    if (share->arm0 != 0.0 || share->arm1 != 0.0) {
        overhang_value(lines, share->element, share->at > 0.5, value + SS_TILE);
        add_term(&c[0], share->arm0, value + SS_TILE);
        add_term(&c[1], share->arm1 - share->arm0, value + SS_TILE);
    }
}

/* Terms of the coefficients of one interval. */
typedef struct interval_terms {
    term_list c[4];
    double value[VALUES_MOST][2 * SS_TILE];
} interval_terms;

static void gather(ss_axle_lines *lines, const ss_axle_plan *plan, int interval, interval_terms *terms) {
    int values = 0;
    for (int j = 0; j < 4; j++) terms->c[j].count = 0;
    for (int i = plan->first[interval]; i < plan->first[interval + 1]; i++) {
        if (plan->share[i].across) {
            beam_terms(lines, &plan->share[i], terms->value[values++], terms->c);
        } else {
            line_terms(lines, &plan->share[i], terms->c);
        }
    }
}

/* slope: NULL where it is not asked for. */
static void add_torques(const ss_axle_lines *lines, const ss_axle_plan *plan, int interval, double *at0,
                        double *slope) {
    for (int i = plan->first[interval]; i < plan->first[interval + 1]; i++) {
        if (!plan->share[i].across && plan->share[i].arm0 != 0.0) {
            add_own_torque(lines, plan->share[i].element, plan->share[i].arm0, at0, slope);
        }
    }
}

void ss_axle_lines_interval(ss_axle_lines *lines, int p, int interval) {
    const ss_axle_plan *plan = &lines->plans->plan[p];
    const size_t at = (size_t)p * (size_t)lines->plans->interval_count + (size_t)interval;
    double *const out = lines->cubic + at * 4 * SS_TILE;
    interval_terms terms;
    gather(lines, plan, interval, &terms);
    for (int j = 0; j < 4; j++) lines->kernel->sum(terms.c[j].terms, terms.c[j].count, out + j * SS_TILE);
    add_torques(lines, plan, interval, out, out + SS_TILE);
    lines->kernel->curve(out, lines->curve + at * SS_TILE);
    lines->filled[at] = true;
}

void ss_axle_lines_start(ss_axle_lines *lines, int p, int interval, double out[SS_TILE]) {
    const ss_axle_plan *plan = &lines->plans->plan[p];
    interval_terms terms;
    gather(lines, plan, interval, &terms);
    lines->kernel->sum(terms.c[0].terms, terms.c[0].count, out);
    add_torques(lines, plan, interval, out, NULL);
}

/* ---- on floor beams ----------------------------------------------------------------------------- */

/* Adds the terms of a wheel through a line, at one end of an interval. */
static void point_terms(ss_axle_lines *lines, const ss_axle_point *point, term_list *list) {
    const ss_element *e = &lines->plans->mesh->element[point->element];
    const double *const line = line_of(lines, point->element);
    double power = 1.0;
    for (int j = 0; j < 4; j++, power *= point->at) add_term(list, point->weight * power, line + j * SS_TILE);
    add_term(list, point->arm, row_of(lines, 3 * (point->at < 0.5 ? e->a : e->b) + 1));
}

static void add_point_torque(const ss_axle_lines *lines, const ss_axle_point *point, double *out) {
    const double inside = point->at < 0.5 ? 1e-12 : 1.0 - 1e-12;
    for (int lane = 0; lines->own[point->element] && lane < lines->count; lane++) {
        const ss_effect *const effect = &lines->effects[lane];
        if (effect->member == SS_MEMBER_LINE && effect->element == point->element) {
            out[lane] += point->arm * ss_mesh_effect_local_torque(lines->plans->mesh, effect, inside);
        }
    }
}

void ss_axle_lines_points(ss_axle_lines *lines, int p) {
    const ss_axle_plan *plan = &lines->plans->plan[p];
    const size_t stations = (size_t)lines->plans->beam_station_count;
    double value[VALUES_MOST][SS_TILE];
    for (size_t k = 0; k < stations; k++) {
        double *const out = lines->beam + ((size_t)p * stations + k) * SS_TILE;
        term_list list;
        list.count = 0;
        int values = 0;
        for (int i = plan->point_first[k]; i < plan->point_first[k + 1]; i++) {
            const ss_axle_point *point = &plan->point[i];
            if (point->across) {
                bay_value(lines, point->element, point->at, value[values]);
                add_term(&list, point->weight, value[values++]);
            } else {
                point_terms(lines, point, &list);
            }
        }
        lines->kernel->sum(list.terms, list.count, out);
        for (int i = plan->point_first[k]; i < plan->point_first[k + 1]; i++) {
            if (!plan->point[i].across && plan->point[i].arm != 0.0) {
                add_point_torque(lines, &plan->point[i], out);
            }
        }
    }
}

/* ---- at stations -------------------------------------------------------------------------------- */

SS_CLONES
void ss_axle_lines_station(const ss_axle_lines *lines, int p, int station, double step[SS_TILE],
                           double kink[SS_TILE]) {
    static const double nothing[4 * SS_TILE];
    const ss_axle_plans *plans = lines->plans;
    const double *const x = plans->mesh->station;
    const bool first = station == 0, last = station == plans->interval_count;
    const double *restrict const left = first ? nothing : ss_axle_lines_cubic(lines, p, station - 1);
    const double *restrict const right = last ? nothing : ss_axle_lines_cubic(lines, p, station);
    const double by_left = first ? 0.0 : 1.0 / (x[station] - x[station - 1]);
    const double by_right = last ? 0.0 : 1.0 / (x[station + 1] - x[station]);
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double c1 = left[SS_TILE + lane], c2 = left[2 * SS_TILE + lane], c3 = left[3 * SS_TILE + lane];
        step[lane] = fabs(right[lane] - left[lane] - c1 - c2 - c3);
        kink[lane] = fabs(by_right * right[SS_TILE + lane] - by_left * (c1 + 2.0 * c2 + 3.0 * c3));
    }
}

SS_CLONES
static int exceeds(const double *restrict step, const double *restrict scale) {
    int any = 0;
    for (int lane = 0; lane < SS_TILE; lane++) any |= step[lane] > JUMP * scale[lane];
    return any;
}

SS_CLONES
static void widen_scale(const double *restrict c, double *restrict scale) {
    for (int lane = 0; lane < SS_TILE; lane++) scale[lane] = ss_max(scale[lane], fabs(c[lane]));
}

void ss_axle_lines_jumps(ss_axle_lines *lines, int p) {
    const int intervals = lines->plans->interval_count;
    bool *const jump = lines->jump + (size_t)p * (size_t)(intervals + 1);
    double scale[SS_TILE] = {0}, step[SS_TILE], kink[SS_TILE];
    for (int i = 0; i < intervals; i++) widen_scale(ss_axle_lines_cubic(lines, p, i), scale);
    for (int k = 0; k <= intervals; k++) {
        ss_axle_lines_station(lines, p, k, step, kink);
        jump[k] = exceeds(step, scale) != 0;
    }
}

void ss_axle_lines_fill(ss_axle_lines *lines, const double *z, const ss_effect *effects, int count) {
    const ss_axle_plans *plans = lines->plans;
    ss_axle_lines_begin(lines, z, effects, count);
    for (int p = 0; p < plans->count; p++) {
        ss_axle_lines_points(lines, p);
        if (plans->plan[p].lines_of == p) {
            for (int i = 0; i < plans->interval_count; i++) ss_axle_lines_interval(lines, p, i);
            ss_axle_lines_jumps(lines, p);
        }
    }
}
