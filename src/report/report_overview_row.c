/* report_overview_row.c - the few numbers that one bridge brings to a table of many. */
#include <math.h>
#include <string.h>

#include "report/report_overview.h"
#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

static const char *kept(ss_overview *overview, const char *text) {
    if (text == NULL || overview->failed) {
        return NULL;
    }
    const char *copy = ss_arena_text(&overview->arena, text, strlen(text));
    overview->failed = copy == NULL;
    return copy;
}

static void take_effects(ss_overview *overview, ss_builder *b, ss_overview_row *row) {
    const ss_envelope *envelope = b->results->envelope;
    const ss_range *ranges = ss_ranges(b);
    int traffic = -1;
    if (ranges == NULL) {
        return;
    }
    row->moment = row->deflection = row->reaction = 0.0;
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        const bool line = effect->member == SS_MEMBER_LINE;
        for (int most = 0; most < 2; most++) {
            const double size = fabs(ranges[i].value[most]);
            if (effect->kind == SS_EFFECT_MOMENT && line && size > row->moment * (1.0 + 1e-9)) {
                row->moment = size;
                traffic = ranges[i].traffic[most];
            } else if (effect->kind == SS_EFFECT_DEFLECTION && line) {
                row->deflection = fmax(row->deflection, size);
            } else if (effect->kind == SS_EFFECT_REACTION) {
                row->reaction = fmax(row->reaction, ranges[i].dead + ranges[i].value[most]);
            }
        }
    }
    if (envelope->tips && row->says == NULL) {
        row->says = "a truck tips it off its bearings; the places where that happens are left out";
    }
    if (traffic >= 0) {
        row->truck = kept(overview, ss_words_traffic(b, traffic));
    }
}

/* The factor that governs the answer. */
static void take_rated(ss_overview *overview, ss_builder *b, ss_overview_row *row) {
    const int controlling = ss_rated_controlling(b->results);
    if (controlling < 0) {
        return;
    }
    const ss_rating_item *item = &b->results->rated->items[controlling];
    row->rf = item->rf;
    row->tons = item->tons;
    row->truck = kept(overview, ss_words_traffic(b, item->traffic));
    row->member = item->tips ? "the bearings"
                             : kept(overview, ss_words_member(b, item->effect.member, item->effect.index));
    row->failure = ss_rated_failure(item);
    if (!item->tips) {
        row->x = ss_words_x(b->results->bridge, &item->effect);
    }
}

static void take_results(ss_overview *overview, const ss_results *results, ss_overview_row *row) {
    ss_report scratch = {.units = results->bridge->units};
    ss_builder b = {.report = &scratch, .results = results};
    row->cars = results->bridge->car_count;
    row->length = results->bridge->x1 - results->bridge->x0;
    if (results->rated != NULL) {
        take_rated(overview, &b, row);
    } else if (results->envelope != NULL) {
        take_effects(overview, &b, row);
    }
    overview->failed = overview->failed || b.failed;
    ss_report_destroy(&scratch);
}

ss_overview_row *ss_overview_place(ss_overview *overview) {
    if (overview->failed) {
        return NULL;
    }
    if (overview->count == overview->capacity) {
        const int capacity = overview->capacity == 0 ? 16 : 2 * overview->capacity;
        ss_overview_row *rows = ss_realloc(overview->rows, (size_t)capacity, sizeof *rows);
        if (rows == NULL) {
            overview->failed = true;
            return NULL;
        }
        overview->rows = rows;
        overview->capacity = capacity;
    }
    return &overview->rows[overview->count];
}

void ss_overview_add(ss_overview *overview, const ss_overview_entry *entry) {
    const double none = (double)NAN;
    ss_overview_row *const place = ss_overview_place(overview);
    if (place == NULL) {
        return;
    }
    ss_overview_row row = {.outcome = entry->outcome,
                           .faults = entry->faults,
                           .warnings = entry->warnings,
                           .length = none,
                           .moment = none,
                           .deflection = none,
                           .reaction = none,
                           .rf = none,
                           .tons = none,
                           .x = none};
    row.file = kept(overview, entry->file);
    row.title = kept(overview, entry->title);
    row.says = kept(overview, entry->says);
    if (entry->results != NULL) {
        take_results(overview, entry->results, &row);
    }
    if (!overview->failed) {
        *place = row;
        overview->count++;
    }
}

void ss_overview_destroy(ss_overview *overview) {
    ss_free(overview->rows);
    ss_arena_destroy(&overview->arena);
    *overview = (ss_overview){0};
}
