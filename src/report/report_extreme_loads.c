/* report_extreme_loads.c - trucks abreast and uniform loads behind the extremes, for programs. */
#include "report/report_parts.h"
#include "report/report_words.h"

static const ss_column truck_columns[] = {
    {"of", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"row", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"extreme", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"direction", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"on_floor_beam", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static const ss_column lane_columns[] = {
    {"of", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},      {"row", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"extreme", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS}, {"y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"from", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},    {"to", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"load", "", SS_DIM_LINE_LOAD, 0, SS_FOR_PROGRAMS},
};

static const ss_column area_columns[] = {
    {"of", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},      {"row", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"extreme", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS}, {"share", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"load", "", SS_DIM_AREA_LOAD, 0, SS_FOR_PROGRAMS},
};

/* An extreme and the row that tells of it. */
typedef struct told {
    const char *of;
    int row, most;
    const ss_extreme_load *load;
} told;

static void put_key(ss_sheet *sheet, const told *t) {
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, t->of);
    ss_sheet_integer(sheet, t->row);
    ss_sheet_text(sheet, t->most == 1 ? "max" : "min");
}

static void put_trucks(ss_sheet *sheet, const told *t) {
    const ss_results *results = sheet->builder->results;
    for (int i = 0; t->load->truck_count > 1 && i < t->load->truck_count; i++) {
        const ss_position *position = &t->load->position[i];
        const ss_track *track = &results->placements->tracks[position->track];
        put_key(sheet, t);
        ss_sheet_text(sheet, results->bridge->vehicles[track->vehicle].name);
        ss_sheet_text(sheet, ss_words_direction(sheet->builder, position));
        ss_sheet_value(sheet, position->x);
        ss_sheet_value(sheet, track->y);
        ss_sheet_flag(sheet, position->on_beam);
    }
}

static void put_lanes(ss_sheet *sheet, const told *t) {
    const ss_placements *placements = sheet->builder->results->placements;
    for (int i = 0; i < t->load->stretch_count; i++) {
        const ss_lane_stretch *stretch = &t->load->stretch[i];
        const ss_track *track = &placements->tracks[t->load->position[stretch->truck].track];
        put_key(sheet, t);
        ss_sheet_value(sheet, track->y);
        ss_sheet_value(sheet, stretch->from);
        ss_sheet_value(sheet, stretch->to);
        ss_sheet_value(sheet, placements->trains[track->train].lane_N_m);
    }
}

/* It lies on many lines, each with its own stretches: that many numbers would tell nobody anything. */
static void put_areas(ss_sheet *sheet, const told *t) {
    if (t->load->area_count == 0) {
        return;
    }
    put_key(sheet, t);
    ss_sheet_value(sheet, ss_words_area_share(sheet->builder->results, t->load));
    ss_sheet_value(sheet, t->load->area_N_m2);
}

/* Both extremes of every effect that has a row in one of the tables of extremes, in their order. */
static void put_all(ss_sheet *sheet, void (*put)(ss_sheet *sheet, const told *t)) {
    ss_builder *b = sheet->builder;
    const ss_envelope *envelope = b->results->envelope;
    const ss_range *ranges = ss_ranges(b);
    int envelopes = 0, reactions = 0, joints = 0;
    for (int i = 0; ranges != NULL && i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        told t;
        if (effect->member == SS_MEMBER_LINE || effect->member == SS_MEMBER_BEAM) {
            t = (told){.of = "envelopes", .row = envelopes++};
        } else if (effect->member == SS_MEMBER_JOINT) {
            t = (told){.of = "joints", .row = joints++};
        } else if (ss_ranges_find(envelope, effect) == i) {
            t = (told){.of = "reactions", .row = reactions++};
        } else {
            continue; /* a probe of a reaction that has a row already */
        }
        for (t.most = 0; t.most < 2; t.most++) {
            const int traffic = ranges[i].traffic[t.most];
            t.load = traffic < 0 ? NULL : ss_range_extreme(envelope, i, traffic, t.most)->load;
            if (t.load != NULL) {
                put(sheet, &t);
            }
        }
    }
}

void ss_part_extreme_loads(ss_builder *b) {
    if (b->results->rated != NULL) {
        return; /* one truck alone */
    }
    ss_sheet trucks = ss_build_table(b, &(ss_table){.key = "extreme_trucks",
                                                    .title = "",
                                                    .audience = SS_FOR_PROGRAMS,
                                                    .column_count = SS_COLUMN_COUNT(truck_columns),
                                                    .columns = truck_columns});
    put_all(&trucks, put_trucks);
    ss_sheet lanes = ss_build_table(b, &(ss_table){.key = "extreme_lanes",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(lane_columns),
                                                   .columns = lane_columns});
    put_all(&lanes, put_lanes);
    ss_sheet areas = ss_build_table(b, &(ss_table){.key = "extreme_areas",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(area_columns),
                                                   .columns = area_columns});
    put_all(&areas, put_areas);
}
