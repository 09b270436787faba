/* json_schema.h - checks a JSON document against a schema in the part of JSON Schema, draft 2020-12, that
 * this project's schemas use. */
#ifndef TEST_JSON_SCHEMA_H
#define TEST_JSON_SCHEMA_H

#include <jansson.h>
#include <stdbool.h>

/** Where a document departs from its schema first, and by which rule. */
typedef struct schema_fault {
    char place[240]; /**< "ratings/3/terms/live" */
    char rule[160];  /**< "required: capacity" */
} schema_fault;

/** Whether every keyword of the schema is one that is checked here, and every reference leads somewhere. */
bool schema_is_sound(const json_t *schema, schema_fault *fault);

/** Whether the document is what the schema describes. `fault` may be NULL. */
bool schema_accepts(const json_t *schema, const json_t *document, schema_fault *fault);

#endif
