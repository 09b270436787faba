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
     "sillspan rate --set rating.condition=poor models/bridges/alder-branch.cfg",
     ss_command_rate, SS_TAKES_BRIDGES},
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
