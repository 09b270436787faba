/* report_words.h - members, places, trucks and quantities in everyday words. */
#ifndef SS_REPORT_WORDS_H
#define SS_REPORT_WORDS_H

#include "report/report_builder.h"

/** "812 kip-ft": in the report's units, with `digits` significant digits. */
const char *ss_words_quantity(ss_builder *b, double value, ss_dimension dimension, int digits);

/** "0.87": exactly `decimals` digits after the point. */
const char *ss_words_decimals(ss_builder *b, double value, int decimals);

/** "30 ft", to a tenth of a foot or to a centimetre; a tape's reading in quarter inches, or in hundredths of
 * a foot, to a hundredth: "1.75 ft". */
const char *ss_words_length(ss_builder *b, double metres);

/** A quantity as a description has it, "29000 ksi" or "0, 7 ft", in the report's units where it is written in
 * others: "199900 MPa". What is no quantity stays as it is. */
const char *ss_words_given(ss_builder *b, const char *text);

/** Whether a member is a strip of a concrete deck, which is no floor beam. */
bool ss_words_strip(const ss_bridge *bridge, ss_member_kind member, int index);

/** "sill of car north", "floor beam bearers 5 of car north", "slab of car north at 12 ft", "joint seam",
 * "slab over the gap", "bearing ends of car north, sill, at 0 ft". */
const char *ss_words_member(ss_builder *b, ss_member_kind member, int index);

/** The same within a sentence: "the sill of car north"; a numbered one needs no article: "stringer 4 of car
 * north". */
const char *ss_words_the_member(ss_builder *b, ss_member_kind member, int index);

/** "at 30 ft", "at 38 ft, 6.2 ft from the left edge"; of a strip of a slab, whose name tells x, "6.2 ft from
 * the left edge"; "" for a bearing. */
const char *ss_words_place(ss_builder *b, const ss_effect *effect);

/** "bending", "web shear", ... as a rating names what governs. */
const char *ss_words_failure(ss_effect_kind kind);

/** Stable words for programs: "moment", "web_plus" ... */
const char *ss_words_effect_key(ss_effect_kind kind);
/** "line", "floor_beam", "joint", "bearing". */
const char *ss_words_member_key(ss_member_kind member);

/** How the trucks of a traffic cross; NULL: one alone, or along a run. */
const ss_crossing *ss_words_crossing(const ss_results *results, int traffic);
/** Whether a traffic is to be told of: all in an analysis, in a rating those that some check rates. */
bool ss_words_told(const ss_results *results, int traffic);
/** Trucks in several lanes. */
bool ss_words_abreast(const ss_results *results, int traffic);
/** Stable words for programs: "alone", "beside", "centred", "signed line", "run". */
const char *ss_words_crossing_key(const ss_results *results, int traffic);

/** The truck or trucks in the other lanes, or NULL: "Type 3", "LM1 lane 2 and LM1 lane 3". */
const char *ss_words_beside(ss_builder *b, const ss_bridge *bridge, const ss_crossing *crossing);

/** "EV3", "EV3 beside Type 3", "Type 3, 2 abreast", "EV3 in the middle", "EV3 on run centre". */
const char *ss_words_traffic(ss_builder *b, int traffic);

/** Distances between the axles that stand there, "14, 23.4921", in the unit of lengths; NULL where none of
 * the truck's varies. */
const char *ss_words_distances(ss_builder *b, const ss_position *position);

/** "going forward, front axle at 38.2 ft, middle of the truck 6.1 ft from the left edge", and the distances
 * between axles that vary. */
const char *ss_words_position(ss_builder *b, const ss_position *position);

/** Whether some traffic of an analysis is of trucks abreast that have room. */
bool ss_words_several(const ss_results *results);

/** The same of an extreme: of trucks abreast the leftmost on the bridge, where lane loads lie, and on how
 * much of the carriageway a load over it does. */
const char *ss_words_stands(ss_builder *b, const ss_extreme *extreme);

/** Part of the carriageway that a load over it lies on. */
double ss_words_area_share(const ss_results *results, const ss_extreme_load *load);

/** What an analysis is of: "one truck adds", "one truck alone or trucks abreast add with the loads of their
 * lanes"; beside ratings one truck. */
const char *ss_words_analysed(ss_builder *b);

/** "forward" (towards increasing x) or "backward". */
const char *ss_words_direction(const ss_builder *b, const ss_position *position);

/** Dimension of an effect; a continuous joint's is per length. */
ss_dimension ss_words_dimension(const ss_bridge *bridge, const ss_effect *effect);

/** Station of an effect: its own x, that of its floor beam or bearing. */
double ss_words_x(const ss_bridge *bridge, const ss_effect *effect);

/** Index of the car that a line, floor beam or bearing belongs to; of the left car for a joint. */
int ss_words_car(const ss_bridge *bridge, ss_member_kind member, int index);

/** "3 lines", "1 line". */
const char *ss_words_count(ss_builder *b, int count, const char *one, const char *many);

/** "a", "a and b", "a, b and c". */
const char *ss_words_join(ss_builder *b, const char *const *items, int count);

#endif
