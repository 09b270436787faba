/* description_value.h - one written value against its row of the key table. */
#ifndef SS_MODEL_DESCRIPTION_VALUE_H
#define SS_MODEL_DESCRIPTION_VALUE_H

#include "model/description_path.h"

/** What a value means; which fields are set follows from the kind of the key. */
typedef struct ss_value {
    double numbers[SS_DESCRIPTION_VALUES]; /**< SI */
    int count;                             /**< of numbers */
    int choice;                            /**< index among the key's choices, -1 for a quantity */
    int integer;
    bool flag;
    const char *text; /**< lives as long as the node */
} ss_value;

/** What ss_value_read has to say; both are empty for a sound and usual value. */
typedef struct ss_verdict {
    ss_text fault;    /**< "what was found; what is allowed" */
    ss_text unlikely; /**< for a warning */
} ss_verdict;

void ss_verdict_clear(ss_verdict *verdict);
void ss_verdict_destroy(ss_verdict *verdict);

/** Whether `node` is a value that `key` allows; otherwise the fault is said. SS_KEY_GROUP and SS_KEY_LIST:
 * only the kind and the number of items are looked at. */
bool ss_value_read(const ss_key *key, const ss_node *node, ss_value *value, ss_verdict *verdict);

/** The limits of a key in SI, infinite where it has none. */
void ss_value_limits(const ss_key *key, double *least, double *most);

/** Fills a node of its own with `text` as it would have been written in a file for `key`: a number where the
 * key takes a bare number, true or false where it takes a flag, else a text. It points into `text`. */
void ss_value_write(const ss_key *key, const char *text, ss_node *node);

/** Adds `a length is due, such as "7 ft 6 in"` and the like. */
void ss_value_due(const ss_key *key, ss_text *message);

/** Adds the value as written, `"5 ft"`, `12`, `true`, `a group`, shortened where it is long. */
void ss_value_quote(const ss_node *node, ss_text *message);

/** Index of `word` (exactly) among "a|b|c", or -1. */
int ss_choice_index(const char *choices, const char *word);

/** Adds an i-th word of "a|b|c" each, with `between` between them. */
void ss_choice_words(const char *choices, const char *between, ss_text *message);

/** Whether all bytes are UTF-8 (no overlong forms, no surrogates) without control characters. */
bool ss_text_is_clean(const char *text);

#endif
