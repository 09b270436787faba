/* write_csv.c - a report as CSV for spreadsheets and scripts: every table for programs, one record a line. */
#include "sillspan/write.h"

#include <math.h>
#include <string.h>

#include "sillspan/memory.h"

/* As in JSON: digits beyond these differ between machines. */
#define DIGITS 10

/* The table that sentences and words standing alone are gathered in. */
static const char values_key[] = "result";

typedef struct csv {
    const ss_report *report;
    ss_text *out;
    const char *table; /* its name begins every record; NULL: plain records of one table */
    int width;         /* fields of every record */
    int field;         /* of the record that is being written */
} csv;

/* What a spreadsheet would take for a formula: the sign may follow blanks, and may be one of the wide forms
 * of the same signs. The apostrophe is among them so that taking one off always gives the text back. */
static bool looks_like_formula(const char *text) {
    static const char *const signs[] = {"=", "+", "-", "@", "'", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"};
    text += strspn(text, " ");
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        if (strncmp(text, signs[i], strlen(signs[i])) == 0) {
            return true;
        }
    }
    return false;
}

static void next_field(csv *c) {
    ss_text_add(c->out, c->field++ == 0 ? "" : ",");
}

/* A field in quotes where RFC 4180 asks for them, and where blanks at an end could be lost. */
static void put_quoted(ss_text *out, const char *text) {
    const size_t length = strlen(text);
    const bool blank = length > 0 && (text[0] == ' ' || text[length - 1] == ' ');
    if (!blank && strpbrk(text, ",\"") == NULL) {
        ss_text_add_bytes(out, text, length);
        return;
    }
    ss_text_add(out, "\"");
    for (const char *at = text; *at != '\0'; at++) {
        ss_text_add_bytes(out, at, 1);
        if (*at == '"') {
            ss_text_add(out, "\"");
        }
    }
    ss_text_add(out, "\"");
}

static void put_text(csv *c, const char *text) {
    ss_text plain = {0};
    ss_text safe = {0};
    next_field(c);
    ss_text_add_plain(&plain, text);
    const char *seen = plain.data == NULL ? "" : plain.data;
    if (looks_like_formula(seen)) {
        ss_text_add(&safe, "'");
    }
    ss_text_add(&safe, seen);
    put_quoted(c->out, safe.data == NULL ? "" : safe.data);
    c->out->failed = c->out->failed || plain.failed || safe.failed;
    ss_text_destroy(&plain);
    ss_text_destroy(&safe);
}

/* Names and units of the program's own. */
static void put_own(csv *c, const char *text) {
    next_field(c);
    put_quoted(c->out, text);
}

static void put_number(csv *c, double value) {
    char number[64];
    next_field(c);
    if (isnan(value)) {
        ss_text_add(c->out, "nan");
    } else if (isinf(value)) {
        ss_text_add(c->out, value > 0.0 ? "inf" : "-inf");
    } else {
        ss_text_add(c->out, ss_text_significant(number, sizeof number, value, DIGITS));
    }
}

/* `row` 0 is the header. */
static void begin_record(csv *c, int row) {
    c->field = 0;
    if (c->table == NULL) {
        return;
    }
    put_own(c, c->table);
    if (row == 0) {
        put_own(c, "row");
    } else {
        put_number(c, (double)row);
    }
}

static void end_record(csv *c) {
    if (c->table != NULL) {
        ss_text_repeat(c->out, ",", c->width - c->field);
    }
    ss_text_add(c->out, "\n");
}

static ss_dimension dimension_of(const ss_column *column, const ss_cell *cell) {
    return cell->dimension != SS_DIM_NUMBER ? cell->dimension : column->dimension;
}

static bool is_seen(const ss_table *table, int index) {
    return table->columns[index].audience != SS_FOR_PEOPLE;
}

/* Whether some row has another unit than the column: then the unit stands in a field of its own. */
static bool brings_units(const ss_table *table, int index) {
    const ss_column *column = &table->columns[index];
    for (int row = 0; row < table->row_count; row++) {
        const ss_cell *cell = &table->cells[row * table->column_count + index];
        if (cell->kind == SS_CELL_QUANTITY && dimension_of(column, cell) != column->dimension) {
            return true;
        }
    }
    return false;
}

static int table_fields(const ss_table *table) {
    int fields = 0;
    for (int i = 0; i < table->column_count; i++) {
        fields += !is_seen(table, i) ? 0 : brings_units(table, i) ? 2 : 1;
    }
    return fields;
}

static void put_header(csv *c, const ss_table *table, const bool *own_unit) {
    begin_record(c, 0);
    for (int i = 0; i < table->column_count; i++) {
        if (!is_seen(table, i)) {
            continue;
        }
        const ss_column *column = &table->columns[i];
        const char *unit = own_unit[i] ? "" : ss_units_name(column->dimension, c->report->units);
        next_field(c);
        ss_text_add(c->out, column->key);
        if (unit[0] != '\0') {
            ss_text_printf(c->out, " [%s]", unit);
        }
        if (own_unit[i]) {
            next_field(c);
            ss_text_printf(c->out, "%s_unit", column->key);
        }
    }
    end_record(c);
}

static void put_cell(csv *c, const ss_column *column, const ss_cell *cell, bool own_unit) {
    const ss_dimension dimension = dimension_of(column, cell);
    switch (cell->kind) {
    case SS_CELL_NONE: next_field(c); break;
    case SS_CELL_TEXT: put_text(c, cell->text); break;
    case SS_CELL_QUANTITY: put_number(c, ss_units_from_si(cell->value, dimension, c->report->units)); break;
    case SS_CELL_INTEGER: put_number(c, cell->value); break;
    case SS_CELL_FLAG: put_own(c, cell->value != 0.0 ? "true" : "false"); break;
    }
    if (own_unit) {
        put_own(c, cell->kind == SS_CELL_QUANTITY ? ss_units_name(dimension, c->report->units) : "");
    }
}

static void put_table(csv *c, const ss_table *table) {
    bool *own_unit = ss_alloc((size_t)table->column_count, sizeof *own_unit);
    if (own_unit == NULL) {
        c->out->failed = true;
        return;
    }
    for (int i = 0; i < table->column_count; i++) {
        own_unit[i] = brings_units(table, i);
    }
    put_header(c, table, own_unit);
    for (int row = 0; row < table->row_count; row++) {
        begin_record(c, row + 1);
        for (int i = 0; i < table->column_count; i++) {
            if (is_seen(table, i)) {
                put_cell(c, &table->columns[i], &table->cells[row * table->column_count + i], own_unit[i]);
            }
        }
        end_record(c);
    }
    ss_free(own_unit);
}

static void put_list(csv *c, const ss_block *block) {
    begin_record(c, 0);
    put_own(c, "text");
    end_record(c);
    for (int i = 0; i < block->item_count; i++) {
        begin_record(c, i + 1);
        put_text(c, block->items[i]);
        end_record(c);
    }
}

static void put_values(csv *c) {
    begin_record(c, 0);
    put_own(c, "key");
    put_own(c, "value");
    end_record(c);
    int row = 0;
    for (int i = 0; i < c->report->count; i++) {
        const ss_block *block = &c->report->blocks[i];
        if (block->kind == SS_BLOCK_VALUE && block->audience != SS_FOR_PEOPLE) {
            begin_record(c, ++row);
            put_own(c, block->key);
            put_text(c, block->text);
            end_record(c);
        }
    }
}

/* The name of the table that a block makes, or NULL. */
static const char *block_table(const ss_block *block) {
    if (block->audience == SS_FOR_PEOPLE) {
        return NULL;
    }
    return block->kind == SS_BLOCK_TABLE  ? block->table->key
           : block->kind == SS_BLOCK_LIST ? block->key
                                          : NULL;
}

int ss_write_csv_tables(const ss_report *report, const char **names, int most) {
    int count = 0;
    for (int i = -1; i < report->count; i++) {
        const char *name = i < 0 ? values_key : block_table(&report->blocks[i]);
        if (name != NULL && count++ < most) {
            names[count - 1] = name;
        }
    }
    return count;
}

/* The prefix takes two fields more than the widest table. */
static int stream_width(const ss_report *report) {
    int width = 2;
    for (int i = 0; i < report->count; i++) {
        const ss_block *block = &report->blocks[i];
        if (block_table(block) != NULL && block->kind == SS_BLOCK_TABLE) {
            const int fields = table_fields(block->table);
            width = fields > width ? fields : width;
        }
    }
    return width + 2;
}

ss_status ss_write_csv(const ss_report *report, const char *table, ss_text *out, ss_error *error) {
    csv c = {.report = report, .out = out, .width = stream_width(report)};
    bool found = false;
    for (int i = -1; i < report->count; i++) {
        const char *name = i < 0 ? values_key : block_table(&report->blocks[i]);
        if (name == NULL || (table != NULL && strcmp(table, name) != 0)) {
            continue;
        }
        found = true;
        c.table = table == NULL ? name : NULL;
        if (i < 0) {
            put_values(&c);
        } else if (report->blocks[i].kind == SS_BLOCK_LIST) {
            put_list(&c, &report->blocks[i]);
        } else {
            put_table(&c, report->blocks[i].table);
        }
    }
    if (out->failed) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the CSV of the report");
    }
    return found ? SS_OK
                 : ss_error_set(error, SS_ERROR_LIMIT, "the report has no table called \"%.100s\"", table);
}
