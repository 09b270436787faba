/* report_ratings_proof.c - what is proven of factors of trucks abreast on bearings that lift. */
#include <math.h>

#include "report/report_ratings.h"
#include "report/report_words.h"

const char *ss_rated_arrangements(ss_builder *b, const ss_rating_item *item) {
    const double count = item->arrangements;
    return count < 1e6 ? ss_build_text(b, "%s arrangements", ss_words_decimals(b, count, 0))
                       : ss_build_text(b, "%s million arrangements", ss_words_decimals(b, 1e-6 * count, 1));
}

typedef struct proofs {
    int asked, proven, open;
    double widest; /* of those that are proven, as a share */
} proofs;

static void count_one(const ss_rating_item *item, proofs *out) {
    if (!ss_rated_abreast(item) || !isfinite(item->rf) || !(item->rf > 0.0)) {
        return;
    }
    const double width = 1.0 - item->proved / item->rf;
    out->asked++;
    if (width <= SS_RATING_PROVED_WITHIN) {
        out->proven++;
        out->widest = fmax(out->widest, width);
    } else if (!isnan(width)) {
        out->open++;
    }
}

void ss_rated_proofs(ss_builder *b, ss_points *points) {
    const ss_ratings *const ratings = b->results->rated;
    proofs found = {0};
    bool lifts = false;
    for (int i = 0; i < b->results->bridge->bearing_count; i++) {
        lifts = lifts || b->results->bridge->bearings[i].contact;
    }
    for (int at = 0; ratings != NULL && lifts && at < ratings->check_count * ratings->traffic_count; at++) {
        if (ratings->governing[at] >= 0) {
            count_one(&ratings->items[ratings->governing[at]], &found);
        }
    }
    if (found.asked == 0) {
        return;
    }
    const int rest = found.asked - found.proven - found.open;
    ss_point(
        b, points,
        "Factors of trucks abreast are sought, and a worse arrangement may be missed where bearings lift. "
        "Of the %s that govern a check and a crossing, %s proved for the section that governs: no "
        "arrangement of the places tried fills it below the factor, to within %s %%.%s%s",
        ss_words_count(b, found.asked, "factor", "factors"),
        ss_build_text(b, found.proven == 1 ? "%d is" : "%d are", found.proven),
        ss_words_decimals(b, 100.0 * found.widest, 1),
        found.open == 0 ? ""
                        : ss_build_text(b,
                                        " For %d more the proof ends farther below: there the proved "
                                        "factor, which JSON and CSV have, is the conservative one.",
                                        found.open),
        rest == 0 ? ""
                  : ss_build_text(b,
                                  " Of the other %d nothing is proved: deflection, lane loads, more than "
                                  "two trucks, tipping, or too much to go through.",
                                  rest));
}
