/* description_check.c - walks a description against the key table and says all that is wrong with it. */
#include "model/description_path.h"
#include "model/description_value.h"
#include "model/key_tree.h"

#include <string.h>

typedef struct walk {
    ss_diag_list *diags;
    ss_verdict verdict;
    ss_text path;
    ss_value value;
    int listed;   /* faults of this walk */
    bool partial; /* inside a variant: what is not given stays as it is described */
    ss_status status;
} walk;

static const char *words(const ss_text *text) {
    return text->data == NULL ? "" : text->data;
}

/* Says `message` about the key `key` of `node` (NULL: about the node itself). */
static void report(walk *w, ss_severity severity, ss_where where, const ss_node *node, const char *key,
                   const ss_text *message) {
    if (w->status != SS_OK || w->listed > SS_DESCRIPTION_FAULTS) {
        return;
    }
    if (severity == SS_FAULT) {
        w->listed++;
    }
    ss_text_clear(&w->path);
    ss_node_key_path(node, key, &w->path);
    if (w->path.failed || message->failed) {
        w->status = SS_ERROR_MEMORY;
    } else if (w->listed > SS_DESCRIPTION_FAULTS) {
        w->status =
            ss_diag_add(w->diags, SS_FAULT, where, "", "found more than %d faults; the others are not listed",
                        SS_DESCRIPTION_FAULTS);
    } else {
        w->status = ss_diag_add(w->diags, severity, where, words(&w->path), "%s", words(message));
    }
}

static void walk_group(walk *w, const ss_node *group, const ss_key *key);

static uint64_t hash(const char *text) {
    uint64_t value = UINT64_C(14695981039346656037);
    for (; *text != '\0'; text++) {
        value = (value ^ (unsigned char)*text) * UINT64_C(1099511628211);
    }
    return value;
}

/* Names repeated among the items; hashes keep the comparison of all pairs cheap in a long list. */
static void check_names(walk *w, const ss_node *list) {
    uint64_t *hashes = ss_alloc((size_t)list->count, sizeof *hashes);
    const ss_node **names = ss_alloc((size_t)list->count, sizeof *names);
    if (hashes == NULL || names == NULL) {
        w->status = SS_ERROR_MEMORY;
        goto done;
    }
    int count = 0;
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        const char *label = ss_node_label(item);
        if (label == NULL || label[0] == '\0') {
            continue;
        }
        hashes[count] = hash(label);
        names[count] = ss_node_child(item, "name");
        for (int i = 0; i < count; i++) {
            if (hashes[i] != hashes[count] || strcmp(names[i]->text, label) != 0) {
                continue;
            }
            ss_verdict_clear(&w->verdict);
            ss_value_quote(names[count], &w->verdict.fault);
            ss_text_add(&w->verdict.fault, " is the name of another item of this list");
            if (names[i]->where.line > 0) {
                ss_text_printf(&w->verdict.fault, ", at line %d", names[i]->where.line);
            }
            ss_text_add(&w->verdict.fault, "; each name is given once");
            report(w, SS_FAULT, names[count]->where, names[count], NULL, &w->verdict.fault);
            break;
        }
        count++;
    }
done:
    ss_free(hashes);
    ss_free(names);
}

/* A list that may not be empty needs an item that is not put aside. */
static void check_use(walk *w, const ss_node *list, const ss_key *key) {
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        if (ss_node_in_use(item)) {
            return;
        }
    }
    if (key->required && list->count > 0 && !w->partial) {
        ss_verdict_clear(&w->verdict);
        ss_text_add(&w->verdict.fault, "no item of this list is in use; one at least is due");
        report(w, SS_FAULT, list->where, list, NULL, &w->verdict.fault);
    }
}

static void walk_list(walk *w, const ss_node *list, const ss_key *key) {
    const bool variants = ss_key_is_variants(key);
    if (variants && list->count > SS_DESCRIPTION_VARIANTS) {
        ss_verdict_clear(&w->verdict);
        ss_text_printf(&w->verdict.fault, "found %d variants; at most %d are allowed", list->count,
                       SS_DESCRIPTION_VARIANTS);
        report(w, SS_FAULT, list->where, list, NULL, &w->verdict.fault);
        return;
    }
    w->partial = w->partial || variants;
    for (const ss_node *item = list->first; item != NULL && w->status == SS_OK; item = item->next) {
        if (item->kind == SS_NODE_GROUP) {
            walk_group(w, item, key);
            continue;
        }
        ss_verdict_clear(&w->verdict);
        ss_text_add(&w->verdict.fault, "found ");
        ss_value_quote(item, &w->verdict.fault);
        ss_text_add(&w->verdict.fault, " in the list; groups are due, { key = value; ... }");
        report(w, SS_FAULT, item->where, item, NULL, &w->verdict.fault);
    }
    if (w->status == SS_OK && ss_key_child(key, "name") != NULL) {
        check_names(w, list);
    }
    check_use(w, list, key);
    w->partial = w->partial && !variants;
}

static void walk_child(walk *w, const ss_node *child, const ss_key *parent) {
    ss_verdict_clear(&w->verdict);
    const ss_key *key = ss_key_child(parent, child->name);
    if (key == NULL) {
        if (ss_key_is_variants(parent) && strcmp(child->name, "variants") == 0) {
            ss_text_add(&w->verdict.fault, "a variant cannot have variants of its own");
        } else {
            ss_key_unknown(parent, child->name, &w->verdict.fault);
        }
        report(w, SS_FAULT, child->where, child, NULL, &w->verdict.fault);
        return;
    }
    if (!ss_value_read(key, child, &w->value, &w->verdict)) {
        report(w, SS_FAULT, child->where, child, NULL, &w->verdict.fault);
    } else if (w->verdict.unlikely.length > 0 || w->verdict.unlikely.failed) {
        report(w, SS_WARNING, child->where, child, NULL, &w->verdict.unlikely);
    } else if (key->kind == SS_KEY_GROUP) {
        walk_group(w, child, key);
    } else if (key->kind == SS_KEY_LIST) {
        walk_list(w, child, key);
    }
}

static void check_required(walk *w, const ss_node *group, const ss_key *parent) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    for (int i = 0; i < count && w->status == SS_OK; i++) {
        if (!keys[i].required || !ss_key_is_child(&keys[i], parent)) {
            continue;
        }
        const char *leaf = ss_key_leaf(keys[i].path);
        if (ss_node_child(group, leaf) != NULL || (w->partial && strcmp(leaf, "name") != 0)) {
            continue;
        }
        ss_verdict_clear(&w->verdict);
        ss_text_add(&w->verdict.fault, "not given; ");
        ss_value_due(&keys[i], &w->verdict.fault);
        report(w, SS_FAULT, group->where, group, leaf, &w->verdict.fault);
    }
}

static void walk_group(walk *w, const ss_node *group, const ss_key *key) {
    for (const ss_node *child = group->first; child != NULL && w->status == SS_OK; child = child->next) {
        walk_child(w, child, key);
    }
    check_required(w, group, key);
}

ss_status ss_description_check(const ss_description *description, ss_diag_list *diags) {
    walk w = {.diags = diags};
    walk_group(&w, description->root, NULL);
    ss_verdict_destroy(&w.verdict);
    ss_text_destroy(&w.path);
    if (w.status != SS_OK) {
        return w.status;
    }
    return diags->faults > 0 ? SS_ERROR_DESCRIPTION : SS_OK;
}
