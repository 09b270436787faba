/* resolve_unknown_list.c - unknowns that have one of some values: numbers, words, true and false. */
#include "model/resolve_unknown.h"

#include <string.h>

#include "base/numeric.h"
#include "model/description_value.h"

static bool out_of_memory(ss_resolve *c) {
    c->reading.status = SS_ERROR_MEMORY;
    return false;
}

/* ---- one value ------------------------------------------------------------------------------------ */

static bool say_fault(ss_resolve *c, const ss_unknown_item *item, ss_verdict *verdict) {
    if (verdict->fault.failed) {
        return out_of_memory(c);
    }
    ss_read_complain(&c->reading, SS_FAULT, item->node, "values", "%s", verdict->fault.data);
    return false;
}

/* Adds a value as a text that ss_description_set takes, and as one for people. */
static bool add(ss_resolve *c, const ss_unknown_item *item, const char *text, const char *word,
                bool described) {
    ss_unknown *const u = item->unknown;
    if (u->text_count == SS_UNKNOWN_VALUES) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "values", "more than %d values; a range has many",
                         SS_UNKNOWN_VALUES);
        return false;
    }
    for (int i = 0; i < u->text_count; i++) {
        if (strcmp(u->texts[i], text) == 0) {
            ss_read_complain(&c->reading, SS_FAULT, item->node, "values",
                             "\"%s\" stands twice; once is enough", word);
            return false;
        }
    }
    u->texts[u->text_count] = ss_resolve_text(c, text);
    u->words[u->text_count] = ss_resolve_text(c, word);
    if (u->texts[u->text_count] == NULL || u->words[u->text_count] == NULL) {
        return false;
    }
    if (described) {
        u->mode = u->text_count; /* its index, until all are known */
    }
    u->text_count++;
    return true;
}

static bool add_word(ss_resolve *c, const ss_unknown_item *item, const char *word) {
    return add(c, item, word, word, item->described != NULL && strcmp(word, item->described) == 0);
}

static bool add_number_words(ss_resolve *c, const ss_unknown_item *item, double number) {
    const ss_unknown *const u = item->unknown;
    char exact[SS_WORDS];
    char shown[SS_WORDS];
    if (u->whole) {
        ss_text_decimals(exact, sizeof exact, number, 0);
    } else {
        ss_units_exact(exact, sizeof exact, number, u->dimension);
    }
    (void)ss_resolve_quantity(c, number, u->dimension, shown);
    return add(c, item, exact, shown, number == u->described);
}

/* One value that was written on its own, `node` as for the key. */
static bool add_node(ss_resolve *c, const ss_unknown_item *item, const ss_node *node) {
    ss_value value;
    ss_verdict verdict = {0};
    bool good = ss_value_read(item->key, node, &value, &verdict);
    if (!good) {
        good = say_fault(c, item, &verdict);
    } else if (item->key->kind == SS_KEY_FLAG) {
        good = add_word(c, item, node->flag ? "true" : "false");
    } else if (value.choice < 0 && value.count == 1) {
        good = add_number_words(c, item, value.numbers[0]);
    } else {
        good = add_word(c, item, node->text);
    }
    ss_verdict_destroy(&verdict);
    return good;
}

/* ---- several in one text -------------------------------------------------------------------------- */

/* "0, 1/2, 1 in": a list of quantities with one unit, when it is one; -1: not. */
static int read_quantities(const ss_unknown_item *item, const char *text, double *out) {
    int count = 0;
    const bool measured = item->key->kind == SS_KEY_QUANTITY || item->key->kind == SS_KEY_CHOICE_OR_QUANTITY;
    if (!measured || item->key->dimension == SS_DIM_NUMBER ||
        ss_units_parse(text, item->key->dimension, out, SS_DESCRIPTION_VALUES, &count, NULL) != SS_OK) {
        return -1;
    }
    return count;
}

/* Numbers that passed as a list still have limits, each of them. */
static bool add_number(ss_resolve *c, const ss_unknown_item *item, double number) {
    char exact[SS_WORDS];
    ss_node node = {.kind = SS_NODE_TEXT, .text = exact};
    ss_units_exact(exact, sizeof exact, number, item->key->dimension);
    return add_node(c, item, &node);
}

static bool add_text(ss_resolve *c, const ss_unknown_item *item, const char *text) {
    double numbers[SS_DESCRIPTION_VALUES];
    const int count = read_quantities(item, text, numbers);
    for (int i = 0; i < count; i++) {
        if (!add_number(c, item, numbers[i])) {
            return false;
        }
    }
    for (bool more = count < 0; more;) {
        const size_t length = strcspn(text, ",");
        size_t start = strspn(text, " \t");
        size_t end = length;
        while (end > start && (text[end - 1] == ' ' || text[end - 1] == '\t')) {
            end--;
        }
        start = start < end ? start : end;
        char *const piece = ss_resolve_scratch(c, end - start + 1, 1);
        ss_node node = {0};
        if (piece == NULL) {
            return false;
        }
        memcpy(piece, text + start, end - start);
        ss_value_write(item->key, piece, &node);
        if (!add_node(c, item, &node)) {
            return false;
        }
        more = text[length] == ',';
        text += length + (more ? 1 : 0);
    }
    return true;
}

/* ---- all ------------------------------------------------------------------------------------------ */

static bool add_values(ss_resolve *c, const ss_unknown_item *item, const ss_node *values) {
    if (values->kind == SS_NODE_TEXT) {
        return add_text(c, item, values->text);
    }
    if (values->kind != SS_NODE_LIST) {
        return add_node(c, item, values);
    }
    for (const ss_node *at = values->first; at != NULL; at = at->next) {
        ss_node node = *at;
        if (at->kind == SS_NODE_TEXT) {
            ss_value_write(item->key, at->text, &node);
        }
        if (!add_node(c, item, &node)) {
            return false;
        }
    }
    return true;
}

static bool read_weights(ss_resolve *c, ss_unknown_item *item) {
    ss_unknown *const u = item->unknown;
    double given[SS_DESCRIPTION_VALUES] = {0.0};
    const bool stated = ss_read_given(item->node, "weights");
    double sum = 0.0;
    bool negative = false;
    int count = u->text_count;
    if (stated) {
        count =
            ss_read_quantities(&c->reading, item->node, "unknowns[].weights", given, SS_DESCRIPTION_VALUES);
        if (count == 0) {
            c->broken = true;
            return false;
        }
    }
    for (int i = 0; i < count; i++) {
        given[i] = stated ? given[i] : 1.0;
        negative = negative || given[i] < 0.0;
        sum += given[i];
    }
    if (negative) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "weights",
                         "one of them is below 0; a weight is 0 or more");
        return false;
    }
    if (count != u->text_count || !(sum > 0.0 && sum < SS_INFINITY)) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "weights",
                         count != u->text_count ? "found %d for %d values; each value has one"
                                                : "all %d are 0; one of %d at least is due above 0",
                         count, u->text_count);
        return false;
    }
    for (int i = 0; i < count; i++) {
        u->weights[i] = given[i] / sum;
    }
    return true;
}

bool ss_unknown_read_discrete(ss_resolve *c, ss_unknown_item *item) {
    ss_unknown *const u = item->unknown;
    const ss_node *const values = ss_node_child(item->node, "values");
    if (values == NULL || values->kind == SS_NODE_GROUP) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "values",
                         "not given; values one by one are due, such as \"closed, open\"");
        return false;
    }
    u->texts = ss_resolve_alloc(c, SS_UNKNOWN_VALUES, sizeof *u->texts);
    u->words = ss_resolve_alloc(c, SS_UNKNOWN_VALUES, sizeof *u->words);
    u->weights = ss_resolve_alloc(c, SS_UNKNOWN_VALUES, sizeof *u->weights);
    if (u->texts == NULL || u->words == NULL || u->weights == NULL) {
        return false;
    }
    if (!add_values(c, item, values)) {
        return false;
    }
    if (u->text_count < 2) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "values",
                         "found one value; two or more are due, what is known needs no entry");
        return false;
    }
    u->described = u->mode;
    u->mode = SS_NAN;
    u->low = u->box_low = 0.0;
    u->high = u->box_high = u->text_count - 1.0;
    return read_weights(c, item);
}
