/* bench_npy.c - arrays as files that NumPy reads (format 1.0: magic, version, length and text of a header,
 * data). */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench.h"

void bench_npy(const char *folder, const char *name, char kind, const void *data, size_t rows,
               size_t columns) {
    char path[1024], shape[64], header[128];
    snprintf(path, sizeof path, "%s/%s.npy", folder, name);
    if (columns == 0) {
        snprintf(shape, sizeof shape, "(%zu,)", rows);
    } else {
        snprintf(shape, sizeof shape, "(%zu, %zu)", rows, columns);
    }
    snprintf(header, sizeof header, "{'descr': '<%s', 'fortran_order': False, 'shape': %s, }",
             kind == 'd' ? "f8" : "i4", shape);
    /* Blanks and a line end, so that the data begin at a multiple of 64 bytes. */
    const size_t used = 10 + strlen(header) + 1, padding = (64 - used % 64) % 64;
    const size_t length = strlen(header) + padding + 1;
    const unsigned char start[10] = {
        0x93, 'N', 'U', 'M', 'P', 'Y', 1, 0, (unsigned char)(length % 256), (unsigned char)(length / 256)};
    FILE *const file = fopen(path, "wb");
    bool good = file != NULL && fwrite(start, 1, sizeof start, file) == sizeof start;
    good = good && fprintf(file, "%s%*s\n", header, (int)padding, "") > 0;
    const size_t size = kind == 'd' ? sizeof(double) : sizeof(int32_t);
    const size_t count = rows * (columns == 0 ? 1 : columns);
    good = good && fwrite(data, size, count, file) == count;
    if (file == NULL || fclose(file) != 0 || !good) {
        fprintf(stderr, "sillspan_bench: cannot write %s\n", path);
        exit(1);
    }
}
