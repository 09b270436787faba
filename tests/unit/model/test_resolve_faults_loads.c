/* test_resolve_faults_loads.c - faults of meaning in trucks, cases, runs, probes and rating, each with its
 * place and words. */
#include "resolve_rows.h"

static const fault_row rows[] = {
    {"spacing = \"14, 4.5 ft\"", "spacing = \"14 ft\"",
     "62: trucks.milk hauler.spacing: found 1 distance for 3 axles; 2 are due, one fewer than axles"},
    {"spacing = \"14, 4.5 ft\"; ", "",
     "62: trucks.milk hauler.spacing: found 0 distances for 3 axles; 2 are due, one fewer than axles"},
    {"name = \"milk hauler\"", "name = \"hs 20\"",
     "62: trucks.hs 20.name: \"hs 20\" is the built-in truck HS20-44; a truck of one's own needs another "
     "name\n"
     "65: cases.load test.loads.1.truck: no truck is called \"milk hauler\", neither in trucks nor among "
     "those built in, which \"sillspan vehicles\" lists\n"
     "79: rating.trucks: no truck is called \"milk hauler\", neither in trucks nor among those built in, "
     "which \"sillspan vehicles\" lists"},
    {"\"milk hauler\", \"HS20\"", "\"milk hualer\", \"HS21-44\"",
     "79: rating.trucks: no truck is called \"milk hualer\"; did you mean \"milk hauler\"?\n"
     "79: rating.trucks: no truck is called \"HS21-44\"; did you mean \"HS20-44\"?"},
    {"\"milk hauler\", \"HS20\"", "\"tank\"",
     "79: rating.trucks: no truck is called \"tank\", neither in trucks nor among those built in, which "
     "\"sillspan vehicles\" lists"},
    {"adtt = 40", "adtt = -40", "78: rating.adtt: -40 is below the least allowed, 0"},
    {"truck = \"milk hauler\"; x", "x",
     "65: cases.load test.loads.1.truck: not given; the kind \"truck\" needs the name of one"},
    {"truck = \"milk hauler\"; x", "truck = \"EV4\"; x",
     "65: cases.load test.loads.1.truck: no truck is called \"EV4\"; did you mean \"EV2\"?"},
    {"y = \"9 ft\"; backward", "y = \"3 ft\"; backward",
     "65: cases.load test.loads.1.y: the wheels at y = -0.25 ft and 6.25 ft would not both stand on the "
     "cars, which are 28.25 ft wide together"},
    {"y = \"9 ft\"; backward", "y = \"9 ft\"; y_to = \"11 ft\"; backward",
     "65: cases.load test.loads.1.y_to: does not belong to the kind \"truck\"; a parked truck has truck, x, "
     "backward, and y or car and on"},
    {"point = \"7 kip\"; x", "x",
     "66: cases.load test.loads.2.point: not given; the kind \"point\" needs a force"},
    {"on = \"stringers 3\"", "on = \"stringers\"",
     "66: cases.load test.loads.2.on: \"stringers\" is a set of 4 lines; one of them is due, such as "
     "\"stringers 1\""},
    {"on = \"stringers 3\"", "on = \"stringers 7\"",
     "66: cases.load test.loads.2.on: no line of that car is called \"stringers 7\"; did you mean "
     "\"stringers 1\"?"},
    {"x = \"22 ft\"; car", "x = \"58 ft\"; car",
     "66: cases.load test.loads.2.x: 58 ft lies outside the line \"stringers 3\", 2 ft to 57 ft"},
    {"car = \"north\"; on = \"stringers 3\"", "on = \"stringers 3\"",
     "66: cases.load test.loads.2.car: not given; \"on\" needs the car that the line belongs to"},
    {"car = \"north\"; on = \"stringers 3\"", "car = \"north\"; on = \"stringers 3\"; y = \"4 ft\"",
     "66: cases.load test.loads.2: both y and on are given; give y, or car and on"},
    {"car = \"north\"; on = \"stringers 3\"", "car = \"north\"",
     "66: cases.load test.loads.2: it is not said where it stands across; give y, or car and on"},
    {"car = \"north\"; on = \"stringers 3\"", "car = \"west\"; on = \"stringers 3\"",
     "66: cases.load test.loads.2.car: no car of the bridge is called \"west\"; there are \"north\", "
     "\"middle\", \"south\""},
    {"x_to = \"33 ft\"; y", "y",
     "67: cases.load test.loads.3.x_to: not given; a load per length or area goes from x to x_to"},
    {"x_to = \"33 ft\"; y", "x_to = \"4 ft\"; y",
     "67: cases.load test.loads.3.x_to: does not lie beyond x; the load must have a length"},
    {"x_to = \"33 ft\"; y = \"14 ft\"", "x_to = \"63 ft\"; y = \"34 ft\"",
     "67: cases.load test.loads.3.x_to: 63 ft lies outside the bridge, 0 ft to 61 ft\n"
     "67: cases.load test.loads.3.y: 34 ft lies outside the bridge, 0 ft to 28.25 ft"},
    {"y_to = \"7 ft\"", "y_to = \"1 ft\"",
     "68: cases.load test.loads.4.y_to: does not lie right of y; the load must have a width"},
    {"kind = \"area\"; area", "kind = \"area\"; on = \"sill\"; area",
     "68: cases.load test.loads.4.on: does not belong to the kind \"area\"; an area load has area, x, x_to, "
     "y and y_to"},
    {"truck = \"ev 3\"", "truck = \"ev 33\"",
     "70: runs.along sill.truck: no truck is called \"ev 33\", neither in trucks nor among those built in, "
     "which \"sillspan vehicles\" lists"},
    {"on = \"sill\"; direction", "on = \"edges 1\"; direction",
     "70: runs.along sill.on: the wheels at y = -2.83333 ft and 3.16667 ft would not both stand on the cars, "
     "which are 28.25 ft wide together"},
    {"line = \"sill\"; x = \"31 ft\"", "line = \"sill\"; x = \"0 ft\"",
     "72: probes.p1.x: 0 ft lies outside \"sill\", 1 ft to 61 ft"},
    {"line = \"sill\"; x = \"31 ft\"", "line = \"sill\"; x = \"1 ft\"",
     "72: probes.p1.side: nothing lies before the near end; \"after\" is due there, or no side"},
    {"x = \"31 ft\"; effect = \"moment\"; side = \"before\"",
     "x = \"61 ft\"; effect = \"moment\"; side = \"after\"",
     "72: probes.p1.side: nothing lies after the far end; \"before\" is due there, or no side"},
    {"line = \"sill\"; x = \"31 ft\"", "line = \"sill\"",
     "72: probes.p1.x: not given; a line needs the station"},
    {"line = \"sill\"; x = \"31 ft\"", "x = \"31 ft\"",
     "72: probes.p1: no member is named; one of line, floor_beam, joint and bearing is due"},
    {"line = \"sill\"; x = \"31 ft\"", "line = \"sill\"; joint = \"seam\"; x = \"31 ft\"",
     "72: probes.p1: more than one member is named; one of line, floor_beam, joint and bearing is due"},
    {"line = \"sill\"; x = \"31 ft\"", "line = \"stringers\"; x = \"31 ft\"",
     "72: probes.p1.line: \"stringers\" is a set of 4 lines; one of them is due, such as \"stringers 1\""},
    {"car = \"south\"; line = \"sill\"; x", "line = \"sill\"; x",
     "72: probes.p1.car: not given; a line needs the car that it belongs to"},
    {"effect = \"moment\"; side", "effect = \"reaction\"; side",
     "72: probes.p1.effect: a line has no reaction; it has moment, shear, torsion and deflection"},
    {"\"bearers 2\"; y = \"5 ft\"", "\"bearers\"; y = \"5 ft\"",
     "73: probes.p2.floor_beam: \"bearers\" is a set of 3 floor beams; one of them is due, such as \"bearers "
     "1\""},
    {"\"bearers 2\"; y = \"5 ft\"", "\"bearers 4\"; y = \"5 ft\"",
     "73: probes.p2.floor_beam: no floor beam of that car is called \"bearers 4\"; did you mean \"bearers "
     "1\"?"},
    {"\"bearers 2\"; y = \"5 ft\"", "\"bearers 2\"; y = \"10 ft\"",
     "73: probes.p2.y: 10 ft lies outside \"bearers 2\", 0.166667 ft to 9.16667 ft"},
    {"\"bearers 2\"; y = \"5 ft\"", "\"bearers 2\"; x = \"5 ft\"",
     "73: probes.p2.x: does not belong to a floor beam; it has car, floor_beam, y and side\n"
     "73: probes.p2.y: not given; a floor beam needs the place across"},
    {"joint = \"seam\"; x = \"20 ft\"", "joint = \"seem\"; x = \"20 ft\"",
     "74: probes.p3.joint: no joint is called \"seem\"; did you mean \"seam\"?"},
    {"joint = \"seam\"; x = \"20 ft\"", "joint = \"seam\"; x = \"12 ft\"",
     "74: probes.p3.x: 12 ft lies outside \"seam\", 13 ft to 51 ft"},
    {"joint = \"bolts\"; x = \"29 ft\"", "joint = \"bolts\"; x = \"28 ft\"",
     "76: probes.p5.x: no connector of \"bolts\" stands at 28 ft; the nearest is at 29 ft"},
    {"x = \"20 ft\"; effect = \"shear\"", "x = \"20 ft\"; effect = \"torsion\"",
     "74: probes.p3.effect: a joint has no torsion; it has moment and shear"},
    {"x = \"20 ft\"; effect = \"shear\"", "x = \"20 ft\"; effect = \"shear\"; side = \"before\"",
     "74: probes.p3.side: does not belong to a joint; it has joint and x"},
    {"bearing = \"ends\"; car = \"south\"; line = \"edges 2\"; x", "bearing = \"ends\"; x",
     "75: probes.p4.bearing: 2 bearing points of \"ends\" fit; give car, line and x so that one is left"},
    {"bearing = \"ends\"; car = \"south\"; line = \"edges 2\"; x", "bearing = \"end\"; x",
     "75: probes.p4.bearing: no set of bearings is called \"end\"; did you mean \"ends\"?"},
    {"line = \"edges 2\"; x = \"61 ft\"", "line = \"edges 2\"; x = \"30 ft\"",
     "75: probes.p4.bearing: no bearing point in use of \"ends\" fits; car, line and x say which"},
    {"bearing = \"ends\"; car = \"south\"; line = \"edges 2\"; x = \"61 ft\"; effect = \"reaction\"",
     "bearing = \"ends\"; car = \"south\"; line = \"edges 2\"; x = \"61 ft\"; effect = \"shear\"",
     "75: probes.p4.effect: a bearing has no shear; it has reaction"},
};

static void test_faults_of_loads(void) {
    check_rows(rows, (int)(sizeof rows / sizeof rows[0]), SS_FAULT);
}

int main(void) {
    const test_case cases[] = {{"faults of loads", test_faults_of_loads}};
    return RUN_SUITE("resolve faults of loads", cases);
}
