/* report_slab_cautions.c - what to mind before a deck is cast on old cars. */
#include "report/report_parts.h"
#include "report/report_words.h"
#include "sillspan/slab_casting.h"

void ss_slab_cautions(ss_builder *b, bool formed) {
    const ss_slab *const slab = &b->results->bridge->slab;
    ss_points points = {.count = 0};
    ss_point(b, &points,
             "Old steel may not be weldable: have it tested before anything is welded to it, the very plates "
             "that connectors are to stand on.");
    ss_point(b, &points,
             "Cars differ in camber, and in how their ends were cut and seated: the slab is thicker over the "
             "lower one. Level the steel before the depth of the concrete is settled; thickness here is the "
             "same everywhere but for the sag.");
    ss_point(b, &points,
             "The weight comes onto footings, caps and abutments that are not looked at here: have their "
             "capacity checked for it.");
    ss_point(b, &points,
             "People and gear count as %s, with a factor of %s (AASHTO LRFD 3.4.2.1, from memory). A "
             "finishing machine, a pump's hose or a heap of concrete is more: keep them off, or look at them "
             "by themselves.",
             ss_words_quantity(b, slab->construction, SS_DIM_AREA_LOAD, 3),
             ss_words_decimals(b, SS_CASTING_CONSTRUCTION, 2));
    ss_point(b, &points,
             "Water must find its way off: the old deck let it through, a slab does not. Drains, a crossfall "
             "and a drip edge are part of the design, and sag without camber makes a pond.");
    ss_point(
        b, &points,
        "Shrinkage is listed and not computed: a strain of about 0.0002 to 0.0005 as a rule, which pulls "
        "the slab, bends the girders down further and cracks the slab over the gap and over bearings "
        "first. Heat of the sun on the slab, and creep of one pour against the next, are left out "
        "likewise.");
    if (!formed) {
        ss_point(
            b, &points,
            "The formwork is not described and not looked at; whoever casts the slab designs it, and what "
            "it weighs comes on top.");
    }
    ss_point(b, &points,
             "This is a study and no design. A deck on old cars needs a licensed engineer's design, drawings "
             "and inspection.");
    ss_build_points(b, &points);
}
