/* resolve_section.c - sections: which keys each shape needs, its plates, torsion, overriding values. */
#include <math.h>
#include <stdio.h>

#include "model/resolve.h"
#include "model/resolve_plates.h"
#include "model/section_plates.h"

static const char *const shape_words[] = {"box", "channel", "plates", "given"};

/* Keys of each shape that others do not take, in the order of ss_shape. */
static const char *const own_keys[] = {"top|bottom|webs", "flange|web", "plates", ""};

static void forbid_others(ss_resolve *c, const ss_node *item, ss_shape shape) {
    char why[2 * SS_WORDS];
    for (int other = 0; other < 4; other++) {
        if (other == (int)shape) {
            continue;
        }
        snprintf(why, sizeof why, "does not belong to the shape \"%s\"; it is a key of \"%s\"",
                 shape_words[shape], shape_words[other]);
        ss_resolve_forbid(c, item, own_keys[other], why);
    }
    if (shape == SS_SHAPE_PLATES) {
        ss_resolve_forbid(c, item, "depth",
                          "does not belong to the shape \"plates\"; the plates say how deep it is");
    }
    if (shape == SS_SHAPE_GIVEN) {
        ss_resolve_forbid(c, item, "torsion|battens",
                          "does not belong to the shape \"given\"; J says how it resists twist");
    }
}

static void read_torsion(ss_resolve *c, const ss_node *item, ss_section *section) {
    const int choice = ss_read_choice(&c->reading, item, "sections[].torsion", NULL);
    static const ss_torsion kinds[] = {SS_TORSION_CLOSED, SS_TORSION_OPEN, SS_TORSION_BATTENED};
    section->torsion = choice >= 0 ? kinds[choice] : SS_TORSION_OPEN;
    if (section->shape == SS_SHAPE_BOX && choice < 0) {
        if (ss_read_given(item, "torsion")) {
            c->broken = true;
        } else {
            ss_read_complain(&c->reading, SS_FAULT, item, "torsion",
                             "not given; a box must say \"closed\", \"open\" or \"battened\"");
        }
    }
    if (section->shape == SS_SHAPE_PLATES && !ss_read_given(item, "torsion")) {
        ss_resolve_assume(c, item, "torsion", "open",
                          "Plates count as an open section unless it says otherwise.");
    }
    if (section->shape == SS_SHAPE_CHANNEL && section->torsion != SS_TORSION_OPEN) {
        ss_read_complain(&c->reading, SS_FAULT, item, "torsion",
                         "a channel is an open section; describe the walls of a cell as plates");
        section->torsion = SS_TORSION_OPEN;
    }
    if (section->torsion != SS_TORSION_BATTENED) {
        ss_resolve_forbid(c, item, "battens", "battens belong to torsion = \"battened\"");
    }
}

static bool read_battens(ss_resolve *c, const ss_node *item, ss_section *section) {
    if (section->torsion != SS_TORSION_BATTENED) {
        return true;
    }
    const ss_node *const battens = ss_node_child(item, "battens");
    if (battens == NULL) {
        ss_read_complain(&c->reading, SS_FAULT, item, "battens",
                         "not given; torsion = \"battened\" needs its battens");
        return false;
    }
    section->batten_top = ss_read_choice(&c->reading, battens, "sections[].battens.side", NULL) == 0;
    bool good = ss_resolve_due(c, battens, "sections[].battens.width", &section->batten_width);
    good = ss_resolve_due(c, battens, "sections[].battens.thickness", &section->batten_thickness) && good;
    good = ss_resolve_due(c, battens, "sections[].battens.spacing", &section->batten_spacing) && good;
    if (good && section->batten_width > section->batten_spacing) {
        ss_read_complain(&c->reading, SS_FAULT, battens, "width",
                         "the battens are wider than their spacing; they must not overlap");
        return false;
    }
    return good;
}

static void read_overrides(ss_resolve *c, const ss_node *item, ss_section *section) {
    section->set_A = ss_resolve_optional(c, item, "sections[].A");
    section->set_I = ss_resolve_optional(c, item, "sections[].I");
    section->set_J = ss_resolve_optional(c, item, "sections[].J");
    section->set_shear_area = ss_resolve_optional(c, item, "sections[].shear_area");
    section->set_S_top = ss_resolve_optional(c, item, "sections[].S_top");
    section->set_S_bottom = ss_resolve_optional(c, item, "sections[].S_bottom");
    section->set_Z = ss_resolve_optional(c, item, "sections[].Z");
    section->set_weight = ss_resolve_optional(c, item, "sections[].weight");
    const double both = ss_resolve_optional(c, item, "sections[].S");
    if (isnan(both)) {
        return;
    }
    ss_resolve_forbid(c, item, "S_top|S_bottom",
                      "S is given as well; give S for both faces, or S_top and S_bottom");
    section->set_S_top = section->set_S_bottom = both;
}

/* A section of given properties: nothing is computed, so stiffness and weight must be there. */
static bool resolve_given(ss_resolve *c, const ss_node *item, ss_section *section) {
    double unused = 0.0;
    bool good = ss_resolve_need(c, item, "sections[].I", "given properties need I", &unused);
    good = ss_resolve_need(c, item, "sections[].J", "given properties need J", &unused) && good;
    section->depth = ss_resolve_optional(c, item, "sections[].depth");
    if (isnan(section->depth)) {
        section->depth = 0.0;
    }
    if (!ss_read_given(item, "A") && !ss_read_given(item, "weight")) {
        ss_read_complain(&c->reading, SS_FAULT, item, "A",
                         "not given; given properties need A or weight, so that the car weighs something");
        good = false;
    }
    if (!ss_read_given(item, "shear_area")) {
        ss_resolve_assume(c, item, "shear_area", "none",
                          "Without it there is no shear deformation, and shear is not rated.");
    }
    const bool faces =
        ss_read_given(item, "S") || (ss_read_given(item, "S_top") && ss_read_given(item, "S_bottom"));
    if (!faces) {
        ss_resolve_assume(c, item, "S", "none", "Without the moduli of both faces bending is not rated.");
    }
    return good;
}

/* The cell of a closed or battened section must be there; its size is kept for the record. */
static bool find_cell(ss_resolve *c, const ss_node *item, ss_section *section) {
    if (section->torsion == SS_TORSION_OPEN) {
        return true;
    }
    if (section->torsion == SS_TORSION_BATTENED) {
        ss_cell cell = {0};
        const bool walls = ss_plates_cell(section->plates, section->plate_count, &cell);
        if (walls && (section->batten_top ? cell.top : cell.bottom) > 0.0) {
            ss_read_complain(&c->reading, SS_FAULT, item, "battens",
                             "a plate spans the battened side; battens take the place of a plate");
            return false;
        }
    }
    if (ss_section_cell(section, section->plates, &section->cell_area, &section->cell_sum)) {
        return true;
    }
    ss_read_complain(
        &c->reading, SS_FAULT, item, "torsion",
        section->torsion == SS_TORSION_CLOSED
            ? "no closed cell is found; two webs are due, and plates above and below that reach both"
            : "no battened cell is found; two webs are due, and a plate that reaches both on the other side");
    return false;
}

static bool resolve_computed(ss_resolve *c, const ss_node *item, ss_section *section) {
    bool good = read_battens(c, item, section);
    switch (section->shape) {
    case SS_SHAPE_BOX: good = ss_resolve_box(c, item, section) && good; break;
    case SS_SHAPE_CHANNEL: good = ss_resolve_channel(c, item, section) && good; break;
    default: good = ss_resolve_plates(c, item, section) && good; break;
    }
    if (!good) {
        return false;
    }
    ss_plates_mark_webs(section->plates, section->plate_count);
    return find_cell(c, item, section);
}

static bool resolve_section(ss_resolve *c, const ss_node *item, ss_section *section) {
    section->name = ss_resolve_text(c, ss_resolve_name(item));
    section->E_over_G = 2.6;
    const int shape = ss_read_choice(&c->reading, item, "sections[].shape", NULL);
    read_overrides(c, item, section);
    if (shape < 0) {
        c->broken = true;
        return false;
    }
    section->shape = (ss_shape)shape;
    forbid_others(c, item, section->shape);
    if (section->shape == SS_SHAPE_GIVEN) {
        return resolve_given(c, item, section);
    }
    read_torsion(c, item, section);
    return resolve_computed(c, item, section);
}

void ss_resolve_sections(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->root, "sections");
    if (list == NULL) {
        c->broken = true;
        return;
    }
    ss_bridge *const bridge = c->bridge;
    /* As many as ss_resolve_grow would have made room for: findings add some. */
    size_t room = 8;
    while (room < (size_t)list->count) room *= 2;
    bridge->sections = ss_resolve_alloc(c, room, sizeof *bridge->sections);
    c->section_sound = ss_resolve_scratch(c, (size_t)list->count, sizeof *c->section_sound);
    if (bridge->sections == NULL || c->section_sound == NULL) {
        return;
    }
    for (const ss_node *item = list->first; item != NULL; item = item->next) {
        const int i = bridge->section_count++;
        c->section_sound[i] = resolve_section(c, item, &bridge->sections[i]);
        if (ss_resolve_out_of_memory(c)) {
            return;
        }
    }
}
