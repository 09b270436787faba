/* stop.c - an interrupt that lets a long run end with what is finished. */
#define _XOPEN_SOURCE 700

#include "cli/stop.h"

#include <signal.h>
#include <stddef.h>
#include <unistd.h>

static const int signals[] = {SIGINT, SIGTERM};

/* A handler can tell of itself in no other way. */
static volatile sig_atomic_t asked;

static const char words[] =
    "\nsillspan: interrupted; what is at work is finished first, once more ends at once\n";

static void ask(int number) {
    (void)number;
    asked = 1;
    /* Nothing is left to do where even that fails. */
    const ssize_t written = write(STDERR_FILENO, words, sizeof words - 1);
    (void)written;
}

static void handle(void (*from)(int), void (*to)(int), int flags) {
    for (size_t i = 0; i < sizeof signals / sizeof signals[0]; i++) {
        struct sigaction old;
        struct sigaction now = {.sa_handler = to, .sa_flags = flags};
        sigemptyset(&now.sa_mask);
        if (sigaction(signals[i], NULL, &old) == 0 && old.sa_handler == from) {
            sigaction(signals[i], &now, NULL);
        }
    }
}

void ss_stop_begin(void) {
    asked = 0;
    handle(SIG_DFL, ask, SA_RESTART | (int)SA_RESETHAND);
}

bool ss_stop_asked(void) {
    return asked != 0;
}

bool ss_stop_wanted(void *context) {
    (void)context;
    return ss_stop_asked();
}

void ss_stop_end(void) {
    handle(ask, SIG_DFL, 0);
}
