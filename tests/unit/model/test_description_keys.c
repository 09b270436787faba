/* test_description_keys.c - the key table is sound in itself. */
#include <string.h>

#include "model/description_value.h"
#include "model/key_tree.h"
#include "support/suite.h"

static void test_paths_are_unique_and_have_parents(void) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    CU_ASSERT_TRUE(count > 150);
    for (int i = 0; i < count; i++) {
        int parents = 0;
        const bool top = ss_key_is_child(&keys[i], NULL);
        for (int j = 0; j < count; j++) {
            if (i != j) {
                CU_ASSERT_STRING_NOT_EQUAL(keys[i].path, keys[j].path);
            }
            if (ss_key_is_child(&keys[i], &keys[j])) {
                parents++;
                CU_ASSERT_TRUE(j < i);
                CU_ASSERT_TRUE(keys[j].kind == SS_KEY_GROUP || keys[j].kind == SS_KEY_LIST);
                CU_ASSERT_PTR_EQUAL(ss_key_child(&keys[j], ss_key_leaf(keys[i].path)), &keys[i]);
            }
        }
        CU_ASSERT_EQUAL(parents, top ? 0 : 1);
        CU_ASSERT_PTR_EQUAL(ss_key_find(keys[i].path), &keys[i]);
    }
    CU_ASSERT_PTR_NULL(ss_key_find("cars[].lines[].dept"));
}

static void test_no_group_has_too_many_keys(void) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    const char *names[SS_KEY_SIBLINGS];
    CU_ASSERT_TRUE(ss_key_children(NULL, names) < SS_KEY_SIBLINGS);
    for (int i = 0; i < count; i++) {
        if (keys[i].kind != SS_KEY_GROUP && keys[i].kind != SS_KEY_LIST) {
            continue;
        }
        const int children = ss_key_children(&keys[i], names);
        CU_ASSERT_TRUE(children > 0 && children < SS_KEY_SIBLINGS);
    }
}

static void test_rows_say_what_their_kind_needs(void) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    for (int i = 0; i < count; i++) {
        const ss_key *key = &keys[i];
        const bool words = key->kind == SS_KEY_CHOICE || key->kind == SS_KEY_REFERENCE ||
                           key->kind == SS_KEY_REFERENCES || key->kind == SS_KEY_CHOICE_OR_QUANTITY;
        CU_ASSERT_EQUAL(key->choices != NULL, words);
        CU_ASSERT_FALSE(key->required && key->fallback != NULL);
        const size_t length = strlen(key->help);
        CU_ASSERT_TRUE(length > 4 && key->help[length - 1] == '.');
        CU_ASSERT_TRUE(ss_text_is_clean(key->help));
    }
}

/* A limit, without its sign, must be a value that the key itself would take, as far as the dimension goes. */
static void check_limit(const ss_key *key, const char *limit) {
    if (limit == NULL) {
        return;
    }
    if (*limit == '>' || *limit == '<') {
        limit++;
    }
    while (*limit == ' ') {
        limit++;
    }
    ss_key free_key = *key;
    free_key.least = NULL;
    free_key.most = NULL;
    free_key.likely_least = NULL;
    free_key.likely_most = NULL;
    ss_node node = {0};
    ss_value value;
    ss_verdict verdict = {0};
    ss_value_write(&free_key, limit, &node);
    CU_ASSERT_TRUE(ss_value_read(&free_key, &node, &value, &verdict));
    CU_ASSERT_EQUAL(value.count, 1);
    ss_verdict_destroy(&verdict);
}

static void test_limits_can_be_read(void) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    for (int i = 0; i < count; i++) {
        check_limit(&keys[i], keys[i].least);
        check_limit(&keys[i], keys[i].most);
        check_limit(&keys[i], keys[i].likely_least);
        check_limit(&keys[i], keys[i].likely_most);
    }
}

static void test_defaults_are_sound_and_usual(void) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    for (int i = 0; i < count; i++) {
        if (keys[i].fallback == NULL) {
            continue;
        }
        ss_node node = {0};
        ss_value value;
        ss_verdict verdict = {0};
        ss_value_write(&keys[i], keys[i].fallback, &node);
        CU_ASSERT_TRUE(ss_value_read(&keys[i], &node, &value, &verdict));
        CU_ASSERT_EQUAL(verdict.unlikely.length, 0);
        ss_verdict_destroy(&verdict);
    }
}

int main(void) {
    const test_case cases[] = {
        {"paths", test_paths_are_unique_and_have_parents}, {"siblings", test_no_group_has_too_many_keys},
        {"rows", test_rows_say_what_their_kind_needs},     {"limits", test_limits_can_be_read},
        {"defaults", test_defaults_are_sound_and_usual},
    };
    return RUN_SUITE("model/description keys", cases);
}
