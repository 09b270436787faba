/* run.h - the pipe from a file to results, shared by the commands. */
#ifndef SS_CLI_RUN_H
#define SS_CLI_RUN_H

#include "cli/options.h"
#include "cli/progress.h"
#include "sillspan/fatigue.h"
#include "sillspan/joint_out.h"
#include "sillspan/moving.h"
#include "sillspan/report.h"
#include "sillspan/reruns.h"
#include "sillspan/text.h"

/** How far a command goes; each one includes those before it. */
typedef enum ss_extent { SS_RUN_GRILLAGE, SS_RUN_ANALYSIS, SS_RUN_RATING } ss_extent;

/** Everything that one run makes; a zeroed struct is empty. */
typedef struct ss_pipe {
    ss_diag_list diags;
    ss_description base;        /**< as written, with its variants */
    ss_description description; /**< what is looked at */
    ss_variant whole;
    bool abreast; /**< an analysis has trucks abreast too */
    ss_envelope envelope;
    ss_envelope along;      /**< of the lines that figures have, under one truck */
    ss_ratings rated_along; /**< place by place; likewise */
    ss_share_list shares;
    ss_case_list cases;
    bool posted; /**< some method was rated that the bridge can be posted by */
    ss_posting posting;
    ss_joint_out joint_out;
    ss_reruns reruns;           /**< of the rating, with the bridge changed */
    ss_fatigue_results fatigue; /**< of described details */
    ss_arena slab_arena;        /**< of what follows of a slab */
    ss_slab_checks slab_checks;
    ss_slab_connectors slab_connectors;
    ss_slab_across slab_across;
    ss_slab_casting casting;
    ss_moving moving;    /**< of a page */
    ss_error not_moving; /**< status SS_OK: nothing kept it from being made */
    ss_progress progress;
} ss_pipe;

/** Reads, computes, reports and writes; faults and failures go to standard error. Returns the exit status. */
int ss_run_command(const ss_invocation *asked, ss_extent reach);

/** The exit status of one bridge by itself. */
int ss_exit_of(ss_status status);
/** Appends faults, and unless `quiet` warnings, sorted; their number after them, with `file` unless it is
 * NULL. */
void ss_run_say_diags(ss_pipe *pipe, const char *file, bool quiet, ss_text *out);
/** Appends "sillspan: file: text" and a line end; `file` may be NULL. */
void ss_run_say_error(const char *file, const char *text, ss_text *out);
/** To standard error, and frees it. */
void ss_run_print_said(ss_text *said);
/** The same of one bridge by itself, to standard error. */
void ss_run_print_diags(ss_pipe *pipe, bool quiet);
/** Faults, and unless `quiet` warnings, of any list to standard error, sorted. */
void ss_run_print_list(ss_diag_list *diags, bool quiet);
/** "sillspan: file: text" to standard error; `file` may be NULL. */
void ss_run_print_error(const char *file, const char *text);
/** What the pipe has computed as far as `reach`; points into it. */
ss_results ss_run_results(const ss_pipe *pipe, const ss_invocation *asked, ss_extent reach);

/** Reads the file, applies --set, checks and resolves. SS_ERROR_DESCRIPTION: faults are in pipe->diags. */
ss_status ss_pipe_read(ss_pipe *pipe, const ss_invocation *asked, ss_extent reach, ss_error *error);
/** What a rating needs and no one may guess; faults otherwise. */
ss_status ss_pipe_check_rating(const ss_description *description, const ss_bridge *bridge,
                               ss_diag_list *diags);
/** Mesh to ratings, as far as `reach`. */
ss_status ss_pipe_compute(ss_pipe *pipe, ss_extent reach, ss_error *error);
/** The rating again, with the bridge changed: findings put aside, weak members, a cut girder. */
ss_status ss_pipe_rerun(ss_pipe *pipe, const ss_invocation *asked, ss_error *error);
/** Lives of the details described, if any. */
ss_status ss_pipe_fatigue(ss_pipe *pipe, ss_error *error);
/** How a slab is cast, what it does across, its connectors and checks, if there is one. */
ss_status ss_pipe_slab(ss_pipe *pipe, ss_error *error);
/** One truck over the bridge, for moment, shear or deflection of the lines that figures have (cli/drawn.h),
 * into pipe->along. What is before it in the pipe must be computed. `kinds` of `count`. */
ss_status ss_pipe_along(ss_pipe *pipe, const ss_invocation *asked, const ss_effect_kind *kinds, int count,
                        ss_error *error);
/** Ratings and posting alone, from the mesh on, for a figure. */
ss_status ss_pipe_rate(ss_pipe *pipe, ss_error *error);
/** Factors of main and edge girders place by place under the truck that each rates least under, after the
 * ratings, into pipe->rated_along. */
ss_status ss_pipe_rate_along(ss_pipe *pipe, const ss_invocation *asked, ss_error *error);
/** What the part of a page needs on which a truck is moved; what keeps it from that is told on the page. */
ss_status ss_pipe_moving(ss_pipe *pipe, ss_error *error);
void ss_pipe_destroy(ss_pipe *pipe);

/** Whether the report has the table that --table names, if one is named; else says which there are. */
bool ss_deliver_has_table(const ss_invocation *asked, const ss_report *report);
/** Whether what is asked can be written: not to a terminal what is no text, and nothing that this build
 * leaves out. Else says why. */
bool ss_deliver_can(const ss_invocation *asked);
/** Writes a text whole where the results go: standard output, or the file of --output. */
ss_status ss_deliver_text(const ss_invocation *asked, const ss_text *text, ss_error *error);
/** Writes a text whole into a file that is not the description itself. */
ss_status ss_deliver_to(const ss_invocation *asked, const char *path, const ss_text *text, ss_error *error);
/** Writes the report where it was asked for. */
ss_status ss_deliver(const ss_invocation *asked, const ss_report *report, ss_error *error);

#endif
