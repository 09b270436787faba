/* read_number.h - bare numbers of a description. */
#ifndef SS_IO_READ_NUMBER_H
#define SS_IO_READ_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/** Reads "12", "-7", "0x1F", "40000000000L", "0.85", "1e3", all of the `length` bytes. *whole says that it is
 * a whole number. The value of a whole number beyond 2^53 is rounded, one of a real number too large is
 * infinite. */
bool ss_number_read(const char *word, size_t length, double *number, bool *whole);

#endif
