/* description.c - the tree of values as written, and the key path of each. */
#include "model/description_path.h"
#include "model/description_value.h"

#include <string.h>

ss_status ss_description_init(ss_description *description) {
    ss_description fresh = {0};
    fresh.root = ss_arena_alloc(&fresh.arena, 1, sizeof *fresh.root);
    if (fresh.root == NULL) {
        ss_arena_destroy(&fresh.arena);
        return SS_ERROR_MEMORY;
    }
    fresh.root->kind = SS_NODE_GROUP;
    *description = fresh;
    return SS_OK;
}

void ss_description_destroy(ss_description *description) {
    if (description == NULL) {
        return;
    }
    ss_arena_destroy(&description->arena);
    *description = (ss_description){0};
}

ss_node *ss_node_add(ss_description *description, ss_node *parent, ss_node_kind kind, const char *name,
                     ss_where where) {
    ss_node *node = ss_arena_alloc(&description->arena, 1, sizeof *node);
    if (node == NULL) {
        return NULL;
    }
    if (name != NULL) {
        node->name = ss_arena_text(&description->arena, name, strlen(name));
        if (node->name == NULL) {
            return NULL;
        }
    }
    node->kind = kind;
    node->where = where;
    node->parent = parent;
    if (parent->last == NULL) {
        parent->first = node;
    } else {
        parent->last->next = node;
    }
    parent->last = node;
    parent->count++;
    return node;
}

/* Whether `name` is one of the words between bars. */
static bool is_among(const char *words, const char *name) {
    const size_t length = strlen(name);
    for (const char *at = strstr(words, name); at != NULL; at = strstr(at + 1, name)) {
        const bool begins = at == words || at[-1] == '|';
        if (begins && (at[length] == '\0' || at[length] == '|')) {
            return true;
        }
    }
    return false;
}

/* The children of `from` but those at the top called as one of the words of `skip`. */
static bool copy_children(ss_description *out, ss_node *to, const ss_node *from, const char *skip) {
    for (const ss_node *child = from->first; child != NULL; child = child->next) {
        if (skip != NULL && child->name != NULL && is_among(skip, child->name)) {
            continue;
        }
        ss_node *const copy = ss_node_add(out, to, child->kind, child->name, child->where);
        if (copy == NULL || !ss_node_take(out, copy, child)) {
            return false;
        }
    }
    return true;
}

bool ss_node_take(ss_description *out, ss_node *node, const ss_node *from) {
    node->kind = from->kind;
    node->where = from->where;
    node->number = from->number;
    node->flag = from->flag;
    node->first = node->last = NULL;
    node->count = 0;
    node->text = from->text == NULL ? NULL : ss_arena_text(&out->arena, from->text, strlen(from->text));
    return (from->text == NULL || node->text != NULL) && copy_children(out, node, from, NULL);
}

ss_status ss_description_copy(const ss_description *from, const char *skip, ss_description *out) {
    ss_description copy;
    const ss_status status = ss_description_init(&copy);
    if (status != SS_OK) {
        return status;
    }
    copy.digest = from->digest;
    copy.root->where = from->root->where;
    if (!copy_children(&copy, copy.root, from->root, skip)) {
        ss_description_destroy(&copy);
        return SS_ERROR_MEMORY;
    }
    *out = copy;
    return SS_OK;
}

const ss_node *ss_node_child(const ss_node *group, const char *name) {
    if (group == NULL || group->kind != SS_NODE_GROUP) {
        return NULL;
    }
    for (const ss_node *child = group->first; child != NULL; child = child->next) {
        if (child->name != NULL && strcmp(child->name, name) == 0) {
            return child;
        }
    }
    return NULL;
}

const ss_node *ss_node_item(const ss_node *list, int i) {
    if (list == NULL || i < 0) {
        return NULL;
    }
    const ss_node *child = list->first;
    while (child != NULL && i > 0) {
        child = child->next;
        i--;
    }
    return child;
}

const char *ss_node_label(const ss_node *item) {
    const ss_node *name = ss_node_child(item, "name");
    return name != NULL && name->kind == SS_NODE_TEXT ? name->text : NULL;
}

const ss_node *ss_node_named(const ss_node *list, const char *name) {
    if (list == NULL || list->kind != SS_NODE_LIST) {
        return NULL;
    }
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        const char *label = ss_node_label(item);
        if (label != NULL && strcmp(label, name) == 0) {
            return item;
        }
    }
    return NULL;
}

static int position(const ss_node *item) {
    int before = 1;
    for (const ss_node *other = item->parent->first; other != item; other = other->next) {
        before++;
    }
    return before;
}

/* A faulty name would make the path itself unreadable; such an item is counted. */
static bool is_path_step(const char *label) {
    return label != NULL && label[0] != '\0' && strpbrk(label, ".[]=") == NULL && ss_text_is_clean(label) &&
           ss_text_width(label) <= SS_DESCRIPTION_NAME;
}

void ss_node_path(const ss_node *node, ss_text *path) {
    if (node == NULL || node->parent == NULL) {
        return;
    }
    ss_node_path(node->parent, path);
    if (path->length > 0) {
        ss_text_add(path, ".");
    }
    const char *label = ss_node_label(node);
    if (node->name != NULL) {
        ss_text_add(path, node->name);
    } else if (is_path_step(label)) {
        ss_text_add(path, label);
    } else {
        ss_text_printf(path, "%d", position(node));
    }
}

void ss_node_key_path(const ss_node *node, const char *key, ss_text *path) {
    const size_t before = path->length;
    ss_node_path(node, path);
    if (key == NULL) {
        return;
    }
    if (path->length > before) {
        ss_text_add(path, ".");
    }
    ss_text_add(path, key);
}
