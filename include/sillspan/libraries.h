/* libraries.h - the versions of the libraries that the program runs with. */
#ifndef SILLSPAN_LIBRARIES_H
#define SILLSPAN_LIBRARIES_H

#include <stddef.h>

/** "LAPACK 3.9.0", as the library itself tells at run time. Returns buffer. */
const char *ss_libraries_algebra(char *buffer, size_t size);

/** "libconfig 1.5", the version built against (it tells none at run time). Returns buffer. */
const char *ss_libraries_description(char *buffer, size_t size);

/** "jansson 2.14", at run time. Returns buffer. */
const char *ss_libraries_json(char *buffer, size_t size);

/** "cairo 1.16.0", at run time; NULL where PDF and PNG are not in this build. */
const char *ss_libraries_drawing(char *buffer, size_t size);

#endif
