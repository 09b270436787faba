/* flexure.c - a section in bending prepared for every method; first yield, and service. */
#include "assess/flexure_parts.h"

#include <math.h>

#include "base/numeric.h"

static ss_resistance unknown(const char *why) {
    return (ss_resistance){.value = SS_NAN, .rule = "bending", .why = why};
}

static bool is_positive(double x) {
    return x > 0.0 && isfinite(x);
}

/* Why the case itself cannot be answered, or NULL. */
static const char *fault_of(const ss_flexure_case *given) {
    if (!is_positive(given->fy)) {
        return "its yield stress is not known";
    }
    if (!is_positive(given->E) || !is_positive(given->G)) {
        return "its moduli of elasticity are not known";
    }
    if (!(given->unbraced >= 0.0) || !isfinite(given->unbraced)) {
        return "the distance between its lateral supports is not known";
    }
    return NULL;
}

static void note_geometry(const ss_bending *b) {
    ss_working *const w = b->working;
    ss_working_add(w, "form", ss_form_name(b->form.form), SS_NAN, SS_DIM_NUMBER, NULL);
    ss_working_add(w, "Fy", "yield stress", b->bracing.fy, SS_DIM_STRESS, NULL);
    ss_working_add(w, "S_c", "section modulus of the compressed face", b->S_c, SS_DIM_SECTION_MODULUS, NULL);
    ss_working_add(w, "S_t", "section modulus of the other face", b->S_t, SS_DIM_SECTION_MODULUS, NULL);
    if (b->bracing.length > 0.0) {
        ss_working_add(w, "Lb", "distance between lateral supports", b->bracing.length, SS_DIM_LENGTH, NULL);
        ss_working_add(w, "Cb", "shape of the moment between them", b->bracing.Cb, SS_DIM_NUMBER, NULL);
    }
}

/* A section of given properties: all that can be said is first yield. */
static ss_resistance given_yield(const ss_bending *b) {
    ss_resistance out = ss_resistance_yield_moment(&b->properties, b->bracing.fy);
    if (out.why == NULL) {
        out.rule = SS_FLEXURE_UNCHECKED;
        ss_working_add(b->working, "Fy S", "first yield of the weaker face; buckling not checked", out.value,
                       SS_DIM_MOMENT, "AASHTO LRFD 6.10.8.1 (from memory)");
    }
    return out;
}

ss_status ss_bending_gather(const ss_flexure_case *given, ss_working *working, ss_bending *b,
                            ss_resistance *out, bool *ready) {
    *b = (ss_bending){.section = given->section,
                      .working = working,
                      .top_compressed = given->top_compressed,
                      .upright = given->upright};
    *ready = false;
    ss_status status = ss_section_form_at(given->section, given->depth, &b->form, NULL);
    if (status != SS_OK) {
        return status;
    }
    const char *fault = fault_of(given);
    if (fault == NULL && !(given->section->stiffness_loss < 1.0)) {
        fault = "nothing is left of its stiffness";
    }
    if (fault == NULL && b->form.form != SS_FORM_UNKNOWN && !is_positive(b->form.A)) {
        fault = "a plate of it has no width or no height";
    }
    if (fault != NULL) {
        *out = unknown(fault);
        return SS_OK;
    }
    status = ss_section_at(given->section, given->depth, 0.0, &b->properties, NULL);
    if (status != SS_OK) {
        return status;
    }
    const double Cb = given->Cb > 1.0 && isfinite(given->Cb) ? given->Cb : 1.0;
    /* What is gone of the stiffness lowers every buckling stress; J has it from ss_section_at. */
    const double stiffness = given->E * (1.0 - given->section->stiffness_loss);
    b->bracing = (ss_bracing){stiffness, given->G, given->fy, given->unbraced, Cb};
    b->flange = given->top_compressed ? &b->form.top : &b->form.bottom;
    b->other = given->top_compressed ? &b->form.bottom : &b->form.top;
    b->S_c = given->top_compressed ? b->properties.S_top : b->properties.S_bottom;
    b->S_t = given->top_compressed ? b->properties.S_bottom : b->properties.S_top;
    b->S = ss_min(b->S_c, b->S_t);
    b->Iy = b->form.Iy_least;
    b->J = b->form.J > 0.0 ? b->properties.J * (b->form.J_least / b->form.J) : b->properties.J;
    note_geometry(b);
    if (b->form.form == SS_FORM_UNKNOWN) {
        *out = given_yield(b);
    } else if (!is_positive(b->S_c) || !is_positive(b->S_t)) {
        *out = unknown("its elastic section moduli are not known");
    } else {
        *ready = true;
    }
    return SS_OK;
}

ss_bending_limit ss_bending_least(ss_bending_limit a, ss_bending_limit b) {
    /* written so that a moment that is not a number comes through */
    return b.moment >= a.moment || isnan(a.moment) ? a : b;
}

ss_bending_words ss_bending_words_lrfd(void) {
    return (ss_bending_words){
        .compression = "yield of the flange in compression, Fy S_c (AASHTO LRFD 6.10.8.1)",
        .tension = "yield of the flange in tension, Fy S_t (AASHTO LRFD 6.10.8.1.2)",
        .sideways = "first yield with sideways bending, not held all along (strength of materials)",
        .source = "AASHTO LRFD 6.10.8.1 (from memory)"};
}

ss_bending_limit ss_bending_yield(const ss_bending *b, const ss_bending_words *words) {
    const double fy = b->bracing.fy;
    ss_bending_limit least = ss_bending_least((ss_bending_limit){fy * b->S_c, words->compression},
                                              (ss_bending_limit){fy * b->S_t, words->tension});
    ss_working_add(b->working, "My", "first yield, Fy times the smaller section modulus", least.moment,
                   SS_DIM_MOMENT, words->source);
    if (b->form.oblique < 1.0 && b->bracing.length > 0.0 && !b->upright) {
        least = (ss_bending_limit){least.moment * b->form.oblique, words->sideways};
        ss_working_add(b->working, "My'", "first yield where the section may bend sideways", least.moment,
                       SS_DIM_MOMENT, "unsymmetrical bending, strength of materials");
    }
    return least;
}

ss_channel ss_bending_channel(const ss_bending *b) {
    return (ss_channel){.S = b->S_c,
                        .Z = b->properties.Z,
                        .Iy = b->Iy,
                        .ry = sqrt(b->Iy / b->form.A),
                        .Cw = b->form.Cw,
                        .J = b->J,
                        .ho = b->form.ho};
}

ss_resistance ss_bending_answer(const ss_bending *b, ss_bending_limit limit) {
    if (!isfinite(limit.moment) || limit.moment < 0.0) {
        return unknown("its buckling cannot be told from its plates");
    }
    ss_working_add(b->working, "Mn", limit.rule, limit.moment, SS_DIM_MOMENT, NULL);
    return (ss_resistance){.value = limit.moment, .rule = limit.rule};
}

ss_status ss_flexure_service(const ss_flexure_case *given, double share, ss_resistance *out,
                             ss_working *working) {
    ss_bending b;
    bool ready = false;
    const ss_status status = ss_bending_gather(given, working, &b, out, &ready);
    if (status != SS_OK || !ready) {
        return status;
    }
    if (!(share > 0.0) || !(share <= 1.0)) {
        *out = unknown("its share of Fy is not known");
        return SS_OK;
    }
    const ss_bending_words words = ss_bending_words_lrfd();
    const ss_bending_limit least = ss_bending_yield(&b, &words);
    const ss_bending_limit web = {
        ss_bending_web_stress(&b) * b.S_c / share,
        "web bend-buckling, Fcrw S_c over the share of Fy allowed in service (AASHTO LRFD 6.10.4.2.2)"};
    *out = ss_bending_answer(&b, ss_bending_least(least, web));
    return SS_OK;
}
