/* bounds_cover.c - lines, corners and stars: the parts of a search over a box that need no answer to know
 * where to look. */
#include "studies/bounds_parts.h"

#include "base/numeric.h"
#include "base/random.h"
#include "base/try.h"

/* Points on a line through the middle, its ends included: as many of these as the share of the runs allows.
 */
static const int line_points[] = {7, 5, 3};

/* Shares of the runs that the parts may take. */
#define LINE_SHARE 0.4
#define CORNER_SHARE 0.35
#define FILL_SHARE 0.3

/* All corners up to this many. */
#define CORNERS 64

/* The fill is always the same one. */
#define SEED UINT64_C(20110)

static void put_middle(const ss_runs *runs, double *places) {
    for (int j = 0; j < runs->set->count; j++) {
        places[j] = 0.5;
    }
}

/* ---- lines ---------------------------------------------------------------------------------------- */

static int points_of(const ss_unknown *u, int points) {
    return ss_bounds_listed(u) ? u->text_count : points;
}

static int choose_points(const ss_runs *runs) {
    int chosen = line_points[2];
    for (int k = 2; k >= 0; k--) {
        int sum = 1;
        for (int j = 0; j < runs->set->count; j++) {
            sum += points_of(&runs->set->items[j], line_points[k]) - 1;
        }
        chosen = sum <= LINE_SHARE * runs->most ? line_points[k] : chosen;
    }
    return chosen;
}

/* Run at point k of an unknown's line. */
static int line_run(ss_runs *runs, int unknown, int k, int points) {
    double places[SS_UNKNOWNS] = {0.0};
    put_middle(runs, places);
    places[unknown] = (double)k / (points - 1);
    return ss_runs_add(runs, places);
}

static void read_line(ss_boxed *b, int unknown, int points) {
    ss_bounds_effect *const e = &b->out->effects[unknown];
    const ss_unknown *const u = &b->runs->set->items[unknown];
    double before = SS_NAN;
    bool rises = false;
    bool falls = false;
    bool whole = true;
    e->least = e->most = e->least_at = e->most_at = SS_NAN;
    for (int k = 0; k < points; k++) {
        const double value = ss_runs_value(b->runs, line_run(b->runs, unknown, k, points));
        const double at = ss_unknown_at(u, (double)k / (points - 1));
        e->at_low = k == 0 ? value : e->at_low;
        e->at_high = k == points - 1 ? value : e->at_high;
        if (isnan(value)) {
            whole = false;
            continue;
        }
        if (!(value >= e->least)) {
            e->least = value;
            e->least_at = at;
        }
        if (!(value <= e->most)) {
            e->most = value;
            e->most_at = at;
        }
        /* Rounding is no turn. */
        rises = rises || (value > before && !ss_close(value, before, 1e-9));
        falls = falls || (value < before && !ss_close(value, before, 1e-9));
        before = value;
    }
    e->monotone = whole && !(rises && falls);
    e->swing = e->most > e->least ? e->most - e->least : 0.0;
}

ss_status ss_bounds_lines(ss_boxed *b) {
    ss_runs *const runs = b->runs;
    ss_status status = SS_OK;
    const int points = choose_points(runs);
    double middle[SS_UNKNOWNS] = {0.0};
    put_middle(runs, middle);
    const int first = ss_runs_add(runs, middle);
    for (int j = 0; j < runs->set->count; j++) {
        const int own = points_of(&runs->set->items[j], points);
        /* The ends of every line before what lies between, should the runs not do. */
        for (int k = 0; k < own; k += own - 1) {
            (void)line_run(runs, j, k, own);
        }
    }
    for (int j = 0; j < runs->set->count; j++) {
        const int own = points_of(&runs->set->items[j], points);
        for (int k = 1; k < own - 1; k++) {
            (void)line_run(runs, j, k, own);
        }
    }
    SS_TRY(ss_runs_answer(runs, b->error));
    b->out->lines = runs->count;
    b->out->middle = ss_runs_value(runs, first);
    for (int j = 0; j < runs->set->count; j++) {
        read_line(b, j, points_of(&runs->set->items[j], points));
    }
    /* Whatever was looked at again without runs left is not asked for. */
    runs->pending = 0;
done:
    return status;
}

/* ---- corners -------------------------------------------------------------------------------------- */

/* The number of bits that are one is odd. */
static bool odd(unsigned bits) {
    bool is = false;
    for (; bits != 0; bits >>= 1) {
        is = is != ((bits & 1U) != 0);
    }
    return is;
}

static void add_all_corners(ss_runs *runs) {
    const int n = runs->set->count;
    for (unsigned c = 0; c < 1U << n; c++) {
        double places[SS_UNKNOWNS] = {0.0};
        for (int j = 0; j < n; j++) {
            places[j] = (c >> j & 1U) != 0 ? 1.0 : 0.0;
        }
        (void)ss_runs_add(runs, places);
    }
}

/*
 * Columns 1 to n of a Sylvester-Hadamard matrix, and the matrix mirrored: each unknown is low and high
 * equally often, with either of every other, and no single effect is mixed up with that of a pair.
 */
static void add_fraction(ss_runs *runs, int most) {
    const int n = runs->set->count;
    unsigned rows = 2;
    while (rows <= (unsigned)n) {
        rows *= 2;
    }
    for (unsigned i = 0; i < 2 * rows && (int)i < most; i++) {
        double places[SS_UNKNOWNS] = {0.0};
        for (int j = 0; j < n; j++) {
            places[j] = odd(i % rows & (unsigned)(j + 1)) != (i >= rows) ? 1.0 : 0.0;
        }
        (void)ss_runs_add(runs, places);
    }
}

/* Every unknown where its own line is worst, and where it is best. */
static void add_joined_lines(ss_boxed *b) {
    double worst[SS_UNKNOWNS] = {0.0};
    double best[SS_UNKNOWNS] = {0.0};
    for (int j = 0; j < b->runs->set->count; j++) {
        const ss_bounds_effect *const e = &b->out->effects[j];
        const ss_unknown *const u = &b->runs->set->items[j];
        worst[j] = isnan(e->least) ? 0.5 : ss_unknown_place(u, e->least_at);
        best[j] = isnan(e->most) ? 0.5 : ss_unknown_place(u, e->most_at);
    }
    (void)ss_runs_add(b->runs, worst);
    (void)ss_runs_add(b->runs, best);
}

ss_status ss_bounds_corners(ss_boxed *b) {
    ss_runs *const runs = b->runs;
    const int n = runs->set->count;
    const int before = runs->count;
    const int room = (int)(CORNER_SHARE * runs->most);
    add_joined_lines(b);
    const bool few = n < 7 && 1 << n <= CORNERS;
    b->out->all_corners = few && 1 << n <= (runs->most - before < room ? runs->most - before : room);
    if (b->out->all_corners) {
        add_all_corners(runs);
    } else {
        add_fraction(runs, room);
    }
    const ss_status status = ss_runs_answer(runs, b->error);
    b->out->all_corners = b->out->all_corners && !runs->stopped;
    b->out->corners = runs->count - before;
    return status;
}

/* ---- stars ---------------------------------------------------------------------------------------- */

/* Values one by one are equally likely, those at the ends too. */
static double fill_place(const ss_unknown *u, double p) {
    return ss_bounds_listed(u) ? floor(p * u->text_count) / (u->text_count - 1.0) : p;
}

/* Star `i` of `count`: a point of a Latin hypercube, and for each unknown the same with its value from
 * another one. `arm` -1 is the point itself. */
static int star_run(ss_runs *runs, int count, int i, int arm) {
    const int n = runs->set->count;
    double drawn[2 * SS_UNKNOWNS];
    double places[SS_UNKNOWNS] = {0.0};
    ss_draw(SEED, count, 2 * n, i, drawn);
    for (int j = 0; j < n; j++) {
        places[j] = fill_place(&runs->set->items[j], drawn[j == arm ? n + j : j]);
    }
    return ss_runs_add(runs, places);
}

static void read_total(ss_boxed *b, int unknown, int stars) {
    double sum = 0.0;
    int seen = 0;
    for (int i = 0; i < stars; i++) {
        const double from = ss_runs_value(b->runs, star_run(b->runs, stars, i, -1));
        const double to = ss_runs_value(b->runs, star_run(b->runs, stars, i, unknown));
        if (isfinite(from) && isfinite(to)) {
            sum += fabs(to - from);
            seen++;
        }
    }
    b->out->effects[unknown].total = seen > 0 ? sum / seen : SS_NAN;
}

ss_status ss_bounds_fill(ss_boxed *b) {
    ss_runs *const runs = b->runs;
    const int n = runs->set->count;
    const int before = runs->count;
    const int left = runs->most - before;
    const int stars = (int)(ss_min(FILL_SHARE * runs->most, left) / (n + 1));
    for (int i = 0; i < stars; i++) {
        for (int arm = -1; arm < n; arm++) {
            (void)star_run(runs, stars, i, arm);
        }
    }
    const ss_status status = ss_runs_answer(runs, b->error);
    b->out->fill = runs->count - before;
    for (int j = 0; j < n; j++) {
        read_total(b, j, stars);
    }
    runs->pending = 0;
    return status;
}
