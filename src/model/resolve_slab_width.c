/* resolve_slab_width.c - how much of a slab acts with each line. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/resolve_slab.h"

/* ---- by rule -------------------------------------------------------------------------------------- */

/* Half way to the lines beside it in the same car that act too, else to where the slab on the car ends. */
static void tributary(const ss_bridge *bridge, int index, ss_slab_line *out) {
    const ss_line *const line = &bridge->lines[index];
    const ss_car *const car = &bridge->cars[line->car];
    out->y0 = ss_resolve_slab_bound(bridge, line->car, false);
    out->y1 = ss_resolve_slab_bound(bridge, line->car, true);
    for (int i = car->first_line; i < car->first_line + car->line_count; i++) {
        const double y = bridge->lines[i].y;
        if (!bridge->slab.lines[i].composite || fabs(y - line->y) <= SS_SAME_PLACE) {
            continue;
        }
        const double half = 0.5 * (y + line->y);
        out->y0 = y < line->y ? ss_max(out->y0, half) : out->y0;
        out->y1 = y > line->y ? ss_min(out->y1, half) : out->y1;
    }
    out->width = out->y1 - out->y0;
}

/* The shortest span between bearings of the line; its length where it has not two. */
static double shortest_span(const ss_bridge *bridge, int index) {
    const ss_line *const line = &bridge->lines[index];
    double least = line->x1 - line->x0;
    for (int i = 0; i < bridge->bearing_count; i++) {
        for (int j = 0; j < bridge->bearing_count; j++) {
            const double span = bridge->bearings[j].x - bridge->bearings[i].x;
            if (bridge->bearings[i].line == index && bridge->bearings[j].line == index &&
                span > SS_SAME_PLACE) {
                least = ss_min(least, span);
            }
        }
    }
    return least;
}

double ss_resolve_slab_top(const ss_section_form *form) {
    return form->form == SS_FORM_CHANNEL ? form->top.outstand + form->web_thin : form->top.width;
}

/* The larger of web and half top flange, the least along the line; 0 where plates are not known. */
static double beside_web(const ss_bridge *bridge, int index) {
    const ss_line *const line = &bridge->lines[index];
    double least = SS_INFINITY;
    for (int k = 0; k < line->piece_count; k++) {
        const ss_line_piece *const piece = &bridge->pieces[line->first_piece + k];
        ss_section_form form;
        if (ss_section_form_at(&bridge->sections[piece->section], piece->depth0, &form, NULL) != SS_OK) {
            return 0.0;
        }
        least = ss_min(least, ss_max(form.web_thin, 0.5 * ss_resolve_slab_top(&form)));
    }
    return isfinite(least) ? least : 0.0;
}

/* As much from either side, in proportion. */
static void narrow(const ss_bridge *bridge, int index, double width, ss_slab_line *out) {
    const double y = bridge->lines[index].y;
    const double share = width / out->width;
    out->y0 = y - share * (y - out->y0);
    out->y1 = y + share * (out->y1 - y);
    out->width = width;
}

/* Standard Specifications for Highway Bridges 10.38.3 (load factor and service load design), from memory. */
static void least(const ss_bridge *bridge, int index, ss_slab_line *out) {
    const double most = ss_min(0.25 * shortest_span(bridge, index),
                               12.0 * bridge->slab.thickness + beside_web(bridge, index));
    if (most < out->width && most > 0.0) {
        narrow(bridge, index, most, out);
    }
}

/* ---- as given ------------------------------------------------------------------------------------- */

static void read_given(ss_resolve *c, const ss_node *entry, bool *picked) {
    const ss_bridge *const bridge = c->bridge;
    ss_slab_line *const lines = c->bridge->slab.lines;
    double width = 0.0;
    memset(picked, 0, (size_t)bridge->line_count * sizeof *picked);
    const bool named = ss_resolve_slab_named(c, entry, "line", picked);
    const bool given = ss_read_given(entry, "car");
    const int car = given ? ss_resolve_car_reference(c, entry, "slab.widths[].car") : -1;
    if (!ss_resolve_due(c, entry, "slab.widths[].width", &width) || !named || (given && car < 0)) {
        c->broken = true;
        return;
    }
    bool any = false;
    for (int i = 0; i < bridge->line_count; i++) {
        const bool meant = picked[i] && (!given || bridge->lines[i].car == car);
        any = any || meant;
        if (!meant || !lines[i].composite) {
            continue;
        }
        if (width <= bridge->slab.y1 - bridge->slab.y0 + SS_SAME_PLACE) {
            narrow(bridge, i, width, &lines[i]);
            continue;
        }
        char have[SS_WORDS];
        ss_read_complain(&c->reading, SS_FAULT, entry, "width", "wider than the slab, which is %s",
                         ss_resolve_length(c, bridge->slab.y1 - bridge->slab.y0, have));
        return;
    }
    if (!any) {
        ss_read_complain(&c->reading, SS_FAULT, entry, "line", "that car has no such line");
    }
}

/* ---- all ------------------------------------------------------------------------------------------ */

void ss_resolve_slab_widths(ss_resolve *c, const ss_node *item) {
    const ss_bridge *const bridge = c->bridge;
    ss_slab_line *const lines = c->bridge->slab.lines;
    const ss_node *const list = ss_resolve_list(item, "widths");
    const bool limited = ss_read_choice(&c->reading, item, "slab.effective_width", NULL) == 1;
    bool *const picked = ss_resolve_scratch(c, (size_t)bridge->line_count, sizeof *picked);
    if (picked == NULL || lines == NULL) {
        return;
    }
    for (int i = 0; i < bridge->line_count; i++) {
        if (!lines[i].composite) {
            continue;
        }
        tributary(bridge, i, &lines[i]);
        if (limited) {
            least(bridge, i, &lines[i]);
        }
    }
    for (const ss_node *entry = list == NULL ? NULL : list->first; entry != NULL; entry = entry->next) {
        read_given(c, entry, picked);
    }
}
