/* rating_notes.c - remarks on sections that cannot be rated, or not fully, one for each section and reason.
 */
#include "assess/rating_notes.h"

#include <string.h>

/* Members named before the rest are only counted. */
enum { NAMED = 4 };

/* Ends of pieces and parts meet within this, in m. */
#define TOUCH 1e-6

static bool covers(double from, double to, double at, bool before) {
    return before ? from < at - TOUCH && at <= to + TOUCH : from <= at + TOUCH && at < to - TOUCH;
}

/* Section at an effect of a line or floor beam, or -1. */
static int section_of(const ss_bridge *bridge, const ss_effect *effect) {
    if (effect->member == SS_MEMBER_LINE) {
        const ss_line *const line = &bridge->lines[effect->index];
        for (int i = line->first_piece; i < line->first_piece + line->piece_count; i++) {
            if (covers(bridge->pieces[i].x0, bridge->pieces[i].x1, effect->at, effect->before)) {
                return bridge->pieces[i].section;
            }
        }
        return -1;
    }
    const ss_floor_beam *const beam = &bridge->floor_beams[effect->index];
    for (int i = beam->first_part; i < beam->first_part + beam->part_count; i++) {
        if (covers(bridge->parts[i].y0, bridge->parts[i].y1, effect->at, effect->before)) {
            return bridge->parts[i].section;
        }
    }
    return -1;
}

static const char *member_words(ss_arena *arena, const ss_bridge *bridge, const ss_effect *effect) {
    if (effect->member == SS_MEMBER_LINE) {
        const ss_line *const line = &bridge->lines[effect->index];
        return ss_arena_printf(arena, "%s of car %s", line->name, bridge->cars[line->car].name);
    }
    const ss_floor_beam *const beam = &bridge->floor_beams[effect->index];
    return ss_arena_printf(arena, "%s of car %s", beam->name, bridge->cars[beam->car].name);
}

/* The note of that section and reason, made when new; NULL without memory. */
static ss_rating_note *find(ss_rating_notes *notes, int section, const char *what) {
    for (int i = 0; i < notes->count; i++) {
        if (notes->items[i].section == section && strcmp(notes->items[i].what, what) == 0) {
            return &notes->items[i];
        }
    }
    if (notes->count == notes->capacity) {
        const int capacity = 2 * notes->capacity + 8;
        ss_rating_note *const items = ss_arena_alloc(notes->arena, (size_t)capacity, sizeof *items);
        if (items == NULL) {
            return NULL;
        }
        if (notes->count > 0) {
            memcpy(items, notes->items, (size_t)notes->count * sizeof *items);
        }
        notes->items = items;
        notes->capacity = capacity;
    }
    ss_rating_note *const note = &notes->items[notes->count++];
    *note = (ss_rating_note){.section = section, .what = what, .members = "", .last_index = -1};
    return note;
}

ss_status ss_rating_notes_section(ss_rating_notes *notes, const ss_bridge *bridge, const ss_effect *effect,
                                  const char *what) {
    ss_rating_note *const note = find(notes, section_of(bridge, effect), what);
    if (note == NULL) {
        return SS_ERROR_MEMORY;
    }
    if (note->last_member == effect->member && note->last_index == effect->index) {
        return SS_OK;
    }
    note->last_member = effect->member;
    note->last_index = effect->index;
    if (note->member_count < NAMED) {
        const char *const words = member_words(notes->arena, bridge, effect);
        const char *const members = words == NULL
                                        ? NULL
                                        : ss_arena_printf(notes->arena, "%s%s%s", note->members,
                                                          note->member_count > 0 ? ", " : "", words);
        if (members == NULL) {
            return SS_ERROR_MEMORY;
        }
        note->members = members;
    }
    note->member_count++;
    return SS_OK;
}

ss_status ss_rating_notes_text(const ss_rating_notes *notes, const ss_bridge *bridge, const char ***out,
                               int *count) {
    const char **const texts = ss_arena_alloc(notes->arena, (size_t)notes->count + 1, sizeof *texts);
    if (texts == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (int i = 0; i < notes->count; i++) {
        const ss_rating_note *const note = &notes->items[i];
        const char *const name = note->section < 0 ? "" : bridge->sections[note->section].name;
        const int rest = note->member_count - NAMED;
        texts[i] = rest > 0
                       ? ss_arena_printf(notes->arena, "section %s %s (%s, and %d more)", name, note->what,
                                         note->members, rest)
                       : ss_arena_printf(notes->arena, "section %s %s (%s)", name, note->what, note->members);
        if (texts[i] == NULL) {
            return SS_ERROR_MEMORY;
        }
    }
    *out = texts;
    *count = notes->count;
    return SS_OK;
}
