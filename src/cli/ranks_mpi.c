/* ranks_mpi.c - the items of a job shared by processes (MPI) and, inside each, by threads. */
#define _POSIX_C_SOURCE 200809L

#include <limits.h>
#include <mpi.h>
#include <omp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/try.h"
#include "base/work_order.h"
#include "cli/ranks.h"
#include "sillspan/memory.h"

/*
 * Process 0 hands out items and takes results; every process has one thread that sends and receives, and as
 * many as OpenMP gives it that compute. A process says how many items it takes at once (READY), gets that
 * many (ITEM), and one more for each RESULT, until it is told END. BYE instead, at the end of the program,
 * lets those go that still wait for a job that process 0 does not begin; GONE tells process 0 of one that
 * will take none any more.
 */
enum { TAG_READY = 1, TAG_RESULT, TAG_GONE, TAG_ITEM };
enum { ITEM_END = -1, ITEM_BYE = -2 };

/* Between two looks at what has come. An item takes milliseconds to minutes. */
#define PAUSE_NS 200000L

typedef struct ranks {
    ss_workers workers;
    MPI_Comm all;
    int size;
    bool *gone; /* size */
    bool bye;   /* process 0 has said so */
} ranks;

/* What a result begins with; its bytes follow. */
typedef struct result_head {
    int index;
    ss_error cause; /* with the status */
} result_head;

static void pause_shortly(void) {
    nanosleep(&(struct timespec){.tv_nsec = PAUSE_NS}, NULL);
}

/* ---- process 0 ---------------------------------------------------------------------------------- */

typedef struct first_run {
    ranks *own;
    ss_work_order order;
    int *open;   /* size: items that a process has */
    bool *ready; /* size: it has begun the job */
    bool *ended; /* size: it gets no more items */
} first_run;

static int next_item(first_run *run) {
    int index = -1;
#pragma omp critical(sillspan_work)
    index = ss_work_order_next(&run->order);
    return index;
}

static void put_result(first_run *run, int index, ss_status status, ss_text *result, const ss_error *cause) {
#pragma omp critical(sillspan_work)
    ss_work_order_put(&run->order, index, status, result, cause);
}

static void give_item(first_run *run, int rank) {
    if (run->ended[rank]) {
        return;
    }
    int index = next_item(run);
    if (index < 0) {
        run->ended[rank] = true;
        index = ITEM_END;
    } else {
        run->open[rank]++;
    }
    MPI_Send(&index, 1, MPI_INT, rank, TAG_ITEM, run->own->all);
}

static void take_ready(first_run *run, int rank) {
    int says[2] = {0, 0}; /* items at once, items in all */
    MPI_Recv(says, 2, MPI_INT, rank, TAG_READY, run->own->all, MPI_STATUS_IGNORE);
    run->ready[rank] = true;
    if (says[1] != run->order.work->count) {
        char message[200];
        snprintf(message, sizeof message,
                 "process %d finds %d items where process 0 finds %d: do both see the same files?", rank,
                 says[1], run->order.work->count);
#pragma omp critical(sillspan_work)
        ss_work_order_fail(&run->order, SS_ERROR_FILE, message);
    }
    for (int i = 0; i < says[0]; i++) give_item(run, rank);
}

static void take_result(first_run *run, int rank, const MPI_Status *about) {
    int length = 0;
    result_head head = {.index = 0};
    ss_text result = {0};
    MPI_Get_count(about, MPI_BYTE, &length);
    char *const bytes = ss_alloc((size_t)length, 1);
    if (bytes == NULL) {
        /* It cannot even be told which one it was. */
        fputs("sillspan: no memory for a result of another process\n", stderr);
        MPI_Abort(run->own->all, 70);
        return;
    }
    MPI_Recv(bytes, length, MPI_BYTE, rank, TAG_RESULT, run->own->all, MPI_STATUS_IGNORE);
    memcpy(&head, bytes, sizeof head);
    ss_text_add_bytes(&result, bytes + sizeof head, (size_t)length - sizeof head);
    ss_free(bytes);
    run->open[rank]--;
    put_result(run, head.index, head.cause.status, &result, &head.cause);
    give_item(run, rank);
}

/* Whether the process has nothing of this job any more; takes what has come from it. */
static bool serve_one(first_run *run, int rank, bool *idle) {
    MPI_Status about;
    int there = 0;
    if (run->own->gone[rank] || (run->ready[rank] && run->ended[rank] && run->open[rank] == 0)) {
        return true;
    }
    MPI_Iprobe(rank, MPI_ANY_TAG, run->own->all, &there, &about);
    if (!there) {
        return false;
    }
    *idle = false;
    if (about.MPI_TAG == TAG_READY) {
        take_ready(run, rank);
    } else if (about.MPI_TAG == TAG_RESULT) {
        take_result(run, rank, &about);
    } else {
        MPI_Recv(NULL, 0, MPI_BYTE, rank, TAG_GONE, run->own->all, MPI_STATUS_IGNORE);
        run->own->gone[rank] = true;
    }
    return false;
}

static void serve(first_run *run) {
    bool busy = true;
    while (busy) {
        bool idle = true;
        busy = false;
        for (int rank = 1; rank < run->own->size; rank++) busy = !serve_one(run, rank, &idle) || busy;
        if (busy && idle) {
            pause_shortly();
        }
    }
}

static void compute_first(first_run *run) {
    const ss_work *const work = run->order.work;
    for (int index = next_item(run); index >= 0; index = next_item(run)) {
        ss_text result = {0};
        ss_error cause = {0};
        const ss_status status = work->item(work->context, index, &result, &cause);
        put_result(run, index, status, &result, &cause);
    }
}

static ss_status run_first(ranks *own, const ss_work *work, ss_error *error) {
    first_run run = {.own = own};
    const size_t size = (size_t)own->size;
    ss_status status = SS_OK;
    run.open = ss_alloc(size, sizeof *run.open);
    run.ready = ss_alloc(size, sizeof *run.ready);
    run.ended = ss_alloc(size, sizeof *run.ended);
    if (run.open == NULL || run.ready == NULL || run.ended == NULL) {
        status = ss_error_set(error, SS_ERROR_MEMORY, "no memory to share the work");
        goto done;
    }
    SS_TRY(ss_work_order_begin(&run.order, work, error));
#pragma omp parallel num_threads(omp_get_max_threads() + 1)
    {
        if (omp_get_thread_num() == 0) {
            serve(&run);
        }
        compute_first(&run);
    }
    status = ss_work_order_end(&run.order, error);
done:
    ss_free(run.open);
    ss_free(run.ready);
    ss_free(run.ended);
    return status;
}

/* ---- the others --------------------------------------------------------------------------------- */

typedef struct other_run {
    ranks *own;
    const ss_work *work;
    int *items; /* threads: what waits to be computed */
    int item_count;
    char **results; /* threads: what waits to be sent */
    int *lengths;
    int result_count;
    int open; /* items that are not sent yet */
    bool ended;
} other_run;

/* Head and bytes in one block; without memory for it nothing can be told but that. */
static char *pack(other_run *run, const result_head *head, const ss_text *result, int *length) {
    const size_t size = sizeof *head + result->length;
    char *const bytes = size > INT_MAX ? NULL : ss_alloc(size, 1);
    if (bytes == NULL) {
        fputs("sillspan: no memory for a result\n", stderr);
        MPI_Abort(run->own->all, 70);
        return NULL;
    }
    memcpy(bytes, head, sizeof *head);
    if (result->length > 0) {
        memcpy(bytes + sizeof *head, result->data, result->length);
    }
    *length = (int)size;
    return bytes;
}

/* Computes one item that waits; false: none does. */
static bool compute_one(other_run *run) {
    int index = -1;
#pragma omp critical(sillspan_work)
    if (run->item_count > 0) {
        index = run->items[0];
        memmove(run->items, run->items + 1, (size_t)--run->item_count * sizeof *run->items);
    }
    if (index < 0) {
        return false;
    }
    ss_text result = {0};
    result_head head;
    memset(&head, 0, sizeof head);
    head.index = index;
    const ss_status status = run->work->item(run->work->context, index, &result, &head.cause);
    head.cause.status = status;
    if (status == SS_OK && result.failed) {
        ss_error_set(&head.cause, SS_ERROR_MEMORY, "no memory for the results");
    }
    int length = 0;
    char *const bytes = pack(run, &head, &result, &length);
    ss_text_destroy(&result);
#pragma omp critical(sillspan_work)
    {
        run->results[run->result_count] = bytes;
        run->lengths[run->result_count++] = length;
    }
    return true;
}

/* Takes one message of process 0, if there is one. */
static bool take_item(other_run *run) {
    int there = 0;
    int index = ITEM_END;
    if (run->ended) {
        return false;
    }
    MPI_Iprobe(0, TAG_ITEM, run->own->all, &there, MPI_STATUS_IGNORE);
    if (!there) {
        return false;
    }
    MPI_Recv(&index, 1, MPI_INT, 0, TAG_ITEM, run->own->all, MPI_STATUS_IGNORE);
    run->own->bye = index == ITEM_BYE;
#pragma omp critical(sillspan_work)
    {
        run->ended = index < 0;
        if (index >= 0) {
            run->items[run->item_count++] = index;
            run->open++;
        }
    }
    return true;
}

typedef struct sending {
    char *bytes; /* NULL: nothing is on its way */
    MPI_Request request;
} sending;

/* Goes on with what is being sent, and begins the next; nothing here waits. */
static bool send_result(other_run *run, sending *on) {
    int sent = 0;
    if (on->bytes != NULL) {
        MPI_Test(&on->request, &sent, MPI_STATUS_IGNORE);
        if (!sent) {
            return false;
        }
        ss_free(on->bytes);
        on->bytes = NULL;
#pragma omp critical(sillspan_work)
        run->open--;
        return true;
    }
    int length = 0;
#pragma omp critical(sillspan_work)
    if (run->result_count > 0) {
        on->bytes = run->results[--run->result_count];
        length = run->lengths[run->result_count];
    }
    if (on->bytes != NULL) {
        MPI_Isend(on->bytes, length, MPI_BYTE, 0, TAG_RESULT, run->own->all, &on->request);
    }
    return on->bytes != NULL;
}

static bool is_over(other_run *run) {
    bool over = false;
#pragma omp critical(sillspan_work)
    over = run->ended && run->open == 0;
    return over;
}

static void talk(other_run *run, bool alone) {
    sending on = {.bytes = NULL};
    while (!is_over(run)) {
        const bool sent = send_result(run, &on);
        const bool got = take_item(run);
        if (!sent && !got && !(alone && compute_one(run))) {
            pause_shortly();
        }
    }
}

static void compute_other(other_run *run) {
    while (!is_over(run)) {
        if (!compute_one(run)) {
            pause_shortly();
        }
    }
}

static ss_status run_other(ranks *own, const ss_work *work, ss_error *error) {
    other_run run = {.own = own, .work = work};
    /* One more than are computed, so that none waits for the next while its result is on its way. */
    const int threads = omp_get_max_threads();
    const int says[2] = {threads + 1, work->count};
    const size_t room = (size_t)says[0];
    run.items = ss_alloc(room, sizeof *run.items);
    run.results = ss_alloc(room, sizeof *run.results);
    run.lengths = ss_alloc(room, sizeof *run.lengths);
    ss_status status = SS_OK;
    if (run.items == NULL || run.results == NULL || run.lengths == NULL) {
        status = ss_error_set(error, SS_ERROR_MEMORY, "no memory to share the work");
    } else if (!own->bye) {
        MPI_Send(says, 2, MPI_INT, 0, TAG_READY, own->all);
#pragma omp parallel num_threads(threads + 1)
        {
            if (omp_get_thread_num() == 0) {
                talk(&run, omp_get_num_threads() == 1);
            } else {
                compute_other(&run);
            }
        }
    }
    ss_free(run.items);
    ss_free(run.results);
    ss_free(run.lengths);
    return status == SS_OK && own->bye ? ss_error_set(error, SS_ERROR_INTERNAL, "process 0 has given up")
                                       : status;
}

static ss_status run_job(const ss_workers *workers, const ss_work *work, ss_error *error) {
    ranks *const own = workers->own;
    if (own->size == 1 || omp_get_level() > 0) { /* inside an item: this process alone */
        return ss_work_run(NULL, work, error);
    }
    return workers->rank == 0 ? run_first(own, work, error) : run_other(own, work, error);
}

/* ---- beginning and end -------------------------------------------------------------------------- */

/* Starting MPI takes time and, where no launcher is, processes of its own: only where one says that it is
 * there. */
static bool is_launched(void) {
    static const char *const signs[] = {"OMPI_COMM_WORLD_SIZE", "PMIX_RANK", "PMI_RANK", "PMI_SIZE",
                                        "MPI_LOCALNRANKS"};
    bool found = false;
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) found = found || getenv(signs[i]) != NULL;
    return found;
}

ss_status ss_ranks_begin(const ss_workers **workers, ss_error *error) {
    int level = MPI_THREAD_SINGLE;
    *workers = NULL;
    if (!is_launched()) {
        return SS_OK;
    }
    MPI_Init_thread(NULL, NULL, MPI_THREAD_FUNNELED, &level);
    int size = 1;
    MPI_Comm_size(MPI_COMM_WORLD, &size);
    ranks *const own = ss_alloc(1, sizeof *own);
    bool *const gone = ss_alloc((size_t)size, sizeof *gone);
    if (own == NULL || gone == NULL || level < MPI_THREAD_FUNNELED) {
        ss_free(own);
        ss_free(gone);
        MPI_Abort(MPI_COMM_WORLD, 70);
        return ss_error_set(error, SS_ERROR_LIMIT, "MPI lets no threads work beside it");
    }
    *own = (ranks){.size = size, .gone = gone};
    own->workers = (ss_workers){.run = run_job, .own = own};
    MPI_Comm_dup(MPI_COMM_WORLD, &own->all);
    MPI_Comm_rank(own->all, &own->workers.rank);
    *workers = &own->workers;
    return SS_OK;
}

void ss_ranks_end(const ss_workers *workers) {
    if (workers == NULL) {
        return;
    }
    ranks *const own = workers->own;
    if (workers->rank > 0) {
        int index = ITEM_END;
        MPI_Request told = MPI_REQUEST_NULL;
        MPI_Isend(NULL, 0, MPI_BYTE, 0, TAG_GONE, own->all, &told);
        while (!own->bye) {
            MPI_Recv(&index, 1, MPI_INT, 0, TAG_ITEM, own->all, MPI_STATUS_IGNORE);
            own->bye = index == ITEM_BYE;
        }
        MPI_Wait(&told, MPI_STATUS_IGNORE);
    }
    for (int rank = 1; workers->rank == 0 && rank < own->size; rank++) {
        const int bye = ITEM_BYE;
        MPI_Send(&bye, 1, MPI_INT, rank, TAG_ITEM, own->all);
        while (!own->gone[rank]) {
            MPI_Status about;
            int says[2];
            MPI_Probe(rank, MPI_ANY_TAG, own->all, &about);
            own->gone[rank] = about.MPI_TAG == TAG_GONE;
            MPI_Recv(says, own->gone[rank] ? 0 : 2, MPI_INT, rank, about.MPI_TAG, own->all,
                     MPI_STATUS_IGNORE);
        }
    }
    MPI_Comm_free(&own->all);
    MPI_Finalize();
    ss_free(own->gone);
    ss_free(own);
}

int ss_ranks_size(const ss_workers *workers) {
    const ranks *const own = workers->own;
    return own->size;
}

const char *ss_ranks_library(char *buffer, size_t size) {
    char words[MPI_MAX_LIBRARY_VERSION_STRING];
    int length = 0;
    MPI_Get_library_version(words, &length);
    snprintf(buffer, size, "%.*s", (int)strcspn(words, ",\n"), words);
    return buffer;
}
