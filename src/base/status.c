/* status.c - words for status values, and the filling of an ss_error. */
#include "sillspan/status.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const char *ss_status_text(ss_status status) {
    switch (status) {
    case SS_OK: return "done";
    case SS_ERROR_MEMORY: return "out of memory";
    case SS_ERROR_DESCRIPTION: return "the description has faults";
    case SS_ERROR_MECHANISM: return "the bridge is free to move";
    case SS_ERROR_TIPPING: return "the load tips the bridge";
    case SS_ERROR_CHECK: return "a result failed its own check";
    case SS_ERROR_NUMERIC: return "the computation did not succeed";
    case SS_ERROR_FILE: return "a file cannot be read or written";
    case SS_ERROR_LIMIT: return "larger than the program accepts";
    case SS_ERROR_INTERNAL: return "a fault of the program itself";
    }
    return "unknown status";
}

ss_status ss_error_set(ss_error *error, ss_status status, const char *format, ...) {
    if (error == NULL) {
        return status;
    }
    /* A message is often built around the one already there, so the old one is read before it is replaced. */
    char message[sizeof error->message];
    va_list arguments;
    va_start(arguments, format);
    const int length = vsnprintf(message, sizeof message, format, arguments);
    va_end(arguments);
    if (length < 0) {
        message[0] = '\0';
    }
    if (length >= (int)sizeof message) {
        size_t end = sizeof message - 4;
        /* Do not cut inside a UTF-8 character. */
        while (end > 0 && ((unsigned char)message[end] & 0xC0U) == 0x80U) {
            end--;
        }
        memcpy(message + end, "...", 4);
    }
    error->status = status;
    memcpy(error->message, message, sizeof message);
    return status;
}
