/* figure.h - figures as one list of lines, areas and texts on a page in millimetres, which any writer can
 * draw. */
#ifndef SILLSPAN_FIGURE_H
#define SILLSPAN_FIGURE_H

#include <stdbool.h>

#include "sillspan/memory.h"
#include "sillspan/report.h"

/** What a mark stands for. How that looks (width, dashes, hatching) is the writer's. */
typedef enum ss_figure_role {
    SS_FIGURE_OUTLINE, /**< edge of a car, of a member in elevation */
    SS_FIGURE_MAIN_GIRDER,
    SS_FIGURE_EDGE_GIRDER,
    SS_FIGURE_STRINGER,
    SS_FIGURE_FLOOR_BEAM,
    SS_FIGURE_JOINT,
    SS_FIGURE_BEARING,     /**< acts both ways */
    SS_FIGURE_CONTACT,     /**< bearing that pushes only */
    SS_FIGURE_FINDING,     /**< what was seen, and what points to it */
    SS_FIGURE_STEEL,       /**< steel that is cut through */
    SS_FIGURE_UNKNOWN,     /**< a member whose plates are not known */
    SS_FIGURE_GIRDER_SIDE, /**< steel seen from the side */
    SS_FIGURE_SLAB,        /**< concrete that is cut through */
    SS_FIGURE_GROUND,      /**< what bearings stand on */
    SS_FIGURE_CURB,
    SS_FIGURE_AXIS,
    SS_FIGURE_GRID,
    SS_FIGURE_CURVE_1,
    SS_FIGURE_CURVE_2,
    SS_FIGURE_CURVE_3,
    SS_FIGURE_CURVE_4,
    SS_FIGURE_DOT,      /**< a point of a curve that is told of */
    SS_FIGURE_RING,     /**< the same where it does not hold: open */
    SS_FIGURE_BAR,      /**< a bar from an axis */
    SS_FIGURE_BAND,     /**< a range behind curves */
    SS_FIGURE_BAR_MAIN, /**< part of a bar: of a main girder */
    SS_FIGURE_BAR_EDGE,
    SS_FIGURE_BAR_STRINGER,
    SS_FIGURE_BOARD,   /**< of a sign */
    SS_FIGURE_CONTOUR, /**< line of equal values above zero */
    SS_FIGURE_CONTOUR_ZERO,
    SS_FIGURE_CONTOUR_BELOW,
    SS_FIGURE_PLACE,          /**< cross at the place that a figure is of */
    SS_FIGURE_LIMIT,          /**< what must not be passed */
    SS_FIGURE_LIMIT_HEAVY,    /**< the same where it is what the figure is about */
    SS_FIGURE_LEADER,         /**< from a label to what it names */
    SS_FIGURE_BALLOON,        /**< circle of a number */
    SS_FIGURE_FINDING_LEADER, /**< from a number to what was seen */
    SS_FIGURE_LABEL,
    SS_FIGURE_CAPTION,
    SS_FIGURE_ROLES
} ss_figure_role;

typedef enum ss_mark_kind {
    SS_MARK_LINE,    /**< two points or more, open */
    SS_MARK_POLYGON, /**< three points or more, closed, filled as its role says */
    SS_MARK_TEXT
} ss_mark_kind;

/** mm on the page, from its top left corner, y down. */
typedef struct ss_spot {
    double x, y;
} ss_spot;

/** One thing that is drawn. Of a text `points` is one point on its base line; `anchor` -1: the text ends
 * there, 0: it is centred there, 1: it begins there. */
typedef struct ss_mark {
    ss_mark_kind kind;
    ss_figure_role role;
    int count;
    const ss_spot *points;
    const char *text;
    int anchor;
    double size;  /**< mm, height of the letters' body */
    bool upright; /**< turned by a quarter, reads from below */
} ss_mark;

/** A page with marks in the order in which they are drawn. A zeroed struct but for its size is an empty page.
 * After a failed allocation `failed` stays set and everything below does nothing, so only the end need be
 * checked. */
typedef struct ss_figure {
    const char *key;      /**< "plan" */
    const char *title;    /**< one line */
    const char *text;     /**< what is to be seen, for those who cannot see it */
    double width, height; /**< mm */
    ss_mark *marks;
    int count, capacity;
    ss_arena arena;
    bool failed;
} ss_figure;

/** Adds an open line through points, which are copied. Points that are not finite make it fail. */
void ss_figure_path(ss_figure *figure, ss_figure_role role, const ss_spot *points, int count);
void ss_figure_line(ss_figure *figure, ss_figure_role role, ss_spot from, ss_spot to);
/** Adds a closed area. */
void ss_figure_area(ss_figure *figure, ss_figure_role role, const ss_spot *points, int count);
/** Adds a rectangle with these opposite corners. */
void ss_figure_box(ss_figure *figure, ss_figure_role role, ss_spot from, ss_spot to);
/** Adds a circle, as an area of 24 corners. */
void ss_figure_disc(ss_figure *figure, ss_figure_role role, ss_spot middle, double radius);

/** How a text is set. */
typedef struct ss_lettering {
    ss_figure_role role;
    int anchor;
    double size;
    bool upright;
} ss_lettering;

/** Adds a text, which is copied. */
void ss_figure_text(ss_figure *figure, ss_lettering how, ss_spot at, const char *text);

/** A copy of a text in the figure's memory; "" after a failure. */
const char *ss_figure_keep(ss_figure *figure, const char *text);

/** About how wide a text will be, mm: rather too wide, as the reader's letters are not known. */
double ss_figure_text_width(const char *text, double size);

/**
 * Moves labels apart along one direction: `at` are the wanted middles in any order, `size` the room of each.
 * Every one gets as near to where it was wanted as its neighbours let it (least squares); none leaves
 * [low, high] unless all together are longer, and then they keep their order and overlap evenly. False: no
 * memory, and nothing is moved.
 */
bool ss_figure_spread(double *at, const double *size, int count, double low, double high);

void ss_figure_destroy(ss_figure *figure);

/** One axis of a plot: from values to mm. */
typedef struct ss_scale {
    double low, high; /**< values, low < high; above 0 where log */
    double from, to;  /**< mm of low and high */
    bool log;
} ss_scale;

double ss_scale_at(const ss_scale *scale, double value);

enum { SS_TICKS_MAX = 24 };

/** Round values within the scale, 1, 2 or 5 times a power of ten apart, at most `most` (2 to SS_TICKS_MAX) of
 * them; of a log scale powers of ten, with 2 and 5 between them where there is room. Returns how many. */
int ss_scale_ticks(const ss_scale *scale, int most, double values[SS_TICKS_MAX]);

/** Widens a range to round values: low and high become ticks of what ss_scale_ticks would give. */
void ss_scale_round(double *low, double *high, int most);

/** Where an axis stands and what is written beside it. */
typedef struct ss_axis {
    ss_scale scale;
    bool upright;      /**< y; else x */
    bool far_side;     /**< values and title stand to the right of an upright axis, not to the left */
    double at;         /**< mm: where the axis line stands across itself */
    double grid_to;    /**< mm: grid lines run from the axis to here; equal to `at`: no grid */
    int most;          /**< ticks */
    const char *title; /**< with its unit; NULL: none */
} ss_axis;

/** Adds the axis: line, ticks, values beside them on the outer side (below, or left), title. */
void ss_figure_axis(ss_figure *figure, const ss_axis *axis);

/** Heights of letters on all figures, mm. */
#define SS_LETTERS_SMALL 2.3
#define SS_LETTERS 2.6
#define SS_LETTERS_TITLE 3.6

/**
 * The figures of a bridge. Each makes a whole page from `results`, whose bridge is needed, in `units`; on
 * failure (SS_ERROR_MEMORY) *out is an empty page. The texts are its own.
 */

/** From above and to scale: cars, lines, floor beams, joints, bearings, curbs, findings. */
ss_status ss_figure_plan(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);
/** Across at midlength, to scale: the plates of each line, a slab, curbs. */
ss_status ss_figure_section(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);
/** The main girders from the side, one above the other: depth, bearings and daylight over them, findings. */
ss_status ss_figure_elevation(const ss_results *results, ss_unit_system units, ss_figure *out,
                              ss_error *error);

/** Along each girder: dead load alone, and with the least and the most that any truck adds, unfactored, with
 * what resists it behind where that is known (nominal). results->along or envelope, permanent and placements
 * are needed: all lines that have effects of that kind in `along`, or else the main girders in the envelope.
 * Errors as ss_ratings_compute. */
ss_status ss_figure_moment(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);
ss_status ss_figure_shear(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);
ss_status ss_figure_deflection(const ss_results *results, ss_unit_system units, ss_figure *out,
                               ss_error *error);

/** How the lines share the bending from each truck, a bar for each of results->shares, which is needed with
 * placements. */
ss_status ss_figure_share(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);

/** A sketch of what results->posting recommends, on a board in plain words; NULL: that there is none. */
ss_status ss_figure_sign(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);

/** The least rating factor along the girders of each car, and the stringers and floor beams that rate least.
 * results->rated, rated_along, placements and mesh are needed; without ratings it says that there are none.
 */
ss_status ss_figure_rating(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);

/** The influence surface of results->influence, or of what governs results->rated, as lines of equal values
 * over the plan. results->permanent and mesh are needed. Errors as ss_influence_grid_compute. */
ss_status ss_figure_influence(const ss_results *results, ss_unit_system units, ss_figure *out,
                              ss_error *error);

/**
 * Figures of the studies; each needs what is named of `results` besides the bridge. Errors: no memory.
 */

/** results->sweep: rating, shares and a joint's shear along what is gone through. */
ss_status ss_figure_sweep(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);
/** results->comparison: the factor of each variant on one axis. */
ss_status ss_figure_compare(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);
/** results->bounds: what each unknown does by itself, and all together. */
ss_status ss_figure_bounds(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);
/** results->sample: how ratings of the draws spread. */
ss_status ss_figure_sample(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);
/** results->size: factor of everything that was tried against the weight that it adds. */
ss_status ss_figure_size(const ss_results *results, ss_unit_system units, ss_figure *out, ss_error *error);

#endif
