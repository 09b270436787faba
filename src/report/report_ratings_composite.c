/* report_ratings_composite.c - the strength of a line with its slab behind a factor: stage by stage to first
 * yield, the plastic moment beside it; and that of a strip of slab. */
#include <math.h>

#include "assess/composite_member.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

/* One basis of strength, with its steps. */
typedef struct basis {
    const char *name;
    ss_resistance strength;
    ss_working working;
} basis;

static const ss_column columns[] = {
    {"basis", "by", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"strength", "strength", SS_DIM_MOMENT, 5, SS_FOR_PEOPLE},
    {"capacity", "carries", SS_DIM_MOMENT, 5, SS_FOR_PEOPLE},
    {"dead", "dead load", SS_DIM_MOMENT, 5, SS_FOR_PEOPLE},
    {"live", "live load", SS_DIM_MOMENT, 5, SS_FOR_PEOPLE},
    {"rf", "factor", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"counts", "counts", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

/* The same factor as far as all else stays as it is. */
static void put_basis(ss_sheet *sheet, const ss_rating_item *item, const basis *one) {
    ss_builder *const b = sheet->builder;
    const double value = one->strength.value * (1.0 - item->nominal.lost);
    const double sense = item->most ? 1.0 : -1.0;
    const double capacity = fabs(item->capacity / item->nominal.value) * value;
    const double dead = sense * item->dead, live = sense * ss_rated_live(item);
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, one->name);
    if (isnan(value)) {
        for (int i = 1; i < SS_COLUMN_COUNT(columns) - 1; i++) ss_sheet_none(sheet);
        ss_sheet_text(sheet, "no");
        return;
    }
    ss_sheet_value(sheet, value);
    ss_sheet_value(sheet, capacity);
    ss_sheet_value(sheet, dead);
    ss_sheet_value(sheet, live);
    ss_sheet_text(sheet,
                  live > 0.0 ? ss_rated_factor(b, fmax((capacity - dead) / live, 0.0), 3) : "no limit");
    ss_sheet_text(sheet, fabs(value - item->nominal.value) <= 1e-9 * fabs(value) ? "yes" : "no");
}

static void put_both(ss_builder *b, const ss_rating_item *item, const basis *yield, const basis *plastic) {
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "strength_bases",
                       .title = "Both bases side by side",
                       .note =
                           "Carries: strength with the factors of the check. Factor: what that leaves beside "
                           "the dead load over the live load, all else as above; first yield hangs on the "
                           "order in which the loads came, the plastic moment does not.",
                       .audience = SS_FOR_PEOPLE,
                       .column_count = SS_COLUMN_COUNT(columns),
                       .columns = columns});
    put_basis(&sheet, item, yield);
    put_basis(&sheet, item, plastic);
    if (plastic->strength.why != NULL) {
        ss_build_sentence(b, "There is no plastic moment: %s.", plastic->strength.why);
    }
}

/* First yield by stages, which service and working stress checks are held to; of strength checks the plastic
 * moment too. */
static void say_strengths(ss_builder *b, const ss_rating_item *item, ss_composite_member *member,
                          ss_strength strength) {
    const ss_permanent *const permanent = b->results->permanent;
    const ss_bridge *const bridge = b->results->bridge;
    ss_strength_use uses[SS_STRENGTH_COUNT];
    basis yield = {.name = "first yield, stage by stage", .working = {.count = 0}};
    basis plastic = {.name = "plastic moment", .working = {.count = 0}};
    ss_strength_uses(bridge, uses);
    const ss_strength_use *const use = &uses[strength];
    const bool lfr = strength == SS_STRENGTH_LFR;
    if (!(strength == SS_STRENGTH_LRFD || lfr)) {
        if (ss_composite_member_strength(permanent, &item->effect, strength, use, member, &yield.strength,
                                         &yield.working) == SS_OK) {
            ss_rated_steps(b, "Its strength with the slab, stage by stage",
                           "This check is held to first yield: no plastic moment counts.", &yield.working);
        }
        return;
    }
    ss_composite_member_dead(permanent, &item->effect, use->dead, member);
    if (ss_composite_strength(&member->given, strength, fmin(use->used, 1.0), true, &yield.strength,
                              &yield.working) != SS_OK ||
        (lfr ? ss_composite_plastic_lfr(&member->given, &plastic.strength, &plastic.working)
             : ss_composite_plastic(&member->given, &plastic.strength, &plastic.working)) != SS_OK) {
        return;
    }
    put_both(b, item, &yield, &plastic);
    ss_rated_steps(b, "First yield with the slab, stage by stage",
                   "Moments with the load factors above, each on the section that carries when it comes.",
                   &yield.working);
    ss_rated_steps(b, "The plastic moment with the slab, step by step", NULL, &plastic.working);
}

static bool is_strip(const ss_bridge *bridge, const ss_effect *effect) {
    return effect->member == SS_MEMBER_BEAM && bridge->floor_beams[effect->index].strip > 0.0;
}

bool ss_rated_composite(ss_builder *b, const ss_rating_item *item) {
    const ss_bridge *const bridge = b->results->bridge;
    ss_member_place place;
    ss_composite_member member;
    double share = 0.0;
    if (is_strip(bridge, &item->effect)) {
        ss_working working = {.count = 0};
        (void)ss_strip_resistance(bridge, &item->effect, item->most, &working);
        ss_rated_steps(b, "Its strength as a slab, step by step",
                       ss_build_text(b,
                                     "The strength above is phi times that of a unit of width, times the %s "
                                     "that the strip stands for.",
                                     ss_words_quantity(b, bridge->floor_beams[item->effect.index].strip,
                                                       SS_DIM_LENGTH, 4)),
                       &working);
        return true;
    }
    if (item->effect.member != SS_MEMBER_LINE || item->effect.kind != SS_EFFECT_MOMENT ||
        ss_member_place_at(bridge, &item->effect, &place) != SS_OK ||
        !ss_composite_member_at(bridge, &item->effect, &place, item->most, &member)) {
        return false;
    }
    say_strengths(b, item, &member, ss_check_strength(&b->results->rated->checks[item->check], &share));
    return true;
}
