/* test_ratings_threads.c - ratings are the same to the last bit for any number of threads. */
#include <string.h>
#ifdef _OPENMP
#include <omp.h>
#endif

#include "rated_bridge.h"

static void use_threads(int count) {
#ifdef _OPENMP
    omp_set_num_threads(count);
#else
    (void)count;
#endif
}

static bool same_bits(const double *a, const double *b, size_t count) {
    return memcmp(a, b, count * sizeof *a) == 0;
}

static bool same_item(const ss_rating_item *a, const ss_rating_item *b) {
    const double left[] = {a->rf,
                           a->rf_linear,
                           a->capacity,
                           a->dead,
                           a->live,
                           a->tons,
                           a->effect.at,
                           a->factors.live,
                           a->factors.allowance,
                           a->factors.presence,
                           a->nominal.value};
    const double right[] = {b->rf,
                            b->rf_linear,
                            b->capacity,
                            b->dead,
                            b->live,
                            b->tons,
                            b->effect.at,
                            b->factors.live,
                            b->factors.allowance,
                            b->factors.presence,
                            b->nominal.value};
    bool same = same_bits(left, right, sizeof left / sizeof left[0]);
    same = same && a->check == b->check && a->traffic == b->traffic && a->most == b->most &&
           a->local == b->local && a->tips == b->tips && a->minimum_dead == b->minimum_dead &&
           a->truck_count == b->truck_count && a->effect.kind == b->effect.kind &&
           a->effect.member == b->effect.member && a->effect.index == b->effect.index &&
           a->effect.before == b->effect.before;
    for (int i = 0; same && i < a->truck_count; i++) {
        same = a->position[i].track == b->position[i].track &&
               a->position[i].on_beam == b->position[i].on_beam &&
               same_bits(&a->position[i].x, &b->position[i].x, 1);
    }
    return same;
}

static void check_same(const ss_ratings *a, const ss_ratings *b) {
    CU_ASSERT_EQUAL_FATAL(a->count, b->count);
    CU_ASSERT_EQUAL_FATAL(a->check_count, b->check_count);
    CU_ASSERT_EQUAL(a->controlling, b->controlling);
    int other = 0;
    for (int i = 0; i < a->count; i++) other += !same_item(&a->items[i], &b->items[i]);
    CU_ASSERT_EQUAL(other, 0);
    for (int c = 0; c < a->check_count; c++) {
        for (int t = 0; t < a->traffic_count; t++) {
            CU_ASSERT_EQUAL(ss_ratings_governing(a, c, t), ss_ratings_governing(b, c, t));
        }
    }
}

static void start(rated_bridge *r) {
    rated_pair(r);
    r->bridge.station_spacing = 9.0 * FOOT;
    r->bridge.rating.methods = 1u << SS_METHOD_LRFR | 1u << SS_METHOD_LFR;
    r->bridge.rating.service = true;
    r->bridge.rating.deflection_limit = 640.0;
    rated_build(r);
}

static void test_threads(void) {
    static const int counts[] = {2, 3};
    rated_bridge r;
    ss_ratings one = {0};
    start(&r);
    use_threads(1);
    rated_rate(&r, &one);
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        ss_ratings several = {0};
        use_threads(counts[i]);
        rated_rate(&r, &several);
        check_same(&one, &several);
        ss_ratings_destroy(&several);
    }
    use_threads(2);
    ss_ratings_destroy(&one);
    rated_destroy(&r);
}

int main(void) {
    static const test_case cases[] = {{"threads", test_threads}};
    return RUN_SUITE("ratings by threads", cases);
}
