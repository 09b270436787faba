/* report_ratings_bars.c - at a glance: how far each truck gets, and where on the plan the weakest members
 * are. */
#include <math.h>

#include "report/report_ratings.h"
#include "report/report_words.h"

/* Members that the plan numbers, and the room for one's number and words. */
enum { NUMBERED = 6 };

static const ss_column columns[] = {
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"member", "what governs", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

void ss_rated_bars(ss_builder *b, ss_method method) {
    const ss_results *const results = b->results;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){
               .key = "bars",
               .title = ss_build_text(b, "How far each truck gets, %s", ss_method_name(method)),
               .note = "The smallest factor that decides, of each truck. The second upright stroke is 1.00; "
                       "dots are what is short of it.",
               .audience = SS_FOR_PEOPLE,
               .bars = true,
               .column_count = SS_COLUMN_COUNT(columns),
               .columns = columns});
    for (int t = 0; t < results->rated->traffic_count; t++) {
        const int i = ss_rated_alternative(results, t) ? -1 : ss_rated_weakest(results, (int)method, t);
        if (i < 0) {
            continue;
        }
        const ss_rating_item *const item = &results->rated->items[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, ss_words_traffic(b, t));
        ss_sheet_value(&sheet, ss_rated_cut(item->rf, 2));
        ss_sheet_text(&sheet, item->tips ? "the bearings, tipping"
                                         : ss_words_member(b, item->effect.member, item->effect.index));
    }
}

/* Where an effect is on the plan. */
static ss_plan_mark place_of(const ss_bridge *bridge, const ss_effect *e) {
    ss_plan_mark mark = {.x = ss_words_x(bridge, e)};
    switch (e->member) {
    case SS_MEMBER_LINE: mark.y = bridge->lines[e->index].y; break;
    case SS_MEMBER_BEAM: mark.y = e->at; break;
    case SS_MEMBER_JOINT: mark.y = bridge->joints[e->index].y; break;
    case SS_MEMBER_BEARING: mark.y = bridge->lines[bridge->bearings[e->index].line].y; break;
    }
    return mark;
}

/* Numbers that would lie on each other are put side by side. */
static void add_mark(ss_builder *b, ss_plan_mark *marks, int *count, ss_plan_mark mark, int number) {
    const double near = 0.06 * (b->results->bridge->x1 - b->results->bridge->x0);
    for (int i = 0; i < *count; i++) {
        if (fabs(marks[i].y - mark.y) < 0.3 && fabs(marks[i].x - mark.x) < near) {
            marks[i].text = ss_build_text(b, "%s(%d)", marks[i].text, number);
            return;
        }
    }
    mark.text = ss_build_text(b, "(%d)", number);
    marks[(*count)++] = mark;
}

void ss_rated_plan(ss_builder *b, ss_method method) {
    const ss_ratings *const ratings = b->results->rated;
    int *const order = ss_arena_alloc(&b->report->arena, 2 * (size_t)ratings->count + 1, sizeof *order);
    ss_plan_mark marks[NUMBERED];
    int count = 0;
    const char *note = "";
    if (order == NULL) {
        b->failed = true;
        return;
    }
    const int ranked = ss_rated_rank(b->results, (int)method, order);
    for (int i = 0; i < ranked && i < NUMBERED && isfinite(ratings->items[order[i]].rf); i++) {
        const ss_rating_item *const item = &ratings->items[order[i]];
        add_mark(b, marks, &count, place_of(b->results->bridge, &item->effect), i + 1);
        note = ss_build_text(b, "%s%s(%d) %s in %s, %s", note, i == 0 ? "" : "; ", i + 1,
                             ss_words_member(b, item->effect.member, item->effect.index),
                             ss_rated_failure(item), ss_rated_factor(b, item->rf, 2));
    }
    if (count > 0) {
        ss_part_plan(
            b, "Plan, from above, with the weakest kinds of members",
            ss_build_text(b, "The first abutment is at the left. Numbers stand where each is weakest: %s.",
                          note),
            marks, count);
    }
}
