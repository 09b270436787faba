/* memory.h - checked allocation, an arena for what lives as long as a model, failure injection. */
#ifndef SILLSPAN_MEMORY_H
#define SILLSPAN_MEMORY_H

#include <stdarg.h>
#include <stddef.h>

/** `count` zeroed elements of `size` bytes; NULL when there is no memory or the product overflows.
 *  A count of 0 gives a valid pointer that must be freed. */
void *ss_alloc(size_t count, size_t size);

/** Grows or shrinks `block` to `count` elements; NULL on failure, and `block` is then untouched.
 *  New elements are not zeroed. */
void *ss_realloc(void *block, size_t count, size_t size);

/** Accepts NULL. */
void ss_free(void *block);

/** For tests: the n-th allocation from now (0 is the next) and all later ones fail; -1 switches it off. */
void ss_memory_fail_from(long n);

/** For tests: live blocks of ss_alloc, ss_realloc and arenas. */
long ss_memory_live(void);

/** Memory that is freed all at once. A zeroed struct is an empty arena. */
typedef struct ss_arena {
    struct ss_arena_block *head;
} ss_arena;

/** Zeroed, aligned for any type; NULL on failure. */
void *ss_arena_alloc(ss_arena *arena, size_t count, size_t size);

/** A terminated copy of the first `length` bytes of `text`; NULL on failure. */
char *ss_arena_text(ss_arena *arena, const char *text, size_t length);

/** In the manner of printf; NULL on failure. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
char *
ss_arena_printf(ss_arena *arena, const char *format, ...);

/** The same with the arguments in a list, which is used up. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 0)))
#endif
char *
ss_arena_vprintf(ss_arena *arena, const char *format, va_list arguments);

/** Idempotent; leaves an empty arena. */
void ss_arena_destroy(ss_arena *arena);

#endif
