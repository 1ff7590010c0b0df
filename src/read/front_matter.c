#include "read/front_matter.h"

#include <string.h>

#include "base/list.h"
#include "read/amount.h"
#include "read/duration.h"
#include "read/front_ingredients.h"
#include "read/front_value.h"
#include "read/phrase.h"
#include "read/yaml_source.h"
#include "read/yaml_value.h"

const char *const front_matter_keys[] = {
    "title",    "summary",  "author",     "slug",        "language",  "category",
    "cuisine",  "storage",  "published",  "updated",     "measures",  "yield",
    "portion",  "portions", "serves",     "ingredients", "times",     "claims",
    "keywords", "image",    "video",      "answers",     "equipment", "draft",
    "gathers",  "dishes",   "eaten-with", "reviewed",    NULL};
const char *const front_matter_dish_keys[] = {"summary",  "measures",    "yield",     "portion",
                                              "portions", "serves",      "times",     "claims",
                                              "storage",  "ingredients", "equipment", NULL};
const char *const front_matter_time_keys[] = {"prep", "cook", "rest", "total", NULL};
const char *const front_matter_image_keys[] = {"file", "alt", "credit", "width", "height", NULL};
const char *const front_matter_video_keys[] = {"url",      "name",   "description", "thumbnail",
                                               "uploaded", "length", "clips",       NULL};

/* the key of ours that a habit stands for here, of "title or food"; NULL: none of them */
static const char *
one_among(const char *keys, const char *const *known)
{
    for (struct slice rest = slice_of(keys); rest.length > 0;) {
        const size_t end = slice_find(rest, " or ", 0);
        for (size_t i = 0; known[i] != NULL; i++)
            if (slice_is(slice_part(rest, 0, end), known[i]))
                return known[i];
        rest = slice_part(rest, end == SIZE_MAX ? rest.length : end + 4, rest.length);
    }
    return NULL;
}

struct reader {
    struct front_reader values;
    struct front_matter *out;
};

void
front_matter_unknown_key(const struct front_reader *r, const struct yaml_node *key,
                         const char *const *known)
{
    const struct word_list *habits = word_lists_get(r->lists, WORDS_KEYS_FROM_HABIT);
    const char *near = NULL;
    for (size_t i = 0; i < habits->count && near == NULL; i++)
        if (slice_is_anycase(key->text, habits->words[i]))
            near = one_among(habits->values[i].text, known);
    if (near == NULL)
        near = nearest_word(key->text, known);
    notice_add(r->notices, RULE_KEY_UNKNOWN, key->place, key->text,
               near != NULL ? text_formatted(r->arena, "; did you mean “%s”?", near) : SLICE(""));
}

/* whether words behind the number of portions leave it as it is: "people", "as a main, 6 as a side"
 */
static bool
says_portions(const struct word_lists *lists, struct slice rest)
{
    static const char *const mores[] = {"as ", ",", "(", "or ", "generously", "with "};
    const size_t eaters = phrase_at(lists, WORDS_EATERS, rest, 0, NULL);
    rest = slice_trim(slice_part(rest, eaters, rest.length));
    for (size_t i = 0; i < sizeof mores / sizeof *mores; i++)
        if (slice_is_anycase(slice_part(rest, 0, strlen(mores[i])), mores[i]))
            return true;
    return rest.length == 0;
}

static void
read_portions(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    struct front_value front_value = {0};
    if (!front_text(&r->values, key, value, &front_value))
        return;
    if (r->out->portions.text.length > 0) {
        notice_add(r->values.notices, RULE_KEY_TWICE, key->place, key->text, SLICE(""));
        return;
    }
    struct span number;
    bool about;
    size_t n = amount_number(r->values.lists, front_value.text, 0, &number, &about);
    struct slice rest = slice_trim(slice_part(front_value.text, n, front_value.text.length));
    if (n > 0 && number.low > 0 && says_portions(r->values.lists, rest)) {
        r->out->portions =
            (struct front_value){slice_trim(slice_part(front_value.text, 0, n)), front_value.place};
        return;
    }
    front_unreadable(&r->values, &front_value, "a number of portions, such as 6 or 4-6");
}

static void
read_ingredients(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    front_ingredients_read(&r->values, key, value, &r->out->parts, &r->out->part_count);
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
            front_matter_unknown_key(&r->values, which, front_matter_time_keys);
            continue;
        }
        struct front_value front_value = {0};
        if (!front_text(&r->values, which, yaml_value(value, i), &front_value))
            continue;
        struct span seconds;
        if (duration_read(r->values.arena, r->values.lists, front_value.text, &seconds))
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
            front_matter_unknown_key(&r->values, which, front_matter_image_keys);
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
    if (clips_time(r->values.arena, r->values.lists, out->video_length.text, &out->video_seconds) &&
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
            front_matter_unknown_key(&r->values, which, front_matter_video_keys);
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
read_reviewed(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    review_read(&r->values, key, value, &r->out->reviewed);
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

static void read_dishes(struct reader *r, const struct yaml_node *key,
                        const struct yaml_node *value);

static void
read_key(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    static const struct {
        const char *key;
        void (*read)(struct reader *, const struct yaml_node *, const struct yaml_node *);
    } readers[] = {
        {"portions", read_portions}, {"serves", read_portions}, {"ingredients", read_ingredients},
        {"times", read_times},       {"image", read_image},     {"video", read_video},
        {"answers", read_answers},   {"draft", read_draft},     {"dishes", read_dishes},
        {"reviewed", read_reviewed},
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
    else if (slice_is(key->text, "gathers"))
        front_list_read(&r->values, key, value, &out->gathers);
    else if (slice_is(key->text, "eaten-with"))
        front_list_read(&r->values, key, value, &out->eaten_with);
    else if (slice_is(key->text, "keywords"))
        front_list_read(&r->values, key, value, &out->keywords);
    else if (slice_is(key->text, "equipment"))
        front_list_read(&r->values, key, value, &out->equipment);
    else if (!read_plain(r, key, value))
        front_matter_unknown_key(&r->values, key, front_matter_keys);
}

/* one dish of a round-up: the keys that a dish may have of its own */
static struct front_matter *
read_dish(struct reader *r, const struct yaml_node *map)
{
    struct reader dish = {r->values, arena_take_array(r->values.arena, 1, sizeof *dish.out)};
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *key = yaml_key(map, i);
        bool known = false;
        for (size_t k = 0; front_matter_dish_keys[k] != NULL; k++)
            known = known || slice_is(key->text, front_matter_dish_keys[k]);
        if (known)
            read_key(&dish, key, yaml_value(map, i));
        else
            front_matter_unknown_key(&r->values, key, front_matter_dish_keys);
    }
    return dish.out;
}

enum { DISHES_MOST = 100 };

static void
read_dishes(struct reader *r, const struct yaml_node *key, const struct yaml_node *value)
{
    struct front_matter *out = r->out;
    if (front_nothing(value))
        return;
    if (value->kind != YAML_MAP_NODE) {
        front_wrong_type(&r->values, key, value, "a map from a dish's name to its own keys");
        return;
    }
    out->dishes = arena_take_array(r->values.arena, value->count, sizeof *out->dishes);
    for (size_t i = 0; i < value->count; i++) {
        const struct yaml_node *name = yaml_key(value, i), *map = yaml_value(value, i);
        if (i == DISHES_MOST) {
            front_wrong_type(&r->values, key, name, "at most 100 dishes; the others are left out");
            return;
        }
        if (map->kind != YAML_MAP_NODE)
            front_wrong_type(&r->values, name, map, "a map with its own portions and ingredients");
        else
            out->dishes[out->dish_count++] =
                (struct front_dish){front_part(name, 0, name->text.length), read_dish(r, map)};
    }
}

static void
inherit_value(struct front_value *own, const struct front_value *of_post)
{
    if (own->text.length == 0)
        *own = *of_post;
}

/* what the post says once holds for each of its dishes */
static void
inherit(const struct front_matter *post, struct front_dish *dish)
{
    struct front_matter *own = dish->front;
    own->title = dish->name;
    inherit_value(&own->measures, &post->measures);
    inherit_value(&own->author, &post->author);
    inherit_value(&own->language, &post->language);
    inherit_value(&own->published, &post->published);
    inherit_value(&own->updated, &post->updated);
    inherit_value(&own->category, &post->category);
    inherit_value(&own->cuisine, &post->cuisine);
}

/* tells of what nothing can be reckoned without */
static void
check_dish(const struct front_matter *f, struct place place, struct notices *notices)
{
    if (f->part_count == 0)
        notice_add(notices, RULE_INGREDIENTS_MISSING, place, SLICE(""), SLICE(""));
    if (f->portions.text.length == 0 && f->yield.text.length == 0) /* else as the yield is read */
        notice_add(notices, RULE_YIELD_MISSING, place, SLICE(""), SLICE(""));
}

void
front_matter_read(struct arena *a, const struct word_lists *lists, const struct yaml_node *map,
                  struct notices *notices, struct front_matter *out)
{
    struct reader r = {{a, lists, notices}, out};
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
    for (size_t i = 0; i < out->dish_count; i++) {
        inherit(out, &out->dishes[i]);
        check_dish(out->dishes[i].front, out->dishes[i].name.place, notices);
    }
    if (front_matter_round_up(out))
        return;
    if (yaml_get(map, "portions") == NULL && yaml_get(map, "serves") == NULL)
        check_dish(out, whole, notices);
    else if (out->part_count == 0)
        notice_add(notices, RULE_INGREDIENTS_MISSING, whole, SLICE(""), SLICE(""));
}
