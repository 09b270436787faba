/* test_ratings_brute.c - ratings of small bridges against those by trying every place. */
#include <string.h>

#include "support/make_bridge.h"
#include "support/random.h"
#include "support/suite.h"
#include "unit/assess/brute.h"
#include "unit/assess/rated_settings.h"

#define LRFR (1u << SS_METHOD_LRFR)
#define ALL (LRFR | 1u << SS_METHOD_LFR | 1u << SS_METHOD_ASR)

/* The two cars with strengths, rated by some methods, and with a limit of deflection. */
static void strengthen(made_bridge *m, double by, unsigned methods) {
    static const double S[4] = {3.1e-3, 7.3e-4, 1.9e-4, 4.6e-4}, web_clear[4] = {0.47, 0.29, 0.15, 0.24};
    ss_bridge *const b = &m->bridge;
    for (int i = 0; i < b->section_count; i++) {
        b->sections[i].set_S_top = by * S[i];
        b->sections[i].set_S_bottom = by * 1.07 * S[i];
        b->sections[i].depth = web_clear[i] + 0.03;
    }
    for (int i = 0; i < b->joint_count; i++) b->joints[i].shear_capacity = by * 4.1e4;
    b->rating = rated_settings(0.90);
    b->rating.methods = methods;
    b->rating.service = true;
    b->rating.deflection_limit = 800.0;
    b->rating.single_lane_presence = true;
}

/* Sections, stiffness of the seam, bearings, gaps, dead load, roadway and vehicle all vary. */
static void vary(made_bridge *m, uint64_t *seed) {
    ss_bridge *const b = &m->bridge;
    for (int i = 0; i < b->section_count; i++) {
        b->sections[i].set_I *= exp(0.4 * next_signed(seed));
        b->sections[i].set_J *= exp(0.8 * next_signed(seed));
        b->sections[i].set_weight *= exp(0.5 * next_signed(seed));
    }
    for (int i = 0; i < b->bearing_count; i++) {
        b->bearings[i].spring *= exp(1.1 * next_signed(seed));
        if (b->bearings[i].contact && b->bearings[i].pad_width == 0.0) {
            b->bearings[i].gap = fmax(0.0, 0.002 * next_signed(seed));
        }
    }
    b->joints[0].shear *= exp(1.7 * next_signed(seed));
    b->joints[0].rotation *= exp(1.7 * next_signed(seed));
    for (int i = 0; i < b->dead_load_count; i++) b->dead_loads[i].w *= exp(0.6 * next_signed(seed));
    ss_vehicle *const v = &b->vehicles[0];
    for (int i = 0; i < v->axle_count; i++) v->axle_N[i] *= exp(0.4 * next_signed(seed));
    for (int i = 0; i + 1 < v->axle_count; i++) v->spacing_m[i] *= exp(0.3 * next_signed(seed));
    b->roadway_left += 0.6 * fabs(next_signed(seed));
    b->roadway_right -= 0.6 * fabs(next_signed(seed));
}

typedef struct tally {
    int items, beaten, unattained, unseen, tips, changed;
    double worst; /* how far below the engine's factor the smallest tried was, as a share */
    double off;   /* how far the engine's factor was from that at its own place */
} tally;

static void compare_item(brute *b, const ss_rating_item *item, double slack, tally *t) {
    const int rated = brute_find(b, &item->effect);
    const double tried = *brute_best(b, item->check, item->traffic, b->rated.items[rated].group);
    const double below = isinf(tried) ? 0.0 : tried == item->rf ? 0.0 : 1.0 - tried / item->rf;
    t->items++;
    t->tips += item->tips;
    t->worst = fmax(t->worst, below);
    if (below > slack) {
        t->beaten++;
        printf("\n  check %d member %d %d kind %d at %.4f: rated %.9g, yet %.9g was found", item->check,
               (int)item->effect.member, item->effect.index, (int)item->effect.kind, item->effect.at,
               item->rf, tried);
    }
    if (item->tips || !(item->rf > 0.0) || !isfinite(item->rf) || item->position[0].track < 0) {
        return;
    }
    const double own = brute_factor(b, item->check, item->traffic, rated, &item->position[0]);
    t->unseen += isnan(own);
    if (isnan(own)) {
        return;
    }
    const brute_demand *const demand = brute_demand_of(b, item->check, item->traffic, rated);
    if (item->rf * demand->scale > BRUTE_MOST) {
        return; /* the place was not followed that far */
    }
    t->changed += fabs(item->rf_linear / item->rf - 1.0) > 1e-6;
    t->off = fmax(t->off, fabs(own / item->rf - 1.0));
    if (!(fabs(own / item->rf - 1.0) <= 1e-6)) {
        t->unattained++;
        printf("\n  check %d member %d %d kind %d at %.4f: rated %.9g, at its own place %.9g", item->check,
               (int)item->effect.member, item->effect.index, (int)item->effect.kind, item->effect.at,
               item->rf, own);
    }
}

static tally compare(made_bridge *m, const brute_grid *grid, double slack) {
    tally t = {0};
    ss_effect *effects = NULL;
    int count = 0;
    ss_ratings ratings = {0};
    static brute b;
    CHECK_OK(made_solve(m), &m->error);
    CHECK_OK(ss_envelope_effects(&m->mesh, &effects, &count, &m->error), &m->error);
    CHECK_OK(
        ss_ratings_compute(&m->permanent, &m->placements, effects, count, NULL, NULL, &ratings, &m->error),
        &m->error);
    brute_start(&b, &m->permanent, &m->placements, effects, count);
    brute_sweep(&b, grid);
    for (int i = 0; i < ratings.count; i++) compare_item(&b, &ratings.items[i], slack, &t);
    CU_ASSERT_EQUAL(t.beaten, 0);
    CU_ASSERT_EQUAL(t.unattained, 0);
    CU_ASSERT(t.unseen * 10 < t.items);
    brute_free(&b);
    ss_ratings_destroy(&ratings);
    ss_free(effects);
    return t;
}

static const brute_grid fine = {.cells = 3, .every = 2, .beside = 1e-9};
static const brute_grid medium = {.cells = 3, .every = 4, .beside = 1e-9};
static const brute_grid coarse = {.cells = 1, .every = 5, .beside = 1e-9};

static void test_two_way(void) {
    made_bridge m;
    made_two_cars(&m, false, 4.0);
    strengthen(&m, 1.0, LRFR);
    const tally t = compare(&m, &fine, 1e-6);
    CU_ASSERT_EQUAL(t.changed, 0);
    made_free(&m);
}

static void test_contact(void) {
    made_bridge m;
    made_two_cars(&m, true, 4.0);
    strengthen(&m, 1.0, LRFR);
    const tally t = compare(&m, &medium, 0.005);
    CU_ASSERT(t.changed * 3 > t.items);
    made_free(&m);
}

static void test_random(void) {
    uint64_t seed = 60607;
    for (int i = 0; i < 3; i++) {
        made_bridge m;
        made_two_cars(&m, true, 4.0);
        vary(&m, &seed);
        strengthen(&m, exp(0.5 * next_signed(&seed)), ALL);
        const tally t = compare(&m, &coarse, 0.005);
        CU_ASSERT(t.changed * 3 > t.items);
        made_free(&m);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"two-way bearings", test_two_way},
        {"contact", test_contact},
        {"random bridges", test_random},
    };
    return RUN_SUITE("ratings by every place", cases);
}
