/* command_draw.c - sillspan draw: one figure of a bridge as SVG, PDF or PNG. */
#include "base/try.h"
#include "cli/deliver_figure.h"
#include "cli/run.h"

typedef ss_status figure_maker(const ss_results *results, ss_unit_system units, ss_figure *out,
                               ss_error *error);

/* In the order of the choices of --figure. */
static const struct {
    figure_maker *make;
    bool driven; /* needs trucks, for one kind of effect */
    ss_effect_kind kind;
} makers[] = {
    {ss_figure_plan, false, SS_EFFECT_MOMENT},      {ss_figure_section, false, SS_EFFECT_MOMENT},
    {ss_figure_elevation, false, SS_EFFECT_MOMENT}, {ss_figure_moment, true, SS_EFFECT_MOMENT},
    {ss_figure_shear, true, SS_EFFECT_SHEAR},       {ss_figure_deflection, true, SS_EFFECT_DEFLECTION},
};

static ss_status draw(const ss_invocation *asked, ss_pipe *pipe, ss_error *error) {
    const bool driven = makers[asked->figure].driven;
    const ss_unit_system units = asked->units_given ? asked->units : pipe->whole.bridge.units;
    ss_figure figure = {0};
    ss_text text = {0};
    ss_status status = SS_OK;
    if (driven) {
        SS_TRY(ss_variant_structure(&pipe->whole, error));
        SS_TRY(ss_variant_loads(&pipe->whole, error));
        SS_TRY(ss_pipe_along(pipe, &makers[asked->figure].kind, 1, error));
    }
    const ss_results results = ss_run_results(pipe, asked, driven ? SS_RUN_ANALYSIS : SS_RUN_GRILLAGE);
    SS_TRY(makers[asked->figure].make(&results, units, &figure, error));
    SS_TRY(ss_figure_write(&figure, asked->format, asked->dots, &text, error));
    SS_TRY(ss_deliver_text(asked, &text, error));
done:
    ss_text_destroy(&text);
    ss_figure_destroy(&figure);
    return status;
}

int ss_command_draw(const ss_invocation *asked) {
    if (!ss_deliver_can(asked)) {
        return SS_EXIT_USAGE;
    }
    ss_pipe pipe = {.progress = ss_progress_begin(asked->quiet)};
    ss_error error = {0};
    ss_status status = ss_pipe_read(&pipe, asked, SS_RUN_GRILLAGE, &error);
    ss_run_print_diags(&pipe, asked->quiet);
    if (status == SS_OK) {
        status = draw(asked, &pipe, &error);
    }
    if (status != SS_OK && (status != SS_ERROR_DESCRIPTION || pipe.diags.faults == 0)) {
        ss_run_print_error(NULL, error.message[0] != '\0' ? error.message : ss_status_text(status));
    }
    ss_pipe_destroy(&pipe);
    return ss_exit_of(status);
}
