/* sizing.h - what a search for a concrete deck goes through, and what it is to reach. */
#ifndef SILLSPAN_SIZING_H
#define SILLSPAN_SIZING_H

#include <stdbool.h>

enum {
    SS_SIZING_TARGETS = 8,
    SS_SIZING_VALUES = 40, /**< of thickness, strength or pitch */
    SS_SIZING_SETS = 8,
    SS_SIZING_OTHERS = 16
};

typedef struct ss_sizing_target {
    double factor;
    int vehicle; /**< in the bridge, rated; -1: every rated one */
    int method;  /**< ss_method; -1: the first that is rated */
    int level;   /**< ss_level; -1: those that decide whether the truck may cross */
} ss_sizing_target;

/** Lines that act with the slab, by the words of slab.lines. */
typedef struct ss_sizing_set {
    const char *name;
    const char **words;
    int count;
} ss_sizing_set;

/** Another repair: a variant of the description. */
typedef struct ss_sizing_other {
    const char *variant;
    double cost; /**< NaN: not known */
} ss_sizing_other;

/** Ways of casting that are tried, in the order of the words of sizing.shoring. */
typedef enum ss_sizing_shoring {
    SS_SIZING_WITHOUT,
    SS_SIZING_WITH,
    SS_SIZING_BOTH,
    SS_SIZING_IF_PROPS /**< both where props are described, else without */
} ss_sizing_shoring;

/** NaN: not given. */
typedef struct ss_sizing_prices {
    double concrete;   /**< a m3 */
    double bars;       /**< a N of weight */
    double connectors; /**< each */
    double shores;     /**< each */
    double forms;      /**< a m2 */
    double fixed;
} ss_sizing_prices;

typedef struct ss_sizing {
    bool given; /**< the description has a group `sizing`; else all below are its defaults */
    ss_sizing_target targets[SS_SIZING_TARGETS];
    int target_count; /**< 1 at least */
    double thickness[SS_SIZING_VALUES], strength[SS_SIZING_VALUES], pitch[SS_SIZING_VALUES]; /**< m, Pa, m */
    int thickness_count, strength_count, pitch_count; /**< of the last two 0: that of the slab */
    ss_sizing_set sets[SS_SIZING_SETS];
    int set_count; /**< 0: that of the slab */
    ss_sizing_shoring shoring;
    bool priced; /**< some price is given */
    ss_sizing_prices prices;
    ss_sizing_other others[SS_SIZING_OTHERS];
    int other_count;
    bool others_given; /**< false: every variant without the slab */
} ss_sizing;

#endif
