#include "press/output_name.h"

static const char *const folders[] = {"fragments/", "data/", "preview/", "images/"};

/* what stands behind the slug; a star stands for a word, such as a region or a picture's ending */
static const struct {
    int folder;
    const char *tail;
} tails[] = {
    {FOLDER_FRAGMENTS, ".html"}, {FOLDER_FRAGMENTS, ".*.html"}, {FOLDER_DATA, ".json"},
    {FOLDER_PREVIEW, ".html"},   {FOLDER_IMAGES, ".*"},
};

const char *
output_folder(int folder)
{
    return folders[folder];
}

bool
output_is_slug(struct slice slug)
{
    for (size_t i = 0; i < slug.length; i++) {
        const char c = slug.at[i];
        if (!(c >= 'a' && c <= 'z') && !(c >= '0' && c <= '9') && c != '-')
            return false;
    }
    return slug.length > 0 && slug.length < OUTPUT_NAME_MOST / 2;
}

static bool
tail_fits(struct slice tail, const char *row)
{
    const struct slice whole = slice_of(row);
    const size_t star = slice_find_byte(whole, '*', 0);
    if (star == SIZE_MAX)
        return slice_is(tail, row);
    const struct slice behind = slice_part(whole, star + 1, whole.length);
    if (tail.length < star + behind.length)
        return false;
    const size_t end = tail.length - behind.length;
    return slice_equal(slice_part(tail, 0, star), slice_part(whole, 0, star)) &&
           slice_equal(slice_part(tail, end, tail.length), behind) &&
           output_is_slug(slice_part(tail, star, end));
}

/* the folder of a pattern and what stands behind its slug; false where no press makes such */
static bool
read_pattern(struct slice pattern, int *folder, struct slice *tail)
{
    const size_t star = slice_find_byte(pattern, '*', 0);
    *tail = slice_part(pattern, star == SIZE_MAX ? star : star + 1, pattern.length);
    for (size_t i = 0; star != SIZE_MAX && i < sizeof tails / sizeof *tails; i++) {
        *folder = tails[i].folder;
        if (slice_is(slice_part(pattern, 0, star), folders[*folder]) &&
            tail_fits(*tail, tails[i].tail))
            return true;
    }
    return false;
}

bool
output_is_pattern(struct slice pattern)
{
    int folder;
    struct slice tail;
    return read_pattern(pattern, &folder, &tail);
}

bool
output_file(struct slice pattern, struct slice slug, char name[OUTPUT_NAME_MOST], int *folder)
{
    struct slice tail;
    if (!output_is_slug(slug) || !read_pattern(pattern, folder, &tail) ||
        slug.length + tail.length >= OUTPUT_NAME_MOST)
        return false;
    memcpy(name, slug.at, slug.length);
    memcpy(name + slug.length, tail.at, tail.length);
    name[slug.length + tail.length] = '\0';
    return true;
}

bool
pressing_output_name(const struct ledger *l, struct slice slug, uint32_t pattern,
                     char name[OUTPUT_NAME_MOST], int *folder)
{
    return pattern < l->head.pattern_count &&
           output_file(ledger_string(l, l->head.patterns[pattern]), slug, name, folder);
}
