/* status.h - what a function says of its own success, and one sentence about a failure. */
#ifndef SILLSPAN_STATUS_H
#define SILLSPAN_STATUS_H

#include <stddef.h>

/** Values are pinned: they are never renumbered, only added to. */
typedef enum ss_status {
    SS_OK = 0,
    SS_ERROR_MEMORY = 1,      /**< an allocation failed */
    SS_ERROR_DESCRIPTION = 2, /**< faults in the user's text; the ss_diag_list has them */
    SS_ERROR_MECHANISM = 3,   /**< the bridge, or part of it, is free to move */
    SS_ERROR_TIPPING = 4,     /**< no set of pressing bearings holds the load */
    SS_ERROR_CHECK = 5,       /**< a result failed its own check (equilibrium, finiteness) */
    SS_ERROR_NUMERIC = 6,     /**< a factorisation or an iteration failed */
    SS_ERROR_FILE = 7,        /**< a file cannot be read or written */
    SS_ERROR_LIMIT = 8,       /**< larger than the program accepts */
    SS_ERROR_INTERNAL = 70    /**< our own fault */
} ss_status;

/** A failure in one sentence, for people. `message` is always terminated. */
typedef struct ss_error {
    ss_status status;
    char message[480];
} ss_error;

/** A short fixed phrase for `status`, never NULL. */
const char *ss_status_text(ss_status status);

/** Fills `error` (which may be NULL) in the manner of printf and returns `status`. */
#if defined(__GNUC__)
__attribute__((format(printf, 3, 4)))
#endif
ss_status
ss_error_set(ss_error *error, ss_status status, const char *format, ...);

#endif
