/* posting.c - safe loads of all rated trucks by what governs each of their crossings. */
#include "sillspan/posting.h"

#include <math.h>
#include <string.h>

#include "assess/posting_parts.h"
#include "base/numeric.h"
#include "base/try.h"

/* 10 miles an hour, m/s. */
#define CREEP (10.0 * 0.44704)

/* ---- which checks ----------------------------------------------------------------------------------- */

bool ss_posting_method(const ss_ratings *ratings, ss_method *method) {
    bool found = false;
    for (int i = 0; i < ratings->check_count; i++) {
        const ss_check *const check = &ratings->checks[i];
        if (check->limit != SS_LIMIT_DEFLECTION && (!found || check->method < *method)) {
            *method = check->method;
            found = true;
        }
    }
    return found;
}

static bool has_level(const ss_ratings *ratings, ss_method method, ss_level level) {
    for (int i = 0; i < ratings->check_count; i++) {
        const ss_check *const check = &ratings->checks[i];
        if (check->method == method && check->level == level && check->limit != SS_LIMIT_DEFLECTION) {
            return true;
        }
    }
    return false;
}

static ss_level level_of(const ss_ratings *ratings, ss_method method) {
    if (method == SS_METHOD_LRFR) {
        return SS_LEVEL_LEGAL;
    }
    return has_level(ratings, method, SS_LEVEL_OPERATING) || !has_level(ratings, method, SS_LEVEL_INVENTORY)
               ? SS_LEVEL_OPERATING
               : SS_LEVEL_INVENTORY;
}

bool ss_posting_counts(const ss_posting_builder *b, const ss_check *check, const ss_vehicle *vehicle) {
    ss_level level = b->made.level;
    if (b->made.method == SS_METHOD_LRFR && vehicle->kind == SS_VEHICLE_EMERGENCY) {
        level = SS_LEVEL_EMERGENCY;
    }
    return check->method == b->made.method && check->level == level && check->limit != SS_LIMIT_DEFLECTION &&
           ss_check_applies(b->bridge, check, vehicle);
}

static const ss_crossing *crossing_of(const ss_posting_builder *b, int traffic) {
    const int crossing = b->placements->traffic[traffic].crossing;
    return crossing < 0 ? NULL : &b->bridge->crossings[crossing];
}

static bool is_alternative(const ss_posting_builder *b, int traffic) {
    const ss_crossing *const crossing = crossing_of(b, traffic);
    return crossing != NULL && crossing->alternative;
}

double ss_posting_smallest(const ss_posting_builder *b, const char *name, ss_method method, ss_level level) {
    const ss_ratings *const ratings = b->ratings;
    double rf = SS_NAN;
    for (int c = 0; c < ratings->check_count; c++) {
        const ss_check *const check = &ratings->checks[c];
        for (int t = 0; t < ratings->traffic_count; t++) {
            const ss_traffic *const traffic = &b->placements->traffic[t];
            const int item = ss_ratings_governing(ratings, c, t);
            if (check->method == method && check->level == level && check->limit != SS_LIMIT_DEFLECTION &&
                item >= 0 && traffic->run < 0 && !is_alternative(b, t) &&
                strcmp(b->bridge->vehicles[traffic->vehicle].name, name) == 0) {
                rf = isnan(rf) ? ratings->items[item].rf : ss_min(rf, ratings->items[item].rf);
            }
        }
    }
    return rf;
}

/* ---- rows ------------------------------------------------------------------------------------------- */

/* The governing item over the checks that count. */
static void take_rating(const ss_posting_builder *b, ss_posting_row *row) {
    const ss_vehicle *const vehicle = &b->bridge->vehicles[row->vehicle];
    row->item = -1;
    row->rf = SS_NAN;
    row->proved = SS_NAN;
    for (int c = 0; c < b->ratings->check_count; c++) {
        const int item = ss_ratings_governing(b->ratings, c, row->traffic);
        if (item >= 0 && ss_posting_counts(b, &b->ratings->checks[c], vehicle) &&
            (row->item < 0 || b->ratings->items[item].rf < row->rf)) {
            row->item = item;
            row->rf = b->ratings->items[item].rf;
            row->local = ss_rating_may_be_worse(&b->ratings->items[item]);
            row->proved = b->ratings->items[item].proved;
            row->tips = b->ratings->items[item].tips;
        }
    }
}

/* The smallest factor at a creep: every item's own scaled by its allowance. Where the bearings' contact would
 * change, or another section of a member would take over, it is only near. */
static double slow_factor(const ss_posting_builder *b, const ss_posting_row *row) {
    const ss_vehicle *const vehicle = &b->bridge->vehicles[row->vehicle];
    const ss_crossing *const crossing = crossing_of(b, row->traffic);
    ss_crossing_facts facts = {.lanes = 1, .speed = SS_INFINITY};
    if (crossing != NULL) {
        facts = ss_crossing_facts_of(b->bridge, crossing);
    }
    facts.speed = CREEP;
    double slow = SS_INFINITY;
    for (int i = 0; i < b->ratings->count; i++) {
        const ss_rating_item *const item = &b->ratings->items[i];
        const ss_check *const check = &b->ratings->checks[item->check];
        if (item->traffic == row->traffic && ss_posting_counts(b, check, vehicle)) {
            ss_method_factors creeping;
            ss_check_factors(b->bridge, check, vehicle, &facts, &item->effect, &creeping);
            slow = ss_min(slow, item->rf * (1.0 + item->factors.allowance) / (1.0 + creeping.allowance));
        }
    }
    return slow;
}

static void set_loads(const ss_posting_builder *b, ss_posting_row *row) {
    const ss_vehicle *const vehicle = &b->bridge->vehicles[row->vehicle];
    row->weight_N = ss_vehicle_rated_weight(vehicle);
    row->axle_N = ss_posting_axle(vehicle, &row->tandem);
    row->safe_N = ss_posting_load(b->made.method, row->rf, row->weight_N);
    row->safe_axle_N = ss_posting_load(b->made.method, row->rf, row->axle_N);
    row->slow_rf = row->slow_N = SS_NAN;
    /* A lane load without allowance does not scale with it. */
    if (row->rf < 1.0 && vehicle->lane_N_m == 0.0 && vehicle->also == NULL) {
        const double slow = slow_factor(b, row);
        if (slow > row->rf * (1.0 + 1e-9)) {
            row->slow_rf = slow;
            row->slow_N = ss_posting_load(b->made.method, slow, row->weight_N);
        }
    }
}

/* With the manual's sequence legal loads need no rating where the design load passes at inventory. */
static bool design_load_passes(const ss_posting_builder *b) {
    return b->made.method == SS_METHOD_LRFR && b->bridge->rating.manual_sequence &&
           ss_posting_smallest(b, "HL-93", SS_METHOD_LRFR, SS_LEVEL_INVENTORY) >= 1.0;
}

static bool is_postable(const ss_posting_builder *b, int traffic) {
    const ss_traffic *const t = &b->placements->traffic[traffic];
    const ss_vehicle *const vehicle = &b->bridge->vehicles[t->vehicle];
    bool applies = false;
    for (int c = 0; c < b->ratings->check_count; c++) {
        applies = applies || ss_posting_counts(b, &b->ratings->checks[c], vehicle);
    }
    return applies && t->run < 0 && ss_posting_group_of(vehicle) != SS_POSTING_NONE;
}

/* Design trucks stand for a group only where no other truck of it is rated. */
static void decide_counting(ss_posting_builder *b) {
    bool others[SS_POSTING_EMERGENCY + 1] = {false};
    for (int i = 0; i < b->made.row_count; i++) {
        const ss_posting_row *const row = &b->made.rows[i];
        const bool design = b->bridge->vehicles[row->vehicle].kind == SS_VEHICLE_DESIGN;
        others[row->group] = others[row->group] || (!design && !isnan(row->rf));
    }
    for (int i = 0; i < b->made.row_count; i++) {
        ss_posting_row *const row = &b->made.rows[i];
        const bool design = b->bridge->vehicles[row->vehicle].kind == SS_VEHICLE_DESIGN;
        row->counts = !row->alternative && !isnan(row->rf) && !(design && others[row->group]);
    }
}

static ss_status make_rows(ss_posting_builder *b, ss_error *error) {
    const int count = b->ratings->traffic_count;
    b->made.rows = ss_arena_alloc(&b->made.arena, (size_t)count + 1, sizeof *b->made.rows);
    if (b->made.rows == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the posting");
    }
    const bool passes = design_load_passes(b);
    for (int t = 0; t < count; t++) {
        if (!is_postable(b, t)) {
            continue;
        }
        const ss_crossing *const crossing = crossing_of(b, t);
        ss_posting_row *const row = &b->made.rows[b->made.row_count++];
        row->traffic = t;
        row->vehicle = b->placements->traffic[t].vehicle;
        row->group = ss_posting_group_of(&b->bridge->vehicles[row->vehicle]);
        row->meeting = crossing != NULL && crossing->kind == SS_CROSSING_BESIDE;
        row->alternative = is_alternative(b, t);
        take_rating(b, row);
        if (row->item < 0 && passes && row->group != SS_POSTING_EMERGENCY) {
            row->rf = SS_INFINITY;
        }
        set_loads(b, row);
    }
    decide_counting(b);
    return SS_OK;
}

void ss_posting_destroy(ss_posting *posting) {
    if (posting != NULL) {
        ss_arena_destroy(&posting->arena);
        *posting = (ss_posting){0};
    }
}

ss_status ss_posting_compute(const ss_bridge *bridge, const ss_placements *placements,
                             const ss_ratings *ratings, ss_method method, ss_unit_system units,
                             ss_posting *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_posting_builder b = {.bridge = bridge, .placements = placements, .ratings = ratings};
    b.made.method = method;
    b.made.level = level_of(ratings, method);
    b.made.units = units;
    SS_TRY(make_rows(&b, error));
    ss_posting_set_signs(&b);
    ss_posting_say(&b);
    ss_posting_record(&b);
    if (b.failed) {
        status = ss_error_set(error, SS_ERROR_MEMORY, "no memory for the posting");
        goto done;
    }
    *out = b.made;
    b.made = (ss_posting){0};
done:
    ss_posting_destroy(&b.made);
    return status;
}
