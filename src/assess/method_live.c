/* method_live.c - live load factors of legal and permit loads by truck traffic, kind of permit and weight. */
#include <math.h>

#include "assess/method_parts.h"
#include "base/numeric.h"

#define KIP 4448.2216152605
#define KIP_PER_FOOT (KIP / 0.3048)

/* Trucks a day at the corners of the tables. */
enum { FEW = 100, SOME = 1000, MANY = 5000 };

/* Factors at 100, 1000 and 5000 trucks a day. */
typedef struct by_traffic {
    double few, some, many;
} by_traffic;

/* MBE tables 6A.4.4.2.3a-1 and b-1 (routine commercial and specialised hauling vehicles), from memory. */
static const by_traffic legal_2018 = {1.30, 1.30, 1.45};
static const by_traffic routine_2011 = {1.40, 1.65, 1.80};
static const by_traffic specialised_2011 = {1.15, 1.40, 1.60};

/* MBE table 6A.4.5.4.2a-1, from memory. 2018: annual permits by gross weight over length, to 2 kip/ft, to 3
 * and above; special ones the same for all traffic. 2011: annual permits to 100 kip and from 150 kip on. */
static const by_traffic annual_2018[] = {{1.30, 1.35, 1.40}, {1.20, 1.25, 1.35}, {1.15, 1.20, 1.30}};
static const by_traffic annual_2011[] = {{1.40, 1.60, 1.80}, {1.10, 1.20, 1.30}};
static const by_traffic single_trip_2018 = {1.20, 1.20, 1.20};
static const by_traffic single_trip_2011 = {1.35, 1.40, 1.50};
static const by_traffic limited_trips_2018 = {1.40, 1.40, 1.40};
static const by_traffic limited_trips_2011 = {1.55, 1.75, 1.85};
#define ESCORTED_2018 1.10
#define ESCORTED_2011 1.15

/* Linear between the corners, and exact at them; unknown traffic (-1) is the heaviest. */
static double at_traffic(const by_traffic *row, int adtt) {
    if (adtt < 0 || adtt >= MANY) {
        return row->many;
    }
    if (adtt >= SOME) {
        return row->some + (row->many - row->some) * (adtt - SOME) / (MANY - SOME);
    }
    if (adtt > FEW) {
        return row->few + (row->some - row->few) * (adtt - FEW) / (SOME - FEW);
    }
    return row->few;
}

/* ---- words ------------------------------------------------------------------------------------------ */

enum { BANDS = 6 };

#define BY_TRAFFIC(what)                                                                                     \
    {                                                                                                        \
        what ", at most 100 trucks a day", what ", between 100 and 1000 trucks a day",                       \
            what ", at most 1000 trucks a day", what ", between 1000 and 5000 trucks a day",                 \
            what ", 5000 trucks a day or more", what ", number of trucks a day unknown"                      \
    }

/* Which of the words fits; `flat`: the factor is the same up to 1000. */
static int band_of(int adtt, bool flat) {
    if (adtt < 0) {
        return 5;
    }
    if (adtt > SOME) {
        return adtt < MANY ? 3 : 4;
    }
    return flat ? 2 : adtt <= FEW ? 0 : 1;
}

static const char *legal_basis(const ss_vehicle *vehicle, bool specialised, int band) {
    static const char *const legal[BANDS] = BY_TRAFFIC("legal load");
    static const char *const hauling[BANDS] = BY_TRAFFIC("specialised hauling vehicle");
    static const char *const design[BANDS] = BY_TRAFFIC("design truck rated as a legal load");
    static const char *const own[BANDS] = BY_TRAFFIC("own truck rated as a legal load");
    static const char *const bus[BANDS] = BY_TRAFFIC("school bus rated as a legal load");
    static const char *const farm[BANDS] = BY_TRAFFIC("implement of husbandry, in full as a legal load");
    switch (vehicle->kind) {
    case SS_VEHICLE_DESIGN: return design[band];
    case SS_VEHICLE_USER: return own[band];
    case SS_VEHICLE_BUS: return bus[band];
    case SS_VEHICLE_FARM: return farm[band];
    default: return specialised ? hauling[band] : legal[band];
    }
}

/* ---- legal loads ------------------------------------------------------------------------------------ */

double ss_method_legal_factor(ss_edition edition, bool specialised, int adtt) {
    if (edition == SS_EDITION_MBE_2018) {
        return at_traffic(&legal_2018, adtt);
    }
    return at_traffic(specialised ? &specialised_2011 : &routine_2011, adtt);
}

/* ---- permits ---------------------------------------------------------------------------------------- */

/* First to last axle with all spacings at their longest: the lighter of the two is the higher factor. */
static double longest_wheelbase(const ss_vehicle *vehicle) {
    double length = 0.0;
    for (int i = 0; i + 1 < vehicle->axle_count; i++) {
        length += ss_max(vehicle->spacing_m[i], vehicle->spacing_most_m[i]);
    }
    return length;
}

static double annual_factor(ss_edition edition, const ss_vehicle *vehicle, int adtt) {
    const double gross = ss_vehicle_gross(vehicle);
    if (edition == SS_EDITION_MBE_2018) {
        /* A single axle has no length to go by and takes the highest. */
        const double length = longest_wheelbase(vehicle);
        const double dense = length > 0.0 ? gross / length / KIP_PER_FOOT : 0.0;
        return at_traffic(&annual_2018[dense <= 2.0 ? 0 : dense <= 3.0 ? 1 : 2], adtt);
    }
    const double heavy = ss_max(0.0, ss_min(1.0, (gross / KIP - 100.0) / 50.0));
    return (1.0 - heavy) * at_traffic(&annual_2011[0], adtt) + heavy * at_traffic(&annual_2011[1], adtt);
}

double ss_method_permit_factor(const ss_bridge *bridge, const ss_vehicle *vehicle, bool escorted,
                               const char **basis) {
    static const char *const annual[BANDS] = BY_TRAFFIC("annual permit");
    static const char *const single[BANDS] = BY_TRAFFIC("permit for a single trip among traffic");
    static const char *const limited[BANDS] = BY_TRAFFIC("permit for fewer than 100 trips among traffic");
    const bool later = bridge->rating.edition == SS_EDITION_MBE_2018;
    const int adtt = bridge->rating.adtt;
    const int band = band_of(adtt, false);
    if (escorted) {
        *basis = "escorted permit, no other traffic on the bridge";
        return later ? ESCORTED_2018 : ESCORTED_2011;
    }
    switch (bridge->rating.permits) {
    case SS_PERMIT_SINGLE_TRIP:
        *basis = later ? "permit for a single trip among traffic" : single[band];
        return at_traffic(later ? &single_trip_2018 : &single_trip_2011, adtt);
    case SS_PERMIT_LIMITED_TRIPS:
        *basis = later ? "permit for fewer than 100 trips among traffic" : limited[band];
        return at_traffic(later ? &limited_trips_2018 : &limited_trips_2011, adtt);
    case SS_PERMIT_ANNUAL: break;
    }
    *basis = annual[band];
    return annual_factor(bridge->rating.edition, vehicle, adtt);
}

/* ---- a check's -------------------------------------------------------------------------------------- */

void ss_method_live(const ss_bridge *bridge, const ss_check_row *row, const ss_vehicle *vehicle,
                    const ss_crossing_facts *crossing, ss_method_factors *out) {
    const ss_rating_settings *const settings = &bridge->rating;
    if (row->live_source != SS_LIVE_FIXED && !isnan(settings->live_factor)) {
        out->live = settings->live_factor;
        out->live_basis = "live load factor given";
        return;
    }
    switch (row->live_source) {
    case SS_LIVE_LEGAL: {
        const bool specialised = ss_vehicle_is_specialised(vehicle);
        out->live = ss_method_legal_factor(settings->edition, specialised, settings->adtt);
        out->live_basis = legal_basis(vehicle, specialised,
                                      band_of(settings->adtt, settings->edition == SS_EDITION_MBE_2018));
        return;
    }
    case SS_LIVE_PERMIT:
        out->live = ss_method_permit_factor(bridge, vehicle, crossing->escorted, &out->live_basis);
        return;
    case SS_LIVE_FIXED:
    case SS_LIVE_SET: break;
    }
    out->live = row->live;
    out->live_basis = row->live_basis;
}
