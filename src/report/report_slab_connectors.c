/* report_slab_connectors.c - what ties the slab to the lines: how many, how far apart, and what decides. */
#include <math.h>
#include <string.h>

#include "report/report_ratings.h"
#include "report/report_words.h"

static const ss_column columns[] = {
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "line", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"from", "from", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
    {"to", "to", SS_DIM_LENGTH, -1, SS_FOR_PEOPLE},
    {"from", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"to", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"from_is", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"to_is", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"force", "force", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_ALL},
    {"range", "shear", SS_DIM_FORCE, 3, SS_FOR_ALL},
    {"range_x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"I", "", SS_DIM_SECOND_MOMENT, 0, SS_FOR_PROGRAMS},
    {"Q", "", SS_DIM_SECTION_MODULUS, 0, SS_FOR_PROGRAMS},
    {"needed", "need", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"pitch_by_strength", "by strength", SS_DIM_SMALL_LENGTH, 3, SS_FOR_ALL},
    {"pitch_by_fatigue", "by fatigue", SS_DIM_SMALL_LENGTH, 3, SS_FOR_ALL},
    {"pitch_most", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS},
    {"pitch_least", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS},
    {"pitch", "pitch", SS_DIM_SMALL_LENGTH, 3, SS_FOR_ALL},
    {"rows", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"count", "count", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"degree", "of the force", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"degree", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"fits", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"governs", "by", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"governs", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"would_fit", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static const char *const ends[] = {"no moment", "largest sagging moment", "support"};

/* ---- words -------------------------------------------------------------------------------------- */

static const char *size_of(ss_builder *b, const ss_connectors *c) {
    if (c->kind == SS_CONNECTOR_CHANNELS) {
        return ss_build_text(b, "channels %s long", ss_words_quantity(b, c->length, SS_DIM_SMALL_LENGTH, 3));
    }
    return ss_build_text(b, "studs %s x %s, %s", ss_words_quantity(b, c->diameter, SS_DIM_SMALL_LENGTH, 3),
                         ss_words_quantity(b, c->height, SS_DIM_SMALL_LENGTH, 3),
                         c->per_row == 1 ? "one in a row"
                                         : ss_build_text(b, "%d side by side in a row", c->per_row));
}

/* What would help a segment that does not fit. */
static const char *would_fit(ss_builder *b, const ss_connector_run *run) {
    const char *items[3];
    int count = 0;
    if (run->per_row_needed > 0) {
        items[count++] = ss_build_text(b, "%d in a row", run->per_row_needed);
    }
    if (run->bigger > 0.0) {
        items[count++] =
            ss_build_text(b, "studs of %s", ss_words_quantity(b, run->bigger, SS_DIM_SMALL_LENGTH, 3));
    }
    if (count == 0 && run->partial > 0.0 && run->partial < 1.0) {
        items[count++] = ss_build_text(b, "partial action, %s of the force at %s",
                                       ss_words_decimals(b, floor(100.0 * run->partial) / 100.0, 2),
                                       ss_words_quantity(b, run->least, SS_DIM_SMALL_LENGTH, 3));
    }
    if (count == 0 && run->by_strength >= run->least && run->by_fatigue >= run->least) {
        const double pitch = fmin(fmin(run->by_strength, run->by_fatigue), run->most);
        items[count++] =
            ss_build_text(b, "rows %s apart", ss_words_quantity(b, pitch, SS_DIM_SMALL_LENGTH, 3));
    }
    return count == 0
               ? "nothing that is known here"
               : ss_build_text(b, "%s",
                               count == 1 ? items[0] : ss_build_text(b, "%s or %s", items[0], items[1]));
}

/* ---- tables ------------------------------------------------------------------------------------- */

static void put_known(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

static void put_place(ss_sheet *sheet, const ss_connector_line *line, int i) {
    const ss_bridge *const bridge = sheet->builder->results->bridge;
    const ss_connector_segment *const segment = &line->demand.segments[i];
    const ss_connector_part *const part = &line->parts[i];
    ss_sheet_text(sheet, bridge->cars[bridge->lines[line->line].car].name);
    ss_sheet_text(sheet, bridge->lines[line->line].name);
    for (int k = 0; k < 2; k++) {
        ss_sheet_value(sheet, segment->x0);
        ss_sheet_value(sheet, segment->x1);
    }
    ss_sheet_text(sheet, ends[part->from]);
    ss_sheet_text(sheet, ends[part->to]);
    ss_sheet_value(sheet, segment->force);
    if (isnan(part->at)) {
        for (int k = 0; k < 4; k++) ss_sheet_none(sheet);
        return;
    }
    ss_sheet_value(sheet, part->range);
    ss_sheet_value(sheet, part->at);
    ss_sheet_value(sheet, part->I);
    ss_sheet_value(sheet, part->Q);
}

/* What governs, in a word or two. */
static const char *shortly(const ss_connector_run *run) {
    if (run->fits) {
        return strcmp(run->governs, "the largest pitch") == 0 ? "largest" : run->governs;
    }
    return strncmp(run->governs, "strength", 8) == 0  ? "too few"
           : strncmp(run->governs, "fatigue", 7) == 0 ? "fatigue!"
                                                      : "distance!";
}

static void put_run(ss_sheet *sheet, const ss_connector_run *run) {
    ss_sheet_integer(sheet, run->needed);
    ss_sheet_value(sheet, run->by_strength);
    ss_sheet_value(sheet, run->by_fatigue);
    ss_sheet_value(sheet, run->most);
    ss_sheet_value(sheet, run->least);
    ss_sheet_value(sheet, run->pitch);
    ss_sheet_integer(sheet, run->rows);
    ss_sheet_integer(sheet, run->count);
    put_known(sheet, isinf(run->degree) ? (double)NAN : ss_rated_cut(run->degree, 2));
    put_known(sheet, isinf(run->degree) ? (double)NAN : run->degree);
    ss_sheet_flag(sheet, run->fits);
    ss_sheet_text(sheet, shortly(run));
    ss_sheet_text(sheet, run->governs);
    ss_sheet_text(sheet, run->fits ? NULL : would_fit(sheet->builder, run));
}

static void put_line(ss_sheet *sheet, const ss_connector_line *line) {
    for (int i = 0; i < line->demand.segment_count && line->plan.why == NULL; i++) {
        ss_sheet_row(sheet);
        put_place(sheet, line, i);
        put_run(sheet, &line->runs[i]);
    }
}

static ss_sheet new_table(ss_builder *b, ss_audience audience) {
    return ss_build_table(
        b,
        &(ss_table){.key = "slab_connectors",
                    .title = "Connectors between the sections that matter",
                    .note = "Of lines of one set in a car the one with the closest rows. Shear is its range "
                            "with allowance and load factor; need and count are connectors. Pitch is from "
                            "row to row, in whole inches or in steps of 25 mm unless it is given.",
                    .audience = audience,
                    .column_count = SS_COLUMN_COUNT(columns),
                    .columns = columns});
}

static double closest_of(const ss_connector_line *line) {
    double pitch = (double)INFINITY;
    for (int i = 0; i < line->demand.segment_count && line->plan.why == NULL; i++) {
        pitch = fmin(pitch, line->runs[i].pitch);
    }
    return pitch;
}

/* Whether another line of the same set and car stands for this one. */
static bool stood_for(const ss_builder *b, const ss_slab_connectors *all, int index) {
    const ss_line *const lines = b->results->bridge->lines;
    const ss_line *const own = &lines[all->lines[index].line];
    const double pitch = closest_of(&all->lines[index]);
    for (int i = 0; i < all->count; i++) {
        const ss_line *const other = &lines[all->lines[i].line];
        const double its = closest_of(&all->lines[i]);
        const bool before = its < pitch || (its == pitch && i < index);
        if (i != index && other->car == own->car && other->set == own->set && before) {
            return true;
        }
    }
    return false;
}

static const ss_column record_columns[] = {
    {"kind", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"diameter", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS},
    {"height", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS},
    {"length", "", SS_DIM_SMALL_LENGTH, 0, SS_FOR_PROGRAMS},
    {"per_row", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rows", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"count", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"fits", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"strength", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"fatigue_strength", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"adtt", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"infinite", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"load_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"fatigue_failure", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static bool all_fit(const ss_slab_connectors *all) {
    for (int i = 0; i < all->count; i++) {
        if (all->lines[i].plan.why != NULL || !all->lines[i].plan.fits) {
            return false;
        }
    }
    return true;
}

static void put_record(ss_builder *b, const ss_slab_connectors *all) {
    const ss_connectors *const c = &b->results->bridge->slab.connectors;
    const ss_connector_line *const worst = &all->lines[all->worst];
    const bool studs = c->kind == SS_CONNECTOR_STUDS;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "slab_connector_design",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(record_columns),
                                                   .columns = record_columns});
    ss_sheet_row(&sheet);
    ss_sheet_text(&sheet, studs ? "studs" : "channels");
    put_known(&sheet, studs ? c->diameter : (double)NAN);
    put_known(&sheet, studs ? c->height : (double)NAN);
    put_known(&sheet, studs ? (double)NAN : c->length);
    ss_sheet_integer(&sheet, c->per_row);
    ss_sheet_integer(&sheet, all->rows);
    ss_sheet_integer(&sheet, all->total);
    ss_sheet_flag(&sheet, all_fit(all));
    put_known(&sheet, worst->plan.strength);
    put_known(&sheet, worst->plan.Zr);
    ss_sheet_text(&sheet, all->truck);
    put_known(&sheet, all->adtt);
    ss_sheet_flag(&sheet, worst->infinite);
    ss_sheet_value(&sheet, worst->factor);
    ss_sheet_text(&sheet, all->failure);
}

/* ---- sentences ---------------------------------------------------------------------------------- */

static void say_decision(ss_builder *b, const ss_slab_connectors *all) {
    const ss_connectors *const c = &b->results->bridge->slab.connectors;
    const ss_connector_line *const worst = &all->lines[all->worst];
    const char *const where = ss_words_the_member(b, SS_MEMBER_LINE, worst->line);
    if (worst->plan.why != NULL) {
        ss_build_sentence(b, "No layout of the connectors is known on %s: %s.", where, worst->plan.why);
        return;
    }
    const char *const closest = ss_words_quantity(b, closest_of(worst), SS_DIM_SMALL_LENGTH, 3);
    ss_build_sentence(b, "Connectors: %s; %d in all, in %s.", size_of(b, c), all->total,
                      ss_words_count(b, all->rows, "row", "rows"));
    if (worst->plan.fits) {
        ss_build_sentence(b, "Rows are %s apart%s on %s, governed by %s.", closest,
                          c->pitch > 0.0 ? ", as given; nearest to a limit" : " at the closest,", where,
                          worst->plan.governs);
    } else {
        ss_build_sentence(b, "Rows are %s apart%s; on %s %s.", closest,
                          c->pitch > 0.0 ? ", as given" : " at the closest", where, worst->plan.governs);
    }
}

/* What would help where a line falls short the most. */
static void say_help(ss_builder *b, const ss_connector_line *line) {
    int worst = -1;
    for (int i = 0; i < line->demand.segment_count && line->plan.why == NULL; i++) {
        const ss_connector_run *const run = &line->runs[i];
        if (!run->fits && (worst < 0 || run->degree < line->runs[worst].degree)) {
            worst = i;
        }
    }
    if (worst >= 0) {
        ss_build_sentence(b, "From %s to %s on %s would fit: %s.", ss_words_length(b, line->runs[worst].x0),
                          ss_words_length(b, line->runs[worst].x1),
                          ss_words_the_member(b, SS_MEMBER_LINE, line->line),
                          would_fit(b, &line->runs[worst]));
    }
}

static void say_shortfall(ss_builder *b, const ss_slab_connectors *all) {
    const char *names[8];
    int count = 0;
    double least = (double)INFINITY;
    for (int i = 0; i < all->count; i++) {
        if (all->lines[i].plan.why == NULL) {
            least = fmin(least, all->lines[i].plan.degree);
        }
        if ((all->lines[i].plan.why != NULL || !all->lines[i].plan.fits) && count < 8 &&
            !stood_for(b, all, i)) {
            names[count++] = ss_words_the_member(b, SS_MEMBER_LINE, all->lines[i].line);
        }
    }
    if (count == 0) {
        return;
    }
    ss_build_sentence(b, "Connectors fall short on %s%s.", ss_words_join(b, names, count),
                      count == 8 ? " and perhaps others" : "");
    say_help(b, &all->lines[all->worst]);
    if (least < 1.0 && !b->results->bridge->slab.connectors.partial) {
        ss_build_sentence(b,
                          "The ratings take full composite action, and these connectors tie only %s of the "
                          "force where they do least: the ratings are not good until that is put right.",
                          ss_words_decimals(b, ss_rated_cut(least, 2), 2));
    }
}

/* Partial action counts. */
static void say_partial(ss_builder *b, const ss_slab_connectors *all) {
    const ss_connectors *const c = &b->results->bridge->slab.connectors;
    double least = (double)INFINITY;
    for (int i = 0; i < all->count; i++) {
        least = all->lines[i].plan.why == NULL ? fmin(least, all->lines[i].plan.degree) : least;
    }
    if (!c->partial || !(c->pitch > 0.0) || !(least < 1.0)) {
        return;
    }
    ss_build_sentence(
        b,
        "Partial composite action counts, as was asked for: connectors tie %s of the force where they do "
        "least. Bending that sags is rated by AISC 360 I3.2d (from memory), a source for steel buildings; "
        "AASHTO "
        "has none for bridges. First yield and stresses under service load lie between those of the steel "
        "and of "
        "full action by the root of the share. Stiffness, and bending that hogs, are those of full action. "
        "Below, a quarter of the force is what is needed.",
        ss_words_decimals(b, ss_rated_cut(least, 2), 2));
}

static void say_fatigue(ss_builder *b, const ss_slab_connectors *all, ss_points *points) {
    const ss_connector_line *const worst = &all->lines[all->worst];
    if (all->failure != NULL) {
        ss_point(b, points, "Fatigue of the connectors is not looked at: %s.", all->failure);
        return;
    }
    const char *const truck = all->truck;
    const char *const life =
        isnan(all->adtt) ? "how many trucks a day there are is not known, so that they are to last for ever"
        : worst->infinite
            ? ss_build_text(b, "%s trucks a day in a lane are so many that they are to last for ever",
                            ss_words_decimals(b, all->adtt, 0))
            : ss_build_text(b, "for %s years of %s trucks a day in a lane%s",
                            ss_words_decimals(b, SS_CONNECTOR_YEARS, 0), ss_words_decimals(b, all->adtt, 0),
                            all->derived ? ", by rating.adtt" : "");
    ss_point(
        b, points,
        "Fatigue: the %s alone with 15 %% allowance, load factor %s and %s cycles a truck (LRFD Table "
        "6.6.1.2.5-2) where rows are closest; %s. Nothing is taken off for years behind: connectors are new.",
        truck, ss_words_decimals(b, worst->factor, 2), ss_words_decimals(b, worst->each_truck, 1), life);
    ss_point(b, points,
             "Ranges of shear are linear, with all bearings holding and with those alone that carry dead "
             "load, the larger of both; bearings that close or lift in between are left out, and so is what "
             "twist and the slab's own shear between lines do to connectors.");
}

static void say_basis(ss_builder *b, const ss_slab_connectors *all) {
    ss_points points = {.count = 0};
    ss_point(
        b, &points,
        "By AASHTO LRFD 6.10.10 (from memory), whatever the bridge is rated by. Between a section without "
        "moment and the largest sagging moment they tie the smaller of slab and steel; to a bearing that "
        "the line goes on beyond, what slab and bars over it pull besides; where only an overhang follows, "
        "no more of that than elastic shear flow asks for (M Q/I, own rule) under the HS20-44 truck by "
        "Strength "
        "I in one lane and dead load on the slab.");
    ss_point(b, &points,
             "Bearings that carry no dead load do not count as such sections: beyond the last that does, a "
             "line is taken as an overhang.");
    say_fatigue(b, all, &points);
    ss_point(b, &points,
             "Uplift of the slab, welding on old steel and its quality, and studs through a plate that stays "
             "below are not looked at.");
    ss_build_points(b, &points);
}

static void say_lines(ss_builder *b) {
    const ss_bridge *const bridge = b->results->bridge;
    for (int i = 0; i < bridge->line_count; i++) {
        const char *const why = bridge->slab.lines[i].why;
        if (!bridge->slab.lines[i].composite && bridge->lines[i].role != SS_ROLE_STRINGER && why != NULL &&
            strcmp(why, "not asked for") != 0) {
            ss_build_sentence(b, "The slab does not act with %s: %s.",
                              ss_words_the_member(b, SS_MEMBER_LINE, i), why);
        }
    }
}

void ss_part_slab_connectors(ss_builder *b) {
    const ss_slab_connectors *const all = b->results->slab_connectors;
    if (all == NULL) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "What ties the slab to the cars");
    say_lines(b);
    if (all->count == 0) {
        ss_build_sentence(b, "No line acts with the slab: there are no connectors to lay out.");
        return;
    }
    say_decision(b, all);
    say_shortfall(b, all);
    say_partial(b, all);
    put_record(b, all);
    ss_sheet people = new_table(b, SS_FOR_PEOPLE);
    for (int i = 0; i < all->count; i++) {
        if (!stood_for(b, all, i)) {
            put_line(&people, &all->lines[i]);
        }
    }
    ss_sheet programs = new_table(b, SS_FOR_PROGRAMS);
    for (int i = 0; i < all->count; i++) put_line(&programs, &all->lines[i]);
    ss_slab_missed(b, SS_SLAB_PART_CONNECTORS);
    say_basis(b, all);
    ss_working working = {.count = 0};
    ss_slab_connectors_work(&all->lines[all->worst], &working);
    ss_rated_steps(b,
                   ss_build_text(b, "Connectors on %s, step by step",
                                 ss_words_the_member(b, SS_MEMBER_LINE, all->lines[all->worst].line)),
                   NULL, &working);
}
