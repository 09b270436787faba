/* connector_detail.c - what distances and sizes of connectors have to keep. */
#include <math.h>

#include "assess/requirement.h"
#include "assess/rule.h"
#include "sillspan/connector.h"

#define INCH 0.0254

/* Studs: height and distances over the diameter. */
#define HEIGHT_LEAST 4.0
#define PITCH_LEAST 6.0
#define ACROSS_LEAST 4.0

/* Building steel: diameter over the thickness of the plate. */
#define PLATE_MOST 2.5

#define CHANNEL_PITCH_LEAST (6.0 * INCH)
#define PITCH_MOST (24.0 * INCH)
#define PITCH_MOST_DEEP (48.0 * INCH)
#define DEEP (24.0 * INCH)
#define EDGE_LEAST (1.0 * INCH)
#define COVER_LEAST (2.0 * INCH)

#define SOURCE_RATIO "AASHTO LRFD 6.10.10.1.1 (from memory)"
#define SOURCE_PITCH "AASHTO LRFD 6.10.10.1.2 (from memory)"
#define SOURCE_ACROSS "AASHTO LRFD 6.10.10.1.3 (from memory)"
#define SOURCE_COVER "AASHTO LRFD 6.10.10.1.4 (from memory)"
#define SOURCE_PLATE "AISC 360 I8.1 (building steel, from memory)"
#define SOURCE_OWN "own rule, room for concrete between channels"

double ss_connector_pitch_least(const ss_connectors *connectors) {
    return connectors->kind == SS_CONNECTOR_CHANNELS ? CHANNEL_PITCH_LEAST
                                                     : PITCH_LEAST * connectors->diameter;
}

double ss_connector_pitch_most(const ss_connector_place *place, ss_connector_rule rule) {
    return rule == SS_CONNECTOR_LRFD && place->web_depth >= DEEP * (1.0 - 1e-9) ? PITCH_MOST_DEEP
                                                                                : PITCH_MOST;
}

static void across(const ss_connectors *c, const ss_connector_place *place, ss_requirements *out) {
    const bool stud = c->kind == SS_CONNECTOR_STUDS;
    if (stud && c->per_row > 1) {
        ss_requirement_least(out, "distance of studs across, middle to middle", c->across,
                             ACROSS_LEAST * c->diameter, SS_DIM_SMALL_LENGTH, SOURCE_ACROSS);
    }
    const double row = stud ? (c->per_row - 1) * c->across + c->diameter : c->length;
    if (ss_rule_positive(place->flange)) {
        ss_requirement_least(out, "clear distance to the edge of the steel", 0.5 * (place->flange - row),
                             EDGE_LEAST, SS_DIM_SMALL_LENGTH, SOURCE_ACROSS);
    } else {
        ss_requirement_unknown(out, "clear distance to the edge of the steel",
                               "the width of the steel below is not known", SOURCE_ACROSS);
    }
}

void ss_connector_details(const ss_connectors *connectors, const ss_connector_place *place, double pitch,
                          ss_connector_rule rule, ss_requirements *out) {
    const ss_connectors *const c = connectors;
    const bool stud = c->kind == SS_CONNECTOR_STUDS;
    if (stud) {
        ss_requirement_least(out, "height of a stud over its diameter", c->height / c->diameter, HEIGHT_LEAST,
                             SS_DIM_NUMBER, SOURCE_RATIO);
    }
    if (ss_rule_positive(pitch)) {
        ss_requirement_least(out, stud ? "pitch, least of six diameters" : "pitch of channels, least", pitch,
                             ss_connector_pitch_least(c), SS_DIM_SMALL_LENGTH,
                             stud ? SOURCE_PITCH : SOURCE_OWN);
        ss_requirement_most(out, "pitch, largest", pitch, ss_connector_pitch_most(place, rule),
                            SS_DIM_SMALL_LENGTH, SOURCE_PITCH);
    }
    across(c, place, out);
    if (ss_rule_positive(c->height)) {
        ss_requirement_least(out, "concrete above the connectors",
                             place->haunch + place->thickness - c->height, COVER_LEAST, SS_DIM_SMALL_LENGTH,
                             SOURCE_COVER);
        ss_requirement_least(out, "height of the connectors in the slab", c->height - place->haunch,
                             COVER_LEAST, SS_DIM_SMALL_LENGTH, SOURCE_COVER);
    } else {
        ss_requirement_unknown(out, "concrete above the connectors", "their height is not known",
                               SOURCE_COVER);
    }
    if (!stud || place->over_web) {
        return;
    }
    if (ss_rule_positive(place->plate)) {
        ss_requirement_most(out, "diameter of a stud away from a web, 2.5 times the plate", c->diameter,
                            PLATE_MOST * place->plate, SS_DIM_SMALL_LENGTH, SOURCE_PLATE);
    } else {
        ss_requirement_unknown(out, "diameter of a stud away from a web, 2.5 times the plate",
                               "the thickness of the plate is not known", SOURCE_PLATE);
    }
}
