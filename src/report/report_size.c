/* report_size.c - the search for a concrete deck: the one that passes, what stops the others, other repairs.
 */
#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_size.h"
#include "report/report_words.h"
#include "sillspan/figure.h"

/* ---- words ------------------------------------------------------------------------------------------ */

const char *ss_size_money(ss_builder *b, double cost) {
    return isnan(cost) ? "not known" : ss_words_decimals(b, cost, 0);
}

/* What keeps an option from passing: the target it misses, or the check; "" for one that passes. */
const char *ss_size_stopped_by(ss_builder *b, const ss_size_option *o) {
    const ss_sizing *const s = b->results->size->sizing;
    if (o->failure != NULL) {
        return o->failure;
    }
    const char *text = "";
    if (!(o->margin >= 1.0)) {
        text = ss_build_text(b, "%s: %s where %s is due", o->governs,
                             ss_rated_factor(b, o->factor[o->target], 2),
                             ss_words_decimals(b, s->targets[o->target].factor, 2));
    }
    if (o->missed > 0) {
        text = ss_build_text(b, "%s%s%s: missed by a factor of %s", text, text[0] == '\0' ? "" : "; ",
                             o->check, isinf(o->use) ? "any size" : ss_words_decimals(b, o->use, 2));
        if (o->missed > 1) {
            text = ss_build_text(b, "%s, and %s more", text,
                                 ss_words_count(b, o->missed - 1, "check", "checks"));
        }
    }
    return text;
}

const char *ss_size_verdict(const ss_size_option *o) {
    if (o->failure != NULL) {
        return o->tried ? "no rating" : "not tried";
    }
    return o->passes ? "passes" : "falls short";
}

static const char *price_words(ss_builder *b, const ss_size_option *o) {
    const char *const weight = ss_words_quantity(b, o->added, SS_DIM_FORCE, 3);
    return b->results->size->by_cost && !isnan(o->cost)
               ? ss_build_text(b, "it adds %s and costs %s", weight, ss_size_money(b, o->cost))
               : ss_build_text(b, "it adds %s", weight);
}

/* ---- the answer ------------------------------------------------------------------------------------- */

static const char *all_targets(const ss_size *size) {
    return size->sizing->target_count > 1 ? "all targets" : "the target";
}

static void say_none_rated(ss_builder *b) {
    const ss_size *const size = b->results->size;
    for (int i = 0; i < size->count; i++) {
        const ss_size_option *const o = &size->options[i];
        if (o->kind == SS_SIZE_DECK && o->tried) {
            ss_build_sentence(b, "No deck that was tried could be rated. The first, %s: %s.", o->name,
                              o->failure);
            return;
        }
    }
    ss_build_sentence(b, "No deck was tried.");
}

static void say_chosen(ss_builder *b) {
    const ss_size *const size = b->results->size;
    if (size->best >= 0) {
        const ss_size_option *const o = &size->options[size->best];
        ss_build_sentence(b,
                          "The %s deck tried that reaches %s and keeps every check: %s. Its least factor "
                          "is %s (%s); %s.",
                          size->by_cost ? "cheapest" : "lightest", all_targets(size), o->name,
                          ss_rated_factor(b, o->factor[o->target], 2), o->governs, price_words(b, o));
        return;
    }
    if (size->nearest < 0) {
        say_none_rated(b);
        return;
    }
    const ss_size_option *const o = &size->options[size->nearest];
    ss_build_sentence(b, "No deck that was tried reaches %s and keeps every check. The nearest: %s; %s.",
                      all_targets(size), o->name, ss_size_stopped_by(b, o));
}

/* Decks like one, of the next smaller thickness; NULL: there is none. */
static const ss_size_option *thinner_than(const ss_size *size, const ss_size_option *chosen) {
    const ss_size_option *found = NULL;
    for (int i = 0; i < size->count; i++) {
        const ss_size_option *const o = &size->options[i];
        if (o->kind == SS_SIZE_DECK && o->set == chosen->set && o->shored == chosen->shored &&
            (o->strength == chosen->strength || isnan(o->strength)) &&
            (o->pitch == chosen->pitch || isnan(o->pitch)) && o->thickness < chosen->thickness &&
            (found == NULL || o->thickness > found->thickness)) {
            found = o;
        }
    }
    return found;
}

static const ss_size_option *other_casting(const ss_size *size, const ss_size_option *chosen) {
    for (int i = 0; i < size->count; i++) {
        const ss_size_option *const o = &size->options[i];
        if (o->kind == SS_SIZE_DECK && o->set == chosen->set && o->shored != chosen->shored &&
            (o->strength == chosen->strength || isnan(o->strength)) &&
            (o->pitch == chosen->pitch || isnan(o->pitch)) && o->thickness == chosen->thickness) {
            return o;
        }
    }
    return NULL;
}

/* The chosen deck cast the other way. */
static void say_cast(ss_builder *b, ss_points *points, const ss_size_option *cast) {
    const char *const way = cast->shored ? "Cast on props" : "Cast without props";
    const char *const stop = ss_size_stopped_by(b, cast);
    if (cast->failure != NULL) {
        ss_point(b, points, "%s it has no rating: %s.", way, stop);
        return;
    }
    ss_point(b, points, "%s its least factor would be %s%s%s.", way,
             ss_rated_factor(b, cast->factor[cast->target], 2),
             stop[0] == '\0' ? ", and it would pass" : "; it would not pass: ", stop);
}

static void say_around(ss_builder *b, ss_points *points) {
    const ss_size *const size = b->results->size;
    const int at = size->best >= 0 ? size->best : size->nearest;
    if (at < 0) {
        return;
    }
    const ss_size_option *const chosen = &size->options[at];
    const ss_size_option *const thinner = thinner_than(size, chosen);
    const ss_size_option *const cast = other_casting(size, chosen);
    if (thinner != NULL && thinner->tried && !thinner->passes) {
        ss_point(b, points, "What stops a thinner one, %s: %s.", thinner->name,
                 ss_size_stopped_by(b, thinner));
    }
    if (cast != NULL && cast->tried) {
        say_cast(b, points, cast);
    }
    if (chosen->unknown > 0) {
        ss_point(b, points,
                 "%s of it could not be looked at, for want of a value; `rate` with this deck names "
                 "them.",
                 ss_words_count(b, chosen->unknown, "check", "checks"));
    }
}

static void say_others(ss_builder *b, ss_points *points) {
    const ss_size *const size = b->results->size;
    const ss_size_option *const now = &size->options[0];
    if (now->failure == NULL) {
        ss_point(b, points, "As it is, the bridge has %s (%s).",
                 ss_rated_factor(b, now->factor[now->target], 2), now->governs);
    }
    for (int i = 0; i < size->count; i++) {
        const ss_size_option *const o = &size->options[i];
        if (o->kind == SS_SIZE_OTHER && o->passes) {
            ss_point(
                b, points, "Without a deck, \"%s\" reaches %s too: %s.", o->name, all_targets(size),
                ss_build_text(b, "%s%s", ss_rated_factor(b, o->factor[o->target], 2),
                              isnan(o->cost) ? "" : ss_build_text(b, ", for %s", ss_size_money(b, o->cost))));
        }
    }
    if (size->stopped) {
        ss_point(b, points, "The search was interrupted: not everything was tried.");
    }
}

/* ---- the part ---------------------------------------------------------------------------------------- */

/* What `rate` is to be told so that it rates this deck. */
static const char *settings_of(ss_builder *b, const ss_size_option *o) {
    const ss_sizing *const s = b->results->size->sizing;
    const char *text = ss_build_text(b, "--set slab.in_use=true --set \"slab.thickness=%s\"",
                                     ss_words_quantity(b, o->thickness, SS_DIM_SMALL_LENGTH, 4));
    if (!isnan(o->strength)) {
        text = ss_build_text(b, "%s --set \"slab.concrete.strength=%s\"", text,
                             ss_words_quantity(b, o->strength, SS_DIM_STRESS, 4));
    }
    if (!isnan(o->pitch)) {
        text = ss_build_text(b, "%s --set \"slab.connectors.pitch=%s\"", text,
                             ss_words_quantity(b, o->pitch, SS_DIM_SMALL_LENGTH, 4));
    }
    if (b->results->size->shoring[0] && b->results->size->shoring[1]) {
        text = ss_build_text(b, "%s --set slab.shores.in_use=%s", text, o->shored ? "true" : "false");
    }
    return o->set < 0 ? text
                      : ss_build_text(b, "%s, with slab.lines as in \"%s\"", text, s->sets[o->set].name);
}

static void say_how_sure(ss_builder *b) {
    const ss_size *const size = b->results->size;
    const ss_size_option *const chosen = size->best < 0 ? NULL : &size->options[size->best];
    int searched = 0;
    for (int i = 0; i < size->count; i++) {
        searched += size->options[i].full ? 1 : 0;
    }
    ss_study_heading(b, "Size", "How sure");
    ss_build_sentence(
        b,
        "%s searched for the worst place of trucks in full%s; the others were rated at the places where "
        "trucks govern there, and can be a little worse than they look.%s",
        ss_words_count(b, searched, "bridge was", "bridges were"),
        chosen == NULL ? ""
        : chosen->full ? ", the chosen deck among them"
                       : ", the chosen deck not yet",
        chosen == NULL
            ? ""
            : ss_build_text(b, " Rate the deck that is chosen by itself before anything is drawn: rate %s.",
                            settings_of(b, chosen)));
    ss_build_sentence(b,
                      "How far the bridge sags under a truck is not asked of a deck here; `rate` tells it.");
}

void ss_part_size(ss_builder *b) {
    ss_points points = {0};
    ss_study_heading(b, "Size", "The answer");
    say_chosen(b);
    say_around(b, &points);
    say_others(b, &points);
    ss_build_points(b, &points);
    ss_study_figure(b, ss_figure_size);
    ss_size_tables(b);
    ss_study_heading(b, "Size", "Before a deck is cast");
    ss_slab_cautions(b, b->results->bridge->slab.form.name != NULL);
    say_how_sure(b);
}
