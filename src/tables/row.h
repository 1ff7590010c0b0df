/* A row of a table while it is read, and what is said when something in it is wrong: where, what
 * was read, what is wanted, the known word that is near, what mends it and what holds until then.
 */
#ifndef TABLES_ROW_H
#define TABLES_ROW_H

#include "read/yaml_tree.h"

struct row {
    struct arena *arena; /* of what is said */
    struct arena *texts; /* of the texts of figures */
    struct notices *notices;
    struct slice entry; /* "banana", "strict/fructan", "site.yaml" */
    const char *until;  /* "Until then the food is left out."; or NULL */
    bool wrong;         /* something in it is */
};

/* says “entry”: words. `mend` is a sentence. Returns false, for those who return so themselves. */
bool row_wrong(struct row *row, const struct yaml_node *node, const char *mend, const char *format,
               ...) __attribute__((format(printf, 4, 5)));
/* "“entry”: part is a list; yes or no is wanted", with the mend "Write example." */
bool row_wants(struct row *row, const struct yaml_node *node, const char *part, const char *wanted,
               const char *example);
/* "“entry”: part has “vegetabel”, which is no class of foods; did you mean “vegetable”?" `known`
 * ends with NULL. */
bool row_word_unknown(struct row *row, const struct yaml_node *node, const char *part,
                      const char *kind, const char *const *known);
/* "“entry”: there is no key “nmae” in a food; did you mean “name”?" */
bool row_key_unknown(struct row *row, const struct yaml_node *key, const char *of,
                     const char *const *known);

/* a text: a scalar that is not empty; says so where it is none */
bool row_text(struct row *row, const struct yaml_node *node, const char *part);
/* a mapping; says so where it is none. Nothing at all passes as an empty one. */
bool row_map(struct row *row, const struct yaml_node *node, const char *part, const char *example);
/* yes or no; says so where it is neither */
bool row_truth(struct row *row, const struct yaml_node *node, const char *part, bool *out);
/* a number from `least` to `most`; says what it is where it is none */
bool row_number(struct row *row, const struct yaml_node *node, const char *part, double least,
                double most, double *out);
/* a date, YYYY-MM-DD; says so where it is none */
bool row_date(struct row *row, const struct yaml_node *node);

/* what a value is, for a message: “0,5”, a list, a mapping, nothing */
const char *row_said(struct arena *a, const struct yaml_node *node);
/* the index of a word among known ones, or -1 */
int row_word(struct slice word, const char *const *known);
/* the words of a numbered list, NULL-terminated */
const char **row_words(struct arena *a, const char *(*name)(int), int count);

#endif
