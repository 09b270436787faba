/* resolve_place.c - a place on a line, on a floor beam or on a joint, as probes and details of fatigue name
 * it. */
#include "model/resolve_place.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"

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
static bool choose_side(ss_resolve *c, const ss_node *item, const char *key, const double range[2],
                        ss_probe *probe) {
    const bool near_end = probe->at <= range[0] + SS_SAME_PLACE;
    const bool far_end = probe->at >= range[1] - SS_SAME_PLACE;
    if ((near_end || far_end) && !ss_read_given(item, "side")) {
        probe->before = far_end;
        return true;
    }
    probe->before = ss_read_choice(&c->reading, item, key, NULL) == 0;
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
static int read_car(ss_resolve *c, const ss_node *item, const ss_place_keys *keys, const char *member) {
    if (ss_read_given(item, "car")) {
        return ss_resolve_car_reference(c, item, keys->car);
    }
    ss_read_complain(&c->reading, SS_FAULT, item, "car", "not given; a %s needs the car that it belongs to",
                     member);
    return -1;
}

bool ss_resolve_place_line(ss_resolve *c, const ss_node *item, const ss_place_keys *keys, ss_probe *probe) {
    const int car = read_car(c, item, keys, "line");
    probe->index = ss_resolve_line_of_car(c, item, keys->line, car);
    const bool x = ss_resolve_need(c, item, keys->x, "a line needs the station", &probe->at);
    if (probe->index < 0 || !x) {
        return false;
    }
    const ss_line *const line = &c->bridge->lines[probe->index];
    const double range[2] = {line->x0, line->x1};
    return within(c, item, "x", range, line->name, &probe->at) &&
           choose_side(c, item, keys->side, range, probe);
}

bool ss_resolve_place_beam(ss_resolve *c, const ss_node *item, const ss_place_keys *keys, ss_probe *probe) {
    probe->index = ss_resolve_beam_of_car(c, item, keys->floor_beam, read_car(c, item, keys, "floor beam"));
    const bool y = ss_resolve_need(c, item, keys->y, "a floor beam needs the place across", &probe->at);
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
    return within(c, item, "y", range, beam->name, &probe->at) &&
           choose_side(c, item, keys->side, range, probe);
}

/* ---- joints ----------------------------------------------------------------------------- */

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

bool ss_resolve_place_joint(ss_resolve *c, const ss_node *item, const ss_place_keys *keys, ss_probe *probe) {
    const ss_bridge *const bridge = c->bridge;
    const char *word = NULL;
    const bool x = ss_resolve_need(c, item, keys->x, "a joint needs the station", &probe->at);
    if (!ss_read_text(&c->reading, item, keys->joint, &word)) {
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
    if (joint->shear == 0.0 && joint->rotation == 0.0) {
        probe->index = -1;
        ss_read_complain(&c->reading, SS_WARNING, item, "joint",
                         "left out: \"%s\" has no stiffness, so that it passes no force", joint->name);
        return true;
    }
    if (joint->connector_count > 0) {
        return at_connector(c, item, joint, &probe->at);
    }
    const double range[2] = {joint->x0, joint->x1};
    return within(c, item, "x", range, joint->name, &probe->at);
}
