/* patterns.c - patterns of open bearings, remembered with their maps, and followed while a truck grows. */
#include "response/patterns.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/clones.h"
#include "response/contact_tableau.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* How far beyond a change the next pattern is looked at, relative to one more than the multiple. */
#define BEYOND 1e-9

enum { PASSES_MOST = 4 * SS_STEPS_MOST, FLIPS_MOST = 6 };

/* An item with room after the last one in use. */
static ss_status add_place(ss_patterns *p, ss_pattern **out) {
    const size_t n = (size_t)p->n;
    if (p->count == p->capacity) {
        const int capacity = 2 * p->capacity + 16;
        ss_pattern *const grown = ss_realloc(p->items, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return SS_ERROR_MEMORY;
        }
        p->items = grown;
        p->capacity = capacity;
    }
    if (p->count == p->made) {
        const size_t open = n * sizeof(bool) / sizeof(double) + 1,
                     numbers = n * n + n + (size_t)p->dead_count * n;
        ss_pattern made = {.room = ss_alloc(numbers + open, sizeof *made.room)};
        if (made.room == NULL) {
            return SS_ERROR_MEMORY;
        }
        made.map = made.room;
        made.size = made.map + n * n;
        made.dead = made.size + n;
        made.open = (bool *)(made.room + numbers);
        p->items[p->made++] = made;
    }
    *out = &p->items[p->count];
    return SS_OK;
}

/* ---- finding by the bearings that are open ------------------------------------------------------ */

/* Sum of a number of its own of each open bearing (the mixer is that of splitmix64, S. Vigna 2015). */
static uint64_t hash_of(const bool *open, int n) {
    uint64_t hash = 0;
    for (int i = 0; i < n; i++) {
        uint64_t z = ((uint64_t)i + 1) * 0x9e3779b97f4a7c15u;
        z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9u;
        z = (z ^ z >> 27) * 0x94d049bb133111ebu;
        hash += open[i] ? z ^ z >> 31 : 0;
    }
    return hash;
}

/* Slot of a pattern, or the empty one where it belongs. */
static size_t slot_of(const ss_patterns *p, const bool *open, uint64_t hash) {
    const size_t mask = (size_t)p->slot_count - 1;
    size_t at = (size_t)(hash ^ hash >> 32) & mask;
    while (p->slot[at] >= 0) {
        const ss_pattern *const there = &p->items[p->slot[at]];
        if (there->hash == hash && memcmp(there->open, open, (size_t)p->n * sizeof *open) == 0) {
            break;
        }
        at = (at + 1) & mask;
    }
    return at;
}

static void fill_slots(ss_patterns *p) {
    for (int i = 0; i < p->slot_count; i++) p->slot[i] = -1;
    for (int i = 0; i < p->count; i++) p->slot[slot_of(p, p->items[i].open, p->items[i].hash)] = i;
}

/* Room for one more in the slots. */
static ss_status reserve_slots(ss_patterns *p) {
    if (2 * (p->count + 1) <= p->slot_count) {
        return SS_OK;
    }
    const int count = p->slot_count == 0 ? 64 : 2 * p->slot_count;
    int *const slot = ss_realloc(p->slot, (size_t)count, sizeof *slot);
    if (slot == NULL) {
        return SS_ERROR_MEMORY;
    }
    p->slot = slot;
    p->slot_count = count;
    fill_slots(p);
    return SS_OK;
}

void ss_patterns_forget(ss_patterns *p, int keep) {
    p->count = keep;
    for (int d = 0; d < p->dead_count; d++) p->hint[d] = p->hint[d] < keep ? p->hint[d] : 0;
    fill_slots(p);
}

static ss_status create(int n, const double *S, int dead_count, const double *const *r_dead, ss_patterns *p) {
    const size_t size = (size_t)n + 1;
    *p = (ss_patterns){.n = n, .S = S, .dead_count = dead_count};
    p->r_dead = ss_alloc((size_t)dead_count + 1, sizeof *p->r_dead);
    p->most_dead = ss_alloc((size_t)dead_count + 1, sizeof *p->most_dead);
    p->hint = ss_alloc((size_t)dead_count + 1, sizeof *p->hint);
    for (int d = 0; p->r_dead != NULL && p->most_dead != NULL && d < dead_count; d++) {
        p->r_dead[d] = r_dead[d];
        for (int i = 0; i < n; i++) p->most_dead[d] = ss_max(p->most_dead[d], fabs(r_dead[d][i]));
    }
    p->r = ss_alloc(size, sizeof *p->r);
    p->u = ss_alloc(size, sizeof *p->u);
    p->found = ss_alloc(size, sizeof *p->found);
    p->slope = ss_alloc(size, sizeof *p->slope);
    p->work = ss_alloc(ss_contact_work(n) + 1, sizeof *p->work);
    p->open = ss_alloc(size, sizeof *p->open);
    const bool made = p->r != NULL && p->u != NULL && p->found != NULL && p->r_dead != NULL &&
                      p->most_dead != NULL && p->slope != NULL && p->work != NULL && p->open != NULL;
    return made ? SS_OK : SS_ERROR_MEMORY;
}

ss_status ss_patterns_create(int n, const double *S, int dead_count, const double *const *r_dead,
                             ss_patterns *out, ss_error *error) {
    ss_patterns p;
    int none = 0;
    ss_status status = create(n, S, dead_count, r_dead, &p);
    if (status == SS_OK) {
        status = ss_patterns_find(&p, p.open, &none);
    }
    if (status != SS_OK) {
        ss_patterns_destroy(&p);
        return ss_no_memory(error);
    }
    *out = p;
    return SS_OK;
}

ss_status ss_patterns_copy(const ss_patterns *from, ss_patterns *out, ss_error *error) {
    const size_t n = (size_t)from->n;
    ss_patterns p;
    ss_status status = create(from->n, from->S, from->dead_count, from->r_dead, &p);
    for (int i = 0; status == SS_OK && i < from->count; i++) {
        ss_pattern *place = NULL;
        status = add_place(&p, &place);
        if (status == SS_OK) {
            memcpy(place->open, from->items[i].open, n * sizeof *place->open);
            memcpy(place->map, from->items[i].map, n * n * sizeof *place->map);
            memcpy(place->size, from->items[i].size, n * sizeof *place->size);
            memcpy(place->dead, from->items[i].dead, (size_t)p.dead_count * n * sizeof *place->dead);
            place->hash = from->items[i].hash;
            p.count++;
            status = reserve_slots(&p);
        }
        if (status == SS_OK) {
            p.slot[slot_of(&p, place->open, place->hash)] = i;
        }
    }
    if (status != SS_OK) {
        ss_patterns_destroy(&p);
        return ss_no_memory(error);
    }
    *out = p;
    return SS_OK;
}

void ss_patterns_destroy(ss_patterns *patterns) {
    for (int i = 0; i < patterns->made; i++) ss_free(patterns->items[i].room);
    ss_free(patterns->items);
    ss_free(patterns->slot);
    ss_free(patterns->r);
    ss_free(patterns->u);
    ss_free(patterns->found);
    ss_free(patterns->r_dead);
    ss_free(patterns->most_dead);
    ss_free(patterns->hint);
    ss_free(patterns->slope);
    ss_free(patterns->work);
    ss_free(patterns->open);
    *patterns = (ss_patterns){0};
}

/* Out of the dictionary of the pattern: a basic unknown is its own closed reaction less M times those of the
 * open bearings. */
static bool fill_map(ss_patterns *p, const bool *open, double *map) {
    const int n = p->n;
    ss_contact_tableau tableau;
    memset(p->r, 0, (size_t)n * sizeof *p->r);
    ss_contact_tableau_set(&tableau, n, p->S, p->r, NULL, p->work);
    for (int i = 0; i < n; i++) tableau.open[i] = open[i] ? 1.0 : 0.0;
    if (!ss_contact_tableau_restart(&tableau)) {
        return false;
    }
    for (int k = 0; k < n; k++) {
        for (int j = 0; j < n; j++) {
            const size_t at = (size_t)k * (size_t)n + (size_t)j, to = (size_t)j * (size_t)n + (size_t)k;
            const double own = k == j && !open[k] ? 1.0 : 0.0;
            const double scaled = open[j] ? -tableau.M[at] : own;
            map[to] = scaled * tableau.scale[j] * (open[k] ? tableau.scale[k] : 1.0 / tableau.scale[k]);
        }
    }
    return true;
}

SS_CLONES
void ss_pattern_map(const ss_pattern *pattern, int n, const double *restrict r, double *restrict out) {
    const size_t size = (size_t)n;
    for (size_t k = 0; k < size; k++) out[k] = 0.0;
    for (size_t j = 0; j < size; j++) {
        const double by = r[j];
        const double *restrict const column = pattern->map + j * size;
        for (size_t k = 0; k < size; k++) out[k] += by * column[k];
    }
}

void ss_pattern_openings(const ss_pattern *pattern, int n, const double *r, double *out) {
    ss_pattern_map(pattern, n, r, out);
    for (int k = 0; k < n; k++) out[k] = pattern->open[k] ? out[k] : 0.0;
}

static void fill_products(const ss_patterns *p, ss_pattern *pattern) {
    const size_t n = (size_t)p->n;
    memset(pattern->size, 0, n * sizeof *pattern->size);
    for (size_t j = 0; j < n; j++) {
        for (size_t k = 0; k < n; k++) pattern->size[k] += fabs(pattern->map[j * n + k]);
    }
    for (size_t d = 0; d < (size_t)p->dead_count; d++) {
        ss_pattern_map(pattern, p->n, p->r_dead[d], pattern->dead + d * n);
    }
}

ss_status ss_patterns_find(ss_patterns *p, const bool *open, int *number) {
    const uint64_t hash = hash_of(open, p->n);
    ss_status status = reserve_slots(p);
    if (status != SS_OK) {
        return status;
    }
    const size_t slot = slot_of(p, open, hash);
    if (p->slot[slot] >= 0) {
        *number = p->slot[slot];
        return SS_OK;
    }
    ss_pattern *place = NULL;
    status = add_place(p, &place);
    if (status != SS_OK) {
        return status;
    }
    memcpy(place->open, open, (size_t)p->n * sizeof *open);
    place->hash = hash;
    if (!fill_map(p, place->open, place->map)) {
        *number = -1;
        return SS_OK;
    }
    fill_products(p, place);
    p->slot[slot] = p->count;
    *number = p->count++;
    return SS_OK;
}

/* ---- following ---------------------------------------------------------------------------------- */

/* A way that is being followed. */
typedef struct way {
    ss_patterns *p;
    int dead;
    const double *r_live;
    double most_live;
} way;

static way way_of(ss_patterns *p, int dead, const double *r_live) {
    way w = {.p = p, .dead = dead, .r_live = r_live};
    for (int i = 0; i < p->n; i++) w.most_live = ss_max(w.most_live, fabs(r_live[i]));
    return w;
}

/* The multiple up to which the pattern holds from m on; `first` is what goes negative there. m less one: it
 * does not hold at m. */
static double holds_until(const way *w, int pattern, double m, int *first) {
    ss_patterns *const p = w->p;
    const ss_pattern *const own = &p->items[pattern];
    const double *const dead = own->dead + (size_t)w->dead * (size_t)p->n;
    const double tiny = SS_CONTACT_NOTHING * (p->most_dead[w->dead] + m * w->most_live),
                 tiny_slope = SS_CONTACT_NOTHING * w->most_live;
    double until = SS_INFINITY;
    *first = -1;
    ss_pattern_map(own, p->n, w->r_live, p->slope);
    for (int k = 0; k < p->n; k++) {
        if (dead[k] + m * p->slope[k] < -tiny * own->size[k]) {
            return m - 1.0;
        }
        if (p->slope[k] < -tiny_slope * own->size[k]) {
            const double zero = -dead[k] / p->slope[k];
            if (zero < until) {
                until = ss_max(zero, m);
                *first = k;
            }
        }
    }
    return until;
}

/* The pattern at the multiple m by pivoting; -1: it is singular. */
static ss_status solve_at(const way *w, double m, int guess, int *pattern) {
    ss_patterns *const p = w->p;
    const size_t n = (size_t)p->n;
    memcpy(p->open, p->items[guess].open, n * sizeof *p->open);
    for (size_t i = 0; i < n; i++) p->slope[i] = p->r_dead[w->dead][i] + m * w->r_live[i];
    const ss_status status = ss_contact_solve(p->n, p->S, p->slope, p->found, p->u, p->open, p->work);
    return status == SS_OK ? ss_patterns_find(p, p->open, pattern) : status;
}

/* The pattern beyond m, where `first` of the last one has become zero, and how far it holds. */
static ss_status next_pattern(const way *w, double m, int *first, int *pattern, double *until) {
    ss_patterns *const p = w->p;
    int next = -1;
    const double beyond = m + BEYOND * (1.0 + m);
    memcpy(p->open, p->items[*pattern].open, (size_t)p->n * sizeof *p->open);
    p->open[*first] = !p->open[*first];
    ss_status status = ss_patterns_find(p, p->open, &next);
    if (status != SS_OK) {
        return status;
    }
    *until = next < 0 ? m : holds_until(w, next, beyond, first);
    if (*until < beyond && m == 0.0 && p->hint[w->dead] != next) {
        /* Bearings that only touch under dead load all move at once, as they did last time. */
        next = p->hint[w->dead];
        *until = holds_until(w, next, beyond, first);
    }
    if (*until < beyond) {
        status = solve_at(w, beyond, *pattern, &next);
        *until = status == SS_OK && next >= 0 ? holds_until(w, next, beyond, first) : m;
    }
    if (m == 0.0 && next >= 0) {
        p->hint[w->dead] = next;
    }
    *pattern = next;
    return status;
}

/* Notes a step of the pattern whose slopes are at hand. */
static void add_step(const way *w, double m, int pattern, ss_growth *out) {
    const size_t n = (size_t)w->p->n;
    const ss_pattern *const own = &w->p->items[pattern];
    if (out->count > 0 && out->pattern[out->count - 1] == pattern) {
        return;
    }
    out->from[out->count] = m;
    out->pattern[out->count] = pattern;
    double *const opening = out->opening == NULL ? NULL : out->opening + (size_t)out->count * 2 * n;
    for (size_t k = 0; opening != NULL && k < n; k++) {
        opening[k] = own->open[k] ? own->dead[(size_t)w->dead * n + k] : 0.0;
        opening[n + k] = own->open[k] ? w->p->slope[k] : 0.0;
    }
    out->count++;
}

ss_status ss_patterns_follow(ss_patterns *p, int dead, const double *r_live, int guess, double most,
                             ss_growth *out) {
    ss_status status = SS_OK;
    const way w = way_of(p, dead, r_live);
    int pattern = guess, first = -1;
    double m = 0.0;
    out->count = 0;
    out->clear = true;
    out->tips = false;
    out->end = most;
    if (p->n == 0) {
        out->count = 1;
        out->from[0] = 0.0;
        out->pattern[0] = 0;
        return SS_OK;
    }
    double until = holds_until(&w, pattern, m, &first);
    if (until < m) {
        status = solve_at(&w, m, pattern, &pattern);
        until = status == SS_OK && pattern >= 0 ? holds_until(&w, pattern, m, &first) : -1.0;
        if (until < m) {
            out->clear = false;
            out->end = 0.0;
            return status == SS_ERROR_NUMERIC ? SS_OK : status;
        }
    }
    for (int pass = 0; pass < PASSES_MOST && out->count < SS_STEPS_MOST; pass++) {
        add_step(&w, m, pattern, out);
        if (until >= most) {
            return SS_OK;
        }
        m = ss_max(until, m);
        status = next_pattern(&w, m, &first, &pattern, &until);
        if (status == SS_ERROR_TIPPING) {
            out->end = m;
            out->tips = true;
            return SS_OK;
        }
        if (status != SS_OK || pattern < 0 || until < m) {
            break;
        }
    }
    out->clear = false;
    out->end = m;
    return status == SS_ERROR_NUMERIC ? SS_OK : status;
}

int ss_growth_pattern(const ss_growth *growth, double multiple) {
    int i = growth->count - 1;
    if (i < 0 || (!growth->clear && multiple > growth->end)) {
        return -1;
    }
    while (i > 0 && growth->from[i] > multiple) i--;
    return growth->pattern[i];
}

/* What must not be negative at a multiple into p->slope; p->open: the pattern with what is negative
 * exchanged. False: something is. */
static bool holds_at(const way *w, int pattern, double multiple) {
    ss_patterns *const p = w->p;
    const ss_pattern *const own = &p->items[pattern];
    const double *const dead = own->dead + (size_t)w->dead * (size_t)p->n;
    const double tiny = SS_CONTACT_NOTHING * (p->most_dead[w->dead] + multiple * w->most_live);
    bool good = true;
    ss_pattern_map(own, p->n, w->r_live, p->slope);
    for (int k = 0; k < p->n; k++) {
        p->slope[k] = dead[k] + multiple * p->slope[k];
        const bool bad = p->slope[k] < -tiny * own->size[k];
        p->open[k] = own->open[k] != bad;
        good = good && !bad;
    }
    return good;
}

/* Exchanges what is negative until nothing is. SS_ERROR_NUMERIC: it does not come to an end. */
static ss_status settle(const way *w, double multiple, int *pattern) {
    for (int pass = 0; !holds_at(w, *pattern, multiple); pass++) {
        int next = -1;
        const ss_status status = pass < FLIPS_MOST ? ss_patterns_find(w->p, w->p->open, &next) : SS_OK;
        if (status != SS_OK || next < 0) {
            return status == SS_OK ? SS_ERROR_NUMERIC : status;
        }
        *pattern = next;
    }
    return SS_OK;
}

/* What was found at a multiple, whose numbers are at hand. */
static void fill_opening(const ss_patterns *p, int pattern, double *opening) {
    for (int k = 0; k < p->n; k++) {
        opening[k] = p->items[pattern].open[k] ? ss_max(p->slope[k], 0.0) : 0.0;
    }
}

void ss_patterns_reactions(const ss_patterns *p, int pattern, double *reaction) {
    for (int k = 0; k < p->n; k++) {
        reaction[k] = p->items[pattern].open[k] ? 0.0 : ss_max(p->slope[k], 0.0);
    }
}

ss_status ss_patterns_settle(ss_patterns *p, int dead, const double *r_live, double multiple, int *pattern,
                             double *opening) {
    const way w = way_of(p, dead, r_live);
    const ss_status status = settle(&w, multiple, pattern);
    if (status == SS_OK) {
        fill_opening(p, *pattern, opening);
    }
    return status;
}

ss_status ss_patterns_state(ss_patterns *p, int dead, const double *r_live, double multiple, int *pattern,
                            double *opening) {
    const way w = way_of(p, dead, r_live);
    ss_status status = settle(&w, multiple, pattern);
    if (status == SS_ERROR_NUMERIC) {
        int next = -1;
        status = solve_at(&w, multiple, *pattern, &next);
        if (status == SS_OK && (next < 0 || !holds_at(&w, next, multiple))) {
            status = SS_ERROR_NUMERIC;
        }
        *pattern = status == SS_OK ? next : *pattern;
    }
    if (status == SS_OK) {
        fill_opening(p, *pattern, opening);
    }
    return status;
}

void ss_patterns_weigh(const ss_patterns *patterns, int pattern, const double *opening, double *weight) {
    const size_t n = (size_t)patterns->n;
    const ss_pattern *const p = &patterns->items[pattern];
    for (size_t j = 0; j < n; j++) {
        double sum = 0.0;
        for (size_t k = 0; k < n; k++) sum += p->open[k] ? opening[k] * p->map[j * n + k] : 0.0;
        weight[j] = sum;
    }
}
