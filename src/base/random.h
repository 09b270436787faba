/* random.h - random numbers that depend on a seed and a place only, and points that fill a box evenly. */
#ifndef SS_BASE_RANDOM_H
#define SS_BASE_RANDOM_H

#include <stdint.h>

/**
 * Philox4x32-10: four words of 32 bits from a counter of four and a key of two, with no state. Salmon,
 * Moraes, Dror, Shaw: Parallel Random Numbers: As Easy as 1, 2, 3. SC'11 (2011).
 */
void ss_philox(const uint32_t counter[4], const uint32_t key[2], uint32_t out[4]);

/** The i-th number of a stream, uniform and strictly between 0 and 1: an odd multiple of 2^-53. */
double ss_random_unit(uint64_t seed, uint32_t stream, uint64_t i);

/**
 * Where `i` (0 to count - 1) goes in a permutation of `count` (1 to 2^30) things that the seed and the stream
 * pick: a balanced Feistel network over the next even power of two, walked on until it falls inside.
 */
uint32_t ss_random_place(uint64_t seed, uint32_t stream, uint32_t count, uint32_t i);

/**
 * Point `i` of a Latin hypercube of `count` points in `dimension` coordinates: strictly between 0 and 1, and
 * of each coordinate's `count` equal parts every one holds exactly one of the points (McKay, Beckman,
 * Conover, Technometrics 21, 1979). A point depends on its arguments only, not on those drawn before it.
 * `out` has size `dimension`.
 */
void ss_draw(uint64_t seed, int count, int dimension, int i, double *out);

#endif
