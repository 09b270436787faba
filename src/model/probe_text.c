/* probe_text.c - a probe written on a command line, as an item of the description's list. */
#include <string.h>

#include "base/try.h"
#include "sillspan/probe.h"
#include "sillspan/text.h"

/* What comes of it has no place in a file. */
static const ss_where nowhere = {"--influence", 0};

static const char example[] = "\"car=north; line=main girder; x=30 ft; effect=moment\"";

typedef struct piece {
    const char *start, *end;
} piece;

static piece trim(const char *start, const char *end) {
    while (start < end && (*start == ' ' || *start == '\t')) {
        start++;
    }
    while (end > start && (end[-1] == ' ' || end[-1] == '\t')) {
        end--;
    }
    return (piece){start, end};
}

static ss_status fault(const char *text, ss_diag_list *diags, const char *message) {
    const ss_status status = ss_diag_add(diags, SS_FAULT, nowhere, text, "%s, such as %s", message, example);
    return status == SS_OK ? SS_ERROR_DESCRIPTION : status;
}

static ss_status put(ss_description *description, ss_node *group, piece key, piece value) {
    ss_arena *const arena = &description->arena;
    const char *const name = ss_arena_text(arena, key.start, (size_t)(key.end - key.start));
    const char *const text = ss_arena_text(arena, value.start, (size_t)(value.end - value.start));
    ss_node *const node = name == NULL ? NULL : ss_node_add(description, group, SS_NODE_TEXT, name, nowhere);
    if (node == NULL || text == NULL) {
        return SS_ERROR_MEMORY;
    }
    node->text = text;
    return SS_OK;
}

/* "key=value", the next of several with semicolons between. */
static ss_status put_pair(ss_description *description, ss_node *group, piece pair, const char *text,
                          ss_diag_list *diags) {
    const char *const sign = memchr(pair.start, '=', (size_t)(pair.end - pair.start));
    if (sign == NULL) {
        return fault(text, diags, "keys of a probe with semicolons between are due");
    }
    const piece key = trim(pair.start, sign);
    const piece value = trim(sign + 1, pair.end);
    if (key.start == key.end || value.start == value.end) {
        return fault(text, diags, "something is missing beside =; keys of a probe are due");
    }
    const char name[] = "name";
    if ((size_t)(key.end - key.start) == strlen(name) && strncmp(key.start, name, strlen(name)) == 0) {
        return fault(text, diags, "it needs no name; the other keys of a probe are due");
    }
    return put(description, group, key, value);
}

ss_status ss_probe_add(ss_description *description, const char *name, const char *text, ss_diag_list *diags) {
    ss_status status = SS_OK;
    ss_node *list = (ss_node *)ss_node_child(description->root, "probes");
    if (list == NULL) {
        list = ss_node_add(description, description->root, SS_NODE_LIST, "probes", nowhere);
    }
    if (list != NULL && list->kind != SS_NODE_LIST) {
        return fault(text, diags, "the description's \"probes\" is no list; a list of groups is due");
    }
    ss_node *const group = list == NULL ? NULL : ss_node_add(description, list, SS_NODE_GROUP, NULL, nowhere);
    if (group == NULL) {
        return SS_ERROR_MEMORY;
    }
    static const char key[] = "name";
    SS_TRY(put(description, group, (piece){key, key + strlen(key)}, (piece){name, name + strlen(name)}));
    for (const char *at = text; *at != '\0';) {
        const size_t length = strcspn(at, ";");
        const piece pair = trim(at, at + length);
        if (pair.start < pair.end) {
            SS_TRY(put_pair(description, group, pair, text, diags));
        }
        at += length;
        at += *at == ';';
    }
done:
    return status;
}
