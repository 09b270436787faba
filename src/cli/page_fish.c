/* page_fish.c - completion for fish. */
#include "cli/pages.h"
#include "sillspan/vehicle.h"

static void add_quoted(ss_text *out, const char *text) {
    ss_text_add(out, "'");
    ss_page_escape(out, text, "'\\");
    ss_text_add(out, "'");
}

/* The commands that have the option, as fish asks for them. */
static void add_condition(ss_text *out, int wanted) {
    int count = 0;
    const ss_command *commands = ss_commands(&count);
    ss_text_add(out, " -n '__fish_seen_subcommand_from");
    for (int i = 0; i < count; i++) {
        if ((commands[i].bit & wanted) != 0) {
            ss_text_printf(out, " %s", commands[i].name);
        }
    }
    ss_text_add(out, "'");
}

static void add_option(ss_text *out, const ss_option *option) {
    ss_text_add(out, "complete -c sillspan");
    add_condition(out, option->commands);
    ss_text_printf(out, " -l %s", option->name);
    if (option->letter != 0) {
        ss_text_printf(out, " -s %c", option->letter);
    }
    if (option->kind != SS_OPTION_FLAG) {
        ss_text_add(out, ss_page_takes_file(option) ? " -r -F" : " -x");
    }
    if (option->choices != NULL) {
        ss_text_add(out, " -a \"");
        for (const char *at = option->choices; *at != '\0'; at++) {
            if (*at == ' ') {
                ss_text_add(out, "\\\\");
            }
            ss_text_add_bytes(out, *at == '|' ? " " : at, 1);
        }
        ss_text_add(out, "\"");
    }
    ss_text_add(out, " -d ");
    add_quoted(out, option->help);
    ss_text_add(out, "\n");
}

static void add_vehicles(ss_text *out, const ss_command *command) {
    int count = 0;
    const ss_vehicle *vehicles = ss_vehicles(&count);
    for (int i = 0; i < count; i++) {
        ss_text_add(out, "complete -c sillspan");
        add_condition(out, command->bit);
        ss_text_add(out, " -f -a \"");
        ss_page_escape(out, vehicles[i].name, "\"$\\");
        ss_text_add(out, "\"\n");
    }
}

void ss_page_fish(ss_text *out) {
    int count = 0;
    int option_count = 0;
    const ss_command *commands = ss_commands(&count);
    const ss_option *options = ss_options(&option_count);
    ss_text_add(
        out,
        "# Completion of sillspan for fish; written by the build from the tables of commands and options.\n\n"
        "complete -c sillspan -n __fish_use_subcommand -f\n");
    for (int i = 0; i < count; i++) {
        ss_text_printf(out, "complete -c sillspan -n __fish_use_subcommand -a %s -d ", commands[i].name);
        add_quoted(out, commands[i].summary);
        ss_text_add(out, "\n");
    }
    ss_text_add(
        out, "complete -c sillspan -n __fish_use_subcommand -a help -d 'the help, or that of one command'\n"
             "complete -c sillspan -n '__fish_seen_subcommand_from help' -f -a '");
    for (int i = 0; i < count; i++) {
        ss_text_printf(out, "%s%s", i == 0 ? "" : " ", commands[i].name);
    }
    ss_text_add(out, "'\n");
    for (int i = 0; i < option_count; i++) {
        add_option(out, &options[i]);
    }
    for (int i = 0; i < count; i++) {
        if (commands[i].operands == SS_TAKES_NAMES) {
            add_vehicles(out, &commands[i]);
        }
    }
}
