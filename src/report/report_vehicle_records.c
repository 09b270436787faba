/* report_vehicle_records.c - vehicles as tables for programs: vehicles, their loadings, the axles of those.
 */
#include "report/report_parts.h"
#include "report/report_vehicles.h"

static const char *const use_keys[] = {"all", "bending", "shear", "hogging"};

int ss_vehicle_loadings(const ss_vehicle *v) {
    int count = 0;
    for (; v != NULL; v = v->also) {
        count++;
    }
    return count;
}

static const ss_column vehicle_columns[] = {
    {"name", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"class", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"gross", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"rated_weight", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"axles", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"wheelbase", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"wheelbase_most", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"gauge", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"loadings", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"source", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"remark", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void vehicle_records(ss_builder *b, const ss_vehicle_choice *choice) {
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "vehicles",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(vehicle_columns),
                                                   .columns = vehicle_columns});
    for (int i = 0; i < choice->count; i++) {
        const ss_vehicle *const v = choice->vehicles[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, v->name);
        ss_sheet_text(&sheet, ss_vehicle_class_key(v->kind));
        ss_sheet_value(&sheet, ss_vehicle_gross(v));
        ss_sheet_value(&sheet, ss_vehicle_rated_weight(v));
        ss_sheet_integer(&sheet, v->axle_count);
        ss_sheet_value(&sheet, ss_vehicle_wheelbase(v));
        ss_sheet_value(&sheet, ss_vehicle_wheelbase_most(v));
        ss_sheet_value(&sheet, v->gauge_m);
        ss_sheet_integer(&sheet, ss_vehicle_loadings(v));
        ss_sheet_text(&sheet, v->source);
        ss_sheet_text(&sheet, v->remark);
    }
}

static const ss_column loading_columns[] = {
    {"vehicle", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"loading", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"name", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"use", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"lane_load", "", SS_DIM_LINE_LOAD, 0, SS_FOR_PROGRAMS},
    {"lane_allowance", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"area_load", "", SS_DIM_AREA_LOAD, 0, SS_FOR_PROGRAMS},
    {"source", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void loading_records(ss_builder *b, const ss_vehicle_choice *choice) {
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "loadings",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(loading_columns),
                                                   .columns = loading_columns});
    for (int i = 0; i < choice->count; i++) {
        int number = 1;
        for (const ss_vehicle *v = choice->vehicles[i]; v != NULL; v = v->also, number++) {
            ss_sheet_row(&sheet);
            ss_sheet_text(&sheet, choice->vehicles[i]->name);
            ss_sheet_integer(&sheet, number);
            ss_sheet_text(&sheet, v->name);
            ss_sheet_text(&sheet, use_keys[v->use]);
            ss_sheet_value(&sheet, v->lane_N_m);
            ss_sheet_flag(&sheet, v->lane_allowance);
            ss_sheet_value(&sheet, v->area_N_m2);
            ss_sheet_text(&sheet, v->source);
        }
    }
}

static const ss_column axle_columns[] = {
    {"vehicle", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"loading", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"axle", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"load", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"spacing", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"spacing_most", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"gauge", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"may_be_left_out", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void axle_records(ss_builder *b, const ss_vehicle_choice *choice) {
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "axles",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(axle_columns),
                                                   .columns = axle_columns});
    for (int i = 0; i < choice->count; i++) {
        int number = 1;
        for (const ss_vehicle *v = choice->vehicles[i]; v != NULL; v = v->also, number++) {
            for (int a = 0; a < v->axle_count; a++) {
                ss_sheet_row(&sheet);
                ss_sheet_text(&sheet, choice->vehicles[i]->name);
                ss_sheet_integer(&sheet, number);
                ss_sheet_integer(&sheet, a + 1);
                ss_sheet_value(&sheet, v->axle_N[a]);
                if (a + 1 < v->axle_count) {
                    const double most = v->spacing_most_m[a];
                    ss_sheet_value(&sheet, v->spacing_m[a]);
                    ss_sheet_value(&sheet, most > v->spacing_m[a] ? most : v->spacing_m[a]);
                } else {
                    ss_sheet_none(&sheet);
                    ss_sheet_none(&sheet);
                }
                ss_sheet_value(&sheet, ss_vehicle_gauge(v, a));
                ss_sheet_flag(&sheet, (v->dropped >> a & 1U) != 0U);
            }
        }
    }
}

void ss_part_vehicle_records(ss_builder *b, const ss_vehicle_choice *choice) {
    vehicle_records(b, choice);
    loading_records(b, choice);
    axle_records(b, choice);
}
