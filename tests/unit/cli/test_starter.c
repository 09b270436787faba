/* test_starter.c - the questions of `new`: what is taken, what is asked again, what hostile answers do. */
#include <string.h>

#include "cli/options.h"
#include "cli/starter.h"
#include "support/suite.h"

/* A person who answers from a list and hears everything. */
typedef struct person {
    const char *const *answers; /* NULL ends the input */
    int next;
    char heard[20000];
} person;

static bool read_line(void *context, char *line, size_t size) {
    person *one = context;
    if (one->answers[one->next] == NULL) {
        return false;
    }
    snprintf(line, size, "%s", one->answers[one->next++]);
    return true;
}

static void say(void *context, const char *text) {
    person *one = context;
    const size_t used = strlen(one->heard);
    snprintf(one->heard + used, sizeof one->heard - used, "%s", text);
}

static bool talk(ss_starter *starter, person *one, const char *const *given, char *why, size_t size) {
    static const char *const nothing[SS_ASK_COUNT] = {NULL};
    const ss_asker asker = {.read_line = read_line, .say = say, .context = one};
    *starter = (ss_starter){.value = {0.0}};
    return ss_starter_fill(starter, given == NULL ? nothing : given, &asker, why, size);
}

static void test_every_question_is_an_option(void) {
    int count = 0;
    int answers = 0;
    const ss_option *options = ss_options(&count);
    for (int i = 0; i < count; i++) {
        if (options[i].kind == SS_OPTION_ANSWER) {
            answers++;
            CHECK_ROW(ss_question_of(options[i].name) >= 0, options[i].name);
            CHECK_ROW((options[i].commands & SS_IN_NEW) != 0, options[i].name);
        }
    }
    /* --units is one too, but of every command. */
    CU_ASSERT_EQUAL(answers, SS_ASK_COUNT - 1);
    CU_ASSERT_EQUAL(ss_question_of("units"), SS_ASK_UNITS);
    CU_ASSERT_EQUAL(ss_question_of("quiet"), -1);
    for (int i = 0; i < count; i++) {
        const int question = options[i].kind == SS_OPTION_ANSWER ? ss_question_of(options[i].name) : -1;
        const char *assumed = question < 0 ? NULL : ss_questions()[question].assumed[SS_UNITS_SI];
        if (assumed != NULL) {
            CHECK_ROW(strstr(options[i].fallback, assumed) != NULL, options[i].name);
        }
    }
}

static void test_a_whole_talk(void) {
    static const char *const answers[] = {"si",     "Weir Lane", "3",    " 18.6 m\t", "2.74 m",
                                          "0.63 m", "1971",      "7 cm", "springs",   "both",
                                          "2.2 m",  "7.5 m",     "poor", "0.9",       NULL};
    person one = {.answers = answers};
    ss_starter s;
    char why[300] = "";
    CU_ASSERT_TRUE(talk(&s, &one, NULL, why, sizeof why));
    CU_ASSERT_EQUAL(one.next, 14);
    CU_ASSERT_EQUAL(ss_starter_units(&s), SS_UNITS_SI);
    CHECK_CLOSE(s.value[SS_ASK_LENGTH], 18.6, 1e-14);
    CHECK_CLOSE(s.value[SS_ASK_GAP], 0.07, 1e-14);
    CHECK_CLOSE(ss_starter_width(&s), 3.0 * 2.74 + 2.0 * 0.07, 1e-14);
    CU_ASSERT_EQUAL((int)s.value[SS_ASK_JOINT], SS_JOINED_SPRINGS);
    CU_ASSERT_EQUAL((int)s.value[SS_ASK_BEARINGS], SS_REST_BOTH);
    CHECK_CLOSE(s.factor[SS_ASK_SYSTEM], 0.9, 1e-14);
    for (int i = 0; i < SS_ASK_COUNT; i++) {
        CHECK_ROW(s.known[i] && !s.assumed[i], ss_questions()[i].option);
    }
}

static void test_empty_answers_are_assumed(void) {
    static const char *const answers[] = {"", "", "", "", "", "", "", "", "", "", "", "", "", NULL};
    person one = {.answers = answers};
    ss_starter s;
    char why[300] = "";
    CU_ASSERT_TRUE(talk(&s, &one, NULL, why, sizeof why));
    /* At the ends nobody asks where the wheel trucks were. */
    CU_ASSERT_EQUAL(one.next, 13);
    CU_ASSERT_FALSE(s.known[SS_ASK_WHEEL_TRUCKS]);
    CU_ASSERT_STRING_EQUAL(s.text[SS_ASK_ROADWAY], "17 ft");
    CU_ASSERT_TRUE(s.assumed[SS_ASK_LENGTH]);
    /* The engineer's judgement is never assumed. */
    CU_ASSERT_FALSE(s.known[SS_ASK_CONDITION]);
    CU_ASSERT_FALSE(s.known[SS_ASK_SYSTEM]);
    ss_text text = {0};
    ss_starter_write(&s, &text);
    CU_ASSERT_FALSE_FATAL(text.failed);
    CU_ASSERT_PTR_NOT_NULL(strstr(text.data, "\n  # condition = "));
    CU_ASSERT_PTR_NOT_NULL(strstr(text.data, "\n  # system = "));
    ss_text_destroy(&text);
}

/* Each is refused with a word about what is allowed, and the question comes again. */
static void test_wrong_answers_are_asked_again(void) {
    static const struct {
        int question;
        const char *wrong, *expected;
    } rows[] = {
        {SS_ASK_UNITS, "metric", "none of us, si"},
        {SS_ASK_TITLE, "a\x1b[31mb", "control character"},
        {SS_ASK_TITLE, "caf\xe9", "not UTF-8"},
        {SS_ASK_CARS, "0", "from 1 to 6"},
        {SS_ASK_CARS, "2.5", "whole number"},
        {SS_ASK_CARS, "two", "whole number"},
        {SS_ASK_CARS, "1e9", "from 1 to 6"},
        {SS_ASK_CARS, "nan", "whole number"},
        {SS_ASK_LENGTH, "60", "has no unit"},
        {SS_ASK_LENGTH, "60 kip", "is a force"},
        {SS_ASK_LENGTH, "9 ft 11 in", "from 10 ft to 100 ft"},
        {SS_ASK_LENGTH, "60 ft, 61 ft", ""},
        {SS_ASK_LENGTH, "-60 ft", "from 10 ft to 100 ft"},
        {SS_ASK_WIDTH, "2 m", "from 7 ft to 14 ft"},
        {SS_ASK_DEPTH, "7.9 in", "from 8 in to 60 in"},
        {SS_ASK_YEAR, "68", "from 1850 to 2100"},
        {SS_ASK_GAP, "25 in", "from 0 in to 24 in"},
        {SS_ASK_JOINT, "welded", "none, hinged, rigid, springs"},
        {SS_ASK_BEARINGS, "middle", "ends, wheel trucks, both"},
        {SS_ASK_WHEEL_TRUCKS, "30 ft", "from 1 ft to 29 ft"},
        {SS_ASK_ROADWAY, "19 ft 1 in", "to 19 ft"},
        {SS_ASK_ROADWAY, "6 ft", "from 6 ft 3 in"},
        {SS_ASK_CONDITION, "bad", "nor good, fair or poor"},
        {SS_ASK_CONDITION, "1.1", "from 0.5 to 1"},
        {SS_ASK_SYSTEM, "0.85 x", "from 0.5 to 1"},
        {SS_ASK_SYSTEM, "inf", "from 0.5 to 1"},
    };
    static const char *const right[SS_ASK_COUNT] = {"us",    "T",     "2",    "60 ft",  "9 ft 4 in",
                                                    "26 in", "1968",  "4 in", "hinged", "both",
                                                    "7 ft",  "17 ft", "fair", "0.85"};
    for (int r = 0; r < ENTRIES(rows); r++) {
        const char *answers[SS_ASK_COUNT + 2] = {NULL};
        int count = 0;
        for (int i = 0; i < SS_ASK_COUNT; i++) {
            if (i == rows[r].question) {
                answers[count++] = rows[r].wrong;
            }
            answers[count++] = right[i];
        }
        person one = {.answers = answers};
        ss_starter s;
        char why[300] = "";
        CHECK_ROW(talk(&s, &one, NULL, why, sizeof why), rows[r].wrong);
        CHECK_ROW(one.next == SS_ASK_COUNT + 1, rows[r].wrong);
        CHECK_ROW(strstr(one.heard, rows[r].expected) != NULL, rows[r].wrong);
        CHECK_ROW(strchr(one.heard, '\x1b') == NULL, rows[r].wrong);
        CHECK_ROW(strcmp(s.text[rows[r].question], right[rows[r].question]) == 0, rows[r].wrong);
    }
}

static void test_too_long_answer(void) {
    char title[400];
    memset(title, 'x', sizeof title - 1);
    title[sizeof title - 1] = '\0';
    const char *const answers[] = {"us", title, "Short", NULL};
    person one = {.answers = answers};
    ss_starter s;
    char why[300] = "";
    CU_ASSERT_FALSE(talk(&s, &one, NULL, why, sizeof why));
    CU_ASSERT_PTR_NOT_NULL(strstr(one.heard, "too long"));
    CU_ASSERT_STRING_EQUAL(s.text[SS_ASK_TITLE], "Short");
}

static void test_end_of_input_stops(void) {
    for (int length = 0; length < 13; length++) {
        const char *answers[16] = {NULL};
        for (int i = 0; i < length; i++) {
            answers[i] = "";
        }
        person one = {.answers = answers};
        ss_starter s;
        char why[300] = "";
        CU_ASSERT_FALSE(talk(&s, &one, NULL, why, sizeof why));
        CU_ASSERT_PTR_NOT_NULL(strstr(why, "nothing was written"));
    }
}

/* What an option gives is not asked; what it gives wrongly is told with its name. */
static void test_options_go_before_questions(void) {
    const char *given[SS_ASK_COUNT] = {[SS_ASK_UNITS] = "us", [SS_ASK_CARS] = "1"};
    static const char *const answers[] = {"", "", "", "", "", "", "", "", "", NULL};
    person one = {.answers = answers};
    ss_starter s;
    char why[300] = "";
    CU_ASSERT_TRUE(talk(&s, &one, given, why, sizeof why));
    /* One car has no gap and no joint. */
    CU_ASSERT_EQUAL(one.next, 9);
    CU_ASSERT_FALSE(s.assumed[SS_ASK_CARS]);
    given[SS_ASK_GAP] = "4 in";
    one.next = 0;
    CU_ASSERT_FALSE(talk(&s, &one, given, why, sizeof why));
    CU_ASSERT_PTR_NOT_NULL(strstr(why, "--gap goes with two cars or more"));
    given[SS_ASK_GAP] = NULL;
    given[SS_ASK_DEPTH] = "26";
    one.next = 0;
    CU_ASSERT_FALSE(talk(&s, &one, given, why, sizeof why));
    CU_ASSERT_PTR_NOT_NULL(strstr(why, "--depth: "));
    given[SS_ASK_DEPTH] = NULL;
    given[SS_ASK_WHEEL_TRUCKS] = "7 ft";
    one.next = 0;
    CU_ASSERT_FALSE(talk(&s, &one, given, why, sizeof why));
    CU_ASSERT_PTR_NOT_NULL(strstr(why, "--wheel-trucks goes with --bearings"));
}

int main(void) {
    static const test_case cases[] = {
        {"every question is an option", test_every_question_is_an_option},
        {"a whole talk", test_a_whole_talk},
        {"empty answers are assumed", test_empty_answers_are_assumed},
        {"wrong answers are asked again", test_wrong_answers_are_asked_again},
        {"too long answer", test_too_long_answer},
        {"end of input stops", test_end_of_input_stops},
        {"options go before questions", test_options_go_before_questions},
    };
    return RUN_SUITE("starter", cases);
}
