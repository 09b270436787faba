/* test_reader.c - notation: values, their lines, and the faults of form that stop reading. */
#include "sillspan/reader.h"

#include "support/suite.h"
#include "unit/io/reader_samples.h"

static void test_values_and_lines(void) {
    static const char words[] = "// a remark\n"
                                "title = \"Creek \\\"9\\\" \\\\ \\x41\"; /* two\nlines */ rating :\n"
                                "{\n"
                                "  adtt = 0x2F; system = 8.7e-1;\n"
                                "  big = 40000000000L; neg = -12 plain = 1e2; dot = .5;\n"
                                "};\n"
                                "list = ( 1, 2.5, \"x\"\n"
                                "   , true,\n"
                                "   { name =\n     \"deep\"; }, (), [ ] )\n"
                                "off = FALSE;";
    ss_description d;
    ss_text said = {0};
    CU_ASSERT_EQUAL(read_words(words, &d, &said), SS_OK);
    CU_ASSERT_EQUAL(said.length, 0);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d.root);
    const ss_node *title = ss_node_child(d.root, "title");
    CU_ASSERT_STRING_EQUAL(title->text, "Creek \"9\" \\ A");
    CU_ASSERT_EQUAL(title->where.line, 2);
    CU_ASSERT_STRING_EQUAL(title->where.file, "creek.cfg");
    const ss_node *rating = ss_node_child(d.root, "rating");
    CU_ASSERT_EQUAL(rating->where.line, 3);
    static const struct {
        const char *key;
        ss_node_kind kind;
        double number;
        int line;
    } numbers[] = {{"adtt", SS_NODE_INTEGER, 47.0, 5}, {"system", SS_NODE_REAL, 0.87, 5},
                   {"big", SS_NODE_INTEGER, 4e10, 6},  {"neg", SS_NODE_INTEGER, -12.0, 6},
                   {"plain", SS_NODE_REAL, 100.0, 6},  {"dot", SS_NODE_REAL, 0.5, 6}};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        const ss_node *node = ss_node_child(rating, numbers[i].key);
        CU_ASSERT_PTR_NOT_NULL_FATAL(node);
        CU_ASSERT_EQUAL(node->kind, numbers[i].kind);
        CU_ASSERT_EQUAL(node->number, numbers[i].number);
        CU_ASSERT_EQUAL(node->where.line, numbers[i].line);
    }
    const ss_node *list = ss_node_child(d.root, "list");
    CU_ASSERT_EQUAL(list->count, 7);
    /* libconfig gives an item the line of the token after it; ours is that of the item. */
    CU_ASSERT_EQUAL(ss_node_item(list, 2)->where.line, 8);
    CU_ASSERT_EQUAL(ss_node_item(list, 3)->where.line, 9);
    CU_ASSERT_TRUE(ss_node_item(list, 3)->flag);
    CU_ASSERT_EQUAL(ss_node_child(ss_node_item(list, 4), "name")->where.line, 10);
    CU_ASSERT_EQUAL(ss_node_item(list, 5)->kind, SS_NODE_LIST);
    CU_ASSERT_EQUAL(ss_node_item(list, 6)->count, 0);
    const ss_node *off = ss_node_child(d.root, "off");
    CU_ASSERT_EQUAL(off->kind, SS_NODE_FLAG);
    CU_ASSERT_FALSE(off->flag);
    CU_ASSERT_EQUAL(off->where.line, 12);
    ss_text_destroy(&said);
    ss_description_destroy(&d);
}

static void test_what_stops_reading(void) {
    static const struct {
        const char *words, *said;
    } cases[] = {
        {"a = 1;\nb = { c = 2;\n",
         "creek.cfg:2: : syntax error: the \"{\" that opens here is never closed; reading stopped here\n"},
        {"a = ( 1, 2 ];", "creek.cfg:1: : syntax error: found \"]\" where the \"(\" of line 1 waits for its "
                          "\")\"; reading stopped here\n"},
        {"a = 1; }", "creek.cfg:1: : syntax error: \"}\" closes nothing; reading stopped here\n"},
        {"a = \"one\n\";",
         "creek.cfg:1: : syntax error: the text is not closed on its line; reading stopped here\n"},
        {"a = \"one\\\n\";",
         "creek.cfg:1: : syntax error: the text is not closed on its line; reading stopped here\n"},
        {"a = \"o\\x00ne\";",
         "creek.cfg:1: : syntax error: the text holds a NUL byte, \\x00; reading stopped here\n"},
        {"a = 1;\n$b = 2;",
         "creek.cfg:2: : syntax error: \"$\" is not allowed outside quotes; reading stopped here\n"},
        {"a = 1;\n\xC3\xA4 = 2;",
         "creek.cfg:2: : syntax error: \"\xC3\xA4\" is not allowed outside quotes; reading stopped here\n"},
        {"a = 1;\nb 2;", "creek.cfg:2: : syntax error: \"b\" stands where a key is due, as in key = value; "
                         "reading stopped here\n"},
        {"a = 1;\n= 2;",
         "creek.cfg:2: : syntax error: found \"=\" with no key before it; reading stopped here\n"},
        {"a = 1;;",
         "creek.cfg:1: : syntax error: found \";\" with no value before it; reading stopped here\n"},
        {"a = (1, 2,\n);", "creek.cfg:2: : syntax error: found \")\" after a comma, where another item is "
                           "due; reading stopped here\n"},
        {"a = (1 2);", "creek.cfg:1: : syntax error: a comma is missing before this item of a list; reading "
                       "stopped here\n"},
        {"a = (1; 2);", "creek.cfg:1: : syntax error: found \";\" in a list, where commas stand between the "
                        "items; reading stopped here\n"},
        {"a = { b = };",
         "creek.cfg:1: : syntax error: found \"}\" where a value is due; reading stopped here\n"},
        {"a = { b };", "creek.cfg:1: : syntax error: \"b\" stands where a key is due, as in key = value; "
                       "reading stopped here\n"},
        {"a = 1 = 3;",
         "creek.cfg:1: : syntax error: found \"=\" with no key before it; reading stopped here\n"},
        {"a = 2; 3;", "creek.cfg:1: : syntax error: found a value where a key is due, as in key = value; "
                      "reading stopped here\n"},
        {"a = # what\n",
         "creek.cfg:2: : syntax error: the file ends where a value is due; reading stopped here\n"},
        {"a # what\n 2",
         "creek.cfg:2: : syntax error: the \"=\" is missing after a key; reading stopped here\n"},
        {"a*b = 2;", "creek.cfg:1: : syntax error: \"a\" stands where a key is due, as in key = value; "
                     "reading stopped here\n"},
        {"/* a\n b",
         "creek.cfg:1: : the comment that begins here with /* is never closed; reading stopped here\n"},
        {"@include \"parts.cfg\"\n",
         "creek.cfg:1: : the include \"parts.cfg\" is refused: a description that is not a file has no place "
         "beside which to look\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ss_description d;
        ss_text said = {0};
        CU_ASSERT_EQUAL(read_words(cases[i].words, &d, &said), SS_ERROR_DESCRIPTION);
        CU_ASSERT_PTR_NULL(d.root);
        CHECK_ROW(said.data != NULL && strcmp(said.data, cases[i].said) == 0,
                  said.data == NULL ? "" : said.data);
        ss_text_destroy(&said);
        ss_description_destroy(&d);
    }
}

static void test_what_does_not_stop_reading(void) {
    static const struct {
        const char *words, *said;
    } cases[] = {
        {"a = [ \"x\" \"y\", \"z\" ];", "creek.cfg:1: a.1: found two texts without a comma between them; "
                                        "lists are written [ \"a\", \"b\" ]\n"},
        {"a = \"x\"\n  \"y\";", "creek.cfg:1: a: found two texts without a comma between them; lists are "
                                "written [ \"a\", \"b\" ]\n"},
        {"a = { b = 1;\n b = { c = 3; }; };",
         "creek.cfg:2: a.b: given again in the same group; it stands already at line 1, once is allowed\n"},
        {"a = 26 in;", "creek.cfg:1: a: found 26 in without quotes; texts, and quantities with their units, "
                       "are written \"26 in\"\n"},
        {"a = box # remark\n;", "creek.cfg:1: a: found box without quotes; texts, and quantities with their "
                                "units, are written \"box\"\n"},
        {"a = 1-1/2;", "creek.cfg:1: a: 1-1/2 is not a number; numbers are written 12, 0.85 or 1.5e3\n"},
        {"a = [ { name = \"x\"; } ];", "creek.cfg:1: a.x: found a group or list inside [ ]; a list of groups "
                                       "is written ( { ... }, { ... } )\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ss_description d;
        ss_text said = {0};
        CU_ASSERT_EQUAL(read_words(cases[i].words, &d, &said), SS_ERROR_DESCRIPTION);
        CU_ASSERT_PTR_NOT_NULL_FATAL(d.root);
        CU_ASSERT_EQUAL(d.root->count, 1);
        CHECK_ROW(said.data != NULL && strcmp(said.data, cases[i].said) == 0,
                  said.data == NULL ? "" : said.data);
        ss_text_destroy(&said);
        ss_description_destroy(&d);
    }
}

static void test_empty_text_is_an_empty_group(void) {
    ss_description d;
    ss_text said = {0};
    CU_ASSERT_EQUAL(read_words("", &d, &said), SS_OK);
    CU_ASSERT_EQUAL(d.root->count, 0);
    CU_ASSERT_EQUAL(d.digest, UINT64_C(14695981039346656037));
    ss_description_destroy(&d);
    CU_ASSERT_EQUAL(read_words("\xEF\xBB\xBF\r\n# nothing\r\n", &d, &said), SS_OK);
    CU_ASSERT_EQUAL(d.root->count, 0);
    ss_description_destroy(&d);
    ss_text_destroy(&said);
}

/* FNV-1a of "a" and of "foobar" as its authors list them (Fowler, Noll, Vo: test vectors of the reference
 * code). */
static void test_digest(void) {
    static const char foobar[] = "foobar=1;";
    ss_description d;
    ss_text said = {0};
    uint64_t expected = UINT64_C(0x85944171f73967e8); /* of "foobar" */
    for (const char *c = foobar + 6; *c != '\0'; c++) {
        expected = (expected ^ (uint64_t)*c) * UINT64_C(0x100000001b3);
    }
    CU_ASSERT_EQUAL(read_words(foobar, &d, &said), SS_OK);
    CU_ASSERT_EQUAL(d.digest, expected);
    ss_description_destroy(&d);
    ss_text_destroy(&said);
}

static void test_nul_bytes_are_refused(void) {
    static const char words[] = "a = 1;\nb = \"x\0y\";\n";
    ss_description d;
    ss_diag_list diags = {0};
    ss_text said = {0};
    CU_ASSERT_EQUAL(ss_description_read_text("creek.cfg", words, sizeof words - 1, &d, &diags, NULL),
                    SS_ERROR_DESCRIPTION);
    say_all(&diags, &said);
    CU_ASSERT_STRING_EQUAL(
        said.data, "creek.cfg:2: : found a NUL byte; a description is plain text; reading stopped here\n");
    CU_ASSERT_PTR_NULL(d.root);
    ss_text_destroy(&said);
    ss_diag_destroy(&diags);
}

static void test_sizes_are_bounded(void) {
    ss_description d;
    ss_diag_list diags = {0};
    ss_error error = {0};
    ss_text words = {0};
    ss_text_repeat(&words, "# forty bytes of nothing at all, a line\n", SS_READ_BYTES / 40 + 1);
    CU_ASSERT_EQUAL(ss_description_read_text("creek.cfg", words.data, words.length, &d, &diags, &error),
                    SS_ERROR_LIMIT);
    CU_ASSERT_STRING_EQUAL(error.message, "the description and its includes have more than 4194304 bytes");
    CU_ASSERT_EQUAL(diags.count, 0);
    ss_text_destroy(&words);
    ss_diag_destroy(&diags);

    static const struct {
        const char *before, *piece;
        int times;
        const char *said;
    } cases[] = {
        {"a = ", "(", SS_READ_NESTING + 1,
         "creek.cfg:1: : syntax error: groups and lists are nested more than 32 deep; reading stopped "
         "here\n"},
        {"a = ( 1", ", 1", SS_READ_VALUES,
         "creek.cfg:1: : syntax error: more than 200000 values; reading stopped here\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ss_text said = {0};
        ss_text_add(&words, cases[i].before);
        ss_text_repeat(&words, cases[i].piece, cases[i].times);
        CU_ASSERT_EQUAL(read_words(words.data, &d, &said), SS_ERROR_DESCRIPTION);
        CU_ASSERT_STRING_EQUAL(said.data, cases[i].said);
        ss_text_destroy(&said);
        ss_text_destroy(&words);
    }
    for (int i = 0; i <= SS_READ_GROUP_KEYS; i++) {
        ss_text_printf(&words, "k%d = 1;\n", i);
    }
    ss_text said = {0};
    CU_ASSERT_EQUAL(read_words(words.data, &d, &said), SS_ERROR_DESCRIPTION);
    CU_ASSERT_STRING_EQUAL(
        said.data, "creek.cfg:201: : syntax error: more than 200 keys in one group; reading stopped here\n");
    ss_text_destroy(&said);
    ss_text_destroy(&words);
}

static void test_files_that_cannot_be_read(void) {
    static const struct {
        const char *path, *message;
    } cases[] = {
        {SS_SOURCE_DIR "/tests/broken/none.cfg",
         SS_SOURCE_DIR "/tests/broken/none.cfg: there is no such file"},
        {SS_SOURCE_DIR "/tests/broken", SS_SOURCE_DIR "/tests/broken: it is a directory, not a file"},
        {"/dev/null", "/dev/null: it is not a regular file"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ss_description d;
        ss_diag_list diags = {0};
        ss_error error = {0};
        CU_ASSERT_EQUAL(ss_description_read(cases[i].path, &d, &diags, &error), SS_ERROR_FILE);
        CU_ASSERT_STRING_EQUAL(error.message, cases[i].message);
        CU_ASSERT_EQUAL(diags.count, 0);
        CU_ASSERT_PTR_NULL(d.root);
    }
}

int main(void) {
    const test_case cases[] = {
        {"values and lines", test_values_and_lines},
        {"stops", test_what_stops_reading},
        {"goes on", test_what_does_not_stop_reading},
        {"empty", test_empty_text_is_an_empty_group},
        {"digest", test_digest},
        {"NUL", test_nul_bytes_are_refused},
        {"sizes", test_sizes_are_bounded},
        {"files", test_files_that_cannot_be_read},
    };
    return RUN_SUITE("io/reader", cases);
}
