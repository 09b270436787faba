/* figure_axis.c - scales, round values on them, and axes with their titles. */
#include <math.h>

#include "sillspan/figure.h"
#include "sillspan/text.h"

/* mm */
#define TICK 1.2
#define GAP 0.7

double ss_scale_at(const ss_scale *scale, double value) {
    const double part = scale->log
                            ? (log10(value) - log10(scale->low)) / (log10(scale->high) - log10(scale->low))
                            : (value - scale->low) / (scale->high - scale->low);
    return scale->from + part * (scale->to - scale->from);
}

/* The least of 1, 2, 5 times a power of ten with which `range` has at most `most` round values. */
static double step_for(double low, double high, int most) {
    double step = pow(10.0, floor(log10((high - low) / most)) - 1.0);
    for (int i = 0; i < 12; i++) {
        const double factors[] = {1.0, 2.0, 5.0};
        for (int k = 0; k < 3; k++) {
            const double s = factors[k] * step;
            if (floor(high / s + 1e-9) - ceil(low / s - 1e-9) + 1.0 <= most) {
                return s;
            }
        }
        step *= 10.0;
    }
    return step;
}

static int linear_ticks(const ss_scale *scale, int most, double *values) {
    const double step = step_for(scale->low, scale->high, most);
    const double first = ceil(scale->low / step - 1e-9);
    const double last = floor(scale->high / step + 1e-9);
    int count = 0;
    while (count < most && first + count <= last) {
        values[count] = (first + count) * step + 0.0; /* no -0 */
        count++;
    }
    return count;
}

static int log_ticks(const ss_scale *scale, int most, double *values) {
    const double first = floor(log10(scale->low) - 1e-9);
    const double last = ceil(log10(scale->high) + 1e-9);
    /* 1, 2, 5 of each power if there is room, else 1 of each power, or of every second, third ... */
    for (int skip = 0;; skip++) {
        const double mantissas[] = {1.0, 2.0, 5.0};
        const int each = skip == 0 ? 3 : 1;
        const double stride = skip < 2 ? 1.0 : (double)skip;
        int count = 0;
        bool fits = true;
        const double start = ceil(first / stride) * stride;
        const int powers = (int)((last - start) / stride + 1.0);
        for (int i = 0; i < powers; i++) {
            const double power = start + i * stride;
            for (int k = 0; k < each; k++) {
                const double value = mantissas[k] * pow(10.0, power);
                if (value < scale->low * (1.0 - 1e-9) || value > scale->high * (1.0 + 1e-9)) {
                    continue;
                }
                fits = fits && count < most;
                if (fits) {
                    values[count++] = value;
                }
            }
        }
        if (fits) {
            return count;
        }
    }
}

int ss_scale_ticks(const ss_scale *scale, int most, double values[SS_TICKS_MAX]) {
    const int room = most < 2 ? 2 : most > SS_TICKS_MAX ? SS_TICKS_MAX : most;
    const bool usable = scale->high > scale->low && isfinite(scale->low) && isfinite(scale->high) &&
                        (!scale->log || scale->low > 0.0);
    if (!usable) {
        return 0;
    }
    return scale->log ? log_ticks(scale, room, values) : linear_ticks(scale, room, values);
}

void ss_scale_round(double *low, double *high, int most) {
    if (!(*high > *low)) {
        const double middle = isfinite(*low) ? *low : 0.0;
        const double half = middle == 0.0 ? 1.0 : 0.5 * fabs(middle);
        *low = middle - half;
        *high = middle + half;
    }
    const int room = most < 3 ? 3 : most;
    const double step = step_for(*low, *high, room - 1);
    *low = floor(*low / step + 1e-9) * step + 0.0;
    *high = ceil(*high / step - 1e-9) * step + 0.0;
}

/* One value beside its tick; returns how far the text reaches from the axis. */
static double put_tick(ss_figure *figure, const ss_axis *axis, double value) {
    char number[40];
    const double at = ss_scale_at(&axis->scale, value);
    const double out = axis->far_side ? 1.0 : -1.0;
    const ss_lettering letters = {.role = SS_FIGURE_LABEL,
                                  .size = SS_LETTERS_SMALL,
                                  .anchor = !axis->upright   ? 0
                                            : axis->far_side ? 1
                                                             : -1};
    (void)ss_text_significant(number, sizeof number, value, 6);
    if (axis->upright) {
        const double end = axis->at + out * TICK;
        ss_figure_line(figure, SS_FIGURE_AXIS, (ss_spot){axis->at, at}, (ss_spot){end, at});
        ss_figure_text(figure, letters, (ss_spot){end + out * GAP, at + 0.35 * SS_LETTERS_SMALL}, number);
        return TICK + GAP + ss_figure_text_width(number, SS_LETTERS_SMALL);
    }
    ss_figure_line(figure, SS_FIGURE_AXIS, (ss_spot){at, axis->at}, (ss_spot){at, axis->at + TICK});
    ss_figure_text(figure, letters, (ss_spot){at, axis->at + TICK + GAP + 0.75 * SS_LETTERS_SMALL}, number);
    return TICK + GAP + SS_LETTERS_SMALL;
}

static void put_grid(ss_figure *figure, const ss_axis *axis, double value) {
    const double at = ss_scale_at(&axis->scale, value);
    const ss_spot from = axis->upright ? (ss_spot){axis->at, at} : (ss_spot){at, axis->at};
    const ss_spot to = axis->upright ? (ss_spot){axis->grid_to, at} : (ss_spot){at, axis->grid_to};
    if (axis->grid_to != axis->at) {
        ss_figure_line(figure, SS_FIGURE_GRID, from, to);
    }
}

void ss_figure_axis(ss_figure *figure, const ss_axis *axis) {
    double values[SS_TICKS_MAX];
    const ss_scale *const scale = &axis->scale;
    const int count = ss_scale_ticks(scale, axis->most, values);
    const double middle = 0.5 * (scale->from + scale->to);
    double reach = 0.0;
    for (int i = 0; i < count; i++) {
        put_grid(figure, axis, values[i]);
        reach = fmax(reach, put_tick(figure, axis, values[i]));
    }
    const ss_lettering letters = {
        .role = SS_FIGURE_LABEL, .size = SS_LETTERS_SMALL, .upright = axis->upright};
    const ss_spot from = axis->upright ? (ss_spot){axis->at, scale->from} : (ss_spot){scale->from, axis->at};
    const ss_spot to = axis->upright ? (ss_spot){axis->at, scale->to} : (ss_spot){scale->to, axis->at};
    ss_figure_line(figure, SS_FIGURE_AXIS, from, to);
    if (axis->title == NULL) {
        return;
    }
    /* Letters of a turned text stand to the left of its base line. */
    const double beside = axis->far_side ? axis->at + reach + 2.0 * GAP + 0.75 * SS_LETTERS_SMALL
                                         : axis->at - reach - 2.0 * GAP;
    ss_figure_text(figure, letters,
                   axis->upright ? (ss_spot){beside, middle}
                                 : (ss_spot){middle, axis->at + reach + GAP + SS_LETTERS_SMALL},
                   axis->title);
}
