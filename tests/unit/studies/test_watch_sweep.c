/* test_watch_sweep.c - watched places for any stiffness of joints out of one factorisation, against the
 * bridge described and analysed anew with that stiffness. */
#include "studies/watch_sweep.h"
#ifdef _OPENMP
#include <omp.h>
#endif

#include "sillspan/follow.h"
#include "studies/sweep_parts.h"
#include "unit/studies/watched_samples.h"

/* Of factors, and of effects as a share of the largest of their kind. */
#define SAME 1e-9

enum { SPRINGS = 400, KINDS = 7 };

/* One bridge whose joints of a name are swept by their scale. */
typedef struct swept {
    const char *file;
    const sample_setting *settings;
    const char *scale; /* path */
    ss_description description;
    ss_variant base;
    ss_watch watch;
    ss_follow follow;
    ss_watch_sweep *sweep;
    ss_watch_value *closed, *anew;
} swept;

/* The sweep of what is watched by now. */
static void sweep_again(swept *s) {
    ss_error error = {0};
    bool joints[8] = {false};
    int springs[SPRINGS];
    ss_sweep_joints of = {.joint = joints};
    const ss_unknown unknown = {.paths = &s->scale, .path_count = 1};
    CU_ASSERT_TRUE_FATAL(ss_sweep_joints_of(&s->base.bridge, &unknown, &of));
    CU_ASSERT_FATAL(s->base.mesh.spring_count <= SPRINGS && s->base.bridge.joint_count <= 8);
    const int count = ss_sweep_springs(&s->base.mesh, &of, springs);
    CU_ASSERT_FATAL(count > 0);
    ss_watch_sweep_destroy(s->sweep);
    ss_free(s->closed);
    ss_free(s->anew);
    CHECK_OK(ss_watch_sweep_create(&s->watch, &s->base, count, springs, &s->sweep, &error), &error);
    const size_t room = (size_t)s->watch.item_count + 1;
    s->closed = ss_alloc(room, sizeof *s->closed);
    s->anew = ss_alloc(room, sizeof *s->anew);
    CU_ASSERT_FATAL(s->closed != NULL && s->anew != NULL);
}

static void sweep_start(swept *s, const char *file, const sample_setting *settings, const char *scale) {
    ss_error error = {0};
    *s = (swept){.file = file, .settings = settings, .scale = scale};
    s->description = sample_read(file, settings);
    sample_rate(&s->description, &s->base);
    CHECK_OK(ss_watch_add(&s->watch, &s->base, (double)INFINITY, &error), &error);
    CHECK_OK(ss_follow_add(&s->follow, &s->watch, &s->base, NULL, NULL, &error), &error);
    sweep_again(s);
}

static void sweep_end(swept *s) {
    ss_free(s->closed);
    ss_free(s->anew);
    ss_watch_sweep_destroy(s->sweep);
    ss_follow_destroy(&s->follow);
    ss_watch_destroy(&s->watch);
    ss_variant_destroy(&s->base);
    ss_description_destroy(&s->description);
}

/* The bridge with its joints k times as stiff. */
static void describe(const swept *s, double k, ss_description *out) {
    char value[40];
    *out = sample_read(s->file, s->settings);
    snprintf(value, sizeof value, "%.17g", k);
    sample_set(out, s->scale, value);
}

static void analyse(swept *s, const ss_description *d) {
    ss_error error = {0};
    ss_variant v;
    sample_stand(d, &v);
    CHECK_OK(ss_watch_compute(&s->watch, &v, s->anew, &error), &error);
    ss_variant_destroy(&v);
}

/* What effects of each kind are measured by, joints and bearings apart. */
static void find_scales(const swept *s, double live[4][KINDS], double dead[4][KINDS]) {
    memset(live, 0, 4 * sizeof *live);
    memset(dead, 0, 4 * sizeof *dead);
    for (int i = 0; i < s->watch.item_count; i++) {
        const ss_watched_effect *const e = &s->watch.effects[s->watch.items[i].effect];
        if (s->watch.items[i].check == SS_WATCH_LIVE && isfinite(s->anew[i].value)) {
            live[e->member][e->kind] = fmax(live[e->member][e->kind], fabs(s->anew[i].value));
            dead[e->member][e->kind] = fmax(dead[e->member][e->kind], fabs(s->anew[i].dead));
        }
    }
}

/* Where a truck lifts a car off all but the joint, the digits of both ways go as the joint's stiffness. */
static double factors_within(double k) {
    return SAME * fmax(1.0, 1e-3 / k);
}

/* What of joints is compared. */
typedef enum joints { JOINTS_NOT, JOINTS_FORCES, JOINTS_ALL } joints;

/* Compares both. Returns how many items were compared. */
static int compare(const swept *s, double k, joints of) {
    double live[4][KINDS], dead[4][KINDS];
    const double within = k > 0.0 ? factors_within(k) : SAME;
    int compared = 0;
    find_scales(s, live, dead);
    for (int i = 0; i < s->watch.item_count; i++) {
        const ss_watched_effect *const e = &s->watch.effects[s->watch.items[i].effect];
        const ss_watch_value *const a = &s->closed[i], *const b = &s->anew[i];
        const bool factor = s->watch.items[i].check != SS_WATCH_LIVE;
        const double most = live[e->member][e->kind];
        if (e->member == SS_MEMBER_JOINT && (of == JOINTS_NOT || (factor && of == JOINTS_FORCES))) {
            continue;
        }
        const bool good = factor ? sample_same(a->value, b->value, within) && a->tips == b->tips
                                 : fabs(a->value - b->value) <= SAME * most &&
                                       fabs(a->dead - b->dead) <= SAME * fmax(most, dead[e->member][e->kind]);
        if (!good) {
            printf("\n  k %g, %s %s kind %d at %g: %.15g, analysed %.15g; dead %.15g, %.15g", k,
                   e->car == NULL ? "joint" : e->car, e->name, (int)e->kind, e->at, a->value, b->value,
                   a->dead, b->dead);
        }
        CU_ASSERT(good);
        compared++;
    }
    return compared;
}

/* Twelve decades, both ends apart. */
static void check_decades(const char *file, const sample_setting *settings, const char *scale) {
    const long live = ss_memory_live();
    swept s;
    ss_error error = {0};
    sweep_start(&s, file, settings, scale);
    for (int decade = -6; decade <= 6; decade += 2) {
        const double k = pow(10.0, decade);
        ss_description d;
        describe(&s, k, &d);
        analyse(&s, &d);
        CHECK_OK(ss_watch_sweep_at(s.sweep, k, s.closed, &error), &error);
        CU_ASSERT(compare(&s, k, JOINTS_ALL) > 100);
        ss_description_destroy(&d);
    }
    sweep_end(&s);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

static void test_two_way(void) {
    const sample_setting rated[] = {{"bridge.joints.seam.shear_capacity", "5 kip/ft"}, {NULL, NULL}};
    check_decades(STONE_RUN, rated, "bridge.joints.seam.scale");
}

/* Contact, a pad, a gap and a settlement, shims placed later; connectors in the other joint. */
static void test_contact(void) {
    const sample_setting held[] = {{"bridge.bearings.shims.action", "two-way"},
                                   {"bridge.bearings.shims.settlement", "1/8 in"},
                                   {"bridge.bearings.seats.settlement", "-1/16 in"},
                                   {NULL, NULL}};
    check_decades(MILL_POND, NULL, "bridge.joints.seam.scale");
    check_decades(MILL_POND, held, "bridge.joints.bolts.scale");
}

/* k = 0 is the bridge without the joint, infinity the rigid one, whose joint is not rated: its force gathers
 * at its ends. */
static void test_ends(void) {
    const sample_setting none[] = {{"bridge.joints.seam.kind", "none"}, {NULL, NULL}};
    const sample_setting rigid[] = {{"bridge.joints.seam.kind", "rigid"}, {NULL, NULL}};
    swept s;
    ss_error error = {0};
    sweep_start(&s, MILL_POND, NULL, "bridge.joints.seam.scale");
    ss_description without = sample_read(MILL_POND, none), tied = sample_read(MILL_POND, rigid);
    analyse(&s, &without);
    CHECK_OK(ss_watch_sweep_at(s.sweep, 0.0, s.closed, &error), &error);
    CU_ASSERT(compare(&s, 0.0, JOINTS_NOT) > 100);
    int idle = 0;
    for (int i = 0; i < s.watch.item_count; i++) {
        const ss_watched_effect *const e = &s.watch.effects[s.watch.items[i].effect];
        if (e->member == SS_MEMBER_JOINT && strcmp(e->name, "seam") == 0) {
            CU_ASSERT(isnan(s.anew[i].value)); /* there is no such joint */
            CU_ASSERT(s.watch.items[i].check == SS_WATCH_LIVE ? s.closed[i].value == 0.0
                                                              : isinf(s.closed[i].value) || s.closed[i].tips);
            idle++;
        }
    }
    CU_ASSERT(idle > 2);
    analyse(&s, &tied);
    CHECK_OK(ss_watch_sweep_at(s.sweep, (double)INFINITY, s.closed, &error), &error);
    CU_ASSERT(compare(&s, (double)INFINITY, JOINTS_FORCES) > 100);
    ss_description_destroy(&without);
    ss_description_destroy(&tied);
    sweep_end(&s);
}

/* Refused at k = 0 by the closed form and by an analysis, with the same status; held by any joint. */
static void check_needs_joint(const char *file, const sample_setting *settings, const char *joint,
                              ss_status expected) {
    char path[64], kind[64];
    swept s;
    ss_error error = {0};
    ss_diag_list diags = {0};
    ss_variant v = {0};
    snprintf(path, sizeof path, "bridge.joints.%s.scale", joint);
    sweep_start(&s, file, settings, path);
    CU_ASSERT_EQUAL(ss_watch_sweep_at(s.sweep, 0.0, s.closed, &error), expected);
    CU_ASSERT(error.message[0] != '\0');
    error = (ss_error){0};
    ss_description d = sample_read(file, settings);
    snprintf(kind, sizeof kind, "bridge.joints.%s.kind", joint);
    sample_set(&d, kind, "none");
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&d, &v.bridge, &diags), SS_OK);
    ss_status status = ss_variant_structure(&v, &error);
    if (status == SS_OK) {
        status = ss_permanent_compute(&v.bridge, v.grillage, &v.permanent, &error);
    }
    CU_ASSERT_EQUAL(status, expected);
    ss_diag_destroy(&diags);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
    for (int decade = -2; decade <= 4; decade += 3) {
        const double k = pow(10.0, decade);
        describe(&s, k, &d);
        analyse(&s, &d);
        CHECK_OK(ss_watch_sweep_at(s.sweep, k, s.closed, &error), &error);
        CU_ASSERT(compare(&s, k, JOINTS_ALL) > 50);
        ss_description_destroy(&d);
    }
    sweep_end(&s);
}

/* Cars on one row of bearings each roll without the joint; a car loaded at its edge tips off its bearings. */
static void test_need_each_other(void) {
    const sample_setting roll[] = {
        {"bridge.bearings.ends.under", "sill"}, {"bridge.stages", "together"}, {NULL, NULL}};
    const sample_setting tip[] = {{"bridge.bearings.shims.under", "edges 1"},
                                  {"bridge.bearings.shims.placed", "first"},
                                  {"bridge.bearings.prop.gap", "0 in"},
                                  {"bridge.dead_loads.main.line", "1500 lb/ft"},
                                  {NULL, NULL}};
    check_needs_joint(STONE_RUN, roll, "seam", SS_ERROR_MECHANISM);
    check_needs_joint(MILL_POND, tip, "seam", SS_ERROR_TIPPING);
}

/* ---- energy ----------------------------------------------------------------------------------------- */

/* Adds the deflection of a main girder right under a single wheel on it. */
static int add_own_deflection(swept *s, const char *car) {
    ss_error error = {0};
    const ss_bridge *const bridge = &s->base.bridge;
    const ss_placements *const places = &s->base.placements;
    const double at = 8.0 * 12.0 * 0.0254;
    ss_extreme extreme = {.position = {.track = -1, .x = at}};
    ss_effect effect;
    int line = 0, item = -1;
    while (strcmp(bridge->cars[bridge->lines[line].car].name, car) != 0 ||
           bridge->lines[line].role != SS_ROLE_MAIN) {
        line++;
    }
    for (int i = 0; i < places->track_count; i++) {
        if (fabs(places->tracks[i].y - bridge->lines[line].y) < 1e-9) {
            extreme.position.track = i;
        }
    }
    CU_ASSERT_FATAL(extreme.position.track >= 0);
    CHECK_OK(
        ss_mesh_effect(&s->base.mesh, SS_MEMBER_LINE, line, at, false, SS_EFFECT_DEFLECTION, &effect, &error),
        &error);
    CHECK_OK(ss_watch_add_live(&s->watch, &s->base, &effect, true, 0, &extreme, &item, &error), &error);
    return item;
}

/* Without contact a spring made stiffer never adds to the work of a load: f . u falls from none to rigid. */
static void test_compliance(void) {
    static const char *const cars[] = {"west", "middle"};
    const sample_setting held[] = {{"bridge.bearings.shims.action", "two-way"},
                                   {"bridge.bearings.seats.action", "two-way"},
                                   {"bridge.bearings.prop.gap", "0 in"},
                                   {"bridge.bearings.prop.action", "two-way"},
                                   {"decks.planks.spans", "across"},
                                   {"rating.trucks", "wheel"},
                                   {"rating.methods", "ASR"},
                                   {NULL, NULL}};
    for (int c = 0; c < ENTRIES(cars); c++) {
        swept s;
        ss_error error = {0};
        sweep_start(&s, MILL_POND, held, "bridge.joints.seam.scale");
        const int item = add_own_deflection(&s, cars[c]);
        sweep_again(&s);
        double before = (double)INFINITY, first = 0.0;
        for (int i = 0; i <= 50; i++) {
            const double k = i == 0 ? 0.0 : i == 50 ? (double)INFINITY : pow(10.0, 0.25 * (i - 25));
            CHECK_OK(ss_watch_sweep_at(s.sweep, k, s.closed, &error), &error);
            const double here = s.closed[item].value;
            CU_ASSERT(here > 0.0 && here <= before * (1.0 + 1e-12));
            first = i == 0 ? here : first;
            before = here;
        }
        CU_ASSERT(before < 0.998 * first);
        sweep_end(&s);
    }
}

/* The same bytes whichever thread asks. */
static void test_threads(void) {
    enum { POINTS = 24 };
    swept s;
    sweep_start(&s, MILL_POND, NULL, "bridge.joints.seam.scale");
    const size_t items = (size_t)s.watch.item_count;
    ss_watch_value *const one = ss_alloc(POINTS * items, sizeof *one);
    ss_watch_value *const four = ss_alloc(POINTS * items, sizeof *four);
    CU_ASSERT_FATAL(one != NULL && four != NULL);
    int failures = 0;
    for (int pass = 0; pass < 2; pass++) {
        ss_watch_value *const out = pass == 0 ? one : four;
#ifdef _OPENMP
#pragma omp parallel for schedule(dynamic, 1) num_threads(pass == 0 ? 1 : 4) reduction(+ : failures)
#endif
        for (int i = 0; i < POINTS; i++) {
            failures +=
                ss_watch_sweep_at(s.sweep, pow(10.0, 0.25 * i - 3.0), out + (size_t)i * items, NULL) != SS_OK;
        }
    }
    CU_ASSERT_EQUAL(failures, 0);
    for (size_t i = 0; i < POINTS * items; i++) {
        CU_ASSERT(memcmp(&one[i].value, &four[i].value, sizeof one[i].value) == 0 &&
                  memcmp(&one[i].dead, &four[i].dead, sizeof one[i].dead) == 0 &&
                  one[i].tips == four[i].tips);
    }
    ss_free(one);
    ss_free(four);
    sweep_end(&s);
}

static void test_no_memory(void) {
    swept s;
    ss_error error = {0};
    sweep_start(&s, STONE_RUN, NULL, "bridge.joints.seam.scale");
    const long live = ss_memory_live();
    bool done = false;
    int failures = 0;
    for (int n = 0; !done; n++) {
        ss_memory_fail_from(n);
        const ss_status status = ss_watch_sweep_at(s.sweep, 2.0, s.closed, &error);
        ss_memory_fail_from(-1);
        CU_ASSERT(status == SS_OK || status == SS_ERROR_MEMORY);
        CU_ASSERT_EQUAL_FATAL(ss_memory_live(), live);
        done = status == SS_OK;
        failures += !done;
    }
    CU_ASSERT(failures > 2);
    sweep_end(&s);
}

int main(void) {
    static const test_case cases[] = {
        {"two-way bearings", test_two_way}, {"contact, gaps, later shims", test_contact},
        {"both ends", test_ends},           {"cars that need each other", test_need_each_other},
        {"compliance", test_compliance},    {"threads", test_threads},
        {"no memory", test_no_memory},
    };
    return RUN_SUITE("watched places of swept joints", cases);
}
