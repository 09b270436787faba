/* composite_yield.c - first yield of a steel section with its slab, stresses added stage by stage. */
#include <math.h>

#include "assess/composite_ladder.h"
#include "assess/rule.h"

#define SOURCE(article) "AASHTO LRFD " article " (from memory)"

/* ---- sections --------------------------------------------------------------------------------------- */

static ss_unit_stress of_steel(const ss_composite_parts *parts) {
    const ss_section_properties *const p = &parts->steel;
    ss_unit_stress u = {{0.0}};
    u.at[SS_FIBRE_BOTTOM] = -1.0 / (p->S_bottom > 0.0 ? p->S_bottom : p->I / parts->centroid);
    u.at[SS_FIBRE_TOP] = 1.0 / (p->S_top > 0.0 ? p->S_top : p->I / (p->depth - parts->centroid));
    return u;
}

/* Height of the bars nearest to the slab's top; NaN without bars. */
static double height_of_bars(const ss_slab_flange *flange, double top) {
    double height = SS_NAN;
    if (flange->bottom > 0.0) {
        height = top - flange->bottom_depth;
    }
    if (flange->top > 0.0) {
        height = fmax(height, top - flange->top_depth);
    }
    return height;
}

/* Stress at a height; none at the axis itself. */
static double unit_at(const ss_composite_properties *p, double height) {
    const double arm = height - p->z;
    return fabs(arm) > 1e-9 * (fabs(height) + fabs(p->z)) ? arm / p->I : 0.0;
}

static ss_unit_stress of_both(const ss_composite_parts *parts, const ss_slab_flange *flange, bool cracked,
                              const ss_composite_properties *p) {
    ss_unit_stress u = {{0.0}};
    const double bars = height_of_bars(flange, p->depth);
    u.at[SS_FIBRE_BOTTOM] = unit_at(p, 0.0);
    u.at[SS_FIBRE_TOP] = unit_at(p, parts->steel.depth);
    u.at[SS_FIBRE_BARS] = isnan(bars) ? 0.0 : unit_at(p, bars);
    u.at[SS_FIBRE_SLAB] = cracked ? 0.0 : unit_at(p, p->depth) / flange->n;
    return u;
}

/* ---- stages ----------------------------------------------------------------------------------------- */

static const char *const modulus_symbol[] = {"S_bot", "S_top", "S_bars", "n S_slab"};
static const char *const stress_symbol[] = {"f_bot", "f_top", "f_bars", "f_slab"};
static const char *const stress_means[] = {"stress at the bottom of the steel, compression positive",
                                           "stress at the top of the steel, compression positive",
                                           "stress of the bars, compression positive",
                                           "stress at the slab's top, compression positive"};

/* Which fibres of this bending one looks at. */
static bool is_shown(const ss_ladder *l, int f) {
    return f == SS_FIBRE_BOTTOM || f == SS_FIBRE_TOP || (f == SS_FIBRE_BARS && l->cracked && l->has_bars) ||
           (f == SS_FIBRE_SLAB && !l->cracked);
}

static void note_modulus(const ss_ladder *l, const ss_unit_stress *u, int f, const char *of) {
    if (u->at[f] != 0.0) {
        ss_working_add(l->working, modulus_symbol[f], of, 1.0 / fabs(u->at[f]), SS_DIM_SECTION_MODULUS, NULL);
    }
}

static const char *name_of(const ss_ladder *l, bool composite) {
    if (!composite) {
        return "of the steel alone";
    }
    return l->cracked ? "of steel and bars, the slab cracked" : "of steel and slab, for this load";
}

static ss_status add_stage(ss_ladder *l, const ss_staged_moment *stage) {
    const ss_composite_parts *const parts = l->parts;
    ss_unit_stress u = of_steel(parts);
    if (stage->composite) {
        ss_composite_properties p;
        const ss_status status = ss_composite_at(&parts->steel, &stage->flange, l->cracked, &p, NULL);
        if (status != SS_OK) {
            return status;
        }
        u = of_both(parts, &stage->flange, l->cracked, &p);
        /* The concrete's stress is that of the short-term section, for what stays too (6.10.1.1.1d). */
        u.at[SS_FIBRE_SLAB] =
            l->cracked ? 0.0 : of_both(parts, &parts->given->flange, false, &parts->live).at[SS_FIBRE_SLAB];
    }
    ss_working_add(l->working, "M_D", stage->name == NULL ? "dead load" : stage->name, stage->moment,
                   SS_DIM_MOMENT, NULL);
    for (int f = 0; f < SS_FIBRES; f++) {
        const double stress = stage->moment * u.at[f];
        l->stress[f] += stress;
        if (is_shown(l, f) && u.at[f] != 0.0) {
            note_modulus(l, &u, f,
                         f == SS_FIBRE_SLAB ? "of the slab's top, on the short-term n"
                                            : name_of(l, stage->composite));
            ss_working_add(l->working, stress_symbol[f], stress_means[f], stress, SS_DIM_STRESS, NULL);
        }
    }
    l->dead += l->sense * stage->moment;
    return SS_OK;
}

/* ---- what is left ----------------------------------------------------------------------------------- */

/* Live moment (N m) that takes a fibre from its stress under dead load to its limit. Where dead load alone is
 * beyond it and live load does not reach the fibre, the bottom's modulus stands in, so that a moment results.
 */
static double left_of(const ss_ladder *l, const ss_unit_stress *live, int f, const char **rule) {
    const double per = l->sense * live->at[f];
    const bool compressed = per != 0.0 ? per > 0.0 : l->stress[f] > 0.0;
    const double limit = compressed ? l->limit[f].compression : l->limit[f].tension;
    *rule = compressed ? l->limit[f].compressed : l->limit[f].pulled;
    if (!isfinite(limit)) {
        return SS_INFINITY;
    }
    const double room = l->options->share * limit - (compressed ? l->stress[f] : -l->stress[f]);
    static const char *const symbols[] = {"left_bot", "left_top", "left_bars", "left_slab"};
    ss_working_add(l->working, symbols[f], "share of the limit less the stress of all stages there", room,
                   SS_DIM_STRESS, NULL);
    if (per == 0.0 && room >= 0.0) {
        return SS_INFINITY;
    }
    const double moment = room / fabs(per != 0.0 ? per : live->at[SS_FIBRE_BOTTOM]);
    ss_working_add(l->working, "M_L", *rule, moment, SS_DIM_MOMENT, SOURCE("D6.2.2"));
    return moment;
}

/* The slab's stress when the steel has reached its limit. */
static void note_concrete(const ss_ladder *l, const ss_unit_stress *live, double moment) {
    const double fc = l->parts->given->flange.fc;
    if (l->cracked || !isfinite(fc) || live->at[SS_FIBRE_SLAB] == 0.0) {
        return;
    }
    ss_working_add(
        l->working, "f_slab", "at the slab's top then, compression positive, all on the short-term n",
        l->stress[SS_FIBRE_SLAB] + moment * live->at[SS_FIBRE_SLAB], SS_DIM_STRESS, SOURCE("6.10.1.1.1d"));
    ss_working_add(l->working, "0.6 f'c", "for comparison; a limit of LRFD strength where not compact",
                   SS_LADDER_CONCRETE * fc, SS_DIM_STRESS, SOURCE("6.10.7.2.1"));
}

static ss_resistance least_of(ss_ladder *l) {
    const ss_composite_parts *const parts = l->parts;
    ss_working *const w = l->working;
    const ss_unit_stress live = of_both(parts, &parts->given->flange, l->cracked, &parts->live);
    ss_working_add(w, "n", "modular ratio under live load", parts->given->flange.n, SS_DIM_NUMBER, NULL);
    ss_working_add(w, "I", name_of(l, true), parts->live.I, SS_DIM_SECOND_MOMENT, NULL);
    ss_working_add(w, "z", "its elastic axis above the lowest fibre", parts->live.z, SS_DIM_SMALL_LENGTH,
                   NULL);
    for (int f = 0; f < SS_FIBRES; f++) {
        if (is_shown(l, f)) {
            note_modulus(l, &live, f, name_of(l, true));
        }
    }
    ss_working_add(w, "share", "of every limit that may be reached", l->options->share, SS_DIM_NUMBER, NULL);
    double least = SS_INFINITY;
    const char *rule = SS_LADDER_RULE;
    for (int f = 0; f < SS_FIBRES; f++) {
        const char *its = SS_LADDER_RULE;
        const double moment = left_of(l, &live, f, &its);
        if (!(moment >= least)) {
            least = moment;
            rule = its;
        }
    }
    note_concrete(l, &live, least);
    ss_working_add(w, "M_D", "dead load in all, in the sense of the live load", l->dead, SS_DIM_MOMENT, NULL);
    ss_working_add(w, "M_L", "live load that is left, the least of the above", least, SS_DIM_MOMENT, NULL);
    const double total = (l->dead + least) / l->options->share;
    if (!isfinite(total)) {
        return ss_rule_none(SS_LADDER_RULE, "its figures are out of range");
    }
    ss_working_add(w, "Mn", "(M_D + M_L) over the share", total, SS_DIM_MOMENT, NULL);
    return (ss_resistance){.value = total, .rule = parts->plate_count > 0 ? rule : SS_COMPOSITE_UNCHECKED};
}

/* ---- all together ----------------------------------------------------------------------------------- */

ss_status ss_composite_staged(const ss_composite_case *given, const ss_staged_options *options,
                              ss_resistance *out, ss_working *working) {
    ss_composite_parts parts;
    const char *why = NULL;
    ss_status status = ss_composite_gather(given, &parts, &why);
    if (status != SS_OK) {
        return status;
    }
    if (why == NULL && (!(options->share > 0.0) || !(options->share <= 1.0))) {
        why = "its share of Fy is not known";
    }
    ss_ladder l = {.parts = &parts,
                   .options = options,
                   .working = working,
                   .cracked = !given->sagging,
                   .has_bars = given->flange.top > 0.0 || given->flange.bottom > 0.0,
                   .sense = given->sagging ? 1.0 : -1.0};
    if (why == NULL) {
        status = ss_ladder_limit(&l, &why);
    }
    for (int i = 0; i < given->dead_count && status == SS_OK && why == NULL; i++) {
        status = add_stage(&l, &given->dead[i]);
    }
    if (status != SS_OK) {
        return status;
    }
    *out = why != NULL ? ss_rule_none(SS_LADDER_RULE, why) : least_of(&l);
    return SS_OK;
}

ss_status ss_composite_yield(const ss_composite_case *given, double share, ss_resistance *out,
                             ss_working *working) {
    const ss_staged_options options = {.share = share};
    return ss_composite_staged(given, &options, out, working);
}
