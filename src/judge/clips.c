#include "judge/clips.h"

static size_t
step_count(const struct body *body)
{
    size_t count = 0;
    for (size_t p = 0; p < body->part_count; p++)
        count += body->parts[p].count;
    return count;
}

static void
tell(struct notices *notices, const struct front_value *value, const struct clip *clip,
     struct slice why)
{
    notice_add(notices, RULE_VIDEO_CLIPS, value->place, clip->name.text, why);
}

/* whether the clip's time fits behind the clips before it, and within the video */
static bool
time_fits(const struct clip *clip, const struct clips *before, struct notices *notices)
{
    if (before->seconds > 0 && clip->seconds >= before->seconds) {
        tell(notices, &clip->at, clip, SLICE("begins at or past the end of the video"));
        return false;
    }
    if (before->count > 0 && clip->seconds <= before->items[before->count - 1].seconds) {
        tell(notices, &clip->at, clip, SLICE("does not begin later than the clip before it"));
        return false;
    }
    return true;
}

/* the number of the dish that a clip names, from 1; 0: of none */
static size_t
dish_of(const struct clip *clip, const struct clip_dishes *dishes, struct arena *a)
{
    const struct slice name = slice_trim(clip->dish.text);
    for (size_t i = 0; i < dishes->count && name.length > 0; i++) {
        const struct post *dish = dishes->posts[i];
        if (dish != NULL && (slice_equal(name, dish->slug) ||
                             slice_equal(post_slug(a, name), post_slug(a, dish->front.title.text))))
            return i + 1;
    }
    return 0;
}

/* the dish and the step of a clip, where they are there */
static void
find_shown(struct clip *clip, const struct post *post, const struct clip_dishes *dishes,
           struct notices *notices)
{
    clip->dish_number = dish_of(clip, dishes, notices->arena);
    if (clip->dish.text.length > 0 && clip->dish_number == 0)
        tell(notices, &clip->dish, clip, SLICE("names a dish that is not among the dishes"));
    const struct post *of = clip->dish_number > 0 ? dishes->posts[clip->dish_number - 1] : post;
    if (clip->step_number > step_count(&of->body)) {
        tell(notices, &clip->step, clip, SLICE("names a step that the method does not have"));
        clip->step_number = 0;
    }
}

void
clips_judge(const struct post *post, const struct clip_dishes *dishes, struct notices *notices,
            struct clips *out)
{
    const struct front_matter *f = &post->front;
    *out = (struct clips){.seconds = f->video_seconds};
    if (f->clips.count == 0 || f->video_url.text.length == 0)
        return;
    out->items = arena_take_array(notices->arena, f->clips.count, sizeof *out->items);
    for (size_t i = 0; i < f->clips.count; i++) {
        struct clip clip = f->clips.items[i];
        if (!time_fits(&clip, out, notices))
            continue;
        find_shown(&clip, post, dishes, notices);
        out->items[out->count++] = clip;
    }
    if (out->seconds == 0)
        tell(notices, &f->clips.items[0].at, &f->clips.items[0],
             SLICE("and the others cannot be held against the video's length: it is not given"));
}
