/* sample.c - random draws of the unknowns, and what the answers to them look like together. */
#include "sillspan/sample.h"

#include <string.h>

#include "base/numeric.h"
#include "base/statistics.h"
#include "base/try.h"

/* Draws that are answered together: enough for many threads, few enough to stop soon. */
#define BATCH 32

typedef struct sampling {
    const ss_unknown_set *set;
    const ss_evaluator *evaluator;
    const ss_study_watch *watch;
    ss_sample *out;
    int batch;
    ss_error *error;
} sampling;

static size_t answers_of(const sampling *s) {
    return (size_t)s->evaluator->answer_count;
}

/* ---- answering ------------------------------------------------------------------------------------ */

static ss_status add_reason(ss_sample *out, const char *text) {
    const char *const known = text == NULL ? "no reason is known" : text;
    for (int i = 0; i < out->reason_count; i++) {
        if (strcmp(out->reasons[i].text, known) == 0) {
            out->reasons[i].count++;
            return SS_OK;
        }
    }
    if (out->reason_count == SS_SAMPLE_REASONS) {
        out->reasons[SS_SAMPLE_REASONS - 1].text = "other reasons";
        out->reasons[SS_SAMPLE_REASONS - 1].count++;
        return SS_OK;
    }
    const char *const own = ss_arena_text(&out->arena, known, strlen(known));
    if (own == NULL) {
        return SS_ERROR_MEMORY;
    }
    out->reasons[out->reason_count++] = (ss_sample_reason){own, 1};
    return SS_OK;
}

static ss_status note_batch(sampling *s, int first, int count) {
    ss_sample *const out = s->out;
    const ss_evaluator *const e = s->evaluator;
    for (int i = 0; i < count; i++) {
        if (!isnan(out->values[(size_t)(first + i) * answers_of(s)])) {
            out->answered++;
            continue;
        }
        const ss_status status = add_reason(out, e->failure == NULL ? NULL : e->failure(e->context, i));
        if (status != SS_OK) {
            return status;
        }
    }
    return SS_OK;
}

static ss_status answer(sampling *s) {
    ss_status status = SS_OK;
    ss_sample *const out = s->out;
    const size_t n = (size_t)s->set->count;
    double work[2 * SS_UNKNOWNS];
    for (int i = 0; i < out->draws; i++) {
        ss_unknowns_draw(s->set, out->seed, out->draws, i, out->points + (size_t)i * n, work);
    }
    while (out->done < out->draws) {
        if (s->watch->stop != NULL && s->watch->stop(s->watch->context)) {
            out->stopped = true;
            break;
        }
        const int count = out->draws - out->done < s->batch ? out->draws - out->done : s->batch;
        SS_TRY(s->evaluator->evaluate(s->evaluator->context, count, out->points + (size_t)out->done * n,
                                      out->values + (size_t)out->done * answers_of(s), s->error));
        SS_TRY(note_batch(s, out->done, count));
        out->done += count;
        if (s->watch->progress != NULL) {
            s->watch->progress(s->watch->context, (double)out->done / out->draws);
        }
    }
done:
    return status;
}

/* ---- statistics ----------------------------------------------------------------------------------- */

/* Column `index` of what was answered, those draws only that have both; returns how many. */
static int collect(const sampling *s, int answer, int unknown, double *values, double *drawn) {
    const ss_sample *const out = s->out;
    int count = 0;
    for (int i = 0; i < out->done; i++) {
        const double *const row = out->values + (size_t)i * answers_of(s);
        if (isnan(row[0]) || isnan(row[answer])) {
            continue;
        }
        values[count] = row[answer];
        drawn[count] = out->points[(size_t)i * (size_t)s->set->count + (size_t)unknown];
        count++;
    }
    return count;
}

static void find_quantiles(ss_sample_answer *a, int count, const double *sorted) {
    static const double shares[SS_SAMPLE_QUANTILES] = SS_SAMPLE_SHARES;
    a->least = count > 0 ? sorted[0] : SS_NAN;
    a->most = count > 0 ? sorted[count - 1] : SS_NAN;
    for (int k = 0; k < SS_SAMPLE_QUANTILES; k++) {
        ss_sample_quantile *const q = &a->quantiles[k];
        int low = -1;
        int high = count;
        q->share = shares[k];
        q->value = count > 0 ? ss_quantile(count, sorted, shares[k]) : SS_NAN;
        ss_quantile_interval(count, shares[k], SS_SAMPLE_CONFIDENCE, &low, &high);
        q->low = low < 0 ? -SS_INFINITY : sorted[low];
        q->high = high >= count ? SS_INFINITY : sorted[high];
    }
}

static void find_share(ss_sample *out, int count, const double *sorted) {
    out->below_low = out->below_high = SS_NAN;
    while (out->below < count && sorted[out->below] < out->limit) {
        out->below++;
    }
    if (count > 0) {
        ss_share_interval(out->below, count, SS_SAMPLE_CONFIDENCE, &out->below_low, &out->below_high);
    }
}

static ss_status describe(sampling *s, int answer, double *values, double *drawn) {
    ss_sample_answer *const a = &s->out->answers[answer];
    int count = 0;
    a->correlation = ss_arena_alloc(&s->out->arena, (size_t)s->set->count, sizeof *a->correlation);
    if (a->correlation == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (int j = 0; j < s->set->count; j++) {
        count = collect(s, answer, j, values, drawn);
        const ss_status status = ss_rank_correlation(count, values, drawn, &a->correlation[j]);
        if (status != SS_OK) {
            return status;
        }
    }
    ss_sort(count, values);
    find_quantiles(a, count, values);
    if (answer == 0) {
        find_share(s->out, count, values);
    }
    return SS_OK;
}

/* Largest correlation first, what cannot be told last, in the order of the description among equals. */
static void rank(ss_sample *out, int count) {
    const double *const rho = out->answers[0].correlation;
    for (int i = 0; i < count; i++) {
        const double own = isnan(rho[i]) ? -1.0 : fabs(rho[i]);
        int at = i;
        for (; at > 0; at--) {
            const double other = rho[out->order[at - 1]];
            if (!(own > (isnan(other) ? -1.0 : fabs(other)))) {
                break;
            }
            out->order[at] = out->order[at - 1];
        }
        out->order[at] = i;
    }
}

static ss_status describe_all(sampling *s) {
    ss_status status = SS_OK;
    double *const values = ss_alloc(2 * (size_t)s->out->draws, sizeof *values);
    if (values == NULL) {
        return SS_ERROR_MEMORY;
    }
    for (int a = 0; a < s->evaluator->answer_count; a++) {
        SS_TRY(describe(s, a, values, values + s->out->draws));
    }
    rank(s->out, s->set->count);
done:
    ss_free(values);
    return status;
}

/* ---- the study ------------------------------------------------------------------------------------ */

static ss_status make_room(sampling *s) {
    ss_sample *const out = s->out;
    const size_t draws = (size_t)out->draws;
    out->points = ss_arena_alloc(&out->arena, draws * (size_t)s->set->count, sizeof *out->points);
    out->values = ss_arena_alloc(&out->arena, draws * answers_of(s), sizeof *out->values);
    out->answers = ss_arena_alloc(&out->arena, answers_of(s), sizeof *out->answers);
    out->order = ss_arena_alloc(&out->arena, (size_t)s->set->count, sizeof *out->order);
    return out->points == NULL || out->values == NULL || out->answers == NULL || out->order == NULL
               ? SS_ERROR_MEMORY
               : SS_OK;
}

static ss_status refuse(const ss_unknown_set *unknowns, int draws, ss_error *error) {
    if (unknowns->count == 0) {
        return ss_error_set(
            error, SS_ERROR_LIMIT,
            "nothing is unknown; name what is, in \"unknowns\" of the description or by --unknown");
    }
    if (draws > SS_SAMPLE_MOST) {
        return ss_error_set(error, SS_ERROR_LIMIT, "%d draws are more than the %d that are allowed", draws,
                            SS_SAMPLE_MOST);
    }
    return SS_OK;
}

ss_status ss_sample_compute(const ss_unknown_set *unknowns, const ss_evaluator *evaluator,
                            const ss_sample_options *options, ss_sample *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_sample sample = {.draws = options->draws > 0 ? options->draws : SS_SAMPLE_DRAWS,
                        .seed = options->seed,
                        .limit = isnan(options->limit) ? 1.0 : options->limit};
    const int batch = options->batch > 0 ? options->batch : BATCH;
    sampling s = {unknowns, evaluator, &options->watch, &sample, batch, error};
    SS_TRY(refuse(unknowns, sample.draws, error));
    SS_TRY(make_room(&s));
    SS_TRY(answer(&s));
    SS_TRY(describe_all(&s));
    *out = sample;
done:
    if (status == SS_ERROR_MEMORY) {
        ss_error_set(error, status, "no memory for the draws");
    }
    if (status != SS_OK) {
        ss_arena_destroy(&sample.arena);
    }
    return status;
}

void ss_sample_destroy(ss_sample *sample) {
    if (sample != NULL) {
        ss_arena_destroy(&sample->arena);
        *sample = (ss_sample){0};
    }
}
