/* test_slab_across.c - the slab between its lines: which spans there are, and what wheels ask of them by
 * hand. */
#include "sillspan/slab_across.h"

#include "sillspan/text.h"
#include "slab_samples.h"

#define BARS                                                                                                 \
    "bars = { cover_top = \"1.5 in\"; top_across = { diameter = \"5/8 in\"; spacing = \"8 in\"; }; "         \
    "bottom_across = { diameter = \"5/8 in\"; spacing = \"8 in\"; }; bottom_along = { diameter = \"1/2 "     \
    "in\"; spacing = \"9 in\"; }; };"

#define FOOT_KIP_FT (KIP_FOOT / FOOT)

/* Strength I (LRFD Tables 3.4.1-1, 3.6.1.1.2-1, 3.6.2.1-1, from memory): one lane. */
#define MOVING (1.75 * 1.33 * 1.20)

typedef struct made {
    slab_bridge b;
    ss_arena arena;
    ss_slab_checks checks;
    ss_slab_across all;
} made;

/* Two short cars with lines at 0.5, 2, 4, 6 and 7.5 ft and the same from 8 ft 4 in on, under 6 in. */
static void make(const char *joint, const char *slab, const char *method, made *m) {
    FILE *const file = fopen(SS_SOURCE_DIR "/tests/unit/studies/stone_run.cfg", "rb");
    static char sample[8192];
    ss_text text = {0};
    ss_error error = {0};
    CU_ASSERT_PTR_NOT_NULL_FATAL(file);
    sample[fread(sample, 1, sizeof sample - 1, file)] = '\0';
    fclose(file);
    char *const rating = strstr(sample, "rating = {");
    CU_ASSERT_PTR_NOT_NULL_FATAL(rating);
    ss_text_add_bytes(&text, sample, (size_t)(rating - sample));
    ss_text_printf(&text, "rating = { %s %s\n", method, rating + strlen("rating = {"));
    ss_text_printf(
        &text, "slab = { thickness = \"6 in\"; concrete = { strength = \"4 ksi\"; }; joint = \"%s\"; %s };",
        joint, slab);
    *m = (made){0};
    slab_start(text.data, &m->b);
    ss_text_destroy(&text);
    /* Emergency vehicles come after the one that is asked for: one truck is enough to follow by hand. */
    m->b.variant.bridge.rated_vehicle_count = 1;
    m->checks.arena = &m->arena;
    check_ok("across",
             ss_slab_across_compute(&m->b.variant.permanent, NULL, &m->arena, &m->checks, &m->all, &error),
             &error);
}

static void unmake(made *m) {
    ss_arena_destroy(&m->arena);
    slab_finish(&m->b);
}

/* The strip of a kind and span (ft). */
static const ss_slab_strip *strip_of(const made *m, ss_slab_span_kind kind, double span) {
    for (int i = 0; i < m->all.count; i++) {
        if (m->all.strips[i].kind == kind && fabs(m->all.strips[i].span - span * FOOT) < 1e-6) {
            return &m->all.strips[i];
        }
    }
    CU_FAIL_FATAL("no such span");
    return NULL;
}

static void test_spans(void) {
    const long live = ss_memory_live();
    made m;
    make("whole", BARS, "", &m);
    CU_ASSERT_EQUAL(m.all.count, 5);
    CU_ASSERT_EQUAL(strip_of(&m, SS_SLAB_SPAN_CONTINUOUS, 1.5)->alike, 4);
    CU_ASSERT_EQUAL(strip_of(&m, SS_SLAB_SPAN_CONTINUOUS, 2.0)->alike, 4);
    CU_ASSERT_EQUAL(strip_of(&m, SS_SLAB_SPAN_CONTINUOUS, 16.0 / 12.0)->alike, 1);
    /* Wheels keep 2 ft from curbs at 1 and 15 ft: none comes to the outer lines at 0.5 and 15.833 ft. */
    double reach[2] = {0.0, 0.0};
    int edges = 0;
    for (int i = 0; i < m.all.count; i++) {
        if (m.all.strips[i].kind == SS_SLAB_SPAN_OVERHANG && edges < 2) {
            reach[edges++] = m.all.strips[i].reach;
        }
    }
    CU_ASSERT_EQUAL(edges, 2);
    CHECK_CLOSE(fmax(reach[0], reach[1]), -2.5 * FOOT, 1e-9);
    CHECK_CLOSE(fmin(reach[0], reach[1]), (13.0 - 7.5 - 25.0 / 3.0) * FOOT, 1e-9);
    unmake(&m);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

/* Bars 5/8 in at 8 in: 0.4602 in2/ft at 4.6875 in. Span of 2 ft, wheel of 8.5 kip over 26 in: 0.8 L2/(8c) =
 * 0.18462 ft; strips of 39.2 in sagging and 4 ft, to the next axle, hogging; weight 75 psf. */
static void test_continuous(void) {
    made m;
    make("whole", BARS, "", &m);
    const double As = 0.25 * 3.14159265358979324 * 0.390625 * 1.5;
    const double a = As * 60.0 / (0.85 * 4.0 * 12.0);
    CHECK_CLOSE(m.all.sagging, 0.9 * As * 60.0 * (4.6875 - 0.5 * a) / 12.0 * FOOT_KIP_FT, 1e-9);
    CHECK_CLOSE(m.all.hogging, 0.9 * As * 60.0 * (4.1875 - 0.5 * a) / 12.0 * FOOT_KIP_FT, 1e-9);
    const ss_slab_strip *const s = strip_of(&m, SS_SLAB_SPAN_CONTINUOUS, 2.0);
    const double arm = 0.8 * 4.0 / (8.0 * 26.0 / 12.0);
    const double sags = MOVING * 8.5 * arm / (39.2 / 12.0) + 1.25 * 0.075 * 4.0 * 0.1;
    const double hogs = MOVING * 8.5 * arm / 4.0 + 1.25 * 0.075 * 4.0 * 0.125;
    CHECK_CLOSE(s->sagging, sags * FOOT_KIP_FT, 1e-6);
    CHECK_CLOSE(s->hogging, hogs * FOOT_KIP_FT, 1e-6);
    CHECK_CLOSE(s->service_sagging, (1.33 * 1.2 * 8.5 * arm / (39.2 / 12.0) + 0.03) * FOOT_KIP_FT, 1e-6);
    CHECK_CLOSE(s->use, fmax(s->sagging / m.all.sagging, s->hogging / m.all.hogging), 1e-12);
    CU_ASSERT_STRING_EQUAL(s->governs, "sagging");
    CU_ASSERT_STRING_EQUAL(s->loading->name, "Type 3");
    CHECK_CLOSE(s->wheel, 8.5 * KIP, 1e-9);
    CHECK_CLOSE(m.all.wheel_factored, MOVING * 8.5 * KIP, 1e-9);
    /* (0.063 + 0.126/2) 2 4 ksi over 2 (10 + 20 + 2 d) d, no more than 0.126: d between 4.6875 and 4.125 in
     * (LRFD 5.12.8.6.3, from memory). */
    const double d = 0.5 * (4.6875 + 4.125);
    CHECK_CLOSE(m.all.punching, 0.9 * 0.126 * 2.0 * 2.0 * (30.0 + 2.0 * d) * d * KIP, 1e-6);
    unmake(&m);
}

/* Two cantilevers of 8 in with a hinge: P L/4 over 4 ft, and w (L/2)2 / 2. */
static void test_hinged(void) {
    made m;
    make("hinged", BARS, "", &m);
    const double L = 16.0 / 12.0;
    const ss_slab_strip *const s = strip_of(&m, SS_SLAB_SPAN_HINGED, L);
    const double hogs = MOVING * 8.5 * L / 4.0 / 4.0 + 1.25 * 0.075 * L * L / 8.0;
    CHECK_CLOSE(s->hogging, hogs * FOOT_KIP_FT, 1e-6);
    CHECK_CLOSE(s->sagging, 0.0, 0.0);
    unmake(&m);
}

/* Each car's slab ends 6 in beyond its outer line with a wheel on the edge: 19 of its 26 in beyond the line.
 */
static void test_open(void) {
    made m;
    make("open", BARS, "", &m);
    const ss_slab_strip *gap = NULL;
    for (int i = 0; i < m.all.count; i++) {
        const ss_slab_strip *const s = &m.all.strips[i];
        gap = s->from == -2 || s->to == -2 ? s : gap;
    }
    CU_ASSERT_PTR_NOT_NULL_FATAL(gap);
    CU_ASSERT_EQUAL(gap->alike, 2);
    CHECK_CLOSE(gap->span, 0.5 * FOOT, 1e-9);
    CHECK_CLOSE(gap->reach, 0.5 * FOOT, 1e-9);
    const double share = 19.0 / 26.0;
    const double hogs = MOVING * 8.5 * share * 0.5 * 19.0 / 12.0 / 4.0 + 1.25 * 0.075 * 0.25 * 0.5;
    CHECK_CLOSE(gap->hogging, hogs * FOOT_KIP_FT, 1e-6);
    unmake(&m);
}

/* Slab 1 ft beyond the left edge, 1.5 ft beyond its line, with 100 lb/ft 1 ft from the line. */
static void test_edge(void) {
    made m;
    make("whole", BARS "left = \"-1 ft\"; barriers = { weight = \"100 lb/ft\"; y = \"-0.5 ft\"; };", "", &m);
    const ss_slab_strip *const s = strip_of(&m, SS_SLAB_SPAN_OVERHANG, 1.5);
    CHECK_CLOSE(s->hogging, 1.25 * (0.075 * 2.25 * 0.5 + 0.1) * FOOT_KIP_FT, 1e-6);
    CHECK_CLOSE(s->service_hogging, s->hogging / 1.25, 1e-9);
    CU_ASSERT_PTR_NULL(s->loading);
    unmake(&m);
}

/* Without bars it carries nothing, and that is missed wherever bending is. */
static void test_no_bars(void) {
    made m;
    make("whole", "", "", &m);
    CU_ASSERT(m.all.worst >= 0 && isinf(m.all.strips[m.all.worst].use));
    int missed = 0;
    for (int i = 0; i < m.checks.count; i++) {
        const ss_slab_check *const c = &m.checks.items[i];
        CU_ASSERT_EQUAL(c->part, SS_SLAB_PART_ACROSS);
        missed += strncmp(c->requirement.name, "bending of the slab", 19) == 0 &&
                          ss_requirement_missed(&c->requirement)
                      ? 1
                      : 0;
    }
    CU_ASSERT(missed >= 5);
    unmake(&m);
}

/* Load factor design (Standard Specifications 3.22, from memory): 1.3 5/3, impact 30 %, one lane counts once.
 */
static void test_standard(void) {
    made lrfr, lfr;
    make("whole", BARS, "", &lrfr);
    make("whole", BARS, "methods = [ \"LFR\" ];", &lfr);
    const ss_slab_strip *const a = strip_of(&lrfr, SS_SLAB_SPAN_CONTINUOUS, 2.0);
    const ss_slab_strip *const b = strip_of(&lfr, SS_SLAB_SPAN_CONTINUOUS, 2.0);
    CHECK_CLOSE((b->sagging - b->sagging_dead) / (a->sagging - a->sagging_dead),
                1.3 * 5.0 / 3.0 * 1.3 / MOVING, 1e-9);
    CHECK_CLOSE(b->sagging_dead / a->sagging_dead, 1.3 / 1.25, 1e-9);
    CHECK_CLOSE(lfr.all.sagging, lrfr.all.sagging, 1e-12);
    unmake(&lrfr);
    unmake(&lfr);
}

/* Bending of strips under the truck by itself, from the envelope of its exact search: both senses of it, with
 * dead load of 1.25 or 0.90 and the truck of 1.80 (MBE 2018 Table 6A.4.4.2.3a, from memory). */
static void from_envelope(made *m, double out[2]) {
    const ss_envelope_options options = {
        .factors = {1.0, 1.0}, .live_factor = 1.0, .extent = SS_EXTENT_AXLES};
    const ss_variant *const v = &m->b.variant;
    ss_envelope envelope;
    ss_error error = {0};
    check_ok("envelope",
             ss_envelope_compute(&v->permanent, &v->placements, v->effects, v->effect_count, &options,
                                 &envelope, &error),
             &error);
    out[0] = out[1] = 0.0;
    for (int e = 0; e < v->effect_count; e++) {
        const ss_effect *const effect = &v->effects[e];
        if (effect->member != SS_MEMBER_BEAM || effect->kind != SS_EFFECT_MOMENT ||
            !(v->bridge.floor_beams[effect->index].strip > 0.0)) {
            continue;
        }
        for (int t = 0; t < envelope.traffic_count; t++) {
            const ss_traffic *const traffic = &v->placements.traffic[t];
            if (traffic->vehicle != 0 || traffic->crossing < 0 ||
                v->bridge.crossings[traffic->crossing].kind != SS_CROSSING_ALONE) {
                continue;
            }
            for (int k = 0; k < 2; k++) {
                const double live =
                    envelope
                        .extremes[((size_t)e * (size_t)envelope.traffic_count + (size_t)t) * 2 + (size_t)k]
                        .value;
                const double dead = envelope.dead[e] * (envelope.dead[e] * live >= 0.0 ? 1.25 : 0.90);
                const double both =
                    (dead + 1.3 * 1.2 * 1.33 * live) / v->bridge.floor_beams[effect->index].strip;
                out[0] = fmax(out[0], -both);
                out[1] = fmax(out[1], both);
            }
        }
    }
    ss_envelope_destroy(&envelope);
}

static void test_global(void) {
    made m;
    double exact[2];
    make("whole", BARS, "", &m);
    from_envelope(&m, exact);
    CU_ASSERT(exact[0] > 1e3 && exact[1] > 1e3);
    for (int k = 0; k < 2; k++) {
        /* Trucks stand at stations and in the middle between them, the envelope's anywhere; of the envelope's
         * wheels over a floor beam, that beam carries some to the lines. */
        CU_ASSERT(m.all.global[k] <= exact[k] * 1.04);
        CU_ASSERT(m.all.global[k] >= exact[k] * 0.98);
    }
    unmake(&m);
}

/* What governs in ratings counts too: strips by their width, ties over the gap by that of a panel. */
static void test_global_of_ratings(void) {
    made m;
    ss_error error = {0};
    make("whole", BARS, "", &m);
    const ss_bridge *const bridge = &m.b.variant.bridge;
    int strip = -1, joint = -1;
    for (int i = 0; i < bridge->floor_beam_count && strip < 0; i++) {
        strip = bridge->floor_beams[i].strip > 0.0 ? i : -1;
    }
    for (int i = 0; i < bridge->joint_count && joint < 0; i++) joint = bridge->joints[i].slab ? i : -1;
    CU_ASSERT_FATAL(strip >= 0 && joint >= 0);
    ss_rating_item items[2] = {{.live = 4e6, .dead = 1e5}, {.live = -9e6, .dead = -5e4}};
    items[0].effect = (ss_effect){.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_BEAM, .index = strip};
    items[1].effect = (ss_effect){.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_JOINT, .index = joint};
    for (int i = 0; i < 2; i++) {
        items[i].factors = (ss_method_factors){.live = 1.3, .presence = 1.2, .allowance = 0.33};
    }
    const ss_ratings ratings = {.items = items, .count = 2, .check_count = 1};
    ss_slab_checks checks = {.arena = &m.arena};
    ss_slab_across all;
    check_ok("across",
             ss_slab_across_compute(&m.b.variant.permanent, &ratings, &m.arena, &checks, &all, &error),
             &error);
    CHECK_CLOSE(all.global[1], (1e5 + 4e6 * 1.3 * 1.2 * 1.33) / bridge->floor_beams[strip].strip, 1e-12);
    CHECK_CLOSE(all.global[0], (5e4 + 9e6 * 1.3 * 1.2 * 1.33) / (24.0 * FOOT / 6.0), 1e-12);
    double most = 0.0;
    for (int i = 0; i < all.count; i++) most = fmax(most, all.strips[i].sagging);
    int sums = 0;
    for (int i = 0; i < checks.count; i++) {
        const ss_requirement *const r = &checks.items[i].requirement;
        if (strcmp(r->name, "local and global bending across, sagging") == 0) {
            sums++;
            CHECK_CLOSE(r->found, most + all.global[1], 1e-12);
            CHECK_CLOSE(r->allowed, all.sagging, 0.0);
        }
    }
    CU_ASSERT_EQUAL(sums, 1);
    unmake(&m);
}

static void test_memory(void) {
    made m;
    make("whole", BARS, "", &m);
    const long live = ss_memory_live();
    for (long n = 0;; n++) {
        ss_arena arena = {0};
        ss_slab_checks checks = {.arena = &arena};
        ss_slab_across all;
        ss_error error = {0};
        ss_memory_fail_from(n);
        const ss_status status =
            ss_slab_across_compute(&m.b.variant.permanent, NULL, &arena, &checks, &all, &error);
        ss_memory_fail_from(-1);
        ss_arena_destroy(&arena);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
        if (status == SS_OK) {
            CU_ASSERT(n > 0);
            break;
        }
        CU_ASSERT_EQUAL_FATAL(status, SS_ERROR_MEMORY);
    }
    unmake(&m);
}

int main(void) {
    static const test_case cases[] = {
        {"spans", test_spans},
        {"continuous", test_continuous},
        {"hinged", test_hinged},
        {"open", test_open},
        {"edge", test_edge},
        {"no bars", test_no_bars},
        {"standard", test_standard},
        {"global", test_global},
        {"global of ratings", test_global_of_ratings},
        {"memory", test_memory},
    };
    return RUN_SUITE("slab across", cases);
}
