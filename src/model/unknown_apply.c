/* unknown_apply.c - puts a point of the unknowns into a description. */
#include "sillspan/unknown.h"

#include <string.h>

#include "model/key_tree.h"
#include "model/resolve_unknown.h"

/* Keys of one group of which a description gives one: who sets one of them leaves out the others, as a value
 * from a test takes the place of the year in which a car was built. */
static const struct rivals {
    const char *list;
    const char *keys[5];
} rivals[] = {
    {"steels[].", {"fy", "grade", "year_built", "coupons", NULL}},
    {"findings[].", {"thickness_left", "loss", NULL}},
};

static bool is_one_of(const char *word, const char *const *words) {
    for (; *words != NULL; words++) {
        if (strcmp(*words, word) == 0) {
            return true;
        }
    }
    return false;
}

static void drop(ss_node *group, ss_node *child, ss_node *before) {
    if (before == NULL) {
        group->first = child->next;
    } else {
        before->next = child->next;
    }
    if (group->last == child) {
        group->last = before;
    }
    group->count--;
}

/* The keys of which the group gives one, this one among them; NULL: it has no rivals. */
static const char *const *rivals_of(const ss_key *key) {
    for (size_t r = 0; r < sizeof rivals / sizeof rivals[0]; r++) {
        const size_t length = strlen(rivals[r].list);
        if (strncmp(key->path, rivals[r].list, length) == 0 &&
            is_one_of(key->path + length, rivals[r].keys)) {
            return rivals[r].keys;
        }
    }
    return NULL;
}

bool ss_unknown_rivals(const ss_key *key, const char *path, const char *other) {
    const char *const *const keys = rivals_of(key);
    const size_t group = (size_t)(ss_key_leaf(path) - path);
    return keys != NULL && strncmp(path, other, group) == 0 && strcmp(path, other) != 0 &&
           is_one_of(other + group, keys);
}

static void drop_rivals(const ss_key_found *found) {
    ss_node *const group = found->node == NULL ? NULL : found->node->parent;
    const char *const *const keys = rivals_of(found->key);
    ss_node *before = NULL;
    for (ss_node *child = group == NULL || keys == NULL ? NULL : group->first; child != NULL;
         child = child->next) {
        if (child != found->node && child->name != NULL && is_one_of(child->name, keys)) {
            drop(group, child, before);
        } else {
            before = child;
        }
    }
}

static ss_status set_one(ss_description *description, const char *path, const char *text,
                         ss_diag_list *diags) {
    ss_key_found found = {NULL, NULL};
    ss_status status = ss_description_set(description, path, text, diags);
    if (status == SS_OK) {
        status = ss_description_find(description, path, (ss_where){NULL, 0}, path, &found, diags);
    }
    if (status == SS_OK) {
        drop_rivals(&found);
    }
    return status;
}

ss_status ss_unknowns_apply(const ss_unknown_set *set, const double *point, ss_description *description,
                            ss_diag_list *diags) {
    ss_status status = SS_OK;
    for (int j = 0; j < set->count && status == SS_OK; j++) {
        const ss_unknown *const u = &set->items[j];
        char buffer[48];
        const char *const text = ss_unknown_text(u, point[j], buffer, sizeof buffer);
        for (int i = 0; i < u->path_count && status == SS_OK; i++) {
            status = set_one(description, u->paths[i], text, diags);
        }
    }
    return status;
}
