/* text_nearest.c - the word that was probably meant. */
#include "sillspan/text.h"

#include <string.h>

/* Longer words are never offered: a key or a name is shorter. */
#define LONGEST 96
#define MOST_EDITS 3

static char lower(char letter) {
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

bool ss_text_same(const char *a, const char *b) {
    size_t i = 0;
    while (a[i] != '\0' && lower(a[i]) == lower(b[i])) {
        i++;
    }
    return a[i] == b[i];
}

static int least(int a, int b) {
    return a < b ? a : b;
}

/*
 * Optimal string alignment distance: insertions, deletions, replacements and swaps of neighbours, no letter
 * edited twice. With d(i,j) for the first i letters of a and j of b,
 *   d(i,j) = min( d(i-1,j) + 1, d(i,j-1) + 1, d(i-1,j-1) + [a_i != b_j], d(i-2,j-2) + 1 if swapped ).
 * Three rows are kept. Both lengths are at most LONGEST.
 */
static int edits(const char *a, int length_a, const char *b, int length_b) {
    int rows[3][LONGEST + 1];
    for (int j = 0; j <= length_b; j++) {
        rows[0][j] = j;
    }
    for (int i = 1; i <= length_a; i++) {
        int *row = rows[i % 3];
        const int *above = rows[(i + 2) % 3];
        const int *above2 = rows[(i + 1) % 3];
        row[0] = i;
        for (int j = 1; j <= length_b; j++) {
            const char p = lower(a[i - 1]);
            const char q = lower(b[j - 1]);
            row[j] = least(least(above[j] + 1, row[j - 1] + 1), above[j - 1] + (p != q));
            const bool swapped = i > 1 && j > 1 && p == lower(b[j - 2]) && q == lower(a[i - 2]);
            if (swapped) {
                row[j] = least(row[j], above2[j - 2] + 1);
            }
        }
    }
    return rows[length_a % 3][length_b];
}

const char *ss_text_nearest(const char *word, const char *const *words, int count) {
    const size_t length = strlen(word);
    if (length > LONGEST) {
        return NULL;
    }
    const char *nearest = NULL;
    int fewest = MOST_EDITS + 1;
    for (int i = 0; i < count; i++) {
        const size_t other = strlen(words[i]);
        if (other > LONGEST) {
            continue;
        }
        /* The longer word counts: of "kp" and "kip" one letter in three is wrong. */
        const size_t longer = length > other ? length : other;
        const int allowed = least(MOST_EDITS, (int)(longer / 3));
        const int apart = (int)(longer - (length < other ? length : other));
        if (apart > allowed || apart >= fewest) {
            continue;
        }
        const int distance = edits(word, (int)length, words[i], (int)other);
        if (distance <= allowed && distance < fewest) {
            fewest = distance;
            nearest = words[i];
        }
    }
    return nearest;
}
