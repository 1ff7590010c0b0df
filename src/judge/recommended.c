#include "judge/recommended.h"

#include "read/link.h"

static void
add_lack(struct text *lacks, struct text *keys, const char *what, const char *key)
{
    text_addf(lacks, "%s%s", lacks->length > 0 ? ", " : "", what);
    text_addf(keys, "%s%s", keys->length > 0 ? ", " : "", key);
}

/* by the rule alone: it is then told by itself, so that the answer finds it */
static bool
is_answered(const struct front_matter *f, const char *rule)
{
    for (size_t i = 0; i < f->answer_count; i++)
        if (slice_is(slice_trim(f->answers[i].rule.text), rule))
            return true;
    return false;
}

/* all that is missing in one line.
 * Required and recommended properties of recipe rich results: image is required; the others
 * recommended. From memory: Google Search Central, "Recipe structured data". Times and yield are
 * checked where they are reckoned. */
void
recommended_judge(const struct post *post, struct notices *notices)
{
    const struct front_matter *f = &post->front;
    static const struct place top = {1, 0, 0};
    if (f->image_file.text.length > 0 && f->image_alt.text.length == 0)
        notice_add(notices, RULE_IMAGE_MISSING, f->image_file.place,
                   SLICE(" that can be read aloud: image has no alt"), SLICE(""));
    if (link_is_beside(f->video_thumbnail.text))
        notice_add(notices, RULE_IMAGE_LEFT, f->video_thumbnail.place, f->video_thumbnail.text,
                   SLICE(""));
    const struct {
        const struct front_value *front_value;
        const char *lacks, *key;
    } recommended[] = {
        {&f->summary, "a description", "summary:"},
        {&f->published, "a date of publication", "published:"},
        {&f->category, "a category (soup, bread, breakfast)", "category:"},
    };
    struct text lacks = text_new(notices->arena), keys = text_new(notices->arena);
    const bool no_picture = f->image_file.text.length == 0;
    if (no_picture && !is_answered(f, "image-missing"))
        add_lack(&lacks, &keys, "a picture", "image: {file: ..., alt: ...}");
    for (size_t i = 0; i < sizeof recommended / sizeof *recommended; i++)
        if (recommended[i].front_value->text.length == 0)
            add_lack(&lacks, &keys, recommended[i].lacks, recommended[i].key);
    if (f->keywords.count == 0)
        add_lack(&lacks, &keys, "keywords", "keywords:");
    if (f->video_url.text.length > 0 && f->video_thumbnail.text.length == 0)
        add_lack(&lacks, &keys, "a still of the video", "video: {thumbnail: ...}");
    if (f->video_url.text.length > 0 && f->video_uploaded.text.length == 0)
        add_lack(&lacks, &keys, "the day the video was uploaded", "video: {uploaded: ...}");
    const bool alone = slice_is(text_slice(&lacks), "a picture");
    if (alone || (no_picture && is_answered(f, "image-missing")))
        notice_add(notices, RULE_IMAGE_MISSING, top, SLICE(""), SLICE(""));
    if (lacks.length > 0 && !alone)
        notice_add(notices, RULE_DATA_RECOMMENDED, top, text_slice(&lacks), text_slice(&keys));
}
