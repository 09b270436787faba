/* test_watch.c - factors at watched places against full ratings, of the same bridge and of changed ones. */
#include "sillspan/watch.h"

#include "response/placements.h"
#include "unit/studies/watched_samples.h"

/* Both solve the same bridge; the search refines what its blocks found to about this. */
#define SAME 1e-8

#define EVERYTHING ((double)INFINITY)

/* What a watch of all members has an item of. */
static bool is_watched(const ss_ratings *r, const ss_rating_item *item) {
    return item->position[0].track >= 0 && r->checks[item->check].limit != SS_LIMIT_DEFLECTION &&
           ss_ratings_governing(r, item->check, item->traffic) >= 0;
}

static ss_watch watch_all(const ss_variant *rated) {
    ss_watch watch = {0};
    ss_error error = {0};
    CHECK_OK(ss_watch_add(&watch, rated, EVERYTHING, &error), &error);
    return watch;
}

static ss_watch_value *compute(const ss_watch *watch, const ss_variant *v) {
    ss_error error = {0};
    ss_watch_value *const values = ss_alloc((size_t)watch->item_count + 1, sizeof *values);
    CU_ASSERT_PTR_NOT_NULL_FATAL(values);
    CHECK_OK(ss_watch_compute(watch, v, values, &error), &error);
    return values;
}

/* Factors of `watch` on a bridge as ratings of it. */
static ss_ratings ratings_of(const ss_watch *watch, const ss_variant *v) {
    ss_error error = {0};
    ss_ratings ratings;
    ss_watch_value *const values = compute(watch, v);
    CHECK_OK(ss_watch_ratings(watch, v, values, &ratings, &error), &error);
    ss_free(values);
    return ratings;
}

/* How many kinds of items there were, so that no test passes for want of them. */
typedef struct seen {
    int items, lines, beams, joints, webs, tapered, lanes, abreast, within_bay;
} seen;

static void count_seen(const ss_variant *v, const ss_rating_item *item, seen *s) {
    ss_bay_force bays[SS_BAY_FORCES_MOST];
    s->items++;
    s->lines += item->effect.member == SS_MEMBER_LINE;
    s->beams += item->effect.member == SS_MEMBER_BEAM;
    s->joints += item->effect.member == SS_MEMBER_JOINT;
    s->webs += item->effect.kind == SS_EFFECT_WEB_PLUS || item->effect.kind == SS_EFFECT_WEB_MINUS;
    s->tapered += item->effect.moment_shear != 0.0;
    s->lanes += item->lane_count > 0;
    s->abreast += item->truck_count > 1;
    for (int i = 0; item->effect.member == SS_MEMBER_BEAM && i < item->truck_count; i++) {
        const int count = ss_placements_bays(&v->mesh, &v->placements, &item->position[i], bays);
        s->within_bay += ss_bay_forces_passed(&v->mesh, &item->effect, bays, count) != 0.0;
    }
}

/* Every item of the ratings, in their order. */
static seen check_same(const ss_variant *v) {
    seen s = {0};
    ss_watch watch = watch_all(v);
    ss_watch_value *const values = compute(&watch, v);
    int at = 0;
    for (int i = 0; i < v->ratings.count; i++) {
        const ss_rating_item *const item = &v->ratings.items[i];
        if (!is_watched(&v->ratings, item)) {
            continue;
        }
        CU_ASSERT_FATAL(at < watch.item_count);
        CU_ASSERT_EQUAL(watch.items[at].check, item->check);
        CU_ASSERT_EQUAL(watch.items[at].most, item->most);
        if (!sample_same(values[at].value, item->rf, SAME) || values[at].tips != item->tips) {
            printf("\n  %s, member %d %d kind %d at %.3f, %d trucks, %d lanes: %.12g, searched %.12g",
                   v->ratings.checks[item->check].name, (int)item->effect.member, item->effect.index,
                   (int)item->effect.kind, item->effect.at, item->truck_count, item->lane_count,
                   values[at].value, item->rf);
            CU_FAIL("differs");
        }
        count_seen(v, item, &s);
        at++;
    }
    CU_ASSERT_EQUAL(at, watch.item_count);
    ss_ratings own = ratings_of(&watch, v);
    CU_ASSERT_EQUAL_FATAL(own.check_count, v->ratings.check_count);
    for (int i = 0; i < own.check_count * own.traffic_count; i++) {
        if (v->ratings.checks[i / own.traffic_count].limit != SS_LIMIT_DEFLECTION &&
            v->ratings.governing[i] >= 0) {
            CU_ASSERT_FATAL(own.governing[i] >= 0);
            CU_ASSERT(sample_same(own.items[own.governing[i]].rf,
                                  v->ratings.items[v->ratings.governing[i]].rf, SAME));
        }
    }
    CU_ASSERT(sample_same(own.items[own.controlling].rf, v->ratings.items[v->ratings.controlling].rf, SAME));
    CHECK_CLOSE(own.items[own.controlling].tons, v->ratings.items[v->ratings.controlling].tons, SAME);
    ss_ratings_destroy(&own);
    ss_free(values);
    ss_watch_destroy(&watch);
    return s;
}

static seen rate_and_check(const char *file, const sample_setting *settings) {
    const long live = ss_memory_live();
    ss_description d = sample_read(file, settings);
    ss_variant v;
    sample_rate(&d, &v);
    const seen s = check_same(&v);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
    return s;
}

/* Bearings that only push, later shims, a gap, tapered sills, connectors; a deck along and one across. */
static void test_same_bridge(void) {
    const sample_setting across[] = {
        {"decks.planks.spans", "across"}, {"rating.methods", "LFR, ASR"}, {NULL, NULL}};
    const seen along = rate_and_check(MILL_POND, NULL);
    CU_ASSERT(along.lines > 20 && along.beams > 5 && along.joints > 1 && along.webs > 10);
    CU_ASSERT(along.tapered > 0);
    CU_ASSERT(along.within_bay > 0);
    const seen other = rate_and_check(MILL_POND, across);
    CU_ASSERT(other.items > along.items);
}

/* Uniform loads of lanes, two loadings under one name, trucks abreast. */
static void test_same_lanes(void) {
    const sample_setting lanes[] = {{"rating.trucks", "HL-93, H20-44"}, {NULL, NULL}};
    const sample_setting beside[] = {
        {"bridge.roadway.to", "23 ft"}, {"rating.crossings", "alone, beside"}, {NULL, NULL}};
    const seen loaded = rate_and_check(STONE_RUN, lanes);
    CU_ASSERT(loaded.lanes > 20);
    const seen pair = rate_and_check(MILL_POND, beside);
    CU_ASSERT(pair.abreast > 20);
}

/* ---- changed bridges -------------------------------------------------------------------------------- */

static const sample_setting changes[] = {
    {"bridge.joints.seam.shear", "2 kip/in/in"},
    {"bridge.joints.seam.rotation", "80 kip-in/rad/in"},
    {"bridge.joints.seam.kind", "hinged"},
    {"bridge.bearings.shims.spring", "40 kip/in"},
    {"bridge.bearings.seats.spring", "90 kip/in"},
    {"bridge.bearings.prop.gap", "0 in"},
    {"steels.steel.fy", "29 ksi"},
    {"sections.box.bottom.thickness", "5/16 in"},
    {"sections.box.torsion", "open"},
    {"bridge.bearings.prop.x", "14 ft"},
    {"analysis.station_spacing", "3 ft"},
    {"bridge.rails.weight", "300 lb/ft"},
    {"rating.condition", "poor"},
};

/* Of every truck and check: no smaller than what a search finds, and just that once its place is watched. */
static void check_changed(const ss_variant *base, const sample_setting *change) {
    const sample_setting one[] = {*change, {NULL, NULL}};
    ss_description d = sample_read(MILL_POND, one);
    ss_variant w;
    ss_error error = {0};
    ss_watch watch = watch_all(base);
    sample_rate(&d, &w);
    ss_ratings before = ratings_of(&watch, &w);
    CHECK_OK(ss_watch_add(&watch, &w, 1.0, &error), &error);
    ss_ratings after = ratings_of(&watch, &w);
    for (int i = 0; i < w.ratings.check_count * w.ratings.traffic_count; i++) {
        if (w.ratings.governing[i] < 0 ||
            w.ratings.checks[i / w.ratings.traffic_count].limit == SS_LIMIT_DEFLECTION) {
            continue;
        }
        const double searched = w.ratings.items[w.ratings.governing[i]].rf;
        CU_ASSERT_FATAL(before.governing[i] >= 0 && after.governing[i] >= 0);
        const double had = before.items[before.governing[i]].rf;
        /* Trucks abreast are searched locally: a place that the search of another bridge found may be worse.
         */
        const bool alone = w.ratings.items[w.ratings.governing[i]].truck_count == 1;
        CHECK_ROW(had >= searched * (alone ? 1.0 - SAME : 0.97), change->path);
        CHECK_ROW(sample_same(after.items[after.governing[i]].rf, fmin(had, searched), SAME), change->path);
    }
    ss_ratings_destroy(&before);
    ss_ratings_destroy(&after);
    ss_watch_destroy(&watch);
    ss_variant_destroy(&w);
    ss_description_destroy(&d);
}

static void test_changed_bridges(void) {
    const long live = ss_memory_live();
    ss_description d = sample_read(MILL_POND, NULL);
    ss_variant base;
    sample_rate(&d, &base);
    for (int i = 0; i < ENTRIES(changes); i++) check_changed(&base, &changes[i]);
    ss_variant_destroy(&base);
    ss_description_destroy(&d);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

/* Webs that do not buckle may carry a share of the yield stress: without dead load half of it, half the
 * factor. */
static void test_weaker_steel(void) {
    const sample_setting plain[] = {{"bridge.self_weight", "false"}, {"rating.methods", "ASR"}, {NULL, NULL}};
    ss_description d = sample_read(STONE_RUN, plain);
    ss_variant base, weak;
    sample_rate(&d, &base);
    ss_watch watch = watch_all(&base);
    sample_set(&d, "steels.steel.fy", "18 ksi");
    sample_stand(&d, &weak);
    ss_watch_value *const full = compute(&watch, &base);
    ss_watch_value *const half = compute(&watch, &weak);
    int webs = 0;
    for (int i = 0; i < watch.item_count; i++) {
        const ss_watched_effect *const effect = &watch.effects[watch.items[i].effect];
        if (effect->member == SS_MEMBER_LINE && effect->kind != SS_EFFECT_MOMENT &&
            strcmp(effect->name, "sill") == 0) {
            CHECK_CLOSE(half[i].value, 0.5 * full[i].value, 1e-9);
            webs++;
        }
    }
    CU_ASSERT(webs > 2);
    ss_free(full);
    ss_free(half);
    ss_watch_destroy(&watch);
    ss_variant_destroy(&base);
    ss_variant_destroy(&weak);
    ss_description_destroy(&d);
}

/* Places of members that went are no numbers, the others stay. */
static void test_removed_member(void) {
    ss_description d = sample_read(MILL_POND, NULL);
    const sample_setting away[] = {{"bridge.joints.bolts.kind", "none"},
                                   {"bridge.bearings.prop.in_use", "false"},
                                   {"analysis.station_spacing", "3 ft"},
                                   {NULL, NULL}};
    ss_variant base, less;
    sample_rate(&d, &base);
    ss_watch watch = watch_all(&base);
    ss_description changed = sample_read(MILL_POND, away);
    /* The stringers under the west car are cut off at mid-length. */
    sample_set(&changed, "cars.flat.lines.stringers.to", "12 ft");
    sample_stand(&changed, &less);
    ss_watch_value *const values = compute(&watch, &less);
    int gone = 0, there = 0;
    for (int i = 0; i < watch.item_count; i++) {
        const ss_watched_effect *const effect = &watch.effects[watch.items[i].effect];
        if (effect->member == SS_MEMBER_JOINT && strcmp(effect->name, "bolts") == 0) {
            CU_ASSERT(isnan(values[i].value));
            gone++;
        } else {
            CU_ASSERT(values[i].value >
                      0.0); /* a place beyond the cut is looked for at the end that is left */
            there++;
        }
    }
    CU_ASSERT(gone > 0 && there > 50);
    ss_free(values);
    ss_watch_destroy(&watch);
    ss_variant_destroy(&base);
    ss_variant_destroy(&less);
    ss_description_destroy(&d);
    ss_description_destroy(&changed);
}

/* ---- other trucks and checks ------------------------------------------------------------------------ */

/* Expects a refusal of the watch on the sample so changed, both to add it and to compute on it. */
static void check_refused(const ss_variant *base, const char *path, const char *value) {
    ss_description d = sample_read(STONE_RUN, NULL);
    ss_variant other;
    ss_error error = {0};
    ss_watch watch = watch_all(base);
    const int items = watch.item_count;
    sample_set(&d, path, value);
    sample_rate(&d, &other);
    ss_watch_value *const values = ss_alloc((size_t)items + 1, sizeof *values);
    CHECK_ROW(ss_watch_add(&watch, &other, SS_WATCH_WITHIN, &error) == SS_ERROR_LIMIT, path);
    CHECK_ROW(strstr(error.message, "are others than those watched") != NULL, error.message);
    CU_ASSERT_EQUAL(watch.item_count, items);
    error = (ss_error){0};
    CHECK_ROW(ss_watch_compute(&watch, &other, values, &error) == SS_ERROR_LIMIT, path);
    CHECK_ROW(error.message[0] != '\0', path);
    ss_free(values);
    ss_watch_destroy(&watch);
    ss_variant_destroy(&other);
    ss_description_destroy(&d);
}

static void test_others(void) {
    ss_description d = sample_read(STONE_RUN, NULL);
    ss_variant base;
    sample_rate(&d, &base);
    check_refused(&base, "rating.trucks", "Type 3S2");
    check_refused(&base, "rating.trucks", "Type 3, Type 3S2");
    check_refused(&base, "rating.methods", "LRFR, ASR");
    check_refused(&base, "rating.methods", "LFR"); /* other checks, whether or not as many */
    check_refused(&base, "rating.service", "true");
    check_refused(&base, "bridge.roadway.to", "14 ft");
    check_refused(&base, "rating.crossings", "centred, alone");
    ss_variant_destroy(&base);
    ss_description_destroy(&d);
}

/* ---- memory ----------------------------------------------------------------------------------------- */

static void test_no_memory(void) {
    ss_description d = sample_read(STONE_RUN, NULL);
    ss_variant v;
    sample_rate(&d, &v);
    const long live = ss_memory_live();
    bool done = false;
    int failures = 0;
    for (int n = 0; !done; n++) {
        ss_watch watch = {0};
        ss_watch_value values[1024];
        ss_ratings ratings = {0};
        ss_error error = {0};
        ss_memory_fail_from(n);
        ss_status status = ss_watch_add(&watch, &v, SS_WATCH_WITHIN, &error);
        if (status == SS_OK) {
            status = ss_watch_compute(&watch, &v, values, &error);
        }
        if (status == SS_OK) {
            status = ss_watch_ratings(&watch, &v, values, &ratings, &error);
        }
        ss_memory_fail_from(-1);
        CU_ASSERT_FATAL(watch.item_count <= ENTRIES(values));
        CU_ASSERT(status == SS_OK || status == SS_ERROR_MEMORY);
        done = status == SS_OK;
        failures += status == SS_ERROR_MEMORY;
        ss_ratings_destroy(&ratings);
        ss_watch_destroy(&watch);
        CU_ASSERT_EQUAL_FATAL(ss_memory_live(), live);
    }
    CU_ASSERT(failures > 20);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

int main(void) {
    static const test_case cases[] = {
        {"same bridge", test_same_bridge},
        {"lanes and trucks abreast", test_same_lanes},
        {"changed bridges", test_changed_bridges},
        {"weaker steel", test_weaker_steel},
        {"removed member", test_removed_member},
        {"other trucks and checks", test_others},
        {"no memory", test_no_memory},
    };
    return RUN_SUITE("watched places", cases);
}
