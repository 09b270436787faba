/* option_choice.c - options with a choice of words, and the format by --format or by how the file's name
 * ends. */
#include <stdio.h>
#include <string.h>

#include "cli/option_parts.h"
#include "sillspan/text.h"

enum { CHOICES = 24, WORD = 24 };

/* "a|b|c" as words. */
typedef struct choices {
    char word[CHOICES][WORD];
    const char *words[CHOICES];
    int count;
} choices;

static const struct {
    const char *word;
    ss_format format;
} formats[] = {
    {"text", SS_FORMAT_TEXT}, {"json", SS_FORMAT_JSON}, {"csv", SS_FORMAT_CSV}, {"html", SS_FORMAT_PAGE},
    {"svg", SS_FORMAT_SVG},   {"pdf", SS_FORMAT_PDF},   {"png", SS_FORMAT_PNG},
};

static void split(const char *joined, choices *out) {
    out->count = 0;
    for (const char *at = joined; *at != '\0' && out->count < CHOICES;) {
        const size_t length = strcspn(at, "|");
        char *const word = out->word[out->count];
        snprintf(word, WORD, "%.*s", (int)length, at);
        out->words[out->count++] = word;
        at += length;
        at += *at == '|';
    }
}

static int find(const choices *all, const char *word) {
    for (int i = 0; i < all->count; i++) {
        if (strcmp(all->words[i], word) == 0) {
            return i;
        }
    }
    return -1;
}

/* "a, b or c" after `before`, and `after`. */
static void join(const choices *all, const char *before, const char *after, char *out, size_t size) {
    ss_text text = {0};
    ss_text_add(&text, before);
    for (int i = 0; i < all->count; i++) {
        ss_text_printf(&text, "%s%s", i == 0 ? "" : i == all->count - 1 ? " or " : ", ", all->words[i]);
    }
    ss_text_add(&text, after);
    snprintf(out, size, "%s", text.failed ? before : text.data);
    ss_text_destroy(&text);
}

bool ss_option_choose(const ss_option *option, const char *value, ss_invocation *out, ss_usage_error *error) {
    choices all = {.count = 0};
    if (strcmp(option->name, "format") == 0) {
        out->format_word = value;
        return true;
    }
    if (strcmp(option->name, "figure") == 0) {
        if (value[0] == '\0') {
            return ss_option_complain(error, "--figure needs a name, not", value, NULL);
        }
        out->figure_word = value; /* the command says what it is */
        return true;
    }
    split(option->choices, &all);
    const int choice = find(&all, value);
    if (choice < 0) {
        char before[40];
        char what[200];
        snprintf(before, sizeof before, "--%s takes ", option->name);
        join(&all, before, ", not", what, sizeof what);
        return ss_option_complain(error, what, value, ss_text_nearest(value, all.words, all.count));
    }
    if (strcmp(option->name, "paper") == 0) {
        out->paper_given = true;
        out->letter_paper = choice == 1;
    } else if (strcmp(option->name, "effect") == 0) {
        out->effect = choice;
    } else {
        out->units_given = true;
        out->units = choice == 1 ? SS_UNITS_SI : SS_UNITS_US;
    }
    return true;
}

/* What stands after the last dot of a file's name, or NULL. */
static const char *ending_of(const char *path) {
    const char *const slash = strrchr(path, '/');
    const char *const name = slash == NULL ? path : slash + 1;
    const char *const dot = strrchr(name, '.');
    return dot == NULL || dot == name || dot[1] == '\0' ? NULL : dot + 1;
}

/* The choice that an ending stands for, whatever its case; -1: none. */
static int choice_of_ending(const choices *all, const char *ending) {
    for (int i = 0; i < all->count; i++) {
        if (ss_text_same(all->words[i], ending) ||
            (ss_text_same(ending, "htm") && strcmp(all->words[i], "html") == 0)) {
            return i;
        }
    }
    return -1;
}

/* Which choice is meant: what --format says, else the file's ending, else the first. -1: said why not. */
static int decide(const ss_invocation *out, const choices *all, ss_usage_error *error) {
    char before[80];
    char what[200];
    const bool by_ending = out->command->bit == SS_IN_DRAW || out->command->bit == SS_IN_REPORT;
    const char *const ending = by_ending && out->output != NULL ? ending_of(out->output) : NULL;
    const int ended = ending == NULL ? -1 : choice_of_ending(all, ending);
    const int said = out->format_word == NULL ? -1 : find(all, out->format_word);
    if (out->format_word != NULL && said < 0) {
        join(all, "--format takes ", ", not", what, sizeof what);
        ss_option_complain(error, what, out->format_word,
                           ss_text_nearest(out->format_word, all->words, all->count));
        return -1;
    }
    if (said >= 0 && ended >= 0 && said != ended) {
        snprintf(what, sizeof what, "--format says %s, but the file is called", all->words[said]);
        ss_option_complain(error, what, out->output, NULL);
        return -1;
    }
    if (said < 0 && ending != NULL && ended < 0) {
        snprintf(before, sizeof before, "the name of what %s writes ends in ", out->command->name);
        join(all, before, ", or --format says which; not", what, sizeof what);
        ss_option_complain(error, what, ending, ss_text_nearest(ending, all->words, all->count));
        return -1;
    }
    return said >= 0 ? said : ended >= 0 ? ended : 0;
}

bool ss_option_format(ss_invocation *out, ss_usage_error *error) {
    const ss_option *const option = ss_option_of("format", out->command->bit);
    choices all = {.count = 0};
    if (option == NULL) {
        return true;
    }
    split(option->choices, &all);
    const int choice = decide(out, &all, error);
    for (size_t i = 0; choice >= 0 && choice < all.count && i < sizeof formats / sizeof formats[0]; i++) {
        if (strcmp(formats[i].word, all.words[choice]) == 0) {
            out->format = formats[i].format;
        }
    }
    if (choice >= 0 && out->dots > 0 && out->format != SS_FORMAT_PNG) {
        snprintf(error->message, sizeof error->message, "--resolution goes with png only");
        return false;
    }
    if (choice >= 0 && ss_option_of("paper", out->command->bit) != NULL && out->paper_given &&
        out->format != SS_FORMAT_PDF) {
        snprintf(error->message, sizeof error->message, "--paper goes with pdf only; html prints on either");
        return false;
    }
    return choice >= 0;
}

/* Which choice --figure of `draw` names. */
static bool choose_figure(ss_invocation *out, ss_usage_error *error) {
    choices all;
    char what[200];
    split(ss_option_of("figure", SS_IN_DRAW)->choices, &all);
    const int choice = find(&all, out->figure_word);
    if (choice < 0) {
        join(&all, "--figure takes ", ", not", what, sizeof what);
        return ss_option_complain(error, what, out->figure_word,
                                  ss_text_nearest(out->figure_word, all.words, all.count));
    }
    out->figure = choice;
    return true;
}

bool ss_option_figure(ss_invocation *out, ss_usage_error *error) {
    choices all;
    char what[200];
    if (out->figure_word == NULL || out->command->bit == SS_IN_DRAW) {
        return out->figure_word == NULL || choose_figure(out, error);
    }
    split("svg|pdf|png", &all);
    const char *const ending = ending_of(out->figure_word);
    const int choice = ending == NULL ? -1 : choice_of_ending(&all, ending);
    if (choice < 0) {
        join(&all, "the name of a figure ends in ", "; not", what, sizeof what);
        return ss_option_complain(error, what, ending == NULL ? out->figure_word : ending,
                                  ending == NULL ? NULL : ss_text_nearest(ending, all.words, all.count));
    }
    if (out->output != NULL && strcmp(out->output, out->figure_word) == 0) {
        return ss_option_complain(error, "--output and --figure name the same file:", out->output, NULL);
    }
    for (size_t i = 0; i < sizeof formats / sizeof formats[0]; i++) {
        if (strcmp(formats[i].word, all.words[choice]) == 0) {
            out->figure_format = formats[i].format;
        }
    }
    return true;
}

/* The studies that a report can have, by the names of their commands. */
static const struct {
    const char *name;
    int bit;
} studies[] = {{"sweep", SS_IN_SWEEP},
               {"bounds", SS_IN_BOUNDS},
               {"sample", SS_IN_SAMPLE},
               {"compare", SS_IN_COMPARE},
               {"size", SS_IN_SIZE}};
enum { STUDIES = (int)(sizeof studies / sizeof studies[0]) };

bool ss_option_studies(ss_invocation *out, ss_usage_error *error) {
    const char *names[STUDIES];
    for (int i = 0; i < STUDIES; i++) names[i] = studies[i].name;
    for (const char *at = out->studies_word; at != NULL && *at != '\0';) {
        char word[WORD];
        at += strspn(at, " ");
        const size_t length = strcspn(at, ", ");
        int found = -1;
        snprintf(word, sizeof word, "%.*s", (int)(length < WORD ? length : WORD - 1), at);
        for (int i = 0; i < STUDIES; i++) found = strcmp(names[i], word) == 0 ? i : found;
        if (found < 0) {
            return ss_option_complain(error, "--studies takes sweep, bounds, sample, compare and size, not",
                                      word, ss_text_nearest(word, names, STUDIES));
        }
        out->studies |= studies[found].bit;
        at += length;
        at += strspn(at, " ");
        at += *at == ',';
    }
    if (out->command->bit == SS_IN_REPORT && out->unknown_count > 0 && (out->studies & SS_IN_UNKNOWNS) == 0) {
        return ss_option_complain(
            error, "--unknown goes with --studies bounds or sample, not without:", out->unknowns[0], NULL);
    }
    if (out->variant != NULL && (out->studies & (SS_IN_COMPARE | SS_IN_SIZE)) != 0) {
        return ss_option_complain(
            error, "compare and size look at all variants, and do not go with --variant", out->variant, NULL);
    }
    return true;
}
