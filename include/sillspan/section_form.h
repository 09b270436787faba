/* section_form.h - what kind of beam a set of plates makes, and its parts as rules of strength need them. */
#ifndef SILLSPAN_SECTION_FORM_H
#define SILLSPAN_SECTION_FORM_H

#include "sillspan/section.h"

/** Kinds of cross-section that rules tell apart. */
typedef enum ss_form {
    SS_FORM_UNKNOWN,   /**< given by properties: nothing is known of its plates */
    SS_FORM_I,         /**< one web, two flanges that reach out on both sides, about evenly */
    SS_FORM_CHANNEL,   /**< one web, two flanges on the same side */
    SS_FORM_BOX,       /**< two webs, a closed cell */
    SS_FORM_BATTENED,  /**< two webs, a cell with battens on one side */
    SS_FORM_WEBS,      /**< two webs or more that make no closed cell: open box, trough, a pair of beams */
    SS_FORM_TEE,       /**< one web, one flange that reaches out on both sides, about evenly */
    SS_FORM_ANGLE,     /**< one web, one flange on one side */
    SS_FORM_RECTANGLE, /**< a single plate */
    SS_FORM_OTHER      /**< anything else: Z, uneven flanges, plates that are neither flange nor web */
} ss_form;

/**
 * One flange: all plates stacked or side by side at that end of the section, and upright ones that stand on
 * them beside a web or at an edge (angles' legs, lips). Of a section of the form OTHER, everything on that
 * side of the elastic neutral axis. Lengths in m.
 */
typedef struct ss_form_flange {
    int plates;       /**< 0: there is no flange, and nothing below but the depths */
    double width;     /**< from the outermost edge on the left to that on the right */
    double thickness; /**< of the whole stack, from the extreme fibre to the inner face */
    double area;      /**< m2 */
    double z;         /**< centroid above the lowest fibre */
    double Iy;        /**< m4, about its own vertical axis */
    bool spans;       /**< a plate reaches across, between every two neighbouring webs */
    double outstand;  /**< widest free part, from the face of the web to the edge */
    /** Largest width over thickness of a free part. Each plate of a stack counts by itself, as if the others
     * did not stiffen it. The width is that of the rules: half the flange for I and tee, the whole for
     * channel and angle, from the face of the web for all others. */
    double outstand_ratio;
    double clear;       /**< widest clear distance between webs that a plate bridges; 0: none does */
    double clear_ratio; /**< largest of that over the thickness of one plate; 0: none */
    double Dc;          /**< height of web in compression when this flange is compressed, elastic */
    double Dcp;         /**< the same, plastic */
    /** Radius of gyration about the vertical axis of what buckles sideways when this flange is compressed:
     * the flange plus a third of the web's compressed part. Where no plate ties the webs together, the least
     * of the flange strips, each with its own web. Of OTHER, the stiffest single plate, which carries
     * all that is compressed. 0: no flange. */
    double rt;
} ss_form_flange;

/** A section at one depth. Areas and second moments are those of the plates: an overriding value of the
 * description is not in them. A share of the whole section that was found to be gone is taken off every
 * thickness. */
typedef struct ss_section_form {
    ss_form form;
    double depth; /**< m, less what the outermost plates lost */
    ss_form_flange top, bottom;
    int webs;         /**< side by side with a gap between; plates that touch make one web */
    double web_thin;  /**< m, thinnest web plate; 0 without webs */
    double web_total; /**< m, all webs together */
    double web_clear; /**< m, largest height free of flanges */
    double A;         /**< m2 */
    double Iy, ry;    /**< m4, m; about the vertical axis through the centroid */
    /** m4; what lateral buckling may count on: Iy; of an angle and OTHER the least principal one; of a
     * channel that with two flanges like its smaller one, which taper by 1 in 6 where the shape is "channel"
     * (rolled). */
    double Iy_least;
    /** m4, St Venant: sum of b t^3 / 3 of open forms; 0 of cells, of which ss_section_at tells. A lost share
     * is taken off once, as there. */
    double J;
    /** m4, as Iy_least: J, but of a channel that with two flanges like its smaller one. A lost share is taken
     * off three times, as thickness cubed. */
    double J_least;
    /** m6, warping, on middle lines: h^2 I1 I2 / (I1 + I2) of an I, the closed form of a channel (two flanges
     * like its smaller one). 0 for all others, which is on the safe side. */
    double Cw;
    double ho;           /**< m, between the centroids of the flanges; 0 unless there are two */
    double shear_centre; /**< m, of a channel: from the back of the web, away from the flanges; else 0 */
    double z_elastic, z_plastic; /**< m, neutral axes above the lowest fibre */
    /** 1, or for an angle and OTHER less: moment at first yield when the section is free to bend sideways,
     * over that when it is held to bend vertically. */
    double oblique;
} ss_section_form;

/**
 * The form of `section` at overall depth `depth` (m), by its plates. A given section has the form UNKNOWN and
 * zeros. Widths, thicknesses and areas of a stack are found from how the rectangles touch (within 10 mm);
 * what fits no form is OTHER. Plates without area, or not finite, give OTHER with zeros. SS_ERROR_DESCRIPTION
 * when the plates do not fit within the depth; `out` is then left alone.
 */
ss_status ss_section_form_at(const ss_section *section, double depth, ss_section_form *out, ss_error *error);

/** "I section", "channel", ... */
const char *ss_form_name(ss_form form);

#endif
