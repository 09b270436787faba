/* search_note.c - the list of the worst positions of each effect, and what the next must reach. */
#include <string.h>

#include "base/numeric.h"
#include "response/search_parts.h"

/* Values that differ by less than this share are equal: the first in order wins. */
#define TIE 1e-9
/* Positions of one truck on one track nearer than this count as one candidate (m). */
#define DISTINCT 2.0
/* Candidates are complete down to this share of the worst. */
#define NEAR 0.97

static bool earlier(const ss_found *a, const ss_found *b) {
    if (a->track != b->track) {
        return a->track < b->track;
    }
    if (a->on_beam != b->on_beam) {
        return b->on_beam;
    }
    return a->x < b->x;
}

static bool worse(const ss_found *a, const ss_found *b) {
    if (b->track < 0) {
        return true;
    }
    const double tie = TIE * fabs(b->value);
    return a->value > b->value + tie || (a->value >= b->value - tie && earlier(a, b));
}

/* Puts `found` into the list unless a worse one stands at about the same place. With contact other positions
 * may govern at another load: if they are asked for, those that come near the worst are wanted too. */
void ss_search_note_lane(ss_searcher *s, int side, int lane, const ss_found *found) {
    ss_found_set *const set = &s->found[s->traffic];
    ss_found *const list = set->best[lane][side];
    int slot = s->keep_candidates ? SS_CANDIDATES - 1 : 0;
    for (int i = 0; i < slot; i++) {
        if (list[i].track == found->track && fabs(list[i].x - found->x) < DISTINCT) {
            slot = i;
            break;
        }
    }
    if (!worse(found, &list[slot])) {
        return;
    }
    while (slot > 0 && worse(found, &list[slot - 1])) {
        list[slot] = list[slot - 1];
        slot--;
    }
    list[slot] = *found;
    double least = list[0].value * (s->keep_candidates ? NEAR : 1.0);
    if (s->keep_candidates && list[SS_CANDIDATES - 1].track >= 0) {
        least = ss_max(least, list[SS_CANDIDATES - 1].value);
    }
    double *const threshold = &set->threshold[side * SS_TILE + lane];
    *threshold = ss_max(*threshold, least * (1.0 - TIE));
}

void ss_search_note(ss_searcher *s, const double values[SS_TILE], const ss_found *position) {
    const double *const threshold = s->found[s->traffic].threshold;
    if (!s->lines->kernel->reaches(values, threshold)) {
        return;
    }
    for (int lane = 0; lane < s->lanes; lane++) {
        ss_found found = *position;
        if (values[lane] >= threshold[SS_TILE + lane]) {
            found.value = values[lane];
            ss_search_note_lane(s, 1, lane, &found);
        }
        if (-values[lane] >= threshold[lane]) {
            found.value = -values[lane];
            ss_search_note_lane(s, 0, lane, &found);
        }
    }
}
