/* slab_connectors_place.c - where forces of connectors are found: sections that matter along a line, and
 * stations between them. */
#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/composite.h"
#include "studies/slab_connectors_parts.h"

/* Places closer than this are one (m). */
#define SAME 1e-3

/* A bearing that carries less than this share of all dead load carries none. */
#define CARRIES 1e-9

/* Stretches are about this long, eight at most between sections that matter (m). */
#define BAY 1.5

/* Parts of a span; sagging is sought at the ends of the inner ones. */
enum { TENTHS = 10 };

/* ---- supports ----------------------------------------------------------------------------------------- */

/* Whether some spring of a bearing carries dead load; two-way ones count whatever they carry. */
static bool carries(const ss_ties *t, int bearing) {
    const ss_state *const present = &t->permanent->present;
    for (int i = 0; i < t->mesh->spring_count; i++) {
        const ss_spring *const s = &t->mesh->spring[i];
        if (s->owner == SS_MEMBER_BEARING && s->index == bearing && s->kind == SS_SPRING_VERTICAL &&
            (!s->contact || present->force[i] > CARRIES * fabs(present->load.total))) {
            return true;
        }
    }
    return false;
}

/* Bearings of the line within (x0, x1), ascending; beyond SS_TIES_SUPPORTS none are looked at. */
static int find_supports(const ss_ties *t, int line, double x0, double x1, double *out) {
    int count = 0;
    for (int i = 0; i < t->bridge->bearing_count; i++) {
        const ss_bearing *const b = &t->bridge->bearings[i];
        if (b->line == line && b->x > x0 - SAME && b->x < x1 + SAME && count < SS_TIES_SUPPORTS &&
            carries(t, i)) {
            out[count++] = b->x;
        }
    }
    ss_sort_unique(out, &count, SAME);
    return count;
}

static void add_span(ss_tie_line *line, double x0, double x1, bool from_support, bool to_support) {
    if (x1 - x0 > SAME) {
        line->spans[line->span_count++] =
            (ss_tie_span){.x0 = x0,
                          .x1 = x1,
                          .from = from_support ? SS_CONNECTOR_END_SUPPORT : SS_CONNECTOR_END_FREE,
                          .to = to_support ? SS_CONNECTOR_END_SUPPORT : SS_CONNECTOR_END_FREE};
    }
}

/* A bearing is a support with a hogging moment where line and slab go on beyond it. */
static void find_spans(const ss_ties *t, ss_tie_line *line) {
    const ss_slab *const slab = &t->bridge->slab;
    const ss_line *const own = &t->bridge->lines[line->line];
    const double x0 = ss_max(own->x0, slab->x0);
    const double x1 = ss_min(own->x1, slab->x1);
    double at[SS_TIES_SUPPORTS];
    const int count = find_supports(t, line->line, x0, x1, at);
    if (count == 0) {
        add_span(line, x0, x1, false, false);
        return;
    }
    const bool first_free = at[0] <= x0 + SAME;
    const bool last_free = at[count - 1] >= x1 - SAME;
    add_span(line, x0, at[0], false, true);
    for (int i = 0; i + 1 < count; i++) {
        add_span(line, at[i], at[i + 1], i > 0 || !first_free, i + 2 < count || !last_free);
    }
    add_span(line, at[count - 1], x1, true, false);
    /* One bearing alone: floor beams carry the line elsewhere, and both sides of it may sag. */
    for (int i = 0; i < line->span_count && count > 1; i++) {
        ss_tie_span *const s = &line->spans[i];
        s->overhang = s->x1 <= at[0] + SAME || s->x0 >= at[count - 1] - SAME;
        s->over[0] =
            s->from == SS_CONNECTOR_END_SUPPORT && (s->x0 <= at[0] + SAME || s->x0 >= at[count - 1] - SAME);
        s->over[1] =
            s->to == SS_CONNECTOR_END_SUPPORT && (s->x1 <= at[0] + SAME || s->x1 >= at[count - 1] - SAME);
    }
}

/* ---- stations -------------------------------------------------------------------------------------------
 */

/* The station of the mesh nearest to x that lies from x0 to x1. */
static double nearest(const ss_mesh *mesh, double x, double x0, double x1) {
    double best = x0;
    for (int i = 0; i < mesh->station_count; i++) {
        const double at = mesh->station[i];
        if (at >= x0 - SAME && at <= x1 + SAME && fabs(at - x) < fabs(best - x) - 1e-9) {
            best = at;
        }
    }
    return best;
}

static ss_status add_place(ss_ties *t, int line, double x, bool before) {
    ss_status status = SS_OK;
    ss_section_properties steel;
    ss_slab_flange flange;
    ss_composite_properties both;
    ss_tie_place *const place = &t->places[t->place_count++];
    *place = (ss_tie_place){.x = x, .before = before, .shear = t->shear_count, .I = SS_NAN, .Q = SS_NAN};
    SS_TRY(ss_mesh_effect(t->mesh, SS_MEMBER_LINE, line, x, before, SS_EFFECT_SHEAR,
                          &t->shears[t->shear_count++], t->error));
    SS_TRY(ss_bridge_line_section(t->bridge, line, x, before, &steel));
    if (ss_slab_flange_at(t->bridge, line, x, before, ss_slab_finished(&t->bridge->slab), &flange)) {
        SS_TRY(ss_composite_at(&steel, &flange, false, &both, t->error));
        place->I = both.I;
        place->Q = both.Q;
    }
done:
    return status;
}

static ss_status add_stations(ss_ties *t, int line, ss_tie_span *span) {
    ss_status status = SS_OK;
    const double length = span->x1 - span->x0;
    const int bays = (int)ss_clamp(ceil(length / BAY), 1.0, SS_TIES_BAYS);
    double last = span->x0;
    span->first_place = t->place_count;
    for (int i = 1; i <= bays; i++) {
        const double x =
            i == bays ? span->x1 : nearest(t->mesh, span->x0 + length * i / bays, span->x0, span->x1);
        if (x > last + SAME) {
            SS_TRY(add_place(t, line, last, false));
            SS_TRY(add_place(t, line, x, true));
            last = x;
        }
    }
    span->place_count = t->place_count - span->first_place;
    span->first_moment = t->moment_count;
    last = span->x0;
    for (int i = 3; i <= TENTHS - 3 && !span->overhang; i++) {
        const double x = nearest(t->mesh, span->x0 + length * i / TENTHS, span->x0, span->x1);
        if (x > last + SAME && x < span->x1 - SAME) {
            SS_TRY(ss_mesh_effect(t->mesh, SS_MEMBER_LINE, line, x, false, SS_EFFECT_MOMENT,
                                  &t->moments[t->moment_count++], t->error));
            last = x;
        }
    }
    span->moment_count = t->moment_count - span->first_moment;
    for (int end = 0; end < 2; end++) {
        span->hogging[end] = span->over[end] ? t->moment_count : -1;
        if (span->over[end]) {
            SS_TRY(ss_mesh_effect(t->mesh, SS_MEMBER_LINE, line, end == 0 ? span->x0 : span->x1, end == 1,
                                  SS_EFFECT_MOMENT, &t->moments[t->moment_count++], t->error));
        }
    }
done:
    return status;
}

ss_status ss_ties_find(ss_ties *t) {
    ss_status status = SS_OK;
    const size_t lines = (size_t)t->bridge->line_count + 1;
    t->lines = ss_arena_alloc(&t->scratch, lines, sizeof *t->lines);
    SS_TRY(t->lines == NULL ? ss_no_memory(t->error) : SS_OK);
    int spans = 0;
    for (int i = 0; i < t->bridge->line_count; i++) {
        if (t->bridge->slab.lines[i].composite) {
            ss_tie_line *const line = &t->lines[t->line_count++];
            line->line = i;
            find_spans(t, line);
            spans += line->span_count;
        }
    }
    /* Two shears a bay; moments are fewer. */
    const size_t most = (size_t)spans * 2 * SS_TIES_BAYS + 1;
    t->places = ss_arena_alloc(&t->scratch, most, sizeof *t->places);
    t->shears = ss_arena_alloc(&t->scratch, most, sizeof *t->shears);
    t->moments = ss_arena_alloc(&t->scratch, most, sizeof *t->moments);
    t->shear = ss_arena_alloc(&t->scratch, most, sizeof *t->shear);
    t->moment = ss_arena_alloc(&t->scratch, most, sizeof *t->moment);
    SS_TRY(t->places == NULL || t->shears == NULL || t->moments == NULL || t->shear == NULL ||
                   t->moment == NULL
               ? ss_no_memory(t->error)
               : SS_OK);
    for (int i = 0; i < t->line_count; i++) {
        for (int s = 0; s < t->lines[i].span_count; s++) {
            SS_TRY(add_stations(t, t->lines[i].line, &t->lines[i].spans[s]));
        }
    }
done:
    return status;
}
