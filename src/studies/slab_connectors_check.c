/* slab_connectors_check.c - what the connectors of one line have to keep, in the list of a deck's checks. */
#include <math.h>

#include "base/numeric.h"
#include "sillspan/text.h"
#include "studies/slab_connectors_parts.h"

#define SOURCE_COUNT "AASHTO LRFD 6.10.10.4 (from memory)"
#define SOURCE_PARTIAL "commentary to AISC 360 I3.2d, a quarter of the force (building steel, from memory)"
#define SOURCE_FATIGUE "AASHTO LRFD 6.10.10.1.2 (from memory)"

const char *ss_slab_line_name(const ss_bridge *bridge, int line, ss_arena *arena) {
    const ss_line *const own = &bridge->lines[line];
    return ss_arena_printf(arena, "%s of car %s", own->name, bridge->cars[own->car].name);
}

/* "main girder of car north, 0 to 30 ft". */
static const char *where_of(const ss_bridge *bridge, int line, double x0, double x1, ss_arena *arena) {
    char to[64];
    char from[64];
    const double unit = bridge->units == SS_UNITS_SI ? 1.0 : 0.3048;
    const ss_line *const own = &bridge->lines[line];
    return ss_arena_printf(arena, "%s of car %s, %s to %s", own->name, bridge->cars[own->car].name,
                           ss_text_significant(from, sizeof from, x0 / unit, 4),
                           ss_units_format(to, sizeof to, x1, SS_DIM_LENGTH, bridge->units, 4));
}

static bool add(ss_slab_checks *checks, const char *where, const ss_requirement *requirement) {
    return where != NULL && ss_slab_check_add(checks, SS_SLAB_PART_CONNECTORS, where, requirement);
}

/* The closest rows of all segments, for details. */
static double closest(const ss_connector_line *line) {
    double pitch = SS_INFINITY;
    for (int i = 0; i < line->demand.segment_count && line->plan.why == NULL; i++) {
        pitch = ss_min(pitch, line->runs[i].pitch);
    }
    return isinf(pitch) ? line->demand.connectors->pitch : pitch;
}

static bool check_segment(const ss_bridge *bridge, const ss_connector_line *line, int i,
                          ss_slab_checks *checks) {
    const ss_connector_segment *const segment = &line->demand.segments[i];
    const ss_connector_run *const run = &line->runs[i];
    const char *const where = where_of(bridge, line->line, segment->x0, segment->x1, checks->arena);
    const ss_requirement strength = {.name = "connectors in the segment, for strength",
                                     .found = run->count,
                                     .allowed = run->needed < 0 ? SS_NAN : (double)run->needed,
                                     .least = true,
                                     .dimension = SS_DIM_NUMBER,
                                     .source = line->demand.degree < 1.0 ? SOURCE_PARTIAL : SOURCE_COUNT,
                                     .why = run->needed < 0 ? "their number is beyond counting" : NULL};
    const ss_requirement fatigue = {.name = "pitch, for fatigue",
                                    .found = run->pitch,
                                    .allowed = run->by_fatigue,
                                    .dimension = SS_DIM_SMALL_LENGTH,
                                    .source = SOURCE_FATIGUE};
    return add(checks, where, &strength) && (isinf(run->by_fatigue) || add(checks, where, &fatigue));
}

bool ss_slab_connectors_check(const ss_bridge *bridge, ss_connector_line *line, ss_slab_checks *checks) {
    const ss_connector_demand *const demand = &line->demand;
    const char *const where = ss_slab_line_name(bridge, line->line, checks->arena);
    ss_requirements details = {.count = 0};
    if (line->plan.why != NULL) {
        const ss_requirement none = {.name = "layout of the connectors",
                                     .found = SS_NAN,
                                     .allowed = SS_NAN,
                                     .source = SOURCE_COUNT,
                                     .why = line->plan.why};
        if (!add(checks, where, &none)) {
            return false;
        }
    }
    ss_connector_details(demand->connectors, &demand->place, closest(line), demand->rule, &details);
    line->missed = ss_requirements_missed(&details);
    for (int i = 0; i < details.count; i++) {
        if (!add(checks, where, &details.items[i])) {
            return false;
        }
    }
    for (int i = 0; i < demand->segment_count && line->plan.why == NULL; i++) {
        if (!check_segment(bridge, line, i, checks)) {
            return false;
        }
    }
    return true;
}
