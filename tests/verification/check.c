/* check.c - comparing the expected with the obtained. */
#include "verification/check.h"

#include <assert.h>
#include <math.h>

void check_add(check *out, double expected, double obtained) {
    assert(out->count < CHECK_VALUES);
    out->expected[out->count] = expected;
    out->obtained[out->count] = obtained;
    out->count++;
}

double check_allowed(const check *c, int i) {
    if (!c->relative) {
        return c->tolerance;
    }
    double scale = fabs(c->expected[i]);
    for (int j = 0; j < c->count && c->expected[i] == 0.0; j++) {
        scale = fmax(scale, fabs(c->expected[j]));
    }
    return c->tolerance * scale;
}

bool check_passes(const check *c) {
    bool passes = c->count > 0;
    for (int i = 0; i < c->count; i++) {
        /* written so that not-a-number fails */
        passes = passes && fabs(c->obtained[i] - c->expected[i]) <= check_allowed(c, i);
    }
    return passes;
}
