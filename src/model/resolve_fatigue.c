/* resolve_fatigue.c - details that may crack: their places, the fatigue truck and the traffic. */
#include <math.h>
#include <string.h>

#include "model/resolve.h"
#include "model/resolve_place.h"

/* Every detail is sought along every track; more than these are no longer looked at one by one. */
enum { SPOTS_MOST = 200 };

static const ss_place_keys places = {"fatigue.details[].car",        "fatigue.details[].line",
                                     "fatigue.details[].floor_beam", "fatigue.details[].joint",
                                     "fatigue.details[].x",          "fatigue.details[].y",
                                     "fatigue.details[].side"};

/* ---- the truck ------------------------------------------------------------------------------------ */

/* One set of axles: extremes of several would not be of one passage. */
static bool one_train(const ss_vehicle *truck) {
    bool fixed = truck->also == NULL && truck->dropped == 0 && truck->lane_N_m == 0.0;
    for (int i = 0; i < truck->axle_count; i++) {
        fixed = fixed && truck->spacing_most_m[i] == 0.0;
    }
    return fixed;
}

static void read_truck(ss_resolve *c, const ss_node *group, ss_fatigue_settings *out) {
    out->vehicle = ss_resolve_truck_reference(c, group, "fatigue.truck");
    if (out->vehicle < 0) {
        c->broken = true;
    } else if (!one_train(&c->bridge->vehicles[out->vehicle])) {
        ss_read_complain(&c->reading, SS_FAULT, group, "truck",
                         "%s is more than one set of axles, or has a lane load; a truck with fixed spacings "
                         "is due, such as the Fatigue truck",
                         c->bridge->vehicles[out->vehicle].name);
    }
}

/* ---- traffic -------------------------------------------------------------------------------------- */

/* rating.adtt is of one direction; both share a single lane. */
static void derive_adtt(ss_resolve *c, const ss_node *group, ss_fatigue_settings *out) {
    const int given = c->bridge->rating.adtt;
    const bool single = c->bridge->lanes.count < 2;
    char words[SS_WORDS];
    if (given < 0) {
        ss_read_complain(&c->reading, SS_FAULT, group, "adtt",
                         "not given, nor is rating.adtt; the trucks a day in a single lane are due");
        return;
    }
    out->adtt = single ? 2.0 * given : given;
    ss_resolve_assume(c, group, "adtt", ss_text_significant(words, sizeof words, out->adtt, 6),
                      single ? "Trucks a day in the single lane: both directions share it, so twice "
                               "rating.adtt."
                             : "Trucks a day in a single lane: all of one direction, rating.adtt.");
}

static void read_traffic(ss_resolve *c, const ss_node *group, ss_fatigue_settings *out) {
    (void)ss_resolve_due(c, group, "fatigue.years", &out->years);
    (void)ss_resolve_due(c, group, "fatigue.growth", &out->growth);
    (void)ss_resolve_due(c, group, "fatigue.rail_life_used", &out->used);
    if (ss_read_given(group, "adtt")) {
        (void)ss_resolve_due(c, group, "fatigue.adtt", &out->adtt);
    } else if (!ss_resolve_out_of_memory(c)) {
        derive_adtt(c, group, out);
    }
    const int level = ss_read_choice(&c->reading, group, "fatigue.level", NULL);
    out->level = level < 0 ? SS_FATIGUE_MINIMUM : (ss_fatigue_level)level;
    out->edition =
        c->bridge->rating.edition == SS_EDITION_MBE_2011 ? SS_FATIGUE_BEFORE_2017 : SS_FATIGUE_SINCE_2017;
}

/* ---- details -------------------------------------------------------------------------------------- */

static bool read_face(ss_resolve *c, const ss_node *item, ss_fatigue_spot *spot) {
    const int face = ss_read_choice(&c->reading, item, "fatigue.details[].face", NULL);
    spot->top = face == 0;
    return face >= 0;
}

static bool read_weld(ss_resolve *c, const ss_node *item, ss_fatigue_spot *spot) {
    bool good = ss_resolve_need(c, item, "fatigue.details[].throat", "the weld of a joint needs its throat",
                                &spot->throat);
    if (spot->at.index < 0) {
        return good;
    }
    if (c->bridge->joints[spot->at.index].connector_count > 0) {
        return ss_resolve_need(c, item, "fatigue.details[].weld_length",
                               "the weld of one connector needs its length", &spot->weld_length) &&
               good;
    }
    ss_resolve_forbid(c, item, "weld_length",
                      "does not belong to a continuous joint, whose force is known per length");
    return good;
}

static bool read_line(ss_resolve *c, const ss_node *item, ss_fatigue_spot *spot) {
    spot->at.member = SS_MEMBER_LINE;
    ss_resolve_forbid(c, item, "y|throat|weld_length",
                      "does not belong to a line; it has car, line, x, side and face");
    const bool good = read_face(c, item, spot);
    return ss_resolve_place_line(c, item, &places, &spot->at) && good;
}

static bool read_beam(ss_resolve *c, const ss_node *item, ss_fatigue_spot *spot) {
    spot->at.member = SS_MEMBER_BEAM;
    ss_resolve_forbid(c, item, "x|throat|weld_length",
                      "does not belong to a floor beam; it has car, floor_beam, y, side and face");
    const bool good = read_face(c, item, spot);
    return ss_resolve_place_beam(c, item, &places, &spot->at) && good;
}

static bool read_joint(ss_resolve *c, const ss_node *item, ss_fatigue_spot *spot) {
    spot->at.member = SS_MEMBER_JOINT;
    spot->at.effect = SS_EFFECT_SHEAR;
    ss_resolve_forbid(c, item, "car|y|side|face",
                      "does not belong to the weld of a joint; it has joint, x, throat and weld_length");
    const bool good = ss_resolve_place_joint(c, item, &places, &spot->at);
    return read_weld(c, item, spot) && good;
}

static bool read_spot(ss_resolve *c, const ss_node *item, ss_fatigue_spot *spot) {
    const bool line = ss_read_given(item, "line");
    const bool beam = ss_read_given(item, "floor_beam");
    const bool joint = ss_read_given(item, "joint");
    const char *note = NULL;
    const int category = ss_read_choice(&c->reading, item, "fatigue.details[].category", NULL);
    *spot = (ss_fatigue_spot){
        .at = {.name = ss_resolve_text(c, ss_resolve_name(item)), .index = -1, .effect = SS_EFFECT_MOMENT},
        .category = category < 0 ? SS_FATIGUE_CATEGORIES : (ss_fatigue_category)category,
        .throat = (double)NAN,
        .weld_length = (double)NAN};
    if (ss_read_text(&c->reading, item, "fatigue.details[].note", &note)) {
        spot->note = ss_resolve_text(c, note);
    }
    if (line + beam + joint != 1) {
        ss_read_complain(&c->reading, SS_FAULT, item, NULL, "%s; one of line, floor_beam and joint is due",
                         line || beam || joint ? "more than one member is named" : "no member is named");
        return false;
    }
    return (line   ? read_line(c, item, spot)
            : beam ? read_beam(c, item, spot)
                   : read_joint(c, item, spot)) &&
           category >= 0;
}

static void read_spots(ss_resolve *c, const ss_node *group, ss_fatigue_settings *out) {
    const ss_node *const list = ss_resolve_list(group, "details");
    if (list == NULL) {
        c->broken = true;
        return;
    }
    if (list->count > SPOTS_MOST) {
        ss_read_complain(&c->reading, SS_FAULT, group, "details", "found %d details; at most %d are allowed",
                         list->count, (int)SPOTS_MOST);
        return;
    }
    out->spots = ss_resolve_alloc(c, (size_t)list->count, sizeof *out->spots);
    if (out->spots == NULL) {
        return;
    }
    bool good = true;
    for (const ss_node *item = list->first; item != NULL && !ss_resolve_out_of_memory(c); item = item->next) {
        ss_fatigue_spot *const spot = &out->spots[out->spot_count];
        good = read_spot(c, item, spot) && good;
        out->spot_count += spot->at.index >= 0;
    }
    c->broken = c->broken || !good;
}

void ss_resolve_fatigue(ss_resolve *c) {
    const ss_node *const group = ss_node_child(c->root, "fatigue");
    if (group == NULL) {
        return;
    }
    ss_fatigue_settings *const out = &c->bridge->fatigue;
    read_truck(c, group, out);
    read_traffic(c, group, out);
    read_spots(c, group, out);
}
