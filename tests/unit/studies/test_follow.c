/* test_follow.c - what cars, joints and bearings carry of a truck, followed, against envelopes and states. */
#include "sillspan/follow.h"

#include "response/envelope_tile.h"
#include "unit/studies/watched_samples.h"

/* An envelope refines what its blocks found to about this. */
#define SAME 1e-8

typedef struct followed {
    ss_follow follow;
    ss_watch watch;
    double *values; /* of the bridge that is looked at */
} followed;

static void follow_start(const ss_variant *v, followed *f) {
    ss_error error = {0};
    *f = (followed){.values = NULL};
    CHECK_OK(ss_follow_add(&f->follow, &f->watch, v, NULL, NULL, &error), &error);
}

static void follow_on(followed *f, const ss_variant *v) {
    ss_error error = {0};
    ss_watch_value *const watched = ss_alloc((size_t)f->watch.item_count + 1, sizeof *watched);
    ss_free(f->values);
    f->values = ss_alloc((size_t)f->follow.count + 1, sizeof *f->values);
    CU_ASSERT_FATAL(watched != NULL && f->values != NULL);
    CHECK_OK(ss_watch_compute(&f->watch, v, watched, &error), &error);
    ss_follow_values(&f->follow, watched, f->values);
    ss_free(watched);
}

static void follow_end(followed *f) {
    ss_free(f->values);
    ss_follow_destroy(&f->follow);
    ss_watch_destroy(&f->watch);
}

static bool same_text(const char *a, const char *b) {
    return a == b || (a != NULL && b != NULL && strcmp(a, b) == 0);
}

/* Value of what is followed, NaN: it is not. */
static double value_of(const followed *f, ss_follow_kind kind, int traffic, const char *car,
                       const char *member, double at) {
    for (int i = 0; i < f->follow.count; i++) {
        const ss_followed *const item = &f->follow.items[i];
        if (item->kind == kind && item->traffic == traffic && same_text(item->car, car) &&
            same_text(item->member, member) && (isnan(at) || item->at == at)) {
            return f->values[i];
        }
    }
    return (double)NAN;
}

/* ---- the bridge itself ------------------------------------------------------------------------------ */

/* Extremes of all effects of the bridge under its axles. */
static void envelop(const ss_variant *v, ss_envelope *out) {
    const ss_envelope_options options = {
        .factors = {1.0, 1.0}, .live_factor = 1.0, .extent = SS_EXTENT_AXLES};
    ss_error error = {0};
    CHECK_OK(ss_envelope_compute(&v->permanent, &v->placements, v->effects, v->effect_count, &options, out,
                                 &error),
             &error);
}

/* The farthest extreme of a member's effects; `sign` 0 least, 1 most, -1 magnitude; with dead load or not. */
static double farthest(const ss_variant *v, const ss_envelope *env, int traffic, ss_member_kind member,
                       int index, ss_effect_kind kind, int sign, bool with_dead) {
    double best = (double)NAN;
    for (int i = 0; i < env->effect_count; i++) {
        const ss_effect *const e = &env->effects[i];
        if (e->member != member || e->index != index || e->kind != kind) {
            continue;
        }
        for (int s = 0; s < 2; s++) {
            double value = env->extremes[ss_envelope_at(env, i, traffic, s)].value;
            if (value == 0.0 || (sign >= 0 && s != sign)) {
                continue;
            }
            value = with_dead ? value + env->dead[i] : sign < 0 ? fabs(value) : value;
            const bool beyond = sign == 0 ? value < best : value > best;
            best = isnan(best) || beyond ? value : best;
        }
    }
    (void)v;
    return best;
}

static int check_lines(const ss_variant *v, const followed *f, const ss_envelope *env, int traffic) {
    int checked = 0;
    for (int i = 0; i < v->bridge.line_count; i++) {
        const ss_line *const line = &v->bridge.lines[i];
        const char *const car = v->bridge.cars[line->car].name;
        const double moment = farthest(v, env, traffic, SS_MEMBER_LINE, i, SS_EFFECT_MOMENT, 1, false);
        check_relative(line->whole, value_of(f, SS_FOLLOW_MOMENT, traffic, car, line->whole, (double)NAN),
                       moment, SAME);
        const double sag = value_of(f, SS_FOLLOW_DEFLECTION, traffic, car, line->whole, (double)NAN);
        if (line->role == SS_ROLE_MAIN) {
            check_relative(line->whole, sag,
                           farthest(v, env, traffic, SS_MEMBER_LINE, i, SS_EFFECT_DEFLECTION, 1, false),
                           SAME);
        } else {
            CU_ASSERT(isnan(sag));
        }
        checked++;
    }
    return checked;
}

static int check_supports(const ss_variant *v, const followed *f, const ss_envelope *env, int traffic) {
    int checked = 0;
    for (int i = 0; i < v->bridge.bearing_count; i++) {
        const ss_bearing *const b = &v->bridge.bearings[i];
        const char *const car = v->bridge.cars[b->car].name;
        for (int j = 0; j < f->follow.count; j++) {
            const ss_followed *const item = &f->follow.items[j];
            const bool most = item->kind == SS_FOLLOW_REACTION;
            if ((most || item->kind == SS_FOLLOW_LEAST) && item->traffic == traffic && item->at == b->x &&
                same_text(item->car, car) && same_text(item->member, b->name) &&
                same_text(item->line, v->bridge.lines[b->line].whole)) {
                const double total =
                    farthest(v, env, traffic, SS_MEMBER_BEARING, i, SS_EFFECT_REACTION, most, true);
                check_near(item->member, f->values[j], total, SAME, 1e5);
                checked++;
            }
        }
    }
    for (int i = 0; i < v->bridge.joint_count; i++) {
        const char *const name = v->bridge.joints[i].name;
        check_relative(name, value_of(f, SS_FOLLOW_JOINT_SHEAR, traffic, NULL, name, (double)NAN),
                       farthest(v, env, traffic, SS_MEMBER_JOINT, i, SS_EFFECT_SHEAR, -1, false), SAME);
        checked++;
    }
    return checked;
}

static void check_shares(const ss_variant *v, const followed *f, const ss_envelope *env) {
    ss_share_list list;
    ss_error error = {0};
    CHECK_OK(ss_share_compute(&v->permanent, &v->placements, env, &list, &error), &error);
    CU_ASSERT_EQUAL(list.count, v->bridge.car_count * v->placements.traffic_count);
    for (int i = 0; i < list.count; i++) {
        const ss_share *const share = &list.items[i];
        const char *const car = v->bridge.cars[share->car].name;
        check_relative(car, value_of(f, SS_FOLLOW_SHARE, share->traffic, car, NULL, (double)NAN),
                       share->per_car[share->car], SAME);
    }
    ss_share_destroy(&list);
}

static void check_itself(const char *file, const sample_setting *settings) {
    const long live = ss_memory_live();
    ss_description d = sample_read(file, settings);
    ss_variant v;
    ss_envelope env;
    followed f;
    sample_load(&d, &v);
    envelop(&v, &env);
    follow_start(&v, &f);
    follow_on(&f, &v);
    int checked = 0;
    for (int t = 0; t < v.placements.traffic_count; t++) {
        checked += check_lines(&v, &f, &env, t) + check_supports(&v, &f, &env, t);
    }
    CU_ASSERT(checked > v.bridge.line_count + v.bridge.bearing_count + v.bridge.joint_count);
    check_shares(&v, &f, &env);
    follow_end(&f);
    ss_envelope_destroy(&env);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

static void test_itself(void) {
    const sample_setting alone[] = {{"rating.crossings", "alone"}, {NULL, NULL}};
    const sample_setting trucks[] = {{"rating.trucks", "Type 3, Type 3S2"}, {NULL, NULL}};
    check_itself(MILL_POND, alone);
    check_itself(STONE_RUN, trucks);
}

/* ---- changed bridges -------------------------------------------------------------------------------- */

/* The live effect of a stand, by two states with contact solved. */
static double by_states(const ss_variant *v, const ss_watch *watch, const ss_watched_stand *stand,
                        const ss_effect *effect, double *dead) {
    ss_error error = {0};
    ss_load load;
    ss_state still, under;
    CHECK_OK(ss_placements_load(&v->mesh, &watch->placements, &stand->position[0], &load, &error), &error);
    CHECK_OK(ss_permanent_state(&v->permanent, true, (ss_dead_factors){1.0, 1.0}, NULL, 0.0, &still, &error),
             &error);
    CHECK_OK(ss_permanent_state(&v->permanent, true, (ss_dead_factors){1.0, 1.0}, &load, 1.0, &under, &error),
             &error);
    *dead = ss_state_effect(&v->mesh, &still, effect);
    const double all = ss_state_effect(&v->mesh, &under, effect);
    ss_state_destroy(&still);
    ss_state_destroy(&under);
    ss_load_destroy(&load);
    return all - *dead;
}

/* Magnitude of effects of a kind, for what rounding is measured by. */
static double scale_of(ss_effect_kind kind) {
    return kind == SS_EFFECT_DEFLECTION ? 1e-2 : 1e5;
}

/* Index of a member by its names, in a bridge of the same members. */
static int index_of(const ss_bridge *bridge, const ss_watched_effect *named) {
    for (int i = 0; named->member == SS_MEMBER_LINE && i < bridge->line_count; i++) {
        if (same_text(bridge->lines[i].whole, named->name) &&
            same_text(bridge->cars[bridge->lines[i].car].name, named->car)) {
            return i;
        }
    }
    for (int i = 0; named->member == SS_MEMBER_JOINT && i < bridge->joint_count; i++) {
        if (same_text(bridge->joints[i].name, named->name)) {
            return i;
        }
    }
    for (int i = 0; named->member == SS_MEMBER_BEARING && i < bridge->bearing_count; i++) {
        const ss_bearing *const b = &bridge->bearings[i];
        if (same_text(b->name, named->name) && same_text(bridge->lines[b->line].whole, named->line) &&
            same_text(bridge->cars[b->car].name, named->car) && b->x == named->at) {
            return i;
        }
    }
    return -1;
}

static void check_changed(followed *f, const sample_setting *change) {
    const sample_setting settings[] = {{"rating.crossings", "alone"}, *change, {NULL, NULL}};
    ss_description d = sample_read(MILL_POND, settings);
    ss_error error = {0};
    ss_variant v;
    sample_stand(&d, &v);
    ss_watch_value *const values = ss_alloc((size_t)f->watch.item_count + 1, sizeof *values);
    CHECK_OK(ss_watch_compute(&f->watch, &v, values, &error), &error);
    int checked = 0;
    for (int i = 0; i < f->watch.item_count; i++) {
        const ss_watched_item *const item = &f->watch.items[i];
        const ss_watched_effect *const named = &f->watch.effects[item->effect];
        ss_effect effect;
        const int index = index_of(&v.bridge, named);
        CU_ASSERT_FATAL(index >= 0);
        CHECK_OK(ss_mesh_effect(&v.mesh, named->member, index, named->at, named->before, named->kind, &effect,
                                &error),
                 &error);
        double dead = 0.0;
        const double live = by_states(&v, &f->watch, &f->watch.stands[item->stand], &effect, &dead);
        check_near(change->path, values[i].value, live, 1e-9, scale_of(named->kind));
        check_near(change->path, values[i].dead, dead, 1e-9, scale_of(named->kind));
        checked++;
    }
    CU_ASSERT(checked > 60);
    ss_free(values);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

static void test_changed(void) {
    static const sample_setting changes[] = {{"bridge.joints.seam.shear", "3 kip/in/in"},
                                             {"bridge.joints.bolts.shear_each", "2 kip/in"},
                                             {"bridge.joints.seam.kind", "rigid"},
                                             {"bridge.bearings.shims.spring", "30 kip/in"},
                                             {"bridge.bearings.prop.gap", "0 in"},
                                             {"bridge.bearings.prop.settlement", "1 in"},
                                             {"bridge.bearings.seats.action", "two-way"},
                                             {"decks.planks.spans", "across"},
                                             {"sections.box.torsion", "open"}};
    const sample_setting alone[] = {{"rating.crossings", "alone"}, {NULL, NULL}};
    ss_description d = sample_read(MILL_POND, alone);
    ss_variant v;
    followed f;
    sample_load(&d, &v);
    follow_start(&v, &f);
    for (int i = 0; i < ENTRIES(changes); i++) check_changed(&f, &changes[i]);
    follow_end(&f);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

/* What a followed result is on a changed bridge is no more than its envelope there, and for shares and lines
 * close to it; with the changed bridge added it is just that. */
static void test_added_again(void) {
    const sample_setting alone[] = {{"rating.crossings", "alone"}, {NULL, NULL}};
    const sample_setting tied[] = {
        {"rating.crossings", "alone"}, {"bridge.joints.seam.shear", "20 kip/in/in"}, {NULL, NULL}};
    ss_description d = sample_read(MILL_POND, alone), other = sample_read(MILL_POND, tied);
    ss_variant v, w;
    ss_envelope env;
    ss_error error = {0};
    followed f;
    sample_load(&d, &v);
    sample_load(&other, &w);
    envelop(&w, &env);
    follow_start(&v, &f);
    const int before = f.follow.count;
    follow_on(&f, &w);
    for (int i = 0; i < w.bridge.line_count; i++) {
        const ss_line *const line = &w.bridge.lines[i];
        const double most = farthest(&w, &env, 0, SS_MEMBER_LINE, i, SS_EFFECT_MOMENT, 1, false);
        const double here =
            value_of(&f, SS_FOLLOW_MOMENT, 0, w.bridge.cars[line->car].name, line->whole, (double)NAN);
        CHECK_ROW(here > 0.5 * most && here <= most * (1.0 + SAME), line->whole);
    }
    CHECK_OK(ss_follow_add(&f.follow, &f.watch, &w, NULL, NULL, &error), &error);
    CU_ASSERT_EQUAL(f.follow.count, before); /* the same results, more places */
    follow_on(&f, &w);
    CU_ASSERT(check_lines(&w, &f, &env, 0) == w.bridge.line_count);
    CU_ASSERT(check_supports(&w, &f, &env, 0) > 0);
    check_shares(&w, &f, &env);
    follow_end(&f);
    ss_envelope_destroy(&env);
    ss_variant_destroy(&v);
    ss_variant_destroy(&w);
    ss_description_destroy(&d);
    ss_description_destroy(&other);
}

/* Two cars without any joint: all that a truck brings to one of them it carries alone. */
static void test_untied(void) {
    const sample_setting none[] = {
        {"bridge.joints.seam.kind", "none"}, {"bridge.roadway.to", "7.5 ft"}, {NULL, NULL}};
    ss_description d = sample_read(STONE_RUN, none);
    ss_variant v;
    followed f;
    sample_load(&d, &v);
    follow_start(&v, &f);
    follow_on(&f, &v);
    CHECK_CLOSE(value_of(&f, SS_FOLLOW_SHARE, 0, "left", NULL, (double)NAN), 1.0, 1e-12);
    CU_ASSERT(isnan(value_of(&f, SS_FOLLOW_SHARE, 0, "right", NULL, (double)NAN)));
    CU_ASSERT(isnan(value_of(&f, SS_FOLLOW_JOINT_SHEAR, 0, NULL, "seam", (double)NAN)));
    CU_ASSERT_EQUAL(ss_follow_dimension(SS_FOLLOW_JOINT_SHEAR, true), SS_DIM_FORCE);
    CU_ASSERT_EQUAL(ss_follow_dimension(SS_FOLLOW_JOINT_SHEAR, false), SS_DIM_LINE_LOAD);
    follow_end(&f);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

static void test_no_memory(void) {
    ss_description d = sample_read(STONE_RUN, NULL);
    ss_variant v;
    sample_load(&d, &v);
    const long live = ss_memory_live();
    int failures = 0;
    bool done = false;
    /* The envelope inside has tests of its own for most of these. */
    for (long n = 0; !done; n += n < 40 ? 1 : 7) {
        ss_follow follow = {0};
        ss_watch watch = {0};
        ss_error error = {0};
        ss_memory_fail_from(n);
        const ss_status status = ss_follow_add(&follow, &watch, &v, NULL, NULL, &error);
        ss_memory_fail_from(-1);
        CU_ASSERT(status == SS_OK || status == SS_ERROR_MEMORY);
        done = status == SS_OK;
        failures += !done;
        ss_follow_destroy(&follow);
        ss_watch_destroy(&watch);
        CU_ASSERT_EQUAL_FATAL(ss_memory_live(), live);
    }
    CU_ASSERT(failures > 20);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

int main(void) {
    static const test_case cases[] = {
        {"the bridge itself", test_itself}, {"changed bridges", test_changed},
        {"added again", test_added_again},  {"untied", test_untied},
        {"no memory", test_no_memory},
    };
    return RUN_SUITE("followed results", cases);
}
