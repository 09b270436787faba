/* test_batch_files.c - which files a list of files and folders stands for. */
#define _XOPEN_SOURCE 700

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/batch.h"
#include "sillspan/memory.h"
#include "support/suite.h"

static char folder[64];

static const char *const made[] = {"b.cfg",     "a.cfg", "B.cfg", ".hidden.cfg",
                                   "notes.txt", "cfg",   ".cfg",  "c.cfg.bak"};
enum { PATH_BYTES = 400 };

static void path_of(const char *name, char *path) {
    snprintf(path, PATH_BYTES, "%s/%s", folder, name);
}

static void start(void) {
    char path[PATH_BYTES];
    strcpy(folder, "/tmp/sillspan-batch-XXXXXX");
    CU_ASSERT_PTR_NOT_NULL_FATAL(mkdtemp(folder));
    for (int i = 0; i < ENTRIES(made); i++) {
        path_of(made[i], path);
        FILE *file = fopen(path, "w");
        CU_ASSERT_PTR_NOT_NULL_FATAL(file);
        fclose(file);
    }
    path_of("inner.cfg", path); /* a folder whose name looks like a file's */
    CU_ASSERT_EQUAL_FATAL(mkdir(path, 0700), 0);
    path_of("lost.cfg", path); /* a link to nowhere: its row will say so */
    CU_ASSERT_EQUAL_FATAL(symlink("nowhere", path), 0);
}

static void finish(void) {
    char path[PATH_BYTES];
    for (int i = 0; i < ENTRIES(made); i++) {
        path_of(made[i], path);
        remove(path);
    }
    path_of("lost.cfg", path);
    remove(path);
    path_of("inner.cfg", path);
    rmdir(path);
    CU_ASSERT_EQUAL(rmdir(folder), 0);
}

static void test_folder_in_order(void) {
    static const char *const expected[] = {"B.cfg", "a.cfg", "b.cfg", "lost.cfg"};
    start();
    char with_slash[PATH_BYTES];
    path_of("", with_slash);
    const char *const words[] = {"z.cfg", folder, "a.cfg", with_slash};
    ss_batch_files files = {.count = 0};
    CU_ASSERT_EQUAL_FATAL(ss_batch_expand(words, 4, &files), SS_OK);
    CU_ASSERT_EQUAL_FATAL(files.count, 10);
    CU_ASSERT_STRING_EQUAL(files.paths[0], "z.cfg");
    CU_ASSERT_STRING_EQUAL(files.paths[5], "a.cfg");
    for (int i = 0; i < 4; i++) {
        char path[PATH_BYTES];
        path_of(expected[i], path);
        CHECK_ROW(strcmp(files.paths[1 + i], path) == 0, files.paths[1 + i]);
        CHECK_ROW(strcmp(files.paths[6 + i], path) == 0, files.paths[6 + i]);
        CU_ASSERT_PTR_NULL(files.why[1 + i]);
    }
    ss_batch_files_destroy(&files);
    finish();
}

static void test_folder_without_descriptions(void) {
    start();
    char inner[PATH_BYTES];
    path_of("inner.cfg", inner);
    const char *const words[] = {inner, "x.cfg"};
    ss_batch_files files = {.count = 0};
    CU_ASSERT_EQUAL_FATAL(ss_batch_expand(words, 2, &files), SS_OK);
    CU_ASSERT_EQUAL_FATAL(files.count, 2);
    CU_ASSERT_STRING_EQUAL(files.paths[0], inner);
    CU_ASSERT_PTR_NOT_NULL_FATAL(files.why[0]);
    CU_ASSERT_PTR_NOT_NULL(strstr(files.why[0], "ends in .cfg"));
    CU_ASSERT_PTR_NULL(files.why[1]);
    ss_batch_files_destroy(&files);
    finish();
}

static void test_memory(void) {
    start();
    const char *const words[] = {"z.cfg", folder};
    const long before = ss_memory_live();
    ss_status status = SS_ERROR_MEMORY;
    int failures = 0;
    for (long n = 0; n < 100 && status != SS_OK; n++) {
        ss_batch_files files = {.count = 0};
        ss_memory_fail_from(n);
        status = ss_batch_expand(words, 2, &files);
        ss_memory_fail_from(-1);
        if (status != SS_OK) {
            failures++;
            CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
            CU_ASSERT_EQUAL(files.count, 0);
        }
        ss_batch_files_destroy(&files);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    CU_ASSERT_TRUE(failures >= 3);
    finish();
}

int main(void) {
    static const test_case cases[] = {
        {"folder in order", test_folder_in_order},
        {"folder without descriptions", test_folder_without_descriptions},
        {"memory", test_memory},
    };
    return RUN_SUITE("batch_files", cases);
}
