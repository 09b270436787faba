/* report_sweep_programs.c - every point of a sweep, for programs. */
#include <math.h>

#include "report/report_parts.h"
#include "report/report_sweep.h"
#include "report/report_words.h"

static const char *const kind_keys[] = {
    [SS_FOLLOW_SHARE] = "share",
    [SS_FOLLOW_MOMENT] = "moment",
    [SS_FOLLOW_DEFLECTION] = "deflection",
    [SS_FOLLOW_JOINT_SHEAR] = "joint_shear",
    [SS_FOLLOW_JOINT_MOMENT] = "joint_moment",
    [SS_FOLLOW_REACTION] = "reaction",
    [SS_FOLLOW_LEAST] = "least_reaction",
};

static void put(ss_sheet *sheet, double value, ss_dimension dimension) {
    if (isfinite(value)) {
        ss_sheet_quantity(sheet, value, dimension);
    } else {
        ss_sheet_none(sheet);
    }
}

/* A number in the unit of what is swept, or a word; "none" and "rigid" at the ends of a joint. */
static void put_value(ss_builder *b, ss_sheet *sheet, int axis, int i) {
    const ss_sweep_axis *const a = &b->results->sweep->axis[axis];
    const bool word = a->unknown->kind == SS_UNKNOWN_DISCRETE || isinf(a->value[i]);
    if (word) {
        ss_sheet_text(sheet, ss_swept_said(b, axis, i));
    } else {
        ss_sheet_quantity(sheet, a->value[i], a->unknown->dimension);
    }
}

static void summary(ss_builder *b) {
    static const ss_column columns[] = {
        {"what", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"unit", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"across", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"across_unit", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"points", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"done", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"searched", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"one_factorisation", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"worst_point", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"best_point", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"described_point", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"joint_full_point", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"rating.least", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"rating.most", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"rating.from", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"rating.to", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    };
    const ss_sweep *const sweep = b->results->sweep;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "sweep",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(columns),
                                                   .columns = columns});
    ss_sheet_row(&sheet);
    for (int a = 0; a < 2; a++) {
        const bool there = a < sweep->axis_count;
        ss_sheet_text(&sheet, there ? ss_swept_what(b, a) : NULL);
        ss_sheet_text(&sheet,
                      there ? ss_units_name(sweep->axis[a].unknown->dimension, b->report->units) : NULL);
    }
    ss_sheet_integer(&sheet, sweep->count);
    ss_sheet_integer(&sheet, sweep->done);
    ss_sheet_integer(&sheet, sweep->trials.options.full ? sweep->done : sweep->check_count);
    ss_sheet_flag(&sheet, sweep->closed);
    const int which[] = {sweep->worst, sweep->best, sweep->described, sweep->joint_full};
    for (int i = 0; i < 4; i++) {
        if (which[i] < 0) {
            ss_sheet_none(&sheet);
        } else {
            ss_sheet_integer(&sheet, which[i] + 1);
        }
    }
    const bool one = sweep->axis_count == 1, order = one && ss_swept_in_order(b);
    const ss_dimension dimension = sweep->axis[0].unknown->dimension;
    put(&sheet, one ? sweep->rating.least : (double)NAN, SS_DIM_NUMBER);
    put(&sheet, one ? sweep->rating.most : (double)NAN, SS_DIM_NUMBER);
    put(&sheet, order ? sweep->rating.from : (double)NAN, dimension);
    put(&sheet, order ? sweep->rating.to : (double)NAN, dimension);
}

static void points(ss_builder *b) {
    static const ss_column columns[] = {
        {"point", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"value", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"across", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"joint_stiffness", "", SS_DIM_SPRING_PER_LENGTH, 0, SS_FOR_PROGRAMS},
        {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"governs", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"joint_rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"joint_out", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"posting", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"sign_single", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
        {"sign_combination", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
        {"sign_emergency", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
        {"failure", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    };
    const ss_sweep *const sweep = b->results->sweep;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "sweep_points",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(columns),
                                                   .columns = columns});
    const int across = sweep->axis_count == 2 ? sweep->axis[1].count : 1;
    for (int i = 0; i < sweep->done; i++) {
        const ss_trial *const t = &sweep->points[i];
        ss_sheet_row(&sheet);
        ss_sheet_integer(&sheet, i + 1);
        put_value(b, &sheet, 0, i / across);
        if (sweep->axis_count == 2) {
            put_value(b, &sheet, 1, i % across);
        } else {
            ss_sheet_none(&sheet);
        }
        put(&sheet, sweep->axis_count == 1 ? ss_swept_stiffness(b, sweep->axis[0].value[i]) : (double)NAN,
            ss_swept_stiffness_dimension(b));
        put(&sheet, t->rf, SS_DIM_NUMBER);
        ss_sheet_text(&sheet, t->vehicle < 0 ? NULL : b->results->bridge->vehicles[t->vehicle].name);
        ss_sheet_text(&sheet, t->failure != NULL ? NULL : t->governs);
        put(&sheet, t->joint, SS_DIM_NUMBER);
        ss_sheet_flag(&sheet, t->joint_out);
        ss_sheet_text(&sheet, t->failure != NULL ? NULL : ss_posting_state_name(t->posting));
        put(&sheet, t->sign[SS_POSTING_SINGLE], SS_DIM_FORCE);
        put(&sheet, t->sign[SS_POSTING_COMBINATION], SS_DIM_FORCE);
        put(&sheet, t->emergency, SS_DIM_FORCE);
        ss_sheet_text(&sheet, t->failure);
    }
}

static void trucks(ss_builder *b) {
    static const ss_column columns[] = {
        {"point", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    };
    const ss_sweep *const sweep = b->results->sweep;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "sweep_trucks",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(columns),
                                                   .columns = columns});
    for (int i = 0; i < sweep->done; i++) {
        for (int v = 0; v < sweep->trials.truck_count; v++) {
            if (isfinite(sweep->points[i].truck[v])) {
                ss_sheet_row(&sheet);
                ss_sheet_integer(&sheet, i + 1);
                ss_sheet_text(&sheet, b->results->bridge->vehicles[v].name);
                ss_sheet_value(&sheet, sweep->points[i].truck[v]);
            }
        }
    }
}

static void followed(ss_builder *b) {
    static const ss_column columns[] = {
        {"point", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},  {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"result", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS}, {"car", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"member", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS}, {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},      {"value", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
        {"unit", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    };
    const ss_sweep *const sweep = b->results->sweep;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "sweep_values",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(columns),
                                                   .columns = columns});
    for (int k = 0; k < sweep->trials.follow.count; k++) {
        const ss_followed *const f = &sweep->trials.follow.items[k];
        const ss_dimension dimension = ss_followed_dimension(b, f);
        const int vehicle = sweep->trials.watch.placements.traffic[f->traffic].vehicle;
        for (int i = 0; i < sweep->done; i++) {
            if (!isfinite(sweep->points[i].followed[k])) {
                continue;
            }
            ss_sheet_row(&sheet);
            ss_sheet_integer(&sheet, i + 1);
            ss_sheet_text(&sheet, b->results->bridge->vehicles[vehicle].name);
            ss_sheet_text(&sheet, kind_keys[f->kind]);
            ss_sheet_text(&sheet, f->car);
            ss_sheet_text(&sheet, f->member);
            ss_sheet_text(&sheet, f->line);
            put(&sheet, f->at, SS_DIM_LENGTH);
            ss_sheet_quantity(&sheet, sweep->points[i].followed[k], dimension);
            ss_sheet_text(&sheet, ss_units_name(dimension, b->report->units));
        }
    }
}

void ss_part_sweep_programs(ss_builder *b) {
    if (b->results->text_only) {
        return;
    }
    summary(b);
    points(b);
    trucks(b);
    followed(b);
}
