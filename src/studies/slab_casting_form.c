/* slab_casting_form.c - a steel plate that stays under a slab as formwork, under wet concrete and people. */
#include <math.h>

#include "base/numeric.h"
#include "sillspan/deck_strength.h"
#include "studies/slab_casting_parts.h"

/* Sag of a form over its span, and at most (AASHTO LRFD 9.7.4.1, from memory). */
#define SAG_SHARE 180.0
#define SAG_MOST (0.5 * 0.0254)

#define NEAR 1e-6

/* ---- span -------------------------------------------------------------------------------------------- */

/* The widest distance from a line to the next of its car that is there at x. */
static double line_gap(const ss_bridge *bridge, int line, double x) {
    const ss_line *const own = &bridge->lines[line];
    const ss_car *const car = &bridge->cars[own->car];
    double gap = SS_INFINITY;
    for (int i = car->first_line; i < car->first_line + car->line_count; i++) {
        const ss_line *const other = &bridge->lines[i];
        if (other->y > own->y + NEAR && other->x0 <= x + NEAR && other->x1 > x + NEAR) {
            gap = ss_min(gap, other->y - own->y);
        }
    }
    return isfinite(gap) ? gap : 0.0;
}

/* Lines beside each other change only where one begins or ends. */
static double widest_across(const ss_bridge *bridge) {
    double widest = 0.0;
    for (int i = 0; i < bridge->line_count; i++) {
        const ss_line *const own = &bridge->lines[i];
        const ss_car *const car = &bridge->cars[own->car];
        for (int k = car->first_line; k < car->first_line + car->line_count; k++) {
            const double ends[2] = {bridge->lines[k].x0, bridge->lines[k].x1};
            for (int end = 0; end < 2; end++) {
                if (ends[end] >= own->x0 - NEAR && ends[end] < own->x1 - NEAR) {
                    widest = ss_max(widest, line_gap(bridge, i, ends[end]));
                }
            }
        }
    }
    return widest;
}

static double widest_along(const ss_bridge *bridge) {
    double widest = 0.0;
    for (int i = 0; i < bridge->car_count; i++) {
        const ss_car *const car = &bridge->cars[i];
        double last = SS_NAN;
        for (int k = car->first_beam; k < car->first_beam + car->beam_count; k++) {
            if (bridge->floor_beams[k].strip > 0.0) {
                continue;
            }
            widest = fmax(widest, bridge->floor_beams[k].x - last); /* fmax leaves out the first */
            last = bridge->floor_beams[k].x;
        }
    }
    return widest;
}

/* ---- strength ---------------------------------------------------------------------------------------- */

static const char *why_not(const ss_bridge *bridge, double span) {
    const ss_slab_form *const form = &bridge->slab.form;
    return !(form->thickness > 0.0)
               ? "the thickness of the plate is not given with its steel, decks[].thickness"
           : form->steel < 0 ? "the steel of the plate is not given, decks[].steel"
           : !(span > 0.0)   ? "there are no supports side by side"
                             : NULL;
}

/* A strip of 1 m under uniform load: wL2/8 in a simple span and over the middle of two. */
static void work_out(const ss_bridge *bridge, ss_casting_form *out) {
    const ss_slab *const slab = &bridge->slab;
    const ss_steel *const steel = &bridge->steels[slab->form.steel];
    const ss_deck_plate plate = {.thickness = slab->form.thickness, .fy = steel->fy, .strip = 1.0};
    const ss_deck_span span = {.span = out->span, .patch_span = out->span, .patch_side = 1.0};
    const ss_deck_check strength = ss_deck_plate_check(&span, &plate, NULL);
    const double wet = slab->thickness * slab->density + slab->form.weight;
    const double factored = SS_CASTING_DC * wet + SS_CASTING_CONSTRUCTION * slab->construction;
    const double I = plate.thickness * plate.thickness * plate.thickness / 12.0;
    const double L2 = out->span * out->span;
    out->moment = factored * L2 / 8.0;
    out->capacity = strength.moment_capacity;
    out->why = strength.why;
    out->sag_allowed = ss_min(out->span / SAG_SHARE, SAG_MOST);
    out->sag = 5.0 * wet * L2 * L2 / (384.0 * steel->E * I);
}

static bool add_checks(ss_casting *c, const ss_casting_form *form) {
    const char *const where = ss_arena_printf(c->arena, "plate \"%s\" between %s", c->bridge->slab.form.name,
                                              c->bridge->slab.form.along ? "floor beams" : "lines");
    const ss_requirement bending = {.name = "bending of the plate under wet concrete, a metre of width",
                                    .found = form->moment,
                                    .allowed = form->capacity,
                                    .dimension = SS_DIM_MOMENT,
                                    .source = "AASHTO LRFD 3.4.2.1, first yield (from memory)",
                                    .why = form->why};
    const ss_requirement sag = {.name = "sag of the plate under wet concrete",
                                .found = form->sag,
                                .allowed = form->sag_allowed,
                                .dimension = SS_DIM_SMALL_LENGTH,
                                .source = "AASHTO LRFD 9.7.4.1 (from memory)",
                                .why = form->why};
    return where != NULL && ss_slab_check_add(c->checks, SS_SLAB_PART_CASTING, where, &bending) &&
           ss_slab_check_add(c->checks, SS_SLAB_PART_DEFLECTION, where, &sag);
}

ss_status ss_casting_formwork(ss_casting *c) {
    const ss_slab_form *const form = &c->bridge->slab.form;
    ss_casting_form *const out = &c->out->form;
    if (form->name == NULL) {
        return SS_OK;
    }
    c->out->has_form = true;
    *out = (ss_casting_form){.moment = SS_NAN, .capacity = SS_NAN, .sag = SS_NAN, .sag_allowed = SS_NAN};
    out->span = form->along ? widest_along(c->bridge) : widest_across(c->bridge);
    out->why = why_not(c->bridge, out->span);
    if (out->why == NULL) {
        work_out(c->bridge, out);
    }
    out->span = out->span > 0.0 ? out->span : SS_NAN;
    return add_checks(c, out) ? SS_OK : ss_casting_no_memory(c->error);
}
