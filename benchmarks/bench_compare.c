/* bench_compare.c - one plain task for the library and for scripts: the least and the most of all member
 * effects over a list of positions, on a bridge that holds on to its bearings. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench.h"
#include "mechanics/band.h"
#include "mechanics/element.h"
#include "mechanics/grillage_parts.h"
#include "mechanics/row.h"
#include "response/course.h"
#include "response/envelope_tile.h"
#include "sillspan/memory.h"

enum { RUNS = 3 };

/* Rows of a sparse matrix, for the scripts. */
typedef struct sparse_rows {
    int32_t *first, *column;
    double *value;
    size_t rows, count, row_capacity, capacity;
} sparse_rows;

static void *grown(void *block, size_t count, size_t size) {
    void *const more = ss_realloc(block, count, size);
    if (more == NULL) {
        fputs("sillspan_bench: out of memory\n", stderr);
        exit(1);
    }
    return more;
}

static void add_entry(sparse_rows *m, int column, double value) {
    if (m->count == m->capacity) {
        m->capacity = 2 * m->capacity + 4096;
        m->column = grown(m->column, m->capacity, sizeof *m->column);
        m->value = grown(m->value, m->capacity, sizeof *m->value);
    }
    m->column[m->count] = column;
    m->value[m->count++] = value;
}

static void end_row(sparse_rows *m) {
    if (m->rows + 2 > m->row_capacity) {
        m->row_capacity = 2 * m->row_capacity + 1024;
        m->first = grown(m->first, m->row_capacity, sizeof *m->first);
        m->first[0] = 0;
    }
    m->first[++m->rows] = (int32_t)m->count;
}

static void write_rows(const char *folder, const char *name, sparse_rows *m) {
    char part[64];
    snprintf(part, sizeof part, "%s_first", name);
    bench_npy(folder, part, 'i', m->first, m->rows + 1, 0);
    snprintf(part, sizeof part, "%s_column", name);
    bench_npy(folder, part, 'i', m->column, m->count, 0);
    snprintf(part, sizeof part, "%s_value", name);
    bench_npy(folder, part, 'd', m->value, m->count, 0);
    ss_free(m->first);
    ss_free(m->column);
    ss_free(m->value);
}

/* ---- the task ----------------------------------------------------------------------------------- */

/* Positions halfway between stands, so that no axle is where an effect jumps. */
typedef struct positions {
    int count;
    ss_position *at;
    ss_sparse_lists axles; /* rows of the lines of a tile */
    long axle_count;       /* axles on the bridge, of all positions */
    bool *needed;          /* plans */
} positions;

static void add_axles(positions *p, const ss_axle_plans *plans, const ss_course *course, int track,
                      double x) {
    int rows[SS_ROLL_TERMS], count = 0;
    double by[SS_ROLL_TERMS];
    ss_axle_at at[SS_AXLES_MAX];
    ss_course_locate(plans, course, x, false, at);
    for (int a = 0; a < course->vehicle->axle_count; a++) {
        by[count] = course->vehicle->axle_N[a];
        if (at[a].interval < 0) {
            continue;
        }
        p->axle_count++;
        p->needed[ss_axle_plan_of(plans, track, a)] = true;
        rows[count++] = ss_axle_row_cubic(plans, ss_axle_plan_of(plans, track, a), at[a].interval);
        for (int j = 1; j < 4; j++, count++) {
            rows[count] = rows[count - 1] + 1;
            by[count] = by[count - 1] * at[a].s;
        }
    }
    bench_need(ss_sparse_append(&p->axles, rows, by, count), &(ss_error){0});
}

static positions list_positions(const bench_pipe *pipe, const ss_courses *courses, int every) {
    positions p = {.needed = ss_alloc((size_t)courses->plans->count, sizeof *p.needed)};
    int seen = 0, capacity = 0;
    for (int t = 0; t < pipe->placements.track_count; t++) {
        const ss_course *course = &courses->items[courses->of_track[t]];
        const bool all = pipe->placements.trains[pipe->placements.tracks[t].train].use == SS_USE_ALL;
        for (int i = 0; all && !pipe->placements.tracks[t].fine && i + 1 < course->stand_count; i++) {
            const double length = course->x[i + 1] - course->x[i];
            if (length < 1e-3 || seen++ % every != 0) {
                continue;
            }
            if (p.count == capacity) {
                capacity = 2 * capacity + 1024;
                p.at = grown(p.at, (size_t)capacity, sizeof *p.at);
            }
            p.at[p.count++] = (ss_position){.track = t, .x = course->x[i] + 0.5 * length};
            add_axles(&p, courses->plans, course, t, p.at[p.count - 1].x);
        }
    }
    return p;
}

static int member_effects(const bench_pipe *pipe, ss_effect *effects) {
    int count = 0;
    for (int kind = SS_EFFECT_MOMENT; kind <= SS_EFFECT_DEFLECTION; kind++) {
        for (int i = 0; i < pipe->effect_count; i++) {
            if ((int)pipe->effects[i].kind == kind && pipe->effects[i].member == SS_MEMBER_LINE) {
                effects[count++] = pipe->effects[i];
            }
        }
    }
    return count;
}

/* ---- for the scripts ---------------------------------------------------------------------------- */

static void add_to_band(ss_band *band, int row, int column, double value) {
    if (row >= column) {
        band->ab[ss_band_at(band, row, column)] += value;
    }
}

/* The stiffness of the members and of springs as they are, in LAPACK's lower band storage. */
static void write_stiffness(const bench_pipe *pipe, const char *folder) {
    const ss_mesh *mesh = &pipe->mesh;
    ss_band band;
    bench_need(ss_band_create(&band, mesh->order, pipe->grillage->factor.kd, NULL), &(ss_error){0});
    for (int n = 0; n < mesh->element_count; n++) {
        const ss_element *e = &mesh->element[n];
        double k[36];
        ss_element_stiffness(e, k);
        for (int i = 0; i < 36; i++)
            add_to_band(&band, ss_element_dof(e, i / 6), ss_element_dof(e, i % 6), k[i]);
    }
    for (int n = 0; n < mesh->spring_count; n++) {
        const ss_row *r = &mesh->spring[n].row;
        if (!(mesh->spring[n].flexibility > 0.0) || mesh->spring[n].pair >= 0) {
            fputs("sillspan_bench: the comparison is for springs that give way one by one\n", stderr);
            exit(1);
        }
        for (int i = 0; i < r->count * r->count; i++) {
            const int a = i / r->count, b = i % r->count;
            add_to_band(&band, r->dof[a], r->dof[b], r->value[a] * r->value[b] / mesh->spring[n].flexibility);
        }
    }
    for (int i = 0; i < mesh->order; i++) add_to_band(&band, i, i, pipe->grillage->hold[i]);
    bench_npy(folder, "stiffness", 'd', band.ab, (size_t)band.n, (size_t)band.kd + 1);
    ss_band_destroy(&band);
}

static void write_effects(const bench_pipe *pipe, const ss_effect *effects, int count, const char *folder) {
    sparse_rows rows = {0};
    for (int i = 0; i < count; i++) {
        ss_row row;
        ss_mesh_effect_row(&pipe->mesh, &effects[i], &row);
        for (int k = 0; k < row.count; k++) add_entry(&rows, row.dof[k], row.value[k]);
        end_row(&rows);
    }
    write_rows(folder, "effects", &rows);
}

/* Nodal forces of every position, and what its wheels do besides to effects in their own elements. */
static void write_loads(const bench_pipe *pipe, const positions *p, const ss_effect *effects, int count,
                        const char *folder) {
    const ss_mesh *mesh = &pipe->mesh;
    sparse_rows wheels = {0}, direct = {0};
    ss_error error = {0};
    double *const nothing = ss_alloc((size_t)mesh->order, sizeof *nothing);
    for (int i = 0; i < p->count; i++) {
        ss_load load = {0};
        bench_need(ss_placements_load(mesh, &pipe->placements, &p->at[i], &load, &error), &error);
        for (int dof = 0; dof < mesh->order; dof++) {
            if (load.nodal[dof] != 0.0) {
                add_entry(&wheels, dof, load.nodal[dof]);
            }
        }
        for (int k = 0; k < count; k++) {
            const double *const clamped = load.clamped + 6 * (size_t)effects[k].element;
            const bool loaded =
                clamped[0] != 0.0 || clamped[1] != 0.0 || clamped[3] != 0.0 || clamped[4] != 0.0;
            const double value = loaded ? ss_mesh_effect_value(mesh, &effects[k], nothing, &load) : 0.0;
            if (value != 0.0) {
                add_entry(&direct, k, value);
            }
        }
        end_row(&wheels);
        end_row(&direct);
        ss_load_destroy(&load);
    }
    ss_free(nothing);
    write_rows(folder, "wheels", &wheels);
    write_rows(folder, "direct", &direct);
}

/* ---- by the library's own steps ----------------------------------------------------------------- */

typedef struct answer {
    double *least, *most;
    int *at; /* positions that govern, two for each effect */
    double fields_s, lines_s, search_s;
} answer;

/* The search's kernels over every position: `found` keeps the extremes of a tile. */
static void search_positions(const positions *p, const ss_axle_lines *lines, int lanes, double *threshold,
                             int *at) {
    static const double base[SS_TILE];
    double values[SS_TILE];
    const ss_rows none = {{0, NULL, NULL}, base};
    for (int i = 0; i < 2 * SS_TILE; i++) threshold[i] = i % SS_TILE < lanes ? 0.0 : 1e300;
    for (int i = 0; i < p->count; i++) {
        const ss_rows axles = {ss_sparse_at(&p->axles, i), lines->cubic};
        lines->kernel->lists(&axles, &none, values);
        if (!lines->kernel->reaches(values, threshold)) {
            continue;
        }
        for (int lane = 0; lane < lanes; lane++) {
            for (int side = 0; side < 2; side++) {
                const double value = side == 1 ? values[lane] : -values[lane];
                if (value > threshold[side * SS_TILE + lane]) {
                    threshold[side * SS_TILE + lane] = value;
                    at[2 * lane + side] = i;
                }
            }
        }
    }
}

/* The lines that the positions need, of those that there are. */
static void fill_lines(ss_axle_lines *lines, const positions *p, const double *z, const ss_effect *effects,
                       int count) {
    ss_axle_lines_begin(lines, z, effects, count);
    for (int plan = 0; plan < lines->plans->count; plan++) {
        for (int i = 0; p->needed[plan] && i < lines->plans->interval_count; i++) {
            ss_axle_lines_get(lines, plan, i);
        }
    }
}

static void solve(const bench_pipe *pipe, const ss_axle_plans *plans, const positions *p,
                  const ss_effect *effects, int count, answer *out) {
    const size_t size = (size_t)pipe->mesh.order * SS_TILE;
    ss_error error = {0};
    ss_axle_lines lines;
    double *const z = ss_alloc(size, sizeof *z), *const second = ss_alloc(size, sizeof *second);
    double *const work = ss_alloc(ss_grillage_work(pipe->grillage, NULL), sizeof *work);
    bench_need(z == NULL || second == NULL || work == NULL ? SS_ERROR_MEMORY : SS_OK, &error);
    bench_need(ss_axle_lines_create(plans, &lines, &error), &error);
    out->fields_s = out->lines_s = out->search_s = 0.0;
    for (int first = 0; first < count; first += SS_TILE) {
        const int lanes = count - first < SS_TILE ? count - first : SS_TILE;
        double threshold[2 * SS_TILE];
        const double begin = bench_now();
        ss_envelope_fields(&pipe->permanent, effects + first, lanes, z, second, work);
        const double solved = bench_now();
        fill_lines(&lines, p, z, effects + first, lanes);
        const double filled = bench_now();
        search_positions(p, &lines, lanes, threshold, out->at + 2 * first);
        out->fields_s += solved - begin;
        out->lines_s += filled - solved;
        out->search_s += bench_now() - filled;
        for (int lane = 0; lane < lanes; lane++) {
            out->least[first + lane] = 0.0 - threshold[lane];
            out->most[first + lane] = threshold[SS_TILE + lane];
        }
    }
    ss_axle_lines_destroy(&lines);
    ss_free(z);
    ss_free(second);
    ss_free(work);
}

static void solve_often(const bench_pipe *pipe, const ss_axle_plans *plans, const positions *p,
                        const ss_effect *effects, int count, answer *best) {
    answer this = *best;
    best->search_s = 1e300;
    for (int run = 0; run < RUNS; run++) {
        solve(pipe, plans, p, effects, count, &this);
        const double least = best->fields_s + best->lines_s + best->search_s;
        if (this.fields_s + this.lines_s + this.search_s < least) {
            *best = this;
        }
    }
}

void bench_compare(const bench_pipe *pipe, const char *folder, int every) {
    ss_error error = {0};
    ss_axle_plans plans;
    ss_courses courses;
    bench_need(ss_axle_plans_build(&pipe->mesh, &pipe->placements, &plans, &error), &error);
    bench_need(ss_courses_build(&plans, &pipe->placements, &courses, &error), &error);
    ss_effect *const effects = ss_alloc((size_t)pipe->effect_count, sizeof *effects);
    const int count = member_effects(pipe, effects);
    positions p = list_positions(pipe, &courses, every);
    answer a = {.least = ss_alloc((size_t)count, sizeof *a.least),
                .most = ss_alloc((size_t)count, sizeof *a.most),
                .at = ss_alloc(2 * (size_t)count, sizeof *a.at)};
    solve_often(pipe, &plans, &p, effects, count, &a);
    write_stiffness(pipe, folder);
    write_effects(pipe, effects, count, folder);
    write_loads(pipe, &p, effects, count, folder);
    bench_npy(folder, "least", 'd', a.least, (size_t)count, 0);
    bench_npy(folder, "most", 'd', a.most, (size_t)count, 0);
    const double total = pipe->factor_s + a.fields_s + a.lines_s + a.search_s;
    bench_npy(folder, "library_seconds", 'd', &total, 1, 0);
    const double evaluations = (double)p.axle_count * count;
    printf("\n## The same task for all: %d effects, %d positions, %.2g evaluations\n\n", count, p.count,
           evaluations);
    printf("| by the library, one core | s | |\n|---|---|---|\n");
    printf("| assembly, factor and its checks | %.3f | |\n", pipe->factor_s);
    printf("| influence fields | %.3f | |\n", a.fields_s);
    printf("| lines of the axles | %.3f | |\n", a.lines_s);
    printf("| search of all positions, the governing one kept | %.3f | %.2f billion evaluations a second |\n",
           a.search_s, 1e-9 * evaluations / a.search_s);
    printf("| together | %.3f | |\n", total);
    ss_free(a.least);
    ss_free(a.most);
    ss_free(a.at);
    ss_free(p.at);
    ss_free(p.needed);
    ss_sparse_destroy(&p.axles);
    ss_free(effects);
    ss_courses_destroy(&courses);
    ss_axle_plans_destroy(&plans);
}
