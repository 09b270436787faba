/* resolve_name.c - values that are due or forbidden, and names that refer to something described elsewhere.
 */
#include <math.h>
#include <string.h>

#include "model/description_path.h"
#include "model/key_tree.h"
#include "model/resolve.h"

/* More names than this are not listed in a message. */
#define LISTED 12

const ss_node *ss_resolve_list(const ss_node *group, const char *key) {
    const ss_node *const list = ss_node_child(group, key);
    return list != NULL && list->kind == SS_NODE_LIST ? list : NULL;
}

const char *ss_resolve_name(const ss_node *item) {
    const char *const label = ss_node_label(item);
    return label == NULL ? "" : label;
}

/* ---- due, needed, optional, forbidden ------------------------------------------------------------- */

bool ss_resolve_due(ss_resolve *c, const ss_node *group, const char *table_path, double *out) {
    if (ss_read_quantity(&c->reading, group, table_path, out)) {
        return true;
    }
    c->broken = true;
    return false;
}

bool ss_resolve_need(ss_resolve *c, const ss_node *group, const char *table_path, const char *why,
                     double *out) {
    const char *const key = ss_key_leaf(table_path);
    if (ss_read_given(group, key)) {
        return ss_resolve_due(c, group, table_path, out);
    }
    ss_read_complain(&c->reading, SS_FAULT, group, key, "not given; %s", why);
    return false;
}

double ss_resolve_optional(ss_resolve *c, const ss_node *group, const char *table_path) {
    double value = (double)NAN;
    (void)ss_read_quantity(&c->reading, group, table_path, &value);
    return value;
}

void ss_resolve_forbid(ss_resolve *c, const ss_node *group, const char *keys, const char *why) {
    char key[64];
    while (*keys != '\0') {
        const size_t length = strcspn(keys, "|");
        if (length < sizeof key) {
            memcpy(key, keys, length);
            key[length] = '\0';
            if (ss_read_given(group, key)) {
                ss_read_complain(&c->reading, SS_FAULT, group, key, "%s", why);
            }
        }
        keys += length + (keys[length] == '|');
    }
}

void ss_resolve_assume(ss_resolve *c, const ss_node *group, const char *key, const char *value,
                       const char *why) {
    if (ss_resolve_out_of_memory(c)) {
        return;
    }
    ss_text path = {0};
    ss_node_key_path(group, key, &path);
    c->reading.status = path.failed ? SS_ERROR_MEMORY
                                    : ss_assumption_add(c->reading.assumptions,
                                                        path.data == NULL ? "" : path.data, value, why);
    ss_text_destroy(&path);
}

/* ---- names ---------------------------------------------------------------------------------------- */

void ss_resolve_unknown(ss_resolve *c, const ss_node *at, const char *key, const char *noun, const char *word,
                        const char *const *words, int count) {
    const char *const nearest = ss_text_nearest(word, words, count);
    if (nearest != NULL) {
        ss_read_complain(&c->reading, SS_FAULT, at, key, "no %s is called \"%s\"; did you mean \"%s\"?", noun,
                         word, nearest);
        return;
    }
    ss_text list = {0};
    for (int i = 0; i < count && i < LISTED; i++) {
        ss_text_printf(&list, "%s\"%s\"", i == 0 ? "" : ", ", words[i]);
    }
    if (count > LISTED) {
        ss_text_add(&list, " and others");
    }
    if (list.failed) {
        c->reading.status = SS_ERROR_MEMORY;
    } else {
        ss_read_complain(&c->reading, SS_FAULT, at, key, "no %s is called \"%s\"; %s%s", noun, word,
                         count > 0 ? "there are " : "there are none", count > 0 ? list.data : "");
    }
    ss_text_destroy(&list);
}

int ss_resolve_reference(ss_resolve *c, const ss_node *group, const char *table_path, const char *list,
                         const char *noun) {
    const char *word = NULL;
    if (!ss_read_text(&c->reading, group, table_path, &word)) {
        return -1;
    }
    const ss_node *const items = ss_resolve_list(c->root, list);
    const int count = items == NULL ? 0 : items->count;
    const char **const words = ss_resolve_scratch(c, (size_t)count, sizeof *words);
    if (words == NULL) {
        return -1;
    }
    int i = 0;
    for (const ss_node *item = items == NULL ? NULL : items->first; item != NULL; item = item->next, i++) {
        words[i] = ss_resolve_name(item);
        if (strcmp(words[i], word) == 0) {
            return i;
        }
    }
    ss_resolve_unknown(c, group, ss_key_leaf(table_path), noun, word, words, count);
    return -1;
}

/* Whether `word` is `set` followed by a blank and the number `member`. */
static bool is_member(const char *word, const char *set, int member) {
    const size_t length = strlen(set);
    if (strncmp(word, set, length) != 0 || word[length] != ' ') {
        return false;
    }
    const char *digits = word + length + 1;
    int number = 0;
    if (*digits < '1' || *digits > '9') {
        return false;
    }
    for (; *digits >= '0' && *digits <= '9' && number < 100000; digits++) {
        number = 10 * number + (*digits - '0');
    }
    return *digits == '\0' && number == member;
}

int ss_resolve_type_lines(const ss_car_type *type, const char *word, bool *picked) {
    int count = 0;
    for (int i = 0; i < type->line_count; i++) {
        const ss_type_line *const line = &type->lines[i];
        picked[i] =
            strcmp(word, line->set) == 0 || (line->members > 1 && is_member(word, line->set, line->member));
        count += picked[i];
    }
    return count;
}

const char **ss_resolve_type_words(ss_resolve *c, const ss_car_type *type, int *count) {
    const char **const words = ss_resolve_scratch(c, 2 * (size_t)type->line_count, sizeof *words);
    *count = 0;
    if (words == NULL) {
        return NULL;
    }
    for (int i = 0; i < type->line_count; i++) {
        const ss_type_line *const line = &type->lines[i];
        if (line->member == 1) {
            words[(*count)++] = line->set;
        }
        if (line->members == 1) {
            continue;
        }
        const char *const name = ss_resolve_numbered(c, line->set, line->member, line->members);
        if (name == NULL) {
            return NULL;
        }
        words[(*count)++] = name;
    }
    return words;
}

int ss_resolve_car_named(ss_resolve *c, const ss_node *at, const char *key, const char *word) {
    const ss_bridge *const bridge = c->bridge;
    const char **const words = ss_resolve_scratch(c, (size_t)bridge->car_count, sizeof *words);
    if (words == NULL) {
        return -1;
    }
    for (int i = 0; i < bridge->car_count; i++) {
        words[i] = bridge->cars[i].name;
        if (strcmp(words[i], word) == 0) {
            return i;
        }
    }
    ss_resolve_unknown(c, at, key, "car of the bridge", word, words, bridge->car_count);
    return -1;
}

int ss_resolve_car_reference(ss_resolve *c, const ss_node *group, const char *table_path) {
    const char *word = NULL;
    if (!ss_read_text(&c->reading, group, table_path, &word)) {
        return -1;
    }
    return ss_resolve_car_named(c, group, ss_key_leaf(table_path), word);
}

/* Whether the car's type has such a line, so that it is missing in this one. */
static bool is_of_type(ss_resolve *c, int car, const char *word) {
    const ss_car_type *const type = &c->types[c->car_types[car]];
    bool *const picked = ss_resolve_scratch(c, (size_t)type->line_count, sizeof *picked);
    return picked != NULL && ss_resolve_type_lines(type, word, picked) > 0;
}

/* Whether the place that the group gives, in x or in from, lies on a part of a line. */
static bool part_holds(const ss_node *group, const ss_line *line) {
    static const char *const keys[] = {"x", "from"};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        const ss_node *const node = ss_node_child(group, keys[i]);
        double x = 0.0;
        int count = 0;
        if (node != NULL && node->kind == SS_NODE_TEXT &&
            ss_units_parse(node->text, SS_DIM_LENGTH, &x, 1, &count, NULL) == SS_OK) {
            return x >= line->x0 - SS_SAME_PLACE && x <= line->x1 + SS_SAME_PLACE;
        }
    }
    return false;
}

int ss_resolve_line_of_car(ss_resolve *c, const ss_node *group, const char *table_path, int car) {
    const char *word = NULL;
    if (car < 0 || !ss_read_text(&c->reading, group, table_path, &word)) {
        return -1;
    }
    const ss_bridge *const bridge = c->bridge;
    const ss_car *const owner = &bridge->cars[car];
    const char **const words = ss_resolve_scratch(c, (size_t)owner->line_count, sizeof *words);
    if (words == NULL) {
        return -1;
    }
    int of_set = 0;
    for (int i = 0; i < owner->line_count; i++) {
        const ss_line *const line = &bridge->lines[owner->first_line + i];
        words[i] = line->name;
        if (strcmp(line->name, word) == 0) {
            return owner->first_line + i;
        }
        if (strcmp(line->whole, word) == 0 && part_holds(group, line)) {
            return owner->first_line + i;
        }
        of_set += strcmp(line->set, word) == 0;
    }
    if (c->types == NULL || c->car_types[car] < 0 || !c->types[c->car_types[car]].sound) {
        return -1;
    }
    if (of_set > 0) {
        ss_read_complain(&c->reading, SS_FAULT, group, ss_key_leaf(table_path),
                         "\"%s\" is a set of %d lines; one of them is due, such as \"%s 1\"", word, of_set,
                         word);
    } else if (is_of_type(c, car, word)) {
        ss_read_complain(&c->reading, SS_FAULT, group, ss_key_leaf(table_path),
                         "\"%s\" is missing there; the car's own lines or a finding say so", word);
    } else {
        ss_resolve_unknown(c, group, ss_key_leaf(table_path), "line of that car", word, words,
                           owner->line_count);
    }
    return -1;
}

int ss_resolve_beam_of_car(ss_resolve *c, const ss_node *group, const char *table_path, int car) {
    const char *word = NULL;
    if (car < 0 || !ss_read_text(&c->reading, group, table_path, &word)) {
        return -1;
    }
    const ss_car *const owner = &c->bridge->cars[car];
    const char **const words = ss_resolve_scratch(c, (size_t)owner->beam_count, sizeof *words);
    if (words == NULL) {
        return -1;
    }
    int of_set = 0;
    for (int i = 0; i < owner->beam_count; i++) {
        const ss_floor_beam *const beam = &c->bridge->floor_beams[owner->first_beam + i];
        words[i] = beam->name;
        if (strcmp(beam->name, word) == 0) {
            return owner->first_beam + i;
        }
        of_set += strcmp(beam->set, word) == 0;
    }
    if (c->car_types[car] < 0 || !c->types[c->car_types[car]].sound) {
        return -1;
    }
    if (of_set > 0) {
        ss_read_complain(&c->reading, SS_FAULT, group, ss_key_leaf(table_path),
                         "\"%s\" is a set of %d floor beams; one of them is due, such as \"%s 1\"", word,
                         of_set, word);
    } else {
        ss_resolve_unknown(c, group, ss_key_leaf(table_path), "floor beam of that car", word, words,
                           owner->beam_count);
    }
    return -1;
}
