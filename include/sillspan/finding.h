/* finding.h - what an inspector saw, as it was understood. */
#ifndef SILLSPAN_FINDING_H
#define SILLSPAN_FINDING_H

/** What an inspector saw. */
typedef enum ss_finding_kind {
    SS_FOUND_THINNED,      /**< a plate is thinner than described */
    SS_FOUND_SECTION_LOSS, /**< a share of the whole section is gone */
    SS_FOUND_PLATE_LOOSE,  /**< a plate hangs on and carries nothing */
    SS_FOUND_WELD_OPEN,    /**< a box is open over a length */
    SS_FOUND_BENT,
    SS_FOUND_CRACKED, /**< a hinge, or the member is out; of a joint as LOOSE */
    SS_FOUND_MISSING,
    SS_FOUND_LOOSE, /**< a joint ties nothing over a length */
    SS_FOUND_GAP,   /**< daylight over a bearing */
    SS_FOUND_SETTLED,
    SS_FOUND_SOFT,  /**< a bearing on dirt */
    SS_FOUND_HOLE,  /**< in the deck */
    SS_FOUND_GRAVEL /**< more than described */
} ss_finding_kind;

/** A finding that counts, as it was understood. */
typedef struct ss_finding {
    const char *name, *note; /**< note NULL: none */
    const char *where;       /**< for people: "main girder of car north, 24 ft to 29 ft" */
    const char *effect;      /**< for people, what it does to the model and to strength */
    ss_finding_kind kind;
    const char *member; /**< the line or floor beam that it is about, without its part; NULL: another thing */
    int car;            /**< of that member */
    double x0, x1;      /**< m, along the bridge; equal at a place */
    double y0, y1;      /**< m, across; equal on a line or a joint */
} ss_finding;

#endif
