/* report_ratings.h - what the parts of a rating's report share: which checks decide, and who is weakest. */
#ifndef SS_REPORT_RATINGS_H
#define SS_REPORT_RATINGS_H

#include "report/report_parts.h"

/** Whether a check says if a truck may cross: strength or service at the legal, emergency and permit levels;
 * where a method has rated nothing at these, at the operating level, and failing that at inventory. */
bool ss_rated_decides(const ss_ratings *ratings, int check);

/** A crossing under a restriction: it never governs, it is offered. */
bool ss_rated_alternative(const ss_results *results, int traffic);

/** The smallest factors of the design load at both levels; NaN: not rated. */
void ss_rated_design(const ss_results *results, double *inventory, double *operating);

/** Whether the manual's sequence, if it is asked for, looks at that crossing by that check. */
bool ss_rated_counts(const ss_results *results, int check, int traffic);

/** All of these: it decides, counts, and is no alternative. */
bool ss_rated_governs(const ss_results *results, int check, int traffic);

/** Less by more than rounding: what ties keeps the order of the result on every machine. */
bool ss_rated_less(double a, double b);

/** The item with the smallest factor of the checks that decide and count, or -1. `method` -1: of all methods;
 * `traffic` -1: of all crossings that are no alternatives. */
int ss_rated_weakest(const ss_results *results, int method, int traffic);

/** What governs the answer: the weakest by the first method that something was rated by, or -1. */
int ss_rated_controlling(const ss_results *results);

/** The methods that something was rated by, in the order of their checks; their count. */
int ss_rated_methods(const ss_ratings *ratings, ss_method methods[3]);

/** Live effect with all its factors: per unit truck, signed like the capacity. */
double ss_rated_live(const ss_rating_item *item);

/** Beside the capacity, less than this is rounding. */
double ss_rated_clean(const ss_rating_item *item, double value);

/** Condition times system factor as it counts: there is a least value for both together. */
double ss_rated_condition_system(const ss_rating_item *item);

/** Kinds of members: lines or floor beams of one set in one car, or a joint, in bending or in shear. */
bool ss_rated_same_group(const ss_bridge *bridge, const ss_effect *a, const ss_effect *b);

/** The weakest item of each group by the deciding checks of `method`, weakest first. `order` has room for
 * 2 x ratings->count indices. Returns how many. */
int ss_rated_rank(const ss_results *results, int method, int *order);

/** "stringer 2", "seam": without the car. */
const char *ss_rated_member(const ss_bridge *bridge, const ss_effect *effect);

/** "bending", or "tipping" where the bridge tips first. */
const char *ss_rated_failure(const ss_rating_item *item);

/** Where the trucks stand: a sentence for each, without its end. */
const char *ss_rated_position(ss_builder *b, const ss_rating_item *item, int truck);

/** Whether it is a web shear that twist has a part in: to be said where it is printed. */
bool ss_rated_twist_note(const ss_rating_item *item);
#define SS_TWIST_NOTE                                                                                        \
    " Web shear counts besides the vertical shear what twist adds to it in the more loaded web."

/** Several trucks at once. */
bool ss_rated_abreast(const ss_rating_item *item);

/** "93.4 million arrangements": those of trucks abreast that something is proven of. */
const char *ss_rated_arrangements(ss_builder *b, const ss_rating_item *item);

/** What is proven of trucks abreast, of all governing factors; says nothing where nothing lifts. */
void ss_rated_proofs(ss_builder *b, ss_points *points);

/** A part of the capacity in whole percent; what is beyond telling stays empty. */
void ss_rated_percent(ss_sheet *sheet, double part, double capacity);

/** A factor for people, cut off after so many decimals and never rounded up to one that is met. */
double ss_rated_cut(double rf, int decimals);
/** The same as words: "0.87", "no limit". */
const char *ss_rated_factor(ss_builder *b, double rf, int decimals);

/** A table of the steps of a calculation, for people. */
void ss_rated_steps(ss_builder *b, const char *title, const char *note, const ss_working *working);

/** Parts in files of their own. */
void ss_rated_answer(ss_builder *b);
void ss_rated_trucks(ss_builder *b, ss_method method);
/** How far each truck gets, as bars; the plan with the weakest members numbered. */
void ss_rated_bars(ss_builder *b, ss_method method);
void ss_rated_plan(ss_builder *b, ss_method method);
void ss_rated_members(ss_builder *b);
void ss_rated_worked(ss_builder *b, ss_method method);
/** One factor line by line, and the strength behind it step by step. */
void ss_rated_work_out(ss_builder *b, const ss_rating_item *item);
/** The strength behind a factor, step by step, and where it is bending the plastic basis beside it. */
void ss_rated_strength(ss_builder *b, const ss_rating_item *item);
/** The same of a line with its slab in bending, on both bases, and of a strip of slab. False: it is neither.
 */
bool ss_rated_composite(ss_builder *b, const ss_rating_item *item);
/** What a tyre's length would take off the bending of a stringer or floor beam. */
void ss_rated_tyres(ss_builder *b, const ss_rating_item *item);
/** Every member that results->detail names, worked out. */
void ss_rated_detail(ss_builder *b);
void ss_rated_deflection(ss_builder *b);
void ss_rated_restrictions(ss_builder *b);
void ss_rated_joint_out(ss_builder *b);
void ss_rated_programs(ss_builder *b);
/** The deck under a wheel, apart from all members; and what the answer says of it when it falls short. */
void ss_rated_deck(ss_builder *b);
void ss_rated_deck_point(ss_builder *b, ss_points *points);
/** The same of webs above bearings. */
void ss_rated_bearing_webs(ss_builder *b);
void ss_rated_bearing_webs_point(ss_builder *b, ss_points *points);

#endif
