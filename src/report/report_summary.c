/* report_summary.c - a rating in five lines, for the first page of what is filed. */
#include "report/report_measure.h"

#include <math.h>

#include "assess/joint_capacity.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

/* Things to measure that are named; the others have a section of their own. */
#define NAMED 2

static const ss_column columns[] = {
    {"rating", "Rating", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"posting", "Posting", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"governs", "What governs", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"sure", "How sure", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"measure", "Measure next", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

static const char *rating_words(ss_builder *b, const ss_rating_item *item) {
    const ss_results *results = b->results;
    const char *truck = ss_words_traffic(b, item->traffic);
    const char *check = results->rated->checks[item->check].name;
    if (isinf(item->rf)) {
        return "no truck asked for brings any rated member to its capacity";
    }
    if (!(item->rf > 0.0)) {
        return ss_build_text(b, "none: dead load alone is too much (%s)", check);
    }
    return ss_build_text(b, "%s for %s (%s)%s", ss_rated_factor(b, item->rf, 2), truck, check,
                         item->rf < 1.0 ? "; below 1.00: too heavy" : "");
}

static const char *governing_words(ss_builder *b, const ss_rating_item *item) {
    const char *place = ss_words_place(b, &item->effect);
    if (isinf(item->rf)) {
        return NULL;
    }
    return item->tips
               ? "the bridge tips off its bearings before a section is full"
               : ss_build_text(b, "%s, in %s%s%s%s",
                               ss_words_the_member(b, item->effect.member, item->effect.index),
                               ss_words_failure(item->effect.kind), place[0] == '\0' ? "" : " ", place,
                               item->joint_out ? ", with a joint out that is full before the members" : "");
}

static int warnings_of(const ss_diag_list *diags) {
    int count = 0;
    for (int i = 0; diags != NULL && i < diags->count; i++) {
        count += diags->items[i].severity == SS_WARNING;
    }
    return count;
}

/* Joints between cars that something crosses and nobody knows the strength of. */
static int joints_unknown(const ss_bridge *bridge) {
    int count = 0;
    for (int i = 0; i < bridge->joint_count; i++) {
        ss_resistance shear;
        ss_resistance moment;
        ss_joint_capacity_of(&bridge->joints[i], &shear, &moment, NULL);
        count += bridge->joints[i].kind != SS_JOINT_NONE && !bridge->joints[i].slab && isnan(shear.value);
    }
    return count;
}

static const char *sure_words(ss_builder *b, const ss_rating_item *item) {
    const ss_results *results = b->results;
    const char *words = ss_grillage_trust(results->grillage)->doubtful
                            ? "DOUBTFUL: the bridge is close to being free to move"
                            : "the arithmetic holds";
    const int unknown = joints_unknown(results->bridge);
    if (results->envelope != NULL && results->envelope->contact_matters) {
        words = ss_build_text(b, "%s; bearings lift under trucks", words);
    }
    if (isnan(item->proved) && item->local) {
        words = ss_build_text(b, "%s; another arrangement of these trucks may be worse", words);
    }
    if (unknown > 0) {
        words = ss_build_text(
            b, "%s; %s", words,
            ss_words_count(b, unknown, "joint of unknown strength", "joints of unknown strength"));
    }
    return ss_build_text(b, "%s; %s taken for granted, %s left out, %s", words,
                         ss_words_count(b, results->bridge->assumptions.count, "value", "values"),
                         ss_words_count(b, results->bridge->ignored_count, "effect", "effects"),
                         ss_words_count(b, warnings_of(results->diags), "warning about the description",
                                        "warnings about the description"));
}

static const char *measure_words(ss_builder *b) {
    ss_measure items[SS_MEASURE_MOST];
    const int count = ss_measure_next(b, items);
    const char *words = NULL;
    for (int i = 0; i < count && i < NAMED; i++) {
        words = words == NULL ? items[i].what : ss_build_text(b, "%s; %s", words, items[i].what);
    }
    return count > NAMED ? ss_build_text(b, "%s; and %s more", words,
                                         ss_words_count(b, count - NAMED, "thing", "things"))
                         : words;
}

void ss_part_summary(ss_builder *b) {
    const ss_results *results = b->results;
    const int controlling = ss_rated_controlling(results);
    if (controlling < 0) {
        return;
    }
    const ss_rating_item *item = &results->rated->items[controlling];
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "summary",
                                                   .title = "In short",
                                                   .audience = SS_FOR_PEOPLE,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(columns),
                                                   .columns = columns});
    ss_sheet_row(&sheet);
    ss_sheet_text(&sheet, rating_words(b, item));
    ss_sheet_text(&sheet, results->posting != NULL ? results->posting->recommendation
                                                   : "no method was rated that a bridge is posted by");
    ss_sheet_text(&sheet, governing_words(b, item));
    ss_sheet_text(&sheet, sure_words(b, item));
    ss_sheet_text(&sheet, measure_words(b));
}
