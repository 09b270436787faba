/* figure_made.h - a bridge with results to be drawn, computed or made up. */
#ifndef SS_TEST_FIGURE_MADE_H
#define SS_TEST_FIGURE_MADE_H

#include "sillspan/variant.h"
#include "unit/report/figure_samples.h"

typedef struct made {
    ss_variant whole;
    ss_share_list shares;
    ss_share share;
    ss_ratings rated, along;
    ss_posting posting;
    ss_effect effect;
    ss_results results;
} made;

static inline void stop(made *m) {
    ss_ratings_destroy(&m->rated);
    ss_ratings_destroy(&m->along);
    ss_arena_destroy(&m->shares.arena);
    ss_variant_destroy(&m->whole);
}

static inline void start(made *m) {
    ss_error error = {0};
    CHECK_OK(ss_variant_structure(&m->whole, &error), &error);
    CHECK_OK(ss_variant_loads(&m->whole, &error), &error);
    m->results = (ss_results){.command = "draw",
                              .bridge = &m->whole.bridge,
                              .mesh = &m->whole.mesh,
                              .grillage = m->whole.grillage,
                              .permanent = &m->whole.permanent,
                              .placements = &m->whole.placements,
                              .shares = &m->shares,
                              .rated = &m->rated,
                              .rated_along = &m->along,
                              .posting = &m->posting};
}

#endif
