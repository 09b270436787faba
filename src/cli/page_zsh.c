/* page_zsh.c - completion for zsh. */
#include <string.h>

#include "cli/pages.h"
#include "sillspan/vehicle.h"

/* 'text' inside single quotes, with what the argument functions of zsh give a meaning escaped. */
static void add_quoted(ss_text *out, const char *text) {
    for (const char *at = text; *at != '\0'; at++) {
        if (*at == '\'') {
            ss_text_add(out, "'\\''");
            continue;
        }
        if (strchr("[]:\\", *at) != NULL) {
            ss_text_add(out, "\\");
        }
        ss_text_add_bytes(out, at, 1);
    }
}

static void add_action(ss_text *out, const ss_option *option) {
    ss_text_add(out, ":");
    add_quoted(out, option->value);
    ss_text_add(out, ":");
    if (option->choices != NULL) {
        ss_text_add(out, "(");
        for (const char *at = option->choices; *at != '\0'; at++) {
            if (*at == ' ') {
                ss_text_add(out, "\\");
            }
            ss_text_add_bytes(out, *at == '|' ? " " : at, 1);
        }
        ss_text_add(out, ")");
    } else {
        ss_text_add(out, ss_page_takes_file(option) ? "_files" : " ");
    }
}

static void add_option(ss_text *out, const ss_option *option) {
    const bool value = option->kind != SS_OPTION_FLAG;
    const char *many = option->kind == SS_OPTION_ASSIGNMENT ? "*" : "";
    for (int form = 0; form < (option->letter != 0 ? 2 : 1); form++) {
        ss_text_printf(out, "        '%s", many);
        if (form == 0) {
            ss_text_printf(out, "--%s%s", option->name, value ? "=" : "");
        } else {
            ss_text_printf(out, "-%c%s", option->letter, value ? "+" : "");
        }
        ss_text_add(out, "[");
        add_quoted(out, option->help);
        ss_text_add(out, "]");
        if (value) {
            add_action(out, option);
        }
        ss_text_add(out, "' \\\n");
    }
}

static void add_operands(ss_text *out, const ss_command *command) {
    int count = 0;
    const ss_vehicle *vehicles = ss_vehicles(&count);
    switch (command->operands) {
    case SS_TAKES_NOTHING: ss_text_add(out, "        && return\n"); break;
    case SS_TAKES_FILE: ss_text_add(out, "        '1:description:_files -g \"*.cfg\"'\n"); break;
    case SS_TAKES_BRIDGES: ss_text_add(out, "        '*:description:_files -g \"*.cfg\"'\n"); break;
    case SS_TAKES_NAMES:
        ss_text_add(out, "        '*:vehicle:(");
        for (int i = 0; i < count; i++) {
            ss_text_add(out, i == 0 ? "" : " ");
            ss_page_escape(out, vehicles[i].name, " ()\\");
        }
        ss_text_add(out, ")'\n");
        break;
    }
}

void ss_page_zsh(ss_text *out) {
    int count = 0;
    int option_count = 0;
    const ss_command *commands = ss_commands(&count);
    const ss_option *options = ss_options(&option_count);
    ss_text_add(
        out,
        "#compdef sillspan\n"
        "# Completion of sillspan for zsh; written by the build from the tables of commands and options.\n\n"
        "local -a commands\ncommands=(\n");
    for (int i = 0; i < count; i++) {
        ss_text_printf(out, "    '%s:", commands[i].name);
        add_quoted(out, commands[i].summary);
        ss_text_add(out, "'\n");
    }
    ss_text_add(out, "    'help:the help, or that of one command'\n)\n"
                     "if (( CURRENT == 2 )); then\n    _describe command commands\n    return\nfi\n"
                     "local command=$words[2]\nshift words\n(( CURRENT-- ))\ncase $command in\n");
    for (int i = 0; i < count; i++) {
        ss_text_printf(out, "%s)\n    _arguments -s -S \\\n", commands[i].name);
        for (int k = 0; k < option_count; k++) {
            if ((options[k].commands & commands[i].bit) != 0) {
                add_option(out, &options[k]);
            }
        }
        add_operands(out, &commands[i]);
        ss_text_add(out, "    ;;\n");
    }
    ss_text_add(out, "help)\n    _describe command commands\n    ;;\nesac\n");
}
