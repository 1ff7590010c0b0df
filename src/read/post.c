#include "read/post.h"

#include <string.h>

#include <uninorm.h>
#include <unistr.h>

#include "read/body_lines.h"
#include "read/hidden.h"
#include "read/yaml_tree.h"

enum { HIDDEN_MOST = 20, SLUG_BYTES_MOST = 100 };

/* the line and column of byte `at`; line breaks are LF, CR LF and CR */
static struct place
place_at(struct slice bytes, size_t at)
{
    struct place place = {1, 1, 1};
    size_t line = 0;
    for (size_t i = 0; i < at; i++) {
        if (bytes.at[i] == '\n' || (bytes.at[i] == '\r' && bytes.at[i + 1] != '\n')) {
            place.line++;
            line = i + 1;
        }
    }
    place.column = (uint32_t)slice_characters(slice_part(bytes, line, at)) + 1;
    return place;
}

/* the line that begins at `at`, without its break; *next is where the next one begins */
static struct slice
line_at(struct slice bytes, size_t at, size_t *next)
{
    const size_t end = body_line_end(bytes, at);
    *next = body_line_behind(bytes, end);
    return slice_part(bytes, at, end);
}

/* a line of `mark` and nothing but blanks behind it */
static bool
is_fence(struct slice line, const char *mark)
{
    if (!slice_begins(line, mark))
        return false;
    for (size_t i = 3; i < line.length; i++)
        if (line.at[i] != ' ' && line.at[i] != '\t')
            return false;
    return true;
}

static bool
is_utf8(struct arena *a, struct slice bytes, struct notices *notices)
{
    const uint8_t *wrong = u8_check((const uint8_t *)bytes.at, bytes.length);
    if (wrong == NULL)
        return true;
    size_t at = (size_t)((const char *)wrong - bytes.at);
    struct place place = place_at(bytes, at);
    struct text what = text_new(a);
    for (size_t i = 0; i < 3 && at + i < bytes.length && (i == 0 || wrong[i] >= 0x80); i++)
        text_addf(&what, "%s%02X", i > 0 ? " " : "", (unsigned)wrong[i]);
    notice_add(notices, RULE_NOT_UTF8, place, text_slice(&what), SLICE(""));
    return false;
}

/* one notice a line, and not without end */
static void
notice_hidden(struct arena *a, struct slice bytes, struct notices *notices)
{
    uint32_t code, last_line = 0;
    size_t at = hidden_find(bytes, 0, &code);
    for (int count = 0; at != SIZE_MAX && count < HIDDEN_MOST;) {
        struct place place = place_at(bytes, at);
        if (place.line != last_line) {
            notice_add(notices, RULE_CHARACTER_HIDDEN, place,
                       text_formatted(a, "U+%04X", (unsigned)code), SLICE(""));
            count++;
        }
        last_line = place.line;
        size_t next;
        line_at(bytes, at, &next);
        at = hidden_find(bytes, next, &code);
    }
}

/* letters that decomposition leaves whole, and what they are written as without it */
static const struct {
    ucs4_t letter;
    const char *written;
} plain_letters[] = {
    {0xdf, "ss"},  {0xc6, "ae"}, {0xe6, "ae"}, {0xd8, "o"},  {0xf8, "o"}, {0x152, "oe"},
    {0x153, "oe"}, {0x110, "d"}, {0x111, "d"}, {0xd0, "d"},  {0xf0, "d"}, {0x141, "l"},
    {0x142, "l"},  {0xde, "th"}, {0xfe, "th"}, {0x131, "i"},
};

static void
slug_add(struct text *slug, ucs4_t c)
{
    if (slug->length >= SLUG_BYTES_MOST)
        return;
    if (c >= 'A' && c <= 'Z')
        c += 'a' - 'A';
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) {
        text_add_byte(slug, (char)c);
        return;
    }
    for (size_t i = 0; i < sizeof plain_letters / sizeof *plain_letters; i++) {
        if (plain_letters[i].letter == c) {
            text_add_string(slug, plain_letters[i].written);
            return;
        }
    }
    bool mark = c >= 0x300 && c < 0x370, apostrophe = c == '\'' || c == 0x2019;
    if (!mark && !apostrophe && slug->length > 0 && slug->bytes[slug->length - 1] != '-')
        text_add_byte(slug, '-');
}

static void
add_decomposed(struct arena *a, struct text *slug, struct slice name)
{
    /* compatibility decomposition at most trebles UTF-8 but for a few ligatures (x 11) */
    size_t room = name.length * 12 + 1;
    uint8_t *buffer = arena_take(a, room);
    uint8_t *parts =
        u8_normalize(UNINORM_NFKD, (const uint8_t *)name.at, name.length, buffer, &room);
    if (parts == NULL)
        arena_take(a, SIZE_MAX); /* no memory: jumps to the guard */
    for (size_t i = 0; i < room;) {
        ucs4_t c;
        i += (size_t)u8_mbtouc_unsafe(&c, parts + i, room - i);
        slug_add(slug, c);
    }
}

struct slice
post_slug(struct arena *a, struct slice name)
{
    struct text slug = text_new(a);
    name = slice_part(name, 0, 4 * SLUG_BYTES_MOST);
    while (name.length > 0 && u8_check((const uint8_t *)name.at, name.length) != NULL)
        name.length--; /* a character cut in two, or a file name that is no UTF-8 */
    bool ascii = true;
    for (size_t i = 0; i < name.length; i++)
        ascii = ascii && (unsigned char)name.at[i] < 0x80;
    for (size_t i = 0; i < name.length && ascii; i++)
        slug_add(&slug, (ucs4_t)name.at[i]);
    if (!ascii)
        add_decomposed(a, &slug, name);
    while (slug.length > 0 && slug.bytes[slug.length - 1] == '-')
        slug.length--;
    /* a name in letters that have no ASCII: its digest, so that it is stable and its own */
    if (slug.length == 0)
        text_addf(&slug, "post-%08x", (unsigned)(slice_digest(name, 0) & 0xffffffffu));
    return slice_part(text_slice(&slug), 0, slug.length);
}

/* the file's name without folders and the last ending */
static struct slice
file_stem(const char *path)
{
    const char *slash = strrchr(path, '/');
    struct slice name = slice_of(slash != NULL ? slash + 1 : path);
    for (size_t i = name.length; i-- > 1;)
        if (name.at[i] == '.')
            return slice_part(name, 0, i);
    return name;
}

/* in place of the slug of the file's name, where the post says one */
static void
choose_slug(struct arena *a, struct notices *notices, struct post *out)
{
    const struct front_value *front_value = &out->front.slug;
    if (front_value->text.length == 0)
        return;
    out->slug = post_slug(a, front_value->text);
    if (!slice_equal(out->slug, front_value->text))
        notice_add(notices, RULE_VALUE_UNREADABLE, front_value->place, front_value->text,
                   text_formatted(a, "a slug (a-z, 0-9 and hyphens); “%.*s” was used",
                                  SLICE_ARGS(out->slug)));
}

/* finds the front matter's fences; false after a notice */
static bool
fences(struct slice bytes, struct notices *notices, struct slice *yaml, size_t *body_from,
       uint32_t *body_line)
{
    size_t next, from;
    struct slice first = line_at(bytes, 0, &next);
    if (!is_fence(first, "---")) {
        notice_add(notices, RULE_FRONT_MATTER_MISSING, (struct place){1, 0, 0}, SLICE(""),
                   SLICE(""));
        return false;
    }
    from = next;
    for (uint32_t line = 2; next < bytes.length; line++) {
        size_t at = next;
        struct slice text = line_at(bytes, at, &next);
        if (!is_fence(text, "---") && !is_fence(text, "..."))
            continue;
        *yaml = slice_part(bytes, from, at);
        *body_from = next;
        *body_line = line + 1;
        return true;
    }
    notice_add(notices, RULE_FRONT_MATTER_UNCLOSED, (struct place){1, 1, 3}, SLICE(""), SLICE(""));
    return false;
}

/* whether Windows gives no plain file this name, whatever its ending */
static bool
is_reserved(struct slice name)
{
    static const char *const devices[] = {"con", "prn", "aux", "nul", NULL};
    const size_t dot = slice_find_byte(name, '.', 0);
    const struct slice stem = slice_part(name, 0, dot == SIZE_MAX ? name.length : dot);
    for (size_t i = 0; devices[i] != NULL; i++)
        if (slice_is_anycase(stem, devices[i]))
            return true;
    const struct slice port = slice_part(stem, 0, 3);
    if (stem.length == 4 && stem.at[3] >= '1' && stem.at[3] <= '9' &&
        (slice_is_anycase(port, "com") || slice_is_anycase(port, "lpt")))
        return true;
    for (size_t i = 0; i < name.length; i++)
        if (strchr("<>:\"|?*\\", name.at[i]) != NULL)
            return true;
    return name.length > 0 && (slice_ends(name, ".") || slice_ends(name, " "));
}

static void
notice_reserved(const struct post *post, struct notices *notices)
{
    const char *slash = strrchr(post->path, '/');
    const struct slice file = slice_of(slash != NULL ? slash + 1 : post->path);
    if (is_reserved(file))
        notice_add(notices, RULE_NAME_RESERVED, (struct place){0}, file, SLICE("the file"));
    else if (is_reserved(post->slug))
        notice_add(notices, RULE_NAME_RESERVED, post->front.slug.place, post->slug,
                   SLICE("the slug"));
}

static bool
is_blank(struct slice bytes)
{
    return slice_trim(bytes).length == 0;
}

void
post_read(struct arena *a, const struct word_lists *lists, const struct post_bytes *file,
          struct notices *notices, struct post *out)
{
    struct slice bytes = file->bytes;
    *out = (struct post){.path = file->path, .slug = post_slug(a, file_stem(file->path))};
    if (bytes.length > POST_BYTES_MOST) {
        notice_add(notices, RULE_FILE_TOO_LARGE, (struct place){0}, SLICE("4 MiB"), SLICE(""));
        return;
    }
    out->bytes = bytes =
        slice_begins(bytes, "\xef\xbb\xbf") ? slice_part(bytes, 3, bytes.length) : bytes;
    if (is_blank(bytes)) {
        notice_add(notices, RULE_FILE_EMPTY, (struct place){0}, SLICE(""), SLICE(""));
        return;
    }
    if (!is_utf8(a, bytes, notices))
        return;
    notice_hidden(a, bytes, notices);
    struct slice yaml;
    size_t body_from;
    uint32_t body_line;
    if (!fences(bytes, notices, &yaml, &body_from, &body_line))
        return;
    const struct yaml_node *map = yaml_tree_read(a, yaml, 2, notices);
    if (map != NULL) {
        front_matter_read(a, lists, map, notices, &out->front);
        out->readable = map->kind == YAML_MAP_NODE;
        words_read(a, lists, out->front.title.text, &out->title_words);
        words_read(a, lists, out->front.summary.text, &out->summary_words);
        words_read(a, lists, out->front.storage.text, &out->storage_words);
    }
    choose_slug(a, notices, out);
    notice_reserved(out, notices);
    out->range = (struct body_range){bytes, body_from, bytes.length, body_line, lists};
    if (out->front.dish_count == 0)
        body_read(a, &out->range, out->front.gathers.count > 0 ? BODY_PROSE : BODY_RECIPE, notices,
                  &out->body);
}
