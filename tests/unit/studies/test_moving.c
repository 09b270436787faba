/* test_moving.c - the data of a truck that moves, added up, against analyses of the bridge so described with
 * the truck there. */
#include "sillspan/moving.h"

#include "base/numeric.h"
#include "sillspan/cases.h"
#include "unit/studies/moving_sums.h"
#include "unit/studies/watched_samples.h"

#define MODEL(name) "../../../models/bridges/" name ".cfg"

/* A truck that stands somewhere, by its middle and front axle. */
typedef struct stand {
    const char *truck;
    bool backward;
    double x, y;
} stand;

typedef struct bridge_at {
    const char *file, *scale; /* path of the joints' scale, or NULL */
    ss_description description;
    ss_variant variant;
} bridge_at;

static void stand_up(bridge_at *b, const char *file, const char *scale, double k) {
    char value[40];
    snprintf(value, sizeof value, "%.17g", k);
    *b = (bridge_at){.file = file, .scale = scale, .description = sample_read(file, NULL)};
    for (const char *path = scale; path != NULL && *path != '\0';) {
        char one[100];
        const size_t length = strcspn(path, ",");
        snprintf(one, sizeof one, "%.*s", (int)length, path);
        sample_set(&b->description, one, value);
        path += length + (path[length] == ',');
    }
    sample_stand(&b->description, &b->variant);
}

static void take_down(bridge_at *b) {
    ss_variant_destroy(&b->variant);
    ss_description_destroy(&b->description);
}

static int wheels_of(const ss_vehicle *v, const stand *at, sums_wheel *out) {
    int count = 0;
    double behind = 0.0;
    for (int a = 0; a < v->axle_count; a++) {
        const double gauge = ss_vehicle_gauge(v, a), x = at->backward ? at->x + behind : at->x - behind;
        const int wheels = gauge > 0.0 ? 2 : 1;
        for (int w = 0; w < wheels; w++) {
            out[count++] = (sums_wheel){x, at->y + (w == 0 ? -0.5 : 0.5) * gauge, v->axle_N[a] / wheels};
        }
        behind += v->spacing_m[a];
    }
    return count;
}

/* The bridge under dead load and the wheels, by the library. */
static void analyse(const bridge_at *b, const sums_wheel *wheel, int count, ss_state *out) {
    ss_error error = {0};
    ss_load load = {0};
    CHECK_OK(ss_load_create(&b->variant.mesh, &load, &error), &error);
    for (int i = 0; i < count; i++) {
        CHECK_OK(ss_load_force(&load, wheel[i].x, wheel[i].y, wheel[i].P, &error), &error);
    }
    CHECK_OK(
        ss_permanent_state(&b->variant.permanent, true, (ss_dead_factors){1.0, 1.0}, &load, 1.0, out, &error),
        &error);
    ss_load_destroy(&load);
}

static double line_effect(const bridge_at *b, const ss_state *state, int line, double x,
                          ss_effect_kind kind) {
    const ss_mesh *const mesh = &b->variant.mesh;
    ss_effect e;
    ss_error error = {0};
    if (ss_mesh_effect(mesh, SS_MEMBER_LINE, line, x, false, kind, &e, NULL) != SS_OK) {
        CHECK_OK(ss_mesh_effect(mesh, SS_MEMBER_LINE, line, x, true, kind, &e, &error), &error);
    }
    return ss_state_effect(mesh, state, &e) - ss_state_effect(mesh, &b->variant.permanent.present, &e);
}

/* What the library has of a reading, live. */
static double live_of(const bridge_at *b, const ss_moving *m, const ss_state *state, int reading) {
    const ss_moving_reading *const r = &m->reading[reading];
    const ss_bridge *const bridge = &b->variant.bridge;
    const double x = r->section < 0 ? 0.0 : m->section[r->section];
    double sum = 0.0;
    switch (r->kind) {
    case SS_MOVING_MOMENT: return line_effect(b, state, r->index, x, SS_EFFECT_MOMENT);
    case SS_MOVING_DEFLECTION: return line_effect(b, state, r->index, x, SS_EFFECT_DEFLECTION);
    case SS_MOVING_CAR:
        for (int l = 0; l < bridge->line_count; l++) {
            ss_effect e;
            const bool there = ss_mesh_effect(&b->variant.mesh, SS_MEMBER_LINE, l, x, false, SS_EFFECT_MOMENT,
                                              &e, NULL) == SS_OK ||
                               ss_mesh_effect(&b->variant.mesh, SS_MEMBER_LINE, l, x, true, SS_EFFECT_MOMENT,
                                              &e, NULL) == SS_OK;
            sum += there && bridge->lines[l].car == r->index ? line_effect(b, state, l, x, SS_EFFECT_MOMENT)
                                                             : 0.0;
        }
        return sum;
    default: return (double)NAN;
    }
}

/* Springs of supports: contact springs in order, then the other ones of bearings. */
static int spring_of(const bridge_at *b, const ss_moving *m, int support) {
    const int *contact = NULL;
    const double *S = NULL;
    int at = ss_grillage_contact(b->variant.grillage, &contact, &S);
    CU_ASSERT_EQUAL_FATAL(at, m->contact_count);
    if (support < at) {
        return contact[support];
    }
    for (int i = 0; i < b->variant.mesh.spring_count; i++) {
        const ss_spring *const s = &b->variant.mesh.spring[i];
        if (s->owner == SS_MEMBER_BEARING && !s->contact && at++ == support) {
            return i;
        }
    }
    CU_FAIL_FATAL("no such support");
    return -1;
}

/* Largest of each kind, to say how far off a value is. */
typedef struct worst {
    double off[SS_MOVING_KINDS], largest[SS_MOVING_KINDS];
    double off_opening, opening;
    int open; /* bearings that were found open, in all positions */
} worst;

static void compare_at(const bridge_at *b, const ss_moving *m, const sums *s, const stand *at, worst *w) {
    sums_wheel wheel[SUMS_WHEELS];
    ss_state state = {0};
    sums_answer answer = {.live = calloc((size_t)m->reading_count, sizeof(double))};
    const int count = wheels_of(ss_vehicle_find(at->truck), at, wheel);
    CU_ASSERT_FATAL(answer.live != NULL);
    analyse(b, wheel, count, &state);
    sums_move(s, wheel, count, &answer);
    CU_ASSERT_FALSE(answer.tips);
    for (int i = 0; i < m->reading_count; i++) {
        const ss_moving_kind kind = m->reading[i].kind;
        double is = answer.live[i], should = 0.0;
        if (kind == SS_MOVING_SUPPORT) {
            const int spring = spring_of(b, m, i);
            is = answer.reaction[i];
            should = state.force[spring];
            if (m->support[i].slope) {
                continue;
            }
            w->opening = ss_max(w->opening, state.opening[spring]);
            w->off_opening = ss_max(w->off_opening, fabs(state.opening[spring] - answer.u[i]));
            w->open += state.opening[spring] > 1e-5;
        } else {
            should = live_of(b, m, &state, i);
        }
        w->off[kind] = ss_max(w->off[kind], fabs(is - should));
        w->largest[kind] = ss_max(w->largest[kind], fabs(should));
    }
    ss_state_destroy(&state);
    free(answer.live);
}

/* Compares at a stiffness k and stands; values are to agree within `most` of the largest of their kind. */
static int compare(const char *file, const char *scale, double k, const stand *stands, double most) {
    bridge_at as_described, b;
    ss_error error = {0};
    ss_moving m = {0};
    worst w = {0};
    sums s;
    stand_up(&as_described, file, scale, 1.0);
    stand_up(&b, file, scale, k);
    CHECK_OK(ss_moving_compute(&as_described.variant.permanent, SS_MOVING_BUDGET, &m, &error), &error);
    CU_ASSERT_TRUE(m.bytes <= SS_MOVING_BUDGET);
    sums_unpack(&s, &m);
    sums_stand(&s, k);
    for (; stands->truck != NULL; stands++) compare_at(&b, &m, &s, stands, &w);
    for (int kind = 0; kind < SS_MOVING_KINDS; kind++) {
        if (!(w.off[kind] <= most * w.largest[kind])) {
            printf("\n  %s at %g: kind %d is off by %.2g of the largest, %g", file, k, kind,
                   w.off[kind] / w.largest[kind], w.largest[kind]);
        }
        CU_ASSERT_TRUE(w.off[kind] <= most * w.largest[kind]);
    }
    if(getenv("SHOW"))printf("\n %s k %g tol %g: open %d supp %.1e/%.3g mom %.1e defl %.1e car %.1e opening %.1e/%.2e",file,k,m.tolerance,w.open,w.off[0]/w.largest[0],w.largest[0],w.off[1]/w.largest[1],w.off[2]/w.largest[2],w.off[3]/w.largest[3],w.off_opening,w.opening);
    sums_free(&s);
    ss_moving_destroy(&m);
    take_down(&b);
    take_down(&as_described);
    return w.open;
}

static const stand alder[] = {{"HS20-44", false, 9.0, 1.35}, {"HS20-44", true, 5.0, 3.9},
                              {"EV3", false, 12.3, 2.86},    {"HS20-44", false, 20.9, 1.6},
                              {"H15-44", false, 1.1, 4.2},   {NULL, false, 0.0, 0.0}};

static void test_described(void) {
    static const stand larch[] = {{"EV3", false, 9.0, 1.4},
                                  {"Type 3", true, 3.3, 4.6},
                                  {"SU4", false, 16.5, 3.06},
                                  {NULL, false, 0.0, 0.0}};
    static const stand creek[] = {{"HS20-44", false, 18.0, 2.0},
                                  {"EV3", true, 1.0, 6.4},
                                  {"HS20-44", false, 4.0, 4.4},
                                  {NULL, false, 0.0, 0.0}};
    CU_ASSERT_TRUE(compare(MODEL("alder-branch"), NULL, 1.0, alder, 1e-4) > 0);
    compare(MODEL("larch-ford"), NULL, 1.0, larch, 1e-4);
    CU_ASSERT_TRUE(compare(MODEL("cold-creek"), NULL, 1.0, creek, 2e-4) > 0);
    compare(MODEL("thistle-run"), NULL, 1.0, alder, 1e-4);
}

/* Shims and gaps stand anew for each stiffness, as the program has it. */
static void test_swept(void) {
    static const double k[] = {0.02, 0.3, 5.0, 300.0};
    for (size_t i = 0; i < sizeof k / sizeof k[0]; i++) {
        CU_ASSERT_TRUE(compare(MODEL("alder-branch"), "bridge.joints.seam.scale", k[i], alder, 3e-4) > 0);
        compare(MODEL("cold-creek"), "bridge.joints.welded seam.scale,bridge.joints.bolted seam.scale", k[i],
                alder, 6e-4);
    }
}

int main(void) {
    static const test_case tests[] = {{"as described", test_described}, {"swept", test_swept}};
    return RUN_SUITE("moving", tests);
}
