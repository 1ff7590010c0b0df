/* In the place of base/arena.c: every piece is a malloc of its own, so that the sanitizer sees a
 * byte written or read beside it, or after the arena was forgotten. An arena gives at most 512 MB.
 */
#include "base/arena.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { HELD_MOST = 512 << 20 };

struct arena {
    void **pieces;
    size_t count, room, held;
    jmp_buf guard;
};

static _Thread_local struct arena *lent;

struct arena *
arena_open(size_t block)
{
    (void)block;
    return calloc(1, sizeof(struct arena));
}

void
arena_reset(struct arena *a)
{
    for (size_t i = 0; i < a->count; i++)
        free(a->pieces[i]);
    free(a->pieces);
    a->pieces = NULL;
    a->count = a->room = a->held = 0;
}

void
arena_close(struct arena *a)
{
    if (a == NULL)
        return;
    arena_reset(a);
    free(a);
}

jmp_buf *
arena_guard(struct arena *a)
{
    return &a->guard;
}

void *
arena_take_raw(struct arena *a, size_t bytes)
{
    if (bytes > HELD_MOST || a->held > HELD_MOST - bytes)
        longjmp(a->guard, 1);
    if (a->count == a->room) {
        a->room = a->room * 2 + 64;
        a->pieces = realloc(a->pieces, a->room * sizeof *a->pieces);
    }
    a->held += bytes;
    return a->pieces[a->count++] = malloc(bytes > 0 ? bytes : 1);
}

void *
arena_take(struct arena *a, size_t bytes)
{
    return memset(arena_take_raw(a, bytes), 0, bytes);
}

void *
arena_take_array(struct arena *a, size_t count, size_t size)
{
    if (size != 0 && count > SIZE_MAX / size)
        longjmp(a->guard, 1);
    return arena_take(a, count * size);
}

char *
arena_copy(struct arena *a, const char *bytes, size_t length)
{
    char *copy = arena_take_raw(a, length + 1);
    if (length > 0)
        memcpy(copy, bytes, length);
    copy[length] = '\0';
    return copy;
}

void *
arena_regrow_bytes(struct arena *a, void *old, size_t used, size_t old_bytes, size_t new_bytes)
{
    void *fresh = arena_take_raw(a, new_bytes);
    (void)old_bytes;
    if (used > 0)
        memcpy(fresh, old, used);
    return fresh;
}

void *
arena_regrow(struct arena *a, void *old, size_t old_bytes, size_t new_bytes)
{
    void *fresh = arena_take(a, new_bytes);
    if (old_bytes > 0)
        memcpy(fresh, old, old_bytes);
    return fresh;
}

size_t
arena_size(const struct arena *a)
{
    return a->held;
}

void *
arena_whole(struct arena *a, size_t *bytes)
{
    (void)a, (void)bytes;
    return NULL;
}

struct arena *
arena_lend(struct arena *a)
{
    struct arena *before = lent;
    lent = a;
    return before;
}

struct lent_head {
    struct arena *arena;
    size_t bytes;
    _Alignas(max_align_t) unsigned char own[];
};

void *
arena_lent_malloc(size_t bytes)
{
    const size_t all = sizeof(struct lent_head) + bytes;
    struct lent_head *h = lent != NULL ? arena_take_raw(lent, all) : malloc(all);
    h->arena = lent;
    h->bytes = bytes;
    return h->own;
}

void *
arena_lent_calloc(size_t count, size_t size)
{
    return memset(arena_lent_malloc(count * size), 0, count * size);
}

static struct lent_head *
head_of(void *p)
{
    return (struct lent_head *)(void *)((unsigned char *)p - offsetof(struct lent_head, own));
}

void *
arena_lent_realloc(void *old, size_t bytes)
{
    void *fresh = arena_lent_malloc(bytes);
    if (old != NULL) {
        const size_t had = head_of(old)->bytes;
        memcpy(fresh, old, had < bytes ? had : bytes);
        arena_lent_free(old);
    }
    return fresh;
}

void
arena_lent_free(void *p)
{
    if (p != NULL && head_of(p)->arena == NULL)
        free(head_of(p));
}
