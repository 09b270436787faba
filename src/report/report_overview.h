/* report_overview.h - several bridges in one table: a row each, whatever became of it. */
#ifndef SS_REPORT_OVERVIEW_H
#define SS_REPORT_OVERVIEW_H

#include "sillspan/report.h"
#include "sillspan/text.h"

/** What became of one bridge. */
typedef enum ss_outcome {
    SS_OUTCOME_DONE,
    SS_OUTCOME_NOT_MET, /**< done; what is required is not met */
    SS_OUTCOME_FAULTS,  /**< the description has faults */
    SS_OUTCOME_FAILED,  /**< the analysis failed */
    SS_OUTCOME_FILE,    /**< the file cannot be read */
    SS_OUTCOME_INTERNAL,
    SS_OUTCOME_NOT_RUN /**< the run was interrupted before its turn */
} ss_outcome;

/** One row; texts live in the overview's arena. Values are NaN, and texts NULL, where there is none. */
typedef struct ss_overview_row {
    const char *file, *title;
    ss_outcome outcome;
    const char *says; /**< the first fault, why it failed, or what to look at */
    int faults, warnings, cars;
    double length;                       /**< from the first to the last end of any car, m */
    double moment, deflection, reaction; /**< largest sizes: live moment (N m) and deflection (m) of a line,
                                            bearing reaction with dead load (N) */
    const char *truck;                   /**< that gives the moment; of a rating the one that governs */
    double rf, tons, x;                  /**< smallest factor; rf times gross weight in US tons; place (m) */
    const char *member, *failure;
} ss_overview_row;

typedef struct ss_overview {
    ss_overview_row *rows;
    int count, capacity;
    bool failed; /**< no memory; only the end need be checked */
    ss_arena arena;
} ss_overview;

/** What is known of one bridge when its row is made. */
typedef struct ss_overview_entry {
    const char *file, *title;
    ss_outcome outcome;
    const char *says;
    int faults, warnings;
    const ss_results *results; /**< NULL unless everything asked for was computed */
} ss_overview_entry;

/** Adds the row; everything is copied. */
void ss_overview_add(ss_overview *overview, const ss_overview_entry *entry);

/** Room for a further row, or NULL; whoever fills it raises the count. */
ss_overview_row *ss_overview_place(ss_overview *overview);

/** Appends the row as one line without its end; reading gives the same bits. */
void ss_overview_row_write(const ss_overview_row *row, ss_text *line);
/** False: the line is none of ours, or there is no memory. Texts live in the arena. */
bool ss_overview_row_read(const char *line, ss_arena *arena, ss_overview_row *out);
/** Adds a row that was written so. */
void ss_overview_add_line(ss_overview *overview, const char *line);

/** What an overview is made for. */
typedef struct ss_overview_head {
    const char *command; /**< "check", "analyze", "rate" */
    ss_unit_system units;
    double require; /**< NaN: nothing */
} ss_overview_head;

/** Builds the report; it may point into `overview`, which must outlive it. */
ss_status ss_overview_report(const ss_overview *overview, const ss_overview_head *head, ss_report *out,
                             ss_error *error);
void ss_overview_destroy(ss_overview *overview);

#endif
