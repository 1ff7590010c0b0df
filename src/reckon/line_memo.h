/* Ingredient lines that were read, found and weighed before: posts of one site say "1 tsp salt"
 * again and again. One memo per worker. What it remembers is never written to, and places are
 * reckoned from the line's node of the day. */
#ifndef RECKON_LINE_MEMO_H
#define RECKON_LINE_MEMO_H

#include "reckon/household.h"
#include "reckon/sheet.h"

/* one of so many at work together, which share what memory they may hold; NULL when there is none:
 * then lines are read each time */
struct line_memo *line_memo_open(unsigned sharers);
void line_memo_close(struct line_memo *m);
/* Before anything of a post is asked of the memo or its book: forgets all when it holds too much,
 * or when these are other tables than before. What was laid before is then gone. NULL is allowed.
 */
void line_memo_begin(struct line_memo *m, const struct tables *tables);
/* the worker's phrase book, which the words of its lines are marked with; NULL without a memo or
 * memory */
struct phrasebook *line_memo_book(const struct line_memo *m);
/* lays out a plain line as if it were read anew: the same ingredient, reads and notices. False
 * where that is for the caller to do: a line that someone is told of, other tables than the memo
 * began with, or no memory. `a` is for what the post needs alone. */
bool line_memo_lay(struct line_memo *m, struct arena *a, const struct yaml_node *node, int region,
                   const struct tables *tables, struct reads *reads, struct ingredient *out);

/* what household_write_anew gives of a line that was laid by a memo, and its reads. False where
 * nothing is kept of it. */
bool line_memo_household(const struct helping *h, int region, int post_region,
                         const struct tables *t, bool round_down, struct reads *reads,
                         struct household *out);

/* what larder_names gives of words, and its reads: steps too say "add the butter" again and again.
 * m may be NULL. */
bool line_memo_names(struct line_memo *m, struct arena *a, const struct larder *larder,
                     struct slice words, struct reads *reads);

/* what sheet_row_lay gives of an ingredient that was laid by a memo and not changed, and its reads.
 * False where nothing is kept of it. Rows are shared: nobody writes to them. */
bool line_memo_row(const struct ingredient *in, double divisor, const struct tables *t,
                   const struct limit_scope *limit_scope, struct sheet_row *out);

#endif
