/* Bytes taken sixteen at a time, in vectors that gcc and clang make of what the machine has. Loops
 * left to the compiler to see through are ten times as slow under one or the other. */
#ifndef BASE_STRIDE_H
#define BASE_STRIDE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

enum { STRIDE = 16 };

/* comparisons give 0xff where they hold and 0 where not */
typedef unsigned char stride __attribute__((vector_size(STRIDE)));
typedef uint64_t stride_halves __attribute__((vector_size(STRIDE)));

static inline stride
stride_at(const char *bytes)
{
    stride s;
    memcpy(&s, bytes, sizeof s);
    return s;
}

/* the first and the last half of a stride of eight to sixteen bytes */
static inline stride
stride_of_ends(const char *bytes, size_t length)
{
    uint64_t first, last;
    memcpy(&first, bytes, sizeof first);
    memcpy(&last, bytes + length - sizeof last, sizeof last);
    /* put together in registers: a load does not wait for two stores */
    return (stride)(stride_halves){first, last};
}

/* the first and the last quarter of a stride of four to eight bytes, and both once more */
static inline stride
stride_of_few(const char *bytes, size_t length)
{
    typedef uint32_t quarters __attribute__((vector_size(STRIDE)));
    uint32_t first, last;
    memcpy(&first, bytes, sizeof first);
    memcpy(&last, bytes + length - sizeof last, sizeof last);
    return (stride)(quarters){first, last, first, last};
}

static inline stride
stride_is(stride s, char c)
{
    return (stride)(s == (unsigned char)c);
}

/* where bytes are from `low` to `high` */
static inline stride
stride_within(stride s, unsigned char low, unsigned char high)
{
    return (stride)(s - low <= (unsigned char)(high - low));
}

/* where bytes are below `low`, and where they are no ASCII */
static inline stride
stride_below(stride s, signed char low)
{
    typedef signed char signs __attribute__((vector_size(STRIDE)));
    return (stride)((signs)s < low);
}

/* bytes before the first that is not 0, STRIDE when all are; where they are 0xff */
static inline size_t
stride_first(stride s)
{
    const stride_halves half = (stride_halves)s;
    const uint64_t first = half[0], last = half[1];
    if ((first | last) == 0)
        return STRIDE;
    const uint64_t marked = first != 0 ? first : last;
    const size_t before = first != 0 ? 0 : STRIDE / 2;
#if __BYTE_ORDER__ == __ORDER_BIG_ENDIAN__
    return before + (size_t)__builtin_clzll(marked) / 8;
#else
    return before + (size_t)__builtin_ctzll(marked) / 8;
#endif
}

/* how many bytes are 0xff, where the others are 0 */
static inline size_t
stride_count(stride s)
{
    const uint64_t ones = UINT64_C(0x0101010101010101);
    uint64_t half[2];
    memcpy(half, &s, sizeof half);
    return (size_t)((((half[0] & ones) + (half[1] & ones)) * ones) >> 56);
}

#endif
