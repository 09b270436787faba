/* vehicle.c - finding a built-in vehicle by name, weight and wheelbase of any. */
#include "sillspan/vehicle.h"

#include <math.h>
#include <stddef.h>

#include "model/vehicle_table.h"
#include "sillspan/text.h"

/* More built-in vehicles than this would not be looked through for the nearest name; a test counts them. */
#define NAMES 64

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

const char *ss_vehicle_nearest(const char *word) {
    const char *names[NAMES];
    int count = 0;
    const ss_vehicle *const vehicles = ss_vehicle_table(&count);
    count = count < NAMES ? count : NAMES;
    for (int i = 0; i < count; i++) {
        names[i] = vehicles[i].name;
    }
    return ss_text_nearest(word, names, count);
}

const char *ss_vehicle_class_name(ss_vehicle_class kind) {
    static const char *const names[] = {"design load",  "legal load",    "emergency vehicle",
                                        "user's own",   "permit load",   "school bus",
                                        "farm vehicle", "fatigue truck", "European load model"};
    return names[kind];
}

const char *ss_vehicle_class_key(ss_vehicle_class kind) {
    static const char *const keys[] = {"design", "legal", "emergency", "own",     "permit",
                                       "bus",    "farm",  "fatigue",   "european"};
    return keys[kind];
}

double ss_vehicle_gauge(const ss_vehicle *vehicle, int axle) {
    const double own = vehicle->axle_gauge_m[axle];
    return own > 0.0 ? own : own < 0.0 ? 0.0 : vehicle->gauge_m;
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

double ss_vehicle_wheelbase_most(const ss_vehicle *vehicle) {
    double wheelbase = 0.0;
    for (int i = 0; i + 1 < vehicle->axle_count; i++) {
        wheelbase += fmax(vehicle->spacing_m[i], vehicle->spacing_most_m[i]);
    }
    return wheelbase;
}

double ss_vehicle_rated_weight(const ss_vehicle *vehicle) {
    return vehicle->rated_N > 0.0 ? vehicle->rated_N : ss_vehicle_gross(vehicle);
}
