/* studied.c - the studies that `report --studies` asks for, each as its own command makes it. */
#include "cli/studied.h"

#include <math.h>

#include "base/try.h"
#include "cli/stop.h"

/* ---- what they need ----------------------------------------------------------------------------------- */

static bool has_springs(const ss_bridge *bridge) {
    bool any = false;
    for (int i = 0; i < bridge->joint_count; i++) {
        any = any || bridge->joints[i].kind == SS_JOINT_SPRINGS;
    }
    return any;
}

static ss_status lacks(ss_error *error, const char *study, const char *what) {
    return ss_error_set(error, SS_ERROR_LIMIT, "--studies %s: %s", study, what);
}

ss_status ss_studied_can(const ss_pipe *pipe, const ss_invocation *asked, ss_error *error) {
    const int studies = asked->studies;
    const ss_node *const variants = ss_description_variants(&pipe->base);
    if ((studies & SS_IN_SWEEP) != 0 && !has_springs(&pipe->whole.bridge)) {
        return lacks(error, "sweep",
                     "no joint of the bridge has a stiffness to go through; describe one as "
                     "\"springs\" or by its parts");
    }
    if ((studies & SS_IN_UNKNOWNS) != 0 && pipe->whole.bridge.unknowns.count == 0) {
        return lacks(error, (studies & SS_IN_BOUNDS) != 0 ? "bounds" : "sample",
                     "nothing is unknown; name what is, in \"unknowns\" of the description or by --unknown "
                     "PATH=LOW..HIGH");
    }
    if ((studies & SS_IN_COMPARE) != 0 && (variants == NULL || variants->count == 0)) {
        return lacks(error, "compare", "the description has no \"variants\"");
    }
    if ((studies & SS_IN_SIZE) != 0 && (ss_node_child(pipe->base.root, "slab") == NULL ||
                                        ss_node_child(pipe->base.root, "sizing") == NULL)) {
        return lacks(error, "size", "the description needs the groups \"slab\" and \"sizing\"");
    }
    return SS_OK;
}

/* ---- one by one --------------------------------------------------------------------------------------- */

/* What the command would be asked by itself. */
static ss_invocation *ask(ss_studied *s, const ss_invocation *asked, const char *command) {
    ss_invocation *const own = &s->asked[s->count];
    *own = *asked;
    own->command = ss_command_find(command);
    own->require = (double)NAN;
    return own;
}

/* Puts the results of a study onto the page. */
static void put(ss_studied *s, ss_results results) {
    results.command = "report";
    results.text_only = true;
    results.require = (double)NAN;
    s->results[s->count++] = results;
}

static ss_status add_sweep(ss_studied *s, ss_pipe *pipe, const ss_invocation *asked, ss_error *error) {
    ss_status status = SS_OK;
    ss_invocation *const own = ask(s, asked, "sweep");
    own->unknown_count = 0;
    s->sweep = (ss_sweep_run){.asked = own, .pipe = pipe};
    SS_TRY(ss_sweep_run_vary(&s->sweep, error));
    SS_TRY(ss_sweep_run_compute(&s->sweep, error));
    put(s, (ss_results){.bridge = &pipe->whole.bridge, .sweep = &s->sweep.sweep});
done:
    ss_progress_end(&pipe->progress);
    return status;
}

static ss_status add_unknowns(ss_studied *s, ss_pipe *pipe, const ss_invocation *asked, int which,
                              ss_error *error) {
    const ss_study study = which == 0 ? ss_study_of_bounds(&s->bounds) : ss_study_of_sample(&s->sample);
    const ss_invocation *const own = ask(s, asked, which == 0 ? "bounds" : "sample");
    const ss_status status = ss_study_run_compute(pipe, own, &study, &s->unknowns[which], error);
    if (status == SS_OK) {
        put(s, s->unknowns[which].results);
    }
    return status;
}

static ss_status add_compare(ss_studied *s, const ss_invocation *asked, ss_error *error) {
    ss_compare_run_begin(&s->compare, ask(s, asked, "compare"));
    const ss_status status = ss_compare_run_compute(&s->compare, true, error);
    if (status == SS_OK) {
        put(s, (ss_results){.bridge = s->compare.has_first ? &s->compare.first.whole.bridge : NULL,
                            .comparison = &s->compare.comparison});
    }
    return status;
}

static ss_status add_size(ss_studied *s, const ss_pipe *pipe, const ss_invocation *asked, ss_error *error) {
    ss_status status = SS_OK;
    s->sized.progress = pipe->progress;
    const ss_size_watch watch = {
        .progress = ss_progress_step, .stop = ss_stop_wanted, .context = &s->sized.progress};
    status = ss_size_run_read(&s->sized, ask(s, asked, "size"), error);
    if (status == SS_ERROR_DESCRIPTION) {
        ss_run_print_diags(&s->sized, true);
    }
    SS_TRY(status);
    SS_TRY(ss_size_compute(&s->sized.description, &s->sized.whole.bridge, &watch, &s->size, error));
    put(s, (ss_results){.bridge = &s->sized.whole.bridge, .size = &s->size});
done:
    ss_progress_end(&s->sized.progress);
    return status;
}

ss_status ss_studied_compute(ss_studied *s, ss_pipe *pipe, const ss_invocation *asked, ss_error *error) {
    ss_status status = SS_OK;
    if ((asked->studies & SS_IN_SWEEP) != 0) {
        SS_TRY(add_sweep(s, pipe, asked, error));
    }
    for (int which = 0; which < 2; which++) {
        if ((asked->studies & (which == 0 ? SS_IN_BOUNDS : SS_IN_SAMPLE)) != 0) {
            SS_TRY(add_unknowns(s, pipe, asked, which, error));
        }
    }
    if ((asked->studies & SS_IN_COMPARE) != 0) {
        SS_TRY(add_compare(s, asked, error));
    }
    if ((asked->studies & SS_IN_SIZE) != 0) {
        SS_TRY(add_size(s, pipe, asked, error));
    }
done:
    return status;
}

void ss_studied_end(ss_studied *s) {
    const ss_study bounds = ss_study_of_bounds(&s->bounds);
    const ss_study sample = ss_study_of_sample(&s->sample);
    ss_sweep_run_end(&s->sweep);
    ss_study_run_end(&bounds, &s->unknowns[0]);
    ss_study_run_end(&sample, &s->unknowns[1]);
    ss_compare_run_end(&s->compare);
    ss_size_destroy(&s->size);
    ss_pipe_destroy(&s->sized);
    *s = (ss_studied){0};
}
