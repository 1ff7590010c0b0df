#include "press/output_name.h"

static const char *const folders[] = {"fragments/", "data/", "preview/", "images/"};

const char *
output_folder(int folder)
{
    return folders[folder];
}

int
output_file(struct slice pattern, struct slice slug, char name[OUTPUT_NAME_MOST])
{
    int folder = FOLDER_OUT;
    for (int i = 0; i < FOLDER_OUT; i++)
        if (slice_begins(pattern, folders[i]))
            folder = i;
    size_t slash = slice_find_byte(pattern, '/', 0), star = slice_find_byte(pattern, '*', 0);
    struct slice tail = slice_part(pattern, star + 1, pattern.length);
    size_t used = 0;
    struct slice parts[] = {slice_part(pattern, slash + 1, star), slug, tail};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        for (size_t c = 0; c < parts[i].length && used < OUTPUT_NAME_MOST - 1; c++)
            name[used++] = parts[i].at[c];
    name[used] = '\0';
    return folder;
}

int
pressing_output_name(const struct ledger *l, struct slice slug, uint32_t pattern,
                     char name[OUTPUT_NAME_MOST])
{
    return output_file(ledger_string(l, l->head.patterns[pattern]), slug, name);
}
