/* command_analyze.c - sillspan analyze. */
#include "cli/run.h"

int ss_command_analyze(const ss_invocation *asked) {
    return ss_run_command(asked, SS_RUN_ANALYSIS);
}
