#include "tables/table_image.h"

#include <string.h>

/* bounds of the program in memory, which the linker knows: texts that are constants lie there */
extern const char __executable_start[], _end[];

enum { IMAGE_FORMAT = 1, BODY_ALIGNED = 16 };

/* what a word of the bytes points into */
enum pointer_kind { INTO_IMAGE, INTO_PROGRAM, TO_ARENA, POINTER_KINDS };

struct image_head {
    char magic[8];
    uint64_t checksum; /* of all bytes behind it */
    uint64_t format;
    struct image_key key;
    uint64_t length;                /* of the body, behind the lists of pointers */
    uint64_t root;                  /* where in it the thing lies */
    uint64_t counts[POINTER_KINDS]; /* pointers of each kind */
};

/* behind the head lies a row of bits for each kind, one a word of the body, then the body */

static const char magic[8] = "dariole";

static uint64_t
checksum(struct slice bytes)
{
    size_t from = offsetof(struct image_head, format);
    return slice_digest(slice_part(bytes, from, bytes.length), 0);
}

/* The same thing built twice, in two places: a word that differs by just the distance between them
 * is a pointer, and no word that is none can. */
struct twins {
    const char *one, *two;
    const struct arena *arena_one, *arena_two;
    size_t length;
};

static bool
is_pointer(const struct twins *t, size_t word, enum pointer_kind kind)
{
    uintptr_t one, two, base = (uintptr_t)t->one;
    memcpy(&one, t->one + word * sizeof one, sizeof one);
    memcpy(&two, t->two + word * sizeof two, sizeof two);
    switch (kind) {
    case INTO_IMAGE:
        return one >= base && one - base <= t->length && one - base == two - (uintptr_t)t->two;
    case INTO_PROGRAM:
        return one == two && one >= (uintptr_t)__executable_start && one < (uintptr_t)_end;
    case TO_ARENA:
        return one == (uintptr_t)t->arena_one && two == (uintptr_t)t->arena_two;
    case POINTER_KINDS:
        break;
    }
    return false;
}

static uintptr_t
base_of(enum pointer_kind kind, const void *body, const void *arena)
{
    if (kind == INTO_IMAGE)
        return (uintptr_t)body;
    return kind == INTO_PROGRAM ? (uintptr_t)__executable_start : (uintptr_t)arena;
}

/* how far a pointer of the kind may lead from its base */
static uintptr_t
last_of_kind(enum pointer_kind kind, const struct image_head *head)
{
    if (kind == INTO_IMAGE)
        return (uintptr_t)head->length;
    return kind == INTO_PROGRAM ? (uintptr_t)(_end - __executable_start) : 0;
}

static size_t
bits_bytes(uint64_t length)
{
    size_t words = (size_t)length / sizeof(uintptr_t);
    return (words + 63) / 64 * sizeof(uint64_t);
}

static size_t
body_at(const struct image_head *head)
{
    size_t at = sizeof *head + POINTER_KINDS * bits_bytes(head->length);
    return (at + BODY_ALIGNED - 1) / BODY_ALIGNED * BODY_ALIGNED;
}

static void
write_image(const struct twins *t, const void *root, struct image_key key, struct text *out)
{
    struct image_head head = {.format = IMAGE_FORMAT, .key = key, .length = t->length};
    size_t start = out->length, words = t->length / sizeof(uintptr_t);
    memcpy(head.magic, magic, sizeof magic);
    head.root = (uint64_t)((const char *)root - t->one);
    size_t front = body_at(&head);
    char *zeros = arena_take(out->arena, front);
    text_add_bytes(out, zeros, front);
    text_add_bytes(out, t->one, t->length);
    char *bits = out->bytes + start + sizeof head, *body = out->bytes + start + front;
    for (int kind = 0; kind < POINTER_KINDS; kind++, bits += bits_bytes(t->length))
        for (size_t w = 0; w < words; w++) {
            if (!is_pointer(t, w, (enum pointer_kind)kind))
                continue;
            uintptr_t pointer;
            bits[w / 8] = (char)(bits[w / 8] | 1 << w % 8);
            memcpy(&pointer, body + w * sizeof pointer, sizeof pointer);
            pointer -= base_of((enum pointer_kind)kind, t->one, t->arena_one);
            memcpy(body + w * sizeof pointer, &pointer, sizeof pointer);
            head.counts[kind]++;
        }
    memcpy(out->bytes + start, &head, sizeof head);
    head.checksum = checksum((struct slice){out->bytes + start, out->length - start});
    memcpy(out->bytes + start, &head, sizeof head);
}

bool
table_image_make(image_build build, void *ctx, size_t room, struct image_key key, struct text *out)
{
    struct arena *volatile one = arena_open(room), *volatile two = arena_open(room);
    bool volatile made = false;
    if (one != NULL && two != NULL && setjmp(*arena_guard(one)) == 0 &&
        setjmp(*arena_guard(two)) == 0) {
        size_t length = 0, length_two = 0;
        const void *root = build(one, ctx);
        build(two, ctx);
        struct twins twins = {arena_whole(one, &length), arena_whole(two, &length_two), one, two,
                              0};
        twins.length = length;
        if (twins.one != NULL && twins.two != NULL && length == length_two &&
            length / sizeof(uintptr_t) < UINT32_MAX) {
            write_image(&twins, root, key, out);
            made = true;
        }
    }
    arena_close(one);
    arena_close(two);
    return made;
}

static bool
is_whole(const struct image_head *head, struct slice bytes, struct image_key key)
{
    if (memcmp(head->magic, magic, sizeof magic) != 0 || head->format != IMAGE_FORMAT ||
        head->key.low != key.low || head->key.high != key.high || head->length > bytes.length)
        return false;
    return body_at(head) + head->length == bytes.length && head->root < head->length &&
           head->checksum == checksum(bytes);
}

/* brings the pointers of eight words back to life; false when one leads farther than `reach` */
static bool
wake_words(const struct image_head *head, char *body, size_t first, unsigned char bits,
           uintptr_t base, uintptr_t reach)
{
    for (size_t w = first; bits != 0; w++, bits >>= 1) {
        uintptr_t pointer;
        if ((bits & 1) == 0)
            continue;
        if ((w + 1) * sizeof pointer > head->length)
            return false;
        memcpy(&pointer, body + w * sizeof pointer, sizeof pointer);
        if (pointer > reach)
            return false;
        pointer += base;
        memcpy(body + w * sizeof pointer, &pointer, sizeof pointer);
    }
    return true;
}

void *
table_image_wake(struct arena *a, char *bytes, size_t length, struct image_key key)
{
    struct image_head head;
    if (length < sizeof head)
        return NULL;
    memcpy(&head, bytes, sizeof head);
    if (!is_whole(&head, (struct slice){bytes, length}, key))
        return NULL;
    char *body = bytes + body_at(&head);
    size_t row = bits_bytes(head.length);
    for (int kind = 0; kind < POINTER_KINDS; kind++) {
        uintptr_t base = base_of((enum pointer_kind)kind, body, a);
        uintptr_t reach = last_of_kind((enum pointer_kind)kind, &head);
        const unsigned char *bits = (const unsigned char *)bytes + sizeof head + (size_t)kind * row;
        for (size_t i = 0; i < row; i++)
            if (bits[i] != 0 && !wake_words(&head, body, i * 8, bits[i], base, reach))
                return NULL;
    }
    return body + head.root;
}
