/* reach.c - what a search for limits knows of a bridge: dead loads, patterns of bearings along every course,
 * and where it tips. */
#include "response/reach.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"

void ss_reach_destroy(ss_reacher *reach) {
    for (int d = 0; d < reach->dead_count; d++) ss_contact_model_destroy(&reach->dead[d]);
    ss_patterns_destroy(&reach->patterns);
    ss_bins_destroy(&reach->bins);
    ss_courses_destroy(&reach->courses);
    ss_axle_plans_destroy(&reach->plans);
    ss_free(reach->base);
    ss_free(reach->beyond);
    ss_free(reach->local);
    ss_free(reach->base_first);
    ss_free(reach->place);
    ss_free(reach->place_first);
    ss_free(reach->tips);
    ss_free(reach->lane_reactions);
    *reach = (ss_reacher){0};
}

/* ---- dead loads --------------------------------------------------------------------------------- */

static ss_status make_deads(ss_reacher *r, const ss_dead_factors *factors, int count, ss_error *error) {
    ss_status status = SS_OK;
    for (int d = 0; d < count; d++) {
        const ss_envelope_options options = {.factors = factors[d], .live_factor = 1.0};
        SS_TRY(ss_contact_model_create(r->permanent, &options, d == 0, &r->dead[d], error));
        r->factors[d] = factors[d];
        r->dead_count++;
    }
    r->n = r->dead[0].n;
    r->S = r->dead[0].S;
    SS_TRY(ss_contact_model_lines(&r->dead[0], &r->plans, error));
    const double *r_dead[SS_REACH_DEADS];
    for (int d = 0; d < count; d++) r_dead[d] = r->dead[d].r_dead;
    SS_TRY(ss_patterns_create(r->n, r->S, count, r_dead, &r->patterns, error));
    for (int d = 0; d < count; d++) {
        SS_TRY(ss_patterns_find(&r->patterns, r->dead[d].open_dead, &r->dead_pattern[d]));
        r->dead_pattern[d] = r->dead_pattern[d] < 0 ? 0 : r->dead_pattern[d];
    }
done:
    return status;
}

/* ---- places ------------------------------------------------------------------------------------- */

/* Whether a track of the traffic takes the course within the strip. */
static bool goes_there(const ss_reacher *r, const ss_traffic *traffic, int course, int strip) {
    for (int i = -1; i < SS_ABREAST_MAX; i++) {
        const int first = i < 0 ? traffic->first_track : traffic->lane_first[i];
        const int count = i < 0 ? traffic->track_count : traffic->lane_count[i];
        for (int t = first; t < first + count; t++) {
            if (r->courses.of_track[t] == course && r->bins.of_track[t] == strip) {
                return true;
            }
        }
    }
    return false;
}

/* Counts the places of all traffic, and fills them in when there is room. */
static int list_places(ss_reacher *r) {
    int count = 0;
    for (int t = 0; t < r->placements->traffic_count; t++) {
        r->place_first[t] = count;
        for (int c = 0; c < r->courses.count; c++) {
            for (int strip = 0; strip < r->bins.count; strip++) {
                if (!goes_there(r, &r->placements->traffic[t], c, strip)) {
                    continue;
                }
                for (int b = 0; b < r->courses.items[c].block_count; b++) {
                    const size_t at = ss_reach_block(r, c, strip, b), n = (size_t)r->n;
                    if (r->base[at] < 0) {
                        continue;
                    }
                    if (r->place != NULL) {
                        r->place[count] =
                            (ss_reach_place){c,
                                             strip,
                                             b,
                                             r->base[at],
                                             r->beyond + at * n,
                                             r->local + at * (size_t)r->dead_count * SS_REACH_LEVELS};
                    }
                    count++;
                }
            }
        }
    }
    r->place_first[r->placements->traffic_count] = count;
    return count;
}

static ss_status find_places(ss_reacher *r, ss_error *error) {
    r->place_first = ss_alloc((size_t)r->placements->traffic_count + 1, sizeof *r->place_first);
    if (r->place_first == NULL) {
        return ss_no_memory(error);
    }
    r->place = ss_alloc((size_t)list_places(r) + 1, sizeof *r->place);
    if (r->place == NULL) {
        return ss_no_memory(error);
    }
    (void)list_places(r);
    return SS_OK;
}

void ss_reach_reactions(const ss_reacher *reach, const ss_course *course, int track, const ss_axle_at *at,
                        bool left, double *live) {
    const ss_contact_model *const m = &reach->dead[0];
    double sum[SS_TILE];
    for (int tile = 0; tile < m->tile_count; tile++) {
        const int first = tile * SS_TILE, count = m->n - first < SS_TILE ? m->n - first : SS_TILE;
        ss_course_sum(&m->lines[tile], course, track, at, left, sum);
        memcpy(live + first, sum, (size_t)count * sizeof *live);
    }
}

/* ---- public ------------------------------------------------------------------------------------- */

ss_status ss_reach_create(const ss_permanent *permanent, const ss_placements *placements,
                          const ss_dead_factors *factors, int dead_count, ss_reacher *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_reacher r = {
        .permanent = permanent, .placements = placements, .mesh = ss_grillage_mesh(permanent->grillage)};
    SS_TRY(ss_axle_plans_build(r.mesh, placements, &r.plans, error));
    SS_TRY(ss_courses_build(&r.plans, placements, &r.courses, error));
    SS_TRY(ss_bins_build(&r.plans, placements, &r.bins, error));
    SS_TRY(make_deads(&r, factors, dead_count, error));
    *out = r;
    r = (ss_reacher){0};
    /* The courses and bounds keep addresses of what is in *out from here on. */
    out->courses.plans = &out->plans;
    for (int i = 0; i < out->dead[0].tile_count; i++) out->dead[0].lines[i].plans = &out->plans;
    status = ss_reach_sample(out, error);
    if (status == SS_OK) {
        status = find_places(out, error);
    }
    if (status == SS_OK) {
        status = ss_lane_reactions(&out->plans, placements, &out->dead[0], &out->lane_reactions, error);
    }
    if (status != SS_OK) {
        ss_reach_destroy(out);
    }
done:
    ss_reach_destroy(&r);
    return status;
}

double ss_reach_dead(const ss_reacher *reach, int dead, const ss_effect *effect, double *work) {
    double value = ss_contact_model_dead(&reach->dead[dead], effect);
    ss_contact_model_opening(&reach->dead[0], effect, work);
    for (int k = 0; k < reach->n; k++) value += work[k] * reach->dead[dead].u_dead[k];
    return value;
}
