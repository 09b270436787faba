/* test_kept_lines.c - results that outlive the run: taken up again, torn, damaged, foreign, taken by another.
 */
#define _XOPEN_SOURCE 700

#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "io/kept_lines.h"
#include "support/suite.h"

static char folder[] = "/tmp/sillspan-kept-XXXXXX";
static char path[64];

static ss_status open_as(const char *title, bool adding, ss_kept *kept, ss_error *error) {
    return ss_kept_open(&(ss_kept_asks){.path = path, .title = title, .adding = adding}, kept, error);
}

static size_t read_back(char *out, size_t size) {
    FILE *const file = fopen(path, "rb");
    CU_ASSERT_PTR_NOT_NULL_FATAL(file);
    const size_t length = fread(out, 1, size - 1, file);
    fclose(file);
    out[length] = '\0';
    return length;
}

static void write_over(const char *bytes, size_t length) {
    FILE *const file = fopen(path, "wb");
    CU_ASSERT_PTR_NOT_NULL_FATAL(file);
    CU_ASSERT_EQUAL(fwrite(bytes, 1, length, file), length);
    fclose(file);
}

/* A fresh file with three lines, two of one key. */
static void fill(void) {
    ss_kept kept;
    ss_error error = {0};
    unlink(path);
    CHECK_OK(open_as("title", true, &kept, &error), &error);
    CU_ASSERT_EQUAL(kept.count, 0);
    CHECK_OK(ss_kept_add(&kept, "b", "first", &error), &error);
    CHECK_OK(ss_kept_add(&kept, "a\tc", "with\ta tab\nand a line", &error), &error);
    CHECK_OK(ss_kept_add(&kept, "b", "second", &error), &error);
    ss_kept_close(&kept);
}

static void check_three(const ss_kept *kept) {
    CU_ASSERT_EQUAL(kept->count, 3);
    CU_ASSERT_STRING_EQUAL(ss_kept_find(kept, "b"), "second");
    CU_ASSERT_STRING_EQUAL(ss_kept_find(kept, "a\tc"), "with\ta tab\nand a line");
    CU_ASSERT_PTR_NULL(ss_kept_find(kept, "a"));
    CU_ASSERT_PTR_NULL(ss_kept_find(kept, "c"));
    CU_ASSERT_PTR_NULL(ss_kept_find(kept, ""));
}

static void test_again(void) {
    ss_kept kept;
    ss_error error = {0};
    fill();
    for (int adding = 0; adding < 2; adding++) {
        CHECK_OK(open_as("title", adding == 1, &kept, &error), &error);
        check_three(&kept);
        CU_ASSERT_EQUAL(kept.file >= 0, adding == 1);
        ss_kept_close(&kept);
    }
    unlink(path);
    CHECK_OK(open_as("title", false, &kept, &error), &error);
    CU_ASSERT_EQUAL(kept.count, 0);
    ss_kept_close(&kept);
    CU_ASSERT_EQUAL(access(path, F_OK), -1);
}

/* Cut anywhere: what has its end counts, nothing else, and further lines follow in order. */
static void test_torn(void) {
    char whole[512];
    fill();
    const size_t length = read_back(whole, sizeof whole);
    for (size_t cut = 0; cut <= length; cut++) {
        ss_kept kept;
        ss_error error = {0};
        int ends = 0;
        for (size_t i = 0; i < cut; i++) ends += whole[i] == '\n';
        write_over(whole, cut);
        CHECK_OK(open_as("title", true, &kept, &error), &error);
        CU_ASSERT_EQUAL(kept.count, ends == 0 ? 0 : ends - 1);
        CHECK_OK(ss_kept_add(&kept, "z", "last", &error), &error);
        ss_kept_close(&kept);
        CHECK_OK(open_as("title", false, &kept, &error), &error);
        CU_ASSERT_EQUAL(kept.count, ends == 0 ? 1 : ends);
        CU_ASSERT_STRING_EQUAL(ss_kept_find(&kept, "z"), "last");
        ss_kept_close(&kept);
    }
}

/* Whichever byte is another one: refused, unless the last end is gone, and left as it is. */
static void test_damaged(void) {
    char whole[512];
    char after[512];
    fill();
    const size_t length = read_back(whole, sizeof whole);
    for (size_t i = 0; i + 1 < length; i++) {
        ss_kept kept;
        ss_error error = {0};
        char changed[512];
        memcpy(changed, whole, length);
        changed[i] = (char)(changed[i] ^ 4);
        write_over(changed, length);
        CU_ASSERT_EQUAL(open_as("title", true, &kept, &error), SS_ERROR_FILE);
        CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "it is left as it is"));
        CU_ASSERT_EQUAL(read_back(after, sizeof after), length);
        CU_ASSERT_EQUAL(memcmp(after, changed, length), 0);
    }
}

static void test_refused(void) {
    ss_kept kept;
    ss_error error = {0};
    char after[512];
    fill();
    CU_ASSERT_EQUAL(open_as("another", true, &kept, &error), SS_ERROR_FILE);
    write_over("hello\n", 6);
    CU_ASSERT_EQUAL(open_as("title", true, &kept, &error), SS_ERROR_FILE);
    CU_ASSERT_EQUAL(read_back(after, sizeof after), 6);
    unlink(path);
    CU_ASSERT_EQUAL(mkfifo(path, 0600), 0);
    CU_ASSERT_EQUAL(open_as("title", true, &kept, &error), SS_ERROR_FILE);
    CU_ASSERT_PTR_NOT_NULL(strstr(error.message, "it is no regular file"));
    unlink(path);
    CU_ASSERT_EQUAL(ss_kept_open(&(ss_kept_asks){folder, "title", true}, &kept, &error), SS_ERROR_FILE);
}

/* Locks are between processes. */
static void test_two_runs(void) {
    ss_kept kept;
    ss_error error = {0};
    fill();
    CHECK_OK(open_as("title", true, &kept, &error), &error);
    const pid_t other = fork();
    if (other == 0) {
        ss_kept mine;
        ss_error cause = {0};
        const ss_status status = open_as("title", true, &mine, &cause);
        _exit(status == SS_ERROR_FILE && strstr(cause.message, "another run") != NULL ? 0 : 1);
    }
    int status = -1;
    CU_ASSERT_EQUAL(waitpid(other, &status, 0), other);
    CU_ASSERT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    ss_kept_close(&kept);
}

static void test_no_memory(void) {
    fill();
    const long before = ss_memory_live();
    for (long n = 0;; n++) {
        ss_kept kept;
        ss_error error = {0};
        ss_memory_fail_from(n);
        ss_status status = open_as("title", true, &kept, &error);
        if (status == SS_OK) {
            status = ss_kept_add(&kept, "b", "second", &error);
            ss_kept_close(&kept);
        }
        ss_memory_fail_from(-1);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
        if (status == SS_OK) {
            CU_ASSERT_TRUE(n > 4);
            break;
        }
        CU_ASSERT_EQUAL(status, SS_ERROR_MEMORY);
    }
}

int main(void) {
    static const test_case cases[] = {{"again", test_again},       {"torn", test_torn},
                                      {"damaged", test_damaged},   {"refused", test_refused},
                                      {"two runs", test_two_runs}, {"no memory", test_no_memory}};
    if (mkdtemp(folder) == NULL) {
        return 2;
    }
    snprintf(path, sizeof path, "%s/kept", folder);
    const int failed = RUN_SUITE("kept lines", cases);
    unlink(path);
    rmdir(folder);
    return failed;
}
