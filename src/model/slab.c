/* slab.c - where the concrete of a deck acts with a line, stage by stage. */
#include "sillspan/slab.h"

#include <math.h>

#include "base/numeric.h"
#include "model/resolve.h"

ss_slab_stage ss_slab_finished(const ss_slab *slab) {
    return (ss_slab_stage){.hard = slab->given ? (uint32_t)((UINT64_C(1) << slab->pour_count) - 1) : 0};
}

/* Whether x, just before or just after, lies from x0 to x1. */
static bool along(double x, bool before, double x0, double x1) {
    return before ? x > x0 + SS_SAME_PLACE && x <= x1 + SS_SAME_PLACE
                  : x >= x0 - SS_SAME_PLACE && x < x1 - SS_SAME_PLACE;
}

bool ss_slab_hard_at(const ss_slab *slab, double x, bool before, double y, ss_slab_stage stage) {
    for (int i = 0; slab->given && i < slab->pour_count; i++) {
        const ss_pour *const pour = &slab->pours[i];
        if ((stage.hard >> i & 1U) != 0 && along(x, before, pour->x0, pour->x1) &&
            y >= pour->y0 - SS_SAME_PLACE && y <= pour->y1 + SS_SAME_PLACE) {
            return true;
        }
    }
    return false;
}

bool ss_slab_flange_at(const struct ss_bridge *bridge, int line, double x, bool before, ss_slab_stage stage,
                       ss_slab_flange *out) {
    const ss_slab *const slab = &bridge->slab;
    if (!slab->given || !slab->lines[line].composite || !(slab->thickness > 0.0) ||
        !along(x, before, slab->x0, slab->x1) ||
        !ss_slab_hard_at(slab, x, before, bridge->lines[line].y, stage)) {
        return false;
    }
    const double width = slab->lines[line].width;
    const double n = isnan(slab->n) ? bridge->steels[bridge->lines[line].steel].E / slab->E : slab->n;
    *out = (ss_slab_flange){.width = width,
                            .thickness = slab->thickness,
                            .haunch = slab->haunch,
                            .n = stage.long_term ? n * slab->long_factor : n,
                            .fc = slab->fc,
                            .E = slab->E,
                            .top = width * ss_bars_area(&slab->top_along),
                            .bottom = width * ss_bars_area(&slab->bottom_along),
                            .top_depth = slab->top_along.depth,
                            .bottom_depth = slab->bottom_along.depth,
                            .bar_fy = slab->bar_fy};
    return true;
}

int ss_slab_panels(const ss_slab *slab) {
    return (int)ss_max(ceil((slab->x1 - slab->x0) / slab->strip_spacing - 1e-9), 1.0);
}

double ss_slab_panel_width(const ss_slab *slab) {
    return (slab->x1 - slab->x0) / ss_slab_panels(slab);
}
