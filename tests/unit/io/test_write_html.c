/* test_write_html.c - the page of a report: what is written is a page, and text of a description stays text.
 */
#include "io/write_html.h"
#include "sillspan/figure.h"
#include "support/html_page.h"
#include "written_report.h"

static const char hostile[] = "</title></style><script>alert('x')</script>\"><img src=x onerror=a()> "
                              "&lt; \xE2\x80\xAE\x1B[31m \xC3\x28 --> ]]> \\ {}";

static ss_text page_of(const ss_report *report) {
    ss_text out = {0};
    ss_error error = {0};
    CHECK_OK(ss_write_html(report, &out, &error), &error);
    return out;
}

static void check_has(const ss_text *text, const char *words, bool expected) {
    CHECK_ROW((strstr(text->data, words) != NULL) == expected, words);
}

static void test_escapes(void) {
    static const struct {
        const char *from, *to;
    } rows[] = {
        {"", ""},
        {"plain", "plain"},
        {"a < b & c > d", "a &lt; b &amp; c &gt; d"},
        {"\"it's\"", "&quot;it&#39;s&quot;"},
        {"&lt;", "&amp;lt;"},
        {"<<>>", "&lt;&lt;&gt;&gt;"},
        {"two\nlines\tand\x07 a bell", "two lines and? a bell"},
        {"tr\xC3\xA4ger \xE2\x80\xAE", "tr\xC3\xA4ger ?"},
        {"cut \xC3", "cut ?"},
    };
    for (int i = 0; i < ENTRIES(rows); i++) {
        ss_text out = {0};
        ss_html_text(&out, rows[i].from);
        CHECK_ROW(strcmp(out.data == NULL ? "" : out.data, rows[i].to) == 0, rows[i].from);
        ss_text_destroy(&out);
    }
}

/* Long words of a cell may be broken, between characters and not within a reference. */
static void test_cells_may_break(void) {
    static const struct {
        const char *from, *to;
    } rows[] = {
        {"", ""},
        {"two  words", "two  words"},
        {"twenty letters are ok", "twenty letters are ok"},
        {"bridge.bearings.pads.settlement of it", "bridge.<wbr>bearings.<wbr>pads.settlemen<wbr>t of it"},
        {"aaaaaaaaaaaaaaaaaaaaa", "aaaaaaaaaaaaaa<wbr>aaaaaaa"},
        {"&&&&&&&&&&&&&&&&&&&&&",
         "&amp;&amp;&amp;&amp;&amp;&amp;&amp;&amp;&amp;&amp;&amp;&amp;&amp;&amp;<wbr>"
         "&amp;&amp;&amp;&amp;&amp;&amp;&amp;"},
        {"\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4"
         "\xC3\xA4\xC3\xA4"
         "\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4",
         "\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4"
         "\xC3\xA4\xC3\xA4<wbr>"
         "\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4"},
    };
    for (int i = 0; i < ENTRIES(rows); i++) {
        ss_text out = {0};
        ss_html_cell(&out, rows[i].from);
        CHECK_ROW(strcmp(out.data == NULL ? "" : out.data, rows[i].to) == 0, out.data);
        ss_text_destroy(&out);
    }
}

static void test_escapes_in_style(void) {
    static const struct {
        const char *from, *to;
    } rows[] = {
        {"Alder Branch 12", "Alder Branch 12"},
        {"\"; } </style>", "\\000022 \\00003b  \\00007d  \\00003c \\00002f style\\00003e "},
        {"a\\b", "a\\00005c b"},
        {"M\xC3\xBChle \xE2\x82\xAC \xF0\x9F\x8C\x89", "M\\0000fc hle \\0020ac  \\01f309 "},
    };
    for (int i = 0; i < ENTRIES(rows); i++) {
        ss_text out = {0};
        ss_html_style_text(&out, rows[i].from);
        CHECK_ROW(strcmp(out.data, rows[i].to) == 0, out.data);
        ss_text_destroy(&out);
    }
}

static void test_page(void) {
    static written_report w;
    static html_page page;
    make_written(&w);
    ss_text out = page_of(&w.report);
    html_walk(&page, out.data);
    CHECK_ROW(page.fault[0] == '\0', page.fault);
    CU_ASSERT_EQUAL(page.tables, 1);
    CU_ASSERT_EQUAL(page.captions, 1);
    CU_ASSERT_EQUAL(page.rows, 3);
    CU_ASSERT_EQUAL(page.drawings, 1);
    check_has(&out, "<title>Title</title>", true);
    check_has(&out, "<h1>Title</h1>", true);
    /* What is for programs is not there, nor is a table of contents of nothing. */
    check_has(&out, "Alder", false);
    check_has(&out, "<nav", false);
    check_has(&out, "<li>one &quot;quoted&quot;</li>", true);
    ss_text_destroy(&out);
}

static void test_table(void) {
    static written_report w;
    make_written(&w);
    ss_text out = page_of(&w.report);
    check_has(
        &out,
        "<caption id=\"c1\">Rows</caption>\n<thead>\n<tr><th scope=\"col\">member</th><th scope=\"col\" "
        "class=\"n\">at x <span class=\"unit\">ft</span></th>",
        true);
    /* 10 ft and 123.456 ft with two decimals; 12 of a column that has no other number. */
    check_has(&out, "<tr><th scope=\"row\">sill</th><td class=\"n\">10.00</td><td class=\"n\">0.868</td>",
              true);
    check_has(&out, "<th scope=\"row\">tr\xC3\xA4ger?[31m</th><td class=\"n\">123.46</td>", true);
    check_has(&out, "<td class=\"n\">no limit</td>", true);
    check_has(&out, "<td class=\"n\">3.7 kip</td>", true);
    check_has(&out, "<p class=\"note\">A note.</p>", true);
    ss_text_destroy(&out);
    /* Points below each other: 0.868 has three decimals, 12 none. */
    w.cells[9].value = 12.0;
    out = page_of(&w.report);
    check_has(&out, "<td class=\"n\" data-pad=\".000\">12</td>", true);
    w.cells[9].value = 2.5;
    ss_text_destroy(&out);
    out = page_of(&w.report);
    check_has(&out, "<td class=\"n\" data-pad=\"00\">2.5</td>", true);
    ss_text_destroy(&out);
}

static void test_record_and_no_rows(void) {
    static written_report w;
    static html_page page;
    make_written(&w);
    w.table.record = true;
    w.table.row_count = 1;
    w.table.title = "";
    ss_text out = page_of(&w.report);
    html_walk(&page, out.data);
    CHECK_ROW(page.fault[0] == '\0', page.fault);
    check_has(&out, "<th scope=\"row\">at x</th><td>10.00 ft</td>", true);
    /* Without a title of its own, a table is called as its section is. */
    check_has(&out, "<caption id=\"c1\" class=\"unseen\">Title</caption>", true);
    ss_text_destroy(&out);
    w.table.row_count = 0;
    out = page_of(&w.report);
    check_has(&out, "<table", false);
    ss_text_destroy(&out);
}

static void test_sections_and_contents(void) {
    static written_report w;
    static html_page page;
    static const char *const blanks[] = {"Name", "Date"};
    ss_block blocks[] = {
        {.kind = SS_BLOCK_SENTENCE, .audience = SS_FOR_PEOPLE, .text = "Before all."},
        {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Bridge"},
        {.kind = SS_BLOCK_SENTENCE, .audience = SS_FOR_PEOPLE, .text = "One."},
        {.kind = SS_BLOCK_SENTENCE, .audience = SS_FOR_PEOPLE, .text = "Two."},
        {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Answer"},
        {.kind = SS_BLOCK_VALUE, .audience = SS_FOR_ALL, .key = "caution", .text = "Mind."},
        {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PROGRAMS, .text = "Unseen"},
        {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Rows & more"},
        {.kind = SS_BLOCK_HEADING, .audience = SS_FOR_PEOPLE, .text = "Signed"},
        {.kind = SS_BLOCK_BLANKS, .audience = SS_FOR_PEOPLE, .items = (const char **)blanks, .item_count = 2},
    };
    make_written(&w);
    w.report.blocks = blocks;
    w.report.count = ENTRIES(blocks);
    ss_text out = page_of(&w.report);
    html_walk(&page, out.data);
    CHECK_ROW(page.fault[0] == '\0', page.fault);
    CU_ASSERT_EQUAL(page.sections, 3);
    /* To the answer, and one to each section. */
    CU_ASSERT_EQUAL(page.links, 4);
    check_has(&out, "<li><a href=\"#s2\">Rows &amp; more</a></li>", true);
    check_has(&out, "<section id=\"s2\" aria-labelledby=\"h2\">\n<h2 id=\"h2\">Rows &amp; more</h2>", true);
    check_has(&out, "<p class=\"said\">Mind.</p>\n</section>\n<nav", true);
    check_has(&out, "<p>One. Two.</p>\n</header>\n<main>", true);
    check_has(&out, "<div><dt>Name</dt><dd></dd></div>", true);
    check_has(&out, "Unseen", false);
    ss_text_destroy(&out);
}

static void test_hostile_text(void) {
    static written_report w;
    static html_page page;
    make_written(&w);
    w.blocks[0].text = hostile;
    w.blocks[1].text = hostile;
    w.items[0] = hostile;
    w.cells[0].text = hostile;
    w.cells[6].text = hostile;
    w.columns[0].title = hostile;
    w.table.title = hostile;
    w.table.note = hostile;
    w.table.key = hostile;
    w.labels[0].text = hostile;
    w.drawing.title = hostile;
    w.drawing.note = hostile;
    ss_text out = page_of(&w.report);
    html_walk(&page, out.data);
    CHECK_ROW(page.fault[0] == '\0', page.fault);
    CU_ASSERT_EQUAL(page.tables, 1);
    check_has(&out, "<script", false);
    check_has(&out, "<img", false);
    check_has(&out, "\xE2\x80\xAE", false);
    check_has(&out, "\x1B", false);
    check_has(&out, "&lt;/title&gt;&lt;/style&gt;&lt;script&gt;alert(&#39;x&#39;)", true);
    ss_text_destroy(&out);
}

/* Figures have ids of their own, and their texts are text. */
static void test_figures(void) {
    static written_report w;
    static html_page page;
    ss_figure figures[2] = {{.key = "plan", .title = hostile, .text = hostile, .width = 20.0, .height = 10.0},
                            {.key = "plan", .title = "Again", .width = 20.0, .height = 10.0}};
    make_written(&w);
    for (int i = 0; i < 2; i++) {
        ss_figure_box(&figures[i], SS_FIGURE_SLAB, (ss_spot){1.0, 2.0}, (ss_spot){9.0, 4.0});
        ss_figure_line(&figures[i], SS_FIGURE_AXIS, (ss_spot){1.0, 2.0}, (ss_spot){9.0, 4.0});
        ss_figure_text(&figures[i], (ss_lettering){SS_FIGURE_LABEL, 0, 2.5, true}, (ss_spot){3.0, 3.0},
                       hostile);
        w.blocks[i + 1] = (ss_block){.kind = SS_BLOCK_FIGURE, .figure = &figures[i]};
    }
    ss_text out = page_of(&w.report);
    html_walk(&page, out.data);
    CHECK_ROW(page.fault[0] == '\0', page.fault);
    CU_ASSERT_EQUAL(page.drawings, 3);
    check_has(&out, "<title id=\"f2-title\">Again</title>", true);
    check_has(&out, "style=\"fill:url(#f1-concrete)\"", true);
    check_has(&out, "<script", false);
    check_has(&out, "http:", false);
    for (int i = 0; i < 2; i++) {
        ss_figure_destroy(&figures[i]);
    }
    ss_text_destroy(&out);
}

static void test_nothing_is_fetched_or_run(void) {
    static written_report w;
    make_written(&w);
    ss_text out = page_of(&w.report);
    static const char *const words[] = {"http:", "https:", "url(", "@import", "<script", "src="};
    for (int i = 0; i < ENTRIES(words); i++) {
        check_has(&out, words[i], false);
    }
    check_has(&out, "default-src 'none'", true);
    ss_text_destroy(&out);
}

static void test_empty_report(void) {
    static html_page page;
    const ss_report report = {.units = SS_UNITS_US};
    ss_text out = page_of(&report);
    html_walk(&page, out.data);
    /* The link to the answer leads nowhere where there is none, and so is not there. */
    CHECK_ROW(page.fault[0] == '\0', page.fault);
    ss_text_destroy(&out);
}

/* Labels are cut at a character, titles in the margin of a page too. */
static void test_long_texts_are_cut(void) {
    static written_report w;
    static html_page page;
    static char name[301];
    make_written(&w);
    for (int i = 0; i < 300; i += 2) {
        memcpy(name + i, "\xC3\xA4", 3);
    }
    w.labels[0].text = name;
    w.blocks[0].text = name;
    ss_text out = page_of(&w.report);
    html_walk(&page, out.data);
    CHECK_ROW(page.fault[0] == '\0', page.fault);
    const char *label = strstr(out.data, "text-anchor=\"end\">");
    CU_ASSERT_PTR_NOT_NULL_FATAL(label);
    label = strchr(label, '>') + 1;
    CU_ASSERT_EQUAL(strncmp(label + 43 * 2, "\u2026</text>", 10), 0);
    const char *margin = strstr(out.data, "@top-left { content: \"");
    CU_ASSERT_PTR_NOT_NULL_FATAL(margin);
    margin = strchr(margin, '"') + 1;
    CU_ASSERT_EQUAL(strcspn(margin, "\""), 90 * strlen("\\0000e4 "));
    ss_text_destroy(&out);
}

/* Labels at one place give way to each other, and all stay in the picture. */
static void test_labels_give_way(void) {
    static written_report w;
    make_written(&w);
    w.labels[0] = (ss_label){10.0, 2.0, "a label at the very end", 0};
    w.labels[1] = (ss_label){10.0, 2.0, "another one there", 0};
    ss_text out = page_of(&w.report);
    const char *first = strstr(out.data, "<text ");
    const char *second = first == NULL ? NULL : strstr(first + 1, "<text ");
    CU_ASSERT_PTR_NOT_NULL_FATAL(second);
    const double y0 = ss_text_number(strstr(first, " y=\"") + 4, NULL);
    const double y1 = ss_text_number(strstr(second, " y=\"") + 4, NULL);
    CU_ASSERT_TRUE(y1 >= y0 + 12.5);
    const char *box = strstr(out.data, "viewBox=\"0 0 760.0 ");
    CU_ASSERT_PTR_NOT_NULL_FATAL(box);
    CU_ASSERT_TRUE(ss_text_number(box + 19, NULL) > y1);
    ss_text_destroy(&out);
}

static void test_same_bytes(void) {
    static written_report w;
    make_written(&w);
    ss_text a = page_of(&w.report);
    ss_text b = page_of(&w.report);
    CU_ASSERT_STRING_EQUAL(a.data, b.data);
    ss_text_destroy(&a);
    ss_text_destroy(&b);
}

static void test_every_allocation_may_fail(void) {
    check_every_allocation(ss_write_html, 800);
}

int main(void) {
    static const test_case cases[] = {
        {"escapes", test_escapes},
        {"cells may break", test_cells_may_break},
        {"escapes in style", test_escapes_in_style},
        {"page", test_page},
        {"table", test_table},
        {"record and no rows", test_record_and_no_rows},
        {"sections and contents", test_sections_and_contents},
        {"hostile text", test_hostile_text},
        {"figures", test_figures},
        {"nothing is fetched or run", test_nothing_is_fetched_or_run},
        {"empty report", test_empty_report},
        {"long texts are cut", test_long_texts_are_cut},
        {"labels give way", test_labels_give_way},
        {"same bytes", test_same_bytes},
        {"every allocation may fail", test_every_allocation_may_fail},
    };
    return RUN_SUITE("HTML writer", cases);
}
