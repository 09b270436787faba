/* report_compare_take_rating.c - what one variant brings to a comparison as a whole: what governs, posting,
 * what is assumed, how sure it is. */
#include "report/report_compare.h"

#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_words.h"
#include "sillspan/memory.h"

static const double none = (double)NAN;

void ss_comparison_take_rating(ss_comparison *all, ss_builder *b) {
    const ss_results *const results = b->results;
    ss_method methods[3];
    if (ss_rated_methods(results->rated, methods) == 0) {
        return;
    }
    for (int t = 0; t < results->rated->traffic_count; t++) {
        const int i = ss_rated_alternative(results, t) ? -1 : ss_rated_weakest(results, (int)methods[0], t);
        if (i < 0) {
            continue;
        }
        const ss_rating_item *const item = &results->rated->items[i];
        ss_comparison_put(
            all, &(ss_compare_value){
                     .question = SS_ASKED_FACTOR,
                     .truck = ss_words_traffic(b, t),
                     .value = item->rf,
                     .x = item->tips ? none : ss_words_x(results->bridge, &item->effect),
                     .check = results->rated->checks[item->check].name,
                     .member = item->tips ? "the bearings"
                                          : ss_words_member(b, item->effect.member, item->effect.index),
                     .effect = ss_rated_failure(item)});
    }
}

/* What could not be rated; what is so in the first is not said again. */
static void take_notes(ss_comparison *all, const ss_ratings *ratings) {
    const int base = ss_comparison_base(all);
    for (int i = 0; i < ratings->note_count; i++) {
        bool known = false;
        for (int k = 0; k < all->note_count && !known; k++) {
            known = all->notes[k].variant == base && strcmp(all->notes[k].text, ratings->notes[i]) == 0;
        }
        ss_compare_note *const grown =
            known ? NULL : ss_comparison_grow(all, all->notes, all->note_count, sizeof *all->notes);
        if (grown == NULL) {
            continue;
        }
        all->notes = grown;
        const char *const text = ss_comparison_keep(all, ratings->notes[i]);
        if (text != NULL) {
            grown[all->note_count++] = (ss_compare_note){all->variant_count, text};
        }
    }
}

static void take_governing(ss_comparison *all, ss_builder *b, ss_compare_variant *v) {
    const ss_results *const results = b->results;
    const int i = ss_rated_controlling(results);
    if (i < 0) {
        return;
    }
    const ss_rating_item *const item = &results->rated->items[i];
    const ss_check *const check = &results->rated->checks[item->check];
    v->rf = item->rf;
    v->tons = item->tons;
    v->x = item->tips ? none : ss_words_x(results->bridge, &item->effect);
    v->truck = ss_comparison_keep(all, ss_words_traffic(b, item->traffic));
    v->member = item->tips
                    ? "the bearings"
                    : ss_comparison_keep(all, ss_words_member(b, item->effect.member, item->effect.index));
    v->effect = ss_rated_failure(item);
    v->check = ss_comparison_keep(all, check->name);
    v->method = ss_method_name(check->method);
}

static void take_posting(ss_comparison *all, const ss_compared *compared, ss_compare_variant *v) {
    const ss_posting *const posting = &compared->posting;
    if (!compared->posted) {
        return;
    }
    v->posting = ss_posting_state_name(posting->free.state);
    v->sign = ss_comparison_keep(all, posting->free.words);
    v->sign_alone = posting->lanes_matter ? ss_comparison_keep(all, posting->one.words) : NULL;
}

/* "seam and bolts": joints that are full before the members. */
static void take_joints_out(ss_comparison *all, ss_builder *b, const ss_compared *compared,
                            ss_compare_variant *v) {
    const ss_bridge *const bridge = &compared->whole.bridge;
    const char *names = "";
    for (int j = 0; j < bridge->joint_count; j++) {
        bool full = false;
        for (int i = 0; i < compared->joint_out.count; i++) {
            const int item = compared->joint_out.items[i].joint;
            full = full || compared->whole.ratings.items[item].effect.index == j;
        }
        if (full) {
            names = ss_build_text(b, "%s%s%s", names, names[0] == '\0' ? "" : ", ", bridge->joints[j].name);
        }
    }
    v->joints_fail = compared->joint_out.failure != NULL;
    v->joints_out = names[0] == '\0' ? NULL : ss_comparison_keep(all, names);
}

/* ---- what it takes for granted ---------------------------------------------------------------------- */

static void assume(ss_comparison *all, const char *text) {
    const char **const grown =
        ss_comparison_grow(all, all->assumed, all->assumed_count, sizeof *all->assumed);
    if (grown != NULL) {
        all->assumed = grown;
        all->assumed[all->assumed_count] = ss_comparison_keep(all, text);
        all->assumed_count += !all->failed;
    }
}

static bool assumed_by(const ss_bridge *base, const ss_assumption *one) {
    for (int i = 0; i < base->assumptions.count; i++) {
        const ss_assumption *const other = &base->assumptions.items[i];
        if (strcmp(one->path, other->path) == 0 && strcmp(one->value, other->value) == 0) {
            return true;
        }
    }
    return false;
}

static bool ignored_by(const ss_bridge *base, const char *text) {
    for (int i = 0; i < base->ignored_count; i++) {
        if (strcmp(base->ignored[i], text) == 0) {
            return true;
        }
    }
    return false;
}

static void take_assumed(ss_comparison *all, ss_builder *b, const char *name, const ss_bridge *base) {
    const ss_bridge *const bridge = b->results->bridge;
    for (int i = 0; i < bridge->assumptions.count; i++) {
        const ss_assumption *const one = &bridge->assumptions.items[i];
        if (!assumed_by(base, one)) {
            assume(all, ss_build_text(b, "\"%s\" besides: %s is taken as %s.", name, one->path,
                                      ss_words_given(b, one->value)));
        }
    }
    for (int i = 0; i < bridge->ignored_count; i++) {
        if (!ignored_by(base, bridge->ignored[i])) {
            assume(all, ss_build_text(b, "\"%s\" besides leaves out: %s", name, bridge->ignored[i]));
        }
    }
}

/* ---- the variant ------------------------------------------------------------------------------------ */

static ss_compare_variant *add(ss_comparison *all, const char *name, const char *changes) {
    ss_compare_variant *const grown =
        ss_comparison_grow(all, all->variants, all->variant_count, sizeof *all->variants);
    if (grown == NULL) {
        return NULL;
    }
    all->variants = grown;
    grown[all->variant_count] = (ss_compare_variant){.name = ss_comparison_keep(all, name),
                                                     .changes = ss_comparison_keep(all, changes),
                                                     .accuracy = none,
                                                     .rf = none,
                                                     .tons = none,
                                                     .x = none};
    return &grown[all->variant_count];
}

void ss_comparison_add_failed(ss_comparison *all, const char *name, const char *changes,
                              ss_compare_outcome outcome, const char *says) {
    ss_compare_variant *const v = add(all, name, changes);
    if (v != NULL) {
        v->outcome = outcome;
        v->says = ss_comparison_keep(all, says);
        all->variant_count++;
    }
}

static void take_trust(const ss_compared *compared, ss_compare_variant *v) {
    const ss_envelope *const envelope = &compared->envelope;
    const ss_permanent *const permanent = &compared->whole.permanent;
    v->accuracy = fmax(permanent->present.equilibrium, permanent->cars_alone.equilibrium);
    if (envelope->checked_count > 0) {
        v->accuracy = fmax(v->accuracy, envelope->accuracy);
    }
    v->doubtful = ss_grillage_trust(compared->whole.grillage)->doubtful;
    v->tips = envelope->tips;
    v->contact = envelope->contact_matters;
}

void ss_comparison_add(ss_comparison *all, const char *name, const char *changes, const ss_compared *compared,
                       const ss_bridge *base) {
    const ss_variant *const whole = &compared->whole;
    ss_report scratch = {.units = all->units};
    ss_results results = {.command = "compare",
                          .bridge = &whole->bridge,
                          .mesh = &whole->mesh,
                          .grillage = whole->grillage,
                          .permanent = &whole->permanent,
                          .placements = &whole->placements,
                          .require = none};
    ss_builder b = {.report = &scratch, .results = &results};
    ss_compare_variant *const v = add(all, name, changes);
    if (v == NULL) {
        return;
    }
    take_trust(compared, v);
    if (all->response) {
        results.envelope = &compared->envelope;
        results.shares = &compared->shares;
        ss_comparison_take_response(all, &b);
        ss_comparison_take_supports(all, &b);
    }
    if (all->rating) {
        /* Without an envelope, so that all rated traffic is told of. */
        results.envelope = NULL;
        results.rated = &whole->ratings;
        ss_comparison_take_rating(all, &b);
        take_governing(all, &b, v);
        take_posting(all, compared, v);
        take_joints_out(all, &b, compared, v);
        take_notes(all, &whole->ratings);
    }
    if (base != NULL) {
        take_assumed(all, &b, name, base);
    }
    all->failed = all->failed || b.failed;
    all->variant_count += !all->failed;
    ss_report_destroy(&scratch);
}

void ss_comparison_warn(ss_comparison *all, int variant, const ss_diag *warning) {
    ss_compare_warning *const grown =
        ss_comparison_grow(all, all->warnings, all->warning_count, sizeof *all->warnings);
    if (grown != NULL) {
        all->warnings = grown;
        grown[all->warning_count++] =
            (ss_compare_warning){.variant = variant,
                                 .file = ss_comparison_keep(all, warning->where.file),
                                 .line = warning->where.line,
                                 .path = ss_comparison_keep(all, warning->path),
                                 .message = ss_comparison_keep(all, warning->message)};
    }
}

void ss_comparison_destroy(ss_comparison *all) {
    ss_free(all->variants);
    ss_free(all->values);
    ss_free(all->reactions);
    ss_free(all->joints);
    ss_free(all->warnings);
    ss_free(all->assumed);
    ss_free(all->notes);
    ss_arena_destroy(&all->arena);
    *all = (ss_comparison){0};
}
