/* figure_look.h - how each role of a figure looks, the same in every form of writing. */
#ifndef SS_FIGURE_LOOK_H
#define SS_FIGURE_LOOK_H

#include "sillspan/figure.h"

/** Colours are 0xRRGGBB. Pure black is none: ink is not quite black. */
enum { SS_NO_COLOUR = 0, SS_INK = 0x1c1c1a, SS_PAPER = 0xffffff };

/** What an area may be filled with besides a colour. */
typedef enum ss_hatch {
    SS_HATCH_NONE,
    SS_HATCH_SEEN,
    SS_HATCH_CONCRETE,
    SS_HATCH_EARTH,
    SS_HATCHES
} ss_hatch;

enum { SS_DASHES = 4 };

/** How the lines, areas and texts of a role look. Lengths are mm. */
typedef struct ss_look {
    const char *name; /**< a plain word: the class of SVG */
    int stroke;       /**< colour of lines and borders, or SS_NO_COLOUR */
    double width;
    double dashes[SS_DASHES]; /**< on, off, and so on; all 0: no dashes */
    int fill;                 /**< colour within areas, or SS_NO_COLOUR */
    ss_hatch hatch;           /**< within areas, in place of the colour */
    int letters;              /**< colour of texts */
    bool bold;                /**< texts */
} ss_look;

/** Never NULL. */
const ss_look *ss_figure_look(ss_figure_role role);

/** How many of a look's dashes count. */
int ss_look_dashes(const ss_look *look);

/** One grain of a hatching: a dot within its tile. */
typedef struct ss_grain {
    double x, y, radius;
} ss_grain;

enum { SS_GRAINS = 4 };

/** A hatching: lines rising to the right at 45 degrees, or grains in tiles. Both begin at the page's corner.
 */
typedef struct ss_hatching {
    const char *name;
    int ink;
    int ground;          /**< colour behind, or SS_NO_COLOUR */
    double cover;        /**< of the ground: 1 hides what is below */
    double pitch, width; /**< of the lines, mm; 0: grains */
    double tile_width, tile_height;
    ss_grain grains[SS_GRAINS];
} ss_hatching;

/** Of SS_HATCH_SEEN and on. */
const ss_hatching *ss_figure_hatching(ss_hatch hatch);

#endif
