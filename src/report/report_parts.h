/* report_parts.h - the parts of a report, in files of their own, and what they share. */
#ifndef SS_REPORT_PARTS_H
#define SS_REPORT_PARTS_H

#include "report/report_builder.h"

/** The extremes of one effect over all trucks, freed of rounding noise. */
typedef struct ss_range {
    double dead;
    double value[2]; /**< least, most live effect: 0 when no truck gives that sign */
    int traffic[2];  /**< which truck; -1 when there is none */
} ss_range;

/** One range for each enveloped effect over the traffic that is told of (ss_words_told), in the report's
 * arena; NULL after a failure or without an envelope. Values below 1e-8 of the largest of their kind are
 * zero. */
const ss_range *ss_ranges(ss_builder *b);

/** The extreme behind a side of a range (its traffic is not -1). */
const ss_extreme *ss_range_extreme(const ss_envelope *envelope, int effect, int traffic, int most);

/** The first enveloped effect like `wanted`, or -1. */
int ss_ranges_find(const ss_envelope *envelope, const ss_effect *wanted);

/** The display unit of each dimension, for programs. */
void ss_part_units(ss_builder *b);
void ss_part_answer(ss_builder *b);
/** Rating, posting, what governs, how sure and what to measure, a line each, for a first page. */
void ss_part_summary(ss_builder *b);
/** What to measure next, and why. */
void ss_part_measure(ss_builder *b);
void ss_part_trust(ss_builder *b);
/** Accuracy of the computation: for programs, as points for people, and as a section of its own. */
void ss_accuracy_programs(ss_builder *b);
void ss_accuracy_points(ss_builder *b, ss_points *points);
void ss_part_accuracy(ss_builder *b);
/** Warnings about the description. */
void ss_part_warnings(ss_builder *b);
void ss_part_drawings(ss_builder *b);
/** A place of the plan that is pointed out. */
typedef struct ss_plan_mark {
    double x, y; /**< m */
    const char *text;
} ss_plan_mark;
/** The plan alone, with its places marked; `note` goes under it. */
void ss_part_plan(ss_builder *b, const char *title, const char *note, const ss_plan_mark *marks, int count);
/** A truck that is moved over the bridge, on a page; nothing elsewhere. */
void ss_part_moving(ss_builder *b);
void ss_part_description(ss_builder *b);
void ss_part_loads(ss_builder *b);
/** A concrete deck that is cast on the cars, with the lines that act with it; nothing where there is none. */
void ss_part_slab(ss_builder *b);
void ss_part_slab_lines(ss_builder *b);
/** What a dead load weighs in all, laid on the mesh: only where there is a car under it. NaN when it cannot
 * be laid. */
double ss_part_laid_weight(const ss_mesh *mesh, const ss_dead_load *dead);
void ss_part_effects(ss_builder *b);
void ss_part_reactions(ss_builder *b);
void ss_part_share(ss_builder *b);
void ss_part_probes(ss_builder *b);
/** What governs, as sentences; then the tables of the answer, truck by truck and check by check. */
void ss_part_answer_ratings(ss_builder *b);
void ss_part_answer_tables(ss_builder *b);
void ss_part_ratings(ss_builder *b);
void ss_part_posting(ss_builder *b);
/** The items of the inventory of bridges that follow from it. */
void ss_part_inventory(ss_builder *b);
/** Lives of described details; nothing where none are. */
void ss_part_fatigue(ss_builder *b);
/** Stages, bare cars, bearings and sag while a slab is cast; nothing without one. */
void ss_part_slab_casting(ss_builder *b);
/** What ties a slab to the lines. */
void ss_part_slab_connectors(ss_builder *b);
/** The slab between its lines. */
void ss_part_slab_across(ss_builder *b);
/** Checks of a slab's part that are missed or could not be looked at, for people. */
void ss_slab_missed(ss_builder *b, ss_slab_part part);
/** What the answer says of them. */
void ss_slab_point(ss_builder *b, ss_points *points);
/** All checks of a slab, for programs. */
void ss_part_slab_checks(ss_builder *b);
/** What the inspector saw, and what each finding costs where that was computed. */
void ss_part_findings(ss_builder *b);
/** Which members are primary, and what both groups rate. */
void ss_part_carriers(ss_builder *b);
/** The stiffness of a joint step by step, where it is estimated from parts; false: it is not. */
bool ss_part_joint_estimate(ss_builder *b, const ss_joint *joint);
/** The repair of one finding that brings most, NULL where none brings anything that shows. */
const ss_rerun *ss_findings_dearest(const ss_reruns *reruns);
/** Defaults used, what is left out; the caution; both. */
void ss_part_assumed(ss_builder *b);
void ss_part_caution(ss_builder *b);
void ss_part_closing(ss_builder *b);
/** Room for the engineer's name, number and seal. */
void ss_part_signature(ss_builder *b);

/** Columns "<prefix>.truck", "run", "direction", "x", "y", "bearings_changed": where a truck stands, for
 * programs. */
#define SS_POSITION_COLUMNS(prefix)                                                                          \
    {prefix ".truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},                                                \
        {prefix ".run", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},                                              \
        {prefix ".direction", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},                                        \
        {prefix ".x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},                                                \
        {prefix ".y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},                                                \
        {prefix ".on_floor_beam", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS}, {                                  \
        prefix ".axle_distances", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS                                      \
    }
enum { SS_POSITION_CELLS = 7 };

/** Fills those cells; traffic -1 leaves them empty. */
void ss_part_position(ss_sheet *sheet, int traffic, const ss_position *position);

/** Columns of the effects at the same moment. */
#define SS_CONCURRENT_COLUMNS(prefix)                                                                        \
    {prefix ".moment", "", SS_DIM_MOMENT, 0, SS_FOR_PROGRAMS},                                               \
        {prefix ".shear", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},                                             \
        {prefix ".torsion", "", SS_DIM_MOMENT, 0, SS_FOR_PROGRAMS}, {                                        \
        prefix ".deflection", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS                                    \
    }

/** Fills those cells; NULL or values that are not known leave them empty. */
void ss_part_concurrent(ss_sheet *sheet, const ss_concurrent *with);

/** What to mind before a deck is cast; `formed`: its formwork is described. */
void ss_slab_cautions(ss_builder *b, bool formed);
/** The search for a concrete deck. */
void ss_part_size(ss_builder *b);

/** A heading of a part of a study: `text` ("The answer") by itself, on a filed page "study: the answer". */
void ss_study_heading(ss_builder *b, const char *study, const char *text);
/** Its figure, on a filed page alone. */
void ss_study_figure(ss_builder *b, ss_figure_maker *make);
/** The studies of a filed page, each as its own command has it. */
void ss_part_studies(ss_builder *b);

/** All trucks and lane loads of extremes that are under more than one truck alone, for programs. */
void ss_part_extreme_loads(ss_builder *b);

/** Length of a static array of columns. */
#define SS_COLUMN_COUNT(columns) ((int)(sizeof(columns) / sizeof((columns)[0])))

#endif
