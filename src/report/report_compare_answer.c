/* report_compare_answer.c - the first lines of a comparison: which variant is best and worst for what. */
#include "report/report_compare.h"

#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_words.h"

/* Names in one sentence; more are counted. */
enum { NAMED = 4 };

static const char *quoted(ss_builder *b, const char *name) {
    return ss_build_text(b, "\"%s\"", name);
}

/* "\"a\", \"b\" and 3 more", of the flagged variants. */
static const char *name_those(ss_builder *b, const ss_comparison *all, const bool *flags) {
    const char *parts[NAMED + 1];
    int count = 0;
    int more = 0;
    int left = 0;
    for (int i = 0; i < all->variant_count; i++) {
        left += all->variants[i].outcome == SS_COMPARE_DONE && !flags[i];
    }
    if (left == 0) {
        return "all of them";
    }
    for (int i = 0; i < all->variant_count; i++) {
        if (flags[i] && count < NAMED) {
            parts[count++] = quoted(b, all->variants[i].name);
        } else if (flags[i]) {
            more++;
        }
    }
    if (more > 0) {
        parts[count++] = ss_build_text(b, "%d more", more);
    }
    return ss_words_join(b, parts, count);
}

static bool *flags_of(ss_builder *b, const ss_comparison *all) {
    bool *const flags = ss_arena_alloc(&b->report->arena, (size_t)all->variant_count + 1, sizeof *flags);
    b->failed = b->failed || flags == NULL;
    return flags;
}

/* ---- one question ------------------------------------------------------------------------------------ */

typedef struct question_words {
    ss_compare_question question;
    const char *what, *least, *most; /* "is least in" */
    ss_dimension dimension;
} question_words;

static const question_words questions[] = {
    {SS_ASKED_FACTOR, "Rating: the smallest factor", "is smallest in", "is largest in", SS_DIM_NUMBER},
    {SS_ASKED_MOMENT, "Bending of the main girders under a truck", "is least in", "is most in",
     SS_DIM_MOMENT},
    {SS_ASKED_TOTAL, "With dead load their bending", "is least in", "is most in", SS_DIM_MOMENT},
    {SS_ASKED_DEFLECTION, "Deflection of the main girders under a truck", "is least in", "is most in",
     SS_DIM_SMALL_LENGTH},
    {SS_ASKED_CAR_SHARE, "Sharing: the most that one car carries of a truck's bending", "is least in",
     "is most in", SS_DIM_NUMBER},
};

static const char *value_words(ss_builder *b, const question_words *q, const ss_compare_value *value) {
    switch (q->question) {
    case SS_ASKED_FACTOR:
        return ss_build_text(b, "%s, %s", ss_rated_factor(b, value->value, 2), value->truck);
    case SS_ASKED_CAR_SHARE: return ss_build_text(b, "%s %%", ss_words_decimals(b, 100.0 * value->value, 0));
    default: return ss_words_quantity(b, fabs(value->value), q->dimension, 4);
    }
}

/* "312 kip-ft, 41.2 % less": of one variant, beside the base. */
static const char *size_words(ss_builder *b, const ss_comparison *all, const question_words *q, int variant) {
    const int base = ss_comparison_base(all);
    const ss_compare_value *const own = ss_comparison_governing(all, variant, q->question, NULL, SS_BY_ALL);
    const ss_compare_value *const first = ss_comparison_governing(all, base, q->question, NULL, SS_BY_ALL);
    const char *words = value_words(b, q, own);
    const bool told = first != NULL && variant != base && ss_comparison_counts(all, base, q->question);
    const double change = told ? ss_comparison_change(own->value, first->value) : 0.0;
    if (!(fabs(change) > SS_COMPARE_SAME)) {
        return words;
    }
    return ss_build_text(b, "%s, %s %% %s", words, ss_words_decimals(b, 100.0 * fabs(change), 1),
                         change > 0.0 ? "more" : "less");
}

/* The first of the flagged: the others have the same within what counts as none. */
static int first_of(const ss_comparison *all, const bool *flags) {
    int i = 0;
    while (i < all->variant_count - 1 && !flags[i]) {
        i++;
    }
    return i;
}

static void say_question(ss_builder *b, ss_points *points, const ss_comparison *all,
                         const question_words *q) {
    bool *const best = flags_of(b, all);
    bool *const worst = flags_of(b, all);
    double *const sizes = ss_arena_alloc(&b->report->arena, (size_t)all->variant_count + 1, sizeof *sizes);
    int known = 0;
    int left_out = 0;
    int marked = 0;
    const ss_compare_value *any = NULL;
    if (best == NULL || worst == NULL || sizes == NULL) {
        b->failed = true;
        return;
    }
    for (int i = 0; i < all->variant_count; i++) {
        const ss_compare_value *const one = ss_comparison_governing(all, i, q->question, NULL, SS_BY_ALL);
        const bool counts = one != NULL && ss_comparison_counts(all, i, q->question);
        sizes[i] = counts ? fabs(one->value) : (double)NAN;
        known += counts;
        left_out += one != NULL && !counts;
        any = counts && any == NULL ? one : any;
    }
    for (int i = 0; i < all->variant_count; i++) {
        /* `best` is here what is least, so that one wording does for all. */
        const ss_compare_mark mark = ss_comparison_mark(sizes, all->variant_count, i, false);
        best[i] = mark == SS_MARK_BEST;
        worst[i] = mark == SS_MARK_WORST;
        marked += mark != SS_MARK_NONE;
    }
    if (known < 2) {
        return;
    }
    if (marked == 0) {
        ss_point(b, points, "%s is the same in %s%s (%s).", q->what,
                 known == 2 ? "both" : ss_build_text(b, "all %d", known),
                 left_out > 0 ? " that do not tip" : "", value_words(b, q, any));
        return;
    }
    const bool factor = q->question == SS_ASKED_FACTOR;
    const bool *const first = factor ? worst : best;
    const bool *const second = factor ? best : worst;
    ss_point(b, points, "%s %s %s (%s); it %s %s (%s).", q->what, factor ? q->most : q->least,
             name_those(b, all, first), size_words(b, all, q, first_of(all, first)),
             factor ? q->least : q->most, name_those(b, all, second),
             size_words(b, all, q, first_of(all, second)));
}

/* ---- bearings, joints, posting ----------------------------------------------------------------------- */

/* Where lifting makes the answer hang on gaps. */
static void say_contact(ss_builder *b, ss_points *points, const ss_comparison *all) {
    bool *const flags = flags_of(b, all);
    int count = 0;
    for (int i = 0; flags != NULL && i < all->variant_count; i++) {
        flags[i] = all->variants[i].contact;
        count += flags[i];
    }
    if (count > 0) {
        ss_point(b, points,
                 "Under some truck a bearing, or one edge of a pad, lifts off or closes in %s: these results "
                 "hang on "
                 "the gaps.",
                 name_those(b, all, flags));
    }
}

static void say_bearings(ss_builder *b, ss_points *points, const ss_comparison *all) {
    const char *lifting = "";
    const char *pulled = "";
    for (int i = 0; i < all->variant_count; i++) {
        int lifts = 0;
        int carrying = 0;
        double pull = 0.0;
        for (int k = 0; k < all->reaction_count; k++) {
            const ss_compare_reaction *const r = &all->reactions[k];
            lifts += r->variant == i && r->lifts;
            carrying += r->variant == i && r->contact && !r->clear;
            pull = r->variant == i && r->pulled ? fmax(pull, -r->least) : pull;
        }
        if (lifts > 0) {
            lifting = ss_build_text(b, "%s%s\"%s\" (%d of %d)", lifting, lifting[0] == '\0' ? "" : ", ",
                                    all->variants[i].name, lifts, carrying);
        }
        if (pull > 0.0) {
            pulled = ss_build_text(b, "%s%s\"%s\" (%s)", pulled, pulled[0] == '\0' ? "" : ", ",
                                   all->variants[i].name, ss_words_quantity(b, pull, SS_DIM_FORCE, 3));
        }
    }
    if (lifting[0] == '\0' && ss_comparison_any_tips(all)) {
        ss_point(
            b, points,
            "Bearings: none that carries dead load lifts off under a truck that does not tip the bridge.");
    } else if (lifting[0] == '\0') {
        ss_point(b, points,
                 "Bearings: in none of them does one that carries dead load lift off under a truck.");
    } else {
        ss_point(b, points, "Bearings: points that carry dead load lift off under some truck in %s.",
                 lifting);
    }
    if (pulled[0] != '\0') {
        ss_point(b, points,
                 "Two-way bearings are pulled upwards in %s: without something that holds them down the "
                 "bridge does "
                 "not behave so.",
                 pulled);
    }
}

/* Joints that carry shear, and nobody knows how much they can. */
static void say_unknown_joints(ss_builder *b, ss_points *points, const ss_comparison *all) {
    bool *const flags = flags_of(b, all);
    int count = 0;
    for (int k = 0; flags != NULL && k < all->joint_count; k++) {
        const ss_compare_joint *const j = &all->joints[k];
        if (strcmp(j->effect, "shear") == 0 && !(j->capacity > 0.0) && !j->by_bending && !flags[j->variant]) {
            flags[j->variant] = true;
            count++;
        }
    }
    if (count > 0) {
        ss_point(b, points,
                 "Joints whose capacity in shear is not known carry load in %s: what stands here counts on "
                 "them to hold whatever comes to them.",
                 name_those(b, all, flags));
    }
}

static void say_joints(ss_builder *b, ss_points *points, const ss_comparison *all) {
    const char *beyond = "";
    bool any = false;
    for (int i = 0; i < all->variant_count; i++) {
        const ss_compare_joint *worst = NULL;
        for (int k = 0; k < all->joint_count; k++) {
            const ss_compare_joint *const j = &all->joints[k];
            if (j->variant == i && j->capacity > 0.0 &&
                (worst == NULL || j->demand / j->capacity > worst->demand / worst->capacity)) {
                worst = j;
            }
        }
        any = any || worst != NULL;
        if (worst != NULL && worst->demand > worst->capacity) {
            beyond = ss_build_text(b, "%s%s\"%s\" (%s in %s, %s %%)", beyond, beyond[0] == '\0' ? "" : ", ",
                                   all->variants[i].name, worst->joint, worst->effect,
                                   ss_words_decimals(b, 100.0 * worst->demand / worst->capacity, 0));
        }
    }
    if (beyond[0] != '\0') {
        ss_point(b, points,
                 "Joints: dead load and one truck ask more of one than it can carry, already without load "
                 "factors, in "
                 "%s: what stands here of that bridge counts on more than is there.",
                 beyond);
    } else if (any) {
        ss_point(b, points,
                 "Joints: none with a known capacity has to carry more than that, without load factors.");
    }
}

static void say_posting(ss_builder *b, ss_points *points, const ss_comparison *all) {
    static const struct {
        const char *state, *says;
    } states[] = {
        {"open", "no limit follows in"}, {"limited", "a limit follows in"}, {"closed", "closed in"}};
    const char *all_words = "";
    bool *const flags = flags_of(b, all);
    for (size_t s = 0; flags != NULL && s < sizeof states / sizeof states[0]; s++) {
        int count = 0;
        for (int i = 0; i < all->variant_count; i++) {
            const char *const state = all->variants[i].posting;
            flags[i] = state != NULL && strcmp(state, states[s].state) == 0;
            count += flags[i];
        }
        if (count > 0) {
            all_words = ss_build_text(b, "%s%s%s %s", all_words, all_words[0] == '\0' ? "" : "; ",
                                      states[s].says, name_those(b, all, flags));
        }
    }
    if (all_words[0] != '\0') {
        ss_point(b, points, "Posting: %s. The decision is the owner's and the state's.", all_words);
    }
}

/* Before all else: what tips must not be chosen for numbers that leave the tipping out. */
static void say_tips(ss_builder *b, ss_points *points, const ss_comparison *all) {
    const int base = ss_comparison_base(all);
    bool *const tips = flags_of(b, all);
    for (int i = 0; tips != NULL && i < all->variant_count; i++) {
        tips[i] = all->variants[i].tips;
    }
    if (tips == NULL || !ss_comparison_any_tips(all)) {
        return;
    }
    ss_point(b, points,
             "Some truck TIPS THE BRIDGE off its bearings in %s. What trucks do there is without the places "
             "where one does, so that it is neither best nor worst in it and has no %%%s.%s",
             name_those(b, all, tips),
             all->variants[base].tips ? "; nor have the others, against this base" : "",
             all->rating ? " Rating factors count tipping." : "");
}

static void say_faults(ss_builder *b, ss_points *points, const ss_comparison *all) {
    for (int i = 0; i < all->variant_count; i++) {
        const ss_compare_variant *const v = &all->variants[i];
        if (v->outcome != SS_COMPARE_DONE && points->count < 18) {
            ss_point(b, points, "\"%s\" came to nothing: %s", v->name, v->says);
        }
    }
}

void ss_comparison_answer(ss_builder *b, const ss_comparison *all) {
    const int base = ss_comparison_base(all);
    ss_points points = {.count = 0};
    int done = 0;
    for (int i = 0; i < all->variant_count; i++) {
        done += all->variants[i].outcome == SS_COMPARE_DONE;
    }
    ss_study_heading(b, "Comparison", "The answer");
    if (done == 0) {
        ss_build_sentence(b, "Nothing can be compared: no variant could be computed.");
    } else if (done == 1) {
        ss_build_sentence(b, "Nothing can be compared: of %d variants only \"%s\" could be computed.",
                          all->variant_count, all->variants[base].name);
    } else {
        ss_build_sentence(
            b,
            "%s side by side. More and less, and the columns headed %%, are against \"%s\"; best "
            "and worst are meant among these alone.",
            done == all->variant_count ? ss_words_count(b, done, "variant", "variants")
                                       : ss_build_text(b, "%d of %d variants", done, all->variant_count),
            all->variants[base].name);
    }
    say_tips(b, &points, all);
    for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++) {
        say_question(b, &points, all, &questions[i]);
    }
    if (all->response && done > 0) {
        say_bearings(b, &points, all);
        say_contact(b, &points, all);
        say_joints(b, &points, all);
        say_unknown_joints(b, &points, all);
    }
    say_posting(b, &points, all);
    say_faults(b, &points, all);
    if (points.count > 0) {
        ss_build_points(b, &points);
    }
}
