/* starter_bridge.c - the car, the bridge and the rating in the description that `sillspan new` writes. */
#include <math.h>

#include "cli/starter.h"

#define METRES_IN_FOOT 0.3048
#define METRES_IN_INCH 0.0254
/* Between the wheel lines of the built-in trucks. */
#define GAUGE (6.0 * METRES_IN_FOOT)
/* Cars times length, beyond which the usual spacing of stations would be too much to compute. */
#define LARGE (360.0 * METRES_IN_FOOT)

enum { MOST_STATIONS = 32 };

/* Stations of the floor beams from the near end: the ends, one at each wheel-truck point, and evenly between.
 */
static int stations(const ss_starter *s, double *x) {
    const double length = s->value[SS_ASK_LENGTH];
    const double truck = s->value[SS_ASK_WHEEL_TRUCKS];
    const bool trucks = s->known[SS_ASK_WHEEL_TRUCKS];
    const double start = trucks ? truck : 0.0;
    const double stretch = length - 2.0 * start;
    const double step = ss_starter_units(s) == SS_UNITS_SI ? 0.05 : 0.25 * METRES_IN_FOOT;
    const int bays = (int)fmax(1.0, round(stretch / (7.5 * METRES_IN_FOOT)));
    int count = 0;
    if (trucks) {
        x[count++] = 0.0;
    }
    for (int i = 0; i <= bays; i++) {
        const bool exact = i == 0 || i == bays;
        const double at = start + stretch * (double)i / (double)bays;
        x[count++] = exact ? at : round(at / step) * step;
    }
    if (trucks) {
        x[count++] = length;
    }
    return count;
}

static void add_floor_beams(const ss_starter *s, ss_text *out) {
    double x[MOST_STATIONS];
    const int count = stations(s, x);
    ss_text_add(out, "    # Crosswise members from edge to edge, each with its distance from the near end.\n"
                     "    floor_beams = (\n"
                     "      { name = \"cross beam\"; section = \"cross beam\";\n"
                     "        x = ");
    ss_starter_lengths(s, out, x, count);
    ss_text_add(out, "; }    # ASSUMED\n    )");
}

static void add_line(const ss_starter *s, ss_text *out, const char *words, const double *y, int count) {
    ss_text_printf(out, "      { %s y = ", words);
    ss_starter_lengths(s, out, y, count);
    ss_text_add(out, "; }");
}

static void add_lines(const ss_starter *s, ss_text *out) {
    const double edge = ss_starter_rounded(s, 0.5 * s->value[SS_ASK_WIDTH] - 2.0 * METRES_IN_INCH);
    const double outer = ss_starter_rounded(s, 2.0 / 3.0 * edge);
    const double inner = ss_starter_rounded(s, 1.0 / 3.0 * edge);
    const double middle = 0.0;
    const double left = -edge;
    const double stringers[4] = {-outer, -inner, inner, outer};
    ss_text_add(out, "    # Lengthwise members, measured from the car's middle, left negative. A girder that "
                     "is shallower near\n"
                     "    # its ends has its depths taped: ");
    ss_text_add(out, ss_starter_pick(s, "depth_along = ( { x = \"0 ft\"; depth = \"13 in\"; }, ... );\n",
                                     "depth_along = ( { x = \"0 m\"; depth = \"330 mm\"; }, ... );\n"));
    ss_text_add(out, "    lines = (\n");
    add_line(s, out, "name = \"main girder\"; role = \"main girder\"; section = \"main box\";", &middle, 1);
    ss_text_add(out, ",\n");
    add_line(s, out, "name = \"left edge\"; role = \"exterior girder\"; section = \"edge channel\";", &left,
             1);
    ss_text_add(out, ",    # ASSUMED\n");
    add_line(s, out, "name = \"right edge\"; role = \"exterior girder\"; section = \"edge channel\";", &edge,
             1);
    ss_text_add(out, ",    # ASSUMED\n");
    add_line(s, out, "name = \"stringer\"; role = \"stringer\"; section = \"floor channel\";", stringers, 4);
    ss_text_add(out, "    # ASSUMED\n    );\n");
}

static void add_answer(const ss_starter *s, ss_text *out, const char *key, int question) {
    ss_text_add(out, key);
    ss_starter_quote(out, s->text[question]);
    ss_text_printf(out, ";%s\n", ss_starter_mark(s, question));
}

void ss_starter_write_car(const ss_starter *s, ss_text *out) {
    ss_text_add(out, "\n\n# ---- The car ----\n"
                     "# One car is described once. Without its weight from a scale ticket, weight = \"");
    ss_text_add(out, ss_starter_pick(s, "31 kip", "14 t"));
    ss_text_add(out, "\", it weighs as its\n# steel below and a tenth more for fittings.\n\n"
                     "cars = (\n"
                     "  { name = \"flatcar\";\n"
                     "    steel = \"car steel\";\n");
    add_answer(s, out, "    length = ", SS_ASK_LENGTH);
    add_answer(s, out, "    width = ", SS_ASK_WIDTH);
    if (s->known[SS_ASK_WHEEL_TRUCKS]) {
        const double truck = s->value[SS_ASK_WHEEL_TRUCKS];
        const double trucks[2] = {truck, s->value[SS_ASK_LENGTH] - truck};
        ss_text_add(out, "    wheel_trucks = ");
        ss_starter_lengths(s, out, trucks, 2);
        ss_text_printf(out, ";%s\n", ss_starter_mark(s, SS_ASK_WHEEL_TRUCKS));
    }
    add_lines(s, out);
    add_floor_beams(s, out);
    ss_text_add(out, ";\n  }\n);\n");
}

/* Cars are called A, B, C ... from the left; there are at most six. */
static char letter(int car) {
    return "ABCDEF"[car];
}

static void add_cars(const ss_starter *s, ss_text *out) {
    const int count = (int)s->value[SS_ASK_CARS];
    ss_text_add(out, "  # From left to right, looking along the road.\n  cars = (\n");
    for (int i = 0; i < count; i++) {
        ss_text_printf(out, "    { name = \"%c\"; car = \"flatcar\"; ", letter(i));
        if (i > 0) {
            ss_text_add(out, "gap = ");
            ss_starter_quote(out, s->text[SS_ASK_GAP]);
            ss_text_add(out, "; ");
        }
        ss_text_printf(out, "}%s%s\n", i + 1 < count ? "," : "", i > 0 ? ss_starter_mark(s, SS_ASK_GAP) : "");
    }
    ss_text_printf(out, "  );%s\n\n", ss_starter_mark(s, SS_ASK_CARS));
}

static void add_joints(const ss_starter *s, ss_text *out) {
    static const char *const springs[2] = {"shear = \"0.05 kip/in/in\"; rotation = \"2 kip-in/rad/in\"; ",
                                           "shear = \"350 kN/m/m\"; rotation = \"9 kN m/rad/m\"; "};
    const int count = (int)s->value[SS_ASK_CARS];
    const int kind = (int)s->value[SS_ASK_JOINT];
    if (count < 2) {
        return;
    }
    ss_text_add(out, "  # none: nothing ties them. hinged: no step between the cars. rigid: no step and no "
                     "fold, welded all\n"
                     "  # along. springs: stiffness given. Nobody can measure how stiff a seam is: try a "
                     "tenth and ten times\n"
                     "  # of a guess. Where a joint is not sure to hold, \"none\" is the careful answer.\n"
                     "  joints = (\n");
    for (int i = 0; i + 1 < count; i++) {
        ss_text_printf(out, "    { name = \"%c-%c\"; between = [ \"%c\", \"%c\" ]; kind = ", letter(i),
                       letter(i + 1), letter(i), letter(i + 1));
        ss_starter_quote(out, s->text[SS_ASK_JOINT]);
        ss_text_printf(out, "; %s}%s%s\n", kind == SS_JOINED_SPRINGS ? springs[ss_starter_units(s)] : "",
                       i + 2 < count ? "," : "",
                       kind == SS_JOINED_SPRINGS ? "    # ASSUMED" : ss_starter_mark(s, SS_ASK_JOINT));
    }
    ss_text_add(out, "  );\n\n");
}

/* Pads under the main girder at `at`, and, where nothing else holds the edges, a point under each of them. */
static void add_seats(const ss_starter *s, ss_text *out, const char *name, const char *at, bool edges) {
    ss_text_printf(out,
                   "    { name = \"%s\"; at = \"%s\"; under = [ \"main girder\" ]; pad_width = \"%s\"; },    "
                   "# ASSUMED\n",
                   name, at, ss_starter_pick(s, "14 in", "350 mm"));
    if (edges) {
        ss_text_printf(out,
                       "    { name = \"edges\"; at = \"%s\"; under = [ \"left edge\", \"right edge\" ]; }    "
                       "# ASSUMED\n",
                       at);
    }
}

static void add_bearings(const ss_starter *s, ss_text *out) {
    const int rest = (int)s->value[SS_ASK_BEARINGS];
    ss_text_add(out,
                "  # Name under `under` only lines that do rest there; the width of the pad under a main "
                "girder keeps it\n"
                "  # from rolling. Bearings push and cannot hold down. Daylight under one is its gap.\n");
    ss_text_printf(out, "  bearings = (%s\n", ss_starter_mark(s, SS_ASK_BEARINGS));
    switch (rest) {
    case SS_REST_ENDS: add_seats(s, out, "pads", "ends", true); break;
    case SS_REST_WHEEL_TRUCKS: add_seats(s, out, "pads", "wheel trucks", true); break;
    default:
        add_seats(s, out, "pads", "wheel trucks", false);
        ss_text_add(out, "    # Slipped under the ends later: these carry nothing until a truck comes.\n"
                         "    { name = \"shims\"; at = \"ends\"; under = [ \"main girder\", \"left edge\", "
                         "\"right edge\" ];\n"
                         "      placed = \"after dead load\"; }    # ASSUMED\n");
        break;
    }
    ss_text_add(out, "  );\n\n");
}

static void add_roadway(const ss_starter *s, ss_text *out) {
    const double width = ss_starter_width(s);
    const double clear = fmin(s->value[SS_ASK_ROADWAY], width);
    const double from = ss_starter_rounded(s, 0.5 * (width - clear));
    const double to = from + clear;
    ss_text_add(out, "  # Between the faces of the curbs, from the left edge of the first car.\n"
                     "  roadway = { from = ");
    ss_starter_lengths(s, out, &from, 1);
    ss_text_add(out, "; to = ");
    ss_starter_lengths(s, out, &to, 1);
    if (clear < GAUGE + 4.0 * METRES_IN_FOOT) {
        const double nearest = ss_starter_rounded(s, 0.5 * (clear - GAUGE) - 0.75 * METRES_IN_INCH);
        ss_text_printf(out,
                       ";%s\n    # Nearer to the curb than the usual %s, so that a truck finds room at all.\n"
                       "    wheel_to_curb = ",
                       ss_starter_mark(s, SS_ASK_ROADWAY), ss_starter_pick(s, "2 ft", "0.6 m"));
        ss_starter_lengths(s, out, &nearest, 1);
        ss_text_add(out, "; };    # ASSUMED\n");
    } else {
        ss_text_printf(out, "; };%s\n", ss_starter_mark(s, SS_ASK_ROADWAY));
    }
}

void ss_starter_write_bridge(const ss_starter *s, ss_text *out) {
    const bool si = ss_starter_units(s) == SS_UNITS_SI;
    ss_text_add(
        out,
        "\n\n# ---- Deck ----\n"
        "# Planks that span across bring a wheel to the lines beside it. Lying loose they do not hold the "
        "flanges\n# below from buckling sideways; bolted or welded down they do.\n\n"
        "decks = (\n  { name = \"planks\"; kind = \"timber\"; spans = \"across\";    # ASSUMED\n");
    ss_text_add(out, si ? "    thickness = \"90 mm\"; density = \"8 kN/m3\";                # ASSUMED\n    "
                          "holds_lines = false; }                                    # ASSUMED\n);\n"
                        : "    thickness = \"3-1/2 in\"; density = \"50 lb/ft3\";           # ASSUMED\n    "
                          "holds_lines = false; }                                    # ASSUMED\n);\n");
    ss_text_add(out, "\n\n# ---- The bridge ----\n\nbridge = {\n");
    add_cars(s, out);
    add_joints(s, out);
    add_bearings(s, out);
    ss_text_add(out, "  deck = \"planks\";\n");
    ss_text_add(out, si ? "  # surfacing = { kind = \"gravel\"; thickness = \"75 mm\"; density = \"19 "
                          "kN/m3\"; measured = true; };\n"
                          "  # rails = { weight = \"0.5 kN/m\"; y = \"0.15, 5.65 m\"; };\n"
                        : "  # surfacing = { kind = \"gravel\"; thickness = \"3 in\"; density = \"120 "
                          "lb/ft3\"; measured = true; };\n"
                          "  # rails = { weight = \"35 lb/ft\"; y = \"0.5, 18.5 ft\"; };\n");
    add_roadway(s, out);
    ss_text_add(out, "};\n");
    if (s->value[SS_ASK_CARS] * s->value[SS_ASK_LENGTH] > LARGE) {
        ss_text_printf(
            out,
            "\n# A large bridge: looked at in coarser steps than the usual %s, so that it can be computed.\n"
            "analysis = { station_spacing = \"%s\"; };\n",
            ss_starter_pick(s, "1 ft", "0.3 m"), ss_starter_pick(s, "2 ft", "0.6 m"));
    }
}

static void add_findings(const ss_starter *s, ss_text *out) {
    ss_text_printf(
        out,
        "\n\n# ---- What the inspector saw ----\n"
        "# Rust, cracks, what is bent, cut or missing, loose bearings: each is rated with and without.\n"
        "# findings = (\n"
        "#   { name = \"pitting\"; seen = \"thinned\"; car = \"A\"; line = \"main girder\"; part = "
        "\"bottom\";\n"
        "#     from = \"%s\"; to = \"%s\"; thickness_left = \"%s\"; }\n"
        "# );\n",
        ss_starter_pick(s, "20 ft", "6 m"), ss_starter_pick(s, "24 ft", "7.5 m"),
        ss_starter_pick(s, "5/8 in", "16 mm"));
}

void ss_starter_write_rating(const ss_starter *s, ss_text *out) {
    add_findings(s, out);
    ss_text_add(out, "\n\n# ---- Rating ----\n"
                     "# Condition and system factor are the engineer's judgement; without both nothing is "
                     "rated. Condition:\n"
                     "# \"good\", \"fair\", \"poor\", or a factor from 0.5 to 1. System factor: from 0.85 "
                     "for a bridge whose failure\n"
                     "# one girder decides, to 1.00 for one with many. Trucks a day in one direction (adtt) "
                     "count as unknown, and\n"
                     "# so as many, until they are given.\n\n"
                     "rating = {\n");
    if (!s->known[SS_ASK_CONDITION]) {
        ss_text_add(out, "  # condition = \"fair\";\n");
    } else if (s->value[SS_ASK_CONDITION] >= 0.0) {
        ss_text_printf(out, "  condition = \"%s\";\n", s->text[SS_ASK_CONDITION]);
    } else {
        char number[40];
        ss_text_printf(out, "  condition = %s;\n",
                       ss_text_significant(number, sizeof number, s->factor[SS_ASK_CONDITION], 6));
    }
    if (!s->known[SS_ASK_SYSTEM]) {
        ss_text_add(out, "  # system = 0.85;\n");
    } else {
        char number[40];
        ss_text_printf(out, "  system = %s;\n",
                       ss_text_significant(number, sizeof number, s->factor[SS_ASK_SYSTEM], 6));
    }
    ss_text_add(out, "  # adtt = 20;\n"
                     "  # approach = \"minor bumps\";    # or \"smooth\"; without it \"rough\"\n"
                     "  # trucks = [ \"H15-44\", \"HS20-44\", \"Type 3\" ];    # those, and EV2 and EV3, "
                     "when it is left out\n"
                     "};\n");
}
