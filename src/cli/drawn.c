/* drawn.c - what `draw --of` names, found in the bridge: lines along it, or one effect at one place. */
#include "cli/drawn.h"

#include <math.h>
#include <string.h>

/* In the order of the choices of --effect. */
static const struct {
    const char *word;
    ss_effect_kind kind;
} effects[] = {{"moment", SS_EFFECT_MOMENT},
               {"shear", SS_EFFECT_SHEAR},
               {"torsion", SS_EFFECT_TORSION},
               {"deflection", SS_EFFECT_DEFLECTION},
               {"reaction", SS_EFFECT_REACTION}};

enum { MOST = 512, NAMES = 64 };

static bool is_all(const ss_invocation *asked) {
    return strcmp(asked->of, "all") == 0;
}

bool ss_drawn_line(const ss_pipe *pipe, const ss_invocation *asked, int line) {
    const ss_bridge *const bridge = &pipe->whole.bridge;
    const ss_ratings *const ratings = &pipe->whole.ratings;
    if (asked->of != NULL && is_all(asked)) {
        return true;
    }
    if (asked->of != NULL) {
        return ss_report_is_named(bridge, SS_MEMBER_LINE, line, asked->of);
    }
    const ss_effect *const governs =
        ratings->count > 0 && ratings->controlling >= 0 ? &ratings->items[ratings->controlling].effect : NULL;
    return bridge->lines[line].role == SS_ROLE_MAIN ||
           (bridge->lines[line].role == SS_ROLE_EXTERIOR && governs != NULL &&
            governs->member == SS_MEMBER_LINE && governs->index == line);
}

static void complain(const ss_bridge *bridge, const char *name, ss_text *text) {
    const char *words[NAMES];
    const int count = ss_report_detail_names(bridge, name, words, NAMES);
    if (count == 0) {
        ss_text_add(text, "--of: \"");
        ss_text_add_plain(text, name);
        ss_text_add(text, "\" is no line, and moment, shear and deflection are drawn along lines");
        return;
    }
    const char *const near = ss_text_nearest(name, words, count);
    ss_text_add(text, "--of: nothing of this bridge is called \"");
    ss_text_add_plain(text, name);
    ss_text_add(text, near != NULL ? "\"; did you mean \"" : "\"; one is \"");
    ss_text_add_plain(text, near != NULL ? near : words[0]);
    ss_text_add(text, near != NULL ? "\"?" : "\"");
}

bool ss_drawn_has_line(const ss_pipe *pipe, const ss_invocation *asked, ss_text *text) {
    const ss_bridge *const bridge = &pipe->whole.bridge;
    for (int i = 0; asked->of != NULL && i < bridge->line_count; i++) {
        if (ss_drawn_line(pipe, asked, i)) {
            return true;
        }
    }
    if (asked->of != NULL) {
        complain(bridge, asked->of, text);
    }
    return asked->of == NULL;
}

/* ---- one effect ----------------------------------------------------------------------------------- */

typedef struct named {
    ss_member_kind member;
    int index, car;
    double x0, x1; /* where it is along the bridge */
} named;

static int collect(const ss_bridge *bridge, const char *name, named *out) {
    const int counts[] = {bridge->line_count, bridge->floor_beam_count, bridge->joint_count,
                          bridge->bearing_count};
    int found = 0;
    for (int member = SS_MEMBER_LINE; member <= SS_MEMBER_BEARING; member++) {
        for (int i = 0; i < counts[member] && found < MOST; i++) {
            if (!ss_report_is_named(bridge, (ss_member_kind)member, i, name)) {
                continue;
            }
            named *const one = &out[found++];
            *one = (named){(ss_member_kind)member, i, -1, 0.0, 0.0};
            switch (one->member) {
            case SS_MEMBER_LINE:
                one->car = bridge->lines[i].car;
                one->x0 = bridge->lines[i].x0;
                one->x1 = bridge->lines[i].x1;
                break;
            case SS_MEMBER_BEAM:
                one->car = bridge->floor_beams[i].car;
                one->x0 = one->x1 = bridge->floor_beams[i].x;
                break;
            case SS_MEMBER_JOINT:
                one->x0 = bridge->joints[i].x0;
                one->x1 = bridge->joints[i].x1;
                break;
            case SS_MEMBER_BEARING:
                one->car = bridge->lines[bridge->bearings[i].line].car;
                one->x0 = one->x1 = bridge->bearings[i].x;
                break;
            }
        }
    }
    return found;
}

/* The one that reaches to x, or comes nearest to it; of several main girders and what is on them first. */
static const named *nearest(const ss_bridge *bridge, const named *all, int count, double x) {
    const named *best = NULL;
    double least = (double)INFINITY;
    for (int i = 0; i < count; i++) {
        const int line = all[i].member == SS_MEMBER_LINE      ? all[i].index
                         : all[i].member == SS_MEMBER_BEARING ? bridge->bearings[all[i].index].line
                                                              : -1;
        const bool main = line >= 0 && bridge->lines[line].role == SS_ROLE_MAIN;
        const double away = fmax(fmax(all[i].x0 - x, x - all[i].x1), 0.0) - (main ? 1e-4 : 0.0);
        if (away < least - 1e-9) {
            least = away;
            best = &all[i];
        }
    }
    return best;
}

/* The station or, of a floor beam, the place across that is nearest and has such an effect. */
static bool locate(const ss_mesh *mesh, const named *one, double wanted, ss_effect_kind kind,
                   ss_effect *out) {
    const ss_bridge *const bridge = mesh->bridge;
    double least = (double)INFINITY;
    const int count = one->member == SS_MEMBER_BEAM ? bridge->line_count : mesh->station_count;
    for (int i = 0; i < count; i++) {
        const double at = one->member == SS_MEMBER_BEAM ? bridge->lines[i].y : mesh->station[i];
        ss_effect tried;
        const bool nearer = fabs(at - wanted) < least - 1e-9;
        for (int side = 0; nearer && side < 2; side++) {
            if (ss_mesh_effect(mesh, one->member, one->index, at, side == 1, kind, &tried, NULL) == SS_OK) {
                least = fabs(at - wanted);
                *out = tried;
                break;
            }
        }
    }
    return isfinite(least);
}

/* Whether a member is where --at asks for it; else says where it is. Of a bearing the place is its own. */
static bool is_there(const ss_pipe *pipe, const named *one, double wanted, ss_text *text) {
    const ss_bridge *const bridge = &pipe->whole.bridge;
    const bool across = one->member == SS_MEMBER_BEAM;
    const double from = across ? bridge->cars[one->car].y_left : one->x0;
    const double to = across ? bridge->cars[one->car].y_right : one->x1;
    char words[3][64];
    if (one->member == SS_MEMBER_BEARING || (wanted >= from - 1e-6 && wanted <= to + 1e-6)) {
        return true;
    }
    const double places[] = {wanted, from, to};
    for (int i = 0; i < 3; i++) {
        ss_units_format(words[i], sizeof words[i], places[i], SS_DIM_LENGTH, bridge->units, 4);
    }
    ss_text_printf(text, "--at: %s %s is not on it; it goes from %s to %s", across ? "y =" : "x =", words[0],
                   words[1], words[2]);
    return false;
}

/* What is asked of a member where nothing is said. */
static ss_effect_kind usual(ss_member_kind member) {
    return member == SS_MEMBER_BEARING ? SS_EFFECT_REACTION
           : member == SS_MEMBER_JOINT ? SS_EFFECT_SHEAR
                                       : SS_EFFECT_MOMENT;
}

bool ss_drawn_effect(const ss_pipe *pipe, const ss_invocation *asked, ss_effect *out, ss_text *text) {
    const ss_bridge *const bridge = &pipe->whole.bridge;
    const ss_mesh *const mesh = &pipe->whole.mesh;
    double x = 0.5 * (bridge->x0 + bridge->x1);
    named all[MOST];
    int read = 0;
    ss_error error = {0};
    if (asked->at != NULL && ss_units_parse(asked->at, SS_DIM_LENGTH, &x, 1, &read, &error) != SS_OK) {
        ss_text_printf(text, "--at: ");
        ss_text_add_plain(text, error.message);
        return false;
    }
    const int count = collect(bridge, asked->of, all);
    if (count == 0) {
        complain(bridge, asked->of, text);
        return false;
    }
    const named *const one = nearest(bridge, all, count, x);
    for (int i = 0; i < count; i++) {
        if (all[i].car != one->car) {
            ss_text_add(text, "--of: \"");
            ss_text_add_plain(text, asked->of);
            ss_text_add(text, "\" is in several cars; say \"");
            ss_text_add_plain(text, asked->of);
            ss_text_add(text, " of car ");
            ss_text_add_plain(text, bridge->cars[one->car < 0 ? 0 : one->car].name);
            ss_text_add(text, "\"");
            return false;
        }
    }
    if (asked->at != NULL && !is_there(pipe, one, x, text)) {
        return false;
    }
    const ss_effect_kind kind = asked->effect < 0 ? usual(one->member) : effects[asked->effect].kind;
    double wanted =
        one->member == SS_MEMBER_BEARING ? bridge->bearings[one->index].x : fmin(fmax(x, one->x0), one->x1);
    if (one->member == SS_MEMBER_BEAM) {
        /* Its middle, or what is asked for across. */
        const ss_car *const car = &bridge->cars[one->car];
        wanted = asked->at != NULL ? x : 0.5 * (car->y_left + car->y_right);
    }
    if (!locate(mesh, one, wanted, kind, out)) {
        ss_text_printf(text, "--effect: there is no %s of \"",
                       asked->effect < 0 ? "such effect" : effects[asked->effect].word);
        ss_text_add_plain(text, asked->of);
        ss_text_add(text, "\"");
        return false;
    }
    return true;
}
