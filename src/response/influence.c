/* influence.c - the influence surface of one effect over the deck, by one solution. */
#include "sillspan/influence.h"

#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/deck.h"
#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"
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
    const ss_effect *effect;
    double *field; /* order: deflections of a unit effect */
    ss_influence *out;
    int capacity;
    ss_error *error;
} surface;

/* ---- the field ---------------------------------------------------------------------------------- */

/* The grillage with the bearings open that carry nothing today; *update stays NULL where all press. */
static ss_status open_bearings(const ss_permanent *permanent, ss_update **update, int *open,
                               ss_error *error) {
    const ss_mesh *const mesh = ss_grillage_mesh(permanent->grillage);
    ss_status status = SS_OK;
    double *const flexibility = ss_alloc((size_t)mesh->spring_count, sizeof *flexibility);
    if (flexibility == NULL) {
        return ss_no_memory(error);
    }
    *open = 0;
    for (int i = 0; i < mesh->spring_count; i++) {
        const bool lifted = mesh->spring[i].contact && !(permanent->present.force[i] > 0.0);
        flexibility[i] = lifted ? (double)INFINITY : mesh->spring[i].flexibility;
        *open += lifted;
    }
    if (*open > 0) {
        SS_TRY(ss_update_create(permanent->grillage, flexibility, update, error));
    }
done:
    ss_free(flexibility);
    return status;
}

/* The force of a spring under a load is its field of a unit settlement times the load. */
static ss_status spring_field(const surface *s, const ss_permanent *permanent, const ss_update *update,
                              double *right, double *force) {
    ss_status status = SS_OK;
    const int second = ss_effect_second_spring(s->mesh, s->effect);
    right[s->effect->spring] = 1.0;
    if (second >= 0) {
        right[second] = 1.0;
    }
    SS_TRY(ss_grillage_respond(permanent->grillage, update, NULL, right, s->field, force, s->error));
    const double factor = ss_effect_spring_factor(s->mesh, s->effect);
    for (int i = 0; i < s->mesh->order; i++) {
        s->field[i] *= factor;
    }
done:
    return status;
}

static ss_status member_field(const surface *s, const ss_permanent *permanent, const ss_update *update,
                              double *right, double *force) {
    ss_row row;
    ss_mesh_effect_row(s->mesh, s->effect, &row);
    ss_row_scatter(&row, 1.0, right);
    return ss_grillage_respond(permanent->grillage, update, right, NULL, s->field, force, s->error);
}

static ss_status make_field(surface *s, const ss_permanent *permanent) {
    ss_status status = SS_OK;
    ss_update *update = NULL;
    const size_t size =
        (size_t)(s->mesh->order > s->mesh->spring_count ? s->mesh->order : s->mesh->spring_count);
    double *const right = ss_alloc(size, sizeof *right);
    double *const force = ss_alloc(size, sizeof *force);
    s->field = ss_alloc(size, sizeof *s->field);
    SS_TRY(right == NULL || force == NULL || s->field == NULL ? ss_no_memory(s->error) : SS_OK);
    SS_TRY(open_bearings(permanent, &update, &s->out->open, s->error));
    SS_TRY(ss_effect_of_spring(s->effect) ? spring_field(s, permanent, update, right, force)
                                          : member_field(s, permanent, update, right, force));
done:
    ss_update_destroy(update);
    ss_free(right);
    ss_free(force);
    return status;
}

/* ---- values ------------------------------------------------------------------------------------- */

/* What a force within the effect's own element adds to the field. */
static double own_part(const surface *s, int interval, double x, const ss_deck_shares *shares) {
    const ss_effect *const e = s->effect;
    double value = 0.0;
    for (int i = 0; i < shares->carrier_count; i++) {
        const ss_carrier *const c = &shares->carrier[i];
        if (ss_mesh_line_element(s->mesh, interval, c->line) == e->element) {
            const double along = (x - s->mesh->station[interval]) / s->mesh->element[e->element].length;
            value += c->weight * ss_mesh_effect_local(s->mesh, e, along) +
                     c->arm * ss_mesh_effect_local_torque(s->mesh, e, along);
        }
    }
    for (int i = 0; i < shares->beam_count; i++) {
        const ss_beam_share *const b = &shares->beam[i];
        const bool at_end = b->s <= 1e-12 || b->s >= 1.0 - 1e-12;
        if (b->element == e->element) {
            value += at_end ? 0.0 : b->weight * ss_mesh_effect_local(s->mesh, e, b->s);
            value += b->arm == 0.0 ? 0.0 : b->arm * ss_mesh_effect_local_overhang(s->mesh, e, b->s > 0.5);
        }
    }
    return value;
}

/* The effect of a unit force at a place within the interval. False: nothing carries it there. */
static bool value_at(const surface *s, int interval, double x, double y, double *value) {
    ss_deck_shares shares;
    ss_row row;
    ss_deck_shares_at(s->mesh, interval, x, y, &shares);
    if (shares.carrier_count + shares.beam_count == 0 || ss_mesh_wheel(s->mesh, x, y, &row) != SS_OK ||
        row.count == 0) {
        return false;
    }
    *value = ss_row_dot(&row, s->field);
    if (!ss_effect_of_spring(s->effect)) {
        *value += own_part(s, interval, x, &shares);
    }
    return true;
}

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
        if (!value_at(s, interval, x[i] + (x[i] == x0 ? dx : -dx), y[i] + (y[i] == y0 ? dy : -dy),
                      &corner[i].value)) {
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
    ss_influence made = {.effect = *effect};
    int *now = NULL;
    surface s = {.mesh = ss_grillage_mesh(permanent->grillage), .out = &made, .error = error};
    SS_TRY(ss_mesh_effect(s.mesh, effect->member, effect->index, effect->at, effect->before, effect->kind,
                          &made.effect, error));
    s.effect = &made.effect;
    SS_TRY(make_field(&s, permanent));
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
    ss_free(s.field);
    ss_influence_destroy(&made);
    return status;
}

void ss_influence_destroy(ss_influence *influence) {
    ss_arena_destroy(&influence->arena);
    *influence = (ss_influence){0};
}
