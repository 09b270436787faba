/* fatigue_life.c - how long a detail lasts under the trucks that cross. */
#include "sillspan/fatigue_life.h"

#include <math.h>
#include <stddef.h>

#include "assess/rule.h"

#define DAYS 365.0

/* Growth of traffic beyond which it is rather a slip of percent. */
#define GROWTH_MOST 0.5

/* Years in service beyond which it is rather the year of building. */
#define YEARS_MOST 500.0

/* A range at the threshold is below it, through rounding. */
#define AT_LIMIT (1.0 + 1e-9)

#define SOURCE_LRFD "AASHTO LRFD 6.6.1.2 (from memory)"
#define SOURCE_FACTORS "AASHTO LRFD Table 3.4.1-1 (from memory)"
#define SOURCE_MANUAL "AASHTO MBE 7.2.5 (from memory)"

static ss_fatigue_life none(const char *why) {
    return (ss_fatigue_life){.largest = SS_NAN,
                             .effective = SS_NAN,
                             .cycles = SS_NAN,
                             .total = SS_NAN,
                             .remaining = SS_NAN,
                             .verdict = "not known",
                             .why = why};
}

static const char *fault_of(const ss_fatigue_detail *d) {
    if (isnan(ss_fatigue_constant(d->category))) {
        return "its detail category is not known";
    }
    if (isnan(ss_fatigue_life_factor(d->edition, d->category, d->level))) {
        return "how sure the life is to be is not known";
    }
    if (!ss_rule_not_negative(d->range)) {
        return "its stress range is not known";
    }
    if (!ss_rule_positive(d->cycles_per_truck) || !ss_rule_not_negative(d->adtt)) {
        return "the number of trucks or of cycles of a truck is not known";
    }
    if (!(d->years >= 0.0 && d->years <= YEARS_MOST)) {
        return "its years in service are not known, or more than 500";
    }
    if (!(fabs(d->growth) <= GROWTH_MOST)) {
        return "the growth of traffic is not between -0.5 and 0.5 a year";
    }
    if (!(d->used >= 0.0 && d->used <= 1.0)) {
        return "the share of life used before is not between 0 and 1";
    }
    return NULL;
}

/* Years in which `trucks` cross, from the opening; infinite when traffic dies out before. */
static double years_of(const ss_fatigue_detail *d, double trucks) {
    const double now = trucks / (DAYS * d->adtt);
    if (d->growth == 0.0) {
        return now;
    }
    const double grown = now * d->growth * pow(1.0 + d->growth, d->years - 1.0);
    return grown <= -1.0 ? SS_INFINITY : log1p(grown) / log1p(d->growth);
}

static ss_fatigue_life endless(ss_fatigue_life life, const char *verdict) {
    life.total = life.remaining = SS_INFINITY;
    life.verdict = verdict;
    return life;
}

static ss_fatigue_life finite(const ss_fatigue_detail *d, ss_fatigue_life life, ss_working *working) {
    if (d->adtt == 0.0) {
        return endless(life, "no trucks, no end of its fatigue life");
    }
    life.total = years_of(d, life.cycles / d->cycles_per_truck);
    if (isnan(life.total)) {
        return none("its traffic is out of range");
    }
    ss_working_add(working, "Y", "years from the opening", life.total, SS_DIM_NUMBER, SOURCE_MANUAL);
    if (isinf(life.total)) {
        return endless(life, isfinite(life.cycles) && d->growth < 0.0
                                 ? "its traffic dies out before its fatigue life is used"
                                 : "its stress range is so small that its fatigue life does not end");
    }
    life.remaining = life.total - d->years;
    life.verdict = "its fatigue life ends after the years that remain";
    if (!(life.remaining > 0.0)) {
        life.remaining = 0.0;
        life.verdict = "its fatigue life is used up by this estimate: it may be cracked, look closely";
    }
    ss_working_add(working, "Y - a", life.verdict, life.remaining, SS_DIM_NUMBER, SOURCE_MANUAL);
    return life;
}

ss_fatigue_life ss_fatigue_life_of(const ss_fatigue_detail *detail, ss_working *working) {
    const char *const fault = fault_of(detail);
    if (fault != NULL) {
        return none(fault);
    }
    const double threshold = ss_fatigue_threshold(detail->category);
    ss_fatigue_life life = {
        .largest = ss_fatigue_load_factor(detail->edition, true) * detail->range,
        .effective = ss_fatigue_load_factor(detail->edition, false) * detail->range,
    };
    ss_working_add(working, "gamma_I f", "range of the fatigue truck times the factor of Fatigue I",
                   life.largest, SS_DIM_STRESS, SOURCE_FACTORS);
    ss_working_add(working, "F_TH", "threshold of its category", threshold, SS_DIM_STRESS, SOURCE_LRFD);
    /* A crack that has begun grows below the threshold as well. */
    life.infinite = life.largest <= threshold * AT_LIMIT && detail->used == 0.0;
    const double factor = ss_fatigue_life_factor(detail->edition, detail->category, detail->level);
    const double cube = life.effective * life.effective * life.effective;
    const double borne = factor * ss_fatigue_constant(detail->category) * (1.0 - detail->used);
    life.cycles = borne == 0.0 ? 0.0 : cube > 0.0 ? borne / cube : SS_INFINITY;
    if (life.infinite) {
        return endless(life, "below the threshold: its fatigue life does not end");
    }
    ss_working_add(working, "gamma_II f", "range of the fatigue truck times the factor of Fatigue II",
                   life.effective, SS_DIM_STRESS, SOURCE_FACTORS);
    ss_working_add(working, "R_R", "factor of life for how sure it is to be", factor, SS_DIM_NUMBER,
                   SOURCE_MANUAL);
    ss_working_add(working, "N", "cycles that it can bear, R_R A (1 - used) / (gamma_II f)^3", life.cycles,
                   SS_DIM_NUMBER, SOURCE_LRFD);
    return finite(detail, life, working);
}
