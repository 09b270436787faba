/* test_resolve_faults_cars.c - faults of meaning in steels, sections and car types, each with its place and
 * words. */
#include "resolve_rows.h"

static const fault_row rows[] = {
    {"year_built = 1958;", "year_built = 1958; grade = \"A36\";",
     "2: steels.car steel: grade and year_built are given; exactly one of fy, grade and year_built is due"},
    {"year_built = 1958;", "fy = \"36 ksi\"; year_built = 1958; grade = \"A36\";",
     "2: steels.car steel: fy, grade and year_built are given; exactly one of fy, grade and year_built is "
     "due"},
    {"year_built = 1958;", "",
     "2: steels.car steel: no strength is given; one of fy, grade, year_built and coupons is due"},
    {"year_built = 1958;", "coupons = \"38, 41 ksi\";",
     "2: steels.car steel.coupons: no yield stress comes of 2 tests: two coupons tell too little of the "
     "scatter: at least three are needed"},
    {"year_built = 1958;", "coupons = \"38, 41, 40 ksi\"; year_built = 1958;",
     "2: steels.car steel.coupons: year_built is given as well; exactly one of fy, grade, year_built and "
     "coupons is due"},
    {"year_built = 1958;", "year_built = 1749;",
     "2: steels.car steel.year_built: 1749 is below the least allowed, 1850"},
    {"\"A572 Gr 50\"", "\"A573 Gr 50\"",
     "3: steels.plate.grade: no steel grade is called \"A573 Gr 50\"; did you mean \"A572 Gr 50\"?"},
    {"\"A572 Gr 50\"", "\"mild\"",
     "3: steels.plate.grade: no steel grade is called \"mild\"; there are \"A7\", \"A36\", \"A242\", "
     "\"A441\", \"A572 Gr 50\", \"A588\", \"S235\", \"S275\", \"S355\""},
    {" torsion = \"closed\";", "",
     "5: sections.sill.torsion: not given; a box must say \"closed\", \"open\" or \"battened\""},
    {"depth = \"26 in\"; torsion", "torsion", "5: sections.sill.depth: not given; a box needs its depth"},
    {"depth = \"26 in\"; torsion", "depth = \"1.2 in\"; torsion",
     "5: sections.sill.depth: 1.2 in leaves no height for the webs between top and bottom"},
    {"top = { width = \"20 in\"; thickness = \"1/2 in\"; };", "",
     "5: sections.sill.top: not given; a box needs its top plate"},
    {"webs = { thickness = \"5/16 in\"; clear_between = \"12-7/8 in\"; };", "",
     "5: sections.sill.webs: not given; a box needs its webs"},
    {"width = \"18 in\"; thickness = \"3/4 in\"", "width = \"12 in\"; thickness = \"3/4 in\"",
     "6: sections.sill.bottom.width: 12 in does not reach the webs; they stand 12.875 in apart"},
    {"torsion = \"closed\";", "torsion = \"battened\";",
     "5: sections.sill.battens: not given; torsion = \"battened\" needs its battens\n"
     "6: sections.sill.bottom: this side is battened and has no continuous plate; describe strips along the "
     "webs as plates"},
    {"torsion = \"closed\";",
     "torsion = \"battened\"; battens = { width = \"7 in\"; thickness = \"3/8 in\"; spacing = \"30 in\"; };",
     "6: sections.sill.bottom: this side is battened and has no continuous plate; describe strips along the "
     "webs as plates"},
    {"torsion = \"closed\";",
     "torsion = \"battened\"; battens = { width = \"31 in\"; thickness = \"3/8 in\"; spacing = \"30 in\"; "
     "side = \"top\"; };",
     "5: sections.sill.battens.width: the battens are wider than their spacing; they must not overlap\n"
     "6: sections.sill.top: this side is battened and has no continuous plate; describe strips along the "
     "webs as plates"},
    {"torsion = \"closed\";",
     "torsion = \"closed\"; battens = { width = \"7 in\"; thickness = \"3/8 in\"; spacing = \"30 in\"; };",
     "5: sections.sill.battens: battens belong to torsion = \"battened\""},
    {"web = \"0.40 in\";", "", "8: sections.edge.web: not given; a channel needs its web thickness"},
    {"flange = { width = \"3.4 in\"; thickness = \"0.65 in\"; };", "",
     "8: sections.edge.flange: not given; a channel needs its flange"},
    {"width = \"3.4 in\"; thickness = \"0.65 in\"", "width = \"0.4 in\"; thickness = \"0.65 in\"",
     "8: sections.edge.flange.width: not wider than the web is thick; the width from the back of the web is "
     "due"},
    {"shape = \"channel\"; depth = \"15 in\"", "shape = \"channel\"; depth = \"1.3 in\"",
     "8: sections.edge.depth: not more than two flange thicknesses; the overall depth is due"},
    {"shape = \"channel\"; depth = \"15 in\"", "shape = \"channel\"; torsion = \"closed\"; depth = \"15 in\"",
     "8: sections.edge.torsion: a channel is an open section; describe the walls of a cell as plates"},
    {"shape = \"channel\"; depth = \"15 in\"", "shape = \"channel\"; plates = (); depth = \"15 in\"",
     "8: sections.edge.plates: does not belong to the shape \"channel\"; it is a key of \"plates\""},
    {"z = \"3/8 in\"", "z = \"1/4 in\"",
     "12: sections.bearer.plates.web: overlaps the plate \"bottom\"; plates may touch, each piece of steel "
     "counts once"},
    {"z = \"0 in\"", "z = \"0.01 in\"",
     "10: sections.bearer.plates: no plate starts at z = 0; z is measured up from the lowest fibre"},
    {"shape = \"plates\"; torsion = \"open\"", "shape = \"plates\"; torsion = \"closed\"",
     "10: sections.bearer.torsion: no closed cell is found; two webs are due, and plates above and below "
     "that reach both"},
    {"shape = \"plates\"; torsion = \"open\"", "shape = \"plates\"; depth = \"12 in\"; torsion = \"open\"",
     "10: sections.bearer.depth: does not belong to the shape \"plates\"; the plates say how deep it is"},
    {"I = \"1177 in4\"; ", "", "14: sections.known.I: not given; given properties need I"},
    {"A = \"21.3 in2\"; ", "",
     "14: sections.known.A: not given; given properties need A or weight, so that the car weighs something"},
    {"J = \"3.9 in4\";", "torsion = \"open\";",
     "14: sections.known.torsion: does not belong to the shape \"given\"; J says how it resists twist\n"
     "14: sections.known.J: not given; given properties need J"},
    {"S = \"131 in3\"", "S = \"131 in3\"; S_top = \"140 in3\"",
     "14: sections.known.S_top: S is given as well; give S for both faces, or S_top and S_bottom"},
    {"wheel_trucks = \"7, 52 ft\"", "wheel_trucks = \"7, 62 ft\"",
     "17: cars.flat 60.wheel_trucks: 62 ft lies outside the car, which is 60 ft long"},
    {"wheel_trucks = \"7, 52 ft\"", "wheel_trucks = \"7 ft\"",
     "17: cars.flat 60.wheel_trucks: found one point; two are due, the near one first"},
    {"wheel_trucks = \"7, 52 ft\"", "wheel_trucks = \"52, 7 ft\"",
     "17: cars.flat 60.wheel_trucks: found the far point first or both in one place; two are due, the near "
     "one first"},
    {"wheel_trucks = \"7, 52 ft\"", "wheel_trucks = \"7, 52, 55 ft\"",
     "17: cars.flat 60.wheel_trucks: found more than two points; two are due, the near one first"},
    {"steel = \"car steel\";\n    wheel", "steel = \"cra steel\";\n    wheel",
     "16: cars.flat 60.steel: no steel is called \"cra steel\"; did you mean \"car steel\"?"},
    {"detail_weight = 0.06", "detail_weight = 0.06; weight = \"30 kip\"",
     "32: cars.flat 40.detail_weight: weight is given as well; the known weight has the details in it"},
    {"y = \"3 in\"; section", "y = \"4 ft 9 in\"; section",
     "19: cars.flat 60.lines.sill.y: 4.75 ft lies outside the car, which is 9.33333 ft wide: half of it to "
     "each side"},
    {"section = \"sill\";", "section = \"sil\";",
     "19: cars.flat 60.lines.sill.section: no section is called \"sil\"; did you mean \"sill\"?"},
    {"section = \"sill\";", "section = \"wheel\";",
     "19: cars.flat 60.lines.sill.section: no section is called \"wheel\"; there are \"sill\", \"edge\", "
     "\"stringer\", \"bearer\", \"known\""},
    {"section = \"sill\";", "section = \"known\";",
     "20: cars.flat 60.lines.sill.depth_along: the section \"known\" has given properties and one depth "
     "only; a taper needs plates"},
    {"{ x = \"9 ft\"; depth = \"13 in\"; }", "{ x = \"9 ft\"; depth = \"1 in\"; }",
     "20: cars.flat 60.lines.sill.depth_along: the plates of section \"sill\" do not fit within a depth of 1 "
     "in"},
    {"x = \"43 ft\"; depth", "x = \"19 ft\"; depth",
     "23: cars.flat 60.lines.sill.depth_along.3.x: 19 ft does not come after 19 ft; the points go from the "
     "near end to the far end"},
    {"x = \"52 ft\"; depth", "x = \"61 ft\"; depth",
     "24: cars.flat 60.lines.sill.depth_along.4.x: 61 ft lies outside the car, which is 60 ft long"},
    {"from = \"2 ft\"; to = \"57 ft\"", "from = \"2 ft\"; to = \"60.5 ft\"",
     "26: cars.flat 60.lines.stringers.to: 60.5 ft lies outside the car, which is 60 ft long"},
    {"from = \"2 ft\"; to = \"57 ft\"", "from = \"22 ft\"; to = \"17 ft\"",
     "26: cars.flat 60.lines.stringers.from: the line would go from 22 ft to 17 ft; it must have a length"},
    {"\"-3, -1.5, 1.5, 3 ft\"", "\"-3, 0.25, 1.5, 3 ft\"",
     "26: cars.flat 60.lines.stringers.y: lies on the line \"sill\" at y = 0.25 ft; two lines there need one "
     "section"},
    {"\"-3, -1.5, 1.5, 3 ft\"", "\"-3, 1.5, 1.5, 3 ft\"",
     "26: cars.flat 60.lines.stringers.y: lies on the line \"stringers\" at y = 1.5 ft; two lines there need "
     "one section"},
    {"role = \"main girder\"; y = \"0 ft\"", "role = \"stringer\"; y = \"0 ft\"",
     "33: cars.flat 40.lines: no line has the role \"main girder\"; one at least is due in each car"},
    {"\"53, 30, 7 ft\"", "\"53, 30, 63 ft\"",
     "28: cars.flat 60.floor_beams.bearers.x: 63 ft lies outside the car, which is 60 ft long\n"
     "31: cars.flat 60.floor_beams.end sills.x: two floor beams stand at 60 ft (the other is of "
     "\"bearers\"); they need one section"},
    {"\"53, 30, 7 ft\"", "\"53, 30, 60 ft\"",
     "31: cars.flat 60.floor_beams.end sills.x: two floor beams stand at 60 ft (the other is of "
     "\"bearers\"); they need one section"},
    {"hinged_at = [ \"sill\", \"stringers 1\" ]", "hinged_at = [ \"sill\", \"stringers 5\" ]",
     "28: cars.flat 60.floor_beams.bearers.hinged_at: no line of the car is called \"stringers 5\"; did you "
     "mean \"stringers 1\"?"},
    {"hinged_at = [ \"sill\", \"stringers 1\" ]", "hinged_at = [ \"spine\" ]",
     "28: cars.flat 60.floor_beams.bearers.hinged_at: no line of the car is called \"spine\"; there are "
     "\"edges\", \"edges 1\", \"stringers\", \"stringers 1\", \"stringers 2\", \"sill\", \"stringers 3\", "
     "\"stringers 4\", \"edges 2\""},
    {"from = \"-4 ft\"; to = \"-1 ft\"", "from = \"-4 ft\"; to = \"-5 ft\"",
     "30: cars.flat 60.floor_beams.bearers.across.1.to: the part would go from -4 ft to -5 ft; it must have "
     "a width"},
    {"from = \"-4 ft\"; to = \"-1 ft\"", "from = \"-4.7 ft\"; to = \"-1 ft\"",
     "30: cars.flat 60.floor_beams.bearers.across.1.from: lies outside the car, -4.66667 ft to 4.66667 ft "
     "from its middle"},
    {"to = \"-1 ft\"; section = \"known\"; }",
     "to = \"-1 ft\"; section = \"known\"; }, { from = \"-2 ft\"; to = \"1 ft\"; section = \"edge\"; }",
     "29: cars.flat 60.floor_beams.bearers.across: two parts overlap; each place has one section"},
    {"y = \"0 ft\"; section = \"known\"; } );",
     "y = \"0 ft\"; section = \"known\"; } ); floor_beams = ( { name = \"b\"; section = \"edge\"; x = \"5 "
     "ft\"; } );",
     "34: cars.flat 40.floor_beams.b.x: at 5 ft there is one line; a floor beam joins two or more"},
};

static void test_faults_of_cars(void) {
    check_rows(rows, (int)(sizeof rows / sizeof rows[0]), SS_FAULT);
}

int main(void) {
    const test_case cases[] = {{"faults of cars", test_faults_of_cars}};
    return RUN_SUITE("resolve faults of cars", cases);
}
