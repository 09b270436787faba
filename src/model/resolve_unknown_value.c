/* resolve_unknown_value.c - ranges and distributions of unknowns. */
#include "model/resolve_unknown.h"

#include "base/distribution.h"
#include "base/numeric.h"
#include "model/description_value.h"

/* A larger share of the draws beyond what the key allows is a fault. */
#define SHARE_BEYOND 1e-6

/* A cut distribution must keep more than this. */
#define SHARE_LEFT 1e-9

/* UNIFORM and on in the order of the choices of unknowns[].distribution. */
typedef enum form { RANGE, UNIFORM, NORMAL, LOGNORMAL, TRIANGULAR, DISCRETE } form;

/* Keys that do not belong to each. */
static const char *const foreign[] = {
    [RANGE] = "mean|sd|cov|mode|values|weights",
    [UNIFORM] = "mean|sd|cov|mode|values|weights",
    [NORMAL] = "mode|values|weights|scale",
    [LOGNORMAL] = "mode|values|weights|scale",
    [TRIANGULAR] = "mean|sd|cov|values|weights|scale",
    [DISCRETE] = "mean|sd|cov|mode|low|high|scale",
};

static const char *const foreign_why[] = {
    [RANGE] = "does not belong to a range; it has low, high and scale",
    [UNIFORM] = "does not belong to a uniform distribution; it has low, high and scale",
    [NORMAL] = "does not belong to a normal distribution; it has mean, sd or cov, and low and high where it "
               "is cut off",
    [LOGNORMAL] = "does not belong to a lognormal distribution; it has mean, sd or cov, and low and high "
                  "where it is cut "
                  "off",
    [TRIANGULAR] = "does not belong to a triangular distribution; it has low, mode and high",
    [DISCRETE] = "does not belong to values one by one; there are values and weights",
};

/* The key as one number of the dimension that it has. */
static ss_key as_number(const ss_unknown_item *item, bool free) {
    ss_key key = *item->key;
    if (key.kind == SS_KEY_CHOICE_OR_QUANTITY || (free && key.kind == SS_KEY_INTEGER)) {
        key.kind = SS_KEY_QUANTITY;
    }
    if (free) {
        key.least = key.most = key.likely_least = key.likely_most = NULL;
    }
    return key;
}

static bool need(ss_resolve *c, const ss_unknown_item *item, const char *name, bool free, const char *why,
                 double *out) {
    const ss_key key = as_number(item, free);
    if (!ss_read_given(item->node, name)) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, name, "not given; %s", why);
        return false;
    }
    return ss_unknown_read(c, item, name, &key, out);
}

static const char *say(const ss_resolve *c, const ss_unknown_item *item, double value, char out[SS_WORDS]) {
    return ss_resolve_quantity(c, value, item->key->dimension, out);
}

/* ---- ranges --------------------------------------------------------------------------------------- */

static bool rises(ss_resolve *c, const ss_unknown_item *item) {
    const ss_unknown *const u = item->unknown;
    char a[SS_WORDS];
    char b[SS_WORDS];
    if (u->low < u->high) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, item->node, "high", "%s does not lie above low, %s",
                     say(c, item, u->high, a), say(c, item, u->low, b));
    return false;
}

static bool read_range(ss_resolve *c, ss_unknown_item *item) {
    ss_unknown *const u = item->unknown;
    char a[SS_WORDS];
    const bool low = need(c, item, "low", false, "a range goes from low to high", &u->low);
    const bool high = need(c, item, "high", false, "a range goes from low to high", &u->high);
    const ss_node *const scale = ss_node_child(item->node, "scale");
    u->log = scale != NULL && ss_read_choice(&c->reading, item->node, "unknowns[].scale", NULL) == 1;
    if (!low || !high || !rises(c, item)) {
        return false;
    }
    if (u->log && !(u->low > 0.0)) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "scale",
                         "a log scale begins above 0, and low is %s", say(c, item, u->low, a));
        return false;
    }
    u->box_log = u->log;
    return true;
}

static bool read_triangle(ss_resolve *c, ss_unknown_item *item) {
    ss_unknown *const u = item->unknown;
    static const char why[] = "a triangular distribution has low, mode and high";
    char a[SS_WORDS];
    char b[SS_WORDS];
    char m[SS_WORDS];
    const bool low = need(c, item, "low", false, why, &u->low);
    const bool high = need(c, item, "high", false, why, &u->high);
    const bool mode = need(c, item, "mode", false, why, &u->mode);
    if (!low || !high || !mode || !rises(c, item)) {
        return false;
    }
    if (u->mode >= u->low && u->mode <= u->high) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, item->node, "mode", "%s lies outside low and high, %s to %s",
                     say(c, item, u->mode, m), say(c, item, u->low, a), say(c, item, u->high, b));
    return false;
}

/* ---- normal and lognormal ------------------------------------------------------------------------- */

static bool read_spread(ss_resolve *c, ss_unknown_item *item) {
    ss_unknown *const u = item->unknown;
    const bool sd = ss_read_given(item->node, "sd");
    double cov = 0.0;
    if (sd == ss_read_given(item->node, "cov")) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "sd", "%s",
                         sd ? "both sd and cov are given; one of them is due"
                            : "not given; the standard deviation is due, or cov as a share of the mean");
        return false;
    }
    if (!sd) {
        if (!ss_read_quantity(&c->reading, item->node, "unknowns[].cov", &cov)) {
            c->broken = true;
            return false;
        }
        u->sd = cov * fabs(u->mean);
    } else if (!need(c, item, "sd", true, "", &u->sd)) {
        return false;
    }
    if (u->sd > 0.0) {
        return true;
    }
    ss_read_complain(&c->reading, SS_FAULT, item->node, sd ? "sd" : "cov",
                     "the standard deviation would not be above 0%s", sd ? "" : "; with a mean of 0 give sd");
    return false;
}

/* Share of the distribution, before it is cut, up to x. */
static double share_below(const ss_unknown *u, double x) {
    if (u->kind == SS_UNKNOWN_LOGNORMAL) {
        return x > 0.0 ? ss_normal_share((log(x) - u->log_mean) / u->log_sd) : 0.0;
    }
    return ss_normal_share((x - u->mean) / u->sd);
}

/* Where the distribution is cut off; no draw may be what the key does not allow. */
static bool read_cut(ss_resolve *c, ss_unknown_item *item) {
    ss_unknown *const u = item->unknown;
    double least = 0.0;
    double most = 0.0;
    const ss_key key = as_number(item, false);
    const bool low = ss_read_given(item->node, "low");
    const bool high = ss_read_given(item->node, "high");
    u->low = -SS_INFINITY;
    u->high = SS_INFINITY;
    if ((low && !ss_unknown_read(c, item, "low", &key, &u->low)) ||
        (high && !ss_unknown_read(c, item, "high", &key, &u->high)) || !rises(c, item)) {
        return false;
    }
    if (share_below(u, u->high) - share_below(u, u->low) < SHARE_LEFT) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, low ? "low" : "high",
                         "next to nothing of the distribution is left between low and high");
        return false;
    }
    ss_value_limits(&key, &least, &most);
    if (!low && share_below(u, least) > SHARE_BEYOND) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "low",
                         "not given; the distribution reaches below the least allowed, %s", key.least);
        return false;
    }
    if (!high && 1.0 - share_below(u, most) > SHARE_BEYOND) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "high",
                         "not given; the distribution reaches above the most allowed, %s", key.most);
        return false;
    }
    return true;
}

static bool read_bell(ss_resolve *c, ss_unknown_item *item) {
    ss_unknown *const u = item->unknown;
    const bool lognormal = u->kind == SS_UNKNOWN_LOGNORMAL;
    char a[SS_WORDS];
    if (!need(c, item, "mean", true, "it has a mean and a standard deviation", &u->mean)) {
        return false;
    }
    if (lognormal && !(u->mean > 0.0)) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "mean",
                         "%s; the mean of a lognormal distribution is above 0", say(c, item, u->mean, a));
        return false;
    }
    if (!read_spread(c, item)) {
        return false;
    }
    if (lognormal) {
        ss_lognormal_of(u->mean, u->sd, &u->log_mean, &u->log_sd);
        u->box_log = true;
    }
    return read_cut(c, item);
}

/* ---- which ---------------------------------------------------------------------------------------- */

/* Warns where what is described lies outside what is said to be possible. */
static void compare_described(ss_resolve *c, const ss_unknown_item *item) {
    const ss_unknown *const u = item->unknown;
    const double slack = 1e-9 * ss_max(fabs(u->low), fabs(u->high));
    char d[SS_WORDS];
    char a[SS_WORDS];
    char b[SS_WORDS];
    if (u->described < u->low - slack || u->described > u->high + slack) {
        ss_read_complain(&c->reading, SS_WARNING, item->node, NULL,
                         "%s is described, which lies outside the range %s to %s",
                         say(c, item, u->described, d), say(c, item, u->low, a), say(c, item, u->high, b));
    }
}

static bool read_form(ss_resolve *c, const ss_unknown_item *item, form *out) {
    *out = RANGE;
    if (ss_read_given(item->node, "distribution")) {
        const int choice = ss_read_choice(&c->reading, item->node, "unknowns[].distribution", NULL);
        c->broken = c->broken || choice < 0;
        *out = choice < 0 ? RANGE : (form)(UNIFORM + choice);
        return choice >= 0;
    }
    if (ss_read_given(item->node, "values")) {
        *out = DISCRETE;
    } else if (ss_read_given(item->node, "mean")) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, "distribution",
                         "not given; a mean belongs to \"normal\" or \"lognormal\"");
        return false;
    } else if (!ss_read_given(item->node, "low") && !ss_read_given(item->node, "high")) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, NULL,
                         "it is not said what it can be; low and high, values or a distribution are due");
        return false;
    }
    return true;
}

static bool read_as(ss_resolve *c, ss_unknown_item *item, form which) {
    const ss_key_kind kind = item->key->kind;
    const bool number =
        kind == SS_KEY_QUANTITY || kind == SS_KEY_CHOICE_OR_QUANTITY || kind == SS_KEY_INTEGER;
    if (which == DISCRETE) {
        return ss_unknown_read_discrete(c, item);
    }
    if (!number) {
        ss_read_complain(&c->reading, SS_FAULT, item->node, ss_read_given(item->node, "low") ? "low" : NULL,
                         "\"%s\" is no number and has no range; its values one by one are due, values = "
                         "\"..., ...\"",
                         item->unknown->paths[0]);
        return false;
    }
    switch (which) {
    case NORMAL:
    case LOGNORMAL: return read_bell(c, item);
    case TRIANGULAR: return read_triangle(c, item);
    default: return read_range(c, item);
    }
}

bool ss_unknown_read_values(ss_resolve *c, ss_unknown_item *item) {
    static const ss_unknown_kind kinds[] = {SS_UNKNOWN_UNIFORM,   SS_UNKNOWN_UNIFORM,    SS_UNKNOWN_NORMAL,
                                            SS_UNKNOWN_LOGNORMAL, SS_UNKNOWN_TRIANGULAR, SS_UNKNOWN_DISCRETE};
    ss_unknown *const u = item->unknown;
    form which = RANGE;
    if (!read_form(c, item, &which)) {
        return false;
    }
    u->kind = kinds[which];
    ss_resolve_forbid(c, item->node, foreign[which], foreign_why[which]);
    if (!read_as(c, item, which)) {
        return false;
    }
    if (which == DISCRETE) {
        return true;
    }
    u->box_low = isfinite(u->low) ? u->low : ss_unknown_draw(u, SS_UNKNOWN_BOX_LOW);
    u->box_high = isfinite(u->high) ? u->high : ss_unknown_draw(u, SS_UNKNOWN_BOX_HIGH);
    u->box_log = u->box_log && u->box_low > 0.0;
    compare_described(c, item);
    return true;
}
