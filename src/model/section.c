/* section.c - properties of a section at one depth of a taper, with what the description overrides. */
#include "sillspan/section.h"

#include <math.h>
#include <string.h>

#include "model/section_plates.h"

/* The cell's Bredt sum; a battened side counts as the equivalent plate of its battens. */
static bool cell_walls(const ss_section *section, ss_cell *cell, double *area, double *sum) {
    if (section->torsion == SS_TORSION_BATTENED) {
        const double t = ss_torsion_batten_thickness(section->batten_width, section->batten_thickness,
                                                     section->batten_spacing, cell->clear, section->E_over_G);
        if (section->batten_top) {
            cell->top = t;
        } else {
            cell->bottom = t;
        }
    }
    if (cell->top <= 0.0 || cell->bottom <= 0.0) {
        return false;
    }
    *area = cell->width * cell->height;
    *sum = cell->width / cell->top + cell->width / cell->bottom + cell->height / cell->left +
           cell->height / cell->right;
    return true;
}

bool ss_section_cell(const ss_section *section, const ss_plate *plates, double *area, double *sum) {
    ss_cell cell = {0};
    return ss_plates_cell(plates, section->plate_count, &cell) && cell_walls(section, &cell, area, sum);
}

/*
 * What the plates alone say. The closed cell is Bredt's term on the middle lines of the walls; what the
 * overhanging flange parts and the walls' own b t^3 / 3 would add (well below 1 percent of it) is left out.
 */
static bool computed(const ss_section *section, double depth, ss_section_properties *out) {
    ss_plate plates[SS_PLATES_MAX];
    if (!ss_plates_stretch(section->plates, section->plate_count, depth, plates)) {
        return false;
    }
    ss_plates_sums(plates, section->plate_count, out);
    if (section->torsion == SS_TORSION_OPEN) {
        out->J = ss_plates_open_torsion(plates, section->plate_count);
        return true;
    }
    double area = 0.0;
    double sum = 0.0;
    if (!ss_section_cell(section, plates, &area, &sum)) {
        return false;
    }
    out->J = ss_torsion_closed(area, sum);
    if (out->web_thin > 0.0) {
        out->torsion_shear = out->shear_area / (2.0 * area * out->web_thin);
    }
    return true;
}

/*
 * An overriding value holds at the described depth; along a taper it follows the computed one in proportion,
 * so that one value for a deep section does not stay when the section becomes shallow.
 */
static void override(double set, double *value, double described) {
    if (isnan(set)) {
        return;
    }
    *value = described > 0.0 && isfinite(described) ? set * (*value / described) : set;
}

static void apply_overrides(const ss_section *section, double density, const ss_section_properties *described,
                            ss_section_properties *out) {
    const double area = out->A;
    override(section->set_A, &out->A, described->A);
    if (!isnan(section->set_I)) {
        const double ratio = section->set_I / described->I;
        out->I *= ratio;
        out->S_top *= ratio;
        out->S_bottom *= ratio;
    }
    /* Described S values with the described I, so that an overriding S is met exactly at the described depth.
     */
    const double described_ratio = isnan(section->set_I) ? 1.0 : section->set_I / described->I;
    override(section->set_S_top, &out->S_top, described->S_top * described_ratio);
    override(section->set_S_bottom, &out->S_bottom, described->S_bottom * described_ratio);
    override(section->set_J, &out->J, described->J);
    override(section->set_Z, &out->Z, described->Z);
    const double shear_area = out->shear_area;
    override(section->set_shear_area, &out->shear_area, described->shear_area);
    if (section->torsion == SS_TORSION_OPEN) {
        out->torsion_shear = out->J > 0.0 ? out->shear_area * out->web_thin / out->J : 0.0;
    } else if (shear_area > 0.0) {
        out->torsion_shear *= out->shear_area / shear_area;
    }
    out->weight = isnan(section->set_weight) ? out->A * density : section->set_weight * (area / described->A);
}

/* What was found of the section as a whole. Its weight stays. */
static void apply_loss(const ss_section *section, ss_section_properties *out) {
    const double left = 1.0 - section->loss;
    out->A *= left;
    out->I *= left * (1.0 - section->stiffness_loss);
    out->J *= left * (1.0 - section->stiffness_loss);
    out->shear_area *= left;
    out->S_top *= left;
    out->S_bottom *= left;
    out->Z *= left;
    out->web_thin *= left;
    out->strength_loss = section->strength_loss;
}

static double or_zero(double value) {
    return isnan(value) ? 0.0 : value;
}

static void given(const ss_section *section, double density, ss_section_properties *out) {
    out->depth = or_zero(section->depth);
    out->A = or_zero(section->set_A);
    out->I = or_zero(section->set_I);
    out->J = or_zero(section->set_J);
    out->shear_area = or_zero(section->set_shear_area);
    out->S_top = or_zero(section->set_S_top);
    out->S_bottom = or_zero(section->set_S_bottom);
    out->Z = or_zero(section->set_Z);
    out->z_centroid = out->S_bottom > 0.0 ? out->I / out->S_bottom : 0.0;
    out->weight = isnan(section->set_weight) ? out->A * density : section->set_weight;
}

ss_status ss_section_at(const ss_section *section, double depth, double density, ss_section_properties *out,
                        ss_error *error) {
    ss_section_properties here;
    ss_section_properties described;
    memset(&here, 0, sizeof here);
    memset(&described, 0, sizeof described);
    if (section->shape == SS_SHAPE_GIVEN) {
        given(section, density, &here);
        apply_loss(section, &here);
        *out = here;
        return SS_OK;
    }
    if (!(depth > 0.0) || section->plate_count < 1 ||
        !computed(section, depth - section->depth_lost, &here) ||
        !computed(section, section->depth - section->depth_lost, &described)) {
        return ss_error_set(error, SS_ERROR_DESCRIPTION,
                            "the plates of section \"%s\" do not fit within the depth",
                            section->name == NULL ? "" : section->name);
    }
    apply_overrides(section, density, &described, &here);
    here.weight += section->loose_area * density;
    apply_loss(section, &here);
    *out = here;
    return SS_OK;
}
