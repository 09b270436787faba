/* patterns.h - which bearings are open, as patterns that are met again and again, and how they change while a
 * truck grows. */
#ifndef SS_RESPONSE_PATTERNS_H
#define SS_RESPONSE_PATTERNS_H

#include <stdint.h>

#include "sillspan/contact.h"

/** A pattern and the linear map from all reactions with all bearings closed to what must not be negative in
 * it: the reaction of a closed bearing, the opening of an open one. */
typedef struct ss_pattern {
    uint64_t hash; /**< of open */
    bool *open;    /**< n */
    double *map;   /**< n x n, by columns */
    double *size;  /**< n: sum of the magnitudes of each row, for rounding */
    double *dead;  /**< deads x n: map times the dead loads' reactions */
    double *room;  /**< that all of them are in */
} ss_pattern;

/** Number 0 has all closed; others as they are met. */
typedef struct ss_patterns {
    int n;
    const double *S; /**< n x n, see ss_grillage_contact */
    int dead_count;
    const double **r_dead; /**< dead_count: reactions to dead load with all bearings closed (n) */
    double *most_dead;     /**< dead_count: largest of them */
    int *hint;             /**< dead_count: the pattern that was left the dead load's for last time */
    int count, capacity;
    int made; /**< items that have room, of which `count` are in use */
    ss_pattern *items;
    int *slot; /**< slot_count: number of a pattern by its hash, or -1; slot_count is a power of two */
    int slot_count;
    double *r, *u, *found, *slope, *work;
    bool *open;
} ss_patterns;

enum { SS_STEPS_MOST = 128 };

/** How bearings open and close under r_dead + m r_live while m grows from 0: piecewise. */
typedef struct ss_growth {
    int count;
    double from[SS_STEPS_MOST];
    int pattern[SS_STEPS_MOST];
    double *opening; /**< SS_STEPS_MOST x 2 x n, the caller's, or NULL: openings a + m b in each step */
    double end;      /**< known up to here: the largest multiple asked for, or where it tips */
    bool tips;       /**< no pattern holds the load beyond `end` */
    bool clear;      /**< false: beyond `end` rounding hides the way, or there are more steps than there is
                        room for; it has to be followed by ss_contact_reach */
} ss_growth;

/** `r_dead`: dead_count rows of n, which outlive the patterns. */
ss_status ss_patterns_create(int n, const double *S, int dead_count, const double *const *r_dead,
                             ss_patterns *out, ss_error *error);
/** A copy under the same numbers: for a thread of its own. */
ss_status ss_patterns_copy(const ss_patterns *from, ss_patterns *out, ss_error *error);
void ss_patterns_destroy(ss_patterns *patterns);

/** Number of a pattern, remembered if it is new. -1: it is singular. */
ss_status ss_patterns_find(ss_patterns *patterns, const bool *open, int *number);

/** Follows the patterns from dead load number `dead` up to the multiple `most`; `guess`: the pattern at 0.
 * out->opening is the caller's. SS_ERROR_MEMORY; SS_ERROR_TIPPING when nothing holds the dead load itself. */
ss_status ss_patterns_follow(ss_patterns *patterns, int dead, const double *r_live, int guess, double most,
                             ss_growth *out);

/** The pattern at a multiple, beyond the end the last one; -1: the way is not clear that far. */
int ss_growth_pattern(const ss_growth *growth, double multiple);

/** The pattern at one multiple; `*pattern` is the guess, best one of a like load. opening (n): openings
 * there. SS_ERROR_TIPPING: none holds the load; SS_ERROR_NUMERIC: rounding hides it. */
ss_status ss_patterns_state(ss_patterns *patterns, int dead, const double *r_live, double multiple,
                            int *pattern, double *opening);

/** Reactions (n) in the state that the last ss_patterns_state or _settle found: pattern is that. */
void ss_patterns_reactions(const ss_patterns *patterns, int pattern, double *reaction);

/** The same as ss_patterns_state, only if a few exchanges lead from the guess to it; SS_ERROR_NUMERIC if not,
 * whatever the reason.
 */
ss_status ss_patterns_settle(ss_patterns *patterns, int dead, const double *r_live, double multiple,
                             int *pattern, double *opening);

/** weight (n): effect of openings `opening` (n) per reaction with all closed, in a pattern: opening . u =
 * weight . r. */
void ss_patterns_weigh(const ss_patterns *patterns, int pattern, const double *opening, double *weight);

/** Forgets all but the first `keep` patterns, whose numbers stay. */
void ss_patterns_forget(ss_patterns *patterns, int keep);

/** out (n): openings of the bearings that are open in the pattern by the map, under closed reactions r. */
void ss_pattern_openings(const ss_pattern *pattern, int n, const double *r, double *out);

/** out (n) = map r. */
void ss_pattern_map(const ss_pattern *pattern, int n, const double *r, double *out);

#endif
