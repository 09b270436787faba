/* bounds_refine.c - pattern searches around the few worst and best points that were found. */
#include "studies/bounds_parts.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"

/* Searches on each side, the second from a point that lies apart from the first. */
#define STARTS 2
#define APART 0.3

/* Steps, as parts of a range, from the first to the last. */
#define FIRST_STEP 0.25
#define LAST_STEP (1.0 / 64.0)

typedef struct pattern {
    double sign; /* -1: the least is looked for, 1: the largest */
    int at;      /* run */
    double step;
    bool active;
    int first_poll, poll_count; /* in polls */
    double jump[SS_UNKNOWNS];   /* all moves that helped, together */
    int moves;
} pattern;

/* One neighbour of a pattern's place. */
typedef struct poll {
    int run, unknown;
} poll;

static const double *places_of(const ss_runs *runs, int run) {
    return runs->places + (size_t)run * (size_t)runs->set->count;
}

/* How much better a run is than the pattern's place; what is not known is not better. */
static double gain(const ss_runs *runs, const pattern *p, int run) {
    const double here = ss_runs_value(runs, p->at);
    const double there = ss_runs_value(runs, run);
    if (isnan(there) || there == here || ss_close(there, here, 1e-12)) {
        return 0.0;
    }
    return ss_max(0.0, p->sign * (there - here));
}

/* ---- starts --------------------------------------------------------------------------------------- */

static double distance(const ss_runs *runs, int a, int b) {
    double most = 0.0;
    for (int j = 0; j < runs->set->count; j++) {
        most = ss_max(most, fabs(places_of(runs, a)[j] - places_of(runs, b)[j]));
    }
    return most;
}

/* The best run of a side that lies apart from run `from` (-1: anywhere), or -1. */
static int best_run(const ss_runs *runs, double sign, int from) {
    int best = -1;
    for (int i = 0; i < runs->count; i++) {
        const double value = sign * ss_runs_value(runs, i);
        if (!isnan(value) && (best < 0 || value > sign * ss_runs_value(runs, best)) &&
            (from < 0 || distance(runs, from, i) > APART)) {
            best = i;
        }
    }
    return best;
}

static int begin(const ss_runs *runs, pattern *patterns) {
    int count = 0;
    int first[2] = {-1, -1};
    for (int k = 0; k < STARTS; k++) {
        for (int side = 0; side < 2; side++) {
            const double sign = side == SS_BOUNDS_WORST ? -1.0 : 1.0;
            const int at = k > 0 && first[side] < 0 ? -1 : best_run(runs, sign, first[side]);
            if (at >= 0) {
                patterns[count++] = (pattern){.sign = sign, .at = at, .step = FIRST_STEP, .active = true};
            }
            first[side] = k == 0 ? at : first[side];
        }
    }
    return count;
}

/* ---- one round ------------------------------------------------------------------------------------ */

static bool add_poll(ss_runs *runs, pattern *p, int unknown, double place, poll *polls, int *count) {
    double places[SS_UNKNOWNS];
    memcpy(places, places_of(runs, p->at), (size_t)runs->set->count * sizeof *places);
    places[unknown] = ss_clamp(place, 0.0, 1.0);
    const int run = ss_runs_add(runs, places);
    if (run >= 0) {
        polls[(*count)++] = (poll){run, unknown};
        p->poll_count++;
    }
    return run >= 0;
}

/* Adds the neighbours; false when some found no room. */
static bool add_polls(ss_runs *runs, pattern *p, poll *polls, int *count) {
    bool room = true;
    p->first_poll = *count;
    p->poll_count = 0;
    for (int j = 0; j < runs->set->count; j++) {
        const ss_unknown *const u = &runs->set->items[j];
        const double here = places_of(runs, p->at)[j];
        if (ss_bounds_listed(u)) {
            for (int k = 0; k < u->text_count; k++) {
                room = add_poll(runs, p, j, k / (u->text_count - 1.0), polls, count) && room;
            }
            continue;
        }
        /* A whole number takes whole steps. */
        const double step = u->whole ? ss_max(p->step, 1.0 / (u->box_high - u->box_low)) : p->step;
        room = add_poll(runs, p, j, here - step, polls, count) && room;
        room = add_poll(runs, p, j, here + step, polls, count) && room;
    }
    return room;
}

/* The best neighbour of each unknown that helps goes into the jump; returns the best of all, or the place
 * itself. */
static int read_polls(const ss_runs *runs, pattern *p, const poll *polls) {
    double own[SS_UNKNOWNS] = {0.0};
    double most = 0.0;
    int best = p->at;
    p->moves = 0;
    memcpy(p->jump, places_of(runs, p->at), (size_t)runs->set->count * sizeof *p->jump);
    for (int i = p->first_poll; i < p->first_poll + p->poll_count; i++) {
        const double g = gain(runs, p, polls[i].run);
        const int j = polls[i].unknown;
        if (g > own[j]) {
            p->moves += own[j] == 0.0;
            own[j] = g;
            p->jump[j] = places_of(runs, polls[i].run)[j];
        }
        if (g > most) {
            most = g;
            best = polls[i].run;
        }
    }
    return best;
}

/* All patterns look around; those that find nothing better halve their step. */
static ss_status go_round(ss_boxed *b, pattern *patterns, int count, poll *polls) {
    ss_status status = SS_OK;
    ss_runs *const runs = b->runs;
    int polled = 0;
    bool full[2 * STARTS];
    int best[2 * STARTS];
    int jumps[2 * STARTS];
    for (int i = 0; i < count; i++) {
        full[i] = patterns[i].active && add_polls(runs, &patterns[i], polls, &polled);
    }
    SS_TRY(ss_runs_answer(runs, b->error));
    for (int i = 0; i < count; i++) {
        pattern *const p = &patterns[i];
        best[i] = p->active ? read_polls(runs, p, polls) : p->at;
        jumps[i] = p->active && p->moves > 1 ? ss_runs_add(runs, p->jump) : -1;
    }
    SS_TRY(ss_runs_answer(runs, b->error));
    for (int i = 0; i < count; i++) {
        pattern *const p = &patterns[i];
        if (!p->active) {
            continue;
        }
        const bool far = gain(runs, p, jumps[i]) > gain(runs, p, best[i]);
        const int to = far ? jumps[i] : best[i];
        if (to != p->at) {
            p->at = to;
        } else if (full[i]) {
            p->step *= 0.5;
            p->active = p->step >= LAST_STEP;
        } else {
            p->active = false;
            p->step = FIRST_STEP; /* not settled */
        }
    }
done:
    return status;
}

/* ---- the search ----------------------------------------------------------------------------------- */

static int most_polls(const ss_unknown_set *set) {
    int count = 0;
    for (int j = 0; j < set->count; j++) {
        count += ss_bounds_listed(&set->items[j]) ? set->items[j].text_count : 2;
    }
    return 2 * STARTS * count;
}

static void note_end(ss_boxed *b, ss_bounds_side side, const pattern *patterns, int count) {
    const ss_runs *const runs = b->runs;
    const int n = runs->set->count;
    ss_bounds_end *const end = &b->out->ends[side];
    const int at = best_run(runs, side == SS_BOUNDS_WORST ? -1.0 : 1.0, -1);
    if (at < 0) {
        return;
    }
    end->point = runs->points + (size_t)at * (size_t)n;
    end->answers = runs->values + (size_t)at * (size_t)runs->evaluator->answer_count;
    for (int j = 0; j < n; j++) {
        const double place = places_of(runs, at)[j];
        end->edge[j] = ss_bounds_listed(&runs->set->items[j]) ? 0 : place <= 0.0 ? -1 : place >= 1.0 ? 1 : 0;
        end->inside = end->inside || (end->edge[j] == 0 && !ss_bounds_listed(&runs->set->items[j]));
    }
    for (int i = 0; i < count; i++) {
        end->settled =
            end->settled || (!runs->stopped && patterns[i].at == at && patterns[i].step < LAST_STEP);
    }
}

ss_status ss_bounds_refine(ss_boxed *b) {
    ss_status status = SS_OK;
    ss_runs *const runs = b->runs;
    const int before = runs->count;
    pattern patterns[2 * STARTS];
    poll *const polls = ss_arena_alloc(runs->arena, (size_t)most_polls(runs->set), sizeof *polls);
    const int count = begin(runs, patterns);
    if (polls == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (bool any = count > 0; any && !runs->stopped;) {
        SS_TRY(go_round(b, patterns, count, polls));
        any = false;
        for (int i = 0; i < count; i++) {
            any = any || patterns[i].active;
        }
    }
    b->out->refined = runs->count - before;
    note_end(b, SS_BOUNDS_WORST, patterns, count);
    note_end(b, SS_BOUNDS_BEST, patterns, count);
done:
    return status;
}
