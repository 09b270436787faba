/* key_tree.h - the key table seen as a tree: which keys belong in which group. */
#ifndef SS_MODEL_KEY_TREE_H
#define SS_MODEL_KEY_TREE_H

#include "sillspan/description.h"
#include "sillspan/text.h"

/** No group of the table has more keys than this (a test counts them). */
#define SS_KEY_SIBLINGS 40

/** Last part of `path`: "depth" of "cars[].lines[].depth". */
const char *ss_key_leaf(const char *path);

/** Whether `parent` is the list of variants: its items may hold what a whole description may, but no
 * variants.
 */
bool ss_key_is_variants(const ss_key *parent);

/** Whether `key` stands directly in the group (or in each item of the list) `parent`; NULL is the whole file.
 */
bool ss_key_is_child(const ss_key *key, const ss_key *parent);

/** The row of the key called `name` there, or NULL. */
const ss_key *ss_key_child(const ss_key *parent, const char *name);

/** Fills `names` (SS_KEY_SIBLINGS of them) with the keys allowed there and returns how many. */
int ss_key_children(const ss_key *parent, const char **names);

/** Adds "unknown key; did you mean section?", or all the keys that are allowed there. */
void ss_key_unknown(const ss_key *parent, const char *name, ss_text *message);

#endif
