/* figure_look.c - the drafting table's look: ink on paper, told apart by width, dashes and hatching; one
 * muted red is for what was seen and for limits. */
#include "io/figure_look.h"

enum { RED = 0x8f3f2c, SOFT = 0x6b6a65, PALE = 0xb9b7ae };

/* Letters of ink; what a row leaves out is not there. */
#define LOOK(...)                                                                                            \
    { .letters = SS_INK, __VA_ARGS__ }

static const ss_look looks[SS_FIGURE_ROLES] = {
    [SS_FIGURE_OUTLINE] = LOOK(.name = "outline", .stroke = SS_INK, .width = 0.18),
    [SS_FIGURE_MAIN_GIRDER] = LOOK(.name = "main-girder", .stroke = SS_INK, .width = 0.8),
    [SS_FIGURE_EDGE_GIRDER] = LOOK(.name = "edge-girder", .stroke = SS_INK, .width = 0.4),
    [SS_FIGURE_STRINGER] = LOOK(.name = "stringer", .stroke = SS_INK, .width = 0.2),
    [SS_FIGURE_FLOOR_BEAM] = LOOK(.name = "floor-beam", .stroke = SOFT, .width = 0.2),
    [SS_FIGURE_JOINT] = LOOK(.name = "joint", .stroke = SS_INK, .width = 0.5, .dashes = {0.5, 0.7}),
    [SS_FIGURE_BEARING] = LOOK(.name = "bearing", .stroke = SS_INK, .width = 0.25, .fill = SS_INK),
    [SS_FIGURE_CONTACT] = LOOK(.name = "contact", .stroke = SS_INK, .width = 0.3, .fill = SS_PAPER),
    [SS_FIGURE_FINDING] =
        {.name = "finding", .stroke = RED, .width = 0.3, .hatch = SS_HATCH_SEEN, .letters = RED},
    [SS_FIGURE_STEEL] = LOOK(.name = "steel", .stroke = SS_INK, .width = 0.1, .fill = SS_INK),
    [SS_FIGURE_UNKNOWN] = LOOK(.name = "unknown", .stroke = SS_INK, .width = 0.25, .dashes = {1.0, 0.6}),
    [SS_FIGURE_GIRDER_SIDE] = LOOK(.name = "girder-side", .stroke = SS_INK, .width = 0.3, .fill = 0xf6f5f0),
    [SS_FIGURE_SLAB] = LOOK(.name = "slab", .stroke = SS_INK, .width = 0.25, .hatch = SS_HATCH_CONCRETE),
    [SS_FIGURE_GROUND] = LOOK(.name = "ground", .hatch = SS_HATCH_EARTH),
    [SS_FIGURE_CURB] = LOOK(.name = "curb", .stroke = SS_INK, .width = 0.3, .dashes = {3.0, 0.8, 0.6, 0.8}),
    [SS_FIGURE_AXIS] = LOOK(.name = "axis", .stroke = SS_INK, .width = 0.18),
    [SS_FIGURE_GRID] = LOOK(.name = "grid", .stroke = PALE, .width = 0.1),
    [SS_FIGURE_CURVE_1] = LOOK(.name = "curve-1", .stroke = SS_INK, .width = 0.7),
    [SS_FIGURE_CURVE_2] = LOOK(.name = "curve-2", .stroke = SS_INK, .width = 0.45, .dashes = {2.4, 0.9}),
    [SS_FIGURE_CURVE_3] = LOOK(.name = "curve-3", .stroke = SS_INK, .width = 0.45, .dashes = {0.6, 0.7}),
    [SS_FIGURE_CURVE_4] = LOOK(.name = "curve-4", .stroke = SS_INK, .width = 0.25),
    [SS_FIGURE_DOT] = LOOK(.name = "dot", .stroke = SS_PAPER, .width = 0.2, .fill = SS_INK),
    [SS_FIGURE_RING] = LOOK(.name = "ring", .stroke = SS_INK, .width = 0.3, .fill = SS_PAPER),
    [SS_FIGURE_BAR] = LOOK(.name = "bar", .stroke = SS_INK, .width = 0.2, .fill = 0xd3d1c7),
    [SS_FIGURE_BAND] = LOOK(.name = "band", .fill = 0xe9e7df),
    [SS_FIGURE_BAR_MAIN] = LOOK(.name = "bar-main", .stroke = SS_INK, .width = 0.25, .fill = 0xdcd9cd),
    [SS_FIGURE_BAR_EDGE] = LOOK(.name = "bar-edge", .stroke = SS_INK, .width = 0.18, .fill = 0xf1efe8),
    [SS_FIGURE_BAR_STRINGER] =
        LOOK(.name = "bar-stringer", .stroke = SS_INK, .width = 0.12, .fill = SS_PAPER),
    [SS_FIGURE_BOARD] = LOOK(.name = "board", .stroke = SS_INK, .width = 0.7, .fill = SS_PAPER),
    [SS_FIGURE_CONTOUR] = LOOK(.name = "contour", .stroke = SS_INK, .width = 0.25),
    [SS_FIGURE_CONTOUR_ZERO] = LOOK(.name = "contour-zero", .stroke = SS_INK, .width = 0.6),
    [SS_FIGURE_CONTOUR_BELOW] =
        LOOK(.name = "contour-below", .stroke = SS_INK, .width = 0.25, .dashes = {1.6, 0.8}),
    [SS_FIGURE_PLACE] = LOOK(.name = "place", .stroke = RED, .width = 0.4),
    [SS_FIGURE_LIMIT] = LOOK(.name = "limit", .stroke = RED, .width = 0.3, .dashes = {3.0, 1.0, 0.6, 1.0}),
    [SS_FIGURE_LIMIT_HEAVY] = LOOK(.name = "limit-heavy", .stroke = RED, .width = 0.6),
    [SS_FIGURE_LEADER] = LOOK(.name = "leader", .stroke = SOFT, .width = 0.12),
    [SS_FIGURE_BALLOON] = LOOK(.name = "balloon", .stroke = RED, .width = 0.2, .fill = SS_PAPER),
    [SS_FIGURE_FINDING_LEADER] = LOOK(.name = "finding-leader", .stroke = RED, .width = 0.15),
    [SS_FIGURE_LABEL] = LOOK(.name = "label", .stroke = SS_INK, .width = 0.25),
    [SS_FIGURE_CAPTION] = LOOK(.name = "caption", .stroke = SS_INK, .width = 0.25, .bold = true),
};

static const ss_hatching hatchings[SS_HATCHES] = {
    [SS_HATCH_SEEN] =
        {.name = "seen", .ink = RED, .ground = SS_PAPER, .cover = 0.6, .pitch = 1.0, .width = 0.3},
    [SS_HATCH_CONCRETE] = {.name = "concrete",
                           .ink = SS_INK,
                           .ground = 0xf3f2ee,
                           .cover = 1.0,
                           .tile_width = 3.0,
                           .tile_height = 2.4,
                           .grains = {{0.6, 0.6, 0.13}, {2.0, 0.9, 0.2}, {1.3, 1.8, 0.16}, {2.6, 2.0, 0.1}}},
    [SS_HATCH_EARTH] = {.name = "earth", .ink = SS_INK, .pitch = 0.8, .width = 0.2},
};

const ss_look *ss_figure_look(ss_figure_role role) {
    return &looks[role];
}

int ss_look_dashes(const ss_look *look) {
    int count = 0;
    while (count < SS_DASHES && look->dashes[count] > 0.0) {
        count++;
    }
    return count;
}

const ss_hatching *ss_figure_hatching(ss_hatch hatch) {
    return &hatchings[hatch];
}
