/* size.h - a search for a concrete deck that lets a bridge reach its targets, beside other repairs. */
#ifndef SILLSPAN_SIZE_H
#define SILLSPAN_SIZE_H

#include "sillspan/bridge.h"
#include "sillspan/work.h"

typedef enum ss_size_kind { SS_SIZE_AS_IT_IS, SS_SIZE_DECK, SS_SIZE_OTHER } ss_size_kind;

/** One thing that can be done, and what it comes to. */
typedef struct ss_size_option {
    ss_size_kind kind;
    const char *name;       /**< "as it is", "7 in, 4 ksi, without props", the name of a variant */
    double thickness;       /**< m, of a deck; else NaN */
    double strength, pitch; /**< Pa and m, where they are tried; NaN: as described */
    int set;                /**< in sizing.sets; -1: as described */
    bool shored;
    int other; /**< in sizing.others; -1 */

    bool tried;                       /**< false: interrupted before; then it has no rating */
    const char *failure;              /**< NULL, or why it has no rating: all below is then NaN, 0 or empty */
    double factor[SS_SIZING_TARGETS]; /**< smallest of each target; INFINITY: nothing limits it */
    double margin;                    /**< the least factor over its target */
    int target;                       /**< that one */
    const char *governs; /**< "main girder of car north, bending, under EV3 by LRFR legal, Strength I" */
    int missed, unknown; /**< of the deck's checks: not kept, and those that could not be looked at */
    double use;          /**< the largest of them, what is asked over what is there; 0 without a deck */
    const char *check;   /**< that one, "connectors of main girder of car north: pitch"; "" without a deck */
    double added;        /**< N more than as it is */
    double cost;         /**< NaN: not known */
    int connectors;
    double concrete; /**< m3 */
    bool full;       /**< all places of trucks were searched, not those alone that govern elsewhere */
    bool passes;     /**< all targets are reached and no check is missed */
    bool frontier;   /**< no other option that keeps its checks has as much margin for less weight and cost */
} ss_size_option;

typedef struct ss_size {
    const ss_sizing *sizing;
    ss_size_option *options; /**< as it is; decks, from thin to thick within each way of casting; others */
    int count, deck_count, other_count;
    bool shoring[2]; /**< tried: without props, with them */
    bool by_cost;    /**< the cheapest is sought; else the lightest */
    int best;        /**< the deck that passes with the least cost or weight; -1: none does */
    int nearest;  /**< the deck with the largest margin of those that keep their checks, else of all; -1: none
                   */
    bool stopped; /**< interrupted: not everything was tried */
    ss_arena arena;
} ss_size;

typedef struct ss_size_watch {
    void (*progress)(void *context, const char *what, double done);
    bool (*stop)(void *context);
    void *context;
} ss_size_watch;

/**
 * Rates the bridge of `description` as it is, with every deck that its group `sizing` asks for, and with
 * every other repair. A few of them are searched in full, the rest rated at the places where trucks govern
 * there; the deck that is chosen is searched in full too. `bridge` is what `description` resolves to, and
 * outlives *out. Errors: SS_ERROR_DESCRIPTION when there is no slab or no sizing, or too much to try; no
 * memory.
 */
ss_status ss_size_compute(const ss_description *description, const ss_bridge *bridge,
                          const ss_size_watch *watch, ss_size *out, ss_error *error);
void ss_size_destroy(ss_size *size);

#endif
