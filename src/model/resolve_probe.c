/* resolve_probe.c - probes: the member, the place and the effect that is printed. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/resolve.h"

/* ---- what each member kind takes ------------------------------------------------------------------ */

typedef struct probe_rule {
    ss_member_kind member;
    const char *key;
    const char *foreign; /* keys that do not belong to it */
    const char *foreign_why;
    const char *effects; /* for the message */
    unsigned allowed;    /* bits of ss_effect_kind */
} probe_rule;

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

/* ---- lines, floor beams --------------------------------------------------------------------------- */

static bool within(ss_resolve *c, const ss_node *item, const char *key, const double range[2],
                   const char *name, double *at) {
    if (*at >= range[0] - SS_SAME_PLACE && *at <= range[1] + SS_SAME_PLACE) {
        *at = ss_clamp(*at, range[0], range[1]);
        return true;
    }
    char here[SS_WORDS];
    char from[SS_WORDS];
    char to[SS_WORDS];
    ss_read_complain(&c->reading, SS_FAULT, item, key, "%s lies outside \"%s\", %s to %s",
                     ss_resolve_length(c, *at, here), name, ss_resolve_length(c, range[0], from),
                     ss_resolve_length(c, range[1], to));
    return false;
}

/* Just before or just after the place. At an end of the member there is only one side, which need not be said
 * and cannot be denied. */
static bool choose_side(ss_resolve *c, const ss_node *item, const double range[2], ss_probe *probe) {
    const bool near_end = probe->at <= range[0] + SS_SAME_PLACE;
    const bool far_end = probe->at >= range[1] - SS_SAME_PLACE;
    if ((near_end || far_end) && !ss_read_given(item, "side")) {
        probe->before = far_end;
        return true;
    }
    probe->before = ss_read_choice(&c->reading, item, "probes[].side", NULL) == 0;
    if (probe->before ? !near_end : !far_end) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, item, "side",
                     "nothing lies %s the %s end; \"%s\" is due there, or no side",
                     probe->before ? "before" : "after", probe->before ? "near" : "far",
                     probe->before ? "after" : "before");
    return false;
}

/* The car that the member belongs to; a fault when it is not named. */
static int read_car(ss_resolve *c, const ss_node *item, const char *member) {
    if (ss_read_given(item, "car")) {
        return ss_resolve_car_reference(c, item, "probes[].car");
    }
    ss_read_complain(&c->reading, SS_FAULT, item, "car", "not given; a %s needs the car that it belongs to",
                     member);
    return -1;
}

static bool probe_line(ss_resolve *c, const ss_node *item, ss_probe *probe) {
    const int car = read_car(c, item, "line");
    probe->index = ss_resolve_line_of_car(c, item, "probes[].line", car);
    const bool x = ss_resolve_need(c, item, "probes[].x", "a line needs the station", &probe->at);
    if (probe->index < 0 || !x) {
        return false;
    }
    const ss_line *const line = &c->bridge->lines[probe->index];
    const double range[2] = {line->x0, line->x1};
    return within(c, item, "x", range, line->name, &probe->at) && choose_side(c, item, range, probe);
}

static bool probe_beam(ss_resolve *c, const ss_node *item, ss_probe *probe) {
    probe->index = ss_resolve_beam_of_car(c, item, "probes[].floor_beam", read_car(c, item, "floor beam"));
    const bool y = ss_resolve_need(c, item, "probes[].y", "a floor beam needs the place across", &probe->at);
    if (probe->index < 0 || !y) {
        return false;
    }
    const ss_floor_beam *const beam = &c->bridge->floor_beams[probe->index];
    const ss_car *const car = &c->bridge->cars[beam->car];
    double range[2] = {(double)INFINITY, -(double)INFINITY};
    for (int i = car->first_line; i < car->first_line + car->line_count; i++) {
        const ss_line *const line = &c->bridge->lines[i];
        if (line->x0 > beam->x + SS_SAME_PLACE || line->x1 < beam->x - SS_SAME_PLACE) {
            continue;
        }
        range[0] = ss_min(range[0], line->y);
        range[1] = ss_max(range[1], line->y);
    }
    return within(c, item, "y", range, beam->name, &probe->at) && choose_side(c, item, range, probe);
}

/* ---- joints, bearings ----------------------------------------------------------------------------- */

/* A joint with connectors has force only there. */
static bool at_connector(ss_resolve *c, const ss_node *item, const ss_joint *joint, double *at) {
    double nearest = (double)NAN;
    for (int i = 0; i < joint->connector_count; i++) {
        const double x = c->bridge->connectors[joint->first_connector + i];
        if (isnan(nearest) || fabs(x - *at) < fabs(nearest - *at)) {
            nearest = x;
        }
    }
    if (fabs(nearest - *at) <= SS_SAME_PLACE) {
        *at = nearest;
        return true;
    }
    char here[SS_WORDS];
    char near_by[SS_WORDS];
    ss_read_complain(&c->reading, SS_FAULT, item, "x",
                     "no connector of \"%s\" stands at %s; the nearest is at %s", joint->name,
                     ss_resolve_length(c, *at, here), ss_resolve_length(c, nearest, near_by));
    return false;
}

static bool probe_joint(ss_resolve *c, const ss_node *item, ss_probe *probe) {
    const ss_bridge *const bridge = c->bridge;
    const char *word = NULL;
    const bool x = ss_resolve_need(c, item, "probes[].x", "a joint needs the station", &probe->at);
    if (!ss_read_text(&c->reading, item, "probes[].joint", &word)) {
        return false;
    }
    const char **const words = ss_resolve_scratch(c, (size_t)bridge->joint_count, sizeof *words);
    if (words == NULL) {
        return false;
    }
    probe->index = -1;
    for (int i = 0; i < bridge->joint_count; i++) {
        words[i] = bridge->joints[i].name;
        if (strcmp(words[i], word) == 0) {
            probe->index = i;
        }
    }
    if (probe->index < 0) {
        ss_resolve_unknown(c, item, "joint", "joint", word, words, bridge->joint_count);
        return false;
    }
    const ss_joint *const joint = &bridge->joints[probe->index];
    if (!x || !c->joints_sound) {
        return false;
    }
    if (joint->kind == SS_JOINT_NONE) {
        probe->index = -1;
        ss_read_complain(&c->reading, SS_WARNING, item, "joint",
                         "left out: \"%s\" is of the kind none, which passes no force", joint->name);
        return true;
    }
    if (joint->connector_count > 0) {
        return at_connector(c, item, joint, &probe->at);
    }
    const double range[2] = {joint->x0, joint->x1};
    return within(c, item, "x", range, joint->name, &probe->at);
}

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
    case SS_MEMBER_LINE: return probe_line(c, item, probe) && good;
    case SS_MEMBER_BEAM: return probe_beam(c, item, probe) && good;
    case SS_MEMBER_JOINT: return probe_joint(c, item, probe) && good;
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
