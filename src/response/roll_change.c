/* roll_change.c - where along a cell of a roll the state of contact changes. */
#include <string.h>

#include "base/numeric.h"
#include "response/roll_parts.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* How far on either side of a root the state is looked at, as a share of what it is to be found within. */
#define BESIDE 0.4

/* After so many guesses by secants the middle is taken. */
enum { GUESSES_MOST = 6 };

/* A cell from t = 0 to 1, and a state that holds at its beginning. */
typedef struct change_search {
    ss_roll_builder *b;
    int state;
    double x0, length;
    double *low_margin, *high_margin; /* n: what must not be negative in the state, at both ends */
} change_search;

static bool holds_at(const change_search *c, double t, double *margin) {
    const ss_roll_builder *b = c->b;
    for (int j = 0; j < b->roll.n; j++) {
        const double *const r = b->cubics + 4 * (size_t)j;
        b->live[j] = r[0] + t * (r[1] + t * (r[2] + t * r[3]));
    }
    return ss_contact_holds(b->finder, c->state, b->live, margin);
}

/* Where the first of the margins that are lost between low and high would be, were they linear. */
static double secant(const change_search *c, double low, double high) {
    double at = high;
    for (int k = 0; k < c->b->roll.n; k++) {
        const double a = c->low_margin[k], b = c->high_margin[k];
        if (b < 0.0 && b < a) {
            at = ss_min(at, low + (high - low) * ss_max(a, 0.0) / (ss_max(a, 0.0) - b));
        }
    }
    return at;
}

static void narrow(change_search *c, double t, double *low, double *high) {
    double *const margin = c->b->change;
    const bool holds = holds_at(c, t, margin);
    memcpy(holds ? c->low_margin : c->high_margin, margin, (size_t)c->b->roll.n * sizeof *margin);
    *(holds ? low : high) = t;
}

/* The state holds up to *low and no longer at *high, which are close together. */
static void find_change(change_search *c, double *low, double *high) {
    const double within = SS_CHANGE_WITHIN / c->length;
    *low = 0.0;
    *high = 1.0;
    holds_at(c, 0.0, c->low_margin);
    if (holds_at(c, 1.0, c->high_margin)) {
        *low = 1.0; /* lost only by rounding, or at the next stand itself */
        return;
    }
    for (int pass = 0; *high - *low > within; pass++) {
        if (pass >= GUESSES_MOST) {
            narrow(c, 0.5 * (*low + *high), low, high);
            continue;
        }
        const double root = secant(c, *low, *high);
        const double before = root - BESIDE * within, after = root + BESIDE * within;
        if (before > *low && before < *high) {
            narrow(c, before, low, high);
        }
        if (after > *low && after < *high) {
            narrow(c, after, low, high);
        }
    }
}

static ss_status add_at(ss_roll_builder *b, double x, int *state) {
    ss_axle_at at[SS_AXLES_MAX];
    ss_roll_stand stand = {.x = x, .place = -1, .at = at, .change = b->change};
    ss_course_locate(b->plans, b->roll.course, x, false, at);
    const ss_status status = ss_roll_contact(b, x, at, false, state, &stand.valid);
    stand.state = *state;
    return status == SS_OK ? ss_roll_add(b, &stand) : status;
}

static ss_status add_changes(ss_roll_builder *b, int from, double x_to, int to, double *margins) {
    const ss_roll *r = &b->roll;
    memset(margins, 0, 2 * (size_t)r->n * sizeof *margins);
    for (int pass = 0; pass < 16 && from != to && from >= 0 && to >= 0; pass++) {
        const int last = r->stand_count - 1;
        change_search c = {.b = b,
                           .state = from,
                           .x0 = r->x[last],
                           .length = x_to - r->x[last],
                           .low_margin = margins,
                           .high_margin = margins + r->n};
        double low, high;
        if (c.length <= SS_CHANGE_WITHIN) {
            return SS_OK;
        }
        ss_roll_reaction_cubics(b->finder->model, r, ss_roll_at(r, last), c.length, b->cubics);
        find_change(&c, &low, &high);
        if (low >= 1.0 || high >= 1.0) {
            return SS_OK; /* the change is at the next stand itself */
        }
        int state = from;
        ss_status status = low > 0.0 ? add_at(b, c.x0 + low * c.length, &state) : SS_OK;
        if (status == SS_OK) {
            state = from;
            status = add_at(b, c.x0 + high * c.length, &state);
        }
        if (status != SS_OK) {
            return status;
        }
        from = state;
    }
    return SS_OK;
}

ss_status ss_roll_changes(ss_roll_builder *b, int from, double x_to, int to) {
    double *const margins = ss_alloc(2 * (size_t)b->roll.n, sizeof *margins);
    if (margins == NULL) {
        return ss_no_memory(b->error);
    }
    const ss_status status = add_changes(b, from, x_to, to, margins);
    ss_free(margins);
    return status;
}
