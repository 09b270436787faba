/* read_file.h - the bytes of one regular file. */
#ifndef SS_IO_READ_FILE_H
#define SS_IO_READ_FILE_H

#include <stddef.h>

#include "sillspan/status.h"

/** Reads all of a regular file of at most `most` bytes into a new block (ss_free). SS_ERROR_FILE or
 * SS_ERROR_LIMIT with a phrase such as "there is no such file"; pipes, directories and devices are refused
 * without waiting for them. */
ss_status ss_file_read(const char *path, size_t most, char **bytes, size_t *length, const char **why);

#endif
