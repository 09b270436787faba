/* report_sweep_tables.c - the curve and the range of each truck, for people. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_sweep.h"
#include "report/report_words.h"

/* Shares that are shown: fewer beside a column of what governs. */
enum { ROWS = 24, SHARES = 4, SHARES_BESIDE = 2 };

/* ---- the curve ---------------------------------------------------------------------------------------- */

/* The followed results that the curve shows, of one truck. */
typedef struct shown {
    int share[SHARES], share_count;
    int joint;           /* -1: none */
    const char *governs; /* what governs at every point that is shown; NULL: not everywhere the same */
    int digits;          /* of factors: three decimals where two would not show that they change */
    int deflection[SHARES], deflection_count;
} shown;

/* What governs at every point that people see, or NULL. */
static const char *governs_all_along(const ss_sweep *sweep) {
    int points[ROWS];
    const int count = ss_swept_shown(sweep, points, ROWS);
    const char *first = NULL;
    for (int i = 0; i < count; i++) {
        const ss_trial *const t = &sweep->points[points[i]];
        if (t->failure != NULL || (first != NULL && strcmp(first, t->governs) != 0)) {
            return NULL;
        }
        first = t->governs;
    }
    return first;
}

static double change_of(const ss_builder *b, int result) {
    const ss_sweep_band *const band = &b->results->sweep->results[result];
    return isnan(band->least) ? 0.0 : band->most - band->least;
}

/* The shares that change most, in the order of the cars. */
static void choose_shares(const ss_builder *b, int traffic, shown *s) {
    const ss_follow *const follow = &b->results->sweep->trials.follow;
    const int room = s->governs == NULL ? SHARES_BESIDE : SHARES;
    for (int i = 0; i < follow->count; i++) {
        if (follow->items[i].traffic != traffic || follow->items[i].kind != SS_FOLLOW_SHARE) {
            continue;
        }
        int greater = 0;
        for (int k = 0; k < follow->count; k++) {
            const double more = change_of(b, k) - change_of(b, i);
            greater += follow->items[k].traffic == traffic && follow->items[k].kind == SS_FOLLOW_SHARE &&
                       (more > 1e-9 || (k < i && !(more < -1e-9)));
        }
        if (greater < room && s->share_count < room) {
            s->share[s->share_count++] = i;
        }
    }
}

static shown choose(const ss_builder *b) {
    const ss_follow *const follow = &b->results->sweep->trials.follow;
    const int traffic = ss_swept_traffic(b);
    const ss_sweep_band *const rating = &b->results->sweep->rating;
    shown s = {.joint = -1,
               .governs = governs_all_along(b->results->sweep),
               .digits = rating->most - rating->least < 0.1 ? 3 : 2};
    choose_shares(b, traffic, &s);
    for (int i = 0; i < follow->count; i++) {
        const ss_followed *const f = &follow->items[i];
        if (f->traffic != traffic) {
            continue;
        }
        if (f->kind == SS_FOLLOW_JOINT_SHEAR &&
            (s.joint < 0 ||
             (ss_swept_has_joint(b, f->member) && !ss_swept_has_joint(b, follow->items[s.joint].member)))) {
            s.joint = i;
        } else if (f->kind == SS_FOLLOW_DEFLECTION && s.deflection_count < SHARES) {
            s.deflection[s.deflection_count++] = i;
        }
    }
    return s;
}

static double largest(const ss_trial *t, const int *which, int count) {
    double most = (double)NAN;
    for (int i = 0; i < count; i++) {
        most = isnan(most) || t->followed[which[i]] > most ? t->followed[which[i]] : most;
    }
    return most;
}

static void put(ss_sheet *sheet, double value) {
    if (isnan(value)) {
        ss_sheet_none(sheet);
    } else {
        ss_sheet_value(sheet, value);
    }
}

/* What is special about a point. */
static const char *remark(ss_builder *b, int i) {
    const ss_sweep *const sweep = b->results->sweep;
    const char *const what = i == sweep->described ? "as described"
                             : i == sweep->worst   ? "worst"
                             : i == sweep->best    ? "best"
                                                   : NULL;
    if (!sweep->points[i].joint_out) {
        return what;
    }
    return what == NULL ? "joint out" : ss_build_text(b, "%s, joint out", what);
}

static int add_column(ss_column *columns, int count, ss_column column) {
    columns[count] = column;
    columns[count].audience = SS_FOR_PEOPLE;
    return count + 1;
}

static int head(ss_builder *b, const shown *s, ss_column *columns) {
    const ss_follow *const follow = &b->results->sweep->trials.follow;
    const ss_sweep_axis *const axis = &b->results->sweep->axis[0];
    int count = add_column(columns, 0,
                           (ss_column){"", axis->whole ? "scale" : "value", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE});
    if (axis->whole && !isnan(ss_swept_stiffness(b, 1.0))) {
        count =
            add_column(columns, count,
                       (ss_column){"", "joint stiffness", ss_swept_stiffness_dimension(b), 2, SS_FOR_PEOPLE});
    }
    count = add_column(columns, count, (ss_column){"", "factor", SS_DIM_NUMBER, -s->digits, SS_FOR_PEOPLE});
    count =
        add_column(columns, count, (ss_column){"", "joint's own factor", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE});
    for (int i = 0; i < s->share_count; i++) {
        count = add_column(columns, count,
                           (ss_column){"", ss_build_text(b, "share of %s", follow->items[s->share[i]].car),
                                       SS_DIM_NUMBER, -2, SS_FOR_PEOPLE});
    }
    if (s->joint >= 0) {
        count = add_column(columns, count,
                           (ss_column){"", ss_build_text(b, "shear of %s", follow->items[s->joint].member),
                                       ss_followed_dimension(b, &follow->items[s->joint]), 3, SS_FOR_PEOPLE});
    }
    if (s->deflection_count > 0) {
        count =
            add_column(columns, count, (ss_column){"", "deflection", SS_DIM_SMALL_LENGTH, 3, SS_FOR_PEOPLE});
    }
    if (s->governs == NULL) {
        count = add_column(columns, count, (ss_column){"", "what governs", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE});
    }
    return add_column(columns, count, (ss_column){"", "", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE});
}

static void row(ss_builder *b, ss_sheet *sheet, const shown *s, int i) {
    const ss_sweep *const sweep = b->results->sweep;
    const ss_trial *const t = &sweep->points[i];
    const double value = sweep->axis[0].value[i];
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, ss_swept_said(b, 0, i));
    if (sweep->axis[0].whole && !isnan(ss_swept_stiffness(b, 1.0))) {
        if (value == 0.0 || isinf(value)) {
            ss_sheet_none(sheet);
        } else {
            ss_sheet_value(sheet, ss_swept_stiffness(b, value));
        }
    }
    put(sheet, ss_rated_cut(t->rf, s->digits));
    put(sheet, isinf(t->joint) ? (double)NAN : ss_rated_cut(t->joint, 2));
    for (int k = 0; k < s->share_count; k++) put(sheet, t->followed[s->share[k]]);
    if (s->joint >= 0) {
        put(sheet, t->followed[s->joint]);
    }
    if (s->deflection_count > 0) {
        put(sheet, largest(t, s->deflection, s->deflection_count));
    }
    if (s->governs == NULL) {
        ss_sheet_text(sheet, t->failure != NULL ? t->failure : t->governs);
    }
    ss_sheet_text(sheet, remark(b, i));
}

static void curve(ss_builder *b) {
    int points[ROWS];
    ss_column *const columns = ss_arena_alloc(&b->report->arena, 16, sizeof *columns);
    if (columns == NULL) {
        b->failed = true;
        return;
    }
    const shown s = choose(b);
    const int traffic = ss_swept_traffic(b);
    const char *const along =
        s.governs == NULL ? "" : ss_build_text(b, "All along it is the %s that governs. ", s.governs);
    const char *const scale = b->results->sweep->axis[0].whole
                                  ? "Scale: times the stiffness that the description gives of a joint, or "
                                    "that is estimated from its "
                                    "parts; all that are swept have the same. "
                                  : "";
    const char *const note =
        traffic < 0
            ? NULL
            : ss_build_text(
                  b,
                  "%s%sShares, shear of a joint and deflection are of one %s with the load of its lane, "
                  "without factors, wherever it makes them largest. A joint's own factor is of the "
                  "strength check. Every point is in the CSV and JSON output.",
                  scale, along,
                  b->results->bridge
                      ->vehicles[b->results->sweep->trials.watch.placements.traffic[traffic].vehicle]
                      .name);
    ss_sheet sheet =
        ss_build_table(b, &(ss_table){.key = "sweep_curve",
                                      .title = ss_build_text(b, "Along the sweep of %s", ss_swept_what(b, 0)),
                                      .note = note,
                                      .audience = SS_FOR_PEOPLE,
                                      .column_count = head(b, &s, columns),
                                      .columns = columns});
    const int count = ss_swept_shown(b->results->sweep, points, ROWS);
    for (int i = 0; i < count; i++) row(b, &sheet, &s, points[i]);
}

/* ---- trucks ------------------------------------------------------------------------------------------- */

static void trucks(ss_builder *b) {
    static const ss_column columns[] = {
        {"", "truck", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE}, {"", "worst", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
        {"", "with", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},  {"", "best", SS_DIM_NUMBER, -2, SS_FOR_PEOPLE},
        {"", "with", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    };
    const ss_sweep *const sweep = b->results->sweep;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "sweep_range",
                                                   .title = "Each truck by itself",
                                                   .audience = SS_FOR_PEOPLE,
                                                   .column_count = SS_COLUMN_COUNT(columns),
                                                   .columns = columns});
    for (int v = 0; v < sweep->trials.truck_count; v++) {
        int worst = -1, best = -1;
        for (int i = 0; i < sweep->done; i++) {
            const double rf = sweep->points[i].failure == NULL ? sweep->points[i].truck[v] : (double)NAN;
            if (!isnan(rf) && (worst < 0 || rf < sweep->points[worst].truck[v] * (1.0 - 1e-9))) worst = i;
            if (!isnan(rf) && (best < 0 || rf > sweep->points[best].truck[v] * (1.0 + 1e-9))) best = i;
        }
        if (worst >= 0) {
            ss_sheet_row(&sheet);
            ss_sheet_text(&sheet, b->results->bridge->vehicles[v].name);
            ss_sheet_value(&sheet, ss_rated_cut(sweep->points[worst].truck[v], 2));
            ss_sheet_text(&sheet, ss_swept_value_said(b, sweep->axis[0].value[worst]));
            ss_sheet_value(&sheet, ss_rated_cut(sweep->points[best].truck[v], 2));
            ss_sheet_text(&sheet, ss_swept_value_said(b, sweep->axis[0].value[best]));
        }
    }
}

void ss_part_sweep_tables(ss_builder *b) {
    if (b->results->sweep->axis_count == 2) {
        ss_part_sweep_map(b);
        return;
    }
    curve(b);
    trucks(b);
    ss_part_sweep_changes(b);
}
