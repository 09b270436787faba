/* section_plates.c - exact sums over rectangles: elastic and plastic moduli, webs and their clear depth,
 * closed cell. */
#include "model/section_plates.h"

#include <math.h>
#include <stdlib.h>

#include "base/numeric.h"

/* Ends of a strip that run into other plates lose nothing of b t^3 / 3, free ones 0.32 t each of b; from this
 * ratio of sides on the loss is left out, as handbooks do. */
#define STUBBY 3.0

static double top_of(const ss_plate *plates, int count) {
    double top = 0.0;
    for (int i = 0; i < count; i++) {
        top = ss_max(top, plates[i].z1);
    }
    return top;
}

static double thickness_of(const ss_plate *plate) {
    return ss_min(plate->y1 - plate->y0, plate->z1 - plate->z0);
}

static double middle_of(const ss_plate *plate) {
    return 0.5 * (plate->z0 + plate->z1);
}

static int by_value(const void *a, const void *b) {
    const double p = *(const double *)a;
    const double q = *(const double *)b;
    return (p > q) - (p < q);
}

/* Total width of the plates that contain the open interval (low, high). */
static double width_between(const ss_plate *plates, int count, double low, double high) {
    double width = 0.0;
    for (int i = 0; i < count; i++) {
        if (plates[i].z0 <= low && plates[i].z1 >= high) {
            width += plates[i].y1 - plates[i].y0;
        }
    }
    return width;
}

/* Between two neighbouring plate edges the width is constant, so the area below z is piecewise linear; the
 * axis is where it reaches half. */
double ss_plates_plastic_axis(const ss_plate *plates, int count, double area) {
    double edges[2 * SS_PLATES_MAX];
    for (int i = 0; i < count; i++) {
        edges[2 * i] = plates[i].z0;
        edges[2 * i + 1] = plates[i].z1;
    }
    const int edge_count = 2 * count;
    qsort(edges, (size_t)edge_count, sizeof edges[0], by_value);

    double axis = edges[0];
    double below = 0.0;
    for (int i = 0; i + 1 < edge_count; i++) {
        const double width = width_between(plates, count, edges[i], edges[i + 1]);
        const double strip = width * (edges[i + 1] - edges[i]);
        if (below + strip >= 0.5 * area) {
            axis = width > 0.0 ? edges[i] + (0.5 * area - below) / width : edges[i];
            break;
        }
        below += strip;
    }
    return axis;
}

/* The sum of the first moments about the plastic neutral axis, each taken positive. */
static double plastic_modulus(const ss_plate *plates, int count, double area) {
    const double axis = ss_plates_plastic_axis(plates, count, area);
    double modulus = 0.0;
    for (int i = 0; i < count; i++) {
        const double width = plates[i].y1 - plates[i].y0;
        const double up = plates[i].z1 - axis;
        const double down = plates[i].z0 - axis;
        /* integral of |z - axis| over the plate's height */
        modulus += 0.5 * width * (up * fabs(up) - down * fabs(down));
    }
    return modulus;
}

static bool touches_sideways(const ss_plate *web, const ss_plate *other) {
    const bool beside =
        fabs(other->y0 - web->y1) <= SS_PLATE_TOUCH || fabs(other->y1 - web->y0) <= SS_PLATE_TOUCH;
    return beside && other->z0 < web->z1 - SS_PLATE_TOUCH && other->z1 > web->z0 + SS_PLATE_TOUCH;
}

/* What flanges that butt against the sides of a web leave free of its height. */
static double clear_of(const ss_plate *plates, int count, int index) {
    const ss_plate *const web = &plates[index];
    double low = web->z0;
    double high = web->z1;
    for (int i = 0; i < count; i++) {
        if (i == index || plates[i].web || !touches_sideways(web, &plates[i])) {
            continue;
        }
        if (middle_of(&plates[i]) < middle_of(web)) {
            low = ss_max(low, plates[i].z1);
        } else {
            high = ss_min(high, plates[i].z0);
        }
    }
    return ss_max(high - low, 0.0);
}

void ss_plates_sums(const ss_plate *plates, int count, ss_section_properties *out) {
    double area = 0.0;
    double first = 0.0;
    out->shear_area = out->web_clear = out->web_thin = 0.0;
    for (int i = 0; i < count; i++) {
        const double a = (plates[i].y1 - plates[i].y0) * (plates[i].z1 - plates[i].z0);
        area += a;
        first += a * middle_of(&plates[i]);
        if (!plates[i].web) {
            continue;
        }
        const double thickness = thickness_of(&plates[i]);
        out->shear_area += a;
        out->web_clear = ss_max(out->web_clear, clear_of(plates, count, i));
        out->web_thin = out->web_thin == 0.0 ? thickness : ss_min(out->web_thin, thickness);
    }
    const double centroid = first / area;
    double second = 0.0;
    for (int i = 0; i < count; i++) {
        const double width = plates[i].y1 - plates[i].y0;
        const double height = plates[i].z1 - plates[i].z0;
        const double arm = middle_of(&plates[i]) - centroid;
        second += width * height * (height * height / 12.0 + arm * arm);
    }
    out->A = area;
    out->I = second;
    out->depth = top_of(plates, count);
    out->z_centroid = centroid;
    out->S_top = second / (out->depth - centroid);
    out->S_bottom = second / centroid;
    out->Z = plastic_modulus(plates, count, area);
}

void ss_plates_mark_webs(ss_plate *plates, int count) {
    const double middle = 0.5 * top_of(plates, count);
    bool upright = false;
    for (int i = 0; i < count; i++) {
        plates[i].web = plates[i].z0 < middle && plates[i].z1 > middle;
        upright = upright || (plates[i].web && plates[i].z1 - plates[i].z0 >= plates[i].y1 - plates[i].y0);
    }
    for (int i = 0; i < count && upright; i++) {
        if (plates[i].z1 - plates[i].z0 < plates[i].y1 - plates[i].y0) {
            plates[i].web = false;
        }
    }
}

bool ss_plates_stretch(const ss_plate *plates, int count, double depth, ss_plate *out) {
    const double top = top_of(plates, count);
    const double change = depth - top;
    for (int i = 0; i < count; i++) {
        out[i] = plates[i];
        if (plates[i].web || middle_of(&plates[i]) > 0.5 * top) {
            out[i].z1 += change;
        }
        if (!plates[i].web && middle_of(&plates[i]) > 0.5 * top) {
            out[i].z0 += change;
        }
        if (out[i].z0 < -SS_PLATE_TOUCH || out[i].z1 - out[i].z0 <= SS_PLATE_TOUCH) {
            return false;
        }
    }
    int first = 0;
    int second = 0;
    return !ss_plates_overlap(out, count, &first, &second);
}

bool ss_plates_overlap(const ss_plate *plates, int count, int *first, int *second) {
    for (int i = 0; i < count; i++) {
        for (int j = i + 1; j < count; j++) {
            const double across = ss_min(plates[i].y1, plates[j].y1) - ss_max(plates[i].y0, plates[j].y0);
            const double upward = ss_min(plates[i].z1, plates[j].z1) - ss_max(plates[i].z0, plates[j].z0);
            if (across > SS_PLATE_TOUCH && upward > SS_PLATE_TOUCH) {
                *first = i;
                *second = j;
                return true;
            }
        }
    }
    return false;
}

bool ss_plates_stands_alone(const ss_plate *plates, int count, int index, double reach) {
    const ss_plate *const plate = &plates[index];
    for (int j = 0; j < count; j++) {
        const double across = ss_min(plate->y1, plates[j].y1) - ss_max(plate->y0, plates[j].y0);
        const double upward = ss_min(plate->z1, plates[j].z1) - ss_max(plate->z0, plates[j].z0);
        if (j != index && across >= -reach && upward >= -reach) {
            return false;
        }
    }
    return true;
}

/* Thickness of the plates that span between the webs on one side, and the height of their middle line. */
static double spanning(const ss_plate *plates, int count, const ss_plate *const web[2], bool upper,
                       double *height) {
    const double middle = 0.5 * (middle_of(web[0]) + middle_of(web[1]));
    double thickness = 0.0;
    double moment = 0.0;
    for (int i = 0; i < count; i++) {
        const ss_plate *const plate = &plates[i];
        const bool spans =
            plate->y0 <= web[0]->y1 + SS_PLATE_TOUCH && plate->y1 >= web[1]->y0 - SS_PLATE_TOUCH;
        if (plate->web || !spans || (middle_of(plate) > middle) != upper) {
            continue;
        }
        thickness += plate->z1 - plate->z0;
        moment += (plate->z1 - plate->z0) * middle_of(plate);
    }
    if (thickness > 0.0) {
        *height = moment / thickness;
    } else {
        *height = upper ? ss_min(web[0]->z1, web[1]->z1) : ss_max(web[0]->z0, web[1]->z0);
    }
    return thickness;
}

bool ss_plates_cell(const ss_plate *plates, int count, ss_cell *out) {
    const ss_plate *web[2] = {NULL, NULL};
    int webs = 0;
    for (int i = 0; i < count; i++) {
        if (!plates[i].web) {
            continue;
        }
        if (webs < 2) {
            web[webs] = &plates[i];
        }
        webs++;
    }
    if (webs != 2) {
        return false;
    }
    if (web[0]->y0 > web[1]->y0) {
        const ss_plate *const right = web[0];
        web[0] = web[1];
        web[1] = right;
    }
    double high = 0.0;
    double low = 0.0;
    out->top = spanning(plates, count, web, true, &high);
    out->bottom = spanning(plates, count, web, false, &low);
    out->left = web[0]->y1 - web[0]->y0;
    out->right = web[1]->y1 - web[1]->y0;
    out->width = 0.5 * (web[1]->y0 + web[1]->y1 - web[0]->y0 - web[0]->y1);
    out->clear = web[1]->y0 - web[0]->y1;
    out->height = high - low;
    return out->clear > SS_PLATE_TOUCH && out->height > 0.0 && (out->top > 0.0 || out->bottom > 0.0);
}

double ss_plates_open_torsion(const ss_plate *plates, int count) {
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        const double t = thickness_of(&plates[i]);
        const double b = ss_max(plates[i].y1 - plates[i].y0, plates[i].z1 - plates[i].z0);
        const bool thin = count > 1 && b >= STUBBY * t;
        sum += thin ? b * t * t * t / 3.0 : ss_torsion_rectangle(b, t);
    }
    return sum;
}
