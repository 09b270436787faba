/* size_decide.c - what a trial came to, which deck is chosen, and who is on the frontier. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "studies/size_parts.h"

/* ---- one option ------------------------------------------------------------------------------------- */

static double priced(double price, double quantity) {
    return isnan(price) ? 0.0 : price * quantity;
}

static double cost_of(const ss_size *size, const ss_size_option *o, const ss_size_seen *seen) {
    const ss_sizing_prices *const p = &size->sizing->prices;
    switch (o->kind) {
    case SS_SIZE_AS_IT_IS: return 0.0;
    case SS_SIZE_OTHER: return o->other < 0 ? SS_NAN : size->sizing->others[o->other].cost;
    case SS_SIZE_DECK: break;
    }
    if (!size->sizing->priced) {
        return SS_NAN;
    }
    return priced(p->fixed, 1.0) + priced(p->concrete, seen->concrete) + priced(p->bars, seen->bars) +
           priced(p->forms, seen->area) + priced(p->connectors, seen->connectors) +
           priced(p->shores, o->shored ? seen->shores : 0.0);
}

double ss_size_weight(const ss_trial *trial) {
    ss_size_seen seen;
    if (trial->seen_length != sizeof seen) {
        return SS_NAN;
    }
    memcpy(&seen, trial->seen, sizeof seen);
    return seen.weight;
}

ss_status ss_size_take(const ss_size *size, const ss_trial *trial, double weight, ss_size_option *out,
                       ss_arena *arena, ss_error *error) {
    ss_size_seen seen;
    out->tried = true;
    out->failure = trial->failure;
    out->full = trial->full;
    out->governs = out->check = "";
    out->margin = out->cost = out->added = SS_NAN;
    if (trial->failure != NULL || trial->seen_length != sizeof seen) {
        const char *const why = trial->failure != NULL ? trial->failure : "nothing was seen of it";
        out->failure = ss_arena_text(arena, why, strlen(why));
        return out->failure == NULL ? ss_no_memory(error) : SS_OK;
    }
    memcpy(&seen, trial->seen, sizeof seen);
    memcpy(out->factor, seen.factor, sizeof out->factor);
    out->margin = seen.margin;
    out->target = seen.target;
    out->governs = ss_arena_text(arena, seen.governs, strlen(seen.governs));
    out->check = ss_arena_text(arena, seen.check, strlen(seen.check));
    if (out->governs == NULL || out->check == NULL) {
        return ss_no_memory(error);
    }
    out->missed = seen.missed;
    out->unknown = seen.unknown;
    out->use = seen.use;
    out->added = isnan(weight) || ss_close(seen.weight, weight, 1e-12) ? 0.0 : seen.weight - weight;
    out->connectors = seen.connectors;
    out->concrete = seen.concrete;
    out->cost = cost_of(size, out, &seen);
    out->passes = out->margin >= 1.0 && out->missed == 0;
    return SS_OK;
}

/* ---- all of them ------------------------------------------------------------------------------------ */

static bool keeps_checks(const ss_size_option *o) {
    return o->failure == NULL && !isnan(o->margin) && o->missed == 0;
}

/* Less by more than rounding. */
static bool less(double a, double b) {
    return a < b && (isinf(b) || !ss_close(a, b, 1e-9));
}

/* Whether `a` is at least as good in all that matters, and better in something. */
static bool beats(const ss_size *size, const ss_size_option *a, const ss_size_option *b) {
    /* A cost that is not known may be any. */
    const double ours = !size->by_cost ? 0.0 : isnan(a->cost) ? SS_INFINITY : a->cost;
    const double theirs = !size->by_cost ? 0.0 : isnan(b->cost) ? SS_INFINITY : b->cost;
    return !less(a->margin, b->margin) && !less(b->added, a->added) && !less(theirs, ours) &&
           (less(b->margin, a->margin) || less(a->added, b->added) || less(ours, theirs));
}

static double price_of(const ss_size *size, const ss_size_option *o) {
    return size->by_cost ? o->cost : o->added;
}

void ss_size_decide(ss_size *size) {
    size->best = size->nearest = -1;
    for (int i = 0; i < size->count; i++) {
        ss_size_option *const o = &size->options[i];
        o->frontier = keeps_checks(o);
        for (int k = 0; k < size->count && o->frontier; k++) {
            o->frontier = k == i || !keeps_checks(&size->options[k]) || !beats(size, &size->options[k], o);
        }
        if (o->kind != SS_SIZE_DECK || o->failure != NULL || isnan(o->margin)) {
            continue;
        }
        if (o->passes && (size->best < 0 || price_of(size, o) < price_of(size, &size->options[size->best]))) {
            size->best = i;
        }
        const ss_size_option *const n = size->nearest < 0 ? NULL : &size->options[size->nearest];
        const bool nearer = n == NULL || keeps_checks(o) > keeps_checks(n) ||
                            (keeps_checks(o) == keeps_checks(n) && o->margin > n->margin);
        size->nearest = nearer ? i : size->nearest;
    }
}
