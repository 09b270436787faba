/* slab_strip.c - the slab as a one-way slab between its lines: strips, and what wheels and weight ask. */
#include <math.h>

#include "assess/rule.h"
#include "sillspan/slab_strength.h"

#define INCH 0.0254
#define FOOT 0.3048

/* Weight on equal spans, times w L^2 and w L: 0.1 is common for the sagging of decks and above what statics
 * gives (0.08); 0.125 and 0.625 are those of two spans, of more they are less. */
#define DEAD_SIMPLE 0.125
#define DEAD_SAGGING 0.1
#define DEAD_HOGGING 0.125
#define DEAD_SHEAR 0.625

/* Two wheels on equal spans by three-moment equations, as in deck_strength.c: over load times span where the
 * other is two spans away, and over the simple span's moment where both stand on one span. */
#define TWO_SPANS_AWAY 0.212
#define TWO_ON_SPAN 0.825

#define SOURCE_STRIP "AASHTO LRFD Table 4.6.2.1.3-1 (from memory)"
#define SOURCE_WHEEL "AASHTO Standard Specifications 3.24.3.1 (from memory), equal spans"
#define STATICS "statics"

double ss_slab_strip_sagging(double span) {
    return ss_rule_positive(span) ? 26.0 * INCH + 6.6 * INCH * (span / FOOT) : SS_NAN;
}

double ss_slab_strip_hogging(double span) {
    return ss_rule_positive(span) ? 48.0 * INCH + 3.0 * INCH * (span / FOOT) : SS_NAN;
}

double ss_slab_strip_overhang(double reach) {
    return ss_rule_not_negative(reach) ? 45.0 * INCH + 10.0 * INCH * (reach / FOOT) : SS_NAN;
}

static ss_slab_demand none(const char *why) {
    return (ss_slab_demand){.sagging_live = SS_NAN,
                            .hogging_live = SS_NAN,
                            .shear_live = SS_NAN,
                            .sagging_dead = SS_NAN,
                            .hogging_dead = SS_NAN,
                            .shear_dead = SS_NAN,
                            .sagging_strip = SS_NAN,
                            .hogging_strip = SS_NAN,
                            .why = why};
}

static double no_wider(const ss_slab_span *s, double strip) {
    return ss_rule_positive(s->axle_spacing) ? ss_min(strip, s->axle_spacing) : strip;
}

/* A wheel right over the middle line of two spans: more than 0.8 of a simple span where its area is half as
 * wide again as a span. */
static double wheel_over_line(double L, double c) {
    const double reach = 2.0 - c / (2.0 * L);
    return c <= 2.0 * L ? c / 32.0 * reach * reach : L * L / (8.0 * c);
}

/* Moment in a span of equal spans: of one wheel, and of two of which the other stands on the same span or two
 * spans away (the bounds of deck_strength.c). That of both sides of a line is left to hogging. */
static double wheels_in_span(const ss_deck_span *deck) {
    ss_deck_span alone = *deck;
    alone.next_wheel = 0.0;
    const double one = ss_deck_demand_of(&alone, 0.0).moment;
    const double L = deck->span, next = deck->next_wheel;
    if (!ss_rule_positive(next)) {
        return one;
    }
    const double both = L > next ? (L - 0.5 * next) * (L - 0.5 * next) / (2.0 * L) : 0.0;
    return ss_max(one, ss_max(TWO_SPANS_AWAY * L - deck->patch_span / 8.0, TWO_ON_SPAN * both));
}

static ss_slab_demand between_lines(const ss_slab_span *s, bool continuous) {
    const double L = s->span;
    const ss_deck_span deck = {.span = L,
                               .continuous = continuous,
                               .patch_span = s->patch,
                               .patch_side = s->patch,
                               .next_wheel = s->next_wheel};
    const ss_deck_demand wheel = ss_deck_demand_of(&deck, 0.0);
    if (wheel.why != NULL) {
        return none(wheel.why);
    }
    ss_slab_demand d = {.sagging_strip = no_wider(s, ss_slab_strip_sagging(L)),
                        .hogging_strip = no_wider(s, ss_slab_strip_hogging(L))};
    d.sagging_live = s->wheel * (continuous ? wheels_in_span(&deck) : wheel.moment) / d.sagging_strip;
    const double hogging = ss_max(wheel.moment, wheel_over_line(L, s->patch));
    d.hogging_live = continuous ? s->wheel * hogging / d.hogging_strip : 0.0;
    d.shear_live = s->wheel * wheel.shear / ss_min(d.sagging_strip, d.hogging_strip);
    d.sagging_dead = s->dead * L * L * (continuous ? DEAD_SAGGING : DEAD_SIMPLE);
    d.hogging_dead = continuous ? s->dead * L * L * DEAD_HOGGING : 0.0;
    d.shear_dead = s->dead * L * (continuous ? DEAD_SHEAR : 0.5);
    return d;
}

/* Cantilevers: `length` of slab, the middle of the wheel at `reach`, `share` of it carried here. */
static ss_slab_demand cantilever(const ss_slab_span *s, double length, double reach, double share) {
    ss_slab_demand d = {.hogging_dead = 0.5 * s->dead * length * length, .shear_dead = s->dead * length};
    d.sagging_strip = d.hogging_strip = no_wider(s, ss_slab_strip_overhang(ss_max(reach, 0.0)));
    /* What of the wheel's area lies beyond the line; its middle may lie within. */
    const double half = 0.5 * s->patch;
    const double beyond = ss_clamp((reach + half) / s->patch, 0.0, 1.0);
    const double arm = reach >= half ? reach : 0.5 * beyond * s->patch;
    d.hogging_live = share * s->wheel * beyond * arm / d.hogging_strip;
    d.shear_live = s->wheel * beyond / d.hogging_strip;
    return d;
}

static const char *fault_of(const ss_slab_span *s) {
    if (!ss_rule_positive(s->span)) {
        return "the span of the slab is not known";
    }
    if (!ss_rule_not_negative(s->wheel) || !ss_rule_positive(s->patch)) {
        return "the wheel or its contact area is not known";
    }
    if (!ss_rule_not_negative(s->dead)) {
        return "the weight on the slab is not known";
    }
    if (s->kind == SS_SLAB_SPAN_OVERHANG && !(s->reach <= s->span)) {
        return "the wheel is beyond the edge of the slab, or its place is not known";
    }
    return NULL;
}

static void tell(const ss_slab_span *s, const ss_slab_demand *d, ss_working *working) {
    const bool cantilevers = s->kind == SS_SLAB_SPAN_HINGED || s->kind == SS_SLAB_SPAN_OVERHANG;
    ss_working_add(working, "S", cantilevers ? "length of the slab over the gap or beyond its line" : "span",
                   s->span, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "P", "wheel", s->wheel, SS_DIM_FORCE, NULL);
    if (!cantilevers) {
        ss_working_add(working, "b+", "strip that sags, 26 in + 6.6 S, no wider than to the next axle",
                       d->sagging_strip, SS_DIM_SMALL_LENGTH, SOURCE_STRIP);
        ss_working_add(working, "M+", "moment of the wheel on it, a width", d->sagging_live,
                       SS_DIM_MOMENT_PER_LENGTH, SOURCE_WHEEL);
        ss_working_add(working, "M+ dead", "of the weight", d->sagging_dead, SS_DIM_MOMENT_PER_LENGTH,
                       STATICS);
    }
    if (s->kind != SS_SLAB_SPAN_SIMPLE) {
        ss_working_add(working, "b-",
                       cantilevers ? "strip beyond a line, 45 in + 10 X, no wider than to the next axle"
                                   : "strip over a line, 48 in + 3.0 S, no wider than to the next axle",
                       d->hogging_strip, SS_DIM_SMALL_LENGTH, SOURCE_STRIP);
        ss_working_add(working, "M-", "moment of the wheel on it, a width", d->hogging_live,
                       SS_DIM_MOMENT_PER_LENGTH, cantilevers ? STATICS : SOURCE_WHEEL);
        ss_working_add(working, "M- dead", "of the weight", d->hogging_dead, SS_DIM_MOMENT_PER_LENGTH,
                       STATICS);
    }
    ss_working_add(working, "V", "shear of the wheel, a width", d->shear_live, SS_DIM_LINE_LOAD, STATICS);
    ss_working_add(working, "V dead", "of the weight", d->shear_dead, SS_DIM_LINE_LOAD, STATICS);
}

ss_slab_demand ss_slab_strip_demand(const ss_slab_span *span, ss_working *working) {
    const char *const fault = fault_of(span);
    if (fault != NULL) {
        return none(fault);
    }
    const double half = 0.5 * span->span;
    ss_slab_demand found;
    switch (span->kind) {
    case SS_SLAB_SPAN_CONTINUOUS: found = between_lines(span, true); break;
    case SS_SLAB_SPAN_SIMPLE: found = between_lines(span, false); break;
    case SS_SLAB_SPAN_HINGED:
        /* A point on the hinge is the worst of all places: half of it bends either side. */
        found = cantilever(span, half, half, 0.5);
        found.hogging_live = 0.5 * span->wheel * half / found.hogging_strip;
        found.shear_live = span->wheel / found.hogging_strip;
        break;
    case SS_SLAB_SPAN_OVERHANG: found = cantilever(span, span->span, span->reach, 1.0); break;
    default: return none("the kind of span is not known");
    }
    if (found.why == NULL) {
        tell(span, &found, working);
    }
    return found;
}
