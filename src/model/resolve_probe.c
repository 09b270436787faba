/* resolve_probe.c - probes: the member, the place and the effect that is printed. */
#include <math.h>
#include <string.h>

#include "model/resolve.h"
#include "model/resolve_place.h"

/* ---- what each member kind takes ------------------------------------------------------------------ */

typedef struct probe_rule {
    ss_member_kind member;
    const char *key;
    const char *foreign; /* keys that do not belong to it */
    const char *foreign_why;
    const char *effects; /* for the message */
    unsigned allowed;    /* bits of ss_effect_kind */
} probe_rule;

static const ss_place_keys places = {"probes[].car", "probes[].line", "probes[].floor_beam", "probes[].joint",
                                     "probes[].x",   "probes[].y",    "probes[].side"};

#define BIT(effect) (1U << SS_EFFECT_##effect)

static const probe_rule rules[] = {
    {SS_MEMBER_LINE, "line", "y", "does not belong to a line; it has car, line, x and side",
     "moment, shear, torsion and deflection", BIT(MOMENT) | BIT(SHEAR) | BIT(TORSION) | BIT(DEFLECTION)},
    {SS_MEMBER_BEAM, "floor_beam", "x", "does not belong to a floor beam; it has car, floor_beam, y and side",
     "moment, shear, torsion and deflection", BIT(MOMENT) | BIT(SHEAR) | BIT(TORSION) | BIT(DEFLECTION)},
    {SS_MEMBER_JOINT, "joint", "car|y|side", "does not belong to a joint; it has joint and x",
     "moment and shear", BIT(MOMENT) | BIT(SHEAR)},
    {SS_MEMBER_BEARING, "bearing", "y|side",
     "does not belong to a bearing; it has bearing, and car, line and x to tell several apart", "reaction",
     BIT(REACTION)},
};

/* The rule of the one member that is named; a bearing may name a line as well, to tell its points apart. */
static const probe_rule *find_rule(ss_resolve *c, const ss_node *item) {
    const bool line = ss_read_given(item, "line");
    const bool beam = ss_read_given(item, "floor_beam");
    const bool joint = ss_read_given(item, "joint");
    const bool bearing = ss_read_given(item, "bearing");
    if (bearing && !beam && !joint) {
        return &rules[3];
    }
    if (line + beam + joint + bearing == 1) {
        return line ? &rules[0] : beam ? &rules[1] : &rules[2];
    }
    ss_read_complain(
        &c->reading, SS_FAULT, item, NULL, "%s; one of line, floor_beam, joint and bearing is due",
        line || beam || joint || bearing ? "more than one member is named" : "no member is named");
    return NULL;
}

/* ---- bearings ------------------------------------------------------------------------------------- */

/* Whether the set exists in the description; one that is not in use has no points. */
static bool bearing_known(ss_resolve *c, const ss_node *item, const char *word) {
    const ss_node *const list = ss_resolve_list(c->node, "bearings");
    if (list == NULL) {
        return true;
    }
    const char **const words = ss_resolve_scratch(c, (size_t)list->count, sizeof *words);
    if (words == NULL) {
        return false;
    }
    int count = 0;
    for (const ss_node *set = list->first; set != NULL; set = set->next) {
        words[count] = ss_resolve_name(set);
        if (strcmp(words[count++], word) == 0) {
            return true;
        }
    }
    ss_resolve_unknown(c, item, "bearing", "set of bearings", word, words, count);
    return false;
}

static bool probe_bearing(ss_resolve *c, const ss_node *item, ss_probe *probe) {
    const ss_bridge *const bridge = c->bridge;
    const char *word = NULL;
    const char *line = NULL;
    double x = (double)NAN;
    if (!ss_read_text(&c->reading, item, "probes[].bearing", &word) || !bearing_known(c, item, word)) {
        return false;
    }
    const bool has_car = ss_read_given(item, "car");
    const int car = has_car ? ss_resolve_car_reference(c, item, "probes[].car") : -1;
    (void)ss_read_text(&c->reading, item, "probes[].line", &line);
    (void)ss_read_quantity(&c->reading, item, "probes[].x", &x);
    if ((has_car && car < 0) || !c->laid || !c->bearings_sound) {
        return false;
    }
    int found = 0;
    for (int i = 0; i < bridge->bearing_count; i++) {
        const ss_bearing *const b = &bridge->bearings[i];
        const ss_line *const l = &bridge->lines[b->line];
        if (strcmp(b->name, word) != 0 || (car >= 0 && b->car != car) ||
            (!isnan(x) && fabs(b->x - x) > SS_SAME_PLACE)) {
            continue;
        }
        if (line != NULL && strcmp(l->name, line) != 0 && strcmp(l->set, line) != 0) {
            continue;
        }
        probe->index = i;
        probe->at = b->x;
        found++;
    }
    if (found == 1) {
        return true;
    }
    if (found == 0) {
        ss_read_complain(&c->reading, SS_FAULT, item, "bearing",
                         "no bearing point in use of \"%s\" fits; car, line and x say which", word);
    } else {
        ss_read_complain(&c->reading, SS_FAULT, item, "bearing",
                         "%d bearing points of \"%s\" fit; give car, line and x so that one is left", found,
                         word);
    }
    return false;
}

/* ---- the probe ------------------------------------------------------------------------------------ */

static bool read_probe(ss_resolve *c, const ss_node *item, ss_probe *probe) {
    const int effect = ss_read_choice(&c->reading, item, "probes[].effect", NULL);
    const probe_rule *const rule = find_rule(c, item);
    if (rule == NULL) {
        return false;
    }
    probe->member = rule->member;
    ss_resolve_forbid(c, item, rule->foreign, rule->foreign_why);
    if (effect >= 0 && (rule->allowed & (1U << effect)) == 0) {
        ss_read_complain(&c->reading, SS_FAULT, item, "effect", "a %s has no %s; it has %s",
                         rule->member == SS_MEMBER_BEAM ? "floor beam" : rule->key,
                         ss_effect_name((ss_effect_kind)effect), rule->effects);
    }
    probe->effect = effect < 0 ? SS_EFFECT_MOMENT : (ss_effect_kind)effect;
    const bool good = effect >= 0;
    switch (rule->member) {
    case SS_MEMBER_LINE: return ss_resolve_place_line(c, item, &places, probe) && good;
    case SS_MEMBER_BEAM: return ss_resolve_place_beam(c, item, &places, probe) && good;
    case SS_MEMBER_JOINT: return ss_resolve_place_joint(c, item, &places, probe) && good;
    case SS_MEMBER_BEARING: return probe_bearing(c, item, probe) && good;
    }
    return false;
}

void ss_resolve_probes(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->root, "probes");
    ss_bridge *const bridge = c->bridge;
    if (list == NULL) {
        return;
    }
    bridge->probes = ss_resolve_alloc(c, (size_t)list->count, sizeof *bridge->probes);
    if (bridge->probes == NULL) {
        return;
    }
    bool good = true;
    for (const ss_node *item = list->first; item != NULL && !ss_resolve_out_of_memory(c); item = item->next) {
        ss_probe *const probe = &bridge->probes[bridge->probe_count++];
        probe->name = ss_resolve_text(c, ss_resolve_name(item));
        good = read_probe(c, item, probe) && good;
        if (probe->index < 0) {
            *probe = (ss_probe){0};
            bridge->probe_count--;
        }
    }
    /* Only now, so that the faults of one probe do not hide those of the next. */
    c->broken = c->broken || !good;
}
