/* algebra.h - LAPACK and BLAS are entered by one thread at a time. */
#ifndef SS_MECHANICS_ALGEBRA_H
#define SS_MECHANICS_ALGEBRA_H

/**
 * Runs one statement that calls LAPACK or BLAS, such as `SS_ALGEBRA(info = LAPACKE_dgetrf_work(...));`. Some
 * builds of the libraries (OpenBLAS without threads of its own among them) share working memory between
 * calls, and two calls at once then give wrong numbers without a word. The lock is one for the whole process,
 * so that several bridges can be computed at once; what it guards is short beside the rest. Nothing may be
 * called inside that enters it again, and nothing may leave it by return or goto.
 */
#ifdef _OPENMP
#define SS_ALGEBRA(...)                                                                                      \
    do {                                                                                                     \
        _Pragma("omp critical(sillspan_algebra)") {                                                          \
            __VA_ARGS__;                                                                                     \
        }                                                                                                    \
    } while (0)
#else
#define SS_ALGEBRA(...)                                                                                      \
    do {                                                                                                     \
        __VA_ARGS__;                                                                                         \
    } while (0)
#endif

#endif
