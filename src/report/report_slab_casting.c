/* report_slab_casting.c - casting a slab: what decides, what is left out, and what to mind. */
#include <math.h>

#include "report/report_slab_casting.h"
#include "report/report_words.h"

const char *ss_casting_share(ss_builder *b, double demand, double capacity) {
    if (!(capacity > 0.0)) {
        return "beyond all";
    }
    return ss_words_decimals(b, ceil(100.0 * demand / capacity - 1e-7) / 100.0, 2);
}

const char *ss_casting_stage(const ss_slab_casting *casting, int stage) {
    return casting->permanent->stages[stage].name;
}

void ss_casting_put(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

/* ---- what decides ------------------------------------------------------------------------------------ */

static double use_of(const ss_casting_member *m) {
    return m->capacity > 0.0 ? m->demand / m->capacity : m->demand > 0.0 ? (double)INFINITY : 0.0;
}

static const ss_casting_member *worst_of(const ss_slab_casting *casting) {
    const ss_casting_member *worst = NULL;
    for (int i = 0; i < casting->member_count; i++) {
        const ss_casting_member *const m = &casting->members[i];
        if (m->stage >= 0 && m->why == NULL && (worst == NULL || use_of(m) > use_of(worst) * (1.0 + 1e-9))) {
            worst = m;
        }
    }
    return worst;
}

static void say_worst(ss_builder *b, const ss_slab_casting *casting) {
    const ss_casting_member *const m = worst_of(casting);
    if (m == NULL) {
        ss_build_sentence(b, "Nothing could be said of the cars while the slab is wet.");
        return;
    }
    const bool bad = use_of(m) > 1.0 + 1e-9;
    ss_build_sentence(
        b, "While it is cast %s decides, in %s %s (%s): %s of its strength under the factored weight%s%s",
        ss_words_the_member(b, m->effect.member, m->effect.index), ss_words_failure(m->effect.kind),
        ss_words_place(b, &m->effect), ss_casting_stage(casting, m->stage),
        ss_casting_share(b, m->demand, m->capacity),
        casting->permanent->on_props != NULL ? ", with its props" : "",
        bad ? ". The cars do not carry the wet slab so: shores, a lighter or a thinner slab, pours in a "
              "sequence, or braces for what buckles."
            : ".");
}

/* ---- the part ---------------------------------------------------------------------------------------- */

static void say_worst_form(ss_builder *b, const ss_slab_casting *casting) {
    if (casting->has_form && ss_casting_form_bad(&casting->form)) {
        ss_build_sentence(b, "The plate that stays as formwork is not enough by itself (see below).");
    }
}

static void say_manner(ss_builder *b, const ss_slab_casting *casting) {
    const ss_bridge *const bridge = b->results->bridge;
    const ss_slab *const slab = &bridge->slab;
    ss_build_sentence(
        b, "The slab of %s is cast %s, %s%s.", ss_words_quantity(b, slab->thickness, SS_DIM_SMALL_LENGTH, 3),
        slab->pour_count == 1 ? "at once"
                              : ss_build_text(b, "in %d pours, each hard before the next", slab->pour_count),
        casting->permanent->on_props != NULL
            ? "on props that come out when all of it is hard"
            : "without shores: the bare cars carry all of it while it is wet",
        bridge->car_count < 2   ? ""
        : slab->joints_hold_wet ? "; the cars' own joints act the while"
                                : "; the cars' own joints are loosened the while");
}

void ss_part_slab_casting(ss_builder *b) {
    const ss_slab_casting *const casting = b->results->casting;
    if (casting == NULL) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Casting the deck");
    say_manner(b, casting);
    say_worst(b, casting);
    say_worst_form(b, casting);
    ss_casting_say_stages(b, casting);
    ss_casting_say_members(b, casting);
    ss_casting_say_bearings(b, casting);
    ss_casting_say_sag(b, casting);
    ss_slab_cautions(b, casting->has_form);
}
