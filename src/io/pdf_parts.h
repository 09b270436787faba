/* pdf_parts.h - what the writers of a report's PDF share: boxes one below the other that are broken into
 * pages, lines of text, tables, drawings. All lengths are points. */
#ifndef SS_PDF_PARTS_H
#define SS_PDF_PARTS_H

#include "io/cairo_page.h"
#include "sillspan/report.h"
#include "sillspan/write.h"

/** Millimetres as points. */
#define SS_PDF_MM(mm) ((mm)*SS_POINTS_MM)

/** Ink, what steps back, rules, and the one red. */
enum { SS_PDF_INK = 0x23221e, SS_PDF_SOFT = 0x57524a, SS_PDF_RULE = 0xbbb8b0, SS_PDF_RED = 0x8c3a25 };

typedef enum ss_piece_kind {
    SS_PIECE_TEXT,
    SS_PIECE_RULE,   /**< from `at` to `to`, as wide as `size` */
    SS_PIECE_NUMBER, /**< the page on which section `section` begins, ending at `at` */
    SS_PIECE_FIGURE  /**< scaled by `size` from mm */
} ss_piece_kind;

/** Letters: face, size, colour. */
typedef struct ss_pen {
    ss_face face;
    double size;
    int colour;
} ss_pen;

/** What is drawn within a box, from its top left corner. */
typedef struct ss_piece {
    ss_piece_kind kind;
    ss_pen pen;
    ss_spot at, to;
    const char *text; /**< harmless */
    int section;      /**< TEXT: a link to this section, 0: none */
    const ss_figure *figure;
} ss_piece;

/** A strip of the page that is never broken. */
typedef struct ss_box {
    double above, height; /**< room before it, which is left out at the top of a page */
    bool keep;            /**< the next one stands on the same page */
    int head, heads;      /**< boxes that are repeated above it at the top of a page; heads 0: none */
    int section;          /**< that begins here, from 1; 0: none */
    int piece, pieces;
} ss_box;

/** A figure that was made of a drawing. */
typedef struct ss_own_figure {
    ss_figure figure;
    struct ss_own_figure *next;
} ss_own_figure;

/** The report that is being set. After a failed allocation `failed` stays set and nothing more is added. */
typedef struct ss_pdf {
    const ss_report *report;
    const ss_faces *faces;
    const char *title;               /**< harmless */
    double page_width, page_height;  /**< of the paper */
    double left, top, width, height; /**< of what is written on it */
    ss_box *boxes;
    int box_count, box_capacity;
    ss_piece *pieces;
    int piece_count, piece_capacity;
    const char **sections; /**< headings, by number less 1 */
    int section_count;
    ss_own_figure *own;
    ss_box spare; /**< what is written on after a failure, and the text that is read */
    char blank[1];
    ss_arena arena;
    bool failed;
} ss_pdf;

/** Text of anyone's made harmless, in the arena; "" after a failure. */
char *ss_pdf_plain(ss_pdf *pdf, const char *text);

/** Begins a box; pieces added after it are its own. Not to be held while others are added. */
ss_box *ss_pdf_box(ss_pdf *pdf, double above, double height);
void ss_pdf_text(ss_pdf *pdf, ss_pen pen, ss_spot at, const char *plain);
void ss_pdf_link(ss_pdf *pdf, ss_pen pen, ss_spot at, const char *plain, int section);
void ss_pdf_number(ss_pdf *pdf, ss_pen pen, ss_spot at, int section);
void ss_pdf_rule(ss_pdf *pdf, int colour, double thick, ss_spot from, ss_spot to);
/** Adds a figure as a box, scaled down where it is larger than the page. It must stay until all is drawn. */
void ss_pdf_figure(ss_pdf *pdf, const ss_figure *figure);

double ss_pdf_width(const ss_pdf *pdf, ss_pen pen, const char *plain);

/** The first `length` bytes, in the arena. */
char *ss_pdf_part(ss_pdf *pdf, const char *plain, size_t length);

/** As much of a text as `width` has room for, with an ellipsis where that is not all. */
const char *ss_pdf_cut(ss_pdf *pdf, ss_pen pen, const char *plain, double width);

/** The bytes of `plain` that one line takes, broken at a blank, within a word only where the word is longer
 * than the line; *next is where the following line begins. 0 at the end alone. `plain` is written on and
 * restored. */
size_t ss_pdf_break(const ss_pdf *pdf, ss_pen pen, char *plain, double width, char **next);

/** How a paragraph is set. */
typedef struct ss_setting {
    ss_pen pen;
    double leading; /**< from line to line */
    double above, width;
    double indent;      /**< of all lines */
    const char *before; /**< a bullet left of the first line, or NULL */
    bool bar;           /**< a red bar left of all lines */
} ss_setting;

/** Adds a paragraph, a box for each line; first and last lines do not stand alone. */
void ss_pdf_paragraph(ss_pdf *pdf, const ss_setting *setting, const char *text);

/** A text in a strip of texts beside each other. */
typedef struct ss_strip_cell {
    char *text;      /**< harmless; written on and restored */
    double x, width; /**< it is broken into lines where it is wider */
    bool right;      /**< its lines end `back` before the right edge */
    double back;
    ss_pen pen;
} ss_strip_cell;

/** Adds texts beside each other as a box, or, where they are many lines high, as a box for each line. `pad`
 * is above and below, `rule` a colour of a line above, or 0. Returns how many boxes. */
int ss_pdf_strip(ss_pdf *pdf, const ss_strip_cell *cells, int count, double leading, double pad, int rule);

/** Adds a note below what it belongs to, which stays with it. */
void ss_pdf_note(ss_pdf *pdf, const char *text);

/** Adds what stands above a table or a drawing. */
void ss_pdf_caption(ss_pdf *pdf, const char *text);

/** Adds a table for people with title and note; nothing when it has no row. */
void ss_pdf_table(ss_pdf *pdf, const ss_table *table);

/** Adds a drawing with title, key and note. */
void ss_pdf_drawing(ss_pdf *pdf, const ss_drawing *drawing);

/** Sets a report into boxes for a paper; *out is to be emptied in any case, and after that `faces` may be
 * closed. A failure is in out->failed. */
void ss_pdf_set(ss_pdf *out, const ss_report *report, const ss_faces *faces, ss_paper_size paper);
void ss_pdf_empty(ss_pdf *pdf);

/** Where a box stands. */
typedef struct ss_stand {
    int box, page; /**< page from 0 */
    double y;
} ss_stand;

/** Boxes on pages, page by page from above; heads that are repeated stand more than once. */
typedef struct ss_pages {
    ss_stand *stands;
    int count, capacity;
    int page;    /**< the last one */
    double y;    /**< below what stands on it */
    bool empty;  /**< nothing does */
    int *begins; /**< page of each section, by its number less 1 */
} ss_pages;

/** Breaks the boxes into pages; *p is to be destroyed in any case. */
void ss_pdf_break_pages(ss_pdf *pdf, ss_pages *p);
void ss_pages_destroy(ss_pages *p);

/** Breaks the boxes into pages and draws them. */
ss_status ss_pdf_draw(ss_pdf *pdf, ss_text *out, ss_error *error);

#endif
