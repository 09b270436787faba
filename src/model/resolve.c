/* resolve.c - from a checked description to a bridge: the steps in order, and what they share in memory and
 * words. */
#include "model/resolve.h"

#include <math.h>
#include <string.h>

/* ---- memory --------------------------------------------------------------------------------------- */

bool ss_resolve_out_of_memory(const ss_resolve *c) {
    return c->reading.status != SS_OK;
}

static void *checked(ss_resolve *c, void *block) {
    if (block == NULL && c->reading.status == SS_OK) {
        c->reading.status = SS_ERROR_MEMORY;
    }
    return block;
}

void *ss_resolve_alloc(ss_resolve *c, size_t count, size_t size) {
    return checked(c, ss_arena_alloc(&c->bridge->arena, count > 0 ? count : 1, size));
}

void *ss_resolve_scratch(ss_resolve *c, size_t count, size_t size) {
    return checked(c, ss_arena_alloc(&c->scratch, count > 0 ? count : 1, size));
}

void *ss_resolve_grow(ss_resolve *c, void *items, int count, size_t size) {
    /* Room is 8, 16, 32 ...: full exactly when the count is one of these. */
    const bool full = count == 0 || (count >= 8 && (count & (count - 1)) == 0);
    if (!full) {
        return items;
    }
    void *const grown = ss_resolve_alloc(c, count == 0 ? 8 : 2 * (size_t)count, size);
    if (grown != NULL && count > 0) {
        memcpy(grown, items, (size_t)count * size);
    }
    return grown;
}

const char *ss_resolve_text(ss_resolve *c, const char *text) {
    return checked(c, ss_arena_text(&c->bridge->arena, text, strlen(text)));
}

const char *ss_resolve_numbered(ss_resolve *c, const char *set, int member, int members) {
    if (members == 1) {
        return ss_resolve_text(c, set);
    }
    return checked(c, ss_arena_printf(&c->bridge->arena, "%s %d", set, member));
}

/* ---- words ---------------------------------------------------------------------------------------- */

const char *ss_resolve_quantity(const ss_resolve *c, double value, ss_dimension dimension,
                                char buffer[SS_WORDS]) {
    /* Six digits show sixteenths of an inch over any car; tiny rounding shows as 0. */
    return ss_units_format(buffer, SS_WORDS, fabs(value) < 1e-12 ? 0.0 : value, dimension, c->bridge->units,
                           6);
}

const char *ss_resolve_length(const ss_resolve *c, double value, char buffer[SS_WORDS]) {
    return ss_resolve_quantity(c, value, SS_DIM_LENGTH, buffer);
}

/* ---- the steps ------------------------------------------------------------------------------------ */

static void read_head(ss_resolve *c) {
    ss_bridge *const bridge = c->bridge;
    const char *text = NULL;
    bridge->units = ss_read_choice(&c->reading, c->root, "units", NULL) == 1 ? SS_UNITS_SI : SS_UNITS_US;
    if (ss_read_text(&c->reading, c->root, "title", &text)) {
        bridge->title = ss_resolve_text(c, text);
    } else {
        c->broken = true;
    }
    if (ss_read_text(&c->reading, c->root, "notes", &text)) {
        bridge->notes = ss_resolve_text(c, text);
    }
    const ss_node *const analysis = ss_node_child(c->root, "analysis");
    (void)ss_resolve_due(c, analysis, "analysis.station_spacing", &bridge->station_spacing);
    bridge->cars_first = ss_read_choice(&c->reading, c->node, "bridge.stages", NULL) != 1;
    bridge->self_weight = true;
    (void)ss_read_flag(&c->reading, c->node, "bridge.self_weight", &bridge->self_weight);
    c->broken = c->broken || c->node == NULL;
}

/* Whether a step found nothing wrong; what was broken before stays broken. */
static bool run_step(ss_resolve *c, void (*step)(ss_resolve *)) {
    const int faults = c->reading.diags->faults;
    const bool broken = c->broken;
    if (ss_resolve_out_of_memory(c)) {
        return false;
    }
    c->broken = false;
    step(c);
    const bool sound = !c->broken && c->reading.diags->faults == faults;
    c->broken = c->broken || broken;
    return sound;
}

static void run_steps(ss_resolve *c) {
    static void (*const first[])(ss_resolve *) = {read_head,           ss_resolve_steels,
                                                  ss_resolve_sections, ss_resolve_car_types,
                                                  ss_resolve_cars,     ss_resolve_findings};
    static void (*const rest[])(ss_resolve *) = {
        ss_resolve_support_findings, ss_resolve_deck,       ss_resolve_slab,        ss_resolve_dead_loads,
        ss_resolve_deck_findings,    ss_resolve_slab_loads, ss_resolve_user_trucks, ss_resolve_rating,
        ss_resolve_crossings,        ss_resolve_cases,      ss_resolve_runs,        ss_resolve_probes,
        ss_resolve_fatigue,          ss_resolve_sizing,     ss_resolve_unknowns,
    };
    /* Sums over the whole bridge: only where there is one. */
    static void (*const last[])(ss_resolve *) = {ss_resolve_car_weights, ss_resolve_remarks, ss_resolve_size,
                                                 ss_resolve_primary};
    for (size_t i = 0; i < sizeof first / sizeof first[0]; i++) {
        (void)run_step(c, first[i]);
    }
    c->joints_sound = run_step(c, ss_resolve_joints);
    c->bearings_sound = run_step(c, ss_resolve_bearings);
    for (size_t i = 0; i < sizeof rest / sizeof rest[0]; i++) {
        (void)run_step(c, rest[i]);
    }
    for (size_t i = 0; i < sizeof last / sizeof last[0]; i++) {
        if (!c->broken && c->reading.diags->faults == 0) {
            (void)run_step(c, last[i]);
        }
    }
}

/* `variants` are those of the description before what is not in use was dropped; NULL: there are none. */
static ss_status resolve(const ss_description *description, const ss_node *variants, ss_bridge *out,
                         ss_diag_list *diags) {
    ss_bridge bridge;
    memset(&bridge, 0, sizeof bridge);
    ss_resolve c = {
        .reading = {.description = description,
                    .diags = diags,
                    .assumptions = &bridge.assumptions,
                    .status = SS_OK},
        .root = description->root,
        .node = ss_node_child(description->root, "bridge"),
        .bridge = &bridge,
        .variants = variants,
    };
    bridge.digest = description->digest;
    run_steps(&c);
    ss_status status = c.reading.status;
    if (status == SS_OK && c.broken && diags->faults == 0) {
        /* An unchecked description: the check says what is missing. */
        status = ss_description_check(description, diags);
        if (status == SS_OK) {
            status = SS_ERROR_INTERNAL;
        }
    }
    if (status == SS_OK && diags->faults > 0) {
        status = SS_ERROR_DESCRIPTION;
    }
    ss_arena_destroy(&c.scratch);
    if (status == SS_OK) {
        *out = bridge;
    } else {
        ss_bridge_destroy(&bridge);
    }
    return status;
}

ss_status ss_bridge_resolve(const ss_description *description, ss_bridge *out, ss_diag_list *diags) {
    if (description->root == NULL) {
        return diags->faults > 0 ? SS_ERROR_DESCRIPTION : SS_ERROR_INTERNAL;
    }
    const ss_node *const variants = ss_description_variants(description);
    if (!ss_description_has_unused(description)) {
        return resolve(description, variants, out, diags);
    }
    ss_description used;
    ss_status status = ss_description_copy(description, "variants", &used);
    if (status == SS_OK) {
        ss_description_drop_unused(&used);
        status = resolve(&used, variants, out, diags);
        ss_description_destroy(&used);
    }
    return status;
}
