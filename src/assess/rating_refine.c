/* rating_refine.c - positions sought again at the load that they govern at, where the bearings' contact makes
 * them depend on it. */
#include <math.h>
#include <stdlib.h>

#include "assess/rating_search.h"
#include "base/numeric.h"
#include "base/try.h"

/* Governing sections whose multiples are within this ratio are looked at together, at the middle of them. */
#define TOGETHER 1.3

/* Sections whose factor, or an estimate of it, exceeds the controlling one by more than this are not checked
 * at the controlling load. */
#define FAR 2.0

/* After the first check at the controlling load only sections this near to the controlling one are looked at
 * again. */
#define NEAR 1.1

/* Most times that the controlling load of one truck is checked. */
enum { PASSES = 5 };

/* Loads that tip and that do not meet within this, relative, in at most so many tries. */
#define TIP_MEETS 1e-6
enum { TIP_PASSES = 40 };

/* A governing section worth another look. */
typedef struct sought {
    double multiple; /* of the plain truck, at which it is full */
    int rated, dead;
} sought;

static int compare_sought(const void *a, const void *b) {
    const sought *const left = a;
    const sought *const right = b;
    if (left->dead != right->dead) {
        return left->dead - right->dead;
    }
    return left->multiple != right->multiple ? (left->multiple < right->multiple ? -1 : 1)
                                             : left->rated - right->rated;
}

static int compare_index(const void *a, const void *b) {
    return *(const int *)a - *(const int *)b;
}

static int collect_sought(const ss_rating_search *search, int traffic, sought *list) {
    int count = 0;
    for (int g = 0; g < search->rated->group_count; g++) {
        int rated = 0;
        bool most = false;
        const ss_rating_case *const best = ss_rating_search_sought(search, g, traffic, &rated, &most);
        if (best != NULL) {
            const double multiple = best->rf * search->multiplier[ss_rating_at(search, rated, traffic)];
            list[count++] = (sought){multiple, rated, best->dead};
        }
    }
    qsort(list, (size_t)count, sizeof *list, compare_sought);
    return count;
}

/* Runs of similar multiples are looked at at their geometric mean. */
static ss_status refine_groups(ss_rating_search *search, int traffic, int *which, ss_error *error) {
    ss_status status = SS_OK;
    sought *const list = ss_alloc((size_t)search->rated->group_count, sizeof *list);
    SS_TRY(list == NULL ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the governing sections")
                        : SS_OK);
    const int count = collect_sought(search, traffic, list);
    for (int from = 0, to = 0; from < count; from = to) {
        ss_rating_request request = {.which = which, .traffic = traffic, .dead = list[from].dead};
        while (to < count && list[to].dead == list[from].dead &&
               list[to].multiple <= TOGETHER * list[from].multiple) {
            which[request.count++] = list[to++].rated;
        }
        qsort(which, (size_t)request.count, sizeof *which, compare_index);
        request.multiple = sqrt(list[from].multiple * list[to - 1].multiple);
        SS_TRY(ss_rating_search_run(search, &request, error));
    }
done:
    ss_free(list);
    return status;
}

static double largest_multiplier(const ss_rating_search *search, int traffic) {
    double largest = 0.0;
    for (int i = 0; i < search->rated->count; i++) {
        largest = ss_max(largest, search->multiplier[ss_rating_at(search, i, traffic)]);
    }
    return largest;
}

/* The next larger live factor with allowance that any section has under a traffic; INFINITY when there is
 * none. */
static double next_multiplier(const ss_rating_search *search, int traffic, double last) {
    double next = (double)INFINITY;
    for (int i = 0; i < search->rated->count; i++) {
        const double multiplier = search->multiplier[ss_rating_at(search, i, traffic)];
        next = multiplier > last ? ss_min(next, multiplier) : next;
    }
    return next;
}

/* Sections of that multiplier whose own factor is at most `near`, under the multiple of the request. */
static ss_status check_at(ss_rating_search *search, ss_rating_request *request, double multiplier,
                          double near, int *which, ss_error *error) {
    ss_status status = SS_OK;
    request->count = 0;
    request->which = which;
    for (int i = 0; i < search->rated->count; i++) {
        const ss_rating_case *const pair = ss_rating_case_at(search, i, request->traffic, false);
        const double rf = ss_min(ss_min(pair[0].rf, pair[0].guess), ss_min(pair[1].rf, pair[1].guess));
        if (search->multiplier[ss_rating_at(search, i, request->traffic)] == multiplier && rf <= near) {
            which[request->count++] = i;
        }
    }
    for (request->dead = 0; request->count > 0 && request->dead < search->dead_count; request->dead++) {
        SS_TRY(ss_rating_search_run(search, request, error));
    }
done:
    return status;
}

/*
 * The envelope names some position that tips the bridge, not the one that does so first. A load between one
 * that tips nowhere and the least that is known to tip is tried, without any effect, until both meet.
 */
static ss_status refine_tip(ss_rating_search *search, int traffic, ss_error *error) {
    ss_status status = SS_OK;
    const ss_rating_tip *const tip = &search->tips[traffic];
    const int nothing = 0;
    ss_rating_request request = {.which = &nothing, .traffic = traffic};
    if (!(tip->multiple <= SS_RATING_SOUGHT * largest_multiplier(search, traffic))) {
        return SS_OK;
    }
    for (request.dead = 0; request.dead < search->dead_count; request.dead++) {
        double held = 0.0;
        for (int pass = 0; pass < TIP_PASSES && tip->multiple - held > TIP_MEETS * tip->multiple; pass++) {
            const double least = tip->multiple;
            request.multiple = pass == 0 ? least * (1.0 - TIP_MEETS) : 0.5 * (held + least);
            SS_TRY(ss_rating_search_run(search, &request, error));
            held = tip->multiple < least ? held : request.multiple;
        }
    }
done:
    return status;
}

/*
 * No section may be full at less than the controlling factor. The worst positions at that very load are
 * sought; one that fills a section earlier lowers the factor, and so on: the factors fall, and the last one
 * is the smallest for every position that was worst at any of the loads.
 */
static ss_status check_controlling(ss_rating_search *search, int traffic, int *which, ss_error *error) {
    ss_status status = SS_OK;
    double near = FAR * ss_rating_search_lowest(search, traffic);
    SS_TRY(refine_tip(search, traffic, error));
    double tipped = search->tips[traffic].multiple;
    for (int pass = 0; pass < PASSES; pass++) {
        const double factor = ss_rating_search_lowest(search, traffic);
        if (!(factor > 0.0) || isinf(factor)) {
            break;
        }
        for (double m = next_multiplier(search, traffic, 0.0); isfinite(m);
             m = next_multiplier(search, traffic, m)) {
            /* Just below, since at the factor itself the bridge may tip. */
            ss_rating_request request = {.traffic = traffic, .multiple = factor * m * (1.0 - 1e-9)};
            if (request.multiple > search->linear_up_to) {
                SS_TRY(check_at(search, &request, m, near, which, error));
            }
        }
        if (search->tips[traffic].multiple < tipped) {
            SS_TRY(refine_tip(search, traffic, error));
            tipped = search->tips[traffic].multiple;
        }
        const double lowered = ss_rating_search_lowest(search, traffic);
        if (lowered >= factor * (1.0 - 1e-9)) {
            break;
        }
        near = NEAR * lowered;
    }
done:
    return status;
}

ss_status ss_rating_search_refine(ss_rating_search *search, ss_error *error) {
    ss_status status = SS_OK;
    const int count = search->rated->count;
    const double from = search->progress_from;
    const double step = (search->progress_to - from) / (search->placements->traffic_count + 1);
    int *const which = ss_alloc((size_t)count, sizeof *which);
    SS_TRY(which == NULL ? ss_error_set(error, SS_ERROR_MEMORY, "no memory for the rated effects") : SS_OK);
    for (int t = 0; t < search->placements->traffic_count; t++) {
        /* Several requests share the traffic's part of the progress, so none reports within it. */
        search->progress_from = from + step * t;
        search->progress_to = search->progress_from;
        if (search->placements->traffic[t].track_count > 0) {
            SS_TRY(refine_groups(search, t, which, error));
            SS_TRY(check_controlling(search, t, which, error));
        }
    }
done:
    ss_free(which);
    return status;
}
