#include "read/stem.h"

#include "read/initials.h"

/* words that describe a food and do not name it */
static const char *const describing[INITIALS][20] = {
    ['a' - 'a'] = {"a", "an", "and", "about", "all", "as"},
    ['b' - 'a'] = {"big", "black", "brown", "boiling", "baby", "boneless", "bunch"},
    ['c' - 'a'] = {"chopped", "cooked", "canned", "cold", "coarse", "coarsely", "certified",
                   "crushed", "can", "clove", "caster"},
    ['d' - 'a'] = {"dried", "dry", "diced", "dark", "dairy"},
    ['e' - 'a'] = {"extra", "each"},
    ['f' - 'a'] = {"fresh", "freshly", "frozen", "fine", "finely", "firm", "free", "for", "full",
                   "fat", "few", "flat", "favourite", "floury"},
    ['g' - 'a'] = {"grated", "ground", "green", "golden", "gluten", "good", "granulated"},
    ['h' - 'a'] = {"hot", "heaped", "handful", "half", "halved"},
    ['i' - 'a'] = {"in", "infused", "instant", "icing"},
    ['j' - 'a'] = {"jar", "juice"},
    ['k' - 'a'] = {"knob"},
    ['l' - 'a'] = {"large", "light", "level", "low", "lean", "leaf", "long"},
    ['m' - 'a'] = {"medium", "melted", "mixed", "mild", "more"},
    ['n' - 'a'] = {"new", "natural"},
    ['o' - 'a'] = {"organic", "of", "or", "only", "one"},
    ['p' - 'a'] = {"pale", "plain", "packed", "peeled", "pure", "pinch", "piece", "pack", "packet",
                   "part", "purpose", "powdered"},
    ['q' - 'a'] = {"quality", "quick"},
    ['r' - 'a'] = {"ripe", "raw", "red", "roughly", "roasted", "range", "rind", "rolled",
                   "raising"},
    ['s' - 'a'] = {"small", "sliced", "soft", "softened", "salted", "sweet", "sifted", "smoked",
                   "style", "skinless", "strong", "sprig", "stick", "stalk", "slice", "short",
                   "self", "such", "shredded"},
    ['t' - 'a'] = {"tinned", "toasted", "the", "to", "thick", "thin", "tin", "top", "two", "three",
                   "thinly", "thickly", "trimmed"},
    ['u' - 'a'] = {"unsalted", "unsweetened", "unpeeled"},
    ['v' - 'a'] = {"virgin", "vegan"},
    ['w' - 'a'] = {"whole", "white", "warm", "with", "waxy", "washed"},
    ['y' - 'a'] = {"yellow", "your"},
    ['z' - 'a'] = {"zest"},
};

bool
stem_describes(const struct stem *s)
{
    return s->text.length > 0 && INITIALS_HAVE(describing, s->text);
}

struct slice
stem_singular(struct arena *a, struct slice w)
{
    static const char *const long_plurals[] = {"oes", "ses", "xes", "ches", "shes", "zes"};
    if (slice_ends(w, "'s"))
        w.length -= 2;
    if (w.length < 4 || w.at[w.length - 1] != 's')
        return w;
    const char before = w.at[w.length - 2];
    if (before == 's' || before == 'u' || before == 'i')
        return w;
    if (before != 'e')
        return slice_part(w, 0, w.length - 1);
    if (slice_ends(w, "ies"))
        return text_formatted(a, "%.*sy", (int)w.length - 3, w.at);
    if (slice_ends(w, "eaves") || slice_ends(w, "oaves") || slice_ends(w, "alves"))
        return text_formatted(a, "%.*sf", (int)w.length - 3, w.at);
    for (size_t i = 0; i < sizeof long_plurals / sizeof *long_plurals; i++)
        if (slice_ends(w, long_plurals[i]) && !slice_ends(w, "cheeses"))
            return slice_part(w, 0, w.length - 2);
    return slice_part(w, 0, w.length - 1);
}
