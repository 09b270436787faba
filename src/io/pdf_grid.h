/* pdf_grid.h - a table as it is set on paper: what its cells show, and how wide its columns are. */
#ifndef SS_PDF_GRID_H
#define SS_PDF_GRID_H

#include "io/pdf_parts.h"

/** A column that people see. Widths are of letters of size 1, until `width`, which is points. */
typedef struct ss_pdf_grid_column {
    const ss_column *column;
    int index; /**< in the table */
    char *title, *unit;
    bool words;
    double after;   /**< most of a plain number from the point on */
    double natural; /**< nothing is broken */
    double whole;   /**< no cell is, but the title where it has blanks */
    double least;   /**< no word is */
    double broken;  /**< long words are */
    double x, width;
} ss_pdf_grid_column;

typedef struct ss_pdf_grid {
    ss_pdf *pdf;
    const ss_table *table;
    ss_pdf_grid_column *columns;
    int count;
    char **cells; /**< row by row, `count` in each */
    double size, gap;
    bool split; /**< too wide for the page: some columns at a time, the first with all of them */
} ss_pdf_grid;

/** Reads the cells and measures them. False: no memory, or nothing to be seen. */
bool ss_pdf_grid_measure(ss_pdf_grid *grid);

/** Chooses the size of letters, and the columns' widths unless `split`. */
void ss_pdf_grid_fit(ss_pdf_grid *grid);

/** Widths for these of the columns alone, which come after each other. */
void ss_pdf_grid_place(ss_pdf_grid *grid, const int *which, int count);

/** Width of a plain number from the point on, in letters of size 1; below 0: it is none. */
double ss_pdf_grid_after(const ss_pdf *pdf, const char *shown);

#endif
