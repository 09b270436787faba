/* test_slab_limits.c - a deck that vanishes leaves the bare cars, and a joint cracked through is a hinge. */
#include "unit/studies/watched_samples.h"

#define STONE_DECK "stone_deck.cfg"
#define MOST 6

/* The governing factor of every check and truck. */
static int rate(const sample_setting *settings, double *out) {
    ss_description d = sample_read(STONE_DECK, settings);
    ss_variant v = {0};
    sample_rate(&d, &v);
    int count = 0;
    for (int i = 0; i < v.ratings.check_count * v.ratings.traffic_count && count < MOST; i++) {
        if (v.ratings.governing[i] >= 0) {
            out[count++] = v.ratings.items[v.ratings.governing[i]].rf;
        }
    }
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
    CU_ASSERT(count >= 3);
    return count;
}

static void check_same(const sample_setting *a, const sample_setting *b, double tolerance) {
    double x[MOST], y[MOST];
    const int count = rate(a, x);
    CU_ASSERT_EQUAL_FATAL(rate(b, y), count);
    for (int i = 0; i < count; i++) {
        CHECK_CLOSE(x[i], y[i], tolerance);
    }
}

#define NOTHING                                                                                              \
    { NULL, NULL }

/* No thickness, no weight, no strips, no width that acts. */
static void test_no_thickness(void) {
    static const sample_setting bare[] = {{"slab.in_use", "false"}, NOTHING};
    static const sample_setting none[] = {
        {"slab.in_use", "true"}, {"slab.thickness", "0 in"}, {"slab.joint", "open"}, NOTHING};
    check_same(none, bare, 1e-9);
}

/* Nothing of the bending is left over the gap. */
static void test_cracked_through(void) {
    static const sample_setting cracked[] = {
        {"slab.in_use", "true"}, {"slab.joint", "cracked"}, {"slab.joint_left", "0"}, NOTHING};
    static const sample_setting hinged[] = {{"slab.in_use", "true"}, {"slab.joint", "hinged"}, NOTHING};
    check_same(cracked, hinged, 1e-9);
}

/* A slab hinged over the gap shares like cars hinged to each other; only its strip between them bends
 * besides. */
static void test_hinged_like_cars(void) {
    static const sample_setting slab[] = {{"slab.in_use", "true"}, {"slab.joint", "hinged"}, NOTHING};
    static const sample_setting cars[] = {
        {"slab.in_use", "true"}, {"slab.joint", "open"}, {"bridge.joints.seam.kind", "hinged"}, NOTHING};
    double x[MOST], y[MOST];
    const int count = rate(slab, x);
    CU_ASSERT_EQUAL_FATAL(rate(cars, y), count);
    for (int i = 0; i < count; i++) {
        CHECK_CLOSE(x[i], y[i], 0.01);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"no thickness", test_no_thickness},
        {"cracked through", test_cracked_through},
        {"hinged like cars", test_hinged_like_cars},
    };
    return RUN_SUITE("limits of a slab", cases);
}
