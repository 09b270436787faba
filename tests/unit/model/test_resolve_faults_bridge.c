/* test_resolve_faults_bridge.c - faults of meaning in the bridge, its joints, bearings and dead loads, each
 * with its place and words. */
#include "resolve_rows.h"

static const fault_row rows[] = {
    {"shear_capacity = \"4 kip/ft\";",
     "bolts = { diameter = \"3/4 in\"; count = 2; arm = \"3 in\"; ply = \"1/2 in\"; };",
     "46: bridge.joints.seam.bolts: belong to connectors, and the joint has none"},
    {"shear_capacity_each = \"9 kip\";",
     "plate = { thickness = \"3/8 in\"; reach = \"6 in\"; steel = \"plate\"; weld = \"1/4 in\"; };",
     "47: bridge.joints.bolts.plate: goes all along, but the joint has connectors; bolts are due"},
    {"shear_capacity = \"4 kip/ft\";",
     "shear_capacity = \"4 kip/ft\"; plate = { thickness = \"3/8 in\"; reach = \"6 in\"; steel = \"plate\"; "
     "weld = \"1/4 in\"; };",
     "46: bridge.joints.seam.plate: a capacity is given as well; give it, or what the joint is made of"},
    {"thickness = \"3-1/2 in\"; density = \"50 lb/ft3\"", "thickness = \"3-1/2 in\"",
     "36: decks.planks.weight: not given; weight, or thickness and density are due"},
    {"weight = \"12.5 psf\"", "weight = \"12.5 psf\"; density = \"490 lb/ft3\"",
     "37: decks.sheet.density: weight is given as well; give weight, or thickness and density"},
    {"spans = \"across\";", "spans = \"across\"; bending_stress = \"1200 psi\";",
     "36: decks.planks.shear_stress: not given; timber under a wheel needs its allowable stresses in bending "
     "and shear\n"
     "36: decks.planks.plank_width: not given; planks under a wheel need their width, or the spread that "
     "carries a wheel"},
    {"thickness = \"3-1/2 in\"; density = \"50 lb/ft3\"",
     "weight = \"15 psf\"; spread = \"12 in\"; bending_stress = \"1200 psi\"; shear_stress = \"170 psi\"",
     "36: decks.planks.thickness: not given; planks under a wheel need their thickness"},
    {"spans = \"across\";", "spans = \"across\"; steel = \"plate\"; wheel_capacity = \"16 kip\";",
     "36: decks.planks.steel: a timber deck has planks and allowable stresses\n"
     "36: decks.planks.wheel_capacity: a timber deck has planks and allowable stresses"},
    {"spans = \"along\";", "spans = \"along\"; steel = \"plaet\";",
     "37: decks.sheet.steel: no steel is called \"plaet\"; did you mean \"plate\"?\n"
     "37: decks.sheet.thickness: not given; a steel plate under a wheel needs its thickness"},
    {"kind = \"steel plate\";", "kind = \"grating\"; plank_width = \"6 in\";",
     "37: decks.sheet.plank_width: a grating has the wheel or moment that its maker allows"},
    {"kind = \"steel plate\";", "kind = \"concrete\"; spread = \"4 ft\";",
     "37: decks.sheet.spread: a concrete deck is not checked under a wheel"},
    {"deck = \"planks\"", "deck = \"plnaks\"",
     "53: bridge.deck: no deck is called \"plnaks\"; did you mean \"planks\"?"},
    {"car = \"flat 40\"; gap = \"4 in\";", "car = \"flat 40\";",
     "41: bridge.cars.middle.gap: not given; the clear distance to the car on its left is due, such as \"4 "
     "in\""},
    {"car = \"flat 60\"; }", "car = \"flat 60\"; gap = \"2 in\"; }",
     "40: bridge.cars.north.gap: the first car has no car on its left; give the gap to the next one there"},
    {"car = \"flat 40\"; gap", "car = \"flat 45\"; gap",
     "41: bridge.cars.middle.car: no car type is called \"flat 45\"; did you mean \"flat 40\"?"},
    {"{ name = \"edges\"; section = \"known\"; }", "{ name = \"egdes\"; section = \"known\"; }",
     "44: bridge.cars.south.lines.egdes.name: no line of the car type is called \"egdes\"; did you mean "
     "\"edges\"?"},
    {"{ name = \"edges\"; section = \"known\"; }", "{ name = \"sill\"; section = \"known\"; }",
     "44: bridge.cars.south.lines.sill.section: the section \"known\" has given properties and one depth "
     "only; a taper needs plates"},
    {"{ name = \"edges\"; section = \"known\"; }", "{ name = \"sill\"; missing = true; }",
     "43: bridge.cars.south.lines: every main girder of the car is missing; one at least is due\n"
     "72: probes.p1.line: \"sill\" is missing there; the car's own lines or a finding say so"},
    {"{ name = \"edges\"; section = \"known\"; }", "{ name = \"edges\"; missing = true; }",
     "43: bridge.cars.south.lines: without the missing lines the floor beam \"end sills 1\" joins fewer than "
     "two\n"
     "43: bridge.cars.south.lines: without the missing lines the floor beam \"end sills 2\" joins fewer than "
     "two\n"
     "75: probes.p4.bearing: no bearing point in use of \"ends\" fits; car, line and x say which"},
    {"between = [ \"middle\", \"north\" ]", "between = [ \"south\", \"north\" ]",
     "46: bridge.joints.seam.between: \"south\" and \"north\" do not lie beside each other; a joint ties "
     "neighbours"},
    {"between = [ \"middle\", \"north\" ]", "between = [ \"middle\", \"nroth\" ]",
     "46: bridge.joints.seam.between: no car of the bridge is called \"nroth\"; did you mean \"north\"?"},
    {"between = [ \"middle\", \"north\" ]", "between = [ \"middle\" ]",
     "46: bridge.joints.seam.between: found 1 car; a joint is between two"},
    {"from = \"13 ft\"", "from = \"10 ft\"",
     "46: bridge.joints.seam.from: 10 ft lies outside what the two cars have in common, 11 ft to 51 ft"},
    {"from = \"13 ft\"", "from = \"33 ft\"; to = \"32 ft\"",
     "46: bridge.joints.seam.to: the joint would go from 33 ft to 32 ft; it must have a length"},
    {"gap = \"4 in\"; x = \"11 ft\"", "gap = \"4 in\"; x = \"60 ft\"",
     "46: bridge.joints.seam.between: \"north\" and \"middle\" have no length in common along the bridge\n"
     "47: bridge.joints.bolts.connectors: 17 ft lies outside what the two cars have in common, 60 ft to 61 "
     "ft\n"
     "47: bridge.joints.bolts.connectors: 29 ft lies outside what the two cars have in common, 60 ft to 61 "
     "ft\n"
     "47: bridge.joints.bolts.connectors: 41 ft lies outside what the two cars have in common, 60 ft to 61 "
     "ft\n"
     "51: bridge.bearings.blocks.x: x = 12 ft lies outside car \"middle\", 60 ft to 100 ft"},
    {"shear = \"0.3 kip/in/in\";", "",
     "46: bridge.joints.seam.shear: not given; springs need a stiffness, such as \"0.3 kip/in/in\""},
    {"shear = \"0.3 kip/in/in\";", "shear = \"0.3 kip/in/in\"; shear_each = \"4 kip/in\";",
     "46: bridge.joints.seam.shear_each: of one connector, but the joint has none; give connectors, or shear "
     "and rotation per length"},
    {"kind = \"hinged\"; connectors", "kind = \"springs\"; connectors",
     "47: bridge.joints.bolts.shear_each: not given; springs at connectors need the stiffness of each"},
    {"kind = \"hinged\"; connectors",
     "kind = \"springs\"; shear = \"0.2 kip/in/in\"; shear_each = \"3 kip/in\"; connectors",
     "47: bridge.joints.bolts.shear: per length, but the joint has connectors; shear_each and rotation_each "
     "are due"},
    {"\"41, 17, 29 ft\"", "\"41, 17, 52 ft\"",
     "47: bridge.joints.bolts.connectors: 52 ft lies outside what the two cars have in common, 11 ft to 51 "
     "ft"},
    {"\"41, 17, 29 ft\"", "\"41, 17, 29, 17 ft\"",
     "47: bridge.joints.bolts.connectors: two connectors stand at 17 ft; give one with the stiffness of "
     "both"},
    {"\"41, 17, 29 ft\"", "\"41, 17, 29 ft\"; from = \"13 ft\"",
     "47: bridge.joints.bolts.from: the joint has connectors and acts only there; from and to belong to a "
     "continuous joint"},
    {"shear_capacity_each = \"9 kip\"", "shear_capacity = \"9 kip/ft\"",
     "47: bridge.joints.bolts.shear_capacity: per length, but the joint has connectors; shear_capacity_each "
     "is due"},
    {"shear_capacity = \"4 kip/ft\"", "shear_capacity_each = \"4 kip\"",
     "46: bridge.joints.seam.shear_capacity_each: of one connector, but the joint has none; shear_capacity "
     "is due"},
    {"joints = (",
     "joints = ( { name = \"weld\"; between = [ \"north\", \"middle\" ]; kind = \"rigid\"; to = \"20 ft\"; "
     "},",
     "46: bridge.joints.seam: overlaps the joint \"weld\" from 13 ft to 20 ft; each place has one joint"},
    {"at = \"ends\"; under", "under",
     "50: bridge.bearings.ends: it is not said where the bearings stand; give a named place in \"at\", or "
     "stations in \"x\""},
    {"at = \"ends\"; under", "at = \"ends\"; x = \"3 ft\"; under",
     "50: bridge.bearings.ends: both at and x are given; give a named place in \"at\", or stations in \"x\""},
    {"\"12, 50 ft\"", "\"12, 52 ft\"",
     "51: bridge.bearings.blocks.x: x = 52 ft lies outside car \"middle\", 11 ft to 51 ft"},
    {"under = [ \"sill\" ]; cars = [ \"north\", \"south\" ]", "under = [ \"spine\" ]",
     "49: bridge.bearings.trucks.at: the car \"middle\" has no wheel-truck points; give wheel_trucks to its "
     "type \"flat 40\", or x here"},
    {"cars = [ \"north\", \"south\" ]", "cars = [ \"north\", \"suoth\" ]",
     "49: bridge.bearings.trucks.cars: no car of the bridge is called \"suoth\"; did you mean \"south\"?"},
    {"under = [ \"sill\", \"edges 2\" ]", "under = [ \"sill\", \"edges 3\" ]",
     "50: bridge.bearings.ends.under: no line of these cars is called \"edges 3\"; did you mean \"edges "
     "1\"?"},
    {"under = [ \"sill\", \"edges 2\" ]", "under = [ \"sill\", \"stringers 2\" ]",
     "50: bridge.bearings.ends.under: the line \"stringers 2\" of car \"north\" does not reach x = 0 ft; it "
     "goes from 2 ft to 57 ft\n"
     "50: bridge.bearings.ends.under: the line \"stringers 2\" of car \"north\" does not reach x = 60 ft; it "
     "goes from 2 ft to 57 ft\n"
     "50: bridge.bearings.ends.under: the line \"stringers 2\" of car \"south\" does not reach x = 1 ft; it "
     "goes from 4 ft to 59 ft\n"
     "50: bridge.bearings.ends.under: the line \"stringers 2\" of car \"south\" does not reach x = 61 ft; it "
     "goes from 4 ft to 59 ft"},
    {"in_use = false;", "in_use = true; gap = \"1/8 in\";",
     "52: bridge.bearings.spare.gap: a bearing placed after the dead load touches; leave out the gap or "
     "\"placed\""},
    {"x = \"30 ft\"; under = [ \"sill\" ]; placed = \"after dead load\"; in_use = false;",
     "x = \"7 ft\"; under = [ \"sill\" ]; cars = [ \"north\" ];",
     "52: bridge.bearings.spare: the line \"sill\" of car \"north\" rests on \"trucks\" at x = 7 ft already; "
     "one bearing is allowed at each place"},
    {"action = \"two-way\"; settlement", "action = \"two-way\"; gap = \"1/16 in\"; settlement",
     "51: bridge.bearings.blocks.gap: a two-way bearing holds the car and has no daylight; action = "
     "\"contact\" has a gap"},
    {"from = \"2 ft\"; to = \"26 ft\"", "from = \"26 ft\"; to = \"2 ft\"",
     "59: bridge.roadway.to: 2 ft does not lie right of the left curb at 26 ft"},
    {"from = \"2 ft\"; to = \"26 ft\"", "from = \"-2 ft\"; to = \"29 ft\"",
     "59: bridge.roadway.from: -2 ft lies left of the cars, which are 28.25 ft wide together\n"
     "59: bridge.roadway.to: 29 ft lies right of the cars, which are 28.25 ft wide together"},
    {"\"0.5, 27 ft\"", "\"0.5, 29 ft\"",
     "55: bridge.rails.y: y = 29 ft lies beside the cars, which are 28.25 ft wide together"},
    {"line = \"22 lb/ft\"; y", "y",
     "57: bridge.dead_loads.pipe: no weight is given; a weight per length in \"line\" or per area in "
     "\"area\" is due"},
    {"line = \"22 lb/ft\"; y", "line = \"22 lb/ft\"; area = \"3 psf\"; y",
     "57: bridge.dead_loads.pipe: both line and area are given; a weight per length in \"line\" or per area "
     "in \"area\" is due"},
    {"y_to = \"3 ft\"; to", "to", "58: bridge.dead_loads.soil.y_to: not given; an area needs its right edge"},
    {"y_to = \"3 ft\"; to", "y_to = \"0.5 ft\"; to",
     "58: bridge.dead_loads.soil.y_to: not right of y; an area goes from y to y_to"},
    {"y = \"9 ft\"; component", "y = \"9 ft\"; y_to = \"10 ft\"; component",
     "57: bridge.dead_loads.pipe.y_to: a load along a line has one y; y_to belongs to an area"},
    {"from = \"5 ft\"; }", "from = \"5 ft\"; to = \"4 ft\"; }",
     "57: bridge.dead_loads.pipe.to: the load would go from 5 ft to 4 ft; it must have a length"},
    {"from = \"5 ft\"; }", "from = \"65 ft\"; to = \"70 ft\"; }",
     "57: bridge.dead_loads.pipe.from: the load lies outside the bridge, 0 ft to 61 ft"},
};

static void test_faults_of_bridge(void) {
    check_rows(rows, (int)(sizeof rows / sizeof rows[0]), SS_FAULT);
}

int main(void) {
    const test_case cases[] = {{"faults of the bridge", test_faults_of_bridge}};
    return RUN_SUITE("resolve faults of the bridge", cases);
}
