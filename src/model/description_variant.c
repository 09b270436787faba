/* description_variant.c - variants of a description: which there are, and where what is said of one was
 * written.
 */
#include <string.h>

#include "model/description_value.h"

const ss_node *ss_description_variants(const ss_description *description) {
    const ss_node *const list = ss_node_child(description->root, "variants");
    return list != NULL && list->kind == SS_NODE_LIST && list->count > 0 ? list : NULL;
}

/* A list of names or numbers is one value. */
static bool is_value(const ss_node *node) {
    return node->kind != SS_NODE_GROUP &&
           (node->kind != SS_NODE_LIST || node->first == NULL || node->first->kind != SS_NODE_GROUP);
}

static void add_value(const ss_node *node, ss_text *out) {
    if (node->kind != SS_NODE_LIST) {
        ss_value_quote(node, out);
        return;
    }
    ss_text_add(out, "[");
    for (const ss_node *item = node->first; item != NULL; item = item->next) {
        ss_text_add(out, item == node->first ? "" : ", ");
        ss_value_quote(item, out);
    }
    ss_text_add(out, "]");
}

/* Paths begin after the variant's own, which is `skipped` bytes long. */
static void add_changes(const ss_node *node, const ss_node *variant, size_t skipped, ss_text *out) {
    for (const ss_node *child = node->first; child != NULL; child = child->next) {
        const bool label = child->name != NULL && strcmp(child->name, "name") == 0;
        if (label && (node == variant || node->name == NULL)) {
            continue; /* it stands in the path */
        }
        if (!is_value(child)) {
            add_changes(child, variant, skipped, out);
            continue;
        }
        ss_text path = {0};
        ss_node_path(child, &path);
        out->failed = out->failed || path.failed;
        ss_text_printf(out, "%s%s = ", out->length > 0 ? "; " : "",
                       path.length > skipped ? path.data + skipped : "");
        add_value(child, out);
        ss_text_destroy(&path);
    }
}

ss_status ss_description_changes(const ss_node *variant, ss_text *out) {
    ss_text own = {0};
    ss_node_path(variant, &own);
    out->failed = out->failed || own.failed;
    add_changes(variant, variant, own.length + 1, out);
    ss_text_destroy(&own);
    return out->failed ? SS_ERROR_MEMORY : SS_OK;
}

/* The child that one step of a path names: a key, a name, or a number from 1. */
static const ss_node *step_to(const ss_node *at, const char *step, size_t length) {
    int number = 1;
    for (const ss_node *child = at->first; child != NULL; child = child->next, number++) {
        const char *const label = child->name != NULL ? child->name : ss_node_label(child);
        char counted[16];
        if (label != NULL ? strlen(label) == length && strncmp(label, step, length) == 0
                          : strlen(ss_text_decimals(counted, sizeof counted, number, 0)) == length &&
                                strncmp(counted, step, length) == 0) {
            return child;
        }
    }
    return NULL;
}

/* Whether the variant itself holds what the path leads to; or the item of a list that the place is, and whose
 * key is not given. */
static bool holds(const ss_node *variant, const char *path, ss_where where) {
    const ss_node *at = variant;
    while (*path != '\0') {
        const size_t length = strcspn(path, ".");
        const ss_node *const next = step_to(at, path, length);
        const bool last = path[length] == '\0';
        if (next == NULL) {
            return last && at != variant && at->name == NULL && at->where.line == where.line &&
                   at->where.file == where.file;
        }
        at = next;
        path += length + (last ? 0 : 1);
    }
    return at != variant;
}

ss_status ss_description_locate(const ss_node *variant, const ss_diag_list *from, ss_diag_list *to) {
    ss_text path = {0};
    ss_status status = SS_OK;
    for (int i = 0; i < from->count && status == SS_OK; i++) {
        const ss_diag *const one = &from->items[i];
        ss_text_clear(&path);
        if (variant != NULL && holds(variant, one->path, one->where)) {
            ss_node_path(variant, &path);
            ss_text_add(&path, ".");
        }
        ss_text_add(&path, one->path);
        status = path.failed ? SS_ERROR_MEMORY
                             : ss_diag_add(to, one->severity, one->where, path.data == NULL ? "" : path.data,
                                           "%s", one->message);
    }
    ss_text_destroy(&path);
    return status;
}

ss_status ss_description_vary(const ss_description *base, const ss_node *variant, ss_description *out,
                              ss_diag_list *diags) {
    ss_description merged;
    ss_diag_list said = {0};
    ss_status status = ss_description_merge(base, variant, &merged, diags);
    if (status != SS_OK) {
        return status;
    }
    status = ss_description_check(&merged, &said);
    const ss_status located =
        status == SS_ERROR_MEMORY ? SS_ERROR_MEMORY : ss_description_locate(variant, &said, diags);
    status = located == SS_OK ? status : located;
    ss_diag_destroy(&said);
    if (status == SS_OK) {
        *out = merged;
    } else {
        ss_description_destroy(&merged);
    }
    return status;
}
