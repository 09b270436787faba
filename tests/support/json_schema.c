/* json_schema.c - see json_schema.h. */
#define _POSIX_C_SOURCE 200809L

#include "support/json_schema.h"

#include <math.h>
#include <regex.h>
#include <stdio.h>
#include <string.h>

typedef struct validator {
    const json_t *root;
    schema_fault *fault;
    char place[240];
    int depth; /* of references; a schema that refers to itself for ever is refused */
} validator;

static bool accepts(validator *v, const json_t *schema, const json_t *value);

/* Keeps the first fault. Returns false. */
static bool refuse(const validator *v, const char *keyword, const char *what) {
    if (v->fault != NULL && v->fault->rule[0] == '\0') {
        memcpy(v->fault->place, v->place, sizeof v->place);
        snprintf(v->fault->rule, sizeof v->fault->rule, "%s: %.120s", keyword, what);
    }
    return false;
}

/* The value of a member, with its name added to the place. */
static bool accepts_inside(validator *v, const json_t *schema, const json_t *value, const char *name) {
    const size_t length = strlen(v->place);
    snprintf(v->place + length, sizeof v->place - length, "%s%s", length == 0 ? "" : "/", name);
    const bool accepted = accepts(v, schema, value);
    v->place[length] = '\0';
    return accepted;
}

/* Whether a value passes, with no word about it when it does not. */
static bool would_accept(validator *v, const json_t *schema, const json_t *value) {
    schema_fault *fault = v->fault;
    v->fault = NULL;
    const bool accepted = accepts(v, schema, value);
    v->fault = fault;
    return accepted;
}

static bool is_type(const json_t *value, const char *type) {
    if (strcmp(type, "integer") == 0) {
        return json_is_integer(value) ||
               (json_is_real(value) && floor(json_real_value(value)) == json_real_value(value));
    }
    return (strcmp(type, "object") == 0 && json_is_object(value)) ||
           (strcmp(type, "array") == 0 && json_is_array(value)) ||
           (strcmp(type, "string") == 0 && json_is_string(value)) ||
           (strcmp(type, "number") == 0 && json_is_number(value)) ||
           (strcmp(type, "boolean") == 0 && json_is_boolean(value)) ||
           (strcmp(type, "null") == 0 && json_is_null(value));
}

static bool check_type(validator *v, const json_t *types, const json_t *value) {
    bool any = json_is_string(types) && is_type(value, json_string_value(types));
    for (size_t i = 0; i < json_array_size(types); i++) {
        any = any || is_type(value, json_string_value(json_array_get(types, i)));
    }
    return any ||
           refuse(v, "type", json_is_string(types) ? json_string_value(types) : "none of those listed");
}

static bool check_enum(validator *v, const json_t *values, const json_t *value) {
    for (size_t i = 0; i < json_array_size(values); i++) {
        if (json_equal(json_array_get(values, i), value)) {
            return true;
        }
    }
    return refuse(v, "enum", json_is_string(value) ? json_string_value(value) : "another value");
}

static bool matches(const char *pattern, const char *text) {
    regex_t compiled;
    if (regcomp(&compiled, pattern, REG_EXTENDED | REG_NOSUB) != 0) {
        return false;
    }
    const bool matched = regexec(&compiled, text, 0, NULL, 0) == 0;
    regfree(&compiled);
    return matched;
}

static size_t characters(const char *text) {
    size_t count = 0;
    for (; *text != '\0'; text++) {
        count += ((unsigned char)*text & 0xC0U) != 0x80U;
    }
    return count;
}

/* ---- objects and arrays ----------------------------------------------------------------------------- */

static bool check_required(validator *v, const json_t *names, const json_t *value) {
    for (size_t i = 0; json_is_object(value) && i < json_array_size(names); i++) {
        const char *name = json_string_value(json_array_get(names, i));
        if (json_object_get(value, name) == NULL) {
            return refuse(v, "required", name);
        }
    }
    return true;
}

/* properties, patternProperties and additionalProperties together. */
static bool check_members(validator *v, const json_t *schema, const json_t *value) {
    const json_t *properties = json_object_get(schema, "properties");
    const json_t *patterns = json_object_get(schema, "patternProperties");
    const json_t *others = json_object_get(schema, "additionalProperties");
    const char *name = NULL;
    json_t *member = NULL;
    json_object_foreach((json_t *)value, name, member) {
        const json_t *own = json_object_get(properties, name);
        bool known = own != NULL;
        if (own != NULL && !accepts_inside(v, own, member, name)) {
            return false;
        }
        const char *pattern = NULL;
        json_t *rule = NULL;
        json_object_foreach((json_t *)patterns, pattern, rule) {
            if (matches(pattern, name)) {
                known = true;
                if (!accepts_inside(v, rule, member, name)) {
                    return false;
                }
            }
        }
        if (!known && json_is_false(others)) {
            return refuse(v, "additionalProperties", name);
        }
        if (!known && json_is_object(others) && !accepts_inside(v, others, member, name)) {
            return false;
        }
    }
    return true;
}

static bool check_items(validator *v, const json_t *items, const json_t *value) {
    for (size_t i = 0; json_is_array(value) && i < json_array_size(value); i++) {
        char index[24];
        snprintf(index, sizeof index, "%zu", i);
        if (!accepts_inside(v, items, json_array_get(value, i), index)) {
            return false;
        }
    }
    return true;
}

/* ---- what is made of other schemas ------------------------------------------------------------------ */

/* "#/$defs/name", or NULL. */
static const json_t *resolve(const json_t *root, const char *reference) {
    static const char start[] = "#/$defs/";
    if (strncmp(reference, start, sizeof start - 1) != 0) {
        return NULL;
    }
    return json_object_get(json_object_get(root, "$defs"), reference + sizeof start - 1);
}

static bool check_reference(validator *v, const json_t *reference, const json_t *value) {
    const json_t *target = resolve(v->root, json_string_value(reference));
    if (target == NULL || v->depth == 100) {
        return refuse(v, "$ref", json_string_value(reference));
    }
    v->depth++;
    const bool accepted = accepts(v, target, value);
    v->depth--;
    return accepted;
}

static bool check_some(validator *v, const char *keyword, const json_t *schemas, const json_t *value) {
    size_t count = 0;
    for (size_t i = 0; i < json_array_size(schemas); i++) {
        count += would_accept(v, json_array_get(schemas, i), value);
    }
    return (strcmp(keyword, "oneOf") == 0 ? count == 1 : count > 0) ||
           refuse(v, keyword, count == 0 ? "none of them" : "more than one of them");
}

static bool check_all(validator *v, const json_t *schemas, const json_t *value) {
    for (size_t i = 0; i < json_array_size(schemas); i++) {
        if (!accepts(v, json_array_get(schemas, i), value)) {
            return false;
        }
    }
    return true;
}

static bool check_condition(validator *v, const json_t *schema, const json_t *condition,
                            const json_t *value) {
    const json_t *next = json_object_get(schema, would_accept(v, condition, value) ? "then" : "else");
    return next == NULL || accepts(v, next, value);
}

/* ---- one keyword ------------------------------------------------------------------------------------ */

static bool check_number(validator *v, const char *keyword, const json_t *limit, const json_t *value) {
    const double number = json_number_value(value);
    const double bound = json_number_value(limit);
    const bool good = strcmp(keyword, "minimum") == 0            ? number >= bound
                      : strcmp(keyword, "exclusiveMinimum") == 0 ? number > bound
                                                                 : number <= bound;
    return !json_is_number(value) || good || refuse(v, keyword, "out of bounds");
}

static bool check_count(validator *v, const char *keyword, const json_t *limit, const json_t *value) {
    const size_t bound = (size_t)json_integer_value(limit);
    if (strcmp(keyword, "minLength") == 0) {
        return !json_is_string(value) || characters(json_string_value(value)) >= bound ||
               refuse(v, keyword, json_string_value(value));
    }
    const size_t size = json_array_size(value);
    return !json_is_array(value) || (strcmp(keyword, "minItems") == 0 ? size >= bound : size <= bound) ||
           refuse(v, keyword, "another number of items");
}

static bool check_keyword(validator *v, const json_t *schema, const char *keyword, const json_t *rule,
                          const json_t *value) {
    if (strcmp(keyword, "type") == 0) return check_type(v, rule, value);
    if (strcmp(keyword, "enum") == 0) return check_enum(v, rule, value);
    if (strcmp(keyword, "const") == 0) {
        return json_equal(rule, value) || refuse(v, keyword, "another value");
    }
    if (strcmp(keyword, "required") == 0) return check_required(v, rule, value);
    if (strcmp(keyword, "items") == 0) return check_items(v, rule, value);
    if (strcmp(keyword, "pattern") == 0) {
        return !json_is_string(value) || matches(json_string_value(rule), json_string_value(value)) ||
               refuse(v, keyword, json_string_value(value));
    }
    if (strcmp(keyword, "minimum") == 0 || strcmp(keyword, "maximum") == 0 ||
        strcmp(keyword, "exclusiveMinimum") == 0) {
        return check_number(v, keyword, rule, value);
    }
    if (strcmp(keyword, "minItems") == 0 || strcmp(keyword, "maxItems") == 0 ||
        strcmp(keyword, "minLength") == 0) {
        return check_count(v, keyword, rule, value);
    }
    if (strcmp(keyword, "$ref") == 0) return check_reference(v, rule, value);
    if (strcmp(keyword, "allOf") == 0) return check_all(v, rule, value);
    if (strcmp(keyword, "anyOf") == 0 || strcmp(keyword, "oneOf") == 0) {
        return check_some(v, keyword, rule, value);
    }
    if (strcmp(keyword, "not") == 0) {
        return !would_accept(v, rule, value) || refuse(v, keyword, "it is");
    }
    if (strcmp(keyword, "if") == 0) return check_condition(v, schema, rule, value);
    return true;
}

static bool accepts(validator *v, const json_t *schema, const json_t *value) {
    if (json_is_boolean(schema)) {
        return json_is_true(schema) || refuse(v, "false", "nothing may stand here");
    }
    const char *keyword = NULL;
    json_t *rule = NULL;
    json_object_foreach((json_t *)schema, keyword, rule) {
        if (!check_keyword(v, schema, keyword, rule, value)) {
            return false;
        }
    }
    return !json_is_object(value) || check_members(v, schema, value);
}

bool schema_accepts(const json_t *schema, const json_t *document, schema_fault *fault) {
    validator v = {.root = schema, .fault = fault};
    if (fault != NULL) {
        *fault = (schema_fault){0};
    }
    return accepts(&v, schema, document);
}

/* ---- the schema itself ------------------------------------------------------------------------------ */

static bool is_one_of(const char *word, const char *const *words, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (strcmp(word, words[i]) == 0) {
            return true;
        }
    }
    return false;
}

static bool is_sound(validator *v, const json_t *schema);

static bool inside_is_sound(validator *v, const json_t *schema, const char *name) {
    const size_t length = strlen(v->place);
    snprintf(v->place + length, sizeof v->place - length, "/%s", name);
    const bool sound = is_sound(v, schema);
    v->place[length] = '\0';
    return sound;
}

static bool all_are_sound(validator *v, const json_t *schemas) {
    const char *name = NULL;
    json_t *one = NULL;
    json_object_foreach((json_t *)schemas, name, one) {
        if (!inside_is_sound(v, one, name)) {
            return false;
        }
    }
    for (size_t i = 0; i < json_array_size(schemas); i++) {
        if (!inside_is_sound(v, json_array_get(schemas, i), "item")) {
            return false;
        }
    }
    return true;
}

static bool is_sound(validator *v, const json_t *schema) {
    static const char *const plain[] = {"$schema",   "title",   "description", "type",
                                        "enum",      "const",   "required",    "minItems",
                                        "maxItems",  "minimum", "maximum",     "exclusiveMinimum",
                                        "minLength", "pattern"};
    static const char *const groups[] = {"properties", "patternProperties", "$defs", "allOf", "anyOf",
                                         "oneOf"};
    static const char *const inner[] = {"items", "not", "if", "then", "else", "additionalProperties"};
    if (json_is_boolean(schema)) {
        return true;
    }
    if (!json_is_object(schema)) {
        return refuse(v, "schema", "neither an object nor true nor false");
    }
    const char *keyword = NULL;
    json_t *rule = NULL;
    json_object_foreach((json_t *)schema, keyword, rule) {
        bool sound = is_one_of(keyword, plain, sizeof plain / sizeof plain[0]);
        if (is_one_of(keyword, groups, sizeof groups / sizeof groups[0])) {
            sound = all_are_sound(v, rule);
        } else if (is_one_of(keyword, inner, sizeof inner / sizeof inner[0])) {
            sound = inside_is_sound(v, rule, keyword);
        } else if (strcmp(keyword, "$ref") == 0) {
            sound = json_is_string(rule) && resolve(v->root, json_string_value(rule)) != NULL;
        }
        if (!sound) {
            return refuse(v, "unknown", keyword);
        }
    }
    return true;
}

bool schema_is_sound(const json_t *schema, schema_fault *fault) {
    validator v = {.root = schema, .fault = fault};
    if (fault != NULL) {
        *fault = (schema_fault){0};
    }
    return is_sound(&v, schema);
}
