/* path_set.c - sets one value of a description by its key path, names of list items included. */
#include "model/description_path.h"
#include "model/description_value.h"
#include "model/key_tree.h"

#include "base/try.h"

#include <limits.h>
#include <string.h>

/* Offered when a name is not found; more are cut. */
#define OFFERED 20

typedef struct setter {
    ss_description *description;
    ss_diag_list *diags;
    const char *path;    /* as given */
    ss_key_found *found; /* NULL: the value is set; else it is only looked up */
    ss_where where;      /* of faults */
    const char *said;    /* key path of faults */
    ss_text piece;       /* the step at hand */
    ss_text message;
} setter;

/* Values that are set have no place in a file. */
static const ss_where nowhere = {NULL, 0};

static ss_status fault(setter *s) {
    if (s->message.failed) {
        return SS_ERROR_MEMORY;
    }
    const bool look = s->found != NULL;
    const ss_status status = ss_diag_add(s->diags, SS_FAULT, s->where, s->said, "%s%s%s%s", look ? "\"" : "",
                                         look ? s->path : "", look ? "\": " : "", s->message.data);
    return status == SS_OK ? SS_ERROR_DESCRIPTION : status;
}

/* Takes the next step of the path into `piece`; false at its end. */
static bool next_piece(setter *s, const char **rest) {
    if (*rest == NULL) {
        return false;
    }
    const size_t length = strcspn(*rest, ".");
    ss_text_clear(&s->piece);
    ss_text_add_bytes(&s->piece, *rest, length);
    *rest = (*rest)[length] == '.' ? *rest + length + 1 : NULL;
    return true;
}

static ss_node *own(const ss_node *node) {
    /* The tree belongs to the description that is being changed; only the look-up is shared with readers. */
    return (ss_node *)node;
}

static int index_from_1(const char *text) {
    int value = 0;
    for (; *text >= '0' && *text <= '9' && value < INT_MAX / 10 - 1; text++) {
        value = 10 * value + (*text - '0');
    }
    return *text == '\0' ? value : 0;
}

static ss_status no_such_item(setter *s, const ss_node *list) {
    const char *names[OFFERED];
    int count = 0;
    if (list != NULL) {
        for (const ss_node *item = list->first; item != NULL && count < OFFERED; item = item->next) {
            const char *label = ss_node_label(item);
            if (label != NULL) {
                names[count++] = label;
            }
        }
    }
    const char *nearest = ss_text_nearest(s->piece.data, names, count);
    ss_text_printf(&s->message, "no item is called \"%s\"; ", s->piece.data);
    if (nearest != NULL) {
        ss_text_printf(&s->message, "did you mean \"%s\"?", nearest);
    } else if (count == 0) {
        ss_text_add(&s->message,
                    list == NULL || list->count == 0 ? "the list is empty" : "count them from 1");
    } else {
        ss_text_add(&s->message, "the list has ");
        for (int i = 0; i < count; i++) {
            ss_text_printf(&s->message, "%s\"%s\"", i == 0 ? "" : ", ", names[i]);
        }
    }
    return fault(s);
}

/* The step from a group to its member `key`, a group or list; a group is made where there is none. */
static ss_status enter(setter *s, ss_node **at, const ss_key *key) {
    const bool group = key->kind == SS_KEY_GROUP;
    ss_node *child = own(ss_node_child(*at, s->piece.data));
    if (child == NULL && group && s->found == NULL) {
        child = ss_node_add(s->description, *at, SS_NODE_GROUP, s->piece.data, nowhere);
        if (child == NULL) {
            return SS_ERROR_MEMORY;
        }
    }
    if (child != NULL && child->kind != (group ? SS_NODE_GROUP : SS_NODE_LIST)) {
        ss_text_printf(&s->message, "%s is ", s->piece.data);
        ss_value_quote(child, &s->message);
        ss_text_add(&s->message, "; ");
        ss_value_due(key, &s->message);
        return fault(s);
    }
    *at = child; /* NULL: a list that is not there */
    return SS_OK;
}

/* From a list to the item that the next piece names. */
static ss_status enter_item(setter *s, ss_node **at, const char **rest) {
    const ss_node *list = *at;
    if (!next_piece(s, rest)) {
        ss_text_add(&s->message, "the path ends at a list; the name of an item and a key are due");
        return fault(s);
    }
    if (s->piece.failed) {
        return SS_ERROR_MEMORY;
    }
    const ss_node *item = ss_node_named(list, s->piece.data);
    if (item == NULL) {
        item = ss_node_item(list, index_from_1(s->piece.data) - 1);
    }
    if (item == NULL || item->kind != SS_NODE_GROUP) {
        return no_such_item(s, list);
    }
    *at = own(item);
    return SS_OK;
}

static char *copy_trimmed(ss_description *description, const char *text, size_t length) {
    while (length > 0 && (*text == ' ' || *text == '\t')) {
        text++;
        length--;
    }
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == '\t')) {
        length--;
    }
    return ss_arena_text(&description->arena, text, length);
}

/* A comma list as a list node: of texts, or of numbers. */
static ss_status write_list(setter *s, ss_node *node, const ss_key *key, const char *value) {
    node->kind = SS_NODE_LIST;
    ss_key item_key = *key;
    item_key.kind = key->kind == SS_KEY_REFERENCES ? SS_KEY_REFERENCE : SS_KEY_QUANTITY;
    for (bool more = value[0] != '\0'; more;) {
        const size_t length = strcspn(value, ",");
        const char *text = copy_trimmed(s->description, value, length);
        ss_node *item = ss_node_add(s->description, node, SS_NODE_TEXT, NULL, nowhere);
        if (text == NULL || item == NULL) {
            return SS_ERROR_MEMORY;
        }
        ss_value_write(&item_key, text, item);
        more = value[length] == ',';
        value += length + (more ? 1 : 0);
    }
    return SS_OK;
}

static ss_status write_value(setter *s, ss_node *group, const ss_key *key, const char *value) {
    ss_node *node = own(ss_node_child(group, s->piece.data));
    if (node == NULL) {
        node = ss_node_add(s->description, group, SS_NODE_TEXT, s->piece.data, nowhere);
    }
    if (node == NULL) {
        return SS_ERROR_MEMORY;
    }
    node->where = nowhere;
    node->first = NULL;
    node->last = NULL;
    node->count = 0;
    const bool list =
        key->kind == SS_KEY_REFERENCES || (key->kind == SS_KEY_QUANTITIES && key->dimension == SS_DIM_NUMBER);
    if (list) {
        return write_list(s, node, key, value);
    }
    const char *text = copy_trimmed(s->description, value, strlen(value));
    if (text == NULL) {
        return SS_ERROR_MEMORY;
    }
    ss_value_write(key, text, node);
    return SS_OK;
}

static ss_status walk_path(setter *s, const char *value) {
    ss_status status = SS_OK;
    const char *rest = s->path;
    ss_node *at = s->description->root;
    const ss_key *parent = NULL;
    while (next_piece(s, &rest)) {
        if (s->piece.failed) {
            return SS_ERROR_MEMORY;
        }
        const char *name = s->piece.data == NULL ? "" : s->piece.data;
        const ss_key *key = ss_key_child(parent, name);
        if (key == NULL) {
            ss_text_printf(&s->message, "\"%s\": ", name);
            ss_key_unknown(parent, name, &s->message);
            return fault(s);
        }
        const bool leaf = key->kind != SS_KEY_GROUP && key->kind != SS_KEY_LIST;
        if (leaf && rest != NULL) {
            ss_text_printf(&s->message, "the path goes on after %s, which holds no keys", name);
            return fault(s);
        }
        if (leaf && s->found != NULL) {
            *s->found = (ss_key_found){key, ss_node_child(at, name)};
            return SS_OK;
        }
        if (leaf) {
            return write_value(s, at, key, value);
        }
        SS_TRY(enter(s, &at, key));
        if (key->kind == SS_KEY_LIST) {
            SS_TRY(enter_item(s, &at, &rest));
        }
        parent = key;
    }
    ss_text_add(&s->message, "the path ends at a group; one of its keys is due");
    status = fault(s);
done:
    return status;
}

ss_status ss_description_set(ss_description *description, const char *path, const char *value,
                             ss_diag_list *diags) {
    setter s = {.description = description, .diags = diags, .path = path, .where = nowhere, .said = path};
    const ss_status status = walk_path(&s, value);
    ss_text_destroy(&s.piece);
    ss_text_destroy(&s.message);
    return status;
}

ss_status ss_description_find(const ss_description *description, const char *path, ss_where where,
                              const char *said, ss_key_found *out, ss_diag_list *diags) {
    ss_key_found found = {NULL, NULL};
    /* Nothing of it is changed while `found` is there to be filled. */
    setter s = {.description = (ss_description *)description,
                .diags = diags,
                .path = path,
                .found = &found,
                .where = where,
                .said = said};
    const ss_status status = walk_path(&s, "");
    ss_text_destroy(&s.piece);
    ss_text_destroy(&s.message);
    if (status == SS_OK) {
        *out = found;
    }
    return status;
}
