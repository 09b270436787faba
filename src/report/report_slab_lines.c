/* report_slab_lines.c - which lines act with a concrete deck, with how much of it, and what section each
 * makes with it by stages. */
#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_words.h"
#include "sillspan/composite.h"

/* ---- which lines ------------------------------------------------------------------------------------ */

static const ss_column line_columns[] = {
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"lines", "line", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"composite", "acts with it", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"width", "width", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"y0", "from y", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"y1", "to y", SS_DIM_LENGTH, -2, SS_FOR_ALL},
    {"plate", "steel under connectors", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"over_web", "over a web", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"n", "n", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"n_long", "n, load that stays", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"why", "does not act, because", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

/* Where a line is looked at: the middle of what the slab covers of it. */
static double middle(const ss_bridge *bridge, int line) {
    const double x0 = fmax(bridge->lines[line].x0, bridge->slab.x0);
    const double x1 = fmin(bridge->lines[line].x1, bridge->slab.x1);
    return x1 > x0 ? 0.5 * (x0 + x1) : 0.5 * (bridge->lines[line].x0 + bridge->lines[line].x1);
}

/* The slab that acts there; long term under load that stays. */
static bool flange_of(const ss_bridge *bridge, int line, bool long_term, ss_slab_flange *out) {
    ss_slab_stage stage = ss_slab_finished(&bridge->slab);
    stage.long_term = long_term;
    return ss_slab_flange_at(bridge, line, middle(bridge, line), false, stage, out);
}

static bool near(double a, double b) {
    return fabs(a - b) <= 1e-9 * (fabs(a) + fabs(b));
}

static bool same_reason(const char *a, const char *b) {
    return a == NULL || b == NULL ? a == b : strcmp(a, b) == 0;
}

/* Lines of one set and car that stand to the slab alike and have the same section where they are looked at.
 */
static bool alike(const ss_bridge *bridge, int a, int b) {
    const ss_line *p = &bridge->lines[a];
    const ss_line *q = &bridge->lines[b];
    const ss_slab_line *u = &bridge->slab.lines[a];
    const ss_slab_line *v = &bridge->slab.lines[b];
    if (p->car != q->car || strcmp(p->set, q->set) != 0 || u->composite != v->composite ||
        !same_reason(u->why, v->why)) {
        return false;
    }
    ss_section_properties s;
    ss_section_properties t;
    return !u->composite ||
           (near(u->width, v->width) &&
            ss_bridge_line_section(bridge, a, middle(bridge, a), false, &s) == SS_OK &&
            ss_bridge_line_section(bridge, b, middle(bridge, b), false, &t) == SS_OK && near(s.A, t.A) &&
            near(s.I, t.I) && near(s.depth, t.depth) && p->steel == q->steel);
}

/* How many lines the row of this one speaks for; 0: one before it does. */
static int speaks_for(const ss_bridge *bridge, int line) {
    int count = 0;
    for (int i = 0; i < bridge->line_count; i++) {
        if (alike(bridge, i, line)) {
            if (i < line) {
                return 0;
            }
            count++;
        }
    }
    return count;
}

static const char *lines_words(ss_builder *b, int line, int count) {
    const ss_line *l = &b->results->bridge->lines[line];
    return count > 1 ? ss_build_text(b, "%s (%d)", l->set, count) : l->name;
}

static void put_line(ss_sheet *sheet, int line, const char *lines) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    const ss_slab_line *own = &bridge->slab.lines[line];
    ss_slab_flange brief;
    ss_slab_flange lasting;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bridge->cars[bridge->lines[line].car].name);
    ss_sheet_text(sheet, bridge->lines[line].name);
    ss_sheet_text(sheet, lines);
    ss_sheet_flag(sheet, own->composite);
    if (!own->composite) {
        for (int i = 0; i < 7; i++) ss_sheet_none(sheet);
        ss_sheet_text(sheet, own->why);
        return;
    }
    ss_sheet_value(sheet, own->width);
    ss_sheet_value(sheet, own->y0);
    ss_sheet_value(sheet, own->y1);
    if (own->plate > 0.0) {
        ss_sheet_value(sheet, own->plate);
    } else {
        ss_sheet_none(sheet);
    }
    ss_sheet_flag(sheet, own->over_web);
    if (flange_of(bridge, line, false, &brief) && flange_of(bridge, line, true, &lasting)) {
        ss_sheet_value(sheet, brief.n);
        ss_sheet_value(sheet, lasting.n);
    }
}

static void add_lines(ss_builder *b, bool people) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(
        b,
        &(ss_table){.key = "described.slab_lines",
                    .title = "Lines under the slab",
                    .note = "Width: how much of the slab acts with the line. n: how many times as stiff its "
                            "steel is. Lines of a set that are alike are listed once, with y of the first.",
                    .audience = people ? SS_FOR_PEOPLE : SS_FOR_PROGRAMS,
                    .column_count = SS_COLUMN_COUNT(line_columns),
                    .columns = line_columns});
    for (int i = 0; i < bridge->line_count; i++) {
        const int count = people ? speaks_for(bridge, i) : 1;
        if (count > 0) {
            put_line(&sheet, i, people ? lines_words(b, i, count) : NULL);
        }
    }
}

/* ---- their sections --------------------------------------------------------------------------------- */

static const ss_column section_columns[] = {
    {"car", "car", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"line", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"lines", "line", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"x", "at x", SS_DIM_LENGTH, -1, SS_FOR_ALL},
    {"stage", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"stage_words", "section", SS_DIM_NUMBER, 0, SS_FOR_PEOPLE},
    {"n", "n", SS_DIM_NUMBER, 3, SS_FOR_ALL},
    {"A", "A", SS_DIM_AREA, 4, SS_FOR_ALL},
    {"I", "I", SS_DIM_SECOND_MOMENT, 4, SS_FOR_ALL},
    {"z", "axis above bottom", SS_DIM_SMALL_LENGTH, 4, SS_FOR_ALL},
    {"S_bottom", "S bottom", SS_DIM_SECTION_MODULUS, 4, SS_FOR_ALL},
    {"S_top", "S top of steel", SS_DIM_SECTION_MODULUS, 4, SS_FOR_ALL},
    {"S_slab", "S top of slab", SS_DIM_SECTION_MODULUS, 4, SS_FOR_ALL},
    {"S_bars", "", SS_DIM_SECTION_MODULUS, 4, SS_FOR_PROGRAMS},
    {"Q", "", SS_DIM_SECTION_MODULUS, 4, SS_FOR_PROGRAMS},
    {"J", "", SS_DIM_SECOND_MOMENT, 4, SS_FOR_PROGRAMS},
};

/* A modulus without limit is that of a fibre on the axis, or of what is not there. */
static void put_modulus(ss_sheet *sheet, double value) {
    if (value > 0.0 && isfinite(value)) {
        ss_sheet_value(sheet, value);
    } else {
        ss_sheet_none(sheet);
    }
}

typedef struct composed {
    const char *key, *words;
    double n; /* NaN: no concrete counts */
    const ss_composite_properties *p;
} composed;

static void put_section(ss_sheet *sheet, int line, const char *lines, const composed *section) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    const ss_composite_properties *p = section->p;
    ss_sheet_row(sheet);
    ss_sheet_text(sheet, bridge->cars[bridge->lines[line].car].name);
    ss_sheet_text(sheet, bridge->lines[line].name);
    ss_sheet_text(sheet, lines);
    ss_sheet_value(sheet, middle(bridge, line));
    ss_sheet_text(sheet, section->key);
    ss_sheet_text(sheet, section->words);
    put_modulus(sheet, section->n);
    ss_sheet_value(sheet, p->A);
    ss_sheet_value(sheet, p->I);
    ss_sheet_value(sheet, p->z);
    put_modulus(sheet, p->S_bottom);
    put_modulus(sheet, p->S_top);
    put_modulus(sheet, isnan(section->n) ? (double)INFINITY : p->S_slab);
    put_modulus(sheet, p->S_bars);
    put_modulus(sheet, p->Q);
    ss_sheet_value(sheet, p->J);
}

/* The bare steel, as a section with a slab of no width and no bars. */
static ss_status bare_steel(const ss_section_properties *steel, ss_composite_properties *out) {
    const ss_slab_flange none = {.n = 1.0};
    return ss_composite_at(steel, &none, true, out, NULL);
}

static void put_sections(ss_sheet *sheet, int line, const char *lines) {
    const ss_bridge *bridge = sheet->builder->results->bridge;
    ss_section_properties steel;
    ss_slab_flange brief;
    ss_slab_flange lasting;
    ss_composite_properties p[4];
    if (ss_bridge_line_section(bridge, line, middle(bridge, line), false, &steel) != SS_OK ||
        !flange_of(bridge, line, false, &brief) || !flange_of(bridge, line, true, &lasting) ||
        bare_steel(&steel, &p[0]) != SS_OK ||
        ss_composite_at(&steel, &lasting, false, &p[1], NULL) != SS_OK ||
        ss_composite_at(&steel, &brief, false, &p[2], NULL) != SS_OK ||
        ss_composite_at(&steel, &brief, true, &p[3], NULL) != SS_OK) {
        return;
    }
    const double none = (double)NAN;
    put_section(sheet, line, lines, &(composed){"steel", "bare steel", none, &p[0]});
    put_section(sheet, line, lines, &(composed){"long_term", "under load that stays", lasting.n, &p[1]});
    put_section(sheet, line, lines, &(composed){"short_term", "under trucks", brief.n, &p[2]});
    put_section(sheet, line, lines, &(composed){"cracked", "where it hogs", none, &p[3]});
}

static void add_sections(ss_builder *b, bool people) {
    const ss_bridge *bridge = b->results->bridge;
    ss_sheet sheet = ss_build_table(
        b, &(ss_table){
               .key = "described.slab_sections",
               .title = "Steel with its slab, at the middle of each line",
               .note = "As steel, so that a stress in the concrete is M / (n S). Wet concrete acts on the "
                       "bare steel; where the section hogs the concrete is cracked and only its bars "
                       "along the line count.",
               .audience = people ? SS_FOR_PEOPLE : SS_FOR_PROGRAMS,
               .column_count = SS_COLUMN_COUNT(section_columns),
               .columns = section_columns});
    for (int i = 0; i < bridge->line_count; i++) {
        const int count = people ? speaks_for(bridge, i) : 1;
        if (count > 0 && bridge->slab.lines[i].composite) {
            put_sections(&sheet, i, people ? lines_words(b, i, count) : NULL);
        }
    }
}

void ss_part_slab_lines(ss_builder *b) {
    if (b->results->bridge->slab.lines == NULL) {
        return;
    }
    for (int people = 1; people >= 0; people--) {
        add_lines(b, people == 1);
        add_sections(b, people == 1);
    }
}
