/* description_merge.c - a variant put over the description that it belongs to. */
#include <string.h>

#include "model/description_path.h"
#include "model/key_tree.h"

/* Offered when a name is not found; more are cut. */
#define OFFERED 20

typedef struct merger {
    ss_description *out;
    ss_diag_list *diags;
    const ss_node *variant;
    ss_status status;
} merger;

/* The path is that of the item in the variant. */
static void complain(merger *m, const ss_node *item, const ss_text *message) {
    ss_text path = {0};
    ss_node_path(item, &path);
    if (path.failed || message->failed) {
        m->status = SS_ERROR_MEMORY;
    } else {
        m->status = ss_diag_add(m->diags, SS_FAULT, item->where, path.data, "%s", message->data);
    }
    ss_text_destroy(&path);
}

/* `no item that is described is called "pad"; did you mean "pads"?` */
static void say_unknown(const ss_node *list, const char *label, const char *then, ss_text *message) {
    const char *names[OFFERED];
    int count = 0;
    for (const ss_node *item = list == NULL ? NULL : list->first; item != NULL && count < OFFERED;
         item = item->next) {
        const char *name = ss_node_label(item);
        if (name != NULL) {
            names[count++] = name;
        }
    }
    const char *const nearest = ss_text_nearest(label, names, count);
    ss_text_printf(message, "no item that is described is called \"%s\"%s; ", label, then);
    if (nearest != NULL) {
        ss_text_printf(message, "did you mean \"%s\"?", nearest);
        return;
    }
    ss_text_add(message, count == 0 ? "the list there is empty" : "the list there has ");
    for (int i = 0; i < count; i++) {
        ss_text_printf(message, "%s\"%s\"", i == 0 ? "" : ", ", names[i]);
    }
}

/* ", so that it is added, which needs at, under", or "" when it has all that it needs. */
static void say_needs(const ss_node *item, const ss_key *list_key, ss_text *needs) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    bool first = true;
    for (int i = 0; i < count; i++) {
        const char *leaf = ss_key_leaf(keys[i].path);
        if (!keys[i].required || !ss_key_is_child(&keys[i], list_key) || ss_node_child(item, leaf) != NULL) {
            continue;
        }
        ss_text_printf(needs, "%s%s", first ? ", so that it is added, which needs " : ", ", leaf);
        first = false;
    }
}

/* Whether an item that is not there can be added; otherwise that is said. */
static bool can_add(merger *m, const ss_node *list, const ss_node *item, const ss_key *key) {
    const char *const label = ss_node_label(item);
    ss_text needs = {0};
    ss_text message = {0};
    bool good = true;
    if (label != NULL) {
        say_needs(item, key, &needs);
        good = ss_node_in_use(item) && needs.length == 0 && !needs.failed;
    }
    if (!good) {
        say_unknown(list, label, ss_node_in_use(item) && needs.data != NULL ? needs.data : "", &message);
        message.failed = message.failed || needs.failed;
        complain(m, item, &message);
    }
    ss_text_destroy(&needs);
    ss_text_destroy(&message);
    return good;
}

static void merge_group(merger *m, ss_node *to, const ss_node *from, const ss_key *key);

static void add_copy(merger *m, ss_node *to, const ss_node *child) {
    ss_node *const copy = ss_node_add(m->out, to, child->kind, child->name, child->where);
    if (copy == NULL || !ss_node_take(m->out, copy, child)) {
        m->status = SS_ERROR_MEMORY;
    }
}

/* `to` may be empty: then all items are added. */
static void merge_list(merger *m, ss_node *to, const ss_node *from, const ss_key *key) {
    for (const ss_node *item = from->first; item != NULL && m->status == SS_OK; item = item->next) {
        const char *const label = ss_node_label(item);
        ss_node *const there = label == NULL ? NULL : (ss_node *)ss_node_named(to, label);
        if (there != NULL) {
            there->where = item->where;
            merge_group(m, there, item, key);
        } else if (can_add(m, to, item, key)) {
            add_copy(m, to, item);
        }
    }
}

static void merge_child(merger *m, ss_node *to, const ss_node *child, const ss_key *parent) {
    ss_node *there = (ss_node *)ss_node_child(to, child->name);
    const ss_key *const key = ss_key_child(parent, child->name);
    const bool named = key != NULL && key->kind == SS_KEY_LIST && ss_key_child(key, "name") != NULL &&
                       child->kind == SS_NODE_LIST;
    if (there == NULL && named) {
        there = ss_node_add(m->out, to, SS_NODE_LIST, child->name, child->where);
        m->status = there == NULL ? SS_ERROR_MEMORY : m->status;
    }
    if (m->status != SS_OK) {
        return;
    }
    if (there == NULL) {
        add_copy(m, to, child);
    } else if (named && there->kind == SS_NODE_LIST) {
        merge_list(m, there, child, key);
    } else if (key != NULL && there->kind == SS_NODE_GROUP && child->kind == SS_NODE_GROUP) {
        merge_group(m, there, child, key);
    } else if (!ss_node_take(m->out, there, child)) {
        m->status = SS_ERROR_MEMORY;
    }
}

static void merge_group(merger *m, ss_node *to, const ss_node *from, const ss_key *key) {
    for (const ss_node *child = from->first; child != NULL && m->status == SS_OK; child = child->next) {
        const bool own =
            from == m->variant && (strcmp(child->name, "name") == 0 || strcmp(child->name, "variants") == 0);
        if (!own) {
            merge_child(m, to, child, key);
        }
    }
}

ss_status ss_description_merge(const ss_description *base, const ss_node *variant, ss_description *out,
                               ss_diag_list *diags) {
    ss_description merged;
    const int faults = diags->faults;
    const ss_status copied = ss_description_copy(base, "variants", &merged);
    if (copied != SS_OK) {
        return copied;
    }
    merger m = {.out = &merged, .diags = diags, .variant = variant, .status = SS_OK};
    merge_group(&m, merged.root, variant, NULL);
    if (m.status == SS_OK && diags->faults > faults) {
        m.status = SS_ERROR_DESCRIPTION;
    }
    if (m.status != SS_OK) {
        ss_description_destroy(&merged);
        return m.status;
    }
    *out = merged;
    return SS_OK;
}
