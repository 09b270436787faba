/* bench_size.c - the search for a concrete deck against a full rating of every option. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "bench.h"
#include "sillspan/joint_out.h"
#include "sillspan/reader.h"
#include "studies/changes.h"
#include "studies/size_parts.h"

/* Factors of decks rated at the places of others; those that were searched agree to rounding. */
#define WITHIN 0.02
#define WITHIN_SEARCH 1e-9

/* Rates one option in full; its seconds of the processor. */
static double time_full(const ss_size *size, const ss_size_option *o, const ss_description *base,
                        double *worst) {
    const ss_variant_asks all = {.vehicle = -1};
    ss_description d;
    ss_diag_list diags = {0};
    ss_variant v = {0};
    ss_joint_out joints = {0};
    ss_error error = {0};
    int item = -1;
    const double start = bench_now();
    bench_need(ss_change_copy(base, &d), &error);
    bench_need(ss_size_change(size, o, base, &d, &diags), &error);
    bench_need(ss_variant_of(&d, &all, &v, &diags, &error), &error);
    bench_need(ss_joint_out_compute(&d, &v, &joints, &error), &error);
    const double seconds = bench_now() - start;
    for (int t = 0; t < size->sizing->target_count; t++) {
        const double full = ss_size_factor(&v, &size->sizing->targets[t], &item);
        const double off = o->factor[t] / full - 1.0;
        *worst = fmax(*worst, off);
        if (!(fabs(off) <= (o->full ? WITHIN_SEARCH : WITHIN))) {
            fprintf(stderr, "sillspan_bench: %s: %.12g and %.12g\n", o->name, o->factor[t], full);
            exit(1);
        }
    }
    ss_joint_out_destroy(&joints);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
    ss_diag_destroy(&diags);
    return seconds;
}

void bench_size(const char *file) {
    ss_description d = {0};
    ss_bridge bridge = {0};
    ss_diag_list diags = {0};
    ss_size size = {0};
    ss_error error = {0};
    const ss_size_watch watch = {0};
    bench_need(ss_description_read(file, &d, &diags, &error), &error);
    bench_need(ss_description_set(&d, "slab.in_use", "true", &diags), &error);
    bench_need(ss_bridge_resolve(&d, &bridge, &diags), &error);
    const double start = bench_now();
    bench_need(ss_size_compute(&d, &bridge, &watch, &size, &error), &error);
    const double search = bench_now() - start;
    double full = 0.0, worst = 0.0;
    int searched = 0;
    for (int i = 0; i < size.count; i++) {
        full += time_full(&size, &size.options[i], &d, &worst);
        searched += size.options[i].full;
    }
    printf("\n## Sizing a concrete deck, one core\n\n");
    printf("| %d decks and %d other bridges, %d searched in full | s of the processor |\n|---|---|\n",
           size.deck_count, size.count - size.deck_count, searched);
    printf("| the search, with the checks of every deck | %.1f |\n", search);
    printf("| a full rating of each, without checks | %.1f, %.1f times |\n", full, full / search);
    printf("| largest factor over its full rating | %.1e more |\n", worst);
    ss_size_destroy(&size);
    ss_bridge_destroy(&bridge);
    ss_description_destroy(&d);
    ss_diag_destroy(&diags);
}
