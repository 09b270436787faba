/* posting_records.c - what a rating puts into the inventory of bridges: NBI and SNBI items with their values.
 */
#include <math.h>
#include <string.h>

#include "assess/posting_parts.h"
#include "base/numeric.h"

#define GUIDE "Coding Guide of 1995 (from memory, check it)"
#define SPECIFICATION "SNBI of 2022 (from memory, check it)"

static void add(ss_posting_builder *b, ss_record_item item) {
    ss_posting *const made = &b->made;
    if (!b->failed && (made->record_count & (made->record_count - 1)) == 0) {
        ss_record_item *const grown =
            ss_arena_alloc(&made->arena, 2 * (size_t)made->record_count + 1, sizeof *grown);
        if (grown == NULL) {
            b->failed = true;
        } else {
            for (int i = 0; i < made->record_count; i++) grown[i] = made->records[i];
            made->records = grown;
        }
    }
    if (!b->failed) {
        made->records[made->record_count++] = item;
    }
}

/* "0.87", cut off; NULL when not rated. */
static const char *factor(ss_posting_builder *b, double rf) {
    char digits[SS_POSTING_WORDS];
    if (isnan(rf)) {
        return NULL;
    }
    if (!(rf < SS_INFINITY)) {
        return "no limit";
    }
    return ss_posting_text(b, "%s",
                           ss_text_decimals(digits, sizeof digits, floor(rf * 100.0 + 1e-9) / 100.0, 2));
}

/* Smallest factor of the trucks that count, emergency and farm vehicles apart; NaN: none. */
static double legal_factor(const ss_posting_builder *b) {
    double rf = SS_NAN;
    for (int i = 0; i < b->made.row_count; i++) {
        const ss_posting_row *const row = &b->made.rows[i];
        if (row->counts && (row->group == SS_POSTING_SINGLE || row->group == SS_POSTING_COMBINATION)) {
            rf = isnan(rf) ? row->rf : ss_min(rf, row->rf);
        }
    }
    return rf;
}

/* ---- NBI -------------------------------------------------------------------------------------------- */

static const char *status_code(const ss_posting *made) {
    const bool only_apart = made->free.state == SS_POSTING_CLOSED && made->one.state != SS_POSTING_CLOSED;
    switch (made->free.state) {
    case SS_POSTING_UNKNOWN: return NULL;
    case SS_POSTING_OPEN: return "A";
    case SS_POSTING_LIMITED: return "P once the signs stand, B until then";
    case SS_POSTING_CLOSED: return only_apart ? "K; P only while trucks cannot meet" : "K";
    }
    return NULL;
}

/* The vehicle that an inventory rates by. */
static const char *standard_truck(ss_method method) {
    return method == SS_METHOD_LRFR ? "HL-93" : "HS20-44";
}

static void record_ratings(ss_posting_builder *b) {
    static const char *const codes[] = {"8 (LRFR, rating factor of HL-93)",
                                        "6 (load factor, rating factor of MS18, which is HS20)",
                                        "7 (allowable stress, rating factor of MS18, which is HS20)"};
    const ss_method method = b->made.method;
    const char *const truck = standard_truck(method);
    const double operating = ss_posting_smallest(b, truck, method, SS_LEVEL_OPERATING);
    const double inventory = ss_posting_smallest(b, truck, method, SS_LEVEL_INVENTORY);
    const char *const from = ss_posting_text(b, "%s by %s, smallest of its checks; empty: it was not rated",
                                             truck, ss_method_name(method));
    add(b, (ss_record_item){"NBI", "63", "Method of operating rating",
                            isnan(operating) ? NULL : codes[method], GUIDE});
    add(b, (ss_record_item){"NBI", "64", "Operating rating", factor(b, operating), from});
    add(b, (ss_record_item){"NBI", "65", "Method of inventory rating",
                            isnan(inventory) ? NULL : codes[method], GUIDE});
    add(b, (ss_record_item){"NBI", "66", "Inventory rating", factor(b, inventory), from});
}

static void record_nbi(ss_posting_builder *b) {
    const double legal = legal_factor(b);
    add(b, (ss_record_item){"NBI", "31", "Design load", NULL,
                            "owner's records; the cars were built for a railroad"});
    add(b, (ss_record_item){"NBI", "41", "Open, posted or closed", status_code(&b->made), GUIDE});
    record_ratings(b);
    const char *code = NULL;
    if (b->made.free.state == SS_POSTING_CLOSED) {
        code = "0";
    } else if (!isnan(legal)) {
        code = ss_posting_text(b, "%d", ss_posting_code(legal));
    }
    add(b, (ss_record_item){"NBI", "70", "Bridge posting", code,
                            "smallest rating factor of the trucks that a sign stands for; " GUIDE});
}

/* ---- SNBI ------------------------------------------------------------------------------------------- */

static void record_load_rating(ss_posting_builder *b) {
    const ss_method method = b->made.method;
    const char *const truck = standard_truck(method);
    add(b, (ss_record_item){"SNBI", "B.LR.01", "Design load", NULL, "owner's records"});
    add(b, (ss_record_item){"SNBI", "B.LR.02", "Design method", NULL, "owner's records"});
    add(b,
        (ss_record_item){"SNBI", "B.LR.03", "Load rating date", NULL, "the day on which the engineer signs"});
    add(b, (ss_record_item){"SNBI", "B.LR.04", "Load rating method", ss_method_name(method), SPECIFICATION});
    add(b, (ss_record_item){"SNBI", "B.LR.05", "Inventory load rating factor",
                            factor(b, ss_posting_smallest(b, truck, method, SS_LEVEL_INVENTORY)),
                            SPECIFICATION});
    add(b, (ss_record_item){"SNBI", "B.LR.06", "Operating load rating factor",
                            factor(b, ss_posting_smallest(b, truck, method, SS_LEVEL_OPERATING)),
                            SPECIFICATION});
    add(b, (ss_record_item){"SNBI", "B.LR.07", "Controlling legal load rating factor",
                            factor(b, legal_factor(b)), "emergency and farm vehicles apart; " SPECIFICATION});
    add(b, (ss_record_item){"SNBI", "B.LR.08", "Routine permit loads", NULL, "owner's records"});
    static const char *const status[] = {NULL, "open, no posting needed", "posting needed", "closing needed"};
    add(b, (ss_record_item){"SNBI", "B.PS.01", "Load posting status", status[b->made.free.state],
                            "in words, the code is the owner's; " SPECIFICATION});
    add(b, (ss_record_item){"SNBI", "B.PS.02", "Posting status change date", NULL, "owner's records"});
}

static const char *posted_value(ss_posting_builder *b, ss_posting_group group) {
    const ss_posting_sign *const sign = &b->made.free;
    const int decimals = b->made.units == SS_UNITS_SI ? 1 : 0;
    char weight[SS_POSTING_WORDS];
    if (sign->state == SS_POSTING_CLOSED) {
        return "closed";
    }
    const double limit = group == SS_POSTING_EMERGENCY ? sign->emergency_N : sign->group_N[group];
    return limit < SS_INFINITY
               ? ss_posting_text(b, "%s", ss_posting_weight(limit, b->made.units, decimals, weight))
               : "none";
}

/* One set of items for each legal load and emergency vehicle, of its smallest factor. */
static void record_vehicles(ss_posting_builder *b) {
    for (int v = 0; v < b->bridge->rated_vehicle_count; v++) {
        const ss_vehicle *const vehicle = &b->bridge->vehicles[v];
        double rf = SS_NAN;
        for (int i = 0; i < b->made.row_count; i++) {
            const ss_posting_row *const row = &b->made.rows[i];
            if (row->vehicle == v && row->counts) {
                rf = isnan(rf) ? row->rf : ss_min(rf, row->rf);
            }
        }
        if (isnan(rf) || (vehicle->kind != SS_VEHICLE_LEGAL && vehicle->kind != SS_VEHICLE_EMERGENCY)) {
            continue;
        }
        const ss_posting_group group = ss_posting_group_of(vehicle);
        const bool emergency = group == SS_POSTING_EMERGENCY;
        add(b, (ss_record_item){"SNBI", "B.EP.01", "Legal load configuration", vehicle->name, SPECIFICATION});
        add(b, (ss_record_item){"SNBI", "B.EP.02", "Legal load rating factor", factor(b, rf), vehicle->name});
        add(b, (ss_record_item){"SNBI", "B.EP.03", "Posting type",
                                emergency ? "axle, tandem and gross weight" : "gross weight",
                                "in words, the code is the owner's"});
        add(b, (ss_record_item){"SNBI", "B.EP.04", "Posting value", posted_value(b, group),
                                ss_posting_group_name(group)});
    }
}

void ss_posting_record(ss_posting_builder *b) {
    record_nbi(b);
    record_load_rating(b);
    record_vehicles(b);
}
