/* write_svg.h - a figure as part of a page, apart from the file that it can be. */
#ifndef SS_WRITE_SVG_H
#define SS_WRITE_SVG_H

#include "sillspan/figure.h"
#include "sillspan/text.h"

/** Appends the rules for all figures of a page. */
void ss_svg_style(ss_text *out);

/** Appends the figure as one element without a style of its own. All ids begin with `prefix`, which is
 * another one for each figure of a page. */
void ss_svg_figure(const ss_figure *figure, const char *prefix, ss_text *out);

#endif
