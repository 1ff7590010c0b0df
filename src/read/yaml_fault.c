#include "read/yaml_fault.h"

#include <string.h>

#define QUOTES "Put the whole value in quotes: summary: \"Two words: like these\"."
#define EDGES "Begin lines that belong together equally far in, with spaces."
#define BRACKETS \
    "Part the words with commas, close the bracket, and put words that hold brackets in quotes."

static const struct {
    const char *problem;
    struct yaml_fault fault;
} faults[] = {
    {"mapping values are not allowed in this context",
     {"a second colon on the line, or a key further in than the one before",
      "A key ends with a colon and a space. " QUOTES " " EDGES}},
    {"did not find expected key",
     {"neither a key nor the end of the keys",
      EDGES " Words that hold quotes stand whole in quotes of the other kind."}},
    {"did not find expected '-' indicator",
     {"a line of a list was expected",
      EDGES " Words that hold quotes stand whole in quotes of the other kind."}},
    {"could not find expected ':'",
     {"the line before is neither a key nor a line of a list",
      "A key ends with a colon and a space; a line of a list begins with a dash and a space."}},
    {"did not find expected alphabetic or numeric character",
     {"* and & have a meaning of their own here",
      "A line of a list begins with a dash and a space; put words that begin with * or & in "
      "quotes."}},
    {"found character that cannot start any token",
     {"nothing can begin with this character", QUOTES}},
    {"did not find expected <document start>",
     {"the keys do not begin equally far in",
      "Begin every key of the front matter at the left edge."}},
    {"block sequence entries are not allowed in this context",
     {"a list cannot begin behind its key",
      "Begin the list on the next line, each of its lines with a dash and a space."}},
    {"found unexpected end of stream",
     {"quotes or a bracket that nothing closes", "Close them, with the same kind."}},
    {"did not find expected ',' or ']'", {"a list in brackets that breaks off", BRACKETS}},
    {"did not find expected ',' or '}'", {"a map in braces that breaks off", BRACKETS}},
    {"found unknown escape character",
     {"a backslash before a letter that means nothing",
      "Write two backslashes, or use single quotes."}},
    {"a tab where YAML takes only spaces",
     {"a tab where YAML takes only spaces", "Indent with spaces."}},
};

struct yaml_fault
yaml_fault_of(const char *problem)
{
    for (size_t i = 0; i < sizeof faults / sizeof *faults; i++)
        if (strcmp(problem, faults[i].problem) == 0)
            return faults[i].fault;
    return (struct yaml_fault){problem, "Check the indentation, the colons and the quotes on this "
                                        "line and the one before."};
}
