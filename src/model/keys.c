/* keys.c - the key table: every key of a description, its dimension, default, limits and the first stage that
 * it affects. */
#include "sillspan/description.h"

#include <string.h>

#define NUM SS_DIM_NUMBER
#define LEN SS_DIM_LENGTH
#define SML SS_DIM_SMALL_LENGTH

/* Rows for keys that take no quantity. */
#define GROUP(path, req, stage, help)                                                                        \
    { path, SS_KEY_GROUP, NUM, req, NULL, NULL, NULL, NULL, NULL, NULL, SS_STAGE_##stage, help }
#define LIST(path, req, stage, help)                                                                         \
    { path, SS_KEY_LIST, NUM, req, NULL, NULL, NULL, NULL, NULL, NULL, SS_STAGE_##stage, help }
#define WORD(path, kind, req, fallback, choices, stage, help)                                                \
    { path, SS_KEY_##kind, NUM, req, fallback, choices, NULL, NULL, NULL, NULL, SS_STAGE_##stage, help }
/* Rows for whole numbers. */
#define INT(path, req, fallback, least, most, lo, hi, stage, help)                                           \
    { path, SS_KEY_INTEGER, NUM, req, fallback, NULL, least, most, lo, hi, SS_STAGE_##stage, help }
/* Rows for quantities: limits (fault) and likely limits (warning). */
#define QTY(path, dim, req, fallback, least, most, lo, hi, stage, help)                                      \
    { path, SS_KEY_QUANTITY, dim, req, fallback, NULL, least, most, lo, hi, SS_STAGE_##stage, help }
#define QTYS(path, dim, req, fallback, least, most, lo, hi, stage, help)                                     \
    { path, SS_KEY_QUANTITIES, dim, req, fallback, NULL, least, most, lo, hi, SS_STAGE_##stage, help }
#define EITHER(path, dim, req, fallback, choices, least, most, lo, hi, stage, help)                          \
    {                                                                                                        \
        path, SS_KEY_CHOICE_OR_QUANTITY, dim, req, fallback, choices, least, most, lo, hi, SS_STAGE_##stage, \
            help                                                                                             \
    }

static const ss_key table[] = {
    WORD("title", TEXT, true, NULL, NULL, PRINT, "What the bridge is called in every output."),
    WORD("notes", TEXT, false, NULL, NULL, PRINT, "Free text kept with the results."),
    WORD("units", CHOICE, false, "us", "us|si", PRINT,
         "Units of the output; every value below carries its own."),

    LIST("steels", true, MESH,
         "Steels, each by its yield stress, its grade or the year in which it was rolled."),
    WORD("steels[].name", NAME, true, NULL, NULL, PRINT, "Name used by cars and lines."),
    QTY("steels[].fy", SS_DIM_STRESS, false, NULL, "> 0 ksi", NULL, "24 ksi", "110 ksi", RATING,
        "Yield stress, where it is known."),
    WORD("steels[].grade", TEXT, false, NULL, NULL, RATING, "A standard grade, such as A36."),
    INT("steels[].year_built", false, NULL, "1850", "2100", "1890", "2030", RATING,
        "Year in which the car was built, where the steel is unknown."),
    QTYS("steels[].coupons", SS_DIM_STRESS, false, NULL, "> 0 ksi", NULL, "24 ksi", "110 ksi", RATING,
         "Yield stresses of three coupons or more, all of this steel; the characteristic value is taken."),
    QTY("steels[].E", SS_DIM_STRESS, false, "29000 ksi", "1000 ksi", "1e5 ksi", "27000 ksi", "31000 ksi",
        MESH, "Modulus of elasticity."),
    QTY("steels[].G", SS_DIM_STRESS, false, NULL, "300 ksi", "1e5 ksi", "10000 ksi", "12500 ksi", MESH,
        "Shear modulus; E/2.6 when not given."),
    QTY("steels[].density", SS_DIM_UNIT_WEIGHT, false, "490 lb/ft3", "0 lb/ft3", "1e5 lb/ft3", "470 lb/ft3",
        "510 lb/ft3", PERMANENT, "Unit weight."),

    LIST("sections", true, MESH, "Cross-sections, from tape measurements or from given properties."),
    WORD("sections[].name", NAME, true, NULL, NULL, PRINT, "Name used by lines and floor beams."),
    WORD("sections[].shape", CHOICE, true, NULL, "box|channel|plates|given", MESH,
         "How the section is described."),
    QTY("sections[].depth", SML, false, NULL, "> 0 in", NULL, "2 in", "60 in", MESH,
        "Overall depth (box, channel; for the record with given properties)."),
    GROUP("sections[].top", false, MESH, "Top plate of a box."),
    QTY("sections[].top.width", SML, true, NULL, "> 0 in", NULL, "4 in", "48 in", MESH, "Width."),
    QTY("sections[].top.thickness", SML, true, NULL, "> 0 in", NULL, "1/8 in", "3 in", MESH, "Thickness."),
    GROUP("sections[].bottom", false, MESH, "Bottom plate of a box."),
    QTY("sections[].bottom.width", SML, true, NULL, "> 0 in", NULL, "4 in", "48 in", MESH, "Width."),
    QTY("sections[].bottom.thickness", SML, true, NULL, "> 0 in", NULL, "1/8 in", "3 in", MESH, "Thickness."),
    GROUP("sections[].webs", false, MESH, "The two webs of a box."),
    QTY("sections[].webs.thickness", SML, true, NULL, "> 0 in", NULL, "1/8 in", "2 in", MESH,
        "Thickness of each web."),
    QTY("sections[].webs.clear_between", SML, true, NULL, "> 0 in", NULL, "4 in", "36 in", MESH,
        "Clear distance between the webs."),
    GROUP("sections[].flange", false, MESH, "Each flange of a channel."),
    QTY("sections[].flange.width", SML, true, NULL, "> 0 in", NULL, "1 in", "12 in", MESH,
        "Width, from the back of the web to the toe."),
    QTY("sections[].flange.thickness", SML, true, NULL, "> 0 in", NULL, "1/8 in", "3 in", MESH,
        "Mean thickness."),
    QTY("sections[].web", SML, false, NULL, "> 0 in", NULL, "1/8 in", "2 in", MESH,
        "Web thickness of a channel."),
    LIST("sections[].plates", false, MESH, "Rectangles of a section made of plates."),
    WORD("sections[].plates[].name", NAME, true, NULL, NULL, PRINT, "Name of the plate."),
    QTY("sections[].plates[].width", SML, true, NULL, "> 0 in", NULL, "1/8 in", "60 in", MESH,
        "Extent across."),
    QTY("sections[].plates[].height", SML, true, NULL, "> 0 in", NULL, "1/8 in", "60 in", MESH,
        "Extent upward."),
    QTY("sections[].plates[].y", SML, false, "0 in", NULL, NULL, NULL, NULL, MESH,
        "Middle of the plate, across, from any line of reference."),
    QTY("sections[].plates[].z", SML, true, NULL, "0 in", NULL, NULL, NULL, MESH,
        "Lower edge of the plate above the lowest fibre."),
    WORD("sections[].torsion", CHOICE, false, NULL, "closed|open|battened", MESH,
         "How the section resists twist; a box must say, plates and channels count as open."),
    GROUP("sections[].battens", false, MESH, "Batten plates that close the open side of a battened box."),
    QTY("sections[].battens.width", SML, true, NULL, "> 0 in", NULL, "2 in", "36 in", MESH,
        "Width of a batten along the car."),
    QTY("sections[].battens.thickness", SML, true, NULL, "> 0 in", NULL, "1/8 in", "2 in", MESH,
        "Thickness."),
    QTY("sections[].battens.spacing", SML, true, NULL, "> 0 in", NULL, "6 in", "96 in", MESH,
        "Spacing along the car, centre to centre."),
    WORD("sections[].battens.side", CHOICE, false, "bottom", "top|bottom", MESH,
         "Which flange of the box is battened instead of continuous."),
    QTY("sections[].A", SS_DIM_AREA, false, NULL, "> 0 in2", NULL, NULL, NULL, MESH,
        "Area; overrides what is computed."),
    QTY("sections[].I", SS_DIM_SECOND_MOMENT, false, NULL, "1e-3 in4", "1e10 in4", NULL, NULL, MESH,
        "Second moment of area for vertical bending; overrides."),
    QTY("sections[].J", SS_DIM_SECOND_MOMENT, false, NULL, "0 in4", "1e10 in4", NULL, NULL, MESH,
        "St Venant torsion constant; overrides."),
    QTY("sections[].shear_area", SS_DIM_AREA, false, NULL, "1e-3 in2", "1e6 in2", NULL, NULL, MESH,
        "Area effective in vertical shear, for stiffness and for web capacity; overrides."),
    QTY("sections[].S", SS_DIM_SECTION_MODULUS, false, NULL, "> 0 in3", NULL, NULL, NULL, RATING,
        "Elastic section modulus of both faces; overrides."),
    QTY("sections[].S_top", SS_DIM_SECTION_MODULUS, false, NULL, "> 0 in3", NULL, NULL, NULL, RATING,
        "Elastic section modulus of the top face; overrides."),
    QTY("sections[].S_bottom", SS_DIM_SECTION_MODULUS, false, NULL, "> 0 in3", NULL, NULL, NULL, RATING,
        "Elastic section modulus of the bottom face; overrides."),
    QTY("sections[].Z", SS_DIM_SECTION_MODULUS, false, NULL, "> 0 in3", NULL, NULL, NULL, RATING,
        "Plastic section modulus; overrides."),
    QTY("sections[].weight", SS_DIM_LINE_LOAD, false, NULL, "0 lb/ft", "1e6 lb/ft", NULL, NULL, PERMANENT,
        "Weight per length; overrides area times density."),

    LIST("cars", true, MESH, "Car types, each described once."),
    WORD("cars[].name", NAME, true, NULL, NULL, PRINT, "Name of the car type."),
    QTY("cars[].length", LEN, true, NULL, "> 0 ft", "1000 ft", "15 ft", "100 ft", MESH,
        "Length over the end sills, or as trimmed."),
    QTY("cars[].width", LEN, true, NULL, "> 0 ft", "1000 ft", "6 ft", "12 ft", MESH,
        "Width over the edges, where joints act."),
    WORD("cars[].steel", REFERENCE, true, NULL, "a name in steels", RATING, "Steel of the car."),
    QTYS("cars[].wheel_trucks", LEN, false, NULL, "0 ft", NULL, NULL, NULL, MESH,
         "The two points, from the near end, where the wheel trucks carried the car."),
    QTY("cars[].detail_weight", NUM, false, "0.10", "0", "1", "0", "0.4", PERMANENT,
        "Brackets, welds and fittings as a share of the weight of lines and floor beams."),
    QTY("cars[].weight", SS_DIM_FORCE, false, NULL, "> 0 kip", "1e6 kip", "8 kip", "80 kip", PERMANENT,
        "Weight of the stripped car, where it is known; spread as the steel is."),
    LIST("cars[].lines", true, MESH, "Longitudinal members."),
    WORD("cars[].lines[].name", NAME, true, NULL, NULL, PRINT,
         "Name of the line, or of a set of equal lines (then numbered 1, 2 ... from the left)."),
    WORD("cars[].lines[].role", CHOICE, true, NULL, "main girder|exterior girder|stringer", RATING,
         "What the member is."),
    QTYS("cars[].lines[].y", LEN, true, NULL, NULL, NULL, NULL, NULL, MESH,
         "Offset right of the car's middle; a list makes a set of equal lines."),
    WORD("cars[].lines[].section", REFERENCE, true, NULL, "a name in sections", MESH, "Its section."),
    WORD("cars[].lines[].steel", REFERENCE, false, NULL, "a name in steels", RATING,
         "Its steel, where it differs from the car's."),
    QTY("cars[].lines[].from", LEN, false, NULL, "0 ft", NULL, NULL, NULL, MESH,
        "Where it starts, from the near end of the car; the end itself when not given."),
    QTY("cars[].lines[].to", LEN, false, NULL, "> 0 ft", NULL, NULL, NULL, MESH,
        "Where it stops; the far end when not given."),
    QTY("cars[].lines[].unbraced", LEN, false, NULL, "0 ft", "200 ft", NULL, "30 ft", RATING,
        "Distance over which its compressed flange is held by nothing sideways; by floor beams, bearings and "
        "a "
        "deck that holds it when not given."),
    QTY("cars[].lines[].Cb", NUM, false, NULL, "1", "3", NULL, "2.3", RATING,
        "Factor for the shape of bending between these places; 1, which is on the safe side, when not "
        "given."),
    QTY("cars[].lines[].stiffeners", LEN, false, NULL, "> 0 ft", NULL, "6 in", "12 ft", RATING,
        "Distance between transverse stiffeners of its webs, where they have such."),
    WORD("cars[].lines[].in_use", FLAG, false, "true", NULL, MESH,
         "False leaves the line, or all of its set, out without deleting it."),
    LIST("cars[].lines[].depth_along", false, MESH,
         "Depth where it was taped; straight between, level beyond."),
    QTY("cars[].lines[].depth_along[].x", LEN, true, NULL, "0 ft", NULL, NULL, NULL, MESH,
        "Distance from the near end of the car."),
    QTY("cars[].lines[].depth_along[].depth", SML, true, NULL, "> 0 in", NULL, "3 in", "60 in", MESH,
        "Overall depth there."),
    LIST("cars[].floor_beams", false, MESH, "Transverse members."),
    WORD("cars[].floor_beams[].name", NAME, true, NULL, NULL, PRINT,
         "Name of the set (numbered 1, 2 ... from the near end)."),
    WORD("cars[].floor_beams[].section", REFERENCE, true, NULL, "a name in sections", MESH,
         "Section over the whole width unless `across` says otherwise."),
    QTYS("cars[].floor_beams[].x", LEN, true, NULL, "0 ft", NULL, NULL, NULL, MESH,
         "Stations from the near end of the car."),
    WORD("cars[].floor_beams[].steel", REFERENCE, false, NULL, "a name in steels", RATING,
         "Its steel, where it differs from the car's."),
    WORD(
        "cars[].floor_beams[].hinged_at", REFERENCES, false, NULL, "names of lines of the same car", MESH,
        "Lines where the beam's end connection passes shear but no bending; it is continuous at all others."),
    WORD("cars[].floor_beams[].in_use", FLAG, false, "true", NULL, MESH,
         "False leaves the whole set out without deleting it."),
    LIST("cars[].floor_beams[].across", false, MESH, "Parts of the width that have another section."),
    QTY("cars[].floor_beams[].across[].from", LEN, true, NULL, NULL, NULL, NULL, NULL, MESH,
        "Left end of the part, from the car's middle."),
    QTY("cars[].floor_beams[].across[].to", LEN, true, NULL, NULL, NULL, NULL, NULL, MESH,
        "Right end of the part."),
    WORD("cars[].floor_beams[].across[].section", REFERENCE, true, NULL, "a name in sections", MESH,
         "Section of the part."),

#include "model/keys_deck.inc"

    GROUP("bridge", true, MESH, "The bridge itself."),
    LIST("bridge.cars", true, MESH, "The cars abreast, from left to right looking along the bridge."),
    WORD("bridge.cars[].name", NAME, true, NULL, NULL, PRINT, "Name of this car."),
    WORD("bridge.cars[].car", REFERENCE, true, NULL, "a name in cars", MESH, "Its type."),
    QTY("bridge.cars[].gap", SML, false, NULL, "0 in", NULL, NULL, "24 in", MESH,
        "Clear distance to the car on its left; due for every car but the first."),
    QTY("bridge.cars[].x", LEN, false, "0 ft", "-1000 ft", "1000 ft", NULL, NULL, MESH,
        "Where its near end lies along the bridge."),
    WORD("bridge.cars[].reversed", FLAG, false, "false", NULL, MESH,
         "Turned end for end, so that its near end lies far and its left side right."),
    WORD("bridge.cars[].steel", REFERENCE, false, NULL, "a name in steels", RATING,
         "Steel of this car, where it differs from the type's."),
    QTY("bridge.cars[].weight", SS_DIM_FORCE, false, NULL, "> 0 kip", "1e6 kip", "8 kip", "80 kip", PERMANENT,
        "Weight of this car, where it differs."),
    WORD("bridge.cars[].in_use", FLAG, false, "true", NULL, MESH,
         "False leaves the car out without deleting it."),
    LIST("bridge.cars[].lines", false, MESH, "What differs in this car, by the name of the line."),
    WORD("bridge.cars[].lines[].name", REFERENCE, true, NULL, "a line of the car type", MESH,
         "The line (all of its set)."),
    WORD("bridge.cars[].lines[].section", REFERENCE, false, NULL, "a name in sections", MESH,
         "Its section here."),
    WORD("bridge.cars[].lines[].steel", REFERENCE, false, NULL, "a name in steels", RATING,
         "Its steel here."),
    WORD("bridge.cars[].lines[].missing", FLAG, false, NULL, NULL, MESH, "The line is not there."),

    LIST("bridge.joints", false, SPRINGS,
         "What ties each car to the next; a pair that is not named is not tied."),
    WORD("bridge.joints[].name", NAME, true, NULL, NULL, PRINT, "Name of the joint."),
    WORD("bridge.joints[].between", REFERENCES, true, NULL, "two cars that lie beside each other", SPRINGS,
         "The two cars."),
    WORD("bridge.joints[].kind", CHOICE, true, NULL, "none|hinged|rigid|springs|plate|bolts|concrete|planks",
         SPRINGS,
         "None; hinged (no step, free to fold); rigid (no step, no fold); springs (stiffness given); plate, "
         "bolts, concrete, planks (stiffness estimated from the group of that name)."),
    QTY("bridge.joints[].scale", NUM, false, NULL, "0", "1e9", NULL, NULL, SPRINGS,
        "Share of the stiffness, estimated or given, that is really there: multiplies shear and rotation; 1 "
        "when not given."),
    QTY("bridge.joints[].from", LEN, false, NULL, NULL, NULL, NULL, NULL, SPRINGS,
        "Where it starts along the bridge; where both cars begin when not given."),
    QTY("bridge.joints[].to", LEN, false, NULL, NULL, NULL, NULL, NULL, SPRINGS,
        "Where it stops; where the first of both cars ends when not given."),
    QTY("bridge.joints[].shear", SS_DIM_SPRING_PER_LENGTH, false, NULL, "0 kip/in/in", NULL, NULL,
        "10000 kip/in/in", SPRINGS, "Vertical stiffness per length (springs)."),
    QTY("bridge.joints[].rotation", SS_DIM_ROTATION_SPRING_PER_LENGTH, false, NULL, "0 kip-in/rad/in", NULL,
        NULL, NULL, SPRINGS, "Rotational stiffness per length about the joint (springs); 0 when not given."),
    QTYS("bridge.joints[].connectors", LEN, false, NULL, NULL, NULL, NULL, NULL, SPRINGS,
         "Stations of discrete connectors, instead of a joint all along."),
    QTY("bridge.joints[].shear_each", SS_DIM_SPRING, false, NULL, "0 kip/in", NULL, NULL, NULL, SPRINGS,
        "Vertical stiffness of one connector (springs)."),
    QTY("bridge.joints[].rotation_each", SS_DIM_ROTATION_SPRING, false, NULL, "0 kip-in/rad", NULL, NULL,
        NULL, SPRINGS, "Rotational stiffness of one connector (springs); 0 when not given."),
    QTY("bridge.joints[].shear_capacity", SS_DIM_LINE_LOAD, false, NULL, "> 0 kip/ft", NULL, NULL, NULL,
        RATING, "Factored shear per length that the joint can carry."),
    QTY("bridge.joints[].shear_capacity_each", SS_DIM_FORCE, false, NULL, "> 0 kip", NULL, NULL, NULL, RATING,
        "Factored shear that one connector can carry."),

    QTY("bridge.joints[].moment_capacity", SS_DIM_MOMENT_PER_LENGTH, false, NULL, "> 0 kip-ft/ft", NULL, NULL,
        NULL, RATING, "Factored bending that the joint can carry, per length."),
    QTY("bridge.joints[].moment_capacity_each", SS_DIM_MOMENT, false, NULL, "> 0 kip-ft", NULL, NULL, NULL,
        RATING, "Factored bending that one connector can carry."),
#include "model/keys_joints.inc"
    WORD("bridge.joints[].in_use", FLAG, false, "true", NULL, SPRINGS,
         "False leaves the joint out without deleting it."),

    LIST("bridge.bearings", true, SPRINGS, "What the cars rest on."),
    WORD("bridge.bearings[].name", NAME, true, NULL, NULL, PRINT, "Name of this set of bearings."),
    WORD("bridge.bearings[].at", CHOICE, false, NULL,
         "wheel trucks|ends|near end|far end|near wheel truck|far wheel truck", SPRINGS,
         "Named places of each car, instead of x."),
    QTYS("bridge.bearings[].x", LEN, false, NULL, NULL, NULL, NULL, NULL, SPRINGS,
         "Stations along the bridge, instead of named places."),
    WORD("bridge.bearings[].under", REFERENCES, true, NULL, "names of lines", SPRINGS,
         "Lines that rest on them."),
    WORD("bridge.bearings[].cars", REFERENCES, false, NULL, "names in bridge.cars", SPRINGS,
         "Only under these cars; under every car when not given."),
    WORD("bridge.bearings[].action", CHOICE, false, "contact", "contact|two-way", SPRINGS,
         "Contact pushes only; two-way also holds down."),
    QTY("bridge.bearings[].gap", SML, false, "0 in", "0 in", "100 in", NULL, "3 in", PERMANENT,
        "Daylight under the present dead load."),
    WORD("bridge.bearings[].placed", CHOICE, false, "first", "first|after dead load", PERMANENT,
         "First: the cars were set down on it. After dead load: slipped in later, touching, carrying nothing "
         "of the dead load."),
    QTY("bridge.bearings[].settlement", SML, false, "0 in", "-100 in", "100 in", "-6 in", "6 in", PERMANENT,
        "How far it has sunk since, positive down."),
    EITHER("bridge.bearings[].spring", SS_DIM_SPRING, false, "rigid", "rigid", "> 0 kip/in", NULL, "1 kip/in",
           NULL, SPRINGS, "Stiffness of one bearing point."),
    QTY("bridge.bearings[].pad_width", SML, false, "0 in", "0 in", NULL, NULL, "48 in", SPRINGS,
        "Width of the pad across the car; 0 is a point that holds no twist."),
    QTY("bridge.bearings[].length", SML, false, NULL, "> 0 in", NULL, "1 in", "48 in", RATING,
        "Length of bearing along the car; with it the webs above are checked."),
    WORD("bridge.bearings[].stiffened", FLAG, false, "false", NULL, RATING,
         "Whether the webs above have bearing stiffeners; then they are not checked."),
    EITHER("bridge.bearings[].rotation", SS_DIM_ROTATION_SPRING, false, "free", "free|fixed", "0 kip-in/rad",
           NULL, NULL, NULL, SPRINGS, "Restraint of the line's slope, as by an end cast in concrete."),
    WORD("bridge.bearings[].in_use", FLAG, false, "true", NULL, SPRINGS,
         "False leaves the set out without deleting it."),

    WORD("bridge.deck", REFERENCE, false, NULL, "a name in decks", PERMANENT,
         "The deck; without one, wheels still come to the lines beside them and no deck weighs."),
    GROUP("bridge.surfacing", false, PERMANENT, "Gravel, asphalt or other surfacing over the roadway."),
    WORD("bridge.surfacing.kind", TEXT, false, "surfacing", NULL, PRINT, "What it is."),
    QTY("bridge.surfacing.thickness", SML, true, NULL, "> 0 in", NULL, NULL, "24 in", PERMANENT,
        "Thickness."),
    QTY("bridge.surfacing.density", SS_DIM_UNIT_WEIGHT, true, NULL, "> 0 lb/ft3", "1e5 lb/ft3", "60 lb/ft3",
        "170 lb/ft3", PERMANENT, "Unit weight."),
    WORD("bridge.surfacing.measured", FLAG, false, "false", NULL, RATING,
         "Thickness measured in the field, which lowers its load factor."),
    WORD("bridge.surfacing.in_use", FLAG, false, "true", NULL, PERMANENT,
         "False leaves it out without deleting it."),
    GROUP("bridge.rails", false, PERMANENT, "Curbs and rails."),
    QTY("bridge.rails.weight", SS_DIM_LINE_LOAD, true, NULL, "0 lb/ft", "1e6 lb/ft", NULL, "600 lb/ft",
        PERMANENT, "Weight per length of each."),
    QTYS("bridge.rails.y", LEN, true, NULL, NULL, NULL, NULL, NULL, PERMANENT,
         "Where they stand, from the left edge of the first car."),
    WORD("bridge.rails.in_use", FLAG, false, "true", NULL, PERMANENT,
         "False leaves them out without deleting them."),
    LIST("bridge.dead_loads", false, PERMANENT, "Other dead load, along a line or over an area."),
    WORD("bridge.dead_loads[].name", NAME, true, NULL, NULL, PRINT, "What it is."),
    WORD("bridge.dead_loads[].component", CHOICE, false, "DC", "DC|DW", RATING,
         "DC: structure and attachments; DW: wearing surface and utilities."),
    QTY("bridge.dead_loads[].line", SS_DIM_LINE_LOAD, false, NULL, "-1e6 lb/ft", "1e6 lb/ft", NULL, NULL,
        PERMANENT, "Weight per length, along y."),
    QTY("bridge.dead_loads[].area", SS_DIM_AREA_LOAD, false, NULL, "-1e6 psf", "1e6 psf", NULL, NULL,
        PERMANENT, "Weight per area, between y and y_to."),
    QTY("bridge.dead_loads[].y", LEN, true, NULL, NULL, NULL, NULL, NULL, PERMANENT,
        "Where, from the left edge of the first car."),
    QTY("bridge.dead_loads[].y_to", LEN, false, NULL, NULL, NULL, NULL, NULL, PERMANENT,
        "Right edge of an area."),
    QTY("bridge.dead_loads[].from", LEN, false, NULL, NULL, NULL, NULL, NULL, PERMANENT,
        "Where it starts along the bridge; the whole bridge when not given."),
    QTY("bridge.dead_loads[].to", LEN, false, NULL, NULL, NULL, NULL, NULL, PERMANENT, "Where it stops."),
    WORD("bridge.dead_loads[].in_use", FLAG, false, "true", NULL, PERMANENT,
         "False leaves the load out without deleting it."),
    GROUP("bridge.roadway", true, PLACEMENTS, "Where wheels can be."),
    QTY("bridge.roadway.from", LEN, true, NULL, NULL, NULL, NULL, NULL, PLACEMENTS,
        "Face of the left curb, from the left edge of the first car."),
    QTY("bridge.roadway.to", LEN, true, NULL, NULL, NULL, NULL, NULL, PLACEMENTS, "Face of the right curb."),
    QTY("bridge.roadway.wheel_to_curb", LEN, false, "2 ft", "0 ft", NULL, NULL, "4 ft", PLACEMENTS,
        "Least distance from the middle of a wheel to a curb."),
    INT("bridge.roadway.lanes", false, NULL, "1", "6", "1", "4", PLACEMENTS,
        "Number of lanes; by the clear roadway when not given."),
    QTY("bridge.roadway.lane_width", LEN, false, NULL, "> 0 ft", "100 ft", "8 ft", "15 ft", PLACEMENTS,
        "Width of a lane; by the clear roadway when not given."),
    QTY("bridge.roadway.between_wheels", LEN, false, "4 ft", "0 ft", "100 ft", "2 ft", "6 ft", PLACEMENTS,
        "Least distance between the wheel lines of trucks beside each other."),
    WORD("bridge.stages", CHOICE, false, "cars first", "cars first|together", PERMANENT,
         "Cars first: each car carries its own weight before the joints exist. Together: the joints carry "
         "too."),
    WORD("bridge.self_weight", FLAG, false, "true", NULL, PERMANENT,
         "Whether the cars weigh anything; false for pure statics."),

#include "model/keys_slab.inc"

#include "model/keys_sizing.inc"

#include "model/keys_findings.inc"

#include "model/keys_loads.inc"

    GROUP("analysis", false, MESH, "How finely the bridge is cut."),
    QTY("analysis.station_spacing", LEN, false, "1 ft", "1 in", "20 ft", "3 in", "5 ft", MESH,
        "Largest distance between stations; half of it where a depth tapers."),

    GROUP("rating", false, RATING, "What is rated and how."),
    WORD("rating.methods", REFERENCES, false, NULL, "\"LRFR\", \"LFR\", \"ASR\"", RATING,
         "Rating methods (docs/methods.md); LRFR when not given."),
    WORD("rating.levels", REFERENCES, false, NULL,
         "\"inventory\", \"operating\", \"legal\", \"emergency\", \"permit\"", RATING,
         "Levels; all that the methods have and the trucks ask for when not given."),
    WORD("rating.edition", CHOICE, false, "MBE 2018", "MBE 2018|MBE 2011", RATING,
         "Edition of the manual whose live load factors LRFR takes for legal and permit loads."),
    WORD("rating.sequence", CHOICE, false, "all", "all|manual", RATING,
         "All: every rating counts. Manual: legal loads count only where the design load falls short of 1; "
         "emergency vehicles always do."),
    WORD("rating.service", FLAG, false, "true", NULL, RATING,
         "Whether the stress of the steel under service load is rated too: Service II of LRFR, overload of "
         "LFR."),
    QTY("rating.deflection_limit", NUM, false, "800", "0", "1000000", NULL, NULL, RATING,
        "Live-load deflection is held to the span over this, on overhangs over 0.375 times this; 0: no "
        "check."),
    WORD("rating.single_lane_presence", FLAG, false, "true", NULL, RATING,
         "Whether one loaded lane counts 1.20-fold in LRFR; false where the single truck is known."),
    QTY("rating.speed", SS_DIM_SPEED, false, NULL, "> 0 mph", "100 mph", NULL, NULL, RATING,
        "Posted speed; at 10 mph or less there is no dynamic allowance, but for the design load and "
        "emergency vehicles."),
    WORD("rating.permits", CHOICE, false, "annual", "annual|single trip|limited trips", RATING,
         "What permits are for: any number of trips in a year, one trip, or fewer than a hundred."),
    WORD("rating.trucks", REFERENCES, false, NULL, "built-in trucks or names in trucks", PLACEMENTS,
         "Trucks that are rated; HL-93, H15-44, HS20-44, Type 3, EV2 and EV3 when not given. EV2 and EV3 are "
         "always among them, HL-93 where `levels` names the design load's."),
    WORD("rating.crossings", REFERENCES, false, NULL, "`alone`, `beside`, `centred`, `signed line`",
         PLACEMENTS,
         "How trucks cross: alone anywhere on the roadway, beside others, along its middle, or along "
         "`signed_line`; alone and, with two lanes or more, beside when not given."),
    WORD("rating.beside", REFERENCE, false, "Type 3", "a built-in truck or a name in trucks", PLACEMENTS,
         "The ordinary truck in the other lanes when an emergency vehicle is not alone."),
    WORD("rating.permits_escorted", FLAG, false, "false", NULL, PLACEMENTS,
         "Whether permit vehicles cross alone, with other traffic held back."),
    QTY("rating.signed_line", LEN, false, NULL, "-1000 ft", "1000 ft", NULL, NULL, PLACEMENTS,
        "Where the middle of a truck goes that keeps to a signed line, from the left edge of the first car."),
    EITHER("rating.condition", NUM, false, NULL, "good|fair|poor", "0.5", "1", NULL, NULL, RATING,
           "Condition of the superstructure, or its factor."),
    QTY("rating.system", NUM, false, NULL, "0.5", "1", "0.85", "1", RATING, "System factor for redundancy."),
    WORD("rating.primary_by", CHOICE, false, "I", "I|S|A|depth", RATING,
         "By what an exterior girder is compared with the main girder of its car: second moment of area, "
         "section modulus, area or depth."),
    QTY("rating.primary_share", NUM, false, "0.15", "0", "1", "0.05", "0.5", RATING,
        "Share of the main girder beyond which an exterior girder is a primary member."),
    WORD("rating.release_secondary", FLAG, false, "false", NULL, RATING,
         "Whether secondary members (small exterior girders, stringers, floor beams) are left out of what "
         "governs; they are rated all the same."),
    INT("rating.adtt", false, NULL, "0", NULL, NULL, "5000", RATING,
        "Average daily truck traffic in one direction; counts as unknown when not given."),
    WORD("rating.approach", CHOICE, false, "rough", "smooth|minor bumps|rough", RATING,
         "Riding surface at the approaches and on the deck, which sets the dynamic allowance."),
    QTY("rating.dynamic_allowance", NUM, false, NULL, "0", "1", "0", "0.5", RATING,
        "Dynamic load allowance or impact for every member, method and truck, instead of by rule."),
    QTY("rating.live_factor", NUM, false, NULL, "> 0", NULL, "1", "2", RATING,
        "Live load factor of LRFR legal, emergency and permit loads (Strength), instead of by rule."),
    QTY("rating.dc_factor", NUM, false, "1.25", "0", NULL, "0.9", "1.5", RATING,
        "Load factor of structure and attachments (LRFR, Strength)."),
    QTY("rating.dw_factor", NUM, false, NULL, "0", NULL, "0.65", "2", RATING,
        "Load factor of wearing surface (LRFR, Strength); 1.50, or 1.25 when its thickness was measured."),
    QTY("rating.phi_flexure", NUM, false, "1.0", "> 0", "1", NULL, NULL, RATING,
        "Resistance factor for bending."),
    QTY("rating.phi_shear", NUM, false, "1.0", "> 0", "1", NULL, NULL, RATING,
        "Resistance factor for shear."),

#include "model/keys_fatigue.inc"
#include "model/keys_unknowns.inc"

    LIST("variants", false, PRINT,
         "Changes to all the above, each looked at by itself; an item holds any of the keys of this table."),
    WORD("variants[].name", NAME, true, NULL, NULL, PRINT, "What it is called in the results."),
};

const ss_key *ss_keys(int *count) {
    *count = (int)(sizeof table / sizeof table[0]);
    return table;
}

const ss_key *ss_key_find(const char *path) {
    int count = 0;
    const ss_key *keys = ss_keys(&count);
    for (int i = 0; i < count; i++)
        if (strcmp(keys[i].path, path) == 0) return &keys[i];
    return NULL;
}
