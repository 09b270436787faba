/* tile_kernels.c - which of the tile kernels this processor runs. */
#include "response/tile_kernel.h"

extern const ss_tile_kernel ss_tile_kernel_baseline;
#ifdef SS_KERNEL_WIDE
extern const ss_tile_kernel ss_tile_kernel_avx2;
extern const ss_tile_kernel ss_tile_kernel_avx512;
#endif

const ss_tile_kernel *ss_tile_kernel_at(int index) {
    const ss_tile_kernel *found[3] = {&ss_tile_kernel_baseline};
    int count = 1;
#ifdef SS_KERNEL_WIDE
    if (__builtin_cpu_supports("avx2")) {
        found[count++] = &ss_tile_kernel_avx2;
    }
    if (__builtin_cpu_supports("avx512f")) {
        found[count++] = &ss_tile_kernel_avx512;
    }
#endif
    return index < count ? found[index] : 0;
}

const ss_tile_kernel *ss_tile_kernel_best(void) {
    int last = 0;
    while (ss_tile_kernel_at(last + 1) != 0) last++;
    return ss_tile_kernel_at(last);
}
