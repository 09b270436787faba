/* report_compare.h - several variants of a bridge side by side: the numbers that each brings, and their
 * report.
 */
#ifndef SS_REPORT_COMPARE_H
#define SS_REPORT_COMPARE_H

#include "report/report_builder.h"
#include "sillspan/compare.h"

/** What became of one variant. */
typedef enum ss_compare_outcome {
    SS_COMPARE_DONE,
    SS_COMPARE_FAULTS, /**< its description has faults */
    SS_COMPARE_FAILED  /**< it does not stand, or a check failed */
} ss_compare_outcome;

/** Questions whose answers are numbers of girders, lines or trucks. */
typedef enum ss_compare_question {
    SS_ASKED_MOMENT,     /**< largest live moment of a main girder under a truck, N m, signed */
    SS_ASKED_TOTAL,      /**< largest moment of a main girder, dead load and truck together, N m, signed */
    SS_ASKED_DEFLECTION, /**< largest live deflection of a main girder downwards, m */
    SS_ASKED_RISE,       /**< the same upwards, m, positive */
    SS_ASKED_CAR_SHARE,  /**< part of a truck's moment that a car carries where it carries most */
    SS_ASKED_LINE_SHARE, /**< part that a line of it carries there */
    SS_ASKED_FACTOR      /**< rating factor for a truck */
} ss_compare_question;

/** One number; texts are NULL where they say nothing. */
typedef struct ss_compare_value {
    int variant;
    ss_compare_question question;
    const char *car, *line, *truck;
    double value, x; /**< x NaN: no place */
    /* of a factor */
    const char *check, *member, *effect;
} ss_compare_value;

/** One bearing point; reactions in N, with dead load. */
typedef struct ss_compare_reaction {
    int variant;
    const char *bearing, *car, *line;
    double x, dead, least, most;
    bool contact;
    bool clear;  /**< carries nothing of the dead load */
    bool lifts;  /**< carries dead load, and lifts off under some truck */
    bool pulled; /**< two-way, and pulled upwards */
} ss_compare_reaction;

/** What a joint has to carry in shear or bending, dead load and truck together, without load factors. */
typedef struct ss_compare_joint {
    int variant;
    const char *joint, *effect, *truck; /**< truck NULL: dead load alone is most */
    double x, demand, capacity;         /**< capacity NaN: not known */
    bool by_bending; /**< slab over a gap whose bending is looked at, which counts as satisfactory in shear */
    ss_dimension dimension;
} ss_compare_joint;

/** One variant; numbers are NaN and texts NULL where there are none. */
typedef struct ss_compare_variant {
    const char *name, *changes; /**< changes: the keys that differ, NULL: none */
    ss_compare_outcome outcome;
    const char *says; /**< why it came to nothing */
    bool tips;        /**< some truck tips it; such places are left out */
    bool contact;     /**< under some truck a bearing, or one edge of a pad, lifts off or closes */
    double accuracy;  /**< worst equilibrium error */
    bool doubtful;
    bool joints_fail;       /**< those of joints_out could not be left out, so that their own factor holds */
    const char *joints_out; /**< joints that are full before the members are: the rating is without them */
    /* the factor that governs */
    double rf, tons, x;
    const char *truck, *member, *effect, *check, *method;
    const char *posting, *sign,
        *sign_alone; /**< state; words; words for one truck at a time where they differ */
} ss_compare_variant;

typedef struct ss_compare_warning {
    int variant;
    const char *file, *path, *message;
    int line;
} ss_compare_warning;

/** What could not be rated, and why. */
typedef struct ss_compare_note {
    int variant;
    const char *text;
} ss_compare_note;

/** A zeroed struct is empty. Lists grow in plain memory, texts live in the arena. */
typedef struct ss_comparison {
    ss_compare_variant *variants;
    ss_compare_value *values;
    ss_compare_reaction *reactions;
    ss_compare_joint *joints;
    ss_compare_warning *warnings;
    int variant_count, value_count, reaction_count, joint_count, warning_count;
    const char *
        *assumed; /**< "X: bridge.bearings.pedestal.gap is taken as 0 in": what the base does not assume */
    int assumed_count;
    ss_compare_note *notes;
    int note_count;
    bool response, rating, abreast;
    ss_unit_system units; /**< for words that are made when a variant is added */
    bool failed;          /**< no memory; only the end need be checked */
    ss_arena arena;
} ss_comparison;

void ss_comparison_destroy(ss_comparison *all);

/** A variant that came to nothing. */
void ss_comparison_add_failed(ss_comparison *all, const char *name, const char *changes,
                              ss_compare_outcome outcome, const char *says);

/** A variant that was computed; all that is needed of it is copied. `base`: the bridge of the first that was,
 * or NULL for that one itself. */
void ss_comparison_add(ss_comparison *all, const char *name, const char *changes, const ss_compared *compared,
                       const ss_bridge *base);

/** A warning about the description of variant number `variant`. */
void ss_comparison_warn(ss_comparison *all, int variant, const ss_diag *warning);

/** What the report is made of besides. */
typedef struct ss_comparison_head {
    const char *title; /**< of the bridge */
    uint64_t digest;   /**< of the description */
    const ss_bridge
        *bridge; /**< of the first variant that was computed: what is assumed and ignored; NULL: none */
    ss_unit_system units;
} ss_comparison_head;

/** Builds the report; it may point into `all`, which must outlive it. */
ss_status ss_comparison_report(const ss_comparison *all, const ss_comparison_head *head, ss_report *out,
                               ss_error *error);

/** The same as part of a page: without head and closing. */
void ss_comparison_part(ss_builder *b, const ss_comparison *all);

/* ---- between the files of this report -------------------------------------------------------------- */

/** Kept in the arena; NULL stays NULL. */
const char *ss_comparison_keep(ss_comparison *all, const char *text);
/** Room for one more item behind `count` of them, or NULL. */
void *ss_comparison_grow(ss_comparison *all, void *items, int count, size_t size);
void ss_comparison_put(ss_comparison *all, const ss_compare_value *value);

/** What the response and the rating of one variant bring. */
void ss_comparison_take_response(ss_comparison *all, ss_builder *b);
void ss_comparison_take_supports(ss_comparison *all, ss_builder *b);
void ss_comparison_take_rating(ss_comparison *all, ss_builder *b);

/** The first variant that was computed, which the others are compared with; -1: none. */
int ss_comparison_base(const ss_comparison *all);

/** How values are put into groups: a column each. */
typedef enum ss_compare_by { SS_BY_GIRDER, SS_BY_TRUCK, SS_BY_ALL } ss_compare_by;

/** Whether two values belong to the same group. */
bool ss_comparison_alike(const ss_compare_value *a, const ss_compare_value *b, ss_compare_by by);
/** The value of a variant that governs the group of `like` (NULL: of all): largest in size, of factors the
 * smallest; NULL: none. */
const ss_compare_value *ss_comparison_governing(const ss_comparison *all, int variant,
                                                ss_compare_question question, const ss_compare_value *like,
                                                ss_compare_by by);
/** Whether a variant can be best or worst in what trucks do, and be set against others: none that a truck
 * tips, since the places where it does are left out of its numbers. Factors always count: tipping is one. */
bool ss_comparison_counts(const ss_comparison *all, int variant, ss_compare_question question);
/** Whether some truck tips any of the variants. */
bool ss_comparison_any_tips(const ss_comparison *all);
/** Change of size against `base` as a share of it, NaN where there is none to tell. */
double ss_comparison_change(double value, double base);

/** Differences below this part are none: printed numbers do not show them. */
#define SS_COMPARE_SAME 1e-3

/** Where a size stands among others. */
typedef enum ss_compare_mark { SS_MARK_NONE, SS_MARK_BEST, SS_MARK_WORST } ss_compare_mark;
/** `most_is_best`: of factors. NaN sizes are passed over; none is marked where all are the same. */
ss_compare_mark ss_comparison_mark(const double *sizes, int count, int which, bool most_is_best);
/** "best", "worst", NULL, or "tips" for a variant that does not count; its own size must be NaN. */
const char *ss_comparison_mark_words(const ss_comparison *all, int variant, ss_compare_question question,
                                     const double *sizes);

void ss_comparison_answer(ss_builder *b, const ss_comparison *all);
void ss_comparison_numbers(ss_builder *b, const ss_comparison *all);
void ss_comparison_programs(ss_builder *b, const ss_comparison *all);
void ss_comparison_factors(ss_builder *b, const ss_comparison *all);
void ss_comparison_supports(ss_builder *b, const ss_comparison *all);
void ss_comparison_ratings(ss_builder *b, const ss_comparison *all);

#endif
