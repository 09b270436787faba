/* figure_list.c - the list of marks that makes a figure, and labels that make room for each other. */
#include "sillspan/figure.h"

#include <math.h>
#include <string.h>

enum { DISC_CORNERS = 24 };

const char *ss_figure_keep(ss_figure *figure, const char *text) {
    if (figure->failed || text == NULL) {
        return "";
    }
    const char *const copy = ss_arena_text(&figure->arena, text, strlen(text));
    figure->failed = copy == NULL;
    return copy == NULL ? "" : copy;
}

/* A zeroed mark at the end with a copy of the points, or NULL after a failure. */
static ss_mark *add(ss_figure *figure, const ss_spot *points, int count) {
    bool finite = count > 0;
    for (int i = 0; i < count; i++) {
        finite = finite && isfinite(points[i].x) && isfinite(points[i].y);
    }
    figure->failed = figure->failed || !finite;
    if (figure->failed) {
        return NULL;
    }
    if (figure->count == figure->capacity) {
        const int capacity = figure->capacity == 0 ? 128 : 2 * figure->capacity;
        ss_mark *const marks = ss_arena_alloc(&figure->arena, (size_t)capacity, sizeof *marks);
        if (marks == NULL) {
            figure->failed = true;
            return NULL;
        }
        if (figure->count > 0) {
            memcpy(marks, figure->marks, (size_t)figure->count * sizeof *marks);
        }
        figure->marks = marks;
        figure->capacity = capacity;
    }
    ss_spot *const kept = ss_arena_alloc(&figure->arena, (size_t)count, sizeof *kept);
    if (kept == NULL) {
        figure->failed = true;
        return NULL;
    }
    memcpy(kept, points, (size_t)count * sizeof *kept);
    ss_mark *const mark = &figure->marks[figure->count++];
    *mark = (ss_mark){.count = count, .points = kept};
    return mark;
}

static void add_shape(ss_figure *figure, ss_mark_kind kind, ss_figure_role role, const ss_spot *points,
                      int count) {
    ss_mark *const mark = add(figure, points, count);
    if (mark != NULL) {
        mark->kind = kind;
        mark->role = role;
    }
}

void ss_figure_path(ss_figure *figure, ss_figure_role role, const ss_spot *points, int count) {
    add_shape(figure, SS_MARK_LINE, role, points, count);
}

void ss_figure_line(ss_figure *figure, ss_figure_role role, ss_spot from, ss_spot to) {
    const ss_spot points[] = {from, to};
    add_shape(figure, SS_MARK_LINE, role, points, 2);
}

void ss_figure_area(ss_figure *figure, ss_figure_role role, const ss_spot *points, int count) {
    add_shape(figure, SS_MARK_POLYGON, role, points, count);
}

void ss_figure_box(ss_figure *figure, ss_figure_role role, ss_spot from, ss_spot to) {
    const ss_spot points[] = {from, {to.x, from.y}, to, {from.x, to.y}};
    add_shape(figure, SS_MARK_POLYGON, role, points, 4);
}

void ss_figure_disc(ss_figure *figure, ss_figure_role role, ss_spot middle, double radius) {
    const double turn = 6.28318530717958648;
    ss_spot points[DISC_CORNERS];
    for (int i = 0; i < DISC_CORNERS; i++) {
        const double angle = turn * (double)i / DISC_CORNERS;
        points[i] = (ss_spot){middle.x + radius * cos(angle), middle.y + radius * sin(angle)};
    }
    add_shape(figure, SS_MARK_POLYGON, role, points, DISC_CORNERS);
}

void ss_figure_text(ss_figure *figure, ss_lettering how, ss_spot at, const char *text) {
    const char *const kept = ss_figure_keep(figure, text);
    ss_mark *const mark = add(figure, &at, 1);
    if (mark != NULL) {
        mark->kind = SS_MARK_TEXT;
        mark->role = how.role;
        mark->text = kept;
        mark->anchor = how.anchor;
        mark->size = how.size;
        mark->upright = how.upright;
    }
}

double ss_figure_text_width(const char *text, double size) {
    double width = 0.0;
    for (const char *c = text; *c != '\0'; c++) {
        const unsigned char byte = (unsigned char)*c;
        if ((byte & 0xC0) == 0x80) {
            continue; /* inside a letter of several bytes */
        }
        if (strchr("iljIftr.,:;'|!()[]/- ", *c) != NULL) {
            width += 0.38;
        } else if (strchr("mwMW@%", *c) != NULL) {
            width += 0.92;
        } else {
            width += byte >= 0x80 || (*c >= 'A' && *c <= 'Z') ? 0.7 : 0.6;
        }
    }
    return width * size;
}

/* Labels that touch and move as one: their common shift, from the sum of what each would like. */
typedef struct cluster {
    int first, count;
    double wish, room; /* sum of wanted starts of the first; room of all */
} cluster;

static double start_of(const cluster *c, double low, double high) {
    const double most = fmax(high - c->room, low);
    return fmin(fmax(c->wish / c->count, low), most);
}

/* Clusters from the left; a new label that reaches into the last one joins it, and so on back. */
static int gather(cluster *clusters, const double *at, const double *size, const int *order, int count,
                  double low, double high) {
    int made = 0;
    for (int i = 0; i < count; i++) {
        const int label = order[i];
        clusters[made++] = (cluster){i, 1, at[label] - 0.5 * size[label], size[label]};
        while (made > 1) {
            cluster *const before = &clusters[made - 2];
            const cluster *const last = &clusters[made - 1];
            if (start_of(before, low, high) + before->room <= start_of(last, low, high)) {
                break;
            }
            before->wish += last->wish - last->count * before->room;
            before->count += last->count;
            before->room += last->room;
            made--;
        }
    }
    return made;
}

static void sort_by(int *order, const double *at, int count) {
    for (int i = 0; i < count; i++) {
        int k = i;
        for (; k > 0 && at[order[k - 1]] > at[i]; k--) {
            order[k] = order[k - 1];
        }
        order[k] = i;
    }
}

bool ss_figure_spread(double *at, const double *size, int count, double low, double high) {
    if (count <= 0) {
        return true;
    }
    cluster *const clusters = ss_alloc((size_t)count, sizeof *clusters);
    int *const order = ss_alloc((size_t)count, sizeof *order);
    const bool ok = clusters != NULL && order != NULL;
    double all = 0.0;
    for (int i = 0; i < count; i++) {
        all += size[i];
    }
    if (ok) {
        sort_by(order, at, count);
        const int made = gather(clusters, at, size, order, count, low, high);
        /* Where all are too long for the range, each gets its share of it. */
        const double squeeze = all > high - low && all > 0.0 ? fmax(high - low, 0.0) / all : 1.0;
        for (int i = 0; i < made; i++) {
            double next = squeeze < 1.0 ? low : start_of(&clusters[i], low, high);
            for (int k = 0; k < clusters[i].count; k++) {
                const int label = order[clusters[i].first + k];
                at[label] = next + 0.5 * size[label] * squeeze;
                next += size[label] * squeeze;
            }
        }
    }
    ss_free(clusters);
    ss_free(order);
    return ok;
}

void ss_figure_destroy(ss_figure *figure) {
    ss_arena_destroy(&figure->arena);
    *figure = (ss_figure){0};
}
