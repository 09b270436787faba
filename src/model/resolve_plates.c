/* resolve_plates.c - plates of a box, a channel or a list, and what cannot be about them. */
#include "model/resolve_plates.h"

#include "model/section_plates.h"

/* Plates further apart than this, in m, hang in the air: a little more than a sixteenth of an inch. */
#define LOOSE 0.002

static void add_plate(ss_section *section, const char *name, double middle, double width, double z0,
                      double z1) {
    ss_plate *const plate = &section->plates[section->plate_count++];
    *plate =
        (ss_plate){.name = name, .y0 = middle - 0.5 * width, .y1 = middle + 0.5 * width, .z0 = z0, .z1 = z1};
}

/* ---- box ------------------------------------------------------------------------------------------ */

typedef struct flange {
    double width, thickness;
} flange;

/* One plate of a box; a battened side has none. */
static bool read_flange(ss_resolve *c, const ss_node *item, const ss_section *section, bool top,
                        flange *out) {
    const char *const key = top ? "top" : "bottom";
    const bool battened = section->torsion == SS_TORSION_BATTENED && section->batten_top == top;
    const ss_node *const group = ss_node_child(item, key);
    if (battened) {
        ss_resolve_forbid(
            c, item, key,
            "this side is battened and has no continuous plate; describe strips along the webs as plates");
        return group == NULL;
    }
    if (group == NULL) {
        ss_read_complain(&c->reading, SS_FAULT, item, key, "not given; a box needs its %s plate", key);
        return false;
    }
    bool good =
        ss_resolve_due(c, group, top ? "sections[].top.width" : "sections[].bottom.width", &out->width);
    good = ss_resolve_due(c, group, top ? "sections[].top.thickness" : "sections[].bottom.thickness",
                          &out->thickness) &&
           good;
    return good;
}

static bool reaches_webs(ss_resolve *c, const ss_node *item, const char *key, const flange *plate,
                         double clear) {
    if (plate->thickness == 0.0 || plate->width >= clear) {
        return true;
    }
    char width[SS_WORDS];
    char apart[SS_WORDS];
    ss_read_complain(&c->reading, SS_FAULT, ss_node_child(item, key), "width",
                     "%s does not reach the webs; they stand %s apart",
                     ss_resolve_quantity(c, plate->width, SS_DIM_SMALL_LENGTH, width),
                     ss_resolve_quantity(c, clear, SS_DIM_SMALL_LENGTH, apart));
    return false;
}

bool ss_resolve_box(ss_resolve *c, const ss_node *item, ss_section *section) {
    flange top = {0.0, 0.0};
    flange bottom = {0.0, 0.0};
    double web = 0.0;
    double clear = 0.0;
    bool good = ss_resolve_need(c, item, "sections[].depth", "a box needs its depth", &section->depth);
    good = read_flange(c, item, section, true, &top) && good;
    good = read_flange(c, item, section, false, &bottom) && good;
    const ss_node *const webs = ss_node_child(item, "webs");
    if (webs == NULL) {
        ss_read_complain(&c->reading, SS_FAULT, item, "webs", "not given; a box needs its webs");
        return false;
    }
    good = ss_resolve_due(c, webs, "sections[].webs.thickness", &web) && good;
    good = ss_resolve_due(c, webs, "sections[].webs.clear_between", &clear) && good;
    if (!good || !reaches_webs(c, item, "top", &top, clear) ||
        !reaches_webs(c, item, "bottom", &bottom, clear)) {
        return false;
    }
    if (section->depth - top.thickness - bottom.thickness <= SS_PLATE_TOUCH) {
        char depth[SS_WORDS];
        ss_read_complain(&c->reading, SS_FAULT, item, "depth",
                         "%s leaves no height for the webs between top and bottom",
                         ss_resolve_quantity(c, section->depth, SS_DIM_SMALL_LENGTH, depth));
        return false;
    }
    const double high = section->depth - top.thickness;
    if (bottom.thickness > 0.0) {
        add_plate(section, "bottom", 0.0, bottom.width, 0.0, bottom.thickness);
    }
    if (top.thickness > 0.0) {
        add_plate(section, "top", 0.0, top.width, high, section->depth);
    }
    add_plate(section, "left web", -0.5 * (clear + web), web, bottom.thickness, high);
    add_plate(section, "right web", 0.5 * (clear + web), web, bottom.thickness, high);
    return true;
}

/* ---- channel -------------------------------------------------------------------------------------- */

bool ss_resolve_channel(ss_resolve *c, const ss_node *item, ss_section *section) {
    double web = 0.0;
    double width = 0.0;
    double thickness = 0.0;
    bool good = ss_resolve_need(c, item, "sections[].depth", "a channel needs its depth", &section->depth);
    good = ss_resolve_need(c, item, "sections[].web", "a channel needs its web thickness", &web) && good;
    const ss_node *const group = ss_node_child(item, "flange");
    if (group == NULL) {
        ss_read_complain(&c->reading, SS_FAULT, item, "flange", "not given; a channel needs its flange");
        return false;
    }
    good = ss_resolve_due(c, group, "sections[].flange.width", &width) && good;
    good = ss_resolve_due(c, group, "sections[].flange.thickness", &thickness) && good;
    if (!good) {
        return false;
    }
    if (width <= web + SS_PLATE_TOUCH) {
        ss_read_complain(&c->reading, SS_FAULT, group, "width",
                         "not wider than the web is thick; the width from the back of the web is due");
        return false;
    }
    if (section->depth <= 2.0 * thickness + SS_PLATE_TOUCH) {
        ss_read_complain(&c->reading, SS_FAULT, item, "depth",
                         "not more than two flange thicknesses; the overall depth is due");
        return false;
    }
    add_plate(section, "web", 0.5 * web, web, 0.0, section->depth);
    add_plate(section, "bottom flange", 0.5 * (web + width), width - web, 0.0, thickness);
    add_plate(section, "top flange", 0.5 * (web + width), width - web, section->depth - thickness,
              section->depth);
    return true;
}

/* ---- any plates ----------------------------------------------------------------------------------- */

static bool read_plate(ss_resolve *c, const ss_node *item, ss_section *section) {
    double width = 0.0;
    double height = 0.0;
    double y = 0.0;
    double z = 0.0;
    bool good = ss_resolve_due(c, item, "sections[].plates[].width", &width);
    good = ss_resolve_due(c, item, "sections[].plates[].height", &height) && good;
    good = ss_resolve_due(c, item, "sections[].plates[].y", &y) && good;
    good = ss_resolve_due(c, item, "sections[].plates[].z", &z) && good;
    add_plate(section, ss_resolve_text(c, ss_resolve_name(item)), y, width, z, z + height);
    return good;
}

static bool check_plates(ss_resolve *c, const ss_node *list, const ss_section *section) {
    double lowest = section->plates[0].z0;
    for (int i = 1; i < section->plate_count; i++) {
        if (section->plates[i].z0 < lowest) {
            lowest = section->plates[i].z0;
        }
    }
    if (lowest > SS_PLATE_TOUCH) {
        ss_read_complain(&c->reading, SS_FAULT, list, NULL,
                         "no plate starts at z = 0; z is measured up from the lowest fibre");
        return false;
    }
    int first = 0;
    int second = 0;
    if (ss_plates_overlap(section->plates, section->plate_count, &first, &second)) {
        ss_read_complain(&c->reading, SS_FAULT, ss_node_item(list, second), NULL,
                         "overlaps the plate \"%s\"; plates may touch, each piece of steel counts once",
                         section->plates[first].name);
        return false;
    }
    for (int i = 0; i < section->plate_count && section->plate_count > 1; i++) {
        if (!ss_plates_stands_alone(section->plates, section->plate_count, i, LOOSE)) {
            continue;
        }
        ss_read_complain(&c->reading, SS_WARNING, ss_node_item(list, i), NULL,
                         "touches no other plate; it counts as part of the section all the same");
    }
    return true;
}

bool ss_resolve_plates(ss_resolve *c, const ss_node *item, ss_section *section) {
    const ss_node *const list = ss_resolve_list(item, "plates");
    if (list == NULL || list->count == 0) {
        ss_read_complain(&c->reading, SS_FAULT, item, "plates",
                         "not given; the shape \"plates\" needs at least one");
        return false;
    }
    if (list->count > SS_PLATES_MAX) {
        ss_read_complain(&c->reading, SS_FAULT, item, "plates", "found %d plates; at most %d are allowed",
                         list->count, (int)SS_PLATES_MAX);
        return false;
    }
    bool good = true;
    for (const ss_node *plate = list->first; plate != NULL; plate = plate->next) {
        good = read_plate(c, plate, section) && good;
    }
    if (!good || !check_plates(c, list, section)) {
        return false;
    }
    for (int i = 0; i < section->plate_count; i++) {
        if (section->plates[i].z1 > section->depth) {
            section->depth = section->plates[i].z1;
        }
    }
    return true;
}
