/* write_svg.c - a figure as SVG: roles become classes, and a small style says how they look. */
#include <math.h>

#include "io/figure_look.h"
#include "io/write_html.h"
#include "io/write_svg.h"
#include "sillspan/write.h"

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
    ss_text_printf(out, "<text class=\"%s\"", ss_figure_look(mark->role)->name);
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
    ss_html_text(out, mark->text);
    ss_text_add(out, "</text>\n");
}

static void put_shape(ss_text *out, const char *key, const ss_mark *mark) {
    const ss_look *const look = ss_figure_look(mark->role);
    const bool closed = mark->kind == SS_MARK_POLYGON;
    ss_text_printf(out, "<%s class=\"m %s\"", closed ? "polygon" : "polyline", look->name);
    if (closed && look->hatch != SS_HATCH_NONE) {
        ss_text_printf(out, " style=\"fill:url(#%s-%s)\"", key, ss_figure_hatching(look->hatch)->name);
    }
    put_points(out, mark);
    ss_text_add(out, "/>\n");
}

static void put_colour(ss_text *out, const char *property, int colour) {
    if (colour == SS_NO_COLOUR) {
        ss_text_printf(out, "%s:none", property);
    } else {
        ss_text_printf(out, "%s:#%06x", property, (unsigned)colour);
    }
}

/* One rule for lines and borders, and where it says more one for areas and one for texts. */
static void put_look(ss_text *out, const ss_look *look) {
    ss_text_printf(out, "svg.sillspan .m.%s{", look->name);
    put_colour(out, "stroke", look->stroke);
    if (look->stroke != SS_NO_COLOUR) {
        ss_text_add(out, ";stroke-width:");
        put_number(out, look->width);
    }
    for (int i = 0; i < ss_look_dashes(look); i++) {
        ss_text_add(out, i == 0 ? ";stroke-dasharray:" : " ");
        put_number(out, look->dashes[i]);
    }
    ss_text_add(out, "}\n");
    if (look->fill != SS_NO_COLOUR) {
        ss_text_printf(out, "svg.sillspan polygon.%s{", look->name);
        put_colour(out, "fill", look->fill);
        ss_text_add(out, "}\n");
    }
    if (look->letters != SS_INK || look->bold) {
        ss_text_printf(out, "svg.sillspan text.%s{", look->name);
        put_colour(out, "fill", look->letters);
        ss_text_add(out, look->bold ? ";font-weight:bold}\n" : "}\n");
    }
}

void ss_svg_style(ss_text *out) {
    ss_text_add(out, "svg.sillspan .m{fill:none;stroke-linejoin:round;stroke-linecap:butt}\n"
                     "svg.sillspan .paper{fill:#ffffff;stroke:none}\n"
                     "svg.sillspan text{font-family:\"Gill Sans\",\"Gill Sans MT\",\"Trebuchet MS\",\"DejaVu "
                     "Sans\",sans-serif;");
    put_colour(out, "fill", SS_INK);
    ss_text_add(out, ";stroke:none}\n");
    for (int role = 0; role < SS_FIGURE_ROLES; role++) {
        put_look(out, ss_figure_look((ss_figure_role)role));
    }
}

static void put_rectangle(ss_text *out, double width, double height, int colour, double cover) {
    ss_text_add(out, "<rect");
    put_attribute(out, "width", width);
    put_attribute(out, "height", height);
    ss_text_printf(out, " fill=\"#%06x\"", (unsigned)colour);
    if (cover < 1.0) {
        put_attribute(out, "fill-opacity", cover);
    }
    ss_text_add(out, "/>");
}

static void put_pattern(ss_text *out, const char *key, const ss_hatching *h) {
    const bool lines = h->pitch > 0.0;
    const double width = lines ? h->pitch : h->tile_width;
    const double height = lines ? h->pitch : h->tile_height;
    ss_text_printf(out, "<pattern id=\"%s-%s\"", key, h->name);
    put_attribute(out, "width", width);
    put_attribute(out, "height", height);
    ss_text_add(out, " patternUnits=\"userSpaceOnUse\"");
    ss_text_add(out, lines ? " patternTransform=\"rotate(45)\">" : ">");
    if (h->ground != SS_NO_COLOUR) {
        put_rectangle(out, width, height, h->ground, h->cover);
    }
    if (lines) {
        put_rectangle(out, h->width, height, h->ink, 1.0);
    }
    for (int i = 0; i < SS_GRAINS && !lines; i++) {
        ss_text_add(out, "<circle");
        put_attribute(out, "cx", h->grains[i].x);
        put_attribute(out, "cy", h->grains[i].y);
        put_attribute(out, "r", h->grains[i].radius);
        ss_text_printf(out, " fill=\"#%06x\"/>", (unsigned)h->ink);
    }
    ss_text_add(out, "</pattern>\n");
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
    ss_html_text(out, figure->title == NULL ? "" : figure->title);
    ss_text_printf(out, "</title>\n<desc id=\"%s-text\">", prefix);
    ss_html_text(out, figure->text == NULL ? "" : figure->text);
    ss_text_add(out, "</desc>\n");
}

static void put_patterns(ss_text *out, const char *prefix) {
    ss_text_add(out, "<defs>\n");
    for (int hatch = SS_HATCH_NONE + 1; hatch < SS_HATCHES; hatch++) {
        put_pattern(out, prefix, ss_figure_hatching((ss_hatch)hatch));
    }
    ss_text_add(out, "</defs>\n");
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
    ss_svg_style(out);
    ss_text_add(out, "</style>\n");
    put_patterns(out, figure->key);
    ss_text_add(out, "<rect class=\"paper\" width=\"100%\" height=\"100%\"/>\n");
    put_marks(figure, figure->key, out);
    return out->failed ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the text of the figure") : SS_OK;
}
