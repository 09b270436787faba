/* composite_block.c - plates that yield through and the concrete above them in balance, and whether the web
 * lets them. */
#include <math.h>

#include "assess/composite_parts.h"
#include "assess/rule.h"
#include "model/section_plates.h"

/* Compact sections are of steel up to 70 ksi (6.10.6.2.2, 6.11.6.2.2). */
#define STRONGEST 482.6e6

#define SOURCE(article) "AASHTO LRFD " article " (from memory)"

/* ---- gathering -------------------------------------------------------------------------------------- */

static bool is_flange(const ss_slab_flange *f) {
    return ss_rule_not_negative(f->width) && ss_rule_not_negative(f->thickness) &&
           ss_rule_not_negative(f->haunch) && ss_rule_positive(f->n) && ss_rule_not_negative(f->top) &&
           ss_rule_not_negative(f->bottom) && isfinite(f->top_depth) && isfinite(f->bottom_depth);
}

static const char *fault_of(const ss_composite_case *given) {
    if (!ss_rule_positive(given->steel.fy)) {
        return "its yield stress is not known";
    }
    if (!ss_rule_positive(given->steel.E)) {
        return "its moduli of elasticity are not known";
    }
    if (!is_flange(&given->flange)) {
        return "the slab that acts with it is not known";
    }
    for (int i = 0; i < given->dead_count; i++) {
        const ss_staged_moment *const stage = &given->dead[i];
        if (!isfinite(stage->moment)) {
            return "a moment of its dead load is not known";
        }
        if (stage->composite && !is_flange(&stage->flange)) {
            return "the slab that acts with it under dead load is not known";
        }
    }
    return NULL;
}

/* Plates at the place, and what they lack or exceed of the area that counts. */
static const char *gather_plates(const ss_composite_case *given, ss_composite_parts *out) {
    const ss_section *const section = given->steel.section;
    if (section->shape == SS_SHAPE_GIVEN) {
        return NULL;
    }
    out->plate_count = section->plate_count;
    if (!ss_rule_positive(out->form.A) ||
        !ss_plates_stretch(section->plates, section->plate_count, given->steel.depth - section->depth_lost,
                           out->plates)) {
        return "a plate of it has no width or no height";
    }
    double area = 0.0;
    for (int i = 0; i < out->plate_count; i++) {
        const ss_plate *const p = &out->plates[i];
        area += (p->y1 - p->y0) * (p->z1 - p->z0);
    }
    out->share_of_plates = out->steel.A / area;
    return NULL;
}

ss_status ss_composite_gather(const ss_composite_case *given, ss_composite_parts *out, const char **why) {
    *out = (ss_composite_parts){.given = given, .share_of_plates = 1.0};
    ss_status status = ss_section_form_at(given->steel.section, given->steel.depth, &out->form, NULL);
    if (status == SS_OK) {
        status = ss_section_at(given->steel.section, given->steel.depth, 0.0, &out->steel, NULL);
    }
    if (status != SS_OK) {
        return status;
    }
    *why = fault_of(given);
    *why = *why != NULL ? *why : gather_plates(given, out);
    if (*why != NULL) {
        return SS_OK;
    }
    const ss_slab_flange none = {.n = 1.0};
    ss_composite_properties bare;
    if (ss_composite_at(&out->steel, &none, true, &bare, NULL) != SS_OK ||
        ss_composite_at(&out->steel, &given->flange, !given->sagging, &out->live, NULL) != SS_OK) {
        *why = "its area, I, depth and a section modulus must be known for it to act with a slab";
        return SS_OK;
    }
    out->centroid = bare.z;
    return SS_OK;
}

/* ---- balance ---------------------------------------------------------------------------------------- */

/* Integral of |z - axis| over the plates, m3. */
static double first_moments(const ss_composite_parts *parts, double axis) {
    double sum = 0.0;
    for (int i = 0; i < parts->plate_count; i++) {
        const ss_plate *const p = &parts->plates[i];
        const double up = p->z1 - axis;
        const double down = p->z0 - axis;
        sum += 0.5 * (p->y1 - p->y0) * (up * fabs(up) - down * fabs(down));
    }
    return sum * parts->share_of_plates;
}

static void note_balance(const ss_composite_balance *b, double tie, ss_working *w) {
    ss_working_add(w, "As Fy", "steel yielded through", b->steel, SS_DIM_FORCE, SOURCE("D6.1"));
    ss_working_add(w, "0.85 f'c b ts", "slab; bars and haunch count nothing", b->slab, SS_DIM_FORCE,
                   SOURCE("D6.1"));
    if (isfinite(tie)) {
        ss_working_add(w, "sum Qn", "what connectors carry between slab and steel", tie, SS_DIM_FORCE, NULL);
    }
    ss_working_add(w, "C", "force of the slab, the least of these", b->force, SS_DIM_FORCE, NULL);
    ss_working_add(w, "a", "slab in compression, from its top: C / (0.85 f'c b)", b->block,
                   SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(w, "z_p",
                   b->in_slab
                       ? "plastic axis above the lowest fibre: in the slab, all of the steel is pulled"
                       : "plastic axis of the steel above its lowest fibre: (As Fy - C) / 2 lies above",
                   b->axis, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(w, "Mp",
                   b->in_slab
                       ? "As Fy times the arm from the steel's centroid to the middle of a"
                       : "C times its arm, and Fy times the first moments of the plates, about the axis",
                   b->moment, SS_DIM_MOMENT, SOURCE("D6.1"));
}

const char *ss_composite_balance_of(const ss_composite_parts *parts, double tie, ss_composite_balance *out,
                                    ss_working *working) {
    const ss_slab_flange *const slab = &parts->given->flange;
    const double fy = parts->given->steel.fy;
    const double top = parts->live.depth;
    if (!(slab->fc >= 0.0) || !isfinite(slab->fc)) {
        return "the strength of the concrete is not known";
    }
    const double line = 0.85 * slab->fc * slab->width;
    ss_composite_balance b = {.steel = fy * parts->steel.A, .slab = line * slab->thickness};
    b.force = ss_min(ss_min(b.steel, b.slab), tie);
    b.block = line > 0.0 ? b.force / line : 0.0;
    b.in_slab = b.force >= b.steel;
    if (b.in_slab) {
        b.axis = top - b.block;
        b.moment = b.steel * (top - 0.5 * b.block - parts->centroid);
    } else if (parts->plate_count == 0) {
        return "its plates are not known, and the plastic axis lies in the steel";
    } else {
        const double scale = fy * parts->share_of_plates;
        b.axis = ss_plates_plastic_axis(parts->plates, parts->plate_count, (b.steel + b.force) / scale);
        b.moment = b.force * (top - 0.5 * b.block - b.axis) + fy * first_moments(parts, b.axis);
    }
    const ss_section_form *const form = &parts->form;
    b.Dp = top - b.axis;
    b.Dcp = form->webs > 0 ? ss_clamp(form->depth - form->top.thickness - b.axis, 0.0, form->web_clear) : 0.0;
    note_balance(&b, tie, working);
    *out = b;
    return NULL;
}

/* ---- compactness ------------------------------------------------------------------------------------ */

/* Whether what is above the axis is a flange on webs, held by the slab. */
static bool may_be_compressed(const ss_section_form *form) {
    switch (form->form) {
    case SS_FORM_I:
    case SS_FORM_CHANNEL:
    case SS_FORM_BOX:
    case SS_FORM_BATTENED:
    case SS_FORM_WEBS:
    case SS_FORM_TEE: return form->top.plates > 0;
    default: return false;
    }
}

const char *ss_composite_miss(const ss_composite_parts *parts, const ss_composite_balance *balance,
                              const ss_composite_compact *limits, ss_working *working) {
    const ss_section_form *const form = &parts->form;
    const double fy = parts->given->steel.fy;
    ss_working_add(working, "Fy,max", "strongest steel that may be compact, 70 ksi", STRONGEST, SS_DIM_STRESS,
                   SOURCE("6.10.6.2.2"));
    if (fy > STRONGEST) {
        return "its steel is stronger than 70 ksi";
    }
    if (!balance->in_slab && !may_be_compressed(form)) {
        return "no plastic moment is counted on for a section of this form whose axis is in the steel";
    }
    if (form->form == SS_FORM_UNKNOWN) {
        ss_working_add(working, "D/tw", "not looked at: the plates of the steel are not known", SS_NAN,
                       SS_DIM_NUMBER, NULL);
        return NULL;
    }
    if (form->form == SS_FORM_BOX || form->form == SS_FORM_BATTENED) {
        ss_working_add(working, "box",
                       "that its flange is effective in full, a fifth of the span wide at most, "
                       "is not looked at",
                       SS_NAN, SS_DIM_NUMBER, SOURCE("6.11.6.2.2, 6.11.1.1"));
    }
    if (form->webs == 0 || !(form->web_thin > 0.0)) {
        return NULL;
    }
    const double depth = form->web_clear / form->web_thin;
    const double compressed = 2.0 * balance->Dcp / form->web_thin;
    ss_working_add(working, "D/tw", "web, clear depth over the thinnest web", depth, SS_DIM_NUMBER, NULL);
    ss_working_add(working, "D/tw,max", limits->deepest_means, limits->deepest, SS_DIM_NUMBER,
                   limits->source);
    ss_working_add(working, "2Dcp/tw", "web above the plastic axis, over the thinnest web", compressed,
                   SS_DIM_NUMBER, NULL);
    ss_working_add(working, "2Dcp/tw,max", limits->slender_means, limits->slender, SS_DIM_NUMBER,
                   limits->source);
    if (depth > limits->deepest) {
        return limits->deepest_missed;
    }
    return compressed > limits->slender ? limits->slender_missed : NULL;
}
