/* write_json.c - a report as JSON for programs: one key a block, dotted keys nested, one row of a table a
 * line. */
#include "sillspan/write.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Digits that are the same on every machine; beyond them is rounding. */
#define DIGITS 10

/* Text as a JSON string; malformed UTF-8 is replaced. NULL when there is no memory. */
static json_t *make_text(const char *text) {
    json_t *value = json_string(text);
    if (value == NULL) {
        ss_text plain = {0};
        ss_text_add_plain(&plain, text);
        value = plain.failed ? NULL : json_string(plain.data == NULL ? "" : plain.data);
        ss_text_destroy(&plain);
    }
    return value;
}

/* The object that the last part of a dotted key belongs to, made where needed; *last is that part. */
static json_t *open_path(json_t *object, const char *key, const char **last) {
    for (const char *dot = strchr(key, '.'); dot != NULL; dot = strchr(key, '.')) {
        json_t *inner = json_object_getn(object, key, (size_t)(dot - key));
        if (inner == NULL) {
            inner = json_object();
            if (json_object_setn_new(object, key, (size_t)(dot - key), inner) != 0) {
                return NULL;
            }
        }
        object = inner;
        key = dot + 1;
    }
    *last = key;
    return object;
}

/* Takes over `value`, which may be NULL after a failure. */
static bool set(json_t *object, const char *key, json_t *value) {
    const char *last = key;
    json_t *owner = open_path(object, key, &last);
    if (owner == NULL) {
        json_decref(value);
        return false;
    }
    return json_object_set_new(owner, last, value) == 0;
}

/* What is not finite is null, and a word beside it says what it is. */
static bool set_quantity(json_t *object, const char *key, const ss_cell *cell, const ss_column *column,
                         ss_unit_system units) {
    const ss_dimension dimension = cell->dimension != SS_DIM_NUMBER ? cell->dimension : column->dimension;
    const double value = ss_units_from_si(cell->value, dimension, units);
    if (isfinite(value)) {
        char number[64];
        return set(
            object, key,
            json_real(ss_text_number(ss_text_significant(number, sizeof number, value, DIGITS), NULL)));
    }
    char word_key[128];
    if (strlen(key) + sizeof "_word" > sizeof word_key) {
        return false;
    }
    memcpy(word_key, key, strlen(key));
    memcpy(word_key + strlen(key), "_word", sizeof "_word");
    const char *word = isnan(value) ? "not known" : value > 0.0 ? "no limit" : "no limit downwards";
    return set(object, key, json_null()) && set(object, word_key, json_string(word));
}

static bool set_cell(json_t *object, const ss_cell *cell, const ss_column *column, ss_unit_system units) {
    switch (cell->kind) {
    case SS_CELL_NONE: return true;
    case SS_CELL_TEXT: return set(object, column->key, make_text(cell->text));
    case SS_CELL_QUANTITY: return set_quantity(object, column->key, cell, column, units);
    case SS_CELL_INTEGER: return set(object, column->key, json_integer((json_int_t)cell->value));
    case SS_CELL_FLAG: return set(object, column->key, json_boolean(cell->value != 0.0));
    }
    return false;
}

static json_t *make_row(const ss_table *table, int row, ss_unit_system units) {
    json_t *object = json_object();
    for (int i = 0; object != NULL && i < table->column_count; i++) {
        if (table->columns[i].audience == SS_FOR_PEOPLE) {
            continue;
        }
        if (!set_cell(object, &table->cells[row * table->column_count + i], &table->columns[i], units)) {
            json_decref(object);
            object = NULL;
        }
    }
    return object;
}

static json_t *make_table(const ss_table *table, ss_unit_system units) {
    if (table->record) {
        return table->row_count == 0 ? json_null() : make_row(table, 0, units);
    }
    json_t *array = json_array();
    for (int row = 0; array != NULL && row < table->row_count; row++) {
        if (json_array_append_new(array, make_row(table, row, units)) != 0) {
            json_decref(array);
            array = NULL;
        }
    }
    return array;
}

static json_t *make_list(const ss_block *block) {
    json_t *array = json_array();
    for (int i = 0; array != NULL && i < block->item_count; i++) {
        if (json_array_append_new(array, make_text(block->items[i])) != 0) {
            json_decref(array);
            array = NULL;
        }
    }
    return array;
}

static bool add_block(json_t *root, const ss_block *block, ss_unit_system units) {
    switch (block->kind) {
    case SS_BLOCK_VALUE: return set(root, block->key, make_text(block->text));
    case SS_BLOCK_LIST: return set(root, block->key, make_list(block));
    case SS_BLOCK_TABLE: return set(root, block->table->key, make_table(block->table, units));
    case SS_BLOCK_HEADING:
    case SS_BLOCK_SENTENCE:
    case SS_BLOCK_DRAWING:
    case SS_BLOCK_FIGURE:
    case SS_BLOCK_MOVING:
    case SS_BLOCK_BLANKS: break;
    }
    return true;
}

static bool put_compact(ss_text *out, const json_t *value) {
    char *text = json_dumps(value, JSON_ENCODE_ANY | JSON_REAL_PRECISION(DIGITS));
    if (text == NULL) {
        return false;
    }
    ss_text_add(out, text);
    free(text);
    return true;
}

static bool put_value(ss_text *out, const json_t *value, bool top);

static bool put_object(ss_text *out, const json_t *object) {
    ss_text_add(out, "{\n");
    bool first = true;
    for (void *i = json_object_iter((json_t *)object); i != NULL;
         i = json_object_iter_next((json_t *)object, i)) {
        ss_text_add(out, first ? "" : ",\n");
        first = false;
        json_t *key = json_string(json_object_iter_key(i));
        const bool put = key != NULL && put_compact(out, key);
        json_decref(key);
        ss_text_add(out, ": ");
        if (!put || !put_value(out, json_object_iter_value(i), false)) {
            return false;
        }
    }
    ss_text_add(out, "\n}");
    return true;
}

static bool holds_array(const json_t *object) {
    for (void *i = json_object_iter((json_t *)object); i != NULL;
         i = json_object_iter_next((json_t *)object, i)) {
        if (json_is_array(json_object_iter_value(i))) {
            return true;
        }
    }
    return false;
}

/* Arrays one item a line, what is outside them one key a line, all else on one line. */
static bool put_value(ss_text *out, const json_t *value, bool top) {
    if (json_is_object(value) && (top || holds_array(value))) {
        return put_object(out, value);
    }
    if (!json_is_array(value) || json_array_size(value) == 0) {
        return put_compact(out, value);
    }
    ss_text_add(out, "[\n");
    for (size_t i = 0; i < json_array_size(value); i++) {
        ss_text_add(out, i == 0 ? "" : ",\n");
        if (!put_compact(out, json_array_get(value, i))) {
            return false;
        }
    }
    ss_text_add(out, "\n]");
    return true;
}

ss_status ss_write_json(const ss_report *report, ss_text *out, ss_error *error) {
    bool made = true;
    json_t *root = json_object();
    for (int i = 0; root != NULL && made && i < report->count; i++) {
        if (report->blocks[i].audience != SS_FOR_PEOPLE) {
            made = add_block(root, &report->blocks[i], report->units);
        }
    }
    made = made && root != NULL && put_value(out, root, true);
    ss_text_add(out, "\n");
    json_decref(root);
    return made && !out->failed
               ? SS_OK
               : ss_error_set(error, SS_ERROR_MEMORY, "no memory for the JSON of the report");
}
