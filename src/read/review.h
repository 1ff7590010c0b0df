/* A dietitian's review of a post, as its front matter gives it: who, when, and the digest of what
 * was signed. Whose name it is, is the writer's affair. */
#ifndef READ_REVIEW_H
#define READ_REVIEW_H

#include "read/front_value.h"

struct review {
    struct front_value by, on, digest; /* each empty where not given */
};

/* keys of a review, NULL-terminated */
extern const char *const review_keys[];

/* takes in {by, on, digest}; what is wrong is left out with a notice */
void review_read(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
                 struct review *out);

#endif
