/* compare_columns.c - the variants that `compare` is asked for, each as a description of its own. */
#include "cli/compare_columns.h"

#include <string.h>

#include "base/try.h"
#include "cli/run.h"
#include "sillspan/memory.h"
#include "sillspan/text.h"

/* What is not compared, and may be about something that a variant takes away. */
#define SKIPPED "probes|cases|fatigue|variants"

/* ---- which there are ---------------------------------------------------------------------------------- */

static bool changes_nothing(const ss_node *variant) {
    return variant->count == 1;
}

static const char *name_of(const ss_node *variant) {
    return ss_node_child(variant, "name")->text;
}

static ss_status add(ss_compare_columns *out, const char *name, const ss_node *node, const char *with,
                     ss_error *error) {
    for (int i = 0; i < out->count; i++) {
        if (strcmp(out->items[i].name, name) == 0) {
            return ss_error_set(error, SS_ERROR_LIMIT, "two variants are called \"%.80s\"", name);
        }
    }
    ss_text changes = {0};
    ss_compare_column *const one = &out->items[out->count];
    *one = (ss_compare_column){.name = name, .node = node, .with = with, .status = SS_OK};
    if (with != NULL) {
        ss_text_add(&changes, with);
    } else if (node != NULL) {
        (void)ss_description_changes(node, &changes);
    }
    if (changes.length > 0 && !changes.failed) {
        one->changes = ss_arena_text(&out->arena, changes.data, changes.length);
    }
    const bool failed = changes.failed || (changes.length > 0 && one->changes == NULL);
    ss_text_destroy(&changes);
    out->count++;
    return failed ? SS_ERROR_MEMORY : SS_OK;
}

static const char *trimmed(ss_arena *arena, const char *text, size_t length) {
    while (length > 0 && (*text == ' ' || *text == '\t' || *text == '\n')) {
        text++;
        length--;
    }
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == '\t' || text[length - 1] == '\n')) {
        length--;
    }
    return ss_arena_text(arena, text, length);
}

static ss_status add_with(ss_compare_columns *out, const char *with, ss_error *error) {
    const size_t length = strcspn(with, ":");
    const char *const name = trimmed(&out->arena, with, length);
    const char *const values = trimmed(&out->arena, with + length + 1, strlen(with + length + 1));
    return name == NULL || values == NULL ? SS_ERROR_MEMORY : add(out, name, NULL, values, error);
}

static ss_status list_all(const ss_invocation *asked, const ss_description *base, ss_compare_columns *out,
                          ss_error *error) {
    const ss_node *const list = ss_description_variants(base);
    const ss_node *plain = NULL;
    ss_status status = SS_OK;
    const size_t most = 1 + (size_t)(list == NULL ? 0 : list->count) + (size_t)asked->with_count;
    out->items = ss_arena_alloc(&out->arena, most, sizeof *out->items);
    if (out->items == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (const ss_node *one = list == NULL ? NULL : list->first; one != NULL && plain == NULL;
         one = one->next) {
        plain = changes_nothing(one) ? one : NULL;
    }
    SS_TRY(add(out, plain != NULL ? name_of(plain) : "as described", NULL, NULL, error));
    for (const ss_node *one = list == NULL ? NULL : list->first; one != NULL; one = one->next) {
        if (one != plain) {
            SS_TRY(add(out, name_of(one), one, NULL, error));
        }
    }
    for (int i = 0; i < asked->with_count; i++) {
        SS_TRY(add_with(out, asked->withs[i], error));
    }
    if (out->count < 2) {
        status = ss_error_set(error, SS_ERROR_LIMIT,
                              "nothing to compare: the description has no variants, and --with gives none");
    }
done:
    return status;
}

/* ---- one of them -------------------------------------------------------------------------------------- */

/* "path=value; path=value" */
static ss_status apply(const char *with, ss_description *description, ss_diag_list *diags) {
    ss_arena words = {0};
    ss_status status = SS_OK;
    while (*with != '\0' && status == SS_OK) {
        const size_t length = strcspn(with, ";");
        const char *const one = trimmed(&words, with, length);
        const char *const equals = one == NULL ? NULL : strchr(one, '=');
        if (one == NULL) {
            status = SS_ERROR_MEMORY;
        } else if (equals == NULL && one[0] != '\0') {
            status = ss_diag_add(diags, SS_FAULT, (ss_where){NULL, 0}, one,
                                 "path=value is due, such as bridge.joints.seam.kind=rigid");
        } else if (one[0] != '\0') {
            const char *const path = trimmed(&words, one, (size_t)(equals - one));
            status =
                path == NULL ? SS_ERROR_MEMORY : ss_description_set(description, path, equals + 1, diags);
            /* Faults are collected, so that all of them are told in one run. */
            status = status == SS_ERROR_DESCRIPTION ? SS_OK : status;
        }
        with += length;
        with += *with == ';';
    }
    ss_arena_destroy(&words);
    return status;
}

static ss_status describe(const ss_description *base, const ss_compare_column *one, ss_description *out,
                          ss_diag_list *diags) {
    ss_description merged = {0};
    ss_status status = SS_OK;
    if (one->node != NULL) {
        SS_TRY(ss_description_vary(base, one->node, &merged, diags));
    } else {
        SS_TRY(ss_description_copy(base, "variants", &merged));
    }
    if (one->with != NULL) {
        SS_TRY(apply(one->with, &merged, diags));
        SS_TRY(ss_description_check(&merged, diags));
    }
    SS_TRY(ss_description_copy(&merged, SKIPPED, out));
done:
    ss_description_destroy(&merged);
    return status;
}

static bool is_among(const ss_diag_list *list, const ss_diag *one) {
    for (int i = 0; i < list->count; i++) {
        const ss_diag *const other = &list->items[i];
        if (strcmp(other->path, one->path) == 0 && strcmp(other->message, one->message) == 0) {
            return true;
        }
    }
    return false;
}

/* What is said of this one and not of the first, with its name where the place does not tell it. */
static ss_status keep(const ss_compare_columns *all, ss_compare_column *one, const ss_diag_list *said) {
    const bool first = one == all->items;
    ss_status status = SS_OK;
    for (int i = 0; i < said->count && status == SS_OK; i++) {
        const ss_diag *const d = &said->items[i];
        ss_where where = d->where;
        if (d->severity == SS_WARNING && !first && is_among(&all->items[0].diags, d)) {
            continue;
        }
        if (where.file == NULL && one->with != NULL) {
            where.file = "--with";
        }
        const bool told = first || strncmp(d->path, "variants.", 9) == 0;
        status =
            ss_diag_add(&one->diags, d->severity, where, d->path, "%s%s%s%s", told ? "" : "in variant \"",
                        told ? "" : one->name, told ? "" : "\": ", d->message);
    }
    return status;
}

static ss_status prepare(const ss_invocation *asked, const ss_description *base, ss_compare_columns *all,
                         int index) {
    ss_compare_column *const one = &all->items[index];
    ss_bridge bridge = {0};
    ss_diag_list said = {0};
    ss_diag_list located = {0};
    ss_status status = describe(base, one, &one->description, &located);
    if (status == SS_OK) {
        status = ss_bridge_resolve(&one->description, &bridge, &said);
    }
    if (status == SS_OK && !asked->no_rating) {
        status = ss_pipe_check_rating(&one->description, &bridge, &said);
    }
    ss_bridge_destroy(&bridge);
    if (status == SS_OK || status == SS_ERROR_DESCRIPTION) {
        one->status = status;
        status = ss_description_locate(one->node, &said, &located);
    }
    if (status == SS_OK) {
        status = keep(all, one, &located);
    }
    ss_diag_destroy(&said);
    ss_diag_destroy(&located);
    return status;
}

/* What is said of the text itself, apart from its variants, is said of the first. */
static ss_status keep_text(ss_compare_column *first, const ss_diag_list *text) {
    ss_status status = SS_OK;
    for (int i = 0; i < text->count && status == SS_OK; i++) {
        const ss_diag *const d = &text->items[i];
        if (strncmp(d->path, "variants.", 9) != 0) {
            status = ss_diag_add(&first->diags, d->severity, d->where, d->path, "%s", d->message);
        }
    }
    return status;
}

ss_status ss_compare_columns_make(const ss_invocation *asked, const ss_description *base,
                                  const ss_diag_list *said, ss_compare_columns *out, ss_error *error) {
    ss_status status = SS_OK;
    *out = (ss_compare_columns){0};
    SS_TRY(list_all(asked, base, out, error));
    SS_TRY(keep_text(&out->items[0], said));
    for (int i = 0; i < out->count; i++) {
        SS_TRY(prepare(asked, base, out, i));
    }
done:
    return status;
}

void ss_compare_columns_destroy(ss_compare_columns *columns) {
    for (int i = 0; i < columns->count; i++) {
        ss_description_destroy(&columns->items[i].description);
        ss_diag_destroy(&columns->items[i].diags);
    }
    ss_arena_destroy(&columns->arena);
    *columns = (ss_compare_columns){0};
}
