/* options.h - the command line: one table of options that the parser, the help and the documentation share.
 */
#ifndef SS_CLI_OPTIONS_H
#define SS_CLI_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "sillspan/units.h"

/** Exit statuses; docs/command-line.md lists them. */
enum {
    SS_EXIT_DONE = 0,
    SS_EXIT_NOT_MET = 1,
    SS_EXIT_USAGE = 2,
    SS_EXIT_DESCRIPTION = 3,
    SS_EXIT_ANALYSIS = 4,
    SS_EXIT_FILE = 5,
    SS_EXIT_INTERNAL = 70,
    SS_EXIT_INTERRUPTED = 130
};

typedef enum ss_option_kind {
    SS_OPTION_FLAG,
    SS_OPTION_CHOICE,
    SS_OPTION_TEXT,
    SS_OPTION_NUMBER,     /**< greater than 0 */
    SS_OPTION_COUNT,      /**< a whole number, 1 or more */
    SS_OPTION_ASSIGNMENT, /**< path=value, or a name and several of them; any number of times */
    SS_OPTION_ANSWER      /**< answers the question of `new` that has the option's name (cli/questions.h) */
} ss_option_kind;

/** Commands that an option belongs to, as bits. */
enum {
    SS_IN_CHECK = 1,
    SS_IN_ANALYZE = 2,
    SS_IN_RATE = 4,
    SS_IN_ALL = 7,
    SS_IN_VEHICLES = 8,
    SS_IN_NEW = 16,
    SS_IN_COMPARE = 32,
    SS_IN_BOUNDS = 64,
    SS_IN_SAMPLE = 128,
    SS_IN_UNKNOWNS = 192, /* bounds and sample */
    SS_IN_SWEEP = 256,
    SS_IN_SIZE = 512,
    SS_IN_STUDIES = 992, /* compare, bounds, sample, sweep, size */
    SS_IN_REPORT = 1024,
    SS_IN_DRAW = 2048,
    SS_IN_EXPORT = 4096
};

typedef struct ss_option {
    const char *name; /**< without the dashes */
    char letter;      /**< 0: none */
    ss_option_kind kind;
    const char *value;    /**< what stands for its value in the help, or NULL */
    const char *choices;  /**< "text|json" */
    const char *fallback; /**< the default, for people, or NULL */
    int commands;
    const char *help;
} ss_option;

const ss_option *ss_options(int *count);

typedef enum ss_format {
    SS_FORMAT_TEXT,
    SS_FORMAT_JSON,
    SS_FORMAT_CSV,
    SS_FORMAT_PAGE, /**< html */
    SS_FORMAT_SVG,
    SS_FORMAT_PDF,
    SS_FORMAT_PNG
} ss_format;

enum { SS_ANSWERS_MAX = 20 };

/** What was asked for. Texts point into argv. */
typedef struct ss_invocation {
    const struct ss_command *command; /**< NULL: none named */
    const char *file;                 /**< the first of files, or NULL */
    const char **files;               /**< the caller frees the array with ss_free */
    int file_count;
    const char *output; /**< NULL: standard output */
    ss_format format;
    const char *format_word; /**< as it was given; NULL: it was not */
    int dots;                /**< of a png to an inch; 0: not asked */
    bool paper_given, letter_paper;
    const char *table; /**< the only table of CSV, or NULL */
    bool quiet, help, version;
    bool abreast;        /**< `analyze` has trucks abreast too */
    bool brief;          /**< `rate` and `report` do not rate the bridge again with a change */
    const char *variant; /**< of the description, or NULL */
    const char *detail;  /**< member that is worked out, or NULL */
    const char *resume;  /**< file that keeps finished rows of several bridges, or NULL */
    const char *cut;     /**< car whose main girder is severed, or NULL */
    bool force;          /**< `new` may replace a file */
    const char *answers[SS_ANSWERS_MAX]; /**< to the questions of `new`; NULL: not given */
    bool units_given;
    ss_unit_system units;
    double require;    /**< NaN: not asked */
    const char **sets; /**< path=value; the caller frees the array with ss_free */
    int set_count;
    const struct ss_workers
        *workers;       /**< processes that share the work (sillspan/work.h); NULL: this one alone */
    const char **withs; /**< NAME: path=value; ... of `compare`; the caller frees the array with ss_free */
    int with_count;
    bool no_rating, no_response; /**< `compare` leaves that out */
    const char **unknowns;       /**< as ss_unknown_add takes them; likewise */
    int unknown_count;
    int runs, draws, seed;    /**< of `bounds` and `sample`; 0: not asked */
    int points;               /**< of `sweep`; 0: not asked. What it varies is in `unknowns` */
    const char *stiffness;    /**< joint that `sweep` goes through, or NULL */
    int figure;               /**< of `draw`: number of the choice */
    const char *figure_word;  /**< what --figure says, or NULL: of `draw` a choice, of a study a file */
    ss_format figure_format;  /**< of a study's figure, by how that file's name ends */
    const char *studies_word; /**< what --studies says, or NULL */
    int studies;              /**< of `report`: the bits of those commands */
    const char *influence;    /**< of `export`: probe, or keys of one, or NULL */
    const char *of, *at;      /**< of `draw`: member and place that the figure is of, or NULL */
    int effect;               /**< likewise: number of the choice; -1: not given */
} ss_invocation;

/** What a command takes besides its options. */
typedef enum ss_operands {
    SS_TAKES_BRIDGES, /**< descriptions and folders of them, one or more */
    SS_TAKES_FILE,    /**< exactly one file */
    SS_TAKES_NAMES,   /**< names of vehicles, none or more */
    SS_TAKES_NOTHING
} ss_operands;

/** One command. */
typedef struct ss_command {
    const char *name;
    int bit;
    const char *summary;
    const char *text;    /**< a paragraph or two */
    const char *example; /**< lines */
    int (*run)(const ss_invocation *asked);
    ss_operands operands;
} ss_command;

const ss_command *ss_commands(int *count);
const ss_command *ss_command_find(const char *name);

/** Usage errors: two lines, the second says where help is. */
typedef struct ss_usage_error {
    char message[400];
} ss_usage_error;

/** False on a usage error. `out` may then be incomplete, but out->sets, out->withs, out->unknowns and
 * out->files must still be freed. */
bool ss_options_parse(int argc, char **argv, ss_invocation *out, ss_usage_error *error);

/** One exit status and what it means, in their order. */
typedef struct ss_exit_status {
    int status;
    const char *meaning;
} ss_exit_status;
const ss_exit_status *ss_exit_statuses(int *count);

/** "[options] FILE", as a synopsis says it. */
const char *ss_operands_words(const ss_command *command);

/** Help of the whole program, or of one command, to standard output. */
void ss_help_print(const ss_command *command);
/** Program and library versions to standard output. */
void ss_version_print(void);

int ss_command_check(const ss_invocation *asked);
int ss_command_analyze(const ss_invocation *asked);
int ss_command_rate(const ss_invocation *asked);
int ss_command_compare(const ss_invocation *asked);
int ss_command_bounds(const ss_invocation *asked);
int ss_command_sample(const ss_invocation *asked);
int ss_command_sweep(const ss_invocation *asked);
int ss_command_draw(const ss_invocation *asked);
int ss_command_export(const ss_invocation *asked);
int ss_command_size(const ss_invocation *asked);
int ss_command_report(const ss_invocation *asked);
int ss_command_new(const ss_invocation *asked);
int ss_command_vehicles(const ss_invocation *asked);

#endif
