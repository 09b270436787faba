/* slab_connectors_force.c - forces of connectors between the sections that matter along a line. */
#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "sillspan/composite.h"
#include "studies/slab_connectors_parts.h"

/* Strength I of the design truck in one lane, and of dead load (LRFD Tables 3.4.1-1, 3.4.1-2, 3.6.1.1.2-1,
 * 3.6.2.1-1; from memory). */
#define HOGGING_LIVE (1.75 * 1.33 * 1.20)
#define HOGGING_DC 1.25
#define HOGGING_DW 1.50

/* Moments from this share of the largest on count as that. */
#define NEAR_MOST 0.95

static ss_status section_at(const ss_ties *t, int line, double x, bool before, ss_connector_section *out) {
    ss_section_properties steel;
    ss_slab_flange flange = {0};
    ss_status status = SS_OK;
    SS_TRY(ss_bridge_line_section(t->bridge, line, x, before, &steel));
    (void)ss_slab_flange_at(t->bridge, line, x, before, ss_slab_finished(&t->bridge->slab), &flange);
    *out = (ss_connector_section){.width = flange.width,
                                  .thickness = flange.thickness,
                                  .fc = flange.fc,
                                  .steel = steel.A * t->bridge->steels[t->bridge->lines[line].steel].fy};
done:
    return status;
}

/* What slab and bars over a support pull. */
static ss_status pull_at(const ss_ties *t, int line, double x, bool before, double *out) {
    ss_connector_section section;
    const ss_status status = section_at(t, line, x, before, &section);
    if (status == SS_OK) {
        *out = ss_connector_force(&section, true, SS_CONNECTOR_HOGGING_SLAB, NULL) -
               ss_connector_force(&section, false, SS_CONNECTOR_HOGGING_SLAB, NULL);
    }
    return status;
}

/* The same where an overhang begins: no more than elastic statics asks for, M Q/I of the uncracked section,
 * since the moment there cannot grow beyond what stands on the overhang. Dead load counts by the stages in
 * which the slab acts. */
static ss_status overhang_pull(const ss_ties *t, int hogging, double *pull) {
    const ss_effect *const e = &t->moments[hogging];
    double moment = HOGGING_LIVE * t->moment[hogging].least;
    ss_section_properties steel;
    ss_slab_flange flange;
    ss_composite_properties both;
    ss_status status = SS_OK;
    for (int i = 0; i < t->permanent->stage_count; i++) {
        const ss_permanent_stage *const stage = &t->permanent->stages[i];
        const double added = ss_permanent_added(t->permanent, i, e);
        if (added < 0.0 && ss_slab_flange_at(t->bridge, e->index, e->at, e->before, stage->slab, &flange)) {
            moment += added * (stage->component == SS_COMPONENT_DC ? HOGGING_DC : HOGGING_DW);
        }
    }
    SS_TRY(ss_bridge_line_section(t->bridge, e->index, e->at, e->before, &steel));
    if (ss_slab_flange_at(t->bridge, e->index, e->at, e->before, ss_slab_finished(&t->bridge->slab),
                          &flange)) {
        SS_TRY(ss_composite_at(&steel, &flange, false, &both, t->error));
        *pull = ss_min(*pull, ss_max(-moment, 0.0) * both.Q / both.I);
    }
done:
    return status;
}

/* Of an end of a span; 0 where it is no support. */
static ss_status end_pull(const ss_ties *t, int line, const ss_tie_span *span, int end, double *out) {
    ss_status status = SS_OK;
    *out = 0.0;
    if ((end == 0 ? span->from : span->to) != SS_CONNECTOR_END_SUPPORT) {
        return SS_OK;
    }
    SS_TRY(pull_at(t, line, end == 0 ? span->x0 : span->x1, end == 1, out));
    if (span->hogging[end] >= 0 && t->moment != NULL) {
        SS_TRY(overhang_pull(t, span->hogging[end], out));
    }
done:
    return status;
}

/* Where the design truck's sagging moment is largest: of places that come near it the one next to the middle,
 * so that halves are alike. NaN: it sags nowhere. */
static double largest_sagging(const ss_ties *t, const ss_tie_span *span) {
    const double middle = 0.5 * (span->x0 + span->x1);
    double most = 0.0;
    double x = SS_NAN;
    for (int i = 0; i < span->moment_count; i++) {
        most = ss_max(most, t->moment[span->first_moment + i].most);
    }
    for (int i = 0; i < span->moment_count && most > 0.0; i++) {
        const double at = t->moments[span->first_moment + i].at;
        const bool near = t->moment[span->first_moment + i].most >= NEAR_MOST * most;
        if (near && (isnan(x) || fabs(at - middle) < fabs(x - middle) - 1e-9)) {
            x = at;
        }
    }
    return x;
}

static void add_segment(ss_tie_segments *m, double x0, double x1, double force, ss_connector_end from,
                        ss_connector_end to) {
    m->segments[m->count] = (ss_connector_segment){x0, x1, force};
    m->parts[m->count++] = (ss_connector_part){.from = from, .to = to, .at = SS_NAN, .y = SS_NAN};
}

static ss_status add_span(const ss_ties *t, int line, const ss_tie_span *span, ss_tie_segments *m) {
    /* Without a range of moments the sagging is taken to be largest in the middle. */
    const bool known = t->moment != NULL && span->moment_count > 0;
    const double x = span->overhang ? SS_NAN : known ? largest_sagging(t, span) : 0.5 * (span->x0 + span->x1);
    double before = 0.0;
    double after = 0.0;
    ss_status status = SS_OK;
    SS_TRY(end_pull(t, line, span, 0, &before));
    SS_TRY(end_pull(t, line, span, 1, &after));
    if (isnan(x)) {
        add_segment(m, span->x0, span->x1, ss_max(before, after), span->from, span->to);
        return SS_OK;
    }
    ss_connector_section section;
    SS_TRY(section_at(t, line, x, false, &section));
    const double sagging = ss_connector_force(&section, false, SS_CONNECTOR_HOGGING_SLAB, NULL);
    add_segment(m, span->x0, x, sagging + before, span->from, SS_CONNECTOR_END_SAGGING);
    add_segment(m, x, span->x1, sagging + after, SS_CONNECTOR_END_SAGGING, span->to);
done:
    return status;
}

ss_status ss_ties_segments(const ss_ties *ties, const ss_tie_line *line, ss_tie_segments *out) {
    ss_status status = SS_OK;
    for (int s = 0; s < line->span_count && status == SS_OK; s++) {
        status = add_span(ties, line->line, &line->spans[s], out);
    }
    return status;
}
