/* resolve_method.c - which rating methods and levels a description asks for, and the settings that go with
 * them.
 */
#include <math.h>
#include <string.h>

#include "model/resolve.h"

enum { METHODS = SS_METHOD_ASR + 1, LEVELS = SS_LEVEL_PERMIT + 1 };

/* In the order of ss_method and ss_level. */
static const char *const method_names[METHODS] = {"LRFR", "LFR", "ASR"};
static const char *const level_names[LEVELS] = {"inventory", "operating", "legal", "emergency", "permit"};

#define BIT(i) (1U << (unsigned)(i))

/* The words of a list as bits, in any order; each unknown one is a fault. */
static unsigned read_words(ss_resolve *c, const ss_node *rating, const char *key, const char *noun,
                           const char *const *names, int count) {
    unsigned bits = 0;
    const ss_node *const list = ss_resolve_list(rating, key);
    for (const ss_node *word = list != NULL ? list->first : NULL; word != NULL; word = word->next) {
        int found = -1;
        for (int i = 0; i < count && word->kind == SS_NODE_TEXT; i++) {
            found = strcmp(names[i], word->text) == 0 ? i : found;
        }
        if (found >= 0) {
            bits |= BIT(found);
        } else if (word->kind == SS_NODE_TEXT) {
            ss_resolve_unknown(c, rating, key, noun, word->text, names, count);
        }
    }
    return bits;
}

/* A value taken because none is given; the group may not be there. */
static void assume(ss_resolve *c, const ss_node *rating, const char *key, const char *path, const char *value,
                   const char *why) {
    if (rating != NULL) {
        ss_resolve_assume(c, rating, key, value, why);
    } else if (!ss_resolve_out_of_memory(c)) {
        c->reading.status = ss_assumption_add(c->reading.assumptions, path, value, why);
    }
}

/* Every method must have a level among those asked for: the older ones have inventory and operating. */
static void judge_levels(ss_resolve *c, const ss_node *rating, const ss_rating_settings *settings) {
    const unsigned older = BIT(SS_LEVEL_INVENTORY) | BIT(SS_LEVEL_OPERATING);
    for (int i = SS_METHOD_LFR; i < METHODS; i++) {
        if (settings->levels != 0 && (settings->methods & BIT(i)) != 0 && (settings->levels & older) == 0) {
            ss_read_complain(&c->reading, SS_FAULT, rating, "levels",
                             "none of these is a level of %s, which has \"inventory\" and \"operating\"",
                             method_names[i]);
        }
    }
}

void ss_resolve_methods(ss_resolve *c, const ss_node *rating) {
    ss_rating_settings *const out = &c->bridge->rating;
    out->methods = read_words(c, rating, "methods", "method", method_names, METHODS);
    out->levels = read_words(c, rating, "levels", "level", level_names, LEVELS);
    if (!ss_read_given(rating, "methods")) {
        out->methods = BIT(SS_METHOD_LRFR);
        assume(c, rating, "methods", "rating.methods", "LRFR", "The rating method when none is named.");
    }
    if (!ss_read_given(rating, "levels")) {
        assume(c, rating, "levels", "rating.levels", "all",
               "All levels that the methods have and the trucks ask for.");
    }
    judge_levels(c, rating, out);
}

/* ---- settings that go with them --------------------------------------------------------------------- */

/* Says of each of the keys ("a|b") that is given that nothing comes of it. */
static void not_used(ss_resolve *c, const ss_node *rating, const char *keys, const char *why) {
    while (*keys != '\0') {
        char key[40] = "";
        const size_t length = strcspn(keys, "|");
        if (length < sizeof key) {
            memcpy(key, keys, length);
        }
        if (ss_read_given(rating, key)) {
            ss_read_complain(&c->reading, SS_WARNING, rating, key, "not used; %s", why);
        }
        keys += keys[length] == '|' ? length + 1 : length;
    }
}

/* What only LRFR has. */
static void read_lrfr(ss_resolve *c, const ss_node *rating, ss_rating_settings *out) {
    out->edition = ss_read_choice(&c->reading, rating, "rating.edition", NULL) == 1 ? SS_EDITION_MBE_2011
                                                                                    : SS_EDITION_MBE_2018;
    out->manual_sequence = ss_read_choice(&c->reading, rating, "rating.sequence", NULL) == 1;
    (void)ss_read_flag(&c->reading, rating, "rating.single_lane_presence", &out->single_lane_presence);
    if (!ss_resolve_rates(c, SS_VEHICLE_PERMIT)) {
        not_used(c, rating, "permits", "no permit vehicle is rated");
        return;
    }
    const int permits = ss_read_choice(&c->reading, rating, "rating.permits", NULL);
    out->permits = permits == 1   ? SS_PERMIT_SINGLE_TRIP
                   : permits == 2 ? SS_PERMIT_LIMITED_TRIPS
                                  : SS_PERMIT_ANNUAL;
}

void ss_resolve_method_settings(ss_resolve *c, const ss_node *rating) {
    ss_rating_settings *const out = &c->bridge->rating;
    out->service = true;
    (void)ss_read_flag(&c->reading, rating, "rating.service", &out->service);
    (void)ss_read_quantity(&c->reading, rating, "rating.deflection_limit", &out->deflection_limit);
    out->speed = ss_resolve_optional(c, rating, "rating.speed");
    if ((out->methods & BIT(SS_METHOD_LRFR)) != 0) {
        read_lrfr(c, rating, out);
    } else {
        not_used(c, rating, "edition|sequence|single_lane_presence|permits", "LRFR is not among the methods");
    }
}
