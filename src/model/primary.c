/* primary.c - which members count as primary: main girders, and exterior girders that are large enough. */
#include <string.h>

#include "base/numeric.h"
#include "model/resolve.h"
#include "sillspan/bridge.h"

ss_status ss_line_sizes(const ss_bridge *bridge, int line, double out[SS_SIZE_COUNT]) {
    const ss_line *const l = &bridge->lines[line];
    memset(out, 0, SS_SIZE_COUNT * sizeof *out);
    for (int i = 0; i < 2 * l->piece_count; i++) {
        const ss_line_piece *const piece = &bridge->pieces[l->first_piece + i / 2];
        ss_section_properties p;
        const ss_status status = ss_section_at(&bridge->sections[piece->section],
                                               i % 2 == 0 ? piece->depth0 : piece->depth1, 0.0, &p, NULL);
        if (status != SS_OK) {
            return status;
        }
        out[SS_SIZE_I] = ss_max(out[SS_SIZE_I], p.I);
        out[SS_SIZE_S] = ss_max(out[SS_SIZE_S], ss_min(p.S_top, p.S_bottom));
        out[SS_SIZE_A] = ss_max(out[SS_SIZE_A], p.A);
        out[SS_SIZE_DEPTH] = ss_max(out[SS_SIZE_DEPTH], p.depth);
    }
    return SS_OK;
}

int ss_primary_girder(const ss_bridge *bridge, int line, ss_size_property by) {
    const ss_car *const car = &bridge->cars[bridge->lines[line].car];
    int largest = -1;
    double size = 0.0;
    for (int k = car->first_line; k < car->first_line + car->line_count; k++) {
        double sizes[SS_SIZE_COUNT];
        if (bridge->lines[k].role == SS_ROLE_MAIN && ss_line_sizes(bridge, k, sizes) == SS_OK &&
            (largest < 0 || sizes[by] > size)) {
            largest = k;
            size = sizes[by];
        }
    }
    return largest;
}

/* An exterior girder of unknown size, or beside one, counts: that is for the worse. */
static bool is_primary(const ss_bridge *bridge, int line) {
    const ss_size_property by = bridge->rating.primary_by;
    double own[SS_SIZE_COUNT];
    double main[SS_SIZE_COUNT];
    if (bridge->lines[line].role != SS_ROLE_EXTERIOR) {
        return bridge->lines[line].role == SS_ROLE_MAIN;
    }
    const int girder = ss_primary_girder(bridge, line, by);
    if (girder < 0 || ss_line_sizes(bridge, line, own) != SS_OK ||
        ss_line_sizes(bridge, girder, main) != SS_OK || !(own[by] > 0.0) || !(main[by] > 0.0)) {
        return true;
    }
    return own[by] > bridge->rating.primary_share * main[by];
}

bool ss_member_primary(const ss_bridge *bridge, ss_member_kind member, int index) {
    return member == SS_MEMBER_LINE && bridge->lines[index].primary;
}

const char *ss_size_name(ss_size_property property) {
    static const char *const names[] = {"I", "S", "A", "depth"};
    return names[property];
}

/* What is assumed is told only where there is an exterior girder to compare. */
static void read_settings(ss_resolve *c) {
    ss_rating_settings *const out = &c->bridge->rating;
    const ss_node *const rating = ss_node_child(c->root, "rating");
    bool compared = false;
    for (int i = 0; i < c->bridge->line_count; i++) {
        compared = compared || c->bridge->lines[i].role == SS_ROLE_EXTERIOR;
    }
    if (compared) {
        const int by = ss_read_choice(&c->reading, rating, "rating.primary_by", NULL);
        out->primary_by = by > 0 ? (ss_size_property)by : SS_SIZE_I;
        (void)ss_read_quantity(&c->reading, rating, "rating.primary_share", &out->primary_share);
    }
    if (ss_read_given(rating, "release_secondary")) {
        (void)ss_read_flag(&c->reading, rating, "rating.release_secondary", &out->release_secondary);
    }
}

void ss_resolve_primary(ss_resolve *c) {
    read_settings(c);
    for (int i = 0; i < c->bridge->line_count; i++) c->bridge->lines[i].primary = is_primary(c->bridge, i);
}
