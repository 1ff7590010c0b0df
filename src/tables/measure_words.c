#include "tables/measure_words.h"

const char *
measure_fill_word(enum fill fill)
{
    static const char *const fill_words[] = {
        [FILL_NONE] = "none",     [FILL_LEVEL] = "level", [FILL_ROUNDED] = "rounded",
        [FILL_HEAPED] = "heaped", [FILL_SCANT] = "scant", [FILL_PACKED] = "packed",
        [FILL_SIFTED] = "sifted",
    };
    return fill_words[fill];
}

size_t
measure_words(struct slice words, bool lower, char out[UNIT_BYTES_MOST])
{
    size_t n = 0;
    words = slice_trim(words);
    for (size_t i = 0; i < words.length; i++) {
        char c = words.at[i];
        if (c == '.')
            continue;
        bool space = c == ' ' || c == '-' || (c >= '\t' && c <= '\r');
        if (i + 1 < words.length && c == '\xc2' && words.at[i + 1] == '\xa0') {
            space = true;
            i++;
        }
        if (space) {
            if (n == 0 || out[n - 1] == ' ')
                continue;
            c = ' ';
        }
        if (lower && c >= 'A' && c <= 'Z')
            c = (char)(c - 'A' + 'a');
        if (n == UNIT_BYTES_MOST)
            return 0;
        out[n++] = c;
    }
    while (n > 0 && out[n - 1] == ' ')
        n--;
    return n;
}

struct slice
measure_first_word(struct slice words)
{
    size_t space = slice_find_byte(words, ' ', 0);
    return slice_part(words, 0, space == SIZE_MAX ? words.length : space);
}
