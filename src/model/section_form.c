/* section_form.c - the kind of beam that a set of plates makes, and the properties that its buckling needs.
 */
#include "sillspan/section_form.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/section_form_parts.h"
#include "model/section_plates.h"

/* A flange whose middle is further from the web's than this share of its width is not evenly set. */
#define UNEVEN 0.1

/* Slope of the inner faces of a rolled channel's flanges: 2 in 12 (American standard channels). A flange
 * described by its thickness half way out is thicker at the web and thinner at the toe. */
#define TAPER (1.0 / 6.0)

/* So that a section of which nothing is left has no thickness of 0. */
#define LEAST_LEFT 1e-6

/* ---- the kind --------------------------------------------------------------------------------------- */

/* Which sides of a single web a flange reaches out to. */
typedef enum side { SIDE_NONE, SIDE_LEFT, SIDE_RIGHT, SIDE_BOTH, SIDE_UNEVEN } side;

static side side_of(const ss_form_layout *layout, bool top) {
    double left = 0.0;
    double right = 0.0;
    if (!ss_form_flange_edges(layout, top, &left, &right)) {
        return SIDE_NONE;
    }
    const double before = layout->lines[0].y0 - left;
    const double after = right - layout->lines[0].y1;
    if (before > SS_FORM_REACH && after > SS_FORM_REACH) {
        return 0.5 * fabs(before - after) > UNEVEN * (right - left) ? SIDE_UNEVEN : SIDE_BOTH;
    }
    if (before > SS_FORM_REACH) {
        return SIDE_LEFT;
    }
    return after > SS_FORM_REACH ? SIDE_RIGHT : SIDE_UNEVEN;
}

static bool is_one_sided(side s) {
    return s == SIDE_LEFT || s == SIDE_RIGHT;
}

static ss_form form_of_one_web(side bottom, side top) {
    if (bottom == SIDE_BOTH && top == SIDE_BOTH) {
        return SS_FORM_I;
    }
    if (bottom == top && is_one_sided(top)) {
        return SS_FORM_CHANNEL;
    }
    if (bottom != SIDE_NONE && top != SIDE_NONE) {
        return SS_FORM_OTHER;
    }
    const side only = top == SIDE_NONE ? bottom : top;
    if (only == SIDE_BOTH) {
        return SS_FORM_TEE;
    }
    return is_one_sided(only) ? SS_FORM_ANGLE : SS_FORM_OTHER;
}

/* Whether every plate has its place and every web runs from flange to flange. */
static bool is_orderly(const ss_form_layout *layout) {
    for (int i = 0; i < layout->count; i++) {
        const ss_plate *const plate = &layout->plates[i];
        if (layout->part[i] == SS_PART_LOOSE) {
            return false;
        }
        if (layout->part[i] == SS_PART_WEB &&
            (plate->y1 - plate->y0 > plate->z1 - plate->z0 || plate->z0 > layout->low + SS_FORM_TOUCH ||
             plate->z1 < layout->high - SS_FORM_TOUCH)) {
            return false;
        }
    }
    return true;
}

static ss_form form_of(const ss_section *section, const ss_form_layout *layout) {
    if (layout->count == 1) {
        return SS_FORM_RECTANGLE;
    }
    if (layout->line_count == 0 || !is_orderly(layout)) {
        return SS_FORM_OTHER;
    }
    if (layout->line_count == 1) {
        return form_of_one_web(side_of(layout, false), side_of(layout, true));
    }
    if (layout->line_count == 2 && section->torsion == SS_TORSION_BATTENED) {
        return SS_FORM_BATTENED;
    }
    const bool closed = layout->line_count == 2 && section->torsion == SS_TORSION_CLOSED;
    return closed ? SS_FORM_BOX : SS_FORM_WEBS;
}

/* ---- sums over the plates --------------------------------------------------------------------------- */

typedef struct moments {
    double area, y, z, Ih, Iv, Ihv; /* second moments for vertical and sideways bending, and their product */
} moments;

static moments sum_plates(const ss_form_layout *layout) {
    moments m = {0};
    for (int i = 0; i < layout->count; i++) {
        const ss_plate *const p = &layout->plates[i];
        const double a = (p->y1 - p->y0) * (p->z1 - p->z0);
        m.area += a;
        m.y += a * 0.5 * (p->y0 + p->y1);
        m.z += a * 0.5 * (p->z0 + p->z1);
    }
    m.y /= m.area;
    m.z /= m.area;
    for (int i = 0; i < layout->count; i++) {
        const ss_plate *const p = &layout->plates[i];
        const double width = p->y1 - p->y0;
        const double height = p->z1 - p->z0;
        const double a = width * height;
        const double y = 0.5 * (p->y0 + p->y1) - m.y;
        const double z = 0.5 * (p->z0 + p->z1) - m.z;
        m.Ih += a * (z * z + height * height / 12.0);
        m.Iv += a * (y * y + width * width / 12.0);
        m.Ihv += a * y * z;
    }
    return m;
}

static double least_principal(const moments *m) {
    return 0.5 * (m->Ih + m->Iv) - hypot(0.5 * (m->Ih - m->Iv), m->Ihv);
}

/* Stress of unit moment about the horizontal axis, free to bend sideways: (z Iv - y Ihv)/(Ih Iv - Ihv^2);
 * held: z / Ih. The ratio of their extremes (Timoshenko, Strength of Materials, unsymmetrical bending). */
static double oblique_share(const ss_form_layout *layout, const moments *m) {
    const double determinant = m->Ih * m->Iv - m->Ihv * m->Ihv;
    if (!(determinant > 0.0)) {
        return 1.0;
    }
    double straight = 0.0;
    double oblique = 0.0;
    for (int i = 0; i < layout->count; i++) {
        const ss_plate *const p = &layout->plates[i];
        for (int corner = 0; corner < 4; corner++) {
            const double y = (corner % 2 == 0 ? p->y0 : p->y1) - m->y;
            const double z = (corner < 2 ? p->z0 : p->z1) - m->z;
            straight = ss_max(straight, fabs(z) / m->Ih);
            oblique = ss_max(oblique, fabs(z * m->Iv - y * m->Ihv) / determinant);
        }
    }
    return oblique > straight ? straight / oblique : 1.0;
}

static void measure_webs(const ss_form_layout *layout, ss_section_form *out) {
    out->webs = layout->line_count;
    for (int i = 0; i < layout->count; i++) {
        if (layout->part[i] != SS_PART_WEB) {
            continue;
        }
        const ss_plate *const web = &layout->plates[i];
        const double thickness = web->y1 - web->y0;
        const double clear = ss_min(web->z1, layout->high) - ss_max(web->z0, layout->low);
        out->web_thin = out->web_thin == 0.0 ? thickness : ss_min(out->web_thin, thickness);
        out->web_total += thickness;
        out->web_clear = ss_max(out->web_clear, clear);
    }
}

/* ---- flanges ---------------------------------------------------------------------------------------- */

/* What the rules add to the free width beside a single web. */
static double allowance_of(const ss_form_layout *layout, ss_form form) {
    if (layout->line_count != 1 || form == SS_FORM_RECTANGLE) {
        return 0.0;
    }
    const double web = layout->lines[0].y1 - layout->lines[0].y0;
    return form == SS_FORM_I || form == SS_FORM_TEE ? 0.5 * web : web;
}

/* Of a form without a rule: everything beyond the neutral axis, and one plate of it that alone is counted on.
 */
static void measure_other(const ss_form_layout *layout, bool top, double axis, ss_form_flange *out) {
    double stiffest = 0.0;
    double moment = 0.0;
    out->area = 0.0;
    out->plates = 0;
    for (int i = 0; i < layout->count; i++) {
        const ss_plate *const p = &layout->plates[i];
        const double low = top ? ss_max(p->z0, axis) : p->z0;
        const double high = top ? p->z1 : ss_min(p->z1, axis);
        const double width = p->y1 - p->y0;
        if (!(high > low)) {
            continue;
        }
        out->plates++;
        out->area += width * (high - low);
        moment += width * (high - low) * 0.5 * (low + high);
        stiffest = ss_max(stiffest, (high - low) * width * width * width / 12.0);
        if (layout->part[i] == SS_PART_LOOSE) {
            const double longer = ss_max(width, p->z1 - p->z0);
            out->outstand_ratio = ss_max(out->outstand_ratio, longer / ss_min(width, p->z1 - p->z0));
        }
    }
    out->Iy = stiffest;
    out->z = out->area > 0.0 ? moment / out->area : 0.0;
    out->rt = out->area > 0.0 ? sqrt(stiffest / out->area) : 0.0;
}

static void measure_flange(const ss_form_layout *layout, bool top, ss_section_form *form) {
    ss_form_flange *const flange = top ? &form->top : &form->bottom;
    ss_form_flange_measure(layout, top, allowance_of(layout, form->form), flange);
    const double face = top ? layout->high : layout->low;
    const double elastic = top ? face - form->z_elastic : form->z_elastic - face;
    const double plastic = top ? face - form->z_plastic : form->z_plastic - face;
    flange->Dc = form->webs > 0 ? ss_clamp(elastic, 0.0, form->web_clear) : 0.0;
    flange->Dcp = form->webs > 0 ? ss_clamp(plastic, 0.0, form->web_clear) : 0.0;
    if (form->form == SS_FORM_OTHER) {
        measure_other(layout, top, form->z_elastic, flange);
    } else {
        flange->rt = ss_form_flange_radius(layout, top, form->web_total, flange);
    }
}

/* ---- warping ---------------------------------------------------------------------------------------- */

static void warping_of_i(ss_section_form *out) {
    const double both = out->top.Iy + out->bottom.Iy;
    out->Cw = both > 0.0 ? out->ho * out->ho * out->top.Iy * out->bottom.Iy / both : 0.0;
}

/*
 * Middle lines: flange b from the middle of the web, thickness t; web h between the flanges, thickness w
 * (Timoshenko and Gere, Theory of Elastic Stability, table of appendix; from memory):
 *   e = 3 b^2 t / (6 b t + h w) from the middle of the web
 *   Cw = t b^3 h^2 / 12 (3 b t + 2 h w) / (6 b t + h w)
 */
static void warping_of_channel(bool rolled, ss_section_form *out) {
    const ss_form_flange *const small = out->top.Iy < out->bottom.Iy ? &out->top : &out->bottom;
    const double w = out->web_total;
    const double free = small->outstand;
    const double wide = small->width;
    /* of a stack, the less of what area and second moment say */
    const double t = ss_min(small->area / wide, 12.0 * small->Iy / (wide * wide * wide));
    const double b = free + 0.5 * w;
    const double h = out->ho;
    const double sum = 6.0 * b * t + h * w;
    out->shear_centre = 3.0 * b * b * t / sum - 0.5 * w;
    out->Cw = t * b * b * b * h * h / 12.0 * (3.0 * b * t + 2.0 * h * w) / sum;
    /* The web, and two such flanges at its face; rolled ones have their centroid nearer to the web. */
    const double shift = rolled ? ss_min(free * TAPER / 2.0, 0.5 * t) * free / (6.0 * t) : 0.0;
    const double arm = 0.5 * (free + w) - shift;
    const double flanges = 2.0 * free * t;
    const double area = flanges + out->depth * w;
    const double second =
        flanges * (free * free / 12.0 - shift * shift + arm * arm) + out->depth * w * w * w / 12.0;
    out->Iy_least = ss_min(out->Iy, second - flanges * arm * flanges * arm / area);
    out->J_least = ss_min(out->J, (2.0 * free * t * t * t + out->depth * w * w * w) / 3.0);
}

/* ---- all together ----------------------------------------------------------------------------------- */

static bool is_sound(const ss_form_layout *layout) {
    for (int i = 0; i < layout->count; i++) {
        const ss_plate *const p = &layout->plates[i];
        if (!isfinite(p->y0) || !isfinite(p->y1) || !isfinite(p->z0) || !isfinite(p->z1) ||
            !(p->y1 > p->y0) || !(p->z1 > p->z0)) {
            return false;
        }
    }
    return true;
}

static void measure(const ss_section *section, const ss_form_layout *layout, ss_section_form *out) {
    const moments m = sum_plates(layout);
    const bool skew = out->form == SS_FORM_ANGLE || out->form == SS_FORM_OTHER;
    const bool cell = out->form == SS_FORM_BOX || out->form == SS_FORM_BATTENED;
    out->A = m.area;
    out->Iy = m.Iv;
    out->ry = sqrt(m.Iv / m.area);
    out->Iy_least = skew ? ss_max(least_principal(&m), 0.0) : m.Iv;
    out->oblique = skew ? oblique_share(layout, &m) : 1.0;
    out->J = cell ? 0.0 : ss_plates_open_torsion(layout->plates, layout->count);
    out->J_least = out->J;
    out->z_elastic = m.z;
    out->z_plastic = ss_plates_plastic_axis(layout->plates, layout->count, m.area);
    measure_webs(layout, out);
    if (out->form == SS_FORM_RECTANGLE) {
        return;
    }
    measure_flange(layout, false, out);
    measure_flange(layout, true, out);
    if (out->form != SS_FORM_OTHER && out->top.plates > 0 && out->bottom.plates > 0) {
        out->ho = out->top.z - out->bottom.z;
    }
    if (out->form == SS_FORM_I) {
        warping_of_i(out);
    } else if (out->form == SS_FORM_CHANNEL) {
        warping_of_channel(section->shape == SS_SHAPE_CHANNEL, out);
    }
}

/* A share of the whole section that is gone is taken off every thickness. */
static void thin_flange(double left, ss_form_flange *flange) {
    flange->thickness *= left;
    flange->area *= left;
    flange->Iy *= left;
    flange->outstand_ratio /= left;
    flange->clear_ratio /= left;
}

static void thin_section(double left, ss_section_form *form) {
    thin_flange(left, &form->top);
    thin_flange(left, &form->bottom);
    form->web_thin *= left;
    form->web_total *= left;
    form->A *= left;
    form->Iy *= left;
    form->Iy_least *= left;
    form->Cw *= left;
    form->J *= left;
    form->J_least *= left * left * left;
}

ss_status ss_section_form_at(const ss_section *section, double depth, ss_section_form *out, ss_error *error) {
    ss_section_form form;
    memset(&form, 0, sizeof form);
    form.oblique = 1.0;
    if (section->shape == SS_SHAPE_GIVEN) {
        *out = form;
        return SS_OK;
    }
    ss_form_layout layout;
    memset(&layout, 0, sizeof layout);
    layout.count = section->plate_count;
    const double left = depth - section->depth_lost;
    if (!(left > 0.0) || layout.count < 1 || layout.count > SS_PLATES_MAX ||
        !ss_plates_stretch(section->plates, layout.count, left, layout.plates)) {
        return ss_error_set(error, SS_ERROR_DESCRIPTION,
                            "the plates of section \"%s\" do not fit within the depth",
                            section->name == NULL ? "" : section->name);
    }
    form.form = SS_FORM_OTHER;
    form.depth = left;
    if (is_sound(&layout)) {
        ss_form_sort(&layout);
        form.form = form_of(section, &layout);
        measure(section, &layout, &form);
        thin_section(ss_clamp(1.0 - section->loss, LEAST_LEFT, 1.0), &form);
    }
    *out = form;
    return SS_OK;
}

const char *ss_form_name(ss_form form) {
    static const char *const names[] = {
        "section of given properties",  "I section", "channel", "closed box", "battened box",
        "open section of several webs", "tee",       "angle",   "rectangle",  "section of other form"};
    return names[form];
}
