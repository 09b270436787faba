/* slab_across_check.c - what the slab between its lines has to keep, in the list of a deck's checks. */
#include <math.h>

#include "base/numeric.h"
#include "studies/slab_across_parts.h"

#define SOURCE_STRIP "AASHTO LRFD 4.6.2.1, 5.6.3.2 (from memory)"
#define SOURCE_PUNCHING "AASHTO LRFD 5.12.8.6.3 (from memory)"
#define SOURCE_SUM "sum of both, wherever they are"

static bool add(ss_slab_checks *checks, const char *where, ss_requirement requirement) {
    if (requirement.why == NULL && (isnan(requirement.found) || isnan(requirement.allowed))) {
        requirement.why = "what it needs is not known";
    }
    return where != NULL && ss_slab_check_add(checks, SS_SLAB_PART_ACROSS, where, &requirement);
}

static ss_requirement most(const char *name, double found, double allowed, ss_dimension dimension,
                           const char *source) {
    return (ss_requirement){
        .name = name, .found = found, .allowed = allowed, .dimension = dimension, .source = source};
}

static bool check_strip(const ss_bridge *bridge, const ss_slab_across *all, const ss_slab_strip *s,
                        ss_slab_checks *checks) {
    const char *const where = ss_slab_across_where(bridge, s, checks->arena);
    if (s->why != NULL) {
        ss_requirement none = most("strength of the slab", SS_NAN, SS_NAN, SS_DIM_NUMBER, SOURCE_STRIP);
        none.why = s->why;
        return add(checks, where, none);
    }
    const bool sags = s->sagging > 0.0;
    const bool hogs = s->hogging > 0.0;
    return (!sags || add(checks, where,
                         most("bending of the slab, sagging", s->sagging, all->sagging,
                              SS_DIM_MOMENT_PER_LENGTH, SOURCE_STRIP))) &&
           (!hogs || add(checks, where,
                         most("bending of the slab, hogging", s->hogging, all->hogging,
                              SS_DIM_MOMENT_PER_LENGTH, SOURCE_STRIP)));
}

/* The largest of all spans; NaN when one of them could not be looked at. */
typedef struct largest {
    double span, sagging, hogging, service_sagging, service_hogging;
} largest;

static largest largest_of(const ss_slab_across *all) {
    largest l = {0.0, 0.0, 0.0, 0.0, 0.0};
    for (int i = 0; i < all->count; i++) {
        const ss_slab_strip *const s = &all->strips[i];
        if (s->kind != SS_SLAB_SPAN_OVERHANG) {
            l.span = ss_max(l.span, s->span);
        }
        if (s->why != NULL) {
            return (largest){l.span, SS_NAN, SS_NAN, SS_NAN, SS_NAN};
        } else {
            l.sagging = ss_max(l.sagging, s->sagging);
            l.hogging = ss_max(l.hogging, s->hogging);
            l.service_sagging = ss_max(l.service_sagging, s->service_sagging);
            l.service_hogging = ss_max(l.service_hogging, s->service_hogging);
        }
    }
    return l;
}

static bool check_sums(const ss_slab_across *all, const largest *l, ss_slab_checks *checks) {
    static const char where[] = "anywhere in the slab";
    if (isnan(all->global[0])) {
        return true;
    }
    return add(checks, where,
               most("local and global bending across, sagging", l->sagging + all->global[1], all->sagging,
                    SS_DIM_MOMENT_PER_LENGTH, SOURCE_SUM)) &&
           add(checks, where,
               most("local and global bending across, hogging", l->hogging + all->global[0], all->hogging,
                    SS_DIM_MOMENT_PER_LENGTH, SOURCE_SUM));
}

static bool check_details(const ss_bridge *bridge, const ss_slab_across *all, const largest *l,
                          ss_slab_checks *checks) {
    const double steel_E = bridge->steels[bridge->lines[0].steel].E;
    const ss_slab_checked checked = {.across = ss_slab_across_section(bridge),
                                     .along = ss_slab_section_of(&bridge->slab, true, steel_E),
                                     .span = l->span > 0.0 ? l->span : SS_NAN,
                                     .factored_sagging = l->sagging,
                                     .factored_hogging = l->hogging,
                                     .service_sagging = l->service_sagging,
                                     .service_hogging = l->service_hogging,
                                     .minimum = SS_SLAB_MINIMUM_GAMMA,
                                     .exposure = all->exposure};
    ss_requirements details = {.count = 0};
    ss_slab_details(&checked, &details);
    for (int i = 0; i < details.count; i++) {
        if (!add(checks, "all of the slab", details.items[i])) {
            return false;
        }
    }
    return true;
}

bool ss_slab_across_check(const ss_bridge *bridge, const ss_slab_across *all, ss_slab_checks *checks) {
    for (int i = 0; i < all->count; i++) {
        if (!check_strip(bridge, all, &all->strips[i], checks)) {
            return false;
        }
    }
    ss_requirement punching = most("punching of the heaviest wheel", all->wheel_factored, all->punching,
                                   SS_DIM_FORCE, SOURCE_PUNCHING);
    punching.why = all->punching_why;
    const largest l = largest_of(all);
    return add(checks, "under a wheel", punching) && check_sums(all, &l, checks) &&
           check_details(bridge, all, &l, checks);
}
