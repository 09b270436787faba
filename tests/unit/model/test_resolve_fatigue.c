/* test_resolve_fatigue.c - details of fatigue as they are understood, and their faults with place and words.
 */
#include <math.h>

#include "resolve_rows.h"

#define WITH(group) "rating = {", "fatigue = { " group " };\nrating = {"
#define ONE(text) WITH("years = 9; details = ( { name = \"d\"; " text " } );")

static const fault_row faults[] = {
    {WITH("details = ( { name = \"d\"; category = \"E\"; joint = \"seam\"; x = \"20 ft\"; throat = \"1/4 "
          "in\"; } );"),
     "77: fatigue.years: not given; a number without quotes is due, such as 0.85"},
    {WITH("years = 9;"), "77: fatigue.details: not given; a list of groups is due, ( { ... }, { ... } )"},
    {ONE("category = \"F\"; car = \"north\"; line = \"sill\"; x = \"30 ft\";"),
     "77: fatigue.details.d.category: found \"F\"; one of \"A\", \"B\", \"B'\", \"C\", \"C'\", \"D\", \"E\", "
     "\"E'\" is due"},
    {ONE("category = \"E\"; x = \"30 ft\";"),
     "77: fatigue.details.d: no member is named; one of line, floor_beam and joint is due"},
    {ONE("category = \"E\"; car = \"north\"; line = \"sill\"; joint = \"seam\"; x = \"30 ft\";"),
     "77: fatigue.details.d: more than one member is named; one of line, floor_beam and joint is due"},
    {ONE("category = \"E\"; line = \"sill\"; x = \"30 ft\";"),
     "77: fatigue.details.d.car: not given; a line needs the car that it belongs to"},
    {ONE("category = \"E\"; car = \"nord\"; line = \"sill\"; x = \"30 ft\";"),
     "77: fatigue.details.d.car: no car of the bridge is called \"nord\"; there are \"north\", \"middle\", "
     "\"south\""},
    {ONE("category = \"E\"; car = \"north\"; line = \"sil\"; x = \"30 ft\";"),
     "77: fatigue.details.d.line: no line of that car is called \"sil\"; did you mean \"sill\"?"},
    {ONE("category = \"E\"; car = \"north\"; line = \"sill\";"),
     "77: fatigue.details.d.x: not given; a line needs the station"},
    {ONE("category = \"E\"; car = \"north\"; line = \"sill\"; x = \"61 ft\";"),
     "77: fatigue.details.d.x: 61 ft lies outside \"sill\", 0 ft to 60 ft"},
    {ONE("category = \"E\"; car = \"north\"; line = \"sill\"; x = \"60 ft\"; side = \"after\";"),
     "77: fatigue.details.d.side: nothing lies after the far end; \"before\" is due there, or no side"},
    {ONE("category = \"E\"; car = \"north\"; line = \"sill\"; x = \"30 ft\"; throat = \"1/4 in\";"),
     "77: fatigue.details.d.throat: does not belong to a line; it has car, line, x, side and face"},
    {ONE("category = \"E\"; car = \"north\"; floor_beam = \"bearers\"; y = \"5 ft\";"),
     "77: fatigue.details.d.floor_beam: \"bearers\" is a set of 3 floor beams; one of them is due, such as "
     "\"bearers 1\""},
    {ONE("category = \"E\"; car = \"north\"; floor_beam = \"bearers 2\"; x = \"5 ft\"; y = \"5 ft\";"),
     "77: fatigue.details.d.x: does not belong to a floor beam; it has car, floor_beam, y, side and face"},
    {ONE("category = \"E\"; joint = \"seam\"; x = \"20 ft\";"),
     "77: fatigue.details.d.throat: not given; the weld of a joint needs its throat"},
    {ONE("category = \"E\"; joint = \"seem\"; x = \"20 ft\"; throat = \"1/4 in\";"),
     "77: fatigue.details.d.joint: no joint is called \"seem\"; did you mean \"seam\"?"},
    {ONE("category = \"E\"; joint = \"seam\"; x = \"20 ft\"; throat = \"1/4 in\"; weld_length = \"3 in\";"),
     "77: fatigue.details.d.weld_length: does not belong to a continuous joint, whose force is known per "
     "length"},
    {ONE("category = \"E\"; joint = \"seam\"; x = \"20 ft\"; throat = \"1/4 in\"; face = \"top\";"),
     "77: fatigue.details.d.face: does not belong to the weld of a joint; it has joint, x, throat and "
     "weld_length"},
    {ONE("category = \"E\"; joint = \"bolts\"; x = \"29 ft\"; throat = \"1/4 in\";"),
     "77: fatigue.details.d.weld_length: not given; the weld of one connector needs its length"},
    {ONE("category = \"E\"; joint = \"bolts\"; x = \"28 ft\"; throat = \"1/4 in\"; weld_length = \"3 in\";"),
     "77: fatigue.details.d.x: no connector of \"bolts\" stands at 28 ft; the nearest is at 29 ft"},
    {ONE("category = \"E\"; joint = \"seam\"; x = \"20 ft\"; throat = \"0 in\";"),
     "77: fatigue.details.d.throat: \"0 in\" is below the least allowed, > 0 in"},
    {WITH("years = 9; truck = \"Fatige truck\"; details = ( { name = \"d\"; category = \"E\"; car = "
          "\"north\"; "
          "line = \"sill\"; x = \"30 ft\"; } );"),
     "77: fatigue.truck: no truck is called \"Fatige truck\"; did you mean \"Fatigue truck\"?"},
    {WITH("years = 9; truck = \"HS20\"; details = ( { name = \"d\"; category = \"E\"; car = \"north\"; "
          "line = \"sill\"; x = \"30 ft\"; } );"),
     "77: fatigue.truck: HS20-44 is more than one set of axles, or has a lane load; a truck with fixed "
     "spacings "
     "is due, such as the Fatigue truck"},
    {"adtt = 40;\n  trucks = [ \"milk hauler\", \"HS20\" ];\n};",
     "trucks = [ \"milk hauler\", \"HS20\" ];\n};\nfatigue = { years = 9; details = ( { name = \"d\"; "
     "category = \"E\"; car = \"north\"; line = \"sill\"; x = \"30 ft\"; } ); };",
     "80: fatigue.adtt: not given, nor is rating.adtt; the trucks a day in a single lane are due"},
};

static void test_faults(void) {
    check_rows(faults, ENTRIES(faults), SS_FAULT);
}

static void resolve(const char *from, const char *to, ss_bridge *bridge) {
    ss_diag_list diags = {0};
    char *const text = sample_changed(from, to);
    const ss_status status = sample_resolve(text, bridge, &diags);
    for (int i = 0; i < diags.count && status != SS_OK; i++) {
        printf("%s: %s\n", diags.items[i].path, diags.items[i].message);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    ss_diag_destroy(&diags);
    free(text);
}

static const char *why_assumed(const ss_bridge *bridge, const char *path, const char *value) {
    for (int i = 0; i < bridge->assumptions.count; i++) {
        const ss_assumption *const a = &bridge->assumptions.items[i];
        if (strcmp(a->path, path) == 0 && strcmp(a->value, value) == 0) {
            return a->why;
        }
    }
    return "";
}

static void test_understood(void) {
    ss_bridge bridge = {0};
    resolve(
        WITH("years = 21; growth = 0.01; rail_life_used = 0.3; level = \"mean\"; adtt = 17.5; details = ( "
             "{ name = \"end\"; category = \"E'\"; car = \"south\"; line = \"sill\"; x = \"31 ft\"; side = "
             "\"before\"; face = \"top\"; note = \"tapered\"; }, "
             "{ name = \"beam\"; category = \"B'\"; car = \"north\"; floor_beam = \"bearers 2\"; y = \"5 "
             "ft\"; }, "
             "{ name = \"weld\"; category = \"E\"; joint = \"bolts\"; x = \"29 ft\"; throat = \"0.25 in\"; "
             "weld_length = \"4 in\"; } );"),
        &bridge);
    const ss_fatigue_settings *const f = &bridge.fatigue;
    CU_ASSERT_EQUAL_FATAL(f->spot_count, 3);
    CU_ASSERT_STRING_EQUAL(bridge.vehicles[f->vehicle].name, "Fatigue truck");
    CU_ASSERT(f->vehicle >= bridge.rated_vehicle_count);
    CHECK_CLOSE(f->adtt, 17.5, 0.0);
    CHECK_CLOSE(f->years, 21.0, 0.0);
    CHECK_CLOSE(f->growth, 0.01, 0.0);
    CHECK_CLOSE(f->used, 0.3, 0.0);
    CU_ASSERT_EQUAL(f->level, SS_FATIGUE_MEAN);
    CU_ASSERT_EQUAL(f->edition, SS_FATIGUE_SINCE_2017);
    const ss_fatigue_spot *const end = &f->spots[0];
    CU_ASSERT_STRING_EQUAL(end->at.name, "end");
    CU_ASSERT_STRING_EQUAL(end->note, "tapered");
    CU_ASSERT(end->at.member == SS_MEMBER_LINE && end->at.before && end->top);
    CU_ASSERT_STRING_EQUAL(bridge.cars[bridge.lines[end->at.index].car].name, "south");
    CHECK_CLOSE(end->at.at, 31.0 * 0.3048, 1e-12);
    CU_ASSERT_EQUAL(end->category, SS_FATIGUE_E_PRIME);
    CU_ASSERT(f->spots[1].at.member == SS_MEMBER_BEAM && !f->spots[1].top);
    CU_ASSERT_EQUAL(f->spots[1].category, SS_FATIGUE_B_PRIME);
    CU_ASSERT(f->spots[2].at.member == SS_MEMBER_JOINT && f->spots[2].at.effect == SS_EFFECT_SHEAR);
    CHECK_CLOSE(f->spots[2].throat, 0.25 * 0.0254, 1e-12);
    CHECK_CLOSE(f->spots[2].weld_length, 4.0 * 0.0254, 1e-12);
    ss_bridge_destroy(&bridge);
}

#define PLAIN                                                                                                \
    "years = 9; details = ( { name = \"d\"; category = \"E\"; car = \"north\"; line = \"sill\"; x = \"30 "   \
    "ft\"; } );"

/* The traffic by default: of one direction with two lanes, of both with one; the sample has rating.adtt 40.
 */
static void test_traffic(void) {
    ss_bridge bridge = {0};
    resolve(WITH(PLAIN), &bridge);
    CU_ASSERT_EQUAL(bridge.lanes.count, 2);
    CHECK_CLOSE(bridge.fatigue.adtt, 40.0, 0.0);
    CU_ASSERT(strstr(why_assumed(&bridge, "fatigue.adtt", "40"), "one direction") != NULL);
    CU_ASSERT(strstr(why_assumed(&bridge, "fatigue.rail_life_used", "0"), "Nobody counted") != NULL);
    CU_ASSERT(why_assumed(&bridge, "fatigue.truck", "Fatigue truck")[0] != '\0');
    ss_bridge_destroy(&bridge);
    resolve("to = \"26 ft\"; };", "to = \"26 ft\"; lanes = 1; }; }; fatigue = {" PLAIN, &bridge);
    CU_ASSERT_EQUAL(bridge.lanes.count, 1);
    CHECK_CLOSE(bridge.fatigue.adtt, 80.0, 0.0);
    CU_ASSERT(strstr(why_assumed(&bridge, "fatigue.adtt", "80"), "twice") != NULL);
    ss_bridge_destroy(&bridge);
    resolve("rating = {", "fatigue = { " PLAIN " };\nrating = { edition = \"MBE 2011\";", &bridge);
    CU_ASSERT_EQUAL(bridge.fatigue.edition, SS_FATIGUE_BEFORE_2017);
    ss_bridge_destroy(&bridge);
}

/* A joint that is gone has no force: the detail is left out, not refused. */
static void test_joint_gone(void) {
    ss_bridge bridge = {0};
    resolve("rating = {",
            "findings = ( { name = \"f\"; seen = \"missing\"; joint = \"seam\"; } );\nfatigue = { years = 9; "
            "details = ( { name = \"d\"; category = \"E\"; joint = \"seam\"; x = \"20 ft\"; throat = \"1/4 "
            "in\"; } ); };\nrating = {",
            &bridge);
    CU_ASSERT_EQUAL(bridge.fatigue.spot_count, 0);
    ss_bridge_destroy(&bridge);
}

int main(void) {
    static const test_case cases[] = {{"faults", test_faults},
                                      {"understood", test_understood},
                                      {"traffic by default", test_traffic},
                                      {"joint that is gone", test_joint_gone}};
    return RUN_SUITE("resolving fatigue", cases);
}
