/* bench_sweep.c - a joint's stiffness swept: the closed form against an analysis for each value. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench.h"
#include "mechanics/grillage_parts.h"
#include "mechanics/row.h"
#include "sillspan/memory.h"
#include "sillspan/reader.h"
#include "sillspan/spring_sweep.h"

enum { VALUES = 200, LOADS = 60, READINGS = 120, FORCES = 20, RUNS = 3 };

/* The factors go from 1e-3 to 1e3 of the stiffness as described. */
#define DECADES 6.0

/* Part of the largest answer of a reading by which the ways may differ. */
#define WITHIN 1e-8

typedef struct bench_task {
    ss_mesh *mesh;
    ss_grillage *grillage;
    ss_sweep_task task;
    int *swept;
    double *stiffness, *nodal;
    ss_sweep_load *loads;
    ss_sweep_reading *readings;
    double *closed, *plain; /* VALUES x READINGS x LOADS */
} bench_task;

static void *room(size_t count, size_t size) {
    void *const block = ss_alloc(count, size);
    bench_need(block == NULL ? SS_ERROR_MEMORY : SS_OK, &(ss_error){0});
    return block;
}

static double factor_at(int i) {
    return pow(10.0, DECADES * ((double)i / (VALUES - 1) - 0.5));
}

/* Three axles of a truck at places all over the bridge. */
static void add_loads(bench_task *t) {
    const ss_bridge *b = t->mesh->bridge;
    const size_t order = (size_t)t->mesh->order;
    const double width = b->cars[b->car_count - 1].y_right - b->cars[0].y_left;
    t->nodal = room(order * LOADS, sizeof *t->nodal);
    t->loads = room(LOADS, sizeof *t->loads);
    for (int l = 0; l < LOADS; l++) {
        ss_load load;
        ss_error error = {0};
        bench_need(ss_load_create(t->mesh, &load, &error), &error);
        const double x = b->x0 + (b->x1 - b->x0) * (0.1 + 0.6 * l / LOADS);
        const double y = b->cars[0].y_left + 0.3 + (width - 2.6) * (l % 7) / 6.0;
        for (int wheel = 0; wheel < 6; wheel++) {
            bench_need(ss_load_force(&load, x + 1.2 * (wheel / 2), y + 1.8 * (wheel % 2), 40000.0, &error),
                       &error);
        }
        memcpy(t->nodal + (size_t)l * order, load.nodal, order * sizeof *t->nodal);
        t->loads[l].nodal = t->nodal + (size_t)l * order;
        ss_load_destroy(&load);
    }
}

/* Member effects all over the bridge, and joint forces. */
static void add_readings(bench_task *t) {
    ss_effect *effects = NULL;
    ss_error error = {0};
    int count = 0, at = 0;
    bench_need(ss_envelope_effects(t->mesh, &effects, &count, &error), &error);
    t->readings = room(READINGS, sizeof *t->readings);
    for (int i = 0; i < count && at < READINGS - FORCES; i += 1 + count / (2 * READINGS)) {
        if (effects[i].member == SS_MEMBER_LINE || effects[i].member == SS_MEMBER_BEAM) {
            t->readings[at].spring = -1;
            ss_mesh_effect_row(t->mesh, &effects[i], &t->readings[at++].row);
        }
    }
    for (int i = 0; at < READINGS; i++) {
        t->readings[at++].spring = t->swept[(i * 7) % t->task.swept_count];
    }
    ss_free(effects);
}

static void fill_task(bench_task *t) {
    t->swept = room((size_t)t->mesh->spring_count, sizeof *t->swept);
    t->stiffness = room((size_t)t->mesh->spring_count, sizeof *t->stiffness);
    for (int i = 0; i < t->mesh->spring_count; i++) {
        const ss_spring *spring = &t->mesh->spring[i];
        if (spring->owner == SS_MEMBER_JOINT && spring->flexibility > 0.0) {
            t->swept[t->task.swept_count] = i;
            t->stiffness[t->task.swept_count++] = 1.0 / spring->flexibility;
        }
    }
    bench_need(t->task.swept_count > 0 ? SS_OK : SS_ERROR_INTERNAL,
               &(ss_error){.message = "no joint of springs"});
    add_loads(t);
    add_readings(t);
    t->task.swept = t->swept;
    t->task.stiffness = t->stiffness;
    t->task.load_count = LOADS;
    t->task.loads = t->loads;
    t->task.reading_count = READINGS;
    t->task.readings = t->readings;
    t->closed = room((size_t)VALUES * READINGS * LOADS, sizeof *t->closed);
    t->plain = room((size_t)VALUES * READINGS * LOADS, sizeof *t->plain);
}

static void free_task(bench_task *t) {
    ss_free(t->swept);
    ss_free(t->stiffness);
    ss_free(t->nodal);
    ss_free(t->loads);
    ss_free(t->readings);
    ss_free(t->closed);
    ss_free(t->plain);
}

/* Seconds of what is made once, and of all values. */
typedef struct sweep_times {
    double once, values;
} sweep_times;

static sweep_times time_closed(const bench_task *t) {
    sweep_times best = {1e300, 1e300};
    for (int run = 0; run < RUNS; run++) {
        ss_spring_sweep *sweep = NULL;
        ss_error error = {0};
        const double begin = bench_now();
        bench_need(ss_spring_sweep_create(t->grillage, &t->task, &sweep, &error), &error);
        double *const work = room(ss_spring_sweep_work(sweep), sizeof *work);
        const double made = bench_now();
        for (int i = 0; i < VALUES; i++) {
            double *const values = t->closed + (size_t)i * READINGS * LOADS;
            bench_need(ss_spring_sweep_at(sweep, factor_at(i), values, work, &error), &error);
        }
        const double end = bench_now();
        best.once = made - begin < best.once ? made - begin : best.once;
        best.values = end - made < best.values ? end - made : best.values;
        ss_free(work);
        ss_spring_sweep_destroy(sweep);
    }
    return best;
}

/* The readings of all loads by tiles of solutions. */
static void solve_all(const bench_task *t, const ss_grillage *g, const ss_update *u, double k,
                      double *values) {
    const size_t order = (size_t)t->mesh->order;
    double *const tile = room(order * SS_TILE, sizeof *tile);
    double *const work = room(ss_grillage_work(g, u), sizeof *work);
    for (int first = 0; first < LOADS; first += SS_TILE) {
        const int lanes = LOADS - first < SS_TILE ? LOADS - first : SS_TILE;
        memset(tile, 0, order * SS_TILE * sizeof *tile);
        for (size_t lane = 0; lane < (size_t)lanes; lane++) {
            const double *const nodal = t->loads[(size_t)first + lane].nodal;
            for (size_t i = 0; i < order; i++) tile[i * SS_TILE + lane] = nodal[i];
        }
        ss_grillage_solve(g, u, tile, work);
        for (int i = 0; i < READINGS; i++) {
            const int spring = t->readings[i].spring;
            const ss_row *row = spring < 0 ? &t->readings[i].row : &t->mesh->spring[spring].row;
            const double by = spring < 0 ? 1.0 : k;
            for (int lane = 0; lane < lanes; lane++) {
                double sum = 0.0;
                for (int j = 0; j < row->count; j++) {
                    sum += row->value[j] * tile[(size_t)row->dof[j] * SS_TILE + (size_t)lane];
                }
                values[i * LOADS + first + lane] = by * sum;
            }
        }
    }
    ss_free(tile);
    ss_free(work);
}

/* Joint forces are k times steps here: in units of the stiffness as described. */
static void in_units(const bench_task *t, double *values) {
    for (int i = 0; i < READINGS; i++) {
        for (int j = 0; t->readings[i].spring >= 0 && j < t->task.swept_count; j++) {
            for (int l = 0; t->swept[j] == t->readings[i].spring && l < LOADS; l++) {
                values[i * LOADS + l] *= t->stiffness[j];
            }
        }
    }
}

/* The stiffness matrix made and factored anew for each value, as it would be without any of this. */
static double time_analyses(const bench_task *t, double *values) {
    const double begin = bench_now();
    for (int n = 0; n < VALUES; n++) {
        ss_grillage *grillage = NULL;
        ss_error error = {0};
        for (int j = 0; j < t->task.swept_count; j++) {
            t->mesh->spring[t->swept[j]].flexibility = 1.0 / (factor_at(n) * t->stiffness[j]);
        }
        bench_need(ss_grillage_create(t->mesh, &grillage, &error), &error);
        solve_all(t, grillage, NULL, factor_at(n), values + (size_t)n * READINGS * LOADS);
        ss_grillage_destroy(grillage);
    }
    for (int j = 0; j < t->task.swept_count; j++)
        t->mesh->spring[t->swept[j]].flexibility = 1.0 / t->stiffness[j];
    return bench_now() - begin;
}

/* The grillage as it is, and an update of its springs for each value. */
static double time_updates(const bench_task *t, double *values) {
    double *const flexibility = room((size_t)t->mesh->spring_count, sizeof *flexibility);
    const double begin = bench_now();
    for (int i = 0; i < t->mesh->spring_count; i++) flexibility[i] = t->mesh->spring[i].flexibility;
    for (int n = 0; n < VALUES; n++) {
        ss_update *update = NULL;
        ss_error error = {0};
        for (int j = 0; j < t->task.swept_count; j++) {
            flexibility[t->swept[j]] = 1.0 / (factor_at(n) * t->stiffness[j]);
        }
        bench_need(ss_update_create(t->grillage, flexibility, &update, &error), &error);
        solve_all(t, t->grillage, update, factor_at(n), values + (size_t)n * READINGS * LOADS);
        ss_update_destroy(update);
    }
    ss_free(flexibility);
    return bench_now() - begin;
}

/* The largest difference over the largest answer of the reading at that value; of a joint force, over the
 * largest one: the plain ways make them from differences of displacements, which loses digits. */
static double difference(const bench_task *t) {
    double worst = 0.0;
    for (int n = 0; n < VALUES; n++) {
        double *const plain = t->plain + (size_t)n * READINGS * LOADS;
        const double *const closed = t->closed + (size_t)n * READINGS * LOADS;
        double forces = 0.0, forces_off = 0.0;
        in_units(t, plain);
        for (int i = 0; i < READINGS; i++) {
            double most = 0.0, off = 0.0;
            for (int l = 0; l < LOADS; l++) {
                most = fmax(most, fabs(plain[i * LOADS + l]));
                off = fmax(off, fabs(plain[i * LOADS + l] - closed[i * LOADS + l]));
            }
            if (t->readings[i].spring >= 0) {
                forces = fmax(forces, most);
                forces_off = fmax(forces_off, off);
            } else if (most > 0.0) {
                worst = fmax(worst, off / most);
            }
        }
        worst = fmax(worst, forces_off / forces);
    }
    if (!(worst < WITHIN)) {
        fprintf(stderr, "sillspan_bench: the sweep differs from analyses by %.1e\n", worst);
        exit(1);
    }
    return worst;
}

static void print_row(const bench_task *t, const char *name, int refine) {
    const sweep_times closed = time_closed(t);
    const double anew = time_analyses(t, t->plain), anew_off = difference(t);
    const double updates = time_updates(t, t->plain), updates_off = difference(t);
    const double sweep = closed.once + closed.values, each = (anew - closed.values) / VALUES;
    printf("| %s, %d | %d, %d, %d | %.1f + %.1f | %.0f, %.0f times | %.0f, %.0f times | %.0e, %.0e | %.1f "
           "(%d) |\n",
           name, refine, t->mesh->order, t->grillage->factor.kd, t->task.swept_count, 1e3 * closed.once,
           1e3 * closed.values, 1e3 * anew, anew / sweep, 1e3 * updates, updates / sweep, anew_off,
           updates_off, closed.once / each, ss_spring_sweep_pays_from(t->grillage, &t->task));
}

static void sweep_bridge(const char *file, int refine) {
    ss_diag_list diags = {0};
    ss_description description = {0};
    ss_bridge bridge = {0};
    ss_mesh mesh = {0};
    bench_task t = {.mesh = &mesh};
    ss_error error = {0};
    bench_need(ss_description_read(file, &description, &diags, &error), &error);
    bench_need(ss_description_check(&description, &diags), &error);
    bench_need(ss_bridge_resolve(&description, &bridge, &diags), &error);
    bench_need(ss_mesh_build(&bridge, (ss_mesh_options){.joints = true, .refine = refine}, &mesh, &error),
               &error);
    bench_need(ss_grillage_create(&mesh, &t.grillage, &error), &error);
    fill_task(&t);
    const char *const slash = strrchr(file, '/');
    print_row(&t, slash == NULL ? file : slash + 1, refine);
    free_task(&t);
    ss_grillage_destroy(t.grillage);
    ss_mesh_destroy(&mesh);
    ss_bridge_destroy(&bridge);
    ss_description_destroy(&description);
    ss_diag_destroy(&diags);
}

void bench_sweep(int count, char *const *files) {
    printf("\n## Joint sweep: %d values of the joints' stiffness, %d loads, %d readings, one core\n\n",
           VALUES, LOADS, READINGS);
    printf(
        "| bridge, intervals cut into | unknowns, half-bandwidth, springs swept | closed form, ms: once + "
        "values | factored anew, ms | updates, ms | largest differences | as many values pay (estimate) |\n");
    printf("|---|---|---|---|---|---|---|\n");
    for (int i = 0; i < count; i++) {
        for (int refine = 1; refine <= 2; refine++) {
            sweep_bridge(files[i], refine);
            fflush(stdout);
        }
    }
}
