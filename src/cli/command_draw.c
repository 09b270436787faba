/* command_draw.c - sillspan draw: one figure of a bridge as SVG, PDF or PNG. */
#include "base/try.h"
#include "cli/deliver_figure.h"
#include "cli/drawn.h"

typedef ss_status figure_maker(const ss_results *results, ss_unit_system units, ss_figure *out,
                               ss_error *error);

/* What a figure needs to be computed. */
typedef enum needs {
    NEEDS_BRIDGE, /* nothing */
    NEEDS_ALONG,  /* one truck over lines, for one kind of effect */
    NEEDS_SHARES, /* of bending */
    NEEDS_EFFECT, /* dead load, and a rating where nothing is asked for that governs */
    NEEDS_RATING,
    NEEDS_PLACES /* a rating, and factors place by place */
} needs;

/* In the order of the choices of --figure. */
static const struct {
    figure_maker *make;
    needs needs;
    ss_effect_kind kind;
} makers[] = {
    {ss_figure_plan, NEEDS_BRIDGE, SS_EFFECT_MOMENT},
    {ss_figure_section, NEEDS_BRIDGE, SS_EFFECT_MOMENT},
    {ss_figure_elevation, NEEDS_BRIDGE, SS_EFFECT_MOMENT},
    {ss_figure_moment, NEEDS_ALONG, SS_EFFECT_MOMENT},
    {ss_figure_shear, NEEDS_ALONG, SS_EFFECT_SHEAR},
    {ss_figure_deflection, NEEDS_ALONG, SS_EFFECT_DEFLECTION},
    {ss_figure_share, NEEDS_SHARES, SS_EFFECT_MOMENT},
    {ss_figure_rating, NEEDS_PLACES, SS_EFFECT_MOMENT},
    {ss_figure_influence, NEEDS_EFFECT, SS_EFFECT_MOMENT},
    {ss_figure_sign, NEEDS_RATING, SS_EFFECT_MOMENT},
};

static bool needs_rating(const ss_invocation *asked) {
    const needs what = makers[asked->figure].needs;
    return what >= NEEDS_RATING || (what == NEEDS_EFFECT && asked->of == NULL);
}

static ss_status compute(const ss_invocation *asked, ss_pipe *pipe, ss_text *misnamed, ss_effect *effect,
                         ss_error *error) {
    const needs what = makers[asked->figure].needs;
    ss_status status = SS_OK;
    if (what == NEEDS_BRIDGE) {
        return SS_OK;
    }
    if (needs_rating(asked)) {
        SS_TRY(ss_pipe_rate(pipe, error));
    } else {
        SS_TRY(ss_variant_structure(&pipe->whole, error));
        if (what == NEEDS_EFFECT ? !ss_drawn_effect(pipe, asked, effect, misnamed)
                                 : !ss_drawn_has_line(pipe, asked, misnamed)) {
            return SS_OK;
        }
        SS_TRY(ss_variant_loads(&pipe->whole, error));
    }
    if (what == NEEDS_ALONG || what == NEEDS_SHARES) {
        SS_TRY(ss_pipe_along(pipe, asked, &makers[asked->figure].kind, 1, error));
    }
    if (what == NEEDS_SHARES) {
        SS_TRY(ss_share_compute(&pipe->whole.permanent, &pipe->whole.placements, &pipe->along, &pipe->shares,
                                error));
    }
    if (what == NEEDS_PLACES) {
        SS_TRY(ss_pipe_rate_along(pipe, asked, error));
    }
done:
    return status;
}

static ss_extent reach_of(const ss_invocation *asked) {
    return needs_rating(asked)                           ? SS_RUN_RATING
           : makers[asked->figure].needs == NEEDS_BRIDGE ? SS_RUN_GRILLAGE
                                                         : SS_RUN_ANALYSIS;
}

static ss_status draw(const ss_invocation *asked, ss_pipe *pipe, ss_text *misnamed, ss_error *error) {
    const ss_unit_system units = asked->units_given ? asked->units : pipe->whole.bridge.units;
    ss_figure figure = {0};
    ss_text text = {0};
    ss_effect effect;
    ss_status status = SS_OK;
    SS_TRY(compute(asked, pipe, misnamed, &effect, error));
    if (misnamed->length > 0) {
        return SS_OK;
    }
    ss_results results = ss_run_results(pipe, asked, reach_of(asked));
    results.influence = asked->of != NULL ? &effect : NULL;
    SS_TRY(makers[asked->figure].make(&results, units, &figure, error));
    SS_TRY(ss_figure_write(&figure, asked->format, asked->dots, &text, error));
    SS_TRY(ss_deliver_text(asked, &text, error));
done:
    ss_text_destroy(&text);
    ss_figure_destroy(&figure);
    return status;
}

/* Whether what is asked goes with the figure; else says what does not. */
static bool goes_together(const ss_invocation *asked) {
    const needs what = makers[asked->figure].needs;
    if (asked->of != NULL && what != NEEDS_ALONG && what != NEEDS_EFFECT) {
        ss_run_print_error(NULL, "--of goes with moment, shear, deflection and influence only");
        return false;
    }
    if ((asked->at != NULL || asked->effect >= 0) && (asked->of == NULL || what != NEEDS_EFFECT)) {
        ss_run_print_error(NULL, "--at and --effect go with influence and --of only");
        return false;
    }
    return true;
}

int ss_command_draw(const ss_invocation *asked) {
    if (!ss_deliver_can(asked) || !goes_together(asked)) {
        return SS_EXIT_USAGE;
    }
    ss_pipe pipe = {.progress = ss_progress_begin(asked->quiet)};
    ss_error error = {0};
    ss_text misnamed = {0};
    ss_status status =
        ss_pipe_read(&pipe, asked, needs_rating(asked) ? SS_RUN_RATING : SS_RUN_GRILLAGE, &error);
    ss_run_print_diags(&pipe, asked->quiet);
    if (status == SS_OK) {
        status = draw(asked, &pipe, &misnamed, &error);
    }
    if (status != SS_OK && (status != SS_ERROR_DESCRIPTION || pipe.diags.faults == 0)) {
        ss_run_print_error(NULL, error.message[0] != '\0' ? error.message : ss_status_text(status));
    }
    const bool named = misnamed.length == 0;
    if (!named) {
        ss_run_print_error(NULL, misnamed.failed ? "--of names nothing" : misnamed.data);
    }
    ss_text_destroy(&misnamed);
    ss_pipe_destroy(&pipe);
    return named ? ss_exit_of(status) : SS_EXIT_USAGE;
}
