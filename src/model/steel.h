/* steel.h - yield stress by grade or by year of manufacture. */
#ifndef SS_MODEL_STEEL_H
#define SS_MODEL_STEEL_H

#include <stdbool.h>

/** Yield stress in Pa of a grade; case, blanks, hyphens and full stops do not count. False when it is not
 * known. `*name` is its usual spelling. */
bool ss_steel_grade(const char *grade, double *fy, const char **name);

/** Usual spellings of all grades, for nearest words and help. */
const char *const *ss_steel_grades(int *count);

/** Yield stress in Pa of an unknown steel by the year in which it was made. */
double ss_steel_by_year(int year);

#endif
