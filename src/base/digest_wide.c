#include "base/digest_wide.h"

#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#define MAY_BE_WIDE 1
#else
#define MAY_BE_WIDE 0
#endif

bool
digest_wide_runs(void)
{
#if MAY_BE_WIDE
    return __builtin_cpu_supports("avx2") != 0;
#else
    return false;
#endif
}

/* from here on alone, so that all else runs anywhere */
#if MAY_BE_WIDE
#pragma GCC target("avx2")
#endif
#define XXH_INLINE_ALL
#include <xxhash.h>

uint64_t
digest_wide(const void *bytes, size_t length, uint64_t start)
{
    return XXH3_64bits_withSeed(bytes, length, start);
}
