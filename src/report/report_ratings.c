/* report_ratings.c - a rating after its answer: members, the governing factors worked, deflection; and every
 * factor for programs. */
#include "report/report_ratings.h"

#include <math.h>

#include "report/report_words.h"

static const ss_column check_columns[] = {
    {"check", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},   {"method", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"level", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},   {"limit", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"edition", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS}, {"decides", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void add_checks(ss_builder *b) {
    const ss_ratings *ratings = b->results->rated;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "checks",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(check_columns),
                                                   .columns = check_columns});
    for (int i = 0; i < ratings->check_count; i++) {
        const ss_check *check = &ratings->checks[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, check->name);
        ss_sheet_text(&sheet, ss_method_name(check->method));
        ss_sheet_text(&sheet, ss_level_name(check->level));
        ss_sheet_text(&sheet, ss_limit_name(check));
        ss_sheet_text(&sheet, check->edition);
        ss_sheet_flag(&sheet, ss_rated_decides(ratings, i));
    }
}

static const ss_column rating_columns[] = {
    {"car", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"floor_beam", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"slab_strip", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"joint", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"side", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"effect", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"sign", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"check", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"method", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"level", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"limit", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"run", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"crossing", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"beside", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"trucks", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"alternative", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rf_linear", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"joint_out", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"local", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"proved", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"arrangements", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"tips", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"tons", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.nominal", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.rule", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.phi", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.condition", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.system", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.capacity", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.dead", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.dc_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.dw_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.minimum_dead", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.live", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.live_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.live_basis", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.presence", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.presence_basis", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.allowance", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"terms.allowance_basis", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    SS_POSITION_COLUMNS("at"),
};

static const char *effect_key(const ss_effect *effect) {
    if (effect->member == SS_MEMBER_JOINT) {
        return effect->kind == SS_EFFECT_MOMENT ? "joint_moment" : "joint_shear";
    }
    return effect->kind == SS_EFFECT_DEFLECTION ? "deflection"
           : effect->kind == SS_EFFECT_MOMENT   ? "moment"
                                                : "web_shear";
}

static void put_member(ss_sheet *sheet, const ss_effect *effect) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    const bool line = effect->member == SS_MEMBER_LINE;
    const bool beam = effect->member == SS_MEMBER_BEAM;
    ss_sheet_text(sheet, bridge->cars[ss_words_car(bridge, effect->member, effect->index)].name);
    ss_sheet_text(sheet, line ? bridge->lines[effect->index].name : NULL);
    const bool strip = ss_words_strip(bridge, effect->member, effect->index);
    ss_sheet_text(sheet, beam && !strip ? bridge->floor_beams[effect->index].name : NULL);
    ss_sheet_text(sheet, strip ? bridge->floor_beams[effect->index].name : NULL);
    ss_sheet_text(sheet, line || beam ? NULL : bridge->joints[effect->index].name);
    ss_sheet_value(sheet, ss_words_x(bridge, effect));
    ss_sheet_value(sheet, beam   ? effect->at
                          : line ? bridge->lines[effect->index].y
                                 : bridge->joints[effect->index].y);
    ss_sheet_text(sheet, effect->before ? "before" : "after");
    ss_sheet_text(sheet, effect_key(effect));
}

static void put_crossing(ss_sheet *sheet, const ss_rating_item *item) {
    const ss_results *results = sheet->builder->results;
    const ss_bridge *bridge = results->bridge;
    const ss_traffic *traffic = &results->placements->traffic[item->traffic];
    const ss_crossing *crossing = ss_words_crossing(results, item->traffic);
    ss_sheet_text(sheet, bridge->vehicles[traffic->vehicle].name);
    ss_sheet_text(sheet, traffic->run < 0 ? NULL : bridge->runs[traffic->run].name);
    ss_sheet_text(sheet, ss_words_crossing_key(results, item->traffic));
    ss_sheet_text(sheet, crossing == NULL || crossing->kind != SS_CROSSING_BESIDE || crossing->beside < 0
                             ? NULL
                             : bridge->vehicles[crossing->beside].name);
    ss_sheet_integer(sheet, item->truck_count);
    ss_sheet_flag(sheet, ss_rated_alternative(results, item->traffic));
}

static void put_terms(ss_sheet *sheet, const ss_rating_item *item, ss_dimension dimension) {
    const ss_method_factors *factors = &item->factors;
    if (isnan(item->nominal.value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_quantity(sheet, item->nominal.value, dimension);
    }
    ss_sheet_text(sheet, item->nominal.rule);
    ss_sheet_value(sheet, factors->phi);
    ss_sheet_value(sheet, factors->condition);
    ss_sheet_value(sheet, factors->system);
    ss_sheet_quantity(sheet, item->capacity, dimension);
    ss_sheet_quantity(sheet, ss_rated_clean(item, item->dead), dimension);
    ss_sheet_value(sheet, factors->dc);
    ss_sheet_value(sheet, factors->dw);
    ss_sheet_flag(sheet, item->minimum_dead);
    ss_sheet_quantity(sheet, ss_rated_clean(item, item->live), dimension);
    ss_sheet_value(sheet, factors->live);
    ss_sheet_text(sheet, factors->live_basis);
    ss_sheet_value(sheet, factors->presence);
    ss_sheet_text(sheet, factors->presence_basis);
    ss_sheet_value(sheet, factors->allowance);
    ss_sheet_text(sheet, factors->allowance_basis);
}

static void put_proof(ss_sheet *sheet, const ss_rating_item *item) {
    if (isnan(item->proved)) {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, item->proved);
        ss_sheet_value(sheet, item->arrangements);
    }
}

static void put_rating(ss_sheet *sheet, const ss_rating_item *item) {
    const ss_results *results = sheet->builder->results;
    const ss_check *check = &results->rated->checks[item->check];
    ss_sheet_row(sheet);
    put_member(sheet, &item->effect);
    ss_sheet_text(sheet, item->most ? "most" : "least");
    ss_sheet_text(sheet, check->name);
    ss_sheet_text(sheet, ss_method_name(check->method));
    ss_sheet_text(sheet, ss_level_name(check->level));
    ss_sheet_text(sheet, ss_limit_name(check));
    put_crossing(sheet, item);
    ss_sheet_value(sheet, item->rf);
    ss_sheet_value(sheet, item->rf_linear);
    ss_sheet_flag(sheet, item->joint_out);
    ss_sheet_flag(sheet, item->local);
    put_proof(sheet, item);
    ss_sheet_flag(sheet, item->tips);
    ss_sheet_value(sheet, item->tons);
    put_terms(sheet, item, ss_words_dimension(results->bridge, &item->effect));
    const bool placed = item->position[0].track >= 0;
    ss_part_position(sheet, placed ? item->traffic : -1, placed ? &item->position[0] : NULL);
}

static const ss_column abreast_columns[] = {
    {"rating", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"direction", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"on_floor_beam", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

/* Where each of the trucks abreast stands; the first one is in its rating too. */
static void add_abreast(ss_builder *b) {
    const ss_results *results = b->results;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "abreast",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(abreast_columns),
                                                   .columns = abreast_columns});
    for (int i = 0; i < results->rated->count; i++) {
        const ss_rating_item *item = &results->rated->items[i];
        for (int k = 0; ss_rated_abreast(item) && item->position[0].track >= 0 && k < item->truck_count;
             k++) {
            const ss_position *position = &item->position[k];
            const ss_track *track = &results->placements->tracks[position->track];
            ss_sheet_row(&sheet);
            ss_sheet_integer(&sheet, i);
            ss_sheet_text(&sheet, results->bridge->vehicles[track->vehicle].name);
            ss_sheet_text(&sheet, ss_words_direction(b, position));
            ss_sheet_value(&sheet, position->x);
            ss_sheet_value(&sheet, track->y);
            ss_sheet_flag(&sheet, position->on_beam);
        }
    }
}

static const ss_column governing_columns[] = {
    {"check", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"run", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"crossing", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"beside", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"trucks", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"alternative", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"tons", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"counts", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rating", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void add_governing(ss_builder *b) {
    const ss_ratings *ratings = b->results->rated;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "governing",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(governing_columns),
                                                   .columns = governing_columns});
    for (int c = 0; c < ratings->check_count; c++) {
        for (int t = 0; t < ratings->traffic_count; t++) {
            const int i = ss_ratings_governing(ratings, c, t);
            if (i < 0) {
                continue;
            }
            ss_sheet_row(&sheet);
            ss_sheet_text(&sheet, ratings->checks[c].name);
            put_crossing(&sheet, &ratings->items[i]);
            ss_sheet_value(&sheet, ratings->items[i].rf);
            ss_sheet_value(&sheet, ratings->items[i].tons);
            ss_sheet_flag(&sheet, ss_rated_counts(b->results, c, t));
            ss_sheet_integer(&sheet, i);
        }
    }
}

void ss_rated_programs(ss_builder *b) {
    const ss_ratings *ratings = b->results->rated;
    ss_table head = {.key = "ratings",
                     .title = "",
                     .audience = SS_FOR_PROGRAMS,
                     .column_count = SS_COLUMN_COUNT(rating_columns),
                     .columns = rating_columns};
    add_checks(b);
    ss_sheet all = ss_build_table(b, &head);
    for (int i = 0; i < ratings->count; i++) {
        put_rating(&all, &ratings->items[i]);
    }
    add_abreast(b);
    add_governing(b);
    head.key = "controlling";
    head.record = true;
    ss_sheet one = ss_build_table(b, &head);
    const int controlling = ss_rated_controlling(b->results);
    if (controlling >= 0) {
        put_rating(&one, &ratings->items[controlling]);
    }
}

void ss_part_ratings(ss_builder *b) {
    ss_method methods[3];
    const int count = ss_rated_methods(b->results->rated, methods);
    if (count > 0) {
        ss_build_heading(b, SS_FOR_PEOPLE, "Member by member");
        ss_rated_members(b);
        ss_rated_joint_out(b);
        ss_build_heading(b, SS_FOR_PEOPLE, "Worked by hand");
        for (int i = 0; i < count; i++) {
            ss_rated_worked(b, methods[i]);
        }
        ss_rated_detail(b);
        ss_rated_deflection(b);
    }
    ss_rated_programs(b);
}
