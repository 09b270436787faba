/* section_samples.h - sections that several tests build from plates, in inches. */
#ifndef SECTION_SAMPLES_H
#define SECTION_SAMPLES_H

#include <math.h>
#include <string.h>

#include "model/section_plates.h"
#include "support/exact_units.h"

static inline void sample_start(ss_section *section, ss_torsion torsion) {
    memset(section, 0, sizeof *section);
    section->name = "sample";
    section->shape = SS_SHAPE_PLATES;
    section->torsion = torsion;
    section->E_over_G = 2.6;
    section->set_A = section->set_I = section->set_J = section->set_shear_area = (double)NAN;
    section->set_S_top = section->set_S_bottom = section->set_Z = section->set_weight = (double)NAN;
}

/** One rectangle, inches: width and height, middle y, lower edge z. */
static inline void sample_plate(ss_section *section, double width, double height, double y, double z) {
    ss_plate *const plate = &section->plates[section->plate_count++];
    plate->name = "plate";
    plate->y0 = (y - 0.5 * width) * INCH;
    plate->y1 = (y + 0.5 * width) * INCH;
    plate->z0 = z * INCH;
    plate->z1 = (z + height) * INCH;
}

static inline void sample_end(ss_section *section) {
    section->depth = 0.0;
    for (int i = 0; i < section->plate_count; i++) {
        if (section->plates[i].z1 > section->depth) {
            section->depth = section->plates[i].z1;
        }
    }
    ss_plates_mark_webs(section->plates, section->plate_count);
}

/** Two equal flanges and a web between them. */
static inline void sample_i_beam(ss_section *section, double depth, double flange, double t_flange,
                                 double t_web) {
    sample_start(section, SS_TORSION_OPEN);
    sample_plate(section, flange, t_flange, 0.0, 0.0);
    sample_plate(section, t_web, depth - 2.0 * t_flange, 0.0, t_flange);
    sample_plate(section, flange, t_flange, 0.0, depth - t_flange);
    sample_end(section);
}

/** Box of four plates; `apart` between the webs' middle planes. */
typedef struct sample_box {
    double depth, top, t_top, bottom, t_bottom, apart, t_web;
} sample_box;

static inline void sample_box_section(ss_section *section, sample_box box, ss_torsion torsion) {
    const double height = box.depth - box.t_top - box.t_bottom;
    sample_start(section, torsion);
    sample_plate(section, box.bottom, box.t_bottom, 0.0, 0.0);
    sample_plate(section, box.top, box.t_top, 0.0, box.depth - box.t_top);
    sample_plate(section, box.t_web, height, -0.5 * box.apart, box.t_bottom);
    sample_plate(section, box.t_web, height, 0.5 * box.apart, box.t_bottom);
    sample_end(section);
}

#endif
