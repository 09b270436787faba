/* cairo_page.c - where the bytes of a drawing through cairo go, and what they say of themselves. */
#include "io/cairo_page.h"

#include <cairo-pdf.h>
#include <stdio.h>

#include "sillspan/libraries.h"
#include "sillspan/version.h"

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define SS_LEAKS_ARE_TOLD
#endif
#endif
#if defined(__SANITIZE_ADDRESS__)
#define SS_LEAKS_ARE_TOLD
#endif

#ifdef SS_LEAKS_ARE_TOLD
/* fontconfig keeps the fonts that it found until the process ends, partly behind pointers that the leak
 * checker cannot follow. Only who owns the whole process may empty it (FcFini), and a library does not. */
const char *__lsan_default_suppressions(void);
const char *__lsan_default_options(void);

const char *__lsan_default_suppressions(void) {
    return "leak:libfontconfig.so\n";
}

/* What was let through is not printed: tests compare what the command says. */
const char *__lsan_default_options(void) {
    return "print_suppressions=0";
}
#endif

cairo_status_t ss_cairo_take(void *closure, const unsigned char *bytes, unsigned length) {
    ss_text *const out = closure;
    ss_text_add_bytes(out, (const char *)bytes, length);
    return out->failed ? CAIRO_STATUS_WRITE_ERROR : CAIRO_STATUS_SUCCESS;
}

cairo_surface_t *ss_cairo_pdf(ss_text *out, double width, double height, const char *title) {
    cairo_surface_t *const surface = cairo_pdf_surface_create_for_stream(ss_cairo_take, out, width, height);
    ss_text plain = {0};
    ss_text_add_plain(&plain, title == NULL ? "" : title);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, plain.data == NULL ? "" : plain.data);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "sillspan " SS_VERSION);
    /* The same input gives the same bytes, today and tomorrow. */
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, "");
    out->failed = out->failed || plain.failed;
    ss_text_destroy(&plain);
    return surface;
}

ss_status ss_cairo_end(cairo_t *page, cairo_surface_t *surface, const ss_text *out, ss_error *error) {
    cairo_status_t drawn = cairo_status(page);
    cairo_destroy(page);
    cairo_surface_finish(surface);
    const cairo_status_t written = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    drawn = drawn != CAIRO_STATUS_SUCCESS ? drawn : written;
    if (out->failed || drawn == CAIRO_STATUS_NO_MEMORY) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the drawing");
    }
    if (drawn != CAIRO_STATUS_SUCCESS) {
        return ss_error_set(error, SS_ERROR_INTERNAL, "the drawing failed: %.200s",
                            cairo_status_to_string(drawn));
    }
    return SS_OK;
}

void ss_cairo_colour(cairo_t *page, int colour, double cover) {
    cairo_set_source_rgba(page, ((colour >> 16) & 0xff) / 255.0, ((colour >> 8) & 0xff) / 255.0,
                          (colour & 0xff) / 255.0, cover);
}

const char *ss_libraries_drawing(char *buffer, size_t size) {
    snprintf(buffer, size, "cairo %s", cairo_version_string());
    return buffer;
}
