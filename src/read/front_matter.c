#include "read/front_matter.h"

#include <string.h>

#include "base/list.h"
#include "read/amount.h"
#include "read/duration.h"
#include "read/front_value.h"
#include "read/yaml_source.h"
#include "read/yaml_value.h"

const char *const front_matter_keys[] = {
    "title",   "summary",     "author",  "slug",     "language", "category", "cuisine",
    "storage", "published",   "updated", "measures", "yield",    "portion",  "portions",
    "serves",  "ingredients", "times",   "claims",   "keywords", "image",    "video",
    "answers", "equipment",   "draft",   NULL};
const char *const front_matter_time_keys[] = {"prep", "cook", "rest", "total", NULL};
const char *const front_matter_image_keys[] = {"file", "alt", "credit", "width", "height", NULL};
const char *const front_matter_video_keys[] = {"url",      "name",   "description", "thumbnail",
                                               "uploaded", "length", "clips",       NULL};

/* keys that people write from habit, and ours */
static const char *const habits[][2] = {
    {"servings", "serves"},  {"makes", "yield"},     {"description", "summary"},
    {"date", "published"},   {"tags", "keywords"},   {"name", "title"},
    {"lang", "language"},    {"photo", "image"},     {"picture", "image"},
    {"tools", "equipment"},  {"time", "times"},      {"region", "measures"},
    {"modified", "updated"}, {"lastmod", "updated"}, {"permalink", "slug"},
    {"prep", "times"},       {"cook", "times"},      {"preptime", "times"},
    {"cooktime", "times"},   {"prep time", "times"}, {"cook time", "times"},
    {"total time", "times"}, {"bake", "cook"},       {"baking", "cook"},
    {"preparation", "prep"}, {"chill", "rest"},      {"prove", "rest"},
    {"marinate", "rest"},    {"src", "file"},        {"caption", "alt"},
    {"opt", "optional"},     {"name", "food"},       {"quantity", "amount"},
};

static bool
is_among(const char *word, const char *const *known)
{
    for (; *known != NULL; known++)
        if (strcmp(*known, word) == 0)
            return true;
    return false;
}

struct reader {
    struct front_reader values;
    struct front_matter *out;
};

void
front_matter_unknown_key(struct arena *a, const struct yaml_node *key, const char *const *known,
                         struct notices *notices)
{
    const char *near = NULL;
    for (size_t i = 0; i < sizeof habits / sizeof *habits; i++)
        if (slice_is_anycase(key->text, habits[i][0]) && is_among(habits[i][1], known))
            near = habits[i][1];
    if (near == NULL)
        near = nearest_word(key->text, known);
    notice_add(notices, RULE_KEY_UNKNOWN, key->place, key->text,
               near != NULL ? text_formatted(a, "; did you mean “%s”?", near) : SLICE(""));
}

static void
read_portions(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    static const char *const eaters[] = {"",       "people", "persons", "person",  "portions",
                                         "serves", "adults", "portion", "servings"};
    struct front_value front_value = {0};
    if (!front_text(&r->values, key, value, &front_value))
        return;
    if (r->out->portions.text.length > 0) {
        notice_add(r->values.notices, RULE_KEY_TWICE, key->place, key->text, SLICE(""));
        return;
    }
    struct span number;
    bool about;
    size_t n = amount_number(front_value.text, 0, &number, &about);
    struct slice rest = slice_trim(slice_part(front_value.text, n, front_value.text.length));
    for (size_t i = 0; n > 0 && number.low > 0 && i < sizeof eaters / sizeof *eaters; i++) {
        if (slice_is_anycase(rest, eaters[i])) {
            r->out->portions = (struct front_value){slice_trim(slice_part(front_value.text, 0, n)),
                                                    front_value.place};
            return;
        }
    }
    front_unreadable(&r->values, &front_value, "a number of portions, such as 6 or 4-6");
}

/* a line that YAML folded into the one above, though its writer gave it a dash */
static void
check_runs_on(struct reader *r, const struct yaml_node *line)
{
    /* one that stands in one line has a length */
    if (line->quoted || line->place.length > 0)
        return;
    for (size_t at = 0; at + 1 < line->source.length; at++) {
        if (yaml_break_at(line->source, at) == 0)
            continue;
        while (at + 1 < line->source.length && strchr(" \t\r\n", line->source.at[at]) != NULL)
            at++;
        if (line->source.at[at] != '-' && line->source.at[at] != '*')
            continue;
        struct place place = line->place;
        yaml_place_move(&place, line->source, 0, at);
        size_t end = at;
        while (end < line->source.length && yaml_break_at(line->source, end) == 0)
            end++;
        const struct slice words = slice_trim(slice_part(line->source, at, end));
        place.length = (uint32_t)slice_characters(words);
        notice_add(r->values.notices, RULE_LINE_RUNS_ON, place, words, SLICE(""));
    }
}

/* "- For the base:": a part that was given a dash */
static bool
is_part_in_list(const struct yaml_node *line)
{
    return line->kind == YAML_MAP_NODE && line->count == 1 &&
           !slice_is(yaml_key(line, 0)->text, "or") &&
           (front_nothing(yaml_value(line, 0)) || yaml_value(line, 0)->kind == YAML_LIST_NODE);
}

static void
read_lines(struct reader *r, const struct yaml_node *key, const struct yaml_node *list,
           struct part_lines *out)
{
    out->lines = arena_take_array(r->values.arena, list->count, sizeof(const struct yaml_node *));
    for (size_t i = 0; i < list->count; i++) {
        const struct yaml_node *line = list->items[i];
        if (line->kind == YAML_LIST_NODE)
            front_wrong_type(&r->values, key, line, "a list of lines; a list stands within it");
        else if (front_nothing(line) ||
                 (line->kind == YAML_SCALAR_NODE && slice_trim(line->text).length == 0))
            notice_add(r->values.notices, RULE_LINE_UNREADABLE, line->place, SLICE("nothing"),
                       SLICE(""));
        else if (is_part_in_list(line))
            front_wrong_type(&r->values, yaml_key(line, 0), yaml_key(line, 0),
                             "a key without a dash, if it is a part, with its own lines below it");
        else
            out->lines[out->count++] = line;
        if (line->kind == YAML_SCALAR_NODE)
            check_runs_on(r, line);
    }
}

static void
read_ingredients(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    struct front_matter *out = r->out;
    if (front_nothing(value))
        return;
    if (value->kind == YAML_SCALAR_NODE) {
        front_wrong_type(
            &r->values, key, value,
            "a list of lines, each with a dash and a space before it, or a map from part to "
            "list");
        return;
    }
    bool one = value->kind == YAML_LIST_NODE;
    size_t parts = one ? 1 : value->count;
    out->parts = arena_take_array(r->values.arena, parts, sizeof *out->parts);
    for (size_t i = 0; i < parts; i++) {
        struct part_lines *part = &out->parts[out->part_count];
        const struct yaml_node *list = one ? value : yaml_value(value, i);
        if (list->kind != YAML_LIST_NODE) {
            front_wrong_type(&r->values, yaml_key(value, i), list, "a list of lines");
            continue;
        }
        if (!one)
            part->name = front_part(yaml_key(value, i), 0, yaml_key(value, i)->text.length);
        read_lines(r, key, list, part);
        out->part_count += part->count > 0;
    }
}

static void
read_times(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    struct front_matter *out = r->out;
    struct front_time *times[] = {&out->prep, &out->cook, &out->rest, &out->total};
    if (value->kind != YAML_MAP_NODE) {
        if (!front_nothing(value))
            front_wrong_type(
                &r->values, key, value,
                "a map of prep, cook, rest and total, such as {prep: 15 min, cook: 40 min}");
        return;
    }
    for (size_t i = 0; i < value->count; i++) {
        const struct yaml_node *which = yaml_key(value, i);
        size_t k = 0;
        while (front_matter_time_keys[k] != NULL &&
               !slice_is(which->text, front_matter_time_keys[k]))
            k++;
        if (front_matter_time_keys[k] == NULL) {
            front_matter_unknown_key(r->values.arena, which, front_matter_time_keys,
                                     r->values.notices);
            continue;
        }
        struct front_value front_value = {0};
        if (!front_text(&r->values, which, yaml_value(value, i), &front_value))
            continue;
        struct span seconds;
        if (duration_read(r->values.arena, front_value.text, &seconds))
            *times[k] = (struct front_time){true, seconds, front_value};
        else
            front_unreadable(&r->values, &front_value,
                             "a time with its unit, such as 15 min or 1 h 30 min");
    }
}

static void
read_pixels(struct reader *r, const struct yaml_node *key, const struct yaml_node *value,
            double *out)
{
    double number;
    if (yaml_number(value, &number) && number >= 1 && number <= 1e6 &&
        number == (double)(long)number)
        *out = number;
    else
        front_wrong_type(&r->values, key, value, "a whole number of pixels");
}

static void
read_image(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    struct front_matter *out = r->out;
    struct front_value *texts[] = {&out->image_file, &out->image_alt, &out->image_credit};
    double *sizes[] = {&out->image_width, &out->image_height};
    if (value->kind == YAML_SCALAR_NODE) {
        front_address(&r->values, key, value, &out->image_file);
        return;
    }
    if (value->kind != YAML_MAP_NODE) {
        front_wrong_type(&r->values, key, value, "a map of file, alt and more");
        return;
    }
    bool known = true, filed = false;
    for (size_t i = 0; i < value->count; i++) {
        const struct yaml_node *which = yaml_key(value, i);
        size_t k = 0;
        while (front_matter_image_keys[k] != NULL &&
               !slice_is(which->text, front_matter_image_keys[k]))
            k++;
        known = known && front_matter_image_keys[k] != NULL;
        filed = filed || k == 0;
        if (front_matter_image_keys[k] == NULL)
            front_matter_unknown_key(r->values.arena, which, front_matter_image_keys,
                                     r->values.notices);
        else if (k == 0)
            front_address(&r->values, which, yaml_value(value, i), texts[k]);
        else if (k < 3)
            front_text(&r->values, which, yaml_value(value, i), texts[k]);
        else
            read_pixels(r, which, yaml_value(value, i), sizes[k - 3]);
    }
    if (known && !filed) /* else the unknown key is the file, misspelt */
        front_wrong_type(&r->values, key, value,
                         "a map with a file, such as {file: plate.jpg, alt: ...}");
}

/* the length, or the clips, by the number of their key behind the others */
static void
read_video_times(struct reader *r, bool clips, const struct yaml_node *key,
                 const struct yaml_node *value)
{
    struct front_matter *out = r->out;
    if (clips) {
        clips_read(&r->values, key, value, &out->clips);
        return;
    }
    if (!front_text(&r->values, key, value, &out->video_length))
        return;
    if (clip_time(r->values.arena, out->video_length.text, &out->video_seconds) &&
        out->video_seconds > 0)
        return;
    front_unreadable(&r->values, &out->video_length, "the video's length, such as 8:12 or 1:02:03");
    out->video_seconds = 0;
}

static void
read_video(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    struct front_matter *out = r->out;
    const struct {
        struct front_value *front_value;
        void (*read)(struct front_reader *, const struct yaml_node *, const struct yaml_node *,
                     struct front_value *);
    } readers[] = {
        {&out->video_url, front_address},       {&out->video_name, front_words},
        {&out->video_description, front_words}, {&out->video_thumbnail, front_address},
        {&out->video_uploaded, front_date},
    };
    if (value->kind != YAML_MAP_NODE) {
        if (!front_nothing(value))
            front_wrong_type(&r->values, key, value, "a map of url, name and more");
        return;
    }
    for (size_t i = 0; i < value->count; i++) {
        const struct yaml_node *which = yaml_key(value, i);
        size_t k = 0;
        while (front_matter_video_keys[k] != NULL &&
               !slice_is(which->text, front_matter_video_keys[k]))
            k++;
        if (front_matter_video_keys[k] == NULL)
            front_matter_unknown_key(r->values.arena, which, front_matter_video_keys,
                                     r->values.notices);
        else if (k >= sizeof readers / sizeof *readers)
            read_video_times(r, k > sizeof readers / sizeof *readers, which, yaml_value(value, i));
        else
            readers[k].read(&r->values, which, yaml_value(value, i), readers[k].front_value);
    }
}

static void
read_answers(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    struct front_matter *out = r->out;
    if (value->kind != YAML_MAP_NODE) {
        if (!front_nothing(value))
            front_wrong_type(&r->values, key, value, "a map from rule to reason");
        return;
    }
    out->answers = arena_take_array(r->values.arena, value->count, sizeof *out->answers);
    for (size_t i = 0; i < value->count; i++) {
        struct answer answer = {0};
        const struct yaml_node *rule = yaml_key(value, i), *reason = yaml_value(value, i);
        answer.rule = front_part(rule, 0, rule->text.length);
        if (reason->kind == YAML_SCALAR_NODE && slice_trim(reason->text).length > 0 &&
            front_text(&r->values, rule, reason, &answer.reason))
            out->answers[out->answer_count++] = answer;
        else
            front_wrong_type(&r->values, rule, reason, "answered with a reason");
    }
}

static void
read_draft(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    if (!front_nothing(value) && !yaml_truth(value, &r->out->draft))
        front_wrong_type(&r->values, key, value, "yes or no");
}

/* keys whose value is one text, in the order of their names */
static bool
read_plain(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    struct front_matter *out = r->out;
    const struct {
        const char *key;
        struct front_value *front_value;
    } texts[] = {
        {"author", &out->author},     {"category", &out->category}, {"cuisine", &out->cuisine},
        {"language", &out->language}, {"measures", &out->measures}, {"portion", &out->portion},
        {"slug", &out->slug},         {"storage", &out->storage},   {"summary", &out->summary},
        {"title", &out->title},       {"yield", &out->yield},
    };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        if (slice_is(key->text, texts[i].key)) {
            front_text(&r->values, key, value, texts[i].front_value);
            return true;
        }
    }
    return false;
}

static void
read_key(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    static const struct {
        const char *key;
        void (*read)(struct reader *, const struct yaml_node *, const struct yaml_node *);
    } readers[] = {
        {"portions", read_portions}, {"serves", read_portions}, {"ingredients", read_ingredients},
        {"times", read_times},       {"image", read_image},     {"video", read_video},
        {"answers", read_answers},   {"draft", read_draft},
    };
    struct front_matter *out = r->out;
    for (size_t i = 0; i < sizeof readers / sizeof *readers; i++) {
        if (slice_is(key->text, readers[i].key)) {
            readers[i].read(r, key, value);
            return;
        }
    }
    if (slice_is(key->text, "published"))
        front_date(&r->values, key, value, &out->published);
    else if (slice_is(key->text, "updated"))
        front_date(&r->values, key, value, &out->updated);
    else if (slice_is(key->text, "claims"))
        front_list_read(&r->values, key, value, &out->claims);
    else if (slice_is(key->text, "keywords"))
        front_list_read(&r->values, key, value, &out->keywords);
    else if (slice_is(key->text, "equipment"))
        front_list_read(&r->values, key, value, &out->equipment);
    else if (!read_plain(r, key, value))
        front_matter_unknown_key(r->values.arena, key, front_matter_keys, r->values.notices);
}

void
front_matter_read(struct arena *a, const struct yaml_node *map, struct notices *notices,
                  struct front_matter *out)
{
    struct reader r = {{a, notices}, out};
    *out = (struct front_matter){0};
    if (map->kind != YAML_MAP_NODE) {
        notice_add(notices, RULE_VALUE_WRONG_TYPE, map->place, SLICE("front matter"),
                   SLICE("keys and values, such as title: ..."));
        return;
    }
    for (size_t i = 0; i < map->count; i++)
        read_key(&r, yaml_key(map, i), yaml_value(map, i));
    struct place whole = {1, 0, 0};
    if (out->title.text.length == 0)
        notice_add(notices, RULE_TITLE_MISSING, whole, SLICE(""), SLICE(""));
    if (out->part_count == 0)
        notice_add(notices, RULE_INGREDIENTS_MISSING, whole, SLICE(""), SLICE(""));
    bool known = yaml_get(map, "portions") != NULL || yaml_get(map, "serves") != NULL;
    if (!known && (out->yield.text.length == 0 || out->portion.text.length == 0))
        notice_add(notices, RULE_YIELD_MISSING,
                   out->yield.text.length > 0 ? out->yield.place : whole, SLICE(""), SLICE(""));
}
