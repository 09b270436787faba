/* figure_study.c - marks above a plot, names at its sides, and labels beside points where there is room. */
#include "report/figure_study.h"

#include <math.h>
#include <string.h>

/* mm */
#define PITCH 2.9
#define LINE 2.8
#define BETWEEN 3.0
#define CLEAR 0.35

/* ---- texts in lines ----------------------------------------------------------------------------------- */

/* Bytes of the longest beginning that fits, not within a letter. */
static size_t fitting(const char *text, double width, double size) {
    size_t end = 0;
    for (size_t i = 1; i <= strlen(text); i++) {
        char part[160];
        if (((unsigned char)text[i] & 0xC0) == 0x80) {
            continue;
        }
        if (i >= sizeof part) {
            break;
        }
        memcpy(part, text, i);
        part[i] = '\0';
        if (ss_figure_text_width(part, size) > width) {
            break;
        }
        end = i;
    }
    return end;
}

const char *ss_study_cut(ss_sketch *sketch, const char *text, double width, double size) {
    static const char dots[] = "...";
    if (ss_figure_text_width(text, size) <= width) {
        return text;
    }
    const size_t fits = fitting(text, width - ss_figure_text_width(dots, size), size);
    return ss_build_text(&sketch->words, "%.*s%s", (int)fits, text, dots);
}

/* Bytes of the first line: up to the last blank that fits, else as many letters as fit. */
static size_t line_length(const char *text, double width, double size) {
    const size_t fits = fitting(text, width, size);
    size_t end = fits;
    if (text[fits] == '\0') {
        return fits;
    }
    while (end > 0 && text[end] != ' ') {
        end--;
    }
    return end > 0 ? end : fits > 0 ? fits : 1;
}

int ss_study_break(ss_sketch *sketch, const char *text, double width, double size, int most,
                   const char *lines[SS_STUDY_LINES]) {
    const char *at = text;
    int count = 0;
    while (*at != '\0' && count < most) {
        const size_t length = line_length(at, width, size);
        const bool last = count == most - 1;
        lines[count++] = last ? ss_study_cut(sketch, at, width, size)
                              : ss_build_text(&sketch->words, "%.*s", (int)length, at);
        at += length;
        at += strspn(at, " ");
    }
    return count;
}

void ss_study_name(ss_sketch *sketch, const char *text, double right, double width, double middle) {
    const char *lines[SS_STUDY_LINES];
    const int count = ss_study_break(sketch, text, width, SS_LETTERS, SS_STUDY_LINES, lines);
    for (int i = 0; i < count; i++) {
        ss_figure_text(sketch->figure, (ss_lettering){SS_FIGURE_LABEL, -1, SS_LETTERS, false},
                       (ss_spot){right, middle + 0.35 * SS_LETTERS + (i - 0.5 * (count - 1)) * LINE * 1.05},
                       lines[i]);
    }
}

/* ---- flags and ends ----------------------------------------------------------------------------------- */

static double widest(const char *text, const char *second) {
    const double first = ss_figure_text_width(text, SS_LETTERS_SMALL);
    return second == NULL ? first : fmax(first, ss_figure_text_width(second, SS_LETTERS_SMALL));
}

void ss_study_flags(ss_sketch *sketch, const ss_flag *flags, int count, double from, double to) {
    ss_figure *const figure = sketch->figure;
    double *const at = ss_arena_alloc(&sketch->report.arena, 2 * (size_t)count + 1, sizeof *at);
    const double top = sketch->down;
    sketch->down = top + SS_STUDY_FLAGS;
    sketch->words.failed = sketch->words.failed || at == NULL;
    for (int i = 0; at != NULL && i < count; i++) {
        at[i] = flags[i].at;
        at[count + i] = widest(flags[i].text, flags[i].second) + BETWEEN;
    }
    if (sketch->words.failed || !ss_figure_spread(at, at + count, count, from, to)) {
        sketch->words.failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        const ss_flag *const flag = &flags[i];
        const bool alone = flag->second == NULL;
        const ss_lettering letters = {SS_FIGURE_LABEL, 0, SS_LETTERS_SMALL, false};
        const double y = top + 2.3 + (alone ? LINE : 0.0);
        const ss_spot way[] = {{at[i], top + 2.3 + LINE + 0.8},
                               {at[i], top + 2.3 + LINE + 1.4},
                               {flag->at, sketch->down - 1.0},
                               {flag->at, flag->to}};
        ss_figure_text(figure, letters, (ss_spot){at[i], y}, flag->text);
        if (!alone) {
            ss_figure_text(figure, letters, (ss_spot){at[i], y + LINE}, flag->second);
        }
        ss_figure_path(figure, flag->role, way, 4);
    }
}

void ss_study_ends(ss_sketch *sketch, const ss_pointer *labels, int count, ss_spot across, double low,
                   double high) {
    ss_figure *const figure = sketch->figure;
    double *const at = ss_arena_alloc(&sketch->report.arena, 2 * (size_t)count + 1, sizeof *at);
    sketch->words.failed = sketch->words.failed || at == NULL;
    for (int i = 0; at != NULL && i < count; i++) {
        at[i] = labels[i].at;
        at[count + i] = PITCH * (labels[i].second == NULL ? 1.0 : 2.0);
    }
    if (sketch->words.failed || !ss_figure_spread(at, at + count, count, low, high)) {
        sketch->words.failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        const bool two = labels[i].second != NULL;
        const double first = at[i] - (two ? 0.5 * PITCH : 0.0);
        const ss_lettering letters = {SS_FIGURE_LABEL, 1, SS_LETTERS_SMALL, false};
        const ss_spot bend[] = {{(labels[i].from > 0.0 ? labels[i].from : across.x) + 0.6, labels[i].at},
                                {across.y - 1.7, at[i]},
                                {across.y - 0.7, at[i]}};
        ss_figure_path(figure, SS_FIGURE_LEADER, bend, 3);
        ss_figure_text(figure, letters, (ss_spot){across.y, first + 0.35 * SS_LETTERS_SMALL}, labels[i].text);
        if (two) {
            ss_figure_text(figure, letters, (ss_spot){across.y, first + PITCH + 0.35 * SS_LETTERS_SMALL},
                           labels[i].second);
        }
    }
}

/* ---- labels beside points ----------------------------------------------------------------------------- */

void ss_study_take(ss_taken *taken, double left, double top, double right, double bottom) {
    if (taken->count < SS_STUDY_TAKEN) {
        double *const box = taken->box[taken->count++];
        box[0] = left;
        box[1] = top;
        box[2] = right;
        box[3] = bottom;
    }
}

static bool is_free(const ss_taken *taken, const double box[4]) {
    for (int i = 0; i < taken->count; i++) {
        const double *const other = taken->box[i];
        if (box[0] - CLEAR < other[2] && other[0] < box[2] + CLEAR && box[1] - CLEAR < other[3] &&
            other[1] < box[3] + CLEAR) {
            return false;
        }
    }
    return taken->count < SS_STUDY_TAKEN;
}

bool ss_study_beside(ss_sketch *sketch, ss_taken *taken, ss_lettering how, ss_spot at, const char *text,
                     ss_spot low, ss_spot high) {
    /* Directions, the best first: right, left, above, below, and between. */
    static const double ways[][2] = {{1, 0},      {-1, 0},      {0, -1},    {0, 1},
                                     {0.8, -0.8}, {-0.8, -0.8}, {0.8, 0.8}, {-0.8, 0.8}};
    const double width = ss_figure_text_width(text, how.size);
    const double height = 0.72 * how.size;
    for (int k = 0; k < 8 * 7; k++) {
        const int step = k / 8;
        const double off = 1.7 + 2.6 * step;
        const double *const way = ways[k % 8];
        const ss_spot near = {at.x + off * way[0], at.y + off * way[1]};
        const double left = way[0] > 0.0 ? near.x : way[0] < 0.0 ? near.x - width : near.x - 0.5 * width;
        const double top = way[1] > 0.0 ? near.y : way[1] < 0.0 ? near.y - height : near.y - 0.5 * height;
        const double box[4] = {left, top, left + width, top + height};
        if (box[0] < low.x || box[1] < low.y || box[2] > high.x || box[3] > high.y || !is_free(taken, box)) {
            continue;
        }
        how.anchor = 1;
        ss_figure_text(sketch->figure, how, (ss_spot){left, top + height}, text);
        if (k >= 8) {
            const ss_spot end = {near.x - 0.3 * way[0], near.y - 0.3 * way[1]};
            ss_figure_line(sketch->figure, SS_FIGURE_LEADER,
                           (ss_spot){at.x + 1.1 * way[0], at.y + 1.1 * way[1]}, end);
            ss_study_take(taken, fmin(at.x, end.x), fmin(at.y, end.y), fmax(at.x, end.x), fmax(at.y, end.y));
        }
        ss_study_take(taken, box[0], box[1], box[2], box[3]);
        return true;
    }
    return false;
}

void ss_study_diamond(ss_figure *figure, ss_figure_role role, ss_spot middle, double radius) {
    const ss_spot corners[] = {{middle.x, middle.y - radius},
                               {middle.x + radius, middle.y},
                               {middle.x, middle.y + radius},
                               {middle.x - radius, middle.y}};
    ss_figure_area(figure, role, corners, 4);
}

void ss_study_round(double *low, double *high, double least, int most) {
    const double lacks = least - (*high - *low);
    if (lacks > 0.0) {
        *low -= 0.5 * lacks;
        *high += 0.5 * lacks;
    }
    if (*low < 0.0 && *low > -least) {
        *high -= *low;
        *low = 0.0;
    }
    ss_scale_round(low, high, most);
}
