/* csv_reader.h - reads CSV strictly by RFC 4180, so that a writer's output can be looked at field by field.
 */
#ifndef SS_TEST_CSV_READER_H
#define SS_TEST_CSV_READER_H

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

enum { CSV_FIELDS = 80, CSV_RECORDS = 4000 };

typedef struct csv_file {
    char *text; /* all fields, one after another, each ended by a NUL */
    const char **fields;
    int first[CSV_RECORDS + 1]; /* of each record, in `fields` */
    int records;
    int field_count;
    const char *fault; /* NULL: well formed */
} csv_file;

static inline const char *csv_field(const csv_file *file, int record, int field) {
    return file->fields[file->first[record] + field];
}

static inline int csv_width(const csv_file *file, int record) {
    return file->first[record + 1] - file->first[record];
}

/* One field from *at, copied to *to. Returns what ended it: ',', '\n' or '\0'; '?' when it is malformed. */
static inline char csv_take(const char **at, char **to) {
    const bool quoted = **at == '"';
    if (quoted) {
        for ((*at)++; **at != '\0'; (*at)++) {
            if (**at == '"' && (*at)[1] != '"') {
                break;
            }
            *at += **at == '"';
            *(*to)++ = **at;
        }
        if (**at != '"') {
            return '?';
        }
        (*at)++;
    } else {
        for (; **at != ',' && **at != '\n' && **at != '\0'; (*at)++) {
            if (**at == '"' || **at == '\r') {
                return '?';
            }
            *(*to)++ = **at;
        }
    }
    *(*to)++ = '\0';
    const char end = **at;
    if (end != ',' && end != '\n' && end != '\0') {
        return '?';
    }
    *at += end != '\0';
    return end;
}

/** Reads `bytes`; `fault` says what is wrong. Free with csv_close in either case. */
static inline void csv_open(csv_file *file, const char *bytes) {
    const size_t length = strlen(bytes);
    *file = (csv_file){.text = malloc(2 * length + 2), .fields = calloc(length + 2, sizeof(const char *))};
    char *to = file->text;
    const char *at = bytes;
    while (*at != '\0' && file->fault == NULL) {
        file->first[file->records] = file->field_count;
        char end = ',';
        while (end == ',') {
            file->fields[file->field_count++] = to;
            end = csv_take(&at, &to);
        }
        file->fault = end == '?'                         ? "a quote, or a line break, where none may be"
                      : end == '\0'                      ? "the last record has no end"
                      : file->records + 1 == CSV_RECORDS ? "too many records"
                                                         : NULL;
        file->first[++file->records] = file->field_count;
    }
}

static inline void csv_close(csv_file *file) {
    free(file->text);
    free((void *)file->fields);
    *file = (csv_file){0};
}

#endif
