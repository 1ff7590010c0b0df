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

void
clips_judge(const struct post *post, struct notices *notices, struct clips *out)
{
    const struct front_matter *f = &post->front;
    const size_t steps = step_count(&post->body);
    *out = (struct clips){.seconds = f->video_seconds};
    if (f->clips.count == 0 || f->video_url.text.length == 0)
        return;
    out->items = arena_take_array(notices->arena, f->clips.count, sizeof *out->items);
    for (size_t i = 0; i < f->clips.count; i++) {
        struct clip clip = f->clips.items[i];
        if (!time_fits(&clip, out, notices))
            continue;
        if (clip.step_number > steps) {
            tell(notices, &clip.step, &clip, SLICE("names a step that the method does not have"));
            clip.step_number = 0;
        }
        out->items[out->count++] = clip;
    }
    if (out->seconds == 0)
        tell(notices, &f->clips.items[0].at, &f->clips.items[0],
             SLICE("and the others cannot be held against the video's length: it is not given"));
}
