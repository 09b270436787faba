/* rating_reactions.c - reactions of one truck at the positions that were asked for, kept so that none is
 * solved twice. */
#include "assess/rating_reactions.h"

#include <stdint.h>
#include <string.h>

#include "base/try.h"

/* A full table of this many numbers is emptied rather than enlarged: 32 MB. */
enum { NUMBERS_MOST = 4000000, SLOTS_FIRST = 256 };

static bool same(const ss_position *a, const ss_position *b) {
    return a->track == b->track && a->x == b->x && a->on_beam == b->on_beam;
}

/* Slot of the position, or the empty one where it belongs (multiplicative hashing, open addressing). */
static int slot_of(const ss_rating_reactions *reactions, const ss_position *position) {
    uint64_t bits = 0;
    memcpy(&bits, &position->x, sizeof bits);
    bits ^= ((uint64_t)position->track << 1) | (position->on_beam ? 1U : 0U);
    bits *= UINT64_C(0x9E3779B97F4A7C15);
    bits ^= bits >> 32;
    const uint64_t mask = (uint64_t)reactions->slots - 1;
    uint64_t slot = bits & mask;
    while (reactions->key[slot].track >= 0 && !same(&reactions->key[slot], position))
        slot = (slot + 1) & mask;
    return (int)slot;
}

/* A table of `slots` empty ones, with everything from the present table unless it is to be forgotten. */
static ss_status rebuild(ss_rating_reactions *reactions, int slots, bool keep) {
    const size_t n = (size_t)reactions->n;
    ss_rating_reactions fresh = *reactions;
    fresh.slots = slots;
    fresh.count = keep ? reactions->count : 0;
    fresh.key = ss_alloc((size_t)slots, sizeof *fresh.key);
    fresh.r = ss_alloc((size_t)slots * n, sizeof *fresh.r);
    if (fresh.key == NULL || fresh.r == NULL) {
        ss_free(fresh.key);
        ss_free(fresh.r);
        return SS_ERROR_MEMORY;
    }
    for (int i = 0; i < slots; i++) fresh.key[i].track = -1;
    for (int i = 0; keep && i < reactions->slots; i++) {
        if (reactions->key[i].track >= 0) {
            const size_t to = (size_t)slot_of(&fresh, &reactions->key[i]);
            fresh.key[to] = reactions->key[i];
            memcpy(fresh.r + to * n, reactions->r + (size_t)i * n, n * sizeof *fresh.r);
        }
    }
    ss_rating_reactions_destroy(reactions);
    *reactions = fresh;
    return SS_OK;
}

ss_status ss_rating_reactions_get(ss_rating_reactions *reactions, const ss_position *position,
                                  const double **r, ss_error *error) {
    ss_status status = SS_OK;
    const size_t n = (size_t)reactions->n;
    if (4 * (reactions->count + 1) > 3 * reactions->slots) {
        const bool grow = (size_t)reactions->slots * 2 * n <= NUMBERS_MOST || reactions->slots < SLOTS_FIRST;
        const int slots = reactions->slots == 0 ? SLOTS_FIRST
                          : grow                ? 2 * reactions->slots
                                                : reactions->slots;
        status = rebuild(reactions, slots, grow);
        if (status != SS_OK) {
            return ss_error_set(error, status, "no memory for the reactions of the rated trucks");
        }
    }
    const int slot = slot_of(reactions, position);
    double *const kept = reactions->r + (size_t)slot * n;
    if (reactions->key[slot].track < 0) {
        SS_TRY(ss_envelope_reactions(reactions->permanent, reactions->placements, position, kept, error));
        reactions->key[slot] = *position;
        reactions->count++;
    }
    *r = kept;
done:
    return status;
}

void ss_rating_reactions_destroy(ss_rating_reactions *reactions) {
    ss_free(reactions->key);
    ss_free(reactions->r);
    reactions->key = NULL;
    reactions->r = NULL;
    reactions->count = 0;
    reactions->slots = 0;
}
