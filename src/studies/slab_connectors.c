/* slab_connectors.c - connectors of all lines that act with the slab: forces and ranges, layout, checks. */
#include "sillspan/slab_connectors.h"

#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/fatigue.h"
#include "sillspan/section_form.h"
#include "studies/slab_connectors_parts.h"

#define DAYS 365.0

/* ---- traffic ------------------------------------------------------------------------------------------ */

/* The truck of fatigue, or the built-in one where none is asked for. */
static const ss_vehicle *truck_of(const ss_bridge *bridge) {
    return bridge->fatigue.spot_count > 0 ? &bridge->vehicles[bridge->fatigue.vehicle]
                                          : ss_vehicle_find("Fatigue truck");
}

static ss_fatigue_edition edition_of(const ss_bridge *bridge) {
    return bridge->rating.edition == SS_EDITION_MBE_2011 ? SS_FATIGUE_BEFORE_2017 : SS_FATIGUE_SINCE_2017;
}

/* Trucks a day in a single lane, the mean of the years to come. */
static double adtt_of(const ss_bridge *bridge, bool *derived) {
    const ss_fatigue_settings *const asked = &bridge->fatigue;
    *derived = asked->spot_count == 0 && bridge->rating.adtt >= 0;
    if (*derived) {
        return bridge->rating.adtt * (bridge->lanes.count < 2 ? 2.0 : 1.0);
    }
    if (asked->spot_count == 0) {
        return SS_NAN;
    }
    const double g = asked->growth;
    const double grown = fabs(g) < 1e-9 ? SS_CONNECTOR_YEARS : (pow(1.0 + g, SS_CONNECTOR_YEARS) - 1.0) / g;
    return asked->adtt * grown / SS_CONNECTOR_YEARS;
}

/* How connectors are used at a place. */
typedef struct traffic {
    double each, cycles, factor;
    bool infinite;
} traffic;

/* In the middle of a stretch, so that it is no support. */
static traffic traffic_at(const ss_ties *t, int line, double x, const ss_slab_connectors *all) {
    const ss_fatigue_edition edition = edition_of(t->bridge);
    const ss_fatigue_spot spot = {
        .at = {.member = SS_MEMBER_LINE, .index = line, .at = x, .effect = SS_EFFECT_MOMENT}};
    double length = SS_NAN;
    const ss_fatigue_member member = ss_fatigue_member_of(t->bridge, &spot, &length);
    traffic out = {.each = ss_fatigue_cycles_per_truck(member, length)};
    /* Where no span is known, as many as the book has. */
    out.each = isnan(out.each) ? 5.0 : out.each;
    const double limit = ss_connector_infinite_traffic(t->bridge->slab.connectors.kind, out.each, edition);
    out.infinite = !(all->adtt < limit);
    out.factor = ss_fatigue_load_factor(edition, out.infinite);
    out.cycles = out.infinite ? SS_INFINITY : ss_max(DAYS * SS_CONNECTOR_YEARS * out.each * all->adtt, 1.0);
    return out;
}

static void set_traffic(const traffic *from, ss_connector_line *out) {
    out->each_truck = from->each;
    out->infinite = from->infinite;
    out->factor = from->factor;
    out->demand.cycles = from->cycles;
}

/* ---- ranges ------------------------------------------------------------------------------------------- */

static double flow_of(const ss_ties *t, const ss_tie_place *p) {
    return t->shear[p->shear].range * p->Q / p->I;
}

static double pitch_of(const ss_connector_demand *d, const ss_connector_stretch *s) {
    const double Zr = ss_connector_fatigue(d->connectors, s->cycles, d->rule, NULL).value;
    return ss_connector_fatigue_pitch(d->connectors->per_row, Zr, s->range, s->I, s->Q);
}

/* Takes a stretch into the segments that it lies in, where it asks for the closest rows. */
static void tell_parts(const ss_ties *t, const ss_connector_demand *d, const ss_connector_stretch *one,
                       const ss_tie_place *p, ss_connector_part *parts, double *closest) {
    const ss_passage *const passage = &t->shear[p->shear];
    const double pitch = pitch_of(d, one);
    for (int i = 0; i < d->segment_count; i++) {
        ss_connector_part *const part = &parts[i];
        const bool inside = ss_min(one->x1, d->segments[i].x1) > ss_max(one->x0, d->segments[i].x0);
        if (inside && one->range > 0.0 && (isnan(part->at) || pitch < closest[i])) {
            closest[i] = pitch;
            part->range = one->range;
            part->at = p->x;
            part->I = one->I;
            part->Q = one->Q;
            part->y = passage->y;
            part->backward = passage->backward;
        }
    }
}

/* The end of each stretch with the larger flow. The traffic of the one with the closest rows is the line's.
 */
static ss_status add_stretches(const ss_ties *t, const ss_tie_line *line, const ss_slab_connectors *all,
                               ss_connector_line *out, ss_connector_part *parts, ss_arena *arena) {
    ss_connector_demand *const d = &out->demand;
    int most = 0;
    double least = SS_INFINITY;
    for (int s = 0; s < line->span_count; s++) most += line->spans[s].place_count / 2;
    ss_connector_stretch *const stretches = ss_arena_alloc(arena, (size_t)most + 1, sizeof *stretches);
    double *const closest = ss_arena_alloc(arena, (size_t)d->segment_count + 1, sizeof *closest);
    if (stretches == NULL || closest == NULL) {
        return ss_no_memory(t->error);
    }
    d->stretches = stretches;
    for (int k = 0; k < most; k++) {
        const ss_tie_place *const pair = &t->places[line->spans[0].first_place + 2 * k];
        const ss_tie_place *const p = flow_of(t, &pair[1]) > flow_of(t, &pair[0]) ? &pair[1] : &pair[0];
        const traffic used = traffic_at(t, line->line, 0.5 * (pair[0].x + pair[1].x), all);
        const double factor = (1.0 + SS_FATIGUE_ALLOWANCE) * used.factor;
        const ss_connector_stretch one = {pair[0].x, pair[1].x, factor * t->shear[p->shear].range,
                                          p->I,      p->Q,      used.cycles};
        stretches[d->stretch_count++] = one;
        tell_parts(t, d, &one, p, parts, closest);
        if (pitch_of(d, &one) < least) {
            least = pitch_of(d, &one);
            set_traffic(&used, out);
        }
    }
    return SS_OK;
}

/* ---- one line ----------------------------------------------------------------------------------------- */

static ss_connector_place place_of(const ss_ties *t, const ss_tie_line *line) {
    const ss_slab *const slab = &t->bridge->slab;
    const ss_slab_line *const own = &slab->lines[line->line];
    ss_connector_place out = {.plate = own->plate,
                              .over_web = own->over_web,
                              .flange = SS_INFINITY,
                              .web_depth = SS_INFINITY,
                              .thickness = slab->thickness,
                              .haunch = slab->haunch};
    for (int k = 0; k < 2 * t->bridge->lines[line->line].piece_count; k++) {
        const ss_line_piece *const piece =
            &t->bridge->pieces[t->bridge->lines[line->line].first_piece + k / 2];
        ss_section_form form;
        if (ss_section_form_at(&t->bridge->sections[piece->section],
                               k % 2 == 0 ? piece->depth0 : piece->depth1, &form, NULL) != SS_OK) {
            form = (ss_section_form){0};
        }
        out.flange = ss_min(out.flange, form.top.width);
        out.web_depth = ss_min(out.web_depth, form.web_clear);
    }
    return out;
}

static ss_status make_line(const ss_ties *t, const ss_tie_line *line, ss_arena *arena,
                           const ss_slab_connectors *all, ss_connector_line *out) {
    const ss_slab *const slab = &t->bridge->slab;
    const bool part = slab->connectors.partial && slab->connectors.pitch > 0.0;
    const size_t most = 2 * (size_t)line->span_count + 1;
    ss_tie_segments m = {.segments = ss_arena_alloc(arena, most, sizeof *m.segments),
                         .parts = ss_arena_alloc(arena, most, sizeof *m.parts)};
    ss_connector_run *const runs = ss_arena_alloc(arena, most, sizeof *runs);
    ss_status status = SS_OK;
    SS_TRY(m.segments == NULL || m.parts == NULL || runs == NULL ? ss_no_memory(t->error) : SS_OK);
    SS_TRY(ss_ties_segments(t, line, &m));
    *out = (ss_connector_line){.line = line->line, .parts = m.parts, .runs = runs};
    out->demand = (ss_connector_demand){.connectors = ss_slab_connectors_on(slab, line->line),
                                        .place = place_of(t, line),
                                        .fc = slab->fc,
                                        .E = slab->E,
                                        .rule = SS_CONNECTOR_LRFD,
                                        .degree = part ? SS_CONNECTOR_DEGREE_LEAST : 1.0,
                                        .segments = m.segments,
                                        .segment_count = m.count,
                                        .units = t->bridge->units};
    const traffic middle =
        traffic_at(t, line->line, 0.5 * (line->spans[0].x0 + line->spans[line->span_count - 1].x1), all);
    set_traffic(&middle, out);
    if (t->shear != NULL) {
        SS_TRY(add_stretches(t, line, all, out, m.parts, arena));
    }
    out->plan = ss_connector_design(&out->demand, runs, NULL);
done:
    return status;
}

void ss_slab_connectors_work(const ss_connector_line *line, ss_working *working) {
    ss_connector_run *const runs = ss_alloc((size_t)line->demand.segment_count + 1, sizeof *runs);
    if (runs != NULL) {
        (void)ss_connector_design(&line->demand, runs, working);
    }
    ss_free(runs);
}

/* ---- all ---------------------------------------------------------------------------------------------- */

/* Sagging is sought under the design truck with its axles close together, as strength is asked of it. */
static ss_status roll(ss_ties *t, ss_slab_connectors *out) {
    const ss_vehicle *const truck = truck_of(t->bridge);
    const ss_vehicle *const design = ss_vehicle_find("HS20-44");
    ss_status status = SS_OK;
    int lines = 0;
    out->truck = truck->name;
    SS_TRY(ss_passages_compute(t->permanent, truck, t->shears, t->shear_count, t->shear, &out->passages,
                               t->error));
    SS_TRY(
        ss_passages_compute(t->permanent, design, t->moments, t->moment_count, t->moment, &lines, t->error));
    if (out->passages == 0) {
        out->failure = "the roadway has no room for the fatigue truck";
        t->shear = NULL;
    }
    if (lines == 0) {
        t->moment = NULL;
    }
done:
    return status;
}

/* Of two lines the one that does not fit, else the one with the closer rows. */
static bool worse(const ss_connector_line *a, const ss_connector_line *b) {
    double closest[2] = {SS_INFINITY, SS_INFINITY};
    const ss_connector_line *const both[2] = {a, b};
    for (int k = 0; k < 2; k++) {
        for (int i = 0; i < both[k]->demand.segment_count && both[k]->plan.why == NULL; i++) {
            closest[k] = ss_min(closest[k], both[k]->runs[i].pitch);
        }
    }
    const bool fits_a = a->plan.why == NULL && a->plan.fits;
    const bool fits_b = b->plan.why == NULL && b->plan.fits;
    if (fits_a != fits_b) {
        return !fits_a;
    }
    return closest[0] < closest[1] || (closest[0] == closest[1] && a->plan.degree < b->plan.degree);
}

static ss_status compute(ss_ties *t, ss_arena *arena, ss_slab_checks *checks, ss_slab_connectors *out) {
    ss_status status = SS_OK;
    SS_TRY(ss_ties_find(t));
    if (t->line_count == 0) {
        return SS_OK;
    }
    SS_TRY(roll(t, out));
    out->lines = ss_arena_alloc(arena, (size_t)t->line_count, sizeof *out->lines);
    SS_TRY(out->lines == NULL ? ss_no_memory(t->error) : SS_OK);
    for (int i = 0; i < t->line_count; i++) {
        ss_connector_line *const made = &out->lines[out->count];
        if (t->lines[i].span_count == 0) {
            continue;
        }
        SS_TRY(make_line(t, &t->lines[i], arena, out, made));
        SS_TRY(ss_slab_connectors_check(t->bridge, made, checks) ? SS_OK : ss_no_memory(t->error));
        out->rows += made->plan.rows;
        out->total += made->plan.count;
        out->worst = out->worst < 0 || worse(made, &out->lines[out->worst]) ? out->count : out->worst;
        out->count++;
    }
done:
    return status;
}

ss_status ss_slab_connectors_compute(const ss_permanent *permanent, ss_arena *arena, ss_slab_checks *checks,
                                     ss_slab_connectors *out, ss_error *error) {
    const ss_mesh *const mesh = ss_grillage_mesh(permanent->grillage);
    ss_ties ties = {.permanent = permanent, .mesh = mesh, .bridge = mesh->bridge, .error = error};
    ss_slab_connectors made = {.worst = -1, .adtt = SS_NAN};
    ss_status status = SS_OK;
    if (mesh->bridge->slab.given && mesh->bridge->slab.thickness > 0.0) {
        made.adtt = adtt_of(mesh->bridge, &made.derived);
        status = compute(&ties, arena, checks, &made);
    }
    ss_arena_destroy(&ties.scratch);
    if (status == SS_OK) {
        *out = made;
    }
    return status;
}
