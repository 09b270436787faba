/* posting.h - safe loads of rated trucks, a sign that follows from them in plain words, and what belongs in
 * the inventory of bridges. */
#ifndef SILLSPAN_POSTING_H
#define SILLSPAN_POSTING_H

#include "sillspan/ratings.h"

/* All weights in N. INFINITY: no limit follows; 0: may not cross at any weight; NaN: not known. */

/** What a line of a sign is for. */
typedef enum ss_posting_group {
    SS_POSTING_SINGLE,      /**< trucks of one unit, buses */
    SS_POSTING_COMBINATION, /**< tractor and trailer, truck and trailer */
    SS_POSTING_FARM,        /**< implements of husbandry */
    SS_POSTING_EMERGENCY,   /**< posted by axle, tandem and gross weight */
    SS_POSTING_NONE         /**< not posted for: permits, fatigue, European load models */
} ss_posting_group;

enum { SS_POSTING_GROUPS = SS_POSTING_EMERGENCY };

/** One vehicle in one crossing. */
typedef struct ss_posting_row {
    int traffic; /**< in placements->traffic */
    int vehicle; /**< in bridge->vehicles */
    ss_posting_group group;
    bool meeting;     /**< trucks in other lanes besides */
    bool alternative; /**< a restriction (middle, signed line) that is no part of the sign */
    bool counts;      /**< its safe load goes into the sign; design trucks only where no other of the group is
                         rated */
    int item;         /**< governing in ratings->items; -1: not rated, or nothing governs */
    double rf;        /**< NaN: not rated */
    double weight_N;  /**< that the factor multiplies */
    double safe_N;
    bool tandem;        /**< the heaviest axle is one of a pair */
    double axle_N;      /**< heaviest axle, or pair of axles no more than 8 ft apart */
    double safe_axle_N; /**< the same share of it as safe_N is of weight_N */
    double slow_rf; /**< at 10 mph, estimated with bearings' contact as it is; NaN: no gain or not known */
    double slow_N;  /**< safe load at slow_rf */
    bool local;     /**< a worse arrangement of the governing item's trucks may be */
    double proved;  /**< of the governing item */
    bool tips;      /**< of the governing item */
} ss_posting_row;

typedef enum ss_posting_state {
    SS_POSTING_UNKNOWN, /**< no truck was rated that a sign could stand for */
    SS_POSTING_OPEN,    /**< no limit follows */
    SS_POSTING_LIMITED,
    SS_POSTING_CLOSED /**< a legal truck could not cross with 3 tons */
} ss_posting_state;

/** Limits, rounded down to whole tons of 2000 lbf, or to half tonnes in SI units. */
typedef struct ss_posting_sign {
    ss_posting_state state;
    bool rated[SS_POSTING_GROUPS];        /**< a truck of the group was; combinations that were not have the
                                             limit of single-unit trucks */
    double group_N[SS_POSTING_GROUPS];    /**< smallest safe load of each group */
    double axle_N, tandem_N, emergency_N; /**< emergency vehicles: single axle, tandem, gross */
    const char *words; /**< "single-unit trucks 12 tons, combinations 20 tons"; of a closed one: "closed" */
} ss_posting_sign;

/** An item of the National Bridge Inventory or of its successor. */
typedef struct ss_record_item {
    const char *system; /**< "NBI" (Coding Guide of 1995) or "SNBI" (specifications of 2022) */
    const char *item;   /**< "70", "B.LR.06" */
    const char *title;
    const char *value; /**< NULL: not from a rating, the owner's records have it */
    const char *basis;
} ss_record_item;

typedef struct ss_posting {
    ss_method method;
    ss_level level; /**< of ordinary trucks */
    ss_unit_system units;
    ss_posting_row *rows;
    int row_count;
    ss_posting_sign free; /**< trucks may meet wherever they were rated so */
    ss_posting_sign one;  /**< one truck at a time; the same where no other was rated */
    bool lanes_matter;    /**< both differ */
    const char *recommendation;
    const char **reasons; /**< a sentence for each vehicle that limits, and for each restriction that helps */
    int reason_count;
    const char **notes; /**< what to know before using it */
    int note_count;
    ss_record_item *records;
    int record_count;
    ss_arena arena;
} ss_posting;

/** The method to post by: the first of LRFR, LFR and ASR that was rated; false: none was. */
bool ss_posting_method(const ss_ratings *ratings, ss_method *method);

/** Posting by one method, of finished ratings: by the legal and emergency levels of LRFR, by the operating
 * level of the others (inventory where that alone was rated). Deflection never counts. */
ss_status ss_posting_compute(const ss_bridge *bridge, const ss_placements *placements,
                             const ss_ratings *ratings, ss_method method, ss_unit_system units,
                             ss_posting *out, ss_error *error);
void ss_posting_destroy(ss_posting *posting);

/**
 * Safe load of a vehicle: for LRFR weight / 0.7 x (rf - 0.3), none below 0.3 (AASHTO Manual for Bridge
 * Evaluation 6A.8.3, from memory); for LFR and ASR rf x weight. INFINITY from rf = 1 on.
 */
double ss_posting_load(ss_method method, double rf, double weight_N);

/** Rounded down to whole tons, or to half tonnes. */
double ss_posting_round(double weight_N, ss_unit_system units);

/** By class; trucks by their axles: three groups or more of axles, with gaps above 8 ft between, are a
 * combination. */
ss_posting_group ss_posting_group_of(const ss_vehicle *vehicle);

/** Heaviest single axle, or pair of neighbours no more than 8 ft apart; *tandem says which. */
double ss_posting_axle(const ss_vehicle *vehicle, bool *tandem);

/** Code 0 to 5 of NBI item 70 by the smallest factor of legal loads (Coding Guide of 1995, from memory). */
int ss_posting_code(double rf);

/** "single-unit trucks" ... */
const char *ss_posting_group_name(ss_posting_group group);
/** "open", "limited", "closed", "unknown". */
const char *ss_posting_state_name(ss_posting_state state);

/** What no rating of this program covers, a sentence each. */
const char *const *ss_not_rated(bool deck_checked, int *count);

#endif
