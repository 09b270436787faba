/* command_report.c - sillspan report: a rating as a page. */
#include "cli/batch.h"
#include "cli/run.h"

int ss_command_report(const ss_invocation *asked) {
    if (ss_batch_asked(asked)) {
        ss_run_print_error(asked->file, "is a folder; \"report\" is of one bridge");
        return SS_EXIT_FILE;
    }
    return ss_deliver_can(asked) ? ss_run_command(asked, SS_RUN_RATING) : SS_EXIT_USAGE;
}
