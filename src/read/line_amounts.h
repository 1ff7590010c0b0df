/* All amounts that stand together in a line: "1 cup plus 2 tbsp (170 g / 6 oz)", "2 x 400 g tins",
 * "1 (14-oz) can". */
#ifndef READ_LINE_AMOUNTS_H
#define READ_LINE_AMOUNTS_H

#include "read/amount.h"
#include "read/line_clean.h"

struct amount_list {
    struct amount *items; /* from, to: bytes in the line as written */
    size_t count, room;
};

struct line_reader {
    struct arena *arena;
    const struct lexicon *lexicon;
    struct clean_line *clean;
    size_t last_from, last_to; /* of the last amount read, in the clean line */
    bool each_said;            /* "1 tsp each": the amount is one of each food that follows */
};

/* reads amounts from byte `at` of the clean line, not past `end`; where what follows them begins
 * ("of" skipped), or `at` when there are none */
size_t line_amounts(struct line_reader *r, size_t at, size_t end, struct amount_list *out);

/* reads a bracket at `at` that holds amounts; its bytes, or 0 when it holds something else */
size_t line_bracket(struct line_reader *r, size_t at, size_t end, struct amount_list *out);

/* reads bytes from..to when they are one more measure and nothing else ("about 150 g", "400 g
 * each"); false when they are something else */
bool line_measure(struct line_reader *r, size_t from, size_t to, struct amount_list *out);

/* the byte behind the bracket that opens at `at`, or `end` when it never closes */
size_t line_bracket_end(const struct clean_line *line, size_t at, size_t end);

#endif
