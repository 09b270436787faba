/* bracing.h - what holds the compressed flange of a member sideways. */
#ifndef SS_ASSESS_BRACING_H
#define SS_ASSESS_BRACING_H

#include "sillspan/mesh.h"

/** A stretch of a member whose compressed flange nothing holds. */
typedef struct ss_bracing_stretch {
    double length;    /**< m; 0: held all along */
    double Cb;        /**< at least 1 */
    const char *held; /**< for people, by what: "floor beams", "given", "the deck" */
} ss_bracing_stretch;

/**
 * Around a place of a line or floor beam, on the side `before` or after. The top flange (compressed where it
 * sags) is held by floor beams and bearings, or all along by a deck that is fastened to it; the bottom flange
 * by bearings and by floor beams at least half as deep as the line there. A floor beam's top flange is held
 * where it crosses lines, its bottom flange at main and exterior girders. Beyond the last of them the
 * stretch goes to the end of the member.
 */
ss_bracing_stretch ss_bracing_at(const ss_bridge *bridge, const ss_effect *effect, bool top);

#endif
