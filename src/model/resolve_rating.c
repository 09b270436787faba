/* resolve_rating.c - rating settings and the trucks that are rated. */
#include <math.h>
#include <string.h>

#include "model/resolve.h"

/* ---- trucks --------------------------------------------------------------------------------------- */

#define DEFAULT_TRUCKS "HL-93, H15-44, HS20-44, Type 3, EV2, EV3"

static void add_default_trucks(ss_resolve *c, const ss_node *rating) {
    static const char *const names[] = {"HL-93", "H15-44", "HS20-44", "Type 3", "EV2", "EV3"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        (void)ss_resolve_truck_named(c, rating, "trucks", names[i]);
    }
    const char *const why = "The trucks that are rated when none are named.";
    if (rating != NULL) {
        ss_resolve_assume(c, rating, "trucks", DEFAULT_TRUCKS, why);
    } else if (!ss_resolve_out_of_memory(c)) {
        c->reading.status = ss_assumption_add(c->reading.assumptions, "rating.trucks", DEFAULT_TRUCKS, why);
    }
}

static void add_emergency(ss_resolve *c, const ss_node *rating, const char *name, const char *value) {
    const int before = c->bridge->vehicle_count;
    if (ss_resolve_truck_named(c, rating, "trucks", name) >= before) {
        ss_resolve_assume(c, rating, "trucks", value,
                          "Emergency vehicles cross every public bridge: EV2 and EV3 are always rated.");
    }
}

/* Where the design load's levels are asked for by name, it is rated whatever the list says. */
static void add_design(ss_resolve *c, const ss_node *rating) {
    const unsigned design = 1U << SS_LEVEL_INVENTORY | 1U << SS_LEVEL_OPERATING;
    const ss_rating_settings *const settings = &c->bridge->rating;
    const int before = c->bridge->vehicle_count;
    if ((settings->methods & 1U << SS_METHOD_LRFR) != 0 && (settings->levels & design) != 0 &&
        ss_resolve_truck_named(c, rating, "trucks", "HL-93") >= before) {
        ss_resolve_assume(c, rating, "trucks", "HL-93 as well",
                          "Inventory and operating of LRFR are those of the design load, HL-93.");
    }
}

static void read_trucks(ss_resolve *c, const ss_node *rating) {
    const ss_node *const list = ss_resolve_list(rating, "trucks");
    if (list == NULL) {
        add_default_trucks(c, rating);
    } else {
        for (const ss_node *word = list->first; word != NULL; word = word->next) {
            if (word->kind == SS_NODE_TEXT) {
                (void)ss_resolve_truck_named(c, rating, "trucks", word->text);
            }
        }
        add_design(c, rating);
        add_emergency(c, rating, "EV2", "EV2 as well");
        add_emergency(c, rating, "EV3", "EV3 as well");
    }
    c->bridge->rated_vehicle_count = c->bridge->vehicle_count;
}

/* ---- factors -------------------------------------------------------------------------------------- */

/* Condition factors of the AASHTO Manual for Bridge Evaluation: good or satisfactory, fair, poor (from
 * memory). */
static void read_condition(ss_resolve *c, const ss_node *rating, ss_rating_settings *out) {
    static const double factors[] = {1.00, 0.95, 0.85};
    static const char *const words[] = {"good", "fair", "poor"};
    double value = (double)NAN;
    const int choice = ss_read_choice(&c->reading, rating, "rating.condition", &value);
    out->condition = choice >= 0 ? factors[choice] : value;
    out->condition_word = choice >= 0 ? words[choice] : choice == -1 ? "given" : NULL;
}

/* Dynamic load allowance of legal loads by riding surface: smooth 10, minor deviations 20, else 33 percent
 * (the same manual). */
static double read_approach(ss_resolve *c, const ss_node *rating) {
    static const double allowances[] = {0.10, 0.20, 0.33};
    const int choice = ss_read_choice(&c->reading, rating, "rating.approach", NULL);
    return choice >= 0 ? allowances[choice] : 0.33;
}

static int read_adtt(ss_resolve *c, const ss_node *rating) {
    int adtt = -1;
    if (ss_read_integer(&c->reading, rating, "rating.adtt", &adtt)) {
        return adtt;
    }
    if (!ss_read_given(rating, "adtt") && !ss_resolve_out_of_memory(c)) {
        c->reading.status = ss_assumption_add(c->reading.assumptions, "rating.adtt", "unknown",
                                              "Unknown truck traffic takes the highest live load factor.");
    }
    return -1;
}

void ss_resolve_rating(ss_resolve *c) {
    const ss_node *const rating = ss_node_child(c->root, "rating");
    ss_rating_settings *const out = &c->bridge->rating;
    const bool measured = out->surfacing_measured;
    *out = (ss_rating_settings){.surfacing_measured = measured};
    ss_resolve_methods(c, rating);
    read_condition(c, rating, out);
    out->system = ss_resolve_optional(c, rating, "rating.system");
    out->adtt = read_adtt(c, rating);
    out->approach_allowance = read_approach(c, rating);
    out->dynamic_allowance = ss_resolve_optional(c, rating, "rating.dynamic_allowance");
    out->live_factor = ss_resolve_optional(c, rating, "rating.live_factor");
    out->dw_factor = ss_resolve_optional(c, rating, "rating.dw_factor");
    (void)ss_resolve_due(c, rating, "rating.dc_factor", &out->dc_factor);
    (void)ss_resolve_due(c, rating, "rating.phi_flexure", &out->phi_flexure);
    (void)ss_resolve_due(c, rating, "rating.phi_shear", &out->phi_shear);
    read_trucks(c, rating);
    ss_resolve_method_settings(c, rating);
}
