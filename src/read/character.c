#include "read/character.h"

#include <string.h>

static const struct fraction fractions[] = {
    {"½", 1.0 / 2}, {"⅓", 1.0 / 3}, {"⅔", 2.0 / 3}, {"¼", 1.0 / 4}, {"¾", 3.0 / 4},
    {"⅕", 1.0 / 5}, {"⅖", 2.0 / 5}, {"⅗", 3.0 / 5}, {"⅘", 4.0 / 5}, {"⅙", 1.0 / 6},
    {"⅚", 5.0 / 6}, {"⅛", 1.0 / 8}, {"⅜", 3.0 / 8}, {"⅝", 5.0 / 8}, {"⅞", 7.0 / 8},
};

static const struct folding foldings[] = {
    {"‐", "-"},
    {"‑", "-"},
    {"‒", "-"},
    {"–", "-"},
    {"—", "-"},
    {"−", "-"},
    {"×", "x"},
    {"º", "°"},
    {"℃", "°c"},
    {"℉", "°f"},
    {"“", "\""},
    {"”", "\""},
    {"…", "."},
    {"≈", "~"},
    {"•", "."},
    {"\xc2\xa0", " "},
    {"\xe2\x80\x89", " "},
    {"\xe2\x80\xaf", " "},
    {"\xe2\x80\x8b", " "},
    {"\xef\xbb\xbf", " "},
};

const struct folding *
character_folding(struct slice s)
{
    if (s.length < 2 || ((unsigned char)s.at[0] != 0xc2 && (unsigned char)s.at[0] != 0xc3 &&
                         (unsigned char)s.at[0] != 0xe2 && (unsigned char)s.at[0] != 0xef))
        return NULL;
    for (size_t i = 0; i < sizeof foldings / sizeof *foldings; i++)
        if (slice_begins(s, foldings[i].bytes))
            return &foldings[i];
    return NULL;
}

const struct fraction *
character_fraction(struct slice s)
{
    if (s.length < 2 || ((unsigned char)s.at[0] != 0xc2 && (unsigned char)s.at[0] != 0xe2))
        return NULL;
    for (size_t i = 0; i < sizeof fractions / sizeof *fractions; i++)
        if (slice_begins(s, fractions[i].bytes))
            return &fractions[i];
    return NULL;
}

size_t
character_length(struct slice s)
{
    unsigned char c = (unsigned char)s.at[0];
    size_t n = c < 0x80 ? 1 : c < 0xe0 ? 2 : c < 0xf0 ? 3 : 4;
    return n < s.length ? n : s.length;
}

size_t
character_space(struct slice s)
{
    if (s.length == 0)
        return 0;
    if (s.at[0] == ' ' || (s.at[0] >= '\t' && s.at[0] <= '\r'))
        return 1;
    const struct folding *f = character_folding(s);
    return f != NULL && f->as[0] == ' ' ? strlen(f->bytes) : 0;
}
