/* write_html_figure.c - a figure in the page. */
#include <stdio.h>

#include "io/write_html.h"
#include "io/write_svg.h"
#include "sillspan/figure.h"

void ss_html_figure(ss_html *page, const ss_figure *figure) {
    char prefix[24];
    snprintf(prefix, sizeof prefix, "f%d", ++page->figures);
    ss_text_printf(page->out,
                   "<figure class=\"whole pictured\">\n<div class=\"wide\" tabindex=\"0\" role=\"group\" "
                   "aria-labelledby=\"%s-title\">\n",
                   prefix);
    ss_svg_figure(figure, prefix, page->out);
    ss_text_add(page->out, "</div>\n</figure>\n");
}
