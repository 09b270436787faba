/* test_studies.c - ratings of a changed bridge against ratings of the bridge described as changed. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/joint_out.h"
#include "sillspan/memory.h"
#include "sillspan/reader.h"
#include "sillspan/reruns.h"
#include "sillspan/text.h"
#include "support/suite.h"

/* The same arithmetic on the same numbers; a finding of the program's own writes places with 15 digits. */
#define SAME 1e-9

#define PITTING                                                                                              \
    "{ name = \"pitting\"; seen = \"thinned\"; car = \"left\"; line = \"sill\"; part = \"bottom\"; from = "  \
    "\"9 ft\"; to = \"14 ft\"; thickness_left = \"1/4 in\"; }"
#define BENT                                                                                                 \
    "{ name = \"bent\"; seen = \"bent\"; car = \"right\"; line = \"stringers 1\"; strength_left = 0.4; }"

static char *read_sample(void) {
    static char text[4096];
    FILE *const file = fopen(SS_SOURCE_DIR "/tests/unit/studies/stone_run.cfg", "rb");
    CU_ASSERT_PTR_NOT_NULL_FATAL(file);
    const size_t length = fread(text, 1, sizeof text - 1, file);
    text[length] = '\0';
    fclose(file);
    return text;
}

/* The sample with something appended and, unless NULL, one word replaced. */
static ss_description described(const char *findings, const char *from, const char *to) {
    const char *const sample = read_sample();
    const char *const at = from == NULL ? sample + strlen(sample) : strstr(sample, from);
    ss_description d;
    ss_diag_list diags = {0};
    ss_error error = {0};
    ss_text text = {0};
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    ss_text_add_bytes(&text, sample, (size_t)(at - sample));
    ss_text_printf(&text, "%s%s\nfindings = ( %s );\n", from == NULL ? "" : to,
                   from == NULL ? "" : at + strlen(from), findings);
    const ss_status status =
        ss_description_read_text("stone-run.cfg", text.data, text.length, &d, &diags, &error);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    ss_text_destroy(&text);
    ss_diag_destroy(&diags);
    return d;
}

static void rate(const ss_description *d, ss_variant *out) {
    const ss_variant_asks all = {.vehicle = -1};
    ss_diag_list diags = {0};
    ss_error error = {0};
    const ss_status status = ss_variant_of(d, &all, out, &diags, &error);
    if (status != SS_OK) {
        printf("%s %s\n", error.message, diags.count > 0 ? diags.items[0].message : "");
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    ss_diag_destroy(&diags);
}

/* The smallest factor of one vehicle at the level that governs it. */
static double least(const ss_variant *v, int vehicle, bool primary_only) {
    double rf = (double)INFINITY;
    for (int i = 0; i < v->ratings.count; i++) {
        const ss_rating_item *const item = &v->ratings.items[i];
        if (v->placements.traffic[item->traffic].vehicle == vehicle &&
            (!primary_only || ss_member_primary(&v->bridge, item->effect.member, item->effect.index))) {
            rf = fmin(rf, item->rf);
        }
    }
    return rf;
}

static double rated(const char *findings, const char *from, const char *to, int vehicle, bool primary_only) {
    ss_description d = described(findings, from, to);
    ss_variant v;
    rate(&d, &v);
    const double rf = least(&v, vehicle, primary_only);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
    return rf;
}

static const ss_rerun *find(const ss_reruns *reruns, ss_rerun_kind kind, int skip) {
    for (int i = 0; i < reruns->count; i++) {
        if (reruns->items[i].kind == kind && skip-- == 0) {
            return &reruns->items[i];
        }
    }
    return NULL;
}

static void rerun(const ss_description *d, ss_variant *v, const char *cut, ss_reruns *out) {
    const ss_rerun_options options = {.cut_car = cut};
    ss_error error = {0};
    rate(d, v);
    CU_ASSERT_EQUAL_FATAL(ss_reruns_compute(d, v, &options, out, &error), SS_OK);
}

/* A finding put aside is the bridge described without it, and all of them the sound one. */
static void test_costs_of_findings(void) {
    const long live = ss_memory_live();
    ss_description d = described(PITTING ", " BENT, NULL, NULL);
    ss_variant v;
    ss_reruns reruns;
    rerun(&d, &v, NULL, &reruns);
    const int truck = reruns.vehicle;
    CHECK_CLOSE(reruns.rf, least(&v, truck, false), SAME);
    CHECK_CLOSE(find(&reruns, SS_RERUN_REPAIRED, 0)->rf, rated(BENT, NULL, NULL, truck, false), SAME);
    CHECK_CLOSE(find(&reruns, SS_RERUN_REPAIRED, 0)->primary, rated(BENT, NULL, NULL, truck, true), SAME);
    CHECK_CLOSE(find(&reruns, SS_RERUN_REPAIRED, 1)->rf, rated(PITTING, NULL, NULL, truck, false), SAME);
    CHECK_CLOSE(find(&reruns, SS_RERUN_ALL_REPAIRED, 0)->rf, rated("", NULL, NULL, truck, false), SAME);
    /* The bent stringer governs; putting it aside helps, the pitting weighs on the girder alone. */
    CU_ASSERT(find(&reruns, SS_RERUN_REPAIRED, 1)->rf > 1.5 * reruns.rf);
    CU_ASSERT(find(&reruns, SS_RERUN_REPAIRED, 0)->primary > 1.02 * reruns.primary);
    ss_reruns_destroy(&reruns);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

/* The weak stringer taken away is the car described without it. */
static void test_released_member(void) {
    ss_description d = described(BENT, NULL, NULL);
    ss_variant v;
    ss_reruns reruns;
    rerun(&d, &v, NULL, &reruns);
    const ss_rerun *const out = find(&reruns, SS_RERUN_RELEASED, 0);
    CU_ASSERT_PTR_NOT_NULL_FATAL(out);
    CU_ASSERT_STRING_EQUAL(out->what, "stringers 1 of car right");
    static const char gone[] =
        "{ name = \"g\"; seen = \"missing\"; car = \"right\"; line = \"stringers 1\"; }";
    CHECK_CLOSE(out->rf, rated(gone, NULL, NULL, reruns.vehicle, false), SAME);
    ss_reruns_destroy(&reruns);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

/* With a girder cut through, the other car and the edges are left: far less, and a wrong name is refused. */
static void test_cut_girder(void) {
    ss_description d = described("", NULL, NULL);
    ss_variant v;
    ss_reruns reruns;
    ss_error error = {0};
    rerun(&d, &v, "left", &reruns);
    const ss_rerun *const cut = find(&reruns, SS_RERUN_GIRDER_CUT, 0);
    CU_ASSERT_PTR_NOT_NULL_FATAL(cut);
    CU_ASSERT_PTR_NULL(cut->failure);
    CU_ASSERT(cut->rf > 0.0 && cut->rf < 0.7 * reruns.rf);
    ss_reruns_destroy(&reruns);
    const ss_rerun_options options = {.cut_car = "centre"};
    CU_ASSERT_EQUAL(ss_reruns_compute(&d, &v, &options, &reruns, &error), SS_ERROR_DESCRIPTION);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "centre"));
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
}

/* A joint that carries enough changes nothing; one that is full first leaves the bridge without it. */
static void test_joint_out(void) {
    static const char rotation[] = "rotation = \"1 kip-in/rad/in\";";
    ss_error error = {0};
    ss_description strong =
        described("", rotation, "rotation = \"1 kip-in/rad/in\"; shear_capacity = \"900 kip/ft\";");
    ss_description weak =
        described("", rotation, "rotation = \"1 kip-in/rad/in\"; shear_capacity = \"0.1 kip/ft\";");
    ss_description none = described("", "kind = \"springs\"; shear = \"0.1 kip/in/in\";", "kind = \"none\";");
    ss_variant v;
    ss_variant without;
    ss_joint_out out;
    int services = 0;
    ss_description *const all[] = {&strong, &weak, &none};
    for (int i = 0; i < 3; i++) {
        ss_diag_list diags = {0};
        CU_ASSERT_EQUAL_FATAL(ss_description_set(all[i], "rating.service", "true", &diags), SS_OK);
    }
    rate(&strong, &v);
    const double with_joint = v.ratings.items[v.ratings.controlling].rf;
    CU_ASSERT_EQUAL_FATAL(ss_joint_out_compute(&strong, &v, &out, &error), SS_OK);
    CU_ASSERT_EQUAL(out.count, 0);
    ss_joint_out_destroy(&out);
    ss_variant_destroy(&v);
    rate(&weak, &v);
    rate(&none, &without);
    CU_ASSERT_EQUAL_FATAL(ss_joint_out_compute(&weak, &v, &out, &error), SS_OK);
    CU_ASSERT(out.count > 0);
    CU_ASSERT_PTR_NULL(out.failure);
    for (int i = 0; i < out.count; i++) {
        const int alone = ss_ratings_governing(&without.ratings, out.items[i].check, out.items[i].traffic);
        const int held = ss_ratings_governing(&v.ratings, out.items[i].check, out.items[i].traffic);
        CHECK_CLOSE(out.items[i].without, without.ratings.items[alone].rf, SAME);
        CHECK_CLOSE(v.ratings.items[held].rf, without.ratings.items[alone].rf, SAME);
        CU_ASSERT(v.ratings.items[held].joint_out);
        CU_ASSERT(out.items[i].full < out.items[i].members);
        services += v.ratings.checks[out.items[i].check].limit == SS_LIMIT_SERVICE;
        CU_ASSERT(v.ratings.items[held].position[0].track < v.placements.track_count);
    }
    CU_ASSERT(services > 0); /* checks of stress do not look at joints, and rely on them no less */
    CU_ASSERT(v.ratings.items[v.ratings.controlling].rf <= with_joint * (1.0 + SAME));
    ss_joint_out_destroy(&out);
    ss_variant_destroy(&v);
    ss_variant_destroy(&without);
    ss_description_destroy(&strong);
    ss_description_destroy(&weak);
    ss_description_destroy(&none);
}

/* Released secondary members are rated and do not govern; by another property an edge counts as primary. */
static void test_groups(void) {
    ss_description all = described(BENT, NULL, NULL);
    ss_description freed = described(BENT, "adtt = 100;", "adtt = 100; release_secondary = true;");
    ss_description by_depth = described(BENT, "adtt = 100;", "adtt = 100; primary_by = \"depth\";");
    ss_variant v;
    ss_variant w;
    rate(&all, &v);
    rate(&freed, &w);
    const ss_rating_item *const worst = &v.ratings.items[v.ratings.controlling];
    const ss_rating_item *const kept = &w.ratings.items[w.ratings.controlling];
    CU_ASSERT_EQUAL(v.ratings.count, w.ratings.count);
    CU_ASSERT_FALSE(ss_member_primary(&v.bridge, worst->effect.member, worst->effect.index));
    CU_ASSERT(ss_member_primary(&w.bridge, kept->effect.member, kept->effect.index));
    CHECK_CLOSE(kept->rf, least(&v, v.placements.traffic[kept->traffic].vehicle, true), SAME);
    ss_variant_destroy(&w);
    rate(&by_depth, &w);
    /* 10 in of 18 in is more than 15 %; I of the channel, 66 in4 or so, is less than that of the box. */
    for (int i = 0; i < v.bridge.line_count; i++) {
        const bool edge = v.bridge.lines[i].role == SS_ROLE_EXTERIOR;
        CU_ASSERT_EQUAL(v.bridge.lines[i].primary, v.bridge.lines[i].role == SS_ROLE_MAIN);
        CU_ASSERT_EQUAL(w.bridge.lines[i].primary, edge || v.bridge.lines[i].role == SS_ROLE_MAIN);
    }
    ss_variant_destroy(&v);
    ss_variant_destroy(&w);
    ss_description_destroy(&all);
    ss_description_destroy(&freed);
    ss_description_destroy(&by_depth);
}

int main(void) {
    static const test_case cases[] = {
        {"costs of findings", test_costs_of_findings},
        {"released member", test_released_member},
        {"cut girder", test_cut_girder},
        {"joint out", test_joint_out},
        {"primary and secondary", test_groups},
    };
    return RUN_SUITE("studies", cases);
}
