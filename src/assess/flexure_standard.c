/* flexure_standard.c - a section in bending by the Standard Specifications: load factor and allowable stress.
 */
#include <math.h>

#include "assess/flexure_parts.h"
#include "base/numeric.h"

/* The formula of lateral buckling holds while the compressed flange has this share of Iy (10.48.4.1). */
#define LEAST_SHARE 0.1
#define MOST_SHARE 0.9

#define STD(article) "AASHTO Standard Specifications " article " (from memory)"
#define MBE "AASHTO MBE table 6B.5.2.1 (from memory)"

/* ---- local buckling --------------------------------------------------------------------------------- */

static ss_bending_limit flange_plates(const ss_bending *b) {
    const double E = b->bracing.E;
    const double fy = b->bracing.fy;
    const ss_form_flange *const flange = b->flange;
    ss_bending_limit least = {SS_INFINITY, NULL};
    if (flange->outstand_ratio > 0.0) {
        const double stress = ss_standard_flange_stress(flange->outstand_ratio, E, fy);
        ss_working_add(b->working, "b'/t", "free part of the compressed flange, width over thickness",
                       flange->outstand_ratio, SS_DIM_NUMBER, NULL);
        ss_working_add(b->working, "Fcr", "(4400 t / b)^2 psi with b = 2 b', at most Fy", stress,
                       SS_DIM_STRESS, STD("10.48.2.1"));
        least =
            (ss_bending_limit){stress * b->S_c, "local buckling of the compressed flange, Fcr S_c (AASHTO "
                                                "Standard Specifications 10.48.2.1)"};
    }
    if (flange->clear_ratio > 0.0) {
        const double stress = ss_standard_box_stress(flange->clear_ratio, E, fy);
        ss_working_add(b->working, "b/t", "compressed flange between webs, clear width over thickness",
                       flange->clear_ratio, SS_DIM_NUMBER, NULL);
        ss_working_add(b->working, "Fcr", "stress at which it buckles", stress, SS_DIM_STRESS,
                       STD("10.51.5"));
        least = ss_bending_least(
            least, (ss_bending_limit){stress * b->S_c, "buckling of the compressed flange between webs, Fcr "
                                                       "S_c (AASHTO Standard Specifications 10.51.5)"});
    }
    return least;
}

/* Bare tips have no rule there. */
static ss_bending_limit standard_local(const ss_bending *b) {
    return ss_bending_has_flange(b) && b->flange->thickness > 0.0 ? flange_plates(b) : ss_bending_local(b);
}

/* ---- lateral buckling ------------------------------------------------------------------------------- */

/* What stands for the compressed flange. A channel's is no more than half of its Iy, nor than what its
 * warping says. */
static bool lateral_section(const ss_bending *b, ss_standard_section *out) {
    const ss_section_form *const form = &b->form;
    *out = (ss_standard_section){.J = b->J, .d = form->depth, .S = b->S_c};
    if (form->form == SS_FORM_I) {
        out->Iyc = b->flange->Iy;
        const double share = out->Iyc / form->Iy;
        return share >= LEAST_SHARE && share <= MOST_SHARE;
    }
    if (form->form == SS_FORM_CHANNEL && form->ho > 0.0) {
        out->d = form->ho;
        out->Iyc = ss_min(0.5 * b->Iy, 2.0 * form->Cw / (form->ho * form->ho));
        return out->Iyc > 0.0;
    }
    return false;
}

static bool has_slender_web(const ss_bending *b, double f) {
    const bool mostly = b->flange->Dc > 0.5 * b->form.web_clear;
    return b->flange->Dc / b->form.web_thin > ss_standard_web_limit(mostly, b->bracing.E, f);
}

static ss_bending_limit standard_lateral(const ss_bending *b) {
    ss_standard_section s;
    if (!(b->bracing.length > 0.0) || !lateral_section(b, &s)) {
        return ss_bending_lateral(b);
    }
    ss_working_add(b->working, "Iyc", "of the compressed flange, sideways", s.Iyc, SS_DIM_SECOND_MOMENT,
                   NULL);
    ss_working_add(b->working, "J", "St Venant constant", s.J, SS_DIM_SECOND_MOMENT, NULL);
    if (has_slender_web(b, b->bracing.fy)) {
        const double r = sqrt(s.Iyc / b->flange->area);
        const ss_lateral l = ss_standard_lateral_slender(&b->bracing, &s, r);
        ss_working_add(b->working, "Lp", "9500 r' / sqrt(Fy)", l.Lp, SS_DIM_LENGTH, STD("10.48.4.1"));
        ss_working_add(b->working, "Lr", "sqrt(572e6 Iyc d / (Fy S_c))", l.Lr, SS_DIM_LENGTH,
                       STD("10.48.4.1"));
        ss_working_add(b->working, "Mr", "moment at which it buckles sideways", l.value, SS_DIM_MOMENT,
                       STD("10.48.4.1"));
        return (ss_bending_limit){l.value, "lateral-torsional buckling with a slender web, Mr Rb (AASHTO "
                                           "Standard Specifications 10.48.4.1)"};
    }
    const double Mr = ss_standard_lateral(&b->bracing, &s);
    ss_working_add(b->working, "Mr", "91e6 Cb Iyc / Lb sqrt(0.772 J / Iyc + 9.87 (d / Lb)^2), psi", Mr,
                   SS_DIM_MOMENT, STD("10.48.4.1"));
    return (ss_bending_limit){Mr,
                              "lateral-torsional buckling, Mr Rb (AASHTO Standard Specifications 10.48.4.1)"};
}

/* ---- load factor ------------------------------------------------------------------------------------ */

/* Rb at the stress that the flange reaches. */
static double standard_shedding(const ss_bending *b, double moment) {
    if (!ss_bending_has_flange(b) || b->form.webs == 0 || !(b->flange->area > 0.0) || !(moment > 0.0)) {
        return 1.0;
    }
    const double f = ss_min(moment / b->S_c, b->bracing.fy);
    const bool mostly = b->flange->Dc > 0.5 * b->form.web_clear;
    const double limit = ss_standard_web_limit(mostly, b->bracing.E, f);
    const double slenderness = b->flange->Dc / b->form.web_thin;
    const double Rb =
        ss_standard_shedding(slenderness, b->flange->Dc * b->form.web_total / b->flange->area, limit);
    ss_working_add(b->working, "Dc/tw", "web in compression over the thinnest web", slenderness,
                   SS_DIM_NUMBER, NULL);
    ss_working_add(b->working, "lambda/sqrt(f)", "lambda 15 400, or 12 500 when Dc is more than half of D",
                   limit, SS_DIM_NUMBER, STD("10.48.4.1"));
    ss_working_add(b->working, "Rb", "what web buckling leaves of the flange's strength", Rb, SS_DIM_NUMBER,
                   STD("10.48.4.1"));
    return Rb;
}

ss_status ss_flexure_lfr(const ss_flexure_case *given, ss_resistance *out, ss_working *working) {
    ss_bending b;
    bool ready = false;
    const ss_status status = ss_bending_gather(given, working, &b, out, &ready);
    if (status != SS_OK || !ready) {
        return status;
    }
    static const ss_bending_words words = {
        .compression = "yield of the flange in compression, Fy S_c (AASHTO Standard Specifications 10.48.2)",
        .tension = "yield of the flange in tension, Fy S_t (AASHTO Standard Specifications 10.48.2)",
        .sideways = "first yield with sideways bending, not held all along (strength of materials)",
        .source = STD("10.48.2")};
    const ss_bending_limit yield = ss_bending_yield(&b, &words);
    ss_bending_limit flange = {b.bracing.fy * b.S_c, "yield of the compressed flange, less what the web "
                                                     "sheds, Rb Fy S_c (AASHTO Standard Specifications "
                                                     "10.48.2)"};
    flange = ss_bending_least(flange, standard_local(&b));
    flange = ss_bending_least(flange, standard_lateral(&b));
    flange.moment *= standard_shedding(&b, flange.moment);
    *out = ss_bending_answer(&b, ss_bending_least(ss_bending_least(yield, flange), ss_bending_deep_web(&b)));
    return SS_OK;
}

/* ---- allowable stress ------------------------------------------------------------------------------- */

/* Against lateral buckling: 1.82 with 0.55 Fy, 1.34 with 0.75 Fy; any other share as the latter. */
static double safety_of(double share) {
    return fabs(share - 0.55) < 1e-9 ? 1.82 : 1.005 / share;
}

static ss_bending_limit allowable_local(const ss_bending *b, double share) {
    if (!ss_bending_has_flange(b) || !(b->flange->thickness > 0.0)) {
        ss_bending_limit stem = ss_bending_local(b);
        stem.moment *= share;
        return stem;
    }
    const double E = b->bracing.E;
    const double fy = b->bracing.fy;
    ss_bending_limit least = {SS_INFINITY, NULL};
    if (b->flange->outstand_ratio > 0.0) {
        const double stress = ss_standard_flange_allowable(b->flange->outstand_ratio, E, fy, share);
        ss_working_add(b->working, "b'/t", "free part of the compressed flange, width over thickness",
                       b->flange->outstand_ratio, SS_DIM_NUMBER, NULL);
        ss_working_add(b->working, "fb", "(3250 t / b)^2 psi with b = 2 b', in proportion to the share",
                       stress, SS_DIM_STRESS, STD("10.34.2"));
        least =
            (ss_bending_limit){stress * b->S_c, "local buckling of the compressed flange (AASHTO Standard "
                                                "Specifications 10.34.2)"};
    }
    if (b->flange->clear_ratio > 0.0) {
        const double stress = share * ss_standard_box_stress(b->flange->clear_ratio, E, fy);
        ss_working_add(b->working, "b/t", "compressed flange between webs, clear width over thickness",
                       b->flange->clear_ratio, SS_DIM_NUMBER, NULL);
        ss_working_add(b->working, "fb", "share of the stress at which it buckles", stress, SS_DIM_STRESS,
                       STD("10.39.4"));
        least = ss_bending_least(least, (ss_bending_limit){stress * b->S_c,
                                                           "buckling of the compressed flange between webs "
                                                           "(AASHTO Standard Specifications 10.39.4)"});
    }
    return least;
}

static ss_bending_limit allowable_lateral(const ss_bending *b, double share) {
    ss_standard_section s;
    if (!(b->bracing.length > 0.0) || !lateral_section(b, &s)) {
        ss_bending_limit other = ss_bending_lateral(b);
        other.moment *= share;
        return other;
    }
    const double safety = safety_of(share);
    const double moment = ss_standard_lateral(&b->bracing, &s) / safety;
    ss_working_add(b->working, "Iyc", "of the compressed flange, sideways", s.Iyc, SS_DIM_SECOND_MOMENT,
                   NULL);
    ss_working_add(b->working, "J", "St Venant constant", s.J, SS_DIM_SECOND_MOMENT, NULL);
    ss_working_add(b->working, "FS", "against lateral buckling", safety, SS_DIM_NUMBER, MBE);
    ss_working_add(b->working, "Fb", "91e6 Cb / (FS S_c) Iyc / Lb sqrt(0.772 J / Iyc + 9.87 (d / Lb)^2), psi",
                   moment / b->S_c, SS_DIM_STRESS, MBE);
    return (ss_bending_limit){moment,
                              "allowable stress with lateral buckling, Fb S_c (AASHTO MBE table 6B.5.2.1)"};
}

static ss_bending_limit allowable_web(const ss_bending *b) {
    if (!ss_bending_has_flange(b) || b->form.webs == 0) {
        return (ss_bending_limit){SS_INFINITY, NULL};
    }
    const double depth = ss_max(b->form.web_clear, 2.0 * b->flange->Dc);
    const double slenderness = depth / b->form.web_thin;
    const double stress = ss_standard_web_allowable(slenderness, b->bracing.E);
    ss_working_add(b->working, "D/tw", "web, the larger of D and 2 Dc over the thinnest web", slenderness,
                   SS_DIM_NUMBER, NULL);
    ss_working_add(b->working, "fb(web)", "(23 000 tw / D)^2 psi", stress, SS_DIM_STRESS, STD("10.34.3"));
    return (ss_bending_limit){stress * b->S_c,
                              "slenderness of the web (AASHTO Standard Specifications 10.34.3)"};
}

ss_status ss_flexure_asr(const ss_flexure_case *given, double share, ss_resistance *out,
                         ss_working *working) {
    ss_bending b;
    bool ready = false;
    const ss_status status = ss_bending_gather(given, working, &b, out, &ready);
    if (status != SS_OK) {
        return status;
    }
    if (!(share > 0.0) || !(share <= 1.0)) {
        *out = (ss_resistance){
            .value = SS_NAN, .rule = "bending", .why = "its allowable share of Fy is not known"};
        return SS_OK;
    }
    if (!ready) {
        out->value *= share;
        return SS_OK;
    }
    static const ss_bending_words words = {
        .compression = "allowable compression, share of Fy S_c (AASHTO MBE table 6B.5.2.1)",
        .tension = "allowable tension, share of Fy S_t (AASHTO MBE table 6B.5.2.1)",
        .sideways = "share of first yield with sideways bending, not held all along (strength of materials)",
        .source = MBE};
    ss_bending_limit least = ss_bending_yield(&b, &words);
    ss_working_add(working, "share",
                   "of Fy that is allowed; limits below are in proportion where nothing "
                   "else is said",
                   share, SS_DIM_NUMBER, MBE);
    least.moment *= share;
    least = ss_bending_least(least, allowable_local(&b, share));
    least = ss_bending_least(least, allowable_lateral(&b, share));
    least = ss_bending_least(least, allowable_web(&b));
    ss_bending_limit deep = ss_bending_deep_web(&b);
    deep.moment *= share;
    *out = ss_bending_answer(&b, ss_bending_least(least, deep));
    return SS_OK;
}
