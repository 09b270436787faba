/* report_probes.c - what was asked for by name: probes under each case and under the trucks, and the cases'
 * reactions. */
#include "report/report_parts.h"

#include <math.h>

#include "report/report_words.h"

static const ss_column probe_columns[] = {
    {"name", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"effect", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"member", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"of", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"side", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"case", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"value", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dead", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"min", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"max", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    SS_POSITION_COLUMNS("at_min"),
    SS_POSITION_COLUMNS("at_max"),
};

static ss_effect probe_effect(const ss_probe *probe) {
    return (ss_effect){.kind = probe->effect,
                       .member = probe->member,
                       .index = probe->index,
                       .at = probe->at,
                       .before = probe->before};
}

static const char *member_name(const ss_bridge *bridge, const ss_probe *probe) {
    switch (probe->member) {
    case SS_MEMBER_LINE: return bridge->lines[probe->index].name;
    case SS_MEMBER_BEAM: return bridge->floor_beams[probe->index].name;
    case SS_MEMBER_JOINT: return bridge->joints[probe->index].name;
    case SS_MEMBER_BEARING: return bridge->bearings[probe->index].name;
    }
    return "";
}

static void put_probe(ss_sheet *sheet, const ss_probe *probe, const char *under) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    const ss_effect effect = probe_effect(probe);
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, probe->name);
    ss_sheet_text(sheet, ss_words_effect_key(probe->effect));
    ss_sheet_text(sheet, ss_words_member_key(probe->member));
    ss_sheet_text(sheet, member_name(bridge, probe));
    ss_sheet_value(sheet, ss_words_x(bridge, &effect));
    if (probe->member == SS_MEMBER_BEAM) {
        ss_sheet_value(sheet, probe->at);
    } else {
        ss_sheet_none(sheet);
    }
    ss_sheet_text(sheet, probe->before ? "before" : "after");
    ss_sheet_text(sheet, under);
}

static void put_case_values(ss_sheet *sheet, int probe) {
    const ss_results *results = sheet->builder->results;
    const ss_effect effect = probe_effect(&results->bridge->probes[probe]);
    const ss_dimension dimension = ss_words_dimension(results->bridge, &effect);
    for (int i = 0; i < results->cases->count; i++) {
        const ss_case_result *one = &results->cases->items[i];
        put_probe(sheet, &results->bridge->probes[probe], results->bridge->cases[one->index].name);
        ss_sheet_quantity(sheet, one->probe[probe], dimension);
    }
}

static void put_truck_values(ss_sheet *sheet, int probe, const ss_range *ranges) {
    const ss_results *results = sheet->builder->results;
    const ss_effect effect = probe_effect(&results->bridge->probes[probe]);
    const ss_dimension dimension = ss_words_dimension(results->bridge, &effect);
    const int index = ss_ranges_find(results->envelope, &effect);
    if (index < 0) {
        return;
    }
    const ss_range *range = &ranges[index];
    put_probe(sheet, &results->bridge->probes[probe], NULL);
    ss_sheet_none(sheet);
    ss_sheet_quantity(sheet, range->dead, dimension);
    ss_sheet_quantity(sheet, range->value[0], dimension);
    ss_sheet_quantity(sheet, range->value[1], dimension);
    for (int most = 0; most < 2; most++) {
        const int traffic = range->traffic[most];
        ss_part_position(sheet, traffic,
                         traffic < 0 ? NULL
                                     : &ss_range_extreme(results->envelope, index, traffic, most)->position);
    }
}

static const ss_column reaction_columns[] = {
    {"case", "under", SS_DIM_NUMBER, 0, SS_FOR_ALL}, {"bearing", "bearing", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},    {"line", "line", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -2, SS_FOR_ALL},    {"reaction", "carries", SS_DIM_FORCE, 5, SS_FOR_ALL},
    {"lifted", "off", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static void add_case_reactions(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_bridge *bridge = results->bridge;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "case_reactions",
                                                   .title = "Bearings under the placed loads",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(reaction_columns),
                                                   .columns = reaction_columns});
    for (int i = 0; i < results->cases->count; i++) {
        const ss_case_result *one = &results->cases->items[i];
        for (int k = 0; k < bridge->bearing_count; k++) {
            const ss_bearing *bearing = &bridge->bearings[k];
            ss_sheet_row(&sheet);
            ss_sheet_text(&sheet, bridge->cases[one->index].name);
            ss_sheet_text(&sheet, bearing->name);
            ss_sheet_text(&sheet, bridge->cars[bearing->car].name);
            ss_sheet_text(&sheet, bridge->lines[bearing->line].name);
            ss_sheet_value(&sheet, bearing->x);
            ss_sheet_value(&sheet, one->reaction[k]);
            ss_sheet_flag(&sheet, one->open[k]);
        }
        if (one->outside > 0.0) {
            ss_build_sentence(b, "Case %s: %s of load found no car under it and is left out.",
                              bridge->cases[one->index].name,
                              ss_words_quantity(b, one->outside, SS_DIM_FORCE, 4));
        }
    }
}

/* ---- for people ---------------------------------------------------------------------------------- */

/* "main, north, 30 ft" */
static const char *where(ss_builder *b, const ss_probe *probe) {
    const ss_bridge *bridge = b->results->bridge;
    const ss_effect effect = probe_effect(probe);
    const char *car = bridge->cars[ss_words_car(bridge, probe->member, probe->index)].name;
    const char *x = ss_words_length(b, ss_words_x(bridge, &effect));
    switch (probe->member) {
    case SS_MEMBER_LINE: return ss_build_text(b, "%s, %s, %s", bridge->lines[probe->index].name, car, x);
    case SS_MEMBER_BEAM:
        return ss_build_text(b, "%s, %s, y %s", bridge->floor_beams[probe->index].name, car,
                             ss_words_length(b, probe->at));
    case SS_MEMBER_JOINT: return ss_build_text(b, "%s, %s", bridge->joints[probe->index].name, x);
    case SS_MEMBER_BEARING:
        return ss_build_text(b, "%s, %s %s, %s", bridge->bearings[probe->index].name, car,
                             bridge->lines[bridge->bearings[probe->index].line].name, x);
    }
    return "";
}

static const ss_column truck_columns[] = {
    {"name", "probe", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"effect", "reads", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"where", "where", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"dead", "dead load", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"min", "truck, least", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
    {"max", "truck, most", SS_DIM_NUMBER, 4, SS_FOR_PEOPLE},
};

static void add_truck_probes(ss_builder *b, const ss_range *ranges) {
    const ss_results *results = b->results;
    ss_sheet sheet =
        ss_build_table(b, &(ss_table){.key = "probes_trucks",
                                      .title = "Probes under the trucks",
                                      .note = "Least and most: what trucks add to the dead load.",
                                      .audience = SS_FOR_PEOPLE,
                                      .column_count = SS_COLUMN_COUNT(truck_columns),
                                      .columns = truck_columns});
    for (int i = 0; i < results->bridge->probe_count; i++) {
        const ss_probe *probe = &results->bridge->probes[i];
        const ss_effect effect = probe_effect(probe);
        const ss_dimension dimension = ss_words_dimension(results->bridge, &effect);
        const int index = ss_ranges_find(results->envelope, &effect);
        if (index < 0) {
            continue;
        }
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, probe->name);
        ss_sheet_text(&sheet, ss_words_effect_key(probe->effect));
        ss_sheet_text(&sheet, where(b, probe));
        ss_sheet_quantity(&sheet, ranges[index].dead, dimension);
        ss_sheet_quantity(&sheet, ranges[index].value[0], dimension);
        ss_sheet_quantity(&sheet, ranges[index].value[1], dimension);
    }
}

static const ss_column case_columns[] = {
    {"case", "under", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},   {"name", "probe", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"effect", "reads", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE}, {"where", "where", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"value", "value", SS_DIM_NUMBER, 5, SS_FOR_PEOPLE},
};

static void add_case_probes(ss_builder *b) {
    const ss_results *results = b->results;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "probes_cases",
                       .title = "Probes under the placed loads",
                       .note = "With all of the case's load, dead load too where the case says so.",
                       .audience = SS_FOR_PEOPLE,
                       .column_count = SS_COLUMN_COUNT(case_columns),
                       .columns = case_columns});
    for (int i = 0; i < results->cases->count; i++) {
        const ss_case_result *one = &results->cases->items[i];
        for (int k = 0; k < results->bridge->probe_count; k++) {
            const ss_probe *probe = &results->bridge->probes[k];
            const ss_effect effect = probe_effect(probe);
            ss_sheet_row(&sheet);
            ss_sheet_text(&sheet, results->bridge->cases[one->index].name);
            ss_sheet_text(&sheet, probe->name);
            ss_sheet_text(&sheet, ss_words_effect_key(probe->effect));
            ss_sheet_text(&sheet, where(b, probe));
            ss_sheet_quantity(&sheet, one->probe[k], ss_words_dimension(results->bridge, &effect));
        }
    }
}

void ss_part_probes(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_range *ranges = ss_ranges(b);
    if (results->bridge->probe_count > 0 || results->bridge->case_count > 0) {
        ss_build_heading(b, SS_FOR_PEOPLE, "Probes and placed loads");
        if (results->rated != NULL) {
            ss_build_sentence(b, "A rating follows what it rates and nothing else: what probes and placed "
                                 "loads read is in the output of `analyze`.");
        }
    }
    if (results->rated != NULL) {
        return;
    }
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "probes",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(probe_columns),
                                                   .columns = probe_columns});
    for (int i = 0; i < results->bridge->probe_count; i++) {
        if (results->cases != NULL) {
            put_case_values(&sheet, i);
        }
        if (ranges != NULL) {
            put_truck_values(&sheet, i, ranges);
        }
    }
    if (ranges != NULL) {
        add_truck_probes(b, ranges);
    }
    if (results->cases != NULL) {
        add_case_probes(b);
        add_case_reactions(b);
    }
}
