/* compare_json.c - two JSON files that must say the same, numbers within a relative 1e-6: compare_json
 * EXPECTED SEEN Numbers that are small beside others of the same key may differ by 1e-9 of those: there,
 * rounding is all there is. Keys that tell how large rounding was (equilibrium_error, rcond) need only be
 * numbers of a sound size. */
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define RELATIVE 1e-6
#define NOISE 1e-9
#define MOST_FAULTS 20

enum { MOST_KEYS = 400 };

/* The largest number under each key in the expected file. */
typedef struct scale {
    const char *key;
    double largest;
} scale;

typedef struct comparison {
    scale scales[MOST_KEYS];
    int count;
    int faults;
} comparison;

static scale *find_scale(comparison *c, const char *key) {
    for (int i = 0; i < c->count; i++) {
        if (strcmp(c->scales[i].key, key) == 0) {
            return &c->scales[i];
        }
    }
    if (c->count == MOST_KEYS) {
        return NULL;
    }
    c->scales[c->count] = (scale){key, 0.0};
    return &c->scales[c->count++];
}

static void gather(comparison *c, const json_t *value, const char *key) {
    if (json_is_object(value)) {
        for (void *i = json_object_iter((json_t *)value); i != NULL;
             i = json_object_iter_next((json_t *)value, i)) {
            gather(c, json_object_iter_value(i), json_object_iter_key(i));
        }
    } else if (json_is_array(value)) {
        for (size_t i = 0; i < json_array_size(value); i++) {
            gather(c, json_array_get(value, i), key);
        }
    } else if (json_is_number(value)) {
        scale *s = find_scale(c, key);
        if (s != NULL) {
            s->largest = fmax(s->largest, fabs(json_number_value(value)));
        }
    }
}

static void fault(comparison *c, const char *path, const char *what) {
    if (c->faults < MOST_FAULTS) {
        fprintf(stderr, "%s: %s\n", path, what);
    }
    c->faults++;
}

static void compare_numbers(comparison *c, const char *path, const char *key, double expected, double seen) {
    if (strcmp(key, "equilibrium_error") == 0) {
        if (!(seen >= 0.0 && seen < 1e-8)) {
            fault(c, path, "the equilibrium error is not below 1e-8");
        }
        return;
    }
    if (strcmp(key, "rcond") == 0) {
        if (!(seen > 0.5 * expected && seen < 2.0 * expected)) {
            fault(c, path, "the condition number is another");
        }
        return;
    }
    const scale *s = find_scale(c, key);
    const double allowed =
        fmax(RELATIVE * fmax(fabs(expected), fabs(seen)), NOISE * (s == NULL ? 0.0 : s->largest));
    if (!(fabs(expected - seen) <= allowed)) {
        char what[160];
        snprintf(what, sizeof what, "expected %.12g, found %.12g", expected, seen);
        fault(c, path, what);
    }
}

static void compare(comparison *c, const char *path, const char *key, const json_t *expected,
                    const json_t *seen);

static void compare_objects(comparison *c, const char *path, const json_t *expected, const json_t *seen) {
    char inner[512];
    for (void *i = json_object_iter((json_t *)expected); i != NULL;
         i = json_object_iter_next((json_t *)expected, i)) {
        const char *key = json_object_iter_key(i);
        snprintf(inner, sizeof inner, "%s.%s", path, key);
        const json_t *other = json_object_get(seen, key);
        if (other == NULL) {
            fault(c, inner, "is missing");
        } else {
            compare(c, inner, key, json_object_iter_value(i), other);
        }
    }
    for (void *i = json_object_iter((json_t *)seen); i != NULL;
         i = json_object_iter_next((json_t *)seen, i)) {
        if (json_object_get(expected, json_object_iter_key(i)) == NULL) {
            snprintf(inner, sizeof inner, "%s.%s", path, json_object_iter_key(i));
            fault(c, inner, "is new");
        }
    }
}

static void compare(comparison *c, const char *path, const char *key, const json_t *expected,
                    const json_t *seen) {
    if (json_is_number(expected) && json_is_number(seen)) {
        compare_numbers(c, path, key, json_number_value(expected), json_number_value(seen));
    } else if (json_typeof(expected) != json_typeof(seen)) {
        fault(c, path, "is of another type");
    } else if (json_is_object(expected)) {
        compare_objects(c, path, expected, seen);
    } else if (json_is_array(expected)) {
        if (json_array_size(expected) != json_array_size(seen)) {
            fault(c, path, "has another number of items");
            return;
        }
        for (size_t i = 0; i < json_array_size(expected); i++) {
            char inner[512];
            snprintf(inner, sizeof inner, "%s[%zu]", path, i);
            compare(c, inner, key, json_array_get(expected, i), json_array_get(seen, i));
        }
    } else if (json_is_string(expected)) {
        if (strcmp(json_string_value(expected), json_string_value(seen)) != 0) {
            char what[400];
            snprintf(what, sizeof what, "expected \"%.150s\", found \"%.150s\"", json_string_value(expected),
                     json_string_value(seen));
            fault(c, path, what);
        }
    }
}

int main(int argc, char **argv) {
    if (argc != 3) {
        fprintf(stderr, "compare_json EXPECTED SEEN\n");
        return 2;
    }
    static comparison c;
    json_error_t error;
    json_t *expected = json_load_file(argv[1], JSON_REJECT_DUPLICATES, &error);
    if (expected == NULL) {
        fprintf(stderr, "%s:%d: %s\n", argv[1], error.line, error.text);
        return 1;
    }
    json_t *seen = json_load_file(argv[2], JSON_REJECT_DUPLICATES, &error);
    if (seen == NULL) {
        fprintf(stderr, "%s:%d: %s\n", argv[2], error.line, error.text);
        json_decref(expected);
        return 1;
    }
    gather(&c, expected, "");
    compare(&c, "", "", expected, seen);
    json_decref(expected);
    json_decref(seen);
    if (c.faults > MOST_FAULTS) {
        fprintf(stderr, "... and %d more\n", c.faults - MOST_FAULTS);
    }
    return c.faults == 0 ? 0 : 1;
}
