/* test_passages.c - ranges by influence fields against the search for extremes, which solves every state. */
#include "response/passage.h"

#include "slab_samples.h"

/* Two short cars, 16 ft 4 in wide together, with the roadway in their middle. */
static const char *sample(void) {
    static char text[8192];
    static char made[8192 + 16];
    FILE *const file = fopen(SS_SOURCE_DIR "/tests/unit/studies/stone_run.cfg", "rb");
    CU_ASSERT_PTR_NOT_NULL_FATAL(file);
    const size_t length = fread(text, 1, sizeof text - 1, file);
    text[length] = '\0';
    fclose(file);
    char *const at = strstr(text, "\"15 ft\"");
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    *at = '\0';
    strcpy(made, text);
    strcat(made, "\"15 ft 4 in\"");
    strcat(made, at + 7);
    return made;
}

typedef struct compared {
    slab_bridge b;
    ss_effect *effects;
    int count;
    ss_passage *made;
    ss_envelope envelope;
    int lines;
} compared;

/* Shears and moments of all lines of a bridge under its first truck. */
static void compare_start(const char *text, compared *c) {
    ss_error error = {0};
    *c = (compared){0};
    slab_start(text, &c->b);
    ss_variant *const v = &c->b.variant;
    c->effects = ss_alloc((size_t)v->effect_count, sizeof *c->effects);
    CU_ASSERT_PTR_NOT_NULL_FATAL(c->effects);
    for (int i = 0; i < v->effect_count; i++) {
        const ss_effect *const e = &v->effects[i];
        if (e->member == SS_MEMBER_LINE && (e->kind == SS_EFFECT_SHEAR || e->kind == SS_EFFECT_MOMENT)) {
            c->effects[c->count++] = *e;
        }
    }
    c->made = ss_alloc((size_t)c->count, sizeof *c->made);
    CU_ASSERT_PTR_NOT_NULL_FATAL(c->made);
    check_ok("passages",
             ss_passages_compute(&v->permanent, &v->bridge.vehicles[0], c->effects, c->count, c->made,
                                 &c->lines, &error),
             &error);
    const ss_envelope_options options = {
        .factors = {1.0, 1.0}, .live_factor = 1.0, .extent = SS_EXTENT_AXLES};
    check_ok("envelope",
             ss_envelope_compute(&v->permanent, &v->placements, c->effects, c->count, &options, &c->envelope,
                                 &error),
             &error);
}

/* Of the truck alone, which is the first traffic. */
static double extreme(const compared *c, int effect, int most) {
    return c->envelope.extremes[2 * effect * c->envelope.traffic_count + most].value;
}

static void compare_finish(compared *c) {
    ss_envelope_destroy(&c->envelope);
    ss_free(c->made);
    ss_free(c->effects);
    slab_finish(&c->b);
}

/* Two cars on two-way bearings: all is linear, and both look along the same lines. Axles stand at stations,
 * so that a smooth influence line is missed by little; nothing can be beyond the extremes. */
static void test_linear(void) {
    const long live = ss_memory_live();
    compared c;
    compare_start(sample(), &c);
    CU_ASSERT(c.lines > 5 && c.count > 100);
    double largest[2] = {0.0, 0.0};
    for (int i = 0; i < c.count; i++) {
        const int kind = c.effects[i].kind == SS_EFFECT_SHEAR ? 1 : 0;
        largest[kind] = fmax(largest[kind], extreme(&c, i, 1));
    }
    for (int i = 0; i < c.count; i++) {
        char row[16];
        snprintf(row, sizeof row, "%d", i);
        const double scale = largest[c.effects[i].kind == SS_EFFECT_SHEAR ? 1 : 0];
        const double least = fmin(extreme(&c, i, 0), 0.0);
        const double most = fmax(extreme(&c, i, 1), 0.0);
        CHECK_ROW(c.made[i].least >= least - 1e-3 * scale && c.made[i].least <= least + 0.01 * scale, row);
        CHECK_ROW(c.made[i].most <= most + 1e-3 * scale && c.made[i].most >= most - 0.01 * scale, row);
        CHECK_ROW(c.made[i].range <= c.made[i].most - c.made[i].least + 1e-9 * scale, row);
        CHECK_ROW(c.made[i].range >= fmax(c.made[i].most, -c.made[i].least) * (1.0 - 1e-9), row);
    }
    compare_finish(&c);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

/* The cars of the same bridge are alike: what one line feels, its mirror image does. */
static void test_mirror(void) {
    compared c;
    compare_start(sample(), &c);
    const ss_bridge *const bridge = &c.b.variant.bridge;
    const double middle = 0.5 * (bridge->roadway_left + bridge->roadway_right);
    int pairs = 0;
    for (int i = 0; i < c.count; i++) {
        for (int k = 0; k < c.count; k++) {
            const ss_effect *const a = &c.effects[i];
            const ss_effect *const b = &c.effects[k];
            const double y = bridge->lines[a->index].y + bridge->lines[b->index].y;
            const bool mirrored = fabs(y - 2.0 * middle) < 1e-6;
            if (a->kind == b->kind && mirrored && a->at == b->at && a->before == b->before) {
                pairs++;
                CHECK_CLOSE(c.made[i].range, c.made[k].range, 1e-6);
            }
        }
    }
    CU_ASSERT(pairs > 50);
    compare_finish(&c);
}

int main(void) {
    static const test_case cases[] = {
        {"linear", test_linear},
        {"mirror", test_mirror},
    };
    return RUN_SUITE("passages", cases);
}
