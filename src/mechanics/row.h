/* row.h - small helpers on sparse rows. */
#ifndef SS_MECHANICS_ROW_H
#define SS_MECHANICS_ROW_H

#include <assert.h>

#include "sillspan/mesh.h"

/** Adds `value` at `dof`, joining it to an entry that is there. */
static inline void ss_row_add(ss_row *row, int dof, double value) {
    for (int i = 0; i < row->count; i++) {
        if (row->dof[i] == dof) {
            row->value[i] += value;
            return;
        }
    }
    if (value == 0.0) {
        return;
    }
    assert(row->count < SS_ROW_MAX);
    row->dof[row->count] = dof;
    row->value[row->count] = value;
    row->count++;
}

static inline double ss_row_dot(const ss_row *row, const double *u) {
    double sum = 0.0;
    for (int i = 0; i < row->count; i++) {
        sum += row->value[i] * u[row->dof[i]];
    }
    return sum;
}

/** out += factor * row. */
static inline void ss_row_scatter(const ss_row *row, double factor, double *out) {
    for (int i = 0; i < row->count; i++) {
        out[row->dof[i]] += factor * row->value[i];
    }
}

/** Global degree of freedom `i` (0 to 5) of an element. */
static inline int ss_element_dof(const ss_element *element, int i) {
    return i < 3 ? 3 * element->a + i : 3 * element->b + i - 3;
}

#endif
