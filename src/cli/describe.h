/* describe.h - the description as asked for: the file, what --set changes in it, and the variant that is
 * picked.
 */
#ifndef SS_CLI_DESCRIBE_H
#define SS_CLI_DESCRIBE_H

#include "cli/options.h"
#include "sillspan/description.h"

/** Reads the file, applies --set and checks all of it, the names in variants too. SS_ERROR_DESCRIPTION:
 * faults are in `diags`, and `out` may be partly there; it must be destroyed in any case. */
ss_status ss_describe_read(const ss_invocation *asked, ss_description *out, ss_diag_list *diags,
                           ss_error *error);

/** The name of the probe that --influence is about: what it says, or that of the probe that its keys made. */
const char *ss_describe_probe(const ss_invocation *asked);

/** A copy without variants, or with the one called `name` put over it; `name` NULL: none, and *variant is
 * NULL. An unknown name is a fault. The copy must not outlive `base`. */
ss_status ss_describe_pick(const ss_description *base, const char *name, const ss_node **variant,
                           ss_description *out, ss_diag_list *diags);

#endif
