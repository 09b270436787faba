/* cairo_figure.c - the marks of a figure drawn through cairo, with the look that its roles have everywhere.
 */
#include <math.h>

#include "io/cairo_page.h"
#include "io/figure_look.h"

/* Hatching of more lines or tiles than this is no hatching any more; no figure is that large. */
#define MOST 100000.0

static void path_of(cairo_t *page, const ss_mark *mark) {
    cairo_new_path(page);
    for (int i = 0; i < mark->count; i++) {
        cairo_line_to(page, mark->points[i].x, mark->points[i].y);
    }
    if (mark->kind == SS_MARK_POLYGON) {
        cairo_close_path(page);
    }
}

/* Lines of the hatching over what is clipped. They lie where a pattern that begins at the corner has them. */
static void hatch_lines(cairo_t *page, const ss_hatching *h) {
    double x0 = 0.0;
    double y0 = 0.0;
    double x1 = 0.0;
    double y1 = 0.0;
    cairo_rotate(page, 0.25 * acos(-1.0));
    cairo_clip_extents(page, &x0, &y0, &x1, &y1);
    if ((x1 - x0) / h->pitch < MOST) {
        for (int i = (int)floor(x0 / h->pitch); i * h->pitch < x1; i++) {
            cairo_rectangle(page, i * h->pitch, y0, h->width, y1 - y0);
        }
    }
    cairo_fill(page);
}

static void hatch_grains(cairo_t *page, const ss_hatching *h) {
    double x0 = 0.0;
    double y0 = 0.0;
    double x1 = 0.0;
    double y1 = 0.0;
    cairo_clip_extents(page, &x0, &y0, &x1, &y1);
    if ((x1 - x0) / h->tile_width * ((y1 - y0) / h->tile_height) > MOST) {
        return;
    }
    for (int row = (int)floor(y0 / h->tile_height); row * h->tile_height < y1; row++) {
        for (int column = (int)floor(x0 / h->tile_width); column * h->tile_width < x1; column++) {
            for (int i = 0; i < SS_GRAINS; i++) {
                const ss_grain *const g = &h->grains[i];
                cairo_new_sub_path(page);
                cairo_arc(page, column * h->tile_width + g->x, row * h->tile_height + g->y, g->radius, 0.0,
                          2.0 * acos(-1.0));
            }
        }
    }
    cairo_fill(page);
}

/* Fills the path with a hatching; the path is used up. */
static void fill_hatched(cairo_t *page, const ss_hatching *h) {
    cairo_save(page);
    cairo_clip(page);
    if (h->ground != SS_NO_COLOUR) {
        ss_cairo_colour(page, h->ground, h->cover);
        cairo_paint(page);
    }
    ss_cairo_colour(page, h->ink, 1.0);
    if (h->pitch > 0.0) {
        hatch_lines(page, h);
    } else {
        hatch_grains(page, h);
    }
    cairo_restore(page);
}

static void draw_shape(cairo_t *page, const ss_mark *mark) {
    const ss_look *const look = ss_figure_look(mark->role);
    if (mark->kind == SS_MARK_POLYGON && look->hatch != SS_HATCH_NONE) {
        path_of(page, mark);
        fill_hatched(page, ss_figure_hatching(look->hatch));
    } else if (mark->kind == SS_MARK_POLYGON && look->fill != SS_NO_COLOUR) {
        path_of(page, mark);
        ss_cairo_colour(page, look->fill, 1.0);
        cairo_fill(page);
    }
    if (look->stroke != SS_NO_COLOUR) {
        path_of(page, mark);
        ss_cairo_colour(page, look->stroke, 1.0);
        cairo_set_line_width(page, look->width);
        cairo_set_dash(page, look->dashes, ss_look_dashes(look), 0.0);
        cairo_stroke(page);
    }
}

/* A figure makes room for its texts by an estimate of their width; letters that are wider are set narrower.
 */
static void draw_text(cairo_t *page, const ss_faces *faces, const ss_mark *mark, const char *plain) {
    const ss_look *const look = ss_figure_look(mark->role);
    const ss_face face = look->bold ? SS_FACE_SANS_BOLD : SS_FACE_SANS;
    const double width = ss_faces_width(faces, face, mark->size, plain);
    const double room = ss_figure_text_width(plain, mark->size);
    const double narrow = width > room && room > 0.0 ? room / width : 1.0;
    const double back = mark->anchor < 0 ? width : mark->anchor == 0 ? 0.5 * width : 0.0;
    cairo_save(page);
    cairo_translate(page, mark->points[0].x, mark->points[0].y);
    if (mark->upright) {
        cairo_rotate(page, -0.5 * acos(-1.0));
    }
    cairo_scale(page, narrow, 1.0);
    ss_faces_show(faces, page, face, mark->size, look->letters, (ss_spot){-back, 0.0}, plain);
    cairo_restore(page);
}

ss_status ss_cairo_figure(cairo_t *page, const ss_faces *faces, const ss_figure *figure, ss_error *error) {
    bool failed = figure->failed;
    cairo_save(page);
    cairo_set_line_join(page, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(page, CAIRO_LINE_CAP_BUTT);
    for (int i = 0; i < figure->count && !failed; i++) {
        const ss_mark *const mark = &figure->marks[i];
        if (mark->kind != SS_MARK_TEXT) {
            draw_shape(page, mark);
            continue;
        }
        ss_text plain = {0};
        ss_text_add_plain(&plain, mark->text);
        if (plain.length > 0 && !plain.failed) {
            draw_text(page, faces, mark, plain.data);
        }
        failed = plain.failed;
        ss_text_destroy(&plain);
    }
    cairo_restore(page);
    return failed ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the figure") : SS_OK;
}
