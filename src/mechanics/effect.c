/* effect.c - moments, shears, torsions and deflections of members as rows, and what loads within a member add
 * to them. */
#include <math.h>

#include "base/numeric.h"
#include "mechanics/element.h"
#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"
#include "sillspan/composite.h"
#include "sillspan/section_form.h"

/* Own coordinates of an element (element.h). */
enum { W_A, SLOPE_A, TWIST_A, W_B, SLOPE_B, TWIST_B };

/* ---- finding ------------------------------------------------------------------------------------ */

static ss_status refuse_line(const ss_mesh *mesh, const ss_effect *e, ss_error *error) {
    char words[160];
    char place[48];
    return ss_error_set(error, SS_ERROR_DESCRIPTION, "%s: there is nothing just %s x = %s",
                        ss_mesh_line_words(mesh->bridge, e->index, words, sizeof words),
                        e->before ? "before" : "after",
                        ss_mesh_x_words(mesh->bridge->units, e->at, place, sizeof place));
}

static ss_status find_on_line(const ss_mesh *mesh, ss_effect *e, ss_error *error) {
    const int station = ss_station_nearest(mesh, e->at);
    const int interval = e->before ? station - 1 : station;
    if (fabs(mesh->station[station] - e->at) > 2.0 * SS_STATION_TOLERANCE) {
        char place[48];
        return ss_error_set(error, SS_ERROR_INTERNAL,
                            "an effect is asked for at x = %s, which is not a station",
                            ss_mesh_x_words(mesh->bridge->units, e->at, place, sizeof place));
    }
    e->element = interval >= 0 && interval + 1 < mesh->station_count
                     ? ss_mesh_line_element(mesh, interval, e->index)
                     : -1;
    e->s = e->before ? 1.0 : 0.0;
    return e->element < 0 ? refuse_line(mesh, e, error) : SS_OK;
}

static ss_status find_on_beam(const ss_mesh *mesh, ss_effect *e, ss_error *error) {
    const ss_bridge *b = mesh->bridge;
    for (int i = mesh->beam_first[e->index]; i < mesh->beam_first[e->index + 1]; i++) {
        const ss_element *m = &mesh->element[mesh->beam_element[i]];
        const double y0 = b->lines[mesh->node_line[m->a]].y;
        const double y1 = b->lines[mesh->node_line[m->b]].y;
        const double tolerance = SS_STATION_TOLERANCE;
        const bool inside = e->before ? e->at > y0 + tolerance && e->at <= y1 + tolerance
                                      : e->at >= y0 - tolerance && e->at < y1 - tolerance;
        if (!inside) {
            continue;
        }
        e->element = mesh->beam_element[i];
        const double s = (e->at - y0) / (y1 - y0);
        e->s = e->at - y0 < tolerance ? 0.0 : y1 - e->at < tolerance ? 1.0 : s;
        return SS_OK;
    }
    char place[48];
    return ss_error_set(
        error, SS_ERROR_DESCRIPTION, "floor beam %s of car %s: there is nothing just %s y = %s",
        b->floor_beams[e->index].name, b->cars[b->floor_beams[e->index].car].name,
        e->before ? "left of" : "right of", ss_mesh_x_words(mesh->bridge->units, e->at, place, sizeof place));
}

static ss_status find_spring(const ss_mesh *mesh, ss_effect *e, ss_error *error) {
    const ss_spring_kind kind = e->member == SS_MEMBER_BEARING
                                    ? (e->kind == SS_EFFECT_MOMENT ? SS_SPRING_SLOPE : SS_SPRING_VERTICAL)
                                    : (e->kind == SS_EFFECT_MOMENT ? SS_SPRING_FOLD : SS_SPRING_VERTICAL);
    double nearest = (double)INFINITY;
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *spring = &mesh->spring[i];
        const double away = e->member == SS_MEMBER_BEARING ? 0.0 : fabs(spring->x - e->at);
        if (spring->owner != e->member || spring->index != e->index || spring->kind != kind ||
            !(away < nearest - 1e-9)) {
            continue;
        }
        nearest = away;
        e->spring = i;
    }
    if (e->spring >= 0) {
        return SS_OK;
    }
    const ss_bridge *b = mesh->bridge;
    return ss_error_set(error, SS_ERROR_DESCRIPTION, "%s %s passes no %s",
                        e->member == SS_MEMBER_JOINT ? "joint" : "bearing",
                        e->member == SS_MEMBER_JOINT ? b->joints[e->index].name : b->bearings[e->index].name,
                        e->kind == SS_EFFECT_MOMENT ? "moment" : "force");
}

static bool kind_fits(ss_member_kind member, ss_effect_kind kind) {
    switch (member) {
    case SS_MEMBER_LINE:
    case SS_MEMBER_BEAM: return kind != SS_EFFECT_REACTION;
    case SS_MEMBER_JOINT: return kind == SS_EFFECT_SHEAR || kind == SS_EFFECT_MOMENT;
    case SS_MEMBER_BEARING: return kind == SS_EFFECT_REACTION || kind == SS_EFFECT_MOMENT;
    }
    return false;
}

static bool is_web(const ss_effect *e) {
    return e->kind == SS_EFFECT_WEB_PLUS || e->kind == SS_EFFECT_WEB_MINUS;
}

/* A slab that twists with the line takes its share of the torque by stiffness. */
static ss_status web_share(const ss_mesh *mesh, ss_effect *e, ss_error *error) {
    if (!is_web(e)) {
        return SS_OK;
    }
    ss_section_properties p;
    const ss_status status = e->member == SS_MEMBER_LINE
                                 ? ss_bridge_line_section(mesh->bridge, e->index, e->at, e->before, &p)
                                 : ss_bridge_beam_section(mesh->bridge, e->index, e->at, e->before, &p);
    if (status != SS_OK) {
        return ss_error_set(error, status, "a member's section cannot be found");
    }
    ss_slab_flange flange;
    ss_composite_properties whole;
    e->torsion_shear = p.torsion_shear;
    if (e->member == SS_MEMBER_LINE &&
        ss_slab_flange_at(mesh->bridge, e->index, e->at, e->before, mesh->slab, &flange) &&
        ss_composite_at(&p, &flange, false, &whole, NULL) == SS_OK) {
        e->torsion_shear *= p.J / whole.J;
    }
    return SS_OK;
}

ss_status ss_mesh_effect(const ss_mesh *mesh, ss_member_kind member, int index, double at, bool before,
                         ss_effect_kind kind, ss_effect *out, ss_error *error) {
    ss_effect e = {.kind = kind,
                   .member = member,
                   .index = index,
                   .at = at,
                   .before = before,
                   .element = -1,
                   .spring = -1};
    if (!kind_fits(member, kind)) {
        return ss_error_set(error, SS_ERROR_DESCRIPTION, "this member has no %s to give",
                            ss_effect_name(kind));
    }
    ss_status status = SS_OK;
    switch (member) {
    case SS_MEMBER_LINE: status = find_on_line(mesh, &e, error); break;
    case SS_MEMBER_BEAM: status = find_on_beam(mesh, &e, error); break;
    case SS_MEMBER_JOINT:
    case SS_MEMBER_BEARING: status = find_spring(mesh, &e, error); break;
    }
    if (status == SS_OK) {
        status = web_share(mesh, &e, error);
    }
    if (status == SS_OK) {
        *out = e;
    }
    return status;
}

bool ss_mesh_effect_taper(const ss_mesh *mesh, ss_effect *effect) {
    const ss_bridge *b = mesh->bridge;
    const ss_line *line = &b->lines[effect->index];
    int section = 0;
    const double depth = ss_bridge_line_piece(b, effect->index, effect->at, effect->before, &section);
    ss_section_form form;
    for (int i = 0; i < line->piece_count; i++) {
        const ss_line_piece *piece = &b->pieces[line->first_piece + i];
        const bool within = effect->before ? effect->at > piece->x0 + SS_STATION_TOLERANCE &&
                                                 effect->at <= piece->x1 + SS_STATION_TOLERANCE
                                           : effect->at >= piece->x0 - SS_STATION_TOLERANCE &&
                                                 effect->at < piece->x1 - SS_STATION_TOLERANCE;
        if (!within || piece->depth0 == piece->depth1 ||
            ss_section_form_at(&b->sections[section], depth, &form, NULL) != SS_OK) {
            continue;
        }
        const double between = form.ho > 0.0 ? form.ho : depth;
        effect->moment_shear = (piece->depth1 - piece->depth0) / (piece->x1 - piece->x0) / between;
        return true;
    }
    return false;
}

/* ---- values from end forces --------------------------------------------------------------------- */

/* What an effect is of the end forces f (own coordinates; on the member, positive along the coordinates),
 * apart from loads within and from the deflection of the ends: M_a = f(slope_a), V_a = -f(w_a), T =
 * -f(twist_a) at a and f(twist_b) at b. */
typedef struct end_factors {
    double of[6];
} end_factors;

static double torsion_factor(const ss_effect *e) {
    switch (e->kind) {
    case SS_EFFECT_TORSION: return 1.0;
    case SS_EFFECT_WEB_PLUS: return e->torsion_shear;
    case SS_EFFECT_WEB_MINUS: return -e->torsion_shear;
    default: return 0.0;
    }
}

static bool takes_shear(const ss_effect *e) {
    return e->kind == SS_EFFECT_SHEAR || is_web(e);
}

static end_factors factors_of(const ss_effect *e, double length) {
    end_factors r = {{0}};
    /* From the nearer end: at b the values there, so that no lever arm enlarges rounding. */
    const bool from_b = e->s == 1.0;
    if (e->kind == SS_EFFECT_MOMENT) {
        if (from_b) {
            r.of[SLOPE_B] = -1.0;
        } else {
            r.of[SLOPE_A] = 1.0;
            r.of[W_A] = -e->s * length;
        }
    }
    if (takes_shear(e)) {
        r.of[from_b ? W_B : W_A] = from_b ? 1.0 : -1.0;
    }
    if (e->moment_shear != 0.0) {
        r.of[from_b ? SLOPE_B : SLOPE_A] += from_b ? e->moment_shear : -e->moment_shear;
    }
    const double t = torsion_factor(e);
    if (t != 0.0) {
        r.of[from_b ? TWIST_B : TWIST_A] = from_b ? t : -t;
    }
    return r;
}

void ss_mesh_effect_row(const ss_mesh *mesh, const ss_effect *effect, ss_row *row) {
    const ss_element *e = &mesh->element[effect->element];
    const ss_element_axes axes = ss_element_axes_of(e);
    double own[6] = {0};
    if (effect->kind == SS_EFFECT_DEFLECTION) {
        double c[6][4];
        ss_element_own_shape(e, c);
        for (int i = 0; i < 6; i++) {
            own[i] = ss_cubic(c[i], effect->s);
        }
        if (effect->s == 0.0 || effect->s == 1.0) {
            for (int i = 0; i < 6; i++) {
                own[i] = i == (effect->s == 0.0 ? W_A : W_B) ? 1.0 : 0.0;
            }
        }
    } else {
        double k[36];
        ss_element_own_stiffness(e, k);
        const end_factors f = factors_of(effect, e->length);
        for (int i = 0; i < 6; i++) {
            for (int j = 0; j < 6; j++) {
                own[j] += f.of[i] * k[6 * i + j];
            }
        }
    }
    ss_row made = {0};
    for (int i = 0; i < 6; i++) {
        if (own[i] != 0.0) {
            ss_row_add(&made, ss_element_dof(e, axes.map[i]), axes.sign[i] * own[i]);
        }
    }
    *row = made;
}

/* ---- loads within ------------------------------------------------------------------------------- */

/* The effect of clamped end forces g (equivalent nodal loads, own coordinates; the end forces are minus them)
 * and of a load before the section. */
static double from_clamped(const ss_element *e, const ss_effect *effect, const double g[6], double force_at,
                           double q) {
    if (effect->kind == SS_EFFECT_DEFLECTION) {
        if (effect->s == 0.0 || effect->s == 1.0) {
            return 0.0;
        }
        return ss_element_clamped_deflection(e, effect->s, -g[SLOPE_A], g[W_A], force_at, q);
    }
    const end_factors f = factors_of(effect, e->length);
    double value = 0.0;
    for (int i = 0; i < 6; i++) {
        value -= f.of[i] * g[i];
    }
    return value;
}

double ss_mesh_effect_local(const ss_mesh *mesh, const ss_effect *effect, double s) {
    const ss_element *e = &mesh->element[effect->element];
    double c[6][4];
    double g[6];
    ss_element_own_shape(e, c);
    for (int i = 0; i < 6; i++) {
        g[i] = ss_cubic(c[i], s);
    }
    double value = from_clamped(e, effect, g, s, 0.0);
    /* At b the end forces have the load before them already; elsewhere it is taken off here. */
    const bool passed = s < effect->s || (s == effect->s && !effect->before);
    if (effect->s == 1.0) {
        if (!passed && takes_shear(effect)) {
            value += 1.0;
        }
    } else if (passed) {
        if (effect->kind == SS_EFFECT_MOMENT) {
            value -= (effect->s - s) * e->length;
        }
        if (takes_shear(effect)) {
            value -= 1.0;
        }
    }
    return value;
}

void ss_mesh_effect_local_cubic(const ss_mesh *mesh, const ss_effect *effect, double c[4]) {
    const ss_element *e = &mesh->element[effect->element];
    double shape[6][4];
    ss_element_own_shape(e, shape);
    const end_factors f =
        effect->kind == SS_EFFECT_DEFLECTION ? (end_factors){{0}} : factors_of(effect, e->length);
    for (int j = 0; j < 4; j++) {
        c[j] = 0.0;
        for (int i = 0; i < 6; i++) {
            c[j] -= f.of[i] * shape[i][j];
        }
    }
}

double ss_mesh_effect_local_torque(const ss_mesh *mesh, const ss_effect *effect, double s) {
    const double t = torsion_factor(effect);
    if (t == 0.0 || mesh->element[effect->element].across) {
        return 0.0;
    }
    const bool passed = s < effect->s || (s == effect->s && !effect->before);
    return t * (1.0 - s - (passed ? 1.0 : 0.0));
}

double ss_mesh_effect_local_overhang(const ss_mesh *mesh, const ss_effect *effect, bool at_b) {
    const ss_element *e = &mesh->element[effect->element];
    double clamped[6];
    if (!(at_b ? e->hinge_b : e->hinge_a)) {
        return 0.0;
    }
    ss_element_overhang(e, at_b, clamped);
    clamped[at_b ? SLOPE_B : SLOPE_A] = -1.0;
    return from_clamped(e, effect, clamped, -1.0, 0.0);
}

double ss_mesh_effect_value(const ss_mesh *mesh, const ss_effect *effect, const double *u,
                            const ss_load *load) {
    const ss_element *e = &mesh->element[effect->element];
    ss_row row;
    ss_mesh_effect_row(mesh, effect, &row);
    double value = ss_row_dot(&row, u);
    if (load == NULL) {
        return value;
    }
    const ss_element_axes axes = ss_element_axes_of(e);
    const double *clamped = &load->clamped[6 * (size_t)effect->element];
    const double q = load->uniform[effect->element];
    double g[6];
    for (int i = 0; i < 6; i++) {
        g[i] = axes.sign[i] * clamped[axes.map[i]];
    }
    if (is_web(effect)) {
        g[TWIST_A] += load->locked_torque[effect->element];
        g[TWIST_B] -= load->locked_torque[effect->element];
    }
    value += from_clamped(e, effect, g, -1.0, q);
    if (effect->s != 0.0 && effect->s != 1.0) {
        const double x = effect->s * e->length;
        if (effect->kind == SS_EFFECT_MOMENT) {
            value -= 0.5 * q * x * x;
        }
        if (takes_shear(effect)) {
            value -= q * x;
        }
    }
    return value;
}
