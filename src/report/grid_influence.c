/* grid_influence.c - an influence surface as a grid. */
#include "report/grid_parts.h"
#include "report/report_words.h"

ss_status ss_grid_of_influence(const ss_results *results, const ss_influence *influence, ss_grid *out,
                               ss_error *error) {
    ss_lattice lattice;
    const ss_effect *const e = &influence->effect;
    ss_lattice_begin(&lattice, results, influence->point_count, influence->cell_count,
                     4 * influence->cell_count, out);
    ss_builder *const words = &lattice.words;
    for (int i = 0; i < influence->point_count; i++) {
        (void)ss_lattice_point(&lattice, influence->points[i].x, influence->points[i].y);
    }
    for (int i = 0; i < influence->cell_count; i++) {
        ss_lattice_cell(&lattice, SS_GRID_QUAD, influence->cells[i]);
    }
    double *const value = ss_lattice_numbers(
        &lattice, ss_effect_name(e->kind), false, 1,
        (ss_grid_unit){ss_words_dimension(results->bridge, e), SS_DIM_NUMBER, SS_DIM_FORCE});
    for (int i = 0; i < influence->point_count && value != NULL; i++) {
        value[i] = influence->points[i].value;
    }
    const char *const place = ss_words_place(words, e);
    const bool side = e->member == SS_MEMBER_LINE || e->member == SS_MEMBER_BEAM;
    const char *const open =
        influence->open == 0 ? "" : "; those that carry nothing under the dead load are not there";
    ss_lattice_notes(&lattice,
                     ss_build_text(words,
                                   "%s of %s%s%s%s, from a unit force down on the deck wherever it stands; "
                                   "bearings neither open nor close under it%s",
                                   ss_effect_name(e->kind), ss_words_member(words, e->member, e->index),
                                   place[0] == '\0' ? "" : " ", place,
                                   !side       ? ""
                                   : e->before ? ", just before the section"
                                               : ", just after the section",
                                   open));
    return ss_lattice_end(&lattice, error);
}
