/* figure_parts.h - what the figures of a bridge share: heading, labels that point, numbered findings. */
#ifndef SS_REPORT_FIGURE_PARTS_H
#define SS_REPORT_FIGURE_PARTS_H

#include "report/report_builder.h"
#include "sillspan/figure.h"

/** Width of a page and its margin, mm. */
#define SS_PAGE_WIDTH 180.0
#define SS_PAGE_MARGIN 5.0

/** A figure that is being drawn; its words are made in a report of no blocks. */
typedef struct ss_sketch {
    ss_figure *figure;
    const ss_bridge *bridge;
    ss_report report;
    ss_builder words;
    double down; /**< mm: everything above is full */
} ss_sketch;

/** A label with where it points to. */
typedef struct ss_pointer {
    double at; /**< mm along the direction in which labels make room */
    const char *text;
    const char *second; /**< a line below, or NULL */
    double from;        /**< mm down where its leader begins, of a row; 0: at its top */
    double placed;      /**< mm, where it got to */
} ss_pointer;

/** Begins a page of no height yet with `title` and the bridge's name. `sketch` must stay where it is. */
void ss_sketch_begin(ss_sketch *sketch, const ss_results *results, ss_unit_system units, ss_figure *out,
                     const char *key);
void ss_sketch_heading(ss_sketch *sketch, const char *title);
/** Closes the page; its height is what was used. On failure the figure is empty. */
ss_status ss_sketch_end(ss_sketch *sketch, ss_error *error);

/** Sets a text in lines at the left margin plus `indent`, and moves `down`. */
void ss_sketch_paragraph(ss_sketch *sketch, double indent, const char *text);

/** Letters of that size, or as much smaller as a text needs to keep within `room` (mm). */
double ss_sketch_fitting(const char *text, double size, double room);

/** A length in the units of the figure. */
double ss_sketch_units(const ss_sketch *sketch, double metres);

/** Axis along the bridge below `at`, from x0 to x1 (m) over `from` to `to` (mm); moves `down`. */
void ss_sketch_axis_along(ss_sketch *sketch, double at, double from, double to);

/** The bearings of the line that `line` belongs to, as wedges below `y` (mm). */
void ss_sketch_wedges(ss_sketch *sketch, const ss_scale *x, double y, int line);

/** A number in a circle, as findings have it. */
void ss_sketch_number(ss_sketch *sketch, ss_spot middle, int number);

/** Labels in a column whose texts end at `right`, each with a leader to `to`, between low and high. */
void ss_sketch_column(ss_sketch *sketch, ss_pointer *labels, int count, double right, double to, double low,
                      double high);

/** Labels in a row below `top`, with leaders up to `top`; upright where they would not fit between from and
 * to. Returns how far down they reach. */
double ss_sketch_row(ss_sketch *sketch, ss_pointer *labels, int count, double top, double from, double to);

/** The findings by number, one paragraph each, at the bottom. `shown` NULL: all; else one flag for each. */
void ss_sketch_findings(ss_sketch *sketch, const bool *shown);

/** Labels of the bearings: each set and station once. `scale` takes m to mm. Returns how many; *labels is
 * in the report's memory. */
int ss_sketch_stations(ss_sketch *sketch, const ss_scale *scale, ss_pointer **labels);

#endif
