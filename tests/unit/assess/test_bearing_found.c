/* test_bearing_found.c - keys of bearings and findings that thin a web, from the description to what the web
 * carries above a bearing. */
#include "sillspan/bearing_rating.h"
#include "support/suite.h"
#include "unit/model/resolve_samples.h"

#define SAME 1e-9

/* What the sill of the sample carries above its bearing at 7 ft, 8 in long, with findings. */
static double carried(const char *findings, bool stiffened, double *fy) {
    ss_bridge bridge;
    ss_diag_list diags = {0};
    memset(&bridge, 0, sizeof bridge);
    char *const text = sample_changed(
        "pad_width = \"14 in\";", stiffened ? "length = \"8 in\"; stiffened = true;" : "length = \"8 in\";");
    ss_text whole = {0};
    ss_text_printf(&whole, "%s\n%s\n", text, findings);
    CU_ASSERT_EQUAL_FATAL(sample_resolve(whole.data, &bridge, &diags), SS_OK);
    int found = -1;
    for (int i = 0; i < bridge.bearing_count; i++) {
        const ss_bearing *const one = &bridge.bearings[i];
        CU_ASSERT_EQUAL(one->length > 0.0, strcmp(one->name, "trucks") == 0);
        if (one->length > 0.0 && one->car == 0 && one->x < 10.0 * FOOT) {
            found = i;
        }
    }
    CU_ASSERT_TRUE_FATAL(found >= 0);
    CU_ASSERT_EQUAL(bridge.bearings[found].stiffened, stiffened);
    *fy = bridge.steels[bridge.lines[bridge.bearings[found].line].steel].fy;
    const char *why = NULL;
    const double factored = ss_bearing_seat_strength(&bridge, found, &why).factored;
    ss_bridge_destroy(&bridge);
    ss_diag_destroy(&diags);
    ss_text_destroy(&whole);
    free(text);
    return factored;
}

/* LRFD D6.5.2 and D6.5.3 of two webs of `t` in on a plate of 3/4 in, 13 in deep, 7 ft from the end (from
 * memory). */
static double by_rule(double t, double fy) {
    const double F = fy / KSI;
    const double yielding = 2.0 * (5.0 * 0.75 + 8.0) * F * t;
    const double crippling =
        2.0 * 0.8 * t * t * (1.0 + 3.0 * 8.0 / 13.0 * pow(t / 0.75, 1.5)) * sqrt(29000.0 * F * 0.75 / t);
    return fmin(yielding, 0.8 * crippling) * KIP;
}

static void test_thinned(void) {
    double fy = 0.0;
    const double whole = carried("", false, &fy);
    CHECK_CLOSE(whole, by_rule(0.3125, fy), SAME);
    /* At the bearing and on one side of it; one web alone makes both count as thin. */
    static const char *const where[] = {"from = \"4 ft\"; to = \"10 ft\"; part = \"webs\";",
                                        "from = \"7 ft\"; to = \"10 ft\"; part = \"webs\";",
                                        "from = \"4 ft\"; to = \"7 ft\"; part = \"left web\";"};
    for (int i = 0; i < ENTRIES(where); i++) {
        char findings[256];
        snprintf(findings, sizeof findings,
                 "findings = ( { name = \"rust\"; seen = \"thinned\"; car = \"north\"; line = \"sill\"; %s "
                 "thickness_left = \"3/16 in\"; } );",
                 where[i]);
        CHECK_CLOSE(carried(findings, false, &fy), by_rule(0.1875, fy), SAME);
    }
    /* Elsewhere it does not matter. */
    CHECK_CLOSE(
        carried(
            "findings = ( { name = \"rust\"; seen = \"thinned\"; car = \"north\"; line = \"sill\"; from = "
            "\"20 ft\"; to = \"24 ft\"; part = \"webs\"; thickness_left = \"3/16 in\"; } );",
            false, &fy),
        by_rule(0.3125, fy), SAME);
    CU_ASSERT_TRUE(isnan(carried("", true, &fy)));
}

int main(void) {
    static const test_case cases[] = {{"thinned webs", test_thinned}};
    return RUN_SUITE("webs above bearings as found", cases);
}
