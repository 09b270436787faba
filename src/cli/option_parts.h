/* option_parts.h - what the reading of the command line is made of. */
#ifndef SS_CLI_OPTION_PARTS_H
#define SS_CLI_OPTION_PARTS_H

#include "cli/options.h"

/** Leaves `what "word"; the nearest is right` in *error, with the word made harmless; `right` may be NULL.
 * False.
 */
bool ss_option_complain(ss_usage_error *error, const char *what, const char *word, const char *right);

/** The row of an option that goes with a command, or NULL: --format has several. */
const ss_option *ss_option_of(const char *name, int command);

/** Takes the word of an option with choices; --format waits until the command is known. */
bool ss_option_choose(const ss_option *option, const char *value, ss_invocation *out, ss_usage_error *error);

/** Settles the format, by --format and how the name of the output ends, once the command is known. */
bool ss_option_format(ss_invocation *out, ss_usage_error *error);

/** What --figure means to the command: a choice of `draw`, or the file of a study's figure by its ending. */
bool ss_option_figure(ss_invocation *out, ss_usage_error *error);

/** The studies that --studies names, and what goes with them. */
bool ss_option_studies(ss_invocation *out, ss_usage_error *error);

#endif
