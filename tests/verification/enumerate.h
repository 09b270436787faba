/* enumerate.h - a contact problem solved by trying every set of open bearings: a method of its own. */
#ifndef VERIFICATION_ENUMERATE_H
#define VERIFICATION_ENUMERATE_H

enum { ENUMERATE_MOST = 18 };

typedef struct enumerate_result {
    int solutions; /* distinct states that satisfy every condition */
    int open;      /* open springs in the last one */
    double reaction[ENUMERATE_MOST];
} enumerate_result;

/**
 * All solutions of r = r0 + S u, r >= 0, u >= 0, r u = 0 for n springs: each of the 2^n patterns is solved by
 * elimination and kept if no reaction is below -small_r and no opening below -small_u.
 */
void enumerate_contact(int n, const double *S, const double *r0, double small_r, double small_u,
                       enumerate_result *out);

#endif
