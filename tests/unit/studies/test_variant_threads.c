/* test_variant_threads.c - bridges resolved, factored and rated on several threads at once give the bytes
 * that they give one after the other. */
#include <string.h>
#ifdef _OPENMP
#include <omp.h>
#endif

#include "sillspan/memory.h"
#include "sillspan/reader.h"
#include "sillspan/text.h"
#include "sillspan/variant.h"
#include "support/suite.h"

enum { BRIDGES = 24 };

/* What each bridge has of its own; the rest is the sample. Bearings that lift, a rigid seam (redundant
 * springs) and other lengths go through other parts of the algebra. */
static const struct {
    const char *path, *value;
} changes[] = {
    {"rating.condition", "fair"},
    {"bridge.bearings.ends.action", "upward only"},
    {"bridge.joints.seam.shear", "2 kip/in/in"},
    {"cars.flat.length", "27 ft"},
    {"analysis.station_spacing", "3 ft"},
    {"bridge.bearings.ends.settlement", "1/8 in"},
    {"cars.flat.weight", "15 kip"},
};

/* Everything on the heap, nothing of CUnit: this runs on any thread. */
static ss_status rate(int number, ss_text *out) {
    const int change = number % ENTRIES(changes);
    const ss_variant_asks all = {.vehicle = -1};
    ss_description description = {0};
    ss_diag_list diags = {0};
    ss_error error = {0};
    ss_variant variant = {0};
    ss_status status =
        ss_description_read(SS_SOURCE_DIR "/tests/unit/studies/stone_run.cfg", &description, &diags, &error);
    if (status == SS_OK) {
        status = ss_description_set(&description, changes[change].path, changes[change].value, &diags);
    }
    if (status == SS_OK) {
        status = ss_variant_of(&description, &all, &variant, &diags, &error);
    }
    /* Refusals are results too, and their words must not depend on threads either. */
    ss_text_printf(out, "%d %s %s;", (int)status, error.message,
                   diags.count > 0 ? diags.items[0].message : "");
    for (int i = 0; status == SS_OK && i < variant.ratings.count; i++) {
        const ss_rating_item *const item = &variant.ratings.items[i];
        const double values[] = {item->rf,   item->rf_linear,     item->capacity, item->dead,
                                 item->live, item->nominal.value, item->tons,     item->position[0].x};
        const int numbers[] = {item->check, item->traffic, item->effect.index, item->position[0].track};
        ss_text_add_bytes(out, (const char *)values, sizeof values);
        ss_text_add_bytes(out, (const char *)numbers, sizeof numbers);
    }
    if (status == SS_OK) {
        const double rcond = ss_grillage_trust(variant.grillage)->rcond;
        ss_text_add_bytes(out, (const char *)&rcond, sizeof rcond);
        ss_variant_destroy(&variant);
    }
    ss_description_destroy(&description);
    ss_diag_destroy(&diags);
    return status;
}

static void rate_all(int threads, ss_text *texts, ss_status *statuses) {
#ifdef _OPENMP
#pragma omp parallel for schedule(dynamic, 1) num_threads(threads)
#else
    (void)threads;
#endif
    for (int i = 0; i < BRIDGES; i++) statuses[i] = rate(i, &texts[i]);
}

static void test_at_once(void) {
    ss_text one[BRIDGES] = {{0}};
    ss_text several[BRIDGES] = {{0}};
    ss_status one_status[BRIDGES];
    ss_status several_status[BRIDGES];
    const long before = ss_memory_live();
    rate_all(1, one, one_status);
    rate_all(4, several, several_status);
    for (int i = 0; i < BRIDGES; i++) {
        char row[24];
        snprintf(row, sizeof row, "bridge %d", i);
        CHECK_ROW(!one[i].failed && !several[i].failed && one_status[i] == several_status[i], row);
        CHECK_ROW(one_status[i] == SS_OK, row);
        CHECK_ROW(one[i].length > 1000 && one[i].length == several[i].length &&
                      memcmp(one[i].data, several[i].data, one[i].length) == 0,
                  row);
        const int other = (i + 1) % ENTRIES(changes);
        CHECK_ROW(one[i].length != one[other].length ||
                      memcmp(one[i].data, one[other].data, one[i].length) != 0 ||
                      i % ENTRIES(changes) == other,
                  row);
        ss_text_destroy(&one[i]);
        ss_text_destroy(&several[i]);
    }
    CU_ASSERT_EQUAL(ss_memory_live(), before);
}

int main(void) {
    static const test_case cases[] = {{"at once", test_at_once}};
    return RUN_SUITE("bridges by threads", cases);
}
