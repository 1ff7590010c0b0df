#include "read/said.h"

#include "base/list.h"
#include "read/iso_date.h"
#include "read/link.h"
#include "read/yaml_value.h"

void
said_wrong_type(struct said_reader *r, const struct yaml_node *key, const struct yaml_node *value,
                const char *should)
{
    notice_add(r->notices, RULE_VALUE_WRONG_TYPE, value->place, key->text, slice_of(should));
}

void
said_unreadable(struct said_reader *r, const struct said *said, const char *as)
{
    notice_add(r->notices, RULE_VALUE_UNREADABLE, said->place, said->text, slice_of(as));
}

bool
said_nothing(const struct yaml_node *node)
{
    return node->kind == YAML_SCALAR_NODE && !node->quoted &&
           (node->text.length == 0 || slice_is(node->text, "~") || slice_is(node->text, "null"));
}

struct said
said_part(const struct yaml_node *node, size_t from, size_t to)
{
    struct slice whole = slice_part(node->text, from, to), text = slice_trim(whole);
    if (text.length == node->text.length)
        return (struct said){text, node->place};
    from += text.length > 0 ? (size_t)(text.at - whole.at) : 0;
    return (struct said){text, yaml_place_in(node, from, from + text.length)};
}

bool
said_text(struct said_reader *r, const struct yaml_node *key, const struct yaml_node *value,
          struct said *out)
{
    if (value->kind != YAML_SCALAR_NODE) {
        said_wrong_type(r, key, value, "a text");
        return false;
    }
    if (said_nothing(value))
        return false;
    *out = said_part(value, 0, value->text.length);
    return out->text.length > 0;
}

void
said_words(struct said_reader *r, const struct yaml_node *key, const struct yaml_node *value,
           struct said *out)
{
    said_text(r, key, value, out);
}

void
said_address(struct said_reader *r, const struct yaml_node *key, const struct yaml_node *value,
             struct said *out)
{
    struct said said = {0};
    if (!said_text(r, key, value, &said))
        return;
    if (link_is_safe(said.text))
        *out = said;
    else
        said_unreadable(r, &said, "an address (https, http or relative)");
}

void
said_date(struct said_reader *r, const struct yaml_node *key, const struct yaml_node *value,
          struct said *out)
{
    struct said said = {0};
    if (!said_text(r, key, value, &said))
        return;
    if (iso_date_valid(said.text))
        *out = said;
    else
        said_unreadable(r, &said, "a date, such as 2026-03-14 or 2026-03-14T09:30:00+13:00");
}

void
said_list_read(struct said_reader *r, const struct yaml_node *key, const struct yaml_node *value,
               struct said_list *out)
{
    if (value->kind == YAML_MAP_NODE) {
        said_wrong_type(r, key, value, "a list of texts");
        return;
    }
    if (value->kind == YAML_LIST_NODE) {
        for (size_t i = 0; i < value->count; i++) {
            struct said said = {0};
            if (said_text(r, key, value->items[i], &said))
                *LIST_GROW(r->arena, out) = said;
        }
        return;
    }
    if (said_nothing(value))
        return;
    for (size_t from = 0; from <= value->text.length;) {
        size_t to = slice_find_byte(value->text, ',', from);
        if (to == SIZE_MAX)
            to = value->text.length;
        struct said said = said_part(value, from, to);
        if (said.text.length > 0)
            *LIST_GROW(r->arena, out) = said;
        from = to + 1;
    }
}
