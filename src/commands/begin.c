#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/shown.h"
#include "base/failure.h"
#include "base/text.h"
#include "commands/commands.h"

static const char help[] =
    "usage: dariole begin FOLDER\n\n"
    "Makes a new blog: FOLDER/site.yaml with its settings and FOLDER/posts/ with one post to\n"
    "change. Files that are there already are left alone and make it stop.\n\n"
    "Then: dariole press -C FOLDER -o SITE\n";

static const char site[] =
    "# The settings of this site. Every key may be left out.\n"
    "title: My recipes\n"
    "description: Recipes with their portions reckoned.\n"
    "address: https://recipes.example/     # where the site is published\n"
    "author: A. Writer\n"
    "language: en-GB\n"
    "measures: uk                          # of posts that do not say: us us-label au nz uk ca "
    "metric jp\n"
    "regions: [uk, us, au]                 # whose measures readers can switch to\n"
    "phase: strict                         # strict or wider: whose limits decide the findings\n"
    "microwaves: [700, 800, 900, 1000]     # powers in W that microwave times are given for\n"
    "# The same keys and the limits, foods and measures can be overridden entry by entry by files "
    "of\n"
    "# the same names in this folder; dariole-tables(5) says how.\n";

static const char post_head[] = "---\n"
                                "title: Carrot and ginger soup\n"
                                "summary: A smooth soup for a cold evening.\n"
                                "published: ";
static const char post_rest[] =
    "\n"
    "measures: uk\n"
    "portions: 4\n"
    "category: Soup\n"
    "keywords: [soup, carrot, ginger]\n"
    "ingredients:\n"
    "  - 1 tbsp olive oil\n"
    "  - 20 g fresh ginger, grated\n"
    "  - 600 g carrots, peeled and sliced\n"
    "  - 1 litre water\n"
    "  - ½ tsp salt\n"
    "  - 1 tbsp lemon juice\n"
    "times: {prep: 15 min, cook: 25 min}\n"
    "claims: [vegan, gluten-free]\n"
    "---\n"
    "Change this post into one of your own, or write another beside it.\n"
    "\n"
    "## Method\n"
    "\n"
    "1. Warm the olive oil in a pan and stir the ginger in it for 2 minutes.\n"
    "2. Add the carrots, the water and the salt; simmer for 20 minutes until soft.\n"
    "3. Blend until smooth and stir in the lemon juice.\n"
    "\n"
    "## Notes\n"
    "\n"
    "Cool what is left quickly and keep it in the refrigerator for up to 3 days.\n";

static bool
folder_make(const char *path, struct failure *f)
{
    if (mkdir(path, 0777) != 0 && errno != EEXIST)
        return failure_say_errno(f, "cannot make the folder %s", path);
    return true;
}

/* writes a file that must not be there yet */
static bool
file_make(const char *path, struct slice bytes, struct failure *f)
{
    int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (fd < 0)
        return failure_say_errno(f, "cannot make %s", path);
    ssize_t n = write(fd, bytes.at, bytes.length);
    bool whole = n >= 0 && (size_t)n == bytes.length;
    if (!whole)
        failure_say_errno(f, "cannot write %s", path);
    if (close(fd) != 0 && whole)
        whole = failure_say_errno(f, "cannot write %s", path);
    if (!whole)
        unlink(path);
    return whole;
}

/* SOURCE_DATE_EPOCH where it is set, else today */
static void
date_write(char *out, size_t room)
{
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    time_t now = epoch != NULL ? (time_t)strtoll(epoch, NULL, 10) : time(NULL);
    struct tm day;
    if (gmtime_r(&now, &day) == NULL || strftime(out, room, "%Y-%m-%d", &day) == 0)
        snprintf(out, room, "2026-01-01");
}

static bool
begin(struct arena *a, const char *folder, struct failure *f)
{
    const char *posts = text_format(a, "%s/posts", folder);
    char date[16];
    date_write(date, sizeof date);
    struct text post = text_new(a);
    text_addf(&post, "%s%s%s", post_head, date, post_rest);
    return folder_make(folder, f) && folder_make(posts, f) &&
           file_make(text_format(a, "%s/site.yaml", folder), SLICE(site), f) &&
           file_make(text_format(a, "%s/carrot-and-ginger-soup.md", posts), text_slice(&post), f);
}

int
commands_begin(int argc, char **argv)
{
    if (argc == 2 && (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0)) {
        fputs(help, stdout);
        return EXIT_CLEAN;
    }
    if (argc != 2 || argv[1][0] == '-' || argv[1][0] == '\0') {
        fputs(help, stderr);
        return EXIT_USE;
    }
    struct failure f = {""};
    struct arena *a = arena_open(1 << 14);
    if (a == NULL || setjmp(*arena_guard(a)) != 0) {
        arena_close(a);
        fputs("dariole begin: the machine has no memory left\n", stderr);
        return EXIT_MACHINE;
    }
    bool made = begin(a, argv[1], &f);
    arena_close(a);
    if (!made) {
        shown_printf(stderr, "dariole begin: %s\n", f.text);
        return EXIT_MACHINE;
    }
    shown_printf(stderr, "Made %s/site.yaml and %s/posts. Next: dariole press -C %s -o site\n",
                 argv[1], argv[1], argv[1]);
    return EXIT_CLEAN;
}
