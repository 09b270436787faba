/* report_compare_numbers.c - the numbers of all variants: a row for each, a column for each girder, line or
 * truck.
 */
#include "report/report_compare.h"

#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

int ss_comparison_base(const ss_comparison *all) {
    for (int i = 0; i < all->variant_count; i++) {
        if (all->variants[i].outcome == SS_COMPARE_DONE) {
            return i;
        }
    }
    return -1;
}

static bool same_text(const char *a, const char *b) {
    return a == b || (a != NULL && b != NULL && strcmp(a, b) == 0);
}

bool ss_comparison_alike(const ss_compare_value *a, const ss_compare_value *b, ss_compare_by by) {
    switch (by) {
    case SS_BY_GIRDER: return same_text(a->car, b->car) && same_text(a->line, b->line);
    case SS_BY_TRUCK: return same_text(a->truck, b->truck);
    case SS_BY_ALL: break;
    }
    return true;
}

const ss_compare_value *ss_comparison_governing(const ss_comparison *all, int variant,
                                                ss_compare_question question, const ss_compare_value *like,
                                                ss_compare_by by) {
    const ss_compare_value *best = NULL;
    for (int i = 0; i < all->value_count; i++) {
        const ss_compare_value *const one = &all->values[i];
        if (one->variant != variant || one->question != question ||
            (like != NULL && !ss_comparison_alike(one, like, by))) {
            continue;
        }
        const bool more = best == NULL ||
                          (question == SS_ASKED_FACTOR ? ss_rated_less(one->value, best->value)
                                                       : fabs(one->value) > fabs(best->value) * (1.0 + 1e-9));
        best = more ? one : best;
    }
    return best;
}

bool ss_comparison_counts(const ss_comparison *all, int variant, ss_compare_question question) {
    return question == SS_ASKED_FACTOR || !all->variants[variant].tips;
}

bool ss_comparison_any_tips(const ss_comparison *all) {
    bool any = false;
    for (int i = 0; i < all->variant_count; i++) {
        any = any || all->variants[i].tips;
    }
    return any;
}

double ss_comparison_change(double value, double base) {
    const double change = fabs(base) > 0.0 ? (fabs(value) - fabs(base)) / fabs(base) : (double)NAN;
    return isfinite(change) ? change : (double)NAN;
}

ss_compare_mark ss_comparison_mark(const double *sizes, int count, int which, bool most_is_best) {
    double least = (double)INFINITY;
    double most = -(double)INFINITY;
    for (int i = 0; i < count; i++) {
        if (!isnan(sizes[i])) {
            least = fmin(least, sizes[i]);
            most = fmax(most, sizes[i]);
        }
    }
    /* One that is not finite is a factor without limit: apart from all that have one. */
    const bool same = isfinite(most) ? most - least <= SS_COMPARE_SAME * most : !(most > least);
    if (isnan(sizes[which]) || same) {
        return SS_MARK_NONE;
    }
    const double room = isfinite(most) ? SS_COMPARE_SAME * most : 0.0;
    if (sizes[which] >= most - room) {
        return most_is_best ? SS_MARK_BEST : SS_MARK_WORST;
    }
    if (sizes[which] <= least + (isfinite(most) ? SS_COMPARE_SAME * least : 0.0)) {
        return most_is_best ? SS_MARK_WORST : SS_MARK_BEST;
    }
    return SS_MARK_NONE;
}

const char *ss_comparison_mark_words(const ss_comparison *all, int variant, ss_compare_question question,
                                     const double *sizes) {
    if (!ss_comparison_counts(all, variant, question)) {
        return "tips";
    }
    const ss_compare_mark mark =
        ss_comparison_mark(sizes, all->variant_count, variant, question == SS_ASKED_FACTOR);
    return mark == SS_MARK_BEST ? "best" : mark == SS_MARK_WORST ? "worst" : NULL;
}

/* Groups side by side: with changes and marks three fit on a page, without them more. */
enum { WIDE = 3, NARROW = 8 };

typedef struct question_table {
    ss_compare_question question;
    ss_compare_by by;
    const char *key, *title, *note;
    ss_dimension dimension;
    int digits;
    bool change;  /* with change and mark */
    bool percent; /* shares */
} question_table;

static const question_table tables[] = {
    {SS_ASKED_FACTOR, SS_BY_TRUCK, "factors_people", "Rating factors, truck by truck",
     "Cut off, not rounded; below 1.00 a truck is too heavy by that check.", SS_DIM_NUMBER, -2, true, false},
    {SS_ASKED_MOMENT, SS_BY_GIRDER, "moments_people", "Bending of the main girders under a truck",
     "The largest that any truck adds; negative is hogging, which is compared by its size.", SS_DIM_MOMENT,
     SS_DIGITS_OF_LARGEST(4), true, false},
    {SS_ASKED_TOTAL, SS_BY_GIRDER, "totals_people", "The same with dead load",
     "Dead load and one truck together, unfactored.", SS_DIM_MOMENT, SS_DIGITS_OF_LARGEST(4), true, false},
    {SS_ASKED_MOMENT, SS_BY_TRUCK, "truck_moments_people",
     "Bending of the hardest bent main girder, truck by truck", NULL, SS_DIM_MOMENT, SS_DIGITS_OF_LARGEST(4),
     true, false},
    {SS_ASKED_DEFLECTION, SS_BY_GIRDER, "deflections_people", "Deflection of the main girders under a truck",
     "The largest that any truck adds, downwards.", SS_DIM_SMALL_LENGTH, SS_DIGITS_OF_LARGEST(3), true,
     false},
    {SS_ASKED_RISE, SS_BY_GIRDER, "rises_people", "How far a truck lifts the main girders",
     "The most that any place of them rises: an end beyond a support, or the far side of a rolling car.",
     SS_DIM_SMALL_LENGTH, SS_DIGITS_OF_LARGEST(3), false, false},
    {SS_ASKED_CAR_SHARE, SS_BY_GIRDER, "car_shares_people", "Sharing between the cars, percent",
     "What each car carries of a truck's bending by itself where it carries most. The more even, the less.",
     SS_DIM_NUMBER, -1, false, true},
    {SS_ASKED_LINE_SHARE, SS_BY_GIRDER, "line_shares_people", "Sharing between the lines, percent",
     "What each line carries of it there.", SS_DIM_NUMBER, -1, false, true},
};

/* One value for each group of a question, the first of its kind. */
static int list_groups(const ss_comparison *all, const question_table *t, const ss_compare_value **groups,
                       int most) {
    int count = 0;
    for (int i = 0; i < all->value_count; i++) {
        const ss_compare_value *const one = &all->values[i];
        bool known = one->question != t->question;
        for (int k = 0; k < count && !known; k++) {
            known = ss_comparison_alike(one, groups[k], t->by);
        }
        if (!known && count < most) {
            groups[count++] = one;
        }
    }
    return count;
}

/* A girder goes by its car where each car has only one. */
static const char *group_title(ss_builder *b, const ss_compare_value *group, const question_table *t,
                               const ss_compare_value *const *groups, int count) {
    int girders = 0;
    if (t->by == SS_BY_TRUCK) {
        return group->truck;
    }
    for (int i = 0; i < count; i++) {
        girders += same_text(groups[i]->car, group->car);
    }
    return girders < 2 || group->line == NULL ? group->car
                                              : ss_build_text(b, "%s, %s", group->car, group->line);
}

/* A change in percent, free of "-0.0". */
static void put_change(ss_sheet *sheet, double change) {
    const double percent = 100.0 * change;
    if (isnan(percent)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, fabs(percent) < 0.05 ? 0.0 : percent);
    }
}

static void put_group(ss_sheet *sheet, const ss_comparison *all, const question_table *t,
                      const ss_compare_value *group, int variant, double *sizes) {
    const int base = ss_comparison_base(all);
    const ss_compare_value *const own = ss_comparison_governing(all, variant, t->question, group, t->by);
    const ss_compare_value *const first = ss_comparison_governing(all, base, t->question, group, t->by);
    for (int i = 0; i < all->variant_count; i++) {
        const ss_compare_value *const one = ss_comparison_governing(all, i, t->question, group, t->by);
        sizes[i] = one == NULL || !ss_comparison_counts(all, i, t->question) ? (double)NAN : fabs(one->value);
    }
    if (own == NULL) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, t->percent                       ? 100.0 * own->value
                              : t->question == SS_ASKED_FACTOR ? ss_rated_cut(own->value, 2)
                                                               : own->value);
    }
    if (!t->change) {
        return;
    }
    const bool told = own != NULL && first != NULL && variant != base &&
                      ss_comparison_counts(all, variant, t->question) &&
                      ss_comparison_counts(all, base, t->question);
    put_change(sheet, told ? ss_comparison_change(own->value, first->value) : (double)NAN);
    ss_sheet_text(sheet, ss_comparison_mark_words(all, variant, t->question, sizes));
}

static void add_part(ss_builder *b, const ss_comparison *all, const question_table *t,
                     const ss_compare_value *const *groups, int range[3]) {
    const int each = t->change ? 3 : 1;
    const bool tips = !t->change && ss_comparison_any_tips(all); /* a last column says in which */
    const int columns_count = 1 + each * (range[1] - range[0]) + tips;
    ss_column *const columns = ss_arena_alloc(&b->report->arena, (size_t)columns_count, sizeof *columns);
    double *const sizes = ss_arena_alloc(&b->report->arena, (size_t)all->variant_count, sizeof *sizes);
    if (columns == NULL || sizes == NULL) {
        b->failed = true;
        return;
    }
    int c = 0;
    columns[c++] = (ss_column){.key = "variant", .title = "variant"};
    for (int g = range[0]; g < range[1]; g++) {
        columns[c++] = (ss_column){.key = "value",
                                   .title = group_title(b, groups[g], t, groups, range[2]),
                                   .dimension = t->dimension,
                                   .digits = t->digits};
        if (t->change) {
            columns[c++] = (ss_column){.key = "change", .title = "%", .digits = -1};
            columns[c++] = (ss_column){.key = "mark", .title = ""};
        }
    }
    if (tips) {
        columns[c++] = (ss_column){.key = "mark", .title = ""};
    }
    const bool last = range[1] == range[2];
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){.key = t->key,
                       .title = range[0] == 0 ? t->title : ss_build_text(b, "%s, continued", t->title),
                       .note = last ? t->note : NULL,
                       .audience = SS_FOR_PEOPLE,
                       .column_count = columns_count,
                       .columns = columns});
    for (int i = 0; i < all->variant_count; i++) {
        if (all->variants[i].outcome != SS_COMPARE_DONE) {
            continue;
        }
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, all->variants[i].name);
        for (int g = range[0]; g < range[1]; g++) {
            put_group(&sheet, all, t, groups[g], i, sizes);
        }
        if (tips) {
            ss_sheet_text(&sheet, all->variants[i].tips ? "tips" : NULL);
        }
    }
}

/* One truck is in the table before; one car carries all of a truck, and one line all of its car. */
static bool tells_nothing(const ss_compare_value *const *groups, int count, const question_table *t) {
    bool single = true;
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < i; k++) {
            single = single && !same_text(groups[i]->car, groups[k]->car);
        }
    }
    switch (t->question) {
    case SS_ASKED_FACTOR: return false;
    case SS_ASKED_CAR_SHARE: return count == 1;
    case SS_ASKED_LINE_SHARE: return single;
    default: return count == 1 && t->by == SS_BY_TRUCK;
    }
}

static void add_people(ss_builder *b, const ss_comparison *all, const question_table *t) {
    const int most = all->value_count > 0 ? all->value_count : 1;
    const ss_compare_value **const groups = ss_arena_alloc(&b->report->arena, (size_t)most, sizeof *groups);
    if (groups == NULL) {
        b->failed = true;
        return;
    }
    const int count = list_groups(all, t, groups, most);
    const int step = t->change ? WIDE : NARROW;
    if (tells_nothing(groups, count, t)) {
        return;
    }
    for (int from = 0; from < count; from += step) {
        int range[3] = {from, from + step < count ? from + step : count, count};
        add_part(b, all, t, groups, range);
    }
}

void ss_comparison_numbers(ss_builder *b, const ss_comparison *all) {
    for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
        if (tables[i].question != SS_ASKED_FACTOR) {
            add_people(b, all, &tables[i]);
        }
    }
}

void ss_comparison_factors(ss_builder *b, const ss_comparison *all) {
    add_people(b, all, &tables[0]);
}
