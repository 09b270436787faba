/* size_options.c - what a search for a deck tries, and the description of each. */
#include <stdio.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "studies/changes.h"
#include "studies/size_parts.h"

/* ---- names ------------------------------------------------------------------------------------------ */

static void add_words(ss_text *text, const char *words) {
    ss_text_add(text, text->length > 0 ? ", " : "");
    ss_text_add(text, words);
}

static void add_quantity(ss_text *text, double value, ss_dimension dimension, ss_unit_system units,
                         const char *after) {
    char words[64];
    add_words(text, ss_units_format(words, sizeof words, value, dimension, units, 4));
    ss_text_add(text, after);
}

static const char *name_of(ss_size *size, const ss_size_option *o, ss_unit_system units) {
    const ss_sizing *const s = size->sizing;
    ss_text text = {0};
    add_quantity(&text, o->thickness, SS_DIM_SMALL_LENGTH, units, "");
    if (!isnan(o->strength)) {
        add_quantity(&text, o->strength, SS_DIM_STRESS, units, "");
    }
    if (o->set >= 0) {
        add_words(&text, s->sets[o->set].name);
    }
    if (!isnan(o->pitch)) {
        add_quantity(&text, o->pitch, SS_DIM_SMALL_LENGTH, units, " pitch");
    }
    if (size->shoring[0] && size->shoring[1]) {
        add_words(&text, o->shored ? "on props" : "without props");
    }
    const char *const name = text.failed ? NULL : ss_arena_text(&size->arena, text.data, text.length);
    ss_text_destroy(&text);
    return name;
}

/* ---- the list --------------------------------------------------------------------------------------- */

static int at_least_one(int count) {
    return count > 0 ? count : 1;
}

static ss_size_option *add(ss_size *size, ss_size_kind kind) {
    ss_size_option *const o = &size->options[size->count++];
    *o = (ss_size_option){.kind = kind,
                          .name = "as it is",
                          .thickness = SS_NAN,
                          .strength = SS_NAN,
                          .pitch = SS_NAN,
                          .set = -1,
                          .other = -1,
                          .failure = "interrupted before it was tried",
                          .governs = "",
                          .check = "",
                          .margin = SS_NAN,
                          .added = SS_NAN,
                          .cost = SS_NAN};
    return o;
}

/* Thickness changes fastest. */
static ss_status add_decks(const ss_bridge *bridge, ss_size *size, ss_error *error) {
    const ss_sizing *const s = size->sizing;
    const int strengths = at_least_one(s->strength_count), pitches = at_least_one(s->pitch_count);
    const int sets = at_least_one(s->set_count);
    const int ways = strengths * pitches * sets * 2;
    for (int way = 0; way < ways; way++) {
        const bool shored = way % 2 == 1;
        const int pitch = way / 2 % pitches, strength = way / 2 / pitches % strengths;
        const int set = way / 2 / pitches / strengths;
        for (int t = 0; t < s->thickness_count && size->shoring[shored]; t++) {
            ss_size_option *const o = add(size, SS_SIZE_DECK);
            o->thickness = s->thickness[t];
            o->strength = s->strength_count > 0 ? s->strength[strength] : SS_NAN;
            o->pitch = s->pitch_count > 0 ? s->pitch[pitch] : SS_NAN;
            o->set = s->set_count > 0 ? set : -1;
            o->shored = shored;
            o->name = name_of(size, o, bridge->units);
            if (o->name == NULL) {
                return ss_no_memory(error);
            }
            size->deck_count++;
        }
    }
    return SS_OK;
}

static ss_status add_others(const ss_description *description, ss_size *size, ss_error *error) {
    const ss_sizing *const s = size->sizing;
    const ss_node *const list = ss_description_variants(description);
    for (int i = 0; i < s->other_count; i++) {
        const ss_node *const variant = list == NULL ? NULL : ss_node_named(list, s->others[i].variant);
        if (variant == NULL) {
            return ss_error_set(error, SS_ERROR_DESCRIPTION, "sizing.others: no variant is called \"%.80s\"",
                                s->others[i].variant);
        }
        ss_size_option *const o = add(size, SS_SIZE_OTHER);
        o->name = s->others[i].variant;
        o->other = i;
        size->other_count++;
    }
    for (const ss_node *v = list == NULL || s->others_given ? NULL : list->first; v != NULL; v = v->next) {
        if (ss_node_child(v, "slab") == NULL && v->count > 1 && size->other_count < SS_SIZING_OTHERS) {
            add(size, SS_SIZE_OTHER)->name = ss_node_child(v, "name")->text;
            size->other_count++;
        }
    }
    return SS_OK;
}

ss_status ss_size_options(const ss_description *description, const ss_bridge *bridge, ss_size *size,
                          ss_error *error) {
    const ss_sizing *const s = &bridge->sizing;
    ss_status status = SS_OK;
    const ss_node *const slab = ss_node_child(description->root, "slab");
    const bool props = slab != NULL && ss_node_child(slab, "shores") != NULL;
    size->shoring[0] = s->shoring != SS_SIZING_WITH;
    size->shoring[1] = s->shoring == SS_SIZING_IF_PROPS ? props : s->shoring != SS_SIZING_WITHOUT;
    const long decks = (long)at_least_one(s->strength_count) * at_least_one(s->pitch_count) *
                       at_least_one(s->set_count) * s->thickness_count *
                       (size->shoring[0] + size->shoring[1]);
    if (!s->given || slab == NULL) {
        return ss_error_set(error, SS_ERROR_DESCRIPTION,
                            "there is nothing to size: a group %s is due, such as %s",
                            s->given ? "slab" : "sizing",
                            s->given ? "slab = { thickness = \"7 in\"; ... }"
                                     : "sizing = { thicknesses = \"6 in, 7 in, 8 in\"; }");
    }
    if (size->shoring[1] && !props) {
        return ss_error_set(error, SS_ERROR_DESCRIPTION,
                            "sizing.shoring: no props are described; slab.shores says where they stand");
    }
    if (decks > SS_SIZE_DECKS) {
        return ss_error_set(error, SS_ERROR_DESCRIPTION, "%ld decks are asked for; at most %d are tried",
                            decks, (int)SS_SIZE_DECKS);
    }
    size->sizing = s;
    size->by_cost = s->priced;
    size->options = ss_arena_alloc(&size->arena, (size_t)decks + SS_SIZING_OTHERS + 1, sizeof *size->options);
    SS_TRY(size->options == NULL ? ss_no_memory(error) : SS_OK);
    (void)add(size, SS_SIZE_AS_IT_IS);
    SS_TRY(add_decks(bridge, size, error));
    SS_TRY(add_others(description, size, error));
done:
    return status;
}

/* ---- descriptions ----------------------------------------------------------------------------------- */

static ss_status put(ss_description *d, const char *path, double value, const char *unit,
                     ss_diag_list *diags) {
    char number[40];
    char words[64];
    snprintf(words, sizeof words, "%s %s", ss_text_significant(number, sizeof number, value, 15), unit);
    return ss_description_set(d, path, words, diags);
}

/* What `act` names takes the place of slab.lines. */
static ss_status put_lines(ss_description *d, const ss_sizing_set *set) {
    ss_node *const slab = (ss_node *)ss_node_child(d->root, "slab");
    ss_node *list = (ss_node *)ss_node_child(slab, "lines");
    if (list == NULL) {
        list = ss_node_add(d, slab, SS_NODE_LIST, "lines", slab->where);
    }
    if (list == NULL) {
        return SS_ERROR_MEMORY;
    }
    list->kind = SS_NODE_LIST;
    list->first = list->last = NULL;
    list->count = 0;
    for (int i = 0; i < set->count; i++) {
        ss_node *const word = ss_node_add(d, list, SS_NODE_TEXT, NULL, list->where);
        if (word == NULL) {
            return SS_ERROR_MEMORY;
        }
        word->text = set->words[i];
    }
    return SS_OK;
}

static ss_status change_deck(const ss_size *size, const ss_size_option *o, ss_description *d,
                             ss_diag_list *diags) {
    ss_status status = SS_OK;
    SS_TRY(ss_description_set(d, "slab.in_use", "true", diags));
    SS_TRY(put(d, "slab.thickness", o->thickness, "m", diags));
    if (!isnan(o->strength)) {
        SS_TRY(put(d, "slab.concrete.strength", o->strength, "Pa", diags));
    }
    if (!isnan(o->pitch)) {
        SS_TRY(put(d, "slab.connectors.pitch", o->pitch, "m", diags));
    }
    if (o->set >= 0) {
        SS_TRY(put_lines(d, &size->sizing->sets[o->set]));
    }
    if (ss_node_child(ss_node_child(d->root, "slab"), "shores") != NULL) {
        SS_TRY(ss_description_set(d, "slab.shores.in_use", o->shored ? "true" : "false", diags));
    }
done:
    return status;
}

/* The variant, over the bridge without the slab unless the variant itself has it. */
static ss_status change_other(const ss_size_option *o, const ss_description *base, ss_description *d,
                              ss_diag_list *diags) {
    const ss_node *const list = ss_description_variants(base);
    ss_description bare = {0}, merged = {0}, copy = {0};
    ss_status status = SS_OK;
    SS_TRY(ss_description_copy(base, NULL, &bare));
    SS_TRY(ss_description_set(&bare, "slab.in_use", "false", diags));
    SS_TRY(ss_description_vary(&bare, ss_node_named(list, o->name), &merged, diags));
    SS_TRY(ss_change_copy(&merged, &copy));
    ss_description_destroy(d);
    *d = copy;
done:
    ss_description_destroy(&merged);
    ss_description_destroy(&bare);
    return status;
}

ss_status ss_size_change(const ss_size *size, const ss_size_option *option, const ss_description *base,
                         ss_description *description, ss_diag_list *diags) {
    switch (option->kind) {
    case SS_SIZE_AS_IT_IS: return ss_description_set(description, "slab.in_use", "false", diags);
    case SS_SIZE_DECK: return change_deck(size, option, description, diags);
    case SS_SIZE_OTHER: return change_other(option, base, description, diags);
    }
    return SS_OK;
}
