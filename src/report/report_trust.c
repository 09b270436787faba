/* report_trust.c - how sure the results are: accuracy, bearings, what they hang on, warnings. */
#include "report/report_parts.h"
#include "report/report_ratings.h"

#include <math.h>

#include "assess/joint_capacity.h"
#include "report/report_words.h"
#include "sillspan/joint_stiffness.h"

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

/* At the head of a sentence. */
static const char *joint_name(ss_builder *b, int index) {
    const ss_joint *joint = &b->results->bridge->joints[index];
    return joint->slab ? ss_build_text(b, "The %s", ss_words_member(b, SS_MEMBER_JOINT, index))
                       : ss_build_text(b, "Joint %s", joint->name);
}

/* A slab whose shear has no capacity. */
static void say_slab_joint(ss_builder *b, ss_points *points, int index, bool unknown) {
    const char *name = joint_name(b, index);
    if (unknown) {
        ss_point(
            b, points,
            "%s has no known strength, so nothing tells whether it holds what these ratings ask of it. Rate "
            "without it too: --set slab.joint=open.",
            name);
    } else {
        ss_point(b, points,
                 "%s is rated in bending; in shear it counts as satisfactory then (AASHTO Standard "
                 "Specifications 3.24.4, from memory).",
                 name);
    }
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
            const char *estimated =
                joint->estimated == SS_DETAIL_NONE
                    ? ""
                    : ss_build_text(b,
                                    ", estimated from parts (%s; welds and seats give too, a real joint is "
                                    "softer: try --set \"bridge.joints.%s.scale=0.1\")",
                                    ss_joint_detail_name(joint->estimated), joint->name);
            stiffness = ss_build_text(
                b, "springs of %s in shear%s",
                ss_words_quantity(b, joint->shear,
                                  joint->connector_count > 0 ? SS_DIM_SPRING : SS_DIM_SPRING_PER_LENGTH, 3),
                estimated);
        }
        ss_point(b, points, "%s is taken as %s. How much load crosses it hangs on that%s%s%s%s.",
                 joint_name(b, i), stiffness,
                 section == NULL ? "" : " and on the twisting stiffness of the main girders: section ",
                 section == NULL ? "" : section->name, section == NULL ? "" : ", taken ",
                 section == NULL ? "" : torsion_word(section));
    }
    for (int i = 0; b->results->rated != NULL && i < bridge->joint_count; i++) {
        const ss_joint *joint = &bridge->joints[i];
        ss_resistance shear;
        ss_resistance moment;
        ss_joint_capacity_of(joint, &shear, &moment, NULL);
        if (joint->kind != SS_JOINT_NONE && isnan(shear.value) && joint->slab) {
            say_slab_joint(b, points, i, isnan(moment.value));
        } else if (joint->kind != SS_JOINT_NONE && isnan(shear.value)) {
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

void ss_part_warnings(ss_builder *b) {
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

static void say_unknowns(ss_builder *b, ss_points *points) {
    const int count = b->results->bridge->unknowns.count;
    if (count > 0) {
        ss_point(
            b, points,
            "%s in the description: here each value is taken as it is described, whatever else it can be.",
            ss_words_count(b, count, "unknown", "unknowns"));
    }
}

void ss_part_trust(ss_builder *b) {
    ss_build_heading(b, SS_FOR_PEOPLE, "How sure");
    ss_points points = {.count = 0};
    ss_accuracy_programs(b);
    ss_accuracy_points(b, &points);
    say_bearings(b, &points);
    ss_rated_proofs(b, &points);
    say_sharing(b, &points);
    say_unknowns(b, &points);
    ss_build_points(b, &points);
    if (b->results->rated != NULL) {
        ss_build_list(b, SS_FOR_ALL, "notes", b->results->rated->notes, b->results->rated->note_count);
    }
    ss_part_warnings(b);
}
