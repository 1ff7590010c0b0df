#include "press/post_index.h"

#include <string.h>

#include "press/plan.h"
#include "press/post_file.h"

struct indexed_post {
    const char *path; /* in the folder */
    struct slice slug;
    bool draft;
};

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

/* what stands behind a key at the beginning of a line of the front matter, or empty: the whole
 * front matter need not be read for it */
static struct slice
value_of(struct slice bytes, const char *key)
{
    size_t at = 0;
    for (size_t line = 0; at < bytes.length; line++) {
        const size_t end = slice_find_byte(bytes, '\n', at);
        const struct slice text = slice_part(bytes, at, end == SIZE_MAX ? bytes.length : end);
        if (line > 0 && (slice_begins(text, "---") || slice_begins(text, "...")))
            return SLICE("");
        if (slice_begins(text, key)) {
            struct slice value = slice_trim(slice_part(text, strlen(key), text.length));
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
    const struct slice said = value_of(file.bytes, "slug:"), draft = value_of(file.bytes, "draft:");
    const struct slice stem = slice_copy(x->arena, file_stem(path));
    struct indexed_post *post = arena_take(x->arena, sizeof *post);
    *post = (struct indexed_post){path, post_slug(x->arena, said.length > 0 ? said : stem),
                                  slice_is(draft, "yes") || slice_is(draft, "true")};
    if (map_get(&x->by_slug, post->slug) == NULL)
        map_put(&x->by_slug, post->slug, post);
    if (map_get(&x->by_file, stem) == NULL)
        map_put(&x->by_file, stem, post);
}

/* lists the posts; a folder that cannot be read has none, as the press itself tells */
static void
fill(struct post_index *x)
{
    struct plan plan;
    struct failure f;
    x->filled = true;
    x->by_slug = map_new(x->arena);
    x->by_file = map_new(x->arena);
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

/* by its slug, else by its file's name where `files` says so */
static const struct indexed_post *
look_up(struct post_index *x, struct slice name, bool files)
{
    pthread_mutex_lock(&x->lock);
    if (!x->filled)
        fill(x);
    const struct indexed_post *post = map_get(&x->by_slug, name);
    if (post == NULL && files)
        post = map_get(&x->by_file, name);
    pthread_mutex_unlock(&x->lock);
    return post;
}

bool
post_index_find(void *ctx, struct slice slug, struct post_bytes *out)
{
    const struct post_asking *asking = ctx;
    const struct post_index *x = asking->index;
    struct post_file file;
    struct failure f;
    const struct indexed_post *post = look_up(asking->index, slug, false);
    if (post == NULL ||
        !post_file_read(asking->arena, x->content, x->shown, post->path, &file, &f) || file.gone)
        return false;
    out->path =
        x->shown == NULL ? post->path : text_format(asking->arena, "%s/%s", x->shown, post->path);
    out->bytes = file.bytes;
    return true;
}

bool
post_index_settle(void *ctx, struct slice name, struct slice *slug)
{
    const struct post_asking *asking = ctx;
    *slug = name;
    if (asking->index->content < 0) /* there is no folder to tell */
        return true;
    const struct indexed_post *post = look_up(asking->index, name, true);
    if (post == NULL || post->draft)
        return false;
    *slug = post->slug;
    return true;
}
