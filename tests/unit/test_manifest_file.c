/* The manifest of outputs: what is put comes back; every byte cut off or changed is noticed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
/* cmocka wants those first */
#include <cmocka.h>

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "press/manifest_file.h"

struct room {
    struct arena *arena;
    char folder[64], path[128];
    int fd;
};

static void
put(struct manifest_file *s, const char *slug, const struct slice *patterns, size_t count)
{
    char line[MANIFEST_LINE_MOST];
    size_t length = manifest_file_line(line, slice_of(slug), patterns, count);
    assert_true(length > 0);
    manifest_file_put(s, (struct slice){line, length});
}

static void
begin(struct room *r, bool partial)
{
    static const struct slice patterns[] = {{"data/*.json", 11}, {"fragments/*.uk.html", 19}};
    struct manifest_file s;
    struct failure f;
    snprintf(r->folder, sizeof r->folder, "/tmp/dariole-manifest-XXXXXX");
    assert_non_null(mkdtemp(r->folder));
    snprintf(r->path, sizeof r->path, "%s/manifest", r->folder);
    r->fd = open(r->folder, O_RDONLY | O_DIRECTORY);
    r->arena = arena_open(4096);
    assert_true(manifest_file_begin(&s, r->fd, partial, &f));
    put(&s, "soup", patterns, 2);
    put(&s, "bread", patterns, 1);
    assert_true(manifest_file_finish(&s, &f));
}

static void
end(struct room *r)
{
    arena_close(r->arena);
    close(r->fd);
    unlink(r->path);
    assert_int_equal(rmdir(r->folder), 0);
}

static void
overwrite(const struct room *r, struct slice bytes)
{
    int fd = open(r->path, O_WRONLY | O_TRUNC);
    assert_int_equal(write(fd, bytes.at, bytes.length), bytes.length);
    close(fd);
}

static void
reads_what_was_put(void **state)
{
    (void)state;
    struct room r;
    struct manifest_file_file manifest;
    struct failure f;
    struct slice slug, rest, pattern;
    size_t at = 0;
    begin(&r, false);
    assert_true(manifest_file_read(r.arena, r.fd, &manifest, &f));
    assert_true(manifest.there && manifest.ended && !manifest.damaged && !manifest.partial);
    assert_true(manifest_file_next(&manifest, &at, &slug, &rest) && slice_is(slug, "soup"));
    assert_true(manifest_file_next_pattern(&rest, &pattern) && slice_is(pattern, "data/*.json"));
    assert_true(manifest_file_next_pattern(&rest, &pattern) &&
                slice_is(pattern, "fragments/*.uk.html"));
    assert_false(manifest_file_next_pattern(&rest, &pattern));
    assert_true(manifest_file_next(&manifest, &at, &slug, &rest) && slice_is(slug, "bread"));
    assert_false(manifest_file_next(&manifest, &at, &slug, &rest));
    end(&r);
    begin(&r, true);
    assert_true(manifest_file_read(r.arena, r.fd, &manifest, &f) && manifest.partial);
    end(&r);
}

static void
knows_whether_it_was_ended(void **state)
{
    (void)state;
    struct room r;
    struct manifest_file_file manifest;
    struct failure f;
    char line[MANIFEST_LINE_MOST];
    const struct slice pattern = SLICE("preview/*.html");
    begin(&r, false);
    int fd = open(r.path, O_WRONLY | O_APPEND);
    assert_true(atomic_file_put(fd, line, manifest_file_line(line, SLICE("cake"), &pattern, 1)));
    assert_true(manifest_file_read(r.arena, r.fd, &manifest, &f) && !manifest.ended &&
                !manifest.damaged);
    assert_true(manifest_file_end(fd, &f));
    assert_true(manifest_file_read(r.arena, r.fd, &manifest, &f) && manifest.ended &&
                !manifest.damaged);
    close(fd);
    end(&r);
}

/* a name that was never written is never read */
static void
notices_every_change(void **state)
{
    (void)state;
    struct room r;
    struct manifest_file_file whole, manifest;
    struct failure f;
    begin(&r, false);
    assert_true(manifest_file_read(r.arena, r.fd, &whole, &f));
    for (size_t i = 0; i <= whole.bytes.length; i++)
        for (int how = 0; how < 3; how++) {
            struct slice part = slice_part(whole.bytes, 0, i), slug, rest;
            char *bytes = slice_string(r.arena, how == 0 ? part : whole.bytes);
            if (i == whole.bytes.length)
                continue;
            if (how > 0)
                bytes[i] = (char)(bytes[i] ^ (how == 1 ? 1 : 0x40));
            overwrite(&r, (struct slice){bytes, how == 0 ? i : whole.bytes.length});
            assert_true(manifest_file_read(r.arena, r.fd, &manifest, &f));
            assert_true(manifest.damaged || !manifest.ended);
            for (size_t at = 0; manifest_file_next(&manifest, &at, &slug, &rest);)
                assert_true(slice_is(slug, "soup") || slice_is(slug, "bread"));
        }
    end(&r);
}

static void
takes_no_line_too_long(void **state)
{
    (void)state;
    char line[MANIFEST_LINE_MOST];
    static char long_name[MANIFEST_LINE_MOST];
    const struct slice pattern = {long_name, sizeof long_name - 20};
    assert_true(manifest_file_line(line, SLICE("short"), &pattern, 1) > 0);
    assert_int_equal(manifest_file_line(line, SLICE("not so very short"), &pattern, 1), 0);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_what_was_put), cmocka_unit_test(knows_whether_it_was_ended),
        cmocka_unit_test(notices_every_change), cmocka_unit_test(takes_no_line_too_long)};
    return cmocka_run_group_tests_name("manifest_file", tests, NULL, NULL);
}
