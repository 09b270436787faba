/* unknown.c - draws of unknowns, places in their box, and the texts that put a draw into a description. */
#include "sillspan/unknown.h"

#include <string.h>

#include "base/distribution.h"
#include "base/numeric.h"
#include "base/random.h"
#include "sillspan/text.h"

/* ---- draws ---------------------------------------------------------------------------------------- */

/* Whole numbers have parts of equal width around them, those at the ends too. */
static double uniform(const ss_unknown *u, double p) {
    const double spare = u->whole ? 0.5 : 0.0;
    if (u->log) {
        return u->low * pow(u->high / u->low, p);
    }
    return (u->low - spare) + p * ((u->high + spare) - (u->low - spare));
}

static double lognormal(const ss_unknown *u, double p) {
    const double low = u->low > 0.0 ? (log(u->low) - u->log_mean) / u->log_sd : -SS_INFINITY;
    const double high = (log(u->high) - u->log_mean) / u->log_sd;
    return exp(u->log_mean + u->log_sd * ss_normal_quantile_between(p, low, high));
}

static double at_share(const ss_unknown *u, double p) {
    switch (u->kind) {
    case SS_UNKNOWN_UNIFORM: return uniform(u, p);
    case SS_UNKNOWN_NORMAL:
        return u->mean +
               u->sd * ss_normal_quantile_between(p, (u->low - u->mean) / u->sd, (u->high - u->mean) / u->sd);
    case SS_UNKNOWN_LOGNORMAL: return lognormal(u, p);
    case SS_UNKNOWN_TRIANGULAR: return ss_triangular_quantile(p, u->low, u->mode, u->high);
    case SS_UNKNOWN_DISCRETE: return ss_discrete_quantile(p, u->text_count, u->weights);
    }
    return SS_NAN;
}

double ss_unknown_draw(const ss_unknown *unknown, double p) {
    const double value = at_share(unknown, p);
    return ss_clamp(unknown->whole ? floor(value + 0.5) : value, unknown->low, unknown->high);
}

void ss_unknowns_draw(const ss_unknown_set *set, uint64_t seed, int count, int i, double *out, double *work) {
    double *const p = work;
    ss_draw(seed, count, set->count, i, p);
    if (set->lower != NULL) {
        ss_copula(set->count, set->lower, p, work + set->count);
    }
    for (int j = 0; j < set->count; j++) {
        out[j] = ss_unknown_draw(&set->items[j], p[j]);
    }
}

/* ---- the box -------------------------------------------------------------------------------------- */

double ss_unknown_at(const ss_unknown *unknown, double t) {
    const double low = unknown->box_low;
    const double high = unknown->box_high;
    if (t <= 0.0 || t >= 1.0) {
        return t <= 0.0 ? low : high;
    }
    const double value = unknown->box_log ? low * pow(high / low, t) : low + t * (high - low);
    const bool steps = unknown->whole || unknown->kind == SS_UNKNOWN_DISCRETE;
    return ss_clamp(steps ? floor(value + 0.5) : value, low, high);
}

double ss_unknown_place(const ss_unknown *unknown, double value) {
    const double low = unknown->box_low;
    const double high = unknown->box_high;
    const double t = unknown->box_log ? (value > 0.0 ? log(value / low) / log(high / low) : 0.0)
                                      : (value - low) / (high - low);
    return ss_clamp(t, 0.0, 1.0);
}

/* ---- texts ---------------------------------------------------------------------------------------- */

static int index_of(const ss_unknown *u, double value) {
    return (int)ss_clamp(floor(value + 0.5), 0.0, u->text_count - 1.0);
}

const char *ss_unknown_text(const ss_unknown *unknown, double value, char *buffer, size_t size) {
    if (unknown->kind == SS_UNKNOWN_DISCRETE) {
        return unknown->texts[index_of(unknown, value)];
    }
    if (unknown->whole) {
        return ss_text_decimals(buffer, size, value, 0);
    }
    return ss_units_exact(buffer, size, value, unknown->dimension);
}

const char *ss_unknown_words(const ss_unknown *unknown, double value, ss_unit_system units, int significant,
                             char *buffer, size_t size) {
    if (unknown->kind == SS_UNKNOWN_DISCRETE) {
        return unknown->words[index_of(unknown, value)];
    }
    if (unknown->whole) {
        return ss_text_decimals(buffer, size, value, 0);
    }
    return ss_units_format(buffer, size, value, unknown->dimension, units, significant);
}
