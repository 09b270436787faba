/* slab_detail.c - what thickness, bars and cover of a slab have to keep. */
#include <math.h>

#include "assess/requirement.h"
#include "assess/rule.h"
#include "sillspan/slab_strength.h"

#define KSI 6894757.2931683608
#define INCH 0.0254
#define FOOT 0.3048

#define THICKNESS_LEAST (7.0 * INCH)
#define STRAIN_LEAST 0.005

/* Over the moment at cracking, and over the factored one where that is less. */
#define ABOVE_CRACKING (1.6 * 0.67)
#define ABOVE_CRACKING_OLD 1.2
#define ABOVE_FACTORED 1.33

/* Share of the main bars that has to lie along: over the root of the span in feet, at most. */
#define DISTRIBUTION 2.20
#define DISTRIBUTION_MOST 0.67

/* in2 a foot of width and face. */
#define AREA_UNIT (INCH / 12.0)
#define AREA_LEAST (0.11 * AREA_UNIT)
#define AREA_MOST (0.60 * AREA_UNIT)

#define SPACING_MOST (18.0 * INCH)
#define CLEAR_LEAST (1.5 * INCH)
#define COVER_TOP (2.5 * INCH)
#define COVER_BOTTOM (1.0 * INCH)

/* kip/in that cracks are held narrow by, and most stress of bars over their yield. */
#define CRACKS (700.0 * KSI * INCH)
#define SERVICE_MOST 0.6

#define SOURCE_DEPTH "AASHTO LRFD 9.7.1.1 (from memory)"
#define SOURCE_CRACKING "AASHTO LRFD 5.6.3.3 (from memory)"
#define SOURCE_STRAIN "AASHTO LRFD 5.6.2.1 (from memory)"
#define SOURCE_ALONG "AASHTO LRFD 9.7.3.2 (from memory)"
#define SOURCE_SHRINKAGE "AASHTO LRFD 5.10.6 (from memory)"
#define SOURCE_SPACING "AASHTO LRFD 5.10.3 (from memory)"
#define SOURCE_COVER "AASHTO LRFD 5.10.1 (from memory)"
#define SOURCE_CRACKS "AASHTO LRFD 5.6.7 (from memory)"

enum { LAYERS = 4 };

/* Top across, bottom across, top along, bottom along. */
static void layers_of(const ss_slab_checked *c, const ss_bars **layers) {
    layers[0] = &c->across.top;
    layers[1] = &c->across.bottom;
    layers[2] = &c->along.top;
    layers[3] = &c->along.bottom;
}

static void strength(const ss_slab_checked *c, bool sagging, ss_requirements *out) {
    const ss_slab_moment m = ss_slab_moment_of(&c->across, sagging, NULL);
    const double factor = c->minimum == SS_SLAB_MINIMUM_OLD ? ABOVE_CRACKING_OLD : ABOVE_CRACKING;
    const double factored = ABOVE_FACTORED * (sagging ? c->factored_sagging : c->factored_hogging);
    double allowed = factor * ss_slab_cracking_moment(&c->across);
    if (factored >= 0.0 && factored < allowed) {
        allowed = factored;
    }
    ss_requirement_least(
        out, sagging ? "strength across, sagging, at cracking" : "strength across, hogging, at cracking",
        m.phi * m.nominal.value, allowed, SS_DIM_MOMENT_PER_LENGTH, SOURCE_CRACKING);
    const char *const name = sagging ? "strain of the bottom bars across as the concrete crushes"
                                     : "strain of the top bars across as the concrete crushes";
    if (m.nominal.why == NULL && isnan(m.axis)) {
        ss_requirement_unknown(out, name, "there are no such bars", SOURCE_STRAIN);
    } else {
        ss_requirement_least(out, name, m.strain, STRAIN_LEAST, SS_DIM_NUMBER, SOURCE_STRAIN);
    }
}

static void distribution(const ss_slab_checked *c, ss_requirements *out) {
    const double main_bars = ss_bars_area(&c->across.bottom);
    static const char name[] = "bottom bars along, over those across";
    if (!(main_bars > 0.0)) {
        ss_requirement_unknown(out, name, "there are no bottom bars across", SOURCE_ALONG);
        return;
    }
    const double share =
        ss_rule_positive(c->span) ? ss_min(DISTRIBUTION / sqrt(c->span / FOOT), DISTRIBUTION_MOST) : SS_NAN;
    ss_requirement_least(out, name, ss_bars_area(&c->along.bottom) / main_bars, share, SS_DIM_NUMBER,
                         SOURCE_ALONG);
}

static void shrinkage(const ss_slab_checked *c, ss_requirements *out) {
    static const char *const names[LAYERS] = {
        "top bars across, area a width", "bottom bars across, area a width", "top bars along, area a width",
        "bottom bars along, area a width"};
    const ss_bars *layers[LAYERS];
    layers_of(c, layers);
    for (int i = 0; i < LAYERS; i++) {
        const ss_slab_section *const s = i < 2 ? &c->across : &c->along;
        /* 1.30 b h / (2 (b + h) fy), in2 a foot, of a width that is large beside the thickness. */
        const double asked = 0.65 * (s->thickness / INCH) * (KSI / s->fy) * AREA_UNIT;
        ss_requirement_least(out, names[i], ss_bars_area(layers[i]),
                             isfinite(asked) ? ss_clamp(asked, AREA_LEAST, AREA_MOST) : SS_NAN,
                             SS_DIM_SMALL_LENGTH, SOURCE_SHRINKAGE);
    }
}

static void distances(const ss_slab_checked *c, ss_requirements *out) {
    static const char *const names[LAYERS] = {"spacing of top bars across", "spacing of bottom bars across",
                                              "spacing of top bars along", "spacing of bottom bars along"};
    const ss_bars *layers[LAYERS];
    layers_of(c, layers);
    double clear = SS_NAN, asked = SS_NAN;
    for (int i = 0; i < LAYERS; i++) {
        const double t = i < 2 ? 1.5 * c->across.thickness : 3.0 * c->along.thickness;
        const char *const source = i < 2 ? SOURCE_SPACING : SOURCE_SHRINKAGE;
        if (!(layers[i]->spacing > 0.0)) {
            ss_requirement_unknown(out, names[i], "there are none", source);
            continue;
        }
        ss_requirement_most(out, names[i], layers[i]->spacing, ss_min(t, SPACING_MOST), SS_DIM_SMALL_LENGTH,
                            source);
        const double gap = layers[i]->spacing - layers[i]->diameter;
        const double least = ss_max(1.5 * layers[i]->diameter, CLEAR_LEAST);
        if (isnan(clear) || gap / least < clear / asked) {
            clear = gap;
            asked = least;
        }
    }
    if (isnan(clear)) {
        ss_requirement_unknown(out, "clear distance of bars", "there are none", SOURCE_SPACING);
    } else {
        ss_requirement_least(out, "clear distance of bars", clear, asked, SS_DIM_SMALL_LENGTH,
                             SOURCE_SPACING);
    }
}

static void cover(const ss_slab_checked *c, bool top, ss_requirements *out) {
    const char *const name = top ? "cover of the top bars" : "cover of the bottom bars";
    double found = SS_INFINITY;
    for (int i = 0; i < 2; i++) {
        const ss_slab_section *const s = i == 0 ? &c->across : &c->along;
        const ss_bars *const bars = top ? &s->top : &s->bottom;
        if (bars->spacing > 0.0) {
            const double depth = top ? bars->depth : s->thickness - bars->depth;
            found = ss_min(found, depth - 0.5 * bars->diameter);
        }
    }
    if (isinf(found)) {
        ss_requirement_unknown(out, name, "there are none", SOURCE_COVER);
    } else {
        ss_requirement_least(out, name, found, top ? COVER_TOP : COVER_BOTTOM, SS_DIM_SMALL_LENGTH,
                             SOURCE_COVER);
    }
}

static void cracks(const ss_slab_checked *c, bool sagging, ss_requirements *out) {
    const char *const name = sagging ? "spacing of bottom bars across, for narrow cracks"
                                     : "spacing of top bars across, for narrow cracks";
    const ss_slab_section *const s = &c->across;
    const ss_bars *const bars = sagging ? &s->bottom : &s->top;
    const double moment = sagging ? c->service_sagging : c->service_hogging;
    if (!ss_rule_not_negative(moment) || !ss_rule_positive(c->exposure)) {
        ss_requirement_unknown(out, name, "the moment in service or the exposure is not known",
                               SOURCE_CRACKS);
        return;
    }
    const double pull = ss_slab_cracked_of(s, sagging).stress;
    if (moment == 0.0 || !(pull > 0.0)) {
        ss_requirement_unknown(out, name, "nothing pulls there, or there are none", SOURCE_CRACKS);
        return;
    }
    const double stress = ss_min(moment * pull, SERVICE_MOST * s->fy);
    const double dc = sagging ? s->thickness - bars->depth : bars->depth;
    const double beta = 1.0 + dc / (0.7 * (s->thickness - dc));
    ss_requirement_most(out, name, bars->spacing, CRACKS * c->exposure / (beta * stress) - 2.0 * dc,
                        SS_DIM_SMALL_LENGTH, SOURCE_CRACKS);
}

void ss_slab_details(const ss_slab_checked *checked, ss_requirements *out) {
    ss_requirement_least(out, "thickness of the slab", checked->across.thickness, THICKNESS_LEAST,
                         SS_DIM_SMALL_LENGTH, SOURCE_DEPTH);
    strength(checked, true, out);
    strength(checked, false, out);
    distribution(checked, out);
    shrinkage(checked, out);
    distances(checked, out);
    cover(checked, true, out);
    cover(checked, false, out);
    cracks(checked, true, out);
    cracks(checked, false, out);
}
