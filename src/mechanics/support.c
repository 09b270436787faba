/* support.c - whether the bearings hold each connected part of the bridge as a rigid body; if not, how it
 * moves, in words. */
#include <math.h>
#include <stdio.h>

#include "base/numeric.h"
#include "mechanics/grillage_parts.h"
#include "mechanics/mesh_parts.h"
#include "mechanics/row.h"
#include "sillspan/text.h"

/* Reciprocal of the ratio of the largest to the smallest resistance to a rigid motion below which the motion
 * is free. */
#define RANK_TOLERANCE 1e-12

/* Cars joined by an active joint, directly or through others: from `first` to `last` (cars lie side by side).
 */
typedef struct part {
    int first, last;
    double x, y;          /* middle */
    double length, width; /* sizes that make the three motions alike: sinking, rolling, tipping */
    double gram[3][3];    /* sum of the squares of bearing displacements under them */
    int rows;
    double y_low, y_high; /* of the points that bear */
    double x_low, x_high;
} part;

static bool is_open(const ss_mesh *mesh, const double *flexibility, int i) {
    return isinf(flexibility != NULL ? flexibility[i] : mesh->spring[i].flexibility);
}

static bool joined(const ss_mesh *mesh, const double *flexibility, int car) {
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *s = &mesh->spring[i];
        if (s->owner == SS_MEMBER_JOINT && mesh->bridge->joints[s->index].left == car &&
            !is_open(mesh, flexibility, i)) {
            return true;
        }
    }
    return false;
}

static part make_part(const ss_mesh *mesh, const double *flexibility, int first) {
    const ss_bridge *b = mesh->bridge;
    part p = {.first = first,
              .last = first,
              .y_low = (double)INFINITY,
              .y_high = -(double)INFINITY,
              .x_low = (double)INFINITY,
              .x_high = -(double)INFINITY};
    while (p.last + 1 < b->car_count && joined(mesh, flexibility, p.last)) {
        p.last++;
    }
    double x0 = (double)INFINITY;
    double x1 = -(double)INFINITY;
    for (int c = p.first; c <= p.last; c++) {
        x0 = ss_min(x0, b->cars[c].x0);
        x1 = ss_max(x1, b->cars[c].x1);
    }
    p.x = 0.5 * (x0 + x1);
    p.y = 0.5 * (b->cars[p.first].y_left + b->cars[p.last].y_right);
    p.length = 0.5 * (x1 - x0);
    p.width = ss_max(0.5 * (b->cars[p.last].y_right - b->cars[p.first].y_left), 1e-3 * p.length);
    return p;
}

/* Displacement of a bearing row under: w = 1; w = (y - y_m) / width; w = (x - x_m) / length. */
static void rigid_values(const ss_mesh *mesh, const part *p, const ss_row *row, double out[3]) {
    out[0] = out[1] = out[2] = 0.0;
    for (int i = 0; i < row->count; i++) {
        const int node = row->dof[i] / 3;
        const double v = row->value[i];
        switch (row->dof[i] % 3) {
        case 0:
            out[0] += v;
            out[1] += v * (mesh->bridge->lines[mesh->node_line[node]].y - p->y) / p->width;
            out[2] += v * (mesh->station[mesh->node_station[node]] - p->x) / p->length;
            break;
        case 1: out[1] += v / p->width; break;
        default: out[2] -= v / p->length; break;
        }
    }
}

static void add_bearings(const ss_mesh *mesh, const double *flexibility, part *p) {
    for (int i = 0; i < mesh->spring_count; i++) {
        const ss_spring *s = &mesh->spring[i];
        if (s->owner != SS_MEMBER_BEARING || is_open(mesh, flexibility, i)) {
            continue;
        }
        const int car = mesh->bridge->bearings[s->index].car;
        if (car < p->first || car > p->last) {
            continue;
        }
        double v[3];
        rigid_values(mesh, p, &s->row, v);
        for (int j = 0; j < 3; j++) {
            for (int k = 0; k < 3; k++) {
                p->gram[j][k] += v[j] * v[k];
            }
        }
        p->rows++;
        if (s->kind != SS_SPRING_VERTICAL) {
            continue;
        }
        p->y_low = ss_min(p->y_low, s->y);
        p->y_high = ss_max(p->y_high, s->y);
        p->x_low = ss_min(p->x_low, s->x);
        p->x_high = ss_max(p->x_high, s->x);
    }
}

/* Eigenvalues and vectors (columns) of a symmetric 3 x 3 matrix by Jacobi rotations; three sweeps too many do
 * no harm. */
static void eigen3(double a[3][3], double v[3][3]) {
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            v[i][j] = i == j ? 1.0 : 0.0;
        }
    }
    for (int sweep = 0; sweep < 12; sweep++) {
        for (int p = 0; p < 2; p++) {
            for (int q = p + 1; q < 3; q++) {
                if (a[p][q] == 0.0) {
                    continue;
                }
                const double theta = 0.5 * (a[q][q] - a[p][p]) / a[p][q];
                const double t =
                    isinf(theta) ? 0.0 : (theta < 0.0 ? -1.0 : 1.0) / (fabs(theta) + hypot(theta, 1.0));
                const double c = 1.0 / sqrt(t * t + 1.0);
                const double s = t * c;
                for (int k = 0; k < 3; k++) {
                    const double x = a[k][p];
                    const double y = a[k][q];
                    a[k][p] = c * x - s * y;
                    a[k][q] = s * x + c * y;
                }
                for (int k = 0; k < 3; k++) {
                    const double x = a[p][k];
                    const double y = a[q][k];
                    a[p][k] = c * x - s * y;
                    a[q][k] = s * x + c * y;
                    const double x_v = v[k][p];
                    const double y_v = v[k][q];
                    v[k][p] = c * x_v - s * y_v;
                    v[k][q] = s * x_v + c * y_v;
                }
            }
        }
    }
}

static const char *part_words(const ss_bridge *b, const part *p, char *buffer, size_t size) {
    if (p->first == p->last) {
        snprintf(buffer, size, "car %s", b->cars[p->first].name);
    } else {
        snprintf(buffer, size, "cars %s to %s, joined,", b->cars[p->first].name, b->cars[p->last].name);
    }
    return buffer;
}

static ss_status refuse(const ss_mesh *mesh, const part *p, const double motion[3], int free_motions,
                        ss_error *error) {
    char who[200];
    char place[48];
    const char *verb = p->first == p->last ? "its" : "their";
    part_words(mesh->bridge, p, who, sizeof who);
    if (p->rows == 0) {
        return ss_error_set(error, SS_ERROR_MECHANISM, "%s cannot be held: no bearing carries %s", who,
                            p->first == p->last ? "it" : "them");
    }
    if (free_motions > 1) {
        return ss_error_set(
            error, SS_ERROR_MECHANISM,
            "%s can roll and tip: %s bearings stand at one point, x = %s, or hold nothing else", who, verb,
            ss_mesh_x_words(mesh->bridge->units, p->x_low, place, sizeof place));
    }
    const double roll = fabs(motion[1]);
    const double tip = fabs(motion[2]);
    if (p->y_high - p->y_low < 1e-9 * p->width && roll >= tip) {
        return ss_error_set(
            error, SS_ERROR_MECHANISM,
            "%s can roll about %s bearings: they stand under one line (y = %s) and have no pad width", who,
            verb, ss_mesh_x_words(mesh->bridge->units, p->y_low, place, sizeof place));
    }
    if (p->x_high - p->x_low < 1e-9 * p->length && tip >= roll) {
        return ss_error_set(error, SS_ERROR_MECHANISM,
                            "%s can tip end over end: %s bearings all stand at x = %s", who, verb,
                            ss_mesh_x_words(mesh->bridge->units, p->x_low, place, sizeof place));
    }
    return ss_error_set(error, SS_ERROR_MECHANISM,
                        "%s can turn about the line through %s bearings: they stand in one straight line",
                        who, verb);
}

ss_status ss_support_check(const ss_mesh *mesh, const double *flexibility, ss_error *error) {
    for (int car = 0; car < mesh->bridge->car_count;) {
        part p = make_part(mesh, flexibility, car);
        add_bearings(mesh, flexibility, &p);
        double v[3][3];
        eigen3(p.gram, v);
        const double most = ss_max(p.gram[0][0], ss_max(p.gram[1][1], p.gram[2][2]));
        int free_motions = 0;
        int which = 0;
        for (int i = 0; i < 3; i++) {
            if (p.gram[i][i] > RANK_TOLERANCE * most) {
                continue;
            }
            free_motions++;
            which = i;
        }
        if (free_motions > 0) {
            const double motion[3] = {v[0][which], v[1][which], v[2][which]};
            return refuse(mesh, &p, motion, free_motions, error);
        }
        car = p.last + 1;
    }
    return SS_OK;
}
