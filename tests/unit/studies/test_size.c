/* test_size.c - the search for a deck against full ratings of every option, sums by hand, and brute force. */
#include "sillspan/joint_out.h"
#include "studies/changes.h"
#include "studies/size_parts.h"
#include "unit/studies/watched_samples.h"

#define STONE_DECK "stone_deck.cfg"
#define SAME 1e-8
#define FOOT 0.3048
#define INCH 0.0254
#define KIP 4448.2216152605

typedef struct sized {
    ss_description base;
    ss_bridge bridge;
    ss_size size;
    ss_error error;
    int asked, stop_after;
} sized;

static bool stops(void *context) {
    sized *const s = context;
    return s->stop_after > 0 && s->asked++ >= s->stop_after;
}

static ss_status size_it(sized *s, const sample_setting *settings) {
    const ss_size_watch watch = {.stop = stops, .context = s};
    ss_diag_list diags = {0};
    s->base = sample_read(STONE_DECK, settings);
    sample_set(&s->base, "slab.in_use", "true");
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&s->base, &s->bridge, &diags), SS_OK);
    ss_diag_destroy(&diags);
    return ss_size_compute(&s->base, &s->bridge, &watch, &s->size, &s->error);
}

static void end(sized *s) {
    ss_size_destroy(&s->size);
    ss_bridge_destroy(&s->bridge);
    ss_description_destroy(&s->base);
}

static const ss_size_option *named(const sized *s, const char *name) {
    for (int i = 0; i < s->size.count; i++) {
        if (strcmp(s->size.options[i].name, name) == 0) {
            return &s->size.options[i];
        }
    }
    printf("\n  no option is called \"%s\"", name);
    CU_FAIL_FATAL("no such option");
    return NULL;
}

/* The option rated by itself, by a search of all places. */
static void check_in_full(const sized *s, const ss_size_option *o) {
    ss_description d;
    ss_diag_list diags = {0};
    ss_variant v = {0};
    ss_joint_out joints = {0};
    ss_error error = {0};
    int item = -1;
    CU_ASSERT_EQUAL_FATAL(ss_change_copy(&s->base, &d), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_size_change(&s->size, o, &s->base, &d, &diags), SS_OK);
    sample_rate(&d, &v);
    CHECK_OK(ss_joint_out_compute(&d, &v, &joints, &error), &error);
    for (int t = 0; t < s->size.sizing->target_count; t++) {
        const double full = ss_size_factor(&v, &s->size.sizing->targets[t], &item);
        CHECK_ROW(item >= 0, o->name);
        CHECK_ROW(o->full ? sample_same(o->factor[t], full, SAME) : o->factor[t] >= full * (1.0 - SAME),
                  o->name);
        /* The places watched are of decks much like it. */
        CHECK_ROW(sample_same(o->factor[t], full, 2e-3), o->name);
    }
    CHECK_ROW(item < 0 || o->target != s->size.sizing->target_count - 1 || strlen(o->governs) > 10,
              o->governs);
    ss_joint_out_destroy(&joints);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
    ss_diag_destroy(&diags);
}

static void test_against_full_ratings(void) {
    const long live = ss_memory_live();
    sized s = {0};
    CHECK_OK(size_it(&s, NULL), &s.error);
    CU_ASSERT_EQUAL(s.size.deck_count, 8);
    CU_ASSERT_EQUAL(s.size.other_count, 2); /* a variant with a deck of its own is none */
    CU_ASSERT_EQUAL_FATAL(s.size.count, 11);
    for (int i = 0; i < s.size.count; i++) {
        CHECK_ROW(s.size.options[i].failure == NULL, s.size.options[i].name);
        check_in_full(&s, &s.size.options[i]);
    }
    end(&s);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

static bool beats(const ss_size_option *a, const ss_size_option *b) {
    const double cost_a = isnan(a->cost) ? (double)INFINITY : a->cost;
    const double cost_b = isnan(b->cost) ? (double)INFINITY : b->cost;
    const double up = 1.0 + 1e-9;
    return a->margin * up >= b->margin && a->added <= b->added * up + 1e-6 && cost_a <= cost_b * up &&
           (a->margin > b->margin * up || a->added * up + 1e-6 < b->added || cost_a * up < cost_b);
}

static void test_choice_and_frontier(void) {
    sized s = {0};
    CHECK_OK(size_it(&s, NULL), &s.error);
    CU_ASSERT_TRUE_FATAL(s.size.best >= 0);
    const ss_size_option *const best = &s.size.options[s.size.best];
    CU_ASSERT(best->full && best->passes && best->margin >= 1.0 && best->missed == 0);
    int passing = 0, front = 0;
    for (int i = 0; i < s.size.count; i++) {
        const ss_size_option *const o = &s.size.options[i];
        bool beaten = o->missed > 0;
        passing += o->passes;
        front += o->frontier;
        for (int k = 0; k < s.size.count; k++) {
            beaten = beaten || (s.size.options[k].missed == 0 && beats(&s.size.options[k], o));
        }
        CHECK_ROW(o->frontier == !beaten, o->name);
        CHECK_ROW(o->passes == (o->margin >= 1.0 && o->missed == 0), o->name);
        CHECK_ROW(!o->passes || o->kind != SS_SIZE_DECK || o->cost >= best->cost, o->name);
    }
    CU_ASSERT(passing > 0 && passing < s.size.count);
    CU_ASSERT(front > 1 && front < s.size.count);
    end(&s);
}

/* Slab of 24 ft by 16 ft 4 in. */
static void test_quantities(void) {
    sized s = {0};
    CHECK_OK(size_it(&s, NULL), &s.error);
    const double area = 24.0 * (16.0 + 4.0 / 12.0); /* ft2 */
    const double quarter_pi = 0.78539816339744831;
    const double across = 2.0 * quarter_pi * 0.625 * 0.625 / 6.0;
    const double along = quarter_pi * (0.25 / 12.0 + 0.625 * 0.625 / 8.0);
    for (int in = 7; in <= 9; in += 2) {
        char name[2][60];
        snprintf(name[0], sizeof name[0], "%d in, sills, without props", in);
        snprintf(name[1], sizeof name[1], "%d in, sills, on props", in);
        const ss_size_option *const bare = named(&s, name[0]), *const shored = named(&s, name[1]);
        const double yards = area * in / 12.0 / 27.0, pounds = area * (across + along) / 12.0 * 490.0;
        CHECK_CLOSE(bare->concrete, area * FOOT * FOOT * in * INCH, 1e-12);
        CHECK_CLOSE(bare->added / KIP, area * in / 12.0 * 0.150, 1e-9);
        /* 490 lb/ft3 in N/m3 has seven digits. */
        CHECK_CLOSE(bare->cost, 5000.0 + 600.0 * yards + 2.0 * pounds + 10.0 * area, 1e-6);
        CHECK_CLOSE(shored->cost, bare->cost + 2.0 * 250.0, 1e-12);
        CHECK_CLOSE(shored->added, bare->added, 1e-12);
    }
    CU_ASSERT(isnan(named(&s, "pedestal")->cost));
    CHECK_CLOSE(named(&s, "as it is")->added, 0.0, 0.0);
    end(&s);
}

/* Props are worth something where stresses count, and a deck more than none. */
static void test_what_is_expected(void) {
    static const sample_setting yield[] = {{"slab.strength", "first yield"}, {NULL, NULL}};
    sized s = {0};
    CHECK_OK(size_it(&s, yield), &s.error);
    const double none = named(&s, "as it is")->factor[0];
    const double unshored = named(&s, "9 in, sills, without props")->factor[0];
    const double shored = named(&s, "9 in, sills, on props")->factor[0];
    CU_ASSERT(none < unshored && unshored <= shored * (1.0 + 1e-9));
    CU_ASSERT(named(&s, "pedestal")->factor[0] > 0.0);
    end(&s);
}

static void test_refusals(void) {
    sized s = {0};
    ss_size_watch watch = {0};
    s.base = sample_read(STONE_RUN, NULL);
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&s.base, &s.bridge, &diags), SS_OK);
    CU_ASSERT_EQUAL(ss_size_compute(&s.base, &s.bridge, &watch, &s.size, &s.error), SS_ERROR_DESCRIPTION);
    CU_ASSERT(strstr(s.error.message, "sizing = {") != NULL);
    ss_diag_destroy(&diags);
    end(&s);
}

/* Wherever it is stopped, what was not tried says so and counts for nothing. */
static void test_stop(void) {
    int before = -1;
    for (int after = 1; after <= 13; after += 3) {
        sized s = {.stop_after = after};
        CHECK_OK(size_it(&s, NULL), &s.error);
        CU_ASSERT(s.size.stopped);
        int tried = 0;
        for (int i = 0; i < s.size.count; i++) {
            const ss_size_option *const o = &s.size.options[i];
            tried += o->tried;
            CHECK_ROW(o->governs != NULL && o->check != NULL, o->name);
            CHECK_ROW(o->tried == (o->failure == NULL), o->name);
            CHECK_ROW(o->tried || (isnan(o->margin) && !o->passes && !o->frontier && !o->full), o->name);
        }
        CU_ASSERT(tried > before && tried < s.size.count);
        CU_ASSERT(s.size.best < 0 || s.size.options[s.size.best].tried);
        CU_ASSERT(s.size.nearest < 0 || s.size.options[s.size.nearest].tried);
        before = tried;
        end(&s);
    }
}

/* No rating is at a level that its truck does not have: the target could be neither missed nor reached. */
static void test_target_without_rating(void) {
    static const sample_setting emergency[] = {{"sizing.targets.1.level", "emergency"}, {NULL, NULL}};
    static const sample_setting permit[] = {{"sizing.targets.2.level", "permit"}, {NULL, NULL}};
    sized s = {0};
    CU_ASSERT_EQUAL(size_it(&s, emergency), SS_ERROR_DESCRIPTION);
    CU_ASSERT(strstr(s.error.message, "sizing.targets.1: there is no rating of Type 3 at level emergency") !=
              NULL);
    end(&s);
    CU_ASSERT_EQUAL(size_it(&s, permit), SS_ERROR_DESCRIPTION);
    CU_ASSERT(strstr(s.error.message, "sizing.targets.2: there is no rating of any truck at level permit") !=
              NULL);
    end(&s);
}

int main(void) {
    static const test_case cases[] = {
        {"against full ratings", test_against_full_ratings},
        {"choice and frontier", test_choice_and_frontier},
        {"quantities", test_quantities},
        {"what is expected", test_what_is_expected},
        {"refusals", test_refusals},
        {"stop", test_stop},
        {"target without rating", test_target_without_rating},
    };
    return RUN_SUITE("size", cases);
}
