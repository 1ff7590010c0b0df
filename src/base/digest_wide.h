/* XXH3 of many bytes by the widest vectors that this machine has: the library of the system is
 * built for the oldest machine of its kind. The values are the same, by XXH3's specification. */
#ifndef BASE_DIGEST_WIDE_H
#define BASE_DIGEST_WIDE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* whether digest_wide may be called here */
bool digest_wide_runs(void);
uint64_t digest_wide(const void *bytes, size_t length, uint64_t start);

#endif
