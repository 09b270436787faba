/* clones.h - marks loops over tiles that are compiled for wider vectors too, with the same bits. */
#ifndef SS_RESPONSE_CLONES_H
#define SS_RESPONSE_CLONES_H

/* The processor's set is chosen when the program starts. Without fused multiply-add (-ffp-contract=off) each
 * set rounds alike. Sanitizers do not get along with functions chosen that early. */
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && defined(__gnu_linux__) &&             \
    !defined(__SANITIZE_ADDRESS__) && !defined(__AVX2__)
#define SS_CLONES __attribute__((target_clones("avx2", "default")))
#else
#define SS_CLONES
#endif

#endif
