/* report_builder.c - blocks and tables that grow, in the report's arena. */
#include "report/report_builder.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "sillspan/figure.h"

static const char *format_text(ss_builder *b, const char *format, va_list arguments) {
    if (b->failed) {
        return "";
    }
    va_list again;
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    char *text = length < 0 ? NULL : ss_arena_alloc(&b->report->arena, (size_t)length + 1, 1);
    if (text == NULL) {
        b->failed = true;
        return "";
    }
    vsnprintf(text, (size_t)length + 1, format, arguments);
    return text;
}

const char *ss_build_text(ss_builder *b, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *text = format_text(b, format, arguments);
    va_end(arguments);
    return text;
}

/* A zeroed block at the report's end, or NULL after a failure. */
static ss_block *add_block(ss_builder *b, ss_block_kind kind, ss_audience audience) {
    ss_report *report = b->report;
    if (b->failed) {
        return NULL;
    }
    if (report->count == report->capacity) {
        const int capacity = report->capacity == 0 ? 32 : 2 * report->capacity;
        ss_block *blocks = ss_arena_alloc(&report->arena, (size_t)capacity, sizeof *blocks);
        if (blocks == NULL) {
            b->failed = true;
            return NULL;
        }
        if (report->count > 0) {
            memcpy(blocks, report->blocks, (size_t)report->count * sizeof *blocks);
        }
        report->blocks = blocks;
        report->capacity = capacity;
    }
    ss_block *block = &report->blocks[report->count++];
    block->kind = kind;
    block->audience = audience;
    return block;
}

void ss_build_heading(ss_builder *b, ss_audience audience, const char *text) {
    ss_block *block = add_block(b, SS_BLOCK_HEADING, audience);
    if (block != NULL) {
        block->text = text;
    }
}

void ss_build_sentence(ss_builder *b, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *text = format_text(b, format, arguments);
    va_end(arguments);
    ss_block *block = add_block(b, SS_BLOCK_SENTENCE, SS_FOR_PEOPLE);
    if (block != NULL) {
        block->text = text;
    }
}

void ss_point(ss_builder *b, ss_points *points, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *text = format_text(b, format, arguments);
    va_end(arguments);
    if (points->count < (int)(sizeof points->items / sizeof points->items[0])) {
        points->items[points->count++] = text;
    }
}

void ss_build_points(ss_builder *b, const ss_points *points) {
    const char **items = ss_arena_alloc(&b->report->arena, (size_t)points->count, sizeof *items);
    if (items == NULL) {
        b->failed = true;
        return;
    }
    for (int i = 0; i < points->count; i++) {
        items[i] = points->items[i];
    }
    ss_build_list(b, SS_FOR_PEOPLE, "points", items, points->count);
}

void ss_build_value(ss_builder *b, ss_audience audience, const char *key, const char *text) {
    ss_block *block = add_block(b, SS_BLOCK_VALUE, audience);
    if (block != NULL) {
        block->key = key;
        block->text = text;
    }
}

void ss_build_screen_heading(ss_builder *b, const char *text) {
    ss_block *block = add_block(b, SS_BLOCK_HEADING, SS_FOR_PEOPLE);
    if (block != NULL) {
        block->text = text;
        block->screen = true;
    }
}

void ss_build_moving(ss_builder *b, const ss_moving_sheet *sheet) {
    ss_block *block = add_block(b, SS_BLOCK_MOVING, SS_FOR_PEOPLE);
    if (block != NULL) {
        block->moving = sheet;
    }
}

void ss_build_blanks(ss_builder *b, const char **items, int count) {
    ss_block *block = add_block(b, SS_BLOCK_BLANKS, SS_FOR_PEOPLE);
    if (block != NULL) {
        block->items = items;
        block->item_count = count;
    }
}

void ss_build_list(ss_builder *b, ss_audience audience, const char *key, const char **items, int count) {
    ss_block *block = add_block(b, SS_BLOCK_LIST, audience);
    if (block != NULL) {
        block->key = key;
        block->items = items;
        block->item_count = count;
    }
}

void ss_build_drawing(ss_builder *b, ss_drawing *drawing) {
    ss_block *block = drawing == NULL ? NULL : add_block(b, SS_BLOCK_DRAWING, SS_FOR_PEOPLE);
    if (block != NULL) {
        block->key = drawing->key;
        block->drawing = drawing;
    }
}

void ss_build_figure(ss_builder *b, ss_figure_maker *make) {
    ss_error error = {0};
    ss_figure *const figure = b->failed ? NULL : ss_arena_alloc(&b->report->arena, 1, sizeof *figure);
    if (figure == NULL) {
        b->failed = true;
        return;
    }
    const ss_status status = make(b->results, b->report->units, figure, &error);
    ss_block *const block = status == SS_OK ? add_block(b, SS_BLOCK_FIGURE, SS_FOR_PEOPLE) : NULL;
    if (block != NULL) {
        block->key = figure->key;
        block->figure = figure;
    } else if (status == SS_OK || status == SS_ERROR_MEMORY) {
        ss_figure_destroy(figure);
        b->failed = true;
    } else {
        ss_build_sentence(b, "A figure is missing here: %s.", error.message);
    }
}

ss_sheet ss_build_table(ss_builder *b, const ss_table *head) {
    ss_sheet sheet = {.builder = b};
    if (b->results != NULL && b->results->text_only && head->audience == SS_FOR_PROGRAMS) {
        return sheet; /* without a table its rows and cells go nowhere */
    }
    ss_block *block = add_block(b, SS_BLOCK_TABLE, head->audience);
    ss_table *table = block == NULL ? NULL : ss_arena_alloc(&b->report->arena, 1, sizeof *table);
    if (table == NULL) {
        b->failed = true;
        return sheet;
    }
    *table = *head;
    table->row_count = 0;
    table->cells = NULL;
    block->key = table->key;
    block->table = table;
    sheet.table = table;
    return sheet;
}

void ss_sheet_row(ss_sheet *sheet) {
    ss_builder *b = sheet->builder;
    ss_table *table = sheet->table;
    sheet->next = 0;
    if (b->failed || table == NULL) {
        return;
    }
    if (table->row_count == sheet->capacity) {
        const int capacity = sheet->capacity == 0 ? 8 : 2 * sheet->capacity;
        const size_t columns = (size_t)table->column_count;
        ss_cell *cells = ss_arena_alloc(&b->report->arena, (size_t)capacity * columns, sizeof *cells);
        if (cells == NULL) {
            b->failed = true;
            return;
        }
        if (table->row_count > 0) {
            memcpy(cells, table->cells, (size_t)table->row_count * columns * sizeof *cells);
        }
        table->cells = cells;
        sheet->capacity = capacity;
    }
    table->row_count++;
}

static void put(ss_sheet *sheet, ss_cell cell) {
    ss_table *table = sheet->table;
    if (sheet->builder->failed || table == NULL) {
        return;
    }
    if (sheet->next >= table->column_count) {
        sheet->builder->failed = true;
        return;
    }
    table->cells[(table->row_count - 1) * table->column_count + sheet->next++] = cell;
}

void ss_sheet_none(ss_sheet *sheet) {
    put(sheet, (ss_cell){.kind = SS_CELL_NONE});
}

void ss_sheet_text(ss_sheet *sheet, const char *text) {
    put(sheet, (ss_cell){.kind = text == NULL ? SS_CELL_NONE : SS_CELL_TEXT, .text = text});
}

void ss_sheet_value(ss_sheet *sheet, double value) {
    ss_sheet_quantity(sheet, value, SS_DIM_NUMBER);
}

void ss_sheet_quantity(ss_sheet *sheet, double value, ss_dimension dimension) {
    put(sheet, (ss_cell){.kind = SS_CELL_QUANTITY, .value = value, .dimension = dimension});
}

void ss_sheet_integer(ss_sheet *sheet, int value) {
    put(sheet, (ss_cell){.kind = SS_CELL_INTEGER, .value = (double)value});
}

void ss_sheet_flag(ss_sheet *sheet, bool value) {
    put(sheet, (ss_cell){.kind = SS_CELL_FLAG, .value = value ? 1.0 : 0.0});
}
