#include "judge/picture.h"

/* with which the built-in media types of web servers serve a picture as one */
const char *const picture_endings[] = {"avif", "gif", "jpeg", "jpg", "png", "svg", "webp", NULL};

static const char *const reasons[] = {
    [PICTURE_FOUND] = "",
    [PICTURE_MISSING] = "is neither beside the post nor in the content folder",
    [PICTURE_TOO_LARGE] = "is larger than 16 MB, which readers would have to wait for",
    [PICTURE_OUTSIDE] = "is a link that leads out of the content folder",
    [PICTURE_OTHER_KIND] = "holds something else than its ending says",
    [PICTURE_ACTIVE] = "holds more than a drawing (a script, an event attribute, a link that runs)",
};

static const char *
ending_of(struct slice file)
{
    size_t dot = file.length;
    while (dot > 0 && file.at[dot - 1] != '.' && file.at[dot - 1] != '/')
        dot--;
    if (dot < 2 || file.at[dot - 1] != '.' || file.at[dot - 2] == '/')
        return NULL;
    for (size_t i = 0; picture_endings[i] != NULL; i++)
        if (slice_is_anycase(slice_part(file, dot, file.length), picture_endings[i]))
            return picture_endings[i];
    return NULL;
}

/* a path from the root, or one that climbs */
static bool
leads_out(struct slice file)
{
    for (size_t from = 0; from <= file.length;) {
        size_t slash = slice_find_byte(file, '/', from);
        size_t end = slash == SIZE_MAX ? file.length : slash;
        if (end == 0 || slice_is(slice_part(file, from, end), ".."))
            return true;
        from = end + 1;
    }
    return false;
}

void
picture_judge(const struct post *post, const struct picture_finder *finder, struct notices *notices,
              struct picture *out)
{
    const struct front_value *front_value = &post->front.image_file;
    struct slice file = front_value->text, why = SLICE("");
    *out = (struct picture){.state = PICTURE_NONE};
    out->size = (struct picture_size){post->front.image_width, post->front.image_height};
    if (file.length == 0)
        return;
    if (slice_find(file, "://", 0) != SIZE_MAX) {
        out->state = PICTURE_AWAY;
        return;
    }
    const char *ending = ending_of(file);
    if (leads_out(file)) {
        why = SLICE("leads out of the content folder");
    } else if (ending == NULL) {
        why = SLICE("is no picture that browsers show (avif, gif, jpeg, jpg, png, svg, webp)");
    } else {
        struct slice bytes = SLICE("");
        enum picture_found found =
            finder != NULL ? finder->find(finder->ctx, file, &bytes) : PICTURE_FOUND;
        const struct picture_size size = picture_size_read(bytes);
        if (found == PICTURE_FOUND)
            *out = (struct picture){PICTURE_HERE, ending, size.width > 0 ? size : out->size};
        why = slice_of(reasons[found]);
    }
    if (out->state == PICTURE_NONE)
        notice_add(notices, RULE_IMAGE_FILE, front_value->place, file, why);
}
