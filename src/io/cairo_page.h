/* cairo_page.h - what the writers that draw through cairo share: where the bytes go, letters, figures. */
#ifndef SS_CAIRO_PAGE_H
#define SS_CAIRO_PAGE_H

#include <cairo.h>

#include "sillspan/figure.h"
#include "sillspan/text.h"

/** Points of a PDF in a millimetre. */
#define SS_POINTS_MM (72.0 / 25.4)

typedef enum ss_face {
    SS_FACE_SANS,
    SS_FACE_SANS_BOLD,
    SS_FACE_SERIF,
    SS_FACE_SERIF_BOLD,
    SS_FACE_SERIF_ITALIC,
    SS_FACES
} ss_face;

/** The letters of one page or file, as they are found on this machine. A zeroed struct is empty. */
typedef struct ss_faces {
    cairo_font_face_t *face[SS_FACES];
    cairo_scaled_font_t *ruler[SS_FACES];
} ss_faces;

/** SS_ERROR_MEMORY; *out must be closed in any case. */
ss_status ss_faces_open(ss_faces *out, ss_error *error);
void ss_faces_close(ss_faces *faces);

/** How wide a text is when set with these letters, in the unit of `size`. `plain` is harmless
 * (ss_text_add_plain). */
double ss_faces_width(const ss_faces *faces, ss_face face, double size, const char *plain);

/** Shows a harmless text from x, y on its base line, in a colour 0xRRGGBB. */
void ss_faces_show(const ss_faces *faces, cairo_t *page, ss_face face, double size, int colour, ss_spot at,
                   const char *plain);

/** Sets the colour 0xRRGGBB that is drawn with; `cover` 1 hides what is below. */
void ss_cairo_colour(cairo_t *page, int colour, double cover);

/** Draws all marks of a figure, whose mm are the units of the page just now. SS_ERROR_MEMORY. */
ss_status ss_cairo_figure(cairo_t *page, const ss_faces *faces, const ss_figure *figure, ss_error *error);

/** A PDF whose bytes are appended to `out` and whose pages are so many points wide and high. It names the
 * program and the title, and no date. */
cairo_surface_t *ss_cairo_pdf(ss_text *out, double width, double height, const char *title);

/** Ends the drawing and gives both back: what cairo or `out` failed at, if anything. `surface` writes what is
 * left. */
ss_status ss_cairo_end(cairo_t *page, cairo_surface_t *surface, const ss_text *out, ss_error *error);

/** Appends to the ss_text that `closure` is. */
cairo_status_t ss_cairo_take(void *closure, const unsigned char *bytes, unsigned length);

#endif
