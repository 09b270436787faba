/* test_fatigue_passages.c - stress ranges of single passages against the bridge solved state after state. */
#include "fatigue_samples.h"

/* The bridge with stations at the details and one run of the truck, to be put anywhere. */
typedef struct stand {
    ss_variant v;
    ss_probe probes[8];
    ss_run run;
    ss_effect effects[8];
    int count;
    double dead[8];
} stand;

static void stand_start(const rolled *r, stand *s) {
    ss_diag_list diags = {0};
    ss_error error = {0};
    *s = (stand){.count = r->bridge.fatigue.spot_count};
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&r->description, &s->v.bridge, &diags), SS_OK);
    ss_diag_destroy(&diags);
    for (int i = 0; i < s->count; i++) s->probes[i] = r->bridge.fatigue.spots[i].at;
    s->run = (ss_run){
        .name = "run", .vehicle = r->bridge.fatigue.vehicle, .y = 6.0, .forward = true, .backward = true};
    s->v.bridge.probes = s->probes;
    s->v.bridge.probe_count = s->count;
    s->v.bridge.crossing_count = 0;
    s->v.bridge.rated_vehicle_count = 0;
    s->v.bridge.runs = &s->run;
    s->v.bridge.run_count = 1;
    check_ok("structure", ss_variant_structure(&s->v, &error), &error);
    check_ok("loads", ss_variant_loads(&s->v, &error), &error);
    CU_ASSERT_EQUAL_FATAL(s->v.placements.track_count, 2);
    for (int i = 0; i < s->count; i++) {
        const ss_probe *const p = &s->probes[i];
        check_ok("effect",
                 ss_mesh_effect(&s->v.mesh, p->member, p->index, p->at, p->before, p->effect, &s->effects[i],
                                &error),
                 &error);
        s->dead[i] = ss_state_effect(&s->v.mesh, &s->v.permanent.present, &s->effects[i]);
    }
}

static void stand_finish(stand *s) {
    s->v.bridge.probes = NULL;
    s->v.bridge.probe_count = 0;
    s->v.bridge.runs = NULL;
    s->v.bridge.run_count = 0;
    ss_variant_destroy(&s->v);
}

/* Least and most live effects of one passage, each position solved by itself with its contact. */
static void pass(stand *s, double y, bool backward, double step, double out[8][2]) {
    ss_error error = {0};
    const double length = s->v.bridge.x1 - s->v.bridge.x0;
    const int steps = (int)lround((length + 44.0 * FOOT) / step);
    for (int t = 0; t < 2; t++) s->v.placements.tracks[t].y = y;
    memset(out, 0, 8 * sizeof out[0]);
    for (int k = 0; k <= steps; k++) {
        const double x = backward ? length - k * step : k * step;
        const int track = s->v.placements.tracks[0].backward == backward ? 0 : 1;
        const ss_position position = {.track = track, .x = x};
        const ss_dead_factors one = {1.0, 1.0};
        ss_load load = {0};
        ss_state state = {0};
        check_ok("load", ss_placements_load(&s->v.mesh, &s->v.placements, &position, &load, &error), &error);
        check_ok("state", ss_permanent_state(&s->v.permanent, true, one, &load, ALLOWANCE, &state, &error),
                 &error);
        for (int i = 0; i < s->count; i++) {
            const double value = ss_state_effect(&s->v.mesh, &state, &s->effects[i]) - s->dead[i];
            out[i][0] = fmin(out[i][0], value);
            out[i][1] = fmax(out[i][1], value);
        }
        ss_state_destroy(&state);
        ss_load_destroy(&load);
    }
}

/* The passage that governs gives the range step by step, and no other passage a larger one. Steps of half a
 * foot put axles onto the sections; what lies between makes the range at most a little larger. */
static void check_by_states(const rolled *r, double combined[8][2]) {
    stand s;
    double seen[8][2];
    stand_start(r, &s);
    memset(combined, 0, 8 * sizeof combined[0]);
    for (int i = 0; i < r->results.count; i++) {
        const ss_fatigue_result *const one = &r->results.items[i];
        const double range = one->live[1] - one->live[0];
        pass(&s, one->y, one->backward, 0.5 * FOOT, seen);
        check_near("range of the governing passage", seen[i][1] - seen[i][0], range, 0.004, range);
        CU_ASSERT(seen[i][1] - seen[i][0] <= range * (1.0 + 1e-7));
    }
    for (int line = 0; line <= 6; line++) {
        const double low = s.v.bridge.roadway_left + s.v.bridge.wheel_to_curb + 3.0 * FOOT;
        const double high = s.v.bridge.roadway_right - s.v.bridge.wheel_to_curb - 3.0 * FOOT;
        for (int backward = 0; backward < 2; backward++) {
            pass(&s, low + (high - low) * line / 6.0, backward == 1, FOOT, seen);
            for (int i = 0; i < r->results.count; i++) {
                const ss_fatigue_result *const one = &r->results.items[i];
                CHECK_ROW(seen[i][1] - seen[i][0] <= (one->live[1] - one->live[0]) * (1.0 + 1e-7),
                          r->bridge.fatigue.spots[i].at.name);
                combined[i][0] = fmin(combined[i][0], seen[i][0]);
                combined[i][1] = fmax(combined[i][1], seen[i][1]);
            }
        }
    }
    stand_finish(&s);
}

/* A truck on the far side lifts an edge that one on the near side presses down: no one truck does both. */
static void test_one_passage(void) {
    rolled r;
    double combined[8][2];
    start_sample("rating = {", "rating = {", SAMPLE_DETAILS, &r);
    CU_ASSERT_EQUAL_FATAL(r.results.count, 5);
    check_by_states(&r, combined);
    const ss_fatigue_result *const weld = &r.results.items[4];
    CU_ASSERT(combined[4][1] - combined[4][0] > 1.2 * (weld->live[1] - weld->live[0]));
    CHECK_CLOSE(weld->detail.range, (weld->live[1] - weld->live[0]) / (0.25 * 0.0254), 1e-12);
    finish(&r);
}

static void test_contact(void) {
    rolled loose;
    rolled tied;
    double combined[8][2];
    start_sample("action = \"two-way\"", "action = \"contact\"", SAMPLE_DETAILS, &loose);
    start_sample("rating = {", "rating = {", SAMPLE_DETAILS, &tied);
    check_by_states(&loose, combined);
    /* It is the bearings' lifting that makes the difference. */
    double most = 0.0;
    for (int i = 0; i < loose.results.count; i++) {
        most =
            fmax(most, fabs(loose.results.items[i].detail.range / tied.results.items[i].detail.range - 1.0));
    }
    CU_ASSERT(most > 0.02);
    finish(&loose);
    finish(&tied);
}

int main(void) {
    static const test_case cases[] = {{"one passage", test_one_passage},
                                      {"bearings that lift", test_contact}};
    return RUN_SUITE("passages of the fatigue truck", cases);
}
