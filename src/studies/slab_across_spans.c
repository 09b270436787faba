/* slab_across_spans.c - where a slab spans: between lines beside each other, over gaps, and beyond the outer
 * lines. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "studies/slab_across_parts.h"

/* Spans that differ by less than this are alike (m). */
#define SAME 1e-3

typedef struct spans {
    const ss_mesh *mesh;
    const ss_bridge *bridge;
    ss_slab_strip *items; /* every pair once */
    int count, capacity;
    ss_arena *arena;
    bool failed;
} spans;

static bool same_pair(const ss_slab_strip *a, const ss_slab_strip *b) {
    return a->from == b->from && a->to == b->to;
}

static void add(spans *s, ss_slab_strip one) {
    for (int i = 0; i < s->count; i++) {
        if (same_pair(&s->items[i], &one)) {
            return;
        }
    }
    if (!(one.span > SAME) || s->failed) {
        return;
    }
    if (s->count == s->capacity) {
        const int capacity = s->capacity == 0 ? 32 : 2 * s->capacity;
        ss_slab_strip *const items = ss_arena_alloc(s->arena, (size_t)capacity, sizeof *items);
        if (items == NULL) {
            s->failed = true;
            return;
        }
        if (s->count > 0) {
            memcpy(items, s->items, (size_t)s->count * sizeof *items);
        }
        s->items = items;
        s->capacity = capacity;
    }
    one.alike = 1;
    s->items[s->count++] = one;
}

/* Beyond an outer line: a wheel keeps to the roadway. */
static void add_edge(spans *s, int line, bool right, double edge, bool gap) {
    const ss_bridge *const b = s->bridge;
    const double y = b->lines[line].y;
    const double wheel = right ? ss_min(b->roadway_right - b->wheel_to_curb, edge)
                               : ss_max(b->roadway_left + b->wheel_to_curb, edge);
    const double span = right ? edge - y : y - edge;
    const double reach = right ? wheel - y : y - wheel;
    add(s, (ss_slab_strip){.kind = SS_SLAB_SPAN_OVERHANG,
                           .from = right ? line : -1 - (gap ? 1 : 0),
                           .to = right ? -1 - (gap ? 1 : 0) : line,
                           .span = span,
                           .reach = ss_min(reach, span)});
}

/* Two lines beside each other, of one car or of two. */
static void add_between(spans *s, int left, int right, bool only) {
    const ss_bridge *const b = s->bridge;
    const ss_line *const l = &b->lines[left];
    const ss_line *const r = &b->lines[right];
    if (l->car != r->car && b->slab.joint == SS_SLAB_JOINT_OPEN) {
        add_edge(s, left, true, b->cars[l->car].y_right, true);
        add_edge(s, right, false, b->cars[r->car].y_left, true);
        return;
    }
    const bool hinged = l->car != r->car && b->slab.joint == SS_SLAB_JOINT_HINGED;
    add(s, (ss_slab_strip){.kind = hinged ? SS_SLAB_SPAN_HINGED
                                   : only ? SS_SLAB_SPAN_SIMPLE
                                          : SS_SLAB_SPAN_CONTINUOUS,
                           .from = left,
                           .to = right,
                           .span = r->y - l->y});
}

/* The lines in an interval of stations, from the left: they are in that order in the bridge. */
static void look_at(spans *s, int interval) {
    const ss_mesh *const mesh = s->mesh;
    const ss_bridge *const b = s->bridge;
    const int lines = b->line_count;
    int here = 0;
    int last = -1;
    for (int i = 0; i < lines; i++) {
        here += mesh->line_element[(size_t)interval * (size_t)lines + (size_t)i] >= 0 ? 1 : 0;
    }
    for (int i = 0; i < lines; i++) {
        if (mesh->line_element[(size_t)interval * (size_t)lines + (size_t)i] < 0) {
            continue;
        }
        if (last < 0) {
            add_edge(s, i, false, b->slab.y0, false);
        } else {
            add_between(s, last, i, here == 2);
        }
        last = i;
    }
    if (last >= 0) {
        add_edge(s, last, true, b->slab.y1, false);
    }
}

static bool alike(const ss_slab_strip *a, const ss_slab_strip *b) {
    const bool edges = a->kind != SS_SLAB_SPAN_OVERHANG || fabs(a->reach - b->reach) < SAME;
    return a->kind == b->kind && fabs(a->span - b->span) < SAME && edges;
}

bool ss_slab_across_spans(const ss_mesh *mesh, ss_arena *arena, ss_slab_across *out) {
    const ss_slab *const slab = &mesh->bridge->slab;
    spans s = {.mesh = mesh, .bridge = mesh->bridge, .arena = arena};
    for (int i = 0; i + 1 < mesh->station_count; i++) {
        const double x = 0.5 * (mesh->station[i] + mesh->station[i + 1]);
        if (x > slab->x0 && x < slab->x1) {
            look_at(&s, i);
        }
    }
    out->strips = s.items;
    for (int i = 0; i < s.count; i++) {
        int same = 0;
        while (same < out->count && !alike(&s.items[i], &out->strips[same])) same++;
        if (same < out->count) {
            out->strips[same].alike++;
        } else {
            out->strips[out->count++] = s.items[i];
        }
    }
    return !s.failed;
}
