/* bench_stages.c - where the time of an analysis goes, stage by stage. */
#include <stdio.h>
#ifdef _OPENMP
#include <omp.h>
#endif

#include "bench.h"
#include "mechanics/grillage_parts.h"
#include "response/course.h"
#include "response/envelope_tile.h"
#include "sillspan/memory.h"

enum { TILES = 40, RUNS = 3 };

static const ss_envelope_options plain = {.factors = {1.0, 1.0}, .live_factor = 1.0};

/* Effects of the analysis. */
static int list_effects(const bench_pipe *pipe, ss_effect *effects) {
    int count = 0;
    for (int i = 0; i < pipe->effect_count; i++) {
        const ss_effect_kind kind = pipe->effects[i].kind;
        if (kind != SS_EFFECT_WEB_PLUS && kind != SS_EFFECT_WEB_MINUS) {
            effects[count++] = pipe->effects[i];
        }
    }
    return count;
}

typedef struct tile_times {
    double fields_s, lines_s; /* of one tile */
    double line_bytes;        /* written in one */
} tile_times;

static tile_times time_tiles(const bench_pipe *pipe, const ss_axle_plans *plans, const ss_effect *effects,
                             int count) {
    const size_t size = (size_t)pipe->mesh.order * SS_TILE;
    tile_times best = {1e300, 1e300, 0.0};
    ss_error error = {0};
    ss_axle_lines lines;
    double *const z = ss_alloc(size, sizeof *z), *const second = ss_alloc(size, sizeof *second);
    double *const work = ss_alloc(ss_grillage_work(pipe->grillage, NULL), sizeof *work);
    bench_need(z == NULL || second == NULL || work == NULL ? SS_ERROR_MEMORY : SS_OK, &error);
    bench_need(ss_axle_lines_create(plans, &lines, &error), &error);
    for (int tile = 0; tile < TILES && (tile + 1) * SS_TILE <= count; tile++) {
        const double begin = bench_now();
        ss_envelope_fields(&pipe->permanent, effects + tile * SS_TILE, SS_TILE, z, second, work);
        const double solved = bench_now();
        ss_axle_lines_fill(&lines, z, effects + tile * SS_TILE, SS_TILE);
        const double filled = bench_now();
        best.fields_s = solved - begin < best.fields_s ? solved - begin : best.fields_s;
        best.lines_s = filled - solved < best.lines_s ? filled - solved : best.lines_s;
    }
    for (int p = 0; p < plans->count; p++) {
        best.line_bytes +=
            plans->plan[p].lines_of == p ? 5.0 * SS_TILE * sizeof(double) * plans->interval_count : 0.0;
    }
    ss_axle_lines_destroy(&lines);
    ss_free(z);
    ss_free(second);
    ss_free(work);
    return best;
}

typedef struct contact_times {
    double seconds;
    long positions, axles;
} contact_times;

static contact_times time_contact(const bench_pipe *pipe, const ss_courses *courses) {
    contact_times best = {1e300, 0, 0};
    ss_error error = {0};
    ss_contact_model model;
    bench_need(ss_contact_model_create(&pipe->permanent, &plain, false, &model, &error), &error);
    bench_need(ss_contact_model_lines(&model, courses->plans, &error), &error);
    for (int run = 0; run < RUNS; run++) {
        contact_times this = {0.0, 0, 0};
        ss_contact_finder finder;
        bench_need(ss_contact_finder_create(&model, NULL, &finder, &error), &error);
        for (int t = 0; t < pipe->placements.track_count; t++) {
            if (pipe->placements.trains[pipe->placements.tracks[t].train].use != SS_USE_ALL) {
                continue;
            }
            const bool points = pipe->placements.tracks[t].fine && !pipe->bridge.deck.along;
            const ss_course *course = &courses->items[courses->of_track[t]];
            const ss_roll_task task = {courses->plans, course, &pipe->placements, t, points, &finder};
            ss_roll roll;
            const double begin = bench_now();
            bench_need(ss_roll_build(&task, &roll, &error), &error);
            bench_need(ss_roll_blocks(courses->plans, &finder, &roll, &error), &error);
            this.seconds += bench_now() - begin;
            this.positions += roll.stand_count + roll.point_count;
            this.axles += (long)(roll.stand_count + roll.point_count) * roll.vehicle->axle_count;
            ss_roll_destroy(&roll);
        }
        ss_contact_finder_destroy(&finder);
        best = this.seconds < best.seconds ? this : best;
    }
    ss_contact_model_destroy(&model);
    return best;
}

static double time_envelope(const bench_pipe *pipe, const ss_effect *effects, int count, int threads) {
    double least = 1e300;
#ifdef _OPENMP
    omp_set_num_threads(threads);
#else
    (void)threads;
#endif
    for (int run = 0; run < RUNS; run++) {
        ss_envelope envelope;
        ss_error error = {0};
        const double begin = threads == 1 ? bench_now() : bench_wall();
        bench_need(ss_envelope_compute(&pipe->permanent, &pipe->placements, effects, count, &plain, &envelope,
                                       &error),
                   &error);
        const double taken = (threads == 1 ? bench_now() : bench_wall()) - begin;
        least = taken < least ? taken : least;
        ss_envelope_destroy(&envelope);
    }
    return least;
}

static void print_tiles(const bench_pipe *pipe, const tile_times *tile, int tiles, const bench_rates *rates) {
    const double flops = 4.0 * pipe->mesh.order * (double)pipe->grillage->factor.kd * SS_TILE;
    printf("| influence fields, %d tiles of %d | %.1f | %.1f Gflop/s, %.0f %% of the matrix product |\n",
           tiles, SS_TILE, 1e3 * tile->fields_s * tiles, 1e-9 * flops / tile->fields_s,
           100.0 * flops / tile->fields_s / rates->product_flops);
    printf("| lines of the axles, all of them | %.1f | %.1f GB/s written, %.0f %% of what a copy moves |\n",
           1e3 * tile->lines_s * tiles, 1e-9 * tile->line_bytes / tile->lines_s,
           100.0 * tile->line_bytes / tile->lines_s / rates->copy_bytes);
}

void bench_stages(const bench_pipe *pipe, const bench_rates *rates) {
    ss_error error = {0};
    ss_axle_plans plans;
    ss_courses courses;
    bench_need(ss_axle_plans_build(&pipe->mesh, &pipe->placements, &plans, &error), &error);
    bench_need(ss_courses_build(&plans, &pipe->placements, &courses, &error), &error);
    ss_effect *const effects = ss_alloc((size_t)pipe->effect_count, sizeof *effects);
    const int count = list_effects(pipe, effects), tiles = (count + SS_TILE - 1) / SS_TILE;
    const tile_times tile = time_tiles(pipe, &plans, effects, count);
    const contact_times contact = time_contact(pipe, &courses);
    const double one = time_envelope(pipe, effects, count, 1), two = time_envelope(pipe, effects, count, 2);
    const double every = (double)contact.axles * count;
    printf("\n## Stages of the analysis: %d unknowns, half-bandwidth %d, %d effects, %d tracks, %ld "
           "positions\n\n",
           pipe->mesh.order, pipe->grillage->factor.kd, count, pipe->placements.track_count,
           contact.positions);
    printf("| stage, one core | ms | rate |\n|---|---|---|\n");
    printf("| description read, checked, resolved | %.1f | |\n", 1e3 * pipe->read_s);
    printf("| mesh | %.1f | |\n", 1e3 * pipe->mesh_s);
    printf("| assembly, factor, condition, springs | %.1f | |\n", 1e3 * pipe->factor_s);
    printf("| dead load by stages | %.1f | |\n", 1e3 * pipe->permanent_s);
    printf("| contact at every position, blocks | %.1f | %.1f million positions a second |\n",
           1e3 * contact.seconds, 1e-6 * (double)contact.positions / contact.seconds);
    print_tiles(pipe, &tile, tiles, rates);
    printf("| extremes of all effects, with the three above | %.0f | %.2g evaluations if all were made: %.2f "
           "billion a "
           "second |\n",
           1e3 * one, every, 1e-9 * every / one);
    printf("| the same, two cores | %.0f | %.2f times as fast |\n", 1e3 * two, one / two);
    ss_free(effects);
    ss_courses_destroy(&courses);
    ss_axle_plans_destroy(&plans);
}
