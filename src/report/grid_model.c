/* grid_model.c - nodes, members, joints and bearings of a bridge as a grid. */
#include "report/grid_model.h"

#include <math.h>

#include "report/report_words.h"

/* Numbers of the parts of a bridge; those of lines are their roles. */
enum { PART_BEAM = 3, PART_STRIP, PART_JOINT, PART_BEARING };

/* One spring of a joint that passes shear. */
static bool is_joint_point(const ss_spring *spring) {
    return spring->owner == SS_MEMBER_JOINT && spring->kind == SS_SPRING_VERTICAL;
}

int ss_model_joint_cell(const ss_mesh *mesh, int spring) {
    const ss_spring *const wanted = &mesh->spring[spring];
    int cell = mesh->element_count;
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *const s = &mesh->spring[i];
        if (!is_joint_point(s)) {
            continue;
        }
        if (s->index == wanted->index && fabs(s->x - wanted->x) < 1e-9) {
            return cell;
        }
        cell++;
    }
    return -1;
}

int ss_model_joint_points(const ss_mesh *mesh) {
    int count = 0;
    for (int i = 0; i < mesh->spring_count; i++) {
        count += is_joint_point(&mesh->spring[i]);
    }
    return count;
}

static double station_of(const ss_mesh *mesh, int node) {
    return mesh->station[mesh->node_station[node]];
}

static int node_of_bearing(const ss_mesh *mesh, const ss_bearing *bearing) {
    int nearest = 0;
    double away = (double)INFINITY;
    for (int i = 0; i < mesh->node_count; i++) {
        const double d = fabs(station_of(mesh, i) - bearing->x);
        if (mesh->node_line[i] == bearing->line && d < away) {
            nearest = i;
            away = d;
        }
    }
    return nearest;
}

/* ---- points and cells --------------------------------------------------------------------------- */

void ss_model_shape(ss_lattice *lattice, const ss_results *results, ss_grid *out) {
    const ss_mesh *const mesh = results->mesh;
    const ss_bridge *const bridge = results->bridge;
    const int joints = ss_model_joint_points(mesh);
    const int bearings = bridge->bearing_count;
    ss_lattice_begin(lattice, results, mesh->node_count + joints, mesh->element_count + joints + bearings,
                     2 * mesh->element_count + joints + bearings, out);
    for (int i = 0; i < mesh->node_count; i++) {
        (void)ss_lattice_point(lattice, station_of(mesh, i), bridge->lines[mesh->node_line[i]].y);
    }
    for (int i = 0; i < mesh->element_count; i++) {
        const int ends[2] = {mesh->element[i].a, mesh->element[i].b};
        ss_lattice_cell(lattice, SS_GRID_SEGMENT, ends);
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        if (is_joint_point(&mesh->spring[i])) {
            const int point = ss_lattice_point(lattice, mesh->spring[i].x, mesh->spring[i].y);
            ss_lattice_cell(lattice, SS_GRID_POINT, &point);
        }
    }
    for (int i = 0; i < bearings; i++) {
        const int node = node_of_bearing(mesh, &bridge->bearings[i]);
        ss_lattice_cell(lattice, SS_GRID_POINT, &node);
    }
}

/* ---- what a cell is ----------------------------------------------------------------------------- */

/* Columns that say what each cell is. */
typedef struct labels {
    double *part, *car, *member;
    const char **part_word, **car_word, **name, **kind;
} labels;

static void name_element(ss_lattice *lattice, const labels *l, const ss_mesh *mesh, int cell) {
    const ss_bridge *const bridge = mesh->bridge;
    const ss_element *const e = &mesh->element[cell];
    int car = 0;
    if (e->across) {
        const ss_floor_beam *const beam = &bridge->floor_beams[e->member];
        const bool strip = beam->strip > 0.0;
        car = beam->car;
        l->part[cell] = strip ? PART_STRIP : PART_BEAM;
        l->part_word[cell] = strip ? "strip of slab" : "floor beam";
        l->name[cell] = ss_lattice_keep(lattice, beam->name);
    } else {
        const ss_line *const line = &bridge->lines[e->member];
        car = line->car;
        l->part[cell] = (int)line->role;
        l->part_word[cell] = ss_role_name(line->role);
        l->name[cell] = ss_lattice_keep(lattice, line->name);
    }
    l->car[cell] = car + 1;
    l->member[cell] = e->member + 1;
    l->car_word[cell] = ss_lattice_keep(lattice, bridge->cars[car].name);
}

static void name_joint(ss_lattice *lattice, const labels *l, const ss_bridge *bridge, int joint, int cell) {
    static const char *const kinds[] = {"none", "hinged", "rigid", "springs"};
    const ss_joint *const j = &bridge->joints[joint];
    l->part[cell] = PART_JOINT;
    l->part_word[cell] = "joint";
    l->car[cell] = j->left + 1;
    l->member[cell] = joint + 1;
    l->car_word[cell] = ss_lattice_keep(lattice, bridge->cars[j->left].name);
    l->name[cell] = ss_lattice_keep(lattice, j->name);
    l->kind[cell] = kinds[j->kind];
}

static void name_bearing(ss_lattice *lattice, const labels *l, const ss_bridge *bridge, int index, int cell) {
    const ss_bearing *const b = &bridge->bearings[index];
    l->part[cell] = PART_BEARING;
    l->part_word[cell] = "bearing";
    l->car[cell] = b->car + 1;
    l->member[cell] = index + 1;
    l->car_word[cell] = ss_lattice_keep(lattice, bridge->cars[b->car].name);
    l->name[cell] = ss_lattice_keep(lattice, b->name);
    l->kind[cell] = b->contact ? "pushes only" : "acts both ways";
}

void ss_model_labels(ss_lattice *lattice) {
    const ss_mesh *const mesh = lattice->words.results->mesh;
    const ss_bridge *const bridge = mesh->bridge;
    const labels l = {.part = ss_lattice_whole(lattice, "part number"),
                      .car = ss_lattice_whole(lattice, "car number"),
                      .member = ss_lattice_whole(lattice, "member number"),
                      .part_word = ss_lattice_texts(lattice, "part"),
                      .car_word = ss_lattice_texts(lattice, "car"),
                      .name = ss_lattice_texts(lattice, "name"),
                      .kind = ss_lattice_texts(lattice, "kind")};
    if (lattice->failed) {
        return;
    }
    for (int i = 0; i < mesh->element_count; i++) {
        name_element(lattice, &l, mesh, i);
    }
    int cell = mesh->element_count;
    for (int i = 0; i < mesh->spring_count; i++) {
        if (is_joint_point(&mesh->spring[i])) {
            name_joint(lattice, &l, bridge, mesh->spring[i].index, cell++);
        }
    }
    for (int i = 0; i < bridge->bearing_count; i++) {
        name_bearing(lattice, &l, bridge, i, cell++);
    }
}

/* ---- sizes -------------------------------------------------------------------------------------- */

static void depths(const ss_mesh *mesh, int cell, double out[2]) {
    const ss_bridge *const bridge = mesh->bridge;
    const ss_element *const e = &mesh->element[cell];
    int section = 0;
    if (!e->across) {
        out[0] = ss_bridge_line_piece(bridge, e->member, station_of(mesh, e->a), false, &section);
        out[1] = ss_bridge_line_piece(bridge, e->member, station_of(mesh, e->b), true, &section);
        return;
    }
    if (bridge->floor_beams[e->member].strip > 0.0) {
        out[0] = out[1] = bridge->slab.thickness;
        return;
    }
    const int ends[2] = {e->a, e->b};
    for (int i = 0; i < 2; i++) {
        section = ss_bridge_beam_part(bridge, e->member, bridge->lines[mesh->node_line[ends[i]]].y, i == 1);
        out[i] = bridge->sections[section].depth;
    }
}

void ss_model_sizes(ss_lattice *lattice) {
    const ss_mesh *const mesh = lattice->words.results->mesh;
    const ss_bridge *const bridge = mesh->bridge;
    const ss_grid_unit stiffness = {SS_DIM_MOMENT, SS_DIM_LENGTH, SS_DIM_NUMBER};
    const ss_grid_unit small = {SS_DIM_SMALL_LENGTH, SS_DIM_NUMBER, SS_DIM_NUMBER};
    double *const EI = ss_lattice_numbers(lattice, "EI", true, 1, stiffness);
    double *const GJ = ss_lattice_numbers(lattice, "GJ", true, 1, stiffness);
    double *const depth = ss_lattice_numbers(lattice, "depth", true, 2, small);
    double *const length =
        ss_lattice_numbers(lattice, "length", true, 1, (ss_grid_unit){.dimension = SS_DIM_LENGTH});
    double *const gap = ss_lattice_numbers(lattice, "gap of bearing", true, 1, small);
    if (lattice->failed) {
        return;
    }
    for (int i = 0; i < mesh->element_count; i++) {
        EI[i] = mesh->element[i].EI;
        GJ[i] = mesh->element[i].GJ;
        length[i] = mesh->element[i].length;
        depths(mesh, i, &depth[2 * (size_t)i]);
    }
    int cell = mesh->element_count;
    for (int i = 0; i < mesh->spring_count; i++) {
        if (is_joint_point(&mesh->spring[i])) {
            const ss_joint *const joint = &bridge->joints[mesh->spring[i].index];
            length[cell++] = joint->connector_count > 0 ? (double)NAN : mesh->spring[i].length;
        }
    }
    for (int i = 0; i < bridge->bearing_count; i++) {
        gap[cell++] = bridge->bearings[i].gap;
    }
}
