/* report_ratings_pick.c - who decides and who is weakest among the factors of a rating. */
#include "report/report_ratings.h"

#include <math.h>
#include <string.h>

#include "report/report_words.h"

/* Condition and system factor together are not less (MBE 6A.4.2.1, from memory). */
#define LEAST_BOTH 0.85

/* Design loads are a yardstick, inventory a level for every day: each decides only where a method has looked
 * at nothing that comes nearer to the trucks that cross. */
static int nearness(const ss_check *check) {
    return check->level == SS_LEVEL_INVENTORY ? 0 : check->level == SS_LEVEL_OPERATING ? 1 : 2;
}

bool ss_rated_decides(const ss_ratings *ratings, int check) {
    const ss_check *one = &ratings->checks[check];
    if (one->limit == SS_LIMIT_DEFLECTION) {
        return false;
    }
    for (int i = 0; i < ratings->check_count; i++) {
        const ss_check *other = &ratings->checks[i];
        if (other->method == one->method && other->limit != SS_LIMIT_DEFLECTION && ratings->worst[i] >= 0 &&
            nearness(other) > nearness(one)) {
            return false;
        }
    }
    return true;
}

bool ss_rated_alternative(const ss_results *results, int traffic) {
    const int crossing = results->placements->traffic[traffic].crossing;
    return results->placements->traffic[traffic].run < 0 && crossing >= 0 &&
           crossing < results->bridge->crossing_count && results->bridge->crossings[crossing].alternative;
}

/* The smallest factor of the design load at a level, by all LRFR checks of it; NaN: it was not rated. */
static double design_factor(const ss_results *results, ss_level level) {
    const ss_ratings *ratings = results->rated;
    double smallest = (double)NAN;
    for (int c = 0; c < ratings->check_count; c++) {
        const ss_check *check = &ratings->checks[c];
        if (check->method != SS_METHOD_LRFR || check->level != level || check->limit == SS_LIMIT_DEFLECTION) {
            continue;
        }
        for (int t = 0; t < ratings->traffic_count; t++) {
            const int i = ss_ratings_governing(ratings, c, t);
            if (i >= 0 && !ss_rated_alternative(results, t)) {
                smallest = fmin(smallest, ratings->items[i].rf);
            }
        }
    }
    return smallest;
}

void ss_rated_design(const ss_results *results, double *inventory, double *operating) {
    *inventory = design_factor(results, SS_LEVEL_INVENTORY);
    *operating = design_factor(results, SS_LEVEL_OPERATING);
}

bool ss_rated_counts(const ss_results *results, int check, int traffic) {
    const ss_bridge *bridge = results->bridge;
    if (!bridge->rating.manual_sequence) {
        return true;
    }
    double inventory = (double)NAN;
    double operating = (double)NAN;
    ss_rated_design(results, &inventory, &operating);
    return ss_sequence_counts(bridge, &results->rated->checks[check],
                              &bridge->vehicles[results->placements->traffic[traffic].vehicle], inventory,
                              operating);
}

bool ss_rated_governs(const ss_results *results, int check, int traffic) {
    return ss_rated_decides(results->rated, check) && !ss_rated_alternative(results, traffic) &&
           ss_rated_counts(results, check, traffic);
}

bool ss_rated_less(double a, double b) {
    return a < b && (isinf(b) || b - a > 1e-9 * b);
}

int ss_rated_weakest(const ss_results *results, int method, int traffic) {
    const ss_ratings *ratings = results->rated;
    int weakest = -1;
    for (int c = 0; c < ratings->check_count; c++) {
        if ((method >= 0 && (int)ratings->checks[c].method != method) || !ss_rated_decides(ratings, c)) {
            continue;
        }
        for (int t = 0; t < ratings->traffic_count; t++) {
            const int item = ss_ratings_governing(ratings, c, t);
            if (item < 0 || (traffic < 0 ? ss_rated_alternative(results, t) : t != traffic) ||
                !ss_rated_counts(results, c, t)) {
                continue;
            }
            if (weakest < 0 || ss_rated_less(ratings->items[item].rf, ratings->items[weakest].rf)) {
                weakest = item;
            }
        }
    }
    return weakest;
}

int ss_rated_methods(const ss_ratings *ratings, ss_method methods[3]) {
    int count = 0;
    for (int c = 0; c < ratings->check_count; c++) {
        const ss_check *check = &ratings->checks[c];
        bool known = ratings->worst[c] < 0 || check->limit == SS_LIMIT_DEFLECTION;
        for (int i = 0; i < count; i++) {
            known = known || methods[i] == check->method;
        }
        if (!known && count < 3) {
            methods[count++] = check->method;
        }
    }
    return count;
}

int ss_rated_controlling(const ss_results *results) {
    ss_method methods[3];
    return ss_rated_methods(results->rated, methods) == 0 ? -1
                                                          : ss_rated_weakest(results, (int)methods[0], -1);
}

double ss_rated_live(const ss_rating_item *item) {
    const ss_method_factors *factors = &item->factors;
    return factors->live * factors->presence * (1.0 + factors->allowance) * item->live;
}

double ss_rated_clean(const ss_rating_item *item, double value) {
    return fabs(value) <= 1e-9 * fabs(item->capacity) ? 0.0 : value;
}

double ss_rated_condition_system(const ss_rating_item *item) {
    const ss_method_factors *const f = &item->factors;
    if (item->nominal.value == 0.0) { /* as a slab without bars */
        return f->condition * f->system < LEAST_BOTH ? LEAST_BOTH : f->condition * f->system;
    }
    return fabs(item->capacity) / (f->phi * item->nominal.value);
}

bool ss_rated_same_group(const ss_bridge *bridge, const ss_effect *a, const ss_effect *b) {
    if (a->member != b->member || (a->kind == SS_EFFECT_MOMENT) != (b->kind == SS_EFFECT_MOMENT)) {
        return false;
    }
    switch (a->member) {
    case SS_MEMBER_LINE:
        return bridge->lines[a->index].car == bridge->lines[b->index].car &&
               strcmp(bridge->lines[a->index].set, bridge->lines[b->index].set) == 0;
    case SS_MEMBER_BEAM:
        return bridge->floor_beams[a->index].car == bridge->floor_beams[b->index].car &&
               strcmp(bridge->floor_beams[a->index].set, bridge->floor_beams[b->index].set) == 0;
    case SS_MEMBER_JOINT:
    case SS_MEMBER_BEARING: break;
    }
    return a->index == b->index;
}

/* Moves the last of `count` indices to its place: weakest first. */
static void settle_last(const ss_rating_item *items, int *order, int count) {
    const int last = order[count - 1];
    int place = count - 1;
    for (; place > 0 && ss_rated_less(items[last].rf, items[order[place - 1]].rf); place--) {
        order[place] = order[place - 1];
    }
    order[place] = last;
}

int ss_rated_rank(const ss_results *results, int method, int *order) {
    const ss_ratings *ratings = results->rated;
    const ss_rating_item *items = ratings->items;
    int *weakest = order + ratings->count;
    int count = 0;
    for (int i = 0; i < ratings->count; i++) {
        if ((int)ratings->checks[items[i].check].method != method ||
            !ss_rated_governs(results, items[i].check, items[i].traffic)) {
            continue;
        }
        int k = 0;
        while (k < count &&
               !ss_rated_same_group(results->bridge, &items[weakest[k]].effect, &items[i].effect)) {
            k++;
        }
        if (k == count) {
            weakest[count++] = i;
        } else if (ss_rated_less(items[i].rf, items[weakest[k]].rf)) {
            weakest[k] = i;
        }
    }
    for (int k = 0; k < count; k++) {
        order[k] = weakest[k];
        settle_last(items, order, k + 1);
    }
    return count;
}

const char *ss_rated_member(const ss_bridge *bridge, const ss_effect *effect) {
    switch (effect->member) {
    case SS_MEMBER_LINE: return bridge->lines[effect->index].name;
    case SS_MEMBER_BEAM:
        return ss_words_strip(bridge, effect->member, effect->index)
                   ? "concrete deck"
                   : bridge->floor_beams[effect->index].name;
    case SS_MEMBER_JOINT: return bridge->joints[effect->index].name;
    case SS_MEMBER_BEARING: return bridge->bearings[effect->index].name;
    }
    return "";
}

const char *ss_rated_failure(const ss_rating_item *item) {
    return item->tips ? "tipping" : ss_words_failure(item->effect.kind);
}

bool ss_rated_twist_note(const ss_rating_item *item) {
    const bool web = item->effect.kind == SS_EFFECT_WEB_PLUS || item->effect.kind == SS_EFFECT_WEB_MINUS;
    return web && item->effect.torsion_shear > 0.0;
}

bool ss_rated_abreast(const ss_rating_item *item) {
    return item->truck_count > 1;
}

const char *ss_rated_position(ss_builder *b, const ss_rating_item *item, int truck) {
    const ss_results *results = b->results;
    const ss_position *position = &item->position[truck];
    const char *place = ss_words_position(b, position);
    if (!ss_rated_abreast(item)) {
        return ss_build_text(b, "The truck stands so: %s", place);
    }
    const int vehicle = results->placements->tracks[position->track].vehicle;
    return ss_build_text(b, "%s stands so: %s", results->bridge->vehicles[vehicle].name, place);
}

double ss_rated_cut(double rf, int decimals) {
    const double scale = pow(10.0, decimals);
    return isfinite(rf) && fabs(rf) < 1e9 ? floor(rf * scale + 1e-7) / scale : rf;
}

const char *ss_rated_factor(ss_builder *b, double rf, int decimals) {
    return isinf(rf) ? "no limit" : ss_words_decimals(b, ss_rated_cut(rf, decimals), decimals);
}

void ss_rated_percent(ss_sheet *sheet, double part, double capacity) {
    /* A slab without bars can carry nothing. */
    const double percent = capacity == 0.0 ? (double)INFINITY : 100.0 * part / capacity;
    if (fabs(percent) < 1e6) {
        ss_sheet_integer(sheet, (int)lround(percent));
    } else {
        ss_sheet_none(sheet);
    }
}
