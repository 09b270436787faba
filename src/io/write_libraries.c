/* write_libraries.c - the versions of the libraries that files are read and written with. */
#include "sillspan/libraries.h"

#include <jansson.h>
#include <libconfig.h>
#include <stdio.h>

const char *ss_libraries_description(char *buffer, size_t size) {
    snprintf(buffer, size, "libconfig %d.%d", LIBCONFIG_VER_MAJOR, LIBCONFIG_VER_MINOR);
    return buffer;
}

const char *ss_libraries_json(char *buffer, size_t size) {
    snprintf(buffer, size, "jansson %s", jansson_version_str());
    return buffer;
}
