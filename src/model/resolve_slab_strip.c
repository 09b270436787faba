/* resolve_slab_strip.c - strips of a slab that carry across, laid among the floor beams of each car. */
#include <math.h>

#include "base/numeric.h"
#include "model/resolve_slab.h"

/* ---- what a strip is ------------------------------------------------------------------------------ */

/* As steel: b t^3 / 12 n, and b t^3 / 6 n against twist, half of what a bar has, since the slab twists about
 * both axes. Its weight is in the dead loads. */
static int add_section(ss_resolve *c, double width, int steel) {
    ss_bridge *const bridge = c->bridge;
    const ss_slab *const slab = &bridge->slab;
    ss_section *const grown = ss_resolve_grow(c, bridge->sections, bridge->section_count, sizeof *grown);
    if (grown == NULL) {
        return -1;
    }
    bridge->sections = grown;
    char words[SS_WORDS];
    const double t = slab->thickness;
    const double n = isnan(slab->n) ? bridge->steels[steel].E / slab->E : slab->n;
    ss_section *const section = &grown[bridge->section_count];
    *section = (ss_section){.shape = SS_SHAPE_GIVEN, .torsion = SS_TORSION_OPEN, .depth = t, .E_over_G = 2.6};
    section->name = ss_arena_printf(&bridge->arena, "slab strip of %s", ss_resolve_length(c, width, words));
    if (section->name == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
        return -1;
    }
    section->set_A = width * t / n;
    section->set_I = width * t * t * t / (12.0 * n);
    section->set_J = width * t * t * t / (6.0 * n);
    section->set_weight = 0.0;
    section->set_shear_area = section->set_S_top = section->set_S_bottom = section->set_Z = SS_NAN;
    return bridge->section_count++;
}

static bool joins_lines(const ss_bridge *bridge, const ss_car *car, double x) {
    int met = 0;
    for (int i = car->first_line; i < car->first_line + car->line_count; i++) {
        met += bridge->lines[i].x0 <= x + SS_SAME_PLACE && bridge->lines[i].x1 >= x - SS_SAME_PLACE;
    }
    return met >= 2;
}

static bool make_strip(ss_resolve *c, int car, int section, ss_floor_beam *out) {
    ss_bridge *const bridge = c->bridge;
    ss_beam_part *const grown = ss_resolve_grow(c, bridge->parts, bridge->part_count, sizeof *grown);
    if (grown == NULL) {
        return false;
    }
    bridge->parts = grown;
    out->car = car;
    out->set = "slab strip";
    out->steel = bridge->lines[bridge->cars[car].first_line].steel;
    out->first_part = bridge->part_count;
    out->part_count = 1;
    out->first_hinge = bridge->hinge_count;
    grown[bridge->part_count++] =
        (ss_beam_part){bridge->cars[car].y_left, bridge->cars[car].y_right, section};
    return true;
}

/* ---- where they are ------------------------------------------------------------------------------- */

/* Where the slab lies on a car; false: nowhere. */
static bool on_car(const ss_bridge *bridge, const ss_car *car, double x[2]) {
    x[0] = ss_max(bridge->slab.x0, car->x0);
    x[1] = ss_min(bridge->slab.x1, car->x1);
    return x[1] > x[0] + SS_SAME_PLACE && car->line_count >= 2;
}

double ss_resolve_slab_panel(const ss_bridge *bridge, int panel) {
    return bridge->slab.x0 + ss_slab_panel_width(&bridge->slab) * (panel + 0.5);
}

/* Strips of one car, in the middle of each panel of the slab. */
static int lay_strips(ss_resolve *c, int car, ss_floor_beam *out) {
    const ss_bridge *const bridge = c->bridge;
    const ss_car *const owner = &bridge->cars[car];
    double x[2];
    if (!on_car(bridge, owner, x)) {
        return 0;
    }
    const int panels = ss_slab_panels(&bridge->slab);
    const double width = ss_slab_panel_width(&bridge->slab);
    const int section = add_section(c, width, bridge->lines[owner->first_line].steel);
    int count = 0;
    for (int i = 0; section >= 0 && i < panels; i++) {
        const double at = ss_resolve_slab_panel(bridge, i);
        if (at < x[0] || at > x[1] || !joins_lines(bridge, owner, at)) {
            continue;
        }
        ss_floor_beam *const strip = &out[count];
        *strip = (ss_floor_beam){.x = at, .strip = width};
        strip->name = ss_resolve_numbered(c, "slab strip", ++count, 0);
        if (strip->name == NULL || !make_strip(c, car, section, strip)) {
            return 0;
        }
    }
    return count;
}

/* Old beams and strips of one car by their place; of both at one place the beam comes first. */
static int merge(const ss_floor_beam *old, int old_count, const ss_floor_beam *strips, int strip_count,
                 ss_floor_beam *out) {
    int i = 0;
    int k = 0;
    while (i < old_count || k < strip_count) {
        const bool beam = k == strip_count || (i < old_count && old[i].x <= strips[k].x + SS_SAME_PLACE);
        out[i + k] = beam ? old[i] : strips[k];
        i += beam;
        k += !beam;
    }
    return i + k;
}

void ss_resolve_slab_strips(ss_resolve *c) {
    ss_bridge *const bridge = c->bridge;
    size_t room = (size_t)bridge->floor_beam_count;
    if (!(bridge->slab.thickness > 0.0)) {
        return;
    }
    const int most = ss_slab_panels(&bridge->slab);
    room += (size_t)most * (size_t)bridge->car_count;
    ss_floor_beam *const all = ss_resolve_alloc(c, room, sizeof *all);
    ss_floor_beam *const strips = ss_resolve_scratch(c, (size_t)most, sizeof *strips);
    int total = 0;
    for (int i = 0; all != NULL && strips != NULL && i < bridge->car_count; i++) {
        ss_car *const car = &bridge->cars[i];
        const int count = lay_strips(c, i, strips);
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
        const ss_floor_beam *const old = car->beam_count > 0 ? &bridge->floor_beams[car->first_beam] : NULL;
        car->first_beam = total;
        car->beam_count = merge(old, car->beam_count, strips, count, &all[total]);
        total += car->beam_count;
    }
    if (!ss_resolve_out_of_memory(c)) {
        bridge->floor_beams = all;
        bridge->floor_beam_count = total;
    }
}
