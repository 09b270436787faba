/* names.h - names that outlive the bridge that they were read from. */
#ifndef SS_STUDIES_NAMES_H
#define SS_STUDIES_NAMES_H

#include <stdbool.h>
#include <string.h>

#include "sillspan/memory.h"

/** The same text, or both NULL. */
static inline bool ss_same_name(const char *a, const char *b) {
    return a == b || (a != NULL && b != NULL && strcmp(a, b) == 0);
}

/** Makes *name, which may be NULL, a copy in the arena; false without memory. */
static inline bool ss_keep_name(ss_arena *arena, const char **name) {
    if (*name != NULL) {
        *name = ss_arena_text(arena, *name, strlen(*name));
        return *name != NULL;
    }
    return true;
}

#endif
