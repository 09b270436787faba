/* test_resolve_faults_finding.c - faults of findings, each with its place and words. */
#include "resolve_rows.h"

#define ADD(text) "rating = {", "findings = ( { name = \"f\"; " text " } );\nrating = {"

static const fault_row rows[] = {
    {ADD("seen = \"bent\"; car = \"north\"; strength_left = 0.5;"),
     "77: findings.f.seen: \"bent\" needs line or floor_beam"},
    {ADD("seen = \"thinned\"; line = \"sill\"; part = \"top\"; loss = 0.2;"),
     "77: findings.f.car: not given; a line or floor beam needs the car that it belongs to"},
    {ADD("seen = \"thinned\"; car = \"north\"; line = \"sill\"; part = \"botom\"; loss = 0.2;"),
     "77: findings.f.part: no plate of that section is called \"botom\"; did you mean \"bottom\"?"},
    {ADD("seen = \"thinned\"; car = \"north\"; line = \"sill\"; part = \"bottom\"; thickness_left = \"7/8 "
         "in\";"),
     "77: findings.f.thickness_left: 0.875 in is more than the plate \"bottom\" has, 0.75 in"},
    {ADD("seen = \"thinned\"; car = \"north\"; line = \"sill\"; part = \"bottom\";"),
     "77: findings.f.thickness_left: not given; what is left of the thickness, or the share that is gone, is "
     "due"},
    {ADD("seen = \"thinned\"; car = \"south\"; line = \"edges 1\"; part = \"web\"; loss = 0.2;"),
     "77: findings.f.part: the section \"known\" is given by its properties and has no plates; \"section "
     "loss\" "
     "goes with such"},
    {ADD("seen = \"section loss\"; car = \"south\"; line = \"edges\"; loss = 0.2;"),
     "77: findings.f.line: \"edges\" is a set of 2 lines; one of them is due, such as \"edges 1\""},
    {ADD("seen = \"section loss\"; car = \"south\"; line = \"edges 1\"; loss = 1;"),
     "77: findings.f: nothing that carries would be left of the section \"known\"; seen = \"missing\" says "
     "so"},
    {ADD("seen = \"cracked\"; car = \"north\"; line = \"sill\";"),
     "77: findings.f.consequence: not given; what the crack comes to is due: \"hinge\" or \"member out\""},
    {ADD("seen = \"cracked\"; car = \"north\"; line = \"sill\"; consequence = \"hinge\"; x = \"61 ft\";"),
     "77: findings.f.x: a hinge lies within the line, 0 ft to 60 ft"},
    {ADD("seen = \"missing\"; car = \"middle\"; line = \"spine\";"),
     "77: findings: nothing is left of any main girder of car \"middle\""},
    {ADD("seen = \"missing\"; car = \"north\"; line = \"stringers 2\"; from = \"50 ft\"; to = \"59 ft\";"),
     "77: findings.f.to: it lies outside the member, 2 ft to 57 ft"},
    {ADD("seen = \"loose\"; joint = \"seem\";"),
     "77: findings.f.joint: no joint is called \"seem\"; did you mean \"seam\"?"},
    {ADD("seen = \"loose\"; joint = \"seam\"; from = \"60 ft\"; to = \"61 ft\";"),
     "77: findings.f.to: it has no length within the joint, 13 ft to 51 ft"},
    {ADD("seen = \"gap\"; bearing = \"trukcs\"; gap = \"1 in\";"),
     "77: findings.f.bearing: no set of bearings is called \"trukcs\"; did you mean \"trucks\"?"},
    {ADD("seen = \"gap\"; bearing = \"blocks\"; gap = \"1 in\";"),
     "77: findings.f.gap: \"blocks\" holds the car both ways and has no daylight; action = \"contact\" has a "
     "gap"},
    {ADD("seen = \"gap\"; bearing = \"trucks\"; car = \"north\"; x = \"30 ft\"; gap = \"1 in\";"),
     "77: findings.f.bearing: no point of \"trucks\" is where car, line and x say"},
    {ADD("seen = \"soft\"; bearing = \"trucks\";"),
     "77: findings.f.spring: not given; the stiffness of one point on dirt is due; try a low and a high one"},
    {ADD("seen = \"gravel\"; thickness = \"2 in\"; gap = \"1 in\";"),
     "77: findings.f.gap: does not belong to seen = \"gravel\""},
    {ADD("seen = \"gravel\"; thickness = \"2 in\"; y = \"9 ft\"; y_to = \"8 ft\";"),
     "77: findings.f.y_to: 9 ft to 8 ft is no width on the cars, which are 28.25 ft wide together"},
    {ADD("seen = \"loose\"; joint = \"seam\"; bearing = \"trucks\";"),
     "77: findings.f: more than one member is named; a finding is about one"},
};

static void test_faults(void) {
    check_rows(rows, ENTRIES(rows), SS_FAULT);
}

int main(void) {
    static const test_case cases[] = {{"faults of findings", test_faults}};
    return RUN_SUITE("faults of findings", cases);
}
