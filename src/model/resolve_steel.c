/* resolve_steel.c - steels: yield stress by value, grade or year, and elastic moduli. */
#include "model/resolve.h"
#include "model/steel.h"

#include <math.h>
#include <stdio.h>

#include "sillspan/coupon_strength.h"

/* E / (2 (1 + 0.3)). */
#define E_OVER_G 2.6

static void by_grade(ss_resolve *c, const ss_node *item, ss_steel *steel) {
    const char *grade = NULL;
    const char *name = NULL;
    if (!ss_read_text(&c->reading, item, "steels[].grade", &grade)) {
        c->broken = true;
        return;
    }
    if (!ss_steel_grade(grade, &steel->fy, &name)) {
        int count = 0;
        const char *const *const grades = ss_steel_grades(&count);
        ss_resolve_unknown(c, item, "grade", "steel grade", grade, grades, count);
        return;
    }
    char text[SS_WORDS];
    snprintf(text, sizeof text, "grade %s", name);
    steel->basis = ss_resolve_text(c, text);
}

static void by_year(ss_resolve *c, const ss_node *item, ss_steel *steel) {
    int year = 0;
    if (!ss_read_integer(&c->reading, item, "steels[].year_built", &year)) {
        c->broken = true;
        return;
    }
    steel->fy = ss_steel_by_year(year);
    char text[SS_WORDS];
    char value[SS_WORDS];
    snprintf(text, sizeof text, "rolled %d, unknown steel", year);
    steel->basis = ss_resolve_text(c, text);
    ss_resolve_assume(
        c, item, "fy", ss_resolve_quantity(c, steel->fy, SS_DIM_STRESS, value),
        "Least yield stress for unknown steel of that year, AASHTO Manual for Bridge Evaluation.");
}

static void by_coupons(ss_resolve *c, const ss_node *item, ss_steel *steel) {
    double tests[SS_DESCRIPTION_VALUES];
    const int count = ss_read_quantities(&c->reading, item, "steels[].coupons", tests, SS_DESCRIPTION_VALUES);
    const ss_coupon_strength found = ss_coupon_yield(tests, count, NULL);
    char mean[SS_WORDS];
    char scatter[SS_WORDS];
    char factor[SS_WORDS];
    if (count == 0) {
        c->broken = true;
        return;
    }
    if (isnan(found.value)) {
        ss_read_complain(&c->reading, SS_FAULT, item, "coupons", "no yield stress comes of %d test%s: %s",
                         count, count == 1 ? "" : "s", found.why);
        return;
    }
    steel->fy = found.value;
    steel->basis = ss_arena_printf(&c->bridge->arena, "%d coupons: mean %s less %s times their scatter, %s",
                                   count, ss_resolve_quantity(c, found.mean, SS_DIM_STRESS, mean),
                                   ss_resolve_quantity(c, found.factor, SS_DIM_NUMBER, factor),
                                   ss_resolve_quantity(c, found.deviation, SS_DIM_STRESS, scatter));
    if (steel->basis == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    }
}

static void resolve_strength(ss_resolve *c, const ss_node *item, ss_steel *steel) {
    const bool fy = ss_read_given(item, "fy");
    const bool grade = ss_read_given(item, "grade");
    const bool year = ss_read_given(item, "year_built");
    const bool coupons = ss_read_given(item, "coupons");
    if (coupons && (fy || grade || year)) {
        ss_read_complain(&c->reading, SS_FAULT, item, "coupons",
                         "%s is given as well; exactly one of fy, grade, year_built and coupons is due",
                         fy      ? "fy"
                         : grade ? "grade"
                                 : "year_built");
    } else if (coupons) {
        by_coupons(c, item, steel);
    } else if (!fy && !grade && !year) {
        ss_read_complain(&c->reading, SS_FAULT, item, NULL,
                         "no strength is given; one of fy, grade, year_built and coupons is due");
    } else if (fy + grade + year > 1) {
        ss_read_complain(&c->reading, SS_FAULT, item, NULL,
                         "%s%s%s%s%s are given; exactly one of fy, grade and year_built is due",
                         fy ? "fy" : "", fy && grade ? (year ? ", " : " and ") : "", grade ? "grade" : "",
                         year ? " and " : "", year ? "year_built" : "");
    } else if (grade) {
        by_grade(c, item, steel);
    } else if (year) {
        by_year(c, item, steel);
    } else if (ss_resolve_due(c, item, "steels[].fy", &steel->fy)) {
        steel->basis = "yield stress given";
    }
}

static void resolve_steel(ss_resolve *c, const ss_node *item, ss_steel *steel) {
    steel->name = ss_resolve_text(c, ss_resolve_name(item));
    resolve_strength(c, item, steel);
    (void)ss_resolve_due(c, item, "steels[].E", &steel->E);
    (void)ss_resolve_due(c, item, "steels[].density", &steel->density);
    if (ss_read_given(item, "G")) {
        (void)ss_resolve_due(c, item, "steels[].G", &steel->G);
        return;
    }
    steel->G = steel->E / E_OVER_G;
    char value[SS_WORDS];
    ss_resolve_assume(c, item, "G", ss_resolve_quantity(c, steel->G, SS_DIM_STRESS, value),
                      "E/2.6, Poisson's ratio 0.3.");
}

void ss_resolve_steels(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->root, "steels");
    if (list == NULL) {
        c->broken = true;
        return;
    }
    ss_bridge *const bridge = c->bridge;
    bridge->steels = ss_resolve_alloc(c, (size_t)list->count, sizeof *bridge->steels);
    if (bridge->steels == NULL) {
        return;
    }
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        resolve_steel(c, item, &bridge->steels[bridge->steel_count++]);
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
    }
}
