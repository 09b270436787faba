/* test_report_overview.c - rows of several bridges: what each brings, the folder that is left out, lack of
 * memory. */
#include <math.h>
#include <string.h>

#include "report/report_overview.h"
#include "support/suite.h"

/* A line in bending and deflection and a bearing, under two trucks. */
typedef struct analysed {
    ss_bridge bridge;
    ss_car cars[1];
    ss_vehicle vehicles[2];
    ss_effect effects[3];
    double dead[3];
    ss_extreme extremes[12];
    ss_envelope envelope;
    ss_traffic traffic[2];
    ss_placements placements;
    ss_results results;
} analysed;

static void start(analysed *a) {
    *a = (analysed){
        .vehicles = {{.name = "cart"}, {.name = "drag"}},
        .effects = {{.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_LINE},
                    {.kind = SS_EFFECT_DEFLECTION, .member = SS_MEMBER_LINE},
                    {.kind = SS_EFFECT_REACTION, .member = SS_MEMBER_BEARING}},
        .dead = {71300.0, 0.0041, 18700.0},
        .traffic = {{.vehicle = 0, .run = -1, .crossing = -1}, {.vehicle = 1, .run = -1, .crossing = -1}}};
    /* effect, traffic, least and most */
    const double values[12] = {-9100.0, 153000.0, -167000.0, 121000.0, 0.0,     0.0173,
                               0.0,     0.0151,   -2300.0,   44100.0,  -1900.0, 47900.0};
    for (int i = 0; i < 12; i++) {
        a->extremes[i].value = values[i];
    }
    a->bridge = (ss_bridge){
        .cars = a->cars, .car_count = 1, .vehicles = a->vehicles, .vehicle_count = 2, .x0 = 0.3, .x1 = 12.9};
    a->envelope = (ss_envelope){.effects = a->effects,
                                .effect_count = 3,
                                .dead = a->dead,
                                .traffic_count = 2,
                                .extremes = a->extremes};
    a->placements = (ss_placements){.traffic = a->traffic, .traffic_count = 2};
    a->results = (ss_results){.command = "analyze",
                              .bridge = &a->bridge,
                              .envelope = &a->envelope,
                              .placements = &a->placements,
                              .require = (double)NAN};
}

static void add_both(ss_overview *overview, const analysed *a) {
    ss_overview_add(
        overview, &(ss_overview_entry){
                      .file = "county/north/one.cfg", .title = "One", .warnings = 2, .results = &a->results});
    ss_overview_add(overview, &(ss_overview_entry){.file = "county/nowhere.cfg",
                                                   .outcome = SS_OUTCOME_FAULTS,
                                                   .says = "line 3: wrong",
                                                   .faults = 4});
}

static void test_row_of_an_analysis(void) {
    analysed a;
    start(&a);
    ss_overview overview = {.count = 0};
    add_both(&overview, &a);
    CU_ASSERT_FALSE_FATAL(overview.failed);
    CU_ASSERT_EQUAL_FATAL(overview.count, 2);
    const ss_overview_row *row = &overview.rows[0];
    /* The hogging of the second truck is the largest bending in size. */
    CHECK_CLOSE(row->moment, 167000.0, 1e-14);
    CU_ASSERT_STRING_EQUAL(row->truck, "drag");
    CHECK_CLOSE(row->deflection, 0.0173, 1e-14);
    CHECK_CLOSE(row->reaction, 18700.0 + 47900.0, 1e-14);
    CHECK_CLOSE(row->length, 12.6, 1e-14);
    CU_ASSERT_EQUAL(row->cars, 1);
    CU_ASSERT_PTR_NULL(row->says);
    CU_ASSERT_TRUE(isnan(overview.rows[1].moment));
    ss_overview_destroy(&overview);
    /* A truck that tips it is worth a word. */
    a.envelope.tips = true;
    add_both(&overview, &a);
    CU_ASSERT_PTR_NOT_NULL_FATAL(overview.rows[0].says);
    CU_ASSERT_PTR_NOT_NULL(strstr(overview.rows[0].says, "tips"));
    ss_overview_destroy(&overview);
}

static const ss_table *table_of(const ss_report *report) {
    for (int i = 0; i < report->count; i++) {
        if (report->blocks[i].kind == SS_BLOCK_TABLE &&
            strcmp(report->blocks[i].table->key, "bridges") == 0) {
            return report->blocks[i].table;
        }
    }
    return NULL;
}

static const ss_cell *cell_of(const ss_table *table, int row, const char *key) {
    for (int c = 0; c < table->column_count; c++) {
        if (strcmp(table->columns[c].key, key) == 0) {
            return &table->cells[row * table->column_count + c];
        }
    }
    return NULL;
}

/* A row as a line and back: every text and every bit, and nothing else is taken for a row. */
static void test_lines(void) {
    analysed a;
    start(&a);
    ss_overview overview = {.count = 0};
    ss_overview again = {.count = 0};
    ss_text second = {0};
    add_both(&overview, &a);
    for (int i = 0; i < 2; i++) {
        const ss_overview_row *const row = &overview.rows[i];
        ss_text line = {0};
        ss_overview_row_write(row, &line);
        ss_overview_add_line(&again, line.data);
        CU_ASSERT_FALSE_FATAL(again.failed);
        const ss_overview_row *const back = &again.rows[i];
        CU_ASSERT_STRING_EQUAL(back->file, row->file);
        CU_ASSERT_EQUAL(back->outcome, row->outcome);
        CU_ASSERT_EQUAL(back->faults, row->faults);
        CU_ASSERT_EQUAL(back->warnings, row->warnings);
        CU_ASSERT_EQUAL(back->cars, row->cars);
        CU_ASSERT_EQUAL(back->title == NULL, row->title == NULL);
        CU_ASSERT_EQUAL(back->says == NULL, row->says == NULL);
        CU_ASSERT_TRUE(i == 1 || (back->moment == row->moment && back->deflection == row->deflection &&
                                  back->reaction == row->reaction && back->length == row->length));
        CU_ASSERT_TRUE(isnan(back->rf) && isnan(back->tons) && isnan(back->x));
        second.length = 0;
        ss_overview_row_write(back, &second);
        CU_ASSERT_STRING_EQUAL(second.data, line.data);
        /* Cut anywhere it is no row. */
        for (size_t cut = line.length; cut-- > 0;) {
            ss_arena arena = {0};
            ss_overview_row none;
            line.data[cut] = '\0';
            const bool last = strrchr(line.data, '\t') != NULL && strchr(second.data + cut, '\t') == NULL;
            CU_ASSERT_TRUE(last || !ss_overview_row_read(line.data, &arena, &none));
            ss_arena_destroy(&arena);
        }
        ss_text_destroy(&line);
    }
    CU_ASSERT_STRING_EQUAL(again.rows[0].truck, "drag");
    CU_ASSERT_STRING_EQUAL(again.rows[1].says, "line 3: wrong");
    ss_overview_add_line(&again, "county/one.cfg\tOne");
    CU_ASSERT_TRUE(again.failed);
    CU_ASSERT_EQUAL(again.count, 2);
    ss_text_destroy(&second);
    ss_overview_destroy(&overview);
    ss_overview_destroy(&again);
}

/* Bridges that were not run are rows too, and the first sentence says how many. */
static void test_interrupted(void) {
    analysed a;
    start(&a);
    ss_overview overview = {.count = 0};
    ss_report report = {0};
    ss_error error = {0};
    const ss_overview_head head = {.command = "analyze", .units = SS_UNITS_SI, .require = (double)NAN};
    bool told = false;
    add_both(&overview, &a);
    ss_overview_add(&overview,
                    &(ss_overview_entry){.file = "county/later.cfg", .outcome = SS_OUTCOME_NOT_RUN});
    CHECK_OK(ss_overview_report(&overview, &head, &report, &error), &error);
    const ss_table *table = table_of(&report);
    CU_ASSERT_PTR_NOT_NULL_FATAL(table);
    CU_ASSERT_STRING_EQUAL(cell_of(table, 2, "outcome")->text, "not run");
    for (int i = 0; i < report.count; i++) {
        told = told || (report.blocks[i].kind == SS_BLOCK_SENTENCE &&
                        strstr(report.blocks[i].text,
                               "Interrupted, so this is incomplete: of 3 bridges 1 was not run.") != NULL);
    }
    CU_ASSERT_TRUE(told);
    ss_report_destroy(&report);
    ss_overview_destroy(&overview);
}

static void test_report(void) {
    analysed a;
    start(&a);
    ss_overview overview = {.count = 0};
    ss_report report = {0};
    ss_error error = {0};
    const ss_overview_head head = {.command = "analyze", .units = SS_UNITS_SI, .require = (double)NAN};
    add_both(&overview, &a);
    CHECK_OK(ss_overview_report(&overview, &head, &report, &error), &error);
    const ss_table *table = table_of(&report);
    CU_ASSERT_PTR_NOT_NULL_FATAL(table);
    CU_ASSERT_EQUAL(table->row_count, 2);
    CU_ASSERT_STRING_EQUAL(cell_of(table, 0, "file")->text, "county/north/one.cfg");
    CU_ASSERT_STRING_EQUAL(cell_of(table, 0, "name")->text, "north/one.cfg");
    CU_ASSERT_STRING_EQUAL(cell_of(table, 1, "name")->text, "nowhere.cfg");
    CU_ASSERT_STRING_EQUAL(cell_of(table, 1, "outcome")->text, "faults");
    CHECK_CLOSE(cell_of(table, 0, "moment")->value, 167000.0, 1e-14);
    CU_ASSERT_EQUAL(cell_of(table, 1, "moment")->kind, SS_CELL_NONE);
    ss_report_destroy(&report);
    ss_overview_destroy(&overview);
}

/* Files without a folder in common keep their names; a folder's name that another's begins with is none. */
static void test_folder(void) {
    static const struct {
        const char *first, *second, *shown;
    } rows[] = {
        {"a.cfg", "b.cfg", "a.cfg"},
        {"x/a.cfg", "b.cfg", "x/a.cfg"},
        {"b.cfg", "x/a.cfg", "b.cfg"},
        {"x/a.cfg", "xy/a.cfg", "x/a.cfg"},
        {"xy/a.cfg", "x/a.cfg", "xy/a.cfg"},
        {"/r/x/a.cfg", "/r/y/a.cfg", "x/a.cfg"},
        {"/a.cfg", "/b.cfg", "a.cfg"},
        {"x/y/a.cfg", "x/y/z/b.cfg", "a.cfg"},
        {"x/y/z/b.cfg", "x/y/a.cfg", "z/b.cfg"},
    };
    for (int i = 0; i < ENTRIES(rows); i++) {
        ss_overview overview = {.count = 0};
        ss_report report = {0};
        ss_error error = {0};
        const ss_overview_head head = {.command = "check", .require = (double)NAN};
        ss_overview_add(&overview, &(ss_overview_entry){.file = rows[i].first, .outcome = SS_OUTCOME_FILE});
        ss_overview_add(&overview, &(ss_overview_entry){.file = rows[i].second, .outcome = SS_OUTCOME_FILE});
        CHECK_OK(ss_overview_report(&overview, &head, &report, &error), &error);
        CHECK_ROW(strcmp(cell_of(table_of(&report), 0, "name")->text, rows[i].shown) == 0, rows[i].first);
        ss_report_destroy(&report);
        ss_overview_destroy(&overview);
    }
}

static void test_memory(void) {
    analysed a;
    start(&a);
    const long before = ss_memory_live();
    const ss_overview_head head = {.command = "analyze", .require = 1.0};
    ss_status status = SS_ERROR_MEMORY;
    int failures = 0;
    for (long n = 0; n < 200 && status != SS_OK; n++) {
        ss_overview overview = {.count = 0};
        ss_report report = {0};
        ss_memory_fail_from(n);
        add_both(&overview, &a);
        status = ss_overview_report(&overview, &head, &report, NULL);
        ss_memory_fail_from(-1);
        failures += status != SS_OK;
        CU_ASSERT_TRUE(status == SS_OK || status == SS_ERROR_MEMORY);
        ss_report_destroy(&report);
        ss_overview_destroy(&overview);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    CU_ASSERT_TRUE(failures >= 3);
}

int main(void) {
    static const test_case cases[] = {
        {"row of an analysis", test_row_of_an_analysis},
        {"lines", test_lines},
        {"interrupted", test_interrupted},
        {"report", test_report},
        {"folder", test_folder},
        {"memory", test_memory},
    };
    return RUN_SUITE("report_overview", cases);
}
