/* random_bridge.h - writes the description of a bridge that nobody chose, the same for the same seed. */
#ifndef TEST_RANDOM_BRIDGE_H
#define TEST_RANDOM_BRIDGE_H

#include <stddef.h>
#include <stdint.h>

/**
 * One to four cars, each of one line or of several with floor beams, that may begin at other places and be
 * turned round; joints and bearings of all kinds; decks across and along; tapers, dead loads, a truck, cases,
 * runs and probes. Most are sound; some are mechanisms. Returns the length of the text, less than `size`.
 */
size_t random_bridge(uint64_t seed, char *text, size_t size);

#endif
