/* reading.c - values of a description with their defaults, each default noted as an assumption. */
#include "model/description_path.h"
#include "model/description_value.h"
#include "model/key_tree.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* ---- assumptions -------------------------------------------------------------------------------- */

ss_status ss_assumption_add(ss_assumption_list *list, const char *path, const char *value, const char *why) {
    for (int i = 0; i < list->count; i++) {
        const ss_assumption *item = &list->items[i];
        if (strcmp(item->path, path) == 0 && strcmp(item->value, value) == 0 && strcmp(item->why, why) == 0) {
            return SS_OK;
        }
    }
    if (list->count == list->capacity) {
        const int capacity = list->capacity == 0 ? 16 : 2 * list->capacity;
        ss_assumption *grown = ss_realloc(list->items, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return SS_ERROR_MEMORY;
        }
        list->items = grown;
        list->capacity = capacity;
    }
    const ss_assumption item = {
        .path = ss_arena_text(&list->arena, path, strlen(path)),
        .value = ss_arena_text(&list->arena, value, strlen(value)),
        .why = ss_arena_text(&list->arena, why, strlen(why)),
    };
    if (item.path == NULL || item.value == NULL || item.why == NULL) {
        return SS_ERROR_MEMORY;
    }
    list->items[list->count++] = item;
    return SS_OK;
}

void ss_assumption_destroy(ss_assumption_list *list) {
    if (list == NULL) {
        return;
    }
    ss_free(list->items);
    ss_arena_destroy(&list->arena);
    *list = (ss_assumption_list){0};
}

/* ---- one value ---------------------------------------------------------------------------------- */

/* The path of a key in a group that may not be there: then the table's path without its list marks. */
static void key_path(const ss_node *group, const char *table_path, ss_text *path) {
    if (group != NULL) {
        ss_node_key_path(group, ss_key_leaf(table_path), path);
        return;
    }
    while (*table_path != '\0') {
        const size_t length = strcspn(table_path, "[");
        ss_text_add_bytes(path, table_path, length);
        table_path += length;
        if (*table_path == '[') {
            table_path += 2;
        }
    }
}

static void assume(ss_reading *r, const ss_node *group, const ss_key *key) {
    if (r->assumptions == NULL) {
        return;
    }
    ss_text path = {0};
    key_path(group, key->path, &path);
    if (path.failed || path.data == NULL) {
        r->status = SS_ERROR_MEMORY;
    } else {
        r->status = ss_assumption_add(r->assumptions, path.data, key->fallback, key->help);
    }
    ss_text_destroy(&path);
}

/* The value at the key, or its default; false when there is neither, or a faulty one. */
static bool read(ss_reading *r, const ss_node *group, const char *table_path, ss_value *value) {
    if (r->status != SS_OK) {
        return false;
    }
    const ss_key *key = ss_key_find(table_path);
    if (key == NULL) {
        r->status = SS_ERROR_INTERNAL;
        return false;
    }
    const ss_node *node = ss_node_child(group, ss_key_leaf(table_path));
    ss_node assumed = {0};
    if (node == NULL) {
        if (key->fallback == NULL) {
            return false;
        }
        assume(r, group, key);
        if (r->status != SS_OK) {
            return false;
        }
        ss_value_write(key, key->fallback, &assumed);
        node = &assumed;
    }
    ss_verdict unused = {0};
    const bool good = ss_value_read(key, node, value, &unused);
    ss_verdict_destroy(&unused);
    return good;
}

bool ss_read_quantity(ss_reading *r, const ss_node *group, const char *table_path, double *out) {
    ss_value value;
    if (!read(r, group, table_path, &value) || value.count != 1) {
        return false;
    }
    *out = value.numbers[0];
    return true;
}

int ss_read_quantities(ss_reading *r, const ss_node *group, const char *table_path, double *out,
                       int capacity) {
    ss_value value;
    if (!read(r, group, table_path, &value) || value.count > capacity) {
        return 0;
    }
    memcpy(out, value.numbers, (size_t)value.count * sizeof *out);
    return value.count;
}

bool ss_read_text(ss_reading *r, const ss_node *group, const char *table_path, const char **out) {
    ss_value value = {.text = NULL};
    if (!read(r, group, table_path, &value) || value.text == NULL) {
        return false;
    }
    *out = value.text;
    return true;
}

bool ss_read_flag(ss_reading *r, const ss_node *group, const char *table_path, bool *out) {
    ss_value value;
    if (!read(r, group, table_path, &value)) {
        return false;
    }
    *out = value.flag;
    return true;
}

bool ss_read_integer(ss_reading *r, const ss_node *group, const char *table_path, int *out) {
    ss_value value;
    if (!read(r, group, table_path, &value)) {
        return false;
    }
    *out = value.integer;
    return true;
}

int ss_read_choice(ss_reading *r, const ss_node *group, const char *table_path, double *quantity) {
    ss_value value;
    if (!read(r, group, table_path, &value)) {
        return -2;
    }
    if (value.choice < 0 && quantity != NULL) {
        *quantity = value.numbers[0];
    }
    return value.choice;
}

bool ss_read_given(const ss_node *group, const char *key) {
    return ss_node_child(group, key) != NULL;
}

/* ---- words about a place ------------------------------------------------------------------------ */

const char *ss_read_path(ss_reading *r, const ss_node *node) {
    ss_text path = {0};
    ss_node_path(node, &path);
    const char *own = NULL;
    if (!path.failed) {
        own = ss_arena_text(&r->assumptions->arena, path.data == NULL ? "" : path.data, path.length);
    }
    ss_text_destroy(&path);
    if (own == NULL) {
        r->status = SS_ERROR_MEMORY;
    }
    return own;
}

void ss_read_complain(ss_reading *r, ss_severity severity, const ss_node *node, const char *key,
                      const char *format, ...) {
    if (r->status != SS_OK) {
        return;
    }
    const ss_node *at = key == NULL ? node : ss_node_child(node, key);
    const ss_where where = at != NULL ? at->where : node != NULL ? node->where : (ss_where){NULL, 0};
    char message[1024];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(message, sizeof message, format, arguments);
    va_end(arguments);
    ss_text path = {0};
    ss_node_key_path(node, key, &path);
    r->status = path.failed ? SS_ERROR_MEMORY
                            : ss_diag_add(r->diags, severity, where, path.data == NULL ? "" : path.data, "%s",
                                          message);
    ss_text_destroy(&path);
}
