/* report_measure.c - what to measure next, as far as one rating can tell. */
#include "report/report_measure.h"

#include <math.h>
#include <string.h>

#include "assess/joint_capacity.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

typedef struct measures {
    ss_builder *builder;
    ss_measure *items;
    int count;
} measures;

static void add(measures *m, const char *what, const char *why) {
    if (m->count < SS_MEASURE_MOST) {
        m->items[m->count++] = (ss_measure){what, why};
    }
}

static void add_finding(measures *m) {
    ss_builder *b = m->builder;
    const ss_reruns *reruns = b->results->reruns;
    const ss_rerun *best = reruns == NULL ? NULL : ss_findings_dearest(reruns);
    if (best != NULL) {
        add(m, ss_build_text(b, "the extent of the finding \"%s\"", best->what),
            ss_build_text(b, "It costs most of all that was seen: put aside, %s would rate %s, not %s.",
                          b->results->bridge->vehicles[reruns->vehicle].name, ss_rated_factor(b, best->rf, 2),
                          ss_rated_factor(b, reruns->rf, 2)));
    }
}

static void add_bearings(measures *m) {
    const ss_envelope *envelope = m->builder->results->envelope;
    if (envelope != NULL && envelope->contact_matters) {
        add(m, "the daylight under each bearing, without a truck and with one",
            "Bearings lift off or close under trucks, so that gaps, and what the bearings stand on, decide "
            "which members carry.");
    }
}

static void add_joint(measures *m, const ss_joint *joint) {
    ss_builder *b = m->builder;
    ss_resistance shear;
    ss_resistance moment;
    if (joint->kind == SS_JOINT_NONE || joint->slab) {
        return;
    }
    ss_joint_capacity_of(joint, &shear, &moment, NULL);
    if (isnan(shear.value)) {
        add(m,
            ss_build_text(b, "what joint %s is made of: plates, welds, bolts, how many and how long",
                          joint->name),
            "Nothing tells whether it holds what these ratings ask of it.");
    }
    add(m,
        ss_build_text(b, "how far both sides of joint %s go down under a truck on one of them", joint->name),
        "How much load crosses the joint hangs on its stiffness, which no tape shows; `sweep` tells how much "
        "the rating changes with it.");
}

/* The steel of a line or floor beam that governs, unless it was tested. */
static void add_steel(measures *m) {
    ss_builder *b = m->builder;
    const ss_bridge *bridge = b->results->bridge;
    const int controlling = ss_rated_controlling(b->results);
    if (controlling < 0) {
        return;
    }
    const ss_effect *effect = &b->results->rated->items[controlling].effect;
    const bool line = effect->member == SS_MEMBER_LINE;
    if ((!line && effect->member != SS_MEMBER_BEAM) ||
        ss_words_strip(bridge, effect->member, effect->index)) {
        return;
    }
    const ss_steel *steel =
        &bridge->steels[line ? bridge->lines[effect->index].steel : bridge->floor_beams[effect->index].steel];
    if (steel->basis == NULL || strstr(steel->basis, "coupons") != NULL) {
        return;
    }
    add(m,
        ss_build_text(b, "the steel of %s, by coupons",
                      ss_words_the_member(b, effect->member, effect->index)),
        ss_build_text(b, "It governs, and its yield stress of %s is known from this alone: %s.",
                      ss_words_quantity(b, steel->fy, SS_DIM_STRESS, 4), steel->basis));
}

static void add_unknowns(measures *m) {
    ss_builder *b = m->builder;
    const int count = b->results->bridge->unknowns.count;
    if (count > 0) {
        add(m,
            ss_build_text(b, "what the description itself calls unknown: %s",
                          ss_words_count(b, count, "value", "values")),
            "`bounds` tells which of them matters most, and `sample` how the rating spreads.");
    }
}

int ss_measure_next(ss_builder *b, ss_measure *items) {
    measures m = {.builder = b, .items = items};
    const ss_bridge *bridge = b->results->bridge;
    add_finding(&m);
    add_bearings(&m);
    for (int i = 0; i < bridge->joint_count; i++) {
        add_joint(&m, &bridge->joints[i]);
    }
    add_steel(&m);
    add_unknowns(&m);
    return m.count;
}

void ss_part_measure(ss_builder *b) {
    ss_measure items[SS_MEASURE_MOST];
    const int count = ss_measure_next(b, items);
    const int assumed = b->results->bridge->assumptions.count;
    ss_points points = {.count = 0};
    ss_build_heading(b, SS_FOR_PEOPLE, "What to measure next");
    for (int i = 0; i < count; i++) {
        char first[2] = {items[i].what[0], '\0'};
        if (first[0] >= 'a' && first[0] <= 'z') {
            first[0] = (char)(first[0] - 'a' + 'A');
        }
        ss_point(b, &points, "%s%s. %s", first, items[i].what[0] == '\0' ? "" : items[i].what + 1,
                 items[i].why);
    }
    if (assumed > 0) {
        ss_point(b, &points, "What was not described and is assumed: %s, listed under \"Taken for granted\".",
                 ss_words_count(b, assumed, "value", "values"));
    }
    ss_build_points(b, &points);
    ss_build_sentence(b, "This is what one rating shows; how much each would change it was not computed, "
                         "except for findings.");
}
