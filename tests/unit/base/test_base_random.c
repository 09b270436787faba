/* test_base_random.c - random numbers against published vectors, and how evenly points fill a box. */
#include <string.h>

#include "base/random.h"
#include "support/suite.h"

/* The known answers that the Random123 library publishes for philox4x32 with 10 rounds (file kat_vectors). */
static void test_philox_vectors(void) {
    static const struct {
        uint32_t counter[4], key[2], expected[4];
    } rows[] = {
        {{0, 0, 0, 0}, {0, 0}, {0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}},
        {{0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff},
         {0xffffffff, 0xffffffff},
         {0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}},
        {{0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344},
         {0xa4093822, 0x299f31d0},
         {0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}},
    };
    for (int i = 0; i < ENTRIES(rows); i++) {
        uint32_t out[4];
        ss_philox(rows[i].counter, rows[i].key, out);
        CU_ASSERT_EQUAL(memcmp(out, rows[i].expected, sizeof out), 0);
    }
}

static void test_unit_is_uniform(void) {
    enum { COUNT = 40000, BINS = 50 };
    int bins[BINS] = {0};
    double sum = 0.0;
    double product = 0.0;
    double before = 0.5;
    for (int i = 0; i < COUNT; i++) {
        const double u = ss_random_unit(77, 3, (uint64_t)i);
        CU_ASSERT_FATAL(u > 0.0 && u < 1.0);
        bins[(int)(u * BINS)]++;
        sum += u;
        product += (u - 0.5) * (before - 0.5);
        before = u;
    }
    double chi_square = 0.0;
    for (int i = 0; i < BINS; i++) {
        chi_square += pow(bins[i] - (double)COUNT / BINS, 2.0) / ((double)COUNT / BINS);
    }
    /* 49 degrees of freedom: 0.1 % lie above 85.4 and as many below 23.98 (table of chi-square). */
    CU_ASSERT(chi_square > 23.98 && chi_square < 85.4);
    /* Four standard deviations of the mean, and of the product of neighbours. */
    check_near("mean", sum / COUNT, 0.5, 4.0 / sqrt(12.0 * COUNT), 1.0);
    check_near("neighbours", product / COUNT, 0.0, 4.0 / (12.0 * sqrt(COUNT)), 1.0);
    CU_ASSERT_NOT_EQUAL(ss_random_unit(77, 3, 5), ss_random_unit(77, 4, 5));
    CU_ASSERT_NOT_EQUAL(ss_random_unit(77, 3, 5), ss_random_unit(78, 3, 5));
    CU_ASSERT_NOT_EQUAL(ss_random_unit(77, 3, 5), ss_random_unit(77 + (UINT64_C(1) << 32), 3, 5));
}

static void test_places_are_permutations(void) {
    static const uint32_t counts[] = {1, 2, 3, 4, 5, 16, 17, 100, 1000, 1025};
    for (int c = 0; c < ENTRIES(counts); c++) {
        bool seen[1025] = {false};
        for (uint32_t i = 0; i < counts[c]; i++) {
            const uint32_t at = ss_random_place(5, 2, counts[c], i);
            CU_ASSERT_FATAL(at < counts[c]);
            CU_ASSERT_FALSE(seen[at]);
            seen[at] = true;
        }
    }
}

/* Each of the 24 orders of four things comes up about as often. */
static void test_small_permutations_are_fair(void) {
    enum { DRAWS = 4800 };
    int seen[256] = {0};
    for (uint64_t seed = 0; seed < DRAWS; seed++) {
        int code = 0;
        for (uint32_t i = 0; i < 4; i++) {
            code = 4 * code + (int)ss_random_place(seed, 0, 4, i);
        }
        seen[code]++;
    }
    int orders = 0;
    double chi_square = 0.0;
    for (int i = 0; i < 256; i++) {
        orders += seen[i] > 0;
        chi_square += seen[i] > 0 ? pow(seen[i] - DRAWS / 24.0, 2.0) / (DRAWS / 24.0) : 0.0;
    }
    CU_ASSERT_EQUAL(orders, 24);
    /* 23 degrees of freedom: 0.1 % lie above 49.73 (table of chi-square). */
    CU_ASSERT(chi_square < 49.73);
}

static void test_draws_are_latin(void) {
    enum { COUNT = 97, DIMENSION = 5 };
    bool seen[DIMENSION][COUNT] = {{false}};
    double xy = 0.0;
    for (int i = COUNT - 1; i >= 0; i--) {
        double u[DIMENSION];
        ss_draw(2026, COUNT, DIMENSION, i, u);
        for (int j = 0; j < DIMENSION; j++) {
            CU_ASSERT_FATAL(u[j] > 0.0 && u[j] < 1.0);
            const int part = (int)(u[j] * COUNT);
            CU_ASSERT_FALSE(seen[j][part]);
            seen[j][part] = true;
        }
        xy += (u[0] - 0.5) * (u[1] - 0.5);
        /* Fewer coordinates are the first of more. */
        double fewer[2];
        ss_draw(2026, COUNT, 2, i, fewer);
        CU_ASSERT(fewer[0] == u[0] && fewer[1] == u[1]);
    }
    /* The coordinates are shuffled apart: four standard deviations of a correlation of as many. */
    check_near("correlation", 12.0 * xy / COUNT, 0.0, 4.0 / sqrt(COUNT), 1.0);
}

/* What even filling is for: the mean of a sum is found far better than by plain draws, whose standard error
 * would be sqrt(3/12/200) = 0.035. */
static void test_draws_sharpen_a_mean(void) {
    double sum = 0.0;
    for (int i = 0; i < 200; i++) {
        double u[3];
        ss_draw(1, 200, 3, i, u);
        sum += u[0] + u[1] + u[2];
    }
    check_near("mean of a sum", sum / 200.0, 1.5, 1e-3, 1.0);
}

int main(void) {
    static const test_case cases[] = {
        {"philox vectors", test_philox_vectors},
        {"unit is uniform", test_unit_is_uniform},
        {"places are permutations", test_places_are_permutations},
        {"small permutations are fair", test_small_permutations_are_fair},
        {"draws are latin", test_draws_are_latin},
        {"draws sharpen a mean", test_draws_sharpen_a_mean},
    };
    return RUN_SUITE("base/random", cases);
}
