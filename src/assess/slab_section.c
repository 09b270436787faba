/* slab_section.c - a metre of reinforced slab: strength in bending and shear, and the cracked section. */
#include <math.h>

#include "assess/rule.h"
#include "sillspan/slab_strength.h"

#define KSI 6894757.2931683608
#define PSI (1e-3 * KSI)

/* Strain of concrete that crushes, and of bars that give warning of it. */
#define CRUSHES 0.003
#define WARNS 0.005

#define SOURCE "AASHTO LRFD 5.6.2, 5.6.3 (from memory)"
#define SOURCE_PHI "AASHTO LRFD 5.5.4.2 (from memory)"
#define SOURCE_SHEAR "AASHTO LRFD 5.7.3.3, 5.7.3.4.1 (from memory)"

ss_slab_section ss_slab_section_of(const ss_slab *slab, bool along, double steel_E) {
    return (ss_slab_section){.thickness = slab->thickness,
                             .fc = slab->fc,
                             .E = slab->E,
                             .fy = slab->bar_fy,
                             .steel_E = steel_E,
                             .top = along ? slab->top_along : slab->top_across,
                             .bottom = along ? slab->bottom_along : slab->bottom_across};
}

/* The block's height over that of the axis, and its stress over fc (LRFD 5.6.2.2). */
static double block_height(double fc) {
    return ss_clamp(0.85 - 0.05 * (fc / KSI - 4.0), 0.65, 0.85);
}

static double block_stress(double fc) {
    return ss_clamp(0.85 - 0.02 * (fc / KSI - 10.0), 0.75, 0.85);
}

static bool layer_known(const ss_bars *bars, double thickness) {
    return bars->spacing == 0.0 || (ss_rule_positive(bars->spacing) && ss_rule_positive(bars->diameter) &&
                                    bars->depth > 0.0 && bars->depth < thickness);
}

static const char *fault_of(const ss_slab_section *s) {
    if (!ss_rule_positive(s->thickness) || !ss_rule_positive(s->fc) || !ss_rule_positive(s->E) ||
        !ss_rule_positive(s->fy) || !ss_rule_positive(s->steel_E)) {
        return "thickness, concrete or steel of the slab is not known";
    }
    if (!layer_known(&s->top, s->thickness) || !layer_known(&s->bottom, s->thickness)) {
        return "a layer of bars is not known, or lies outside the slab";
    }
    return NULL;
}

/* Neutral axis of bars of area A at depth d: the smaller of yield and what strain leaves. */
static double axis_of(const ss_slab_section *s, double A, double d) {
    const double press = block_stress(s->fc) * s->fc * block_height(s->fc); /* a m of axis */
    const double yields = A * s->fy / press;
    if (CRUSHES * (d - yields) * s->steel_E >= s->fy * yields) {
        return yields;
    }
    /* press c^2 + A E e c - A E e d = 0, written so that nothing cancels. */
    const double elastic = A * s->steel_E * CRUSHES;
    return 2.0 * elastic * d / (elastic + sqrt(elastic * elastic + 4.0 * press * elastic * d));
}

static double phi_of(double strain, double yield) {
    const double share = (strain - yield) / ss_max(WARNS - yield, 1e-6);
    return ss_clamp(SS_PHI_SLAB_BRITTLE + (SS_PHI_SLAB_BENDING - SS_PHI_SLAB_BRITTLE) * share,
                    SS_PHI_SLAB_BRITTLE, SS_PHI_SLAB_BENDING);
}

static void tell(const ss_slab_section *s, const ss_slab_moment *m, double A, double block,
                 ss_working *working) {
    /* An area for each m is a length. */
    ss_working_add(working, "As", "bars that pull, area a width", A, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "d", "from the compressed face to them", m->depth, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "a", "stress block, As fs / (0.85 fc)", block, SS_DIM_SMALL_LENGTH, SOURCE);
    ss_working_add(working, "c", "neutral axis, a / beta1", m->axis, SS_DIM_SMALL_LENGTH, SOURCE);
    ss_working_add(working, "et", "strain of the bars, 0.003 (d - c) / c", m->strain, SS_DIM_NUMBER, SOURCE);
    ss_working_add(working, "Mn", "As fs (d - a/2), a width", m->nominal.value, SS_DIM_MOMENT_PER_LENGTH,
                   SOURCE);
    ss_working_add(working, "phi",
                   m->strain * s->steel_E < s->fy ? "the bars do not yield: the concrete crushes first"
                                                  : "0.90 from a strain of 0.005 on",
                   m->phi, SS_DIM_NUMBER, SOURCE_PHI);
}

ss_slab_moment ss_slab_moment_of(const ss_slab_section *section, bool sagging, ss_working *working) {
    static const char rule[] = "bending of the slab, As fy (d - a/2) (AASHTO LRFD 5.6.3.2)";
    static const char crushed[] = "bending of the slab, crushed before its bars yield (AASHTO LRFD 5.6.2.1)";
    const ss_slab_section *const s = section;
    const char *const fault = fault_of(s);
    if (fault != NULL) {
        return (ss_slab_moment){ss_rule_none(rule, fault), SS_NAN, SS_NAN, SS_NAN, SS_NAN};
    }
    const ss_bars *const bars = sagging ? &s->bottom : &s->top;
    const double A = ss_bars_area(bars);
    if (!(A > 0.0)) {
        return (ss_slab_moment){ss_rule_value(0.0, "no bars on the side that pulls: none"),
                                SS_PHI_SLAB_BENDING, SS_NAN, SS_NAN, SS_NAN};
    }
    ss_slab_moment m = {.depth = sagging ? bars->depth : s->thickness - bars->depth};
    m.axis = axis_of(s, A, m.depth);
    m.strain = CRUSHES * (m.depth - m.axis) / m.axis;
    const double yield = s->fy / s->steel_E;
    const bool yields = m.strain >= yield * (1.0 - 1e-12);
    const double block = block_height(s->fc) * m.axis;
    const double force = A * (yields ? s->fy : s->steel_E * m.strain);
    m.nominal = ss_rule_value(force * (m.depth - 0.5 * block), yields ? rule : crushed);
    m.phi = phi_of(m.strain, yield);
    tell(s, &m, A, block, working);
    return m;
}

ss_resistance ss_slab_shear(const ss_slab_section *section, bool sagging, ss_working *working) {
    static const char rule[] = "shear of the slab, 2 sqrt(fc) b dv, psi (AASHTO LRFD 5.7.3.3, beta = 2)";
    const ss_slab_moment m = ss_slab_moment_of(section, sagging, NULL);
    if (m.nominal.why != NULL) {
        return ss_rule_none(rule, m.nominal.why);
    }
    if (isnan(m.axis)) {
        return ss_rule_none(rule, "there are no bars on the side that pulls");
    }
    const double dv = ss_max(m.depth - 0.5 * block_height(section->fc) * m.axis, 0.9 * m.depth);
    ss_working_add(working, "dv", "depth for shear, d - a/2 or 0.9 d", dv, SS_DIM_SMALL_LENGTH, SOURCE_SHEAR);
    /* 0.0316 x 2 sqrt(fc in ksi) is 2 sqrt(fc in psi), to the digits of 0.0316. */
    const ss_resistance found = ss_rule_value(2.0 * sqrt(section->fc / PSI) * PSI * dv, rule);
    ss_working_add(working, "Vc", "2 sqrt(fc) dv, a width", found.value, SS_DIM_LINE_LOAD, SOURCE_SHEAR);
    return found;
}

double ss_slab_cracking_moment(const ss_slab_section *section) {
    if (!ss_rule_positive(section->thickness) || !ss_rule_positive(section->fc)) {
        return SS_NAN;
    }
    return 0.24 * sqrt(section->fc / KSI) * KSI * section->thickness * section->thickness / 6.0;
}

/* First moment of all about an axis at c; grows with c. */
static double first_moment(double c, const double *area, const double *at, double n) {
    double sum = 0.5 * c * c;
    for (int i = 0; i < 2; i++) {
        sum += area[i] * (at[i] < c ? n - 1.0 : n) * (c - at[i]);
    }
    return sum;
}

ss_slab_cracked ss_slab_cracked_of(const ss_slab_section *section, bool sagging) {
    const ss_slab_section *const s = section;
    if (fault_of(s) != NULL) {
        return (ss_slab_cracked){SS_NAN, SS_NAN, SS_NAN, SS_NAN, SS_NAN};
    }
    ss_slab_cracked out = {.n = s->steel_E / s->E, .stress = SS_NAN};
    const double area[] = {ss_bars_area(&s->top), ss_bars_area(&s->bottom)};
    const double at[] = {sagging ? s->top.depth : s->thickness - s->top.depth,
                         sagging ? s->bottom.depth : s->thickness - s->bottom.depth};
    if (!(area[0] + area[1] > 0.0)) {
        return out;
    }
    double low = 0.0, high = s->thickness;
    for (int i = 0; i < 200 && low < high; i++) {
        const double c = 0.5 * (low + high);
        *(first_moment(c, area, at, out.n) > 0.0 ? &high : &low) = c;
    }
    const double c = out.axis = 0.5 * (low + high);
    out.I = c * c * c / 3.0;
    for (int i = 0; i < 2; i++) {
        out.I += area[i] * (at[i] < c ? out.n - 1.0 : out.n) * (at[i] - c) * (at[i] - c);
    }
    out.share = out.I / (s->thickness * s->thickness * s->thickness / 12.0);
    const int pulls = sagging ? 1 : 0;
    if (area[pulls] > 0.0 && at[pulls] > c) {
        out.stress = out.n * (at[pulls] - c) / out.I;
    }
    return out;
}
