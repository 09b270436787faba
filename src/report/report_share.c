/* report_share.c - how the cars and their lines share the bending from one truck. */
#include "report/report_parts.h"

#include <math.h>

#include "report/report_words.h"

static const ss_column share_columns[] = {
    {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"run", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"worst_for", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"total", "", SS_DIM_MOMENT, 0, SS_FOR_PROGRAMS},
    {"car", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"share", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    SS_POSITION_COLUMNS("at"),
};

static void put_share(ss_sheet *sheet, const ss_share *share, int car, int line, double value) {
    ss_builder *b = sheet->builder;
    const ss_bridge *bridge = b->results->bridge;
    const ss_traffic *traffic = &b->results->placements->traffic[share->traffic];
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bridge->vehicles[traffic->vehicle].name);
    ss_sheet_text(sheet, traffic->run < 0 ? NULL : bridge->runs[traffic->run].name);
    ss_sheet_text(sheet, bridge->cars[share->car].name);
    ss_sheet_value(sheet, share->x);
    ss_sheet_value(sheet, share->total);
    ss_sheet_text(sheet, bridge->cars[car].name);
    ss_sheet_text(sheet, line < 0 ? NULL : bridge->lines[line].name);
    ss_sheet_value(sheet, value);
    ss_part_position(sheet, share->traffic, &share->position);
}

/* Trucks abreast have no envelope to share. */
static bool is_told(const ss_results *results, const ss_share *share) {
    return ss_words_told(results, share->traffic) && !ss_words_abreast(results, share->traffic);
}

static void add_programs(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    const ss_share_list *shares = b->results->shares;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "load_share",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(share_columns),
                                                   .columns = share_columns});
    for (int i = 0; i < shares->count; i++) {
        const ss_share *share = &shares->items[i];
        if (!is_told(b->results, share)) {
            continue;
        }
        for (int car = 0; car < bridge->car_count; car++) {
            put_share(&sheet, share, car, -1, share->per_car[car]);
        }
        for (int line = 0; line < bridge->line_count; line++) {
            if (!isnan(share->line[line])) {
                put_share(&sheet, share, bridge->lines[line].car, line, share->line[line]);
            }
        }
    }
}

static const ss_column people_columns[] = {
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"car", "worst for car", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
    {"total", "bending in all", SS_DIM_MOMENT, 4, SS_FOR_PEOPLE},
    {"cars", "carried by the cars", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"lines", "of it by the main girder", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

/* Largest share of a main girder of the car. */
static double girder_share(const ss_bridge *bridge, const ss_share *share) {
    const ss_car *car = &bridge->cars[share->car];
    double most = (double)NAN;
    for (int i = car->first_line; i < car->first_line + car->line_count; i++) {
        if (bridge->lines[i].role == SS_ROLE_MAIN && !isnan(share->line[i])) {
            most = fmax(most, share->line[i]);
        }
    }
    return most;
}

static const char *percent(ss_builder *b, double share) {
    return ss_build_text(b, "%s %%", ss_words_decimals(b, 100.0 * share, 0));
}

static void add_people(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    const ss_share_list *shares = b->results->shares;
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){
            .key = "load_share_cars",
            .title = "How the cars share a truck",
            .note = "Each car's part of the truck's bending moment over the whole width at that x, the truck "
                    "standing where the car is bent most.",
            .audience = SS_FOR_PEOPLE,
            .column_count = SS_COLUMN_COUNT(people_columns),
            .columns = people_columns});
    for (int i = 0; i < shares->count; i++) {
        const ss_share *share = &shares->items[i];
        if (!is_told(b->results, share)) {
            continue;
        }
        const char *cars = "";
        for (int car = 0; car < bridge->car_count; car++) {
            cars = ss_build_text(b, "%s%s%s %s", cars, car == 0 ? "" : ", ", bridge->cars[car].name,
                                 percent(b, share->per_car[car]));
        }
        const double girder = girder_share(bridge, share);
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, ss_words_traffic(b, share->traffic));
        ss_sheet_text(&sheet, bridge->cars[share->car].name);
        ss_sheet_value(&sheet, share->x);
        ss_sheet_value(&sheet, share->total);
        ss_sheet_text(&sheet, cars);
        ss_sheet_text(&sheet, isnan(girder) ? NULL : percent(b, girder));
    }
}

void ss_part_share(ss_builder *b) {
    if (b->results->shares == NULL) {
        return;
    }
    if (b->results->shares->count > 0) {
        ss_build_heading(b, SS_FOR_PEOPLE, "Sharing");
        add_people(b);
    }
    add_programs(b);
}
