/* vehicle.c - finding a built-in vehicle by name, weight and wheelbase of any. */
#include "sillspan/vehicle.h"

#include <stddef.h>

#include "model/vehicle_table.h"

const ss_vehicle *ss_vehicles(int *count) {
    return ss_vehicle_table(count);
}

/* The next letter that counts: case, blanks, hyphens and underscores do not. */
static char next_letter(const char **text) {
    while (**text == ' ' || **text == '\t' || **text == '-' || **text == '_') {
        (*text)++;
    }
    if (**text == '\0') {
        return '\0';
    }
    const char letter = *(*text)++;
    return letter >= 'a' && letter <= 'z' ? (char)(letter - 'a' + 'A') : letter;
}

/* Whether `name` is `full`, or all of it but the "44" of a design truck's year, which people leave out. */
static bool means(const char *name, const char *full) {
    for (;;) {
        const char *const rest = full;
        const char a = next_letter(&name);
        const char b = next_letter(&full);
        if (a == b && a != '\0') {
            continue;
        }
        if (a == b) {
            return true;
        }
        return a == '\0' && rest[0] == '-' && rest[1] == '4' && rest[2] == '4' && rest[3] == '\0';
    }
}

const ss_vehicle *ss_vehicle_find(const char *name) {
    int count = 0;
    const ss_vehicle *const vehicles = ss_vehicle_table(&count);
    for (int i = 0; i < count; i++) {
        if (means(name, vehicles[i].name)) {
            return &vehicles[i];
        }
    }
    return NULL;
}

const char *ss_vehicle_class_name(ss_vehicle_class kind) {
    static const char *const names[] = {"design load",  "legal load",    "emergency vehicle",
                                        "user's own",   "permit load",   "school bus",
                                        "farm vehicle", "fatigue truck", "European load model"};
    return names[kind];
}

double ss_vehicle_gauge(const ss_vehicle *vehicle, int axle) {
    return vehicle->axle_gauge_m[axle] > 0.0 ? vehicle->axle_gauge_m[axle] : vehicle->gauge_m;
}

double ss_vehicle_gross(const ss_vehicle *vehicle) {
    double gross = 0.0;
    for (int i = 0; i < vehicle->axle_count; i++) {
        gross += vehicle->axle_N[i];
    }
    return gross;
}

double ss_vehicle_wheelbase(const ss_vehicle *vehicle) {
    double wheelbase = 0.0;
    for (int i = 0; i + 1 < vehicle->axle_count; i++) {
        wheelbase += vehicle->spacing_m[i];
    }
    return wheelbase;
}
