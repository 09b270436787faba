/* form_samples.h - sections of every form, drawn in inches. */
#ifndef FORM_SAMPLES_H
#define FORM_SAMPLES_H

#include "sillspan/section_form.h"
#include "support/suite.h"
#include "unit/model/section_samples.h"

static inline ss_section_form sample_form(const ss_section *section, double depth) {
    ss_section_form form;
    memset(&form, 0, sizeof form);
    ss_error error = {SS_OK, ""};
    CHECK_OK(ss_section_form_at(section, depth, &form, &error), &error);
    return form;
}

/** A channel with its web on the left; flanges abut it. Inches. */
static inline void sample_channel(ss_section *s, double depth, double web, double bottom, double t_bottom,
                                  double top, double t_top) {
    sample_start(s, SS_TORSION_OPEN);
    sample_plate(s, web, depth, 0.5 * web, 0.0);
    sample_plate(s, bottom - web, t_bottom, 0.5 * (web + bottom), 0.0);
    sample_plate(s, top - web, t_top, 0.5 * (web + top), depth - t_top);
    sample_end(s);
}

/** An I of three plates. Inches. */
static inline void sample_uneven_i(ss_section *s, const double bottom[2], const double web[2],
                                   const double top[2]) {
    sample_start(s, SS_TORSION_OPEN);
    sample_plate(s, bottom[0], bottom[1], 0.0, 0.0);
    sample_plate(s, web[0], web[1], 0.0, bottom[1]);
    sample_plate(s, top[0], top[1], 0.0, bottom[1] + web[1]);
    sample_end(s);
}

typedef struct sketch {
    const char *name;
    ss_torsion torsion;
    ss_form form;
    int count;
    double plate[12][4]; /* width, height, y, z in inches */
} sketch;

static const sketch sketches[] = {
    {"three plates", SS_TORSION_OPEN, SS_FORM_I, 3, {{8, .5, 0, 0}, {.3, 11, 0, .5}, {7, .6, 0, 11.5}}},
    {"flanges turned one way",
     SS_TORSION_OPEN,
     SS_FORM_CHANNEL,
     3,
     {{.3, 8, .15, 0}, {2, .4, 1.3, 0}, {2.2, .4, 1.4, 7.6}}},
    {"flanges over the web's ends",
     SS_TORSION_OPEN,
     SS_FORM_CHANNEL,
     3,
     {{.3, 8, .15, .4}, {2, .4, 1, 0}, {2, .4, 1, 8.4}}},
    {"flanges turned both ways, a Z",
     SS_TORSION_OPEN,
     SS_FORM_OTHER,
     3,
     {{.3, 4, .15, 0}, {2, .4, 1.3, 0}, {2, .4, -1, 3.6}}},
    {"a flange far to one side",
     SS_TORSION_OPEN,
     SS_FORM_OTHER,
     3,
     {{8, .5, 2, 0}, {.3, 11, 0, .5}, {8, .5, 0, 11.5}}},
    {"stem below", SS_TORSION_OPEN, SS_FORM_TEE, 2, {{6, .5, 0, 5.5}, {.4, 5.5, 0, 0}}},
    {"stem above", SS_TORSION_OPEN, SS_FORM_TEE, 2, {{6, .5, 0, 0}, {.4, 5.5, 0, .5}}},
    {"two legs", SS_TORSION_OPEN, SS_FORM_ANGLE, 2, {{.375, 4, .1875, 0}, {2.625, .375, 1.6875, 0}}},
    {"one plate upright", SS_TORSION_OPEN, SS_FORM_RECTANGLE, 1, {{.5, 6, 0, 0}}},
    {"one plate flat", SS_TORSION_OPEN, SS_FORM_RECTANGLE, 1, {{6, .5, 0, 0}}},
    {"four plates, closed",
     SS_TORSION_CLOSED,
     SS_FORM_BOX,
     4,
     {{18, .75, 0, 0}, {20, .5, 0, 25.5}, {.3125, 24.75, -6.6, .75}, {.3125, 24.75, 6.6, .75}}},
    {"four plates, called open",
     SS_TORSION_OPEN,
     SS_FORM_WEBS,
     4,
     {{18, .75, 0, 0}, {20, .5, 0, 25.5}, {.3125, 24.75, -6.6, .75}, {.3125, 24.75, 6.6, .75}}},
    {"battens below",
     SS_TORSION_BATTENED,
     SS_FORM_BATTENED,
     5,
     {{4, .75, -8, 0},
      {4, .75, 8, 0},
      {20, .5, 0, 25.5},
      {.3125, 24.75, -6.6, .75},
      {.3125, 24.75, 6.6, .75}}},
    {"a trough", SS_TORSION_OPEN, SS_FORM_WEBS, 3, {{14, .5, 0, 0}, {.375, 12, -6, .5}, {.375, 12, 6, .5}}},
    {"two beams side by side",
     SS_TORSION_OPEN,
     SS_FORM_WEBS,
     6,
     {{6, .5, -8, 0}, {.3, 9, -8, .5}, {6, .5, -8, 9.5}, {6, .5, 8, 0}, {.3, 9, 8, .5}, {6, .5, 8, 9.5}}},
    {"riveted: web, four angles, a cover plate",
     SS_TORSION_OPEN,
     SS_FORM_I,
     10,
     {{.375, 20, 0, 0},
      {3.5, .5, 1.9375, 0},
      {3.5, .5, -1.9375, 0},
      {.5, 3, .4375, .5},
      {.5, 3, -.4375, .5},
      {3.5, .5, 1.9375, 19.5},
      {3.5, .5, -1.9375, 19.5},
      {.5, 3, .4375, 16.5},
      {.5, 3, -.4375, 16.5},
      {10, .375, 0, 20}}},
    {"a shelf at mid-height",
     SS_TORSION_OPEN,
     SS_FORM_OTHER,
     4,
     {{8, .5, 0, 0}, {.3, 11, 0, .5}, {8, .5, 0, 11.5}, {2, .3, 1.15, 5}}},
    {"a web that ends short",
     SS_TORSION_OPEN,
     SS_FORM_OTHER,
     4,
     {{18, .75, 0, 0}, {20, .5, 0, 25.5}, {.3125, 24.75, -6.6, .75}, {.3125, 18.75, 6.6, 6.75}}},
    {"a web in two layers",
     SS_TORSION_OPEN,
     SS_FORM_I,
     4,
     {{8, .5, 0, 0}, {.3, 11, -.15, .5}, {.25, 11, .125, .5}, {8, .5, 0, 11.5}}},
    {"two plates without a web", SS_TORSION_OPEN, SS_FORM_OTHER, 2, {{6, .5, 0, 0}, {6, .5, 0, 7}}},
};

static inline void sample_sketch(ss_section *s, const sketch *k) {
    sample_start(s, k->torsion);
    for (int i = 0; i < k->count; i++) {
        sample_plate(s, k->plate[i][0], k->plate[i][1], k->plate[i][2], k->plate[i][3]);
    }
    s->batten_top = false;
    s->batten_width = 8.0 * INCH;
    s->batten_thickness = 0.5 * INCH;
    s->batten_spacing = 30.0 * INCH;
    sample_end(s);
}

#endif
