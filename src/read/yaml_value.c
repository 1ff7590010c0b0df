#include "read/yaml_tree.h"
#include "read/yaml_value.h"

#include <stdlib.h>
#include <string.h>

const struct yaml_node *
yaml_get(const struct yaml_node *map, const char *key)
{
    if (map == NULL || map->kind != YAML_MAP_NODE)
        return NULL;
    struct slice sought = slice_of(key);
    for (size_t i = 0; i < map->count; i++)
        if (slice_equal(map->items[2 * i]->text, sought))
            return map->items[2 * i + 1];
    return NULL;
}

const struct yaml_node *
yaml_key(const struct yaml_node *map, size_t i)
{
    return map->items[2 * i];
}

const struct yaml_node *
yaml_value(const struct yaml_node *map, size_t i)
{
    return map->items[2 * i + 1];
}

/* whether the text is a number of the core schema; then mantissa and decimals when they are exact
 * in a double, else digits = 99 */
static bool
number_scan(struct slice s, double *mantissa, int *decimals, int *digits)
{
    size_t i = s.length > 0 && (s.at[0] == '-' || s.at[0] == '+');
    bool any = false, point = false;
    *mantissa = 0;
    *decimals = *digits = 0;
    for (; i < s.length; i++) {
        if (s.at[i] == '.' && !point) {
            point = true;
        } else if (s.at[i] >= '0' && s.at[i] <= '9') {
            any = true;
            *mantissa = *mantissa * 10 + (s.at[i] - '0');
            *digits += *digits > 0 || s.at[i] != '0';
            *decimals += point;
        } else {
            break;
        }
    }
    if (!any || i == s.length)
        return any;
    if (s.at[i] != 'e' && s.at[i] != 'E')
        return false;
    *digits = 99;
    i++;
    i += i < s.length && (s.at[i] == '-' || s.at[i] == '+');
    size_t from = i;
    while (i < s.length && s.at[i] >= '0' && s.at[i] <= '9')
        i++;
    return i > from && i == s.length;
}

bool
yaml_number(const struct yaml_node *node, double *number)
{
    static const double powers[] = {1,   1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                    1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    double mantissa;
    int decimals, digits;
    if (node == NULL || node->kind != YAML_SCALAR_NODE || node->quoted ||
        !number_scan(node->text, &mantissa, &decimals, &digits))
        return false;
    if (digits <= 15 && decimals <= 15) {
        /* both are exact, so the quotient is rounded once, as strtod would */
        double value = mantissa / powers[decimals];
        *number = node->text.at[0] == '-' ? -value : value;
        return true;
    }
    char copy[64];
    if (node->text.length >= sizeof copy)
        return false;
    memcpy(copy, node->text.at, node->text.length);
    copy[node->text.length] = '\0';
    *number = strtod(copy, NULL);
    return *number - *number == 0; /* 1e999 is none */
}

bool
yaml_truth(const struct yaml_node *node, bool *truth)
{
    static const char *const words[] = {"no", "yes", "false", "true", "off", "on"};
    if (node == NULL || node->kind != YAML_SCALAR_NODE || node->quoted)
        return false;
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (slice_is_anycase(node->text, words[i])) {
            *truth = i % 2 != 0;
            return true;
        }
    }
    return false;
}
