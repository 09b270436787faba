/* trial_pack.c - the result of a variant as bytes, and back. */
#include <string.h>

#include "studies/trial_parts.h"

/* Texts come after these, each with its end. */
typedef struct packed {
    double rf, joint, emergency, sign[SS_POSTING_GROUPS];
    int vehicle, posting;
    bool failed, joint_out, full;
    uint64_t without;
    size_t seen;
} packed;

bool ss_trial_pack(const ss_trials *trials, const ss_trial *t, ss_text *out) {
    packed p;
    memset(&p, 0, sizeof p); /* no byte is left to chance: the same result, the same bytes */
    p.rf = t->rf;
    p.joint = t->joint;
    p.emergency = t->emergency;
    memcpy(p.sign, t->sign, sizeof p.sign);
    p.vehicle = t->vehicle;
    p.posting = (int)t->posting;
    p.failed = t->failure != NULL;
    p.joint_out = t->joint_out;
    p.full = t->full;
    p.without = t->without;
    p.seen = t->seen_length;
    const char *const text = p.failed ? t->failure : t->governs;
    ss_text_add_bytes(out, (const char *)&p, sizeof p);
    ss_text_add_bytes(out, (const char *)t->truck, (size_t)trials->truck_count * sizeof *t->truck);
    ss_text_add_bytes(out, (const char *)t->followed, (size_t)trials->follow.count * sizeof *t->followed);
    ss_text_add_bytes(out, t->seen, t->seen_length);
    ss_text_add_bytes(out, text, strlen(text));
    return !out->failed;
}

bool ss_trial_unpack(const ss_trials *trials, const ss_text *bytes, ss_arena *arena, ss_trial *out) {
    packed p;
    const size_t trucks = (size_t)trials->truck_count * sizeof *out->truck;
    const size_t followed = (size_t)trials->follow.count * sizeof *out->followed;
    if (bytes->length < sizeof p + trucks + followed) {
        return false;
    }
    memcpy(&p, bytes->data, sizeof p);
    if (p.seen > bytes->length - sizeof p - trucks - followed) {
        return false;
    }
    const char *const rest = bytes->data + sizeof p;
    const char *const seen = rest + trucks + followed;
    const size_t head = sizeof p + trucks + followed + p.seen;
    const char *const text = ss_arena_text(arena, seen + p.seen, bytes->length - head);
    const char *const kept = p.seen > 0 ? ss_arena_text(arena, seen, p.seen) : NULL;
    ss_trial t = {.failure = p.failed ? text : NULL,
                  .rf = p.rf,
                  .vehicle = p.vehicle,
                  .governs = p.failed ? "" : text,
                  .joint_out = p.joint_out,
                  .full = p.full,
                  .without = p.without,
                  .joint = p.joint,
                  .posting = (ss_posting_state)p.posting,
                  .emergency = p.emergency,
                  .seen = kept,
                  .seen_length = p.seen};
    memcpy(t.sign, p.sign, sizeof t.sign);
    t.truck = ss_arena_alloc(arena, (size_t)trials->truck_count + 1, sizeof *t.truck);
    t.followed = ss_arena_alloc(arena, (size_t)trials->follow.count + 1, sizeof *t.followed);
    if (text == NULL || t.truck == NULL || t.followed == NULL || (p.seen > 0 && kept == NULL)) {
        return false;
    }
    memcpy(t.truck, rest, trucks);
    memcpy(t.followed, rest + trucks, followed);
    *out = t;
    return true;
}
