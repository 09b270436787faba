/* report_answer.c - the first lines of a check or an analysis: what was found, in sentences. */
#include "report/report_parts.h"

#include <math.h>
#include <string.h>

#include "report/report_words.h"

static void answer_check(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_bridge *bridge = results->bridge;
    const char *parts[6];
    int count = 0;
    int beams = 0;
    int joints = 0;
    for (int i = 0; i < bridge->floor_beam_count; i++) {
        beams += !ss_words_strip(bridge, SS_MEMBER_BEAM, i);
    }
    for (int i = 0; i < bridge->joint_count; i++) joints += !bridge->joints[i].slab;
    parts[count++] = ss_words_count(b, bridge->car_count, "car", "cars");
    parts[count++] = ss_words_count(b, bridge->line_count, "line", "lines");
    if (beams > 0) {
        parts[count++] = ss_words_count(b, beams, "floor beam", "floor beams");
    }
    if (joints > 0) {
        parts[count++] = ss_words_count(b, joints, "joint", "joints");
    }
    if (bridge->slab.given) {
        parts[count++] = "a concrete deck";
    }
    parts[count++] = ss_words_count(b, bridge->bearing_count, "bearing point", "bearing points");
    const int warnings = results->diags == NULL ? 0 : results->diags->warnings;
    ss_build_sentence(b, "The description holds together: %s, from %s to %s.", ss_words_join(b, parts, count),
                      ss_words_length(b, bridge->x0), ss_words_length(b, bridge->x1));
    ss_build_sentence(b, "With every bearing touching, no part of the bridge is free to move.");
    if (warnings == 0) {
        ss_build_sentence(b, "Nothing in it looks unlikely.");
    } else {
        ss_build_sentence(b, "Look at the %s below.", ss_words_count(b, warnings, "warning", "warnings"));
    }
    ss_build_sentence(b, "This was a look at the description alone; no truck has been driven over it yet.");
}

/* What is looked for. The dimension keeps joints all along apart from connectors: kip/ft and kip cannot be
 * compared. */
typedef struct wanted {
    ss_effect_kind kind;
    ss_member_kind member;
    ss_dimension dimension;
    bool strip; /* of the concrete deck, which is apart from floor beams */
} wanted;

/* The effect wanted that is largest in size, or -1; *most says which sign. */
static int largest(const ss_results *results, const ss_range *ranges, wanted w, int *most) {
    const ss_envelope *envelope = results->envelope;
    int best = -1;
    double size = 0.0;
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        if (effect->kind != w.kind || effect->member != w.member ||
            ss_words_strip(results->bridge, effect->member, effect->index) != w.strip ||
            ss_words_dimension(results->bridge, effect) != w.dimension) {
            continue;
        }
        for (int m = 0; m < 2; m++) {
            if (fabs(ranges[i].value[m]) > size * (1.0 + 1e-9)) {
                size = fabs(ranges[i].value[m]);
                best = i;
                *most = m;
            }
        }
    }
    return best;
}

/* What dead load does beside a truck's effect of that sign. */
static const char *dead_words(ss_builder *b, double live, double dead, ss_dimension dimension) {
    if (!(fabs(dead) > 1e-3 * fabs(live))) {
        return "dead load adds next to nothing";
    }
    return ss_build_text(b, "dead load %s %s %s", (dead > 0.0) == (live > 0.0) ? "adds" : "takes",
                         ss_words_quantity(b, fabs(dead), dimension, 4),
                         (dead > 0.0) == (live > 0.0) ? "to it" : "off it");
}

static void say_largest(ss_builder *b, ss_points *points, const char *what, wanted w) {
    const ss_envelope *envelope = b->results->envelope;
    const ss_range *ranges = ss_ranges(b);
    int most = 1;
    const int i = largest(b->results, ranges, w, &most);
    if (i < 0) {
        return;
    }
    const ss_effect *effect = &envelope->effects[i];
    const int traffic = ranges[i].traffic[most];
    const double live = ranges[i].value[most];
    const char *place = ss_words_place(b, effect);
    const char *stands =
        w.kind != SS_EFFECT_MOMENT || w.member != SS_MEMBER_LINE
            ? ""
            : ss_build_text(b, " %s", ss_words_stands(b, ss_range_extreme(envelope, i, traffic, most)));
    ss_point(b, points, "%s: %s in %s%s%s, from %s%s; %s.", what,
             ss_words_quantity(b, fabs(live), w.dimension, 4),
             ss_words_the_member(b, w.member, effect->index),
             place[0] == '\0' ? ""
             : w.strip        ? ", "
                              : " ",
             place, ss_words_traffic(b, traffic), stands, dead_words(b, live, ranges[i].dead, w.dimension));
}

static void say_bearings(ss_builder *b, ss_points *points) {
    const ss_results *results = b->results;
    const ss_envelope *envelope = results->envelope;
    const ss_range *ranges = ss_ranges(b);
    int idle = 0;
    int lifted = 0;
    int pulled = 0;
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        /* A probe may ask for a reaction once more. */
        if (effect->kind != SS_EFFECT_REACTION || ss_ranges_find(envelope, effect) != i) {
            continue;
        }
        const double least = ranges[i].dead + ranges[i].value[0];
        const double noise = 1e-9 * fabs(ranges[i].dead);
        if (!results->bridge->bearings[effect->index].contact) {
            pulled += least < -noise;
        } else if (ranges[i].dead <= 0.0) {
            idle++;
        } else {
            lifted += least <= noise;
        }
    }
    if (lifted > 0) {
        ss_point(b, points, "Bearings: %s off under some truck; they are marked below.",
                 ss_words_count(b, lifted, "point lifts", "points lift"));
    }
    if (idle > 0) {
        ss_point(b, points, "Bearings: %s nothing until a truck comes.",
                 ss_words_count(b, idle, "point carries", "points carry"));
    }
    if (pulled > 0) {
        ss_point(b, points,
                 "Bearings: %s pulled upwards by some truck; whatever ties them down must hold that.",
                 ss_words_count(b, pulled, "two-way point is", "two-way points are"));
    }
    if (lifted == 0 && pulled == 0) {
        ss_point(b, points, "Bearings: none that carries dead load lifts off under any truck.");
    }
}

/* The most that one car carries of a truck by itself. */
static void say_share(ss_builder *b, ss_points *points) {
    const ss_results *results = b->results;
    const ss_bridge *bridge = results->bridge;
    if (results->shares == NULL || results->shares->count == 0 || bridge->car_count < 2) {
        return;
    }
    const ss_share *worst = &results->shares->items[0];
    for (int i = 1; i < results->shares->count; i++) {
        const ss_share *share = &results->shares->items[i];
        if (share->per_car[share->car] > worst->per_car[worst->car] + 1e-9) {
            worst = share;
        }
    }
    ss_point(b, points,
             "Sharing: at worst one car carries %s %% of a truck's bending by itself (car %s, %s).",
             ss_words_decimals(b, 100.0 * worst->per_car[worst->car], 0), bridge->cars[worst->car].name,
             ss_words_traffic(b, worst->traffic));
}

static const struct {
    const char *what;
    wanted of;
} largest_of[] = {
    {"Largest bending", {SS_EFFECT_MOMENT, SS_MEMBER_LINE, SS_DIM_MOMENT, false}},
    {"Largest shear", {SS_EFFECT_SHEAR, SS_MEMBER_LINE, SS_DIM_FORCE, false}},
    {"Largest bending of a floor beam", {SS_EFFECT_MOMENT, SS_MEMBER_BEAM, SS_DIM_MOMENT, false}},
    {"Largest bending of the concrete deck across, on one strip",
     {SS_EFFECT_MOMENT, SS_MEMBER_BEAM, SS_DIM_MOMENT, true}},
    {"Largest deflection", {SS_EFFECT_DEFLECTION, SS_MEMBER_LINE, SS_DIM_SMALL_LENGTH, false}},
    {"Hardest worked joint all along", {SS_EFFECT_SHEAR, SS_MEMBER_JOINT, SS_DIM_LINE_LOAD, false}},
    {"Hardest worked connector", {SS_EFFECT_SHEAR, SS_MEMBER_JOINT, SS_DIM_FORCE, false}},
};

static void answer_analysis(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_envelope *envelope = results->envelope;
    ss_points points = {.count = 0};
    if (envelope->traffic_count == 0) {
        ss_build_sentence(b, "No truck is asked for: below is what dead load and the placed loads do.");
        return;
    }
    ss_build_sentence(b,
                      "What %s, without dynamic allowance or load factors. Whether that is safe is a "
                      "question for a rating.",
                      ss_words_analysed(b));
    if (envelope->tips) {
        const ss_track *track = &results->placements->tracks[envelope->tip.track];
        ss_point(b, &points,
                 "%s TIPS THE BRIDGE off its bearings, %s. What stands below leaves such places out.",
                 results->bridge->vehicles[track->vehicle].name, ss_words_position(b, &envelope->tip));
    }
    for (int t = 0; t < results->placements->traffic_count; t++) {
        const ss_traffic *one = &results->placements->traffic[t];
        if (one->track_count == 0 && one->lane_count[0] == 0) {
            ss_point(b, &points, "%s is nowhere on the bridge: the roadway has no room for it.",
                     ss_words_traffic(b, t));
        }
    }
    int left_out = 0;
    for (int t = 0; t < results->placements->traffic_count; t++) left_out += !ss_words_told(results, t);
    if (left_out > 0) {
        ss_point(b, &points, "%s left out, which can do more: --abreast takes them in, and takes longer.",
                 ss_words_count(b, left_out, "crossing with trucks abreast is",
                                "crossings with trucks abreast are"));
    }
    for (int i = 0; i < (int)(sizeof largest_of / sizeof largest_of[0]); i++) {
        say_largest(b, &points, largest_of[i].what, largest_of[i].of);
    }
    say_share(b, &points);
    say_bearings(b, &points);
    ss_build_points(b, &points);
}

void ss_part_answer(ss_builder *b) {
    ss_build_heading(b, SS_FOR_PEOPLE, "The answer");
    if (strcmp(b->results->command, "check") == 0) {
        answer_check(b);
    } else {
        answer_analysis(b);
    }
}
