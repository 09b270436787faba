/* steel.c - minimum yield stress of the grades met in cars, and of unknown steel by its year. */
#include "model/steel.h"

#include <stddef.h>

#define KSI(value) ((value)*6894757.2931683608)
#define MPA(value) ((value)*1.0e6)

/* Specified minimum for the thinnest group (up to 3/4 in for A242 and A441, up to 16 mm for the S grades):
 * car plates are thinner than that. ASTM A7, A36, A242, A441, A572, A588 and EN 10025-2, from memory of the
 * standards. The names stand alone for nearest words. */
static const char *const names[] = {"A7",   "A36",  "A242", "A441", "A572 Gr 50",
                                    "A588", "S235", "S275", "S355"};
static const double yields[] = {KSI(33.0), KSI(36.0),  KSI(50.0),  KSI(50.0), KSI(50.0),
                                KSI(50.0), MPA(235.0), MPA(275.0), MPA(355.0)};

/* AASHTO Manual for Bridge Evaluation, table of minimum yield stress of steel of unknown grade by year of
 * construction, from memory. A boundary year belongs to the lower value. */
static const struct {
    int last_year;
    double fy;
} by_year[] = {{1904, KSI(26.0)}, {1936, KSI(30.0)}, {1963, KSI(33.0)}};

static char next_letter(const char **text) {
    while (**text == ' ' || **text == '-' || **text == '.' || **text == '\t') {
        (*text)++;
    }
    if (**text == '\0') {
        return '\0';
    }
    const char letter = *(*text)++;
    return letter >= 'a' && letter <= 'z' ? (char)(letter - 'a' + 'A') : letter;
}

static bool same(const char *a, const char *b) {
    for (;;) {
        const char p = next_letter(&a);
        const char q = next_letter(&b);
        if (p != q) {
            return false;
        }
        if (p == '\0') {
            return true;
        }
    }
}

const char *const *ss_steel_grades(int *count) {
    *count = (int)(sizeof names / sizeof names[0]);
    return names;
}

bool ss_steel_grade(const char *grade, double *fy, const char **name) {
    int count = 0;
    (void)ss_steel_grades(&count);
    for (int i = 0; i < count; i++) {
        if (!same(grade, names[i])) {
            continue;
        }
        *fy = yields[i];
        *name = names[i];
        return true;
    }
    return false;
}

double ss_steel_by_year(int year) {
    for (size_t i = 0; i < sizeof by_year / sizeof by_year[0]; i++) {
        if (year <= by_year[i].last_year) {
            return by_year[i].fy;
        }
    }
    return KSI(36.0);
}
