/* bins.c - bounds of axle influence lines over strips of tracks. */
#include "response/bins.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/clones.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Strips are about this wide (m). */
#define STRIP 0.45

/* Rounding to single precision is outwards by this share. */
#define OUTWARD 1e-6f

void ss_bins_destroy(ss_bins *bins) {
    ss_arena_destroy(&bins->arena);
    *bins = (ss_bins){0};
}

/* ---- strips ------------------------------------------------------------------------------------- */

static int find_class(double *gauge, int *count, double wanted) {
    int i = 0;
    while (i < *count && gauge[i] != wanted) i++;
    if (i == *count) {
        gauge[(*count)++] = wanted;
    }
    return i;
}

static ss_status list_classes(ss_bins *bins, const ss_placements *placements, ss_error *error) {
    const size_t most = (size_t)placements->train_count * SS_AXLES_MAX + 1;
    double *const gauge = ss_arena_alloc(&bins->arena, most, sizeof *gauge);
    bins->class_of_axle = ss_arena_alloc(&bins->arena, most, sizeof *bins->class_of_axle);
    if (gauge == NULL || bins->class_of_axle == NULL) {
        return ss_no_memory(error);
    }
    for (int t = 0; t < placements->train_count; t++) {
        const ss_vehicle *const train = &placements->trains[t];
        for (int a = 0; a < train->axle_count; a++) {
            bins->class_of_axle[t * SS_AXLES_MAX + a] =
                find_class(gauge, &bins->class_count, ss_vehicle_gauge(train, a));
        }
    }
    return SS_OK;
}

static void list_strips(ss_bins *bins, const ss_placements *placements) {
    double low = SS_INFINITY, high = -SS_INFINITY;
    for (int t = 0; t < placements->track_count; t++) {
        low = ss_min(low, placements->tracks[t].y);
        high = ss_max(high, placements->tracks[t].y);
    }
    const double width = placements->track_count > 0 ? high - low : 0.0;
    bins->count = (int)ss_clamp(ceil(width / STRIP), 1.0, (double)SS_BINS_MOST);
    for (int t = 0; t < placements->track_count; t++) {
        const double at = width > 0.0 ? (placements->tracks[t].y - low) / width * bins->count : 0.0;
        bins->of_track[t] = (int)ss_clamp(floor(at), 0.0, bins->count - 1.0);
    }
}

/* Plans of each strip and class, each once. */
static ss_status list_plans(ss_bins *bins, const ss_axle_plans *plans, const ss_placements *placements,
                            ss_error *error) {
    const int cells = bins->count * bins->class_count;
    bool *const has = ss_alloc((size_t)cells * (size_t)plans->count, sizeof *has);
    if (has == NULL) {
        return ss_no_memory(error);
    }
    int total = 0;
    for (int t = 0; t < placements->track_count; t++) {
        const ss_track *const track = &placements->tracks[t];
        for (int a = 0; a < placements->trains[track->train].axle_count; a++) {
            const int class = bins->class_of_axle[track->train * SS_AXLES_MAX + a];
            const size_t at = (size_t)(bins->of_track[t] * bins->class_count + class) * (size_t)plans->count +
                              (size_t)ss_axle_plan_of(plans, t, a);
            total += !has[at];
            has[at] = true;
        }
    }
    bins->first = ss_arena_alloc(&bins->arena, (size_t)cells + 1, sizeof *bins->first);
    bins->plan = ss_arena_alloc(&bins->arena, (size_t)total + 1, sizeof *bins->plan);
    if (bins->first != NULL && bins->plan != NULL) {
        total = 0;
        for (int cell = 0; cell < cells; cell++) {
            bins->first[cell] = total;
            for (int p = 0; p < plans->count; p++) {
                if (has[(size_t)cell * (size_t)plans->count + (size_t)p]) {
                    bins->plan[total++] = p;
                }
            }
        }
        bins->first[cells] = total;
    }
    ss_free(has);
    return bins->first == NULL || bins->plan == NULL ? ss_no_memory(error) : SS_OK;
}

ss_status ss_bins_build(const ss_axle_plans *plans, const ss_placements *placements, ss_bins *out,
                        ss_error *error) {
    ss_status status = SS_OK;
    ss_bins bins = {0};
    bins.of_track = ss_arena_alloc(&bins.arena, (size_t)placements->track_count + 1, sizeof *bins.of_track);
    SS_TRY(bins.of_track == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(list_classes(&bins, placements, error));
    list_strips(&bins, placements);
    SS_TRY(list_plans(&bins, plans, placements, error));
    *out = bins;
    bins = (ss_bins){0};
done:
    ss_bins_destroy(&bins);
    return status;
}

/* ---- bounds ------------------------------------------------------------------------------------- */

ss_status ss_bin_bounds_create(const ss_bins *bins, int interval_count, ss_bin_bounds *out, ss_error *error) {
    const size_t size = (size_t)(bins->count * bins->class_count) * (size_t)interval_count * SS_TILE;
    ss_bin_bounds b = {.bins = bins, .interval_count = interval_count};
    b.high = ss_alloc(size, sizeof *b.high);
    b.low = ss_alloc(size, sizeof *b.low);
    b.lane_high = ss_alloc((size_t)(bins->count * bins->class_count) * SS_TILE, sizeof *b.lane_high);
    b.lane_low = ss_alloc((size_t)(bins->count * bins->class_count) * SS_TILE, sizeof *b.lane_low);
    if (b.high == NULL || b.low == NULL || b.lane_high == NULL || b.lane_low == NULL) {
        ss_bin_bounds_destroy(&b);
        return ss_no_memory(error);
    }
    *out = b;
    return SS_OK;
}

void ss_bin_bounds_destroy(ss_bin_bounds *bounds) {
    ss_free(bounds->high);
    ss_free(bounds->low);
    ss_free(bounds->lane_high);
    ss_free(bounds->lane_low);
    *bounds = (ss_bin_bounds){0};
}

/* The control values of a cubic in Bernstein's form enclose it. */
SS_CLONES
static void enclose(const double *restrict c, float *restrict high, float *restrict low) {
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double c1 = c[SS_TILE + lane] * (1.0 / 3.0), c2 = c[2 * SS_TILE + lane] * (1.0 / 3.0);
        const double b0 = c[lane], b1 = b0 + c1, b2 = b1 + c1 + c2;
        const double b3 = b0 + c[SS_TILE + lane] + c[2 * SS_TILE + lane] + c[3 * SS_TILE + lane];
        const double m0 = b0 > b1 ? b0 : b1, m1 = b2 > b3 ? b2 : b3;
        const double n0 = b0 < b1 ? b0 : b1, n1 = b2 < b3 ? b2 : b3;
        const float most = (float)(m0 > m1 ? m0 : m1), least = (float)(n0 < n1 ? n0 : n1);
        high[lane] = most > high[lane] ? most : high[lane];
        low[lane] = least < low[lane] ? least : low[lane];
    }
}

static void widen(const double *restrict value, float *restrict high, float *restrict low) {
    for (int lane = 0; lane < SS_TILE; lane++) {
        const float v = (float)value[lane];
        high[lane] = v > high[lane] ? v : high[lane];
        low[lane] = v < low[lane] ? v : low[lane];
    }
}

/* Bounds of a plan's intervals: enclosed where `near` says so, else by the values at both ends. */
static void widen_intervals(ss_axle_lines *lines, int plan, const bool *near, int count, float *high,
                            float *low) {
    double before[SS_TILE], after[SS_TILE];
    bool known = false;
    for (int k = 0; k < count; k++) {
        float *const own_high = high + (size_t)k * SS_TILE, *const own_low = low + (size_t)k * SS_TILE;
        if (near == NULL || near[k]) {
            enclose(ss_axle_lines_get(lines, plan, k), own_high, own_low);
            known = false;
            continue;
        }
        if (!known) {
            ss_axle_lines_start(lines, plan, k, before);
        }
        widen(before, own_high, own_low);
        known = k + 1 < count;
        if (known) {
            ss_axle_lines_start(lines, plan, k + 1, after);
            widen(after, own_high, own_low);
            memcpy(before, after, sizeof before);
        }
    }
}

static void widen_points(ss_axle_lines *lines, int plan, int count, float *high, float *low) {
    const ss_axle_plans *const plans = lines->plans;
    ss_axle_lines_points(lines, plan);
    for (int k = 0; k < plans->beam_station_count; k++) {
        for (int side = 0; plans->plan[plan].on_beam[k] && side < 2; side++) {
            const int interval = plans->beam_station[k] - side;
            if (interval >= 0 && interval < count) {
                widen(ss_axle_lines_beam(lines, plan, k), high + (size_t)interval * SS_TILE,
                      low + (size_t)interval * SS_TILE);
            }
        }
    }
}

void ss_bin_bounds_fill(ss_bin_bounds *bounds, ss_axle_lines *lines, const bool *near, bool points) {
    const ss_bins *const bins = bounds->bins;
    const ss_axle_plans *const plans = lines->plans;
    const int cells = bins->count * bins->class_count, count = bounds->interval_count;
    for (int cell = 0; cell < cells; cell++) {
        const size_t base = (size_t)cell * (size_t)count * SS_TILE;
        float *const high = bounds->high + base, *const low = bounds->low + base;
        for (size_t i = 0; i < (size_t)count * SS_TILE; i++) {
            high[i] = -(float)INFINITY;
            low[i] = (float)INFINITY;
        }
        int last = -1;
        bool rolled = false;
        for (int i = bins->first[cell]; i < bins->first[cell + 1]; i++) {
            const int plan = bins->plan[i], own = plans->plan[plan].lines_of;
            /* Where estimates will do, plans of fine tracks differ from others over floor beams alone. */
            if (own != last && (near == NULL || !plans->plan[own].fine)) {
                widen_intervals(lines, own, near, count, high, low);
                rolled = true;
            }
            last = own;
            if (points) {
                widen_points(lines, plan, count, high, low);
            }
        }
        if (!rolled && bins->first[cell] < bins->first[cell + 1]) {
            widen_intervals(lines, plans->plan[bins->plan[bins->first[cell]]].lines_of, near, count, high,
                            low);
        }
    }
}

SS_CLONES
void ss_bin_bounds_block(const ss_bin_bounds *bounds, const ss_course *course, int strip, int block,
                         float high[SS_TILE], float low[SS_TILE]) {
    const ss_bins *const bins = bounds->bins;
    const int axles = course->vehicle->axle_count;
    memset(high, 0, SS_TILE * sizeof *high);
    memset(low, 0, SS_TILE * sizeof *low);
    for (int a = 0; a < axles; a++) {
        const ss_course_range *const range = &course->range[(size_t)block * (size_t)axles + (size_t)a];
        if (range->last < range->first) {
            continue;
        }
        const int class = bins->class_of_axle[course->train * SS_AXLES_MAX + a];
        const size_t base =
            (size_t)(strip * bins->class_count + class) * (size_t)bounds->interval_count * SS_TILE;
        const float start = range->outside ? 0.0f : (float)INFINITY;
        float most[SS_TILE], least[SS_TILE];
        for (int lane = 0; lane < SS_TILE; lane++) {
            most[lane] = -start;
            least[lane] = start;
        }
        for (int k = range->first; k <= range->last; k++) {
            const float *restrict const h = bounds->high + base + (size_t)k * SS_TILE;
            const float *restrict const l = bounds->low + base + (size_t)k * SS_TILE;
            for (int lane = 0; lane < SS_TILE; lane++) {
                most[lane] = h[lane] > most[lane] ? h[lane] : most[lane];
                least[lane] = l[lane] < least[lane] ? l[lane] : least[lane];
            }
        }
        const float P = (float)course->vehicle->axle_N[a];
        for (int lane = 0; lane < SS_TILE; lane++) {
            high[lane] += P * most[lane];
            low[lane] += P * least[lane];
        }
    }
    for (int lane = 0; lane < SS_TILE; lane++) {
        high[lane] += OUTWARD * (high[lane] > 0.0f ? high[lane] : -high[lane]);
        low[lane] -= OUTWARD * (low[lane] > 0.0f ? low[lane] : -low[lane]);
    }
}

SS_CLONES
static void add_interval(const float *restrict high, const float *restrict low, float length,
                         float *restrict lane_high, float *restrict lane_low) {
    for (int lane = 0; lane < SS_TILE; lane++) {
        lane_high[lane] += length * (high[lane] > 0.0f ? high[lane] : 0.0f);
        lane_low[lane] += length * (low[lane] < 0.0f ? low[lane] : 0.0f);
    }
}

void ss_bin_bounds_lanes(ss_bin_bounds *bounds, const double *station) {
    const size_t cells = (size_t)bounds->bins->count * (size_t)bounds->bins->class_count;
    memset(bounds->lane_high, 0, cells * SS_TILE * sizeof *bounds->lane_high);
    memset(bounds->lane_low, 0, cells * SS_TILE * sizeof *bounds->lane_low);
    for (size_t cell = 0; cell < cells; cell++) {
        const int plans = bounds->bins->first[cell + 1] - bounds->bins->first[cell];
        for (int k = 0; plans > 0 && k < bounds->interval_count; k++) {
            const size_t at = (cell * (size_t)bounds->interval_count + (size_t)k) * SS_TILE;
            add_interval(bounds->high + at, bounds->low + at, (float)(station[k + 1] - station[k]),
                         bounds->lane_high + cell * SS_TILE, bounds->lane_low + cell * SS_TILE);
        }
    }
}

void ss_bin_bounds_lane(const ss_bin_bounds *bounds, const ss_course *course, int strip, float high[SS_TILE],
                        float low[SS_TILE]) {
    const ss_bins *const bins = bounds->bins;
    const int class = bins->class_of_axle[course->train * SS_AXLES_MAX + ss_widest_axle(course->vehicle)];
    const size_t at = (size_t)(strip * bins->class_count + class) * SS_TILE;
    /* Sums of many intervals in single precision. */
    const float by = (float)course->vehicle->lane_N_m * (1.0f + 20.0f * OUTWARD);
    for (size_t lane = 0; lane < SS_TILE; lane++) {
        high[lane] += by * bounds->lane_high[at + lane];
        low[lane] += by * bounds->lane_low[at + lane];
    }
}
