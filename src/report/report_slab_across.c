/* report_slab_across.c - the slab between its lines, over gaps and at its edges: what wheels ask of it, and
 * what it carries. */
#include <math.h>

#include "report/report_ratings.h"
#include "report/report_words.h"

static const ss_column columns[] = {
    {"kind", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"where", "where", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"alike", "alike", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"span", "span", SS_DIM_LENGTH, -2, SS_FOR_PEOPLE},
    {"span", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"reach", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"abreast", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"wheel", "wheel", SS_DIM_FORCE, 3, SS_FOR_ALL},
    {"strip", "on a strip of", SS_DIM_SMALL_LENGTH, 3, SS_FOR_ALL},
    {"sagging", "sagging", SS_DIM_MOMENT_PER_LENGTH, 3, SS_FOR_ALL},
    {"hogging", "hogging", SS_DIM_MOMENT_PER_LENGTH, 3, SS_FOR_ALL},
    {"shear", "shear", SS_DIM_LINE_LOAD, 3, SS_FOR_ALL},
    {"dead_sagging", "", SS_DIM_MOMENT_PER_LENGTH, 0, SS_FOR_PROGRAMS},
    {"dead_hogging", "", SS_DIM_MOMENT_PER_LENGTH, 0, SS_FOR_PROGRAMS},
    {"dead_shear", "", SS_DIM_LINE_LOAD, 0, SS_FOR_PROGRAMS},
    {"use", "use", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
    {"use", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"governs", "governed by", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"not_checked", "not looked at, because", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static const char *const kinds[] = {"continuous", "simple", "hinged", "overhang"};

static const char *where_of(ss_builder *b, const ss_slab_strip *s) {
    const ss_bridge *const bridge = b->results->bridge;
    if (s->from < 0 || s->to < 0) {
        const bool gap = s->from == -2 || s->to == -2;
        return ss_build_text(b, "%s to %s",
                             ss_words_member(b, SS_MEMBER_LINE, s->from >= 0 ? s->from : s->to),
                             gap ? "the gap" : "the edge");
    }
    const bool over = bridge->lines[s->from].car != bridge->lines[s->to].car;
    return ss_build_text(b, "%s%s to %s", over ? "over the gap, " : "",
                         over ? ss_words_member(b, SS_MEMBER_LINE, s->from) : bridge->lines[s->from].name,
                         ss_words_member(b, SS_MEMBER_LINE, s->to));
}

/* Use rounded up, so that what is missed shows. */
static double use_shown(double use) {
    return isinf(use) ? use : ceil(use * 100.0 * (1.0 - 1e-9)) / 100.0;
}

static void put_loads(ss_sheet *sheet, const ss_slab_strip *s) {
    const bool wheel = s->loading != NULL;
    ss_sheet_text(sheet, wheel ? s->loading->name : NULL);
    ss_sheet_flag(sheet, s->abreast);
    if (wheel) {
        ss_sheet_value(sheet, s->wheel);
        ss_sheet_value(sheet, s->strip);
    } else {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
    }
    ss_sheet_value(sheet, s->sagging);
    ss_sheet_value(sheet, s->hogging);
    ss_sheet_value(sheet, s->shear);
    ss_sheet_value(sheet, s->sagging_dead);
    ss_sheet_value(sheet, s->hogging_dead);
    ss_sheet_value(sheet, s->shear_dead);
    ss_sheet_value(sheet, use_shown(s->use));
    ss_sheet_value(sheet, s->use);
    ss_sheet_text(sheet, s->governs);
}

static void put_strip(ss_sheet *sheet, const ss_slab_strip *s) {
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, kinds[s->kind]);
    ss_sheet_text(sheet, where_of(sheet->builder, s));
    ss_sheet_integer(sheet, s->alike);
    ss_sheet_value(sheet, s->span);
    ss_sheet_value(sheet, s->span);
    if (s->kind == SS_SLAB_SPAN_OVERHANG) {
        ss_sheet_value(sheet, s->reach);
    } else {
        ss_sheet_none(sheet);
    }
    if (s->why == NULL) {
        put_loads(sheet, s);
        return;
    }
    for (int i = 6; i < SS_COLUMN_COUNT(columns) - 1; i++) ss_sheet_none(sheet);
    ss_sheet_text(sheet, s->why);
}

static void put_strips(ss_builder *b, const ss_slab_across *all) {
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = "slab_across",
                       .title = "The slab across, span by span",
                       .note =
                           "Alike: how many such spans there are. Moments and shear of a width, factored, "
                           "with dead load; each is the most of all wheels. Truck, wheel and strip are those "
                           "that govern. Use is moment over strength, rounded up.",
                       .audience = SS_FOR_ALL,
                       .column_count = SS_COLUMN_COUNT(columns),
                       .columns = columns});
    for (int i = 0; i < all->count; i++) put_strip(&sheet, &all->strips[i]);
}

static const ss_column record_columns[] = {
    {"factors", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dc_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dw_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"live_factor", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"allowance", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"presence", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dc", "", SS_DIM_AREA_LOAD, 0, SS_FOR_PROGRAMS},
    {"dw", "", SS_DIM_AREA_LOAD, 0, SS_FOR_PROGRAMS},
    {"sagging_strength", "", SS_DIM_MOMENT_PER_LENGTH, 0, SS_FOR_PROGRAMS},
    {"hogging_strength", "", SS_DIM_MOMENT_PER_LENGTH, 0, SS_FOR_PROGRAMS},
    {"shear_strength", "", SS_DIM_LINE_LOAD, 0, SS_FOR_PROGRAMS},
    {"wheel_truck", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"wheel", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"wheel_factored", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"punching_strength", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"global_sagging", "", SS_DIM_MOMENT_PER_LENGTH, 0, SS_FOR_PROGRAMS},
    {"global_hogging", "", SS_DIM_MOMENT_PER_LENGTH, 0, SS_FOR_PROGRAMS},
};

static void put_known(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

static void put_record(ss_builder *b, const ss_slab_across *all) {
    const ss_slab_factors *const f = &all->factors;
    const bool wheel = all->wheel_vehicle >= 0;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "slab_across_design",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(record_columns),
                                                   .columns = record_columns});
    ss_sheet_row(&sheet);
    ss_sheet_text(&sheet, f->name);
    ss_sheet_value(&sheet, f->dc);
    ss_sheet_value(&sheet, f->dw);
    ss_sheet_value(&sheet, f->live);
    ss_sheet_value(&sheet, f->allowance);
    ss_sheet_value(&sheet, f->presence[0]);
    ss_sheet_value(&sheet, all->dc);
    ss_sheet_value(&sheet, all->dw);
    put_known(&sheet, all->sagging);
    put_known(&sheet, all->hogging);
    put_known(&sheet, all->shear);
    ss_sheet_text(&sheet, wheel ? b->results->bridge->vehicles[all->wheel_vehicle].name : NULL);
    put_known(&sheet, wheel ? all->wheel : (double)NAN);
    put_known(&sheet, wheel ? all->wheel_factored : (double)NAN);
    put_known(&sheet, all->punching);
    put_known(&sheet, all->global[1]);
    put_known(&sheet, all->global[0]);
}

/* ---- sentences ---------------------------------------------------------------------------------- */

static void say_decision(ss_builder *b, const ss_slab_across *all) {
    if (all->worst < 0) {
        ss_build_sentence(b, "No span of the slab could be looked at.");
        return;
    }
    const ss_slab_strip *const s = &all->strips[all->worst];
    const char *const truck =
        s->loading == NULL ? "dead load alone"
                           : ss_build_text(b, "a wheel of %s of %s",
                                           ss_words_quantity(b, s->wheel, SS_DIM_FORCE, 3), s->loading->name);
    const bool sags = s->governs[0] == 's';
    ss_build_sentence(
        b, "The slab %s across: most used is %s, %s, under %s: %s of %s (%s).",
        s->use <= 1.0 + 1e-9 ? "is strong enough" : "is too weak", s->governs, where_of(b, s), truck,
        ss_words_quantity(b, sags ? s->sagging : s->hogging, SS_DIM_MOMENT_PER_LENGTH, 3),
        ss_words_quantity(b, sags ? all->sagging : all->hogging, SS_DIM_MOMENT_PER_LENGTH, 3),
        isinf(s->use) ? "there are no bars to pull" : ss_words_decimals(b, use_shown(s->use), 2));
}

static void say_global(ss_builder *b, const ss_slab_across *all, ss_points *points) {
    if (isnan(all->global[0])) {
        ss_point(b, points,
                 "Bending across that comes of lines sinking unequally adds to this, and is not known here.");
        return;
    }
    ss_point(
        b, points,
        "Bending across that comes of lines sinking unequally is rated as that of the strips of slab, "
        "without a wheel on them: at most %s sagging and %s hogging a width by the rating's factors. Both "
        "add: the sum check takes the largest of each as if they met.",
        ss_words_quantity(b, all->global[1], SS_DIM_MOMENT_PER_LENGTH, 3),
        ss_words_quantity(b, all->global[0], SS_DIM_MOMENT_PER_LENGTH, 3));
}

static const char *over_gap(const ss_bridge *bridge) {
    switch (bridge->slab.joint) {
    case SS_SLAB_JOINT_WHOLE: return "Over a gap between cars it runs through, as a span like the others.";
    case SS_SLAB_JOINT_CRACKED:
        return "Over a gap between cars it runs through as a span like the others: cracks take stiffness "
               "from "
               "it, and its bars still carry.";
    case SS_SLAB_JOINT_HINGED:
        return "Over a gap between cars two cantilevers meet in a hinge in its middle.";
    case SS_SLAB_JOINT_OPEN: break;
    }
    return "At a gap between cars it ends at both cars' edges, and a wheel stands on one of them.";
}

static void say_basis(ss_builder *b, const ss_slab_across *all) {
    const ss_slab_factors *const f = &all->factors;
    const ss_bridge *const bridge = b->results->bridge;
    ss_points points = {.count = 0};
    ss_point(
        b, &points,
        "%s: dead load times %s and %s (DW), wheels of every rated vehicle, whatever its class, times %s, "
        "%s %% allowance, presence %s. Dead load is %s with what comes on it later%s.",
        f->name, ss_words_decimals(b, f->dc, 2), ss_words_decimals(b, f->dw, 2),
        ss_words_decimals(b, f->live, 2), ss_words_decimals(b, 100.0 * f->allowance, 0),
        ss_words_decimals(b, f->presence[0], 2), ss_words_quantity(b, all->dc + all->dw, SS_DIM_AREA_LOAD, 3),
        ", at an edge also line loads beyond the last line");
    ss_point(
        b, &points,
        "Every line carries the slab, also those that do not act with it; all of them stand still. Spans "
        "are taken as one of several equal ones. Strips by AASHTO LRFD 4.6.2.1.3, moments from line to line. "
        "A vehicle that hits a barrier is not looked at.");
    ss_point(
        b, &points,
        "Shear of the strips is printed and not asked for: slabs that keep their bending by strips count as "
        "good in shear (AASHTO Standard Specifications 3.24.4, LRFD C4.6.2.1.6, from memory). A width "
        "without stirrups holds %s. Punching is asked for.",
        ss_words_quantity(b, all->shear, SS_DIM_LINE_LOAD, 3));
    if (bridge->car_count > 1) {
        ss_point(b, &points, "%s", over_gap(bridge));
    }
    say_global(b, all, &points);
    ss_point(
        b, &points,
        "Cracks are held to the width of exposure class 1 (gamma 1.00). Ends of the slab, where strips are "
        "half as wide, need an edge beam or a support, and are not looked at.");
    ss_build_points(b, &points);
}

void ss_part_slab_across(ss_builder *b) {
    const ss_slab_across *const all = b->results->slab_across;
    if (all == NULL || all->count == 0) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "The slab between its lines");
    say_decision(b, all);
    put_record(b, all);
    put_strips(b, all);
    if (all->wheel_vehicle >= 0 && all->punching_why == NULL) {
        ss_build_sentence(
            b, "Punching: the heaviest wheel, of %s, comes to %s with its factors; the slab holds %s.",
            b->results->bridge->vehicles[all->wheel_vehicle].name,
            ss_words_quantity(b, all->wheel_factored, SS_DIM_FORCE, 3),
            ss_words_quantity(b, all->punching, SS_DIM_FORCE, 3));
    }
    ss_slab_missed(b, SS_SLAB_PART_ACROSS);
    say_basis(b, all);
    if (all->worst >= 0) {
        ss_working working = {.count = 0};
        ss_slab_across_work(b->results->bridge, all, &all->strips[all->worst], &working);
        ss_rated_steps(b,
                       ss_build_text(b, "The slab, %s, step by step", where_of(b, &all->strips[all->worst])),
                       "Without load factors, allowance and presence.", &working);
    }
}
