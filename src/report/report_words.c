/* report_words.c - members, places, trucks and quantities in everyday words. */
#include "report/report_words.h"

#include <math.h>
#include <string.h>

#include "response/trains.h"
#include "sillspan/text.h"

const char *ss_words_quantity(ss_builder *b, double value, ss_dimension dimension, int digits) {
    char number[64];
    return ss_build_text(b, "%s",
                         ss_units_format(number, sizeof number, value, dimension, b->report->units, digits));
}

const char *ss_words_decimals(ss_builder *b, double value, int decimals) {
    char number[64];
    return ss_build_text(b, "%s", ss_text_decimals(number, sizeof number, value, decimals));
}

static bool is_multiple(double value, double step) {
    return fabs(value / step - round(value / step)) < 1e-6;
}

const char *ss_words_length(ss_builder *b, double metres) {
    char number[64];
    const double length = ss_units_from_si(metres, SS_DIM_LENGTH, b->report->units);
    const bool fine =
        b->report->units == SS_UNITS_SI || is_multiple(length, 1.0 / 48.0) || is_multiple(length, 0.01);
    const double scale = fine ? 100.0 : 10.0;
    const double shown = round(length * scale) / scale + 0.0;
    ss_text_significant(number, sizeof number, shown, 6);
    return ss_build_text(b, "%s %s", number, ss_units_name(SS_DIM_LENGTH, b->report->units));
}

/* Whether the words of a quantity have a unit of the US. */
static bool is_us(const char *text) {
    static const char *const units[] = {"ft",  "in",  "kip", "ksi", "psi", "psf",
                                        "pcf", "plf", "lb",  "mph", "\""};
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strstr(text, units[i]) != NULL) {
            return true;
        }
    }
    return false;
}

const char *ss_words_given(ss_builder *b, const char *text) {
    double values[8];
    int count = 0;
    const bool us = is_us(text);
    if (us == (b->report->units == SS_UNITS_US)) {
        return text;
    }
    for (int d = SS_DIM_NUMBER + 1; d < SS_DIM_COUNT; d++) {
        ss_dimension dimension = (ss_dimension)d;
        if (ss_units_parse(text, dimension, values, 8, &count, NULL) != SS_OK) {
            continue;
        }
        if (dimension == SS_DIM_LENGTH && (us ? strstr(text, "ft") == NULL : strstr(text, "mm") != NULL)) {
            dimension = SS_DIM_SMALL_LENGTH;
        }
        const char *all = "";
        for (int i = 0; i < count; i++) {
            all = ss_build_text(b, "%s%s%s", all, i == 0 ? "" : ", ",
                                ss_words_quantity(b, values[i], dimension, 4));
        }
        return all;
    }
    return text;
}

int ss_words_car(const ss_bridge *bridge, ss_member_kind member, int index) {
    switch (member) {
    case SS_MEMBER_LINE: return bridge->lines[index].car;
    case SS_MEMBER_BEAM: return bridge->floor_beams[index].car;
    case SS_MEMBER_JOINT: return bridge->joints[index].left;
    case SS_MEMBER_BEARING: return bridge->bearings[index].car;
    }
    return 0;
}

bool ss_words_strip(const ss_bridge *bridge, ss_member_kind member, int index) {
    return member == SS_MEMBER_BEAM && bridge->floor_beams[index].strip > 0.0;
}

/* The slab over a gap; which gap, where there are several. */
static const char *slab_joint_words(ss_builder *b, const ss_joint *joint) {
    const ss_bridge *bridge = b->results->bridge;
    return bridge->car_count < 3
               ? "slab over the gap"
               : ss_build_text(b, "slab over the gap between cars %s and %s", bridge->cars[joint->left].name,
                               bridge->cars[joint->left + 1].name);
}

const char *ss_words_member(ss_builder *b, ss_member_kind member, int index) {
    const ss_bridge *bridge = b->results->bridge;
    const char *car = bridge->cars[ss_words_car(bridge, member, index)].name;
    switch (member) {
    case SS_MEMBER_LINE: return ss_build_text(b, "%s of car %s", bridge->lines[index].name, car);
    case SS_MEMBER_BEAM:
        if (ss_words_strip(bridge, member, index)) {
            return ss_build_text(b, "slab of car %s at %s", car,
                                 ss_words_length(b, bridge->floor_beams[index].x));
        }
        return ss_build_text(b, "%s%s of car %s",
                             strstr(bridge->floor_beams[index].name, "beam") == NULL ? "floor beam " : "",
                             bridge->floor_beams[index].name, car);
    case SS_MEMBER_JOINT:
        return bridge->joints[index].slab ? slab_joint_words(b, &bridge->joints[index])
                                          : ss_build_text(b, "joint %s", bridge->joints[index].name);
    case SS_MEMBER_BEARING: {
        const ss_bearing *bearing = &bridge->bearings[index];
        return ss_build_text(b, "bearing %s under the %s of car %s at %s", bearing->name,
                             bridge->lines[bearing->line].name, car, ss_words_length(b, bearing->x));
    }
    }
    return "";
}

const char *ss_words_the_member(ss_builder *b, ss_member_kind member, int index) {
    const ss_bridge *bridge = b->results->bridge;
    const char *name = member == SS_MEMBER_LINE ? bridge->lines[index].name
                       : member == SS_MEMBER_BEAM && !ss_words_strip(bridge, member, index)
                           ? bridge->floor_beams[index].name
                           : "";
    const size_t length = strlen(name);
    const bool numbered = length > 0 && name[length - 1] >= '0' && name[length - 1] <= '9';
    return ss_build_text(b, "%s%s", numbered ? "" : "the ", ss_words_member(b, member, index));
}

double ss_words_x(const ss_bridge *bridge, const ss_effect *effect) {
    switch (effect->member) {
    case SS_MEMBER_BEAM: return bridge->floor_beams[effect->index].x;
    case SS_MEMBER_BEARING: return bridge->bearings[effect->index].x;
    case SS_MEMBER_LINE:
    case SS_MEMBER_JOINT: break;
    }
    return effect->at;
}

const char *ss_words_place(ss_builder *b, const ss_effect *effect) {
    const char *x = ss_words_length(b, ss_words_x(b->results->bridge, effect));
    if (effect->member == SS_MEMBER_BEARING) {
        return "";
    }
    if (ss_words_strip(b->results->bridge, effect->member, effect->index)) {
        return ss_build_text(b, "%s from the left edge", ss_words_length(b, effect->at));
    }
    if (effect->member == SS_MEMBER_BEAM) {
        return ss_build_text(b, "at %s, %s from the left edge", x, ss_words_length(b, effect->at));
    }
    return ss_build_text(b, "at %s", x);
}

const char *ss_words_failure(ss_effect_kind kind) {
    switch (kind) {
    case SS_EFFECT_MOMENT: return "bending";
    case SS_EFFECT_SHEAR: return "shear";
    case SS_EFFECT_TORSION: return "twisting";
    case SS_EFFECT_DEFLECTION: return "deflection";
    case SS_EFFECT_REACTION: return "bearing";
    case SS_EFFECT_WEB_PLUS:
    case SS_EFFECT_WEB_MINUS: return "web shear";
    }
    return "";
}

const char *ss_words_effect_key(ss_effect_kind kind) {
    switch (kind) {
    case SS_EFFECT_MOMENT: return "moment";
    case SS_EFFECT_SHEAR: return "shear";
    case SS_EFFECT_TORSION: return "torsion";
    case SS_EFFECT_DEFLECTION: return "deflection";
    case SS_EFFECT_REACTION: return "reaction";
    case SS_EFFECT_WEB_PLUS: return "web_plus";
    case SS_EFFECT_WEB_MINUS: return "web_minus";
    }
    return "";
}

const char *ss_words_member_key(ss_member_kind member) {
    switch (member) {
    case SS_MEMBER_LINE: return "line";
    case SS_MEMBER_BEAM: return "floor_beam";
    case SS_MEMBER_JOINT: return "joint";
    case SS_MEMBER_BEARING: return "bearing";
    }
    return "";
}

const ss_crossing *ss_words_crossing(const ss_results *results, int traffic) {
    const ss_traffic *one = &results->placements->traffic[traffic];
    const ss_bridge *bridge = results->bridge;
    return one->run >= 0 || one->crossing < 0 || one->crossing >= bridge->crossing_count
               ? NULL
               : &bridge->crossings[one->crossing];
}

bool ss_words_told(const ss_results *results, int traffic) {
    const ss_ratings *ratings = results->rated;
    if (ratings == NULL) {
        return results->envelope == NULL || results->envelope->extent == SS_EXTENT_ALL ||
               !ss_words_abreast(results, traffic);
    }
    for (int c = 0; traffic < ratings->traffic_count && c < ratings->check_count; c++) {
        if (ss_ratings_governing(ratings, c, traffic) >= 0) {
            return true;
        }
    }
    return false;
}

bool ss_words_abreast(const ss_results *results, int traffic) {
    const ss_crossing *crossing = ss_words_crossing(results, traffic);
    return crossing != NULL && crossing->kind == SS_CROSSING_BESIDE && crossing->lanes > 1;
}

const char *ss_words_crossing_key(const ss_results *results, int traffic) {
    const ss_crossing *crossing = ss_words_crossing(results, traffic);
    if (results->placements->traffic[traffic].run >= 0) {
        return "run";
    }
    switch (crossing == NULL ? SS_CROSSING_ALONE : crossing->kind) {
    case SS_CROSSING_ALONE: break;
    case SS_CROSSING_BESIDE: return "beside";
    case SS_CROSSING_CENTRED: return "centred";
    case SS_CROSSING_LINE: return "signed line";
    }
    return "alone";
}

const char *ss_words_beside(ss_builder *b, const ss_bridge *bridge, const ss_crossing *crossing) {
    if (crossing->kind != SS_CROSSING_BESIDE || crossing->beside < 0) {
        return NULL;
    }
    const char *const other = bridge->vehicles[crossing->beside].name;
    return crossing->has_third ? ss_build_text(b, "%s and %s", other, bridge->vehicles[crossing->third].name)
                               : other;
}

const char *ss_words_traffic(ss_builder *b, int traffic) {
    const ss_bridge *bridge = b->results->bridge;
    const ss_traffic *one = &b->results->placements->traffic[traffic];
    const ss_crossing *crossing = ss_words_crossing(b->results, traffic);
    const char *vehicle = bridge->vehicles[one->vehicle].name;
    if (one->run >= 0) {
        return ss_build_text(b, "%s on run %s", vehicle, bridge->runs[one->run].name);
    }
    switch (crossing == NULL ? SS_CROSSING_ALONE : crossing->kind) {
    case SS_CROSSING_ALONE: break;
    case SS_CROSSING_BESIDE:
        if (crossing->has_third) {
            return ss_build_text(b, "%s beside %s", vehicle, ss_words_beside(b, bridge, crossing));
        }
        if (crossing->beside < 0 || crossing->beside == one->vehicle) {
            return ss_build_text(b, "%s, %d abreast", vehicle, crossing->lanes);
        }
        return crossing->lanes == 2
                   ? ss_build_text(b, "%s beside %s", vehicle, bridge->vehicles[crossing->beside].name)
                   : ss_build_text(b, "%s beside %d %s", vehicle, crossing->lanes - 1,
                                   bridge->vehicles[crossing->beside].name);
    case SS_CROSSING_CENTRED: return ss_build_text(b, "%s in the middle", vehicle);
    case SS_CROSSING_LINE: return ss_build_text(b, "%s on the signed line", vehicle);
    }
    return vehicle;
}

const char *ss_words_direction(const ss_builder *b, const ss_position *position) {
    return b->results->placements->tracks[position->track].backward ? "backward" : "forward";
}

/* Whether the distance behind an axle of what stands there could be another. */
static bool gap_varies(const ss_builder *b, const ss_position *position, int gap) {
    const ss_placements *const placements = b->results->placements;
    double least, most;
    return ss_train_range(b->results->bridge, placements, placements->tracks[position->track].train, gap,
                          &least, &most);
}

const char *ss_words_distances(ss_builder *b, const ss_position *position) {
    const ss_vehicle *const train = ss_position_train(b->results->placements, position);
    const char *text = "";
    bool any = false;
    for (int gap = 0; gap + 1 < train->axle_count; gap++) {
        char number[32];
        const double apart = ss_units_from_si(train->spacing_m[gap], SS_DIM_LENGTH, b->report->units);
        any = any || gap_varies(b, position, gap);
        text = ss_build_text(b, "%s%s%s", text, gap == 0 ? "" : ", ",
                             ss_text_significant(number, sizeof number, apart, 6));
    }
    return any ? text : NULL;
}

const char *ss_words_position(ss_builder *b, const ss_position *position) {
    const ss_track *const track = &b->results->placements->tracks[position->track];
    const ss_vehicle *const train = ss_position_train(b->results->placements, position);
    const char *text = ss_build_text(b, "going %s, its front axle at %s and its middle %s from the left edge",
                                     ss_words_direction(b, position), ss_words_length(b, position->x),
                                     ss_words_length(b, track->y));
    for (int gap = 0; gap + 1 < train->axle_count; gap++) {
        if (gap_varies(b, position, gap)) {
            const int axle = b->results->placements->origins[track->train].first_axle + gap + 1;
            text = ss_build_text(b, "%s, axles %d and %d %s apart", text, axle, axle + 1,
                                 ss_words_length(b, train->spacing_m[gap]));
        }
    }
    return text;
}

double ss_words_area_share(const ss_results *results, const ss_extreme_load *load) {
    const ss_placements *const placements = results->placements;
    double loaded = 0.0, whole = 0.0;
    for (int i = 0; i < placements->area_line_count; i++) {
        whole += placements->area_lines[i].width * (results->bridge->x1 - results->bridge->x0);
    }
    for (int i = 0; i < load->area_count; i++) {
        const ss_area_stretch *const stretch = &load->area[i];
        loaded += placements->area_lines[stretch->line].width * (stretch->to - stretch->from);
    }
    return whole > 0.0 ? loaded / whole : 0.0;
}

const char *ss_words_stands(ss_builder *b, const ss_extreme *extreme) {
    const ss_extreme_load *const load = extreme->load;
    const char *text = ss_words_position(b, &extreme->position);
    if (load != NULL && load->truck_count > 1) {
        text = ss_build_text(b, "(the leftmost of %d trucks %s)", load->truck_count, text);
    }
    for (int i = 0; load != NULL && i < load->stretch_count; i++) {
        text =
            ss_build_text(b, "%s%s%s to %s", text, i == 0 ? ", with the lane load from " : " and from ",
                          ss_words_length(b, load->stretch[i].from), ss_words_length(b, load->stretch[i].to));
    }
    if (load != NULL && load->area_count > 0) {
        text = ss_build_text(b, "%s, and %s over %s %% of the carriageway", text,
                             ss_words_quantity(b, load->area_N_m2, SS_DIM_AREA_LOAD, 3),
                             ss_words_decimals(b, 100.0 * ss_words_area_share(b->results, load), 0));
    }
    return text;
}

static bool has_uniform_load(const ss_vehicle *vehicle) {
    for (; vehicle != NULL; vehicle = vehicle->also) {
        if (vehicle->lane_N_m > 0.0 || vehicle->area_N_m2 > 0.0) {
            return true;
        }
    }
    return false;
}

bool ss_words_several(const ss_results *results) {
    for (int t = 0; results->rated == NULL && t < results->placements->traffic_count; t++) {
        if (results->placements->traffic[t].lane_count[0] > 0 && ss_words_told(results, t)) {
            return true;
        }
    }
    return false;
}

const char *ss_words_analysed(ss_builder *b) {
    const ss_results *results = b->results;
    bool lanes = false;
    for (int t = 0; results->rated == NULL && t < results->placements->traffic_count; t++) {
        const ss_traffic *one = &results->placements->traffic[t];
        lanes = lanes || has_uniform_load(&results->bridge->vehicles[one->vehicle]);
    }
    if (ss_words_several(results)) {
        return ss_build_text(b, "one truck alone or trucks abreast add%s",
                             lanes ? " with the loads of their lanes" : "");
    }
    return ss_build_text(b, "one truck adds%s", lanes ? " with the load of its lane" : "");
}

ss_dimension ss_words_dimension(const ss_bridge *bridge, const ss_effect *effect) {
    const bool per_length =
        effect->member == SS_MEMBER_JOINT && bridge->joints[effect->index].connector_count == 0;
    switch (effect->kind) {
    case SS_EFFECT_MOMENT: return per_length ? SS_DIM_MOMENT_PER_LENGTH : SS_DIM_MOMENT;
    case SS_EFFECT_TORSION: return SS_DIM_MOMENT;
    case SS_EFFECT_DEFLECTION: return SS_DIM_SMALL_LENGTH;
    case SS_EFFECT_SHEAR: return per_length ? SS_DIM_LINE_LOAD : SS_DIM_FORCE;
    case SS_EFFECT_REACTION:
    case SS_EFFECT_WEB_PLUS:
    case SS_EFFECT_WEB_MINUS: return SS_DIM_FORCE;
    }
    return SS_DIM_NUMBER;
}

const char *ss_words_count(ss_builder *b, int count, const char *one, const char *many) {
    return ss_build_text(b, "%d %s", count, count == 1 ? one : many);
}

const char *ss_words_join(ss_builder *b, const char *const *items, int count) {
    const char *text = count > 0 ? items[0] : "";
    for (int i = 1; i < count; i++) {
        text = ss_build_text(b, i == count - 1 ? "%s and %s" : "%s, %s", text, items[i]);
    }
    return text;
}
