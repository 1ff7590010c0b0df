#include "base/arena.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct block {
    struct block *next;
    size_t room, used;
    _Alignas(max_align_t) unsigned char bytes[];
};

struct arena {
    struct block *newest;
    size_t block_size, held;
    jmp_buf guard;
};

/* in front of each piece a library asked for, so that realloc knows what it had and free what it
 * may give back to the machine */
struct lent_head {
    struct arena *arena;
    size_t bytes;
};

/* the one place of thread state: cmark and Jansson give their allocators no user pointer */
static _Thread_local struct arena *lent;

static size_t
aligned(size_t bytes)
{
    size_t step = _Alignof(max_align_t);
    return (bytes + step - 1) / step * step;
}

static struct block *
block_new(size_t room)
{
    if (room > SIZE_MAX - sizeof(struct block))
        return NULL;
    struct block *b = malloc(sizeof(struct block) + room);
    if (b != NULL) {
        b->next = NULL;
        b->room = room;
        b->used = 0;
    }
    return b;
}

struct arena *
arena_open(size_t block)
{
    struct arena *a = calloc(1, sizeof *a);
    if (a == NULL)
        return NULL;
    a->block_size = aligned(block);
    a->newest = block_new(a->block_size);
    if (a->newest == NULL) {
        free(a);
        return NULL;
    }
    a->held = a->block_size;
    return a;
}

void
arena_close(struct arena *a)
{
    if (a == NULL)
        return;
    for (struct block *b = a->newest, *next; b != NULL; b = next) {
        next = b->next;
        free(b);
    }
    free(a);
}

void
arena_reset(struct arena *a)
{
    struct block *keep = NULL;
    for (struct block *b = a->newest, *next; b != NULL; b = next) {
        next = b->next;
        if (next == NULL)
            keep = b;
        else
            free(b);
    }
    keep->used = 0;
    a->newest = keep;
    a->held = keep->room;
}

jmp_buf *
arena_guard(struct arena *a)
{
    return &a->guard;
}

static void *
exhausted(struct arena *a)
{
    longjmp(a->guard, 1);
}

/* of a new block, where the newest has no room for so many */
static void *
take_anew(struct arena *a, size_t bytes)
{
    if (bytes > SIZE_MAX / 2)
        return exhausted(a);
    size_t need = aligned(bytes > 0 ? bytes : 1);
    struct block *b = a->newest;
    if (b->room - b->used < need) {
        /* doubling keeps the number of blocks small for large posts */
        size_t room = a->held > a->block_size ? a->held : a->block_size;
        if (room > (size_t)16 << 20)
            room = (size_t)16 << 20;
        if (room < need)
            room = need;
        b = block_new(room);
        if (b == NULL)
            return exhausted(a);
        b->next = a->newest;
        a->newest = b;
        a->held += room;
    }
    void *p = b->bytes + b->used;
    b->used += need;
    return p;
}

/* room and used are aligned: where bytes fit, they fit aligned; none pass for too many */
static inline void *
take(struct arena *a, size_t bytes)
{
    struct block *b = a->newest;
    if (bytes - 1 >= b->room - b->used)
        return take_anew(a, bytes);
    void *p = b->bytes + b->used;
    b->used += aligned(bytes);
    return p;
}

void *
arena_take_raw(struct arena *a, size_t bytes)
{
    return take(a, bytes);
}

void *
arena_take(struct arena *a, size_t bytes)
{
    void *p = take(a, bytes);
    return memset(p, 0, aligned(bytes > 0 ? bytes : 1));
}

void *
arena_take_array(struct arena *a, size_t count, size_t size)
{
    if (size != 0 && count > SIZE_MAX / 2 / size)
        return exhausted(a);
    return arena_take(a, count * size);
}

char *
arena_copy(struct arena *a, const char *bytes, size_t length)
{
    if (length > SIZE_MAX / 4)
        return exhausted(a);
    char *copy = take(a, length + 1);
    if (length > 0)
        memcpy(copy, bytes, length);
    memset(copy + length, 0, aligned(length + 1) - length);
    return copy;
}

void *
arena_regrow(struct arena *a, void *old, size_t old_bytes, size_t new_bytes)
{
    if (old == NULL)
        return arena_take(a, new_bytes);
    if (new_bytes > SIZE_MAX / 2)
        return exhausted(a);
    struct block *b = a->newest;
    size_t had = aligned(old_bytes > 0 ? old_bytes : 1), need = aligned(new_bytes);
    unsigned char *at = old;
    if (at + had == b->bytes + b->used && need >= had && b->room - b->used >= need - had) {
        memset(at + had, 0, need - had);
        b->used += need - had;
        return old;
    }
    unsigned char *fresh = take(a, new_bytes);
    size_t kept = old_bytes < new_bytes ? old_bytes : new_bytes;
    memcpy(fresh, old, kept);
    memset(fresh + kept, 0, aligned(new_bytes > 0 ? new_bytes : 1) - kept);
    return fresh;
}

void *
arena_regrow_bytes(struct arena *a, void *old, size_t used, size_t old_bytes, size_t new_bytes)
{
    struct block *b = a->newest;
    size_t had = aligned(old_bytes), need = aligned(new_bytes);
    unsigned char *at = old;
    if (new_bytes > SIZE_MAX / 2)
        return exhausted(a);
    if (at != NULL && at + had == b->bytes + b->used && need >= had &&
        b->room - b->used >= need - had) {
        b->used += need - had;
        return old;
    }
    void *fresh = take(a, new_bytes);
    if (used > 0)
        memcpy(fresh, old, used);
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
    *bytes = a->newest->used;
    return a->newest->next == NULL ? a->newest->bytes : NULL;
}

struct arena *
arena_lend(struct arena *a)
{
    struct arena *before = lent;
    lent = a;
    return before;
}

void *
arena_lent_malloc(size_t bytes)
{
    if (bytes > SIZE_MAX / 4)
        return NULL;
    size_t head_room = aligned(sizeof(struct lent_head));
    unsigned char *p = lent != NULL ? take(lent, head_room + bytes) : malloc(head_room + bytes);
    if (p == NULL)
        return NULL;
    struct lent_head head = {lent, bytes};
    memcpy(p + head_room - sizeof head, &head, sizeof head);
    return p + head_room;
}

void *
arena_lent_calloc(size_t count, size_t size)
{
    if (size != 0 && count > SIZE_MAX / 4 / size)
        return NULL;
    void *p = arena_lent_malloc(count * size);
    return p != NULL ? memset(p, 0, count * size) : NULL;
}

void *
arena_lent_realloc(void *old, size_t bytes)
{
    void *fresh = arena_lent_malloc(bytes);
    if (old == NULL || fresh == NULL)
        return fresh;
    struct lent_head head;
    memcpy(&head, (unsigned char *)old - sizeof head, sizeof head);
    memcpy(fresh, old, head.bytes < bytes ? head.bytes : bytes);
    arena_lent_free(old);
    return fresh;
}

void
arena_lent_free(void *p)
{
    if (p == NULL)
        return;
    struct lent_head head;
    memcpy(&head, (unsigned char *)p - sizeof head, sizeof head);
    if (head.arena == NULL)
        free((unsigned char *)p - aligned(sizeof head));
}
