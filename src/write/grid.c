#include "write/grid.h"

#include <string.h>

#include "base/list.h"

struct grid
grid_new(struct arena *a, size_t columns, const char *right)
{
    struct grid g = {.arena = a, .columns = columns};
    for (; *right != '\0'; right++)
        g.right[*right - '0'] = true;
    return g;
}

void
grid_add(struct grid *g, struct slice cell)
{
    g->cells = list_room(g->arena, g->cells, &g->room, g->count, sizeof *g->cells);
    g->cells[g->count++] = cell;
}

static void
fill(struct text *t, size_t count, const char *with)
{
    for (size_t i = 0; i < count; i++)
        text_add_string(t, with);
}

static void
write_row(struct text *t, const struct grid *g, const struct slice *row, const size_t *widths)
{
    size_t from = t->length;
    for (size_t c = 0; c < g->columns; c++) {
        size_t space = widths[c] - slice_characters(row[c]);
        fill(t, c == 0 ? 0 : 2, " ");
        fill(t, g->right[c] ? space : 0, " ");
        text_add(t, row[c]);
        fill(t, g->right[c] || c + 1 == g->columns ? 0 : space, " ");
    }
    while (t->length > from && t->bytes[t->length - 1] == ' ')
        t->length--;
    text_add_byte(t, '\n');
}

void
grid_write(struct text *t, const struct grid *g)
{
    size_t widths[GRID_COLUMNS_MOST] = {0};
    for (size_t i = 0; i < g->count; i++) {
        size_t width = slice_characters(g->cells[i]);
        if (width > widths[i % g->columns])
            widths[i % g->columns] = width;
    }
    for (size_t i = 0; i + g->columns <= g->count; i += g->columns) {
        write_row(t, g, &g->cells[i], widths);
        for (size_t c = 0; i == 0 && c < g->columns; c++) {
            fill(t, c == 0 ? 0 : 2, " ");
            fill(t, widths[c], "─");
        }
        if (i == 0)
            text_add_byte(t, '\n');
    }
}
