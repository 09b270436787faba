/* check.h - one outside check: what a publication or an independent method says, and what the library says.
 */
#ifndef VERIFICATION_CHECK_H
#define VERIFICATION_CHECK_H

#include <stdbool.h>

enum { CHECK_VALUES = 16 };

/**
 * A check is filled by a function of its case file. Values are in the units that `values` names; the obtained
 * ones come from the library, the expected ones do not.
 */
typedef struct check {
    const char *title;
    const char
        *source; /**< publication, "own closed form", "own method: ..."; says "from memory" where it is */
    const char *inputs; /**< for people: geometry, stiffness, loads */
    const char *values; /**< what the values are, with their units */
    const char *why;    /**< why the tolerance is what it is */
    int count;
    double expected[CHECK_VALUES];
    double obtained[CHECK_VALUES];
    double tolerance;
    bool relative; /**< tolerance times each |expected| (where that is 0: the largest of the check), else in
                      the values' units */
    int digits;    /**< significant digits that the page shows */
} check;

/** How close the values must be and why, for people and for the comparison; `shown` digits on the page. */
#define CHECK_RELATIVE(reason, limit, shown)                                                                 \
    .why = (reason), .tolerance = (limit), .relative = true, .digits = (shown)
#define CHECK_ABSOLUTE(reason, limit, shown)                                                                 \
    .why = (reason), .tolerance = (limit), .relative = false, .digits = (shown)

/** Fills *out; false when the library failed, having said why on standard error. */
typedef bool (*check_function)(check *out);

/** One chapter of docs/verification.md. */
typedef struct check_chapter {
    const char *title;
    const check_function *checks;
    int count;
} check_chapter;

/** Adds a pair of values. */
void check_add(check *out, double expected, double obtained);

/** Largest absolute difference that is allowed of value i. */
double check_allowed(const check *c, int i);

/** Whether every pair of values agrees; a check without values does not. */
bool check_passes(const check *c);

/* ---- the chapters, one case file each ------------------------------------------------------------ */

extern const check_chapter chapter_beams;
extern const check_chapter chapter_bearings;
extern const check_chapter chapter_taper;
extern const check_chapter chapter_grids;
extern const check_chapter chapter_slabs;
extern const check_chapter chapter_joints;
extern const check_chapter chapter_composite;
extern const check_chapter chapter_connectors;
extern const check_chapter chapter_contact;
extern const check_chapter chapter_trucks;
extern const check_chapter chapter_vehicles;
extern const check_chapter chapter_lanes;
extern const check_chapter chapter_sections;
extern const check_chapter chapter_symmetry;
extern const check_chapter chapter_rating;
extern const check_chapter chapter_sweep;

#endif
