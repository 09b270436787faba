/* reach_sample.c - the bearings under trains at sampled places: the few patterns that stand for all, and
 * loads that tip. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/reach.h"
#include "response/state.h"
#include "sillspan/memory.h"

enum {
    CANDIDATES_MOST = 24, /* patterns that may stand for others */
    JUDGES_MOST = 400     /* samples by which they are chosen */
};

/* Plain vehicles, with load factors and allowance in them, near which ratings are of interest. */
static const double level[SS_REACH_LEVELS] = SS_REACH_LEVEL_VALUES;

/* A pattern met at a place. */
typedef struct sample {
    size_t place; /* in `base` */
    size_t live;  /* row of reactions */
    int dead, level, pattern;
    bool middle; /* of its block */
} sample;

typedef struct sampler {
    ss_reacher *reach;
    double *live; /* rows of n */
    size_t row_count, row_capacity;
    sample *samples;
    size_t count, capacity;
    double *weight; /* of each pattern, by how much of a train is on the bridge */
    int weight_capacity;
    double *reactions, *by_other, *further; /* n each: scratch */
    ss_error *error;
} sampler;

/* ---- samples ------------------------------------------------------------------------------------ */

static ss_status reserve(sampler *s) {
    const size_t n = (size_t)s->reach->n + 1;
    if (s->row_count == s->row_capacity) {
        const size_t capacity = 2 * s->row_capacity + 256;
        double *const live = ss_realloc(s->live, capacity * n, sizeof *live);
        if (live == NULL) {
            return ss_no_memory(s->error);
        }
        s->live = live;
        s->row_capacity = capacity;
    }
    if (s->samples == NULL || s->count + (size_t)s->reach->dead_count * SS_REACH_LEVELS > s->capacity) {
        const size_t capacity = 2 * s->capacity + 256;
        sample *const samples = ss_realloc(s->samples, capacity, sizeof *samples);
        if (samples == NULL) {
            return ss_no_memory(s->error);
        }
        s->samples = samples;
        s->capacity = capacity;
    }
    return SS_OK;
}

static ss_status weigh(sampler *s, int pattern, double by) {
    if (s->weight == NULL || pattern >= s->weight_capacity) {
        const int capacity = 2 * pattern + 64;
        double *const weight = ss_realloc(s->weight, (size_t)capacity, sizeof *weight);
        if (weight == NULL) {
            return ss_no_memory(s->error);
        }
        for (int i = s->weight_capacity; i < capacity; i++) weight[i] = 0.0;
        s->weight = weight;
        s->weight_capacity = capacity;
    }
    s->weight[pattern] += by;
    return SS_OK;
}

/* Whether a stand is the middle one of its block. */
static bool place_middle(const ss_course *course, int stand) {
    for (int b = 0; b < course->block_count; b++) {
        if (stand == (course->block[b].first + course->block[b].last) / 2) {
            return true;
        }
    }
    return false;
}

/* A train at a stand; `place` SIZE_MAX: only to see whether it tips. */
static ss_status try_stand(sampler *s, int course, int track, int stand, bool left, size_t place) {
    ss_reacher *const r = s->reach;
    const ss_course *const c = &r->courses.items[course];
    const ss_axle_at *const at = c->at + (size_t)stand * (size_t)c->vehicle->axle_count;
    const bool middle = !left && stand > 0 && place_middle(c, stand);
    ss_status status = reserve(s);
    int on = 0;
    for (int a = 0; a < c->vehicle->axle_count; a++) on += at[a].interval >= 0 || at[a].station >= 0;
    if (status != SS_OK || on == 0) {
        return status;
    }
    double *const live = s->live + s->row_count * (size_t)r->n;
    ss_reach_reactions(r, c, track, at, left, live);
    for (int d = 0; d < r->dead_count; d++) {
        ss_growth growth = {.opening = NULL};
        status = ss_patterns_follow(&r->patterns, d, live, r->dead_pattern[d], SS_REACH_MOST, &growth);
        if (status != SS_OK && status != SS_ERROR_TIPPING) {
            return ss_error_set(s->error, status, "the bearings' contact under a truck: %s",
                                ss_status_text(status));
        }
        if (growth.tips) {
            const double x = c->x[stand] - (left ? SS_NUDGE : 0.0);
            ss_reach_note_tip(
                r, d, &(ss_position){.track = track, .x = x, .on_beam = stand >= c->stand_count}, growth.end);
        }
        for (int k = 0; k < SS_REACH_LEVELS && growth.count > 0; k++) {
            const int pattern = ss_growth_pattern(&growth, ss_min(level[k], growth.end));
            s->samples[s->count++] = (sample){place, s->row_count, d, k, pattern, middle};
            SS_TRY(weigh(s, pattern, (double)(on * on)));
        }
    }
    s->row_count++;
done:
    return status == SS_ERROR_TIPPING ? SS_OK : status;
}

/* A track of the course in the strip: the middle one, in the outer strips the outermost; -1: none runs there.
 */
static int track_in(const ss_reacher *r, int course, int strip) {
    int count = 0, wanted = -1;
    for (int pass = 0; pass < 2; pass++) {
        int seen = 0;
        const int rank = strip == 0 ? 0 : strip == r->bins.count - 1 ? count - 1 : count / 2;
        for (int t = 0; t < r->placements->track_count; t++) {
            if (r->courses.of_track[t] == course && r->bins.of_track[t] == strip) {
                wanted = pass == 1 && seen == rank ? t : wanted;
                seen++;
            }
        }
        count = seen;
    }
    return wanted;
}

static ss_status sample_courses(sampler *s) {
    ss_reacher *const r = s->reach;
    ss_status status = SS_OK;
    for (int c = 0; c < r->courses.count; c++) {
        const ss_course *const course = &r->courses.items[c];
        for (int strip = 0; strip < r->bins.count; strip++) {
            const int track = track_in(r, c, strip);
            for (int b = 0; track >= 0 && b < course->block_count; b++) {
                const size_t place = ss_reach_block(r, c, strip, b);
                const int first = course->block[b].first, last = course->block[b].last;
                SS_TRY(try_stand(s, c, track, first, false, place));
                SS_TRY(try_stand(s, c, track, (first + last) / 2, false, place));
                SS_TRY(try_stand(s, c, track, last, true, place));
            }
        }
    }
done:
    return status;
}

/* ---- patterns that stand for others ------------------------------------------------------------- */

/* What a sample's own pattern opens more than another one would (n), in s->further. */
static void compare_openings(const sampler *s, const sample *at, int pattern) {
    const ss_reacher *const r = s->reach;
    const size_t n = (size_t)r->n;
    const double *const live = s->live + at->live * n, *const dead = r->dead[at->dead].r_dead;
    for (size_t k = 0; k < n; k++) s->reactions[k] = dead[k] + level[at->level] * live[k];
    ss_pattern_openings(&r->patterns.items[pattern], r->n, s->reactions, s->by_other);
    ss_pattern_openings(&r->patterns.items[at->pattern], r->n, s->reactions, s->further);
    for (size_t k = 0; k < n; k++) s->further[k] -= s->by_other[k];
}

/* How far openings by a pattern are from the true ones, in the energy of the bearings' own stiffness. */
static double apart(const sampler *s, const sample *at, int pattern) {
    const ss_reacher *const r = s->reach;
    const size_t n = (size_t)r->n;
    double sum = 0.0;
    if (at->pattern == pattern) {
        return 0.0;
    }
    compare_openings(s, at, pattern);
    for (size_t k = 0; k < n; k++) sum += r->S[k * n + k] * s->further[k] * s->further[k];
    return sqrt(sum);
}

static int commonest(const sampler *s, int *candidate) {
    const int known =
        s->reach->patterns.count < s->weight_capacity ? s->reach->patterns.count : s->weight_capacity;
    int count = 0;
    while (count < CANDIDATES_MOST) {
        int best = -1;
        for (int i = 0; i < known; i++) {
            bool taken = !(s->weight[i] > 0.0);
            for (int k = 0; k < count; k++) taken = taken || candidate[k] == i;
            if (!taken && (best < 0 || s->weight[i] > s->weight[best])) {
                best = i;
            }
        }
        if (best < 0) {
            break;
        }
        candidate[count++] = best;
    }
    return count;
}

/* One after the other the pattern that brings the samples nearest to some chosen one. */
static ss_status choose(sampler *s) {
    ss_reacher *const r = s->reach;
    int candidate[CANDIDATES_MOST];
    const int count = commonest(s, candidate);
    const size_t stride = s->count / JUDGES_MOST + 1;
    double *const far = ss_alloc(2 * JUDGES_MOST + 2, sizeof *far);
    double *const table = ss_alloc((size_t)(count + 1) * (JUDGES_MOST + 1), sizeof *table);
    if (far == NULL || table == NULL) {
        ss_free(far);
        ss_free(table);
        return ss_no_memory(s->error);
    }
    size_t judges = 0;
    for (size_t i = 0; i < s->count && judges < JUDGES_MOST; i += stride, judges++) {
        far[judges] = SS_INFINITY;
        for (int k = 0; k < count; k++) {
            table[(size_t)k * JUDGES_MOST + judges] = apart(s, &s->samples[i], candidate[k]);
        }
    }
    while (r->surveyed_count < SS_REACH_PATTERNS && r->surveyed_count < count) {
        int best = -1;
        double least = SS_INFINITY, before = 0.0;
        for (size_t i = 0; i < judges; i++) before += ss_min(far[i], 1e300);
        for (int k = 0; k < count; k++) {
            double sum = 0.0;
            for (size_t i = 0; i < judges; i++) {
                sum += ss_min(far[i], table[(size_t)k * JUDGES_MOST + i]);
            }
            if (sum < least) {
                least = sum;
                best = k;
            }
        }
        if (best < 0 || (r->surveyed_count > 0 && !(least < before * 0.97))) {
            break;
        }
        r->surveyed[r->surveyed_count++] = candidate[best];
        for (size_t i = 0; i < judges; i++) {
            far[i] = ss_min(far[i], table[(size_t)best * JUDGES_MOST + i]);
        }
    }
    if (r->surveyed_count == 0) {
        r->surveyed[r->surveyed_count++] = 0;
    }
    ss_free(far);
    ss_free(table);
    return SS_OK;
}

/* The surveyed pattern that is nearest to all samples of each place. */
static ss_status find_bases(sampler *s, size_t places) {
    ss_reacher *const r = s->reach;
    const size_t patterns = (size_t)r->surveyed_count;
    double *const sum = ss_alloc(places * patterns + 1, sizeof *sum);
    if (sum == NULL) {
        return ss_no_memory(s->error);
    }
    for (size_t i = 0; i < places; i++) r->base[i] = -1;
    for (size_t i = 0; i < s->count; i++) {
        const sample *const at = &s->samples[i];
        for (size_t k = 0; k < patterns; k++) {
            sum[at->place * patterns + k] += patterns > 1 ? apart(s, at, r->surveyed[k]) : 0.0;
        }
        r->base[at->place] = 0;
    }
    for (size_t i = 0; i < places; i++) {
        for (size_t k = 1; r->base[i] >= 0 && k < patterns; k++) {
            if (sum[i * patterns + k] < sum[i * patterns + (size_t)r->base[i]]) {
                r->base[i] = (int)k;
            }
        }
    }
    ss_free(sum);
    return SS_OK;
}

/* How far the openings of the samples are from those by the base, per unit multiple, on average. */
static void find_beyond(sampler *s, size_t places, int *count) {
    ss_reacher *const r = s->reach;
    const size_t n = (size_t)r->n;
    for (size_t i = 0; i < s->count; i++) count[s->samples[i].place]++;
    for (size_t i = 0; i < s->count; i++) {
        const sample *const at = &s->samples[i];
        compare_openings(s, at, r->surveyed[r->base[at->place]]);
        for (size_t k = 0; k < n; k++) {
            r->beyond[at->place * n + k] += (float)(s->further[k] / level[at->level] / count[at->place]);
        }
        int *const local =
            &r->local[(at->place * (size_t)r->dead_count + (size_t)at->dead) * SS_REACH_LEVELS +
                      (size_t)at->level];
        *local = at->middle || *local < 0 ? at->pattern : *local;
    }
    for (size_t i = 0; i < places * (size_t)r->dead_count * SS_REACH_LEVELS; i++) {
        const size_t dead = i / SS_REACH_LEVELS % (size_t)r->dead_count;
        r->local[i] = r->local[i] < 0 ? r->dead_pattern[dead] : r->local[i];
    }
}

/* The number in `kept` of a pattern that the reach knows under an old one. */
static ss_status carry(const ss_reacher *r, ss_patterns *kept, int *number) {
    return ss_patterns_find(kept, r->patterns.items[*number].open, number);
}

/* Leaves the patterns that are referred to: on the way to them many more are met. */
static ss_status keep_used(sampler *s, size_t places) {
    ss_reacher *const r = s->reach;
    ss_patterns kept;
    ss_status status = ss_patterns_create(r->n, r->S, r->dead_count, r->patterns.r_dead, &kept, s->error);
    if (status != SS_OK) {
        return status;
    }
    for (int d = 0; d < r->dead_count; d++) SS_TRY(carry(r, &kept, &r->dead_pattern[d]));
    for (int i = 0; i < r->surveyed_count; i++) SS_TRY(carry(r, &kept, &r->surveyed[i]));
    for (size_t i = 0; i < places * (size_t)r->dead_count * SS_REACH_LEVELS; i++) {
        SS_TRY(carry(r, &kept, &r->local[i]));
    }
    const ss_patterns met = r->patterns;
    r->patterns = kept;
    kept = met;
done:
    ss_patterns_destroy(&kept);
    return status == SS_OK ? SS_OK : ss_no_memory(s->error);
}

/* ---- public ------------------------------------------------------------------------------------- */

ss_status ss_reach_sample(ss_reacher *r, ss_error *error) {
    ss_status status = SS_OK;
    sampler s = {.reach = r, .error = error};
    const size_t tips = (size_t)r->dead_count * (size_t)r->placements->traffic_count;
    size_t places = 0;
    int *count = NULL;
    r->base_first = ss_alloc((size_t)r->courses.count + 1, sizeof *r->base_first);
    r->tips = ss_alloc(tips + 1, sizeof *r->tips);
    SS_TRY(r->base_first == NULL || r->tips == NULL ? ss_no_memory(error) : SS_OK);
    for (size_t i = 0; i < tips; i++) {
        r->tips[i] = (ss_reach_tip){.multiple = SS_INFINITY};
    }
    for (int c = 0; c < r->courses.count; c++) {
        r->base_first[c] = places;
        places += (size_t)r->bins.count * (size_t)r->courses.items[c].block_count;
    }
    r->base = ss_alloc(places + 1, sizeof *r->base);
    r->beyond = ss_alloc(places * (size_t)r->n + 1, sizeof *r->beyond);
    r->local = ss_alloc(places * (size_t)r->dead_count * SS_REACH_LEVELS + 1, sizeof *r->local);
    count = ss_alloc(places + 1, sizeof *count);
    s.reactions = ss_alloc(3 * (size_t)r->n + 1, sizeof *s.reactions);
    SS_TRY(r->base == NULL || r->beyond == NULL || r->local == NULL || count == NULL || s.reactions == NULL
               ? ss_no_memory(error)
               : SS_OK);
    s.by_other = s.reactions + r->n;
    s.further = s.by_other + r->n;
    for (size_t i = 0; i < places * (size_t)r->dead_count * SS_REACH_LEVELS; i++) r->local[i] = -1;
    SS_TRY(sample_courses(&s));
    SS_TRY(choose(&s));
    SS_TRY(find_bases(&s, places));
    find_beyond(&s, places, count);
    SS_TRY(ss_reach_refine_tips(r, error));
    SS_TRY(keep_used(&s, places));
done:
    ss_free(count);
    ss_free(s.live);
    ss_free(s.samples);
    ss_free(s.weight);
    ss_free(s.reactions);
    return status;
}
