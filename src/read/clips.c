#include "read/clips.h"

#include "base/list.h"
#include "read/duration.h"
#include "read/nearest.h"
#include "read/yaml_value.h"

const char *const clip_keys[] = {"at", "name", "step", "dish", NULL};

/* digits at `*at`, at most `most` of them; false when there is none */
static bool
read_digits(struct slice s, size_t *at, size_t most, double *out)
{
    size_t from = *at;
    *out = 0;
    while (*at < s.length && s.at[*at] >= '0' && s.at[*at] <= '9' && *at - from < most)
        *out = *out * 10 + (s.at[(*at)++] - '0');
    return *at > from;
}

/* "8:12" or "1:02:03": hours and minutes of any number, what follows of two digits under 60 */
static bool
read_clock(struct slice s, double *seconds)
{
    size_t at = 0, fields = 1;
    if (!read_digits(s, &at, 4, seconds))
        return false;
    for (; at < s.length && s.at[at] == ':' && fields < 3; fields++) {
        double field;
        const size_t from = ++at;
        if (!read_digits(s, &at, 2, &field) || at - from != 2 || field >= 60)
            return false;
        *seconds = *seconds * 60 + field;
    }
    return at == s.length && fields > 1;
}

bool
clips_time(struct arena *a, const struct word_lists *lists, struct slice text, double *seconds)
{
    struct span span;
    double number;
    size_t at = 0;
    if (read_clock(text, seconds))
        return true;
    if (read_digits(text, &at, 5, &number) && at == text.length) { /* "0", or seconds alone */
        *seconds = number;
        return true;
    }
    if (!duration_read(a, lists, text, &span) || span.low < span.high)
        return false;
    *seconds = span.mid;
    return true;
}

static void
read_step(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
          struct clip *out)
{
    double number;
    if (yaml_number(value, &number) && number >= 1 && number <= 10000 &&
        number == (double)(size_t)number) {
        out->step = front_part(value, 0, value->text.length);
        out->step_number = (size_t)number;
    } else {
        front_wrong_type(r, key, value, "the number of a step, from 1");
    }
}

static void
read_clip_key(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
              struct clip *out)
{
    if (slice_is(key->text, "at")) {
        if (front_text(r, key, value, &out->at) &&
            !clips_time(r->arena, r->lists, out->at.text, &out->seconds)) {
            front_unreadable(r, &out->at, "a time from the video's start, such as 0:42 or 1:02:03");
            out->at.text = SLICE("");
        }
    } else if (slice_is(key->text, "name")) {
        front_text(r, key, value, &out->name);
    } else if (slice_is(key->text, "dish")) {
        front_text(r, key, value, &out->dish);
    } else if (slice_is(key->text, "step")) {
        read_step(r, key, value, out);
    } else {
        const char *near = nearest_word(key->text, clip_keys);
        notice_add(r->notices, RULE_KEY_UNKNOWN, key->place, key->text,
                   near != NULL ? text_formatted(r->arena, "; did you mean “%s”?", near)
                                : SLICE(""));
    }
}

void
clips_read(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
           struct clip_list *out)
{
    if (front_nothing(value))
        return;
    if (value->kind != YAML_LIST_NODE) {
        front_wrong_type(r, key, value, "a list of clips, such as [{at: 0:42, name: The batter}]");
        return;
    }
    for (size_t i = 0; i < value->count; i++) {
        const struct yaml_node *node = value->items[i];
        struct clip clip = {0};
        if (i == CLIPS_MOST) {
            front_wrong_type(r, key, node, "at most 500 clips; the others are left out");
            return;
        }
        if (node->kind != YAML_MAP_NODE) {
            front_wrong_type(r, key, node, "a clip, such as {at: 0:42, name: The batter}");
            continue;
        }
        for (size_t k = 0; k < node->count; k++)
            read_clip_key(r, yaml_key(node, k), yaml_value(node, k), &clip);
        if (clip.at.text.length > 0 && clip.name.text.length > 0)
            *LIST_GROW(r->arena, out) = clip;
        else if (yaml_get(node, "at") == NULL || clip.name.text.length == 0)
            front_wrong_type(r, key, node,
                             "a clip with its time and its name: {at: 0:42, name: ...}");
    }
}
