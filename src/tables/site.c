#include "tables/site.h"

#include <string.h>

#include "base/list.h"
#include "read/link.h"
#include "read/yaml_value.h"

static void
setting_wrong(struct notices *notices, const struct yaml_node *node, struct slice key,
              const char *why)
{
    notice_add(notices, RULE_TABLE_ROW_WRONG, node->place, key, slice_of(why));
}

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

static void
take_measures(const struct yaml_node *key, const struct yaml_node *value,
              const struct measures *measures, struct notices *notices, struct site *s)
{
    int region = measures_region(measures, value->text);
    if (region < 0)
        setting_wrong(notices, value, key->text, "is no region of the measures table");
    else
        s->measures = region;
}

static void
take_regions(const struct yaml_node *key, const struct yaml_node *value,
             const struct measures *measures, struct notices *notices, struct site *s)
{
    if (value->kind != YAML_LIST_NODE || value->count == 0) {
        setting_wrong(notices, value, key->text, "a list of regions is expected");
        return;
    }
    size_t count = 0;
    int regions[REGIONS_MOST];
    for (size_t i = 0; i < value->count; i++) {
        int region = measures_region(measures, value->items[i]->text);
        bool twice = false;
        for (size_t k = 0; k < count; k++)
            twice = twice || regions[k] == region;
        if (region < 0 || twice || count == REGIONS_MOST)
            setting_wrong(notices, value->items[i], key->text,
                          "is no region of the measures table, or is listed twice");
        else
            regions[count++] = region;
    }
    if (count > 0) {
        memcpy(s->regions, regions, count * sizeof *regions);
        s->region_count = count;
    }
}

static void
take_watts(const struct yaml_node *key, const struct yaml_node *value, struct notices *notices,
           struct site *s)
{
    enum { MOST = sizeof s->watts / sizeof *s->watts };
    double watts[MOST];
    size_t count = 0;
    if (value->kind != YAML_LIST_NODE || value->count > MOST) {
        setting_wrong(notices, value, key->text, "a list of up to 8 powers in watts is expected");
        return;
    }
    for (; count < value->count; count++)
        if (!yaml_number(value->items[count], &watts[count]) || watts[count] < 50 ||
            watts[count] > 5000) {
            setting_wrong(notices, value->items[count], key->text,
                          "a power of 50 to 5000 watts is expected");
            return;
        }
    memcpy(s->watts, watts, count * sizeof *watts);
    s->watt_count = count;
}

static void
take_number(const struct yaml_node *key, const struct yaml_node *value, double low, double high,
            struct notices *notices, double *out)
{
    double number;
    if (!yaml_number(value, &number) || number < low || number > high)
        setting_wrong(notices, value, key->text, "is no number, or out of bounds");
    else
        *out = number;
}

/* empty, while the site has none */
static bool
is_site_address(struct slice text)
{
    return text.length == 0 || ((slice_begins(text, "https://") || slice_begins(text, "http://")) &&
                                link_is_safe(text));
}

static void
take_setting(struct arena *a, const struct yaml_node *key, const struct yaml_node *value,
             const struct measures *measures, const struct limits *limits, struct notices *notices,
             struct site *s)
{
    const char **text = text_setting(s, key->text);
    if (text != NULL) {
        if (value->kind != YAML_SCALAR_NODE)
            setting_wrong(notices, value, key->text, "a text is expected");
        else if (slice_is(key->text, "address") && !is_site_address(value->text))
            setting_wrong(notices, value, key->text,
                          "is no address that begins with https:// or http://");
        else
            *text = slice_string(a, value->text);
    } else if (slice_is(key->text, "measures")) {
        take_measures(key, value, measures, notices, s);
    } else if (slice_is(key->text, "regions")) {
        take_regions(key, value, measures, notices, s);
    } else if (slice_is(key->text, "microwaves")) {
        take_watts(key, value, notices, s);
    } else if (slice_is(key->text, "regions-apart")) {
        if (!yaml_truth(value, &s->regions_apart))
            setting_wrong(notices, value, key->text, "is yes or no");
    } else if (slice_is(key->text, "phase")) {
        int phase = limits_phase(limits, value->text);
        if (phase < 0)
            setting_wrong(notices, value, key->text, "is no phase of the limits table");
        else
            s->phase = phase;
    } else if (slice_is(key->text, "fan-lower")) {
        take_number(key, value, 0, 60, notices, &s->fan_lower);
    } else if (slice_is(key->text, "room-celsius")) {
        take_number(key, value, -10, 60, notices, &s->room_celsius);
    } else if (slice_is(key->text, "feed-entries")) {
        double n = (double)s->feed_entries;
        take_number(key, value, 1, 10000, notices, &n);
        s->feed_entries = (size_t)n;
    } else {
        setting_wrong(notices, key, key->text, "is no setting of a site");
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
    for (size_t i = 0; root->kind == YAML_MAP_NODE && i < root->count; i++)
        take_setting(a, yaml_key(root, i), yaml_value(root, i), measures, limits, notices, out);
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
    out->entry = (struct entry){"site", site_digest(measures, limits, out), NULL};
}
