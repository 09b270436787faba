/* page_bash.c - completion for bash. */
#include <string.h>

#include "cli/pages.h"
#include "sillspan/vehicle.h"

/* "--name" of every option of these commands, separated by blanks. */
static void add_options(ss_text *out, int commands) {
    int count = 0;
    const ss_option *options = ss_options(&count);
    for (int i = 0; i < count; i++) {
        if ((options[i].commands & commands) != 0) {
            ss_text_printf(out, " --%s", options[i].name);
            if (options[i].letter != 0) {
                ss_text_printf(out, " -%c", options[i].letter);
            }
        }
    }
}

/* Whether an earlier row has the same name: of what the option takes with other commands. */
static bool is_again(const ss_option *options, int row) {
    for (int i = 0; i < row; i++) {
        if (strcmp(options[i].name, options[row].name) == 0) {
            return true;
        }
    }
    return false;
}

/* How the value of an option is completed. */
static void add_offer(ss_text *out, const ss_option *option) {
    if (option->choices != NULL) {
        /* One a line, so that a choice may hold a blank. */
        ss_text_add(out, "_sillspan_choices $'");
        for (const char *at = option->choices; *at != '\0'; at++) {
            if (*at == '|') {
                ss_text_add(out, "\\n");
            } else {
                ss_text_add_bytes(out, at, 1);
            }
        }
        ss_text_add(out, "' \"$current\"; ");
    } else if (ss_page_takes_file(option)) {
        ss_text_add(out, "_sillspan_files \"$current\" all; ");
    }
}

/* --name|-n) how its value is completed ;; by command where it has several rows. */
static void add_value(ss_text *out, const ss_option *options, int count, int row) {
    const ss_option *const option = &options[row];
    int command_count = 0;
    const ss_command *const commands = ss_commands(&command_count);
    if (option->kind == SS_OPTION_FLAG || is_again(options, row)) {
        return;
    }
    ss_text_printf(out, "    --%s", option->name);
    if (option->letter != 0) {
        ss_text_printf(out, "|-%c", option->letter);
    }
    ss_text_add(out, ") ");
    for (int i = row + 1; i < count; i++) {
        for (int k = 0; strcmp(options[i].name, option->name) == 0 && k < command_count; k++) {
            if ((options[i].commands & commands[k].bit) != 0) {
                ss_text_printf(out, "[[ $command == %s ]] && { ", commands[k].name);
                add_offer(out, &options[i]);
                ss_text_add(out, "return; }\n        ");
            }
        }
    }
    add_offer(out, option);
    ss_text_add(out, "return ;;\n");
}

/* Whether a word takes the next one as its value. */
static void add_takers(ss_text *out) {
    int count = 0;
    const ss_option *options = ss_options(&count);
    const char *between = "";
    for (int i = 0; i < count; i++) {
        if (options[i].kind != SS_OPTION_FLAG && !is_again(options, i)) {
            ss_text_printf(out, "%s--%s", between, options[i].name);
            if (options[i].letter != 0) {
                ss_text_printf(out, "|-%c", options[i].letter);
            }
            between = "|";
        }
    }
}

/* The names of the built-in vehicles, one a line, as $'...' takes them. */
static void add_vehicles(ss_text *out) {
    int count = 0;
    const ss_vehicle *vehicles = ss_vehicles(&count);
    for (int i = 0; i < count; i++) {
        ss_text_add(out, i == 0 ? "" : "\\n");
        ss_page_escape(out, vehicles[i].name, "'\\");
    }
}

/* Everything up to the list of options that take a value. */
static const char head[] =
    "# Completion of sillspan for bash; written by the build from the tables of commands and options.\n\n"
    "_sillspan_choices() {\n"
    "    local choice\n"
    "    COMPREPLY=()\n"
    "    while IFS= read -r choice; do\n"
    "        [[ $choice == \"$2\"* ]] && COMPREPLY+=(\"$(printf %q \"$choice\")\")\n"
    "    done <<<\"$1\"\n"
    "}\n\n"
    "# Folders, and files that end in .cfg; with \"all\" every file.\n"
    "_sillspan_files() {\n"
    "    local name\n"
    "    COMPREPLY=()\n"
    "    compopt -o filenames 2>/dev/null\n"
    "    while IFS= read -r name; do\n"
    "        [[ -d $name || $name == *.cfg || $2 == all ]] && COMPREPLY+=(\"$name\")\n"
    "    done < <(compgen -f -- \"$1\")\n"
    "}\n\n"
    "_sillspan() {\n"
    "    local current=${COMP_WORDS[COMP_CWORD]} previous=${COMP_WORDS[COMP_CWORD-1]} command= i\n"
    "    COMPREPLY=()\n"
    "    # Bash takes --format=json for three words.\n"
    "    if [[ $current == = ]]; then current=\n"
    "    elif [[ $previous == = ]]; then previous=${COMP_WORDS[COMP_CWORD-2]}; fi\n"
    "    for ((i = 1; i < COMP_CWORD; i++)); do\n"
    "        case ${COMP_WORDS[i]} in\n"
    "        ";

/* What is offered behind a command: its options after a dash, else names or files. */
static void add_command(ss_text *out, const ss_command *command) {
    ss_text_printf(out,
                   "    %s)\n        if [[ $current == -* ]]; then\n"
                   "            COMPREPLY=($(compgen -W \"",
                   command->name);
    add_options(out, command->bit);
    ss_text_add(out, "\" -- \"$current\"))\n        else\n");
    if (command->operands == SS_TAKES_NAMES) {
        ss_text_add(out, "            _sillspan_choices $'");
        add_vehicles(out);
        ss_text_add(out, "' \"$current\"\n        fi ;;\n");
    } else {
        ss_text_add(out, command->operands == SS_TAKES_NOTHING
                             ? "            :\n        fi ;;\n"
                             : "            _sillspan_files \"$current\" cfg\n        fi ;;\n");
    }
}

void ss_page_bash(ss_text *out) {
    int count = 0;
    int option_count = 0;
    const ss_command *commands = ss_commands(&count);
    const ss_option *options = ss_options(&option_count);
    ss_text_add(out, head);
    add_takers(out);
    ss_text_add(out, ") ((i++)) ;;\n        ");
    for (int i = 0; i < count; i++) {
        ss_text_printf(out, "%s|", commands[i].name);
    }
    ss_text_add(out,
                "help) command=${COMP_WORDS[i]}; break ;;\n        esac\n    done\n    case $previous in\n");
    for (int i = 0; i < option_count; i++) {
        add_value(out, options, option_count, i);
    }
    ss_text_add(out, "    esac\n    case $command in\n");
    for (int i = 0; i < count; i++) {
        add_command(out, &commands[i]);
    }
    ss_text_add(out, "    help|'')\n        COMPREPLY=($(compgen -W \"");
    for (int i = 0; i < count; i++) {
        ss_text_printf(out, "%s ", commands[i].name);
    }
    ss_text_add(out, "$([[ -z $command ]] && echo help --help --version)\" -- \"$current\")) ;;\n"
                     "    esac\n}\n\n"
                     "complete -F _sillspan sillspan\n");
}
