/* test_grid.c - the grid of a bridge: counts, closed forms of one beam, statics, and the analysis' own
 * values. */
#include <math.h>
#include <string.h>

#include "sillspan/grid.h"
#include "sillspan/memory.h"
#include "support/make_bridge.h"
#include "support/suite.h"
#include "unit/studies/compare_samples.h"

/* 86 ft of 0.5 kip/ft on supports at 10 and 76 ft. */
static const char text[] =
    ONE_BEAM "bridge = { cars = ( { name = \"only\"; car = \"long\"; } );\n"
             "  bearings = ( { name = \"trucks\"; at = \"wheel trucks\"; under = [ \"spine\" ]; pad_width = "
             "\"60 in\"; action = \"two-way\"; } );\n"
             "  roadway = { from = \"1 ft\"; to = \"8 ft\"; }; };\n"
             "rating = { trucks = [ \"axle\" ]; condition = \"good\"; system = 1.0; };\n"
             "probes = ( { name = \"middle\"; car = \"only\"; line = \"spine\"; x = \"43 ft\"; effect = "
             "\"moment\"; } );\n";

typedef struct analysed {
    ss_description description;
    ss_diag_list diags;
    ss_variant whole;
    ss_envelope envelope;
    ss_results results;
    ss_error error;
} analysed;

static void envelope_of(analysed *a, const ss_permanent *permanent, const ss_placements *placements) {
    const ss_envelope_options options = {
        .factors = {1.0, 1.0}, .live_factor = 1.0, .extent = SS_EXTENT_ONE_TRUCK};
    CHECK_OK(ss_envelope_compute(permanent, placements, a->whole.effects, a->whole.effect_count, &options,
                                 &a->envelope, &a->error),
             &a->error);
    a->results.command = "export";
    a->results.permanent = permanent;
    a->results.placements = placements;
    a->results.envelope = &a->envelope;
    a->results.bridge = ss_grillage_mesh(permanent->grillage)->bridge;
    a->results.mesh = ss_grillage_mesh(permanent->grillage);
}

static void start(analysed *a) {
    *a = (analysed){.description = compare_read(text)};
    CHECK_OK(ss_bridge_resolve(&a->description, &a->whole.bridge, &a->diags), &a->error);
    CHECK_OK(ss_variant_structure(&a->whole, &a->error), &a->error);
    CHECK_OK(ss_variant_loads(&a->whole, &a->error), &a->error);
    envelope_of(a, &a->whole.permanent, &a->whole.placements);
}

static void stop(analysed *a) {
    ss_envelope_destroy(&a->envelope);
    ss_variant_destroy(&a->whole);
    ss_diag_destroy(&a->diags);
    ss_description_destroy(&a->description);
}

static const ss_grid_array *array_of(const ss_grid *grid, const char *name) {
    for (int i = 0; i < grid->array_count; i++) {
        if (strcmp(grid->arrays[i].name, name) == 0) {
            return &grid->arrays[i];
        }
    }
    printf("\n  there is no array \"%s\"", name);
    CU_FAIL_FATAL("an array is missing");
    return NULL;
}

static int cells_of(const ss_grid *grid, const char *part) {
    const ss_grid_array *const parts = array_of(grid, "part");
    int count = 0;
    for (int i = 0; i < grid->cell_count; i++) {
        count += strcmp(parts->texts[i], part) == 0;
    }
    return count;
}

/* ---- one beam ----------------------------------------------------------------------------------- */

/* The value at an end of the segment that begins (0) or ends (1) at x, along the only line. */
static double at_end(const ss_grid *grid, const ss_grid_array *array, double x, int end) {
    for (int i = 0; i < grid->cell_count; i++) {
        const ss_grid_cell *const cell = &grid->cells[i];
        if (cell->shape == SS_GRID_SEGMENT &&
            fabs(grid->points[3 * grid->corners[cell->first + end]] - x) < 1e-6) {
            return array->numbers[2 * i + end];
        }
    }
    CU_FAIL_FATAL("no segment ends there");
    return 0.0;
}

/* Midspan: w L2/8 - w a2/2 dead, P L/4 of the axle; shear of the dead load w L/2 just inside a support, and
 * w a on its other side. */
static void test_one_beam(void) {
    analysed a;
    ss_grid grid;
    start(&a);
    CHECK_OK(ss_grid_of_model(&a.results, &grid, &a.error), &a.error);
    const double dead = WEIGHT * (MIDDLE * MIDDLE / 8.0 - BACK * BACK / 2.0) * KIP_FOOT;
    const ss_grid_array *const moment = array_of(&grid, "moment, dead load");
    const ss_grid_array *const most = array_of(&grid, "moment, axle, most");
    CHECK_CLOSE(at_end(&grid, moment, 43.0 * FOOT, 0), dead, 1e-6);
    CHECK_CLOSE(at_end(&grid, moment, 43.0 * FOOT, 1), dead, 1e-6);
    CHECK_CLOSE(at_end(&grid, most, 43.0 * FOOT, 0), AXLE * MIDDLE / 4.0 * KIP_FOOT, 1e-6);
    CHECK_CLOSE(at_end(&grid, array_of(&grid, "moment, axle, least"), 10.0 * FOOT, 1),
                -AXLE * BACK * KIP_FOOT, 1e-6);
    const ss_grid_array *const shear = array_of(&grid, "shear, dead load");
    CHECK_CLOSE(at_end(&grid, shear, 10.0 * FOOT, 0), WEIGHT * MIDDLE / 2.0 * KIP, 1e-6);
    CHECK_CLOSE(at_end(&grid, shear, 10.0 * FOOT, 1), -WEIGHT * BACK * KIP, 1e-6);
    const ss_grid_array *const reaction = array_of(&grid, "reaction, dead load");
    CU_ASSERT_EQUAL(cells_of(&grid, "bearing"), 2);
    for (int i = grid.cell_count - 2; i < grid.cell_count; i++) {
        CHECK_CLOSE(reaction->numbers[i], 0.5 * WEIGHT * LENGTH * KIP, 1e-6);
        CU_ASSERT_EQUAL(grid.cells[i].shape, SS_GRID_POINT);
    }
    /* 29000 ksi x 9000 in4; a beam has no joint. */
    CHECK_CLOSE(array_of(&grid, "EI")->numbers[0], 29000.0 * KSI * 9000.0 * INCH4, 1e-9);
    CHECK_CLOSE(array_of(&grid, "depth")->numbers[0], 30.0 * INCH, 1e-12);
    for (int i = 0; i < grid.array_count; i++) {
        CU_ASSERT_PTR_NULL(strstr(grid.arrays[i].name, "joint"));
    }
    ss_grid_destroy(&grid);
    stop(&a);
}

/* ---- two cars ----------------------------------------------------------------------------------- */

typedef struct two_cars {
    made_bridge made;
    analysed a;
    ss_grid grid;
} two_cars;

static void start_two(two_cars *t) {
    *t = (two_cars){0};
    made_two_cars(&t->made, true, 1.3);
    CHECK_OK(made_solve(&t->made), &t->made.error);
    CHECK_OK(ss_envelope_effects(&t->made.mesh, &t->a.whole.effects, &t->a.whole.effect_count, &t->a.error),
             &t->a.error);
    envelope_of(&t->a, &t->made.permanent, &t->made.placements);
    CHECK_OK(ss_grid_of_model(&t->a.results, &t->grid, &t->a.error), &t->a.error);
}

static void stop_two(two_cars *t) {
    ss_grid_destroy(&t->grid);
    ss_envelope_destroy(&t->a.envelope);
    ss_free(t->a.whole.effects);
    made_free(&t->made);
}

static void test_counts(void) {
    two_cars t;
    start_two(&t);
    const ss_mesh *const mesh = &t.made.mesh;
    int shears = 0;
    int across = 0;
    for (int i = 0; i < mesh->spring_count; i++) {
        shears += mesh->spring[i].owner == SS_MEMBER_JOINT && mesh->spring[i].kind == SS_SPRING_VERTICAL;
    }
    for (int i = 0; i < mesh->element_count; i++) {
        across += mesh->element[i].across;
    }
    CU_ASSERT_TRUE(shears > 0);
    CU_ASSERT_EQUAL(cells_of(&t.grid, "joint"), shears);
    CU_ASSERT_EQUAL(cells_of(&t.grid, "floor beam"), across);
    CU_ASSERT_EQUAL(cells_of(&t.grid, "bearing"), t.made.bridge.bearing_count);
    CU_ASSERT_EQUAL(cells_of(&t.grid, "main girder") + cells_of(&t.grid, "exterior girder") +
                        cells_of(&t.grid, "stringer"),
                    mesh->element_count - across);
    CU_ASSERT_EQUAL(t.grid.point_count, mesh->node_count + shears);
    CU_ASSERT_EQUAL(t.grid.cell_count, mesh->element_count + shears + t.made.bridge.bearing_count);
    stop_two(&t);
}

/* Every value of a member that an analysis has is in the grid at its end, and no end is left empty. */
static void test_same_as_the_analysis(void) {
    two_cars t;
    start_two(&t);
    const ss_envelope *const envelope = &t.a.envelope;
    const ss_grid_array *const moment = array_of(&t.grid, "moment, dead load");
    int same = 0;
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *const e = &envelope->effects[i];
        const bool member = e->member == SS_MEMBER_LINE || e->member == SS_MEMBER_BEAM;
        if (member && e->kind == SS_EFFECT_MOMENT && (e->s == 0.0 || e->s == 1.0)) {
            CU_ASSERT_EQUAL(moment->numbers[2 * e->element + (e->s == 1.0)], envelope->dead[i]);
            same++;
        }
    }
    CU_ASSERT_TRUE(same > 200);
    for (int i = 0; i < t.grid.array_count; i++) {
        const ss_grid_array *const array = &t.grid.arrays[i];
        for (int k = 0; k < 2 * t.made.mesh.element_count && array->components == 2; k++) {
            CHECK_ROW(!isnan(array->numbers[k]), array->name);
        }
    }
    stop_two(&t);
}

/* Dead reactions hold the dead load; the seam pulls up on one car what it puts on the other, so that the
 * reactions of each car are its own load and what the seam hands it. */
static void test_statics(void) {
    two_cars t;
    start_two(&t);
    const ss_permanent *const p = &t.made.permanent;
    const ss_grid_array *const reaction = array_of(&t.grid, "reaction, dead load");
    const ss_grid_array *const seam = array_of(&t.grid, "joint force, dead load");
    const ss_grid_array *const part = array_of(&t.grid, "part number");
    const ss_grid_array *const car = array_of(&t.grid, "car number");
    double held[3] = {0.0, 0.0, 0.0};
    double handed = 0.0;
    for (int i = 0; i < t.grid.cell_count; i++) {
        if (part->numbers[i] == 6.0) {
            held[(int)car->numbers[i]] += reaction->numbers[i];
        }
        handed += part->numbers[i] == 5.0 ? seam->numbers[i] : 0.0;
    }
    const double total = p->cars.total + p->added.total + p->wearing.total;
    CHECK_CLOSE(held[1] + held[2], total, 1e-8);
    /* Positive when the right car hangs on the left one. The rail is on the left car; of the gravel, each car
     * has what lies on it and half of what lies over the gap. */
    const double gap = 0.5 * (2.82 + 2.93);
    const double left = 0.5 * p->cars.total + p->added.total + 930.0 * 12.2 * (gap - 0.3);
    CU_ASSERT_TRUE(fabs(handed) > 1e-4 * total);
    check_near("held by the left car", held[1], left + handed, 1e-8, total);
    stop_two(&t);
}

static void test_displacements(void) {
    two_cars t;
    start_two(&t);
    const ss_grid_array *const moved = array_of(&t.grid, "displacement, dead load");
    const ss_grid_array *const turned = array_of(&t.grid, "rotation about y, dead load");
    const double *const u = t.made.permanent.present.u;
    for (int i = 0; i < t.made.mesh.node_count; i++) {
        CU_ASSERT_TRUE(moved->numbers[3 * i] == 0.0 && moved->numbers[3 * i + 1] == 0.0);
        CU_ASSERT_EQUAL(moved->numbers[3 * i + 2], u[3 * i]);
        CU_ASSERT_EQUAL(turned->numbers[i], u[3 * i + 2]);
    }
    CU_ASSERT_TRUE(isnan(moved->numbers[3 * t.grid.point_count - 1])); /* a spring of the seam is no node */
    stop_two(&t);
}

/* ---- influence ---------------------------------------------------------------------------------- */

static void test_influence(void) {
    two_cars t;
    ss_influence surface;
    ss_grid grid;
    start_two(&t);
    const ss_effect asked = {.kind = SS_EFFECT_REACTION,
                             .member = SS_MEMBER_BEARING,
                             .index = 2,
                             .at = t.made.bridge.bearings[2].x};
    CHECK_OK(ss_influence_compute(&t.made.permanent, &asked, &surface, &t.a.error), &t.a.error);
    CHECK_OK(ss_grid_of_influence(&t.a.results, &surface, &grid, &t.a.error), &t.a.error);
    const ss_grid_array *const value = array_of(&grid, "reaction");
    CU_ASSERT_EQUAL(grid.array_count, 1);
    CU_ASSERT_EQUAL(grid.point_count, surface.point_count);
    CU_ASSERT_EQUAL(grid.cell_count, surface.cell_count);
    CU_ASSERT_TRUE(value->unit.dimension == SS_DIM_FORCE && value->unit.per == SS_DIM_FORCE);
    for (int i = 0; i < grid.point_count; i++) {
        CU_ASSERT_EQUAL(value->numbers[i], surface.points[i].value);
        CU_ASSERT_EQUAL(grid.points[3 * i], surface.points[i].x);
        CU_ASSERT_EQUAL(grid.points[3 * i + 1], surface.points[i].y);
    }
    for (int i = 0; i < grid.cell_count; i++) {
        CU_ASSERT_EQUAL(grid.cells[i].shape, SS_GRID_QUAD);
    }
    ss_grid_destroy(&grid);
    ss_influence_destroy(&surface);
    stop_two(&t);
}

/* ---- failures ----------------------------------------------------------------------------------- */

static void test_memory(void) {
    analysed a;
    start(&a);
    const long live = ss_memory_live();
    ss_status status = SS_ERROR_MEMORY;
    for (long n = 0; status == SS_ERROR_MEMORY && n < 2000; n++) {
        ss_grid grid;
        ss_memory_fail_from(n);
        status = ss_grid_of_model(&a.results, &grid, &a.error);
        ss_memory_fail_from(-1);
        CU_ASSERT_TRUE(status == SS_OK || grid.arrays == NULL);
        if (status == SS_OK) {
            ss_grid_destroy(&grid);
        }
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    stop(&a);
}

static const test_case cases[] = {
    {"one beam in closed form", test_one_beam},
    {"counts of points and cells", test_counts},
    {"the same values as the analysis", test_same_as_the_analysis},
    {"reactions and the seam hold the dead load", test_statics},
    {"displacements of the nodes", test_displacements},
    {"an influence surface", test_influence},
    {"no memory", test_memory},
};

int main(void) {
    return RUN_SUITE("grid", cases);
}
