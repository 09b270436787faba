/* write_svg.c - a figure as SVG: roles become classes, and a small style says how they look in black on
 * white. */
#include <math.h>

#include "io/write_svg.h"
#include "sillspan/write.h"

/* What is drawn is to be told apart by width, dashes and hatching; one muted red is for what was seen. */
static const char style[] =
    "svg.sillspan .m{fill:none;stroke:#1c1c1a;stroke-width:.25;stroke-linejoin:round;stroke-linecap:butt}\n"
    "svg.sillspan .paper{fill:#fff;stroke:none}\n"
    "svg.sillspan text{font-family:\"Gill Sans\",\"Gill Sans MT\",\"Trebuchet MS\",\"DejaVu "
    "Sans\",sans-serif;"
    "fill:#1c1c1a;stroke:none}\n"
    "svg.sillspan .outline{stroke-width:.18}\n"
    "svg.sillspan .main-girder{stroke-width:.8}\n"
    "svg.sillspan .edge-girder{stroke-width:.4}\n"
    "svg.sillspan .stringer{stroke-width:.2}\n"
    "svg.sillspan .floor-beam{stroke-width:.2;stroke:#6b6a65}\n"
    "svg.sillspan .joint{stroke-width:.5;stroke-dasharray:.5 .7}\n"
    "svg.sillspan .bearing{fill:#1c1c1a}\n"
    "svg.sillspan .contact{fill:#fff;stroke-width:.3}\n"
    "svg.sillspan .finding{stroke:#8f3f2c;stroke-width:.3}\n"
    "svg.sillspan text.finding{fill:#8f3f2c;stroke:none}\n"
    "svg.sillspan .steel{fill:#1c1c1a;stroke-width:.1}\n"
    "svg.sillspan .girder-side{fill:#f6f5f0;stroke-width:.3}\n"
    "svg.sillspan .unknown{stroke-dasharray:1 .6}\n"
    "svg.sillspan .ground{stroke:none}\n"
    "svg.sillspan .curb{stroke-width:.3;stroke-dasharray:3 .8 .6 .8}\n"
    "svg.sillspan .axis{stroke-width:.18}\n"
    "svg.sillspan .grid{stroke-width:.1;stroke:#b9b7ae}\n"
    "svg.sillspan .curve-1{stroke-width:.7}\n"
    "svg.sillspan .curve-2{stroke-width:.45;stroke-dasharray:2.4 .9}\n"
    "svg.sillspan .curve-3{stroke-width:.45;stroke-dasharray:.6 .7}\n"
    "svg.sillspan .curve-4{stroke-width:.25}\n"
    "svg.sillspan .dot{fill:#1c1c1a;stroke:#fff;stroke-width:.2}\n"
    "svg.sillspan .band{fill:#e9e7df;stroke:none}\n"
    "svg.sillspan .limit{stroke:#8f3f2c;stroke-width:.3;stroke-dasharray:3 1 .6 1}\n"
    "svg.sillspan .leader{stroke-width:.12;stroke:#6b6a65}\n"
    "svg.sillspan .finding-leader{stroke:#8f3f2c;stroke-width:.15}\n"
    "svg.sillspan .balloon{fill:#fff;stroke:#8f3f2c;stroke-width:.2}\n"
    "svg.sillspan .caption{font-weight:bold}\n";

static const char *const classes[SS_FIGURE_ROLES] = {
    [SS_FIGURE_OUTLINE] = "outline",
    [SS_FIGURE_MAIN_GIRDER] = "main-girder",
    [SS_FIGURE_EDGE_GIRDER] = "edge-girder",
    [SS_FIGURE_STRINGER] = "stringer",
    [SS_FIGURE_FLOOR_BEAM] = "floor-beam",
    [SS_FIGURE_JOINT] = "joint",
    [SS_FIGURE_BEARING] = "bearing",
    [SS_FIGURE_CONTACT] = "contact",
    [SS_FIGURE_FINDING] = "finding",
    [SS_FIGURE_STEEL] = "steel",
    [SS_FIGURE_UNKNOWN] = "unknown",
    [SS_FIGURE_SLAB] = "slab",
    [SS_FIGURE_GROUND] = "ground",
    [SS_FIGURE_CURB] = "curb",
    [SS_FIGURE_AXIS] = "axis",
    [SS_FIGURE_GRID] = "grid",
    [SS_FIGURE_CURVE_1] = "curve-1",
    [SS_FIGURE_CURVE_2] = "curve-2",
    [SS_FIGURE_CURVE_3] = "curve-3",
    [SS_FIGURE_CURVE_4] = "curve-4",
    [SS_FIGURE_DOT] = "dot",
    [SS_FIGURE_BAND] = "band",
    [SS_FIGURE_LIMIT] = "limit",
    [SS_FIGURE_LEADER] = "leader",
    [SS_FIGURE_LABEL] = "label",
    [SS_FIGURE_CAPTION] = "caption",
    [SS_FIGURE_BALLOON] = "balloon",
    [SS_FIGURE_FINDING_LEADER] = "finding-leader",
    [SS_FIGURE_GIRDER_SIDE] = "girder-side",
};

/* The hatching of a role, or NULL. */
static const char *hatching(ss_figure_role role) {
    return role == SS_FIGURE_FINDING  ? "seen"
           : role == SS_FIGURE_SLAB   ? "concrete"
           : role == SS_FIGURE_GROUND ? "earth"
                                      : NULL;
}

/* Text of a description between tags: control characters go, and the five that mean something are named. */
static void put_escaped(ss_text *out, const char *text) {
    ss_text plain = {0};
    ss_text_add_plain(&plain, text);
    for (const char *c = plain.data == NULL ? "" : plain.data; *c != '\0'; c++) {
        switch (*c) {
        case '&': ss_text_add(out, "&amp;"); break;
        case '<': ss_text_add(out, "&lt;"); break;
        case '>': ss_text_add(out, "&gt;"); break;
        case '"': ss_text_add(out, "&quot;"); break;
        case '\'': ss_text_add(out, "&#39;"); break;
        default: ss_text_add_bytes(out, c, 1);
        }
    }
    out->failed = out->failed || plain.failed;
    ss_text_destroy(&plain);
}

/* Hundredths of a millimetre, without zeros at the end. */
static void put_number(ss_text *out, double value) {
    char number[64];
    const double rounded = round(value * 100.0) / 100.0;
    ss_text_add(out, ss_text_significant(number, sizeof number, fabs(rounded) < 0.005 ? 0.0 : rounded, 9));
}

static void put_attribute(ss_text *out, const char *name, double value) {
    ss_text_printf(out, " %s=\"", name);
    put_number(out, value);
    ss_text_add(out, "\"");
}

static void put_points(ss_text *out, const ss_mark *mark) {
    ss_text_add(out, " points=\"");
    for (int i = 0; i < mark->count; i++) {
        ss_text_add(out, i == 0 ? "" : " ");
        put_number(out, mark->points[i].x);
        ss_text_add(out, ",");
        put_number(out, mark->points[i].y);
    }
    ss_text_add(out, "\"");
}

static void put_text(ss_text *out, const ss_mark *mark) {
    static const char *const anchors[] = {" text-anchor=\"end\"", " text-anchor=\"middle\"", ""};
    const ss_spot at = mark->points[0];
    ss_text_printf(out, "<text class=\"%s\"", classes[mark->role]);
    put_attribute(out, "x", at.x);
    put_attribute(out, "y", at.y);
    put_attribute(out, "font-size", mark->size);
    ss_text_add(out, anchors[mark->anchor < 0 ? 0 : mark->anchor == 0 ? 1 : 2]);
    if (mark->upright) {
        ss_text_add(out, " transform=\"rotate(-90 ");
        put_number(out, at.x);
        ss_text_add(out, " ");
        put_number(out, at.y);
        ss_text_add(out, ")\"");
    }
    ss_text_add(out, ">");
    put_escaped(out, mark->text);
    ss_text_add(out, "</text>\n");
}

static void put_shape(ss_text *out, const char *key, const ss_mark *mark) {
    const bool closed = mark->kind == SS_MARK_POLYGON;
    const char *const hatch = closed ? hatching(mark->role) : NULL;
    ss_text_printf(out, "<%s class=\"m %s\"", closed ? "polygon" : "polyline", classes[mark->role]);
    if (hatch != NULL) {
        ss_text_printf(out, " style=\"fill:url(#%s-%s)\"", key, hatch);
    }
    put_points(out, mark);
    ss_text_add(out, "/>\n");
}

static void put_patterns(ss_text *out, const char *key) {
    ss_text_printf(
        out,
        "<defs>\n"
        "<pattern id=\"%s-seen\" width=\"1\" height=\"1\" patternUnits=\"userSpaceOnUse\" "
        "patternTransform=\"rotate(45)\"><rect width=\"1\" height=\"1\" fill=\"#fff\" "
        "fill-opacity=\".6\"/><rect width=\".3\" height=\"1\" fill=\"#8f3f2c\"/></pattern>\n"
        "<pattern id=\"%s-concrete\" width=\"3\" height=\"2.4\" patternUnits=\"userSpaceOnUse\">"
        "<rect width=\"3\" height=\"2.4\" fill=\"#f3f2ee\"/><circle cx=\".6\" cy=\".6\" r=\".13\"/>"
        "<circle cx=\"2\" cy=\".9\" r=\".2\"/><circle cx=\"1.3\" cy=\"1.8\" r=\".16\"/>"
        "<circle cx=\"2.6\" cy=\"2\" r=\".1\"/></pattern>\n"
        "<pattern id=\"%s-earth\" width=\".8\" height=\".8\" patternUnits=\"userSpaceOnUse\" "
        "patternTransform=\"rotate(45)\"><rect width=\".2\" height=\".8\" fill=\"#1c1c1a\"/></pattern>\n"
        "</defs>\n",
        key, key, key);
}

void ss_svg_style(ss_text *out) {
    ss_text_add(out, style);
}

/* The element's beginning; of a file it names its language and size. */
static void put_head(const ss_figure *figure, const char *prefix, bool file, ss_text *out) {
    ss_text_add(out, file ? "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" class=\"sillspan\""
                          : "<svg class=\"sillspan\"");
    if (file) {
        ss_text_add(out, " width=\"");
        put_number(out, figure->width);
        ss_text_add(out, "mm\" height=\"");
        put_number(out, figure->height);
        ss_text_add(out, "mm\"");
    }
    ss_text_add(out, " viewBox=\"0 0 ");
    put_number(out, figure->width);
    ss_text_add(out, " ");
    put_number(out, figure->height);
    ss_text_printf(out, "\" role=\"img\" aria-labelledby=\"%s-title %s-text\">\n<title id=\"%s-title\">",
                   prefix, prefix, prefix);
    put_escaped(out, figure->title == NULL ? "" : figure->title);
    ss_text_printf(out, "</title>\n<desc id=\"%s-text\">", prefix);
    put_escaped(out, figure->text == NULL ? "" : figure->text);
    ss_text_add(out, "</desc>\n");
}

static void put_marks(const ss_figure *figure, const char *prefix, ss_text *out) {
    for (int i = 0; i < figure->count; i++) {
        const ss_mark *const mark = &figure->marks[i];
        if (mark->kind == SS_MARK_TEXT) {
            put_text(out, mark);
        } else {
            put_shape(out, prefix, mark);
        }
    }
    ss_text_add(out, "</svg>\n");
}

void ss_svg_figure(const ss_figure *figure, const char *prefix, ss_text *out) {
    put_head(figure, prefix, false, out);
    put_patterns(out, prefix);
    put_marks(figure, prefix, out);
}

ss_status ss_write_svg(const ss_figure *figure, ss_text *out, ss_error *error) {
    if (figure->failed) {
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the figure");
    }
    put_head(figure, figure->key, true, out);
    ss_text_add(out, "<style type=\"text/css\">\n");
    ss_text_add(out, style);
    ss_text_add(out, "</style>\n");
    put_patterns(out, figure->key);
    ss_text_add(out, "<rect class=\"paper\" width=\"100%\" height=\"100%\"/>\n");
    put_marks(figure, figure->key, out);
    return out->failed ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the text of the figure") : SS_OK;
}
