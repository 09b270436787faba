/* probe.h - a probe that is asked for on a command line. */
#ifndef SILLSPAN_PROBE_H
#define SILLSPAN_PROBE_H

#include "sillspan/description.h"

/** Adds a probe called `name` to a description that has not been checked yet: `text` has keys of `probes`
 * with their values, "car=north; line=main girder; x=30 ft; effect=moment". SS_ERROR_DESCRIPTION: it has not
 * that form, a fault in `diags`. */
ss_status ss_probe_add(ss_description *description, const char *name, const char *text, ss_diag_list *diags);

#endif
