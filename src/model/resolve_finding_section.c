/* resolve_finding_section.c - findings that leave a member in place with another section over a length. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "model/resolve_finding.h"
#include "model/resolve_line.h"
#include "model/section_loss.h"

/* ---- one section as found --------------------------------------------------------------------------- */

/* Thickness left of one plate over its own; negative on a fault. */
static double share_left(ss_resolve *c, const ss_finding_item *item, const ss_plate *plate) {
    double value = 0.0;
    const double thickness = ss_plate_thickness(plate);
    if (ss_read_quantity(&c->reading, item->node, "findings[].loss", &value)) {
        return 1.0 - value;
    }
    if (!ss_read_quantity(&c->reading, item->node, "findings[].thickness_left", &value)) {
        return -1.0;
    }
    if (value > thickness * (1.0 + 1e-6)) {
        char left[SS_WORDS];
        char whole[SS_WORDS];
        ss_read_complain(&c->reading, SS_FAULT, item->node, "thickness_left",
                         "%s is more than the plate \"%s\" has, %s",
                         ss_resolve_quantity(c, value, SS_DIM_SMALL_LENGTH, left), plate->name,
                         ss_resolve_quantity(c, thickness, SS_DIM_SMALL_LENGTH, whole));
        return -1.0;
    }
    return ss_min(1.0, value / thickness);
}

static bool pick(ss_resolve *c, const ss_finding_item *item, const ss_section *section,
                 bool picked[SS_PLATES_MAX]) {
    const char *part = NULL;
    if (!ss_read_text(&c->reading, item->node, "findings[].part", &part)) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "part",
                         "not given; the plate that was seen is due");
        return false;
    }
    if (section->plate_count == 0) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "part",
                         "the section \"%s\" is given by its properties and has no plates; \"section loss\" "
                         "goes with such",
                         section->name);
        return false;
    }
    if (ss_section_pick(section, part, picked) > 0) {
        return true;
    }
    const char *words[SS_PLATES_MAX];
    for (int i = 0; i < section->plate_count; i++) words[i] = section->plates[i].name;
    ss_resolve_unknown(c, item->node, "part", "plate of that section", part, words, section->plate_count);
    return false;
}

static ss_status thin(ss_resolve *c, const ss_finding_item *item, const bool *picked, ss_section *section) {
    /* Thinning a plate to nothing takes it off: from the last on, so that numbers of others stay. */
    for (int i = section->plate_count - 1; i >= 0; i--) {
        bool one[SS_PLATES_MAX] = {false};
        if (!picked[i]) {
            continue;
        }
        one[i] = true;
        const double left = share_left(c, item, &section->plates[i]);
        if (left < 0.0) {
            return SS_OK; /* the fault is told */
        }
        const ss_status status = ss_section_thin(section, one, left);
        if (status != SS_OK) {
            return status;
        }
    }
    return SS_OK;
}

/* Changes a copy of the section; false on a fault. */
static bool change(ss_resolve *c, const ss_finding_item *item, ss_section *section) {
    bool picked[SS_PLATES_MAX] = {false};
    ss_status status = SS_OK;
    double value = 0.0;
    const int faults = c->reading.diags->faults;
    switch (item->finding->kind) {
    case SS_FOUND_THINNED:
        if (!pick(c, item, section, picked)) {
            return false;
        }
        status = thin(c, item, picked, section);
        break;
    case SS_FOUND_PLATE_LOOSE:
        if (!pick(c, item, section, picked)) {
            return false;
        }
        status = ss_section_detach(section, picked);
        break;
    case SS_FOUND_WELD_OPEN: status = ss_section_open(section); break;
    case SS_FOUND_SECTION_LOSS:
        (void)ss_read_quantity(&c->reading, item->node, "findings[].loss", &value);
        section->loss = 1.0 - (1.0 - section->loss) * (1.0 - value);
        break;
    default:
        (void)ss_read_quantity(&c->reading, item->node, "findings[].strength_left", &value);
        section->strength_loss = 1.0 - (1.0 - section->strength_loss) * value;
        (void)ss_read_quantity(&c->reading, item->node, "findings[].stiffness_left", &value);
        section->stiffness_loss = 1.0 - (1.0 - section->stiffness_loss) * value;
    }
    if (status != SS_OK || section->loss >= 1.0 || section->strength_loss >= 1.0) {
        ss_read_complain(
            &c->reading, SS_FAULT, item->node, NULL,
            "nothing that carries would be left of the section \"%s\"; seen = \"missing\" says so",
            section->name);
    }
    return c->reading.diags->faults == faults;
}

/* What is due for the kind, before any section is looked at. */
static bool values_given(ss_resolve *c, const ss_finding_item *item) {
    const bool left = ss_read_given(item->node, "thickness_left");
    const bool loss = ss_read_given(item->node, "loss");
    const char *key = NULL;
    switch (item->finding->kind) {
    case SS_FOUND_THINNED:
        if (left == loss) {
            ss_read_complain(&c->reading, SS_FAULT, item->node, left ? "loss" : "thickness_left",
                             "%s; what is left of the thickness, or the share that is gone, is due",
                             left ? "thickness_left is given as well" : "not given");
        }
        return left != loss;
    case SS_FOUND_SECTION_LOSS: key = loss ? NULL : "loss"; break;
    case SS_FOUND_BENT: key = ss_read_given(item->node, "strength_left") ? NULL : "strength_left"; break;
    default: break;
    }
    if (key != NULL) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, key,
                         "not given; a share from 0 to 1 is due, by the engineer's judgement");
    }
    return key == NULL;
}

/* ---- over a stretch --------------------------------------------------------------------------------- */

/* Sections as found, each made once a finding. */
typedef struct found_sections {
    int *copy; /* of each section, or -1 */
    int count;
} found_sections;

static int section_as_found(ss_resolve *c, const ss_finding_item *item, found_sections *found, int section) {
    ss_bridge *const bridge = c->bridge;
    if (found->copy[section] >= 0) {
        return found->copy[section];
    }
    ss_section made = bridge->sections[section];
    if (!change(c, item, &made)) {
        return -1;
    }
    made.name = ss_arena_printf(&bridge->arena, "%s, %s", made.name, item->finding->name);
    ss_section *const grown = ss_resolve_grow(c, bridge->sections, bridge->section_count, sizeof *grown);
    if (made.name == NULL || grown == NULL) {
        c->reading.status = SS_ERROR_MEMORY;
        return -1;
    }
    bridge->sections = grown;
    grown[bridge->section_count] = made;
    found->copy[section] = bridge->section_count++;
    return found->copy[section];
}

static bool fits(ss_resolve *c, const ss_finding_item *item, const ss_line_piece *piece) {
    const ss_section *const section = &c->bridge->sections[piece->section];
    ss_section_properties unused;
    if (ss_section_at(section, piece->depth0, 1.0, &unused, NULL) == SS_OK &&
        ss_section_at(section, piece->depth1, 1.0, &unused, NULL) == SS_OK) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, item->node, NULL,
                     "what is left of \"%s\" does not fit within the depth of the line there", section->name);
    return false;
}

static double depth_at(const ss_line_piece *piece, double x) {
    const double t = (x - piece->x0) / (piece->x1 - piece->x0);
    return piece->depth0 + t * (piece->depth1 - piece->depth0);
}

static bool add_piece(ss_resolve *c, ss_line *line, const ss_line_piece *of, double x0, double x1,
                      int section) {
    return x1 - x0 <= SS_SAME_PLACE ||
           ss_resolve_add_piece(c, line,
                                (ss_line_piece){x0, x1, section, depth_at(of, x0), depth_at(of, x1)});
}

/* The line's pieces again, behind all others, cut at the ends of the stretch. */
static void change_line(ss_resolve *c, const ss_finding_item *item, found_sections *found) {
    ss_bridge *const bridge = c->bridge;
    ss_line *const line = &bridge->lines[item->line];
    const int first = line->first_piece, count = line->piece_count;
    line->first_piece = bridge->piece_count;
    line->piece_count = 0;
    for (int i = 0; i < count; i++) {
        const ss_line_piece piece = bridge->pieces[first + i];
        const double a = ss_clamp(item->finding->x0, piece.x0, piece.x1);
        const double b = ss_clamp(item->finding->x1, piece.x0, piece.x1);
        int section = piece.section;
        if (b - a > SS_SAME_PLACE) {
            section = section_as_found(c, item, found, piece.section);
        }
        if (section < 0 || !add_piece(c, line, &piece, piece.x0, a, piece.section) ||
            !add_piece(c, line, &piece, a, b, section) ||
            !add_piece(c, line, &piece, b, piece.x1, piece.section)) {
            return;
        }
    }
    for (int i = 0; i < line->piece_count; i++) {
        if (!fits(c, item, &bridge->pieces[line->first_piece + i])) {
            return;
        }
    }
}

static void change_beam(ss_resolve *c, const ss_finding_item *item, found_sections *found) {
    ss_bridge *const bridge = c->bridge;
    const ss_floor_beam *const beam = &bridge->floor_beams[item->beam];
    for (int i = 0; i < beam->part_count; i++) {
        ss_beam_part *const part = &bridge->parts[beam->first_part + i];
        const int section = section_as_found(c, item, found, part->section);
        if (section < 0) {
            return;
        }
        part->section = section;
    }
}

/* ---- words ------------------------------------------------------------------------------------------ */

static void say(ss_resolve *c, ss_finding_item *item) {
    const char *part = "";
    char value[SS_WORDS] = "";
    double number = 0.0;
    double stiff = 1.0;
    (void)ss_read_text(&c->reading, item->node, "findings[].part", &part);
    switch (item->finding->kind) {
    case SS_FOUND_THINNED:
        if (ss_read_quantity(&c->reading, item->node, "findings[].thickness_left", &number)) {
            ss_finding_says(c, item, "%s %s thick", part,
                            ss_resolve_quantity(c, number, SS_DIM_SMALL_LENGTH, value));
        } else if (ss_read_quantity(&c->reading, item->node, "findings[].loss", &number)) {
            ss_finding_says(c, item, "%s of %s is gone", ss_resolve_quantity(c, number, SS_DIM_NUMBER, value),
                            part);
        }
        break;
    case SS_FOUND_PLATE_LOOSE: ss_finding_says(c, item, "%s weighs and carries nothing", part); break;
    case SS_FOUND_WELD_OPEN: ss_finding_says(c, item, "torsion of the open section"); break;
    case SS_FOUND_SECTION_LOSS:
        (void)ss_read_quantity(&c->reading, item->node, "findings[].loss", &number);
        ss_finding_says(c, item, "%s of the section is gone, in stiffness and in strength",
                        ss_resolve_quantity(c, number, SS_DIM_NUMBER, value));
        break;
    default:
        (void)ss_read_quantity(&c->reading, item->node, "findings[].strength_left", &number);
        (void)ss_read_quantity(&c->reading, item->node, "findings[].stiffness_left", &stiff);
        char other[SS_WORDS];
        ss_finding_says(c, item, "%s of the strength is left, %s of the stiffness",
                        ss_resolve_quantity(c, number, SS_DIM_NUMBER, value),
                        ss_resolve_quantity(c, stiff, SS_DIM_NUMBER, other));
    }
}

void ss_finding_change_sections(ss_resolve *c, ss_finding_item *item) {
    if (!values_given(c, item)) {
        return;
    }
    found_sections found = {.count = c->bridge->section_count};
    found.copy = ss_resolve_scratch(c, (size_t)found.count, sizeof *found.copy);
    if (found.copy == NULL) {
        return;
    }
    for (int i = 0; i < found.count; i++) found.copy[i] = -1;
    if (item->on == SS_ON_LINE) {
        change_line(c, item, &found);
    } else {
        change_beam(c, item, &found);
    }
    say(c, item);
}
