#include "press/post_index.h"

#include <string.h>

#include "press/plan.h"
#include "press/post_file.h"

bool
post_index_open(struct post_index *x, int content, const char *shown)
{
    *x = (struct post_index){.content = content, .shown = shown};
    x->arena = arena_open((size_t)64 << 10);
    return x->arena != NULL && pthread_mutex_init(&x->lock, NULL) == 0;
}

void
post_index_close(struct post_index *x)
{
    if (x->arena == NULL)
        return;
    arena_close(x->arena);
    pthread_mutex_destroy(&x->lock);
    x->arena = NULL;
}

/* the file's name without folders and ending */
static struct slice
file_stem(const char *path)
{
    const char *slash = strrchr(path, '/');
    struct slice name = slice_of(slash != NULL ? slash + 1 : path);
    return slice_part(name, 0, name.length - strlen(".md"));
}

/* what stands behind `slug:` at the beginning of a line of the front matter, or empty: the whole
 * front matter need not be read for it */
static struct slice
slug_line(struct slice bytes)
{
    size_t at = 0;
    for (size_t line = 0; at < bytes.length; line++) {
        const size_t end = slice_find_byte(bytes, '\n', at);
        const struct slice text = slice_part(bytes, at, end == SIZE_MAX ? bytes.length : end);
        if (line > 0 && (slice_begins(text, "---") || slice_begins(text, "...")))
            return SLICE("");
        if (slice_begins(text, "slug:")) {
            struct slice value = slice_trim(slice_part(text, strlen("slug:"), text.length));
            const size_t remark = slice_find(value, " #", 0);
            value = slice_trim(slice_part(value, 0, remark == SIZE_MAX ? value.length : remark));
            if (value.length >= 2 && strchr("\"'", value.at[0]) != NULL)
                value = slice_part(value, 1, value.length - 1);
            return value;
        }
        if (end == SIZE_MAX)
            break;
        at = end + 1;
    }
    return SLICE("");
}

static void
add_post(struct post_index *x, struct arena *scratch, const char *path)
{
    struct post_file file;
    struct failure f;
    if (!post_file_read(scratch, x->content, x->shown, path, &file, &f) || file.gone)
        return;
    const struct slice said = slug_line(file.bytes);
    const struct slice slug =
        post_slug(x->arena, said.length > 0 ? said : slice_copy(x->arena, file_stem(path)));
    if (map_get(&x->by_slug, slug) == NULL)
        map_put(&x->by_slug, slug, (void *)(uintptr_t)path);
}

/* lists the posts; a folder that cannot be read has none, as the press itself tells */
static void
fill(struct post_index *x)
{
    struct plan plan;
    struct failure f;
    x->filled = true;
    x->by_slug = map_new(x->arena);
    if (x->content < 0 || !plan_find(x->arena, x->content, &plan, &f))
        return;
    struct arena *scratch = arena_open((size_t)64 << 10);
    if (scratch == NULL)
        return;
    if (setjmp(*arena_guard(scratch)) == 0) { /* where memory runs out, the rest is not known */
        for (size_t i = 0; i < plan.count; i++) {
            add_post(x, scratch, plan.items[i].path);
            arena_reset(scratch);
        }
    }
    arena_close(scratch);
}

bool
post_index_find(void *ctx, struct slice slug, struct post_bytes *out)
{
    const struct post_asking *asking = ctx;
    struct post_index *x = asking->index;
    struct post_file file;
    struct failure f;
    pthread_mutex_lock(&x->lock);
    if (!x->filled)
        fill(x);
    const char *path = map_get(&x->by_slug, slug);
    pthread_mutex_unlock(&x->lock);
    if (path == NULL || !post_file_read(asking->arena, x->content, x->shown, path, &file, &f) ||
        file.gone)
        return false;
    out->path = x->shown == NULL ? path : text_format(asking->arena, "%s/%s", x->shown, path);
    out->bytes = file.bytes;
    return true;
}
