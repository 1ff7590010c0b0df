#include "read/front_value.h"

#include "base/list.h"
#include "read/iso_date.h"
#include "read/link.h"
#include "read/yaml_source.h"
#include "read/yaml_value.h"

void
front_wrong_type(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
                 const char *should)
{
    notice_add(r->notices, RULE_VALUE_WRONG_TYPE, value->place, key->text, slice_of(should));
}

void
front_unreadable(struct front_reader *r, const struct front_value *front_value, const char *as)
{
    notice_add(r->notices, RULE_VALUE_UNREADABLE, front_value->place, front_value->text,
               slice_of(as));
}

bool
front_nothing(const struct yaml_node *node)
{
    return node->kind == YAML_SCALAR_NODE && !node->quoted &&
           (node->text.length == 0 || slice_is(node->text, "~") || slice_is(node->text, "null"));
}

struct front_value
front_part(const struct yaml_node *node, size_t from, size_t to)
{
    struct slice whole = slice_part(node->text, from, to), text = slice_trim(whole);
    if (text.length == node->text.length)
        return (struct front_value){text, node->place};
    from += text.length > 0 ? (size_t)(text.at - whole.at) : 0;
    return (struct front_value){text, yaml_place_in(node, from, from + text.length)};
}

bool
front_text(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
           struct front_value *out)
{
    if (value->kind != YAML_SCALAR_NODE) {
        front_wrong_type(r, key, value, "a text");
        return false;
    }
    if (front_nothing(value))
        return false;
    *out = front_part(value, 0, value->text.length);
    return out->text.length > 0;
}

void
front_words(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
            struct front_value *out)
{
    front_text(r, key, value, out);
}

void
front_address(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
              struct front_value *out)
{
    struct front_value front_value = {0};
    if (!front_text(r, key, value, &front_value))
        return;
    if (link_is_safe(front_value.text))
        *out = front_value;
    else
        front_unreadable(r, &front_value, "an address (https, http or relative)");
}

void
front_date(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
           struct front_value *out)
{
    struct front_value front_value = {0};
    if (!front_text(r, key, value, &front_value))
        return;
    if (iso_date_valid(front_value.text))
        *out = front_value;
    else
        front_unreadable(r, &front_value,
                         "a date, such as 2026-03-14 or 2026-03-14T09:30:00+13:00");
}

enum { LIST_MOST = 200 }; /* no post claims, gathers or names more */

void
front_list_read(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
                struct front_list *out)
{
    if (value->kind == YAML_MAP_NODE) {
        front_wrong_type(r, key, value, "a list of texts");
        return;
    }
    if (value->kind == YAML_LIST_NODE) {
        for (size_t i = 0; i < value->count; i++) {
            struct front_value front_value = {0};
            if (i == LIST_MOST) {
                front_wrong_type(r, key, value->items[i],
                                 "a list of at most 200; the others are left out");
                return;
            }
            if (front_text(r, key, value->items[i], &front_value))
                *LIST_GROW(r->arena, out) = front_value;
        }
        return;
    }
    if (front_nothing(value))
        return;
    for (size_t from = 0; from <= value->text.length;) {
        size_t to = slice_find_byte(value->text, ',', from);
        if (to == SIZE_MAX)
            to = value->text.length;
        struct front_value front_value = front_part(value, from, to);
        if (out->count == LIST_MOST) {
            front_wrong_type(r, key, value, "a list of at most 200; the others are left out");
            return;
        }
        if (front_value.text.length > 0)
            *LIST_GROW(r->arena, out) = front_value;
        from = to + 1;
    }
}
