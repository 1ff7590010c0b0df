/* Writes N posts of about 2 KB, the same for the same N: `posts FOLDER N`. Foods, amounts, regions
 * and methods differ from post to post; one post in a hundred, and no other, carries lactose. */
#include <errno.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>

struct line {
    const char *text;  /* with %s for an amount */
    const char *named; /* as the method names it */
    const char *grams[3];
};

static const struct line bases[] = {
    {"%s basmati rice", "basmati rice", {"300 g", "1½ cups", "350 g"}},
    {"%s quinoa", "quinoa", {"250 g", "1 cup", "280 g"}},
    {"%s polenta", "polenta", {"200 g", "1 cup (170 g)", "240 g"}},
    {"%s millet", "millet", {"220 g", "1 cup", "300 g"}},
    {"%s potatoes, diced", "potatoes", {"800 g", "900 g", "1 kg"}},
    {"%s rice noodles", "rice noodles", {"250 g", "300 g", "400 g"}},
    {"%s buckwheat", "buckwheat", {"240 g", "1 cup", "300 g"}},
};
static const struct line vegetables[] = {
    {"%s carrots, sliced", "carrots", {"200 g", "3", "2 medium"}},
    {"%s tomatoes, chopped", "tomatoes", {"300 g", "4", "3 medium"}},
    {"%s cucumber, diced", "cucumber", {"150 g", "1", "200 g"}},
    {"%s spinach", "spinach", {"150 g", "100 g", "120 g"}},
    {"%s parsnips, diced", "parsnips", {"200 g", "2", "250 g"}},
    {"%s lettuce, shredded", "lettuce", {"100 g", "80 g", "120 g"}},
    {"%s kale, chopped", "kale", {"100 g", "150 g", "120 g"}},
    {"%s aubergine, diced", "aubergine", {"200 g", "1", "150 g"}},
    {"%s courgette, sliced", "courgette", {"150 g", "1 small", "120 g"}},
    {"%s bean sprouts", "bean sprouts", {"100 g", "150 g", "120 g"}},
};
static const struct line proteins[] = {
    {"%s firm tofu, cubed", "tofu", {"300 g", "250 g", "400 g"}},
    {"%s tempeh, sliced", "tempeh", {"200 g", "250 g", "180 g"}},
    {"%s canned lentils, drained", "lentils", {"200 g", "150 g", "180 g"}},
    {"%s walnuts, chopped", "walnuts", {"60 g", "½ cup", "50 g"}},
    {"%s pumpkin seeds", "pumpkin seeds", {"60 g", "⅓ cup", "2 tbsp"}},
    {"%s peanuts", "peanuts", {"80 g", "½ cup", "60 g"}},
};
static const struct line seasonings[] = {
    {"%s tamari", "tamari", {"2 tbsp", "1 tbsp", "30 ml"}},
    {"%s maple syrup", "maple syrup", {"1 tbsp", "2 tbsp", "20 ml"}},
    {"%s lemon juice", "lemon juice", {"2 tbsp", "1 tbsp", "40 ml"}},
    {"%s rice vinegar", "rice vinegar", {"1 tbsp", "2 tsp", "20 ml"}},
    {"%s smoked paprika", "smoked paprika", {"1 tsp", "2 tsp", "½ tsp"}},
    {"%s ground cumin", "cumin", {"1 tsp", "½ tsp", "2 tsp"}},
    {"%s ginger, grated", "ginger", {"1 tbsp", "10 g", "2 tsp"}},
    {"%s fresh basil", "basil", {"10 g", "15 g", "20 g"}},
};
static const char *const places[] = {"harbour", "valley", "orchard", "mill",    "garden",
                                     "market",  "winter", "summer",  "Sunday",  "weekday",
                                     "lantern", "kettle", "picnic",  "workday", "hillside"};
static const char *const kinds[] = {"bowl", "bake", "salad", "pan", "supper", "stew"};
static const char *const regions[] = {"metric", "au", "us", "uk", "nz", "ca"};

#define COUNT(a) (sizeof(a) / sizeof *(a))

/* SplitMix64 */
static uint64_t
draw(uint64_t *state)
{
    uint64_t z = (*state += UINT64_C(0x9e3779b97f4a7c15));
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

static size_t
pick(uint64_t *state, size_t count)
{
    return (size_t)(draw(state) % count);
}

static void
write_line(FILE *to, const struct line *l, uint64_t *state)
{
    fputs("    - ", to);
    fprintf(to, l->text, l->grams[pick(state, 3)]);
    fputc('\n', to);
}

struct dish {
    const struct line *base, *first, *second, *third, *protein, *sour, *sweet;
    size_t place, kind, region, minutes;
    unsigned long number;
    int milk;
};

static struct dish
invent(unsigned long number, uint64_t *state)
{
    struct dish d = {.number = number, .milk = number % 100 == 37};
    size_t v = pick(state, COUNT(vegetables)), s = pick(state, COUNT(seasonings));
    d.base = &bases[pick(state, COUNT(bases))];
    d.first = &vegetables[v];
    d.second = &vegetables[(v + 1 + pick(state, 4)) % COUNT(vegetables)];
    d.third = &vegetables[(v + 5 + pick(state, 4)) % COUNT(vegetables)];
    d.protein = &proteins[pick(state, COUNT(proteins))];
    d.sour = &seasonings[s];
    d.sweet = &seasonings[(s + 1 + pick(state, 6)) % COUNT(seasonings)];
    d.place = pick(state, COUNT(places));
    d.kind = pick(state, COUNT(kinds));
    d.region = pick(state, COUNT(regions));
    d.minutes = 10 + pick(state, 30);
    return d;
}

static void
write_front(FILE *to, const struct dish *d, uint64_t *state)
{
    fprintf(to, "---\ntitle: %s and %s %s, number %lu\n", d->base->named, d->first->named,
            kinds[d->kind], d->number);
    fprintf(to, "summary: A %s %s of %s with %s and %s, made in one go.\n", places[d->place],
            kinds[d->kind], d->base->named, d->first->named, d->protein->named);
    fprintf(to, "published: 20%02u-%02u-%02u\n", (unsigned)(10 + pick(state, 16)),
            (unsigned)(1 + pick(state, 12)), (unsigned)(1 + pick(state, 28)));
    fprintf(to, "measures: %s\ncategory: Main\nkeywords: [main, %s, %s]\nportions: %u\n",
            regions[d->region], d->base->named, places[d->place], (unsigned)(4 + pick(state, 3)));
    fputs("ingredients:\n  The pan:\n", to);
    write_line(to, d->base, state);
    write_line(to, d->first, state);
    write_line(to, d->second, state);
    write_line(to, d->third, state);
    write_line(to, d->protein, state);
    fputs("    - 2 tbsp olive oil\n    - 600 ml water\n", to);
    if (d->milk)
        fputs("    - 250 ml milk\n", to);
    fputs("  The sauce:\n", to);
    write_line(to, d->sour, state);
    write_line(to, d->sweet, state);
    fputs("    - ½ tsp salt\n", to);
    fprintf(to, "times: {prep: 20 min, cook: %zu min}\n", d->minutes + 15);
    fputs("claims: [gluten-free]\n", to);
    fprintf(
        to,
        "image: {file: https://pictures.example/pan-%lu.jpg, alt: \"A pan of %s with %s.\"}\n---\n",
        d->number, d->base->named, d->first->named);
}

static void
write_body(FILE *to, const struct dish *d)
{
    fprintf(
        to,
        "This %s %s comes from a notebook that has seen many kitchens. It keeps the %s whole,\n"
        "leaves the *%s* with some bite, and needs **no more than one pan** and a bowl. Serve "
        "it\nwarm, or cold on the day after; see [how we cool rice](https://example.org/cool-%lu)"
        ".\n\n## Method\n\n### The pan\n\n",
        places[d->place], kinds[d->kind], d->base->named, d->first->named, d->number % 50);
    fprintf(to, "1. Rinse the %s and cook it in the water for %zu minutes, until it is soft.\n",
            d->base->named, d->minutes);
    fprintf(to,
            "2. Heat the olive oil in a wide pan. Fry the %s and the %s for 5 minutes, and stir\n"
            "   now and then, until the edges brown.\n",
            d->first->named, d->second->named);
    fprintf(to, "3. Add the %s and the %s and cook for 4 to 5 minutes more.\n", d->third->named,
            d->protein->named);
    if (d->milk)
        fputs("4. Pour in the milk and let it simmer for 3 minutes.\n", to);
    fprintf(to,
            "\n### The sauce\n\n1. Stir the %s with the %s and the salt.\n2. Pour the sauce over "
            "the pan, toss with the %s, and leave to stand for 2 minutes.\n\n## Notes\n\n",
            d->sour->named, d->sweet->named, d->base->named);
    fprintf(
        to,
        "- The %s can be cut on the day before and kept in the refrigerator.\n- It keeps for 2 "
        "days in the refrigerator. Heat it until it steams all through.\n- Where the %s is old, "
        "a little more of the %s mends it.\n- For a larger table make it twice rather than in "
        "one pan: a crowded pan\n  steams what it should fry.\n",
        d->second->named, d->first->named, d->sour->named);
}

int
main(int argc, char **argv)
{
    if (argc != 3) {
        fputs("usage: posts FOLDER N\n", stderr);
        return 2;
    }
    unsigned long count = strtoul(argv[2], NULL, 10);
    uint64_t state = 20;
    if (mkdir(argv[1], 0777) != 0 && errno != EEXIST) {
        perror(argv[1]);
        return 3;
    }
    for (unsigned long i = 0; i < count; i++) {
        char path[4096];
        snprintf(path, sizeof path, "%s/post-%06lu.md", argv[1], i);
        FILE *to = fopen(path, "w");
        if (to == NULL) {
            perror(path);
            return 3;
        }
        struct dish d = invent(i, &state);
        write_front(to, &d, &state);
        write_body(to, &d);
        if (fclose(to) != 0) {
            perror(path);
            return 3;
        }
    }
    return 0;
}
