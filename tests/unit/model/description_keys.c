/* description_keys.c - the key table as the reference part of docs/description.md: prints it, compares it, or
 * puts it in. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "model/description_value.h"
#include "model/key_tree.h"

static const char begin_mark[] =
    "<!-- keys: begin (from the key table; `description-keys` writes this part) -->\n";
static const char end_mark[] = "<!-- keys: end -->\n";

static const char *stage_name(ss_stage stage) {
    static const char *const names[] = {"print", "mesh", "springs", "permanent", "placements", "rating"};
    return names[stage];
}

static void add_choices(const ss_key *key, ss_text *out) {
    ss_text_add(out, "`\"");
    ss_choice_words(key->choices, "\"`, `\"", out);
    ss_text_add(out, "\"`");
}

static void add_quantity(const ss_key *key, ss_text *out) {
    const bool several = key->kind == SS_KEY_QUANTITIES;
    if (key->dimension == SS_DIM_NUMBER) {
        ss_text_add(out, several ? "numbers" : "number");
        return;
    }
    ss_text_printf(out, "%s%s, `\"%s\"`", several ? "one or more of " : "",
                   ss_units_dimension_name(key->dimension), ss_units_example(key->dimension));
}

static void add_value(const ss_key *key, ss_text *out) {
    switch (key->kind) {
    case SS_KEY_GROUP: ss_text_add(out, "group"); break;
    case SS_KEY_LIST: ss_text_add(out, "list of groups"); break;
    case SS_KEY_TEXT: ss_text_add(out, "text"); break;
    case SS_KEY_NAME: ss_text_add(out, "name"); break;
    case SS_KEY_REFERENCE: ss_text_add(out, key->choices); break;
    case SS_KEY_REFERENCES: ss_text_printf(out, "list: %s", key->choices); break;
    case SS_KEY_CHOICE: add_choices(key, out); break;
    case SS_KEY_QUANTITY:
    case SS_KEY_QUANTITIES: add_quantity(key, out); break;
    case SS_KEY_CHOICE_OR_QUANTITY:
        add_choices(key, out);
        ss_text_add(out, " or ");
        add_quantity(key, out);
        break;
    case SS_KEY_INTEGER: ss_text_add(out, "whole number"); break;
    case SS_KEY_ANY: ss_text_add(out, "value as that key takes it"); break;
    case SS_KEY_ANYS: ss_text_add(out, "values with commas between, or a list"); break;
    case SS_KEY_FLAG: ss_text_add(out, "`true` or `false`"); break;
    }
}

static void add_limits(const char *least, const char *most, ss_text *out) {
    if (least != NULL && most != NULL) {
        ss_text_printf(out, "%s to %s", least, most);
    } else if (least != NULL) {
        ss_text_printf(out, least[0] == '>' ? "%s" : "%s or more", least);
    } else if (most != NULL) {
        ss_text_printf(out, most[0] == '<' ? "%s" : "%s or less", most);
    }
}

static void add_range(const ss_key *key, ss_text *out) {
    const bool limits = key->least != NULL || key->most != NULL;
    const bool likely = key->likely_least != NULL || key->likely_most != NULL;
    add_limits(key->least, key->most, out);
    if (limits && likely) {
        ss_text_add(out, "; ");
    }
    if (likely) {
        ss_text_add(out, "usual ");
    }
    add_limits(key->likely_least, key->likely_most, out);
}

static void add_row(const ss_key *key, ss_text *out) {
    ss_text_printf(out, "| `%s` | ", key->path);
    add_value(key, out);
    ss_text_add(out, " | ");
    if (key->fallback != NULL) {
        ss_text_printf(out, "`%s`", key->fallback);
    }
    if (key->required) {
        ss_text_add(out, "**due**");
    }
    ss_text_add(out, " | ");
    add_range(key, out);
    ss_text_printf(out, " | %s | %s |\n", stage_name(key->stage), key->help);
}

static void add_group(const ss_key *parent, ss_text *out) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    const char *marks = parent != NULL && parent->kind == SS_KEY_LIST ? "[]" : "";
    if (parent == NULL) {
        ss_text_add(out, "\n### The whole file\n");
    } else {
        ss_text_printf(out, "\n### `%s%s`\n\n%s\n", parent->path, marks, parent->help);
    }
    ss_text_add(out,
                "\n| key | value | default | range | first stage | meaning |\n|---|---|---|---|---|---|\n");
    for (int i = 0; i < count; i++) {
        if (ss_key_is_child(&keys[i], parent)) {
            add_row(&keys[i], out);
        }
    }
}

static void add_reference(ss_text *out) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    ss_text_add(out, begin_mark);
    add_group(NULL, out);
    for (int i = 0; i < count; i++) {
        if (keys[i].kind == SS_KEY_GROUP || keys[i].kind == SS_KEY_LIST) {
            add_group(&keys[i], out);
        }
    }
    ss_text_add(out, "\n");
    ss_text_add(out, end_mark);
}

static bool load(const char *path, ss_text *out) {
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return false;
    }
    char block[4096];
    size_t got = 0;
    while ((got = fread(block, 1, sizeof block, file)) > 0) {
        ss_text_add_bytes(out, block, got);
    }
    fclose(file);
    return out->data != NULL;
}

static bool save(const char *path, const ss_text *text) {
    FILE *file = fopen(path, "wb");
    if (file == NULL) {
        return false;
    }
    const bool written = fwrite(text->data, 1, text->length, file) == text->length;
    return fclose(file) == 0 && written;
}

/* What the page should be: the words around the marks as they are, the reference between them anew. */
static bool renew(const ss_text *page, ss_text *out) {
    const char *begin = strstr(page->data, begin_mark);
    const char *end = begin == NULL ? NULL : strstr(begin, end_mark);
    if (end == NULL) {
        return false;
    }
    ss_text_add_bytes(out, page->data, (size_t)(begin - page->data));
    add_reference(out);
    ss_text_add(out, end + strlen(end_mark));
    return !out->failed;
}

int main(int argc, char **argv) {
    if (argc != 3 || (strcmp(argv[1], "check") != 0 && strcmp(argv[1], "update") != 0)) {
        fputs("use: description_keys check|update docs/description.md\n", stderr);
        return 2;
    }
    ss_text page = {0};
    ss_text due = {0};
    int result = EXIT_FAILURE;
    if (!load(argv[2], &page) || !renew(&page, &due)) {
        fprintf(stderr, "%s: cannot be read, or has no marks for the keys\n", argv[2]);
    } else if (strcmp(page.data, due.data) == 0) {
        result = EXIT_SUCCESS;
    } else if (strcmp(argv[1], "update") == 0) {
        result = save(argv[2], &due) ? EXIT_SUCCESS : EXIT_FAILURE;
    } else {
        fprintf(stderr, "%s differs from the key table; build the target description-keys\n", argv[2]);
    }
    ss_text_destroy(&page);
    ss_text_destroy(&due);
    return result;
}
