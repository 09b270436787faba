/* moving_fit.c - fields over the deck as few cubics along each rail, and the modes that matter. */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/mesh_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "studies/moving_parts.h"

/* A cubic along a rail between two places: values and slopes at its ends. */
typedef struct cubic {
    double v0, d0, v1, d1;
} cubic;

typedef struct fitter {
    ss_moving_job *job;
    double *dof;                     /* all_loads: the field's value under each load */
    double *value;                   /* rail_count x (place_count - 1) x SS_MOVING_POINTS */
    cubic *piece;                    /* place_count - 1 */
    size_t capacity;                 /* of bytes */
    double bound;                    /* what a cubic may be beside what it stands for */
    double largest[SS_MOVING_KINDS]; /* of readings of a kind */
    double *unit;                    /* of the field */
} fitter;

/* ---- a field ------------------------------------------------------------------------------------------- */

/* Of an effect what a wheel within its own element adds. */
static double within(const ss_moving_job *job, const ss_effect *e, const ss_moving_point *p) {
    double sum = 0.0;
    for (int i = 0; i < p->carrier_count; i++) {
        const ss_carrier *const c = &p->carrier[i];
        if (c->line != e->index || ss_mesh_line_element(job->mesh, p->interval, c->line) != e->element) {
            continue;
        }
        sum += c->weight * ss_mesh_effect_local(job->mesh, e, p->s) +
               c->arm * ss_mesh_effect_local_torque(job->mesh, e, p->s);
    }
    return sum;
}

static size_t point_count(const ss_moving *m) {
    return (size_t)m->rail_count * (size_t)(m->place_count - 1) * SS_MOVING_POINTS;
}

/* Fills values at all points; returns the largest. */
static double sample(fitter *f, int field) {
    const ss_moving_job *const job = f->job;
    const ss_moving *const m = &job->made;
    const size_t loads = (size_t)job->all_loads, readings = (size_t)m->reading_count;
    const bool of_mode = (size_t)field >= readings;
    const int first = of_mode ? 0 : job->part_first[field];
    const int last = of_mode ? 0 : job->part_first[field + 1];
    double largest = 0.0;
    memset(f->dof, 0, loads * sizeof *f->dof);
    if (of_mode) {
        memcpy(f->dof, job->mode_h + ((size_t)field - readings) * loads, loads * sizeof *f->dof);
    }
    for (int k = first; k < last; k++) {
        const double *const value = job->raw_value + (size_t)job->part[k] * loads;
        for (size_t q = 0; q < loads; q++) f->dof[q] += value[q];
    }
    for (size_t i = 0; i < point_count(m); i++) {
        const ss_moving_point *const p = &job->point[i];
        double sum = 0.0;
        for (int k = 0; k < p->row.count; k++) sum += p->row.value[k] * f->dof[job->load_of[p->row.dof[k]]];
        for (int k = first; k < last; k++) {
            const ss_effect *const e = &job->effect[job->part[k]];
            sum += e->element >= 0 ? within(job, e, p) : 0.0;
        }
        f->value[i] = sum;
        largest = ss_max(largest, fabs(sum));
    }
    return largest;
}

/* ---- along a rail -------------------------------------------------------------------------------------- */

/* The cubic through values at s = 1/8, 3/8, 5/8, 7/8. */
static cubic through(const double y[SS_MOVING_POINTS], double length) {
    const double d1 = y[1] - y[0], d2 = y[2] - 2.0 * y[1] + y[0];
    const double d3 = y[3] - 3.0 * y[2] + 3.0 * y[1] - y[0];
    cubic c;
    /* Newton's form in q = (s - 1/8) / (1/4), at q = -1/2 and 7/2. */
    const double at[2] = {-0.5, 3.5};
    double v[2], d[2];
    for (int i = 0; i < 2; i++) {
        const double q = at[i];
        v[i] = y[0] + q * d1 + 0.5 * q * (q - 1.0) * d2 + q * (q - 1.0) * (q - 2.0) / 6.0 * d3;
        d[i] = d1 + 0.5 * (2.0 * q - 1.0) * d2 + (3.0 * q * q - 6.0 * q + 2.0) / 6.0 * d3;
    }
    c = (cubic){v[0], d[0] * SS_MOVING_POINTS / length, v[1], d[1] * SS_MOVING_POINTS / length};
    return c;
}

static double value_at(const cubic *c, double length, double s) {
    const double r = 1.0 - s;
    return r * r * (1.0 + 2.0 * s) * c->v0 + s * s * (1.0 + 2.0 * r) * c->v1 +
           length * s * r * (r * c->d0 - s * c->d1);
}

/* Whether one cubic from place `from` to place `to` meets all pieces between. */
static bool meets(const fitter *f, const cubic *whole, int from, int to) {
    const double *const place = f->job->made.place;
    const double length = place[to] - place[from];
    for (int i = from; i < to; i++) {
        const double h = place[i + 1] - place[i];
        for (int k = 1; k <= 4; k++) {
            const double s = 0.25 * k;
            const double is = value_at(&f->piece[i], h, s);
            const double would = value_at(whole, length, (place[i] + s * h - place[from]) / length);
            if (!(fabs(is - would) <= f->bound)) {
                return false;
            }
        }
    }
    return true;
}

/* A knot in whole numbers. */
typedef struct knot {
    int place;
    double v, d;
} knot;

static ss_status put_number(fitter *f, double number, ss_error *error) {
    ss_moving *const m = &f->job->made;
    if (m->byte_count + 12 > f->capacity) {
        const size_t grown = 2 * f->capacity + 65536;
        unsigned char *const byte = ss_realloc(m->byte, grown, sizeof *byte);
        if (byte == NULL) {
            return ss_no_memory(error);
        }
        m->byte = byte;
        f->capacity = grown;
    }
    uint64_t left = (uint64_t)(number < 0.0 ? -2.0 * number - 1.0 : 2.0 * number);
    for (; left > 127; left >>= 7) m->byte[m->byte_count++] = (unsigned char)(128 | (left & 127));
    m->byte[m->byte_count++] = (unsigned char)left;
    return SS_OK;
}

/* Appends the knot nearest to a value and a slope; `last` becomes it. */
static ss_status put_knot(fitter *f, knot *last, int place, double value, double slope, ss_error *error) {
    const double h = f->job->made.place[place] - f->job->made.place[last->place];
    const double leads = floor(last->v + last->d * h * f->unit[1] / f->unit[0] + 0.5);
    const knot next = {place, floor(value / f->unit[0] + 0.5), floor(slope / f->unit[1] + 0.5)};
    ss_status status = SS_OK;
    SS_TRY(put_number(f, place - last->place, error));
    SS_TRY(put_number(f, next.v - leads, error));
    SS_TRY(put_number(f, next.d - last->d, error));
    *last = next;
done:
    return status;
}

/* Whether one cubic that begins at a knot goes as far as place `to`. */
static bool goes(const fitter *f, const knot *from, int to, cubic *out) {
    if (to >= f->job->made.place_count) {
        return false;
    }
    const cubic whole = {from->v * f->unit[0], from->d * f->unit[1], f->piece[to - 1].v1,
                         f->piece[to - 1].d1};
    if (!meets(f, &whole, from->place, to)) {
        return false;
    }
    *out = whole;
    return true;
}

/* A far place to which one cubic goes that begins at a knot, found by doubled steps and then by halved ones;
 * its own place if none does. */
static int reach(const fitter *f, const knot *from, cubic *out) {
    int to = from->place, step = 1;
    while (goes(f, from, to + step, out)) {
        to += step;
        step *= 2;
    }
    for (; step > 0; step /= 2) {
        to += goes(f, from, to + step, out) ? step : 0;
    }
    return to;
}

static ss_status fit_rail(fitter *f, ss_error *error) {
    const ss_moving *const m = &f->job->made;
    ss_status status = SS_OK;
    knot last = {0};
    SS_TRY(put_knot(f, &last, 0, f->piece[0].v0, f->piece[0].d0, error));
    while (last.place + 1 < m->place_count) {
        cubic whole = {0};
        const int at = last.place;
        int to = reach(f, &last, &whole);
        if (to == at) {
            /* A jump or a kink: another knot at the same place. Its first piece is met by itself. */
            SS_TRY(put_knot(f, &last, at, f->piece[at].v0, f->piece[at].d0, error));
            to = reach(f, &last, &whole);
            if (to == at) {
                whole = f->piece[at];
                to = at + 1;
            }
        }
        SS_TRY(put_knot(f, &last, to, whole.v1, whole.d1, error));
    }
done:
    return status;
}

/* A slope that is wrong by a unit of slopes makes a value wrong by one of values, half way along a sixth of
 * the rail. */
static ss_status fit_field(fitter *f, int field, double share, ss_error *error) {
    ss_moving *const m = &f->job->made;
    const int pieces = m->place_count - 1;
    const double length = m->place[pieces] - m->place[0];
    ss_status status = SS_OK;
    const double own = sample(f, field);
    const bool of_mode = field >= m->reading_count;
    f->bound = ss_max(share * (of_mode ? own : f->largest[m->reading[field].kind]), 1e-300);
    f->unit = m->unit + 2 * (size_t)field;
    f->unit[0] = f->bound;
    f->unit[1] = f->bound * 8.0 * 6.0 / length;
    for (int rail = 0; rail < m->rail_count; rail++) {
        const double *const value = f->value + (size_t)rail * (size_t)pieces * SS_MOVING_POINTS;
        for (int i = 0; i < pieces; i++) {
            f->piece[i] = through(value + (size_t)i * SS_MOVING_POINTS, m->place[i + 1] - m->place[i]);
        }
        SS_TRY(fit_rail(f, error));
    }
done:
    return status;
}

/* ---- modes --------------------------------------------------------------------------------------------- */

static void find_largest(fitter *f) {
    const ss_moving *const m = &f->job->made;
    for (int i = 0; i < m->reading_count; i++) {
        double *const largest = &f->largest[m->reading[i].kind];
        *largest = ss_max(*largest, sample(f, i));
    }
}

/* The most that a mode does to a reading, as a share of the largest of its kind, over a unit of its weight.
 */
static void weigh_modes(fitter *f, double *matter) {
    const ss_moving_job *const job = f->job;
    const ss_moving *const m = &job->made;
    const size_t modes = (size_t)m->mode_count;
    for (int i = 0; i < m->reading_count; i++) {
        const double largest = f->largest[m->reading[i].kind];
        for (size_t j = 0; j < modes && largest > 0.0; j++) {
            double a = 0.0;
            for (int k = job->part_first[i]; k < job->part_first[i + 1]; k++) {
                a += job->raw_a[(size_t)job->part[k] * modes + j];
            }
            matter[j] = ss_max(matter[j], fabs(a) / largest);
        }
    }
    for (int j = 0; j < m->mode_count; j++) {
        double h = sample(f, m->reading_count + j);
        /* What cannot move has no part in what wheels do, only in what was locked in. */
        if (m->l[j] == 0.0) {
            for (int q = 0; q < m->load_count; q++) {
                h = ss_max(h, fabs(job->mode_h[(size_t)j * (size_t)job->all_loads + (size_t)q]));
            }
        }
        matter[j] *= h;
    }
}

static double weight(const ss_moving *m, int j, double k) {
    const double l = m->l[j], t = k * m->t1;
    if (l == 0.0) {
        return t - m->t1;
    }
    const double now = isinf(k) ? 0.0 : 1.0 / (1.0 - l + l * t);
    return now - 1.0 / (1.0 - l + l * m->t1);
}

/* Sum over modes of what they change between two factors. */
static double change(const ss_moving *m, const double *matter, double from, double to) {
    double sum = 0.0;
    for (int j = 0; j < m->mode_count; j++) {
        sum += m->l[j] == 0.0 ? 0.0 : matter[j] * fabs(weight(m, j, to) - weight(m, j, from));
    }
    return sum;
}

/* The factors between which readings change, to a part in a hundred of what they are at most. */
static void find_range(ss_moving *m, const double *matter) {
    bool locked = false;
    for (int j = 0; j < m->mode_count; j++) {
        locked = locked || (m->l[j] == 0.0 && matter[j] > 1e-9);
        m->none = m->none && m->l[j] < 1.0;
    }
    m->rigid = !locked;
    m->least = 0.1;
    m->most = 10.0;
    while (m->most < 1e6 && change(m, matter, m->most, (double)INFINITY) > 0.01) m->most *= 10.0;
    if (m->none) {
        while (m->least > 1e-6 && change(m, matter, 0.0, m->least) > 0.01) m->least *= 0.1;
    } else {
        while (m->least > 1e-3 && change(m, matter, m->least, 1.0) < 10.0) m->least *= 0.1;
    }
}

/* Leaves out modes that change no reading by more than a share of the largest of its kind, and puts what is
 * left into the arrays of `made`; `matter` becomes what each of them does at most. */
static ss_status keep_modes(ss_moving_job *job, double *matter, double tolerance, ss_error *error) {
    ss_moving *const m = &job->made;
    const size_t modes = (size_t)m->mode_count, loads = (size_t)job->all_loads, own = (size_t)m->load_count;
    size_t kept = 0;
    m->a = ss_alloc((size_t)m->reading_count * modes + 1, sizeof *m->a);
    m->h = ss_alloc(modes * own + 1, sizeof *m->h);
    int *const from = ss_arena_alloc(&job->arena, modes + 1, sizeof *from);
    if (m->a == NULL || m->h == NULL || from == NULL) {
        return ss_no_memory(error);
    }
    for (int j = 0; j < m->mode_count; j++) {
        const double low = m->none ? 0.0 : m->least, high = m->rigid ? (double)INFINITY : m->most;
        const double most =
            m->l[j] == 0.0 ? m->most * m->t1 : ss_max(fabs(weight(m, j, low)), fabs(weight(m, j, high)));
        if (matter[j] * most > 0.3 * tolerance) {
            matter[kept] = matter[j] * most; /* what it does at most */
            from[kept++] = j;
        }
    }
    for (size_t j = 0; j < kept; j++) {
        m->l[j] = m->l[from[j]];
        memmove(job->mode_h + j * loads, job->mode_h + (size_t)from[j] * loads, loads * sizeof *job->mode_h);
        memcpy(m->h + j * own, job->mode_h + j * loads, own * sizeof *m->h);
    }
    for (int i = 0; i < m->reading_count; i++) {
        for (size_t j = 0; j < kept; j++) {
            for (int k = job->part_first[i]; k < job->part_first[i + 1]; k++) {
                m->a[(size_t)i * kept + j] += job->raw_a[(size_t)job->part[k] * modes + (size_t)from[j]];
            }
        }
    }
    m->mode_count = (int)kept;
    return SS_OK;
}

static ss_status sum_values(ss_moving_job *job, ss_error *error) {
    ss_moving *const m = &job->made;
    m->load_count = 1 + m->support_count;
    const size_t own = (size_t)m->load_count, loads = (size_t)job->all_loads;
    m->value = ss_alloc((size_t)m->reading_count * own + 1, sizeof *m->value);
    if (m->value == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < m->reading_count; i++) {
        for (int k = job->part_first[i]; k < job->part_first[i + 1]; k++) {
            for (size_t q = 0; q < own; q++) {
                m->value[(size_t)i * own + q] += job->raw_value[(size_t)job->part[k] * loads + q];
            }
        }
    }
    return SS_OK;
}

ss_status ss_moving_fit(ss_moving_job *job, double tolerance, ss_error *error) {
    ss_moving *const m = &job->made;
    ss_status status = SS_OK;
    fitter f = {.job = job};
    double *const matter = ss_arena_alloc(&job->arena, (size_t)m->mode_count + 1, sizeof *matter);
    f.dof = ss_arena_alloc(&job->arena, (size_t)job->all_loads, sizeof *f.dof);
    f.value = ss_arena_alloc(&job->arena, point_count(m), sizeof *f.value);
    f.piece = ss_arena_alloc(&job->arena, (size_t)m->place_count, sizeof *f.piece);
    SS_TRY(matter == NULL || f.dof == NULL || f.value == NULL || f.piece == NULL ? ss_no_memory(error)
                                                                                 : SS_OK);
    SS_TRY(sum_values(job, error));
    find_largest(&f);
    m->least = m->most = 1.0;
    if (m->mode_count > 0) {
        weigh_modes(&f, matter);
        find_range(m, matter);
    }
    SS_TRY(keep_modes(job, matter, tolerance, error));
    const size_t fields = (size_t)m->reading_count + (size_t)m->mode_count;
    const size_t supports = (size_t)m->support_count, rest = (size_t)m->reading_count - supports;
    m->unit = ss_alloc(2 * fields, sizeof *m->unit);
    SS_TRY(m->unit == NULL ? ss_no_memory(error) : SS_OK);
    for (int i = 0; i < m->reading_count; i++) {
        /* What lifts, and by how much, hangs on small sums of large reactions. */
        const double share = m->reading[i].kind == SS_MOVING_SUPPORT ? 0.1 : 1.0;
        SS_TRY(fit_field(&f, i, share * tolerance, error));
    }
    for (int j = 0; j < m->mode_count; j++) {
        SS_TRY(fit_field(&f, m->reading_count + j, ss_min(0.2 * tolerance / matter[j], 0.1), error));
    }
    m->tolerance = tolerance;
    m->bytes = m->byte_count + 16 * fields +
               (4 * supports + 2 * rest) * ((size_t)m->load_count + (size_t)m->mode_count);
done:
    return status;
}
