/* command_sweep.c - sillspan sweep: one value of a description, or two, from end to end. */
#include <string.h>

#include "base/try.h"
#include "cli/deliver_figure.h"
#include "cli/run.h"
#include "cli/stop.h"
#include "cli/studied.h"
#include "sillspan/text.h"

/* ---- what is swept ------------------------------------------------------------------------------------ */

/* A fault of the command line, with the right names. */
static ss_status misname(ss_sweep_run *s) {
    const ss_bridge *const bridge = &s->pipe->whole.bridge;
    enum { OFFERED = 20 };
    const char *names[OFFERED];
    int count = 0;
    for (; count < bridge->joint_count && count < OFFERED; count++) names[count] = bridge->joints[count].name;
    ss_text message = {0};
    const char *const near = ss_text_nearest(s->asked->stiffness, names, count);
    ss_text_printf(&message, "no joint is called \"%s\"; ", s->asked->stiffness);
    if (near != NULL) {
        ss_text_printf(&message, "did you mean \"%s\"?", near);
    } else {
        ss_text_add(&message, count == 0 ? "the bridge has none" : "there are ");
    }
    for (int i = 0; near == NULL && i < count; i++) {
        ss_text_printf(&message, "%s\"%s\"", i == 0 ? "" : i == count - 1 ? " and " : ", ", names[i]);
    }
    const ss_status status =
        message.failed
            ? SS_ERROR_MEMORY
            : ss_diag_add(&s->pipe->diags, SS_FAULT, (ss_where){"--stiffness", 0}, "", "%s", message.data);
    ss_text_destroy(&message);
    return status == SS_OK ? SS_ERROR_DESCRIPTION : status;
}

/* "bridge.joints.A.scale, bridge.joints.B.scale = 0.001..1000 log": its range is only a beginning. */
static ss_status add_joints(ss_sweep_run *s, ss_error *error) {
    const ss_bridge *const bridge = &s->pipe->whole.bridge;
    const char *const only = s->asked->stiffness;
    ss_text text = {0};
    int count = 0;
    for (int i = 0; i < bridge->joint_count; i++) {
        const ss_joint *const joint = &bridge->joints[i];
        if (only == NULL ? joint->kind == SS_JOINT_SPRINGS : strcmp(joint->name, only) == 0) {
            ss_text_printf(&text, "%sbridge.joints.%s.scale", count > 0 ? ", " : "", joint->name);
            count++;
        }
    }
    ss_text_add(&text, "=0.001..1000 log");
    ss_status status = text.failed ? SS_ERROR_MEMORY : SS_OK;
    if (status == SS_OK && count == 0) {
        status = only != NULL
                     ? misname(s)
                     : ss_error_set(error, SS_ERROR_LIMIT,
                                    "no joint of the bridge has a stiffness to go through; name a value with "
                                    "--vary PATH=LOW..HIGH, or describe the joint as \"springs\" or by its "
                                    "parts");
    }
    if (status == SS_OK) {
        status = ss_unknown_add(&s->varied, text.data, &s->pipe->diags);
    }
    ss_text_destroy(&text);
    s->whole = true;
    return status;
}

/* Whether the path is a stiffness that the joint does not use, so that it changes nothing. */
static bool is_unused(const ss_joint *joint, const char *path) {
    static const char under[] = "bridge.joints.";
    static const char *const keys[] = {".shear", ".shear_each", ".rotation", ".rotation_each", ".scale"};
    const size_t start = sizeof under - 1, length = strlen(joint->name);
    if (strncmp(path, under, start) != 0 || strncmp(path + start, joint->name, length) != 0) {
        return false;
    }
    const char *const key = path + start + length;
    const bool given = joint->kind == SS_JOINT_SPRINGS && joint->estimated == SS_DETAIL_NONE;
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        if (strcmp(key, keys[i]) == 0) {
            return !given && (joint->kind != SS_JOINT_SPRINGS || strcmp(key, ".scale") != 0);
        }
    }
    return false;
}

static ss_status warn_unused(ss_sweep_run *s) {
    const ss_bridge *const bridge = &s->bridge;
    ss_status status = SS_OK;
    for (int u = 0; u < bridge->unknowns.count; u++) {
        const ss_unknown *const unknown = &bridge->unknowns.items[u];
        for (int at = 0; at < unknown->path_count * bridge->joint_count; at++) {
            const char *const path = unknown->paths[at / bridge->joint_count];
            if (is_unused(&bridge->joints[at % bridge->joint_count], path)) {
                SS_TRY(ss_diag_add(&s->pipe->diags, SS_WARNING, (ss_where){"--vary", 0}, path,
                                   "the joint's kind does not use it, so that nothing changes; the kind "
                                   "\"springs\" does"));
            }
        }
    }
done:
    return status;
}

/* Tells that faults are about --vary. */
static void name_source(ss_diag_list *diags, int from) {
    for (int i = from; i < diags->count; i++) {
        const char *const file = diags->items[i].where.file;
        if (file != NULL && strcmp(file, "--unknown") == 0) {
            diags->items[i].where.file = "--vary";
        }
    }
}

ss_status ss_sweep_run_vary(ss_sweep_run *s, ss_error *error) {
    ss_status status = SS_OK;
    ss_diag_list *const diags = &s->pipe->diags;
    ss_diag_list again = {0}; /* remarks on the bridge were made when it was read */
    const int from = diags->count;
    SS_TRY(ss_description_copy(&s->pipe->description, "unknowns|correlations", &s->varied));
    if (s->asked->unknown_count == 0) {
        SS_TRY(add_joints(s, error));
    }
    for (int i = 0; i < s->asked->unknown_count; i++) {
        const ss_status added = ss_unknown_add(&s->varied, s->asked->unknowns[i], diags);
        status = added == SS_OK ? status : added;
    }
    SS_TRY(status);
    status = ss_bridge_resolve(&s->varied, &s->bridge, &again);
    for (int i = 0; i < again.count && status == SS_ERROR_DESCRIPTION; i++) {
        const ss_diag *const d = &again.items[i];
        if (d->severity == SS_FAULT) {
            SS_TRY(ss_diag_add(diags, SS_FAULT, d->where, d->path, "%s", d->message));
            status = SS_ERROR_DESCRIPTION;
        }
    }
    SS_TRY(status);
    status = warn_unused(s);
done:
    ss_diag_destroy(&again);
    name_source(diags, from);
    return status;
}

/* ---- the run ------------------------------------------------------------------------------------------ */

ss_status ss_sweep_run_compute(ss_sweep_run *s, ss_error *error) {
    const ss_unknown_set *const set = &s->bridge.unknowns;
    ss_sweep_plan plan = {.base = &s->varied,
                          .bridge = &s->bridge,
                          .axis_count = set->count,
                          .points = {s->asked->points, s->asked->points},
                          .whole = s->whole,
                          .options = {.follow = true,
                                      .progress = ss_progress_step,
                                      .stop = ss_stop_wanted,
                                      .context = &s->pipe->progress}};
    for (int i = 0; i < set->count && i < 2; i++) plan.unknown[i] = &set->items[i];
    return ss_sweep_compute(&plan, &s->sweep, error);
}

void ss_sweep_run_end(ss_sweep_run *s) {
    ss_sweep_destroy(&s->sweep);
    ss_bridge_destroy(&s->bridge);
    ss_description_destroy(&s->varied);
}

static ss_status deliver(ss_sweep_run *s, ss_error *error) {
    ss_report report = {0};
    const ss_results results = {.command = s->asked->command->name,
                                .variant = s->asked->variant,
                                .bridge = &s->pipe->whole.bridge,
                                .sweep = &s->sweep,
                                .diags = &s->pipe->diags,
                                .require = s->asked->require,
                                .text_only = s->asked->format == SS_FORMAT_TEXT};
    const ss_unit_system units = s->asked->units_given ? s->asked->units : s->pipe->whole.bridge.units;
    ss_status status = ss_report_build(&results, units, &report, error);
    if (status == SS_OK) {
        status = ss_deliver_has_table(s->asked, &report) ? ss_deliver(s->asked, &report, error)
                                                         : ss_error_set(error, SS_ERROR_LIMIT, "%s", "");
    }
    if (status == SS_OK) {
        status = ss_deliver_figure(s->asked, ss_figure_sweep, &results, units, error);
    }
    ss_report_destroy(&report);
    return status;
}

/* What no description can make right. */
static bool contradicts(const ss_invocation *asked) {
    const char *const why =
        asked->stiffness != NULL && asked->unknown_count > 0
            ? "--stiffness goes through a joint from none to rigid by itself; beside --vary it is not taken"
        : asked->unknown_count > 2 ? "--vary is given more than twice; a map has two values"
                                   : NULL;
    if (why != NULL) {
        ss_run_print_error(NULL, why);
    }
    return why != NULL;
}

int ss_command_sweep(const ss_invocation *asked) {
    if (contradicts(asked) || !ss_deliver_can(asked)) {
        return SS_EXIT_USAGE;
    }
    ss_pipe pipe = {.progress = ss_progress_begin(asked->quiet)};
    ss_sweep_run s = {.asked = asked, .pipe = &pipe};
    ss_error error = {0};
    ss_stop_begin();
    ss_status status = ss_pipe_read(&pipe, asked, SS_RUN_RATING, &error);
    if (status == SS_OK) {
        status = ss_sweep_run_vary(&s, &error);
    }
    ss_run_print_diags(&pipe, asked->quiet);
    if (status == SS_OK) {
        status = ss_sweep_run_compute(&s, &error);
        ss_progress_end(&pipe.progress);
    }
    if (status == SS_OK) {
        status = deliver(&s, &error);
    }
    const bool misnamed = status == SS_ERROR_LIMIT && error.message[0] == '\0';
    if (status != SS_OK && !misnamed && (status != SS_ERROR_DESCRIPTION || pipe.diags.faults == 0)) {
        ss_run_print_error(NULL, error.message[0] != '\0' ? error.message : ss_status_text(status));
    }
    ss_sweep_run_end(&s);
    ss_pipe_destroy(&pipe);
    const bool interrupted = status == SS_OK && ss_stop_asked();
    ss_stop_end();
    return misnamed ? SS_EXIT_USAGE : interrupted ? SS_EXIT_INTERRUPTED : ss_exit_of(status);
}
