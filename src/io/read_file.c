/* read_file.c - the bytes of one regular file. */
#define _POSIX_C_SOURCE 200809L

#include "io/read_file.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "sillspan/memory.h"
#include "sillspan/reader.h"

#include "base/try.h"

static const char *reason(int number) {
    switch (number) {
    case ENOENT:
    case ENOTDIR: return "there is no such file";
    case EACCES:
    case EPERM: return "there is no permission to read it";
    case ELOOP: return "its links go in a circle";
    case ENAMETOOLONG: return "its name is too long";
    default: return "it cannot be read";
    }
}

/* SS_READ_BYTES is what every caller allows. */
static const char too_large[] = "it is larger than 4 MiB, the most that a description may have";
_Static_assert(SS_READ_BYTES == 4 * 1024 * 1024, "the words above say so");

static ss_status read_all(int file, char *bytes, size_t size, size_t *length, const char **why) {
    *length = 0;
    while (*length < size) {
        const ssize_t got = read(file, bytes + *length, size - *length);
        if (got == 0) {
            return SS_OK;
        }
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            *why = reason(errno);
            return SS_ERROR_FILE;
        }
        *length += (size_t)got;
    }
    *why = too_large;
    return SS_ERROR_LIMIT;
}

ss_status ss_file_read(const char *path, size_t most, char **bytes, size_t *length, const char **why) {
    ss_status status = SS_OK;
    char *block = NULL;
    size_t filled = 0;
    struct stat about;
    const int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
    if (file < 0 || fstat(file, &about) != 0) {
        *why = reason(errno);
        SS_TRY(SS_ERROR_FILE);
    }
    if (!S_ISREG(about.st_mode)) {
        *why = S_ISDIR(about.st_mode) ? "it is a directory, not a file" : "it is not a regular file";
        SS_TRY(SS_ERROR_FILE);
    }
    if (about.st_size > (off_t)most) {
        *why = too_large;
        SS_TRY(SS_ERROR_LIMIT);
    }
    /* One byte more than it has, so that a file that grows meanwhile is noticed. */
    const size_t size = (size_t)about.st_size + 1;
    block = ss_alloc(size, 1);
    if (block == NULL) {
        *why = "there is not enough memory";
        SS_TRY(SS_ERROR_MEMORY);
    }
    SS_TRY(read_all(file, block, size, &filled, why));
    *bytes = block;
    *length = filled;
    block = NULL;
done:
    ss_free(block);
    if (file >= 0) {
        close(file);
    }
    return status;
}
