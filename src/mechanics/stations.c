/* stations.c - where along the bridge something is or changes, and the fillers between. */
#include "mechanics/mesh_parts.h"

#include <math.h>
#include <stdlib.h>

#include "base/numeric.h"
#include "base/try.h"
#include "sillspan/text.h"

/* More than any bridge needs (half an inch apart on 200 ft is 4800); beyond it the spacing is a slip of the
 * pen. */
enum { STATIONS_MAX = 20000 };

typedef struct mark {
    double x;
    int rank; /* 0: of the structure; 1: of a load or a probe. The structure's place is kept where both are
                 merged */
} mark;

typedef struct mark_list {
    mark *items; /* NULL: only counting */
    int count;
    double low, high;
} mark_list;

static void add(mark_list *list, double x, int rank) {
    if (!isfinite(x) || x < list->low - SS_STATION_TOLERANCE || x > list->high + SS_STATION_TOLERANCE) {
        return;
    }
    if (list->items != NULL) {
        list->items[list->count] = (mark){.x = ss_clamp(x, list->low, list->high), .rank = rank};
    }
    list->count++;
}

static void add_slab(mark_list *list, const ss_slab *slab) {
    if (!slab->given) {
        return;
    }
    add(list, slab->x0, 0);
    add(list, slab->x1, 0);
    for (int i = 0; i < slab->pour_count; i++) {
        add(list, slab->pours[i].x0, 0);
        add(list, slab->pours[i].x1, 0);
    }
    for (int i = 0; i < slab->shore_count; i++) {
        add(list, slab->shores[i].x, 0);
    }
}

static void add_structure(mark_list *list, const ss_bridge *b) {
    for (int i = 0; i < b->car_count; i++) {
        add(list, b->cars[i].x0, 0);
        add(list, b->cars[i].x1, 0);
    }
    for (int i = 0; i < b->line_count; i++) {
        add(list, b->lines[i].x0, 0);
        add(list, b->lines[i].x1, 0);
        for (int k = 0; k < b->lines[i].piece_count; k++) {
            add(list, b->pieces[b->lines[i].first_piece + k].x0, 0);
            add(list, b->pieces[b->lines[i].first_piece + k].x1, 0);
        }
        for (int k = 0; k < b->lines[i].crack_count; k++) {
            add(list, b->cracks[b->lines[i].first_crack + k], 0);
        }
    }
    for (int i = 0; i < b->floor_beam_count; i++) {
        add(list, b->floor_beams[i].x, 0);
    }
    for (int i = 0; i < b->bearing_count; i++) {
        add(list, b->bearings[i].x, 0);
    }
    for (int i = 0; i < b->joint_count; i++) {
        const ss_joint *joint = &b->joints[i];
        if (joint->kind == SS_JOINT_NONE) {
            continue;
        }
        for (int k = 0; k < joint->connector_count; k++) {
            add(list, b->connectors[joint->first_connector + k], 0);
        }
        if (joint->connector_count == 0) {
            add(list, joint->x0, 0);
            add(list, joint->x1, 0);
        }
        for (int k = 0; k < joint->loose_count; k++) {
            add(list, b->loose[joint->first_loose + k].x0, 0);
            add(list, b->loose[joint->first_loose + k].x1, 0);
        }
    }
    add_slab(list, &b->slab);
}

static void add_truck(mark_list *list, const ss_bridge *b, const ss_placed_load *load) {
    const ss_vehicle *vehicle = &b->vehicles[load->vehicle];
    double x = load->x0;
    for (int k = 0; k < vehicle->axle_count; k++) {
        add(list, x, 1);
        x += (load->backward ? 1.0 : -1.0) * vehicle->spacing_m[k];
    }
}

static void add_loads(mark_list *list, const ss_bridge *b) {
    for (int i = 0; i < b->dead_load_count; i++) {
        add(list, b->dead_loads[i].x0, 1);
        add(list, b->dead_loads[i].x1, 1);
    }
    for (int i = 0; i < b->placed_count; i++) {
        const ss_placed_load *load = &b->placed[i];
        if (load->kind == SS_LOAD_TRUCK) {
            add_truck(list, b, load);
            continue;
        }
        add(list, load->x0, 1);
        if (load->kind != SS_LOAD_POINT) {
            add(list, load->x1, 1);
        }
    }
    for (int i = 0; i < b->probe_count; i++) {
        if (b->probes[i].member != SS_MEMBER_BEAM) {
            add(list, b->probes[i].at, 1);
        }
    }
}

static int compare_marks(const void *a, const void *b) {
    const mark *p = a;
    const mark *q = b;
    if (p->x != q->x) {
        return p->x < q->x ? -1 : 1;
    }
    return p->rank - q->rank;
}

/* Sorts, and keeps one mark of every cluster within the tolerance: the first of the best rank. */
static void merge(mark_list *list, int *merged) {
    qsort(list->items, (size_t)list->count, sizeof *list->items, compare_marks);
    int kept = 0;
    *merged = 0;
    for (int i = 0; i < list->count;) {
        mark best = list->items[i];
        const double start = best.x;
        double last = start;
        int end = i + 1;
        while (end < list->count && list->items[end].x - start < SS_STATION_TOLERANCE) {
            if (list->items[end].x - last > 1e-9) {
                ++*merged;
            }
            last = list->items[end].x;
            if (list->items[end].rank < best.rank) {
                best = list->items[end];
            }
            end++;
        }
        list->items[kept++] = best;
        i = end;
    }
    list->count = kept;
}

static bool tapered(const ss_bridge *b, double x0, double x1) {
    for (int i = 0; i < b->piece_count; i++) {
        const ss_line_piece *piece = &b->pieces[i];
        if (piece->depth0 != piece->depth1 && piece->x0 < x1 - SS_STATION_TOLERANCE &&
            piece->x1 > x0 + SS_STATION_TOLERANCE) {
            return true;
        }
    }
    return false;
}

/* Into how many the interval from mark i to mark i + 1 is cut. */
static double cuts(const ss_bridge *b, const mark_list *list, int i, int refine) {
    const double x0 = list->items[i].x;
    const double x1 = list->items[i + 1].x;
    double n = 1.0;
    if (b->station_spacing > 0.0) {
        const double limit = tapered(b, x0, x1) ? 0.5 * b->station_spacing : b->station_spacing;
        n = ss_max(1.0, ceil((x1 - x0) / limit - 1e-9));
    }
    return n * (refine > 1 ? refine : 1);
}

static ss_status fill(ss_mesh *mesh, const mark_list *list, int refine, ss_error *error) {
    double total = 1.0;
    for (int i = 0; i + 1 < list->count; i++) {
        total += cuts(mesh->bridge, list, i, refine);
    }
    if (list->count < 2) {
        return ss_error_set(error, SS_ERROR_DESCRIPTION, "the bridge has no length");
    }
    if (!(total <= STATIONS_MAX)) {
        char number[32];
        return ss_error_set(error, SS_ERROR_LIMIT,
                            "the spacing of stations asks for %s of them; at most %d are allowed",
                            ss_text_significant(number, sizeof number, total, 4), STATIONS_MAX);
    }
    mesh->station_count = (int)total;
    mesh->station = ss_arena_alloc(&mesh->arena, (size_t)mesh->station_count, sizeof *mesh->station);
    mesh->marked = ss_arena_alloc(&mesh->arena, (size_t)mesh->station_count, sizeof *mesh->marked);
    if (mesh->station == NULL || mesh->marked == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the stations");
    }
    int at = 0;
    for (int i = 0; i + 1 < list->count; i++) {
        const int n = (int)cuts(mesh->bridge, list, i, refine);
        const double x0 = list->items[i].x;
        const double step = (list->items[i + 1].x - x0) / n;
        for (int k = 0; k < n; k++) {
            mesh->marked[at] = k == 0;
            mesh->station[at++] = x0 + k * step;
        }
    }
    mesh->marked[at] = true;
    mesh->station[at] = list->items[list->count - 1].x;
    return SS_OK;
}

ss_status ss_stations_build(ss_mesh *mesh, int refine, ss_error *error) {
    ss_status status = SS_OK;
    const ss_bridge *b = mesh->bridge;
    mark_list list = {.low = b->x0, .high = b->x1};
    add_structure(&list, b);
    add_loads(&list, b);
    list.items = ss_alloc((size_t)list.count, sizeof *list.items);
    if (list.items == NULL) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the stations");
    }
    list.count = 0;
    add_structure(&list, b);
    add_loads(&list, b);
    merge(&list, &mesh->merged_count);
    SS_TRY(fill(mesh, &list, refine, error));
done:
    ss_free(list.items);
    return status;
}

/* The last station at or before x, found by halving; 0 when x is before all. */
static int at_or_before(const ss_mesh *mesh, double x) {
    int low = 0;
    int high = mesh->station_count - 1;
    while (low < high) {
        const int middle = (low + high + 1) / 2;
        if (mesh->station[middle] <= x) {
            low = middle;
        } else {
            high = middle - 1;
        }
    }
    return low;
}

int ss_station_nearest(const ss_mesh *mesh, double x) {
    const int i = at_or_before(mesh, x);
    if (i + 1 < mesh->station_count && fabs(mesh->station[i + 1] - x) < fabs(mesh->station[i] - x)) {
        return i + 1;
    }
    return i;
}

int ss_station_intervals(const ss_mesh *mesh, double x, int interval[2]) {
    const int last = mesh->station_count - 1;
    const int near = ss_station_nearest(mesh, x);
    int count = 0;
    if (fabs(mesh->station[near] - x) <= SS_AT_STATION) {
        if (near < last) {
            interval[count++] = near;
        }
        if (near > 0) {
            interval[count++] = near - 1;
        }
    } else if (x > mesh->station[0] && x < mesh->station[last]) {
        interval[count++] = at_or_before(mesh, x);
    }
    return count;
}

double ss_station_of_load(const ss_mesh *mesh, double x) {
    const double nearest = mesh->station[ss_station_nearest(mesh, x)];
    return fabs(nearest - x) <= SS_STATION_TOLERANCE ? nearest : x;
}
