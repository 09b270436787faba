/* report.h - results as titled tables of typed quantities, sentences and drawings; no files, and numbers are
 * put into words only inside sentences. */
#ifndef SILLSPAN_REPORT_H
#define SILLSPAN_REPORT_H

#include "sillspan/bounds.h"
#include "sillspan/cases.h"
#include "sillspan/fatigue.h"
#include "sillspan/joint_out.h"
#include "sillspan/moving.h"
#include "sillspan/posting.h"
#include "sillspan/ratings.h"
#include "sillspan/reruns.h"
#include "sillspan/sample.h"
#include "sillspan/size.h"
#include "sillspan/slab_across.h"
#include "sillspan/slab_casting.h"
#include "sillspan/slab_connectors.h"
#include "sillspan/sweep.h"

/** For ss_column.digits: as many decimals as give the largest number of the column `n` significant digits, in
 * every row. */
#define SS_DIGITS_OF_LARGEST(n) (100 + (n))

/** Who sees a table or a column. */
typedef enum ss_audience { SS_FOR_ALL, SS_FOR_PEOPLE, SS_FOR_PROGRAMS } ss_audience;

typedef enum ss_cell_kind {
    SS_CELL_NONE, /**< nothing: a blank for people, no key for programs */
    SS_CELL_TEXT,
    SS_CELL_QUANTITY,
    SS_CELL_INTEGER,
    SS_CELL_FLAG
} ss_cell_kind;

typedef struct ss_cell {
    ss_cell_kind kind;
    const char *text;
    double value; /**< SI, for a quantity; INFINITY is shown as "no limit"; integer; flag (0 or 1) */
    ss_dimension dimension; /**< goes over the column's, unless SS_DIM_NUMBER */
} ss_cell;

typedef struct ss_column {
    const char *key;   /**< for programs; dots make nested objects: "terms.live_factor" */
    const char *title; /**< for people */
    ss_dimension dimension;
    int digits; /**< significant digits for people; fixed decimals when negative: -2 is two decimals; see
                   SS_DIGITS_OF_LARGEST */
    ss_audience audience;
} ss_column;

typedef struct ss_table {
    const char *key; /**< "ratings"; dots nest */
    const char *title;
    const char *note; /**< printed under it, or NULL */
    ss_audience audience;
    bool record; /**< one row that programs see as an object, not a list; people see it as "title: value"
                    lines */
    bool bars;   /**< text for people shows the first number of each row as a bar too, with a mark at 1 */
    int column_count, row_count;
    const ss_column *columns;
    ss_cell *cells; /**< row_count x column_count */
} ss_table;

typedef enum ss_stroke_kind {
    SS_STROKE_EDGE,
    SS_STROKE_LINE,
    SS_STROKE_BEAM,
    SS_STROKE_JOINT,
    SS_STROKE_PLATE,
    SS_STROKE_CURB,
    SS_STROKE_BEARING,
    SS_STROKE_GIRDER,   /**< a line that is a main girder */
    SS_STROKE_GROUND,   /**< the deck's surface, an axis: what only guides the eye */
    SS_STROKE_DISTANCE, /**< between two axles of a vehicle */
    SS_STROKE_VARIES,   /**< the same where it varies */
    SS_STROKE_AXLE,     /**< from there down to the wheel */
    SS_STROKE_WHEEL,
    SS_STROKE_LOOSE, /**< wheel of an axle that may be left out */
    SS_STROKE_LANE,  /**< uniform load that comes with a vehicle */
    SS_STROKE_SLAB   /**< a concrete deck */
} ss_stroke_kind;

/** A drawing in metres; y to the right or down the page. Writers scale it, x and y each by its own factor. */
typedef struct ss_stroke {
    ss_stroke_kind kind;
    double x0, y0, x1, y1;
} ss_stroke;

/** `anchor` -1: the text ends at x, 0: it is centred on x, 1: it begins at x. */
typedef struct ss_label {
    double x, y;
    const char *text;
    int anchor;
} ss_label;

typedef struct ss_drawing {
    const char *key, *title;
    double width,
        height;       /**< of the strokes, which lie in [0, width] x [0, height]; labels may lie outside */
    const char *note; /**< printed under it, or NULL */
    ss_stroke *strokes;
    int stroke_count;
    ss_label *labels;
    int label_count;
} ss_drawing;

/** A truck of the part that moves. */
typedef struct ss_moving_truck {
    const char *name;
    const ss_vehicle *vehicle;
    double low, high; /**< m, between which its middle may be */
} ss_moving_truck;

/** A part of the page on which a truck is moved. */
typedef struct ss_moving_sheet {
    const ss_moving *moving;
    const ss_bridge *bridge;
    ss_moving_truck *trucks;
    int truck_count;
    const char **bearings; /**< of each bearing what it is called */
    const char *still;     /**< why the joints' stiffness is not moved; NULL: it is */
} ss_moving_sheet;

typedef enum ss_block_kind {
    SS_BLOCK_HEADING,
    SS_BLOCK_SENTENCE,
    SS_BLOCK_LIST,
    SS_BLOCK_TABLE,
    SS_BLOCK_DRAWING,
    SS_BLOCK_FIGURE, /**< on a page: writers of text and of data leave it out */
    SS_BLOCK_VALUE,
    SS_BLOCK_MOVING, /**< for people at a screen */
    SS_BLOCK_BLANKS  /**< lines to be filled in by hand, for people: items are what belongs there */
} ss_block_kind;

typedef struct ss_block {
    ss_block_kind kind;
    ss_audience audience;
    const char *key;    /**< list, value: for programs */
    const char *text;   /**< heading, sentence, value */
    const char **items; /**< list of sentences; words of blanks */
    int item_count;
    ss_table *table;
    ss_drawing *drawing;
    struct ss_figure *figure; /**< the report's own; see figure.h */
    const ss_moving_sheet *moving;
    bool screen; /**< heading: what is under it is not printed */
} ss_block;

typedef struct ss_report {
    ss_unit_system units;
    ss_block *blocks;
    int count, capacity;
    ss_arena arena;
} ss_report;

/** Everything that one run knows; members not computed are NULL. */
typedef struct ss_results {
    const char *command; /**< "check", "analyze", "rate", "report", "bounds", "sample", "sweep", "size" */
    const char *variant; /**< of the description that was looked at, or NULL */
    int variants;        /**< that the description lists */
    const ss_bridge *bridge;
    const ss_mesh *mesh;
    const ss_grillage *grillage;
    const ss_permanent *permanent;
    const ss_placements *placements;
    const ss_envelope *envelope;
    const ss_envelope
        *along; /**< for figures along the lines that it has, under one truck; NULL: `envelope` */
    const ss_effect *influence; /**< whose influence surface is drawn; NULL: what governs the rating */
    const ss_share_list *shares;
    const ss_case_list *cases; /**< placed loads */
    const ss_ratings *rated;
    const ss_ratings *rated_along; /**< place by place, for a figure (ss_ratings_along); NULL: not asked */
    const ss_posting *posting;
    const ss_joint_out *joint_out;             /**< NULL: no rating relies on a joint beyond its capacity */
    const ss_reruns *reruns;                   /**< NULL: none */
    const ss_fatigue_results *fatigue;         /**< NULL: no details are described */
    const ss_slab_connectors *slab_connectors; /**< NULL: there is no slab */
    const ss_slab_across *slab_across;         /**< likewise */
    const ss_slab_checks *slab_checks;         /**< of a slab, all parts; NULL: there is none */
    const ss_slab_casting *casting;            /**< likewise */
    const ss_moving *moving;                   /**< for a page; NULL: there is none */
    const char *not_moving;                    /**< why there is none, or NULL */
    const ss_bounds *bounds;                   /**< of the bridge's unknowns */
    const ss_sample *sample;                   /**< likewise */
    const ss_sweep *sweep;                     /**< of one value or two */
    const ss_size *size;
    const struct ss_comparison *comparison; /**< variants side by side, for their figure and a page */
    const struct ss_results *studies; /**< of a page: each with one study and what it is of; NULL: none */
    int study_count;
    const ss_answer *answers; /**< with bounds or sample: what each run answers */
    int answer_count;
    double full[2];   /**< with bounds: ratings of the worst and the best by a full search; with sample the
                         first of   them, of the least draw; NaN: not searched */
    int searched;     /**< with bounds or sample: bridges that were searched in full; 0: not said */
    double described; /**< with bounds or sample: first answer as described; NaN: not known */
    const ss_diag_list *diags; /**< warnings */
    const char *detail;        /**< member whose factors are worked out, or NULL */
    double require;            /**< NaN when not asked */
    bool text_only; /**< what is for programs alone is left out: it can be a hundred times the rest */
} ss_results;

/**
 * Builds the report of a command: the answer first, then how sure, then tables, then what is assumed and
 * ignored. Texts may point into `results`, which must outlive the report. On failure *out is an empty report.
 */
ss_status ss_report_build(const ss_results *results, ss_unit_system units, ss_report *out, ss_error *error);
void ss_report_destroy(ss_report *report);

/** Whether some member is called `detail` (NULL: nothing is asked): 0 then, else names that there are, into
 * `words`, and how many. */
int ss_report_detail_names(const ss_bridge *bridge, const char *detail, const char **words, int capacity);

/** Whether a member is called that: "sill", "stringer 2", "stringers", or with its car, "sill of car north".
 */
bool ss_report_is_named(const ss_bridge *bridge, ss_member_kind member, int index, const char *name);

/** Whether the requirement (results->require) is met by every rated member, every joint with a capacity, and
 * every bearing (no two-way bearing pulled, nothing tips below it). True when nothing is required. */
bool ss_report_requirement_met(const ss_results *results);

#endif
