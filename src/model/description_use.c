/* description_use.c - what a description puts aside with in_use = false. */
#include <string.h>

#include "model/description_path.h"

bool ss_node_in_use(const ss_node *node) {
    const ss_node *const use = ss_node_child(node, "in_use");
    return use == NULL || use->kind != SS_NODE_FLAG || use->flag;
}

/* Lists whose unused items are still looked at when the bridge is resolved, so that faults in them are told.
 */
static bool is_kept(const ss_node *node) {
    const bool top = node->parent != NULL && node->parent->parent == NULL;
    return node->name != NULL && node->parent != NULL &&
           ((top && (strcmp(node->name, "findings") == 0 || strcmp(node->name, "variants") == 0)) ||
            (!top && strcmp(node->name, "bearings") == 0));
}

static bool has_unused(const ss_node *node) {
    if (is_kept(node)) {
        return false;
    }
    for (const ss_node *child = node->first; child != NULL; child = child->next) {
        if (!ss_node_in_use(child) || has_unused(child)) {
            return true;
        }
    }
    return false;
}

bool ss_description_has_unused(const ss_description *description) {
    return has_unused(description->root);
}

static void drop(ss_node *node) {
    if (is_kept(node)) {
        return;
    }
    ss_node *before = NULL;
    for (ss_node *child = node->first; child != NULL; child = child->next) {
        if (ss_node_in_use(child)) {
            drop(child);
            before = child;
            continue;
        }
        if (before == NULL) {
            node->first = child->next;
        } else {
            before->next = child->next;
        }
        node->count--;
    }
    node->last = before;
}

void ss_description_drop_unused(ss_description *description) {
    drop(description->root);
}
