/* resolve_deck.c - decks, and the roadway between the curbs. */
#include <math.h>

#include "base/numeric.h"
#include "model/resolve.h"

/* Weight per area of one deck, given or from its thickness. */
static bool read_weight(ss_resolve *c, const ss_node *item, double *weight) {
    const bool direct = ss_read_given(item, "weight");
    const bool thickness = ss_read_given(item, "thickness");
    const bool density = ss_read_given(item, "density");
    if (direct && density) {
        ss_read_complain(&c->reading, SS_FAULT, item, "density",
                         "weight is given as well; give weight, or thickness and density");
        return false;
    }
    if (direct) {
        return ss_resolve_due(c, item, "decks[].weight", weight);
    }
    if (!thickness || !density) {
        ss_read_complain(&c->reading, SS_FAULT, item, "weight",
                         "not given; weight, or thickness and density are due");
        return false;
    }
    double t = 0.0;
    double unit = 0.0;
    const bool good = ss_resolve_due(c, item, "decks[].thickness", &t);
    if (!ss_resolve_due(c, item, "decks[].density", &unit) || !good) {
        return false;
    }
    *weight = t * unit;
    return true;
}

static void resolve_decks(ss_resolve *c) {
    static const char *const kinds[] = {"timber", "steel plate", "grating", "concrete"};
    const ss_node *const list = ss_resolve_list(c->root, "decks");
    const int chosen = ss_resolve_reference(c, c->node, "bridge.deck", "decks", "deck");
    int i = 0;
    for (const ss_node *item = list == NULL ? NULL : list->first; item != NULL; item = item->next, i++) {
        ss_deck deck = {.name = ss_resolve_text(c, ss_resolve_name(item))};
        const int kind = ss_read_choice(&c->reading, item, "decks[].kind", NULL);
        const int spans = ss_read_choice(&c->reading, item, "decks[].spans", NULL);
        if (kind < 0 || spans < 0) {
            c->broken = true;
        }
        deck.kind = kind < 0 ? "" : kinds[kind];
        deck.made_of = kind < 0 ? SS_DECK_TIMBER : (ss_deck_kind)kind;
        deck.along = spans == 1;
        if (!read_weight(c, item, &deck.weight)) {
            c->broken = true;
        }
        if (kind >= 0) {
            ss_resolve_deck_wheel(c, item, &deck);
        }
        if (i != chosen) {
            continue;
        }
        (void)ss_read_flag(&c->reading, item, "decks[].over_joints", &deck.over_joints);
        (void)ss_read_flag(&c->reading, item, "decks[].holds_lines", &deck.holds_lines);
        c->bridge->deck = deck;
    }
    if (c->node != NULL && !ss_read_given(c->node, "deck")) {
        ss_resolve_assume(c, c->node, "deck", "none",
                          "Wheels come to the lines beside them, and no deck weighs.");
    }
}

static void resolve_roadway(ss_resolve *c) {
    ss_bridge *const bridge = c->bridge;
    const ss_node *const item = ss_node_child(c->node, "roadway");
    bool good = ss_resolve_due(c, item, "bridge.roadway.from", &bridge->roadway_left);
    good = ss_resolve_due(c, item, "bridge.roadway.to", &bridge->roadway_right) && good;
    good = ss_resolve_due(c, item, "bridge.roadway.wheel_to_curb", &bridge->wheel_to_curb) && good;
    if (!good || bridge->car_count == 0) {
        return;
    }
    const double width = bridge->cars[bridge->car_count - 1].y_right;
    char a[SS_WORDS];
    char b[SS_WORDS];
    if (bridge->roadway_right <= bridge->roadway_left + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, "to", "%s does not lie right of the left curb at %s",
                         ss_resolve_length(c, bridge->roadway_right, a),
                         ss_resolve_length(c, bridge->roadway_left, b));
        return;
    }
    if (!c->placed) {
        return;
    }
    if (bridge->roadway_left < -SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, "from",
                         "%s lies left of the cars, which are %s wide together",
                         ss_resolve_length(c, bridge->roadway_left, a), ss_resolve_length(c, width, b));
    }
    if (bridge->roadway_right > width + SS_SAME_PLACE) {
        ss_read_complain(&c->reading, SS_FAULT, item, "to",
                         "%s lies right of the cars, which are %s wide together",
                         ss_resolve_length(c, bridge->roadway_right, a), ss_resolve_length(c, width, b));
    }
    if (bridge->roadway_right - bridge->roadway_left < 2.0 * bridge->wheel_to_curb) {
        ss_read_complain(&c->reading, SS_WARNING, item, "wheel_to_curb",
                         "the roadway of %s leaves no place for a wheel that keeps %s from both curbs",
                         ss_resolve_length(c, bridge->roadway_right - bridge->roadway_left, a),
                         ss_resolve_length(c, bridge->wheel_to_curb, b));
    }
    bridge->roadway_left = ss_max(bridge->roadway_left, 0.0);
    bridge->roadway_right = ss_min(bridge->roadway_right, width);
}

void ss_resolve_deck(ss_resolve *c) {
    resolve_decks(c);
    if (!ss_resolve_out_of_memory(c)) {
        resolve_roadway(c);
    }
}
