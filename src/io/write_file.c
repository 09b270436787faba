/* write_file.c - files that are written whole or not at all. */
#define _XOPEN_SOURCE 700

#include "sillspan/write.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Names tried for the new file before giving up. */
#define TRIES 100

static ss_status fail(ss_error *error, const char *path, int reason) {
    return ss_error_set(error, SS_ERROR_FILE, "cannot write %.300s: %.120s", path, strerror(reason));
}

/* Returns 0 or an errno. */
static int write_all(int file, const char *data, size_t length) {
    while (length > 0) {
        const ssize_t written = write(file, data, length);
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written <= 0) {
            return written < 0 ? errno : EIO;
        }
        data += written;
        length -= (size_t)written;
    }
    return 0;
}

/* A device, a pipe or a terminal cannot be replaced: it takes the bytes as they come. */
static ss_status write_through(const char *path, const char *data, size_t length, ss_error *error) {
    const int file = open(path, O_WRONLY | O_CLOEXEC);
    if (file < 0) {
        return fail(error, path, errno);
    }
    int reason = write_all(file, data, length);
    if (close(file) != 0 && reason == 0) {
        reason = errno;
    }
    return reason == 0 ? SS_OK : fail(error, path, reason);
}

/* Opens a new file beside `path` and leaves its name in `name` (size bytes). -1 with errno on failure. */
static int open_beside(const char *path, char *name, size_t size) {
    const char *slash = strrchr(path, '/');
    const int folder = slash == NULL ? 0 : (int)(slash - path) + 1;
    for (int i = 0; i < TRIES; i++) {
        const int length = snprintf(name, size, "%.*s.sillspan-%ld-%d.tmp", folder, path, (long)getpid(), i);
        if (length < 0 || (size_t)length >= size) {
            errno = ENAMETOOLONG;
            return -1;
        }
        const int file = open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file >= 0 || errno != EEXIST) {
            return file;
        }
    }
    return -1;
}

static ss_status replace(const char *path, const struct stat *old, const char *data, size_t length,
                         ss_error *error) {
    char name[4096];
    const int file = open_beside(path, name, sizeof name);
    if (file < 0) {
        return fail(error, path, errno);
    }
    int reason = 0;
    if (old != NULL && fchmod(file, old->st_mode & 07777) != 0) {
        reason = errno;
    }
    if (reason == 0) {
        reason = write_all(file, data, length);
    }
    if (reason == 0 && fsync(file) != 0) {
        reason = errno;
    }
    if (close(file) != 0 && reason == 0) {
        reason = errno;
    }
    if (reason == 0 && rename(name, path) != 0) {
        reason = errno;
    }
    if (reason != 0) {
        unlink(name);
        return fail(error, path, reason);
    }
    return SS_OK;
}

ss_status ss_write_file(const char *path, const char *data, size_t length, ss_error *error) {
    struct stat old;
    if (stat(path, &old) != 0) {
        /* A link to nowhere is an error of its own: replacing the link is not what was asked. */
        const int reason = errno;
        struct stat link;
        if (reason != ENOENT || lstat(path, &link) == 0) {
            return fail(error, path, reason);
        }
        return replace(path, NULL, data, length, error);
    }
    if (S_ISDIR(old.st_mode)) {
        return fail(error, path, EISDIR);
    }
    if (!S_ISREG(old.st_mode)) {
        return write_through(path, data, length, error);
    }
    if (access(path, W_OK) != 0) {
        return fail(error, path, errno);
    }
    char *target = realpath(path, NULL);
    if (target == NULL) {
        return fail(error, path, errno);
    }
    const ss_status status = replace(target, &old, data, length, error);
    free(target);
    return status;
}
