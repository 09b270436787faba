/* envelope_tile.h - one tile of effects: influence fields, search under all traffic, results into the
 * envelope. */
#ifndef SS_RESPONSE_ENVELOPE_TILE_H
#define SS_RESPONSE_ENVELOPE_TILE_H

#include "response/references.h"
#include "response/search.h"

/** Effects of one tile: members or springs, not both. */
typedef struct ss_effect_tile {
    int count;
    int index[SS_TILE]; /**< in the envelope */
    bool springs;
} ss_effect_tile;

/** What all threads read. */
typedef struct ss_envelope_task {
    const ss_permanent *permanent;
    const ss_placements *placements;
    const ss_axle_plans *plans;
    const ss_contact_model *model;
    const ss_roll *rolls;         /**< one for each track */
    const ss_contact_finder *met; /**< the states of the rolls */
    const ss_references *references;
    bool contact_changes;
} ss_envelope_task;

/** What one thread works with. */
typedef struct ss_envelope_worker {
    const ss_envelope_task *task;
    ss_axle_lines lines;
    ss_contact_finder finder;
    ss_searcher searcher;
    double *z, *second, *work, *opening;
    double *referred; /**< references x order x SS_TILE */
    ss_found_set found;
} ss_envelope_worker;

ss_status ss_envelope_worker_create(const ss_envelope_task *task, ss_envelope_worker *out, ss_error *error);
void ss_envelope_worker_destroy(ss_envelope_worker *worker);

/** Searches the tile; writes only the tile's own entries of `out`. */
ss_status ss_envelope_tile(ss_envelope_worker *worker, const ss_effect_tile *tile, ss_envelope *out,
                           ss_error *error);

/** Index of an extreme: side 0 least, 1 most. */
static inline size_t ss_envelope_at(const ss_envelope *envelope, int effect, int traffic, int side) {
    return ((size_t)effect * (size_t)envelope->traffic_count + (size_t)traffic) * 2 + (size_t)side;
}

/** Solves governing positions again directly and compares; fills accuracy and checked_count. */
ss_status ss_envelope_check(const ss_permanent *permanent, const ss_placements *placements,
                            const ss_envelope_options *options, ss_envelope *envelope, ss_error *error);

#endif
