/* test_results_schema.c - what the program writes is what docs/results.schema.json says, and what is not is
 * refused: by the checker's own examples, and by every way to spoil a good document. */
#include <string.h>

#include "rated_results.h"
#include "sillspan/write.h"
#include "support/json_schema.h"

static rated_results r;

static json_t *the_schema(void) {
    json_error_t fault;
    json_t *schema =
        json_load_file(SS_SOURCE_DIR "/docs/results.schema.json", JSON_REJECT_DUPLICATES, &fault);
    CU_ASSERT_PTR_NOT_NULL_FATAL(schema);
    return schema;
}

/* Whether a schema, as text, accepts a document, as text. */
static bool takes(const char *schema_text, const char *document_text) {
    json_t *schema = json_loads(schema_text, JSON_DECODE_ANY, NULL);
    json_t *document = json_loads(document_text, JSON_DECODE_ANY, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(schema);
    CU_ASSERT_PTR_NOT_NULL_FATAL(document);
    schema_fault fault;
    CHECK_ROW(schema_is_sound(schema, &fault), schema_text);
    const bool accepted = schema_accepts(schema, document, NULL);
    json_decref(schema);
    json_decref(document);
    return accepted;
}

/* Every keyword once as it should be and once as it should not. */
static void test_keywords(void) {
    static const struct {
        const char *schema, *good, *bad;
    } cases[] = {
        {"{\"type\": \"number\"}", "1.5", "\"1.5\""},
        {"{\"type\": \"integer\"}", "3.0", "3.5"},
        {"{\"type\": [\"string\", \"null\"]}", "null", "0"},
        {"{\"type\": \"boolean\"}", "false", "0"},
        {"{\"type\": \"array\"}", "[]", "{}"},
        {"{\"type\": \"object\"}", "{}", "[]"},
        {"{\"enum\": [\"us\", \"si\"]}", "\"si\"", "\"SI\""},
        {"{\"const\": {\"a\": 1}}", "{\"a\": 1}", "{\"a\": 2}"},
        {"{\"required\": [\"a\", \"b\"]}", "{\"b\": 0, \"a\": 0}", "{\"a\": 0}"},
        {"{\"required\": [\"a\"]}", "[]", "{}"},
        {"{\"properties\": {\"a\": {\"type\": \"null\"}}}", "{\"b\": 1}", "{\"a\": 1}"},
        {"{\"patternProperties\": {\"_word$\": {\"type\": \"string\"}}}", "{\"word_\": 1}",
         "{\"a_word\": 1}"},
        {"{\"properties\": {\"a\": true}, \"patternProperties\": {\"^x\": true}, \"additionalProperties\": "
         "false}",
         "{\"a\": 1, \"xy\": 2}", "{\"a\": 1, \"yx\": 2}"},
        {"{\"additionalProperties\": {\"type\": \"string\"}}", "{\"a\": \"\"}", "{\"a\": 1}"},
        {"{\"items\": {\"type\": \"string\"}}", "[\"a\"]", "[\"a\", 1]"},
        {"{\"minItems\": 2}", "[1, 1]", "[1]"},
        {"{\"maxItems\": 1}", "[1]", "[1, 1]"},
        {"{\"minimum\": 0}", "0", "-1e-9"},
        {"{\"maximum\": 7}", "7", "7.5"},
        {"{\"exclusiveMinimum\": 0}", "1e-9", "0"},
        {"{\"minLength\": 2}", "\"\\u00e4b\"", "\"\\u00e4\""},
        {"{\"pattern\": \"^[0-9a-f]{4}$\"}", "\"0a1f\"", "\"0a1g\""},
        {"{\"allOf\": [{\"minimum\": 1}, {\"maximum\": 2}]}", "1.5", "2.5"},
        {"{\"anyOf\": [{\"minimum\": 2}, {\"maximum\": 1}]}", "3", "1.5"},
        {"{\"oneOf\": [{\"minimum\": 1}, {\"maximum\": 2}]}", "3", "1.5"},
        {"{\"not\": {\"type\": \"null\"}}", "0", "null"},
        {"{\"if\": {\"minimum\": 5}, \"then\": {\"maximum\": 6}, \"else\": {\"maximum\": 2}}", "5.5", "3"},
        {"{\"if\": {\"minimum\": 5}, \"then\": {\"maximum\": 6}}", "3", "7"},
        {"{\"$ref\": \"#/$defs/n\", \"$defs\": {\"n\": {\"type\": \"number\"}}}", "1", "\"\""},
        {"{\"items\": false}", "[]", "[0]"},
    };
    for (int i = 0; i < ENTRIES(cases); i++) {
        CHECK_ROW(takes(cases[i].schema, cases[i].good), cases[i].schema);
        CHECK_ROW(!takes(cases[i].schema, cases[i].bad), cases[i].schema);
    }
}

/* A keyword that is not checked here would be a rule that no one keeps. */
static void test_unsound_schemas(void) {
    static const char *const bad[] = {
        "{\"typ\": \"number\"}",
        "{\"properties\": {\"a\": {\"uniqueItems\": true}}}",
        "{\"$ref\": \"#/$defs/none\"}",
        "{\"$ref\": \"elsewhere.json\"}",
        "{\"items\": 3}",
        "{\"$defs\": {\"a\": {\"anyOf\": [{\"format\": \"date\"}]}}}",
    };
    for (int i = 0; i < ENTRIES(bad); i++) {
        json_t *schema = json_loads(bad[i], 0, NULL);
        schema_fault fault;
        CHECK_ROW(!schema_is_sound(schema, &fault), bad[i]);
        json_decref(schema);
    }
    json_t *schema = the_schema();
    schema_fault fault;
    CHECK_ROW(schema_is_sound(schema, &fault), fault.rule);
    json_decref(schema);
}

static json_t *written(ss_unit_system units) {
    ss_report report;
    ss_text out = {0};
    ss_error error = {0};
    CHECK_OK(ss_report_build(&r.results, units, &report, &error), &error);
    CHECK_OK(ss_write_json(&report, &out, &error), &error);
    json_t *root = json_loads(out.data, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(root);
    ss_text_destroy(&out);
    ss_report_destroy(&report);
    return root;
}

static void check_accepted(const json_t *schema, const json_t *document) {
    schema_fault fault;
    const bool accepted = schema_accepts(schema, document, &fault);
    if (!accepted) {
        printf("\n  %s: %s", fault.place, fault.rule);
    }
    CU_ASSERT_TRUE(accepted);
}

static void test_rating(void) {
    json_t *schema = the_schema();
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    for (int system = 0; system < 2; system++) {
        json_t *document = written((ss_unit_system)system);
        check_accepted(schema, document);
        json_decref(document);
    }
    /* Factors without limit, nothing that governs, no posting. */
    for (int i = 0; i < r.rated.count; i++) {
        r.items[i].rf = r.items[i].rf_linear = r.items[i].tons = (double)INFINITY;
        r.items[i].position[0].track = -1;
    }
    json_t *document = written(SS_UNITS_US);
    check_accepted(schema, document);
    CU_ASSERT_TRUE(json_is_null(json_object_get(json_object_get(document, "controlling"), "rf")));
    json_decref(document);
    r.results.posting = NULL;
    r.rated.count = 0;
    for (int i = 0; i < RATED_CHECKS * RATED_TRAFFIC; i++) {
        r.governing[i] = r.worst[i % RATED_CHECKS] = -1;
    }
    document = written(SS_UNITS_US);
    check_accepted(schema, document);
    CU_ASSERT_TRUE(json_is_null(json_object_get(document, "controlling")));
    json_decref(document);
    json_decref(schema);
    rated_end(&r);
}

static int spoiled;

/* Spoils one thing after another below `value`, of lists in their first item, and sees that each is refused.
 */
static void spoil(const json_t *schema, json_t *document, json_t *value) {
    if (json_is_array(value) && json_array_size(value) > 0) {
        spoil(schema, document, json_array_get(value, 0));
        json_array_append_new(value, json_pack("[[]]"));
        CU_ASSERT_FALSE(schema_accepts(schema, document, NULL));
        json_array_remove(value, json_array_size(value) - 1);
        spoiled++;
    }
    if (!json_is_object(value)) {
        return;
    }
    json_object_set_new(value, "zzz", json_integer(1));
    CU_ASSERT_FALSE(schema_accepts(schema, document, NULL));
    json_object_del(value, "zzz");
    const char *key = NULL;
    json_t *member = NULL;
    json_t *names = json_array();
    json_object_foreach(value, key, member) {
        json_array_append_new(names, json_string(key));
    }
    for (size_t i = 0; i < json_array_size(names); i++) {
        const char *name = json_string_value(json_array_get(names, i));
        json_t *kept = json_incref(json_object_get(value, name));
        spoil(schema, document, kept);
        json_object_set_new(value, name, json_pack("[[]]"));
        CHECK_ROW(!schema_accepts(schema, document, NULL), name);
        json_object_set_new(value, name, kept);
        spoiled += 2;
    }
    json_decref(names);
}

static void test_spoiled_documents(void) {
    json_t *schema = the_schema();
    CU_ASSERT_TRUE_FATAL(rated_start(&r));
    json_t *document = written(SS_UNITS_SI);
    spoiled = 0;
    spoil(schema, document, document);
    CU_ASSERT_TRUE(spoiled > 300);
    check_accepted(schema, document);
    static const char *const needed[] = {"program", "units",   "digest",      "caution", "not_rated",
                                         "checks",  "ratings", "controlling", "notes",   "command"};
    for (int i = 0; i < ENTRIES(needed); i++) {
        json_t *kept = json_incref(json_object_get(document, needed[i]));
        json_object_del(document, needed[i]);
        CHECK_ROW(!schema_accepts(schema, document, NULL), needed[i]);
        json_object_set_new(document, needed[i], kept);
    }
    /* A rating says what it belongs to, and only one such thing. */
    json_t *first = json_array_get(json_object_get(document, "ratings"), 0);
    json_object_set_new(first, "joint", json_string("seam"));
    schema_fault fault;
    CU_ASSERT_FALSE(schema_accepts(schema, document, &fault));
    CU_ASSERT_STRING_EQUAL(fault.place, "ratings/0");
    json_object_del(first, "joint");
    json_object_set_new(first, "rf", json_real(-0.25));
    CU_ASSERT_FALSE(schema_accepts(schema, document, &fault));
    CU_ASSERT_STRING_EQUAL(fault.place, "ratings/0/rf");
    CU_ASSERT_STRING_EQUAL(fault.rule, "minimum: out of bounds");
    json_decref(document);
    json_decref(schema);
    rated_end(&r);
}

int main(void) {
    static const test_case cases[] = {
        {"keywords", test_keywords},
        {"schemas that are not sound", test_unsound_schemas},
        {"a rating", test_rating},
        {"spoiled documents", test_spoiled_documents},
    };
    return RUN_SUITE("schema of the results", cases);
}
