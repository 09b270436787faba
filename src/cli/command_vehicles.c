/* command_vehicles.c - sillspan vehicles: the built-in vehicles, listed or drawn. */
#include <stdio.h>

#include "cli/run.h"
#include "report/report_vehicles.h"
#include "sillspan/memory.h"
#include "sillspan/text.h"

static void complain(const char *name) {
    ss_text line = {0};
    ss_text_add(&line, "no vehicle is called \"");
    ss_text_add_plain(&line, name);
    const char *const nearest = ss_vehicle_nearest(name);
    ss_text_printf(&line, "\"%s%s", nearest == NULL ? "" : "; the nearest is ",
                   nearest == NULL ? "" : nearest);
    fprintf(stderr, "sillspan: %s\n", line.failed ? "no memory for a message" : line.data);
    ss_text_destroy(&line);
}

/* The vehicles that are named, or all. False when some name is none; every such name is told. */
static bool choose(const ss_invocation *asked, const ss_vehicle **chosen, int *count) {
    if (asked->file_count == 0) {
        const ss_vehicle *const all = ss_vehicles(count);
        for (int i = 0; i < *count; i++) {
            chosen[i] = &all[i];
        }
        return true;
    }
    bool known = true;
    for (*count = 0; *count < asked->file_count; (*count)++) {
        chosen[*count] = ss_vehicle_find(asked->files[*count]);
        if (chosen[*count] == NULL) {
            complain(asked->files[*count]);
            known = false;
        }
    }
    if (!known) {
        fputs("sillspan: \"sillspan vehicles\" lists all\n", stderr);
    }
    return known;
}

static int show(const ss_invocation *asked, const ss_vehicle_choice *choice) {
    ss_error error = {0};
    ss_report report = {0};
    const ss_unit_system units = asked->units_given ? asked->units : SS_UNITS_US;
    ss_status status = ss_report_vehicles(choice, units, &report, &error);
    bool misnamed = false;
    ss_invocation no_files = *asked; /* names of vehicles are no files that an output could overwrite */
    no_files.file_count = 0;
    if (status == SS_OK) {
        misnamed = !ss_deliver_has_table(asked, &report);
        status = misnamed ? SS_OK : ss_deliver(&no_files, &report, &error);
    }
    ss_report_destroy(&report);
    if (status != SS_OK) {
        fprintf(stderr, "sillspan: %s\n", error.message[0] != '\0' ? error.message : ss_status_text(status));
        return status == SS_ERROR_FILE ? SS_EXIT_FILE : SS_EXIT_INTERNAL;
    }
    return misnamed ? SS_EXIT_USAGE : SS_EXIT_DONE;
}

int ss_command_vehicles(const ss_invocation *asked) {
    int built_in = 0;
    (void)ss_vehicles(&built_in);
    const int most = built_in > asked->file_count ? built_in : asked->file_count;
    const ss_vehicle **const chosen = ss_alloc((size_t)most, sizeof *chosen);
    if (chosen == NULL) {
        fputs("sillspan: no memory left\n", stderr);
        return SS_EXIT_INTERNAL;
    }
    int count = 0;
    int exit = SS_EXIT_USAGE;
    if (choose(asked, chosen, &count)) {
        exit = show(asked, &(ss_vehicle_choice){chosen, count, asked->file_count > 0});
    }
    ss_free(chosen);
    return exit;
}
