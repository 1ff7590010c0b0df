#include "read/language_tag.h"

/* one subtag: its bytes, and of what they are */
struct subtag {
    size_t length, letters, digits;
    char first;
};

static bool
next(struct slice text, size_t *at, struct subtag *out)
{
    *out = (struct subtag){0};
    if (*at >= text.length)
        return false;
    out->first = text.at[*at];
    for (; *at < text.length && text.at[*at] != '-'; ++*at) {
        char c = text.at[*at];
        out->length++;
        out->letters += (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        out->digits += c >= '0' && c <= '9';
    }
    ++*at; /* over the hyphen */
    return true;
}

static bool
is_word(const struct subtag *s)
{
    return s->length >= 1 && s->length <= 8 && s->letters + s->digits == s->length;
}

static bool
is_letters(const struct subtag *s, size_t least, size_t most)
{
    return s->letters == s->length && s->length >= least && s->length <= most;
}

static bool
is_variant(const struct subtag *s)
{
    return is_word(s) && (s->length >= 5 || (s->length == 4 && s->first >= '0' && s->first <= '9'));
}

/* extensions and what is for private use: a letter or digit alone, and words behind it */
static bool
rest_valid(struct slice text, size_t at, struct subtag s, bool more)
{
    while (more) {
        bool alone = is_word(&s) && s.length == 1;
        bool private = alone && (s.first == 'x' || s.first == 'X');
        size_t words = 0, least = private ? 1 : 2;
        while (alone && (more = next(text, &at, &s)) && is_word(&s) && s.length >= least)
            words++;
        if (!alone || words == 0)
            return false;
    }
    return true;
}

bool
language_tag_valid(struct slice text)
{
    struct subtag s;
    size_t at = 0;
    if (text.length == 0 || text.at[text.length - 1] == '-' || !next(text, &at, &s))
        return false;
    if (s.length == 1)
        return (s.first == 'x' || s.first == 'X') && rest_valid(text, at, s, true);
    if (!is_letters(&s, 2, 8))
        return false;
    bool short_name = s.length <= 3, more = next(text, &at, &s);
    for (int i = 0; i < 3 && short_name && more && is_letters(&s, 3, 3); i++)
        more = next(text, &at, &s);
    if (more && is_letters(&s, 4, 4))
        more = next(text, &at, &s);
    if (more && (is_letters(&s, 2, 2) || (s.length == 3 && s.digits == 3)))
        more = next(text, &at, &s);
    while (more && is_variant(&s))
        more = next(text, &at, &s);
    return rest_valid(text, at, s, more);
}

bool
language_tag_decimal_comma(struct slice text)
{
    static const char *const languages[] = {"bg", "cs", "da", "de", "el", "es", "et", "fi",
                                            "fr", "hr", "hu", "id", "is", "it", "lt", "lv",
                                            "nb", "nl", "nn", "no", "pl", "pt", "ro", "ru",
                                            "sk", "sl", "sr", "sv", "tr", "uk", "vi"};
    static const char *const points[] = {"-CH", "-LI", "-MX", "-US"};
    for (size_t i = 0; i < sizeof points / sizeof *points; i++)
        if (slice_ends(text, points[i]))
            return false;
    if (text.length > 2 && text.at[2] != '-')
        return false;
    for (size_t i = 0; i < sizeof languages / sizeof *languages; i++)
        if (slice_is_anycase(slice_part(text, 0, 2), languages[i]))
            return true;
    return false;
}
