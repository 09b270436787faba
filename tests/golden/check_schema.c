/* check_schema.c - says whether the JSON on standard input is what a schema describes: check_schema SCHEMA */
#include <stdio.h>

#include "support/json_schema.h"

/* Every null stands for a number and has a word beside it, but for a record that is not there. */
static bool has_words(const json_t *value) {
    const char *key = NULL;
    json_t *member = NULL;
    json_object_foreach((json_t *)value, key, member) {
        char word[160];
        snprintf(word, sizeof word, "%s_word", key);
        if (json_is_null(member) && !json_is_string(json_object_get(value, word)) &&
            json_object_get(value, "controlling") != member) {
            printf("%s is null without a word\n", key);
            return false;
        }
        if (!has_words(member)) {
            return false;
        }
    }
    for (size_t i = 0; i < json_array_size(value); i++) {
        if (!has_words(json_array_get(value, i))) {
            return false;
        }
    }
    return true;
}

int main(int argc, char **argv) {
    json_error_t error = {0};
    schema_fault fault;
    json_t *schema = argc == 2 ? json_load_file(argv[1], JSON_REJECT_DUPLICATES, &error) : NULL;
    json_t *document = schema == NULL ? NULL : json_loadf(stdin, JSON_REJECT_DUPLICATES, &error);
    bool good = false;
    if (document == NULL) {
        printf("no JSON, line %d: %s\n", error.line, error.text);
    } else if (!schema_is_sound(schema, &fault) || !schema_accepts(schema, document, &fault)) {
        printf("%s: %s\n", fault.place, fault.rule);
    } else {
        good = has_words(document);
    }
    json_decref(document);
    json_decref(schema);
    return good ? 0 : 1;
}
