/* bench_pipe.c - a description through the library, with the time of each step. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "bench.h"
#include "sillspan/memory.h"
#include "sillspan/reader.h"

enum { RUNS = 5 };

double bench_now(void) {
    return (double)clock() / CLOCKS_PER_SEC;
}

double bench_wall(void) {
    struct timespec now;
    timespec_get(&now, TIME_UTC);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

void bench_need(ss_status status, const ss_error *error) {
    if (status != SS_OK) {
        fprintf(stderr, "sillspan_bench: %s\n", error->message[0] != '\0' ? error->message : "it failed");
        exit(1);
    }
}

static void keep_least(double *least, double taken) {
    *least = *least == 0.0 || taken < *least ? taken : *least;
}

static void set_all(bench_pipe *p, const char *const *sets, int count) {
    for (int i = 0; i < count; i++) {
        char path[256];
        const char *const equals = strchr(sets[i], '=');
        snprintf(path, sizeof path, "%.*s", (int)(equals - sets[i]), sets[i]);
        bench_need(ss_description_set(&p->description, path, equals + 1, &p->diags), &(ss_error){0});
    }
}

static void make(bench_pipe *p, const char *file, const char *const *sets, int count) {
    ss_error error = {0};
    double start = bench_now();
    bench_need(ss_description_read(file, &p->description, &p->diags, &error), &error);
    set_all(p, sets, count);
    bench_need(ss_description_check(&p->description, &p->diags), &error);
    bench_need(ss_bridge_resolve(&p->description, &p->bridge, &p->diags), &error);
    keep_least(&p->read_s, bench_now() - start);
    start = bench_now();
    bench_need(ss_mesh_build(&p->bridge, (ss_mesh_options){.joints = true, .refine = 1}, &p->mesh, &error),
               &error);
    keep_least(&p->mesh_s, bench_now() - start);
    start = bench_now();
    bench_need(ss_grillage_create(&p->mesh, &p->grillage, &error), &error);
    keep_least(&p->factor_s, bench_now() - start);
    start = bench_now();
    bench_need(ss_permanent_compute(&p->bridge, p->grillage, &p->permanent, &error), &error);
    keep_least(&p->permanent_s, bench_now() - start);
    bench_need(ss_placements_build(&p->mesh, &p->placements, &error), &error);
    bench_need(ss_envelope_effects(&p->mesh, &p->effects, &p->effect_count, &error), &error);
}

void bench_pipe_make(bench_pipe *pipe, const char *file, const char *const *sets, int set_count) {
    *pipe = (bench_pipe){0};
    for (int run = 0; run < RUNS; run++) {
        const bench_pipe before = *pipe;
        bench_pipe_free(pipe);
        pipe->read_s = before.read_s;
        pipe->mesh_s = before.mesh_s;
        pipe->factor_s = before.factor_s;
        pipe->permanent_s = before.permanent_s;
        make(pipe, file, sets, set_count);
    }
}

void bench_pipe_free(bench_pipe *pipe) {
    ss_free(pipe->effects);
    ss_placements_destroy(&pipe->placements);
    ss_permanent_destroy(&pipe->permanent);
    ss_grillage_destroy(pipe->grillage);
    ss_mesh_destroy(&pipe->mesh);
    ss_bridge_destroy(&pipe->bridge);
    ss_description_destroy(&pipe->description);
    ss_diag_destroy(&pipe->diags);
    *pipe = (bench_pipe){0};
}
