/* kept_lines.c - results that outlive the run: a file that grows by one line a result, each with its digest.
 */
#define _POSIX_C_SOURCE 200809L

#include "io/kept_lines.h"

#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/fields.h"
#include "base/try.h"

/* A million rows have less. */
#define MOST_BYTES ((off_t)512 * 1024 * 1024)
enum { DIGEST_LETTERS = 16 };

static ss_status no_memory(ss_error *error) {
    return ss_error_set(error, SS_ERROR_MEMORY, "no memory for what is kept");
}

static ss_status fail(const ss_kept_asks *asks, const char *why, ss_error *error) {
    return ss_error_set(error, SS_ERROR_FILE, "cannot resume with %.300s: %.120s", asks->path, why);
}

/* FNV-1a, 64 bit. */
static void digest_of(const char *bytes, size_t length, char out[DIGEST_LETTERS + 1]) {
    uint64_t digest = UINT64_C(14695981039346656037);
    for (size_t i = 0; i < length; i++) digest = (digest ^ (unsigned char)bytes[i]) * UINT64_C(1099511628211);
    snprintf(out, DIGEST_LETTERS + 1, "%016llx", (unsigned long long)digest);
}

/* ---- reading ------------------------------------------------------------------------------------ */

static ss_status read_all(int file, const ss_kept_asks *asks, char **bytes, size_t *length, ss_error *error) {
    struct stat about;
    if (fstat(file, &about) != 0) {
        return fail(asks, strerror(errno), error);
    }
    if (!S_ISREG(about.st_mode)) {
        return fail(asks, "it is no regular file", error);
    }
    if (about.st_size > MOST_BYTES) {
        return fail(asks, "it is larger than any file of finished rows", error);
    }
    char *const text = ss_alloc((size_t)about.st_size + 1, 1);
    size_t have = 0;
    while (text != NULL && have < (size_t)about.st_size) {
        const ssize_t got = read(file, text + have, (size_t)about.st_size - have);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            const ss_status status = fail(asks, strerror(errno), error);
            ss_free(text);
            return status;
        }
        if (got == 0) {
            break;
        }
        have += (size_t)got;
    }
    if (text == NULL) {
        return no_memory(error);
    }
    *bytes = text;
    *length = have;
    return SS_OK;
}

/* One line of `length` bytes, its end cut off: digest, key, value. False: damaged. */
static bool take_line(ss_kept *kept, const char *text, size_t length, ss_kept_line *out, bool *memory) {
    char digest[DIGEST_LETTERS + 1];
    if (length <= DIGEST_LETTERS || strlen(text) != length) {
        return false;
    }
    const char *const rest = text + DIGEST_LETTERS + 1;
    digest_of(rest, strlen(rest), digest);
    if (strncmp(text, digest, DIGEST_LETTERS) != 0 || text[DIGEST_LETTERS] != '\t') {
        return false;
    }
    ss_fields fields = {.at = rest, .arena = &kept->arena};
    out->key = ss_fields_text(&fields);
    out->value = ss_fields_text(&fields);
    *memory = fields.no_memory;
    return ss_fields_end(&fields) && out->key != NULL && out->value != NULL;
}

static ss_status add_line(ss_kept *kept, const ss_kept_line *line, ss_error *error) {
    if (kept->count == kept->capacity) {
        const int capacity = kept->capacity == 0 ? 64 : 2 * kept->capacity;
        ss_kept_line *const lines = ss_realloc(kept->lines, (size_t)capacity, sizeof *lines);
        if (lines == NULL) {
            return no_memory(error);
        }
        kept->lines = lines;
        kept->capacity = capacity;
    }
    kept->lines[kept->count++] = *line;
    return SS_OK;
}

/* Whether the bytes begin with the title's line, or are all that a killed run wrote of it. */
static bool is_titled(const char *bytes, size_t length, const char *title) {
    const size_t due = strlen(title);
    return length <= due ? strncmp(bytes, title, length) == 0
                         : strncmp(bytes, title, due) == 0 && bytes[due] == '\n';
}

/* *whole: bytes of all lines that have their end. */
static ss_status take_bytes(const ss_kept_asks *asks, char *bytes, size_t length, size_t *whole,
                            ss_kept *kept, ss_error *error) {
    int number = 1;
    *whole = 0;
    if (bytes == NULL || !is_titled(bytes, length, asks->title)) {
        return fail(asks, "it is no file of finished rows, or one of another version; it is left as it is",
                    error);
    }
    for (char *at = bytes, *end; (end = memchr(at, '\n', length - (size_t)(at - bytes))) != NULL;
         at = end + 1) {
        ss_kept_line line = {.line = number};
        bool memory = false;
        *end = '\0';
        *whole = (size_t)(end - bytes) + 1;
        if (number++ == 1) {
            continue;
        }
        if (!take_line(kept, at, (size_t)(end - at), &line, &memory)) {
            char why[120];
            snprintf(why, sizeof why, "its line %d is damaged; it is left as it is", line.line);
            return memory ? no_memory(error) : fail(asks, why, error);
        }
        const ss_status status = add_line(kept, &line, error);
        if (status != SS_OK) {
            return status;
        }
    }
    return SS_OK;
}

static int by_key(const void *a, const void *b) {
    const ss_kept_line *const left = a;
    const ss_kept_line *const right = b;
    const int order = strcmp(left->key, right->key);
    return order != 0 ? order : (left->line > right->line) - (left->line < right->line);
}

const char *ss_kept_find(const ss_kept *kept, const char *key) {
    int low = 0;
    int high = kept->count; /* the first line beyond the key */
    while (low < high) {
        const int middle = low + (high - low) / 2;
        if (strcmp(kept->lines[middle].key, key) <= 0) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low > 0 && strcmp(kept->lines[low - 1].key, key) == 0 ? kept->lines[low - 1].value : NULL;
}

/* ---- writing ------------------------------------------------------------------------------------ */

static int write_all(int file, const char *bytes, size_t length) {
    while (length > 0) {
        const ssize_t written = write(file, bytes, length);
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written <= 0) {
            return written < 0 ? errno : EIO;
        }
        bytes += written;
        length -= (size_t)written;
    }
    return 0;
}

ss_status ss_kept_add(ss_kept *kept, const char *key, const char *value, ss_error *error) {
    char digest[DIGEST_LETTERS + 1];
    ss_text line = {0};
    ss_text whole = {0};
    int reason = 0;
    ss_fields_add(&line, key);
    ss_fields_add(&line, value);
    if (!line.failed) {
        digest_of(line.data, line.length, digest);
        ss_text_printf(&whole, "%s\t", digest);
        ss_text_add_bytes(&whole, line.data, line.length);
        ss_text_add(&whole, "\n");
    }
    const bool memory = line.failed || whole.failed;
    if (!memory) {
        reason = write_all(kept->file, whole.data, whole.length);
    }
    ss_text_destroy(&line);
    ss_text_destroy(&whole);
    if (memory) {
        return no_memory(error);
    }
    return reason == 0 ? SS_OK
                       : ss_error_set(error, SS_ERROR_FILE, "cannot write %.300s: %.120s", kept->path,
                                      strerror(reason));
}

/* Systems that know no locks go without one. */
static bool is_taken(int file) {
    struct flock lock = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    return fcntl(file, F_SETLK, &lock) != 0 && (errno == EACCES || errno == EAGAIN);
}

/* The title where there is none, and nothing after the last whole line. */
static ss_status make_ready(const ss_kept_asks *asks, int file, size_t length, size_t whole,
                            ss_error *error) {
    if (whole < length && ftruncate(file, (off_t)whole) != 0) {
        return fail(asks, strerror(errno), error);
    }
    if (whole > 0) {
        return SS_OK;
    }
    int reason = write_all(file, asks->title, strlen(asks->title));
    reason = reason == 0 ? write_all(file, "\n", 1) : reason;
    return reason == 0 ? SS_OK : fail(asks, strerror(reason), error);
}

/* ---- the file ----------------------------------------------------------------------------------- */

ss_status ss_kept_open(const ss_kept_asks *asks, ss_kept *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_kept kept = {.file = -1, .path = asks->path};
    char *bytes = NULL;
    size_t length = 0;
    size_t whole = 0;
    /* Without O_NONBLOCK a pipe would be waited for. */
    const int file = open(asks->path,
                          asks->adding ? O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC | O_NONBLOCK
                                       : O_RDONLY | O_CLOEXEC | O_NONBLOCK,
                          0666);
    if (file < 0) {
        if (!asks->adding && errno == ENOENT) {
            *out = kept;
            return SS_OK;
        }
        return fail(asks, strerror(errno), error);
    }
    if (asks->adding && is_taken(file)) {
        SS_TRY(fail(asks, "another run adds to it now", error));
    }
    SS_TRY(read_all(file, asks, &bytes, &length, error));
    SS_TRY(take_bytes(asks, bytes, length, &whole, &kept, error));
    if (kept.count > 0) {
        qsort(kept.lines, (size_t)kept.count, sizeof *kept.lines, by_key);
    }
    if (asks->adding) {
        SS_TRY(make_ready(asks, file, length, whole, error));
        kept.file = file;
    }
    *out = kept;
    kept = (ss_kept){.file = -1};
done:
    ss_free(bytes);
    if (status != SS_OK || !asks->adding) {
        close(file);
    }
    ss_kept_close(&kept);
    return status;
}

void ss_kept_close(ss_kept *kept) {
    if (kept->file >= 0) {
        fsync(kept->file);
        close(kept->file);
    }
    ss_free(kept->lines);
    ss_arena_destroy(&kept->arena);
    *kept = (ss_kept){.file = -1};
}
