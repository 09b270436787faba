/* report_tyres.c - how much less a wheel does to a small member when it presses over the length of a tyre. */
#include <math.h>

#include "base/numeric.h"
#include "report/report_ratings.h"
#include "report/report_words.h"
#include "response/placements.h"
#include "sillspan/deck_strength.h"

/* A moment's influence line has a kink of slope 1 at its section. Averaged over a length `a`, it is lower
 * there by this, with the middle of the tyre at `away` from the section. */
static double rounding_off(double away, double a) {
    const double part = 1.0 - 2.0 * fabs(away) / a;
    return part > 0.0 ? 0.125 * a * part * part : 0.0;
}

/* The share of a wheel at y that comes to a line beside its station. */
static double share_of_line(const ss_mesh *mesh, int line, double x, double y) {
    ss_carrier carriers[4];
    double share = 0.0;
    int interval = 0;
    while (interval + 2 < mesh->station_count && mesh->station[interval + 1] <= x) interval++;
    const int count = ss_mesh_deck_across(mesh, interval, y, carriers);
    for (int i = 0; i < count; i++) {
        share += carriers[i].line == line ? carriers[i].weight : 0.0;
    }
    return share;
}

/* What the tyres of one truck take off the moment of the item, per unit truck. */
static double taken_off(const ss_results *results, const ss_rating_item *item, const ss_position *position,
                        ss_wheel_patch patch) {
    const ss_track *track = &results->placements->tracks[position->track];
    const ss_vehicle *train = ss_position_train(results->placements, position);
    const bool line = item->effect.member == SS_MEMBER_LINE;
    const double beam_x = line ? 0.0 : results->bridge->floor_beams[item->effect.index].x;
    double sum = 0.0;
    for (int a = 0; a < train->axle_count; a++) {
        double wheel[2];
        const double x = ss_axle_x(train, track->backward, position->x, a);
        const int wheels = ss_axle_wheels(ss_vehicle_gauge(train, a), track->y, wheel);
        for (int w = 0; w < wheels; w++) {
            const double P = train->axle_N[a] / wheels;
            if (line) {
                sum += P * share_of_line(results->mesh, item->effect.index, item->effect.at, wheel[w]) *
                       rounding_off(x - item->effect.at, patch.along);
            } else if (fabs(x - beam_x) <= SS_ON_BEAM) {
                sum += P * rounding_off(wheel[w] - item->effect.at, patch.across);
            }
        }
    }
    return sum;
}

void ss_rated_tyres(ss_builder *b, const ss_rating_item *item) {
    const ss_results *results = b->results;
    /* No wheel comes to a strip of a slab by itself. */
    const bool beam = item->effect.member == SS_MEMBER_BEAM &&
                      !ss_words_strip(results->bridge, item->effect.member, item->effect.index);
    const bool small = beam || (item->effect.member == SS_MEMBER_LINE &&
                                results->bridge->lines[item->effect.index].role == SS_ROLE_STRINGER);
    const ss_wheel_patch patch = ss_wheel_patch_of(SS_PATCH_LRFD, 1.0);
    const double live = fabs(item->live);
    double off = 0.0;
    if (!small || results->mesh == NULL || item->effect.kind != SS_EFFECT_MOMENT || item->tips ||
        !(live > 0.0)) {
        return;
    }
    for (int i = 0; i < item->truck_count && item->position[i].track >= 0; i++) {
        off += taken_off(results, item, &item->position[i], patch);
    }
    if (!(off > 1e-3 * live) || !(off < live)) {
        return;
    }
    ss_build_sentence(b,
                      "Wheels press at points here. Spread over a tyre's area of %s along and %s across "
                      "(AASHTO LRFD 3.6.1.2.5, "
                      "from memory), those over the section would bring %s less of the live load in this "
                      "place, and the factor "
                      "would be at most %s: the worst place may then be another.",
                      ss_words_quantity(b, patch.along, SS_DIM_SMALL_LENGTH, 3),
                      ss_words_quantity(b, patch.across, SS_DIM_SMALL_LENGTH, 3),
                      ss_words_quantity(b, off, SS_DIM_MOMENT, 3),
                      ss_rated_factor(b, item->rf * live / (live - off), 2));
}
