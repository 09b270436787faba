/* read_scan.h - a description cut into tokens: its values with their lines, and a plain text that libconfig
 * can be given safely. */
#ifndef SS_IO_READ_SCAN_H
#define SS_IO_READ_SCAN_H

#include "sillspan/description.h"

#include "io/read_source.h"

/** What is wrong with a value although reading can go on. */
enum {
    SS_SCAN_REPEATED = 1,   /**< its key stands in the group already, at line `other` */
    SS_SCAN_JOINED = 2,     /**< a text that follows a text, without a comma */
    SS_SCAN_UNQUOTED = 4,   /**< words, or a quantity with its unit, without quotes */
    SS_SCAN_IN_ARRAY = 8,   /**< a group or list inside [ ] */
    SS_SCAN_UNREADABLE = 16 /**< begins like a number and is none */
};

/** A value, in the order in which values begin. */
typedef struct ss_scan_value {
    ss_node_kind kind;
    unsigned wrong;       /**< of the marks above */
    int line, other;      /**< of the whole; that of the key where there is one */
    double number;        /**< numbers are read here, not by libconfig: no overflow, no locale */
    size_t begin, length; /**< its bytes in the source; the name's for SS_SCAN_REPEATED */
} ss_scan_value;

typedef struct ss_scan {
    ss_text plain; /**< the same lines for libconfig: no comments, no includes, no numbers but 1, ( ) for [ ],
                      no repeated keys */
    ss_scan_value *values;
    int count, capacity;
} ss_scan;

/** SS_ERROR_DESCRIPTION: a fault was added and nothing can be read. `scan` is to be destroyed in every case.
 */
ss_status ss_scan_read(ss_scan *scan, const ss_source *source, ss_diag_list *diags);

/** Says what is wrong with a value, at `path`. */
ss_status ss_scan_complain(const ss_scan_value *value, const ss_source *source, const char *path,
                           ss_diag_list *diags);

/** Says what is wrong with any value, without paths: for a text that has no tree. */
ss_status ss_scan_complain_all(const ss_scan *scan, const ss_source *source, ss_diag_list *diags);

void ss_scan_destroy(ss_scan *scan);

#endif
