/* flexure_plastic.c - when a section reaches its plastic moment, and which limit keeps it from that. */
#include <math.h>

#include "assess/flexure_parts.h"
#include "base/numeric.h"

/* Rules for compact I sections hold to 70 ksi (A6.1). */
#define STRONGEST 482.6e6

/* The compressed flange of an I is at least this share of the other, sideways (A6.1). */
#define LEAST_FLANGE 0.3

/* Most that is counted on, times first yield: 1.5 as older specifications have it, tees by 6.12.2.2.4. */
#define MOST 1.5
#define MOST_OF_TEE 1.6

#define SOURCE(article) "AASHTO LRFD " article " (from memory)"

/** Two steps: what was found, what is allowed. */
typedef struct comparison {
    const char *symbol, *meaning;
    double found;
    const char *limit_symbol, *limit_meaning;
    double limit;
    ss_dimension dimension;
    const char *source;
} comparison;

static bool holds(const ss_bending *b, const comparison *c) {
    ss_working_add(b->working, c->symbol, c->meaning, c->found, c->dimension, NULL);
    ss_working_add(b->working, c->limit_symbol, c->limit_meaning, c->limit, c->dimension, c->source);
    return c->found <= c->limit;
}

static const char *miss_free_flange(const ss_bending *b) {
    const comparison c = {.symbol = "b/t",
                          .meaning = "free part of the compressed flange, width over thickness",
                          .found = b->flange->outstand_ratio,
                          .limit_symbol = "lambda_pf",
                          .limit_meaning = "0.38 sqrt(E / Fy)",
                          .limit = ss_flange_compact(b->bracing.E, b->bracing.fy),
                          .source = SOURCE("6.10.8.2.2, A6.3.2")};
    return holds(b, &c)
               ? NULL
               : "its compressed flange is not compact: b/t above 0.38 sqrt(E / Fy) (AASHTO LRFD A6.3.2)";
}

static const char *miss_flange_between(const ss_bending *b) {
    const comparison c = {.symbol = "bfc/tfc",
                          .meaning = "compressed flange between webs, clear width over thickness",
                          .found = b->flange->clear_ratio,
                          .limit_symbol = "lambda_p",
                          .limit_meaning = "1.12 sqrt(E / Fy)",
                          .limit = ss_box_flange_compact(b->bracing.E, b->bracing.fy),
                          .source = SOURCE("6.12.2.2.2")};
    return holds(b, &c) ? NULL
                        : "its flange between the webs is not compact: b/t above 1.12 sqrt(E / Fy) (AASHTO "
                          "LRFD 6.12.2.2.2)";
}

/* A6.2.1: 2 Dcp / tw at most lambda_pw, itself at most lambda_rw Dcp / Dc. */
static const char *miss_web(const ss_bending *b) {
    const ss_form_flange *const flange = b->flange;
    const double E = b->bracing.E;
    const double fy = b->bracing.fy;
    const double awc = ss_web_area_ratio(flange->Dc, b->form.web_total, flange->area);
    double limit = ss_web_compact(fy * b->properties.Z, fy * b->S, E, fy);
    if (flange->Dc > 0.0) {
        limit = ss_min(limit, ss_web_noncompact(awc, E, fy) * flange->Dcp / flange->Dc);
    }
    const comparison c = {.symbol = "2Dcp/tw",
                          .meaning = "web compressed in the plastic state, over the thinnest web",
                          .found = 2.0 * flange->Dcp / b->form.web_thin,
                          .limit_symbol = "lambda_pw",
                          .limit_meaning =
                              "sqrt(E / Fy) / (0.54 Mp / My - 0.1)^2, at most lambda_rw Dcp / Dc",
                          .limit = limit,
                          .source = SOURCE("A6.2.1")};
    return holds(b, &c) ? NULL : "its web is not compact: 2 Dcp / tw above lambda_pw (AASHTO LRFD A6.2.1)";
}

static const char *miss_web_depth(const ss_bending *b, double factor, const char *meaning, const char *why) {
    const double depth = ss_max(b->form.web_clear, 2.0 * b->flange->Dcp);
    const comparison c = {.symbol = "D/tw",
                          .meaning = "web, the larger of D and 2 Dcp over the thinnest web",
                          .found = depth / b->form.web_thin,
                          .limit_symbol = "lambda_pw",
                          .limit_meaning = meaning,
                          .limit = factor * sqrt(b->bracing.E / b->bracing.fy),
                          .source = SOURCE("6.12.2.2")};
    return holds(b, &c) ? NULL : why;
}

static const char *miss_length(const ss_bending *b, double length, double limit, const char *meaning,
                               const char *source) {
    if (!(length > 0.0)) {
        return NULL;
    }
    const comparison c = {.symbol = "Lb",
                          .meaning = "distance between lateral supports",
                          .found = length,
                          .limit_symbol = "Lp",
                          .limit_meaning = meaning,
                          .limit = limit,
                          .dimension = SS_DIM_LENGTH,
                          .source = source};
    return holds(b, &c)
               ? NULL
               : "it is not held closely enough sideways: Lb above Lp (AASHTO LRFD A6.3.3, 6.12.2.2)";
}

static const char *miss_length_of_flange(const ss_bending *b, double length) {
    return miss_length(b, length, b->flange->rt * sqrt(b->bracing.E / b->bracing.fy), "rt sqrt(E / Fy)",
                       SOURCE("A6.3.3"));
}

/* 0.13 in AISC 360 F7; the smaller factor of 6.12.2.2.2 as remembered. */
static const char *miss_length_of_cell(const ss_bending *b) {
    const double Mp = b->bracing.fy * b->properties.Z;
    return miss_length(b, b->bracing.length, 0.10 * b->bracing.E * b->form.ry * sqrt(b->J * b->form.A) / Mp,
                       "0.10 E ry sqrt(J A) / Mp", SOURCE("6.12.2.2.2"));
}

static const char *miss_i(const ss_bending *b) {
    const comparison strong = {.symbol = "Fy",
                               .meaning = "yield stress",
                               .found = b->bracing.fy,
                               .limit_symbol = "Fy,max",
                               .limit_meaning = "70 ksi",
                               .limit = STRONGEST,
                               .dimension = SS_DIM_STRESS,
                               .source = SOURCE("A6.1")};
    if (!holds(b, &strong)) {
        return "its steel is stronger than 70 ksi (AASHTO LRFD A6.1)";
    }
    const comparison even = {.symbol = "Iyt/Iyc",
                             .meaning = "flange in tension over that in compression, sideways",
                             .found = b->other->Iy / b->flange->Iy,
                             .limit_symbol = "1/0.3",
                             .limit_meaning = "Iyc at least 0.3 Iyt",
                             .limit = 1.0 / LEAST_FLANGE,
                             .source = SOURCE("A6.1")};
    if (!holds(b, &even)) {
        return "its compressed flange is too narrow: Iyc below 0.3 Iyt (AASHTO LRFD A6.1)";
    }
    const char *why = miss_free_flange(b);
    why = why != NULL ? why : miss_web(b);
    return why != NULL ? why : miss_length_of_flange(b, b->bracing.length);
}

static const char *miss_webs(const ss_bending *b) {
    if (!(b->flange->rt > 0.0)) {
        return "the compressed edge of a web has no flange";
    }
    const char *why = miss_free_flange(b);
    why = why != NULL ? why : miss_flange_between(b);
    why = why != NULL ? why : miss_web(b);
    if (why != NULL) {
        return why;
    }
    if (b->form.form != SS_FORM_BATTENED) {
        return miss_length_of_flange(b, b->bracing.length);
    }
    why = miss_length_of_cell(b);
    if (why != NULL || b->flange->spans) {
        return why;
    }
    return miss_length_of_flange(b, ss_min(b->bracing.length, b->section->batten_spacing));
}

static const char *miss_box(const ss_bending *b) {
    const char *why = miss_free_flange(b);
    why = why != NULL ? why : miss_flange_between(b);
    why = why != NULL
              ? why
              : miss_web_depth(b, 2.42, "2.42 sqrt(E / Fy)",
                               "its webs are not compact: D / tw above 2.42 sqrt(E / Fy) (AASHTO LRFD "
                               "6.12.2.2.2)");
    return why != NULL ? why : miss_length_of_cell(b);
}

static const char *miss_channel(const ss_bending *b) {
    const char *const why = miss_free_flange(b);
    return why != NULL ? why
                       : miss_web_depth(b, 3.76, "3.76 sqrt(E / Fy)",
                                        "its web is not compact: D / tw above 3.76 sqrt(E / Fy) (AASHTO LRFD "
                                        "6.12.2.2.5)");
}

static const char *miss_tee(const ss_bending *b) {
    if (b->flange->plates == 0) {
        return "the stem of a tee in compression is not counted on beyond first yield (AASHTO LRFD "
               "6.12.2.2.4)";
    }
    const char *const why = miss_free_flange(b);
    return why != NULL
               ? why
               : miss_length(b, b->bracing.length, 1.76 * b->form.ry * sqrt(b->bracing.E / b->bracing.fy),
                             "1.76 ry sqrt(E / Fy)", SOURCE("6.12.2.2.4"));
}

static const char *miss_bar(const ss_bending *b) {
    const double t = b->form.A / b->form.depth;
    return miss_length(b, b->bracing.length, 0.08 * b->bracing.E / b->bracing.fy * t * t / b->form.depth,
                       "0.08 E / Fy t^2 / d", SOURCE("6.12.2.2.7"));
}

static const char *missed(const ss_bending *b) {
    if (!(b->properties.Z > 0.0)) {
        return "its plastic section modulus is not known";
    }
    switch (b->form.form) {
    case SS_FORM_I: return miss_i(b);
    case SS_FORM_WEBS:
    case SS_FORM_BATTENED: return miss_webs(b);
    case SS_FORM_BOX: return miss_box(b);
    case SS_FORM_CHANNEL: return miss_channel(b);
    case SS_FORM_TEE: return miss_tee(b);
    case SS_FORM_RECTANGLE: return miss_bar(b);
    default: return "no plastic moment is counted on for a section of this form";
    }
}

static ss_bending_limit plastic_moment(const ss_bending *b) {
    const bool tee = b->form.form == SS_FORM_TEE;
    const double most = tee ? MOST_OF_TEE : MOST;
    const double whole = b->bracing.fy * b->properties.Z;
    const double Mp = ss_plastic_moment(b->properties.Z, b->S, b->bracing.fy, most);
    ss_working_add(b->working, "z_p", "plastic neutral axis above the lowest fibre, by the plates",
                   b->form.z_plastic, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(b->working, "Mp", "Fy Z", whole, SS_DIM_MOMENT, SOURCE("6.10.7, 6.12.2.2, D6.1"));
    ss_working_add(b->working, "My,max", tee ? "1.6 My" : "1.5 My", most * b->bracing.fy * b->S,
                   SS_DIM_MOMENT, tee ? SOURCE("6.12.2.2.4") : NULL);
    if (Mp < whole) {
        return (ss_bending_limit){Mp, tee ? "1.6 My, the most that is counted on of a tee (AASHTO LRFD "
                                            "6.12.2.2.4)"
                                          : "1.5 My, the most that is counted on of a plastic moment"};
    }
    return (ss_bending_limit){Mp,
                              "plastic moment of a compact, braced section, Fy Z (AASHTO LRFD A6, 6.12.2.2)"};
}

/* A channel goes down from its plastic moment in a line; what is left above first yield counts. */
static const char *channel_lateral(const ss_bending *b, ss_bending_limit *least) {
    if (!(b->bracing.length > 0.0)) {
        return NULL;
    }
    *least = ss_bending_least(*least, ss_bending_lateral(b));
    const comparison c = {.symbol = "My",
                          .meaning = "first yield",
                          .found = b->bracing.fy * b->S,
                          .limit_symbol = "Mn",
                          .limit_meaning = "what lateral-torsional buckling leaves",
                          .limit = least->moment,
                          .dimension = SS_DIM_MOMENT,
                          .source = SOURCE("6.12.2.2.5")};
    return holds(b, &c) ? NULL
                        : "lateral-torsional buckling leaves less than first yield (AASHTO LRFD 6.12.2.2.5)";
}

ss_status ss_flexure_plastic(const ss_flexure_case *given, ss_resistance *out, ss_working *working) {
    ss_bending b;
    bool ready = false;
    ss_resistance answer = {.value = SS_NAN, .rule = "plastic moment, Fy Z (AASHTO LRFD A6, 6.12.2.2)"};
    const ss_status status = ss_bending_gather(given, working, &b, out, &ready);
    if (status != SS_OK) {
        return status;
    }
    if (!ready) {
        answer.why =
            out->why != NULL ? out->why : "its plates are not known, so that nothing says it is compact";
        *out = answer;
        return SS_OK;
    }
    ss_bending_limit least = plastic_moment(&b);
    answer.why = missed(&b);
    if (answer.why == NULL && b.form.form == SS_FORM_CHANNEL) {
        answer.why = channel_lateral(&b, &least);
    }
    *out = answer.why != NULL ? answer : ss_bending_answer(&b, least);
    return SS_OK;
}
