/* spring_sweep_pays.c - from how many values on a sweep takes less time than an analysis for each. */
#include <limits.h>
#include <math.h>

#include "base/numeric.h"
#include "mechanics/spring_sweep_parts.h"

/*
 * Times in units of one solution of a tile, whose time goes with order x half-bandwidth. Measured on bridges
 * of two and three cars, intervals cut into one to three, 21 to 436 springs swept, 1 to 64 loads, on one
 * core: 8 to 24 for assembly, factor and condition; two refined solutions, 2.5, for 32 springs of a small
 * system; 5.5 for 32 forces or loads on what has one.
 */
#define FACTORING 12.0
#define CONDENSING 2.5
#define RESPONDING 5.5
#define SOLVING 1.5

/* The small system's factor, products and modes: of the third power of its size over order x half-bandwidth.
 */
#define DENSE 0.09

/* The sweep's cost is put higher by this, so that the estimate errs to the side of the plain way. */
#define CAUTION 1.2

int ss_spring_sweep_pays_from(const ss_grillage *grillage, const ss_sweep_task *task) {
    const double band = (double)grillage->mesh->order * ss_max((double)grillage->factor.kd, 1.0);
    const int m = task->swept_count;
    int others = 0;
    for (int i = 0; i < grillage->mesh->spring_count; i++) {
        others += grillage->special[i] && grillage->mesh->spring[i].owner != SS_MEMBER_JOINT;
    }
    const double tiles = ss_sweep_tiles(task->load_count), small = pow(others + m, 3.0) * DENSE / band;
    const double once =
        CONDENSING * ss_sweep_tiles(others + m) + RESPONDING * (ss_sweep_tiles(m) + tiles) + small;
    /* Swept springs are in the small system of an analysis while they are stiff: half of the time. */
    const double anew =
        FACTORING + CONDENSING * (ss_sweep_tiles(others) + 0.5 * m / SS_TILE) + SOLVING * tiles + 0.5 * small;
    const double each = 0.5 * task->reading_count * m * tiles / band;
    if (!(each < anew)) {
        return INT_MAX;
    }
    return (int)ss_clamp(ceil(CAUTION * once / (anew - each)), 1.0, 1e9);
}
