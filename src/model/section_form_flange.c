/* section_form_flange.c - widths, slenderness and stiffness of one flange of a section. */
#include "model/section_form_parts.h"

#include <math.h>

#include "base/numeric.h"
#include "model/section_plates.h"

/* A plate between two webs and further than this from both, in m, lies on one that bridges them; closer, it
 * is the leg of an angle along the web: more than the thickest angle. */
#define AFLOAT 0.030

static bool lies_in(const ss_form_layout *layout, int index, bool top) {
    return layout->part[index] == (top ? SS_PART_TOP : SS_PART_BOTTOM);
}

static bool leg_of(const ss_form_layout *layout, int index, bool top) {
    return layout->part[index] == (top ? SS_PART_TOP_LEG : SS_PART_BOTTOM_LEG);
}

bool ss_form_flange_edges(const ss_form_layout *layout, bool top, double *left, double *right) {
    bool found = false;
    for (int i = 0; i < layout->count; i++) {
        if (!lies_in(layout, i, top)) {
            continue;
        }
        *left = found ? ss_min(*left, layout->plates[i].y0) : layout->plates[i].y0;
        *right = found ? ss_max(*right, layout->plates[i].y1) : layout->plates[i].y1;
        found = true;
    }
    return found;
}

/* How far a plate and those that carry it on at its edges reach. */
static void reach_of(const ss_form_layout *layout, int index, bool top, double *left, double *right) {
    const ss_plate *const plate = &layout->plates[index];
    *left = plate->y0;
    *right = plate->y1;
    bool moved = true;
    while (moved) {
        moved = false;
        for (int i = 0; i < layout->count; i++) {
            const ss_plate *const other = &layout->plates[i];
            const double upward = ss_min(plate->z1, other->z1) - ss_max(plate->z0, other->z0);
            if (!lies_in(layout, i, top) || upward <= SS_PLATE_TOUCH || other->y0 > *right + SS_FORM_TOUCH ||
                other->y1 < *left - SS_FORM_TOUCH) {
                continue;
            }
            if (other->y0 < *left || other->y1 > *right) {
                *left = ss_min(*left, other->y0);
                *right = ss_max(*right, other->y1);
                moved = true;
            }
        }
    }
}

/* Whether one plate reaches from web `bay` - 1 to web `bay`. */
static bool bridged(const ss_form_layout *layout, int bay, bool top) {
    for (int i = 0; i < layout->count; i++) {
        if (lies_in(layout, i, top) && layout->plates[i].y0 <= layout->lines[bay - 1].y1 + SS_FORM_TOUCH &&
            layout->plates[i].y1 >= layout->lines[bay].y0 - SS_FORM_TOUCH) {
            return true;
        }
    }
    return false;
}

/* A width in one bay: what lies left of the first web, between two, or right of the last. */
typedef struct stretch {
    int bay;
    double left, right, thickness;
} stretch;

static void measure_free(double width, double allowance, double thickness, ss_form_flange *out) {
    out->outstand = ss_max(out->outstand, width);
    out->outstand_ratio = ss_max(out->outstand_ratio, (width + allowance) / thickness);
}

static void measure_between(const ss_form_layout *layout, const stretch *s, bool top, ss_form_flange *out) {
    const double low = layout->lines[s->bay - 1].y1;
    const double high = layout->lines[s->bay].y0;
    const double before = s->left - low;
    const double after = high - s->right;
    if (before <= SS_FORM_TOUCH && after <= SS_FORM_TOUCH) {
        out->clear = ss_max(out->clear, high - low);
        out->clear_ratio = ss_max(out->clear_ratio, (high - low) / s->thickness);
    } else if (before > AFLOAT && after > AFLOAT && bridged(layout, s->bay, top)) {
        out->clear_ratio = ss_max(out->clear_ratio, (s->right - s->left) / s->thickness);
    } else {
        measure_free(ss_min(s->right - low, high - s->left), 0.0, s->thickness, out);
    }
}

static void measure_plate(const ss_form_layout *layout, int index, bool top, double allowance,
                          ss_form_flange *out) {
    const int last = layout->line_count;
    const double thickness = layout->plates[index].z1 - layout->plates[index].z0;
    double left = 0.0;
    double right = 0.0;
    reach_of(layout, index, top, &left, &right);
    if (last == 0) {
        measure_free(right - left, 0.0, thickness, out);
        return;
    }
    if (left < layout->lines[0].y0 - SS_PLATE_TOUCH) {
        measure_free(layout->lines[0].y0 - left, allowance, thickness, out);
    }
    if (right > layout->lines[last - 1].y1 + SS_PLATE_TOUCH) {
        measure_free(right - layout->lines[last - 1].y1, allowance, thickness, out);
    }
    for (int bay = 1; bay < last; bay++) {
        const stretch s = {bay, ss_max(left, layout->lines[bay - 1].y1), ss_min(right, layout->lines[bay].y0),
                           thickness};
        if (s.right - s.left > SS_PLATE_TOUCH) {
            measure_between(layout, &s, top, out);
        }
    }
}

/* A lip at an edge is free at its own end; a leg along a web is held by it. */
static void measure_leg(const ss_form_layout *layout, const ss_plate *leg, ss_form_flange *out) {
    for (int k = 0; k < layout->line_count; k++) {
        if (leg->y0 <= layout->lines[k].y1 + SS_FORM_TOUCH &&
            leg->y1 >= layout->lines[k].y0 - SS_FORM_TOUCH) {
            return;
        }
    }
    out->outstand_ratio = ss_max(out->outstand_ratio, (leg->z1 - leg->z0) / (leg->y1 - leg->y0));
}

/* Area and second moment about the own vertical axis of the flange's plates, or of those nearest to one web
 * (`line` >= 0). */
static double second_moment(const ss_form_layout *layout, bool top, int line, double *area) {
    double first = 0.0;
    double second = 0.0;
    *area = 0.0;
    for (int i = 0; i < layout->count; i++) {
        if (!lies_in(layout, i, top) && !leg_of(layout, i, top)) {
            continue;
        }
        const double width = layout->plates[i].y1 - layout->plates[i].y0;
        const double y = 0.5 * (layout->plates[i].y0 + layout->plates[i].y1);
        int nearest = 0;
        for (int k = 1; k < layout->line_count; k++) {
            const double here = fabs(y - 0.5 * (layout->lines[k].y0 + layout->lines[k].y1));
            const double best = fabs(y - 0.5 * (layout->lines[nearest].y0 + layout->lines[nearest].y1));
            nearest = here < best ? k : nearest;
        }
        if (line >= 0 && nearest != line) {
            continue;
        }
        const double a = width * (layout->plates[i].z1 - layout->plates[i].z0);
        *area += a;
        first += a * y;
        second += a * (y * y + width * width / 12.0);
    }
    return *area > 0.0 ? ss_max(second - first * first / *area, 0.0) : 0.0;
}

void ss_form_flange_measure(const ss_form_layout *layout, bool top, double allowance, ss_form_flange *out) {
    double left = 0.0;
    double right = 0.0;
    *out = (ss_form_flange){0};
    if (!ss_form_flange_edges(layout, top, &left, &right)) {
        return;
    }
    out->width = right - left;
    out->thickness = top ? layout->top - layout->high : layout->low - layout->bottom;
    double moment = 0.0;
    for (int i = 0; i < layout->count; i++) {
        const ss_plate *const plate = &layout->plates[i];
        if (lies_in(layout, i, top)) {
            measure_plate(layout, i, top, allowance, out);
        } else if (leg_of(layout, i, top)) {
            measure_leg(layout, plate, out);
        } else {
            continue;
        }
        out->plates++;
        moment += (plate->y1 - plate->y0) * (plate->z1 - plate->z0) * 0.5 * (plate->z0 + plate->z1);
    }
    out->Iy = second_moment(layout, top, -1, &out->area);
    out->z = out->area > 0.0 ? moment / out->area : 0.0;
    out->spans = true;
    for (int bay = 1; bay < layout->line_count; bay++) {
        out->spans = out->spans && bridged(layout, bay, top);
    }
}

double ss_form_flange_radius(const ss_form_layout *layout, bool top, double web_total,
                             const ss_form_flange *flange) {
    if (flange->plates == 0) {
        return 0.0;
    }
    if (flange->spans) {
        return sqrt(flange->Iy / (flange->area + web_total * flange->Dc / 3.0));
    }
    double least = SS_INFINITY;
    for (int k = 0; k < layout->line_count; k++) {
        double area = 0.0;
        const double second = second_moment(layout, top, k, &area);
        const double web = (layout->lines[k].y1 - layout->lines[k].y0) * flange->Dc / 3.0;
        least = ss_min(least, area > 0.0 ? sqrt(second / (area + web)) : 0.0);
    }
    return least;
}
