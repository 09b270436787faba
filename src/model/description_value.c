/* description_value.c - one written value against its row of the key table: kind, dimension, limits, choices.
 */
#include "model/description_value.h"

#include <limits.h>
#include <math.h>
#include <string.h>

#include "base/numeric.h"

/* Limits and values pass through different units ("12 in" and "1 ft"); this much is rounding. */
#define ROUNDING 1e-12

void ss_verdict_clear(ss_verdict *verdict) {
    ss_text_clear(&verdict->fault);
    ss_text_clear(&verdict->unlikely);
}

void ss_verdict_destroy(ss_verdict *verdict) {
    ss_text_destroy(&verdict->fault);
    ss_text_destroy(&verdict->unlikely);
}

static bool wrong_kind(const ss_key *key, const ss_node *node, ss_text *fault) {
    const bool number = node->kind == SS_NODE_INTEGER || node->kind == SS_NODE_REAL;
    const bool unit_missing = number && key->dimension != SS_DIM_NUMBER;
    if (!unit_missing) {
        ss_text_add(fault, "found ");
    }
    ss_value_quote(node, fault);
    ss_text_add(fault, unit_missing ? " has no unit; " : "; ");
    ss_value_due(key, fault);
    return false;
}

/* ---- texts -------------------------------------------------------------------------------------- */

static bool read_name(const ss_key *key, const ss_node *node, ss_text *fault) {
    if (node->text[0] == '\0') {
        ss_text_add(fault, "found an empty text; ");
        ss_value_due(key, fault);
    } else if (ss_text_width(node->text) > SS_DESCRIPTION_NAME) {
        ss_value_quote(node, fault);
        ss_text_printf(fault, " is too long; a name has at most %d characters", SS_DESCRIPTION_NAME);
    } else if (key->kind == SS_KEY_NAME && strpbrk(node->text, ".[]=") != NULL) {
        ss_value_quote(node, fault);
        ss_text_printf(fault,
                       " holds \"%c\"; names go without . [ ] and =, which have a meaning in key paths",
                       *strpbrk(node->text, ".[]="));
    } else {
        return true;
    }
    return false;
}

static bool read_text(const ss_key *key, const ss_node *node, ss_value *value, ss_text *fault) {
    if (node->kind != SS_NODE_TEXT) {
        return wrong_kind(key, node, fault);
    }
    if (strlen(node->text) > SS_DESCRIPTION_TEXT) {
        ss_value_quote(node, fault);
        ss_text_printf(fault, " is too long; a text has at most %d bytes", SS_DESCRIPTION_TEXT);
        return false;
    }
    if (!ss_text_is_clean(node->text)) {
        ss_text_add(
            fault,
            "the text holds a control character or is not UTF-8; letters, digits and signs are allowed");
        return false;
    }
    if (key->kind != SS_KEY_TEXT && !read_name(key, node, fault)) {
        return false;
    }
    value->text = node->text;
    return true;
}

static bool read_references(const ss_key *key, const ss_node *node, ss_text *fault) {
    if (node->kind != SS_NODE_LIST) {
        return wrong_kind(key, node, fault);
    }
    if (node->count == 0) {
        ss_text_add(fault, "found an empty list; at least one is due, ");
        ss_text_add(fault, key->choices);
        return false;
    }
    if (node->count > SS_DESCRIPTION_ITEMS) {
        ss_text_printf(fault, "found %d items; at most %d are allowed", node->count, SS_DESCRIPTION_ITEMS);
        return false;
    }
    ss_value unused;
    for (const ss_node *item = node->first; item != NULL; item = item->next) {
        if (item->kind != SS_NODE_TEXT) {
            ss_text_add(fault, "found ");
            ss_value_quote(item, fault);
            ss_text_add(fault, " in the list; texts are due, ");
            ss_text_add(fault, key->choices);
            return false;
        }
        if (!read_text(key, item, &unused, fault)) {
            return false;
        }
        for (const ss_node *other = node->first; other != item; other = other->next) {
            if (strcmp(other->text, item->text) != 0) {
                continue;
            }
            ss_value_quote(item, fault);
            ss_text_add(fault, " stands twice in the list; once is enough");
            return false;
        }
    }
    return true;
}

static bool read_choice(const ss_key *key, const ss_node *node, ss_value *value, ss_text *fault) {
    if (node->kind != SS_NODE_TEXT) {
        return wrong_kind(key, node, fault);
    }
    value->choice = ss_choice_index(key->choices, node->text);
    if (value->choice >= 0) {
        return true;
    }
    /* The words as terminated texts, for the nearest of them. */
    char words[160];
    const char *starts[16];
    int count = 0;
    if (strlen(key->choices) < sizeof words) {
        memcpy(words, key->choices, strlen(key->choices) + 1);
        for (char *at = words; at != NULL && count < 16; count++) {
            starts[count] = at;
            at = strchr(at, '|');
            if (at != NULL) {
                *at++ = '\0';
            }
        }
    }
    const char *nearest = ss_text_nearest(node->text, starts, count);
    ss_text_add(fault, "found ");
    ss_value_quote(node, fault);
    ss_text_add(fault, "; ");
    ss_value_due(key, fault);
    if (nearest != NULL) {
        ss_text_printf(fault, "; did you mean \"%s\"?", nearest);
    }
    return false;
}

/* ---- numbers ------------------------------------------------------------------------------------ */

/* A limit as the table writes it; false when there is none. */
static bool read_limit(const char *limit, ss_dimension dimension, double *value, bool *excluded) {
    if (limit == NULL) {
        return false;
    }
    *excluded = *limit == '>' || *limit == '<';
    if (*excluded) {
        limit++;
    }
    while (*limit == ' ') {
        limit++;
    }
    if (dimension == SS_DIM_NUMBER) {
        const char *end = NULL;
        *value = ss_text_number(limit, &end);
        return end != limit;
    }
    int count = 0;
    return ss_units_parse(limit, dimension, value, 1, &count, NULL) == SS_OK;
}

void ss_value_limits(const ss_key *key, double *least, double *most) {
    bool unused = false;
    *least = -SS_INFINITY;
    *most = SS_INFINITY;
    (void)read_limit(key->least, key->dimension, least, &unused);
    (void)read_limit(key->most, key->dimension, most, &unused);
}

static bool is_below(double value, const char *limit, ss_dimension dimension) {
    double least = 0.0;
    bool excluded = false;
    if (!read_limit(limit, dimension, &least, &excluded)) {
        return false;
    }
    const double rounding = ROUNDING * fabs(least);
    return excluded ? value <= least + rounding : value < least - rounding;
}

static bool is_above(double value, const char *limit, ss_dimension dimension) {
    double most = 0.0;
    bool excluded = false;
    if (!read_limit(limit, dimension, &most, &excluded)) {
        return false;
    }
    const double rounding = ROUNDING * fabs(most);
    return excluded ? value >= most - rounding : value > most + rounding;
}

static void name_value(const ss_node *node, int i, int count, ss_text *message) {
    ss_value_quote(node, message);
    if (count > 1) {
        ss_text_printf(message, ", number %d,", i + 1);
    }
}

/* Limits of each number: outside is a fault, outside the likely ones a remark about the first such number. */
static bool check_limits(const ss_key *key, const ss_node *node, const ss_value *value, ss_verdict *verdict) {
    for (int i = 0; i < value->count; i++) {
        const double number = value->numbers[i];
        const bool below = is_below(number, key->least, key->dimension);
        if (below || is_above(number, key->most, key->dimension)) {
            name_value(node, i, value->count, &verdict->fault);
            ss_text_printf(&verdict->fault, " is %s allowed, %s",
                           below ? "below the least" : "above the most", below ? key->least : key->most);
            return false;
        }
    }
    for (int i = 0; i < value->count; i++) {
        const double number = value->numbers[i];
        if (!is_below(number, key->likely_least, key->dimension) &&
            !is_above(number, key->likely_most, key->dimension)) {
            continue;
        }
        ss_text *remark = &verdict->unlikely;
        name_value(node, i, value->count, remark);
        if (key->likely_least != NULL && key->likely_most != NULL) {
            ss_text_printf(remark, " is unlikely; usual are %s to %s", key->likely_least, key->likely_most);
        } else if (key->likely_least != NULL) {
            ss_text_printf(remark, " is unlikely; usual is %s or more", key->likely_least);
        } else {
            ss_text_printf(remark, " is unlikely; usual is %s or less", key->likely_most);
        }
        break;
    }
    return true;
}

static bool read_number(const ss_key *key, const ss_node *node, ss_value *value, ss_text *fault) {
    if (node->kind != SS_NODE_INTEGER && node->kind != SS_NODE_REAL) {
        return wrong_kind(key, node, fault);
    }
    if (!isfinite(node->number)) {
        ss_text_add(fault, "found a number that is not finite; ");
        ss_value_due(key, fault);
        return false;
    }
    value->numbers[value->count++] = node->number;
    return true;
}

static bool read_numbers(const ss_key *key, const ss_node *node, ss_value *value, ss_text *fault) {
    if (node->kind != SS_NODE_LIST) {
        return wrong_kind(key, node, fault);
    }
    if (node->count == 0 || node->count > SS_DESCRIPTION_VALUES) {
        ss_text_printf(fault, "found a list of %d; 1 to %d numbers are due", node->count,
                       SS_DESCRIPTION_VALUES);
        return false;
    }
    for (const ss_node *item = node->first; item != NULL; item = item->next) {
        if (!read_number(key, item, value, fault)) {
            return false;
        }
    }
    return true;
}

static bool read_quantities(const ss_key *key, const ss_node *node, ss_value *value, ss_text *fault) {
    if (node->kind != SS_NODE_TEXT) {
        return wrong_kind(key, node, fault);
    }
    if (strlen(node->text) > SS_DESCRIPTION_TEXT || !ss_text_is_clean(node->text)) {
        ss_text_add(fault, "found a text that is too long or holds control characters; ");
        ss_value_due(key, fault);
        return false;
    }
    ss_error error = {0};
    const ss_status status = ss_units_parse(node->text, key->dimension, value->numbers, SS_DESCRIPTION_VALUES,
                                            &value->count, &error);
    if (status != SS_OK) {
        ss_text_add(fault, error.message);
        return false;
    }
    if (key->kind != SS_KEY_QUANTITIES && value->count != 1) {
        ss_value_quote(node, fault);
        ss_text_printf(fault, " is a list of %d; one value is allowed here", value->count);
        return false;
    }
    return true;
}

static bool read_integer(const ss_key *key, const ss_node *node, ss_value *value, ss_text *fault) {
    if (node->kind != SS_NODE_INTEGER) {
        return wrong_kind(key, node, fault);
    }
    if (!(node->number >= INT_MIN && node->number <= INT_MAX)) {
        ss_value_quote(node, fault);
        ss_text_printf(fault, " is out of range; whole numbers go from %d to %d", INT_MIN, INT_MAX);
        return false;
    }
    value->integer = (int)node->number;
    value->numbers[value->count++] = node->number;
    return true;
}

/* Numbers of any kind, and their limits. */
static bool read_measured(const ss_key *key, const ss_node *node, ss_value *value, ss_verdict *verdict) {
    ss_text *fault = &verdict->fault;
    bool good = false;
    if (key->kind == SS_KEY_INTEGER) {
        good = read_integer(key, node, value, fault);
    } else if (key->dimension != SS_DIM_NUMBER) {
        good = read_quantities(key, node, value, fault);
    } else if (key->kind == SS_KEY_QUANTITIES) {
        good = read_numbers(key, node, value, fault);
    } else {
        good = read_number(key, node, value, fault);
    }
    return good && check_limits(key, node, value, verdict);
}

/* A text that starts like a number is meant as the quantity, any other as the choice. */
static bool read_either(const ss_key *key, const ss_node *node, ss_value *value, ss_verdict *verdict) {
    const bool text = node->kind == SS_NODE_TEXT;
    if (text) {
        value->choice = ss_choice_index(key->choices, node->text);
        if (value->choice >= 0) {
            return true;
        }
        const char *end = NULL;
        (void)ss_text_number(node->text, &end);
        if (key->dimension == SS_DIM_NUMBER || end == node->text) {
            return read_choice(key, node, value, &verdict->fault);
        }
    }
    value->choice = -1;
    return read_measured(key, node, value, verdict);
}

/* ---- values of other keys ------------------------------------------------------------------------- */

/* Whether it is one value of some key; what it means is for whoever knows that key. */
static bool read_any(const ss_key *key, const ss_node *node, ss_text *fault) {
    ss_value unused;
    unused.count = 0;
    switch (node->kind) {
    case SS_NODE_TEXT: {
        ss_key text = *key;
        text.kind = SS_KEY_TEXT;
        return read_text(&text, node, &unused, fault);
    }
    case SS_NODE_INTEGER:
    case SS_NODE_REAL: return read_number(key, node, &unused, fault);
    case SS_NODE_FLAG: return true;
    case SS_NODE_GROUP:
    case SS_NODE_LIST: break;
    }
    return wrong_kind(key, node, fault);
}

static bool read_anys(const ss_key *key, const ss_node *node, ss_text *fault) {
    if (node->kind != SS_NODE_LIST) {
        return read_any(key, node, fault);
    }
    if (node->count == 0 || node->count > SS_DESCRIPTION_VALUES) {
        ss_text_printf(fault, "found a list of %d; 1 to %d values are due", node->count,
                       SS_DESCRIPTION_VALUES);
        return false;
    }
    for (const ss_node *item = node->first; item != NULL; item = item->next) {
        if (!read_any(key, item, fault)) {
            return false;
        }
    }
    return true;
}

bool ss_value_read(const ss_key *key, const ss_node *node, ss_value *value, ss_verdict *verdict) {
    ss_text *fault = &verdict->fault;
    value->count = 0;
    value->choice = -1;
    switch (key->kind) {
    case SS_KEY_GROUP: return node->kind == SS_NODE_GROUP || wrong_kind(key, node, fault);
    case SS_KEY_LIST:
        if (node->kind != SS_NODE_LIST) {
            return wrong_kind(key, node, fault);
        }
        if (node->count == 0 && key->required) {
            ss_text_add(fault, "found an empty list; at least one group is due, ( { ... } )");
            return false;
        }
        if (node->count > SS_DESCRIPTION_ITEMS) {
            ss_text_printf(fault, "found %d items; at most %d are allowed", node->count,
                           SS_DESCRIPTION_ITEMS);
            return false;
        }
        return true;
    case SS_KEY_TEXT:
    case SS_KEY_NAME:
    case SS_KEY_REFERENCE: return read_text(key, node, value, fault);
    case SS_KEY_REFERENCES: return read_references(key, node, fault);
    case SS_KEY_CHOICE: return read_choice(key, node, value, fault);
    case SS_KEY_CHOICE_OR_QUANTITY: return read_either(key, node, value, verdict);
    case SS_KEY_QUANTITY:
    case SS_KEY_QUANTITIES:
    case SS_KEY_INTEGER: return read_measured(key, node, value, verdict);
    case SS_KEY_FLAG:
        if (node->kind != SS_NODE_FLAG) {
            return wrong_kind(key, node, fault);
        }
        value->flag = node->flag;
        return true;
    case SS_KEY_ANY: return read_any(key, node, fault);
    case SS_KEY_ANYS: return read_anys(key, node, fault);
    }
    return false;
}

void ss_value_write(const ss_key *key, const char *text, ss_node *node) {
    node->kind = SS_NODE_TEXT;
    node->text = text;
    if (key->kind == SS_KEY_FLAG && (ss_text_same(text, "true") || ss_text_same(text, "false"))) {
        node->kind = SS_NODE_FLAG;
        node->flag = ss_text_same(text, "true");
    }
    const bool bare = key->kind == SS_KEY_INTEGER ||
                      ((key->kind == SS_KEY_QUANTITY || key->kind == SS_KEY_CHOICE_OR_QUANTITY) &&
                       key->dimension == SS_DIM_NUMBER);
    if (!bare) {
        return;
    }
    const char *end = NULL;
    const double number = ss_text_number(text, &end);
    if (end == text || *end != '\0') {
        return;
    }
    node->kind = text[strspn(text, "+-0123456789")] == '\0' ? SS_NODE_INTEGER : SS_NODE_REAL;
    node->number = number;
}
