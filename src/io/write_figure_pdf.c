/* write_figure_pdf.c - a figure as a PDF of one page that is as large as the figure. */
#include <math.h>

#include "io/cairo_page.h"
#include "sillspan/write.h"

/* A PDF page may be 14400 points wide and high, which is this many mm. */
#define LARGEST 5080.0

ss_status ss_write_figure_pdf(const ss_figure *figure, ss_text *out, ss_error *error) {
    ss_faces faces = {.face = {NULL}};
    if (figure->failed) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the figure");
    }
    if (!(figure->width > 0.0 && figure->width <= LARGEST && figure->height > 0.0 &&
          figure->height <= LARGEST)) {
        return ss_error_set(error, SS_ERROR_LIMIT, "the figure is too large for a page of a PDF");
    }
    ss_status status = ss_faces_open(&faces, error);
    cairo_surface_t *const surface =
        ss_cairo_pdf(out, figure->width * SS_POINTS_MM, figure->height * SS_POINTS_MM, figure->title);
    cairo_t *const page = cairo_create(surface);
    if (status == SS_OK) {
        cairo_scale(page, SS_POINTS_MM, SS_POINTS_MM);
        status = ss_cairo_figure(page, &faces, figure, error);
    }
    cairo_show_page(page);
    const ss_status ended = ss_cairo_end(page, surface, out, status == SS_OK ? error : NULL);
    ss_faces_close(&faces);
    return status == SS_OK ? ended : status;
}
