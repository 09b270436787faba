/* write_html_style.c - the look of the page: a field book's, and paper's when it is printed. */
#include "io/write_html.h"
#include "io/write_svg.h"

/* Ink on paper, thin rules, and one accent: the red margin line of a field book. Every text has a contrast of
 * at least 5 to 1 with what is behind it. */
static const char *const colours[] = {
    ":root { --paper: #fcfaf4; --ink: #23221e; --soft: #57524a; --rule: #cdc4b1; --red: #8c3a25; }",
};

static const char *const page_rules[] = {
    "* { box-sizing: border-box; }",
    "html { background: var(--paper); color: var(--ink); -webkit-text-size-adjust: 100%; }",
    "body { margin: 0 auto; padding: 1.5rem 1.25rem 3rem; max-width: 62rem;",
    "  font: 1rem/1.5 \"Iowan Old Style\", \"Palatino Linotype\", Palatino, \"Liberation Serif\",",
    "  \"Times New Roman\",",
    "  serif; font-variant-numeric: lining-nums; overflow-wrap: break-word; }",
    "h1 { margin: 0 0 .3rem; font-size: 1.75rem; line-height: 1.2; font-weight: 600; }",
    "h2 { margin: 0 0 .8rem; padding-bottom: .2rem; border-bottom: 1px solid var(--rule);",
    "  font-size: 1.2rem;",
    "  line-height: 1.3; font-weight: 600; color: var(--red); }",
    "header { padding-bottom: .6rem; border-bottom: 3px double var(--red); margin-bottom: 1.5rem; }",
    "header p { margin: 0; color: var(--soft); max-width: 46rem; }",
    "section, nav { margin: 0 0 2.2rem; }",
    "section { scroll-margin-top: 1rem; }",
    "p, ul, ol { margin: 0 0 .9rem; max-width: 46rem; }",
    "ul, ol { padding-left: 1.3rem; }",
    "li { margin-bottom: .3rem; }",
    "a { color: var(--red); }",
    "a:focus-visible, .wide:focus-visible { outline: 2px solid var(--red); outline-offset: 2px; }",
    ".skip { position: absolute; left: -100rem; }",
    ".skip:focus { left: 1rem; top: .5rem; padding: .2rem .6rem; background: var(--paper); }",
    ".said { border-left: 3px solid var(--red); padding-left: .9rem; }",
    ".note { margin: .35rem 0 0; font-size: .9rem; color: var(--soft); }",
    ".unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }",
};

static const char *const table_rules[] = {
    ".sheet, figure { margin: 0 0 1.6rem; }",
    ".wide { overflow-x: auto; position: relative; }",
    "table { border-collapse: collapse; font-size: .92rem; line-height: 1.35;",
    "  font-variant-numeric: lining-nums tabular-nums; }",
    "caption, figcaption { text-align: left; font-style: italic; padding: 0 0 .35rem;",
    "  font-size: 1rem; }",
    "th, td { padding: .28rem .9rem .28rem 0; vertical-align: top; text-align: left; }",
    "th:last-child, td:last-child { padding-right: 0; }",
    "tbody tr + tr > * { border-top: 1px solid var(--rule); }",
    "thead th, thead td { vertical-align: bottom; font-weight: 600;",
    "  border-bottom: 1.5px solid var(--ink); }",
    "tbody th { font-weight: 400; }",
    "table.rows { border-bottom: 1px solid var(--ink); }",
    "td.n, th.n { text-align: right; }",
    "td.n, .q { white-space: nowrap; }",
    "td[data-pad]::after { content: attr(data-pad); visibility: hidden; }",
    ".unit { display: block; font-weight: 400; font-style: italic; color: var(--soft); }",
    "table.record th { color: var(--soft); min-width: 9rem; max-width: 16rem; }",
    "table.record td { max-width: 40rem; }",
    "table[data-key=summary] { font-size: 1.08rem; line-height: 1.4;",
    "  border-top: 1.5px solid var(--ink);",
    "  border-bottom: 1.5px solid var(--ink); }",
    "table[data-key=summary] th { font-style: italic; }",
};

static const char *const drawing_rules[] = {
    "svg.drawing { display: block; overflow: visible; width: 100%; min-width: 38rem;",
    "  max-width: 58rem; }",
    "svg.sillspan { display: block; width: 100%; min-width: 38rem; max-width: 58rem; }",
    ".drawing text { font-size: 12px; fill: var(--ink); }",
    ".s { fill: none; stroke: var(--ink); stroke-width: 1; }",
    ".s.edge { stroke: #8a8172; }",
    ".s.ground { stroke: #8a8172; stroke-dasharray: 2 3; }",
    ".s.slab { stroke: #a9a294; stroke-width: 9; }",
    ".s.curb { stroke: #57524a; stroke-dasharray: 6 4; }",
    ".s.beam { stroke: #8a8172; }",
    ".s.plate { stroke-width: 2; }",
    ".s.girder { stroke-width: 3; }",
    ".s.joint { stroke: var(--red); stroke-width: 2; stroke-dasharray: 5 3; }",
    ".s.lane { stroke: var(--soft); stroke-width: 4; stroke-dasharray: 1 4; }",
    ".p { fill: var(--ink); }",
    ".p.joint { fill: var(--red); }",
    ".p.bearing { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }",
    ".key { display: flex; flex-wrap: wrap; gap: .1rem 1.3rem; list-style: none; padding: 0;",
    "  margin: .4rem 0 0;",
    "  font-size: .9rem; max-width: none; }",
    ".key svg { width: 28px; height: 12px; margin-right: .4rem; vertical-align: -1px; }",
    ".blanks { margin: 1.5rem 0 0; display: grid;",
    "  grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr));",
    "  gap: 1.4rem 2rem; }",
    ".blanks dt { font-size: .9rem; color: var(--soft); }",
    ".blanks dd { margin: 0; height: 2.2rem; border-bottom: 1px solid var(--ink); }",
    ".blanks div:last-child dd { height: 9rem; border: 1px solid var(--rule); }",
};

/* Beside the text where there is room, else after the answer. */
static const char *const screen_rules[] = {
    "@media screen and (min-width: 78rem) {",
    "  body { margin-left: 17rem; padding-left: 2rem; border-left: 1px solid var(--red);",
    "  min-height: 100vh; }",
    "  nav { position: fixed; left: 0; top: 0; bottom: 0; width: 17rem; padding: 1.6rem 1.5rem;",
    "  overflow: auto;",
    "    font-size: .92rem; line-height: 1.35; }",
    "  nav ol { padding-left: 1.6rem; }",
    "  nav a { text-decoration: none; }",
    "  nav a:hover { text-decoration: underline; }",
    "}",
    "@media screen and (max-width: 40rem) {",
    "  body { padding: 1rem .9rem 2rem; }",
    "  h1 { font-size: 1.4rem; }",
    "  table.record th { min-width: 6rem; }",
    "}",
};

static const char *const print_rules[] = {
    "@page { margin: 20mm 17mm 18mm;",
    "  @bottom-right { content: \"page \" counter(page) \" of \" counter(pages); }",
    "  @top-left { color: #57524a;",
    "  font: italic 8.5pt \"Liberation Serif\", \"Times New Roman\", serif; }",
    "  @bottom-right { color: #57524a; font: 8.5pt \"Liberation Serif\", \"Times New Roman\", serif;",
    "  } }",
    "@media print {",
    "  :root { --paper: #fff; --rule: #bbb; }",
    "  body { padding: 0; max-width: none; font-size: 10pt; line-height: 1.38; }",
    "  p, ul, ol { max-width: none; orphans: 3; widows: 3; }",
    "  h1 { font-size: 17pt; } h2 { font-size: 12.5pt; margin-bottom: 2mm; }",
    "  h1, h2, caption, figcaption { break-after: avoid; break-inside: avoid; }",
    "  header { margin-bottom: 4mm; } section, nav { margin-bottom: 7mm; }",
    "  nav { break-inside: avoid; } nav ol { columns: 3; column-gap: 7mm; font-size: 9pt; }",
    "  .skip { display: none; } a { color: inherit; text-decoration: none; }",
    "  .whole, tr, li, .said, section:has(.blanks) { break-inside: avoid; }",
    "  tbody tr:nth-child(-n+2) { break-after: avoid; }",
    "  tbody tr:nth-last-child(-n+2) { break-before: avoid; }",
    "  nav li { margin-bottom: .2mm; line-height: 1.3; }",
    "  .wide { overflow: visible; }",
    "  thead { display: table-header-group; break-after: avoid; }",
    "  .note { break-before: avoid; font-size: 8.5pt; }",
    "  .sheet, figure { margin-bottom: 5mm; }",
    "  table { font-size: 8.8pt; line-height: 1.3; width: auto; }",
    "  table.many { font-size: 7.4pt; } table.many th, table.many td { padding-right: 2mm; }",
    "  th, td { padding: .5mm 3mm .5mm 0; overflow-wrap: break-word; }",
    "  caption, figcaption { font-size: 9.8pt; }",
    "  table[data-key=summary] { font-size: 10.5pt; } table.record th { min-width: 30mm;",
    "  max-width: 55mm; }",
    "  svg.drawing, svg.sillspan { min-width: 0; }",
    "  svg.sillspan { max-height: 240mm; }",
    "  .key { font-size: 8.8pt; }",
    "}",
};

static void add(ss_text *out, const char *const *lines, size_t count) {
    for (size_t i = 0; i < count; i++) {
        ss_text_add(out, lines[i]);
        ss_text_add(out, "\n");
    }
}

void ss_html_style(ss_text *out) {
    add(out, colours, sizeof colours / sizeof colours[0]);
    add(out, page_rules, sizeof page_rules / sizeof page_rules[0]);
    add(out, table_rules, sizeof table_rules / sizeof table_rules[0]);
    add(out, drawing_rules, sizeof drawing_rules / sizeof drawing_rules[0]);
    ss_svg_style(out);
    add(out, screen_rules, sizeof screen_rules / sizeof screen_rules[0]);
    add(out, print_rules, sizeof print_rules / sizeof print_rules[0]);
}
