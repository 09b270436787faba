/* cairo_letters.c - letters by fontconfig: found by name, measured as they are, and shown as text. */
#include "io/cairo_page.h"

/* Texts are measured at this size and scaled: without hinting they grow evenly. */
#define RULER 100.0

/* Where a family is not there, fontconfig gives what stands in for it, or another of its kind. */
static const struct {
    const char *family;
    cairo_font_slant_t slant;
    cairo_font_weight_t weight;
} kinds[SS_FACES] = {
    [SS_FACE_SANS] = {"Liberation Sans", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL},
    [SS_FACE_SANS_BOLD] = {"Liberation Sans", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_BOLD},
    [SS_FACE_SERIF] = {"Liberation Serif", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL},
    [SS_FACE_SERIF_BOLD] = {"Liberation Serif", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_BOLD},
    [SS_FACE_SERIF_ITALIC] = {"Liberation Serif", CAIRO_FONT_SLANT_ITALIC, CAIRO_FONT_WEIGHT_NORMAL},
};

ss_status ss_faces_open(ss_faces *out, ss_error *error) {
    cairo_matrix_t size;
    cairo_matrix_t upright;
    bool good = true;
    *out = (ss_faces){.face = {NULL}};
    cairo_font_options_t *const options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_matrix_init_scale(&size, RULER, RULER);
    cairo_matrix_init_identity(&upright);
    for (int i = 0; i < SS_FACES; i++) {
        out->face[i] = cairo_toy_font_face_create(kinds[i].family, kinds[i].slant, kinds[i].weight);
        out->ruler[i] = cairo_scaled_font_create(out->face[i], &size, &upright, options);
        good = good && cairo_scaled_font_status(out->ruler[i]) == CAIRO_STATUS_SUCCESS;
    }
    cairo_font_options_destroy(options);
    return good ? SS_OK : ss_error_set(error, SS_ERROR_MEMORY, "no letters for the drawing");
}

void ss_faces_close(ss_faces *faces) {
    for (int i = 0; i < SS_FACES; i++) {
        if (faces->face[i] != NULL) {
            cairo_scaled_font_destroy(faces->ruler[i]);
            cairo_font_face_destroy(faces->face[i]);
        }
    }
    *faces = (ss_faces){.face = {NULL}};
}

double ss_faces_width(const ss_faces *faces, ss_face face, double size, const char *plain) {
    cairo_text_extents_t extents;
    cairo_scaled_font_text_extents(faces->ruler[face], plain, &extents);
    return extents.x_advance * size / RULER;
}

void ss_faces_show(const ss_faces *faces, cairo_t *page, ss_face face, double size, int colour, ss_spot at,
                   const char *plain) {
    cairo_font_options_t *const options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_set_font_options(page, options);
    cairo_font_options_destroy(options);
    cairo_set_font_face(page, faces->face[face]);
    cairo_set_font_size(page, size);
    ss_cairo_colour(page, colour, 1.0);
    cairo_move_to(page, at.x, at.y);
    cairo_show_text(page, plain);
    cairo_new_path(page);
}
