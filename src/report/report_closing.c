/* report_closing.c - what was assumed, what is left out, and the caution that ends every report. */
#include "report/report_parts.h"

static const char caution[] =
    "This is an aid to a licensed engineer. Ratings and postings are decided under the owner's and the "
    "state's "
    "rules, by someone who has seen the bridge. Nothing printed here is a permit to cross.";

static const ss_column assumption_columns[] = {
    {"path", "what", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"value", "taken as", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"why", "what it is", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

void ss_part_closing(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    ss_build_heading(b, SS_FOR_PEOPLE, "Taken for granted");
    if (bridge->assumptions.count == 0) {
        ss_build_sentence(b, "Nothing: the description gives every value itself.");
    } else {
        ss_build_sentence(
            b, "The description does not give these; write them into it, or set them with --set, if the "
               "bridge is different.");
    }
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "assumptions",
                                                   .title = "",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(assumption_columns),
                                                   .columns = assumption_columns});
    for (int i = 0; i < bridge->assumptions.count; i++) {
        const ss_assumption *one = &bridge->assumptions.items[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, one->path);
        ss_sheet_text(&sheet, one->value);
        ss_sheet_text(&sheet, one->why);
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Left out");
    ss_build_list(b, SS_FOR_ALL, "ignored", bridge->ignored, bridge->ignored_count);
    ss_build_heading(b, SS_FOR_PEOPLE, "Caution");
    ss_build_value(b, SS_FOR_ALL, "caution", caution);
}
