/* watch_sweep.c - a watch on one bridge for any stiffness of its joints, out of one factorisation: every
 * response is a sum over modes, the dead load with its gaps and the bearings' contact are solved anew. */
#include "studies/watch_sweep.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"
#include "sillspan/spring_sweep.h"
#include "studies/watch_seats.h"

/* Loads of the sweep, in this order: stands of trucks, the parts of the dead load, what joints have locked
 * in, a settlement of each support. */
enum { LOAD_CARS, LOAD_ADDED, LOAD_WEARING, LOAD_LOCK, DEAD_LOADS };

struct ss_watch_sweep {
    const ss_watch *watch;
    const ss_variant *variant;
    ss_watch_placed placed;
    ss_watch_checks checks;
    ss_watch_limits limits;
    ss_spring_sweep *modes;
    int contact_count, support_count; /* supports: contact springs, then others that are late or settle */
    int *support;                     /* support_count: springs */
    bool *late;                       /* support_count */
    int load_count, reading_count;    /* readings: supports, then those of the effects */
    int *first;                       /* effect_count: first reading of each effect, or -1 */
    double *factor; /* effect_count: what a reading counts; two springs of a pad follow each other */
    int *readings;  /* effect_count: 1 or 2 */
    double *within; /* DEAD_LOADS x effect_count: parts of dead effects from loads within an element */
    ss_arena arena;
};

/* ---- readings --------------------------------------------------------------------------------------- */

static ss_status find_supports(ss_watch_sweep *s, ss_error *error) {
    const ss_mesh *const mesh = &s->variant->mesh;
    const int *contact = NULL;
    const double *S = NULL;
    s->contact_count = ss_grillage_contact(s->variant->grillage, &contact, &S);
    s->support = ss_arena_alloc(&s->arena, (size_t)mesh->spring_count + 1, sizeof *s->support);
    s->late = ss_arena_alloc(&s->arena, (size_t)mesh->spring_count + 1, sizeof *s->late);
    if (s->support == NULL || s->late == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < s->contact_count; i++) {
        s->support[i] = contact[i];
        s->late[i] = ss_spring_late(mesh, contact[i]);
    }
    s->support_count = s->contact_count;
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *const spring = &mesh->spring[i];
        const bool late = ss_spring_late(mesh, i);
        const bool settled = spring->owner == SS_MEMBER_BEARING && spring->kind == SS_SPRING_VERTICAL &&
                             mesh->bridge->bearings[spring->index].settlement != 0.0;
        if (!spring->contact && (late || settled)) {
            s->support[s->support_count] = i;
            s->late[s->support_count++] = late;
        }
    }
    return SS_OK;
}

static void read_effect(ss_watch_sweep *s, int e, ss_sweep_reading *reading) {
    const ss_mesh *const mesh = &s->variant->mesh;
    const ss_effect *const effect = &s->placed.effect[e];
    s->first[e] = -1;
    if (!s->placed.there[e]) {
        return;
    }
    s->first[e] = s->reading_count;
    s->readings[e] = 1;
    s->factor[e] = 1.0;
    if (!ss_effect_of_spring(effect)) {
        ss_sweep_reading *const r = &reading[s->reading_count++];
        r->spring = -1;
        ss_mesh_effect_row(mesh, effect, &r->row);
        return;
    }
    const int second = ss_effect_second_spring(mesh, effect);
    s->factor[e] = ss_effect_spring_factor(mesh, effect);
    reading[s->reading_count++].spring = effect->spring;
    if (second >= 0) {
        reading[s->reading_count++].spring = second;
        s->readings[e] = 2;
    }
}

/* ---- loads ------------------------------------------------------------------------------------------ */

/* Dense arrays of the loads while the modes are found. */
typedef struct dense {
    double *nodal;  /* stand_count x order */
    double *offset; /* (support_count + 1) x spring_count: what is locked in, then unit settlements */
    ss_sweep_load *load;
} dense;

static ss_status fill_loads(const ss_watch_sweep *s, dense *d, ss_error *error) {
    const ss_permanent *const p = &s->variant->permanent;
    const size_t order = (size_t)s->variant->mesh.order, springs = (size_t)s->variant->mesh.spring_count;
    const size_t stands = (size_t)s->watch->stand_count, supports = (size_t)s->support_count;
    d->nodal = ss_alloc(stands * order + 1, sizeof *d->nodal);
    d->offset = ss_alloc((supports + 1) * springs + 1, sizeof *d->offset);
    d->load = ss_alloc((size_t)s->load_count + 1, sizeof *d->load);
    if (d->nodal == NULL || d->offset == NULL || d->load == NULL) {
        return ss_no_memory(error);
    }
    for (size_t i = 0; i < stands; i++) {
        double *const nodal = d->nodal + i * order;
        for (int k = s->placed.first[i]; k < s->placed.first[i + 1]; k++) {
            nodal[s->placed.dof[k]] = s->placed.force[k];
        }
        d->load[i].nodal = nodal;
    }
    memcpy(d->offset, p->lock, springs * sizeof *d->offset);
    d->load[stands + LOAD_CARS].nodal = p->cars.nodal;
    d->load[stands + LOAD_ADDED].nodal = p->added.nodal;
    d->load[stands + LOAD_WEARING].nodal = p->wearing.nodal;
    d->load[stands + LOAD_LOCK].offset = d->offset;
    for (size_t i = 0; i < supports; i++) {
        double *const offset = d->offset + (i + 1) * springs;
        offset[s->support[i]] = 1.0;
        d->load[stands + DEAD_LOADS + i].offset = offset;
    }
    return SS_OK;
}

static ss_status find_within(ss_watch_sweep *s, ss_error *error) {
    const ss_permanent *const p = &s->variant->permanent;
    const ss_load *const part[] = {&p->cars, &p->added, &p->wearing};
    const size_t effects = (size_t)s->watch->effect_count;
    double *const still = ss_alloc((size_t)s->variant->mesh.order + 1, sizeof *still);
    s->within = ss_arena_alloc(&s->arena, DEAD_LOADS * effects + 1, sizeof *s->within);
    if (still == NULL || s->within == NULL) {
        ss_free(still);
        return ss_no_memory(error);
    }
    for (size_t e = 0; e < effects; e++) {
        for (size_t i = 0; i < 3 && s->placed.there[e] && !ss_effect_of_spring(&s->placed.effect[e]); i++) {
            s->within[i * effects + e] =
                ss_mesh_effect_value(&s->variant->mesh, &s->placed.effect[e], still, part[i]);
        }
    }
    ss_free(still);
    return SS_OK;
}

static ss_status find_modes(ss_watch_sweep *s, int swept_count, const int *swept, ss_error *error) {
    const ss_mesh *const mesh = &s->variant->mesh;
    const size_t effects = (size_t)s->watch->effect_count;
    ss_status status = SS_OK;
    dense d = {0};
    double *const stiffness = ss_alloc((size_t)swept_count + 1, sizeof *stiffness);
    ss_sweep_reading *const reading = ss_alloc((size_t)s->support_count + 2 * effects + 1, sizeof *reading);
    s->first = ss_arena_alloc(&s->arena, effects + 1, sizeof *s->first);
    s->factor = ss_arena_alloc(&s->arena, effects + 1, sizeof *s->factor);
    s->readings = ss_arena_alloc(&s->arena, effects + 1, sizeof *s->readings);
    SS_TRY(stiffness == NULL || reading == NULL || s->first == NULL || s->factor == NULL ||
                   s->readings == NULL
               ? ss_no_memory(error)
               : SS_OK);
    for (int i = 0; i < swept_count; i++) stiffness[i] = 1.0 / mesh->spring[swept[i]].flexibility;
    for (int i = 0; i < s->support_count; i++) reading[i].spring = s->support[i];
    s->reading_count = s->support_count;
    for (size_t e = 0; e < effects; e++) read_effect(s, (int)e, reading);
    s->load_count = s->watch->stand_count + DEAD_LOADS + s->support_count;
    SS_TRY(fill_loads(s, &d, error));
    const ss_sweep_task task = {.swept_count = swept_count,
                                .swept = swept,
                                .stiffness = stiffness,
                                .load_count = s->load_count,
                                .loads = d.load,
                                .reading_count = s->reading_count,
                                .readings = reading};
    SS_TRY(ss_spring_sweep_create(s->variant->grillage, &task, &s->modes, error));
done:
    ss_free(stiffness);
    ss_free(reading);
    ss_free(d.nodal);
    ss_free(d.offset);
    ss_free(d.load);
    return status;
}

/* ---- at one stiffness ------------------------------------------------------------------------------- */

/* What one value of k is worked out with. */
typedef struct moment {
    const ss_watch_sweep *s;
    double *value;  /* reading_count x load_count */
    double *seat;   /* support_count */
    double *force;  /* spring_count */
    double *offset; /* spring_count */
    double *S;      /* contact_count x contact_count */
    ss_arena *arena;
} moment;

static double of(const moment *m, int reading, int load) {
    return m->value[(size_t)reading * (size_t)m->s->load_count + (size_t)load];
}

static double effect_of(const moment *m, int e, int load) {
    const ss_watch_sweep *const s = m->s;
    double sum = 0.0;
    for (int i = 0; s->first[e] >= 0 && i < s->readings[e]; i++) sum += of(m, s->first[e] + i, load);
    return s->first[e] < 0 ? SS_NAN : s->factor[e] * sum;
}

/* The same under a dead load with its seats; `reading` true: of a support. */
static double under_dead(const moment *m, double (*value)(const moment *, int, int), int which,
                         ss_dead_factors f) {
    const int dead = m->s->watch->stand_count, seats = dead + DEAD_LOADS;
    double sum = f.dc * (value(m, which, dead + LOAD_CARS) + value(m, which, dead + LOAD_ADDED) +
                         value(m, which, dead + LOAD_LOCK)) +
                 f.dw * value(m, which, dead + LOAD_WEARING);
    for (int i = 0; i < m->s->support_count; i++) {
        sum += m->seat[i] == 0.0 ? 0.0 : m->seat[i] * value(m, which, seats + i);
    }
    return sum;
}

static ss_status find_seats(moment *m, ss_error *error) {
    const ss_watch_sweep *const s = m->s;
    const size_t n = (size_t)s->support_count;
    double *const stiffness = ss_arena_alloc(m->arena, n * n + 1, sizeof *stiffness);
    double *const reaction = ss_arena_alloc(m->arena, n + 1, sizeof *reaction);
    if (stiffness == NULL || reaction == NULL) {
        return ss_no_memory(error);
    }
    const int seats = s->watch->stand_count + DEAD_LOADS;
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j < n; j++) stiffness[i * n + j] = -of(m, (int)i, seats + (int)j);
        reaction[i] = under_dead(m, of, (int)i, (ss_dead_factors){1.0, 1.0});
    }
    const ss_seats_task task = {.mesh = &s->variant->mesh,
                                .count = s->support_count,
                                .support = s->support,
                                .late = s->late,
                                .contact_count = s->contact_count,
                                .S = stiffness,
                                .reaction = reaction};
    return ss_seats_find(&task, m->arena, m->seat, error);
}

static ss_status fill_contact(moment *m, ss_error *error) {
    const ss_watch_sweep *const s = m->s;
    const int n = s->contact_count, seats = s->watch->stand_count + DEAD_LOADS;
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) m->S[i * n + j] = -of(m, i, seats + j);
    }
    return ss_spring_sweep_clean(s->variant->grillage, n, s->support, m->S, error);
}

static void fill_dead(moment *m, ss_watch_answers *a, int d) {
    const ss_watch_sweep *const s = m->s;
    const ss_dead_factors f = s->checks.dead[d];
    const size_t effects = (size_t)s->watch->effect_count;
    for (int i = 0; i < s->support_count; i++) {
        m->force[s->support[i]] = under_dead(m, of, i, f);
        m->offset[s->support[i]] = m->seat[i];
    }
    ss_contact_reactions(&s->variant->mesh, (ss_contact_springs){a->n, s->support, m->S}, m->force, m->offset,
                         a->r_dead + (size_t)d * (size_t)a->n);
    for (size_t e = 0; e < effects; e++) {
        a->e_dead[(size_t)d * effects + e] =
            under_dead(m, effect_of, (int)e, f) +
            f.dc * (s->within[LOAD_CARS * effects + e] + s->within[LOAD_ADDED * effects + e]) +
            f.dw * s->within[LOAD_WEARING * effects + e];
    }
}

static void fill_live(const moment *m, ss_watch_answers *a) {
    const ss_watch_sweep *const s = m->s;
    const int seats = s->watch->stand_count + DEAD_LOADS;
    for (int e = 0; e < s->watch->effect_count; e++) {
        for (int k = 0; k < a->n; k++) {
            a->opening[(size_t)e * (size_t)a->n + (size_t)k] = -effect_of(m, e, seats + k);
        }
    }
    for (int i = 0; i < s->watch->stand_count; i++) {
        for (int k = 0; k < a->n; k++) a->r_live[(size_t)i * (size_t)a->n + (size_t)k] = of(m, k, i);
    }
    for (int i = 0; i < s->watch->item_count; i++) {
        const ss_watched_item *const item = &s->watch->items[i];
        a->e_live[i] = effect_of(m, item->effect, item->stand) + s->placed.within[i];
    }
}

static ss_status make_moment(const ss_watch_sweep *s, ss_arena *arena, moment *out, ss_error *error) {
    const size_t springs = (size_t)s->variant->mesh.spring_count, n = (size_t)s->contact_count;
    moment m = {.s = s, .arena = arena};
    m.value = ss_arena_alloc(arena, (size_t)s->reading_count * (size_t)s->load_count + 1, sizeof *m.value);
    m.seat = ss_arena_alloc(arena, (size_t)s->support_count + 1, sizeof *m.seat);
    m.force = ss_arena_alloc(arena, springs + 1, sizeof *m.force);
    m.offset = ss_arena_alloc(arena, springs + 1, sizeof *m.offset);
    m.S = ss_arena_alloc(arena, n * n + 1, sizeof *m.S);
    if (m.value == NULL || m.seat == NULL || m.force == NULL || m.offset == NULL || m.S == NULL) {
        return ss_no_memory(error);
    }
    *out = m;
    return SS_OK;
}

/* ---- public ----------------------------------------------------------------------------------------- */

ss_status ss_watch_sweep_at(const ss_watch_sweep *sweep, double k, ss_watch_value *values, ss_error *error) {
    ss_arena arena = {0};
    moment m;
    ss_watch_answers answers;
    ss_watch_scratch scratch;
    ss_status status = SS_OK;
    double *const work = ss_alloc(ss_spring_sweep_work(sweep->modes) + 1, sizeof *work);
    SS_TRY(work == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(make_moment(sweep, &arena, &m, error));
    SS_TRY(ss_spring_sweep_at(sweep->modes, k, m.value, work, error));
    SS_TRY(ss_watch_answers_make(sweep->watch, sweep->contact_count, sweep->checks.dead_count, &arena,
                                 &answers, error));
    SS_TRY(ss_watch_scratch_make(sweep->contact_count, &arena, &scratch, error));
    SS_TRY(fill_contact(&m, error));
    SS_TRY(find_seats(&m, error));
    answers.S = m.S;
    for (int d = 0; d < answers.dead_count; d++) fill_dead(&m, &answers, d);
    fill_live(&m, &answers);
    status = ss_watch_evaluate(&sweep->placed, &sweep->checks, &sweep->limits, &answers, &scratch, values);
    if (status != SS_OK) {
        ss_error_set(error, status, "the bearings' contact at the watched places: %s",
                     ss_status_text(status));
    }
done:
    ss_free(work);
    ss_arena_destroy(&arena);
    return status;
}

ss_status ss_watch_sweep_create(const ss_watch *watch, const ss_variant *variant, int swept_count,
                                const int *swept, ss_watch_sweep **out, ss_error *error) {
    ss_status status = SS_OK;
    ss_watch_sweep *s = ss_alloc(1, sizeof *s);
    if (s == NULL) {
        return ss_no_memory(error);
    }
    s->watch = watch;
    s->variant = variant;
    SS_TRY(ss_watch_checks_make(watch, &variant->bridge, &s->checks, error));
    SS_TRY(ss_watch_place(watch, &variant->mesh, &s->placed, error));
    SS_TRY(ss_watch_limits_make(&s->placed, &variant->permanent, &s->checks, &s->arena, &s->limits, error));
    SS_TRY(find_supports(s, error));
    SS_TRY(find_modes(s, swept_count, swept, error));
    SS_TRY(find_within(s, error));
    *out = s;
    s = NULL;
done:
    ss_watch_sweep_destroy(s);
    return status;
}

void ss_watch_sweep_destroy(ss_watch_sweep *sweep) {
    if (sweep == NULL) {
        return;
    }
    ss_spring_sweep_destroy(sweep->modes);
    ss_watch_unplace(&sweep->placed);
    ss_arena_destroy(&sweep->arena);
    ss_free(sweep);
}
