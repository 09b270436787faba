/* report_ratings_detail.c - members that were asked for, each of their governing factors worked out. */
#include <string.h>

#include "report/report_ratings.h"
#include "report/report_words.h"

/* More than this are not written out. */
enum { MOST = 16 };

/* As tables name what carries across in a concrete deck. */
static const char deck_name[] = "concrete deck";

static bool is_named(const ss_bridge *bridge, ss_member_kind member, int index, const char *name) {
    switch (member) {
    case SS_MEMBER_LINE: {
        const ss_line *line = &bridge->lines[index];
        return strcmp(name, line->name) == 0 || strcmp(name, line->whole) == 0 ||
               strcmp(name, line->set) == 0;
    }
    case SS_MEMBER_BEAM: {
        const ss_floor_beam *beam = &bridge->floor_beams[index];
        return strcmp(name, beam->name) == 0 || strcmp(name, beam->set) == 0 ||
               (beam->strip > 0.0 && strcmp(name, deck_name) == 0);
    }
    case SS_MEMBER_JOINT: return strcmp(name, bridge->joints[index].name) == 0;
    case SS_MEMBER_BEARING: return strcmp(name, bridge->bearings[index].name) == 0;
    }
    return false;
}

bool ss_report_is_named(const ss_bridge *bridge, ss_member_kind member, int index, const char *name) {
    static const char of[] = " of car ";
    if (is_named(bridge, member, index, name)) {
        return true;
    }
    const int line = member == SS_MEMBER_BEARING ? bridge->bearings[index].line : index;
    const int car = member == SS_MEMBER_JOINT  ? -1
                    : member == SS_MEMBER_BEAM ? bridge->floor_beams[index].car
                                               : bridge->lines[line].car;
    char own[200];
    for (const char *at = strstr(name, of); car >= 0 && at != NULL; at = strstr(at + 1, of)) {
        const size_t length = (size_t)(at - name);
        if (length < sizeof own && strcmp(at + sizeof of - 1, bridge->cars[car].name) == 0) {
            memcpy(own, name, length);
            own[length] = '\0';
            return is_named(bridge, member, index, own);
        }
    }
    return false;
}

/* Adds a name unless it is the last one. */
static void note_name(const char **words, int capacity, int *count, const char *name) {
    if (*count < capacity && (*count == 0 || strcmp(words[*count - 1], name) != 0)) {
        words[(*count)++] = name;
    }
}

int ss_report_detail_names(const ss_bridge *bridge, const char *detail, const char **words, int capacity) {
    int count = 0;
    bool known = detail == NULL;
    for (int i = 0; i < bridge->line_count && !known; i++) {
        known = is_named(bridge, SS_MEMBER_LINE, i, detail);
        note_name(words, capacity, &count, bridge->lines[i].set);
    }
    for (int i = 0; i < bridge->floor_beam_count && !known; i++) {
        known = is_named(bridge, SS_MEMBER_BEAM, i, detail);
        note_name(words, capacity, &count,
                  bridge->floor_beams[i].strip > 0.0 ? deck_name : bridge->floor_beams[i].set);
    }
    for (int i = 0; i < bridge->joint_count && !known; i++) {
        known = is_named(bridge, SS_MEMBER_JOINT, i, detail);
        note_name(words, capacity, &count, bridge->joints[i].name);
    }
    return known ? 0 : count;
}

void ss_rated_detail(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_ratings *ratings = results->rated;
    ss_method methods[3];
    if (results->detail == NULL) {
        return;
    }
    const int method_count = ss_rated_methods(ratings, methods);
    int *order = ss_arena_alloc(&b->report->arena, 2 * (size_t)ratings->count + 1, sizeof *order);
    if (order == NULL) {
        b->failed = true;
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, ss_build_text(b, "In detail: %s", results->detail));
    const ss_bridge *bridge = results->bridge;
    for (int i = 0; i < bridge->joint_count; i++) {
        if (is_named(bridge, SS_MEMBER_JOINT, i, results->detail)) {
            (void)ss_part_joint_estimate(b, &bridge->joints[i]);
        }
    }
    int shown = 0;
    int named = 0;
    for (int m = 0; m < method_count; m++) {
        const int count = ss_rated_rank(results, (int)methods[m], order);
        for (int i = 0; i < count; i++) {
            const ss_rating_item *item = &ratings->items[order[i]];
            if (!is_named(results->bridge, item->effect.member, item->effect.index, results->detail)) {
                continue;
            }
            named++;
            if (shown < MOST) {
                shown++;
                ss_rated_work_out(b, item);
            }
        }
    }
    if (named == 0) {
        ss_build_sentence(b, "Nothing of it is rated.");
    } else if (named > shown) {
        ss_build_sentence(b, "%d more are not written out; name one of them alone.", named - shown);
    }
}
