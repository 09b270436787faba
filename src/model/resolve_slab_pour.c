/* resolve_slab_pour.c - parts of a slab that are cast one after the other, and props under the cars. */
#include <math.h>
#include <stdlib.h>

#include "base/numeric.h"
#include "model/resolve_slab.h"

/* ---- one pour ------------------------------------------------------------------------------------- */

static void read_side(ss_resolve *c, const ss_node *item, const char *path, double *out) {
    const double given = ss_resolve_optional(c, item, path);
    *out = isnan(given) ? *out : given;
}

/* On cars that lie beside each other, to the middle of the gaps. */
static bool read_cars(ss_resolve *c, const ss_node *item, ss_pour *pour) {
    const int count = c->bridge->car_count;
    bool *const picked = ss_resolve_scratch(c, (size_t)count, sizeof *picked);
    ss_resolve_forbid(c, item, "left|right", "cars are given as well; give cars, or left and right");
    if (picked == NULL || !ss_resolve_slab_cars(c, item, "cars", picked)) {
        return false;
    }
    int first = 0;
    int last = count - 1;
    while (first < count && !picked[first]) {
        first++;
    }
    while (last >= 0 && !picked[last]) {
        last--;
    }
    for (int i = first; i <= last; i++) {
        if (!picked[i]) {
            ss_read_complain(
                &c->reading, SS_FAULT, item, "cars",
                "\"%s\" lies between them; a pour is one piece, and others need one of their own",
                c->bridge->cars[i].name);
            return false;
        }
    }
    if (first > last) {
        ss_read_complain(&c->reading, SS_FAULT, item, "cars", "names no car");
        return false;
    }
    pour->y0 = ss_resolve_slab_bound(c->bridge, first, false);
    pour->y1 = ss_resolve_slab_bound(c->bridge, last, true);
    return true;
}

static bool read_pour(ss_resolve *c, const ss_node *item, ss_pour *pour) {
    const ss_slab *const slab = &c->bridge->slab;
    *pour = (ss_pour){.x0 = slab->x0, .x1 = slab->x1, .y0 = slab->y0, .y1 = slab->y1};
    pour->name = ss_resolve_text(c, ss_resolve_name(item));
    read_side(c, item, "slab.pours[].from", &pour->x0);
    read_side(c, item, "slab.pours[].to", &pour->x1);
    if (ss_read_given(item, "cars")) {
        if (!read_cars(c, item, pour)) {
            return false;
        }
    } else {
        read_side(c, item, "slab.pours[].left", &pour->y0);
        read_side(c, item, "slab.pours[].right", &pour->y1);
    }
    pour->x0 = ss_max(pour->x0, slab->x0);
    pour->x1 = ss_min(pour->x1, slab->x1);
    pour->y0 = ss_max(pour->y0, slab->y0);
    pour->y1 = ss_min(pour->y1, slab->y1);
    if (pour->x1 > pour->x0 + SS_SAME_PLACE && pour->y1 > pour->y0 + SS_SAME_PLACE) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, item, NULL, "nothing of the slab lies in this pour");
    return false;
}

/* ---- together ------------------------------------------------------------------------------------- */

/* Edges of slab and pours along one axis; they cut the slab into cells. */
static int list_edges(const ss_slab *slab, bool along, double *out) {
    int count = 0;
    out[count++] = along ? slab->x0 : slab->y0;
    out[count++] = along ? slab->x1 : slab->y1;
    for (int i = 0; i < slab->pour_count; i++) {
        out[count++] = along ? slab->pours[i].x0 : slab->pours[i].y0;
        out[count++] = along ? slab->pours[i].x1 : slab->pours[i].y1;
    }
    ss_sort_unique(out, &count, SS_SAME_PLACE);
    return count;
}

/* Whether a place lies in the gap between two cars, where an open joint leaves the slab out. */
static bool in_open_gap(const ss_bridge *bridge, double y) {
    for (int i = 0; i + 1 < bridge->car_count && bridge->slab.joint == SS_SLAB_JOINT_OPEN; i++) {
        if (y > bridge->cars[i].y_right && y < bridge->cars[i + 1].y_left) {
            return true;
        }
    }
    return false;
}

/* A cell of the slab, and the pours that it lies in. */
static bool check_cell(ss_resolve *c, const ss_node *list, const double x[2], const double y[2]) {
    const ss_slab *const slab = &c->bridge->slab;
    const double mx = 0.5 * (x[0] + x[1]);
    const double my = 0.5 * (y[0] + y[1]);
    const ss_pour *found = NULL;
    char words[4][SS_WORDS];
    for (int i = 0; i < slab->pour_count; i++) {
        const ss_pour *const pour = &slab->pours[i];
        if (mx < pour->x0 || mx > pour->x1 || my < pour->y0 || my > pour->y1) {
            continue;
        }
        if (found != NULL) {
            ss_read_complain(&c->reading, SS_FAULT, list, NULL,
                             "\"%s\" and \"%s\" overlap from x = %s to %s and y = %s to %s", found->name,
                             pour->name, ss_resolve_length(c, x[0], words[0]),
                             ss_resolve_length(c, x[1], words[1]), ss_resolve_length(c, y[0], words[2]),
                             ss_resolve_length(c, y[1], words[3]));
            return false;
        }
        found = pour;
    }
    if (found != NULL || in_open_gap(c->bridge, my)) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, list, NULL,
                     "no pour casts the slab from x = %s to %s and y = %s to %s",
                     ss_resolve_length(c, x[0], words[0]), ss_resolve_length(c, x[1], words[1]),
                     ss_resolve_length(c, y[0], words[2]), ss_resolve_length(c, y[1], words[3]));
    return false;
}

static void check_cover(ss_resolve *c, const ss_node *list) {
    double x[2 * SS_POURS_MAX + 2];
    double y[2 * SS_POURS_MAX + 2];
    const int nx = list_edges(&c->bridge->slab, true, x);
    const int ny = list_edges(&c->bridge->slab, false, y);
    for (int i = 0; i + 1 < nx; i++) {
        for (int j = 0; j + 1 < ny; j++) {
            if (!check_cell(c, list, &x[i], &y[j])) {
                return;
            }
        }
    }
}

void ss_resolve_slab_pours(ss_resolve *c, const ss_node *item) {
    ss_slab *const slab = &c->bridge->slab;
    const ss_node *const list = ss_resolve_list(item, "pours");
    const int count = list == NULL ? 0 : list->count;
    if (count > SS_POURS_MAX) {
        ss_read_complain(&c->reading, SS_FAULT, item, "pours", "found %d pours; at most %d are allowed",
                         count, (int)SS_POURS_MAX);
        return;
    }
    slab->pours = ss_resolve_alloc(c, count > 0 ? (size_t)count : 1, sizeof *slab->pours);
    if (slab->pours == NULL) {
        return;
    }
    if (count == 0) {
        slab->pours[slab->pour_count++] = (ss_pour){"slab", slab->x0, slab->x1, slab->y0, slab->y1};
        ss_resolve_assume(c, item, "pours", "one", "All of the slab is cast at once.");
        return;
    }
    bool good = true;
    for (const ss_node *entry = list->first; entry != NULL; entry = entry->next) {
        good = read_pour(c, entry, &slab->pours[slab->pour_count++]) && good;
    }
    if (good) {
        check_cover(c, list);
    }
}

/* ---- shores --------------------------------------------------------------------------------------- */

static int by_value(const void *a, const void *b) {
    const double p = *(const double *)a;
    const double q = *(const double *)b;
    return (p > q) - (p < q);
}

static bool add_shore(ss_resolve *c, int line, double x) {
    ss_slab *const slab = &c->bridge->slab;
    ss_shore *const grown = ss_resolve_grow(c, slab->shores, slab->shore_count, sizeof *grown);
    if (grown == NULL) {
        return false;
    }
    slab->shores = grown;
    grown[slab->shore_count++] = (ss_shore){line, x};
    return true;
}

/* Under each line that is there at the station; each station must find one. */
static bool prop(ss_resolve *c, const ss_node *group, double x, const bool *lines, const bool *cars) {
    const ss_bridge *const bridge = c->bridge;
    char at[SS_WORDS];
    bool any = false;
    for (int i = 0; i < bridge->line_count; i++) {
        const ss_line *const line = &bridge->lines[i];
        if (!lines[i] || !cars[line->car] || x < line->x0 - SS_SAME_PLACE || x > line->x1 + SS_SAME_PLACE) {
            continue;
        }
        any = true;
        if (!add_shore(c, i, ss_clamp(x, line->x0, line->x1))) {
            return false;
        }
    }
    if (!any) {
        ss_read_complain(&c->reading, SS_FAULT, group, "x", "at %s there is none of these lines to prop",
                         ss_resolve_length(c, x, at));
    }
    return any;
}

void ss_resolve_slab_shores(ss_resolve *c, const ss_node *item) {
    const ss_bridge *const bridge = c->bridge;
    const ss_node *const group = ss_node_child(item, "shores");
    double x[SS_DESCRIPTION_VALUES];
    bool *const lines = ss_resolve_scratch(c, (size_t)bridge->line_count, sizeof *lines);
    bool *const cars = ss_resolve_scratch(c, (size_t)bridge->car_count, sizeof *cars);
    if (group == NULL || lines == NULL || cars == NULL) {
        return;
    }
    const int count = ss_read_quantities(&c->reading, group, "slab.shores.x", x, SS_DESCRIPTION_VALUES);
    const bool named = ss_resolve_slab_named(c, group, "under", lines);
    if (!ss_resolve_slab_cars(c, group, "cars", cars) || !named || count == 0) {
        c->broken = true;
        return;
    }
    qsort(x, (size_t)count, sizeof x[0], by_value);
    for (int i = 0; i < count; i++) {
        if (i > 0 && x[i] <= x[i - 1] + SS_SAME_PLACE) {
            continue;
        }
        if (!prop(c, group, x[i], lines, cars)) {
            return;
        }
    }
}
