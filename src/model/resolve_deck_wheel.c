/* resolve_deck_wheel.c - what a deck can carry between its supports, where it is given. */
#include "model/resolve.h"

#define OF_TIMBER "plank_width|bending_stress|shear_stress|load_duration|wet_bending|wet_shear"
#define OF_PLATE "steel"
#define OF_GRATING "wheel_capacity|moment_capacity"

/* A value that may be absent; 0 then. */
static void read_some(ss_resolve *c, const ss_node *item, const char *key, const char *path, double *out) {
    *out = 0.0;
    if (ss_read_given(item, key)) {
        (void)ss_resolve_due(c, item, path, out);
    }
}

/* Whether any of these is given. */
static bool any_given(const ss_node *item, const char *const *keys, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (ss_read_given(item, keys[i])) {
            return true;
        }
    }
    return false;
}

static void read_timber(ss_resolve *c, const ss_node *item, ss_deck_wheel *wheel) {
    static const char *const keys[] = {"plank_width",   "bending_stress", "shear_stress",
                                       "load_duration", "wet_bending",    "wet_shear"};
    if (!any_given(item, keys, sizeof keys / sizeof keys[0])) {
        return;
    }
    static const char stresses[] = "timber under a wheel needs its allowable stresses in bending and shear";
    bool good = ss_resolve_need(c, item, "decks[].bending_stress", stresses, &wheel->bending_stress);
    good = ss_resolve_need(c, item, "decks[].shear_stress", stresses, &wheel->shear_stress) && good;
    good = ss_resolve_need(c, item, "decks[].thickness", "planks under a wheel need their thickness",
                           &wheel->thickness) &&
           good;
    if (wheel->spread > 0.0) {
        read_some(c, item, "plank_width", "decks[].plank_width", &wheel->plank_width);
    } else {
        good = ss_resolve_need(c, item, "decks[].plank_width",
                               "planks under a wheel need their width, or the spread that carries a wheel",
                               &wheel->plank_width) &&
               good;
    }
    good = ss_resolve_due(c, item, "decks[].load_duration", &wheel->load_duration) && good;
    good = ss_resolve_due(c, item, "decks[].wet_bending", &wheel->wet_bending) && good;
    good = ss_resolve_due(c, item, "decks[].wet_shear", &wheel->wet_shear) && good;
    wheel->given = good;
}

static void read_plate(ss_resolve *c, const ss_node *item, ss_deck_wheel *wheel) {
    if (!ss_read_given(item, "steel")) {
        return;
    }
    wheel->steel = ss_resolve_reference(c, item, "decks[].steel", "steels", "steel");
    const bool thick = ss_resolve_need(c, item, "decks[].thickness",
                                       "a steel plate under a wheel needs its thickness", &wheel->thickness);
    wheel->given = thick && wheel->steel >= 0;
}

static void read_grating(ss_resolve *c, const ss_node *item, ss_deck_wheel *wheel) {
    read_some(c, item, "wheel_capacity", "decks[].wheel_capacity", &wheel->wheel_capacity);
    read_some(c, item, "moment_capacity", "decks[].moment_capacity", &wheel->moment_capacity);
    wheel->given = wheel->wheel_capacity > 0.0 || wheel->moment_capacity > 0.0;
}

void ss_resolve_deck_wheel(ss_resolve *c, const ss_node *item, ss_deck *deck) {
    static const char *const foreign[] = {OF_PLATE "|" OF_GRATING, OF_TIMBER "|" OF_GRATING,
                                          OF_TIMBER "|" OF_PLATE,
                                          OF_TIMBER "|" OF_PLATE "|" OF_GRATING "|spread|continuous"};
    static const char *const why[] = {"a timber deck has planks and allowable stresses",
                                      "a steel plate has a steel and a thickness",
                                      "a grating has the wheel or moment that its maker allows",
                                      "a concrete deck is not checked under a wheel"};
    ss_deck_wheel wheel = {.steel = -1, .load_duration = 1.0, .wet_bending = 1.0, .wet_shear = 1.0};
    ss_resolve_forbid(c, item, foreign[deck->made_of], why[deck->made_of]);
    read_some(c, item, "spread", "decks[].spread", &wheel.spread);
    switch (deck->made_of) {
    case SS_DECK_TIMBER: read_timber(c, item, &wheel); break;
    case SS_DECK_STEEL_PLATE: read_plate(c, item, &wheel); break;
    case SS_DECK_GRATING: read_grating(c, item, &wheel); break;
    case SS_DECK_CONCRETE: break;
    }
    if (wheel.given) {
        (void)ss_read_flag(&c->reading, item, "decks[].continuous", &wheel.continuous);
    }
    deck->wheel = wheel;
}
