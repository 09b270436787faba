/* passage.c - ranges of effects under one rolling truck: influence ordinates under both wheels of an axle
 * along a line, then the truck axle by axle.
 */
#include "response/passage.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Ordinates of an interval: just after its first station, in its middle, just before its second. They are
 * cubic in between; three points are exact for all but the last power. */
enum { SAMPLES = 3, KINKS_MOST = 64 };

/* Springs that carry less than this share of all dead load carry none. */
#define CARRIES 1e-9

/* Lines of the truck's middle closer than this are one (m). */
#define SAME_LINE 1e-6

/* Axles of at least this share of the heaviest are put at places; the others stand where that leaves them. */
#define HEAVY 0.5

#define AT_STATION 1e-9

/* How far beside a jump of the deck its other side is (m), and what is one. */
#define BESIDE 1e-5
#define JUMP 1e-3

typedef struct roller {
    const ss_permanent *permanent;
    const ss_mesh *mesh;
    const ss_vehicle *truck;
    const ss_effect *effects;
    int count; /* of a tile */
    double *middles;
    int middle_count;
    double *field;     /* order x SS_TILE */
    double *ordinates; /* intervals x SAMPLES x SS_TILE, of an axle of 1 N */
    ss_passage *out;
    ss_error *error;
} roller;

/* ---- lines of the truck ----------------------------------------------------------------------------- */

/* Share of a force at y on a line of that interval. */
static double share_of(const ss_mesh *mesh, int interval, double y, int line) {
    ss_carrier carriers[4];
    const int count = ss_mesh_deck_across(mesh, interval, y, carriers);
    double share = 0.0;
    for (int i = 0; i < count; i++) share += carriers[i].line == line ? carriers[i].weight : 0.0;
    return share;
}

/* Whether shares jump at y, as at a gap over which the deck does not run: then both sides count. */
static bool jumps(const ss_mesh *mesh, int interval, double y) {
    ss_carrier carriers[4];
    const int count = ss_mesh_deck_across(mesh, interval, y, carriers);
    for (int i = 0; i < count; i++) {
        const double after = share_of(mesh, interval, y + BESIDE, carriers[i].line);
        if (fabs(after - share_of(mesh, interval, y, carriers[i].line)) > JUMP) {
            return true;
        }
    }
    return false;
}

static ss_status find_middles(roller *r) {
    const ss_mesh *const mesh = r->mesh;
    const ss_bridge *const bridge = mesh->bridge;
    const double half = 0.5 * r->truck->gauge_m;
    const double low = bridge->roadway_left + bridge->wheel_to_curb + half;
    const double high = bridge->roadway_right - bridge->wheel_to_curb - half;
    const int most = 4 * KINKS_MOST * (mesh->station_count + 1) + 3;
    r->middles = ss_alloc((size_t)most, sizeof *r->middles);
    if (r->middles == NULL) {
        return ss_no_memory(r->error);
    }
    if (!(high >= low - SAME_LINE)) {
        return SS_OK;
    }
    int count = 0;
    r->middles[count++] = low;
    r->middles[count++] = 0.5 * (low + high);
    r->middles[count++] = high;
    for (int i = 0; i + 1 < mesh->station_count; i++) {
        double kinks[KINKS_MOST];
        const int found = ss_mesh_deck_kinks(mesh, i, kinks, KINKS_MOST);
        for (int k = 0; k < 2 * found; k++) {
            const double y = kinks[k / 2] + (k % 2 == 0 ? half : -half);
            if (y > low && y < high) {
                r->middles[count++] = y;
                if (jumps(mesh, i, kinks[k / 2])) {
                    r->middles[count++] = y + BESIDE;
                }
            }
        }
    }
    ss_sort_unique(r->middles, &count, SAME_LINE);
    r->middle_count = count;
    return SS_OK;
}

/* ---- influence -------------------------------------------------------------------------------------- */

static ss_status solve(roller *r, const ss_update *update) {
    const ss_grillage *const grillage = r->permanent->grillage;
    double *const work = ss_alloc(ss_grillage_work(grillage, update), sizeof *work);
    if (work == NULL) {
        return ss_no_memory(r->error);
    }
    memset(r->field, 0, (size_t)r->mesh->order * SS_TILE * sizeof *r->field);
    for (int lane = 0; lane < r->count; lane++) {
        ss_row row;
        ss_mesh_effect_row(r->mesh, &r->effects[lane], &row);
        for (int i = 0; i < row.count; i++) {
            r->field[(size_t)row.dof[i] * SS_TILE + (size_t)lane] += row.value[i];
        }
    }
    ss_grillage_solve(grillage, update, r->field, work);
    ss_free(work);
    return SS_OK;
}

static void add_dof(const roller *r, int dof, double factor, double *to) {
    const double *const from = &r->field[(size_t)dof * SS_TILE];
    for (int lane = 0; lane < SS_TILE; lane++) to[lane] += factor * from[lane];
}

/* What a force within the effect's own element does besides. */
static void add_own(const roller *r, int element, double s, double factor, double *to) {
    for (int lane = 0; lane < r->count; lane++) {
        if (r->effects[lane].element == element) {
            double c[4];
            ss_mesh_effect_local_cubic(r->mesh, &r->effects[lane], c);
            to[lane] += factor * (c[0] + s * (c[1] + s * (c[2] + s * c[3])));
        }
    }
}

/* One wheel of `share` in an interval, at all samples. */
static void add_wheel(const roller *r, int interval, double y, double share, double *to) {
    ss_carrier carriers[4];
    const int count = ss_mesh_deck_across(r->mesh, interval, y, carriers);
    for (int i = 0; i < count; i++) {
        const ss_carrier *const c = &carriers[i];
        const int index =
            r->mesh->line_element[(size_t)interval * (size_t)r->mesh->bridge->line_count + (size_t)c->line];
        const ss_element *const e = &r->mesh->element[index];
        double shape[6][4];
        ss_element_shape(e, shape);
        for (int k = 0; k < SAMPLES; k++) {
            const double s = 0.5 * k;
            double *const at = &to[(size_t)k * SS_TILE];
            for (int j = 0; j < 6; j++) {
                const double *const p = shape[j];
                const double value = p[0] + s * (p[1] + s * (p[2] + s * p[3]));
                add_dof(r, 3 * (j < 3 ? e->a : e->b) + j % 3, share * c->weight * value, at);
            }
            if (c->arm != 0.0) {
                add_dof(r, 3 * e->a + 1, share * c->arm * (1.0 - s), at);
                add_dof(r, 3 * e->b + 1, share * c->arm * s, at);
            }
            add_own(r, index, s, share * c->weight, at);
        }
    }
}

static void find_ordinates(roller *r, double middle) {
    const int intervals = r->mesh->station_count - 1;
    const double half = 0.5 * r->truck->gauge_m;
    memset(r->ordinates, 0, (size_t)intervals * SAMPLES * SS_TILE * sizeof *r->ordinates);
    for (int i = 0; i < intervals; i++) {
        double *const to = &r->ordinates[(size_t)i * SAMPLES * SS_TILE];
        add_wheel(r, i, middle - half, 0.5, to);
        add_wheel(r, i, middle + half, 0.5, to);
    }
}

/* ---- rolling ---------------------------------------------------------------------------------------- */

/* The interval that x lies in, or -1. Rounding puts no axle on the other side of a station. */
static int interval_of(const ss_mesh *mesh, double x, bool before) {
    int low = 0;
    int high = mesh->station_count - 1;
    if (!(x >= mesh->station[0] - AT_STATION) || !(x <= mesh->station[high] + AT_STATION)) {
        return -1;
    }
    while (high - low > 1) {
        const int mid = (low + high) / 2;
        *(x < mesh->station[mid] + (before ? AT_STATION : -AT_STATION) ? &high : &low) = mid;
    }
    return low;
}

static void add_axle(const roller *r, double x, bool before, double load, double sum[SS_TILE]) {
    const int i = interval_of(r->mesh, x, before);
    if (i < 0) {
        return;
    }
    const double length = r->mesh->station[i + 1] - r->mesh->station[i];
    const double s = ss_clamp((x - r->mesh->station[i]) / length, 0.0, 1.0);
    const double w[SAMPLES] = {load * (1.0 - s) * (1.0 - 2.0 * s), load * 4.0 * s * (1.0 - s),
                               load * s * (2.0 * s - 1.0)};
    const double *const at = &r->ordinates[(size_t)i * SAMPLES * SS_TILE];
    for (int lane = 0; lane < SS_TILE; lane++) {
        sum[lane] += w[0] * at[lane] + w[1] * at[SS_TILE + lane] + w[2] * at[2 * SS_TILE + lane];
    }
}

/* Sums of one place of the truck into the extremes. */
static void stand(const roller *r, const double behind[SS_AXLES_MAX], double front, bool backward,
                  bool before, double least[SS_TILE], double most[SS_TILE]) {
    double sum[SS_TILE] = {0};
    for (int a = 0; a < r->truck->axle_count; a++) {
        add_axle(r, backward ? front + behind[a] : front - behind[a], before, r->truck->axle_N[a], sum);
    }
    for (int lane = 0; lane < SS_TILE; lane++) {
        least[lane] = ss_min(least[lane], sum[lane]);
        most[lane] = ss_max(most[lane], sum[lane]);
    }
}

/* One passage: each heavy axle at each station, just before and just after, and in the middle to the next. */
static void roll(const roller *r, bool backward, double least[SS_TILE], double most[SS_TILE]) {
    const ss_vehicle *const truck = r->truck;
    const double *const station = r->mesh->station;
    double behind[SS_AXLES_MAX];
    double heaviest = truck->axle_N[0];
    behind[0] = 0.0;
    for (int a = 1; a < truck->axle_count; a++) {
        behind[a] = behind[a - 1] + truck->spacing_m[a - 1];
        heaviest = ss_max(heaviest, truck->axle_N[a]);
    }
    for (int lane = 0; lane < SS_TILE; lane++) least[lane] = most[lane] = 0.0;
    for (int a = 0; a < truck->axle_count; a++) {
        const double ahead = backward ? -behind[a] : behind[a];
        for (int i = 0; i < r->mesh->station_count && truck->axle_N[a] >= HEAVY * heaviest; i++) {
            stand(r, behind, station[i] + ahead, backward, true, least, most);
            stand(r, behind, station[i] + ahead, backward, false, least, most);
            if (i + 1 < r->mesh->station_count) {
                const double middle = 0.5 * (station[i] + station[i + 1]);
                stand(r, behind, middle + ahead, backward, false, least, most);
            }
        }
    }
}

static ss_status roll_tile(roller *r, const ss_update *update) {
    ss_status status = SS_OK;
    SS_TRY(solve(r, update));
    for (int i = 0; i < 2 * r->middle_count; i++) {
        const double y = r->middles[i / 2];
        double least[SS_TILE];
        double most[SS_TILE];
        if (i % 2 == 0) {
            find_ordinates(r, y);
        }
        roll(r, i % 2 == 1, least, most);
        for (int lane = 0; lane < r->count; lane++) {
            ss_passage *const p = &r->out[lane];
            p->least = ss_min(p->least, least[lane]);
            p->most = ss_max(p->most, most[lane]);
            /* The first of passages that tie by more than rounding. */
            if (most[lane] - least[lane] > p->range * (1.0 + 1e-9)) {
                p->range = most[lane] - least[lane];
                p->y = y;
                p->backward = i % 2 == 1;
            }
        }
    }
done:
    return status;
}

/* ---- bearings --------------------------------------------------------------------------------------- */

/* The bridge on those bearings alone that carry dead load; NULL: that is all of them, or it does not stand.
 */
static ss_status without_idle(const roller *r, ss_update **out) {
    const ss_mesh *const mesh = r->mesh;
    const ss_state *const present = &r->permanent->present;
    double *const flexibility = ss_alloc((size_t)mesh->spring_count + 1, sizeof *flexibility);
    bool idle = false;
    *out = NULL;
    if (flexibility == NULL) {
        return ss_no_memory(r->error);
    }
    const double least = CARRIES * fabs(present->load.total);
    for (int i = 0; i < mesh->spring_count; i++) {
        const bool open = mesh->spring[i].contact && !(present->force[i] > least);
        flexibility[i] = open ? SS_INFINITY : mesh->spring[i].flexibility;
        idle = idle || open;
    }
    ss_status status = SS_OK;
    if (idle) {
        ss_error unstable = {0};
        status = ss_update_create(r->permanent->grillage, flexibility, out, &unstable);
        if (status == SS_ERROR_MECHANISM) {
            *out = NULL;
            status = SS_OK;
        } else if (status != SS_OK) {
            ss_error_set(r->error, status, "%s", unstable.message);
        }
    }
    ss_free(flexibility);
    return status;
}

/* ---- all -------------------------------------------------------------------------------------------- */

ss_status ss_passages_compute(const ss_permanent *permanent, const ss_vehicle *truck,
                              const ss_effect *effects, int count, ss_passage *out, int *lines,
                              ss_error *error) {
    roller r = {.permanent = permanent,
                .mesh = ss_grillage_mesh(permanent->grillage),
                .truck = truck,
                .error = error};
    ss_update *update = NULL;
    ss_status status = SS_OK;
    SS_TRY(find_middles(&r));
    *lines = r.middle_count;
    if (r.middle_count == 0) {
        goto done;
    }
    r.field = ss_alloc((size_t)r.mesh->order * SS_TILE, sizeof *r.field);
    r.ordinates = ss_alloc((size_t)r.mesh->station_count * SAMPLES * SS_TILE, sizeof *r.ordinates);
    SS_TRY(r.field == NULL || r.ordinates == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(without_idle(&r, &update));
    for (int i = 0; i < count; i++) out[i] = (ss_passage){.y = SS_NAN};
    for (int first = 0; first < count; first += SS_TILE) {
        r.effects = &effects[first];
        r.count = count - first < SS_TILE ? count - first : SS_TILE;
        r.out = &out[first];
        SS_TRY(roll_tile(&r, NULL));
        if (update != NULL) {
            SS_TRY(roll_tile(&r, update));
        }
    }
done:
    ss_update_destroy(update);
    ss_free(r.middles);
    ss_free(r.field);
    ss_free(r.ordinates);
    return status;
}
