/* deliver_figure.c - a figure as SVG, PDF or PNG, whole or not at all. */
#include "cli/deliver_figure.h"

#include "base/try.h"
#include "cli/run.h"
#include "sillspan/write.h"

/* Dots per inch where nothing is asked: sharp on paper, and not too large to be sent. */
#define DOTS 200

ss_status ss_figure_write(const ss_figure *figure, ss_format format, int dots, ss_text *out,
                          ss_error *error) {
    switch (format) {
    case SS_FORMAT_PDF: return ss_write_figure_pdf(figure, out, error);
    case SS_FORMAT_PNG: return ss_write_figure_png(figure, dots > 0 ? dots : DOTS, out, error);
    default: return ss_write_svg(figure, out, error);
    }
}

ss_status ss_deliver_figure(const ss_invocation *asked, ss_deliver_maker *make, const ss_results *results,
                            ss_unit_system units, ss_error *error) {
    ss_figure figure = {0};
    ss_text text = {0};
    ss_status status = SS_OK;
    if (asked->figure_word == NULL) {
        return SS_OK;
    }
    SS_TRY(make(results, units, &figure, error));
    SS_TRY(ss_figure_write(&figure, asked->figure_format, 0, &text, error));
    SS_TRY(ss_deliver_to(asked, asked->figure_word, &text, error));
done:
    ss_text_destroy(&text);
    ss_figure_destroy(&figure);
    return status;
}
