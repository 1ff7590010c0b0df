/* Memory in one piece: all that belongs to one post (or to the tables) is taken from one arena and
 * freed whole. Nothing taken is ever given back alone. */
#ifndef BASE_ARENA_H
#define BASE_ARENA_H

#include <setjmp.h>
#include <stddef.h>

struct arena;

/* a new arena that grows by blocks of `block` bytes or more; NULL when the machine has no memory */
struct arena *arena_open(size_t block);

/* frees everything, the arena too; NULL is allowed */
void arena_close(struct arena *a);

/* forgets everything but keeps one block for the next use */
void arena_reset(struct arena *a);

/* where to jump when memory runs out: `if (setjmp(*arena_guard(a)) != 0) ... out of memory`.
 * Must be set before the first arena_take, and again after the guarding frame has returned. */
jmp_buf *arena_guard(struct arena *a);

/* zeroed memory for any type; never NULL: when the machine has none it jumps to the guard */
void *arena_take(struct arena *a, size_t bytes) __attribute__((malloc, returns_nonnull));

/* the same with whatever was in it, for what is written over at once */
void *arena_take_raw(struct arena *a, size_t bytes) __attribute__((malloc, returns_nonnull));

/* zeroed memory for `count` things of `size` bytes; a product too large counts as no memory */
void *arena_take_array(struct arena *a, size_t count, size_t size)
    __attribute__((malloc, returns_nonnull));

/* a copy of `length` bytes with a NUL behind */
char *arena_copy(struct arena *a, const char *bytes, size_t length);

/* grows the last thing taken in place where it can, else copies; old may be NULL */
void *arena_regrow(struct arena *a, void *old, size_t old_bytes, size_t new_bytes);

/* the same for bytes of which the first `used` matter: what is behind them is not zeroed */
void *arena_regrow_bytes(struct arena *a, void *old, size_t used, size_t old_bytes,
                         size_t new_bytes);

/* bytes held from the machine */
size_t arena_size(const struct arena *a);

/* all that was taken since the arena was opened, when it lies in one piece; else NULL */
void *arena_whole(struct arena *a, size_t *bytes);

/* Some libraries allocate without telling for whom (Jansson, cmark): the arena lent here serves
 * them in this thread. Returns the arena lent before. */
struct arena *arena_lend(struct arena *a);

/* malloc, calloc and realloc of the arena lent in this thread; with none lent, the machine's own */
void *arena_lent_malloc(size_t bytes);
void *arena_lent_calloc(size_t count, size_t size);
void *arena_lent_realloc(void *old, size_t bytes);
void arena_lent_free(void *p);

#endif
