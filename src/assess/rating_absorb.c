/* rating_absorb.c - what one envelope says of the smallest multiples: sections in order of promise, followed
 * along their contact paths. */
#include "assess/rating_absorb.h"

#include <math.h>

#include "assess/rating_equation.h"
#include "base/numeric.h"
#include "base/try.h"

/* Sections whose estimated factor exceeds the group's smallest by more than this are not followed; those
 * within NEAR have all their candidates followed. The estimate is exact at the multiple that the positions
 * were chosen for. */
#define WORTH 1.5
#define NEAR 1.1

/* One effect of the envelope under one of its traffics, with one sign. */
typedef struct search_spot {
    int e, t;           /* in the envelope */
    int rated, traffic; /* in the search */
    bool most;
} search_spot;

static search_spot spot_at(const ss_rating_look *look, int e, int t, bool most) {
    return (search_spot){e, t, look->request->which[e],
                         look->request->traffic < 0 ? t : look->request->traffic, most};
}

static size_t extreme_at(const ss_rating_look *look, const search_spot *spot) {
    return ((size_t)spot->e * (size_t)look->envelope->traffic_count + (size_t)spot->t) * 2 +
           (spot->most ? 1 : 0);
}

/* Factor if the effect grew in proportion to what it is at the multiple looked at. */
static double estimate(const ss_rating_look *look, const search_spot *spot) {
    const size_t at = ss_rating_at(look->search, spot->rated, spot->traffic);
    const double live = look->search->multiplier[at] * look->envelope->extremes[extreme_at(look, spot)].value;
    return ss_rating_linear(look->search->capacity[at], look->envelope->dead[spot->e], live, spot->most);
}

static void keep(const ss_rating_look *look, const search_spot *spot, const ss_reach *reach,
                 const ss_position *position) {
    ss_rating_search *const search = look->search;
    ss_rating_case *const kept = ss_rating_case_at(search, spot->rated, spot->traffic, spot->most);
    const bool first = isinf(kept->rf) && kept->position.track < 0;
    if (first || reach->factor < kept->rf * (1.0 - SS_RATING_TIE)) {
        kept->rf = reach->factor;
        kept->rf_linear = reach->linear;
        kept->tips = reach->tips;
        kept->dead = look->request->dead;
        kept->position = *position;
        double *const lowest =
            &search->lowest[ss_rating_at(search, search->rated->items[spot->rated].group, spot->traffic)];
        *lowest = ss_min(*lowest, kept->rf);
    }
}

static ss_status followed(ss_status status, ss_error *error) {
    return status == SS_OK
               ? SS_OK
               : ss_error_set(error, status,
                              "the bearings' contact could not be followed up to a rated load: %s",
                              ss_status_text(status));
}

/* Follows up to `most` of the candidates of a spot. */
static ss_status follow(const ss_rating_look *look, const search_spot *spot, int most) {
    ss_rating_search *const search = look->search;
    const ss_envelope *const envelope = look->envelope;
    const size_t at = ss_rating_at(search, spot->rated, spot->traffic);
    ss_status status = SS_OK;
    for (int c = 0; c < most; c++) {
        const size_t candidate = extreme_at(look, spot) * SS_CANDIDATES + (size_t)c;
        const ss_position *const position = &envelope->candidates[candidate];
        if (position->track < 0) {
            break;
        }
        ss_contact_path path = ss_rating_search_path(search, spot->rated, look->request->dead);
        path.e_live = envelope->candidate_closed[candidate];
        if (path.n > 0) {
            SS_TRY(ss_rating_reactions_get(&search->reactions, position, &path.r_live, look->error));
        }
        ss_reach reach;
        SS_TRY(followed(ss_rating_follow(&path, search->multiplier[at], search->capacity[at], spot->most,
                                         &reach, search->work),
                        look->error));
        keep(look, spot, &reach, position);
    }
done:
    return status;
}

/* A section that dead load alone fills needs no truck. */
static bool full_already(const ss_rating_look *look, const search_spot *spot) {
    const size_t at = ss_rating_at(look->search, spot->rated, spot->traffic);
    if (ss_rating_headroom(look->search->capacity[at], look->envelope->dead[spot->e], spot->most) > 0.0) {
        return false;
    }
    const ss_reach reach = {0};
    keep(look, spot, &reach, &look->envelope->candidates[extreme_at(look, spot) * SS_CANDIDATES]);
    return true;
}

/* The effects e0 <= e < e1 are one group. The most promising section is followed first, so that few others
 * need to be. */
static ss_status follow_group(const ss_rating_look *look, int e0, int e1, int t) {
    ss_status status = SS_OK;
    const search_spot any = spot_at(look, e0, t, true);
    const double *const lowest =
        &look->search
             ->lowest[ss_rating_at(look->search, look->search->rated->items[any.rated].group, any.traffic)];
    double least = (double)INFINITY;
    search_spot first = any;
    for (int k = 2 * e0; k < 2 * e1; k++) {
        const search_spot spot = spot_at(look, k / 2, t, k % 2 == 1);
        const double guess = full_already(look, &spot) ? (double)INFINITY : estimate(look, &spot);
        if (guess < least) {
            least = guess;
            first = spot;
        }
    }
    if (isinf(least)) {
        return SS_OK;
    }
    SS_TRY(follow(look, &first, SS_CANDIDATES));
    for (int k = 2 * e0; k < 2 * e1; k++) {
        const search_spot spot = spot_at(look, k / 2, t, k % 2 == 1);
        const double guess = estimate(look, &spot);
        if (guess == 0.0 || isinf(guess) || (spot.e == first.e && spot.most == first.most)) {
            continue;
        }
        if (guess <= WORTH * *lowest) {
            SS_TRY(follow(look, &spot, guess <= NEAR * *lowest ? SS_CANDIDATES : 1));
        } else {
            ss_rating_case *const passed =
                ss_rating_case_at(look->search, spot.rated, spot.traffic, spot.most);
            passed->guess = ss_min(passed->guess, guess);
        }
    }
done:
    return status;
}

/* A position at which a truck tips the bridge, and the multiple at which it does. */
static ss_status note_tip(const ss_rating_look *look, int traffic, const ss_position *position,
                          const double *nothing) {
    ss_rating_search *const search = look->search;
    ss_status status = SS_OK;
    /* No effect that could be full: the path ends where the bridge tips. */
    ss_contact_path path = {.n = look->envelope->contact_count,
                            .S = search->S,
                            .r_dead = look->envelope->r_dead,
                            .opening = nothing};
    SS_TRY(ss_rating_reactions_get(&search->reactions, position, &path.r_live, look->error));
    ss_reach reach;
    SS_TRY(followed(ss_contact_reach(&path, 1.0, true, (double)INFINITY, &reach, search->work), look->error));
    ss_rating_tip *const tip = &search->tips[traffic];
    if (reach.tips && reach.factor < tip->multiple * (1.0 - SS_RATING_TIE)) {
        *tip = (ss_rating_tip){reach.factor, look->request->dead, *position};
    }
done:
    return status;
}

static ss_status note_tips(const ss_rating_look *look) {
    const ss_envelope *const envelope = look->envelope;
    ss_status status = SS_OK;
    if (!envelope->tips) {
        return SS_OK;
    }
    double *const nothing = ss_alloc((size_t)envelope->contact_count, sizeof *nothing);
    SS_TRY(nothing == NULL ? SS_ERROR_MEMORY : SS_OK);
    for (int t = 0; t < envelope->traffic_count; t++) {
        if (envelope->traffic_tip[t].track >= 0) {
            const int traffic = look->request->traffic < 0 ? t : look->request->traffic;
            SS_TRY(note_tip(look, traffic, &envelope->traffic_tip[t], nothing));
        }
    }
done:
    ss_free(nothing);
    return status;
}

/* What the contact paths of the effects start from. */
static void copy_dead(const ss_rating_look *look) {
    ss_rating_search *const search = look->search;
    const ss_envelope *const envelope = look->envelope;
    const size_t n = (size_t)envelope->contact_count;
    const size_t first = (size_t)look->request->dead * (size_t)search->rated->count;
    for (size_t i = 0; i < n; i++) search->r_dead[(size_t)look->request->dead * n + i] = envelope->r_dead[i];
    for (int e = 0; e < look->request->count; e++) {
        const size_t rated = (size_t)look->request->which[e];
        search->dead[first + rated] = envelope->dead[e];
        search->dead_closed[first + rated] = envelope->dead_closed[e];
        for (size_t i = 0; i < n; i++) search->opening[rated * n + i] = envelope->opening[(size_t)e * n + i];
    }
}

ss_status ss_rating_absorb(const ss_rating_look *look) {
    ss_status status = SS_OK;
    ss_rating_search *const search = look->search;
    const ss_rating_request *const request = look->request;
    copy_dead(look);
    SS_TRY(note_tips(look));
    for (int e0 = 0, e1 = 0; e0 < request->count; e0 = e1) {
        const int group = search->rated->items[request->which[e0]].group;
        while (e1 < request->count && search->rated->items[request->which[e1]].group == group) e1++;
        for (int t = 0; t < look->envelope->traffic_count; t++) SS_TRY(follow_group(look, e0, e1, t));
    }
done:
    return status;
}
