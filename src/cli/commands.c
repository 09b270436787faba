/* commands.c - the table of commands. */
#include <string.h>

#include "cli/options.h"

static const ss_command commands[] = {
    {"check", SS_IN_CHECK, "read a description and show what it says; no truck is driven",
     "Reads the description, lists every fault with its line, and shows what the program understood: plan\n"
     "and cross-section in characters, section properties, weights, bearings, joints, trucks, the values\n"
     "that were assumed, and what looks unlikely. A bridge that is free to move is refused in words.",
     "sillspan check models/bridges/alder-branch.cfg\n"
     "sillspan check --units si --output check.txt models/bridges/alder-branch.cfg",
     ss_command_check, SS_TAKES_BRIDGES},
    {"analyze", SS_IN_ANALYZE, "dead load and trucks: forces, deflections, bearings",
     "Puts the dead load on in its stages, then drives each truck over every place of the roadway, both\n"
     "ways, one at a time, with the load of its lane and bearings that push and cannot pull. Shows the\n"
     "largest effects of every member and where the truck then stands, what bearings and joints carry, how\n"
     "the cars share a truck, and the probes and placed loads that the description asks for. --abreast adds\n"
     "trucks beside each other. No load factors, no dynamic allowance.",
     "sillspan analyze models/bridges/alder-branch.cfg\n"
     "sillspan analyze --abreast --set rating.trucks=HL-93 models/bridges/larch-ford.cfg\n"
     "sillspan analyze --format json -o results.json models/bridges/alder-branch.cfg\n"
     "sillspan analyze --set bridge.bearings.ends.gap=\"1/2 in\" models/bridges/alder-branch.cfg",
     ss_command_analyze, SS_TAKES_BRIDGES},
    {"rate", SS_IN_RATE, "rating factors: which truck, which member, which place, and why",
     "Everything that analyze does, and the rating factor of every line, floor beam and joint for every\n"
     "truck: the smallest multiple of the truck at which the factored effect reaches what the place can\n"
     "carry. The description must give rating.condition and rating.system; they are never assumed.",
     "sillspan rate models/bridges/alder-branch.cfg\n"
     "sillspan rate --require 1.0 --quiet models/bridges/alder-branch.cfg\n"
     "sillspan rate --set rating.condition=poor models/bridges/alder-branch.cfg\n"
     "sillspan rate --resume county.rows county/",
     ss_command_rate, SS_TAKES_BRIDGES},
    {"report", SS_IN_REPORT, "a rating as a page to be filed and printed",
     "Everything that rate does, as one HTML file that needs nothing else, no network, and a script for one\n"
     "part alone, or as a PDF, where FILE ends in .pdf. The answer is on its first page, with how sure it "
     "is\n"
     "and what to measure next; then come a truck that is moved over the bridge, the description as it was\n"
     "understood, what was assumed and what is left out, findings and their cost, the results, the "
     "governing\n"
     "factor line by line, the accuracy, and room for the engineer's name, number and seal. Any browser "
     "reads\n"
     "the HTML and prints it on A4 or Letter; the PDF is set for one of them. How to read it: "
     "docs/report.md.",
     "sillspan report -o alder-branch.html models/bridges/alder-branch.cfg\n"
     "sillspan report --paper letter -o alder-branch.pdf models/bridges/alder-branch.cfg\n"
     "sillspan report --brief --set rating.trucks=EV3 -o ev3.html models/bridges/alder-branch.cfg\n"
     "sillspan report --variant unshored --units si -o mallow-brook.html models/bridges/mallow-brook.cfg\n"
     "sillspan report --studies sweep,compare -o thistle-run.html models/bridges/thistle-run.cfg",
     ss_command_report, SS_TAKES_FILE},
    {"compare", SS_IN_COMPARE, "variants of a bridge side by side: which is best for what",
     "Computes every variant that the description lists under `variants`, and those given by --with, and\n"
     "sets them side by side: bending, deflection, sharing, bearings, joints, rating factors, posting. Each\n"
     "is compared with the first, which is the bridge as described, or the variant that changes nothing.\n"
     "The best and the worst are named. A variant that comes to nothing is told of with the reason, and the\n"
     "others go on.",
     "sillspan compare models/bridges/thistle-run.cfg\n"
     "sillspan compare --no-rating models/bridges/thistle-run.cfg\n"
     "sillspan compare --with \"soft: bridge.joints.seam.shear=0.003 kip/in/in\" \\\n"
     "  --with \"stiff: bridge.joints.seam.shear=0.3 kip/in/in\" models/bridges/alder-branch.cfg",
     ss_command_compare, SS_TAKES_FILE},
    {"sweep", SS_IN_SWEEP, "one value or two from end to end: where the rating changes, and how",
     "Goes through the stiffness of the joints from none to rigid, or through any value that --vary names,\n"
     "and shows the rating, what each car keeps of a truck, what the joint carries and what governs along\n"
     "the way: the worst of it, where it changes, and where a joint would be full before the members. Two\n"
     "values make a map. An interrupt ends it with what it has.",
     "sillspan sweep models/bridges/alder-branch.cfg\n"
     "sillspan sweep --figure joint.svg models/bridges/alder-branch.cfg\n"
     "sillspan sweep --vary \"bridge.bearings.shims.spring=50 kip/in..500 kip/in log\" "
     "models/bridges/alder-branch.cfg\n"
     "sillspan sweep --vary \"bridge.joints.seam.shear=0.001 kip/in/in..1 kip/in/in log\" \\\n"
     "  --vary \"steels.car steel.fy=30 ksi, 36 ksi, 42 ksi\" models/bridges/alder-branch.cfg",
     ss_command_sweep, SS_TAKES_FILE},
    {"bounds", SS_IN_BOUNDS, "the worst and the best rating over values that nobody knows",
     "Tries the bridge with the unknowns of the description, and those of --unknown, anywhere in what they\n"
     "can be: along each one, at the corners, spread over all of them, and then around the worst and the\n"
     "best. Says which of them to measure first. What it finds is the worst found in so many runs. An\n"
     "interrupt ends it with what it has. How to describe unknowns: docs/unknowns.md.",
     "sillspan bounds --unknown \"steels.car steel.fy=30 ksi..45 ksi\" models/bridges/alder-branch.cfg\n"
     "sillspan bounds --unknown \"bridge.joints.seam.shear=0.001 kip/in/in..1 kip/in/in log\" \\\n"
     "  --runs 100 models/bridges/alder-branch.cfg",
     ss_command_bounds, SS_TAKES_FILE},
    {"sample", SS_IN_SAMPLE, "ratings of random draws of values that nobody knows",
     "Draws the unknowns of the description, and those of --unknown, from their distributions, rates each\n"
     "draw, and shows how the ratings spread and what they go with. A range without a distribution counts\n"
     "as uniform. The share of draws below 1 is not a failure probability. The same seed draws the same\n"
     "values. An interrupt ends it with what it has.",
     "sillspan sample --unknown \"steels.car steel.fy=lognormal(42 ksi, 3 ksi)\" "
     "models/bridges/alder-branch.cfg\n"
     "sillspan sample --draws 1000 --seed 7 --format csv --table sample_draws \\\n"
     "  --unknown \"bridge.surfacing.thickness=2 in..8 in\" models/bridges/alder-branch.cfg",
     ss_command_sample, SS_TAKES_FILE},
    {"size", SS_IN_SIZE, "the concrete deck that lets a bridge reach its targets, beside other repairs",
     "Tries the decks that the description asks for under `sizing`: thickness, strength of the concrete,\n"
     "which lines act with it, pitch of the connectors, with and without props. Rates each, checks the cars\n"
     "while it is cast, the slab itself and its connectors, and sets it beside the bridge as it is and "
     "other\n"
     "repairs, the variants without a slab. Names the cheapest deck that passes, or the lightest where "
     "there\n"
     "are no prices, and what stops each of the others. How to describe it: docs/size.md.",
     "sillspan size models/bridges/quern-brook.cfg\n"
     "sillspan size --set sizing.shoring=without models/bridges/quern-brook.cfg",
     ss_command_size, SS_TAKES_FILE},
    {"draw", SS_IN_DRAW, "a figure of the bridge: plan, section, moments, rating, influence, sign",
     "Draws one figure as SVG, PDF or PNG for a report or a browser: of the bridge as described, with what "
     "was\n"
     "seen on it, the plan to scale, the cross-section at midlength from the plates of each line, or the\n"
     "main girders from the side on their bearings, with their taper and the daylight under them; or, with\n"
     "one truck driven over it, bending moment, shear or deflection along its lines, unfactored, and what\n"
     "resists it behind, or how the cars share a truck; or, of a rating, the factors along the girders and\n"
     "the sign that follows; or the influence surface of one effect over the plan, of what governs unless\n"
     "--of says which. How to read the figures: docs/figures.md.",
     "sillspan draw -o plan.svg models/bridges/alder-branch.cfg\n"
     "sillspan draw --figure section -o section.svg models/bridges/mallow-brook.cfg\n"
     "sillspan draw --figure elevation --units si -o girders.svg models/bridges/cold-creek.cfg\n"
     "sillspan draw --figure moment -o moment.pdf models/bridges/alder-branch.cfg\n"
     "sillspan draw --figure moment --of \"left edge\" -o edges.svg models/bridges/alder-branch.cfg\n"
     "sillspan draw --figure influence --of \"main girder of car north\" --at \"22 ft\" --effect shear \\\n"
     "    -o surface.svg models/bridges/alder-branch.cfg\n"
     "sillspan draw --figure plan --resolution 300 -o plan.png models/bridges/alder-branch.cfg",
     ss_command_draw, SS_TAKES_FILE},
    {"export", SS_IN_EXPORT, "the model and its results, or an influence surface, as a VTK file",
     "Writes a file of the open VTK XML format, an unstructured grid (.vtu) that general viewers of fields "
     "and\n"
     "programs read: nodes, lines and floor beams with their stiffness, springs of joints and bearings; the\n"
     "displacements and forces of the dead load, and the least and the most that each truck adds, as "
     "analyze\n"
     "has them. With --influence the influence surface of one probe of the description, or of one whose "
     "keys\n"
     "are given, over the deck instead. Units stand in the names. What is in the file: docs/export.md.",
     "sillspan export -o alder-branch.vtu models/bridges/alder-branch.cfg\n"
     "sillspan export --set rating.trucks=EV3 --units si -o ev3.vtu models/bridges/alder-branch.cfg\n"
     "sillspan export --influence \"north box at midspan\" -o box.vtu models/bridges/alder-branch.cfg\n"
     "sillspan export --influence \"car=south; line=stringer 2; x=21 ft; effect=moment\" \\\n"
     "  -o stringer.vtu models/bridges/alder-branch.cfg",
     ss_command_export, SS_TAKES_FILE},
    {"new", SS_IN_NEW, "write a commented description to begin with, from a few answers",
     "Asks about the bridge on a terminal, or takes the answers from options, and writes FILE: a whole\n"
     "description with a remark at every value. What was not answered is assumed and marked ASSUMED, to be\n"
     "replaced by what the tape shows. Condition and system factor are left open unless they are given.\n"
     "Away from a terminal nothing is asked. An existing file is kept, unless --force is given. --units\n"
     "also chooses the units of what is assumed: us unless it says si.",
     "sillspan new creek.cfg\n"
     "sillspan new --title \"Mill Run\" --cars 3 --length \"86 ft\" --bearings both --joint hinged "
     "mill-run.cfg\n"
     "sillspan new --units si --cars 1 --length \"18.3 m\" --condition fair --system 0.85 farm.cfg",
     ss_command_new, SS_TAKES_FILE},
    {"vehicles", SS_IN_VEHICLES, "list the built-in vehicles, or draw those that are named",
     "Lists every vehicle by class: weight, wheelbase, axle loads and distances. With names, shows each one\n"
     "from the side and to scale, with what varies, the other loadings that count under its name, and where\n"
     "the numbers come from. Upper and lower case, blanks and hyphens of a name do not count, and the 44 "
     "may\n"
     "be left out. No description is read; units are us unless --units says si.",
     "sillspan vehicles\n"
     "sillspan vehicles HS20 EV3 \"School bus\"\n"
     "sillspan vehicles --units si \"LM1 lane 1\"\n"
     "sillspan vehicles --format json NRL",
     ss_command_vehicles, SS_TAKES_NAMES},
};

const ss_command *ss_commands(int *count) {
    *count = (int)(sizeof commands / sizeof commands[0]);
    return commands;
}

const ss_command *ss_command_find(const char *name) {
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        if (strcmp(commands[i].name, name) == 0) {
            return &commands[i];
        }
    }
    return NULL;
}
