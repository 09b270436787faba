/* questions.h - what `sillspan new` wants to know: one table that its options, its questions and its file
 * share. */
#ifndef SS_CLI_QUESTIONS_H
#define SS_CLI_QUESTIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "sillspan/units.h"

/** The questions in the order in which they are asked: what a later one depends on comes first. */
enum {
    SS_ASK_UNITS,
    SS_ASK_TITLE,
    SS_ASK_CARS,
    SS_ASK_LENGTH,
    SS_ASK_WIDTH,
    SS_ASK_DEPTH,
    SS_ASK_YEAR,
    SS_ASK_GAP,
    SS_ASK_JOINT,
    SS_ASK_BEARINGS,
    SS_ASK_WHEEL_TRUCKS,
    SS_ASK_ROADWAY,
    SS_ASK_CONDITION,
    SS_ASK_SYSTEM,
    SS_ASK_COUNT
};

/** Choices of SS_ASK_JOINT and SS_ASK_BEARINGS, by their index. */
enum { SS_JOINED_NONE, SS_JOINED_HINGED, SS_JOINED_RIGID, SS_JOINED_SPRINGS };
enum { SS_REST_ENDS, SS_REST_WHEEL_TRUCKS, SS_REST_BOTH };

/** What is assumed, in US and SI units, and how the help says so. */
#define SS_ASSUMED_TITLE "A bridge without a title"
#define SS_ASSUMED_CARS "2"
#define SS_ASSUMED_LENGTH_US "60 ft"
#define SS_ASSUMED_LENGTH_SI "18.3 m"
#define SS_ASSUMED_WIDTH_US "9 ft 4 in"
#define SS_ASSUMED_WIDTH_SI "2.85 m"
#define SS_ASSUMED_DEPTH_US "26 in"
#define SS_ASSUMED_DEPTH_SI "660 mm"
#define SS_ASSUMED_YEAR "1960"
#define SS_ASSUMED_GAP_US "4 in"
#define SS_ASSUMED_GAP_SI "100 mm"
#define SS_ASSUMED_JOINT "none"
#define SS_ASSUMED_BEARINGS "ends"
#define SS_HELP_EITHER(us, si) us " (si: " si ")"
#define SS_HELP_WHEEL_TRUCKS "7 ft (si: 2.1 m); an eighth of a car shorter than 28 ft"
#define SS_HELP_ROADWAY "the cars' width less 1 ft (si: 0.3 m) on each side"
#define SS_HELP_OPEN "left open"

typedef enum ss_answer_kind {
    SS_ANSWER_TEXT,
    SS_ANSWER_COUNT, /**< a whole number */
    SS_ANSWER_LENGTH,
    SS_ANSWER_CHOICE,
    SS_ANSWER_FACTOR,
    SS_ANSWER_CHOICE_OR_FACTOR
} ss_answer_kind;

typedef struct ss_question {
    const char *option; /**< the option with the same meaning, without dashes */
    const char *ask;    /**< as a person is asked */
    ss_answer_kind kind;
    const char *choices;      /**< "ends|wheel trucks|both" */
    const char *assumed[2];   /**< US, SI; NULL: worked out from other answers, or left open */
    const char *least, *most; /**< limits, as one would write them */
    bool open;                /**< never assumed: may stay open */
} ss_question;

/** The table: SS_ASK_COUNT rows. */
const ss_question *ss_questions(void);

/** The question whose option is `name`, or -1. */
int ss_question_of(const char *name);

enum { SS_ANSWER_BYTES = 256 };

/** Answers so far. A zeroed struct has none. */
typedef struct ss_starter {
    bool known[SS_ASK_COUNT];                 /**< answered or assumed */
    bool assumed[SS_ASK_COUNT];               /**< by the program */
    char text[SS_ASK_COUNT][SS_ANSWER_BYTES]; /**< as written */
    double value[SS_ASK_COUNT]; /**< m, a count, a year, a factor, or the index of a choice (-1: a factor
                                   instead, which then is in `factor`) */
    double factor[SS_ASK_COUNT];
} ss_starter;

ss_unit_system ss_starter_units(const ss_starter *starter);

/** Whether the question arises after the earlier answers: one car has no joint. */
bool ss_starter_arises(const ss_starter *starter, int question);

/** Takes an answer, or says in `why` (size bytes) what was found and what is allowed. The answers to all
 * earlier questions that arise must be known. */
bool ss_starter_take(ss_starter *starter, int question, const char *text, char *why, size_t size);

/** What would be assumed, as one would write it; "" for a question that stays open. Returns buffer. */
const char *ss_starter_assumption(const ss_starter *starter, int question, char *buffer, size_t size);

/** Takes that as the answer. False only if it does not fit the earlier answers, `why` as above. */
bool ss_starter_assume(ss_starter *starter, int question, char *why, size_t size);

/** Width over all cars and gaps, m. */
double ss_starter_width(const ss_starter *starter);

#endif
