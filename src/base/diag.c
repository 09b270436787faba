/* diag.c - the list of located faults and warnings. */
#include "sillspan/diag.h"

#include <limits.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

static ss_status reserve(ss_diag_list *list) {
    if (list->count < list->capacity) {
        return SS_OK;
    }
    if (list->capacity > INT_MAX / 2) {
        return SS_ERROR_MEMORY;
    }
    const int capacity = list->capacity == 0 ? 16 : 2 * list->capacity;
    ss_diag *grown = ss_realloc(list->items, (size_t)capacity, sizeof *grown);
    if (grown == NULL) {
        return SS_ERROR_MEMORY;
    }
    list->items = grown;
    list->capacity = capacity;
    return SS_OK;
}

/* Remarks come in runs from one file, so the name of the one before is used again where it is the same. */
static const char *own_file(ss_diag_list *list, const char *file) {
    if (list->count > 0) {
        const char *before = list->items[list->count - 1].where.file;
        if (before != NULL && strcmp(before, file) == 0) {
            return before;
        }
    }
    return ss_arena_text(&list->arena, file, strlen(file));
}

ss_status ss_diag_add(ss_diag_list *list, ss_severity severity, ss_where where, const char *path,
                      const char *format, ...) {
    if (reserve(list) != SS_OK) {
        return SS_ERROR_MEMORY;
    }
    ss_diag item = {.severity = severity, .where = {.file = NULL, .line = where.line}};
    if (where.file != NULL) {
        item.where.file = own_file(list, where.file);
        if (item.where.file == NULL) {
            return SS_ERROR_MEMORY;
        }
    }
    const char *own_path = path == NULL ? "" : path;
    item.path = ss_arena_text(&list->arena, own_path, strlen(own_path));
    if (item.path == NULL) {
        return SS_ERROR_MEMORY;
    }
    va_list arguments;
    va_start(arguments, format);
    item.message = ss_arena_vprintf(&list->arena, format, arguments);
    va_end(arguments);
    if (item.message == NULL) {
        return SS_ERROR_MEMORY;
    }
    list->items[list->count++] = item;
    if (severity == SS_FAULT) {
        list->faults++;
    } else {
        list->warnings++;
    }
    return SS_OK;
}

/* What no file holds (the command line) comes last: the files are read first. */
static int compare_places(const ss_where *a, const ss_where *b) {
    if (a->file != b->file) {
        if (a->file == NULL) {
            return 1;
        }
        if (b->file == NULL) {
            return -1;
        }
        const int order = strcmp(a->file, b->file);
        if (order != 0) {
            return order;
        }
    }
    return (a->line > b->line) - (a->line < b->line);
}

static bool same_remark(const ss_diag *a, const ss_diag *b) {
    return a->severity == b->severity && strcmp(a->path, b->path) == 0 && strcmp(a->message, b->message) == 0;
}

/* Removes what repeats an earlier remark at the same place; the list is sorted by place. */
static void drop_repeats(ss_diag_list *list) {
    int kept = 0;
    int first_here = 0; /* among the kept, the first at the place of the last */
    for (int i = 0; i < list->count; i++) {
        const ss_diag item = list->items[i];
        if (kept > 0 && compare_places(&list->items[first_here].where, &item.where) != 0) {
            first_here = kept;
        }
        bool repeat = false;
        for (int j = first_here; j < kept && !repeat; j++) {
            repeat = same_remark(&list->items[j], &item);
        }
        if (!repeat) {
            list->items[kept++] = item;
        } else if (item.severity == SS_FAULT) {
            list->faults--;
        } else {
            list->warnings--;
        }
    }
    list->count = kept;
}

void ss_diag_sort(ss_diag_list *list) {
    /* Insertion by bisection: stable, needs no memory, and nothing moves when the order is already right. */
    for (int i = 1; i < list->count; i++) {
        const ss_diag item = list->items[i];
        int low = 0;
        int high = i;
        if (compare_places(&list->items[i - 1].where, &item.where) <= 0) {
            continue;
        }
        while (low < high) {
            const int middle = low + (high - low) / 2;
            if (compare_places(&list->items[middle].where, &item.where) <= 0) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        memmove(&list->items[low + 1], &list->items[low], (size_t)(i - low) * sizeof item);
        list->items[low] = item;
    }
    drop_repeats(list);
}

void ss_diag_destroy(ss_diag_list *list) {
    if (list == NULL) {
        return;
    }
    ss_free(list->items);
    ss_arena_destroy(&list->arena);
    *list = (ss_diag_list){0};
}
