#include "judge/recommended.h"

/* required and recommended properties of recipe rich results: image is required; the others
 * recommended. From memory: Google Search Central, "Recipe structured data". Times and yield are
 * checked where they are reckoned. */
void
recommended_judge(const struct post *post, struct notices *notices)
{
    const struct front_matter *f = &post->front;
    static const struct place top = {1, 0, 0};
    if (f->image_file.text.length == 0)
        notice_add(notices, RULE_IMAGE_MISSING, top, SLICE(""), SLICE(""));
    else if (f->image_alt.text.length == 0)
        notice_add(notices, RULE_IMAGE_MISSING, f->image_file.place,
                   SLICE(" that can be read aloud: image has no alt"), SLICE(""));
    const struct {
        const struct said *said;
        struct slice lacks, key;
    } recommended[] = {
        {&f->summary, SLICE("a description"), SLICE("summary:")},
        {&f->published, SLICE("a date of publication"), SLICE("published:")},
        {&f->category, SLICE("a category (soup, bread, breakfast)"), SLICE("category:")},
    };
    for (size_t i = 0; i < sizeof recommended / sizeof *recommended; i++)
        if (recommended[i].said->text.length == 0)
            notice_add(notices, RULE_DATA_RECOMMENDED, top, recommended[i].lacks,
                       recommended[i].key);
    if (f->keywords.count == 0)
        notice_add(notices, RULE_DATA_RECOMMENDED, top, SLICE("keywords"), SLICE("keywords:"));
}
