/* A post's bytes -> all that is written of it. */
#include "oracles.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    oracles_post(oracles_tables(), "posts/fuzzed.md", (struct slice){(const char *)bytes, length});
    return 0;
}
