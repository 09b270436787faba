/* write_figure_png.c - a figure as PNG: so many dots per inch, which the file says. */
#include <math.h>
#include <stdint.h>

#include "io/cairo_page.h"
#include "io/figure_look.h"
#include "sillspan/write.h"

/* Dots across or down that cairo can draw, and dots in all before memory is no longer worth it. */
#define MOST_ALONG 32767.0
#define MOST 200e6

/* A PNG begins with its signature of 8 bytes and a header of 25. */
enum { HEADER = 33 };

static void put_32(unsigned char *at, uint32_t value) {
    for (int i = 0; i < 4; i++) {
        at[i] = (unsigned char)(value >> (24 - 8 * i));
    }
}

/* The check that ends every chunk of a PNG: CRC-32. */
static uint32_t check_of(const unsigned char *bytes, int count) {
    uint32_t check = 0xffffffffU;
    for (int i = 0; i < count; i++) {
        check ^= bytes[i];
        for (int bit = 0; bit < 8; bit++) {
            check = (check & 1U) != 0 ? (check >> 1) ^ 0xedb88320U : check >> 1;
        }
    }
    return check ^ 0xffffffffU;
}

/* Says how large a dot is, which cairo leaves out: readers then take what fits a screen. */
static void put_resolution(ss_text *out, int dots) {
    unsigned char chunk[21] = {0, 0, 0, 9, 'p', 'H', 'Y', 's'};
    const uint32_t per_metre = (uint32_t)lround(dots / 0.0254);
    put_32(chunk + 8, per_metre);
    put_32(chunk + 12, per_metre);
    chunk[16] = 1;
    put_32(chunk + 17, check_of(chunk + 4, 13));
    ss_text_add_bytes(out, (const char *)chunk, sizeof chunk);
}

ss_status ss_write_figure_png(const ss_figure *figure, int dots, ss_text *out, ss_error *error) {
    if (figure->failed) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the figure");
    }
    const double scale = dots / 25.4;
    const double width = ceil(figure->width * scale);
    const double height = ceil(figure->height * scale);
    if (!(width >= 1.0 && height >= 1.0 && width <= MOST_ALONG && height <= MOST_ALONG &&
          width * height <= MOST)) {
        return ss_error_set(error, SS_ERROR_LIMIT, "a picture of %d dots per inch is too large", dots);
    }
    ss_faces faces = {.face = {NULL}};
    ss_text bytes = {0};
    ss_status status = ss_faces_open(&faces, error);
    cairo_surface_t *const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)width, (int)height);
    cairo_t *const page = cairo_create(surface);
    if (status == SS_OK) {
        ss_cairo_colour(page, SS_PAPER, 1.0);
        cairo_paint(page);
        cairo_scale(page, scale, scale);
        status = ss_cairo_figure(page, &faces, figure, error);
    }
    if (status == SS_OK && cairo_status(page) == CAIRO_STATUS_SUCCESS &&
        cairo_surface_write_to_png_stream(surface, ss_cairo_take, &bytes) != CAIRO_STATUS_SUCCESS) {
        status = ss_error_set(error, SS_ERROR_MEMORY, "no memory for the picture");
    }
    const ss_status ended = ss_cairo_end(page, surface, &bytes, status == SS_OK ? error : NULL);
    status = status == SS_OK ? ended : status;
    if (status == SS_OK) {
        ss_text_add_bytes(out, bytes.data, HEADER);
        put_resolution(out, dots);
        ss_text_add_bytes(out, bytes.data + HEADER, bytes.length - HEADER);
        status = out->failed ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the picture") : SS_OK;
    }
    ss_text_destroy(&bytes);
    ss_faces_close(&faces);
    return status;
}
