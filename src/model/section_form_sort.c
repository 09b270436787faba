/* section_form_sort.c - which plates of a section are webs, which make a flange, and which are neither. */
#include "model/section_form_parts.h"

#include "base/numeric.h"
#include "model/section_plates.h"

static bool lies_flat(const ss_plate *plate) {
    return plate->y1 - plate->y0 >= plate->z1 - plate->z0;
}

/* The plates that lie flat on each other, from the extreme fibre inward, are the flange. */
static double inner_face(const ss_form_layout *layout, bool upper) {
    double face = upper ? layout->top : layout->bottom;
    bool moved = true;
    while (moved) {
        moved = false;
        for (int i = 0; i < layout->count; i++) {
            const ss_plate *const plate = &layout->plates[i];
            if (plate->web || !lies_flat(plate)) {
                continue;
            }
            if (upper && plate->z1 >= face - SS_FORM_TOUCH && plate->z0 < face) {
                face = plate->z0;
                moved = true;
            }
            if (!upper && plate->z0 <= face + SS_FORM_TOUCH && plate->z1 > face) {
                face = plate->z1;
                moved = true;
            }
        }
    }
    return face;
}

static ss_form_part part_of(const ss_form_layout *layout, const ss_plate *plate) {
    if (plate->web) {
        return SS_PART_WEB;
    }
    const bool has_top = layout->high < layout->top;
    const bool has_bottom = layout->low > layout->bottom;
    if (lies_flat(plate)) {
        if (has_top && plate->z0 >= layout->high - SS_PLATE_TOUCH) {
            return SS_PART_TOP;
        }
        return has_bottom && plate->z1 <= layout->low + SS_PLATE_TOUCH ? SS_PART_BOTTOM : SS_PART_LOOSE;
    }
    const double middle = 0.5 * (layout->bottom + layout->top);
    if (has_top && plate->z0 >= middle && plate->z1 >= layout->high - SS_FORM_TOUCH) {
        return SS_PART_TOP_LEG;
    }
    if (has_bottom && plate->z1 <= middle && plate->z0 <= layout->low + SS_FORM_TOUCH) {
        return SS_PART_BOTTOM_LEG;
    }
    return SS_PART_LOOSE;
}

/* Webs in order of y; those that touch become one. */
static void find_lines(ss_form_layout *layout) {
    layout->line_count = 0;
    for (int i = 0; i < layout->count; i++) {
        if (!layout->plates[i].web) {
            continue;
        }
        int k = layout->line_count++;
        for (; k > 0 && layout->lines[k - 1].y0 > layout->plates[i].y0; k--) {
            layout->lines[k] = layout->lines[k - 1];
        }
        layout->lines[k] = (ss_form_line){layout->plates[i].y0, layout->plates[i].y1};
    }
    int kept = 0;
    for (int k = 0; k < layout->line_count; k++) {
        if (kept > 0 && layout->lines[k].y0 <= layout->lines[kept - 1].y1 + SS_FORM_TOUCH) {
            layout->lines[kept - 1].y1 = ss_max(layout->lines[kept - 1].y1, layout->lines[k].y1);
        } else {
            layout->lines[kept++] = layout->lines[k];
        }
    }
    layout->line_count = kept;
}

void ss_form_sort(ss_form_layout *layout) {
    layout->bottom = layout->plates[0].z0;
    layout->top = layout->plates[0].z1;
    for (int i = 1; i < layout->count; i++) {
        layout->bottom = ss_min(layout->bottom, layout->plates[i].z0);
        layout->top = ss_max(layout->top, layout->plates[i].z1);
    }
    layout->low = inner_face(layout, false);
    layout->high = inner_face(layout, true);
    for (int i = 0; i < layout->count; i++) {
        layout->part[i] = part_of(layout, &layout->plates[i]);
    }
    find_lines(layout);
}
