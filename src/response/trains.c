/* trains.c - spacings that vary in steps, axles that may be left out, and the loadings that share one name.
 */
#include "response/trains.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Trains of one loading whose spacings vary independently; beyond it they vary together. */
enum { STEPS_MOST = 64 };

void ss_trains_destroy(ss_train_list *list) {
    ss_free(list->items);
    ss_free(list->origins);
    ss_free(list->plain);
    ss_free(list->first);
    ss_free(list->last);
    *list = (ss_train_list){0};
}

ss_status ss_trains_create(const ss_bridge *bridge, ss_train_list *out, ss_error *error) {
    const size_t count = (size_t)bridge->vehicle_count + 1;
    ss_train_list list = {.vehicle_count = bridge->vehicle_count,
                          .first = ss_alloc(count, sizeof *list.first),
                          .last = ss_alloc(count, sizeof *list.last)};
    if (list.first == NULL || list.last == NULL) {
        ss_trains_destroy(&list);
        return ss_no_memory(error);
    }
    for (int i = 0; i < bridge->vehicle_count; i++) list.first[i] = list.last[i] = -1;
    *out = list;
    return SS_OK;
}

static ss_status add(ss_train_list *list, const ss_vehicle *train, ss_train_origin origin, bool plain,
                     ss_error *error) {
    if (list->count == list->capacity) {
        const int capacity = 2 * list->capacity + 16;
        ss_vehicle *const grown = ss_realloc(list->items, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return ss_no_memory(error);
        }
        list->items = grown;
        ss_train_origin *const origins = ss_realloc(list->origins, (size_t)capacity, sizeof *origins);
        if (origins == NULL) {
            return ss_no_memory(error);
        }
        list->origins = origins;
        bool *const flags = ss_realloc(list->plain, (size_t)capacity, sizeof *flags);
        if (flags == NULL) {
            return ss_no_memory(error);
        }
        list->plain = flags;
        list->capacity = capacity;
    }
    list->plain[list->count] = plain;
    list->origins[list->count] = origin;
    list->items[list->count++] = *train;
    return SS_OK;
}

/* ---- spacings ----------------------------------------------------------------------------------- */

static bool varies(const ss_vehicle *loading, int gap) {
    return loading->spacing_most_m[gap] > loading->spacing_m[gap] * (1.0 + 1e-12);
}

/* The most that tells anything new on a bridge of this length. */
static double most_of(const ss_vehicle *loading, int gap, double length) {
    return ss_max(loading->spacing_m[gap], ss_min(loading->spacing_most_m[gap], length));
}

/* Values of one spacing; those beyond the bridge's length part the axles for good. */
static int steps_of(const ss_vehicle *loading, int gap, double length) {
    if (!varies(loading, gap)) {
        return 1;
    }
    const double most = most_of(loading, gap, length);
    const double parts = ceil((most - loading->spacing_m[gap]) / SS_TRAIN_STEP - 1e-9);
    return (int)ss_min(parts, SS_TRAIN_PARTS) + 1;
}

bool ss_train_range(const ss_bridge *bridge, const ss_placements *placements, int train, int gap,
                    double *least, double *most) {
    if (placements->origins == NULL) {
        return false;
    }
    const ss_train_origin *const origin = &placements->origins[train];
    const int own = gap + origin->first_axle;
    if (!varies(origin->loading, own)) {
        return false;
    }
    *least = origin->loading->spacing_m[own];
    *most = most_of(origin->loading, own, bridge->x1 - bridge->x0);
    return *most > *least;
}

static double spacing_at(const ss_vehicle *loading, int gap, double length, int step, int steps) {
    const double least = loading->spacing_m[gap], most = most_of(loading, gap, length);
    return steps > 1 ? least + (most - least) * step / (steps - 1) : least;
}

/* ---- axles that may be left out ----------------------------------------------------------------- */

/* The loading without axles before `from` and from `to` on. */
static ss_vehicle part_of(const ss_vehicle *train, int from, int to) {
    ss_vehicle part = *train;
    part.axle_count = to - from;
    for (int a = from; a < to; a++) {
        part.axle_N[a - from] = train->axle_N[a];
        part.axle_gauge_m[a - from] = train->axle_gauge_m[a];
        part.spacing_m[a - from] = a + 1 < to ? train->spacing_m[a] : 0.0;
        part.spacing_most_m[a - from] = 0.0;
    }
    return part;
}

/* The train, and what is left of it when axles at its front or at its rear relieve. */
static ss_status add_parts(ss_train_list *list, const ss_vehicle *train, const ss_vehicle *loading,
                           bool parts, ss_error *error) {
    ss_status status = add(list, train, (ss_train_origin){loading, 0}, parts, error);
    for (int k = 1;
         parts && k < train->axle_count && (train->dropped >> (k - 1) & 1u) != 0 && status == SS_OK; k++) {
        const ss_vehicle rear = part_of(train, k, train->axle_count);
        status = add(list, &rear, (ss_train_origin){loading, k}, false, error);
    }
    for (int k = train->axle_count - 1; parts && k > 0 && (train->dropped >> k & 1u) != 0 && status == SS_OK;
         k--) {
        const ss_vehicle front = part_of(train, 0, k);
        status = add(list, &front, (ss_train_origin){loading, 0}, false, error);
    }
    return status;
}

static ss_status add_loading(ss_train_list *list, const ss_vehicle *loading, double length, ss_error *error) {
    int steps[SS_AXLES_MAX], all = 1, longest = 1;
    for (int gap = 0; gap + 1 < loading->axle_count; gap++) {
        steps[gap] = steps_of(loading, gap, length);
        longest = steps[gap] > longest ? steps[gap] : longest;
        all = all > STEPS_MOST ? all : all * steps[gap];
    }
    const bool together = all > STEPS_MOST;
    const int count = together ? longest : all;
    for (int i = 0; i < count; i++) {
        ss_vehicle train = *loading;
        train.also = NULL;
        memset(train.spacing_most_m, 0, sizeof train.spacing_most_m);
        for (int gap = 0, rest = i; gap + 1 < loading->axle_count; gap++) {
            const int step =
                together ? i * (steps[gap] - 1) / (longest > 1 ? longest - 1 : 1) : rest % steps[gap];
            train.spacing_m[gap] = spacing_at(loading, gap, length, step, steps[gap]);
            rest = together ? rest : rest / steps[gap];
        }
        const ss_status status = add_parts(list, &train, loading, i == 0, error);
        if (status != SS_OK) {
            return status;
        }
    }
    return SS_OK;
}

ss_status ss_trains_of(ss_train_list *list, const ss_bridge *bridge, int vehicle, ss_error *error) {
    if (list->first[vehicle] >= 0) {
        return SS_OK;
    }
    const int first = list->count;
    const double length = bridge->x1 - bridge->x0;
    for (const ss_vehicle *loading = &bridge->vehicles[vehicle]; loading != NULL; loading = loading->also) {
        const ss_status status = add_loading(list, loading, length, error);
        if (status != SS_OK) {
            return status;
        }
    }
    list->first[vehicle] = first;
    list->last[vehicle] = list->count;
    return SS_OK;
}
