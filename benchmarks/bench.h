/* bench.h - what the parts of the benchmark share. */
#ifndef BENCH_H
#define BENCH_H

#include <stdbool.h>
#include <stddef.h>

#include "sillspan/description.h"
#include "sillspan/envelope.h"

/** Seconds of the processor that this program has had; on one thread, so that other programs do not count. */
double bench_now(void);
/** Seconds since some moment, for what runs on several threads. */
double bench_wall(void);

/** A description through the library up to where trucks stand. */
typedef struct bench_pipe {
    ss_diag_list diags;
    ss_description description;
    ss_bridge bridge;
    ss_mesh mesh;
    ss_grillage *grillage;
    ss_permanent permanent;
    ss_placements placements;
    ss_effect *effects;
    int effect_count;
    double read_s, mesh_s, factor_s, permanent_s; /**< least of several runs */
} bench_pipe;

/** `sets`: path=value, `set_count` of them. Ends the program on failure. */
void bench_pipe_make(bench_pipe *pipe, const char *file, const char *const *sets, int set_count);
void bench_pipe_free(bench_pipe *pipe);

/** Ends the program unless status is SS_OK. */
void bench_need(ss_status status, const ss_error *error);

/** What this machine does on one core. */
typedef struct bench_rates {
    double product_flops; /**< matrix products (cblas_dgemm), flops a second */
    double copy_bytes;    /**< memory to memory, bytes read and written a second */
} bench_rates;
bench_rates bench_rates_measure(void);

/** Stages of the analysis of pipe's bridge, printed as a table. */
void bench_stages(const bench_pipe *pipe, const bench_rates *rates);

/** The extremes of all member effects over a list of positions, by the library's own steps, and the same task
 * written to `folder` for scripts. `every`: of the positions, one in so many. */
void bench_compare(const bench_pipe *pipe, const char *folder, int every);

/** A sweep of the joints of each description against analyses, printed as a table. */
void bench_sweep(int count, char *const *files);

/** Studies of many variants of one bridge, printed as tables. */
void bench_studies(const char *file);

/** The search for a concrete deck against a full rating of every option, printed as a table. */
void bench_size(const char *file);

/** Writes an array as a .npy file; kind 'd' for double, 'i' for int. Ends the program on failure. */
void bench_npy(const char *folder, const char *name, char kind, const void *data, size_t rows,
               size_t columns);

#endif
