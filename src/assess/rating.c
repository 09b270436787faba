/* rating.c - rating factors of every member for every truck: the governing section of each. */
#include "sillspan/rating.h"

#include <math.h>
#include <string.h>

#include "assess/rating_terms.h"
#include "base/try.h"

/* Shares of the whole work, for the progress. */
#define SEARCHED 0.5
#define REFINED 0.9

static ss_status check_settings(const ss_bridge *bridge, ss_error *error) {
    const bool condition = !isnan(bridge->rating.condition);
    const bool system = !isnan(bridge->rating.system);
    if (condition && system) {
        return SS_OK;
    }
    return ss_error_set(error, SS_ERROR_DESCRIPTION, "%s not given, and %s never guessed: a rating needs %s",
                        condition ? "rating.system is"
                        : system  ? "rating.condition is"
                                  : "rating.condition and rating.system are",
                        condition || system ? "it is" : "they are", condition || system ? "it" : "both");
}

/* Fits in: a traffic that the roadway has room for. */
static bool fits(const ss_rating_search *search, int traffic) {
    return search->placements->traffic[traffic].track_count > 0;
}

static ss_status collect(const ss_rating_search *search, const ss_rating_terms *terms, ss_rating_result *out,
                         ss_error *error) {
    ss_status status = SS_OK;
    const int traffic = search->placements->traffic_count;
    for (int g = 0; g < search->rated->group_count; g++) {
        for (int t = 0; t < traffic; t++) {
            if (!fits(search, t)) {
                continue;
            }
            int rated = 0;
            bool most = true;
            (void)ss_rating_search_governing(search, g, t, &rated, &most);
            SS_TRY(ss_rating_terms_fill(terms, rated, t, most, &out->items[out->count], error));
            out->count++;
        }
        if (search->progress != NULL) {
            search->progress(search->context,
                             REFINED + (1.0 - REFINED) * (g + 1) / search->rated->group_count);
        }
    }
done:
    return status;
}

static void find_smallest(ss_rating_result *result) {
    result->controlling = -1;
    for (int t = 0; t < result->traffic_count; t++) result->by_traffic[t] = -1;
    for (int i = 0; i < result->count; i++) {
        const ss_rating *const item = &result->items[i];
        int *const best = &result->by_traffic[item->traffic];
        if (*best < 0 || item->rf < result->items[*best].rf * (1.0 - SS_RATING_TIE)) {
            *best = i;
        }
    }
    for (int t = 0; t < result->traffic_count; t++) {
        const int i = result->by_traffic[t];
        if (i >= 0 && (result->controlling < 0 ||
                       result->items[i].rf < result->items[result->controlling].rf * (1.0 - SS_RATING_TIE))) {
            result->controlling = i;
        }
    }
}

/* Trucks that the roadway has no room for join the remarks on sections. */
static ss_status write_notes(const ss_rating_search *search, const ss_rating_notes *notes,
                             ss_rating_result *out) {
    const ss_bridge *const bridge = ss_grillage_mesh(search->permanent->grillage)->bridge;
    const char **sections = NULL;
    int count = 0;
    const ss_status status = ss_rating_notes_text(notes, bridge, &sections, &count);
    if (status != SS_OK) {
        return status;
    }
    const char **const all =
        ss_arena_alloc(&out->arena, (size_t)(count + out->traffic_count) + 1, sizeof *all);
    if (all == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (int i = 0; i < count; i++) {
        all[i] = ss_arena_text(&out->arena, sections[i], strlen(sections[i]));
        if (all[i] == NULL) {
            return SS_ERROR_MEMORY;
        }
    }
    for (int t = 0; t < out->traffic_count; t++) {
        if (!fits(search, t)) {
            all[count] = ss_arena_printf(&out->arena, "%s is not rated: the roadway has no room for it",
                                         bridge->vehicles[search->placements->traffic[t].vehicle].name);
            if (all[count++] == NULL) {
                return SS_ERROR_MEMORY;
            }
        }
    }
    out->notes = all;
    out->note_count = count;
    return SS_OK;
}

static ss_status compute(ss_rating_search *search, ss_rating_notes *notes, const ss_rating_rule *rule,
                         ss_rating_result *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_rating_terms terms = {0};
    const size_t most = (size_t)search->rated->group_count * (size_t)search->placements->traffic_count;
    out->traffic_count = search->placements->traffic_count;
    out->items = ss_arena_alloc(&out->arena, most + 1, sizeof *out->items);
    out->by_traffic = ss_arena_alloc(&out->arena, (size_t)out->traffic_count + 1, sizeof *out->by_traffic);
    SS_TRY(out->items == NULL || out->by_traffic == NULL ? SS_ERROR_MEMORY : SS_OK);
    if (most > 0) {
        search->progress_to = SEARCHED;
        SS_TRY(ss_rating_search_all(search, error));
        search->progress_from = SEARCHED;
        search->progress_to = REFINED;
        SS_TRY(ss_rating_search_refine(search, error));
        SS_TRY(ss_rating_search_polish(search, error));
        SS_TRY(ss_rating_terms_init(&terms, search, rule, error));
        SS_TRY(collect(search, &terms, out, error));
    }
    find_smallest(out);
    SS_TRY(write_notes(search, notes, out));
done:
    ss_rating_terms_destroy(&terms);
    return status;
}

ss_status ss_rating_compute(const ss_permanent *permanent, const ss_placements *placements,
                            const ss_effect *effects, int effect_count,
                            void (*progress)(void *context, double done), void *context,
                            ss_rating_result *out, ss_error *error) {
    ss_status status = SS_OK;
    const ss_mesh *const mesh = ss_grillage_mesh(permanent->grillage);
    ss_rating_result result = {0};
    ss_arena passing = {0};
    ss_rated_list rated = {0};
    ss_rating_notes notes = {.arena = &passing};
    ss_rating_search search = {.permanent = permanent,
                               .placements = placements,
                               .rated = &rated,
                               .progress = progress,
                               .context = context};
    int rules = 0;
    const ss_rating_rule *const rule = ss_rating_rules(&rules);
    if (error != NULL) {
        *error = (ss_error){0};
    }
    SS_TRY(check_settings(mesh->bridge, error));
    SS_TRY(ss_rated_list_build(mesh, effects, effect_count, &notes, &rated, error));
    SS_TRY(ss_rating_search_init(&search, rule, &passing));
    SS_TRY(compute(&search, &notes, rule, &result, error));
    *out = result;
    result = (ss_rating_result){0};
done:
    ss_rating_search_destroy(&search);
    ss_arena_destroy(&passing);
    ss_rating_destroy(&result);
    if (status != SS_OK && error != NULL && error->message[0] == '\0') {
        ss_error_set(error, status, "the rating: %s", ss_status_text(status));
    }
    return status;
}

void ss_rating_destroy(ss_rating_result *result) {
    if (result == NULL) {
        return;
    }
    ss_arena_destroy(&result->arena);
    *result = (ss_rating_result){0};
}
