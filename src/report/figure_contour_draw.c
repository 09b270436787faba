/* figure_contour_draw.c - lines of equal values on a page, each with its value in gaps that it leaves. */
#include <math.h>
#include <string.h>

#include "report/figure_contour.h"
#include "report/report_words.h"

/* mm: letters of values, way from value to value along a line, length of lines that have none. */
#define NUMBERS 2.1
#define APART 45.0
#define SHORT 14.0
/* mm from the middle of a mark that values stay away. */
#define CLEAR 1.6

enum { LEVELS = 40, TAGS = 120 };

/* A value that stands in a gap of its line: left, top, right, bottom. */
typedef struct tag {
    double box[4];
    const char *text;
} tag;

typedef struct drawing {
    ss_sketch *sketch;
    const ss_contour_plan *plan;
    tag tags[TAGS];
    int tag_count;
    ss_contour *lines[LEVELS];
    int counts[LEVELS];
    int levels;
} drawing;

static bool apart(const double a[4], const double b[4]) {
    return a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1];
}

/* The part of a stretch from a to b, as shares from 0 to 1, that is within a box; false: none. */
static bool within(const double box[4], ss_spot a, ss_spot b, double *from, double *to) {
    const double start[2] = {a.x, a.y};
    const double way[2] = {b.x - a.x, b.y - a.y};
    *from = 0.0;
    *to = 1.0;
    for (int k = 0; k < 2; k++) {
        if (fabs(way[k]) < 1e-12) {
            if (start[k] <= box[k] || start[k] >= box[k + 2]) {
                return false;
            }
            continue;
        }
        const double one = (box[k] - start[k]) / way[k];
        const double other = (box[k + 2] - start[k]) / way[k];
        *from = fmax(*from, fmin(one, other));
        *to = fmin(*to, fmax(one, other));
    }
    return *from < *to;
}

/* Whether a line other than `own` runs through a box. */
static bool is_crossed(const drawing *s, const ss_contour *own, const double box[4]) {
    double from = 0.0;
    double to = 0.0;
    for (int n = 0; n < s->levels; n++) {
        for (int i = 0; i < s->counts[n]; i++) {
            const ss_contour *const line = &s->lines[n][i];
            for (int k = 1; line != own && k < line->count; k++) {
                if (within(box, line->points[k - 1], line->points[k], &from, &to)) {
                    return true;
                }
            }
        }
    }
    return false;
}

/* A value on its line, where there is room for it within the plan and no other line runs. */
static bool place_tag(drawing *s, const ss_contour *line, int k) {
    const ss_spot p = line->points[k];
    tag *const made = &s->tags[s->tag_count];
    const double half = 0.5 * ss_figure_text_width(made->text, NUMBERS) + 0.5;
    const double box[4] = {p.x - half, p.y - 0.5 * NUMBERS, p.x + half, p.y + 0.5 * NUMBERS};
    if (box[0] < s->plan->box[0] || box[1] < s->plan->box[1] || box[2] > s->plan->box[2] ||
        box[3] > s->plan->box[3]) {
        return false;
    }
    for (int i = 0; i < s->tag_count; i++) {
        if (!apart(box, s->tags[i].box)) {
            return false;
        }
    }
    for (int i = 0; i < s->plan->avoid_count; i++) {
        const ss_spot mark = s->plan->avoid[i];
        const double around[4] = {mark.x - CLEAR, mark.y - CLEAR, mark.x + CLEAR, mark.y + CLEAR};
        if (!apart(box, around)) {
            return false;
        }
    }
    if (is_crossed(s, line, box)) {
        return false;
    }
    memcpy(made->box, box, sizeof box);
    s->tag_count++;
    return true;
}

static double length_of(const ss_contour *line) {
    double length = 0.0;
    for (int i = 1; i < line->count; i++) {
        length += hypot(line->points[i].x - line->points[i - 1].x, line->points[i].y - line->points[i - 1].y);
    }
    return length;
}

/* One value for each stretch of a line: nearest to its middle first. */
static void tag_line(drawing *s, const ss_contour *line) {
    const double length = length_of(line);
    const int parts = (int)fmin(1.0 + length / APART, 6.0);
    if (length < SHORT) {
        return;
    }
    for (int part = 0; part < parts && s->tag_count < TAGS; part++) {
        const double wanted = length * (part + 0.5) / parts;
        int best = -1;
        s->tags[s->tag_count].text =
            line->level == 0.0 ? "0" : ss_words_decimals(&s->sketch->words, line->level, s->plan->decimals);
        for (double reach = 0.0; best < 0 && reach < 0.5 * length / parts; reach += 2.0) {
            double way = 0.0;
            for (int k = 1; k < line->count && best < 0; k++) {
                way += hypot(line->points[k].x - line->points[k - 1].x,
                             line->points[k].y - line->points[k - 1].y);
                best = fabs(way - wanted) <= reach + 1.0 && place_tag(s, line, k) ? k : -1;
            }
        }
    }
}

static ss_figure_role role_of(double level) {
    return level == 0.0 ? SS_FIGURE_CONTOUR_ZERO : level > 0.0 ? SS_FIGURE_CONTOUR : SS_FIGURE_CONTOUR_BELOW;
}

/* What of a stretch is free of values: where the first value on it begins and the last ends. */
static bool free_part(const drawing *s, ss_spot a, ss_spot b, double *until, double *again) {
    *until = 1.0;
    *again = 0.0;
    bool hidden = false;
    for (int i = 0; i < s->tag_count; i++) {
        double from = 0.0;
        double to = 0.0;
        if (within(s->tags[i].box, a, b, &from, &to)) {
            *until = fmin(*until, from);
            *again = fmax(*again, to);
            hidden = true;
        }
    }
    return !hidden;
}

/* A line with gaps where values stand. */
static void draw_line(drawing *s, const ss_contour *line) {
    ss_spot *const points = ss_arena_alloc(&s->sketch->report.arena, (size_t)line->count + 1, sizeof *points);
    int count = 0;
    if (points == NULL) {
        s->sketch->words.failed = true;
        return;
    }
    points[count++] = line->points[0];
    for (int k = 1; k <= line->count; k++) {
        double until = 1.0;
        double again = 0.0;
        const ss_spot a = line->points[k - 1];
        const ss_spot b = k < line->count ? line->points[k] : a;
        const bool is_free = k < line->count && free_part(s, a, b, &until, &again);
        if (is_free) {
            points[count++] = b;
            continue;
        }
        if (k < line->count && until > 0.0) {
            points[count++] = (ss_spot){a.x + until * (b.x - a.x), a.y + until * (b.y - a.y)};
        }
        if (count > 1) {
            ss_figure_path(s->sketch->figure, role_of(line->level), points, count);
        }
        count = 0;
        if (k < line->count && again < 1.0) {
            points[count++] = (ss_spot){a.x + again * (b.x - a.x), a.y + again * (b.y - a.y)};
            points[count++] = b;
        } else {
            points[count++] = b;
        }
    }
}

static void draw_all(drawing *s) {
    const int first = (int)ceil(s->plan->low / s->plan->step - 1e-9);
    const int last = (int)floor(s->plan->high / s->plan->step + 1e-9);
    for (int n = first; n <= last && s->levels < LEVELS; n++) {
        if (!ss_contours(&s->plan->grid, n * s->plan->step, &s->sketch->report.arena, &s->lines[s->levels],
                         &s->counts[s->levels])) {
            s->sketch->words.failed = true;
            return;
        }
        s->levels++;
    }
    for (int n = 0; n < s->levels; n++) {
        for (int i = 0; i < s->counts[n]; i++) {
            tag_line(s, &s->lines[n][i]);
        }
    }
    for (int n = 0; n < s->levels; n++) {
        for (int i = 0; i < s->counts[n]; i++) {
            draw_line(s, &s->lines[n][i]);
        }
    }
    for (int i = 0; i < s->tag_count; i++) {
        const double *const box = s->tags[i].box;
        ss_figure_text(s->sketch->figure, (ss_lettering){SS_FIGURE_LABEL, 0, NUMBERS, false},
                       (ss_spot){0.5 * (box[0] + box[2]), 0.5 * (box[1] + box[3]) + 0.36 * NUMBERS},
                       s->tags[i].text);
    }
}

void ss_contours_draw(ss_sketch *sketch, const ss_contour_plan *plan) {
    drawing s = {.sketch = sketch, .plan = plan};
    draw_all(&s);
}
