/* Ingredient lines, one a line, in a post that is good otherwise; the first byte says whose spoons.
 */
#include <stdio.h>

#include "oracles.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

static const char *const regions[] = {"au", "us", "us-label", "nz", "uk", "ca", "metric", "jp"};

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static const char hex[] = "0123456789abcdef";
    static char post[1 << 16];
    if (length < 2 || length > 4000)
        return 0;
    size_t n = (size_t)snprintf(
        post, sizeof post, "---\ntitle: A dish\nmeasures: %s\nportions: 2\ningredients:\n  - \"",
        regions[bytes[0] % 8]);
    for (size_t i = 1; i < length; i++) {
        const uint8_t c = bytes[i];
        if (c == '\n') {
            n += (size_t)snprintf(post + n, sizeof post - n, "\"\n  - \"");
        } else if (c < ' ' || c == '"' || c == '\\' || c == 0x7f) {
            post[n++] = '\\';
            post[n++] = 'x';
            post[n++] = hex[c >> 4];
            post[n++] = hex[c & 15];
        } else {
            post[n++] = (char)c;
        }
    }
    n += (size_t)snprintf(post + n, sizeof post - n,
                          "\"\n---\n## Method\n\n1. Stir for 5 minutes at 180 C.\n");
    oracles_post(oracles_tables(), "posts/lines.md", (struct slice){post, n});
    return 0;
}
