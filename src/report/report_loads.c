/* report_loads.c - bearings, joints, dead loads, roadway and trucks as the description gives them. */
#include "report/report_parts.h"

#include <math.h>

#include "report/report_words.h"
#include "sillspan/joint_stiffness.h"

static const ss_column bearing_columns[] = {
    {"bearing", "bearing", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "under", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"pushes_only", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"after_dead_load", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"acts", "acts", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"placed", "placed", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"gap", "gap", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"settlement", "settled", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"spring", "spring", SS_DIM_SPRING, 4, SS_FOR_ALL},
    {"pad_width", "pad", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"rotation", "", SS_DIM_ROTATION_SPRING, 4, SS_FOR_PROGRAMS},
};

static void add_bearings(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "described.bearings",
                       .title = "Bearing points",
                       .note = "gap: daylight under today's dead load. A spring without a limit is rigid.",
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(bearing_columns),
                       .columns = bearing_columns});
    for (int i = 0; i < bridge->bearing_count; i++) {
        const ss_bearing *bearing = &bridge->bearings[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, bearing->name);
        ss_sheet_text(&sheet, bridge->cars[bearing->car].name);
        ss_sheet_text(&sheet, bridge->lines[bearing->line].name);
        ss_sheet_value(&sheet, bearing->x);
        ss_sheet_flag(&sheet, bearing->contact);
        ss_sheet_flag(&sheet, bearing->after);
        ss_sheet_text(&sheet, bearing->contact ? "pushes only" : "both ways");
        ss_sheet_text(&sheet, bearing->after ? "after dead load" : "first");
        ss_sheet_value(&sheet, bearing->gap);
        ss_sheet_value(&sheet, bearing->settlement);
        ss_sheet_value(&sheet, bearing->spring);
        ss_sheet_value(&sheet, bearing->pad_width);
        ss_sheet_value(&sheet, bearing->rotation);
    }
}

static const ss_column joint_columns[] = {
    {"joint", "joint", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"left", "left car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"right", "right car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"kind", "kind", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"from", "from x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"to", "to x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"connectors", "bolted at", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"shear", "", SS_DIM_NUMBER, 4, SS_FOR_PROGRAMS},
    {"rotation", "", SS_DIM_NUMBER, 4, SS_FOR_PROGRAMS},
    {"shear_capacity", "", SS_DIM_NUMBER, 4, SS_FOR_PROGRAMS},
    {"shear_words", "shear stiffness", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"rotation_words", "bending stiffness", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"capacity_words", "carries", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

/* With its unit as words, which a narrow column can break; a rigid joint has no number. */
static const char *stiffness_words(ss_builder *b, double value, ss_dimension dimension) {
    return isinf(value) ? "no limit" : ss_words_quantity(b, value, dimension, 4);
}

/* Stiffness and capacity, for programs and for people. */
static void put_joint_values(ss_sheet *sheet, const ss_joint *joint) {
    ss_builder *b = sheet->builder;
    const bool single = joint->connector_count > 0;
    const ss_dimension shear = single ? SS_DIM_SPRING : SS_DIM_SPRING_PER_LENGTH;
    const ss_dimension rotation = single ? SS_DIM_ROTATION_SPRING : SS_DIM_ROTATION_SPRING_PER_LENGTH;
    const ss_dimension force = single ? SS_DIM_FORCE : SS_DIM_LINE_LOAD;
    const bool known = !isnan(joint->shear_capacity);
    ss_sheet_quantity(sheet, joint->shear, shear);
    ss_sheet_quantity(sheet, joint->rotation, rotation);
    if (known) {
        ss_sheet_quantity(sheet, joint->shear_capacity, force);
    } else {
        ss_sheet_none(sheet);
    }
    ss_sheet_text(sheet, stiffness_words(b, joint->shear, shear));
    ss_sheet_text(sheet, stiffness_words(b, joint->rotation, rotation));
    ss_sheet_text(sheet, known ? ss_words_quantity(b, joint->shear_capacity, force, 4) : NULL);
}

static const char *joints_note(const ss_bridge *bridge) {
    for (int i = 0; i < bridge->joint_count; i++) {
        if (bridge->joints[i].estimated != SS_DETAIL_NONE) {
            return "plate, bolts, concrete, planks: estimated from parts: welds and seats give too, real "
                   "joints "
                   "are softer.";
        }
    }
    return NULL;
}

static void add_joints(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "described.joints",
                                                   .title = "Joints between cars",
                                                   .note = joints_note(bridge),
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(joint_columns),
                                                   .columns = joint_columns});
    for (int i = 0; i < bridge->joint_count; i++) {
        const ss_joint *joint = &bridge->joints[i];
        const bool single = joint->connector_count > 0;
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, joint->name);
        ss_sheet_text(&sheet, bridge->cars[joint->left].name);
        ss_sheet_text(&sheet, bridge->cars[joint->left + 1].name);
        ss_sheet_text(&sheet, ss_joint_kind_name(joint));
        if (single || joint->kind == SS_JOINT_NONE) {
            ss_sheet_none(&sheet);
            ss_sheet_none(&sheet);
        } else {
            ss_sheet_value(&sheet, joint->x0);
            ss_sheet_value(&sheet, joint->x1);
        }
        ss_sheet_text(&sheet, single ? ss_words_count(b, joint->connector_count, "place", "places") : NULL);
        put_joint_values(&sheet, joint);
    }
    for (int i = 0; i < bridge->joint_count; i++) {
        (void)ss_part_joint_estimate(b, &bridge->joints[i]);
    }
}

double ss_part_laid_weight(const ss_mesh *mesh, const ss_dead_load *dead) {
    ss_load load = {0};
    double weight = (double)NAN;
    ss_status status = ss_load_create(mesh, &load, NULL);
    if (status == SS_OK) {
        status = dead->area ? ss_load_area(&load, dead->x0, dead->x1, dead->y0, dead->y1, dead->w, NULL)
                            : ss_load_line(&load, dead->x0, dead->x1, dead->y0, dead->w, NULL);
        if (status == SS_OK) {
            weight = load.total;
        }
    }
    ss_load_destroy(&load);
    return weight;
}

static const ss_column dead_columns[] = {
    {"load", "dead load", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"component", "counts as", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"when", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"when_words", "beside the slab", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"intensity", "weighs", SS_DIM_NUMBER, 4, SS_FOR_ALL},
    {"x0", "from x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"x1", "to x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"y0", "from y", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"y1", "to y", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"total", "in all", SS_DIM_FORCE, 4, SS_FOR_ALL},
};

/* When a dead load is there, where a slab is cast. */
static const char *when_key(ss_dead_when when) {
    switch (when) {
    case SS_DEAD_STAYS: return "stays";
    case SS_DEAD_REMOVED: return "removed";
    case SS_DEAD_WET: return "wet";
    case SS_DEAD_LATER: return "later";
    }
    return "";
}

static const char *when_words(ss_dead_when when) {
    switch (when) {
    case SS_DEAD_STAYS: return "there before, stays";
    case SS_DEAD_REMOVED: return "taken off before it";
    case SS_DEAD_WET: return "comes wet";
    case SS_DEAD_LATER: return "on it, once hard";
    }
    return "";
}

/* The dead load in all, with the slab and as it is today. */
static void say_total(ss_builder *b, double total, double today) {
    const ss_bridge *bridge = b->results->bridge;
    double cars = 0.0;
    for (int i = 0; bridge->self_weight && i < bridge->car_count; i++) {
        cars += bridge->cars[i].weight;
    }
    ss_build_sentence(b, "In all the bearings carry %s of dead load, the cars' steel %s of it%s.",
                      ss_words_quantity(b, total + cars, SS_DIM_FORCE, 4),
                      ss_words_quantity(b, cars, SS_DIM_FORCE, 4),
                      bridge->slab.given ? ss_build_text(b, "; today, before the slab, %s",
                                                         ss_words_quantity(b, today + cars, SS_DIM_FORCE, 4))
                                         : "");
}

static void add_dead_loads(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "described.dead_loads",
                       .title = "Dead load besides the cars' own steel",
                       .note = "DC: stays for good. DW: surfacing, which carries the larger load factor.",
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(dead_columns),
                       .columns = dead_columns});
    double total = 0.0;
    double today = 0.0;
    for (int i = 0; i < bridge->dead_load_count; i++) {
        const ss_dead_load *dead = &bridge->dead_loads[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, dead->name);
        ss_sheet_text(&sheet, dead->component == SS_COMPONENT_DW ? "DW" : "DC");
        ss_sheet_text(&sheet, bridge->slab.given ? when_key(dead->when) : NULL);
        ss_sheet_text(&sheet, bridge->slab.given ? when_words(dead->when) : NULL);
        ss_sheet_quantity(&sheet, dead->w, dead->area ? SS_DIM_AREA_LOAD : SS_DIM_LINE_LOAD);
        ss_sheet_value(&sheet, dead->x0);
        ss_sheet_value(&sheet, dead->x1);
        ss_sheet_value(&sheet, dead->y0);
        ss_sheet_value(&sheet, dead->y1);
        const double weight = ss_part_laid_weight(b->results->mesh, dead);
        if (isnan(weight)) {
            ss_sheet_none(&sheet);
        } else {
            ss_sheet_value(&sheet, weight);
            total += dead->when == SS_DEAD_REMOVED ? 0.0 : weight;
            today += dead->when == SS_DEAD_STAYS || dead->when == SS_DEAD_REMOVED ? weight : 0.0;
        }
    }
    say_total(b, total, today);
    if (!bridge->self_weight) {
        ss_build_sentence(b, "The cars' own weight is switched off.");
    } else if (bridge->cars_first) {
        ss_build_sentence(
            b, "Each car carries its own steel alone; the joints come after, and all else after them.");
    } else {
        ss_build_sentence(b, "All dead load, the cars' own steel too, acts on the joined bridge.");
    }
}

static const ss_column truck_columns[] = {
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"gross", "gross", SS_DIM_FORCE, 4, SS_FOR_ALL},
    {"axles", "axles", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"wheelbase", "", SS_DIM_LENGTH, -2, SS_FOR_PROGRAMS},
    {"wheelbase_words", "wheelbase", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"gauge", "gauge", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"rated", "rated", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"source", "from", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"remark", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

/* "14 ft", or "14 ft to 30 ft" where spacings vary. */
static const char *wheelbase_words(ss_builder *b, const ss_vehicle *vehicle) {
    const double least = ss_vehicle_wheelbase(vehicle);
    const double most = ss_vehicle_wheelbase_most(vehicle);
    return most > least ? ss_build_text(b, "%s to %s", ss_words_length(b, least), ss_words_length(b, most))
                        : ss_words_length(b, least);
}

/* Some vehicles are for effects alone, whatever list they are on. */
static bool is_rated(const ss_bridge *bridge, const ss_vehicle *vehicle) {
    ss_check checks[SS_CHECKS_MAX];
    const int count = ss_checks(bridge, checks);
    for (int i = 0; i < count; i++) {
        if (ss_check_applies(bridge, &checks[i], vehicle)) {
            return true;
        }
    }
    return false;
}

static void add_trucks(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "described.trucks",
                                                   .title = "Trucks",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(truck_columns),
                                                   .columns = truck_columns});
    for (int i = 0; i < bridge->vehicle_count; i++) {
        const ss_vehicle *vehicle = &bridge->vehicles[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, vehicle->name);
        ss_sheet_value(&sheet, ss_vehicle_gross(vehicle));
        ss_sheet_integer(&sheet, vehicle->axle_count);
        ss_sheet_value(&sheet, ss_vehicle_wheelbase(vehicle));
        ss_sheet_text(&sheet, wheelbase_words(b, vehicle));
        ss_sheet_value(&sheet, vehicle->gauge_m);
        ss_sheet_flag(&sheet, i < bridge->rated_vehicle_count && is_rated(bridge, vehicle));
        ss_sheet_text(&sheet, vehicle->source);
        ss_sheet_text(&sheet, vehicle->remark);
    }
}

static const ss_column crossing_columns[] = {
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"crosses", "crosses", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"lanes", "lanes loaded", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"beside", "in the other lanes", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"y", "its middle at y", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"alternative", "a restriction", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static void add_crossings(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    bool varied = false;
    for (int i = 0; i < bridge->crossing_count; i++) {
        varied = varied || bridge->crossings[i].kind != SS_CROSSING_ALONE;
    }
    if (bridge->crossing_count == 0) {
        return;
    }
    if (!varied) { /* a table of the same word says no more */
        ss_build_sentence(b, "Each truck that is rated crosses alone, anywhere on the roadway.");
    }
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "described.crossings",
                                                   .title = "Crossings",
                                                   .audience = varied ? SS_FOR_ALL : SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(crossing_columns),
                                                   .columns = crossing_columns});
    for (int i = 0; i < bridge->crossing_count; i++) {
        const ss_crossing *crossing = &bridge->crossings[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, bridge->vehicles[crossing->vehicle].name);
        ss_sheet_text(&sheet, ss_crossing_name(crossing->kind));
        ss_sheet_integer(&sheet, crossing->lanes);
        ss_sheet_text(&sheet, ss_words_beside(b, bridge, crossing));
        if (crossing->kind == SS_CROSSING_LINE) {
            ss_sheet_value(&sheet, crossing->y);
        } else if (crossing->kind == SS_CROSSING_CENTRED) {
            ss_sheet_value(&sheet, 0.5 * (bridge->roadway_left + bridge->roadway_right));
        } else {
            ss_sheet_none(&sheet);
        }
        ss_sheet_flag(&sheet, crossing->alternative);
    }
}

/* How many lanes there are, why, and how close trucks come in them. */
static void add_lanes(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    const ss_lane_rule *lanes = &bridge->lanes;
    if (lanes->count == 1) {
        ss_build_sentence(b, "It has one lane (%s).", lanes->basis);
    } else if (lanes->count > 1) {
        ss_build_sentence(
            b, "It has %d lanes of %s (%s); wheel lines of trucks abreast keep %s apart%s.", lanes->count,
            ss_words_length(b, lanes->width), lanes->basis, ss_words_length(b, lanes->between_wheels),
            lanes->fixed ? ", and a truck whose half of the roadway is too narrow for that is centred in "
                           "it"
                         : "");
    }
    for (int i = 0; i < bridge->crossing_count; i++) {
        const ss_lane_rule *notional = ss_lane_rule_of(bridge, bridge->crossings[i].vehicle);
        if (notional != lanes) {
            ss_build_sentence(b, "For European load models it has %s of %s (%s).",
                              ss_words_count(b, notional->count, "notional lane", "notional lanes"),
                              ss_words_length(b, notional->width), notional->basis);
            return;
        }
    }
}

void ss_part_loads(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    add_bearings(b);
    add_joints(b);
    add_dead_loads(b);
    if (bridge->vehicle_count > 0) {
        ss_build_sentence(
            b, "The roadway lies between y = %s and y = %s; a wheel keeps %s from the curb, and the deck %s.",
            ss_words_length(b, bridge->roadway_left), ss_words_length(b, bridge->roadway_right),
            ss_words_length(b, bridge->wheel_to_curb),
            bridge->deck.along ? "brings wheels to the floor beams" : "brings wheels to the lines");
        add_lanes(b);
    }
    add_trucks(b);
    add_crossings(b);
}
