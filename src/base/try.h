/* try.h - leaving a function through its `done:` label at the first failure. */
#ifndef SS_BASE_TRY_H
#define SS_BASE_TRY_H

#include "sillspan/status.h"

/**
 * Evaluates `expression` into a local `ss_status status` and goes to the local label `done` unless it is
 * SS_OK. A function that uses it declares `ss_status status = SS_OK;` first, frees at `done:` whatever it
 * still owns, and ends with `return status;`. The jump is the macro's whole purpose, so nothing else may hide
 * in it.
 */
#define SS_TRY(expression)                                                                                   \
    do {                                                                                                     \
        status = (expression);                                                                               \
        if (status != SS_OK) {                                                                               \
            goto done;                                                                                       \
        }                                                                                                    \
    } while (0)

#endif
