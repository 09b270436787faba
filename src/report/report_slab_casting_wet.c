/* report_slab_casting_wet.c - cars, formwork and sag while a slab is wet. */
#include <math.h>

#include "report/report_slab_casting.h"
#include "report/report_words.h"

/* ---- members ----------------------------------------------------------------------------------------- */

static const ss_column member_columns[] = {
    {"member", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"where", "where", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"car", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"floor_beam", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"y", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"stage", "stage", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"effect", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"composite", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dead", "dead load", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"people", "people", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"capacity", "carries", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"use", "used", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"use", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rule", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"not_known", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void put_known(ss_sheet *sheet, double value, ss_dimension dimension) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_quantity(sheet, value, dimension);
    }
}

static void put_member(ss_sheet *sheet, const ss_slab_casting *casting, const ss_casting_member *m) {
    ss_builder *const b = sheet->builder;
    const ss_bridge *const bridge = b->results->bridge;
    const bool line = m->effect.member == SS_MEMBER_LINE;
    const bool bending = m->effect.kind == SS_EFFECT_MOMENT;
    const ss_dimension dimension = bending ? SS_DIM_MOMENT : SS_DIM_FORCE;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, m->name);
    ss_sheet_text(sheet, ss_build_text(b, "%s, %s", ss_words_member(b, m->effect.member, m->effect.index),
                                       ss_words_place(b, &m->effect)));
    ss_sheet_text(sheet, bridge->cars[ss_words_car(bridge, m->effect.member, m->effect.index)].name);
    ss_sheet_text(sheet, line ? bridge->lines[m->effect.index].name : NULL);
    ss_sheet_text(sheet, line ? NULL : bridge->floor_beams[m->effect.index].name);
    ss_sheet_value(sheet, ss_words_x(bridge, &m->effect));
    ss_casting_put(sheet, line ? (double)NAN : m->effect.at);
    ss_sheet_text(sheet, ss_casting_stage(casting, m->stage));
    ss_sheet_text(sheet, ss_words_failure(m->effect.kind));
    ss_sheet_text(sheet, ss_words_effect_key(m->effect.kind));
    ss_sheet_flag(sheet, m->composite);
    put_known(sheet, m->dead, dimension);
    put_known(sheet, m->people, dimension);
    put_known(sheet, m->capacity, dimension);
    ss_sheet_text(sheet, m->why == NULL ? ss_casting_share(b, m->demand, m->capacity) : "not known");
    ss_casting_put(sheet, m->why == NULL && m->capacity > 0.0 ? m->demand / m->capacity : (double)NAN);
    ss_sheet_text(sheet, m->why == NULL ? m->rule : NULL);
    ss_sheet_text(sheet, m->why);
}

static void say_unknown(ss_builder *b, const ss_slab_casting *casting) {
    for (int i = 0; i < casting->member_count; i++) {
        const ss_casting_member *const m = &casting->members[i];
        if (m->stage >= 0 && m->why != NULL) {
            ss_build_sentence(b, "Nothing is known of %s of \"%s\": %s.", ss_words_failure(m->effect.kind),
                              m->name, m->why);
        }
    }
}

bool ss_casting_form_bad(const ss_casting_form *form) {
    return form->why == NULL &&
           (form->moment > form->capacity * (1.0 + 1e-9) || form->sag > form->sag_allowed * (1.0 + 1e-9));
}

static void say_form(ss_builder *b, const ss_slab_casting *casting) {
    const ss_casting_form *const form = &casting->form;
    const char *const name = b->results->bridge->slab.form.name;
    if (!casting->has_form) {
        return;
    }
    if (form->why != NULL) {
        ss_build_sentence(b, "The plate \"%s\" that stays as formwork was not looked at: %s.", name,
                          form->why);
        return;
    }
    ss_build_sentence(
        b,
        "The plate \"%s\" stays as formwork over spans of up to %s: under the factored wet concrete with "
        "people "
        "and gear it is bent to %s of first yield, and sags %s of %s allowed (AASHTO LRFD 9.7.4.1, from "
        "memory).%s It counts as simple beams, its fastenings are not looked at.",
        name, ss_words_length(b, form->span), ss_casting_share(b, form->moment, form->capacity),
        ss_words_quantity(b, form->sag, SS_DIM_SMALL_LENGTH, 3),
        ss_words_quantity(b, form->sag_allowed, SS_DIM_SMALL_LENGTH, 3),
        ss_casting_form_bad(form) ? " That is too much: it wants props or joists between its supports." : "");
}

void ss_casting_say_members(ss_builder *b, const ss_slab_casting *casting) {
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){
            .key = "casting_members",
            .title = "The cars while the slab is wet",
            .note = "The worst place of each kind. Dead load so far and wet concrete times 1.25, a wearing "
                    "course that stays 1.50, people and gear 1.50 on every part of the cars where they are "
                    "adverse (AASHTO LRFD 3.4.2.1, from memory). No deck holds a flange: floor beams and "
                    "bearings do. Strength by AASHTO LRFD with phi and condition. Bearings that a stage "
                    "leaves open stay open under people, the others closed.",
            .audience = SS_FOR_ALL,
            .column_count = SS_COLUMN_COUNT(member_columns),
            .columns = member_columns});
    for (int i = 0; i < casting->member_count; i++) {
        if (casting->members[i].stage >= 0) {
            put_member(&sheet, casting, &casting->members[i]);
        }
    }
    say_unknown(b, casting);
    say_form(b, casting);
}

/* ---- sag --------------------------------------------------------------------------------------------- */

static const ss_column sag_columns[] = {
    {"girder", "girder", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"sag", "sag", SS_DIM_SMALL_LENGTH, -2, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
    {"camber", "with all that comes later", SS_DIM_SMALL_LENGTH, -2, SS_FOR_ALL},
};

static void put_sag(ss_sheet *sheet, const ss_casting_set *set) {
    const ss_bridge *const bridge = sheet->builder->results->bridge;
    if (set->sag_line < 0) {
        return;
    }
    const ss_line *const line = &bridge->lines[set->sag_line];
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, set->name);
    ss_sheet_text(sheet, bridge->cars[line->car].name);
    ss_sheet_text(sheet, line->name);
    ss_sheet_value(sheet, set->sag);
    ss_sheet_value(sheet, set->sag_x);
    ss_sheet_value(sheet, set->camber);
}

/* m: nobody sees less, and what rounding leaves of alike cars is far less. */
#define NO_STEP 1e-4

static void say_unlike(ss_builder *b, const ss_slab_casting *casting) {
    const ss_bridge *const bridge = b->results->bridge;
    for (int i = 0; i < casting->gap_count; i++) {
        const ss_casting_gap *const gap = &casting->gaps[i];
        if (gap->stage < 0) {
            continue;
        }
        if (fabs(gap->step) < NO_STEP) {
            ss_build_sentence(b, "Over the gap cars %s and %s stay level with each other.",
                              bridge->cars[gap->left].name, bridge->cars[gap->left + 1].name);
            continue;
        }
        const bool right = gap->step > 0.0;
        ss_build_sentence(b,
                          "Over the gap car %s comes to lie up to %s lower than car %s, at %s after \"%s\".",
                          bridge->cars[gap->left + (right ? 1 : 0)].name,
                          ss_words_quantity(b, fabs(gap->step), SS_DIM_SMALL_LENGTH, 2),
                          bridge->cars[gap->left + (right ? 0 : 1)].name, ss_words_length(b, gap->x),
                          ss_casting_stage(casting, gap->stage));
    }
    for (int i = 0; i < casting->car_count; i++) {
        const ss_casting_car *const car = &casting->cars[i];
        if (car->tilt_stage >= 0) {
            ss_build_sentence(b, "Car %s twists by up to %s %% to the %s, at %s after \"%s\".",
                              bridge->cars[i].name, ss_words_decimals(b, 100.0 * fabs(car->tilt), 2),
                              car->tilt > 0.0 ? "right" : "left", ss_words_length(b, car->tilt_x),
                              ss_casting_stage(casting, car->tilt_stage));
        }
    }
}

static const ss_column fill_columns[] = {
    {"removed", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"added", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"wet", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"prop", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"thicker", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS},
    {"ponded", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"ponded_more", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"form_span", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"form_use", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"form_sag", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS},
    {"form_not_looked_at", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void put_record(ss_builder *b, const ss_slab_casting *casting) {
    const ss_casting_form *const form = &casting->form;
    const bool known = casting->has_form && form->why == NULL;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "casting",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(fill_columns),
                                                   .columns = fill_columns});
    ss_sheet_row(&sheet);
    ss_sheet_value(&sheet, casting->removed);
    ss_sheet_value(&sheet, casting->added);
    ss_sheet_value(&sheet, casting->wet);
    ss_casting_put(&sheet, casting->prop >= 0 ? casting->prop_force : (double)NAN);
    ss_sheet_value(&sheet, casting->thicker);
    ss_sheet_value(&sheet, casting->ponded);
    ss_sheet_value(&sheet, casting->ponded_more);
    ss_casting_put(&sheet, casting->has_form ? form->span : (double)NAN);
    ss_casting_put(&sheet, known ? form->moment / form->capacity : (double)NAN);
    ss_casting_put(&sheet, known ? form->sag : (double)NAN);
    ss_sheet_text(&sheet, casting->has_form ? form->why : NULL);
}

void ss_casting_say_sag(ss_builder *b, const ss_slab_casting *casting) {
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){
            .key = "casting_sag",
            .title = "Sag under the wet concrete",
            .note =
                "Without factors, all pours together, downwards; largest of each kind of girder. A camber of "
                "the last column leaves the surface level in the end, and the slab as thick as it is drawn.",
            .audience = SS_FOR_ALL,
            .column_count = SS_COLUMN_COUNT(sag_columns),
            .columns = sag_columns});
    for (int i = 0; i < casting->set_count; i++) put_sag(&sheet, &casting->sets[i]);
    put_record(b, casting);
    say_unlike(b, casting);
    ss_build_sentence(
        b,
        "Where the surface is struck off level over cars without camber, the sag is filled: between the "
        "bearings %s more slab in the mean, %s of concrete that the figures above do not have. That sags in "
        "turn and takes more: about %s in the end, if each round adds the same share.",
        ss_words_quantity(b, casting->thicker, SS_DIM_SMALL_LENGTH, 2),
        ss_words_quantity(b, casting->ponded, SS_DIM_FORCE, 2),
        isinf(casting->ponded_more) ? "without end"
                                    : ss_words_quantity(b, casting->ponded_more, SS_DIM_FORCE, 2));
}
