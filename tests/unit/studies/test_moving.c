/* test_moving.c - the data of a truck that moves, added up, against analyses of the bridge so described with
 * the truck there. */
#include "sillspan/moving.h"

#include "base/numeric.h"
#include "sillspan/cases.h"
#include "unit/studies/moving_sums.h"
#include "unit/studies/watched_samples.h"

#define STONE_DECK "stone_deck.cfg"
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
    if (strcmp(file, STONE_DECK) == 0) {
        sample_set(&b->description, "slab.in_use", "true");
    }
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
    double off_opening; /* m */
    int open;           /* bearings that were found open, in all positions */
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
    CU_ASSERT_TRUE(w.off_opening < 5e-6);
    sums_free(&s);
    ss_moving_destroy(&m);
    take_down(&b);
    take_down(&as_described);
    return w.open;
}

static const stand alder[] = {{"HS20-44", false, 9.0, 1.35}, {"HS20-44", true, 5.0, 3.9},
                              {"EV3", false, 12.3, 2.86},    {"HS20-44", false, 20.9, 1.6},
                              {"H15-44", false, 1.1, 4.2},   {NULL, false, 0.0, 0.0}};

static const stand pond[] = {{"HS20-44", false, 6.0, 1.3}, {"EV3", true, 2.1, 3.9},
                             {"HS20-44", false, 3.9, 6.0}, {"Type 3", true, 5.0, 3.7},
                             {"EV2", false, 2.4, 5.2},     {NULL, false, 0.0, 0.0}};

static void test_described(void) {
    static const stand stone[] = {{"HS20-44", false, 6.0, 1.4},
                                  {"EV3", true, 2.1, 3.4},
                                  {"Type 3", true, 5.0, 2.5},
                                  {NULL, false, 0.0, 0.0}};
    static const stand larch[] = {{"EV3", false, 9.0, 1.4},
                                  {"Type 3", true, 3.3, 4.6},
                                  {"SU4", false, 16.5, 3.06},
                                  {NULL, false, 0.0, 0.0}};
    CU_ASSERT_TRUE(compare(MODEL("alder-branch"), NULL, 1.0, alder, 5e-5) > 0);
    CU_ASSERT_TRUE(compare(MODEL("larch-ford"), NULL, 1.0, larch, 5e-5) > 0);
    compare(MODEL("thistle-run"), NULL, 1.0, alder, 5e-5);
    /* A slab that was cast in stages. */
    compare(STONE_DECK, NULL, 1.0, stone, 5e-5);
}

/* Shims and gaps stand anew for each stiffness, as the program has it. The deck of the first spans along. */
static void test_swept(void) {
    static const double k[] = {0.02, 0.3, 5.0, 300.0};
    const char *const joints = "bridge.joints.seam.scale,bridge.joints.bolts.scale";
    for (size_t i = 0; i < sizeof k / sizeof k[0]; i++) {
        CU_ASSERT_TRUE(compare(MILL_POND, joints, k[i], pond, 1e-4) > 0);
    }
    CU_ASSERT_TRUE(compare(MODEL("alder-branch"), "bridge.joints.seam.scale", 7.0, alder, 1e-4) > 0);
}

/* The ends of the joints' stiffness: nothing, as if the joint were not there, and rigid. */
static void test_ends(void) {
    bridge_at b;
    ss_moving m = {0};
    ss_error error = {0};
    sums soft, none, stiff, rigid;
    sums_answer at[4];
    sums_wheel wheel[SUMS_WHEELS];
    const sums *const all[4] = {&soft, &none, &stiff, &rigid};
    stand_up(&b, STONE_RUN, NULL, 1.0);
    CHECK_OK(ss_moving_compute(&b.variant.permanent, SS_MOVING_BUDGET, &m, &error), &error);
    CU_ASSERT_TRUE(m.none && m.rigid && m.still == SS_MOVING_SWEPT && m.least < 0.5 && m.most > 2.0);
    sums_unpack(&soft, &m);
    sums_unpack(&none, &m);
    sums_unpack(&stiff, &m);
    sums_unpack(&rigid, &m);
    sums_stand(&soft, m.least);
    sums_stand(&none, 0.0);
    sums_stand(&stiff, m.most);
    sums_stand(&rigid, (double)INFINITY);
    const int count = wheels_of(ss_vehicle_find("EV3"), &pond[0], wheel);
    for (int i = 0; i < 4; i++) {
        at[i].live = calloc((size_t)m.reading_count, sizeof(double));
        CU_ASSERT_FATAL(at[i].live != NULL);
        sums_move(all[i], wheel, count, &at[i]);
    }
    double largest[SS_MOVING_KINDS] = {0.0};
    for (int i = 0; i < m.reading_count; i++) {
        double *const most = &largest[m.reading[i].kind];
        for (int k = 0; k < 4; k++) *most = ss_max(*most, fabs(at[k].live[i]));
    }
    for (int i = 0; i < m.reading_count; i++) {
        const double most = largest[m.reading[i].kind];
        CU_ASSERT_TRUE(fabs(at[0].live[i] - at[1].live[i]) <= 0.03 * most);
        CU_ASSERT_TRUE(fabs(at[2].live[i] - at[3].live[i]) <= 0.03 * most);
    }
    for (int i = 0; i < 4; i++) free(at[i].live);
    sums_free(&soft);
    sums_free(&none);
    sums_free(&stiff);
    sums_free(&rigid);
    ss_moving_destroy(&m);
    take_down(&b);
}

/* Why the stiffness stays: hinges are at an end already, and one car has no joint. */
static void test_still(void) {
    bridge_at b;
    ss_moving m = {0};
    ss_error error = {0};
    stand_up(&b, "../../golden/models/two-spines.cfg", NULL, 1.0);
    CHECK_OK(ss_moving_compute(&b.variant.permanent, SS_MOVING_BUDGET, &m, &error), &error);
    CU_ASSERT_EQUAL(m.still, SS_MOVING_ENDS);
    CU_ASSERT_EQUAL(m.mode_count, 0);
    ss_moving_destroy(&m);
    take_down(&b);
    stand_up(&b, STONE_DECK, NULL, 1.0);
    CHECK_OK(ss_moving_compute(&b.variant.permanent, SS_MOVING_BUDGET, &m, &error), &error);
    CU_ASSERT_EQUAL(m.still, SS_MOVING_SLAB);
    CU_ASSERT_EQUAL(m.mode_count, 0);
    ss_moving_destroy(&m);
    take_down(&b);
    stand_up(&b, "../../../models/verification/two_span.cfg", NULL, 1.0);
    CHECK_OK(ss_moving_compute(&b.variant.permanent, SS_MOVING_BUDGET, &m, &error), &error);
    CU_ASSERT_EQUAL(m.still, SS_MOVING_ALONE);
    ss_moving_destroy(&m);
    take_down(&b);
}

/* Less room makes it coarser, and at last there is none. */
static void test_budget(void) {
    bridge_at b;
    ss_moving wide = {0}, narrow = {0};
    ss_error error = {0};
    stand_up(&b, STONE_RUN, NULL, 1.0);
    CHECK_OK(ss_moving_compute(&b.variant.permanent, SS_MOVING_BUDGET, &wide, &error), &error);
    CHECK_OK(ss_moving_compute(&b.variant.permanent, wide.bytes * 8 / 10, &narrow, &error), &error);
    CU_ASSERT_TRUE(narrow.bytes <= wide.bytes * 8 / 10);
    CU_ASSERT_TRUE(narrow.tolerance > wide.tolerance || narrow.section_count < wide.section_count);
    ss_moving_destroy(&narrow);
    CU_ASSERT_EQUAL(ss_moving_compute(&b.variant.permanent, 1000, &narrow, &error), SS_ERROR_LIMIT);
    CU_ASSERT_TRUE(error.message[0] != '\0' && narrow.byte == NULL);
    ss_moving_destroy(&wide);
    take_down(&b);
}

/* Every allocation fails in turn; nothing is left behind and nothing is written. */
static void test_no_memory(void) {
    bridge_at b;
    ss_moving m = {0};
    ss_error error = {0};
    ss_status status = SS_ERROR_MEMORY;
    stand_up(&b, STONE_RUN, NULL, 1.0);
    const long live = ss_memory_live();
    long n = 0;
    for (; n < 2000 && status == SS_ERROR_MEMORY; n++) {
        ss_memory_fail_from(n);
        status = ss_moving_compute(&b.variant.permanent, SS_MOVING_BUDGET, &m, &error);
        ss_memory_fail_from(-1);
        CU_ASSERT_TRUE(status == SS_OK || (m.byte == NULL && ss_memory_live() == live));
    }
    CHECK_OK(status, &error);
    CU_ASSERT_TRUE(n > 20);
    ss_moving_destroy(&m);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
    take_down(&b);
}

int main(void) {
    static const test_case tests[] = {{"as described", test_described},
                                      {"swept", test_swept},
                                      {"ends", test_ends},
                                      {"still", test_still},
                                      {"budget", test_budget},
                                      {"no memory", test_no_memory}};
    return RUN_SUITE("moving", tests);
}
