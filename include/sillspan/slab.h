/* slab.h - a concrete deck cast on the cars: what it is made of, how it is cast, and which lines act with it.
 */
#ifndef SILLSPAN_SLAB_H
#define SILLSPAN_SLAB_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/** What the slab is over the gap between two cars, in the order of the words of slab.joint. */
typedef enum ss_slab_joint {
    SS_SLAB_JOINT_WHOLE,   /**< runs through, uncracked */
    SS_SLAB_JOINT_CRACKED, /**< runs through, cracked across: what its bars leave of the stiffness */
    SS_SLAB_JOINT_HINGED,  /**< passes shear and no bending */
    SS_SLAB_JOINT_OPEN     /**< ends at the gap */
} ss_slab_joint;

/** One layer of bars; spacing 0: there is none. */
typedef struct ss_bars {
    double diameter, spacing; /**< m */
    double depth;             /**< m, from the top of the slab to their middle */
} ss_bars;

/** Area of a layer, m2 per m of slab. */
static inline double ss_bars_area(const ss_bars *bars) {
    const double quarter_pi = 0.78539816339744831;
    return bars->spacing > 0.0 ? quarter_pi * bars->diameter * bars->diameter / bars->spacing : 0.0;
}

typedef enum ss_connector_kind { SS_CONNECTOR_STUDS, SS_CONNECTOR_CHANNELS } ss_connector_kind;

/** What ties the slab to a line. */
typedef struct ss_connectors {
    ss_connector_kind kind;
    double diameter, height; /**< studs: m */
    double tensile;          /**< studs: Pa */
    double flange, web;      /**< channels: m, thickness */
    double length;           /**< channels: m across the line */
    int per_row;             /**< studs side by side; 1 for channels */
    double across;           /**< m from stud to stud of a row, middle to middle */
    double pitch;            /**< m from row to row; 0: as many as full composite action needs */
    bool partial;            /**< a given pitch that ties part of the force counts as partial action */
} ss_connectors;

/** A part of the slab that is cast at once; those before it have hardened. */
typedef struct ss_pour {
    const char *name;
    double x0, x1, y0, y1; /**< m */
} ss_pour;

/** A prop under a line while the slab is cast, put in touching after the old deck is off. */
typedef struct ss_shore {
    int line;
    double x;
} ss_shore;

/** How a line stands to the slab. */
typedef struct ss_slab_line {
    bool composite;
    const char *why; /**< NULL, or why it is not: "not asked for", "3/4 in studs need a plate of 0.30 in" */
    double width;    /**< m of slab that act with it, where it is over its whole length */
    double y0, y1;   /**< m, where that width lies */
    double plate;    /**< m, steel that connectors stand on; 0: not known */
    bool over_web;   /**< connectors stand over a web, so that the plate's thickness does not matter */
    ss_connectors connectors; /**< of this line: fewer side by side where its flange is narrow; per_row 0:
                                 those of the slab */
} ss_slab_line;

/** How stiff the concrete is taken to be, and which of it has hardened. */
typedef struct ss_slab_stage {
    uint32_t hard;  /**< pours that have hardened, bit by bit; 0: bare cars */
    bool long_term; /**< under load that stays: the modular ratio times long_factor */
} ss_slab_stage;

enum { SS_POURS_MAX = 16 };

/** Steel plate of the old deck that stays under the slab as formwork. */
typedef struct ss_slab_form {
    const char *name; /**< NULL: none stays */
    double thickness; /**< m; 0: not given */
    int steel;        /**< in the bridge's steels; -1: not given */
    double weight;    /**< N/m2 */
    bool along;       /**< spans to floor beams, else to lines */
} ss_slab_form;

typedef struct ss_slab {
    bool given; /**< false: there is none, and nothing below */
    double x0, x1, y0, y1;
    double thickness;
    double haunch;       /**< m from the steel's top to the slab's underside; carries nothing and weighs */
    double haunch_width; /**< m over each composite line, for its weight */
    double fc;           /**< Pa */
    double density;      /**< N/m3 of the reinforced concrete, as it weighs */
    double E;            /**< Pa, of the concrete */
    double n;            /**< modular ratio of the cars' steel, short term; NaN: of each steel, E / E */
    double long_factor;  /**< on n under load that stays: 3, or 1 + creep coefficient */
    ss_bars top_across, bottom_across, top_along, bottom_along;
    double bar_fy; /**< Pa; bars have the E of the cars' steel */
    ss_slab_joint joint;
    double joint_left;    /**< CRACKED: share of the whole slab's bending stiffness; NaN: by its bars */
    bool joints_hold_wet; /**< the cars' own joints act while the slab is wet */
    double construction;  /**< Pa, people and gear while it is cast; checked, not carried on */
    bool first_yield;     /**< strength by first yield in stages though a plastic moment could be taken */
    double strip_spacing; /**< m at most between the strips that carry across */
    ss_connectors connectors;
    ss_pour *pours;
    int pour_count; /**< 1 to SS_POURS_MAX */
    ss_shore *shores;
    int shore_count;     /**< 0: unshored */
    ss_slab_line *lines; /**< one for each line of the bridge */
    ss_slab_form form;
} ss_slab;

struct ss_bridge;

/** The connectors that stand on a line. */
static inline const ss_connectors *ss_slab_connectors_on(const ss_slab *slab, int line) {
    return slab->lines != NULL && slab->lines[line].connectors.per_row > 0 ? &slab->lines[line].connectors
                                                                           : &slab->connectors;
}

/** Concrete and bars that act with a line at one place. */
typedef struct ss_slab_flange {
    double width, thickness;
    double haunch;
    double n; /**< modular ratio of that stage */
    double fc, E;
    double top, bottom;             /**< m2 of bars along the line, in both layers */
    double top_depth, bottom_depth; /**< m from the top of the slab */
    double bar_fy;
} ss_slab_flange;

/** The slab is cut along the bridge into panels of one length, as many as strip_spacing asks for; what
 * carries across a panel, strips and what ties the cars over a gap, is in its middle. */
int ss_slab_panels(const ss_slab *slab);
/** Length of a panel along the bridge (m). */
double ss_slab_panel_width(const ss_slab *slab);

/** All pours hard, under load that comes and goes. */
ss_slab_stage ss_slab_finished(const ss_slab *slab);

/** What acts with a line at x, on the side `before` (else after), in a stage. False: nothing does; *out is
 * then left alone. */
bool ss_slab_flange_at(const struct ss_bridge *bridge, int line, double x, bool before, ss_slab_stage stage,
                       ss_slab_flange *out);

/** Whether the slab over a place (x just before or just after, any y) has hardened. */
bool ss_slab_hard_at(const ss_slab *slab, double x, bool before, double y, ss_slab_stage stage);

#endif
