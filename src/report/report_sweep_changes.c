/* report_sweep_changes.c - which results change along a sweep, and where, for people. */
#include <math.h>

#include "base/numeric.h"
#include "report/report_parts.h"
#include "report/report_sweep.h"
#include "report/report_words.h"

/* Share by which a followed result has to change for people to be told of it. */
#define CHANGES 0.1

/* Of the most of a result: less of it is nothing. */
#define NOTHING 1e-9

void ss_part_sweep_changes(ss_builder *b) {
    static const ss_column columns[] = {
        {"", "of one truck, without factors", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
        {"", "least", SS_DIM_NUMBER, 3, SS_FOR_PEOPLE},
        {"", "most", SS_DIM_NUMBER, 3, SS_FOR_PEOPLE},
        {"", "changes from", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
        {"", "to", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    };
    const bool order = ss_swept_in_order(b);
    const ss_sweep *const sweep = b->results->sweep;
    const int traffic = ss_swept_traffic(b);
    if (traffic < 0) {
        return;
    }
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){
            .key = "sweep_changes",
            .title = ss_build_text(
                b, "What changes, and where: %s",
                b->results->bridge->vehicles[sweep->trials.watch.placements.traffic[traffic].vehicle].name),
            .note = order ? "Outside \"from ... to\" a value stays within 5 % of its whole change. What "
                            "changes by less than a tenth is left out."
                          : "What changes by less than a tenth is left out.",
            .audience = SS_FOR_PEOPLE,
            .column_count = SS_COLUMN_COUNT(columns) - (order ? 0 : 2),
            .columns = columns});
    for (int i = 0; i < sweep->trials.follow.count; i++) {
        const ss_followed *const f = &sweep->trials.follow.items[i];
        const ss_sweep_band *const band = &sweep->results[i];
        const ss_dimension dimension = ss_followed_dimension(b, f);
        if (f->traffic != traffic || isnan(band->from) ||
            band->most - band->least < CHANGES * ss_max(fabs(band->most), fabs(band->least))) {
            continue;
        }
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, ss_followed_said(b, f));
        const double least = fabs(band->least) < NOTHING * fabs(band->most) ? 0.0 : band->least;
        ss_sheet_text(&sheet, ss_words_quantity(b, least, dimension, 3));
        ss_sheet_text(&sheet, ss_words_quantity(b, band->most, dimension, 3));
        if (order) {
            ss_sheet_text(&sheet, ss_swept_value_said(b, band->from));
            ss_sheet_text(&sheet, ss_swept_value_said(b, band->to));
        }
    }
}
