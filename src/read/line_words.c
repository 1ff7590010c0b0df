#include "read/line_words.h"

#include <string.h>

#include "read/number.h"

#define COUNT(table) (sizeof(table) / sizeof *(table))

static const char *const how_words[] = {"finely", "freshly", "grated", "squeezed", "strained",
                                        "the",    "fresh",   "pared",  "thinly"};

static const struct {
    const char *words;
    enum of_it of;
} it_words[] = {
    {"juice and zest", OF_JUICE_AND_ZEST},
    {"zest and juice", OF_JUICE_AND_ZEST},
    {"zest & juice", OF_JUICE_AND_ZEST},
    {"juice & zest", OF_JUICE_AND_ZEST},
    {"juice and rind", OF_JUICE_AND_ZEST},
    {"rind and juice", OF_JUICE_AND_ZEST},
    {"juice and grated zest", OF_JUICE_AND_ZEST},
    {"juice and finely grated zest", OF_JUICE_AND_ZEST},
    {"zested and juiced", OF_JUICE_AND_ZEST},
    {"juiced and zested", OF_JUICE_AND_ZEST},
    {"juiced", OF_JUICE},
    {"juice", OF_JUICE},
    {"zested", OF_ZEST},
    {"zest", OF_ZEST},
    {"rind", OF_ZEST},
};

static const char *const optional_words[] = {
    "optional", "if desired",  "if you like", "if liked",         "if wished",
    "if using", "if you wish", "if you want", "(if you have it)",
};

static const char *const purposes[] = {
    "or as needed", "or as required",
    "or to taste",  "or more",
    "or so",        "or less",
    "or enough",    "for",
    "or other",     "or another",
    "or any",       "or similar",
    "or whatever",  "or equivalent",
    "as needed",    "as required",
    "to taste",     "to serve",
    "to garnish",   "to decorate",
    "to finish",    "to brush",
    "to dust",      "to grease",
    "to fry",       "to drizzle",
    "to sprinkle",  "to top",
    "to cook",      "to coat",
    "to roll",      "to line",
    "to cover",     "to mix",
    "to bind",      "to thin",
    "to thicken",   "to make",
    "to glaze",     "to season",
    "to loosen",    "at room temperature",
    "left whole",   "divided",
    "such as",      "e.g.",
    "eg",           "cut into",
    "cut in",       "mixed with",
    "dissolved in", "blended with",
    "whisked with", "combined with",
    "made up",      "made with",
    "mixed into",   "soaked in",
    "including",
};

static const char *const manners[] = {"made without", "made from", "without", "in",
                                      "from",         "like",      "per",     "plus"};

static const char *const no_alternatives[] = {
    "more",
    "to taste",
    "as needed",
    "as required",
    "so",
    "less",
    "other",
    "another",
    "any",
    "similar",
    "equivalent",
    "use",
    "if",
    "until",
    "enough",
    "whatever",
    "your",
    "a bit more",
    "a little more",
    "to your taste",
    "the like",
    "leave",
    "add",
    "omit",
    "skip",
    "keep",
    "as",
    "however",
    "just",
    "try",
    "make",
    "swap",
    "substitute",
    "double",
    "see",
    "you",
    "to your liking",
    "not",
    "thereabouts",
};

static const char *const unmeasured_words[] = {
    "a little extra", "a little more", "a bit extra", "a bit more", "some extra", "some more",
    "extra",          "more",          "a few extra", "a few more", "additional", "a little",
    "a bit",          "some",          "a few",       "enough",
};

/* parts that a line may name before the whole: "flesh of 1 avocado", "yolks of 2 eggs" */
static const char *const part_words[] = {
    "green parts", "green part", "green tops", "green top", "green leaves", "white parts",
    "white part",  "flesh",      "pulp",       "seeds",     "kernels",      "leaves",
    "florets",     "cloves",     "yolks",      "yolk",      "whites",       "white",
    "meat",        "segments",   "fronds",     "stalks",    "stems",        "hearts",
};

static const char *const idle_words[] = {
    "of",
    "the",
    "a little bit of",
    "a little",
    "a bit of",
    "some",
    "a",
    "an",
    "any",
    "about",
    "each",
    "extra amount of",
    "your favourite",
    "your favorite",
    "lots of",
    "plenty of",
    "enough",
};

/* the first of the words that stands at `at`, or NULL */
static const char *
one_of(struct slice s, size_t at, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (word_at(s, at, words[i]))
            return words[i];
    return NULL;
}

static size_t
skip_how(struct slice s, size_t at)
{
    const char *word;
    while ((word = one_of(s, at, how_words, COUNT(how_words))) != NULL)
        at = spaces_skip(s, at + strlen(word));
    return at;
}

static size_t
it_at(struct slice s, size_t at, enum of_it *of)
{
    for (size_t i = 0; i < COUNT(it_words); i++) {
        if (word_at(s, at, it_words[i].words)) {
            *of = it_words[i].of;
            return strlen(it_words[i].words);
        }
    }
    return 0;
}

/* "juice ½ lemon", "zest 1 lime": the "of" left out */
static bool
counts_at(struct slice s, size_t at)
{
    return at < s.length && ((s.at[at] >= '0' && s.at[at] <= '9') ||
                             slice_begins(slice_part(s, at, s.length), "½") ||
                             slice_begins(slice_part(s, at, s.length), "¼"));
}

size_t
words_of_it(struct slice s, size_t at, enum of_it *of)
{
    enum of_it found;
    size_t from = skip_how(s, at), n = it_at(s, from, &found);
    if (n == 0)
        return 0;
    from = spaces_skip(s, from + n);
    const char *word = word_at(s, from, "of") ? "of" : word_at(s, from, "from") ? "from" : NULL;
    if (word == NULL && !counts_at(s, from))
        return 0;
    *of = found;
    if (word == NULL)
        return from - at;
    from = spaces_skip(s, from + strlen(word));
    return (word_at(s, from, "the") ? spaces_skip(s, from + strlen("the")) : from) - at;
}

/* "1", "½", "a", "half": what may stand between "flesh of" and the food */
static bool
begins_count(struct slice s, size_t at)
{
    static const char *const counts[] = {"a", "an", "one", "two", "three", "four", "half"};
    return (at < s.length && s.at[at] >= '0' && s.at[at] <= '9') ||
           slice_begins(slice_part(s, at, s.length), "½") ||
           one_of(s, at, counts, COUNT(counts)) != NULL;
}

size_t
words_part_of(struct slice s, size_t at, struct slice *part)
{
    size_t from = skip_how(s, at);
    const char *word = one_of(s, from, part_words, COUNT(part_words));
    if (word == NULL)
        return 0;
    size_t behind = spaces_skip(s, from + strlen(word));
    if (!word_at(s, behind, "of") && !word_at(s, behind, "from"))
        return 0;
    behind = spaces_skip(s, behind + (word_at(s, behind, "of") ? 2 : 4));
    if (word_at(s, behind, "the"))
        behind = spaces_skip(s, behind + 3);
    if (!begins_count(s, behind))
        return 0;
    *part = slice_part(s, from, from + strlen(word));
    return behind - at;
}

bool
words_is_of_it(struct slice piece, enum of_it *of)
{
    enum of_it found;
    piece = slice_trim(piece);
    size_t from = skip_how(piece, 0), n = it_at(piece, from, &found);
    if (n == 0)
        return false;
    struct slice rest = slice_trim(slice_part(piece, from + n, piece.length));
    if (rest.length > 0 && !slice_is_anycase(rest, "only") && !slice_is_anycase(rest, "of"))
        return false;
    *of = found;
    return true;
}

static bool
is_about(char c)
{
    return c == ' ' || c == ',' || c == '(' || c == ')' || c == ':' || c == '-' || c == '*' ||
           c == ';' || c == '[' || c == ']';
}

/* whether "if you like" ends its remark, and in a bracket is all of it: "(leave the seeds in if you
 * like it hot)" makes no line optional */
static bool
is_whole_remark(struct slice s, size_t from, size_t to)
{
    if (slice_is_anycase(slice_part(s, from, from + 8), "optional"))
        return true;
    to = spaces_skip(s, to);
    if (to < s.length && strchr(",;)].-:", s.at[to]) == NULL)
        return false;
    while (from > 0 && strchr(",;([", s.at[from - 1]) == NULL)
        from--;
    const bool in_bracket = from > 0 && (s.at[from - 1] == '(' || s.at[from - 1] == '[');
    return !in_bracket || (s.at[spaces_skip(s, from)] | 0x20) == 'i';
}

bool
words_find_optional(struct slice s, size_t *from, size_t *to)
{
    for (size_t at = 0; at < s.length; at++) {
        if ((at > 0 && word_byte(s.at[at - 1])) || strchr("oOiI(", s.at[at]) == NULL)
            continue;
        const char *words = one_of(s, at, optional_words, COUNT(optional_words));
        if (words == NULL || !is_whole_remark(s, at, at + strlen(words)))
            continue;
        size_t start = at, end = at + strlen(words);
        while (end < s.length && is_about(s.at[end]) && !(s.at[end] == '(' || s.at[end] == '[') &&
               (at == 0 || s.at[end] == ')' || s.at[end] == ']'))
            end++;
        while (start > 0 && is_about(s.at[start - 1]) && s.at[start - 1] != ')')
            start--;
        /* "(optional, for colour)": the bracket stays open for what follows */
        if (memchr(s.at + start, '(', at - start) != NULL && s.at[end - 1] != ')') {
            start = at;
            while (end < s.length && (s.at[end] == ',' || s.at[end] == ' ' || s.at[end] == ';'))
                end++;
        }
        *from = start;
        *to = end;
        return true;
    }
    return false;
}

bool
words_is_to_taste(struct slice piece)
{
    static const char *const front_value[] = {"to taste",      "or to taste", "to season",
                                              "to your taste", "as you like", "or more to taste"};
    piece = slice_trim(piece);
    for (size_t i = 0; i < COUNT(front_value); i++)
        if (slice_is_anycase(piece, front_value[i]))
            return true;
    return false;
}

size_t
words_find_purpose(struct slice name, bool manner)
{
    for (size_t at = 0; at + 1 < name.length; at++) {
        if (name.at[at] != ' ')
            continue;
        if (one_of(name, at + 1, purposes, COUNT(purposes)) != NULL ||
            (manner && one_of(name, at + 1, manners, COUNT(manners)) != NULL))
            return at;
    }
    return SIZE_MAX;
}

size_t
words_find_packed(struct slice name)
{
    static const char *const liquids[] = {
        "in juice",           "in natural juice",     "in its juice",      "in its own juice",
        "in their juice",     "in their own juice",   "in their juices",   "in own juice",
        "in tomato juice",    "in rich tomato juice", "in fruit juice",    "in apple juice",
        "in pineapple juice", "in light syrup",       "in natural juices", "in brine",
        "in water",           "in salted water",      "in unsalted water", "in spring water",
        "in springwater"};
    for (size_t at = 0; at + 1 < name.length; at++)
        if (name.at[at] == ' ' && one_of(name, at + 1, liquids, COUNT(liquids)) != NULL)
            return at;
    return SIZE_MAX;
}

bool
words_is_purpose(struct slice piece)
{
    return one_of(piece, 0, purposes, COUNT(purposes)) != NULL;
}

bool
words_is_no_alternative(struct slice piece)
{
    return piece.length == 0 || one_of(piece, 0, no_alternatives, COUNT(no_alternatives)) != NULL;
}

size_t
words_unmeasured(struct slice s, size_t at)
{
    const char *words = one_of(s, at, unmeasured_words, COUNT(unmeasured_words));
    return words != NULL ? strlen(words) : 0;
}

size_t
words_idle(struct slice s, size_t at)
{
    size_t from = at;
    const char *words;
    while ((words = one_of(s, from, idle_words, COUNT(idle_words))) != NULL)
        from = spaces_skip(s, from + strlen(words));
    return from - at;
}

size_t
words_little(struct slice s, size_t at)
{
    static const char *const little[] = {
        "a little bit of", "a little", "a bit of", "some",
        "plenty of",       "lots of",  "enough",   "a small amount of"};
    const char *words = one_of(s, at, little, COUNT(little));
    if (words == NULL)
        return 0;
    size_t next = spaces_skip(s, at + strlen(words));
    bool number = next < s.length && s.at[next] >= '0' && s.at[next] <= '9';
    return number || next == s.length ? 0 : next - at;
}
