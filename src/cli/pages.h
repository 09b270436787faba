/* pages.h - the manual page and the shells' completions, from the tables of commands and options. */
#ifndef SS_CLI_PAGES_H
#define SS_CLI_PAGES_H

#include "cli/options.h"
#include "sillspan/text.h"

void ss_page_man(ss_text *out);
void ss_page_bash(ss_text *out);
void ss_page_zsh(ss_text *out);
void ss_page_fish(ss_text *out);

/** Appends `text` with a backslash before each of the letters in `special`. */
void ss_page_escape(ss_text *out, const char *text, const char *special);

/** Whether an option's value is the name of a file. */
bool ss_page_takes_file(const ss_option *option);

#endif
