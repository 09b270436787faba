/* test_contact.c - states of contact against enumeration of all of them, and paths of a load against small
 * steps. */
#include <math.h>
#include <string.h>

#include "random_contact.h"
#include "sillspan/contact.h"
#include "support/suite.h"

enum { MOST = TEST_CONTACT_MOST };

/* Gaussian elimination with full row choice; false when the pattern is singular. */
static bool solve_dense(int n, double A[MOST][MOST], double *b) {
    for (int k = 0; k < n; k++) {
        int best = k;
        for (int i = k + 1; i < n; i++) best = fabs(A[i][k]) > fabs(A[best][k]) ? i : best;
        if (fabs(A[best][k]) < 1e-9) {
            return false;
        }
        for (int j = 0; j < n; j++) {
            const double kept = A[k][j];
            A[k][j] = A[best][j];
            A[best][j] = kept;
        }
        const double kept = b[k];
        b[k] = b[best];
        b[best] = kept;
        for (int i = 0; i < n; i++) {
            const double share = i == k ? 0.0 : A[i][k] / A[k][k];
            for (int j = k; j < n; j++) A[i][j] -= share * A[k][j];
            b[i] -= share * b[k];
        }
    }
    for (int k = 0; k < n; k++) b[k] /= A[k][k];
    return true;
}

/* Tries every pattern. Reactions of the first that fits; with a positive semidefinite S they are the only
 * ones. */
static bool enumerate(int n, const double *S, const double *r0, double *r) {
    double most = 0.0;
    for (int i = 0; i < n; i++) most = fmax(most, fabs(r0[i]));
    for (unsigned pattern = 0; pattern < 1u << n; pattern++) {
        int at[MOST], count = 0;
        for (int i = 0; i < n; i++) {
            if (pattern >> i & 1u) {
                at[count++] = i;
            }
        }
        double A[MOST][MOST], u[MOST];
        for (int i = 0; i < count; i++) {
            for (int j = 0; j < count; j++) A[i][j] = S[at[i] * n + at[j]] / 3.7e6;
            u[i] = -r0[at[i]] / 3.7e6;
        }
        if (!solve_dense(count, A, u)) {
            continue;
        }
        bool fits = true;
        for (int i = 0; i < count; i++) fits = fits && u[i] * 3.7e6 >= -1e-9 * most;
        for (int i = 0; i < n; i++) {
            r[i] = r0[i];
            for (int j = 0; j < count; j++) r[i] += S[i * n + at[j]] * u[j];
            fits = fits && r[i] >= -1e-8 * most;
        }
        if (fits) {
            return true;
        }
    }
    return false;
}

/* Complementarity and the equation itself, relative to the largest term. */
static double worst_breach(int n, const double *S, const double *r0, const double *r, const double *u,
                           const bool *open) {
    double worst = 0.0, scale = 0.0;
    for (int i = 0; i < n; i++) {
        double sum = r0[i];
        scale = fmax(scale, fabs(r0[i]));
        for (int j = 0; j < n; j++) {
            sum += S[i * n + j] * u[j];
            scale = fmax(scale, fabs(S[i * n + j] * u[j]));
        }
        worst = fmax(worst, fabs(sum - r[i]));
        if (r[i] < 0.0 || u[i] < 0.0 || (open[i] ? r[i] != 0.0 : u[i] != 0.0)) {
            return (double)INFINITY;
        }
    }
    return scale > 0.0 ? worst / scale : worst;
}

static void random_reactions(uint64_t *seed, int n, int style, const double *S, double *r0) {
    for (int i = 0; i < n; i++) {
        r0[i] = style == 2 ? 1e4 * (double)(random_int(seed, 7) - 2) : 4.1e4 * random_signed(seed);
    }
    if (style == 1) { /* a load that some state holds for sure: r = r0 + S u with chosen r, u */
        double u[MOST];
        for (int i = 0; i < n; i++) {
            u[i] = r0[i] < 0.0 ? 0.013 * fabs(random_signed(seed)) : 0.0;
            r0[i] = fmax(r0[i], 0.0);
        }
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) r0[i] -= S[i * n + j] * u[j];
        }
    }
}

static void test_agrees_with_enumeration(void) {
    uint64_t seed = 20240607;
    int solved = 0, tipped = 0, wrong = 0;
    double worst = 0.0, worst_r = 0.0;
    for (int trial = 0; trial < 12000; trial++) {
        const int n = 1 + random_int(&seed, MOST), rank = 1 + random_int(&seed, n), style = trial % 3;
        double S[MOST * MOST], r0[MOST], r[MOST], u[MOST], expected[MOST], work[256];
        bool open[MOST];
        random_stiffness(&seed, n, rank, style == 2, S);
        random_reactions(&seed, n, style, S, r0);
        for (int i = 0; i < n; i++) open[i] = trial % 2 == 1 && random_signed(&seed) > 0.3;
        CU_ASSERT_FATAL(ss_contact_work(n) <= 256);
        const ss_status status = ss_contact_solve(n, S, r0, r, u, open, work);
        const bool possible = enumerate(n, S, r0, expected);
        wrong += possible ? status != SS_OK : status != SS_ERROR_TIPPING;
        if (possible && status == SS_OK) {
            double most = 0.0;
            solved++;
            worst = fmax(worst, worst_breach(n, S, r0, r, u, open));
            for (int i = 0; i < n; i++) most = fmax(most, fmax(fabs(r0[i]), expected[i]));
            for (int i = 0; i < n; i++)
                worst_r = fmax(worst_r, most > 0.0 ? fabs(r[i] - expected[i]) / most : 0.0);
        } else {
            tipped += status == SS_ERROR_TIPPING;
        }
    }
    CU_ASSERT_EQUAL(wrong, 0);
    CU_ASSERT(worst < 1e-9);
    CU_ASSERT(worst_r < 1e-7);
    CU_ASSERT(solved > 6000);
    CU_ASSERT(tipped > 1000);
}

static void test_outputs_are_untouched_on_failure(void) {
    const double S[4] = {2.5e6, 0.0, 0.0, 0.0}, r0[2] = {-310.0, -7.0};
    double r[2] = {1.25, 2.5}, u[2] = {3.75, 5.5}, work[64];
    bool open[2] = {false, true};
    CU_ASSERT_EQUAL(ss_contact_solve(2, S, r0, r, u, open, work), SS_ERROR_TIPPING);
    CU_ASSERT_EQUAL(r[0], 1.25);
    CU_ASSERT_EQUAL(u[1], 5.5);
    CU_ASSERT(!open[0] && open[1]);
}

/* A rigid bar on three springs k at 0, a, 2a (determinate once one has opened): the middle one opens with a
 * gap g by hand. */
static void test_bar_on_three_springs(void) {
    const double k = 8.3e6;
    /* opening vector (1, -2, 1)/6 per unit: S = 6 k (1/6)(1/6) v v' */
    const double v[3] = {1.0, -2.0, 1.0};
    double S[9], r0[3], r[3], u[3], work[64];
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) S[3 * i + j] = k / 6.0 * v[i] * v[j];
    }
    /* load P at the middle, all closed: P/3 each; the middle lowered by d: it loses (2/3) k d, the others
     * gain half of that each */
    const double P = 5.2e4, d = 0.021;
    for (int i = 0; i < 3; i++) r0[i] = P / 3.0 + k / 6.0 * v[i] * 2.0 * d;
    bool open[3] = {false};
    CU_ASSERT_EQUAL(ss_contact_solve(3, S, r0, r, u, open, work), SS_OK);
    CU_ASSERT(open[1] && !open[0] && !open[2]);
    CU_ASSERT_DOUBLE_EQUAL(r[0], P / 2.0, 1e-9 * P);
    CU_ASSERT_DOUBLE_EQUAL(r[2], P / 2.0, 1e-9 * P);
    CU_ASSERT_DOUBLE_EQUAL(u[1], d - P / 2.0 / k,
                           1e-12); /* the bar sinks by P/2k, the middle bearing stands d lower */
}

/* Effect and state at one multiple. */
static bool effect_at(const ss_contact_path *path, double m, double *e) {
    double r0[MOST], r[MOST], u[MOST], work[256];
    bool open[MOST] = {false};
    for (int i = 0; i < path->n; i++) r0[i] = path->r_dead[i] + m * path->r_live[i];
    if (ss_contact_solve(path->n, path->S, r0, r, u, open, work) != SS_OK) {
        return false;
    }
    *e = path->e_dead + m * path->e_live;
    for (int i = 0; i < path->n; i++) *e += path->opening[i] * u[i];
    return true;
}

/* Steps up from 0 without reaching the target before `factor`; counts steps that contradict the answer. */
static int contradictions(const ss_contact_path *path, double target, bool above, double most,
                          const ss_reach *reach) {
    const double sign = above ? 1.0 : -1.0;
    int wrong = 0;
    double e = 0.0;
    const double end = fmin(reach->factor, most);
    for (int step = 0; step < 60; step++) {
        const double m = end * (double)step / 60.0 * (1.0 - 1e-7);
        wrong += !effect_at(path, m, &e) || sign * (e - target) > 1e-6 * (fabs(target) + 1.0);
    }
    if (isfinite(reach->factor)) {
        /* clear of the tolerance within which a bearing counts as touching */
        const double low = fmax(0.0, reach->factor - 1e-6), high = reach->factor + 1e-6;
        if (reach->tips) {
            wrong += effect_at(path, high + 1e-4, &e);
        } else if (reach->factor > 0.0) {
            double at_low = 0.0, at_high = 0.0;
            wrong += !effect_at(path, low, &at_low);
            if (effect_at(path, high, &at_high)) {
                wrong += sign * (at_high - target) < -1e-5 * (fabs(target) + 1.0);
            }
            wrong += sign * (at_low - target) > 1e-5 * (fabs(target) + 1.0);
        }
    }
    return wrong;
}

static void test_reach_agrees_with_steps(void) {
    uint64_t seed = 77123;
    int wrong = 0, reached = 0, tips = 0, never = 0, changed = 0;
    for (int trial = 0; trial < 3000; trial++) {
        const int n = 1 + random_int(&seed, 6), rank = 1 + random_int(&seed, n);
        double S[MOST * MOST], dead[MOST], live[MOST], opening[MOST], work[256];
        random_stiffness(&seed, n, rank, trial % 4 == 3, S);
        random_reactions(&seed, n, 1, S, dead);
        for (int i = 0; i < n; i++) {
            live[i] = 2.3e4 * random_signed(&seed);
            opening[i] = 4.4e3 * random_signed(&seed);
        }
        const ss_contact_path path = {n, S, dead, live, opening, 3.1, 5.7 * random_signed(&seed)};
        const bool above = trial % 2 == 0;
        double at_dead = 0.0;
        CU_ASSERT_FATAL(effect_at(&path, 0.0, &at_dead));
        const double target = at_dead + (above ? 36.0 : -36.0) * fabs(random_signed(&seed)), most = 9.0;
        ss_reach reach;
        CU_ASSERT_EQUAL_FATAL(ss_contact_reach(&path, target, above, most, &reach, work), SS_OK);
        wrong += contradictions(&path, target, above, most, &reach);
        reached += isfinite(reach.factor) && !reach.tips && reach.factor > 0.0;
        tips += reach.tips;
        never += !isfinite(reach.factor);
        changed += reach.changes > 1;
    }
    CU_ASSERT_EQUAL(wrong, 0);
    CU_ASSERT(reached > 500);
    CU_ASSERT(tips > 100);
    CU_ASSERT(never > 100);
    CU_ASSERT(changed > 500);
}

/* One bearing that lifts at m = 2: the effect's slope grows from 3 to 3 + 5; the target 20 is reached at 2 +
 * 14/8, not at 20/3. */
static void test_reach_by_hand(void) {
    const double S[1] = {4e6}, dead[1] = {1.6e5}, live[1] = {-8e4}, opening[1] = {250.0};
    double work[16];
    ss_reach reach;
    const ss_contact_path path = {1, S, dead, live, opening, 0.0, 3.0};
    CU_ASSERT_EQUAL(ss_contact_reach(&path, 20.0, true, 100.0, &reach, work), SS_OK);
    CU_ASSERT_DOUBLE_EQUAL(reach.factor, 3.75, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL(reach.linear, 20.0 / 3.0, 1e-12);
    CU_ASSERT_EQUAL(reach.changes, 1);
    CU_ASSERT(!reach.tips);
    CU_ASSERT_EQUAL(ss_contact_reach(&path, 20.0, true, 3.5, &reach, work), SS_OK);
    CU_ASSERT(isinf(reach.factor));
    CU_ASSERT_EQUAL(ss_contact_reach(&path, -1.0, true, 3.5, &reach, work), SS_OK);
    CU_ASSERT_EQUAL(reach.factor, 0.0);
    CU_ASSERT_EQUAL(reach.linear, 0.0);
}

int main(void) {
    static const test_case cases[] = {
        {"agrees with enumeration", test_agrees_with_enumeration},
        {"outputs are untouched on failure", test_outputs_are_untouched_on_failure},
        {"bar on three springs", test_bar_on_three_springs},
        {"reach agrees with steps", test_reach_agrees_with_steps},
        {"reach by hand", test_reach_by_hand},
    };
    return RUN_SUITE("contact", cases);
}
