/* test_figure_results.c - figures of what was computed on all example bridges: no text is on another, bars
 * are in proportion, and the sign says what the posting says. */
#include "support/exact_units.h"
#include "unit/report/figure_made.h"

typedef ss_status figure_maker(const ss_results *results, ss_unit_system units, ss_figure *out,
                               ss_error *error);

static const struct {
    const char *name;
    figure_maker *make;
} figures[] = {{"share", ss_figure_share},
               {"rating", ss_figure_rating},
               {"influence", ss_figure_influence},
               {"sign", ss_figure_sign}};

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
            /* In a rating only trucks that some check rates are told of. */
            m.results.rated = k / 2 == 0 ? NULL : &m.rated;
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

/* Names as long as a description may bring them keep off what is drawn. */
static void test_long_names(void) {
    static const char name[] = "the car that came from the yard behind the old mill at the upper ford";
    made m = {.whole = {.bridge = read_bridge(0)}};
    for (int i = 0; i < m.whole.bridge.car_count; i++) {
        m.whole.bridge.cars[i].name = name;
    }
    for (int i = 0; i < m.whole.bridge.line_count; i++) {
        m.whole.bridge.lines[i].whole = name;
    }
    start(&m);
    invent_shares(&m);
    invent_ratings(&m, false, &m.rated);
    invent_ratings(&m, true, &m.along);
    for (int k = 0; k < 2; k++) {
        ss_figure figure;
        ss_error error = {0};
        m.results.rated = k == 0 ? NULL : &m.rated;
        CHECK_OK(figures[k].make(&m.results, SS_UNITS_US, &figure, &error), &error);
        check_no_overlap("long names", &figure);
        ss_figure_destroy(&figure);
    }
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
    {"bars are in proportion", test_share_in_proportion},
    {"the board says what the posting says", test_sign_says},
    {"long names have room", test_long_names},
    {"every allocation fails in turn", test_memory},
};

int main(void) {
    return RUN_SUITE("figures of results", cases);
}
