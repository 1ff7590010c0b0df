/* The links of a body to other posts' files. */
#ifndef READ_BODY_LINKS_H
#define READ_BODY_LINKS_H

#include "base/notice.h"

struct body_link {
    struct slice url;
    struct place place;
};

struct body_links {
    struct body_link *items;
    size_t count, room;
};

#endif
