/* test_resolve_method.c - rating methods, levels and the settings that go with them: what is read, assumed,
 * and refused. */
#include <math.h>

#include "resolve_rows.h"
#include "support/suite.h"

#define BIT(i) (1U << (unsigned)(i))

/* The sample with more in its rating group; the bridge is to be destroyed. */
static ss_bridge resolve_with(const char *more, ss_diag_list *diags) {
    char rating[400];
    snprintf(rating, sizeof rating, "adtt = 40; %s", more);
    char *const text = sample_changed("adtt = 40;", rating);
    ss_bridge bridge;
    const ss_status status = sample_resolve(text, &bridge, diags);
    free(text);
    if (status != SS_OK) {
        ss_text remarks = sample_remarks(diags, SS_FAULT);
        printf("\n  %s\n", remarks.data);
        ss_text_destroy(&remarks);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    return bridge;
}

static bool assumed(const ss_bridge *b, const char *path, const char *value) {
    for (int i = 0; i < b->assumptions.count; i++) {
        if (strcmp(b->assumptions.items[i].path, path) == 0 &&
            strcmp(b->assumptions.items[i].value, value) == 0) {
            return true;
        }
    }
    return false;
}

static bool rates(const ss_bridge *b, const char *name) {
    for (int i = 0; i < b->rated_vehicle_count; i++) {
        if (strcmp(b->vehicles[i].name, name) == 0) {
            return true;
        }
    }
    return false;
}

/* Whether a warning holds these words. */
static bool warned(const ss_diag_list *diags, const char *words) {
    ss_text remarks = sample_remarks(diags, SS_WARNING);
    const bool found = strstr(remarks.data, words) != NULL;
    ss_text_destroy(&remarks);
    return found;
}

static void test_nothing_given(void) {
    ss_diag_list diags = {0};
    ss_bridge b = resolve_with("", &diags);
    const ss_rating_settings *const set = &b.rating;
    CU_ASSERT(set->methods == BIT(SS_METHOD_LRFR) && set->levels == 0);
    CU_ASSERT(set->edition == SS_EDITION_MBE_2018 && set->permits == SS_PERMIT_ANNUAL);
    CU_ASSERT(set->service && set->single_lane_presence && !set->manual_sequence);
    CU_ASSERT(isnan(set->speed) && set->deflection_limit == 800.0);
    CU_ASSERT(assumed(&b, "rating.methods", "LRFR") && assumed(&b, "rating.levels", "all"));
    CU_ASSERT(assumed(&b, "rating.edition", "MBE 2018") && assumed(&b, "rating.service", "true"));
    CU_ASSERT(assumed(&b, "rating.single_lane_presence", "true"));
    CU_ASSERT(assumed(&b, "rating.deflection_limit", "800"));
    CU_ASSERT_FALSE(assumed(&b, "rating.permits", "annual"));
    CU_ASSERT_FALSE(rates(&b, "HL-93"));
    ss_bridge_destroy(&b);
    ss_diag_destroy(&diags);
}

static void test_all_given(void) {
    ss_diag_list diags = {0};
    ss_bridge b = resolve_with("methods = [ \"ASR\", \"LRFR\" ]; levels = [ \"legal\", \"operating\" ]; "
                               "edition = \"MBE 2011\"; sequence = \"manual\"; service = false; "
                               "deflection_limit = 0; single_lane_presence = false; speed = \"16 km/h\";",
                               &diags);
    const ss_rating_settings *const set = &b.rating;
    CU_ASSERT_EQUAL(set->methods, BIT(SS_METHOD_LRFR) | BIT(SS_METHOD_ASR));
    CU_ASSERT_EQUAL(set->levels, BIT(SS_LEVEL_OPERATING) | BIT(SS_LEVEL_LEGAL));
    CU_ASSERT(set->edition == SS_EDITION_MBE_2011 && set->manual_sequence);
    CU_ASSERT(!set->service && !set->single_lane_presence && set->deflection_limit == 0.0);
    CHECK_CLOSE(set->speed, 16.0 / 3.6, 1e-12);
    /* Operating of LRFR is that of the design load. */
    CU_ASSERT(rates(&b, "HL-93") && assumed(&b, "rating.trucks", "HL-93 as well"));
    CU_ASSERT_FALSE(assumed(&b, "rating.methods", "LRFR"));
    CU_ASSERT_FALSE(warned(&diags, "not used"));
    ss_bridge_destroy(&b);
    ss_diag_destroy(&diags);
}

static void test_permits(void) {
    static const char *const words[] = {"annual", "single trip", "limited trips"};
    char *const text =
        sample_changed("name = \"milk hauler\";", "name = \"milk hauler\"; kind = \"permit\";");
    for (int i = 0; i < 3; i++) {
        char given[60];
        snprintf(given, sizeof given, "permits = \"%s\"; adtt = 40;", words[i]);
        char *const place = strstr(text, "adtt = 40;");
        CU_ASSERT_PTR_NOT_NULL_FATAL(place);
        ss_text whole = {0};
        ss_text_add_bytes(&whole, text, (size_t)(place - text));
        ss_text_printf(&whole, "%s%s", given, place + strlen("adtt = 40;"));
        ss_diag_list diags = {0};
        ss_bridge b;
        CU_ASSERT_EQUAL_FATAL(sample_resolve(whole.data, &b, &diags), SS_OK);
        CU_ASSERT_EQUAL(b.rating.permits, (ss_permit_kind)i);
        ss_bridge_destroy(&b);
        ss_diag_destroy(&diags);
        ss_text_destroy(&whole);
    }
    free(text);
}

static void test_what_is_not_used(void) {
    ss_diag_list diags = {0};
    ss_bridge b = resolve_with("permits = \"annual\";", &diags);
    CU_ASSERT(warned(&diags, "78: rating.permits: not used; no permit vehicle is rated"));
    ss_bridge_destroy(&b);
    ss_diag_destroy(&diags);
    diags = (ss_diag_list){0};
    b = resolve_with("methods = [ \"LFR\" ]; sequence = \"manual\";", &diags);
    CU_ASSERT(warned(&diags, "78: rating.sequence: not used; LRFR is not among the methods"));
    CU_ASSERT_FALSE(b.rating.manual_sequence);
    ss_bridge_destroy(&b);
    ss_diag_destroy(&diags);
}

static void test_faults(void) {
    static const fault_row rows[] = {
        {"adtt = 40;", "adtt = 40; methods = [ \"LRFD\" ];",
         "78: rating.methods: no method is called \"LRFD\"; did you mean \"LRFR\"?"},
        {"adtt = 40;", "adtt = 40; levels = [ \"posting\" ];",
         "78: rating.levels: no level is called \"posting\"; there are \"inventory\", \"operating\", "
         "\"legal\", \"emergency\", \"permit\""},
        {"adtt = 40;", "adtt = 40; methods = [ \"LFR\" ]; levels = [ \"legal\" ];",
         "78: rating.levels: none of these is a level of LFR, which has \"inventory\" and \"operating\""},
        {"adtt = 40;", "adtt = 40; method = \"LRFR\";",
         "78: rating.method: unknown key; did you mean methods?"},
        {"adtt = 40;", "adtt = 40; speed = \"10 ft\";",
         "78: rating.speed: 10 ft is a length; a speed is due, such as 10 mph"},
        {"adtt = 40;", "adtt = 40; edition = \"2018\";",
         "78: rating.edition: found \"2018\"; one of \"MBE 2018\", \"MBE 2011\" is due"},
    };
    check_rows(rows, ENTRIES(rows), SS_FAULT);
}

int main(void) {
    static const test_case cases[] = {{"nothing given", test_nothing_given},
                                      {"all given", test_all_given},
                                      {"permits", test_permits},
                                      {"not used", test_what_is_not_used},
                                      {"faults", test_faults}};
    return RUN_SUITE("resolve method", cases);
}
