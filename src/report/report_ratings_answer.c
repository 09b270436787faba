/* report_ratings_answer.c - the first lines of a rating: what governs and why, which trucks pass, how the
 * methods compare. */
#include "report/report_ratings.h"

#include <math.h>
#include <string.h>

#include "report/report_words.h"

/* Bearings that change on the way, and what follows from that. */
static void say_contact(ss_builder *b, ss_points *points, const ss_rating_item *item) {
    if (fabs(item->rf_linear - item->rf) > 0.005 * fabs(item->rf) && isfinite(item->rf_linear)) {
        ss_point(b, points,
                 "Bearings lift or close on the way to that load; had they stayed as they stand under dead "
                 "load, the factor would read %s.",
                 ss_rated_factor(b, item->rf_linear, 2));
    }
    if (item->proved >= (1.0 - SS_RATING_PROVED_WITHIN) * item->rf) {
        ss_point(b, points,
                 "All %s of these trucks were gone through for this section, with the bearings as they lift: "
                 "proved that none fills it below %s.",
                 ss_rated_arrangements(b, item), ss_rated_factor(b, item->proved, 3));
    } else if (!isnan(item->proved)) {
        ss_point(b, points,
                 "Of all %s of these trucks it is proved only that none fills this section below %s. That is "
                 "the conservative factor: there may be arrangements between it and the %s that was found.",
                 ss_rated_arrangements(b, item), ss_rated_factor(b, item->proved, 3),
                 ss_rated_factor(b, item->rf, 3));
    } else if (item->local) {
        ss_point(b, points,
                 "Which bearings lift hangs on where these trucks stand, and their worst places on which "
                 "bearings lift: they were found by moving one truck after the other until none made it "
                 "worse. Another arrangement may be worse still.");
    }
    if (item->minimum_dead) {
        ss_point(b, points, "Dead load helps here, so it counts with its smallest load factors.");
    }
}

/* How the capacity is used up. */
static void say_reason(ss_builder *b, ss_points *points, const ss_rating_item *item) {
    const ss_dimension dimension = ss_words_dimension(b->results->bridge, &item->effect);
    const double capacity = item->capacity;
    if (!(fabs(capacity) > 0.0)) {
        return;
    }
    const char *load = ss_words_traffic(b, item->traffic);
    ss_point(b, points,
             "The main reason: of the %s that the %s can carry there, dead load takes %s %%, and %s%s with "
             "all factors %s %s %%.",
             ss_words_quantity(b, fabs(capacity), dimension, 4),
             item->effect.member == SS_MEMBER_JOINT ? "joint" : "section",
             ss_words_decimals(b, 100.0 * item->dead / capacity, 0), ss_rated_abreast(item) ? "" : "one ",
             load, ss_rated_abreast(item) ? "take" : "takes",
             ss_words_decimals(b, 100.0 * ss_rated_live(item) / capacity, 0));
}

static void say_controlling(ss_builder *b, ss_points *points, const ss_rating_item *item) {
    const char *member = ss_words_the_member(b, item->effect.member, item->effect.index);
    const char *truck = ss_words_traffic(b, item->traffic);
    const char *place = ss_words_place(b, &item->effect);
    const char *check = b->results->rated->checks[item->check].name;
    const char *them = ss_rated_abreast(item) ? "them" : "it";
    if (isinf(item->rf)) {
        ss_build_sentence(b, "No truck asked for brings any rated member to its capacity.");
        return;
    }
    if (!(item->rf > 0.0)) {
        ss_build_sentence(b, "No truck at all: %s cannot carry the dead load itself in %s %s (%s).", member,
                          ss_words_failure(item->effect.kind), place, check);
        return;
    }
    if (item->tips) {
        ss_build_sentence(b,
                          "%s governs: at %s of %s the bridge tips off its bearings, before %s is full (%s).",
                          truck, ss_rated_factor(b, item->rf, 2), them, member, check);
    } else {
        ss_build_sentence(b, "%s governs: %s carries %s of %s, in %s %s (%s).", truck, member,
                          ss_rated_factor(b, item->rf, 2), them, ss_words_failure(item->effect.kind), place,
                          check);
        say_reason(b, points, item);
    }
    if (item->joint_out) {
        ss_point(b, points,
                 "That is the bridge with a joint out: the joint is full before the members are, so that a "
                 "rating that relies on it does not hold (see \"Joints that are full first\").");
    }
    say_contact(b, points, item);
    for (int i = 0; i < item->truck_count && item->position[i].track >= 0; i++) {
        ss_point(b, points, "%s.", ss_rated_position(b, item, i));
    }
}

/* "EV2 (0.55)", of the crossings whose factor is on one side of 1. */
static const char *list_trucks(ss_builder *b, int method, bool enough, int *count) {
    const ss_results *results = b->results;
    const char *list = "";
    *count = 0;
    for (int t = 0; t < results->rated->traffic_count; t++) {
        const int i = ss_rated_alternative(results, t) ? -1 : ss_rated_weakest(results, method, t);
        if (i < 0 || (results->rated->items[i].rf >= 1.0) != enough) {
            continue;
        }
        const char *name = ss_words_traffic(b, t);
        const double rf = results->rated->items[i].rf;
        list = isinf(rf) ? ss_build_text(b, "%s%s%s", list, *count == 0 ? "" : "; ", name)
                         : ss_build_text(b, "%s%s%s (%s)", list, *count == 0 ? "" : "; ", name,
                                         ss_rated_factor(b, rf, 2));
        (*count)++;
    }
    return list;
}

static void say_passing(ss_builder *b, ss_points *points, int method) {
    int passing = 0;
    int failing = 0;
    const char *pass = list_trucks(b, method, true, &passing);
    const char *fail = list_trucks(b, method, false, &failing);
    if (failing > 0) {
        ss_point(b, points, "Too heavy, below 1.00: %s.", fail);
    }
    if (passing > 0) {
        ss_point(b, points, "%s, at 1.00 or more: %s.", failing > 0 ? "Carried" : "All are carried", pass);
    }
}

/* The smallest factor by each method, when there are several. */
static void say_methods(ss_builder *b, ss_points *points, const ss_method *methods, int count) {
    const ss_results *results = b->results;
    const char *parts[3];
    for (int i = 0; i < count; i++) {
        const int weakest = ss_rated_weakest(results, (int)methods[i], -1);
        if (weakest < 0) {
            return;
        }
        const ss_rating_item *item = &results->rated->items[weakest];
        parts[i] = ss_build_text(b, "%s %s for %s", ss_method_name(methods[i]),
                                 ss_rated_factor(b, item->rf, 2), ss_words_traffic(b, item->traffic));
    }
    if (count > 1) {
        ss_point(b, points, "The smallest factor by each method: %s.", ss_words_join(b, parts, count));
    }
}

/* What the manual's sequence leaves out, when it is asked for. */
static void say_sequence(ss_builder *b, ss_points *points) {
    const ss_results *results = b->results;
    double inventory = (double)NAN;
    double operating = (double)NAN;
    int left_out = 0;
    if (!results->bridge->rating.manual_sequence) {
        return;
    }
    ss_rated_design(results, &inventory, &operating);
    for (int t = 0; t < results->rated->traffic_count; t++) {
        for (int c = 0; c < results->rated->check_count; c++) {
            if (ss_ratings_governing(results->rated, c, t) >= 0 && !ss_rated_alternative(results, t) &&
                !ss_rated_counts(results, c, t)) {
                left_out++;
                break;
            }
        }
    }
    if (isnan(inventory)) {
        ss_point(
            b, points,
            "The manual's sequence is asked for, but its first step is not among the ratings: the design "
            "load was not rated, so that every truck counts.");
        return;
    }
    ss_point(
        b, points,
        "By the manual's sequence the design load comes first: %s at inventory, %s at operating level. %s",
        ss_rated_factor(b, inventory, 2), isnan(operating) ? "not rated" : ss_rated_factor(b, operating, 2),
        left_out == 0 ? "It falls short, so that all legal loads count."
                      : ss_build_text(b, "That leaves out %s, marked below; emergency vehicles always count.",
                                      ss_words_count(b, left_out, "crossing", "crossings")));
}

static void say_speed(ss_builder *b, ss_points *points) {
    const double speed = b->results->bridge->rating.speed; /* m/s; NaN or 0: no restriction */
    const bool si = b->report->units == SS_UNITS_SI;
    if (speed > 0.0 && isfinite(speed)) {
        ss_point(b, points,
                 "As the rating settings say, this holds for trucks at %s %s or less; emergency vehicles and "
                 "design loads keep their full allowance.",
                 ss_words_quantity(b, speed / (si ? 1.0 / 3.6 : 0.44704), SS_DIM_NUMBER, 3),
                 si ? "km/h" : "mph");
    }
}

static void say_requirement(ss_builder *b, ss_points *points) {
    const ss_results *results = b->results;
    if (!isnan(results->require)) {
        ss_point(b, points,
                 "A factor of %s was required of every member, joint and bearing by every method: it is %s.",
                 ss_words_quantity(b, results->require, SS_DIM_NUMBER, 4),
                 ss_report_requirement_met(results) ? "met" : "NOT met");
    }
}

static const ss_column check_columns[] = {
    {"check", "check", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"member", "what governs", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
};

/* The smallest of one check over all crossings that are no alternatives, or -1. */
static int worst_of_check(const ss_results *results, int check) {
    const ss_ratings *ratings = results->rated;
    int worst = -1;
    for (int t = 0; t < ratings->traffic_count; t++) {
        const int i = ss_ratings_governing(ratings, check, t);
        if (i >= 0 && !ss_rated_alternative(results, t) &&
            (worst < 0 || ss_rated_less(ratings->items[i].rf, ratings->items[worst].rf))) {
            worst = i;
        }
    }
    return worst;
}

static void add_checks(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_ratings *ratings = results->rated;
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){.key = "checks_worst",
                    .title = "Check by check",
                    .note = "The smallest factor by each check. Inventory level says what the bridge could "
                            "carry day in, day out; deflection is a matter of comfort: neither decides "
                            "whether a truck may cross.",
                    .audience = SS_FOR_PEOPLE,
                    .column_count = SS_COLUMN_COUNT(check_columns),
                    .columns = check_columns});
    for (int c = 0; c < ratings->check_count; c++) {
        const int i = worst_of_check(results, c);
        if (i < 0) {
            continue;
        }
        const ss_rating_item *item = &ratings->items[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, ratings->checks[c].name);
        ss_sheet_value(&sheet, ss_rated_cut(item->rf, 2));
        ss_sheet_text(&sheet, ss_words_traffic(b, item->traffic));
        ss_sheet_text(&sheet, ss_words_member(b, item->effect.member, item->effect.index));
        ss_sheet_text(&sheet, ss_rated_failure(item));
        ss_sheet_value(&sheet, ss_words_x(results->bridge, &item->effect));
    }
}

void ss_part_answer_ratings(ss_builder *b) {
    const ss_results *results = b->results;
    ss_method methods[3];
    const int count = ss_rated_methods(results->rated, methods);
    ss_build_heading(b, SS_FOR_PEOPLE, "The answer");
    if (strcmp(results->command, "report") == 0) {
        ss_part_summary(b);
    }
    const int controlling = ss_rated_controlling(results);
    if (controlling < 0) {
        ss_build_sentence(b, "Nothing could be rated: no truck is asked for, or no member has a capacity.");
        return;
    }
    ss_points points = {.count = 0};
    say_controlling(b, &points, &results->rated->items[controlling]);
    say_passing(b, &points, (int)methods[0]);
    say_methods(b, &points, methods, count);
    say_sequence(b, &points);
    say_speed(b, &points);
    if (results->posting != NULL) {
        ss_point(b, &points, "%s", results->posting->recommendation);
    }
    ss_rated_deck_point(b, &points);
    ss_rated_bearing_webs_point(b, &points);
    ss_slab_point(b, &points);
    say_requirement(b, &points);
    ss_build_points(b, &points);
}

void ss_part_answer_tables(ss_builder *b) {
    ss_method methods[3];
    if (ss_rated_controlling(b->results) < 0) {
        return;
    }
    const int count = ss_rated_methods(b->results->rated, methods);
    const bool by_itself = strcmp(b->results->command, "rate") == 0; /* a page to be filed has figures */
    if (by_itself) {
        ss_rated_bars(b, methods[0]);
        ss_rated_plan(b, methods[0]);
    }
    for (int i = 0; i < count; i++) {
        ss_rated_trucks(b, methods[i]);
    }
    add_checks(b);
    ss_build_sentence(
        b, "Factor: how many times the whole truck, or all trucks abreast, the weakest place "
           "carries; below 1.00 they are too heavy for it by that check. Factors are cut off, not rounded.");
    ss_build_sentence(b, "A factor of 1.00 or more is no permit to cross; read the caution at the end.");
}
