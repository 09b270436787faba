/* report_closing.c - what was assumed, what is left out, and the caution that ends every report. */
#include <string.h>

#include "report/report_parts.h"
#include "report/report_words.h"

static const char caution[] =
    "This is an aid to a licensed engineer. Ratings and postings are decided under the owner's and the "
    "state's rules, by someone who has seen the bridge. Nothing printed here is a permit to cross.";

static const ss_column assumption_columns[] = {
    {"path", "what", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"value", "taken as", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"why", "what it is", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static ss_sheet assumption_table(ss_builder *b, ss_audience audience) {
    return ss_build_table(b, &(ss_table){.key = "assumptions",
                                         .title = "",
                                         .audience = audience,
                                         .column_count = SS_COLUMN_COUNT(assumption_columns),
                                         .columns = assumption_columns});
}

static void assumption_row(ss_sheet *sheet, const char *path, const char *value, const ss_assumption *one) {
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, path);
    ss_sheet_text(sheet, value);
    ss_sheet_text(sheet, one->why);
}

/* A study of unknowns takes nothing for granted that it tries itself. */
static bool is_tried(const ss_builder *b, const ss_assumption *one) {
    const ss_unknown_set *set = &b->results->bridge->unknowns;
    if (b->results->bounds == NULL && b->results->sample == NULL) {
        return false;
    }
    for (int i = 0; i < set->count; i++) {
        for (int k = 0; k < set->items[i].path_count; k++) {
            if (strcmp(set->items[i].paths[k], one->path) == 0) {
                return true;
            }
        }
    }
    return false;
}

static const char *last_word(const char *path) {
    const char *dot = strrchr(path, '.');
    return dot == NULL ? path : dot + 1;
}

/* The same key taken as the same in several places. */
static bool alike(const ss_assumption *a, const ss_assumption *b) {
    return strcmp(last_word(a->path), last_word(b->path)) == 0 && strcmp(a->value, b->value) == 0 &&
           strcmp(a->why, b->why) == 0;
}

/* People see each key once, with how many other places it stands for, in their units; programs see every
 * place as the description would have it. */
static void show_assumptions(ss_builder *b, const ss_assumption_list *list) {
    ss_sheet people = assumption_table(b, SS_FOR_PEOPLE);
    for (int i = 0; i < list->count; i++) {
        int before = 0;
        int after = 0;
        for (int k = 0; k < list->count; k++) {
            const bool same =
                k != i && !is_tried(b, &list->items[k]) && alike(&list->items[k], &list->items[i]);
            before += same && k < i;
            after += same && k > i;
        }
        const char *path = list->items[i].path;
        if (before == 0 && !is_tried(b, &list->items[i])) {
            assumption_row(&people, after == 0 ? path : ss_build_text(b, "%s, and %d like it", path, after),
                           ss_words_given(b, list->items[i].value), &list->items[i]);
        }
    }
    ss_sheet programs = assumption_table(b, SS_FOR_PROGRAMS);
    for (int i = 0; i < list->count; i++) {
        if (!is_tried(b, &list->items[i])) {
            assumption_row(&programs, list->items[i].path, list->items[i].value, &list->items[i]);
        }
    }
}

static void show_not_rated(ss_builder *b) {
    int count = 0;
    const char *const *all = ss_not_rated(b->results->bridge->deck.wheel.given, &count);
    const char **items = ss_arena_alloc(&b->report->arena, (size_t)count, sizeof *items);
    if (items == NULL) {
        b->failed = true;
        return;
    }
    memcpy(items, all, (size_t)count * sizeof *items);
    ss_build_list(b, SS_FOR_ALL, "not_rated", items, count);
}

void ss_part_assumed(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    ss_build_heading(b, SS_FOR_PEOPLE, "Taken for granted");
    if (bridge->assumptions.count == 0) {
        ss_build_sentence(b, "Nothing: the description gives every value itself.");
    } else {
        ss_build_sentence(
            b, "The description does not give these; write them into it, or set them with --set, if the "
               "bridge is different.");
    }
    show_assumptions(b, &bridge->assumptions);
    ss_build_heading(b, SS_FOR_PEOPLE, "Left out");
    ss_build_list(b, SS_FOR_ALL, "ignored", bridge->ignored, bridge->ignored_count);
    ss_build_heading(b, SS_FOR_PEOPLE, "Not rated here");
    show_not_rated(b);
}

void ss_part_caution(ss_builder *b) {
    ss_build_heading(b, SS_FOR_PEOPLE, "Caution");
    ss_build_value(b, SS_FOR_ALL, "caution", caution);
}

void ss_part_closing(ss_builder *b) {
    ss_part_assumed(b);
    ss_part_caution(b);
}

void ss_part_signature(ss_builder *b) {
    static const char *const blanks[] = {"Name of the engineer", "Licence number and state", "Date",
                                         "Signature", "Seal"};
    enum { BLANKS = (int)(sizeof blanks / sizeof blanks[0]) };
    const char **items = ss_arena_alloc(&b->report->arena, (size_t)BLANKS, sizeof *items);
    if (items == NULL) {
        b->failed = true;
        return;
    }
    memcpy(items, blanks, sizeof blanks);
    ss_build_heading(b, SS_FOR_PEOPLE, "Engineer of record");
    ss_build_sentence(b,
                      "To be filled in by the licensed engineer who takes the rating as theirs. Until then "
                      "this is a computation and no more.");
    ss_build_blanks(b, items, BLANKS);
}
