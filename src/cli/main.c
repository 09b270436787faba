/* main.c - the command sillspan. */
#define _POSIX_C_SOURCE 200809L

#include <signal.h>
#include <stdio.h>

#include "cli/batch.h"
#include "cli/ranks.h"
#include "sillspan/memory.h"

/* Help and versions are results too: a full disk or a closed pipe is told. */
static int finish(void) {
    if (fflush(stdout) != 0 || ferror(stdout)) {
        fputs("sillspan: cannot write to standard output\n", stderr);
        return SS_EXIT_FILE;
    }
    return SS_EXIT_DONE;
}

/* Whether processes beside the first have something to do. */
static bool shares_work(const ss_invocation *asked) {
    return asked->command != NULL && !asked->help && !asked->version &&
           (asked->command->bit == SS_IN_SAMPLE ||
            (asked->command->operands == SS_TAKES_BRIDGES && ss_batch_asked(asked)));
}

int main(int argc, char **argv) {
    ss_invocation asked;
    ss_usage_error error = {{0}};
    ss_error cause = {0};
    const ss_workers *workers = NULL;
    int status = SS_EXIT_DONE;
    /* A reader that goes away is then an error of writing, with a message and an exit status of its own. */
    signal(SIGPIPE, SIG_IGN);
    if (ss_ranks_begin(&workers, &cause) != SS_OK) {
        fprintf(stderr, "sillspan: %s\n", cause.message);
        return SS_EXIT_USAGE;
    }
    const bool parsed = ss_options_parse(argc, argv, &asked, &error);
    asked.workers = workers;
    if (workers != NULL && workers->rank > 0 && !(parsed && shares_work(&asked))) {
        status = SS_EXIT_DONE; /* the first process does it */
    } else if (!parsed) {
        fprintf(stderr, "sillspan: %s\nsillspan: \"sillspan help%s%s\" tells what there is\n", error.message,
                asked.command == NULL ? "" : " ", asked.command == NULL ? "" : asked.command->name);
        status = SS_EXIT_USAGE;
    } else if (asked.version) {
        ss_version_print();
        status = finish();
    } else if (asked.help) {
        ss_help_print(asked.command);
        status = finish();
    } else {
        status = asked.command->run(&asked);
    }
    ss_free(asked.sets);
    ss_free(asked.withs);
    ss_free(asked.unknowns);
    ss_free(asked.files);
    ss_ranks_end(workers);
    return status;
}
