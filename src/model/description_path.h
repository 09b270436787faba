/* description_path.h - the key path of a node, with the names of list items in it; copying and replacing
 * nodes. */
#ifndef SS_MODEL_DESCRIPTION_PATH_H
#define SS_MODEL_DESCRIPTION_PATH_H

#include "sillspan/description.h"
#include "sillspan/text.h"

/** Empties `text` and keeps its memory. */
void ss_text_clear(ss_text *text);

/** Makes `node` of `out` what `from` is, its place and all it holds included; it keeps its name. False
 * without memory. */
bool ss_node_take(ss_description *out, ss_node *node, const ss_node *from);

/** False for a group that says in_use = false. */
bool ss_node_in_use(const ss_node *node);

/** The "name" text of an item, or NULL. */
const char *ss_node_label(const ss_node *item);

/** Adds "cars.flat 60.lines.2": an item without a name is counted from 1. Adds nothing for the root. */
void ss_node_path(const ss_node *node, ss_text *path);

/** As ss_node_path, and then the key `key` of that group (NULL: none). */
void ss_node_key_path(const ss_node *node, const char *key, ss_text *path);

#endif
