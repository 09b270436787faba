/* test_report_slab.c - what is printed of casting a slab and of lines that act with it adds up by hand. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "sillspan/variant.h"
#include "unit/model/slab_samples.h"

/* A bridge with a slab as far as is asked, and a report of some parts of it. */
typedef struct cast_report {
    ss_variant whole;
    ss_arena arena;
    ss_slab_checks checks;
    ss_slab_casting casting;
    ss_results results;
    ss_report report;
    ss_builder builder;
} cast_report;

static void begin(cast_report *r, const char *from, const char *to) {
    ss_error error = {0};
    memset(r, 0, sizeof *r);
    r->whole.bridge = resolve_slab(from, to);
    CHECK_OK(ss_variant_structure(&r->whole, &error), &error);
    CHECK_OK(ss_variant_loads(&r->whole, &error), &error);
    r->checks.arena = &r->arena;
    CHECK_OK(ss_slab_casting_compute(&r->whole.permanent, &r->arena, &r->checks, &r->casting, &error),
             &error);
    r->results = (ss_results){.command = "rate",
                              .bridge = &r->whole.bridge,
                              .mesh = &r->whole.mesh,
                              .grillage = r->whole.grillage,
                              .permanent = &r->whole.permanent,
                              .placements = &r->whole.placements,
                              .casting = &r->casting};
    r->report.units = SS_UNITS_US;
    r->builder = (ss_builder){.report = &r->report, .results = &r->results};
}

static void end(cast_report *r) {
    CU_ASSERT_FALSE(r->builder.failed);
    ss_report_destroy(&r->report);
    ss_arena_destroy(&r->arena);
    ss_variant_destroy(&r->whole);
}

/* ---- looking things up --------------------------------------------------------------------------------- */

static const ss_table *table_of(const cast_report *r, const char *key) {
    for (int i = 0; i < r->report.count; i++) {
        const ss_block *const block = &r->report.blocks[i];
        if (block->kind == SS_BLOCK_TABLE && strcmp(block->table->key, key) == 0) {
            return block->table;
        }
    }
    CU_FAIL_FATAL("no such table");
    return NULL;
}

static const ss_cell *cell_of(const ss_table *table, int row, const char *key, ss_cell_kind kind) {
    for (int i = 0; i < table->column_count; i++) {
        const ss_cell *const cell = &table->cells[row * table->column_count + i];
        if (strcmp(table->columns[i].key, key) == 0 && cell->kind == kind) {
            return cell;
        }
    }
    return NULL;
}

static double value_of(const ss_table *table, int row, const char *key) {
    const ss_cell *const cell = cell_of(table, row, key, SS_CELL_QUANTITY);
    return cell == NULL ? SS_NAN : cell->value;
}

static const char *text_of(const ss_table *table, int row, const char *key) {
    const ss_cell *const cell = cell_of(table, row, key, SS_CELL_TEXT);
    return cell == NULL ? "" : cell->text;
}

static bool says(const cast_report *r, const char *words) {
    for (int i = 0; i < r->report.count; i++) {
        const ss_block *const block = &r->report.blocks[i];
        if (block->kind == SS_BLOCK_SENTENCE && strstr(block->text, words) != NULL) {
            return true;
        }
        for (int k = 0; k < block->item_count; k++) {
            if (strstr(block->items[k], words) != NULL) {
                return true;
            }
        }
    }
    return false;
}

/* ---- casting ---------------------------------------------------------------------------------------------
 */

/* Rows of the sill and of the edges add up, and to what is there. */
static void check_stages(const cast_report *r) {
    const ss_table *const stages = table_of(r, "casting_stages");
    const int each = r->whole.permanent.stage_count;
    CU_ASSERT_EQUAL_FATAL(stages->row_count, 2 * each);
    for (int row = 0; row < stages->row_count; row++) {
        static const char *const pairs[][2] = {
            {"moment", "moment_sum"}, {"bottom", "bottom_sum"}, {"top", "top_sum"}, {"sag", "sag_sum"}};
        for (int i = 0; i < ENTRIES(pairs); i++) {
            const double before = row % each == 0 ? 0.0 : value_of(stages, row - 1, pairs[i][1]);
            const double sum = value_of(stages, row, pairs[i][1]);
            check_near(pairs[i][1], sum, before + value_of(stages, row, pairs[i][0]), 1e-12, sum);
        }
    }
    /* What has been added in all is what is there in the end. */
    for (int i = 0; i < r->casting.set_count; i++) {
        const ss_casting_set *const set = &r->casting.sets[i];
        ss_effect e;
        ss_error error = {0};
        CHECK_OK(ss_mesh_effect(&r->whole.mesh, SS_MEMBER_LINE, set->line, set->x, set->before,
                                SS_EFFECT_MOMENT, &e, &error),
                 &error);
        const double present = ss_state_effect(&r->whole.mesh, &r->whole.permanent.present, &e);
        const double sum = value_of(stages, (i + 1) * each - 1, "moment_sum");
        check_near("moment in the end", sum, present, 1e-8, present);
    }
}

static void check_members(const cast_report *r) {
    const ss_table *const members = table_of(r, "casting_members");
    CU_ASSERT_TRUE(members->row_count >= 8);
    for (int row = 0; row < members->row_count; row++) {
        const double use = value_of(members, row, "use");
        const double demand = fabs(value_of(members, row, "dead") + value_of(members, row, "people"));
        CHECK_CLOSE(use, demand / value_of(members, row, "capacity"), 1e-12);
    }
    CU_ASSERT_EQUAL(r->checks.count, members->row_count);
    /* The web of a bare line has all of the torque. */
    for (int i = 0; i < r->casting.member_count; i++) {
        const ss_effect *const e = &r->casting.members[i].effect;
        const ss_slab_stage slab = r->whole.permanent.stages[r->casting.members[i].stage].slab;
        ss_section_properties p;
        if (e->member == SS_MEMBER_LINE && e->kind != SS_EFFECT_MOMENT && slab.hard == 0) {
            CU_ASSERT_EQUAL_FATAL(ss_bridge_line_section(&r->whole.bridge, e->index, e->at, e->before, &p),
                                  SS_OK);
            CU_ASSERT_EQUAL(e->torsion_shear, p.torsion_shear);
        }
    }
}

static void check_bearings(const cast_report *r) {
    const ss_table *const bearings = table_of(r, "casting_bearings");
    const ss_table *const record = table_of(r, "casting");
    double more = 0.0;
    for (int row = 0; row < bearings->row_count; row++) more += value_of(bearings, row, "more");
    const double added = value_of(record, 0, "added");
    check_near("weight", more, added - value_of(record, 0, "removed"), 1e-8, added);
}

static void test_casting(void) {
    cast_report r;
    begin(&r, "title", "title");
    ss_part_slab_casting(&r.builder);
    CU_ASSERT_EQUAL(r.whole.permanent.stage_count, 4);
    check_stages(&r);
    check_members(&r);
    check_bearings(&r);
    static const char *const cautions[] = {"weldable",        "camber",    "Water",   "footings",
                                           "People and gear", "Shrinkage", "licensed"};
    for (int i = 0; i < ENTRIES(cautions); i++) CHECK_ROW(says(&r, cautions[i]), cautions[i]);
    CU_ASSERT_TRUE(says(&r, "without shores"));
    /* Concrete of 8 in over 19.5 ft and haunches of 1 in over the tops of edges, twice, and sill. */
    const double concrete = 150.0 * 40.0 * 19.5 * 8.0 / 12.0,
                 haunches = 150.0 * 40.0 * 2.0 * (2.0 * 3.4 + 20.0) / 144.0;
    CHECK_CLOSE(value_of(table_of(&r, "casting"), 0, "wet"), (concrete + haunches) * LBF, 1e-9);
    end(&r);
}

/* In two pours, one a car, with props: more stages, and cars that lie unlike in between. */
static void test_pours_and_props(void) {
    cast_report r;
    begin(&r, "concrete = { strength",
          "pours = ( { name = \"one\"; cars = [ \"north\" ]; }, { name = \"two\"; cars = [ \"south\" ]; } ); "
          "shores = { x = \"20 ft\"; under = [ \"sill\" ]; }; concrete = { strength");
    ss_part_slab_casting(&r.builder);
    CU_ASSERT_EQUAL(r.whole.permanent.stage_count, 6);
    check_stages(&r);
    check_members(&r);
    check_bearings(&r);
    CU_ASSERT_TRUE(says(&r, "on props"));
    CU_ASSERT_TRUE(says(&r, "Over the gap car north comes to lie"));
    CU_ASSERT_TRUE(says(&r, "after \"one\""));
    end(&r);
}

/* The cars' own joint is loosened the while, and a probe asks of it. */
static void test_loose_joint(void) {
    cast_report r;
    begin(&r, "slab = {",
          "probes = ( { name = \"seam\"; joint = \"seam\"; x = \"20 ft\"; effect = \"shear\"; } );\n"
          "slab = { cars_joints_while_wet = \"free\";");
    ss_part_slab_casting(&r.builder);
    check_stages(&r);
    check_members(&r);
    CU_ASSERT_TRUE(says(&r, "the cars' own joints are loosened"));
    end(&r);
}

static void test_nothing_without_a_slab(void) {
    cast_report r;
    begin(&r, "title", "title");
    r.results.casting = NULL;
    ss_part_slab_casting(&r.builder);
    CU_ASSERT_EQUAL(r.report.count, 0);
    end(&r);
}

/* ---- detail ----------------------------------------------------------------------------------------------
 */

/* Every factor that is worked out comes of its printed terms; of two bases the one that counts gives it. */
static void check_worked(const cast_report *r, int *worked, int *bases) {
    double rf = SS_NAN;
    for (int i = 0; i < r->report.count; i++) {
        const ss_block *const block = &r->report.blocks[i];
        if (block->kind != SS_BLOCK_TABLE) {
            continue;
        }
        const ss_table *const t = block->table;
        if (strcmp(t->key, "worked") == 0) {
            rf = value_of(t, 0, "rf");
            const double room = value_of(t, 0, "capacity") - value_of(t, 0, "dead");
            check_near("factor", rf, room / value_of(t, 0, "factored"), 1.001e-3, 1.0);
            ++*worked;
        }
        for (int row = 0; strcmp(t->key, "strength_bases") == 0 && row < t->row_count; row++) {
            if (strcmp(text_of(t, row, "counts"), "yes") == 0) {
                const double room = value_of(t, row, "capacity") - value_of(t, row, "dead");
                check_near("basis", rf, room / value_of(t, row, "live"), 1.001e-3, 1.0);
                ++*bases;
            }
        }
    }
}

static void test_detail(void) {
    static const char *const ways[][2] = {
        {"title", "title"}, {"joint = \"whole\";", "joint = \"whole\"; strength = \"first yield\";"}};
    for (int i = 0; i < ENTRIES(ways); i++) {
        cast_report r;
        ss_error error = {0};
        int worked = 0, bases = 0;
        begin(&r, ways[i][0], ways[i][1]);
        r.whole.bridge.rating.service = false;
        CHECK_OK(ss_variant_rate(&r.whole, NULL, NULL, &error), &error);
        r.results.rated = &r.whole.ratings;
        r.results.detail = "sill";
        ss_rated_detail(&r.builder);
        check_worked(&r, &worked, &bases);
        CU_ASSERT_TRUE(worked >= 4);
        CU_ASSERT_TRUE(bases >= 1);
        end(&r);
    }
}

int main(void) {
    static const test_case cases[] = {{"casting", test_casting},
                                      {"pours and props", test_pours_and_props},
                                      {"loose joint", test_loose_joint},
                                      {"nothing without a slab", test_nothing_without_a_slab},
                                      {"detail", test_detail}};
    return RUN_SUITE("report of a slab", cases);
}
