/* influence_field.c - the influence of one effect, by one solution. */
#include "response/influence_field.h"

#include <math.h>

#include "base/try.h"
#include "mechanics/deck.h"
#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"
#include "response/state.h"

/* ---- the field ---------------------------------------------------------------------------------- */

/* The grillage with the bearings open that carry nothing today; *update stays NULL where all press. */
static ss_status open_bearings(ss_influence_field *s, const ss_permanent *permanent, ss_update **update,
                               ss_error *error) {
    const ss_mesh *const mesh = s->mesh;
    ss_status status = SS_OK;
    double *const flexibility = ss_alloc((size_t)mesh->spring_count, sizeof *flexibility);
    if (flexibility == NULL) {
        return ss_no_memory(error);
    }
    for (int i = 0; i < mesh->spring_count; i++) {
        const bool lifted = mesh->spring[i].contact && !(permanent->present.force[i] > 0.0);
        flexibility[i] = lifted ? (double)INFINITY : mesh->spring[i].flexibility;
        s->open[i] = lifted;
        s->open_count += lifted;
    }
    if (s->open_count > 0) {
        SS_TRY(ss_update_create(permanent->grillage, flexibility, update, error));
    }
done:
    ss_free(flexibility);
    return status;
}

/* The force of a spring under a load is its field of a unit settlement times the load. */
static ss_status spring_field(const ss_influence_field *s, const ss_permanent *permanent,
                              const ss_update *update, double *right, double *force, ss_error *error) {
    ss_status status = SS_OK;
    const int second = ss_effect_second_spring(s->mesh, &s->effect);
    right[s->effect.spring] = 1.0;
    if (second >= 0) {
        right[second] = 1.0;
    }
    SS_TRY(ss_grillage_respond(permanent->grillage, update, NULL, right, s->field, force, error));
    const double factor = ss_effect_spring_factor(s->mesh, &s->effect);
    for (int i = 0; i < s->mesh->order; i++) {
        s->field[i] *= factor;
    }
done:
    return status;
}

static ss_status member_field(const ss_influence_field *s, const ss_permanent *permanent,
                              const ss_update *update, double *right, double *force, ss_error *error) {
    ss_row row;
    ss_mesh_effect_row(s->mesh, &s->effect, &row);
    ss_row_scatter(&row, 1.0, right);
    return ss_grillage_respond(permanent->grillage, update, right, NULL, s->field, force, error);
}

ss_status ss_influence_field_make(const ss_permanent *permanent, const ss_effect *effect,
                                  ss_influence_field *out, ss_error *error) {
    const ss_mesh *const mesh = ss_grillage_mesh(permanent->grillage);
    const size_t springs = (size_t)mesh->spring_count;
    const size_t size = (size_t)mesh->order > springs ? (size_t)mesh->order : springs;
    ss_status status = SS_OK;
    ss_update *update = NULL;
    double *right = NULL;
    double *force = NULL;
    *out = (ss_influence_field){.mesh = mesh};
    SS_TRY(ss_mesh_effect(mesh, effect->member, effect->index, effect->at, effect->before, effect->kind,
                          &out->effect, error));
    right = ss_alloc(size, sizeof *right);
    force = ss_alloc(size, sizeof *force);
    out->field = ss_alloc(size, sizeof *out->field);
    out->open = ss_alloc(springs + 1, sizeof *out->open);
    SS_TRY(right == NULL || force == NULL || out->field == NULL || out->open == NULL ? ss_no_memory(error)
                                                                                     : SS_OK);
    SS_TRY(open_bearings(out, permanent, &update, error));
    SS_TRY(ss_effect_of_spring(&out->effect) ? spring_field(out, permanent, update, right, force, error)
                                             : member_field(out, permanent, update, right, force, error));
done:
    ss_update_destroy(update);
    ss_free(right);
    ss_free(force);
    return status;
}

void ss_influence_field_destroy(ss_influence_field *field) {
    ss_free(field->field);
    ss_free(field->open);
    *field = (ss_influence_field){0};
}

/* ---- values ------------------------------------------------------------------------------------- */

/* What a force within the effect's own element adds to the field. */
static double own_part(const ss_influence_field *s, int interval, double x, const ss_deck_shares *shares) {
    const ss_effect *const e = &s->effect;
    double value = 0.0;
    for (int i = 0; i < shares->carrier_count; i++) {
        const ss_carrier *const c = &shares->carrier[i];
        if (ss_mesh_line_element(s->mesh, interval, c->line) == e->element) {
            const double along = (x - s->mesh->station[interval]) / s->mesh->element[e->element].length;
            value += c->weight * ss_mesh_effect_local(s->mesh, e, along) +
                     c->arm * ss_mesh_effect_local_torque(s->mesh, e, along);
        }
    }
    for (int i = 0; i < shares->beam_count; i++) {
        const ss_beam_share *const b = &shares->beam[i];
        const bool at_end = b->s <= 1e-12 || b->s >= 1.0 - 1e-12;
        if (b->element == e->element) {
            value += at_end ? 0.0 : b->weight * ss_mesh_effect_local(s->mesh, e, b->s);
            value += b->arm == 0.0 ? 0.0 : b->arm * ss_mesh_effect_local_overhang(s->mesh, e, b->s > 0.5);
        }
    }
    return value;
}

bool ss_influence_field_at(const ss_influence_field *s, int interval, double x, double y, double *value) {
    ss_deck_shares shares;
    ss_row row;
    ss_deck_shares_at(s->mesh, interval, x, y, &shares);
    if (shares.carrier_count + shares.beam_count == 0 || ss_mesh_wheel(s->mesh, x, y, &row) != SS_OK ||
        row.count == 0) {
        return false;
    }
    *value = ss_row_dot(&row, s->field);
    if (!ss_effect_of_spring(&s->effect)) {
        *value += own_part(s, interval, x, &shares);
    }
    return true;
}
