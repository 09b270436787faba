/* spring_sweep_at.c - responses at one stiffness of the swept springs, how they change with it, the poles. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "mechanics/spring_sweep_parts.h"

size_t ss_spring_sweep_work(const ss_spring_sweep *sweep) {
    return ((size_t)sweep->mode_count + (size_t)sweep->reading_count) * SS_TILE + (size_t)sweep->mode_count +
           1;
}

int ss_spring_sweep_poles(const ss_spring_sweep *sweep, const double **poles) {
    *poles = sweep->pole;
    return sweep->swept_count;
}

static ss_status refuse(const ss_spring_sweep *s, double k, ss_error *error) {
    if (!(k >= 0.0)) {
        return ss_error_set(error, SS_ERROR_INTERNAL, "springs of negative stiffness");
    }
    if (k == 0.0 && s->none.status != SS_OK) {
        return ss_error_set(error, s->none.status, "%s", s->none.message);
    }
    return SS_OK;
}

/* values += a (weight h) in readings of one kind: of swept springs' forces or others; weights by mode. */
static void add_modes(const ss_spring_sweep *s, const double *weight, bool of_swept, double *values,
                      double *work) {
    const size_t m = (size_t)s->mode_count, loads = (size_t)s->load_count;
    const int first_reading = of_swept ? s->other_count : 0;
    const int count = of_swept ? s->reading_count - s->other_count : s->other_count;
    const double *const a = s->a + (size_t)first_reading * m;
    double *const x = work, *const y = work + m * SS_TILE;
    for (int tile = 0; tile < ss_sweep_tiles(s->load_count) && count > 0; tile++) {
        const double *const h = s->h + (size_t)tile * m * SS_TILE;
        const size_t first = (size_t)tile * SS_TILE;
        const size_t lanes = loads - first < SS_TILE ? loads - first : SS_TILE;
        for (size_t j = 0; j < m; j++) {
            for (size_t lane = 0; lane < SS_TILE; lane++) {
                x[j * SS_TILE + lane] = -weight[j] * h[j * SS_TILE + lane];
            }
        }
        memset(y, 0, (size_t)count * SS_TILE * sizeof *y);
        ss_tile_subtract(count, s->mode_count, a, x, y);
        for (int i = 0; i < count; i++) {
            double *const to = &values[(size_t)s->order[first_reading + i] * loads + first];
            for (size_t lane = 0; lane < lanes; lane++) to[lane] += y[(size_t)i * SS_TILE + lane];
        }
    }
}

/* values += t times what the modes do that cannot move. */
static void add_nulls(const ss_spring_sweep *s, double t, double *values) {
    const size_t loads = (size_t)s->load_count, n = (size_t)s->null_count;
    for (size_t j = 0; j < n; j++) {
        for (size_t l = 0; l < loads; l++) {
            const double moved = s->null_h[j * loads + l];
            for (size_t i = 0; i < (size_t)s->reading_count && moved != 0.0; i++) {
                values[i * loads + l] += s->null_a[i * n + j] * t * moved;
            }
        }
    }
}

/* 1 - l + t l, over t where t is above 1, so that nothing overflows and the rigid end is no exception. */
static double whole(double l, double t) {
    return t > 1.0 ? (1.0 - l) / t + l : 1.0 - l + t * l;
}

ss_status ss_spring_sweep_at(const ss_spring_sweep *sweep, double k, double *values, double *work,
                             ss_error *error) {
    const ss_spring_sweep *s = sweep;
    const size_t size = (size_t)s->reading_count * (size_t)s->load_count;
    const ss_status status = refuse(s, k, error);
    if (status != SS_OK) {
        return status;
    }
    if (isinf(k) && s->rigid != NULL) {
        memcpy(values, s->rigid, size * sizeof *values);
        return SS_OK;
    }
    const double t = k / s->k_ref;
    double *const weight = work, *const rest = work + s->mode_count;
    memcpy(values, t > 1.0 ? s->base : s->none_base, size * sizeof *values);
    for (int j = 0; j < s->mode_count; j++) {
        const double l = s->l[j];
        weight[j] = (t > 1.0 ? 1.0 / t : l < 1.0 ? -t * (l / (1.0 - l)) : 1.0) / whole(l, t);
    }
    add_modes(s, weight, false, values, rest);
    for (int j = 0; j < s->mode_count; j++) weight[j] = (t > 1.0 ? 1.0 : t) / whole(s->l[j], t);
    add_modes(s, weight, true, values, rest);
    add_nulls(s, t, values);
    return SS_OK;
}

ss_status ss_spring_sweep_slope(const ss_spring_sweep *sweep, double k, double *slopes, double *work,
                                ss_error *error) {
    const ss_spring_sweep *s = sweep;
    const ss_status status = refuse(s, k, error);
    if (status != SS_OK) {
        return status;
    }
    memset(slopes, 0, (size_t)s->reading_count * (size_t)s->load_count * sizeof *slopes);
    if (k == 0.0 || isinf(k)) {
        return SS_OK;
    }
    const double t = k / s->k_ref;
    double *const weight = work, *const rest = work + s->mode_count;
    for (int swept = 0; swept < 2; swept++) {
        for (int j = 0; j < s->mode_count; j++) {
            const double l = s->l[j], all = whole(l, t);
            weight[j] = (swept ? 1.0 - l : -l) * (t > 1.0 ? 1.0 / t : t) / (all * all);
        }
        add_modes(s, weight, swept == 1, slopes, rest);
    }
    add_nulls(s, t, slopes);
    return SS_OK;
}

ss_status ss_spring_sweep_clean(const ss_grillage *grillage, int count, const int *springs, double *S,
                                ss_error *error) {
    const size_t n = (size_t)count;
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j < n; j++) {
            S[i * n + j] /= sqrt(grillage->natural[springs[i]] * grillage->natural[springs[j]]);
        }
    }
    const ss_status status = ss_small_clean(count, S, error);
    for (size_t i = 0; i < n && status == SS_OK; i++) {
        for (size_t j = 0; j < n; j++) {
            S[i * n + j] *= sqrt(grillage->natural[springs[i]] * grillage->natural[springs[j]]);
        }
    }
    return status;
}
