/* report_joint_out.c - ratings that would rely on a joint beyond what it can carry, and what holds instead.
 */
#include <math.h>

#include "report/report_ratings.h"
#include "report/report_words.h"

static const ss_column columns[] = {
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"check", "by", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"joint", "joint", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
    {"joint_rf", "joint full at", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"joint_rf", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"members", "members with it", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"members", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"without", "members with it out", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"without", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void put_cut(ss_sheet *sheet, double value) {
    ss_sheet_value(sheet, ss_rated_cut(value, 2));
    ss_sheet_value(sheet, value);
}

void ss_rated_joint_out(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_joint_out *out = results->joint_out;
    if (out == NULL) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Joints that are full first");
    if (out->failure != NULL) {
        ss_build_sentence(
            b,
            "For the crossings below the joint reaches its capacity before the members do. With "
            "the joint out the bridge could not be rated (%s), so that the joint's own factor "
            "governs.",
            out->failure);
    } else {
        ss_build_sentence(b,
                          "For the crossings below the joint reaches its capacity before the members do. A "
                          "rating that relies on it does not hold beyond that: the rating with the joint "
                          "out governs.");
    }
    for (int i = 0; i < out->count; i++) {
        if (results->bridge->joints[results->rated->items[out->items[i].joint].effect.index].slab &&
            results->bridge->slab.joint != SS_SLAB_JOINT_HINGED) {
            ss_build_sentence(
                b, "Where that is the slab over a gap, \"out\" means that its bars have yielded: it is a "
                   "hinge there, which passes shear and no bending.");
            break;
        }
    }
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "joint_reliance",
                                                   .title = "With the joint and without",
                                                   .note = "The last column governs the crossing.",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(columns),
                                                   .columns = columns});
    for (int i = 0; i < out->count; i++) {
        const ss_joint_reliance *one = &out->items[i];
        const ss_rating_item *joint = &results->rated->items[one->joint];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, ss_words_traffic(b, one->traffic));
        ss_sheet_text(&sheet, results->rated->checks[one->check].name);
        ss_sheet_text(&sheet, results->bridge->joints[joint->effect.index].name);
        ss_sheet_text(&sheet, ss_words_failure(joint->effect.kind));
        ss_sheet_value(&sheet, ss_words_x(results->bridge, &joint->effect));
        put_cut(&sheet, one->full);
        put_cut(&sheet, one->members);
        if (isnan(one->without)) {
            ss_sheet_none(&sheet);
            ss_sheet_none(&sheet);
        } else {
            put_cut(&sheet, one->without);
        }
    }
}
