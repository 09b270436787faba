/* test_report_vehicles.c - the report on vehicles: its tables for programs, its drawings, and memory that
 * ends. */
#include <string.h>

#include "report/report_vehicles.h"
#include "sillspan/memory.h"
#include "support/suite.h"

static const ss_table *table_of(const ss_report *report, const char *key) {
    for (int i = 0; i < report->count; i++) {
        if (report->blocks[i].kind == SS_BLOCK_TABLE && strcmp(report->blocks[i].table->key, key) == 0) {
            return report->blocks[i].table;
        }
    }
    return NULL;
}

static int drawings_of(const ss_report *report) {
    int count = 0;
    for (int i = 0; i < report->count; i++) {
        count += report->blocks[i].kind == SS_BLOCK_DRAWING;
    }
    return count;
}

static const ss_cell *cell(const ss_table *table, int row, const char *column) {
    for (int k = 0; k < table->column_count; k++) {
        if (strcmp(table->columns[k].key, column) == 0) {
            return &table->cells[row * table->column_count + k];
        }
    }
    return NULL;
}

static void test_one_vehicle(void) {
    const ss_vehicle *const named[] = {ss_vehicle_find("Grain cart tandem"), ss_vehicle_find("HL-93")};
    ss_report report = {0};
    CU_ASSERT_EQUAL_FATAL(
        ss_report_vehicles(&(ss_vehicle_choice){named, 2, true}, SS_UNITS_US, &report, NULL), SS_OK);
    CU_ASSERT_EQUAL(drawings_of(&report), 4); /* the cart; truck, tandem and two trucks */
    const ss_table *const vehicles = table_of(&report, "vehicles");
    const ss_table *const axles = table_of(&report, "axles");
    CU_ASSERT_PTR_NOT_NULL_FATAL(vehicles);
    CU_ASSERT_PTR_NOT_NULL_FATAL(axles);
    CU_ASSERT_EQUAL(vehicles->row_count, 2);
    CU_ASSERT_STRING_EQUAL(cell(vehicles, 0, "class")->text, "farm");
    CU_ASSERT_EQUAL(cell(vehicles, 1, "loadings")->value, 3.0);
    CU_ASSERT_DOUBLE_EQUAL(cell(vehicles, 1, "wheelbase_most")->value, 44.0 * FOOT, 1e-9);
    CU_ASSERT_EQUAL(axles->row_count, 4 + 3 + 2 + 6);
    CU_ASSERT_DOUBLE_EQUAL(cell(axles, 1, "gauge")->value, 7.5 * FOOT, 1e-9);
    CU_ASSERT_EQUAL(cell(axles, 3, "spacing")->kind, SS_CELL_NONE);
    CU_ASSERT_EQUAL(cell(axles, 3, "may_be_left_out")->value, 0.0);
    CU_ASSERT_DOUBLE_EQUAL(cell(axles, 5, "spacing_most")->value, 30.0 * FOOT, 1e-9);
    CU_ASSERT_EQUAL(cell(axles, 5, "may_be_left_out")->value, 1.0);
    CU_ASSERT_DOUBLE_EQUAL(cell(axles, 14, "load")->value, 28.8 * KIP, 1e-6);
    ss_report_destroy(&report);
}

/* Axles stand to scale: what is between two of them in the drawing is their distance. */
static void test_drawing_is_to_scale(void) {
    const ss_vehicle *const named[] = {ss_vehicle_find("Type 3S2")};
    ss_report report = {0};
    CU_ASSERT_EQUAL_FATAL(
        ss_report_vehicles(&(ss_vehicle_choice){named, 1, true}, SS_UNITS_SI, &report, NULL), SS_OK);
    for (int i = 0; i < report.count; i++) {
        if (report.blocks[i].kind != SS_BLOCK_DRAWING) {
            continue;
        }
        const ss_drawing *const d = report.blocks[i].drawing;
        double last = -1.0;
        int axle = 0;
        for (int k = 0; k < d->stroke_count; k++) {
            const ss_stroke *const s = &d->strokes[k];
            CU_ASSERT(s->x0 >= 0.0 && s->x1 <= d->width && s->y0 >= 0.0 && s->y1 <= d->height);
            if (s->kind != SS_STROKE_WHEEL) {
                continue;
            }
            if (axle > 0) {
                CU_ASSERT_DOUBLE_EQUAL(s->x0 - last, named[0]->spacing_m[axle - 1], 1e-9);
            }
            last = s->x0;
            axle++;
        }
        CU_ASSERT_EQUAL(axle, 5);
    }
    CU_ASSERT_EQUAL(drawings_of(&report), 1);
    ss_report_destroy(&report);
}

/* Every vehicle, listed and drawn, while the n-th allocation fails. */
static void test_memory_may_fail_anywhere(void) {
    const ss_vehicle *all[64];
    int count = 0;
    const ss_vehicle *const vehicles = ss_vehicles(&count);
    for (int i = 0; i < count && i < 64; i++) {
        all[i] = &vehicles[i];
    }
    const long live = ss_memory_live();
    for (int drawn = 0; drawn < 2; drawn++) {
        ss_status status = SS_ERROR_MEMORY;
        long n = 0;
        for (; n < 20000 && status == SS_ERROR_MEMORY; n++) {
            ss_report report = {0};
            ss_memory_fail_from(n);
            status =
                ss_report_vehicles(&(ss_vehicle_choice){all, count, drawn == 1}, SS_UNITS_US, &report, NULL);
            ss_memory_fail_from(-1);
            CU_ASSERT(status == SS_OK || report.blocks == NULL);
            ss_report_destroy(&report);
            CU_ASSERT_EQUAL(ss_memory_live(), live);
        }
        CU_ASSERT_EQUAL(status, SS_OK);
        CU_ASSERT(n > 2);
    }
}

int main(void) {
    static const test_case cases[] = {
        {"one vehicle", test_one_vehicle},
        {"drawing is to scale", test_drawing_is_to_scale},
        {"memory may fail anywhere", test_memory_may_fail_anywhere},
    };
    return RUN_SUITE("report vehicles", cases);
}
