/* locked.c - what stays in members whose stiffness changes while they are deformed. */
#include "mechanics/element.h"
#include "mechanics/row.h"

/* Own coordinates of an element (element.h). */
enum { W_A, SLOPE_A, TWIST_A, W_B, SLOPE_B, TWIST_B };

/* Deformation of an element in its own coordinates, freed of the motion of the whole: so that its end forces
 * balance to their own rounding and not to that of the displacements. */
static void deform(const ss_element *e, const double *u, double d[6]) {
    const ss_element_axes axes = ss_element_axes_of(e);
    double own[6];
    for (int i = 0; i < 6; i++) {
        own[i] = axes.sign[i] * u[ss_element_dof(e, axes.map[i])];
    }
    const double chord = (own[W_B] - own[W_A]) / e->length;
    d[W_A] = d[W_B] = d[TWIST_A] = 0.0;
    d[SLOPE_A] = own[SLOPE_A] - chord;
    d[SLOPE_B] = own[SLOPE_B] - chord;
    d[TWIST_B] = own[TWIST_B] - own[TWIST_A];
}

void ss_load_locked(ss_load *load, const ss_mesh *before, const ss_mesh *after, const double *u) {
    for (int n = 0; n < after->element_count; n++) {
        const ss_element *const e = &after->element[n];
        const ss_element *const old = &before->element[n];
        if (e->EI == old->EI && e->GJ == old->GJ && e->GA == old->GA) {
            continue;
        }
        const ss_element_axes axes = ss_element_axes_of(e);
        double d[6];
        double k[36];
        double was[36];
        deform(e, u, d);
        ss_element_own_stiffness(e, k);
        ss_element_own_stiffness(old, was);
        for (int i = 0; i < 6; i++) {
            double force = 0.0;
            for (int j = 0; j < 6; j++) {
                force += (k[6 * i + j] - was[6 * i + j]) * d[j];
            }
            load->clamped[6 * n + axes.map[i]] += axes.sign[i] * force;
            load->nodal[ss_element_dof(e, axes.map[i])] += axes.sign[i] * force;
            load->locked_torque[n] += i == TWIST_B ? force : 0.0;
        }
    }
}
