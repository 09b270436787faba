/* resolve_unknown.h - what the parts of reading the unknowns share. */
#ifndef SS_MODEL_RESOLVE_UNKNOWN_H
#define SS_MODEL_RESOLVE_UNKNOWN_H

#include "model/resolve.h"

/** An unknown while it is read. */
typedef struct ss_unknown_item {
    const ss_node *node;
    const ss_key *key; /**< what its paths name */
    ss_unknown *unknown;
    const char *described; /**< a word that is described, or NULL */
} ss_unknown_item;

/** One value at the key `name` of the item, as `as` takes it; false when absent or faulty (a fault). */
bool ss_unknown_read(ss_resolve *c, const ss_unknown_item *item, const char *name, const ss_key *as,
                     double *out);

/** The range, distribution or values; false on a fault. */
bool ss_unknown_read_values(ss_resolve *c, ss_unknown_item *item);
bool ss_unknown_read_discrete(ss_resolve *c, ss_unknown_item *item);

/** Whether `path`, which names `key`, and another path are values of which a description gives one. */
bool ss_unknown_rivals(const ss_key *key, const char *path, const char *other);

/** The list of correlations, once all unknowns are sound. */
void ss_unknown_read_correlations(ss_resolve *c);

#endif
