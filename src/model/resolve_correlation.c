/* resolve_correlation.c - correlations between unknowns. */
#include "model/resolve_unknown.h"

#include <string.h>

#include "base/distribution.h"
#include "base/numeric.h"
#include "model/description_value.h"

/* Index of the unknown that one of `between` names; -1 on a fault. */
static int find_unknown(ss_resolve *c, const ss_node *item, const char *word) {
    const ss_unknown_set *const set = &c->bridge->unknowns;
    const char *words[SS_UNKNOWNS];
    for (int i = 0; i < set->count; i++) {
        words[i] = set->items[i].name;
        if (strcmp(words[i], word) != 0) {
            continue;
        }
        if (set->items[i].stated) {
            return i;
        }
        ss_read_complain(&c->reading, SS_FAULT, item, "between",
                         "\"%s\" has no distribution; give one, such as distribution = \"uniform\"", word);
        return -1;
    }
    ss_resolve_unknown(c, item, "between", "unknown", word, words, set->count);
    return -1;
}

static bool read_pair(ss_resolve *c, const ss_node *item, int pair[2]) {
    const ss_node *const between = ss_node_child(item, "between");
    if (between == NULL || between->kind != SS_NODE_LIST) {
        c->broken = true;
        return false;
    }
    if (between->count != 2) {
        ss_read_complain(&c->reading, SS_FAULT, item, "between", "found %d names; two are due",
                         between->count);
        return false;
    }
    bool good = true;
    int i = 0;
    for (const ss_node *name = between->first; name != NULL; name = name->next, i++) {
        pair[i] = name->kind == SS_NODE_TEXT ? find_unknown(c, item, name->text) : -1;
        good = good && pair[i] >= 0;
    }
    return good && pair[0] != pair[1];
}

static bool read_correlation(ss_resolve *c, const ss_node *item, double *matrix) {
    const int n = c->bridge->unknowns.count;
    int pair[2] = {-1, -1};
    double rho = 0.0;
    if (!read_pair(c, item, pair) || !ss_resolve_due(c, item, "correlations[].rho", &rho)) {
        return false;
    }
    const int row = pair[0] > pair[1] ? pair[0] : pair[1];
    const int column = pair[0] > pair[1] ? pair[1] : pair[0];
    if (!isnan(matrix[row * n + column])) {
        ss_read_complain(&c->reading, SS_FAULT, item, "between",
                         "these two have a correlation already; a pair has one");
        return false;
    }
    matrix[row * n + column] = rho;
    return true;
}

/* The factor, or a fault that names the first unknown at which the correlations contradict each other. */
static void factor(ss_resolve *c, const ss_node *list, double *matrix) {
    ss_unknown_set *const set = &c->bridge->unknowns;
    const int n = set->count;
    for (int i = 0; i < n * n; i++) {
        matrix[i] = i % (n + 1) == 0 ? 1.0 : isnan(matrix[i]) ? 0.0 : matrix[i];
    }
    int at = -1;
    if (ss_cholesky(n, matrix, &at)) {
        set->lower = matrix;
        return;
    }
    ss_read_complain(
        &c->reading, SS_FAULT, list, NULL,
        "the correlations of \"%s\" contradict those of the unknowns before it (the matrix is not "
        "positive definite): where a goes with b and b with c, a and c are not free; bring some "
        "nearer to 0, or give the missing ones",
        set->items[at].name);
}

void ss_unknown_read_correlations(ss_resolve *c) {
    const ss_node *const list = ss_resolve_list(c->root, "correlations");
    const int n = c->bridge->unknowns.count;
    if (list == NULL || list->count == 0) {
        return;
    }
    double *const matrix = ss_resolve_alloc(c, (size_t)n * (size_t)n, sizeof *matrix);
    if (matrix == NULL) {
        return;
    }
    for (int i = 0; i < n * n; i++) {
        matrix[i] = SS_NAN;
    }
    bool good = true;
    for (const ss_node *item = list->first; item != NULL && !ss_resolve_out_of_memory(c); item = item->next) {
        good = item->kind == SS_NODE_GROUP && read_correlation(c, item, matrix) && good;
    }
    if (good && !c->broken) {
        factor(c, list, matrix);
    }
    c->broken = c->broken || !good;
}
