/* ratings_proof.c - which results of trucks abreast are proven: those that govern, and those that nearly do.
 */
#include "assess/ratings_proof.h"

#include "base/numeric.h"
#include "response/state.h"

/* Members whose factors come next are looked into as well: so many, if they are within this of the one that
 * governs. */
enum { NEXT_MOST = 2 };
#define NEXT_WITHIN 1.3

typedef struct asking {
    const ss_rated_member *members;
    const int *group;
    const ss_ratings *ratings;
    ss_reach_asked *asked; /* count; room for NEXT_MOST of each check and traffic */
    int count;
} asking;

static void ask(asking *a, int item, double below) {
    const ss_rating_item *const own = &a->ratings->items[item];
    const ss_rated_member *const member = &a->members[a->group[item]];
    const int at = own->check * a->ratings->traffic_count + own->traffic;
    const ss_reach_asked one = {&member->member, member->demand[at], own->traffic, below / member->ratio[at]};
    for (int i = 0; i < a->count; i++) {
        ss_reach_asked *const other = &a->asked[i];
        if (other->member == one.member && other->demand == one.demand && other->traffic == one.traffic) {
            other->below = ss_max(other->below, one.below);
            return;
        }
    }
    a->asked[a->count++] = one;
}

static void ask_governing(asking *a, int at) {
    const int item = a->ratings->governing[at];
    if (!a->ratings->items[item].tips) {
        ask(a, item, 0.0);
    }
}

/* Those that come next after the one that governs. */
static void ask_next(asking *a, int at) {
    const ss_ratings *const r = a->ratings;
    const int governing = r->governing[at];
    const double least = r->items[governing].rf;
    int taken[NEXT_MOST];
    for (int k = 0; k < NEXT_MOST; k++) {
        int best = -1;
        for (int i = 0; i < r->count; i++) {
            const ss_rating_item *const item = &r->items[i];
            bool other = item->check * r->traffic_count + item->traffic == at && i != governing &&
                         item->rf < NEXT_WITHIN * least && !item->tips;
            for (int j = 0; j < k; j++) other = other && taken[j] != i;
            best = other && (best < 0 || item->rf < r->items[best].rf) ? i : best;
        }
        if (best < 0) {
            return;
        }
        taken[k] = best;
        ask(a, best, least);
    }
}

ss_status ss_ratings_prove(const ss_reacher *reach, const ss_rated_member *members, const int *group,
                           const ss_ratings *ratings, bool next, ss_arena *arena, ss_error *error) {
    const int pairs = ratings->check_count * ratings->traffic_count;
    asking a = {.members = members, .group = group, .ratings = ratings};
    a.asked = ss_arena_alloc(arena, (size_t)pairs * NEXT_MOST + 1, sizeof *a.asked);
    if (a.asked == NULL) {
        return ss_no_memory(error);
    }
    for (int at = 0; at < pairs; at++) {
        const int check = at / ratings->traffic_count, traffic = at % ratings->traffic_count;
        if (ratings->governing[at] < 0 || !ss_reach_provable(reach, traffic)) {
            continue;
        }
        if (!next) {
            ask_governing(&a, at);
        } else if (ratings->checks[check].limit != SS_LIMIT_DEFLECTION) {
            ask_next(&a, at);
        }
    }
    return a.count == 0 ? SS_OK : ss_reach_prove(reach, a.asked, a.count, error);
}
