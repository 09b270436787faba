/* test_write_pdf.c - a report on paper: nothing runs off the page or is lost, what belongs together stays
 * together. */
#include "io/pdf_parts.h"
#include "written_report.h"

static const char hostile[] = ") Tj /JavaScript (a) </title><script>alert('x')</script> \\ {} % endstream "
                              "\xE2\x80\xAE\x1B[31m \xC3\x28";

enum { MOST_COLUMNS = 40, MOST_ROWS = 120 };

static ss_text pdf_of(const ss_report *report, ss_paper_size paper) {
    ss_text out = {0};
    ss_error error = {0};
    CHECK_OK(ss_write_pdf(report, paper, &out, &error), &error);
    return out;
}

static int count_of(const ss_text *text, const char *word) {
    const size_t length = strlen(word);
    int count = 0;
    for (size_t i = 0; i + length <= text->length; i++) {
        count += memcmp(text->data + i, word, length) == 0;
    }
    return count;
}

/* A report that was set and broken into pages. */
typedef struct broken {
    ss_faces faces;
    ss_pdf pdf;
    ss_pages pages;
} broken;

static void check_piece(const ss_pdf *pdf, const ss_box *box, const ss_piece *piece) {
    const char *const text = piece->kind == SS_PIECE_TEXT ? piece->text : "";
    const double right = piece->kind == SS_PIECE_TEXT   ? piece->at.x + ss_pdf_width(pdf, piece->pen, text)
                         : piece->kind == SS_PIECE_RULE ? piece->to.x
                                                        : piece->at.x;
    CHECK_ROW(right <= pdf->width + 0.1, text);
    if (piece->kind != SS_PIECE_FIGURE) {
        CHECK_ROW(piece->at.x >= -0.1 && piece->at.y >= -0.1 && piece->at.y <= box->height + 0.1, text);
    }
}

/* Sets a report and looks at what any report must have: all within the page, nothing twice but heads, nothing
 * on anything, no heading at the end of a page. */
static void set_and_check(broken *b, const ss_report *report, ss_paper_size paper, const char *row) {
    ss_error error = {0};
    CHECK_OK(ss_faces_open(&b->faces, &error), &error);
    ss_pdf_set(&b->pdf, report, &b->faces, paper);
    ss_pdf_break_pages(&b->pdf, &b->pages);
    const ss_pdf *const pdf = &b->pdf;
    CU_ASSERT_FALSE_FATAL(pdf->failed);
    for (int i = 0; i < pdf->box_count; i++) {
        for (int k = 0; k < pdf->boxes[i].pieces; k++) {
            check_piece(pdf, &pdf->boxes[i], &pdf->pieces[pdf->boxes[i].piece + k]);
        }
    }
    int next = 0;
    for (int i = 0; i < b->pages.count; i++) {
        const ss_stand *const s = &b->pages.stands[i];
        const ss_stand *const before = i > 0 && s[-1].page == s->page ? s - 1 : NULL;
        const ss_stand *const after = i + 1 < b->pages.count && s[1].page == s->page ? s + 1 : NULL;
        const ss_box *const box = &pdf->boxes[s->box];
        CHECK_ROW(s->y >= 0.0 && s->y + box->height <= pdf->height + 0.1, row);
        CHECK_ROW(before == NULL || s->y >= before->y + pdf->boxes[before->box].height - 0.01, row);
        CHECK_ROW(s->box <= next, row);
        next = s->box == next ? next + 1 : next;
        CHECK_ROW(box->section == 0 || after != NULL || s->box == pdf->box_count - 1, row);
    }
    CHECK_ROW(next == pdf->box_count, row);
}

static void give_back(broken *b) {
    ss_pages_destroy(&b->pages);
    ss_pdf_empty(&b->pdf);
    ss_faces_close(&b->faces);
}

static void test_file(void) {
    static written_report w;
    make_written(&w);
    ss_text pdf = pdf_of(&w.report, SS_PAPER_A4);
    ss_text again = pdf_of(&w.report, SS_PAPER_A4);
    CU_ASSERT_EQUAL(strncmp(pdf.data, "%PDF-1.", 7), 0);
    CU_ASSERT_STRING_EQUAL(pdf.data + pdf.length - 6, "%%EOF\n");
    CU_ASSERT_EQUAL(count_of(&pdf, "/Type /Page %"), 1);
    CU_ASSERT_EQUAL(count_of(&pdf, "Date"), 0);
    CU_ASSERT_EQUAL(count_of(&pdf, "/Title (Title)"), 1);
    CU_ASSERT_EQUAL_FATAL(again.length, pdf.length);
    CU_ASSERT_EQUAL(memcmp(again.data, pdf.data, pdf.length), 0);
    ss_text_destroy(&again);
    ss_text_destroy(&pdf);
}

/* ISO 216 and 8 1/2 by 11 in, in points. */
static void test_papers(void) {
    static written_report w;
    make_written(&w);
    ss_text pdf = pdf_of(&w.report, SS_PAPER_A4);
    CU_ASSERT_EQUAL(count_of(&pdf, "/MediaBox [ 0 0 595.275591 841.889764 ]"), 1);
    ss_text_destroy(&pdf);
    pdf = pdf_of(&w.report, SS_PAPER_LETTER);
    CU_ASSERT_EQUAL(count_of(&pdf, "/MediaBox [ 0 0 612 792 ]"), 1);
    ss_text_destroy(&pdf);
}

static void test_contents(void) {
    static const char *const blanks[] = {"Name", "Date", "Seal"};
    static ss_block blocks[] = {
        {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Bridge"},
        {.kind = SS_BLOCK_SENTENCE, .audience = SS_FOR_PEOPLE, .text = "One."},
        {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Answer"},
        {.kind = SS_BLOCK_VALUE, .audience = SS_FOR_ALL, .key = "caution", .text = "Mind."},
        {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PROGRAMS, .text = "Unseen"},
        {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Rows (more)"},
        {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Signed"},
        {.kind = SS_BLOCK_BLANKS, .audience = SS_FOR_PEOPLE, .items = (const char **)blanks, .item_count = 3},
    };
    const ss_report report = {.units = SS_UNITS_US, .blocks = blocks, .count = ENTRIES(blocks)};
    broken b;
    ss_text pdf = pdf_of(&report, SS_PAPER_A4);
    /* The contents link each section by its name and by its page; the outline has it too. */
    CU_ASSERT_EQUAL(count_of(&pdf, "/Subtype /Link"), 6);
    CU_ASSERT_EQUAL(count_of(&pdf, "/Title (Answer)"), 1);
    CU_ASSERT_EQUAL(count_of(&pdf, "/Title <FEFF0052006F0077007300200028006D006F007200650029>"), 1);
    CU_ASSERT_EQUAL(count_of(&pdf, "Unseen"), 0);
    ss_text_destroy(&pdf);
    set_and_check(&b, &report, SS_PAPER_A4, "contents");
    CU_ASSERT_EQUAL(b.pdf.section_count, 3);
    give_back(&b);
}

/* All letters of the pieces that are texts, without blanks. */
static ss_text letters_of(const ss_pdf *pdf) {
    ss_text all = {0};
    for (int i = 0; i < pdf->piece_count; i++) {
        for (const char *c = pdf->pieces[i].kind == SS_PIECE_TEXT ? pdf->pieces[i].text : ""; *c != '\0';
             c++) {
            ss_text_add_bytes(&all, c, *c != ' ');
        }
    }
    ss_text_add(&all, "");
    return all;
}

/* Paragraphs lose no letter, whatever they hold; a word may be longer than a page. */
static void test_paragraphs(void) {
    static char words[20001];
    static char word[20001];
    for (int i = 0; i < 20000; i++) {
        words[i] = (char)(i % 7 == 6 ? ' ' : 'a' + i % 26);
        word[i] = (char)(i % 11 == 10 ? '.' : 'a' + i % 26);
    }
    const char *const texts[] = {words, word, "short", "", "   ", hostile};
    for (int t = 0; t < ENTRIES(texts); t++) {
        const char *items[] = {texts[t]};
        ss_block blocks[] = {
            {.kind = SS_BLOCK_SENTENCE, .audience = SS_FOR_PEOPLE, .text = texts[t]},
            {.kind = SS_BLOCK_LIST, .audience = SS_FOR_PEOPLE, .items = items, .item_count = 1},
            {.kind = SS_BLOCK_VALUE, .audience = SS_FOR_PEOPLE, .text = texts[t]}};
        for (int k = 0; k < ENTRIES(blocks); k++) {
            const ss_report report = {.units = SS_UNITS_US, .blocks = &blocks[k], .count = 1};
            broken b;
            ss_text plain = {0};
            ss_text expected = {0};
            set_and_check(&b, &report, SS_PAPER_A4, texts[t]);
            ss_text_add_plain(&plain, texts[t]);
            for (const char *c = plain.data == NULL ? "" : plain.data; *c != '\0'; c++) {
                ss_text_add_bytes(&expected, c, *c != ' ');
            }
            ss_text_add(&expected, "");
            ss_text found = letters_of(&b.pdf);
            const size_t bullet = k == 1 && expected.length > 0 ? strlen("\u2022") : 0;
            CHECK_ROW(strcmp(found.data + bullet, expected.data) == 0, texts[t]);
            ss_text_destroy(&plain);
            ss_text_destroy(&expected);
            ss_text_destroy(&found);
            give_back(&b);
        }
    }
}

/* A table of so many columns and rows, with words, numbers and quantities in turn. */
typedef struct large {
    ss_column columns[MOST_COLUMNS];
    ss_cell cells[MOST_COLUMNS * MOST_ROWS];
    ss_table table;
    ss_block blocks[3];
    ss_report report;
} large;

static void make_large(large *l, int columns, int rows, const char *word) {
    *l = (large){.table = {.key = "large",
                           .title = "Large",
                           .note = "A note.",
                           .column_count = columns,
                           .row_count = rows,
                           .columns = l->columns,
                           .cells = l->cells}};
    for (int k = 0; k < columns; k++) {
        l->columns[k] = (ss_column){"key", k % 3 == 1 ? "at x" : "title of it", SS_DIM_NUMBER, 4, SS_FOR_ALL};
        l->columns[k].dimension = k % 3 == 1 ? SS_DIM_LENGTH : SS_DIM_NUMBER;
        for (int row = 0; row < rows; row++) {
            l->cells[row * columns + k] = k % 3 == 0 ? (ss_cell){SS_CELL_TEXT, word, 0.0, SS_DIM_NUMBER}
                                          : k % 3 == 1
                                              ? (ss_cell){SS_CELL_QUANTITY, NULL, row * 1.5, SS_DIM_NUMBER}
                                              : (ss_cell){SS_CELL_QUANTITY, NULL, row * 1e3, SS_DIM_FORCE};
        }
    }
    l->blocks[0] = (ss_block){.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Title"};
    l->blocks[1] = (ss_block){.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Section"};
    l->blocks[2] = (ss_block){.kind = SS_BLOCK_TABLE, .key = "large", .table = &l->table};
    l->report = (ss_report){.units = SS_UNITS_US, .blocks = l->blocks, .count = 3};
}

/* How often a text is written. */
static int times(const ss_pdf *pdf, const char *text) {
    int count = 0;
    for (int i = 0; i < pdf->piece_count; i++) {
        count += pdf->pieces[i].kind == SS_PIECE_TEXT && strcmp(pdf->pieces[i].text, text) == 0;
    }
    return count;
}

static void test_tables_of_any_size(void) {
    static large l;
    static const int columns[] = {1, 2, 5, 12, 40};
    static const int rows[] = {1, 2, 3, 17, 120};
    static const char *const words[] = {"sill", "stringer 3, far part of car south, under the joint",
                                        "bridge.bearings.pads.settlement.of.the.far.end.of.the.car", hostile};
    for (int i = 0; i < ENTRIES(columns) * ENTRIES(rows) * ENTRIES(words); i++) {
        const int c = columns[i % 5];
        const int r = rows[i / 5 % 5];
        broken b;
        make_large(&l, c, r, words[i / 25]);
        set_and_check(&b, &l.report, i % 2 == 0 ? SS_PAPER_A4 : SS_PAPER_LETTER, words[i / 25]);
        /* Each column that says "sill" has it in each row, and the first again in each part of a table that
         * is too wide. */
        CHECK_ROW(i / 25 > 0 || times(&b.pdf, "sill") >= r * ((c + 2) / 3), words[i / 25]);
        CU_ASSERT_EQUAL(times(&b.pdf, "A note."), 1);
        give_back(&b);
    }
}

/* Where a long table goes on, its head stands again; a short one stays on one page. */
static void test_heads_and_short_tables(void) {
    static large l;
    broken b;
    make_large(&l, 3, 120, "sill");
    set_and_check(&b, &l.report, SS_PAPER_A4, "long");
    int heads = 0;
    int head = -1;
    for (int i = 0; i < b.pdf.box_count; i++) {
        head = b.pdf.boxes[i].heads > 0 ? b.pdf.boxes[i].head : head;
    }
    for (int i = 0; i < b.pages.count; i++) {
        heads += b.pages.stands[i].box == head;
    }
    CU_ASSERT_TRUE(b.pages.page > 0);
    CU_ASSERT_EQUAL(heads, b.pages.page + 1);
    give_back(&b);

    /* Sentences of every length above it, so that it comes to stand anywhere on the page. */
    static char above[6001];
    for (int length = 0; length < 6000; length += 97) {
        memset(above, 'a', sizeof above);
        for (int i = 5; i < length; i += 6) {
            above[i] = ' ';
        }
        above[length] = '\0';
        make_large(&l, 3, 12, "sill");
        l.blocks[0] = (ss_block){.kind = SS_BLOCK_SENTENCE, .audience = SS_FOR_PEOPLE, .text = above};
        l.blocks[1].kind = SS_BLOCK_SENTENCE;
        set_and_check(&b, &l.report, SS_PAPER_A4, "short");
        int first = -1;
        int last = -1;
        for (int i = 0; i < b.pages.count; i++) {
            if (b.pdf.boxes[b.pages.stands[i].box].heads > 0) {
                first = first < 0 ? b.pages.stands[i].page : first;
                last = b.pages.stands[i].page;
            }
        }
        CU_ASSERT_EQUAL(first, last);
        give_back(&b);
    }
}

static void test_records(void) {
    static large l;
    broken b;
    make_large(&l, 40, 1, "under the joint of the far car, where it is");
    l.table.record = true;
    set_and_check(&b, &l.report, SS_PAPER_A4, "record");
    CU_ASSERT_EQUAL(times(&b.pdf, "title of it"), 27);
    give_back(&b);
}

/* A figure goes on the page, however large it is. */
static void test_figures(void) {
    static const double sizes[][2] = {{180.0, 60.0}, {20.0, 2000.0}, {3000.0, 10.0}, {1000.0, 1000.0}};
    for (int i = 0; i < ENTRIES(sizes); i++) {
        ss_figure figure = {.key = "plan", .title = "Plan", .width = sizes[i][0], .height = sizes[i][1]};
        ss_figure_box(&figure, SS_FIGURE_OUTLINE, (ss_spot){5.0, 5.0},
                      (ss_spot){sizes[i][0] - 5.0, sizes[i][1] - 5.0});
        ss_block blocks[] = {{.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Title"},
                             {.kind = SS_BLOCK_FIGURE, .audience = SS_FOR_PEOPLE, .figure = &figure}};
        const ss_report report = {.units = SS_UNITS_US, .blocks = blocks, .count = 2};
        broken b;
        set_and_check(&b, &report, SS_PAPER_A4, "figure");
        const ss_piece *const piece = &b.pdf.pieces[b.pdf.piece_count - 1];
        CU_ASSERT_EQUAL_FATAL(piece->kind, SS_PIECE_FIGURE);
        CU_ASSERT_TRUE(piece->pen.size * (sizes[i][0] - 10.0) <= b.pdf.width + 0.1);
        check_near("left edge", piece->at.x + 5.0 * piece->pen.size, 0.0, 1e-9, b.pdf.width);
        give_back(&b);
        ss_text pdf = pdf_of(&report, SS_PAPER_A4);
        CU_ASSERT_TRUE(pdf.length > 0);
        ss_text_destroy(&pdf);
        ss_figure_destroy(&figure);
    }
}

/* The places to be signed stand with all words of their section, wherever that comes to stand. */
static void test_blanks(void) {
    static const char *const blanks[] = {"Name", "Date", "Seal"};
    static char above[6001];
    for (int length = 0; length < 6000; length += 97) {
        memset(above, 'a', sizeof above);
        for (int i = 5; i < length; i += 6) {
            above[i] = ' ';
        }
        above[length] = '\0';
        ss_block blocks[] = {
            {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Title"},
            {.kind = SS_BLOCK_SENTENCE, .audience = SS_FOR_PEOPLE, .text = above},
            {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Signed"},
            {.kind = SS_BLOCK_SENTENCE, .audience = SS_FOR_PEOPLE, .text = "To be filled in."},
            {.kind = SS_BLOCK_BLANKS,
             .audience = SS_FOR_PEOPLE,
             .items = (const char **)blanks,
             .item_count = 3}};
        const ss_report report = {.units = SS_UNITS_US, .blocks = blocks, .count = ENTRIES(blocks)};
        broken b;
        set_and_check(&b, &report, SS_PAPER_A4, "blanks");
        CU_ASSERT_EQUAL(b.pages.begins[0], b.pages.page);
        give_back(&b);
    }
}

/* A number and its unit are on one line, however lines are broken. */
static void test_units_stay(void) {
    char text[200];
    for (int before = 0; before < 120; before++) {
        memset(text, 'a', sizeof text);
        for (int i = 6; i < before; i += 7) {
            text[i] = ' ';
        }
        snprintf(text + before, sizeof text - (size_t)before, " carries 12.5 kip and 24 %%, of 3 ft");
        const ss_block block = {.kind = SS_BLOCK_SENTENCE, .audience = SS_FOR_PEOPLE, .text = text};
        const ss_report report = {.units = SS_UNITS_US, .blocks = (ss_block *)&block, .count = 1};
        broken b;
        int found = 0;
        set_and_check(&b, &report, SS_PAPER_A4, text);
        for (int i = 0; i < b.pdf.piece_count; i++) {
            found += strstr(b.pdf.pieces[i].text, "12.5\u00a0kip") != NULL;
            found += strstr(b.pdf.pieces[i].text, "24\u00a0%,") != NULL;
            found += strstr(b.pdf.pieces[i].text, "3\u00a0ft") != NULL;
        }
        CHECK_ROW(found == 3, text);
        give_back(&b);
    }
}

static void test_hostile_text(void) {
    static written_report w;
    broken b;
    make_written(&w);
    w.blocks[0].text = hostile;
    w.blocks[1].text = hostile;
    w.items[0] = hostile;
    w.cells[0].text = hostile;
    w.cells[6].text = hostile;
    w.columns[0].title = hostile;
    w.table.title = hostile;
    w.table.note = hostile;
    w.labels[0].text = hostile;
    w.drawing.title = hostile;
    w.drawing.note = hostile;
    set_and_check(&b, &w.report, SS_PAPER_A4, "hostile");
    give_back(&b);
    ss_text pdf = pdf_of(&w.report, SS_PAPER_A4);
    /* The title in the file's own words is the one place where it is not letters of a font. */
    CU_ASSERT_EQUAL(count_of(&pdf, "(a)"), 0);
    CU_ASSERT_EQUAL(count_of(&pdf, "\x1B[31m"), 0);
    CU_ASSERT_EQUAL(count_of(&pdf, "/Type /Catalog"), 1);
    ss_text_destroy(&pdf);
}

static void test_nothing(void) {
    const ss_report report = {.units = SS_UNITS_US};
    ss_text pdf = pdf_of(&report, SS_PAPER_A4);
    CU_ASSERT_EQUAL(count_of(&pdf, "/Type /Page %"), 1);
    ss_text_destroy(&pdf);
}

static ss_status on_a4(const ss_report *report, ss_text *out, ss_error *error) {
    return ss_write_pdf(report, SS_PAPER_A4, out, error);
}

static void test_memory(void) {
    check_every_allocation(on_a4, 3000);
}

static const test_case cases[] = {
    {"a file that ends", test_file},
    {"A4 and Letter", test_papers},
    {"contents, links and outline", test_contents},
    {"paragraphs lose no letter", test_paragraphs},
    {"tables of any size", test_tables_of_any_size},
    {"heads again, short tables whole", test_heads_and_short_tables},
    {"records", test_records},
    {"figures of any size", test_figures},
    {"places to be signed", test_blanks},
    {"numbers and their units", test_units_stay},
    {"hostile text", test_hostile_text},
    {"nothing at all", test_nothing},
    {"every allocation fails in turn", test_memory},
};

int main(void) {
    return RUN_SUITE("write pdf", cases);
}
