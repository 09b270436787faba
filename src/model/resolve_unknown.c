/* resolve_unknown.c - the unknowns of a description: which keys each of them changes. */
#include "model/resolve_unknown.h"

#include <string.h>

#include "base/numeric.h"
#include "model/description_value.h"

/* ---- one value ------------------------------------------------------------------------------------ */

/* The node as it would have been written at the key that is meant. */
static bool as_written(ss_resolve *c, const ss_node *node, const ss_key *as, ss_node *made) {
    *made = *node;
    if (node->kind != SS_NODE_TEXT) {
        return true;
    }
    const char *text = node->text;
    while (*text == ' ') {
        text++;
    }
    size_t length = strlen(text);
    while (length > 0 && text[length - 1] == ' ') {
        length--;
    }
    char *const own = ss_resolve_scratch(c, length + 1, 1);
    if (own == NULL) {
        return false;
    }
    memcpy(own, text, length);
    ss_value_write(as, own, made);
    return true;
}

bool ss_unknown_read(ss_resolve *c, const ss_unknown_item *item, const char *name, const ss_key *as,
                     double *out) {
    const ss_node *const node = ss_node_child(item->node, name);
    ss_node made;
    if (node == NULL) {
        return false;
    }
    if (node->kind == SS_NODE_GROUP || node->kind == SS_NODE_LIST) {
        c->broken = true; /* the check has said so */
        return false;
    }
    if (!as_written(c, node, as, &made)) {
        return false;
    }
    ss_value value;
    ss_verdict verdict = {0};
    const bool good = ss_value_read(as, &made, &value, &verdict);
    if (verdict.fault.failed || verdict.unlikely.failed) {
        c->reading.status = SS_ERROR_MEMORY;
    } else if (!good) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, name, "%s", verdict.fault.data);
    } else if (verdict.unlikely.length > 0) {
        ss_read_complain(&c->reading, SS_WARNING, item->node, name, "%s", verdict.unlikely.data);
    }
    ss_verdict_destroy(&verdict);
    if (good) {
        *out = value.numbers[0];
    }
    return good;
}

/* ---- paths ---------------------------------------------------------------------------------------- */

/* Why a key cannot be an unknown, or NULL. */
static const char *refusal(const ss_key *key) {
    switch (key->kind) {
    case SS_KEY_NAME: return "is a name, which cannot be unknown";
    case SS_KEY_QUANTITIES:
    case SS_KEY_REFERENCES: return "holds a list; an unknown changes one value";
    case SS_KEY_ANY:
    case SS_KEY_ANYS: return "belongs to an unknown itself";
    default: break;
    }
    return key->stage == SS_STAGE_PRINT ? "changes no rating" : NULL;
}

/* Whether both keys can have the same value. */
static bool alike(const ss_key *a, const ss_key *b) {
    const bool lengths = (a->dimension == SS_DIM_LENGTH || a->dimension == SS_DIM_SMALL_LENGTH) &&
                         (b->dimension == SS_DIM_LENGTH || b->dimension == SS_DIM_SMALL_LENGTH);
    const bool words = (a->choices == NULL) == (b->choices == NULL) &&
                       (a->choices == NULL || strcmp(a->choices, b->choices) == 0);
    return a->kind == b->kind && (lengths || a->dimension == b->dimension) && words;
}

/* The path's place among those of all unknowns before; NULL when it is new. */
static const char *owner_of(const ss_resolve *c, const ss_unknown *self, const char *path) {
    for (const ss_unknown *u = c->bridge->unknowns.items; u <= self; u++) {
        for (int i = 0; i < u->path_count; i++) {
            if (strcmp(u->paths[i], path) == 0) {
                return u->name;
            }
        }
    }
    return NULL;
}

/* A path of an unknown before that takes the place of this one; NULL: there is none. */
static const char *rival_of(const ss_resolve *c, const ss_unknown *self, const ss_key *key,
                            const char *path) {
    for (const ss_unknown *u = c->bridge->unknowns.items; u <= self; u++) {
        for (int i = 0; i < u->path_count; i++) {
            if (ss_unknown_rivals(key, path, u->paths[i])) {
                return u->paths[i];
            }
        }
    }
    return NULL;
}

static void read_described(ss_unknown_item *item, const ss_node *node) {
    ss_node fallback = {0};
    ss_value value;
    ss_verdict unused = {0};
    if (node == NULL && item->key->fallback != NULL) {
        ss_value_write(item->key, item->key->fallback, &fallback);
        node = &fallback;
    }
    value.choice = -1;
    if (node != NULL && ss_value_read(item->key, node, &value, &unused)) {
        if (node->kind == SS_NODE_FLAG) {
            item->described = node->flag ? "true" : "false";
        } else if (value.choice < 0 && value.count == 1) {
            item->unknown->described = value.numbers[0];
        } else {
            item->described = node->text;
        }
    }
    ss_verdict_destroy(&unused);
}

/* Paths that are described differently have no described value in common. */
static void compare_described(ss_unknown_item *item, const ss_node *node) {
    ss_unknown other = {.described = SS_NAN};
    ss_unknown_item here = {.key = item->key, .unknown = &other};
    read_described(&here, node);
    const double a = item->unknown->described;
    const bool same = (a == other.described || (isnan(a) && isnan(other.described))) &&
                      (item->described == NULL) == (here.described == NULL) &&
                      (here.described == NULL || strcmp(item->described, here.described) == 0);
    if (!same) {
        item->unknown->described = SS_NAN;
        item->described = NULL;
    }
}

static bool add_path(ss_resolve *c, ss_unknown_item *item, const ss_node *at, const char *said) {
    ss_unknown *const unknown = item->unknown;
    const char *const name = ss_read_given(item->node, "path") ? "path" : "paths";
    ss_key_found found = {NULL, NULL};
    const ss_status status =
        ss_description_find(c->reading.description, at->text, at->where, said, &found, c->reading.diags);
    if (status != SS_OK) {
        c->reading.status = status == SS_ERROR_MEMORY ? status : c->reading.status;
        return false;
    }
    const char *const why = refusal(found.key);
    if (why != NULL) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, name, "\"%s\" %s", at->text, why);
        return false;
    }
    if (item->key != NULL && !alike(item->key, found.key)) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, name,
                         "\"%s\" and \"%s\" cannot have the same value; paths of one unknown are of one kind",
                         unknown->paths[0], at->text);
        return false;
    }
    const char *const owner = owner_of(c, unknown, at->text);
    if (owner != NULL) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, name,
                         "\"%s\" is changed by the unknown \"%s\" already; a key has one unknown", at->text,
                         owner);
        return false;
    }
    const char *const rival = rival_of(c, unknown, found.key, at->text);
    if (rival != NULL) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, name,
                         "\"%s\" takes the place of \"%s\"; one of them can be unknown", at->text, rival);
        return false;
    }
    unknown->paths[unknown->path_count] = ss_resolve_text(c, at->text);
    if (unknown->paths[unknown->path_count] == NULL) {
        return false;
    }
    if (unknown->path_count++ == 0) {
        item->key = found.key;
        read_described(item, found.node);
    } else {
        compare_described(item, found.node);
    }
    return true;
}

static bool read_paths(ss_resolve *c, ss_unknown_item *item) {
    const ss_node *const one = ss_node_child(item->node, "path");
    const ss_node *const several = ss_node_child(item->node, "paths");
    if ((one == NULL) == (several == NULL)) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, one == NULL ? NULL : "paths",
                         "%s; path, or paths for several keys, is due",
                         one == NULL ? "it is not said which key is unknown"
                                     : "both path and paths are given");
        return false;
    }
    const ss_node *const node = one != NULL ? one : several;
    const bool sound = one != NULL ? one->kind == SS_NODE_TEXT : several->kind == SS_NODE_LIST;
    item->unknown->paths =
        ss_resolve_alloc(c, one != NULL ? 1 : (size_t)several->count, sizeof *item->unknown->paths);
    const char *const said = ss_read_path(&c->reading, node);
    if (!sound || item->unknown->paths == NULL || said == NULL) {
        c->broken = true;
        return false;
    }
    if (one != NULL) {
        return add_path(c, item, one, said);
    }
    bool good = several->count > 0;
    for (const ss_node *at = several->first; at != NULL && !ss_resolve_out_of_memory(c); at = at->next) {
        good = at->kind == SS_NODE_TEXT && add_path(c, item, at, said) && good;
    }
    return good;
}

/* ---- all of them ---------------------------------------------------------------------------------- */

static bool read_unknown(ss_resolve *c, const ss_node *node, ss_unknown *unknown) {
    ss_unknown_item item = {.node = node, .unknown = unknown};
    unknown->described = unknown->mean = unknown->sd = unknown->mode = SS_NAN;
    unknown->log_mean = unknown->log_sd = SS_NAN;
    unknown->stated = ss_read_given(node, "distribution");
    unknown->name = ss_resolve_text(c, ss_resolve_name(node));
    if (unknown->name == NULL || !read_paths(c, &item) || item.key == NULL) {
        return false;
    }
    unknown->dimension = item.key->dimension;
    unknown->whole = item.key->kind == SS_KEY_INTEGER;
    return ss_unknown_read_values(c, &item);
}

void ss_resolve_unknowns(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->root, "unknowns");
    ss_unknown_set *const set = &c->bridge->unknowns;
    const int count = list == NULL ? 0 : list->count;
    if (count > SS_UNKNOWNS) {
        ss_read_complain(&c->reading, SS_FAULT, list, NULL, "found %d unknowns; at most %d are allowed",
                         count, SS_UNKNOWNS);
        return;
    }
    set->items = ss_resolve_alloc(c, (size_t)count, sizeof *set->items);
    if (set->items == NULL) {
        return;
    }
    bool good = true;
    for (const ss_node *item = count == 0 ? NULL : list->first; item != NULL && !ss_resolve_out_of_memory(c);
         item = item->next) {
        good = item->kind == SS_NODE_GROUP && read_unknown(c, item, &set->items[set->count]) && good;
        set->count++;
    }
    c->broken = c->broken || !good;
    if (ss_resolve_out_of_memory(c)) {
        return;
    }
    ss_unknown_read_correlations(c);
}
