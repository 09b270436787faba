/* search_note.c - the worst position of each effect, and what the next must reach. */
#include "base/numeric.h"
#include "response/search_parts.h"

/* Values that differ by less than this share are equal: the first in order wins. */
#define TIE 1e-9

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

void ss_search_note_lane(ss_searcher *s, int side, int lane, const ss_found *found) {
    ss_found_set *const set = &s->found[s->target];
    ss_found *const best = &set->best[lane][side];
    const int at = side * SS_TILE + lane;
    ss_found here = *found;
    if (s->loads != NULL) {
        here.value += s->add[at];
    }
    if (worse(&here, best)) {
        *best = here;
        set->threshold[at] = ss_max(set->threshold[at], here.value * (1.0 - TIE));
        if (s->loads != NULL) {
            s->own[at] = set->threshold[at] - s->add[at];
        }
    }
}

void ss_search_note(ss_searcher *s, const double values[SS_TILE], const ss_found *position) {
    const double *const threshold = s->want;
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
