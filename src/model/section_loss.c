/* section_loss.c - a section as found: plates that got thinner or came off, a box that opened. */
#include "model/section_loss.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/section_plates.h"

double ss_plate_thickness(const ss_plate *plate) {
    return ss_min(plate->y1 - plate->y0, plate->z1 - plate->z0);
}

int ss_section_pick(const ss_section *section, const char *word, bool picked[SS_PLATES_MAX]) {
    int count = 0;
    for (int i = 0; i < section->plate_count; i++) {
        picked[i] = strcmp(section->plates[i].name, word) == 0;
        count += picked[i];
    }
    const bool webs = strcmp(word, "webs") == 0;
    if (count > 0 || (!webs && strcmp(word, "flanges") != 0)) {
        return count;
    }
    for (int i = 0; i < section->plate_count; i++) {
        picked[i] = section->plates[i].web == webs;
        count += picked[i];
    }
    return count;
}

/* ---- overriding values ------------------------------------------------------------------------------ */

static void clear_overrides(ss_section *section) {
    section->set_A = section->set_I = section->set_J = section->set_shear_area = SS_NAN;
    section->set_S_top = section->set_S_bottom = section->set_Z = section->set_weight = SS_NAN;
}

/* By the plates alone, at the described depth. */
static ss_status bare_properties(const ss_section *section, ss_section_properties *out) {
    ss_section bare = *section;
    clear_overrides(&bare);
    return ss_section_at(&bare, bare.depth, 1.0, out, NULL);
}

static void follow(double *set, double before, double after) {
    if (!isnan(*set) && before > 0.0) {
        *set *= after / before;
    }
}

/* Overriding values of `section`, made from `sound`, keep their proportion to what is computed. */
static ss_status follow_plates(ss_section *section, const ss_section *sound) {
    ss_section_properties before;
    ss_section_properties after;
    ss_status status = bare_properties(sound, &before);
    if (status == SS_OK) {
        status = bare_properties(section, &after);
    }
    if (status != SS_OK) {
        return status;
    }
    follow(&section->set_A, before.A, after.A);
    follow(&section->set_I, before.I, after.I);
    follow(&section->set_J, before.J, after.J);
    follow(&section->set_shear_area, before.shear_area, after.shear_area);
    follow(&section->set_S_top, before.S_top, after.S_top);
    follow(&section->set_S_bottom, before.S_bottom, after.S_bottom);
    follow(&section->set_Z, before.Z, after.Z);
    return SS_OK;
}

/* ---- plates ----------------------------------------------------------------------------------------- */

static double lowest_of(const ss_section *section) {
    double low = SS_INFINITY;
    for (int i = 0; i < section->plate_count; i++) low = ss_min(low, section->plates[i].z0);
    return low;
}

static double highest_of(const ss_section *section) {
    double high = 0.0;
    for (int i = 0; i < section->plate_count; i++) high = ss_max(high, section->plates[i].z1);
    return high;
}

/* Plates begin at z = 0 again, and what is missing of the depth is noted. */
static void settle(ss_section *section, double sound_height) {
    const double low = lowest_of(section);
    for (int i = 0; i < section->plate_count; i++) {
        section->plates[i].z0 -= low;
        section->plates[i].z1 -= low;
    }
    section->depth_lost += sound_height - highest_of(section);
}

static void thin_plate(ss_plate *plate, double left, double middle) {
    const double width = plate->y1 - plate->y0;
    const double height = plate->z1 - plate->z0;
    if (!plate->web && height <= width) {
        if (0.5 * (plate->z0 + plate->z1) < middle) {
            plate->z0 = plate->z1 - left * height;
        } else {
            plate->z1 = plate->z0 + left * height;
        }
        return;
    }
    const double at = 0.5 * (plate->y0 + plate->y1);
    plate->y0 = at - 0.5 * left * width;
    plate->y1 = at + 0.5 * left * width;
}

ss_status ss_section_thin(ss_section *section, const bool picked[SS_PLATES_MAX], double left) {
    const ss_section sound = *section;
    const double height = highest_of(section);
    if (!(left > 0.0)) {
        return ss_section_detach(section, picked);
    }
    for (int i = 0; i < section->plate_count; i++) {
        if (picked[i]) {
            thin_plate(&section->plates[i], left, 0.5 * height);
        }
    }
    settle(section, height);
    return follow_plates(section, &sound);
}

ss_status ss_section_detach(ss_section *section, const bool picked[SS_PLATES_MAX]) {
    const ss_section sound = *section;
    const double height = highest_of(section);
    int kept = 0;
    for (int i = 0; i < section->plate_count; i++) {
        const ss_plate *const plate = &section->plates[i];
        if (picked[i]) {
            section->loose_area += (plate->y1 - plate->y0) * (plate->z1 - plate->z0);
        } else {
            section->plates[kept++] = *plate;
        }
    }
    section->plate_count = kept;
    if (kept == 0) {
        return SS_ERROR_DESCRIPTION;
    }
    settle(section, height);
    if (section->torsion != SS_TORSION_OPEN) {
        ss_cell cell;
        double area;
        double sum;
        if (!ss_plates_cell(section->plates, kept, &cell) ||
            !ss_section_cell(section, section->plates, &area, &sum)) {
            section->torsion = SS_TORSION_OPEN;
            section->set_J = SS_NAN;
        }
    }
    return follow_plates(section, &sound);
}

ss_status ss_section_open(ss_section *section) {
    ss_section_properties unused;
    section->torsion = SS_TORSION_OPEN;
    section->set_J = SS_NAN;
    return ss_section_at(section, section->depth, 1.0, &unused, NULL);
}
