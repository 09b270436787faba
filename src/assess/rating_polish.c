/* rating_polish.c - governing positions moved along their tracks to where the rating factor is least. */
#include <math.h>

#include "assess/rating_equation.h"
#include "assess/rating_search.h"
#include "base/numeric.h"
#include "base/try.h"

/* First step and last one, m. A factor is flat at its least, so that what a last step leaves is of second
 * order. */
#define STEP_FIRST 0.02
#define STEP_LAST 2e-6

/* A position that no small step improves stays. */
#define STEP_TRIED 2e-4

/* One effect on one track. */
typedef struct polish {
    ss_rating_search *search;
    ss_error *error;
    int rated, traffic;
    bool most;
    int dead;
    double *u, *force, *r_live;
} polish;

/* Factor with the front axle at a position, straight from the load. */
static ss_status factor_at(const polish *p, const ss_position *position, ss_reach *reach) {
    const ss_grillage *const grillage = p->search->permanent->grillage;
    const ss_mesh *const mesh = ss_grillage_mesh(grillage);
    const size_t at = ss_rating_at(p->search, p->rated, p->traffic);
    ss_status status = SS_OK;
    ss_load load = {0};
    const int *springs = NULL;
    const double *S = NULL;
    SS_TRY(ss_placements_load(mesh, p->search->placements, position, &load, p->error));
    SS_TRY(ss_grillage_respond(grillage, NULL, load.nodal, NULL, p->u, p->force, p->error));
    const int n = ss_grillage_contact(grillage, &springs, &S);
    for (int i = 0; i < n; i++) p->r_live[i] = p->force[springs[i]];
    const ss_state closed = {.u = p->u, .force = p->force, .load = load};
    ss_contact_path path = ss_rating_search_path(p->search, p->rated, p->dead);
    path.r_live = p->r_live;
    path.e_live = ss_state_effect(mesh, &closed, &p->search->rated->items[p->rated].effect);
    status = ss_rating_follow(&path, p->search->multiplier[at], p->search->capacity[at], p->most, reach,
                              p->search->work);
    if (status != SS_OK) {
        ss_error_set(p->error, status, "the bearings' contact could not be followed up to a rated load: %s",
                     ss_status_text(status));
    }
done:
    ss_load_destroy(&load);
    return status;
}

/* Moves `found` by `step` if that lowers its factor by more than rounding. */
static ss_status try_step(const polish *p, double step, ss_rating_case *found, bool *moved) {
    ss_position position = found->position;
    ss_reach reach;
    position.x += step;
    const ss_status status = factor_at(p, &position, &reach);
    *moved = status == SS_OK && reach.factor > 0.0 && reach.factor < found->rf * (1.0 - 1e-12);
    if (*moved) {
        found->position = position;
        found->rf = reach.factor;
        found->tips = reach.tips;
        found->rf_linear = reach.linear;
    }
    return status;
}

/* Steps in the direction that helps, halved whenever neither does. Most positions have an axle where the
 * factor has a corner, and stay. */
static ss_status polish_one(const polish *p, ss_rating_case *found) {
    ss_status status = SS_OK;
    ss_rating_case best = *found;
    bool moved = false;
    double direction = 1.0;
    SS_TRY(try_step(p, STEP_TRIED, &best, &moved));
    if (!moved) {
        direction = -1.0;
        SS_TRY(try_step(p, -STEP_TRIED, &best, &moved));
    }
    for (double step = STEP_FIRST; moved && step > STEP_LAST; step *= 0.5) {
        bool further = true;
        for (int i = 0; further && i < 8; i++) SS_TRY(try_step(p, direction * step, &best, &further));
        bool back = false;
        SS_TRY(try_step(p, -direction * step, &best, &back));
        direction = back ? -direction : direction;
    }
    *found = best;
done:
    return status;
}

/* A state does not tell the effect within a bay that a wheel stands on; and a wheel on a beam stays on it. */
static bool can_move(const ss_rated *rated, const ss_rating_case *found) {
    const bool at_end =
        rated->effect.member != SS_MEMBER_BEAM || rated->effect.s == 0.0 || rated->effect.s == 1.0;
    return at_end && !found->position.on_beam;
}

static ss_status polish_group(polish *p, int group) {
    ss_rating_search *const search = p->search;
    const ss_rating_case *const governs =
        ss_rating_search_sought(search, group, p->traffic, &p->rated, &p->most);
    if (governs == NULL || !can_move(&search->rated->items[p->rated], governs)) {
        return SS_OK;
    }
    ss_rating_case *const found = ss_rating_case_at(search, p->rated, p->traffic, p->most);
    double *const lowest = &search->lowest[ss_rating_at(search, group, p->traffic)];
    p->dead = found->dead;
    const ss_status status = polish_one(p, found);
    *lowest = ss_min(*lowest, found->rf);
    return status;
}

ss_status ss_rating_search_polish(ss_rating_search *search, ss_error *error) {
    const ss_mesh *const mesh = ss_grillage_mesh(search->permanent->grillage);
    ss_status status = SS_OK;
    polish p = {.search = search, .error = error};
    p.u = ss_alloc((size_t)mesh->order, sizeof *p.u);
    p.force = ss_alloc((size_t)mesh->spring_count, sizeof *p.force);
    p.r_live = ss_alloc((size_t)search->contact_count, sizeof *p.r_live);
    SS_TRY(p.u == NULL || p.force == NULL || p.r_live == NULL
               ? ss_error_set(error, SS_ERROR_MEMORY, "no memory to move the governing positions")
               : SS_OK);
    for (p.traffic = 0; p.traffic < search->placements->traffic_count; p.traffic++) {
        for (int g = 0; g < search->rated->group_count; g++) SS_TRY(polish_group(&p, g));
    }
done:
    ss_free(p.u);
    ss_free(p.force);
    ss_free(p.r_live);
    return status;
}
