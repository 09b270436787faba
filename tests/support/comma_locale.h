/* comma_locale.h - turns on a locale with a decimal comma. */
#ifndef TEST_COMMA_LOCALE_H
#define TEST_COMMA_LOCALE_H

#include <locale.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

/** False, having said so, when there is none. "comma" is made by the build (LOCPATH says where); the others
 * may be on the machine. */
static inline bool enter_comma_locale(void) {
    static const char *const names[] = {"comma", "de_DE.UTF-8", "fr_FR.UTF-8", "nl_NL.UTF-8"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (setlocale(LC_NUMERIC, names[i]) != NULL && strcmp(localeconv()->decimal_point, ",") == 0) {
            return true;
        }
    }
    printf("not run: no locale with a decimal comma here, and localedef could not make one\n");
    return false;
}

#endif
