/* fuzz_reader.c - any bytes at all are read, checked and set without harm, and SS_OK means that nothing was
 * wrong. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "sillspan/reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void must(int holds, const char *what) {
    if (holds) {
        return;
    }
    fprintf(stderr, "broken: %s\n", what);
    abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    const long live = ss_memory_live();
    ss_description d;
    ss_diag_list diags = {0};
    const ss_status read = ss_description_read_text("fuzz.cfg", (const char *)data, size, &d, &diags, NULL);
    must(read == SS_OK || read == SS_ERROR_DESCRIPTION || read == SS_ERROR_LIMIT,
         "no other status is possible");
    must((read == SS_OK) == (diags.faults == 0), "SS_OK and no fault go together");
    must(read != SS_OK || d.root != NULL, "SS_OK gives a tree");
    if (d.root != NULL) {
        const ss_status check = ss_description_check(&d, &diags);
        must((check == SS_OK) == (diags.faults == 0), "the check passes when there is no fault");
        const ss_status set = ss_description_set(&d, "rating.system", "0.91", &diags);
        must(set == SS_OK || set == SS_ERROR_DESCRIPTION, "setting works or says why not");
        ss_diag_sort(&diags);
        for (int i = 0; i < diags.count; i++) {
            must(diags.items[i].message[0] != '\0', "every remark has words");
        }
    }
    ss_diag_destroy(&diags);
    ss_description_destroy(&d);
    must(ss_memory_live() == live, "all memory is given back");
    return 0;
}
