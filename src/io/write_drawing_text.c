/* write_drawing_text.c - a drawing in characters. */
#include <math.h>
#include <string.h>

#include "io/write_lines.h"

/* A character is about twice as tall as wide. */
#define TALL 2.0
#define MOST_ROWS 44
#define LEAST_ROWS 5

/* How a kind of stroke looks, and what the legend calls it; later ones are drawn over earlier ones. */
typedef struct pen {
    ss_stroke_kind kind;
    char along, across, point;
    const char *legend;
} pen;

static const pen pens[] = {
    {SS_STROKE_EDGE, '.', '.', '.', "edge of a car"},
    {SS_STROKE_GROUND, '_', '_', '_', "top of a car"},
    {SS_STROKE_SLAB, '%', '%', '%', "concrete deck"},
    {SS_STROKE_CURB, ':', '#', '#', "curb"},
    {SS_STROKE_BEAM, '|', '|', '|', "floor beam"},
    {SS_STROKE_PLATE, '=', '|', '=', NULL},
    {SS_STROKE_LINE, '-', '-', '-', "lengthwise member"},
    {SS_STROKE_GIRDER, '=', '=', '=', "main girder"},
    {SS_STROKE_JOINT, '~', '~', '~', "joint"},
    {SS_STROKE_BEARING, 'O', 'O', 'O', "bearing point"},
    {SS_STROKE_LANE, 'v', 'v', 'v', "uniform load, wherever it makes things worse"},
    {SS_STROKE_DISTANCE, '-', '-', '-', NULL},
    {SS_STROKE_VARIES, '~', '~', '~', "distance that varies"},
    {SS_STROKE_AXLE, '|', '|', '|', NULL},
    {SS_STROKE_LOOSE, 'o', 'o', 'o', "axle, left out where it relieves"},
    {SS_STROKE_WHEEL, 'O', 'O', 'O', "axle"},
};
enum { PENS = (int)(sizeof pens / sizeof pens[0]) };

const char *ss_lines_stroke_name(ss_stroke_kind kind) {
    for (int p = 0; p < PENS; p++) {
        if (pens[p].kind == kind) {
            return pens[p].legend;
        }
    }
    return NULL;
}

/* One character, up to four bytes and its end; empty is a blank. */
typedef struct glyph {
    char bytes[5];
} glyph;

typedef struct raster {
    glyph *cells;
    int rows, columns;
    int left;         /* columns kept for labels that end at the left edge */
    double sx, sy;    /* columns and rows per metre */
    int drawing_rows; /* rows of the strokes; labels below them come after */
} raster;

static glyph *at(const raster *r, int row, int column) {
    if (row < 0 || row >= r->rows || column < 0 || column >= r->columns) {
        return NULL;
    }
    return &r->cells[row * r->columns + column];
}

static void put(const raster *r, int row, int column, char mark, bool crosses) {
    glyph *cell = at(r, row, column);
    if (cell == NULL) {
        return;
    }
    const bool over_beam = crosses && cell->bytes[0] == '|';
    cell->bytes[0] = over_beam ? '+' : mark;
    cell->bytes[1] = '\0';
}

static int column_of(const raster *r, double x) {
    return r->left + (int)lround(x * r->sx);
}

static int row_of(const raster *r, double y) {
    return (int)lround(y * r->sy);
}

static void draw_stroke(const raster *r, const ss_stroke *stroke, const pen *p) {
    const int c0 = column_of(r, fmin(stroke->x0, stroke->x1));
    const int c1 = column_of(r, fmax(stroke->x0, stroke->x1));
    const int r0 = row_of(r, fmin(stroke->y0, stroke->y1));
    const int r1 = row_of(r, fmax(stroke->y0, stroke->y1));
    if (c0 == c1 && r0 == r1) {
        put(r, r0, c0, p->point, false);
    } else if (c1 - c0 >= r1 - r0) {
        for (int c = c0; c <= c1; c++) {
            const double s = (double)(c - c0) / (double)(c1 - c0);
            put(r, r0 + (int)lround(s * (r1 - r0)), c, p->along, p->kind == SS_STROKE_LINE);
        }
    } else {
        for (int row = r0; row <= r1; row++) {
            put(r, row, c0, p->across, false);
        }
    }
}

/* Whether columns [from, from + width) of a row, and a blank on both sides, are free. */
static bool is_free(const raster *r, int row, int from, int width) {
    for (int c = from - 1; c <= from + width; c++) {
        const glyph *cell = at(r, row, c);
        if (cell != NULL && cell->bytes[0] != '\0') {
            return false;
        }
    }
    return true;
}

static void draw_label(const raster *r, const char *text, int anchor, double x, double y) {
    const int width = ss_text_width(text);
    int column = column_of(r, x);
    column = anchor < 0 ? column - width - 1 : anchor > 0 ? column + 1 : column - width / 2;
    column = column + width > r->columns ? r->columns - width : column;
    column = column < 0 ? 0 : column;
    int row = row_of(r, y);
    /* What is below the strokes goes down until it finds room. */
    row = row >= r->drawing_rows - 1 && anchor == 0 ? r->drawing_rows : row;
    while (row >= r->drawing_rows && row < r->rows - 1 && !is_free(r, row, column, width)) {
        row++;
    }
    for (const char *byte = text; *byte != '\0'; column++) {
        size_t length = 1;
        while (((unsigned char)byte[length] & 0xC0U) == 0x80U) {
            length++;
        }
        glyph *cell = at(r, row, column);
        if (cell != NULL && length < sizeof cell->bytes) {
            memcpy(cell->bytes, byte, length);
            cell->bytes[length] = '\0';
        }
        byte += length;
    }
}

double ss_lines_separating(const ss_drawing *drawing) {
    double gap = (double)INFINITY;
    for (int i = 0; i < drawing->stroke_count; i++) {
        const ss_stroke *a = &drawing->strokes[i];
        if (a->kind != SS_STROKE_LINE && a->kind != SS_STROKE_GIRDER) {
            continue;
        }
        for (int k = 0; k < i; k++) {
            const ss_stroke *b = &drawing->strokes[k];
            const double distance = fabs(a->y0 - b->y0);
            if ((b->kind == SS_STROKE_LINE || b->kind == SS_STROKE_GIRDER) && distance > 0.05) {
                gap = fmin(gap, distance);
            }
        }
    }
    return isinf(gap) ? 0.0 : 1.0 / gap;
}

static void scale(raster *r, const ss_drawing *drawing, int width) {
    int right = 1;
    for (int i = 0; i < drawing->label_count; i++) {
        const ss_label *label = &drawing->labels[i];
        const int own = ss_text_width(label->text);
        if (label->anchor < 0 && label->x <= 0.0 && own + 2 > r->left) {
            r->left = own + 2;
        }
        if (label->anchor == 0 && label->x >= drawing->width && own / 2 + 1 > right) {
            right = own / 2 + 1;
        }
    }
    r->left = r->left > width / 2 ? width / 2 : r->left < 2 ? 2 : r->left;
    r->columns = width;
    r->sx = (double)(width - r->left - right - 1) / fmax(drawing->width, 1e-3);
    r->sy = fmax(r->sx / TALL, ss_lines_separating(drawing));
    const double height = fmax(drawing->height, 1e-3);
    r->sy = fmin(fmax(r->sy, (LEAST_ROWS - 1) / height), (MOST_ROWS - 1) / height);
    r->drawing_rows = row_of(r, drawing->height) + 1;
    r->rows = r->drawing_rows + 4;
}

static void put_raster(ss_text *out, const raster *r) {
    int last = -1;
    for (int row = 0; row < r->rows; row++) {
        for (int c = 0; c < r->columns; c++) {
            last = at(r, row, c)->bytes[0] != '\0' ? row : last;
        }
    }
    for (int row = 0; row <= last; row++) {
        int end = 0;
        for (int c = 0; c < r->columns; c++) {
            end = at(r, row, c)->bytes[0] != '\0' ? c + 1 : end;
        }
        for (int c = 0; c < end; c++) {
            const char *bytes = at(r, row, c)->bytes;
            ss_text_add(out, bytes[0] == '\0' ? " " : bytes);
        }
        ss_text_add(out, "\n");
    }
}

static void put_legend(ss_text *out, const ss_drawing *drawing, int width) {
    ss_text legend = {0};
    for (int p = PENS - 1; p >= 0; p--) {
        bool used = false;
        bool upright = true;
        for (int i = 0; i < drawing->stroke_count; i++) {
            const ss_stroke *stroke = &drawing->strokes[i];
            if (stroke->kind == pens[p].kind) {
                used = true;
                upright = upright && fabs(stroke->x1 - stroke->x0) <= fabs(stroke->y1 - stroke->y0);
            }
        }
        if (used && pens[p].legend != NULL) {
            ss_text_printf(&legend, "%s%c %s", legend.length == 0 ? "" : ", ",
                           upright ? pens[p].across : pens[p].along, pens[p].legend);
        }
    }
    if (legend.length > 0) {
        ss_text_add(&legend, ".");
    }
    if (drawing->note != NULL) {
        ss_text_printf(&legend, "%s%s", legend.length == 0 ? "" : " ", drawing->note);
    }
    if (legend.length > 0) {
        ss_text_add(out, "\n");
        ss_lines_wrap(out, legend.data, 2, 2, width);
    }
    out->failed = out->failed || legend.failed;
    ss_text_destroy(&legend);
}

void ss_lines_drawing(ss_text *out, const ss_drawing *drawing, int width) {
    raster r = {0};
    scale(&r, drawing, width > 100 ? 100 : width);
    r.cells = ss_alloc((size_t)r.rows * (size_t)r.columns, sizeof *r.cells);
    if (r.cells == NULL) {
        out->failed = true;
        return;
    }
    for (int p = 0; p < PENS; p++) {
        for (int i = 0; i < drawing->stroke_count; i++) {
            if (drawing->strokes[i].kind == pens[p].kind) {
                draw_stroke(&r, &drawing->strokes[i], &pens[p]);
            }
        }
    }
    for (int i = 0; i < drawing->label_count; i++) {
        const ss_label *label = &drawing->labels[i];
        ss_text plain = {0};
        ss_text_add_plain(&plain, label->text);
        out->failed = out->failed || plain.failed;
        if (plain.data != NULL) {
            draw_label(&r, plain.data, label->anchor, label->x, label->y);
        }
        ss_text_destroy(&plain);
    }
    ss_lines_wrap(out, drawing->title, 0, 0, width);
    ss_text_add(out, "\n");
    put_raster(out, &r);
    put_legend(out, drawing, width);
    ss_text_add(out, "\n");
    ss_free(r.cells);
}
