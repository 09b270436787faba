/* test_write_csv.c - CSV that any reader takes back field by field, with units, and with nothing in it that a
 * spreadsheet would run. */
#include "csv_reader.h"
#include "support/random.h"
#include "written_report.h"

static written_report w;

static ss_text written(const char *table) {
    ss_text out = {0};
    ss_error error = {0};
    CHECK_OK(ss_write_csv(&w.report, table, &out, &error), &error);
    return out;
}

static void check_record(const csv_file *file, int record, const char *const *expected, int count) {
    CU_ASSERT_TRUE_FATAL(record < file->records);
    CU_ASSERT_EQUAL_FATAL(csv_width(file, record), count);
    for (int i = 0; i < count; i++) {
        CHECK_ROW(strcmp(csv_field(file, record, i), expected[i]) == 0, csv_field(file, record, i));
    }
}

static void test_one_table(void) {
    static const char *const expected[3][5] = {
        {"member", "at.x [ft]", "at.deep.moment [kip-ft]", "rf", "count"},
        {"sill", "10", "12.75", "0.8675309", "12"},
        {"tr\xC3\xA4ger?[31m", "123.456", "", "inf", ""},
    };
    make_written(&w);
    ss_text out = written("rows");
    csv_file file;
    csv_open(&file, out.data);
    CU_ASSERT_PTR_NULL(file.fault);
    CU_ASSERT_EQUAL_FATAL(file.records, 3);
    for (int i = 0; i < 3; i++) {
        check_record(&file, i, expected[i], 5);
    }
    csv_close(&file);
    ss_text_destroy(&out);
}

static void test_stream(void) {
    static const char *const expected[8][7] = {
        {"result", "row", "key", "value", "", "", ""},
        {"result", "1", "title", "Alder \"Branch\" ", "", "", ""},
        {"rows", "row", "member", "at.x [m]", "at.deep.moment [kN m]", "rf", "count"},
        {"rows", "1", "sill", "3.048", "17.28667884", "0.8675309", "12"},
        {"rows", "2", "tr\xC3\xA4ger?[31m", "37.6293888", "", "inf", ""},
        {"ignored", "row", "text", "", "", "", ""},
        {"ignored", "1", "one \"quoted\"", "", "", "", ""},
        {"ignored", "2", "two", "", "", "", ""},
    };
    make_written(&w);
    w.report.units = SS_UNITS_SI;
    ss_text out = written(NULL);
    csv_file file;
    csv_open(&file, out.data);
    CU_ASSERT_PTR_NULL(file.fault);
    CU_ASSERT_EQUAL_FATAL(file.records, 8);
    for (int i = 0; i < 8; i++) {
        check_record(&file, i, expected[i], 7);
    }
    csv_close(&file);
    ss_text_destroy(&out);
}

/* A row that brings its own unit has it beside the number, not in the header. */
static void test_units_of_rows(void) {
    static const char *const expected[3][6] = {
        {"member", "at.x [ft]", "at.deep.moment [kip-ft]", "rf", "rf_unit", "count"},
        {"sill", "10", "12.75", "3.7", "kip", "12"},
        {"tr\xC3\xA4ger?[31m", "123.456", "", "nan", "in", ""},
    };
    make_written(&w);
    w.cells[3] = (ss_cell){SS_CELL_QUANTITY, NULL, 3.7 * KIP, SS_DIM_FORCE};
    w.cells[9] = (ss_cell){SS_CELL_QUANTITY, NULL, (double)NAN, SS_DIM_SMALL_LENGTH};
    ss_text out = written("rows");
    csv_file file;
    csv_open(&file, out.data);
    CU_ASSERT_EQUAL_FATAL(file.records, 3);
    for (int i = 0; i < 3; i++) {
        check_record(&file, i, expected[i], 6);
    }
    csv_close(&file);
    ss_text_destroy(&out);
}

/* The text of the first field of the first row when it says `text`. */
static void check_text(const char *text, const char *expected) {
    make_written(&w);
    w.cells[0].text = text;
    ss_text out = written("rows");
    csv_file file;
    csv_open(&file, out.data);
    CHECK_ROW(file.fault == NULL && file.records == 3, text);
    CHECK_ROW(file.records == 3 && strcmp(csv_field(&file, 1, 0), expected) == 0, out.data);
    csv_close(&file);
    ss_text_destroy(&out);
}

static void test_quoting(void) {
    check_text("a, b", "a, b");
    check_text("say \"no\"", "say \"no\"");
    check_text("\"", "\"");
    check_text(",", ",");
    check_text(" blanks ", " blanks ");
    /* A record stays one line, and nothing steers a terminal. */
    check_text("two\nlines\r\nand\ttabs", "two lines  and tabs");
    check_text("bell\a escape\x1B[2J delete\x7F", "bell? escape?[2J delete?");
    check_text("half \xC3", "half ?");
    check_text("", "");
}

static void test_formulas(void) {
    check_text("=1+1", "'=1+1");
    check_text("+A1", "'+A1");
    check_text("-2+3", "'-2+3");
    check_text("@SUM(A1:A9)", "'@SUM(A1:A9)");
    check_text("=HYPERLINK(\"http://x\",\"y\")", "'=HYPERLINK(\"http://x\",\"y\")");
    check_text("\t=1", "' =1");
    check_text("\r\n-1", "'  -1");
    check_text("  @x", "'  @x");
    check_text("\uFF1D1+1", "'\uFF1D1+1");
    /* Taking one apostrophe off always gives the text back. */
    check_text("'tis", "''tis");
    check_text("a=b", "a=b");
    check_text("x - y", "x - y");
    /* A number is a number. */
    make_written(&w);
    w.cells[3].value = -0.25;
    ss_text out = written("rows");
    CU_ASSERT_PTR_NOT_NULL(strstr(out.data, ",-0.25,"));
    ss_text_destroy(&out);
}

static void test_not_finite(void) {
    make_written(&w);
    w.cells[3].value = (double)NAN;
    w.cells[9].value = -(double)INFINITY;
    ss_text out = written("rows");
    csv_file file;
    csv_open(&file, out.data);
    CU_ASSERT_STRING_EQUAL(csv_field(&file, 1, 3), "nan");
    CU_ASSERT_STRING_EQUAL(csv_field(&file, 2, 3), "-inf");
    csv_close(&file);
    ss_text_destroy(&out);
}

static void test_records_and_flags(void) {
    make_written(&w);
    w.table.record = true;
    w.table.row_count = 1;
    w.cells[4] = (ss_cell){SS_CELL_FLAG, NULL, 1.0, SS_DIM_NUMBER};
    ss_text out = written("rows");
    CU_ASSERT_PTR_NOT_NULL(strstr(out.data, "\nsill,10,12.75,0.8675309,true\n"));
    ss_text_destroy(&out);
    w.table.row_count = 0;
    out = written("rows");
    CU_ASSERT_STRING_EQUAL(out.data, "member,at.x [ft],at.deep.moment [kip-ft],rf,count\n");
    ss_text_destroy(&out);
}

static void test_names(void) {
    const char *names[8];
    make_written(&w);
    CU_ASSERT_EQUAL_FATAL(ss_write_csv_tables(&w.report, names, 8), 3);
    CU_ASSERT_STRING_EQUAL(names[0], "result");
    CU_ASSERT_STRING_EQUAL(names[1], "rows");
    CU_ASSERT_STRING_EQUAL(names[2], "ignored");
    names[1] = "untouched";
    CU_ASSERT_EQUAL(ss_write_csv_tables(&w.report, names, 1), 3);
    CU_ASSERT_STRING_EQUAL(names[1], "untouched");
    ss_text out = {0};
    ss_error error = {0};
    CU_ASSERT_EQUAL(ss_write_csv(&w.report, "row", &out, &error), SS_ERROR_LIMIT);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "\"row\""));
    ss_text_destroy(&out);
}

/* Whether a spreadsheet would run this. */
static bool runs(const char *field) {
    const char first = field[strspn(field, " ")];
    return first != '\0' && strchr("=+-@", first) != NULL;
}

/* Any bytes at all: the file stays well formed and rectangular, and no text begins like a formula. */
static void test_any_bytes(void) {
    static const char alphabet[] = "=+-@'\",;\n\r\t \\a\xC3\xA4\xEF\xBC\x9D\x01\x7F";
    uint64_t seed = 20231;
    for (int round = 0; round < 4000; round++) {
        char text[24];
        const int length = (int)next_below(&seed, 23);
        for (int i = 0; i < length; i++) {
            text[i] = alphabet[next_below(&seed, sizeof alphabet - 1)];
        }
        text[length] = '\0';
        make_written(&w);
        w.cells[6].text = text;
        w.items[1] = text;
        w.blocks[2].text = text;
        ss_text out = written(NULL);
        csv_file file;
        csv_open(&file, out.data);
        bool good = file.fault == NULL && file.records == 8;
        for (int r = 0; good && r < 8; r++) {
            good = csv_width(&file, r) == 7;
        }
        const char *const seen[3] = {good ? csv_field(&file, 4, 2) : "=", good ? csv_field(&file, 7, 2) : "=",
                                     good ? csv_field(&file, 1, 3) : "="};
        for (int i = 0; i < 3; i++) {
            good = good && !runs(seen[i]);
        }
        CHECK_ROW(good, out.data);
        csv_close(&file);
        ss_text_destroy(&out);
    }
}

static ss_status write_all(const ss_report *report, ss_text *out, ss_error *error) {
    return ss_write_csv(report, NULL, out, error);
}

static void test_every_allocation_may_fail(void) {
    check_every_allocation(write_all, 200);
}

int main(void) {
    static const test_case cases[] = {
        {"one table", test_one_table},
        {"the stream of all tables", test_stream},
        {"units of rows", test_units_of_rows},
        {"quoting", test_quoting},
        {"formulas", test_formulas},
        {"not finite", test_not_finite},
        {"records and flags", test_records_and_flags},
        {"names of tables", test_names},
        {"any bytes", test_any_bytes},
        {"every allocation may fail", test_every_allocation_may_fail},
    };
    return RUN_SUITE("CSV writer", cases);
}
