/* influence_field.h - what a unit force does to one effect, place by place: surfaces of every kind are made
 * of it. */
#ifndef SS_RESPONSE_INFLUENCE_FIELD_H
#define SS_RESPONSE_INFLUENCE_FIELD_H

#include "sillspan/mesh.h"
#include "sillspan/permanent.h"

typedef struct ss_influence_field {
    const ss_mesh *mesh;
    ss_effect effect;
    double *field; /**< order: deflections of a unit effect */
    bool *open;    /**< spring_count: contact springs that carry nothing under the present dead load */
    int open_count;
} ss_influence_field;

/** By Betti's theorem from one solution; open springs are not there. Errors as ss_influence_compute. On
 * failure *out can be destroyed too. */
ss_status ss_influence_field_make(const ss_permanent *permanent, const ss_effect *effect,
                                  ss_influence_field *out, ss_error *error);
void ss_influence_field_destroy(ss_influence_field *field);

/** The effect of a force of 1 N downward at a place within an interval between stations. False: nothing
 * carries it there. */
bool ss_influence_field_at(const ss_influence_field *field, int interval, double x, double y, double *value);

#endif
