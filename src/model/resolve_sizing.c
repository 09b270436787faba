/* resolve_sizing.c - what a search for a concrete deck goes through, from the description. */
#include <string.h>

#include "base/numeric.h"
#include "model/resolve_slab.h"

#define YARD 0.9144
#define FOOT 0.3048
#define POUND 4.4482216152605
#define KILOGRAM 9.80665

/* ---- targets -------------------------------------------------------------------------------------- */

static int rated_truck(ss_resolve *c, const ss_node *item) {
    const ss_bridge *const bridge = c->bridge;
    const char *name = NULL;
    const char *words[64];
    int count = 0;
    if (!ss_read_text(&c->reading, item, "sizing.targets[].truck", &name)) {
        return -1;
    }
    for (int v = 0; v < bridge->rated_vehicle_count; v++) {
        if (strcmp(bridge->vehicles[v].name, name) == 0) {
            return v;
        }
        if (count < 64) {
            words[count++] = bridge->vehicles[v].name;
        }
    }
    ss_resolve_unknown(c, item, "truck", "rated truck", name, words, count);
    return -1;
}

static void read_targets(ss_resolve *c, const ss_node *group, ss_sizing *out) {
    const ss_node *const list = ss_resolve_list(group, "targets");
    out->targets[0] = (ss_sizing_target){1.0, -1, -1, -1};
    out->target_count = 1;
    if (list == NULL || list->count == 0) {
        return;
    }
    if (list->count > SS_SIZING_TARGETS) {
        ss_read_complain(&c->reading, SS_FAULT, group, "targets", "found %d targets; at most %d are allowed",
                         list->count, (int)SS_SIZING_TARGETS);
        return;
    }
    out->target_count = 0;
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        ss_sizing_target *const target = &out->targets[out->target_count++];
        *target = (ss_sizing_target){.vehicle = rated_truck(c, item)};
        (void)ss_resolve_due(c, item, "sizing.targets[].factor", &target->factor);
        target->method = ss_read_choice(&c->reading, item, "sizing.targets[].method", NULL);
        target->level = ss_read_choice(&c->reading, item, "sizing.targets[].level", NULL);
        if (target->method >= 0 && (c->bridge->rating.methods & (1U << target->method)) == 0) {
            ss_read_complain(&c->reading, SS_FAULT, item, "method",
                             "found \"%s\", which is not rated; put it into rating.methods",
                             ss_node_child(item, "method")->text);
        }
    }
}

/* ---- what is tried -------------------------------------------------------------------------------- */

static int read_values(ss_resolve *c, const ss_node *group, const char *path, const char *key, double *out) {
    double all[SS_DESCRIPTION_VALUES];
    const int count = ss_read_quantities(&c->reading, group, path, all, SS_DESCRIPTION_VALUES);
    if (count > SS_SIZING_VALUES) {
        ss_read_complain(&c->reading, SS_FAULT, group, key, "found %d values; at most %d are allowed", count,
                         (int)SS_SIZING_VALUES);
        return 0;
    }
    for (int i = 0; i < count; i++) {
        out[i] = all[i];
    }
    int kept = count > 0 ? count : 0;
    ss_sort_unique(out, &kept, 1e-9);
    return kept;
}

static void read_sets(ss_resolve *c, const ss_node *group, ss_sizing *out) {
    const ss_node *const list = ss_resolve_list(group, "lines");
    bool *const picked = ss_resolve_scratch(c, (size_t)c->bridge->line_count + 1, sizeof *picked);
    if (list == NULL || picked == NULL) {
        return;
    }
    if (list->count > SS_SIZING_SETS) {
        ss_read_complain(&c->reading, SS_FAULT, group, "lines", "found %d sets; at most %d are allowed",
                         list->count, (int)SS_SIZING_SETS);
        return;
    }
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        const ss_node *const act = ss_node_child(item, "act");
        ss_sizing_set *const set = &out->sets[out->set_count];
        if (act == NULL || act->kind != SS_NODE_LIST ||
            (c->laid && !ss_resolve_slab_named(c, item, "act", picked))) {
            continue;
        }
        set->name = ss_resolve_text(c, ss_resolve_name(item));
        set->words = ss_resolve_alloc(c, (size_t)act->count + 1, sizeof *set->words);
        for (const ss_node *word = act->first; word != NULL && set->words != NULL; word = word->next) {
            set->words[set->count++] = ss_resolve_text(c, word->text);
        }
        out->set_count++;
    }
}

/* Whether there are props is seen where they are tried: those put aside are not here. */
static void read_shoring(ss_resolve *c, const ss_node *group, ss_sizing *out) {
    const int asked = ss_read_choice(&c->reading, group, "sizing.shoring", NULL);
    out->shoring = asked < 0 ? SS_SIZING_IF_PROPS : (ss_sizing_shoring)asked;
}

/* ---- prices and other repairs --------------------------------------------------------------------- */

static double price(ss_resolve *c, const ss_node *group, const char *path, double unit, ss_sizing *out) {
    const double given = group == NULL ? SS_NAN : ss_resolve_optional(c, group, path);
    out->priced = out->priced || !isnan(given);
    return given / unit;
}

static void read_prices(ss_resolve *c, const ss_node *sizing, ss_sizing *out) {
    const bool si = c->bridge->units == SS_UNITS_SI;
    const ss_node *const group = ss_node_child(sizing, "prices");
    ss_sizing_prices *const p = &out->prices;
    p->concrete = price(c, group, "sizing.prices.concrete", si ? 1.0 : YARD * YARD * YARD, out);
    p->bars = price(c, group, "sizing.prices.bars", si ? KILOGRAM : POUND, out);
    p->connectors = price(c, group, "sizing.prices.connectors", 1.0, out);
    p->shores = price(c, group, "sizing.prices.shores", 1.0, out);
    p->forms = price(c, group, "sizing.prices.forms", si ? 1.0 : FOOT * FOOT, out);
    p->fixed = price(c, group, "sizing.prices.fixed", 1.0, out);
}

/* Once a variant is applied there are none to look among. */
static void check_variant(ss_resolve *c, const ss_node *item, const char *name) {
    const char *words[SS_DESCRIPTION_VARIANTS];
    int count = 0;
    if (c->variants == NULL || ss_node_named(c->variants, name) != NULL) {
        return;
    }
    for (const ss_node *v = c->variants->first; v != NULL && count < SS_DESCRIPTION_VARIANTS; v = v->next) {
        words[count++] = ss_resolve_name(v);
    }
    ss_resolve_unknown(c, item, "variant", "variant", name, words, count);
}

static void read_others(ss_resolve *c, const ss_node *group, ss_sizing *out) {
    const ss_node *const list = ss_resolve_list(group, "others");
    out->others_given = list != NULL;
    if (list != NULL && list->count > SS_SIZING_OTHERS) {
        ss_read_complain(&c->reading, SS_FAULT, group, "others", "found %d repairs; at most %d are allowed",
                         list->count, (int)SS_SIZING_OTHERS);
        return;
    }
    for (const ss_node *item = list == NULL ? NULL : list->first; item != NULL; item = item->next) {
        const char *name = NULL;
        if (ss_read_text(&c->reading, item, "sizing.others[].variant", &name)) {
            check_variant(c, item, name);
            out->others[out->other_count++] = (ss_sizing_other){
                ss_resolve_text(c, name), ss_resolve_optional(c, item, "sizing.others[].cost")};
        }
    }
}

/* ---- all ------------------------------------------------------------------------------------------ */

void ss_resolve_sizing(ss_resolve *c) {
    const ss_node *const group = ss_node_child(c->root, "sizing");
    ss_sizing *const out = &c->bridge->sizing;
    if (group == NULL || group->kind != SS_NODE_GROUP) {
        return;
    }
    out->given = true;
    read_targets(c, group, out);
    out->thickness_count = read_values(c, group, "sizing.thicknesses", "thicknesses", out->thickness);
    out->strength_count = read_values(c, group, "sizing.strengths", "strengths", out->strength);
    out->pitch_count = read_values(c, group, "sizing.pitches", "pitches", out->pitch);
    read_sets(c, group, out);
    read_shoring(c, group, out);
    read_prices(c, group, out);
    read_others(c, group, out);
}
