/* report_compare_supports.c - bearings and joints of all variants, one under the other. */
#include "report/report_compare.h"

#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_words.h"

/* ---- bearings, for people ---------------------------------------------------------------------------- */

static const ss_column set_columns[] = {
    {"bearing", "bearing", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"variant", "variant", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"dead", "dead load", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_PEOPLE},
    {"most", "most", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_PEOPLE},
    {"change", "%", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"mark", "", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"least", "least", SS_DIM_FORCE, SS_DIGITS_OF_LARGEST(4), SS_FOR_PEOPLE},
    {"remark", "", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
};

/* One set of bearings in one variant. */
typedef struct set_sum {
    int points, clear, lifts, pulled;
    double dead, most, least; /* of any point */
} set_sum;

static set_sum sum_of(const ss_comparison *all, int variant, const char *bearing) {
    set_sum sum = {.dead = (double)NAN, .most = (double)NAN, .least = (double)NAN};
    for (int i = 0; i < all->reaction_count; i++) {
        const ss_compare_reaction *const r = &all->reactions[i];
        if (r->variant != variant || strcmp(r->bearing, bearing) != 0) {
            continue;
        }
        sum.points++;
        sum.clear += r->clear;
        sum.lifts += r->lifts;
        sum.pulled += r->pulled;
        sum.dead = fmax(sum.dead, r->dead);
        sum.most = fmax(sum.most, r->most);
        sum.least = fmin(sum.least, r->least);
    }
    return sum;
}

static const char *remark_of(ss_builder *b, const set_sum *sum) {
    const int count = sum->pulled > 0 ? sum->pulled : sum->lifts > 0 ? sum->lifts : sum->clear;
    const char *what = sum->pulled > 0 ? "PULLED UP" : sum->lifts > 0 ? "lifts off" : "idle without truck";
    if (count == 0) {
        return NULL;
    }
    return count == sum->points ? what : ss_build_text(b, "%s, %d of %d", what, count, sum->points);
}

static void put_set(ss_builder *b, ss_sheet *sheet, const ss_comparison *all, const char *bearing,
                    double *sizes) {
    const int base = ss_comparison_base(all);
    const set_sum first = sum_of(all, base, bearing);
    for (int i = 0; i < all->variant_count; i++) {
        sizes[i] = all->variants[i].tips ? (double)NAN : sum_of(all, i, bearing).most;
    }
    for (int i = 0; i < all->variant_count; i++) {
        const set_sum sum = sum_of(all, i, bearing);
        const double change = 100.0 * ss_comparison_change(sum.most, first.most);
        if (sum.points == 0) {
            continue;
        }
        ss_sheet_row(sheet);
        ss_sheet_text(sheet, bearing);
        ss_sheet_text(sheet, all->variants[i].name);
        ss_sheet_value(sheet, sum.dead);
        ss_sheet_value(sheet, sum.most);
        if (i == base || isnan(change) || all->variants[i].tips || all->variants[base].tips) {
            ss_sheet_none(sheet);
        } else {
            ss_sheet_value(sheet, fabs(change) < 0.05 ? 0.0 : change);
        }
        ss_sheet_text(sheet, ss_comparison_mark_words(all, i, SS_ASKED_TOTAL, sizes));
        ss_sheet_value(sheet, sum.least);
        ss_sheet_text(sheet, remark_of(b, &sum));
    }
}

static void add_sets(ss_builder *b, const ss_comparison *all) {
    double *const sizes = ss_arena_alloc(&b->report->arena, (size_t)all->variant_count + 1, sizeof *sizes);
    if (sizes == NULL) {
        b->failed = true;
        return;
    }
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){
            .key = "bearings_people",
            .title = "What the bearings carry",
            .note = "Of the hardest loaded point of each set: dead load alone, and the most with a truck; "
                    "least is "
                    "that of the least loaded point. A bearing that only pushes lifts off rather than pull.",
            .audience = SS_FOR_PEOPLE,
            .column_count = SS_COLUMN_COUNT(set_columns),
            .columns = set_columns});
    for (int i = 0; i < all->reaction_count; i++) {
        bool known = false;
        for (int k = 0; k < i && !known; k++) {
            known = strcmp(all->reactions[k].bearing, all->reactions[i].bearing) == 0;
        }
        if (!known) {
            put_set(b, &sheet, all, all->reactions[i].bearing, sizes);
        }
    }
}

/* ---- bearings, for programs -------------------------------------------------------------------------- */

static const ss_column reaction_columns[] = {
    {"variant", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"bearing", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"car", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"x", "", SS_DIM_LENGTH, 0, SS_FOR_PROGRAMS},
    {"pushes_only", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"dead", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"least", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"most", "", SS_DIM_FORCE, 0, SS_FOR_PROGRAMS},
    {"clear_under_dead_load", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"lifts_off", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"pulled", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void add_reactions(ss_builder *b, const ss_comparison *all) {
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "reactions",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .column_count = SS_COLUMN_COUNT(reaction_columns),
                                                   .columns = reaction_columns});
    for (int i = 0; i < all->reaction_count; i++) {
        const ss_compare_reaction *const r = &all->reactions[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, all->variants[r->variant].name);
        ss_sheet_text(&sheet, r->bearing);
        ss_sheet_text(&sheet, r->car);
        ss_sheet_text(&sheet, r->line);
        ss_sheet_value(&sheet, r->x);
        ss_sheet_flag(&sheet, r->contact);
        ss_sheet_value(&sheet, r->dead);
        ss_sheet_value(&sheet, r->least);
        ss_sheet_value(&sheet, r->most);
        ss_sheet_flag(&sheet, r->clear);
        ss_sheet_flag(&sheet, r->lifts);
        ss_sheet_flag(&sheet, r->pulled);
    }
}

/* ---- joints ------------------------------------------------------------------------------------------ */

static const ss_column joint_columns[] = {
    {"joint", "joint", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"effect", "in", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"variant", "variant", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"demand", "carries", SS_DIM_NUMBER, 4, SS_FOR_ALL},
    {"capacity", "can carry", SS_DIM_NUMBER, 4, SS_FOR_ALL},
    {"used", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"percent", "used, %", SS_DIM_NUMBER, -1, SS_FOR_PEOPLE},
    {"mark", "", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
    {"truck", "truck", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static bool same_joint(const ss_compare_joint *a, const ss_compare_joint *b) {
    return strcmp(a->joint, b->joint) == 0 && strcmp(a->effect, b->effect) == 0;
}

static void put_joint(ss_sheet *sheet, const ss_comparison *all, const ss_compare_joint *j,
                      const double *sizes) {
    const double used = j->capacity > 0.0 ? j->demand / j->capacity : (double)NAN;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, j->joint);
    ss_sheet_text(sheet, j->effect);
    ss_sheet_text(sheet, all->variants[j->variant].name);
    ss_sheet_quantity(sheet, j->demand, j->dimension);
    if (j->capacity > 0.0) {
        ss_sheet_quantity(sheet, j->capacity, j->dimension);
        ss_sheet_value(sheet, used);
        ss_sheet_value(sheet, 100.0 * used);
    } else {
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
        ss_sheet_none(sheet);
    }
    ss_sheet_text(sheet, ss_comparison_mark_words(all, j->variant, SS_ASKED_TOTAL, sizes));
    ss_sheet_value(sheet, j->x);
    ss_sheet_text(sheet, j->truck);
}

static void add_joints(ss_builder *b, const ss_comparison *all) {
    double *const sizes = ss_arena_alloc(&b->report->arena, (size_t)all->variant_count + 1, sizeof *sizes);
    if (sizes == NULL) {
        b->failed = true;
        return;
    }
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){
            .key = "joints",
            .title = "What the joints carry",
            .note =
                "Dead load and one truck together, without load factors; what a joint can carry is its "
                "factored capacity. Per length it peaks at the ends of a stiff joint, the more so the closer "
                "the stations are.",
            .audience = SS_FOR_ALL,
            .column_count = SS_COLUMN_COUNT(joint_columns),
            .columns = joint_columns});
    for (int i = 0; i < all->joint_count; i++) {
        bool known = false;
        for (int k = 0; k < i && !known; k++) {
            known = same_joint(&all->joints[k], &all->joints[i]);
        }
        for (int v = 0; v < all->variant_count; v++) {
            sizes[v] = (double)NAN;
        }
        for (int k = i; k < all->joint_count && !known; k++) {
            if (same_joint(&all->joints[k], &all->joints[i]) &&
                all->joints[k].dimension == all->joints[i].dimension &&
                !all->variants[all->joints[k].variant].tips) {
                sizes[all->joints[k].variant] = all->joints[k].demand;
            }
        }
        for (int k = i; k < all->joint_count && !known; k++) {
            if (same_joint(&all->joints[k], &all->joints[i])) {
                put_joint(&sheet, all, &all->joints[k], sizes);
            }
        }
    }
}

void ss_comparison_supports(ss_builder *b, const ss_comparison *all) {
    add_reactions(b, all);
    if (all->reaction_count > 0) {
        ss_study_heading(b, "Comparison", "Bearings and joints");
        add_sets(b, all);
    }
    add_joints(b, all);
}
