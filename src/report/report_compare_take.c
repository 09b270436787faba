/* report_compare_take.c - the numbers that one variant brings to a comparison: bending, deflection, sharing.
 */
#include "report/report_compare.h"

#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_words.h"
#include "sillspan/memory.h"

const char *ss_comparison_keep(ss_comparison *all, const char *text) {
    if (text == NULL || all->failed) {
        return NULL;
    }
    const char *const copy = ss_arena_text(&all->arena, text, strlen(text));
    all->failed = copy == NULL;
    return copy;
}

void *ss_comparison_grow(ss_comparison *all, void *items, int count, size_t size) {
    if (all->failed) {
        return NULL;
    }
    /* Room is 16, 32, 64 ...: full exactly when the count is one of these, or 0. */
    const bool full = count == 0 || (count >= 16 && (count & (count - 1)) == 0);
    void *const grown = full ? ss_realloc(items, count == 0 ? 16 : 2 * (size_t)count, size) : items;
    all->failed = grown == NULL;
    return grown;
}

void ss_comparison_put(ss_comparison *all, const ss_compare_value *value) {
    ss_compare_value *const values =
        ss_comparison_grow(all, all->values, all->value_count, sizeof *all->values);
    if (values == NULL) {
        return;
    }
    all->values = values;
    ss_compare_value *const one = &values[all->value_count++];
    *one = *value;
    one->variant = all->variant_count;
    one->car = ss_comparison_keep(all, value->car);
    one->line = ss_comparison_keep(all, value->line);
    one->truck = ss_comparison_keep(all, value->truck);
    one->check = ss_comparison_keep(all, value->check);
    one->member = ss_comparison_keep(all, value->member);
    one->effect = ss_comparison_keep(all, value->effect);
}

static double least_size(ss_effect_kind kind, const ss_envelope *envelope) {
    /* Rounding leaves about 1e-12 of the largest value where the answer is zero. */
    double largest = 0.0;
    for (int i = 0; i < envelope->effect_count; i++) {
        for (int t = 0; envelope->effects[i].kind == kind && t < envelope->traffic_count; t++) {
            largest = fmax(largest, fmax(fabs(ss_range_extreme(envelope, i, t, 0)->value),
                                         fabs(ss_range_extreme(envelope, i, t, 1)->value)));
        }
    }
    return 1e-8 * largest;
}

/* Which values of an effect count: `sign` 0 by their size, else those of that sign; with so much of the dead
 * load. */
typedef struct wanted {
    ss_effect_kind kind;
    double sign, dead;
} wanted;

static wanted wanted_of(ss_compare_question question) {
    switch (question) {
    case SS_ASKED_TOTAL: return (wanted){SS_EFFECT_MOMENT, 0.0, 1.0};
    case SS_ASKED_DEFLECTION: return (wanted){SS_EFFECT_DEFLECTION, 1.0, 0.0};
    case SS_ASKED_RISE: return (wanted){SS_EFFECT_DEFLECTION, -1.0, 0.0};
    default: return (wanted){SS_EFFECT_MOMENT, 0.0, 0.0};
    }
}

/* The largest of a line under one traffic; the first of equals, so that mirror images do not flicker. */
static ss_compare_value largest(const ss_results *results, int line, wanted w, int traffic) {
    const ss_envelope *const envelope = results->envelope;
    ss_compare_value best = {.value = 0.0, .x = (double)NAN};
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *const e = &envelope->effects[i];
        if (e->member != SS_MEMBER_LINE || e->index != line || e->kind != w.kind) {
            continue;
        }
        for (int most = 0; most < 2; most++) {
            const double value =
                ss_range_extreme(envelope, i, traffic, most)->value + w.dead * envelope->dead[i];
            if (value * w.sign >= 0.0 && fabs(value) > fabs(best.value) * (1.0 + 1e-9)) {
                best.value = value;
                best.x = e->at;
            }
        }
    }
    return best;
}

static void take_line(ss_comparison *all, ss_builder *b, int line, ss_compare_question question) {
    const ss_results *const results = b->results;
    const ss_line *const l = &results->bridge->lines[line];
    const wanted w = wanted_of(question);
    const double noise = least_size(w.kind, results->envelope);
    for (int t = 0; t < results->envelope->traffic_count; t++) {
        if (!ss_words_told(results, t)) {
            continue;
        }
        ss_compare_value value = largest(results, line, w, t);
        if (!(fabs(value.value) > noise)) {
            continue; /* no such effect, or the roadway has no room for the truck */
        }
        value.question = question;
        value.value = question == SS_ASKED_RISE ? -value.value : value.value;
        value.car = results->bridge->cars[l->car].name;
        value.line = l->name;
        value.truck = ss_words_traffic(b, t);
        ss_comparison_put(all, &value);
    }
}

/* Each car where it carries most of a truck, and its lines there. */
static void take_shares(ss_comparison *all, ss_builder *b) {
    const ss_results *const results = b->results;
    const ss_bridge *const bridge = results->bridge;
    for (int car = 0; car < bridge->car_count; car++) {
        const ss_share *most = NULL;
        for (int i = 0; i < results->shares->count; i++) {
            const ss_share *const share = &results->shares->items[i];
            if (share->car == car && ss_words_told(results, share->traffic) &&
                !ss_words_abreast(results, share->traffic) &&
                (most == NULL || share->per_car[car] > most->per_car[car] + 1e-9)) {
                most = share;
            }
        }
        if (most == NULL) {
            continue;
        }
        ss_compare_value value = {.question = SS_ASKED_CAR_SHARE,
                                  .car = bridge->cars[car].name,
                                  .truck = ss_words_traffic(b, most->traffic),
                                  .value = most->per_car[car],
                                  .x = most->x};
        ss_comparison_put(all, &value);
        value.question = SS_ASKED_LINE_SHARE;
        for (int i = 0; i < bridge->cars[car].line_count; i++) {
            const int line = bridge->cars[car].first_line + i;
            value.line = bridge->lines[line].name;
            value.value = most->line[line];
            if (!isnan(value.value)) {
                ss_comparison_put(all, &value);
            }
        }
    }
}

void ss_comparison_take_response(ss_comparison *all, ss_builder *b) {
    const ss_bridge *const bridge = b->results->bridge;
    for (int line = 0; line < bridge->line_count; line++) {
        if (bridge->lines[line].role == SS_ROLE_MAIN) {
            take_line(all, b, line, SS_ASKED_MOMENT);
            take_line(all, b, line, SS_ASKED_TOTAL);
            take_line(all, b, line, SS_ASKED_DEFLECTION);
            take_line(all, b, line, SS_ASKED_RISE);
        }
    }
    take_shares(all, b);
}
