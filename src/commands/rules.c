#include <stdio.h>
#include <string.h>

#include "base/shown.h"
#include "base/failure.h"
#include "commands/commands.h"
#include "judge/finding.h"
#include "judge/rules.h"

static const char help[] =
    "usage: dariole rules [RULE...]\n\n"
    "Explains a rule: what it means, how to mend what it finds, where it comes from.\n"
    "With no RULE, lists all of them.\n";

static void
list(void)
{
    for (int r = 0; r < RULES; r++)
        printf("%-22s %-8s %s\n", rules_row((enum rule)r)->id,
               finding_level_word(rules_row((enum rule)r)->level),
               rules_row((enum rule)r)->message);
}

static void
explain(const struct rule_row *row)
{
    printf("%s (%s)\n\n%s\n", row->id, finding_level_word(row->level), row->meaning);
    if (row->mend != NULL)
        printf("\nMend: %s\n", row->mend);
    printf("\nSource: %s\n\nTo answer it in a post, with a reason:\n  answers: {%s: ...}\n",
           row->source, row->id);
}

int
commands_rules(int argc, char **argv)
{
    if (argc > 1 && (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0)) {
        fputs(help, stdout);
        return EXIT_CLEAN;
    }
    if (argc == 1)
        list();
    for (int i = 1; i < argc; i++) {
        enum rule r;
        if (!rules_by_id(slice_of(argv[i]), &r)) {
            shown_printf(stderr,
                         "dariole rules: there is no rule '%s'; `dariole rules` lists them\n",
                         argv[i]);
            return EXIT_USE;
        }
        if (i > 1)
            putchar('\n');
        explain(rules_row(r));
    }
    return fflush(stdout) == 0 ? EXIT_CLEAN : EXIT_MACHINE;
}
