/* posting_words.c - a posting in plain words: the sign, what is recommended, why, and what to know. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "assess/posting_parts.h"
#include "base/numeric.h"

#define TON (2000.0 * 4.4482216152605)
#define TONNE (1000.0 * SS_GRAVITY)

/* ---- making texts ----------------------------------------------------------------------------------- */

static const char *make_text(ss_posting_builder *b, const char *format, va_list arguments) {
    const char *const text = b->failed ? NULL : ss_arena_vprintf(&b->made.arena, format, arguments);
    b->failed = b->failed || text == NULL;
    return text == NULL ? "" : text;
}

const char *ss_posting_text(ss_posting_builder *b, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *const text = make_text(b, format, arguments);
    va_end(arguments);
    return text;
}

/* Adds to a list whose room doubles when its count is a power of two; what is there already is not said
 * twice. */
static void add_line(ss_posting_builder *b, const char ***list, int *count, const char *text) {
    for (int i = 0; i < *count; i++) {
        if (strcmp((*list)[i], text) == 0) {
            return;
        }
    }
    if (!b->failed && (*count & (*count - 1)) == 0) {
        const char **const grown = ss_arena_alloc(&b->made.arena, 2 * (size_t)*count + 1, sizeof *grown);
        if (grown == NULL) {
            b->failed = true;
        } else {
            for (int i = 0; i < *count; i++) grown[i] = (*list)[i];
            *list = grown;
        }
    }
    if (!b->failed) {
        (*list)[(*count)++] = text;
    }
}

void ss_posting_reason(ss_posting_builder *b, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *const text = make_text(b, format, arguments);
    va_end(arguments);
    add_line(b, &b->made.reasons, &b->made.reason_count, text);
}

void ss_posting_note(ss_posting_builder *b, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *const text = make_text(b, format, arguments);
    va_end(arguments);
    add_line(b, &b->made.notes, &b->made.note_count, text);
}

const char *ss_posting_weight(double weight_N, ss_unit_system units, int decimals,
                              char buffer[SS_POSTING_WORDS]) {
    const bool si = units == SS_UNITS_SI;
    (void)ss_text_decimals(buffer, SS_POSTING_WORDS - 8, weight_N / (si ? TONNE : TON), decimals);
    const bool one = strcmp(buffer, "1") == 0;
    const char *const unit = si ? " t" : one ? " ton" : " tons";
    memcpy(buffer + strlen(buffer), unit, strlen(unit) + 1);
    return buffer;
}

/* A factor as it is printed: cut off, never rounded up to one that is met. */
static const char *factor(double rf, char buffer[SS_POSTING_WORDS]) {
    return ss_text_decimals(buffer, SS_POSTING_WORDS, floor(rf * 100.0 + 1e-9) / 100.0, 2);
}

/* ---- signs ------------------------------------------------------------------------------------------ */

static void add_limit(ss_text *text, const char *what, double weight_N, ss_unit_system units) {
    char weight[SS_POSTING_WORDS];
    const bool limited = weight_N < SS_INFINITY;
    ss_text_printf(text, "%s%s %s", text->length > 0 ? ", " : "", what,
                   weight_N == 0.0 ? "not allowed"
                   : limited       ? ss_posting_weight(weight_N, units, units == SS_UNITS_SI ? 1 : 0, weight)
                                   : "without limit");
}

static void add_trucks(ss_text *text, const ss_posting_sign *sign, ss_unit_system units) {
    const double single = sign->group_N[SS_POSTING_SINGLE];
    const double combination = sign->group_N[SS_POSTING_COMBINATION];
    const bool limited = single < SS_INFINITY || combination < SS_INFINITY;
    if (limited && single == combination) {
        add_limit(text, "all trucks", single, units);
    } else if (limited && !sign->rated[SS_POSTING_SINGLE]) {
        add_limit(text, "combinations", combination, units);
        ss_text_add(text, " (single-unit trucks were not rated)");
    } else if (limited) {
        add_limit(text, "single-unit trucks", single, units);
        add_limit(text, "combinations", combination, units);
    }
    if (sign->group_N[SS_POSTING_FARM] < SS_INFINITY) {
        add_limit(text, "farm vehicles", sign->group_N[SS_POSTING_FARM], units);
    }
}

static void add_emergency(ss_text *text, const ss_posting_sign *sign, ss_unit_system units) {
    if (!(sign->emergency_N < SS_INFINITY)) {
        return;
    }
    ss_text own = {0};
    if (sign->emergency_N == 0.0) {
        ss_text_add(&own, "not allowed");
    } else {
        if (sign->axle_N < SS_INFINITY) {
            add_limit(&own, "single axle", sign->axle_N, units);
        }
        if (sign->tandem_N < SS_INFINITY) {
            add_limit(&own, "tandem", sign->tandem_N, units);
        }
        add_limit(&own, "gross", sign->emergency_N, units);
    }
    ss_text_printf(text, "%semergency vehicles%s %s", text->length > 0 ? "; " : "",
                   sign->emergency_N == 0.0 ? "" : ":", own.data == NULL ? "" : own.data);
    text->failed = text->failed || own.failed;
    ss_text_destroy(&own);
}

/* Vehicles other than legal trucks that may not cross at any weight, each once. */
static void add_banned(const ss_posting_builder *b, bool one, ss_text *text) {
    int last = -1; /* rows of one vehicle are neighbours */
    for (int i = 0; i < b->made.row_count; i++) {
        const ss_posting_row *const row = &b->made.rows[i];
        if (row->safe_N == 0.0 && row->group != SS_POSTING_EMERGENCY && row->vehicle != last &&
            ss_posting_in_sign(b, row, one)) {
            add_limit(text, b->bridge->vehicles[row->vehicle].name, 0.0, b->made.units);
            last = row->vehicle;
        }
    }
}

static void set_words(ss_posting_builder *b, ss_posting_sign *sign, bool one) {
    switch (sign->state) {
    case SS_POSTING_UNKNOWN: sign->words = "not known"; return;
    case SS_POSTING_OPEN: sign->words = "no limit"; return;
    case SS_POSTING_CLOSED: sign->words = "closed"; return;
    case SS_POSTING_LIMITED: break;
    }
    ss_text text = {0};
    add_trucks(&text, sign, b->made.units);
    add_banned(b, one, &text);
    add_emergency(&text, sign, b->made.units);
    b->failed = b->failed || text.failed;
    sign->words = ss_posting_text(b, "%s", text.data == NULL ? "" : text.data);
    ss_text_destroy(&text);
}

/* ---- reasons ---------------------------------------------------------------------------------------- */

static const char *crossing_words(ss_posting_builder *b, const ss_posting_row *row) {
    const ss_bridge *const bridge = b->bridge;
    const int index = b->placements->traffic[row->traffic].crossing;
    if (index < 0) {
        return "alone";
    }
    const ss_crossing *const crossing = &bridge->crossings[index];
    switch (crossing->kind) {
    case SS_CROSSING_ALONE: return "alone";
    case SS_CROSSING_BESIDE:
        return crossing->beside == row->vehicle || crossing->beside < 0
                   ? ss_posting_text(b, "in each of %d lanes", crossing->lanes)
                   : ss_posting_text(b, "with %s in %s", bridge->vehicles[crossing->beside].name,
                                     crossing->lanes == 2 ? "the other lane" : "the other lanes");
    case SS_CROSSING_CENTRED: return "along the middle of the roadway";
    case SS_CROSSING_LINE: return "along the signed line";
    }
    return "";
}

/* A safe load to a tenth, cut off. */
static const char *safe_words(double safe_N, ss_unit_system units, char buffer[SS_POSTING_WORDS]) {
    const double tenth = 0.1 * (units == SS_UNITS_SI ? TONNE : TON);
    return ss_posting_weight(floor(safe_N / tenth + 1e-9) * tenth, units, 1, buffer);
}

static const char *load_words(ss_posting_builder *b, const ss_posting_row *row, double rf, double safe_N) {
    char safe[SS_POSTING_WORDS], of[SS_POSTING_WORDS];
    if (!(safe_N < SS_INFINITY)) {
        return "no limit";
    }
    if (safe_N == 0.0) {
        return b->made.method == SS_METHOD_LRFR && rf > 0.0 ? "below 0.3, it may not cross"
                                                            : "it may not cross";
    }
    const char *const gross = ss_posting_text(b, "%s of %s", safe_words(safe_N, b->made.units, safe),
                                              ss_posting_weight(row->weight_N, b->made.units, 1, of));
    if (row->group != SS_POSTING_EMERGENCY) {
        return ss_posting_text(b, "safe load %s", gross);
    }
    return ss_posting_text(b, "%s %s of %s, gross %s", row->tandem ? "tandem" : "single axle",
                           safe_words(ss_posting_load(b->made.method, rf, row->axle_N), b->made.units, safe),
                           ss_posting_weight(row->axle_N, b->made.units, 1, of), gross);
}

static void reason_of(ss_posting_builder *b, const ss_posting_row *row) {
    char rf[SS_POSTING_WORDS];
    const char *const name = b->bridge->vehicles[row->vehicle].name;
    const char *const way = crossing_words(b, row);
    if (row->alternative && !isnan(row->rf)) {
        ss_posting_reason(b, "A restriction, not part of the sign: %s, %s: rating factor %s, %s.", name, way,
                          factor(row->rf, rf), load_words(b, row, row->rf, row->safe_N));
    } else if (row->counts && row->rf < 1.0) {
        ss_posting_reason(b, "%s, %s: rating factor %s, %s.", name, way, factor(row->rf, rf),
                          load_words(b, row, row->rf, row->safe_N));
        if (!isnan(row->slow_rf)) {
            ss_posting_reason(b,
                              "A restriction, not part of the sign: %s, %s, at %s or less: rating factor "
                              "about %s, %s; an estimate that scales the dynamic allowance alone.",
                              name, way, b->made.units == SS_UNITS_SI ? "16 km/h" : "10 mph",
                              factor(row->slow_rf, rf), load_words(b, row, row->slow_rf, row->slow_N));
        }
    }
}

/* ---- notes ------------------------------------------------------------------------------------------ */

static void note_row(ss_posting_builder *b, const ss_posting_row *row) {
    const ss_bridge *const bridge = b->bridge;
    const char *const name = bridge->vehicles[row->vehicle].name;
    const int index = b->placements->traffic[row->traffic].crossing;
    const ss_crossing_kind kind = index < 0 ? SS_CROSSING_ALONE : bridge->crossings[index].kind;
    if (isnan(row->rf)) {
        ss_posting_note(b, "%s, %s, was not rated and is not in the sign.", name, crossing_words(b, row));
        return;
    }
    if (row->counts && row->rf < 1.0 && row->local && row->proved > 0.0) {
        ss_posting_note(b,
                        "%s, %s: the places of the trucks were found by moving one after the other; what is "
                        "proven of all arrangements is %d %% of the factor, and the safe load may be lower.",
                        name, crossing_words(b, row), (int)(100.0 * row->proved / row->rf));
    } else if (row->counts && row->rf < 1.0 && row->local) {
        ss_posting_note(b,
                        "%s, %s: the places of the trucks were found by moving one after the other; another "
                        "arrangement may be worse, and the safe load lower.",
                        name, crossing_words(b, row));
    }
    if (row->counts && row->rf < 1.0 && row->tips) {
        ss_posting_note(b, "%s, %s: the bridge would tip before a member is full.", name,
                        crossing_words(b, row));
    }
    if (row->counts && (kind == SS_CROSSING_CENTRED || kind == SS_CROSSING_LINE)) {
        ss_posting_note(b, "%s was rated %s only: the sign holds while trucks are kept there.", name,
                        crossing_words(b, row));
    }
    if (row->counts && bridge->vehicles[row->vehicle].kind == SS_VEHICLE_DESIGN) {
        ss_posting_note(b, "No legal load among %s was rated; the design truck %s stands for them.",
                        ss_posting_group_name(row->group), name);
    }
}

static void note_groups(ss_posting_builder *b) {
    const ss_posting_sign *const sign = &b->made.free;
    const bool limited = sign->state == SS_POSTING_LIMITED || sign->state == SS_POSTING_CLOSED;
    if (limited) {
        ss_posting_note(b,
                        "A truck with three or more groups of axles, more than %s apart, counts as a "
                        "combination, any other as a single unit.",
                        b->made.units == SS_UNITS_SI ? "2.44 m" : "8 ft");
    }
    if (limited && sign->rated[SS_POSTING_SINGLE] && !sign->rated[SS_POSTING_COMBINATION]) {
        ss_posting_note(b, "No combination was rated; the limit of single-unit trucks is taken for all, "
                           "because of the same weight the shorter truck is the worse one.");
    }
    if (sign->state != SS_POSTING_UNKNOWN && !sign->rated[SS_POSTING_SINGLE]) {
        ss_posting_note(b, "No single-unit truck was rated: nothing is known of a limit for them.");
    }
    if (sign->emergency_N < SS_INFINITY && b->made.method == SS_METHOD_LRFR) {
        ss_posting_note(b, "Emergency vehicles are posted by the same equation as legal loads, the lower of "
                           "the two in use; some states post rating factor times weight.");
    }
    if (sign->emergency_N < SS_INFINITY) {
        ss_posting_note(b, "The gross limit of emergency vehicles is the smallest of those that need one, "
                           "and holds for all of them.");
    }
}

static void note_method(ss_posting_builder *b) {
    if (b->made.method == SS_METHOD_LRFR) {
        return;
    }
    if (b->made.level == SS_LEVEL_INVENTORY) {
        ss_posting_note(b, "Only the inventory level was rated; a posting by it is lower than need be.");
    } else {
        ss_posting_note(b, "The operating level is the most that may be posted; an owner may choose less, "
                           "down to inventory.");
    }
    if (b->made.method == SS_METHOD_ASR) {
        ss_posting_note(b, "In current federal practice allowable stress serves for posting only.");
    }
}

static void note_deflection(ss_posting_builder *b) {
    for (int c = 0; c < b->ratings->check_count; c++) {
        const int item = b->ratings->worst == NULL ? -1 : b->ratings->worst[c];
        if (b->ratings->checks[c].limit != SS_LIMIT_DEFLECTION || item < 0 ||
            b->ratings->items[item].rf >= 1.0) {
            continue;
        }
        char rf[SS_POSTING_WORDS];
        const int traffic = b->ratings->items[item].traffic;
        ss_posting_note(b,
                        "Deflection under %s passes its limit (factor %s): a matter of comfort, which no "
                        "load is posted for.",
                        b->bridge->vehicles[b->placements->traffic[traffic].vehicle].name,
                        factor(b->ratings->items[item].rf, rf));
    }
}

/* ---- recommendation --------------------------------------------------------------------------------- */

static const char *advice(ss_posting_builder *b, const ss_posting_sign *sign) {
    switch (sign->state) {
    case SS_POSTING_UNKNOWN: return "No posting follows: no truck was rated that a sign could stand for.";
    case SS_POSTING_OPEN: return "No load limit follows from these ratings.";
    case SS_POSTING_LIMITED: return ss_posting_text(b, "Post: %s.", sign->words);
    case SS_POSTING_CLOSED:
        return b->made.units == SS_UNITS_SI
                   ? "Close the bridge: a legal truck could not cross with 2.7 t (3 tons of 2000 lb)."
                   : "Close the bridge: a legal truck could not cross with 3 tons.";
    }
    return "";
}

/* What changes if trucks can be kept from meeting. */
static const char *advice_one(ss_posting_builder *b) {
    const ss_posting_sign *const one = &b->made.one;
    if (!b->made.lanes_matter) {
        return "";
    }
    const char *const limit = one->state == SS_POSTING_OPEN ? "no load limit follows" : one->words;
    return ss_posting_text(b,
                           " That is for trucks that meet on the bridge. If it is narrowed to one lane, so "
                           "that one truck crosses at a time: %s.",
                           limit);
}

void ss_posting_say(ss_posting_builder *b) {
    set_words(b, &b->made.free, false);
    set_words(b, &b->made.one, true);
    const char *const first = advice(b, &b->made.free);
    b->made.recommendation =
        ss_posting_text(b, "%s%s The decision is the owner's and the state's; this is no permit to cross.",
                        first, advice_one(b));
    for (int i = 0; i < b->made.row_count; i++) reason_of(b, &b->made.rows[i]);
    for (int i = 0; i < b->made.row_count; i++) note_row(b, &b->made.rows[i]);
    note_groups(b);
    note_method(b);
    note_deflection(b);
}
