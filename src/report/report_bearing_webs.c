/* report_bearing_webs.c - webs above bearings under one truck: a factor for each point, apart from all
 * members.
 */
#include <math.h>
#include <string.h>

#include "report/report_ratings.h"
#include "report/report_words.h"
#include "sillspan/bearing_rating.h"

/* A reaction smaller than this, in N, is rounding. */
#define ROUNDING 1e-3

/** One bearing point under one truck, or without one where it is not checked. */
typedef struct web_item {
    int bearing;
    int check, traffic; /* -1: none */
    double dead, live;
    ss_bearing_rating rating;
} web_item;

typedef struct web_items {
    web_item *items;
    int count;
    int worst; /* -1: none has a factor */
} web_items;

static double clean(double reaction) {
    return fabs(reaction) < ROUNDING ? 0.0 : reaction;
}

/* The envelope's reaction of a bearing point, or -1. */
static int reaction_of(const ss_envelope *envelope, int bearing) {
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        if (effect->member == SS_MEMBER_BEARING && effect->kind == SS_EFFECT_REACTION &&
            effect->index == bearing) {
            return i;
        }
    }
    return -1;
}

/* The weakest of the strength checks of a method that decide for a truck; check -1: none does. */
static web_item rate_point(const ss_results *results, int bearing, int effect, int traffic,
                           ss_method method) {
    const ss_bridge *bridge = results->bridge;
    const ss_ratings *ratings = results->rated;
    const ss_traffic *of = &results->placements->traffic[traffic];
    const ss_vehicle *vehicle = &bridge->vehicles[of->vehicle];
    const ss_crossing_facts facts = ss_traffic_facts(bridge, of);
    web_item worst = {.bearing = bearing,
                      .check = -1,
                      .traffic = traffic,
                      .dead = clean(results->envelope->dead[effect]),
                      .live = clean(ss_range_extreme(results->envelope, effect, traffic, 1)->value)};
    for (int c = 0; c < ratings->check_count; c++) {
        const ss_check *check = &ratings->checks[c];
        if (check->method != method || check->limit != SS_LIMIT_STRENGTH ||
            !ss_check_applies(bridge, check, vehicle) || !ss_rated_governs(results, c, traffic)) {
            continue;
        }
        const ss_bearing_rating rating = ss_bearing_rating_of(bridge, bearing, check, vehicle, &facts,
                                                              (ss_bearing_load){worst.dead, worst.live});
        if (worst.check < 0 || ss_rated_less(rating.rf, worst.rating.rf)) {
            worst.check = c;
            worst.rating = rating;
        }
    }
    return worst;
}

static void add_item(web_items *list, web_item item) {
    const double rf = item.rating.rf;
    if (item.rating.why == NULL && item.check >= 0 &&
        (list->worst < 0 || ss_rated_less(rf, list->items[list->worst].rating.rf))) {
        list->worst = list->count;
    }
    list->items[list->count++] = item;
}

static void add_point(const ss_results *results, int bearing, ss_method method, web_items *list) {
    const ss_envelope *envelope = results->envelope;
    const int effect = reaction_of(envelope, bearing);
    web_item bare = {.bearing = bearing, .check = -1, .traffic = -1, .rating = {.rf = (double)NAN}};
    (void)ss_bearing_seat_strength(results->bridge, bearing, &bare.rating.why);
    if (bare.rating.why == NULL && effect < 0) {
        bare.rating.why = "its reaction was not computed";
    }
    if (bare.rating.why != NULL) {
        add_item(list, bare);
        return;
    }
    const int before = list->count;
    for (int t = 0; t < envelope->traffic_count; t++) {
        if (!ss_words_abreast(results, t)) {
            const web_item item = rate_point(results, bearing, effect, t, method);
            if (item.check >= 0) {
                add_item(list, item);
            }
        }
    }
    if (list->count == before) {
        bare.rating.why = "no truck alone is among the crossings that decide";
        add_item(list, bare);
    }
}

/* All points with all trucks; empty where nothing was rated. */
static web_items find_items(ss_builder *b) {
    const ss_results *results = b->results;
    web_items list = {.worst = -1};
    ss_method methods[3];
    if (results->envelope == NULL || ss_rated_methods(results->rated, methods) == 0) {
        return list;
    }
    const size_t room =
        (size_t)results->bridge->bearing_count * ((size_t)results->envelope->traffic_count + 1);
    list.items = ss_arena_alloc(&b->report->arena, room + 1, sizeof *list.items);
    b->failed = b->failed || list.items == NULL;
    for (int i = 0; i < results->bridge->bearing_count && !b->failed; i++) {
        add_point(results, i, methods[0], &list);
    }
    return list;
}

/* ---- tables ------------------------------------------------------------------------------------- */

static const ss_column columns[] = {
    {"bearing", "bearing", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "under", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
    {"dead", "dead load", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"live", "one truck", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"check", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"capacity", "carries", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"governs", "what governs", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dead_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"live_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"presence", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"allowance", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"not_rated", "not checked, because", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static void put_truck(ss_sheet *sheet, const web_item *item) {
    ss_builder *b = sheet->builder;
    ss_sheet_value(sheet, item->dead);
    ss_sheet_value(sheet, item->live);
    ss_sheet_text(sheet, ss_words_traffic(b, item->traffic));
    ss_sheet_text(sheet, b->results->rated->checks[item->check].name);
}

static void put_item(ss_sheet *sheet, const web_item *item) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    const ss_bearing *bearing = &bridge->bearings[item->bearing];
    const ss_bearing_rating *rating = &item->rating;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bearing->name);
    ss_sheet_text(sheet, bridge->cars[bearing->car].name);
    ss_sheet_text(sheet, bridge->lines[bearing->line].name);
    ss_sheet_value(sheet, bearing->x);
    if (item->check >= 0) {
        put_truck(sheet, item);
    } else {
        for (int i = 0; i < 4; i++) ss_sheet_none(sheet);
    }
    if (rating->why != NULL) {
        for (int i = 0; i < 8; i++) ss_sheet_none(sheet);
        ss_sheet_text(sheet, rating->why);
        return;
    }
    ss_sheet_value(sheet, rating->capacity);
    ss_sheet_text(sheet, rating->governs);
    ss_sheet_value(sheet, ss_rated_cut(rating->rf, 2));
    ss_sheet_value(sheet, rating->rf);
    ss_sheet_value(sheet, rating->dead_factor);
    ss_sheet_value(sheet, rating->live_factor);
    ss_sheet_value(sheet, rating->presence);
    ss_sheet_value(sheet, rating->allowance);
    ss_sheet_none(sheet);
}

static ss_sheet new_table(ss_builder *b, ss_audience audience, const char *key) {
    return ss_build_table(
        b, &(ss_table){.key = key,
                       .title = "Webs above bearings",
                       .note = "The truck with the smallest factor at each point; reactions without factors, "
                               "and what the webs carry by the check.",
                       .audience = audience,
                       .column_count = SS_COLUMN_COUNT(columns),
                       .columns = columns});
}

/* The weakest truck of a point, or its reason; points without a length are told of in a sentence. */
static void put_worst(ss_sheet *sheet, const web_items *list, int from, int to) {
    int worst = from;
    for (int i = from + 1; i < to; i++) {
        const bool known = list->items[worst].rating.why == NULL;
        if (list->items[i].rating.why == NULL &&
            (!known || ss_rated_less(list->items[i].rating.rf, list->items[worst].rating.rf))) {
            worst = i;
        }
    }
    put_item(sheet, &list->items[worst]);
}

static bool is_given(const ss_bearing *bearing) {
    return bearing->length > 0.0 || bearing->stiffened;
}

static void add_people(ss_builder *b, const web_items *list) {
    ss_sheet sheet = new_table(b, SS_FOR_PEOPLE, "bearing_webs_worst");
    for (int i = 0; i < list->count;) {
        int end = i;
        while (end < list->count && list->items[end].bearing == list->items[i].bearing) end++;
        if (is_given(&b->results->bridge->bearings[list->items[i].bearing])) {
            put_worst(&sheet, list, i, end);
        }
        i = end;
    }
}

/* ---- words -------------------------------------------------------------------------------------- */

/* Trucks of which another loading, as of a lane, is left out; "" when there are none. */
static const char *without_lanes(ss_builder *b, const web_items *list) {
    const ss_results *results = b->results;
    const char *names = "";
    for (int v = 0; v < results->bridge->vehicle_count; v++) {
        bool used = false;
        for (int i = 0; i < list->count; i++) {
            used = used || (list->items[i].check >= 0 &&
                            results->placements->traffic[list->items[i].traffic].vehicle == v);
        }
        if (used && results->bridge->vehicles[v].also != NULL) {
            names = ss_build_text(b, "%s%s%s", names, names[0] == '\0' ? "" : ", ",
                                  results->bridge->vehicles[v].name);
        }
    }
    return names;
}

static void say_how(ss_builder *b, const web_items *list) {
    ss_build_sentence(
        b, "Webs without bearing stiffeners against local yielding and crippling (AASHTO LRFD D6.5.2 and "
           "D6.5.3, from memory). Reactions are those of one truck alone with the bearings' contact at the "
           "truck as it is, not at its factored weight, and both springs of a pad together; all dead load "
           "counts with the larger of its factors. These factors go into no rating and no posting.");
    const char *names = without_lanes(b, list);
    if (names[0] != '\0') {
        ss_build_sentence(b, "Of %s the axles alone count, without lane loads and other loadings.", names);
    }
}

void ss_rated_bearing_webs(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    const web_items list = find_items(b);
    int given = 0;
    if (list.count == 0) {
        return;
    }
    for (int i = 0; i < bridge->bearing_count; i++) given += is_given(&bridge->bearings[i]);
    ss_build_heading(b, SS_FOR_PEOPLE, "Webs above bearings");
    if (given > 0) {
        say_how(b, &list);
    }
    if (given < bridge->bearing_count) {
        ss_build_sentence(
            b, "Webs above %s: not checked, no length given (bridge.bearings[].length).",
            ss_words_count(b, bridge->bearing_count - given, "bearing point", "bearing points"));
    }
    if (given > 0) {
        add_people(b, &list);
    }
    ss_sheet sheet = new_table(b, SS_FOR_PROGRAMS, "bearing_webs");
    for (int i = 0; i < list.count; i++) put_item(&sheet, &list.items[i]);
}

void ss_rated_bearing_webs_point(ss_builder *b, ss_points *points) {
    const web_items list = find_items(b);
    if (list.worst < 0 || !(list.items[list.worst].rating.rf < 1.0)) {
        return;
    }
    const web_item *item = &list.items[list.worst];
    ss_point(b, points,
             "The web above %s is too weak for %s without bearing stiffeners: %s, %s (see \"Webs above "
             "bearings\"). The factors above do not see that.",
             ss_words_the_member(b, SS_MEMBER_BEARING, item->bearing), ss_words_traffic(b, item->traffic),
             ss_rated_factor(b, item->rating.rf, 2), item->rating.governs);
}
