/* units_parse.c - quantities and lists of them as a tape or a scale reads them. */
#include "sillspan/units.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "base/try.h"
#include "base/unit_expression.h"
#include "sillspan/text.h"

#define INCHES_IN_FOOT 12.0

/* What every function here needs to say what is wrong. */
typedef struct request {
    const char *text;
    ss_dimension due;
    ss_error *error;
} request;

/* A number without sign, as "5", "5.25", "3/8", "5 3/8" or "5-3/8". */
typedef struct magnitude {
    double value;
    bool whole; /* written as a whole number and nothing else */
} magnitude;

typedef struct quantity {
    const char *start;
    const char *end;
    double number; /* in `unit` when it has one */
    bool has_unit;
    bool feet_and_inches;
    ss_unit unit;
} quantity;

/* What the whole list says about units, once it has been read. */
typedef struct list_facts {
    int count;
    int without_unit;
    bool units_differ; /* two of them have units of different size */
    quantity last;     /* the last with a unit */
    quantity final;    /* the last of all */
} list_facts;

static bool is_digit(char letter) {
    return letter >= '0' && letter <= '9';
}

static bool starts_number(const char *at) {
    return is_digit(at[0]) || (at[0] == '.' && is_digit(at[1]));
}

static const char *skip_digits(const char *at) {
    while (is_digit(*at)) {
        at++;
    }
    return at;
}

/* "<excerpt>" <what>; <a length> is due, such as <7 ft 6 in> */
static ss_status refuse(const request *ask, const char *start, const char *end, const char *what) {
    const ss_unit_excerpt found = ss_unit_excerpt_of(start, end);
    const ss_dimension_row *row = ss_unit_dimension(ask->due);
    return ss_error_set(ask->error, SS_ERROR_DESCRIPTION, "\"%s\" %s; %s %s is due, such as %s", found.text,
                        what, ss_unit_article(row->name), row->name, row->example);
}

/* Says what the quantity is instead of what it should be. */
static ss_status refuse_kind(const request *ask, const quantity *item) {
    const char *kind = ss_unit_kind(&item->unit);
    const ss_unit_excerpt found = ss_unit_excerpt_of(item->start, item->end);
    const ss_dimension_row *row = ss_unit_dimension(ask->due);
    if (kind == NULL) {
        return refuse(ask, item->start, item->end, "is no quantity of a kind known here");
    }
    return ss_error_set(ask->error, SS_ERROR_DESCRIPTION, "%s is %s %s; %s %s is due, such as %s", found.text,
                        ss_unit_article(kind), kind, ss_unit_article(row->name), row->name, row->example);
}

/* Shows the user's own figures with a unit put behind them. */
static ss_status refuse_bare(const request *ask, const char *start, const char *end) {
    const ss_unit_excerpt found = ss_unit_excerpt_of(start, end);
    const ss_dimension_row *row = ss_unit_dimension(ask->due);
    return ss_error_set(ask->error, SS_ERROR_DESCRIPTION, "\"%s\" has no unit; %s %s is due, such as %s %s",
                        found.text, ss_unit_article(row->name), row->name, found.text,
                        row->shown[SS_UNITS_US]);
}

/* Reads "3/8" at `at`, where digits and a '/' are known to stand; adds it to the value. */
static ss_status read_fraction(const request *ask, const char *start, const char **at, bool proper,
                               double *value) {
    const double above = ss_text_number(*at, at);
    const double below = ss_text_number(*at + 1, at);
    /* ss_text_number also takes a point or an exponent, which no tape has. */
    for (const char *byte = start; byte < *at; byte++) {
        if (strchr(".eE", *byte) != NULL) {
            return refuse(ask, start, *at, "is no fraction of whole numbers");
        }
    }
    if (below == 0.0) {
        return refuse(ask, start, *at, "divides by zero");
    }
    if (proper && above >= below) {
        return refuse(ask, start, *at, "has a fraction of one or more behind a whole number");
    }
    *value += above / below;
    return SS_OK;
}

/* Whether digits, a '/' and a digit stand at `at`. */
static bool starts_fraction(const char *at) {
    const char *slash = skip_digits(at);
    return slash != at && slash[0] == '/' && is_digit(slash[1]);
}

static ss_status read_magnitude(const request *ask, const char **at, magnitude *result) {
    const char *start = *at;
    const char *end = start;
    double value = ss_text_number(start, &end);
    bool whole = end == skip_digits(start);
    ss_status status = SS_OK;
    if (end[0] == '/' && is_digit(end[1])) {
        value = 0.0;
        whole = false;
        end = start;
        SS_TRY(read_fraction(ask, start, &end, false, &value));
    } else if (whole) {
        const char *next = ss_unit_skip_space(end);
        if (next == end && *next == '-') {
            next++;
        }
        if (next != end && starts_fraction(next)) {
            whole = false;
            end = next;
            SS_TRY(read_fraction(ask, start, &end, true, &value));
        }
    }
    *result = (magnitude){value, whole};
    *at = end;
done:
    return status;
}

static bool is_length_of(const ss_unit *unit, const char *name) {
    ss_unit same = {0};
    return ss_unit_find(name, strlen(name), &same) && unit->force == 0 && unit->angle == 0 &&
           unit->length == 1 && unit->factor == same.factor;
}

/*
 * Where the inches after feet begin: "2 ft 3", "2'3", "2 ft-3", "2 ft - 3"; NULL when none follow. In "2 ft
 * -3 in" the sign could be meant as one, so it is left to be refused.
 */
static const char *find_inches(const char *at) {
    const char *next = ss_unit_skip_space(at);
    if (*next == '-') {
        const char *behind = ss_unit_skip_space(next + 1);
        if ((next != at) != (behind != next + 1)) {
            return NULL;
        }
        next = behind;
    }
    return starts_number(next) ? next : NULL;
}

/* Turns whole feet into feet and inches when inches follow. */
static ss_status read_inches(const request *ask, quantity *item, bool whole_feet) {
    ss_status status = SS_OK;
    const char *at = find_inches(item->end);
    if (at == NULL) {
        goto done;
    }
    const char *start = at;
    magnitude inches = {0};
    ss_unit unit = {0};
    SS_TRY(read_magnitude(ask, &at, &inches));
    const char *mark = ss_unit_skip_space(at);
    SS_TRY(ss_unit_expression_read(mark, &at, &unit, ask->due, ask->error));
    if (at == mark || !is_length_of(&unit, "in")) {
        status = refuse(ask, start, at, "follows feet but is not in inches");
    } else if (!whole_feet) {
        status = refuse(ask, item->start, at, "has inches after feet that are not whole");
    } else if (inches.value >= INCHES_IN_FOOT) {
        status = refuse(ask, item->start, at, "has 12 inches or more after its feet");
    } else {
        item->number = item->number * INCHES_IN_FOOT + inches.value;
        item->unit = unit;
        item->feet_and_inches = true;
        item->end = at;
    }
done:
    return status;
}

/* Reads one quantity at item->start up to a comma or the end. */
static ss_status read_quantity(const request *ask, quantity *item) {
    ss_status status = SS_OK;
    const char *at = item->start;
    const char *stop = at + strcspn(at, ",");
    const bool negative = *at == '-';
    if (*at == '-' || *at == '+') {
        at++;
    }
    if (!starts_number(at)) {
        status = item->start == stop
                     ? refuse(ask, ask->text, stop + strlen(stop), "lacks a value beside a comma")
                     : refuse(ask, item->start, stop, "does not begin with a number");
        goto done;
    }
    magnitude number = {0};
    SS_TRY(read_magnitude(ask, &at, &number));
    item->number = number.value;
    item->end = at;
    const char *mark = ss_unit_skip_space(at);
    SS_TRY(ss_unit_expression_read(mark, &at, &item->unit, ask->due, ask->error));
    item->has_unit = at != mark;
    if (item->has_unit) {
        item->end = at;
        if (is_length_of(&item->unit, "ft")) {
            SS_TRY(read_inches(ask, item, number.whole));
        }
    }
    if (negative) {
        item->number = -item->number;
    }
    const char *rest = ss_unit_skip_space(item->end);
    if (*rest != ',' && *rest != '\0') {
        const ss_unit_excerpt left = ss_unit_excerpt_of(rest, stop);
        const ss_unit_excerpt right = ss_unit_excerpt_of(item->start, item->end);
        status = ss_error_set(ask->error, SS_ERROR_DESCRIPTION,
                              "\"%s\" is not understood after \"%s\"; %s %s is due, such as %s", left.text,
                              right.text, ss_unit_article(ss_units_dimension_name(ask->due)),
                              ss_units_dimension_name(ask->due), ss_units_example(ask->due));
        goto done;
    }
    if (item->has_unit && !ss_unit_fits(&item->unit, ask->due)) {
        status = refuse_kind(ask, item);
    }
done:
    return status;
}

/*
 * "1,200 lb" may mean one number or two, and "0,125 in" is a decimal comma: a comma right before three digits
 * is refused.
 */
static ss_status refuse_grouping(const request *ask) {
    for (const char *at = ask->text + 1; *at != '\0'; at++) {
        if (*at == ',' && is_digit(at[-1]) && skip_digits(at + 1) == at + 4) {
            const char *start = at;
            while (start > ask->text && is_digit(start[-1])) {
                start--;
            }
            const ss_unit_excerpt found = ss_unit_excerpt_of(start, at + 4);
            return ss_error_set(
                ask->error, SS_ERROR_DESCRIPTION,
                "\"%s\" can be read as one number or as two; a comma parts values and has a space "
                "behind it, and the decimal point is '.'",
                found.text);
        }
    }
    return SS_OK;
}

/* Reads every quantity of the list; `unit_of_bare` (or NULL) is for those without their own, `values` (or
 * NULL) gets them. */
static ss_status read_list(const request *ask, list_facts *facts, const ss_unit *unit_of_bare,
                           double *values) {
    ss_status status = SS_OK;
    *facts = (list_facts){0};
    const char *at = ss_unit_skip_space(ask->text);
    for (;;) {
        quantity item = {.start = at};
        SS_TRY(read_quantity(ask, &item));
        if (item.has_unit) {
            const ss_unit *before = &facts->last.unit;
            facts->units_differ =
                facts->units_differ || (facts->last.has_unit && before->factor != item.unit.factor);
            facts->last = item;
        } else {
            facts->without_unit++;
        }
        const double factor =
            item.has_unit ? item.unit.factor : (unit_of_bare != NULL ? unit_of_bare->factor : 1.0);
        const double value = item.number * factor;
        if (!isfinite(value)) {
            status = refuse(ask, item.start, item.end, "is too large");
            goto done;
        }
        /* The sum turns a negative zero into a zero. */
        if (values != NULL) {
            values[facts->count] = value + 0.0;
        }
        facts->count++;
        facts->final = item;
        at = ss_unit_skip_space(item.end);
        if (*at == '\0') {
            break;
        }
        at = ss_unit_skip_space(at + 1);
    }
done:
    return status;
}

/* Whether it is plain which unit each value has. */
static ss_status check_units(const request *ask, const list_facts *facts) {
    const char *end = ask->text + strlen(ask->text);
    const bool number = ask->due == SS_DIM_NUMBER;
    if (!facts->final.has_unit && facts->last.has_unit) {
        return refuse(ask, facts->final.start, facts->final.end,
                      "has no unit, but a value before it has one");
    }
    if (!facts->last.has_unit) {
        return number ? SS_OK : refuse_bare(ask, ask->text, end);
    }
    if (facts->without_unit > 0 && (facts->units_differ || facts->last.feet_and_inches)) {
        return refuse(ask, ask->text, end, "leaves open which unit goes with which value; give each its own");
    }
    return SS_OK;
}

ss_status ss_units_parse(const char *text, ss_dimension dimension, double *values, int capacity, int *count,
                         ss_error *error) {
    ss_status status = SS_OK;
    const request ask = {.text = text, .due = dimension, .error = error};
    const ss_dimension_row *row = ss_unit_dimension(dimension);
    list_facts facts = {0};
    if (*ss_unit_skip_space(text) == '\0') {
        status = ss_error_set(error, SS_ERROR_DESCRIPTION, "an empty text; %s %s is due, such as %s",
                              ss_unit_article(row->name), row->name, row->example);
        goto done;
    }
    SS_TRY(refuse_grouping(&ask));
    SS_TRY(read_list(&ask, &facts, NULL, NULL));
    SS_TRY(check_units(&ask, &facts));
    if (facts.count > capacity) {
        const ss_unit_excerpt found = ss_unit_excerpt_of(text, text + strlen(text));
        status =
            ss_error_set(error, SS_ERROR_DESCRIPTION, "\"%s\" holds %d values; at most %d can stand here",
                         found.text, facts.count, capacity);
        goto done;
    }
    /* Once more to find an overflow under the common unit, before anything is written. */
    const ss_unit common = facts.last.has_unit ? facts.last.unit : (ss_unit){.factor = 1.0};
    SS_TRY(read_list(&ask, &facts, &common, NULL));
    SS_TRY(read_list(&ask, &facts, &common, values));
    *count = facts.count;
done:
    return status;
}
