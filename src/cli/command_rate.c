/* command_rate.c - sillspan rate. */
#include "cli/run.h"

int ss_command_rate(const ss_invocation *asked) {
    return ss_run_command(asked, SS_RUN_RATING);
}
