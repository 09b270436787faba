/* slab_check.c - the list of a deck's checks, and the one that decides. */
#include "sillspan/slab_check.h"

#include <string.h>

#include "base/numeric.h"

/* Uses that differ by less than this share are equal, mirror images among them: the first counts. */
#define TIE 1e-9

bool ss_slab_check_add(ss_slab_checks *checks, ss_slab_part part, const char *where,
                       const ss_requirement *requirement) {
    if (checks->count == checks->capacity) {
        const int capacity = checks->capacity == 0 ? 32 : 2 * checks->capacity;
        ss_slab_check *const items = ss_arena_alloc(checks->arena, (size_t)capacity, sizeof *items);
        if (items == NULL) {
            return false;
        }
        if (checks->count > 0) {
            memcpy(items, checks->items, (size_t)checks->count * sizeof *items);
        }
        checks->items = items;
        checks->capacity = capacity;
    }
    checks->items[checks->count++] =
        (ss_slab_check){.part = part, .where = where, .requirement = *requirement};
    return true;
}

double ss_slab_check_use(const ss_slab_check *check) {
    const ss_requirement *const r = &check->requirement;
    if (r->why != NULL || isnan(r->found) || isnan(r->allowed)) {
        return SS_NAN;
    }
    const double due = r->least ? r->allowed : r->found;
    const double have = r->least ? r->found : r->allowed;
    return due <= 0.0 ? 0.0 : have > 0.0 ? due / have : SS_INFINITY;
}

const ss_slab_check *ss_slab_checks_worst(const ss_slab_checks *checks, ss_slab_part part) {
    const ss_slab_check *worst = NULL;
    double most = -1.0;
    for (int i = 0; i < checks->count; i++) {
        const ss_slab_check *const check = &checks->items[i];
        const double use = ss_slab_check_use(check);
        if ((part == SS_SLAB_PART_COUNT || check->part == part) && use > most * (1.0 + TIE)) {
            most = use;
            worst = check;
        }
    }
    return worst;
}

int ss_slab_checks_missed(const ss_slab_checks *checks) {
    int missed = 0;
    for (int i = 0; i < checks->count; i++) {
        missed += ss_requirement_missed(&checks->items[i].requirement) ? 1 : 0;
    }
    return missed;
}

int ss_slab_checks_unknown(const ss_slab_checks *checks) {
    int unknown = 0;
    for (int i = 0; i < checks->count; i++) {
        unknown += isnan(ss_slab_check_use(&checks->items[i])) ? 1 : 0;
    }
    return unknown;
}

const char *ss_slab_part_name(ss_slab_part part) {
    static const char *const names[SS_SLAB_PART_COUNT] = {"casting", "slab", "connectors", "deflection"};
    return names[part];
}
