/* report_slab_casting_stages.c - what the stages of casting a slab leave in girders, and bring to bearings.
 */
#include <math.h>

#include "report/report_slab_casting.h"
#include "report/report_words.h"

/* ---- girders ----------------------------------------------------------------------------------------- */

static const ss_column stage_columns[] = {
    {"girder", "girder", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
    {"stage", "stage", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"on", "on", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"composite", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"moment", "adds moment", SS_DIM_MOMENT, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"bottom", "adds bottom", SS_DIM_STRESS, -2, SS_FOR_ALL},
    {"top", "adds top", SS_DIM_STRESS, -2, SS_FOR_ALL},
    {"moment_sum", "moment in all", SS_DIM_MOMENT, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"bottom_sum", "bottom in all", SS_DIM_STRESS, -2, SS_FOR_ALL},
    {"top_sum", "top in all", SS_DIM_STRESS, -2, SS_FOR_ALL},
    {"sag", "adds sag", SS_DIM_SMALL_LENGTH, -2, SS_FOR_ALL},
    {"sag_sum", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS},
};

static void put_step(ss_sheet *sheet, const ss_slab_casting *casting, const ss_casting_step *step) {
    const ss_bridge *const bridge = sheet->builder->results->bridge;
    const ss_casting_set *const set = &casting->sets[step->set];
    const ss_line *const line = &bridge->lines[set->line];
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, set->name);
    ss_sheet_text(sheet, bridge->cars[line->car].name);
    ss_sheet_text(sheet, line->name);
    ss_sheet_value(sheet, set->x);
    ss_sheet_text(sheet, ss_casting_stage(casting, step->stage));
    ss_sheet_text(sheet, step->composite ? "steel and slab" : "bare steel");
    ss_sheet_flag(sheet, step->composite);
    ss_sheet_value(sheet, step->moment);
    ss_casting_put(sheet, step->bottom);
    ss_casting_put(sheet, step->top);
    ss_sheet_value(sheet, step->moment_sum);
    ss_casting_put(sheet, step->bottom_sum);
    ss_casting_put(sheet, step->top_sum);
    ss_sheet_value(sheet, step->sag);
    ss_sheet_value(sheet, step->sag_sum);
}

void ss_casting_say_stages(ss_builder *b, const ss_slab_casting *casting) {
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){.key = "casting_stages",
                    .title = "What each stage leaves in the girders",
                    .note = "Dead load without factors, at the place of each kind of girder with the largest "
                            "stress in the end. Stresses are of the steel, tension positive: moment over the "
                            "modulus of what carries in that stage, of the long-term section where the slab "
                            "acts. They add; a plastic moment does not look at them.",
                    .audience = SS_FOR_ALL,
                    .column_count = SS_COLUMN_COUNT(stage_columns),
                    .columns = stage_columns});
    for (int i = 0; i < casting->step_count; i++) put_step(&sheet, casting, &casting->steps[i]);
}

/* ---- bearings ---------------------------------------------------------------------------------------- */

static const ss_column bearing_columns[] = {
    {"bearing", "bearing", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "line", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
    {"before", "today", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"after", "in the end", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"more", "more", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"percent", "in %", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"opens", "opens in", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"opening", "most open", SS_DIM_SMALL_LENGTH, 3, SS_FOR_ALL},
    {"open_today", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void put_bearing(ss_sheet *sheet, const ss_slab_casting *casting, const ss_casting_bearing *own) {
    ss_builder *const b = sheet->builder;
    const ss_bridge *const bridge = b->results->bridge;
    const ss_bearing *const bearing = &bridge->bearings[own->bearing];
    const double more = own->after - own->before;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bearing->name);
    ss_sheet_text(sheet, bridge->cars[bearing->car].name);
    ss_sheet_text(sheet, bridge->lines[bearing->line].name);
    ss_sheet_value(sheet, bearing->x);
    ss_sheet_value(sheet, own->before);
    ss_sheet_value(sheet, own->after);
    ss_sheet_value(sheet, more);
    ss_sheet_text(sheet, own->before > 0.0 ? ss_words_decimals(b, 100.0 * more / own->before, 0) : NULL);
    ss_sheet_text(sheet, own->opens >= 0   ? ss_casting_stage(casting, own->opens)
                         : own->open_today ? "open today"
                                           : NULL);
    if (own->opening > 0.0) {
        ss_sheet_value(sheet, own->opening);
    } else {
        ss_sheet_none(sheet);
    }
    ss_sheet_flag(sheet, own->open_today);
}

void ss_casting_say_bearings(ss_builder *b, const ss_slab_casting *casting) {
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){.key = "casting_bearings",
                    .title = "What comes to the bearings",
                    .note = "Dead load without factors. A bearing that opens in a stage has daylight then, "
                            "and is carried on so: it closes when later load brings it down.",
                    .audience = SS_FOR_ALL,
                    .column_count = SS_COLUMN_COUNT(bearing_columns),
                    .columns = bearing_columns});
    for (int i = 0; i < casting->bearing_count; i++) put_bearing(&sheet, casting, &casting->bearings[i]);
    if (casting->prop >= 0) {
        const ss_shore *const prop = &b->results->bridge->slab.shores[casting->prop];
        ss_build_sentence(
            b,
            "A prop carries up to %s without factors, that under %s at %s; what it stands on is not "
            "looked at, and its give would leave more to the bare cars.",
            ss_words_quantity(b, casting->prop_force, SS_DIM_FORCE, 3),
            ss_words_the_member(b, SS_MEMBER_LINE, prop->line), ss_words_length(b, prop->x));
    }
    ss_build_sentence(b,
                      "%s come off and %s come on, of them %s of wet concrete: %s more on the substructure.",
                      ss_words_quantity(b, casting->removed, SS_DIM_FORCE, 4),
                      ss_words_quantity(b, casting->added, SS_DIM_FORCE, 4),
                      ss_words_quantity(b, casting->wet, SS_DIM_FORCE, 4),
                      ss_words_quantity(b, casting->added - casting->removed, SS_DIM_FORCE, 4));
}
