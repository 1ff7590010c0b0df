#include "tables/site.h"

#include <string.h>

#include "read/iso_date.h"
#include "read/language_tag.h"
#include "read/link.h"
#include "read/yaml_value.h"
#include "tables/row.h"

static const char *const fragment_keys[] = {
    "title",      "description",   "address",      "author",        "author-url",
    "language",   "fragment-path", "images-path",  "tag-authority", "tag-date",
    "licence",    "measures",      "regions",      "regions-apart", "phase",
    "microwaves", "fan-lower",     "room-celsius", "feed-entries",  NULL};

/* settings that are plain texts */
static const char **
text_setting(struct site *s, struct slice key)
{
    const struct {
        const char *key;
        const char **at;
    } rows[] = {
        {"title", &s->title},
        {"description", &s->description},
        {"address", &s->address},
        {"author", &s->author},
        {"author-url", &s->author_url},
        {"language", &s->language},
        {"fragment-path", &s->fragment_path},
        {"images-path", &s->images_path},
        {"tag-authority", &s->tag_authority},
        {"tag-date", &s->tag_date},
        {"licence", &s->licence},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (slice_is(key, rows[i].key))
            return rows[i].at;
    return NULL;
}

static const char **
region_ids(struct row *row, const struct measures *m)
{
    const char **ids = arena_take_array(row->arena, REGIONS_MOST + 1, sizeof *ids);
    for (size_t i = 0; i < m->region_count; i++)
        ids[i] = m->regions[i].id;
    return ids;
}

static void
take_measures(const struct yaml_node *value, const struct measures *measures, struct row *row,
              struct site *s)
{
    int region = measures_region(measures, value->text);
    if (region < 0)
        row_word_unknown(row, value, "the setting", "region", region_ids(row, measures));
    else
        s->measures = region;
}

static void
take_regions(const struct yaml_node *value, const struct measures *measures, struct row *row,
             struct site *s)
{
    if (value->kind != YAML_LIST_NODE || value->count == 0) {
        row_wants(row, value, "the setting", "a list of regions", "regions: [uk, us, metric]");
        return;
    }
    size_t count = 0;
    int regions[REGIONS_MOST];
    for (size_t i = 0; i < value->count; i++) {
        const struct yaml_node *one = value->items[i];
        int region = measures_region(measures, one->text);
        bool twice = false;
        for (size_t k = 0; k < count; k++)
            twice = twice || regions[k] == region;
        if (region < 0)
            row_word_unknown(row, one, "the setting", "region", region_ids(row, measures));
        else if (twice || count == REGIONS_MOST)
            row_wrong(row, one, "Keep one of the two.", "%s is listed twice",
                      measures->regions[region].id);
        else
            regions[count++] = region;
    }
    if (count > 0) {
        memcpy(s->regions, regions, count * sizeof *regions);
        s->region_count = count;
    }
}

static void
take_watts(const struct yaml_node *value, struct row *row, struct site *s)
{
    enum { MOST = sizeof s->watts / sizeof *s->watts };
    double watts[MOST];
    size_t count = 0;
    if (value->kind != YAML_LIST_NODE || value->count > MOST) {
        row_wants(row, value, "the setting", "a list of up to 8 powers in watts",
                  "microwaves: [600, 800, 1000]");
        return;
    }
    for (; count < value->count; count++)
        if (!row_number(row, value->items[count], "a power", 50, 5000, &watts[count]))
            return;
    memcpy(s->watts, watts, count * sizeof *watts);
    s->watt_count = count;
}

static void
take_phase(const struct yaml_node *value, const struct limits *limits, struct row *row,
           struct site *s)
{
    const char *known[PHASES_MOST + 1] = {NULL};
    for (size_t i = 0; i < limits->phase_count; i++)
        known[i] = limits->phases[i].id;
    int phase = limits_phase(limits, value->text);
    if (phase < 0)
        row_word_unknown(row, value, "the setting", "phase of the limits", known);
    else
        s->phase = phase;
}

/* empty, while the site has none */
static bool
is_site_address(struct slice text)
{
    return text.length == 0 || ((slice_begins(text, "https://") || slice_begins(text, "http://")) &&
                                link_is_safe(text));
}

/* RFC 4151: a year, a month or a day */
static bool
is_tag_date(struct slice text)
{
    char day[] = "0000-01-01";
    if (text.length != 4 && text.length != 7 && text.length != 10)
        return false;
    memcpy(day, text.at, text.length);
    return iso_date_valid(slice_of(day));
}

/* RFC 4151: a domain or a mailbox */
static bool
is_tag_authority(struct slice text)
{
    for (size_t i = 0; i < text.length; i++) {
        char c = text.at[i];
        if (!((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') ||
              c == '.' || c == '-' || c == '_' || (c == '@' && i > 0)))
            return false;
    }
    return text.length > 0;
}

/* what a text says beyond being one */
static bool
check_text(const struct yaml_node *value, struct slice key, struct row *row)
{
    struct slice text = value->text;
    const char *front_value = row_said(row->arena, value);
    if ((slice_is(key, "address") || slice_is(key, "author-url") || slice_is(key, "licence")) &&
        !is_site_address(text))
        return row_wrong(row, value, "Write the whole address, as https://example.org/, or \"\".",
                         "%s is no address that begins with https:// or http://", front_value);
    if (slice_is(key, "language") && !language_tag_valid(text))
        return row_wrong(row, value,
                         "Write a tag as RFC 5646 (BCP 47) has it: en, en-GB, pt-BR, zh-Hant.",
                         "%s is no language tag", front_value);
    if (slice_is(key, "tag-date") && !is_tag_date(text))
        return row_wrong(row, value, "Write the year since when the name is yours, as \"2026\".",
                         "%s is no date", front_value);
    if (slice_is(key, "tag-authority") && !is_tag_authority(text))
        return row_wrong(row, value, "Write a domain or a mailbox of yours, as example.org.",
                         "%s is no domain and no mailbox", front_value);
    if (slice_is(key, "fragment-path") && slice_find(text, "{slug}", 0) == SIZE_MAX)
        return row_wrong(row, value, "Put {slug} where a post's slug stands: recipes/{slug}.html.",
                         "%s has no {slug}, so all posts would have one address", front_value);
    return true;
}

/* settings that are neither texts nor in need of the other tables */
static void
take_plain(const struct yaml_node *key, const struct yaml_node *value, struct row *row,
           struct site *s)
{
    double n;
    if (slice_is(key->text, "microwaves"))
        take_watts(value, row, s);
    else if (slice_is(key->text, "regions-apart"))
        row_truth(row, value, "the setting", &s->regions_apart);
    else if (slice_is(key->text, "fan-lower"))
        row_number(row, value, "the setting", 0, 60, &s->fan_lower);
    else if (slice_is(key->text, "room-celsius"))
        row_number(row, value, "the setting", -10, 60, &s->room_celsius);
    else if (!slice_is(key->text, "feed-entries"))
        row_key_unknown(row, key, "the settings of a site", fragment_keys);
    else if (row_number(row, value, "the setting", 1, 10000, &n))
        s->feed_entries = (size_t)n;
}

static void
take_setting(const struct yaml_node *key, const struct yaml_node *value,
             const struct measures *measures, const struct limits *limits, struct row *row,
             struct site *s)
{
    const char **text = text_setting(s, key->text);
    if (text != NULL) {
        if (value->kind != YAML_SCALAR_NODE)
            row_wants(row, value, "the setting", "a text", "a text, or \"\" for none");
        else if (check_text(value, key->text, row))
            *text = slice_string(row->texts, value->text);
    } else if (slice_is(key->text, "measures")) {
        take_measures(value, measures, row, s);
    } else if (slice_is(key->text, "regions")) {
        take_regions(value, measures, row, s);
    } else if (slice_is(key->text, "phase")) {
        take_phase(value, limits, row, s);
    } else {
        take_plain(key, value, row, s);
    }
}

/* what holds before any layer has spoken */
static void
begin(struct site *s)
{
    *s = (struct site){.title = "Untitled kitchen",
                       .description = "",
                       .address = "",
                       .author = "",
                       .author_url = "",
                       .language = "en",
                       .fragment_path = "{slug}.html",
                       .images_path = "images/",
                       .tag_authority = "example.org",
                       .tag_date = "2026",
                       .licence = "",
                       .fan_lower = 20,
                       .room_celsius = 25,
                       .feed_entries = 20};
}

void
site_load(struct arena *a, const struct yaml_node *root, const struct measures *measures,
          const struct limits *limits, struct notices *notices, struct site *out)
{
    if (out->title == NULL)
        begin(out);
    for (size_t i = 0; root->kind == YAML_MAP_NODE && i < root->count; i++) {
        struct row row = {.arena = a, .texts = a, .notices = notices};
        row.entry = yaml_key(root, i)->text;
        row.until = "Until then what held before holds.";
        take_setting(yaml_key(root, i), yaml_value(root, i), measures, limits, &row, out);
    }
}

static uint64_t
site_digest(const struct measures *measures, const struct limits *limits, const struct site *s)
{
    const char *texts[] = {s->title,
                           s->description,
                           s->address,
                           s->author,
                           s->author_url,
                           s->language,
                           s->fragment_path,
                           s->images_path,
                           s->tag_authority,
                           s->tag_date,
                           s->licence,
                           measures->regions[s->measures].id,
                           limits->phases[s->phase].id};
    double numbers[] = {(double)s->regions_apart, s->fan_lower, s->room_celsius,
                        (double)s->feed_entries};
    uint64_t d = slice_digest((struct slice){(const char *)numbers, sizeof numbers}, 0);
    d = slice_digest((struct slice){(const char *)s->watts, s->watt_count * sizeof *s->watts}, d);
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        d = slice_digest(slice_of(texts[i]), d);
    for (size_t i = 0; i < s->region_count; i++)
        d = slice_digest(slice_of(measures->regions[s->regions[i]].id), d);
    return d;
}

void
site_close(struct arena *a, const struct measures *measures, const struct limits *limits,
           struct site *out)
{
    if (out->title == NULL)
        begin(out);
    if (out->region_count == 0)
        out->regions[out->region_count++] = out->measures;
    if (out->address[0] != '\0' && out->address[strlen(out->address) - 1] != '/')
        out->address = text_format(a, "%s/", out->address);
    size_t path = strlen(out->images_path);
    if (path > 0 && out->images_path[path - 1] != '/')
        out->images_path = text_format(a, "%s/", out->images_path);
    reads_entry_name(&out->entry, "site");
    out->entry.digest = site_digest(measures, limits, out);
}
