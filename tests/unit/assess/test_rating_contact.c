/* test_rating_contact.c - ratings where bearings lift on the way to the rated load, checked against states
 * solved one by one. */
#include "rated_bridge.h"

/* A car of 86 ft on four bearings that dead load presses on: trucks between the inner two lift the ends. */
static void long_car(rated_bridge *r) {
    rated_single(r, 86.0, 0.6);
    rated_bearing(r, 0, 0.0, 3.0);
    rated_bearing(r, 0, 25.0, 3.0);
    rated_bearing(r, 0, 61.0, 3.0);
    rated_bearing(r, 0, 86.0, 3.0);
    r->bridge.sections[0].set_S_top = r->bridge.sections[0].set_S_bottom = 230.0 * INCH3;
    rated_truck(r, "HS20-44");
    rated_truck(r, "EV2");
}

/* At rf the section is full: the state is solved anew, apart from everything that led to rf. Positions just
 * beside a jump are a billionth of a metre off it, which shows in the ninth digit of a shear. */
static void check_full(const rated_bridge *r, const ss_ratings *result) {
    int finite = 0;
    for (int i = 0; i < result->count; i++) {
        const ss_rating_item *const one = &result->items[i];
        if (!isfinite(one->rf) || one->rf == 0.0 || one->tips) {
            continue;
        }
        const double multiple = one->rf * rated_multiplier(one);
        const double effect = rated_effect(r, one, &one->position[0], multiple, &one->effect);
        if (fabs(effect - one->capacity) > 2e-9 * (fabs(one->capacity) + fabs(one->dead))) {
            printf("\n  item %d kind %d member %d %d at %.4f ft: effect %.12g, capacity %.12g, rf %.9g", i,
                   (int)one->effect.kind, (int)one->effect.member, one->effect.index, one->effect.at / FOOT,
                   effect, one->capacity, one->rf);
        }
        CU_ASSERT_DOUBLE_EQUAL(effect, one->capacity, 2e-9 * (fabs(one->capacity) + fabs(one->dead)));
        CHECK_CLOSE(multiple * one->live, one->capacity - one->dead, 1e-9);
        finite++;
    }
    CU_ASSERT(finite > 0);
}

/* No position of the truck has the governing section beyond its capacity at the smallest factor; positions
 * every `step` ft on every `skip`-th track. */
static void check_no_position_is_worse(const rated_bridge *r, const ss_ratings *result, int traffic,
                                       double step, int skip) {
    const ss_rating_item *const one = rated_governing(result, traffic);
    const ss_traffic *const trucks = &r->placements.traffic[traffic];
    const double multiple = one->rf * rated_multiplier(one) * (1.0 - 1e-9);
    double nearest = 0.0;
    for (int t = 0; t < trucks->track_count; t += skip) {
        for (double x = -30.0; x < r->bridge.x1 / FOOT + 30.0; x += step) {
            const ss_position position = {.track = trucks->first_track + t, .x = x * FOOT, .on_beam = false};
            const double effect = rated_effect(r, one, &position, multiple, &one->effect);
            nearest = fmax(nearest, effect / one->capacity);
        }
    }
    CU_ASSERT(nearest <= 1.0);
    CU_ASSERT(nearest > 0.9);
}

static void test_long_car(void) {
    rated_bridge r;
    ss_ratings result = {0};
    long_car(&r);
    rated_build(&r);
    rated_rate(&r, &result);
    check_full(&r, &result);
    check_no_position_is_worse(&r, &result, 0, 0.25, 1);
    check_no_position_is_worse(&r, &result, 1, 0.25, 1);
    /* The ends lift, so that midspan bends more than if they were held down. */
    const ss_rating_item *const moment = &result.items[0];
    CU_ASSERT_EQUAL(moment->effect.kind, SS_EFFECT_MOMENT);
    CU_ASSERT(moment->most);
    CU_ASSERT(moment->rf_linear > 1.1 * moment->rf);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

static void test_pair(void) {
    rated_bridge r;
    ss_ratings result = {0};
    rated_pair(&r);
    rated_build(&r);
    rated_rate(&r, &result);
    /* 6 lines and 14 floor beams in bending and web shear, one joint; two trucks. */
    CU_ASSERT_EQUAL(result.count, 2 * (2 * 20 + 1));
    check_full(&r, &result);
    check_no_position_is_worse(&r, &result, 0, 1.0, 3);
    check_no_position_is_worse(&r, &result, 1, 1.0, 3);
    for (int i = 1; i < result.count; i++) {
        const ss_rating_item *const a = &result.items[i - 1];
        const ss_rating_item *const b = &result.items[i];
        CU_ASSERT(a->check < b->check || a->traffic < b->traffic || a->effect.member < b->effect.member ||
                  (a->effect.member == b->effect.member && a->effect.index <= b->effect.index));
        CU_ASSERT(b->rf >= result.items[result.controlling].rf * (1.0 - 1e-9));
    }
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* A truck 1.3 times as heavy has factors smaller by exactly that, whatever lifts: the same positions at the
 * same loads govern. */
static void test_heavier_truck(void) {
    rated_bridge light;
    rated_bridge heavy;
    ss_ratings a = {0};
    ss_ratings b = {0};
    rated_pair(&light);
    rated_pair(&heavy);
    for (int v = 0; v < 2; v++) {
        for (int i = 0; i < heavy.bridge.vehicles[v].axle_count; i++)
            heavy.bridge.vehicles[v].axle_N[i] *= 1.3;
    }
    rated_build(&light);
    rated_build(&heavy);
    rated_rate(&light, &a);
    rated_rate(&heavy, &b);
    CU_ASSERT_EQUAL_FATAL(a.count, b.count);
    for (int i = 0; i < a.count; i++) {
        if (a.items[i].rf < 2.9) {
            if (fabs(1.3 * b.items[i].rf / a.items[i].rf - 1.0) > 1e-6) {
                printf("\n  item %d: %.9g against %.9g", i, 1.3 * b.items[i].rf, a.items[i].rf);
            }
            CHECK_CLOSE(1.3 * b.items[i].rf, a.items[i].rf, 1e-6);
        }
        CU_ASSERT(b.items[i].rf <= a.items[i].rf);
    }
    for (int t = 0; t < 2; t++) {
        CHECK_CLOSE(1.3 * rated_governing(&b, t)->rf, rated_governing(&a, t)->rf, 1e-9);
    }
    ss_ratings_destroy(&a);
    ss_ratings_destroy(&b);
    rated_destroy(&light);
    rated_destroy(&heavy);
}

typedef struct watched {
    double last;
    int calls;
    bool falls;
} watched;

static void watch(void *context, double done) {
    watched *const w = context;
    w->falls = w->falls || done < w->last;
    w->last = done;
    w->calls++;
}

static void test_progress(void) {
    rated_bridge r;
    ss_ratings result = {0};
    ss_error error = {0};
    watched w = {0};
    long_car(&r);
    rated_build(&r);
    CHECK_OK(ss_ratings_compute(&r.permanent, &r.placements, r.effects, r.effect_count, watch, &w, &result,
                                &error),
             &error);
    CU_ASSERT(w.calls > 2 && !w.falls);
    CU_ASSERT_EQUAL(w.last, 1.0);
    ss_ratings_destroy(&result);
    rated_destroy(&r);
}

/* Each allocation in turn fails: an error that says so, nothing written, nothing kept. */
static void test_memory(void) {
    rated_bridge r;
    long_car(&r);
    r.bridge.rated_vehicle_count = 1;
    rated_build(&r);
    const long before = ss_memory_live();
    ss_status status = SS_ERROR_MEMORY;
    long n = 0;
    for (long step = 1; status != SS_OK && n < 200000; n += step) {
        ss_ratings result = {0};
        ss_error error = {0};
        ss_memory_fail_from(n);
        status = ss_ratings_compute(&r.permanent, &r.placements, r.effects, r.effect_count, NULL, NULL,
                                    &result, &error);
        ss_memory_fail_from(-1);
        if (status != SS_OK) {
            CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
            CU_ASSERT_PTR_NULL(result.items);
            CU_ASSERT(error.message[0] != '\0');
        }
        ss_ratings_destroy(&result);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
        step = n < 60 ? 1 : 1 + n / 7;
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    rated_destroy(&r);
}

int main(void) {
    static const test_case cases[] = {{"long car", test_long_car},
                                      {"pair of cars", test_pair},
                                      {"heavier truck", test_heavier_truck},
                                      {"progress", test_progress},
                                      {"memory", test_memory}};
    return RUN_SUITE("rating with contact", cases);
}
