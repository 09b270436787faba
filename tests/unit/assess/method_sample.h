/* method_sample.h - a bridge as far as rating methods look at it, vehicles of every class, and short ways to
 * ask for checks and factors. */
#ifndef SS_TEST_METHOD_SAMPLE_H
#define SS_TEST_METHOD_SAMPLE_H

#include <string.h>

#include "sillspan/method.h"
#include "support/suite.h"
#include "unit/assess/rated_settings.h"

#define MPH 0.44704
#define BIT(i) (1U << (unsigned)(i))

/* Lines of the sample: the first five are of car 0 (0 to 89 ft), the last of car 1 (0 to 46 ft), which has no
 * floor beam. */
enum { MAIN, EXTERIOR, STRINGER, LONE, SHORT, LINES };

/* Vehicles of the sample. */
enum { DESIGN, OLD_DESIGN, LEGAL, HAULING, OWN, BUS, FARM, FIRE, PERMIT, FATIGUE, MODEL, VEHICLES };

/** Bearings of car 0 at 10, 76 and 86 ft, the last with daylight under it, of car 1 at 3 and 43 ft; floor
 * beams of car 0 at 10, 31 and 76 ft. */
typedef struct method_sample {
    ss_car cars[2];
    ss_line lines[LINES];
    ss_floor_beam beams[3];
    ss_bearing bearings[5];
    ss_vehicle vehicles[VEHICLES];
    ss_bridge bridge;
} method_sample;

static inline void sample_start(method_sample *s) {
    static const double x[5] = {76.0, 86.0, 10.0, 43.0, 3.0};
    static const double beam_x[3] = {10.0, 31.0, 76.0};
    static const double y[LINES] = {4.0, 0.0, 2.5, 5.5, 14.0};
    static const ss_vehicle_class kinds[VEHICLES] = {
        SS_VEHICLE_DESIGN, SS_VEHICLE_DESIGN,  SS_VEHICLE_LEGAL,   SS_VEHICLE_LEGAL,
        SS_VEHICLE_USER,   SS_VEHICLE_BUS,     SS_VEHICLE_FARM,    SS_VEHICLE_EMERGENCY,
        SS_VEHICLE_PERMIT, SS_VEHICLE_FATIGUE, SS_VEHICLE_EUROPEAN};
    static const char *const names[VEHICLES] = {"HL-93", "HS20-44", "Type 3", "SU6",     "milk hauler", "bus",
                                                "cart",  "EV3",     "crane",  "fatigue", "LM1 lane 1"};
    *s = (method_sample){.cars = {{.first_line = 0, .line_count = 4, .first_beam = 0, .beam_count = 3},
                                  {.first_line = 4, .line_count = 1, .first_beam = 3, .beam_count = 0}}};
    for (int i = 0; i < 5; i++) {
        s->bearings[i] = (ss_bearing){.car = i < 3 ? 0 : 1, .x = x[i] * FOOT, .gap = i == 1 ? 0.011 : 0.0};
    }
    for (int i = 0; i < 3; i++) {
        s->beams[i] = (ss_floor_beam){.car = 0, .x = beam_x[i] * FOOT};
    }
    for (int i = 0; i < LINES; i++) {
        s->lines[i] = (ss_line){.car = i == SHORT ? 1 : 0,
                                .role = i == EXTERIOR                ? SS_ROLE_EXTERIOR
                                        : i == STRINGER || i == LONE ? SS_ROLE_STRINGER
                                                                     : SS_ROLE_MAIN,
                                .y = y[i] * FOOT,
                                .x0 = 0.0,
                                .x1 = (i == SHORT ? 46.0 : 89.0) * FOOT};
    }
    for (int i = 0; i < VEHICLES; i++) {
        s->vehicles[i] = (ss_vehicle){.name = names[i], .kind = kinds[i]};
    }
    s->bridge = (ss_bridge){.cars = s->cars,
                            .car_count = 2,
                            .lines = s->lines,
                            .line_count = LINES,
                            .floor_beams = s->beams,
                            .floor_beam_count = 3,
                            .bearings = s->bearings,
                            .bearing_count = 5,
                            .vehicles = s->vehicles,
                            .vehicle_count = VEHICLES,
                            .rated_vehicle_count = VEHICLES,
                            .rating = rated_settings(0.85)};
    s->bridge.rating.single_lane_presence = true;
}

static inline ss_check check_of(ss_method method, ss_level level, ss_limit limit) {
    return (ss_check){.method = method, .level = level, .limit = limit};
}

#define STRENGTH(of, at) check_of(SS_METHOD_##of, SS_LEVEL_##at, SS_LIMIT_STRENGTH)
#define SERVICE(of, at) check_of(SS_METHOD_##of, SS_LEVEL_##at, SS_LIMIT_SERVICE)
#define DEFLECTION() check_of(SS_METHOD_LRFR, SS_LEVEL_LEGAL, SS_LIMIT_DEFLECTION)

/** An effect of a line just after x (ft). */
static inline ss_effect on_line(int line, double x_ft, ss_effect_kind kind) {
    return (ss_effect){.kind = kind, .member = SS_MEMBER_LINE, .index = line, .at = x_ft * FOOT};
}

/** One truck alone, without a restriction. */
static inline ss_crossing_facts alone(void) {
    return (ss_crossing_facts){.lanes = 1, .speed = (double)INFINITY};
}

static inline ss_method_factors factors_of(const method_sample *s, ss_check check, int vehicle,
                                           ss_crossing_facts crossing, ss_effect effect) {
    ss_method_factors out;
    ss_check_factors(&s->bridge, &check, &s->vehicles[vehicle], &crossing, &effect, &out);
    return out;
}

#endif
