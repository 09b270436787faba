/* starter.h - the description that `sillspan new` writes. */
#ifndef SS_CLI_STARTER_H
#define SS_CLI_STARTER_H

#include "cli/questions.h"
#include "sillspan/text.h"

/** How a person is asked: both functions get `context`. */
typedef struct ss_asker {
    /** One line without its end, at most size - 1 bytes; false when there is no more input. A longer line is
     * given cut, and the rest of it is dropped. */
    bool (*read_line)(void *context, char *line, size_t size);
    void (*say)(void *context, const char *text);
    void *context;
} ss_asker;

/**
 * Goes through all questions. An answer in `given` (SS_ASK_COUNT texts, NULL where there is none) is taken;
 * without one `asker` is asked until the answer is good, an empty one meaning that it may be assumed or left
 * open; without an asker (NULL) it is assumed or left open at once. False: `why` says what is wrong with
 * which option, or that the input ended.
 */
bool ss_starter_fill(ss_starter *starter, const char *const *given, const ss_asker *asker, char *why,
                     size_t size);

/** Appends the whole description. All questions that arise must be known or open. */
void ss_starter_write(const ss_starter *starter, ss_text *out);

/** The parts of it, in order. */
void ss_starter_write_car(const ss_starter *starter, ss_text *out);
void ss_starter_write_bridge(const ss_starter *starter, ss_text *out);
void ss_starter_write_rating(const ss_starter *starter, ss_text *out);

/** `us` or `si`, whichever the description is in. */
const char *ss_starter_pick(const ss_starter *starter, const char *us, const char *si);

/** "   # ASSUMED" where the answer was assumed, else "". */
const char *ss_starter_mark(const ss_starter *starter, int question);

/** Appends `text` as a text of a description: in quotation marks, with those inside it escaped. */
void ss_starter_quote(ss_text *out, const char *text);

/** Appends lengths (m) as one text with one unit, `"0, 7.5, 15 ft"`: feet where hundredths of a foot say them
 * all exactly, else inches; or metres. */
void ss_starter_lengths(const ss_starter *starter, ss_text *out, const double *metres, int count);

/** A length to the nearest 0.01 ft or centimetre, m. */
double ss_starter_rounded(const ss_starter *starter, double metres);

#endif
