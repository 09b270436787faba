/* test_write_text.c - lines, tables and drawings as characters. */
#include "io/write_bar.h"
#include "io/write_lines.h"
#include "written_report.h"

static void wrapped(const char *text, int first, int rest, int width, const char *expected) {
    ss_text out = {0};
    ss_lines_wrap(&out, text, first, rest, width);
    CU_ASSERT_STRING_EQUAL(out.data, expected);
    ss_text_destroy(&out);
}

static void test_wrap(void) {
    wrapped("a sill of seven words in two lines", 0, 2, 20, "a sill of seven\n  words in two lines\n");
    wrapped("", 0, 0, 20, "\n");
    /* Exactly full, then one too many. */
    wrapped("12345 78901", 0, 0, 11, "12345 78901\n");
    wrapped("12345 789012", 0, 0, 11, "12345\n789012\n");
    /* A word longer than the line stays whole; letters of several bytes are one column each. */
    wrapped("see bridge.bearings.ends.gap there", 0, 0, 12, "see\nbridge.bearings.ends.gap\nthere\n");
    wrapped("\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4 \xC3\xB6\xC3\xB6\xC3\xB6\xC3\xB6\xC3\xB6", 0, 0, 11,
            "\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4 \xC3\xB6\xC3\xB6\xC3\xB6\xC3\xB6\xC3\xB6\n");
    /* Nothing from a description steers a terminal. */
    wrapped("red \x1B[31m", 0, 0, 40, "red ?[31m\n");
}

static void test_table(void) {
    static written_report w;
    make_written(&w);
    ss_text out = {0};
    ss_lines_table(&out, &w.table, SS_UNITS_US, 100);
    CU_ASSERT_STRING_EQUAL(out.data, "Rows\n"
                                     "\n"
                                     "                                  how      own\n"
                                     "  member         at x    factor  many     unit\n"
                                     "                   ft\n"
                                     "  -----------  ------  --------  ----  -------\n"
                                     "  sill          10.00     0.868    12  3.7 kip\n"
                                     "  tr\xC3\xA4ger?[31m  123.46  no limit\n"
                                     "\n"
                                     "  A note.\n"
                                     "\n");
    ss_text_destroy(&out);
}

static void test_table_is_squeezed(void) {
    static written_report w;
    make_written(&w);
    w.cells[0].text = "the main girder of the first car on the left";
    ss_text out = {0};
    ss_lines_table(&out, &w.table, SS_UNITS_US, 50);
    const char *at = out.data;
    int lines = 0;
    while (*at != '\0') {
        const size_t length = strcspn(at, "\n");
        CU_ASSERT_TRUE(ss_lines_width(at, length) <= 50);
        lines += 1;
        at += length + 1;
    }
    CU_ASSERT_EQUAL(lines, 13);
    CU_ASSERT_PTR_NOT_NULL(strstr(out.data, "  the main girder   10.00"));
    CU_ASSERT_PTR_NOT_NULL(strstr(out.data, "  car on the left\n"));
    ss_text_destroy(&out);
}

/* The bar of one value, 23 columns wide: 14 of them up to the mark, 7 beyond. */
static void barred(double value, double end, const char *expected) {
    ss_text out = {0};
    ss_bar_add(&out, value, end, 23);
    CU_ASSERT_STRING_EQUAL(out.data, expected);
    ss_text_destroy(&out);
}

static void test_bars(void) {
    CU_ASSERT_EQUAL(ss_bar_mark(23), 14);
    barred(0.0, 1.5, "|..............|");
    barred(-0.4, 1.5, "|..............|");
    barred(0.5, 1.5, "|=======.......|");
    /* Not full before it is. */
    barred(0.999, 1.5, "|=============.|");
    barred(1.0, 1.5, "|==============|");
    barred(1.25, 1.5, "|==============|===");
    barred(1.5, 1.5, "|==============|=======");
    barred(3.01, 3.0, "|==============|======>");
    barred((double)INFINITY, 3.0, "|==============|======>");
    ss_text out = {0};
    ss_bar_add(&out, (double)NAN, 1.5, 23);
    CU_ASSERT_EQUAL(out.length, 0);
    ss_bar_scale(&out, 1.5, 23);
    CU_ASSERT_STRING_EQUAL(out.data, "0            1.00  1.50");
    ss_text_destroy(&out);
    CHECK_CLOSE(ss_bar_end(0.4), 1.5, 1e-12);
    CHECK_CLOSE(ss_bar_end(1.51), 3.0, 1e-12);
}

/* Bars have what room a table leaves; where there is none they are left out, and the numbers stay. */
static void test_bars_of_a_table(void) {
    static written_report w;
    int last = 0;
    for (int width = 30; width <= 100; width += 5) {
        make_written(&w);
        w.table.bars = true;
        w.cells[0].text = "the main girder of the first car on the left";
        ss_text out = {0};
        ss_lines_table(&out, &w.table, SS_UNITS_US, width);
        int bars = 0;
        for (const char *at = out.data; *at != '\0'; at += strcspn(at, "\n"), at += *at == '\n') {
            const size_t length = strcspn(at, "\n");
            CU_ASSERT_TRUE(width < 45 || ss_lines_width(at, length) <= width);
            bars += memchr(at, '|', length) != NULL;
        }
        CU_ASSERT_TRUE(bars == 0 || bars == 2);
        CU_ASSERT_TRUE(bars >= last); /* once there is room for them, there is in more */
        last = bars;
        CU_ASSERT_PTR_NOT_NULL(strstr(out.data, "10.00"));
        CU_ASSERT_TRUE(width > 30 || bars == 0);
        ss_text_destroy(&out);
    }
    CU_ASSERT_EQUAL(last, 2);
}

static void test_empty_table_is_silent(void) {
    static written_report w;
    make_written(&w);
    w.table.row_count = 0;
    ss_text out = {0};
    ss_lines_table(&out, &w.table, SS_UNITS_US, 100);
    CU_ASSERT_EQUAL(out.length, 0);
    ss_text_destroy(&out);
}

static void test_record(void) {
    static written_report w;
    make_written(&w);
    w.table.record = true;
    w.table.row_count = 1;
    w.table.note = NULL;
    ss_text out = {0};
    ss_lines_table(&out, &w.table, SS_UNITS_SI, 100);
    CU_ASSERT_STRING_EQUAL(out.data, "Rows\n"
                                     "\n"
                                     "  member    sill\n"
                                     "  at x      3.05 m\n"
                                     "  factor    0.868\n"
                                     "  how many  12\n"
                                     "  own unit  16.46 kN\n"
                                     "\n");
    ss_text_destroy(&out);
}

static void test_drawing(void) {
    static written_report w;
    make_written(&w);
    ss_text out = {0};
    ss_lines_drawing(&out, &w.drawing, 40);
    CU_ASSERT_STRING_EQUAL(out.data, "Plan\n"
                                     "\n"
                                     "                     |\n"
                                     "                     |\n"
                                     " sill O==============================\n"
                                     "                     |\n"
                                     "                     |\n"
                                     "                                  33 ft\n"
                                     "\n"
                                     "  O bearing point, = main girder, |\n"
                                     "  floor beam.\n"
                                     "\n");
    ss_text_destroy(&out);
}

static void test_whole_report(void) {
    static written_report w;
    make_written(&w);
    ss_text out = {0};
    ss_error error = {0};
    CU_ASSERT_EQUAL(ss_write_text(&w.report, (ss_text_style){.width = 60}, &out, &error), SS_OK);
    CU_ASSERT_EQUAL(
        strncmp(out.data,
                "Title\n=====\nThe sill governs, and this sentence is long enough to be\nbroken.\n\n", 76),
        0);
    /* What is for programs is not shown; no escape sequence without a terminal; one newline at the end. */
    CU_ASSERT_PTR_NULL(strstr(out.data, "Alder"));
    CU_ASSERT_PTR_NULL(strchr(out.data, '\033'));
    CU_ASSERT_NOT_EQUAL(out.data[out.length - 2], '\n');
    CU_ASSERT_EQUAL(out.data[out.length - 1], '\n');
    ss_text_destroy(&out);

    CU_ASSERT_EQUAL(ss_write_text(&w.report, (ss_text_style){.width = 60, .bold = true}, &out, &error),
                    SS_OK);
    CU_ASSERT_EQUAL(strncmp(out.data, "\033[1mTitle\n=====\033[0m\n", 20), 0);
    ss_text_destroy(&out);
}

static ss_status write_narrow(const ss_report *report, ss_text *out, ss_error *error) {
    return ss_write_text(report, (ss_text_style){.width = 60}, out, error);
}

static void test_every_allocation_may_fail(void) {
    check_every_allocation(write_narrow, 500);
}

int main(void) {
    static const test_case cases[] = {
        {"wrap", test_wrap},
        {"table", test_table},
        {"table is squeezed", test_table_is_squeezed},
        {"bars of characters", test_bars},
        {"bars beside a table", test_bars_of_a_table},
        {"empty table is silent", test_empty_table_is_silent},
        {"record", test_record},
        {"drawing", test_drawing},
        {"whole report", test_whole_report},
        {"every allocation may fail", test_every_allocation_may_fail},
    };
    return RUN_SUITE("text writer", cases);
}
