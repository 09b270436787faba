/* command_export.c - sillspan export: the model and its results, or an influence surface, as a VTK file. */
#include <string.h>

#include "base/try.h"
#include "cli/describe.h"
#include "cli/run.h"
#include "sillspan/memory.h"
#include "sillspan/write.h"

/* The probe that --influence names, or NULL, having said which there are. */
static const ss_probe *find_probe(const ss_bridge *bridge, const char *name) {
    enum { OFFERED = 40 };
    const char *names[OFFERED];
    for (int i = 0; i < bridge->probe_count; i++) {
        if (strcmp(bridge->probes[i].name, name) == 0) {
            return &bridge->probes[i];
        }
    }
    const int count = bridge->probe_count < OFFERED ? bridge->probe_count : OFFERED;
    for (int i = 0; i < count; i++) {
        names[i] = bridge->probes[i].name;
    }
    const char *const near = ss_text_nearest(name, names, count);
    ss_text line = {0};
    ss_text_add(&line, "no probe is called \"");
    ss_text_add_plain(&line, name);
    if (near != NULL) {
        ss_text_printf(&line, "\"; did you mean \"%s\"?", near);
    } else if (count > 0) {
        ss_text_printf(&line, "\"; one is \"%s\"", names[0]);
    } else {
        ss_text_add(&line, "\"; the description has none, and the keys of one can be given instead, such as "
                           "\"car=north; line=main girder; x=30 ft; effect=moment\"");
    }
    ss_run_print_error(NULL, line.failed ? "no such probe" : line.data);
    ss_text_destroy(&line);
    return NULL;
}

static ss_status influence(const ss_invocation *asked, ss_pipe *pipe, const ss_probe *probe, ss_grid *grid,
                           ss_error *error) {
    ss_status status = SS_OK;
    ss_influence surface = {0};
    const ss_effect effect = {.kind = probe->effect,
                              .member = probe->member,
                              .index = probe->index,
                              .at = probe->at,
                              .before = probe->before};
    SS_TRY(ss_variant_structure(&pipe->whole, error));
    SS_TRY(ss_permanent_compute(&pipe->whole.bridge, pipe->whole.grillage, &pipe->whole.permanent, error));
    SS_TRY(ss_influence_compute(&pipe->whole.permanent, &effect, &surface, error));
    const ss_results results = ss_run_results(pipe, asked, SS_RUN_GRILLAGE);
    SS_TRY(ss_grid_of_influence(&results, &surface, grid, error));
done:
    ss_influence_destroy(&surface);
    return status;
}

static ss_status model(const ss_invocation *asked, ss_pipe *pipe, ss_grid *grid, ss_error *error) {
    ss_status status = SS_OK;
    SS_TRY(ss_pipe_compute(pipe, SS_RUN_ANALYSIS, error));
    const ss_results results = ss_run_results(pipe, asked, SS_RUN_ANALYSIS);
    SS_TRY(ss_grid_of_model(&results, grid, error));
done:
    return status;
}

static ss_status write_grid(const ss_invocation *asked, const ss_pipe *pipe, const ss_grid *grid,
                            ss_error *error) {
    ss_text text = {0};
    const ss_unit_system units = asked->units_given ? asked->units : pipe->whole.bridge.units;
    ss_status status = ss_write_vtu(grid, units, &text, error);
    if (status == SS_OK) {
        status = ss_deliver_text(asked, &text, error);
    }
    ss_text_destroy(&text);
    return status;
}

int ss_command_export(const ss_invocation *asked) {
    ss_pipe pipe = {.progress = ss_progress_begin(asked->quiet)};
    ss_error error = {0};
    ss_grid grid = {0};
    const ss_probe *probe = NULL;
    ss_status status = ss_pipe_read(&pipe, asked, SS_RUN_ANALYSIS, &error);
    ss_run_print_diags(&pipe, asked->quiet);
    if (status == SS_OK && asked->influence != NULL) {
        probe = find_probe(&pipe.whole.bridge, ss_describe_probe(asked));
    }
    const bool misnamed = status == SS_OK && asked->influence != NULL && probe == NULL;
    if (status == SS_OK && !misnamed) {
        status = probe != NULL ? influence(asked, &pipe, probe, &grid, &error)
                               : model(asked, &pipe, &grid, &error);
    }
    if (status == SS_OK && !misnamed) {
        status = write_grid(asked, &pipe, &grid, &error);
    }
    if (status != SS_OK && (status != SS_ERROR_DESCRIPTION || pipe.diags.faults == 0)) {
        ss_run_print_error(NULL, error.message[0] != '\0' ? error.message : ss_status_text(status));
    }
    ss_grid_destroy(&grid);
    ss_pipe_destroy(&pipe);
    return misnamed ? SS_EXIT_USAGE : ss_exit_of(status);
}
