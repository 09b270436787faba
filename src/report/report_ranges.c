/* report_ranges.c - each effect's extremes over all trucks, and the cells that tell where a truck stands. */
#include "report/report_parts.h"

#include <math.h>

#include "report/report_words.h"

/* Rounding leaves about 1e-12 of the largest value where the answer is zero. */
#define NOISE 1e-8

enum { KINDS = 7, MEMBERS = 4 };

const ss_extreme *ss_range_extreme(const ss_envelope *envelope, int effect, int traffic, int most) {
    return &envelope->extremes[(effect * envelope->traffic_count + traffic) * 2 + most];
}

static void find_extremes(const ss_results *results, int effect, ss_range *range) {
    const ss_envelope *envelope = results->envelope;
    range->dead = envelope->dead[effect];
    for (int most = 0; most < 2; most++) {
        range->traffic[most] = -1;
        for (int t = 0; t < envelope->traffic_count; t++) {
            if (!ss_words_told(results, t)) {
                continue;
            }
            const double value = ss_range_extreme(envelope, effect, t, most)->value;
            /* The first of equals governs, so mirror images and repeated trucks do not flicker. */
            const double edge = 1e-9 * fabs(range->value[most]);
            if (most ? value > range->value[most] + edge : value < range->value[most] - edge) {
                range->value[most] = value;
                range->traffic[most] = t;
            }
        }
    }
}

const ss_range *ss_ranges(ss_builder *b) {
    const ss_envelope *envelope = b->results->envelope;
    if (envelope == NULL || b->failed) {
        return NULL;
    }
    if (b->ranges != NULL) {
        return b->ranges;
    }
    ss_range *ranges = ss_arena_alloc(&b->report->arena, (size_t)envelope->effect_count, sizeof *ranges);
    if (ranges == NULL) {
        b->failed = true;
        return NULL;
    }
    double scale[KINDS][MEMBERS] = {{0.0}};
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        double *largest = &scale[effect->kind][effect->member];
        find_extremes(b->results, i, &ranges[i]);
        *largest = fmax(*largest, fabs(ranges[i].dead));
        *largest = fmax(*largest, fmax(fabs(ranges[i].value[0]), fabs(ranges[i].value[1])));
    }
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        const double noise = NOISE * scale[effect->kind][effect->member];
        if (fabs(ranges[i].dead) <= noise) {
            ranges[i].dead = 0.0;
        }
        for (int most = 0; most < 2; most++) {
            if (fabs(ranges[i].value[most]) <= noise) {
                ranges[i].value[most] = 0.0;
                ranges[i].traffic[most] = -1;
            }
        }
    }
    b->ranges = ranges;
    return ranges;
}

int ss_ranges_find(const ss_envelope *envelope, const ss_effect *wanted) {
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        if (effect->kind == wanted->kind && effect->member == wanted->member &&
            effect->index == wanted->index && effect->before == wanted->before &&
            fabs(effect->at - wanted->at) < 1e-9) {
            return i;
        }
    }
    return -1;
}

void ss_part_position(ss_sheet *sheet, int traffic, const ss_position *position) {
    ss_builder *b = sheet->builder;
    if (traffic < 0) {
        for (int i = 0; i < SS_POSITION_CELLS; i++) {
            ss_sheet_none(sheet);
        }
        return;
    }
    const ss_bridge *bridge = b->results->bridge;
    const ss_traffic *one = &b->results->placements->traffic[traffic];
    ss_sheet_text(sheet, bridge->vehicles[one->vehicle].name);
    ss_sheet_text(sheet, one->run < 0 ? NULL : bridge->runs[one->run].name);
    ss_sheet_text(sheet, ss_words_direction(b, position));
    ss_sheet_value(sheet, position->x);
    ss_sheet_value(sheet, b->results->placements->tracks[position->track].y);
    ss_sheet_flag(sheet, position->on_beam);
    ss_sheet_text(sheet, ss_words_distances(b, position));
}

void ss_part_concurrent(ss_sheet *sheet, const ss_concurrent *with) {
    double values[4] = {(double)NAN, (double)NAN, (double)NAN, (double)NAN};
    if (with != NULL) {
        values[0] = with->moment;
        values[1] = with->shear;
        values[2] = with->torsion;
        values[3] = with->deflection;
    }
    for (int i = 0; i < 4; i++) {
        if (isnan(values[i])) {
            ss_sheet_none(sheet);
        } else {
            ss_sheet_value(sheet, values[i]);
        }
    }
}
