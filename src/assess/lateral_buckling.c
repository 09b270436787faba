/* lateral_buckling.c - lateral-torsional buckling of each form, elastic and inelastic. */
#include "assess/flexure_limits.h"

#include <math.h>

#include "base/numeric.h"

/* Fyr over Fy: what residual stress leaves. */
#define RESIDUAL 0.7

/* Straight line from `full` at Lp to `reduced` at Lr, times Cb, at most `full`. */
static double between(const ss_bracing *b, const ss_lateral *l, double full, double reduced) {
    return ss_min(b->Cb * (full - (full - reduced) * (b->length - l->Lp) / (l->Lr - l->Lp)), full);
}

ss_lateral ss_lateral_flange(const ss_bracing *b, double rt) {
    ss_lateral out = {.Lp = rt * sqrt(b->E / b->fy), .Lr = SS_PI * rt * sqrt(b->E / (RESIDUAL * b->fy))};
    if (b->length <= out.Lp) {
        out.value = b->fy;
    } else if (b->length <= out.Lr) {
        out.value = between(b, &out, b->fy, RESIDUAL * b->fy);
    } else {
        const double ratio = rt / b->length;
        out.value = ss_min(b->Cb * SS_PI * SS_PI * b->E * ratio * ratio, b->fy);
    }
    return out;
}

double ss_channel_radius(const ss_channel *channel) {
    return sqrt(sqrt(channel->Iy * channel->Cw) / channel->S);
}

/*
 * With c = (ho / 2) sqrt(Iy / Cw), X = J c / (S ho):
 *   Lp = 1.76 ry sqrt(E / Fy)
 *   Lr = 1.95 rts E / (0.7 Fy) sqrt(X + sqrt(X^2 + 6.76 (0.7 Fy / E)^2))
 *   Fcr = Cb pi^2 E / (L / rts)^2 sqrt(1 + 0.078 X (L / rts)^2)
 */
ss_lateral ss_lateral_channel(const ss_bracing *b, const ss_channel *channel) {
    ss_lateral out = {0};
    if (!(channel->Iy > 0.0) || !(channel->Cw > 0.0) || !(channel->J > 0.0) || !(channel->ho > 0.0)) {
        return out;
    }
    const double full = b->fy * channel->Z;
    const double rts = ss_channel_radius(channel);
    const double c = 0.5 * channel->ho * sqrt(channel->Iy / channel->Cw);
    const double x = channel->J * c / (channel->S * channel->ho);
    const double strain = RESIDUAL * b->fy / b->E;
    out.Lp = 1.76 * channel->ry * sqrt(b->E / b->fy);
    out.Lr = 1.95 * rts / strain * sqrt(x + sqrt(x * x + 6.76 * strain * strain));
    if (b->length <= out.Lp) {
        out.value = full;
    } else if (b->length <= out.Lr) {
        out.value = between(b, &out, full, ss_min(RESIDUAL * b->fy * channel->S, full));
    } else {
        const double square = (b->length / rts) * (b->length / rts);
        const double stress = b->Cb * SS_PI * SS_PI * b->E / square * sqrt(1.0 + 0.078 * x * square);
        out.value = ss_min(stress * channel->S, full);
    }
    return out;
}

/* pi sqrt(E Iy G J) / L (B + sqrt(1 + B^2)), B = 2.3 d / L sqrt(Iy / J), negative with the stem compressed.
 * There it is written as 1 / (|B| + sqrt(1 + B^2)), in which nothing cancels. */
double ss_lateral_tee(const ss_bracing *b, double Iy, double J, double d, bool stem_compressed) {
    if (!(Iy > 0.0) || !(J > 0.0)) {
        return 0.0;
    }
    const double ratio = 2.3 * d / b->length * sqrt(Iy / J);
    const double sum = ratio + sqrt(1.0 + ratio * ratio);
    const double basic = SS_PI * sqrt(b->E * Iy * b->G * J) / b->length;
    return stem_compressed ? basic / sum : basic * sum;
}

double ss_lateral_angle(double Me, double My) {
    if (Me <= My) {
        return (0.92 - 0.17 * Me / My) * Me;
    }
    return ss_min((1.92 - 1.17 * sqrt(My / Me)) * My, My);
}

/* L d / t^2 against 0.08 E / Fy and 1.9 E / Fy; between Cb (1.52 - 0.274 (L d / t^2) Fy / E) My, beyond
 * 1.9 E Cb S / (L d / t^2), here not above the end of the line before it (which is 0.06 percent lower). */
ss_lateral ss_lateral_bar(const ss_bracing *b, double d, double t, double My, double Mp) {
    const double unit = t * t / d * b->E / b->fy;
    ss_lateral out = {.Lp = 0.08 * unit, .Lr = 1.9 * unit};
    const double relative = b->length / unit;
    if (b->length <= out.Lp) {
        out.value = Mp;
    } else if (b->length <= out.Lr) {
        out.value = ss_min(b->Cb * (1.52 - 0.274 * relative) * My, Mp);
    } else {
        const double end = 1.52 - 0.274 * 1.9;
        out.value = ss_min(b->Cb * ss_min(1.9 / relative, end) * My, Mp);
    }
    return out;
}

double ss_lateral_box(const ss_bracing *b, double Iy, double J, double My) {
    if (!(Iy > 0.0) || !(J > 0.0)) {
        return 0.0;
    }
    const double Mcr = SS_PI * sqrt(b->E * Iy * b->G * J) / b->length;
    return My <= 2.0 * Mcr ? My * (1.0 - 0.25 * My / Mcr) : Mcr;
}
