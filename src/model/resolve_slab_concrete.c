/* resolve_slab_concrete.c - concrete and bars of a slab. */
#include <math.h>
#include <stdio.h>

#include "base/numeric.h"
#include "model/resolve_slab.h"

#define KSI 6894757.2931683608
#define LB_PER_FT3 157.08746384624618
#define PCF_OF_BARS 5.0

/* ---- concrete ------------------------------------------------------------------------------------- */

/* AASHTO LRFD 5.4.2.4, K1 = 1, from memory: 33000 wc^1.5 sqrt(f'c), wc in kcf of the concrete without bars.
 */
static double modulus(double fc, double density) {
    const double wc = (density / LB_PER_FT3 - PCF_OF_BARS) / 1000.0;
    return wc > 0.0 ? 33000.0 * KSI * wc * sqrt(wc) * sqrt(fc / KSI) : SS_NAN;
}

static void read_modulus(ss_resolve *c, const ss_node *group, ss_slab *slab) {
    char value[SS_WORDS];
    if (ss_read_given(group, "E")) {
        (void)ss_resolve_due(c, group, "slab.concrete.E", &slab->E);
        return;
    }
    slab->E = modulus(slab->fc, slab->density);
    if (isnan(slab->E)) {
        ss_read_complain(&c->reading, SS_FAULT, group, "E",
                         "not given, and a density this low gives none; E is due");
        return;
    }
    ss_resolve_assume(
        c, group, "E", ss_resolve_quantity(c, slab->E, SS_DIM_STRESS, value),
        "33000 wc^1.5 sqrt(f'c) in ksi, AASHTO LRFD; wc in kip/ft3 is the density less 5 lb/ft3 "
        "of bars.");
}

static void read_creep(ss_resolve *c, const ss_node *group, ss_slab *slab) {
    double creep = 0.0;
    if (!ss_read_given(group, "creep")) {
        (void)ss_resolve_due(c, group, "slab.concrete.long_term", &slab->long_factor);
        return;
    }
    ss_resolve_forbid(c, group, "long_term", "creep is given as well; give one of them");
    (void)ss_resolve_due(c, group, "slab.concrete.creep", &creep);
    slab->long_factor = 1.0 + creep;
}

void ss_resolve_slab_concrete(ss_resolve *c, const ss_node *item) {
    ss_slab *const slab = &c->bridge->slab;
    const ss_node *const group = ss_node_child(item, "concrete");
    if (group == NULL) {
        c->broken = true;
        return;
    }
    const bool strength = ss_resolve_due(c, group, "slab.concrete.strength", &slab->fc);
    const bool density = ss_resolve_due(c, group, "slab.concrete.density", &slab->density);
    if (strength && density) {
        read_modulus(c, group, slab);
    }
    read_creep(c, group, slab);
    slab->n = ss_resolve_optional(c, group, "slab.concrete.n");
    if (isnan(slab->n) && !ss_read_given(group, "n")) {
        ss_resolve_assume(c, group, "n", "E of the steel / E of the concrete",
                          "Modular ratio under trucks, of each line by its own steel.");
    }
}

/* ---- bars ----------------------------------------------------------------------------------------- */

/* Table paths of a layer. */
typedef struct layer_keys {
    const char *group, *diameter, *spacing;
} layer_keys;

#define LAYER(name)                                                                                          \
    { name, "slab.bars." name ".diameter", "slab.bars." name ".spacing" }

static bool read_layer(ss_resolve *c, const ss_node *bars, const layer_keys *keys, ss_bars *out) {
    const ss_node *const group = ss_node_child(bars, keys->group);
    if (group == NULL) {
        return true;
    }
    const bool diameter = ss_resolve_due(c, group, keys->diameter, &out->diameter);
    if (!ss_resolve_due(c, group, keys->spacing, &out->spacing) || !diameter) {
        return false;
    }
    if (out->spacing > out->diameter) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, group, "spacing", "the bars lie closer than they are thick");
    return false;
}

/* Whether all layers have room; `high` and `low` are what covers and bars take from top and bottom. */
static void check_room(ss_resolve *c, const ss_node *bars, double high, double low) {
    char need[SS_WORDS];
    char have[SS_WORDS];
    const double thickness = c->bridge->slab.thickness;
    if (!(thickness > 0.0) || high + low <= thickness + SS_SAME_PLACE) {
        return;
    }
    ss_read_complain(&c->reading, SS_FAULT, bars, NULL, "covers and bars take %s, and the slab is %s thick",
                     ss_resolve_quantity(c, high + low, SS_DIM_SMALL_LENGTH, need),
                     ss_resolve_quantity(c, thickness, SS_DIM_SMALL_LENGTH, have));
}

void ss_resolve_slab_bars(ss_resolve *c, const ss_node *item) {
    static const layer_keys keys[] = {LAYER("top_across"), LAYER("bottom_across"), LAYER("top_along"),
                                      LAYER("bottom_along")};
    ss_slab *const slab = &c->bridge->slab;
    ss_bars *const layers[] = {&slab->top_across, &slab->bottom_across, &slab->top_along,
                               &slab->bottom_along};
    const ss_node *const bars = ss_node_child(item, "bars");
    if (bars == NULL) {
        slab->bar_fy = 60.0 * KSI;
        ss_resolve_assume(c, item, "bars", "none", "No reinforcement is described, and none counts.");
        return;
    }
    double top = 0.0;
    double bottom = 0.0;
    bool good = ss_resolve_due(c, bars, "slab.bars.fy", &slab->bar_fy);
    good = ss_resolve_due(c, bars, "slab.bars.cover_top", &top) && good;
    good = ss_resolve_due(c, bars, "slab.bars.cover_bottom", &bottom) && good;
    for (int i = 0; i < 4; i++) {
        good = read_layer(c, bars, &keys[i], layers[i]) && good;
    }
    if (!good) {
        return;
    }
    const double t = slab->thickness;
    slab->top_across.depth = top + 0.5 * slab->top_across.diameter;
    slab->top_along.depth = top + slab->top_across.diameter + 0.5 * slab->top_along.diameter;
    slab->bottom_across.depth = t - bottom - 0.5 * slab->bottom_across.diameter;
    slab->bottom_along.depth = t - bottom - slab->bottom_across.diameter - 0.5 * slab->bottom_along.diameter;
    check_room(c, bars, top + slab->top_across.diameter + slab->top_along.diameter,
               bottom + slab->bottom_across.diameter + slab->bottom_along.diameter);
}
