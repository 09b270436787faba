/* test_ratings_proof.c - two trucks abreast on bearings that lift: what is proven of them, against all
 * arrangements one by one. */
#include <string.h>

#include "assess/ratings_proof.h"
#include "sillspan/memory.h"
#include "support/make_bridge.h"
#include "support/random.h"
#include "support/suite.h"
#include "unit/assess/brute.h"
#include "unit/assess/rated_settings.h"

/* Two cars with strengths, two trucks that meet on them. `other`: the second is another vehicle. */
static void open_bridge(made_bridge *m, bool contact, bool other, uint64_t *seed) {
    static const double S[4] = {3.1e-3, 7.3e-4, 1.9e-4, 4.6e-4}, depth[4] = {0.50, 0.32, 0.18, 0.27},
                        axle[1] = {117.0e3};
    static ss_crossing crossing[1];
    made_two_cars(m, contact, 6.1);
    ss_bridge *const b = &m->bridge;
    for (int i = 0; i < b->section_count; i++) {
        b->sections[i].set_S_top = S[i];
        b->sections[i].set_S_bottom = 1.07 * S[i];
        b->sections[i].depth = depth[i];
        b->sections[i].set_I *= seed == NULL ? 1.0 : exp(0.4 * next_signed(seed));
        b->sections[i].set_J *= seed == NULL ? 1.0 : exp(0.8 * next_signed(seed));
    }
    for (int i = 0; seed != NULL && i < b->bearing_count; i++) {
        b->bearings[i].spring *= exp(1.1 * next_signed(seed));
        if (b->bearings[i].contact && b->bearings[i].pad_width == 0.0) {
            b->bearings[i].gap = fmax(0.0, 0.002 * next_signed(seed));
        }
    }
    b->joints[0].shear *= seed == NULL ? 1.0 : exp(1.7 * next_signed(seed));
    b->rating = rated_settings(0.90);
    b->rating.methods = 1u << SS_METHOD_LRFR;
    b->vehicles[0].axle_count = 2;
    const int second = other ? made_vehicle(m, 1, axle, NULL, 1.62) : 0;
    b->wheel_to_curb = 0.21;
    b->lanes = (ss_lane_rule){.count = 2, .width = 2.6, .between_wheels = 0.63, .wheel_to_curb = 0.21};
    crossing[0] = (ss_crossing){.kind = SS_CROSSING_BESIDE, .vehicle = 0, .beside = second, .lanes = 2};
    b->crossings = crossing;
    b->crossing_count = 1;
    b->rated_vehicle_count = 1;
    CHECK_OK(made_solve(m), &m->error);
}

/* ---- every arrangement -------------------------------------------------------------------------- */

/* Places of one truck for one section. */
typedef struct places {
    int count, capacity;
    double *y, *closed, *live;
} places;

/* Whether the place at hand does what the last one does: nothing jumps there. */
static bool is_last(const places *p, const brute *b, int rated, double y) {
    const int at = p->count - 1;
    if (at < 0 || p->y[at] != y || fabs(p->closed[at] - b->closed[rated]) > 1e-7 * fabs(b->closed[rated])) {
        return false;
    }
    for (int k = 0; k < b->n; k++) {
        if (fabs(p->live[(size_t)at * (size_t)b->n + (size_t)k] - b->live[k]) > 1e-3) { /* of some 1e4 N */
            return false;
        }
    }
    return true;
}

static void add(places *p, brute *b, int rated, const ss_position *position) {
    const size_t n = (size_t)b->n;
    brute_solve(b, position);
    if (b->unseen[rated] || is_last(p, b, rated, b->placements->tracks[position->track].y)) {
        return;
    }
    if (p->count == p->capacity) {
        p->capacity = 2 * p->capacity + 256;
        p->y = ss_realloc(p->y, (size_t)p->capacity, sizeof *p->y);
        p->closed = ss_realloc(p->closed, (size_t)p->capacity, sizeof *p->closed);
        p->live = ss_realloc(p->live, (size_t)p->capacity * n, sizeof *p->live);
        CU_ASSERT_FATAL(p->y != NULL && p->closed != NULL && p->live != NULL);
    }
    p->y[p->count] = b->placements->tracks[position->track].y;
    p->closed[p->count] = b->closed[rated];
    memcpy(p->live + (size_t)p->count * n, b->live, n * sizeof *p->live);
    p->count++;
}

static bool at_beam(const brute *b, const ss_track *track, const ss_vehicle *train, double x) {
    for (int a = 0; a < train->axle_count; a++) {
        for (int i = 0; i < b->mesh->bridge->floor_beam_count; i++) {
            const double at = b->mesh->station[b->mesh->beam_station[i]];
            if (fabs(ss_axle_x(train, track->backward, x, a) - at) < 1e-9) {
                return true;
            }
        }
    }
    return false;
}

/* With a wheel at a station: just before it, just after it, and on a beam there. */
static void collect(brute *b, int rated, int first, int count, places *out) {
    *out = (places){0};
    for (int t = first; t < first + count; t++) {
        const ss_track *const track = &b->placements->tracks[t];
        const ss_vehicle *const train = &b->placements->trains[track->train];
        for (int a = 0; a < train->axle_count; a++) {
            for (int k = 0; k < b->mesh->station_count; k++) {
                const double x = b->mesh->station[k] - ss_axle_x(train, track->backward, 0.0, a);
                add(out, b, rated, &(ss_position){.track = t, .x = x - 1e-9});
                add(out, b, rated, &(ss_position){.track = t, .x = x + 1e-9});
                if (at_beam(b, track, train, x)) {
                    add(out, b, rated, &(ss_position){.track = t, .x = x, .on_beam = true});
                }
            }
        }
    }
}

static void free_places(places *p) {
    ss_free(p->y);
    ss_free(p->closed);
    ss_free(p->live);
}

/* All pairs of places. */
typedef struct pairs {
    places own, other;
    double apart;
    bool same;
} pairs;

/* The smallest multiple of both trucks, up to `most`, at which the section is full or the bridge tips. */
static double least_multiple(brute *b, int check, int rated, const pairs *of, double most) {
    const brute_demand *const demand = brute_demand_of(b, check, 0, rated);
    const size_t n = (size_t)b->n;
    double least = (double)INFINITY;
    ss_contact_path path = {
        .n = b->n, .S = b->S, .r_live = b->live, .opening = b->opening + (size_t)rated * n};
    for (int at = 0; at < of->own.count * of->other.count; at++) {
        const size_t i = (size_t)(at / of->other.count), j = (size_t)(at % of->other.count);
        const double beside = of->other.y[j] - of->own.y[i];
        if ((of->same ? beside : fabs(beside)) < of->apart - 1e-9) {
            continue;
        }
        for (size_t k = 0; k < n; k++) b->live[k] = of->own.live[i * n + k] + of->other.live[j * n + k];
        path.e_live = of->own.closed[i] + of->other.closed[j];
        for (int d = 0; d < 2 * b->check_deads[check]; d++) {
            const int dead = b->check_dead[check][d / 2];
            const double target = d % 2 == 1 ? demand->limit : -demand->least;
            ss_reach reach;
            path.r_dead = b->r_dead[dead];
            path.e_dead = b->e_dead[dead][rated];
            CU_ASSERT_EQUAL_FATAL(ss_contact_reach(&path, target, d % 2 == 1, most, &reach, b->work), SS_OK);
            least = fmin(least, reach.factor);
        }
    }
    return least;
}

/* The smallest factor of a section over all arrangements, sought up to `most`. */
static double least_factor(made_bridge *m, brute *b, int check, int rated, double most) {
    const ss_bridge *const bridge = &m->bridge;
    const ss_traffic *const traffic = &m->placements.traffic[0];
    const ss_crossing *const crossing = &bridge->crossings[0];
    const double scale = brute_demand_of(b, check, 0, rated)->scale;
    const int beside = crossing->vehicle == crossing->beside ? 0 : 1;
    pairs of = {.apart = 0.5 * (bridge->vehicles[crossing->vehicle].gauge_m +
                                bridge->vehicles[crossing->beside].gauge_m) +
                         bridge->lanes.between_wheels,
                .same = beside == 0};
    collect(b, rated, traffic->lane_first[0], traffic->lane_count[0], &of.own);
    collect(b, rated, traffic->lane_first[beside], traffic->lane_count[beside], &of.other);
    const double least = least_multiple(b, check, rated, &of, most * scale) / scale;
    free_places(&of.own);
    free_places(&of.other);
    return least;
}

/* Both sides of the bracket, and how wide it is. */
static void check_bracket(double least, double proved, double found) {
    CU_ASSERT(proved <= found);
    CU_ASSERT(proved >= 0.99 * found);
    CU_ASSERT(proved <= least * (1.0 + 1e-6));
    CU_ASSERT(least <= found * (1.0 + 1e-6));
}

static void rate(made_bridge *m, ss_effect **effects, int *count, ss_ratings *out) {
    CHECK_OK(ss_envelope_effects(&m->mesh, effects, count, &m->error), &m->error);
    CHECK_OK(ss_ratings_compute(&m->permanent, &m->placements, *effects, *count, NULL, NULL, out, &m->error),
             &m->error);
}

/* Governing items; how many. */
static int compare(made_bridge *m) {
    static brute b;
    ss_effect *effects = NULL;
    int count = 0, proved = 0;
    ss_ratings ratings = {0};
    rate(m, &effects, &count, &ratings);
    brute_start(&b, &m->permanent, &m->placements, effects, count);
    for (int c = 0; c < ratings.check_count; c++) {
        const int i = ss_ratings_governing(&ratings, c, 0);
        const ss_rating_item *const item = &ratings.items[i < 0 ? 0 : i];
        if (i >= 0 && !item->tips && isfinite(item->rf)) {
            const double least = least_factor(m, &b, c, brute_find(&b, &item->effect), 1.01 * item->rf);
            check_bracket(least, item->proved, item->rf);
            CU_ASSERT(item->arrangements > 1000.0 && item->arrangements == floor(item->arrangements));
            proved++;
        }
    }
    brute_free(&b);
    ss_ratings_destroy(&ratings);
    ss_free(effects);
    return proved;
}

static void test_same(void) {
    made_bridge m;
    open_bridge(&m, true, false, NULL);
    CU_ASSERT(compare(&m) > 0);
    made_free(&m);
}

static void test_other(void) {
    made_bridge m;
    open_bridge(&m, true, true, NULL);
    CU_ASSERT(compare(&m) > 0);
    made_free(&m);
}

static void test_random(void) {
    uint64_t seed = 41;
    int proved = 0;
    for (int i = 0; i < 2; i++) {
        made_bridge m;
        open_bridge(&m, true, i % 2 == 1, &seed);
        proved += compare(&m);
        made_free(&m);
    }
    CU_ASSERT(proved >= 2);
}

/* Where nothing lifts, effects add up and there is nothing to prove. */
static void test_two_way(void) {
    made_bridge m;
    ss_effect *effects = NULL;
    int count = 0;
    ss_ratings ratings = {0};
    open_bridge(&m, false, false, NULL);
    rate(&m, &effects, &count, &ratings);
    CU_ASSERT(ratings.count > 0);
    for (int i = 0; i < ratings.count; i++) {
        CU_ASSERT(isnan(ratings.items[i].proved));
        CU_ASSERT_FALSE(ratings.items[i].local);
    }
    ss_ratings_destroy(&ratings);
    ss_free(effects);
    made_free(&m);
}

/* ---- the search and the proof apart ------------------------------------------------------------- */

enum { ASKED_MOST = 400 };

typedef struct searched {
    ss_arena arena;
    ss_effect *effects;
    ss_rated_list rated;
    ss_check_list checks;
    ss_reacher reach;
    ss_rated_member *members;
    ss_reach_asked *asked;
    int *group; /* of each of them */
    int count, effect_count;
} searched;

static void search(made_bridge *m, searched *s) {
    *s = (searched){0};
    ss_rating_notes notes = {.arena = &s->arena};
    CHECK_OK(ss_envelope_effects(&m->mesh, &s->effects, &s->effect_count, &m->error), &m->error);
    CHECK_OK(ss_check_list_build(&m->bridge, &s->checks, &m->error), &m->error);
    CHECK_OK(
        ss_rated_list_build(&m->permanent, s->effects, s->effect_count, true, &notes, &s->rated, &m->error),
        &m->error);
    CHECK_OK(ss_rated_members_build(&m->permanent, &m->placements, &s->rated, &s->checks, &s->arena,
                                    &s->members, &m->error),
             &m->error);
    CHECK_OK(ss_reach_create(&m->permanent, &m->placements, s->checks.factors, s->checks.factor_count,
                             &s->reach, &m->error),
             &m->error);
    const size_t groups = (size_t)s->rated.group_count;
    ss_reach_member *const all = ss_arena_alloc(&s->arena, groups, sizeof *all);
    s->asked = ss_arena_alloc(&s->arena, groups * SS_CHECKS_MAX, sizeof *s->asked);
    s->group = ss_arena_alloc(&s->arena, groups * SS_CHECKS_MAX, sizeof *s->group);
    CU_ASSERT_FATAL(all != NULL && s->asked != NULL && s->group != NULL);
    for (size_t g = 0; g < groups; g++) all[g] = s->members[g].member;
    CHECK_OK(ss_reach_members(&s->reach, all, (int)groups, NULL, NULL, &m->error), &m->error);
    for (size_t g = 0; g < groups; g++) {
        for (int q = 0; q < all[g].demand_count; q++) {
            s->group[s->count] = (int)g;
            s->asked[s->count++] = (ss_reach_asked){&s->members[g].member, q, 0, 0.0};
        }
    }
}

static void free_searched(searched *s) {
    ss_reach_destroy(&s->reach);
    ss_free(s->effects);
    ss_arena_destroy(&s->arena);
}

/* The check that asks for a demand. */
static int check_of(const searched *s, const ss_rated_member *member, int demand) {
    for (int c = 0; c < s->checks.count; c++) {
        if (member->demand[c] == demand && member->ratio[c] == 1.0) {
            return c;
        }
    }
    CU_FAIL_FATAL("a demand that no check asks for");
    return -1;
}

/* Arrangements that the search passes over are found by going through all: by a tenth on this bridge. */
static void test_stuck(void) {
    static brute b;
    uint64_t seed = 41;
    made_bridge m;
    searched s;
    double before[ASKED_MOST];
    int lowered = 0;
    open_bridge(&m, true, false, &seed);
    search(&m, &s);
    CU_ASSERT_FATAL(s.count <= ASKED_MOST);
    for (int i = 0; i < s.count; i++) before[i] = s.asked[i].member->reached[s.asked[i].demand].factor;
    CHECK_OK(ss_reach_prove(&s.reach, s.asked, s.count, &m.error), &m.error);
    brute_start(&b, &m.permanent, &m.placements, s.effects, s.effect_count);
    for (int i = 0; i < s.count; i++) {
        const ss_reached *const found = &s.asked[i].member->reached[s.asked[i].demand];
        CU_ASSERT(!(found->factor > before[i]));
        CU_ASSERT(!(found->proved > found->factor));
        if (found->factor > 0.95 * before[i] || found->proved == 0.0 || lowered++ > 0) {
            continue;
        }
        const ss_rated_member *const member = &s.members[s.group[i]];
        const int check = check_of(&s, member, s.asked[i].demand);
        const double least =
            least_factor(&m, &b, check, member->first_rated + found->effect, 1.01 * found->factor);
        check_bracket(least, found->proved, found->factor);
        CHECK_CLOSE(least, found->factor, 1e-6);
    }
    CU_ASSERT(lowered >= 1);
    brute_free(&b);
    free_searched(&s);
    made_free(&m);
}

/* Asked for what is full below some factor, it finds that or leaves all as it was. */
static void test_below(void) {
    uint64_t seed = 41;
    made_bridge m;
    searched s[2];
    int lowered = 0;
    open_bridge(&m, true, false, &seed);
    for (int i = 0; i < 2; i++) search(&m, &s[i]);
    CHECK_OK(ss_reach_prove(&s[0].reach, s[0].asked, s[0].count, &m.error), &m.error);
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < s[1].count; i++) {
            const ss_reached *const least = &s[0].asked[i].member->reached[s[0].asked[i].demand],
                                    *const found = &s[1].asked[i].member->reached[s[1].asked[i].demand];
            s[1].asked[i].below = least->proved == 0.0 ? 0.001 : (pass == 0 ? 0.97 : 1.001) * least->factor;
            lowered += least->factor < 0.99 * found->factor && least->proved > 0.0;
        }
        CHECK_OK(ss_reach_prove(&s[1].reach, s[1].asked, s[1].count, &m.error), &m.error);
        for (int i = 0; i < s[1].count; i++) {
            const ss_reached *const least = &s[0].asked[i].member->reached[s[0].asked[i].demand],
                                    *const found = &s[1].asked[i].member->reached[s[1].asked[i].demand];
            const bool stuck = least->factor < 0.99 * found->factor && least->proved > 0.0;
            CU_ASSERT(pass == 0 ? found->proved == 0.0 : !stuck);
            CU_ASSERT(pass == 0 || found->proved == 0.0 || found->proved <= found->factor);
        }
    }
    CU_ASSERT(lowered >= 2);
    for (int i = 0; i < 2; i++) free_searched(&s[i]);
    made_free(&m);
}

/* Each allocation in turn fails: an error that says so, and nothing kept. */
static void test_memory(void) {
    made_bridge m;
    searched s;
    open_bridge(&m, true, true, NULL);
    search(&m, &s);
    const long before = ss_memory_live();
    ss_status status = SS_ERROR_MEMORY;
    int failures = 0;
    for (long n = 0; status != SS_OK && n < 100000; n += n < 40 ? 1 : 1 + n / 7) {
        ss_error error = {0};
        s.asked[0].member->reached[s.asked[0].demand].proved = 0.0;
        ss_memory_fail_from(n);
        status = ss_reach_prove(&s.reach, s.asked, 1, &error);
        ss_memory_fail_from(-1);
        if (status != SS_OK) {
            CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
            CU_ASSERT(error.message[0] != '\0');
            failures++;
        }
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    CU_ASSERT(failures > 30);
    free_searched(&s);
    made_free(&m);
}

int main(void) {
    static const test_case cases[] = {
        {"one vehicle twice", test_same},
        {"two vehicles", test_other},
        {"random bridges", test_random},
        {"two-way bearings", test_two_way},
        {"where the search is stuck", test_stuck},
        {"below a factor", test_below},
        {"memory", test_memory},
    };
    return RUN_SUITE("trucks abreast, proven", cases);
}
