/* figure_contour.c - lines of equal values over a grid, cell by cell, linked to chains. */
#include "report/figure_contour.h"

#include <math.h>

/* Edges of the grid are numbered: those along x first, then those along y. A line crosses each at most once.
 */
typedef struct tracing {
    const ss_field_grid *grid;
    double level;
    int along; /* edges along x */
    int *link; /* edge x 2: the edges that the line goes on to; -1: none */
    bool *done;
} tracing;

static double value(const ss_field_grid *g, int i, int j) {
    return g->value[(size_t)i * (size_t)g->ny + (size_t)j];
}

static int edge_x(const ss_field_grid *g, int i, int j) {
    return i * g->ny + j;
}

static int edge_y(const tracing *t, int i, int j) {
    return t->along + i * (t->grid->ny - 1) + j;
}

static void join(tracing *t, int a, int b) {
    t->link[2 * a + (t->link[2 * a] >= 0)] = b;
    t->link[2 * b + (t->link[2 * b] >= 0)] = a;
}

/* A cell whose corners are above or not, in turn round it. */
static void cut_cell(tracing *t, int i, int j) {
    const ss_field_grid *const g = t->grid;
    const double corner[4] = {value(g, i, j), value(g, i + 1, j), value(g, i + 1, j + 1), value(g, i, j + 1)};
    const int edge[4] = {edge_x(g, i, j), edge_y(t, i + 1, j), edge_x(g, i, j + 1), edge_y(t, i, j)};
    int crossed[4];
    int count = 0;
    double middle = 0.0;
    for (int k = 0; k < 4; k++) {
        if (isnan(corner[k])) {
            return;
        }
        middle += 0.25 * corner[k];
        if ((corner[k] > t->level) != (corner[(k + 1) % 4] > t->level)) {
            crossed[count++] = edge[k];
        }
    }
    if (count == 2) {
        join(t, crossed[0], crossed[1]);
    } else if (count == 4) {
        /* A saddle: the middle decides which corners belong together. */
        const bool first = (corner[0] > t->level) == (middle > t->level);
        join(t, crossed[0], crossed[first ? 1 : 3]);
        join(t, crossed[2], crossed[first ? 3 : 1]);
    }
}

static ss_spot spot_of(const tracing *t, int edge) {
    const ss_field_grid *const g = t->grid;
    const bool is_x = edge < t->along;
    const int at = is_x ? edge : edge - t->along;
    const int i = at / (is_x ? g->ny : g->ny - 1);
    const int j = at % (is_x ? g->ny : g->ny - 1);
    const double from = value(g, i, j);
    const double to = is_x ? value(g, i + 1, j) : value(g, i, j + 1);
    const double part = fmin(fmax((t->level - from) / (to - from), 0.0), 1.0);
    return is_x ? (ss_spot){g->x[i] + part * (g->x[i + 1] - g->x[i]), g->y[j]}
                : (ss_spot){g->x[i], g->y[j] + part * (g->y[j + 1] - g->y[j])};
}

/* Follows a line from an edge on; returns the number of points, which go to `points` unless it is NULL. */
static int follow(const tracing *t, int start, bool *done, ss_spot *points) {
    int count = 0;
    int before = -1;
    int at = start;
    while (at >= 0) {
        if (points != NULL) {
            points[count] = spot_of(t, at);
        }
        count++;
        if (done != NULL) {
            done[at] = true;
        }
        const int next = t->link[2 * at] != before ? t->link[2 * at] : t->link[2 * at + 1];
        before = at;
        at = next;
        if (at == start) {
            if (points != NULL) {
                points[count] = points[0];
            }
            return count + 1;
        }
    }
    return count;
}

bool ss_contours(const ss_field_grid *grid, double level, ss_arena *arena, ss_contour **out, int *count) {
    tracing t = {.grid = grid, .level = level, .along = (grid->nx - 1) * grid->ny};
    const int edges = t.along + grid->nx * (grid->ny - 1);
    ss_contour *const made = ss_arena_alloc(arena, (size_t)edges + 1, sizeof *made);
    t.link = ss_arena_alloc(arena, 2 * (size_t)edges + 1, sizeof *t.link);
    t.done = ss_arena_alloc(arena, (size_t)edges + 1, sizeof *t.done);
    *count = 0;
    if (made == NULL || t.link == NULL || t.done == NULL) {
        return false;
    }
    for (int i = 0; i < 2 * edges; i++) {
        t.link[i] = -1;
    }
    for (int i = 0; i + 1 < grid->nx; i++) {
        for (int j = 0; j + 1 < grid->ny; j++) {
            cut_cell(&t, i, j);
        }
    }
    /* Lines that end at a border first, then those that close. */
    for (int pass = 0; pass < 2; pass++) {
        for (int e = 0; e < edges; e++) {
            const bool begins = t.link[2 * e] >= 0 && (pass == 1 || t.link[2 * e + 1] < 0);
            if (!begins || t.done[e]) {
                continue;
            }
            const int length = follow(&t, e, NULL, NULL);
            ss_spot *const points = ss_arena_alloc(arena, (size_t)length, sizeof *points);
            if (points == NULL) {
                return false;
            }
            (void)follow(&t, e, t.done, points);
            made[(*count)++] = (ss_contour){level, length, points};
        }
    }
    *out = made;
    return true;
}
