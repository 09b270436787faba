/* influence_grid.c - the influence surface of one effect on a grid over the whole plan. */
#include "sillspan/influence_grid.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/influence_field.h"
#include "response/state.h"

/* m: beside a jump of the deck's shares; places closer than that are one; grid across at most. */
#define BESIDE 1e-6
#define SAME 1e-3
/* Values are taken this part of an interval within it, on one side of every jump. */
#define WITHIN 1e-9
enum { ACROSS = 48, KINKS = 256 };

typedef struct surface {
    const ss_mesh *mesh;
    ss_influence_field field;
    ss_influence_grid made;
} surface;

/* ---- grid ---------------------------------------------------------------------------------------- */

/* Shear jumps at its own section under a wheel there, if wheels come to the line itself. */
static bool jumps(const surface *s) {
    const ss_effect *const e = &s->field.effect;
    return e->member == SS_MEMBER_LINE && e->element >= 0 && !s->mesh->bridge->deck.along &&
           (e->kind == SS_EFFECT_SHEAR || e->kind == SS_EFFECT_WEB_PLUS || e->kind == SS_EFFECT_WEB_MINUS);
}

static ss_status grid_along(surface *s, ss_error *error) {
    const ss_mesh *const mesh = s->mesh;
    s->made.x = ss_arena_alloc(&s->made.arena, (size_t)mesh->station_count + 1, sizeof *s->made.x);
    if (s->made.x == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < mesh->station_count; i++) {
        s->made.x[s->made.nx++] = mesh->station[i];
        if (jumps(s) && fabs(mesh->station[i] - s->field.effect.at) < 1e-9) {
            s->made.x[s->made.nx++] = mesh->station[i];
        }
    }
    return SS_OK;
}

static void insert(double *list, int *count, int most, double value) {
    int k = *count;
    while (k > 0 && list[k - 1] > value) k--;
    const bool known =
        (k > 0 && value - list[k - 1] < 0.1 * BESIDE) || (k < *count && list[k] - value < 0.1 * BESIDE);
    if (known || *count == most) {
        return;
    }
    memmove(&list[k + 1], &list[k], (size_t)(*count - k) * sizeof *list);
    list[k] = value;
    (*count)++;
}

/* Only at the edges of gaps may the deck's shares jump. */
static bool is_line(const ss_bridge *bridge, double y) {
    for (int i = 0; i < bridge->line_count; i++) {
        if (fabs(bridge->lines[i].y - y) < SAME) {
            return true;
        }
    }
    return false;
}

static ss_status grid_across(surface *s, ss_error *error) {
    const ss_bridge *const bridge = s->mesh->bridge;
    const int most = ACROSS + 2 * KINKS + 4 * bridge->car_count;
    double kinks[KINKS];
    double low = bridge->cars[0].y_left;
    double high = bridge->cars[0].y_right;
    s->made.y = ss_arena_alloc(&s->made.arena, (size_t)most, sizeof *s->made.y);
    if (s->made.y == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 1; i < bridge->car_count; i++) {
        low = ss_min(low, bridge->cars[i].y_left);
        high = ss_max(high, bridge->cars[i].y_right);
    }
    insert(s->made.y, &s->made.ny, most, low);
    insert(s->made.y, &s->made.ny, most, high);
    for (int i = 0; i + 1 < s->mesh->station_count; i++) {
        const int count = ss_mesh_deck_kinks(s->mesh, i, kinks, KINKS);
        for (int k = 0; k < count; k++) {
            if (kinks[k] < low || kinks[k] > high) {
                continue;
            }
            if (is_line(bridge, kinks[k])) {
                insert(s->made.y, &s->made.ny, most, kinks[k]);
            } else {
                insert(s->made.y, &s->made.ny, most, ss_max(low, kinks[k] - BESIDE));
                insert(s->made.y, &s->made.ny, most, ss_min(high, kinks[k] + BESIDE));
            }
        }
    }
    /* A deck that spans along is smooth between its kinks, not straight. */
    for (int i = 1; i < ACROSS; i++) {
        insert(s->made.y, &s->made.ny, most, low + (high - low) * i / ACROSS);
    }
    return SS_OK;
}

/* ---- values -------------------------------------------------------------------------------------- */

/* The interval that column i belongs to: of two at one station the first one is before it, the second after
 * it; else it does not matter. */
static int interval_of(const surface *s, int i, double *x) {
    const ss_mesh *const mesh = s->mesh;
    const bool after = i == 0 || s->made.x[i] == s->made.x[i - 1];
    int interval = 0;
    while (interval + 2 < mesh->station_count && mesh->station[interval + 1] < s->made.x[i] - 1e-9)
        interval++;
    if (after && i > 0 && interval + 2 < mesh->station_count) {
        interval++;
    }
    const double step = WITHIN * (mesh->station[interval + 1] - mesh->station[interval]);
    *x = ss_clamp(s->made.x[i], mesh->station[interval] + step, mesh->station[interval + 1] - step);
    return interval;
}

static ss_status find_values(surface *s, ss_error *error) {
    ss_influence_grid *const made = &s->made;
    const size_t count = (size_t)made->nx * (size_t)made->ny;
    double most = 0.0;
    made->value = ss_arena_alloc(&made->arena, count, sizeof *made->value);
    if (made->value == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < made->nx; i++) {
        double x = 0.0;
        const int interval = interval_of(s, i, &x);
        for (int j = 0; j < made->ny; j++) {
            double *const value = &made->value[(size_t)i * (size_t)made->ny + (size_t)j];
            if (ss_influence_field_at(&s->field, interval, x, made->y[j], value)) {
                most = ss_max(most, fabs(*value));
            } else {
                *value = SS_NAN;
            }
        }
    }
    /* Beside the largest, rounding is nothing. */
    for (size_t i = 0; i < count; i++) {
        made->value[i] = fabs(made->value[i]) < 1e-8 * most ? 0.0 : made->value[i];
    }
    return SS_OK;
}

ss_status ss_influence_grid_compute(const ss_permanent *permanent, const ss_effect *effect,
                                    ss_influence_grid *out, ss_error *error) {
    ss_status status = SS_OK;
    surface s = {.mesh = ss_grillage_mesh(permanent->grillage)};
    const size_t springs = (size_t)s.mesh->spring_count;
    SS_TRY(ss_influence_field_make(permanent, effect, &s.field, error));
    s.made.effect = s.field.effect;
    s.made.open_count = s.field.open_count;
    s.made.open = ss_arena_alloc(&s.made.arena, springs + 1, sizeof *s.made.open);
    SS_TRY(s.made.open == NULL ? ss_no_memory(error) : SS_OK);
    memcpy(s.made.open, s.field.open, springs * sizeof *s.made.open);
    SS_TRY(grid_along(&s, error));
    SS_TRY(grid_across(&s, error));
    SS_TRY(find_values(&s, error));
    *out = s.made;
    s.made = (ss_influence_grid){0};
done:
    ss_influence_field_destroy(&s.field);
    ss_influence_grid_destroy(&s.made);
    return status;
}

void ss_influence_grid_destroy(ss_influence_grid *grid) {
    if (grid != NULL) {
        ss_arena_destroy(&grid->arena);
        *grid = (ss_influence_grid){0};
    }
}
