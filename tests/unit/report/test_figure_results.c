/* test_figure_results.c - figures of what was computed: sharing, rating along the bridge, influence and the
 * sign, against closed forms, and on all example bridges for texts on texts. */
#include "sillspan/influence_grid.h"
#include "sillspan/variant.h"
#include "unit/report/figure_samples.h"
#include "unit/studies/compare_samples.h"

typedef ss_status figure_maker(const ss_results *results, ss_unit_system units, ss_figure *out,
                               ss_error *error);

static const struct {
    const char *name;
    figure_maker *make;
} figures[] = {{"share", ss_figure_share},
               {"rating", ss_figure_rating},
               {"influence", ss_figure_influence},
               {"sign", ss_figure_sign}};

/* 86 ft of 0.5 kip/ft on two-way bearings at 10 and 76 ft; the axle is heavier than EV3, which comes with
 * every rating. */
#define P (112.4 * KIP)
static const char beam[] =
    ONE_BEAM "bridge = { cars = ( { name = \"only\"; car = \"long\"; } );\n"
             "  bearings = ( { name = \"trucks\"; at = \"wheel trucks\"; under = [ \"spine\" ]; pad_width = "
             "\"60 in\"; action = \"two-way\"; } );\n"
             "  roadway = { from = \"1 ft\"; to = \"8 ft\"; }; };\n"
             "rating = { trucks = [ \"axle\" ]; condition = \"good\"; system = 1.0; };\n";

typedef struct made {
    ss_variant whole;
    ss_share_list shares;
    ss_share share;
    ss_ratings rated, along;
    ss_posting posting;
    ss_effect effect;
    ss_results results;
} made;

static void stop(made *m) {
    ss_ratings_destroy(&m->rated);
    ss_ratings_destroy(&m->along);
    ss_arena_destroy(&m->shares.arena);
    ss_variant_destroy(&m->whole);
}

static void start(made *m) {
    ss_error error = {0};
    CHECK_OK(ss_variant_structure(&m->whole, &error), &error);
    CHECK_OK(ss_variant_loads(&m->whole, &error), &error);
    m->results = (ss_results){.command = "draw",
                              .bridge = &m->whole.bridge,
                              .mesh = &m->whole.mesh,
                              .grillage = m->whole.grillage,
                              .permanent = &m->whole.permanent,
                              .placements = &m->whole.placements,
                              .shares = &m->shares,
                              .rated = &m->rated,
                              .rated_along = &m->along,
                              .posting = &m->posting};
}

/* ---- results by hand, so that every bridge has all that a figure may have to show -------------------- */

/* Main girders most, an outer line a little the other way. */
static void invent_shares(made *m) {
    const ss_bridge *const b = &m->whole.bridge;
    const int count = b->car_count;
    m->shares.items = ss_arena_alloc(&m->shares.arena, (size_t)count, sizeof *m->shares.items);
    m->shares.count = count;
    for (int i = 0; i < count; i++) {
        ss_share *const s = &m->shares.items[i];
        double sum = 0.0;
        *s = (ss_share){.traffic = 0, .car = i, .x = 0.4 * b->x1, .total = 1.2e6};
        s->line = ss_arena_alloc(&m->shares.arena, (size_t)b->line_count, sizeof *s->line);
        s->per_car = ss_arena_alloc(&m->shares.arena, (size_t)count, sizeof *s->per_car);
        for (int k = 0; k < b->line_count; k++) {
            s->line[k] = (b->lines[k].role == SS_ROLE_MAIN       ? 8.0
                          : b->lines[k].role == SS_ROLE_STRINGER ? 0.3
                                                                 : 1.0) *
                         (b->lines[k].car == i ? 3.0 : 1.0) * (k == 0 ? -0.2 : 1.0);
            sum += s->line[k];
        }
        for (int k = 0; k < b->line_count; k++) {
            s->line[k] /= sum;
            s->per_car[b->lines[k].car] += s->line[k];
        }
    }
}

/* Factors of all checks under one truck, for every effect that is rated; least at midlength. */
static void invent_ratings(made *m, bool places, ss_ratings *out) {
    const ss_bridge *const b = &m->whole.bridge;
    const ss_variant *const w = &m->whole;
    const int checks = ss_checks(b, out->checks);
    out->check_count = checks;
    out->traffic_count = w->placements.traffic_count;
    out->items = ss_arena_alloc(&out->arena, (size_t)(w->effect_count * checks) + 1, sizeof *out->items);
    for (int c = 0; c < checks; c++) {
        for (int i = 0; i < w->effect_count; i++) {
            const ss_effect *const e = &w->effects[i];
            const bool kind = e->kind == SS_EFFECT_MOMENT || e->kind == SS_EFFECT_WEB_PLUS;
            const bool girder = e->member == SS_MEMBER_LINE && b->lines[e->index].role != SS_ROLE_STRINGER;
            if (!kind || e->member > SS_MEMBER_BEAM || (places && !girder) || (!places && i % 7 != 3)) {
                continue;
            }
            const double away = e->member == SS_MEMBER_LINE ? (e->at - 0.5 * b->x1) / b->x1 : 0.1;
            out->items[out->count++] = (ss_rating_item){.check = c,
                                                        .effect = *e,
                                                        .most = true,
                                                        .rf = 0.55 + 0.05 * e->index + 60.0 * away * away,
                                                        .truck_count = 1};
        }
    }
    CU_ASSERT_EQUAL_FATAL(ss_ratings_govern(b, &w->placements, out), SS_OK);
}

static void invent_posting(made *m) {
    const double ton = 2.0 * KIP;
    const double none = (double)INFINITY;
    m->posting = (ss_posting){
        .method = SS_METHOD_LRFR,
        .level = SS_LEVEL_LEGAL,
        .units = m->whole.bridge.units,
        .lanes_matter = true,
        .free = {.state = SS_POSTING_LIMITED,
                 .rated = {true, true, true},
                 .group_N = {12.0 * ton, 20.0 * ton, 7.0 * ton},
                 .axle_N = 6.0 * ton,
                 .tandem_N = 10.0 * ton,
                 .emergency_N = 15.0 * ton},
        .one = {.state = SS_POSTING_OPEN,
                .rated = {true, true, false},
                .group_N = {none, none, none},
                .axle_N = none,
                .tandem_N = none,
                .emergency_N = none},
        .recommendation = "Post: single-unit trucks 12 tons. The decision is the owner's and the state's."};
}

static void test_no_overlap(void) {
    for (int i = 0; i < ENTRIES(bridges); i++) {
        made m = {.whole = {.bridge = read_bridge(i)}};
        start(&m);
        invent_shares(&m);
        invent_ratings(&m, false, &m.rated);
        invent_ratings(&m, true, &m.along);
        invent_posting(&m);
        for (int k = 0; k < 2 * ENTRIES(figures); k++) {
            char name[80];
            ss_figure figure;
            ss_error error = {0};
            CHECK_OK(figures[k / 2].make(&m.results, k % 2 == 0 ? SS_UNITS_US : SS_UNITS_SI, &figure, &error),
                     &error);
            snprintf(name, sizeof name, "%s, %s", bridges[i].file, figures[k / 2].name);
            CU_ASSERT_STRING_EQUAL(figure.key, figures[k / 2].name);
            CU_ASSERT_TRUE(strlen(figure.title) > 0 && strlen(figure.text) > 0);
            check_no_overlap(name, &figure);
            ss_figure_destroy(&figure);
        }
        stop(&m);
    }
}

/* ---- one beam ---------------------------------------------------------------------------------------- */

static void start_beam(made *m) {
    ss_error error = {0};
    ss_diag_list diags = {0};
    ss_description d = compare_read(beam);
    *m = (made){.posting = {.units = SS_UNITS_US}};
    CHECK_OK(ss_description_set(&d, "trucks.axle.axles", "112.4 kip", &diags), &error);
    CHECK_OK(ss_bridge_resolve(&d, &m->whole.bridge, &diags), &error);
    ss_description_destroy(&d);
    ss_diag_destroy(&diags);
    start(m);
}

/* The effect of the only line at the station that is nearest. */
static ss_effect effect_at(const made *m, double x, bool before, ss_effect_kind kind) {
    ss_effect effect;
    ss_error error = {0};
    double best = 0.0;
    for (int i = 0; i < m->whole.mesh.station_count; i++) {
        const double station = m->whole.mesh.station[i];
        best = fabs(station - x) < fabs(best - x) ? station : best;
    }
    CHECK_OK(ss_mesh_effect(&m->whole.mesh, SS_MEMBER_LINE, 0, best, before, kind, &effect, &error), &error);
    return effect;
}

/* Moment at a of a span L under a unit force at z: z (L - a) / L up to a, a (L - z) / L from there, and
 * beyond the bearings the same straight lines. */
static void test_influence_of_a_beam(void) {
    made m;
    start_beam(&m);
    const double from = 10.0 * FOOT;
    const double span = 66.0 * FOOT;
    ss_influence_grid surface;
    ss_error error = {0};
    const ss_effect moment = effect_at(&m, 43.0 * FOOT, false, SS_EFFECT_MOMENT);
    const double a = moment.at - from;
    CHECK_OK(ss_influence_grid_compute(&m.whole.permanent, &moment, &surface, &error), &error);
    CU_ASSERT_EQUAL(surface.open_count, 0);
    for (int i = 0; i < surface.nx; i++) {
        const double z = surface.x[i] - from;
        const double expected = z <= a ? z * (span - a) / span : a * (span - z) / span;
        for (int j = 0; j < surface.ny; j++) {
            CU_ASSERT_DOUBLE_EQUAL(surface.value[i * surface.ny + j], expected, 1e-9 * span);
        }
    }
    ss_influence_grid_destroy(&surface);
    /* Shear jumps from -z/L to 1 - z/L where the force passes, whichever side is asked for. */
    for (int side = 0; side < 2; side++) {
        const ss_effect shear = effect_at(&m, 43.0 * FOOT, side == 1, SS_EFFECT_SHEAR);
        CHECK_OK(ss_influence_grid_compute(&m.whole.permanent, &shear, &surface, &error), &error);
        int there = 0;
        for (int i = 0; i < surface.nx; i++) {
            const bool beyond =
                surface.x[i] > shear.at + 1e-9 || (fabs(surface.x[i] - shear.at) < 1e-9 && there++ == 1);
            const double z = surface.x[i] - from;
            CU_ASSERT_DOUBLE_EQUAL(surface.value[i * surface.ny], beyond ? 1.0 - z / span : -z / span, 1e-9);
        }
        CU_ASSERT_EQUAL(there, 2);
        ss_influence_grid_destroy(&surface);
    }
    stop(&m);
}

/* Lines of equal values are straight across, heavy where the bearings are, dashed beyond them. */
static void test_influence_drawn(void) {
    made m;
    start_beam(&m);
    ss_figure figure;
    ss_error error = {0};
    m.effect = effect_at(&m, 43.0 * FOOT, false, SS_EFFECT_MOMENT);
    m.results.influence = &m.effect;
    CHECK_OK(ss_figure_influence(&m.results, SS_UNITS_US, &figure, &error), &error);
    double low = 0.0;
    double mm = 0.0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        if (mark->role == SS_FIGURE_OUTLINE && mark->kind == SS_MARK_POLYGON) {
            low = mark->points[0].x;
            mm = (mark->points[2].x - low) / 86.0;
        }
    }
    int zeros = 0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        for (int k = 0; k < mark->count && mark->kind == SS_MARK_LINE; k++) {
            const double x = (mark->points[k].x - low) / mm;
            if (mark->role == SS_FIGURE_CONTOUR_ZERO) {
                CU_ASSERT_TRUE(fabs(x - 10.0) < 1e-6 || fabs(x - 76.0) < 1e-6);
                zeros++;
            } else if (mark->role == SS_FIGURE_CONTOUR_BELOW) {
                CU_ASSERT_TRUE(x < 10.0 || x > 76.0);
            } else if (mark->role == SS_FIGURE_CONTOUR) {
                CU_ASSERT_TRUE(x > 10.0 && x < 76.0);
            }
        }
    }
    CU_ASSERT_TRUE(zeros >= 4);
    CU_ASSERT_TRUE(marks_of(&figure, SS_FIGURE_CONTOUR, SS_MARK_LINE) > 0);
    CU_ASSERT_TRUE(marks_of(&figure, SS_FIGURE_CONTOUR_BELOW, SS_MARK_LINE) > 0);
    CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_PLACE, SS_MARK_LINE), 2);
    check_no_overlap("influence of one beam", &figure);
    ss_figure_destroy(&figure);
    stop(&m);
}

static void rate_beam(made *m, int *traffics) {
    ss_error error = {0};
    ss_variant *const w = &m->whole;
    CHECK_OK(ss_ratings_compute(&w->permanent, &w->placements, w->effects, w->effect_count, NULL, NULL,
                                &m->rated, &error),
             &error);
    const int governs = m->rated.items[m->rated.controlling].traffic;
    for (int i = 0; i < w->effect_count; i++) {
        traffics[i] = governs;
    }
    CHECK_OK(ss_ratings_along(&w->permanent, &w->placements, w->effects, traffics, w->effect_count, &m->along,
                              &error),
             &error);
}

/* Under one axle the live moment at a is P a (L - a) / L between the bearings, and the least factor of all
 * places is the one that a rating tells. */
static void test_rating_of_a_beam(void) {
    made m;
    start_beam(&m);
    int *const traffics = ss_alloc((size_t)m.whole.effect_count, sizeof *traffics);
    double least = (double)INFINITY;
    int places = 0;
    const double span = 66.0 * FOOT;
    rate_beam(&m, traffics);
    const ss_rating_item *const governs = &m.rated.items[m.rated.controlling];
    for (int i = 0; i < m.along.count; i++) {
        const ss_rating_item *const item = &m.along.items[i];
        CU_ASSERT_EQUAL(item->traffic, governs->traffic);
        if (item->check != governs->check) {
            continue;
        }
        least = fmin(least, item->rf);
        const double a = item->effect.at - 10.0 * FOOT;
        /* Near the bearings an axle on the overhang may be worse. */
        if (item->effect.kind == SS_EFFECT_MOMENT && item->most && a > 0.0 && a < span) {
            CHECK_CLOSE(item->live, P * a * (span - a) / span, 1e-6);
            CHECK_CLOSE(item->rf * item->live * item->factors.live * item->factors.presence *
                            (1.0 + item->factors.allowance),
                        item->capacity - item->dead, 1e-6);
            places++;
        }
    }
    CU_ASSERT_TRUE(places > 20);
    CHECK_CLOSE(least, governs->rf, 1e-9);
    ss_free(traffics);
    stop(&m);
}

/* On the log scale between 1 and 10 the heavy line's lowest point is as far up as its factor says. */
static void test_rating_drawn(void) {
    made m;
    start_beam(&m);
    int *const traffics = ss_alloc((size_t)m.whole.effect_count, sizeof *traffics);
    ss_figure figure;
    ss_error error = {0};
    rate_beam(&m, traffics);
    CHECK_OK(ss_figure_rating(&m.results, SS_UNITS_US, &figure, &error), &error);
    double one = (double)NAN;
    double top = (double)INFINITY;
    double lowest = 0.0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        one = mark->role == SS_FIGURE_LIMIT_HEAVY ? mark->points[0].y : one;
        for (int k = 0; k < mark->count && mark->role == SS_FIGURE_CURVE_1; k++) {
            lowest = fmax(lowest, mark->points[k].y);
            top = fmin(top, mark->points[k].y);
        }
    }
    double bending = (double)INFINITY;
    for (int i = 0; i < m.along.count; i++) {
        const ss_rating_item *const item = &m.along.items[i];
        bending = item->effect.kind == SS_EFFECT_MOMENT ? fmin(bending, item->rf) : bending;
    }
    /* The curve leaves the panel at 10. */
    CHECK_CLOSE((one - lowest) / (one - top), log10(bending), 1e-9);
    check_no_overlap("rating of one beam", &figure);
    ss_figure_destroy(&figure);
    ss_free(traffics);
    stop(&m);
}

/* ---- the others -------------------------------------------------------------------------------------- */

/* Parts of a bar are as long as the parts of the moment; what is bent the other way is left of zero. */
static void test_share_in_proportion(void) {
    made m = {.whole = {.bridge = read_bridge(0)}};
    start(&m);
    invent_shares(&m);
    m.results.rated = NULL;
    ss_figure figure;
    ss_error error = {0};
    CHECK_OK(ss_figure_share(&m.results, SS_UNITS_US, &figure, &error), &error);
    double zero = 0.0;
    double hundred = 0.0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        if (mark->kind == SS_MARK_TEXT && mark->anchor == 0 && strcmp(mark->text, "0") == 0) {
            zero = mark->points[0].x;
        } else if (mark->kind == SS_MARK_TEXT && mark->anchor == 0 && strcmp(mark->text, "100") == 0) {
            hundred = mark->points[0].x;
        }
    }
    int seen = 0;
    double left = 0.0;
    for (int i = 0; i < figure.count; i++) {
        const ss_mark *const mark = &figure.marks[i];
        if (mark->role == SS_FIGURE_BAR_MAIN) {
            const double width = (mark->points[2].x - mark->points[0].x) / (hundred - zero);
            /* The first bar is worst for the first car; its main girder comes first. */
            const ss_share *const share = &m.shares.items[seen / 2];
            double expected = (double)NAN;
            int main = 0;
            for (int k = 0; k < m.whole.bridge.line_count; k++) {
                if (m.whole.bridge.lines[k].role == SS_ROLE_MAIN && main++ == seen % 2) {
                    expected = share->line[k];
                }
            }
            CHECK_CLOSE(fabs(width), expected, 1e-6);
            seen++;
        }
        if (mark->role == SS_FIGURE_BAR_EDGE) {
            left = fmin(left, fmin(mark->points[0].x, mark->points[2].x) - zero);
        }
    }
    CU_ASSERT_EQUAL(seen, 4);
    CHECK_CLOSE(left / (hundred - zero), fmin(m.shares.items[0].line[0], m.shares.items[1].line[0]), 1e-6);
    ss_figure_destroy(&figure);
    stop(&m);
}

static ss_figure draw_sign(made *m, ss_posting_state state) {
    ss_figure figure;
    ss_error error = {0};
    m->posting.lanes_matter = false;
    m->posting.free.state = state;
    CHECK_OK(ss_figure_sign(&m->results, SS_UNITS_US, &figure, &error), &error);
    return figure;
}

/* What the board says is what the posting says; where there is no limit there is no board. */
static void test_sign_says(void) {
    made m = {.whole = {.bridge = read_bridge(0)}};
    start(&m);
    invent_posting(&m);
    ss_figure figure = draw_sign(&m, SS_POSTING_LIMITED);
    CU_ASSERT_EQUAL(texts_like(&figure, "single-unit trucks") + texts_like(&figure, "12 tons"), 2);
    CU_ASSERT_EQUAL(texts_like(&figure, "combinations") + texts_like(&figure, "20 tons"), 2);
    CU_ASSERT_EQUAL(texts_like(&figure, "tandem axle") + texts_like(&figure, "10 tons"), 2);
    CU_ASSERT_EQUAL(texts_like(&figure, "gross") + texts_like(&figure, "15 tons"), 2);
    CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_BOARD, SS_MARK_POLYGON), 1);
    ss_figure_destroy(&figure);
    figure = draw_sign(&m, SS_POSTING_CLOSED);
    CU_ASSERT_EQUAL(texts_like(&figure, "bridge closed"), 1);
    CU_ASSERT_EQUAL(texts_like(&figure, "12 tons"), 0);
    ss_figure_destroy(&figure);
    figure = draw_sign(&m, SS_POSTING_OPEN);
    CU_ASSERT_EQUAL(texts_like(&figure, "no posting is called for"), 1);
    CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_BOARD, SS_MARK_POLYGON), 0);
    ss_figure_destroy(&figure);
    /* At 10 mph: then there is something to be said after all. */
    m.whole.bridge.rating.speed = 10.0 * 1609.344 / 3600.0;
    figure = draw_sign(&m, SS_POSTING_OPEN);
    CU_ASSERT_EQUAL(texts_like(&figure, "10 mph") + texts_like(&figure, "no load limit"), 2);
    CU_ASSERT_EQUAL(marks_of(&figure, SS_FIGURE_BOARD, SS_MARK_POLYGON), 1);
    ss_figure_destroy(&figure);
    m.results.posting = NULL;
    CU_ASSERT_EQUAL(ss_figure_sign(&m.results, SS_UNITS_US, &figure, NULL), SS_OK);
    CU_ASSERT_EQUAL(texts_like(&figure, "Nothing was rated that a bridge can be posted by."), 1);
    ss_figure_destroy(&figure);
    stop(&m);
}

static void test_memory(void) {
    made m = {.whole = {.bridge = read_bridge(0)}};
    start(&m);
    invent_shares(&m);
    invent_ratings(&m, false, &m.rated);
    invent_ratings(&m, true, &m.along);
    invent_posting(&m);
    const long live = ss_memory_live();
    for (int k = 0; k < ENTRIES(figures); k++) {
        ss_status status = SS_ERROR_MEMORY;
        for (int n = 0; status != SS_OK && n < 2000; n++) {
            ss_figure figure;
            ss_memory_fail_from(n);
            status = figures[k].make(&m.results, SS_UNITS_US, &figure, NULL);
            ss_memory_fail_from(-1);
            CU_ASSERT_TRUE(status == SS_OK || (status == SS_ERROR_MEMORY && figure.count == 0));
            ss_figure_destroy(&figure);
            CU_ASSERT_EQUAL(ss_memory_live(), live);
        }
        CU_ASSERT_EQUAL(status, SS_OK);
    }
    stop(&m);
}

static const test_case cases[] = {
    {"no text lies on another or off the page", test_no_overlap},
    {"the influence surface of a beam is its influence line", test_influence_of_a_beam},
    {"its zero is drawn at the bearings", test_influence_drawn},
    {"factors place by place of a beam", test_rating_of_a_beam},
    {"a factor is drawn where the scale has it", test_rating_drawn},
    {"bars are in proportion", test_share_in_proportion},
    {"the board says what the posting says", test_sign_says},
    {"every allocation fails in turn", test_memory},
};

int main(void) {
    return RUN_SUITE("figures of results", cases);
}
