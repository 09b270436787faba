/* resolve_slab_name.c - lines and cars that the keys of a slab name, and where the slab on a car ends. */
#include <string.h>

#include "base/numeric.h"
#include "model/resolve_slab.h"

static bool is_named(const ss_line *line, const char *word) {
    return strcmp(line->name, word) == 0 || strcmp(line->whole, word) == 0 || strcmp(line->set, word) == 0;
}

/* Whether a car type has such a line, so that it is missing in every car. */
static bool is_of_types(ss_resolve *c, const char *word) {
    for (int i = 0; i < c->type_count; i++) {
        bool *const picked = ss_resolve_scratch(c, (size_t)c->types[i].line_count, sizeof *picked);
        if (picked != NULL && ss_resolve_type_lines(&c->types[i], word, picked) > 0) {
            return true;
        }
    }
    return false;
}

static void add_word(const char **words, int *count, const char *word) {
    for (int i = 0; i < *count; i++) {
        if (strcmp(words[i], word) == 0) {
            return;
        }
    }
    words[(*count)++] = word;
}

static void complain(ss_resolve *c, const ss_node *group, const char *key, const char *word) {
    const ss_bridge *const bridge = c->bridge;
    const char **const words = ss_resolve_scratch(c, 2 * (size_t)bridge->line_count, sizeof *words);
    int count = 0;
    if (words == NULL) {
        return;
    }
    for (int i = 0; i < bridge->line_count; i++) {
        add_word(words, &count, bridge->lines[i].set);
        add_word(words, &count, bridge->lines[i].whole);
    }
    ss_resolve_unknown(c, group, key, "line", word, words, count);
}

/* The words at a key: those of a list, or one text. */
static bool pick_lines(ss_resolve *c, const ss_node *group, const char *key, const char *word, bool *picked) {
    bool known = false;
    for (int i = 0; i < c->bridge->line_count; i++) {
        if (is_named(&c->bridge->lines[i], word)) {
            picked[i] = known = true;
        }
    }
    if (known || is_of_types(c, word)) {
        return true;
    }
    complain(c, group, key, word);
    return false;
}

bool ss_resolve_slab_named(ss_resolve *c, const ss_node *group, const char *key, bool *picked) {
    const ss_node *const node = ss_node_child(group, key);
    if (node == NULL) {
        return false;
    }
    if (node->kind == SS_NODE_TEXT) {
        return pick_lines(c, group, key, node->text, picked);
    }
    bool good = node->kind == SS_NODE_LIST;
    for (const ss_node *word = good ? node->first : NULL; word != NULL; word = word->next) {
        good = word->kind == SS_NODE_TEXT && pick_lines(c, group, key, word->text, picked) && good;
    }
    return good;
}

bool ss_resolve_slab_cars(ss_resolve *c, const ss_node *group, const char *key, bool *picked) {
    const ss_node *const list = ss_resolve_list(group, key);
    const bool all = !ss_read_given(group, key);
    bool good = all || list != NULL;
    for (int i = 0; i < c->bridge->car_count; i++) {
        picked[i] = all;
    }
    for (const ss_node *word = list == NULL ? NULL : list->first; word != NULL; word = word->next) {
        const int car = word->kind == SS_NODE_TEXT ? ss_resolve_car_named(c, group, key, word->text) : -1;
        good = car >= 0 && good;
        if (car >= 0) {
            picked[car] = true;
        }
    }
    return good;
}

double ss_resolve_slab_bound(const ss_bridge *bridge, int car, bool right) {
    const ss_slab *const slab = &bridge->slab;
    const ss_car *const own = &bridge->cars[car];
    if (right ? car + 1 == bridge->car_count : car == 0) {
        return right ? slab->y1 : slab->y0;
    }
    const double edge = right ? own->y_right : own->y_left;
    if (slab->joint == SS_SLAB_JOINT_OPEN) {
        return edge;
    }
    return 0.5 * (edge + (right ? own[1].y_left : own[-1].y_right));
}
