/* sweep_samples.h - cars with joints to be swept, and the same bridge analysed anew at one stiffness. */
#ifndef SS_TEST_SWEEP_SAMPLES_H
#define SS_TEST_SWEEP_SAMPLES_H

#include "mechanics/row.h"
#include "samples.h"
#include "sillspan/spring_sweep.h"

enum { SWEEP_SPRINGS = 256, SWEEP_LOADS = 40, SWEEP_READINGS = 400 };

/** What of a joint is swept. */
typedef enum sweep_part { SWEEP_SHEAR = 1, SWEEP_FOLD = 2, SWEEP_BOTH = 3 } sweep_part;

typedef struct sweep_sample {
    sample s;
    analysis a;
    int swept_count, load_count, reading_count;
    int swept[SWEEP_SPRINGS];
    double stiffness[SWEEP_SPRINGS];
    ss_sweep_load loads[SWEEP_LOADS];
    ss_sweep_reading readings[SWEEP_READINGS];
    double *values, *work; /* made by sweep_make */
    ss_spring_sweep *sweep;
} sweep_sample;

static const double sweep_E = 2.03e11;
static const double sweep_G = 7.8e10;

/** Cars of two to four girders with floor beams, no two alike, joined by springs; bearings rigid, sprung, on
 * pads, held in slope, and such as may lift. */
static inline void sweep_cars(sweep_sample *w, int cars, double spacing) {
    memset(w, 0, sizeof *w);
    ss_bridge *b = &w->s.bridge;
    sample_start(&w->s, sweep_E, sweep_G, spacing);
    const int girder = hand_section(b, 3.1e-4, 2.2e-6, 4e-3, 900.0);
    const int weaker = hand_section(b, 1.9e-4, 0.8e-6, 3e-3, 700.0);
    const int cross = hand_section(b, 0.7e-4, 1.1e-6, 0.0, 300.0);
    static const char *const names[3] = {"north", "middle", "south"};
    for (int c = 0; c < cars; c++) {
        const double y = 2.75 * c;
        hand_car(b, names[c], 0.0, 11.0, y, y + 2.6);
        for (int l = 0; l < 2 + c; l++) {
            const int line =
                hand_line(b, SS_ROLE_MAIN, "girder", y + 0.2 + 2.1 * l / (1 + c), l == 1 ? weaker : girder);
            for (int i = 0; i < 2; i++) {
                ss_bearing *const bearing = &b->bearings[hand_bearing(b, line, i == 0 ? 0.4 : 10.8)];
                bearing->contact = l != 1;
                bearing->spring = c == 1 ? 2.5e8 : (double)INFINITY;
                bearing->pad_width = c == 0 && l == 1 ? 0.3 : 0.0;
                bearing->rotation = l == 1 && i == 0 ? 4e6 : 0.0;
            }
        }
        for (int i = 0; i < 5; i++) hand_beam(b, 11.0 * i / 4.0, cross);
    }
    for (int j = 0; j + 1 < cars; j++) {
        const int joint = hand_joint(b, SS_JOINT_SPRINGS, j, 0.9, 10.1);
        b->joints[joint].shear = 2.1e6 * (1 + j);
        b->joints[joint].rotation = 1.3e5;
    }
}

/** Three connectors in the place of joint 0. */
static inline void sweep_connectors(sweep_sample *w) {
    ss_bridge *b = &w->s.bridge;
    static const double at[3] = {2.37, 5.5, 8.63};
    memcpy(b->connectors, at, sizeof at);
    b->connector_count = b->joints[0].connector_count = 3;
    b->joints[0].shear *= 3.0;
    b->joints[0].rotation *= 3.0;
}

static inline bool sweep_takes(const ss_spring *spring, sweep_part part) {
    return spring->owner == SS_MEMBER_JOINT &&
           (spring->kind == SS_SPRING_FOLD ? part & SWEEP_FOLD : part & SWEEP_SHEAR);
}

static inline void sweep_read(sweep_sample *w, int spring, const ss_row *row) {
    w->readings[w->reading_count++] = (ss_sweep_reading){spring, spring < 0 ? *row : (ss_row){0}};
}

static inline double *sweep_zeros(int count) {
    double *const x = calloc((size_t)count + 1, sizeof *x);
    CU_ASSERT_PTR_NOT_NULL_FATAL(x);
    return x;
}

/** Forces at places that have nothing to do with each other, then offsets: a settlement, an opening, and what
 * a joint may have locked in. */
static inline void sweep_loads(sweep_sample *w) {
    const ss_mesh *mesh = &w->a.mesh;
    const ss_bridge *b = &w->s.bridge;
    for (int i = 0; i < 5; i++) {
        ss_load load;
        CU_ASSERT_EQUAL_FATAL(ss_load_create(mesh, &load, NULL), SS_OK);
        const double y = 0.3 + (b->cars[b->car_count - 1].y_right - 0.5) * i / 4.0;
        CU_ASSERT_EQUAL(ss_load_force(&load, 1.3 + 2.0 * i, y, 40000.0 + 9000.0 * i, NULL), SS_OK);
        double *const nodal = sweep_zeros(mesh->order);
        memcpy(nodal, load.nodal, (size_t)mesh->order * sizeof *nodal);
        w->loads[w->load_count++].nodal = nodal;
        ss_load_destroy(&load);
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *spring = &mesh->spring[i];
        if (!spring->contact && spring->owner == SS_MEMBER_BEARING && spring->kind != SS_SPRING_SLOPE) {
            continue;
        }
        if (w->load_count == SWEEP_LOADS - 1 || (spring->owner == SS_MEMBER_JOINT && i % 7 != 0)) {
            continue;
        }
        double *const offset = sweep_zeros(mesh->spring_count);
        offset[i] = spring->contact ? -0.004 : 0.0017;
        w->loads[w->load_count++].offset = offset;
    }
}

/** Every third deflection and rotation, moments and shears of all girders, all springs. */
static inline void sweep_readings(sweep_sample *w) {
    const ss_mesh *mesh = &w->a.mesh;
    for (int dof = 0; dof < mesh->order && w->reading_count < 120; dof += 5) {
        sweep_read(w, -1, &(ss_row){1, {dof}, {1.0}});
    }
    for (int line = 0; line < w->s.bridge.line_count; line++) {
        for (int kind = 0; kind < 2; kind++) {
            ss_effect effect;
            ss_row row;
            CU_ASSERT_EQUAL_FATAL(ss_mesh_effect(mesh, SS_MEMBER_LINE, line, mesh->station[4], false,
                                                 kind ? SS_EFFECT_SHEAR : SS_EFFECT_MOMENT, &effect, NULL),
                                  SS_OK);
            ss_mesh_effect_row(mesh, &effect, &row);
            sweep_read(w, -1, &row);
        }
    }
    for (int i = 0; i < mesh->spring_count && w->reading_count < SWEEP_READINGS; i++) sweep_read(w, i, NULL);
}

/** The task as it stands, all joints or those up to `last`. */
static inline void sweep_choose(sweep_sample *w, sweep_part part, int last) {
    for (int i = 0; i < w->a.mesh.spring_count; i++) {
        const ss_spring *spring = &w->a.mesh.spring[i];
        if (sweep_takes(spring, part) && spring->index <= last) {
            const ss_joint *joint = &w->s.bridge.joints[spring->index];
            const bool fold = spring->kind == SS_SPRING_FOLD;
            w->swept[w->swept_count] = i;
            w->stiffness[w->swept_count++] = (fold ? joint->rotation : joint->shear) * spring->length;
        }
    }
}

static inline ss_sweep_task sweep_task(const sweep_sample *w) {
    return (ss_sweep_task){.swept_count = w->swept_count,
                           .swept = w->swept,
                           .stiffness = w->stiffness,
                           .load_count = w->load_count,
                           .loads = w->loads,
                           .reading_count = w->reading_count,
                           .readings = w->readings};
}

static inline void sweep_make(sweep_sample *w) {
    ss_error error = {0};
    const ss_sweep_task task = sweep_task(w);
    CHECK_OK(ss_spring_sweep_create(w->a.grillage, &task, &w->sweep, &error), &error);
    w->values = sweep_zeros(w->load_count * w->reading_count);
    w->work = sweep_zeros((int)ss_spring_sweep_work(w->sweep));
}

static inline const double *sweep_at(const sweep_sample *w, double k) {
    ss_error error = {0};
    CHECK_OK(ss_spring_sweep_at(w->sweep, k, w->values, w->work, &error), &error);
    return w->values;
}

static inline void sweep_end(sweep_sample *w) {
    for (int l = 0; l < w->load_count; l++) {
        free((void *)w->loads[l].nodal);
        free((void *)w->loads[l].offset);
    }
    free(w->values);
    free(w->work);
    ss_spring_sweep_destroy(w->sweep);
    analysis_end(&w->a);
}

/* ---- the same by analysis ----------------------------------------------------------------------- */

/** Which values are compared with each other: deflections, rotations, member effects, forces, moments. */
static inline int sweep_kind(const sweep_sample *w, int reading) {
    const ss_sweep_reading *r = &w->readings[reading];
    if (r->spring >= 0) {
        return w->a.mesh.spring[r->spring].kind == SS_SPRING_VERTICAL ? 3 : 4;
    }
    return r->row.count > 1 ? 2 : r->row.dof[0] % 3 == 0 ? 0 : 1;
}

/** Values by ss_grillage_respond on a grillage and an update. */
static inline void sweep_respond(const sweep_sample *w, const ss_grillage *grillage, const ss_update *update,
                                 double *values) {
    ss_error error = {0};
    double *const u = sweep_zeros(w->a.mesh.order), *const force = sweep_zeros(w->a.mesh.spring_count);
    for (int l = 0; l < w->load_count; l++) {
        CHECK_OK(
            ss_grillage_respond(grillage, update, w->loads[l].nodal, w->loads[l].offset, u, force, &error),
            &error);
        for (int i = 0; i < w->reading_count; i++) {
            const ss_sweep_reading *r = &w->readings[i];
            values[i * w->load_count + l] = r->spring >= 0 ? force[r->spring] : ss_row_dot(&r->row, u);
        }
    }
    free(u);
    free(force);
}

/** The largest difference of a load's values of one kind over the largest of them; values below a
 * ten-thousandth of the largest of any load are nothing that the load does. */
static inline double sweep_difference(const sweep_sample *w, const double *x, const double *y) {
    double worst = 0.0, floor[5] = {0};
    for (int at = 0; at < w->load_count * w->reading_count; at++) {
        double *const most = &floor[sweep_kind(w, at / w->load_count)];
        *most = fmax(*most, 1e-4 * fabs(y[at]));
    }
    for (int l = 0; l < w->load_count; l++) {
        double most[5], off[5] = {0};
        memcpy(most, floor, sizeof most);
        for (int i = 0; i < w->reading_count; i++) {
            const int kind = sweep_kind(w, i), at = i * w->load_count + l;
            most[kind] = fmax(most[kind], fabs(y[at]));
            off[kind] = fmax(off[kind], isfinite(x[at]) ? fabs(x[at] - y[at]) : (double)INFINITY);
        }
        for (int kind = 0; kind < 5; kind++) {
            worst = fmax(worst, most[kind] > 0.0 ? off[kind] / most[kind] : off[kind]);
        }
    }
    return worst;
}

/** The bridge with k times the stiffness of what is swept, meshed and factored anew. */
static inline void sweep_anew(const sweep_sample *w, sweep_part part, double k, double *values) {
    static sample s;
    ss_mesh mesh;
    ss_grillage *grillage = NULL;
    ss_error error = {0};
    s = w->s;
    /* Arrays of a bridge point into its own room. */
    s.bridge.joints = s.room.joints;
    for (int j = 0; j < s.bridge.joint_count; j++) {
        s.bridge.joints[j].shear *= part & SWEEP_SHEAR ? k : 1.0;
        s.bridge.joints[j].rotation *= part & SWEEP_FOLD ? k : 1.0;
    }
    sample_mesh(&s, &mesh);
    CHECK_OK(ss_grillage_create(&mesh, &grillage, &error), &error);
    CU_ASSERT_EQUAL_FATAL(mesh.spring_count, w->a.mesh.spring_count);
    sweep_respond(w, grillage, NULL, values);
    ss_grillage_destroy(grillage);
    ss_mesh_destroy(&mesh);
}

/** The same by an update of the grillage as described. */
static inline void sweep_updated(const sweep_sample *w, double k, double *values) {
    ss_error error = {0};
    ss_update *update = NULL;
    double *const flexibility = sweep_zeros(w->a.mesh.spring_count);
    for (int i = 0; i < w->a.mesh.spring_count; i++) flexibility[i] = w->a.mesh.spring[i].flexibility;
    for (int j = 0; j < w->swept_count; j++) flexibility[w->swept[j]] = 1.0 / (k * w->stiffness[j]);
    CHECK_OK(ss_update_create(w->a.grillage, flexibility, &update, &error), &error);
    sweep_respond(w, w->a.grillage, update, values);
    ss_update_destroy(update);
    free(flexibility);
}

#endif
