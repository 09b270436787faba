/* test_resolve_size.c - what would take hours to compute is refused with what makes it big, at its place; and
 * what of a parked truck is off the bridge is said. */
#include "resolve_rows.h"

/* Floor beams an inch apart, in sets of a hundred, before those of the sample. */
static const char *beams_everywhere(void) {
    static char text[16384];
    int at = snprintf(text, sizeof text, "floor_beams = (");
    for (int i = 0; i < 1100; i++) {
        const size_t room = sizeof text - (size_t)at;
        if (i % 100 == 0) {
            at += snprintf(text + at, room, "{ name = \"m%d\"; section = \"edge\"; x = \"%.3f", i / 100,
                           0.3 + i / 19.0);
        } else {
            at += snprintf(text + at, room, ", %.3f%s", 0.3 + i / 19.0, i % 100 == 99 ? " ft\"; }, " : "");
        }
    }
    return text;
}

static void test_too_much_is_refused(void) {
    const fault_row rows[] = {
        {"runs = (", "analysis = { station_spacing = \"1 in\"; };\nruns = (",
         "69: analysis.station_spacing: too much to compute, about 9.2 times what is accepted: 1460 stations "
         "along 15 lines make 132000 effects, sought under trucks in 868 tracks; stations 0.5 ft apart or "
         "more, or fewer trucks, would do"},
        {"floor_beams = (", beams_everywhere(),
         "38: bridge: too much to compute, about 83 times what is accepted, however far apart stations are: "
         "2236 places along the bridge where something changes, on 15 lines, and 13300 bays of floor beams "
         "make 776000 effects, sought under trucks in 868 tracks; fewer floor beams, stringers, probes or "
         "trucks would do"},
    };
    check_rows(rows, ENTRIES(rows), SS_FAULT);
}

static void test_what_is_large_is_not(void) {
    char *const text = sample_changed("runs = (", "analysis = { station_spacing = \"6 in\"; };\nruns = (");
    ss_bridge bridge;
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL_FATAL(sample_resolve(text, &bridge, &diags), SS_OK);
    ss_bridge_destroy(&bridge);
    ss_diag_destroy(&diags);
    free(text);
}

/* ---- parked trucks ------------------------------------------------------------------------------ */

/* The warning about the parked truck, with its front axle at x and facing back; "" when there is none. */
static void expect_parked(const char *x, const char *due) {
    char *const text = sample_changed("truck = \"milk hauler\"; x = \"41 ft\"", x);
    ss_bridge bridge;
    ss_diag_list diags = {0};
    CU_ASSERT_EQUAL_FATAL(sample_resolve(text, &bridge, &diags), SS_OK);
    ss_text said = sample_remarks(&diags, SS_WARNING);
    const char *const at = strstr(said.data, "65: ");
    CU_ASSERT_STRING_EQUAL(at == NULL ? "" : at, due);
    ss_text_destroy(&said);
    ss_bridge_destroy(&bridge);
    ss_diag_destroy(&diags);
    free(text);
}

static void test_axles_off_the_bridge(void) {
    expect_parked("truck = \"milk hauler\"; x = \"41 ft\"", "");
    expect_parked("truck = \"milk hauler\"; x = \"42.5 ft\"", "");
    expect_parked("truck = \"milk hauler\"; x = \"43 ft\"",
                  "65: cases.load test.loads.1.x: 1 of 3 axles stand off the bridge, 0 ft to 61 ft, and load "
                  "nothing");
    expect_parked("truck = \"milk hauler\"; x = \"-9 ft\"",
                  "65: cases.load test.loads.1.x: 1 of 3 axles stand off the bridge, 0 ft to 61 ft, and load "
                  "nothing");
    expect_parked("truck = \"milk hauler\"; x = \"55 ft\"",
                  "65: cases.load test.loads.1.x: 2 of 3 axles stand off the bridge, 0 ft to 61 ft, and load "
                  "nothing");
}

int main(void) {
    static const test_case cases[] = {
        {"too much is refused", test_too_much_is_refused},
        {"what is large is not", test_what_is_large_is_not},
        {"axles off the bridge", test_axles_off_the_bridge},
    };
    return RUN_SUITE("size", cases);
}
