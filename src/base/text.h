/* Text: slices that point into bytes owned by others, and a buffer that grows. Lengths travel with
 * pointers; bytes are UTF-8; numbers are written the same in any locale. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "base/arena.h"

struct slice {
    const char *at; /* not NUL-terminated unless said so */
    size_t length;  /* bytes */
};

#define SLICE(literal) ((struct slice){(literal), sizeof(literal) - 1})
#define SLICE_ARGS(s) (int)(s).length, (s).at /* for "%.*s" */

/* What is asked of slices most often is inline, so that the length of a literal is known when it is
 * compiled. */

/* a slice over a NUL-terminated string; NULL gives the empty slice */
static inline struct slice
slice_of(const char *s)
{
    return (struct slice){s != NULL ? s : "", s != NULL ? strlen(s) : 0};
}

/* bytes from..to of s, cut to what there is */
static inline struct slice
slice_part(struct slice s, size_t from, size_t to)
{
    if (to > s.length)
        to = s.length;
    if (from > to)
        from = to;
    return (struct slice){from > 0 ? s.at + from : s.at, to - from}; /* at may be NULL */
}

static inline bool
slice_equal(struct slice a, struct slice b)
{
    return a.length == b.length &&
           (a.length == 0 || (a.at[0] == b.at[0] && memcmp(a.at, b.at, a.length) == 0));
}

static inline bool
slice_is(struct slice a, const char *b)
{
    if (b[0] == '\0' || a.length == 0 || a.at[0] != b[0])
        return b[0] == '\0' && a.length == 0;
    return slice_equal(a, slice_of(b));
}

/* whether it is one of a NULL-terminated list */
static inline bool
slice_among(struct slice s, const char *const *list)
{
    while (*list != NULL && !slice_is(s, *list))
        list++;
    return *list != NULL;
}

static inline bool
slice_begins(struct slice a, const char *prefix)
{
    if (prefix[0] == '\0' || a.length == 0 || a.at[0] != prefix[0])
        return prefix[0] == '\0';
    size_t n = strlen(prefix);
    return a.length >= n && memcmp(a.at, prefix, n) == 0;
}

static inline bool
slice_ends(struct slice a, const char *suffix)
{
    size_t n = strlen(suffix);
    return a.length >= n && memcmp(a.at + a.length - n, suffix, n) == 0;
}

/* ASCII letters without regard to case */
bool slice_is_anycase(struct slice a, const char *b);
int slice_order(struct slice a, struct slice b);
/* without white space at the ends (ASCII and no-break spaces) */
struct slice slice_trim(struct slice s);
/* byte offset of needle in s at or after from, or SIZE_MAX */
size_t slice_find(struct slice s, const char *needle, size_t from);
size_t slice_find_byte(struct slice s, char byte, size_t from);
/* offset of the first byte at or after from that HTML, JSON or a terminal may want otherwise: all
 * but printable ASCII, and " & ' < > \ among that; the length when there is none */
size_t slice_plain(struct slice s, size_t from);
/* number of characters (code points) in valid UTF-8 */
size_t slice_characters(struct slice s);
/* a NUL-terminated copy */
char *slice_string(struct arena *a, struct slice s);
struct slice slice_copy(struct arena *a, struct slice s);
/* XXH3, 64 bits */
uint64_t slice_digest(struct slice s, uint64_t start);

struct text {
    struct arena *arena;
    char *bytes; /* NUL behind the last byte once anything was added */
    size_t length, room;
};

/* an empty buffer that takes from the arena */
struct text text_new(struct arena *a);
/* text_widen where there is no room */
void text_grow(struct text *t, size_t more);
/* room for so many bytes more and a NUL */
static inline void
text_widen(struct text *t, size_t more)
{
    if (t->room - t->length <= more)
        text_grow(t, more);
}
/* inline, so that the length of a literal is known when it is compiled */
static inline void
text_add_bytes(struct text *t, const char *bytes, size_t length)
{
    text_widen(t, length);
    if (length > 0)
        memcpy(t->bytes + t->length, bytes, length);
    t->length += length;
    t->bytes[t->length] = '\0';
}
static inline void
text_add(struct text *t, struct slice s)
{
    text_add_bytes(t, s.at, s.length);
}
static inline void
text_add_string(struct text *t, const char *s)
{
    text_add_bytes(t, s, strlen(s));
}
static inline void
text_add_byte(struct text *t, char c)
{
    text_add_bytes(t, &c, 1);
}
void text_addf(struct text *t, const char *format, ...) __attribute__((format(printf, 2, 3)));
void text_addfv(struct text *t, const char *format, va_list args);
/* a whole number's digits */
void text_add_whole(struct text *t, uint64_t n);
/* value with at most `decimals` decimals and no trailing zeros: 0.5, 12, 0.07 */
void text_add_number(struct text *t, double value, int decimals);
/* escaped for HTML and XML, text and attributes: & < > " '; controls that both forbid are left out
 */
void text_add_html(struct text *t, struct slice s);
struct slice text_slice(const struct text *t);

/* printf into the arena, NUL-terminated */
char *text_format(struct arena *a, const char *format, ...) __attribute__((format(printf, 2, 3)));
struct slice text_formatted(struct arena *a, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

#endif
