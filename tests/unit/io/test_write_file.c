/* test_write_file.c - a file is written whole or not at all, and nothing is left behind. */
#define _XOPEN_SOURCE 700

#include <dirent.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "written_report.h"

static char folder[64];

static const char *path_of(const char *name) {
    static char path[2][384];
    static int turn = 0;
    turn = 1 - turn;
    snprintf(path[turn], sizeof path[turn], "%s/%s", folder, name);
    return path[turn];
}

static void start(void) {
    strcpy(folder, "/tmp/sillspan-write-XXXXXX");
    CU_ASSERT_PTR_NOT_NULL_FATAL(mkdtemp(folder));
}

/* Removes what the test made and returns how many files there were. */
static int finish(void) {
    int count = 0;
    DIR *open = opendir(folder);
    CU_ASSERT_PTR_NOT_NULL_FATAL(open);
    for (const struct dirent *entry = readdir(open); entry != NULL; entry = readdir(open)) {
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0) {
            count++;
            remove(path_of(entry->d_name));
        }
    }
    closedir(open);
    rmdir(folder);
    return count;
}

static void put(const char *path, const char *text) {
    FILE *file = fopen(path, "w");
    CU_ASSERT_PTR_NOT_NULL_FATAL(file);
    fputs(text, file);
    fclose(file);
}

static void check(const char *path, const char *expected) {
    char seen[64] = "";
    FILE *file = fopen(path, "r");
    CU_ASSERT_PTR_NOT_NULL_FATAL(file);
    const size_t length = fread(seen, 1, sizeof seen - 1, file);
    seen[length] = '\0';
    fclose(file);
    CU_ASSERT_STRING_EQUAL(seen, expected);
}

static void test_new_and_replaced(void) {
    start();
    ss_error error = {0};
    CU_ASSERT_EQUAL(ss_write_file(path_of("new.txt"), "first\n", 6, &error), SS_OK);
    check(path_of("new.txt"), "first\n");
    CU_ASSERT_EQUAL(ss_write_file(path_of("new.txt"), "2\n", 2, &error), SS_OK);
    check(path_of("new.txt"), "2\n");
    CU_ASSERT_EQUAL(finish(), 1);
}

static void test_permissions_are_kept(void) {
    start();
    put(path_of("kept.txt"), "old");
    chmod(path_of("kept.txt"), 0640);
    CU_ASSERT_EQUAL(ss_write_file(path_of("kept.txt"), "new", 3, NULL), SS_OK);
    struct stat now;
    CU_ASSERT_EQUAL(stat(path_of("kept.txt"), &now), 0);
    CU_ASSERT_EQUAL(now.st_mode & 07777, 0640);
    CU_ASSERT_EQUAL(finish(), 1);
}

static void test_links_are_followed(void) {
    start();
    put(path_of("target.txt"), "old");
    CU_ASSERT_EQUAL(symlink("target.txt", path_of("link.txt")), 0);
    CU_ASSERT_EQUAL(ss_write_file(path_of("link.txt"), "new", 3, NULL), SS_OK);
    check(path_of("target.txt"), "new");
    struct stat now;
    CU_ASSERT_EQUAL(lstat(path_of("link.txt"), &now), 0);
    CU_ASSERT_TRUE(S_ISLNK(now.st_mode));
    CU_ASSERT_EQUAL(finish(), 2);
}

static void test_failures(void) {
    start();
    ss_error error = {0};
    CU_ASSERT_EQUAL(ss_write_file(path_of("none/out.txt"), "x", 1, &error), SS_ERROR_FILE);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "none/out.txt"));
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "No such file"));
    CU_ASSERT_EQUAL(ss_write_file(folder, "x", 1, &error), SS_ERROR_FILE);
    CU_ASSERT_EQUAL(symlink("nowhere.txt", path_of("broken.txt")), 0);
    CU_ASSERT_EQUAL(ss_write_file(path_of("broken.txt"), "x", 1, &error), SS_ERROR_FILE);
    CU_ASSERT_EQUAL(ss_write_file("/dev/full", "x", 1, &error), SS_ERROR_FILE);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "/dev/full"));
    CU_ASSERT_EQUAL(ss_write_file("/dev/null", "x", 1, &error), SS_OK);
    CU_ASSERT_EQUAL(finish(), 1);
}

/* A folder in which nothing can be made: the old file stays as it was. For the administrator, who may write
 * anywhere, the disk is made full instead: a limit on the size of files. */
static void test_old_file_is_kept(void) {
    start();
    char path[128];
    snprintf(path, sizeof path, "%s/old.txt", folder);
    put(path, "old");
    ss_error error = {0};
    if (geteuid() != 0) {
        chmod(folder, 0555);
        CU_ASSERT_EQUAL(ss_write_file(path, "new", 3, &error), SS_ERROR_FILE);
        chmod(folder, 0755);
        check(path, "old");
        put(path, "old");
        chmod(path, 0444);
        CU_ASSERT_EQUAL(ss_write_file(path, "new", 3, &error), SS_ERROR_FILE);
        check(path, "old");
    } else {
        struct rlimit before;
        CU_ASSERT_EQUAL(getrlimit(RLIMIT_FSIZE, &before), 0);
        signal(SIGXFSZ, SIG_IGN);
        const struct rlimit small = {.rlim_cur = 2, .rlim_max = before.rlim_max};
        CU_ASSERT_EQUAL(setrlimit(RLIMIT_FSIZE, &small), 0);
        CU_ASSERT_EQUAL(ss_write_file(path, "new", 3, &error), SS_ERROR_FILE);
        CU_ASSERT_EQUAL(setrlimit(RLIMIT_FSIZE, &before), 0);
        check(path, "old");
    }
    CU_ASSERT_EQUAL(finish(), 1);
}

int main(void) {
    static const test_case cases[] = {
        {"new and replaced", test_new_and_replaced},     {"permissions are kept", test_permissions_are_kept},
        {"links are followed", test_links_are_followed}, {"failures", test_failures},
        {"old file is kept", test_old_file_is_kept},
    };
    return RUN_SUITE("files", cases);
}
