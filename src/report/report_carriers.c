/* report_carriers.c - who carries: which members are primary, what both groups rate, and what is left when a
 * weak secondary member or a cut girder no longer carries. */
#include <math.h>

#include "report/report_ratings.h"
#include "report/report_words.h"

static const ss_column size_columns[] = {
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "line", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"role", "role", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"I", "I", SS_DIM_SECOND_MOMENT, 4, SS_FOR_ALL},
    {"S", "S, weaker face", SS_DIM_SECTION_MODULUS, 4, SS_FOR_ALL},
    {"A", "A", SS_DIM_AREA, 4, SS_FOR_ALL},
    {"depth", "depth", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"share", "of the main girder %", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"share", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"group", "counts as", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static const ss_column group_columns[] = {
    {"group", "members", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"method", "by", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"member", "what governs", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"counts", "governs the rating", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static const ss_column rerun_columns[] = {
    {"kind", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"what", "without", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"rf", "all members", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"governs", "weakest", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"primary", "primary members", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"primary", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"primary_governs", "weakest of them", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"failure", "not rated, because", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

/* ---- sizes ------------------------------------------------------------------------------------------ */

static void put_known(ss_sheet *sheet, double value) {
    if (value > 0.0) {
        ss_sheet_value(sheet, value);
    } else {
        ss_sheet_none(sheet);
    }
}

static void put_line(ss_sheet *sheet, const ss_bridge *bridge, int line) {
    const ss_line *l = &bridge->lines[line];
    const ss_size_property by = bridge->rating.primary_by;
    const int girder = ss_primary_girder(bridge, line, by);
    double own[SS_SIZE_COUNT];
    double main[SS_SIZE_COUNT];
    if (ss_line_sizes(bridge, line, own) != SS_OK) {
        return;
    }
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bridge->cars[l->car].name);
    ss_sheet_text(sheet, l->name);
    ss_sheet_text(sheet, ss_role_name(l->role));
    for (int i = 0; i < SS_SIZE_COUNT; i++) put_known(sheet, own[i]);
    if (girder >= 0 && girder != line && ss_line_sizes(bridge, girder, main) == SS_OK && main[by] > 0.0) {
        ss_sheet_value(sheet, 100.0 * own[by] / main[by]);
        ss_sheet_value(sheet, own[by] / main[by]);
    } else {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
    }
    ss_sheet_text(sheet, l->primary ? "primary" : "secondary");
}

static void add_sizes(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){.key = "carriers",
                    .title = "Girders compared",
                    .note = ss_build_text(
                        b,
                        "Largest values along each line. An exterior girder is primary beyond %s of the main "
                        "girder of its car by %s (common practice, no source); rating.primary_by and "
                        "rating.primary_share change that. Stringers and floor beams are secondary.",
                        ss_words_quantity(b, bridge->rating.primary_share, SS_DIM_NUMBER, 3),
                        ss_size_name(bridge->rating.primary_by)),
                    .audience = SS_FOR_ALL,
                    .column_count = SS_COLUMN_COUNT(size_columns),
                    .columns = size_columns});
    for (int i = 0; i < bridge->line_count; i++) {
        if (bridge->lines[i].role != SS_ROLE_STRINGER) {
            put_line(&sheet, bridge, i);
        }
    }
}

/* ---- both groups ------------------------------------------------------------------------------------ */

static int weakest_of(const ss_results *results, ss_method method, bool primary) {
    const ss_ratings *ratings = results->rated;
    int weakest = -1;
    for (int i = 0; i < ratings->count; i++) {
        const ss_rating_item *item = &ratings->items[i];
        if (ratings->checks[item->check].method == method && item->effect.member != SS_MEMBER_JOINT &&
            ss_member_primary(results->bridge, item->effect.member, item->effect.index) == primary &&
            (weakest < 0 || ss_rated_less(item->rf, ratings->items[weakest].rf)) &&
            ss_rated_governs(results, item->check, item->traffic)) {
            weakest = i;
        }
    }
    return weakest;
}

static void put_group(ss_sheet *sheet, ss_method method, bool primary) {
    ss_builder *b = sheet->builder;
    const ss_results *results = b->results;
    const int weakest = weakest_of(results, method, primary);
    if (weakest < 0) {
        return;
    }
    const ss_rating_item *item = &results->rated->items[weakest];
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, primary ? "primary" : "secondary");
    ss_sheet_text(sheet, ss_method_name(method));
    ss_sheet_value(sheet, ss_rated_cut(item->rf, 2));
    ss_sheet_value(sheet, item->rf);
    ss_sheet_text(sheet, ss_words_member(b, item->effect.member, item->effect.index));
    ss_sheet_text(sheet, ss_rated_failure(item));
    ss_sheet_value(sheet, ss_words_x(results->bridge, &item->effect));
    ss_sheet_text(sheet, ss_words_traffic(b, item->traffic));
    ss_sheet_flag(sheet, !ss_rating_released(results->bridge, &item->effect));
}

static void add_groups(ss_builder *b) {
    ss_method methods[3];
    const int count = ss_rated_methods(b->results->rated, methods);
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){.key = "groups",
                    .title = "Primary and secondary members",
                    .note = b->results->bridge->rating.release_secondary
                                ? "Secondary members are released (rating.release_secondary): they are rated "
                                  "and do not govern. That is the engineer's decision."
                                : NULL,
                    .audience = SS_FOR_ALL,
                    .column_count = SS_COLUMN_COUNT(group_columns),
                    .columns = group_columns});
    for (int m = 0; m < count; m++) {
        put_group(&sheet, methods[m], true);
        put_group(&sheet, methods[m], false);
    }
}

/* ---- without one of them ---------------------------------------------------------------------------- */

static void put_rerun(ss_sheet *sheet, const ss_rerun *item) {
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, item->kind == SS_RERUN_RELEASED ? "released" : "girder_cut");
    ss_sheet_text(sheet, item->what);
    if (isnan(item->rf)) {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, ss_rated_cut(item->rf, 2));
        ss_sheet_value(sheet, item->rf);
    }
    ss_sheet_text(sheet, item->governs);
    if (isnan(item->primary)) {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, ss_rated_cut(item->primary, 2));
        ss_sheet_value(sheet, item->primary);
    }
    ss_sheet_text(sheet, item->primary_governs);
    ss_sheet_text(sheet, item->failure);
}

static void say_rerun(ss_builder *b, const ss_reruns *reruns, const ss_rerun *item) {
    const char *truck = b->results->bridge->vehicles[reruns->vehicle].name;
    const char *then = item->failure != NULL ? "it could not be rated (see below)"
                                             : ss_build_text(b, "%s, and %s for primary members alone",
                                                             ss_rated_factor(b, item->rf, 2),
                                                             ss_rated_factor(b, item->primary, 2));
    if (item->kind == SS_RERUN_RELEASED) {
        ss_build_sentence(b,
                          "The weakest member, %s, is secondary and rates below 1.00. Taken away, with what "
                          "is seated on it, its load "
                          "goes to the others: %s rates %s. That is a bound, for members that yield before "
                          "they break and whose connections hold; it is no rating of the bridge.",
                          item->what, truck, then);
    } else {
        ss_build_sentence(b,
                          "What if %s were cut through: %s would rate %s. This is no rating: a girder that "
                          "breaks does so with a shock, and what is left carries dead load it was not set "
                          "down with.",
                          item->what, truck, then);
    }
}

static void add_reruns(ss_builder *b, const ss_reruns *reruns) {
    bool any = false;
    for (int i = 0; i < reruns->count; i++) {
        const ss_rerun *item = &reruns->items[i];
        if (item->kind == SS_RERUN_RELEASED || item->kind == SS_RERUN_GIRDER_CUT) {
            say_rerun(b, reruns, item);
            any = true;
        }
    }
    if (!any) {
        return;
    }
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "without",
                       .title = "Redistributed",
                       .note = ss_build_text(
                           b, "By %s, %s; as it stands %s, primary members %s.",
                           b->results->bridge->vehicles[reruns->vehicle].name, ss_method_name(reruns->method),
                           ss_rated_factor(b, reruns->rf, 2), ss_rated_factor(b, reruns->primary, 2)),
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(rerun_columns),
                       .columns = rerun_columns});
    for (int i = 0; i < reruns->count; i++) {
        const ss_rerun *item = &reruns->items[i];
        if (item->kind == SS_RERUN_RELEASED || item->kind == SS_RERUN_GIRDER_CUT) {
            put_rerun(&sheet, item);
        }
    }
}

void ss_part_carriers(ss_builder *b) {
    ss_method methods[3];
    if (ss_rated_methods(b->results->rated, methods) == 0) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Who carries");
    add_groups(b);
    if (b->results->reruns != NULL) {
        add_reruns(b, b->results->reruns);
    }
    add_sizes(b);
}
