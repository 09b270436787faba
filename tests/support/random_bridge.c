/* random_bridge.c - see random_bridge.h. */
#include "support/random_bridge.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>

#include "support/random.h"

typedef struct writer {
    char *text;
    size_t size, length;
    uint64_t state;
} writer;

static void put(writer *w, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const size_t room = w->size - w->length;
    const int made = vsnprintf(w->text + w->length, room, format, arguments);
    va_end(arguments);
    w->length += made < 0 ? 0 : (size_t)made < room ? (size_t)made : room - 1;
}

static double between(writer *w, double low, double high) {
    return low + 0.5 * (1.0 + next_signed(&w->state)) * (high - low);
}

/* In `percent` of all cases. */
static bool chance(writer *w, size_t percent) {
    return next_below(&w->state, 100) < percent;
}

static const char *pick(writer *w, const char *const *words, size_t count) {
    return words[next_below(&w->state, count)];
}

/* A round place as often as any other, so that things meet. */
static double place(writer *w, double low, double high) {
    const double x = between(w, low, high);
    return chance(w, 50) ? (double)(long)x : x;
}

/* ---- parts -------------------------------------------------------------------------------------- */

enum { TYPES = 2 };

typedef struct car_type {
    double length, width;
    int edges; /* 0: the sill is its only line */
} car_type;

static void put_sections(writer *w) {
    put(w, "title = \"Random, Harrow County\";\nunits = \"us\";\n");
    put(w, "steels = ( { name = \"mild\"; fy = \"33.7 ksi\"; } );\nsections = (\n");
    put(w, " { name = \"box\"; shape = \"box\"; depth = \"%.2f in\"; top = { width = \"20 in\"; thickness = ",
        between(w, 20.0, 30.0));
    put(w, "\"1/2 in\"; }; bottom = { width = \"18 in\"; thickness = \"3/4 in\"; }; webs = { thickness = ");
    put(w, "\"5/16 in\"; clear_between = \"12-7/8 in\"; }; torsion = \"%s\"; },\n",
        chance(w, 50) ? "closed" : "open");
    put(w, " { name = \"spine\"; shape = \"given\"; depth = \"24 in\"; A = \"40.3 in2\"; I = \"%.0f in4\"; ",
        between(w, 1500.0, 6000.0));
    put(w, "J = \"%.0f in4\"; S = \"371 in3\"; weight = \"211 lb/ft\"; },\n", between(w, 40.0, 2000.0));
    put(w, " { name = \"chan\"; shape = \"channel\"; depth = \"15 in\"; flange = { width = \"3.4 in\"; ");
    put(w, "thickness = \"0.65 in\"; }; web = \"0.40 in\"; },\n");
    put(w, " { name = \"pl\"; shape = \"plates\"; plates = ( { name = \"w\"; width = \"3/8 in\"; height = ");
    put(w, "\"11 in\"; z = \"0 in\"; }, { name = \"f\"; width = \"8 in\"; height = \"3/8 in\"; z = ");
    put(w, "\"11 in\"; } ); } );\n");
}

static void put_floor_beams(writer *w, const car_type *type) {
    static const char *const hinges[] = {"\"edge 1\"", "\"edge 2\"", "\"edge\"", "\"sill\"",
                                         "\"edge\", \"sill\""};
    put(w, "    floor_beams = ( { name = \"beam\"; section = \"pl\"; x = \"%d",
        chance(w, 60) ? 0 : (int)between(w, 0.0, 4.0));
    double x = 4.0;
    for (int i = 0; i < 3; i++) {
        x = place(w, x + 2.0, x + 0.3 * type->length);
        put(w, ", %.3f", x);
    }
    if (chance(w, 60)) {
        put(w, ", %.3f", type->length);
    }
    put(w, " ft\";");
    if (chance(w, 40)) {
        put(w, " hinged_at = [ %s ];", pick(w, hinges, 5));
    }
    put(w, " } );");
}

static void put_type(writer *w, int index, car_type *type) {
    type->length = place(w, 28.0, 44.0);
    type->width = 9.0;
    type->edges = chance(w, 75) ? 2 : 0;
    put(w, "  { name = \"type %d\"; length = \"%.3f ft\"; width = \"9 ft\"; steel = \"mild\"; ", index,
        type->length);
    put(w, "wheel_trucks = \"%.2f, ", between(w, 2.0, 6.0));
    put(w, "%.2f ft\";\n    lines = ( { name = \"sill\"; role = \"main girder\"; ",
        type->length - between(w, 2.0, 6.0));
    put(w, "y = \"0 ft\"; section = \"%s\";", type->edges == 0 ? "spine" : "box");
    if (type->edges > 0 && chance(w, 30)) {
        put(w,
            " depth_along = ( { x = \"0 ft\"; depth = \"13 in\"; }, { x = \"%.2f ft\"; depth = \"22 in\"; } "
            ");",
            place(w, 5.0, 12.0));
    }
    put(w, " }");
    if (type->edges > 0) {
        put(w, ",\n      { name = \"edge\"; role = \"exterior girder\"; y = \"-%.3f, 4.25 ft\"; section = ",
            place(w, 3.2, 4.5));
        put(w, "\"chan\"; }");
    }
    if (type->edges > 0 && chance(w, 30)) {
        put(w, ",\n      { name = \"string\"; role = \"stringer\"; y = \"%.3f ft\"; section = \"chan\"; ",
            between(w, 1.0, 3.0));
        put(w, "%s}", chance(w, 50) ? "from = \"4 ft\"; to = \"19.5 ft\"; " : "");
    }
    put(w, " );\n");
    if (type->edges > 0) {
        put_floor_beams(w, type);
    }
    put(w, " }");
}

/* ---- the bridge --------------------------------------------------------------------------------- */

typedef struct layout {
    int cars, type[4];
    double x0[4], x1[4];
    double width, low, high; /* low to high: where all cars are */
} layout;

static void put_cars(writer *w, const car_type *types, layout *l) {
    l->cars = 1 + (int)next_below(&w->state, 4);
    l->low = 0.0;
    l->high = 1e9;
    put(w, "  cars = ( ");
    for (int i = 0; i < l->cars; i++) {
        l->type[i] = (int)next_below(&w->state, TYPES);
        l->x0[i] = i > 0 && chance(w, 40) ? place(w, 0.0, 3.0) : 0.0;
        l->x1[i] = l->x0[i] + types[l->type[i]].length;
        l->low = l->low > l->x0[i] ? l->low : l->x0[i];
        l->high = l->high < l->x1[i] ? l->high : l->x1[i];
        const double gap = i > 0 ? (double)next_below(&w->state, 5) : 0.0;
        l->width += types[l->type[i]].width + gap / 12.0;
        put(w, "%s{ name = \"c%d\"; car = \"type %d\"; ", i > 0 ? ",\n           " : "", i, l->type[i]);
        if (i > 0) {
            put(w, "gap = \"%.0f in\"; ", gap);
        }
        put(w, "x = \"%.6f ft\"; %s}", l->x0[i], chance(w, 30) ? "reversed = true; " : "");
    }
    put(w, " );\n");
}

static void put_joints(writer *w, const layout *l) {
    static const char *const kinds[] = {"none", "hinged", "rigid", "springs", "springs"};
    if (l->cars < 2) {
        return;
    }
    put(w, "  joints = (");
    for (int i = 0; i + 1 < l->cars; i++) {
        const size_t kind = next_below(&w->state, 5);
        const double low = l->x0[i] > l->x0[i + 1] ? l->x0[i] : l->x0[i + 1];
        const double high = l->x1[i] < l->x1[i + 1] ? l->x1[i] : l->x1[i + 1];
        const bool points = chance(w, 25);
        put(w, "%s { name = \"j%d\"; between = [ \"c%d\", \"c%d\" ]; kind = \"%s\"; ", i > 0 ? "," : "", i, i,
            i + 1, kinds[kind]);
        if (kind > 0 && points) {
            put(w, "connectors = \"%.3f, %.3f, %.3f ft\"; ", low + 3.0, low + 11.5, high - 4.0);
        } else if (kind > 0 && chance(w, 50)) {
            put(w, "from = \"%.3f ft\"; ", place(w, low + 1.0, low + 6.0));
            put(w, "to = \"%.3f ft\"; ", place(w, high - 6.0, high - 1.0));
        }
        if (kind > 2 && points) {
            put(w, "shear_each = \"%.3f kip/in\"; rotation_each = \"90 kip-in/rad\"; ",
                between(w, 5.0, 90.0));
        } else if (kind > 2) {
            put(w, "shear = \"%.4f kip/in/in\"; ", between(w, 0.003, 0.9));
            if (chance(w, 50)) {
                put(w, "rotation = \"%.2f kip-in/rad/in\"; ", between(w, 0.1, 30.0));
            }
        }
        put(w, "}");
    }
    put(w, " );\n");
}

static void put_bearings(writer *w, const car_type *types, const layout *l) {
    bool edges = true;
    const bool shims = chance(w, 60);
    for (int i = 0; i < l->cars; i++) edges = edges && types[l->type[i]].edges > 0;
    put(w, "  bearings = ( { name = \"pads\"; at = \"%s\"; under = [ \"sill\" ]; ",
        shims || chance(w, 60) ? "wheel trucks" : "ends");
    put(w, "pad_width = \"%.1f in\"; ", between(w, 6.0, 40.0));
    put(w, "action = \"%s\"; ", chance(w, 60) ? "contact" : "two-way");
    if (chance(w, 30)) {
        put(w, "spring = \"%.0f kip/in\"; ", between(w, 100.0, 4000.0));
    }
    put(w, "}");
    if (shims) {
        put(w, ",\n    { name = \"shims\"; x = \"%.3f, %.3f ft\"; under = [ \"sill\"%s ]; ", l->low + 0.001,
            l->high, edges && chance(w, 60) ? ", \"edge\"" : "");
        if (chance(w, 50)) {
            put(w, "gap = \"%.3f in\"; ", between(w, 0.0, 0.3));
        } else if (chance(w, 50)) {
            put(w, "placed = \"after dead load\"; ");
        }
        if (chance(w, 50)) {
            put(w, "spring = \"%.0f kip/in\"; ", between(w, 50.0, 900.0));
        }
        if (chance(w, 30)) {
            put(w, "settlement = \"%.3f in\"; ", between(w, 0.0, 0.2));
        }
        put(w, "}");
    }
    put(w, " );\n");
}

static void put_bridge(writer *w, const car_type *types, layout *l) {
    put(w, "decks = ( { name = \"planks\"; kind = \"timber\"; thickness = \"3-1/2 in\"; density = ");
    put(w, "\"50 lb/ft3\"; spans = \"%s\"; ", chance(w, 50) ? "across" : "along");
    put(w, "over_joints = %s; } );\n", chance(w, 50) ? "true" : "false");
    put(w, "bridge = {\n");
    put_cars(w, types, l);
    put_joints(w, l);
    put_bearings(w, types, l);
    put(w, "  deck = \"planks\";\n");
    if (chance(w, 50)) {
        put(w, "  surfacing = { kind = \"gravel\"; thickness = \"3 in\"; density = \"120 lb/ft3\"; ");
        put(w, "measured = true; };\n  rails = { weight = \"35 lb/ft\"; y = \"0.5, %.3f ft\"; };\n",
            l->width - 0.5);
    }
    if (chance(w, 50)) {
        put(w, "  dead_loads = ( { name = \"pipe\"; line = \"%.1f lb/ft\"; ", between(w, 5.0, 90.0));
        put(w, "y = \"%.3f ft\"; from = \"3 ft\"; ", place(w, 0.5, l->width - 0.5));
        put(w, "to = \"%.3f ft\"; component = \"DW\"; } );\n", place(w, 10.0, 25.0));
    }
    put(w, "  roadway = { from = \"%.3f ft\"; ", place(w, 0.0, 1.2));
    put(w, "to = \"%.3f ft\"; ", l->width - between(w, 0.1, 1.2));
    put(w, "wheel_to_curb = \"%.1f ft\"; };\n};\n", between(w, 0.0, 1.0));
}

/* ---- what is on it ------------------------------------------------------------------------------ */

static void put_trucks(writer *w, const layout *l) {
    const int axles = 1 + (int)next_below(&w->state, 4);
    put(w, "trucks = ( { name = \"hauler\"; axles = \"%.1f", between(w, 4.0, 20.0));
    for (int i = 1; i < axles; i++) put(w, ", %.1f", between(w, 4.0, 20.0));
    put(w, " kip\"; ");
    for (int i = 1; i < axles; i++) put(w, "%s%.3f", i > 1 ? ", " : "spacing = \"", place(w, 4.0, 15.0));
    put(w, "%s", axles > 1 ? " ft\"; " : "");
    put(w, "gauge = \"%.2f ft\"; } );\n", chance(w, 20) ? 0.0 : place(w, 5.0, 7.0));
    put(w, "runs = ( { name = \"run\"; truck = \"hauler\"; y = \"%.3f ft\"; direction = \"both\"; } );\n",
        0.5 * l->width);
}

static void put_cases(writer *w, const layout *l) {
    put(w, "cases = ( { name = \"parked\"; dead = %s; loads = (\n", chance(w, 80) ? "true" : "false");
    put(w, "  { kind = \"truck\"; truck = \"hauler\"; x = \"%.3f ft\"; y = \"%.3f ft\"; },\n",
        place(w, 5.0, l->high), 0.5 * l->width);
    put(w, "  { kind = \"point\"; point = \"%.2f kip\"; ", between(w, 0.5, 9.0));
    put(w, "x = \"%.4f ft\"; ", chance(w, 40) ? l->high + between(w, -0.003, 0.0) : place(w, 1.0, 20.0));
    put(w, "y = \"%.3f ft\"; },\n", place(w, 1.0, l->width - 1.0));
    put(w, "  { kind = \"area\"; area = \"%.1f psf\"; x = \"3 ft\"; ", between(w, 5.0, 50.0));
    put(w, "x_to = \"%.3f ft\"; y = \"2 ft\"; ", place(w, 12.0, 20.0));
    put(w, "y_to = \"%.3f ft\"; } ); } );\n", place(w, 3.0, l->width));
}

size_t random_bridge(uint64_t seed, char *text, size_t size) {
    writer w = {text, size, 0, seed * UINT64_C(0x9E3779B97F4A7C15) + 1};
    car_type types[TYPES];
    layout l = {0};
    for (int i = 0; i < 8; i++) next_random(&w.state);
    put_sections(&w);
    put(&w, "cars = (\n");
    for (int i = 0; i < TYPES; i++) {
        put_type(&w, i, &types[i]);
        put(&w, i + 1 < TYPES ? ",\n" : " );\n");
    }
    put_bridge(&w, types, &l);
    put_trucks(&w, &l);
    put_cases(&w, &l);
    put(&w,
        "probes = ( { name = \"m\"; car = \"c0\"; line = \"sill\"; x = \"%.3f ft\"; effect = \"moment\"; } "
        ");\n",
        place(&w, 4.0, 20.0));
    put(&w, "analysis = { station_spacing = \"%.2f ft\"; };\n", between(&w, 3.0, 9.0));
    put(&w, "rating = { trucks = [ \"hauler\" ]; condition = \"good\"; system = 0.85; };\n");
    return w.length;
}
