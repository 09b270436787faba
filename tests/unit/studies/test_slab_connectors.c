/* test_slab_connectors.c - connectors of a line: sections that matter, forces, ranges against influence
 * lines, counts by hand. */
#include "sillspan/slab_connectors.h"

#include "sillspan/composite.h"
#include "slab_samples.h"

/* The fatigue truck of AASHTO LRFD 3.6.1.4.1 (from memory): 8, 32 and 32 kip, 14 and 30 ft apart. */
static const double axle[3] = {8.0, 32.0, 32.0};
static const double behind[3] = {0.0, 14.0, 44.0};

/* Allowance and factor of Fatigue I since 2017 (LRFD Tables 3.6.2.1-1 and 3.4.1-1, from memory). */
#define FACTORED (1.15 * 1.75)

/* phi Qn of a stud of 3/4 in, which its own strength limits (LRFD 6.10.10.4.3, from memory). */
#define STUD (0.85 * 60.0 * 0.25 * 3.14159265358979324 * 0.5625)

typedef struct made {
    slab_bridge b;
    ss_arena arena;
    ss_slab_checks checks;
    ss_slab_connectors all;
} made;

static void make(const char *text, made *m) {
    ss_error error = {0};
    *m = (made){0};
    slab_start(text, &m->b);
    m->checks.arena = &m->arena;
    check_ok("connectors",
             ss_slab_connectors_compute(&m->b.variant.permanent, &m->arena, &m->checks, &m->all, &error),
             &error);
    CU_ASSERT_EQUAL_FATAL(m->all.count, 1);
    CU_ASSERT_PTR_NULL_FATAL(m->all.lines[0].plan.why);
}

static void unmake(made *m) {
    ss_arena_destroy(&m->arena);
    slab_finish(&m->b);
}

/* ---- influence lines ---------------------------------------------------------------------------------- */

/* Shear (unit) just after x of one span L under a unit load at a. */
static double simple_shear(double L, double x, double a) {
    return a <= 0.0 || a >= L ? 0.0 : a <= x ? -a / L : 1.0 - a / L;
}

/* Reaction moment over the middle of two spans L. */
static double middle_moment(double L, double a) {
    const double from = a <= L ? a : 2.0 * L - a;
    return a <= 0.0 || a >= 2.0 * L ? 0.0 : -from * (L * L - from * from) / (4.0 * L * L);
}

static double two_shear(double L, double x, double a) {
    return simple_shear(L, x, a) + middle_moment(L, a) / L;
}

static double two_moment(double L, double x, double a) {
    const double simple = a <= 0.0 || a >= L ? 0.0 : a < x ? a * (L - x) / L : x * (L - a) / L;
    return simple + middle_moment(L, a) * x / L;
}

/* Most moment (kip ft) at x of the first of two spans of 40 ft under the HS20-44 truck, 14 ft between axles.
 */
static double largest_moment(double x) {
    double most = 0.0;
    for (int back = 0; back < 2; back++) {
        for (int i = 0; i <= 10800; i++) {
            double value = 0.0;
            for (int k = 0; k < 3; k++) {
                const double at = 0.01 * i - 14.0 * k;
                value += axle[k] * two_moment(40.0, x, back == 1 ? 80.0 - at : at);
            }
            most = fmax(most, value);
        }
    }
    return most;
}

/* Largest range (kip, kip ft) of one passage in either direction; `most` the largest value. Steps of a
 * hundredth of a foot, half a step off the section. */
static double range_of(double (*line)(double, double, double), double L, double all, double x, double *most) {
    double range = 0.0;
    *most = 0.0;
    for (int back = 0; back < 2; back++) {
        double least = 0.0, top = 0.0;
        for (int i = 0; i <= (int)lround((all + 44.0) * 1000.0); i++) {
            double value = 0.0;
            for (int k = 0; k < 3; k++) {
                const double at = 0.001 * i + 1e-7 - behind[k];
                value += axle[k] * line(L, x, back == 1 ? all - at : at);
            }
            least = fmin(least, value);
            top = fmax(top, value);
        }
        range = fmax(range, top - least);
        *most = fmax(*most, top);
    }
    return range;
}

/* ---- one span ----------------------------------------------------------------------------------------- */

/* min(0.85 4 108 6, 40 36) = 1440 kip either side of midspan; of 22.53 kip each 63.9, 64 studs. */
static void test_simple_span(void) {
    const long live = ss_memory_live();
    made m;
    make(SLAB_LINE("60", "0, 60", "", "", SLAB_STUDS), &m);
    const ss_connector_line *const line = &m.all.lines[0];
    CU_ASSERT_EQUAL_FATAL(line->demand.segment_count, 2);
    for (int i = 0; i < 2; i++) {
        const ss_connector_segment *const s = &line->demand.segments[i];
        CHECK_CLOSE(s->x0, i * 30.0 * FOOT, 1e-9);
        CHECK_CLOSE(s->x1, (i + 1) * 30.0 * FOOT, 1e-9);
        CHECK_CLOSE(s->force, 1440.0 * KIP, 1e-9);
        CU_ASSERT_EQUAL(line->runs[i].needed, 64);
        CU_ASSERT_EQUAL((int)ceil(1440.0 / STUD), 64);
        CHECK_CLOSE(line->runs[i].by_strength, 30.0 * FOOT * 2.0 / 64.0, 1e-9);
    }
    CU_ASSERT_EQUAL(line->parts[0].from, SS_CONNECTOR_END_FREE);
    CU_ASSERT_EQUAL(line->parts[0].to, SS_CONNECTOR_END_SAGGING);
    CU_ASSERT_EQUAL(line->parts[1].to, SS_CONNECTOR_END_FREE);
    CU_ASSERT_EQUAL(m.all.total, line->plan.count);
    CU_ASSERT_EQUAL(m.all.rows, line->runs[0].rows + line->runs[1].rows);
    CU_ASSERT_EQUAL(m.all.total, 2 * m.all.rows);
    unmake(&m);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

/* With the rear axle at the end, 32 + 32/2 + 8 16/60 = 50.133 kip; no traffic is known, so for ever: 5.5 d2
 * of each stud (LRFD 6.10.10.2, from memory). */
static void test_range(void) {
    made m;
    double most;
    make(SLAB_LINE("60", "0, 60", "", "", SLAB_STUDS), &m);
    const ss_connector_line *const line = &m.all.lines[0];
    const ss_connector_part *const part = &line->parts[0];
    CHECK_CLOSE(part->at, 0.0, 0.0);
    CHECK_CLOSE(part->range, FACTORED * (32.0 + 16.0 + 8.0 * 16.0 / 60.0) * KIP, 1e-6);
    CHECK_CLOSE(part->range, FACTORED * range_of(simple_shear, 60.0, 60.0, 0.0, &most) * KIP, 1e-4);
    ss_section_properties steel;
    ss_slab_flange flange;
    ss_composite_properties both;
    const ss_bridge *const bridge = &m.b.variant.bridge;
    CU_ASSERT_EQUAL(ss_bridge_line_section(bridge, 0, 1.0, false, &steel), SS_OK);
    CU_ASSERT_FATAL(ss_slab_flange_at(bridge, 0, 1.0, false, ss_slab_finished(&bridge->slab), &flange));
    CU_ASSERT_EQUAL(ss_composite_at(&steel, &flange, false, &both, NULL), SS_OK);
    CHECK_CLOSE(part->Q, both.Q, 1e-12);
    CHECK_CLOSE(line->runs[0].by_fatigue, 2.0 * 5.5 * 0.5625 * KIP * both.I / (part->range * both.Q), 1e-9);
    CU_ASSERT(line->infinite && isnan(m.all.adtt));
    /* All stretches, each by the worse of its ends. */
    for (int i = 0; i < line->demand.stretch_count; i++) {
        const ss_connector_stretch *const s = &line->demand.stretches[i];
        const double a = range_of(simple_shear, 60.0, 60.0, s->x0 / FOOT, &most);
        const double b = range_of(simple_shear, 60.0, 60.0, s->x1 / FOOT, &most);
        CHECK_CLOSE(s->range, FACTORED * fmax(a, b) * KIP, 1e-3);
    }
    unmake(&m);
}

/* 20 a day in one direction, 40 in the one lane: 75 years of one cycle each, 1.095 million (a span of more
 * than 40 ft): (34.5 - 4.28 log N) d2, load factor 0.80. */
static void test_traffic(void) {
    made m;
    make(SLAB_LINE("60", "0, 60", "", "adtt = 20;", SLAB_STUDS), &m);
    const ss_connector_line *const line = &m.all.lines[0];
    const double cycles = 40.0 * 365.0 * 75.0;
    CHECK_CLOSE(m.all.adtt, 40.0, 0.0);
    CU_ASSERT(m.all.derived && !line->infinite);
    CHECK_CLOSE(line->demand.cycles, cycles, 1e-12);
    CHECK_CLOSE(line->factor, 0.80, 0.0);
    CHECK_CLOSE(line->plan.Zr, (34.5 - 4.28 * log10(cycles)) * 0.5625 * KIP, 1e-9);
    CHECK_CLOSE(line->parts[0].range, 1.15 * 0.80 * (48.0 + 128.0 / 60.0) * KIP, 1e-6);
    unmake(&m);
}

/* ---- supports -------------------------------------------------------------------------------------------
 */

/* Two spans of 40 ft: over the middle 0.45 4 108 6 = 1166.4 kip more. */
static void test_two_spans(void) {
    made m;
    double most, best = 0.0, where = 0.0;
    double moment[10];
    make(SLAB_LINE("80", "0, 40, 80", "", "", SLAB_STUDS), &m);
    const ss_connector_line *const line = &m.all.lines[0];
    CU_ASSERT_EQUAL_FATAL(line->demand.segment_count, 4);
    for (int i = 1; i < 10; i++) {
        moment[i] = largest_moment(4.0 * i);
        best = fmax(best, moment[i]);
    }
    /* Of tenths within 5 % of the largest the one next to the middle. */
    for (int i = 1; i < 10; i++) {
        const bool nearer = fabs(4.0 * i - 20.0) < fabs(where - 20.0);
        where = moment[i] >= 0.95 * best && nearer ? 4.0 * i : where;
    }
    const double at[5] = {0.0, where, 40.0, 80.0 - where, 80.0};
    const double force[4] = {1440.0, 2606.4, 2606.4, 1440.0};
    for (int i = 0; i < 4; i++) {
        CHECK_CLOSE(line->demand.segments[i].x0, at[i] * FOOT, 1e-9);
        CHECK_CLOSE(line->demand.segments[i].x1, at[i + 1] * FOOT, 1e-9);
        CHECK_CLOSE(line->demand.segments[i].force, force[i] * KIP, 1e-9);
        CU_ASSERT_EQUAL(line->runs[i].needed, 2 * (int)ceil(force[i] / STUD / 2.0));
    }
    CU_ASSERT_EQUAL(line->parts[1].to, SS_CONNECTOR_END_SUPPORT);
    CHECK_CLOSE(line->parts[0].range, FACTORED * range_of(two_shear, 40.0, 80.0, 0.0, &most) * KIP, 1e-3);
    CHECK_CLOSE(line->parts[1].range, FACTORED * range_of(two_shear, 40.0, 80.0, 39.999999, &most) * KIP,
                2e-3);
    unmake(&m);
}

/* A short overhang has five cycles a truck, the span of 40 ft two (LRFD Table 6.6.1.2.5-2, from memory): each
 * by its own, 20 trucks a day each way. */
static void test_cycles(void) {
    made m;
    make(SLAB_LINE("60", "10, 50", "", "adtt = 20;", SLAB_STUDS), &m);
    const ss_connector_line *const line = &m.all.lines[0];
    int over = 0, within = 0;
    for (int i = 0; i < line->demand.stretch_count; i++) {
        const ss_connector_stretch *const s = &line->demand.stretches[i];
        const bool overhang = s->x1 <= 10.0 * FOOT + 1e-6 || s->x0 >= 50.0 * FOOT - 1e-6;
        CHECK_CLOSE(s->cycles, 40.0 * 365.0 * 75.0 * (overhang ? 5.0 : 2.0), 1e-12);
        over += overhang ? 1 : 0;
        within += overhang ? 0 : 1;
    }
    CU_ASSERT(over >= 2 && within >= 4);
    const double Zr = (34.5 - 4.28 * log10(40.0 * 365.0 * 75.0 * 5.0)) * 0.5625 * KIP;
    const ss_connector_part *const part = &line->parts[0];
    CHECK_CLOSE(line->runs[0].by_fatigue, 2.0 * Zr * part->I / (part->range * part->Q), 1e-9);
    unmake(&m);
}

/* M Q/I of an axle of 32 kip at the end of 10 ft, with the factors of Strength I and of one lane (LRFD, from
 * memory), kip: no more than that is pulled where an overhang begins. */
static double overhang_pull(const ss_bridge *bridge) {
    ss_section_properties steel;
    ss_slab_flange flange;
    ss_composite_properties both;
    CU_ASSERT_EQUAL(ss_bridge_line_section(bridge, 0, 1.0, false, &steel), SS_OK);
    CU_ASSERT_FATAL(ss_slab_flange_at(bridge, 0, 1.0, false, ss_slab_finished(&bridge->slab), &flange));
    CU_ASSERT_EQUAL(ss_composite_at(&steel, &flange, false, &both, NULL), SS_OK);
    return 1.75 * 1.33 * 1.20 * 320.0 * FOOT * both.Q / both.I;
}

/* Beyond the outermost bearings the slab pulls alone; shims that carry nothing change no section, and the
 * larger range of both states counts: with the shims holding, as a beam of three spans the truck between the
 * bearings shears the overhangs, without them one that stands there. */
static void test_overhangs(void) {
    made bare, shims;
    make(SLAB_LINE("60", "10, 50", "", "", SLAB_STUDS), &bare);
    make(SLAB_LINE("60", "10, 50",
                   ", { name = \"shims\"; x = \"0, 60 ft\"; under = [ \"spine\" ]; placed = \"after dead "
                   "load\"; pad_width = \"30 in\"; }",
                   "", SLAB_STUDS),
         &shims);
    const ss_connector_line *const a = &bare.all.lines[0];
    const ss_connector_line *const b = &shims.all.lines[0];
    static const double at[5] = {0.0, 10.0, 30.0, 50.0, 60.0};
    const double pull = overhang_pull(&bare.b.variant.bridge);
    CU_ASSERT(pull > 100.0 && pull < 0.45 * 4.0 * 108.0 * 6.0);
    const double force[4] = {pull, 1440.0 + pull, 1440.0 + pull, pull};
    CU_ASSERT_EQUAL_FATAL(a->demand.segment_count, 4);
    CU_ASSERT_EQUAL_FATAL(b->demand.segment_count, 4);
    for (int i = 0; i < 4; i++) {
        CHECK_CLOSE(a->demand.segments[i].x1, at[i + 1] * FOOT, 1e-9);
        CHECK_CLOSE(a->demand.segments[i].force, force[i] * KIP, 1e-6);
        CHECK_CLOSE(b->demand.segments[i].x1, at[i + 1] * FOOT, 1e-9);
        CHECK_CLOSE(b->demand.segments[i].force, force[i] * KIP, 1e-6);
        CU_ASSERT(b->parts[i].range >= a->parts[i].range * (1.0 - 1e-9));
    }
    /* On 10 ft of overhang the heaviest that fits is one axle of 32 kip: V = -32, and never above 0. */
    CHECK_CLOSE(a->parts[0].range, FACTORED * 32.0 * KIP, 1e-6);
    unmake(&bare);
    unmake(&shims);
}

/* ---- checks ---------------------------------------------------------------------------------------------
 */

/* A given pitch of 12 in: 30 rows in 30 ft, 60 studs of 64. */
static void test_given_pitch(void) {
    made m;
    make(SLAB_LINE("60", "0, 60", "", "",
                   "connectors = { diameter = \"3/4 in\"; height = \"4 in\"; per_row = 2; across = \"4 in\"; "
                   "pitch = \"12 in\"; };"),
         &m);
    const ss_connector_line *const line = &m.all.lines[0];
    CU_ASSERT_EQUAL(m.all.total, 120);
    CU_ASSERT(!line->plan.fits && m.all.worst == 0);
    CHECK_CLOSE(line->plan.degree, 60.0 * STUD / 1440.0, 1e-9);
    int strength = 0, missed = 0, unknown = 0;
    for (int i = 0; i < m.checks.count; i++) {
        const ss_slab_check *const c = &m.checks.items[i];
        CU_ASSERT_EQUAL(c->part, SS_SLAB_PART_CONNECTORS);
        CU_ASSERT_PTR_NOT_NULL(c->where);
        if (strcmp(c->requirement.name, "connectors in the segment, for strength") == 0) {
            strength++;
            CHECK_CLOSE(c->requirement.found, 60.0, 0.0);
            CHECK_CLOSE(c->requirement.allowed, 64.0, 0.0);
            CU_ASSERT(ss_requirement_missed(&c->requirement));
        }
        missed += ss_requirement_missed(&c->requirement) ? 1 : 0;
        unknown += c->requirement.why != NULL ? 1 : 0;
    }
    CU_ASSERT_EQUAL(strength, 2);
    CU_ASSERT(missed >= 2);
    /* Nothing is known of the plates of a given section. */
    CU_ASSERT(unknown >= 1);
    ss_working working = {.count = 0};
    ss_slab_connectors_work(line, &working);
    CU_ASSERT(working.count > 8 && working.count < SS_WORKING_MOST);
    unmake(&m);
}

/* 24 in: 15 rows, 30 studs of 64 tie 0.469 of the force; partial action asks for a quarter, 16 studs. */
static void test_partial(void) {
    made m;
    make(SLAB_LINE("60", "0, 60", "", "",
                   "connectors = { diameter = \"3/4 in\"; height = \"4 in\"; per_row = 2; across = \"4 in\"; "
                   "pitch = \"24 in\"; partial = true; };"),
         &m);
    const ss_connector_line *const line = &m.all.lines[0];
    CHECK_CLOSE(line->demand.degree, 0.25, 0.0);
    CHECK_CLOSE(line->plan.degree, 30.0 * STUD / 1440.0, 1e-9);
    CU_ASSERT_EQUAL(line->runs[0].needed, 16);
    for (int i = 0; i < m.checks.count; i++) {
        const ss_requirement *const r = &m.checks.items[i].requirement;
        CU_ASSERT(strcmp(r->name, "connectors in the segment, for strength") != 0 ||
                  (!ss_requirement_missed(r) && strstr(r->source, "building steel") != NULL));
    }
    unmake(&m);
}

/* Without a pitch there is nothing that could be tied in part, which a warning says. */
static void test_partial_alone(void) {
    static const char text[] = SLAB_LINE("60", "0, 60", "", "",
                                         "connectors = { diameter = \"3/4 in\"; height = \"4 in\"; per_row = "
                                         "2; across = \"4 in\"; partial = true; };");
    ss_description description = {0};
    ss_bridge bridge = {0};
    ss_diag_list diags = {0};
    ss_error error = {0};
    CU_ASSERT_EQUAL_FATAL(
        ss_description_read_text("test.cfg", text, strlen(text), &description, &diags, &error), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_description_check(&description, &diags), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&description, &bridge, &diags), SS_OK);
    int warned = 0;
    for (int i = 0; i < diags.count; i++) {
        warned += strcmp(diags.items[i].path, "slab.connectors.partial") == 0 ? 1 : 0;
    }
    CU_ASSERT_EQUAL(warned, 1);
    ss_diag_destroy(&diags);
    ss_bridge_destroy(&bridge);
    ss_description_destroy(&description);
    made m;
    make(text, &m);
    CHECK_CLOSE(m.all.lines[0].demand.degree, 1.0, 0.0);
    unmake(&m);
}

/* A roadway too narrow for the truck: forces without ranges, and it says so. */
static void test_no_room(void) {
    static const char text[] = SLAB_LINE("60", "0, 60", "", "", SLAB_STUDS);
    char narrow[sizeof text];
    strcpy(narrow, text);
    char *const at = strstr(narrow, "to = \"8 ft\"");
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    at[6] = '5';
    made m;
    make(narrow, &m);
    CU_ASSERT_PTR_NOT_NULL(m.all.failure);
    CU_ASSERT_EQUAL(m.all.lines[0].demand.stretch_count, 0);
    CHECK_CLOSE(m.all.lines[0].demand.segments[0].force, 1440.0 * KIP, 1e-9);
    unmake(&m);
}

/* Each allocation fails in turn. */
static void test_no_memory(void) {
    slab_bridge b;
    slab_start(SLAB_LINE("60", "10, 50", "", "", SLAB_STUDS), &b);
    const long live = ss_memory_live();
    for (long n = 0;; n++) {
        ss_arena arena = {0};
        ss_slab_checks checks = {.arena = &arena};
        ss_slab_connectors all;
        ss_error error = {0};
        ss_memory_fail_from(n);
        const ss_status status =
            ss_slab_connectors_compute(&b.variant.permanent, &arena, &checks, &all, &error);
        ss_memory_fail_from(-1);
        ss_arena_destroy(&arena);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
        if (status == SS_OK) {
            CU_ASSERT(n > 5);
            break;
        }
        CU_ASSERT_EQUAL_FATAL(status, SS_ERROR_MEMORY);
    }
    slab_finish(&b);
}

int main(void) {
    static const test_case cases[] = {
        {"simple span", test_simple_span},
        {"range of shear", test_range},
        {"traffic", test_traffic},
        {"two spans", test_two_spans},
        {"overhangs", test_overhangs},
        {"cycles", test_cycles},
        {"given pitch", test_given_pitch},
        {"partial action", test_partial},
        {"partial action without a pitch", test_partial_alone},
        {"no room", test_no_room},
        {"no memory", test_no_memory},
    };
    return RUN_SUITE("connectors of a slab", cases);
}
