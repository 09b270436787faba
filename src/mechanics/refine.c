/* refine.c - one step of iterative refinement that puts equilibrium right to rounding. */
#include "mechanics/refine.h"

#include <math.h>
#include <string.h>

#include "mechanics/element.h"
#include "mechanics/row.h"
#include "sillspan/grillage.h"
#include "sillspan/memory.h"

/*
 * The assembled matrix resists rigid motions by its rounding, about 1e-16 * 12 EI/h^3; bearings that are soft
 * against members that are short see it: an equilibrium error of 1e-12 to 1e-9. A residual from b - K x has
 * the same fault. Here the end moments come from the rotations against the chord, and the end forces from the
 * end moments, so that each member is in balance whatever is rounded; one step then leaves 1e-15 or so.
 */
static void set_bending(const ss_element *e, ss_deformed *m) {
    const double phi = isinf(e->GA) ? 0.0 : 12.0 * e->EI / (e->GA * e->length * e->length);
    const double f = e->EI / ((1.0 + phi) * e->length);
    m->aa = m->bb = (4.0 + phi) * f;
    m->ab = (2.0 - phi) * f;
    const double one_hinge = 12.0 * e->EI / ((4.0 + phi) * e->length);
    if (e->hinge_a || e->hinge_b) {
        m->aa = e->hinge_a ? 0.0 : one_hinge; /* both hinged: no bending at all */
        m->bb = e->hinge_b ? 0.0 : one_hinge;
        m->ab = 0.0;
    }
}

ss_status ss_refining_create(const ss_mesh *mesh, const ss_factor *factor, const double *stiffness,
                             const double *hold, ss_refining *out, ss_error *error) {
    ss_refining r = {.mesh = mesh, .factor = factor, .stiffness = stiffness, .hold = hold};
    r.member = ss_alloc((size_t)mesh->element_count, sizeof *r.member);
    if (r.member == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the grillage");
    }
    for (int i = 0; i < mesh->element_count; i++) {
        const ss_element *e = &mesh->element[i];
        const ss_element_axes axes = ss_element_axes_of(e);
        ss_deformed *m = &r.member[i];
        m->w_a = ss_element_dof(e, axes.map[0]);
        m->slope_a = ss_element_dof(e, axes.map[1]);
        m->twist_a = ss_element_dof(e, axes.map[2]);
        m->w_b = ss_element_dof(e, axes.map[3]);
        m->slope_b = ss_element_dof(e, axes.map[4]);
        m->twist_b = ss_element_dof(e, axes.map[5]);
        m->sign = axes.sign[1];
        m->length = e->length;
        m->torsion = e->GJ / e->length;
        set_bending(e, m);
    }
    *out = r;
    return SS_OK;
}

void ss_refining_destroy(ss_refining *refining) {
    if (refining == NULL) {
        return;
    }
    ss_free(refining->member);
    *refining = (ss_refining){0};
}

static void subtract_member(const ss_deformed *m, int lanes, const double *x, double *r) {
    const size_t n = (size_t)lanes;
    for (size_t lane = 0; lane < n; lane++) {
        const double chord = (x[(size_t)m->w_b * n + lane] - x[(size_t)m->w_a * n + lane]) / m->length;
        const double a = m->sign * x[(size_t)m->slope_a * n + lane] - chord;
        const double b = m->sign * x[(size_t)m->slope_b * n + lane] - chord;
        const double moment_a = m->aa * a + m->ab * b;
        const double moment_b = m->ab * a + m->bb * b;
        const double force = (moment_a + moment_b) / m->length;
        const double torque =
            m->torsion * (x[(size_t)m->twist_b * n + lane] - x[(size_t)m->twist_a * n + lane]);
        r[(size_t)m->slope_a * n + lane] -= m->sign * moment_a;
        r[(size_t)m->slope_b * n + lane] -= m->sign * moment_b;
        r[(size_t)m->w_a * n + lane] -= force;
        r[(size_t)m->w_b * n + lane] += force;
        r[(size_t)m->twist_a * n + lane] += torque;
        r[(size_t)m->twist_b * n + lane] -= torque;
    }
}

void ss_refining_residual(const ss_refining *refining, int lanes, const double *b, const double *x,
                          double *r) {
    const ss_mesh *mesh = refining->mesh;
    const size_t n = (size_t)lanes;
    if (r != b) {
        memcpy(r, b, (size_t)mesh->order * n * sizeof *r);
    }
    for (int i = 0; i < mesh->element_count; i++) {
        subtract_member(&refining->member[i], lanes, x, r);
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_row *row = &mesh->spring[i].row;
        for (size_t lane = 0; lane < n; lane++) {
            double d = 0.0;
            for (int k = 0; k < row->count; k++) {
                d += row->value[k] * x[(size_t)row->dof[k] * n + lane];
            }
            for (int k = 0; k < row->count; k++) {
                r[(size_t)row->dof[k] * n + lane] -= refining->stiffness[i] * d * row->value[k];
            }
        }
    }
    for (size_t i = 0; i < (size_t)mesh->order; i++) {
        if (refining->hold[i] == 0.0) {
            continue;
        }
        for (size_t lane = 0; lane < n; lane++) {
            r[i * n + lane] -= refining->hold[i] * x[i * n + lane];
        }
    }
}

void ss_refining_solve(const ss_refining *refining, int lanes, double *b, double *x) {
    const size_t size = (size_t)refining->mesh->order * (size_t)lanes;
    memcpy(x, b, size * sizeof *x);
    if (lanes == 1) {
        ss_factor_solve(refining->factor, x);
    } else {
        ss_factor_solve_tile(refining->factor, x);
    }
    ss_refining_residual(refining, lanes, b, x, b);
    if (lanes == 1) {
        ss_factor_solve(refining->factor, b);
    } else {
        ss_factor_solve_tile(refining->factor, b);
    }
    for (size_t i = 0; i < size; i++) {
        x[i] += b[i];
    }
}
