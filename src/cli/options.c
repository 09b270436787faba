/* options.c - the table of options and the reading of the command line. */
#include "cli/option_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cli/questions.h"
#include "sillspan/memory.h"
#include "sillspan/text.h"

static const ss_option options[] = {
    {"format", 0, SS_OPTION_CHOICE, "FORM", "text|json|csv", "text",
     SS_IN_ALL | SS_IN_VEHICLES | SS_IN_STUDIES, "text for people, json for programs, csv for spreadsheets"},
    {"format", 0, SS_OPTION_CHOICE, "FORM", "svg|pdf|png", "as FILE ends, else svg", SS_IN_DRAW,
     "svg for browsers and word processors, pdf for print, png where only dots go"},
    {"resolution", 0, SS_OPTION_COUNT, "NUMBER", NULL, "200", SS_IN_DRAW, "dots per inch of a png"},
    {"format", 0, SS_OPTION_CHOICE, "FORM", "html|pdf", "as FILE ends, else html", SS_IN_REPORT,
     "html for browsers, pdf to be filed and printed as it is"},
    {"paper", 0, SS_OPTION_CHOICE, "SIZE", "a4|letter", "a4", SS_IN_REPORT, "paper of a pdf"},
    {"table", 0, SS_OPTION_TEXT, "NAME", NULL, "all tables", SS_IN_ALL | SS_IN_VEHICLES | SS_IN_STUDIES,
     "with --format csv: this table alone, such as ratings"},
    {"figure", 0, SS_OPTION_CHOICE, "NAME",
     "plan|section|elevation|moment|shear|deflection|share|rating|influence|sign", "plan", SS_IN_DRAW,
     "plan, section, elevation, moment, shear, deflection, share, rating, influence or sign"},
    {"of", 0, SS_OPTION_TEXT, "MEMBER", NULL, "main girders, or what governs", SS_IN_DRAW,
     "what moment, shear, deflection or influence is of, as \"sill of car north\"; \"all\": every line"},
    {"at", 0, SS_OPTION_TEXT, "PLACE", NULL, "the middle", SS_IN_DRAW,
     "where on that member influence is of, as \"22 ft\": x, of a floor beam y"},
    {"effect", 0, SS_OPTION_CHOICE, "NAME", "moment|shear|torsion|deflection|reaction",
     "moment; of a joint shear, of a bearing reaction", SS_IN_DRAW, "which effect influence is of"},
    {"influence", 0, SS_OPTION_TEXT, "PROBE", NULL, "the model and its results", SS_IN_EXPORT,
     "the influence surface of a probe, by its name or by its keys, as \"joint=seam; x=30 ft; "
     "effect=shear\""},
    {"figure", 0, SS_OPTION_TEXT, "FILE", NULL, "none", SS_IN_STUDIES,
     "the result as a figure besides: .svg, .pdf or .png, as FILE ends"},
    {"output", 'o', SS_OPTION_TEXT, "FILE", NULL, "standard output",
     SS_IN_ALL | SS_IN_VEHICLES | SS_IN_STUDIES | SS_IN_REPORT | SS_IN_DRAW | SS_IN_EXPORT,
     "write the results to FILE, whole or not at all"},
    {"units", 0, SS_OPTION_CHOICE, "SYSTEM", "us|si", "as the description says",
     SS_IN_ALL | SS_IN_VEHICLES | SS_IN_NEW | SS_IN_STUDIES | SS_IN_REPORT | SS_IN_DRAW | SS_IN_EXPORT,
     "units of the results: us (ft, in, kip) or si (m, mm, kN)"},
    {"require", 0, SS_OPTION_NUMBER, "NUMBER", NULL, "nothing is required", SS_IN_RATE | SS_IN_REPORT,
     "exit with 1 unless every rated member, joint and bearing reaches this factor"},
    {"detail", 0, SS_OPTION_TEXT, "MEMBER", NULL, "what governs", SS_IN_RATE | SS_IN_REPORT,
     "work out every term of this line, floor beam, joint or set of them, as \"stringer 2\""},
    {"cut", 0, SS_OPTION_TEXT, "CAR", NULL, "no girder is cut", SS_IN_RATE | SS_IN_REPORT,
     "what if the main girder of this car were severed where it rates least"},
    {"brief", 0, SS_OPTION_FLAG, NULL, NULL, NULL, SS_IN_RATE | SS_IN_REPORT,
     "the bridge as found alone: nothing is rated again without a finding or a weak member"},
    {"studies", 0, SS_OPTION_TEXT, "LIST", NULL, "none", SS_IN_REPORT,
     "these too, with commas: sweep, bounds, sample, compare, size, each as by itself"},
    {"resume", 0, SS_OPTION_TEXT, "FILE", NULL, "nothing is kept", SS_IN_ALL,
     "of several bridges: keep each finished row in FILE, and take over what is there already"},
    {"set", 0, SS_OPTION_ASSIGNMENT, "PATH=VALUE", NULL, NULL,
     SS_IN_ALL | SS_IN_STUDIES | SS_IN_REPORT | SS_IN_DRAW | SS_IN_EXPORT,
     "change one value of the description, named by its path; any number of times"},
    {"variant", 0, SS_OPTION_TEXT, "NAME", NULL, "the bridge as described",
     SS_IN_ALL | SS_IN_REPORT | SS_IN_DRAW | SS_IN_EXPORT, "look at this variant of the description"},
    {"with", 0, SS_OPTION_ASSIGNMENT, "VARIANT", NULL, NULL, SS_IN_COMPARE,
     "one variant more, as \"soft: PATH=VALUE; PATH=VALUE\"; any number of times"},
    {"no-rating", 0, SS_OPTION_FLAG, NULL, NULL, NULL, SS_IN_COMPARE,
     "what trucks do alone: no factors, no posting"},
    {"no-response", 0, SS_OPTION_FLAG, NULL, NULL, NULL, SS_IN_COMPARE,
     "ratings alone: no bending, deflection, sharing, bearings, joints"},
    {"unknown", 0, SS_OPTION_ASSIGNMENT, "PATH=LOW..HIGH", NULL, NULL, SS_IN_UNKNOWNS | SS_IN_REPORT,
     "one more value that nobody knows, and what it can be; any number of times"},
    {"vary", 0, SS_OPTION_ASSIGNMENT, "PATH=VALUES", NULL, "all joints, from none to rigid", SS_IN_SWEEP,
     "what is gone through: LOW..HIGH, LOW..HIGH log, or values with commas; twice for a map"},
    {"stiffness", 0, SS_OPTION_TEXT, "JOINT", NULL, NULL, SS_IN_SWEEP,
     "go through the stiffness of this joint alone, from none to rigid"},
    {"points", 0, SS_OPTION_COUNT, "NUMBER", NULL, "a fitting number", SS_IN_SWEEP,
     "how many values of a range; of joints, without none and rigid"},
    {"runs", 0, SS_OPTION_COUNT, "NUMBER", NULL, "200", SS_IN_BOUNDS, "most bridges that are tried"},
    {"draws", 0, SS_OPTION_COUNT, "NUMBER", NULL, "400", SS_IN_SAMPLE, "how often the unknowns are drawn"},
    {"seed", 0, SS_OPTION_COUNT, "NUMBER", NULL, "1", SS_IN_SAMPLE, "another one draws other values"},
    {"title", 0, SS_OPTION_ANSWER, "TEXT", NULL, "\"" SS_ASSUMED_TITLE "\"", SS_IN_NEW,
     "what the bridge is called"},
    {"cars", 0, SS_OPTION_ANSWER, "NUMBER", NULL, SS_ASSUMED_CARS, SS_IN_NEW, "cars side by side, 1 to 6"},
    {"length", 0, SS_OPTION_ANSWER, "LENGTH", NULL,
     SS_HELP_EITHER(SS_ASSUMED_LENGTH_US, SS_ASSUMED_LENGTH_SI), SS_IN_NEW, "of a car, over its end sills"},
    {"width", 0, SS_OPTION_ANSWER, "LENGTH", NULL, SS_HELP_EITHER(SS_ASSUMED_WIDTH_US, SS_ASSUMED_WIDTH_SI),
     SS_IN_NEW, "of a car, over its edges"},
    {"depth", 0, SS_OPTION_ANSWER, "LENGTH", NULL, SS_HELP_EITHER(SS_ASSUMED_DEPTH_US, SS_ASSUMED_DEPTH_SI),
     SS_IN_NEW, "of its main girder at midlength"},
    {"year", 0, SS_OPTION_ANSWER, "YEAR", NULL, SS_ASSUMED_YEAR, SS_IN_NEW,
     "in which the car was built, for its steel"},
    {"gap", 0, SS_OPTION_ANSWER, "LENGTH", NULL, SS_HELP_EITHER(SS_ASSUMED_GAP_US, SS_ASSUMED_GAP_SI),
     SS_IN_NEW, "clear between two cars"},
    {"joint", 0, SS_OPTION_ANSWER, "KIND", "none|hinged|rigid|springs", SS_ASSUMED_JOINT, SS_IN_NEW,
     "what ties each car to the next: none, hinged, rigid or springs"},
    {"bearings", 0, SS_OPTION_ANSWER, "PLACE", "ends|wheel trucks|both", SS_ASSUMED_BEARINGS, SS_IN_NEW,
     "where the cars rest: ends, \"wheel trucks\" or both"},
    {"wheel-trucks", 0, SS_OPTION_ANSWER, "LENGTH", NULL, SS_HELP_WHEEL_TRUCKS, SS_IN_NEW,
     "from each end of a car to the point where it rode on its wheels"},
    {"roadway", 0, SS_OPTION_ANSWER, "LENGTH", NULL, SS_HELP_ROADWAY, SS_IN_NEW, "clear between the curbs"},
    {"condition", 0, SS_OPTION_ANSWER, "WORD", NULL, SS_HELP_OPEN, SS_IN_NEW,
     "good, fair, poor or a factor from 0.5 to 1; never assumed"},
    {"system", 0, SS_OPTION_ANSWER, "NUMBER", NULL, SS_HELP_OPEN, SS_IN_NEW,
     "system factor from 0.5 to 1; never assumed"},
    {"abreast", 0, SS_OPTION_FLAG, NULL, NULL, NULL, SS_IN_ANALYZE | SS_IN_COMPARE | SS_IN_EXPORT,
     "trucks abreast too, where the roadway has lanes for them; takes longer"},
    {"force", 'f', SS_OPTION_FLAG, NULL, NULL, NULL, SS_IN_NEW, "replace FILE where it exists"},
    {"quiet", 'q', SS_OPTION_FLAG, NULL, NULL, NULL,
     SS_IN_ALL | SS_IN_NEW | SS_IN_STUDIES | SS_IN_REPORT | SS_IN_DRAW | SS_IN_EXPORT,
     "no warnings and no progress on standard error; faults are still told"},
    {"help", 'h', SS_OPTION_FLAG, NULL, NULL, NULL,
     SS_IN_ALL | SS_IN_VEHICLES | SS_IN_NEW | SS_IN_STUDIES | SS_IN_REPORT | SS_IN_DRAW | SS_IN_EXPORT,
     "this text"},
    {"version", 0, SS_OPTION_FLAG, NULL, NULL, NULL,
     SS_IN_ALL | SS_IN_VEHICLES | SS_IN_NEW | SS_IN_STUDIES | SS_IN_REPORT | SS_IN_DRAW | SS_IN_EXPORT,
     "versions of the program and its libraries"},
};
enum { OPTIONS = (int)(sizeof options / sizeof options[0]) };
_Static_assert((int)SS_ASK_COUNT <= (int)SS_ANSWERS_MAX, "every question has room for its answer");

const ss_option *ss_options(int *count) {
    *count = OPTIONS;
    return options;
}

bool ss_option_complain(ss_usage_error *error, const char *what, const char *word, const char *right) {
    /* What was typed may hold anything; it is made harmless before it is shown. */
    ss_text plain = {0};
    ss_text_add_plain(&plain, word);
    snprintf(error->message, sizeof error->message, "%s \"%.60s\"%s%.80s%s", what,
             plain.data == NULL ? "" : plain.data, right == NULL ? "" : "; the nearest is ",
             right == NULL ? "" : right, "");
    ss_text_destroy(&plain);
    return false;
}

static const ss_option *nearest_option(const char *name) {
    const char *names[OPTIONS];
    for (int i = 0; i < OPTIONS; i++) {
        names[i] = options[i].name;
    }
    const char *near = ss_text_nearest(name, names, OPTIONS);
    for (int i = 0; i < OPTIONS; i++) {
        if (near == names[i]) {
            return &options[i];
        }
    }
    return NULL;
}

static const ss_option *find_option(const char *name, size_t length) {
    for (int i = 0; i < OPTIONS; i++) {
        if (strlen(options[i].name) == length && strncmp(options[i].name, name, length) == 0) {
            return &options[i];
        }
    }
    return NULL;
}

const ss_option *ss_option_of(const char *name, int command) {
    for (int i = 0; i < OPTIONS; i++) {
        if (strcmp(options[i].name, name) == 0 && (options[i].commands & command) != 0) {
            return &options[i];
        }
    }
    return NULL;
}

static const ss_option *find_letter(char letter) {
    for (int i = 0; i < OPTIONS; i++) {
        if (options[i].letter != 0 && options[i].letter == letter) {
            return &options[i];
        }
    }
    return NULL;
}

static bool take_text(const ss_option *option, const char *value, ss_invocation *out, ss_usage_error *error) {
    const struct {
        const char *name;
        const char **to;
        const char *needs;
    } texts[] = {{"output", &out->output, "--output needs the name of a file, not"},
                 {"table", &out->table, "--table needs the name of a table, not"},
                 {"variant", &out->variant, "--variant needs the name of a variant, not"},
                 {"detail", &out->detail, "--detail needs the name of a member, not"},
                 {"influence", &out->influence, "--influence needs the name of a probe or its keys, not"},
                 {"stiffness", &out->stiffness, "--stiffness needs the name of a joint, not"},
                 {"figure", &out->figure_word, "--figure needs a name, not"},
                 {"studies", &out->studies_word, "--studies needs the names of studies, not"},
                 {"resume", &out->resume, "--resume needs the name of a file, not"},
                 {"of", &out->of, "--of needs the name of a member, not"},
                 {"at", &out->at, "--at needs a place such as \"22 ft\", not"},
                 {"cut", &out->cut, "--cut needs the name of a car of the bridge, not"}};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        if (strcmp(option->name, texts[i].name) != 0) {
            continue;
        }
        if (value[0] == '\0') {
            return ss_option_complain(error, texts[i].needs, value, NULL);
        }
        *texts[i].to = value;
    }
    return true;
}

static bool take_count(const ss_option *option, const char *value, ss_invocation *out,
                       ss_usage_error *error) {
    int *const to = strcmp(option->name, "runs") == 0         ? &out->runs
                    : strcmp(option->name, "draws") == 0      ? &out->draws
                    : strcmp(option->name, "points") == 0     ? &out->points
                    : strcmp(option->name, "resolution") == 0 ? &out->dots
                                                              : &out->seed;
    const char *end = value;
    const double number = ss_text_number(value, &end);
    if (end == value || *end != '\0' || !(number >= 1.0 && number <= 1e9) || number != floor(number)) {
        char what[120];
        snprintf(what, sizeof what, "--%s takes a whole number, 1 or more, such as 20, not", option->name);
        return ss_option_complain(error, what, value, NULL);
    }
    *to = (int)number;
    return true;
}

static bool take_value(const ss_option *option, const char *value, ss_invocation *out,
                       ss_usage_error *error) {
    switch (option->kind) {
    case SS_OPTION_CHOICE: return ss_option_choose(option, value, out, error);
    case SS_OPTION_TEXT: return take_text(option, value, out, error);
    case SS_OPTION_NUMBER: {
        const char *end = value;
        out->require = ss_text_number(value, &end);
        if (end == value || *end != '\0' || !isfinite(out->require) || out->require <= 0.0) {
            return ss_option_complain(error, "--require takes a number greater than 0, such as 1.0, not",
                                      value, NULL);
        }
        return true;
    }
    case SS_OPTION_COUNT: return take_count(option, value, out, error);
    case SS_OPTION_ASSIGNMENT: {
        if (strcmp(option->name, "unknown") == 0 || strcmp(option->name, "vary") == 0) {
            out->unknowns[out->unknown_count++] = value; /* the text is judged with the description */
            return true;
        }
        const char *equals = strchr(value, '=');
        const char *colon = strchr(value, ':');
        if (strcmp(option->name, "with") == 0) {
            if (colon == NULL || strspn(value, " ") == (size_t)(colon - value)) {
                return ss_option_complain(
                    error, "--with takes a name and values, such as \"soft: rating.adtt=20\", not", value,
                    NULL);
            }
            out->withs[out->with_count++] = value;
            return true;
        }
        if (equals == NULL || equals == value) {
            return ss_option_complain(error, "--set takes path=value, such as rating.adtt=20, not", value,
                                      NULL);
        }
        out->sets[out->set_count++] = value;
        return true;
    }
    case SS_OPTION_ANSWER: out->answers[ss_question_of(option->name)] = value; return true;
    case SS_OPTION_FLAG: break;
    }
    if (strcmp(option->name, "quiet") == 0) {
        out->quiet = true;
    } else if (strcmp(option->name, "help") == 0) {
        out->help = true;
    } else if (strcmp(option->name, "brief") == 0) {
        out->brief = true;
    } else if (strcmp(option->name, "no-rating") == 0) {
        out->no_rating = true;
    } else if (strcmp(option->name, "no-response") == 0) {
        out->no_response = true;
    } else if (strcmp(option->name, "abreast") == 0) {
        out->abreast = true;
    } else if (strcmp(option->name, "force") == 0) {
        out->force = true;
    } else {
        out->version = true;
    }
    return true;
}

/* One argument that begins with a dash; *i moves on when its value is the next one. */
static bool take_option(int argc, char **argv, int *i, ss_invocation *out, const ss_option **seen,
                        ss_usage_error *error) {
    const char *argument = argv[*i];
    const char *value = NULL;
    const ss_option *option = NULL;
    if (argument[1] == '-') {
        const char *name = argument + 2;
        const size_t length = strcspn(name, "=");
        option = find_option(name, length);
        value = name[length] == '=' ? name + length + 1 : NULL;
        if (option == NULL) {
            char bare[64];
            snprintf(bare, sizeof bare, "%.*s", (int)(length < 60 ? length : 60), name);
            const ss_option *near = nearest_option(bare);
            char right[80] = "";
            if (near != NULL) {
                snprintf(right, sizeof right, "--%s", near->name);
            }
            char full[80];
            snprintf(full, sizeof full, "--%s", bare);
            return ss_option_complain(error, "no option is called", full, near == NULL ? NULL : right);
        }
    } else {
        option = find_letter(argument[1]);
        if (option == NULL) {
            return ss_option_complain(error, "no option is called", argument, NULL);
        }
        value = argument[2] != '\0' ? argument + 2 : NULL;
    }
    if (option->kind == SS_OPTION_FLAG && value != NULL) {
        char what[80];
        snprintf(what, sizeof what, "--%s takes no value, not", option->name);
        return ss_option_complain(error, what, value, NULL);
    }
    if (option->kind != SS_OPTION_FLAG && value == NULL) {
        if (*i + 1 >= argc) {
            snprintf(error->message, sizeof error->message, "--%s needs a value: --%s %s", option->name,
                     option->name, option->value);
            return false;
        }
        value = argv[++*i];
    }
    *seen = option;
    return take_value(option, value == NULL ? "" : value, out, error);
}

static bool take_command(const char *name, ss_invocation *out, ss_usage_error *error) {
    out->command = ss_command_find(name);
    if (out->command != NULL) {
        return true;
    }
    int count = 0;
    const ss_command *commands = ss_commands(&count);
    const char *names[16];
    for (int i = 0; i < count && i < 16; i++) {
        names[i] = commands[i].name;
    }
    return ss_option_complain(error, "no command is called", name, ss_text_nearest(name, names, count));
}

static bool take_word(const char *word, ss_invocation *out, bool *helping, ss_usage_error *error) {
    if (out->command == NULL && !*helping && strcmp(word, "help") == 0) {
        *helping = true;
        out->help = true;
        return true;
    }
    if (out->command == NULL) {
        return take_command(word, out, error);
    }
    const ss_operands operands = out->command->operands;
    if (*helping || operands == SS_TAKES_NOTHING || (operands == SS_TAKES_FILE && out->file_count > 0)) {
        return ss_option_complain(error, "one thing too many:", word, NULL);
    }
    if (word[0] == '\0' && operands != SS_TAKES_NAMES) {
        return ss_option_complain(error, "no file is called", word, NULL);
    }
    out->files[out->file_count++] = word;
    out->file = out->files[0];
    return true;
}

static bool complain_no_command(ss_usage_error *error) {
    int count = 0;
    const ss_command *commands = ss_commands(&count);
    ss_text names = {0};
    for (int i = 0; i < count; i++) {
        ss_text_printf(&names, "%s%s", i == 0 ? "" : i == count - 1 ? " or " : ", ", commands[i].name);
    }
    snprintf(error->message, sizeof error->message, "no command is given: %s",
             names.failed ? "" : names.data);
    ss_text_destroy(&names);
    return false;
}

/* What each single argument cannot tell. */
static bool check_whole(ss_invocation *out, const ss_option *const *seen, int seen_count,
                        ss_usage_error *error) {
    if (out->help || out->version) {
        return true;
    }
    if (out->command == NULL) {
        return complain_no_command(error);
    }
    for (int i = 0; i < seen_count; i++) {
        if (ss_option_of(seen[i]->name, out->command->bit) == NULL) {
            snprintf(error->message, sizeof error->message, "--%s does not go with \"%s\"", seen[i]->name,
                     out->command->name);
            return false;
        }
    }
    if (!ss_option_format(out, error)) {
        return false;
    }
    if (!ss_option_figure(out, error) || !ss_option_studies(out, error)) {
        return false;
    }
    if (out->table != NULL && out->format != SS_FORMAT_CSV) {
        snprintf(error->message, sizeof error->message, "--table goes with --format csv only");
        return false;
    }
    if (out->no_rating && out->no_response) {
        snprintf(error->message, sizeof error->message,
                 "--no-rating and --no-response together leave nothing to compare");
        return false;
    }
    if (out->file == NULL &&
        (out->command->operands == SS_TAKES_BRIDGES || out->command->operands == SS_TAKES_FILE)) {
        snprintf(error->message, sizeof error->message,
                 "\"%s\" needs the file of a description: sillspan %s FILE", out->command->name,
                 out->command->name);
        return false;
    }
    return true;
}

bool ss_options_parse(int argc, char **argv, ss_invocation *out, ss_usage_error *error) {
    *out = (ss_invocation){.require = (double)NAN, .seed = 1, .effect = -1, .help = argc < 2};
    const size_t most = (size_t)(argc < 1 ? 1 : argc);
    out->sets = ss_alloc(most, sizeof *out->sets);
    out->withs = ss_alloc(most, sizeof *out->withs);
    out->files = ss_alloc(most, sizeof *out->files);
    out->unknowns = ss_alloc(most, sizeof *out->unknowns);
    const ss_option **seen = ss_alloc(most, sizeof *seen);
    int seen_count = 0;
    bool ok = out->sets != NULL && out->withs != NULL && out->unknowns != NULL && out->files != NULL &&
              seen != NULL;
    if (!ok) {
        snprintf(error->message, sizeof error->message, "no memory for the command line");
    }
    bool helping = false;
    bool words_only = false;
    for (int i = 1; ok && i < argc; i++) {
        const char *argument = argv[i];
        if (!words_only && strcmp(argument, "--") == 0) {
            words_only = true;
        } else if (!words_only && argument[0] == '-' && argument[1] != '\0') {
            ok = take_option(argc, argv, &i, out, &seen[seen_count], error);
            seen_count += ok;
        } else {
            ok = take_word(argument, out, &helping, error);
        }
    }
    ok = ok && check_whole(out, seen, seen_count, error);
    ss_free(seen);
    return ok;
}
