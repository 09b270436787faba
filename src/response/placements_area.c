/* placements_area.c - the lines on which a load over the whole carriageway stands. */
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/placements.h"
#include "response/state.h"
#include "sillspan/memory.h"

/* Strips narrower than this carry nothing worth a line: those between both sides of a jump of the deck (m).
 */
#define NARROW 1e-6

/* Lines at the ends of a panel stand this far inside it, where something of a floor beam may jump (m). */
#define INSIDE 3e-9

static bool comes_with_area(const ss_bridge *bridge) {
    bool any = false;
    for (int i = 0; i < bridge->vehicle_count; i++) any = any || bridge->vehicles[i].area_N_m2 > 0.0;
    return any;
}

static void add_line(ss_placements *out, double y, double width) {
    ss_area_line *const last = &out->area_lines[out->area_line_count - 1];
    if (out->area_line_count > 0 && last->y == y) {
        last->width += width;
        return;
    }
    out->area_lines[out->area_line_count++] = (ss_area_line){y, width};
}

/*
 * Through a deck that spans across, effects are linear in y within a panel: half of its width goes to each
 * end. Where all of a panel is adverse that is exact; where only a part is, the lines give more than the
 * part. A deck that spans along brings the load to floor beams, which bend: effects are cubic in y within a
 * panel, and Simpson's rule gives their integral.
 */
static void add_panel(ss_placements *out, double from, double to, bool along) {
    const double width = to - from;
    if (along) {
        add_line(out, from + INSIDE, width / 6.0);
        add_line(out, 0.5 * (from + to), width * 4.0 / 6.0);
        add_line(out, to - INSIDE, width / 6.0);
    } else {
        add_line(out, from, 0.5 * width);
        add_line(out, to, 0.5 * width);
    }
}

ss_status ss_area_lines_build(const ss_mesh *mesh, const double *breaks, int count, ss_placements *out,
                              ss_error *error) {
    const ss_bridge *const bridge = mesh->bridge;
    const double left = bridge->roadway_left, right = bridge->roadway_right;
    if (!comes_with_area(bridge) || !(right - left > NARROW)) {
        return SS_OK;
    }
    double *const limit = ss_alloc((size_t)count + 2, sizeof *limit);
    out->area_lines = ss_alloc(3 * ((size_t)count + 2), sizeof *out->area_lines);
    if (limit == NULL || out->area_lines == NULL) {
        ss_free(limit);
        return ss_no_memory(error);
    }
    int limits = 0;
    limit[limits++] = left;
    for (int i = 0; i < count; i++) {
        if (breaks[i] > left && breaks[i] < right) {
            limit[limits++] = breaks[i];
        }
    }
    limit[limits++] = right;
    ss_sort_unique(limit, &limits, 0.0);
    for (int i = 0; i + 1 < limits; i++) {
        if (limit[i + 1] - limit[i] > NARROW) {
            add_panel(out, limit[i], limit[i + 1], bridge->deck.along);
        }
    }
    ss_free(limit);
    return SS_OK;
}
