/* report_studies.c - the studies that a filed page has besides, each as its own command has it. */
#include <string.h>

#include "report/report_compare.h"
#include "report/report_parts.h"
#include "report/report_sweep.h"
#include "report/report_unknowns.h"
#include "sillspan/figure.h"

static bool is_filed(const ss_builder *b) {
    return b->results->command != NULL && strcmp(b->results->command, "report") == 0;
}

void ss_study_heading(ss_builder *b, const char *study, const char *text) {
    if (is_filed(b)) {
        const char first = text[0] >= 'A' && text[0] <= 'Z' ? (char)(text[0] - 'A' + 'a') : text[0];
        text = ss_build_text(b, "%s: %c%s", study, first, text + 1);
    }
    ss_build_heading(b, SS_FOR_PEOPLE, text);
}

void ss_study_figure(ss_builder *b, ss_figure_maker *make) {
    if (is_filed(b)) {
        ss_build_figure(b, make);
    }
}

/* What was not asked for by numbers is said. */
static const char *says(ss_builder *b, const ss_results *study) {
    if (study->sweep != NULL) {
        return "The sweep goes through the stiffness of all joints from none to rigid, in steps of its own, "
               "as "
               "`sillspan sweep` does by itself.";
    }
    if (study->bounds != NULL) {
        return ss_build_text(b,
                             "Bounds are looked for in at most %d runs, as `sillspan bounds` does by itself.",
                             study->bounds->most_runs);
    }
    if (study->sample != NULL) {
        return ss_build_text(b, "The sample has %d draws with seed %ld, as `sillspan sample` has by itself.",
                             study->sample->draws, (long)study->sample->seed);
    }
    return study->size != NULL
               ? "The search for a deck is that of the group `sizing` of the description, as `sillspan size` "
                 "makes it."
               : "The comparison is of the bridge as described and every variant of the description, as "
                 "`sillspan compare` makes it.";
}

static void add_one(ss_builder *b, const ss_results *study) {
    if (study->sweep != NULL) {
        ss_part_sweep(b);
    } else if (study->bounds != NULL) {
        ss_study_heading(b, "Bounds", "The answer");
        ss_part_bounds(b);
    } else if (study->sample != NULL) {
        ss_study_heading(b, "Sample", "The answer");
        ss_part_sample(b);
    } else if (study->comparison != NULL) {
        ss_comparison_part(b, study->comparison);
    } else if (study->size != NULL) {
        ss_part_size(b);
    }
}

void ss_part_studies(ss_builder *b) {
    const ss_results *const page = b->results;
    ss_points points = {.count = 0};
    if (page->study_count == 0) {
        return;
    }
    ss_build_heading(b, SS_FOR_PEOPLE, "Studies");
    for (int i = 0; i < page->study_count; i++) {
        ss_point(b, &points, "%s", says(b, &page->studies[i]));
    }
    ss_build_points(b, &points);
    for (int i = 0; i < page->study_count; i++) {
        ss_builder own = {.report = b->report, .results = &page->studies[i], .failed = b->failed};
        add_one(&own, own.results);
        b->failed = own.failed;
    }
}
