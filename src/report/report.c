/* report.c - the order of a report's parts for each command, and whether a requirement is met. */
#include "sillspan/report.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "report/report_parts.h"
#include "report/report_ratings.h"
#include "report/report_sweep.h"
#include "report/report_unknowns.h"
#include "report/report_words.h"
#include "sillspan/figure.h"
#include "sillspan/version.h"

static const char *const unit_keys[SS_DIM_COUNT] = {
    [SS_DIM_NUMBER] = NULL,
    [SS_DIM_LENGTH] = "length",
    [SS_DIM_SMALL_LENGTH] = "small_length",
    [SS_DIM_AREA] = "area",
    [SS_DIM_SECTION_MODULUS] = "section_modulus",
    [SS_DIM_SECOND_MOMENT] = "second_moment",
    [SS_DIM_FORCE] = "force",
    [SS_DIM_MOMENT] = "moment",
    [SS_DIM_STRESS] = "stress",
    [SS_DIM_LINE_LOAD] = "line_load",
    [SS_DIM_AREA_LOAD] = "area_load",
    [SS_DIM_UNIT_WEIGHT] = "unit_weight",
    [SS_DIM_SPRING] = "spring",
    [SS_DIM_ROTATION_SPRING] = "rotation_spring",
    [SS_DIM_SPRING_PER_LENGTH] = "spring_per_length",
    [SS_DIM_ROTATION_SPRING_PER_LENGTH] = "rotation_spring_per_length",
    [SS_DIM_MOMENT_PER_LENGTH] = "moment_per_length",
    [SS_DIM_ANGLE] = "angle",
};

/* The display unit of each dimension, as one record. */
void ss_part_units(ss_builder *b) {
    ss_column *columns = ss_arena_alloc(&b->report->arena, SS_DIM_COUNT + 1, sizeof *columns);
    if (columns == NULL) {
        b->failed = true;
        return;
    }
    int count = 0;
    columns[count++] = (ss_column){.key = "system", .title = ""};
    for (int d = 0; d < SS_DIM_COUNT; d++) {
        if (unit_keys[d] != NULL) {
            columns[count++] = (ss_column){.key = unit_keys[d], .title = ""};
        }
    }
    columns[count++] = (ss_column){.key = "tons", .title = ""};
    ss_sheet sheet = ss_build_table(b, &(ss_table){.key = "units",
                                                   .title = "",
                                                   .audience = SS_FOR_PROGRAMS,
                                                   .record = true,
                                                   .column_count = count,
                                                   .columns = columns});
    ss_sheet_row(&sheet);
    ss_sheet_text(&sheet, b->report->units == SS_UNITS_SI ? "si" : "us");
    for (int d = 0; d < SS_DIM_COUNT; d++) {
        if (unit_keys[d] != NULL) {
            ss_sheet_text(&sheet, ss_units_name((ss_dimension)d, b->report->units));
        }
    }
    ss_sheet_text(&sheet, "2000 lb");
}

static void add_head(ss_builder *b) {
    const ss_results *results = b->results;
    const char *title = results->bridge->title;
    if (title == NULL || title[0] == '\0') {
        title = "A bridge without a title";
    }
    const char *digest = ss_build_text(b, "%016" PRIx64, results->bridge->digest);
    ss_build_value(b, SS_FOR_PROGRAMS, "program", "sillspan");
    ss_build_value(b, SS_FOR_PROGRAMS, "version", SS_VERSION);
    ss_build_value(b, SS_FOR_PROGRAMS, "command", results->command);
    ss_part_units(b);
    ss_build_heading(b, SS_FOR_PEOPLE, title);
    ss_build_value(b, SS_FOR_PROGRAMS, "title", title);
    ss_build_value(b, SS_FOR_PROGRAMS, "digest", digest);
    ss_build_sentence(b, "sillspan %s, %s; description %s.", SS_VERSION, results->command, digest);
    if (results->variant != NULL) {
        ss_build_value(b, SS_FOR_PROGRAMS, "variant", results->variant);
        ss_build_sentence(b, "This is its variant \"%s\", not the bridge as described.", results->variant);
    } else if (results->variants > 0) {
        ss_build_sentence(b, "%s listed in the description, and left out here: see `compare` and --variant.",
                          ss_words_count(b, results->variants, "variant is", "variants are"));
    }
    if (results->bridge->notes != NULL && results->bridge->notes[0] != '\0') {
        ss_build_sentence(b, "%s", results->bridge->notes);
    }
}

static ss_status finish(ss_builder *b, ss_report *out, ss_error *error) {
    if (b->failed) {
        ss_report_destroy(b->report);
        *out = (ss_report){0};
        return ss_error_set(error, SS_ERROR_MEMORY, "no memory for the report");
    }
    *out = *b->report;
    return SS_OK;
}

/* Studies: many bridges, none of which is shown by itself. */
static ss_status finish_study(ss_builder *b, ss_report *out, ss_error *error) {
    if (b->results->sweep != NULL) {
        ss_part_sweep(b);
    }
    if (b->results->bounds != NULL) {
        ss_part_bounds(b);
    }
    if (b->results->sample != NULL) {
        ss_part_sample(b);
    }
    if (b->results->size != NULL) {
        ss_part_size(b);
    } else if (b->results->sweep == NULL) {
        ss_part_unknowns(b);
    }
    ss_part_warnings(b);
    ss_part_closing(b);
    return finish(b, out, error);
}

/* The description as it was understood. */
static void add_described(ss_builder *b) {
    ss_part_drawings(b);
    ss_part_description(b);
}

/* The same with figures for a page instead of what fits a terminal. */
static void add_pictured(ss_builder *b) {
    ss_build_heading(b, SS_FOR_PEOPLE, "What the description says");
    ss_build_figure(b, ss_figure_plan);
    ss_build_figure(b, ss_figure_section);
    ss_build_figure(b, ss_figure_elevation);
    ss_part_description(b);
}

/* Along the girders, and over the plan what governs. */
static void add_envelopes(ss_builder *b) {
    if (b->results->envelope != NULL) {
        ss_build_heading(b, SS_FOR_PEOPLE, "Along the girders");
        if (b->results->rated_along != NULL) {
            ss_build_figure(b, ss_figure_rating);
        }
        ss_build_figure(b, ss_figure_moment);
        ss_build_figure(b, ss_figure_shear);
        ss_build_figure(b, ss_figure_deflection);
        if (b->results->rated != NULL && ss_rated_controlling(b->results) >= 0) {
            ss_build_figure(b, ss_figure_influence);
        }
    }
}

static void add_described_loads(ss_builder *b) {
    ss_part_unknowns(b);
    ss_part_loads(b);
    ss_part_slab(b);
}

static void add_rated(ss_builder *b) {
    ss_part_ratings(b);
    ss_rated_deck(b);
    ss_part_slab_casting(b);
    ss_part_slab_across(b);
    ss_part_slab_connectors(b);
    ss_part_slab_checks(b);
    ss_rated_bearing_webs(b);
    ss_part_carriers(b);
    ss_part_fatigue(b);
    ss_part_posting(b);
}

static bool is_filed(const ss_results *results) {
    return strcmp(results->command, "report") == 0;
}

static void add_analysed(ss_builder *b) {
    ss_part_probes(b);
    ss_part_share(b);
    if (is_filed(b->results) && b->results->shares != NULL && b->results->shares->count > 0) {
        ss_build_figure(b, ss_figure_share);
    }
    ss_part_effects(b);
    ss_part_reactions(b);
}

/* To be filed: everything that was computed and all that it stands on, the answer on the first page. */
static void add_filed(ss_builder *b) {
    ss_part_answer_ratings(b);
    ss_part_measure(b);
    ss_part_trust(b);
    if (ss_rated_controlling(b->results) >= 0) {
        ss_build_heading(b, SS_FOR_PEOPLE, "Truck by truck");
        ss_part_answer_tables(b);
    }
    ss_part_moving(b);
    add_pictured(b);
    add_described_loads(b);
    ss_part_assumed(b);
    ss_part_findings(b);
    add_rated(b);
    if (b->results->posting != NULL) {
        ss_build_figure(b, ss_figure_sign);
    }
    ss_part_inventory(b);
    add_envelopes(b);
    add_analysed(b);
    ss_part_studies(b);
    ss_part_accuracy(b);
    ss_part_caution(b);
    ss_part_signature(b);
}

ss_status ss_report_build(const ss_results *results, ss_unit_system units, ss_report *out, ss_error *error) {
    ss_report report = {.units = units};
    ss_builder b = {.report = &report, .results = results};
    const bool check = strcmp(results->command, "check") == 0;
    add_head(&b);
    if (results->bounds != NULL || results->sample != NULL || results->sweep != NULL ||
        results->size != NULL) {
        return finish_study(&b, out, error);
    }
    if (is_filed(results)) {
        add_filed(&b);
        return finish(&b, out, error);
    }
    if (results->rated != NULL) {
        ss_part_answer_ratings(&b);
        ss_part_answer_tables(&b);
    } else {
        ss_part_answer(&b);
    }
    ss_part_trust(&b);
    if (check) {
        add_described(&b);
        ss_part_findings(&b);
        add_described_loads(&b);
    }
    if (results->rated != NULL) {
        ss_part_findings(&b);
        add_rated(&b);
        ss_part_inventory(&b);
    }
    if (!check) {
        add_analysed(&b);
    }
    ss_part_closing(&b);
    return finish(&b, out, error);
}

void ss_report_destroy(ss_report *report) {
    if (report == NULL) {
        return;
    }
    for (int i = 0; i < report->count; i++) {
        if (report->blocks[i].figure != NULL) {
            ss_figure_destroy(report->blocks[i].figure);
        }
    }
    ss_arena_destroy(&report->arena);
    *report = (ss_report){0};
}

/* A two-way bearing that a multiple of some truck pulls up. */
static bool bearing_pulled(const ss_results *results, double multiple) {
    const ss_envelope *envelope = results->envelope;
    for (int i = 0; i < envelope->effect_count; i++) {
        const ss_effect *effect = &envelope->effects[i];
        if (effect->kind != SS_EFFECT_REACTION || results->bridge->bearings[effect->index].contact) {
            continue;
        }
        for (int t = 0; t < envelope->traffic_count; t++) {
            const double live = ss_range_extreme(envelope, i, t, 0)->value;
            /* Rounding of a reaction that is zero is no pull. */
            const double noise = 1e-9 * (fabs(envelope->dead[i]) + multiple * fabs(live));
            if (envelope->dead[i] + multiple * live < -noise && ss_words_told(results, t)) {
                return true;
            }
        }
    }
    return false;
}

/* Written so that a factor that is not known does not pass. */
static bool rated_met(const ss_results *results, double require) {
    for (int i = 0; i < results->rated->count; i++) {
        const ss_rating_item *item = &results->rated->items[i];
        if (!(item->rf >= require) && ss_rated_governs(results, item->check, item->traffic)) {
            return false;
        }
    }
    return true;
}

bool ss_report_requirement_met(const ss_results *results) {
    const double require = results->require;
    if (isnan(require)) {
        return true;
    }
    if (results->rated != NULL && !rated_met(results, require)) {
        return false;
    }
    if (results->envelope != NULL) {
        if (results->envelope->tips && require >= 1.0) {
            return false;
        }
        if (bearing_pulled(results, require)) {
            return false;
        }
    }
    return true;
}
