/* test_batch_item.c - one bridge of several to its row: what a kept row must match to be taken over, lack of
 * memory. */
#include <math.h>
#include <string.h>

#include "cli/batch_parts.h"
#include "sillspan/memory.h"
#include "support/suite.h"

#define MODELS SS_SOURCE_DIR "/tests/golden/models/"

static ss_invocation asked_for(const char *command) {
    return (ss_invocation){.command = ss_command_find(command), .require = (double)NAN, .quiet = true};
}

/* Computes the item and reads what comes of it; texts live in the arena. */
static ss_batch_result run(const ss_batch *all, int index, ss_arena *arena) {
    ss_batch_result result = {0};
    ss_text line = {0};
    ss_error error = {0};
    CHECK_OK(ss_batch_item((void *)all, index, &line, &error), &error);
    CU_ASSERT_TRUE_FATAL(ss_batch_result_read(line.data, arena, &result));
    ss_text_destroy(&line);
    return result;
}

static void test_kept_rows(void) {
    static const char *paths[] = {MODELS "two-spines.cfg", MODELS "rolls.cfg", MODELS "none.cfg"};
    static const char *whys[] = {NULL, NULL, NULL};
    static const char *sets[] = {"analysis.station_spacing=3 ft"};
    const ss_batch_files files = {.paths = paths, .why = whys, .count = 3};
    ss_invocation asked = asked_for("check");
    ss_text settings = {0};
    ss_arena arena = {0};
    ss_batch_settings(&asked, &settings);
    ss_batch all = {.asked = &asked, .files = &files, .settings = settings.data, .kept = {.file = -1}};
    const ss_batch_result fresh = run(&all, 0, &arena);
    CU_ASSERT_TRUE(!fresh.old && fresh.key != NULL && fresh.code == SS_EXIT_DONE);
    CU_ASSERT_EQUAL(fresh.units, (int)SS_UNITS_US);
    /* What failed is told of anew. */
    CU_ASSERT_PTR_NULL(run(&all, 1, &arena).key);
    CU_ASSERT_EQUAL(run(&all, 1, &arena).code, SS_EXIT_ANALYSIS);
    CU_ASSERT_PTR_NULL(run(&all, 2, &arena).key);
    CU_ASSERT_EQUAL(run(&all, 2, &arena).code, SS_EXIT_FILE);
    ss_kept_line kept = {.key = fresh.key, .value = fresh.row};
    all.kept.lines = &kept;
    all.kept.count = 1;
    const ss_batch_result again = run(&all, 0, &arena);
    CU_ASSERT_TRUE(again.old && again.key == NULL);
    CU_ASSERT_STRING_EQUAL(again.row, fresh.row);
    CU_ASSERT_EQUAL(again.units, fresh.units);
    /* A row that cannot be read, or of another file, is computed. */
    kept.value = "no row";
    CU_ASSERT_FALSE(run(&all, 0, &arena).old);
    kept.value = run(&all, 1, &arena).row;
    CU_ASSERT_FALSE(run(&all, 0, &arena).old);
    kept.value = fresh.row;
    /* Every setting that a row hangs on is in its key. */
    const ss_invocation others[] = {asked_for("analyze"), asked_for("check"), asked_for("check"),
                                    asked_for("check")};
    for (int i = 0; i < ENTRIES(others); i++) {
        ss_invocation other = others[i];
        ss_text words = {0};
        other.require = i == 1 ? 1.0 : other.require;
        other.abreast = i == 2;
        other.sets = sets;
        other.set_count = i == 3 ? 1 : 0;
        ss_batch_settings(&other, &words);
        all.asked = &other;
        all.settings = words.data;
        CU_ASSERT_FALSE(run(&all, 0, &arena).old);
        ss_text_destroy(&words);
    }
    ss_text_destroy(&settings);
    ss_arena_destroy(&arena);
}

/* Whichever allocation fails: a row that says so or SS_ERROR_MEMORY, and nothing left behind. */
static void test_no_memory(void) {
    static const char *paths[] = {MODELS "two-spines.cfg"};
    static const char *whys[] = {NULL};
    const ss_batch_files files = {.paths = paths, .why = whys, .count = 1};
    const ss_invocation asked = asked_for("check");
    const ss_batch all = {.asked = &asked, .files = &files, .settings = "any", .kept = {.file = -1}};
    bool through = false;
    for (long n = 0; !through; n += 1 + n / 40) {
        ss_text line = {0};
        ss_error error = {0};
        const long before = ss_memory_live();
        ss_memory_fail_from(n);
        const ss_status status = ss_batch_item((void *)&all, 0, &line, &error);
        ss_memory_fail_from(-1);
        through = status == SS_OK && !line.failed;
        CU_ASSERT_TRUE(through || status == SS_ERROR_MEMORY || line.failed);
        ss_text_destroy(&line);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
}

int main(void) {
    static const test_case cases[] = {{"kept rows", test_kept_rows}, {"no memory", test_no_memory}};
    return RUN_SUITE("one bridge of several", cases);
}
