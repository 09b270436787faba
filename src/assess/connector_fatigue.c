/* connector_fatigue.c - range of shear that a connector lasts under, and the pitch that follows. */
#include <math.h>

#include "assess/rule.h"
#include "sillspan/connector.h"
#include "sillspan/fatigue_life.h"

#define INCH 0.0254
#define KIP 4448.2216152605
#define DAYS 365.0
#define YEARS 75.0

#define SOURCE "AASHTO LRFD 6.10.10.2 (from memory)"
#define SOURCE_STANDARD "AASHTO Standard Specifications 10.38.5.1.3 (from memory)"

/* kip/in2 of a stud's diameter squared, kip/in of a channel: start - slope log N, for ever, and the table of
 * the Standard Specifications for up to 100 000, 500 000 and 2 000 000 cycles. */
static const struct {
    double start, slope, endless, table[3];
} lines[] = {[SS_CONNECTOR_STUDS] = {34.5, 4.28, 5.5, {13.0, 10.6, 7.85}},
             [SS_CONNECTOR_CHANNELS] = {9.37, 1.08, 2.1, {4.0, 3.0, 2.4}}};

static double of_table(ss_connector_kind kind, double cycles) {
    static const double ends[] = {1e5, 5e5, 2e6};
    for (int i = 0; i < 3; i++) {
        if (cycles <= ends[i]) {
            return lines[kind].table[i];
        }
    }
    return lines[kind].endless;
}

/* Not positive where the finite line has run out. */
static double coefficient(ss_connector_kind kind, double cycles, ss_connector_rule rule) {
    if (rule == SS_CONNECTOR_STANDARD) {
        return of_table(kind, cycles);
    }
    const double floor_before = 0.5 * lines[kind].endless;
    if (isinf(cycles)) {
        return rule == SS_CONNECTOR_LRFD_BEFORE ? floor_before : lines[kind].endless;
    }
    const double finite = lines[kind].start - lines[kind].slope * log10(cycles);
    return rule == SS_CONNECTOR_LRFD_BEFORE ? ss_max(finite, floor_before) : finite;
}

static const char *words(ss_connector_kind kind, double cycles, ss_connector_rule rule) {
    const bool stud = kind == SS_CONNECTOR_STUDS;
    if (rule == SS_CONNECTOR_STANDARD) {
        return stud ? "fatigue of a stud by its table, alpha d^2 (AASHTO Standard 10.38.5.1.3)"
                    : "fatigue of a channel by its table, B w (AASHTO Standard 10.38.5.1.3)";
    }
    if (rule == SS_CONNECTOR_LRFD_BEFORE) {
        return stud ? "fatigue of a stud, (34.5 - 4.28 log N) d^2 >= 5.5/2 d^2 (AASHTO LRFD 6.10.10.2 before "
                      "2009)"
                    : "fatigue of a channel, (9.37 - 1.08 log N) w >= 2.1/2 w (AASHTO LRFD 6.10.10.2 before "
                      "2009)";
    }
    if (isinf(cycles)) {
        return stud ? "infinite fatigue life of a stud, 5.5 d^2 (AASHTO LRFD 6.10.10.2)"
                    : "infinite fatigue life of a channel, 2.1 w (AASHTO LRFD 6.10.10.2)";
    }
    return stud ? "finite fatigue life of a stud, (34.5 - 4.28 log N) d^2 (AASHTO LRFD 6.10.10.2)"
                : "finite fatigue life of a channel, (9.37 - 1.08 log N) w (AASHTO LRFD 6.10.10.2)";
}

ss_resistance ss_connector_fatigue(const ss_connectors *connectors, double cycles, ss_connector_rule rule,
                                   ss_working *working) {
    static const char none[] = "fatigue of a shear connector (AASHTO LRFD 6.10.10.2)";
    const ss_connector_kind kind = connectors->kind;
    const bool stud = kind == SS_CONNECTOR_STUDS;
    if (!stud && kind != SS_CONNECTOR_CHANNELS) {
        return ss_rule_none(none, "the kind of connector is not known");
    }
    const double size = stud ? connectors->diameter * connectors->diameter : connectors->length;
    if (!ss_rule_positive(size)) {
        return ss_rule_none(none, "its size is not positive");
    }
    if (!(cycles > 0.0)) {
        return ss_rule_none(none, "the number of cycles is not positive");
    }
    const double alpha = coefficient(kind, cycles, rule);
    if (!(alpha > 0.0)) {
        return ss_rule_none(none, "so many cycles are beyond the line of finite life: ask for infinite life");
    }
    const char *const source = rule == SS_CONNECTOR_STANDARD ? SOURCE_STANDARD : SOURCE;
    if (!isinf(cycles)) {
        ss_working_add(working, "N", "cycles of shear", cycles, SS_DIM_NUMBER, NULL);
    }
    ss_working_add(working, stud ? "alpha" : "B",
                   stud ? "kip per in2 of the diameter squared" : "kip per in of the channel's length", alpha,
                   SS_DIM_NUMBER, source);
    const double unit = stud ? KIP / (INCH * INCH) : KIP / INCH;
    const ss_resistance found = ss_rule_value(alpha * unit * size, words(kind, cycles, rule));
    ss_working_add(working, "Zr", found.rule, found.value, SS_DIM_FORCE, source);
    return found;
}

double ss_connector_infinite_traffic(ss_connector_kind kind, double cycles_per_truck,
                                     ss_fatigue_edition edition) {
    if ((kind != SS_CONNECTOR_STUDS && kind != SS_CONNECTOR_CHANNELS) ||
        !ss_rule_positive(cycles_per_truck)) {
        return SS_NAN;
    }
    const double ratio = ss_fatigue_load_factor(edition, false) / ss_fatigue_load_factor(edition, true);
    const double cycles = pow(10.0, (lines[kind].start - ratio * lines[kind].endless) / lines[kind].slope);
    return cycles / (DAYS * YEARS * cycles_per_truck);
}

double ss_connector_fatigue_pitch(int per_row, double Zr, double Vsr, double I, double Q) {
    if (per_row < 1 || !ss_rule_positive(Zr) || !ss_rule_not_negative(Vsr) || !ss_rule_positive(I) ||
        !ss_rule_not_negative(Q)) {
        return SS_NAN;
    }
    const double flow = Vsr * Q / I;
    return flow > 0.0 ? per_row * Zr / flow : SS_INFINITY;
}
