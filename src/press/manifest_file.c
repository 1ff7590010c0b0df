#include "press/manifest_file.h"

#include "press/outputs.h"

#include <errno.h>
#include <stdio.h>
#include <unistd.h>

enum { CHECK_DIGITS = 8, TEXT_AT = CHECK_DIGITS + 1, FILE_MOST = 256 << 20 };

static const char kind[] = ".manifest 1", partly[] = ".partial";

static void
write_check(char *to, struct slice text)
{
    static const char digits[] = "0123456789abcdef";
    uint64_t check = slice_digest(text, 0);
    for (int i = 0; i < CHECK_DIGITS; i++, check >>= 4)
        to[i] = digits[check & 15];
}

/* the check before a line's text, the line feed behind it; the whole length */
static size_t
seal(char *line, size_t end)
{
    write_check(line, (struct slice){line + TEXT_AT, end - TEXT_AT});
    line[CHECK_DIGITS] = '\t';
    line[end] = '\n';
    return end + 1;
}

size_t
manifest_file_line(char line[MANIFEST_LINE_MOST], struct slice slug, const struct slice *patterns,
                   size_t count)
{
    size_t end = TEXT_AT;
    for (size_t i = 0; i <= count; i++) {
        struct slice word = i == 0 ? slug : patterns[i - 1];
        if (word.length + 2 > MANIFEST_LINE_MOST - end)
            return 0;
        if (i > 0)
            line[end++] = '\t';
        memcpy(line + end, word.at, word.length);
        end += word.length;
    }
    return seal(line, end);
}

/* the line at *at, without its check; false when its check does not hold */
static bool
take_line(struct slice bytes, size_t *at, struct slice *text)
{
    char check[CHECK_DIGITS];
    size_t from = *at, end = slice_find_byte(bytes, '\n', from);
    *at = end == SIZE_MAX ? bytes.length : end + 1;
    *text = slice_part(bytes, from + TEXT_AT, end);
    if (end == SIZE_MAX || end - from < TEXT_AT || bytes.at[from + CHECK_DIGITS] != '\t')
        return false;
    write_check(check, *text);
    return memcmp(check, bytes.at + from, CHECK_DIGITS) == 0;
}

static struct slice
end_of(char words[32], size_t at)
{
    return (struct slice){words, (size_t)snprintf(words, 32, ".end %zu", at)};
}

static void
look_through(struct manifest_file_file *n)
{
    char words[32];
    struct slice text;
    for (size_t at = 0, line = 0; at < n->bytes.length; line = at) {
        bool good = take_line(n->bytes, &at, &text);
        if (line == 0 && !(good && slice_is(text, kind))) {
            n->damaged = true;
            n->bytes = SLICE("");
            return;
        }
        n->damaged = n->damaged || !good;
        n->partial = n->partial || (good && slice_is(text, partly));
        n->ended = good && slice_equal(text, end_of(words, line));
    }
    n->damaged = n->damaged || n->bytes.length == 0;
}

bool
manifest_file_read(struct arena *a, int folder, struct manifest_file_file *out, struct failure *f)
{
    *out = (struct manifest_file_file){.bytes = SLICE("")};
    if (!atomic_file_read_plain(a, folder, "manifest", FILE_MOST, &out->bytes)) {
        out->there = errno != ENOENT;
        out->damaged = out->there;
        return errno == ENOENT || errno == EINVAL || errno == EFBIG ||
               failure_say_errno(f, ".dariole/manifest");
    }
    out->there = true;
    look_through(out);
    return true;
}

bool
manifest_file_next(const struct manifest_file_file *n, size_t *at, struct slice *slug,
                   struct slice *patterns)
{
    struct slice text;
    while (*at < n->bytes.length) {
        if (!take_line(n->bytes, at, &text) || slice_begins(text, "."))
            continue;
        size_t tab = slice_find_byte(text, '\t', 0);
        *slug = slice_part(text, 0, tab);
        if (tab == SIZE_MAX || !outputs_slug(*slug))
            continue;
        *patterns = slice_part(text, tab + 1, text.length);
        return true;
    }
    return false;
}

bool
manifest_file_next_pattern(struct slice *patterns, struct slice *pattern)
{
    while (patterns->length > 0) {
        size_t tab = slice_find_byte(*patterns, '\t', 0);
        *pattern = slice_part(*patterns, 0, tab);
        *patterns =
            slice_part(*patterns, tab == SIZE_MAX ? patterns->length : tab + 1, patterns->length);
        if (outputs_pattern(*pattern))
            return true;
    }
    return false;
}

static bool
put_held(struct manifest_file *s)
{
    s->good = s->good && atomic_file_put(s->fd, s->bytes, s->held);
    s->held = 0;
    return s->good;
}

static bool
put_line(struct manifest_file *s, const char *line, size_t length)
{
    if (sizeof s->bytes - s->held < length && !put_held(s))
        return false;
    memcpy(s->bytes + s->held, line, length);
    s->held += length;
    s->at += length;
    return length > 0;
}

static bool
put_word(struct manifest_file *s, struct slice word)
{
    char line[MANIFEST_LINE_MOST];
    return put_line(s, line, manifest_file_line(line, word, NULL, 0));
}

bool
manifest_file_begin(struct manifest_file *s, int folder, bool partial, struct failure *f)
{
    s->batch = (struct atomic_file_batch){.step = 1};
    s->folder = folder;
    s->at = s->held = 0;
    s->fd = atomic_file_begin(&s->batch, folder, &s->temporary, f);
    s->good = s->fd >= 0;
    return s->good && put_word(s, SLICE(kind)) && (!partial || put_word(s, SLICE(partly)));
}

void
manifest_file_put(struct manifest_file *s, struct slice line)
{
    put_line(s, line.at, line.length);
}

bool
manifest_file_finish(struct manifest_file *s, struct failure *f)
{
    char words[32];
    if (s->fd < 0)
        return false;
    bool good = put_word(s, end_of(words, s->at)) && put_held(s);
    if (!good)
        failure_say_errno(f, ".dariole/manifest");
    if (close(s->fd) != 0 && good)
        good = failure_say_errno(f, ".dariole/manifest");
    good = good && atomic_file_wait(&s->batch, s->folder, s->temporary, "manifest", true, 0, f);
    if (!good)
        atomic_file_drop(s->folder, s->temporary);
    /* not flushed: where the disk loses it, the ledger has the names as well */
    good = good && atomic_file_commit(&s->batch, true, &atomic_file_no_teller, f);
    atomic_file_batch_close(&s->batch);
    return good;
}

bool
manifest_file_end(int fd, struct failure *f)
{
    char words[32], line[MANIFEST_LINE_MOST];
    struct stat s;
    return (fstat(fd, &s) == 0 &&
            atomic_file_put(fd, line,
                            manifest_file_line(line, end_of(words, (size_t)s.st_size), NULL, 0))) ||
           failure_say_errno(f, ".dariole/manifest");
}
