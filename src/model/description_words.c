/* description_words.c - how values and what is due in their place are put into words. */
#include "model/description_value.h"

#include <math.h>
#include <string.h>

/* Longer texts are cut where they are quoted. */
#define QUOTED 60

/* Whole numbers below this are held exactly, and are shown in full. */
#define EXACT 1e15

void ss_text_clear(ss_text *text) {
    text->length = 0;
    if (text->data != NULL) {
        text->data[0] = '\0';
    }
}

static void quote_text(const char *text, ss_text *message) {
    size_t length = strlen(text);
    const bool cut = length > QUOTED;
    if (cut) {
        length = QUOTED;
        while (length > 0 && ((unsigned char)text[length] & 0xC0U) == 0x80U) {
            length--;
        }
    }
    ss_text_add(message, "\"");
    ss_text_add_bytes(message, text, length);
    ss_text_add(message, cut ? "...\"" : "\"");
}

void ss_value_quote(const ss_node *node, ss_text *message) {
    char number[64];
    switch (node->kind) {
    case SS_NODE_GROUP: ss_text_add(message, "a group"); break;
    case SS_NODE_LIST: ss_text_add(message, "a list"); break;
    case SS_NODE_TEXT: quote_text(node->text, message); break;
    case SS_NODE_INTEGER:
        if (fabs(node->number) < EXACT) {
            ss_text_add(message, ss_text_decimals(number, sizeof number, node->number, 0));
            break;
        }
        ss_text_add(message, ss_text_significant(number, sizeof number, node->number, 12));
        break;
    case SS_NODE_REAL:
        ss_text_add(message, ss_text_significant(number, sizeof number, node->number, 12));
        break;
    case SS_NODE_FLAG: ss_text_add(message, node->flag ? "true" : "false"); break;
    }
}

void ss_choice_words(const char *choices, const char *between, ss_text *message) {
    while (*choices != '\0') {
        const size_t length = strcspn(choices, "|");
        ss_text_add_bytes(message, choices, length);
        choices += length;
        if (*choices == '|') {
            ss_text_add(message, between);
            choices++;
        }
    }
}

int ss_choice_index(const char *choices, const char *word) {
    const size_t length = strlen(word);
    for (int i = 0; *choices != '\0'; i++) {
        const size_t next = strcspn(choices, "|");
        if (next == length && strncmp(choices, word, length) == 0) {
            return i;
        }
        choices += next;
        if (*choices == '|') {
            choices++;
        }
    }
    return -1;
}

static void due_quantity(const ss_key *key, ss_text *message) {
    if (key->dimension == SS_DIM_NUMBER) {
        ss_text_add(message, key->kind == SS_KEY_QUANTITIES ? "a list of numbers is due, such as [ 1.5, 2 ]"
                                                            : "a number without quotes is due, such as 0.85");
        return;
    }
    const char *name = ss_units_dimension_name(key->dimension);
    const char *article = strchr("aeio", name[0]) != NULL ? "an" : "a";
    ss_text_printf(message, "%s %s is due, such as \"%s\"", article, name, ss_units_example(key->dimension));
    if (key->kind == SS_KEY_QUANTITIES) {
        ss_text_add(message, ", or several with commas between and one unit");
    }
}

void ss_value_due(const ss_key *key, ss_text *message) {
    switch (key->kind) {
    case SS_KEY_GROUP: ss_text_add(message, "a group is due, { key = value; ... }"); break;
    case SS_KEY_LIST: ss_text_add(message, "a list of groups is due, ( { ... }, { ... } )"); break;
    case SS_KEY_TEXT: ss_text_add(message, "a text in quotes is due"); break;
    case SS_KEY_NAME: ss_text_add(message, "a name in quotes is due"); break;
    case SS_KEY_REFERENCE: ss_text_printf(message, "one text is due, %s", key->choices); break;
    case SS_KEY_REFERENCES:
        ss_text_printf(message, "a list of texts is due, [ \"...\", \"...\" ], %s", key->choices);
        break;
    case SS_KEY_CHOICE:
        ss_text_add(message, strchr(key->choices, '|') == NULL ? "due is \"" : "one of \"");
        ss_choice_words(key->choices, "\", \"", message);
        ss_text_add(message, strchr(key->choices, '|') == NULL ? "\"" : "\" is due");
        break;
    case SS_KEY_QUANTITY:
    case SS_KEY_QUANTITIES: due_quantity(key, message); break;
    case SS_KEY_CHOICE_OR_QUANTITY:
        ss_text_add(message, "\"");
        ss_choice_words(key->choices, "\", \"", message);
        ss_text_add(message, "\" or ");
        due_quantity(key, message);
        break;
    case SS_KEY_INTEGER: ss_text_add(message, "a whole number without quotes is due"); break;
    case SS_KEY_ANY: ss_text_add(message, "one value is due, such as \"36 ksi\" or 0.85"); break;
    case SS_KEY_ANYS: ss_text_add(message, "values are due, such as \"closed, open\" or [ 0.1, 0.2 ]"); break;
    case SS_KEY_FLAG: ss_text_add(message, "true or false is due, without quotes"); break;
    }
}

/* Length of the UTF-8 character at `s`, 0 when it is malformed; *code is the character. */
static int decode(const unsigned char *s, unsigned long *code) {
    static const unsigned long lowest[] = {0, 0, 0x80, 0x800, 0x10000};
    const int length = s[0] < 0x80                   ? 1
                       : s[0] >= 0xF0 && s[0] < 0xF8 ? 4
                       : s[0] >= 0xE0 && s[0] < 0xF0 ? 3
                                                     : 2;
    if (length == 1) {
        *code = s[0];
        return 1;
    }
    if (s[0] < 0xC2 || s[0] >= 0xF8) {
        return 0;
    }
    unsigned long value = s[0] & (0x7FUL >> length);
    for (int i = 1; i < length; i++) {
        if ((s[i] & 0xC0U) != 0x80U) {
            return 0;
        }
        value = value << 6 | (s[i] & 0x3FU);
    }
    if (value < lowest[length] || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) {
        return 0;
    }
    *code = value;
    return length;
}

bool ss_text_is_clean(const char *text) {
    const unsigned char *s = (const unsigned char *)text;
    while (*s != 0) {
        unsigned long code = 0;
        const int length = decode(s, &code);
        if (length == 0 || code < 0x20 || (code >= 0x7F && code <= 0x9F)) {
            return false;
        }
        s += length;
    }
    return true;
}
