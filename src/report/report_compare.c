/* report_compare.c - the order of a comparison's parts; which variants there are, what governs them, what
 * they take for granted. */
#include "report/report_compare.h"

#include <inttypes.h>
#include <math.h>

#include "report/report_parts.h"
#include "report/report_words.h"
#include "sillspan/figure.h"
#include "sillspan/version.h"

/* ---- which there are ---------------------------------------------------------------------------------- */

static const char *const outcome_words[] = {
    [SS_COMPARE_DONE] = "done", [SS_COMPARE_FAULTS] = "faults", [SS_COMPARE_FAILED] = "failed"};

static const ss_column variant_columns[] = {
    {"variant", "variant", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"outcome", "result", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"base", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"changes", "what differs", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"says", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"tips", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"bearings_change", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"equilibrium_error", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"doubtful", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
};

static void add_variants(ss_builder *b, const ss_comparison *all) {
    const int base = ss_comparison_base(all);
    ss_study_heading(b, "Comparison", "The variants");
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "variants",
                                                   .title = "What each of them changes",
                                                   .audience = SS_FOR_ALL,
                                                   .column_count = SS_COLUMN_COUNT(variant_columns),
                                                   .columns = variant_columns});
    for (int i = 0; i < all->variant_count; i++) {
        const ss_compare_variant *const v = &all->variants[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, v->name);
        ss_sheet_text(&sheet, outcome_words[v->outcome]);
        ss_sheet_flag(&sheet, i == base);
        ss_sheet_text(&sheet, v->changes);
        ss_sheet_text(&sheet, v->says);
        if (v->outcome == SS_COMPARE_DONE) {
            ss_sheet_flag(&sheet, v->tips);
            ss_sheet_flag(&sheet, v->contact);
            ss_sheet_value(&sheet, v->accuracy);
            ss_sheet_flag(&sheet, v->doubtful);
        }
    }
}

/* ---- how sure, and what is taken for granted ---------------------------------------------------------- */

static const ss_column warning_columns[] = {
    {"variant", "variant", SS_DIM_NUMBER, 0, SS_FOR_ALL}, {"file", "", SS_DIM_NUMBER, 0, SS_FOR_PROGRAMS},
    {"line", "line", SS_DIM_NUMBER, 0, SS_FOR_ALL},       {"path", "what", SS_DIM_NUMBER, 0, SS_FOR_ALL},
    {"message", "warning", SS_DIM_NUMBER, 0, SS_FOR_ALL},
};

static void add_warnings(ss_builder *b, const ss_comparison *all) {
    ss_sheet sheet =
        ss_build_table(b, &(ss_table){.key = "warnings",
                                      .title = "Warnings about the descriptions",
                                      .note = "Those of the first are those of the others too, unless they "
                                              "change what it is about.",
                                      .audience = SS_FOR_ALL,
                                      .column_count = SS_COLUMN_COUNT(warning_columns),
                                      .columns = warning_columns});
    for (int i = 0; i < all->warning_count; i++) {
        const ss_compare_warning *const w = &all->warnings[i];
        ss_sheet_row(&sheet);
        ss_sheet_text(&sheet, all->variants[w->variant].name);
        ss_sheet_text(&sheet, w->file);
        if (w->line > 0) {
            ss_sheet_integer(&sheet, w->line);
        } else {
            ss_sheet_none(&sheet);
        }
        ss_sheet_text(&sheet, w->path);
        ss_sheet_text(&sheet, w->message);
    }
}

static void add_trust(ss_builder *b, const ss_comparison *all) {
    ss_points points = {.count = 0};
    double worst = (double)NAN;
    ss_study_heading(b, "Comparison", "How sure");
    for (int i = 0; i < all->variant_count; i++) {
        worst = fmax(worst, all->variants[i].accuracy);
        if (all->variants[i].doubtful && points.count < 20) {
            ss_point(b, &points,
                     "DOUBTFUL: \"%s\" is close to being free to move; few digits can be relied on.",
                     all->variants[i].name);
        }
    }
    if (!isnan(worst)) {
        ss_point(b, &points,
                 "Arithmetic: what the bearings carry equals what was put on, to better than 1e%d of it.",
                 (int)ceil(log10(fmax(worst, 1e-10))));
    }
    if (all->response) {
        ss_point(b, &points,
                 "What trucks do is without load factors and dynamic allowance, %s, each with the load of "
                 "its lane "
                 "where it comes with one.",
                 all->abreast ? "one truck alone or trucks abreast" : "one truck at a time");
    }
    if (all->rating) {
        ss_point(
            b, &points,
            "Factors are of lines, floor beams and joints. The deck under a wheel, webs above bearings and "
            "fatigue of details are looked at by `rate` alone, with --variant.");
    }
    ss_point(
        b, &points,
        "A difference between variants holds for these models; that one of them is the bridge is for the "
        "inspector to say. Differences below 0.1 %% count as none.");
    ss_build_points(b, &points);
    add_warnings(b, all);
}

static void add_assumed(ss_builder *b, const ss_comparison *all) {
    if (all->assumed_count > 0) {
        ss_study_heading(b, "Comparison", "Taken for granted by single variants");
        ss_build_list(b, SS_FOR_ALL, "assumed_by_variants", all->assumed, all->assumed_count);
    }
}

static void add_head(ss_builder *b, const ss_comparison_head *head) {
    const char *title =
        head->title == NULL || head->title[0] == '\0' ? "A bridge without a title" : head->title;
    const char *digest = ss_build_text(b, "%016" PRIx64, head->digest);
    ss_build_value(b, SS_FOR_PROGRAMS, "program", "sillspan");
    ss_build_value(b, SS_FOR_PROGRAMS, "version", SS_VERSION);
    ss_build_value(b, SS_FOR_PROGRAMS, "command", "compare");
    ss_part_units(b);
    ss_build_heading(b, SS_FOR_PEOPLE, title);
    ss_build_value(b, SS_FOR_PROGRAMS, "title", title);
    ss_build_value(b, SS_FOR_PROGRAMS, "digest", digest);
    ss_build_sentence(b, "sillspan %s, compare; description %s.", SS_VERSION, digest);
}

void ss_comparison_part(ss_builder *b, const ss_comparison *all) {
    ss_comparison_answer(b, all);
    if (ss_comparison_base(all) >= 0) {
        ss_study_figure(b, ss_figure_compare);
    }
    add_variants(b, all);
    if (ss_comparison_base(all) >= 0) {
        if (all->rating) {
            ss_comparison_ratings(b, all);
        }
        if (all->response) {
            ss_study_heading(b, "Comparison", "Girders");
            ss_comparison_numbers(b, all);
            ss_comparison_supports(b, all);
        }
        ss_comparison_programs(b, all);
        add_trust(b, all);
        add_assumed(b, all);
    }
}

ss_status ss_comparison_report(const ss_comparison *all, const ss_comparison_head *head, ss_report *out,
                               ss_error *error) {
    ss_report report = {.units = head->units};
    const ss_results results = {.command = "compare", .bridge = head->bridge, .require = (double)NAN};
    ss_builder b = {.report = &report, .results = &results, .failed = all->failed};
    add_head(&b, head);
    ss_comparison_part(&b, all);
    if (ss_comparison_base(all) >= 0) {
        ss_part_closing(&b);
    }
    if (b.failed) {
        ss_report_destroy(&report);
        *out = (ss_report){0};
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the report");
    }
    *out = report;
    return SS_OK;
}
