#include "oracles.h"

#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistr.h>

#include "compile/compile.h"
#include "press/outputs.h"
#include "tables/table_cache.h"
#include "write/record_make.h"
#include "write/report.h"
#include "write/worksheet.h"
#include "write/worksheet_json.h"

static void
fail(const char *what, struct slice bytes)
{
    fprintf(stderr, "oracle: %s in\n%.*s\n", what, SLICE_ARGS(slice_part(bytes, 0, 4000)));
    abort();
}

static void
check_text(struct slice bytes)
{
    if (u8_check((const uint8_t *)bytes.at, bytes.length) != NULL)
        fail("no UTF-8", bytes);
    for (size_t i = 0; i < bytes.length; i++)
        if (bytes.at[i] == '\0' ||
            ((unsigned char)bytes.at[i] < ' ' && strchr("\n\r\t", bytes.at[i]) == NULL))
            fail("a control character", slice_part(bytes, i > 40 ? i - 40 : 0, i + 40));
}

void
oracles_json(struct slice bytes)
{
    json_error_t error;
    check_text(bytes);
    json_t *j =
        json_loadb(bytes.at, bytes.length, JSON_DECODE_ANY | JSON_REJECT_DUPLICATES, &error);
    if (j == NULL)
        fail(error.text, bytes);
    json_decref(j);
}

static bool
is_name(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == ':' || c == '_';
}

static bool
is_void(struct slice name)
{
    static const char *const words[] = {"br",   "hr",  "img", "input",  "link", "meta",
                                        "path", "col", "wbr", "source", NULL};
    for (size_t i = 0; words[i] != NULL; i++)
        if (slice_is(name, words[i]))
            return true;
    return false;
}

static struct slice
take_name(struct slice s, size_t *at)
{
    const size_t from = *at;
    while (*at < s.length && is_name(s.at[*at]))
        ++*at;
    return slice_part(s, from, *at);
}

static void
check_attribute(struct slice s, struct slice name, struct slice value)
{
    if (slice_begins(name, "on"))
        fail("an event attribute", s);
    value = slice_trim(value);
    if ((slice_is(name, "href") || slice_is(name, "src")) &&
        (slice_is_anycase(slice_part(value, 0, 11), "javascript:") ||
         slice_is_anycase(slice_part(value, 0, 9), "vbscript:") ||
         slice_is_anycase(slice_part(value, 0, 10), "data:text/")))
        fail("a link that runs", s);
    if (slice_find_byte(value, '<', 0) != SIZE_MAX)
        fail("a bare < in an attribute", s);
}

/* from behind a tag's name to behind its >; whether it closes itself */
static bool
check_attributes(struct slice s, size_t *at)
{
    for (;;) {
        while (*at < s.length && (s.at[*at] == ' ' || s.at[*at] == '\n'))
            ++*at;
        if (*at >= s.length)
            fail("an open tag", s);
        if (s.at[*at] == '>') {
            ++*at;
            return false;
        }
        if (s.at[*at] == '/' && *at + 1 < s.length && s.at[*at + 1] == '>') {
            *at += 2;
            return true;
        }
        const struct slice name = take_name(s, at);
        if (name.length == 0)
            fail("no attribute", slice_part(s, *at > 60 ? *at - 60 : 0, *at + 60));
        if (*at + 1 >= s.length || s.at[*at] != '=')
            continue;
        if (s.at[*at + 1] != '"')
            fail("an attribute without quotes", s);
        const size_t end = slice_find_byte(s, '"', *at + 2);
        check_attribute(s, name, slice_part(s, *at + 2, end));
        *at = end == SIZE_MAX ? s.length : end + 1;
    }
}

enum { DEPTH_MOST = 400 };

void
oracles_markup(struct slice s, bool xml)
{
    struct slice open[DEPTH_MOST];
    size_t depth = 0;
    check_text(s);
    for (size_t at = slice_find_byte(s, '<', 0); at < s.length; at = slice_find_byte(s, '<', at)) {
        at++;
        if (at < s.length && (s.at[at] == '!' || s.at[at] == '?')) {
            at++;
            continue;
        }
        const bool closes = at < s.length && s.at[at] == '/';
        at += closes;
        const struct slice name = take_name(s, &at);
        if (name.length == 0)
            fail("a bare <", slice_part(s, at > 60 ? at - 60 : 0, at + 60));
        const bool empty = check_attributes(s, &at);
        if (slice_is(name, "script")) {
            if (slice_find(slice_part(s, 0, at), "type=\"application/ld+json\"", at - 40) ==
                SIZE_MAX)
                fail("a script", s);
            at = slice_find(s, "</script", at);
            if (at == SIZE_MAX)
                fail("a script without an end", s);
            at += 8;
        } else if (closes) {
            while (!xml && depth > 0 && !slice_equal(open[depth - 1], name))
                depth--; /* HTML ends some by itself: p, li */
            if (depth == 0 || !slice_equal(open[--depth], name))
                fail("a closing tag of nothing", slice_part(s, at > 90 ? at - 90 : 0, at));
        } else if (!empty && (xml || !is_void(name)) && depth < DEPTH_MOST) {
            open[depth++] = name;
        }
    }
    if (xml && depth > 0)
        fail("an element without an end", s);
}

static void
check_pieces(const struct record *r)
{
    static const enum piece_of_record objects[] = {RECORD_CATALOGUE, RECORD_DATAFEED,
                                                   RECORD_JSON_FEED};
    for (size_t i = 0; i < sizeof objects / sizeof *objects; i++)
        if (r->pieces[objects[i]].length > 0) /* a post without a date has no part in feeds */
            oracles_json(r->pieces[objects[i]]);
    oracles_markup(r->pieces[RECORD_ATOM], true);
    oracles_markup(r->pieces[RECORD_SITEMAP], true);
    oracles_markup(r->pieces[RECORD_INDEX], false);
    check_text(r->pieces[RECORD_FINDINGS]);
}

static void
check_output(const struct output_text *o)
{
    const struct slice pattern = slice_of(o->pattern);
    if (slice_ends(pattern, ".html"))
        oracles_markup(o->bytes, false);
    else if (slice_ends(pattern, ".json"))
        oracles_json(o->bytes);
    else if (slice_begins(pattern, "clips/"))
        check_text(o->bytes);
    if (!outputs_pattern(pattern))
        fail("an output without a name", pattern);
}

static void
check_post(struct arena *a, const struct tables *t, const char *name, struct slice bytes)
{
    struct reads reads = reads_new(a);
    struct outcome *o = arena_take(a, sizeof *o);
    const struct compile_sources sources = {t, NULL, NULL};
    const struct post_bytes post = {name, bytes};
    struct record record;
    compile_post(a, &sources, &post, &reads, o);
    record_make(a, o, &record);
    check_pieces(&record);
    struct text findings = text_new(a), results = text_new(a);
    report_json(&findings, &o->findings);
    oracles_json(text_slice(&findings));
    text_addf(&results, "[%.*s]", SLICE_ARGS(record.pieces[RECORD_SARIF]));
    oracles_json(text_slice(&results));
    if (o->publishable) {
        struct output_text outputs[OUTPUTS_MOST];
        const size_t count = outputs_of_post(a, o, 2, SLICE(""), outputs);
        for (size_t i = 0; i < count; i++)
            check_output(&outputs[i]);
    }
    if (o->post.readable) {
        struct text sheet = text_new(a), json = text_new(a);
        worksheet_text(&sheet, o);
        check_text(text_slice(&sheet));
        worksheet_json(&json, o);
        oracles_json(text_slice(&json));
    }
}

void
oracles_post(const struct tables *t, const char *name, struct slice bytes)
{
    struct arena *a = arena_open((size_t)1 << 20);
    struct arena *before = arena_lend(a);
    if (setjmp(*arena_guard(a)) == 0)
        check_post(a, t, name, bytes);
    arena_lend(before);
    arena_close(a);
}

const struct tables *
oracles_tables(void)
{
    static struct tables tables;
    static bool loaded;
    struct table_layers layers = {.folders = {"content/tables"}, .count = 1};
    struct failure f = {""};
    if (loaded)
        return &tables;
    json_set_alloc_funcs(arena_lent_malloc, arena_lent_free);
    json_object_seed(1);
    struct arena *a = arena_open((size_t)1 << 20); /* stays */
    if (setjmp(*arena_guard(a)) != 0 || !tables_load(a, &layers, "", &tables, &f)) {
        fprintf(stderr, "%s\n", f.text);
        abort();
    }
    loaded = true;
    return &tables;
}
