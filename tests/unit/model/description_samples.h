/* description_samples.h - builds small descriptions node by node, and finds what was said about them. */
#ifndef SS_TESTS_DESCRIPTION_SAMPLES_H
#define SS_TESTS_DESCRIPTION_SAMPLES_H

#include <stdio.h>
#include <string.h>

#include "sillspan/description.h"

static inline ss_node *put(ss_description *d, ss_node *parent, ss_node_kind kind, const char *name,
                           int line) {
    return ss_node_add(d, parent, kind, name, (ss_where){"creek.cfg", line});
}

static inline ss_node *put_text(ss_description *d, ss_node *parent, const char *name, const char *text,
                                int line) {
    ss_node *node = put(d, parent, SS_NODE_TEXT, name, line);
    if (node != NULL) {
        node->text = text;
    }
    return node;
}

static inline ss_node *put_number(ss_description *d, ss_node *parent, const char *name, double number,
                                  int line) {
    ss_node *node = put(d, parent, SS_NODE_REAL, name, line);
    if (node != NULL) {
        node->number = number;
    }
    return node;
}

/* Whether "path: message" was said, as that severity, at that line. */
static inline bool was_said(const ss_diag_list *list, ss_severity severity, int line, const char *words) {
    char said[2048];
    for (int i = 0; i < list->count; i++) {
        const ss_diag *item = &list->items[i];
        snprintf(said, sizeof said, "%s: %s", item->path, item->message);
        if (item->severity == severity && item->where.line == line && strcmp(said, words) == 0) {
            return true;
        }
    }
    fprintf(stderr, "not said at line %d: %s\n", line, words);
    for (int i = 0; i < list->count; i++) {
        fprintf(stderr, "  said at %d: %s: %s\n", list->items[i].where.line, list->items[i].path,
                list->items[i].message);
    }
    return false;
}

#endif
