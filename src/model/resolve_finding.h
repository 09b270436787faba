/* resolve_finding.h - findings while they are resolved: what they are about, and the parts of the work. */
#ifndef SS_MODEL_RESOLVE_FINDING_H
#define SS_MODEL_RESOLVE_FINDING_H

#include "model/resolve.h"

/** What a finding is about. */
typedef enum ss_found_on { SS_ON_LINE, SS_ON_BEAM, SS_ON_JOINT, SS_ON_BEARING, SS_ON_DECK } ss_found_on;

/** Findings shorter than this, in m, have no length. */
#define SS_FINDING_SHORT 0.01

/** One finding in use, beside its bridge->findings. */
typedef struct ss_finding_item {
    const ss_node *node;
    ss_finding *finding;
    ss_found_on on;
    int car, line, beam; /**< as laid, before anything is cut out; -1: none */
    bool ranged;         /**< from or to is given; else the whole member */
    bool hinge;          /**< CRACKED: passes no bending at finding->x0, or at `line` for a floor beam */
    bool sound;          /**< nothing is wrong with it so far */
} ss_finding_item;

/** Whether a member or a stretch of it is cut out. */
bool ss_finding_cuts(const ss_finding_item *item);

/** Thinner plates, lost shares, open boxes, bent members: sections of their own over the stretch. */
void ss_finding_change_sections(ss_resolve *c, ss_finding_item *item);

/** Cuts out all that is missing, and marks cracks, in one go: lines and floor beams are numbered anew. */
void ss_finding_cut_members(ss_resolve *c);

/** Sets the words of what it does; printf. */
#if defined(__GNUC__)
__attribute__((format(printf, 3, 4)))
#endif
void ss_finding_says(ss_resolve *c, ss_finding_item *item, const char *format, ...);

#endif
