/* grillage.c - assembly, factor, and the grillage as described. */
#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/grillage_parts.h"
#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"

/* Of the scaled matrix. 2400 random sets of bearings under two cars: mechanisms at most 7e-18 (or not
 * positive definite at all), sound ones at least 7e-12; other grillages have been seen to reach 6e-17 and
 * 2e-15. */
#define RCOND_MECHANISM 5e-16
#define RCOND_DOUBT 1e-12

static void assemble_members(const ss_mesh *mesh, ss_band *band) {
    for (int n = 0; n < mesh->element_count; n++) {
        const ss_element *e = &mesh->element[n];
        double k[36];
        ss_element_stiffness(e, k);
        for (int i = 0; i < 6; i++) {
            for (int j = 0; j < 6; j++) {
                const int row = ss_element_dof(e, i);
                const int column = ss_element_dof(e, j);
                if (row >= column) {
                    band->ab[ss_band_at(band, row, column)] += k[6 * i + j];
                }
            }
        }
    }
}

static void assemble_springs(const ss_mesh *mesh, const double *stiffness, ss_band *band) {
    for (int n = 0; n < mesh->spring_count; n++) {
        const ss_row *r = &mesh->spring[n].row;
        for (int i = 0; i < r->count; i++) {
            for (int j = 0; j < r->count; j++) {
                if (r->dof[i] < r->dof[j]) {
                    continue;
                }
                band->ab[ss_band_at(band, r->dof[i], r->dof[j])] += stiffness[n] * r->value[i] * r->value[j];
            }
        }
    }
}

/* Whether anything but its own torsion meets the twist of a line: a floor beam that bends there, or a spring
 * with an arm. */
static void find_held_twists(const ss_mesh *mesh, bool *held) {
    for (int i = 0; i < mesh->element_count; i++) {
        const ss_element *e = &mesh->element[i];
        if (e->across && !e->hinge_a && e->EI > 0.0) {
            held[mesh->node_line[e->a]] = true;
        }
        if (e->across && !e->hinge_b && e->EI > 0.0) {
            held[mesh->node_line[e->b]] = true;
        }
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_row *row = &mesh->spring[i].row;
        for (int k = 0; k < row->count; k++) {
            if (row->dof[k] % 3 == 1) {
                held[mesh->node_line[row->dof[k] / 3]] = true;
            }
        }
    }
}

/* The first node of a line, by station. */
static int first_node(const ss_mesh *mesh, int line) {
    for (int node = 0; node < mesh->node_count; node++) {
        if (mesh->node_line[node] == line) {
            return node;
        }
    }
    return -1;
}

/*
 * In a car of several lines the deck brings forces to the lines, and torques only where the overhang of a
 * floor beam turns its end and the line with it. A twist that nothing meets is idle: it is held at one node,
 * in vain, instead of being refused. The same for a line without torsional stiffness, node by node. (If a
 * torque did come there, equilibrium would be missed, which is checked.) A car of one line carries by its
 * twist, and needs it held.
 */
static ss_status hold_idle_twists(const ss_mesh *mesh, ss_band *band, double *hold, ss_error *error) {
    const ss_bridge *b = mesh->bridge;
    bool *held = ss_alloc((size_t)b->line_count, sizeof *held);
    if (held == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the grillage");
    }
    find_held_twists(mesh, held);
    for (int l = 0; l < b->line_count; l++) {
        if (held[l] || b->cars[b->lines[l].car].line_count < 2) {
            continue;
        }
        const int dof = 3 * first_node(mesh, l) + 1;
        hold[dof] = band->ab[ss_band_at(band, dof, dof)];
    }
    ss_free(held);
    for (int i = 0; i < band->n; i++) {
        double *diagonal = &band->ab[ss_band_at(band, i, i)];
        if (!(*diagonal > 0.0)) {
            const int line = mesh->node_line[i / 3];
            if (b->cars[b->lines[line].car].line_count < 2) {
                char words[160];
                return ss_error_set(error, SS_ERROR_MECHANISM,
                                    "%s has no torsional stiffness, and nothing else holds its twist",
                                    ss_mesh_line_words(b, line, words, sizeof words));
            }
            hold[i] = 1.0;
        }
        *diagonal += hold[i];
    }
    return SS_OK;
}

static ss_status factor_band(ss_grillage *g, ss_error *error) {
    ss_status status = SS_OK;
    const ss_mesh *mesh = g->mesh;
    ss_band band = {0};
    double *scale = ss_alloc((size_t)mesh->order, sizeof *scale);
    if (scale == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the grillage");
    }
    SS_TRY(ss_band_create(&band, mesh->order, mesh->half_bandwidth, error));
    assemble_members(mesh, &band);
    for (int i = 0; i < mesh->order; i++) {
        scale[i] = band.ab[ss_band_at(&band, i, i)];
    }
    ss_reference_choose(mesh, scale, g->natural, g->stiffness, g->special);
    assemble_springs(mesh, g->stiffness, &band);
    SS_TRY(hold_idle_twists(mesh, &band, g->hold, error));
    for (int i = 0; i < mesh->order; i++) {
        scale[i] = 1.0 / sqrt(band.ab[ss_band_at(&band, i, i)]);
    }
    SS_TRY(ss_factor_create(&band, scale, &g->factor, &g->trust.rcond, error));
    /* An estimate, whose last digits hang on where the kernels of some processors find its vectors. */
    g->trust.rcond = (double)(float)g->trust.rcond;
    if (g->trust.rcond < RCOND_MECHANISM) {
        status = ss_trust_refuse(mesh, &band, scale, error);
        goto done;
    }
    g->trust.doubtful = g->trust.rcond < RCOND_DOUBT;
done:
    ss_free(scale);
    ss_band_destroy(&band);
    return status;
}

/* S of the contact springs: force_offset of the grillage as described, symmetric, without noise. */
static ss_status condense_contact(ss_grillage *g, ss_error *error) {
    const ss_mesh *mesh = g->mesh;
    const ss_update *base = &g->base;
    for (int i = 0; i < base->count; i++) {
        g->contact_count += mesh->spring[base->spring[i]].contact;
    }
    const size_t m = (size_t)g->contact_count;
    g->contact = ss_alloc(m, sizeof *g->contact);
    g->S = ss_alloc(m * m, sizeof *g->S);
    int *from = ss_alloc(m, sizeof *from);
    ss_status status = SS_OK;
    if (g->contact == NULL || g->S == NULL || from == NULL) {
        status = ss_error_set(error, SS_ERROR_MEMORY, "no memory for the bearings");
        goto done;
    }
    int at = 0;
    for (int i = 0; i < base->count; i++) {
        if (!mesh->spring[base->spring[i]].contact) {
            continue;
        }
        g->contact[at] = base->spring[i];
        from[at++] = i;
    }
    for (size_t i = 0; i < m; i++) {
        for (size_t j = 0; j < m; j++) {
            const double unit = sqrt(base->reference[from[i]] * base->reference[from[j]]);
            g->S[i * m + j] =
                base->force_offset[(size_t)from[i] * (size_t)base->count + (size_t)from[j]] / unit;
        }
    }
    SS_TRY(ss_small_clean(g->contact_count, g->S, error));
    for (size_t i = 0; i < m; i++) {
        for (size_t j = 0; j < m; j++) {
            g->S[i * m + j] *= sqrt(base->reference[from[i]] * base->reference[from[j]]);
            for (int k = 0; k < base->redundant_count; k++) {
                const double *const v = base->redundant + (size_t)k * (size_t)base->count;
                g->S[i * m + j] += v[from[i]] * v[from[j]];
            }
        }
    }
done:
    ss_free(from);
    return status;
}

ss_status ss_grillage_create(const ss_mesh *mesh, ss_grillage **out, ss_error *error) {
    ss_status status = SS_OK;
    ss_grillage *g = ss_alloc(1, sizeof *g);
    if (g == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the grillage");
    }
    g->mesh = mesh;
    SS_TRY(ss_support_check(mesh, NULL, error));
    g->natural = ss_alloc((size_t)mesh->spring_count, sizeof *g->natural);
    g->stiffness = ss_alloc((size_t)mesh->spring_count, sizeof *g->stiffness);
    g->special = ss_alloc((size_t)mesh->spring_count, sizeof *g->special);
    g->hold = ss_alloc((size_t)mesh->order, sizeof *g->hold);
    if (g->natural == NULL || g->stiffness == NULL || g->special == NULL || g->hold == NULL) {
        status = ss_error_set(error, SS_ERROR_MEMORY, "no memory for the grillage");
        goto done;
    }
    SS_TRY(factor_band(g, error));
    SS_TRY(ss_refining_create(mesh, &g->factor, g->stiffness, g->hold, &g->refining, error));
    SS_TRY(ss_condense(g, NULL, &g->base, error));
    SS_TRY(condense_contact(g, error));
    *out = g;
    g = NULL;
done:
    ss_grillage_destroy(g);
    return status;
}

void ss_grillage_destroy(ss_grillage *grillage) {
    if (grillage == NULL) {
        return;
    }
    ss_condense_free(&grillage->base);
    ss_factor_destroy(&grillage->factor);
    ss_free(grillage->natural);
    ss_free(grillage->stiffness);
    ss_free(grillage->special);
    ss_free(grillage->hold);
    ss_refining_destroy(&grillage->refining);
    ss_free(grillage->contact);
    ss_free(grillage->S);
    ss_free(grillage);
}

const ss_mesh *ss_grillage_mesh(const ss_grillage *grillage) {
    return grillage->mesh;
}

const ss_trust *ss_grillage_trust(const ss_grillage *grillage) {
    return &grillage->trust;
}

int ss_grillage_contact(const ss_grillage *grillage, const int **springs, const double **S) {
    *springs = grillage->contact;
    *S = grillage->S;
    return grillage->contact_count;
}

double ss_grillage_equilibrium(const ss_grillage *grillage, const ss_load *load, const double *force) {
    const ss_mesh *mesh = grillage->mesh;
    const ss_bridge *b = mesh->bridge;
    double sum = load->total;
    double moment_x = load->moment_x;
    double moment_y = load->moment_y;
    double size = 0.0;
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *s = &mesh->spring[i];
        if (s->owner != SS_MEMBER_BEARING) {
            continue;
        }
        if (s->kind == SS_SPRING_SLOPE) {
            moment_y -= force[i];
            continue;
        }
        sum -= force[i];
        moment_x -= force[i] * s->y;
        moment_y -= force[i] * s->x;
        size += fabs(force[i]);
    }
    size = ss_max(size, fabs(load->total));
    if (!(size > 0.0)) {
        return 0.0;
    }
    /* A moment about an axis far away is large by itself; the bridge's own size is the measure. */
    const double length = b->x1 - b->x0;
    const double width = ss_max(b->cars[b->car_count - 1].y_right - b->cars[0].y_left, 1e-3 * length);
    return ss_max(fabs(sum), ss_max(fabs(moment_x) / width, fabs(moment_y) / length)) / size;
}
