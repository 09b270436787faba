/* batch_files.c - the descriptions that a list of files and folders stands for. */
#define _POSIX_C_SOURCE 200809L

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/batch.h"
#include "sillspan/memory.h"

static const char ending[] = ".cfg";

static bool add(ss_batch_files *files, const char *path, const char *why) {
    if (path == NULL) {
        return false;
    }
    if (files->count == files->capacity) {
        const int capacity = files->capacity == 0 ? 16 : 2 * files->capacity;
        const char **paths = ss_realloc((void *)files->paths, (size_t)capacity, sizeof *paths);
        if (paths != NULL) {
            files->paths = paths;
        }
        const char **whys = ss_realloc((void *)files->why, (size_t)capacity, sizeof *whys);
        if (whys != NULL) {
            files->why = whys;
        }
        if (paths == NULL || whys == NULL) {
            return false;
        }
        files->capacity = capacity;
    }
    files->paths[files->count] = path;
    files->why[files->count++] = why;
    return true;
}

static int by_bytes(const void *a, const void *b) {
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static bool is_description(const char *name) {
    const size_t length = strlen(name);
    return name[0] != '.' && length > sizeof ending - 1 &&
           strcmp(name + length - (sizeof ending - 1), ending) == 0;
}

/* What the open folder holds, sorted, at the end of the list. */
static bool add_entries(ss_batch_files *files, const char *folder, DIR *open) {
    const int first = files->count;
    const size_t length = strlen(folder);
    const char *between = length > 0 && folder[length - 1] == '/' ? "" : "/";
    errno = 0;
    for (const struct dirent *entry = readdir(open); entry != NULL; entry = readdir(open)) {
        struct stat about;
        if (!is_description(entry->d_name)) {
            continue;
        }
        const char *path = ss_arena_printf(&files->arena, "%s%s%s", folder, between, entry->d_name);
        if (path == NULL) {
            return false;
        }
        /* One that cannot be looked at stays in the list, so that its row says so. */
        if (stat(path, &about) == 0 && !S_ISREG(about.st_mode)) {
            continue;
        }
        if (!add(files, path, NULL)) {
            return false;
        }
        errno = 0;
    }
    if (errno != 0) {
        return add(files, folder,
                   ss_arena_printf(&files->arena, "cannot read the folder to its end: %s", strerror(errno)));
    }
    if (files->count == first) {
        return add(files, folder,
                   "the folder holds no description: no file in it has a name that ends in .cfg");
    }
    qsort(files->paths + first, (size_t)(files->count - first), sizeof *files->paths, by_bytes);
    return true;
}

static bool add_folder(ss_batch_files *files, const char *folder) {
    DIR *open = opendir(folder);
    if (open == NULL) {
        return add(files, folder,
                   ss_arena_printf(&files->arena, "cannot read the folder: %s", strerror(errno)));
    }
    const bool good = add_entries(files, folder, open);
    closedir(open);
    return good;
}

ss_status ss_batch_expand(const char *const *words, int count, ss_batch_files *out) {
    ss_batch_files files = {.count = 0};
    bool good = true;
    for (int i = 0; i < count && good; i++) {
        struct stat about;
        good = stat(words[i], &about) == 0 && S_ISDIR(about.st_mode) ? add_folder(&files, words[i])
                                                                     : add(&files, words[i], NULL);
    }
    if (!good) {
        ss_batch_files_destroy(&files);
        return SS_ERROR_MEMORY;
    }
    *out = files;
    return SS_OK;
}

void ss_batch_files_destroy(ss_batch_files *files) {
    ss_free((void *)files->paths);
    ss_free((void *)files->why);
    ss_arena_destroy(&files->arena);
    *files = (ss_batch_files){0};
}
