/* fuzz_bridges.c - whole random bridges through everything that `analyze` computes: none may fail a check of
 * its own. */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/cases.h"
#include "sillspan/envelope.h"
#include "sillspan/reader.h"
#include "support/random_bridge.h"

typedef struct pipe {
    ss_description description;
    ss_diag_list diags;
    ss_bridge bridge;
    ss_mesh mesh;
    ss_grillage *grillage;
    ss_permanent permanent;
    ss_case_list cases;
    ss_placements placements;
    ss_effect *effects;
    ss_envelope envelope;
} pipe;

static void pipe_free(pipe *p) {
    ss_envelope_destroy(&p->envelope);
    ss_free(p->effects);
    ss_placements_destroy(&p->placements);
    ss_cases_destroy(&p->cases);
    ss_permanent_destroy(&p->permanent);
    ss_grillage_destroy(p->grillage);
    ss_mesh_destroy(&p->mesh);
    ss_bridge_destroy(&p->bridge);
    ss_diag_destroy(&p->diags);
    ss_description_destroy(&p->description);
}

static ss_status describe(pipe *p, const char *text, size_t length, ss_error *error) {
    ss_status status = ss_description_read_text("random", text, length, &p->description, &p->diags, error);
    if (status == SS_OK) {
        status = ss_description_check(&p->description, &p->diags);
    }
    if (status == SS_OK) {
        status = ss_bridge_resolve(&p->description, &p->bridge, &p->diags);
    }
    return status;
}

static ss_status build(pipe *p, ss_error *error) {
    const ss_mesh_options options = {.joints = true, .refine = 1};
    ss_status status = ss_mesh_build(&p->bridge, options, &p->mesh, error);
    if (status == SS_OK) {
        status = ss_grillage_create(&p->mesh, &p->grillage, error);
    }
    if (status == SS_OK) {
        status = ss_permanent_compute(&p->bridge, p->grillage, &p->permanent, error);
    }
    return status;
}

static ss_status analyze(pipe *p, ss_error *error) {
    static const ss_envelope_options plain = {.factors = {1.0, 1.0}, .live_factor = 1.0};
    int count = 0;
    ss_status status = ss_placements_build(&p->mesh, &p->placements, error);
    if (status == SS_OK) {
        status = ss_envelope_effects(&p->mesh, &p->effects, &count, error);
    }
    if (status == SS_OK) {
        status = ss_envelope_compute(&p->permanent, &p->placements, p->effects, count, &plain, &p->envelope,
                                     error);
    }
    if (status == SS_OK) {
        status = ss_cases_compute(&p->permanent, &p->cases, error);
    }
    return status;
}

/* Reactions of bearings that only push are never below nothing. */
static bool pushes(const pipe *p) {
    for (int i = 0; i < p->envelope.effect_count; i++) {
        const ss_effect *effect = &p->envelope.effects[i];
        for (int t = 0; t < p->envelope.traffic_count; t++) {
            const ss_extreme *least = &p->envelope.extremes[2 * (i * p->envelope.traffic_count + t)];
            if (effect->kind == SS_EFFECT_REACTION && p->bridge.bearings[effect->index].contact &&
                p->envelope.dead[i] + least->value < 0.0) {
                return false;
            }
        }
    }
    for (int i = 0; i < p->cases.count; i++) {
        for (int k = 0; k < p->bridge.bearing_count; k++) {
            if (p->bridge.bearings[k].contact && p->cases.items[i].reaction[k] < 0.0) {
                return false;
            }
        }
    }
    return true;
}

/* A description that says something wrong, a mechanism, and a load that tips are answers; the rest is not. */
static bool is_answer(ss_status status) {
    return status == SS_OK || status == SS_ERROR_DESCRIPTION || status == SS_ERROR_MECHANISM ||
           status == SS_ERROR_TIPPING;
}

static bool try_seed(uint64_t seed, int seen[SS_ERROR_INTERNAL + 1]) {
    static char text[16384];
    const size_t length = random_bridge(seed, text, sizeof text);
    ss_error error = {SS_OK, ""};
    pipe p = {0};
    ss_status status = describe(&p, text, length, &error);
    if (status == SS_OK) {
        status = build(&p, &error);
    }
    if (status == SS_OK) {
        status = analyze(&p, &error);
    }
    seen[status]++;
    bool good = is_answer(status);
    if (status == SS_OK && !pushes(&p)) {
        snprintf(error.message, sizeof error.message, "a bearing that only pushes pulls");
        good = false;
    }
    if (!good || (getenv("SILLSPAN_FUZZ_TELL") != NULL && status != SS_OK)) {
        printf("seed %" PRIu64 ": %s: %s\n", seed, ss_status_text(status), error.message);
        for (int i = 0; i < p.diags.count && status == SS_ERROR_DESCRIPTION; i++)
            printf("  %s: %s\n", p.diags.items[i].path, p.diags.items[i].message);
    }
    pipe_free(&p);
    return good;
}

/* Pairs of words: the first seed of some, and how many. "write" and a seed writes that bridge. */
int main(int count, char **words) {
    int seen[SS_ERROR_INTERNAL + 1] = {0};
    long bad = 0, seeds = 0;
    if (count == 3 && strcmp(words[1], "write") == 0) {
        static char text[16384];
        random_bridge(strtoull(words[2], NULL, 10), text, sizeof text);
        fputs(text, stdout);
        return 0;
    }
    for (int i = 1; i + 1 < count; i += 2) {
        const uint64_t first = strtoull(words[i], NULL, 10);
        const long end = seeds + strtol(words[i + 1], NULL, 10);
        for (uint64_t seed = first; seeds < end; seed++, seeds++) bad += !try_seed(seed, seen);
    }
    printf("%ld bridges: %d analysed, %d with faults, %d mechanisms, %d tip, %ld failed\n", seeds,
           seen[SS_OK], seen[SS_ERROR_DESCRIPTION], seen[SS_ERROR_MECHANISM], seen[SS_ERROR_TIPPING], bad);
    /* Most must be bridges, or this shows nothing. */
    return seeds == 0 || bad > 0 || 2L * seen[SS_OK] < seeds ? 1 : 0;
}
