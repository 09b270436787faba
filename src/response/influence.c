/* influence.c - the influence surface of one effect over the deck, by one solution. */
#include "sillspan/influence.h"

#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/deck.h"
#include "response/influence_field.h"
#include "response/state.h"

/* Corners lie this part of a cell within it: on one side of every jump, and off by no digit that is printed.
 */
#define WITHIN 1e-9
/* Corners of one place this near to each other, of the largest value, are one. */
#define SAME 1e-7
/* m: cells narrower than this are none. */
#define NARROW 1e-6

enum { BREAKS = 256, BAY_PARTS = 4 };

typedef struct surface {
    const ss_mesh *mesh;
    ss_influence_field field;
    ss_influence *out;
    int capacity;
    ss_error *error;
} surface;

/* ---- cells -------------------------------------------------------------------------------------- */

static ss_status reserve(surface *s) {
    ss_influence *const out = s->out;
    if (out->cell_count < s->capacity) {
        return SS_OK;
    }
    const int wanted = 2 * s->capacity + 256;
    ss_influence_point *const points = ss_arena_alloc(&out->arena, 4 * (size_t)wanted, sizeof *points);
    int(*const cells)[4] = ss_arena_alloc(&out->arena, (size_t)wanted, sizeof *cells);
    if (points == NULL || cells == NULL) {
        return ss_no_memory(s->error);
    }
    for (int i = 0; i < out->point_count; i++) {
        points[i] = out->points[i];
    }
    for (int i = 0; i < 4 * out->cell_count; i++) {
        cells[i / 4][i % 4] = out->cells[i / 4][i % 4];
    }
    out->points = points;
    out->cells = cells;
    s->capacity = wanted;
    return SS_OK;
}

/* A cell with corners of its own; none where nothing carries a force. */
static ss_status add_cell(surface *s, int interval, double y0, double y1) {
    const double x0 = s->mesh->station[interval];
    const double x1 = s->mesh->station[interval + 1];
    const double x[4] = {x0, x1, x1, x0};
    const double y[4] = {y0, y0, y1, y1};
    const double dx = WITHIN * (x1 - x0);
    const double dy = WITHIN * (y1 - y0);
    ss_influence_point corner[4];
    for (int i = 0; i < 4; i++) {
        corner[i] = (ss_influence_point){x[i], y[i], 0.0};
        if (!ss_influence_field_at(&s->field, interval, x[i] + (x[i] == x0 ? dx : -dx),
                                   y[i] + (y[i] == y0 ? dy : -dy), &corner[i].value)) {
            return SS_OK;
        }
    }
    const ss_status status = reserve(s);
    if (status == SS_OK) {
        for (int i = 0; i < 4; i++) {
            s->out->cells[s->out->cell_count][i] = s->out->point_count;
            s->out->points[s->out->point_count++] = corner[i];
        }
        s->out->cell_count++;
    }
    return status;
}

/* Whether floor beams carry the deck there: then the surface is curved across, too. */
static bool by_beams(const surface *s, int interval, double y) {
    ss_deck_shares shares;
    const double x = 0.5 * (s->mesh->station[interval] + s->mesh->station[interval + 1]);
    ss_deck_shares_at(s->mesh, interval, x, y, &shares);
    return shares.beam_count > 0;
}

static ss_status add_interval(surface *s, int interval) {
    double y[BREAKS];
    ss_status status = SS_OK;
    const int count = ss_deck_breaks(s->mesh, interval, y, BREAKS);
    for (int i = 0; i + 1 < count; i++) {
        const int parts = by_beams(s, interval, 0.5 * (y[i] + y[i + 1])) ? BAY_PARTS : 1;
        const double width = (y[i + 1] - y[i]) / parts;
        for (int k = 0; k < parts && width > NARROW; k++) {
            SS_TRY(
                add_cell(s, interval, y[i] + k * width, k + 1 == parts ? y[i + 1] : y[i] + (k + 1) * width));
        }
    }
done:
    return status;
}

/* Corners at one place with one value become one. Only those of this interval and the last can be at one
 * place. */
static void merge(const surface *s, int *now) {
    ss_influence *const out = s->out;
    double largest = 0.0;
    for (int i = 0; i < out->point_count; i++) {
        largest = fmax(largest, fabs(out->points[i].value));
    }
    int kept = 0;
    int first = 0; /* of the points that a new one can be the same as */
    double before = -(double)INFINITY;
    double here = -(double)INFINITY;
    int here_first = 0;
    for (int i = 0; i < out->point_count; i++) {
        const ss_influence_point p = out->points[i];
        if (i % 4 == 0 && p.x > here) { /* the first corner of a cell of the next interval */
            before = here;
            here = p.x;
            first = isinf(before) ? 0 : here_first;
            here_first = kept;
        }
        int same = first;
        while (same < kept && !(out->points[same].x == p.x && fabs(out->points[same].y - p.y) < NARROW &&
                                fabs(out->points[same].value - p.value) <= SAME * largest)) {
            same++;
        }
        if (same == kept) {
            out->points[kept++] = p;
        }
        now[i] = same;
    }
    for (int i = 0; i < 4 * out->cell_count; i++) {
        out->cells[i / 4][i % 4] = now[out->cells[i / 4][i % 4]];
    }
    out->point_count = kept;
}

ss_status ss_influence_compute(const ss_permanent *permanent, const ss_effect *effect, ss_influence *out,
                               ss_error *error) {
    ss_status status = SS_OK;
    ss_influence made = {.arena = {0}};
    int *now = NULL;
    surface s = {.mesh = ss_grillage_mesh(permanent->grillage), .out = &made, .error = error};
    SS_TRY(ss_influence_field_make(permanent, effect, &s.field, error));
    made.effect = s.field.effect;
    made.open = s.field.open_count;
    for (int i = 0; i + 1 < s.mesh->station_count; i++) {
        SS_TRY(add_interval(&s, i));
    }
    now = ss_alloc((size_t)made.point_count, sizeof *now);
    SS_TRY(now == NULL ? ss_no_memory(error) : SS_OK);
    merge(&s, now);
    *out = made;
    made = (ss_influence){0};
done:
    ss_free(now);
    ss_influence_field_destroy(&s.field);
    ss_influence_destroy(&made);
    return status;
}

void ss_influence_destroy(ss_influence *influence) {
    ss_arena_destroy(&influence->arena);
    *influence = (ss_influence){0};
}
