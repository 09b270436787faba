/* figure_sign.c - a sketch of the sign that a posting recommends, in plain words on a white board. */
#include <math.h>
#include <string.h>

#include "assess/posting_parts.h"
#include "report/figure_parts.h"
#include "report/report_words.h"

/* mm: boards, from one to the other, letters at most and at least, posts and the ground that they stand in.
 */
#define ALONE 118.0
#define PAIRED 82.0
#define BETWEEN 6.0
#define INSET 5.0
#define LARGE 5.2
#define SMALL 2.4
#define POST 11.0
#define GROUND 1.6

enum { ROWS = 24 };

/* Words at the left and at the right; a rule above those that begin a group. */
typedef struct row {
    const char *what, *limit;
    bool begins;
} row;

typedef struct board {
    row rows[ROWS];
    int count;
    bool dashed; /* there is no sign */
    const char *heading;
    const char *below; /* when it stands; NULL: nothing is said */
} board;

typedef struct sign {
    ss_sketch sketch;
    const ss_posting *posting;
} sign;

static void add(board *to, const char *what, const char *limit, bool begins) {
    if (to->count < ROWS) {
        to->rows[to->count++] = (row){what, limit, begins};
    }
}

/* A sign is rounded in the units of the description, and stays in them. */
static const char *weight(sign *s, double weight_N) {
    char words[SS_POSTING_WORDS];
    if (weight_N == 0.0) {
        return "not allowed";
    }
    if (!(weight_N < (double)INFINITY)) {
        return "no limit";
    }
    return ss_build_text(
        &s->sketch.words, "%s",
        ss_posting_weight(weight_N, s->posting->units, s->posting->units == SS_UNITS_SI ? 1 : 0, words));
}

static void add_trucks(sign *s, const ss_posting_sign *from, board *to) {
    const double single = from->group_N[SS_POSTING_SINGLE];
    const double combination = from->group_N[SS_POSTING_COMBINATION];
    const double farm = from->group_N[SS_POSTING_FARM];
    const bool limited = single < (double)INFINITY || combination < (double)INFINITY;
    if (limited && single == combination) {
        add(to, "all trucks", weight(s, single), false);
    } else if (limited) {
        if (from->rated[SS_POSTING_SINGLE]) {
            add(to, "single-unit trucks", weight(s, single), false);
        }
        add(to, "combinations", weight(s, combination), false);
    }
    if (farm < (double)INFINITY) {
        add(to, "farm vehicles", weight(s, farm), false);
    }
}

static bool in_sign(const sign *s, const ss_posting_row *one, bool single) {
    const ss_posting_builder made = {.made = *s->posting};
    return ss_posting_in_sign(&made, one, single);
}

/* Vehicles other than legal trucks that may not cross at any weight, each once. */
static void add_banned(const sign *s, bool single, board *to) {
    int last = -1;
    for (int i = 0; i < s->posting->row_count; i++) {
        const ss_posting_row *const one = &s->posting->rows[i];
        if (one->safe_N == 0.0 && one->group != SS_POSTING_EMERGENCY && one->vehicle != last &&
            in_sign(s, one, single)) {
            add(to, s->sketch.bridge->vehicles[one->vehicle].name, "not allowed", false);
            last = one->vehicle;
        }
    }
}

static void add_emergency(sign *s, const ss_posting_sign *from, board *to) {
    if (!(from->emergency_N < (double)INFINITY)) {
        return;
    }
    if (from->emergency_N == 0.0) {
        add(to, "emergency vehicles", "not allowed", to->count > 0);
        return;
    }
    add(to, "emergency vehicles", "", to->count > 0);
    if (from->axle_N < (double)INFINITY) {
        add(to, "single axle", weight(s, from->axle_N), false);
    }
    if (from->tandem_N < (double)INFINITY) {
        add(to, "tandem axle", weight(s, from->tandem_N), false);
    }
    add(to, "gross", weight(s, from->emergency_N), false);
}

/* What the ratings behind the limits hold for only. */
static void add_restrictions(sign *s, bool single, board *to) {
    const ss_bridge *const bridge = s->sketch.bridge;
    const double speed = bridge->rating.speed;
    bool middle = false;
    bool line = false;
    for (int i = 0; i < s->posting->row_count; i++) {
        const ss_posting_row *const one = &s->posting->rows[i];
        const ss_crossing *const crossing = ss_words_crossing(s->sketch.words.results, one->traffic);
        if (crossing != NULL && in_sign(s, one, single)) {
            middle = middle || crossing->kind == SS_CROSSING_CENTRED;
            line = line || crossing->kind == SS_CROSSING_LINE;
        }
    }
    const int before = to->count;
    if (speed > 0.0) {
        const bool si = s->posting->units == SS_UNITS_SI;
        add(to, "trucks at most",
            ss_build_text(&s->sketch.words, si ? "%s km/h" : "%s mph",
                          ss_words_decimals(&s->sketch.words, speed * (si ? 3.6 : 3600.0 / 1609.344), 0)),
            before > 0);
    }
    if (middle) {
        add(to, "trucks keep to the middle", "", before > 0 && to->count == before);
    }
    if (line) {
        add(to, "trucks keep to the marked line", "", before > 0 && to->count == before);
    }
}

static board board_of(sign *s, const ss_posting_sign *from, bool single) {
    board made = {.below = NULL};
    switch (from->state) {
    case SS_POSTING_UNKNOWN:
        made.heading = "no sign follows";
        made.dashed = true;
        break;
    case SS_POSTING_OPEN:
        made.heading = "no posting is called for";
        made.dashed = true;
        break;
    case SS_POSTING_CLOSED: made.heading = "bridge closed"; break;
    case SS_POSTING_LIMITED:
        made.heading = "load limit";
        add_trucks(s, from, &made);
        add_banned(s, single, &made);
        add_emergency(s, from, &made);
        break;
    }
    if (from->state == SS_POSTING_LIMITED || from->state == SS_POSTING_OPEN) {
        const int limits = made.count;
        add_restrictions(s, single, &made);
        /* With a restriction there is a sign, whatever the weight. */
        if (from->state == SS_POSTING_OPEN && made.count > limits) {
            made.heading = "no load limit";
            made.dashed = false;
        }
    }
    return made;
}

/* Letters of the rows, so that the longest fits. */
static double letters_of(const board *b, double width) {
    double size = LARGE;
    for (int i = 0; i < b->count; i++) {
        const double gap = b->rows[i].limit[0] == '\0' ? 0.0 : 3.0;
        const double need =
            (ss_figure_text_width(b->rows[i].what, 1.0) + ss_figure_text_width(b->rows[i].limit, 1.0)) /
            (width - 2.0 * INSET - gap);
        size = fmin(size, 1.0 / need);
    }
    return fmax(size, SMALL);
}

static double heading_of(const board *b, double width) {
    return fmin(1.25 * LARGE, (width - 2.0 * INSET) / (1.08 * ss_figure_text_width(b->heading, 1.0)));
}

static double height_of(const board *b, double width) {
    const double size = letters_of(b, width);
    double height = 2.0 * INSET + heading_of(b, width);
    for (int i = 0; i < b->count; i++) {
        height += (b->rows[i].begins ? 2.3 : 1.5) * size;
    }
    return height;
}

/* A board on its posts; returns how far down the ground is. */
static void draw_board(sign *s, const board *b, double left, double width, double height) {
    ss_figure *const figure = s->sketch.figure;
    const double top = s->sketch.down;
    const double ground = top + height + POST;
    const double middle = left + 0.5 * width;
    const double heading = heading_of(b, width);
    const double size = letters_of(b, width);
    for (int i = 0; i < 2 && !b->dashed; i++) {
        const double x = left + (i == 0 ? 0.2 : 0.8) * width;
        ss_figure_box(figure, SS_FIGURE_GIRDER_SIDE, (ss_spot){x - 0.8, top + height},
                      (ss_spot){x + 0.8, ground});
    }
    if (!b->dashed) {
        ss_figure_line(figure, SS_FIGURE_AXIS, (ss_spot){left - 2.0, ground},
                       (ss_spot){left + width + 2.0, ground});
        ss_figure_box(figure, SS_FIGURE_GROUND, (ss_spot){left - 2.0, ground},
                      (ss_spot){left + width + 2.0, ground + GROUND});
    }
    ss_figure_box(figure, b->dashed ? SS_FIGURE_UNKNOWN : SS_FIGURE_BOARD, (ss_spot){left, top},
                  (ss_spot){left + width, top + height});
    double down =
        top + INSET + 0.75 * heading + (b->count == 0 ? 0.5 * (height - 2.0 * INSET - heading) : 0.0);
    ss_figure_text(figure, (ss_lettering){SS_FIGURE_CAPTION, 0, heading, false}, (ss_spot){middle, down},
                   b->heading);
    down += 0.25 * heading;
    for (int i = 0; i < b->count; i++) {
        const row *const one = &b->rows[i];
        if (one->begins) {
            down += 0.8 * size;
            ss_figure_line(figure, SS_FIGURE_AXIS, (ss_spot){left + INSET, down},
                           (ss_spot){left + width - INSET, down});
        }
        down += 1.5 * size;
        if (one->limit[0] == '\0') {
            ss_figure_text(figure, (ss_lettering){SS_FIGURE_LABEL, 0, size, false}, (ss_spot){middle, down},
                           one->what);
            continue;
        }
        ss_figure_text(figure, (ss_lettering){SS_FIGURE_LABEL, 1, size, false}, (ss_spot){left + INSET, down},
                       one->what);
        ss_figure_text(figure, (ss_lettering){SS_FIGURE_LABEL, -1, size, false},
                       (ss_spot){left + width - INSET, down}, one->limit);
    }
    if (b->below != NULL) {
        ss_figure_text(figure, (ss_lettering){SS_FIGURE_LABEL, 0, SS_LETTERS, false},
                       (ss_spot){middle, ground + GROUND + 1.4 * SS_LETTERS}, b->below);
    }
}

static void draw(sign *s) {
    const ss_posting *const posting = s->posting;
    board boards[2] = {board_of(s, &posting->free, false)};
    const int count = posting->lanes_matter ? 2 : 1;
    const double width = count == 2 ? PAIRED : ALONE;
    double height = fmax(height_of(&boards[0], width), 22.0);
    if (count == 2) {
        boards[1] = board_of(s, &posting->one, true);
        boards[0].below = "where trucks meet on the bridge";
        boards[1].below = "narrowed so that one truck crosses at a time";
        height = fmax(height, height_of(&boards[1], width));
    }
    s->sketch.down += 3.0;
    const double all = count * width + (count - 1) * BETWEEN;
    for (int i = 0; i < count; i++) {
        draw_board(s, &boards[i], 0.5 * (SS_PAGE_WIDTH - all) + i * (width + BETWEEN), width, height);
    }
    s->sketch.down += height + POST + GROUND + (count == 2 ? 2.2 * SS_LETTERS : 1.0);
    ss_sketch_paragraph(&s->sketch, 0.0, posting->recommendation);
    ss_sketch_paragraph(
        &s->sketch, 0.0,
        ss_build_text(&s->sketch.words,
                      "By %s, %s level. A sketch of what is to be said, no design of a sign: how "
                      "it is worded, made, sized and set up is in the sign standard of the "
                      "owner and the state.",
                      ss_method_name(posting->method), ss_level_name(posting->level)));
}

ss_status ss_figure_sign(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error) {
    sign s = {.posting = results->posting};
    ss_sketch_begin(&s.sketch, results, units, out, "sign");
    ss_sketch_heading(&s.sketch, "What a posting sign would say");
    if (s.posting == NULL) {
        ss_sketch_paragraph(&s.sketch, 0.0, "Nothing was rated that a bridge can be posted by.");
    } else {
        draw(&s);
    }
    out->text = ss_figure_keep(out, s.posting == NULL ? "No sign." : s.posting->recommendation);
    return ss_sketch_end(&s.sketch, error);
}
