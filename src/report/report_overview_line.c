/* report_overview_line.c - a row of the overview as one line of text, and back. */
#include <limits.h>

#include "base/fields.h"
#include "report/report_overview.h"

void ss_overview_row_write(const ss_overview_row *row, ss_text *line) {
    ss_fields_add(line, row->file);
    ss_fields_add(line, row->title);
    ss_fields_add_integer(line, (long long)row->outcome);
    ss_fields_add(line, row->says);
    ss_fields_add_integer(line, row->faults);
    ss_fields_add_integer(line, row->warnings);
    ss_fields_add_integer(line, row->cars);
    ss_fields_add_number(line, row->length);
    ss_fields_add_number(line, row->moment);
    ss_fields_add_number(line, row->deflection);
    ss_fields_add_number(line, row->reaction);
    ss_fields_add(line, row->truck);
    ss_fields_add_number(line, row->rf);
    ss_fields_add_number(line, row->tons);
    ss_fields_add_number(line, row->x);
    ss_fields_add(line, row->member);
    ss_fields_add(line, row->failure);
}

bool ss_overview_row_read(const char *line, ss_arena *arena, ss_overview_row *out) {
    ss_fields fields = {.at = line, .arena = arena};
    ss_overview_row row = {.file = ss_fields_text(&fields)};
    row.title = ss_fields_text(&fields);
    row.outcome = (ss_outcome)ss_fields_integer(&fields, 0, SS_OUTCOME_NOT_RUN);
    row.says = ss_fields_text(&fields);
    row.faults = (int)ss_fields_integer(&fields, 0, INT_MAX);
    row.warnings = (int)ss_fields_integer(&fields, 0, INT_MAX);
    row.cars = (int)ss_fields_integer(&fields, 0, INT_MAX);
    row.length = ss_fields_number(&fields);
    row.moment = ss_fields_number(&fields);
    row.deflection = ss_fields_number(&fields);
    row.reaction = ss_fields_number(&fields);
    row.truck = ss_fields_text(&fields);
    row.rf = ss_fields_number(&fields);
    row.tons = ss_fields_number(&fields);
    row.x = ss_fields_number(&fields);
    row.member = ss_fields_text(&fields);
    row.failure = ss_fields_text(&fields);
    if (!ss_fields_end(&fields) || row.file == NULL) {
        return false;
    }
    *out = row;
    return true;
}

void ss_overview_add_line(ss_overview *overview, const char *line) {
    ss_overview_row *const row = ss_overview_place(overview);
    if (row != NULL && !ss_overview_row_read(line, &overview->arena, row)) {
        overview->failed = true;
    }
    overview->count += row != NULL && !overview->failed;
}
