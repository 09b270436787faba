/* figure_parts.c - heading, paragraphs, labels that point and numbered findings of the figures of a bridge.
 */
#include "report/figure_parts.h"

#include <math.h>
#include <string.h>

#include "report/report_words.h"

/* mm */
#define LEADER 5.0
#define PITCH 2.9
#define CIRCLE 1.9
#define BETWEEN 2.0

void ss_sketch_begin(ss_sketch *sketch, const ss_results *results, ss_unit_system units, ss_figure *out,
                     const char *key) {
    *out = (ss_figure){.key = key, .width = SS_PAGE_WIDTH};
    *sketch = (ss_sketch){.figure = out, .bridge = results->bridge, .report = {.units = units}};
    sketch->words = (ss_builder){.report = &sketch->report, .results = results};
}

void ss_sketch_heading(ss_sketch *sketch, const char *title) {
    ss_figure *const figure = sketch->figure;
    const double right = SS_PAGE_WIDTH - SS_PAGE_MARGIN;
    figure->title = ss_figure_keep(figure, title);
    ss_figure_line(figure, SS_FIGURE_MAIN_GIRDER, (ss_spot){SS_PAGE_MARGIN, 4.0}, (ss_spot){right, 4.0});
    ss_figure_text(figure, (ss_lettering){SS_FIGURE_CAPTION, 1, SS_LETTERS_TITLE, false},
                   (ss_spot){SS_PAGE_MARGIN, 8.6}, title);
    sketch->down = 9.4;
    if (sketch->bridge->title != NULL && sketch->bridge->title[0] != '\0') {
        ss_sketch_paragraph(sketch, 0.0, sketch->bridge->title);
    }
    sketch->down += 1.0;
    ss_figure_line(figure, SS_FIGURE_OUTLINE, (ss_spot){SS_PAGE_MARGIN, sketch->down},
                   (ss_spot){right, sketch->down});
    sketch->down += 2.0;
}

ss_status ss_sketch_end(ss_sketch *sketch, ss_error *error) {
    ss_figure *const figure = sketch->figure;
    const bool failed = figure->failed || sketch->words.failed;
    figure->height = ceil(sketch->down + 3.0);
    ss_report_destroy(&sketch->report);
    if (failed) {
        ss_figure_destroy(figure);
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the figure");
    }
    return SS_OK;
}

/* Bytes of `text` that go on one line of `width`: up to a blank, and at least one word. */
static size_t line_length(ss_sketch *sketch, const char *text, double width) {
    size_t best = 0;
    for (size_t i = 1;; i++) {
        if (text[i] != ' ' && text[i] != '\0') {
            continue;
        }
        const char *const part = ss_build_text(&sketch->words, "%.*s", (int)i, text);
        if (best > 0 && ss_figure_text_width(part, SS_LETTERS) > width) {
            return best;
        }
        best = i;
        if (text[i] == '\0') {
            return best;
        }
    }
}

void ss_sketch_paragraph(ss_sketch *sketch, double indent, const char *text) {
    const double width = SS_PAGE_WIDTH - 2.0 * SS_PAGE_MARGIN - indent;
    const char *at = text;
    while (*at != '\0' && !sketch->words.failed) {
        const size_t length = line_length(sketch, at, width);
        sketch->down += 1.4 * SS_LETTERS;
        ss_figure_text(sketch->figure, (ss_lettering){SS_FIGURE_LABEL, 1, SS_LETTERS, false},
                       (ss_spot){SS_PAGE_MARGIN + indent, sketch->down},
                       ss_build_text(&sketch->words, "%.*s", (int)length, at));
        at += length;
        at += strspn(at, " ");
    }
}

double ss_sketch_fitting(const char *text, double size, double room) {
    const double width = ss_figure_text_width(text, size);
    return width > room ? size * room / width : size;
}

double ss_sketch_units(const ss_sketch *sketch, double metres) {
    return ss_units_from_si(metres, SS_DIM_LENGTH, sketch->report.units);
}

void ss_sketch_axis_along(ss_sketch *sketch, double at, double from, double to) {
    const ss_bridge *const bridge = sketch->bridge;
    const ss_axis axis = {
        .scale = {ss_sketch_units(sketch, bridge->x0), ss_sketch_units(sketch, bridge->x1), from, to, false},
        .at = at,
        .grid_to = at,
        .most = 14,
        .title = ss_build_text(&sketch->words, "x along the bridge, %s",
                               ss_units_name(SS_DIM_LENGTH, sketch->report.units))};
    ss_figure_axis(sketch->figure, &axis);
    sketch->down = at + 3.4 * SS_LETTERS;
}

void ss_sketch_wedges(ss_sketch *sketch, const ss_scale *x, double y, int line) {
    const ss_bridge *const bridge = sketch->bridge;
    const ss_line *const own = &bridge->lines[line];
    for (int i = 0; i < bridge->bearing_count; i++) {
        const ss_bearing *const bearing = &bridge->bearings[i];
        const ss_line *const above = &bridge->lines[bearing->line];
        if (above->car == own->car && strcmp(above->whole, own->whole) == 0) {
            const double at = ss_scale_at(x, bearing->x);
            const ss_spot wedge[] = {{at, y}, {at + 0.8, y + 1.4}, {at - 0.8, y + 1.4}};
            ss_figure_area(sketch->figure, bearing->contact ? SS_FIGURE_CONTACT : SS_FIGURE_BEARING, wedge,
                           3);
        }
    }
}

void ss_sketch_number(ss_sketch *sketch, ss_spot middle, int number) {
    ss_figure *const figure = sketch->figure;
    ss_figure_disc(figure, SS_FIGURE_BALLOON, middle, CIRCLE);
    ss_figure_text(figure, (ss_lettering){SS_FIGURE_FINDING, 0, SS_LETTERS_SMALL, false},
                   (ss_spot){middle.x, middle.y + 0.35 * SS_LETTERS_SMALL},
                   ss_build_text(&sketch->words, "%d", number));
}

/* Lets them make room for each other. */
static void place(ss_sketch *sketch, ss_pointer *labels, const double *size, int count, double low,
                  double high) {
    double *const at = ss_arena_alloc(&sketch->report.arena, (size_t)count, sizeof *at);
    for (int i = 0; at != NULL && i < count; i++) {
        at[i] = labels[i].at;
    }
    if (at == NULL || !ss_figure_spread(at, size, count, low, high)) {
        sketch->words.failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        labels[i].placed = at[i];
    }
}

void ss_sketch_column(ss_sketch *sketch, ss_pointer *labels, int count, double right, double to, double low,
                      double high) {
    ss_figure *const figure = sketch->figure;
    double *const size = ss_arena_alloc(&sketch->report.arena, (size_t)count, sizeof *size);
    if (size == NULL) {
        sketch->words.failed = true;
        return;
    }
    for (int i = 0; i < count; i++) {
        size[i] = PITCH;
    }
    place(sketch, labels, size, count, low, high);
    for (int i = 0; i < count && !sketch->words.failed; i++) {
        const double at = labels[i].placed;
        const ss_spot bend[] = {{right + 0.7, at}, {right + 1.7, at}, {to - 0.8, labels[i].at}};
        ss_figure_text(figure, (ss_lettering){SS_FIGURE_LABEL, -1, SS_LETTERS_SMALL, false},
                       (ss_spot){right, at + 0.35 * SS_LETTERS_SMALL}, labels[i].text);
        ss_figure_path(figure, SS_FIGURE_LEADER, bend, 3);
    }
}

static double widest(const ss_pointer *label) {
    const double first = ss_figure_text_width(label->text, SS_LETTERS_SMALL);
    return label->second == NULL ? first : fmax(first, ss_figure_text_width(label->second, SS_LETTERS_SMALL));
}

/* Draws one label of a row with its leader; returns how far down it reaches. */
static double put_below(ss_sketch *sketch, const ss_pointer *label, double top, bool upright) {
    ss_figure *const figure = sketch->figure;
    const double y = top + LEADER;
    const double x = label->placed;
    const ss_lettering letters = {SS_FIGURE_LABEL, upright ? -1 : 0, SS_LETTERS_SMALL, upright};
    const ss_spot bend[] = {
        {label->at, label->from > 0.0 ? label->from : top}, {label->at, top}, {x, y - 1.0}, {x, y - 0.4}};
    ss_figure_path(figure, SS_FIGURE_LEADER, bend, 4);
    if (upright) {
        ss_figure_text(figure, letters, (ss_spot){x + 0.35 * SS_LETTERS_SMALL, y}, label->text);
        return y + widest(label);
    }
    ss_figure_text(figure, letters, (ss_spot){x, y + 0.75 * SS_LETTERS_SMALL}, label->text);
    if (label->second == NULL) {
        return y + SS_LETTERS_SMALL;
    }
    ss_figure_text(figure, letters, (ss_spot){x, y + 1.95 * SS_LETTERS_SMALL}, label->second);
    return y + 2.2 * SS_LETTERS_SMALL;
}

double ss_sketch_row(ss_sketch *sketch, ss_pointer *labels, int count, double top, double from, double to) {
    double *const size = ss_arena_alloc(&sketch->report.arena, (size_t)count, sizeof *size);
    double all = 0.0;
    double reach = top;
    if (size == NULL) {
        sketch->words.failed = true;
        return top;
    }
    for (int i = 0; i < count; i++) {
        size[i] = widest(&labels[i]) + BETWEEN;
        all += size[i];
    }
    const bool upright = all > to - from;
    for (int i = 0; upright && i < count; i++) {
        labels[i].text = labels[i].second == NULL
                             ? labels[i].text
                             : ss_build_text(&sketch->words, "%s, %s", labels[i].text, labels[i].second);
        labels[i].second = NULL;
        size[i] = PITCH;
    }
    place(sketch, labels, size, count, from, to);
    for (int i = 0; i < count && !sketch->words.failed; i++) {
        reach = fmax(reach, put_below(sketch, &labels[i], top, upright));
    }
    return reach + 1.0;
}

void ss_sketch_findings(ss_sketch *sketch, const bool *shown) {
    const ss_bridge *const bridge = sketch->bridge;
    for (int i = 0; i < bridge->finding_count; i++) {
        const ss_finding *const finding = &bridge->findings[i];
        if (shown != NULL && !shown[i]) {
            continue;
        }
        ss_sketch_number(sketch, (ss_spot){SS_PAGE_MARGIN + CIRCLE, sketch->down + 1.4 * SS_LETTERS - 0.8},
                         i + 1);
        ss_sketch_paragraph(
            sketch, 2.0 * CIRCLE + 1.5,
            ss_build_text(&sketch->words, "%s: %s; %s", finding->name, finding->where, finding->effect));
        sketch->down += 0.9;
    }
}

int ss_sketch_stations(ss_sketch *sketch, const ss_scale *scale, ss_pointer **labels) {
    const ss_bridge *const bridge = sketch->bridge;
    int count = 0;
    ss_pointer *const made =
        ss_arena_alloc(&sketch->report.arena, (size_t)bridge->bearing_count, sizeof *made);
    sketch->words.failed = sketch->words.failed || made == NULL;
    for (int i = 0; made != NULL && i < bridge->bearing_count; i++) {
        const ss_bearing *const bearing = &bridge->bearings[i];
        bool known = false;
        const double at = ss_scale_at(scale, bearing->x);
        for (int k = 0; !known && k < count; k++) {
            known = fabs(made[k].at - at) < 0.01 && strcmp(made[k].text, bearing->name) == 0;
        }
        if (!known) {
            made[count++] = (ss_pointer){
                .at = at, .text = bearing->name, .second = ss_words_length(&sketch->words, bearing->x)};
        }
    }
    *labels = made;
    return count;
}
