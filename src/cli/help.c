/* help.c - the help texts, made from the tables of commands and options, and the versions. */
#include <stdio.h>
#include <string.h>

#include "cli/options.h"
#include "cli/ranks.h"
#include "sillspan/libraries.h"
#include "sillspan/version.h"

static const ss_exit_status exits[] = {
    {SS_EXIT_DONE, "done"},
    {SS_EXIT_NOT_MET, "done, and what --require asks is not met"},
    {SS_EXIT_USAGE, "the command line is wrong"},
    {SS_EXIT_DESCRIPTION, "the description has faults; nothing was computed"},
    {SS_EXIT_ANALYSIS,
     "the analysis failed: the bridge, or a part of it, is free to move or tips by itself, or a "
     "check failed"},
    {SS_EXIT_FILE, "a file cannot be read or written"},
    {SS_EXIT_INTERNAL, "a fault of the program, or no memory left"},
    {SS_EXIT_INTERRUPTED, "interrupted; what was finished is told of"},
};

const ss_exit_status *ss_exit_statuses(int *count) {
    *count = (int)(sizeof exits / sizeof exits[0]);
    return exits;
}

const char *ss_operands_words(const ss_command *command) {
    switch (command->operands) {
    case SS_TAKES_BRIDGES: return "[options] FILE...";
    case SS_TAKES_FILE: return "[options] FILE";
    case SS_TAKES_NAMES: return "[options] [NAME...]";
    case SS_TAKES_NOTHING: break;
    }
    return "[options]";
}

static void print_exits(bool several) {
    printf("Exit status\n");
    for (size_t i = 0; i < sizeof exits / sizeof exits[0]; i++) {
        printf(" %3d  %s\n", exits[i].status, exits[i].meaning);
    }
    if (several) {
        printf("  Of several files, the highest that any of them would have by itself.\n");
    }
}

static void print_option(const ss_option *option) {
    char left[80];
    char letter[8] = "    ";
    if (option->letter != 0) {
        snprintf(letter, sizeof letter, "-%c, ", option->letter);
    }
    snprintf(left, sizeof left, "%s--%s%s%s", letter, option->name, option->value == NULL ? "" : " ",
             option->value == NULL ? "" : option->value);
    printf("  %-26s %s\n", left, option->help);
    if (option->fallback != NULL) {
        printf("  %-26s default: %s\n", "", option->fallback);
    }
}

static void print_options(int commands) {
    int count = 0;
    const ss_option *options = ss_options(&count);
    printf("Options\n");
    for (int i = 0; i < count; i++) {
        if ((options[i].commands & commands) != 0) {
            print_option(&options[i]);
        }
    }
}

static void print_program(void) {
    int count = 0;
    const ss_command *commands = ss_commands(&count);
    printf("sillspan - load rating of bridges made of railroad flatcars set side by side\n"
           "\n"
           "  sillspan <command> [options] FILE...\n"
           "  sillspan help [command]\n"
           "\n"
           "FILE describes a bridge: docs/description.md lists every key. Of several files, or of a folder\n"
           "with files that end in .cfg, each bridge gets one row of a table.\n"
           "\n"
           "Commands\n");
    for (int i = 0; i < count; i++) {
        printf("  %-10s %s\n", commands[i].name, commands[i].summary);
    }
    printf("  %-10s %s\n\n", "help", "this text, or that of one command");
    print_options(SS_IN_ALL);
    printf("\n");
    print_exits(true);
    printf("\nExamples\n");
    for (int i = 0; i < count; i++) {
        printf("  %.*s\n", (int)strcspn(commands[i].example, "\n"), commands[i].example);
    }
}

void ss_help_print(const ss_command *command) {
    if (command == NULL) {
        print_program();
        return;
    }
    printf("sillspan %s - %s\n\n  sillspan %s %s\n\n%s\n\n", command->name, command->summary, command->name,
           ss_operands_words(command), command->text);
    print_options(command->bit);
    printf("\n");
    print_exits(command->operands == SS_TAKES_BRIDGES);
    printf("\nExamples\n");
    for (const char *at = command->example; *at != '\0';) {
        const size_t length = strcspn(at, "\n");
        printf("  %.*s\n", (int)length, at);
        at += length;
        at += *at == '\n';
    }
}

void ss_version_print(void) {
    char algebra[64];
    char description[64];
    char json[64];
    char drawing[64];
    char ranks[64];
    printf("sillspan %s\n%s\n%s\n%s\n", SS_VERSION, ss_libraries_algebra(algebra, sizeof algebra),
           ss_libraries_description(description, sizeof description), ss_libraries_json(json, sizeof json));
    if (ss_libraries_drawing(drawing, sizeof drawing) != NULL) {
        printf("%s\n", drawing);
    }
    if (ss_ranks_library(ranks, sizeof ranks) != NULL) {
        printf("%s\n", ranks);
    }
}
