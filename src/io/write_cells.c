/* write_cells.c - what a cell of a table shows to people. */
#include "io/write_cells.h"

#include <math.h>
#include <string.h>

bool ss_cells_words(const ss_table *table, int column) {
    for (int row = 0; row < table->row_count; row++) {
        const ss_cell_kind kind = table->cells[row * table->column_count + column].kind;
        if (kind == SS_CELL_QUANTITY || kind == SS_CELL_INTEGER) {
            return false;
        }
    }
    return true;
}

bool ss_cells_empty(const ss_table *table, int column) {
    for (int row = 0; row < table->row_count; row++) {
        if (table->cells[row * table->column_count + column].kind != SS_CELL_NONE) {
            return false;
        }
    }
    return true;
}

int ss_cells_decimals(const ss_table *table, int column, ss_unit_system units) {
    const ss_column *const head = &table->columns[column];
    if (head->digits < 0) {
        return -head->digits;
    }
    if (head->digits < 100 || head->dimension == SS_DIM_NUMBER) {
        return -1;
    }
    double largest = 0.0;
    for (int row = 0; row < table->row_count; row++) {
        const ss_cell *cell = &table->cells[row * table->column_count + column];
        if (cell->kind == SS_CELL_QUANTITY && isfinite(cell->value)) {
            largest = fmax(largest, fabs(ss_units_from_si(cell->value, head->dimension, units)));
        }
    }
    if (!(largest > 0.0)) {
        return 0;
    }
    const int decimals = head->digits - 100 - 1 - (int)floor(log10(largest));
    return decimals < 0 ? 0 : decimals > 6 ? 6 : decimals;
}

static void add_quantity(ss_text *out, const ss_cell *cell, const ss_column *column, int decimals,
                         ss_unit_system units) {
    if (!isfinite(cell->value)) {
        ss_text_add(out, isnan(cell->value) ? "not known" : cell->value > 0.0 ? "no limit" : "-no limit");
        return;
    }
    const bool own = cell->dimension != SS_DIM_NUMBER;
    const ss_dimension dimension = own ? cell->dimension : column->dimension;
    const double value = ss_units_from_si(cell->value, dimension, units);
    char number[96];
    if (decimals >= 0) {
        ss_text_decimals(number, sizeof number, value, decimals);
    } else {
        ss_text_significant(number, sizeof number, value, column->digits == 0 ? 5 : column->digits % 100);
    }
    ss_text_add(out, number);
    /* Where the column says no dimension, each cell brings its unit. */
    if (own && column->dimension == SS_DIM_NUMBER) {
        ss_text_printf(out, " %s", ss_units_name(dimension, units));
    }
}

void ss_cells_add(ss_text *out, const ss_cell *cell, const ss_column *column, int decimals,
                  ss_unit_system units) {
    char number[32];
    switch (cell->kind) {
    case SS_CELL_NONE: break;
    case SS_CELL_TEXT: ss_text_add_plain(out, cell->text); break;
    case SS_CELL_QUANTITY: add_quantity(out, cell, column, decimals, units); break;
    case SS_CELL_INTEGER: ss_text_add(out, ss_text_decimals(number, sizeof number, cell->value, 0)); break;
    case SS_CELL_FLAG: ss_text_add(out, cell->value != 0.0 ? "yes" : "no"); break;
    }
}

bool ss_cells_number(const char *shown) {
    return strspn(shown, "-0123456789") > 0 && strcmp(shown, "-no limit") != 0;
}
