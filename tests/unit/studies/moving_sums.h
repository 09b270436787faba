/* moving_sums.h - what a page does with the data of a truck that moves, in C: curves unpacked, wheels added
 * up, contact solved. Shares no code with the studies. */
#ifndef MOVING_SUMS_H
#define MOVING_SUMS_H

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/contact.h"
#include "sillspan/moving.h"
#include "support/suite.h"

enum { SUMS_SUPPORTS = 40, SUMS_WHEELS = 64 };

typedef struct sums_knot {
    double at, v, d;
} sums_knot;

typedef struct sums_wheel {
    double x, y, P;
} sums_wheel;

/** Unpacked, at one stiffness. */
typedef struct sums {
    const ss_moving *m;
    sums_knot *knot;
    int *first;                                                   /* fields x rails + 1 */
    double *w;                                                    /* mode_count: weights */
    double S[SUMS_SUPPORTS * SUMS_SUPPORTS], dead[SUMS_SUPPORTS]; /* with seats */
    double u_dead[SUMS_SUPPORTS];
} sums;

/** What a truck does. */
typedef struct sums_answer {
    double *live;                                     /* reading_count: total less dead */
    double reaction[SUMS_SUPPORTS], u[SUMS_SUPPORTS]; /* in all */
    bool tips;
} sums_answer;

static inline double sums_number(const unsigned char *byte, size_t *at) {
    double sum = 0.0, scale = 1.0;
    for (;;) {
        const unsigned char b = byte[(*at)++];
        sum += scale * (b & 127);
        scale *= 128.0;
        if (b < 128) {
            break;
        }
    }
    return fmod(sum, 2.0) == 0.0 ? 0.5 * sum : -0.5 * (sum + 1.0);
}

static inline void sums_unpack(sums *s, const ss_moving *m) {
    const int fields = m->reading_count + m->mode_count;
    size_t at = 0;
    int count = 0;
    memset(s, 0, sizeof *s);
    s->m = m;
    s->knot = malloc((m->byte_count / 3 + 1) * sizeof *s->knot);
    s->first = malloc(((size_t)(fields * m->rail_count) + 1) * sizeof *s->first);
    s->w = calloc((size_t)m->mode_count + 1, sizeof *s->w);
    CU_ASSERT_FATAL(s->knot != NULL && s->first != NULL && s->w != NULL);
    for (int f = 0; f < fields; f++) {
        const double *const unit = m->unit + 2 * f;
        for (int rail = 0; rail < m->rail_count; rail++) {
            int place = 0;
            double v = 0.0, d = 0.0;
            bool begun = false;
            s->first[f * m->rail_count + rail] = count;
            while (!begun || place + 1 < m->place_count) {
                const int next = place + (int)sums_number(m->byte, &at);
                const double h = m->place[next] - m->place[place];
                v = floor(v + d * h * unit[1] / unit[0] + 0.5) + sums_number(m->byte, &at);
                d += sums_number(m->byte, &at);
                place = next;
                begun = true;
                s->knot[count++] = (sums_knot){m->place[place], v * unit[0], d * unit[1]};
            }
        }
    }
    s->first[fields * m->rail_count] = count;
    CU_ASSERT_EQUAL(at, m->byte_count);
}

static inline void sums_free(sums *s) {
    free(s->knot);
    free(s->first);
    free(s->w);
}

/** A curve at `at`: the piece after it, or at the end the last one. */
static inline double sums_curve(const sums *s, int field, int rail, double at) {
    const int i = field * s->m->rail_count + rail;
    const sums_knot *k = &s->knot[s->first[i]], *const last = &s->knot[s->first[i + 1] - 1];
    if (at < k->at || at > last->at) {
        return 0.0;
    }
    while (k + 1 < last && (k[1].at <= at)) k++;
    const double h = k[1].at - k->at, t = (at - k->at) / h, r = 1.0 - t;
    return r * r * (1.0 + 2.0 * t) * k->v + t * t * (1.0 + 2.0 * r) * k[1].v +
           h * t * r * (r * k->d - t * k[1].d);
}

static inline double sums_field(const sums *s, int field, sums_wheel wheel) {
    const double *const rail = s->m->rail;
    const double across = s->m->along ? wheel.x : wheel.y, along = s->m->along ? wheel.y : wheel.x;
    for (int i = 0; i + 1 < s->m->rail_count; i++) {
        if (rail[i + 1] > rail[i] && across >= rail[i] && across <= rail[i + 1]) {
            const double t = (across - rail[i]) / (rail[i + 1] - rail[i]);
            return (1.0 - t) * sums_curve(s, field, i, along) + t * sums_curve(s, field, i + 1, along);
        }
    }
    return 0.0;
}

/** A reading under one of the loads that do not move. */
static inline double sums_still(const sums *s, int reading, int load) {
    const ss_moving *const m = s->m;
    double sum = m->value[reading * m->load_count + load];
    for (int j = 0; j < m->mode_count; j++) {
        sum += m->a[reading * m->mode_count + j] * s->w[j] * m->h[j * m->load_count + load];
    }
    return sum;
}

/** x = A^-1 x by elimination. */
static inline void sums_solve(int n, double *A, double *x) {
    for (int i = 0; i < n; i++) {
        int pivot = i;
        for (int r = i + 1; r < n; r++) pivot = fabs(A[r * n + i]) > fabs(A[pivot * n + i]) ? r : pivot;
        for (int c = 0; c < n; c++) {
            const double swap = A[i * n + c];
            A[i * n + c] = A[pivot * n + c];
            A[pivot * n + c] = swap;
        }
        const double other = x[i];
        x[i] = x[pivot];
        x[pivot] = other;
        for (int r = i + 1; r < n; r++) {
            const double f = A[r * n + i] / A[i * n + i];
            for (int c = i; c < n; c++) A[r * n + c] -= f * A[i * n + c];
            x[r] -= f * x[i];
        }
    }
    for (int i = n; i-- > 0;) {
        for (int c = i + 1; c < n; c++) x[i] -= A[i * n + c] * x[c];
        x[i] /= A[i * n + i];
    }
}

/** r = r0 + S u with contact; u of supports that are not of contact is 0. False: it tips. */
static inline bool sums_contact(const sums *s, const double *S, const double *r0, double *r, double *u) {
    const int n = s->m->contact_count, all = s->m->support_count;
    double part[SUMS_SUPPORTS * SUMS_SUPPORTS], work[4 * SUMS_SUPPORTS * (SUMS_SUPPORTS + 8)];
    double base[SUMS_SUPPORTS], scale = 0.0;
    bool open[SUMS_SUPPORTS] = {false};
    CU_ASSERT_FATAL(ss_contact_work(n) <= sizeof work / sizeof work[0]);
    for (int i = 0; i < all; i++) scale += fabs(r0[i]);
    for (int i = 0; i < n; i++) {
        base[i] = fabs(r0[i]) <= 1e-7 * scale ? 0.0 : r0[i];
        for (int j = 0; j < n; j++) part[i * n + j] = 0.5 * (S[i * all + j] + S[j * all + i]);
    }
    if (ss_contact_solve(n, part, base, r, u, open, work) != SS_OK) {
        return false;
    }
    for (int i = n; i < all; i++) {
        u[i] = 0.0;
        r[i] = r0[i];
        for (int j = 0; j < n; j++) r[i] += S[i * all + j] * u[j];
    }
    return true;
}

/** Late supports are opened until they carry nothing, the others of contact may lift meanwhile. */
static inline void sums_seats(const sums *s, const double *r0, double *seat) {
    const ss_moving *const m = s->m;
    const int all = m->support_count;
    int late[SUMS_SUPPORTS], n = 0;
    double A[SUMS_SUPPORTS * SUMS_SUPPORTS], x[SUMS_SUPPORTS], S[SUMS_SUPPORTS * SUMS_SUPPORTS];
    double base[SUMS_SUPPORTS], r[SUMS_SUPPORTS], u[SUMS_SUPPORTS] = {0.0};
    for (int i = 0; i < all; i++) {
        seat[i] = m->support[i].seat;
        if (m->support[i].late) {
            late[n++] = i;
        }
    }
    if (n == 0) {
        return;
    }
    /* S and r0 with the late ones gone: each column solved by itself. */
    for (int column = -1; column < all; column++) {
        for (int i = 0; i < n; i++) {
            x[i] = -(column < 0 ? r0[late[i]] : s->S[late[i] * all + column]);
            for (int j = 0; j < n; j++) A[i * n + j] = s->S[late[i] * all + late[j]];
        }
        sums_solve(n, A, x);
        for (int i = 0; i < all; i++) {
            double sum = column < 0 ? r0[i] : s->S[i * all + column];
            for (int j = 0; j < n; j++) sum += s->S[i * all + late[j]] * x[j];
            *(column < 0 ? &base[i] : &S[i * all + column]) = sum;
        }
    }
    for (int j = 0; j < n; j++) {
        base[late[j]] = 1.0; /* closed and pressed: not there */
        for (int i = 0; i < all; i++) S[i * all + late[j]] = S[late[j] * all + i] = 0.0;
        S[late[j] * all + late[j]] = 1.0;
    }
    CU_ASSERT_TRUE(sums_contact(s, S, base, r, u));
    for (int i = 0; i < n; i++) {
        x[i] = -r0[late[i]];
        for (int j = 0; j < all; j++) x[i] -= s->S[late[i] * all + j] * u[j];
        for (int j = 0; j < n; j++) A[i * n + j] = s->S[late[i] * all + late[j]];
    }
    sums_solve(n, A, x);
    for (int i = 0; i < n; i++) seat[late[i]] -= x[i];
}

/** The dead load at k times the described stiffness. */
static inline void sums_stand(sums *s, double k) {
    const ss_moving *const m = s->m;
    const int all = m->support_count;
    double seat[SUMS_SUPPORTS], r[SUMS_SUPPORTS];
    CU_ASSERT_FATAL(all <= SUMS_SUPPORTS);
    for (int j = 0; j < m->mode_count; j++) {
        const double l = m->l[j], t = k * m->t1;
        s->w[j] =
            l == 0.0 ? t - m->t1 : (isinf(k) ? 0.0 : 1.0 / (1.0 - l + l * t)) - 1.0 / (1.0 - l + l * m->t1);
    }
    for (int i = 0; i < all; i++) {
        s->dead[i] = sums_still(s, i, SS_MOVING_DEAD);
        for (int j = 0; j < all; j++) s->S[i * all + j] = sums_still(s, i, SS_MOVING_OPENING + j);
    }
    sums_seats(s, s->dead, seat);
    for (int i = 0; i < all; i++) {
        for (int j = 0; j < all; j++) s->dead[i] -= s->S[i * all + j] * seat[j];
    }
    CU_ASSERT_TRUE(sums_contact(s, s->S, s->dead, r, s->u_dead));
}

/** `out->live` has room for the readings. */
static inline void sums_move(const sums *s, const sums_wheel *wheel, int count, sums_answer *out) {
    const ss_moving *const m = s->m;
    const int all = m->support_count;
    double r0[SUMS_SUPPORTS];
    for (int i = 0; i < m->reading_count; i++) {
        double sum = 0.0;
        for (int w = 0; w < count; w++) {
            sum += wheel[w].P * sums_field(s, i, wheel[w]);
            for (int j = 0; j < m->mode_count; j++) {
                sum += m->a[i * m->mode_count + j] * s->w[j] * wheel[w].P *
                       sums_field(s, m->reading_count + j, wheel[w]);
            }
        }
        out->live[i] = sum;
    }
    for (int i = 0; i < all; i++) r0[i] = s->dead[i] + out->live[i];
    out->tips = !sums_contact(s, s->S, r0, out->reaction, out->u);
    for (int i = 0; i < m->reading_count && !out->tips; i++) {
        for (int j = 0; j < m->contact_count; j++) {
            out->live[i] += sums_still(s, i, SS_MOVING_OPENING + j) * (out->u[j] - s->u_dead[j]);
        }
    }
}

#endif
