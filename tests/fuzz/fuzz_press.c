/* What OUT/.dariole may hold -> a whole press gives what a clean one gives, and touches nothing
 * beside OUT. The first byte says which file is laid there: the manifest as it is or with its lines
 * sealed, the ledger as it is or with its digest made to fit, or the ledger that was there with
 * some bytes changed. */
#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <xxhash.h>

#include "oracles.h"
#include "press/press.h"
#include "rooms.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

static char content[96], clean[96], out[96], victim[96], victim_was[96];
static uint8_t ledger[1 << 20];
static size_t ledger_length;

static int
press(const char *to)
{
    struct press_result r;
    const struct press_options o = {.content = content,
                                    .out = to,
                                    .threads = 1,
                                    .heading_level = 2,
                                    .quiet = true,
                                    .take_over = true};
    return press_run(&o, &r);
}

static void
begin(void)
{
    static const char post[] = "---\ntitle: %s\nportions: 2\nmeasures: us\ningredients:\n"
                               "  - 200 g firm tofu\n---\n## Method\n\n1. Fry the tofu.\n";
    static const char *const names[] = {"tofu", "curd", "bean"};
    const char *folder = rooms_open();
    char path[256], bytes[512];
    snprintf(content, sizeof content, "%s/content", folder);
    snprintf(clean, sizeof clean, "%s/clean", folder);
    snprintf(out, sizeof out, "%s/out", folder);
    snprintf(victim, sizeof victim, "%s/victim", folder);
    snprintf(victim_was, sizeof victim_was, "%s/victim-was", folder);
    json_set_alloc_funcs(arena_lent_malloc, arena_lent_free);
    json_object_seed(1);
    snprintf(path, sizeof path, "%s/tables", folder);
    rooms_put_tables(path);
    setenv("DARIOLE_TABLES", path, 1);
    setenv("XDG_CACHE_HOME", "/proc/none", 1);
    for (int i = 0; i < 3; i++) {
        snprintf(path, sizeof path, "posts/%s.md", names[i]);
        rooms_put(content, path, bytes, (size_t)snprintf(bytes, sizeof bytes, post, names[i]));
    }
    static const char *const files[] = {"tofu.html", "tofu.json", "data/tofu.json", "x.html"};
    for (int i = 0; i < 4; i++) {
        rooms_put(victim, files[i], "mine", 4);
        rooms_put(victim_was, files[i], "mine", 4);
    }
    press(clean);
    snprintf(path, sizeof path, "%s/.dariole/ledger", clean);
    FILE *from = fopen(path, "rb");
    ledger_length = from != NULL ? fread(ledger, 1, sizeof ledger, from) : 0;
    if (from == NULL || ledger_length < 100)
        abort();
    fclose(from);
}

/* every line with the check that a press would have put before it */
static void
put_sealed(const uint8_t *bytes, size_t length)
{
    static char sealed[1 << 18];
    size_t n = 0;
    for (size_t at = 0; at < length && n < sizeof sealed - 8192;) {
        const uint8_t *end = memchr(bytes + at, '\n', length - at);
        size_t line = end != NULL ? (size_t)(end - bytes) - at : length - at;
        if (line > 4000)
            line = 4000;
        XXH64_hash_t check = XXH3_64bits_withSeed(bytes + at, line, 0);
        for (int i = 0; i < 8; i++, check >>= 4)
            sealed[n++] = "0123456789abcdef"[check & 15];
        sealed[n++] = '\t';
        memcpy(sealed + n, bytes + at, line);
        n += line;
        sealed[n++] = '\n';
        at += line + 1;
    }
    rooms_put(out, ".dariole/manifest", sealed, n);
}

static void
put_ledger(uint8_t *bytes, size_t length)
{
    if (length > 8) {
        const XXH64_hash_t check = XXH3_64bits(bytes + 8, length - 8);
        memcpy(bytes, &check, 8);
    }
    rooms_put(out, ".dariole/ledger", bytes, length);
}

/* the ledger that was there, with three bytes of place and one of value for each change */
static void
put_changed(const uint8_t *bytes, size_t length)
{
    static uint8_t changed[1 << 20];
    memcpy(changed, ledger, ledger_length);
    for (size_t i = 0; i + 4 <= length; i += 4) {
        const size_t at = ((size_t)bytes[i] << 16 | (size_t)bytes[i + 1] << 8 | bytes[i + 2]);
        changed[8 + at % (ledger_length - 8)] = bytes[i + 3];
    }
    put_ledger(changed, ledger_length);
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static uint8_t copy[1 << 18];
    if (content[0] == '\0')
        begin();
    if (length < 1 || length > sizeof copy)
        return 0;
    rooms_remove(out);
    rooms_copy(clean, out);
    char path[256];
    const uint8_t how = bytes[0] % 5;
    memcpy(copy, bytes + 1, length - 1);
    if (how < 2) {
        snprintf(path, sizeof path, "%s/.dariole/ledger", out);
        unlink(path);
    }
    switch (how) {
    case 0:
        rooms_put(out, ".dariole/manifest", bytes + 1, length - 1);
        break;
    case 1:
        put_sealed(bytes + 1, length - 1);
        break;
    case 2:
        rooms_put(out, ".dariole/ledger", bytes + 1, length - 1);
        break;
    case 3:
        put_ledger(copy, length - 1);
        break;
    default:
        put_changed(bytes + 1, length - 1);
    }
    press(out);
    if (!rooms_same(victim, victim_was)) {
        fprintf(stderr, "oracle: files beside OUT were changed\n");
        abort();
    }
    return 0;
}
