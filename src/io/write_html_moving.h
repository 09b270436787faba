/* write_html_moving.h - the part of a page on which a truck moves: its data, its script, its style. */
#ifndef SS_WRITE_HTML_MOVING_H
#define SS_WRITE_HTML_MOVING_H

#include "io/write_html.h"

/** The script, a line each, NULL after the last; between its element's tags there is nothing else. */
extern const char *const ss_moving_script[];
/** Its SHA-256 in hexadecimal digits. */
extern const char ss_moving_script_digest[];

/** Appends what lets that script run, and no other. */
void ss_html_moving_policy(ss_text *out);
void ss_html_moving_style(ss_text *out);
/** Appends the part. */
void ss_html_moving(ss_html *page, const ss_moving_sheet *sheet);

/** Appends the data as JSON that holds no "<". */
void ss_moving_data(ss_text *out, const ss_moving_sheet *sheet, ss_unit_system units);
/** Appends bytes in base 64. */
void ss_moving_base64(ss_text *out, const unsigned char *byte, size_t count);

#endif
