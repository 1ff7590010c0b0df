#include "write/chapters.h"

#include <math.h>

/* where a clip ends: as the next begins, or with the video; 0 when nobody says */
static double
clip_end(const struct clips *c, size_t i)
{
    return i + 1 < c->count ? c->items[i + 1].seconds : c->seconds;
}

bool
chapters_known(const struct outcome *o)
{
    return o->clips.count > 0 && o->clips.seconds > 0;
}

/* "00:01:35.500": hours of two digits or more, as WebVTT wants them */
static void
write_stamp(struct text *t, double seconds)
{
    const uint64_t ms = (uint64_t)llround(seconds * 1000);
    text_addf(t, "%02u:%02u:%02u.%03u", (unsigned)(ms / 3600000), (unsigned)(ms / 60000 % 60),
              (unsigned)(ms / 1000 % 60), (unsigned)(ms % 1000));
}

/* a cue's text on one line, its markup signs escaped */
static void
write_cue_text(struct text *t, struct slice words)
{
    for (size_t i = 0; i < words.length; i++) {
        const char c = words.at[i];
        if (c == '&')
            text_add_string(t, "&amp;");
        else if (c == '<')
            text_add_string(t, "&lt;");
        else if (c == '>')
            text_add_string(t, "&gt;");
        else
            text_add_byte(t, c == '\n' || c == '\r' ? ' ' : c);
    }
}

void
chapters_write_vtt(struct text *t, const struct outcome *o)
{
    const struct clips *c = &o->clips;
    text_add_string(t, "WEBVTT\n");
    for (size_t i = 0; i < c->count; i++) {
        text_addf(t, "\n%zu\n", i + 1);
        write_stamp(t, c->items[i].seconds);
        text_add_string(t, " --> ");
        write_stamp(t, clip_end(c, i));
        text_add_byte(t, '\n');
        write_cue_text(t, c->items[i].name.text);
        text_add_byte(t, '\n');
    }
}

void
chapters_write_lines(struct text *t, const struct outcome *o)
{
    const struct clips *c = &o->clips;
    const bool hours = c->count > 0 && c->items[c->count - 1].seconds >= 3600;
    for (size_t i = 0; i < c->count; i++) {
        const unsigned at = (unsigned)c->items[i].seconds;
        const struct slice name = c->items[i].name.text;
        if (hours)
            text_addf(t, "%u:%02u:%02u ", at / 3600, at / 60 % 60, at % 60);
        else
            text_addf(t, "%u:%02u ", at / 60, at % 60);
        for (size_t b = 0; b < name.length; b++)
            text_add_byte(t, name.at[b] == '\n' || name.at[b] == '\r' ? ' ' : name.at[b]);
        text_add_byte(t, '\n');
    }
}

/* the video's address with the time: a media fragment (W3C Media Fragments URI 1.0) where it is a
 * file, else the query that players commonly take */
static struct slice
clip_address(struct arena *a, struct slice url, double seconds)
{
    const bool file =
        slice_ends(url, ".mp4") || slice_ends(url, ".webm") || slice_ends(url, ".mov");
    const char *sign = file ? "#" : slice_find_byte(url, '?', 0) != SIZE_MAX ? "&" : "?";
    struct text t = text_new(a);
    text_add(&t, url);
    text_addf(&t, "%st=%u", sign, (unsigned)seconds);
    return text_slice(&t);
}

static void
add_clip(struct json_writer *n, const struct outcome *o, size_t i)
{
    const struct clip *clip = &o->clips.items[i];
    const double end = clip_end(&o->clips, i);
    json_open(n, '{');
    json_member_word(n, "@type", "Clip");
    json_member(n, "name", clip->name.text);
    json_key(n, "startOffset");
    json_number(n, clip->seconds, 0);
    if (end > 0) {
        json_key(n, "endOffset");
        json_number(n, end, 0);
    }
    json_member(n, "url",
                clip_address(n->text->arena, o->post.front.video_url.text, clip->seconds));
    json_close(n, '}');
}

void
chapters_add_parts(struct json_writer *n, const struct outcome *o)
{
    if (o->clips.count == 0)
        return;
    json_member_open(n, "hasPart", '[');
    for (size_t i = 0; i < o->clips.count; i++)
        add_clip(n, o, i);
    json_close(n, ']');
}

void
chapters_add_of_step(struct json_writer *n, const struct outcome *o, size_t step)
{
    for (size_t i = 0; i < o->clips.count; i++) {
        if (o->clips.items[i].step_number != step)
            continue;
        json_key(n, "video");
        add_clip(n, o, i);
        return;
    }
}
