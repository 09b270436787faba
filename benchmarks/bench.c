/* bench.c - sillspan_bench DESCRIPTION FOLDER: rates of the machine, stages of the library, and a task for
 * scripts, which is written to the folder; sillspan_bench sweep DESCRIPTION...: sweeps of joints;
 * sillspan_bench studies DESCRIPTION: variants of one bridge; sillspan_bench size DESCRIPTION: a deck. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench.h"
#include "response/tile_kernel.h"

/* Of the positions of the task, one in so many: enough to see the ratios, few enough for the scripts. */
enum { EVERY = 3 };

int main(int argc, char **argv) {
    /* A bridge that holds on to its bearings is one that any frame script can do. */
    static const char *const two_way[] = {
        "bridge.bearings.pads.action=two-way", "bridge.bearings.pads.spring=2000 kip/in",
        "bridge.bearings.pads.pad_width=0 in", "bridge.bearings.shims.action=two-way",
        "bridge.bearings.shims.placed=first",
    };
    if (argc > 2 && strcmp(argv[1], "sweep") == 0) {
        bench_sweep(argc - 2, argv + 2);
        return 0;
    }
    if (argc == 3 && strcmp(argv[1], "studies") == 0) {
        bench_studies(argv[2]);
        return 0;
    }
    if (argc == 3 && strcmp(argv[1], "size") == 0) {
        bench_size(argv[2]);
        return 0;
    }
    if (argc != 3) {
        fputs("usage: sillspan_bench DESCRIPTION FOLDER\n       sillspan_bench sweep DESCRIPTION...\n"
              "       sillspan_bench studies DESCRIPTION\n       sillspan_bench size DESCRIPTION\n",
              stderr);
        return 2;
    }
    const bench_rates rates = bench_rates_measure();
    printf("## The machine, one core\n\n| | |\n|---|---|\n");
    printf("| matrix product (OpenBLAS) | %.1f Gflop/s |\n", 1e-9 * rates.product_flops);
    printf("| copy in memory, read and written | %.1f GB/s |\n", 1e-9 * rates.copy_bytes);
    printf("| widest kernel | %s |\n", ss_tile_kernel_best()->name);
    bench_pipe pipe;
    bench_pipe_make(&pipe, argv[1], NULL, 0);
    bench_stages(&pipe, &rates);
    bench_pipe_free(&pipe);
    bench_pipe_make(&pipe, argv[1], two_way, sizeof two_way / sizeof *two_way);
    bench_compare(&pipe, argv[2], EVERY);
    bench_pipe_free(&pipe);
    return 0;
}
