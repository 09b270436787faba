/* report_moving.c - the part of a page on which a truck is moved: which trucks, how fine, and what it leaves
 * out.
 */
#include "report/report_parts.h"

#include <math.h>

#include "report/report_words.h"

static double widest(const ss_vehicle *v) {
    double gauge = 0.0;
    for (int a = 0; a < v->axle_count; a++) gauge = fmax(gauge, ss_vehicle_gauge(v, a));
    return gauge;
}

/* A vehicle, and other loadings under its name. */
static void add_truck(ss_builder *b, ss_moving_sheet *sheet, const ss_vehicle *vehicle, bool *varies) {
    const ss_bridge *const bridge = b->results->bridge;
    int number = 0;
    for (const ss_vehicle *v = vehicle; v != NULL; v = v->also) {
        if (v != vehicle && v->axle_count < 2) {
            continue; /* belongs to a lane load */
        }
        number++;
        const double gauge = widest(v);
        ss_moving_truck *const truck = &sheet->trucks[sheet->truck_count++];
        *truck = (ss_moving_truck){.name = vehicle->name, .vehicle = v};
        if (number > 1) {
            truck->name = ss_build_text(b, "%s, loading %d", vehicle->name, number);
        }
        if (!ss_lane_ranges(bridge, 1, &gauge, &truck->low, &truck->high)) {
            truck->low = truck->high = 0.5 * (bridge->roadway_left + bridge->roadway_right);
        }
        for (int a = 0; a < v->axle_count; a++) *varies = *varies || v->spacing_most_m[a] > 0.0;
    }
}

static bool is_run(const ss_bridge *bridge, int vehicle) {
    for (int i = 0; i < bridge->run_count; i++) {
        if (bridge->runs[i].vehicle == vehicle) {
            return true;
        }
    }
    return false;
}

static int count_loadings(const ss_bridge *bridge) {
    int count = 0;
    for (int i = 0; i < bridge->vehicle_count; i++) {
        for (const ss_vehicle *v = &bridge->vehicles[i]; v != NULL; v = v->also) count++;
    }
    return count;
}

static const char *still_words(ss_moving_still still) {
    switch (still) {
    case SS_MOVING_SWEPT: return NULL;
    case SS_MOVING_ALONE: return "There is no joint whose stiffness could be moved.";
    case SS_MOVING_ENDS:
        return "No joint has a stiffness between none and rigid as described, so that there is none to move.";
    case SS_MOVING_SLAB:
        return "The stiffness of joints is not moved: the stages in which the slab was cast belong to the "
               "one "
               "described.";
    }
    return NULL;
}

static ss_moving_sheet *make_sheet(ss_builder *b, bool *varies) {
    const ss_bridge *const bridge = b->results->bridge;
    ss_arena *const arena = &b->report->arena;
    ss_moving_sheet *const sheet = ss_arena_alloc(arena, 1, sizeof *sheet);
    ss_moving_truck *const trucks = ss_arena_alloc(arena, (size_t)count_loadings(bridge) + 1, sizeof *trucks);
    const char **const names = ss_arena_alloc(arena, (size_t)bridge->bearing_count + 1, sizeof *names);
    if (sheet == NULL || trucks == NULL || names == NULL) {
        b->failed = true;
        return NULL;
    }
    *sheet = (ss_moving_sheet){.moving = b->results->moving,
                               .bridge = bridge,
                               .trucks = trucks,
                               .bearings = names,
                               .still = still_words(b->results->moving->still)};
    for (int i = 0; i < bridge->vehicle_count; i++) {
        if (i < bridge->rated_vehicle_count || is_run(bridge, i)) {
            add_truck(b, sheet, &bridge->vehicles[i], varies);
        }
    }
    for (int i = 0; i < bridge->bearing_count; i++) {
        const ss_bearing *const p = &bridge->bearings[i];
        names[i] = ss_build_text(b, "%s, %s, %s, %s", p->name, bridge->lines[p->line].name,
                                 bridge->cars[p->car].name, ss_words_length(b, p->x));
    }
    return sheet;
}

static void say_what(ss_builder *b, const ss_moving *m, bool varies) {
    ss_build_sentence(b, "On a screen, with script on, one truck can be moved over the bridge here.");
    ss_build_sentence(
        b, "What is shown is the live effect of its axles alone: total less dead load, with the bearings' "
           "contact solved anew in each position. No dynamic allowance, no load factor and no lane load "
           "is in it.");
    ss_build_sentence(
        b, "Each wheel is brought to the lines as everywhere in this report, but for wheels over a "
           "floor beam, which are brought to the lines too.");
    if (varies) {
        ss_build_sentence(b, "Distances between axles that vary are at their least.");
    }
    if (m->still == SS_MOVING_SWEPT) {
        ss_build_sentence(
            b, "One factor moves the stiffness of all joints that have one; shims and gaps then stand as "
               "the dead load would leave them with such joints.");
    }
    ss_build_sentence(
        b,
        "Moments are looked at in main and exterior girders at %d sections, between which lines are "
        "drawn straight; influence is kept within 1/%s of the largest.",
        m->section_count, ss_words_decimals(b, 1.0 / m->tolerance, 0));
}

void ss_part_moving(ss_builder *b) {
    const ss_moving *const moving = b->results->moving;
    bool varies = false;
    if (moving == NULL && b->results->not_moving == NULL) {
        return;
    }
    ss_build_screen_heading(b, "A truck on the bridge");
    if (moving == NULL) {
        ss_build_sentence(b, "A truck that can be moved is not drawn: %s.", b->results->not_moving);
        return;
    }
    const ss_moving_sheet *const sheet = make_sheet(b, &varies);
    if (sheet == NULL) {
        return;
    }
    if (sheet->truck_count == 0) {
        ss_build_sentence(b, "There is no truck to be moved.");
        return;
    }
    say_what(b, moving, varies);
    ss_build_moving(b, sheet);
}
