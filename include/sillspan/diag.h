/* diag.h - faults and remarks about the user's text, each with its place. */
#ifndef SILLSPAN_DIAG_H
#define SILLSPAN_DIAG_H

#include "sillspan/memory.h"
#include "sillspan/status.h"

/** Where something was written. `file` may be NULL (set from the command line); line 0 is unknown. */
typedef struct ss_where {
    const char *file;
    int line;
} ss_where;

typedef enum ss_severity { SS_FAULT = 0, SS_WARNING = 1 } ss_severity;

typedef struct ss_diag {
    ss_severity severity;
    ss_where where;
    const char *path;    /**< key path, "bridge.bearings.ends.gap"; "" for the whole file */
    const char *message; /**< "what was found; what is allowed" */
} ss_diag;

/** A zeroed struct is an empty list. Owns copies of all its text. */
typedef struct ss_diag_list {
    ss_diag *items; /**< in the order of discovery (size count) */
    int count;
    int capacity;
    int faults;   /**< how many of them are faults */
    int warnings; /**< how many of them are warnings */
    ss_arena arena;
} ss_diag_list;

/** Adds one remark; only fails for lack of memory. */
#if defined(__GNUC__)
__attribute__((format(printf, 5, 6)))
#endif
ss_status
ss_diag_add(ss_diag_list *list, ss_severity severity, ss_where where, const char *path, const char *format,
            ...);

/** Sorts by file and line, first found first among equals, and drops exact repeats. */
void ss_diag_sort(ss_diag_list *list);

void ss_diag_destroy(ss_diag_list *list);

#endif
