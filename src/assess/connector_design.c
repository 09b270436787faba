/* connector_design.c - the layout of connectors along a line, and what would help where none fits. */
#include <math.h>

#include "assess/rule.h"
#include "sillspan/connector.h"

#define INCH 0.0254

/* A whole number that rounding carried over is still that number. */
#define WHOLE 1e-9

/* Studs a row beyond which nobody looks; edge of the steel and distances as in connector_detail.c. */
#define PER_ROW_MOST 12
#define EDGE_LEAST (1.0 * INCH)
#define COVER_LEAST (2.0 * INCH)
#define ACROSS_LEAST 4.0
#define HEIGHT_LEAST 4.0
#define PLATE_MOST 2.5

/* What one kind of connector allows in one segment. */
typedef struct limits {
    double each, Zr;
    int needed; /* -1: not known */
    double strength, fatigue, least, most;
} limits;

static double step_of(ss_unit_system units) {
    return units == SS_UNITS_SI ? 0.025 : INCH;
}

static double at_most(const limits *l) {
    return ss_min(ss_min(l->strength, l->fatigue), l->most);
}

static bool roomy(const limits *l) {
    return l->needed >= 0 && at_most(l) >= l->least * (1.0 - WHOLE);
}

/* The closest pitch of all stretches that touch the segment. */
static double fatigue_pitch(const ss_connector_demand *demand, const ss_connector_segment *segment,
                            int per_row, double Zr) {
    double pitch = SS_INFINITY;
    for (int i = 0; i < demand->stretch_count; i++) {
        const ss_connector_stretch *const s = &demand->stretches[i];
        if (ss_min(s->x1, segment->x1) > ss_max(s->x0, segment->x0)) {
            const double own =
                s->cycles > 0.0
                    ? ss_connector_fatigue(demand->connectors, s->cycles, demand->rule, NULL).value
                    : Zr;
            pitch = ss_min(pitch, ss_connector_fatigue_pitch(per_row, own, s->range, s->I, s->Q));
        }
    }
    return pitch;
}

static limits limits_of(const ss_connector_demand *demand, const ss_connectors *c,
                        const ss_connector_segment *segment) {
    limits l = {.each = SS_PHI_CONNECTOR *
                        ss_connector_strength(c, demand->fc, demand->E, demand->rule, NULL).value,
                .Zr = ss_connector_fatigue(c, demand->cycles, demand->rule, NULL).value,
                .least = ss_connector_pitch_least(c),
                .most = ss_connector_pitch_most(&demand->place, demand->rule),
                .strength = SS_INFINITY};
    l.needed = ss_connector_count(demand->degree * segment->force, l.each, c->per_row);
    if (l.needed > 0) {
        l.strength = (segment->x1 - segment->x0) * c->per_row / l.needed;
    }
    l.fatigue = fatigue_pitch(demand, segment, c->per_row, l.Zr);
    return l;
}

/* Whether a row has room on the steel below, as far as that is known. */
static bool row_fits(const ss_connector_demand *demand, const ss_connectors *c) {
    const double row = (c->per_row - 1) * c->across + c->diameter;
    return !ss_rule_positive(demand->place.flange) || row + 2.0 * EDGE_LEAST <= demand->place.flange + 1e-9;
}

static int more_a_row(const ss_connector_demand *demand, const ss_connector_segment *segment) {
    ss_connectors c = *demand->connectors;
    c.across = ss_max(c.across, ACROSS_LEAST * c.diameter);
    for (c.per_row++; c.per_row <= PER_ROW_MOST && row_fits(demand, &c); c.per_row++) {
        const limits l = limits_of(demand, &c, segment);
        if (roomy(&l)) {
            return c.per_row;
        }
    }
    return 0;
}

/* Whether a stud may stand on this plate and has room in this slab. */
static bool stud_fits(const ss_connector_demand *demand, const ss_connectors *c) {
    const ss_connector_place *const at = &demand->place;
    const bool plate = at->over_web || !ss_rule_positive(at->plate) || c->diameter <= PLATE_MOST * at->plate;
    const bool slab = !ss_rule_positive(at->thickness) ||
                      HEIGHT_LEAST * c->diameter + COVER_LEAST <= at->thickness + at->haunch + 1e-9;
    return plate && slab && row_fits(demand, c);
}

static double bigger_stud(const ss_connector_demand *demand, const ss_connector_segment *segment) {
    static const double diameters[] = {0.5, 0.625, 0.75, 0.875, 1.0, 1.25};
    for (size_t i = 0; i < sizeof diameters / sizeof diameters[0]; i++) {
        ss_connectors c = *demand->connectors;
        if (diameters[i] * INCH <= c.diameter * (1.0 + WHOLE)) {
            continue;
        }
        c.diameter = diameters[i] * INCH;
        c.across = ss_max(c.across, ACROSS_LEAST * c.diameter);
        const limits l = limits_of(demand, &c, segment);
        if (stud_fits(demand, &c) && roomy(&l)) {
            return c.diameter;
        }
    }
    return 0.0;
}

static const char *closest(const limits *l) {
    if (l->strength <= l->fatigue && l->strength <= l->most) {
        return "strength";
    }
    return l->fatigue <= l->most ? "fatigue" : "the largest pitch";
}

/* The pitch for the shop: whole steps, but never below the least for that alone. */
static double practical(const limits *l, double step) {
    const double most = at_most(l);
    const double whole = step * floor(most / step * (1.0 + WHOLE));
    return whole >= l->least * (1.0 - WHOLE) ? whole : l->least;
}

static void judge(const ss_connector_demand *demand, const limits *l, ss_connector_run *run) {
    const double over = 1.0 + WHOLE;
    const bool strong = run->degree * over >= demand->degree;
    const bool lasting = run->pitch <= l->fatigue * over;
    const bool near = run->pitch <= l->most * over;
    const bool clear = run->pitch * over >= l->least;
    run->fits = strong && lasting && near && clear && l->needed >= 0;
    if (run->fits) {
        run->governs = closest(l);
    } else if (!strong && (lasting || l->strength <= l->fatigue)) {
        run->governs = "strength is missed: too few connectors";
    } else if (!lasting) {
        run->governs = "fatigue is missed: rows too far apart";
    } else {
        run->governs = clear ? "the largest pitch is missed" : "the least pitch is missed";
    }
}

static double degree_of(const limits *l, const ss_connector_segment *segment, int count) {
    return segment->force > 0.0 ? count * l->each / segment->force : SS_INFINITY;
}

static int rows_of(const ss_connector_segment *segment, double pitch) {
    return (int)ss_min(floor((segment->x1 - segment->x0) / pitch * (1.0 + WHOLE)), 1e6);
}

static void lay_out(const ss_connector_demand *demand, const ss_connector_segment *segment,
                    ss_connector_run *run) {
    const ss_connectors *const c = demand->connectors;
    const limits l = limits_of(demand, c, segment);
    const bool given = c->pitch > 0.0;
    *run = (ss_connector_run){.x0 = segment->x0,
                              .x1 = segment->x1,
                              .needed = l.needed,
                              .by_strength = l.strength,
                              .by_fatigue = l.fatigue,
                              .most = l.most,
                              .least = l.least};
    run->pitch = given ? c->pitch : practical(&l, step_of(demand->units));
    run->rows = rows_of(segment, run->pitch);
    run->count = run->rows * c->per_row;
    run->degree = degree_of(&l, segment, run->count);
    run->fatigue = isinf(l.fatigue) ? 0.0 : run->pitch / l.fatigue;
    judge(demand, &l, run);
    if (run->fits || roomy(&l)) {
        return;
    }
    if (c->kind == SS_CONNECTOR_STUDS) {
        run->per_row_needed = more_a_row(demand, segment);
        run->bigger = bigger_stud(demand, segment);
    }
    if (l.fatigue * (1.0 + WHOLE) >= l.least) {
        run->partial = ss_min(degree_of(&l, segment, rows_of(segment, l.least) * c->per_row), 1.0);
    }
}

static const char *fault_of(const ss_connector_demand *demand) {
    const ss_connectors *const c = demand->connectors;
    if (c->per_row < 1 || c->per_row > 1000 || !(c->pitch >= 0.0) || isinf(c->pitch)) {
        return "connectors a row or their pitch are not known";
    }
    if (!(demand->degree > 0.0 && demand->degree <= 1.0)) {
        return "the share of the force that is to be tied is not between 0 and 1";
    }
    if (demand->segment_count < 1) {
        return "there is no segment to tie";
    }
    for (int i = 0; i < demand->segment_count; i++) {
        const ss_connector_segment *const s = &demand->segments[i];
        if (!ss_rule_positive(s->x1 - s->x0) || !ss_rule_not_negative(s->force)) {
            return "the length of a segment or its force is not known";
        }
    }
    for (int i = 0; i < demand->stretch_count; i++) {
        const ss_connector_stretch *const s = &demand->stretches[i];
        if (!ss_rule_positive(s->x1 - s->x0) ||
            isnan(ss_connector_fatigue_pitch(1, 1.0, s->range, s->I, s->Q))) {
            return "the length, range, I or Q of a stretch is not known";
        }
    }
    return NULL;
}

static ss_connector_plan none(const char *why) {
    return (ss_connector_plan){
        .strength = SS_NAN, .Zr = SS_NAN, .degree = SS_NAN, .governs = "nothing: not known", .why = why};
}

static void tell(const ss_connector_demand *demand, const ss_connector_run *run, double force,
                 ss_working *working) {
    if (demand->degree < 1.0) {
        ss_working_add(working, "degree", "partial composite action is asked for", demand->degree,
                       SS_DIM_NUMBER, "AISC 360 I3.2d (building steel, not AASHTO; from memory)");
    }
    ss_working_add(working, "P", "force to be tied in the segment with the closest rows",
                   demand->degree * force, SS_DIM_FORCE, NULL);
    ss_working_add(working, "n", "connectors in it, P / (phi Qn) in whole rows", run->needed, SS_DIM_NUMBER,
                   "AASHTO LRFD 6.10.10.4.1 (from memory)");
    ss_working_add(working, "p, strength", "its length over its rows", run->by_strength, SS_DIM_SMALL_LENGTH,
                   NULL);
    ss_working_add(working, "p, fatigue", "n Zr I / (Vsr Q)", run->by_fatigue, SS_DIM_SMALL_LENGTH,
                   "AASHTO LRFD 6.10.10.1.2 (from memory)");
    ss_working_add(working, "p", run->governs, run->pitch, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "degree", "strength of the connectors over the whole force", run->degree,
                   SS_DIM_NUMBER, NULL);
}

ss_connector_plan ss_connector_design(const ss_connector_demand *demand, ss_connector_run *runs,
                                      ss_working *working) {
    const char *const fault = fault_of(demand);
    if (fault != NULL) {
        return none(fault);
    }
    const ss_connectors *const c = demand->connectors;
    const ss_resistance Qn = ss_connector_strength(c, demand->fc, demand->E, demand->rule, working);
    const ss_resistance Zr = ss_connector_fatigue(c, demand->cycles, demand->rule, working);
    if (Qn.why != NULL || Zr.why != NULL) {
        return none(Qn.why != NULL ? Qn.why : Zr.why);
    }
    ss_connector_plan plan = {
        .strength = SS_PHI_CONNECTOR * Qn.value, .Zr = Zr.value, .degree = SS_INFINITY, .fits = true};
    ss_working_add(working, "phi Qn", "with phi 0.85", plan.strength, SS_DIM_FORCE,
                   "AASHTO LRFD 6.5.4.2 (from memory)");
    if (demand->stretch_count == 0) {
        ss_working_add(working, "Vsr", "no range of shear is given: fatigue is not looked at", SS_NAN,
                       SS_DIM_NUMBER, NULL);
    }
    int worst = 0;
    for (int i = 0; i < demand->segment_count; i++) {
        lay_out(demand, &demand->segments[i], &runs[i]);
        plan.rows += runs[i].rows;
        plan.count += runs[i].count;
        plan.degree = ss_min(plan.degree, runs[i].degree);
        plan.fits = plan.fits && runs[i].fits;
        const bool sooner =
            runs[i].fits == runs[worst].fits ? runs[i].pitch < runs[worst].pitch : !runs[i].fits;
        worst = sooner ? i : worst;
    }
    plan.governs = runs[worst].governs;
    tell(demand, &runs[worst], demand->segments[worst].force, working);
    return plan;
}
