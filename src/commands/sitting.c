#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/list.h"
#include "base/shown.h"
#include "commands/commands.h"
#include "compile/compile.h"
#include "compile/together.h"
#include "press/atomic_file.h"
#include "press/post_file.h"
#include "press/post_index.h"
#include "read/yaml_tree.h"
#include "read/yaml_value.h"
#include "write/report.h"
#include "write/sitting_page.h"

static const char help[] =
    "usage: dariole sitting [-C CONTENT] POST [--portions N] POST [--portions N]... [--json]\n"
    "       dariole sitting [-C CONTENT] --day FILE [--json]\n\n"
    "What portions of several posts eaten at one sitting come to: the same food in two of them is\n"
    "one serve, and all count together. POST is a file, here or in CONTENT, or a post's slug.\n\n"
    "  -C CONTENT    the content folder, whose tables/ override the installed ones (content)\n"
    "  --portions N  so many portions of the post named before it (1)\n"
    "  --day FILE    meals instead: a YAML map from a meal's name to its list of posts, each a "
    "slug\n"
    "                or {post: slug, portions: N}; each meal is a sitting. Nothing is kept.\n"
    "  --json        one JSON object a sitting (schemas/sitting.schema.json)\n\n"
    "Exit: 0; 1 when a sitting is over; 2 wrong use; 3 the machine failed.\n";

enum { DAY_BYTES_MOST = 1 << 20 };
static const double PORTIONS_MOST = 100;

struct eaten {
    const char *post;
    double portions;
};

struct meal {
    struct slice name;
    LIST_OF(struct eaten) eaten;
};

struct sitting_command {
    struct arena *arena;
    const char *content, *day;
    bool json;
    LIST_OF(struct meal) meals;
    struct tables *tables;
    struct post_index index;
    struct map recurring; /* food's name -> in how many meals */
    bool over;
};

static int
misuse(const char *what, const char *word)
{
    shown_printf(stderr, "dariole sitting: %s '%s'; `dariole sitting --help` tells the options\n",
                 what, word);
    return EXIT_USE;
}

static bool
read_portions(const char *word, double *out)
{
    char *end;
    *out = strtod(word, &end);
    return *end == '\0' && end != word && *out > 0 && *out <= PORTIONS_MOST;
}

/* EXIT_CLEAN to go on, else what to exit with; -1 after --help */
static int
options_read(struct sitting_command *c, int argc, char **argv)
{
    struct meal meal = {.name = SLICE("")};
    bool ended = false;
    for (int i = 1; i < argc; i++) {
        const char *word = argv[i];
        const bool valued = !ended && (strcmp(word, "-C") == 0 || strcmp(word, "--day") == 0 ||
                                       strcmp(word, "--portions") == 0);
        if (valued && i + 1 == argc)
            return misuse("a word is missing behind", word);
        if (ended || word[0] != '-') {
            *LIST_GROW(c->arena, &meal.eaten) = (struct eaten){word, 1};
        } else if (strcmp(word, "--") == 0) {
            ended = true;
        } else if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0) {
            fputs(help, stdout);
            return -1;
        } else if (strcmp(word, "--json") == 0) {
            c->json = true;
        } else if (strcmp(word, "-C") == 0) {
            c->content = argv[++i];
        } else if (strcmp(word, "--day") == 0) {
            c->day = argv[++i];
        } else if (strcmp(word, "--portions") == 0) {
            if (meal.eaten.count == 0)
                return misuse("no post stands before", word);
            if (!read_portions(argv[++i], &meal.eaten.items[meal.eaten.count - 1].portions))
                return misuse("not a number of portions:", argv[i]);
        } else {
            return misuse("there is no option", word);
        }
    }
    if (c->day != NULL && meal.eaten.count > 0)
        return misuse("posts and --day exclude each other:", c->day);
    if (c->day == NULL && meal.eaten.count == 0)
        return misuse("a post is missing behind", "sitting");
    if (c->day == NULL)
        *LIST_GROW(c->arena, &c->meals) = meal;
    return EXIT_CLEAN;
}

static bool
read_meal(struct sitting_command *c, const struct yaml_node *list, struct meal *meal)
{
    for (size_t i = 0; list->kind == YAML_LIST_NODE && i < list->count; i++) {
        const struct yaml_node *item = list->items[i], *post = item, *portions = NULL;
        struct eaten eaten = {NULL, 1};
        if (item->kind == YAML_MAP_NODE) {
            post = yaml_get(item, "post");
            portions = yaml_get(item, "portions");
        }
        if (post == NULL || post->kind != YAML_SCALAR_NODE ||
            (portions != NULL && (!yaml_number(portions, &eaten.portions) ||
                                  !(eaten.portions > 0 && eaten.portions <= PORTIONS_MOST)))) {
            shown_printf(stderr,
                         "%s:%u:%u: error: not a post: a slug, or {post: slug, portions: 2}\n",
                         c->day, (unsigned)item->place.line, (unsigned)item->place.column);
            return false;
        }
        eaten.post = slice_string(c->arena, post->text);
        *LIST_GROW(c->arena, &meal->eaten) = eaten;
    }
    if (meal->eaten.count > 0)
        return true;
    shown_printf(stderr, "%s:%u:%u: error: a meal is a list of posts: lunch: [carrot-soup]\n",
                 c->day, (unsigned)list->place.line, (unsigned)list->place.column);
    return false;
}

/* the meals of a day's file; what is wrong in it is told */
static int
read_day(struct sitting_command *c)
{
    struct notices notices = {.arena = c->arena};
    struct failure f;
    struct slice bytes;
    if (!atomic_file_read(c->arena, c->day, DAY_BYTES_MOST, &bytes, &f)) {
        shown_printf(stderr, "dariole sitting: %s\n", f.text);
        return EXIT_MACHINE;
    }
    const struct yaml_node *map = yaml_tree_read(c->arena, bytes, 1, &notices);
    for (size_t i = 0; i < notices.count; i++)
        shown_printf(stderr, "%s:%u:%u: error: %.*s\n", c->day,
                     (unsigned)notices.items[i].place.line, (unsigned)notices.items[i].place.column,
                     SLICE_ARGS(notices.items[i].what));
    if (map == NULL || notices.count > 0 || map->kind != YAML_MAP_NODE || map->count == 0) {
        shown_printf(stderr, "%s:1:1: error: a day is a map from meal to posts\n", c->day);
        return EXIT_USE;
    }
    for (size_t i = 0; i < map->count; i++) {
        struct meal meal = {.name = yaml_key(map, i)->text};
        if (!read_meal(c, yaml_value(map, i), &meal))
            return EXIT_USE;
        *LIST_GROW(c->arena, &c->meals) = meal;
    }
    return EXIT_CLEAN;
}

/* a post named by its slug or its file; NULL after a line on standard error */
static const struct outcome *
compile_named(struct sitting_command *c, const char *named)
{
    struct outcome *o = arena_take_array(c->arena, 1, sizeof *o);
    struct reads *reads = arena_take_array(c->arena, 1, sizeof *reads);
    struct post_asking asking = {&c->index, c->arena};
    const struct post_finder posts = {post_index_find, post_index_settle, &asking};
    const struct compile_sources sources = {c->tables, NULL, &posts};
    struct post_bytes post;
    struct failure f;
    struct slice why;
    *reads = reads_new(c->arena);
    if (!post_index_find(&asking, slice_of(named), &post)) {
        post.path = post_file_named(c->arena, c->content, named);
        if (!atomic_file_read_start(c->arena, post.path, POST_BYTES_MOST + 1, &post.bytes, &f)) {
            shown_printf(stderr, "dariole sitting: %s: neither a slug nor a file: %s\n", named,
                         f.text);
            return NULL;
        }
    }
    compile_post(c->arena, &sources, &post, reads, o);
    if (together_can(o, &why))
        return o;
    shown_printf(stderr, "dariole sitting: %s: %.*s\n", post.path, SLICE_ARGS(why));
    return NULL;
}

/* counts the foods of a meal, each once, by the larder's names */
static void
count_foods(struct sitting_command *c, const struct together *g)
{
    struct map seen = map_new(c->arena);
    for (size_t i = 0; i < g->sheet.entry_count; i++) {
        const struct food *food = g->sheet.entries[i].food;
        if (food == NULL || !map_put(&seen, slice_of(food->name), c))
            continue;
        const uintptr_t before = (uintptr_t)map_get(&c->recurring, slice_of(food->name));
        map_put(&c->recurring, slice_of(food->name), (void *)(before + 1));
    }
}

static int
print_meal(struct sitting_command *c, const struct meal *meal, struct text *out)
{
    struct together_part *parts = arena_take_array(c->arena, meal->eaten.count + 1, sizeof *parts);
    struct together *g = arena_take(c->arena, sizeof *g);
    struct reads reads = reads_new(c->arena);
    for (size_t i = 0; i < meal->eaten.count; i++) {
        parts[i].outcome = compile_named(c, meal->eaten.items[i].post);
        parts[i].portions = meal->eaten.items[i].portions;
        if (parts[i].outcome == NULL)
            return EXIT_USE;
    }
    together_reckon(c->arena, c->tables, parts, meal->eaten.count, &reads, g);
    c->over = c->over || g->stand.best_standing == STANDING_OVER;
    count_foods(c, g);
    if (c->json) {
        struct json_writer n = json_new(out);
        sitting_page_json(&n, g, meal->name);
        text_add_byte(out, '\n');
    } else {
        text_add_string(out, out->length > 0 ? "\n" : "");
        sitting_page_write(out, g, meal->name);
    }
    return EXIT_CLEAN;
}

/* "Again in several meals: rice (3), carrot (2)." */
static void
print_recurring(const struct sitting_command *c, struct text *out)
{
    size_t named = 0;
    for (size_t i = 0; i < c->recurring.count; i++) {
        const struct map_row *row = &c->recurring.rows[i];
        if ((uintptr_t)row->value < 2)
            continue;
        text_addf(out, "%s%.*s (%zu)", named++ == 0 ? "\nAgain in several meals: " : ", ",
                  SLICE_ARGS(row->key), (size_t)(uintptr_t)row->value);
    }
    text_add_string(out, named > 0 ? ".\n" : "");
}

static int
sitting_run(struct sitting_command *c)
{
    struct table_layers layers;
    struct failure f;
    struct text out = text_new(c->arena);
    int status = c->day != NULL ? read_day(c) : EXIT_CLEAN;
    if (status != EXIT_CLEAN)
        return status;
    c->tables = arena_take(c->arena, sizeof *c->tables);
    if (!tables_layers(c->arena, c->content, &layers, &f) ||
        !tables_load(c->arena, &layers, NULL, c->tables, &f)) {
        shown_printf(stderr, "dariole sitting: %s\n", f.text);
        return EXIT_MACHINE;
    }
    c->recurring = map_new(c->arena);
    for (size_t i = 0; i < c->meals.count && status == EXIT_CLEAN; i++)
        status = print_meal(c, &c->meals.items[i], &out);
    if (status != EXIT_CLEAN)
        return status;
    if (!c->json && c->meals.count > 1)
        print_recurring(c, &out);
    if (!shown_print(stdout, text_slice(&out), c->json) || fflush(stdout) != 0) {
        fputs("dariole sitting: cannot write\n", stderr);
        return EXIT_MACHINE;
    }
    return c->over ? EXIT_FINDINGS : EXIT_CLEAN;
}

int
commands_sitting(int argc, char **argv)
{
    struct arena *a = arena_open((size_t)1 << 16);
    if (a == NULL || setjmp(*arena_guard(a)) != 0) {
        fputs("dariole sitting: there is no memory\n", stderr);
        return EXIT_MACHINE;
    }
    struct sitting_command *c = arena_take_array(a, 1, sizeof *c);
    c->arena = a;
    c->content = "content";
    int status = options_read(c, argc, argv);
    if (status == EXIT_CLEAN) {
        const int folder = open(c->content, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
        if (post_index_open(&c->index, folder, c->content)) {
            status = sitting_run(c);
            post_index_close(&c->index);
        } else {
            status = EXIT_MACHINE;
        }
        if (folder >= 0)
            close(folder);
    }
    arena_close(a);
    return status < 0 ? EXIT_CLEAN : status;
}
