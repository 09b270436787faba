/* spring_sweep.c - chosen springs of any stiffness: the bridge with them at a middling one, and what it does
 * there under the loads and under forces at the springs. */
#include "sillspan/spring_sweep.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/row.h"
#include "mechanics/spring_sweep_parts.h"

static ss_status no_memory(ss_error *error) {
    return ss_error_set(error, SS_ERROR_MEMORY, "no memory for a sweep of springs");
}

/* ---- the task ----------------------------------------------------------------------------------- */

static void free_parts(ss_sweep_parts *p) {
    ss_free(p->flexibility);
    ss_free(p->swept_at);
    ss_free(p->root);
    ss_free(p->C);
    ss_free(p->l);
    ss_free(p->e);
    ss_free(p->d);
    ss_free(p->s);
    ss_free(p->v);
}

static ss_status make_parts(ss_sweep_parts *p, ss_error *error) {
    const size_t m = (size_t)p->task->swept_count, springs = (size_t)p->grillage->mesh->spring_count;
    const size_t loads = (size_t)p->task->load_count, readings = (size_t)p->task->reading_count;
    p->flexibility = ss_alloc(springs, sizeof *p->flexibility);
    p->swept_at = ss_alloc(springs, sizeof *p->swept_at);
    p->root = ss_alloc(m, sizeof *p->root);
    p->C = ss_alloc(m * m, sizeof *p->C);
    p->l = ss_alloc(m, sizeof *p->l);
    p->e = ss_alloc(readings * m, sizeof *p->e);
    p->d = ss_alloc(m * loads, sizeof *p->d);
    p->s = ss_alloc(m * loads, sizeof *p->s);
    p->v = ss_alloc(readings * loads, sizeof *p->v);
    return p->flexibility == NULL || p->swept_at == NULL || p->root == NULL || p->C == NULL || p->l == NULL ||
                   p->e == NULL || p->d == NULL || p->s == NULL || p->v == NULL
               ? no_memory(error)
               : SS_OK;
}

static ss_status check_task(const ss_sweep_parts *p, ss_error *error) {
    const ss_mesh *mesh = p->grillage->mesh;
    for (int i = 0; i < mesh->spring_count; i++) {
        p->swept_at[i] = -1;
        p->flexibility[i] =
            p->task->flexibility != NULL ? p->task->flexibility[i] : mesh->spring[i].flexibility;
    }
    for (int j = 0; j < p->task->swept_count; j++) {
        const int i = p->task->swept[j];
        if (i < 0 || i >= mesh->spring_count || p->swept_at[i] >= 0 || mesh->spring[i].contact ||
            mesh->spring[i].pair >= 0) {
            return ss_error_set(error, SS_ERROR_INTERNAL, "a spring that cannot be swept");
        }
        if (!(p->task->stiffness[j] > 0.0) || isinf(p->task->stiffness[j])) {
            return ss_error_set(error, SS_ERROR_INTERNAL, "a swept spring without a finite stiffness");
        }
        p->swept_at[i] = j;
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        if (p->swept_at[i] < 0 && !(p->flexibility[i] >= 0.0)) {
            return ss_error_set(error, SS_ERROR_INTERNAL, "a spring of negative flexibility");
        }
    }
    for (int i = 0; i < p->task->reading_count; i++) {
        if (p->task->readings[i].spring >= mesh->spring_count) {
            return ss_error_set(error, SS_ERROR_INTERNAL, "the force of a spring that is not there");
        }
    }
    return SS_OK;
}

/*
 * k_ref is midway, in logarithms, between the factors at which the first and the last spring is as stiff as
 * what the members resist there. No spring may then be just as described: all are to be in the small system,
 * which gives their forces without a difference.
 */
static double choose_reference(const ss_sweep_parts *p) {
    const ss_mesh *mesh = p->grillage->mesh;
    double low = SS_INFINITY, high = -SS_INFINITY;
    for (int j = 0; j < p->task->swept_count; j++) {
        const double at = log(p->grillage->natural[p->task->swept[j]]) - log(p->task->stiffness[j]);
        low = ss_min(low, at);
        high = ss_max(high, at);
    }
    double k = p->task->swept_count > 0 ? exp(0.5 * (low + high)) : 1.0;
    for (int j = 0; j < p->task->swept_count; j++) {
        if (1.0 / (k * p->task->stiffness[j]) == mesh->spring[p->task->swept[j]].flexibility) {
            k *= 1.0 + 1e-9;
            j = -1;
        }
    }
    return k;
}

/* ---- what R does -------------------------------------------------------------------------------- */

typedef struct tile_room {
    double *loads, *u;      /* order x SS_TILE */
    double *offset, *force; /* spring_count x SS_TILE */
    double *work;
} tile_room;

static void free_room(tile_room *r) {
    ss_free(r->loads);
    ss_free(r->u);
    ss_free(r->offset);
    ss_free(r->force);
    ss_free(r->work);
}

static ss_status make_room(const ss_update *u, tile_room *r, ss_error *error) {
    const size_t order = (size_t)u->grillage->mesh->order * SS_TILE;
    const size_t springs = (size_t)u->grillage->mesh->spring_count * SS_TILE;
    r->loads = ss_alloc(order, sizeof *r->loads);
    r->u = ss_alloc(order, sizeof *r->u);
    r->offset = ss_alloc(springs, sizeof *r->offset);
    r->force = ss_alloc(springs, sizeof *r->force);
    r->work = ss_alloc(ss_respond_tile_work(u), sizeof *r->work);
    return r->loads == NULL || r->u == NULL || r->offset == NULL || r->force == NULL || r->work == NULL
               ? no_memory(error)
               : SS_OK;
}

/* out[lane * step] = the reading in each of the first lanes. */
static void read_tile(const ss_sweep_reading *reading, const tile_room *r, int lanes, double *out,
                      size_t step) {
    for (int lane = 0; lane < lanes; lane++) {
        double sum = 0.0;
        if (reading->spring >= 0) {
            sum = r->force[(size_t)reading->spring * SS_TILE + (size_t)lane];
        }
        for (int k = 0; k < reading->row.count && reading->spring < 0; k++) {
            sum += reading->row.value[k] * r->u[(size_t)reading->row.dof[k] * SS_TILE + (size_t)lane];
        }
        out[(size_t)lane * step] = sum;
    }
}

static int lanes_of(int first, int count) {
    return count - first < SS_TILE ? count - first : SS_TILE;
}

/* A unit force at each swept spring: fills C and e. */
static void probe_springs(const ss_sweep_parts *p, const ss_update *u, const tile_room *r) {
    const ss_mesh *mesh = p->grillage->mesh;
    const size_t m = (size_t)p->task->swept_count;
    for (int first = 0; first < p->task->swept_count; first += SS_TILE) {
        const int lanes = lanes_of(first, p->task->swept_count);
        memset(r->loads, 0, (size_t)mesh->order * SS_TILE * sizeof *r->loads);
        for (int lane = 0; lane < lanes; lane++) {
            const ss_row *row = &mesh->spring[p->task->swept[first + lane]].row;
            for (int k = 0; k < row->count; k++) {
                r->loads[(size_t)row->dof[k] * SS_TILE + (size_t)lane] +=
                    p->root[first + lane] * row->value[k];
            }
        }
        ss_respond_tile(u, NULL, r->loads, r->u, r->force, r->work);
        for (size_t i = 0; i < m; i++) {
            const double *const force = &r->force[(size_t)p->task->swept[i] * SS_TILE];
            for (int lane = 0; lane < lanes; lane++) {
                p->C[i * m + (size_t)(first + lane)] = force[lane] / p->root[i];
            }
        }
        for (int i = 0; i < p->task->reading_count; i++) {
            read_tile(&p->task->readings[i], r, lanes, &p->e[(size_t)i * m + (size_t)first], 1);
        }
    }
}

/* A tile of the task's loads, with the offsets of swept springs or without. */
static void apply_loads(const ss_sweep_parts *p, const ss_update *u, int first, bool with_swept,
                        const tile_room *r) {
    const ss_mesh *mesh = p->grillage->mesh;
    const int lanes = lanes_of(first, p->task->load_count);
    bool moved = false;
    memset(r->loads, 0, (size_t)mesh->order * SS_TILE * sizeof *r->loads);
    memset(r->offset, 0, (size_t)mesh->spring_count * SS_TILE * sizeof *r->offset);
    for (int lane = 0; lane < lanes; lane++) {
        const ss_sweep_load *load = &p->task->loads[first + lane];
        for (int i = 0; i < mesh->order && load->nodal != NULL; i++) {
            r->loads[(size_t)i * SS_TILE + (size_t)lane] = load->nodal[i];
        }
        for (int i = 0; i < mesh->spring_count && load->offset != NULL; i++) {
            const double offset = with_swept || p->swept_at[i] < 0 ? load->offset[i] : 0.0;
            r->offset[(size_t)i * SS_TILE + (size_t)lane] = offset;
            moved = moved || offset != 0.0;
        }
    }
    ss_respond_tile(u, moved ? r->offset : NULL, r->loads, r->u, r->force, r->work);
}

/* Fills d, s and v. */
static void apply_all(const ss_sweep_parts *p, const ss_update *u, const tile_room *r) {
    const size_t loads = (size_t)p->task->load_count;
    for (int first = 0; first < p->task->load_count; first += SS_TILE) {
        const int lanes = lanes_of(first, p->task->load_count);
        apply_loads(p, u, first, false, r);
        for (int j = 0; j < p->task->swept_count; j++) {
            const int spring = p->task->swept[j];
            for (int lane = 0; lane < lanes; lane++) {
                const ss_sweep_load *load = &p->task->loads[first + lane];
                const size_t to = (size_t)j * loads + (size_t)(first + lane);
                p->d[to] = r->force[(size_t)spring * SS_TILE + (size_t)lane] / p->root[j];
                p->s[to] = load->offset != NULL ? p->root[j] * load->offset[spring] : 0.0;
            }
        }
        for (int i = 0; i < p->task->reading_count; i++) {
            read_tile(&p->task->readings[i], r, lanes, &p->v[(size_t)i * loads + (size_t)first], 1);
        }
    }
}

/* ---- the ends ----------------------------------------------------------------------------------- */

/* Rigid springs above rigid bearings: what they carry is settled as everywhere else, by an update. */
static ss_status fill_rigid(const ss_sweep_parts *p, ss_spring_sweep *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_update rigid = {0};
    tile_room room = {0};
    const size_t loads = (size_t)p->task->load_count;
    for (int j = 0; j < p->task->swept_count; j++) p->flexibility[p->task->swept[j]] = 0.0;
    out->rigid = ss_alloc((size_t)p->task->reading_count * loads, sizeof *out->rigid);
    if (out->rigid == NULL) {
        return no_memory(error);
    }
    SS_TRY(ss_condense(p->grillage, p->flexibility, &rigid, error));
    SS_TRY(make_room(&rigid, &room, error));
    for (int first = 0; first < p->task->load_count; first += SS_TILE) {
        apply_loads(p, &rigid, first, true, &room);
        for (int i = 0; i < p->task->reading_count; i++) {
            read_tile(&p->task->readings[i], &room, lanes_of(first, p->task->load_count),
                      &out->rigid[(size_t)i * loads + (size_t)first], 1);
        }
    }
done:
    free_room(&room);
    ss_condense_free(&rigid);
    return status;
}

/* Says what moves without the springs: nothing, a car on its bearings, or what the last mode shows. */
static ss_status find_none(const ss_sweep_parts *p, const ss_update *u, const tile_room *r,
                           ss_spring_sweep *out, ss_error *error) {
    const ss_mesh *mesh = p->grillage->mesh;
    const size_t m = (size_t)p->task->swept_count;
    double *const open = ss_alloc((size_t)mesh->spring_count, sizeof *open);
    double *const field = ss_alloc((size_t)mesh->order, sizeof *field);
    ss_status status = SS_OK;
    if (open == NULL || field == NULL) {
        status = no_memory(error);
        goto done;
    }
    memcpy(open, p->flexibility, (size_t)mesh->spring_count * sizeof *open);
    for (size_t j = 0; j < m; j++) open[p->task->swept[j]] = SS_INFINITY;
    int free_motions = 0;
    while (free_motions < p->task->swept_count && p->l[m - 1 - (size_t)free_motions] == 1.0) free_motions++;
    if (ss_support_check(mesh, open, &out->none) != SS_OK || free_motions == 0) {
        goto done;
    }
    memset(r->loads, 0, (size_t)mesh->order * SS_TILE * sizeof *r->loads);
    for (size_t j = 0; j < m; j++) {
        const ss_row *row = &mesh->spring[p->task->swept[j]].row;
        for (int k = 0; k < row->count; k++) {
            r->loads[(size_t)row->dof[k] * SS_TILE] += p->C[(m - 1) * m + j] * p->root[j] * row->value[k];
        }
    }
    ss_respond_tile(u, NULL, r->loads, r->u, r->force, r->work);
    for (int i = 0; i < mesh->order; i++) field[i] = r->u[(size_t)i * SS_TILE];
    ss_trust_name_motion(mesh, field, free_motions, &out->none);
done:
    ss_free(open);
    ss_free(field);
    return status;
}

ss_status ss_spring_sweep_create(const ss_grillage *grillage, const ss_sweep_task *task,
                                 ss_spring_sweep **out, ss_error *error) {
    ss_status status = SS_OK;
    ss_sweep_parts parts = {.grillage = grillage, .task = task};
    ss_update reference = {0};
    tile_room room = {0};
    ss_spring_sweep *sweep = ss_alloc(1, sizeof *sweep);
    if (sweep == NULL) {
        return no_memory(error);
    }
    SS_TRY(make_parts(&parts, error));
    SS_TRY(check_task(&parts, error));
    sweep->k_ref = choose_reference(&parts);
    for (int j = 0; j < task->swept_count; j++) {
        parts.flexibility[task->swept[j]] = 1.0 / (sweep->k_ref * task->stiffness[j]);
        parts.root[j] = sqrt(1.0 / parts.flexibility[task->swept[j]]);
    }
    SS_TRY(ss_support_check(grillage->mesh, parts.flexibility, error));
    SS_TRY(ss_condense(grillage, parts.flexibility, &reference, error));
    SS_TRY(make_room(&reference, &room, error));
    probe_springs(&parts, &reference, &room);
    apply_all(&parts, &reference, &room);
    SS_TRY(ss_sweep_modes(&parts, sweep, error));
    SS_TRY(find_none(&parts, &reference, &room, sweep, error));
    if (sweep->null_count > 0) {
        SS_TRY(fill_rigid(&parts, sweep, error));
    }
    *out = sweep;
    sweep = NULL;
done:
    free_parts(&parts);
    free_room(&room);
    ss_condense_free(&reference);
    ss_spring_sweep_destroy(sweep);
    return status;
}

void ss_spring_sweep_destroy(ss_spring_sweep *sweep) {
    if (sweep == NULL) {
        return;
    }
    ss_free(sweep->l);
    ss_free(sweep->pole);
    ss_free(sweep->of_swept);
    ss_free(sweep->order);
    ss_free(sweep->a);
    ss_free(sweep->h);
    ss_free(sweep->base);
    ss_free(sweep->none_base);
    ss_free(sweep->null_a);
    ss_free(sweep->null_h);
    ss_free(sweep->rigid);
    ss_free(sweep);
}
