/* test_halves.c - bounds on the sum of parts of a load, against the load solved as a whole. */
#include "response/halves.h"

#include <math.h>
#include <string.h>

#include "random_contact.h"
#include "sillspan/contact.h"
#include "support/suite.h"

enum { MOST = TEST_CONTACT_MOST };

/* Openings and reactions of one load. */
typedef struct solved {
    double u[MOST], r[MOST];
} solved;

static double dot(const double *a, const double *b, int n) {
    double sum = 0.0;
    for (int i = 0; i < n; i++) sum += a[i] * b[i];
    return sum;
}

static bool solve(int n, const double *S, const double *r0, solved *out) {
    bool open[MOST] = {false};
    double work[2 * MOST * MOST + 16 * MOST];
    CU_ASSERT_FATAL(ss_contact_work(n) <= sizeof work / sizeof work[0]);
    return ss_contact_solve(n, S, r0, out->r, out->u, open, work) == SS_OK;
}

static double gap_of(const solved *a, const solved *b, int n) {
    return dot(a->u, b->r, n) + dot(b->u, a->r, n);
}

static double norm_of(int n, const double *S, const double *c) {
    double work[MOST * MOST + 4 * MOST];
    CU_ASSERT_FATAL(ss_halves_work(n) <= sizeof work / sizeof work[0]);
    return ss_halves_norm(n, S, c, work);
}

/* Reactions that some state holds. */
static void held(uint64_t *seed, int n, const double *S, double *r0) {
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

/* An effect that no rigid motion of the bearings changes: c = S z. */
static void effect_in_range(uint64_t *seed, int n, const double *S, double *z, double *c) {
    for (int i = 0; i < n; i++) z[i] = random_signed(seed);
    for (int i = 0; i < n; i++) c[i] = dot(S + (size_t)i * (size_t)n, z, n);
}

/* One bearing: a lifts it, b presses it down as much. The bound is met. */
static void test_one_bearing(void) {
    const double S[1] = {2.0e6}, a[1] = {-3.0e4}, b[1] = {3.0e4}, c[1] = {5.0};
    solved first, second;
    CU_ASSERT(solve(1, S, a, &first));
    CU_ASSERT(solve(1, S, b, &second));
    CHECK_CLOSE(first.u[0], 0.015, 1e-12);
    CHECK_CLOSE(gap_of(&first, &second, 1), 0.015 * 3.0e4, 1e-12);
    CHECK_CLOSE(norm_of(1, S, c), 5.0 / sqrt(2.0e6), 1e-12);
    /* Together they leave it shut: the sum of the openings is off by all of it. */
    CHECK_CLOSE(norm_of(1, S, c) * sqrt(gap_of(&first, &second, 1)), 5.0 * 0.015, 1e-12);
}

static void test_norm(void) {
    uint64_t seed = 5501;
    int beside = 0;
    for (int i = 0; i < 3000; i++) {
        const int n = 1 + random_int(&seed, MOST), rank = 1 + random_int(&seed, n);
        double S[MOST * MOST], z[MOST], c[MOST];
        random_stiffness(&seed, n, rank, 0, S);
        effect_in_range(&seed, n, S, z, c);
        const double expected = sqrt(fmax(dot(z, c, n), 0.0)), norm = norm_of(n, S, c);
        CU_ASSERT(fabs(norm - expected) <= 1e-6 * expected + 1e-9);
        /* Whatever is not in the range of a singular S has no bound. */
        if (rank < n && expected > 0.0) {
            double most = 0.0;
            for (int k = 0; k < n; k++) most = fmax(most, fabs(c[k]));
            for (int k = 0; k < n; k++) c[k] += most * random_signed(&seed);
            beside += isinf(norm_of(n, S, c));
        }
    }
    CU_ASSERT(beside > 500);
}

/* The effect of the whole is within the bound of the sum, and sometimes not far within. */
static void test_bound(void) {
    uint64_t seed = 90217;
    int tried = 0;
    double closest = 0.0;
    for (int i = 0; i < 20000; i++) {
        const int n = 1 + random_int(&seed, MOST), rank = 1 + random_int(&seed, n);
        double S[MOST * MOST], z[MOST], c[MOST], a[MOST], b[MOST], both[MOST];
        solved first, second, whole;
        random_stiffness(&seed, n, rank, random_int(&seed, 2), S);
        effect_in_range(&seed, n, S, z, c);
        held(&seed, n, S, a);
        held(&seed, n, S, b);
        for (int k = 0; k < n; k++) both[k] = a[k] + b[k];
        if (!solve(n, S, a, &first) || !solve(n, S, b, &second)) {
            continue;
        }
        /* Parts that are held make a whole that is. */
        CU_ASSERT_FATAL(solve(n, S, both, &whole));
        const double gap = gap_of(&first, &second, n), bound = norm_of(n, S, c) * sqrt(gap);
        const double off = fabs(dot(c, whole.u, n) - dot(c, first.u, n) - dot(c, second.u, n));
        const double size = fabs(dot(c, whole.u, n)) + fabs(dot(c, first.u, n)) + fabs(dot(c, second.u, n));
        CU_ASSERT(gap >= 0.0);
        CU_ASSERT(off <= bound * (1.0 + 1e-7) + 1e-7 * size);
        closest = fmax(closest, bound > 1e-3 * size ? off / bound : 0.0);
        tried++;
    }
    CU_ASSERT(tried > 15000);
    CU_ASSERT(closest > 0.9);
}

/* How near the limit any multiple comes; t of the live load's, against the sum's bound. */
static double least_left(const ss_halves *h) {
    double least = (double)INFINITY;
    for (int i = 0; i <= 4000; i++) {
        const double t = i / 4000.0;
        const double off = h->norm * sqrt(t * t * h->gap + t * (1.0 - t) * h->cross);
        least = fmin(least, t * h->room + (1.0 - t) * h->whole - off);
    }
    return least;
}

static void test_all_multiples(void) {
    uint64_t seed = 7741;
    int clear = 0, not_clear = 0;
    for (int i = 0; i < 4000; i++) {
        const ss_halves h = {.norm = exp(random_signed(&seed)),
                             .gap = exp(3.0 * random_signed(&seed)) * random_int(&seed, 2),
                             .cross = exp(3.0 * random_signed(&seed)),
                             .room = exp(2.0 * random_signed(&seed)) - 0.3,
                             .whole = exp(random_signed(&seed))};
        const double least = least_left(&h);
        const bool is_clear = ss_halves_clear(&h);
        CU_ASSERT(!is_clear || least > 0.0);
        CU_ASSERT(is_clear || least < 1e-3);
        clear += is_clear;
        not_clear += !is_clear;
    }
    CU_ASSERT(clear > 500);
    CU_ASSERT(not_clear > 500);
}

/* Dead load and two live loads: where the halves say that no multiple reaches the limit, none does. */
static void test_against_contact(void) {
    uint64_t seed = 33;
    int clear = 0, near = 0;
    for (int i = 0; i < 6000; i++) {
        const int n = 1 + random_int(&seed, MOST), rank = 1 + random_int(&seed, n);
        double S[MOST * MOST], z[MOST], c[MOST], dead[MOST], live[2][MOST], r0[MOST];
        solved under_dead, part[2], whole;
        random_stiffness(&seed, n, rank, 0, S);
        effect_in_range(&seed, n, S, z, c);
        held(&seed, n, S, dead);
        bool made = solve(n, S, dead, &under_dead);
        for (int p = 0; p < 2; p++) {
            held(&seed, n, S, live[p]);
            for (int k = 0; k < n; k++) r0[k] = 0.5 * dead[k] + live[p][k];
            made = made && solve(n, S, r0, &part[p]);
        }
        if (!made) {
            continue;
        }
        const double sum = dot(c, part[0].u, n) + dot(c, part[1].u, n), alone = dot(c, under_dead.u, n);
        const double size = fabs(sum) + fabs(alone);
        const double limit = fmax(sum, alone) + size * 0.3 * exp(2.0 * random_signed(&seed));
        const ss_halves h = {.norm = norm_of(n, S, c),
                             .gap = gap_of(&part[0], &part[1], n),
                             .cross = gap_of(&part[0], &under_dead, n) + gap_of(&part[1], &under_dead, n),
                             .room = limit - sum,
                             .whole = limit - alone};
        if (!ss_halves_clear(&h)) {
            continue;
        }
        clear++;
        for (int k = 0; k <= 40; k++) {
            const double t = k / 40.0;
            for (int j = 0; j < n; j++) r0[j] = dead[j] + t * (live[0][j] + live[1][j]);
            CU_ASSERT_FATAL(solve(n, S, r0, &whole));
            const double value = dot(c, whole.u, n);
            CU_ASSERT(value < limit + 1e-7 * size);
            near += value > limit - 0.1 * size;
        }
    }
    CU_ASSERT(clear > 1000);
    CU_ASSERT(near > 100);
}

int main(void) {
    static const test_case cases[] = {{"one bearing", test_one_bearing},
                                      {"norm of an effect", test_norm},
                                      {"parts and whole", test_bound},
                                      {"all multiples", test_all_multiples},
                                      {"against contact", test_against_contact}};
    return RUN_SUITE("halves of a load", cases);
}
