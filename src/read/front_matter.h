/* The front matter of a post, checked key by key: types, unknown and doubled keys, what is missing.
 */
#ifndef READ_FRONT_MATTER_H
#define READ_FRONT_MATTER_H

#include "base/span.h"
#include "read/nearest.h"
#include "read/yaml_tree.h"

/* a text with its place; length 0 when not given */
struct said {
    struct slice text;
    struct place place;
};

struct part_lines {
    struct said name;               /* empty when the ingredients are one list */
    const struct yaml_node **lines; /* scalars (plain lines) or maps */
    size_t count;
};

struct said_time {
    bool given;
    struct span seconds;
    struct said said;
};

struct answer { /* a finding answered in the post: answers: {rule: reason} */
    struct said rule, reason;
};

struct said_list {
    struct said *items;
    size_t count, room;
};

struct front_matter {
    struct said title, summary, author, slug, language, category, cuisine, storage;
    struct said published, updated; /* checked ISO 8601 dates: YYYY-MM-DD or with time and zone */
    struct said measures;           /* region id, as written */
    struct said yield;              /* "24 fingers", "900 g", "1.2 L" */
    struct said portion;            /* "4 fingers", "150 g" */
    struct said portions;           /* "6" or "4-6": from `portions` or `serves` */
    struct part_lines *parts;
    size_t part_count;
    struct said_time prep, cook, rest, total;
    struct said_list claims, keywords, equipment;
    struct said image_file, image_alt, image_credit;
    double image_width, image_height; /* 0: not given */
    struct said video_url, video_name, video_description, video_thumbnail, video_uploaded;
    struct answer *answers;
    size_t answer_count;
    bool draft; /* checked, but nothing is published */
};

/* fills `out` from the tree; wrong values are left out with a notice. List values may also be
 * written as one line with commas, an image as its file alone. */
void front_matter_read(struct arena *a, const struct yaml_node *map, struct notices *notices,
                       struct front_matter *out);

/* all keys, NULL-terminated, for schemas and completion; then those within times, image, video */
extern const char *const front_matter_keys[];
extern const char *const front_matter_time_keys[];
extern const char *const front_matter_image_keys[];
extern const char *const front_matter_video_keys[];

/* a notice that `key` is not one of the known keys, with the nearest of them */
void front_matter_unknown_key(struct arena *a, const struct yaml_node *key,
                              const char *const *known, struct notices *notices);

#endif
