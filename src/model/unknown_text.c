/* unknown_text.c - an unknown written on a command line, as an item of the description's list. */
#include "sillspan/unknown.h"

#include <string.h>

#include "base/try.h"
#include "sillspan/text.h"

/* What comes of it has no place in a file. */
static const ss_where nowhere = {"--unknown", 0};

/* Forms with arguments in parentheses, and the keys that these are. */
static const struct call {
    const char *name;
    int count;
    const char *keys[3];
} calls[] = {
    {"uniform", 2, {"low", "high"}},
    {"normal", 2, {"mean", "sd"}},
    {"lognormal", 2, {"mean", "sd"}},
    {"triangular", 3, {"low", "mode", "high"}},
};

#define CALLS ((int)(sizeof calls / sizeof calls[0]))

typedef struct adder {
    ss_description *description;
    ss_diag_list *diags;
    const char *text;
    ss_node *item;
} adder;

/* A piece of the text, without white space around it. */
typedef struct span {
    const char *start, *end;
} span;

static bool is_space(char letter) {
    return letter == ' ' || letter == '\t';
}

static span trim(const char *start, const char *end) {
    while (start < end && is_space(*start)) {
        start++;
    }
    while (end > start && is_space(end[-1])) {
        end--;
    }
    return (span){start, end};
}

static ss_status fault(const adder *a, const char *message) {
    const ss_status status = ss_diag_add(a->diags, SS_FAULT, nowhere, a->text, "%s", message);
    return status == SS_OK ? SS_ERROR_DESCRIPTION : status;
}

/* ---- nodes ---------------------------------------------------------------------------------------- */

static ss_status put(const adder *a, ss_node *group, const char *key, span piece) {
    ss_node *const node = ss_node_add(a->description, group, SS_NODE_TEXT, key, nowhere);
    char *const copy = ss_arena_text(&a->description->arena, piece.start, (size_t)(piece.end - piece.start));
    if (node == NULL || copy == NULL) {
        return SS_ERROR_MEMORY;
    }
    node->text = copy;
    return SS_OK;
}

static ss_status put_word(const adder *a, const char *key, const char *word) {
    return put(a, a->item, key, (span){word, word + strlen(word)});
}

static ss_status put_paths(const adder *a, span paths) {
    ss_status status = SS_OK;
    ss_node *const list = ss_node_add(a->description, a->item, SS_NODE_LIST, "paths", nowhere);
    if (list == NULL) {
        return SS_ERROR_MEMORY;
    }
    const char *at = paths.start;
    while (at <= paths.end) {
        const char *const comma = memchr(at, ',', (size_t)(paths.end - at));
        const char *const end = comma == NULL ? paths.end : comma;
        const span piece = trim(at, end);
        if (piece.start == piece.end) {
            return fault(a, "a path is missing before = or beside a comma");
        }
        SS_TRY(put(a, list, NULL, piece));
        if (at == paths.start) {
            SS_TRY(put(a, a->item, "name", piece));
            for (char *c = (char *)a->item->last->text; *c != '\0'; c++) {
                *c = *c == '.' ? ' ' : *c;
            }
        }
        at = end + 1;
    }
done:
    return status;
}

/* ---- what it can be ------------------------------------------------------------------------------- */

/* "low .. high log", `dots` where they are. */
static ss_status put_range(const adder *a, span given, const char *dots) {
    ss_status status = SS_OK;
    const span low = trim(given.start, dots);
    span high = trim(dots + 2, given.end);
    const size_t length = (size_t)(high.end - high.start);
    const bool log = length > 3 && strncmp(high.end - 3, "log", 3) == 0 && is_space(high.end[-4]);
    if (log) {
        high = trim(high.start, high.end - 3);
    }
    if (low.start == low.end || high.start == high.end) {
        return fault(a, "a range has a value on both sides of \"..\", such as 24 ksi .. 50 ksi");
    }
    SS_TRY(put(a, a->item, "low", low));
    SS_TRY(put(a, a->item, "high", high));
    if (log) {
        SS_TRY(put_word(a, "scale", "log"));
    }
done:
    return status;
}

static ss_status put_call(const adder *a, const struct call *call, span inside) {
    ss_status status = SS_OK;
    const char *at = inside.start;
    SS_TRY(put_word(a, "distribution", call->name));
    for (int i = 0; i < call->count; i++) {
        const char *const comma = at > inside.end ? NULL : memchr(at, ',', (size_t)(inside.end - at));
        const bool last = i == call->count - 1;
        const span piece = at > inside.end ? (span){at, at} : trim(at, comma == NULL ? inside.end : comma);
        if (piece.start == piece.end || last != (comma == NULL)) {
            ss_text message = {0};
            ss_text_printf(&message, "%s( ) takes %d values with commas between: ", call->name, call->count);
            for (int k = 0; k < call->count; k++) {
                ss_text_printf(&message, "%s%s", k == 0 ? "" : ", ", call->keys[k]);
            }
            status = message.failed ? SS_ERROR_MEMORY : fault(a, message.data);
            ss_text_destroy(&message);
            return status;
        }
        SS_TRY(put(a, a->item, call->keys[i], piece));
        at = comma == NULL ? inside.end + 1 : comma + 1;
    }
done:
    return status;
}

/* A word right before the opening parenthesis of a value that ends with the closing one. */
static ss_status put_named(const adder *a, span name, span inside) {
    const char *names[CALLS];
    ss_text word = {0};
    ss_text_add_bytes(&word, name.start, (size_t)(name.end - name.start));
    if (word.failed) {
        return SS_ERROR_MEMORY;
    }
    ss_status status = SS_OK;
    int found = -1;
    for (int i = 0; i < CALLS; i++) {
        names[i] = calls[i].name;
        found = word.data != NULL && strcmp(names[i], word.data) == 0 ? i : found;
    }
    if (found >= 0) {
        status = put_call(a, &calls[found], inside);
    } else {
        const char *const nearest = ss_text_nearest(word.data == NULL ? "" : word.data, names, CALLS);
        ss_text message = {0};
        ss_text_add(&message, "before ( stands one of uniform, normal, lognormal and triangular");
        if (nearest != NULL) {
            ss_text_printf(&message, "; did you mean %s?", nearest);
        }
        status = message.failed ? SS_ERROR_MEMORY : fault(a, message.data);
        ss_text_destroy(&message);
    }
    ss_text_destroy(&word);
    return status;
}

static ss_status put_values(const adder *a, span given) {
    const char *const open = memchr(given.start, '(', (size_t)(given.end - given.start));
    const char *const dots = strstr(given.start, "..");
    if (dots != NULL) {
        return put_range(a, given, dots);
    }
    if (open != NULL && given.end[-1] == ')') {
        return put_named(a, trim(given.start, open), trim(open + 1, given.end - 1));
    }
    if (memchr(given.start, ',', (size_t)(given.end - given.start)) == NULL) {
        return fault(a, "after = is due what it can be: \"24 ksi .. 50 ksi\", \"closed, open\" or "
                        "\"normal(42 ksi, 3 ksi)\"");
    }
    return put(a, a->item, "values", given);
}

/* ---- the item ------------------------------------------------------------------------------------- */

/* The list, made where there is none; NULL without memory or where something else has its name. */
static ss_node *find_list(ss_description *description) {
    /* The tree is the caller's to change. */
    ss_node *const list = (ss_node *)ss_node_child(description->root, "unknowns");
    if (list == NULL) {
        return ss_node_add(description, description->root, SS_NODE_LIST, "unknowns", nowhere);
    }
    return list->kind == SS_NODE_LIST ? list : NULL;
}

ss_status ss_unknown_add(ss_description *description, const char *text, ss_diag_list *diags) {
    ss_status status = SS_OK;
    adder a = {.description = description, .diags = diags, .text = text};
    const char *const sign = strchr(text, '=');
    if (sign == NULL) {
        status = fault(&a, "an unknown is PATH=LOW..HIGH, such as \"steels.car steel.fy=30 ksi..50 ksi\"");
        goto done;
    }
    const span paths = trim(text, sign);
    const span given = trim(sign + 1, text + strlen(text));
    if (given.start == given.end || paths.start == paths.end) {
        status = fault(&a, "something is missing beside =; PATH=LOW..HIGH is due, such as \"steels.car "
                           "steel.fy=30 ksi..50 ksi\"");
        goto done;
    }
    ss_node *const list = find_list(description);
    a.item = list == NULL ? NULL : ss_node_add(description, list, SS_NODE_GROUP, NULL, nowhere);
    if (list == NULL && ss_node_child(description->root, "unknowns") != NULL) {
        status = fault(&a, "the description's \"unknowns\" is no list; a list of groups is due");
        goto done;
    }
    if (a.item == NULL) {
        status = SS_ERROR_MEMORY;
        goto done;
    }
    SS_TRY(put_paths(&a, paths));
    SS_TRY(put_values(&a, given));
done:
    return status;
}
