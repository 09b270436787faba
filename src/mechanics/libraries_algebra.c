/* libraries_algebra.c - the version of LAPACK. */
#include "sillspan/libraries.h"

#include <lapacke.h>
#include <stdio.h>

#include "mechanics/algebra.h"

const char *ss_libraries_algebra(char *buffer, size_t size) {
    lapack_int major = 0;
    lapack_int minor = 0;
    lapack_int patch = 0;
    SS_ALGEBRA(LAPACKE_ilaver(&major, &minor, &patch));
    snprintf(buffer, size, "LAPACK %d.%d.%d", (int)major, (int)minor, (int)patch);
    return buffer;
}
