/* compare_columns.h - the variants that `compare` is asked for, each as a description of its own. */
#ifndef SS_CLI_COMPARE_COLUMNS_H
#define SS_CLI_COMPARE_COLUMNS_H

#include "cli/options.h"
#include "sillspan/description.h"

/** One of them. */
typedef struct ss_compare_column {
    const char *name;           /**< in the arena */
    const char *changes;        /**< in the arena, or NULL: none */
    const ss_node *node;        /**< of a variant of the file, or NULL */
    const char *with;           /**< the values of --with, or NULL */
    ss_description description; /**< empty when it has faults */
    ss_status status;           /**< SS_OK, or SS_ERROR_DESCRIPTION */
    ss_diag_list diags;         /**< said of it; not what is said of the first one too */
} ss_compare_column;

typedef struct ss_compare_columns {
    ss_compare_column *items;
    int count;
    ss_arena arena;
} ss_compare_columns;

/**
 * The bridge as described first, then the variants of the file and those of --with. Each is merged, checked
 * and resolved once, so that all faults are known before anything is computed. Probes, cases and fatigue,
 * which are not compared, are left out. SS_ERROR_LIMIT: there is nothing to compare, or a name is given
 * twice; `error` says which. Descriptions must not outlive `base`.
 */
ss_status ss_compare_columns_make(const ss_invocation *asked, const ss_description *base,
                                  const ss_diag_list *said, ss_compare_columns *out, ss_error *error);
void ss_compare_columns_destroy(ss_compare_columns *columns);

#endif
