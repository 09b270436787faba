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
     ss_command_check},
    {"analyze", SS_IN_ANALYZE, "dead load and one truck at a time: forces, deflections, bearings",
     "Puts the dead load on in its stages, then drives each truck over every place of the roadway, both\n"
     "ways, one at a time, with bearings that push and cannot pull. Shows the largest effects of every\n"
     "member and where the truck then stands, what bearings and joints carry, how the cars share a truck,\n"
     "and the probes and placed loads that the description asks for. No load factors, no dynamic allowance.",
     "sillspan analyze models/bridges/alder-branch.cfg\n"
     "sillspan analyze --format json -o results.json models/bridges/alder-branch.cfg\n"
     "sillspan analyze --set bridge.bearings.ends.gap=\"1/2 in\" models/bridges/alder-branch.cfg",
     ss_command_analyze},
    {"rate", SS_IN_RATE, "rating factors: which truck, which member, which place, and why",
     "Everything that analyze does, and the rating factor of every line, floor beam and joint for every\n"
     "truck: the smallest multiple of the truck at which the factored effect reaches what the place can\n"
     "carry. The description must give rating.condition and rating.system; they are never assumed.",
     "sillspan rate models/bridges/alder-branch.cfg\n"
     "sillspan rate --require 1.0 --quiet models/bridges/alder-branch.cfg\n"
     "sillspan rate --set rating.condition=poor models/bridges/alder-branch.cfg",
     ss_command_rate},
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
