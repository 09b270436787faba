/* report_overview.c - the table of several bridges, and what did not go through. */
#include "report/report_overview.h"

#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_words.h"
#include "sillspan/version.h"

static const double ton_N = 8896.443230521; /* 2000 pounds-force, NIST SP 811 */
static const double tonne_N = 1000.0 * SS_GRAVITY;

static const char *const outcome_words[] = {
    [SS_OUTCOME_DONE] = "done",       [SS_OUTCOME_NOT_MET] = "not met",   [SS_OUTCOME_FAULTS] = "faults",
    [SS_OUTCOME_FAILED] = "failed",   [SS_OUTCOME_FILE] = "not readable", [SS_OUTCOME_INTERNAL] = "no result",
    [SS_OUTCOME_NOT_RUN] = "not run",
};

/* Columns that each command has after these. */
#define FIRST_COLUMNS                                                                                        \
    {"file", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS}, {"name", "file", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},      \
        {"title", "bridge", SS_DIM_NUMBER, 0, SS_FOR_ALL},                                                   \
        {"outcome", "result", SS_DIM_NUMBER, 0, SS_FOR_ALL},                                                 \
        {"says", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS}, {"faults", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},  \
    {                                                                                                        \
        "warnings", "warnings", SS_DIM_NUMBER, 0, SS_FOR_ALL                                                 \
    }

static const ss_column check_columns[] = {
    FIRST_COLUMNS,
    {"cars", "cars", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"length", "length", SS_DIM_LENGTH, -1, SS_FOR_ALL},
};

static const ss_column analyze_columns[] = {
    FIRST_COLUMNS,
    {"moment", "bending", SS_DIM_MOMENT, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"truck", "from", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"deflection", "deflection", SS_DIM_SMALL_LENGTH, SS_DIGITS_OF_LARGEST(3), SS_FOR_ALL},
    {"reaction", "bearing", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
};

static const ss_column rate_columns[] = {
    FIRST_COLUMNS,
    {"rf", "factor", SS_DIM_NUMBER, -2, SS_FOR_ALL},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"tons", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"carried", "tons", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"member", "what governs", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
};

enum { MOST_COLUMNS = SS_COLUMN_COUNT(rate_columns) };

static void put(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

static void put_first(ss_sheet *sheet, const ss_overview_row *row, size_t folder) {
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, row->file);
    ss_sheet_text(sheet, row->file + folder);
    ss_sheet_text(sheet, row->title);
    ss_sheet_text(sheet, outcome_words[row->outcome]);
    ss_sheet_text(sheet, row->says);
    ss_sheet_integer(sheet, row->faults);
    ss_sheet_integer(sheet, row->warnings);
}

static bool computed(const ss_overview_row *row) {
    return row->outcome == SS_OUTCOME_DONE || row->outcome == SS_OUTCOME_NOT_MET;
}

static void put_check(ss_sheet *sheet, const ss_overview_row *row, size_t folder) {
    put_first(sheet, row, folder);
    if (computed(row)) {
        ss_sheet_integer(sheet, row->cars);
        ss_sheet_value(sheet, row->length);
    }
}

static void put_analyze(ss_sheet *sheet, const ss_overview_row *row, size_t folder) {
    put_first(sheet, row, folder);
    put(sheet, row->moment);
    ss_sheet_text(sheet, row->truck);
    put(sheet, row->deflection);
    put(sheet, row->reaction);
}

static void put_rate(ss_sheet *sheet, const ss_overview_row *row, size_t folder) {
    const bool si = sheet->builder->report->units == SS_UNITS_SI;
    put_first(sheet, row, folder);
    put(sheet, row->rf);
    ss_sheet_text(sheet, row->truck);
    put(sheet, row->tons);
    put(sheet, row->tons * (si ? ton_N / tonne_N : 1.0));
    ss_sheet_text(sheet, row->member);
    ss_sheet_text(sheet, row->failure);
    put(sheet, row->x);
}

/* What one command's table is made of. */
typedef struct layout {
    const char *command;
    const ss_column *columns;
    int column_count;
    void (*put)(ss_sheet *sheet, const ss_overview_row *row, size_t folder);
    const char *note;
} layout;

static const layout layouts[] = {
    {"check", check_columns, SS_COLUMN_COUNT(check_columns), put_check,
     "No truck has been driven over any of them."},
    {"analyze", analyze_columns, SS_COLUMN_COUNT(analyze_columns), put_analyze,
     "The largest that trucks add in any line, without load factors; the bearing with dead load."},
    {"rate", rate_columns, SS_COLUMN_COUNT(rate_columns), put_rate,
     "Factor: how many times the whole truck the weakest place carries. 1.00 or more is no permit to cross; "
     "each "
     "bridge's own report says what it rests on."},
};

/* Bytes of the folder, with its slash, that all files lie in: people need not read it in every row. */
static size_t common_folder(const ss_overview *overview) {
    size_t common = 0;
    for (int i = 0; i < overview->count; i++) {
        const char *file = overview->rows[i].file;
        const char *slash = strrchr(file, '/');
        size_t length = slash == NULL ? 0 : (size_t)(slash - file) + 1;
        while (i > 0 && length > 0 &&
               (length > common || file[length - 1] != '/' ||
                strncmp(file, overview->rows[0].file, length) != 0)) {
            length--;
        }
        common = i == 0 || length < common ? length : common;
    }
    return common;
}

static void add_table(ss_builder *b, const ss_overview *overview, const layout *kind) {
    const size_t folder = common_folder(overview);
    ss_column *columns = ss_arena_alloc(&b->report->arena, MOST_COLUMNS, sizeof *columns);
    if (columns == NULL) {
        b->failed = true;
        return;
    }
    memcpy(columns, kind->columns, (size_t)kind->column_count * sizeof *columns);
    for (int i = 0; i < kind->column_count; i++) {
        if (strcmp(columns[i].key, "carried") == 0 && b->report->units == SS_UNITS_SI) {
            columns[i].title = "tonnes";
        }
    }
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "bridges",
                                                   .title = "Bridge by bridge",
                                                   .note = kind->note,
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = kind->column_count,
                                                   .columns = columns});
    for (int i = 0; i < overview->count; i++) {
        kind->put(&sheet, &overview->rows[i], folder);
    }
}

static void add_folder(ss_builder *b, const ss_overview *overview) {
    const size_t folder = common_folder(overview);
    if (folder > 0) {
        ss_build_sentence(b, "The files are in %.*s.", (int)folder, overview->rows[0].file);
    }
}

static void add_totals(ss_builder *b, const ss_overview *overview, double require) {
    int done = 0;
    int short_of = 0;
    int missing = 0;
    for (int i = 0; i < overview->count; i++) {
        done += computed(&overview->rows[i]);
        short_of += overview->rows[i].outcome == SS_OUTCOME_NOT_MET;
        missing += overview->rows[i].outcome == SS_OUTCOME_NOT_RUN;
    }
    if (missing > 0) {
        ss_build_sentence(b, "Interrupted, so this is incomplete: of %d bridges %d %s not run.",
                          overview->count, missing, missing == 1 ? "was" : "were");
    }
    if (done == overview->count) {
        ss_build_sentence(b, "%s went through.", ss_words_count(b, done, "bridge", "bridges"));
    } else if (done == 0) {
        ss_build_sentence(b, "No bridge went through.");
    } else {
        ss_build_sentence(b, "Of %d bridges %d went through.", overview->count, done);
    }
    if (!isnan(require)) {
        ss_build_sentence(
            b, "A factor of %s was required: %s it.", ss_words_quantity(b, require, SS_DIM_NUMBER, 4),
            short_of == 0 ? "none of these falls short of"
                          : ss_words_count(b, short_of, "bridge falls short of", "bridges fall short of"));
    }
}

static void add_reasons(ss_builder *b, const ss_overview *overview) {
    const size_t folder = common_folder(overview);
    int count = 0;
    const char **items = ss_arena_alloc(&b->report->arena, (size_t)overview->count + 1, sizeof *items);
    if (items == NULL) {
        b->failed = true;
        return;
    }
    for (int i = 0; i < overview->count; i++) {
        const ss_overview_row *row = &overview->rows[i];
        if (row->says == NULL) {
            continue;
        }
        items[count++] = row->faults > 1 ? ss_build_text(b, "%s: the first of %d faults: %s",
                                                         row->file + folder, row->faults, row->says)
                                         : ss_build_text(b, "%s: %s", row->file + folder, row->says);
    }
    if (count > 0) {
        ss_build_heading(b, SS_FOR_PEOPLE, "To look at");
        ss_build_list(b, SS_FOR_PEOPLE, "reasons", items, count);
    }
}

ss_status ss_overview_report(const ss_overview *overview, const ss_overview_head *head, ss_report *out,
                             ss_error *error) {
    ss_report report = {.units = head->units};
    ss_builder b = {.report = &report, .failed = overview->failed};
    ss_build_value(&b, SS_FOR_PROGRAMS, "program", "sillspan");
    ss_build_value(&b, SS_FOR_PROGRAMS, "version", SS_VERSION);
    ss_build_value(&b, SS_FOR_PROGRAMS, "command", head->command);
    ss_part_units(&b);
    ss_build_heading(&b, SS_FOR_PEOPLE, "Several bridges");
    ss_build_sentence(&b, "sillspan %s, %s.", SS_VERSION, head->command);
    add_folder(&b, overview);
    add_totals(&b, overview, head->require);
    for (size_t i = 0; i < sizeof layouts / sizeof layouts[0]; i++) {
        if (strcmp(layouts[i].command, head->command) == 0) {
            add_table(&b, overview, &layouts[i]);
        }
    }
    add_reasons(&b, overview);
    if (b.failed) {
        ss_report_destroy(&report);
        *out = (ss_report){0};
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the report");
    }
    *out = report;
    return SS_OK;
}
