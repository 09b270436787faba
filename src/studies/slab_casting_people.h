/* slab_casting_people.h - people and gear on the cars while a slab is cast, part by part. */
#ifndef SS_STUDIES_SLAB_CASTING_PEOPLE_H
#define SS_STUDIES_SLAB_CASTING_PEOPLE_H

#include "studies/slab_casting_parts.h"

/** One part of a car under the load, in the stiffness and the contact of one stage. */
typedef struct ss_casting_people_part {
    ss_load load;
    double *u;
} ss_casting_people_part;

typedef struct ss_casting_people {
    const ss_mesh *mesh;
    ss_casting_people_part *parts;
    int count, capacity;
} ss_casting_people;

/** All parts of all cars. Empty where the construction load is 0. */
ss_status ss_casting_people_make(const ss_casting *c, int stage, ss_casting_people *out);
void ss_casting_people_destroy(ss_casting_people *people);

/** Least and most effect, each of the parts that are adverse; without load factor. */
void ss_casting_people_effect(const ss_casting_people *people, const ss_effect *effect, double out[2]);

#endif
