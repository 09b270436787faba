/* grid_parts.c - points, cells, arrays and remarks of a grid. */
#include "report/grid_parts.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "sillspan/version.h"

enum { NOTES = 6 };

void ss_lattice_begin(ss_lattice *lattice, const ss_results *results, int points, int cells, int corners,
                      ss_grid *out) {
    *out = (ss_grid){0};
    *lattice = (ss_lattice){.grid = out};
    lattice->words = (ss_builder){.report = &lattice->report, .results = results};
    out->points = ss_arena_alloc(&out->arena, 3 * (size_t)points, sizeof *out->points);
    out->cells = ss_arena_alloc(&out->arena, (size_t)cells, sizeof *out->cells);
    out->corners = ss_arena_alloc(&out->arena, (size_t)corners, sizeof *out->corners);
    out->notes = ss_arena_alloc(&out->arena, NOTES, sizeof *out->notes);
    lattice->failed = out->points == NULL || out->cells == NULL || out->corners == NULL || out->notes == NULL;
}

int ss_lattice_point(ss_lattice *lattice, double x, double y) {
    ss_grid *const grid = lattice->grid;
    if (lattice->failed) {
        return 0;
    }
    double *const point = &grid->points[3 * (size_t)grid->point_count];
    point[0] = x;
    point[1] = y;
    point[2] = 0.0;
    return grid->point_count++;
}

void ss_lattice_cell(ss_lattice *lattice, ss_grid_shape shape, const int *corners) {
    ss_grid *const grid = lattice->grid;
    if (lattice->failed) {
        return;
    }
    grid->cells[grid->cell_count++] = (ss_grid_cell){shape, grid->corner_count};
    for (int i = 0; i < (int)shape; i++) {
        grid->corners[grid->corner_count++] = corners[i];
    }
}

const char *ss_lattice_keep(ss_lattice *lattice, const char *text) {
    const char *const kept =
        ss_arena_text(&lattice->grid->arena, text == NULL ? "" : text, text == NULL ? 0 : strlen(text));
    lattice->failed = lattice->failed || kept == NULL;
    return kept == NULL ? "" : kept;
}

/* The next array, without values; NULL after a failure. */
static ss_grid_array *next_array(ss_lattice *lattice, const char *name, bool of_cells) {
    ss_grid *const grid = lattice->grid;
    if (!lattice->failed && grid->array_count == lattice->array_capacity) {
        const int wanted = 2 * lattice->array_capacity + 16;
        ss_grid_array *const grown = ss_arena_alloc(&grid->arena, (size_t)wanted, sizeof *grown);
        lattice->failed = grown == NULL;
        for (int i = 0; i < grid->array_count && grown != NULL; i++) {
            grown[i] = grid->arrays[i];
        }
        grid->arrays = grown == NULL ? grid->arrays : grown;
        lattice->array_capacity = wanted;
    }
    const char *const kept = ss_lattice_keep(lattice, name);
    if (lattice->failed) {
        return NULL;
    }
    ss_grid_array *const array = &grid->arrays[grid->array_count++];
    *array = (ss_grid_array){.name = kept, .of_cells = of_cells, .components = 1};
    return array;
}

static double *numbers(ss_lattice *lattice, ss_grid_array *array) {
    ss_grid *const grid = lattice->grid;
    if (array == NULL) {
        return NULL;
    }
    const size_t count =
        (size_t)array->components * (size_t)(array->of_cells ? grid->cell_count : grid->point_count);
    array->numbers = ss_arena_alloc(&grid->arena, count, sizeof *array->numbers);
    lattice->failed = array->numbers == NULL;
    for (size_t i = 0; i < count && array->numbers != NULL; i++) {
        array->numbers[i] = (double)NAN;
    }
    return array->numbers;
}

double *ss_lattice_numbers(ss_lattice *lattice, const char *name, bool of_cells, int components,
                           ss_grid_unit unit) {
    ss_grid_array *const array = next_array(lattice, name, of_cells);
    if (array != NULL) {
        array->components = components;
        array->unit = unit;
    }
    return numbers(lattice, array);
}

double *ss_lattice_whole(ss_lattice *lattice, const char *name) {
    ss_grid_array *const array = next_array(lattice, name, true);
    if (array != NULL) {
        array->kind = SS_GRID_WHOLE;
    }
    return numbers(lattice, array);
}

const char **ss_lattice_texts(ss_lattice *lattice, const char *name) {
    ss_grid *const grid = lattice->grid;
    ss_grid_array *const array = next_array(lattice, name, true);
    if (array == NULL) {
        return NULL;
    }
    array->kind = SS_GRID_TEXTS;
    array->texts = ss_arena_alloc(&grid->arena, (size_t)grid->cell_count, sizeof *array->texts);
    lattice->failed = array->texts == NULL;
    for (int i = 0; i < grid->cell_count && array->texts != NULL; i++) {
        array->texts[i] = "";
    }
    return array->texts;
}

static void note(ss_lattice *lattice, const char *name, const char *text) {
    const char *const kept = ss_lattice_keep(lattice, text);
    if (!lattice->failed && lattice->grid->note_count < NOTES) {
        lattice->grid->notes[lattice->grid->note_count++] = (ss_grid_note){name, kept};
    }
}

void ss_lattice_notes(ss_lattice *lattice, const char *what) {
    const ss_results *const results = lattice->words.results;
    const ss_bridge *const bridge = results->bridge;
    note(lattice, "bridge", bridge->title);
    if (results->variant != NULL) {
        note(lattice, "variant", results->variant);
    }
    note(lattice, "what", what);
    note(lattice, "axes",
         "x along the bridge from the first abutment, y to the right from the left edge of the first car, z "
         "down; sagging moments, deflections down and reactions up are positive");
    note(lattice, "made by",
         ss_build_text(&lattice->words, "sillspan %s; description %016" PRIx64, SS_VERSION, bridge->digest));
    note(lattice, "caution",
         "An aid to a licensed engineer: ratings and postings are decided under the owner's and the state's "
         "rules.");
}

ss_status ss_lattice_end(ss_lattice *lattice, ss_error *error) {
    const bool failed = lattice->failed || lattice->words.failed;
    ss_report_destroy(&lattice->report);
    if (failed) {
        ss_grid_destroy(lattice->grid);
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the export");
    }
    return SS_OK;
}

void ss_grid_destroy(ss_grid *grid) {
    ss_arena_destroy(&grid->arena);
    *grid = (ss_grid){0};
}
