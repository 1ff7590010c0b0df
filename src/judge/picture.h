/* The picture of a post: whether its file can be published, and as what. */
#ifndef JUDGE_PICTURE_H
#define JUDGE_PICTURE_H

#include "read/picture_size.h"
#include "read/post.h"

enum { PICTURE_BYTES_MOST = 16 << 20 };

enum picture_state {
    PICTURE_NONE, /* none is named, or it cannot be published: the findings say why */
    PICTURE_AWAY, /* a whole address, shown as it is */
    PICTURE_HERE  /* a file of the blog, published as images/SLUG.ENDING */
};

struct picture {
    enum picture_state state;
    const char *ending;       /* "svg"; of PICTURE_HERE */
    struct picture_size size; /* by its file, else as the post says */
};

enum picture_found {
    PICTURE_FOUND,
    PICTURE_MISSING,
    PICTURE_TOO_LARGE,
    PICTURE_OUTSIDE,    /* a link that leads out of the content folder */
    PICTURE_OTHER_KIND, /* its bytes are not what its ending says */
    PICTURE_ACTIVE      /* a drawing with a script or the like in it */
};

/* looks for the file that a post names, beside the post and then in the content folder; *bytes:
 * what was read of it, or empty */
struct picture_finder {
    enum picture_found (*find)(void *ctx, struct slice file, struct slice *bytes);
    void *ctx;
};

/* endings of the pictures that browsers show, NULL-terminated */
extern const char *const picture_endings[];

/* without a finder the file is taken to be there */
void picture_judge(const struct post *post, const struct picture_finder *finder,
                   struct notices *notices, struct picture *out);

#endif
