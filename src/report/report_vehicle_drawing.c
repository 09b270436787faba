/* report_vehicle_drawing.c - a vehicle from the side: axles to scale, loads under them, distances between. */
#include <math.h>

#include "report/report_vehicles.h"
#include "report/report_words.h"
#include "sillspan/text.h"

/* Shorter vehicles are drawn at the scale of one this long, m, so that most compare at a glance. */
#define LONG_ENOUGH 13.5
/* Room beyond the first and the last axle, m, of a drawing that long. */
#define BEYOND 0.8
/* Height over width, flat enough that writers give the rows below and no more. */
#define FLAT 0.05

/* Down the page, as parts of the height: distances, their line, wheels; one row more on top with a lane load.
 */
enum { ROW_WORDS = 0, ROW_LINE = 1, ROW_WHEEL = 4, ROWS = 4 };

static double down(const ss_drawing *d, int row) {
    return d->height * row / ROWS;
}

static void stroke(ss_drawing *d, ss_stroke_kind kind, double x0, int row0, double x1, int row1) {
    d->strokes[d->stroke_count++] = (ss_stroke){kind, x0, down(d, row0), x1, down(d, row1)};
}

static void label(ss_drawing *d, double x, int row, const char *text) {
    d->labels[d->label_count++] = (ss_label){x, down(d, row), text, 0};
}

static bool varies(const ss_vehicle *v, int gap) {
    return v->spacing_most_m[gap] > v->spacing_m[gap];
}

static const char *number(ss_builder *b, double value, ss_dimension dimension) {
    char text[32];
    ss_text_significant(text, sizeof text, ss_units_from_si(value, dimension, b->report->units), 3);
    return ss_build_text(b, "%s", text);
}

/* "14", or "14 to 30". */
static const char *distance(ss_builder *b, const ss_vehicle *v, int gap) {
    const char *const least = number(b, v->spacing_m[gap], SS_DIM_LENGTH);
    return varies(v, gap)
               ? ss_build_text(b, "%s to %s", least, number(b, v->spacing_most_m[gap], SS_DIM_LENGTH))
               : least;
}

static const char *gauge_words(ss_builder *b, double gauge) {
    return gauge > 0.0 ? ss_build_text(b, "%s gauge", ss_words_length(b, gauge)) : "one wheel";
}

static bool own_gauges(const ss_vehicle *v) {
    for (int a = 0; a < v->axle_count; a++) {
        if (v->axle_gauge_m[a] != 0.0) {
            return true;
        }
    }
    return false;
}

static void draw_axles(ss_builder *b, const ss_vehicle *v, ss_drawing *d, double first) {
    const bool gauges = own_gauges(v);
    const int below_lane = v->lane_N_m > 0.0 ? 1 : 0;
    const int line = ROW_LINE + below_lane;
    double x = first;
    for (int a = 0; a < v->axle_count; a++) {
        const double next = x + v->spacing_m[a];
        if (a + 1 < v->axle_count) {
            stroke(d, varies(v, a) ? SS_STROKE_VARIES : SS_STROKE_DISTANCE, x, line, next, line);
            label(d, 0.5 * (x + next), ROW_WORDS + below_lane, distance(b, v, a));
        }
        stroke(d, SS_STROKE_AXLE, x, line, x, ROW_WHEEL);
        stroke(d, (v->dropped >> a & 1U) != 0U ? SS_STROKE_LOOSE : SS_STROKE_WHEEL, x, ROW_WHEEL, x,
               ROW_WHEEL);
        label(d, x, ROW_WHEEL, number(b, v->axle_N[a], SS_DIM_FORCE));
        if (gauges) {
            label(d, x, ROW_WHEEL, gauge_words(b, ss_vehicle_gauge(v, a)));
        }
        x = next;
    }
}

void ss_part_vehicle_drawing(ss_builder *b, const ss_vehicle *vehicle, const char *title) {
    const size_t axles = (size_t)vehicle->axle_count;
    ss_arena *const arena = &b->report->arena;
    ss_drawing *const d = b->failed ? NULL : ss_arena_alloc(arena, 1, sizeof *d);
    if (d == NULL) {
        b->failed = true;
        return;
    }
    d->strokes = ss_arena_alloc(arena, 3 * axles + 1, sizeof *d->strokes);
    d->labels = ss_arena_alloc(arena, 3 * axles + 1, sizeof *d->labels);
    if (d->strokes == NULL || d->labels == NULL) {
        b->failed = true;
        return;
    }
    const double length = ss_vehicle_wheelbase(vehicle);
    const double beyond = BEYOND * fmax(1.0, length / LONG_ENOUGH);
    d->key = "vehicle";
    d->title = title;
    d->width = fmax(length, LONG_ENOUGH) + 2.0 * beyond;
    d->height = FLAT * d->width;
    const char *const force = ss_units_name(SS_DIM_FORCE, b->report->units);
    const char *const length_unit = ss_units_name(SS_DIM_LENGTH, b->report->units);
    d->note = vehicle->axle_count > 1
                  ? ss_build_text(b, "Loads in %s under the axles, distances in %s.", force, length_unit)
                  : ss_build_text(b, "Load in %s.", force);
    draw_axles(b, vehicle, d, beyond);
    if (vehicle->lane_N_m > 0.0) {
        stroke(d, SS_STROKE_LANE, 0.0, 0, d->width, 0);
        label(d, 0.5 * d->width, 0,
              ss_build_text(b, " %s ", ss_words_quantity(b, vehicle->lane_N_m, SS_DIM_LINE_LOAD, 3)));
    }
    ss_build_drawing(b, d);
}
