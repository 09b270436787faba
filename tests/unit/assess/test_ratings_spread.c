/* test_ratings_spread.c - ratings of a truck whose rear axles may come apart, against trying very many
 * distances. */
#include "brute.h"
#include "rated_bridge.h"

enum { ALONG = 150, APART = 32 };

/* As stiff over the piers as elsewhere, and half as strong, so that hogging governs. */
static void weaken_piers(rated_bridge *r) {
    static const double limit[6] = {0.0, 19.0, 29.0, 43.0, 53.0, 72.0};
    ss_bridge *const b = &r->bridge;
    const ss_line_piece whole = b->pieces[0];
    const int weak = b->section_count++;
    b->sections[weak] = b->sections[whole.section];
    b->sections[weak].set_S_top *= 0.5;
    b->sections[weak].set_S_bottom *= 0.5;
    for (int i = 0; i < 5; i++) {
        b->pieces[i] = whole;
        b->pieces[i].x0 = limit[i] * FOOT;
        b->pieces[i].x1 = limit[i + 1] * FOOT;
        b->pieces[i].section = i % 2 == 1 ? weak : whole.section;
    }
    b->piece_count = b->lines[0].piece_count = 5;
}

/* Three spans of 24 ft on bearings that push only, held down by little dead load or by much; the truck is
 * HS20's without its lane load: rear axles 14 to 30 ft apart (AASHTO Standard Specifications 3.7.6, from
 * memory). */
static void three_spans(rated_bridge *r, bool contact, double weight) {
    static const double axle[3] = {8.0, 32.0, 32.0};
    rated_single(r, 72.0, weight);
    weaken_piers(r);
    for (int i = 0; i < 4; i++) rated_bearing(r, 0, 24.0 * i, 1.0)->contact = contact;
    ss_vehicle *const v = &r->bridge.vehicles[0];
    *v = (ss_vehicle){
        .name = "truck", .source = "test", .kind = SS_VEHICLE_USER, .axle_count = 3, .gauge_m = 6.0 * FOOT};
    for (int i = 0; i < 3; i++) v->axle_N[i] = axle[i] * KIP;
    v->spacing_m[0] = v->spacing_m[1] = v->spacing_most_m[0] = 14.0 * FOOT;
    v->spacing_most_m[1] = 30.0 * FOOT;
    r->bridge.vehicle_count = r->bridge.rated_vehicle_count = 1;
}

/* The smallest factor of an effect with every distance at every place along a track. */
static double smallest(brute *b, const rated_bridge *r, const ss_rating_item *item, int track) {
    const ss_vehicle *const v = &r->bridge.vehicles[0];
    const int rated = brute_find(b, &item->effect);
    const bool backward = r->placements.tracks[track].backward;
    ss_vehicle train = *v;
    double best = (double)INFINITY;
    for (int k = 0; k <= APART; k++) {
        train.spacing_m[1] = v->spacing_m[1] + (v->spacing_most_m[1] - v->spacing_m[1]) * k / APART;
        const double whole = train.spacing_m[0] + train.spacing_m[1];
        for (int j = 0; j <= ALONG; j++) {
            const double x = (backward ? -whole : 0.0) + (r->bridge.x1 + whole) * j / ALONG;
            const double factor = brute_factor(b, item->check, item->traffic, rated,
                                               &(ss_position){.track = track, .x = x, .train = &train});
            best = fmin(best, factor);
        }
    }
    return best;
}

/* No distance that is tried gives less, and each factor is that of its own axles. Returns how many stand
 * between the steps. */
static int compare(bool contact, double weight, double share) {
    static brute b;
    rated_bridge r;
    ss_ratings ratings;
    int between = 0;
    three_spans(&r, contact, weight);
    rated_build(&r);
    rated_rate(&r, &ratings);
    brute_start(&b, &r.permanent, &r.placements, r.effects, r.effect_count);
    CU_ASSERT(ratings.count > 0);
    for (int i = 0; i < ratings.count; i++) {
        const ss_rating_item *const item = &ratings.items[i];
        if (item->tips || !isfinite(item->rf) || item->position[0].track < 0) {
            continue;
        }
        const double tried = fmin(smallest(&b, &r, item, item->position[0].track),
                                  smallest(&b, &r, item, 0)); /* and along the curb */
        CU_ASSERT(item->rf <= tried * (1.0 + share));
        if (item->position[0].train != NULL) {
            const double own = brute_factor(&b, item->check, item->traffic, brute_find(&b, &item->effect),
                                            &item->position[0]);
            const double apart = item->position[0].train->spacing_m[1] / FOOT;
            between++;
            check_relative("by its own axles", own, item->rf, 1e-6);
            CU_ASSERT(apart > 14.0 && apart < 30.0);
            CU_ASSERT(item->rf < tried * (1.0 + 1e-9));
        }
    }
    brute_free(&b);
    ss_ratings_destroy(&ratings);
    rated_destroy(&r);
    return between;
}

static void test_two_way(void) {
    CU_ASSERT(compare(false, 0.12, 1e-7) >= 1);
}

static void test_contact(void) {
    CU_ASSERT(compare(true, 0.12, 2e-3) >= 1);
    CU_ASSERT(compare(true, 1.2, 2e-3) >= 1);
}

int main(void) {
    static const test_case cases[] = {
        {"two-way", test_two_way},
        {"with contact", test_contact},
    };
    return RUN_SUITE("ratings spread", cases);
}
