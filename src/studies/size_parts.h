/* size_parts.h - parts of the search for a deck: what is tried, what is seen of each, what is made of it. */
#ifndef SS_STUDIES_SIZE_PARTS_H
#define SS_STUDIES_SIZE_PARTS_H

#include "sillspan/size.h"
#include "sillspan/slab_check.h"
#include "sillspan/trial.h"

enum { SS_SIZE_WORDS = 240, SS_SIZE_DECKS = 2000 };

/** What is kept of a rated option; plain bytes. */
typedef struct ss_size_seen {
    double factor[SS_SIZING_TARGETS];
    double margin, use;
    double weight;               /**< N, all dead load */
    double concrete, bars, area; /**< m3, N, m2 of the slab */
    int target, missed, unknown, connectors, shores;
    char governs[SS_SIZE_WORDS], check[SS_SIZE_WORDS];
} ss_size_seen;

/** The list of options, nothing computed. */
ss_status ss_size_options(const ss_description *description, const ss_bridge *bridge, ss_size *size,
                          ss_error *error);

/** Changes a copy of `base` into the option. */
ss_status ss_size_change(const ss_size *size, const ss_size_option *option, const ss_description *base,
                         ss_description *description, ss_diag_list *diags);

/** See ss_trial_options.inspect; `sizing` is of the bridge as described. */
ss_status ss_size_inspect(const ss_sizing *sizing, const ss_variant *variant, ss_text *out, ss_error *error);

/** Smallest factor of a target, and its item; INFINITY and -1 when nothing is rated by it. */
double ss_size_factor(const ss_variant *variant, const ss_sizing_target *target, int *item);

/** All dead load of what was tried (N). */
double ss_size_weight(const ss_trial *trial);

/** Fills in what a trial came to; `weight` is that of the bridge as it is, NaN: this is it. */
ss_status ss_size_take(const ss_size *size, const ss_trial *trial, double weight, ss_size_option *out,
                       ss_arena *arena, ss_error *error);

/** The best, the nearest, and who is on the frontier. */
void ss_size_decide(ss_size *size);

#endif
