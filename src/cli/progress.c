/* progress.c - one line on the terminal that is overwritten, and erased at the end. */
#define _POSIX_C_SOURCE 200809L

#include "cli/progress.h"

#include <stdio.h>
#include <unistd.h>

ss_progress ss_progress_begin(bool quiet) {
    return (ss_progress){.shown = !quiet && isatty(STDERR_FILENO) == 1, .what = "", .last = -1};
}

void ss_progress_bridges(ss_progress *progress, int done, int of) {
    if (progress->shown) {
        progress->last = done;
        fprintf(stderr, "\r%d of %d bridges are done", done, of);
        fflush(stderr);
    }
}

void ss_progress_number(ss_progress *progress, int number, int of) {
    progress->number = number;
    progress->of = of;
}

void ss_progress_stage(ss_progress *progress, const char *what) {
    progress->what = what;
    progress->last = -1;
    ss_progress_show(progress, 0.0);
}

void ss_progress_show(void *context, double done) {
    ss_progress *progress = context;
    const int percent = done >= 1.0 ? 100 : done > 0.0 ? (int)(100.0 * done) : 0;
    if (!progress->shown || percent == progress->last) {
        return;
    }
    progress->last = percent;
    if (progress->of > 0) {
        fprintf(stderr, "\r%s%s%d of %d, ", progress->noun == NULL ? "" : progress->noun,
                progress->noun == NULL ? "" : " ", progress->number, progress->of);
    } else {
        fputc('\r', stderr);
    }
    fprintf(stderr, "%-24s %3d %%", progress->what, percent);
    fflush(stderr);
}

void ss_progress_step(void *context, const char *what, double done) {
    ss_progress *const progress = context;
    if (progress->what != what) {
        ss_progress_stage(progress, what);
    }
    ss_progress_show(progress, done);
}

void ss_progress_end(ss_progress *progress) {
    if (progress->shown && progress->last >= 0) {
        /* Blanks rather than an escape sequence: any terminal understands them. */
        fprintf(stderr, "\r%-60s\r", "");
        fflush(stderr);
    }
    progress->last = -1;
}
