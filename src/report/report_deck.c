/* report_deck.c - the deck between its supports under a wheel: a factor for each truck, apart from all
 * members.
 */
#include <math.h>

#include "report/report_ratings.h"
#include "report/report_words.h"
#include "sillspan/deck_rating.h"

/** The weakest factor of one vehicle. */
typedef struct deck_item {
    int check; /* in ss_ratings.checks; -1: none applies */
    int vehicle;
    ss_deck_rating rating;
} deck_item;

typedef struct deck_items {
    deck_item *items;
    int count;
} deck_items;

/* Over the crossings of a vehicle and the strength checks of a method that decide. */
static deck_item weakest_of(const ss_results *results, const ss_deck_layout *layout, int vehicle,
                            ss_method method) {
    const ss_ratings *ratings = results->rated;
    deck_item worst = {.check = -1};
    for (int t = 0; t < ratings->traffic_count; t++) {
        const ss_traffic *traffic = &results->placements->traffic[t];
        const ss_vehicle *one = &results->bridge->vehicles[vehicle];
        const ss_crossing_facts facts = ss_traffic_facts(results->bridge, traffic);
        for (int c = 0; traffic->vehicle == vehicle && c < ratings->check_count; c++) {
            const ss_check *check = &ratings->checks[c];
            if (check->method != method || check->limit != SS_LIMIT_STRENGTH ||
                !ss_check_applies(results->bridge, check, one) || !ss_rated_governs(results, c, t)) {
                continue;
            }
            const ss_deck_rating rating = ss_deck_rating_of(results->bridge, layout, check, one, &facts);
            if (worst.check < 0 || (rating.why != NULL && worst.rating.why == NULL) ||
                ss_rated_less(rating.rf, worst.rating.rf)) {
                worst = (deck_item){.check = c, .vehicle = vehicle, .rating = rating};
            }
        }
    }
    return worst;
}

/* One item for each vehicle that some deciding check is for, by the first method. */
static deck_items find_items(ss_builder *b, const ss_deck_layout *layout) {
    const int most = b->results->bridge->vehicle_count;
    deck_items out = {0};
    ss_method methods[3];
    if (layout->why != NULL || ss_rated_methods(b->results->rated, methods) == 0) {
        return out;
    }
    out.items = ss_arena_alloc(&b->report->arena, (size_t)most + 1, sizeof *out.items);
    b->failed = b->failed || out.items == NULL;
    for (int v = 0; v < most && !b->failed; v++) {
        const deck_item item = weakest_of(b->results, layout, v, methods[0]);
        if (item.check >= 0) {
            out.items[out.count++] = item;
        }
    }
    return out;
}

/* ---- words -------------------------------------------------------------------------------------- */

static const char *supports(ss_builder *b, const ss_deck_layout *layout) {
    const ss_member_kind kind = b->results->bridge->deck.along ? SS_MEMBER_BEAM : SS_MEMBER_LINE;
    return ss_build_text(b, "%s and %s", ss_words_the_member(b, kind, layout->from),
                         ss_words_the_member(b, kind, layout->to));
}

static const char *holes(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    const char *list = "";
    for (int i = 0; i < bridge->finding_count; i++) {
        if (bridge->findings[i].kind == SS_FOUND_HOLE) {
            list =
                ss_build_text(b, "%s%s\"%s\"", list, list[0] == '\0' ? "" : ", ", bridge->findings[i].name);
        }
    }
    return list;
}

static void say_layout(ss_builder *b, const ss_deck_layout *layout) {
    const ss_deck *deck = &b->results->bridge->deck;
    ss_build_sentence(
        b,
        "The deck \"%s\" (%s) as a beam of %s, its widest span with a wheel on it, between %s. A "
        "wheel presses on 10 x 20 in; surfacing spreads nothing. Its factors stand by themselves: none "
        "of them goes into the rating of the bridge or its posting.",
        deck->name, deck->kind, ss_words_length(b, layout->span), supports(b, layout));
    if (layout->overhang > 1e-6) {
        ss_build_sentence(b,
                          "A wheel can stand up to %s beyond the last support of the deck: overhangs are "
                          "not checked.",
                          ss_words_length(b, layout->overhang));
    }
    const char *seen = holes(b);
    if (seen[0] != '\0') {
        ss_build_sentence(b, "Holes were seen in the deck (%s): the check takes it to be whole.", seen);
    }
}

static void say_factors(ss_builder *b, const deck_item *item) {
    const ss_deck_rating *rating = &item->rating;
    const char *truck = b->results->bridge->vehicles[item->vehicle].name;
    const char *allowance = ss_words_decimals(b, 100.0 * rating->allowance, 1);
    if (rating->allowable) {
        ss_build_sentence(
            b,
            "For %s: allowable values as they are given, dead load and wheel without load factors; "
            "presence %s; allowance %s %% (%s).",
            truck, ss_words_decimals(b, rating->presence, 2), allowance, rating->allowance_basis);
        return;
    }
    ss_build_sentence(
        b,
        "For %s: the nominal strength of the plate, first yield, times %s; dead load times %s and "
        "%s (DW); wheel times %s (%s), %s (%s) and an allowance of %s %% (%s).",
        truck, ss_words_decimals(b, rating->resistance, 2), ss_words_decimals(b, rating->dc, 2),
        ss_words_decimals(b, rating->dw, 2), ss_words_decimals(b, rating->live_factor, 2), rating->live_basis,
        ss_words_decimals(b, rating->presence, 2), rating->presence_basis, allowance,
        rating->allowance_basis);
}

/* ---- tables ------------------------------------------------------------------------------------- */

static const ss_column deck_columns[] = {
    {"name", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"kind", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"not_rated", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"span", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"between", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"overhang", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"continuous", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dc", "", SS_DIM_AREA_LOAD, 0, SS_FOR_PROGRAMS},
    {"dw", "", SS_DIM_AREA_LOAD, 0, SS_FOR_PROGRAMS},
};

static void put_layout(ss_builder *b, const ss_deck_layout *layout) {
    const ss_deck *deck = &b->results->bridge->deck;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "deck",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(deck_columns),
                                                   .columns = deck_columns});
    ss_sheet_row(&sheet);
    ss_sheet_text(&sheet, deck->name);
    ss_sheet_text(&sheet, deck->kind);
    ss_sheet_text(&sheet, layout->why);
    if (layout->why != NULL) {
        return;
    }
    ss_sheet_value(&sheet, layout->span);
    ss_sheet_text(&sheet, supports(b, layout));
    ss_sheet_value(&sheet, layout->overhang);
    ss_sheet_flag(&sheet, deck->wheel.continuous);
    ss_sheet_value(&sheet, layout->dc);
    ss_sheet_value(&sheet, layout->dw);
}

static const ss_column columns[] = {
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"check", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"wheel", "wheel", SS_DIM_FORCE, 3, SS_FOR_ALL},
    {"strip", "on a strip of", SS_DIM_SMALL_LENGTH, 3, SS_FOR_ALL},
    {"governs", "what governs", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"capacity", "carries", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"dead", "dead load", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"live", "wheel with all factors", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"allowable", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dc_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dw_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"resistance", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"live_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"live_basis", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"presence", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"presence_basis", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"allowance", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"allowance_basis", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"not_rated", "not rated, because", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

/* Terms of one factor; a truck that could not be rated has only its reason. */
static void put_terms(ss_sheet *sheet, const ss_deck_rating *rating) {
    const ss_dimension dimension = rating->bending ? SS_DIM_MOMENT : SS_DIM_FORCE;
    ss_sheet_value(sheet, rating->strip);
    ss_sheet_text(sheet, rating->governs);
    ss_sheet_quantity(sheet, rating->capacity, dimension);
    ss_sheet_quantity(sheet, rating->dead, dimension);
    ss_sheet_quantity(sheet, rating->live, dimension);
    ss_sheet_value(sheet, ss_rated_cut(rating->rf, 2));
    ss_sheet_value(sheet, rating->rf);
    ss_sheet_flag(sheet, rating->allowable);
    ss_sheet_value(sheet, rating->dc);
    ss_sheet_value(sheet, rating->dw);
    ss_sheet_value(sheet, rating->resistance);
    ss_sheet_value(sheet, rating->live_factor);
    ss_sheet_text(sheet, rating->live_basis);
    ss_sheet_value(sheet, rating->presence);
    ss_sheet_text(sheet, rating->presence_basis);
    ss_sheet_value(sheet, rating->allowance);
    ss_sheet_text(sheet, rating->allowance_basis);
    ss_sheet_none(sheet);
}

static void put_item(ss_sheet *sheet, const deck_item *item) {
    const ss_results *results = sheet->builder->results;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, results->bridge->vehicles[item->vehicle].name);
    ss_sheet_text(sheet, results->rated->checks[item->check].name);
    ss_sheet_value(sheet, item->rating.wheel);
    if (item->rating.why == NULL) {
        put_terms(sheet, &item->rating);
        return;
    }
    for (int i = 4; i < SS_COLUMN_COUNT(columns); i++) ss_sheet_none(sheet);
    ss_sheet_text(sheet, item->rating.why);
}

static void add_ratings(ss_builder *b, const deck_items *list) {
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "deck_ratings",
                       .title = "The deck under a wheel",
                       .note = "The worst wheel of each truck for this deck, with the next one "
                               "beside it where that stands on the same span.",
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(columns),
                       .columns = columns});
    for (int i = 0; i < list->count; i++) {
        put_item(&sheet, &list->items[i]);
    }
}

/* The smallest factor, or -1. */
static int weakest(const deck_items *list) {
    int worst = -1;
    for (int i = 0; i < list->count; i++) {
        if (list->items[i].rating.why == NULL &&
            (worst < 0 || ss_rated_less(list->items[i].rating.rf, list->items[worst].rating.rf))) {
            worst = i;
        }
    }
    return worst;
}

void ss_rated_deck(ss_builder *b) {
    const ss_deck_layout layout = ss_deck_layout_of(b->results->bridge);
    const deck_items list = find_items(b, &layout);
    put_layout(b, &layout);
    if (!b->results->bridge->deck.wheel.given) {
        return; /* what is left out says so */
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "The deck between its supports");
    if (layout.why != NULL) {
        ss_build_sentence(b, "The deck is not rated under a wheel: %s.", layout.why);
        return;
    }
    say_layout(b, &layout);
    const int worst = weakest(&list);
    if (worst >= 0) {
        say_factors(b, &list.items[worst]);
    }
    add_ratings(b, &list);
}

void ss_rated_deck_point(ss_builder *b, ss_points *points) {
    const ss_results *results = b->results;
    const ss_deck_layout layout = ss_deck_layout_of(results->bridge);
    const deck_items list = find_items(b, &layout);
    for (int i = 0; i < list.count; i++) {
        if (list.items[i].rating.why != NULL) {
            ss_point(b, points, "The deck itself could not be rated under a wheel: %s.",
                     list.items[i].rating.why);
            break;
        }
    }
    const int worst = weakest(&list);
    if (worst < 0 || !(list.items[worst].rating.rf < 1.0)) {
        return;
    }
    const deck_item *item = &list.items[worst];
    const char *seen = holes(b);
    ss_point(b, points,
             "The deck itself is too weak for a wheel of %s: %s, in %s over a span of %s (see \"The deck "
             "between its supports\"). The factors above are of the members alone.%s",
             results->bridge->vehicles[item->vehicle].name, ss_rated_factor(b, item->rating.rf, 2),
             item->rating.governs, ss_words_length(b, layout.span),
             seen[0] == '\0' ? "" : ss_build_text(b, " Holes were seen in it besides: %s.", seen));
}
