/* envelope_tile.h - packs of effects of the same sections: influence fields, search under all traffic,
 * results into the envelope. */
#ifndef SS_RESPONSE_ENVELOPE_TILE_H
#define SS_RESPONSE_ENVELOPE_TILE_H

#include "response/loaded.h"
#include "response/search.h"

/** Live effects below this share of the truck's weight are nothing: N per N and N m per N; deflections in m
 * per N. */
#define SS_NOTHING_FORCE 1e-9
#define SS_NOTHING_DEFLECTION 1e-18

/** Effects of one tile: of one kind, as far as there are enough. */
typedef struct ss_effect_tile {
    int count;
    int index[SS_TILE];   /**< in the envelope */
    int section[SS_TILE]; /**< in the pack */
} ss_effect_tile;

enum { SS_PACK_TILES = 7, SS_PACK_SECTIONS = 32 };

/** Sections that follow each other, and all effects there: of members or of springs, not both. */
typedef struct ss_effect_pack {
    bool springs;
    int tile_count;
    ss_effect_tile tile[SS_PACK_TILES];
} ss_effect_pack;

/** At most so many packs of `count` effects: all but the last of members and of springs are full. */
static inline size_t ss_effect_packs_most(int count) {
    return (size_t)count / SS_PACK_SECTIONS + 2;
}

/** Cuts effects into packs; returns how many. */
int ss_effect_packs_make(const ss_effect *effects, int count, ss_effect_pack *packs);

/** What all threads read. */
typedef struct ss_envelope_task {
    const ss_permanent *permanent;
    const ss_placements *placements;
    const ss_axle_plans *plans;
    const ss_contact_model *model;
    const ss_roll *rolls; /**< one for each track */
    const ss_point_groups *groups;
    const ss_contact_finder *met; /**< the states of the rolls */
    const ss_loaded *loaded;
    size_t *tip_at; /**< traffic_count: extreme that a tip under lane loads or trucks abreast was met for;
                       guarded */
    int tiles_most; /**< in a pack */
} ss_envelope_task;

/** Trucks of an extreme with lane loads or trucks abreast, and the openings under them. */
typedef struct ss_loaded_kept {
    int truck_count; /**< 0: the extreme is that of one truck alone */
    ss_found truck[SS_LANES_MAX];
    double *change; /**< n */
} ss_loaded_kept;

/** What one thread works with. */
typedef struct ss_envelope_worker {
    const ss_envelope_task *task;
    ss_axle_lines lines;
    ss_effect effects[SS_TILE]; /**< that the lines are of */
    ss_axle_slack slack;
    ss_contact_finder finder;
    ss_searcher searcher;
    double *z;       /**< tiles_most x order x SS_TILE */
    double *opening; /**< tiles_most x n x SS_TILE */
    ss_found *found; /**< tiles_most x SS_TILE x traffic x 2 */
    double *second, *work, *change;
    ss_loaded_worker loaded;
    ss_loaded_kept *kept; /**< tiles_most x SS_TILE x loaded traffic x 2 */
    double *kept_change;  /**< n of each */
} ss_envelope_worker;

ss_status ss_envelope_worker_create(const ss_envelope_task *task, ss_envelope_worker *out, ss_error *error);
void ss_envelope_worker_destroy(ss_envelope_worker *worker);

/** Searches the pack; writes only the pack's own entries of `out`. */
ss_status ss_envelope_pack(ss_envelope_worker *worker, const ss_effect_pack *pack, ss_envelope *out,
                           ss_error *error);

/** A live reaction as the state of contact has it: `open` (n), or NULL where it is not known. */
void ss_envelope_settle(const ss_contact_model *model, const ss_effect *effect, const bool *open, double dead,
                        double *live);

/** Searches a tile (number `index` of its pack, whose lines have begun) with lane loads and trucks abreast;
 * worse extremes take the place of those of one truck alone. */
ss_status ss_envelope_loaded(ss_envelope_worker *worker, int index, const ss_effect_tile *tile,
                             const ss_loaded_tile *loaded, ss_envelope *out, ss_error *error);

/** What was kept of an extreme; NULL: its traffic is of one truck alone. */
ss_loaded_kept *ss_envelope_kept(const ss_envelope_worker *worker, int tile, int lane, int traffic, int side);

/** Another effect under the load of an extreme: lane `lane` of the tile that the lines and `opening` are of.
 */
double ss_envelope_loaded_value(ss_envelope_worker *worker, const ss_loaded_kept *kept,
                                const ss_extreme_load *load, const double *opening, int lane);

/** Influence fields of `count` effects (order x SS_TILE), of members or of springs; `second` as large. */
void ss_envelope_fields(const ss_permanent *permanent, const ss_effect *effects, int count, double *z,
                        double *second, double *work);

/** Index of an extreme: side 0 least, 1 most. */
static inline size_t ss_envelope_at(const ss_envelope *envelope, int effect, int traffic, int side) {
    return ((size_t)effect * (size_t)envelope->traffic_count + (size_t)traffic) * 2 + (size_t)side;
}

/** Solves governing positions again directly and compares; fills accuracy and checked_count. */
ss_status ss_envelope_check(const ss_contact_model *model, const ss_placements *placements,
                            const ss_envelope_options *options, ss_envelope *envelope, ss_error *error);

#endif
