/* deliver_figure.h - figures into files. */
#ifndef SS_CLI_DELIVER_FIGURE_H
#define SS_CLI_DELIVER_FIGURE_H

#include "cli/options.h"
#include "sillspan/figure.h"
#include "sillspan/text.h"

/** Appends the figure as `format` (svg, pdf, png) has it; `dots` to an inch of a png, 0: a fitting number. */
ss_status ss_figure_write(const ss_figure *figure, ss_format format, int dots, ss_text *out, ss_error *error);

typedef ss_status ss_deliver_maker(const ss_results *results, ss_unit_system units, ss_figure *out,
                                   ss_error *error);

/** Makes the figure that a study was asked for by --figure, and writes it whole; nothing where none was. */
ss_status ss_deliver_figure(const ss_invocation *asked, ss_deliver_maker *make, const ss_results *results,
                            ss_unit_system units, ss_error *error);

#endif
