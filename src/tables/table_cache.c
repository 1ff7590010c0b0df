#include "tables/table_cache.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/list.h"
#include "read/yaml_tree.h"
#include "tables/food_leads.h"
#include "tables/label_settle.h"
#include "tables/larder.h"
#include "tables/larder_rows.h"
#include "tables/measure_rows.h"
#include "tables/row.h"
#include "tables/serve_settle.h"
#include "tables/table_store.h"
#include "read/yaml_value.h"

/* pages of a table built stay below this many bytes for each of its file, and some */
enum { IMAGE_BYTES_PER_BYTE = 12, IMAGE_BYTES_LEAST = 4 << 20 };

static bool
is_folder(const char *path, struct stat *st)
{
    return stat(path, st) == 0 && S_ISDIR(st->st_mode);
}

static bool
has_measures(struct arena *a, const char *folder)
{
    return access(text_format(a, "%s/measures.yaml", folder), R_OK) == 0;
}

/* the tables that came with the program: said by the environment, beside it, or where it was to be
 * installed */
static const char *
default_folder(struct arena *a)
{
    const char *named = getenv("DARIOLE_TABLES");
    if (named != NULL && named[0] != '\0')
        return named;
    char program[PATH_MAX];
    ssize_t n = readlink("/proc/self/exe", program, sizeof program - 1);
    if (n > 0) {
        static const char *const beside[] = {"../share/dariole/tables", "../content/tables",
                                             "../../content/tables"};
        program[n] = '\0';
        char *slash = strrchr(program, '/');
        if (slash != NULL)
            *slash = '\0';
        for (size_t i = 0; i < sizeof beside / sizeof *beside; i++) {
            const char *folder = text_format(a, "%s/%s", program, beside[i]);
            if (has_measures(a, folder))
                return folder;
        }
    }
    return has_measures(a, DARIOLE_TABLES) ? DARIOLE_TABLES : NULL;
}

bool
tables_layers(struct arena *a, const char *content, struct table_layers *out, struct failure *f)
{
    struct stat first, own;
    *out = (struct table_layers){.count = 0};
    const char *folder = default_folder(a);
    if (folder != NULL) {
        if (!is_folder(folder, &first))
            return failure_say_errno(f, "the tables in %s cannot be read", folder);
        out->folders[out->count++] = folder;
    }
    if (content != NULL) {
        const char *tables = text_format(a, "%s/tables", content);
        bool same = is_folder(tables, &own) && folder != NULL && first.st_dev == own.st_dev &&
                    first.st_ino == own.st_ino;
        if (!same && is_folder(tables, &own))
            out->folders[out->count++] = tables;
        out->site = text_format(a, "%s/site.yaml", content);
    }
    if (out->count == 0)
        return failure_say(f, "no tables are there; set DARIOLE_TABLES to their folder");
    return true;
}

/* what a build is made from */
struct build {
    struct table_files files;
    enum table_part part;
    LIST_OF(struct table_notice) unread; /* of files of the part that are no YAML */
    struct tables *parts[TABLE_PARTS];   /* those that stand, each with its own alone */
};

/* where images are kept; NULL: nowhere */
struct store {
    const char *folder;
    bool keep; /* new ones, too */
    struct image_key keys[TABLE_PARTS];
};

/* the notices raised since, with the file they are about */
static void
keep_notices(struct arena *a, struct tables *t, size_t *room, const char *path,
             struct notices *notices)
{
    for (size_t i = 0; i < notices->count; i++) {
        const struct notice *n = &notices->items[i];
        t->notices = list_room(a, t->notices, room, t->notice_count, sizeof *t->notices);
        t->notices[t->notice_count++] =
            (struct table_notice){slice_string(a, slice_of(path)),
                                  {n->rule, n->place, slice_copy(a, n->what),
                                   slice_copy(a, n->more), slice_copy(a, n->mend), SLICE("")}};
    }
    notices->count = 0;
}

struct keeping {
    struct arena *arena;
    struct tables *tables;
    size_t room;
};

static void
keep_told(void *ctx, const char *path, struct notices *notices)
{
    struct keeping *k = ctx;
    keep_notices(k->arena, k->tables, &k->room, path, notices);
}

/* The keys that each kind of file has at its top, all of them mappings but a site's: a section that
 * is misspelt would do nothing, and its writer believe that it does. False: there is nothing to
 * read.
 */
static bool
check_top(struct arena *a, const struct table_file *file, struct notices *notices)
{
    static const char *const keys[][5] = {
        [TABLE_WORDS] = {"lists"},
        [TABLE_MEASURES] = {"units", "regions", "fills"},
        [TABLE_LIMITS] = {"over-at", "close-at", "phases"},
        [TABLE_COOKING] = {"meanings", "irregular", "words", "kinds"},
        [TABLE_CAUTIONS] = {"cautions"},
        [TABLE_SITE] = {NULL},
        [TABLE_SOURCES] = {"sources"},
        [TABLE_SWAPS] = {"swaps", "garnish"},
        [TABLE_SERVES] = {NULL},
        [TABLE_FOODS] = {"foods", "all-of-these"},
    };
    if (file->kind == TABLE_SERVES) /* any name of a food is a key */
        return true;
    const char *name = strrchr(file->path, '/');
    name = name != NULL ? name + 1 : file->path;
    struct row row = {.arena = a, .notices = notices, .entry = slice_of(name)};
    row.until = "Until then nothing is read from it.";
    if (!row_map(&row, file->root, "the file", "its keys and values as a mapping"))
        return false;
    for (size_t i = 0; file->kind != TABLE_SITE && i < file->root->count; i++) {
        const struct yaml_node *k = yaml_key(file->root, i), *v = yaml_value(file->root, i);
        int word = row_word(k->text, keys[file->kind]);
        if (word < 0)
            row_key_unknown(&row, k, "this file", keys[file->kind]);
        else if (!slice_ends(k->text, "-at")) /* figures, which are held to more */
            row_map(&row, v, keys[file->kind][word], "it as a mapping");
    }
    return file->root->kind == YAML_MAP_NODE;
}

static void
take_file(struct arena *a, const struct table_file *file, const struct measures *measures,
          struct notices *notices, struct tables *t)
{
    if (!check_top(a, file, notices))
        return;
    switch (file->kind) {
    case TABLE_WORDS:
        words_load(a, file->root, notices, t->words);
        break;
    case TABLE_MEASURES:
        measure_rows_take(a, file->root, notices, &t->measures);
        break;
    case TABLE_LIMITS:
        limits_load(a, file->root, notices, &t->limits);
        break;
    case TABLE_COOKING:
        cooking_load(a, file->root, notices, &t->cooking);
        break;
    case TABLE_CAUTIONS:
        cautions_load(a, file->root, &t->cooking, notices, &t->cautions);
        break;
    case TABLE_SITE:
        site_load(a, file->root, measures, &t->limits, notices, &t->site);
        break;
    case TABLE_SOURCES:
        sources_load(a, file->root, notices, &t->sources);
        break;
    case TABLE_SWAPS:
        swaps_load(a, file->path, file->root, notices, &t->swaps);
        break;
    case TABLE_SERVES:
        serves_load(a, file->path, file->root, notices, &t->serves);
        break;
    case TABLE_FOODS:
        t->larder->path = slice_string(a, slice_of(file->path));
        larder_add(t->larder, file->root, notices);
        break;
    }
}

static uint64_t
food_digest(const struct food_row *row, uint64_t d)
{
    const struct food *f = &row->food;
    d = slice_digest(slice_of(f->id), d);
    uint64_t entries[GROUPS + 3];
    for (int g = 0; g < GROUPS; g++)
        entries[g] = f->contents_entry[g].digest;
    entries[GROUPS] = f->identity.digest;
    entries[GROUPS + 1] = f->nutrients_entry.digest;
    entries[GROUPS + 2] = f->serve_entry.digest;
    d = slice_digest((struct slice){(const char *)entries, sizeof entries}, d);
    for (size_t i = 0; i < f->form_count; i++)
        d = slice_digest(slice_of(f->forms[i].name), d ^ f->forms[i].entry.digest);
    for (size_t i = 0; i < row->name_count; i++) {
        const struct food_name *n = &row->names[i];
        d = slice_digest(slice_of(n->text), d + (uint64_t)n->scope * 8 + (uint64_t)n->by);
        d = slice_digest(slice_of(n->region), d);
    }
    return d;
}

static uint64_t
foods_digest(const struct tables *t)
{
    uint64_t d = slice_digest(SLICE("tables"), t->measures.all.digest ^ t->words->entry.digest);
    for (size_t i = 0; i < t->larder->count; i++)
        d = food_digest(t->larder->items[i], d);
    return d;
}

static uint64_t
rules_digest(const struct tables *t, uint64_t d)
{
    for (size_t i = 0; i < t->limits.phase_count; i++) {
        const struct phase *p = &t->limits.phases[i];
        d = slice_digest(slice_of(p->id), d ^ p->entry.digest ^ p->sitting_entry.digest);
        for (int g = 0; g < GROUPS; g++)
            d = slice_digest(slice_of(p->groups[g].entry.key), d ^ p->groups[g].entry.digest);
    }
    for (size_t i = 0; i < t->cautions.count; i++) {
        const struct caution *c = &t->cautions.items[i];
        d = slice_digest(slice_of(c->id), d ^ c->trigger_entry.digest);
        d = slice_digest(SLICE("words"), d ^ c->words_entry.digest);
    }
    for (size_t i = 0; i < t->sources.count; i++) {
        const struct source_row *source = &t->sources.items[i];
        d = slice_digest(slice_of(source->title), slice_digest(slice_of(source->id), d));
        d = slice_digest(slice_of(source->shown), d);
    }
    d = slice_digest(SLICE("cooking"), d ^ t->cooking.entry.digest);
    for (size_t i = 0; i < t->swaps.count; i++)
        d = slice_digest(SLICE("swap"), d ^ t->swaps.items[i].entry.digest);
    d = slice_digest(SLICE("garnish"), d ^ t->swaps.garnish_entry.digest);
    for (size_t i = 0; i < t->serves.rows.count; i++) {
        const struct serve_row *row = &t->serves.rows.items[i];
        const struct slice said[] = {row->food,
                                     row->form,
                                     row->phase,
                                     row->amount,
                                     slice_of(row->source != NULL ? row->source : ""),
                                     slice_of(row->changed != NULL ? row->changed : "")};
        for (size_t k = 0; k < sizeof said / sizeof *said; k++)
            d = slice_digest(said[k], d + k);
    }
    return slice_digest(SLICE("site"), d ^ t->site.entry.digest);
}

/* builds the part from its trees */
static void *
build_part(struct arena *a, void *ctx)
{
    const struct build *b = ctx;
    struct tables *t = arena_take(a, sizeof *t);
    const struct tables *foods = b->part == PART_FOODS ? t : b->parts[PART_FOODS];
    struct notices notices = {a, NULL, 0, 0};
    size_t notice_room = 0;
    for (size_t i = 0; i < b->unread.count; i++) {
        notices.count = 0;
        notice_pass(&notices, &b->unread.items[i].notice);
        keep_notices(a, t, &notice_room, b->unread.items[i].path, &notices);
    }
    struct word_lists *words = arena_take(a, sizeof *words);
    if (b->part == PART_FOODS) {
        words_open(a, words);
        t->words = words;
        t->larder = larder_open(a, &t->measures, words);
    }
    /* words before measures, measures before foods, limits before the site, whatever the order of
     * layers */
    for (int kind = TABLE_WORDS; kind <= TABLE_FOODS; kind++) {
        if (table_part_of((enum table_kind)kind) != b->part)
            continue;
        for (size_t i = 0; i < b->files.count; i++) {
            const struct table_file *file = &b->files.items[i];
            if ((int)file->kind != kind || file->root == NULL)
                continue;
            take_file(a, file, &foods->measures, &notices, t);
            keep_notices(a, t, &notice_room, file->path, &notices);
        }
        if (kind == TABLE_WORDS)
            words_close(words);
        else if (kind == TABLE_MEASURES)
            measure_rows_build(a, &t->measures);
        else if (kind == TABLE_LIMITS)
            limits_close(a, &t->limits);
        else if (kind == TABLE_COOKING)
            cooking_close(a, &t->cooking);
        else if (kind == TABLE_SITE)
            site_close(a, &foods->measures, &t->limits, &t->site);
    }
    if (b->part == PART_FOODS) {
        struct keeping k = {a, t, notice_room};
        larder_close(t->larder);
        food_leads_settle(t->larder, keep_told, &k);
        label_settle(t->larder, keep_told, &k);
        t->digest = foods_digest(t);
    }
    return t;
}

static bool
read_trees(struct arena *scratch, struct build *b, struct failure *f)
{
    if (!table_files_read(scratch, &b->files, b->part, f))
        return false;
    b->unread.count = 0;
    for (size_t i = 0; i < b->files.count; i++) {
        struct table_file *file = &b->files.items[i];
        struct notices notices = {scratch, NULL, 0, 0};
        if (table_part_of(file->kind) != b->part)
            continue;
        const struct slice bytes = slice_ends(slice_of(file->path), ".csv")
                                       ? serves_from_csv(scratch, file->bytes)
                                       : file->bytes;
        file->root = yaml_tree_read(scratch, bytes, 1, &notices);
        for (size_t k = 0; k < notices.count; k++)
            *LIST_GROW(scratch, &b->unread) = (struct table_notice){file->path, notices.items[k]};
    }
    return true;
}

/* The part of the tables from its image, or from its files, of which an image is then kept; NULL
 * when a file cannot be read. Files that change between the key and the reading make an image under
 * the old key, so the keys are taken again. */
static struct tables *
kept_or_built(struct arena *a, struct arena *scratch, struct build *b, const struct store *store,
              struct failure *f)
{
    struct image_key again[TABLE_PARTS], key = store->keys[b->part];
    size_t length = 0;
    struct tables *t = NULL;
    char *kept =
        store->folder != NULL ? table_store_read(a, store->folder, b->part, key, &length) : NULL;
    if (kept != NULL)
        t = table_image_wake(a, kept, length, key);
    if (t != NULL)
        return t;
    if (!read_trees(scratch, b, f))
        return NULL;
    struct text image = text_new(scratch);
    size_t room = b->files.bytes * IMAGE_BYTES_PER_BYTE + IMAGE_BYTES_LEAST;
    if (store->keep && table_files_key(&b->files, again) && again[b->part].low == key.low &&
        again[b->part].high == key.high && table_image_make(build_part, b, room, key, &image)) {
        table_store_write(scratch, store->folder, b->part, key, text_slice(&image));
        t = table_image_wake(a, arena_copy(a, image.bytes, image.length), image.length, key);
    }
    return t != NULL ? t : build_part(a, b);
}

/* loads both parts, foods first */
static bool
load_parts(struct arena *a, struct arena *scratch, struct build *b,
           const struct table_layers *layers, const char *folder, struct failure *f)
{
    struct store store = {folder != NULL ? folder : table_store_user(scratch), false, {{0, 0}}};
    if (store.folder != NULL &&
        (store.folder[0] == '\0' || !table_files_key(&b->files, store.keys)))
        store.folder = NULL;
    store.keep = store.folder != NULL && !layers->passing;
    for (int part = 0; part < TABLE_PARTS; part++) {
        b->part = (enum table_part)part;
        b->parts[part] = kept_or_built(a, scratch, b, &store, f);
        if (b->parts[part] == NULL)
            return false;
    }
    return true;
}

/* the larder keeps the address of the measures it was opened with, which move with the copy */
static void
move_foods(struct tables *out, const struct tables *foods)
{
    *out = *foods;
    out->larder->measures = &out->measures;
    for (size_t i = 0; i < out->measures.spellings.count; i++) {
        struct map_row *row = &out->measures.spellings.rows[i];
        const struct unit_words *u = row->value;
        row->value = &out->measures.units[u - foods->measures.units];
    }
}

/* both parts made one */
static void
join(struct arena *a, const struct tables *foods, const struct tables *rules, struct tables *out)
{
    move_foods(out, foods);
    out->limits = rules->limits;
    out->cooking = rules->cooking;
    out->cautions = rules->cautions;
    out->site = rules->site;
    out->sources = rules->sources;
    out->swaps = rules->swaps;
    out->serves = rules->serves;
    out->digest = rules_digest(out, foods->digest);
    out->notice_count = foods->notice_count + rules->notice_count;
    out->notices = arena_take_array(a, out->notice_count, sizeof *out->notices);
    for (size_t i = 0; i < out->notice_count; i++)
        out->notices[i] =
            i < foods->notice_count ? foods->notices[i] : rules->notices[i - foods->notice_count];
    struct keeping k = {a, out, out->notice_count};
    struct notices notices = {a, NULL, 0, 0};
    for (size_t i = 0; i < out->swaps.count; i++)
        if (swaps_lack(&out->swaps.items[i], out->larder, &notices))
            keep_told(&k, out->swaps.items[i].path, &notices);
    const struct serves_asked asked = {&out->serves, out->larder,    out->words,
                                       &out->limits, &out->measures, out->site.measures};
    serves_settle(a, &asked, keep_told, &k);
    label_settle_serves(a, out->larder, &out->limits, keep_told, &k);
}

bool
tables_load(struct arena *a, const struct table_layers *layers, const char *folder,
            struct tables *out, struct failure *f)
{
    struct build b;
    memset(&b, 0, sizeof b);
    struct arena *scratch = arena_open((size_t)1 << 16);
    if (scratch == NULL)
        return failure_say(f, "there is no memory for the tables");
    if (setjmp(*arena_guard(scratch)) != 0) {
        arena_close(scratch);
        return failure_say(f, "there is no memory for the tables");
    }
    bool loaded = table_files_list(scratch, layers, &b.files, f) &&
                  load_parts(a, scratch, &b, layers, folder, f);
    if (loaded)
        join(a, b.parts[PART_FOODS], b.parts[PART_RULES], out);
    arena_close(scratch);
    if (!loaded)
        return false;
    if (out->measures.region_count == 0 || out->limits.phase_count == 0)
        return failure_say(f, "the tables in %s have no measures or no limits",
                           layers->folders[layers->count - 1]);
    return true;
}
