/* report_findings.c - what the inspector saw, what it does to the bridge, and what each finding costs. */
#include <math.h>

#include "report/report_ratings.h"
#include "report/report_words.h"

static const ss_column columns[] = {
    {"name", "finding", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"where", "where", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"effect", "counts as", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"note", "note", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static const ss_column cost_columns[] = {
    {"name", "put aside", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"rf", "factor then", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"gain", "it costs", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"gain", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"governs", "what governs then", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"primary", "primary members", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"primary", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"primary_gain", "it costs them", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"primary_gain", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"own_found", "its own member now", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"own_found", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"own", "then", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"own", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"failure", "not rated, because", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static void add_list(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "findings",
                       .title = "What was seen",
                       .note = "Each changes stiffness, and strength where it touches it, of the section or "
                               "member named.",
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(columns),
                       .columns = columns});
    for (int i = 0; i < bridge->finding_count; i++) {
        const ss_finding *finding = &bridge->findings[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, finding->name);
        ss_sheet_text(&sheet, finding->where);
        ss_sheet_text(&sheet, finding->effect);
        ss_sheet_text(&sheet, finding->note);
    }
}

static bool is_repair(const ss_rerun *item) {
    return item->kind == SS_RERUN_REPAIRED || item->kind == SS_RERUN_ALL_REPAIRED;
}

/* A factor for people and for programs; NaN is no cell. */
static void put_factor(ss_sheet *sheet, double value, bool cut) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
        return;
    }
    ss_sheet_value(sheet, cut ? ss_rated_cut(value, 2) : value);
    ss_sheet_value(sheet, value);
}

/* What rounding brings is no cost, and neither is a limit that was not there before. */
static double gain_of(double with, double as_found) {
    const double gain = with - as_found;
    return !isfinite(as_found) || fabs(gain) < 1e-6 * as_found ? 0.0 : gain;
}

static void add_costs(ss_builder *b, const ss_reruns *reruns) {
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){.key = "finding_costs",
                    .title = "What each finding costs",
                    .note = "The smallest factor of all members that count for the governing truck alone, "
                            "with one finding put aside and all others kept; then those of primary "
                            "members and of the member that the finding is about. Costs do not add up: where "
                            "two are on one member, only putting both aside may help.",
                    .audience = SS_FOR_ALL,
                    .column_count = SS_COLUMN_COUNT(cost_columns),
                    .columns = cost_columns});
    for (int i = 0; i < reruns->count; i++) {
        const ss_rerun *item = &reruns->items[i];
        if (!is_repair(item)) {
            continue;
        }
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, item->what);
        put_factor(&sheet, item->rf, true);
        put_factor(&sheet, gain_of(item->rf, reruns->rf), false);
        ss_sheet_text(&sheet, item->governs);
        put_factor(&sheet, item->primary, true);
        put_factor(&sheet, gain_of(item->primary, reruns->primary), false);
        put_factor(&sheet, item->own_found, true);
        put_factor(&sheet, item->own, true);
        ss_sheet_text(&sheet, item->failure);
    }
}

/* The one whose repair brings most; NULL: none brings anything worth two decimals. */
const ss_rerun *ss_findings_dearest(const ss_reruns *reruns) {
    const ss_rerun *best = NULL;
    for (int i = 0; i < reruns->count; i++) {
        const ss_rerun *item = &reruns->items[i];
        if (item->kind == SS_RERUN_REPAIRED && item->rf > reruns->rf + 0.005 &&
            (best == NULL || item->rf > best->rf)) {
            best = item;
        }
    }
    return best;
}

static void say_costs(ss_builder *b, const ss_reruns *reruns) {
    const ss_rerun *best = ss_findings_dearest(reruns);
    const char *truck = b->results->bridge->vehicles[reruns->vehicle].name;
    if (best == NULL) {
        ss_build_sentence(b,
                          "%s rates %s by %s with all that was seen. No finding by itself costs anything "
                          "that shows in two decimals: what governs is elsewhere, or on two of them.",
                          truck, ss_rated_factor(b, reruns->rf, 2), ss_method_name(reruns->method));
        return;
    }
    ss_build_sentence(b,
                      "%s rates %s by %s with all that was seen. The repair that brings most is \"%s\": %s.",
                      truck, ss_rated_factor(b, reruns->rf, 2), ss_method_name(reruns->method), best->what,
                      ss_rated_factor(b, best->rf, 2));
}

void ss_part_findings(ss_builder *b) {
    const ss_reruns *reruns = b->results->reruns;
    if (b->results->bridge->finding_count == 0) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Findings");
    if (reruns != NULL) {
        say_costs(b, reruns);
    }
    add_list(b);
    if (reruns != NULL) {
        add_costs(b, reruns);
    }
}
