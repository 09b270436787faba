/* figure_study.h - what the figures of the studies share: marks above a plot, names at its sides, labels
 * beside points. */
#ifndef SS_REPORT_FIGURE_STUDY_H
#define SS_REPORT_FIGURE_STUDY_H

#include "report/figure_parts.h"

/** Most lines that a name is broken into; what is longer ends in "...". */
enum { SS_STUDY_LINES = 3 };

/** Breaks a text at blanks into at most `most` (SS_STUDY_LINES) lines of `width` mm in letters of `size`;
 * returns how many. */
int ss_study_break(ss_sketch *sketch, const char *text, double width, double size, int most,
                   const char *lines[SS_STUDY_LINES]);

/** The text as far as it fits into `width` mm, with "..." where it does not. */
const char *ss_study_cut(ss_sketch *sketch, const char *text, double width, double size);

/** A name of up to three lines that ends at `right`, centred on `middle`. */
void ss_study_name(ss_sketch *sketch, const char *text, double right, double width, double middle);

/** What is told of above a plot, with a line down to where it is. */
typedef struct ss_flag {
    double at; /**< mm along the plot */
    double to; /**< mm down to which its line goes */
    ss_figure_role role;
    const char *text;
    const char *second; /**< below the first, or NULL */
} ss_flag;

/** Sets flags in a row from `from` to `to` (mm), making room for each other, over a plot that begins at the
 * new `down`. */
void ss_study_flags(ss_sketch *sketch, const ss_flag *flags, int count, double from, double to);

/** Room that flags take, mm. */
#define SS_STUDY_FLAGS 11.0

/** Labels that begin at across.y, each with a leader from its curve's end at across.x, or from its own `from`
 * (mm along) where that is above 0, between low and high. */
void ss_study_ends(ss_sketch *sketch, const ss_pointer *labels, int count, ss_spot across, double low,
                   double high);

enum { SS_STUDY_TAKEN = 700 };

/** Boxes on the page that are taken. */
typedef struct ss_taken {
    double box[SS_STUDY_TAKEN][4]; /**< left, top, right, bottom */
    int count;
} ss_taken;

void ss_study_take(ss_taken *taken, double left, double top, double right, double bottom);

/** Sets a text beside a point, where nothing is yet within `low` to `high`: near it, else farther off with a
 * leader. False: there is no room, and nothing is set. */
bool ss_study_beside(ss_sketch *sketch, ss_taken *taken, ss_lettering how, ss_spot at, const char *text,
                     ss_spot low, ss_spot high);

/** A diamond about a point. */
void ss_study_diamond(ss_figure *figure, ss_figure_role role, ss_spot middle, double radius);

/** Widens a range of ratings so that a change which nobody would see in the field looks small. */
void ss_study_round(double *low, double *high, double least, int most);

#endif
