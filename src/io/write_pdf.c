/* write_pdf.c - a report as PDF: its blocks as boxes one below the other, which are then broken into pages.
 */
#include "io/pdf_parts.h"
#include "io/write_seen.h"

/* With fewer sections a table of contents is no help. */
#define CONTENTS_FROM 3
/* Lines of sentences that are longer than this are hard to read. */
#define SENTENCES SS_PDF_MM(158.0)

static const ss_pen body = {SS_FACE_SERIF, 10.0, SS_PDF_INK};
#define BODY_LEADING 13.6

static bool read_sections(ss_pdf *pdf) {
    const ss_report *const report = pdf->report;
    const ss_block *const title = ss_report_title(report);
    pdf->title = ss_pdf_plain(pdf, title == NULL ? "Results" : title->text);
    pdf->sections = ss_arena_alloc(&pdf->arena, (size_t)report->count + 1, sizeof *pdf->sections);
    pdf->failed = pdf->failed || pdf->sections == NULL;
    for (int i = 0; i < report->count && !pdf->failed; i++) {
        const ss_block *const block = &report->blocks[i];
        if (ss_block_seen(block) && block->kind == SS_BLOCK_HEADING && block != title) {
            pdf->sections[pdf->section_count++] = ss_pdf_plain(pdf, block->text);
        }
    }
    return !pdf->failed;
}

/* Lines that stay with what follows them; returns how many. */
static int add_heading_lines(ss_pdf *pdf, const ss_setting *setting, const char *text) {
    const int first = pdf->box_count;
    ss_pdf_paragraph(pdf, setting, text);
    if (pdf->box_count == first) {
        ss_pdf_box(pdf, setting->above, 0.1); /* a heading without words is a place all the same */
    }
    for (int i = first; i < pdf->box_count; i++) {
        pdf->boxes[i].keep = true;
    }
    return pdf->box_count - first;
}

static void add_title(ss_pdf *pdf, const char *text) {
    const ss_setting setting = {
        .pen = {SS_FACE_SERIF_BOLD, 17.0, SS_PDF_INK}, .leading = 20.5, .width = pdf->width};
    add_heading_lines(pdf, &setting, text);
}

/* Closes what stands below the title before the first section. */
static void add_double_rule(ss_pdf *pdf) {
    ss_pdf_box(pdf, SS_PDF_MM(1.5), 3.0)->keep = true;
    ss_pdf_rule(pdf, SS_PDF_RED, 0.7, (ss_spot){0.0, 0.4}, (ss_spot){pdf->width, 0.4});
    ss_pdf_rule(pdf, SS_PDF_RED, 0.7, (ss_spot){0.0, 2.6}, (ss_spot){pdf->width, 2.6});
}

static void add_section(ss_pdf *pdf, int number, const char *text) {
    const ss_setting setting = {.pen = {SS_FACE_SERIF_BOLD, 12.5, SS_PDF_RED},
                                .leading = 15.5,
                                .above = SS_PDF_MM(7.0),
                                .width = pdf->width};
    const int lines = add_heading_lines(pdf, &setting, text);
    if (!pdf->failed) {
        ss_box *const last = &pdf->boxes[pdf->box_count - 1];
        pdf->boxes[pdf->box_count - lines].section = number;
        last->height += 2.0;
        ss_pdf_rule(pdf, SS_PDF_RULE, 0.5, (ss_spot){0.0, last->height - 0.5},
                    (ss_spot){pdf->width, last->height - 0.5});
    }
}

/* Sections with their pages, in two columns that are read down. */
static void add_contents(ss_pdf *pdf) {
    const ss_pen pen = {SS_FACE_SERIF, 9.0, SS_PDF_INK};
    const ss_setting head = {.pen = {SS_FACE_SERIF_BOLD, 10.5, SS_PDF_INK},
                             .leading = 14.0,
                             .above = SS_PDF_MM(6.0),
                             .width = pdf->width};
    const int rows = (pdf->section_count + 1) / 2;
    const double between = SS_PDF_MM(9.0);
    const double width = 0.5 * (pdf->width - between);
    add_heading_lines(pdf, &head, "Contents");
    for (int row = 0; row < rows && !pdf->failed; row++) {
        ss_pdf_box(pdf, 0.0, 12.0)->keep = row < rows - 1;
        for (int column = 0; column < 2; column++) {
            const int section = row + column * rows;
            const double x = column * (width + between);
            if (section < pdf->section_count) {
                const char *const name =
                    ss_pdf_cut(pdf, pen, pdf->sections[section], width - SS_PDF_MM(10.0));
                ss_pdf_link(pdf, pen, (ss_spot){x, 9.0}, name, section + 1);
                ss_pdf_number(pdf, pen, (ss_spot){x + width, 9.0}, section + 1);
            }
        }
    }
}

/* Sentences that follow each other make one paragraph. Returns the block after it. */
static int add_sentences(ss_pdf *pdf, int first, bool soft) {
    const ss_report *const report = pdf->report;
    ss_setting setting = {.pen = body, .leading = BODY_LEADING, .above = SS_PDF_MM(2.2), .width = SENTENCES};
    ss_text all = {0};
    int i = first;
    for (; i < report->count && report->blocks[i].kind == SS_BLOCK_SENTENCE &&
           ss_block_seen(&report->blocks[i]);
         i++) {
        ss_text_add(&all, i == first ? "" : " ");
        ss_text_add(&all, report->blocks[i].text);
    }
    setting.pen.colour = soft ? SS_PDF_SOFT : body.colour;
    pdf->failed = pdf->failed || all.failed;
    ss_pdf_paragraph(pdf, &setting, all.data == NULL ? "" : all.data);
    ss_text_destroy(&all);
    return i;
}

static void add_list(ss_pdf *pdf, const ss_block *block) {
    for (int i = 0; i < block->item_count && !pdf->failed; i++) {
        const ss_setting setting = {.pen = body,
                                    .leading = BODY_LEADING,
                                    .above = SS_PDF_MM(i == 0 ? 2.2 : 0.8),
                                    .width = SENTENCES,
                                    .indent = 12.0,
                                    .before = "\u2022"};
        ss_pdf_paragraph(pdf, &setting, block->items[i]);
    }
}

static void add_said(ss_pdf *pdf, const ss_block *block) {
    const ss_setting setting = {.pen = body,
                                .leading = BODY_LEADING,
                                .above = SS_PDF_MM(2.5),
                                .width = SENTENCES,
                                .indent = 10.0,
                                .bar = true};
    const int first = pdf->box_count;
    ss_pdf_paragraph(pdf, &setting, block->text);
    for (int i = first; i < pdf->box_count - 1 && pdf->box_count - first <= 12; i++) {
        pdf->boxes[i].keep = true;
    }
}

/* What stands in the section so far stays with what comes next: nobody signs a page without its words. */
static void keep_section(ss_pdf *pdf) {
    for (int i = pdf->box_count - 1; i >= 0; i--) {
        pdf->boxes[i].keep = true;
        if (pdf->boxes[i].section > 0) {
            return;
        }
    }
}

/* Places to be written on by hand, two beside each other; the last is for a seal. */
static void add_blanks(ss_pdf *pdf, const ss_block *block) {
    const ss_pen pen = {SS_FACE_SERIF, 9.0, SS_PDF_SOFT};
    const double between = SS_PDF_MM(10.0);
    const double width = 0.5 * (pdf->width - between);
    keep_section(pdf);
    for (int i = 0; i < block->item_count && !pdf->failed; i += 2) {
        const bool seal = i + 2 >= block->item_count;
        const double height = seal ? SS_PDF_MM(46.0) : SS_PDF_MM(15.0);
        ss_pdf_box(pdf, SS_PDF_MM(3.0), height)->keep = !seal;
        for (int k = i; k < i + 2 && k < block->item_count; k++) {
            const double x = (k - i) * (width + between);
            ss_pdf_text(pdf, pen, (ss_spot){x, 9.0},
                        ss_pdf_cut(pdf, pen, ss_pdf_plain(pdf, block->items[k]), width));
            if (k < block->item_count - 1) {
                const double line = SS_PDF_MM(13.0);
                ss_pdf_rule(pdf, SS_PDF_INK, 0.6, (ss_spot){x, line}, (ss_spot){x + width, line});
                continue;
            }
            const ss_spot a = {x, SS_PDF_MM(5.0)};
            const ss_spot b = {x + width, height - 1.0};
            ss_pdf_rule(pdf, SS_PDF_RULE, 0.6, a, (ss_spot){b.x, a.y});
            ss_pdf_rule(pdf, SS_PDF_RULE, 0.6, (ss_spot){a.x, b.y}, b);
            ss_pdf_rule(pdf, SS_PDF_RULE, 0.6, a, (ss_spot){a.x, b.y});
            ss_pdf_rule(pdf, SS_PDF_RULE, 0.6, (ss_spot){b.x, a.y}, b);
        }
    }
}

static int add_block(ss_pdf *pdf, int i, bool soft) {
    const ss_block *const block = &pdf->report->blocks[i];
    switch (block->kind) {
    case SS_BLOCK_MOVING: /* for a screen */
    case SS_BLOCK_HEADING: break;
    case SS_BLOCK_SENTENCE: return add_sentences(pdf, i, soft);
    case SS_BLOCK_LIST: add_list(pdf, block); break;
    case SS_BLOCK_TABLE: ss_pdf_table(pdf, block->table); break;
    case SS_BLOCK_DRAWING: ss_pdf_drawing(pdf, block->drawing); break;
    case SS_BLOCK_FIGURE: ss_pdf_figure(pdf, block->figure); break;
    case SS_BLOCK_BLANKS: add_blanks(pdf, block); break;
    case SS_BLOCK_VALUE: add_said(pdf, block); break;
    }
    return i + 1;
}

/* The title and what comes before the first section, the sections, and the contents after the first of them,
 * which holds the answer. */
static void add_blocks(ss_pdf *pdf) {
    const ss_report *const report = pdf->report;
    const ss_block *const title = ss_report_title(report);
    const bool contents = pdf->section_count >= CONTENTS_FROM;
    int section = 0;
    for (int i = 0; i < report->count && !pdf->failed;) {
        const ss_block *const block = &report->blocks[i];
        if (!ss_block_seen(block)) {
            i++;
        } else if (block == title) {
            add_title(pdf, block->text);
            i++;
        } else if (block->kind == SS_BLOCK_HEADING) {
            if (section == 0) {
                add_double_rule(pdf);
            } else if (section == 1 && contents) {
                add_contents(pdf);
            }
            add_section(pdf, ++section, block->text);
            i++;
        } else {
            i = add_block(pdf, i, section == 0);
        }
    }
}

static void set_paper(ss_pdf *pdf, ss_paper_size paper) {
    pdf->page_width = SS_PDF_MM(paper == SS_PAPER_LETTER ? 215.9 : 210.0);
    pdf->page_height = SS_PDF_MM(paper == SS_PAPER_LETTER ? 279.4 : 297.0);
    pdf->left = SS_PDF_MM(17.0);
    pdf->top = SS_PDF_MM(20.0);
    pdf->width = pdf->page_width - 2.0 * pdf->left;
    pdf->height = pdf->page_height - pdf->top - SS_PDF_MM(17.0);
}

void ss_pdf_empty(ss_pdf *pdf) {
    for (ss_own_figure *own = pdf->own; own != NULL; own = own->next) {
        ss_figure_destroy(&own->figure);
    }
    ss_free(pdf->boxes);
    ss_free(pdf->pieces);
    ss_arena_destroy(&pdf->arena);
    *pdf = (ss_pdf){.report = NULL};
}

void ss_pdf_set(ss_pdf *out, const ss_report *report, const ss_faces *faces, ss_paper_size paper) {
    *out = (ss_pdf){.report = report, .faces = faces};
    set_paper(out, paper);
    if (read_sections(out)) {
        add_blocks(out);
    }
}

ss_status ss_write_pdf(const ss_report *report, ss_paper_size paper, ss_text *out, ss_error *error) {
    ss_faces faces;
    ss_pdf pdf = {.report = NULL};
    ss_status status = ss_faces_open(&faces, error);
    if (status == SS_OK) {
        ss_pdf_set(&pdf, report, &faces, paper);
        status = ss_pdf_draw(&pdf, out, error);
    }
    ss_pdf_empty(&pdf);
    ss_faces_close(&faces);
    return status;
}
