/* write_seen.h - which blocks of a report people see, and its title. */
#ifndef SS_WRITE_SEEN_H
#define SS_WRITE_SEEN_H

#include <stddef.h>

#include "sillspan/report.h"

static inline bool ss_block_seen(const ss_block *block) {
    return block->audience != SS_FOR_PROGRAMS;
}

/** The report's first heading is its title; NULL if there is none. */
static inline const ss_block *ss_report_title(const ss_report *report) {
    for (int i = 0; i < report->count; i++) {
        if (ss_block_seen(&report->blocks[i]) && report->blocks[i].kind == SS_BLOCK_HEADING) {
            return &report->blocks[i];
        }
    }
    return NULL;
}

#endif
