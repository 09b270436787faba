/* test_patterns.c - patterns of open bearings followed while a load grows, against states solved one by one.
 */
#include "response/patterns.h"

#include <string.h>

#include "random_contact.h"
#include "sillspan/memory.h"
#include "support/suite.h"

enum { MOST = TEST_CONTACT_MOST, DEADS = 2, PER_SETUP = 12 };

#define REACH 9.0

/* A bridge's bearings: stiffness, two dead loads that some state holds, and patterns that learn. */
typedef struct setup {
    int n;
    double S[MOST * MOST];
    double dead[DEADS][MOST];
    ss_patterns patterns;
} setup;

/* r = r0 + S u with chosen r, u >= 0, r . u = 0. */
static void held_reactions(uint64_t *seed, int n, const double *S, double *r0) {
    double u[MOST];
    for (int i = 0; i < n; i++) {
        r0[i] = 4.1e4 * random_signed(seed);
        u[i] = r0[i] < 0.0 ? 0.013 * fabs(random_signed(seed)) : 0.0;
        r0[i] = fmax(r0[i], 0.0);
    }
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) r0[i] -= S[i * n + j] * u[j];
    }
}

/* What kind of support: one on which nothing can tip, one that may rock or has bearings of fixed reactions,
 * and one of whole numbers, where bearings change together. */
typedef enum support { STABLE, ROCKING, WHOLE } support;

static void start(setup *s, uint64_t *seed, support kind) {
    s->n = 1 + random_int(seed, MOST);
    const int rank = kind == STABLE ? s->n : s->n - random_int(seed, 4);
    random_stiffness(seed, s->n, rank < 1 ? 1 : rank, kind == WHOLE, s->S);
    for (int i = 0; kind == STABLE && i < s->n; i++) s->S[i * s->n + i] += 6.1e5;
    for (int d = 0; d < DEADS; d++) held_reactions(seed, s->n, s->S, s->dead[d]);
    const double *const rows[DEADS] = {s->dead[0], s->dead[1]};
    ss_error error = {0};
    CHECK_OK(ss_patterns_create(s->n, s->S, DEADS, rows, &s->patterns, &error), &error);
}

/* One of at least 7 bearings on which nothing tips. */
static void start_wide(setup *s, uint64_t *seed) {
    start(s, seed, STABLE);
    while (s->n < 7) {
        ss_patterns_destroy(&s->patterns);
        start(s, seed, STABLE);
    }
}

static bool solve(const setup *s, int dead, const double *live, double m, double *r) {
    double r0[MOST], u[MOST], work[256];
    bool open[MOST] = {false};
    for (int i = 0; i < s->n; i++) r0[i] = s->dead[dead][i] + m * live[i];
    return ss_contact_solve(s->n, s->S, r0, r, u, open, work) == SS_OK;
}

static int step_at(const ss_growth *growth, double m) {
    int step = 0;
    while (step + 1 < growth->count && growth->from[step + 1] <= m) step++;
    return step;
}

/* How far the followed state at m is from one that holds, and from the reactions of that solved by itself,
 * relative to the largest reaction. */
static double breach_at(const setup *s, int dead, const double *live, const ss_growth *growth, double m) {
    const int n = s->n, step = step_at(growth, m);
    const ss_pattern *const pattern = &s->patterns.items[growth->pattern[step]];
    const double *const a = growth->opening + (size_t)step * 2 * (size_t)n, *const b = a + n;
    double expected[MOST], most = 0.0, worst = 0.0;
    if (!solve(s, dead, live, m, expected)) {
        return (double)INFINITY;
    }
    for (int i = 0; i < n; i++) most = fmax(most, fabs(s->dead[dead][i]) + m * fabs(live[i]));
    for (int i = 0; i < n; i++) {
        double r = s->dead[dead][i] + m * live[i], size = fabs(r);
        for (int j = 0; j < n; j++) {
            r += s->S[i * n + j] * (a[j] + m * b[j]);
            size = fmax(size, fabs(s->S[i * n + j] * (a[j] + m * b[j])));
        }
        const double u = a[i] + m * b[i];
        worst = fmax(worst, fabs(r - expected[i]) / fmax(most, size));
        worst = fmax(worst, fmax(-u * s->S[i * n + i], 0.0) / fmax(most, size));
        worst = pattern->open[i] || u == 0.0 ? worst : (double)INFINITY;
    }
    return worst;
}

/* An effect that any state tells (openings that move no reaction do not count): its first multiple by the
 * steps. The last step that reaches the target within it. */
static double reach_by_steps(const setup *s, int dead, const double *live, const ss_growth *growth,
                             const ss_contact_path *path, double target, bool above) {
    const double sign = above ? 1.0 : -1.0;
    for (int step = 0; step < growth->count; step++) {
        double weight[MOST], at0 = path->e_dead, slope = path->e_live;
        ss_patterns_weigh(&s->patterns, growth->pattern[step], path->opening, weight);
        for (int i = 0; i < s->n; i++) {
            at0 += weight[i] * s->dead[dead][i];
            slope += weight[i] * live[i];
        }
        const double from = growth->from[step],
                     to = step + 1 < growth->count ? growth->from[step + 1] : growth->end;
        if (sign * (at0 + from * slope - target) >= 0.0) {
            return from;
        }
        const double at = sign * slope > 0.0 ? (target - at0) / slope : (double)INFINITY;
        if (at <= to) {
            return at;
        }
    }
    return growth->tips ? growth->end : (double)INFINITY;
}

typedef struct tally {
    int wrong, clear, unclear, tips, several, reached;
    double worst;
} tally;

static void compare_reach(setup *s, uint64_t *seed, int dead, const double *live, const ss_growth *growth,
                          tally *t) {
    double opening[MOST] = {0}, work[256];
    for (int i = 0; i < s->n; i++) {
        const double share = 1.3e-3 * random_signed(seed);
        for (int j = 0; j < s->n; j++) opening[j] += share * s->S[i * s->n + j];
    }
    const ss_contact_path path = {s->n, s->S, s->dead[dead], live, opening, 0.0, 11.7 * random_signed(seed)};
    const bool above = random_signed(seed) > 0.0;
    const double target = 190.0 * random_signed(seed);
    ss_reach reach;
    CU_ASSERT_EQUAL_FATAL(ss_contact_reach(&path, target, above, REACH, &reach, work), SS_OK);
    const double by_steps = reach_by_steps(s, dead, live, growth, &path, target, above);
    const bool beyond = reach.factor >= REACH && by_steps >= REACH;
    t->wrong += !beyond && !(fabs(by_steps - reach.factor) <= 1e-6 * (1.0 + reach.factor));
    t->reached += isfinite(reach.factor) && !reach.tips && reach.factor > 0.0;
}

static void follow_one(setup *s, uint64_t *seed, tally *t) {
    double live[MOST], room[SS_STEPS_MOST * 2 * MOST];
    const int dead = random_int(seed, DEADS), guess = random_int(seed, s->patterns.count);
    for (int i = 0; i < s->n; i++) live[i] = 2.3e4 * random_signed(seed) + 0.9e4;
    ss_growth growth = {.opening = room};
    CU_ASSERT_EQUAL_FATAL(ss_patterns_follow(&s->patterns, dead, live, guess, REACH, &growth), SS_OK);
    if (!growth.clear) {
        t->unclear++;
        return;
    }
    t->clear++;
    t->tips += growth.tips;
    t->several += growth.count > 2;
    CU_ASSERT_FATAL(growth.count > 0 && growth.count <= SS_STEPS_MOST);
    CU_ASSERT_EQUAL(growth.from[0], 0.0);
    for (int i = 1; i < growth.count; i++) {
        CU_ASSERT(growth.from[i] >= growth.from[i - 1]);
        CU_ASSERT(growth.pattern[i] != growth.pattern[i - 1]);
    }
    if (!growth.tips) {
        CU_ASSERT_EQUAL(growth.end, REACH);
    }
    /* Within a millionth of where it tips rounding decides. */
    for (int k = 0; k < 24 && growth.end > 1e-4; k++) {
        const double m = (growth.end - 1e-6) * (k + 0.5) / 24.0;
        t->worst = fmax(t->worst, breach_at(s, dead, live, &growth, m));
    }
    double r[MOST];
    t->wrong += growth.tips && solve(s, dead, live, growth.end + 1e-4, r);
    compare_reach(s, seed, dead, live, &growth, t);
}

static tally follow_many(support kind, int setups, uint64_t seed) {
    tally t = {0};
    for (int trial = 0; trial < setups; trial++) {
        setup s;
        start(&s, &seed, kind);
        for (int i = 0; i < PER_SETUP; i++) follow_one(&s, &seed, &t);
        ss_patterns_destroy(&s.patterns);
    }
    if (t.wrong > 0 || t.worst > 1e-9) {
        printf("\n  wrong %d, worst %.2e", t.wrong, t.worst);
    }
    CU_ASSERT_EQUAL(t.wrong, 0);
    CU_ASSERT(t.worst < 1e-9);
    return t;
}

static void test_follows_stable(void) {
    const tally t = follow_many(STABLE, 400, 904117);
    CU_ASSERT_EQUAL(t.tips, 0);
    CU_ASSERT_EQUAL(t.unclear, 0);
    CU_ASSERT(t.several > 2000 && t.reached > 400);
}

static void test_follows_rocking(void) {
    const tally t = follow_many(ROCKING, 300, 71993);
    CU_ASSERT(t.unclear * 20 < t.clear);
    CU_ASSERT(t.tips > 300 && t.several > 400 && t.reached > 200);
}

static void test_follows_ties(void) {
    const tally t = follow_many(WHOLE, 350, 30011);
    CU_ASSERT(t.unclear * 10 < t.clear);
    CU_ASSERT(t.tips > 300 && t.several > 400 && t.reached > 200);
}

/* One bearing lifts at m = 2, and its opening grows by 0.02 a unit after that. */
static void test_by_hand(void) {
    const double S[1] = {4e6}, dead[1] = {1.6e5}, live[1] = {-8e4};
    const double *const rows[1] = {dead};
    double room[SS_STEPS_MOST * 2], weight[1];
    ss_patterns p;
    ss_error error = {0};
    CHECK_OK(ss_patterns_create(1, S, 1, rows, &p, &error), &error);
    ss_growth growth = {.opening = room};
    CU_ASSERT_EQUAL(ss_patterns_follow(&p, 0, live, 0, 5.5, &growth), SS_OK);
    CU_ASSERT(growth.clear && !growth.tips);
    CU_ASSERT_EQUAL_FATAL(growth.count, 2);
    CHECK_CLOSE(growth.from[1], 2.0, 1e-14);
    CU_ASSERT_EQUAL(growth.end, 5.5);
    CU_ASSERT_EQUAL(room[0], 0.0);
    CU_ASSERT_EQUAL(room[1], 0.0);
    CHECK_CLOSE(room[2], -0.04, 1e-14);
    CHECK_CLOSE(room[3], 0.02, 1e-14);
    ss_patterns_weigh(&p, growth.pattern[1], &(double){250.0}, weight);
    CHECK_CLOSE(weight[0], -250.0 / 4e6, 1e-14);
    CU_ASSERT_EQUAL(ss_patterns_follow(&p, 0, live, 0, 1.9, &growth), SS_OK);
    CU_ASSERT(growth.count == 1 && growth.pattern[0] == 0 && growth.end == 1.9);
    ss_patterns_destroy(&p);
}

/* Nothing gives at all: a bearing on a determinate support that would have to pull tips the bridge. */
static void test_tips_by_hand(void) {
    const double S[1] = {0.0}, dead[1] = {1.5e5}, live[1] = {-6e4};
    const double *const rows[1] = {dead};
    double room[SS_STEPS_MOST * 2];
    ss_patterns p;
    ss_error error = {0};
    CHECK_OK(ss_patterns_create(1, S, 1, rows, &p, &error), &error);
    ss_growth growth = {.opening = room};
    CU_ASSERT_EQUAL(ss_patterns_follow(&p, 0, live, 0, 7.0, &growth), SS_OK);
    CU_ASSERT(growth.clear && growth.tips && growth.count == 1);
    CHECK_CLOSE(growth.end, 2.5, 1e-8);
    const double lifted[1] = {-3.0};
    const double *const other[1] = {lifted};
    ss_patterns_destroy(&p);
    CHECK_OK(ss_patterns_create(1, S, 1, other, &p, &error), &error);
    CU_ASSERT_EQUAL(ss_patterns_follow(&p, 0, live, 0, 7.0, &growth), SS_ERROR_TIPPING);
    ss_patterns_destroy(&p);
}

/* A bridge without contact springs has one pattern, for good. */
static void test_no_bearings(void) {
    const double none[1] = {0.0};
    const double *const rows[1] = {none};
    ss_patterns p;
    ss_error error = {0};
    CHECK_OK(ss_patterns_create(0, none, 1, rows, &p, &error), &error);
    ss_growth growth = {0};
    CU_ASSERT_EQUAL(ss_patterns_follow(&p, 0, none, 0, 12.0, &growth), SS_OK);
    CU_ASSERT(growth.clear && !growth.tips && growth.count == 1 && growth.end == 12.0);
    ss_patterns_destroy(&p);
}

/* A pattern has one number, whenever it is asked for; a copy knows all by the same numbers and follows to
 * the same bytes. */
static void test_numbers_and_copies(void) {
    uint64_t seed = 5501;
    setup s;
    start_wide(&s, &seed);
    int numbers[128];
    for (unsigned bits = 0; bits < 128; bits++) {
        bool open[MOST] = {false};
        for (int i = 0; i < 7; i++) open[i] = bits >> i & 1u;
        CU_ASSERT_EQUAL(ss_patterns_find(&s.patterns, open, &numbers[bits]), SS_OK);
    }
    CU_ASSERT_EQUAL(numbers[0], 0);
    ss_patterns copy;
    ss_error error = {0};
    CHECK_OK(ss_patterns_copy(&s.patterns, &copy, &error), &error);
    CU_ASSERT_EQUAL(copy.count, s.patterns.count);
    for (unsigned bits = 0; bits < 128; bits++) {
        bool open[MOST] = {false};
        int again = -2, there = -2;
        for (int i = 0; i < 7; i++) open[i] = bits >> i & 1u;
        CU_ASSERT_EQUAL(ss_patterns_find(&s.patterns, open, &again), SS_OK);
        CU_ASSERT_EQUAL(ss_patterns_find(&copy, open, &there), SS_OK);
        CU_ASSERT(again == numbers[bits] && there == again);
        CU_ASSERT(again < 0 || memcmp(s.patterns.items[again].open, open, (size_t)s.n * sizeof *open) == 0);
    }
    double live[MOST], room[2][SS_STEPS_MOST * 2 * MOST];
    for (int i = 0; i < s.n; i++) live[i] = -3.1e4 * fabs(random_signed(&seed));
    ss_growth a = {.opening = room[0]}, b = {.opening = room[1]};
    CU_ASSERT_EQUAL(ss_patterns_follow(&s.patterns, 1, live, 0, REACH, &a), SS_OK);
    CU_ASSERT_EQUAL(ss_patterns_follow(&copy, 1, live, 0, REACH, &b), SS_OK);
    CU_ASSERT_EQUAL_FATAL(a.count, b.count);
    CU_ASSERT(a.count > 1 && a.end == b.end && a.tips == b.tips);
    CU_ASSERT_EQUAL(memcmp(a.from, b.from, (size_t)a.count * sizeof a.from[0]), 0);
    CU_ASSERT_EQUAL(memcmp(a.pattern, b.pattern, (size_t)a.count * sizeof a.pattern[0]), 0);
    CU_ASSERT_EQUAL(memcmp(room[0], room[1], (size_t)(2 * s.n * a.count) * sizeof room[0][0]), 0);
    ss_patterns_destroy(&copy);
    ss_patterns_destroy(&s.patterns);
}

/* What is forgotten is found again as it was; the first keep their numbers, and the memory of the others is
 * used again. */
static void test_forgets(void) {
    uint64_t seed = 77113;
    setup s;
    start_wide(&s, &seed);
    double first[128][MOST * MOST];
    int numbers[128];
    for (int pass = 0; pass < 2; pass++) {
        for (unsigned bits = 0; bits < 128; bits++) {
            bool open[MOST] = {false};
            int number = -2;
            for (int i = 0; i < 7; i++) open[i] = bits >> i & 1u;
            CU_ASSERT_EQUAL_FATAL(ss_patterns_find(&s.patterns, open, &number), SS_OK);
            const double *const map = s.patterns.items[number].map;
            const size_t size = (size_t)(s.n * s.n) * sizeof *map;
            if (pass == 0) {
                numbers[bits] = number;
                memcpy(first[bits], map, size);
            }
            CU_ASSERT_EQUAL(memcmp(first[bits], map, size), 0);
            CU_ASSERT(bits >= 20 || number == numbers[bits]);
        }
        const long held = ss_memory_live();
        ss_patterns_forget(&s.patterns, 20);
        CU_ASSERT_EQUAL(s.patterns.count, 20);
        CU_ASSERT_EQUAL(ss_memory_live(), held);
    }
    ss_patterns_destroy(&s.patterns);
}

/* The pattern at one multiple is that of the way there, from a near guess and from a far one; settling either
 * agrees or gives up. */
static void test_settles(void) {
    uint64_t seed = 4447;
    int same = 0, given_up = 0;
    for (int trial = 0; trial < 200; trial++) {
        setup s;
        double live[MOST], room[SS_STEPS_MOST * 2 * MOST], opening[MOST], settled[MOST];
        start(&s, &seed, STABLE);
        for (int i = 0; i < s.n; i++) live[i] = 2.3e4 * random_signed(&seed) + 0.9e4;
        ss_growth growth = {.opening = room};
        CU_ASSERT_EQUAL_FATAL(ss_patterns_follow(&s.patterns, 1, live, 0, REACH, &growth), SS_OK);
        const double m = 0.37 * REACH;
        const int expected = ss_growth_pattern(&growth, m);
        int state = 0, near = expected;
        CU_ASSERT_EQUAL(ss_patterns_state(&s.patterns, 1, live, m, &state, opening), SS_OK);
        CU_ASSERT_EQUAL(ss_patterns_settle(&s.patterns, 1, live, m, &near, settled), SS_OK);
        CU_ASSERT(state == expected && near == expected);
        int far = 0;
        const ss_status status = ss_patterns_settle(&s.patterns, 1, live, m, &far, settled);
        CU_ASSERT(status == SS_ERROR_NUMERIC || (status == SS_OK && far == expected));
        CU_ASSERT(status != SS_OK || memcmp(settled, opening, (size_t)s.n * sizeof *settled) == 0);
        same += status == SS_OK;
        given_up += status != SS_OK;
        ss_patterns_destroy(&s.patterns);
    }
    CU_ASSERT(same > 100);
    CU_ASSERT_EQUAL(same + given_up, 200);
}

static void test_pattern_of_growth(void) {
    ss_growth growth = {.count = 3, .from = {0.0, 1.5, 4.0}, .pattern = {7, 2, 9}, .end = 6.0, .clear = true};
    CU_ASSERT_EQUAL(ss_growth_pattern(&growth, 0.0), 7);
    CU_ASSERT_EQUAL(ss_growth_pattern(&growth, 1.6), 2);
    CU_ASSERT_EQUAL(ss_growth_pattern(&growth, 5.9), 9);
    CU_ASSERT_EQUAL(ss_growth_pattern(&growth, 60.0), 9);
    growth.clear = false;
    CU_ASSERT_EQUAL(ss_growth_pattern(&growth, 5.9), 9);
    CU_ASSERT_EQUAL(ss_growth_pattern(&growth, 6.1), -1);
    growth.count = 0;
    CU_ASSERT_EQUAL(ss_growth_pattern(&growth, 0.0), -1);
}

static ss_status everything(const setup *s, const double *live) {
    const double *const rows[DEADS] = {s->dead[0], s->dead[1]};
    double room[SS_STEPS_MOST * 2 * MOST];
    ss_patterns p = {0}, copy = {0};
    ss_growth growth = {.opening = room};
    ss_status status = ss_patterns_create(s->n, s->S, DEADS, rows, &p, NULL);
    if (status == SS_OK) {
        status = ss_patterns_follow(&p, 0, live, 0, REACH, &growth);
    }
    if (status == SS_OK) {
        status = ss_patterns_copy(&p, &copy, NULL);
    }
    ss_patterns_destroy(&copy);
    ss_patterns_destroy(&p);
    return status;
}

static void test_memory(void) {
    uint64_t seed = 30241;
    setup s;
    double live[MOST];
    start(&s, &seed, STABLE);
    for (int i = 0; i < s.n; i++) live[i] = -3.1e4 * fabs(random_signed(&seed));
    const long before = ss_memory_live();
    ss_status status = SS_ERROR_MEMORY;
    int failures = 0;
    for (long n = 0; n < 1000 && status != SS_OK; n++) {
        ss_memory_fail_from(n);
        status = everything(&s, live);
        ss_memory_fail_from(-1);
        CU_ASSERT(status == SS_OK || status == SS_ERROR_MEMORY);
        failures += status != SS_OK;
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    CU_ASSERT(failures > 20);
    ss_patterns_destroy(&s.patterns);
}

int main(void) {
    static const test_case cases[] = {
        {"follows, stable", test_follows_stable},
        {"follows, rocking", test_follows_rocking},
        {"follows ties", test_follows_ties},
        {"by hand", test_by_hand},
        {"tips, by hand", test_tips_by_hand},
        {"no bearings", test_no_bearings},
        {"numbers and copies", test_numbers_and_copies},
        {"forgets", test_forgets},
        {"settles", test_settles},
        {"pattern of a growth", test_pattern_of_growth},
        {"memory", test_memory},
    };
    return RUN_SUITE("patterns", cases);
}
