/* key_tree.c - the key table seen as a tree. */
#include "model/key_tree.h"

#include <string.h>

const char *ss_key_leaf(const char *path) {
    const char *dot = strrchr(path, '.');
    return dot == NULL ? path : dot + 1;
}

bool ss_key_is_variants(const ss_key *parent) {
    return parent != NULL && strcmp(parent->path, "variants") == 0;
}

bool ss_key_is_child(const ss_key *key, const ss_key *parent) {
    const char *rest = key->path;
    if (parent != NULL) {
        const size_t length = strlen(parent->path);
        if (strncmp(rest, parent->path, length) != 0) {
            return false;
        }
        rest += length;
        if (parent->kind == SS_KEY_LIST) {
            if (strncmp(rest, "[]", 2) != 0) {
                return false;
            }
            rest += 2;
        }
        if (*rest != '.') {
            return false;
        }
        rest++;
    }
    return strchr(rest, '.') == NULL;
}

/* A variant holds besides its name whatever stands at the top of a description. */
static bool belongs(const ss_key *key, const ss_key *parent) {
    return ss_key_is_child(key, parent) ||
           (ss_key_is_variants(parent) && key != parent && ss_key_is_child(key, NULL));
}

const ss_key *ss_key_child(const ss_key *parent, const char *name) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    for (int i = 0; i < count; i++) {
        if (belongs(&keys[i], parent) && strcmp(ss_key_leaf(keys[i].path), name) == 0) {
            return &keys[i];
        }
    }
    return NULL;
}

int ss_key_children(const ss_key *parent, const char **names) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    int found = 0;
    for (int i = 0; i < count && found < SS_KEY_SIBLINGS; i++) {
        if (belongs(&keys[i], parent)) {
            names[found++] = ss_key_leaf(keys[i].path);
        }
    }
    return found;
}

void ss_key_unknown(const ss_key *parent, const char *name, ss_text *message) {
    const char *names[SS_KEY_SIBLINGS];
    const int count = ss_key_children(parent, names);
    const char *nearest = ss_text_nearest(name, names, count);
    if (nearest != NULL) {
        ss_text_printf(message, "unknown key; did you mean %s?", nearest);
        return;
    }
    ss_text_add(message, "unknown key; allowed here are ");
    for (int i = 0; i < count; i++) {
        ss_text_printf(message, "%s%s", i == 0 ? "" : ", ", names[i]);
    }
}
