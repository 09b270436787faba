/* report_trust.c - how sure the results are: accuracy, bearings, what they hang on, warnings. */
#include "report/report_parts.h"

#include <math.h>

#include "report/report_words.h"

/* The worst equilibrium error of all that was solved; NaN when nothing was. */
static double worst_equilibrium(const ss_results *results) {
    double worst = (double)NAN;
    if (results->permanent != NULL) {
        worst = fmax(results->permanent->present.equilibrium, results->permanent->cars_alone.equilibrium);
    }
    if (results->envelope != NULL && results->envelope->checked_count > 0) {
        worst = fmax(worst, results->envelope->accuracy);
    }
    for (int i = 0; results->cases != NULL && i < results->cases->count; i++) {
        worst = fmax(worst, results->cases->items[i].equilibrium);
    }
    return worst;
}

static const ss_column accuracy_columns[] = {
    {"equilibrium_error", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"rcond", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"doubtful", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"free_motions", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"unknowns", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"stations", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"merged_stations", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"positions_checked", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"bearings_change", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"tips", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void add_accuracy(ss_builder *b) {
    const ss_results *results = b->results;
    const ss_trust *trust = ss_grillage_trust(results->grillage);
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "accuracy",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .record = true,
                                                   .column_count = SS_COLUMN_COUNT(accuracy_columns),
                                                   .columns = accuracy_columns});
    const double equilibrium = worst_equilibrium(results);
    ss_sheet_row(&sheet);
    if (isnan(equilibrium)) {
        ss_sheet_none(&sheet);
    } else {
        ss_sheet_value(&sheet, equilibrium);
    }
    ss_sheet_value(&sheet, trust->rcond);
    ss_sheet_flag(&sheet, trust->doubtful);
    ss_sheet_integer(&sheet, trust->free_motions);
    ss_sheet_integer(&sheet, results->mesh->order);
    ss_sheet_integer(&sheet, results->mesh->station_count);
    ss_sheet_integer(&sheet, results->mesh->merged_count);
    if (results->envelope != NULL) {
        ss_sheet_integer(&sheet, results->envelope->checked_count);
        ss_sheet_flag(&sheet, results->envelope->contact_matters);
        ss_sheet_flag(&sheet, results->envelope->tips);
    }
}

/* A power of ten that is certainly not below `value`, "1e-12": the digits of an error mean nothing, and
 * differ from machine to machine. */
static const char *upper_power(ss_builder *b, double value) {
    if (!(value > 0.0)) {
        return "1e-16";
    }
    return ss_build_text(b, "1e%d", (int)ceil(log10(value)));
}

static void say_accuracy(ss_builder *b, ss_points *points) {
    const ss_trust *trust = ss_grillage_trust(b->results->grillage);
    const double equilibrium = worst_equilibrium(b->results);
    if (!isnan(equilibrium)) {
        /* Better than this is rounding, whose size differs between machines. */
        ss_point(b, points,
                 "Arithmetic: what the bearings carry equals what was put on, to better than %s of it.",
                 upper_power(b, fmax(equilibrium, 1e-10)));
    }
    if (trust->doubtful) {
        ss_point(b, points,
                 "DOUBTFUL: the equations are nearly singular (reciprocal condition number below %s); the "
                 "bridge is close to being free to move, and few digits can be relied on.",
                 upper_power(b, trust->rcond));
    } else {
        ss_point(b, points,
                 "Stiffness: nothing is close to being free to move (reciprocal condition number about %s; "
                 "below 1e-12 would be doubtful).",
                 ss_words_quantity(b, trust->rcond, SS_DIM_NUMBER, 1));
    }
}

static void say_bearings(ss_builder *b, ss_points *points) {
    const ss_envelope *envelope = b->results->envelope;
    if (envelope == NULL || envelope->traffic_count == 0) {
        return;
    }
    if (envelope->contact_matters) {
        ss_point(
            b, points,
            "Bearings: under some truck a bearing, or one edge of a pad, lifts off or closes. That is "
            "followed at "
            "every position, so the results hang on the gaps and on what the bearings stand on: measure the "
            "daylight.");
        if (b->results->rated != NULL) {
            ss_point(b, points,
                     "Search: because of that, the places of trucks at which a rating follows the bearings "
                     "are chosen by an estimate, those that it puts within 7 to 30 percent of the worst. "
                     "Nothing proves that no worse place was passed over.");
        }
    } else if (envelope->contact_count > 0) {
        ss_point(b, points, "Bearings: all keep the state that dead load leaves them in, under every truck.");
    }
}

static const char *torsion_word(const ss_section *section) {
    if (!isnan(section->set_J)) {
        return "as a given number";
    }
    switch (section->torsion) {
    case SS_TORSION_CLOSED: return "as a closed box";
    case SS_TORSION_OPEN: return "as an open shape";
    case SS_TORSION_BATTENED: return "as closed by battens";
    }
    return "";
}

/* Which main girder section shares its load through torsion: the first one of the bridge. */
static const ss_section *main_section(const ss_bridge *bridge) {
    for (int i = 0; i < bridge->line_count; i++) {
        if (bridge->lines[i].role == SS_ROLE_MAIN) {
            return &bridge->sections[bridge->pieces[bridge->lines[i].first_piece].section];
        }
    }
    return NULL;
}

static const char *joint_word(ss_joint_kind kind) {
    switch (kind) {
    case SS_JOINT_NONE: return "none";
    case SS_JOINT_HINGED: return "a perfect hinge";
    case SS_JOINT_RIGID: return "rigid";
    case SS_JOINT_SPRINGS: return "springs";
    }
    return "";
}

static void say_sharing(ss_builder *b, ss_points *points) {
    const ss_bridge *bridge = b->results->bridge;
    const ss_section *section = main_section(bridge);
    int joints = 0;
    for (int i = 0; i < bridge->joint_count; i++) {
        const ss_joint *joint = &bridge->joints[i];
        if (joint->kind == SS_JOINT_NONE) {
            continue;
        }
        joints++;
        const char *stiffness = joint_word(joint->kind);
        if (joint->kind == SS_JOINT_SPRINGS) {
            stiffness = ss_build_text(
                b, "springs of %s in shear",
                ss_words_quantity(b, joint->shear,
                                  joint->connector_count > 0 ? SS_DIM_SPRING : SS_DIM_SPRING_PER_LENGTH, 3));
        }
        ss_point(b, points, "Joint %s is taken as %s. How much load crosses it hangs on that%s%s%s%s.",
                 joint->name, stiffness,
                 section == NULL ? "" : " and on the twisting stiffness of the main girders: section ",
                 section == NULL ? "" : section->name, section == NULL ? "" : ", taken ",
                 section == NULL ? "" : torsion_word(section));
    }
    for (int i = 0; b->results->rated != NULL && i < bridge->joint_count; i++) {
        const ss_joint *joint = &bridge->joints[i];
        if (joint->kind != SS_JOINT_NONE && isnan(joint->shear_capacity)) {
            ss_point(
                b, points,
                "Joint %s has no shear_capacity, so nothing tells whether it holds what these ratings ask "
                "of it (see what the joints carry, below). Rate without it too: --set "
                "\"bridge.joints.%s.kind=none\".",
                joint->name, joint->name);
        }
    }
    if (section != NULL && joints > 0) {
        const char *other =
            isnan(section->set_J)
                ? section->torsion == SS_TORSION_OPEN ? "torsion=closed" : "torsion=open"
                : ss_build_text(b, "J=%s",
                                ss_words_quantity(b, 0.5 * section->set_J, SS_DIM_SECOND_MOMENT, 3));
        ss_point(b, points,
                 "Neither is easy to see. Run again with another value, such as --set "
                 "\"sections.%s.%s\", and watch what the answer does.",
                 section->name, other);
    }
}

static const ss_column warning_columns[] = {
    {"file", "file", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"line", "line", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"path", "what", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"message", "warning", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static void add_warnings(ss_builder *b) {
    const ss_diag_list *diags = b->results->diags;
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "warnings",
                                                   .title = "Warnings about the description",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(warning_columns),
                                                   .columns = warning_columns});
    for (int i = 0; diags != NULL && i < diags->count; i++) {
        const ss_diag *diag = &diags->items[i];
        if (diag->severity != SS_WARNING) {
            continue;
        }
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, diag->where.file);
        if (diag->where.line > 0) {
            ss_sheet_integer(&sheet, diag->where.line);
        } else {
            ss_sheet_none(&sheet);
        }
        ss_sheet_text(&sheet, diag->path);
        ss_sheet_text(&sheet, diag->message);
    }
}

void ss_part_trust(ss_builder *b) {
    ss_build_heading(b, SS_FOR_PEOPLE, "How sure");
    ss_points points = {.count = 0};
    add_accuracy(b);
    say_accuracy(b, &points);
    say_bearings(b, &points);
    say_sharing(b, &points);
    ss_build_points(b, &points);
    if (b->results->rated != NULL) {
        ss_build_list(b, SS_FOR_ALL, "notes", b->results->rated->notes, b->results->rated->note_count);
    }
    add_warnings(b);
}
