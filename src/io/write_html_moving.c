/* write_html_moving.c - the part of a page on which a truck moves: what it stands in, its script and its
 * style.
 */
#include "io/write_html_moving.h"

#include <string.h>

static int digit_of(char hex) {
    return hex <= '9' ? hex - '0' : hex - 'a' + 10;
}

void ss_html_moving_policy(ss_text *out) {
    unsigned char digest[32];
    for (size_t i = 0; i < sizeof digest; i++) {
        digest[i] = (unsigned char)(16 * digit_of(ss_moving_script_digest[2 * i]) +
                                    digit_of(ss_moving_script_digest[2 * i + 1]));
    }
    ss_text_add(out, "; script-src 'sha256-");
    ss_moving_base64(out, digest, sizeof digest);
    ss_text_add(out, "'");
}

/* Ink, told apart by width, dash and hatching; red is for what is found. Texts have a rim of paper. */
static const char *const rules[] = {
    ".moving-plan { display: block; width: 100%; min-width: 620px; touch-action: pan-x pan-y;",
    "  user-select: none; }",
    ".moving-plan:focus-visible, .moving-controls :focus-visible, summary:focus-visible {",
    "  outline: 2px solid var(--red); outline-offset: 2px; }",
    ".moving-plan text { font-size: 12px; fill: var(--ink); }",
    ".moving-plan .middle { text-anchor: middle; } .moving-plan .end { text-anchor: end; }",
    ".moving-plan path, .moving-plan rect { fill: none; stroke: var(--ink); }",
    ".moving-plan .moving-car { stroke: #8a8172; }",
    ".moving-plan .moving-beam { stroke: var(--rule); }",
    ".moving-plan .moving-line { stroke: #8a8172; stroke-width: .7; }",
    ".moving-plan .moving-line.main { stroke: var(--ink); stroke-width: 2.4; }",
    ".moving-plan .moving-line.exterior { stroke: var(--ink); stroke-width: 1.1; }",
    ".moving-plan .moving-curb { stroke: var(--soft); stroke-dasharray: 1 3; }",
    ".moving-plan .moving-joint { stroke: var(--red); stroke-width: 2; stroke-dasharray: 5 3; fill: none; }",
    ".moving-plan circle.moving-joint { stroke-dasharray: none; fill: var(--red); stroke: none; }",
    ".moving-plan .moving-tick { stroke: var(--soft); }",
    ".moving-plan .moving-hatch { stroke: var(--soft); stroke-width: .7; }",
    ".moving-plan .moving-area { fill: url(#moving-hatch); stroke: none; }",
    ".moving-plan .moving-moment { stroke-width: 1.4; }",
    ".moving-plan .moving-sag { stroke-width: 1.3; stroke-dasharray: 7 3; }",
    ".moving-plan .moving-section { stroke: var(--soft); stroke-dasharray: 1 4; }",
    ".moving-plan .moving-bearing { fill: var(--ink); stroke: var(--paper); }",
    ".moving-plan .moving-lifted { fill: var(--paper); stroke: var(--red); stroke-width: 2; }",
    ".moving-plan .moving-truck { cursor: grab; touch-action: none; }",
    ".moving-plan .moving-body { fill: transparent; stroke: var(--ink); stroke-width: 1.2; }",
    ".moving-plan .moving-axle { stroke-width: 1.6; }",
    ".moving-plan .moving-wheel { fill: var(--ink); }",
    ".moving-plan .moving-number, .moving-plan .moving-name, .moving-plan .moving-share {",
    "  stroke: var(--paper); stroke-width: 3px; paint-order: stroke; stroke-linejoin: round;",
    "  font-variant-numeric: lining-nums tabular-nums; pointer-events: none; }",
    ".moving-plan .found { fill: var(--red); }",
    ".moving-plan .moving-name { font-style: italic; font-size: 13px; }",
    ".moving-plan .moving-share { font-size: 17px; }",
    ".moving-controls { display: grid; grid-template-columns: repeat(auto-fit, minmax(14rem, 1fr));",
    "  gap: .8rem 1.6rem; margin: .8rem 0 1.2rem; }",
    ".moving-controls label { display: block; font-size: .9rem; color: var(--soft); }",
    ".moving-controls select, .moving-controls input, .moving-controls button { font: inherit; width: 100%;",
    "  color: var(--ink); accent-color: var(--red); margin: 0; }",
    ".moving-controls select, .moving-controls button { background: var(--paper); padding: .2rem .4rem;",
    "  border: 1px solid var(--soft); border-radius: 0; }",
    ".moving-controls button { width: auto; margin-top: .3rem; font-size: .9rem; }",
    ".moving-controls output { display: block; font-size: .95rem; }",
    ".moving-mark { display: block; font-size: .8rem; color: var(--soft); line-height: 1;",
    "  white-space: nowrap; }",
    "#moving details { margin-bottom: 1rem; } #moving summary { cursor: pointer; margin-bottom: .6rem; }",
    "@media print { .screen { display: none; } }",
};

void ss_html_moving_style(ss_text *out) {
    for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
        ss_text_add(out, rules[i]);
        ss_text_add(out, "\n");
    }
}

void ss_html_moving(ss_html *page, const ss_moving_sheet *sheet) {
    ss_text *const out = page->out;
    ss_text_add(out, "<div id=\"moving\" hidden=\"hidden\"></div>\n"
                     "<script id=\"moving-data\" type=\"application/json\">");
    ss_moving_data(out, sheet, page->report->units);
    ss_text_add(out, "</script>\n<script>");
    for (const char *const *line = ss_moving_script; *line != NULL; line++) ss_text_add(out, *line);
    ss_text_add(out, "</script>\n");
}
