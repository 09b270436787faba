/* test_envelope_steps.c - extremes of rolling trucks against trying very many positions one by one. */
#include "chosen_effects.h"

/* Live values of all effects of the envelope at one position, from a direct solution. */
static void live_at(const made_bridge *m, const ss_position *position, const ss_envelope *e,
                    const ss_envelope_options *o, double *values) {
    ss_load load;
    ss_state state;
    ss_error error;
    CHECK_OK(ss_placements_load(&m->mesh, &m->placements, position, &load, &error), &error);
    CHECK_OK(ss_permanent_state(&m->permanent, true, o->factors, &load, o->live_factor, &state, &error),
             &error);
    for (int i = 0; i < e->effect_count; i++) {
        values[i] = (ss_state_effect(&m->mesh, &state, &e->effects[i]) - e->dead[i]) / o->live_factor;
    }
    ss_state_destroy(&state);
    ss_load_destroy(&load);
}

typedef struct brute {
    const made_bridge *m;
    const ss_envelope *e;
    const ss_envelope_options *o;
    double least[EFFECTS], most[EFFECTS];
} brute;

static void try_at(brute *b, int track, double x, bool on_beam) {
    double values[EFFECTS];
    live_at(b->m, &(ss_position){.track = track, .x = x, .on_beam = on_beam}, b->e, b->o, values);
    for (int i = 0; i < b->e->effect_count; i++) {
        b->least[i] = fmin(b->least[i], values[i]);
        b->most[i] = fmax(b->most[i], values[i]);
    }
}

/* Even steps, and every axle just before, just after and over every station. */
static void try_track(brute *b, int track) {
    const ss_track *t = &b->m->placements.tracks[track];
    const ss_vehicle *v = &b->m->bridge.vehicles[t->vehicle];
    for (double x = -6.0; x < 18.5 && !t->fine; x += 0.241) try_at(b, track, x, false);
    for (int a = 0; a < v->axle_count; a++) {
        double behind = 0.0;
        for (int i = 0; i < a; i++) behind += v->spacing_m[i];
        for (int k = 0; k < b->m->mesh.station_count; k++) {
            const double x = b->m->mesh.station[k] + (t->backward ? -behind : behind);
            if (!t->fine) {
                try_at(b, track, x - 2e-9, false);
                try_at(b, track, x + 2e-9, false);
            }
            if (b->m->mesh.marked[k]) {
                try_at(b, track, x, true);
            }
        }
    }
}

/* None of many positions may beat the envelope; the worst of them comes close to it; and each governing
 * position gives what the envelope says. */
static void compare_with_steps(const made_bridge *m, const ss_envelope *e, const ss_envelope_options *o) {
    brute b = {.m = m, .e = e, .o = o};
    for (int t = 0; t < m->placements.track_count; t++) try_track(&b, t);
    for (int i = 0; i < e->effect_count; i++) {
        const ss_extreme *low = &e->extremes[2 * i], *high = low + 1;
        const double scale = fmax(fabs(low->value), fabs(high->value));
        CU_ASSERT(scale > 0.0);
        CU_ASSERT(b.least[i] >= low->value - 1e-7 * scale);
        CU_ASSERT(b.most[i] <= high->value + 1e-7 * scale);
        check_near("least", b.least[i], low->value, 0.01, scale);
        check_near("most", b.most[i], high->value, 0.01, scale);
        for (int side = 0; side < 2; side++) {
            const ss_extreme *x = side == 0 ? low : high;
            double values[EFFECTS];
            if (x->value != 0.0) {
                live_at(m, &x->position, e, o, values);
                check_near("at the governing position", values[i], x->value, 1e-7,
                           fmax(scale, fabs(e->dead[i])));
            }
        }
    }
}

/* What differs from the bridge as it is made. */
typedef struct variation {
    bool contact, along, two_gauges;
    double live_factor;
} variation;

static void run_brute_force(variation as) {
    made_bridge m;
    made_two_cars(&m, as.contact, 1.9);
    m.bridge.deck.along = as.along;
    if (as.two_gauges) { /* the rear axle is narrower: its wheels meet other members than those in front */
        ss_vehicle *const v = &m.bridge.vehicles[0];
        v->axle_gauge_m[v->axle_count - 1] = 0.71 * v->gauge_m;
    }
    CHECK_OK(made_solve(&m), &m.error);
    ss_effect effects[EFFECTS];
    choose_effects(&m, effects);
    const ss_envelope_options o = {.factors = {1.0, 1.0}, .live_factor = as.live_factor};
    ss_envelope e;
    CHECK_OK(ss_envelope_compute(&m.permanent, &m.placements, effects, EFFECTS, &o, &e, &m.error), &m.error);
    CU_ASSERT_EQUAL(e.contact_matters, as.contact);
    CU_ASSERT(!e.tips);
    CU_ASSERT(e.checked_count > 5);
    CU_ASSERT(e.accuracy < 1e-10);
    compare_with_steps(&m, &e, &o);
    ss_envelope_destroy(&e);
    made_free(&m);
}

static void test_two_way_against_steps(void) {
    run_brute_force((variation){.live_factor = 1.0});
}

static void test_contact_against_steps(void) {
    run_brute_force((variation){.contact = true, .live_factor = 1.0});
}

static void test_heavy_against_steps(void) {
    run_brute_force((variation){.contact = true, .live_factor = 1.9});
}

static void test_deck_along_against_steps(void) {
    run_brute_force((variation){.contact = true, .along = true, .live_factor = 1.3});
}

static void test_two_gauges_against_steps(void) {
    run_brute_force((variation){.contact = true, .two_gauges = true, .live_factor = 1.0});
}

int main(void) {
    static const test_case cases[] = {
        {"two-way against steps", test_two_way_against_steps},
        {"contact against steps", test_contact_against_steps},
        {"heavy truck against steps", test_heavy_against_steps},
        {"deck along against steps", test_deck_along_against_steps},
        {"two gauges against steps", test_two_gauges_against_steps},
    };
    return RUN_SUITE("envelope_steps", cases);
}
