/* grid_results.c - what an analysis found, as arrays on the grid of a bridge. */
#include <math.h>

#include "report/grid_model.h"
#include "report/report_parts.h"
#include "report/report_words.h"

enum { MOMENT, SHEAR, TORSION, REACTION, JOINT_FORCE, JOINT_MOMENT, DEFLECTION, MEASURES };

static const struct measure {
    const char *name;
    ss_dimension dimension;
    int components;
    bool of_cells;
} measures[MEASURES] = {
    {"moment", SS_DIM_MOMENT, 2, true},
    {"shear", SS_DIM_FORCE, 2, true},
    {"torsion", SS_DIM_MOMENT, 2, true},
    {"reaction", SS_DIM_FORCE, 1, true},
    {"joint force", SS_DIM_FORCE, 1, true},
    {"joint moment", SS_DIM_MOMENT, 1, true},
    {"deflection", SS_DIM_SMALL_LENGTH, 1, false},
};

/* The arrays of one state: of the dead load, or of one extreme of one truck. */
typedef struct state_arrays {
    double *of[MEASURES]; /* NULL: not there */
} state_arrays;

/* Where the value of an effect belongs. */
typedef struct slot {
    int measure; /* -1: nowhere */
    int index;
    double factor; /* joints are analysed per length, and shown as what one spring passes */
} slot;

static slot member_slot(const ss_mesh *mesh, const ss_effect *e) {
    const bool at_b = e->s == 1.0;
    const ss_element *const element = &mesh->element[e->element];
    if (e->s != 0.0 && !at_b) {
        return (slot){.measure = -1};
    }
    switch (e->kind) {
    case SS_EFFECT_MOMENT: return (slot){MOMENT, 2 * e->element + at_b, 1.0};
    case SS_EFFECT_SHEAR: return (slot){SHEAR, 2 * e->element + at_b, 1.0};
    case SS_EFFECT_TORSION: return (slot){TORSION, 2 * e->element + at_b, 1.0};
    case SS_EFFECT_DEFLECTION: return (slot){DEFLECTION, at_b ? element->b : element->a, 1.0};
    default: return (slot){.measure = -1};
    }
}

static slot slot_of(const ss_mesh *mesh, const ss_effect *e) {
    if (e->member == SS_MEMBER_LINE || e->member == SS_MEMBER_BEAM) {
        return member_slot(mesh, e);
    }
    if (e->member == SS_MEMBER_BEARING && e->kind == SS_EFFECT_REACTION) {
        return (slot){REACTION, mesh->element_count + ss_model_joint_points(mesh) + e->index, 1.0};
    }
    const int cell = e->member == SS_MEMBER_JOINT ? ss_model_joint_cell(mesh, e->spring) : -1;
    return (slot){cell < 0                      ? -1
                  : e->kind == SS_EFFECT_MOMENT ? JOINT_MOMENT
                                                : JOINT_FORCE,
                  cell, cell < 0 ? 0.0 : mesh->spring[e->spring].length};
}

/* Effects of an envelope with their slots. */
typedef struct finder {
    ss_lattice *lattice;
    const ss_mesh *mesh;
    const ss_envelope *envelope;
    slot *slots; /* one for each effect */
} finder;

static bool find_slots(finder *f) {
    ss_arena *const arena = &f->lattice->report.arena;
    f->slots = ss_arena_alloc(arena, (size_t)f->envelope->effect_count, sizeof *f->slots);
    f->lattice->failed = f->lattice->failed || f->slots == NULL;
    for (int i = 0; i < f->envelope->effect_count && f->slots != NULL; i++) {
        f->slots[i] = slot_of(f->mesh, &f->envelope->effects[i]);
    }
    return f->slots != NULL;
}

/* Whether a joint passes that at all: one that is hinged has no moment. */
static bool passes(const ss_mesh *mesh, ss_spring_kind kind) {
    for (int i = 0; i < mesh->spring_count; i++) {
        if (mesh->spring[i].owner == SS_MEMBER_JOINT && mesh->spring[i].kind == kind) {
            return true;
        }
    }
    return false;
}

/* "moment, EV3, most" for every measure that the bridge has. */
static state_arrays make_arrays(const finder *f, const char *state, bool deflection) {
    state_arrays arrays = {{NULL}};
    for (int m = 0; m < MEASURES; m++) {
        if ((m == JOINT_FORCE && !passes(f->mesh, SS_SPRING_VERTICAL)) ||
            (m == JOINT_MOMENT && !passes(f->mesh, SS_SPRING_FOLD)) || (m == DEFLECTION && !deflection)) {
            continue;
        }
        arrays.of[m] = ss_lattice_numbers(
            f->lattice, ss_build_text(&f->lattice->words, "%s, %s", measures[m].name, state),
            measures[m].of_cells, measures[m].components, (ss_grid_unit){.dimension = measures[m].dimension});
    }
    return arrays;
}

static void put(const finder *f, const state_arrays *arrays, int effect, double value) {
    const slot at = f->slots[effect];
    if (at.measure >= 0 && arrays->of[at.measure] != NULL) {
        arrays->of[at.measure][at.index] = at.factor * value;
    }
}

/* Where nothing changes, an analysis looks at one side of a section, and both have its values. */
static void fill_sides(const finder *f, const state_arrays *arrays) {
    const ss_mesh *const mesh = f->mesh;
    const int lines = mesh->bridge->line_count;
    for (int k = 0; k + 2 < mesh->station_count; k++) {
        for (int line = 0; line < lines; line++) {
            const int left = mesh->line_element[k * lines + line];
            const int right = mesh->line_element[(k + 1) * lines + line];
            for (int m = MOMENT; m <= TORSION && left >= 0 && right >= 0; m++) {
                double *const values = arrays->of[m];
                if (values != NULL && isnan(values[2 * left + 1])) {
                    values[2 * left + 1] = values[2 * right];
                }
            }
        }
    }
}

/* ---- dead load ---------------------------------------------------------------------------------- */

static void add_displacements(ss_lattice *lattice) {
    const ss_results *const results = lattice->words.results;
    const double *const u = results->permanent->present.u;
    double *const moved = ss_lattice_numbers(lattice, "displacement, dead load", false, 3,
                                             (ss_grid_unit){.dimension = SS_DIM_SMALL_LENGTH});
    double *const about_x = ss_lattice_numbers(lattice, "rotation about x, dead load", false, 1,
                                               (ss_grid_unit){.dimension = SS_DIM_ANGLE});
    double *const about_y = ss_lattice_numbers(lattice, "rotation about y, dead load", false, 1,
                                               (ss_grid_unit){.dimension = SS_DIM_ANGLE});
    if (lattice->failed) {
        return;
    }
    for (int i = 0; i < results->mesh->node_count; i++) {
        moved[3 * i] = moved[3 * i + 1] = 0.0;
        moved[3 * i + 2] = u[3 * i];
        about_x[i] = u[3 * i + 1];
        about_y[i] = u[3 * i + 2];
    }
}

static void add_dead(const finder *f) {
    const state_arrays arrays = make_arrays(f, "dead load", false);
    if (f->lattice->failed) {
        return;
    }
    for (int i = 0; i < f->envelope->effect_count; i++) {
        put(f, &arrays, i, f->envelope->dead[i]);
    }
    fill_sides(f, &arrays);
}

/* ---- trucks ------------------------------------------------------------------------------------- */

static void add_truck(const finder *f, int traffic, int most) {
    const char *const state = ss_build_text(
        &f->lattice->words, "%s, %s", ss_words_traffic(&f->lattice->words, traffic), most ? "most" : "least");
    const state_arrays arrays = make_arrays(f, state, true);
    if (f->lattice->failed) {
        return;
    }
    for (int i = 0; i < f->envelope->effect_count; i++) {
        put(f, &arrays, i, ss_range_extreme(f->envelope, i, traffic, most)->value);
    }
    fill_sides(f, &arrays);
}

ss_status ss_grid_of_model(const ss_results *results, ss_grid *out, ss_error *error) {
    ss_lattice lattice;
    ss_model_shape(&lattice, results, out);
    finder f = {.lattice = &lattice, .mesh = results->mesh, .envelope = results->envelope};
    ss_model_labels(&lattice);
    ss_model_sizes(&lattice);
    add_displacements(&lattice);
    if (find_slots(&f)) {
        add_dead(&f);
        for (int t = 0; t < results->placements->traffic_count; t++) {
            for (int most = 0; most < 2 && ss_words_told(results, t); most++) {
                add_truck(&f, t, most);
            }
        }
    }
    ss_lattice_notes(&lattice, ss_build_text(&lattice.words,
                                             "the model, what the unfactored dead load does, and what %s: "
                                             "the least and the most of each truck",
                                             ss_words_analysed(&lattice.words)));
    return ss_lattice_end(&lattice, error);
}
