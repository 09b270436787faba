/* resolve_slab_line.c - what ties a slab to the cars, and which lines can act with it. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/resolve_slab.h"
#include "sillspan/composite.h"

/* A stud thicker than this many times the plate tears it before it shears; AASHTO LRFD 6.10.10.1.1, from
 * memory. Over a web the plate is held. */
#define STUD_TO_PLATE 2.5

/* How far studs in pairs may stand beside the middles of two webs. */
#define BESIDE_WEB 0.0254

/* ---- connectors ----------------------------------------------------------------------------------- */

static void read_studs(ss_resolve *c, const ss_node *group, ss_connectors *out) {
    ss_resolve_forbid(c, group, "flange|web|length", "belongs to channels");
    (void)ss_resolve_need(c, group, "slab.connectors.diameter", "studs need their diameter", &out->diameter);
    (void)ss_resolve_need(c, group, "slab.connectors.height", "studs need their height", &out->height);
    (void)ss_resolve_due(c, group, "slab.connectors.tensile", &out->tensile);
    (void)ss_read_integer(&c->reading, group, "slab.connectors.per_row", &out->per_row);
    if (out->per_row > 1) {
        (void)ss_resolve_need(c, group, "slab.connectors.across",
                              "studs side by side need the distance from stud to stud", &out->across);
    } else {
        ss_resolve_forbid(c, group, "across", "a row has one stud; across belongs to per_row = 2 or more");
    }
}

static void read_channels(ss_resolve *c, const ss_node *group, ss_connectors *out) {
    ss_resolve_forbid(c, group, "diameter|height|tensile|per_row|across", "belongs to studs");
    (void)ss_resolve_need(c, group, "slab.connectors.flange", "channels need the thickness of their flange",
                          &out->flange);
    (void)ss_resolve_need(c, group, "slab.connectors.web", "channels need the thickness of their web",
                          &out->web);
    (void)ss_resolve_need(c, group, "slab.connectors.length", "channels need their length across the line",
                          &out->length);
}

void ss_resolve_slab_connectors(ss_resolve *c, const ss_node *item) {
    ss_connectors *const out = &c->bridge->slab.connectors;
    const ss_node *const group = ss_node_child(item, "connectors");
    out->per_row = 1;
    if (group == NULL) {
        return;
    }
    const int kind = ss_read_choice(&c->reading, group, "slab.connectors.kind", NULL);
    out->kind = kind == 1 ? SS_CONNECTOR_CHANNELS : SS_CONNECTOR_STUDS;
    if (kind == 1) {
        read_channels(c, group, out);
    } else {
        read_studs(c, group, out);
    }
    const bool pitch = ss_read_given(group, "pitch");
    if (pitch) {
        (void)ss_resolve_due(c, group, "slab.connectors.pitch", &out->pitch);
    }
    if (pitch || ss_read_given(group, "partial")) {
        (void)ss_read_flag(&c->reading, group, "slab.connectors.partial", &out->partial);
    }
    if (out->partial && !pitch) {
        ss_read_complain(
            &c->reading, SS_WARNING, group, "partial",
            "no pitch is given: as many connectors as full action needs are chosen, and nothing is "
            "tied in part");
    }
}

/* Clear distance from a stud to the edge of the steel (AASHTO LRFD 6.10.10.1.3, from memory). */
#define TO_EDGE 0.0254

/* ---- steel under them ----------------------------------------------------------------------------- */

/* Whether studs stand over webs: in one row over a single web, in pairs over two. */
static bool stands_over_web(const ss_connectors *studs, const ss_section_form *form) {
    if (form->form == SS_FORM_I || form->form == SS_FORM_CHANNEL) {
        return studs->per_row == 1;
    }
    return form->top.clear > 0.0 && form->webs == 2 && studs->per_row == 2 &&
           fabs(studs->across - form->top.clear - form->web_thin) <= BESIDE_WEB;
}

/* Narrowest steel under the connectors; 0: not known. */
static double find_flange(const ss_bridge *bridge, int index) {
    const ss_line *const line = &bridge->lines[index];
    double width = SS_INFINITY;
    for (int k = 0; k < 2 * line->piece_count; k++) {
        const ss_line_piece *const piece = &bridge->pieces[line->first_piece + k / 2];
        const double depth = k % 2 == 0 ? piece->depth0 : piece->depth1;
        ss_section_form form;
        if (ss_section_form_at(&bridge->sections[piece->section], depth, &form, NULL) != SS_OK ||
            form.top.plates == 0) {
            return 0.0;
        }
        width = ss_min(width, form.top.width);
    }
    return isinf(width) ? 0.0 : width;
}

/* As many studs side by side as keep their distance from the edges of the flange. */
static void fit_row(ss_resolve *c, const ss_node *group, int index, ss_slab_line *out) {
    const double flange = find_flange(c->bridge, index);
    ss_connectors *const own = &out->connectors;
    *own = c->bridge->slab.connectors;
    while (own->per_row > 1 && own->kind == SS_CONNECTOR_STUDS && flange > 0.0 &&
           (own->per_row - 1) * own->across + own->diameter + 2.0 * TO_EDGE > flange * (1.0 + 1e-9)) {
        own->per_row--;
    }
    if (own->per_row == c->bridge->slab.connectors.per_row) {
        return;
    }
    for (int i = 0; i < index; i++) {
        if (strcmp(c->bridge->lines[i].set, c->bridge->lines[index].set) == 0) {
            return; /* said of its set */
        }
    }
    const char *const value =
        ss_arena_printf(&c->bridge->arena, "%d on %s", own->per_row, c->bridge->lines[index].set);
    if (value == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    } else {
        ss_resolve_assume(c, group, "per_row", value,
                          "Its flange is too narrow for more of them side by side, an inch from each edge.");
    }
}

/* Thinnest steel under the connectors, and whether they stand over webs all along. */
static void find_plate(const ss_bridge *bridge, int index, ss_slab_line *out) {
    const ss_line *const line = &bridge->lines[index];
    out->plate = SS_INFINITY;
    out->over_web = true;
    for (int k = 0; k < 2 * line->piece_count; k++) {
        const ss_line_piece *const piece = &bridge->pieces[line->first_piece + k / 2];
        const ss_section *const section = &bridge->sections[piece->section];
        ss_section_form form;
        if (ss_section_form_at(section, k % 2 == 0 ? piece->depth0 : piece->depth1, &form, NULL) != SS_OK ||
            form.top.plates == 0) {
            out->plate = 0.0;
            out->over_web = false;
            return;
        }
        out->plate = ss_min(out->plate, form.top.thickness);
        out->over_web = out->over_web && stands_over_web(&out->connectors, &form);
    }
}

/* Whether the line is the first of its set, in any car, of which the same is to be said. */
static bool first_of_set(const ss_bridge *bridge, int index) {
    for (int i = 0; i < index; i++) {
        const ss_slab_line *const line = &bridge->slab.lines[i];
        if (line->composite && !(line->plate > 0.0) &&
            strcmp(bridge->lines[i].set, bridge->lines[index].set) == 0) {
            return false;
        }
    }
    return true;
}

/* "3/4 in studs need a plate of 0.3 in ..." */
static const char *too_thin(ss_resolve *c, double diameter, double plate) {
    const ss_unit_system units = c->bridge->units;
    char stud[SS_WORDS];
    char due[SS_WORDS];
    char have[SS_WORDS];
    const char *const why = ss_arena_printf(
        &c->bridge->arena, "studs of %s need a plate of %s or a web under them; the plate has %s",
        ss_units_format(stud, sizeof stud, diameter, SS_DIM_SMALL_LENGTH, units, 3),
        ss_units_format(due, sizeof due, diameter / STUD_TO_PLATE, SS_DIM_SMALL_LENGTH, units, 3),
        ss_units_format(have, sizeof have, plate, SS_DIM_SMALL_LENGTH, units, 3));
    if (why == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
    }
    return why;
}

static void check_plate(ss_resolve *c, const ss_node *group, int index, ss_slab_line *line) {
    const ss_connectors *const studs = &c->bridge->slab.connectors;
    fit_row(c, group, index, line);
    find_plate(c->bridge, index, line);
    if (studs->kind != SS_CONNECTOR_STUDS || line->over_web) {
        return;
    }
    if (!(line->plate > 0.0)) {
        if (first_of_set(c->bridge, index)) {
            ss_read_complain(&c->reading, SS_WARNING, group, "diameter",
                             "the steel on top of \"%s\" is not known: whether studs can stand on it is not "
                             "checked",
                             c->bridge->lines[index].set);
        }
        return;
    }
    if (studs->diameter > STUD_TO_PLATE * line->plate * (1.0 + 1e-9)) {
        line->composite = false;
        line->why = too_thin(c, studs->diameter, line->plate);
    }
}

/* What makes a section with the slab must be known all along. */
static void check_section(ss_resolve *c, const ss_node *item, int index) {
    const ss_slab_flange flange = {.width = 1.0, .thickness = 0.1, .n = 8.0};
    const ss_line *const line = &c->bridge->lines[index];
    for (int k = 0; k < line->piece_count; k++) {
        const ss_line_piece *const piece = &c->bridge->pieces[line->first_piece + k];
        ss_section_properties p;
        ss_composite_properties unused;
        if (ss_bridge_line_section(c->bridge, index, 0.5 * (piece->x0 + piece->x1), false, &p) == SS_OK &&
            ss_composite_at(&p, &flange, false, &unused, NULL) == SS_OK) {
            continue;
        }
        ss_read_complain(
            &c->reading, SS_FAULT, item, "lines",
            "the line \"%s\" of \"%s\" cannot act with the slab: of its section \"%s\" A, I, depth "
            "and a section modulus are due; or leave it out of the lines that do",
            line->name, c->bridge->cars[line->car].name, c->bridge->sections[piece->section].name);
        return;
    }
}

/* ---- which lines ---------------------------------------------------------------------------------- */

static bool pick(ss_resolve *c, const ss_node *item, bool *picked) {
    const ss_bridge *const bridge = c->bridge;
    if (ss_read_given(item, "lines")) {
        return ss_resolve_slab_named(c, item, "lines", picked);
    }
    for (int i = 0; i < bridge->line_count; i++) {
        picked[i] = bridge->lines[i].role != SS_ROLE_STRINGER;
    }
    ss_resolve_assume(c, item, "lines", "main girders, exterior girders",
                      "Lines that act with the slab, where their connectors can stand.");
    return true;
}

void ss_resolve_slab_lines(ss_resolve *c, const ss_node *item) {
    ss_bridge *const bridge = c->bridge;
    const ss_node *const connectors = ss_node_child(item, "connectors");
    bool *const picked = ss_resolve_scratch(c, (size_t)bridge->line_count, sizeof *picked);
    bridge->slab.lines = ss_resolve_alloc(c, (size_t)bridge->line_count, sizeof *bridge->slab.lines);
    if (picked == NULL || bridge->slab.lines == NULL) {
        return;
    }
    if (connectors == NULL) {
        ss_read_complain(&c->reading, SS_WARNING, item, "connectors",
                         "not given: no line acts with the slab, which only spreads load");
    }
    if (!pick(c, item, picked)) {
        c->broken = true;
        return;
    }
    for (int i = 0; i < bridge->line_count && !ss_resolve_out_of_memory(c); i++) {
        ss_slab_line *const line = &bridge->slab.lines[i];
        line->composite = picked[i] && connectors != NULL;
        line->why = line->composite ? NULL : picked[i] ? "no connectors" : "not asked for";
        if (line->composite) {
            check_plate(c, connectors, i, line);
        }
        if (line->composite) {
            check_section(c, item, i);
        }
    }
}
