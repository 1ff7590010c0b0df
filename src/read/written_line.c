#include "read/written_line.h"

#include "read/yaml_source.h"

struct place
written_line_place(const struct ingredient_line *line, size_t from, size_t to)
{
    if (line->origin != NULL) {
        to = to > from ? line->origin[to - 1] + 1 : line->origin[from];
        from = line->origin[from];
    }
    if (line->node != NULL)
        return yaml_place_in(line->node, from, to);
    struct slice before = slice_part(line->text, 0, from);
    return (struct place){1, (uint32_t)slice_characters(before) + 1,
                          (uint32_t)slice_characters(slice_part(line->text, from, to))};
}
