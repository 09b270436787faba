/* read_source.c - the bytes of a description with its includes put in their places. */
#include "io/read_source.h"

#include <limits.h>
#include <stdbool.h>
#include <string.h>

#include "sillspan/reader.h"

#include "base/try.h"
#include "io/read_file.h"

typedef struct expansion {
    ss_source *source;
    ss_arena *names;
    ss_diag_list *diags;
    ss_error *error;
    bool files; /* whether files may be included at all */
    bool faulty;
    int line; /* of the whole, at the end of the text so far */
} expansion;

static ss_status out_of_memory(expansion *e) {
    return ss_error_set(e->error, SS_ERROR_MEMORY, "there is not enough memory to read the description");
}

static ss_status add_span(expansion *e, const char *file, int file_line) {
    ss_source *source = e->source;
    if (source->span_count == source->span_capacity) {
        const int capacity = source->span_capacity == 0 ? 8 : 2 * source->span_capacity;
        ss_source_span *grown = ss_realloc(source->spans, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return out_of_memory(e);
        }
        source->spans = grown;
        source->span_capacity = capacity;
    }
    source->spans[source->span_count++] =
        (ss_source_span){.first = e->line, .file_line = file_line, .file = file};
    return SS_OK;
}

static ss_status add_bytes(expansion *e, const char *bytes, size_t length) {
    if (e->source->text.length + length > SS_READ_BYTES) {
        return ss_error_set(e->error, SS_ERROR_LIMIT,
                            "the description and its includes have more than %d bytes", SS_READ_BYTES);
    }
    ss_text_add_bytes(&e->source->text, bytes, length);
    for (size_t i = 0; i < length; i++) {
        e->line += bytes[i] == '\n';
    }
    return e->source->text.failed ? out_of_memory(e) : SS_OK;
}

static void digest(ss_source *source, const char *bytes, size_t length) {
    for (size_t i = 0; i < length; i++) {
        source->digest = (source->digest ^ (unsigned char)bytes[i]) * UINT64_C(1099511628211);
    }
}

/* ---- include directives ------------------------------------------------------------------------- */

/* A place in the bytes of one file. */
typedef struct cursor {
    const char *file;
    const char *bytes;
    size_t length, at;
    int line;
    bool blank;       /* only blanks since the line began */
    int open_comment; /* line of a comment that is never closed, or 0 */
} cursor;

static ss_status expand(expansion *e, const char *file, const char *bytes, size_t length, int depth);

static ss_status refuse(expansion *e, const cursor *c, const char *name, const char *why) {
    e->faulty = true;
    const ss_where where = {c->file, c->line};
    const ss_status status = name == NULL ? ss_diag_add(e->diags, SS_FAULT, where, "", "%s", why)
                                          : ss_diag_add(e->diags, SS_FAULT, where, "",
                                                        "the include \"%s\" is refused: %s", name, why);
    return status == SS_OK ? SS_OK : out_of_memory(e);
}

/* Why a name may not be included, or NULL. */
static const char *forbidden(const expansion *e, const char *name, int depth) {
    if (!e->files) {
        return "a description that is not a file has no place beside which to look";
    }
    if (name[0] == '\0') {
        return "it names no file";
    }
    if (name[0] == '/') {
        return "it begins at the root; only files beside or below this one are allowed";
    }
    for (const char *part = name; part != NULL; part = strchr(part, '/')) {
        if (*part == '/') {
            part++;
        }
        if (strncmp(part, "..", 2) == 0 && (part[2] == '/' || part[2] == '\0')) {
            return "it goes up with \"..\"; only files beside or below this one are allowed";
        }
    }
    if (depth >= SS_READ_INCLUDE_DEPTH) {
        return "files include one another more than 8 deep";
    }
    if (e->source->includes >= SS_READ_INCLUDES) {
        return "there are more than 64 includes";
    }
    return NULL;
}

static ss_status include(expansion *e, const cursor *c, const char *name, int depth) {
    ss_status status = SS_OK;
    char *bytes = NULL;
    size_t length = 0;
    const char *why = forbidden(e, name, depth);
    if (why != NULL) {
        return refuse(e, c, name, why);
    }
    e->source->includes++;
    const char *slash = strrchr(c->file, '/');
    const int directory = slash == NULL ? 0 : (int)(slash - c->file) + 1;
    const char *path = ss_arena_printf(e->names, "%.*s%s", directory, c->file, name);
    if (path == NULL) {
        return out_of_memory(e);
    }
    status = ss_file_read(path, SS_READ_BYTES, &bytes, &length, &why);
    if (status == SS_ERROR_MEMORY) {
        return out_of_memory(e);
    }
    if (status != SS_OK) {
        return refuse(e, c, name, why);
    }
    SS_TRY(expand(e, path, bytes, length, depth + 1));
done:
    ss_free(bytes);
    return status;
}

/* Length of blanks at `at`. */
static size_t blanks(const char *bytes, size_t at, size_t end) {
    size_t count = 0;
    while (at + count < end &&
           (bytes[at + count] == ' ' || bytes[at + count] == '\t' || bytes[at + count] == '\r')) {
        count++;
    }
    return count;
}

/* The name in `@include "name"` that fills the line from `at` to `end`, a comment apart; NULL when the form
 * is another. */
static const char *directive(const char *bytes, size_t at, size_t end, size_t *name_length) {
    static const char word[] = "@include";
    const size_t word_length = sizeof word - 1;
    if (end - at < word_length || memcmp(bytes + at, word, word_length) != 0) {
        return NULL;
    }
    at += word_length;
    at += blanks(bytes, at, end);
    if (at >= end || bytes[at] != '"') {
        return NULL;
    }
    const char *name = bytes + at + 1;
    const char *close = memchr(name, '"', end - at - 1);
    if (close == NULL) {
        return NULL;
    }
    *name_length = (size_t)(close - name);
    for (size_t i = 0; i < *name_length; i++) {
        if (name[i] == '\\' || (unsigned char)name[i] < 0x20 || name[i] == 0x7F) {
            return NULL;
        }
    }
    at = (size_t)(close - bytes) + 1;
    at += blanks(bytes, at, end);
    const bool comment =
        at < end && (bytes[at] == '#' || (bytes[at] == '/' && at + 1 < end && bytes[at + 1] == '/'));
    return at == end || comment ? name : NULL;
}

/* Takes the line of a directive out and puts the file in. `*from` is the first byte that is not yet in the
 * text. */
static ss_status take_directive(expansion *e, cursor *c, size_t *from, int depth) {
    ss_status status = SS_OK;
    size_t start = c->at;
    while (start > 0 && c->bytes[start - 1] != '\n') {
        start--;
    }
    const char *newline = memchr(c->bytes + c->at, '\n', c->length - c->at);
    const size_t end = newline == NULL ? c->length : (size_t)(newline - c->bytes);
    size_t name_length = 0;
    const char *name = c->blank ? directive(c->bytes, c->at, end, &name_length) : NULL;
    if (name == NULL) {
        static const char *const form =
            "found @ outside a text; an include stands alone on its line: @include \"file.cfg\"";
        SS_TRY(refuse(e, c, NULL, form));
        c->at = end;
        goto done;
    }
    if (start > *from) {
        SS_TRY(add_bytes(e, c->bytes + *from, start - *from));
    }
    const char *own = ss_arena_text(e->names, name, name_length);
    if (own == NULL) {
        status = out_of_memory(e);
        goto done;
    }
    SS_TRY(include(e, c, own, depth));
    c->at = newline == NULL ? end : end + 1;
    c->line += newline != NULL;
    c->blank = true;
    *from = c->at;
    SS_TRY(add_span(e, c->file, c->line));
done:
    return status;
}

/* ---- one file ----------------------------------------------------------------------------------- */

static bool starts(const cursor *c, const char *two) {
    return c->at + 1 < c->length && c->bytes[c->at] == two[0] && c->bytes[c->at + 1] == two[1];
}

/* Steps over one character, comment or text; texts end with their line at the latest. */
static void step(cursor *c) {
    const char letter = c->bytes[c->at];
    if (letter == '\n') {
        c->line++;
        c->blank = true;
        c->at++;
    } else if (letter == '#' || starts(c, "//")) {
        while (c->at < c->length && c->bytes[c->at] != '\n') {
            c->at++;
        }
    } else if (starts(c, "/*")) {
        const int opened = c->line;
        c->at += 2;
        while (c->at < c->length && !starts(c, "*/")) {
            c->line += c->bytes[c->at++] == '\n';
        }
        if (c->at < c->length) {
            c->at += 2;
        } else {
            c->open_comment = opened;
        }
        c->blank = false;
    } else if (letter == '"') {
        c->at++;
        while (c->at < c->length && c->bytes[c->at] != '"' && c->bytes[c->at] != '\n') {
            c->at += c->bytes[c->at] == '\\' && c->at + 1 < c->length && c->bytes[c->at + 1] != '\n' ? 2 : 1;
        }
        if (c->at < c->length && c->bytes[c->at] == '"') {
            c->at++;
        }
        c->blank = false;
    } else {
        c->blank = c->blank && blanks(c->bytes, c->at, c->length) > 0;
        c->at++;
    }
}

static ss_status expand(expansion *e, const char *file, const char *bytes, size_t length, int depth) {
    ss_status status = SS_OK;
    digest(e->source, bytes, length);
    /* A byte order mark says nothing and belongs to no line. */
    const size_t mark = length >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    cursor c = {.file = file, .bytes = bytes, .length = length, .at = mark, .line = 1, .blank = true};
    const char *nul = length == 0 ? NULL : memchr(bytes, '\0', length);
    if (nul != NULL) {
        for (const char *b = bytes; b < nul; b++) {
            c.line += *b == '\n';
        }
        return refuse(e, &c, NULL, "found a NUL byte; a description is plain text; reading stopped here");
    }
    size_t from = mark;
    SS_TRY(add_span(e, file, 1));
    while (c.at < c.length) {
        if (bytes[c.at] == '@') {
            SS_TRY(take_directive(e, &c, &from, depth));
        } else {
            step(&c);
        }
    }
    if (c.open_comment > 0) {
        c.line = c.open_comment;
        return refuse(e, &c, NULL,
                      "the comment that begins here with /* is never closed; reading stopped here");
    }
    if (length > from) {
        SS_TRY(add_bytes(e, bytes + from, length - from));
    }
    /* What follows an include begins a line of its own. */
    const ss_text *text = &e->source->text;
    if (text->length > 0 && text->data[text->length - 1] != '\n') {
        SS_TRY(add_bytes(e, "\n", 1));
    }
done:
    return status;
}

ss_status ss_source_take(ss_source *source, const char *name, const char *bytes, size_t length,
                         ss_arena *names, ss_diag_list *diags, ss_error *error) {
    expansion e = {.source = source, .names = names, .diags = diags, .error = error, .line = 1};
    source->digest = UINT64_C(14695981039346656037);
    const char *own = ss_arena_text(names, name, strlen(name));
    if (own == NULL) {
        return out_of_memory(&e);
    }
    const ss_status status = expand(&e, own, bytes, length, 0);
    return status == SS_OK && e.faulty ? SS_ERROR_DESCRIPTION : status;
}

ss_status ss_source_read(ss_source *source, const char *path, ss_arena *names, ss_diag_list *diags,
                         ss_error *error) {
    ss_status status = SS_OK;
    char *bytes = NULL;
    size_t length = 0;
    const char *why = NULL;
    expansion e = {
        .source = source, .names = names, .diags = diags, .error = error, .files = true, .line = 1};
    source->digest = UINT64_C(14695981039346656037);
    const char *own = ss_arena_text(names, path, strlen(path));
    if (own == NULL) {
        return out_of_memory(&e);
    }
    status = ss_file_read(path, SS_READ_BYTES, &bytes, &length, &why);
    if (status != SS_OK) {
        return ss_error_set(error, status, "%s: %s", path, why);
    }
    SS_TRY(expand(&e, own, bytes, length, 0));
    if (e.faulty) {
        status = SS_ERROR_DESCRIPTION;
    }
done:
    ss_free(bytes);
    return status;
}

ss_where ss_source_place(const ss_source *source, int line) {
    ss_where where = {NULL, 0};
    int low = 0;
    int high = source->span_count;
    while (low < high) {
        const int middle = low + (high - low) / 2;
        if (source->spans[middle].first <= line) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    if (low > 0) {
        const ss_source_span *span = &source->spans[low - 1];
        where = (ss_where){span->file, span->file_line + (line - span->first)};
    }
    return where;
}

void ss_source_destroy(ss_source *source) {
    ss_text_destroy(&source->text);
    ss_free(source->spans);
    *source = (ss_source){0};
}
