#include "tables/table_image.h"

#include <string.h>

#include <xxhash.h>

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
    uint64_t counts[POINTER_KINDS]; /* pointers of each kind, by their word in the body */
};

static const char magic[8] = "dariole";

static uint64_t
checksum(struct slice bytes)
{
    size_t from = offsetof(struct image_head, format);
    return XXH3_64bits(bytes.at + from, bytes.length - from);
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

static void
write_image(const struct twins *t, const void *root, struct image_key key, struct text *out)
{
    struct image_head head = {.format = IMAGE_FORMAT, .key = key, .length = t->length};
    memcpy(head.magic, magic, sizeof magic);
    head.root = (uint64_t)((const char *)root - t->one);
    size_t start = out->length, words = t->length / sizeof(uintptr_t);
    text_add_bytes(out, (const char *)&head, sizeof head);
    for (int kind = 0; kind < POINTER_KINDS; kind++)
        for (size_t w = 0; w < words; w++)
            if (is_pointer(t, w, (enum pointer_kind)kind)) {
                uint32_t word = (uint32_t)w;
                text_add_bytes(out, (const char *)&word, sizeof word);
                head.counts[kind]++;
            }
    while ((out->length - start) % BODY_ALIGNED != 0)
        text_add_byte(out, '\0');
    size_t body = out->length;
    text_add_bytes(out, t->one, t->length);
    const char *at = out->bytes + start + sizeof head;
    for (int kind = 0; kind < POINTER_KINDS; kind++)
        for (uint64_t i = 0; i < head.counts[kind]; i++, at += sizeof(uint32_t)) {
            uint32_t word;
            uintptr_t pointer;
            memcpy(&word, at, sizeof word);
            char *place = out->bytes + body + word * sizeof pointer;
            memcpy(&pointer, place, sizeof pointer);
            pointer -= base_of((enum pointer_kind)kind, t->one, t->arena_one);
            memcpy(place, &pointer, sizeof pointer);
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

static size_t
body_at(const struct image_head *head)
{
    uint64_t at = sizeof *head;
    for (int kind = 0; kind < POINTER_KINDS; kind++)
        at += head->counts[kind] * sizeof(uint32_t);
    return (size_t)((at + BODY_ALIGNED - 1) / BODY_ALIGNED * BODY_ALIGNED);
}

static bool
is_whole(const struct image_head *head, struct slice bytes, struct image_key key)
{
    if (memcmp(head->magic, magic, sizeof magic) != 0 || head->format != IMAGE_FORMAT ||
        head->key.low != key.low || head->key.high != key.high || head->length > bytes.length)
        return false;
    for (int kind = 0; kind < POINTER_KINDS; kind++)
        if (head->counts[kind] > head->length)
            return false;
    return body_at(head) + head->length == bytes.length && head->root < head->length &&
           head->checksum == checksum(bytes);
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
    const char *at = bytes + sizeof head;
    for (int kind = 0; kind < POINTER_KINDS; kind++) {
        uintptr_t base = base_of((enum pointer_kind)kind, body, a);
        for (uint64_t i = 0; i < head.counts[kind]; i++, at += sizeof(uint32_t)) {
            uint32_t word;
            uintptr_t pointer;
            memcpy(&word, at, sizeof word);
            if (word >= head.length / sizeof pointer)
                return NULL;
            memcpy(&pointer, body + word * sizeof pointer, sizeof pointer);
            if (kind == INTO_IMAGE && pointer > head.length)
                return NULL;
            pointer += base;
            memcpy(body + word * sizeof pointer, &pointer, sizeof pointer);
        }
    }
    return body + head.root;
}
