/* sample.h - random draws of the unknowns, and what the answers to them look like together. */
#ifndef SILLSPAN_SAMPLE_H
#define SILLSPAN_SAMPLE_H

#include "sillspan/evaluator.h"

/** Draws when not asked otherwise, and the most. */
#define SS_SAMPLE_DRAWS 400
#define SS_SAMPLE_MOST 100000

/** Confidence of every interval. */
#define SS_SAMPLE_CONFIDENCE 0.95

/** Shares that quantiles are told of. */
#define SS_SAMPLE_SHARES                                                                                     \
    { 0.05, 0.25, 0.5, 0.75, 0.95 }
enum { SS_SAMPLE_QUANTILES = 5 };

/** Different reasons for having no answer that are kept. */
enum { SS_SAMPLE_REASONS = 8 };

typedef struct ss_sample_options {
    int draws; /**< 0: SS_SAMPLE_DRAWS */
    uint64_t seed;
    double limit; /**< the share of draws whose first answer lies below it is told; NaN: 1 */
    int batch;    /**< draws that are answered together, between which a stop is asked for; 0: 32 */
    ss_study_watch watch;
} ss_sample_options;

/** One quantile and its interval; an end that so few draws cannot give is infinite. */
typedef struct ss_sample_quantile {
    double share, value, low, high;
} ss_sample_quantile;

typedef struct ss_sample_answer {
    double least, most; /**< NaN where no draw has an answer */
    ss_sample_quantile quantiles[SS_SAMPLE_QUANTILES];
    double *correlation; /**< Spearman's, with each unknown; NaN where it cannot be told */
} ss_sample_answer;

typedef struct ss_sample_reason {
    const char *text;
    int count;
} ss_sample_reason;

typedef struct ss_sample {
    int draws;    /**< asked for */
    int done;     /**< finished: fewer than draws only when stopped */
    int answered; /**< of those, with an answer */
    uint64_t seed;
    bool stopped;
    double limit;
    int below;                    /**< answers below the limit */
    double below_low, below_high; /**< interval of their share (Wilson); NaN without answers */
    double *points;               /**< done x unknowns */
    double *values;               /**< done x answers; NaN in the first where there is none */
    ss_sample_answer *answers;    /**< one for each answer */
    int *order; /**< unknowns by the magnitude of their correlation with the first answer, largest first */
    ss_sample_reason reasons[SS_SAMPLE_REASONS];
    int reason_count; /**< the last one stands for all others when there are more */
    ss_arena arena;
} ss_sample;

/**
 * Draws the unknowns (ss_unknowns_draw) and answers every draw. The same unknowns, seed and number of draws
 * give the same result to the bit. SS_ERROR_LIMIT: no unknowns, or too many draws.
 */
ss_status ss_sample_compute(const ss_unknown_set *unknowns, const ss_evaluator *evaluator,
                            const ss_sample_options *options, ss_sample *out, ss_error *error);
void ss_sample_destroy(ss_sample *sample);

#endif
