/* rig.h - the whole pipe of the library on one of the models of models/verification. */
#ifndef VERIFICATION_RIG_H
#define VERIFICATION_RIG_H

#include "sillspan/cases.h"
#include "sillspan/envelope.h"
#include "support/exact_units.h"
#include "verification/check.h"

/** A value set in the description before it is resolved. */
typedef struct rig_setting {
    const char *path, *value;
} rig_setting;

typedef struct rig_options {
    const rig_setting *settings;
    int count;
    int refine; /**< of the mesh; 0 counts as 1 */
} rig_options;

typedef struct rig {
    ss_description description;
    ss_diag_list diags;
    ss_bridge bridge;
    ss_mesh mesh;
    ss_grillage *grillage;
    ss_permanent permanent;
    ss_case_list cases;
} rig;

/** A model (file name without folder and extension) read, checked, resolved, meshed, factored, its dead load
 * and cases solved. On failure says why on standard error, returns false, and leaves nothing to close. */
bool rig_open(rig *r, const char *model, const rig_options *options);
void rig_close(rig *r);

/** Value of a probe in a case, SI. Not-a-number, with a message, when either does not exist. */
double rig_probe(const rig *r, const char *case_name, const char *probe);

/** The same in a display unit of US. */
double rig_probe_us(const rig *r, const char *case_name, const char *probe);

/** What a probe should read in a case, in a display unit of US. */
typedef struct rig_row {
    const char *case_name, *probe;
    double expected;
} rig_row;

/** Opens a model and adds to the check each row beside what the library says; false when the model fails. */
bool rig_check(check *out, const char *model, const rig_options *options, const rig_row *rows, int count);

#define RIG_COUNT(rows) ((int)(sizeof(rows) / sizeof((rows)[0])))

/** Says on standard error what failed. */
void rig_complain(const char *what, const ss_error *error);

/** Index of a line by the names of car and line, or -1. */
int rig_line(const ss_bridge *bridge, const char *car, const char *line);

#endif
