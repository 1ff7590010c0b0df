/* A post: one Markdown file with front matter, read into its parts. */
#ifndef READ_POST_H
#define READ_POST_H

#include "read/body.h"
#include "read/front_matter.h"

enum { POST_BYTES_MOST = 4 << 20 };

struct post_bytes {
    const char *path; /* as shown in findings: relative to the content folder's parent */
    struct slice bytes;
};

struct post {
    const char *path;  /* as shown in findings */
    struct slice slug; /* from `slug:` or the file's name: a-z 0-9 and hyphens; never empty */
    struct slice bytes;
    struct front_matter front;
    struct body body;
    struct words title_words, summary_words, storage_words;
    struct body_range range; /* where the body stands */
    struct post *dishes; /* of a round-up in one file, one for each of front.dishes: its own front
                            matter and body; the slug is the name of its part of the page */
    size_t dish_count;
    bool readable; /* false: the front matter could not be read; only notices are of use */
};

/* bytes must live as long as the arena; never fails: what is wrong is in the notices. Of a larger
 * file the caller reads POST_BYTES_MOST + 1 bytes and passes those: more than POST_BYTES_MOST is
 * never looked into. Of a round-up in one file the body is left to post_dishes_read. */
void post_read(struct arena *a, const struct word_lists *lists, const struct post_bytes *file,
               struct notices *notices, struct post *out);

/* the slug of a file name or title: letters without their accents, lower case, hyphens between */
struct slice post_slug(struct arena *a, struct slice name);

#endif
