/* page_man.c - the manual page in the man macros of troff. */
#include <string.h>

#include "cli/pages.h"
#include "sillspan/version.h"

/* Text as troff takes it: backslashes and dashes as themselves, no line that begins with a control character.
 */
static void add(ss_text *out, const char *text) {
    bool first = true;
    for (const char *at = text; *at != '\0'; at++) {
        if (first && (*at == '.' || *at == '\'')) {
            ss_text_add(out, "\\&");
        }
        switch (*at) {
        case '\\': ss_text_add(out, "\\e"); break;
        case '-': ss_text_add(out, "\\-"); break;
        case '\'': ss_text_add(out, "\\(aq"); break;
        case '"': ss_text_add(out, "\\(dq"); break;
        case '^': ss_text_add(out, "\\(ha"); break;
        case '~': ss_text_add(out, "\\(ti"); break;
        case '`': ss_text_add(out, "\\(ga"); break;
        default: ss_text_add_bytes(out, at, 1); break;
        }
        first = *at == '\n';
    }
}

static void add_bold(ss_text *out, const char *before, const char *text) {
    ss_text_add(out, "\\fB");
    add(out, before);
    add(out, text);
    ss_text_add(out, "\\fR");
}

static void add_option(ss_text *out, const ss_option *option, int commands) {
    ss_text_add(out, ".TP\n");
    if (option->letter != 0) {
        const char letter[2] = {option->letter, '\0'};
        add_bold(out, "-", letter);
        ss_text_add(out, ", ");
    }
    add_bold(out, "--", option->name);
    if (option->value != NULL) {
        ss_text_add(out, " \\fI");
        add(out, option->value);
        ss_text_add(out, "\\fR");
    }
    ss_text_add(out, "\n");
    add(out, option->help);
    if (option->fallback != NULL) {
        ss_text_add(out, " (default: ");
        add(out, option->fallback);
        ss_text_add(out, ")");
    }
    ss_text_add(out, ".\n");
    int count = 0;
    const ss_command *all = ss_commands(&count);
    if ((option->commands & commands) == commands) {
        return;
    }
    ss_text_add(out, "Only for");
    const char *between = " ";
    for (int i = 0; i < count; i++) {
        if ((option->commands & all[i].bit) != 0) {
            ss_text_add(out, between);
            add_bold(out, "", all[i].name);
            between = ", ";
        }
    }
    ss_text_add(out, ".\n");
}

static void add_commands(ss_text *out) {
    int count = 0;
    const ss_command *commands = ss_commands(&count);
    ss_text_add(out, ".SH COMMANDS\n");
    for (int i = 0; i < count; i++) {
        ss_text_add(out, ".SS ");
        ss_text_add(out, "\"sillspan ");
        add(out, commands[i].name);
        ss_text_add(out, " ");
        add(out, ss_operands_words(&commands[i]));
        ss_text_add(out, "\"\n");
        add(out, commands[i].text);
        ss_text_add(out, "\n");
    }
    ss_text_add(out, ".SS \"sillspan help [command]\"\nThe program's help, or that of one command.\n");
}

static void add_options(ss_text *out) {
    int count = 0;
    int command_count = 0;
    int every = 0;
    const ss_option *options = ss_options(&count);
    const ss_command *commands = ss_commands(&command_count);
    for (int i = 0; i < command_count; i++) {
        every |= commands[i].bit;
    }
    ss_text_add(out, ".SH OPTIONS\n");
    for (int i = 0; i < count; i++) {
        add_option(out, &options[i], every);
    }
}

static void add_exits(ss_text *out) {
    int count = 0;
    const ss_exit_status *exits = ss_exit_statuses(&count);
    ss_text_add(out, ".SH EXIT STATUS\n");
    for (int i = 0; i < count; i++) {
        ss_text_printf(out, ".TP\n\\fB%d\\fR\n", exits[i].status);
        add(out, exits[i].meaning);
        ss_text_add(out, "\n");
    }
    ss_text_add(out, ".PP\nOf several files, the highest that any of them would have by itself.\n");
}

static void add_examples(ss_text *out) {
    int count = 0;
    const ss_command *commands = ss_commands(&count);
    ss_text_add(out, ".SH EXAMPLES\n");
    for (int i = 0; i < count; i++) {
        ss_text_add(out, i == 0 ? ".EX\n" : ".PP\n.EX\n");
        add(out, commands[i].example);
        ss_text_add(out, "\n.EE\n");
    }
}

void ss_page_man(ss_text *out) {
    ss_text_add(
        out,
        ".\\\" Written by the build from the tables of commands and options.\n"
        ".TH SILLSPAN 1 \"\" \"sillspan " SS_VERSION "\" \"User commands\"\n"
        ".SH NAME\n"
        "sillspan \\- load rating of bridges made of railroad flatcars set side by side\n"
        ".SH SYNOPSIS\n"
        "\\fBsillspan\\fR \\fIcommand\\fR [\\fIoptions\\fR] \\fIFILE\\fR...\n"
        ".PP\n"
        "\\fBsillspan help\\fR [\\fIcommand\\fR]\n"
        ".SH DESCRIPTION\n"
        "Each \\fIFILE\\fR describes a bridge. Results go to standard output, everything else to standard\n"
        "error. Of several files, or of a folder with files that end in .cfg, each bridge gets one row of a\n"
        "table. The output is an aid to a licensed engineer, and never a permit to cross.\n");
    add_commands(out);
    add_options(out);
    add_exits(out);
    add_examples(out);
    ss_text_add(out,
                ".SH ENVIRONMENT\n.TP\n\\fBNO_COLOR\\fR\nNo bold headings on a terminal when it is set.\n"
                ".TP\n\\fBOMP_NUM_THREADS\\fR\nHow many threads may work; the results do not depend on it.\n"
                ".SH SEE ALSO\nThe pages installed with the program, index.md first: the description, the "
                "theory with\n"
                "its sources, the limits.\n");
}
