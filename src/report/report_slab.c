/* report_slab.c - a concrete deck as the description gives it: what it is made of, how it is cast, what it
 * weighs. */
#include <math.h>

#include "report/report_parts.h"
#include "report/report_words.h"

/* ---- what it is ------------------------------------------------------------------------------------- */

static const ss_column slab_columns[] = {
    {"thickness", "Thickness", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"haunch", "Haunch below it", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"haunch_width", "which is wide", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"from", "From x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"to", "to x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"left", "From y", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"right", "to y", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"fc", "Strength of the concrete", SS_DIM_STRESS, 4, SS_FOR_ALL},
    {"E", "Modulus of elasticity", SS_DIM_STRESS, 4, SS_FOR_ALL},
    {"density", "Weighs, with its bars", SS_DIM_UNIT_WEIGHT, 4, SS_FOR_ALL},
    {"long_term", "Under load that stays n counts times", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"bar_fy", "Yield stress of the bars", SS_DIM_STRESS, 4, SS_FOR_ALL},
    {"joint", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"joint_words", "Over a gap between cars", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"connectors", "Tied to the lines by", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"strength", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"strength_words", "Rated in bending by", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"shored", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"shored_words", "Cast", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"joints_hold", "Cars' own joints act while it is wet", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"construction", "People and gear while it is cast", SS_DIM_AREA_LOAD, 4, SS_FOR_ALL},
    {"strips", "Carried across by strips, on each car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static const char *joint_words(ss_slab_joint joint) {
    switch (joint) {
    case SS_SLAB_JOINT_WHOLE: return "runs through, uncracked";
    case SS_SLAB_JOINT_CRACKED: return "runs through, cracked across";
    case SS_SLAB_JOINT_HINGED: return "passes shear and no bending";
    case SS_SLAB_JOINT_OPEN: return "ends at the cars";
    }
    return "";
}

static const char *joint_key(ss_slab_joint joint) {
    switch (joint) {
    case SS_SLAB_JOINT_WHOLE: return "whole";
    case SS_SLAB_JOINT_CRACKED: return "cracked";
    case SS_SLAB_JOINT_HINGED: return "hinged";
    case SS_SLAB_JOINT_OPEN: return "open";
    }
    return "";
}

static const char *connector_words(ss_builder *b, const ss_connectors *c) {
    const char *what = "nothing: no line acts with it";
    const char *row = "";
    if (c->kind == SS_CONNECTOR_STUDS && c->diameter > 0.0) {
        what = ss_build_text(b, "studs of %s, %s high",
                             ss_words_quantity(b, c->diameter, SS_DIM_SMALL_LENGTH, 4),
                             ss_words_quantity(b, c->height, SS_DIM_SMALL_LENGTH, 4));
        row = c->per_row < 2 ? ", one a row"
                             : ss_build_text(b, ", %d a row %s apart", c->per_row,
                                             ss_words_quantity(b, c->across, SS_DIM_SMALL_LENGTH, 4));
    } else if (c->kind == SS_CONNECTOR_CHANNELS && c->length > 0.0) {
        what = ss_build_text(b, "channels %s long", ss_words_quantity(b, c->length, SS_DIM_SMALL_LENGTH, 4));
    } else {
        return what;
    }
    const char *pitch = c->pitch > 0.0 ? ss_build_text(b, "a row each %s",
                                                       ss_words_quantity(b, c->pitch, SS_DIM_SMALL_LENGTH, 4))
                                       : "rows as close as the whole strength of the section needs";
    return ss_build_text(b, "%s%s; %s", what, row, pitch);
}

static int strips_of_first_car(const ss_bridge *bridge) {
    int count = 0;
    for (int i = 0; i < bridge->floor_beam_count; i++) {
        count += bridge->floor_beams[i].car == 0 && bridge->floor_beams[i].strip > 0.0;
    }
    return count;
}

static void put_casting(ss_sheet *sheet, const ss_bridge *bridge) {
    const ss_slab *slab = &bridge->slab;
    ss_sheet_text(sheet, slab->first_yield ? "first yield" : "plastic");
    ss_sheet_text(sheet, slab->first_yield
                             ? "first yield, stage by stage"
                             : "the plastic moment where the section qualifies, else first yield");
    ss_sheet_flag(sheet, slab->shore_count > 0);
    ss_sheet_text(sheet,
                  slab->shore_count > 0
                      ? ss_build_text(sheet->builder, "on %s",
                                      ss_words_count(sheet->builder, slab->shore_count, "prop", "props"))
                      : "unshored: the cars carry the wet concrete");
    ss_sheet_flag(sheet, slab->joints_hold_wet);
    ss_sheet_value(sheet, slab->construction);
    ss_sheet_integer(sheet, strips_of_first_car(bridge));
}

static void add_slab(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    const ss_slab *slab = &bridge->slab;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "described.slab",
                                                   .title = "The slab",
                                                   .audience = SS_FOR_ALL,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(slab_columns),
                                                   .columns = slab_columns});
    ss_sheet_row(&sheet);
    ss_sheet_value(&sheet, slab->thickness);
    ss_sheet_value(&sheet, slab->haunch);
    if (slab->haunch > 0.0 && slab->haunch_width > 0.0) {
        ss_sheet_value(&sheet, slab->haunch_width);
    } else {
        ss_sheet_none(&sheet);
    }
    ss_sheet_value(&sheet, slab->x0);
    ss_sheet_value(&sheet, slab->x1);
    ss_sheet_value(&sheet, slab->y0);
    ss_sheet_value(&sheet, slab->y1);
    ss_sheet_value(&sheet, slab->fc);
    ss_sheet_value(&sheet, slab->E);
    ss_sheet_value(&sheet, slab->density);
    ss_sheet_value(&sheet, slab->long_factor);
    ss_sheet_value(&sheet, slab->bar_fy);
    ss_sheet_text(&sheet, bridge->car_count > 1 ? joint_key(slab->joint) : NULL);
    ss_sheet_text(&sheet, bridge->car_count > 1 ? joint_words(slab->joint) : NULL);
    ss_sheet_text(&sheet, connector_words(b, &slab->connectors));
    put_casting(&sheet, bridge);
}

/* ---- bars ------------------------------------------------------------------------------------------- */

static const ss_column bar_columns[] = {
    {"bars", "bars", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"diameter", "diameter", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"spacing", "each", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"depth", "middle below the top", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"share", "of the slab's section %", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"share", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void put_bars(ss_sheet *sheet, const char *name, const ss_bars *bars, double thickness) {
    if (!(bars->spacing > 0.0)) {
        return;
    }
    const double share = thickness > 0.0 ? ss_bars_area(bars) / thickness : 0.0;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, name);
    ss_sheet_value(sheet, bars->diameter);
    ss_sheet_value(sheet, bars->spacing);
    ss_sheet_value(sheet, bars->depth);
    ss_sheet_value(sheet, 100.0 * share);
    ss_sheet_value(sheet, share);
}

static void add_bars(ss_builder *b) {
    const ss_slab *slab = &b->results->bridge->slab;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "described.slab_bars",
                                                   .title = "Its bars",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(bar_columns),
                                                   .columns = bar_columns});
    put_bars(&sheet, "top, across", &slab->top_across, slab->thickness);
    put_bars(&sheet, "bottom, across", &slab->bottom_across, slab->thickness);
    put_bars(&sheet, "top, along", &slab->top_along, slab->thickness);
    put_bars(&sheet, "bottom, along", &slab->bottom_along, slab->thickness);
}

/* ---- pours and props -------------------------------------------------------------------------------- */

static const ss_column pour_columns[] = {
    {"pour", "cast", SS_DIM_NUMBER, 0, SS_FOR_ALL},        {"x0", "from x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"x1", "to x", SS_DIM_LENGTH, -2, SS_FOR_ALL},         {"y0", "from y", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"y1", "to y", SS_DIM_LENGTH, -2, SS_FOR_ALL},         {"slab", "slab", SS_DIM_FORCE, 4, SS_FOR_ALL},
    {"haunches", "haunches", SS_DIM_FORCE, 4, SS_FOR_ALL},
};

/* What a pour brings, of the slab or of the haunches, laid on the mesh. */
static double poured(const ss_results *results, int pour, bool haunches) {
    const ss_bridge *bridge = results->bridge;
    double weight = 0.0;
    for (int i = 0; i < bridge->dead_load_count; i++) {
        const ss_dead_load *dead = &bridge->dead_loads[i];
        if (dead->when == SS_DEAD_WET && dead->pour == pour && dead->area != haunches) {
            weight += ss_part_laid_weight(results->mesh, dead);
        }
    }
    return weight;
}

static void add_pours(ss_builder *b) {
    const ss_slab *slab = &b->results->bridge->slab;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "described.slab_pours",
                       .title = "How it is cast",
                       .note =
                           slab->pour_count > 1 ? "One after the other; each is hard before the next." : NULL,
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(pour_columns),
                       .columns = pour_columns});
    double total = 0.0;
    for (int i = 0; i < slab->pour_count; i++) {
        const ss_pour *pour = &slab->pours[i];
        const double concrete = poured(b->results, i, false);
        const double haunches = poured(b->results, i, true);
        total += concrete + haunches;
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, slab->pour_count > 1 ? pour->name : "all at once");
        ss_sheet_value(&sheet, pour->x0);
        ss_sheet_value(&sheet, pour->x1);
        ss_sheet_value(&sheet, pour->y0);
        ss_sheet_value(&sheet, pour->y1);
        ss_sheet_value(&sheet, concrete);
        ss_sheet_value(&sheet, haunches);
    }
    if (!isnan(total)) {
        ss_build_sentence(b, "It weighs %s, %s of slab%s.", ss_words_quantity(b, total, SS_DIM_FORCE, 4),
                          ss_words_quantity(b, slab->thickness * slab->density, SS_DIM_AREA_LOAD, 4),
                          slab->haunch > 0.0 ? " and its haunches" : "");
    }
}

static const ss_column shore_columns[] = {
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "prop under", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"x", "at x", SS_DIM_LENGTH, -2, SS_FOR_ALL},
};

static void add_shores(ss_builder *b) {
    const ss_bridge *bridge = b->results->bridge;
    const ss_slab *slab = &bridge->slab;
    if (slab->shore_count == 0) {
        return;
    }
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){
               .key = "described.slab_shores",
               .title = "Props while it is cast",
               .note = "Set touching once the old deck is off, rigid, and taken out when all is hard: what "
                       "they carried then goes to the cars with their slab.",
               .audience = SS_FOR_ALL,
               .column_count = SS_COLUMN_COUNT(shore_columns),
               .columns = shore_columns});
    for (int i = 0; i < slab->shore_count; i++) {
        const ss_line *line = &bridge->lines[slab->shores[i].line];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, bridge->cars[line->car].name);
        ss_sheet_text(&sheet, line->name);
        ss_sheet_value(&sheet, slab->shores[i].x);
    }
}

void ss_part_slab(ss_builder *b) {
    if (!b->results->bridge->slab.given) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Concrete deck");
    add_slab(b);
    add_bars(b);
    ss_part_slab_lines(b);
    add_pours(b);
    add_shores(b);
}
