#include "read/review.h"

#include "read/nearest.h"
#include "read/yaml_value.h"

const char *const review_keys[] = {"by", "on", "digest", NULL};

void
review_read(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
            struct review *out)
{
    if (front_nothing(value))
        return;
    if (value->kind != YAML_MAP_NODE) {
        front_wrong_type(r, key, value, "a map, such as {by: ..., on: 2026-11-01, digest: ...}");
        return;
    }
    for (size_t i = 0; i < value->count; i++) {
        const struct yaml_node *k = yaml_key(value, i), *v = yaml_value(value, i);
        if (slice_is(k->text, "by")) {
            front_text(r, k, v, &out->by);
        } else if (slice_is(k->text, "on")) {
            front_date(r, k, v, &out->on);
        } else if (slice_is(k->text, "digest")) {
            front_text(r, k, v, &out->digest);
        } else {
            const char *near = nearest_word(k->text, review_keys);
            notice_add(r->notices, RULE_KEY_UNKNOWN, k->place, k->text,
                       near != NULL ? text_formatted(r->arena, "; did you mean “%s”?", near)
                                    : SLICE(""));
        }
    }
}
