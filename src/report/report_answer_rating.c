/* report_answer_rating.c - the first lines of a rating: what governs and why, and one line a truck. */
#include "report/report_parts.h"

#include <math.h>

#include "report/report_words.h"

static const double ton_N = 8896.443230521; /* 2000 pounds-force, NIST SP 811 */
static const double tonne_N = 1000.0 * SS_GRAVITY;

/* How the capacity is used up, and what the bearings have to do with it. */
static void say_reason(ss_builder *b, ss_points *points, const ss_rating *rating) {
    const ss_bridge *bridge = b->results->bridge;
    const ss_dimension dimension = ss_words_dimension(bridge, &rating->effect);
    const double capacity = rating->capacity;
    if (!(fabs(capacity) > 0.0)) {
        return;
    }
    const double dead = 100.0 * rating->dead / capacity;
    const double live =
        100.0 * rating->factors.live * (1.0 + rating->factors.allowance) * rating->live / capacity;
    ss_point(b, points,
             "The main reason: of the %s that the section can carry there, dead load takes %s %%, and one "
             "%s with its load factor and dynamic allowance takes %s %%.",
             ss_words_quantity(b, fabs(capacity), dimension, 4), ss_words_decimals(b, dead, 0),
             ss_words_traffic(b, rating->traffic), ss_words_decimals(b, live, 0));
    if (fabs(rating->rf_linear - rating->rf) > 0.005 * fabs(rating->rf) && isfinite(rating->rf_linear)) {
        ss_point(b, points,
                 "Bearings lift or close on the way to that load; had they stayed as they stand under dead "
                 "load, the factor would read %s.",
                 ss_words_decimals(b, rating->rf_linear, 2));
    }
}

static void say_controlling(ss_builder *b, ss_points *points) {
    const ss_rating_result *ratings = b->results->ratings;
    const ss_rating *rating = &ratings->items[ratings->controlling];
    const char *member = ss_words_member(b, rating->effect.member, rating->effect.index);
    const char *truck = ss_words_traffic(b, rating->traffic);
    const char *place = ss_words_place(b, &rating->effect);
    if (isinf(rating->rf)) {
        ss_build_sentence(b, "No truck asked for brings any rated member to its capacity.");
        return;
    }
    if (!(rating->rf > 0.0)) {
        ss_build_sentence(b, "The %s cannot carry the factored dead load in %s %s: no truck at all.", member,
                          ss_words_failure(rating->effect.kind), place);
    } else if (rating->tips) {
        ss_build_sentence(b,
                          "%s governs: at %s of it the bridge tips off its bearings, before the %s is full.",
                          truck, ss_words_decimals(b, rating->rf, 2), member);
    } else {
        ss_build_sentence(b, "%s governs: the %s carries %s of it, in %s %s.", truck, member,
                          ss_words_decimals(b, rating->rf, 2), ss_words_failure(rating->effect.kind), place);
    }
    if (!(rating->rf > 0.0)) {
        return;
    }
    if (!rating->tips) {
        say_reason(b, points, rating);
    }
    ss_point(b, points, "The truck stands so: %s.", ss_words_position(b, &rating->position));
}

static void say_requirement(ss_builder *b, ss_points *points) {
    const ss_results *results = b->results;
    if (isnan(results->require)) {
        return;
    }
    ss_point(b, points, "A factor of %s was required of every member, joint and bearing: it is %s.",
             ss_words_quantity(b, results->require, SS_DIM_NUMBER, 4),
             ss_report_requirement_met(results) ? "met" : "NOT met");
}

static const ss_column truck_columns[] = {
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"carried", "tons", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"gross", "of", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"member", "what governs", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
};

static void add_trucks(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_rating_result *ratings = results->ratings;
    const bool si = b->report->units == SS_UNITS_SI;
    const int count = SS_COLUMN_COUNT(truck_columns);
    ss_column *columns = ss_arena_alloc(&b->report->arena, (size_t)count, sizeof *columns);
    if (columns == NULL) {
        b->failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        columns[i] = truck_columns[i];
    }
    columns[2].title = si ? "tonnes" : "tons";
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){
            .key = "trucks",
            .title = "Truck by truck",
            .note = "Factor: how many times the whole truck the weakest place carries; below 1.00 the truck "
                    "is too heavy for it under this rule.",
            .audience = SS_FOR_PEOPLE,
            .column_count = count,
            .columns = columns});
    for (int t = 0; t < ratings->traffic_count; t++) {
        if (ratings->by_traffic[t] < 0) {
            continue;
        }
        const ss_rating *rating = &ratings->items[ratings->by_traffic[t]];
        const ss_traffic *traffic = &results->placements->traffic[t];
        const double gross = ss_vehicle_gross(&results->bridge->vehicles[traffic->vehicle]);
        const double unit = si ? tonne_N : ton_N;
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, ss_words_traffic(b, t));
        ss_sheet_value(&sheet, rating->rf);
        ss_sheet_value(&sheet, rating->tons * ton_N / unit);
        ss_sheet_value(&sheet, gross / unit);
        if (rating->tips) {
            ss_sheet_text(&sheet, "the bearings");
            ss_sheet_text(&sheet, "tipping");
            ss_sheet_none(&sheet);
        } else {
            ss_sheet_text(&sheet, ss_words_member(b, rating->effect.member, rating->effect.index));
            ss_sheet_text(&sheet, ss_words_failure(rating->effect.kind));
            ss_sheet_value(&sheet, ss_words_x(results->bridge, &rating->effect));
        }
    }
}

void ss_part_answer_rating(ss_builder *b) {
    const ss_rating_result *ratings = b->results->ratings;
    ss_build_heading(b, SS_FOR_PEOPLE, "The answer");
    if (ratings->controlling < 0) {
        ss_build_sentence(b, "Nothing could be rated: no truck is asked for, or no member has a capacity.");
        return;
    }
    ss_points points = {.count = 0};
    say_controlling(b, &points);
    say_requirement(b, &points);
    ss_build_points(b, &points);
    add_trucks(b);
    ss_build_sentence(b, "A factor of 1.00 or more is no permit to cross; read the caution at the end.");
}
