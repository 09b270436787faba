/* report_accuracy.c - how exact the computation is, apart from what it is told: equilibrium and condition. */
#include "report/report_parts.h"

#include <math.h>

#include "report/report_words.h"

/* The worst equilibrium error of all that was solved; NaN when nothing was. */
static double worst_equilibrium(const ss_results *results) {
    double worst = (double)NAN;
    if (results->permanent != NULL) {
        worst = fmax(results->permanent->present.equilibrium, results->permanent->cars_alone.equilibrium);
    }
    if (results->envelope != NULL && results->envelope->checked_count > 0) {
        worst = fmax(worst, results->envelope->accuracy);
    }
    for (int i = 0; results->cases != NULL && i < results->cases->count; i++) {
        worst = fmax(worst, results->cases->items[i].equilibrium);
    }
    return worst;
}

static const ss_column accuracy_columns[] = {
    {"equilibrium_error", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rcond", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"doubtful", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"free_motions", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"unknowns", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"stations", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"merged_stations", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"positions_checked", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"bearings_change", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"tips", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

void ss_accuracy_programs(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_trust *trust = ss_grillage_trust(results->grillage);
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "accuracy",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(accuracy_columns),
                                                   .columns = accuracy_columns});
    const double equilibrium = worst_equilibrium(results);
    ss_sheet_row(&sheet);
    if (isnan(equilibrium)) {
        ss_sheet_none(&sheet);
    } else {
        ss_sheet_value(&sheet, equilibrium);
    }
    ss_sheet_value(&sheet, trust->rcond);
    ss_sheet_flag(&sheet, trust->doubtful);
    ss_sheet_integer(&sheet, trust->free_motions);
    ss_sheet_integer(&sheet, results->mesh->order);
    ss_sheet_integer(&sheet, results->mesh->station_count);
    ss_sheet_integer(&sheet, results->mesh->merged_count);
    if (results->envelope != NULL) {
        ss_sheet_integer(&sheet, results->envelope->checked_count);
        ss_sheet_flag(&sheet, results->envelope->contact_matters);
        ss_sheet_flag(&sheet, results->envelope->tips);
    }
}

/* A power of ten that is certainly not below `value`, "1e-12": the digits of an error mean nothing, and
 * differ from machine to machine. */
static const char *upper_power(ss_builder *b, double value) {
    if (!(value > 0.0)) {
        return "1e-16";
    }
    return ss_build_text(b, "1e%d", (int)ceil(log10(value)));
}

void ss_accuracy_points(ss_builder *b, ss_points *points) {
    const ss_trust *trust = ss_grillage_trust(b->results->grillage);
    const double equilibrium = worst_equilibrium(b->results);
    if (!isnan(equilibrium)) {
        /* Better than this is rounding, whose size differs between machines. */
        ss_point(b, points,
                 "Arithmetic: what the bearings carry equals what was put on, to better than %s of it.",
                 upper_power(b, fmax(equilibrium, 1e-10)));
    }
    if (trust->doubtful) {
        ss_point(b, points,
                 "DOUBTFUL: the equations are nearly singular (reciprocal condition number below %s); the "
                 "bridge is close to being free to move, and few digits can be relied on.",
                 upper_power(b, trust->rcond));
    } else {
        ss_point(b, points,
                 "Stiffness: nothing is close to being free to move (reciprocal condition number about %s; "
                 "below 1e-12 would be doubtful).",
                 ss_words_quantity(b, trust->rcond, SS_DIM_NUMBER, 1));
    }
}

static const ss_column figure_columns[] = {
    {"unknowns", "Equations solved", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"stations", "Stations along the bridge", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"merged", "Stations merged, being next to the same", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"rcond", "Reciprocal condition number, below 1e-12 doubtful", SS_DIM_NUMBER, 1, SS_FOR_PEOPLE},
    {"equilibrium", "Part of a load that the bearings do not give back, below", SS_DIM_NUMBER, 0,
     SS_FOR_PEOPLE},
    {"checked", "Positions of trucks that were solved a second time, in full", SS_DIM_NUMBER, 0,
     SS_FOR_PEOPLE},
    {"contact", "Bearings that lift off or close under trucks", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

void ss_part_accuracy(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_trust *trust = ss_grillage_trust(results->grillage);
    const double equilibrium = worst_equilibrium(results);
    ss_build_heading(b, SS_FOR_PEOPLE, "Accuracy");
    ss_points points = {.count = 0};
    ss_accuracy_points(b, &points);
    ss_build_points(b, &points);
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "accuracy_figures",
                                                   .title = "Figures of the computation",
                                                   .audience = SS_FOR_PEOPLE,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(figure_columns),
                                                   .columns = figure_columns});
    ss_sheet_row(&sheet);
    ss_sheet_integer(&sheet, results->mesh->order);
    ss_sheet_integer(&sheet, results->mesh->station_count);
    ss_sheet_integer(&sheet, results->mesh->merged_count);
    ss_sheet_value(&sheet, trust->rcond);
    ss_sheet_text(&sheet, isnan(equilibrium) ? NULL : upper_power(b, fmax(equilibrium, 1e-10)));
    if (results->envelope != NULL) {
        ss_sheet_integer(&sheet, results->envelope->checked_count);
        ss_sheet_flag(&sheet, results->envelope->contact_matters);
    }
}
