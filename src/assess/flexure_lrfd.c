/* flexure_lrfd.c - a section in bending by AASHTO LRFD: local buckling, webs, lateral buckling, and the least
 * of all. */
#include "assess/flexure_parts.h"

#include <math.h>

#include "base/numeric.h"

/* Plate buckling coefficient of a flange between two webs without stiffeners, in pure compression. */
#define UNSTIFFENED 4.0

#define SOURCE(article) "AASHTO LRFD " article " (from memory)"

bool ss_bending_has_flange(const ss_bending *b) {
    switch (b->form.form) {
    case SS_FORM_I:
    case SS_FORM_CHANNEL:
    case SS_FORM_BOX:
    case SS_FORM_BATTENED:
    case SS_FORM_OTHER: return true;
    case SS_FORM_WEBS: return b->flange->plates > 0;
    default: return false;
    }
}

/* ---- local buckling --------------------------------------------------------------------------------- */

static ss_bending_limit local_free(const ss_bending *b) {
    const ss_bracing *const m = &b->bracing;
    const double ratio = b->flange->outstand_ratio;
    const double stress = ss_flange_stress(ratio, m->E, m->fy);
    ss_working *const w = b->working;
    ss_working_add(w, "b/t", "free part of the compressed flange, width over thickness", ratio, SS_DIM_NUMBER,
                   NULL);
    ss_working_add(w, "lambda_pf", "compact up to 0.38 sqrt(E / Fy)", ss_flange_compact(m->E, m->fy),
                   SS_DIM_NUMBER, SOURCE("6.10.8.2.2"));
    ss_working_add(w, "lambda_rf", "noncompact up to 0.56 sqrt(E / 0.7 Fy)",
                   ss_flange_noncompact(m->E, m->fy), SS_DIM_NUMBER, SOURCE("6.10.8.2.2"));
    ss_working_add(w, "Fnc(FLB)", "stress at which the free part buckles", stress, SS_DIM_STRESS,
                   SOURCE("6.10.8.2.2"));
    return (ss_bending_limit){stress * b->S_c, "local buckling of the compressed flange's free part, Fnc S_c "
                                               "(AASHTO LRFD 6.10.8.2.2)"};
}

static ss_bending_limit local_between(const ss_bending *b) {
    const ss_bracing *const m = &b->bracing;
    const double ratio = b->flange->clear_ratio;
    const ss_box_flange plate = ss_box_flange_stress(ratio, UNSTIFFENED, 0.0, m->E, m->fy);
    ss_working *const w = b->working;
    ss_working_add(w, "bfc/tfc", "compressed flange between webs, clear width over thickness", ratio,
                   SS_DIM_NUMBER, NULL);
    ss_working_add(w, "lambda_p", "compact up to 0.57 sqrt(E k / Fy), k = 4", plate.compact, SS_DIM_NUMBER,
                   SOURCE("6.11.8.2.2"));
    ss_working_add(w, "lambda_r", "noncompact up to 0.95 sqrt(E k / 0.7 Fy)", plate.noncompact, SS_DIM_NUMBER,
                   SOURCE("6.11.8.2.2"));
    ss_working_add(w, "Fcb", "stress at which it buckles", plate.stress, SS_DIM_STRESS, SOURCE("6.11.8.2.2"));
    return (ss_bending_limit){plate.stress * b->S_c,
                              "buckling of the compressed flange between webs, Fcb S_c "
                              "(AASHTO LRFD 6.11.8.2.2, k = 4, no torsion)"};
}

/* Whether a compressed edge is bare: the tip of a stem, of a leg, or of a web without a flange strip. */
static bool has_bare_tip(const ss_bending *b) {
    switch (b->form.form) {
    case SS_FORM_TEE:
    case SS_FORM_ANGLE: return b->flange->plates == 0;
    case SS_FORM_WEBS: return !(b->flange->rt > 0.0);
    case SS_FORM_OTHER: return b->form.webs > 0 && !(b->flange->thickness > 0.0);
    default: return false;
    }
}

static double stem_stress(const ss_bending *b) {
    const ss_bracing *const m = &b->bracing;
    const double ratio = b->form.depth / b->form.web_thin;
    const bool leg = b->form.form == SS_FORM_ANGLE;
    const double stress = leg ? ss_leg_stress(ratio, m->E, m->fy) : ss_stem_stress(ratio, m->E, m->fy);
    ss_working_add(b->working, "d/tw", "depth over thickness of what is compressed at its free edge", ratio,
                   SS_DIM_NUMBER, NULL);
    ss_working_add(b->working, "Fcr", "stress at which it buckles", stress, SS_DIM_STRESS,
                   leg ? "AISC 360 F10.3 (from memory)" : SOURCE("6.12.2.2.4"));
    return stress;
}

static ss_bending_limit local_leg(const ss_bending *b) {
    const ss_bracing *const m = &b->bracing;
    const double stress = ss_leg_stress(b->flange->outstand_ratio, m->E, m->fy);
    ss_working_add(b->working, "b/t", "compressed leg, width over thickness", b->flange->outstand_ratio,
                   SS_DIM_NUMBER, NULL);
    ss_working_add(b->working, "Fcr", "stress at which it buckles", stress, SS_DIM_STRESS,
                   "AISC 360 F10.3 (from memory)");
    return (ss_bending_limit){stress * b->S_c, "local buckling of the compressed leg (AISC 360 F10.3)"};
}

ss_bending_limit ss_bending_local(const ss_bending *b) {
    ss_bending_limit least = {SS_INFINITY, NULL};
    if (has_bare_tip(b)) {
        least = (ss_bending_limit){stem_stress(b) * b->S_c,
                                   b->form.form == SS_FORM_ANGLE
                                       ? "local buckling of the compressed leg (AISC 360 F10.3)"
                                       : "local buckling of the compressed stem (AASHTO LRFD 6.12.2.2.4)"};
    }
    if (b->form.form == SS_FORM_ANGLE && b->flange->plates > 0) {
        return local_leg(b);
    }
    if (b->flange->outstand_ratio > 0.0) {
        least = ss_bending_least(least, local_free(b));
    }
    if (b->flange->clear_ratio > 0.0) {
        least = ss_bending_least(least, local_between(b));
    }
    return least;
}

/* ---- webs ------------------------------------------------------------------------------------------- */

double ss_bending_shedding(const ss_bending *b) {
    const ss_section_form *const form = &b->form;
    if (!ss_bending_has_flange(b) || form->webs == 0 || !(b->flange->Dc > 0.0)) {
        return 1.0;
    }
    const double slenderness = 2.0 * b->flange->Dc / form->web_thin;
    const double awc = ss_web_area_ratio(b->flange->Dc, form->web_total, b->flange->area);
    const double limit = ss_web_noncompact(awc, b->bracing.E, b->bracing.fy);
    const double Rb = ss_web_shedding(slenderness, awc, limit);
    ss_working *const w = b->working;
    ss_working_add(w, "Dc", "height of web in compression", b->flange->Dc, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(w, "2Dc/tw", "web slenderness, thinnest web", slenderness, SS_DIM_NUMBER, NULL);
    ss_working_add(w, "awc", "2 Dc tw over the area of the compressed flange", awc, SS_DIM_NUMBER,
                   SOURCE("6.10.1.10.2"));
    ss_working_add(w, "lambda_rw", "noncompact up to (3.1 + 5.0 / awc) sqrt(E / Fy), factor 4.6 to 5.7",
                   limit, SS_DIM_NUMBER, SOURCE("6.10.1.10.2"));
    ss_working_add(w, "Rb", "what web buckling leaves of the flange's strength", Rb, SS_DIM_NUMBER,
                   SOURCE("6.10.1.10.2"));
    return Rb;
}

double ss_bending_web_stress(const ss_bending *b) {
    if (has_bare_tip(b)) {
        return stem_stress(b);
    }
    if (!ss_bending_has_flange(b) || b->form.webs == 0) {
        return b->bracing.fy;
    }
    const double stress = ss_web_bend_buckling(b->flange->Dc / b->form.web_thin, b->bracing.E, b->bracing.fy);
    ss_working_add(b->working, "Fcrw", "stress at which the web buckles in bending, 8.1 E / (Dc / tw)^2",
                   stress, SS_DIM_STRESS, SOURCE("6.10.1.9"));
    return stress;
}

ss_bending_limit ss_bending_deep_web(const ss_bending *b) {
    const ss_bending_limit none = {SS_INFINITY, NULL};
    if (!ss_bending_has_flange(b) || b->form.webs == 0 ||
        b->form.web_clear <= SS_BENDING_DEEPEST_WEB * b->form.web_thin) {
        return none;
    }
    return (ss_bending_limit){ss_bending_web_stress(b) * b->S_c,
                              "web bend-buckling, Fcrw S_c (AASHTO LRFD 6.10.1.9): the web is deeper than "
                              "150 times its thickness"};
}

/* ---- lateral buckling ------------------------------------------------------------------------------- */

static void note_lengths(const ss_bending *b, const ss_lateral *l, const char *source) {
    ss_working_add(b->working, "Lp", "longest distance between supports for full strength", l->Lp,
                   SS_DIM_LENGTH, source);
    ss_working_add(b->working, "Lr", "from here on buckling is elastic", l->Lr, SS_DIM_LENGTH, source);
}

static ss_bending_limit lateral_flange(const ss_bending *b, const ss_bracing *bracing, const char *rule) {
    const ss_lateral l = ss_lateral_flange(bracing, b->flange->rt);
    ss_working_add(b->working, "rt", "radius of gyration of the compressed flange and a third of its web",
                   b->flange->rt, SS_DIM_SMALL_LENGTH, SOURCE("6.10.8.2.3"));
    note_lengths(b, &l, SOURCE("6.10.8.2.3"));
    ss_working_add(b->working, "Fnc(LTB)", "stress at which the compressed flange buckles sideways", l.value,
                   SS_DIM_STRESS, SOURCE("6.10.8.2.3"));
    return (ss_bending_limit){l.value * b->S_c, rule};
}

static ss_bending_limit lateral_channel(const ss_bending *b) {
    const ss_channel channel = ss_bending_channel(b);
    const ss_lateral l = ss_lateral_channel(&b->bracing, &channel);
    ss_working_add(b->working, "rts", "sqrt(sqrt(Iy Cw) / S_c)", ss_channel_radius(&channel),
                   SS_DIM_SMALL_LENGTH, SOURCE("6.12.2.2.5"));
    note_lengths(b, &l, SOURCE("6.12.2.2.5"));
    ss_working_add(b->working, "Mn(LTB)", "moment at which the channel buckles sideways", l.value,
                   SS_DIM_MOMENT, SOURCE("6.12.2.2.5"));
    return (ss_bending_limit){l.value, "lateral-torsional buckling of a channel (AASHTO LRFD 6.12.2.2.5)"};
}

static double elastic_stem(const ss_bending *b, bool stem_compressed) {
    const double Mcr = ss_lateral_tee(&b->bracing, b->Iy, b->J, b->form.depth, stem_compressed);
    ss_working_add(b->working, "Mcr", "elastic moment, pi sqrt(E Iy G J) / Lb (B + sqrt(1 + B^2))", Mcr,
                   SS_DIM_MOMENT, SOURCE("6.12.2.2.4"));
    return Mcr;
}

static ss_bending_limit lateral_stem(const ss_bending *b) {
    const double Mcr = elastic_stem(b, b->flange->plates == 0);
    if (b->form.form == SS_FORM_ANGLE) {
        return (ss_bending_limit){
            ss_lateral_angle(Mcr, b->bracing.fy * b->S * b->form.oblique),
            "lateral-torsional buckling of an angle, as a tee with its least stiffness (AASHTO LRFD "
            "6.12.2.2.4, AISC 360 F10)"};
    }
    return (ss_bending_limit){Mcr, "lateral-torsional buckling of a tee (AASHTO LRFD 6.12.2.2.4)"};
}

static ss_bending_limit lateral_bar(const ss_bending *b) {
    const double My = b->bracing.fy * b->S;
    const ss_lateral l = ss_lateral_bar(&b->bracing, b->form.depth, b->form.A / b->form.depth, My,
                                        ss_min(b->bracing.fy * b->properties.Z, 1.5 * My));
    note_lengths(b, &l, SOURCE("6.12.2.2.7"));
    ss_working_add(b->working, "Mn(LTB)", "moment at which the bar buckles sideways", l.value, SS_DIM_MOMENT,
                   SOURCE("6.12.2.2.7"));
    return (ss_bending_limit){l.value, "lateral-torsional buckling of a bar (AASHTO LRFD 6.12.2.2.7)"};
}

static ss_bending_limit lateral_box(const ss_bending *b) {
    const double My = b->bracing.fy * b->S;
    ss_working_add(b->working, "J", "St Venant constant of the cell", b->J, SS_DIM_SECOND_MOMENT, NULL);
    const ss_bending_limit whole = {
        ss_lateral_box(&b->bracing, b->Iy, b->J, My),
        "lateral-torsional buckling of a box, My (1 - My / 4 Mcr) (AASHTO LRFD 6.12.2.2.2, before the 9th "
        "edition)"};
    ss_working_add(b->working, "Mn(LTB)", "My (1 - My / 4 Mcr), Mcr = pi sqrt(E Iy G J) / Lb", whole.moment,
                   SS_DIM_MOMENT, SOURCE("6.12.2.2.2, before the 9th edition"));
    const bool strips = b->form.form == SS_FORM_BATTENED && !b->flange->spans;
    if (!strips) {
        return whole;
    }
    ss_bracing between = b->bracing;
    between.length = ss_min(between.length, b->section->batten_spacing);
    between.Cb = 1.0;
    return ss_bending_least(whole,
                            lateral_flange(b, &between,
                                           "lateral buckling of a flange strip between battens, Fnc S_c "
                                           "(AASHTO LRFD 6.10.8.2.3)"));
}

/* Webs without a plate that ties their compressed edges: each strip with its web buckles alone, or all
 * together like a stem; both are on the safe side, so the larger counts. */
static ss_bending_limit lateral_webs(const ss_bending *b) {
    const ss_bending_limit strip = lateral_flange(
        b, &b->bracing,
        b->flange->spans
            ? "lateral buckling of the compressed flange, Fnc S_c (AASHTO LRFD 6.10.8.2.3)"
            : "lateral buckling of one web's flange strip by itself, Fnc S_c (AASHTO LRFD 6.10.8.2.3)");
    if (b->flange->spans) {
        return strip;
    }
    ss_bending_limit stem = {elastic_stem(b, true),
                             "lateral-torsional buckling of an open section, as a stem (AASHTO LRFD "
                             "6.12.2.2.4)"};
    stem.moment = ss_min(stem.moment, stem_stress(b) * b->S_c);
    return stem.moment > strip.moment ? stem : strip;
}

ss_bending_limit ss_bending_lateral(const ss_bending *b) {
    if (b->bracing.length <= 0.0) {
        return (ss_bending_limit){SS_INFINITY, NULL};
    }
    switch (b->form.form) {
    case SS_FORM_CHANNEL: return lateral_channel(b);
    case SS_FORM_BOX:
    case SS_FORM_BATTENED: return lateral_box(b);
    case SS_FORM_WEBS: return lateral_webs(b);
    case SS_FORM_TEE:
    case SS_FORM_ANGLE: return lateral_stem(b);
    case SS_FORM_RECTANGLE: return lateral_bar(b);
    case SS_FORM_OTHER:
        return lateral_flange(b, &b->bracing,
                              "lateral buckling of a section of no known form, its stiffest compressed plate "
                              "carrying all that is compressed (AASHTO LRFD 6.10.8.2.3)");
    default:
        return lateral_flange(
            b, &b->bracing,
            "lateral-torsional buckling of the compressed flange, Fnc S_c (AASHTO LRFD 6.10.8.2.3)");
    }
}

/* ---- the least -------------------------------------------------------------------------------------- */

ss_status ss_flexure_lrfd(const ss_flexure_case *given, ss_resistance *out, ss_working *working) {
    ss_bending b;
    bool ready = false;
    const ss_status status = ss_bending_gather(given, working, &b, out, &ready);
    if (status != SS_OK || !ready) {
        return status;
    }
    const ss_bending_words words = ss_bending_words_lrfd();
    ss_bending_limit least = ss_bending_yield(&b, &words);
    const double Rb = ss_bending_shedding(&b);
    const ss_bending_limit shed = {Rb * b.bracing.fy * b.S_c,
                                   "yield of the compressed flange, less what the web sheds, Rb Fy S_c "
                                   "(AASHTO LRFD 6.10.1.10.2)"};
    ss_bending_limit local = ss_bending_local(&b);
    ss_bending_limit lateral = ss_bending_lateral(&b);
    local.moment *= Rb;
    lateral.moment *= Rb;
    least = ss_bending_least(least, shed);
    least = ss_bending_least(least, local);
    least = ss_bending_least(least, lateral);
    least = ss_bending_least(least, ss_bending_deep_web(&b));
    *out = ss_bending_answer(&b, least);
    return SS_OK;
}
