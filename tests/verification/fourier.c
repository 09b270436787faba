/* fourier.c - each harmonic is a small linear system: beams, and joint forces as unknowns so that a rigid
 * joint is no special case. */
#include "verification/fourier.h"

#include <math.h>
#include <string.h>

#include "verification/dense.h"

static const double pi = 3.14159265358979323846;

enum { UNKNOWNS = 4 * FOURIER_BEAMS };

/* Puts the joint condition row . u - flexibility g = 0, and its force g into the beams' equations. Both are
 * scaled so that no entry is large where the joint is very soft against the beams. */
static void tie(double *a, int n, int unknown, const int *dof, const double *coefficient,
                double flexibility) {
    const double scale = 1.0 / sqrt(1.0 + flexibility);
    for (int i = 0; i < 4; i++) {
        a[unknown * n + dof[i]] += scale * coefficient[i];
        a[dof[i] * n + unknown] += scale * coefficient[i];
    }
    a[unknown * n + unknown] = -flexibility * scale * scale;
}

/*
 * Unknowns: deflection w_i and twist t_i of each beam, then a shear g_j and a folding moment f_j of each
 * joint. With A = EI (m pi/L)^4 and C = GJ (m pi/L)^2: A w_i + joint forces = p_i, C t_i + joint torques = 0.
 * The step across joint j is (w_j + h t_j) - (w_j+1 - h t_j+1), h half a width; the fold is t_j - t_j+1.
 */
bool fourier_harmonic(const fourier_beams *beams, int loaded, int m, double p, double *w) {
    const int beams_n = beams->count;
    const bool folds = beams->rotation > 0.0;
    const bool slips = beams->shear > 0.0;
    const int joints = beams_n - 1;
    const int n = 2 * beams_n + (slips ? joints : 0) + (folds ? joints : 0);
    const double alpha = m * pi / beams->span;
    const double bending = beams->EI * alpha * alpha * alpha * alpha;
    const double twisting = beams->GJ * alpha * alpha;
    const double h = 0.5 * beams->width;
    double a[UNKNOWNS * UNKNOWNS];
    double b[UNKNOWNS];
    memset(a, 0, sizeof a);
    memset(b, 0, sizeof b);
    for (int i = 0; i < beams_n; i++) {
        a[(2 * i) * n + 2 * i] = 1.0;
        /* the twist unknown is h times the twist, and everything is over `bending`: entries near one */
        a[(2 * i + 1) * n + 2 * i + 1] = twisting / (h * h) / bending;
    }
    b[2 * loaded] = p / bending;
    int unknown = 2 * beams_n;
    for (int j = 0; j < joints; j++) {
        const int dof[4] = {2 * j, 2 * j + 1, 2 * j + 2, 2 * j + 3};
        const double step[4] = {1.0, 1.0, -1.0, 1.0};
        const double fold[4] = {0.0, 1.0, 0.0, -1.0};
        if (slips) {
            tie(a, n, unknown++, dof, step, bending / beams->shear);
        }
        if (folds) {
            tie(a, n, unknown++, dof, fold, bending * h * h / beams->rotation);
        }
    }
    if (!dense_solve(n, a, b)) {
        return false;
    }
    for (int i = 0; i < beams_n; i++) {
        w[i] = b[2 * i];
    }
    return true;
}

bool fourier_moments(const fourier_beams *beams, const fourier_load *load, int terms, double *moment) {
    double w[FOURIER_BEAMS];
    double sum[FOURIER_BEAMS] = {0.0};
    for (int m = 1; m <= terms; m++) {
        const double alpha = m * pi / beams->span;
        const double shape = sin(alpha * load->x);
        const double p = 2.0 * load->P / beams->span * shape;
        if (fabs(shape) < 1e-12) {
            continue;
        }
        if (!fourier_harmonic(beams, load->loaded, m, p, w)) {
            return false;
        }
        for (int i = 0; i < beams->count; i++) {
            sum[i] += beams->EI * alpha * alpha * w[i] * shape;
        }
    }
    const double whole = load->P * load->x * (beams->span - load->x) / beams->span;
    double others = 0.0;
    for (int i = 0; i < beams->count; i++) {
        moment[i] = sum[i];
        others += i == load->loaded ? 0.0 : sum[i];
    }
    moment[load->loaded] = whole - others;
    return true;
}
