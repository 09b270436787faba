/* mesh.c - nodes and members of the grillage. */
#include "mechanics/mesh_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/row.h"
#include "sillspan/composite.h"
#include "sillspan/text.h"

/* Points of the harmonic mean over a tapered interval, and over a part of a floor beam's bay. */
enum { TAPER_POINTS = 4 };

const char *ss_mesh_line_words(const ss_bridge *bridge, int line, char *buffer, size_t size) {
    snprintf(buffer, size, "line %s of car %s", bridge->lines[line].name,
             bridge->cars[bridge->lines[line].car].name);
    return buffer;
}

const char *ss_mesh_x_words(ss_unit_system units, double x, char *buffer, size_t size) {
    char number[32];
    const double shown = ss_units_from_si(x, SS_DIM_LENGTH, units);
    snprintf(buffer, size, "%s %s", ss_text_decimals(number, sizeof number, shown, 2),
             ss_units_name(SS_DIM_LENGTH, units));
    return buffer;
}

static ss_status no_memory(ss_error *error) {
    return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the mesh");
}

static bool make_ints(ss_mesh *mesh, int **out, size_t count, int value) {
    int *items = ss_arena_alloc(&mesh->arena, count, sizeof *items);
    if (items == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        items[i] = value;
    }
    *out = items;
    return true;
}

/* ---- nodes -------------------------------------------------------------------------------------- */

static ss_status build_nodes(ss_mesh *mesh, ss_error *error) {
    const ss_bridge *b = mesh->bridge;
    const int lines = b->line_count;
    const size_t cells = (size_t)mesh->station_count * (size_t)lines;
    if (!make_ints(mesh, &mesh->node_at, cells, -1)) {
        return no_memory(error);
    }
    for (int l = 0; l < lines; l++) {
        const int first = ss_station_nearest(mesh, b->lines[l].x0);
        const int last = ss_station_nearest(mesh, b->lines[l].x1);
        if (first >= last) {
            char words[160];
            return ss_error_set(error, SS_ERROR_DESCRIPTION, "%s has no length",
                                ss_mesh_line_words(b, l, words, sizeof words));
        }
        for (int s = first; s <= last; s++) {
            mesh->node_at[(size_t)s * (size_t)lines + (size_t)l] = 0;
        }
    }
    /* Across, then along: neighbours stay close in number. */
    int count = 0;
    for (size_t i = 0; i < cells; i++) {
        if (mesh->node_at[i] == 0) {
            mesh->node_at[i] = count++;
        }
    }
    mesh->node_count = count;
    mesh->order = 3 * count;
    if (!make_ints(mesh, &mesh->node_station, (size_t)count, 0) ||
        !make_ints(mesh, &mesh->node_line, (size_t)count, 0)) {
        return no_memory(error);
    }
    for (int s = 0; s < mesh->station_count; s++) {
        for (int l = 0; l < lines; l++) {
            const int node = ss_mesh_node(mesh, s, l);
            if (node < 0) {
                continue;
            }
            mesh->node_station[node] = s;
            mesh->node_line[node] = l;
        }
    }
    return SS_OK;
}

/* ---- stiffness of a stretch --------------------------------------------------------------------- */

/* Mean flexibilities of a stretch; a member with them deforms as the stretch does under uniform moment,
 * torque and shear. */
typedef struct flexibility {
    double bending, twist, shear;
    bool no_twist; /* a part of it has no torsional stiffness at all */
} flexibility;

static ss_status accumulate(flexibility *f, const ss_steel *steel, const ss_section_properties *p,
                            double weight) {
    const double EI = steel->E * p->I;
    const double GJ = steel->G * p->J;
    const double GA = steel->G * p->shear_area;
    if (!(EI > 0.0) || !isfinite(EI) || !(GJ >= 0.0) || !isfinite(GJ) || !(GA >= 0.0) || !isfinite(GA)) {
        return SS_ERROR_DESCRIPTION;
    }
    f->bending += weight / EI;
    if (GJ > 0.0) {
        f->twist += weight / GJ;
    } else {
        f->no_twist = true;
    }
    if (GA > 0.0) {
        f->shear += weight / GA;
    }
    return SS_OK;
}

static void take_mean(ss_element *e, const flexibility *f) {
    e->EI = 1.0 / f->bending;
    e->GJ = f->no_twist ? 0.0 : 1.0 / f->twist;
    e->GA = f->shear > 0.0 ? 1.0 / f->shear : (double)INFINITY;
}

static bool level(const ss_bridge *b, const ss_line *line, double x) {
    for (int k = 0; k < line->piece_count; k++) {
        const ss_line_piece *piece = &b->pieces[line->first_piece + k];
        if (x >= piece->x0 && x <= piece->x1) {
            return piece->depth0 == piece->depth1;
        }
    }
    return false;
}

/* Properties of a line with what has hardened of a slab. */
static ss_status composed_section(const ss_mesh *mesh, int l, double x, ss_section_properties *out) {
    ss_slab_flange flange;
    ss_composite_properties whole;
    ss_status status = ss_bridge_line_section(mesh->bridge, l, x, false, out);
    if (status == SS_OK && ss_slab_flange_at(mesh->bridge, l, x, false, mesh->slab, &flange)) {
        status = ss_composite_at(out, &flange, false, &whole, NULL);
        out->I = status == SS_OK ? whole.I : out->I;
        out->J = status == SS_OK ? whole.J : out->J;
    }
    return status;
}

static ss_status line_stiffness(const ss_mesh *mesh, int l, double x0, double x1, ss_element *e,
                                ss_error *error) {
    const ss_bridge *b = mesh->bridge;
    double points[TAPER_POINTS] = {0.5};
    double weights[TAPER_POINTS] = {1.0};
    const int count = level(b, &b->lines[l], 0.5 * (x0 + x1)) ? 1 : TAPER_POINTS;
    if (count > 1) {
        ss_gauss_points(count, points, weights);
    }
    flexibility f = {0};
    for (int i = 0; i < count; i++) {
        ss_section_properties p;
        const ss_status status = composed_section(mesh, l, x0 + points[i] * (x1 - x0), &p);
        if (status != SS_OK || accumulate(&f, &b->steels[b->lines[l].steel], &p, weights[i]) != SS_OK) {
            char words[160];
            char place[48];
            return ss_error_set(error, SS_ERROR_DESCRIPTION, "%s has no usable bending stiffness at x = %s",
                                ss_mesh_line_words(b, l, words, sizeof words),
                                ss_mesh_x_words(b->units, x0 + points[i] * (x1 - x0), place, sizeof place));
        }
    }
    take_mean(e, &f);
    return SS_OK;
}

static ss_status beam_stiffness(const ss_bridge *b, int beam, double y0, double y1, ss_element *e,
                                ss_error *error) {
    const ss_floor_beam *floor_beam = &b->floor_beams[beam];
    flexibility f = {0};
    double covered = 0.0;
    for (int k = 0; k < floor_beam->part_count; k++) {
        const ss_beam_part *part = &b->parts[floor_beam->first_part + k];
        /* The outer parts reach as far as the lines do. */
        const double low = k == 0 ? y0 : ss_max(y0, part->y0);
        const double high = k == floor_beam->part_count - 1 ? y1 : ss_min(y1, part->y1);
        if (!(high > low)) {
            continue;
        }
        ss_section_properties p;
        const double middle = ss_clamp(0.5 * (low + high), part->y0, part->y1);
        const ss_status status = ss_bridge_beam_section(b, beam, middle, false, &p);
        if (status != SS_OK ||
            accumulate(&f, &b->steels[floor_beam->steel], &p, (high - low) / (y1 - y0)) != SS_OK) {
            break;
        }
        covered += (high - low) / (y1 - y0);
    }
    if (!(fabs(covered - 1.0) < 1e-9)) {
        return ss_error_set(error, SS_ERROR_DESCRIPTION,
                            "floor beam %s of car %s has no usable bending stiffness over its whole width",
                            floor_beam->name, b->cars[floor_beam->car].name);
    }
    take_mean(e, &f);
    return SS_OK;
}

/* A strip of slab carries once it is hard, and creeps under load that stays. */
static void stage_strip(const ss_mesh *mesh, const ss_floor_beam *strip, double y, ss_element *e) {
    const ss_slab *slab = &mesh->bridge->slab;
    const bool hard = ss_slab_hard_at(slab, strip->x, false, y, mesh->slab) ||
                      ss_slab_hard_at(slab, strip->x, true, y, mesh->slab);
    const double factor = !hard ? 0.0 : mesh->slab.long_term ? 1.0 / slab->long_factor : 1.0;
    e->EI *= factor;
    e->GJ *= factor;
    e->GA = hard ? e->GA * factor : (double)INFINITY;
}

/* ---- members ------------------------------------------------------------------------------------ */

static bool hinged_at(const ss_bridge *b, const ss_floor_beam *beam, int line) {
    for (int i = 0; i < beam->hinge_count; i++) {
        if (b->hinges[beam->first_hinge + i] == line) {
            return true;
        }
    }
    return false;
}

/* Whether the line passes no bending at a station: the element after it is hinged there. */
static bool cracked_at(const ss_mesh *mesh, int line, int station) {
    const ss_line *l = &mesh->bridge->lines[line];
    for (int i = 0; i < l->crack_count; i++) {
        if (ss_station_nearest(mesh, mesh->bridge->cracks[l->first_crack + i]) == station) {
            return true;
        }
    }
    return false;
}

static ss_status build_line_elements(ss_mesh *mesh, ss_error *error) {
    const ss_bridge *b = mesh->bridge;
    for (int s = 0; s + 1 < mesh->station_count; s++) {
        for (int l = 0; l < b->line_count; l++) {
            const int a = ss_mesh_node(mesh, s, l);
            const int c = ss_mesh_node(mesh, s + 1, l);
            if (a < 0 || c < 0) {
                continue;
            }
            ss_element e = {.a = a,
                            .b = c,
                            .member = l,
                            .length = mesh->station[s + 1] - mesh->station[s],
                            .hinge_a = cracked_at(mesh, l, s)};
            const ss_status status =
                line_stiffness(mesh, l, mesh->station[s], mesh->station[s + 1], &e, error);
            if (status != SS_OK) {
                return status;
            }
            mesh->line_element[(size_t)s * (size_t)b->line_count + (size_t)l] = mesh->element_count;
            mesh->element[mesh->element_count++] = e;
        }
    }
    return SS_OK;
}

static ss_status build_one_beam(ss_mesh *mesh, int beam, int *used, ss_error *error) {
    const ss_bridge *b = mesh->bridge;
    const ss_floor_beam *floor_beam = &b->floor_beams[beam];
    const ss_car *car = &b->cars[floor_beam->car];
    const int station = ss_station_nearest(mesh, floor_beam->x);
    mesh->beam_station[beam] = station;
    mesh->beam_first[beam] = *used;
    int before = -1;
    for (int l = car->first_line; l < car->first_line + car->line_count; l++) {
        if (ss_mesh_node(mesh, station, l) < 0) {
            continue;
        }
        if (before >= 0) {
            ss_element e = {.a = ss_mesh_node(mesh, station, before),
                            .b = ss_mesh_node(mesh, station, l),
                            .across = true,
                            .member = beam,
                            .length = b->lines[l].y - b->lines[before].y,
                            .hinge_a = hinged_at(b, floor_beam, before),
                            .hinge_b = hinged_at(b, floor_beam, l)};
            const ss_status status = beam_stiffness(b, beam, b->lines[before].y, b->lines[l].y, &e, error);
            if (status != SS_OK) {
                return status;
            }
            if (floor_beam->strip > 0.0) {
                stage_strip(mesh, floor_beam, 0.5 * (b->lines[before].y + b->lines[l].y), &e);
            }
            mesh->beam_element[(*used)++] = mesh->element_count;
            mesh->element[mesh->element_count++] = e;
        }
        before = l;
    }
    if (before < 0) {
        char place[48];
        return ss_error_set(error, SS_ERROR_DESCRIPTION, "floor beam %s of car %s at x = %s meets no line",
                            floor_beam->name, car->name,
                            ss_mesh_x_words(b->units, floor_beam->x, place, sizeof place));
    }
    return SS_OK;
}

static ss_status build_elements(ss_mesh *mesh, ss_error *error) {
    const ss_bridge *b = mesh->bridge;
    const size_t along = (size_t)(mesh->station_count - 1) * (size_t)b->line_count;
    size_t across = 0;
    for (int i = 0; i < b->floor_beam_count; i++) {
        across += (size_t)b->cars[b->floor_beams[i].car].line_count;
    }
    const size_t beams = (size_t)b->floor_beam_count;
    mesh->element = ss_arena_alloc(&mesh->arena, along + across, sizeof *mesh->element);
    if (mesh->element == NULL || !make_ints(mesh, &mesh->line_element, along, -1) ||
        !make_ints(mesh, &mesh->beam_first, beams + 1, 0) ||
        !make_ints(mesh, &mesh->beam_element, across, -1) ||
        !make_ints(mesh, &mesh->beam_station, beams, 0)) {
        return no_memory(error);
    }
    ss_status status = build_line_elements(mesh, error);
    int used = 0;
    for (int i = 0; i < b->floor_beam_count && status == SS_OK; i++) {
        status = build_one_beam(mesh, i, &used, error);
    }
    mesh->beam_first[beams] = used;
    return status;
}

static int bandwidth(const ss_mesh *mesh) {
    int most = 2;
    for (int i = 0; i < mesh->element_count; i++) {
        const int reach = 3 * abs(mesh->element[i].b - mesh->element[i].a) + 2;
        if (reach > most) {
            most = reach;
        }
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_row *row = &mesh->spring[i].row;
        for (int j = 0; j < row->count; j++) {
            for (int k = 0; k < j; k++) {
                const int reach = abs(row->dof[j] - row->dof[k]);
                if (reach > most) {
                    most = reach;
                }
            }
        }
    }
    return most < mesh->order ? most : mesh->order - 1;
}

ss_status ss_mesh_build(const ss_bridge *bridge, ss_mesh_options options, ss_mesh *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_mesh mesh = {.bridge = bridge,
                    .refine = options.refine,
                    .slab = options.slab != NULL ? *options.slab : ss_slab_finished(&bridge->slab)};
    SS_TRY(ss_stations_build(&mesh, options.refine, error));
    SS_TRY(build_nodes(&mesh, error));
    SS_TRY(build_elements(&mesh, error));
    SS_TRY(ss_springs_build(&mesh, &options, error));
    mesh.half_bandwidth = bandwidth(&mesh);
    *out = mesh;
    return SS_OK;
done:
    ss_mesh_destroy(&mesh);
    return status;
}

void ss_mesh_destroy(ss_mesh *mesh) {
    if (mesh == NULL) {
        return;
    }
    ss_arena_destroy(&mesh->arena);
    *mesh = (ss_mesh){0};
}
