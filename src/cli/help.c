/* help.c - the help texts, made from the tables of commands and options, and the versions. */
#include <stdio.h>
#include <string.h>

#include "cli/options.h"
#include "sillspan/libraries.h"
#include "sillspan/version.h"

static const char exits[] = "Exit status\n"
                            "   0  done\n"
                            "   1  done, and what --require asks is not met\n"
                            "   2  the command line is wrong\n"
                            "   3  the description has faults; nothing was computed\n"
                            "   4  the analysis failed: the bridge, or a part of it, is free to move or tips "
                            "by itself, or a check failed\n"
                            "   5  a file cannot be read or written\n"
                            "  70  a fault of the program, or no memory left\n";

static void print_option(const ss_option *option) {
    char left[80];
    char letter[8] = "    ";
    if (option->letter != 0) {
        snprintf(letter, sizeof letter, "-%c, ", option->letter);
    }
    snprintf(left, sizeof left, "%s--%s%s%s", letter, option->name, option->value == NULL ? "" : " ",
             option->value == NULL ? "" : option->value);
    printf("  %-24s %s\n", left, option->help);
    if (option->fallback != NULL) {
        printf("  %-24s default: %s\n", "", option->fallback);
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
           "  sillspan <command> [options] FILE\n"
           "  sillspan help [command]\n"
           "\n"
           "FILE describes the bridge: docs/description.md lists every key.\n"
           "\n"
           "Commands\n");
    for (int i = 0; i < count; i++) {
        printf("  %-10s %s\n", commands[i].name, commands[i].summary);
    }
    printf("  %-10s %s\n\n", "help", "this text, or that of one command");
    print_options(SS_IN_ALL);
    printf("\n%s\nExamples\n", exits);
    for (int i = 0; i < count; i++) {
        printf("  %.*s\n", (int)strcspn(commands[i].example, "\n"), commands[i].example);
    }
}

void ss_help_print(const ss_command *command) {
    if (command == NULL) {
        print_program();
        return;
    }
    printf("sillspan %s - %s\n\n  sillspan %s [options] FILE\n\n%s\n\n", command->name, command->summary,
           command->name, command->text);
    print_options(command->bit);
    printf("\n%s\nExamples\n", exits);
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
    printf("sillspan %s\n%s\n%s\n%s\n", SS_VERSION, ss_libraries_algebra(algebra, sizeof algebra),
           ss_libraries_description(description, sizeof description), ss_libraries_json(json, sizeof json));
}
