/* The front matter of a post, checked key by key: types, unknown and doubled keys, what is missing.
 */
#ifndef READ_FRONT_MATTER_H
#define READ_FRONT_MATTER_H

#include "base/span.h"
#include "read/clips.h"
#include "read/front_ingredients.h"
#include "read/front_value.h"
#include "read/nearest.h"
#include "read/review.h"

struct front_time {
    bool given;
    struct span seconds;
    struct front_value front_value;
};

struct answer { /* a finding answered in the post: answers: {rule: reason} */
    struct front_value rule, reason;
};

struct front_matter;

struct front_dish { /* one dish of a round-up in one file */
    struct front_value name;
    struct front_matter *front; /* its own keys, and those of the post that hold for all dishes */
};

struct front_matter {
    struct front_value title, summary, author, slug, language, category, cuisine, storage;
    struct front_value published,
        updated;                 /* checked ISO 8601 dates: YYYY-MM-DD or with time and zone */
    struct front_value measures; /* region id, as written */
    struct front_value yield;    /* "24 fingers", "900 g", "1.2 L" */
    struct front_value portion;  /* "4 fingers", "150 g" */
    struct front_value portions; /* "6" or "4-6": from `portions` or `serves` */
    struct part_lines *parts;
    size_t part_count;
    struct front_time prep, cook, rest, total;
    struct front_list claims, keywords, equipment;
    struct front_value image_file, image_alt, image_credit;
    double image_width, image_height; /* 0: not given */
    struct front_value video_url, video_name, video_description, video_thumbnail, video_uploaded;
    struct front_value video_length; /* as written: "8:12" */
    double video_seconds;            /* 0: not given */
    struct clip_list clips;
    struct answer *answers;
    size_t answer_count;
    struct front_list gathers; /* slugs of the posts that a round-up gathers */
    struct front_dish *dishes; /* of a round-up in one file */
    size_t dish_count;
    struct front_list eaten_with; /* slugs of what is eaten at the same sitting */
    struct review reviewed;
    bool draft; /* checked, but nothing is published */
};

/* fills `out` from the tree; wrong values are left out with a notice. List values may also be
 * written as one line with commas, an image as its file alone. */
void front_matter_read(struct arena *a, const struct word_lists *lists, const struct yaml_node *map,
                       struct notices *notices, struct front_matter *out);

/* all keys, NULL-terminated, for schemas and completion; then those within times, image, video */
extern const char *const front_matter_keys[];
extern const char *const front_matter_dish_keys[];
extern const char *const front_matter_time_keys[];
extern const char *const front_matter_image_keys[];
extern const char *const front_matter_video_keys[];

/* whether the post is a round-up: it gathers other posts, or holds several dishes */
static inline bool
front_matter_round_up(const struct front_matter *f)
{
    return f->gathers.count > 0 || f->dish_count > 0;
}

/* a notice that `key` is not one of the known keys, with the nearest of them */
void front_matter_unknown_key(const struct front_reader *r, const struct yaml_node *key,
                              const char *const *known);

#endif
