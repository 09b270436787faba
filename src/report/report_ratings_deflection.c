/* report_ratings_deflection.c - live-load deflection against its limits.
 */
#include "report/report_ratings.h"

#include <math.h>

#include "report/report_words.h"

static const ss_column deflection_columns[] = {
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"live", "sags by", SS_DIM_SMALL_LENGTH, SS_DIGITS_OF_LARGEST(3), SS_FOR_PEOPLE},
    {"limit", "limit", SS_DIM_SMALL_LENGTH, SS_DIGITS_OF_LARGEST(3), SS_FOR_PEOPLE},
    {"of", "which is", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"member", "of the", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
};

/* "46 ft / 800", "overhang of 7 ft / 300". */
static const char *limit_words(ss_builder *b, const ss_rating_item *item) {
    const ss_effect *effect = &item->effect;
    if (effect->member != SS_MEMBER_LINE) {
        return NULL;
    }
    bool overhang = false;
    const double span =
        ss_member_span(b->results->bridge, effect->index, effect->at, effect->before, &overhang);
    if (!(span > 0.0) || !(fabs(item->capacity) > 0.0)) {
        return NULL;
    }
    return ss_build_text(b, "%s%s / %s", overhang ? "overhang of " : "", ss_words_length(b, span),
                         ss_words_quantity(b, span / fabs(item->capacity), SS_DIM_NUMBER, 4));
}

static void put_deflection(ss_sheet *sheet, const ss_rating_item *item) {
    ss_builder *b = sheet->builder;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, ss_words_traffic(b, item->traffic));
    ss_sheet_value(sheet, fabs(ss_rated_live(item)));
    ss_sheet_value(sheet, fabs(item->capacity));
    ss_sheet_text(sheet, limit_words(b, item));
    ss_sheet_value(sheet, ss_rated_cut(item->rf, 2));
    ss_sheet_text(sheet, ss_words_member(b, item->effect.member, item->effect.index));
    ss_sheet_value(sheet, ss_words_x(b->results->bridge, &item->effect));
}

/* The first check of deflection; methods that share it would only repeat it. */
static int deflection_check(const ss_ratings *ratings) {
    for (int c = 0; c < ratings->check_count; c++) {
        if (ratings->checks[c].limit == SS_LIMIT_DEFLECTION && ratings->worst[c] >= 0) {
            return c;
        }
    }
    return -1;
}

void ss_rated_deflection(ss_builder *b) {
    const ss_ratings *ratings = b->results->rated;
    const int check = deflection_check(ratings);
    if (check < 0) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Deflection under trucks");
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){
               .key = "deflection",
               .title = "",
               .note = "With dynamic allowance and multiple presence, no load factor; up or down. A limit "
                       "of comfort and of wear, not of strength: below 1.00 the bridge is lively, not "
                       "unsafe by that alone.",
               .audience = SS_FOR_PEOPLE,
               .column_count = SS_COLUMN_COUNT(deflection_columns),
               .columns = deflection_columns});
    for (int t = 0; t < ratings->traffic_count; t++) {
        const int i = ss_ratings_governing(ratings, check, t);
        if (i >= 0 && !ss_rated_alternative(b->results, t) && isfinite(ratings->items[i].rf)) {
            put_deflection(&sheet, &ratings->items[i]);
        }
    }
}
