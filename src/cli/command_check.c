/* command_check.c - sillspan check. */
#include "cli/run.h"

int ss_command_check(const ss_invocation *asked) {
    return ss_run_command(asked, SS_RUN_GRILLAGE);
}
