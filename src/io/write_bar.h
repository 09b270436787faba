/* write_bar.h - bars of characters beside a table: how far a factor gets towards 1. */
#ifndef SS_WRITE_BAR_H
#define SS_WRITE_BAR_H

#include "sillspan/text.h"

/** Columns of the narrowest bar that says something, of one that words are broken for at blanks, of the
 * widest. */
enum { SS_BAR_LEAST = 20, SS_BAR_FAIR = 36, SS_BAR_MOST = 44 };

/** Columns from the beginning of a bar to its mark, the edge not counted. */
int ss_bar_mark(int columns);

/** Where bars end whose largest value is `largest`. */
double ss_bar_end(double largest);

/** Appends "|======......|", or "|============|==>" beyond 1: a value below 1 never fills all columns before
 * the mark, dots are what it falls short by, and a point says that it goes on beyond `end`. At most
 * `columns`. */
void ss_bar_add(ss_text *out, double value, double end, int columns);

/** Appends what stands above such bars: 0, 1.00 over the mark, and where they end. */
void ss_bar_scale(ss_text *out, double end, int columns);

#endif
