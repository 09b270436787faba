/* resolve_size.c - how much there is to compute, estimated from counts, and a fault for what would take
 * hours. */
#include <math.h>

#include "base/numeric.h"
#include "model/resolve.h"
#include "sillspan/text.h"

/*
 * Every effect is sought under every axle of every way to drive at every station. Two flatcars with all their
 * stringers, stations a foot apart and a dozen trucks make 5e9 such steps, which take seconds; these are the
 * most that are begun. Unknowns and places bound the memory instead: a kilobyte or so each.
 */
#define STEPS_MOST 5e10
#define UNKNOWNS_MOST 2e5
#define PLACES_MOST 1e7

/* What there is to compute: upper estimates of what the mesh and the placements will be. */
typedef struct work {
    double stations, unknowns, bays, effects;
    double ways;   /* trucks in their tracks and directions */
    double places; /* axles of those at stations */
    double share;  /* of what is accepted */
} work;

static void mark(double *x, int *count, double value) {
    x[(*count)++] = value;
}

static void mark_truck(const ss_bridge *b, const ss_placed_load *load, double *x, int *count) {
    const ss_vehicle *truck = &b->vehicles[load->vehicle];
    double at = load->x0;
    for (int i = 0; i < truck->axle_count; i++) {
        mark(x, count, at);
        at += load->backward ? truck->spacing_m[i] : -truck->spacing_m[i];
    }
}

/* Where something is or changes along the bridge, ascending; NULL without memory. */
static double *list_marks(ss_resolve *c, int *count) {
    const ss_bridge *b = c->bridge;
    const size_t most = 2 * ((size_t)b->car_count + (size_t)b->piece_count + (size_t)b->joint_count +
                             (size_t)b->dead_load_count + (size_t)b->placed_count) +
                        (size_t)b->floor_beam_count + (size_t)b->bearing_count + (size_t)b->connector_count +
                        (size_t)b->placed_count * SS_AXLES_MAX + (size_t)b->probe_count;
    double *const x = ss_resolve_scratch(c, most, sizeof *x);
    *count = 0;
    if (x == NULL) {
        return NULL;
    }
    for (int i = 0; i < b->car_count; i++) {
        mark(x, count, b->cars[i].x0);
        mark(x, count, b->cars[i].x1);
    }
    for (int i = 0; i < b->piece_count; i++) {
        mark(x, count, b->pieces[i].x0);
        mark(x, count, b->pieces[i].x1);
    }
    for (int i = 0; i < b->floor_beam_count; i++) mark(x, count, b->floor_beams[i].x);
    for (int i = 0; i < b->bearing_count; i++) mark(x, count, b->bearings[i].x);
    for (int i = 0; i < b->connector_count; i++) mark(x, count, b->connectors[i]);
    for (int i = 0; i < b->joint_count; i++) {
        mark(x, count, b->joints[i].x0);
        mark(x, count, b->joints[i].x1);
    }
    for (int i = 0; i < b->dead_load_count; i++) {
        mark(x, count, b->dead_loads[i].x0);
        mark(x, count, b->dead_loads[i].x1);
    }
    for (int i = 0; i < b->placed_count; i++) {
        mark(x, count, b->placed[i].x0);
        mark(x, count, b->placed[i].x1);
        if (b->placed[i].kind == SS_LOAD_TRUCK) {
            mark_truck(b, &b->placed[i], x, count);
        }
    }
    for (int i = 0; i < b->probe_count; i++) {
        if (b->probes[i].member != SS_MEMBER_BEAM) {
            mark(x, count, b->probes[i].at);
        }
    }
    ss_sort_unique(x, count, 1e-3);
    return x;
}

/* Stations with fillers no farther apart than `spacing`; a depth that tapers halves it. */
static double count_stations(const ss_bridge *b, const double *marks, int count, double spacing) {
    bool tapers = false;
    for (int i = 0; i < b->piece_count; i++) tapers = tapers || b->pieces[i].depth0 != b->pieces[i].depth1;
    const double limit = tapers ? 0.5 * spacing : spacing;
    double total = 1.0;
    for (int i = 0; i + 1 < count; i++) total += ceil((marks[i + 1] - marks[i]) / limit - 1e-9);
    return total;
}

/* The tracks of one truck that roams: one for each wheel over each line, edge and section of a floor beam. */
static double count_tracks(const ss_bridge *b, const ss_vehicle *truck) {
    double kinks = (double)b->line_count + 3.0 * b->car_count;
    for (int i = 0; i < b->car_count; i++) {
        const ss_car *car = &b->cars[i];
        kinks += car->beam_count > 0 && car->line_count > 1 ? 5.0 * (car->line_count - 1) : 0.0;
    }
    const double width = b->cars[b->car_count - 1].y_right - b->cars[0].y_left;
    const double free = b->roadway_right - b->roadway_left - truck->gauge_m;
    return 2.0 + 2.0 * kinks * ss_clamp(free / width, 0.1, 1.0);
}

static work estimate(const ss_bridge *b, const double *marks, int count, double spacing) {
    work w = {.stations = count_stations(b, marks, count, spacing)};
    double nodes = 0.0;
    for (int i = 0; i < b->line_count; i++)
        nodes += w.stations * (b->lines[i].x1 - b->lines[i].x0) / (b->x1 - b->x0);
    for (int i = 0; i < b->car_count; i++)
        w.bays += (double)b->cars[i].beam_count * ss_max(b->cars[i].line_count - 1.0, 0.0);
    w.unknowns = 3.0 * nodes;
    /* Six kinds on both sides of what is marked, on one of a filler; five sections a bay. */
    w.effects = nodes * (6.0 + 6.0 * ss_min(count / w.stations, 1.0)) + 30.0 * w.bays +
                2.0 * w.stations * b->joint_count + b->bearing_count + b->probe_count;
    for (int i = 0; i < b->rated_vehicle_count + b->run_count; i++) {
        const bool runs = i >= b->rated_vehicle_count;
        const ss_vehicle *truck = &b->vehicles[runs ? b->runs[i - b->rated_vehicle_count].vehicle : i];
        const double ways = 2.0 * (runs ? 1.0 : count_tracks(b, truck));
        w.ways += ways;
        w.places += ways * truck->axle_count * w.stations;
    }
    w.share =
        ss_max(w.effects * w.places / STEPS_MOST, ss_max(w.unknowns / UNKNOWNS_MOST, w.places / PLACES_MOST));
    return w;
}

/* The least spacing that would do, in quarter feet or in centimetres; 0 when none would. */
static double wide_enough(const ss_bridge *b, const double *marks, int count) {
    const double step = b->units == SS_UNITS_US ? 0.0762 : 0.01;
    const double most = b->x1 - b->x0;
    double n = ceil(b->station_spacing / step);
    while (n * step < most && estimate(b, marks, count, n * step).share > 1.0) n += ceil(0.1 * n);
    return n * step < most ? n * step : 0.0;
}

static const char *count_words(double count, char buffer[SS_WORDS]) {
    return ss_text_significant(buffer, SS_WORDS, count, 3);
}

void ss_resolve_size(ss_resolve *c) {
    const ss_bridge *b = c->bridge;
    int count;
    const double *marks = list_marks(c, &count);
    if (marks == NULL || !(b->x1 > b->x0) || !(b->station_spacing > 0.0)) {
        return;
    }
    const work w = estimate(b, marks, count, b->station_spacing);
    if (w.share <= 1.0) {
        return;
    }
    char stations[SS_WORDS], effects[SS_WORDS], ways[SS_WORDS], more[SS_WORDS], length[SS_WORDS];
    count_words(w.stations, stations);
    count_words(w.effects, effects);
    count_words(w.ways, ways);
    ss_text_significant(more, sizeof more, ss_max(w.share, 1.1), 2);
    const double spacing = wide_enough(b, marks, count);
    if (spacing > 0.0) {
        const ss_node *const analysis = ss_node_child(c->root, "analysis");
        ss_read_complain(&c->reading, SS_FAULT, analysis == NULL ? c->root : analysis, "station_spacing",
                         "too much to compute, about %s times what is accepted: %s stations along %d lines "
                         "make %s effects, sought under trucks in %s tracks; stations %s apart or more, or "
                         "fewer trucks, would do",
                         more, stations, b->line_count, effects, ways, ss_resolve_length(c, spacing, length));
        return;
    }
    ss_read_complain(&c->reading, SS_FAULT, c->node, NULL,
                     "too much to compute, about %s times what is accepted, however far apart stations are: "
                     "%d places along the bridge where something changes, on %d lines, and %s bays of "
                     "floor beams make %s effects, sought under trucks in %s tracks; fewer floor beams, "
                     "stringers, probes or trucks would do",
                     more, count, b->line_count, count_words(w.bays, stations), effects, ways);
}
