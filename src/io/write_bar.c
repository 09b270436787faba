/* write_bar.c - a number as a bar of characters, with a mark at 1. */
#include "io/write_bar.h"

#include <math.h>

/* Part of the bar up to the mark: the rest is for what is beyond it. */
#define TO_MARK (2.0 / 3.0)
/* Values where the bar ends; beyond the last it has a point. */
#define SHORT_END 1.5
#define LONG_END 3.0

int ss_bar_mark(int columns) {
    return (int)lround(TO_MARK * (columns - 2));
}

double ss_bar_end(double largest) {
    return largest <= SHORT_END ? SHORT_END : LONG_END;
}

/* Whole columns of `room` that `part` fills, from 0 to 1: never more than it reaches. */
static int filled(double part, int room) {
    const double columns = floor(part * room + 1e-9);
    return part >= 1.0 ? room : columns > 0.0 ? (int)columns : 0;
}

void ss_bar_add(ss_text *out, double value, double end, int columns) {
    const int mark = ss_bar_mark(columns);
    const int beyond = columns - 2 - mark;
    if (isnan(value)) {
        return;
    }
    const int before = filled(value, mark);
    const int after = filled((value - 1.0) / (end - 1.0), beyond);
    const bool points = value > end;
    ss_text_add(out, "|");
    ss_text_repeat(out, "=", before);
    ss_text_repeat(out, ".", mark - before);
    ss_text_add(out, "|");
    ss_text_repeat(out, "=", points ? after - 1 : after);
    ss_text_add(out, points ? ">" : "");
}

void ss_bar_scale(ss_text *out, double end, int columns) {
    const int mark = ss_bar_mark(columns);
    char number[32];
    ss_text_add(out, "0");
    ss_text_repeat(out, " ", mark - 2);
    ss_text_add(out, "1.00");
    const char *const last = ss_text_decimals(number, sizeof number, end, 2);
    ss_text_repeat(out, " ", columns - (mark + 3) - ss_text_width(last));
    ss_text_add(out, last);
}
