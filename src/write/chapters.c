#include "write/chapters.h"

#include <math.h>

/* where a clip ends: as the next begins, or with the video; 0 when nobody says */
static double
clip_end(const struct clips *c, size_t i)
{
    return i + 1 < c->count ? c->items[i + 1].seconds : c->seconds;
}

/* the film that shows a dish is its round-up's */
static const struct outcome *
film_of(const struct outcome *o)
{
    return o->part_of != NULL ? o->part_of : o;
}

/* whether a clip of the film shows this dish */
static bool
shows(const struct outcome *o, const struct clip *clip)
{
    return o->part_of == NULL ||
           (clip->dish_number > 0 && o->part_of->members[clip->dish_number - 1].outcome == o);
}

/* its name; of a round-up with the dish before it */
static struct slice
clip_name(struct arena *a, const struct outcome *film, const struct clip *clip)
{
    if (clip->dish_number == 0)
        return clip->name.text;
    const struct slice dish = film->members[clip->dish_number - 1].outcome->post.front.title.text;
    return text_formatted(a, "%.*s: %.*s", SLICE_ARGS(dish), SLICE_ARGS(clip->name.text));
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
        write_cue_text(t, clip_name(t->arena, o, &c->items[i]));
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
        const struct slice name = clip_name(t->arena, o, &c->items[i]);
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
add_clip(struct json_writer *n, const struct outcome *film, size_t i)
{
    const struct clip *clip = &film->clips.items[i];
    const double end = clip_end(&film->clips, i);
    json_open(n, '{');
    json_member_word(n, "@type", "Clip");
    json_member(n, "name", clip_name(n->text->arena, film, clip));
    json_key(n, "startOffset");
    json_number(n, clip->seconds, 0);
    if (end > 0) {
        json_key(n, "endOffset");
        json_number(n, end, 0);
    }
    json_member(n, "url",
                clip_address(n->text->arena, film->post.front.video_url.text, clip->seconds));
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
    const struct outcome *film = film_of(o);
    for (size_t i = 0; i < film->clips.count; i++) {
        const struct clip *clip = &film->clips.items[i];
        if (clip->step_number != step || !shows(o, clip))
            continue;
        json_key(n, "video");
        add_clip(n, film, i);
        return;
    }
}

void
chapters_add_of_dish(struct json_writer *n, const struct outcome *o)
{
    const struct outcome *film = film_of(o);
    size_t count = 0;
    for (size_t i = 0; i < film->clips.count; i++) {
        if (!shows(o, &film->clips.items[i]))
            continue;
        if (count++ == 0)
            json_member_open(n, "video", '[');
        add_clip(n, film, i);
    }
    if (count > 0)
        json_close(n, ']');
}
