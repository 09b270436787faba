/* description.h - the user's text as a tree of located values, the key table, and reading with defaults. */
#ifndef SILLSPAN_DESCRIPTION_H
#define SILLSPAN_DESCRIPTION_H

#include <stdbool.h>
#include <stdint.h>

#include "sillspan/diag.h"
#include "sillspan/text.h"
#include "sillspan/units.h"

/** Bounds that ss_description_check enforces, so that no description can exhaust the program. */
#define SS_DESCRIPTION_NAME 80      /**< most characters of a name */
#define SS_DESCRIPTION_TEXT 2000    /**< most bytes of any text */
#define SS_DESCRIPTION_VALUES 500   /**< most quantities in one comma list */
#define SS_DESCRIPTION_ITEMS 10000  /**< most items in one list */
#define SS_DESCRIPTION_VARIANTS 100 /**< most variants */
#define SS_DESCRIPTION_FAULTS 1000  /**< most faults listed; one more says that there are others */

/* ---- values as written -------------------------------------------------------------------------- */

typedef enum ss_node_kind {
    SS_NODE_GROUP,   /**< { key = value; } */
    SS_NODE_LIST,    /**< ( ... ) or [ ... ] */
    SS_NODE_TEXT,    /**< "..." */
    SS_NODE_INTEGER, /**< 12 */
    SS_NODE_REAL,    /**< 0.85 */
    SS_NODE_FLAG     /**< true or false */
} ss_node_kind;

/** One value and its place. Lives in the description's arena. */
typedef struct ss_node {
    ss_node_kind kind;
    const char *name; /**< NULL for an item of a list and for the root */
    ss_where where;
    const char *text;       /**< SS_NODE_TEXT only */
    double number;          /**< SS_NODE_INTEGER and SS_NODE_REAL */
    bool flag;              /**< SS_NODE_FLAG */
    int count;              /**< children of a group or list */
    struct ss_node *parent; /**< NULL for the root */
    struct ss_node *first, *last, *next;
} ss_node;

typedef struct ss_description {
    ss_node *root;   /**< a group */
    uint64_t digest; /**< FNV-1a (64 bit) over the bytes read, includes too, in the order of reading */
    ss_arena arena;
} ss_description;

/** An empty group as root. */
ss_status ss_description_init(ss_description *description);
void ss_description_destroy(ss_description *description);
/** A copy of its own; the file names in its places still belong to `from`. Values at the top called as one of
 * the words of `skip` ("probes|cases", may be NULL) are left out. */
ss_status ss_description_copy(const ss_description *from, const char *skip, ss_description *out);

/** Adds a child to a group or list; name NULL in a list. NULL when there is no memory. */
ss_node *ss_node_add(ss_description *description, ss_node *parent, ss_node_kind kind, const char *name,
                     ss_where where);

/** The child called `name`, or NULL. */
const ss_node *ss_node_child(const ss_node *group, const char *name);

/** The i-th child, or NULL. */
const ss_node *ss_node_item(const ss_node *list, int i);

/** The list item (group) whose "name" text is `name`, or NULL. */
const ss_node *ss_node_named(const ss_node *list, const char *name);

/**
 * Sets one value, `path` with names in it: "bridge.bearings.ends.gap", "rating.adtt", "steels.car steel.fy".
 * List items are chosen by their name (or index from 1). `value` is read as a number, true/false, or else
 * text. Groups on the way that do not exist are made. A path that the key table does not know, or a list item
 * that does not exist, is a fault in `diags` with the nearest right word.
 */
ss_status ss_description_set(ss_description *description, const char *path, const char *value,
                             ss_diag_list *diags);

/** What a path names. */
typedef struct ss_key_found {
    const struct ss_key *key;
    const ss_node *node; /**< the value as described, or NULL */
} ss_key_found;

/** Looks up what ss_description_set would set. A fault stands at `where` under the key path `said` and begins
 * with the path that was looked up. */
ss_status ss_description_find(const ss_description *description, const char *path, ss_where where,
                              const char *said, ss_key_found *out, ss_diag_list *diags);
/**
 * What `base` becomes when an item of its list `variants` is put over it: groups merge key by key; items of
 * lists whose items have names are matched by their names and merged, one that `base` does not have is added
 * at the end; all other values take the place of what was there. `out` has no variants; its values keep the
 * place where they were written. Faults in `diags`: an item that is put aside (in_use = false) but not there,
 * an added one without the keys that it needs; both name the nearest item. SS_ERROR_DESCRIPTION then, and
 * `out` is not written. Both should be free of faults by ss_description_check. The file names in its places
 * still belong to `base`.
 */
ss_status ss_description_merge(const ss_description *base, const ss_node *variant, ss_description *out,
                               ss_diag_list *diags);

/** Merges and checks: a sound description of its own, or all its faults, each where the variant has it. */
ss_status ss_description_vary(const ss_description *base, const ss_node *variant, ss_description *out,
                              ss_diag_list *diags);

/** Copies what was said of a merged description; where the variant itself holds what it is about, the key
 * path becomes that of the variant: "variants.ends only.bridge.bearings.shims.gap". `variant` may be NULL. */
ss_status ss_description_locate(const ss_node *variant, const ss_diag_list *from, ss_diag_list *to);

/** Adds what a variant changes, "bridge.bearings.pads.in_use = false; ..."; nothing for one that changes
 * nothing. */
ss_status ss_description_changes(const ss_node *variant, ss_text *out);

/** The list `variants`; NULL: there are none. */
const ss_node *ss_description_variants(const ss_description *description);

/** Whether something is put aside by in_use = false that ss_bridge_resolve leaves out by itself: anything but
 * bearings and findings. */
bool ss_description_has_unused(const ss_description *description);
/** Drops it from the tree. */
void ss_description_drop_unused(ss_description *description);

/* ---- the key table ------------------------------------------------------------------------------ */

/** The first step of the pipe that a key affects; a study restarts there. */
typedef enum ss_stage {
    SS_STAGE_PRINT,      /**< titles, display units */
    SS_STAGE_MESH,       /**< geometry, stiffness */
    SS_STAGE_SPRINGS,    /**< joints and bearings: an update of the factored grillage */
    SS_STAGE_PERMANENT,  /**< dead load, gaps, stages */
    SS_STAGE_PLACEMENTS, /**< trucks, roadway, cases, probes */
    SS_STAGE_RATING      /**< factors, resistance */
} ss_stage;

typedef enum ss_key_kind {
    SS_KEY_GROUP,
    SS_KEY_LIST,       /**< list of groups */
    SS_KEY_TEXT,       /**< free text */
    SS_KEY_NAME,       /**< defines a name: not empty, unique in its list, no '.', '[', ']' or '=' */
    SS_KEY_REFERENCE,  /**< one name defined elsewhere (`choices` says where, for people) */
    SS_KEY_REFERENCES, /**< list of such names */
    SS_KEY_CHOICE,     /**< one of `choices` */
    SS_KEY_QUANTITY,   /**< one number with its unit (a bare number for SS_DIM_NUMBER) */
    SS_KEY_QUANTITIES, /**< one text with a comma list, or a list of numbers for SS_DIM_NUMBER */
    SS_KEY_CHOICE_OR_QUANTITY,
    SS_KEY_INTEGER,
    SS_KEY_FLAG,
    SS_KEY_ANY, /**< a value of a key that another key names: a text, a number or a flag */
    SS_KEY_ANYS /**< several of them: one text with commas, or a list */
} ss_key_kind;

typedef struct ss_key {
    const char *path; /**< "cars[].lines[].depth_along[].x" */
    ss_key_kind kind;
    ss_dimension dimension;
    bool required; /**< in every group where it belongs (conditional needs are checked when resolving) */
    const char *fallback;     /**< the default as one would write it, or NULL: no default */
    const char *choices;      /**< "closed|open|battened", or what a reference names */
    const char *least, *most; /**< limits as written, or NULL: outside is a fault. A leading '>' or '<'
                                 excludes the limit itself */
    const char *likely_least, *likely_most; /**< outside is a warning */
    ss_stage stage;
    const char *help; /**< one sentence, also in the documentation */
} ss_key;

/** All keys in the order of the documentation. */
const ss_key *ss_keys(int *count);

/** The key of exactly this table path, or NULL. */
const ss_key *ss_key_find(const char *path);

/** Walks the whole tree against the table: unknown keys with the nearest right word, kinds, dimensions,
 * limits, choices, missing required keys, names repeated in one list. Adds every fault and warning;
 * SS_ERROR_DESCRIPTION when there is any fault. */
ss_status ss_description_check(const ss_description *description, ss_diag_list *diags);

/* ---- reading with defaults ---------------------------------------------------------------------- */

/** A default that was used. */
typedef struct ss_assumption {
    const char *path;  /**< with names: "bridge.bearings.ends.gap" */
    const char *value; /**< as one would write it: "0 in" */
    const char *why;   /**< the key's help, or a better reason */
} ss_assumption;

typedef struct ss_assumption_list {
    ss_assumption *items; /**< exact repeats are kept once */
    int count, capacity;
    ss_arena arena;
} ss_assumption_list;

ss_status ss_assumption_add(ss_assumption_list *list, const char *path, const char *value, const char *why);
void ss_assumption_destroy(ss_assumption_list *list);

/** What the functions below share. A failed allocation is kept in `status`; they then do nothing. */
typedef struct ss_reading {
    const ss_description *description;
    ss_diag_list *diags;
    ss_assumption_list *assumptions;
    ss_status status;
} ss_reading;

/**
 * The value at `key` (a name inside `group`), whose row in the table is `table_path`; for instance
 * ss_read_quantity(r, bearing, "bridge.bearings[].gap", &gap). If it is not given and the table has a
 * fallback, that is taken and noted as an assumption (`group_path`, found from the tree, with names). Returns
 * false, `*out` untouched, when absent without fallback or faulty (the fault was reported by
 * ss_description_check, and is not repeated). `group` may be NULL (an absent optional group: fallbacks are
 * then used too).
 */
bool ss_read_quantity(ss_reading *r, const ss_node *group, const char *table_path, double *out);
/** At most `capacity` values (0 on absence). */
int ss_read_quantities(ss_reading *r, const ss_node *group, const char *table_path, double *out,
                       int capacity);
bool ss_read_text(ss_reading *r, const ss_node *group, const char *table_path, const char **out);
bool ss_read_flag(ss_reading *r, const ss_node *group, const char *table_path, bool *out);
bool ss_read_integer(ss_reading *r, const ss_node *group, const char *table_path, int *out);
/** Index of the choice in the table's `choices`; -1 when it is the quantity of a SS_KEY_CHOICE_OR_QUANTITY,
 * then in *quantity (may be NULL); -2 when absent without fallback or faulty. */
int ss_read_choice(ss_reading *r, const ss_node *group, const char *table_path, double *quantity);
/** Same, but no fallback is used and nothing is noted: was it written? */
bool ss_read_given(const ss_node *group, const char *key);

/** Path of `node` with names, "bridge.bearings.ends", in the reading's arena ("" for the root). NULL when
 * there is no memory. */
const char *ss_read_path(ss_reading *r, const ss_node *node);

/** A fault or warning about `node` or, with `key`, about that key in the group (its place if it is written,
 * else the group's). */
#if defined(__GNUC__)
__attribute__((format(printf, 5, 6)))
#endif
void ss_read_complain(ss_reading *r, ss_severity severity, const ss_node *node, const char *key, const char *format, ...);

#endif
