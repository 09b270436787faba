/* lane_load.c - where the uniform load of a lane is adverse to an effect, and what it does there. */
#include "response/lane_load.h"

#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/clones.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Influence below this share of the line's largest is none. */
#define NOTHING 1e-9

/* Stretches nearer than this are one (m). */
#define SAME_END 1e-9

/* ---- trains ------------------------------------------------------------------------------------- */

static bool tracks_loaded(const ss_placements *placements, int first, int count) {
    for (int t = first; t < first + count; t++) {
        if (placements->trains[placements->tracks[t].train].lane_N_m > 0.0) {
            return true;
        }
    }
    return false;
}

bool ss_lane_loaded(const ss_placements *placements, const ss_traffic *traffic) {
    bool any = tracks_loaded(placements, traffic->first_track, traffic->track_count);
    for (int i = 0; i < SS_ABREAST_MAX; i++) {
        any = any || tracks_loaded(placements, traffic->lane_first[i], traffic->lane_count[i]);
    }
    return any;
}

unsigned ss_lane_use(ss_vehicle_use use, const ss_effect *effect) {
    const bool bending = effect->kind == SS_EFFECT_MOMENT || effect->kind == SS_EFFECT_DEFLECTION;
    switch (use) {
    case SS_USE_BENDING: return bending ? 3 : 0;
    case SS_USE_SHEAR: return bending ? 0 : 3;
    case SS_USE_HOGGING:
        if (effect->member == SS_MEMBER_BEARING) {
            return effect->kind == SS_EFFECT_REACTION ? 3 : 0;
        }
        return effect->member == SS_MEMBER_LINE && effect->kind == SS_EFFECT_MOMENT ? 1 : 0;
    case SS_USE_ALL: break;
    }
    return 3;
}

/* ---- memory ------------------------------------------------------------------------------------- */

static double whole(const double *c, size_t stride) {
    return c[0] + c[stride] / 2.0 + c[2 * stride] / 3.0 + c[3 * stride] / 4.0;
}

ss_status ss_lane_reactions(const ss_axle_plans *plans, const ss_placements *placements,
                            const ss_contact_model *contact, double **out, ss_error *error) {
    const size_t n = (size_t)contact->n, intervals = (size_t)plans->interval_count;
    *out = NULL;
    if (placements->area_line_count == 0 && !tracks_loaded(placements, 0, placements->track_count)) {
        return SS_OK;
    }
    double *const r = ss_alloc((size_t)plans->count * intervals * n + 1, sizeof *r);
    if (r == NULL) {
        return ss_no_memory(error);
    }
    for (int p = 0; p < plans->count; p++) {
        for (size_t i = 0; plans->plan[p].lines_of == p && i < intervals; i++) {
            const double length = plans->mesh->station[i + 1] - plans->mesh->station[i];
            for (size_t j = 0; j < n; j++) {
                const double *const c =
                    ss_axle_lines_cubic(&contact->lines[j / SS_TILE], p, (int)i) + j % SS_TILE;
                r[((size_t)p * intervals + i) * n + j] = length * whole(c, SS_TILE);
            }
        }
    }
    *out = r;
    return SS_OK;
}

ss_status ss_lane_work_create(int n, int interval_count, ss_lane_work *out, ss_error *error) {
    const size_t size = (size_t)n;
    ss_lane_work w = {.sums = ss_alloc(SS_LANE_SLOTS, sizeof *w.sums),
                      .load = ss_alloc(SS_LANE_LOADS, sizeof *w.load),
                      .live = ss_alloc(SS_LANE_LOADS * size + 1, sizeof *w.live),
                      .both = ss_alloc(size + 1, sizeof *w.both),
                      .open = ss_alloc(size + 1, sizeof *w.open),
                      .cubic = ss_alloc(4 * (size_t)interval_count + 1, sizeof *w.cubic)};
    if (w.sums == NULL || w.load == NULL || w.live == NULL || w.both == NULL || w.open == NULL ||
        w.cubic == NULL) {
        ss_lane_work_destroy(&w);
        return ss_no_memory(error);
    }
    for (size_t i = 0; i < SS_LANE_LOADS; i++) w.load[i].live = w.live + i * size;
    *out = w;
    return SS_OK;
}

void ss_lane_work_destroy(ss_lane_work *work) {
    ss_free(work->sums);
    ss_free(work->load);
    ss_free(work->live);
    ss_free(work->both);
    ss_free(work->open);
    ss_free(work->cubic);
    *work = (ss_lane_work){0};
}

void ss_lane_work_begin(ss_lane_work *work) {
    for (int i = 0; work->sums != NULL && i < SS_LANE_SLOTS; i++) work->sums[i].plan = -1;
    for (int i = 0; work->load != NULL && i < SS_LANE_LOADS; i++) work->load[i].key[2] = -1;
}

/* ---- one interval ------------------------------------------------------------------------------- */

static double cubic_at(const double c[4], double s) {
    return c[0] + s * (c[1] + s * (c[2] + s * c[3]));
}

static double integral_to(const double c[4], double s) {
    return s * (c[0] + s * (c[1] / 2.0 + s * (c[2] / 3.0 + s * c[3] / 4.0)));
}

/* Control values enclose the cubic. */
static void enclose(const double c[4], double *low, double *high) {
    const double b[4] = {c[0], c[0] + c[1] / 3.0, c[0] + (2.0 * c[1] + c[2]) / 3.0,
                         c[0] + c[1] + c[2] + c[3]};
    *low = *high = b[0];
    for (int i = 1; i < 4; i++) {
        *low = ss_min(*low, b[i]);
        *high = ss_max(*high, b[i]);
    }
}

/* The zero between a and b, where the signs differ: steps of Newton, halves where they leave the bracket. */
static double zero_between(const double c[4], double a, double b) {
    const bool rises = cubic_at(c, a) < 0.0;
    double at = 0.5 * (a + b);
    for (int pass = 0; pass < 60 && b - a > 1e-15; pass++) {
        const double value = cubic_at(c, at), slope = c[1] + at * (2.0 * c[2] + 3.0 * c[3] * at);
        if ((value < 0.0) == rises) {
            a = at;
        } else {
            b = at;
        }
        const double next = at - value / slope;
        if (fabs(next - at) <= 1e-15) {
            return next;
        }
        at = next > a && next < b ? next : 0.5 * (a + b);
    }
    return at;
}

/* Where sign x cubic is above zero in [0, 1]: ends of at most two parts; their count. */
static int adverse_parts(const double c[4], double sign, double part[4]) {
    double end[6] = {0.0}, turn[2];
    int ends = 1, turns = 0, count = 0;
    const double a = 3.0 * c[3], d = c[2] * c[2] - a * c[1];
    if (d > 0.0) {
        const double q = -(c[2] + (c[2] < 0.0 ? -sqrt(d) : sqrt(d)));
        turn[turns++] = a != 0.0 ? q / a : -1.0;
        turn[turns++] = q != 0.0 ? c[1] / q : -1.0;
    }
    /* Between its turns a cubic has one zero at most. */
    double stop[4] = {0.0, ss_min(turns > 0 ? turn[0] : -1.0, turns > 1 ? turn[1] : -1.0),
                      ss_max(turns > 0 ? turn[0] : -1.0, turns > 1 ? turn[1] : -1.0), 1.0};
    double last = 0.0;
    for (int i = 1; i < 4; i++) {
        if (stop[i] <= last || stop[i] > 1.0) {
            continue;
        }
        if (cubic_at(c, last) * cubic_at(c, stop[i]) < 0.0) {
            end[ends++] = zero_between(c, last, stop[i]);
        }
        last = stop[i];
    }
    end[ends++] = 1.0;
    for (int i = 0; i + 1 < ends; i++) {
        if (sign * cubic_at(c, 0.5 * (end[i] + end[i + 1])) > 0.0 && count < 2) {
            part[2 * count] = end[i];
            part[2 * count + 1] = end[i + 1];
            count++;
        }
    }
    return count;
}

/* ---- estimates ---------------------------------------------------------------------------------- */

/* Integrals over an interval of the tile's lines. */
SS_CLONES
static void integrate_interval(const double *restrict c, double length, double *restrict out) {
    for (int lane = 0; lane < SS_TILE; lane++) {
        out[lane] = length * (c[lane] + c[SS_TILE + lane] / 2.0 + c[2 * SS_TILE + lane] / 3.0 +
                              c[3 * SS_TILE + lane] / 4.0);
    }
}

SS_CLONES
static void add_opening(double by, const float *restrict opening, double *restrict out) {
    for (int lane = 0; lane < SS_TILE; lane++) out[lane] += by * (double)opening[lane];
}

SS_CLONES
static void add_adverse(const double *restrict value, double *restrict most, double *restrict least) {
    for (int lane = 0; lane < SS_TILE; lane++) {
        most[lane] += value[lane] > 0.0 ? value[lane] : 0.0;
        least[lane] += value[lane] < 0.0 ? value[lane] : 0.0;
    }
}

/* In intervals where a line changes its sign only one part is adverse. */
static void part_interval(const double *cubic, int lane, double length, double *most, double *least) {
    double c[4], low, high, part[4];
    for (int d = 0; d < 4; d++) c[d] = cubic[d * SS_TILE + lane];
    enclose(c, &low, &high);
    if (low >= 0.0 || high <= 0.0) {
        return;
    }
    const double all = integral_to(c, 1.0);
    double above = 0.0;
    const int parts = adverse_parts(c, 1.0, part);
    for (int i = 0; i < parts; i++) above += integral_to(c, part[2 * i + 1]) - integral_to(c, part[2 * i]);
    *most += length * (above - ss_max(all, 0.0));
    *least += length * (all - above - ss_min(all, 0.0));
}

static void fill_sums(const ss_lane_tile *tile, int plan, const ss_pattern *pattern, double *open,
                      ss_lane_sums *out) {
    const ss_axle_plans *const plans = tile->lines->plans;
    const size_t n = (size_t)tile->contact->n;
    double most[SS_TILE] = {0}, least[SS_TILE] = {0}, value[SS_TILE];
    bool any_open = false;
    for (size_t k = 0; k < n; k++) any_open = any_open || pattern->open[k];
    for (int i = 0; i < plans->interval_count; i++) {
        const double length = plans->mesh->station[i + 1] - plans->mesh->station[i];
        const double *const c = ss_axle_lines_cubic(tile->lines, plan, i);
        const double *const r =
            tile->reactions + ((size_t)plan * (size_t)plans->interval_count + (size_t)i) * n;
        integrate_interval(c, length, value);
        ss_pattern_openings(pattern, tile->contact->n, r, open);
        for (size_t k = 0; k < n; k++) {
            if (open[k] != 0.0) {
                add_opening(open[k], tile->opening + k * SS_TILE, value);
            }
        }
        add_adverse(value, most, least);
        for (int lane = 0; !any_open && lane < tile->lanes; lane++) {
            part_interval(c, lane, length, &most[lane], &least[lane]);
        }
    }
    for (int lane = 0; lane < SS_TILE; lane++) {
        out->most[lane] = (float)most[lane];
        out->least[lane] = (float)least[lane];
    }
}

const ss_lane_sums *ss_lane_sums_of(ss_lane_work *work, const ss_lane_tile *tile, int plan, int number,
                                    const ss_pattern *pattern) {
    const int own = tile->lines->plans->plan[plan].lines_of;
    ss_lane_sums *const sums =
        &work->sums[((unsigned)own * 31u + (unsigned)number) % (unsigned)SS_LANE_SLOTS];
    if (sums->plan != own || sums->pattern != number) {
        fill_sums(tile, own, pattern, work->open, sums);
        sums->plan = own;
        sums->pattern = number;
    }
    return sums;
}

/* ---- the load ----------------------------------------------------------------------------------- */

double ss_lane_lines(const ss_lane_tile *tile, const ss_lane_wanted *wanted, double *c) {
    const double *const weight = wanted->weight;
    const int plan = wanted->plan, lane = wanted->lane;
    const int intervals = tile->lines->plans->interval_count;
    double largest = 0.0;
    for (int i = 0; i < intervals; i++, c += 4) {
        const double *const closed = ss_axle_lines_cubic(tile->lines, plan, i) + lane;
        for (size_t d = 0; d < 4; d++) c[d] = closed[d * SS_TILE];
        for (int tile_first = 0; tile_first < tile->contact->n; tile_first += SS_TILE) {
            const double *const r = ss_axle_lines_cubic(&tile->contact->lines[tile_first / SS_TILE], plan, i);
            const double *const own = weight + tile_first;
            const int left = tile->contact->n - tile_first, count = left < SS_TILE ? left : SS_TILE;
            for (int j = 0; j < count; j++) {
                if (own[j] != 0.0) {
                    c[0] += own[j] * r[j];
                    c[1] += own[j] * r[SS_TILE + j];
                    c[2] += own[j] * r[2 * SS_TILE + j];
                    c[3] += own[j] * r[3 * SS_TILE + j];
                }
            }
        }
        double low, high;
        enclose(c, &low, &high);
        largest = ss_max(largest, ss_max(high, -low));
    }
    return largest;
}

/* Stretches while they are listed, with what each gives. */
typedef struct stretches {
    ss_lane_load *out;
    double given[SS_LANE_STRETCHES];
} stretches;

static void add_stretch(stretches *s, double from, double to, double given) {
    ss_lane_load *const out = s->out;
    if (out->count > 0 && from <= out->stretch[out->count - 1].to + SAME_END) {
        out->stretch[out->count - 1].to = to;
        s->given[out->count - 1] += given;
        return;
    }
    if (out->count == SS_LANE_STRETCHES) {
        int smallest = 0;
        for (int i = 1; i < out->count; i++) smallest = s->given[i] < s->given[smallest] ? i : smallest;
        for (int i = smallest; i + 1 < out->count; i++) {
            out->stretch[i] = out->stretch[i + 1];
            s->given[i] = s->given[i + 1];
        }
        out->count--;
    }
    s->given[out->count] = given;
    out->stretch[out->count++] = (ss_lane_stretch){.from = from, .to = to};
}

/* Adds what a part of an interval gives with all bearings closed. */
static void integrate_part(const ss_lane_tile *tile, int lane, int plan, int interval, double a, double b,
                           ss_lane_load *out) {
    const ss_axle_plans *const plans = tile->lines->plans;
    const double length = plans->mesh->station[interval + 1] - plans->mesh->station[interval];
    const size_t n = (size_t)tile->contact->n;
    const double *const closed = ss_axle_lines_cubic(tile->lines, plan, interval) + lane;
    double c[4];
    for (size_t d = 0; d < 4; d++) c[d] = closed[d * SS_TILE];
    out->closed += length * (integral_to(c, b) - integral_to(c, a));
    if (a == 0.0 && b == 1.0) {
        const double *const r =
            tile->reactions + ((size_t)plan * (size_t)plans->interval_count + (size_t)interval) * n;
        for (size_t j = 0; j < n; j++) out->live[j] += r[j];
        return;
    }
    for (size_t j = 0; j < n; j++) {
        const double *const r =
            ss_axle_lines_cubic(&tile->contact->lines[j / SS_TILE], plan, interval) + j % SS_TILE;
        for (size_t d = 0; d < 4; d++) c[d] = r[d * SS_TILE];
        out->live[j] += length * (integral_to(c, b) - integral_to(c, a));
    }
}

static void integrate(const ss_lane_tile *tile, int lane, int plan, ss_lane_load *out) {
    const ss_axle_plans *const plans = tile->lines->plans;
    const double *const station = plans->mesh->station;
    out->closed = 0.0;
    memset(out->live, 0, (size_t)tile->contact->n * sizeof *out->live);
    for (int k = 0; k < out->count; k++) {
        for (int i = 0; i < plans->interval_count; i++) {
            const double length = station[i + 1] - station[i];
            const double a = ss_max(0.0, (out->stretch[k].from - station[i]) / length),
                         b = ss_min(1.0, (out->stretch[k].to - station[i]) / length);
            if (b > a) {
                integrate_part(tile, lane, plan, i, a, b, out);
            }
        }
    }
}

double ss_lane_value_of(ss_axle_lines *lines, int lane, int plan, const ss_lane_stretch *stretch) {
    const double *const station = lines->plans->mesh->station;
    double sum = 0.0;
    for (int i = 0; i < lines->plans->interval_count; i++) {
        const double length = station[i + 1] - station[i];
        const double a = ss_max(0.0, (stretch->from - station[i]) / length),
                     b = ss_min(1.0, (stretch->to - station[i]) / length);
        if (b > a) {
            const double *const at = ss_axle_lines_get(lines, plan, i) + lane;
            const double c[4] = {at[0], at[SS_TILE], at[2 * SS_TILE], at[3 * SS_TILE]};
            sum += length * (integral_to(c, b) - integral_to(c, a));
        }
    }
    return sum;
}

void ss_lane_load_find(const ss_lane_tile *tile, const ss_lane_wanted *wanted, double *cubic,
                       ss_lane_load *out) {
    const ss_axle_plans *const plans = tile->lines->plans;
    const double *const station = plans->mesh->station;
    const bool most = wanted->most;
    const double sign = most ? 1.0 : -1.0;
    stretches s = {.out = out};
    const double largest = ss_lane_lines(tile, wanted, cubic);
    out->count = 0;
    for (int i = 0; i < plans->interval_count; i++) {
        const double length = station[i + 1] - station[i], *const c = cubic + 4 * (size_t)i;
        double low, high, part[4] = {0.0, 1.0};
        enclose(c, &low, &high);
        if (!((most ? high : -low) > NOTHING * largest)) {
            continue;
        }
        const bool all = most ? low >= 0.0 : high <= 0.0;
        const int parts = all ? 1 : adverse_parts(c, sign, part);
        for (int k = 0; k < parts; k++) {
            const double a = part[2 * k], b = part[2 * k + 1];
            add_stretch(&s, a > 0.0 ? station[i] + a * length : station[i],
                        b < 1.0 ? station[i] + b * length : station[i + 1],
                        sign * length * (integral_to(c, b) - integral_to(c, a)));
        }
    }
    integrate(tile, wanted->lane, wanted->plan, out);
}

const ss_lane_load *ss_lane_load_of(ss_lane_work *work, const ss_lane_tile *tile, int lane, bool most,
                                    int plan, int number, const double *weight) {
    const int own = tile->lines->plans->plan[plan].lines_of;
    const int key[4] = {lane, most ? 1 : 0, own, number};
    unsigned hash = 2166136261u; /* Fowler, Noll and Vo */
    for (int i = 0; i < 4; i++) hash = (hash ^ (unsigned)key[i]) * 16777619u;
    ss_lane_load *const load = &work->load[(hash ^ hash >> 15) % (unsigned)SS_LANE_LOADS];
    if (memcmp(load->key, key, sizeof key) != 0) {
        if (weight == NULL) {
            return NULL;
        }
        memcpy(load->key, key, sizeof key);
        ss_lane_load_find(tile, &(ss_lane_wanted){lane, most, own, weight}, work->cubic, load);
    }
    return load;
}
