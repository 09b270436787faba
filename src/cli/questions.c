/* questions.c - the questions of `sillspan new`, and the answers that each of them takes. */
#include "cli/questions.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "model/description_value.h"
#include "sillspan/text.h"

#define METRES_IN_FOOT 0.3048
#define METRES_IN_INCH 0.0254

/* Wheel lines of the built-in trucks are 6 ft apart; with less than this no truck could be driven. */
#define NARROWEST_ROADWAY "6 ft 3 in"

static const ss_question questions[SS_ASK_COUNT] = {
    [SS_ASK_UNITS] = {.option = "units",
                      .ask = "Units of the output, us (ft, in, kip) or si (m, mm, kN)",
                      .kind = SS_ANSWER_CHOICE,
                      .choices = "us|si",
                      .assumed = {"us", "us"}},
    [SS_ASK_TITLE] = {.option = "title",
                      .ask = "What is the bridge called",
                      .kind = SS_ANSWER_TEXT,
                      .assumed = {SS_ASSUMED_TITLE, SS_ASSUMED_TITLE}},
    [SS_ASK_CARS] = {.option = "cars",
                     .ask = "How many cars lie side by side",
                     .kind = SS_ANSWER_COUNT,
                     .assumed = {SS_ASSUMED_CARS, SS_ASSUMED_CARS},
                     .least = "1",
                     .most = "6"},
    [SS_ASK_LENGTH] = {.option = "length",
                       .ask = "Length of a car over its end sills, or as it was cut",
                       .kind = SS_ANSWER_LENGTH,
                       .assumed = {SS_ASSUMED_LENGTH_US, SS_ASSUMED_LENGTH_SI},
                       .least = "10 ft",
                       .most = "100 ft"},
    [SS_ASK_WIDTH] = {.option = "width",
                      .ask = "Width of a car over its edges",
                      .kind = SS_ANSWER_LENGTH,
                      .assumed = {SS_ASSUMED_WIDTH_US, SS_ASSUMED_WIDTH_SI},
                      .least = "7 ft",
                      .most = "14 ft"},
    [SS_ASK_DEPTH] = {.option = "depth",
                      .ask = "Depth of its main girder at midlength",
                      .kind = SS_ANSWER_LENGTH,
                      .assumed = {SS_ASSUMED_DEPTH_US, SS_ASSUMED_DEPTH_SI},
                      .least = "8 in",
                      .most = "60 in"},
    [SS_ASK_YEAR] = {.option = "year",
                     .ask = "Year in which the cars were built, from the stencil",
                     .kind = SS_ANSWER_COUNT,
                     .assumed = {SS_ASSUMED_YEAR, SS_ASSUMED_YEAR},
                     .least = "1850",
                     .most = "2100"},
    [SS_ASK_GAP] = {.option = "gap",
                    .ask = "Clear distance between two cars",
                    .kind = SS_ANSWER_LENGTH,
                    .assumed = {SS_ASSUMED_GAP_US, SS_ASSUMED_GAP_SI},
                    .least = "0 in",
                    .most = "24 in"},
    [SS_ASK_JOINT] =
        {.option = "joint",
         .ask = "What ties each car to the next: none, hinged (no step), rigid (no step, no fold) or "
                "springs",
         .kind = SS_ANSWER_CHOICE,
         .choices = "none|hinged|rigid|springs",
         .assumed = {SS_ASSUMED_JOINT, SS_ASSUMED_JOINT}},
    [SS_ASK_BEARINGS] =
        {.option = "bearings",
         .ask = "Where the cars rest: ends, wheel trucks (where they rode on their wheels) or both",
         .kind = SS_ANSWER_CHOICE,
         .choices = "ends|wheel trucks|both",
         .assumed = {SS_ASSUMED_BEARINGS, SS_ASSUMED_BEARINGS}},
    [SS_ASK_WHEEL_TRUCKS] = {.option = "wheel-trucks",
                             .ask = "How far that is from each end of the car",
                             .kind = SS_ANSWER_LENGTH,
                             .least = "1 ft"},
    [SS_ASK_ROADWAY] = {.option = "roadway",
                        .ask = "Clear width between the curbs",
                        .kind = SS_ANSWER_LENGTH,
                        .least = NARROWEST_ROADWAY},
    [SS_ASK_CONDITION] =
        {.option = "condition",
         .ask = "Condition of the superstructure: good, fair, poor or a factor (nothing: decide later)",
         .kind = SS_ANSWER_CHOICE_OR_FACTOR,
         .choices = "good|fair|poor",
         .open = true},
    [SS_ASK_SYSTEM] =
        {.option = "system",
         .ask = "System factor for redundancy that the owner has decided on (nothing: decide later)",
         .kind = SS_ANSWER_FACTOR,
         .open = true},
};

const ss_question *ss_questions(void) {
    return questions;
}

int ss_question_of(const char *name) {
    for (int i = 0; i < SS_ASK_COUNT; i++) {
        if (strcmp(questions[i].option, name) == 0) {
            return i;
        }
    }
    return -1;
}

ss_unit_system ss_starter_units(const ss_starter *starter) {
    return starter->known[SS_ASK_UNITS] && starter->value[SS_ASK_UNITS] > 0.0 ? SS_UNITS_SI : SS_UNITS_US;
}

bool ss_starter_arises(const ss_starter *starter, int question) {
    switch (question) {
    case SS_ASK_GAP:
    case SS_ASK_JOINT: return starter->value[SS_ASK_CARS] > 1.0;
    case SS_ASK_WHEEL_TRUCKS: return starter->value[SS_ASK_BEARINGS] > (double)SS_REST_ENDS;
    default: return true;
    }
}

double ss_starter_width(const ss_starter *starter) {
    const double cars = starter->value[SS_ASK_CARS];
    return cars * starter->value[SS_ASK_WIDTH] +
           (cars > 1.0 ? (cars - 1.0) * starter->value[SS_ASK_GAP] : 0.0);
}

/* ---- what an answer may be -------------------------------------------------------------------------- */

/* The length written in a limit of the table. */
static double limit_of(const char *text) {
    double value = 0.0;
    int count = 0;
    (void)ss_units_parse(text, SS_DIM_LENGTH, &value, 1, &count, NULL);
    return value;
}

/* Largest length that fits the earlier answers; in words in `most`. */
static double largest(const ss_starter *starter, int question, char *most, size_t size) {
    double value = 0.0;
    if (question == SS_ASK_WHEEL_TRUCKS) {
        value = 0.5 * starter->value[SS_ASK_LENGTH] - METRES_IN_FOOT;
    } else if (question == SS_ASK_ROADWAY) {
        value = ss_starter_width(starter);
    } else {
        snprintf(most, size, "%s", questions[question].most);
        return limit_of(questions[question].most);
    }
    (void)ss_units_format(most, size, value, SS_DIM_LENGTH, ss_starter_units(starter), 4);
    return value;
}

static bool take_length(ss_starter *starter, int question, const char *text, char *why, size_t size) {
    ss_error error = {0};
    double value = 0.0;
    int count = 0;
    if (ss_units_parse(text, SS_DIM_LENGTH, &value, 1, &count, &error) != SS_OK) {
        snprintf(why, size, "%s", error.message);
        return false;
    }
    char most[64];
    const double least = limit_of(questions[question].least);
    /* The limit itself, typed as it is shown, must do. */
    const double greatest = largest(starter, question, most, sizeof most) + 0.002;
    if (!(value >= least - 1e-9 && value <= greatest)) {
        snprintf(why, size, "%.60s is not from %s to %s", text, questions[question].least, most);
        return false;
    }
    starter->value[question] = value;
    return true;
}

static bool take_count(ss_starter *starter, int question, const char *text, char *why, size_t size) {
    const char *end = text;
    const char *unused = NULL;
    const double value = ss_text_number(text, &end);
    const double least = ss_text_number(questions[question].least, &unused);
    const double most = ss_text_number(questions[question].most, &unused);
    if (end == text || *end != '\0' || !(value >= least && value <= most) || value != floor(value)) {
        snprintf(why, size, "\"%.60s\" is no whole number from %s to %s", text, questions[question].least,
                 questions[question].most);
        return false;
    }
    starter->value[question] = value;
    return true;
}

static bool take_factor(ss_starter *starter, int question, const char *text, char *why, size_t size) {
    const char *end = text;
    const double value = ss_text_number(text, &end);
    if (end == text || *end != '\0' || !(value >= 0.5 && value <= 1.0)) {
        snprintf(why, size, "\"%.60s\" is no number from 0.5 to 1%s", text,
                 questions[question].choices == NULL ? "" : ", nor good, fair or poor");
        return false;
    }
    starter->value[question] = -1.0;
    starter->factor[question] = value;
    return true;
}

static bool take_choice(ss_starter *starter, int question, const char *text, char *why, size_t size) {
    const int choice = ss_choice_index(questions[question].choices, text);
    if (choice < 0 && questions[question].kind == SS_ANSWER_CHOICE_OR_FACTOR) {
        return take_factor(starter, question, text, why, size);
    }
    if (choice < 0) {
        ss_text words = {0};
        ss_choice_words(questions[question].choices, ", ", &words);
        snprintf(why, size, "\"%.60s\" is none of %s", text, words.failed ? "the choices" : words.data);
        ss_text_destroy(&words);
        return false;
    }
    starter->value[question] = (double)choice;
    return true;
}

static bool take_kind(ss_starter *starter, int question, const char *text, char *why, size_t size) {
    switch (questions[question].kind) {
    case SS_ANSWER_LENGTH: return take_length(starter, question, text, why, size);
    case SS_ANSWER_COUNT: return take_count(starter, question, text, why, size);
    case SS_ANSWER_FACTOR: return take_factor(starter, question, text, why, size);
    case SS_ANSWER_CHOICE:
    case SS_ANSWER_CHOICE_OR_FACTOR: return take_choice(starter, question, text, why, size);
    case SS_ANSWER_TEXT: break;
    }
    return true;
}

bool ss_starter_take(ss_starter *starter, int question, const char *text, char *why, size_t size) {
    if (strlen(text) >= SS_ANSWER_BYTES) {
        snprintf(why, size, "that is too long; %d letters are the most", SS_ANSWER_BYTES - 1);
        return false;
    }
    if (!ss_text_is_clean(text)) {
        snprintf(why, size,
                 "that holds a control character or is not UTF-8; letters, digits and signs are allowed");
        return false;
    }
    if (text[strspn(text, " ")] == '\0') {
        snprintf(why, size, "that is empty; leave it out to have it assumed or left open");
        return false;
    }
    if (!take_kind(starter, question, text, why, size)) {
        return false;
    }
    starter->known[question] = true;
    starter->assumed[question] = false;
    snprintf(starter->text[question], SS_ANSWER_BYTES, "%s", text);
    return true;
}

/* ---- what is assumed -------------------------------------------------------------------------------- */

const char *ss_starter_assumption(const ss_starter *starter, int question, char *buffer, size_t size) {
    const ss_unit_system units = ss_starter_units(starter);
    const double round = units == SS_UNITS_SI ? 0.01 : METRES_IN_INCH;
    double value = 0.0;
    if (question == SS_ASK_WHEEL_TRUCKS) {
        const double usual = units == SS_UNITS_SI ? 2.1 : 7.0 * METRES_IN_FOOT;
        value = fmin(usual, floor(starter->value[SS_ASK_LENGTH] / 8.0 / round) * round);
        value = fmax(value, 0.31);
    } else if (question == SS_ASK_ROADWAY) {
        const double width = ss_starter_width(starter);
        const double curb = units == SS_UNITS_SI ? 0.3 : METRES_IN_FOOT;
        /* A single car leaves no room for curbs of that width: a truck is 6 ft wide between its wheel lines.
         */
        value =
            width > 10.0 * curb ? width - 2.0 * curb : fmax(width - curb / 2.0, limit_of(NARROWEST_ROADWAY));
    } else {
        const char *text = questions[question].assumed[units];
        snprintf(buffer, size, "%s", text == NULL ? "" : text);
        return buffer;
    }
    if (units == SS_UNITS_SI) {
        return ss_units_format(buffer, size, value, SS_DIM_LENGTH, units, 6);
    }
    const int inches = (int)floor(value / METRES_IN_INCH + 1e-6);
    if (inches % 12 == 0) {
        snprintf(buffer, size, "%d ft", inches / 12);
    } else {
        snprintf(buffer, size, "%d ft %d in", inches / 12, inches % 12);
    }
    return buffer;
}

bool ss_starter_assume(ss_starter *starter, int question, char *why, size_t size) {
    char text[SS_ANSWER_BYTES];
    if (questions[question].open) {
        starter->known[question] = false;
        return true;
    }
    const bool taken = ss_starter_take(
        starter, question, ss_starter_assumption(starter, question, text, sizeof text), why, size);
    starter->assumed[question] = taken;
    return taken;
}
