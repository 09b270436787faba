/* write_cairo_none.c - a build without cairo: PDF and PNG are refused in words. */
#include "sillspan/libraries.h"
#include "sillspan/write.h"

static ss_status refuse(ss_error *error) {
    return ss_error_set(error, SS_ERROR_LIMIT,
                        "PDF and PNG are not in this build of sillspan (SILLSPAN_CAIRO)");
}

ss_status ss_write_figure_pdf(const ss_figure *figure, ss_text *out, ss_error *error) {
    (void)figure;
    (void)out;
    return refuse(error);
}

ss_status ss_write_figure_png(const ss_figure *figure, int dots, ss_text *out, ss_error *error) {
    (void)figure;
    (void)dots;
    (void)out;
    return refuse(error);
}

const char *ss_libraries_drawing(char *buffer, size_t size) {
    if (size > 0) {
        buffer[0] = '\0';
    }
    return NULL;
}

ss_status ss_write_pdf(const ss_report *report, ss_paper_size paper, ss_text *out, ss_error *error) {
    (void)report;
    (void)paper;
    (void)out;
    return refuse(error);
}
