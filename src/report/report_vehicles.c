/* report_vehicles.c - the vehicles by themselves: tables by class, or one by one with drawing and source. */
#include "report/report_vehicles.h"

#include <string.h>

#include "report/report_parts.h"
#include "report/report_words.h"
#include "sillspan/text.h"
#include "sillspan/version.h"

/* ---- words ---------------------------------------------------------------------------------------- */

static const char *const class_titles[] = {
    [SS_VEHICLE_DESIGN] = "Design loads",          [SS_VEHICLE_LEGAL] = "Legal loads",
    [SS_VEHICLE_EMERGENCY] = "Emergency vehicles", [SS_VEHICLE_USER] = "Trucks of one's own",
    [SS_VEHICLE_PERMIT] = "Permit loads",          [SS_VEHICLE_BUS] = "School buses",
    [SS_VEHICLE_FARM] = "Farm vehicles",           [SS_VEHICLE_FATIGUE] = "For fatigue",
    [SS_VEHICLE_EUROPEAN] = "European load model",
};
enum { CLASSES = (int)(sizeof class_titles / sizeof class_titles[0]) };

static const char *const use_words[] = {
    [SS_USE_ALL] = "for every effect",
    [SS_USE_BENDING] = "for bending and deflection",
    [SS_USE_SHEAR] = "for shear, torsion and reactions",
    [SS_USE_HOGGING] = "for bending over supports and for reactions between two spans",
};

static const char *plain(ss_builder *b, double value, ss_dimension dimension) {
    char number[32];
    ss_text_significant(number, sizeof number, ss_units_from_si(value, dimension, b->report->units), 3);
    return ss_build_text(b, "%s", number);
}

static const char *from_to(ss_builder *b, double least, double most) {
    return most > least
               ? ss_build_text(b, "%s-%s", plain(b, least, SS_DIM_LENGTH), plain(b, most, SS_DIM_LENGTH))
               : plain(b, least, SS_DIM_LENGTH);
}

static const char *axle_loads(ss_builder *b, const ss_vehicle *v) {
    const char *text = "";
    for (int a = 0; a < v->axle_count; a++) {
        text = ss_build_text(b, "%s%s%s", text, a == 0 ? "" : " ", plain(b, v->axle_N[a], SS_DIM_FORCE));
    }
    return text;
}

static const char *spacings(ss_builder *b, const ss_vehicle *v) {
    const char *text = "";
    for (int a = 0; a + 1 < v->axle_count; a++) {
        text = ss_build_text(b, "%s%s%s", text, a == 0 ? "" : " ",
                             from_to(b, v->spacing_m[a], v->spacing_most_m[a]));
    }
    return text;
}

static double least_gauge(const ss_vehicle *v) {
    double least = v->gauge_m;
    for (int a = 0; a < v->axle_count; a++) {
        const double gauge = ss_vehicle_gauge(v, a);
        least = gauge < least ? gauge : least;
    }
    return least;
}

/* ---- for people ----------------------------------------------------------------------------------- */

static const ss_column list_columns[] = {
    {"name", "name", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"gross", "gross", SS_DIM_FORCE, 3, SS_FOR_PEOPLE},
    {"wheelbase", "wheelbase", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"axles", "axles", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"loads", "loads", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"spacings", "distances", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"gauge", "gauge", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

static void list_class(ss_builder *b, const ss_vehicle_choice *choice, ss_vehicle_class kind) {
    int count = 0;
    for (int i = 0; i < choice->count; i++) {
        count += choice->vehicles[i]->kind == kind;
    }
    if (count == 0) {
        return;
    }
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "list",
                                                   .title = class_titles[kind],
                                                   .audience = SS_FOR_PEOPLE,
                                                   .column_count = SS_COLUMN_COUNT(list_columns),
                                                   .columns = list_columns});
    for (int i = 0; i < choice->count; i++) {
        const ss_vehicle *const v = choice->vehicles[i];
        if (v->kind != kind) {
            continue;
        }
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, v->name);
        ss_sheet_value(&sheet, ss_vehicle_gross(v));
        ss_sheet_text(&sheet, from_to(b, ss_vehicle_wheelbase(v), ss_vehicle_wheelbase_most(v)));
        ss_sheet_integer(&sheet, v->axle_count);
        ss_sheet_text(&sheet, axle_loads(b, v));
        ss_sheet_text(&sheet, spacings(b, v));
        ss_sheet_text(&sheet, from_to(b, least_gauge(v), v->gauge_m));
    }
}

static void list_all(ss_builder *b, const ss_vehicle_choice *choice) {
    ss_build_heading(b, SS_FOR_PEOPLE, "Vehicles");
    const char *const length = ss_units_name(SS_DIM_LENGTH, b->report->units);
    ss_build_sentence(b,
                      "Loads in %s and distances in %s, from the front; two numbers with a dash are a "
                      "distance that varies. Lane "
                      "loads, and other loadings that count under the same name, are shown by \"sillspan "
                      "vehicles NAME\".",
                      ss_units_name(SS_DIM_FORCE, b->report->units), length);
    for (int kind = 0; kind < CLASSES; kind++) {
        list_class(b, choice, (ss_vehicle_class)kind);
    }
}

/* "28 ft", or "28 to 44 ft". */
static const char *range_words(ss_builder *b, double least, double most) {
    return most > least
               ? ss_build_text(b, "%s to %s", plain(b, least, SS_DIM_LENGTH), ss_words_length(b, most))
               : ss_words_length(b, least);
}

static const char *const class_names[CLASSES] = {
    [SS_VEHICLE_DESIGN] = "Design load",
    [SS_VEHICLE_LEGAL] = "Legal load",
    [SS_VEHICLE_EMERGENCY] = "Emergency vehicle",
    [SS_VEHICLE_USER] = "Truck of one's own",
    [SS_VEHICLE_PERMIT] = "Permit load",
    [SS_VEHICLE_BUS] = "Bus",
    [SS_VEHICLE_FARM] = "Farm vehicle",
    [SS_VEHICLE_FATIGUE] = "Fatigue truck, for effects only",
    [SS_VEHICLE_EUROPEAN] = "Load model for effects only",
};

static void facts(ss_builder *b, const ss_vehicle *v) {
    const double most = ss_vehicle_wheelbase_most(v);
    ss_build_sentence(b, "%s: %s on %s, %s from the first to the last, wheel lines %s apart.",
                      class_names[v->kind], ss_words_quantity(b, ss_vehicle_gross(v), SS_DIM_FORCE, 4),
                      ss_words_count(b, v->axle_count, "axle", "axles"),
                      range_words(b, ss_vehicle_wheelbase(v), most),
                      range_words(b, least_gauge(v), v->gauge_m));
    if (v->rated_N > 0.0) {
        ss_build_sentence(b, "Its rating in tons is a multiple of %s.",
                          ss_words_quantity(b, v->rated_N, SS_DIM_FORCE, 4));
    }
    if (v->also != NULL) {
        ss_build_sentence(b, "%s count under this name, the worst of them at every place.",
                          ss_words_count(b, ss_vehicle_loadings(v), "loading", "loadings"));
    }
}

/* What a drawing cannot show of a loading. */
static void loading_facts(ss_builder *b, const ss_vehicle *v) {
    if (v->lane_N_m > 0.0 && v->kind != SS_VEHICLE_EUROPEAN) {
        ss_build_sentence(b, v->lane_allowance ? "The dynamic allowance counts for the uniform load too."
                                               : "The dynamic allowance counts for the axles only.");
    }
    if (v->area_N_m2 > 0.0) {
        ss_build_sentence(b, "Besides, %s lie on the whole carriageway, lanes too, wherever that is adverse.",
                          ss_words_quantity(b, v->area_N_m2, SS_DIM_AREA_LOAD, 3));
    }
    if (ss_vehicle_wheelbase_most(v) > ss_vehicle_wheelbase(v)) {
        ss_build_sentence(b, "What varies is drawn at its least.");
    }
}

static void sources(ss_builder *b, const ss_vehicle *vehicle, ss_points *points) {
    ss_point(b, points, "Source: %s.", vehicle->source);
    bool one = true;
    for (const ss_vehicle *v = vehicle->also; v != NULL; v = v->also) {
        one = one && strcmp(v->source, vehicle->also->source) == 0;
    }
    if (one && vehicle->also != NULL && strcmp(vehicle->also->source, vehicle->source) != 0) {
        ss_point(b, points, "Source of the other loadings: %s.", vehicle->also->source);
    }
    for (const ss_vehicle *v = vehicle->also; !one && v != NULL; v = v->also) {
        ss_point(b, points, "Source of \"%s\": %s.", v->name, v->source);
    }
}

static void draw_one(ss_builder *b, const ss_vehicle *vehicle) {
    facts(b, vehicle);
    for (const ss_vehicle *v = vehicle; v != NULL; v = v->also) {
        ss_part_vehicle_drawing(b, v,
                                vehicle->also == NULL
                                    ? ss_build_text(b, "%s from the side, front at the left", v->name)
                                    : ss_build_text(b, "%s, %s", v->name, use_words[v->use]));
        loading_facts(b, v);
    }
    ss_points points = {0};
    sources(b, vehicle, &points);
    if (vehicle->remark != NULL) {
        ss_point(b, &points, "Remark: %s.", vehicle->remark);
    }
    ss_build_points(b, &points);
}

ss_status ss_report_vehicles(const ss_vehicle_choice *choice, ss_unit_system units, ss_report *out,
                             ss_error *error) {
    ss_report report = {.units = units};
    ss_builder b = {.report = &report};
    ss_build_value(&b, SS_FOR_PROGRAMS, "program", "sillspan");
    ss_build_value(&b, SS_FOR_PROGRAMS, "version", SS_VERSION);
    ss_build_value(&b, SS_FOR_PROGRAMS, "command", "vehicles");
    ss_part_units(&b);
    if (!choice->drawn) {
        list_all(&b, choice);
    }
    for (int i = 0; choice->drawn && i < choice->count; i++) {
        ss_build_heading(&b, SS_FOR_PEOPLE, choice->vehicles[i]->name);
        draw_one(&b, choice->vehicles[i]);
    }
    ss_part_vehicle_records(&b, choice);
    if (b.failed) {
        ss_report_destroy(&report);
        *out = (ss_report){0};
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the report");
    }
    *out = report;
    return SS_OK;
}
